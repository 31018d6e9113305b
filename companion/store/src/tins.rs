//! Tins on record.

use super::columns::{Reads, money_to, time_to};
use super::dishes::dish_name;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::tin::{Tin, TinId, TinKind};
use evenhand_kitchen::units::Money;
use evenhand_protocol::Mass;
use jiff::Timestamp;
use rusqlite::{Connection, OptionalExtension, Row, params};
use std::path::Path;

const SELECT: &str = "
    SELECT t.id, d.name, t.label, t.net, t.price, t.currency, t.opened, t.closed, t.kind
    FROM tin t JOIN dish d ON d.id = t.dish";

/// A tin to be put on record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewTin {
    /// What it is.
    pub kind: TinKind,
    /// What is portioned from it; on record already.
    pub dish: DishName,
    /// What is written on it; may be empty.
    pub label: String,
    /// Its food as bought; above zero.
    pub net: Mass,
    /// What was paid for it.
    pub price: Option<Money>,
}

impl Store {
    /// Puts a tin on record as opened now.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be written.
    pub fn open_tin(&mut self, tin: &NewTin, at: Timestamp) -> Result<Tin, StoreError> {
        let dish = self.known_dish(&tin.dish)?.name;
        let (price, currency) = money_to(tin.price);
        let id = self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO tin (dish, label, net, price, currency, opened, kind)
                     SELECT id, ?2, ?3, ?4, ?5, ?6, ?7 FROM dish WHERE key = ?1",
                    params![
                        dish.key(),
                        tin.label,
                        tin.net.micrograms(),
                        price,
                        currency,
                        time_to(at),
                        tin.kind as i64,
                    ],
                )
                .at(path)?;
            Ok(TinId(transaction.last_insert_rowid()))
        })?;
        self.tin(id)
    }

    /// Notes that a tin is used up or thrown out.
    ///
    /// # Errors
    /// [`StoreError::UnknownTin`], or where the store cannot be written.
    pub fn close_tin(&mut self, id: TinId, at: Timestamp) -> Result<Tin, StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "UPDATE tin SET closed = ?2 WHERE id = ?1 AND closed IS NULL",
                    params![id.0, time_to(at)],
                )
                .at(path)
        })?;
        self.tin(id)
    }

    /// A tin.
    ///
    /// # Errors
    /// [`StoreError::UnknownTin`], or where the store cannot be read.
    pub fn tin(&self, id: TinId) -> Result<Tin, StoreError> {
        self.connection
            .query_row(&format!("{SELECT} WHERE t.id = ?1"), [id.0], |row| {
                Ok(read(row, &self.path))
            })
            .optional()
            .map_err(|error| self.sql(error))?
            .ok_or_else(|| StoreError::UnknownTin(id.to_string()))?
    }

    /// Every tin, the one opened last first.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn tins(&self) -> Result<Vec<Tin>, StoreError> {
        let mut select = self
            .connection
            .prepare_cached(&format!("{SELECT} ORDER BY t.stamp DESC"))
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([], |row| Ok(read(row, &self.path)))
            .map_err(|error| self.sql(error))?;
        rows.map(|row| row.map_err(|error| self.sql(error))?)
            .collect()
    }

    /// The tin of a dish that was opened last and is still open.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn tin_in_use(&self, dish: &DishName) -> Result<Option<Tin>, StoreError> {
        Ok(self
            .tins()?
            .into_iter()
            .find(|tin| tin.closed.is_none() && tin.dish == *dish))
    }

    /// What was portioned from a tin: every portion as corrected, also the
    /// struck-out ones, whose food is gone all the same, but not the undone
    /// ones.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn taken_from(&self, id: TinId) -> Result<Mass, StoreError> {
        taken_from(&self.connection, &self.path, id)
    }
}

pub(super) fn taken_from(
    connection: &Connection,
    path: &Path,
    id: TinId,
) -> Result<Mass, StoreError> {
    connection
        .prepare_cached(
            "SELECT coalesce(sum(p.mass), 0)
             FROM portion p JOIN run r ON r.seq = p.run
             WHERE r.tin = ?1
               AND NOT EXISTS (SELECT 1 FROM strike k
                               WHERE k.portion = p.seq AND k.lifted IS NULL AND k.undone)
               AND (p.replaced_by IS NULL
                    OR EXISTS (SELECT 1 FROM strike k
                               WHERE k.portion = p.replaced_by AND k.lifted IS NULL AND k.undone))",
        )
        .and_then(|mut select| select.query_row([id.0], |row| row.get(0)))
        .map(Mass::from_micrograms)
        .at(path)
}

fn read(row: &Row<'_>, path: &Path) -> Result<Tin, StoreError> {
    let reads = Reads(path);
    Ok(Tin {
        id: TinId(row.get(0).at(path)?),
        kind: {
            let kind: i64 = row.get(8).at(path)?;
            TinKind::ALL
                .into_iter()
                .find(|known| *known as i64 == kind)
                .ok_or_else(|| reads.senseless("kind of purchase"))?
        },
        dish: dish_name(row.get(1).at(path)?, path)?,
        label: row.get(2).at(path)?,
        net: Mass::from_micrograms(row.get(3).at(path)?),
        price: reads.money(row.get(4).at(path)?, row.get(5).at(path)?)?,
        opened: reads.time(row.get(6).at(path)?)?,
        closed: reads.time_or_none(row.get(7).at(path)?)?,
    })
}
