//! The morning's test: one known weight.

use super::error_limits::AccuracyClass;
use super::uncertainty::{Budget, CellFigures};
use super::{Calibration, KnownLoad, Settings, Weight};
pub use evenhand_protocol::{SelfTest, SelfTestOutcome, SelfTestRefusal};

/// Compares a reading of a known weight, on the zeroed scale, with it.
///
/// # Errors
/// [`SelfTestRefusal`] where the comparison would say nothing. A test weight
/// may be out by at most a third of the limit it tests (OIML R 76-1, 3.7.1,
/// from memory); the lightest load for class III is 20 e (Table 3).
pub fn compare(
    known: &KnownLoad,
    weight: &Weight,
    calibration: &Calibration,
    figures: &CellFigures,
    settings: &Settings,
) -> Result<SelfTest, SelfTestRefusal> {
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
    Ok(SelfTest {
        known: known.mass(),
        indicated: weight.gross,
        limit,
        uncertainty: reading.expanded(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sensor::Counts;
    use crate::signal::{Point, WeightClass};
    use evenhand_protocol::{Mass, Uptime};

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
        compare(
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
