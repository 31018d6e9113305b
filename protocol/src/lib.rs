//! What the instrument and the desktop say to each other.
//!
//! Read in the order the data meets it:
//!
//! 1. [`quantity`]: mass and temperature as exact integers, so that both ends
//!    agree to the last digit;
//! 2. [`time`] and [`identity`]: clocks and the names that make a portion
//!    count once however often it is sent;
//! 3. [`goal`]: target, tolerance and the verdict on a mass;
//! 4. [`report`] (instrument to desktop) and [`command`] (desktop to
//!    instrument): the messages, and [`hash_chain`]: how a portion bears
//!    witness to the one before;
//! 5. [`frame`]: one message as bytes, and [`reader`]: bytes as messages
//!    again, whatever garbage lies between;
//! 6. [`version`]: who may talk to whom;
//! 7. [`accuracy`]: how wrong a scale may be, which both ends hold figures
//!    against.
//!
//! The wire format is written down in `protocol/WIRE.md`, apart from this
//! code. The crate needs no allocator and no standard library.
#![no_std]
#![forbid(unsafe_code)]

pub mod accuracy;
pub mod calibration;
pub mod command;
#[cfg(feature = "upkeep")]
pub mod diagnosis;
pub mod fault;
pub mod frame;
pub mod goal;
pub mod hash_chain;
pub mod identity;
pub mod quantity;
pub mod reader;
pub mod report;
pub mod time;
pub mod version;

pub use accuracy::{AccuracyClass, VerificationInterval};
pub use calibration::{
    Calibrating, CalibrationError, CalibrationMade, KnownWeight, PointTaken, ProbeType, SelfTest,
    SelfTestOutcome, SelfTestRefusal, Setting, TestWeights,
};
pub use command::{Command, Refusal};
#[cfg(feature = "upkeep")]
pub use diagnosis::{Diagnosis, StartReason};
pub use fault::Fault;
pub use frame::{Envelope, Message};
pub use goal::{Goal, GoalError, Mode, Tolerance, Verdict};
pub use hash_chain::ChainLink;
pub use identity::{DeviceId, Epoch, PortionId, RunId};
pub use quantity::{Mass, Temperature};
pub use reader::{FrameError, Reader};
pub use report::{CapturedPortion, Hello, Notice, Phase, Reading, Report};
pub use time::{UnixMillis, Uptime};
pub use version::{OtherMajor, Version};

/// The readme's example is run with the tests.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
