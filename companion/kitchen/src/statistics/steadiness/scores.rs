//! Normal scores: what the ranks of a night's portions would be as draws from a
//! normal distribution.
//!
//! Tests on scores hold whatever the distribution of the portions: heavy tails
//! and skew change the masses, not the ranks.

use statrs::distribution::{ContinuousCDF, Normal};

/// The quantile of the standard normal distribution.
pub(super) fn normal_quantile(probability: f64) -> f64 {
    standard().inverse_cdf(probability)
}

/// The probability that a standard normal number is as far from zero or
/// farther, on either side.
pub(super) fn two_sided(z: f64) -> f64 {
    (2.0 * standard().sf(z.abs())).min(1.0)
}

/// The probability that a standard normal number is above `z`.
pub(super) fn upper_tail(z: f64) -> f64 {
    standard().sf(z)
}

/// The standard normal distribution.
fn standard() -> Normal {
    Normal::standard()
}

/// Normal scores by Blom's approximation (Blom 1958, (r - 3/8) / (n + 1/4)),
/// with mean zero and variance one (divisor n - 1). Equal values share the mean
/// of their ranks. `None` where fewer than two values differ.
pub(super) fn normal_scores(values: &[f64]) -> Option<Vec<f64>> {
    let n = values.len();
    let mut order: Vec<usize> = (0..n).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]));
    let mut scores = vec![0.0; n];
    let mut begin = 0;
    while begin < n {
        let mut end = begin + 1;
        while end < n && values[order[end]] == values[order[begin]] {
            end += 1;
        }
        // Ranks from begin + 1 to end.
        let rank = (begin + 1 + end) as f64 / 2.0;
        let score = normal_quantile((rank - 0.375) / (n as f64 + 0.25));
        for place in &order[begin..end] {
            scores[*place] = score;
        }
        begin = end;
    }
    let mean = scores.iter().sum::<f64>() / n as f64;
    let squares: f64 = scores.iter().map(|s| (s - mean).powi(2)).sum();
    if squares <= 1e-12 {
        return None;
    }
    let deviation = (squares / (n as f64 - 1.0)).sqrt();
    for score in &mut scores {
        *score = (*score - mean) / deviation;
    }
    Some(scores)
}
