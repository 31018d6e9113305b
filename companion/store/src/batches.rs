//! Batches on record, line by line.

use super::columns::{Reads, from_json, time_to};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::batch::{Batch, BatchError, BatchId, Entry, What, same_title};
use jiff::Timestamp;
use rusqlite::{Connection, OptionalExtension, params};
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
            let mut batch = read(transaction, path, id)?;
            let at = Reads(path).time(time_to(entry.at))?;
            let line = batch.entries().count();
            let what = entry.what.clone().as_kept().map_err(BatchError::Words)?;
            let entry = Entry { at, what };
            let what = serde_json::to_string(&entry.what)
                .map_err(|_| Reads(path).senseless("batch line"))?;
            batch.add(entry)?;
            transaction
                .execute(
                    "INSERT INTO batch_line (batch, line, at, what) VALUES (?1, ?2, ?3, ?4)",
                    params![id.0, line as i64, time_to(at), what],
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
            .prepare_cached("SELECT id FROM batch ORDER BY id DESC")
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
    connection
        .prepare_cached("SELECT 1 FROM batch WHERE id = ?1")
        .and_then(|mut select| select.query_row([id.0], |_| Ok(())).optional())
        .at(path)?
        .ok_or_else(|| StoreError::UnknownBatch(id.to_string()))?;
    let lines = connection
        .prepare_cached("SELECT at, what FROM batch_line WHERE batch = ?1 ORDER BY line")
        .and_then(|mut select| {
            select
                .query_map([id.0], |row| Ok((row.get(0)?, row.get(1)?)))?
                .collect::<rusqlite::Result<Vec<(i64, String)>>>()
        })
        .at(path)?;
    let reads = Reads(path);
    let entries = lines
        .into_iter()
        .map(|(at, what)| {
            let what: What = from_json(&what).map_err(|_| reads.senseless("batch line"))?;
            Ok(Entry {
                at: reads.time(at)?,
                what,
            })
        })
        .collect::<Result<Vec<_>, StoreError>>()?;
    Batch::from_entries(entries).map_err(|_| reads.senseless("batch"))
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
