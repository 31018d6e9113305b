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
    /// The logarithm of the mean of [`distances_around`]; `None` where that is
    /// nought.
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
        let distances = distances_around(masses)?;
        let distance = distances.iter().sum::<f64>() / n;
        let spread: f64 = distances
            .iter()
            .map(|d| (d - distance).powi(2))
            .sum::<f64>()
            / (n - 1.0);
        Some(Self {
            n,
            mean,
            within: variance * wider(alike),
            log_distance: (distance > 0.0).then(|| distance.ln()),
            distance_within: if distance > 0.0 {
                spread / (distance * distance) * wider(alike * alike)
            } else {
                0.0
            },
        })
    }
}

/// Of about how many portions in a row one middle is taken.
const AROUND: usize = 20;

/// How far each portion lies from the middle of those made about the same time,
/// after Brown and Forsythe, who take distances from the middle in place of squares
/// (Journal of the American Statistical Association 69 (1974) 364). What takes the
/// night's level elsewhere, a second hand or a drift, is then not taken for
/// unevenness. `None` of fewer than two portions.
pub(super) fn distances_around(masses: &[f64]) -> Option<Vec<f64>> {
    let n = masses.len();
    if n < 2 {
        return None;
    }
    let stretches = (n / AROUND).max(1);
    let mut distances = Vec::with_capacity(n);
    for nth in 0..stretches {
        let stretch = masses.get(nth * n / stretches..(nth + 1) * n / stretches)?;
        let middle = median(stretch)?;
        let portions = stretch.len() as f64;
        // Takes out most of what the middle of a few portions hides.
        let shown = (portions / (portions - 1.0)).sqrt();
        distances.extend(stretch.iter().map(|mass| (mass - middle).abs() * shown));
    }
    Some(distances)
}

/// How many times the variance of a long sum is that of independent portions.
pub(super) fn wider(alike: f64) -> f64 {
    (1.0 + alike) / (1.0 - alike)
}

#[cfg(test)]
mod tests {
    use super::*;

    // By hand: two hands, each within a gram of its own middle, ten grams apart.
    #[test]
    fn a_second_hand_is_not_taken_for_unevenness() {
        let ten = [-1.0, 1.0, -1.0, 1.0, 0.0, 0.0, -1.0, 1.0, -1.0, 1.0];
        let hand: Vec<f64> = ten.into_iter().chain(ten).collect();
        let night: Vec<f64> = hand
            .iter()
            .copied()
            .chain(hand.iter().map(|mass| mass + 10.0))
            .collect();
        let distances = distances_around(&night).unwrap();
        assert_eq!(distances.len(), 40);
        for (distance, mass) in distances.iter().zip(hand.iter().chain(&hand)) {
            assert!((distance - mass.abs() * (20.0_f64 / 19.0).sqrt()).abs() < 1e-12);
        }
        assert_eq!(distances_around(&[1.0]), None);
        // No stretch has fewer than twenty portions but of a night of fewer.
        assert_eq!(distances_around(&[3.0; 39]).unwrap(), vec![0.0; 39]);
    }
}
