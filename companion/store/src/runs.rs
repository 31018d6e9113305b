//! Runs on record.

use super::columns::{Reads, mode_to, time_to};
use super::dishes::dish_name;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::run::Run;
use evenhand_kitchen::tin::TinId;
use evenhand_protocol::{Goal, Mode, RunId};
use jiff::Timestamp;
use rusqlite::{OptionalExtension, Row, params};
use std::path::Path;

const SELECT: &str = "
    SELECT r.id, d.name, r.target, r.below, r.above, r.mode, r.cook, r.tin, r.started, r.ended
    FROM run r LEFT JOIN dish d ON d.id = r.dish";

/// Draws a run's number at random that no run has.
pub(super) const DRAW: &str = "WITH RECURSIVE drawn (id) AS (
    SELECT 1 + (random() & 0x7fffffffffffffff) % 2147483647
    UNION ALL
    SELECT 1 + (random() & 0x7fffffffffffffff) % 2147483647 FROM drawn
    WHERE EXISTS (SELECT 1 FROM run WHERE run.id = drawn.id))
    SELECT id FROM drawn WHERE NOT EXISTS (SELECT 1 FROM run WHERE run.id = drawn.id)";

/// A run to be begun.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewRun {
    /// What is portioned; on record already.
    pub dish: DishName,
    /// What a portion should weigh.
    pub goal: Goal,
    /// How portions are made.
    pub mode: Mode,
    /// Who makes them.
    pub cook: Option<Cook>,
    /// What they are made from; a tin of the same dish.
    pub tin: Option<TinId>,
}

impl Store {
    /// Begins a run. Its number is drawn at random, so that a scale shared by
    /// two computers does not mix up their runs.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], [`StoreError::UnknownTin`],
    /// [`StoreError::TinOfOtherDish`], or where the store cannot be written.
    pub fn begin_run(&mut self, new: &NewRun, at: Timestamp) -> Result<Run, StoreError> {
        let dish = self.known_dish(&new.dish)?.name;
        if let Some(id) = new.tin {
            let tin = self.tin(id)?;
            if tin.dish != dish {
                return Err(StoreError::TinOfOtherDish {
                    tin: id.0,
                    holds: tin.dish.as_str().to_owned(),
                    asked: dish.as_str().to_owned(),
                });
            }
        }
        let id = self.write(|transaction, path| {
            let id: i64 = transaction.query_row(DRAW, [], |row| row.get(0)).at(path)?;
            transaction
                .execute(
                    "INSERT INTO run (id, dish, target, below, above, mode, cook, tin, started)
                     SELECT ?2, id, ?3, ?4, ?5, ?6, ?7, ?8, ?9 FROM dish WHERE key = ?1",
                    params![
                        dish.key(),
                        id,
                        new.goal.target().micrograms(),
                        new.goal.tolerance().below.micrograms(),
                        new.goal.tolerance().above.micrograms(),
                        mode_to(new.mode),
                        new.cook.as_ref().map(Cook::initials),
                        new.tin.map(|tin| tin.0),
                        time_to(at),
                    ],
                )
                .at(path)?;
            Reads(path).unsigned32(id, "run's number").map(RunId)
        })?;
        self.run(id)?
            .ok_or_else(|| Reads(&self.path).senseless("run"))
    }

    /// Notes that a run ended; one that ended before stays as it is.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn end_run(&mut self, id: RunId, at: Timestamp) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "UPDATE run SET ended = ?2 WHERE id = ?1 AND ended IS NULL",
                    params![i64::from(id.0), time_to(at)],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// Changes what a run's portions should weigh from now on; what is on
    /// record keeps the goal it was made to.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn set_run_goal(&mut self, id: RunId, goal: Goal) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "UPDATE run SET target = ?2, below = ?3, above = ?4 WHERE id = ?1",
                    [
                        i64::from(id.0),
                        goal.target().micrograms(),
                        goal.tolerance().below.micrograms(),
                        goal.tolerance().above.micrograms(),
                    ],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// A run by the number that the instrument calls it; `None` where this
    /// store knows none of that number.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn run(&self, id: RunId) -> Result<Option<Run>, StoreError> {
        self.one_run(&format!("{SELECT} WHERE r.id = ?1"), [i64::from(id.0)])
    }

    /// The run begun last; `None` where there is none.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn latest_run(&self) -> Result<Option<Run>, StoreError> {
        self.one_run(&format!("{SELECT} ORDER BY r.seq DESC LIMIT 1"), [])
    }

    /// Every cook of a run with how many portions were made in them; `None`
    /// where it was not said.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn cooks(&self) -> Result<Vec<(Option<Cook>, usize)>, StoreError> {
        let mut select = self
            .connection
            .prepare_cached(
                "SELECT r.cook, sum((SELECT count(*) FROM portion p WHERE p.run = r.seq))
                 FROM run r GROUP BY r.cook ORDER BY r.cook",
            )
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([], |row| {
                Ok((row.get::<_, Option<String>>(0)?, row.get::<_, i64>(1)?))
            })
            .map_err(|error| self.sql(error))?;
        let reads = Reads(&self.path);
        rows.map(|row| {
            let (cook, count) = row.map_err(|error| self.sql(error))?;
            let cook = cook
                .map(|cook| Cook::new("cook", &cook).map_err(|_| reads.senseless("cook")))
                .transpose()?;
            let count = usize::try_from(count).map_err(|_| reads.senseless("count"))?;
            Ok((cook, count))
        })
        .collect()
    }

    fn one_run(
        &self,
        select: &str,
        params: impl rusqlite::Params,
    ) -> Result<Option<Run>, StoreError> {
        self.connection
            .query_row(select, params, |row| Ok(read(row, &self.path)))
            .optional()
            .map_err(|error| self.sql(error))?
            .transpose()
    }
}

fn read(row: &Row<'_>, path: &Path) -> Result<Run, StoreError> {
    let reads = Reads(path);
    let dish: Option<String> = row.get(1).at(path)?;
    let cook: Option<String> = row.get(6).at(path)?;
    Ok(Run {
        id: RunId(reads.unsigned32(row.get(0).at(path)?, "run's number")?),
        dish: dish.map(|name| dish_name(name, path)).transpose()?,
        goal: reads.goal(
            row.get(2).at(path)?,
            row.get(3).at(path)?,
            row.get(4).at(path)?,
        )?,
        mode: reads.mode(row.get(5).at(path)?)?,
        cook: cook
            .map(|cook| Cook::new("cook", &cook).map_err(|_| reads.senseless("cook")))
            .transpose()?,
        tin: row.get::<_, Option<i64>>(7).at(path)?.map(TinId),
        started: reads.time(row.get(8).at(path)?)?,
        ended: reads.time_or_none(row.get(9).at(path)?)?,
    })
}
