//! Masses to be described.

use super::mass;
use evenhand_protocol::Mass;

/// A sample of portion masses, in the order they were made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sample {
    grams: Vec<f64>,
}

/// How far a sample of this size can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Enough {
    /// Under two portions: there is no spread to speak of.
    None,
    /// Two to nine: figures are shown with their wide intervals and called
    /// small (common practice, no source).
    Small,
    /// Ten to twenty-nine: usable, limits of a chart are provisional.
    Some,
    /// Thirty or more.
    Plenty,
}

impl FromIterator<Mass> for Sample {
    fn from_iter<I: IntoIterator<Item = Mass>>(masses: I) -> Self {
        Self {
            grams: masses.into_iter().map(Mass::grams).collect(),
        }
    }
}

impl Sample {
    /// How many masses there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.grams.len()
    }

    /// How far the sample can be trusted.
    #[must_use]
    pub fn enough(&self) -> Enough {
        match self.grams.len() {
            0 | 1 => Enough::None,
            2..=9 => Enough::Small,
            10..=29 => Enough::Some,
            _ => Enough::Plenty,
        }
    }

    /// The arithmetic mean; `None` of an empty sample.
    #[must_use]
    pub fn mean(&self) -> Option<Mass> {
        self.mean_grams().map(mass)
    }

    /// The sample standard deviation (divisor n − 1); `None` under two masses.
    #[must_use]
    pub fn standard_deviation(&self) -> Option<Mass> {
        self.deviation_grams().map(mass)
    }

    /// The masses in grams, in their order.
    pub fn iter_grams(&self) -> impl Iterator<Item = f64> + '_ {
        self.grams.iter().copied()
    }

    pub(super) fn grams(&self) -> &[f64] {
        &self.grams
    }

    pub(super) fn mean_grams(&self) -> Option<f64> {
        // Differences from the first value are small and exact where the values are
        // large and close together, which a plain sum would not keep.
        let first = *self.grams.first()?;
        let sum: f64 = self.grams.iter().map(|g| g - first).sum();
        Some(first + sum / self.grams.len() as f64)
    }

    pub(super) fn deviation_grams(&self) -> Option<f64> {
        let n = self.grams.len();
        if n < 2 {
            return None;
        }
        let mean = self.mean_grams()?;
        let (squares, rest) = self.grams.iter().fold((0.0, 0.0), |(s, r), g| {
            let d = g - mean;
            (s + d * d, r + d)
        });
        // The corrected two-pass formula: Chan, Golub and LeVeque, The American
        // Statistician 37 (1983) 242.
        let corrected = squares - rest * rest / n as f64;
        Some((corrected.max(0.0) / (n as f64 - 1.0)).sqrt())
    }
}
