//! What was found with known weights.

use super::columns::{Reads, device_from, device_to, time_to};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::service::{Found, ScaleFinding};
use evenhand_protocol::{CalibrationMade, DeviceId, Epoch, Mass, SelfTest, Uptime};
use jiff::Timestamp;
use rusqlite::{Row, params};

/// A test with a known weight, on record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RecordedTest {
    /// The scale.
    pub device: DeviceId,
    /// When.
    pub time: Timestamp,
    /// What it found.
    pub test: SelfTest,
}

/// A calibration, on record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RecordedCalibration {
    /// The scale.
    pub device: DeviceId,
    /// When.
    pub time: Timestamp,
    /// What it came to.
    pub made: CalibrationMade,
}

/// A moment of one start of one instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InstrumentMoment {
    /// The instrument.
    pub device: DeviceId,
    /// Its start.
    pub epoch: Epoch,
    /// The moment.
    pub at: Uptime,
}

impl InstrumentMoment {
    fn uptime(&self) -> i64 {
        i64::try_from(self.at.millis()).unwrap_or(i64::MAX)
    }
}

impl Store {
    /// Puts a test on record, once however often it is told. Returns whether
    /// it was new.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn record_test(
        &mut self,
        of: InstrumentMoment,
        test: &SelfTest,
        time: Timestamp,
    ) -> Result<bool, StoreError> {
        self.write(|transaction, path| {
            let rows = transaction
                .execute(
                    "INSERT OR IGNORE INTO scale_test
                         (device, epoch, uptime, time, known, indicated, permissible, uncertainty)
                     VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
                    params![
                        device_to(of.device),
                        i64::from(of.epoch.0),
                        of.uptime(),
                        time_to(time),
                        test.known.micrograms(),
                        test.indicated.micrograms(),
                        test.limit.micrograms(),
                        test.uncertainty.micrograms(),
                    ],
                )
                .at(path)?;
            Ok(rows > 0)
        })
    }

    /// Puts a calibration on record, once however often it is told. Returns
    /// whether it was new.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn record_calibration(
        &mut self,
        of: InstrumentMoment,
        made: &CalibrationMade,
        time: Timestamp,
    ) -> Result<bool, StoreError> {
        self.write(|transaction, path| {
            let rows = transaction
                .execute(
                    "INSERT OR IGNORE INTO scale_calibration
                         (device, epoch, uptime, time, points, per_gram, heaviest, nonlinearity,
                          residual, uncertainty)
                     VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
                    params![
                        device_to(of.device),
                        i64::from(of.epoch.0),
                        of.uptime(),
                        time_to(time),
                        i64::from(made.points),
                        made.millicounts_per_gram,
                        made.heaviest.micrograms(),
                        made.nonlinearity.micrograms(),
                        made.residual.micrograms(),
                        made.uncertainty.micrograms(),
                    ],
                )
                .at(path)?;
            Ok(rows > 0)
        })
    }

    /// The tests on record, in the order in which they were made.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn scale_tests(&self) -> Result<Vec<RecordedTest>, StoreError> {
        let tests = self.dated(
            "SELECT device, time, known, indicated, permissible, uncertainty
             FROM scale_test ORDER BY time, device, epoch, uptime",
            |row| {
                let mass = |column| row.get(column).map(Mass::from_micrograms);
                Ok(SelfTest {
                    known: mass(2)?,
                    indicated: mass(3)?,
                    limit: mass(4)?,
                    uncertainty: mass(5)?,
                })
            },
        )?;
        Ok(tests
            .into_iter()
            .map(|(device, time, test)| RecordedTest { device, time, test })
            .collect())
    }

    /// The calibrations on record, in the order in which they were made.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn scale_calibrations(&self) -> Result<Vec<RecordedCalibration>, StoreError> {
        let made = self.dated(
            "SELECT device, time, points, per_gram, heaviest, nonlinearity, residual, uncertainty
             FROM scale_calibration ORDER BY time, device, epoch, uptime",
            |row| {
                let mass = |column| row.get(column).map(Mass::from_micrograms);
                Ok(CalibrationMade {
                    points: row.get(2)?,
                    millicounts_per_gram: row.get(3)?,
                    heaviest: mass(4)?,
                    nonlinearity: mass(5)?,
                    residual: mass(6)?,
                    uncertainty: mass(7)?,
                })
            },
        )?;
        Ok(made
            .into_iter()
            .map(|(device, time, made)| RecordedCalibration { device, time, made })
            .collect())
    }

    /// Tests and calibrations together, in order of time.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn scale_findings(&self) -> Result<Vec<ScaleFinding>, StoreError> {
        let tests = self.scale_tests()?.into_iter().map(|test| ScaleFinding {
            device: test.device,
            time: test.time,
            found: Found::Test(test.test),
        });
        let calibrations = self
            .scale_calibrations()?
            .into_iter()
            .map(|made| ScaleFinding {
                device: made.device,
                time: made.time,
                found: Found::Calibration,
            });
        let mut findings: Vec<_> = tests.chain(calibrations).collect();
        findings.sort_by_key(|finding| finding.time);
        Ok(findings)
    }

    /// Rows that begin with a device and a time, and what `read` makes of the
    /// rest of each.
    fn dated<T>(
        &self,
        select: &str,
        read: impl Fn(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Vec<(DeviceId, Timestamp, T)>, StoreError> {
        let mut select = self
            .connection
            .prepare(select)
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?, read(row)?)))
            .map_err(|error| self.sql(error))?;
        rows.map(|row| {
            let (device, time, rest) = row.map_err(|error| self.sql(error))?;
            let time = Reads(&self.path).time(time)?;
            Ok((device_from(device), time, rest))
        })
        .collect()
    }
}
