//! What really happened at the bench.

use evenhand_protocol::Mass;

/// Food that left and was no portion: a taste.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TrueTaste {
    /// When it was out, in microseconds of simulated time.
    pub at_micros: u64,
    /// How much.
    pub mass: Mass,
}

/// A portion as it really was.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TruePortion {
    /// Its number in the scenario, from 1.
    pub number: u32,
    /// When it was begun, in microseconds of simulated time.
    pub begun_micros: u64,
    /// When it was finished or last corrected, in microseconds of simulated
    /// time: the dish lifted, or the spoon out of the tin.
    pub at_micros: u64,
    /// The food in it, to the microgram.
    pub mass: Mass,
    /// The empty dish that it lies in; `None` when taking.
    pub dish: Option<Mass>,
    /// Whether the cook changed it after it was first finished.
    pub corrected: bool,
}
