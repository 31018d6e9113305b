//! What became of a purchase, on record.

use super::columns::{Reads, time_to};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::tin::TinId;
use evenhand_kitchen::yield_flow::{Loss, YieldFlow};
use evenhand_protocol::Mass;
use jiff::Timestamp;
use rusqlite::params;

/// The column's word for what is left, which is no loss.
const LEFT: i64 = 5;

/// One weighing of a purchase apart from its portions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct YieldLine {
    /// Which line, for striking it out.
    pub id: i64,
    /// What was lost; `None` where what is left was weighed.
    pub loss: Option<Loss>,
    /// How much.
    pub mass: Mass,
    /// When.
    pub at: Timestamp,
    /// Whether it was struck out.
    pub struck: bool,
}

impl Store {
    /// Puts a loss, or what is left (`None`), on record.
    ///
    /// # Errors
    /// [`StoreError::UnknownTin`], or where the store cannot be written.
    pub fn note_yield(
        &mut self,
        tin: TinId,
        loss: Option<Loss>,
        mass: Mass,
        at: Timestamp,
    ) -> Result<(), StoreError> {
        self.tin(tin)?;
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO yield_line (tin, what, mass, at) VALUES (?1, ?2, ?3, ?4)",
                    params![
                        tin.0,
                        loss.map_or(LEFT, |loss| loss as i64),
                        mass.micrograms(),
                        time_to(at)
                    ],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// Strikes out a line of a yield.
    ///
    /// # Errors
    /// [`StoreError::UnknownYieldLine`], or where the store cannot be written.
    pub fn strike_yield(&mut self, line: i64, at: Timestamp) -> Result<(), StoreError> {
        let changed = self.write(|transaction, path| {
            transaction
                .execute(
                    "UPDATE yield_line SET struck = ?2 WHERE id = ?1 AND struck IS NULL",
                    [line, time_to(at)],
                )
                .at(path)
        })?;
        if changed == 0 {
            return Err(StoreError::UnknownYieldLine(line));
        }
        Ok(())
    }

    /// Every line of a purchase's yield, in the order they were put down.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn yield_lines(&self, tin: TinId) -> Result<Vec<YieldLine>, StoreError> {
        let reads = Reads(&self.path);
        let mut select = self
            .connection
            .prepare_cached(
                "SELECT id, what, mass, at, struck IS NOT NULL FROM yield_line
                 WHERE tin = ?1 ORDER BY id",
            )
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([tin.0], |row| {
                Ok((
                    row.get::<_, i64>(0)?,
                    row.get::<_, i64>(1)?,
                    row.get::<_, i64>(2)?,
                    row.get::<_, i64>(3)?,
                    row.get::<_, bool>(4)?,
                ))
            })
            .map_err(|error| self.sql(error))?;
        rows.map(|row| {
            let (id, what, mass, at, struck) = row.map_err(|error| self.sql(error))?;
            let loss = match what {
                LEFT => None,
                what => Some(
                    Loss::ALL
                        .into_iter()
                        .find(|loss| *loss as i64 == what)
                        .ok_or_else(|| reads.senseless("loss"))?,
                ),
            };
            Ok(YieldLine {
                id,
                loss,
                mass: Mass::from_micrograms(mass),
                at: reads.time(at)?,
                struck,
            })
        })
        .collect()
    }

    /// What became of a purchase: bought, lost by name, portioned, left.
    ///
    /// # Errors
    /// [`StoreError::UnknownTin`], or where the store cannot be read.
    pub fn yield_flow(&self, tin: TinId) -> Result<YieldFlow, StoreError> {
        let bought = self.tin(tin)?.net;
        let mut flow = YieldFlow::new(bought, self.taken_from(tin)?);
        for line in self.yield_lines(tin)? {
            match line.loss {
                _ if line.struck => {}
                Some(loss) => flow.lose(loss, line.mass),
                None => flow.left = Some(line.mass),
            }
        }
        Ok(flow)
    }
}
