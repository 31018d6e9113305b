//! One night by itself: whether its portions moved, or grew less even, from the
//! first to the last.

use super::nights::distances_around;
use super::scores::{normal_scores, two_sided};
use super::serial::widened;

/// The cumulative sum of a night's portions about their own mean.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Turn {
    /// How far it goes, in its standard deviations of a level night.
    reach: f64,
    /// The first portion after the sum's farthest point, from 0: where the
    /// night, if it moved at once, moved.
    pub(super) place: usize,
    /// Whether what came after was heavier.
    pub(super) heavier: bool,
}

impl Turn {
    /// How often chance alone takes the sum as far, or farther, in nights that
    /// wander `restless` times as far as portions of one hand.
    pub(super) fn chance(&self, restless: f64) -> f64 {
        kolmogorov_tail(self.reach / restless)
    }
}

/// Cumulative sums of scores: how far they go from nought, against how far they
/// would go by chance in a night of so many portions.
pub(super) fn turn(scores: &[f64], alike: f64) -> Turn {
    let n = scores.len();
    let (mut sum, mut farthest, mut place) = (0.0_f64, 0.0_f64, 0);
    for (nth, score) in scores.iter().enumerate().take(n.saturating_sub(1)) {
        sum += score;
        if sum.abs() > farthest.abs() {
            (farthest, place) = (sum, nth + 1);
        }
    }
    let halves: Vec<f64> = (0..n)
        .map(|nth| if 2 * nth < n { 1.0 } else { -1.0 })
        .collect();
    let mean = halves.iter().sum::<f64>() / n as f64;
    let halves: Vec<f64> = halves.iter().map(|half| half - mean).collect();
    let scale = (n as f64 * widened(&halves, alike)).sqrt();
    // A sum that is looked at portion by portion overshoots a bound that a
    // continuous path just reaches: 0.583 standard deviations of a step
    // (Siegmund, Sequential Analysis (1985) 10.2; from memory).
    let reach = (farthest.abs() + 0.583) / scale;
    Turn {
        reach,
        place,
        heavier: farthest < 0.0,
    }
}

/// The probability that a Brownian bridge goes farther than `reach` from nought
/// (Kolmogorov 1933).
pub(super) fn kolmogorov_tail(reach: f64) -> f64 {
    if reach < 0.2 {
        return 1.0;
    }
    let sum: f64 = (1..=100)
        .map(|k| {
            let k = f64::from(k);
            let sign = if k as i32 % 2 == 1 { 1.0 } else { -1.0 };
            sign * (-2.0 * k * k * reach * reach).exp()
        })
        .sum();
    (2.0 * sum).clamp(0.0, 1.0)
}

/// The weights of a straight climb through n places, together nought.
fn climb(n: usize) -> Vec<f64> {
    let mid = (n as f64 - 1.0) / 2.0;
    (0..n).map(|place| place as f64 - mid).collect()
}

/// The climb of scores from the first to the last, in its standard deviations
/// of a level night.
pub(super) fn climb_of(scores: &[f64], alike: f64) -> f64 {
    let weights = climb(scores.len());
    let sum: f64 = weights.iter().zip(scores).map(|(w, s)| w * s).sum();
    let variance = weights.iter().map(|w| w * w).sum::<f64>() * widened(&weights, alike);
    sum / variance.sqrt()
}

/// Whether the portions' distances from the middle of those around them climb:
/// its chance and whether they grow.
pub(super) fn evenness_climb(masses: &[f64], alike: f64) -> Option<(f64, bool)> {
    let scores = normal_scores(&distances_around(masses)?)?;
    // Distances are alike by at most the square of what the masses are.
    let z = climb_of(&scores, alike * alike);
    Some((two_sided(z), z > 0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    // Critical values of the limiting distribution, Smirnov, Annals of
    // Mathematical Statistics 19 (1948) 279 (from memory): 1.22, 1.36, 1.63 for
    // 10, 5 and 1 per cent.
    #[test]
    fn the_bridge_is_that_of_the_table() {
        for (reach, tail) in [(1.224, 0.10), (1.358, 0.05), (1.628, 0.01)] {
            assert!((kolmogorov_tail(reach) - tail).abs() < 3e-4, "{reach}");
        }
    }
}
