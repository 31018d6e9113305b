//! From counts to mass.

use crate::sensor::Counts;
use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// One known load and what the bridge read under it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// The true load; zero for the empty pan.
    pub load: Mass,
    /// The settled mean of the counts under it.
    pub counts: f64,
    /// Standard uncertainty of `counts` from noise, in counts.
    pub counts_uncertainty: f64,
    /// Standard uncertainty of the load.
    pub load_uncertainty: Mass,
}

impl Point {
    /// A point whose own uncertainty is not known or does not matter.
    #[must_use]
    pub fn exact(load: Mass, counts: Counts) -> Self {
        Self {
            load,
            counts: f64::from(counts.0),
            counts_uncertainty: 0.0,
            load_uncertainty: Mass::ZERO,
        }
    }
}

/// Why points make no calibration.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum CalibrationError {
    /// Fewer than two points.
    TooFewPoints,
    /// No point is the empty pan.
    NoZero,
    /// A load is negative.
    NegativeLoad,
    /// A number is not finite, or an uncertainty is negative.
    NotANumber,
    /// Two loads differ, but their counts hardly do (or the other way round):
    /// the cell is not connected, or a weight was not on the pan.
    NoSpan,
}

impl core::fmt::Display for CalibrationError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::TooFewPoints => {
                "a calibration needs the empty pan and at least one known weight"
            }
            Self::NoZero => "the empty pan is missing from the calibration points",
            Self::NegativeLoad => "a calibration weight cannot be below zero",
            Self::NotANumber => "a calibration point holds a number that is not finite",
            Self::NoSpan => {
                "the reading hardly changed between two weights: check that the weight was on the pan and the load cell is connected"
            }
        })
    }
}

impl core::error::Error for CalibrationError {}

/// The line from counts to mass.
///
/// Two points for now: the empty pan and one known weight.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Calibration {
    /// Counts of the empty pan.
    zero: f64,
    /// Micrograms a count.
    slope: f64,
    /// Relative standard uncertainty of the slope.
    relative: f64,
}

impl Calibration {
    /// Fewest counts between the empty pan and a weight that make a span.
    const FEWEST_COUNTS: f64 = 1_000.0;

    /// A calibration from the empty pan and known weights.
    ///
    /// # Errors
    /// [`CalibrationError`] where the points do not make one.
    pub fn from_points(points: &[Point]) -> Result<Self, CalibrationError> {
        if points.len() < 2 {
            return Err(CalibrationError::TooFewPoints);
        }
        for point in points {
            if !point.counts.is_finite()
                || !point.counts_uncertainty.is_finite()
                || point.counts_uncertainty < 0.0
                || point.load_uncertainty.is_negative()
            {
                return Err(CalibrationError::NotANumber);
            }
            if point.load.is_negative() {
                return Err(CalibrationError::NegativeLoad);
            }
        }
        let zero = points
            .iter()
            .find(|point| point.load == Mass::ZERO)
            .ok_or(CalibrationError::NoZero)?;
        let top = points
            .iter()
            .max_by_key(|point| point.load)
            .ok_or(CalibrationError::TooFewPoints)?;
        let span = top.counts - zero.counts;
        let load = top.load.micrograms() as f64;
        if top.load == Mass::ZERO || libm::fabs(span) < Self::FEWEST_COUNTS {
            return Err(CalibrationError::NoSpan);
        }
        let weight = top.load_uncertainty.micrograms() as f64 / load;
        let high = top.counts_uncertainty / span;
        let low = zero.counts_uncertainty / span;
        Ok(Self {
            zero: zero.counts,
            slope: load / span,
            relative: libm::sqrt(weight * weight + high * high + low * low),
        })
    }

    /// Counts of the empty pan when it was calibrated.
    #[must_use]
    pub fn zero_counts(&self) -> f64 {
        self.zero
    }

    /// Counts a gram, near zero; negative for a cell wired the other way.
    #[must_use]
    pub fn counts_per_gram(&self) -> f64 {
        1e6 / self.slope
    }

    /// The load that moves the bridge by so many counts from the zero.
    #[must_use]
    pub fn mass_of(&self, counts_from_zero: f64) -> Mass {
        Mass::from_fractional_grams(counts_from_zero * self.slope / 1e6).unwrap_or(Mass::MAX)
    }

    /// Standard uncertainty that the calibration lends to a load.
    #[must_use]
    pub fn standard_uncertainty(&self, load: Mass) -> Mass {
        Mass::from_fractional_grams(libm::fabs(load.grams()) * self.relative).unwrap_or(Mass::MAX)
    }
}
