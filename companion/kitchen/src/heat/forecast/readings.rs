//! Readings as a fit wants them: averaged in bins, with their noise.

use super::super::log::LogPoint;
use jiff::{SignedDuration, Timestamp};

/// The most bins that a fit looks at.
const MOST_BINS: usize = 64;
/// No probe is quieter than this, °C.
const LEAST_NOISE: f64 = 0.02;

/// Some neighbouring readings as one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bin {
    /// Mean time, hours from the last bin (at most 0).
    pub hours: f64,
    /// Mean temperature, °C.
    pub celsius: f64,
    /// Variance of that mean by the noise of the readings, °C².
    pub variance: f64,
    /// The place of its first reading.
    pub first: usize,
}

/// The readings of an unbroken stretch, oldest first.
#[derive(Debug, Clone)]
pub(super) struct Readings {
    pub bins: Vec<Bin>,
    /// The moment that hours are counted from: the middle of the last bin.
    pub last: Timestamp,
    /// Hours from the first reading to that moment.
    pub since: f64,
    /// How far the temperature ranges, °C.
    pub range: f64,
    /// Noise of one reading, °C.
    pub noise: f64,
}

pub(super) fn hours(at: Timestamp, zero: Timestamp) -> f64 {
    at.duration_since(zero).as_secs_f64() / 3600.0
}

impl Readings {
    /// `None` without a reading.
    pub fn of(run: &[LogPoint]) -> Option<Self> {
        let last = run.last()?.at;
        let (noise, step) = noise(run);
        let size = run.len().div_ceil(MOST_BINS);
        let mut bins: Vec<Bin> = run
            .rchunks(size)
            .scan(run.len(), |end, chunk| {
                *end -= chunk.len();
                let n = chunk.len() as f64;
                let values = || chunk.iter().map(|p| p.temperature.celsius());
                let range = values().fold(f64::NEG_INFINITY, f64::max)
                    - values().fold(f64::INFINITY, f64::min);
                // Readings within one step of the converter err together.
                let rounding = step * step / 12.0 / (range / step.max(1e-9)).max(1.0);
                Some(Bin {
                    hours: chunk.iter().map(|p| hours(p.at, last)).sum::<f64>() / n,
                    celsius: values().sum::<f64>() / n,
                    variance: noise * noise / n + rounding,
                    first: *end,
                })
            })
            .collect();
        bins.reverse();
        // Hours are counted from the last bin, which a fit ends at.
        let zero = bins.last().map_or(0.0, |b| b.hours);
        for bin in &mut bins {
            bin.hours -= zero;
        }
        let seconds = SignedDuration::try_from_secs_f64(zero * 3600.0).unwrap_or_default();
        let range = range(&bins);
        Some(Self {
            bins,
            last: last.checked_add(seconds).unwrap_or(last),
            since: hours(last, run.first()?.at) + zero,
            range,
            noise: noise.hypot(step / 12.0_f64.sqrt()),
        })
    }

    /// From a bin on.
    pub fn from(&self, bin: usize) -> Self {
        let bins = self.bins[bin..].to_vec();
        Self {
            since: bins.first().map_or(0.0, |b| -b.hours),
            range: range(&bins),
            bins,
            ..*self
        }
    }

    /// Hours from the first bin to the last.
    pub fn length(&self) -> f64 {
        match (self.bins.first(), self.bins.last()) {
            (Some(a), Some(b)) => b.hours - a.hours,
            _ => 0.0,
        }
    }

    /// Degrees an hour over the last part of the bins, by least squares, with
    /// its standard uncertainty.
    pub fn pace(&self) -> (f64, f64) {
        let from = self.bins.len() - (self.bins.len() / 4).clamp(3, 12).min(self.bins.len());
        let late = &self.bins[from..];
        let n = late.len() as f64;
        let mx = late.iter().map(|b| b.hours).sum::<f64>() / n;
        let my = late.iter().map(|b| b.celsius).sum::<f64>() / n;
        let xx: f64 = late.iter().map(|b| (b.hours - mx).powi(2)).sum();
        let xy: f64 = late.iter().map(|b| (b.hours - mx) * (b.celsius - my)).sum();
        let noise = late.iter().map(|b| b.variance).sum::<f64>() / n;
        if xx > 0.0 {
            (xy / xx, (noise / xx).sqrt())
        } else {
            (0.0, f64::INFINITY)
        }
    }
}

fn range(bins: &[Bin]) -> f64 {
    let celsius = || bins.iter().map(|b| b.celsius);
    celsius().fold(f64::NEG_INFINITY, f64::max) - celsius().fold(f64::INFINITY, f64::min)
}

/// The noise of one reading from how each leaves the line through its
/// neighbours (a median, which a jump does not move), and the step that all
/// readings are whole multiples of, 0 where there is none to see.
fn noise(run: &[LogPoint]) -> (f64, f64) {
    let mut leaves: Vec<f64> = run
        .windows(3)
        .filter_map(|w| {
            let whole = hours(w[2].at, w[0].at);
            let share = hours(w[1].at, w[0].at) / whole;
            let (a, b, c) = (
                w[0].temperature.celsius(),
                w[1].temperature.celsius(),
                w[2].temperature.celsius(),
            );
            let scale = (1.0 + share * share + (1.0 - share).powi(2)).sqrt();
            (whole > 0.0).then(|| ((b - a - (c - a) * share) / scale).abs())
        })
        .collect();
    leaves.sort_by(f64::total_cmp);
    // The median of |N(0, 1)| is 0.6745.
    let noise = leaves.get(leaves.len() / 2).map_or(0.0, |m| m / 0.6745);
    let first = run.first().map_or(0, |p| p.temperature.millicelsius());
    let step = run.iter().fold(0, |step: i32, p| {
        common_divisor(step, (p.temperature.millicelsius() - first).abs())
    });
    let step = if step >= 40 {
        f64::from(step.min(1_000)) / 1000.0
    } else {
        0.0
    };
    (noise.max(LEAST_NOISE), step)
}

fn common_divisor(a: i32, b: i32) -> i32 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}
