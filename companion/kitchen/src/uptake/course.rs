//! Salt going into a slab or a cylinder out of a stirred bath of limited size.
//!
//! Crank, The Mathematics of Diffusion (1975), 4.3.5 and 5.3.3: from memory;
//! held against an integration that has nothing of it, and against a published
//! library's worked figures, in the tests.

use crate::units::{InputError, Ratio};
use core::f64::consts::PI;

/// What a piece is like, as far as salt is concerned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Shape {
    /// Flat, salted from both faces.
    Slab,
    /// Long and round, salted from all around.
    Cylinder,
}

impl core::str::FromStr for Shape {
    type Err = InputError;
    fn from_str(text: &str) -> Result<Self, InputError> {
        match text.trim().to_lowercase().as_str() {
            "slab" => Ok(Self::Slab),
            "cylinder" => Ok(Self::Cylinder),
            _ => Err(InputError::new(
                "shape",
                text,
                problem!("no-shape"),
                expected!("shape"),
            )),
        }
    }
}

impl core::fmt::Display for Shape {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Slab => "slab",
            Self::Cylinder => "cylinder",
        })
    }
}

/// Terms of the series.
const TERMS: usize = 80;
/// Below this Fourier number, minutes for anything thicker than a finger, so
/// many terms are too few: salt goes in as into something without an end, by
/// the root of time (Crank 2.4.3, from memory).
const SHORT: f64 = 3e-4;
/// Below this no salt is at the core: less than a millionth.
const NOT_AT_CORE: f64 = 0.005;
/// Baths beyond so many times the water of the piece are as good as endless.
const ENDLESS: f64 = 1e4;
const LEAST_BATH: f64 = 0.01;
/// A term that has died away.
const DEAD: f64 = 40.0;

struct Term {
    decay: f64,
    uptake: f64,
    core: f64,
}

/// How salt goes into a piece of one shape, in Fourier numbers D t / l², with
/// l half the thickness or the radius.
pub struct Course {
    terms: Vec<Term>,
    /// What is taken up in a short time, over the root of its Fourier number.
    short: f64,
}

impl Course {
    /// For a bath of so many times the piece's water; from a hundredth to
    /// endless.
    #[must_use]
    pub fn new(shape: Shape, bath: Ratio) -> Self {
        let a = bath.fraction().clamp(LEAST_BATH, ENDLESS);
        let terms = (1..=TERMS)
            .map(|n| {
                let n = n as f64;
                match shape {
                    Shape::Slab => {
                        // tan q = -a q, in the quarter in which the cosine goes from 0 to ±1.
                        let q = root(|q| q.sin() + a * q * q.cos(), (n - 0.5) * PI, n * PI);
                        let below = 1.0 + a + (a * q).powi(2);
                        let sign = if (n as u32).is_multiple_of(2) {
                            1.0
                        } else {
                            -1.0
                        };
                        Term {
                            decay: q * q,
                            uptake: 2.0 * a * (1.0 + a) / below,
                            core: sign * 2.0 * (1.0 + a) * (1.0 + (a * q).powi(2)).sqrt() / below,
                        }
                    }
                    Shape::Cylinder => {
                        let q = root(
                            |q| a * q * libm::j0(q) + 2.0 * libm::j1(q),
                            (n - 0.25) * PI,
                            (n + 0.25) * PI,
                        );
                        let below = 4.0 + 4.0 * a + (a * q).powi(2);
                        Term {
                            decay: q * q,
                            uptake: 4.0 * a * (1.0 + a) / below,
                            // 1 / J0(q) by the root's own equation: J0 itself is next to nothing.
                            core: -2.0 * (1.0 + a) * a * q / (below * libm::j1(q)),
                        }
                    }
                }
            })
            .collect();
        let sides = match shape {
            Shape::Slab => 1.0,
            Shape::Cylinder => 2.0,
        };
        Self {
            terms,
            short: sides * (1.0 + 1.0 / a) * 2.0 / PI.sqrt(),
        }
    }

    fn sum(&self, fourier: f64, of: impl Fn(&Term) -> f64) -> f64 {
        self.terms
            .iter()
            .take_while(|term| term.decay * fourier < DEAD)
            .map(|term| of(term) * (-term.decay * fourier).exp())
            .sum()
    }

    /// How much of what it takes up in the end is in.
    #[must_use]
    pub fn taken_up(&self, fourier: f64) -> Ratio {
        if fourier < SHORT {
            return part(self.short * fourier.max(0.0).sqrt());
        }
        part(1.0 - self.sum(fourier, |term| term.uptake))
    }

    /// How far its core has come, of what everything comes to in the end.
    #[must_use]
    pub fn core(&self, fourier: f64) -> Ratio {
        if fourier < NOT_AT_CORE {
            return Ratio::ZERO;
        }
        part(1.0 + self.sum(fourier, |term| term.core))
    }

    /// The Fourier number at which the core has come so far; `None` where it
    /// never does.
    #[must_use]
    pub fn when_core(&self, share: Ratio) -> Option<f64> {
        if share.fraction() >= 1.0 {
            return None;
        }
        let (mut low, mut high) = (0.0, 1.0);
        while self.core(high) < share {
            high *= 2.0;
            if high > 1e4 {
                return None;
            }
        }
        for _ in 0..50 {
            let middle = (low + high) / 2.0;
            if self.core(middle) < share {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(high)
    }
}

fn part(value: f64) -> Ratio {
    Ratio::new(value.clamp(0.0, 1.0)).unwrap_or(Ratio::ZERO)
}

/// Where a function that changes its sign once between two places is zero.
fn root(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    let sign = f(low).is_sign_positive();
    for _ in 0..52 {
        let middle = (low + high) / 2.0;
        if f(middle).is_sign_positive() == sign {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ratio(value: f64) -> Ratio {
        Ratio::new(value).unwrap()
    }

    // data/salt_diffusion.py: cells and a solver of differential equations (scipy 1.17.1); 400 cells
    // are good to about 1e-4.
    #[test]
    fn baths_of_every_size_go_as_an_integration_of_ficks_law_does() {
        let mut rows =
            csv::Reader::from_reader(include_str!("../../data/salt-diffusion.csv").as_bytes());
        let mut seen = 0;
        for row in rows.records() {
            let row = row.unwrap();
            let number = |field: usize| row[field].parse::<f64>().unwrap();
            let course = Course::new(row[0].parse().unwrap(), ratio(number(1)));
            let (taken, core) = (course.taken_up(number(2)), course.core(number(2)));
            assert!(
                (taken.fraction() - number(3)).abs() < 3e-4,
                "{row:?}: {taken}"
            );
            assert!(
                (core.fraction() - number(4)).abs() < 3e-4,
                "{row:?}: {core}"
            );
            seen += 1;
        }
        assert_eq!(seen, 40);
    }

    // polykin 0.5, documentation of transport.diffusion (read), worked figures: sheets whose faces
    // are kept at one concentration, after Crank p. 47 and 48.
    #[test]
    fn an_endless_bath_comes_to_a_published_librarys_worked_figures() {
        let endless = Course::new(Shape::Slab, ratio(1e9));
        let near = |found: Ratio, expected: f64| {
            assert!(
                (found.fraction() - expected).abs() < 2e-4,
                "{found} {expected}"
            );
        };
        near(endless.taken_up(0.25), 0.562_233_541_762_138);
        near(endless.taken_up(0.125), 0.398_927_989_884_568);
        near(endless.core(0.25), 0.314_554_233_109_648);
        // First term of the charts for heat in a long cylinder whose surface is kept: 1.6018
        // exp(-2.4048² Fo) (Incropera, table 5.1, from memory).
        let cylinder = Course::new(Shape::Cylinder, ratio(1e9));
        near(
            cylinder.core(0.4),
            1.0 - 1.6018 * (-2.404_8f64.powi(2) * 0.4).exp(),
        );
    }

    #[test]
    fn when_the_core_is_there_is_where_the_core_is() {
        let course = Course::new(Shape::Slab, ratio(2.0));
        let at = course.when_core(ratio(0.6)).unwrap();
        assert!((course.core(at).fraction() - 0.6).abs() < 1e-9);
        assert_eq!(course.when_core(ratio(1.0)), None);
        assert_eq!(course.core(0.0), Ratio::ZERO);
    }

    // Where the root of time hands over to the series neither may jump: an endless bath's error is of the order of the
    // curvature, 1 % of what is in for a cylinder.
    #[test]
    fn a_short_time_goes_over_into_a_long_one() {
        for shape in [Shape::Slab, Shape::Cylinder] {
            for bath in [1.0, 3.0, 1e9] {
                let course = Course::new(shape, ratio(bath));
                let before = course.taken_up(SHORT * 0.999).fraction();
                let after = course.taken_up(SHORT * 1.001).fraction();
                assert!(
                    (after / before - 1.0).abs() < 0.05,
                    "{shape} {bath}: {before} {after}"
                );
                assert_eq!(course.taken_up(0.0), Ratio::ZERO);
                assert!(course.core(NOT_AT_CORE).fraction() < 1e-5);
            }
        }
    }
}
