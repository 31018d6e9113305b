//! Several desktops, one record: what each puts on record is told to the others through a
//! folder that another program keeps the same everywhere, or a stick that is carried.
//!
//! Each desktop writes journals of its own there and only reads the others', so that two never
//! write one file. A journal is read from where it was left; what it says is put on record once
//! by its identity, whatever order it comes in:
//!
//! - a portion by its instrument, start and number; a run by its number; an instrument, a dish,
//!   a vessel, a heat log, a service, a setting by its name or number; a reading by its log and
//!   moment; everything else by its stamp, which the layout gives it
//!   (`migrations/0020_gathered.sql`);
//! - of what is said anew (the menu, a count of guests, a tick) the later stamp counts, and all
//!   stay on record; of what has one value (a setting, a dish's name, an order's time, a plain
//!   file) the later counts, and the other is kept in `overruled` and named;
//! - an end (of a run, of a tin) is the earliest said; a strike is in force or not as if all
//!   striking and lifting had happened on one desktop;
//! - what speaks of something that has not come waits for it.

mod journal;
mod kinds;
mod take;
mod tell;

use crate::columns::time_to;
use crate::{Sql, Store, StoreError, batches};
use evenhand_kitchen::batch::BatchId;
use jiff::Timestamp;
use journal::{End, Place, Reading};
use rusqlite::{Connection, OptionalExtension, Transaction, TransactionBehavior, params};
use serde_json::json;
use std::collections::BTreeSet;
use std::fs::File;
use std::path::{Path, PathBuf};
use take::{Take, Taken};
use tell::Told;

/// The part of a stamp that is its desktop's number.
pub(crate) const ORIGINS: i64 = 0xF_FFFF;
/// How many lines are put on record in one transaction, so that a weighing never waits long.
const LINES: usize = 5_000;

/// Which way a record is gathered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Gathering {
    /// The others are told what is new here, too.
    #[default]
    Both,
    /// Nothing is written to the shared folder: for a desktop that only looks on.
    OnlyTaken,
}

/// What came of a gathering.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Gathered {
    /// How many other desktops' journals there are.
    pub others: usize,
    /// How many lines of theirs are on record now that were not.
    pub taken: usize,
    /// How many lines were told to them.
    pub told: usize,
    /// How many lines speak of what has not come yet.
    pub waiting: usize,
    /// The journals that are not whole yet, by their names.
    pub torn: Vec<String>,
    /// The journals of a newer program, by their names: not read.
    pub newer: Vec<String>,
    /// What two desktops said differently, and does not count from now on.
    pub overruled: Vec<Overruled>,
    /// Rows that came under an identity that another row has: both are kept, the one that was
    /// here counts here.
    pub clashes: usize,
    /// Batches with lines that make no sense beside another desktop's, with how many: they are
    /// on record and do not count.
    pub set_aside: Vec<(BatchId, usize)>,
    /// Whether this desktop took a new number, since it was copied or put back from a copy.
    pub renumbered: bool,
}

/// Something that was said and does not count, since another saying does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Overruled {
    /// What it is of: the kind of row in the store.
    pub kind: String,
    /// Which: a setting's name, a day, a file.
    pub key: String,
    /// What was said.
    pub said: String,
    /// When, to what is known of it.
    pub at: Timestamp,
    /// The desktop that said it.
    pub desk: u32,
}

impl Overruled {
    fn new(path: &Path, kind: &str, key: &str, said: &str, stamp: i64) -> Result<Self, StoreError> {
        Ok(Self {
            kind: kind.to_owned(),
            key: key.to_owned(),
            said: said.to_owned(),
            at: crate::columns::Reads(path).time(stamp >> 20)?,
            desk: u32::try_from(stamp & ORIGINS).unwrap_or_default(),
        })
    }
}

/// A plain file of the kitchen's, as it is on record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlainFile {
    /// Where it lies in the data folder, its parts parted by `/`.
    pub name: String,
    /// What is in it.
    pub text: String,
}

impl Store {
    /// Tells the other desktops what is new here through a folder, and puts on record what
    /// they told.
    ///
    /// # Errors
    /// [`StoreError::MadeUpNight`] of a made-up kitchen, [`StoreError::Journal`] where the
    /// folder or a file in it cannot be used, or where the store cannot be read or written.
    /// What was put on record until then stays, and the rest is for the next time.
    pub fn gather(
        &mut self,
        folder: &Path,
        how: Gathering,
        now: Timestamp,
    ) -> Result<Gathered, StoreError> {
        if self.made_up_night()?.is_some() {
            return Err(StoreError::MadeUpNight);
        }
        // One at a time, here: two would write one journal.
        let _alone = alone(&self.path)?;
        let mut gathered = Gathered::default();
        let journals = journals(folder)?;
        let own = self.own_journal(&journals, &mut gathered)?;
        let mut touched = BTreeSet::new();
        for path in &journals {
            if own.as_ref() != Some(path) {
                self.read_journal(path, now, &mut gathered, &mut touched)?;
            }
        }
        self.take_waiting(now, &mut gathered, &mut touched)?;
        if how == Gathering::Both {
            self.tell_others(folder, own, &mut gathered)?;
        }
        for id in touched {
            let set_aside = batches::set_aside(&self.connection, &self.path, BatchId(id))?;
            if set_aside > 0 {
                gathered.set_aside.push((BatchId(id), set_aside));
            }
        }
        Ok(gathered)
    }

    /// All that two desktops said differently and that does not count, the latest first.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn overruled(&self) -> Result<Vec<Overruled>, StoreError> {
        let rows: Vec<(String, String, String, i64)> = self
            .connection
            .prepare("SELECT kind, key, said, stamp FROM overruled ORDER BY stamp DESC, id")
            .and_then(|mut select| {
                select
                    .query_map([], |row| {
                        Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?))
                    })?
                    .collect()
            })
            .at(&self.path)?;
        rows.iter()
            .map(|(kind, key, said, stamp)| Overruled::new(&self.path, kind, key, said, *stamp))
            .collect()
    }

    /// Notes what a plain file of the kitchen's says now, where that is new.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn note_plain_file(&mut self, file: &PlainFile, now: Timestamp) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO plain_file (name, text, since) VALUES (?1, ?2, ?3)
                     ON CONFLICT (name) DO UPDATE SET text = ?2, since = ?3 WHERE text <> ?2",
                    params![file.name, file.text, time_to(now)],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// The kitchen's plain files as they are on record.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn plain_files(&self) -> Result<Vec<PlainFile>, StoreError> {
        self.connection
            .prepare("SELECT name, text FROM plain_file ORDER BY name")
            .and_then(|mut select| {
                select
                    .query_map([], |row| {
                        Ok(PlainFile {
                            name: row.get(0)?,
                            text: row.get(1)?,
                        })
                    })?
                    .collect()
            })
            .at(&self.path)
    }

    /// Whether anything of another desktop is on record.
    pub(crate) fn is_gathered(&self) -> Result<bool, StoreError> {
        self.connection
            .prepare_cached("SELECT EXISTS (SELECT 1 FROM gathered_portion)")
            .and_then(|mut select| select.query_row([], |row| row.get(0)))
            .at(&self.path)
    }

    /// The journal that this desktop goes on with in a folder. One that is not as it was left
    /// is another's from now on: the store was copied or put back from a copy, and this
    /// desktop takes a new number.
    fn own_journal(
        &mut self,
        journals: &[PathBuf],
        gathered: &mut Gathered,
    ) -> Result<Option<PathBuf>, StoreError> {
        let mut own = None;
        for path in journals {
            let Some(known) = known(&self.connection, &self.path, &name_of(path))? else {
                // Of this desktop's number, and not by this store.
                if name_of(path).starts_with(&format!("{:05x}-", self.origin()?)) {
                    self.renumber(None)?;
                    gathered.renumbered = true;
                }
                continue;
            };
            if !known.own {
                continue;
            }
            let length = std::fs::metadata(path)
                .map_err(|why| StoreError::journal(path, why))?
                .len();
            if length == known.place.bytes && own.is_none() {
                own = Some(path.clone());
            } else {
                self.renumber(Some(&name_of(path)))?;
                gathered.renumbered = true;
                own = None;
            }
        }
        if gathered.renumbered {
            // What it wrote under its old number is read like any other's.
            self.write(|transaction, path| {
                transaction
                    .execute("UPDATE journal SET own = 0", [])
                    .at(path)
            })?;
            own = None;
        }
        Ok(own)
    }

    fn origin(&self) -> Result<i64, StoreError> {
        self.connection
            .query_row("SELECT origin FROM desk", [], |row| row.get(0))
            .at(&self.path)
    }

    fn renumber(&mut self, journal: Option<&str>) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "UPDATE desk SET origin = 1 + (random() & 0x7fffffffffffffff) % 1048575",
                    [],
                )
                .at(path)?;
            transaction
                .execute("UPDATE journal SET own = 0 WHERE name = ?1", [journal])
                .at(path)
        })?;
        Ok(())
    }

    fn read_journal(
        &mut self,
        path: &Path,
        now: Timestamp,
        gathered: &mut Gathered,
        touched: &mut BTreeSet<i64>,
    ) -> Result<(), StoreError> {
        let why = |why: std::io::Error| StoreError::journal(path, why);
        let name = name_of(path);
        let known = known(&self.connection, &self.path, &name)?;
        gathered.others += 1;
        let from = known.map(|known| known.place).unwrap_or_default();
        let mut reading = Reading::open(path, &from).map_err(why)?;
        if reading.is_at_start() {
            match reading.next().map_err(why)? {
                Some(first) if is_of_this_format(&first.text) => {}
                Some(_) => {
                    gathered.newer.push(name);
                    return Ok(());
                }
                None => {
                    gathered.torn.push(name);
                    return Ok(());
                }
            }
        }
        loop {
            let mut lines = Vec::new();
            let mut place = None;
            while lines.len() < LINES
                && let Some(line) = reading.next().map_err(why)?
            {
                place = Some(line.behind);
                lines.push(line.text);
            }
            let Some(place) = place else { break };
            self.take(now, gathered, touched, |take, transaction, path| {
                let mut taken = 0;
                let mut clashes = 0;
                for line in &lines {
                    match take.line(line)? {
                        Taken::New => taken += 1,
                        Taken::Known => {}
                        Taken::Clash => clashes += 1,
                        Taken::Waits => {
                            transaction
                                .execute("INSERT OR IGNORE INTO waiting (line) VALUES (?1)", [line])
                                .at(path)?;
                        }
                    }
                }
                keep_place(transaction, path, &name, &place)?;
                Ok((taken, clashes))
            })?;
        }
        if reading.end == End::Torn {
            gathered.torn.push(name);
        }
        Ok(())
    }

    /// Lines that waited: as often as any of them finds what it speaks of.
    fn take_waiting(
        &mut self,
        now: Timestamp,
        gathered: &mut Gathered,
        touched: &mut BTreeSet<i64>,
    ) -> Result<(), StoreError> {
        loop {
            let waiting: Vec<(i64, String)> = self
                .connection
                .prepare("SELECT id, line FROM waiting ORDER BY id")
                .and_then(|mut select| {
                    select
                        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
                        .collect()
                })
                .at(&self.path)?;
            gathered.waiting = waiting.len();
            let mut found = 0;
            for some in waiting.chunks(LINES) {
                self.take(now, gathered, touched, |take, transaction, path| {
                    let mut taken = 0;
                    let mut clashes = 0;
                    for (id, line) in some {
                        match take.line(line)? {
                            Taken::Waits => continue,
                            Taken::New => taken += 1,
                            Taken::Clash => clashes += 1,
                            Taken::Known => {}
                        }
                        found += 1;
                        transaction
                            .execute("DELETE FROM waiting WHERE id = ?1", [id])
                            .at(path)?;
                    }
                    Ok((taken, clashes))
                })?;
            }
            gathered.waiting -= found;
            if found == 0 || gathered.waiting == 0 {
                return Ok(());
            }
        }
    }

    fn take(
        &mut self,
        now: Timestamp,
        gathered: &mut Gathered,
        touched: &mut BTreeSet<i64>,
        work: impl FnOnce(&mut Take<'_>, &Transaction<'_>, &Path) -> Result<(usize, usize), StoreError>,
    ) -> Result<(), StoreError> {
        let (taken, clashes, overruled, batches) = self.write(|transaction, path| {
            transaction
                .execute("INSERT OR IGNORE INTO gathering VALUES (1)", [])
                .at(path)?;
            let mut take = Take::new(transaction, path, time_to(now));
            let (taken, clashes) = work(&mut take, transaction, path)?;
            take.done()?;
            transaction.execute("DELETE FROM gathering", []).at(path)?;
            Ok((taken, clashes, take.overruled, take.batches))
        })?;
        gathered.taken += taken;
        gathered.clashes += clashes;
        gathered.overruled.extend(overruled);
        touched.extend(batches);
        Ok(())
    }

    /// Puts what is new here at the end of this desktop's journal.
    fn tell_others(
        &mut self,
        folder: &Path,
        own: Option<PathBuf>,
        gathered: &mut Gathered,
    ) -> Result<(), StoreError> {
        let mut told = Told::default();
        let mut place = Place::default();
        let mut file = own;
        if let Some(file) = &file
            && let Some(known) = known(&self.connection, &self.path, &name_of(file))?
        {
            told = known.told;
            place = known.place;
        }
        loop {
            // One look: nothing is put down between two tables.
            let reading = self
                .connection
                .transaction_with_behavior(TransactionBehavior::Deferred)
                .at(&self.path)?;
            let (mut lines, now) = tell::lines(&reading, &self.path, told)?;
            drop(reading);
            if now == told && (file.is_some() || lines.is_empty()) {
                return Ok(());
            }
            gathered.told += lines.len();
            let path = match &file {
                Some(file) => file.clone(),
                None => {
                    let origin = self.origin()?;
                    let drawn: i64 = self
                        .connection
                        .query_row("SELECT random() & 0xffffffff", [], |row| row.get(0))
                        .at(&self.path)?;
                    let first = json!({
                        "evenhand": "journal", "format": journal::FORMAT, "desk": origin,
                    });
                    lines.insert(0, first.to_string());
                    folder.join(format!("{origin:05x}-{drawn:08x}.{}", journal::ENDING))
                }
            };
            place = journal::append(&path, &place, &lines)
                .map_err(|why| StoreError::journal(&path, why))?;
            told = now;
            self.write(|transaction, store| {
                transaction
                    .execute(
                        "INSERT INTO journal (name, own, bytes, last, check_of, changes, portions)
                         VALUES (?1, 1, ?2, ?3, ?4, ?5, ?6)
                         ON CONFLICT (name) DO UPDATE SET
                             bytes = ?2, last = ?3, check_of = ?4, changes = ?5, portions = ?6",
                        params![
                            name_of(&path),
                            bytes_to(place.bytes),
                            bytes_to(place.last),
                            place.check,
                            now.changes,
                            now.portions
                        ],
                    )
                    .at(store)
            })?;
            file = Some(path);
        }
    }
}

/// Has what is put down next stamped with a moment, or later, where its own row has none.
pub(crate) fn moment(
    transaction: &Transaction<'_>,
    path: &Path,
    at: Timestamp,
) -> Result<(), StoreError> {
    transaction
        .prepare_cached("UPDATE desk SET last = max(last, min(?1, 4398046511103) - 1)")
        .and_then(|mut update| update.execute([time_to(at)]))
        .at(path)?;
    Ok(())
}

/// How far a journal is known here.
struct KnownJournal {
    own: bool,
    place: Place,
    told: Told,
}

fn known(
    connection: &Connection,
    path: &Path,
    name: &str,
) -> Result<Option<KnownJournal>, StoreError> {
    connection
        .prepare_cached(
            "SELECT own, bytes, last, check_of, changes, portions FROM journal WHERE name = ?1",
        )
        .and_then(|mut select| {
            select
                .query_row([name], |row| {
                    Ok(KnownJournal {
                        own: row.get(0)?,
                        place: Place {
                            bytes: row.get::<_, i64>(1)?.unsigned_abs(),
                            last: row.get::<_, i64>(2)?.unsigned_abs(),
                            check: row.get(3)?,
                        },
                        told: Told {
                            changes: row.get(4)?,
                            portions: row.get(5)?,
                        },
                    })
                })
                .optional()
        })
        .at(path)
}

fn keep_place(
    transaction: &Transaction<'_>,
    path: &Path,
    name: &str,
    place: &Place,
) -> Result<(), StoreError> {
    transaction
        .execute(
            "INSERT INTO journal (name, own, bytes, last, check_of, changes, portions)
             VALUES (?1, 0, ?2, ?3, ?4, 0, 0)
             ON CONFLICT (name) DO UPDATE SET bytes = ?2, last = ?3, check_of = ?4",
            params![
                name,
                bytes_to(place.bytes),
                bytes_to(place.last),
                place.check
            ],
        )
        .at(path)?;
    Ok(())
}

fn bytes_to(bytes: u64) -> i64 {
    i64::try_from(bytes).unwrap_or(i64::MAX)
}

fn is_of_this_format(first: &str) -> bool {
    serde_json::from_str::<serde_json::Value>(first).is_ok_and(|first| {
        first["evenhand"] == "journal"
            && first["format"]
                .as_i64()
                .is_some_and(|format| format <= journal::FORMAT)
    })
}

/// The journals in a folder, by name.
fn journals(folder: &Path) -> Result<Vec<PathBuf>, StoreError> {
    let why = |why: std::io::Error| StoreError::journal(folder, why);
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(why)? {
        let path = entry.map_err(why)?.path();
        let ours = path
            .extension()
            .is_some_and(|ending| ending == journal::ENDING);
        if ours && path.is_file() {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

fn name_of(path: &Path) -> String {
    path.file_name()
        .map(|name| name.to_string_lossy().into_owned())
        .unwrap_or_default()
}

/// Keeps every other gathering of this store away while it lives.
fn alone(store: &Path) -> Result<File, StoreError> {
    let path = store.with_extension("gathering");
    let file = File::options()
        .write(true)
        .create(true)
        .truncate(false)
        .open(&path)
        .map_err(|why| StoreError::journal(&path, why))?;
    match file.try_lock() {
        Ok(()) => Ok(file),
        Err(std::fs::TryLockError::WouldBlock) => Err(StoreError::Gathering),
        Err(std::fs::TryLockError::Error(why)) => Err(StoreError::journal(&path, why)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::DataFolder;

    /// A table that is added has to be told to the others, or named as one that is not.
    #[test]
    fn every_table_is_told_or_named_as_one_that_is_not() {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
        let tables: BTreeSet<String> = store
            .connection
            .prepare(
                "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'",
            )
            .unwrap()
            .query_map([], |row| row.get(0))
            .unwrap()
            .collect::<Result<_, _>>()
            .unwrap();
        let named: BTreeSet<String> = kinds::STAMPED
            .iter()
            .map(|kind| kind.table)
            .chain(kinds::OTHERS.iter().copied())
            .chain(kinds::NOT_TOLD.iter().copied())
            .map(str::to_owned)
            .collect();
        assert_eq!(tables, named);
        for kind in kinds::STAMPED {
            let mut told: BTreeSet<&str> = kind.columns.iter().map(|(name, _)| *name).collect();
            told.insert("stamp");
            let there: BTreeSet<String> = store
                .connection
                .prepare(&format!(
                    "SELECT name FROM pragma_table_info('{}')",
                    kind.table
                ))
                .unwrap()
                .query_map([], |row| row.get(0))
                .unwrap()
                .collect::<Result<_, _>>()
                .unwrap();
            let not_told: Vec<_> = there
                .iter()
                .filter(|name| !told.contains(name.as_str()) && *name != "id")
                .collect();
            assert!(not_told.is_empty(), "{}: {not_told:?}", kind.table);
        }
    }
}
