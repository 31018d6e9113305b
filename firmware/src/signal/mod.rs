//! Counts to a weight: calibration, filter, stability, zero, tare, overload.

pub mod weight;

pub use weight::Weight;
