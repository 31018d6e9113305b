//! The weight that a piece gains, from the kitchen's own batches.
//!
//! It is measured directly, so it needs no salt to be known. A piece gains as
//! water goes into a slab, to a level that differs between cuts and falls or
//! rises with the bath's strength. Levels of cuts are partially pooled: one
//! that was never weighed is expected at what the others have in common, with
//! the spread between them.

use super::{Course, IntoBath, Shape, Soak};
use crate::units::Ratio;
use statrs::distribution::{ContinuousCDF, Normal};

/// Batches weighed in and out that are needed before a gain is expected.
pub const LEAST_WEIGHED: usize = 3;

/// How fast water goes in, m²/s at 5 °C: what is looked through. Water in pork
/// while it is salted 0.8 to 2 e-9 (SINTEF, abstract, read), 0.5 to 1.2 e-8
/// along and across the fibre (Gómez and others 2017, abstract, read).
const FASTNESS: [f64; 8] = [1e-10, 2.2e-10, 4.6e-10, 1e-9, 2.2e-9, 4.6e-9, 1e-8, 2.2e-8];
/// How much alike batches are, and cuts, as shares of the raw weight.
const BATCHES: [f64; 5] = [0.002, 0.004, 0.008, 0.016, 0.032];
const CUTS: [f64; 3] = [0.012, 0.03, 0.06];
/// Water does not go in quite as it does into a slab; what is expected is wider
/// by as much. Chosen on made-up kitchens (tests/uptake_coverage.rs).
const NOT_A_SLAB: f64 = 1.15;
/// Before anything was weighed: the level of the mean and its doubt, and what a
/// bath stronger by the whole would do.
const LEVEL: (f64, f64) = (0.07, 0.07);
const STRENGTH: (f64, f64) = (0.0, 0.5);
/// The strength that levels are told at.
const USUAL_STRENGTH: f64 = 0.06;

/// What a batch gains: a mixture of normal distributions.
pub(super) struct GainExpected {
    parts: Vec<(f64, f64, f64)>,
}

pub(super) fn expected(soaks: &[Soak], asked: &IntoBath, seconds: f64) -> Option<GainExpected> {
    if soaks.len() < LEAST_WEIGHED {
        return None;
    }
    let mut cuts: Vec<&super::Cut> = vec![&asked.cut];
    let places: Vec<usize> = soaks
        .iter()
        .map(|soak| {
            let cut = &soak.into.cut;
            cuts.iter()
                .position(|known| known.is_same(cut))
                .unwrap_or_else(|| {
                    cuts.push(cut);
                    cuts.len() - 1
                })
        })
        .collect();
    let endless = Ratio::new(f64::MAX).unwrap_or(Ratio::ONE);
    let slab = Course::new(Shape::Slab, endless);
    let cylinder = Course::new(Shape::Cylinder, endless);
    let wide = 2 + cuts.len();
    let row = |into: &IntoBath, place: usize, seconds: f64, fastness: f64| {
        let course = match into.shape {
            Shape::Slab => &slab,
            Shape::Cylinder => &cylinder,
        };
        let fourier = fastness * super::fit::warmer(into.at) * seconds / into.depth().powi(2);
        let taken = course.taken_up(fourier).fraction();
        let mut row = vec![0.0; wide];
        row[0] = taken;
        row[1] = taken * (into.bath.strength().fraction() - USUAL_STRENGTH);
        row[2 + place] = taken;
        row
    };
    let mut parts = Vec::new();
    for fastness in FASTNESS {
        let rows: Vec<(Vec<f64>, f64)> = soaks
            .iter()
            .zip(&places)
            .map(|(soak, place)| {
                let seconds = soak.lasted.as_secs_f64();
                (
                    row(&soak.into, *place, seconds, fastness),
                    soak.gain().fraction(),
                )
            })
            .collect();
        let next = row(asked, 0, seconds, fastness);
        for between in CUTS {
            for within in BATCHES {
                let mut known = Known::new(wide, between);
                for (row, gain) in &rows {
                    known.learn(row, *gain, within);
                }
                let (mean, variance) = known.of(&next);
                let deviation = NOT_A_SLAB * (variance + within * within).sqrt();
                parts.push((known.evidence, mean, deviation));
            }
        }
    }
    let best = parts.iter().map(|part| part.0).fold(f64::MIN, f64::max);
    for part in &mut parts {
        part.0 = (part.0 - best).exp();
    }
    let sum: f64 = parts.iter().map(|part| part.0).sum();
    for part in &mut parts {
        part.0 /= sum;
    }
    Some(GainExpected { parts })
}

impl GainExpected {
    /// Below what the gain lies so often.
    pub(super) fn below(&self, often: f64) -> f64 {
        let (mut low, mut high) = (-1.0, 1.5);
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            let so_far: f64 = self
                .parts
                .iter()
                .map(|(weight, mean, deviation)| {
                    weight * Normal::new(*mean, *deviation).map_or(0.5, |normal| normal.cdf(middle))
                })
                .sum();
            if so_far < often {
                low = middle;
            } else {
                high = middle;
            }
        }
        (low + high) / 2.0
    }
}

/// What is known of a level for all, the bath's strength and each cut: means
/// and covariances, which every batch makes narrower.
struct Known {
    means: Vec<f64>,
    covariance: Vec<Vec<f64>>,
    evidence: f64,
}

impl Known {
    fn new(wide: usize, between: f64) -> Self {
        let mut means = vec![0.0; wide];
        means[0] = LEVEL.0;
        means[1] = STRENGTH.0;
        let covariance = (0..wide)
            .map(|i| {
                (0..wide)
                    .map(|j| match (i == j, i) {
                        (false, _) => 0.0,
                        (true, 0) => LEVEL.1.powi(2),
                        (true, 1) => STRENGTH.1.powi(2),
                        (true, _) => between * between,
                    })
                    .collect()
            })
            .collect();
        Self {
            means,
            covariance,
            evidence: 0.0,
        }
    }

    fn of(&self, row: &[f64]) -> (f64, f64) {
        let mean = dot(row, &self.means);
        (mean, dot(row, &self.times(row)).max(0.0))
    }

    fn times(&self, row: &[f64]) -> Vec<f64> {
        self.covariance.iter().map(|line| dot(line, row)).collect()
    }

    fn learn(&mut self, row: &[f64], gain: f64, within: f64) {
        let felt = self.times(row);
        let variance = dot(row, &felt) + within * within;
        let off = gain - dot(row, &self.means);
        self.evidence -= (off * off / variance + variance.ln()) / 2.0;
        for (i, of) in felt.iter().enumerate() {
            self.means[i] += of * off / variance;
            for (j, other) in felt.iter().enumerate() {
                self.covariance[i][j] -= of * other / variance;
            }
        }
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
