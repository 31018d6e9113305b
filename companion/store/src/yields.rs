//! What became of a purchase, on record.

use super::columns::{Reads, time_to};
use super::tins::taken_from;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::tin::{Tin, TinId};
use evenhand_kitchen::units::CostPerMass;
use evenhand_kitchen::yield_flow::{Loss, YieldFlow};
use evenhand_protocol::Mass;
use jiff::Timestamp;
use rusqlite::{Connection, params};
use std::path::Path;

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
        lines(&self.connection, &self.path, tin)
    }

    /// What became of a purchase: bought, lost by name, portioned, left.
    ///
    /// # Errors
    /// [`StoreError::UnknownTin`], or where the store cannot be read.
    pub fn yield_flow(&self, tin: TinId) -> Result<YieldFlow, StoreError> {
        let bought = self.tin(tin)?.net;
        flow(&self.connection, &self.path, tin, bought)
    }

    /// The purchases that anything was portioned from between two moments, and
    /// what was portioned then from none on record.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn purchases_between(
        &self,
        from: Timestamp,
        to: Timestamp,
    ) -> Result<(Vec<Tin>, Mass), StoreError> {
        let mut select = self
            .connection
            .prepare_cached(
                "SELECT DISTINCT r.tin FROM portion p JOIN run r ON r.seq = p.run
                 WHERE p.time >= ?1 AND p.time < ?2 AND r.tin IS NOT NULL
                 UNION SELECT id FROM tin WHERE opened >= ?1 AND opened < ?2 ORDER BY 1",
            )
            .map_err(|error| self.sql(error))?;
        let ids: Vec<i64> = select
            .query_map([time_to(from), time_to(to)], |row| row.get(0))
            .and_then(Iterator::collect)
            .map_err(|error| self.sql(error))?;
        let tins = ids
            .into_iter()
            .map(|id| self.tin(TinId(id)))
            .collect::<Result<_, _>>()?;
        let of_none = self
            .connection
            .prepare_cached(
                "SELECT coalesce(sum(p.mass), 0) FROM portion p JOIN run r ON r.seq = p.run
                 WHERE p.time >= ?1 AND p.time < ?2 AND r.tin IS NULL
                   AND NOT EXISTS (SELECT 1 FROM strike k
                                   WHERE k.portion = p.seq AND k.lifted IS NULL AND k.undone)
                   AND (p.replaced_by IS NULL
                        OR EXISTS (SELECT 1 FROM strike k
                                   WHERE k.portion = p.replaced_by AND k.lifted IS NULL
                                     AND k.undone))",
            )
            .and_then(|mut select| select.query_row([time_to(from), time_to(to)], |row| row.get(0)))
            .map_err(|error| self.sql(error))?;
        Ok((tins, Mass::from_micrograms(of_none)))
    }
}

fn lines(connection: &Connection, path: &Path, tin: TinId) -> Result<Vec<YieldLine>, StoreError> {
    let reads = Reads(path);
    let mut select = connection
        .prepare_cached(
            "SELECT id, what, mass, at, struck IS NOT NULL FROM yield_line
             WHERE tin = ?1 ORDER BY stamp",
        )
        .at(path)?;
    let mut rows = select.query([tin.0]).at(path)?;
    let mut lines = Vec::new();
    while let Some(row) = rows.next().at(path)? {
        let what: i64 = row.get(1).at(path)?;
        let loss = match what {
            LEFT => None,
            what => Some(
                Loss::ALL
                    .into_iter()
                    .find(|loss| *loss as i64 == what)
                    .ok_or_else(|| reads.senseless("loss"))?,
            ),
        };
        lines.push(YieldLine {
            id: row.get(0).at(path)?,
            loss,
            mass: Mass::from_micrograms(row.get(2).at(path)?),
            at: reads.time(row.get(3).at(path)?)?,
            struck: row.get(4).at(path)?,
        });
    }
    Ok(lines)
}

fn flow(
    connection: &Connection,
    path: &Path,
    tin: TinId,
    bought: Mass,
) -> Result<YieldFlow, StoreError> {
    let mut flow = YieldFlow::new(bought, taken_from(connection, path, tin)?);
    for line in lines(connection, path, tin)? {
        match line.loss {
            _ if line.struck => {}
            Some(loss) => flow.lose(loss, line.mass),
            None => flow.left = Some(line.mass),
        }
    }
    Ok(flow)
}

/// What a gram of a purchase costs on a plate, every loss laid on it; `None`
/// where no price is on record; as bought where nothing of it is left to serve.
pub(super) fn tin_cost(
    connection: &Connection,
    path: &Path,
    tin: i64,
) -> Result<Option<CostPerMass>, StoreError> {
    let (price, currency, net): (Option<i64>, Option<String>, i64) = connection
        .prepare_cached("SELECT price, currency, net FROM tin WHERE id = ?1")
        .and_then(|mut select| {
            select.query_row([tin], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
        })
        .at(path)?;
    let Some(price) = Reads(path).money(price, currency)? else {
        return Ok(None);
    };
    let net = Mass::from_micrograms(net);
    let as_portioned = flow(connection, path, TinId(tin), net)?.cost_as_portioned(price);
    Ok(as_portioned.or_else(|| CostPerMass::of_purchase(price, net)))
}
