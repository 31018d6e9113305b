//! Weighings brought in from elsewhere: all of them or none, and none twice.

use super::checksum::OF_PORTION;
use super::columns::{Reads, device_to, mode_to, time_to};
use super::dishes;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::service::ServiceCalendar;
use evenhand_kitchen::weighings_file::Weighing;
use evenhand_protocol::{DeviceId, Mass, Mode};
use jiff::Timestamp;
use jiff::civil::Date;
use rusqlite::{Transaction, params};
use sha2::{Digest, Sha256};
use std::collections::HashMap;
use std::path::Path;

/// What stands for the instrument in the identity of a weighing that no
/// instrument sent.
pub(super) const ELSEWHERE: DeviceId = DeviceId(u64::from_be_bytes(*b"imported"));

/// What became of weighings brought in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Imported {
    /// How many are on record now that were not.
    pub added: usize,
    /// How many were on record from an earlier import.
    pub already: usize,
}

impl Store {
    /// Puts weighings from elsewhere on record, all of them or none. One that
    /// says the same as one brought in before (its time, mass, dish and cook;
    /// the second of two equal ones is told from the first) is not added again.
    ///
    /// A dish that is not on record is put on the list as of its first
    /// weighing. Weighings of one service, dish, cook and goal make a run.
    ///
    /// # Errors
    /// Where the store cannot be written; nothing is on record then.
    pub fn import(
        &mut self,
        weighings: &[Weighing],
        calendar: &ServiceCalendar,
        now: Timestamp,
    ) -> Result<Imported, StoreError> {
        self.for_bulk(true)?;
        let imported =
            self.write(|transaction, path| import(transaction, path, weighings, calendar, now));
        self.for_bulk(false)?;
        imported
    }

    /// Lets what a great many rows need on the way lie in memory, or gives the
    /// memory back.
    fn for_bulk(&self, bulk: bool) -> Result<(), StoreError> {
        // SQLite's own default, and a size in KiB.
        let (place, cache) = if bulk { (2, -65_536) } else { (0, -2_000) };
        self.connection
            .pragma_update(None, "temp_store", place)
            .and_then(|()| self.connection.pragma_update(None, "cache_size", cache))
            .map_err(|error| self.sql(error))
    }
}

/// What is kept up with every portion, taken off for a great many of them and
/// made once they are in.
struct TakenOff(Vec<String>);

/// How many rows at least it is worth taking indexes off for.
const MANY: usize = 10_000;

impl TakenOff {
    /// Takes the indexes and the noting of stale sums off, where more comes
    /// than is on record: else keeping them up costs less.
    fn before(
        transaction: &Transaction<'_>,
        path: &Path,
        coming: usize,
    ) -> Result<Option<Self>, StoreError> {
        let on_record: i64 = transaction
            .query_row("SELECT count(*) FROM portion", [], |row| row.get(0))
            .at(path)?;
        if coming < MANY || i64::try_from(coming).is_ok_and(|coming| coming < on_record) {
            return Ok(None);
        }
        let kept_up: Vec<(String, String, String)> = transaction
            .prepare(
                "SELECT type, name, sql FROM sqlite_schema
                 WHERE tbl_name = 'portion' AND sql IS NOT NULL
                   AND (type = 'index' OR name = 'portion_makes_stale')",
            )
            .and_then(|mut select| {
                select
                    .query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?
                    .collect()
            })
            .at(path)?;
        let mut made_by = Vec::with_capacity(kept_up.len());
        for (kind, name, sql) in kept_up {
            transaction
                .execute_batch(&format!("DROP {kind} {name}"))
                .at(path)?;
            made_by.push(sql);
        }
        Ok(Some(Self(made_by)))
    }

    /// Makes all of it again, over what came in with this start.
    fn after(
        self,
        transaction: &Transaction<'_>,
        path: &Path,
        start: i64,
    ) -> Result<(), StoreError> {
        for sql in self.0 {
            transaction.execute_batch(&sql).at(path)?;
        }
        transaction
            .execute(
                "INSERT OR IGNORE INTO stale_tally
                 SELECT DISTINCT run, time / 1800000 FROM portion WHERE start = ?1",
                [start],
            )
            .at(path)?;
        Ok(())
    }
}

/// What weighings of one run have in common.
#[derive(PartialEq, Eq, Hash)]
struct RunKey<'w> {
    dish: i64,
    cook: Option<&'w str>,
    day: Date,
    goal: [i64; 3],
    taking: bool,
}

fn import(
    transaction: &Transaction<'_>,
    path: &Path,
    weighings: &[Weighing],
    calendar: &ServiceCalendar,
    now: Timestamp,
) -> Result<Imported, StoreError> {
    let fresh = fresh(transaction, path, weighings)?;
    let already = weighings.len() - fresh.len();
    if fresh.is_empty() {
        return Ok(Imported { added: 0, already });
    }
    let start = new_start(transaction, path)?;
    let taken_off = TakenOff::before(transaction, path, fresh.len())?;
    let mut known: HashMap<String, i64> = HashMap::new();
    let mut runs: HashMap<RunKey<'_>, i64> = HashMap::new();
    let mut insert = transaction
        .prepare(&format!(
            "INSERT INTO portion ({OF_PORTION}, checksum)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, 0, ?9, 0, NULL, 0, NULL, NULL, NULL, ?10,
                 portion_checksum(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, 0, ?9, 0, NULL, 0, NULL, NULL, NULL,
                     ?10))"
        ))
        .at(path)?;
    let added = fresh.len();
    let mut brought_in: Vec<([u8; 16], i64)> = Vec::with_capacity(added);
    let mut lasted: HashMap<i64, (i64, i64)> = HashMap::new();
    for (number, (nth, digest)) in (1_i64..).zip(fresh) {
        let weighing = &weighings[nth];
        let key = weighing.dish.key();
        let dish = match known.get(&key) {
            Some(dish) => *dish,
            None => {
                let dish = dish(transaction, path, weighing)?;
                known.insert(key, dish);
                dish
            }
        };
        let goal = [
            weighing.goal.target(),
            weighing.goal.tolerance().below,
            weighing.goal.tolerance().above,
        ]
        .map(Mass::micrograms);
        let key = RunKey {
            dish,
            cook: weighing.cook.as_ref().map(Cook::initials),
            day: calendar.day_of(weighing.time),
            goal,
            taking: weighing.mode == Mode::Taking,
        };
        let run = match runs.get(&key) {
            Some(run) => *run,
            None => {
                let run = new_run(transaction, path, &key, weighing)?;
                runs.insert(key, run);
                run
            }
        };
        let time = time_to(weighing.time);
        let (began, ended) = lasted.entry(run).or_insert((time, time));
        (*began, *ended) = (time.min(*began), time.max(*ended));
        insert
            .execute(params![
                start,
                number,
                run,
                mode_to(weighing.mode),
                weighing.mass.micrograms(),
                goal[0],
                goal[1],
                goal[2],
                time,
                time_to(now),
            ])
            .at(path)?;
        brought_in.push((digest, transaction.last_insert_rowid()));
    }
    drop(insert);
    if let Some(taken_off) = taken_off {
        taken_off.after(transaction, path, start)?;
    }
    note(transaction, path, brought_in)?;
    lengthen(transaction, path, &lasted)?;
    Ok(Imported { added, already })
}

/// Notes which weighings were brought in, in the order of the index that they
/// are found by: a million out of order would each touch a page of their own.
fn note(
    transaction: &Transaction<'_>,
    path: &Path,
    mut brought_in: Vec<([u8; 16], i64)>,
) -> Result<(), StoreError> {
    let mut insert = transaction
        .prepare("INSERT INTO imported (digest, portion) VALUES (?1, ?2)")
        .at(path)?;
    brought_in.sort_unstable();
    for (digest, portion) in brought_in {
        insert
            .execute(params![digest.as_slice(), portion])
            .at(path)?;
    }
    Ok(())
}

/// Lets each run last from its first weighing to its last.
fn lengthen(
    transaction: &Transaction<'_>,
    path: &Path,
    lasted: &HashMap<i64, (i64, i64)>,
) -> Result<(), StoreError> {
    let mut update = transaction
        .prepare("UPDATE run SET started = ?2, ended = ?3 WHERE seq = ?1")
        .at(path)?;
    for (run, (began, ended)) in lasted {
        update.execute([*run, *began, *ended]).at(path)?;
    }
    Ok(())
}

/// The places of those weighings that were not brought in before, with what
/// tells each from every other.
fn fresh(
    transaction: &Transaction<'_>,
    path: &Path,
    weighings: &[Weighing],
) -> Result<Vec<(usize, [u8; 16])>, StoreError> {
    let mut seen: HashMap<[u8; 16], u32> = HashMap::new();
    let mut on_record = transaction
        .prepare("SELECT EXISTS (SELECT 1 FROM imported WHERE digest = ?1)")
        .at(path)?;
    // Into a store that nothing was ever brought into there is nothing to look up.
    let any: bool = transaction
        .query_row("SELECT EXISTS (SELECT 1 FROM imported)", [], |row| {
            row.get(0)
        })
        .at(path)?;
    let mut fresh = Vec::new();
    for (nth, weighing) in weighings.iter().enumerate() {
        let first = digest(weighing, 0);
        let earlier = seen.entry(first).or_insert(0);
        let digest = match *earlier {
            0 => first,
            earlier => digest(weighing, earlier),
        };
        *earlier += 1;
        let known: bool = any
            && on_record
                .query_row([digest.as_slice()], |row| row.get(0))
                .at(path)?;
        if !known {
            fresh.push((nth, digest));
        }
    }
    Ok(fresh)
}

/// The first half of SHA-256 (FIPS 180-4) of what a weighing says and of how
/// many before it in the file said the same.
fn digest(weighing: &Weighing, earlier: u32) -> [u8; 16] {
    let mut hash = Sha256::new();
    hash.update(time_to(weighing.time).to_be_bytes());
    hash.update(weighing.mass.micrograms().to_be_bytes());
    hash.update(earlier.to_be_bytes());
    hash.update(weighing.cook.as_ref().map_or("", Cook::initials));
    hash.update([0]);
    hash.update(weighing.dish.key());
    let whole: [u8; 32] = hash.finalize().into();
    let mut half = [0; 16];
    half.copy_from_slice(&whole[..16]);
    half
}

fn new_start(transaction: &Transaction<'_>, path: &Path) -> Result<i64, StoreError> {
    transaction
        .execute(
            "INSERT INTO start (device, epoch)
             SELECT ?1, 1 + coalesce(max(epoch), 0) FROM start WHERE device = ?1",
            [device_to(ELSEWHERE)],
        )
        .at(path)?;
    Ok(transaction.last_insert_rowid())
}

fn dish(transaction: &Transaction<'_>, path: &Path, of: &Weighing) -> Result<i64, StoreError> {
    let dish = match dishes::find(transaction, path, &of.dish)? {
        Some(dish) => dish,
        None => dishes::set(transaction, path, &of.dish, of.goal, of.mode, None, of.time)?,
    };
    transaction
        .query_row(
            "SELECT id FROM dish WHERE key = ?1",
            [dish.name.key()],
            |row| row.get(0),
        )
        .at(path)
}

fn new_run(
    transaction: &Transaction<'_>,
    path: &Path,
    key: &RunKey<'_>,
    of: &Weighing,
) -> Result<i64, StoreError> {
    let id: i64 = transaction
        .query_row(super::runs::DRAW, [], |row| row.get(0))
        .at(path)?;
    Reads(path).unsigned32(id, "run's number")?;
    transaction
        .prepare_cached(
            "INSERT INTO run (id, dish, target, below, above, mode, cook, started, ended)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?8)",
        )
        .at(path)?
        .execute(params![
            id,
            key.dish,
            key.goal[0],
            key.goal[1],
            key.goal[2],
            mode_to(of.mode),
            key.cook,
            time_to(of.time),
        ])
        .at(path)?;
    Ok(transaction.last_insert_rowid())
}
