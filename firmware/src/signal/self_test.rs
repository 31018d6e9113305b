//! The morning's test: one known weight.

use super::uncertainty::{Budget, CellFigures};
use super::{AccuracyClass, Calibration, KnownLoad, Settings, Weight};
use evenhand_protocol::{Goal, Mass, TestWeights};
pub use evenhand_protocol::{SelfTest, SelfTestOutcome, SelfTestRefusal};

/// A scale may use up this share of what a dish allows: a third, as the weights
/// that test a scale may use up a third of what it is allowed (OIML R 76-1,
/// 3.7.1, from memory; for a dish common practice, no source).
const SHARE_OF_TOLERANCE: i64 = 3;
/// Where no dish is known, a scale that is out by more than one in so many is
/// not fit to portion with (common practice, no source).
const ONE_IN: i64 = 100;

/// The most that the error may be at this load: what the class allows in
/// service, and what the dish allows at its portion's size and in proportion
/// above it; without a dish one part in a hundred, but not less than two display
/// steps.
fn limit(load: Mass, settings: &Settings, goal: Option<&Goal>) -> Option<Mass> {
    let class = AccuracyClass::III.in_service(load, settings.verification())?;
    let fit = match goal {
        Some(goal) => {
            let target = goal.target();
            let narrow = (target - goal.lightest()).min(goal.heaviest() - target);
            let share = narrow.fraction(1, SHARE_OF_TOLERANCE)?;
            share.fraction(load.max(target).micrograms(), target.micrograms())?
        }
        None => load.fraction(1, ONE_IN)?,
    };
    Some(class.min(fit.max(settings.interval.times(2))))
}

/// Compares a reading of a known weight, on the zeroed scale, with it.
///
/// # Errors
/// [`SelfTestRefusal`] where the comparison would say nothing. A test weight
/// may be out by at most a third of the limit it tests (OIML R 76-1, 3.7.1,
/// from memory). With a `goal` the dish's tolerance counts as well.
pub fn compare(
    known: &KnownLoad,
    weight: &Weight,
    calibration: &Calibration,
    figures: &CellFigures,
    settings: &Settings,
    goal: Option<&Goal>,
) -> Result<SelfTest, SelfTestRefusal> {
    if !weight.stable {
        return Err(SelfTestRefusal::NotStable);
    }
    if known.mass() < TestWeights::lightest(settings.interval) {
        return Err(SelfTestRefusal::TooLight);
    }
    if known.mass() > settings.capacity {
        return Err(SelfTestRefusal::TooHeavy);
    }
    let limit = limit(known.mass(), settings, goal).ok_or(SelfTestRefusal::TooHeavy)?;
    if known.limit().times(3) > limit {
        return Err(SelfTestRefusal::TooCoarse);
    }
    if (weight.gross - known.mass()).abs().times(10) > known.mass() {
        return Err(SelfTestRefusal::AnotherLoad);
    }
    // The calibration and the cell's own curve are what is tested, so what they are uncertain
    // by is no part of the test's.
    let reading = Budget {
        calibration: known.standard_uncertainty(),
        nonlinearity: Mass::ZERO,
        hysteresis: Mass::ZERO,
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
    use evenhand_protocol::{Tolerance, Uptime};

    fn test(indicated_milligrams: i64, known: &KnownLoad) -> Result<SelfTest, SelfTestRefusal> {
        test_for(None, indicated_milligrams, known)
    }

    fn test_for(
        goal: Option<&Goal>,
        indicated_milligrams: i64,
        known: &KnownLoad,
    ) -> Result<SelfTest, SelfTestRefusal> {
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
            calm: true,
        };
        compare(
            known,
            &weight,
            &calibration,
            &CellFigures::TYPICAL_1KG,
            &Settings::BENCH_1KG,
            goal,
        )
    }

    /// 20 g that read 4.5 % too much are within what class III allows at 20 e (1 e in service,
    /// OIML R 76-1, Table 6), and far beyond what any portion can bear.
    #[test]
    fn a_portion_sized_weight_that_reads_far_too_much_fails() {
        let known = KnownLoad::weight(WeightClass::M1, Mass::from_grams(20)).unwrap();
        let shrimp = Goal::new(
            Mass::from_grams(30),
            Tolerance::symmetric(Mass::from_grams(1)),
        )
        .unwrap();
        for goal in [None, Some(&shrimp)] {
            let result = test_for(goal, 20_900, &known).unwrap();
            assert_eq!(result.outcome(), SelfTestOutcome::Fail, "{result:?}");
            let result = test_for(goal, 20_010, &known).unwrap();
            assert_eq!(result.outcome(), SelfTestOutcome::Pass, "{result:?}");
        }
        // A third of 1 g at the portion's size, and in proportion above it: at 200 g that is
        // more than the class's 1 g, which counts then.
        let limit = |grams| {
            let known = KnownLoad::weight(WeightClass::M1, Mass::from_grams(grams)).unwrap();
            test_for(Some(&shrimp), grams * 1_000, &known)
                .unwrap()
                .limit
        };
        assert_eq!(limit(20), Mass::from_micrograms(333_333));
        assert_eq!(limit(50), Mass::from_micrograms(555_555));
        assert_eq!(limit(200), Mass::from_grams(1));
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
        let light = KnownLoad::weight(WeightClass::M1, Mass::from_grams(2)).unwrap();
        assert_eq!(test(2_000, &light), Err(SelfTestRefusal::TooLight));
        let heavy = KnownLoad::weight(WeightClass::M1, Mass::from_grams(2_000)).unwrap();
        assert_eq!(test(2_000_000, &heavy), Err(SelfTestRefusal::TooHeavy));
        let coarse = KnownLoad::within(Mass::from_grams(500), Mass::from_grams(1));
        assert_eq!(test(500_000, &coarse), Err(SelfTestRefusal::TooCoarse));
        let known = KnownLoad::weight(WeightClass::M1, Mass::from_grams(500)).unwrap();
        assert_eq!(test(200_000, &known), Err(SelfTestRefusal::AnotherLoad));
    }
}
