//! What opening the door and lighting an oven again did, learned from the marks in its log.
//!
//! A mark is a word at a moment. Between `door open` and `door shut` an oven loses heat: by how
//! much sooner it is then as cold as was foretold before it was opened, for each minute of it, is
//! what it *gains*. From `lit` on it takes so long until it has been above a band and falls into it, and
//! so long until it falls out of it. Nothing is said from fewer than three of either; from three
//! on the next lies in the interval eight times in ten, as far as they differ by chance alone.

use super::forecast::{Band, CONFIDENCE, Forecast, Habit, Surroundings, forecast};
use super::log::{HeatLog, LogPoint};
use crate::statistics::{Confidence, next_within};
use jiff::{SignedDuration, Timestamp};

/// The mark of an opened door,
pub const DOOR_OPEN: &str = "door open";
/// of one that is shut again,
pub const DOOR_SHUT: &str = "door shut";
/// and of an oven that is lit.
pub const LIT: &str = "lit";

/// A door is open no longer than this; a mark that it was shut is missing else.
const LONGEST_OPEN: SignedDuration = SignedDuration::from_hours(1);
/// What it gained is told from a reading no sooner after the door was shut, when the bricks have
/// given the air back most of what they have,
const SETTLED: SignedDuration = SignedDuration::from_mins(45);
/// and no later.
const LATEST: SignedDuration = SignedDuration::from_hours(3);
/// What was going on is told by readings of so long.
const WENT_ON: SignedDuration = SignedDuration::from_hours(12);
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
            // Neither a door nor a fire turns time back.
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

fn marked(log: &HeatLog, word: &str) -> Vec<Timestamp> {
    let of_word = log
        .markers
        .iter()
        .filter(|marker| marker.text.eq_ignore_ascii_case(word));
    let mut at: Vec<Timestamp> = of_word.map(|marker| marker.at).collect();
    at.sort_unstable();
    at
}

/// How many minutes sooner an oven is as cold as it would be, for each minute that its door is
/// open; `None` from fewer than three openings that tell.
#[must_use]
pub fn gained_by_opening(log: &HeatLog, around: Surroundings) -> Option<Likely> {
    let shut = marked(log, DOOR_SHUT);
    let gained: Vec<f64> = marked(log, DOOR_OPEN)
        .into_iter()
        .filter_map(|open| {
            let shut = shut.iter().copied().find(|shut| *shut > open)?;
            (shut.duration_since(open) <= LONGEST_OPEN).then_some((open, shut))
        })
        .filter_map(|(open, shut)| gained_between(log, around, open, shut))
        .collect();
    Likely::of(&gained)
}

/// The same by one opening: what was foretold when it was opened against what came.
fn gained_between(
    log: &HeatLog,
    around: Surroundings,
    open: Timestamp,
    shut: Timestamp,
) -> Option<f64> {
    let next = log
        .markers
        .iter()
        .map(|marker| marker.at)
        .filter(|at| *at > shut)
        .min()
        .unwrap_or(Timestamp::MAX);
    let (settled, latest) = (
        shut.checked_add(SETTLED).ok()?,
        shut.checked_add(LATEST).ok()?,
    );
    let after = log
        .points()
        .iter()
        .rev()
        .find(|point| (settled..=latest.min(next)).contains(&point.at))?;
    // What went on until then, without the mark itself.
    let before = log.between(open.checked_sub(WENT_ON).ok()?, open);
    let level = Band::new(after.temperature, after.temperature).ok()?;
    let Forecast::Coming { enters, .. } = forecast(&before, level, around, &Habit::default(), open)
    else {
        return None;
    };
    let gained = minutes(after.at, enters.likely);
    Some(gained / minutes(open, shut))
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
