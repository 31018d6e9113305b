//! Known weights, and what the instrument finds with them: calibration and the
//! morning's test.

use crate::{Goal, Mass};
use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// A load whose mass is known, to so much.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct KnownWeight {
    /// The mass; zero for the empty pan.
    pub mass: Mass,
    /// How far the true mass may be from it either way; not negative. For a
    /// weight of a class that is the class's maximum permissible error (OIML
    /// R 111-1, Table 1).
    pub limit: Mass,
}

impl KnownWeight {
    /// The empty pan.
    pub const NOTHING: Self = Self {
        mass: Mass::ZERO,
        limit: Mass::ZERO,
    };
}

/// One point of a calibration, as it was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PointTaken {
    /// The load that was said to be on the pan.
    pub load: Mass,
    /// The settled mean of the counts under it, in thousandths of a count.
    pub millicounts: i64,
    /// The mean's standard uncertainty from noise, in thousandths of a count.
    pub noise_millicounts: u32,
}

/// What a finished calibration comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct CalibrationMade {
    /// Points that it was made from.
    pub points: u8,
    /// Thousandths of a count for a gram, over the whole curve; negative for a
    /// cell wired the other way round.
    pub millicounts_per_gram: i64,
    /// The heaviest weight it was made with.
    pub heaviest: Mass,
    /// How far the curve is from a straight line at its furthest.
    pub nonlinearity: Mass,
    /// The largest distance of a point from the curve.
    pub residual: Mass,
    /// The calibration's own expanded uncertainty (coverage factor 2) at the
    /// heaviest weight, from the weights and the noise (JCGM 100).
    pub uncertainty: Mass,
}

/// How a calibration stands. Sent after each of its commands, and again twice a
/// second while it goes on and for three seconds after its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Calibrating {
    /// Points taken so far.
    pub points: u8,
    /// The last of them.
    pub last: Option<PointTaken>,
    /// What it came to, once it is finished.
    pub made: Option<CalibrationMade>,
}

/// Why points make no calibration.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum CalibrationError {
    /// Fewer than two points.
    TooFewPoints,
    /// More points than a calibration takes.
    TooManyPoints,
    /// No point is the empty pan.
    NoZero,
    /// A load is negative.
    NegativeLoad,
    /// A number is not finite, or an uncertainty is negative.
    NotANumber,
    /// Two loads differ, but their counts hardly do (or the other way round):
    /// the cell is not connected, or a weight was not on the pan.
    NoSpan,
    /// The points are further from a straight line than any sound cell is: a
    /// weight was not what it was said to be, or something touches the pan.
    NotStraight,
}

impl core::fmt::Display for CalibrationError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::TooFewPoints => {
                "a calibration needs the empty pan and at least one known weight"
            }
            Self::TooManyPoints => "a calibration takes at most sixteen points",
            Self::NoZero => "the empty pan is missing from the calibration points",
            Self::NegativeLoad => "a calibration weight cannot be below zero",
            Self::NotANumber => "a calibration point holds a number that is not finite",
            Self::NoSpan => {
                "the reading hardly changed between two weights: check that the weight was on the pan and the load cell is connected"
            }
            Self::NotStraight => {
                "the weights do not fit together: check that each was what you said, and that nothing touches the pan"
            }
        })
    }
}

impl core::error::Error for CalibrationError {}

/// What a test with a known weight found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SelfTest {
    /// The known mass.
    pub known: Mass,
    /// What the scale said.
    pub indicated: Mass,
    /// The most that the error may be at this load: what the accuracy class
    /// allows in service and what the dish's tolerance allows, whichever is less.
    pub limit: Mass,
    /// Expanded uncertainty (coverage factor 2) of the error: the weight's and
    /// the reading's together.
    pub uncertainty: Mass,
}

impl SelfTest {
    /// How far out the scale is: positive where it says too much.
    #[must_use]
    pub fn error(&self) -> Mass {
        self.indicated - self.known
    }

    /// How it came out.
    #[must_use]
    pub fn outcome(&self) -> SelfTestOutcome {
        let error = self.error().abs();
        if error + self.uncertainty <= self.limit {
            SelfTestOutcome::Pass
        } else if error - self.uncertainty <= self.limit {
            SelfTestOutcome::Doubtful
        } else {
            SelfTestOutcome::Fail
        }
    }
}

/// The known weights that a morning's test asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct TestWeights {
    /// About half of the capacity: it shows what the span has done.
    pub heavy: Mass,
    /// About a portion: it shows what matters to the plate. `None` where that is
    /// the same weight, or no dish is known.
    pub portion: Option<Mass>,
}

impl TestWeights {
    /// Display steps in the lightest weight that says something: one is 2 % then.
    const LIGHTEST_STEPS: i64 = 50;

    /// The weights to test a scale of this capacity and display interval with for a
    /// dish: of the sizes that sets of weights have, 1, 2 and 5 g and their tens.
    #[must_use]
    pub fn to_ask(capacity: Mass, interval: Mass, goal: Option<&Goal>) -> Self {
        let heavy = nearest_nominal(capacity.fraction(1, 2).unwrap_or(capacity));
        let portion = goal
            .map(|goal| nearest_nominal(goal.target().max(Self::lightest(interval))))
            .filter(|portion| *portion != heavy);
        Self { heavy, portion }
    }

    /// The lightest weight that says something on a scale of this display interval.
    #[must_use]
    pub fn lightest(interval: Mass) -> Mass {
        interval.times(Self::LIGHTEST_STEPS)
    }
}

/// The heaviest nominal mass that is not above this one; 1 g at least.
fn nearest_nominal(mass: Mass) -> Mass {
    let mut nominal = Mass::from_grams(1);
    for grams in [
        2, 5, 10, 20, 50, 100, 200, 500, 1_000, 2_000, 5_000, 10_000, 20_000,
    ] {
        let next = Mass::from_grams(grams);
        if next <= mass {
            nominal = next;
        }
    }
    nominal
}

/// How a test came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SelfTestOutcome {
    /// Within the limit, whatever the uncertainty.
    Pass,
    /// The uncertainty reaches over the limit: repeat it.
    Doubtful,
    /// Beyond the limit, whatever the uncertainty: calibrate.
    Fail,
}

impl SelfTestOutcome {
    /// The word for it: `pass`, `doubtful` or `fail`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Doubtful => "doubtful",
            Self::Fail => "fail",
        }
    }
}

/// Why a test could not be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum SelfTestRefusal {
    /// The load moved.
    NotStable,
    /// The weight is lighter than fifty display steps, too light to say anything.
    TooLight,
    /// The weight is heavier than the scale may weigh.
    TooHeavy,
    /// The weight itself may be out by more than a third of what the scale may
    /// be.
    TooCoarse,
    /// What is on the pan is not that weight: it is off by more than a tenth.
    AnotherLoad,
}

impl core::fmt::Display for SelfTestRefusal {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::NotStable => "the load was moving: wait until it is steady and ask again",
            Self::TooLight => "the test weight is too light to test this scale: use a heavier one",
            Self::TooHeavy => "the test weight is heavier than this scale may weigh",
            Self::TooCoarse => "the test weight is not exact enough for this scale: use a better class",
            Self::AnotherLoad => "what is on the pan is not that weight: zero the empty pan, put only the weight on, and ask again",
        })
    }
}

impl core::error::Error for SelfTestRefusal {}

/// A thermocouple's type (IEC 60584-1).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[allow(missing_docs, reason = "the letter is the name")]
#[non_exhaustive]
pub enum ProbeType {
    K,
    T,
    J,
    N,
    E,
    S,
    R,
    B,
}

/// A setting that the instrument keeps over a power cut, where it has a memory.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Setting {
    /// The probe's type. Matters only where the board's converter gives the raw
    /// voltage or can be told a type.
    Probe(ProbeType),
    /// Where the scale stands. With a calibration made elsewhere the
    /// difference of gravity is taken off.
    Place {
        /// Latitude in thousandths of a degree, south negative; -90 000 to
        /// 90 000.
        latitude_millidegrees: i32,
        /// Height above the sea in metres; -500 to 9 000.
        height_metres: i16,
    },
    /// Where the scale stands is not known.
    NoPlace,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Tolerance;

    /// Half of 1 kg, and for portions of 30 g the next lighter weight of a set; without a dish
    /// only the heavy one. A garnish of 1 g is lighter than anything that tests a scale of 0.1 g.
    #[test]
    fn half_the_capacity_and_a_portion_are_asked_for() {
        let grams = Mass::from_grams;
        let goal = |target| {
            Goal::new(
                grams(target),
                Tolerance::symmetric(Mass::from_milligrams(500)),
            )
        };
        let ask = |goal: Option<&Goal>| {
            TestWeights::to_ask(grams(1_000), Mass::from_milligrams(100), goal)
        };
        for (target, portion) in [(30, Some(20)), (1, Some(5)), (499, Some(200)), (500, None)] {
            let goal = goal(target).ok();
            assert!(goal.is_some(), "{target}");
            let asked = ask(goal.as_ref());
            assert_eq!(asked.heavy, grams(500));
            assert_eq!(asked.portion, portion.map(grams), "{target} g");
        }
        assert_eq!(ask(None).portion, None);
    }
}
