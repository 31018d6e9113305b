//! One night beside the services before it, by how much these differ among
//! themselves.

use super::super::interval::student;
use super::median;
use statrs::distribution::{ContinuousCDF, StudentsT};

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
        let wider = |alike: f64| (1.0 + alike) / (1.0 - alike);
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

/// A figure of tonight beside the same of the services before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Beside {
    /// What it usually is: the mean over the services before.
    pub(super) usual: f64,
    /// Tonight less that.
    pub(super) difference: f64,
    /// One standard error of the prediction of a night.
    pub(super) error: f64,
    /// Degrees of freedom.
    pub(super) degrees: f64,
}

impl Beside {
    /// Student's t of the difference.
    fn t(&self) -> f64 {
        self.difference / self.error
    }

    /// The chance of as great a difference, either way.
    pub(super) fn chance(&self) -> Option<f64> {
        let t = StudentsT::new(0.0, 1.0, self.degrees).ok()?;
        Some((2.0 * t.cdf(-self.t().abs())).min(1.0))
    }

    /// The normal deviate as unlikely as the difference, with its sign.
    pub(super) fn deviate(&self) -> Option<f64> {
        let half = (self.chance()? / 2.0).clamp(1e-15, 0.5);
        Some(-super::scores::normal_quantile(half) * self.difference.signum())
    }

    /// How far a usual night may lie from the usual, on either side.
    pub(super) fn usual_within(&self, probability: f64) -> Option<f64> {
        Some(student(self.degrees, probability)? * self.error)
    }
}

/// A new figure against the prediction of figures like the ones before: the
/// prediction interval of one further observation. Where tonight has fewer
/// portions than the nights before, its figure is the less certain by what is
/// seen within the night. `None` with fewer than three nights before, or where
/// nothing ever differed.
///
/// Each figure comes with the variance that its own night's portions give it.
pub(super) fn beside(tonight: (f64, f64), before: &[(f64, f64)]) -> Option<Beside> {
    let m = before.len() as f64;
    if before.len() < 3 {
        return None;
    }
    let usual = before.iter().map(|(figure, _)| figure).sum::<f64>() / m;
    let between = before
        .iter()
        .map(|(figure, _)| (figure - usual).powi(2))
        .sum::<f64>()
        / (m - 1.0);
    let within = before.iter().map(|(_, own)| own).sum::<f64>() / m;
    let variance = between * (1.0 + 1.0 / m) + (tonight.1 - within).max(0.0);
    (variance > 0.0).then(|| Beside {
        usual,
        difference: tonight.0 - usual,
        error: variance.sqrt(),
        degrees: m - 1.0,
    })
}
