//! Putting a portion on record, once.

use super::checksum::{self, OF_PORTION};
use super::columns::{Reads, device_to, mode_to, source_to, time_to};
use super::corrections::link_family;
use super::{Sql, Store, StoreError, portions, tallies};
use evenhand_kitchen::instrument_clock::{self, InstrumentClock};
use evenhand_kitchen::portion::{RecordedPortion, TimeSource};
use evenhand_protocol::{CapturedPortion, Goal, Mass, Temperature};
use jiff::{SignedDuration, Timestamp};
use rusqlite::{OptionalExtension, Transaction, params, params_from_iter};
use std::path::Path;

/// How far an instrument's clock may be put back when it is told the time
/// again: its own drift, not somebody's setting of the clock.
const CORRECTION: SignedDuration = SignedDuration::from_secs(2);

/// What no bench scale weighs, where an instrument does not say its capacity.
const HEAVIEST: Mass = Mass::from_grams(100_000);
/// Nothing is colder.
const COLDEST: Temperature = Temperature::from_millicelsius(-273_150);
/// The end of the range of a type K thermocouple (IEC 60584-1, from memory).
const HOTTEST: Temperature = Temperature::from_millicelsius(1_372_000);
/// Before this there was no such scale: a time before it is a clock that was
/// never set.
const EARLIEST: i64 = 946_684_800; // 2000-01-01T00:00:00Z
/// How far ahead of this computer's clock an instrument's may be: set by
/// another computer, in another zone at most.
const AHEAD: SignedDuration = SignedDuration::from_hours(24);
/// How much evidence is kept of what came as a portion and cannot be one: what
/// more comes within an hour says nothing new, and would fill the disk.
const EVIDENCE_AN_HOUR: i64 = 1_000;

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
    /// It says that it corrects itself, a later portion, or one of another run.
    SenselessCorrection,
    /// More, or more below nothing, than its instrument can weigh.
    BeyondCapacity,
    /// An uncertainty below nothing or above all that can be weighed.
    SenselessUncertainty,
    /// A temperature that no thermocouple tells.
    SenselessTemperature,
    /// It says that another instrument captured it than the one that is linked.
    OtherInstrument,
}

impl core::fmt::Display for RefusedPortion {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Clash => {
                "the scale sent two different portions under one number; the first one counts"
            }
            Self::SenselessGoal => "the scale sent a portion whose target makes no sense",
            Self::SenselessCorrection => {
                "the scale sent a correction of a portion that it cannot correct"
            }
            Self::BeyondCapacity => "the scale sent a portion beyond what it can weigh",
            Self::SenselessUncertainty => {
                "the scale sent a portion whose uncertainty makes no sense"
            }
            Self::SenselessTemperature => {
                "the scale sent a portion whose temperature makes no sense"
            }
            Self::OtherInstrument => "the scale sent a portion that another scale captured",
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

    /// Keeps as evidence what came as a portion and is none, for a reason that
    /// the store cannot see.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn refuse(
        &mut self,
        captured: &CapturedPortion,
        why: RefusedPortion,
        now: Timestamp,
    ) -> Result<Recorded, StoreError> {
        self.write(|transaction, path| refuse(transaction, path, captured, why, now))
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
    if let Some(why) = senseless(transaction, path, captured)? {
        return refuse(transaction, path, captured, why, now);
    }
    let start = start(transaction, path, captured)?;
    if let Some(earlier) = on_record(transaction, path, start, captured.id.number)? {
        return known(transaction, path, &earlier, captured, now);
    }
    if let Some(number) = captured.replaces
        && let Some(earlier) = on_record(transaction, path, start, number)?
        && earlier.run != i64::from(captured.run.0)
    {
        let why = RefusedPortion::SenselessCorrection;
        return refuse(transaction, path, captured, why, now);
    }
    let dated = without_senseless_time(captured, now);
    let (time, source) = InstrumentClock::date(clock, &dated, now);
    let stepped_back = stepped_back(transaction, path, start, captured, time, source)?;
    if let Some(by) = stepped_back {
        note_step(transaction, path, time, -by)?;
    }
    let run = run(transaction, path, captured, time)?;
    let columns = [
        Some(start),
        Some(i64::from(captured.id.number)),
        Some(run),
        Some(mode_to(captured.mode)),
        Some(captured.mass.micrograms()),
        Some(captured.goal.target().micrograms()),
        Some(captured.goal.tolerance().below.micrograms()),
        Some(captured.goal.tolerance().above.micrograms()),
        Some(uptime_column(captured)),
        Some(time_to(time)),
        Some(source_to(source)),
        captured.temperature.map(|t| i64::from(t.millicelsius())),
        Some(i64::from(captured.doubts.0)),
        captured.uncertainty.map(|mass| mass.micrograms()),
        captured.left.map(|mass| mass.micrograms()),
        captured.replaces.map(i64::from),
        Some(time_to(now)),
    ];
    let link = captured
        .chain_link
        .map(|link| (i64::from(link.position), link.previous.cast_signed()));
    let behind = [
        link.map(|(position, _)| position),
        link.map(|(_, previous)| previous),
        Some(checksum::of_portion(&columns, link)),
    ];
    transaction
        .prepare_cached(&format!(
            "INSERT INTO portion ({OF_PORTION}, chain_position, chain_previous, checksum)
             VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
        ))
        .and_then(|mut insert| insert.execute(params_from_iter(columns.iter().chain(&behind))))
        .at(path)?;
    let this = transaction.last_insert_rowid();
    tallies::make_stale(transaction, path, run, time_to(time))?;
    // A correction may have overtaken on the way what it corrects.
    if captured.replaces.is_some()
        || waiting_corrections(transaction, path, start, captured.id.number)?
    {
        link_family(transaction, path, this)?;
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
        .prepare_cached(
            "INSERT OR IGNORE INTO refused (came, why, recorded)
             SELECT ?1, ?2, ?3
             WHERE (SELECT count(*) FROM (SELECT 1 FROM refused WHERE recorded > ?3 - 3600000
                                          ORDER BY id DESC LIMIT ?4)) < ?4",
        )
        .and_then(|mut insert| {
            insert.execute(params![
                came,
                why.to_string(),
                time_to(now),
                EVIDENCE_AN_HOUR
            ])
        })
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

/// The corrections of a portion that came before it did.
fn waiting_corrections(
    transaction: &Transaction<'_>,
    path: &Path,
    start: i64,
    number: u32,
) -> Result<bool, StoreError> {
    transaction
        .prepare_cached("SELECT EXISTS (SELECT 1 FROM portion WHERE start = ?1 AND corrects = ?2)")
        .and_then(|mut select| select.query_row([start, i64::from(number)], |row| row.get(0)))
        .at(path)
}

/// What makes no sense in what came as a portion, if anything does.
fn senseless(
    transaction: &Transaction<'_>,
    path: &Path,
    captured: &CapturedPortion,
) -> Result<Option<RefusedPortion>, StoreError> {
    let goal = captured.goal;
    if Goal::new(goal.target(), goal.tolerance()).is_err() {
        return Ok(Some(RefusedPortion::SenselessGoal));
    }
    if captured
        .replaces
        .is_some_and(|number| number >= captured.id.number)
    {
        return Ok(Some(RefusedPortion::SenselessCorrection));
    }
    let capacity: Option<i64> = transaction
        .prepare_cached("SELECT capacity FROM instrument WHERE device = ?1")
        .and_then(|mut select| {
            select
                .query_row([device_to(captured.id.device)], |row| row.get(0))
                .optional()
        })
        .at(path)?;
    let heaviest = capacity
        .filter(|capacity| *capacity > 0)
        .map_or(HEAVIEST, Mass::from_micrograms);
    let weighable = -heaviest..=heaviest;
    let beyond = !weighable.contains(&captured.mass)
        || captured.left.is_some_and(|left| !weighable.contains(&left));
    if beyond {
        return Ok(Some(RefusedPortion::BeyondCapacity));
    }
    if captured
        .uncertainty
        .is_some_and(|within| within < Mass::ZERO || within > heaviest)
    {
        return Ok(Some(RefusedPortion::SenselessUncertainty));
    }
    if captured
        .temperature
        .is_some_and(|at| !(COLDEST..=HOTTEST).contains(&at))
    {
        return Ok(Some(RefusedPortion::SenselessTemperature));
    }
    Ok(None)
}

/// What came without a time of the instrument's own that cannot be one: before
/// scales had a clock, or after now. A clock that was never set says 1970.
fn without_senseless_time(captured: &CapturedPortion, now: Timestamp) -> CapturedPortion {
    let believable = captured
        .unix
        .and_then(instrument_clock::timestamp)
        .is_some_and(|time| {
            let never_set = time.as_second() < EARLIEST && now.as_second() >= EARLIEST;
            let ahead = time.duration_since(now) > AHEAD;
            !never_set && !ahead
        });
    CapturedPortion {
        unix: captured.unix.filter(|_| believable),
        ..*captured
    }
}
