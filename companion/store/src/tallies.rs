//! The spread of very many portions, from sums kept by run and half hour.
//!
//! The sums are exact and always to be had from the portions again. Triggers
//! note which ones a write made stale; those are reckoned again when the next
//! one asks.

use super::columns::{Reads, money_to, time_to};
use super::dishes::dish_name;
use super::yields::tin_cost;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::spread::{Spread, Sums};
use evenhand_kitchen::tin::TinId;
use evenhand_kitchen::units::CostPerMass;
use evenhand_protocol::Mass;
use jiff::Timestamp;
use rusqlite::{Connection, Row, Transaction, params};
use std::collections::HashMap;
use std::path::Path;
use std::rc::Rc;

/// Half an hour, in milliseconds.
const HALF_HOUR: i64 = 1_800_000;
/// The unit of the high half of a sum of squares.
const HIGH: i128 = 1 << 62;

/// The spread of the portions of one run within one half hour.
#[derive(Debug, Clone, PartialEq)]
pub struct Tally {
    /// What was portioned; `None` of a run begun elsewhere.
    pub dish: Option<Rc<DishName>>,
    /// Who portioned it, where it was said.
    pub cook: Option<Rc<Cook>>,
    /// From what, where it was said.
    pub tin: Option<TinId>,
    /// When the half hour began, in UTC.
    pub from: Timestamp,
    /// The spread of those that count.
    pub spread: Spread,
}

impl Store {
    /// The tallies of whole half hours from `from` (inclusive) to `to`
    /// (exclusive), or of everything. Both are taken down to a half hour of
    /// UTC.
    ///
    /// # Errors
    /// Where the store cannot be read, or written where some are stale.
    pub fn tallies(
        &mut self,
        from: Option<Timestamp>,
        to: Option<Timestamp>,
    ) -> Result<Vec<Tally>, StoreError> {
        self.reckon_stale_tallies()?;
        let bound = |moment: Option<Timestamp>, open| {
            moment.map_or(open, |moment| time_to(moment).div_euclid(HALF_HOUR))
        };
        let (from, to) = (bound(from, i64::MIN), bound(to, i64::MAX));
        let runs = self.runs_of_tallies(from, to)?;
        let mut select = self
            .connection
            .prepare_cached(
                "SELECT run, half_hour, n, sum, squares_high, squares_low, short, on_target, heavy,
                        lightest, heaviest, given_away, costed, lost, currency
                 FROM tally WHERE half_hour >= ?1 AND half_hour < ?2",
            )
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([from, to], |row| Ok(tally(row, &runs, &self.path)))
            .map_err(|error| self.sql(error))?;
        rows.map(|row| row.map_err(|error| self.sql(error))?)
            .collect()
    }

    /// Reckons again what a write made stale.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn reckon_stale_tallies(&mut self) -> Result<(), StoreError> {
        let stale: bool = self
            .connection
            .query_row("SELECT EXISTS (SELECT 1 FROM stale_tally)", [], |row| {
                row.get(0)
            })
            .map_err(|error| self.sql(error))?;
        if !stale {
            return Ok(());
        }
        self.write(|transaction, path| {
            for run in stale_runs(transaction).at(path)? {
                reckon(transaction, path, run)?;
            }
            transaction.execute("DELETE FROM stale_tally", []).at(path)
        })?;
        Ok(())
    }

    /// The runs that have a tally within these half hours.
    fn runs_of_tallies(&self, from: i64, to: i64) -> Result<HashMap<i64, RunOf>, StoreError> {
        let mut names: HashMap<String, Rc<DishName>> = HashMap::new();
        let mut cooks: HashMap<String, Rc<Cook>> = HashMap::new();
        let mut select = self
            .connection
            .prepare_cached(
                "SELECT r.seq, d.name, r.cook, r.tin FROM run r LEFT JOIN dish d ON d.id = r.dish
                 WHERE r.seq IN (SELECT run FROM tally WHERE half_hour >= ?1 AND half_hour < ?2)",
            )
            .map_err(|error| self.sql(error))?;
        let mut rows = select.query([from, to]).map_err(|error| self.sql(error))?;
        let mut runs = HashMap::new();
        while let Some(row) = rows.next().map_err(|error| self.sql(error))? {
            let get = |column| {
                row.get::<_, Option<String>>(column)
                    .map_err(|error| self.sql(error))
            };
            let dish = match get(1)? {
                None => None,
                Some(name) => Some(match names.get(&name) {
                    Some(known) => Rc::clone(known),
                    None => {
                        let new = Rc::new(dish_name(name.clone(), &self.path)?);
                        names.insert(name, Rc::clone(&new));
                        new
                    }
                }),
            };
            let cook = match get(2)? {
                None => None,
                Some(initials) => Some(match cooks.get(&initials) {
                    Some(known) => Rc::clone(known),
                    None => {
                        let new = Cook::new("cook", &initials)
                            .map_err(|_| Reads(&self.path).senseless("cook"))?;
                        let new = Rc::new(new);
                        cooks.insert(initials, Rc::clone(&new));
                        new
                    }
                }),
            };
            let tin = row
                .get::<_, Option<i64>>(3)
                .map_err(|error| self.sql(error))?
                .map(TinId);
            let seq = row.get(0).map_err(|error| self.sql(error))?;
            runs.insert(seq, RunOf { dish, cook, tin });
        }
        Ok(runs)
    }
}

struct RunOf {
    dish: Option<Rc<DishName>>,
    cook: Option<Rc<Cook>>,
    tin: Option<TinId>,
}

fn tally(row: &Row<'_>, runs: &HashMap<i64, RunOf>, path: &Path) -> Result<Tally, StoreError> {
    let reads = Reads(path);
    let run = runs
        .get(&row.get(0).at(path)?)
        .ok_or_else(|| reads.senseless("tally's run"))?;
    let half_hour: i64 = row.get(1).at(path)?;
    let count = |column: usize| -> Result<usize, StoreError> {
        usize::try_from(row.get::<_, i64>(column).at(path)?)
            .map_err(|_| reads.senseless("tally's count"))
    };
    let mass = |column: usize| row.get(column).at(path).map(Mass::from_micrograms);
    let high: i64 = row.get(4).at(path)?;
    let low: i64 = row.get(5).at(path)?;
    let sums = Sums {
        n: count(2)?,
        sum: row.get::<_, i64>(3).at(path)?.into(),
        squares: i128::from(high) * HIGH + i128::from(low),
        short: count(6)?,
        on: count(7)?,
        heavy: count(8)?,
        lightest: Some(mass(9)?),
        heaviest: Some(mass(10)?),
        given_away: mass(11)?,
        costed: count(12)?,
        lost: reads.money(row.get(13).at(path)?, row.get(14).at(path)?)?,
    };
    Ok(Tally {
        dish: run.dish.clone(),
        cook: run.cook.clone(),
        tin: run.tin,
        from: reads.time(half_hour.saturating_mul(HALF_HOUR))?,
        spread: Spread::of_sums(&sums),
    })
}

fn stale_runs(connection: &Connection) -> rusqlite::Result<Vec<i64>> {
    // What was portioned from a purchase is part of what a gram of the rest of it costs.
    connection
        .prepare_cached(
            "SELECT run FROM stale_tally
             UNION
             SELECT other.seq FROM stale_tally s JOIN run r ON r.seq = s.run
             JOIN run other ON other.tin = r.tin",
        )?
        .query_map([], |row| row.get(0))?
        .collect()
}

/// Every tally of a run anew.
fn reckon(transaction: &Transaction<'_>, path: &Path, run: i64) -> Result<(), StoreError> {
    let costs = Costs::of_run(transaction, path, run)?;
    let reads = Reads(path);
    let mut halves: Vec<(i64, Spread)> = Vec::new();
    {
        let mut select = transaction
            .prepare_cached(
                "SELECT p.time, p.mass, p.target, p.below, p.above FROM portion p
                 WHERE p.run = ?1
                   AND NOT EXISTS (SELECT 1 FROM strike k
                                   WHERE k.portion = p.seq AND k.lifted IS NULL)
                   AND (p.replaced_by IS NULL
                        OR EXISTS (SELECT 1 FROM strike k
                                   WHERE k.portion = p.replaced_by AND k.lifted IS NULL
                                     AND k.undone))",
            )
            .at(path)?;
        let mut rows = select.query([run]).at(path)?;
        while let Some(row) = rows.next().at(path)? {
            let time: i64 = row.get(0).at(path)?;
            let goal = reads.goal(
                row.get(2).at(path)?,
                row.get(3).at(path)?,
                row.get(4).at(path)?,
            )?;
            // As the column of stale ones has it: towards zero.
            let half = time / HALF_HOUR;
            let spread = match halves.iter_mut().rev().find(|(of, _)| *of == half) {
                Some((_, spread)) => spread,
                None => {
                    halves.push((half, Spread::new()));
                    let Some((_, spread)) = halves.last_mut() else {
                        continue;
                    };
                    spread
                }
            };
            spread.add(
                Mass::from_micrograms(row.get(1).at(path)?),
                goal,
                costs.at(time),
            );
        }
    }
    transaction
        .prepare_cached("DELETE FROM tally WHERE run = ?1")
        .and_then(|mut delete| delete.execute([run]))
        .at(path)?;
    for (half, spread) in halves {
        keep(transaction, path, run, half, &spread.sums())?;
    }
    Ok(())
}

fn keep(
    transaction: &Transaction<'_>,
    path: &Path,
    run: i64,
    half: i64,
    sums: &Sums,
) -> Result<(), StoreError> {
    let reads = Reads(path);
    let whole = |number: i128| i64::try_from(number).map_err(|_| reads.senseless("sum of masses"));
    let count = |number: usize| whole(number as i128);
    let (lost, currency) = money_to(sums.lost);
    transaction
        .prepare_cached(
            "INSERT INTO tally (run, half_hour, n, sum, squares_high, squares_low, short, on_target,
                 heavy, lightest, heaviest, given_away, costed, lost, currency)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)",
        )
        .at(path)?
        .execute(params![
            run,
            half,
            count(sums.n)?,
            whole(sums.sum)?,
            whole(sums.squares / HIGH)?,
            whole(sums.squares % HIGH)?,
            count(sums.short)?,
            count(sums.on)?,
            count(sums.heavy)?,
            sums.lightest.map_or(0, Mass::micrograms),
            sums.heaviest.map_or(0, Mass::micrograms),
            sums.given_away.micrograms(),
            count(sums.costed)?,
            lost,
            currency,
        ])
        .at(path)?;
    Ok(())
}

/// What a run's food costs, by time: its tin's price as portioned, else its dish's cost as
/// it was, else the first cost its dish had.
struct Costs {
    of_tin: Option<CostPerMass>,
    /// Since when, in order.
    of_dish: Vec<(i64, CostPerMass)>,
}

impl Costs {
    fn of_run(transaction: &Transaction<'_>, path: &Path, run: i64) -> Result<Self, StoreError> {
        let reads = Reads(path);
        let tin: Option<i64> = transaction
            .prepare_cached("SELECT tin FROM run WHERE seq = ?1")
            .and_then(|mut select| select.query_row([run], |row| row.get(0)))
            .at(path)?;
        let of_tin = match tin {
            Some(tin) => tin_cost(transaction, path, tin)?,
            None => None,
        };
        let mut select = transaction
            .prepare_cached(
                "SELECT v.since, v.cost, v.currency FROM dish_version v
                 JOIN run r ON r.dish = v.dish
                 WHERE r.seq = ?1 AND v.cost IS NOT NULL ORDER BY v.since, v.id",
            )
            .at(path)?;
        let mut rows = select.query([run]).at(path)?;
        let mut of_dish = Vec::new();
        while let Some(row) = rows.next().at(path)? {
            if let Some(cost) = reads.cost(row.get(1).at(path)?, row.get(2).at(path)?)? {
                of_dish.push((row.get(0).at(path)?, cost));
            }
        }
        Ok(Self { of_tin, of_dish })
    }

    fn at(&self, time: i64) -> Option<CostPerMass> {
        self.of_tin.or_else(|| {
            let since = self.of_dish.partition_point(|(since, _)| *since <= time);
            self.of_dish
                .get(since.saturating_sub(1))
                .map(|(_, cost)| *cost)
        })
    }
}
