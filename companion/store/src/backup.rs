//! Copies of the store, each read back row by row before it is called one.

use super::examination::{Examination, examine};
use super::file_identity::FileIdentity;
use super::location::{BESIDE, beside, is_part_of};
use super::{DataFolder, Sql, Store, StoreError, checksum, migrate};
use jiff::Timestamp;
use rusqlite::backup::Progress;
use rusqlite::types::Value;
use rusqlite::{Connection, OpenFlags};
use std::io;
use std::path::{Path, PathBuf};
use std::time::Duration;
use tempfile::{NamedTempFile, TempPath};

/// How long to wait for another program to let go of a store to be replaced.
const PATIENCE: Duration = Duration::from_millis(500);

/// A store put back from a copy.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Restored {
    /// What a look at every row of it found.
    pub examination: Examination,
    /// Where the store that was there before lies now, if there was one.
    pub set_aside: Option<PathBuf>,
}

impl Store {
    /// Copies the store to a file that is not there yet, reads the copy back
    /// row by row beside the store, and says what a look at every row found.
    ///
    /// # Errors
    /// [`StoreError::Backup`] where the file is there already, is part of the
    /// store, cannot be written or does not read back; the file is not there
    /// then.
    pub fn backup(&self, to: &Path) -> Result<Examination, StoreError> {
        let not_made = |why: String| StoreError::Backup {
            path: to.to_owned(),
            why,
        };
        if is_part_of(&self.path, to) {
            return Err(not_made(
                "it is part of the store itself; choose another".to_owned(),
            ));
        }
        let there = || not_made("there is a file of that name already; choose another".to_owned());
        if to.symlink_metadata().is_ok() {
            return Err(there());
        }
        let copy = empty_beside(to).map_err(|error| not_made(error.to_string()))?;
        let examination = self
            .copy_and_compare(&copy)
            .map_err(|error| not_made(error.to_string()))?;
        copy.persist_noclobber(to).map_err(|error| {
            if error.error.kind() == io::ErrorKind::AlreadyExists {
                there()
            } else {
                not_made(error.error.to_string())
            }
        })?;
        sync_folder_of(to);
        Ok(examination)
    }

    fn copy_and_compare(&self, to: &Path) -> Result<Examination, StoreError> {
        // One transaction, so that nothing is written between copying and comparing.
        let reading = self
            .connection
            .unchecked_transaction()
            .map_err(|error| self.sql(error))?;
        reading
            .query_row("SELECT count(*) FROM sqlite_schema", [], |_| Ok(()))
            .map_err(|error| self.sql(error))?;
        copy_into(&reading, &self.path, to)?;
        sync(to)?;
        examine(&reading, &self.path)
    }
}

/// An empty file, for this user alone, in the folder of another.
fn empty_beside(path: &Path) -> io::Result<TempPath> {
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    tempfile::Builder::new()
        .prefix(".evenhand-")
        .suffix(".sqlite3")
        .tempfile_in(folder)
        .map(NamedTempFile::into_temp_path)
}

/// Copies a store into a file, as one file by itself, and reads it back.
fn copy_into(from: &Connection, from_path: &Path, to: &Path) -> Result<(), StoreError> {
    from.backup(rusqlite::MAIN_DB, to, None::<fn(Progress)>)
        .at(to)?;
    let copy = Connection::open(to).at(to)?;
    copy.pragma_update(None, "journal_mode", "DELETE").at(to)?;
    check(&copy, to, "integrity_check")?;
    compare(from, from_path, &copy, to)
}

/// Copies a store beside itself before its layout changes, under the first
/// name of that layout that is free: one kept before stays.
pub(super) fn keep_layout(
    connection: &Connection,
    path: &Path,
    layout: i64,
) -> Result<(), StoreError> {
    let disk = |error: io::Error| StoreError::Disk {
        path: path.to_owned(),
        why: error.to_string(),
    };
    let mut copy = empty_beside(path).map_err(disk)?;
    copy_into(connection, path, &copy)?;
    sync(&copy)?;
    for nth in 1.. {
        let to = path.with_extension(match nth {
            1 => format!("layout-{layout}.sqlite3"),
            _ => format!("layout-{layout}-{nth}.sqlite3"),
        });
        match copy.persist_noclobber(&to) {
            Ok(()) => break,
            Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => copy = error.path,
            Err(error) => return Err(disk(error.error)),
        }
    }
    Ok(())
}

/// Puts a copy back in a store's place. The new store is built beside it,
/// brought up to date and read back row by row first; then it takes the
/// place of what was there in one step, and what was there lies beside it
/// under a name of its own.
///
/// # Errors
/// Where the copy is damaged, not ours or of a newer program; where another
/// program has the store open; or where it cannot be written. Unless it says
/// otherwise, what was there is still there.
pub fn restore(folder: &DataFolder, from: &Path, now: Timestamp) -> Result<Restored, StoreError> {
    // A link to a store elsewhere stays one.
    let named = folder.file();
    let path = std::fs::canonicalize(&named).unwrap_or(named);
    let copy = open_to_read(from)?;
    if is_part_of(&path, from) {
        return Err(StoreError::Backup {
            path: from.to_owned(),
            why: "it is the store itself, not a copy of it".to_owned(),
        });
    }
    migrate::recognise(&copy, from)?;
    check(&copy, from, "integrity_check")?;
    folder.make()?;
    let new = build(&path, &copy, from).map_err(|error| match error {
        // Its own name is that of a file that is gone again.
        StoreError::Full { .. } => StoreError::Full { path: path.clone() },
        error => error,
    })?;
    let there = hold(&path)?;
    let set_aside = swap(new, &path, &there, now)?;
    drop(there);
    let examination = Store::open(folder)
        .and_then(|store| store.examine())
        .map_err(|error| StoreError::AfterRestore {
            path: path.clone(),
            why: error.to_string(),
            set_aside: set_aside.clone(),
        })?;
    Ok(Restored {
        examination,
        set_aside,
    })
}

/// The new store, whole, of this program's layout and on the disk.
fn build(path: &Path, copy: &Connection, from: &Path) -> Result<TempPath, StoreError> {
    let disk = |error: io::Error| StoreError::Disk {
        path: path.to_owned(),
        why: error.to_string(),
    };
    let new = empty_beside(path).map_err(disk)?;
    copy_into(copy, from, &new)?;
    let mut store = Connection::open(&new).at(&new)?;
    migrate::migrate_a_copy(&mut store, &new)?;
    check(&store, &new, "integrity_check")?;
    drop(store);
    sync(&new)?;
    Ok(new)
}

/// What is in a store's place, kept from every other program while this lives.
enum There {
    Nothing,
    /// A whole database, held.
    Whole {
        _held: Connection,
    },
    /// Damaged, as SQLite found; nobody has it open.
    Damaged,
}

fn hold(path: &Path) -> Result<There, StoreError> {
    if path.symlink_metadata().is_err() {
        return Ok(There::Nothing);
    }
    match hold_whole(path) {
        Ok(held) => Ok(There::Whole { _held: held }),
        Err(StoreError::Damaged { .. }) if is_locked(path) => Err(StoreError::Busy {
            path: path.to_owned(),
        }),
        Err(StoreError::Damaged { .. }) => Ok(There::Damaged),
        // Unreadable, full, busy: nothing is known against it.
        Err(error) => Err(error),
    }
}

/// Has a database alone, as one file without a log beside it.
fn hold_whole(path: &Path) -> Result<Connection, StoreError> {
    let busy = || StoreError::Busy {
        path: path.to_owned(),
    };
    let store = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_WRITE).at(path)?;
    store.busy_timeout(PATIENCE).at(path)?;
    check(&store, path, "quick_check")?;
    migrate::recognise_or_empty(&store, path)?;
    // Refused while any other connection is there.
    store
        .pragma_update(None, "journal_mode", "DELETE")
        .at(path)?;
    store
        .pragma_update(None, "locking_mode", "EXCLUSIVE")
        .at(path)?;
    store.execute_batch("BEGIN EXCLUSIVE; COMMIT").at(path)?;
    let mode: String = store
        .pragma_query_value(None, "journal_mode", |row| row.get(0))
        .at(path)?;
    // Somebody came between the two.
    if mode != "delete" {
        return Err(busy());
    }
    Ok(store)
}

/// Whether another program holds SQLite's lock on a file that SQLite cannot
/// read. Not for a file that this program has open: asking drops its locks.
#[cfg(any(target_os = "linux", target_os = "macos"))]
fn is_locked(path: &Path) -> bool {
    use nix::fcntl::{FcntlArg, fcntl};
    use nix::libc;
    /// Where SQLite's locks lie in a file (https://www.sqlite.org/fileformat.html, 1.6), from memory.
    const LOCK_BYTES: (libc::off_t, libc::off_t) = (0x4000_0000, 512);
    let Ok(file) = std::fs::File::open(path) else {
        return false;
    };
    let mut lock = libc::flock {
        l_type: libc::F_WRLCK as libc::c_short,
        l_whence: libc::SEEK_SET as libc::c_short,
        l_start: LOCK_BYTES.0,
        l_len: LOCK_BYTES.1,
        l_pid: 0,
    };
    fcntl(&file, FcntlArg::F_GETLK(&mut lock)).is_ok()
        && lock.l_type != libc::F_UNLCK as libc::c_short
}

/// Elsewhere the system itself keeps an open file from being replaced.
#[cfg(not(any(target_os = "linux", target_os = "macos")))]
fn is_locked(_path: &Path) -> bool {
    false
}

/// Gives what is there a second name, then lets the new store take its first.
fn swap(
    new: TempPath,
    path: &Path,
    there: &There,
    now: Timestamp,
) -> Result<Option<PathBuf>, StoreError> {
    let disk = |error: io::Error| StoreError::Disk {
        path: path.to_owned(),
        why: error.to_string(),
    };
    let set_aside = match there {
        There::Nothing => None,
        There::Whole { .. } | There::Damaged => Some(name_aside(path, now).map_err(disk)?),
    };
    if matches!(there, There::Whole { .. }) {
        return match new.persist(path) {
            Ok(()) => {
                sync_folder_of(path);
                Ok(set_aside)
            }
            Err(error) => {
                // The first name was never taken away.
                if let Some(aside) = &set_aside {
                    let _ = std::fs::remove_file(aside);
                }
                Err(disk(error.error))
            }
        };
    }
    let half_done = |error: io::Error| StoreError::AfterRestore {
        path: path.to_owned(),
        why: error.to_string(),
        set_aside: set_aside.clone(),
    };
    // A log that was left belongs to what was there and would spoil the new one.
    let aside = match &set_aside {
        Some(aside) => aside.clone(),
        None => free_name(path, now),
    };
    for suffix in BESIDE {
        let part = beside(path, suffix);
        if part.symlink_metadata().is_ok() {
            std::fs::rename(&part, beside(&aside, suffix)).map_err(half_done)?;
        }
    }
    new.persist(path).map_err(|error| half_done(error.error))?;
    sync_folder_of(path);
    Ok(set_aside)
}

/// A name beside a store that nothing has.
fn free_name(path: &Path, now: Timestamp) -> PathBuf {
    let stamp = now.strftime("%Y%m%dT%H%M%SZ");
    let mut aside = path.with_extension(format!("before-{stamp}.sqlite3"));
    let mut nth = 1;
    while aside.symlink_metadata().is_ok() {
        nth += 1;
        aside = path.with_extension(format!("before-{stamp}-{nth}.sqlite3"));
    }
    aside
}

/// Gives a file a second name that nothing had; a copy where the file system
/// knows no second names.
fn name_aside(path: &Path, now: Timestamp) -> io::Result<PathBuf> {
    loop {
        let aside = free_name(path, now);
        match std::fs::hard_link(path, &aside) {
            Ok(()) => return Ok(aside),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(_) => {
                std::fs::copy(path, &aside)?;
                std::fs::File::open(&aside)?.sync_all()?;
                return Ok(aside);
            }
        }
    }
}

fn sync(path: &Path) -> Result<(), StoreError> {
    std::fs::File::open(path)
        .and_then(|file| file.sync_all())
        .map_err(|error| StoreError::Disk {
            path: path.to_owned(),
            why: error.to_string(),
        })
}

/// Makes a new name last over a power cut, where the system has a way to.
fn sync_folder_of(path: &Path) {
    #[cfg(unix)]
    if let Some(folder) = path.parent()
        && let Ok(folder) = std::fs::File::open(folder)
    {
        // The file itself is on the disk; without this its older name may come back.
        let _ = folder.sync_all();
    }
    #[cfg(not(unix))]
    let _ = path;
}

fn open_to_read(path: &Path) -> Result<Connection, StoreError> {
    if FileIdentity::of(path).is_none() || !path.is_file() {
        return Err(StoreError::Backup {
            path: path.to_owned(),
            why: "there is no such file".to_owned(),
        });
    }
    let connection =
        Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_ONLY).at(path)?;
    checksum::teach(&connection).at(path)?;
    Ok(connection)
}

/// Runs one of SQLite's checks of a whole file.
pub(super) fn check(connection: &Connection, path: &Path, pragma: &str) -> Result<(), StoreError> {
    let found: String = connection
        .query_row(&format!("PRAGMA {pragma}(1)"), [], |row| row.get(0))
        .at(path)?;
    if found == "ok" {
        return Ok(());
    }
    Err(StoreError::Damaged {
        path: path.to_owned(),
        why: found,
    })
}

/// That two files hold the same rows in the same tables.
fn compare(
    one: &Connection,
    one_path: &Path,
    other: &Connection,
    other_path: &Path,
) -> Result<(), StoreError> {
    let differs = |what: &str| StoreError::Damaged {
        path: other_path.to_owned(),
        why: format!("{what} does not read back as in {}", one_path.display()),
    };
    let tables = tables(one).at(one_path)?;
    if self::tables(other).at(other_path)? != tables {
        return Err(differs("the list of tables"));
    }
    for table in &tables {
        // Names come out of the file itself, quoted as SQL has it.
        let all = format!("SELECT * FROM \"{}\"", table.replace('"', "\"\""));
        let mut mine = one.prepare(&all).at(one_path)?;
        let mut theirs = other.prepare(&all).at(other_path)?;
        let columns = mine.column_count();
        let mut mine = mine.query([]).at(one_path)?;
        let mut theirs = theirs.query([]).at(other_path)?;
        loop {
            match (mine.next().at(one_path)?, theirs.next().at(other_path)?) {
                (None, None) => break,
                (Some(mine), Some(theirs)) => {
                    for column in 0..columns {
                        let mine: Value = mine.get(column).at(one_path)?;
                        let theirs: Value = theirs.get(column).at(other_path)?;
                        if mine != theirs {
                            return Err(differs(&format!("a row of {table}")));
                        }
                    }
                }
                _ => return Err(differs(&format!("the number of rows of {table}"))),
            }
        }
    }
    Ok(())
}

fn tables(connection: &Connection) -> rusqlite::Result<Vec<String>> {
    connection
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")?
        .query_map([], |row| row.get(0))?
        .collect()
}
