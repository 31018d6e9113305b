//! How long scoops may be out of the cold.

use super::columns::{Reads, time_to};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::dish::DishName;
use evenhand_protocol::RunId;
use jiff::{SignedDuration, Timestamp};
use rusqlite::{OptionalExtension, params};

impl Store {
    /// Sets how long a dish's scoops may be out of the cold, or takes the limit
    /// off.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be written.
    pub fn set_melt_limit(
        &mut self,
        dish: &DishName,
        limit: Option<SignedDuration>,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.known_dish(dish)?;
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO melt_limit (dish, since, seconds)
                     SELECT id, ?2, ?3 FROM dish WHERE key = ?1",
                    params![dish.key(), time_to(now), limit.map(|l| l.as_secs())],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// How long a dish's scoops may be out of the cold; `None` without a limit.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn melt_limit(&self, dish: &DishName) -> Result<Option<SignedDuration>, StoreError> {
        let seconds: Option<Option<i64>> = self
            .connection
            .prepare_cached(
                "SELECT m.seconds FROM melt_limit m JOIN dish d ON d.id = m.dish
                 WHERE d.key = ?1 ORDER BY m.stamp DESC LIMIT 1",
            )
            .and_then(|mut select| select.query_row([dish.key()], |row| row.get(0)).optional())
            .map_err(|error| self.sql(error))?;
        Ok(seconds.flatten().map(SignedDuration::from_secs))
    }

    /// Notes that the scoops of a run so far went back into the cold.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn back_in_cold(&mut self, run: RunId, at: Timestamp) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO back_in_cold (run, at) VALUES (?1, ?2)",
                    params![run.0, time_to(at)],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// When the scoops of a run last went back into the cold.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn last_in_cold(&self, run: RunId) -> Result<Option<Timestamp>, StoreError> {
        let at: Option<i64> = self
            .connection
            .prepare_cached("SELECT max(at) FROM back_in_cold WHERE run = ?1")
            .and_then(|mut select| select.query_row([run.0], |row| row.get(0)))
            .map_err(|error| self.sql(error))?;
        Reads(&self.path).time_or_none(at)
    }
}
