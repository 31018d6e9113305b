//! Cooling in stages: every descent of a log, the worst of them told.

use super::{Finding, Found, Outcome, Took};
use crate::heat::log::{HeatLog, LogPoint};
use crate::limits::{CoolingStage, Side};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// How long food that is cooling must be back at the starting temperature
/// before the clock begins anew. One stray reading, a probe taken out or a lid
/// touched with it does not make food hot again. A choice of ours, no source.
pub(super) const REWARM: SignedDuration = SignedDuration::from_mins(10);

/// A first stretch of a log counts as a descent whose start is not seen only
/// where it falls by so much; else the food was being warmed.
const SEEN_TO_FALL: f64 = 5.0;

/// One way down.
struct Descent<'l> {
    /// The last reading at or above the starting temperature; `None` where the
    /// log begins below it.
    last_hot: Option<Timestamp>,
    /// The readings, from the first below it.
    points: &'l [LogPoint],
    /// Whether it was warmed again for so long that the clock began anew.
    ended: bool,
}

impl Descent<'_> {
    /// The place of the reading at which it was down for good: two readings in
    /// a row, or the last.
    fn down(&self, to: Temperature) -> Option<usize> {
        let is_down = |place: usize| self.points.get(place).map(|p| p.temperature <= to);
        (0..self.points.len())
            .find(|place| is_down(*place) == Some(true) && is_down(place + 1) != Some(false))
    }

    /// The readings up to where it was down at the last stage for good; what
    /// comes after is no longer cooling.
    fn cooling(&self, last: Temperature) -> &[LogPoint] {
        let end = self.down(last).map_or(self.points.len(), |place| place + 1);
        self.points.get(..end).unwrap_or(self.points)
    }
}

/// Splits a log into its descents.
fn descents(log: &HeatLog, from: Temperature, last: Temperature) -> Vec<Descent<'_>> {
    let points = log.points();
    let is_hot = |place: usize| points.get(place).is_some_and(|p| p.temperature >= from);
    let part = |begin: usize, end: usize| points.get(begin..end).unwrap_or_default();
    let mut all: Vec<Descent<'_>> = Vec::new();
    // Where the descent under way began, and after which hot reading.
    let mut open: Option<(Option<Timestamp>, usize)> = (!is_hot(0)).then_some((None, 0));
    let mut place = 0;
    while place < points.len() {
        if !is_hot(place) {
            place += 1;
            continue;
        }
        let begin = place;
        while is_hot(place + 1)
            && !matches!((points.get(place), points.get(place + 1)), (Some(a), Some(b)) if log.is_gap(a, b))
        {
            place += 1;
        }
        let (first, hottest) = (points.get(begin), points.get(place));
        let lasted = match (first, hottest) {
            (Some(first), Some(end)) => end.at.duration_since(first.at),
            _ => SignedDuration::ZERO,
        };
        place += 1;
        if let Some((last_hot, start)) = open {
            let descent = Descent {
                last_hot,
                points: part(start, begin),
                ended: true,
            };
            let falling = last_hot.is_some() || fell(descent.points);
            if falling && descent.down(last).is_none() && lasted < REWARM {
                // A stray reading: the clock goes on.
                continue;
            }
            if falling {
                all.push(descent);
            }
        }
        open = (place < points.len()).then_some((hottest.map(|p| p.at), place));
    }
    if let Some((last_hot, start)) = open {
        all.push(Descent {
            last_hot,
            points: part(start, points.len()),
            ended: false,
        });
    }
    all
}

/// The descent that a log ends in: the last reading at or above the starting
/// temperature, where the log shows it, and the readings from the first below it.
/// `None` where it ends hot.
pub(in crate::heat) fn under_way(
    log: &HeatLog,
    from: Temperature,
    last: Temperature,
) -> Option<(Option<Timestamp>, &[LogPoint])> {
    let descent = descents(log, from, last).pop()?;
    (!descent.ended && !descent.points.is_empty()).then_some((descent.last_hot, descent.points))
}

/// Whether readings fall noticeably below their first.
fn fell(points: &[LogPoint]) -> bool {
    let first = points.first().map(|p| p.temperature.celsius());
    first.is_some_and(|first| {
        points
            .iter()
            .any(|p| p.temperature.celsius() <= first - SEEN_TO_FALL)
    })
}

/// Where readings came down to a temperature for the last time. A single
/// reading above it between two below does not count as warming.
fn came_down(points: &[LogPoint], to: Temperature) -> Option<usize> {
    let above = |place: usize| points.get(place).is_some_and(|p| p.temperature > to);
    let stray = |place: usize| {
        place > 0 && place + 1 < points.len() && !above(place - 1) && !above(place + 1)
    };
    let last_above = (0..points.len())
        .rev()
        .find(|place| above(*place) && !stray(*place));
    let down = last_above.map_or(0, |place| place + 1);
    (down < points.len()).then_some(down)
}

/// How long it took from a start to a reading, and how that stands.
pub(super) fn timed(
    points: &[LogPoint],
    last_start: Option<Timestamp>,
    reached: Option<usize>,
    allowed: SignedDuration,
    ended: bool,
) -> Option<(Outcome, Took)> {
    let first = points.first()?;
    let last = points.last()?;
    Some(if let Some(place) = reached {
        let after = points.get(place)?;
        let before = place.checked_sub(1).and_then(|p| points.get(p));
        let shortest = before.unwrap_or(first).at.duration_since(first.at);
        let longest = last_start.map(|start| after.at.duration_since(start));
        let outcome = if shortest > allowed {
            Outcome::Broken
        } else if longest.is_some_and(|longest| longest <= allowed) {
            Outcome::Kept
        } else {
            Outcome::CannotTell
        };
        (outcome, Took::Reached { shortest, longest })
    } else {
        let shortest = last.at.duration_since(first.at);
        let longest = last_start.map(|start| last.at.duration_since(start));
        let in_time = longest.is_some_and(|longest| longest <= allowed);
        if shortest > allowed {
            (
                Outcome::Broken,
                Took::NotYet {
                    shortest,
                    longest,
                    last: last.temperature,
                },
            )
        } else if ended && in_time {
            (Outcome::Running, Took::BrokenOff { shortest })
        } else {
            (
                if in_time {
                    Outcome::Running
                } else {
                    Outcome::CannotTell
                },
                Took::NotYet {
                    shortest,
                    longest,
                    last: last.temperature,
                },
            )
        }
    })
}

/// One finding a stage, that of the worst descent.
pub(super) fn answers(log: &HeatLog, from: Temperature, stages: &[CoolingStage]) -> Vec<Finding> {
    let Some(last) = stages.last().map(|stage| stage.to) else {
        return Vec::new();
    };
    let descents = descents(log, from, last);
    let of = descents.len();
    stages
        .iter()
        .map(|stage| {
            descents
                .iter()
                .enumerate()
                .filter_map(|(index, descent)| {
                    let points = descent.cooling(last);
                    let (outcome, took) = timed(
                        points,
                        descent.last_hot,
                        came_down(points, stage.to),
                        stage.within,
                        descent.ended,
                    )?;
                    let finding = Finding::new(
                        outcome,
                        Found::Stage {
                            from,
                            to: stage.to,
                            allowed: stage.within,
                            took,
                            descent: index + 1,
                            of,
                        },
                    );
                    // One that was broken off before its time was up says nothing against another.
                    let weight = match took {
                        Took::BrokenOff { .. } => 0,
                        _ => outcome.rank(),
                    };
                    Some((weight, finding))
                })
                // Of equals the last, which is the one that still goes on.
                .max_by_key(|(weight, _)| *weight)
                .map_or_else(
                    || {
                        Finding::new(
                            Outcome::Running,
                            Found::NotStarted {
                                side: Side::AtLeast,
                                from,
                            },
                        )
                    },
                    |(_, finding)| finding,
                )
        })
        .collect()
}

/// Every time that it warmed again.
pub(super) fn notes(log: &HeatLog, from: Temperature, stages: &[CoolingStage]) -> Vec<Finding> {
    let (Some(first), Some(last)) = (stages.first(), stages.last()) else {
        return Vec::new();
    };
    let mut notes = Vec::new();
    let mut note = |above: Temperature, points: &[LogPoint], restarted: bool| {
        let highest = points
            .iter()
            .filter(|p| p.temperature > above || (restarted && p.temperature >= above))
            .max_by_key(|p| (p.temperature, core::cmp::Reverse(p.at)));
        if let Some(highest) = highest {
            notes.push(Finding::new(
                Outcome::Noted,
                Found::Rewarmed {
                    above,
                    highest: highest.temperature,
                    at: highest.at,
                    restarted,
                },
            ));
        }
    };
    let descents = descents(log, from, last.to);
    for (index, descent) in descents.iter().enumerate() {
        let points = descent.points;
        if points.iter().any(|p| p.temperature >= from) {
            note(from, points, false);
        }
        if let Some(down) = points.iter().position(|p| p.temperature <= first.to) {
            note(first.to, points.get(down..).unwrap_or_default(), false);
        }
        if descent.ended {
            let end = points.last().map(|p| p.at);
            let next = descents
                .get(index + 1)
                .and_then(|next| next.points.first())
                .map(|p| p.at);
            let hot: Vec<LogPoint> = log
                .points()
                .iter()
                .filter(|p| end.is_none_or(|end| p.at > end) && next.is_none_or(|next| p.at < next))
                .copied()
                .collect();
            note(from, &hot, true);
        }
    }
    notes
}
