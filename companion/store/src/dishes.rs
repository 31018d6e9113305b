//! Dishes on record.

use super::columns::{Reads, mode_to, money_to, time_to};
use super::{Sql, Store, StoreError, gather};
use evenhand_kitchen::dish::{Dish, DishName};
use evenhand_kitchen::units::CostPerMass;
use evenhand_protocol::{Goal, Mode};
use jiff::Timestamp;
use rusqlite::{Connection, OptionalExtension, Row, Transaction, params};
use std::path::Path;

/// The newest version of each dish.
const SELECT: &str = "
    SELECT d.name, v.target, v.below, v.above, v.mode, v.cost, v.currency, v.since, d.retired
    FROM dish d
    JOIN dish_version v ON v.id =
        (SELECT id FROM dish_version WHERE dish = d.id ORDER BY since DESC, stamp DESC LIMIT 1)";

impl Store {
    /// Puts a dish on the list, or changes it from now on: a new version, or
    /// none where nothing differs. A retired dish comes back.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn set_dish(
        &mut self,
        name: &DishName,
        goal: Goal,
        mode: Mode,
        cost: Option<CostPerMass>,
        at: Timestamp,
    ) -> Result<Dish, StoreError> {
        self.write(|transaction, path| set(transaction, path, name, goal, mode, cost, at))
    }

    /// Gives a dish another name. What was portioned of it stays its own, and
    /// the old name still finds it until another dish takes that name.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], [`StoreError::NameTaken`], or where the
    /// store cannot be written.
    pub fn rename_dish(
        &mut self,
        name: &DishName,
        new: &DishName,
        at: Timestamp,
    ) -> Result<Dish, StoreError> {
        let old = self.known_dish(name)?.name;
        if old != *new && current(&self.connection, &self.path, new)?.is_some() {
            return Err(StoreError::NameTaken(new.as_str().to_owned()));
        }
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO former_name (dish, name, key, until)
                     SELECT id, name, key, ?2 FROM dish WHERE key = ?1",
                    params![old.key(), time_to(at)],
                )
                .at(path)?;
            transaction
                .execute(
                    "UPDATE dish SET name = ?2, key = ?3 WHERE key = ?1",
                    params![old.key(), new.as_str(), new.key()],
                )
                .at(path)
        })?;
        self.known_dish(new)
    }

    /// What a dish was called before, with until when, the earliest first.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be read.
    pub fn former_names(&self, name: &DishName) -> Result<Vec<(DishName, Timestamp)>, StoreError> {
        let dish = self.known_dish(name)?;
        let mut select = self
            .connection
            .prepare_cached(
                "SELECT f.name, f.until FROM former_name f JOIN dish d ON d.id = f.dish
                 WHERE d.key = ?1 ORDER BY f.until, f.stamp",
            )
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([dish.name.key()], |row| Ok((row.get(0)?, row.get(1)?)))
            .map_err(|error| self.sql(error))?;
        rows.map(|row| {
            let (name, until) = row.map_err(|error| self.sql(error))?;
            Ok((dish_name(name, &self.path)?, Reads(&self.path).time(until)?))
        })
        .collect()
    }

    /// Every version of a dish, the first one first.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be read.
    pub fn dish_versions(&self, name: &DishName) -> Result<Vec<Dish>, StoreError> {
        let dish = self.known_dish(name)?;
        let mut select = self
            .connection
            .prepare_cached(
                "SELECT d.name, v.target, v.below, v.above, v.mode, v.cost, v.currency, v.since,
                        d.retired
                 FROM dish d JOIN dish_version v ON v.dish = d.id
                 WHERE d.key = ?1 ORDER BY v.since, v.stamp",
            )
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([dish.name.key()], |row| Ok(read(row, &self.path)))
            .map_err(|error| self.sql(error))?;
        rows.map(|row| row.map_err(|error| self.sql(error))?)
            .collect()
    }

    /// Takes a dish off the list; what was portioned of it stays on record.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be written.
    pub fn retire_dish(&mut self, name: &DishName, at: Timestamp) -> Result<(), StoreError> {
        let known = self.known_dish(name)?.name;
        let changed = self.write(|transaction, path| {
            transaction
                .execute(
                    "UPDATE dish SET retired = ?2 WHERE key = ?1 AND retired IS NULL",
                    params![known.key(), time_to(at)],
                )
                .at(path)
        })?;
        if changed == 0 {
            return Err(self.unknown_dish(name)?);
        }
        Ok(())
    }

    /// The dish of that name as it is now, also a retired one, or the one that
    /// had the name last; `None` where there is none.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn dish(&self, name: &DishName) -> Result<Option<Dish>, StoreError> {
        find(&self.connection, &self.path, name)
    }

    /// The dish of that name, or an error that lists those there are.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be read.
    pub fn known_dish(&self, name: &DishName) -> Result<Dish, StoreError> {
        match self.dish(name)? {
            Some(dish) => Ok(dish),
            None => Err(self.unknown_dish(name)?),
        }
    }

    /// The dishes that are on the list, by name: those that are not retired.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn dishes_in_use(&self) -> Result<Vec<Dish>, StoreError> {
        let mut dishes = self.dishes()?;
        dishes.retain(|dish| dish.retired.is_none());
        Ok(dishes)
    }

    /// Every dish as it is now, by name; retired ones last.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn dishes(&self) -> Result<Vec<Dish>, StoreError> {
        let mut select = self
            .connection
            .prepare_cached(&format!("{SELECT} ORDER BY d.retired IS NOT NULL, d.key"))
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([], |row| Ok(read(row, &self.path)))
            .map_err(|error| self.sql(error))?;
        rows.map(|row| row.map_err(|error| self.sql(error))?)
            .collect()
    }

    fn unknown_dish(&self, name: &DishName) -> Result<StoreError, StoreError> {
        Ok(StoreError::UnknownDish {
            name: name.as_str().to_owned(),
            known: self
                .dishes()?
                .into_iter()
                .map(|dish| dish.name.as_str().to_owned())
                .collect(),
        })
    }
}

/// Puts a dish on the list, or makes a new version of it where it differs.
pub(super) fn set(
    transaction: &Transaction<'_>,
    path: &Path,
    name: &DishName,
    goal: Goal,
    mode: Mode,
    cost: Option<CostPerMass>,
    at: Timestamp,
) -> Result<Dish, StoreError> {
    gather::moment(transaction, path, at)?;
    transaction
        .prepare_cached(
            "INSERT INTO dish (name, key) VALUES (?1, ?2)
             ON CONFLICT (key) DO UPDATE SET retired = NULL",
        )
        .and_then(|mut insert| insert.execute(params![name.as_str(), name.key()]))
        .at(path)?;
    if let Some(known) = current(transaction, path, name)?
        && (known.goal, known.mode, known.cost) == (goal, mode, cost)
    {
        return Ok(known);
    }
    let (amount, currency) = money_to(cost.map(CostPerMass::for_kilogram));
    transaction
        .execute(
            "INSERT INTO dish_version (dish, since, target, below, above, mode, cost, currency)
             SELECT id, max(?2, coalesce((SELECT max(since) FROM dish_version WHERE dish = d.id), ?2)),
                    ?3, ?4, ?5, ?6, ?7, ?8
             FROM dish d WHERE key = ?1",
            params![
                name.key(),
                time_to(at),
                goal.target().micrograms(),
                goal.tolerance().below.micrograms(),
                goal.tolerance().above.micrograms(),
                mode_to(mode),
                amount,
                currency,
            ],
        )
        .at(path)?;
    find(transaction, path, name)?.ok_or_else(|| Reads(path).senseless("dish"))
}

/// The dish that has the name now, else the one that had it last.
pub(super) fn find(
    connection: &Connection,
    path: &Path,
    name: &DishName,
) -> Result<Option<Dish>, StoreError> {
    if let Some(dish) = current(connection, path, name)? {
        return Ok(Some(dish));
    }
    connection
        .prepare_cached(&format!(
            "{SELECT} WHERE d.id = (SELECT dish FROM former_name WHERE key = ?1
                                    ORDER BY until DESC, stamp DESC LIMIT 1)"
        ))
        .and_then(|mut select| {
            select
                .query_row([name.key()], |row| Ok(read(row, path)))
                .optional()
        })
        .at(path)?
        .transpose()
}

/// The dish that has the name now.
fn current(
    connection: &Connection,
    path: &Path,
    name: &DishName,
) -> Result<Option<Dish>, StoreError> {
    connection
        .prepare_cached(&format!("{SELECT} WHERE d.key = ?1"))
        .and_then(|mut select| {
            select
                .query_row([name.key()], |row| Ok(read(row, path)))
                .optional()
        })
        .at(path)?
        .transpose()
}

fn read(row: &Row<'_>, path: &Path) -> Result<Dish, StoreError> {
    let reads = Reads(path);
    Ok(Dish {
        name: dish_name(row.get(0).at(path)?, path)?,
        goal: reads.goal(
            row.get(1).at(path)?,
            row.get(2).at(path)?,
            row.get(3).at(path)?,
        )?,
        mode: reads.mode(row.get(4).at(path)?)?,
        cost: reads.cost(row.get(5).at(path)?, row.get(6).at(path)?)?,
        since: reads.time(row.get(7).at(path)?)?,
        retired: reads.time_or_none(row.get(8).at(path)?)?,
    })
}

/// A dish's name out of its column.
pub(super) fn dish_name(column: String, path: &Path) -> Result<DishName, StoreError> {
    DishName::new("dish", &column).map_err(|_| Reads(path).senseless("dish's name"))
}
