//! Drift through the night.

use super::interval::{Confidence, Interval, student};
use super::{Sample, mass};
use evenhand_protocol::Mass;
use jiff::Timestamp;
use statrs::distribution::{ContinuousCDF, StudentsT};

/// A straight line through the night's portions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trend {
    /// Heavier (or, negative, lighter) by this much each hour.
    pub per_hour: Mass,
    /// Where the true figure lies.
    pub interval: Interval<Mass>,
    /// How often chance alone would tilt a level night this far or further:
    /// shown beside the interval, never instead of it.
    pub chance: f64,
}

impl Trend {
    /// Whether the interval leaves out no drift at all.
    #[must_use]
    pub fn is_real(&self) -> bool {
        !self.interval.holds(&Mass::ZERO)
    }
}

/// Least-squares drift of masses against time (e-Handbook 4.4.3.1; interval by
/// Student's t with n − 2 degrees of freedom). Times and masses pair in order;
/// `None` where their numbers differ, there are fewer than three, or all times
/// are one.
#[must_use]
pub fn trend(times: &[Timestamp], sample: &Sample, confidence: Confidence) -> Option<Trend> {
    let n = sample.count();
    if n < 3 || times.len() != n {
        return None;
    }
    let first = times.first()?;
    let hours: Vec<f64> = times
        .iter()
        .map(|t| t.duration_since(*first).as_secs_f64() / 3600.0)
        .collect();
    let count = n as f64;
    let mid = hours.iter().sum::<f64>() / count;
    let mean = sample.mean_grams()?;
    let (xx, xy) = hours
        .iter()
        .zip(sample.grams())
        .fold((0.0, 0.0), |(xx, xy), (h, g)| {
            let d = h - mid;
            (xx + d * d, xy + d * (g - mean))
        });
    if xx <= 0.0 {
        return None;
    }
    let slope = xy / xx;
    let residual: f64 = hours
        .iter()
        .zip(sample.grams())
        .map(|(h, g)| (g - mean - slope * (h - mid)).powi(2))
        .sum();
    let degrees = count - 2.0;
    let error = (residual / degrees / xx).sqrt();
    let half = student(degrees, confidence.upper())? * error;
    let chance = if error > 0.0 {
        let t = StudentsT::new(0.0, 1.0, degrees).ok()?;
        2.0 * t.cdf(-(slope / error).abs())
    } else if slope == 0.0 {
        1.0
    } else {
        0.0
    };
    Some(Trend {
        per_hour: mass(slope),
        interval: Interval {
            low: mass(slope - half),
            high: mass(slope + half),
            confidence,
        },
        chance,
    })
}
