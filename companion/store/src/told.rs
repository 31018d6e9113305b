//! What was foretold of heat logs, and what came of it.

use super::columns::{Reads, time_to};
use super::{Sql, Store, StoreError, heat};
use evenhand_kitchen::heat::{Came, LogName, ToldInterval, ToldOf, When};
use evenhand_protocol::Temperature;
use jiff::Timestamp;
use rusqlite::{Row, params};

/// A told interval's number in this store.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ToldId(i64);

/// Of how many intervals that came or did not, how many held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct TrackRecord {
    /// How many were seen out.
    pub counted: usize,
    /// How many of them held.
    pub held: usize,
}

type Columns = (i64, i64, i32, bool, i64, i64, Option<i64>, bool);

fn columns(row: &Row<'_>) -> rusqlite::Result<Columns> {
    Ok((
        row.get(0)?,
        row.get(1)?,
        row.get(2)?,
        row.get(3)?,
        row.get(4)?,
        row.get(5)?,
        row.get(6)?,
        row.get(7)?,
    ))
}

impl Store {
    /// Puts a told interval on record.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatLog`], or where the store cannot be written.
    pub fn keep_told(&mut self, name: &LogName, told: &ToldInterval) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            let log = heat::known(transaction, path, name)?;
            transaction
                .execute(
                    "INSERT INTO heat_told (log, at, level, falling, early, likely, late, of_limit)
                     VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
                    params![
                        log.number(),
                        time_to(told.at),
                        told.level.millicelsius(),
                        told.falling,
                        time_to(told.when.early),
                        time_to(told.when.likely),
                        told.when.late.map(time_to),
                        told.of == ToldOf::Limit,
                    ],
                )
                .at(path)?;
            Ok(())
        })
    }

    /// The last interval told of a log and a band, or of a log and this level of
    /// a limit, whatever came of it.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatLog`], or where the store cannot be read.
    pub fn last_told(
        &self,
        name: &LogName,
        of: ToldOf,
        level: Temperature,
    ) -> Result<Option<ToldInterval>, StoreError> {
        let which = match of {
            ToldOf::Band => String::from("AND of_limit = 0"),
            ToldOf::Limit => format!("AND of_limit = 1 AND level = {}", level.millicelsius()),
        };
        Ok(self
            .told(name, &format!("{which} ORDER BY stamp DESC LIMIT 1"))?
            .pop()
            .map(|(_, told)| told))
    }

    /// The intervals of a log of which nothing is known yet, oldest first.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatLog`], or where the store cannot be read.
    pub fn open_told(&self, name: &LogName) -> Result<Vec<(ToldId, ToldInterval)>, StoreError> {
        self.told(
            name,
            "AND NOT EXISTS (SELECT 1 FROM heat_came WHERE told = heat_told.id) ORDER BY stamp",
        )
    }

    fn told(&self, name: &LogName, which: &str) -> Result<Vec<(ToldId, ToldInterval)>, StoreError> {
        let log = heat::known(&self.connection, &self.path, name)?;
        let reads = Reads(&self.path);
        self.connection
            .prepare_cached(&format!(
                "SELECT id, at, level, falling, early, likely, late, of_limit FROM heat_told
                 WHERE log = ?1 {which}"
            ))
            .and_then(|mut select| {
                select
                    .query_map([log.number()], columns)?
                    .collect::<rusqlite::Result<Vec<_>>>()
            })
            .map_err(|error| self.sql(error))?
            .into_iter()
            .map(|(id, at, level, falling, early, likely, late, of_limit)| {
                let told = ToldInterval {
                    of: if of_limit {
                        ToldOf::Limit
                    } else {
                        ToldOf::Band
                    },
                    at: reads.time(at)?,
                    level: Temperature::from_millicelsius(level),
                    falling,
                    when: When {
                        early: reads.time(early)?,
                        likely: reads.time(likely)?,
                        late: reads.time_or_none(late)?,
                    },
                };
                Ok((ToldId(id), told))
            })
            .collect()
    }

    /// Says what came of a told interval; the first word stands.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn told_came(&mut self, id: ToldId, came: Came, now: Timestamp) -> Result<(), StoreError> {
        let came = match came {
            Came::Missed => 0,
            Came::Held => 1,
            Came::NotCounted => 2,
        };
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO heat_came (told, came, at) VALUES (?1, ?2, ?3)
                     ON CONFLICT (told) DO NOTHING",
                    params![id.0, came, time_to(now)],
                )
                .at(path)?;
            Ok(())
        })
    }

    /// How many of the last intervals of a kind that were seen out held, at most
    /// so many of them, whatever the log.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn track_record(&self, of: ToldOf, most: u32) -> Result<TrackRecord, StoreError> {
        let (counted, held): (i64, Option<i64>) = self
            .connection
            .prepare_cached(
                "SELECT count(*), sum(came) FROM
                 (SELECT came FROM heat_came JOIN heat_told ON heat_told.id = heat_came.told
                  WHERE came < 2 AND of_limit = ?1 ORDER BY heat_told.stamp DESC LIMIT ?2)",
            )
            .and_then(|mut select| {
                select.query_row(params![of == ToldOf::Limit, most], |row| {
                    Ok((row.get(0)?, row.get(1)?))
                })
            })
            .map_err(|error| self.sql(error))?;
        let whole = |n: i64| usize::try_from(n).unwrap_or(0);
        Ok(TrackRecord {
            counted: whole(counted),
            held: whole(held.unwrap_or(0)),
        })
    }
}
