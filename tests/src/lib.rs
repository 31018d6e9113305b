//! End-to-end tests and checks against published sources.
//!
//! [`process`] starts the real programs and [`emulated_board`] the real
//! firmware; each file under `tests/` is one story told with them.
#![forbid(unsafe_code)]

pub mod board_log;
pub mod busy_table;
pub mod emulated_board;
pub mod flashed_board;
pub mod little_desktop;
pub mod measured;
pub mod outside;
pub mod power_cuts;
pub mod process;
pub mod relay;
