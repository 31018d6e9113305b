//! What the others told, put on record once each, whatever order it comes in.

use super::kinds::{Holds, Kind, Other, STAMPED};
use super::{ORIGINS, Overruled};
use crate::checksum::{self, OF_PORTION, PORTION_COLUMNS};
use crate::columns::{Reads, device_from, device_to};
use crate::corrections::link_family;
use crate::imports::ELSEWHERE;
use crate::services::{DISHES_OF_PLATES, PLATES};
use crate::{Sql, StoreError, tallies};
use rusqlite::types::Value as Column;
use rusqlite::{OptionalExtension, Transaction, params, params_from_iter};
use serde_json::{Map, Value};
use std::collections::BTreeSet;
use std::path::Path;

/// What became of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Taken {
    /// It is on record now, or changed what is.
    New,
    /// It was on record.
    Known,
    /// It speaks of what has not come yet, or of what this program does not know.
    Waits,
    /// Another row is on record under its identity.
    Clash,
}

/// Puts lines on record, and holds what the report names of it.
pub(super) struct Take<'t> {
    transaction: &'t Transaction<'t>,
    path: &'t Path,
    now: i64,
    /// The start that weighings which no instrument sent come into, and the last number.
    elsewhere: Option<(i64, i64)>,
    pub(super) overruled: Vec<Overruled>,
    pub(super) batches: BTreeSet<i64>,
    dishes_named: bool,
}

type Columns = Map<String, Value>;

impl<'t> Take<'t> {
    pub(super) fn new(transaction: &'t Transaction<'t>, path: &'t Path, now: i64) -> Self {
        Self {
            transaction,
            path,
            now,
            elsewhere: None,
            overruled: Vec::new(),
            batches: BTreeSet::new(),
            dishes_named: false,
        }
    }

    /// Puts what a line says on record.
    pub(super) fn line(&mut self, text: &str) -> Result<Taken, StoreError> {
        let Ok(mut line) = serde_json::from_str::<Value>(text) else {
            return Ok(Taken::Waits);
        };
        let kind = line["of"].as_str().unwrap_or_default().to_owned();
        let Some(columns) = line["is"].as_object_mut().map(std::mem::take) else {
            return Ok(Taken::Waits);
        };
        self.note_moment(&columns)?;
        match kind.as_str() {
            "instrument" => self.instrument(&columns),
            "dish" => self.dish(&columns),
            "vessel" => self.vessel(&columns),
            "heat_log" => self.heat_log(&columns),
            "heat_reading" => self.readings(&columns),
            "run" => self.run(&columns),
            "portion" => self.portion(&columns),
            "strike" => self.strike(&columns),
            "lifting" => self.lifting(&columns),
            "batch_line" => self.batch_line(&columns),
            "scale_test" => self.once("scale_test", &columns),
            "scale_calibration" => self.once("scale_calibration", &columns),
            "refused" => self.once("refused", &columns),
            "service" => self.service(&columns),
            "setting" => self.setting(&columns),
            "plain_file" => self.plain_file(&columns),
            _ => match STAMPED.iter().find(|known| known.table == kind) {
                Some(known) => self.stamped(known, &columns),
                None => Ok(Taken::Waits),
            },
        }
    }

    /// What this desktop puts down next comes behind what it has seen.
    fn note_moment(&self, columns: &Columns) -> Result<(), StoreError> {
        let stamps = ["stamp", "retired_stamp", "name_stamp", "goal_stamp"];
        let latest = stamps
            .into_iter()
            .chain(["first_stamp", "last_stamp"])
            .filter_map(|name| integer(columns, name))
            .max();
        if let Some(stamp) = latest {
            self.execute("UPDATE desk SET last = max(last, ?1 >> 20)", [stamp])?;
        }
        Ok(())
    }

    fn execute(&self, sql: &str, params: impl rusqlite::Params) -> Result<usize, StoreError> {
        self.transaction
            .prepare_cached(sql)
            .and_then(|mut statement| statement.execute(params))
            .at(self.path)
    }

    fn one<T: rusqlite::types::FromSql>(
        &self,
        sql: &str,
        params: impl rusqlite::Params,
    ) -> Result<Option<T>, StoreError> {
        self.transaction
            .prepare_cached(sql)
            .and_then(|mut select| select.query_row(params, |row| row.get(0)).optional())
            .at(self.path)
    }

    /// The number here of a row of another table.
    fn other(&self, other: Other, known_by: &Value) -> Result<Option<i64>, StoreError> {
        let (table, column) = other.known_by();
        self.one(
            &format!("SELECT id FROM {table} WHERE {column} = ?1"),
            [column_of(known_by, Holds::Plain)],
        )
    }

    fn stamped(&mut self, kind: &Kind, columns: &Columns) -> Result<Taken, StoreError> {
        let Some(stamp) = integer(columns, "stamp") else {
            return Ok(Taken::Waits);
        };
        let mut names = Vec::new();
        let mut values = Vec::new();
        let mut ended = None;
        for (name, holds) in kind.columns {
            let said = columns.get(*name).unwrap_or(&Value::Null);
            let value = match holds {
                Holds::Of(other) => match self.other(*other, said)? {
                    Some(id) => Column::Integer(id),
                    None => return Ok(Taken::Waits),
                },
                holds => column_of(said, *holds),
            };
            if *holds == Holds::Ended {
                ended = Some((*name, value.clone()));
            } else {
                names.push(*name);
                values.push(value);
            }
        }
        let table = kind.table;
        let there: Option<i64> = self.one(
            &format!("SELECT stamp FROM {table} WHERE stamp = ?1"),
            [stamp],
        )?;
        if there.is_none() {
            // What is said once of a row, and another desktop said first.
            if let ("heat_came" | "picture_off", Some(of)) = (table, values.first()) {
                let said: Option<i64> = self.one(
                    &format!("SELECT 1 FROM {table} WHERE {} = ?1", names[0]),
                    [of],
                )?;
                if said.is_some() {
                    return Ok(Taken::Known);
                }
            }
            self.insert(table, &names, &values, stamp)?;
            if let Some((name, value)) = ended {
                self.end(table, name, &value, stamp)?;
            }
            self.after(kind, columns, stamp)?;
            return Ok(Taken::New);
        }
        let same: Vec<String> = names
            .iter()
            .zip(2..)
            .map(|(name, place)| format!("{name} IS ?{place}"))
            .collect();
        let mut all = vec![Column::Integer(stamp)];
        all.extend(values);
        let same: Option<i64> = self.one(
            &format!(
                "SELECT 1 FROM {table} WHERE stamp = ?1 AND {}",
                same.join(" AND ")
            ),
            params_from_iter(all),
        )?;
        if same.is_none() {
            self.overrule(
                table,
                &stamp.to_string(),
                &Value::Object(columns.clone()),
                stamp,
            )?;
            return Ok(Taken::Clash);
        }
        match ended {
            Some((name, value)) if self.end(table, name, &value, stamp)? > 0 => Ok(Taken::New),
            _ => Ok(Taken::Known),
        }
    }

    fn insert(
        &self,
        table: &str,
        names: &[&str],
        values: &[Column],
        stamp: i64,
    ) -> Result<usize, StoreError> {
        let places: Vec<String> = (2..names.len() + 2).map(|n| format!("?{n}")).collect();
        let mut all = vec![Column::Integer(stamp)];
        all.extend_from_slice(values);
        self.execute(
            &format!(
                "INSERT INTO {table} (stamp, {}) VALUES (?1, {})",
                names.join(", "),
                places.join(", ")
            ),
            params_from_iter(all),
        )
    }

    fn end(
        &self,
        table: &str,
        name: &str,
        value: &Column,
        stamp: i64,
    ) -> Result<usize, StoreError> {
        if *value == Column::Null {
            return Ok(0);
        }
        self.execute(
            &format!(
                "UPDATE {table} SET {name} = ?1 WHERE stamp = ?2 AND ({name} IS NULL OR {name} > ?1)"
            ),
            params![value, stamp],
        )
    }

    /// What else a new row changes.
    fn after(&mut self, kind: &Kind, columns: &Columns, stamp: i64) -> Result<(), StoreError> {
        match kind.table {
            // A cost may be from before portions that are here.
            "dish_version" => {
                self.execute(
                    "INSERT OR IGNORE INTO stale_block SELECT block FROM tally
                     WHERE dish = (SELECT dish FROM dish_version WHERE stamp = ?1)",
                    [stamp],
                )?;
                self.execute(
                    "INSERT OR IGNORE INTO stale_block SELECT block FROM tally_of_tin
                     WHERE dish = (SELECT dish FROM dish_version WHERE stamp = ?1)",
                    [stamp],
                )?;
            }
            "batch" => {}
            // Two lists or menus of one day: the one kept later counts.
            "prep_menu" | "goods_list" => {
                let (text, day) = match kind.table {
                    "prep_menu" => ("menu", columns.get("day").cloned().unwrap_or(Value::Null)),
                    _ => ("list", Value::Null),
                };
                let same_day = if kind.table == "prep_menu" {
                    "day IS ?2"
                } else {
                    "?2 IS NULL"
                };
                let other: Option<i64> = self.one(
                    &format!(
                        "SELECT stamp FROM {} WHERE {same_day} AND stamp <> ?1
                           AND stamp & {ORIGINS} <> ?1 & {ORIGINS} AND {text} <> (
                             SELECT {text} FROM {} WHERE stamp = ?1)
                         ORDER BY stamp DESC LIMIT 1",
                        kind.table, kind.table
                    ),
                    params![stamp, column_of(&day, Holds::Plain)],
                )?;
                if let Some(other) = other {
                    let key = day.as_str().unwrap_or_default().to_owned();
                    let older = other.min(stamp);
                    let said: Option<String> = self.one(
                        &format!("SELECT {text} FROM {} WHERE stamp = ?1", kind.table),
                        [older],
                    )?;
                    let said = Value::String(said.unwrap_or_default());
                    self.overrule(kind.table, &key, &said, older)?;
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// Keeps what does not count beside what another desktop said.
    fn overrule(
        &mut self,
        kind: &str,
        key: &str,
        said: &Value,
        stamp: i64,
    ) -> Result<(), StoreError> {
        let said = match said {
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        let new = self.execute(
            "INSERT OR IGNORE INTO overruled (kind, key, said, stamp) VALUES (?1, ?2, ?3, ?4)",
            params![kind, key, said, stamp],
        )?;
        if new > 0 {
            self.overruled
                .push(Overruled::new(self.path, kind, key, &said, stamp)?);
        }
        Ok(())
    }

    /// A row that is known by all that it says, or by a unique part of it.
    fn once(&self, table: &str, columns: &Columns) -> Result<Taken, StoreError> {
        let names: &[&str] = match table {
            "scale_test" => &[
                "device",
                "epoch",
                "uptime",
                "time",
                "known",
                "indicated",
                "permissible",
                "uncertainty",
            ],
            "scale_calibration" => &[
                "device",
                "epoch",
                "uptime",
                "time",
                "points",
                "per_gram",
                "heaviest",
                "nonlinearity",
                "residual",
                "uncertainty",
            ],
            _ => &["came", "why", "recorded"],
        };
        let values = names
            .iter()
            .map(|name| column_of(columns.get(*name).unwrap_or(&Value::Null), Holds::Plain));
        let places: Vec<String> = (1..=names.len()).map(|n| format!("?{n}")).collect();
        let added = self.execute(
            &format!(
                "INSERT INTO {table} ({}) VALUES ({}) ON CONFLICT DO NOTHING",
                names.join(", "),
                places.join(", ")
            ),
            params_from_iter(values),
        )?;
        Ok(if added > 0 { Taken::New } else { Taken::Known })
    }

    fn instrument(&self, columns: &Columns) -> Result<Taken, StoreError> {
        let value = |name| integer(columns, name);
        let changed = self.execute(
            "INSERT INTO instrument (device, first_seen, last_seen, capabilities, capacity, interval)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6)
             ON CONFLICT (device) DO UPDATE SET
                 first_seen = min(first_seen, excluded.first_seen),
                 capabilities = CASE WHEN excluded.last_seen > last_seen
                     THEN excluded.capabilities ELSE capabilities END,
                 capacity = CASE WHEN excluded.last_seen > last_seen
                     THEN excluded.capacity ELSE capacity END,
                 interval = CASE WHEN excluded.last_seen > last_seen
                     THEN excluded.interval ELSE interval END,
                 last_seen = max(last_seen, excluded.last_seen)
             WHERE excluded.last_seen > last_seen OR excluded.first_seen < first_seen",
            params![
                value("device"),
                value("first_seen"),
                value("last_seen"),
                value("capabilities"),
                value("capacity"),
                value("interval")
            ],
        )?;
        Ok(told(changed))
    }

    fn dish(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let (Some(born), Some(name)) = (text(columns, "born"), text(columns, "name")) else {
            return Ok(Taken::Waits);
        };
        let (name_stamp, retired_stamp) = (
            integer(columns, "name_stamp"),
            integer(columns, "retired_stamp"),
        );
        let there: Option<(String, Option<i64>, Option<i64>)> = self
            .transaction
            .query_row(
                "SELECT said_name, name_stamp, retired_stamp FROM dish WHERE born = ?1",
                [born],
                |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)),
            )
            .optional()
            .at(self.path)?;
        let mut changed = 0;
        let (was_named, was_retired) = match there {
            None => {
                // Under a key that no dish has; what it is called is settled at the end.
                changed += self.execute(
                    "INSERT INTO dish (name, key, born, said_name) VALUES (?1, ?2, ?3, ?1)",
                    params![name, format!("\u{1}{born}"), born],
                )?;
                (None, None)
            }
            Some((said, stamp, retired)) => {
                let other = stamp.is_some() && name_stamp.is_some() && said != *name;
                if other && stamp > name_stamp {
                    self.overrule("dish", born, &name.into(), name_stamp.unwrap_or(0))?;
                } else if other {
                    self.overrule("dish", born, &said.into(), stamp.unwrap_or(0))?;
                }
                (stamp, retired)
            }
        };
        if name_stamp > was_named || changed > 0 {
            changed += self.execute(
                "UPDATE dish SET said_name = ?2, name_stamp = ?3 WHERE born = ?1",
                params![born, name, name_stamp],
            )?;
            self.dishes_named = true;
        }
        if retired_stamp > was_retired {
            changed += self.execute(
                "UPDATE dish SET retired = ?2, retired_stamp = ?3 WHERE born = ?1",
                params![born, integer(columns, "retired"), retired_stamp],
            )?;
        }
        Ok(told(changed))
    }

    /// Gives every dish the name said last of it. Of several of one name the one called so
    /// first has it; the others have the key that they were born with behind it.
    fn name_dishes(&self) -> Result<(), StoreError> {
        let mut dishes: Vec<(i64, String, String, i64)> = self
            .transaction
            .prepare("SELECT id, said_name, born, coalesce(name_stamp, 0) FROM dish")
            .and_then(|mut select| {
                select
                    .query_map([], |row| {
                        Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?))
                    })?
                    .collect()
            })
            .at(self.path)?;
        dishes.sort_by(|one, other| (one.3, &one.2).cmp(&(other.3, &other.2)));
        self.execute("UPDATE dish SET key = char(1) || id", [])?;
        let mut taken = BTreeSet::new();
        for (id, said, born, _) in dishes {
            let reads = Reads(self.path);
            let name = crate::dishes::dish_name(said.clone(), self.path)?;
            let mut name = (name.key(), said.clone());
            let mut nth = 1;
            while !taken.insert(name.0.clone()) {
                nth += 1;
                let born = born.split('\u{1f}').next().unwrap_or_default();
                let other = match nth {
                    2 => format!("{said} ({born})"),
                    _ => format!("{said} ({born} {nth})"),
                };
                let other = crate::dishes::dish_name(other, self.path)
                    .map_err(|_| reads.senseless("dish's name"))?;
                name = (other.key(), other.to_string());
            }
            self.execute(
                "UPDATE dish SET key = ?2, name = ?3 WHERE id = ?1",
                params![id, name.0, name.1],
            )?;
        }
        Ok(())
    }

    fn vessel(&self, columns: &Columns) -> Result<Taken, StoreError> {
        let (key, stamp) = (text(columns, "key"), integer(columns, "retired_stamp"));
        let mut changed = self.execute(
            "INSERT INTO vessel (name, key) VALUES (?1, ?2) ON CONFLICT (key) DO NOTHING",
            params![text(columns, "name"), key],
        )?;
        changed += self.execute(
            "UPDATE vessel SET retired = ?2, retired_stamp = ?3
             WHERE key = ?1 AND ?3 IS NOT NULL AND ?3 > coalesce(retired_stamp, 0)",
            params![key, integer(columns, "retired"), stamp],
        )?;
        Ok(told(changed))
    }

    /// Of two beginnings of one log the earlier counts.
    fn heat_log(&self, columns: &Columns) -> Result<Taken, StoreError> {
        let changed = self.execute(
            "INSERT INTO heat_log (name, key, longest_step, begun) VALUES (?1, ?2, ?3, ?4)
             ON CONFLICT (key) DO UPDATE SET
                 name = excluded.name, longest_step = excluded.longest_step, begun = excluded.begun
             WHERE (excluded.begun, excluded.longest_step, excluded.name)
                 < (begun, longest_step, name)",
            params![
                text(columns, "name"),
                text(columns, "key"),
                integer(columns, "longest_step"),
                integer(columns, "begun")
            ],
        )?;
        Ok(told(changed))
    }

    fn readings(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let log = columns.get("log").unwrap_or(&Value::Null);
        let Some(id) = self.other(Other::HeatLog, log)? else {
            return Ok(Taken::Waits);
        };
        let mut taken = Taken::Known;
        let readings = columns.get("readings").and_then(Value::as_array);
        for reading in readings.into_iter().flatten() {
            let (Some(at), Some(temperature), Some(gap)) = (
                reading[0].as_i64(),
                reading[1].as_i64(),
                reading[2].as_i64(),
            ) else {
                return Ok(Taken::Waits);
            };
            let added = self.execute(
                "INSERT INTO heat_reading (log, at, temperature, after_gap) VALUES (?1, ?2, ?3, ?4)
                 ON CONFLICT DO NOTHING",
                [id, at, temperature, gap],
            )?;
            if added > 0 {
                taken = Taken::New;
                continue;
            }
            let there: Option<i64> = self.one(
                "SELECT temperature FROM heat_reading WHERE log = ?1 AND at = ?2",
                [id, at],
            )?;
            if there != Some(temperature) {
                let key = log.as_str().unwrap_or_default();
                self.overrule("heat_reading", key, reading, at.max(0) << 20)?;
                taken = Taken::Clash;
            }
        }
        Ok(taken)
    }

    /// A run as its desktop knows it. One that only sent portions here is filled in.
    fn run(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let said = |name: &str| columns.get(name).unwrap_or(&Value::Null);
        let other = |other: Other, name: &str| -> Result<Option<Option<i64>>, StoreError> {
            match said(name) {
                Value::Null => Ok(Some(None)),
                known_by => Ok(self.other(other, known_by)?.map(Some)),
            }
        };
        let (Some(dish), Some(tin)) = (other(Other::Dish, "dish")?, other(Other::Tin, "tin")?)
        else {
            return Ok(Taken::Waits);
        };
        let number = |name: &str| integer(columns, name);
        let values = params![
            number("id"),
            dish,
            number("target"),
            number("below"),
            number("above"),
            number("mode"),
            text(columns, "cook"),
            tin,
            number("started"),
            number("goal_stamp")
        ];
        // Not in one statement: what a trigger ignores would be an error of it.
        let there: Option<i64> = self.one("SELECT seq FROM run WHERE id = ?1", [number("id")])?;
        let mut changed = match there {
            None => self.execute(
                "INSERT INTO run
                     (id, dish, target, below, above, mode, cook, tin, started, goal_stamp)
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
                values,
            )?,
            Some(_) => self.execute(
                "UPDATE run SET dish = ?2, target = ?3, below = ?4, above = ?5, mode = ?6,
                     cook = ?7, tin = ?8, started = ?9, goal_stamp = ?10
                 WHERE id = ?1 AND (?2 IS NOT NULL, coalesce(?10, 0), -?9)
                     > (dish IS NOT NULL, coalesce(goal_stamp, 0), -started)",
                values,
            )?,
        };
        changed += self.execute(
            "UPDATE run SET ended = ?2 WHERE id = ?1 AND ?2 IS NOT NULL
                AND (ended IS NULL OR ended > ?2)",
            [number("id"), number("ended")],
        )?;
        Ok(told(changed))
    }

    /// The row of a portion by what it is known by everywhere.
    fn known_portion(&self, identity: &Value) -> Result<Option<i64>, StoreError> {
        if identity.get("device").is_some() {
            return self.one(
                "SELECT p.seq FROM portion p JOIN start s ON s.id = p.start
                 WHERE s.device = ?1 AND s.epoch = ?2 AND p.number = ?3",
                [
                    identity["device"].as_i64(),
                    identity["epoch"].as_i64(),
                    identity["number"].as_i64(),
                ],
            );
        }
        self.one(
            "SELECT p.seq FROM portion p JOIN run r ON r.seq = p.run
             LEFT JOIN dish d ON d.id = r.dish
             WHERE p.time = ?1 AND p.mass = ?2 AND d.born IS ?3 AND r.cook IS ?4
               AND p.start IN (SELECT id FROM start WHERE device = ?6)
             ORDER BY p.seq LIMIT 1 OFFSET ?5",
            params![
                identity["time"].as_i64(),
                identity["mass"].as_i64(),
                identity["dish"].as_str(),
                identity["cook"].as_str(),
                identity["nth"].as_i64().unwrap_or(0),
                device_to(ELSEWHERE),
            ],
        )
    }

    fn portion(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let number = |name: &str| integer(columns, name);
        let (Some(run), Some(mass), Some(time), Some(uptime)) = (
            number("run"),
            number("mass"),
            number("time"),
            number("uptime"),
        ) else {
            return Ok(Taken::Waits);
        };
        let identity = match columns.get("as") {
            Some(same) => same.clone(),
            None => Value::Object(
                ["device", "epoch", "number"]
                    .into_iter()
                    .filter_map(|name| Some((name.to_owned(), columns.get(name)?.clone())))
                    .collect(),
            ),
        };
        if let Some(seq) = self.known_portion(&identity)? {
            let same: Option<i64> = self.one(
                "SELECT 1 FROM portion p JOIN run r ON r.seq = p.run
                 WHERE p.seq = ?1 AND p.mass = ?2 AND p.uptime = ?3 AND (r.id = ?4 OR ?5)",
                params![seq, mass, uptime, run, columns.contains_key("as")],
            )?;
            if same.is_some() {
                return Ok(Taken::Known);
            }
            self.overrule(
                "portion",
                &identity.to_string(),
                &Value::Object(columns.clone()),
                time.max(0) << 20,
            )?;
            return Ok(Taken::Clash);
        }
        let Some(run_seq) = self.run_of(columns, run, time)? else {
            return Ok(Taken::Waits);
        };
        let (start, nth) = match columns.get("as") {
            Some(_) => self.elsewhere()?,
            None => {
                let (Some(device), Some(epoch), Some(nth)) =
                    (number("device"), number("epoch"), number("number"))
                else {
                    return Ok(Taken::Waits);
                };
                // Its identity is one that an instrument may have.
                if device_from(device) == ELSEWHERE {
                    return Ok(Taken::Waits);
                }
                self.execute(
                    "INSERT INTO start (device, epoch) VALUES (?1, ?2) ON CONFLICT DO NOTHING",
                    [device, epoch],
                )?;
                let start = self.one(
                    "SELECT id FROM start WHERE device = ?1 AND epoch = ?2",
                    [device, epoch],
                )?;
                (start.unwrap_or(0), nth)
            }
        };
        let values: [Option<i64>; PORTION_COLUMNS] = [
            Some(start),
            Some(nth),
            Some(run_seq),
            number("mode"),
            Some(mass),
            number("target"),
            number("below"),
            number("above"),
            Some(uptime),
            Some(time),
            number("time_source"),
            number("temperature"),
            number("doubts"),
            number("uncertainty"),
            number("left_on_pan"),
            number("corrects"),
            number("recorded"),
        ];
        let link = number("chain_position").zip(number("chain_previous"));
        let behind = [
            link.map(|(position, _)| position),
            link.map(|(_, previous)| previous),
            Some(checksum::of_portion(&values, link)),
        ];
        self.execute(
            &format!(
                "INSERT INTO portion ({OF_PORTION}, chain_position, chain_previous, checksum)
                 VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
            ),
            params_from_iter(values.iter().chain(&behind)),
        )?;
        let seq = self.transaction.last_insert_rowid();
        self.execute("INSERT INTO gathered_portion VALUES (?1)", [seq])?;
        tallies::make_stale(self.transaction, self.path, run_seq, time)?;
        if columns.get("as").is_none() {
            link_family(self.transaction, self.path, seq)?;
        }
        Ok(Taken::New)
    }

    /// The run that a portion is of; one without a dish where it has not come yet. `None` for
    /// a weighing that is known by its run's dish.
    fn run_of(&self, columns: &Columns, run: i64, time: i64) -> Result<Option<i64>, StoreError> {
        let there: Option<i64> = self.one("SELECT seq FROM run WHERE id = ?1", [run])?;
        if there.is_some() {
            return Ok(there);
        }
        if columns.contains_key("as") {
            return Ok(None);
        }
        self.execute(
            "INSERT INTO run (id, target, below, above, mode, started)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            params![
                run,
                integer(columns, "target"),
                integer(columns, "below"),
                integer(columns, "above"),
                integer(columns, "mode"),
                time
            ],
        )?;
        Ok(Some(self.transaction.last_insert_rowid()))
    }

    /// Where a weighing that no instrument sent comes into: its number is this store's own.
    fn elsewhere(&mut self) -> Result<(i64, i64), StoreError> {
        let (start, last) = match self.elsewhere {
            Some(known) => known,
            None => {
                self.execute(
                    "INSERT INTO start (device, epoch)
                     SELECT ?1, 1 + coalesce(max(epoch), 0) FROM start WHERE device = ?1",
                    [device_to(ELSEWHERE)],
                )?;
                (self.transaction.last_insert_rowid(), 0)
            }
        };
        self.elsewhere = Some((start, last + 1));
        Ok((start, last + 1))
    }

    fn strike(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let (Some(stamp), Some(at)) = (integer(columns, "stamp"), integer(columns, "at")) else {
            return Ok(Taken::Waits);
        };
        let identity = columns.get("portion").unwrap_or(&Value::Null);
        let Some(portion) = self.known_portion(identity)? else {
            return Ok(Taken::Waits);
        };
        // Whether it is in force is settled with all others of the portion.
        let added = self.execute(
            "INSERT INTO strike (portion, at, reason, undone, lifted, stamp, checksum)
             SELECT ?1, ?2, ?3, ?4, ?2, ?5, strike_checksum(?1, ?2, ?3, ?4)
             WHERE NOT EXISTS (SELECT 1 FROM strike WHERE stamp = ?5)",
            params![
                portion,
                at,
                text(columns, "reason"),
                integer(columns, "undone"),
                stamp
            ],
        )?;
        if added == 0 {
            return Ok(Taken::Known);
        }
        self.settle_strikes(portion)?;
        Ok(Taken::New)
    }

    fn lifting(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let (Some(stamp), Some(at)) = (integer(columns, "stamp"), integer(columns, "at")) else {
            return Ok(Taken::Waits);
        };
        let identity = columns.get("portion").unwrap_or(&Value::Null);
        let Some(portion) = self.known_portion(identity)? else {
            return Ok(Taken::Waits);
        };
        let added = self.execute(
            "INSERT INTO lifting (portion, at, stamp) SELECT ?1, ?2, ?3
             WHERE NOT EXISTS (SELECT 1 FROM lifting WHERE stamp = ?3)",
            [portion, at, stamp],
        )?;
        if added == 0 {
            return Ok(Taken::Known);
        }
        self.settle_strikes(portion)?;
        Ok(Taken::New)
    }

    /// Which strike of a portion is in force: as if every striking and lifting had happened
    /// on one desktop, one after the other. A portion that is struck is not struck again.
    fn settle_strikes(&self, portion: i64) -> Result<(), StoreError> {
        // Each by its stamp: a strike with its number, or a lifting, and its moment.
        let mut course: Vec<(i64, Option<i64>, i64)> = self
            .transaction
            .prepare_cached(
                "SELECT stamp, id, at FROM strike WHERE portion = ?1
                 UNION ALL SELECT stamp, NULL, at FROM lifting WHERE portion = ?1",
            )
            .and_then(|mut select| {
                select
                    .query_map([portion], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?
                    .collect()
            })
            .at(self.path)?;
        course.sort_unstable();
        let mut in_force: Option<i64> = None;
        let mut ended: Vec<(i64, i64)> = Vec::new();
        for (_, strike, at) in course {
            match (strike, in_force) {
                (Some(strike), None) => in_force = Some(strike),
                (Some(strike), Some(_)) => ended.push((strike, at)),
                (None, Some(struck)) => {
                    ended.push((struck, at));
                    in_force = None;
                }
                (None, None) => {}
            }
        }
        for (id, at) in ended {
            self.execute("UPDATE strike SET lifted = ?2 WHERE id = ?1", [id, at])?;
        }
        if let Some(id) = in_force {
            self.execute("UPDATE strike SET lifted = NULL WHERE id = ?1", [id])?;
        }
        link_family(self.transaction, self.path, portion)
    }

    fn batch_line(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let Some(stamp) = integer(columns, "stamp") else {
            return Ok(Taken::Waits);
        };
        let batch = columns.get("batch").unwrap_or(&Value::Null);
        let Some(batch) = self.other(Other::Batch, batch)? else {
            return Ok(Taken::Waits);
        };
        let added = self.execute(
            "INSERT INTO batch_line (batch, line, at, what, about, stamp)
             SELECT ?1, (SELECT 1 + coalesce(max(line), -1) FROM batch_line WHERE batch = ?1),
                    ?2, ?3, ?4, ?5
             WHERE NOT EXISTS (SELECT 1 FROM batch_line WHERE stamp = ?5)",
            params![
                batch,
                integer(columns, "at"),
                text(columns, "what"),
                text(columns, "about"),
                stamp
            ],
        )?;
        self.batches.insert(batch);
        Ok(told(added))
    }

    /// Of two sayings the later counts, first and last order each by itself.
    fn service(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let day = text(columns, "day").unwrap_or_default().to_owned();
        let mut changed = self.execute(
            "INSERT INTO service (day) VALUES (?1) ON CONFLICT (day) DO NOTHING",
            [&day],
        )?;
        for (column, by) in [("first_order", "first_stamp"), ("last_order", "last_stamp")] {
            let (Some(at), Some(stamp)) = (integer(columns, column), integer(columns, by)) else {
                continue;
            };
            let there: (Option<i64>, Option<i64>) = self
                .transaction
                .query_row(
                    &format!("SELECT {column}, {by} FROM service WHERE day = ?1"),
                    [&day],
                    |row| Ok((row.get(0)?, row.get(1)?)),
                )
                .at(self.path)?;
            let (Some(was), Some(was_stamp)) = there else {
                changed += self.say_of_service(&day, (column, by), at, stamp)?;
                continue;
            };
            if (was, was_stamp) == (at, stamp) {
                continue;
            }
            let kind = format!("service-{column}");
            if (stamp, at) > (was_stamp, was) {
                self.overrule(&kind, &day, &was.into(), was_stamp)?;
                changed += self.say_of_service(&day, (column, by), at, stamp)?;
            } else {
                self.overrule(&kind, &day, &at.into(), stamp)?;
            }
        }
        Ok(told(changed))
    }

    /// Two desktops may say of one evening that it ended before it began: what came later is
    /// kept and does not count then.
    fn say_of_service(
        &mut self,
        day: &str,
        (column, by): (&str, &str),
        at: i64,
        stamp: i64,
    ) -> Result<usize, StoreError> {
        let said = self.execute(
            &format!("UPDATE OR IGNORE service SET {column} = ?2, {by} = ?3 WHERE day = ?1"),
            params![day, at, stamp],
        )?;
        if said == 0 {
            self.overrule(&format!("service-{column}"), day, &at.into(), stamp)?;
        }
        Ok(said)
    }

    /// Whether what is said of a name comes later than what is on record of it, of two at one
    /// moment the greater text. The other of the two is kept beside it, where it is another.
    fn counts_by_name(
        &mut self,
        (table, column): (&str, &str),
        name: &str,
        said: &str,
        stamp: i64,
    ) -> Result<bool, StoreError> {
        let there: Option<(String, i64)> = self
            .transaction
            .query_row(
                &format!("SELECT {column}, coalesce(stamp, 0) FROM {table} WHERE name = ?1"),
                [name],
                |row| Ok((row.get(0)?, row.get(1)?)),
            )
            .optional()
            .at(self.path)?;
        let Some((was, was_stamp)) = there else {
            return Ok(true);
        };
        let counts = (stamp, said) > (was_stamp, was.as_str());
        if was != said {
            let (other, of) = if counts {
                (was.as_str(), was_stamp)
            } else {
                (said, stamp)
            };
            self.overrule(table, name, &other.into(), of)?;
        }
        Ok(counts)
    }

    fn setting(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let (Some(name), Some(value), Some(stamp)) = (
            text(columns, "name"),
            text(columns, "value"),
            integer(columns, "stamp"),
        ) else {
            return Ok(Taken::Waits);
        };
        let mut meant = Map::new();
        for (dish, born) in columns
            .get("meant")
            .and_then(Value::as_object)
            .into_iter()
            .flatten()
        {
            match self.other(Other::Dish, born)? {
                Some(id) => meant.insert(dish.clone(), id.into()),
                None => return Ok(Taken::Waits),
            };
        }
        if !self.counts_by_name(("setting", "value"), name, value, stamp)? {
            return Ok(Taken::Known);
        }
        let set = "INSERT INTO setting (name, value, since, stamp) VALUES (?1, ?2, ?3, ?4)
             ON CONFLICT (name) DO UPDATE SET value = ?2, since = ?3, stamp = ?4";
        let since = integer(columns, "since").unwrap_or(0);
        self.execute(set, params![name, value, since, stamp])?;
        if name == PLATES {
            let meant = Value::Object(meant).to_string();
            self.execute(set, params![DISHES_OF_PLATES, meant, since, stamp])?;
        }
        Ok(Taken::New)
    }

    fn plain_file(&mut self, columns: &Columns) -> Result<Taken, StoreError> {
        let (Some(name), Some(said), Some(stamp)) = (
            text(columns, "name"),
            text(columns, "text"),
            integer(columns, "stamp"),
        ) else {
            return Ok(Taken::Waits);
        };
        if !self.counts_by_name(("plain_file", "text"), name, said, stamp)? {
            return Ok(Taken::Known);
        }
        self.execute(
            "INSERT INTO plain_file (name, text, since, stamp) VALUES (?1, ?2, ?3, ?4)
             ON CONFLICT (name) DO UPDATE SET text = ?2, since = ?3, stamp = ?4",
            params![
                name,
                said,
                integer(columns, "since").unwrap_or(self.now),
                stamp
            ],
        )?;
        Ok(Taken::New)
    }

    /// Settles what hangs on all lines together.
    pub(super) fn done(&mut self) -> Result<(), StoreError> {
        if std::mem::take(&mut self.dishes_named) {
            self.name_dishes()?;
        }
        Ok(())
    }
}

fn told(changed: usize) -> Taken {
    if changed > 0 {
        Taken::New
    } else {
        Taken::Known
    }
}

fn integer(columns: &Columns, name: &str) -> Option<i64> {
    columns.get(name).and_then(Value::as_i64)
}

fn text<'c>(columns: &'c Columns, name: &str) -> Option<&'c str> {
    columns.get(name).and_then(Value::as_str)
}

/// A value of a journal as a column.
fn column_of(value: &Value, holds: Holds) -> Column {
    match value {
        Value::String(text) if holds == Holds::Bytes => {
            let digits = text.as_bytes().chunks(2).map(|pair| {
                std::str::from_utf8(pair)
                    .ok()
                    .and_then(|pair| u8::from_str_radix(pair, 16).ok())
            });
            digits
                .collect::<Option<Vec<u8>>>()
                .map_or(Column::Null, Column::Blob)
        }
        Value::String(text) => Column::Text(text.clone()),
        Value::Number(number) => number.as_i64().map_or_else(
            || Column::Real(number.as_f64().unwrap_or(0.0)),
            Column::Integer,
        ),
        Value::Bool(truth) => Column::Integer(i64::from(*truth)),
        _ => Column::Null,
    }
}
