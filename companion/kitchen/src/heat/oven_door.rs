//! What opening an oven's door does, learned from the marks in its log.
//!
//! While the door is open the air and the face of the bricks fall fast; when it is shut the bricks
//! give them back a part. What stays is that the oven is colder than it would have been by a share
//! of its excess above the room. The logarithm of that share is what each opening *cost*; it hardly
//! depends on how hot the oven was, where minutes gained would. Both sides of an opening are on
//! record, so what it would have been is read off the log from before and after, and not forecast.
//!
//! Nothing is said from fewer than three openings, of openings much shorter or longer than those
//! marked, of an oven much hotter or colder than it was at them, or of later than was seen after them.
//! The next opening lies in the interval eight times in ten, as far as openings differ by chance
//! alone; how often it held on made-up ovens is in `examples/DOOR_HOLDS.md`.

use super::forecast::{Band, CONFIDENCE, Course, Habit, Reach, Surroundings, When};
use super::log::HeatLog;
use super::oven_marks::{Likely, marked};
use crate::statistics::{Confidence, next_within};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// The mark of an opened door,
pub const DOOR_OPEN: &str = "door open";
/// and of one that is shut again.
pub const DOOR_SHUT: &str = "door shut";

/// The fewest openings that anything is said from.
pub const LEAST_OPENINGS: usize = 3;

/// A door is open no shorter and no longer than this, minutes; a mark is missing or late else.
const OPEN_WITHIN: (f64, f64) = (1.0, 60.0);
/// What went on before is told by so many minutes before an opening, and no fewer than these.
const BEFORE: (f64, f64) = (60.0, 20.0);
/// Minutes after a door is shut at which it is looked what it cost. No step begins before the first.
const AFTER: [f64; 5] = [30.0, 60.0, 90.0, 120.0, 150.0];
/// Each look takes in so many minutes before it and after it.
const LOOK: (f64, f64) = (10.0, 20.0);
/// Between these powers of the time that the door is open lies what that costs: as its square root,
/// where it is the face of thick bricks that cools, and as itself.
const POWERS: [f64; 2] = [0.5, 1.0];
/// So much shorter or longer than those marked an opening may be.
const LENGTHS: (f64, f64) = (0.6, 1.5);
/// So much colder or hotter above the room than at those marked the oven may be.
const EXCESSES: (f64, f64) = (0.7, 1.3);

/// One opening, and what it cost.
#[derive(Debug, Clone, PartialEq)]
struct Opening {
    minutes: f64,
    /// °C above the room when it was opened.
    excess: f64,
    /// The logarithm of the share of the excess that was lost, by [`AFTER`].
    cost: Vec<f64>,
}

/// What is known of an oven's door.
#[derive(Debug, Clone, PartialEq)]
pub struct Door {
    room: f64,
    openings: Vec<Opening>,
}

/// An oven that enters and leaves a band after its door was open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AfterDoor {
    /// For how long the door is opened.
    pub open: SignedDuration,
    /// When it enters the band, or has settled in it.
    pub enters: When,
    /// When it leaves it.
    pub leaves: When,
}

/// A straight line through logarithms.
#[derive(Clone, Copy)]
struct Line {
    /// At the moment asked for.
    value: f64,
    /// A minute.
    slope: f64,
}

/// The logarithm of an excess, minute by minute.
struct Excess(Vec<(f64, f64)>);

impl Excess {
    fn of(log: &HeatLog, room: f64, zero: Timestamp) -> Self {
        let above = |celsius: f64| (celsius > room + 1.0).then(|| (celsius - room).ln());
        let point = |point: &super::log::LogPoint| {
            let minute = point.at.duration_since(zero).as_secs_f64() / 60.0;
            Some((minute, above(point.temperature.celsius())?))
        };
        Self(log.points().iter().filter_map(point).collect())
    }

    /// The line through the readings of some minutes, at one of them; `None` where they are too few
    /// or lie on less than half of it.
    fn line(&self, (from, to): (f64, f64), at: f64) -> Option<Line> {
        let first = self.0.partition_point(|point| point.0 < from);
        let seen: Vec<_> = self.0[first..]
            .iter()
            .take_while(|point| point.0 <= to)
            .collect();
        let length = seen.last()?.0 - seen.first()?.0;
        if seen.len() < 3 || length < 0.5 * (to - from) {
            return None;
        }
        let n = seen.len() as f64;
        let mean = |of: &dyn Fn(&(f64, f64)) -> f64| seen.iter().map(|it| of(it)).sum::<f64>() / n;
        let (x, y) = (mean(&|it| it.0), mean(&|it| it.1));
        let slope = mean(&|it| (it.0 - x) * (it.1 - y)) / mean(&|it| (it.0 - x).powi(2));
        Some(Line {
            value: y + slope * (at - x),
            slope,
        })
    }

    /// What it cost to have the door open for so many minutes from minute nought on. `since` is when
    /// anything was done before, `until` when something is next.
    fn cost(&self, open: f64, since: f64, until: f64) -> Option<Vec<f64>> {
        let from = since.max(-BEFORE.0);
        if from > -BEFORE.1 {
            return None;
        }
        let before = self.line((from, 0.0), 0.0)?;
        let looks: Vec<(f64, Line)> = AFTER
            .iter()
            .map(|after| open + after)
            .take_while(|at| at + LOOK.1 <= until)
            .map_while(|at| Some((at, self.line((at - LOOK.0, at + LOOK.1), at)?)))
            .collect();
        // The pace changes by and by from what it was to what it is at last.
        let (last, after) = looks.get(1..)?.last()?;
        let falls = before.slope < 0.0 && after.slope < 0.0;
        falls.then(|| {
            let would_be = |at: f64| {
                let bends = (after.slope - before.slope) / (2.0 * last);
                before.value + before.slope * at + bends * at * at
            };
            looks
                .iter()
                .map(|(at, it)| would_be(*at) - it.value)
                .collect()
        })
    }
}

impl Door {
    /// What the marks in an oven's log tell of its door.
    #[must_use]
    pub fn learn(log: &HeatLog, around: Surroundings) -> Self {
        let room = around.middle();
        let shut = marked(log, DOOR_SHUT);
        let of = |open: Timestamp| -> Option<Opening> {
            let minute = |at: Timestamp| at.duration_since(open).as_secs_f64() / 60.0;
            let shut = shut.iter().copied().find(|shut| *shut > open)?;
            let minutes = minute(shut);
            if !(OPEN_WITHIN.0..=OPEN_WITHIN.1).contains(&minutes) {
                return None;
            }
            let others = || log.markers.iter().map(|marker| minute(marker.at));
            let within = others().any(|at| at > 0.0 && at < minutes);
            let since = others().filter(|at| *at < 0.0).fold(f64::MIN, f64::max);
            let until = others().filter(|at| *at > minutes).fold(f64::MAX, f64::min);
            let excess = Excess::of(log, room, open);
            let cost = excess.cost(minutes, since, until)?;
            let hot = excess.line((since.max(-BEFORE.0), 0.0), 0.0)?.value.exp();
            (!within).then_some(Opening {
                minutes,
                excess: hot,
                cost,
            })
        };
        Self {
            room,
            openings: marked(log, DOOR_OPEN).into_iter().filter_map(of).collect(),
        }
    }

    /// How many openings tell something.
    #[must_use]
    pub fn openings(&self) -> usize {
        self.openings.len()
    }

    fn range(&self, of: impl Fn(&Opening) -> f64, (less, more): (f64, f64)) -> (f64, f64) {
        let least = self.openings.iter().map(&of).fold(f64::MAX, f64::min);
        let most = self.openings.iter().map(&of).fold(f64::MIN, f64::max);
        (less * least, more * most)
    }

    /// What an opening of so many minutes costs, by minutes after it is shut.
    fn costs(&self, minutes: f64) -> Vec<(f64, Likely)> {
        let at = |(nth, after): (usize, &f64)| {
            let by = |power: f64| {
                let costs: Vec<f64> = self
                    .openings
                    .iter()
                    .filter_map(|it| Some(it.cost.get(nth)? * (minutes / it.minutes).powf(power)))
                    .collect();
                next_within(&costs, Confidence::new(CONFIDENCE).ok()?)
            };
            let [(a, half_a), (b, half_b)] = [by(POWERS[0])?, by(POWERS[1])?];
            let likely = Likely {
                // An open door warms nothing.
                low: (a - half_a).min(b - half_b).max(0.0),
                likely: f64::midpoint(a, b).max(0.0),
                high: (a + half_a).max(b + half_b),
            };
            Some((*after, likely))
        };
        AFTER.iter().enumerate().map_while(at).collect()
    }

    /// When an oven that falls enters and leaves a band if its door is opened now, by how long: of
    /// those lengths of which it is known, the shortest first. Empty where nothing can be said.
    #[must_use]
    pub fn opened_now(
        &self,
        log: &HeatLog,
        band: Band,
        around: Surroundings,
        habit: &Habit,
        now: Timestamp,
    ) -> Vec<AfterDoor> {
        self.opened_for(&LENGTHS_TRIED, log, band, (around, habit), now)
    }

    /// The same where it was opened already by the last mark, and is open still or was shut so
    /// lately that the oven has not settled: as if it were shut by now.
    #[must_use]
    pub fn is_open(
        &self,
        log: &HeatLog,
        band: Band,
        around: Surroundings,
        habit: &Habit,
        now: Timestamp,
    ) -> Option<AfterDoor> {
        let last = |word| marked(log, word).into_iter().rfind(|at| *at <= now);
        let opened = last(DOOR_OPEN)?;
        let shut = last(DOOR_SHUT).filter(|shut| *shut > opened);
        let minutes = |from: Timestamp, to: Timestamp| to.duration_since(from).as_secs_f64() / 60.0;
        let open = minutes(opened, shut.unwrap_or(now));
        let settled = shut.is_some_and(|shut| minutes(shut, now) >= AFTER[0]);
        let others = log
            .markers
            .iter()
            .any(|it| it.at > shut.unwrap_or(opened) && it.at <= now);
        if settled || others || open > OPEN_WITHIN.1 {
            return None;
        }
        let before = log.between(Timestamp::MIN, opened);
        let known = self.opened_for(&[open], &before, band, (around, habit), opened);
        known.first().copied()
    }

    fn opened_for(
        &self,
        lengths: &[f64],
        log: &HeatLog,
        band: Band,
        (around, habit): (Surroundings, &Habit),
        now: Timestamp,
    ) -> Vec<AfterDoor> {
        let Some(last) = log.points().last() else {
            return Vec::new();
        };
        let excess = last.temperature.celsius() - self.room;
        let (coldest, hottest) = self.range(|it| it.excess, EXCESSES);
        if self.openings.len() < LEAST_OPENINGS || !(coldest..=hottest).contains(&excess) {
            return Vec::new();
        }
        let pace = Excess::of(log, self.room, last.at).line((-BEFORE.1, 0.0), 0.0);
        let (Some(pace), Ok(course)) = (pace, Course::of(log, around, habit, now)) else {
            return Vec::new();
        };
        if pace.slope >= 0.0
            || last.temperature <= band.high()
            || band.low().celsius() <= self.room + 1.0
        {
            return Vec::new();
        }
        let since = now.duration_since(last.at).as_secs_f64() / 60.0;
        let lowest = (band.low().celsius() - self.room).max(1.0).ln();
        let falls = Falls {
            ahead: ahead(&course, self.room, (pace.value, lowest), now),
            pace,
            room: self.room,
            since,
            now,
        };
        let (shortest, longest) = self.range(|it| it.minutes, LENGTHS);
        lengths
            .iter()
            .filter(|minutes| (shortest..=longest).contains(*minutes))
            .filter_map(|minutes| falls.after(band, *minutes, &self.costs(*minutes)))
            .collect()
    }
}

/// Lengths of an opening, in minutes, of which the least that suffices is told.
const LENGTHS_TRIED: [f64; 12] = [
    2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 15.0, 18.0, 21.0, 25.0, 30.0, 40.0,
];

/// When a course reaches levels from one to another, by logarithms of the excess.
fn ahead(
    course: &Course<'_>,
    room: f64,
    (from, to): (f64, f64),
    now: Timestamp,
) -> Vec<(f64, Spread)> {
    let minutes = |at: Timestamp| at.duration_since(now).as_secs_f64() / 60.0;
    (1..=LEVELS)
        .map(|nth| from + (to - from) * f64::from(nth) / f64::from(LEVELS))
        .map_while(|level| {
            let millicelsius = ((room + level.exp()) * 1e3).round() as i32;
            match course.reach(Temperature::from_millicelsius(millicelsius)) {
                Reach::At(when) => Some((
                    level,
                    [
                        minutes(when.early),
                        minutes(when.likely),
                        minutes(when.late?),
                    ],
                )),
                Reach::Never | Reach::Unknown(_) => None,
            }
        })
        .collect()
}

/// Of how many levels it is asked when they are reached; between them a line is drawn.
const LEVELS: u32 = 16;

/// An oven as it falls with its door shut.
struct Falls {
    /// When it reaches levels, by the logarithm of its excess, one after another.
    ahead: Vec<(f64, Spread)>,
    /// The logarithm of its excess at the last reading.
    pace: Line,
    room: f64,
    /// Minutes from the last reading until now.
    since: f64,
    now: Timestamp,
}

/// Minutes from now: early, likely, late.
type Spread = [f64; 3];

impl Falls {
    /// Minutes from now until it is as cold as a level by its logarithm, which may lie behind it.
    fn to(&self, level: f64) -> Option<Spread> {
        if level >= self.pace.value {
            let minutes = (level - self.pace.value) / self.pace.slope - self.since;
            return Some([minutes; 3]);
        }
        let next = self.ahead.iter().position(|it| it.0 <= level + 1e-9)?;
        let (below, then) = self.ahead[next];
        let here = (self.pace.value, [-self.since; 3]);
        let (above, first) = next
            .checked_sub(1)
            .map_or(here, |before| self.ahead[before]);
        let share = (above - level) / (above - below);
        let between = |side: usize| first[side] + share * (then[side] - first[side]);
        Some([between(0), between(1), between(2)])
    }

    /// The same with the door opened now: the cost lowers it, by what is known of it then.
    fn with(&self, level: f64, shut: f64, costs: &[(f64, Likely)]) -> Option<Spread> {
        let at = |of: &dyn Fn(&Likely) -> f64, side: usize| {
            let mut minutes = shut;
            for _ in 0..TURNS {
                minutes = self.to(level + along(costs, minutes - shut, of)?)?[side];
            }
            Some(minutes)
        };
        let likely = at(&|it| it.likely, 1)?;
        // The costs and the fall are off each by itself.
        let early = (likely - at(&|it| it.high, 1)?).hypot(likely - at(&|it| it.likely, 0)?);
        let late = (at(&|it| it.low, 1)? - likely).hypot(at(&|it| it.likely, 2)? - likely);
        Some([likely - early, likely, likely + late])
    }

    fn after(&self, band: Band, open: f64, costs: &[(f64, Likely)]) -> Option<AfterDoor> {
        let level = |temperature: Temperature| {
            let excess = temperature.celsius() - self.room;
            (excess > 1.0).then(|| excess.ln())
        };
        let settled = open + costs.first()?.0;
        let known_until = open + costs.last()?.0;
        let enters = self.with(level(band.high())?, open, costs)?;
        let leaves = self.with(level(band.low())?, open, costs)?;
        let enters = enters.map(|minutes| minutes.max(settled));
        // It is known to have left no later than anything is known.
        let leaves = [
            leaves[0].min(known_until),
            leaves[1].min(known_until),
            leaves[2],
        ];
        if enters[2] > known_until || leaves[0] <= enters[2] {
            return None;
        }
        let moment = |minutes: f64| {
            let length = SignedDuration::try_from_secs_f64(minutes * 60.0).ok()?;
            self.now.checked_add(length).ok()
        };
        let when = |it: Spread| {
            Some(When {
                early: moment(it[0])?,
                likely: moment(it[1])?,
                late: Some(moment(it[2])?),
            })
        };
        Some(AfterDoor {
            open: SignedDuration::from_secs((open * 60.0) as i64),
            enters: when(enters)?,
            leaves: when(leaves)?,
        })
    }
}

/// How often a moment is put right by the cost that is known of it.
const TURNS: usize = 6;

/// Between the looks, what lies between them; before the first and after the last, as there.
fn along(costs: &[(f64, Likely)], after: f64, of: &dyn Fn(&Likely) -> f64) -> Option<f64> {
    let (first, last) = (costs.first()?, costs.last()?);
    if after <= first.0 {
        return Some(of(&first.1));
    }
    let between = |pair: &[(f64, Likely)]| {
        let (from, to) = (pair[0], pair[1]);
        let share = (after - from.0) / (to.0 - from.0);
        (after <= to.0).then(|| of(&from.1) + share * (of(&to.1) - of(&from.1)))
    };
    costs
        .windows(2)
        .find_map(between)
        .or_else(|| Some(of(&last.1)))
}
