//! What the kitchen buys, and what was told of goods in hand.

use super::columns::{Reads, from_json, time_to};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::prep::GoodsTold;
use jiff::Timestamp;
use rusqlite::{OptionalExtension, params};

impl Store {
    /// Keeps a list of what the kitchen buys, as TOML; it takes the place of the one before.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn keep_goods(&mut self, list: &str, now: Timestamp) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO goods_list (since, list) VALUES (?1, ?2)",
                    params![time_to(now), list],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// The list of what the kitchen buys, where one was kept.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn goods(&self) -> Result<Option<String>, StoreError> {
        self.connection
            .query_row(
                "SELECT list FROM goods_list ORDER BY id DESC LIMIT 1",
                [],
                |row| row.get(0),
            )
            .optional()
            .map_err(|error| self.sql(error))
    }

    /// Puts down what was told of goods, by their name in any case.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn tell_goods(
        &mut self,
        goods: &str,
        at: Timestamp,
        what: GoodsTold,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            let what = serde_json::to_string(&what).map_err(|_| Reads(path).senseless("goods"))?;
            transaction
                .execute(
                    "INSERT INTO goods_event (goods, at, what, recorded) VALUES (?1, ?2, ?3, ?4)",
                    params![goods.to_lowercase(), time_to(at), what, time_to(now)],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// What was told of goods, by their name in any case, in the order told.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn told_goods(&self, goods: &str) -> Result<Vec<(Timestamp, GoodsTold)>, StoreError> {
        let rows: Vec<(i64, String)> = self
            .connection
            .prepare_cached("SELECT at, what FROM goods_event WHERE goods = ?1 ORDER BY id")
            .and_then(|mut select| {
                select
                    .query_map([goods.to_lowercase()], |row| Ok((row.get(0)?, row.get(1)?)))?
                    .collect()
            })
            .map_err(|error| self.sql(error))?;
        let reads = Reads(&self.path);
        rows.into_iter()
            .map(|(at, what)| {
                let what = from_json(&what).map_err(|_| reads.senseless("count of goods"))?;
                Ok((reads.time(at)?, what))
            })
            .collect()
    }
}
