//! A limit ahead of time: how long is left, and what to do while it helps.
//!
//! [`check`](super::check) says how a log stands; this says where it is going.

use super::check::{Finding, Outcome, check, under_way};
use super::forecast::{
    Band, Course, Forecast, Habit, Reach, Surroundings, When, Why, forecast, is_out_of_reach,
};
use super::going::{Going, HoldStage, HoldingNext, Pace, Remedy};
use super::log::{HeatLog, LogPoint};
use crate::limits::{CoolingStage, Demand, Hold, Limit, Side};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};
use std::borrow::Cow;
use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

/// How loud an outlook is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Alarm {
    /// As it should go.
    Quiet,
    /// It may miss the limit, or nobody can tell: look at it.
    Look,
    /// Too close to say, and later ice may come too late: a caution.
    Close,
    /// It misses the limit even where all that is not known turns out well:
    /// something has to be done now.
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
    /// What is going to happen and what to do.
    pub going: Going,
}

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
        course: OnceCell::new(),
        earlier: RefCell::new(Vec::new()),
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

/// Before the last moment nothing is called so soon after cooling began: a lid that comes off
/// then, and the middle of a thick pan, which cools late, look like pans that miss. Chosen on
/// made-up pans (`CHOSEN_ON` of `tests/forecast_worlds/pans.rs`).
const FIRST_CALL: SignedDuration = SignedDuration::from_mins(45);

fn is_kept(finding: &Finding) -> bool {
    finding.outcome == Outcome::Kept
}

/// Where a log goes, or why that is not known.
type Foretold<'a> = Rc<Result<Course<'a>, Why>>;

struct Ahead<'a> {
    log: &'a HeatLog,
    around: Surroundings,
    habit: &'a Habit,
    now: Timestamp,
    last: LogPoint,
    /// Where it goes by all that was seen, once it was asked for.
    course: OnceCell<Result<Course<'a>, Why>>,
    /// The same by what was seen up to moments.
    earlier: RefCell<Vec<(Timestamp, Foretold<'a>)>>,
}

impl Ahead<'_> {
    fn forecast(&self, level: Temperature) -> Forecast {
        match Band::new(level, level) {
            Ok(band) => forecast(self.log, band, self.around, self.habit, self.now),
            Err(_) => Forecast::NotComing,
        }
    }

    fn cooling(&self, from: Temperature, stages: &[CoolingStage]) -> Vec<Outlook> {
        // The clock is the check's: one stray hot reading does not begin it anew.
        let under_way = stages
            .last()
            .and_then(|stage| under_way(self.log, from, stage.to));
        let Some((last_hot, cooled)) = under_way else {
            return vec![Outlook {
                alarm: Alarm::Quiet,
                deadline: None,
                expected: None,
                going: Going::NotStarted {
                    here: self.last.temperature,
                    from,
                },
            }];
        };
        // The clock began somewhere between the two; the earlier is the one to keep to.
        let began = last_hot
            .or_else(|| cooled.first().map(|p| p.at))
            .unwrap_or(self.last.at);
        stages
            .iter()
            .filter(|stage| !cooled.iter().any(|p| p.temperature <= stage.to))
            .map(|stage| self.stage(*stage, from, began, last_hot.is_some()))
            .collect()
    }

    fn stage(
        &self,
        stage: CoolingStage,
        from: Temperature,
        began: Timestamp,
        seen: bool,
    ) -> Outlook {
        let deadline = later(began, stage.within);
        let left = deadline.duration_since(self.now);
        let (alarm, expected, pace, remedy) = if left.is_negative() {
            let pace = Pace::Overdue {
                by: -left,
                here: self.last.temperature,
            };
            (Alarm::Over, None, pace, Remedy::Nothing)
        } else {
            self.going(stage, from, began)
        };
        Outlook {
            alarm,
            deadline: Some(deadline),
            expected,
            going: Going::Cooling {
                to: stage.to,
                pace,
                remedy,
                start_seen: seen,
            },
        }
    }

    /// A stage that is not over: how loud, when, how it goes, and what to do.
    fn going(
        &self,
        stage: CoolingStage,
        from: Temperature,
        began: Timestamp,
    ) -> (Alarm, Option<When>, Pace, Remedy) {
        let deadline = later(began, stage.within);
        let left = deadline.duration_since(self.now);
        let here = self.last.temperature;
        let gone = self.last.at.duration_since(began);
        let last_chance = left <= ice_takes(stage, from, here, gone);
        let eased = if last_chance { EASED_LATE } else { EASED };
        let misses = self.misses(stage.to, deadline, self.now, eased)
            // A passing thing, a door or a stirring, is over by the next look.
            && (last_chance || gone >= FIRST_CALL && self.misses_by_share(stage.to, deadline) && {
                let before = later(self.now, -(gone / 5).max(SignedDuration::from_mins(5)));
                before > began && self.misses(stage.to, deadline, before, EASED_LATE)
            });
        let course = self
            .course
            .get_or_init(|| Course::of(self.log, self.around, self.habit, self.now));
        let reach = match course {
            Ok(course) if course.is_ahead(stage.to) => course.reach(stage.to),
            Ok(_) => Reach::Never,
            Err(why) => Reach::Unknown(*why),
        };
        // What is called or cautioned on goes by what came after the last change.
        let in_time = course.is_ok()
            && matches!(&*self.seen_to(self.now), Ok(course) if course.by(stage.to, deadline) >= SURE_ENOUGH);
        let loud = match (misses, last_chance && !in_time) {
            (true, _) => Some(Alarm::Act),
            (false, true) => Some(Alarm::Close),
            (false, false) => None,
        };
        if let Reach::At(enters) = reach {
            let (alarm, pace, remedy) = toward(enters, deadline, loud);
            return (alarm, Some(enters), pace, remedy);
        }
        let pace = match (loud, reach) {
            (Some(Alarm::Act), _) => Pace::Missed,
            (_, Reach::Unknown(why)) => Pace::Unknown { why, left },
            _ => Pace::NotEnough { left },
        };
        let (alarm, remedy) = match loud {
            Some(Alarm::Act) => (Alarm::Act, Remedy::Ice),
            Some(alarm) => (alarm, Remedy::IceIfItMatters),
            None => (Alarm::Look, Remedy::LookAgain),
        };
        (alarm, None, pace, remedy)
    }

    /// Whether a level is missed by what was seen up to a moment, even where all
    /// that is not known turns out well.
    fn misses(
        &self,
        level: Temperature,
        deadline: Timestamp,
        seen_to: Timestamp,
        eased: f64,
    ) -> bool {
        match &*self.seen_to(seen_to) {
            Ok(course) => {
                !course.is_ahead(level)
                    || course.is_out_of_reach(level, deadline)
                    || course.by_at_best(level, deadline, eased) < HARDLY
            }
            Err(_) => is_out_of_reach(&self.log_to(seen_to), level, deadline),
        }
    }

    /// Whether a level is missed even should it go on losing the share of its excess
    /// that it loses now.
    fn misses_by_share(&self, level: Temperature, deadline: Timestamp) -> bool {
        match &*self.seen_to(self.now) {
            Ok(course) => course.is_out_of_reach_by_share(level, deadline),
            Err(_) => true,
        }
    }

    fn log_to(&self, moment: Timestamp) -> Cow<'_, HeatLog> {
        if moment < self.now {
            let end = later(moment, SignedDuration::from_millis(1));
            Cow::Owned(self.log.between(Timestamp::MIN, end))
        } else {
            Cow::Borrowed(self.log)
        }
    }

    /// Where it was going by what was seen up to a moment.
    fn seen_to(&self, moment: Timestamp) -> Foretold<'_> {
        let known = self.earlier.borrow();
        if let Some((_, course)) = known.iter().find(|(at, _)| *at == moment) {
            return Rc::clone(course);
        }
        drop(known);
        let log = self.log_to(moment);
        let at = log.points().last().map_or(self.now, |p| p.at);
        let course = Rc::new(Course::since_last_change(&log, self.around, self.habit, at));
        self.earlier.borrow_mut().push((moment, Rc::clone(&course)));
        course
    }

    /// At most (cold) or at least (hot) a temperature.
    fn holding(&self, limit: Temperature, at_most: bool) -> Outlook {
        let keeps = |t: Temperature| if at_most { t <= limit } else { t >= limit };
        let side = side(at_most);
        let going = |next| Going::Holding {
            side,
            limit,
            here: self.last.temperature,
            next,
        };
        let off = (self.last.temperature.millicelsius() - limit.millicelsius()).abs();
        if let Some(doubt) = self.log.doubt
            && !keeps(self.last.temperature)
            && off <= doubt.within().millicelsius()
        {
            let within = doubt.within();
            return Outlook {
                alarm: Alarm::Close,
                deadline: None,
                expected: None,
                going: going(HoldingNext::TooClose { within }),
            };
        }
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
                going: going(HoldingNext::Beyond {
                    up_to: self.now.duration_since(since),
                }),
            };
        }
        let (alarm, expected, next) = match self.forecast(limit) {
            Forecast::Coming { enters, .. } => {
                let within = enters.likely.duration_since(self.now);
                let alarm = if within < SignedDuration::from_mins(30) {
                    Alarm::Act
                } else if within < SignedDuration::from_hours(2) {
                    Alarm::Look
                } else {
                    Alarm::Quiet
                };
                let remedy = alarm != Alarm::Quiet;
                (alarm, Some(enters), HoldingNext::Passes { within, remedy })
            }
            Forecast::Unknown(why @ Why::Silent) => (Alarm::Look, None, HoldingNext::Unknown(why)),
            // Hardly moving within the limit is how it should be.
            Forecast::Unknown(_) | Forecast::NotComing | Forecast::Inside { .. } => {
                (Alarm::Quiet, None, HoldingNext::Keeps)
            }
        };
        Outlook {
            alarm,
            deadline: None,
            expected,
            going: going(next),
        }
    }

    fn time_only(&self, within: SignedDuration) -> Outlook {
        let began = self.log.points().first().map_or(self.now, |p| p.at);
        let deadline = later(began, within);
        let left = deadline.duration_since(self.now);
        let alarm = if left.is_negative() {
            Alarm::Over
        } else if left < SignedDuration::from_mins(30) {
            Alarm::Act
        } else {
            Alarm::Quiet
        };
        Outlook {
            alarm,
            deadline: Some(deadline),
            expected: None,
            going: Going::Out {
                out: self.now.duration_since(began),
                allowed: within,
                left,
            },
        }
    }

    /// The hold going on: how long it has lasted, or when it will begin.
    fn hold(&self, hold: Hold, at_most: bool) -> Outlook {
        let keeps = |t: Temperature| {
            if at_most { t <= hold.at } else { t >= hold.at }
        };
        let is = |alarm, expected, deadline, stage| Outlook {
            alarm,
            deadline,
            expected,
            going: Going::Hold {
                side: side(at_most),
                at: hold.at,
                asked: hold.lasting,
                here: self.last.temperature,
                stage,
            },
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
            let stage = HoldStage::Lasting { lasted };
            return is(Alarm::Quiet, None, Some(until), stage);
        }
        match self.forecast(hold.at) {
            Forecast::Coming { enters, .. } => {
                let ahead = |at: Timestamp| at.duration_since(self.now);
                let stage = HoldStage::Ahead {
                    likely: ahead(enters.likely),
                    early: ahead(enters.early),
                    late: enters.late.map(ahead),
                };
                is(Alarm::Quiet, Some(enters), None, stage)
            }
            Forecast::Unknown(why) => is(Alarm::Quiet, None, None, HoldStage::Unknown(why)),
            Forecast::NotComing | Forecast::Inside { .. } => {
                is(Alarm::Look, None, None, HoldStage::NotComing)
            }
        }
    }
}

const fn side(at_most: bool) -> Side {
    if at_most { Side::AtMost } else { Side::AtLeast }
}

/// Below this probability of being in time, with all that is not known turning
/// out well, it is said to miss the limit. Chosen on made-up pans
/// (`CHOSEN_ON` of `tests/forecast_worlds/pans.rs`).
const HARDLY: f64 = 0.02;
/// How much less of the way there may be than a fit says, at best, as a share of
/// it. With the 5/4th power of natural convection what a body seems to go toward
/// lies a fifth of its excess too high. At the last chance, when more was seen
/// and waiting costs the remedy, less. Chosen on the same pans.
const EASED: f64 = 0.15;
const EASED_LATE: f64 = 0.1;
/// From this probability of being in time on nothing is said at the last chance.
const SURE_ENOUGH: f64 = 0.9;
/// How much faster than so far heat goes in ice: an estimate, a low one.
const ICE: f64 = 4.0;

/// How long it would take in ice from here, by how long it took so far: a
/// little before so much is left is the last chance to do something.
fn ice_takes(
    stage: CoolingStage,
    from: Temperature,
    here: Temperature,
    gone: SignedDuration,
) -> SignedDuration {
    // Toward 0 degC, by a constant share of the difference a minute.
    let [from, here, to] = [from, here, stage.to].map(|t| t.celsius().max(0.5));
    let so_far = (from / here).ln().max(0.02);
    let seconds = gone.as_secs_f64() / ICE * ((here / to).ln().max(0.0) / so_far);
    let longest = stage.within.as_secs_f64() / 4.0;
    let ice = SignedDuration::try_from_secs_f64(seconds.min(longest)).unwrap_or(stage.within / 4);
    // And until it is in the ice.
    ice.max(SignedDuration::from_mins(20)) + SignedDuration::from_mins(10)
}

fn toward(enters: When, deadline: Timestamp, loud: Option<Alarm>) -> (Alarm, Pace, Remedy) {
    let late = enters.likely.duration_since(deadline);
    let latest = enters.late.map(|l| l.duration_since(deadline));
    let (alarm, remedy) = match loud {
        Some(Alarm::Act) => (Alarm::Act, Remedy::Ice),
        Some(alarm) => (alarm, Remedy::IceIfItMatters),
        None => (Alarm::Look, Remedy::LookAgain),
    };
    if loud == Some(Alarm::Act) || late.is_positive() {
        let pace = Pace::Late {
            by: late,
            earliest: enters.early.duration_since(deadline),
            latest,
        };
        return (alarm, pace, remedy);
    }
    match latest {
        Some(latest) if !latest.is_positive() && loud.is_none() => (
            Alarm::Quiet,
            Pace::InTime { before: -late },
            Remedy::Nothing,
        ),
        latest => {
            let pace = Pace::PerhapsLate {
                before: -late,
                latest,
            };
            (alarm, pace, remedy)
        }
    }
}

fn later(moment: Timestamp, by: SignedDuration) -> Timestamp {
    moment.checked_add(by).unwrap_or(Timestamp::MAX)
}
