//! Putting a portion on record, once.

use super::columns::{Reads, device_to, mode_to, source_to, time_to};
use super::{Sql, Store, StoreError, portions};
use evenhand_kitchen::instrument_clock::InstrumentClock;
use evenhand_kitchen::portion::{RecordedPortion, TimeSource};
use evenhand_protocol::{CapturedPortion, Goal};
use jiff::{SignedDuration, Timestamp};
use rusqlite::{OptionalExtension, Row, Transaction, params};
use std::path::Path;

/// How far an instrument's clock may be put back when it is told the time
/// again: its own drift, not somebody's setting of the clock.
const CORRECTION: SignedDuration = SignedDuration::from_secs(2);

/// What became of a portion that came.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Recorded {
    /// It is on record now.
    New {
        /// The portion.
        portion: Box<RecordedPortion>,
        /// By how much the wall's clock ran backwards between the portion
        /// before and this one, if it did.
        stepped_back: Option<SignedDuration>,
    },
    /// It was on record already.
    Already,
    /// It cannot be taken for a portion, which no instrument that works sends.
    /// What came is kept as evidence and not counted.
    Refused(RefusedPortion),
}

/// Why what came cannot be taken for a portion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RefusedPortion {
    /// Another portion is on record under the same identity.
    Clash,
    /// Its goal makes no sense.
    SenselessGoal,
}

impl core::fmt::Display for RefusedPortion {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Clash => {
                "the scale sent two different portions under one number; the first one counts"
            }
            Self::SenselessGoal => "the scale sent a portion whose target makes no sense",
        })
    }
}

impl Store {
    /// Puts a portion on record, where its identity is not yet, and returns
    /// when it is on the disk: only then may it be acknowledged. A portion of
    /// a run that this store does not know makes a run without a dish.
    ///
    /// A correction counts instead of what it corrects; where that was
    /// corrected before, instead of the latest correction.
    ///
    /// # Errors
    /// Where the store cannot be written; the portion is not on record then.
    pub fn record(
        &mut self,
        captured: &CapturedPortion,
        clock: Option<&InstrumentClock>,
        now: Timestamp,
    ) -> Result<Recorded, StoreError> {
        self.write(|transaction, path| record(transaction, path, captured, clock, now))
    }

    /// Puts many portions on record in one transaction: all of them or none.
    /// Returns how many are new.
    ///
    /// # Errors
    /// As for [`Store::record`].
    pub fn record_all(
        &mut self,
        portions: &[CapturedPortion],
        now: Timestamp,
    ) -> Result<usize, StoreError> {
        self.write(|transaction, path| {
            let mut new = 0;
            for captured in portions {
                let recorded = record(transaction, path, captured, None, now)?;
                new += usize::from(matches!(recorded, Recorded::New { .. }));
            }
            Ok(new)
        })
    }
}

fn record(
    transaction: &Transaction<'_>,
    path: &Path,
    captured: &CapturedPortion,
    clock: Option<&InstrumentClock>,
    now: Timestamp,
) -> Result<Recorded, StoreError> {
    let goal = captured.goal;
    if Goal::new(goal.target(), goal.tolerance()).is_err() {
        return refuse(
            transaction,
            path,
            captured,
            RefusedPortion::SenselessGoal,
            now,
        );
    }
    let start = start(transaction, path, captured)?;
    if let Some(earlier) = on_record(transaction, path, start, captured.id.number)? {
        return known(transaction, path, &earlier, captured, now);
    }
    let (time, source) = InstrumentClock::date(clock, captured, now);
    let stepped_back = stepped_back(transaction, path, start, captured, time, source)?;
    if let Some(by) = stepped_back {
        note_step(transaction, path, time, -by)?;
    }
    let run = run(transaction, path, captured, time)?;
    transaction
        .prepare_cached(
            "INSERT INTO portion (start, number, run, mode, mass, target, below, above, uptime, time,
                 time_source, temperature, doubts, uncertainty, left_on_pan, corrects, recorded)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17)",
        )
        .and_then(|mut insert| {
            insert.execute(params![
                start,
                i64::from(captured.id.number),
                run,
                mode_to(captured.mode),
                captured.mass.micrograms(),
                captured.goal.target().micrograms(),
                captured.goal.tolerance().below.micrograms(),
                captured.goal.tolerance().above.micrograms(),
                uptime_column(captured),
                time_to(time),
                source_to(source),
                captured.temperature.map(|t| i64::from(t.millicelsius())),
                i64::from(captured.doubts.0),
                captured.uncertainty.map(|mass| mass.micrograms()),
                captured.left.map(|mass| mass.micrograms()),
                captured.replaces.map(i64::from),
                time_to(now),
            ])
        })
        .at(path)?;
    let this = transaction.last_insert_rowid();
    if let Some(number) = captured.replaces {
        link_correction(transaction, path, start, this, number)?;
    }
    // A correction may have overtaken on the way what it corrects.
    for waiting in waiting_corrections(transaction, path, start, captured.id.number)? {
        link_correction(transaction, path, start, waiting, captured.id.number)?;
    }
    let portion = portions::find(transaction, path, captured.id)?
        .ok_or_else(|| Reads(path).senseless("portion"))?;
    Ok(Recorded::New {
        portion: Box::new(portion),
        stepped_back,
    })
}

/// Uptimes beyond the column's range, some 292 million years, are its end.
fn uptime_column(captured: &CapturedPortion) -> i64 {
    i64::try_from(captured.at.millis()).unwrap_or(i64::MAX)
}

/// The row of this start of the instrument.
fn start(
    transaction: &Transaction<'_>,
    path: &Path,
    captured: &CapturedPortion,
) -> Result<i64, StoreError> {
    let key = [
        device_to(captured.id.device),
        i64::from(captured.id.epoch.0),
    ];
    let known = transaction
        .prepare_cached("SELECT id FROM start WHERE device = ?1 AND epoch = ?2")
        .and_then(|mut select| select.query_row(key, |row| row.get(0)).optional())
        .at(path)?;
    if let Some(known) = known {
        return Ok(known);
    }
    transaction
        .execute("INSERT INTO start (device, epoch) VALUES (?1, ?2)", key)
        .at(path)?;
    Ok(transaction.last_insert_rowid())
}

/// What identifies a portion's content, to tell a repetition from a clash.
struct OnRecord {
    mass: i64,
    uptime: i64,
    run: i64,
}

fn on_record(
    transaction: &Transaction<'_>,
    path: &Path,
    start: i64,
    number: u32,
) -> Result<Option<OnRecord>, StoreError> {
    transaction
        .prepare_cached(
            "SELECT p.mass, p.uptime, r.id FROM portion p JOIN run r ON r.seq = p.run
             WHERE p.start = ?1 AND p.number = ?2",
        )
        .and_then(|mut select| {
            select
                .query_row([start, i64::from(number)], |row| {
                    Ok(OnRecord {
                        mass: row.get(0)?,
                        uptime: row.get(1)?,
                        run: row.get(2)?,
                    })
                })
                .optional()
        })
        .at(path)
}

/// A portion whose identity is on record: the same one again, or a clash.
fn known(
    transaction: &Transaction<'_>,
    path: &Path,
    earlier: &OnRecord,
    captured: &CapturedPortion,
    now: Timestamp,
) -> Result<Recorded, StoreError> {
    let same = earlier.mass == captured.mass.micrograms()
        && earlier.uptime == uptime_column(captured)
        && earlier.run == i64::from(captured.run.0);
    if same {
        return Ok(Recorded::Already);
    }
    refuse(transaction, path, captured, RefusedPortion::Clash, now)
}

/// Keeps as evidence what cannot be taken for a portion.
fn refuse(
    transaction: &Transaction<'_>,
    path: &Path,
    captured: &CapturedPortion,
    why: RefusedPortion,
    now: Timestamp,
) -> Result<Recorded, StoreError> {
    let came = serde_json::to_string(captured).map_err(|_| Reads(path).senseless("portion"))?;
    transaction
        .execute(
            "INSERT OR IGNORE INTO refused (came, why, recorded) VALUES (?1, ?2, ?3)",
            params![came, why.to_string(), time_to(now)],
        )
        .at(path)?;
    Ok(Recorded::Refused(why))
}

/// By how much the time of this portion lies before that of an earlier one of
/// the same start.
fn stepped_back(
    transaction: &Transaction<'_>,
    path: &Path,
    start: i64,
    captured: &CapturedPortion,
    time: Timestamp,
    source: TimeSource,
) -> Result<Option<SignedDuration>, StoreError> {
    if source == TimeSource::Recorded {
        return Ok(None);
    }
    let before: Option<i64> = transaction
        .prepare_cached(
            "SELECT time FROM portion
             WHERE start = ?1 AND number < ?2 AND time_source <> 2 ORDER BY number DESC LIMIT 1",
        )
        .and_then(|mut select| {
            select
                .query_row([start, i64::from(captured.id.number)], |row| row.get(0))
                .optional()
        })
        .at(path)?;
    Ok(before
        .map(|before| SignedDuration::from_millis(before.saturating_sub(time_to(time))))
        .filter(|by| *by > CORRECTION))
}

/// Notes that the wall's clock stepped, at the time it showed after the step.
pub(super) fn note_step(
    transaction: &Transaction<'_>,
    path: &Path,
    at: Timestamp,
    by: SignedDuration,
) -> Result<(), StoreError> {
    let by = i64::try_from(by.as_millis()).unwrap_or(i64::MAX);
    transaction
        .execute(
            "INSERT INTO clock_step (at, by) VALUES (?1, ?2)",
            [time_to(at), by],
        )
        .at(path)?;
    Ok(())
}

/// The row of the portion's run.
fn run(
    transaction: &Transaction<'_>,
    path: &Path,
    captured: &CapturedPortion,
    time: Timestamp,
) -> Result<i64, StoreError> {
    let id = i64::from(captured.run.0);
    let known = transaction
        .prepare_cached("SELECT seq FROM run WHERE id = ?1")
        .and_then(|mut select| select.query_row([id], |row| row.get(0)).optional())
        .at(path)?;
    if let Some(known) = known {
        return Ok(known);
    }
    transaction
        .execute(
            "INSERT INTO run (id, target, below, above, mode, started) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            params![
                id,
                captured.goal.target().micrograms(),
                captured.goal.tolerance().below.micrograms(),
                captured.goal.tolerance().above.micrograms(),
                mode_to(captured.mode),
                time_to(time),
            ],
        )
        .at(path)?;
    Ok(transaction.last_insert_rowid())
}

/// Links a correction to what it corrects, where that is on record. A later
/// correction that overtook this one on the way stays the one that stands.
fn link_correction(
    transaction: &Transaction<'_>,
    path: &Path,
    start: i64,
    correction: i64,
    number: u32,
) -> Result<(), StoreError> {
    let Some((earlier, later)) = corrected(transaction, path, start, correction, number)? else {
        return Ok(());
    };
    let mut links = vec![(earlier, correction)];
    links.extend(later.map(|later| (correction, later)));
    for (earlier, later) in links {
        transaction
            .execute(
                "UPDATE portion SET replaced_by = ?2 WHERE seq = ?1",
                [earlier, later],
            )
            .at(path)?;
        transaction
            .execute(
                "UPDATE portion SET replaces = ?1 WHERE seq = ?2",
                [earlier, later],
            )
            .at(path)?;
    }
    Ok(())
}

/// The corrections of a portion that came before it did, in their own order.
fn waiting_corrections(
    transaction: &Transaction<'_>,
    path: &Path,
    start: i64,
    number: u32,
) -> Result<Vec<i64>, StoreError> {
    let mut select = transaction
        .prepare_cached(
            "SELECT seq FROM portion
             WHERE start = ?1 AND corrects = ?2 AND corrects IS NOT NULL AND replaces IS NULL
             ORDER BY number",
        )
        .at(path)?;
    let rows = select
        .query_map([start, i64::from(number)], |row| row.get(0))
        .at(path)?;
    rows.collect::<rusqlite::Result<_>>().at(path)
}

/// How a portion is linked to what it corrects and what corrects it.
struct Link {
    seq: i64,
    number: i64,
    replaces: Option<i64>,
    replaced_by: Option<i64>,
    undone: bool,
}

const LINK: &str = "
    SELECT p.seq, p.number, p.replaces, p.replaced_by,
           EXISTS (SELECT 1 FROM strike k WHERE k.portion = p.seq AND k.lifted IS NULL AND k.undone)
    FROM portion p";

fn link(row: &Row<'_>) -> rusqlite::Result<Link> {
    Ok(Link {
        seq: row.get(0)?,
        number: row.get(1)?,
        replaces: row.get(2)?,
        replaced_by: row.get(3)?,
        undone: row.get(4)?,
    })
}

/// Where in the chain of corrections of portion `number` a correction belongs:
/// after which, and before which that overtook it. `None` where the portion is
/// not on record.
fn corrected(
    transaction: &Transaction<'_>,
    path: &Path,
    start: i64,
    correction: i64,
    number: u32,
) -> Result<Option<(i64, Option<i64>)>, StoreError> {
    let first = transaction
        .prepare_cached(&format!("{LINK} WHERE p.start = ?1 AND p.number = ?2"))
        .and_then(|mut select| {
            select
                .query_row([start, i64::from(number)], link)
                .optional()
        })
        .at(path)?;
    let Some(mut at) = first.filter(|first| first.seq != correction) else {
        return Ok(None);
    };
    let mut by_seq = transaction
        .prepare_cached(&format!("{LINK} WHERE p.seq = ?1"))
        .at(path)?;
    let this = by_seq.query_row([correction], link).at(path)?;
    // An undone correction leads back to what it corrected.
    while let (Some(earlier), true) = (at.replaces, at.undone) {
        at = by_seq.query_row([earlier], link).at(path)?;
    }
    // From there forward, over corrections that stand.
    while let Some(later) = at.replaced_by {
        let next = by_seq.query_row([later], link).at(path)?;
        if next.undone {
            break;
        }
        if next.number > this.number {
            return Ok(Some((at.seq, Some(next.seq))));
        }
        at = next;
    }
    Ok(Some((at.seq, None)))
}
