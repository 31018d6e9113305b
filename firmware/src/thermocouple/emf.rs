//! The voltage of a thermocouple.

use core::ops::{Add, Neg, Sub};

/// A thermoelectric voltage in whole nanovolts.
///
/// A nanovolt is 0.03 m°C of a type K and 0.4 m°C of a type B at the cold end
/// of its use, so rounding to it is lost in a temperature of whole
/// millidegrees. The highest of any type here is 76.4 mV. Arithmetic saturates.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Emf(i64);

impl Emf {
    /// No voltage: both junctions at one temperature.
    pub const ZERO: Self = Self(0);

    /// A voltage of so many nanovolts.
    #[must_use]
    pub const fn from_nanovolts(nanovolts: i64) -> Self {
        Self(nanovolts)
    }

    /// The nearest voltage to a fractional number of millivolts, or `None`
    /// where the number is not finite or does not fit.
    #[must_use]
    pub fn from_millivolts(millivolts: f64) -> Option<Self> {
        let nanovolts = libm::round(millivolts * 1e6);
        (-9.2e18..9.2e18)
            .contains(&nanovolts)
            .then_some(Self(nanovolts as i64))
    }

    /// This voltage in nanovolts.
    #[must_use]
    pub const fn nanovolts(self) -> i64 {
        self.0
    }

    /// This voltage in millivolts.
    #[must_use]
    pub fn millivolts(self) -> f64 {
        self.0 as f64 / 1e6
    }
}

impl Add for Emf {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Emf {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Emf {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}
