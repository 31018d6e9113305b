//! The store: every portion, run, dish, tin, batch and vessel, in one SQLite file.
//!
//! A portion is recorded in one transaction and once, by its identity, and is
//! on the disk when the call returns. Nothing recorded is rewritten or
//! deleted: a portion is corrected by a later one or struck out with a reason.
//! Nobody else knows SQL.
#![forbid(unsafe_code)]

mod backup;
mod batches;
mod checksum;
mod columns;
mod corrections;
mod costs;
mod dishes;
mod dots;
mod error;
mod examination;
mod file_identity;
mod gather;
mod gone_out;
mod goods;
mod hash_chain;
mod heat;
mod imports;
mod instruments;
mod location;
mod melt;
mod migrate;
mod pictures;
mod portions;
mod prep;
mod record;
mod runs;
mod scale;
mod services;
mod strikes;
mod tallies;
mod tins;
mod told;
mod vessels;
mod yields;

#[cfg(test)]
mod tests;

pub use backup::{Restored, restore};
pub use error::StoreError;
pub use examination::{Examination, Finding};
pub use gather::{Gathered, Gathering, Overruled, PlainFile};
pub use hash_chain::Chain;
pub use heat::{HeatLogId, ListedHeatLog, RecordedCorrection, StoredHeat};
pub use imports::Imported;
pub use instruments::{ClockStep, KnownInstrument};
pub use location::{DataFolder, is_database};
pub use pictures::KeptPicture;
pub use portions::{OfRun, Query};
pub use record::{Recorded, RefusedPortion};
pub use runs::NewRun;
pub use scale::{InstrumentMoment, RecordedCalibration, RecordedTest};
pub use tallies::{By, Group, Tally};
pub use tins::NewTin;
pub use told::{ToldId, TrackRecord};
pub use yields::YieldLine;

use file_identity::FileIdentity;
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
    /// The file that was opened, and its log.
    opened: Opened,
}

/// Which files a connection is of: a name may come to lead to another.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Opened {
    file: Option<FileIdentity>,
    log: PathBuf,
    log_file: Option<FileIdentity>,
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
        location::make_private(&path);
        Self::open_at(path)
    }

    /// Opens the store in a folder, where there is one: for whoever only wants
    /// to read what is on record.
    ///
    /// # Errors
    /// [`StoreError::NoStore`], or as for [`Store::open`].
    pub fn open_existing(folder: &DataFolder) -> Result<Self, StoreError> {
        if !folder.has_store() {
            return Err(StoreError::NoStore {
                folder: folder.path().to_owned(),
            });
        }
        Self::open_at(folder.file())
    }

    fn open_at(path: PathBuf) -> Result<Self, StoreError> {
        let sql = |error: rusqlite::Error| StoreError::from_sqlite(&path, &error);
        let before = FileIdentity::of(&path);
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
        // The log is there from the first look on.
        connection
            .query_row("SELECT count(*) FROM sqlite_schema", [], |_| Ok(()))
            .map_err(sql)?;
        // SQLite keeps the log beside the file itself, not beside a link to it.
        let real = std::fs::canonicalize(&path).unwrap_or_else(|_| path.clone());
        let log = location::beside(&real, "-wal");
        let opened = Opened {
            file: FileIdentity::of(&path),
            log_file: FileIdentity::of(&log),
            log,
        };
        if before.is_some() && before != opened.file {
            return Err(StoreError::Moved { path });
        }
        Ok(Self {
            connection,
            path,
            opened,
        })
    }

    /// Whether what is written now is written to the file that the store's
    /// name leads to, and to its log.
    ///
    /// # Errors
    /// [`StoreError::Moved`] where the name leads to another file or to none.
    pub fn is_in_place(&self) -> Result<(), StoreError> {
        let moved = || StoreError::Moved {
            path: self.path.clone(),
        };
        if FileIdentity::of(&self.path) != self.opened.file {
            return Err(moved());
        }
        let log = FileIdentity::of(&self.opened.log);
        if log != self.opened.log_file {
            // Deleted under way: what it holds can still be put into the file.
            if log.is_none() {
                self.checkpoint()?;
            }
            return Err(moved());
        }
        Ok(())
    }

    /// Puts what is in the log into the store's one file, so that a copy of
    /// that file alone holds everything. `false` where another program is
    /// reading at this moment: then it is for the next time.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn checkpoint(&self) -> Result<bool, StoreError> {
        let sql = |error| self.sql(error);
        // Nobody is kept waiting for it.
        self.connection.busy_timeout(Duration::ZERO).map_err(sql)?;
        let done = self
            .connection
            .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| {
                row.get::<_, i64>(0)
            });
        self.connection.busy_timeout(PATIENCE).map_err(sql)?;
        Ok(done.map_err(sql)? == 0)
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
        self.write_or(work)
    }

    /// As [`Store::write`], of work that may fail for reasons of its own.
    fn write_or<T, E: From<StoreError>>(
        &mut self,
        work: impl FnOnce(&Transaction<'_>, &Path) -> Result<T, E>,
    ) -> Result<T, E> {
        self.is_in_place()?;
        let path = self.path.clone();
        let sql = |error: rusqlite::Error| StoreError::from_sqlite(&path, &error);
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(sql)?;
        let done = work(&transaction, &path)?;
        transaction.commit().map_err(sql)?;
        // Before anybody is told that it is on record.
        self.is_in_place()?;
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
