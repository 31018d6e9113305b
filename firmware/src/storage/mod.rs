//! What outlives a power cut, in flash.
//!
//! Over the traits of `embedded-storage`, so that it runs on any flash, and on
//! `sequential-storage`, which only ever appends and checks every item by a
//! checksum: whatever was being written when the power went is there whole or
//! not at all.
//!
//! - [`FlashStore`]: the records and the queue of portions, each written whole;
//! - [`Persistence`]: keeps a flash store in step with an instrument, and starts an
//!   instrument from a flash store.
//!
//! What a power cut can and cannot do:
//!
//! | power goes | afterwards |
//! | --- | --- |
//! | while a record is written | the record is the old one or the new one |
//! | while a portion is written | it is there whole, or it never was: the few milliseconds after a capture are the only time in which one can be lost |
//! | while an acknowledgement is noted | the portion is sent once more; the desktop knows its identity and records it once |
//! | while a page is erased | it is erased again |
//!
//! Bytes that spoilt otherwise than by a cut are passed over by their checksums.
//! What is written is read again at once, and where it is not there the pages are
//! blanked and all that is known is written anew.
//!
//! The start's number is written before anything carries it. The first is drawn
//! at random, so that a flash that was wiped does not name portions as it did
//! before. Where it cannot be written, the board's own random number takes its
//! place, with its top bit set, which no counted number has.

mod blocking;
mod flash_store;
mod persistence;

pub use flash_store::{FlashStore, Layout, LayoutError, StorageError};
pub use persistence::{BootState, Persistence};
