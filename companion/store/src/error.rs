//! What can go wrong with the store, in sentences that say what to do.

use std::path::{Path, PathBuf};

/// Why the store could not do as asked.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// The platform has no place for data, and none was named.
    #[error("this system names no folder for data; say where with --data DIR")]
    NoPlace,
    /// The folder cannot be made or used.
    #[error("the data folder {} cannot be used: {why}; choose another with --data DIR", path.display())]
    Folder {
        /// The folder.
        path: PathBuf,
        /// What the system said.
        why: std::io::Error,
    },
    /// There is no store where one was to be read.
    #[error(
        "there is no store in {}; see whether the folder after --data is the one meant: \
         nothing was made there",
        folder.display()
    )]
    NoStore {
        /// The folder.
        folder: PathBuf,
    },
    /// The file that was opened lies no longer where it lay.
    #[error(
        "{} was moved, replaced or deleted, or its log was, while this program had it open; \
         close this program and open it again; the scale keeps new portions until then",
        path.display()
    )]
    Moved {
        /// The file.
        path: PathBuf,
    },
    /// A copy was put back, and something failed then.
    #[error(
        "{} was to be put back and {why}; {}",
        path.display(),
        set_aside.as_ref().map_or_else(
            || "nothing was there before".to_owned(),
            |aside| format!("what was there lies in {}", aside.display())
        )
    )]
    AfterRestore {
        /// The store's file.
        path: PathBuf,
        /// What failed.
        why: String,
        /// Where what was there before lies.
        set_aside: Option<PathBuf>,
    },
    /// A newer program wrote the store.
    #[error(
        "{} was written by a newer version of this program (layout {found}, this one knows up to {known}); \
         nothing was changed; install the newer version, or choose another folder with --data DIR",
        path.display()
    )]
    Newer {
        /// The store's file.
        path: PathBuf,
        /// The layout found.
        found: i64,
        /// The newest layout this program knows.
        known: i64,
    },
    /// The file is a database, but not one of ours.
    #[error(
        "{} is some other program's database; nothing was changed; choose another folder with --data DIR",
        path.display()
    )]
    NotOurs {
        /// The file.
        path: PathBuf,
    },
    /// The file is damaged or no database at all.
    #[error(
        "{} is damaged or no database ({why}); nothing was changed; put a copy back in its place, \
         or choose another folder with --data DIR",
        path.display()
    )]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What is wrong with it.
        why: String,
    },
    /// A backup that cannot be made or used, or does not read back as what it is of.
    #[error("{} cannot be used as a backup: {why}; nothing was changed", path.display())]
    Backup {
        /// The backup's file.
        path: PathBuf,
        /// Why.
        why: String,
    },
    /// The file or its folder cannot be written.
    #[error(
        "{} cannot be written; let this user write there, or choose another folder with --data DIR; \
         what is on record is untouched",
        path.display()
    )]
    ReadOnly {
        /// The file.
        path: PathBuf,
    },
    /// The disk is full.
    #[error(
        "the disk is full, so nothing more can be put on record in {}; make room; \
         what is on record is untouched, and the scale keeps new portions until then",
        path.display()
    )]
    Full {
        /// The file.
        path: PathBuf,
    },
    /// Another program kept the store locked for too long.
    #[error("another program is busy writing to {}; close it, or wait and try again", path.display())]
    Busy {
        /// The file.
        path: PathBuf,
    },
    /// The disk failed.
    #[error(
        "reading or writing {} failed ({why}); check the disk; what is on record is untouched",
        path.display()
    )]
    Disk {
        /// The file.
        path: PathBuf,
        /// What the system said, or the code that SQLite gave.
        why: String,
    },
    /// A dish that is not on record.
    #[error("there is no dish {name:?}; {}", known_dishes(known))]
    UnknownDish {
        /// The name asked for.
        name: String,
        /// The dishes on record.
        known: Vec<String>,
    },
    /// A tin that is not on record.
    #[error("there is no tin {0}; list them with `evenhand tin list`")]
    UnknownTin(String),
    /// A tin of another dish.
    #[error("tin {tin} holds {holds}, not {asked}; open or choose a tin of {asked}")]
    TinOfOtherDish {
        /// The tin.
        tin: i64,
        /// What is in it.
        holds: String,
        /// What was asked for.
        asked: String,
    },
    /// A new name that some other dish has.
    #[error("there is a dish {0:?} already; choose another name")]
    NameTaken(String),
    /// A last order before the first one.
    #[error(
        "the last order of {0} would be before its first one; give both times again, the first order first"
    )]
    OrdersReversed(jiff::civil::Date),
    /// A line of a yield that is not on record, or struck out already.
    #[error(
        "there is no line {0} of a yield that could be struck out; list them with `evenhand yield show`"
    )]
    UnknownYieldLine(i64),
    /// A picture that is not on record, or was taken off already.
    #[error(
        "there is no picture {0} that could be taken off; list them with `evenhand formula pictures`"
    )]
    UnknownPicture(evenhand_kitchen::book::PictureId),
    /// A batch that is not on record.
    #[error("there is no batch {0}; list them with `evenhand batch list`")]
    UnknownBatch(String),
    /// A vessel that is not on record, or no longer in use.
    #[error("there is no vessel {name:?}; {}", known_vessels(known))]
    UnknownVessel {
        /// The name asked for.
        name: String,
        /// The vessels in use.
        known: Vec<String>,
    },
    /// A vessel's filling that makes no sense.
    #[error(transparent)]
    Vessel(#[from] evenhand_kitchen::units::InputError),
    /// A line that makes no sense in a batch.
    #[error(transparent)]
    Batch(#[from] evenhand_kitchen::batch::BatchError),
    /// A heat log that is not on record.
    #[error("there is no heat log {name:?}; {}", known_logs(known))]
    UnknownHeatLog {
        /// The name asked for.
        name: String,
        /// The logs on record.
        known: Vec<String>,
    },
    /// A reading that cannot follow those on record.
    #[error(transparent)]
    Heat(#[from] evenhand_kitchen::heat::LogError),
    /// Readings from elsewhere lie among others on record.
    #[error(
        "another reading of this log is on record at {at}, within the stretch to be added; \
         keep the two under different names"
    )]
    HeatOverlaps {
        /// Where the other lies.
        at: jiff::Timestamp,
    },
    /// A correction that is not on record, or was lifted before.
    #[error(
        "there is no correction {0} in force; `evenhand heat log --name NAME --json` lists them"
    )]
    UnknownHeatCorrection(i64),
    /// A portion that is not on record.
    #[error("there is no portion {0} on record; `evenhand export` lists them with their ids")]
    UnknownPortion(String),
    /// A portion that is struck out already.
    #[error("portion {0} is struck out already")]
    StruckAlready(String),
    /// A portion that is not struck out.
    #[error("portion {0} is not struck out")]
    NotStruck(String),
    /// An order of goods that is not on record.
    #[error("there is no order {0} on record; `evenhand prep orders` lists them")]
    UnknownOrder(u32),
    /// An order that is taken back already, or is not.
    #[error("order {number} is {} already", if *taken_back { "taken back" } else { "put down" })]
    OrderIsSo {
        /// What the record calls it.
        number: u32,
        /// Whether it is taken back.
        taken_back: bool,
    },
    /// There is no portion that could be undone.
    #[error("there is no portion to undo")]
    NothingToUndo,
    /// A figure in the file that this program could not have written.
    #[error("{} holds a {what} that makes no sense; put a copy back in its place", path.display())]
    Senseless {
        /// The file.
        path: PathBuf,
        /// What it is.
        what: &'static str,
    },
    /// A made-up kitchen is not gathered with a real one.
    #[error("what is kept here is a made-up night; it is never gathered with a kitchen's record")]
    MadeUpNight,
    /// Another program gathers this record at this moment.
    #[error("another program gathers this record now; try again when it is done")]
    Gathering,
    /// A shared folder or a file in it cannot be used.
    #[error("{} cannot be used: {why}; what is on record is untouched", path.display())]
    Journal {
        /// The folder or the file.
        path: PathBuf,
        /// What the system said.
        why: std::io::Error,
    },
    /// Anything else that SQLite refuses.
    #[error(
        "{} could not be used as asked: {why} (code {code}); what is on record is untouched; \
         `evenhand check` reads all of it, and the code tells those who made this program what \
         to look for",
        path.display()
    )]
    Sql {
        /// The file.
        path: PathBuf,
        /// What went wrong.
        why: &'static str,
        /// SQLite's extended result code (<https://www.sqlite.org/rescode.html>, from
        /// memory); 0 where it was read well and not understood.
        code: i32,
    },
}

fn known_dishes(known: &[String]) -> String {
    if known.is_empty() {
        "none is on record yet; add one with `evenhand dish add`".to_owned()
    } else {
        let known: Vec<_> = known.iter().map(|name| format!("{name:?}")).collect();
        format!("known are {}", known.join(", "))
    }
}

fn known_logs(known: &[String]) -> String {
    if known.is_empty() {
        "none is on record yet; `evenhand heat watch` begins one".to_owned()
    } else {
        let known: Vec<_> = known.iter().map(|name| format!("{name:?}")).collect();
        format!("known are {}", known.join(", "))
    }
}

fn known_vessels(known: &[String]) -> String {
    if known.is_empty() {
        "none is on record yet; fill one with `evenhand brine vessel fill`".to_owned()
    } else {
        let known: Vec<_> = known.iter().map(|name| format!("{name:?}")).collect();
        format!("known are {}", known.join(", "))
    }
}

/// Whether the disk under a file has no room left for this user.
#[cfg(unix)]
fn is_full(path: &Path) -> bool {
    let folder = path.parent().unwrap_or(path);
    nix::sys::statvfs::statvfs(folder).is_ok_and(|disk| disk.blocks_available() == 0)
}

#[cfg(not(unix))]
fn is_full(_path: &Path) -> bool {
    false
}

impl StoreError {
    pub(super) fn journal(path: &Path, why: std::io::Error) -> Self {
        Self::Journal {
            path: path.to_owned(),
            why,
        }
    }

    /// What SQLite said, sorted by what a person can do about it, and in words
    /// of our own: its own speak of the inside of the file.
    pub(super) fn from_sqlite(path: &Path, error: &rusqlite::Error) -> Self {
        use rusqlite::ErrorCode as Code;
        let path = path.to_owned();
        let code = error.sqlite_error().map_or(0, |error| error.extended_code);
        let why = match error.sqlite_error_code() {
            Some(Code::DiskFull) => return Self::Full { path },
            Some(Code::ReadOnly | Code::CannotOpen | Code::PermissionDenied) => {
                return Self::ReadOnly { path };
            }
            Some(Code::DatabaseBusy | Code::DatabaseLocked) => return Self::Busy { path },
            Some(Code::DatabaseCorrupt) => {
                let why = "its parts do not fit together".to_owned();
                return Self::Damaged { path, why };
            }
            Some(Code::NotADatabase) => {
                let why = "it does not begin as one".to_owned();
                return Self::Damaged { path, why };
            }
            // Without room for its shared memory SQLite calls the disk broken.
            Some(Code::SystemIoFailure) if is_full(&path) => return Self::Full { path },
            Some(Code::SystemIoFailure) => {
                let why = format!("code {code}");
                return Self::Disk { path, why };
            }
            Some(Code::ConstraintViolation) => {
                "what was to be written breaks a rule that the record keeps"
            }
            Some(Code::TypeMismatch) => "a value is of another kind than the record keeps",
            Some(Code::TooBig) => "a value is too large to be kept",
            Some(Code::OutOfMemory) => "this computer has no memory left for it",
            Some(Code::OperationInterrupted | Code::OperationAborted) => {
                "it was interrupted before it was done"
            }
            Some(Code::FileLockingProtocolFailed | Code::NoLargeFileSupport) => {
                "the disk that it lies on cannot keep a store; choose a folder on this computer"
            }
            Some(_) => "it lacks a part that this program looks for",
            None => "a figure in it is of another kind than this program writes",
        };
        Self::Sql { path, why, code }
    }

    /// Whether the request itself was at fault, and not the store.
    #[must_use]
    pub const fn is_bad_input(&self) -> bool {
        matches!(
            self,
            Self::NoStore { .. }
                | Self::UnknownDish { .. }
                | Self::UnknownTin(_)
                | Self::TinOfOtherDish { .. }
                | Self::NameTaken(_)
                | Self::OrdersReversed(_)
                | Self::UnknownYieldLine(_)
                | Self::UnknownPicture(_)
                | Self::UnknownBatch(_)
                | Self::UnknownVessel { .. }
                | Self::Vessel(_)
                | Self::Batch(_)
                | Self::UnknownPortion(_)
                | Self::UnknownHeatLog { .. }
                | Self::Heat(_)
                | Self::HeatOverlaps { .. }
                | Self::UnknownHeatCorrection(_)
                | Self::StruckAlready(_)
                | Self::NotStruck(_)
                | Self::UnknownOrder(_)
                | Self::OrderIsSo { .. }
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rusqlite::Connection;

    #[test]
    fn the_words_of_the_database_reach_nobody() {
        let path = Path::new("evenhand.sqlite3");
        let database = Connection::open_in_memory().unwrap();
        database
            .execute_batch(
                "CREATE TABLE t (a INTEGER NOT NULL CHECK (a > 0), b TEXT UNIQUE) STRICT",
            )
            .unwrap();
        for statement in [
            "INSERT INTO t VALUES (0, 'x')",
            "INSERT INTO t VALUES (NULL, 'x')",
            "INSERT INTO t VALUES ('x', 'x')",
            "SELECT a FROM nothing",
            "SELECT FROM",
        ] {
            let error = database.execute_batch(statement).unwrap_err();
            let theirs = error.to_string();
            let ours = StoreError::from_sqlite(path, &error).to_string();
            for word in theirs.split(|c: char| !c.is_alphabetic()) {
                let telling = ["constraint", "CHECK", "NULL", "table", "syntax", "SELECT"];
                assert!(
                    !telling.contains(&word) || !ours.contains(word),
                    "{statement}: {theirs}: {ours}"
                );
            }
            assert!(ours.contains("code "), "{ours}");
        }
        let error = database
            .query_row("SELECT 'x'", [], |row| row.get::<_, i64>(0))
            .unwrap_err();
        let ours = StoreError::from_sqlite(path, &error).to_string();
        assert!(ours.contains("of another kind"), "{ours}");
    }
}
