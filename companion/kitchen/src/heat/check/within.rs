//! Something to be reached within a time: reheating, and food made of what was
//! at room temperature.

use super::cooling::timed;
use super::{Finding, Found, Outcome, Took};
use crate::heat::log::{HeatLog, LogPoint};
use crate::limits::{Hold, Side};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// One way there: readings from the first that left the start.
struct Way<'l> {
    last_start: Option<Timestamp>,
    points: &'l [LogPoint],
    ended: bool,
}

fn ways(log: &HeatLog, side: Side, from: Option<Temperature>) -> Vec<Way<'_>> {
    let points = log.points();
    let Some(from) = from else {
        return vec![Way {
            last_start: points.first().map(|p| p.at),
            points,
            ended: false,
        }];
    };
    let at_start = |p: &LogPoint| match side {
        Side::AtLeast => p.temperature <= from,
        Side::AtMost => p.temperature >= from,
    };
    let mut all = Vec::new();
    let mut begin = 0;
    let mut last_start = None;
    for (place, point) in points.iter().enumerate() {
        if at_start(point) {
            if place > begin {
                all.push(Way {
                    last_start,
                    points: points.get(begin..place).unwrap_or_default(),
                    ended: true,
                });
            }
            begin = place + 1;
            last_start = Some(point.at);
        }
    }
    if begin < points.len() {
        all.push(Way {
            last_start,
            points: points.get(begin..).unwrap_or_default(),
            ended: false,
        });
    }
    all
}

/// Where a hold that lasts long enough begins, else the longest there is, and
/// how long it lasts.
fn first_hold(
    log: &HeatLog,
    points: &[LogPoint],
    side: Side,
    hold: Hold,
) -> Option<(usize, SignedDuration)> {
    let mut best: Option<(usize, SignedDuration)> = None;
    let mut begin: Option<usize> = None;
    let mut previous: Option<&LogPoint> = None;
    for (place, point) in points.iter().enumerate() {
        if previous.is_some_and(|p| log.is_gap(p, point)) {
            begin = None;
        }
        previous = Some(point);
        if !side.keeps(point.temperature, hold.at) {
            begin = None;
            continue;
        }
        let start = *begin.get_or_insert(place);
        let lasted = points
            .get(start)
            .map_or(SignedDuration::ZERO, |p| point.at.duration_since(p.at));
        if best.is_none_or(|(_, longest)| lasted > longest) {
            best = Some((start, lasted));
        }
        if lasted >= hold.lasting {
            break;
        }
    }
    best
}

/// Where it came down for the last time and stayed.
fn came_and_stayed(
    log: &HeatLog,
    points: &[LogPoint],
    side: Side,
    hold: Hold,
) -> Option<(usize, SignedDuration)> {
    let away = points
        .iter()
        .rposition(|p| !side.keeps(p.temperature, hold.at))
        .map_or(0, |place| place + 1);
    first_hold(log, points.get(away..)?, side, hold).map(|(place, held)| (place + away, held))
}

pub(super) fn answer(
    log: &HeatLog,
    side: Side,
    hold: Hold,
    allowed: SignedDuration,
    from: Option<Temperature>,
) -> Finding {
    ways(log, side, from)
        .into_iter()
        .filter_map(|way| {
            // Heating has done its work once it was held; cooled food has to stay cold.
            let reached = match side {
                Side::AtLeast => first_hold(log, way.points, side, hold),
                Side::AtMost => came_and_stayed(log, way.points, side, hold),
            };
            let (mut outcome, took) = timed(
                way.points,
                way.last_start,
                reached.map(|(place, _)| place),
                allowed,
                way.ended,
            )?;
            let held = reached.map_or(SignedDuration::ZERO, |(_, held)| held);
            if outcome == Outcome::Kept && held < hold.lasting {
                outcome = Outcome::Running;
            }
            let weight = match took {
                Took::BrokenOff { .. } => 0,
                _ => outcome.rank(),
            };
            Some((
                weight,
                Finding::new(
                    outcome,
                    Found::Within {
                        side,
                        hold,
                        allowed,
                        took,
                        held,
                    },
                ),
            ))
        })
        .max_by_key(|(weight, _)| *weight)
        .map_or_else(
            || {
                Finding::new(
                    Outcome::Running,
                    Found::NotStarted {
                        side: match side {
                            Side::AtLeast => Side::AtMost,
                            Side::AtMost => Side::AtLeast,
                        },
                        from: from.unwrap_or_default(),
                    },
                )
            },
            |(_, finding)| finding,
        )
}
