//! Small ratios.

use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// A ratio in parts per million; 0.02 % is 200.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PartsPerMillion(pub i32);

impl PartsPerMillion {
    /// This part of a mass.
    #[must_use]
    pub fn of(self, mass: Mass) -> Mass {
        mass.fraction(i64::from(self.0), 1_000_000)
            .unwrap_or(Mass::MAX)
    }

    /// This ratio as a number: 1 000 parts per million are 0.001.
    #[must_use]
    pub fn value(self) -> f64 {
        f64::from(self.0) / 1e6
    }

    /// The nearest ratio to a number, or `None` where it does not fit.
    #[must_use]
    pub fn from_value(value: f64) -> Option<Self> {
        let parts = libm::round(value * 1e6);
        (libm::fabs(parts) <= f64::from(i32::MAX)).then_some(Self(parts as i32))
    }
}

/// A mass times a number; saturates where it does not fit.
#[cfg(feature = "calibration")]
pub(super) fn scaled(mass: Mass, factor: f64) -> Mass {
    Mass::from_fractional_grams(mass.grams() * factor).unwrap_or(Mass::MAX)
}
