//! The spread of very many portions, from sums kept by blocks of 32 days.
//!
//! The sums are exact and always to be had from the portions again. What a
//! write made stale is noted with it; that is reckoned again when the next one
//! asks. A time that begins or ends within a block is counted from that block's
//! own portions.

mod wrong;

pub(super) use wrong::wrong;

use super::columns::{Reads, device_from, money_to, time_to};
use super::costs::{Costs, KnownCosts};
use super::dishes::dish_name;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::straddles_limit;
use evenhand_kitchen::service::{DoubtedSpread, FailedTest, PutRight, WeightDoubt};
use evenhand_kitchen::spread::{Spread, Sums};
use evenhand_kitchen::tin::TinId;
use evenhand_kitchen::units::CostPerMass;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{DeviceId, Goal, Mass};
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
pub enum Group {
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
    pub part: Group,
    /// The spread of those that count, with and without those in doubt.
    pub spread: DoubtedSpread,
}

/// As [`Group`], by what the columns hold.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
enum GroupKey {
    Whole,
    Cook(Option<Rc<str>>),
    Hour(i64),
    Tin(Option<i64>),
}

/// How far a portion is to be relied on, as a column holds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Reliance {
    doubt: Option<WeightDoubt>,
    /// Of a weight without doubt: its verdict could be either.
    straddling: bool,
}

impl Reliance {
    /// Nothing speaks against the weight or its verdict.
    pub(super) const SURE: Self = Self {
        doubt: None,
        straddling: false,
    };

    const fn to_column(self) -> i64 {
        match (self.doubt, self.straddling) {
            (None, false) => 0,
            (Some(WeightDoubt::FailedTest), _) => 1,
            (Some(WeightDoubt::MaybeTwo), _) => 2,
            (Some(WeightDoubt::TakenOffPan), _) => 3,
            (Some(WeightDoubt::Instrument), _) => 4,
            (None, true) => 5,
        }
    }

    /// `None` of a number that no sum is kept by.
    const fn from_column(number: i64) -> Option<Self> {
        let (doubt, straddling) = match number {
            0 => (None, false),
            2 => (Some(WeightDoubt::MaybeTwo), false),
            3 => (Some(WeightDoubt::TakenOffPan), false),
            4 => (Some(WeightDoubt::Instrument), false),
            5 => (None, true),
            _ => return None,
        };
        Some(Self { doubt, straddling })
    }
}

/// Sums by dish, 0 for none, and place.
type Places = HashMap<(i64, GroupKey), DoubtedSpread>;

/// Times of portions, from the first to before the last.
type Times = std::ops::Range<i64>;

impl Store {
    /// The spread of every dish's portions from `from` (inclusive) to `to`
    /// (exclusive), or of all, put together by `by`, with and without those whose
    /// weight the instrument or a failed test of the scale casts doubt on; hours
    /// are those of `zone`.
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
        let failed = FailedTest::all(&self.scale_findings()?);
        match (zone_name(zone), whole_blocks(from, to)) {
            // A part of a block, or hours that no sum is kept by.
            (_, None) | (None, _) => self.count(by, zone, &failed, from..to, &mut places)?,
            (Some(_), Some(whole)) => {
                self.reckon_stale_tallies(zone)?;
                let (by_block, one_by_one) = parted(from..to, whole, &failed);
                for blocks in by_block {
                    kept(&self.connection, &path, by, blocks, &mut places)?;
                }
                for times in one_by_one {
                    self.count(by, zone, &failed, times, &mut places)?;
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
        failed_tests: &[FailedTest],
        time: Times,
        into: &mut Places,
    ) -> Result<(), StoreError> {
        let mut hours = Hours::of_zone(zone);
        let mut apart: HashMap<(i64, GroupKey, Reliance), Spread> = HashMap::new();
        let mut counter = Counter::new(&self.connection, &self.path);
        counter.failed_tests = failed_tests;
        counter.each(time, |counted| {
            let place = match by {
                By::Dish => GroupKey::Whole,
                By::Cook => GroupKey::Cook(counted.cook.cloned()),
                By::Hour => GroupKey::Hour(hours.of(counted.time)),
                By::Tin => GroupKey::Tin(counted.tin),
            };
            apart
                .entry((counted.dish, place, counted.reliance))
                .or_default()
                .add(counted.mass, counted.goal, counted.cost);
            Ok(())
        })?;
        for ((dish, place, reliance), spread) in apart {
            into.entry((dish, place))
                .or_default()
                .merge(&DoubtedSpread::of(
                    spread,
                    reliance.doubt,
                    reliance.straddling,
                ));
        }
        Ok(())
    }
}

/// Which blocks of a time, the first and the last, can be had from the sums that are
/// kept, and which times are to be counted portion by portion: those without a whole
/// block, and the blocks that a failed test of the scale reaches into.
fn parted(
    time: Times,
    (first, last): (i64, i64),
    failed_tests: &[FailedTest],
) -> (Vec<(i64, i64)>, Vec<Times>) {
    let mut reached: Vec<(i64, i64)> = failed_tests
        .iter()
        .map(|failed| {
            let from = failed
                .last_good
                .map_or(first, |good| block_of(time_to(good)));
            let right = failed.put_right.map(PutRight::at);
            let to = right.map_or(last, |right| block_of(time_to(right)));
            (from.max(first), to.min(last))
        })
        .filter(|(from, to)| from <= to)
        .collect();
    reached.sort_unstable();
    let (mut kept, mut counted) = (Vec::new(), Vec::new());
    let mut next = first;
    for (from, to) in reached {
        if from > next {
            kept.push((next, from - 1));
        }
        if to >= next {
            counted.push(begin(from.max(next))..end(to));
            next = to + 1;
        }
    }
    if next <= last {
        kept.push((next, last));
    }
    let ends = [
        (time.start > i64::MIN).then(|| time.start..begin(first)),
        (time.end < i64::MAX).then(|| end(last)..time.end),
    ];
    counted.extend(ends.into_iter().flatten());
    (kept, counted)
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
    /// What is held against weights beside what the instrument says of them.
    failed_tests: &'c [FailedTest],
    /// The scale of each start.
    scales: HashMap<i64, DeviceId>,
    costs: KnownCosts,
    cooks: HashMap<String, Rc<str>>,
    runs: HashMap<i64, Rc<RunOf>>,
}

impl<'c> Counter<'c> {
    fn new(connection: &'c Connection, path: &'c Path) -> Self {
        Self {
            connection,
            path,
            failed_tests: &[],
            scales: HashMap::new(),
            costs: KnownCosts::default(),
            cooks: HashMap::new(),
            runs: HashMap::new(),
        }
    }

    fn each(
        &mut self,
        time: Times,
        mut tell: impl FnMut(Summand<'_>) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        let (connection, path) = (self.connection, self.path);
        let reads = Reads(path);
        let mut select = connection
            .prepare_cached(
                "SELECT p.run, p.time, p.mass, p.target, p.below, p.above, p.doubts,
                        p.uncertainty, p.start
                 FROM portion p
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
            let mass = Mass::from_micrograms(row.get(2).at(path)?);
            let goal = reads.goal(
                row.get(3).at(path)?,
                row.get(4).at(path)?,
                row.get(5).at(path)?,
            )?;
            let doubts = Doubts(reads.unsigned32(row.get(6).at(path)?, "set of doubts")?);
            let uncertainty: Option<i64> = row.get(7).at(path)?;
            let doubt = if self.touched(row.get(8).at(path)?, time)? {
                Some(WeightDoubt::FailedTest)
            } else {
                WeightDoubt::of_instrument(doubts)
            };
            let uncertainty = uncertainty.map(Mass::from_micrograms);
            let straddling = doubt.is_none() && straddles_limit(mass, goal, uncertainty, doubts);
            tell(Summand {
                dish: run.dish,
                cook: run.cook.as_ref(),
                tin: run.tin,
                time,
                mass,
                goal,
                cost: run.costs.at(time),
                reliance: Reliance { doubt, straddling },
            })?;
        }
        Ok(())
    }

    /// Whether a failed test casts doubt on what was weighed since a start.
    fn touched(&mut self, start: i64, time: i64) -> Result<bool, StoreError> {
        if self.failed_tests.is_empty() {
            return Ok(false);
        }
        let scale = match self.scales.get(&start) {
            Some(known) => *known,
            None => {
                let device = self
                    .connection
                    .prepare_cached("SELECT device FROM start WHERE id = ?1")
                    .and_then(|mut select| select.query_row([start], |row| row.get(0)))
                    .at(self.path)?;
                *self.scales.entry(start).or_insert(device_from(device))
            }
        };
        let time = Reads(self.path).time(time)?;
        Ok(self
            .failed_tests
            .iter()
            .any(|failed| failed.place_at(scale, time).is_some()))
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
    pub(super) reliance: Reliance,
}

/// The block, the dish, the cook, the hour of the clock and the doubt that a sum is of.
type HourKey = (i64, i64, Option<Rc<str>>, i64, i64);

/// Sums on their way into the tables that keep them.
pub(super) struct Gathered<'z> {
    hours: Hours<'z>,
    by_hour: HashMap<HourKey, Spread>,
    by_tin: HashMap<(i64, i64, Option<i64>, i64), Spread>,
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
            reliance,
        } = summand;
        let doubt = reliance.to_column();
        let block = block_of(time);
        let hour = self.hours.of(time);
        self.by_hour
            .entry((block, dish, cook.cloned(), hour, doubt))
            .or_default()
            .add(mass, goal, cost);
        self.by_tin
            .entry((block, dish, tin, doubt))
            .or_default()
            .add(mass, goal, cost);
        if self.by_hour.len() < HELD && self.by_tin.len() < HELD {
            return Ok(());
        }
        self.keep(connection, path)
    }

    /// Adds what was gathered to the sums that are kept, and forgets it.
    pub(super) fn keep(&mut self, connection: &Connection, path: &Path) -> Result<(), StoreError> {
        for ((block, dish, cook, hour, doubt), spread) in self.by_hour.drain() {
            let cook = cook.as_deref().unwrap_or_default().to_owned();
            let key = [
                dish.into(),
                cook.into(),
                hour.into(),
                block.into(),
                doubt.into(),
            ];
            add_to(
                connection,
                path,
                ("tally", "dish, cook, hour, block, doubt"),
                &key,
                spread,
            )?;
        }
        for ((block, dish, tin, doubt), spread) in self.by_tin.drain() {
            let key = [
                tin.unwrap_or_default().into(),
                dish.into(),
                block.into(),
                doubt.into(),
            ];
            add_to(
                connection,
                path,
                ("tally_of_tin", "tin, dish, block, doubt"),
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
            "SELECT dish, {key}, doubt, sum(n), sum(sum), sum(squares_high), sum(squares_low),
                    sum(short), sum(on_target), sum(heavy), min(lightest), max(heaviest),
                    sum(given_away), sum(costed),
                    CASE WHEN {ONE_CURRENCY} THEN sum(lost) END,
                    CASE WHEN {ONE_CURRENCY} THEN max(currency) END
             FROM {table} WHERE block BETWEEN ?1 AND ?2 GROUP BY dish, {key}, doubt"
        ))
        .at(path)?;
    let mut rows = select.query([first, last]).at(path)?;
    while let Some(row) = rows.next().at(path)? {
        let place = match by {
            By::Dish => GroupKey::Whole,
            By::Cook => {
                let cook: String = row.get(1).at(path)?;
                GroupKey::Cook(Some(cook.as_str().into()).filter(|_| !cook.is_empty()))
            }
            By::Hour => GroupKey::Hour(row.get(1).at(path)?),
            By::Tin => {
                let tin: i64 = row.get(1).at(path)?;
                GroupKey::Tin(Some(tin).filter(|tin| *tin != 0))
            }
        };
        let reliance = Reliance::from_column(row.get(2).at(path)?)
            .ok_or_else(|| Reads(path).senseless("tally's doubt"))?;
        into.entry((row.get(0).at(path)?, place))
            .or_default()
            .merge(&DoubtedSpread::of(
                spread_of(row, 3, path)?,
                reliance.doubt,
                reliance.straddling,
            ));
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
                GroupKey::Whole => Group::Whole,
                GroupKey::Cook(None) => Group::Cook(None),
                GroupKey::Cook(Some(cook)) => Group::Cook(Some(
                    Cook::new("cook", &cook).map_err(|_| reads.senseless("cook"))?,
                )),
                GroupKey::Hour(hour) => {
                    Group::Hour(i8::try_from(hour).map_err(|_| reads.senseless("hour"))?)
                }
                GroupKey::Tin(tin) => Group::Tin(tin.map(TinId)),
            };
            Ok(Tally { dish, part, spread })
        })
        .collect()
}
