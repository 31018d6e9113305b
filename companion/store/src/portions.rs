//! Reading portions back.

use super::columns::{Reads, device_from, device_to, time_to};
use super::dishes::dish_name;
use super::imports::ELSEWHERE;
use super::yields::TinCosts;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::{RecordedPortion, StrikeReason, Struck, TimeSource};
use evenhand_kitchen::spread::Spread;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{Epoch, Mass, PortionId, RunId, Temperature};
use jiff::Timestamp;
use rusqlite::types::Value;
use rusqlite::{Connection, OptionalExtension, Row, params, params_from_iter};
use std::path::Path;

/// A portion with all that is on record about it. A correction that was undone
/// corrects nothing.
pub(super) const SELECT: &str = "
    SELECT s.device, s.epoch, p.number, r.id, d.name, p.mode, p.mass, p.target, p.below, p.above,
           p.time, p.time_source, p.temperature, p.doubts, p.uncertainty, p.left_on_pan,
           k.at, k.reason, earlier.number, later.number,
           r.tin, v.cost, v.currency
    FROM portion p
    JOIN start s ON s.id = p.start
    JOIN run r ON r.seq = p.run
    LEFT JOIN dish d ON d.id = r.dish
    LEFT JOIN strike k ON k.portion = p.seq AND k.lifted IS NULL
    LEFT JOIN portion earlier ON earlier.seq = p.replaces
    LEFT JOIN portion later ON later.seq = p.replaced_by
        AND NOT EXISTS (SELECT 1 FROM strike u
                        WHERE u.portion = later.seq AND u.lifted IS NULL AND u.undone)
    LEFT JOIN dish_version v ON v.id = coalesce(
        (SELECT id FROM dish_version WHERE dish = r.dish AND cost IS NOT NULL AND since <= p.time
         ORDER BY since DESC, id DESC LIMIT 1),
        (SELECT id FROM dish_version WHERE dish = r.dish AND cost IS NOT NULL
         ORDER BY since, id LIMIT 1))";

/// The order of capture: by run, then by the instrument's own start and
/// number, whatever the wall's clock did meanwhile.
const ORDER: &str = "ORDER BY r.seq, p.start, p.number";

/// Which portions. All conditions hold together; the default is every portion.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Query {
    /// Only of this dish.
    pub dish: Option<DishName>,
    /// Only of this run.
    pub run: Option<RunId>,
    /// Only captured at this time or later.
    pub from: Option<Timestamp>,
    /// Only captured before this time.
    pub to: Option<Timestamp>,
}

impl Store {
    /// The portions asked for, also those that count no more, in the order of
    /// capture.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be read.
    pub fn portions(&self, query: &Query) -> Result<Vec<RecordedPortion>, StoreError> {
        let mut conditions = Vec::new();
        let mut values = Vec::new();
        let mut hold = |condition: &str, value: Value| {
            values.push(value);
            conditions.push(format!("{condition} ?{}", values.len()));
        };
        if let Some(name) = &query.dish {
            hold("d.key =", self.known_dish(name)?.name.key().into());
        }
        if let Some(run) = query.run {
            hold("r.id =", i64::from(run.0).into());
        }
        if let Some(from) = query.from {
            hold("p.time >=", time_to(from).into());
        }
        if let Some(to) = query.to {
            hold("p.time <", time_to(to).into());
        }
        let conditions = if conditions.is_empty() {
            String::new()
        } else {
            format!("WHERE {}", conditions.join(" AND "))
        };
        let mut select = self
            .connection
            .prepare_cached(&format!("{SELECT} {conditions} {ORDER}"))
            .map_err(|error| self.sql(error))?;
        let mut tins = TinCosts::default();
        let mut rows = select
            .query(params_from_iter(values))
            .map_err(|error| self.sql(error))?;
        let mut portions = Vec::new();
        while let Some(row) = rows.next().map_err(|error| self.sql(error))? {
            portions.push(read(row, &self.connection, &self.path, &mut tins)?);
        }
        Ok(portions)
    }

    /// The spread of those of the portions asked for that count.
    ///
    /// # Errors
    /// As for [`Store::portions`].
    pub fn spread(&self, query: &Query) -> Result<Spread, StoreError> {
        Ok(Spread::of(&self.portions(query)?))
    }

    /// A portion by its identity.
    ///
    /// # Errors
    /// [`StoreError::UnknownPortion`], or where the store cannot be read.
    pub fn portion(&self, id: PortionId) -> Result<RecordedPortion, StoreError> {
        find(&self.connection, &self.path, id)?
            .ok_or_else(|| StoreError::UnknownPortion(id.to_string()))
    }
}

pub(super) fn find(
    connection: &Connection,
    path: &Path,
    id: PortionId,
) -> Result<Option<RecordedPortion>, StoreError> {
    connection
        .prepare_cached(&format!(
            "{SELECT} WHERE s.device = ?1 AND s.epoch = ?2 AND p.number = ?3"
        ))
        .and_then(|mut select| {
            select
                .query_row(
                    params![
                        device_to(id.device),
                        i64::from(id.epoch.0),
                        i64::from(id.number)
                    ],
                    |row| Ok(read(row, connection, path, &mut TinCosts::default())),
                )
                .optional()
        })
        .at(path)?
        .transpose()
}

fn read(
    row: &Row<'_>,
    connection: &Connection,
    path: &Path,
    tins: &mut TinCosts,
) -> Result<RecordedPortion, StoreError> {
    let reads = Reads(path);
    let number = |column: i64| reads.unsigned32(column, "portion's number");
    let id = PortionId {
        device: device_from(row.get(0).at(path)?),
        epoch: Epoch(reads.unsigned32(row.get(1).at(path)?, "start's number")?),
        number: number(row.get(2).at(path)?)?,
    };
    // Corrections are always within one start of one instrument.
    let sibling = |column: Option<i64>| {
        column
            .map(|column| number(column).map(|number| PortionId { number, ..id }))
            .transpose()
    };
    let dish: Option<String> = row.get(4).at(path)?;
    let struck: Option<i64> = row.get(16).at(path)?;
    let reason: Option<String> = row.get(17).at(path)?;
    let struck = match (struck, reason) {
        (Some(at), Some(reason)) => Some(Struck {
            reason: StrikeReason::new("reason", &reason)
                .map_err(|_| reads.senseless("reason of a strike"))?,
            at: reads.time(at)?,
        }),
        _ => None,
    };
    let of_tin = match row.get::<_, Option<i64>>(20).at(path)? {
        Some(tin) => tins.of(connection, path, tin)?,
        None => None,
    };
    let of_dish = reads.cost(row.get(21).at(path)?, row.get(22).at(path)?)?;
    Ok(RecordedPortion {
        id,
        run: RunId(reads.unsigned32(row.get(3).at(path)?, "run's number")?),
        dish: dish.map(|name| dish_name(name, path)).transpose()?,
        mode: reads.mode(row.get(5).at(path)?)?,
        mass: Mass::from_micrograms(row.get(6).at(path)?),
        goal: reads.goal(
            row.get(7).at(path)?,
            row.get(8).at(path)?,
            row.get(9).at(path)?,
        )?,
        time: reads.time(row.get(10).at(path)?)?,
        time_source: match reads.source(row.get(11).at(path)?)? {
            TimeSource::Instrument if id.device == ELSEWHERE => TimeSource::Imported,
            source => source,
        },
        temperature: row
            .get::<_, Option<i32>>(12)
            .at(path)?
            .map(Temperature::from_millicelsius),
        doubts: Doubts(reads.unsigned32(row.get(13).at(path)?, "set of doubts")?),
        uncertainty: row
            .get::<_, Option<i64>>(14)
            .at(path)?
            .map(Mass::from_micrograms),
        left: row
            .get::<_, Option<i64>>(15)
            .at(path)?
            .map(Mass::from_micrograms),
        cost: of_tin.or(of_dish),
        struck,
        replaces: sibling(row.get(18).at(path)?)?,
        replaced_by: sibling(row.get(19).at(path)?)?,
    })
}
