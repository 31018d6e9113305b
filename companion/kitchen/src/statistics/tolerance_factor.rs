//! How many standard deviations below the mean a share of all portions lies,
//! with the uncertainty of a small sample in it.

use super::interval::Confidence;
use statrs::distribution::{ContinuousCDF, Normal};
use statrs::function::gamma::ln_gamma;

/// The factor k of a one-sided tolerance bound of a normal distribution: with
/// the given confidence, at least `share` of all portions lie above the mean
/// less k standard deviations, both of a sample of `n`.
///
/// k is the quantile of a non-central t over the root of n (e-Handbook 7.2.6.3).
/// `None` under two portions or where the share is not from 0.5 to 0.9999.
#[must_use]
pub fn tolerance_factor(n: usize, share: f64, confidence: Confidence) -> Option<f64> {
    if n < 2 || !(0.5..=0.9999).contains(&share) {
        return None;
    }
    let normal = Normal::standard();
    let root = (n as f64).sqrt();
    let noncentrality = normal.inverse_cdf(share) * root;
    let held = |k: f64| {
        with_deviation(n - 1, |deviation| {
            normal.cdf(k * root * deviation - noncentrality)
        })
    };
    let (mut low, mut high) = (0.0, 2.0);
    while held(high) < confidence.fraction() {
        if high > 1e6 {
            return None;
        }
        (low, high) = (high, high * 2.0);
    }
    for _ in 0..60 {
        let k = f64::midpoint(low, high);
        if held(k) < confidence.fraction() {
            low = k;
        } else {
            high = k;
        }
    }
    Some(high)
}

/// The mean of a function of a sample's standard deviation over the true one,
/// which is that of a chi with so many degrees of freedom over their root, by
/// Simpson's rule.
fn with_deviation(degrees: usize, of: impl Fn(f64) -> f64) -> f64 {
    const HALVES: usize = 400;
    let degrees = degrees as f64;
    let log_scale = 2.0_f64.ln() + degrees / 2.0 * (degrees / 2.0).ln() - ln_gamma(degrees / 2.0);
    let density = |u: f64| {
        if u <= 0.0 {
            // Of one degree of freedom it is not nought there.
            return if degrees == 1.0 { log_scale.exp() } else { 0.0 };
        }
        (log_scale + (degrees - 1.0) * u.ln() - degrees * u * u / 2.0).exp()
    };
    // Nine of its own standard deviations either side of one.
    let reach = 9.0 / (2.0 * degrees).sqrt();
    let (from, to) = ((1.0 - reach).max(0.0), 1.0 + reach);
    let width = (to - from) / (2 * HALVES) as f64;
    let sum: f64 = (0..=2 * HALVES)
        .map(|nth| {
            let weight = match nth {
                0 => 1.0,
                nth if nth == 2 * HALVES => 1.0,
                nth if nth % 2 == 1 => 4.0,
                _ => 2.0,
            };
            let u = from + width * nth as f64;
            weight * density(u) * of(u)
        })
        .sum();
    sum * width / 3.0
}
