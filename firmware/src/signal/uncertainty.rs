//! How well a load is known, after JCGM 100:2008 (the GUM).
//!
//! Every source is a standard uncertainty; they add in quadrature (5.1.2), and
//! the result is stated with the coverage factor 2 (6.2.1), which makes about
//! 95 %.
//!
//! The measurand is the conventional mass (OIML D 28): the mass of a weight of
//! 8 000 kg/m³ that balances the load in air of 1.2 kg/m³. Food is a thousandth
//! heavier than that, the same in every portion; what is left of buoyancy is how
//! far the air is from 1.2 kg/m³.

use super::ratio::PartsPerMillion;
use super::whole::{root, square};
use super::{Calibration, Settings, Weight};
use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// Milliseconds in an hour.
const HOUR_MS: i64 = 3_600_000;

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
    /// The most that the cell may bear.
    pub capacity: Mass,
    /// How far the cell is from a straight line at most, as a part of its
    /// capacity.
    pub nonlinearity: PartsPerMillion,
    /// How far apart loading and unloading are at most, as a part of its
    /// capacity.
    pub hysteresis: PartsPerMillion,
    /// How far the zero walks at random in an hour, standard deviation.
    pub walk_per_hour: Mass,
}

impl CellFigures {
    /// A 1 kg single-point cell of the inexpensive kind (typical data sheet
    /// figures, from memory): off centre 0.02 % of the load, span 0.02 % and
    /// zero 0.05 % of capacity in 10 °C, creep 0.05 %. The kitchen is taken to
    /// be within 10 °C of the calibration and to warm by no more than 5 °C in
    /// an hour; nonlinearity and hysteresis 0.02 % of capacity; the zero walks
    /// by 0.01 % of capacity in an hour (estimate, no source).
    pub const TYPICAL_1KG: Self = Self {
        off_centre: PartsPerMillion(200),
        span_per_degree: PartsPerMillion(20),
        degrees: 10,
        zero_per_hour: Mass::from_milligrams(250),
        creep: PartsPerMillion(500),
        capacity: Mass::from_grams(1_000),
        nonlinearity: PartsPerMillion(200),
        hysteresis: PartsPerMillion(200),
        walk_per_hour: Mass::from_milligrams(100),
    };
}

impl CellFigures {
    /// The same kind of cell with another capacity.
    #[must_use]
    pub fn typical(capacity: Mass) -> Self {
        Self {
            // 0.025 % of capacity, as for the 1 kg cell.
            zero_per_hour: capacity.fraction(1, 4_000).unwrap_or(Mass::MAX),
            walk_per_hour: capacity.fraction(1, 10_000).unwrap_or(Mass::MAX),
            capacity,
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
    /// It was pushed about by a spoon: it may stand a little elsewhere.
    Pushed,
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
    /// What the calibration does not know of the cell's bend.
    pub nonlinearity: Mass,
    /// What the cell keeps of where the load turned round.
    pub hysteresis: Mass,
    /// Air that is not that of the conventional mass.
    pub buoyancy: Mass,
}

/// What happened between two readings that the second is the less certain for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Between {
    /// Whether the vessel stayed where it was.
    pub placement: Placement,
    /// How far something pressed beyond every load that there was before.
    pub pressed: Mass,
}

impl Between {
    /// The vessel stayed, and nothing pressed.
    pub const STAYED: Self = Self {
        placement: Placement::Stayed,
        pressed: Mass::ZERO,
    };
    /// The vessel was lifted.
    pub const MOVED: Self = Self {
        placement: Placement::Moved,
        pressed: Mass::ZERO,
    };
}

/// Creep goes on with a time constant of five minutes or more (typical, no
/// source).
const CREEP_MS: i64 = 300_000;
/// Air of 1.08 to 1.32 kg/m³ around food of 1 000 and weights of 8 000 kg/m³:
/// from -1 000 m to +1 000 m, or 10 % either way.
const AIR: PartsPerMillion = PartsPerMillion(105);
/// How much more than its share of the loop a first press leaves: hysteresis is
/// stated for a whole cycle, in whose middle the widest parts of the loop have
/// turned round only half (Rayleigh's law of small loops, worked out for loops
/// whose parts are of every width alike).
const FIRST_PRESS: i64 = 13;
const FIRST_PRESS_OF: i64 = 5;

/// Half widths of what the cell does besides, and the zero's walk.
#[derive(Debug, Clone, Copy, Default)]
struct Slow {
    walked: Mass,
    creeping: Mass,
    bend: Mass,
    turned: Mass,
    air: Mass,
}

impl Slow {
    fn of(
        first: &Weight,
        second: &Weight,
        pressed: Mass,
        elapsed: i64,
        calibration: &Calibration,
        figures: &CellFigures,
    ) -> Self {
        let difference = (second.gross - first.gross).abs();
        let heavier = first.gross.abs().max(second.gross.abs());
        // A walk goes with the root of the time.
        let walked = square(figures.walk_per_hour.micrograms());
        let walked = (walked / HOUR_MS.unsigned_abs()).saturating_mul(elapsed.unsigned_abs());
        let walked = Mass::from_micrograms(root(walked).into());
        // All of the load still creeps, as far as there is time for it.
        let creeping = figures
            .creep
            .of(heavier)
            .fraction(elapsed, CREEP_MS)
            .unwrap_or(Mass::MAX)
            .min(figures.creep.of(heavier));
        // The slope at the load against that of the chord to the heaviest weight.
        let middle = first.gross.abs() + second.gross.abs();
        let bend = figures
            .nonlinearity
            .of((calibration.heaviest_load() - middle).abs())
            .times(if calibration.points() > 3 { 1 } else { 4 });
        let bend = bend
            .fraction(difference.micrograms(), figures.capacity.micrograms())
            .unwrap_or(bend);
        let turned = figures.hysteresis.of(difference + pressed);
        let turned = turned
            .fraction(FIRST_PRESS, FIRST_PRESS_OF)
            .unwrap_or(turned);
        Self {
            walked,
            creeping,
            bend,
            turned,
            air: AIR.of(difference),
        }
    }
}

impl Budget {
    /// The budget of a difference of two readings: a portion.
    #[must_use]
    pub fn of_difference(
        first: &Weight,
        second: &Weight,
        between: Between,
        calibration: &Calibration,
        figures: &CellFigures,
    ) -> Self {
        let difference = (second.gross - first.gross).abs();
        let heavier = first.gross.abs().max(second.gross.abs());
        let misplaced = match between.placement {
            Placement::Stayed => difference,
            Placement::Pushed => difference + heavier.fraction(1, 2).unwrap_or(heavier),
            Placement::Moved => heavier,
        };
        let elapsed = second
            .at
            .since(first.at)
            .max(first.at.since(second.at))
            .min(86_400_000);
        let elapsed = i64::try_from(elapsed).unwrap_or(i64::MAX);
        let in_time = |mass: Mass, unit: i64| mass.fraction(elapsed, unit).unwrap_or(Mass::MAX);
        let wandered = in_time(figures.zero_per_hour, HOUR_MS);
        let mut slow = Slow::default();
        if cfg!(feature = "careful") {
            slow = Slow::of(
                first,
                second,
                between.pressed,
                elapsed,
                calibration,
                figures,
            );
        }
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
            temperature: quadrature([rectangular(span), rectangular(wandered), slow.walked]),
            off_centre: rectangular(figures.off_centre.of(misplaced)),
            creep: rectangular(figures.creep.of(difference).max(slow.creeping)),
            nonlinearity: rectangular(slow.bend),
            hysteresis: rectangular(slow.turned),
            buoyancy: rectangular(slow.air),
        }
    }

    /// The budget of one reading against the zero.
    #[must_use]
    pub fn of_load(weight: &Weight, calibration: &Calibration, figures: &CellFigures) -> Self {
        let empty = Weight {
            gross: Mass::ZERO,
            ..*weight
        };
        Self::of_difference(&empty, weight, Between::MOVED, calibration, figures)
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
            self.nonlinearity,
            self.hysteresis,
            self.buoyancy,
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
            calm: true,
        }
    }

    /// Worked by hand: 30 g taken from 500 g, with an exact calibration. Noise 3.5 √2 = 4.95 mg;
    /// off centre 0.02 % of 30 g = 6 mg, over √3 = 3.46; span 0.002 % x 10 of 30 g = 6 mg, so
    /// 3.46; zero 250 mg/h in 10 s = 0.69, so 0.40; creep 0.05 % = 15 mg, so 8.66; one count of
    /// 0.5 mg twice, 0.20. A walk of 100 mg an hour makes 5.27 in 10 s, with span and zero 6.32.
    /// Nonlinearity 4 x 0.02 % of the 30 g between the 1 000 g of the calibration and twice the
    /// mean load, by 30 g in 1 000 g: 0.72, so 0.42. Hysteresis 2.6 x 0.02 % of 30 g = 15.6, so
    /// 9.01; air 105 ppm of 30 g = 3.15, so 1.82. Together 15.4 mg.
    #[test]
    fn a_spoonful_s_budget_adds_up() {
        let budget = Budget::of_difference(
            &weight(500, 0),
            &weight(470, 10),
            Between::STAYED,
            &calibration(),
            &CellFigures::TYPICAL_1KG,
        );
        let close = |mass: Mass, micrograms: i64| (mass.micrograms() - micrograms).abs() <= 15;
        assert!(close(budget.noise, 4_950), "{budget:?}");
        assert!(close(budget.off_centre, 3_464), "{budget:?}");
        assert!(close(budget.temperature, 6_320), "{budget:?}");
        assert!(close(budget.nonlinearity, 416), "{budget:?}");
        assert!(close(budget.hysteresis, 9_007), "{budget:?}");
        assert!(close(budget.buoyancy, 1_819), "{budget:?}");
        assert!(close(budget.creep, 8_660), "{budget:?}");
        assert!(close(budget.resolution, 204), "{budget:?}");
        assert_eq!(budget.calibration, Mass::ZERO);
        assert!(close(budget.combined(), 15_370), "{:?}", budget.combined());
        assert_eq!(budget.expanded(), budget.combined().times(2));
    }

    #[test]
    fn a_vessel_that_moved_makes_more_doubt_than_one_that_stayed() {
        let budget = |between| {
            Budget::of_difference(
                &weight(500, 0),
                &weight(470, 10),
                between,
                &calibration(),
                &CellFigures::TYPICAL_1KG,
            )
        };
        assert!(budget(Between::MOVED).expanded() > budget(Between::STAYED).expanded().times(3));
    }
}
