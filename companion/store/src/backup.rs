//! Copies of the store, each read back row by row before it is called one.

use super::{DataFolder, Sql, Store, StoreError, migrate};
use jiff::Timestamp;
use rusqlite::backup::{Backup, Progress};
use rusqlite::types::Value;
use rusqlite::{Connection, OpenFlags};
use std::path::{Path, PathBuf};

/// A store put back from a copy.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Restored {
    /// How many portions are on record in it.
    pub portions: u64,
    /// Where the store that was there before lies now, if there was one.
    pub set_aside: Option<PathBuf>,
}

impl Store {
    /// Checks the whole file: its structure, and that no figure lies where it
    /// could not have been written. Takes as long as reading the file.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] with what SQLite found.
    pub fn check(&self) -> Result<(), StoreError> {
        check(&self.connection, &self.path, "quick_check")
    }

    /// Copies the store to a file that is not there yet, and reads the copy
    /// back row by row beside the store. Returns how many portions it holds.
    ///
    /// # Errors
    /// [`StoreError::Backup`] where the file is there already, cannot be
    /// written or does not read back; the file is not there then.
    pub fn backup(&self, to: &Path) -> Result<u64, StoreError> {
        let not_made = |why: String| StoreError::Backup {
            path: to.to_owned(),
            why,
        };
        if to.exists() {
            return Err(not_made(
                "there is a file of that name already; choose another".to_owned(),
            ));
        }
        let done = self.copy_and_compare(to);
        if done.is_err() {
            // Half a copy is worse than none; that it cannot be removed changes nothing.
            let _ = std::fs::remove_file(to);
        }
        done.map_err(|error| not_made(error.to_string()))
    }

    fn copy_and_compare(&self, to: &Path) -> Result<u64, StoreError> {
        // One transaction, so that nothing is written between copying and comparing.
        let reading = self
            .connection
            .unchecked_transaction()
            .map_err(|error| self.sql(error))?;
        reading
            .query_row("SELECT count(*) FROM sqlite_schema", [], |_| Ok(()))
            .map_err(|error| self.sql(error))?;
        reading
            .backup(rusqlite::MAIN_DB, to, None::<fn(Progress)>)
            .map_err(|error| StoreError::from_sqlite(to, &error))?;
        // One file by itself, without a log beside it.
        let copy = Connection::open(to).at(to)?;
        copy.pragma_update(None, "journal_mode", "DELETE").at(to)?;
        check(&copy, to, "integrity_check")?;
        compare(&reading, &self.path, &copy, to)?;
        drop(copy);
        std::fs::File::open(to)
            .and_then(|file| file.sync_all())
            .map_err(|error| StoreError::Disk {
                path: to.to_owned(),
                why: error.to_string(),
            })?;
        portions(&reading).at(&self.path)
    }
}

/// Puts a copy back in a store's place and reads it back row by row. What was
/// there is set aside beside it first, whole where it can be read, else as the
/// file it is.
///
/// # Errors
/// Where the copy is damaged, not ours or of a newer program; where another
/// program is using the store; or where it cannot be written. Unless it says
/// otherwise, what was there is still there.
pub fn restore(folder: &DataFolder, from: &Path, now: Timestamp) -> Result<Restored, StoreError> {
    let path = folder.file();
    let same = |path: &Path| std::fs::canonicalize(path).ok();
    if same(from).is_some() && same(from) == same(&path) {
        return Err(StoreError::Backup {
            path: from.to_owned(),
            why: "it is the store itself, not a copy of it".to_owned(),
        });
    }
    let copy = open_to_read(from)?;
    migrate::recognise(&copy, from)?;
    check(&copy, from, "integrity_check")?;
    folder.make()?;
    let set_aside = set_aside(&path, now)?;
    let mut store = Connection::open(&path).at(&path)?;
    {
        let backup = Backup::new(&copy, &mut store).at(&path)?;
        match backup.step(-1).at(&path)? {
            rusqlite::backup::StepResult::Done => {}
            _ => return Err(StoreError::Busy { path }),
        }
    }
    check(&store, &path, "integrity_check")?;
    compare(&copy, from, &store, &path)?;
    drop(store);
    // Brings an older copy up to date, and shows that the program can use it.
    let store = Store::open(folder)?;
    let portions = portions(&store.connection).at(&path)?;
    Ok(Restored {
        portions,
        set_aside,
    })
}

/// Copies what is there beside itself; a file that cannot be read is moved.
fn set_aside(path: &Path, now: Timestamp) -> Result<Option<PathBuf>, StoreError> {
    if !path.exists() {
        return Ok(None);
    }
    let stamp = now.strftime("%Y%m%dT%H%M%SZ");
    let mut aside = path.with_extension(format!("before-{stamp}.sqlite3"));
    let mut nth = 1;
    // Never over one that was set aside before.
    while aside.exists() {
        nth += 1;
        aside = path.with_extension(format!("before-{stamp}-{nth}.sqlite3"));
    }
    let disk = |error: std::io::Error| StoreError::Disk {
        path: path.to_owned(),
        why: error.to_string(),
    };
    let whole = open_to_read(path).and_then(|store| {
        check(&store, path, "quick_check")?;
        store
            .backup(rusqlite::MAIN_DB, &aside, None::<fn(Progress)>)
            .at(path)
    });
    match whole {
        Ok(()) => {}
        Err(busy @ StoreError::Busy { .. }) => return Err(busy),
        Err(_) => {
            let _ = std::fs::remove_file(&aside);
            // Its log belongs to it and would spoil the new one.
            for suffix in ["", "-wal", "-shm"] {
                let part = PathBuf::from(format!("{}{suffix}", path.display()));
                if part.exists() {
                    let to = PathBuf::from(format!("{}{suffix}", aside.display()));
                    std::fs::rename(&part, to).map_err(disk)?;
                }
            }
        }
    }
    Ok(Some(aside))
}

fn open_to_read(path: &Path) -> Result<Connection, StoreError> {
    let missing = |why: &str| StoreError::Backup {
        path: path.to_owned(),
        why: why.to_owned(),
    };
    if !path.is_file() {
        return Err(missing("there is no such file"));
    }
    Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_ONLY).at(path)
}

fn portions(connection: &Connection) -> rusqlite::Result<u64> {
    connection
        .query_row("SELECT count(*) FROM portion", [], |row| {
            row.get::<_, i64>(0)
        })
        .map(i64::unsigned_abs)
}

/// Runs one of SQLite's checks of a whole file.
fn check(connection: &Connection, path: &Path, pragma: &str) -> Result<(), StoreError> {
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
