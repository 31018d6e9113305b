//! A lot: one food through its steps, each with the limit that it is held to
//! and the log that saw it; brine, smoke, bag, chill, press, reheat, hold.
//!
//! A kitchen writes a lot down as a TOML text. What nobody read is said: before
//! the first reading of a step and after its last, in between, and on the way
//! from one step to the next.

use crate::batch::BatchId;
use crate::heat::{Finding, Gap, HeatLog, LogName, Outcome, check};
use crate::limits::{Demand, Limit};
use crate::moment::{DayEdge, read_moment};
use crate::toml_text;
use crate::units::{InputError, excerpt};
use jiff::{Timestamp, ZonedDateTime};
use serde::Deserialize;

/// Why a lot's text was refused. Nothing of a refused text is used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LotError {
    /// It is not TOML, or a field is missing, unknown or of the wrong kind.
    #[error("the lot file cannot be read: {0}")]
    Syntax(String),
    /// A field's value makes no sense.
    #[error("step '{}': {error}", excerpt(step))]
    Field {
        /// The step's name.
        step: String,
        /// What is wrong.
        error: InputError,
    },
    /// A name or title is empty.
    #[error("{0} is empty, expected a name")]
    Empty(&'static str),
    /// There are none.
    #[error("the lot has no steps, expected at least one [[step]]")]
    NoSteps,
    /// A step ends before it begins.
    #[error("step '{}' ends before it begins", excerpt(.0))]
    Backward(String),
    /// Only the last step may go on.
    #[error("step '{}' has no end; only the last step may go on", excerpt(.0))]
    Open(String),
    /// Steps follow one another.
    #[error("step '{}' begins before '{}' ended", excerpt(step), excerpt(before))]
    Overlaps {
        /// The later.
        step: String,
        /// The earlier.
        before: String,
    },
    /// A limit without a log, which nothing can be judged by.
    #[error(
        "step '{}' is held to a limit that a thermometer answers, and names no log",
        excerpt(.0)
    )]
    NoLog(String),
}

/// A step as it was written down.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotStep {
    /// What is done: "smoke".
    pub name: String,
    /// When it began,
    pub from: Timestamp,
    /// and when it ended; `None` while it goes on.
    pub to: Option<Timestamp>,
    /// The log that saw it.
    pub log: Option<LogName>,
    /// The name of the limit it is held to.
    pub limit: Option<String>,
}

/// A lot as it was written down.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lot {
    /// What it is, with its mark: "smoked neck, lot 12".
    pub title: String,
    /// The batch on record that it was cured in.
    pub batch: Option<BatchId>,
    /// Its steps in order.
    pub steps: Vec<LotStep>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    title: String,
    batch: Option<i64>,
    #[serde(default)]
    step: Vec<StepEntry>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StepEntry {
    name: String,
    from: String,
    to: Option<String>,
    log: Option<String>,
    limit: Option<String>,
}

impl Lot {
    /// Reads a lot; times are of the zone of `now`.
    ///
    /// # Errors
    /// [`LotError`].
    pub fn read(toml: &str, now: &ZonedDateTime) -> Result<Self, LotError> {
        let file: File =
            toml::from_str(toml).map_err(|error| LotError::Syntax(toml_text::why(toml, &error)))?;
        let title = file.title.trim().to_owned();
        if title.is_empty() {
            return Err(LotError::Empty("title"));
        }
        let mut steps: Vec<LotStep> = Vec::new();
        for entry in file.step {
            let step = entry.read(now)?;
            if let Some(before) = steps.last() {
                match before.to {
                    None => return Err(LotError::Open(before.name.clone())),
                    Some(ended) if step.from < ended => {
                        return Err(LotError::Overlaps {
                            step: step.name,
                            before: before.name.clone(),
                        });
                    }
                    Some(_) => {}
                }
            }
            steps.push(step);
        }
        if steps.is_empty() {
            return Err(LotError::NoSteps);
        }
        Ok(Self {
            title,
            batch: file.batch.map(BatchId),
            steps,
        })
    }

    /// The times between steps, in which nothing is said of it: the places of
    /// the steps before them, and how long.
    #[must_use]
    pub fn between(&self) -> Vec<(usize, Gap)> {
        self.steps
            .windows(2)
            .enumerate()
            .filter_map(|(place, pair)| {
                let from = pair[0].to?;
                (pair[1].from > from).then_some((
                    place,
                    Gap {
                        from,
                        to: pair[1].from,
                    },
                ))
            })
            .collect()
    }
}

impl StepEntry {
    fn read(self, now: &ZonedDateTime) -> Result<LotStep, LotError> {
        let name = self.name.trim().to_owned();
        if name.is_empty() {
            return Err(LotError::Empty("a step's name"));
        }
        let wrong = |error| LotError::Field {
            step: name.clone(),
            error,
        };
        let moment =
            |field, text: &str| read_moment(field, text, now, DayEdge::Begin).map_err(wrong);
        let from = moment("from", &self.from)?;
        let to = self.to.as_deref().map(|to| moment("to", to)).transpose()?;
        let log = self
            .log
            .as_deref()
            .map(|log| LogName::new("log", log).map_err(wrong))
            .transpose()?;
        if to.is_some_and(|to| to < from) {
            return Err(LotError::Backward(name));
        }
        Ok(LotStep {
            name,
            from,
            to,
            log,
            limit: self.limit,
        })
    }
}

/// How a step stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepFound {
    /// What was found against its limit.
    pub findings: Vec<Finding>,
    /// What it comes to; `None` where it is held to no limit.
    pub outcome: Option<Outcome>,
    /// Stretches of the step that nobody read.
    pub unread: Vec<Gap>,
}

impl LotStep {
    /// Judges the step by its log and its limit, as it stands at a moment.
    ///
    /// # Errors
    /// [`LotError::NoLog`].
    pub fn judge(
        &self,
        log: Option<&HeatLog>,
        limit: Option<&Limit>,
        now: Timestamp,
    ) -> Result<StepFound, LotError> {
        let end = self.to.unwrap_or(now);
        let Some(log) = log else {
            return match limit {
                Some(limit) if limit.demand.is_of_heat() => Err(LotError::NoLog(self.name.clone())),
                // What no thermometer answers is for a person to show.
                Some(_) => Ok(StepFound {
                    findings: Vec::new(),
                    outcome: Some(Outcome::CannotTell),
                    unread: Vec::new(),
                }),
                None => Ok(StepFound {
                    findings: Vec::new(),
                    outcome: None,
                    unread: Vec::new(),
                }),
            };
        };
        let unread = unread(log, self.from, end);
        let findings = limit.map_or_else(Vec::new, |limit| check(log, limit));
        let mut outcome = Outcome::worst(findings.iter().map(|finding| finding.outcome));
        // A hold that was met stays met; what has to be kept all along was not seen all along.
        let all_along = limit
            .is_some_and(|limit| !matches!(limit.demand, Demand::Cooked(_) | Demand::Frozen(_)));
        if all_along
            && !unread.is_empty()
            && matches!(outcome, Some(Outcome::Kept | Outcome::Running))
        {
            outcome = Some(Outcome::CannotTell);
        }
        if limit.is_some() && outcome.is_none() {
            outcome = Some(Outcome::CannotTell);
        }
        Ok(StepFound {
            findings,
            outcome,
            unread,
        })
    }
}

/// Stretches between two moments without readings.
fn unread(log: &HeatLog, from: Timestamp, to: Timestamp) -> Vec<Gap> {
    let (Some(first), Some(last)) = (log.points().first(), log.points().last()) else {
        return vec![Gap { from, to }];
    };
    let mut gaps = log.gaps();
    let long = |from: Timestamp, to: Timestamp| to.duration_since(from) > log.longest_step;
    if long(from, first.at) {
        gaps.insert(0, Gap { from, to: first.at });
    }
    if long(last.at, to) {
        gaps.push(Gap { from: last.at, to });
    }
    gaps
}

/// What a whole lot comes to: the worst of its steps; a step that is held to
/// no limit is not counted. `None` where none is held to one.
#[must_use]
pub fn whole(steps: &[StepFound]) -> Option<Outcome> {
    Outcome::worst(steps.iter().filter_map(|step| step.outcome))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::LogPoint;
    use crate::limits::Limits;
    use evenhand_protocol::Temperature;
    use jiff::tz::TimeZone;

    fn now() -> ZonedDateTime {
        "2026-05-04T12:00:00Z"
            .parse::<Timestamp>()
            .unwrap()
            .to_zoned_datetime(TimeZone::UTC)
    }

    const LOT: &str = "title = 'smoked neck, lot 12'
        [[step]]
        name = 'brine'
        from = '2026-05-01T08:00'
        to = '2026-05-02T08:00'
        log = 'walk-in'
        limit = 'cold-holding'
        [[step]]
        name = 'smoke'
        from = '2026-05-02T09:00'
        to = '2026-05-02T13:00'
        log = 'neck core'
        limit = 'cook-roast'
        ";

    fn log(from: &str, minutes: i64, every: i64, celsius: f64) -> HeatLog {
        let from: Timestamp = from.parse().unwrap();
        let mut log = HeatLog::new("log");
        for at in (0..=minutes).step_by(every as usize) {
            log.push(LogPoint {
                at: from + jiff::SignedDuration::from_mins(at),
                temperature: Temperature::from_celsius(celsius).unwrap(),
            })
            .unwrap();
        }
        log
    }

    #[test]
    fn a_lot_is_read_and_the_way_between_steps_is_said() {
        let lot = Lot::read(LOT, &now()).unwrap();
        assert_eq!(lot.steps.len(), 2);
        let between = lot.between();
        assert_eq!(between.len(), 1);
        assert_eq!(
            between[0].1.to.duration_since(between[0].1.from),
            jiff::SignedDuration::from_hours(1)
        );
        for (was, is, says) in [
            ("09:00", "07:00", "begins before 'brine' ended"),
            ("13:00", "08:30", "ends before it begins"),
            ("to = '2026-05-02T08:00'", "", "has no end"),
            ("name = 'smoke'", "name = ' '", "a step's name is empty"),
            (
                "2026-05-02T09:00",
                "2026-05-42",
                "is no day of the calendar",
            ),
            ("limit =", "limits =", "cannot be read"),
        ] {
            let text = LOT.replacen(was, is, 1);
            let error = Lot::read(&text, &now()).unwrap_err().to_string();
            assert!(error.contains(says), "{error}");
        }
        let none = Lot::read("title = 'x'", &now()).unwrap_err();
        assert_eq!(none, LotError::NoSteps);
    }

    #[test]
    fn a_step_is_judged_and_what_nobody_read_keeps_it_from_within() {
        let lot = Lot::read(LOT, &now()).unwrap();
        let limits = Limits::food_code();
        let cold = limits.named("cold-holding");
        let brine = &lot.steps[0];
        let judge = |log: &HeatLog| brine.judge(Some(log), cold, now().timestamp()).unwrap();
        let seen = judge(&log("2026-05-01T08:00:00Z", 24 * 60, 5, 3.0));
        assert_eq!((seen.outcome, seen.unread.len()), (Some(Outcome::Kept), 0));
        // Read from ten on and until six only.
        let part = judge(&log("2026-05-01T10:00:00Z", 20 * 60, 5, 3.0));
        assert_eq!(part.outcome, Some(Outcome::CannotTell));
        assert_eq!(part.unread.len(), 2);
        let warm = judge(&log("2026-05-01T10:00:00Z", 20 * 60, 5, 9.0));
        assert_eq!(warm.outcome, Some(Outcome::Broken));
        let none = judge(&HeatLog::new("empty"));
        assert_eq!(
            (none.outcome, none.unread.len()),
            (Some(Outcome::CannotTell), 1)
        );
        assert_eq!(whole(&[seen, part, warm]), Some(Outcome::Broken));
        // A hold that was met stays met though nobody read on.
        let smoke = lot.steps[1]
            .judge(
                Some(&log("2026-05-02T11:00:00Z", 60, 5, 71.0)),
                limits.named("cook-roast"),
                now().timestamp(),
            )
            .unwrap();
        assert_eq!(smoke.outcome, Some(Outcome::Kept));
        assert_eq!(smoke.unread.len(), 2);
        assert!(matches!(
            brine.judge(None, cold, now().timestamp()),
            Err(LotError::NoLog(_))
        ));
        assert_eq!(
            brine.judge(None, None, now().timestamp()).unwrap().outcome,
            None
        );
    }
}
