//! Counts to a weight: calibration, filter, stability, zero, tare, overload.
//!
//! [`Chain`] is all of it in one: it takes a conversion and a time and gives a
//! [`Weight`] or a fault.

pub mod calibration;
mod chain;
mod filter;
mod history;
mod noise;
pub mod settings;
pub mod tare;
pub mod weight;
mod zero;

pub use calibration::{Calibration, CalibrationError, Point};
pub use chain::{Chain, SettledCounts};
pub use settings::{Settings, SettingsError};
pub use tare::Tare;
pub use weight::Weight;
