//! A limit ahead of time: how long is left, and what to do while it helps.
//!
//! [`check`](super::check) says how a log stands; this says where it is going.
//! Every sentence names what was measured against which figure, and none says
//! that food is safe.

use super::check::{Finding, Outcome, check, degrees, time};
use super::forecast::{Band, Course, Forecast, Habit, Reach, Surroundings, When, Why, forecast};
use super::log::{HeatLog, LogPoint};
use crate::limits::{CoolingStage, Demand, Hold, Limit};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// How loud an outlook is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Alarm {
    /// As it should go.
    Quiet,
    /// It may miss the limit, or nobody can tell: look at it.
    Look,
    /// At this rate it misses the limit: something has to be done now.
    Act,
    /// The limit is passed.
    Over,
}

/// Where one thing that a limit asks for is going.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outlook {
    /// How loud.
    pub alarm: Alarm,
    /// The moment by which it must be there, or the time is up; `None` where
    /// there is none.
    pub deadline: Option<Timestamp>,
    /// When it will be there, where that can be told.
    pub expected: Option<When>,
    /// What is going to happen and what to do, as a sentence.
    pub sentence: String,
}

/// Common practice, no source: a smaller and shallower mass cools faster, ice
/// takes heat faster than air.
const COOL: &str = "split the pan, ice it";
const HEAT: &str = "turn the heat up";
const CHILL: &str = "into the cold with it";

/// Where a log is going by a limit; one outlook for each thing that the limit
/// asks. `around` is what the food stands in, `habit` what it did before.
/// Empty where the log is.
#[must_use]
pub fn outlook(
    log: &HeatLog,
    limit: &Limit,
    around: Surroundings,
    habit: &Habit,
    now: Timestamp,
) -> Vec<Outlook> {
    let Some(last) = log.points().last() else {
        return Vec::new();
    };
    let ahead = Ahead {
        log,
        around,
        habit,
        now,
        last: *last,
    };
    match &limit.demand {
        Demand::Cooling { from, stages } => ahead.cooling(*from, stages),
        Demand::AtMost(most) => vec![ahead.holding(*most, true)],
        Demand::AtLeast(least) => vec![ahead.holding(*least, false)],
        Demand::TimeOnly {
            within,
            never_above,
            ..
        } => {
            let mut all = vec![ahead.time_only(*within)];
            all.extend(never_above.map(|most| ahead.holding(most, true)));
            all
        }
        // What was held once is done, whatever the food does since.
        Demand::Frozen(_) | Demand::Cooked(_) if check(log, limit).iter().any(is_kept) => {
            Vec::new()
        }
        Demand::Frozen(holds) => holds.iter().map(|hold| ahead.hold(*hold, true)).collect(),
        Demand::Cooked(holds) => holds
            .first()
            .map(|hold| ahead.hold(*hold, false))
            .into_iter()
            .collect(),
        // What these come to is said by the check; there is nothing to foretell.
        Demand::Within { .. }
        | Demand::Days { .. }
        | Demand::SaltInWater { .. }
        | Demand::Nitrite { .. }
        | Demand::Rule => Vec::new(),
    }
}

fn is_kept(finding: &Finding) -> bool {
    finding.outcome == Outcome::Kept
}

struct Ahead<'a> {
    log: &'a HeatLog,
    around: Surroundings,
    habit: &'a Habit,
    now: Timestamp,
    last: LogPoint,
}

impl Ahead<'_> {
    fn forecast(&self, level: Temperature) -> Forecast {
        match Band::new(level, level) {
            Ok(band) => forecast(self.log, band, self.around, self.habit, self.now),
            Err(_) => Forecast::NotComing,
        }
    }

    fn cooling(&self, from: Temperature, stages: &[CoolingStage]) -> Vec<Outlook> {
        let points = self.log.points();
        let hot = points.iter().rposition(|p| p.temperature >= from);
        let cooled = &points[hot.map_or(0, |i| i + 1)..];
        let Some(first_below) = cooled.first() else {
            return vec![Outlook {
                alarm: Alarm::Quiet,
                deadline: None,
                expected: None,
                sentence: format!(
                    "{} now; the cooling clock starts below {}.",
                    degrees(self.last.temperature),
                    degrees(from)
                ),
            }];
        };
        // The clock began somewhere between the two; the earlier is the one to keep to.
        let began = hot
            .and_then(|i| points.get(i))
            .map_or(first_below.at, |p| p.at);
        stages
            .iter()
            .filter(|stage| !cooled.iter().any(|p| p.temperature <= stage.to))
            .map(|stage| self.stage(*stage, began, hot.is_some()))
            .collect()
    }

    fn stage(&self, stage: CoolingStage, began: Timestamp, seen: bool) -> Outlook {
        let deadline = later(began, stage.within);
        let target = degrees(stage.to);
        let left = deadline.duration_since(self.now);
        let (alarm, expected, mut sentence) = if left.is_negative() {
            (
                Alarm::Over,
                None,
                format!(
                    "{target} was to be reached {} ago; it is {} now.",
                    minutes(-left),
                    degrees(self.last.temperature)
                ),
            )
        } else {
            self.going(stage, deadline)
        };
        if !seen {
            sentence.push_str(
                " The log does not show when cooling began: counted from its first reading, the true time left is less.",
            );
        }
        Outlook {
            alarm,
            deadline: Some(deadline),
            expected,
            sentence,
        }
    }

    /// A stage that is not over: how loud, when, and what to say.
    fn going(&self, stage: CoolingStage, deadline: Timestamp) -> (Alarm, Option<When>, String) {
        let target = degrees(stage.to);
        let left = deadline.duration_since(self.now);
        let unknown = |why: Why| format!("{} {} left to reach {target}.", why.words(), time(left));
        let last_moment = left <= LAST_MOMENT;
        let course = match Course::of(self.log, self.around, self.habit, self.now) {
            Ok(course) => course,
            Err(why @ (Why::Still | Why::TooFewReadings)) if last_moment => {
                return (Alarm::Act, None, format!("{} {COOL}.", unknown(why)));
            }
            Err(why) => return (Alarm::Look, None, unknown(why)),
        };
        if !course.is_ahead(stage.to) {
            let words = format!("It does not cool; {} left to reach {target}", time(left));
            return if last_moment {
                (Alarm::Act, None, format!("{words}: {COOL}."))
            } else {
                (
                    Alarm::Look,
                    None,
                    format!("{words}: stir it, and look again soon."),
                )
            };
        }
        let chance = course.by(stage.to, deadline);
        let act = if last_moment {
            chance < LAST_CHANCE
        } else {
            chance < NO_CHANCE && self.was_without_chance(stage, deadline)
        };
        match (course.reach(stage.to), act) {
            (Reach::At(enters), act) => {
                let (alarm, words) = toward(&target, enters, deadline, act);
                (alarm, Some(enters), words)
            }
            (_, true) => (
                Alarm::Act,
                None,
                format!("At this rate {target} is not reached in time: {COOL}."),
            ),
            (Reach::Unknown(why), false) => (Alarm::Look, None, unknown(why)),
            (Reach::Never, false) => (Alarm::Look, None, unknown(Why::Doubtful)),
        }
    }

    /// Whether it had no chance either by what was seen a while ago: one look
    /// alone does not call, so that a door or a stirring spoon does not.
    fn was_without_chance(&self, stage: CoolingStage, deadline: Timestamp) -> bool {
        let then = self.now.checked_sub(CONFIRMED_AFTER).unwrap_or(self.now);
        let seen = self.log.between(Timestamp::MIN, then);
        let Some(last) = seen.points().last() else {
            return false;
        };
        Course::of(&seen, self.around, self.habit, last.at)
            .is_ok_and(|c| c.is_ahead(stage.to) && c.by(stage.to, deadline) < NO_CHANCE)
    }

    /// At most (cold) or at least (hot) a temperature.
    fn holding(&self, limit: Temperature, at_most: bool) -> Outlook {
        let keeps = |t: Temperature| if at_most { t <= limit } else { t >= limit };
        let (side, remedy) = if at_most {
            ("at most", CHILL)
        } else {
            ("at least", HEAT)
        };
        let here = degrees(self.last.temperature);
        if !keeps(self.last.temperature) {
            let points = self.log.points();
            // Since the last reading on the right side: it may have passed the limit just after.
            let since = points
                .iter()
                .rfind(|p| keeps(p.temperature))
                .or(points.first())
                .map_or(self.last.at, |p| p.at);
            return Outlook {
                alarm: Alarm::Over,
                deadline: None,
                expected: None,
                sentence: format!(
                    "{here}, limit {side} {}; beyond it for up to {}: {remedy}.",
                    degrees(limit),
                    time(self.now.duration_since(since))
                ),
            };
        }
        let (alarm, expected, tail) = match self.forecast(limit) {
            Forecast::Coming { enters, .. } => {
                let to_go = enters.likely.duration_since(self.now);
                let alarm = if to_go < SignedDuration::from_mins(30) {
                    Alarm::Act
                } else if to_go < SignedDuration::from_hours(2) {
                    Alarm::Look
                } else {
                    Alarm::Quiet
                };
                let remedy = if alarm == Alarm::Quiet {
                    String::new()
                } else {
                    format!(": {remedy}")
                };
                (
                    alarm,
                    Some(enters),
                    format!("; at this rate it passes it in {}{remedy}", minutes(to_go)),
                )
            }
            Forecast::Unknown(why @ Why::Silent) => {
                (Alarm::Look, None, format!(". {}", no_stop(why.words())))
            }
            // Hardly moving within the limit is how it should be.
            Forecast::Unknown(_) | Forecast::NotComing | Forecast::Inside { .. } => {
                (Alarm::Quiet, None, String::new())
            }
        };
        Outlook {
            alarm,
            deadline: None,
            expected,
            sentence: format!("{here}, limit {side} {}{tail}.", degrees(limit)),
        }
    }

    fn time_only(&self, within: SignedDuration) -> Outlook {
        let began = self.log.points().first().map_or(self.now, |p| p.at);
        let deadline = later(began, within);
        let left = deadline.duration_since(self.now);
        let out = time(self.now.duration_since(began));
        let (alarm, sentence) = if left.is_negative() {
            (
                Alarm::Over,
                format!(
                    "Out for {out}, limit {}: the time was up {} ago.",
                    time(within),
                    minutes(-left)
                ),
            )
        } else {
            let alarm = if left < SignedDuration::from_mins(30) {
                Alarm::Act
            } else {
                Alarm::Quiet
            };
            (
                alarm,
                format!(
                    "Out for {out}, limit {}: {} left.",
                    time(within),
                    time(left)
                ),
            )
        };
        Outlook {
            alarm,
            deadline: Some(deadline),
            expected: None,
            sentence,
        }
    }

    /// The hold going on: how long it has lasted, or when it will begin.
    fn hold(&self, hold: Hold, at_most: bool) -> Outlook {
        let keeps = |t: Temperature| {
            if at_most { t <= hold.at } else { t >= hold.at }
        };
        let target = degrees(hold.at);
        let side = if at_most { "at most" } else { "at least" };
        let quiet = |expected, deadline, sentence| Outlook {
            alarm: Alarm::Quiet,
            deadline,
            expected,
            sentence,
        };
        if keeps(self.last.temperature) {
            let mut since = self.last.at;
            let points = self.log.points();
            for (a, b) in points.iter().rev().skip(1).zip(points.iter().rev()) {
                if !keeps(a.temperature) || self.log.is_gap(a, b) {
                    break;
                }
                since = a.at;
            }
            let lasted = self.last.at.duration_since(since);
            let until = later(since, hold.lasting);
            return if lasted >= hold.lasting {
                quiet(
                    None,
                    Some(until),
                    format!(
                        "{side} {target} for {}, limit {}.",
                        span(lasted),
                        span(hold.lasting)
                    ),
                )
            } else {
                quiet(
                    None,
                    Some(until),
                    format!(
                        "{side} {target} for {} of {}: {} to go.",
                        span(lasted),
                        span(hold.lasting),
                        span(hold.lasting - lasted)
                    ),
                )
            };
        }
        match self.forecast(hold.at) {
            Forecast::Coming { enters, .. } => quiet(
                Some(enters),
                None,
                format!(
                    "{} now; {target} is likely reached in {}{}, and is then to be held for {}.",
                    degrees(self.last.temperature),
                    minutes(enters.likely.duration_since(self.now)),
                    between(enters, self.now),
                    span(hold.lasting)
                ),
            ),
            Forecast::Unknown(why) => quiet(
                None,
                None,
                format!(
                    "{} now, limit {side} {target}. {}",
                    degrees(self.last.temperature),
                    why.words()
                ),
            ),
            Forecast::NotComing | Forecast::Inside { .. } => Outlook {
                alarm: Alarm::Look,
                deadline: None,
                expected: None,
                sentence: format!(
                    "{} now; at this rate {target} is not reached.",
                    degrees(self.last.temperature)
                ),
            },
        }
    }
}

/// The time before a limit in which an ice bath has to begin, if it is to help.
/// An estimate; common practice, no source.
const LAST_MOMENT: SignedDuration = SignedDuration::from_mins(30);
/// At the last moment: below this probability of being in time it is called.
/// Chosen on made-up pans (`examples/cooling_calls.rs`), like the two below.
const LAST_CHANCE: f64 = 0.3;
/// Before it there is time to see more: below this probability at two looks.
const NO_CHANCE: f64 = 0.01;
/// How far apart the two looks are.
const CONFIRMED_AFTER: SignedDuration = SignedDuration::from_mins(10);

fn toward(target: &str, enters: When, deadline: Timestamp, act: bool) -> (Alarm, String) {
    let late = enters.likely.duration_since(deadline);
    let latest = enters.late.map(|l| l.duration_since(deadline));
    if act || late.is_positive() {
        let ends = match latest {
            Some(latest) if enters.early > deadline => format!(
                " ({} to {})",
                minutes(enters.early.duration_since(deadline)),
                minutes(latest)
            ),
            Some(latest) => format!(" (in time to {})", minutes(latest)),
            None => String::from(" (or never)"),
        };
        let (alarm, what) = if act {
            (Alarm::Act, COOL)
        } else {
            (Alarm::Look, "stir it, and look again soon")
        };
        return (
            alarm,
            format!(
                "At this rate {target} is reached {} late{ends}: {what}.",
                minutes(late)
            ),
        );
    }
    match latest {
        Some(latest) if !latest.is_positive() => (
            Alarm::Quiet,
            format!(
                "At this rate {target} is reached {} before the limit.",
                minutes(-late)
            ),
        ),
        latest => {
            let worst = latest.map_or_else(
                || String::from("perhaps never gets there"),
                |latest| format!("may be {} late", minutes(latest)),
            );
            (
                Alarm::Look,
                format!(
                    "At this rate {target} is likely reached {} before the limit, but {worst}: stir it, and look again soon.",
                    minutes(-late)
                ),
            )
        }
    }
}

fn between(when: When, now: Timestamp) -> String {
    let early = minutes(when.early.duration_since(now));
    match when.late {
        Some(late) => format!(
            " (between {early} and {})",
            minutes(late.duration_since(now))
        ),
        None => format!(" (not before {early}, perhaps never)"),
    }
}

fn minutes(d: SignedDuration) -> String {
    let minutes = (d.as_secs().max(0) + 30) / 60;
    match minutes {
        1 => String::from("1 minute"),
        m if m < 120 => format!("{m} minutes"),
        _ => time(d),
    }
}

/// Seconds where they matter.
fn span(d: SignedDuration) -> String {
    if d < SignedDuration::from_mins(2) {
        format!("{} s", d.as_secs())
    } else {
        time(d)
    }
}

fn no_stop(words: &str) -> &str {
    words.trim_end_matches('.')
}

fn later(moment: Timestamp, by: SignedDuration) -> Timestamp {
    moment.checked_add(by).unwrap_or(Timestamp::MAX)
}
