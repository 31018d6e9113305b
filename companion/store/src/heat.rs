//! Heat logs on record.

use super::columns::{Reads, from_json, time_to};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::heat::{
    Aim, Amendment, Correction, HeatLog, Kept, LogError, LogName, LogPoint, Marker,
};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};
use rusqlite::{Connection, OptionalExtension, params};
use std::path::Path;

/// A heat log's number in this store.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct HeatLogId(i64);

impl HeatLogId {
    pub(super) const fn number(self) -> i64 {
        self.0
    }
}

/// A heat log in the list of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListedHeatLog {
    /// Its number.
    pub id: HeatLogId,
    /// What it is of.
    pub name: LogName,
    /// The longest step between readings that is no gap.
    pub longest_step: SignedDuration,
    /// The last reading, as recorded.
    pub last: Option<LogPoint>,
    /// What it is watched for.
    pub aim: Option<Aim>,
}

/// A correction on record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordedCorrection {
    /// Its number.
    pub id: i64,
    /// What it says.
    pub correction: Correction,
    /// When it was added.
    pub recorded: Timestamp,
    /// When it was lifted, if it was.
    pub lifted: Option<Timestamp>,
}

/// A stretch of a heat log with everything on record about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredHeat {
    /// As it was measured.
    pub recorded: HeatLog,
    /// Every correction, also lifted ones, in the order added.
    pub corrections: Vec<RecordedCorrection>,
}

impl StoredHeat {
    /// The log with the corrections in force.
    #[must_use]
    pub fn corrected(&self) -> HeatLog {
        let in_force: Vec<Correction> = self
            .corrections
            .iter()
            .filter(|c| c.lifted.is_none())
            .map(|c| c.correction.clone())
            .collect();
        self.recorded.corrected(&in_force)
    }
}

impl Store {
    /// The log of a name, begun where there is none. `longest_step` is for a
    /// new one; one that is there keeps its own.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn open_heat_log(
        &mut self,
        name: &LogName,
        longest_step: SignedDuration,
        at: Timestamp,
    ) -> Result<HeatLogId, StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO heat_log (name, key, longest_step, begun) VALUES (?1, ?2, ?3, ?4)
                     ON CONFLICT (key) DO NOTHING",
                    params![
                        name.as_str(),
                        name.key(),
                        longest_step.as_millis() as i64,
                        time_to(at)
                    ],
                )
                .at(path)?;
            known(transaction, path, name)
        })
    }

    /// Every heat log, the one read last first.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn heat_logs(&self) -> Result<Vec<ListedHeatLog>, StoreError> {
        let rows = self
            .connection
            .prepare_cached(
                "SELECT l.id, l.name, l.longest_step, r.at, r.temperature,
                        (SELECT aim FROM heat_aim WHERE log = l.id ORDER BY stamp DESC LIMIT 1)
                 FROM heat_log l
                 LEFT JOIN heat_reading r ON r.log = l.id
                      AND r.at = (SELECT max(at) FROM heat_reading WHERE log = l.id)
                 ORDER BY r.at DESC, l.begun DESC, l.key",
            )
            .and_then(|mut select| {
                select
                    .query_map([], |row| {
                        Ok((
                            row.get::<_, i64>(0)?,
                            row.get::<_, String>(1)?,
                            row.get::<_, i64>(2)?,
                            row.get::<_, Option<i64>>(3)?,
                            row.get::<_, Option<i32>>(4)?,
                            row.get::<_, Option<String>>(5)?,
                        ))
                    })?
                    .collect::<rusqlite::Result<Vec<_>>>()
            })
            .map_err(|error| self.sql(error))?;
        let reads = Reads(&self.path);
        rows.into_iter()
            .map(|(id, name, step, at, temperature, aim)| {
                let last = match at.zip(temperature) {
                    Some((at, temperature)) => Some(LogPoint {
                        at: reads.time(at)?,
                        temperature: Temperature::from_millicelsius(temperature),
                    }),
                    None => None,
                };
                let aim = aim
                    .map(|text| from_json(&text).map_err(|_| reads.senseless("heat log's aim")))
                    .transpose()?;
                Ok(ListedHeatLog {
                    id: HeatLogId(id),
                    name: LogName::new("name", &name)
                        .map_err(|_| reads.senseless("heat log's name"))?,
                    longest_step: SignedDuration::from_millis(step),
                    last,
                    aim,
                })
            })
            .collect()
    }

    /// Puts readings on record, all of them or none.
    ///
    /// # Errors
    /// [`StoreError::Heat`] where one lies at or before the log's last reading
    /// and is not that reading itself, or where the store cannot be written.
    pub fn keep_heat(&mut self, log: HeatLogId, readings: &[Kept]) -> Result<(), StoreError> {
        if readings.is_empty() {
            return Ok(());
        }
        self.write(|transaction, path| {
            let mut last = last(transaction, path, log)?;
            for kept in readings {
                let point = kept.point;
                let at = time_to(point.at);
                if let Some(before) = last {
                    if before == point {
                        continue;
                    }
                    if time_to(before.at) >= at {
                        return Err(StoreError::Heat(LogError::Backward {
                            at: point.at,
                            before: before.at,
                        }));
                    }
                }
                insert(transaction, path, log, point, kept.after_gap)?;
                last = Some(point);
            }
            Ok(())
        })
    }

    /// Puts a whole log from elsewhere on record, also one from before the
    /// readings that are there. Returns how many readings were new.
    ///
    /// # Errors
    /// [`StoreError::HeatOverlaps`] where other readings lie within its
    /// stretch, or where the store cannot be written.
    pub fn import_heat(&mut self, id: HeatLogId, log: &HeatLog) -> Result<usize, StoreError> {
        self.write(|transaction, path| {
            let (Some(first), Some(end)) = (log.points().first(), log.points().last()) else {
                return Ok(0);
            };
            let mut there = read_points(transaction, path, id, first.at, end.at)?;
            let mut added = 0;
            for point in log.points() {
                let rounded = Reads(path).time(time_to(point.at))?;
                if let Some(place) = there
                    .iter()
                    .position(|(p, _)| p.at == rounded && p.temperature == point.temperature)
                {
                    there.remove(place);
                    continue;
                }
                if let Some((other, _)) = there.iter().find(|(p, _)| p.at == rounded) {
                    return Err(StoreError::HeatOverlaps { at: other.at });
                }
                let after_gap = log.follows_break(point) || point.at == first.at;
                insert(transaction, path, id, *point, after_gap)?;
                added += 1;
            }
            match there.first() {
                Some((other, _)) if added > 0 => Err(StoreError::HeatOverlaps { at: other.at }),
                _ => Ok(added),
            }
        })
    }

    /// A log from one moment up to another, that included.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatLog`], or where the store cannot be read.
    pub fn heat_log(
        &self,
        name: &LogName,
        from: Timestamp,
        to: Timestamp,
    ) -> Result<StoredHeat, StoreError> {
        let id = known(&self.connection, &self.path, name)?;
        let step: i64 = self
            .connection
            .query_row(
                "SELECT longest_step FROM heat_log WHERE id = ?1",
                [id.0],
                |row| row.get(0),
            )
            .map_err(|error| self.sql(error))?;
        let mut log = HeatLog::new(name.as_str());
        log.longest_step = SignedDuration::from_millis(step);
        let reads = Reads(&self.path);
        for (point, after_gap) in read_points(&self.connection, &self.path, id, from, to)? {
            if after_gap {
                log.break_here();
            }
            log.push(point)
                .map_err(|_| reads.senseless("heat reading"))?;
        }
        log.markers = self.markers(id, from, to)?;
        Ok(StoredHeat {
            recorded: log,
            corrections: self.corrections(id)?,
        })
    }

    fn markers(
        &self,
        id: HeatLogId,
        from: Timestamp,
        to: Timestamp,
    ) -> Result<Vec<Marker>, StoreError> {
        self.connection
            .prepare_cached(
                "SELECT at, words FROM heat_marker
                 WHERE log = ?1 AND at BETWEEN ?2 AND ?3 ORDER BY at, stamp",
            )
            .and_then(|mut select| {
                select
                    .query_map([id.0, time_to(from), time_to(to)], |row| {
                        Ok((row.get(0)?, row.get(1)?))
                    })?
                    .collect::<rusqlite::Result<Vec<(i64, String)>>>()
            })
            .map_err(|error| self.sql(error))?
            .into_iter()
            .map(|(at, text)| {
                Ok(Marker {
                    at: Reads(&self.path).time(at)?,
                    text,
                })
            })
            .collect()
    }

    fn corrections(&self, id: HeatLogId) -> Result<Vec<RecordedCorrection>, StoreError> {
        type Row = (i64, i64, i64, Option<i32>, String, i64, Option<i64>);
        let rows: Vec<Row> = self
            .connection
            .prepare_cached(
                "SELECT id, since, until, difference, reason, recorded, lifted
                 FROM heat_correction WHERE log = ?1 ORDER BY stamp",
            )
            .and_then(|mut select| {
                select
                    .query_map([id.0], |row| {
                        Ok((
                            row.get(0)?,
                            row.get(1)?,
                            row.get(2)?,
                            row.get(3)?,
                            row.get(4)?,
                            row.get(5)?,
                            row.get(6)?,
                        ))
                    })?
                    .collect()
            })
            .map_err(|error| self.sql(error))?;
        let reads = Reads(&self.path);
        rows.into_iter()
            .map(|(id, since, until, difference, reason, recorded, lifted)| {
                let what = difference.map_or(Amendment::LeaveOut, |by| {
                    Amendment::Add(Temperature::from_millicelsius(by))
                });
                let correction =
                    Correction::new(reads.time(since)?, reads.time(until)?, what, &reason)
                        .map_err(|_| reads.senseless("heat correction"))?;
                Ok(RecordedCorrection {
                    id,
                    correction,
                    recorded: reads.time(recorded)?,
                    lifted: reads.time_or_none(lifted)?,
                })
            })
            .collect()
    }

    /// Puts a word at a moment of a log.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatLog`], or where the store cannot be written.
    pub fn mark_heat(
        &mut self,
        name: &LogName,
        marker: &Marker,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            let id = known(transaction, path, name)?;
            transaction
                .execute(
                    "INSERT INTO heat_marker (log, at, words, recorded) VALUES (?1, ?2, ?3, ?4)",
                    params![id.0, time_to(marker.at), marker.text, time_to(now)],
                )
                .at(path)?;
            Ok(())
        })
    }

    /// Adds a correction to a log; returns its number.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatLog`], or where the store cannot be written.
    pub fn correct_heat(
        &mut self,
        name: &LogName,
        correction: &Correction,
        now: Timestamp,
    ) -> Result<i64, StoreError> {
        self.write(|transaction, path| {
            let id = known(transaction, path, name)?;
            let difference = match correction.what {
                Amendment::LeaveOut => None,
                Amendment::Add(by) => Some(by.millicelsius()),
            };
            transaction
                .execute(
                    "INSERT INTO heat_correction (log, since, until, difference, reason, recorded)
                     VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
                    params![
                        id.0,
                        time_to(correction.from),
                        time_to(correction.to),
                        difference,
                        correction.reason,
                        time_to(now)
                    ],
                )
                .at(path)?;
            Ok(transaction.last_insert_rowid())
        })
    }

    /// Lifts a correction: it stays on record and counts no more.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatCorrection`], or where the store cannot be
    /// written.
    pub fn lift_heat_correction(&mut self, id: i64, now: Timestamp) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            let lifted = transaction
                .execute(
                    "UPDATE heat_correction SET lifted = ?2 WHERE id = ?1 AND lifted IS NULL",
                    [id, time_to(now)],
                )
                .at(path)?;
            if lifted == 0 {
                return Err(StoreError::UnknownHeatCorrection(id));
            }
            Ok(())
        })
    }

    /// Says what a log is watched for from now on.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatLog`], or where the store cannot be written.
    pub fn aim_heat(
        &mut self,
        name: &LogName,
        aim: &Aim,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            let id = known(transaction, path, name)?;
            let text =
                serde_json::to_string(aim).map_err(|_| Reads(path).senseless("heat log's aim"))?;
            transaction
                .execute(
                    "INSERT INTO heat_aim (log, since, aim) VALUES (?1, ?2, ?3)",
                    params![id.0, time_to(now), text],
                )
                .at(path)?;
            Ok(())
        })
    }

    /// What a log is watched for.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatLog`], or where the store cannot be read.
    pub fn heat_aim(&self, name: &LogName) -> Result<Option<Aim>, StoreError> {
        let id = known(&self.connection, &self.path, name)?;
        Ok(self
            .heat_logs()?
            .into_iter()
            .find(|log| log.id == id)
            .and_then(|log| log.aim))
    }
}

pub(super) fn known(
    connection: &Connection,
    path: &Path,
    name: &LogName,
) -> Result<HeatLogId, StoreError> {
    let id = connection
        .query_row(
            "SELECT id FROM heat_log WHERE key = ?1",
            [name.key()],
            |row| row.get(0).map(HeatLogId),
        )
        .optional()
        .at(path)?;
    match id {
        Some(id) => Ok(id),
        None => Err(StoreError::UnknownHeatLog {
            name: name.to_string(),
            known: connection
                .prepare("SELECT name FROM heat_log ORDER BY key")
                .and_then(|mut select| {
                    select
                        .query_map([], |row| row.get(0))?
                        .collect::<rusqlite::Result<_>>()
                })
                .at(path)?,
        }),
    }
}

fn last(
    connection: &Connection,
    path: &Path,
    log: HeatLogId,
) -> Result<Option<LogPoint>, StoreError> {
    let row: Option<(i64, i32)> = connection
        .prepare_cached(
            "SELECT at, temperature FROM heat_reading WHERE log = ?1 ORDER BY at DESC LIMIT 1",
        )
        .and_then(|mut select| {
            select
                .query_row([log.0], |row| Ok((row.get(0)?, row.get(1)?)))
                .optional()
        })
        .at(path)?;
    row.map(|(at, temperature)| {
        Ok(LogPoint {
            at: Reads(path).time(at)?,
            temperature: Temperature::from_millicelsius(temperature),
        })
    })
    .transpose()
}

fn insert(
    connection: &Connection,
    path: &Path,
    log: HeatLogId,
    point: LogPoint,
    after_gap: bool,
) -> Result<(), StoreError> {
    connection
        .prepare_cached(
            "INSERT INTO heat_reading (log, at, temperature, after_gap) VALUES (?1, ?2, ?3, ?4)",
        )
        .and_then(|mut insert| {
            insert.execute(params![
                log.0,
                time_to(point.at),
                point.temperature.millicelsius(),
                after_gap
            ])
        })
        .at(path)?;
    Ok(())
}

fn read_points(
    connection: &Connection,
    path: &Path,
    log: HeatLogId,
    from: Timestamp,
    to: Timestamp,
) -> Result<Vec<(LogPoint, bool)>, StoreError> {
    connection
        .prepare_cached(
            "SELECT at, temperature, after_gap FROM heat_reading
             WHERE log = ?1 AND at BETWEEN ?2 AND ?3 ORDER BY at",
        )
        .and_then(|mut select| {
            select
                .query_map([log.0, time_to(from), time_to(to)], |row| {
                    Ok((row.get(0)?, row.get(1)?, row.get(2)?))
                })?
                .collect::<rusqlite::Result<Vec<(i64, i32, bool)>>>()
        })
        .at(path)?
        .into_iter()
        .map(|(at, temperature, after_gap)| {
            let point = LogPoint {
                at: Reads(path).time(at)?,
                temperature: Temperature::from_millicelsius(temperature),
            };
            Ok((point, after_gap))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::DataFolder;

    fn store(folder: &Path) -> Store {
        Store::open(&DataFolder::choose(Some(folder)).unwrap()).unwrap()
    }

    fn at(seconds: i64) -> Timestamp {
        Timestamp::from_second(1_800_000_000 + seconds).unwrap()
    }

    fn kept(seconds: i64, celsius: i32, after_gap: bool) -> Kept {
        Kept {
            point: LogPoint {
                at: at(seconds),
                temperature: Temperature::from_millicelsius(celsius * 1_000),
            },
            after_gap,
        }
    }

    fn oven() -> LogName {
        LogName::new("name", "Oven").unwrap()
    }

    #[test]
    fn a_log_comes_back_after_closing_with_its_gaps_markers_and_corrections() {
        let folder = tempfile::tempdir().unwrap();
        {
            let mut store = store(folder.path());
            let id = store
                .open_heat_log(&oven(), HeatLog::USUAL_STEP, at(0))
                .unwrap();
            store
                .keep_heat(id, &[kept(0, 280, false), kept(60, 270, true)])
                .unwrap();
            // The same reading again, after a restart, is one.
            store.keep_heat(id, &[kept(60, 270, false)]).unwrap();
            let marker = Marker {
                at: at(30),
                text: "fire out".to_owned(),
            };
            store.mark_heat(&oven(), &marker, at(31)).unwrap();
            let correction = Correction::new(at(60), at(60), Amendment::LeaveOut, "lid").unwrap();
            store.correct_heat(&oven(), &correction, at(99)).unwrap();
            let aim = Aim::limit_of("cooling".to_owned(), None);
            store.aim_heat(&oven(), &aim, at(99)).unwrap();
        }
        let mut store = store(folder.path());
        let name = LogName::new("name", "OVEN").unwrap();
        let stored = store
            .heat_log(&name, Timestamp::MIN, Timestamp::MAX)
            .unwrap();
        assert_eq!(stored.recorded.points().len(), 2);
        assert_eq!(stored.recorded.gaps().len(), 1);
        assert_eq!(stored.recorded.markers.len(), 1);
        assert_eq!(stored.corrected().points().len(), 1);
        assert_eq!(
            store.heat_aim(&name).unwrap().unwrap().limit.as_deref(),
            Some("cooling")
        );
        store
            .lift_heat_correction(stored.corrections[0].id, at(100))
            .unwrap();
        assert!(
            store
                .lift_heat_correction(stored.corrections[0].id, at(100))
                .is_err()
        );
        let stored = store
            .heat_log(&name, Timestamp::MIN, Timestamp::MAX)
            .unwrap();
        assert_eq!(stored.corrected().points().len(), 2);
        assert_eq!(
            stored.corrections.len(),
            1,
            "a lifted correction stays on record"
        );
        assert_eq!(store.heat_logs().unwrap()[0].last.unwrap().at, at(60));
    }

    #[test]
    fn readings_only_go_on_and_are_never_rewritten() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = store(folder.path());
        let id = store
            .open_heat_log(&oven(), HeatLog::USUAL_STEP, at(0))
            .unwrap();
        store.keep_heat(id, &[kept(60, 280, false)]).unwrap();
        let error = store.keep_heat(id, &[kept(90, 279, false), kept(30, 281, false)]);
        assert!(matches!(
            error,
            Err(StoreError::Heat(LogError::Backward { .. }))
        ));
        let all = store
            .heat_log(&oven(), Timestamp::MIN, Timestamp::MAX)
            .unwrap();
        assert_eq!(all.recorded.points().len(), 1, "all of them or none");
        for sql in [
            "DELETE FROM heat_reading",
            "UPDATE heat_reading SET temperature = 0",
        ] {
            let error = store.connection.execute(sql, []).unwrap_err();
            assert!(error.to_string().contains("never"), "{error}");
        }
    }

    #[test]
    fn a_log_from_elsewhere_may_be_older_but_not_between() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = store(folder.path());
        let id = store
            .open_heat_log(&oven(), HeatLog::USUAL_STEP, at(0))
            .unwrap();
        store.keep_heat(id, &[kept(1_000, 280, false)]).unwrap();
        let log = |points: &[i64]| {
            let mut log = HeatLog::new("oven");
            for seconds in points {
                log.push(kept(*seconds, 200, false).point).unwrap();
            }
            log
        };
        assert_eq!(store.import_heat(id, &log(&[0, 60])).unwrap(), 2);
        assert_eq!(
            store.import_heat(id, &log(&[0, 60])).unwrap(),
            0,
            "the same again"
        );
        let error = store.import_heat(id, &log(&[900, 1_100]));
        assert!(
            matches!(error, Err(StoreError::HeatOverlaps { .. })),
            "{error:?}"
        );
        assert_eq!(
            store
                .heat_log(&oven(), Timestamp::MIN, Timestamp::MAX)
                .unwrap()
                .recorded
                .points()
                .len(),
            3
        );
        assert!(matches!(
            store.heat_log(&LogName::new("n", "pan").unwrap(), at(0), at(1)),
            Err(StoreError::UnknownHeatLog { .. })
        ));
    }
}
