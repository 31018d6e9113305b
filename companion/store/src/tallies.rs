//! The spread of very many portions, from sums kept by blocks of 32 days.
//!
//! The sums are exact and always to be had from the portions again. What a
//! write made stale is noted with it; that is reckoned again when the next one
//! asks. A time that begins or ends within a block is counted from that block's
//! own portions.

mod wrong;

pub(super) use wrong::wrong;

use super::columns::{Reads, money_to, time_to};
use super::costs::{Costs, KnownCosts};
use super::dishes::dish_name;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::spread::{Spread, Sums};
use evenhand_kitchen::tin::TinId;
use evenhand_kitchen::units::CostPerMass;
use evenhand_protocol::{Goal, Mass};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use rusqlite::types::Value;
use rusqlite::{Connection, OptionalExtension, Row, params_from_iter};
use std::collections::HashMap;
use std::path::Path;
use std::rc::Rc;

/// 32 days, in milliseconds, which the layout knows too.
const BLOCK: i64 = 32 * 86_400_000;
/// The unit of the high half of a sum of squares: so many low halves can be
/// added up without overflow.
const HIGH: i128 = 1 << 40;
/// The setting that names the zone whose hours the sums are kept by.
const ZONE: &str = "tally_zone";
/// How many runs, or sums, are held at a time.
const HELD: usize = 20_000;

/// What the portions of a dish are put together by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum By {
    /// All together.
    Dish,
    /// Who made them.
    Cook,
    /// The hour of the clock on the wall.
    Hour,
    /// The tin, fish, cut or batch they were made from.
    Tin,
}

/// Which of a dish's portions are put together.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Part {
    /// All of them.
    Whole,
    /// Those of one cook; `None` where it was not said.
    Cook(Option<Cook>),
    /// Those of an hour of the clock, 0 to 23.
    Hour(i8),
    /// Those of one tin; `None` where it was not said.
    Tin(Option<TinId>),
}

/// The spread of a part of a dish's portions.
#[derive(Debug, Clone, PartialEq)]
pub struct Tally {
    /// What was portioned; `None` of runs begun elsewhere.
    pub dish: Option<DishName>,
    /// Which of its portions.
    pub part: Part,
    /// The spread of those that count.
    pub spread: Spread,
}

/// As [`Part`], by what the columns hold.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
enum Place {
    Whole,
    Cook(Option<Rc<str>>),
    Hour(i64),
    Tin(Option<i64>),
}

/// Sums by dish, 0 for none, and place.
type Places = HashMap<(i64, Place), Spread>;

impl Store {
    /// The spread of every dish's portions from `from` (inclusive) to `to`
    /// (exclusive), or of all, put together by `by`; hours are those of `zone`.
    ///
    /// # Errors
    /// Where the store cannot be read, or written where sums are stale.
    pub fn tallies(
        &mut self,
        by: By,
        zone: &TimeZone,
        from: Option<Timestamp>,
        to: Option<Timestamp>,
    ) -> Result<Vec<Tally>, StoreError> {
        let (from, to) = (from.map_or(i64::MIN, time_to), to.map_or(i64::MAX, time_to));
        let mut places = Places::new();
        if to <= from {
            return Ok(Vec::new());
        }
        let path = self.path.clone();
        match (zone_name(zone), whole_blocks(from, to)) {
            // A part of a block, or hours that no sum is kept by.
            (_, None) | (None, _) => self.count(by, zone, from..to, &mut places)?,
            (Some(_), Some((first, last))) => {
                self.reckon_stale_tallies(zone)?;
                kept(&self.connection, &path, by, (first, last), &mut places)?;
                if from > i64::MIN {
                    self.count(by, zone, from..begin(first), &mut places)?;
                }
                if to < i64::MAX {
                    self.count(by, zone, end(last)..to, &mut places)?;
                }
            }
        }
        named(&self.connection, &path, places)
    }

    /// Reckons again what a write made stale, for the hours of `zone`.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn reckon_stale_tallies(&mut self, zone: &TimeZone) -> Result<(), StoreError> {
        let Some(name) = zone_name(zone) else {
            return Ok(());
        };
        let stale: bool = self
            .connection
            .query_row(
                "SELECT EXISTS (SELECT 1 FROM stale_block)
                        OR NOT EXISTS (SELECT 1 FROM setting WHERE name = ?1 AND value = ?2)",
                [ZONE, &name],
                |row| row.get(0),
            )
            .map_err(|error| self.sql(error))?;
        if !stale {
            return Ok(());
        }
        self.write(|transaction, path| {
            keep_hours_of(transaction, path, &name)?;
            let stale: Vec<i64> = transaction
                .prepare_cached("SELECT block FROM stale_block")
                .and_then(|mut select| select.query_map([], |row| row.get(0))?.collect())
                .at(path)?;
            let mut counter = Counter::new(transaction, path);
            for block in stale {
                reckon(transaction, path, &mut counter, zone, block)?;
            }
            transaction.execute("DELETE FROM stale_block", []).at(path)
        })?;
        Ok(())
    }

    /// Counts portions of a time one by one.
    fn count(
        &self,
        by: By,
        zone: &TimeZone,
        time: std::ops::Range<i64>,
        into: &mut Places,
    ) -> Result<(), StoreError> {
        let mut hours = Hours::of_zone(zone);
        Counter::new(&self.connection, &self.path).each(time, |counted| {
            let place = match by {
                By::Dish => Place::Whole,
                By::Cook => Place::Cook(counted.cook.cloned()),
                By::Hour => Place::Hour(hours.of(counted.time)),
                By::Tin => Place::Tin(counted.tin),
            };
            into.entry((counted.dish, place)).or_default().add(
                counted.mass,
                counted.goal,
                counted.cost,
            );
            Ok(())
        })
    }
}

/// The blocks that lie wholly within a time, the first and the last of them.
const fn whole_blocks(from: i64, to: i64) -> Option<(i64, i64)> {
    let mut first = block_of(from);
    if begin(first) < from {
        first += 1;
    }
    let mut last = block_of(to);
    if end(last) > to {
        last -= 1;
    }
    if first <= last {
        Some((first, last))
    } else {
        None
    }
}

/// The block of a time, as the layout reckons it: towards zero.
const fn block_of(time: i64) -> i64 {
    time / BLOCK
}

/// When a block begins.
pub(super) const fn begin(block: i64) -> i64 {
    if block > 0 {
        block.saturating_mul(BLOCK)
    } else {
        (block - 1).saturating_mul(BLOCK).saturating_add(1)
    }
}

/// When a block has ended.
const fn end(block: i64) -> i64 {
    begin(block + 1)
}

/// What tells a zone's hours from those of others; `None` where nothing does.
pub(super) fn zone_name(zone: &TimeZone) -> Option<String> {
    match zone.iana_name() {
        Some(name) => Some(name.to_owned()),
        None => zone.to_fixed_offset().ok().map(|offset| offset.to_string()),
    }
}

/// Has the sums kept by the hours of a zone from now on.
pub(super) fn keep_hours_of(
    connection: &Connection,
    path: &Path,
    zone: &str,
) -> Result<(), StoreError> {
    let changed = connection
        .execute(
            "INSERT INTO setting (name, value) VALUES (?1, ?2)
             ON CONFLICT (name) DO UPDATE SET value = ?2 WHERE value <> ?2",
            [ZONE, zone],
        )
        .at(path)?;
    if changed > 0 {
        connection
            .execute(
                "INSERT OR IGNORE INTO stale_block SELECT block FROM tally",
                [],
            )
            .at(path)?;
    }
    Ok(())
}

/// Notes that the sums a portion of this time is in are to be reckoned again,
/// with those of whatever else was made from the same tin.
pub(super) fn make_stale(
    connection: &Connection,
    path: &Path,
    run: i64,
    time: i64,
) -> Result<(), StoreError> {
    connection
        .prepare_cached("INSERT OR IGNORE INTO stale_block VALUES (?1)")
        .and_then(|mut insert| insert.execute([block_of(time)]))
        .at(path)?;
    connection
        .prepare_cached(
            "INSERT OR IGNORE INTO stale_block
             SELECT t.block FROM run r JOIN tally_of_tin t ON t.tin = r.tin WHERE r.seq = ?1",
        )
        .and_then(|mut insert| insert.execute([run]))
        .at(path)?;
    Ok(())
}

/// A run as the sums need it.
struct RunOf {
    /// 0 for none.
    dish: i64,
    cook: Option<Rc<str>>,
    tin: Option<i64>,
    costs: Costs,
}

/// Tells the portions that count, in order of time.
struct Counter<'c> {
    connection: &'c Connection,
    path: &'c Path,
    costs: KnownCosts,
    cooks: HashMap<String, Rc<str>>,
    runs: HashMap<i64, Rc<RunOf>>,
}

impl<'c> Counter<'c> {
    fn new(connection: &'c Connection, path: &'c Path) -> Self {
        Self {
            connection,
            path,
            costs: KnownCosts::default(),
            cooks: HashMap::new(),
            runs: HashMap::new(),
        }
    }

    fn each(
        &mut self,
        time: std::ops::Range<i64>,
        mut tell: impl FnMut(Summand<'_>) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        let (connection, path) = (self.connection, self.path);
        let reads = Reads(path);
        let mut select = connection
            .prepare_cached(
                "SELECT p.run, p.time, p.mass, p.target, p.below, p.above FROM portion p
                 WHERE p.time >= ?1 AND p.time < ?2
                   AND NOT EXISTS (SELECT 1 FROM strike k
                                   WHERE k.portion = p.seq AND k.lifted IS NULL)
                   AND (p.replaced_by IS NULL
                        OR EXISTS (SELECT 1 FROM strike k
                                   WHERE k.portion = p.replaced_by AND k.lifted IS NULL
                                     AND k.undone))
                 ORDER BY p.time",
            )
            .at(path)?;
        let mut rows = select.query([time.start, time.end]).at(path)?;
        while let Some(row) = rows.next().at(path)? {
            let run = self.run(row.get(0).at(path)?)?;
            let time = row.get(1).at(path)?;
            tell(Summand {
                dish: run.dish,
                cook: run.cook.as_ref(),
                tin: run.tin,
                time,
                mass: Mass::from_micrograms(row.get(2).at(path)?),
                goal: reads.goal(
                    row.get(3).at(path)?,
                    row.get(4).at(path)?,
                    row.get(5).at(path)?,
                )?,
                cost: run.costs.at(time),
            })?;
        }
        Ok(())
    }

    fn run(&mut self, seq: i64) -> Result<Rc<RunOf>, StoreError> {
        if let Some(known) = self.runs.get(&seq) {
            return Ok(Rc::clone(known));
        }
        let (dish, cook, tin) = self
            .connection
            .prepare_cached("SELECT dish, cook, tin FROM run WHERE seq = ?1")
            .and_then(|mut select| {
                select.query_row([seq], |row| {
                    Ok((
                        row.get::<_, Option<i64>>(0)?,
                        row.get::<_, Option<String>>(1)?,
                        row.get::<_, Option<i64>>(2)?,
                    ))
                })
            })
            .at(self.path)?;
        let cook = cook.map(|cook| match self.cooks.get(&cook) {
            Some(known) => Rc::clone(known),
            None => {
                let known: Rc<str> = cook.as_str().into();
                self.cooks.insert(cook, Rc::clone(&known));
                known
            }
        });
        let run = Rc::new(RunOf {
            dish: dish.unwrap_or_default(),
            cook,
            tin,
            costs: self.costs.of(self.connection, self.path, dish, tin)?,
        });
        // In order of time none of an earlier night is asked for again.
        if self.runs.len() >= HELD {
            self.runs.clear();
        }
        self.runs.insert(seq, Rc::clone(&run));
        Ok(run)
    }
}

/// Tells the hour of the clock on the wall; that of portions one after the
/// other mostly without looking into the zone.
struct Hours<'z> {
    zone: &'z TimeZone,
    /// From when to when the clock shows the hour told last.
    within: std::ops::Range<i64>,
    hour: i64,
}

impl<'z> Hours<'z> {
    const fn of_zone(zone: &'z TimeZone) -> Self {
        Self {
            zone,
            within: 0..0,
            hour: 0,
        }
    }

    fn of(&mut self, time: i64) -> i64 {
        if self.within.contains(&time) {
            return self.hour;
        }
        let moment = Timestamp::from_millisecond(time).unwrap_or_default();
        let local = self.zone.to_datetime(moment);
        self.hour = local.hour().into();
        let past = i64::from(local.minute()) * 60_000
            + i64::from(local.second()) * 1_000
            + i64::from(local.millisecond());
        let hour = time - past..time - past + 3_600_000;
        let offset = |time| {
            Timestamp::from_millisecond(time)
                .ok()
                .map(|moment| self.zone.to_offset(moment))
        };
        let here = offset(time);
        self.within = if offset(hour.start) == here && offset(hour.end - 1) == here {
            hour
        } else {
            time..time + 1
        };
        self.hour
    }
}

/// A portion that counts, as the sums have it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Summand<'c> {
    /// 0 for none.
    pub(super) dish: i64,
    pub(super) cook: Option<&'c Rc<str>>,
    pub(super) tin: Option<i64>,
    pub(super) time: i64,
    pub(super) mass: Mass,
    pub(super) goal: Goal,
    pub(super) cost: Option<CostPerMass>,
}

/// The block, the dish, the cook and the hour of the clock that a sum is of.
type HourKey = (i64, i64, Option<Rc<str>>, i64);

/// Sums on their way into the tables that keep them.
pub(super) struct Gathered<'z> {
    hours: Hours<'z>,
    by_hour: HashMap<HourKey, Spread>,
    by_tin: HashMap<(i64, i64, Option<i64>), Spread>,
}

impl<'z> Gathered<'z> {
    pub(super) fn new(zone: &'z TimeZone) -> Self {
        Self {
            hours: Hours::of_zone(zone),
            by_hour: HashMap::new(),
            by_tin: HashMap::new(),
        }
    }

    /// Counts a portion, and keeps the sums where they have become many.
    pub(super) fn add(
        &mut self,
        connection: &Connection,
        path: &Path,
        summand: Summand<'_>,
    ) -> Result<(), StoreError> {
        let Summand {
            dish,
            cook,
            tin,
            time,
            mass,
            goal,
            cost,
        } = summand;
        let block = block_of(time);
        let hour = self.hours.of(time);
        self.by_hour
            .entry((block, dish, cook.cloned(), hour))
            .or_default()
            .add(mass, goal, cost);
        self.by_tin
            .entry((block, dish, tin))
            .or_default()
            .add(mass, goal, cost);
        if self.by_hour.len() < HELD && self.by_tin.len() < HELD {
            return Ok(());
        }
        self.keep(connection, path)
    }

    /// Adds what was gathered to the sums that are kept, and forgets it.
    pub(super) fn keep(&mut self, connection: &Connection, path: &Path) -> Result<(), StoreError> {
        for ((block, dish, cook, hour), spread) in self.by_hour.drain() {
            let cook = cook.as_deref().unwrap_or_default().to_owned();
            let key = [dish.into(), cook.into(), hour.into(), block.into()];
            add_to(
                connection,
                path,
                ("tally", "dish, cook, hour, block"),
                &key,
                spread,
            )?;
        }
        for ((block, dish, tin), spread) in self.by_tin.drain() {
            let key = [tin.unwrap_or_default().into(), dish.into(), block.into()];
            add_to(
                connection,
                path,
                ("tally_of_tin", "tin, dish, block"),
                &key,
                spread,
            )?;
        }
        Ok(())
    }
}

/// The columns of a sum.
const SUMS: &str = "n, sum, squares_high, squares_low, short, on_target, heavy, lightest, \
     heaviest, given_away, costed, lost, currency";

/// Adds a spread to the row of a table with this key, or makes that row.
fn add_to(
    connection: &Connection,
    path: &Path,
    (table, columns): (&str, &str),
    key: &[Value],
    mut spread: Spread,
) -> Result<(), StoreError> {
    let places: Vec<String> = (1..=key.len()).map(|place| format!("?{place}")).collect();
    let places = places.join(", ");
    let known = connection
        .prepare_cached(&format!(
            "SELECT {SUMS} FROM {table} WHERE ({columns}) = ({places})"
        ))
        .and_then(|mut select| {
            select
                .query_row(params_from_iter(key), |row| Ok(spread_of(row, 0, path)))
                .optional()
        })
        .at(path)?
        .transpose()?;
    if let Some(known) = known {
        spread.merge(&known);
    }
    let sums = columns_of(&spread.sums(), path)?;
    let values: Vec<String> = (1..=sums.len())
        .map(|place| format!("?{}", key.len() + place))
        .collect();
    connection
        .prepare_cached(&format!(
            "INSERT OR REPLACE INTO {table} ({columns}, {SUMS}) VALUES ({places}, {})",
            values.join(", ")
        ))
        .and_then(|mut insert| insert.execute(params_from_iter(key.iter().chain(&sums))))
        .at(path)?;
    Ok(())
}

fn columns_of(sums: &Sums, path: &Path) -> Result<[Value; 13], StoreError> {
    let reads = Reads(path);
    let whole = |number: i128| i64::try_from(number).map_err(|_| reads.senseless("sum of masses"));
    let count = |number: usize| whole(number as i128).map(Value::from);
    let (lost, currency) = money_to(sums.lost);
    Ok([
        count(sums.n)?,
        whole(sums.sum)?.into(),
        whole(sums.squares / HIGH)?.into(),
        whole(sums.squares % HIGH)?.into(),
        count(sums.short)?,
        count(sums.on)?,
        count(sums.heavy)?,
        sums.lightest.map_or(0, Mass::micrograms).into(),
        sums.heaviest.map_or(0, Mass::micrograms).into(),
        sums.given_away.micrograms().into(),
        count(sums.costed)?,
        lost.into(),
        currency.map(str::to_owned).into(),
    ])
}

/// The spread whose columns begin at `first`.
fn spread_of(row: &Row<'_>, first: usize, path: &Path) -> Result<Spread, StoreError> {
    let reads = Reads(path);
    let number = |place: usize| row.get::<_, i64>(first + place).at(path);
    let count = |place: usize| {
        usize::try_from(number(place)?).map_err(|_| reads.senseless("tally's count"))
    };
    let mass = |place: usize| number(place).map(Mass::from_micrograms);
    let sums = Sums {
        n: count(0)?,
        sum: number(1)?.into(),
        squares: i128::from(number(2)?) * HIGH + i128::from(number(3)?),
        short: count(4)?,
        on: count(5)?,
        heavy: count(6)?,
        lightest: Some(mass(7)?),
        heaviest: Some(mass(8)?),
        given_away: mass(9)?,
        costed: count(10)?,
        lost: reads.money(row.get(first + 11).at(path)?, row.get(first + 12).at(path)?)?,
    };
    Ok(Spread::of_sums(&sums))
}

/// The sums of a block anew.
fn reckon(
    connection: &Connection,
    path: &Path,
    counter: &mut Counter<'_>,
    zone: &TimeZone,
    block: i64,
) -> Result<(), StoreError> {
    for table in ["tally", "tally_of_tin"] {
        connection
            .prepare_cached(&format!("DELETE FROM {table} WHERE block = ?1"))
            .and_then(|mut delete| delete.execute([block]))
            .at(path)?;
    }
    let mut gathered = Gathered::new(zone);
    counter.each(begin(block)..end(block), |summand| {
        gathered.add(connection, path, summand)
    })?;
    gathered.keep(connection, path)
}

/// Adds up what is kept of some blocks.
fn kept(
    connection: &Connection,
    path: &Path,
    by: By,
    (first, last): (i64, i64),
    into: &mut Places,
) -> Result<(), StoreError> {
    let (table, key) = match by {
        By::Dish => ("tally", "NULL"),
        By::Cook => ("tally", "cook"),
        By::Hour => ("tally", "hour"),
        By::Tin => ("tally_of_tin", "tin"),
    };
    // Money of several currencies, or of some of them, is no sum.
    const ONE_CURRENCY: &str =
        "min(currency) IS max(currency) AND NOT max(costed > 0 AND currency IS NULL)";
    let mut select = connection
        .prepare_cached(&format!(
            "SELECT dish, {key}, sum(n), sum(sum), sum(squares_high), sum(squares_low),
                    sum(short), sum(on_target), sum(heavy), min(lightest), max(heaviest),
                    sum(given_away), sum(costed),
                    CASE WHEN {ONE_CURRENCY} THEN sum(lost) END,
                    CASE WHEN {ONE_CURRENCY} THEN max(currency) END
             FROM {table} WHERE block BETWEEN ?1 AND ?2 GROUP BY dish, {key}"
        ))
        .at(path)?;
    let mut rows = select.query([first, last]).at(path)?;
    while let Some(row) = rows.next().at(path)? {
        let place = match by {
            By::Dish => Place::Whole,
            By::Cook => {
                let cook: String = row.get(1).at(path)?;
                Place::Cook(Some(cook.as_str().into()).filter(|_| !cook.is_empty()))
            }
            By::Hour => Place::Hour(row.get(1).at(path)?),
            By::Tin => {
                let tin: i64 = row.get(1).at(path)?;
                Place::Tin(Some(tin).filter(|tin| *tin != 0))
            }
        };
        into.entry((row.get(0).at(path)?, place))
            .or_default()
            .merge(&spread_of(row, 2, path)?);
    }
    Ok(())
}

/// What was counted, with the names that go with it.
fn named(connection: &Connection, path: &Path, places: Places) -> Result<Vec<Tally>, StoreError> {
    let mut dishes: HashMap<i64, DishName> = HashMap::new();
    let mut select = connection
        .prepare_cached("SELECT id, name FROM dish")
        .at(path)?;
    let mut rows = select.query([]).at(path)?;
    while let Some(row) = rows.next().at(path)? {
        dishes.insert(row.get(0).at(path)?, dish_name(row.get(1).at(path)?, path)?);
    }
    let reads = Reads(path);
    places
        .into_iter()
        .map(|((dish, place), spread)| {
            let dish = match dish {
                0 => None,
                id => Some(
                    dishes
                        .get(&id)
                        .cloned()
                        .ok_or_else(|| reads.senseless("tally's dish"))?,
                ),
            };
            let part = match place {
                Place::Whole => Part::Whole,
                Place::Cook(None) => Part::Cook(None),
                Place::Cook(Some(cook)) => Part::Cook(Some(
                    Cook::new("cook", &cook).map_err(|_| reads.senseless("cook"))?,
                )),
                Place::Hour(hour) => {
                    Part::Hour(i8::try_from(hour).map_err(|_| reads.senseless("hour"))?)
                }
                Place::Tin(tin) => Part::Tin(tin.map(TinId)),
            };
            Ok(Tally { dish, part, spread })
        })
        .collect()
}
