//! Confidence intervals.

use super::{OutOfRange, Sample, mass};
use evenhand_protocol::Mass;
use statrs::distribution::{ChiSquared, ContinuousCDF, StudentsT};

/// How sure an interval is to hold the truth, over many such intervals.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Confidence(f64);

impl Confidence {
    /// Nineteen times in twenty.
    pub const NINETY_FIVE: Self = Self(0.95);

    /// A confidence as a fraction, from 0.5 to 0.9999.
    ///
    /// # Errors
    /// [`OutOfRange`] outside that, or where it is not a number.
    pub fn new(fraction: f64) -> Result<Self, OutOfRange> {
        if (0.5..=0.9999).contains(&fraction) {
            Ok(Self(fraction))
        } else {
            Err(OutOfRange {
                field: "confidence",
                value: fraction,
                expected: "a fraction from 0.5 to 0.9999",
            })
        }
    }

    /// As a fraction.
    #[must_use]
    pub const fn fraction(self) -> f64 {
        self.0
    }

    /// The probability below the upper end of a two-sided interval.
    pub(super) fn upper(self) -> f64 {
        f64::midpoint(1.0, self.0)
    }
}

/// From here to there, with a confidence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval<T> {
    /// The lower end.
    pub low: T,
    /// The upper end.
    pub high: T,
    /// How sure.
    pub confidence: Confidence,
}

impl<T: PartialOrd> Interval<T> {
    /// Whether a value lies within, ends included.
    pub fn holds(&self, value: &T) -> bool {
        *value >= self.low && *value <= self.high
    }
}

/// The quantile of Student's t with any positive degrees of freedom.
pub(super) fn student(degrees: f64, probability: f64) -> Option<f64> {
    StudentsT::new(0.0, 1.0, degrees)
        .ok()
        .map(|t| t.inverse_cdf(probability))
}

/// The mean of figures, and half of the interval that the next one lies in
/// with that confidence, by Student's t (Hahn and Meeker, Statistical
/// Intervals, 3.5, from memory); `None` under three figures.
#[must_use]
pub fn next_within(figures: &[f64], confidence: Confidence) -> Option<(f64, f64)> {
    let n = figures.len() as f64;
    if figures.len() < 3 {
        return None;
    }
    let mean = figures.iter().sum::<f64>() / n;
    let squares: f64 = figures.iter().map(|figure| (figure - mean).powi(2)).sum();
    let half =
        student(n - 1.0, confidence.upper())? * (squares / (n - 1.0) * (1.0 + 1.0 / n)).sqrt();
    Some((mean, half))
}

/// Interval for the mean, by Student's t (e-Handbook 7.2.2.1); `None` under
/// two masses.
#[must_use]
pub fn mean_interval(sample: &Sample, confidence: Confidence) -> Option<Interval<Mass>> {
    let n = sample.count() as f64;
    let mean = sample.mean_grams()?;
    let half = student(n - 1.0, confidence.upper())? * sample.deviation_grams()? / n.sqrt();
    Some(Interval {
        low: mass(mean - half),
        high: mass(mean + half),
        confidence,
    })
}

/// Interval for the standard deviation of normally spread masses, by
/// chi-squared (e-Handbook 7.2.3.1); `None` under two masses.
#[must_use]
pub fn standard_deviation_interval(
    sample: &Sample,
    confidence: Confidence,
) -> Option<Interval<Mass>> {
    let degrees = sample.count() as f64 - 1.0;
    let deviation = sample.deviation_grams()?;
    let chi = ChiSquared::new(degrees).ok()?;
    let end = |p: f64| deviation * (degrees / chi.inverse_cdf(p)).sqrt();
    Some(Interval {
        low: mass(end(confidence.upper())),
        high: mass(end(1.0 - confidence.upper())),
        confidence,
    })
}
