//! The simulated bench: a physical model of load and temperature, and models
//! of the chips that read it.
//!
//! Without the feature `std` there are only
//!
//! - [`chips`]: the two converters, bit by bit, behind embedded-hal traits, so
//!   that the real drivers read them on the host and on a target alike;
//! - [`feed`]: the messages that bring conversions to an emulated board.
//!
//! Nothing here reads a clock: simulated time is whatever it is told to be.
#![cfg_attr(not(feature = "std"), no_std)]
#![forbid(unsafe_code)]

pub mod chips;
pub mod feed;
