//! What holds the whole together, in one test program: each takes a while to link.
//!
//! `emulated_board`, `faults` and `flashed_image` keep time with the clock on the wall. They
//! are programs of their own, so that no other test takes the processor meanwhile.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod dependencies;
mod layers;
mod outside_checks;
#[cfg(target_os = "linux")]
mod privacy;
mod sixty_portions;
#[cfg(target_os = "linux")]
mod soak;
