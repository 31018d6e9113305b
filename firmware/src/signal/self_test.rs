//! The morning's test: one known weight.

use super::error_limits::AccuracyClass;
use super::uncertainty::{Budget, CellFigures};
use super::{Calibration, KnownLoad, Settings, Weight};
use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// What a test with a known weight found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SelfTest {
    /// The known mass.
    pub known: Mass,
    /// What the scale said.
    pub indicated: Mass,
    /// The maximum permissible error in service at this load.
    pub limit: Mass,
    /// Expanded uncertainty (coverage factor 2) of the error: the weight's and
    /// the reading's together.
    pub uncertainty: Mass,
}

/// How a test came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SelfTestOutcome {
    /// Within the limit, whatever the uncertainty.
    Pass,
    /// The uncertainty reaches over the limit: repeat it.
    Doubtful,
    /// Beyond the limit, whatever the uncertainty: calibrate.
    Fail,
}

/// Why a test could not be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SelfTestRefusal {
    /// The load moved.
    NotStable,
    /// The weight is lighter than 20 verification intervals, too light to say
    /// anything of the span.
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

impl SelfTest {
    /// Compares a reading of a known weight, on the zeroed scale, with it.
    ///
    /// # Errors
    /// [`SelfTestRefusal`] where the comparison would say nothing. A test
    /// weight may be out by at most a third of the limit it tests (OIML
    /// R 76-1, 3.7.1, from memory); the lightest load for class III is 20 e
    /// (Table 3).
    pub fn compare(
        known: &KnownLoad,
        weight: &Weight,
        calibration: &Calibration,
        figures: &CellFigures,
        settings: &Settings,
    ) -> Result<Self, SelfTestRefusal> {
        if !weight.stable {
            return Err(SelfTestRefusal::NotStable);
        }
        if known.mass() < settings.verification_interval.times(20) {
            return Err(SelfTestRefusal::TooLight);
        }
        if known.mass() > settings.capacity {
            return Err(SelfTestRefusal::TooHeavy);
        }
        let limit = AccuracyClass::III
            .in_service(known.mass(), settings)
            .ok_or(SelfTestRefusal::TooHeavy)?;
        if known.limit().times(3) > limit {
            return Err(SelfTestRefusal::TooCoarse);
        }
        if (weight.gross - known.mass()).abs().times(10) > known.mass() {
            return Err(SelfTestRefusal::AnotherLoad);
        }
        // The calibration is what is tested, so its uncertainty is not a part of the test's.
        let reading = Budget {
            calibration: known.standard_uncertainty(),
            ..Budget::of_load(weight, calibration, figures)
        };
        Ok(Self {
            known: known.mass(),
            indicated: weight.gross,
            limit,
            uncertainty: reading.expanded(),
        })
    }

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sensor::Counts;
    use crate::signal::{Point, WeightClass};
    use evenhand_protocol::Uptime;

    fn test(indicated_milligrams: i64, known: &KnownLoad) -> Result<SelfTest, SelfTestRefusal> {
        let calibration = Calibration::from_points(&[
            Point::exact(Mass::ZERO, Counts(0)),
            Point::exact(Mass::from_grams(1_000), Counts(2_000_000)),
        ])
        .unwrap();
        let weight = Weight {
            at: Uptime::from_millis(0),
            gross: Mass::from_milligrams(indicated_milligrams),
            stable: true,
            noise: Mass::from_milligrams(4),
        };
        SelfTest::compare(
            known,
            &weight,
            &calibration,
            &CellFigures::TYPICAL_1KG,
            &Settings::BENCH_1KG,
        )
    }

    /// e = 1 g, class III, 500 g: the limit in service is 1 e = 1 g (OIML R 76-1, 3.5.2). The
    /// uncertainty at 500 g is mostly off centre (0.1 g), temperature (0.1 g) and creep
    /// (0.25 g), each over √3, doubled: 0.33 g.
    #[test]
    fn a_weight_passes_fails_or_leaves_doubt() {
        let known = KnownLoad::weight(WeightClass::M1, Mass::from_grams(500)).unwrap();
        for (milligrams, outcome) in [
            (500_000, SelfTestOutcome::Pass),
            (500_600, SelfTestOutcome::Pass),
            (499_200, SelfTestOutcome::Doubtful),
            (501_200, SelfTestOutcome::Doubtful),
            (501_500, SelfTestOutcome::Fail),
            (497_000, SelfTestOutcome::Fail),
        ] {
            let result = test(milligrams, &known).unwrap();
            assert_eq!(result.limit, Mass::from_grams(1));
            assert_eq!(result.error(), Mass::from_milligrams(milligrams - 500_000));
            assert_eq!(result.outcome(), outcome, "{milligrams} {result:?}");
        }
    }

    #[test]
    fn a_test_that_says_nothing_is_refused() {
        let light = KnownLoad::weight(WeightClass::M1, Mass::from_grams(10)).unwrap();
        assert_eq!(test(10_000, &light), Err(SelfTestRefusal::TooLight));
        let heavy = KnownLoad::weight(WeightClass::M1, Mass::from_grams(2_000)).unwrap();
        assert_eq!(test(2_000_000, &heavy), Err(SelfTestRefusal::TooHeavy));
        let coarse = KnownLoad::within(Mass::from_grams(500), Mass::from_grams(1));
        assert_eq!(test(500_000, &coarse), Err(SelfTestRefusal::TooCoarse));
        let known = KnownLoad::weight(WeightClass::M1, Mass::from_grams(500)).unwrap();
        assert_eq!(test(200_000, &known), Err(SelfTestRefusal::AnotherLoad));
    }
}
