//! Portions that went out to guests.

use super::columns::{Reads, time_to};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::dish::DishName;
use jiff::Timestamp;
use jiff::civil::Date;
use rusqlite::params;

impl Store {
    /// Counts portions of a dish as gone out; below nothing takes some back.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be written.
    pub fn count_out(
        &mut self,
        day: Date,
        dish: &DishName,
        portions: i32,
        at: Timestamp,
    ) -> Result<(), StoreError> {
        self.known_dish(dish)?;
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO gone_out (day, dish, portions, at)
                     SELECT ?1, id, ?3, ?4 FROM dish WHERE key = ?2",
                    params![day.to_string(), dish.key(), portions, time_to(at)],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// How many portions of each dish went out in a service, with the dish as it
    /// is called now.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn gone_out(&self, day: Date) -> Result<Vec<(DishName, i64)>, StoreError> {
        let rows: Vec<(String, i64)> = self
            .connection
            .prepare_cached(
                "SELECT d.name, sum(g.portions) FROM gone_out g JOIN dish d ON d.id = g.dish
                 WHERE g.day = ?1 GROUP BY d.id ORDER BY d.name",
            )
            .and_then(|mut select| {
                select
                    .query_map([day.to_string()], |row| Ok((row.get(0)?, row.get(1)?)))?
                    .collect()
            })
            .map_err(|error| self.sql(error))?;
        let reads = Reads(&self.path);
        rows.into_iter()
            .map(|(name, portions)| {
                let name =
                    DishName::new("dish", &name).map_err(|_| reads.senseless("dish's name"))?;
                Ok((name, portions))
            })
            .collect()
    }
}
