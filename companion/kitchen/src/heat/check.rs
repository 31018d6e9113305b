//! A log against a limit.
//!
//! A reading says what was at its moment, not between. Where the moment of a
//! crossing lies between two readings, both ends are carried along: the answer
//! is *kept* or *broken* only when it is so at either end, and *cannot tell*
//! otherwise, with the reason.

use super::log::{HeatLog, LogPoint};
use crate::limits::{CoolingStage, Demand, Hold, Limit};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// How a log stands against a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// Every reading is within the limit, and no gap hides anything.
    Kept,
    /// The limit was passed.
    Broken,
    /// The limit's time is not up yet.
    Running,
    /// The log does not say.
    CannotTell,
}

impl Outcome {
    /// The words for it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Kept => "within the limit",
            Self::Broken => "over the limit",
            Self::Running => "within the limit so far, not finished",
            Self::CannotTell => "the log cannot tell",
        }
    }
}

/// One thing found, with what was measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// How it stands.
    pub outcome: Outcome,
    /// What was measured against which figure, as a sentence.
    pub sentence: String,
}

fn finding(outcome: Outcome, sentence: String) -> Finding {
    Finding { outcome, sentence }
}

/// Both units, always.
pub(super) fn degrees(t: Temperature) -> String {
    format!("{:.1} degC ({:.0} degF)", t.celsius(), t.fahrenheit())
}

pub(super) fn time(d: SignedDuration) -> String {
    let minutes = (d.as_secs() + 30).div_euclid(60);
    format!("{} h {:02} min", minutes / 60, minutes % 60)
}

/// Checks a whole log against a limit; one finding for each thing that the
/// limit asks. An empty log gives one finding that says so.
#[must_use]
pub fn check(log: &HeatLog, limit: &Limit) -> Vec<Finding> {
    if log.points().is_empty() {
        return vec![finding(
            Outcome::CannotTell,
            String::from("The log is empty."),
        )];
    }
    match &limit.demand {
        Demand::Cooling { from, stages } => cooling(log, *from, stages),
        Demand::AtMost(most) => vec![always(log, *most, Side::AtMost)],
        Demand::AtLeast(least) => vec![always(log, *least, Side::AtLeast)],
        Demand::TimeOnly {
            within,
            never_above,
        } => time_only(log, *within, *never_above),
        Demand::Frozen(holds) => vec![any_hold(log, holds, Side::AtMost)],
        Demand::Cooked(hold) => vec![any_hold(log, std::slice::from_ref(hold), Side::AtLeast)],
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Side {
    AtMost,
    AtLeast,
}

impl Side {
    fn keeps(self, t: Temperature, limit: Temperature) -> bool {
        match self {
            Self::AtMost => t <= limit,
            Self::AtLeast => t >= limit,
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::AtMost => "at most",
            Self::AtLeast => "at least",
        }
    }
}

fn gaps_sentence(log: &HeatLog) -> Option<String> {
    let gaps = log.gaps();
    let total = gaps
        .iter()
        .map(|g| g.to.duration_since(g.from))
        .fold(SignedDuration::ZERO, |a, b| a + b);
    (!gaps.is_empty()).then(|| {
        format!(
            "{} without readings in {} gap{}",
            time(total),
            gaps.len(),
            if gaps.len() == 1 { "" } else { "s" }
        )
    })
}

fn always(log: &HeatLog, limit: Temperature, side: Side) -> Finding {
    let points = log.points();
    let worst = points
        .iter()
        .map(|p| p.temperature)
        .reduce(|a, b| match side {
            Side::AtMost => a.max(b),
            Side::AtLeast => a.min(b),
        })
        .unwrap_or_default();
    let mut beyond = SignedDuration::ZERO;
    for (a, b) in log.steps() {
        let kept = side.keeps(a.temperature, limit) && side.keeps(b.temperature, limit);
        if !kept && !log.is_gap(a, b) {
            beyond += b.at.duration_since(a.at);
        }
    }
    let measured = format!(
        "furthest reading {}, limit {} {}",
        degrees(worst),
        side.words(),
        degrees(limit)
    );
    if !side.keeps(worst, limit) {
        finding(
            Outcome::Broken,
            format!("{measured}; up to {} beyond it.", time(beyond)),
        )
    } else if let Some(gaps) = gaps_sentence(log) {
        finding(Outcome::CannotTell, format!("{measured}; but {gaps}."))
    } else {
        finding(Outcome::Kept, format!("{measured}."))
    }
}

/// When a log first came to the wanted side of a temperature and stayed there
/// at that reading: the last reading before and the first after.
struct Crossing {
    before: Option<Timestamp>,
    after: Timestamp,
}

fn first_crossing(points: &[LogPoint], keeps: impl Fn(Temperature) -> bool) -> Option<Crossing> {
    let place = points.iter().position(|p| keeps(p.temperature))?;
    Some(Crossing {
        before: place
            .checked_sub(1)
            .and_then(|i| points.get(i))
            .map(|p| p.at),
        after: points.get(place)?.at,
    })
}

fn cooling(log: &HeatLog, from: Temperature, stages: &[CoolingStage]) -> Vec<Finding> {
    let points = log.points();
    // The clock starts after the last reading at or above the starting temperature, in case the
    // food was warmed again.
    let hot = points.iter().rposition(|p| p.temperature >= from);
    let Some(first_below) = points.get(hot.map_or(0, |i| i + 1)) else {
        return vec![finding(
            Outcome::Running,
            format!(
                "Still at or above {}: the cooling clock has not started.",
                degrees(from)
            ),
        )];
    };
    let cooled = &points[hot.map_or(0, |i| i + 1)..];
    let earliest = hot.and_then(|i| points.get(i)).map(|p| p.at);
    let latest = first_below.at;
    let Some(last) = points.last() else {
        return Vec::new();
    };
    stages
        .iter()
        .map(|stage| {
            let target = degrees(stage.to);
            let allowed = time(stage.within);
            match first_crossing(cooled, |t| t <= stage.to) {
                Some(crossing) => {
                    let longest = earliest.map(|e| crossing.after.duration_since(e));
                    let shortest = crossing.before.unwrap_or(latest).duration_since(latest);
                    let span = match longest {
                        Some(l) if time(l) == time(shortest) => time(l),
                        Some(l) => format!("between {} and {}", time(shortest), time(l)),
                        None => format!("at least {}", time(shortest)),
                    };
                    let sentence = format!(
                        "from {} down to {target} took {span}, limit {allowed}.",
                        degrees(from)
                    );
                    if shortest > stage.within {
                        finding(Outcome::Broken, sentence)
                    } else if longest.is_some_and(|l| l <= stage.within) {
                        finding(Outcome::Kept, sentence)
                    } else {
                        let why = if longest.is_none() {
                            "The log does not show when cooling began"
                        } else {
                            "Readings lie too far apart to tell"
                        };
                        finding(Outcome::CannotTell, format!("{why}: {sentence}"))
                    }
                }
                None => {
                    let so_far = last.at.duration_since(latest);
                    let possible = earliest.map(|e| last.at.duration_since(e));
                    let sentence = format!(
                        "{} after {}, not yet at {target}, limit {allowed}.",
                        degrees(last.temperature),
                        time(so_far)
                    );
                    if so_far > stage.within {
                        finding(Outcome::Broken, sentence)
                    } else if possible.is_some_and(|p| p <= stage.within) {
                        finding(Outcome::Running, sentence)
                    } else {
                        finding(
                            Outcome::CannotTell,
                            format!("The start of cooling is not exact: {sentence}"),
                        )
                    }
                }
            }
        })
        .collect()
}

fn time_only(
    log: &HeatLog,
    within: SignedDuration,
    never_above: Option<Temperature>,
) -> Vec<Finding> {
    let points = log.points();
    let (Some(first), Some(last)) = (points.first(), points.last()) else {
        return Vec::new();
    };
    let out = last.at.duration_since(first.at);
    let mut findings = vec![finding(
        if out > within {
            Outcome::Broken
        } else {
            Outcome::Running
        },
        format!("{} since the log began, limit {}.", time(out), time(within)),
    )];
    if let Some(ceiling) = never_above {
        findings.push(always(log, ceiling, Side::AtMost));
    }
    findings
}

/// The longest unbroken stretch on the right side of a temperature: surely, and
/// possibly when the readings before and after are counted in.
fn longest_hold(log: &HeatLog, limit: Temperature, side: Side) -> (SignedDuration, bool) {
    let points = log.points();
    let mut best = SignedDuration::ZERO;
    let mut reached = false;
    let mut start: Option<Timestamp> = None;
    let mut previous: Option<&LogPoint> = None;
    for point in points {
        let holds = side.keeps(point.temperature, limit);
        let broken = previous.is_some_and(|p| log.is_gap(p, point));
        if holds {
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

fn any_hold(log: &HeatLog, holds: &[Hold], side: Side) -> Finding {
    let mut sentences = Vec::new();
    for hold in holds {
        let (longest, reached) = longest_hold(log, hold.at, side);
        let sentence = if hold.lasting.is_zero() {
            format!(
                "{} {}: {}",
                side.words(),
                degrees(hold.at),
                if reached { "reached" } else { "not reached" }
            )
        } else if hold.lasting < SignedDuration::from_mins(1) {
            format!(
                "{} {} for {} s unbroken in the log, limit {} s",
                side.words(),
                degrees(hold.at),
                longest.as_secs(),
                hold.lasting.as_secs()
            )
        } else {
            format!(
                "{} {} for {} unbroken in the log, limit {}",
                side.words(),
                degrees(hold.at),
                time(longest),
                time(hold.lasting)
            )
        };
        if reached && longest >= hold.lasting {
            return finding(Outcome::Kept, format!("{sentence}."));
        }
        sentences.push(sentence);
    }
    let worst = gaps_sentence(log).map_or(Outcome::Running, |gaps| {
        sentences.push(gaps);
        Outcome::CannotTell
    });
    finding(worst, format!("{}.", sentences.join("; ")))
}
