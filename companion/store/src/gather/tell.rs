//! What this desktop tells the others: its own rows, as lines of a journal.

use super::kinds::{BEFORE_PORTIONS, Holds, Kind, STAMPED};
use crate::columns::{Reads, device_to};
use crate::imports::ELSEWHERE;
use crate::services::{DISHES_OF_PLATES, PLATES};
use crate::{Sql, StoreError};
use rusqlite::types::ValueRef;
use rusqlite::{Connection, OptionalExtension, Row, params};
use serde_json::{Map, Value, json};
use std::path::Path;

/// How many rows are told at a time.
pub(super) const AT_A_TIME: i64 = 10_000;

/// How much of a record is in a journal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Told {
    pub(super) changes: i64,
    pub(super) portions: i64,
}

/// The lines that come behind `told`, with what is told then; none where all is.
pub(super) fn lines(
    connection: &Connection,
    path: &Path,
    told: Told,
) -> Result<(Vec<String>, Told), StoreError> {
    let tells = Tells { connection, path };
    let changes = tells.changes(told.changes)?;
    let (mut first, mut behind) = (Vec::new(), Vec::new());
    let mut now = told;
    for (seq, kind, key) in changes {
        now.changes = seq;
        let Some(line) = tells.change(&kind, &key)? else {
            continue;
        };
        if BEFORE_PORTIONS.contains(&kind.as_str()) {
            first.push(line);
        } else {
            behind.push(line);
        }
    }
    let (portions, last) = tells.portions(told.portions)?;
    now.portions = last;
    first.extend(portions);
    first.extend(behind);
    Ok((first.iter().map(Value::to_string).collect(), now))
}

/// A column as it is in a journal.
pub(super) fn value(column: ValueRef<'_>) -> Result<Value, rusqlite::Error> {
    Ok(match column {
        ValueRef::Null => Value::Null,
        ValueRef::Integer(number) => number.into(),
        ValueRef::Real(number) => number.into(),
        ValueRef::Text(_) => column.as_str()?.into(),
        ValueRef::Blob(bytes) => bytes
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect::<String>()
            .into(),
    })
}

struct Tells<'c> {
    connection: &'c Connection,
    path: &'c Path,
}

type Change = (i64, String, rusqlite::types::Value);

impl Tells<'_> {
    fn changes(&self, after: i64) -> Result<Vec<Change>, StoreError> {
        self.connection
            .prepare_cached(
                "SELECT seq, kind, key FROM change WHERE seq > ?1 ORDER BY seq LIMIT ?2",
            )
            .and_then(|mut select| {
                select
                    .query_map([after, AT_A_TIME], |row| {
                        Ok((row.get(0)?, row.get(1)?, row.get(2)?))
                    })?
                    .collect()
            })
            .at(self.path)
    }

    /// One row by its columns' names; `None` where it is not there.
    fn row(
        &self,
        select: &str,
        key: &dyn rusqlite::ToSql,
    ) -> Result<Option<Map<String, Value>>, StoreError> {
        self.connection
            .prepare_cached(select)
            .and_then(|mut select| select.query_row([key], by_name).optional())
            .at(self.path)
    }

    fn change(
        &self,
        kind: &str,
        key: &rusqlite::types::Value,
    ) -> Result<Option<Value>, StoreError> {
        let select = match kind {
            "strike" => {
                let of = "SELECT portion, at, reason, undone, stamp FROM strike WHERE stamp = ?1";
                return self.of_portion(kind, of, key);
            }
            "lifting" => {
                let of = "SELECT portion, at, stamp FROM lifting WHERE stamp = ?1";
                return self.of_portion(kind, of, key);
            }
            "heat_reading" => return self.minute(key),
            "setting" => return self.setting(key),
            "batch_line" => {
                "SELECT (SELECT stamp FROM batch WHERE id = l.batch) AS batch, at, what, about,
                        stamp FROM batch_line l WHERE stamp = ?1"
            }
            "instrument" => {
                "SELECT device, first_seen, last_seen, capabilities, capacity, interval
                 FROM instrument WHERE device = ?1"
            }
            "dish" => {
                "SELECT born, said_name AS name, name_stamp, retired, retired_stamp
                 FROM dish WHERE id = ?1"
            }
            "vessel" => "SELECT name, key, retired, retired_stamp FROM vessel WHERE id = ?1",
            "heat_log" => "SELECT name, key, longest_step, begun FROM heat_log WHERE id = ?1",
            "run" => {
                "SELECT id, (SELECT born FROM dish WHERE id = r.dish) AS dish, target, below, above,
                        mode, cook, (SELECT stamp FROM tin WHERE id = r.tin) AS tin, started, ended,
                        goal_stamp
                 FROM run r WHERE seq = ?1"
            }
            "scale_test" => {
                "SELECT device, epoch, uptime, time, known, indicated, permissible, uncertainty
                 FROM scale_test WHERE id = ?1"
            }
            "scale_calibration" => {
                "SELECT device, epoch, uptime, time, points, per_gram, heaviest, nonlinearity,
                        residual, uncertainty
                 FROM scale_calibration WHERE id = ?1"
            }
            "service" => {
                "SELECT day, first_order, first_stamp, last_order, last_stamp
                 FROM service WHERE day = ?1"
            }
            "refused" => "SELECT came, why, recorded FROM refused WHERE id = ?1",
            "plain_file" => "SELECT name, text, since, stamp FROM plain_file WHERE name = ?1",
            _ => {
                let stamped = STAMPED.iter().find(|known| known.table == kind);
                return match stamped {
                    Some(stamped) => self.stamped(stamped, key),
                    None => Err(Reads(self.path).senseless("kind of change")),
                };
            }
        };
        Ok(self.row(select, key)?.map(|row| line(kind, row)))
    }

    fn stamped(
        &self,
        kind: &Kind,
        stamp: &rusqlite::types::Value,
    ) -> Result<Option<Value>, StoreError> {
        let columns: Vec<String> = kind
            .columns
            .iter()
            .map(|(name, holds)| match holds {
                Holds::Of(other) => {
                    let (table, known_by) = other.known_by();
                    format!("(SELECT o.{known_by} FROM {table} o WHERE o.id = t.{name}) AS {name}")
                }
                _ => format!("t.{name}"),
            })
            .collect();
        let select = format!(
            "SELECT {}, t.stamp FROM {} t WHERE t.stamp = ?1",
            columns.join(", "),
            kind.table
        );
        Ok(self.row(&select, stamp)?.map(|row| line(kind.table, row)))
    }

    fn of_portion(
        &self,
        kind: &str,
        select: &str,
        stamp: &rusqlite::types::Value,
    ) -> Result<Option<Value>, StoreError> {
        let Some(mut row) = self.row(select, stamp)? else {
            return Ok(None);
        };
        let seq = row.get("portion").and_then(Value::as_i64).unwrap_or(0);
        row.insert("portion".to_owned(), self.identity(seq)?);
        Ok(Some(line(kind, row)))
    }

    /// What a portion is known by everywhere: its instrument, start and number, or of what no
    /// instrument sent what it says, and how many before it say the same.
    fn identity(&self, seq: i64) -> Result<Value, StoreError> {
        let (device, epoch, number): (i64, i64, i64) = self
            .connection
            .prepare_cached(
                "SELECT s.device, s.epoch, p.number
                 FROM portion p JOIN start s ON s.id = p.start WHERE p.seq = ?1",
            )
            .and_then(|mut select| {
                select.query_row([seq], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
            })
            .at(self.path)?;
        if device != device_to(ELSEWHERE) {
            return Ok(json!({ "device": device, "epoch": epoch, "number": number }));
        }
        let row = self.row(
            "SELECT d.born AS dish, r.cook, p.time, p.mass,
                    (SELECT count(*) FROM portion o JOIN run u ON u.seq = o.run
                     WHERE o.time = p.time AND o.mass = p.mass AND u.dish IS r.dish
                       AND u.cook IS r.cook AND o.seq < p.seq
                       AND o.start IN (SELECT id FROM start WHERE device = ?2)) AS nth
             FROM portion p JOIN run r ON r.seq = p.run LEFT JOIN dish d ON d.id = r.dish
             WHERE p.seq = ?1"
                .replace("?2", &device_to(ELSEWHERE).to_string())
                .as_str(),
            &seq,
        )?;
        row.map(Value::Object)
            .ok_or_else(|| Reads(self.path).senseless("portion"))
    }

    /// The readings of one minute of a log.
    fn minute(&self, key: &rusqlite::types::Value) -> Result<Option<Value>, StoreError> {
        let rusqlite::types::Value::Text(key) = key else {
            return Ok(None);
        };
        let parsed = key
            .split_once('/')
            .and_then(|(log, minute)| Some((log.parse().ok()?, minute.parse().ok()?)));
        let Some((log, minute)): Option<(i64, i64)> = parsed else {
            return Ok(None);
        };
        let readings: Vec<Value> = self
            .connection
            .prepare_cached(
                "SELECT at, temperature, after_gap FROM heat_reading
                 WHERE log = ?1 AND at BETWEEN ?2 AND ?3 AND at / 60000 = ?4 ORDER BY at",
            )
            .and_then(|mut select| {
                select
                    .query_map(
                        params![
                            log,
                            minute * 60_000 - 60_000,
                            minute * 60_000 + 60_000,
                            minute
                        ],
                        |row| {
                            Ok(json!([
                                row.get::<_, i64>(0)?,
                                row.get::<_, i64>(1)?,
                                row.get::<_, i64>(2)?
                            ]))
                        },
                    )?
                    .collect()
            })
            .at(self.path)?;
        let row = self.row("SELECT key AS log FROM heat_log WHERE id = ?1", &log)?;
        Ok(row.map(|mut row| {
            row.insert("readings".to_owned(), readings.into());
            line("heat_reading", row)
        }))
    }

    fn setting(&self, name: &rusqlite::types::Value) -> Result<Option<Value>, StoreError> {
        let row = self.row(
            "SELECT name, value, since, stamp FROM setting WHERE name = ?1",
            name,
        )?;
        let Some(mut row) = row else { return Ok(None) };
        if row.get("name").and_then(Value::as_str) == Some(PLATES) {
            let meant: Vec<(String, String)> = self
                .connection
                .prepare_cached(
                    "SELECT j.key, d.born FROM setting s, json_each(s.value) j
                     JOIN dish d ON d.id = j.value WHERE s.name = ?1",
                )
                .and_then(|mut select| {
                    select
                        .query_map([DISHES_OF_PLATES], |row| Ok((row.get(0)?, row.get(1)?)))?
                        .collect()
                })
                .at(self.path)?;
            let meant: Map<String, Value> = meant
                .into_iter()
                .map(|(name, born)| (name, born.into()))
                .collect();
            row.insert("meant".to_owned(), meant.into());
        }
        Ok(Some(line("setting", row)))
    }

    fn portions(&self, after: i64) -> Result<(Vec<Value>, i64), StoreError> {
        let rows: Vec<(i64, i64, Map<String, Value>)> = self
            .connection
            .prepare_cached(
                "SELECT p.seq, s.device, s.epoch, p.number, r.id AS run, p.mode, p.mass, p.target,
                        p.below, p.above, p.uptime, p.time, p.time_source, p.temperature, p.doubts,
                        p.uncertainty, p.left_on_pan, p.corrects, p.recorded, p.chain_position,
                        p.chain_previous
                 FROM portion p JOIN start s ON s.id = p.start JOIN run r ON r.seq = p.run
                 WHERE p.seq > ?1 AND p.seq NOT IN (SELECT seq FROM gathered_portion)
                 ORDER BY p.seq LIMIT ?2",
            )
            .and_then(|mut select| {
                select
                    .query_map([after, AT_A_TIME], |row| {
                        let mut columns = by_name(row)?;
                        columns.remove("seq");
                        Ok((row.get(0)?, row.get(1)?, columns))
                    })?
                    .collect()
            })
            .at(self.path)?;
        let mut last = after;
        let mut lines = Vec::with_capacity(rows.len());
        for (seq, device, mut columns) in rows {
            last = seq;
            if device == device_to(ELSEWHERE) {
                for name in ["device", "epoch", "number"] {
                    columns.remove(name);
                }
                columns.insert("as".to_owned(), self.identity(seq)?);
            }
            lines.push(line("portion", columns));
        }
        Ok((lines, last))
    }
}

fn by_name(row: &Row<'_>) -> rusqlite::Result<Map<String, Value>> {
    let statement: &rusqlite::Statement<'_> = row.as_ref();
    let mut columns = Map::new();
    for (place, name) in statement.column_names().enumerate() {
        columns.insert(name.to_owned(), value(row.get_ref(place)?)?);
    }
    Ok(columns)
}

fn line(kind: &str, columns: Map<String, Value>) -> Value {
    json!({ "of": kind, "is": columns })
}
