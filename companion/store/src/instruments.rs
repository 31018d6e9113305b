//! The instruments this store has met, and the wall's clock.

use super::columns::{Reads, device_from, device_to, time_to};
use super::{Sql, Store, StoreError, record};
use evenhand_protocol::{DeviceId, Hello};
use jiff::{SignedDuration, Timestamp};
use rusqlite::params;

/// That the wall's clock stepped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ClockStep {
    /// The time it showed after the step.
    pub at: Timestamp,
    /// By how much; negative where it went back.
    pub by: SignedDuration,
}

/// An instrument that this store has met.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct KnownInstrument {
    /// Which it is.
    pub device: DeviceId,
    /// When it was met first.
    pub first_seen: Timestamp,
    /// When it was met last.
    pub last_seen: Timestamp,
}

impl Store {
    /// The instruments met, the latest first.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn instruments(&self) -> Result<Vec<KnownInstrument>, StoreError> {
        let mut select = self
            .connection
            .prepare("SELECT device, first_seen, last_seen FROM instrument ORDER BY last_seen DESC")
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([], |row| {
                Ok((
                    row.get::<_, i64>(0)?,
                    row.get::<_, i64>(1)?,
                    row.get::<_, i64>(2)?,
                ))
            })
            .map_err(|error| self.sql(error))?;
        rows.map(|row| {
            let (device, first, last) = row.map_err(|error| self.sql(error))?;
            Ok(KnownInstrument {
                device: device_from(device),
                first_seen: Reads(&self.path).time(first)?,
                last_seen: Reads(&self.path).time(last)?,
            })
        })
        .collect()
    }

    /// Notes what an instrument says of itself.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn meet(&mut self, hello: &Hello, at: Timestamp) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO instrument (device, first_seen, last_seen, capabilities, capacity, interval)
                     VALUES (?1, ?2, ?2, ?3, ?4, ?5)
                     ON CONFLICT (device) DO UPDATE SET
                         last_seen = max(last_seen, excluded.last_seen),
                         capabilities = excluded.capabilities,
                         capacity = excluded.capacity,
                         interval = excluded.interval",
                    params![
                        device_to(hello.device),
                        time_to(at),
                        i64::from(hello.capabilities.0),
                        hello.capacity.micrograms(),
                        hello.interval.micrograms(),
                    ],
                )
                .at(path)?;
            Ok(())
        })
    }

    /// Notes that the wall's clock stepped.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn note_clock_step(&mut self, step: ClockStep) -> Result<(), StoreError> {
        self.write(|transaction, path| record::note_step(transaction, path, step.at, step.by))
    }

    /// Every step of the wall's clock that was noticed, in the order noticed.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn clock_steps(&self) -> Result<Vec<ClockStep>, StoreError> {
        let mut select = self
            .connection
            .prepare("SELECT at, by FROM clock_step ORDER BY stamp")
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([], |row| Ok((row.get::<_, i64>(0)?, row.get::<_, i64>(1)?)))
            .map_err(|error| self.sql(error))?;
        rows.map(|row| {
            let (at, by) = row.map_err(|error| self.sql(error))?;
            Ok(ClockStep {
                at: Reads(&self.path).time(at)?,
                by: SignedDuration::from_millis(by),
            })
        })
        .collect()
    }
}
