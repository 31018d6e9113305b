//! End-to-end tests and checks against published sources.
//!
//! [`process`] starts the real programs; each file under `tests/` is one story
//! told with them.
#![forbid(unsafe_code)]

pub mod process;
