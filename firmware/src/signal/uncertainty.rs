//! How well a load is known, after JCGM 100:2008 (the GUM).
//!
//! Every source is a standard uncertainty; they add in quadrature (5.1.2), and
//! the result is stated with the coverage factor 2 (6.2.1), which makes about
//! 95 %.

use super::ratio::PartsPerMillion;
use super::whole::{root, square};
use super::{Calibration, Settings, Weight};
use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// The coverage factor of every expanded uncertainty here.
pub const COVERAGE_FACTOR: i64 = 2;

/// Standard uncertainty of something that is anywhere within ±`half_width`
/// with equal probability (JCGM 100, 4.3.7): half the width over √3.
#[must_use]
pub fn rectangular(half_width: Mass) -> Mass {
    let part = half_width.abs().fraction(577_350_269, 1_000_000_000);
    part.unwrap_or(Mass::MAX)
}

/// What the load cell's data sheet, or a test of the scale, says of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct CellFigures {
    /// The most that a load reads differently anywhere on the pan.
    pub off_centre: PartsPerMillion,
    /// The most that the span changes for a degree, compensation included.
    pub span_per_degree: PartsPerMillion,
    /// How many degrees it may be warmer or colder than at the calibration.
    pub degrees: u8,
    /// The most that the zero may wander in an hour.
    pub zero_per_hour: Mass,
    /// The most that a load creeps.
    pub creep: PartsPerMillion,
}

impl CellFigures {
    /// A 1 kg single-point cell of the inexpensive kind (typical data sheet
    /// figures, from memory): off centre 0.02 % of the load, span 0.02 % and
    /// zero 0.05 % of capacity in 10 °C, creep 0.05 %. The kitchen is taken to
    /// be within 10 °C of the calibration and to warm by no more than 5 °C in
    /// an hour.
    pub const TYPICAL_1KG: Self = Self {
        off_centre: PartsPerMillion(200),
        span_per_degree: PartsPerMillion(20),
        degrees: 10,
        zero_per_hour: Mass::from_milligrams(250),
        creep: PartsPerMillion(500),
    };
}

impl CellFigures {
    /// The same kind of cell with another capacity.
    #[must_use]
    pub fn typical(capacity: Mass) -> Self {
        Self {
            // 0.025 % of capacity, as for the 1 kg cell.
            zero_per_hour: capacity.fraction(1, 4_000).unwrap_or(Mass::MAX),
            ..Self::TYPICAL_1KG
        }
    }
}

impl Default for CellFigures {
    fn default() -> Self {
        Self::TYPICAL_1KG
    }
}

/// Whether the vessel stayed where it was between two readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Placement {
    /// It stayed: only what was added or taken can lie off the centre.
    Stayed,
    /// It was lifted: all of it may stand elsewhere.
    Moved,
}

/// The standard uncertainties of one result, by their source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Budget {
    /// Noise of the readings that it came from.
    pub noise: Mass,
    /// The step of the figure: one count, or the interval that it is rounded
    /// to.
    pub resolution: Mass,
    /// The calibration, its weights included.
    pub calibration: Mass,
    /// Span and zero with temperature.
    pub temperature: Mass,
    /// Where on the pan the load stands.
    pub off_centre: Mass,
    /// Creep of the cell under the load.
    pub creep: Mass,
}

impl Budget {
    /// The budget of a difference of two readings: a portion.
    #[must_use]
    pub fn of_difference(
        first: &Weight,
        second: &Weight,
        placement: Placement,
        calibration: &Calibration,
        figures: &CellFigures,
    ) -> Self {
        let difference = (second.gross - first.gross).abs();
        let heavier = first.gross.abs().max(second.gross.abs());
        let misplaced = match placement {
            Placement::Stayed => difference,
            Placement::Moved => heavier,
        };
        let elapsed = second
            .at
            .since(first.at)
            .max(first.at.since(second.at))
            .min(86_400_000);
        let wandered = figures
            .zero_per_hour
            .fraction(i64::try_from(elapsed).unwrap_or(i64::MAX), 3_600_000)
            .unwrap_or(Mass::MAX);
        let span = figures
            .span_per_degree
            .of(difference)
            .times(i64::from(figures.degrees));
        let count = calibration.mass_of_one_count();
        Self {
            noise: quadrature([first.noise, second.noise]),
            // Both readings have it.
            resolution: quadrature([resolution(count), resolution(count)]),
            calibration: calibration.standard_uncertainty_between(first.gross, second.gross),
            temperature: quadrature([rectangular(span), rectangular(wandered)]),
            off_centre: rectangular(figures.off_centre.of(misplaced)),
            creep: rectangular(figures.creep.of(difference)),
        }
    }

    /// The budget of one reading against the zero.
    #[must_use]
    pub fn of_load(weight: &Weight, calibration: &Calibration, figures: &CellFigures) -> Self {
        let empty = Weight {
            gross: Mass::ZERO,
            ..*weight
        };
        Self::of_difference(&empty, weight, Placement::Moved, calibration, figures)
    }

    /// The same result, rounded to an interval.
    #[must_use]
    pub fn rounded_to(self, interval: Mass) -> Self {
        Self {
            resolution: resolution(interval),
            ..self
        }
    }

    /// The same for the display of a scale.
    #[must_use]
    pub fn displayed(self, settings: &Settings) -> Self {
        self.rounded_to(settings.interval)
    }

    /// The combined standard uncertainty.
    #[must_use]
    pub fn combined(&self) -> Mass {
        quadrature([
            self.noise,
            self.resolution,
            self.calibration,
            self.temperature,
            self.off_centre,
            self.creep,
        ])
    }

    /// The expanded uncertainty, coverage factor 2.
    #[must_use]
    pub fn expanded(&self) -> Mass {
        self.combined().times(COVERAGE_FACTOR)
    }
}

/// Standard uncertainty from a step of so much (JCGM 100, F.2.2.1): 0.29 of
/// it.
fn resolution(step: Mass) -> Mass {
    rectangular(step).fraction(1, 2).unwrap_or(Mass::MAX)
}

/// The root of the sum of the squares, at most 4.29 kg: whatever is as uncertain
/// says nothing. Rounded down to a microgram.
pub(crate) fn quadrature<const N: usize>(parts: [Mass; N]) -> Mass {
    let squares = parts.into_iter().fold(0, |sum: u64, part| {
        sum.saturating_add(square(part.micrograms()))
    });
    Mass::from_micrograms(root(squares).into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sensor::Counts;
    use crate::signal::Point;
    use evenhand_protocol::Uptime;

    /// EA-4/02, supplement 1, example S2: a 10 kg weight of class M1 against a standard. The
    /// certificate's 45 mg (k = 2), drift ±15 mg, eccentricity ±10 mg and buoyancy ±10 mg
    /// rectangular, and three comparisons with
    /// a pooled standard deviation of 25 mg: u = 29.3 mg, U = 59 mg.
    #[test]
    fn a_published_weight_calibration_comes_out() {
        let mg = Mass::from_milligrams;
        let parts = [
            mg(45).fraction(1, 2).unwrap(),
            rectangular(mg(15)),
            rectangular(mg(10)),
            rectangular(mg(10)),
            // 25 mg / √3.
            Mass::from_micrograms(14_434),
        ];
        assert!((parts[1].micrograms() - 8_660).abs() <= 1);
        assert!((parts[2].micrograms() - 5_770).abs() <= 5);
        let combined = quadrature(parts);
        assert!((combined.micrograms() - 29_300).abs() < 60, "{combined:?}");
        assert_eq!(combined.times(COVERAGE_FACTOR).rounded_to(mg(1)), mg(59));
    }

    /// JCGM 100, F.2.2.1: a resolution of 1 gives a standard uncertainty of 0.29.
    #[test]
    fn a_step_counts_as_the_guide_says() {
        let u = resolution(Mass::from_milligrams(100));
        assert_eq!(
            u.rounded_to(Mass::from_milligrams(1)),
            Mass::from_milligrams(29)
        );
    }

    fn calibration() -> Calibration {
        Calibration::from_points(&[
            Point::exact(Mass::ZERO, Counts(0)),
            Point::exact(Mass::from_grams(1_000), Counts(2_000_000)),
        ])
        .unwrap()
    }

    fn weight(grams: i64, seconds: u64) -> Weight {
        Weight {
            at: Uptime::from_millis(seconds * 1_000),
            gross: Mass::from_grams(grams),
            stable: true,
            noise: Mass::from_micrograms(3_500),
        }
    }

    /// Worked by hand: 30 g taken from 500 g, with an exact calibration. Noise 3.5 √2 = 4.95 mg;
    /// off centre 0.02 % of 30 g = 6 mg, over √3 = 3.46; span 0.002 % x 10 of 30 g = 6 mg, so
    /// 3.46; zero 250 mg/h in 10 s = 0.69, so 0.40; creep 0.05 % = 15 mg, so 8.66; one count of
    /// 0.5 mg twice, 0.20. Together 11.2 mg.
    #[test]
    fn a_spoonful_s_budget_adds_up() {
        let budget = Budget::of_difference(
            &weight(500, 0),
            &weight(470, 10),
            Placement::Stayed,
            &calibration(),
            &CellFigures::TYPICAL_1KG,
        );
        let close = |mass: Mass, micrograms: i64| (mass.micrograms() - micrograms).abs() <= 15;
        assert!(close(budget.noise, 4_950), "{budget:?}");
        assert!(close(budget.off_centre, 3_464), "{budget:?}");
        assert!(close(budget.temperature, 3_487), "{budget:?}");
        assert!(close(budget.creep, 8_660), "{budget:?}");
        assert!(close(budget.resolution, 204), "{budget:?}");
        assert_eq!(budget.calibration, Mass::ZERO);
        assert!(close(budget.combined(), 11_120), "{:?}", budget.combined());
        assert_eq!(budget.expanded(), budget.combined().times(2));
    }

    #[test]
    fn a_vessel_that_moved_makes_more_doubt_than_one_that_stayed() {
        let budget = |placement| {
            Budget::of_difference(
                &weight(500, 0),
                &weight(470, 10),
                placement,
                &calibration(),
                &CellFigures::TYPICAL_1KG,
            )
        };
        assert!(
            budget(Placement::Moved).expanded() > budget(Placement::Stayed).expanded().times(4)
        );
    }
}
