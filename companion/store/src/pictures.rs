//! Pictures of dishes and formulas.

use super::checksum;
use super::columns::{Reads, time_to};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::book::{PictureId, Pictured};
use jiff::Timestamp;
use rusqlite::{Connection, Transaction, params};
use std::path::Path;

/// A picture on record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptPicture {
    /// Its number.
    pub id: PictureId,
    /// What it is of, and what stands under it.
    pub pictured: Pictured,
    /// The picture itself, as JPEG.
    pub image: Vec<u8>,
    /// When it was added.
    pub added: Timestamp,
}

impl Store {
    /// Puts a picture on record.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn add_picture(
        &mut self,
        pictured: &Pictured,
        image: &[u8],
        at: Timestamp,
    ) -> Result<PictureId, StoreError> {
        self.write(|transaction, path| add(transaction, path, pictured, image, at))
    }

    /// Takes a picture off: it stays on record and is shown no more.
    ///
    /// # Errors
    /// [`StoreError::UnknownPicture`], or where the store cannot be written.
    pub fn take_picture_off(&mut self, id: PictureId, at: Timestamp) -> Result<(), StoreError> {
        self.write(|transaction, path| match off(transaction, path, id, at)? {
            0 => Err(StoreError::UnknownPicture(id)),
            _ => Ok(()),
        })
    }

    /// Takes every picture of the name off and puts others in their place, all
    /// or none of it.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn put_pictures(
        &mut self,
        key: &str,
        pictures: &[(Pictured, Vec<u8>)],
        at: Timestamp,
    ) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            for kept in shown(transaction, path, Some(key))? {
                off(transaction, path, kept.id, at)?;
            }
            for (pictured, image) in pictures {
                add(transaction, path, pictured, image, at)?;
            }
            Ok(())
        })
    }

    /// The pictures that are shown, of one name by its key or of every one, in
    /// the order they were added.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn pictures(&self, key: Option<&str>) -> Result<Vec<KeptPicture>, StoreError> {
        shown(&self.connection, &self.path, key)
    }
}

fn add(
    transaction: &Transaction<'_>,
    path: &Path,
    pictured: &Pictured,
    image: &[u8],
    at: Timestamp,
) -> Result<PictureId, StoreError> {
    let (of, caption, added) = (pictured.of(), pictured.caption(), time_to(at));
    transaction
        .execute(
            "INSERT INTO picture (of, key, caption, image, added, checksum)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            params![
                of,
                pictured.key(),
                caption,
                image,
                added,
                checksum::of_picture(of, caption, image, added)
            ],
        )
        .at(path)?;
    Ok(PictureId(transaction.last_insert_rowid()))
}

/// How many were taken off: one, or none that was shown.
fn off(
    transaction: &Transaction<'_>,
    path: &Path,
    id: PictureId,
    at: Timestamp,
) -> Result<usize, StoreError> {
    transaction
        .execute(
            "INSERT INTO picture_off (picture, at) SELECT id, ?2 FROM picture
             WHERE id = ?1 AND id NOT IN (SELECT picture FROM picture_off)",
            [id.0, time_to(at)],
        )
        .at(path)
}

fn shown(
    connection: &Connection,
    path: &Path,
    key: Option<&str>,
) -> Result<Vec<KeptPicture>, StoreError> {
    let reads = Reads(path);
    let mut select = connection
        .prepare_cached(
            "SELECT id, of, caption, image, added FROM picture
             WHERE (?1 IS NULL OR key = ?1) AND id NOT IN (SELECT picture FROM picture_off)
             ORDER BY stamp",
        )
        .at(path)?;
    let mut rows = select.query([key]).at(path)?;
    let mut shown = Vec::new();
    while let Some(row) = rows.next().at(path)? {
        let of: String = row.get(1).at(path)?;
        let caption: String = row.get(2).at(path)?;
        shown.push(KeptPicture {
            id: PictureId(row.get(0).at(path)?),
            pictured: Pictured::new(&of, &caption)
                .map_err(|_| reads.senseless("picture's name or caption"))?,
            image: row.get(3).at(path)?,
            added: reads.time(row.get(4).at(path)?)?,
        });
    }
    Ok(shown)
}

/// Pictures, also those taken off, that do not read as they were written.
pub(super) fn changed(connection: &Connection) -> rusqlite::Result<Vec<PictureId>> {
    let mut select =
        connection.prepare("SELECT id, of, caption, image, added, checksum FROM picture")?;
    let mut rows = select.query([])?;
    let mut changed = Vec::new();
    while let Some(row) = rows.next()? {
        let text = |place| Ok::<_, rusqlite::Error>(row.get_ref(place)?.as_bytes()?);
        let reckoned = checksum::of_picture_bytes(text(1)?, text(2)?, text(3)?, row.get(4)?);
        if reckoned != row.get::<_, i64>(5)? {
            changed.push(PictureId(row.get(0)?));
        }
    }
    Ok(changed)
}
