//! How wrong a scale may be, by its accuracy class.
//!
//! Two intervals that are easily mixed up: the display interval `d` is the
//! smallest step on the display; the verification interval `e` is what the
//! error limits are counted in, and is from `d` to 10 `d` (OIML R 76-1:2006,
//! 3.4.2, from memory). A limit counted in `d` is up to ten times too narrow, so
//! the limits here take a [`VerificationInterval`] and never a bare mass.

use crate::Mass;
use serde::{Deserialize, Serialize};

/// The interval `e` that the error limits of a scale are counted in, and how it
/// is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct VerificationInterval {
    interval: Mass,
    told: bool,
}

impl VerificationInterval {
    /// The most display intervals that a verification interval may be.
    pub const MOST_DISPLAY_INTERVALS: i64 = 10;

    /// The interval that the scale, or the plate on it, states.
    #[must_use]
    pub const fn told(interval: Mass) -> Self {
        Self {
            interval,
            told: true,
        }
    }

    /// The coarsest that a scale with this display interval may have, where it
    /// is not told: ten display intervals. Whoever uses it says so.
    #[must_use]
    pub const fn coarsest(display_interval: Mass) -> Self {
        Self {
            interval: display_interval.times(Self::MOST_DISPLAY_INTERVALS),
            told: false,
        }
    }

    /// The interval.
    #[must_use]
    pub const fn mass(self) -> Mass {
        self.interval
    }

    /// Whether the scale stated it. `false` where it was taken to be the
    /// coarsest that the display allows.
    #[must_use]
    pub const fn is_told(self) -> bool {
        self.told
    }
}

/// Accuracy class of a weighing instrument (OIML R 76-1, 3.1.1). The figures
/// are used as a yardstick: this is not a legal-for-trade scale, and one that
/// was never verified may be worse.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum AccuracyClass {
    /// High accuracy.
    II,
    /// Medium accuracy: shops and kitchens.
    III,
    /// Ordinary accuracy.
    IIII,
}

impl AccuracyClass {
    /// The loads, in verification intervals, up to which the limit is 0.5, 1
    /// and 1.5 intervals.
    const fn steps(self) -> [i64; 3] {
        match self {
            Self::II => [5_000, 20_000, 100_000],
            Self::III => [500, 2_000, 10_000],
            Self::IIII => [50, 200, 1_000],
        }
    }

    /// Maximum permissible error on initial verification, either way (OIML R
    /// 76-1:2006, Table 6, read from a page that quotes it). `None` for a load
    /// beyond what the class can have: nothing is known of its error there.
    #[must_use]
    pub fn initial(self, load: Mass, interval: VerificationInterval) -> Option<Mass> {
        let (load, interval) = (load.abs(), interval.mass());
        self.steps()
            .into_iter()
            .zip([1, 2, 3])
            .find(|(most, _)| load <= interval.times(*most))
            .and_then(|(_, halves)| interval.fraction(halves, 2))
    }

    /// Maximum permissible error of a scale in use, either way: twice that on
    /// initial verification (OIML R 76-1:2006, 3.5.2).
    ///
    /// ```
    /// use evenhand_protocol::{AccuracyClass, Mass, VerificationInterval};
    /// let e = VerificationInterval::told(Mass::from_grams(1));
    /// let most = AccuracyClass::III.in_service(Mass::from_grams(30), e);
    /// assert_eq!(most, Some(Mass::from_grams(1)));
    /// ```
    #[must_use]
    pub fn in_service(self, load: Mass, interval: VerificationInterval) -> Option<Mass> {
        self.initial(load, interval).map(|error| error.times(2))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// OIML R 76-1:2006, Table 6, at both sides of every step, e = 1 g.
    #[test]
    fn limits_are_those_of_the_table() {
        let e = VerificationInterval::told(Mass::from_grams(1));
        for (class, grams, tenths) in [
            (AccuracyClass::III, 0, Some(5)),
            (AccuracyClass::III, 500, Some(5)),
            (AccuracyClass::III, 501, Some(10)),
            (AccuracyClass::III, 2_000, Some(10)),
            (AccuracyClass::III, 2_001, Some(15)),
            (AccuracyClass::III, 10_000, Some(15)),
            (AccuracyClass::III, 10_001, None),
            (AccuracyClass::II, 5_000, Some(5)),
            (AccuracyClass::II, 20_001, Some(15)),
            (AccuracyClass::IIII, 51, Some(10)),
            (AccuracyClass::IIII, 1_001, None),
        ] {
            assert_eq!(
                class.initial(Mass::from_grams(grams), e),
                tenths.map(|n| Mass::from_milligrams(n * 100)),
                "{class:?} {grams}"
            );
        }
    }

    /// 3.5.2, on a scale that shows 0.1 g and is verified by 1 g: 1 g in service at 6 g, where
    /// the display's step taken for the verification interval would allow 0.1 g.
    #[test]
    fn an_untold_interval_is_ten_display_steps() {
        let load = Mass::from_grams(6);
        let told = VerificationInterval::told(Mass::from_grams(1));
        let untold = VerificationInterval::coarsest(Mass::from_milligrams(100));
        assert!(told.is_told() && !untold.is_told());
        for interval in [told, untold] {
            assert_eq!(
                AccuracyClass::III.in_service(load, interval),
                Some(Mass::from_grams(1))
            );
        }
    }
}
