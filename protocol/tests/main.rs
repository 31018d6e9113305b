//! The messages and frames as both ends have them, in one test program: each takes a while to link.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod golden_frames;
#[cfg(feature = "hash-chain")]
mod hash_chain;
#[cfg(feature = "hash-chain")]
mod versions;
mod wire;
