//! Batches on record, line by line.

use super::columns::{Reads, time_to};
use super::{Sql, Store, StoreError, gather};
use evenhand_kitchen::batch::{Batch, BatchError, BatchId, Entry, What, same_title};
use jiff::Timestamp;
use rusqlite::{Connection, OptionalExtension, params};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

impl Store {
    /// Begins a batch of nothing yet.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn begin_batch(&mut self, at: Timestamp) -> Result<BatchId, StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute("INSERT INTO batch (begun) VALUES (?1)", [time_to(at)])
                .at(path)?;
            Ok(BatchId(transaction.last_insert_rowid()))
        })
    }

    /// Adds a line to a batch, where it makes sense after those before it, and
    /// returns the batch when it is on the disk. Times are kept to the
    /// millisecond.
    ///
    /// # Errors
    /// [`StoreError::UnknownBatch`], [`StoreError::Batch`] for a line that
    /// makes no sense there, or where the store cannot be written.
    pub fn add_to_batch(&mut self, id: BatchId, entry: &Entry) -> Result<Batch, StoreError> {
        self.write(|transaction, path| {
            let Lines {
                mut batch,
                stamps,
                slots,
                ..
            } = lines(transaction, path, id)?;
            let at = Reads(path).time(time_to(entry.at))?;
            let line = next_line(transaction, path, id)?;
            let what = entry.what.clone().as_kept().map_err(BatchError::Words)?;
            let entry = Entry { at, what };
            let mut what = serde_json::to_value(&entry.what)
                .map_err(|_| Reads(path).senseless("batch line"))?;
            let mut about = About::default();
            each_slot(&mut what, |slot| {
                if let Some(stamp) = slots.get(&slot) {
                    about.slots.insert(slot, *stamp);
                }
                Some(slot)
            });
            about.line = match &entry.what {
                What::Struck { line, .. } => stamps.get(*line as usize).copied().flatten(),
                _ => None,
            };
            batch.add(entry)?;
            let about =
                serde_json::to_string(&about).map_err(|_| Reads(path).senseless("batch line"))?;
            transaction
                .execute(
                    "INSERT INTO batch_line (batch, line, at, what, about)
                     VALUES (?1, ?2, ?3, ?4, ?5)",
                    params![id.0, line, time_to(at), what.to_string(), about],
                )
                .at(path)?;
            Ok(batch)
        })
    }

    /// A batch.
    ///
    /// # Errors
    /// [`StoreError::UnknownBatch`], or where the store cannot be read.
    pub fn batch(&self, id: BatchId) -> Result<Batch, StoreError> {
        read(&self.connection, &self.path, id)
    }

    /// Every batch, the one begun last first.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn batches(&self) -> Result<Vec<(BatchId, Batch)>, StoreError> {
        let ids = self
            .connection
            .prepare_cached("SELECT id FROM batch ORDER BY stamp DESC")
            .and_then(|mut select| {
                select
                    .query_map([], |row| row.get(0).map(BatchId))?
                    .collect::<rusqlite::Result<Vec<_>>>()
            })
            .map_err(|error| self.sql(error))?;
        ids.into_iter()
            .map(|id| Ok((id, self.batch(id)?)))
            .collect()
    }

    /// Every batch of a title, in any case, the one begun last first.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn batches_titled(&self, title: &str) -> Result<Vec<(BatchId, Batch)>, StoreError> {
        let mut batches = self.batches()?;
        batches.retain(|(_, batch)| batch.title().is_some_and(|other| same_title(other, title)));
        Ok(batches)
    }
}

fn read(connection: &Connection, path: &Path, id: BatchId) -> Result<Batch, StoreError> {
    Ok(lines(connection, path, id)?.batch)
}

/// What a line's numbers mean, by the stamps of the lines that they are of: the numbers
/// themselves come to mean others where two desktops add to one batch.
#[derive(Debug, Default, serde::Serialize, serde::Deserialize)]
struct About {
    /// What was weighed in, each by the line that it was first weighed in with.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    slots: BTreeMap<u32, i64>,
    /// The line that is struck out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    line: Option<i64>,
}

/// A batch with the stamps of what is in it.
struct Lines {
    batch: Batch,
    /// Of each line that makes sense.
    stamps: Vec<Option<i64>>,
    /// Of the line that each thing in it was first weighed in with.
    slots: BTreeMap<u32, i64>,
    /// How many lines make no sense beside those of another desktop. They stay on record.
    set_aside: usize,
}

/// Gives every number of a thing weighed in another; `false` where one has none.
fn each_slot(what: &mut Value, mut number: impl FnMut(u32) -> Option<u32>) -> bool {
    let mut all = true;
    let mut change = |slot: &mut Value| {
        let Some(was) = slot.as_u64().and_then(|was| u32::try_from(was).ok()) else {
            return;
        };
        match number(was) {
            Some(now) => *slot = now.into(),
            None => all = false,
        }
    };
    if let Some(slot) = what.get_mut("slot") {
        change(slot);
    }
    if let Some(meat) = what.get_mut("meat").and_then(Value::as_array_mut) {
        meat.iter_mut().for_each(change);
    }
    all
}

fn next_line(connection: &Connection, path: &Path, id: BatchId) -> Result<i64, StoreError> {
    connection
        .prepare_cached("SELECT 1 + coalesce(max(line), -1) FROM batch_line WHERE batch = ?1")
        .and_then(|mut select| select.query_row([id.0], |row| row.get(0)))
        .at(path)
}

/// How many lines of a batch make no sense beside those that another desktop added at the
/// same time: they stay on record and do not count.
pub(super) fn set_aside(
    connection: &Connection,
    path: &Path,
    id: BatchId,
) -> Result<usize, StoreError> {
    Ok(lines(connection, path, id)?.set_aside)
}

fn lines(connection: &Connection, path: &Path, id: BatchId) -> Result<Lines, StoreError> {
    connection
        .prepare_cached("SELECT 1 FROM batch WHERE id = ?1")
        .and_then(|mut select| select.query_row([id.0], |_| Ok(())).optional())
        .at(path)?
        .ok_or_else(|| StoreError::UnknownBatch(id.to_string()))?;
    let rows = connection
        .prepare_cached(
            "SELECT at, what, stamp, about FROM batch_line WHERE batch = ?1 ORDER BY stamp",
        )
        .and_then(|mut select| {
            select
                .query_map([id.0], |row| {
                    Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?))
                })?
                .collect::<rusqlite::Result<Vec<(i64, String, Option<i64>, Option<String>)>>>()
        })
        .at(path)?;
    let reads = Reads(path);
    // Of lines from before there were stamps a copy may be added to by itself.
    let desks: BTreeSet<i64> = rows
        .iter()
        .filter(|(.., about)| about.is_some())
        .filter_map(|(_, _, stamp, _)| stamp.map(|stamp| stamp & gather::ORIGINS))
        .collect();
    let by_several = desks.len() > 1;
    let mut read = Lines {
        batch: Batch::new(),
        stamps: Vec::new(),
        slots: BTreeMap::new(),
        set_aside: 0,
    };
    for (at, what, stamp, about) in rows {
        let mut what: Value =
            serde_json::from_str(&what).map_err(|_| reads.senseless("batch line"))?;
        let about: Option<About> = about
            .map(|about| serde_json::from_str(&about))
            .transpose()
            .map_err(|_| reads.senseless("batch line"))?;
        let known = read.renumber(&mut what, stamp, about.as_ref());
        let what: What = serde_json::from_value(what).map_err(|_| reads.senseless("batch line"))?;
        let slot = match &what {
            What::Weighed { slot, .. } => Some(slot.0),
            _ => None,
        };
        let at = reads.time(at)?;
        match known.then(|| read.batch.add(Entry { at, what })) {
            Some(Ok(())) => {
                read.stamps.push(stamp);
                if let (Some(slot), Some(stamp)) = (slot, stamp) {
                    read.slots.entry(slot).or_insert(stamp);
                }
            }
            None | Some(Err(_)) if by_several => read.set_aside += 1,
            None | Some(Err(_)) => return Err(reads.senseless("batch")),
        }
    }
    Ok(read)
}

impl Lines {
    /// Gives a line's numbers those that they have here; `false` where one is of a line that
    /// is not here or does not count.
    fn renumber(&self, what: &mut Value, stamp: Option<i64>, about: Option<&About>) -> bool {
        let Some(about) = about else {
            return true;
        };
        if let Some(of) = about.line {
            let place = self.stamps.iter().position(|known| *known == Some(of));
            match place.and_then(|place| u32::try_from(place).ok()) {
                Some(place) => what["line"] = place.into(),
                None => return false,
            }
        }
        each_slot(what, |slot| match about.slots.get(&slot) {
            Some(of) => self
                .slots
                .iter()
                .find(|(_, stamp)| *stamp == of)
                .map(|(slot, _)| *slot),
            // It is first weighed in here.
            None if self.slots.contains_key(&slot) && stamp.is_some() => {
                Some(self.batch.free_slot().0)
            }
            None => Some(slot),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::DataFolder;
    use evenhand_kitchen::batch::{BatchError, NamedAs, Slot};
    use evenhand_kitchen::ratio::Ingredient;
    use evenhand_protocol::Mass;

    fn store(folder: &Path) -> Store {
        Store::open(&DataFolder::choose(Some(folder)).unwrap()).unwrap()
    }

    fn line(what: What) -> Entry {
        Entry {
            at: "2025-03-03T18:00:00.123Z".parse().unwrap(),
            what,
        }
    }

    fn weighed(slot: u32, grams: i64) -> Entry {
        line(What::Weighed {
            slot: Slot(slot),
            mass: Mass::from_grams(grams),
            temperature: None,
        })
    }

    fn titled(title: &str) -> Entry {
        line(What::Titled {
            title: title.to_owned(),
        })
    }

    #[test]
    fn a_batch_reads_back_after_closing() {
        let folder = tempfile::tempdir().unwrap();
        let (first, second) = {
            let mut store = store(folder.path());
            let first = store.begin_batch(Timestamp::UNIX_EPOCH).unwrap();
            let second = store.begin_batch(Timestamp::UNIX_EPOCH).unwrap();
            store.add_to_batch(first, &weighed(0, 500)).unwrap();
            store
                .add_to_batch(
                    first,
                    &line(What::Named {
                        slot: Slot(0),
                        ingredient: NamedAs(Ingredient::plain("soy beans").unwrap()),
                    }),
                )
                .unwrap();
            store.add_to_batch(first, &titled("Soy milk")).unwrap();
            store.add_to_batch(second, &titled("necks")).unwrap();
            (first, second)
        };
        let store = store(folder.path());
        let batch = store.batch(first).unwrap();
        assert_eq!(batch.title(), Some("Soy milk"));
        assert_eq!(batch.total(), Mass::from_grams(500));
        assert_eq!(batch.begun(), Some(line(What::Turned).at));
        let all: Vec<BatchId> = store
            .batches()
            .unwrap()
            .into_iter()
            .map(|(id, _)| id)
            .collect();
        assert_eq!(all, [second, first]);
        assert_eq!(store.batches_titled("soy MILK").unwrap().len(), 1);
        assert!(matches!(
            store.batch(BatchId(9)),
            Err(StoreError::UnknownBatch(_))
        ));
    }

    #[test]
    fn a_line_that_makes_no_sense_is_not_kept() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = store(folder.path());
        let id = store.begin_batch(Timestamp::UNIX_EPOCH).unwrap();
        store.add_to_batch(id, &weighed(0, 500)).unwrap();
        let error = store.add_to_batch(id, &weighed(0, -501)).unwrap_err();
        assert!(
            matches!(error, StoreError::Batch(BatchError::NotThere { .. })),
            "{error}"
        );
        assert!(error.is_bad_input());
        assert_eq!(store.batch(id).unwrap().entries().count(), 1);
    }

    #[test]
    fn nothing_is_rewritten_or_deleted() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = store(folder.path());
        let id = store.begin_batch(Timestamp::UNIX_EPOCH).unwrap();
        store.add_to_batch(id, &weighed(0, 500)).unwrap();
        for sql in [
            "DELETE FROM batch_line",
            "UPDATE batch_line SET at = 0",
            "DELETE FROM batch",
        ] {
            let error = store.connection.execute(sql, []).unwrap_err();
            assert!(error.to_string().contains("never"), "{sql}: {error}");
        }
    }

    #[test]
    fn a_line_changed_by_hand_is_an_error_and_never_a_guess() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = store(folder.path());
        let id = store.begin_batch(Timestamp::UNIX_EPOCH).unwrap();
        store.add_to_batch(id, &weighed(0, 500)).unwrap();
        store
            .connection
            .execute(
                "INSERT INTO batch_line (batch, line, at, what) VALUES (?1, 1, 0, '{\"what\":\"melted\"}')",
                [id.0],
            )
            .unwrap();
        assert!(matches!(store.batch(id), Err(StoreError::Senseless { .. })));
    }
}
