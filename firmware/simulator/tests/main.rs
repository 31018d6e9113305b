//! The simulated bench, in one test program: each takes a while to link.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod chips;
mod faulty_link;
mod feed;
mod flash;
mod instrument;
mod ledger;
mod practice;
mod scenario;
mod simulated_portions;
mod world;
