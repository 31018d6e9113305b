//! How alike neighbouring portions are, and what that does to sums of them.

/// The highest serial correlation that is reckoned with. A hand whose
/// neighbouring portions are more alike than this is beyond what one night can
/// tell from a drift.
pub(super) const MOST_ALIKE: f64 = 0.6;

/// The correlation of each portion with the next, pooled over nights.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct SerialCorrelation {
    products: f64,
    squares: f64,
    portions: f64,
    nights: f64,
}

impl SerialCorrelation {
    /// Takes in one night's scores, a straight line taken out of them, so that
    /// a drift is not taken for likeness.
    pub(super) fn add(&mut self, scores: &[f64]) {
        let n = scores.len();
        if n < 4 {
            return;
        }
        let left = without_line(scores);
        self.products += left.windows(2).map(|w| w[0] * w[1]).sum::<f64>();
        self.squares += left.iter().map(|e| e * e).sum::<f64>();
        self.portions += n as f64;
        self.nights += 1.0;
    }

    /// The correlation to reckon with: the estimate, its bias taken out, and so
    /// many standard errors more to be on the careful side; from 0 to
    /// [`MOST_ALIKE`].
    pub(super) fn careful(&self, standard_errors: f64) -> f64 {
        if self.squares <= 0.0 {
            return MOST_ALIKE;
        }
        let raw = self.products / self.squares;
        // With a line taken out of n values the estimate is low by about
        // (2 + 4 rho) / n (Kendall, Biometrika 41 (1954) 403; from memory).
        let share = self.nights / self.portions;
        let estimate = (raw + 2.0 * share) / (1.0 - 4.0 * share).max(0.2);
        let error = (1.0 / (self.portions - 4.0 * self.nights).max(3.0)).sqrt();
        (estimate + standard_errors * error).clamp(0.0, MOST_ALIKE)
    }
}

/// The values less their least-squares line over their places.
pub(super) fn without_line(values: &[f64]) -> Vec<f64> {
    let n = values.len() as f64;
    let mid = (n - 1.0) / 2.0;
    let mean = values.iter().sum::<f64>() / n;
    let (xx, xy) = values
        .iter()
        .enumerate()
        .fold((0.0, 0.0), |(xx, xy), (place, value)| {
            let d = place as f64 - mid;
            (xx + d * d, xy + d * (value - mean))
        });
    let slope = if xx > 0.0 { xy / xx } else { 0.0 };
    values
        .iter()
        .enumerate()
        .map(|(place, value)| value - mean - slope * (place as f64 - mid))
        .collect()
}

/// The variance of the sum of `weights` times values whose correlation falls by
/// the factor `alike` with each place apart, in variances of one value.
pub(super) fn variance_of_sum(weights: impl IntoIterator<Item = f64>, alike: f64) -> f64 {
    let (mut before, mut sum) = (0.0, 0.0);
    for weight in weights {
        sum += weight * weight + 2.0 * weight * alike * before;
        before = weight + alike * before;
    }
    sum
}

/// How many times the variance of a sum of `weights` (together nought) times
/// scores is that of independent portions, the scores being scaled by their own
/// variance.
pub(super) fn widened(weights: &[f64], alike: f64) -> f64 {
    let n = weights.len() as f64;
    let independent = weights.iter().map(|w| w * w).sum::<f64>();
    let of_all = variance_of_sum(weights.iter().map(|_| 1.0), alike);
    // The variance within the night is expected to be so much of the whole.
    let within = ((n - of_all / n) / (n - 1.0)).max(0.05);
    variance_of_sum(weights.iter().copied(), alike) / independent / within
}

#[cfg(test)]
mod tests {
    use super::*;

    // The mean of n values of an autoregression: variance
    // (1 + 2 sum (1 - k/n) rho^k) / n, written out.
    #[test]
    fn the_variance_of_a_mean_is_that_of_the_formula() {
        let (n, alike) = (12, 0.4_f64);
        let formula = (1..n).fold(1.0, |sum, k| {
            sum + 2.0 * (1.0 - f64::from(k) / f64::from(n)) * alike.powi(k)
        }) / f64::from(n);
        let ours = variance_of_sum((0..n).map(|_| 1.0 / f64::from(n)), alike);
        assert!((ours - formula).abs() < 1e-12);
    }

    #[test]
    fn a_straight_line_is_taken_out_whole() {
        let line: Vec<f64> = (0..20).map(|place| 3.0 + 0.2 * f64::from(place)).collect();
        assert!(without_line(&line).iter().all(|left| left.abs() < 1e-9));
    }
}
