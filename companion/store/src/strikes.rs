//! Striking portions out, and taking that back.

use super::columns::{device_from, device_to, time_to};
use super::corrections::link_family;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::portion::{RecordedPortion, StrikeReason};
use evenhand_protocol::{Epoch, PortionId, RunId};
use jiff::Timestamp;
use rusqlite::{OptionalExtension, Transaction, params};
use std::path::Path;

impl Store {
    /// Strikes a portion out: it stays on record with the reason and counts no
    /// more.
    ///
    /// # Errors
    /// [`StoreError::UnknownPortion`], [`StoreError::StruckAlready`], or where
    /// the store cannot be written.
    pub fn strike(
        &mut self,
        id: PortionId,
        reason: &StrikeReason,
        at: Timestamp,
    ) -> Result<RecordedPortion, StoreError> {
        self.write(|transaction, path| strike(transaction, path, id, reason, false, at))?;
        self.portion(id)
    }

    /// Undoes the last portion that counts, of a run or of all that were recorded here: it is struck
    /// out as if it had not been made, so that what it corrected, if it was a
    /// correction, counts again.
    ///
    /// # Errors
    /// [`StoreError::NothingToUndo`], or where the store cannot be written.
    pub fn undo_last(
        &mut self,
        run: Option<RunId>,
        at: Timestamp,
    ) -> Result<RecordedPortion, StoreError> {
        let id = self.write(|transaction, path| {
            let last = transaction
                .query_row(
                    "SELECT s.device, s.epoch, p.number
                     FROM portion p JOIN start s ON s.id = p.start JOIN run r ON r.seq = p.run
                     WHERE (?1 IS NULL OR r.id = ?1)
                       AND p.seq NOT IN (SELECT seq FROM gathered_portion)
                       AND NOT EXISTS (SELECT 1 FROM strike k
                                       WHERE k.portion = p.seq AND k.lifted IS NULL)
                       AND (p.replaced_by IS NULL
                            OR EXISTS (SELECT 1 FROM strike k
                                       WHERE k.portion = p.replaced_by AND k.lifted IS NULL
                                         AND k.undone))
                     ORDER BY r.seq DESC, p.start DESC, p.number DESC LIMIT 1",
                    [run.map(|run| i64::from(run.0))],
                    |row| {
                        Ok(PortionId {
                            device: device_from(row.get(0)?),
                            epoch: Epoch(row.get(1)?),
                            number: row.get(2)?,
                        })
                    },
                )
                .optional()
                .at(path)?
                .ok_or(StoreError::NothingToUndo)?;
            strike(transaction, path, last, &StrikeReason::undone(), true, at)?;
            Ok(last)
        })?;
        self.portion(id)
    }

    /// Lets a struck-out portion count again. That it was struck out stays on
    /// record.
    ///
    /// # Errors
    /// [`StoreError::UnknownPortion`], [`StoreError::NotStruck`], or where the
    /// store cannot be written.
    pub fn lift_strike(
        &mut self,
        id: PortionId,
        at: Timestamp,
    ) -> Result<RecordedPortion, StoreError> {
        self.write(|transaction, path| {
            let seq = seq(transaction, path, id)?;
            let lifted = transaction
                .execute(
                    "UPDATE strike SET lifted = ?2 WHERE portion = ?1 AND lifted IS NULL",
                    [seq, time_to(at)],
                )
                .at(path)?;
            if lifted == 0 {
                return Err(StoreError::NotStruck(id.to_string()));
            }
            link_family(transaction, path, seq)
        })?;
        self.portion(id)
    }
}

fn seq(transaction: &Transaction<'_>, path: &Path, id: PortionId) -> Result<i64, StoreError> {
    transaction
        .query_row(
            "SELECT p.seq FROM portion p JOIN start s ON s.id = p.start
             WHERE s.device = ?1 AND s.epoch = ?2 AND p.number = ?3",
            [
                device_to(id.device),
                i64::from(id.epoch.0),
                i64::from(id.number),
            ],
            |row| row.get(0),
        )
        .optional()
        .at(path)?
        .ok_or_else(|| StoreError::UnknownPortion(id.to_string()))
}

fn strike(
    transaction: &Transaction<'_>,
    path: &Path,
    id: PortionId,
    reason: &StrikeReason,
    undone: bool,
    at: Timestamp,
) -> Result<(), StoreError> {
    let seq = seq(transaction, path, id)?;
    let struck = transaction
        .execute(
            "INSERT INTO strike (portion, at, reason, undone, checksum)
             SELECT ?1, ?2, ?3, ?4, strike_checksum(?1, ?2, ?3, ?4)
             WHERE NOT EXISTS (SELECT 1 FROM strike WHERE portion = ?1 AND lifted IS NULL)",
            params![seq, time_to(at), reason.as_str(), undone],
        )
        .at(path)?;
    if struck == 0 {
        return Err(StoreError::StruckAlready(id.to_string()));
    }
    if undone {
        link_family(transaction, path, seq)?;
    }
    Ok(())
}
