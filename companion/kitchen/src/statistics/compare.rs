//! Two samples beside each other: by an interval, not by a bare p-value.

use super::interval::{Confidence, Interval, student};
use super::{Sample, mass};
use crate::spread::Spread;
use evenhand_protocol::Mass;
use statrs::distribution::{ContinuousCDF, FisherSnedecor};

/// How far apart two means are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// The second mean less the first.
    pub difference: Mass,
    /// Where the true difference lies.
    pub interval: Interval<Mass>,
    /// Effective degrees of freedom.
    pub degrees: f64,
}

impl Difference {
    /// Whether the interval leaves out zero.
    #[must_use]
    pub fn is_real(&self) -> bool {
        !self.interval.holds(&Mass::ZERO)
    }
}

/// The difference of two means without supposing equal spreads (Welch and
/// Satterthwaite; e-Handbook 7.3.1); `None` where either sample has fewer than
/// two masses or neither has any spread.
#[must_use]
pub fn mean_difference(
    before: &Sample,
    after: &Sample,
    confidence: Confidence,
) -> Option<Difference> {
    let part = |s: &Sample| {
        Some(Part {
            n: s.count() as f64,
            mean: s.mean_grams()?,
            deviation: s.deviation_grams()?,
        })
    };
    welch(part(before)?, part(after)?, confidence)
}

/// The same of two spreads, where only their sums are at hand.
#[must_use]
pub fn spread_difference(
    before: &Spread,
    after: &Spread,
    confidence: Confidence,
) -> Option<Difference> {
    let part = |s: &Spread| {
        Some(Part {
            n: s.n() as f64,
            mean: s.mean()?.grams(),
            deviation: s.standard_deviation()?.grams(),
        })
    };
    welch(part(before)?, part(after)?, confidence)
}

/// One of two that are compared, in grams.
struct Part {
    n: f64,
    mean: f64,
    deviation: f64,
}

fn welch(before: Part, after: Part, confidence: Confidence) -> Option<Difference> {
    let squared = |part: &Part| part.deviation * part.deviation / part.n;
    let (a, b) = (squared(&before), squared(&after));
    let variance = a + b;
    if variance <= 0.0 {
        return None;
    }
    let degrees = variance * variance / (a * a / (before.n - 1.0) + b * b / (after.n - 1.0));
    let difference = after.mean - before.mean;
    let half = student(degrees, confidence.upper())? * variance.sqrt();
    Some(Difference {
        difference: mass(difference),
        interval: Interval {
            low: mass(difference - half),
            high: mass(difference + half),
            confidence,
        },
        degrees,
    })
}

/// How many times wider one spread is than another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpreadRatio {
    /// The second standard deviation over the first.
    pub ratio: f64,
    /// Where the true ratio lies.
    pub interval: Interval<f64>,
}

impl SpreadRatio {
    /// Whether the interval leaves out one.
    #[must_use]
    pub fn is_real(&self) -> bool {
        !self.interval.holds(&1.0)
    }
}

/// The ratio of two spreads of normally spread masses, by the F distribution
/// (e-Handbook 1.3.5.9); `None` where either has fewer than two masses or no
/// spread at all.
#[must_use]
pub fn spread_ratio(
    before: &Sample,
    after: &Sample,
    confidence: Confidence,
) -> Option<SpreadRatio> {
    let (a, b) = (before.deviation_grams()?, after.deviation_grams()?);
    if a <= 0.0 || b <= 0.0 {
        return None;
    }
    let degrees = |s: &Sample| s.count() as f64 - 1.0;
    let f = FisherSnedecor::new(degrees(after), degrees(before)).ok()?;
    let ratio = b / a;
    Some(SpreadRatio {
        ratio,
        interval: Interval {
            low: ratio / f.inverse_cdf(confidence.upper()).sqrt(),
            high: ratio / f.inverse_cdf(1.0 - confidence.upper()).sqrt(),
            confidence,
        },
    })
}
