//! Capability: whether the spread fits the tolerance.

use super::interval::{Confidence, Interval};
use super::{Sample, mass};
use evenhand_protocol::{Goal, Mass};
use statrs::distribution::{ChiSquared, ContinuousCDF, Normal};

/// How a spread fits a tolerance (e-Handbook 6.1.6). One means the tolerance
/// is just six standard deviations wide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capability {
    /// Width of the tolerance over six standard deviations: what the hand could
    /// do if it aimed right.
    pub cp: f64,
    /// Distance of the mean from the nearer limit over three standard
    /// deviations: what it does. Negative when the mean lies outside.
    pub cpk: f64,
    /// Width of the tolerance over six root mean square deviations from the
    /// target: punishes a mean off target.
    pub cpm: f64,
    /// Where the true Cp lies, by chi-squared.
    pub cp_interval: Interval<f64>,
    /// Where the true Cpk lies, by Bissell's approximation (e-Handbook 6.1.6).
    pub cpk_interval: Interval<f64>,
    /// The standard deviation used.
    pub deviation: Mass,
}

/// Capability of a sample against a goal; `None` under two masses or without
/// any spread.
#[must_use]
pub fn capability(sample: &Sample, goal: Goal, confidence: Confidence) -> Option<Capability> {
    let (mean, s) = (sample.mean_grams()?, sample.deviation_grams()?);
    if s <= 0.0 {
        return None;
    }
    let n = sample.count() as f64;
    let (low, high) = (goal.lightest().grams(), goal.heaviest().grams());
    let width = high - low;
    let cp = width / (6.0 * s);
    let cpk = (mean - low).min(high - mean) / (3.0 * s);
    let off = mean - goal.target().grams();
    let cpm = width / (6.0 * (s * s + off * off).sqrt());
    let chi = ChiSquared::new(n - 1.0).ok()?;
    let end = |p: f64| cp * (chi.inverse_cdf(p) / (n - 1.0)).sqrt();
    let z = Normal::new(0.0, 1.0).ok()?.inverse_cdf(confidence.upper());
    let half = z * (1.0 / (9.0 * n) + cpk * cpk / (2.0 * (n - 1.0))).sqrt();
    Some(Capability {
        cp,
        cpk,
        cpm,
        cp_interval: Interval {
            low: end(1.0 - confidence.upper()),
            high: end(confidence.upper()),
            confidence,
        },
        cpk_interval: Interval {
            low: cpk - half,
            high: cpk + half,
            confidence,
        },
        deviation: mass(s),
    })
}
