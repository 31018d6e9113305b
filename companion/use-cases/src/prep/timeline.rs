//! A day laid out in time: what each pair of hands and each shared thing does
//! when, what rests, and how warm the ovens are.

use super::PrepNow;
use evenhand_kitchen::heat::{LogName, LogPoint};
use evenhand_kitchen::prep::{BandStretch, Need, PlannedStep, Progress, StepRef, StepState};
use evenhand_protocol::Temperature;
use evenhand_store::{Store, StoreError};
use jiff::{SignedDuration, Timestamp};

/// What a lane is of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LaneOf {
    /// A pair of hands, by the name in the menu.
    Hand(String),
    /// Something that is shared and has no hands of a name: hands in general, an oven.
    Shared(String),
    /// Work for which none of the named hands is free that can do it.
    Nobody,
    /// What passes by itself and holds nothing.
    Rests,
}

/// A step in its time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bar {
    /// Which step.
    pub step: StepRef,
    /// Its name on the board.
    pub name: String,
    /// When it begins, or began.
    pub from: Timestamp,
    /// When it ends; of what is under way, when it is expected to.
    pub until: Timestamp,
    /// How it stands.
    pub standing: StepState,
}

/// A lane.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lane {
    /// What it is of.
    pub of: LaneOf,
    /// Its bars, in order of when they begin. Those of a pair of hands do not overlap.
    pub bars: Vec<Bar>,
}

/// A band that a step waits for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BandWaitedFor {
    /// The step.
    pub step: StepRef,
    /// The band's lower end.
    pub low: Temperature,
    /// The band's upper end.
    pub high: Temperature,
    /// When the log is in it; empty where it does not come to it or nobody can tell.
    pub stretches: Vec<BandStretch>,
}

/// An oven: its log, and what waits for it.
#[derive(Debug, Clone, PartialEq)]
pub struct OvenCourse {
    /// The log.
    pub log: LogName,
    /// What was measured of it in the time that is shown.
    pub measured: Vec<LogPoint>,
    /// The bands that open steps of the service wait for.
    pub bands: Vec<BandWaitedFor>,
}

/// A day laid out.
#[derive(Debug, Clone, PartialEq)]
pub struct Timeline {
    /// What is shown begins here
    pub from: Timestamp,
    /// and ends here.
    pub to: Timestamp,
    /// When service opens.
    pub service: Timestamp,
    /// Hands first, then what is shared, then rests.
    pub lanes: Vec<Lane>,
    /// The ovens that steps wait for.
    pub ovens: Vec<OvenCourse>,
    /// Open steps that the plan gives no time, by name.
    pub without_time: Vec<String>,
    /// Open steps whose time lies wholly after what is shown.
    pub later: usize,
}

/// What is shown begins so long before now, so that what is under way is seen to be.
const BEFORE_NOW: SignedDuration = SignedDuration::from_mins(60);

/// What is shown ends so long after service opens,
const AFTER_OPENING: SignedDuration = SignedDuration::from_mins(60);

/// and is never shorter nor longer than this.
const SHORTEST: SignedDuration = SignedDuration::from_hours(3);
const LONGEST: SignedDuration = SignedDuration::from_hours(18);

impl Timeline {
    /// Lays out the day of a plan at a moment.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn of(prep: &PrepNow, store: &Store, now: Timestamp) -> Result<Self, StoreError> {
        let from = now.checked_sub(BEFORE_NOW).unwrap_or(now);
        let until = |length: SignedDuration| from.checked_add(length).unwrap_or(from);
        let to = prep
            .board
            .service
            .checked_add(AFTER_OPENING)
            .unwrap_or(prep.board.service)
            .clamp(until(SHORTEST), until(LONGEST));
        let mut timeline = Self {
            from,
            to,
            service: prep.board.service,
            lanes: prep
                .board
                .hands()
                .map(|hand| Lane::empty(LaneOf::Hand(hand.name.clone())))
                .collect(),
            ovens: ovens(prep, store, now, from)?,
            without_time: Vec::new(),
            later: 0,
        };
        for planned in &prep.plan.steps {
            timeline.place(prep, planned);
        }
        let order = |lane: &Lane| match lane.of {
            LaneOf::Hand(_) => 0,
            LaneOf::Nobody => 1,
            LaneOf::Shared(_) => 2,
            LaneOf::Rests => 3,
        };
        timeline.lanes.sort_by_key(order);
        for lane in &mut timeline.lanes {
            lane.bars.sort_by_key(|bar| bar.from);
        }
        Ok(timeline)
    }

    fn place(&mut self, prep: &PrepNow, planned: &PlannedStep) {
        let Ok(step) = prep.board.step(planned.step) else {
            return;
        };
        let (from, until) = match (step.progress, planned.start_by, planned.done_by) {
            (Progress::Done(_), ..) => return,
            (Progress::Begun(at), _, ends) => {
                let expected = at.checked_add(step.takes.needed()).unwrap_or(at);
                (at, ends.unwrap_or(expected))
            }
            (Progress::Waiting, Some(from), Some(until)) => (from, until),
            (Progress::Waiting, ..) => {
                self.without_time.push(step.full_name());
                return;
            }
        };
        if from >= self.to {
            self.later += 1;
            return;
        }
        if until <= self.from {
            return;
        }
        let bar = Bar {
            step: planned.step,
            name: step.full_name(),
            from,
            until,
            standing: planned.standing,
        };
        let mut lanes = Vec::new();
        if let Some(done_by) = prep.who.get(&planned.step) {
            lanes.extend(done_by.hands.iter().cloned().map(LaneOf::Hand));
            if done_by.missing > 0 {
                lanes.push(LaneOf::Nobody);
            }
        }
        // A place with a skill is one of the hands, whose lane says who it is.
        let of_hands = |need: &Need| {
            let skilled = |hands: &Need| {
                prep.board.names_hands_of(&hands.resource)
                    && need.resource.starts_with(&format!("{} (", hands.resource))
            };
            prep.board.names_hands_of(&need.resource) || step.needs.iter().any(skilled)
        };
        let shared = step.needs.iter().filter(|need| !of_hands(need));
        lanes.extend(shared.map(|need| LaneOf::Shared(need.resource.clone())));
        if lanes.is_empty() {
            lanes.push(LaneOf::Rests);
        }
        for of in lanes {
            self.lane(of).bars.push(bar.clone());
        }
    }

    fn lane(&mut self, of: LaneOf) -> &mut Lane {
        let place = self.lanes.iter().position(|lane| lane.of == of);
        let place = place.unwrap_or_else(|| {
            self.lanes.push(Lane::empty(of));
            self.lanes.len() - 1
        });
        &mut self.lanes[place]
    }
}

impl Lane {
    const fn empty(of: LaneOf) -> Self {
        Self {
            of,
            bars: Vec::new(),
        }
    }
}

fn ovens(
    prep: &PrepNow,
    store: &Store,
    now: Timestamp,
    from: Timestamp,
) -> Result<Vec<OvenCourse>, StoreError> {
    let mut ovens: Vec<OvenCourse> = Vec::new();
    for (step, band) in prep.board.bands() {
        let of_the_day = prep
            .of_service
            .get(&step)
            .is_some_and(|(day, _)| *day == prep.day);
        let open = prep
            .board
            .step(step)
            .is_ok_and(|known| !matches!(known.progress, Progress::Done(_)));
        // A name that no log can have, and a log that is not kept, have no course to show;
        // the step's own line says so.
        let Ok(name) = LogName::new("log", &band.log) else {
            continue;
        };
        if !open || !of_the_day {
            continue;
        }
        let waited_for = BandWaitedFor {
            step,
            low: band.low,
            high: band.high,
            stretches: prep
                .board
                .oven_times(step)
                .map_or_else(Vec::new, |times| times.stretches.clone()),
        };
        if let Some(known) = ovens.iter_mut().find(|oven| oven.log.key() == name.key()) {
            known.bands.push(waited_for);
            continue;
        }
        let measured = match store.heat_log(&name, from, now) {
            Ok(stored) => stored.corrected().points().to_vec(),
            Err(StoreError::UnknownHeatLog { .. }) => continue,
            Err(error) => return Err(error),
        };
        ovens.push(OvenCourse {
            log: name,
            measured,
            bands: vec![waited_for],
        });
    }
    for oven in &mut ovens {
        oven.bands.sort_by_key(|band| band.low);
    }
    ovens.sort_by(|one, other| one.log.as_str().cmp(other.log.as_str()));
    Ok(ovens)
}
