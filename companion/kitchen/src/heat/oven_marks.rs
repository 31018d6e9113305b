//! What lighting an oven again did, learned from the marks in its log.
//!
//! A mark is a word at a moment. From `lit` on it takes so long until the oven has been above a
//! band and falls into it, and so long until it falls out of it. Nothing is said from fewer than
//! three times; from three on the next lies in the interval eight times in ten, as far as they
//! differ by chance alone.

use super::forecast::{Band, CONFIDENCE};
use super::log::{HeatLog, LogPoint};
use crate::statistics::{Confidence, next_within};
use jiff::{SignedDuration, Timestamp};

/// The mark of an oven that is lit.
pub const LIT: &str = "lit";

/// An oven that was lit has been through its band within this.
const LONGEST_FALL: SignedDuration = SignedDuration::from_hours(24);

/// What is likely, and from when to when it is eight times in ten.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Likely {
    /// The lower end.
    pub low: f64,
    /// The mean.
    pub likely: f64,
    /// The upper end.
    pub high: f64,
}

impl Likely {
    fn of(figures: &[f64]) -> Option<Self> {
        let (likely, half) = next_within(figures, Confidence::new(CONFIDENCE).ok()?)?;
        Some(Self {
            // No fire turns time back.
            low: (likely - half).max(0.0),
            likely: likely.max(0.0),
            high: likely + half,
        })
    }
}

fn celsius(point: &LogPoint) -> f64 {
    point.temperature.celsius()
}

fn minutes(from: Timestamp, to: Timestamp) -> f64 {
    to.duration_since(from).as_secs_f64() / 60.0
}

/// The moments of a mark, in order.
pub(super) fn marked(log: &HeatLog, word: &str) -> Vec<Timestamp> {
    let of_word = log
        .markers
        .iter()
        .filter(|marker| marker.text.eq_ignore_ascii_case(word));
    let mut at: Vec<Timestamp> = of_word.map(|marker| marker.at).collect();
    at.sort_unstable();
    at
}

/// How many minutes after an oven is lit it falls into a band, and out of it; `None` from fewer
/// than three times that it did.
#[must_use]
pub fn after_lighting(log: &HeatLog, band: Band) -> Option<(Likely, Likely)> {
    let lit = marked(log, LIT);
    let (mut enters, mut leaves) = (Vec::new(), Vec::new());
    for (nth, at) in lit.iter().enumerate() {
        let end = at.checked_add(LONGEST_FALL).unwrap_or(Timestamp::MAX);
        let end = lit.get(nth + 1).map_or(end, |next| end.min(*next));
        let run: Vec<&LogPoint> = log
            .points()
            .iter()
            .filter(|point| (*at..end).contains(&point.at))
            .collect();
        let (high, low) = (band.high().celsius(), band.low().celsius());
        let Some(above) = run.iter().position(|point| celsius(point) > high) else {
            continue;
        };
        let falls_to = |level: f64| {
            let pair = run[above..]
                .windows(2)
                .find(|pair| celsius(pair[0]) > level && celsius(pair[1]) <= level)?;
            let (from, to) = (celsius(pair[0]), celsius(pair[1]));
            let share = (from - level) / (from - to);
            Some(minutes(*at, pair[0].at) + share * minutes(pair[0].at, pair[1].at))
        };
        if let (Some(enter), Some(leave)) = (falls_to(high), falls_to(low)) {
            enters.push(enter);
            leaves.push(leave);
        }
    }
    Some((Likely::of(&enters)?, Likely::of(&leaves)?))
}
