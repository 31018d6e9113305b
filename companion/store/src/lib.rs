//! The store: every portion, run, dish, tin, batch and vessel, in one SQLite file.
//!
//! A portion is recorded in one transaction and once, by its identity, and is
//! on the disk when the call returns. Nothing recorded is rewritten or
//! deleted: a portion is corrected by a later one or struck out with a reason.
//! Nobody else knows SQL.
#![forbid(unsafe_code)]

mod backup;
mod batches;
mod columns;
mod dishes;
mod dots;
mod error;
mod heat;
mod imports;
mod instruments;
mod location;
mod melt;
mod migrate;
mod portions;
mod prep;
mod record;
mod runs;
mod scale;
mod services;
mod strikes;
mod tallies;
mod tins;
mod vessels;
mod yields;

#[cfg(test)]
mod tests;

pub use backup::{Restored, restore};
pub use error::StoreError;
pub use heat::{HeatLogId, ListedHeatLog, RecordedCorrection, StoredHeat};
pub use imports::Imported;
pub use instruments::{ClockStep, KnownInstrument};
pub use location::DataFolder;
pub use portions::Query;
pub use record::{Recorded, RefusedPortion};
pub use runs::NewRun;
pub use scale::{InstrumentMoment, RecordedCalibration, RecordedTest};
pub use tallies::Tally;
pub use tins::NewTin;
pub use yields::YieldLine;

use rusqlite::{Connection, Transaction, TransactionBehavior};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// How long to wait for another program that is writing.
const PATIENCE: Duration = Duration::from_secs(5);

/// An open store. Several may be open on one file, in one program or in
/// several; whoever writes has it alone for that moment.
#[derive(Debug)]
pub struct Store {
    connection: Connection,
    path: PathBuf,
}

impl Store {
    /// Opens the store in a folder, making both where they are not there, and
    /// brings an older layout up to date.
    ///
    /// # Errors
    /// Where the folder or the file cannot be used, is not ours, or was
    /// written by a newer program.
    pub fn open(folder: &DataFolder) -> Result<Self, StoreError> {
        folder.make()?;
        let path = folder.file();
        let sql = |error: rusqlite::Error| StoreError::from_sqlite(&path, &error);
        let mut connection = Connection::open(&path).map_err(sql)?;
        connection.busy_timeout(PATIENCE).map_err(sql)?;
        migrate::migrate(&mut connection, &path)?;
        connection
            .pragma_update(None, "journal_mode", "WAL")
            .map_err(sql)?;
        // On the disk when it says so, also when the power goes the next moment.
        connection
            .pragma_update(None, "synchronous", "FULL")
            .map_err(sql)?;
        connection
            .pragma_update(None, "foreign_keys", true)
            .map_err(sql)?;
        Ok(Self { connection, path })
    }

    /// The store's file.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    fn sql(&self, error: rusqlite::Error) -> StoreError {
        StoreError::from_sqlite(&self.path, &error)
    }

    /// Does `work` in one transaction that takes the write lock at once, so
    /// that it waits for another writer instead of failing half way.
    fn write<T>(
        &mut self,
        work: impl FnOnce(&Transaction<'_>, &Path) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let path = self.path.clone();
        let sql = |error: rusqlite::Error| StoreError::from_sqlite(&path, &error);
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(sql)?;
        let done = work(&transaction, &path)?;
        transaction.commit().map_err(sql)?;
        Ok(done)
    }
}

/// Turns SQLite's errors within a transaction into the store's.
trait Sql<T> {
    fn at(self, path: &Path) -> Result<T, StoreError>;
}

impl<T> Sql<T> for rusqlite::Result<T> {
    fn at(self, path: &Path) -> Result<T, StoreError> {
        self.map_err(|error| StoreError::from_sqlite(path, &error))
    }
}
