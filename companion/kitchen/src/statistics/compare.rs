//! Two spreads beside each other: by an interval, not by a bare p-value.

use super::interval::{Confidence, Interval, student};
use super::mass;
use crate::spread::Spread;
use evenhand_protocol::Mass;

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
/// Satterthwaite; e-Handbook 7.3.1); `None` where either has fewer than two
/// masses or neither has any spread.
#[must_use]
pub fn spread_difference(
    before: &Spread,
    after: &Spread,
    confidence: Confidence,
) -> Option<Difference> {
    let part = |s: &Spread| {
        Some(Sample {
            n: s.n() as f64,
            mean: s.mean()?.grams(),
            deviation: s.standard_deviation()?.grams(),
        })
    };
    welch(part(before)?, part(after)?, confidence)
}

/// One of two that are compared, in grams.
struct Sample {
    n: f64,
    mean: f64,
    deviation: f64,
}

fn welch(before: Sample, after: Sample, confidence: Confidence) -> Option<Difference> {
    let squared = |part: &Sample| part.deviation * part.deviation / part.n;
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
