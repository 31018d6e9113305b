//! Holds of which one is enough: cooking, and freezing against parasites.

use super::{Finding, Found, HoldFound, Outcome, Solid};
use crate::heat::log::{HeatLog, LogPoint};
use crate::limits::{Hold, Side};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// The longest unbroken stretch on the right side of a temperature from a
/// moment on, and whether there was any.
fn longest(
    log: &HeatLog,
    from: Option<Timestamp>,
    limit: Temperature,
    side: Side,
) -> (SignedDuration, bool) {
    let mut best = SignedDuration::ZERO;
    let mut reached = false;
    let mut start: Option<Timestamp> = None;
    let mut previous: Option<&LogPoint> = None;
    let points = log
        .points()
        .iter()
        .filter(|p| from.is_none_or(|from| p.at >= from));
    for point in points {
        let broken = previous.is_some_and(|p| log.is_gap(p, point));
        if side.keeps(point.temperature, limit) {
            reached = true;
            if start.is_none() || broken {
                start = Some(point.at);
            }
            if let Some(s) = start {
                best = best.max(point.at.duration_since(s));
            }
        } else {
            start = None;
        }
        previous = Some(point);
    }
    (best, reached)
}

/// When somebody put down that the food is solid.
fn seen_solid(log: &HeatLog) -> Option<Timestamp> {
    log.markers
        .iter()
        .filter(|marker| {
            marker
                .text
                .to_lowercase()
                .split(|c: char| !c.is_alphanumeric())
                .any(|word| word == "solid")
        })
        .map(|marker| marker.at)
        .min()
}

fn found(log: &HeatLog, hold: Hold, side: Side) -> HoldFound {
    let (solid, from) = match (hold.solid_at, seen_solid(log)) {
        (None, _) => (Solid::NotAsked, None),
        (Some(_), None) => (Solid::NotSaid, None),
        (Some(until), Some(seen)) => {
            let before = log.points().iter().rfind(|p| p.at <= seen);
            if before.is_some_and(|p| side.keeps(p.temperature, until)) {
                (Solid::Said, Some(seen))
            } else {
                (Solid::TooWarm, None)
            }
        }
    };
    let (longest, reached) = longest(log, from, hold.at, side);
    HoldFound {
        hold,
        longest,
        reached,
        solid,
        met: reached && longest >= hold.lasting && matches!(solid, Solid::NotAsked | Solid::Said),
    }
}

pub(super) fn answer(log: &HeatLog, holds: &[Hold], side: Side) -> Finding {
    let holds: Vec<HoldFound> = holds.iter().map(|hold| found(log, *hold, side)).collect();
    let would_do = |found: &HoldFound| {
        found.solid == Solid::NotSaid
            && found.reached
            && found.longest >= found.hold.lasting
            && found
                .hold
                .solid_at
                .is_some_and(|until| longest(log, None, until, side).1)
    };
    let outcome = if holds.iter().any(|found| found.met) {
        Outcome::Kept
    } else if holds.iter().any(would_do) || !log.gaps().is_empty() {
        Outcome::CannotTell
    } else {
        Outcome::Running
    };
    Finding::new(outcome, Found::Held { side, holds })
}
