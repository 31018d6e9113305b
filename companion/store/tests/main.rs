//! What is kept, in one test program: each takes a while to link.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod corrections;
mod gather;
mod hash_chain;
mod imports;
mod keeping;
mod reckoning;
mod store;
