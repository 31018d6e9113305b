//! The checksum of a row, as a function of SQL, so that writing, bringing an
//! old store up to date and checking reckon it in one place.
//!
//! The first eight bytes of SHA-256 (FIPS 180-4) over each value with its type
//! before it. It finds a bit that turned and a figure changed by hand; somebody
//! who reckons it anew is found by the portion made next (`hash_chain.rs`).

use rusqlite::Connection;
use rusqlite::functions::{Context, FunctionFlags};
use rusqlite::types::ValueRef;
use sha2::{Digest, Sha256};

/// The columns of a portion that its checksum is of, in order.
pub(super) const OF_PORTION: &str = "start, number, run, mode, mass, target, below, above, uptime, \
     time, time_source, temperature, doubts, uncertainty, left_on_pan, corrects, recorded";
/// How many they are.
pub(super) const PORTION_COLUMNS: usize = 17;
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

/// The checksum of a portion whose columns of [`OF_PORTION`] are these: as
/// `portion_checksum` reckons it, which knows of no link in a hash chain. A
/// link, position and digest, is part of it where there is one.
pub(super) fn of_portion(
    columns: &[Option<i64>; PORTION_COLUMNS],
    link: Option<(i64, i64)>,
) -> i64 {
    let mut sum = Checksum::of(b"portion");
    for column in columns {
        match column {
            None => sum.null(),
            Some(number) => sum.integer(*number),
        }
    }
    if let Some((position, previous)) = link {
        sum.integer(position);
        sum.integer(previous);
    }
    sum.done()
}

/// The checksum of a picture and what is said of it.
pub(super) fn of_picture(of: &str, caption: &str, image: &[u8], added: i64) -> i64 {
    of_picture_bytes(of.as_bytes(), caption.as_bytes(), image, added)
}

/// As [`of_picture`], of texts as they are in the store.
pub(super) fn of_picture_bytes(of: &[u8], caption: &[u8], image: &[u8], added: i64) -> i64 {
    let mut sum = Checksum::of(b"picture");
    sum.bytes(3, of);
    sum.bytes(3, caption);
    sum.bytes(4, image);
    sum.integer(added);
    sum.done()
}

fn checksum(table: &[u8], row: &Context<'_>) -> i64 {
    let mut sum = Checksum::of(table);
    for column in 0..row.len() {
        match row.get_raw(column) {
            ValueRef::Null => sum.null(),
            ValueRef::Integer(number) => sum.integer(number),
            ValueRef::Real(number) => sum.eight(2, number.to_be_bytes()),
            ValueRef::Text(bytes) => sum.bytes(3, bytes),
            ValueRef::Blob(bytes) => sum.bytes(4, bytes),
        }
    }
    sum.done()
}

struct Checksum(Sha256);

impl Checksum {
    fn of(table: &[u8]) -> Self {
        let mut hash = Sha256::new();
        hash.update(table);
        Self(hash)
    }

    fn null(&mut self) {
        self.0.update([0]);
    }

    fn integer(&mut self, number: i64) {
        self.eight(1, number.to_be_bytes());
    }

    fn eight(&mut self, kind: u8, bytes: [u8; 8]) {
        self.0.update([kind]);
        self.0.update(bytes);
    }

    fn bytes(&mut self, kind: u8, bytes: &[u8]) {
        self.eight(kind, (bytes.len() as u64).to_be_bytes());
        self.0.update(bytes);
    }

    fn done(self) -> i64 {
        let whole: [u8; 32] = self.0.finalize().into();
        let mut first = [0; 8];
        first.copy_from_slice(&whole[..8]);
        i64::from_be_bytes(first)
    }
}
