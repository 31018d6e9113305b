//! A calibration from known loads: a curve through them, and how well it is known.

use super::{Calibration, CalibrationError, FEWEST_COUNTS};
use crate::sensor::Counts;
use crate::signal::corrections::SettledCounts;
use crate::signal::fit::{Equation, Fit, Matrix, TERMS, Vector, dot};
use crate::signal::gravity::Place;
use crate::signal::known_load::KnownLoad;
use evenhand_protocol::{Mass, Temperature};
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

    /// A known load (or [`KnownLoad::NOTHING`]) and the settled counts under
    /// it.
    #[must_use]
    pub const fn measured(load: &KnownLoad, settled: SettledCounts) -> Self {
        Self {
            load: load.mass(),
            counts: settled.mean,
            counts_uncertainty: settled.uncertainty,
            load_uncertainty: load.standard_uncertainty(),
        }
    }
}
/// How well a curve is known.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Certainty {
    /// How the curve would be shifted if every weight were heavier by its
    /// standard uncertainty: weights of one set err together.
    weights: Vector,
    /// Covariance of the coefficients from noise and scatter, in µg².
    covariance: Matrix,
    /// The largest distance of a point from the curve.
    residual: Mass,
}

impl Certainty {
    /// Of a curve that is taken for exact.
    pub(super) const EXACT: Self = Self {
        weights: [0.0; TERMS],
        covariance: [[0.0; TERMS]; TERMS],
        residual: Mass::ZERO,
    };
}

/// What is known of how a calibration came about.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Circumstances {
    temperature: Option<Temperature>,
    place: Option<Place>,
}

impl Circumstances {
    pub(super) const UNKNOWN: Self = Self {
        temperature: None,
        place: None,
    };
}

impl Calibration {
    /// Most points that a calibration takes.
    pub const MOST_POINTS: usize = 16;
    /// The most that a curve may bend away from the straight line, as a part
    /// of the heaviest load. Sound cells of the inexpensive kind stay within
    /// 0.05 % (typical data sheet, from memory).
    const MOST_BEND: f64 = 0.005;

    /// A calibration from the empty pan and known weights.
    ///
    /// # Errors
    /// [`CalibrationError`] where the points do not make one.
    pub fn from_points(points: &[Point]) -> Result<Self, CalibrationError> {
        check(points)?;
        let zero = mean_of_empty(points).ok_or(CalibrationError::NoZero)?;
        let top = points
            .iter()
            .max_by_key(|point| point.load)
            .ok_or(CalibrationError::TooFewPoints)?;
        let span = top.counts - zero.counts;
        let heaviest = top.load.micrograms() as f64;
        if top.load == Mass::ZERO || libm::fabs(span) < f64::from(FEWEST_COUNTS) {
            return Err(CalibrationError::NoSpan);
        }
        let slope = heaviest / span;
        let terms = match distinct_loads(points) {
            0 | 1 => 1,
            2 | 3 => 2,
            _ => TERMS,
        };
        let solved = solve(points, terms, &zero, span, slope).ok_or(CalibrationError::NoSpan)?;
        let mut made = Self {
            zero: zero.counts,
            span,
            points: points.len() as u8,
            ..solved
        };
        let farthest = points
            .iter()
            .map(|point| (made.mass_of(point.counts - made.zero) - point.load).abs())
            .max();
        made.certainty.residual = farthest.unwrap_or(Mass::ZERO);
        made.checked()
    }

    /// This calibration where its numbers make sense; for one that was read
    /// from storage.
    ///
    /// # Errors
    /// [`CalibrationError`] where they do not.
    pub fn checked(self) -> Result<Self, CalibrationError> {
        let finite = self.zero.is_finite()
            && self.span.is_finite()
            && self.curve.iter().all(|c| c.is_finite())
            && self.certainty.weights.iter().all(|c| c.is_finite())
            && self
                .certainty
                .covariance
                .iter()
                .flatten()
                .all(|c| c.is_finite());
        if !finite {
            return Err(CalibrationError::NotANumber);
        }
        if libm::fabs(self.span) < f64::from(FEWEST_COUNTS) || self.heaviest() <= 0.0 {
            return Err(CalibrationError::NoSpan);
        }
        let most = Self::MOST_BEND * self.heaviest();
        if self.furthest_from_straight() > most
            || self.certainty.residual.micrograms() as f64 > most
        {
            return Err(CalibrationError::NotStraight);
        }
        Ok(self)
    }

    /// The same calibration, with the bridge's temperature when it was made.
    #[must_use]
    pub const fn at_temperature(self, temperature: Temperature) -> Self {
        Self {
            made: Circumstances {
                temperature: Some(temperature),
                ..self.made
            },
            ..self
        }
    }

    /// The same calibration, with the place where it was made.
    #[must_use]
    pub const fn at_place(self, place: Place) -> Self {
        Self {
            made: Circumstances {
                place: Some(place),
                ..self.made
            },
            ..self
        }
    }

    /// The bridge's temperature when it was made, where known.
    #[must_use]
    pub const fn temperature(&self) -> Option<Temperature> {
        self.made.temperature
    }

    /// Where it was made, if that is known.
    #[must_use]
    pub const fn place(&self) -> Option<Place> {
        self.made.place
    }

    /// The largest distance of a point from the curve.
    #[must_use]
    pub const fn residual(&self) -> Mass {
        self.certainty.residual
    }

    /// The load at the upper end of the curve, in micrograms.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn heaviest(&self) -> f64 {
        value(&self.curve, 1.0)
    }

    /// Counts a gram, over the whole curve; negative for a cell wired the
    /// other way round.
    #[must_use]
    pub fn counts_per_gram(&self) -> f64 {
        1e6 * self.span / self.heaviest()
    }

    /// How far the curve is from a straight line at its furthest.
    #[must_use]
    pub fn nonlinearity(&self) -> Mass {
        micrograms(self.furthest_from_straight())
    }

    /// The same in micrograms, at twentieths of the curve.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn furthest_from_straight(&self) -> f64 {
        (1..20)
            .map(|i| {
                let x = f64::from(i) / 20.0;
                libm::fabs(value(&self.curve, x) - x * self.heaviest())
            })
            .fold(0.0, larger)
    }

    /// The load that moves the bridge by so many counts from the zero.
    #[must_use]
    pub fn mass_of(&self, counts_from_zero: f64) -> Mass {
        let x = counts_from_zero / self.span;
        if self.curve[1] == 0.0 && self.curve[2] == 0.0 {
            return micrograms(x * self.curve[0]);
        }
        let inside = x.clamp(0.0, 1.0);
        micrograms(value(&self.curve, inside) + slope_at(&self.curve, inside) * (x - inside))
    }

    /// Standard uncertainty that the calibration lends to a load.
    #[must_use]
    pub fn standard_uncertainty(&self, load: Mass) -> Mass {
        self.standard_uncertainty_between(Mass::ZERO, load)
    }

    /// Standard uncertainty that the calibration lends to the difference of
    /// two loads: its errors at both are much the same and mostly cancel.
    #[must_use]
    pub fn standard_uncertainty_between(&self, first: Mass, second: Mass) -> Mass {
        let heaviest = self.heaviest();
        let a = terms(first.micrograms() as f64 / heaviest);
        let b = terms(second.micrograms() as f64 / heaviest);
        let mut difference: Vector = [0.0; TERMS];
        for (d, (x, y)) in difference.iter_mut().zip(a.iter().zip(&b)) {
            *d = y - x;
        }
        let common = dot(&self.certainty.weights, &difference);
        let scattered: f64 = self
            .certainty
            .covariance
            .iter()
            .zip(&difference)
            .map(|(row, d)| d * dot(row, &difference))
            .sum();
        micrograms(libm::sqrt(common * common + larger(scattered, 0.0)))
    }
}

fn check(points: &[Point]) -> Result<(), CalibrationError> {
    if points.len() < 2 {
        return Err(CalibrationError::TooFewPoints);
    }
    if points.len() > Calibration::MOST_POINTS {
        return Err(CalibrationError::TooManyPoints);
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
    Ok(())
}

/// The empty pan: the mean of its points.
fn mean_of_empty(points: &[Point]) -> Option<Point> {
    let empty = || points.iter().filter(|point| point.load == Mass::ZERO);
    let n = empty().count() as f64;
    let squares: f64 = empty()
        .map(|point| point.counts_uncertainty * point.counts_uncertainty)
        .sum();
    (n > 0.0).then(|| Point {
        load: Mass::ZERO,
        counts: empty().map(|point| point.counts).sum::<f64>() / n,
        counts_uncertainty: libm::sqrt(squares) / n,
        load_uncertainty: Mass::ZERO,
    })
}

/// How many different loads there are besides none.
fn distinct_loads(points: &[Point]) -> usize {
    points
        .iter()
        .enumerate()
        .filter(|(n, point)| {
            point.load != Mass::ZERO && points[..*n].iter().all(|other| other.load != point.load)
        })
        .count()
}

/// The curve of so many terms through the loaded points.
fn solve(
    points: &[Point],
    parameters: usize,
    zero: &Point,
    span: f64,
    slope: f64,
) -> Option<Calibration> {
    let mut equations: heapless::Vec<Equation, { Calibration::MOST_POINTS }> = heapless::Vec::new();
    let mut largest = 0.0;
    for point in points.iter().filter(|point| point.load != Mass::ZERO) {
        let mut row = terms((point.counts - zero.counts) / span);
        for beyond in row.iter_mut().skip(parameters) {
            *beyond = 0.0;
        }
        let noise = slope * length(point.counts_uncertainty, zero.counts_uncertainty);
        let weight = point.load_uncertainty.micrograms() as f64;
        let deviation = length(noise, weight);
        largest = larger(largest, deviation);
        equations
            .push(Equation {
                row,
                value: point.load.micrograms() as f64,
                deviation,
                own: libm::fabs(noise),
                common: weight,
            })
            .ok()?;
    }
    let known = largest > 0.0;
    for equation in &mut equations {
        // Points said to be exact among others that are not still count for no more than
        // thirty of those; where all are exact, all count alike.
        equation.deviation = if known {
            larger(equation.deviation, largest / 30.0)
        } else {
            1.0
        };
    }
    let fit = Fit::of(&equations, parameters)?;
    Some(Calibration {
        zero: zero.counts,
        span,
        curve: fit.parameters,
        certainty: Certainty {
            weights: fit.of_common(&equations),
            covariance: if known {
                fit.covariance(&equations)
            } else {
                fit.covariance_from_scatter()
            },
            residual: Mass::ZERO,
        },
        points: 0,
        made: Circumstances::UNKNOWN,
    })
}

/// The length of a vector of two.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn length(x: f64, y: f64) -> f64 {
    libm::sqrt(x * x + y * y)
}

/// The larger of two numbers; the second where the first is none.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn larger(x: f64, y: f64) -> f64 {
    if x > y { x } else { y }
}

#[cfg_attr(target_pointer_width = "32", inline(never))]
fn terms(x: f64) -> Vector {
    [x, x * x, x * x * x]
}

#[cfg_attr(target_pointer_width = "32", inline(never))]
fn value(curve: &Vector, x: f64) -> f64 {
    x * (curve[0] + x * (curve[1] + x * curve[2]))
}

fn slope_at(curve: &Vector, x: f64) -> f64 {
    curve[0] + x * (2.0 * curve[1] + x * 3.0 * curve[2])
}

/// The nearest mass; saturates where it does not fit.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn micrograms(value: f64) -> Mass {
    Mass::from_micrograms(libm::round(value) as i64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::WeightClass;
    use crate::signal::filter::PARTS;
    use std::vec::Vec;

    /// A cell whose output bends by so many parts of capacity in the middle.
    fn bent(grams: f64, bend: f64) -> f64 {
        let part = grams / 1_000.0;
        50_000.0 + 2_000.0 * (grams + bend * 1_000.0 * 4.0 * part * (1.0 - part))
    }

    fn points(loads: &[i64], bend: f64) -> Vec<Point> {
        loads
            .iter()
            .map(|grams| Point {
                counts: bent(*grams as f64, bend),
                ..Point::exact(Mass::from_grams(*grams), Counts(0))
            })
            .collect()
    }

    fn worst(calibration: &Calibration, bend: f64) -> f64 {
        (0..=1_000)
            .map(|grams| {
                let counts = bent(f64::from(grams), bend);
                (calibration
                    .mass_of(counts - calibration.zero_counts())
                    .grams()
                    - f64::from(grams))
                .abs()
            })
            .fold(0.0, f64::max)
    }

    #[test]
    fn three_weights_take_out_a_bend_that_two_points_leave() {
        let bend = 0.000_5;
        let two = Calibration::from_points(&points(&[0, 1_000], bend)).unwrap();
        assert!((0.4..0.6).contains(&worst(&two, bend)));
        let four = Calibration::from_points(&points(&[0, 300, 600, 1_000], bend)).unwrap();
        assert!(worst(&four, bend) < 0.002, "{}", worst(&four, bend));
        assert!((four.nonlinearity().grams() - 0.5).abs() < 0.05);
        let six = Calibration::from_points(&points(&[0, 200, 400, 600, 800, 1_000], bend)).unwrap();
        assert!(worst(&six, bend) < 0.000_1);
        assert_eq!(six.points(), 6);
    }

    #[test]
    fn a_line_is_what_the_fit_makes_of_two_exact_points() {
        let (empty, load, loaded) = (Counts(81_234), Mass::from_grams(500), Counts(1_130_001));
        let points = [Point::exact(Mass::ZERO, empty), Point::exact(load, loaded)];
        let line = Calibration::line(empty, load, loaded).unwrap();
        assert_eq!(line, Calibration::from_points(&points).unwrap());
        let far = line.standard_uncertainty(Mass::from_grams(1_000));
        assert_eq!(far, Mass::ZERO);
        for (load, loaded, error) in [
            (-1, 1_130_001, CalibrationError::NegativeLoad),
            (0, 1_130_001, CalibrationError::NoSpan),
            (500, 82_233, CalibrationError::NoSpan),
        ] {
            let line = Calibration::line(empty, Mass::from_grams(load), Counts(loaded));
            assert_eq!(line, Err(error));
        }
    }

    /// In whole numbers it weighs as in double precision: on a straight line to a microgram, on
    /// a curve to a 2^24th of the span for each of its terms.
    #[test]
    fn whole_numbers_weigh_as_the_curve_does() {
        for (loads, bend, most) in [
            (&[0, 1_000][..], 0.0, 1),
            (&[0, 300, 600, 1_000], 0.000_5, 20),
            (&[0, 200, 400, 600, 800, 1_000], -0.001, 40),
        ] {
            let calibration = Calibration::from_points(&points(loads, bend)).unwrap();
            let line = calibration.in_whole_numbers();
            for step in -4_000..8_000 {
                let counts = 50_000 + step * 517;
                let exact = calibration.mass_of(f64::from(counts) - calibration.zero_counts());
                let found = line.mass_of(i64::from(counts) * PARTS);
                let apart = (found - exact).abs().micrograms();
                assert!(apart <= most, "{loads:?} {counts}: {apart}");
            }
            let gram = line.parts_of(Mass::from_grams(1)) as f64 / PARTS as f64;
            assert!((gram - calibration.counts_per_gram().abs()).abs() <= 1.0 / 256.0);
        }
    }

    #[test]
    fn a_line_through_two_points_is_exact_and_goes_on_beyond_both() {
        let line = Calibration::from_points(&points(&[0, 500], 0.0)).unwrap();
        for (counts, grams) in [
            (0.0, 0),
            (1_000_000.0, 500),
            (2_000_000.0, 1_000),
            (-20_000.0, -10),
        ] {
            assert_eq!(line.mass_of(counts), Mass::from_grams(grams));
        }
        assert_eq!(line.counts_per_gram(), 2_000.0);
        assert_eq!(line.residual(), Mass::ZERO);
    }

    #[test]
    fn a_cell_wired_the_other_way_round_weighs_as_well() {
        let reversed: Vec<Point> = points(&[0, 500, 1_000], 0.000_3)
            .into_iter()
            .map(|point| Point {
                counts: -point.counts,
                ..point
            })
            .collect();
        let calibration = Calibration::from_points(&reversed).unwrap();
        assert!(calibration.counts_per_gram() < 0.0);
        let load = calibration.mass_of(-bent(300.0, 0.000_3) - calibration.zero_counts());
        assert!((load.grams() - 300.0).abs() < 0.001, "{load:?}");
    }

    /// One M1 weight of 500 g: ±25 mg, so 14.43 mg standard (JCGM 100, 4.3.7), all of it in the
    /// slope: at 250 g half of it, at 1 000 g twice, and for 30 g out of a tin 0.87 mg.
    #[test]
    fn the_weight_s_class_is_in_the_result_s_uncertainty() {
        let weight = KnownLoad::weight(WeightClass::M1, Mass::from_grams(500)).unwrap();
        let settled = |mean, uncertainty| SettledCounts { mean, uncertainty };
        let calibration = Calibration::from_points(&[
            Point::measured(&KnownLoad::NOTHING, settled(50_000.0, 0.0)),
            Point::measured(&weight, settled(1_050_000.0, 0.0)),
        ])
        .unwrap();
        let u = |grams| {
            calibration
                .standard_uncertainty(Mass::from_grams(grams))
                .micrograms()
        };
        assert!((u(500) - 14_434).abs() <= 2, "{}", u(500));
        assert!((u(250) - 7_217).abs() <= 2);
        assert!((u(1_000) - 28_868).abs() <= 3);
        let portion =
            calibration.standard_uncertainty_between(Mass::from_grams(500), Mass::from_grams(470));
        assert!((portion.micrograms() - 866).abs() <= 2, "{portion:?}");

        // Noise of 10 counts at both ends is 5 mg each, and adds in quadrature.
        let noisy = Calibration::from_points(&[
            Point::measured(&KnownLoad::NOTHING, settled(50_000.0, 10.0)),
            Point::measured(&weight, settled(1_050_000.0, 10.0)),
        ])
        .unwrap();
        let u = noisy.standard_uncertainty(Mass::from_grams(500)).grams();
        let expected = (0.014_434_f64.powi(2) + 2.0 * 0.005_f64.powi(2)).sqrt();
        assert!((u - expected).abs() < 2e-6, "{u} {expected}");
    }

    #[test]
    fn points_that_scatter_leave_more_doubt_than_their_noise_says() {
        let scattered = |scatter: f64| {
            let loads = [0, 200, 400, 600, 800, 1_000, 200, 400, 600, 800];
            let points: Vec<Point> = points(&loads, 0.0)
                .into_iter()
                .enumerate()
                .map(|(n, point)| Point {
                    counts: point.counts + if n % 2 == 0 { scatter } else { -scatter },
                    counts_uncertainty: 5.0,
                    ..point
                })
                .collect();
            let calibration = Calibration::from_points(&points).unwrap();
            calibration.standard_uncertainty(Mass::from_grams(500))
        };
        assert!(scattered(200.0) > scattered(5.0).times(10));
    }

    #[test]
    fn points_that_make_no_calibration_are_refused() {
        let exact = |grams, counts| Point::exact(Mass::from_grams(grams), Counts(counts));
        let refused = |points: &[Point]| Calibration::from_points(points).unwrap_err();
        assert_eq!(refused(&[exact(0, 0)]), CalibrationError::TooFewPoints);
        assert_eq!(
            refused(&[exact(100, 0), exact(200, 90_000)]),
            CalibrationError::NoZero
        );
        assert_eq!(
            refused(&[exact(0, 0), exact(500, 900)]),
            CalibrationError::NoSpan
        );
        assert_eq!(
            refused(&[exact(0, 0), exact(0, 9_000)]),
            CalibrationError::NoSpan
        );
        assert_eq!(
            refused(&[exact(0, 0), exact(-5, 10_000)]),
            CalibrationError::NegativeLoad
        );
        // 200 g that was said to be 250 g.
        assert_eq!(
            refused(&[exact(0, 0), exact(250, 400_000), exact(1_000, 2_000_000)]),
            CalibrationError::NotStraight
        );
        let nan = Point {
            counts: f64::NAN,
            ..exact(500, 0)
        };
        assert_eq!(refused(&[exact(0, 0), nan]), CalibrationError::NotANumber);
        assert_eq!(refused(&[exact(0, 0); 17]), CalibrationError::TooManyPoints);
    }
}
