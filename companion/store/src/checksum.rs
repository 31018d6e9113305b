//! The checksum of a row, as a function of SQL, so that writing, bringing an
//! old store up to date and checking reckon it in one place.
//!
//! The first eight bytes of SHA-256 (FIPS 180-4) over each value with its type
//! before it. It finds a bit that turned and a figure changed by hand; it does
//! not keep out somebody who reckons it anew.

use rusqlite::Connection;
use rusqlite::functions::{Context, FunctionFlags};
use rusqlite::types::ValueRef;
use sha2::{Digest, Sha256};

/// The columns of a portion that its checksum is of, in order.
pub(super) const OF_PORTION: &str = "start, number, run, mode, mass, target, below, above, uptime, \
     time, time_source, temperature, doubts, uncertainty, left_on_pan, corrects, recorded";
/// The columns of a strike that its checksum is of, in order.
pub(super) const OF_STRIKE: &str = "portion, at, reason, undone";

/// Teaches a connection `portion_checksum` and `strike_checksum`.
pub(super) fn teach(connection: &Connection) -> rusqlite::Result<()> {
    let flags = FunctionFlags::SQLITE_UTF8
        | FunctionFlags::SQLITE_DETERMINISTIC
        | FunctionFlags::SQLITE_INNOCUOUS;
    connection.create_scalar_function("portion_checksum", 17, flags, |row| {
        Ok(checksum(b"portion", row))
    })?;
    connection.create_scalar_function("strike_checksum", 4, flags, |row| {
        Ok(checksum(b"strike", row))
    })
}

fn checksum(table: &[u8], row: &Context<'_>) -> i64 {
    let mut hash = Sha256::new();
    hash.update(table);
    for column in 0..row.len() {
        match row.get_raw(column) {
            ValueRef::Null => hash.update([0]),
            ValueRef::Integer(number) => {
                hash.update([1]);
                hash.update(number.to_be_bytes());
            }
            ValueRef::Real(number) => {
                hash.update([2]);
                hash.update(number.to_be_bytes());
            }
            ValueRef::Text(bytes) => {
                hash.update([3]);
                hash.update((bytes.len() as u64).to_be_bytes());
                hash.update(bytes);
            }
            ValueRef::Blob(bytes) => {
                hash.update([4]);
                hash.update((bytes.len() as u64).to_be_bytes());
                hash.update(bytes);
            }
        }
    }
    let whole: [u8; 32] = hash.finalize().into();
    let mut first = [0; 8];
    first.copy_from_slice(&whole[..8]);
    i64::from_be_bytes(first)
}
