//! What kind of scale the chain serves.

use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// The scale's own figures. `d` and `e` are the letters of OIML R 76-1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Settings {
    /// Max: the most that may be weighed. Above zero.
    pub capacity: Mass,
    /// The display interval, `d`. Above zero.
    pub interval: Mass,
    /// The verification interval, `e`: what the error limits are counted in.
    /// From `d` to 10 `d`.
    pub verification_interval: Mass,
    /// Conversions per second that the bridge converter gives; 1 to 1 000.
    pub rate: u16,
    /// How long a load must have been still before it is called stable, in
    /// milliseconds. Longer is surer and slower.
    pub settle_millis: u16,
    /// The largest standard uncertainty from noise that a stable reading may
    /// have.
    pub steadiness: Mass,
    /// Whether the zero follows a slow drift of the empty pan.
    pub zero_tracking: bool,
    /// Whether the empty pan is taken as zero at start.
    pub initial_zero: bool,
}

impl Settings {
    /// A bench scale on a 1 kg single-point cell and a 24-bit converter at 80
    /// conversions a second.
    pub const BENCH_1KG: Self = Self {
        capacity: Mass::from_grams(1_000),
        interval: Mass::from_milligrams(100),
        verification_interval: Mass::from_grams(1),
        rate: 80,
        settle_millis: 400,
        steadiness: Mass::from_milligrams(10),
        zero_tracking: true,
        initial_zero: true,
    };

    /// Samples in a tenth of a second, at least one. A mean over a whole
    /// number of these holds whole periods of 50 and of 60 Hz, so both cancel,
    /// aliased or not.
    #[must_use]
    pub const fn block(&self) -> u16 {
        let block = self.rate / 10;
        if block == 0 { 1 } else { block }
    }
}

impl Default for Settings {
    fn default() -> Self {
        Self::BENCH_1KG
    }
}
