//! Weighings brought in from elsewhere: all of them or none, and none twice.

use super::checksum;
use super::columns::{Reads, device_to, mode_to, time_to};
use super::costs::{Costs, KnownCosts};
use super::dishes;
use super::tallies::{self, Gathered, Reliance, Summand};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::service::ServiceCalendar;
use evenhand_kitchen::weighings_file::Weighing;
use evenhand_protocol::{DeviceId, Mass, Mode};
use jiff::Timestamp;
use jiff::civil::Date;
use rusqlite::{Connection, OptionalExtension, Statement, Transaction, params};
use std::collections::HashMap;
use std::ops::Range;
use std::path::Path;
use std::rc::Rc;

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
    /// They are taken from `weighings` one by one, and none is held. `about`
    /// is how many there may be: from a good many on, more than there are on
    /// record, the indexes are made once they are in.
    ///
    /// # Errors
    /// Where the store cannot be written, or the first error that `weighings`
    /// gives; nothing is on record then.
    pub fn import<E: From<StoreError>>(
        &mut self,
        weighings: impl IntoIterator<Item = Result<Weighing, E>>,
        about: u64,
        calendar: &ServiceCalendar,
        now: Timestamp,
    ) -> Result<Imported, E> {
        self.for_bulk(true)?;
        let imported = self.write_or(|transaction, path| {
            let mut import = Import::begin(transaction, path, about, calendar, now)?;
            for weighing in weighings {
                import.add(&weighing?)?;
            }
            Ok(import.done()?)
        });
        self.for_bulk(false)?;
        imported
    }

    /// Gives a great many rows memory for the indexes they come into, or takes
    /// it away again. That each row's run and start are there is seen to by
    /// the import itself; looking it up again for each would cost more than
    /// putting it down.
    fn for_bulk(&self, bulk: bool) -> Result<(), StoreError> {
        set_cache(&self.connection, if bulk { LOOKED_UP } else { USUAL })
            .and_then(|()| self.connection.pragma_update(None, "foreign_keys", !bulk))
            .map_err(|error| self.sql(error))
    }
}

/// How much of the file is held at a time, in KiB: where rows come into
/// indexes that are there;
const LOOKED_UP: i64 = 65_536;
/// where they are only put at the end, one after the other;
const APPENDED: i64 = 8_192;
/// where an index is made of them, which takes as much again to sort;
const SORTED: i64 = 24_576;
/// and otherwise.
const USUAL: i64 = 2_000;

fn set_cache(connection: &Connection, kibibytes: i64) -> rusqlite::Result<()> {
    // Below zero it is KiB, above it pages.
    connection.pragma_update(None, "cache_size", -kibibytes)
}

/// The indexes of the portions, taken off for a great many of them and made
/// once they are in.
struct TakenOff(Vec<String>);

/// How many rows at least it is worth taking indexes off for.
const MANY: u64 = 10_000;

impl TakenOff {
    fn before(transaction: &Transaction<'_>, path: &Path) -> Result<Self, StoreError> {
        let indexes: Vec<(String, String)> = transaction
            .prepare(
                "SELECT name, sql FROM sqlite_schema
                 WHERE tbl_name = 'portion' AND type = 'index' AND sql IS NOT NULL",
            )
            .and_then(|mut select| {
                select
                    .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
                    .collect()
            })
            .at(path)?;
        let mut made_by = Vec::with_capacity(indexes.len());
        for (name, sql) in indexes {
            transaction
                .execute_batch(&format!("DROP INDEX {name}"))
                .at(path)?;
            made_by.push(sql);
        }
        set_cache(transaction, APPENDED).at(path)?;
        Ok(Self(made_by))
    }

    fn after(self, transaction: &Transaction<'_>, path: &Path) -> Result<(), StoreError> {
        set_cache(transaction, SORTED).at(path)?;
        for sql in self.0 {
            transaction.execute_batch(&sql).at(path)?;
        }
        Ok(())
    }
}

/// What weighings of one run have in common.
#[derive(PartialEq, Eq, Hash)]
struct RunKey {
    dish: i64,
    cook: Option<Rc<str>>,
    day: Date,
    goal: [i64; 3],
    taking: bool,
}

/// A run that weighings go into.
struct OpenRun {
    seq: i64,
    /// From its first weighing to its last.
    began: i64,
    ended: i64,
}

/// How many runs are held at a time.
const OPEN_RUNS: usize = 10_000;

/// A dish that weighings are of.
#[derive(Clone)]
struct ImportedDish {
    id: i64,
    costs: Costs,
}

/// How many rows go into one statement.
const ROWS: usize = 50;
/// How many of their columns differ from row to row.
const COLUMNS: usize = 9;

/// One row, as far as it differs from the others.
type Line = [i64; COLUMNS];

struct Import<'t> {
    transaction: &'t Transaction<'t>,
    path: &'t Path,
    calendar: &'t ServiceCalendar,
    now: i64,
    start: Option<i64>,
    /// Whether anything was brought in before.
    again: bool,
    taken_off: Option<TakenOff>,
    dishes: HashMap<String, ImportedDish>,
    cooks: HashMap<Cook, Rc<str>>,
    costs: KnownCosts,
    runs: HashMap<RunKey, OpenRun>,
    /// The latest day of which runs were let go.
    let_go: Option<Date>,
    first_run: i64,
    /// The service of the weighing before, and from when to when it lasts.
    day: (Range<Timestamp>, Date),
    gathered: Option<Gathered<'t>>,
    rows: Vec<Line>,
    many: Statement<'t>,
    added: usize,
    already: usize,
}

impl<'t> Import<'t> {
    fn begin(
        transaction: &'t Transaction<'t>,
        path: &'t Path,
        about: u64,
        calendar: &'t ServiceCalendar,
        now: Timestamp,
    ) -> Result<Self, StoreError> {
        let number = |sql: &str| -> Result<i64, StoreError> {
            transaction.query_row(sql, [], |row| row.get(0)).at(path)
        };
        let again: bool = transaction
            .query_row(
                "SELECT EXISTS (SELECT 1 FROM start WHERE device = ?1)",
                [device_to(ELSEWHERE)],
                |row| row.get(0),
            )
            .at(path)?;
        // What came before is looked up in an index; and where much is on record,
        // keeping the indexes up costs less than making them.
        let on_record = number("SELECT coalesce(max(seq), 0) FROM portion")?.unsigned_abs();
        let taken_off = if !again && about >= MANY && about >= on_record {
            Some(TakenOff::before(transaction, path)?)
        } else {
            None
        };
        if again {
            transaction
                .execute_batch(
                    "CREATE TEMP TABLE IF NOT EXISTS matched (seq INTEGER PRIMARY KEY);
                     DELETE FROM temp.matched;",
                )
                .at(path)?;
        }
        let gathered = match tallies::zone_name(calendar.zone()) {
            Some(zone) => {
                tallies::keep_hours_of(transaction, path, &zone)?;
                Some(Gathered::new(calendar.zone()))
            }
            None => None,
        };
        Ok(Self {
            transaction,
            path,
            calendar,
            now: time_to(now),
            start: None,
            again,
            taken_off,
            dishes: HashMap::new(),
            cooks: HashMap::new(),
            costs: KnownCosts::default(),
            runs: HashMap::new(),
            let_go: None,
            first_run: number("SELECT coalesce(max(seq), 0) + 1 FROM run")?,
            day: (Timestamp::MAX..Timestamp::MIN, Date::ZERO),
            gathered,
            rows: Vec::with_capacity(ROWS),
            many: transaction.prepare(&insert_of(ROWS)).at(path)?,
            added: 0,
            already: 0,
        })
    }

    fn add(&mut self, weighing: &Weighing) -> Result<(), StoreError> {
        let dish = self.dish(weighing)?;
        let cook = weighing.cook.as_ref().map(|cook| self.cook(cook));
        let time = time_to(weighing.time);
        let mass = weighing.mass.micrograms();
        if self.again && self.came_before(dish.id, cook.as_deref(), time, mass)? {
            self.already += 1;
            return Ok(());
        }
        let start = match self.start {
            Some(start) => start,
            None => *self.start.insert(new_start(self.transaction, self.path)?),
        };
        self.added += 1;
        let number = i64::try_from(self.added)
            .ok()
            .filter(|number| *number <= u32::MAX.into())
            .ok_or_else(|| Reads(self.path).senseless("number of weighings"))?;
        let goal = [
            weighing.goal.target(),
            weighing.goal.tolerance().below,
            weighing.goal.tolerance().above,
        ]
        .map(Mass::micrograms);
        let mode = mode_to(weighing.mode);
        let run = self.run(weighing, dish.id, cook.clone(), goal, time)?;
        let columns = [
            Some(start),
            Some(number),
            Some(run),
            Some(mode),
            Some(mass),
            Some(goal[0]),
            Some(goal[1]),
            Some(goal[2]),
            Some(0),
            Some(time),
            Some(0),
            None,
            Some(0),
            None,
            None,
            None,
            Some(self.now),
        ];
        let checksum = checksum::of_portion(&columns, None);
        self.rows.push([
            number, run, mode, mass, goal[0], goal[1], goal[2], time, checksum,
        ]);
        if self.rows.len() == ROWS {
            insert(&mut self.many, start, self.now, &self.rows).at(self.path)?;
            self.rows.clear();
        }
        match &mut self.gathered {
            Some(gathered) => gathered.add(
                self.transaction,
                self.path,
                Summand {
                    dish: dish.id,
                    cook: cook.as_ref(),
                    tin: None,
                    time,
                    mass: weighing.mass,
                    goal: weighing.goal,
                    cost: dish.costs.at(time),
                    reliance: Reliance::SURE,
                },
            ),
            None => tallies::make_stale(self.transaction, self.path, run, time),
        }
    }

    fn done(mut self) -> Result<Imported, StoreError> {
        let (transaction, path) = (self.transaction, self.path);
        if let (Some(start), false) = (self.start, self.rows.is_empty()) {
            let mut last = transaction.prepare(&insert_of(self.rows.len())).at(path)?;
            insert(&mut last, start, self.now, &self.rows).at(path)?;
        }
        lengthen(transaction, path, self.runs.values())?;
        if let Some(gathered) = &mut self.gathered {
            gathered.keep(transaction, path)?;
        }
        if let Some(taken_off) = self.taken_off {
            taken_off.after(transaction, path)?;
        }
        Ok(Imported {
            added: self.added,
            already: self.already,
        })
    }

    fn cook(&mut self, cook: &Cook) -> Rc<str> {
        if let Some(known) = self.cooks.get(cook) {
            return Rc::clone(known);
        }
        let known: Rc<str> = cook.initials().into();
        self.cooks.insert(cook.clone(), Rc::clone(&known));
        known
    }

    fn dish(&mut self, of: &Weighing) -> Result<ImportedDish, StoreError> {
        if let Some(known) = self.dishes.get(of.dish.as_str()) {
            return Ok(known.clone());
        }
        let id = dish(self.transaction, self.path, of)?;
        let costs = self.costs.of(self.transaction, self.path, Some(id), None)?;
        let dish = ImportedDish { id, costs };
        self.dishes
            .insert(of.dish.as_str().to_owned(), dish.clone());
        Ok(dish)
    }

    /// Whether an equal weighing was brought in before that none of these has
    /// been taken for yet.
    fn came_before(
        &self,
        dish: i64,
        cook: Option<&str>,
        time: i64,
        mass: i64,
    ) -> Result<bool, StoreError> {
        let equal: Option<i64> = self
            .transaction
            .prepare_cached(
                "SELECT p.seq FROM portion p JOIN run r ON r.seq = p.run
                 WHERE p.time = ?1 AND p.mass = ?2 AND r.dish = ?3 AND r.cook IS ?4
                   AND p.start IN (SELECT id FROM start WHERE device = ?5)
                   AND p.start IS NOT ?6
                   AND p.seq NOT IN (SELECT seq FROM temp.matched)
                 ORDER BY p.seq LIMIT 1",
            )
            .and_then(|mut select| {
                select
                    .query_row(
                        params![time, mass, dish, cook, device_to(ELSEWHERE), self.start],
                        |row| row.get(0),
                    )
                    .optional()
            })
            .at(self.path)?;
        let Some(equal) = equal else {
            return Ok(false);
        };
        self.transaction
            .prepare_cached("INSERT INTO temp.matched VALUES (?1)")
            .and_then(|mut insert| insert.execute([equal]))
            .at(self.path)?;
        Ok(true)
    }

    fn day_of(&mut self, moment: Timestamp) -> Date {
        if !self.day.0.contains(&moment) {
            let day = self.calendar.day_of(moment);
            let (from, to) = self.calendar.span(day);
            self.day = (from..to, day);
        }
        self.day.1
    }

    /// The run that a weighing goes into, made where there is none.
    fn run(
        &mut self,
        of: &Weighing,
        dish: i64,
        cook: Option<Rc<str>>,
        goal: [i64; 3],
        time: i64,
    ) -> Result<i64, StoreError> {
        let key = RunKey {
            dish,
            cook,
            day: self.day_of(of.time),
            goal,
            taking: of.mode == Mode::Taking,
        };
        if let Some(run) = self.runs.get_mut(&key) {
            (run.began, run.ended) = (time.min(run.began), time.max(run.ended));
            return Ok(run.seq);
        }
        if self.runs.len() >= OPEN_RUNS {
            self.let_go_of_runs()?;
        }
        let let_go = if self.let_go.is_some_and(|until| key.day <= until) {
            self.run_let_go(&key, of.mode)?
        } else {
            None
        };
        let mut run = match let_go {
            Some(run) => run,
            None => OpenRun {
                seq: new_run(self.transaction, self.path, &key, of.mode, time)?,
                began: time,
                ended: time,
            },
        };
        (run.began, run.ended) = (time.min(run.began), time.max(run.ended));
        let seq = run.seq;
        self.runs.insert(key, run);
        Ok(seq)
    }

    /// Forgets all runs but those of the latest day: in a file in order of time
    /// none of them is asked for again.
    fn let_go_of_runs(&mut self) -> Result<(), StoreError> {
        let latest = self.runs.keys().map(|key| key.day).max();
        lengthen(self.transaction, self.path, self.runs.values())?;
        for key in self.runs.keys() {
            if Some(key.day) != latest && self.let_go.is_none_or(|until| key.day > until) {
                self.let_go = Some(key.day);
            }
        }
        self.runs.retain(|key, _| Some(key.day) == latest);
        if self.runs.len() >= OPEN_RUNS {
            self.let_go = latest;
            self.runs.clear();
        }
        Ok(())
    }

    /// A run of this import that was let go.
    fn run_let_go(&self, key: &RunKey, mode: Mode) -> Result<Option<OpenRun>, StoreError> {
        let (from, to) = self.calendar.span(key.day);
        self.transaction
            .prepare_cached(
                "SELECT seq, started, ended FROM run
                 WHERE seq >= ?1 AND dish = ?2 AND cook IS ?3 AND started >= ?4 AND started < ?5
                   AND (target, below, above, mode) = (?6, ?7, ?8, ?9)",
            )
            .and_then(|mut select| {
                select
                    .query_row(
                        params![
                            self.first_run,
                            key.dish,
                            key.cook.as_deref(),
                            time_to(from),
                            time_to(to),
                            key.goal[0],
                            key.goal[1],
                            key.goal[2],
                            mode_to(mode),
                        ],
                        |row| {
                            Ok(OpenRun {
                                seq: row.get(0)?,
                                began: row.get(1)?,
                                ended: row.get(2)?,
                            })
                        },
                    )
                    .optional()
            })
            .at(self.path)
    }
}

/// The statement that puts so many rows down. Of what nothing was said nothing
/// is kept: no uptime, doubts, temperature, uncertainty or correction.
fn insert_of(rows: usize) -> String {
    let mut values = Vec::with_capacity(rows);
    for row in 0..rows {
        let place = |column: usize| 3 + row * COLUMNS + column;
        values.push(format!(
            "(?1, ?{}, ?{}, ?{}, ?{}, ?{}, ?{}, ?{}, 0, ?{}, 0, NULL, 0, NULL, NULL, NULL, ?2, ?{})",
            place(0),
            place(1),
            place(2),
            place(3),
            place(4),
            place(5),
            place(6),
            place(7),
            place(8),
        ));
    }
    // A row that cannot be put down takes the whole import with it, so that
    // SQLite need not note how to take back this statement alone.
    format!(
        "INSERT OR FAIL INTO portion ({}, checksum) VALUES {}",
        checksum::OF_PORTION,
        values.join(", ")
    )
}

fn insert(
    statement: &mut Statement<'_>,
    start: i64,
    now: i64,
    rows: &[Line],
) -> rusqlite::Result<()> {
    statement.raw_bind_parameter(1, start)?;
    statement.raw_bind_parameter(2, now)?;
    for (place, column) in (3..).zip(rows.iter().flatten()) {
        statement.raw_bind_parameter(place, column)?;
    }
    statement.raw_execute()?;
    Ok(())
}

/// Lets each run last from its first weighing to its last.
fn lengthen<'r>(
    transaction: &Transaction<'_>,
    path: &Path,
    runs: impl Iterator<Item = &'r OpenRun>,
) -> Result<(), StoreError> {
    let mut update = transaction
        .prepare_cached("UPDATE run SET started = ?2, ended = ?3 WHERE seq = ?1")
        .at(path)?;
    for run in runs {
        update.execute([run.seq, run.began, run.ended]).at(path)?;
    }
    Ok(())
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
    key: &RunKey,
    mode: Mode,
    time: i64,
) -> Result<i64, StoreError> {
    let id: i64 = transaction
        .prepare_cached(super::runs::DRAW)
        .and_then(|mut draw| draw.query_row([], |row| row.get(0)))
        .at(path)?;
    Reads(path).unsigned32(id, "run's number")?;
    transaction
        .prepare_cached(
            "INSERT INTO run (id, dish, target, below, above, mode, cook, started, ended)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?8)",
        )
        .and_then(|mut insert| {
            insert.execute(params![
                id,
                key.dish,
                key.goal[0],
                key.goal[1],
                key.goal[2],
                mode_to(mode),
                key.cook.as_deref(),
                time,
            ])
        })
        .at(path)?;
    Ok(transaction.last_insert_rowid())
}
