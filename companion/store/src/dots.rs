//! Portions as dots in time, as few columns as that takes.

use super::columns::{Reads, time_to};
use super::dishes::dish_name;
use super::{Store, StoreError};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::service::{Dot, Dots};
use evenhand_protocol::Mass;
use jiff::Timestamp;
use std::collections::HashMap;

impl Store {
    /// The portions that count from `from` (inclusive) to `to` (exclusive), in
    /// order of time.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn dots(&self, from: Timestamp, to: Timestamp) -> Result<Dots, StoreError> {
        let reads = Reads(&self.path);
        let mut select = self
            .connection
            .prepare_cached(
                "SELECT p.time, p.mass, p.target, p.below, p.above FROM portion p
                 WHERE p.time >= ?1 AND p.time < ?2
                   AND NOT EXISTS (SELECT 1 FROM strike k
                                   WHERE k.portion = p.seq AND k.lifted IS NULL)
                   AND (p.replaced_by IS NULL
                        OR EXISTS (SELECT 1 FROM strike k
                                   WHERE k.portion = p.replaced_by AND k.lifted IS NULL
                                     AND k.undone))",
            )
            .map_err(|error| self.sql(error))?;
        let mut rows = select
            .query([time_to(from), time_to(to)])
            .map_err(|error| self.sql(error))?;
        let mut dots = Vec::new();
        while let Some(row) = rows.next().map_err(|error| self.sql(error))? {
            let get = |column| row.get::<_, i64>(column).map_err(|error| self.sql(error));
            dots.push(Dot {
                time: reads.time(get(0)?)?,
                mass: Mass::from_micrograms(get(1)?),
                goal: reads.goal(get(2)?, get(3)?, get(4)?)?,
            });
        }
        Ok(Dots::new(dots))
    }

    /// When each dish was portioned last, of those portioned at `from` or later.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn last_portioned(
        &self,
        from: Timestamp,
    ) -> Result<HashMap<DishName, Timestamp>, StoreError> {
        let mut select = self
            .connection
            .prepare_cached(
                "SELECT d.name, max(p.time) FROM portion p
                 JOIN run r ON r.seq = p.run JOIN dish d ON d.id = r.dish
                 WHERE p.time >= ?1 GROUP BY d.id",
            )
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([time_to(from)], |row| {
                Ok((row.get::<_, String>(0)?, row.get::<_, i64>(1)?))
            })
            .map_err(|error| self.sql(error))?;
        rows.map(|row| {
            let (name, time) = row.map_err(|error| self.sql(error))?;
            Ok((dish_name(name, &self.path)?, Reads(&self.path).time(time)?))
        })
        .collect()
    }

    /// When the first portion at `from` or later was captured.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn first_portion_since(&self, from: Timestamp) -> Result<Option<Timestamp>, StoreError> {
        let first: Option<i64> = self
            .connection
            .prepare_cached("SELECT min(time) FROM portion WHERE time >= ?1")
            .and_then(|mut select| select.query_row([time_to(from)], |row| row.get(0)))
            .map_err(|error| self.sql(error))?;
        Reads(&self.path).time_or_none(first)
    }
}
