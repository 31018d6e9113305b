//! Reading portions back, one by one.

use super::columns::{Reads, device_from, device_to, time_to};
use super::costs::{Costs, KnownCosts};
use super::dishes::dish_name;
use super::imports::ELSEWHERE;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::{RecordedPortion, StrikeReason, Struck, TimeSource};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::tin::TinId;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{DeviceId, Epoch, Mass, PortionId, RunId, Temperature};
use jiff::Timestamp;
use rusqlite::types::Value;
use rusqlite::{Connection, OptionalExtension, Row, params, params_from_iter};
use std::collections::HashMap;
use std::path::Path;
use std::rc::Rc;

/// A portion with all that is on record about it apart from its run. A
/// correction that was undone corrects nothing.
const SELECT: &str = "
    SELECT p.start, p.number, p.run, p.mode, p.mass, p.target, p.below, p.above,
           p.time, p.time_source, p.temperature, p.doubts, p.uncertainty, p.left_on_pan,
           k.at, k.reason, earlier.number, later.number
    FROM portion p
    LEFT JOIN strike k ON k.portion = p.seq AND k.lifted IS NULL
    LEFT JOIN portion earlier ON earlier.seq = p.replaces
    LEFT JOIN portion later ON later.seq = p.replaced_by
        AND NOT EXISTS (SELECT 1 FROM strike u
                        WHERE u.portion = later.seq AND u.lifted IS NULL AND u.undone)";

/// The order of capture: by run, then by the instrument's own start and
/// number, whatever the wall's clock did meanwhile.
const ORDER: &str = "ORDER BY p.run, p.start, p.number";

/// The same where several desktops gathered their portions, whichever came first here: runs
/// as they were begun, in each the instruments' starts in their own order; what no instrument
/// sent by its time, since its numbers are this store's own.
fn order_everywhere() -> String {
    let elsewhere = device_to(ELSEWHERE);
    format!(
        "ORDER BY (SELECT r.started FROM run r WHERE r.seq = p.run),
                  (SELECT r.id FROM run r WHERE r.seq = p.run),
                  (SELECT s.device FROM start s WHERE s.id = p.start),
                  (SELECT iif(s.device = {elsewhere}, 0, s.epoch) FROM start s WHERE s.id = p.start),
                  (SELECT iif(s.device = {elsewhere}, p.time, p.number)
                   FROM start s WHERE s.id = p.start), p.mass"
    )
}

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

/// What a portion's run says of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OfRun {
    /// Who made it, where it was said.
    pub cook: Option<Cook>,
    /// From what, where it was said.
    pub tin: Option<TinId>,
}

impl Store {
    /// The portions asked for, also those that count no more, in the order of
    /// capture.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be read.
    pub fn portions(&self, query: &Query) -> Result<Vec<RecordedPortion>, StoreError> {
        let mut portions = Vec::new();
        self.each_portion(query, |portion, _| {
            portions.push(portion);
            Ok::<_, StoreError>(())
        })?;
        Ok(portions)
    }

    /// Tells the portions asked for one by one, also those that count no more,
    /// in the order of capture, and holds none of them.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], where the store cannot be read, or what
    /// `tell` returns, at which the telling ends.
    pub fn each_portion<E: From<StoreError>>(
        &self,
        query: &Query,
        mut tell: impl FnMut(RecordedPortion, &OfRun) -> Result<(), E>,
    ) -> Result<(), E> {
        let (conditions, values) = self.conditions(query)?;
        let order = if self.is_gathered()? {
            order_everywhere()
        } else {
            ORDER.to_owned()
        };
        let sql = |error| E::from(self.sql(error));
        let mut select = self
            .connection
            .prepare_cached(&format!("{SELECT} {conditions} {order}"))
            .map_err(sql)?;
        let mut reader = Reader::new(&self.connection, &self.path);
        let mut rows = select.query(params_from_iter(values)).map_err(sql)?;
        while let Some(row) = rows.next().map_err(sql)? {
            let (portion, run) = reader.read(row)?;
            tell(portion, &run.says)?;
        }
        Ok(())
    }

    fn conditions(&self, query: &Query) -> Result<(String, Vec<Value>), StoreError> {
        let mut conditions = Vec::new();
        let mut values: Vec<Value> = Vec::new();
        let mut hold = |condition: &str, value: Value| {
            values.push(value);
            conditions.push(condition.replace('#', &format!("?{}", values.len())));
        };
        if let Some(name) = &query.dish {
            let key = self.known_dish(name)?.name.key();
            hold(
                "p.run IN (SELECT r.seq FROM run r JOIN dish d ON d.id = r.dish WHERE d.key = #)",
                key.into(),
            );
        }
        if let Some(run) = query.run {
            hold(
                "p.run = (SELECT seq FROM run WHERE id = #)",
                i64::from(run.0).into(),
            );
        }
        if let Some(from) = query.from {
            hold("p.time >= #", time_to(from).into());
        }
        if let Some(to) = query.to {
            hold("p.time < #", time_to(to).into());
        }
        let conditions = if conditions.is_empty() {
            String::new()
        } else {
            format!("WHERE {}", conditions.join(" AND "))
        };
        Ok((conditions, values))
    }

    /// The spread of those of the portions asked for that count.
    ///
    /// # Errors
    /// As for [`Store::portions`].
    pub fn spread(&self, query: &Query) -> Result<Spread, StoreError> {
        let mut spread = Spread::new();
        self.each_portion(query, |portion, _| {
            if portion.counts() {
                spread.add(portion.mass, portion.goal, portion.cost);
            }
            Ok::<_, StoreError>(())
        })?;
        Ok(spread)
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
            "{SELECT} WHERE p.start = (SELECT id FROM start WHERE device = ?1 AND epoch = ?2)
                        AND p.number = ?3"
        ))
        .and_then(|mut select| {
            select
                .query_row(
                    params![
                        device_to(id.device),
                        i64::from(id.epoch.0),
                        i64::from(id.number)
                    ],
                    |row| {
                        let read = Reader::new(connection, path).read(row);
                        Ok(read.map(|(portion, _)| portion))
                    },
                )
                .optional()
        })
        .at(path)?
        .transpose()
}

/// A run as the reading of its portions needs it.
struct ReadRun {
    id: RunId,
    dish: Option<DishName>,
    costs: Costs,
    says: OfRun,
}

/// Reads portions. Those of one run come one after the other, so that only the
/// last run is held.
struct Reader<'s> {
    connection: &'s Connection,
    path: &'s Path,
    starts: HashMap<i64, (DeviceId, Epoch)>,
    costs: KnownCosts,
    run: Option<(i64, Rc<ReadRun>)>,
}

impl<'s> Reader<'s> {
    fn new(connection: &'s Connection, path: &'s Path) -> Self {
        Self {
            connection,
            path,
            starts: HashMap::new(),
            costs: KnownCosts::default(),
            run: None,
        }
    }

    fn start(&mut self, start: i64) -> Result<(DeviceId, Epoch), StoreError> {
        if let Some(known) = self.starts.get(&start) {
            return Ok(*known);
        }
        let (device, epoch): (i64, i64) = self
            .connection
            .prepare_cached("SELECT device, epoch FROM start WHERE id = ?1")
            .and_then(|mut select| select.query_row([start], |row| Ok((row.get(0)?, row.get(1)?))))
            .at(self.path)?;
        let epoch = Reads(self.path).unsigned32(epoch, "start's number")?;
        let read = (device_from(device), Epoch(epoch));
        self.starts.insert(start, read);
        Ok(read)
    }

    fn run(&mut self, seq: i64) -> Result<Rc<ReadRun>, StoreError> {
        if let Some((known, run)) = &self.run
            && *known == seq
        {
            return Ok(Rc::clone(run));
        }
        let reads = Reads(self.path);
        let (id, dish, name, cook, tin) = self
            .connection
            .prepare_cached(
                "SELECT r.id, r.dish, d.name, r.cook, r.tin
                 FROM run r LEFT JOIN dish d ON d.id = r.dish WHERE r.seq = ?1",
            )
            .and_then(|mut select| {
                select.query_row([seq], |row| {
                    Ok((
                        row.get::<_, i64>(0)?,
                        row.get::<_, Option<i64>>(1)?,
                        row.get::<_, Option<String>>(2)?,
                        row.get::<_, Option<String>>(3)?,
                        row.get::<_, Option<i64>>(4)?,
                    ))
                })
            })
            .at(self.path)?;
        let run = Rc::new(ReadRun {
            id: RunId(reads.unsigned32(id, "run's number")?),
            dish: name.map(|name| dish_name(name, self.path)).transpose()?,
            costs: self.costs.of(self.connection, self.path, dish, tin)?,
            says: OfRun {
                cook: cook
                    .map(|cook| Cook::new("cook", &cook).map_err(|_| reads.senseless("cook")))
                    .transpose()?,
                tin: tin.map(TinId),
            },
        });
        self.run = Some((seq, Rc::clone(&run)));
        Ok(run)
    }

    fn read(&mut self, row: &Row<'_>) -> Result<(RecordedPortion, Rc<ReadRun>), StoreError> {
        let path = self.path;
        let reads = Reads(path);
        let number = |column: i64| reads.unsigned32(column, "portion's number");
        let (device, epoch) = self.start(row.get(0).at(path)?)?;
        let id = PortionId {
            device,
            epoch,
            number: number(row.get(1).at(path)?)?,
        };
        let run = self.run(row.get(2).at(path)?)?;
        // Corrections are always within one start of one instrument.
        let sibling = |column: Option<i64>| {
            column
                .map(|column| number(column).map(|number| PortionId { number, ..id }))
                .transpose()
        };
        let struck: Option<i64> = row.get(14).at(path)?;
        let reason: Option<String> = row.get(15).at(path)?;
        let struck = match (struck, reason) {
            (Some(at), Some(reason)) => Some(Struck {
                reason: StrikeReason::new("reason", &reason)
                    .map_err(|_| reads.senseless("reason of a strike"))?,
                at: reads.time(at)?,
            }),
            _ => None,
        };
        let time: i64 = row.get(8).at(path)?;
        let portion = RecordedPortion {
            id,
            run: run.id,
            dish: run.dish.clone(),
            mode: reads.mode(row.get(3).at(path)?)?,
            mass: Mass::from_micrograms(row.get(4).at(path)?),
            goal: reads.goal(
                row.get(5).at(path)?,
                row.get(6).at(path)?,
                row.get(7).at(path)?,
            )?,
            time: reads.time(time)?,
            time_source: match reads.source(row.get(9).at(path)?)? {
                TimeSource::Instrument if id.device == ELSEWHERE => TimeSource::Imported,
                source => source,
            },
            temperature: row
                .get::<_, Option<i32>>(10)
                .at(path)?
                .map(Temperature::from_millicelsius),
            doubts: Doubts(reads.unsigned32(row.get(11).at(path)?, "set of doubts")?),
            uncertainty: row
                .get::<_, Option<i64>>(12)
                .at(path)?
                .map(Mass::from_micrograms),
            left: row
                .get::<_, Option<i64>>(13)
                .at(path)?
                .map(Mass::from_micrograms),
            cost: run.costs.at(time),
            struck,
            replaces: sibling(row.get(16).at(path)?)?,
            replaced_by: sibling(row.get(17).at(path)?)?,
        };
        Ok((portion, run))
    }
}
