//! What is kept of a night to lay others beside.

use super::median;

/// What is kept of a night to lay others beside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct NightFigures {
    /// How many portions.
    pub(super) n: f64,
    /// Their mean, from the target.
    pub(super) mean: f64,
    /// The variance of `n` times the mean's error, by what is seen within the
    /// night: the portions' variance, widened for their likeness.
    pub(super) within: f64,
    /// The logarithm of the mean distance from the middle; `None` where there
    /// is none.
    pub(super) log_distance: Option<f64>,
    /// As `within`, of the logarithm of the mean distance.
    pub(super) distance_within: f64,
}

impl NightFigures {
    /// The figures of a night of two or more masses.
    pub(super) fn of(masses: &[f64], alike: f64) -> Option<Self> {
        let n = masses.len() as f64;
        if masses.len() < 2 {
            return None;
        }
        let mean = masses.iter().sum::<f64>() / n;
        let variance = masses.iter().map(|m| (m - mean).powi(2)).sum::<f64>() / (n - 1.0);
        let middle = median(masses)?;
        let distances: Vec<f64> = masses.iter().map(|m| (m - middle).abs()).collect();
        let sum: f64 = distances.iter().sum();
        // The divisor takes out most of what a small night's own middle hides.
        let distance = sum / (n * (n - 1.0)).sqrt();
        let plain = sum / n;
        let spread: f64 = distances.iter().map(|d| (d - plain).powi(2)).sum::<f64>() / (n - 1.0);
        Some(Self {
            n,
            mean,
            within: variance * wider(alike),
            log_distance: (distance > 0.0).then(|| distance.ln()),
            distance_within: if plain > 0.0 {
                spread / (plain * plain) * wider(alike * alike)
            } else {
                0.0
            },
        })
    }
}

/// How many times the variance of a long sum is that of independent portions.
pub(super) fn wider(alike: f64) -> f64 {
    (1.0 + alike) / (1.0 - alike)
}
