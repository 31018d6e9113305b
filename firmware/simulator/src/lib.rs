//! The simulated bench: a physical model of load and temperature, and models
//! of the chips that read it.
//!
//! Without the feature `std` there are only
//!
//! - [`chips`]: the two converters, bit by bit, behind embedded-hal traits, so
//!   that the real drivers read them on the host and on a target alike;
//! - [`feed`]: the messages that bring conversions to an emulated board.
//!
//! With `std`, the default, there is the whole bench, in the order in which a
//! run passes through it:
//!
//! - [`scenario`]: a TOML file says what happens, a seed fixes the rest;
//! - [`world`]: the physical model, tick by tick, and its [`truth`];
//! - [`flash`]: what outlives a power cut;
//! - [`history`]: power that went and portions that were kept;
//! - [`instrument`]: the real firmware on it, behind a line of bytes;
//! - [`practice`]: what a person's hand does at it, in place of a scenario's cook;
//! - [`desk`]: the other end of the line, for tests and measurements;
//! - [`feeder`]: the same world for an emulated board;
//! - [`faulty_link`]: a cable that loses, spoils and delays what it carries.
//!
//! Nothing here reads a clock: simulated time is whatever it is told to be.
#![cfg_attr(not(feature = "std"), no_std)]
#![forbid(unsafe_code)]

pub mod chips;
pub mod feed;

#[cfg(feature = "std")]
pub mod desk;
#[cfg(feature = "std")]
pub mod faulty_link;
#[cfg(feature = "std")]
pub mod feeder;
#[cfg(feature = "std")]
pub mod flash;
#[cfg(feature = "std")]
pub mod history;
#[cfg(feature = "std")]
pub mod instrument;
#[cfg(feature = "std")]
pub mod practice;
#[cfg(feature = "std")]
mod random;
#[cfg(feature = "std")]
pub mod scenario;
#[cfg(feature = "std")]
mod start;
#[cfg(feature = "std")]
pub mod truth;
#[cfg(feature = "std")]
pub mod world;
