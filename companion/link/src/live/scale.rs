//! Everything that is known of the bench at this moment.

use super::{Approach, LinkState, LiveRun, NotDone};
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_protocol::fault::FaultSet;
use evenhand_protocol::{
    Calibrating, Diagnosis, Goal, Hello, Notice, Reading, Report, SelfTest, TestWeights, Uptime,
};
use evenhand_store::RefusedPortion;
use jiff::{SignedDuration, Timestamp};
use std::collections::VecDeque;
use std::sync::Arc;
use std::time::{Duration, Instant};

/// How many notices are kept.
const NOTICES: usize = 32;

/// How long a reading counts as live. Ten a second come, so this is fifteen
/// missing in a row.
const STALE: Duration = Duration::from_millis(1_500);

/// This moment on both clocks: the steady one, for how long ago something was,
/// and the wall's, for when.
#[derive(Debug, Clone, Copy)]
pub struct Now {
    /// Never steps.
    pub steady: Instant,
    /// May step whenever somebody sets a clock.
    pub wall: Timestamp,
}

/// A notice with the time it came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SeenNotice {
    /// When it came, on the wall's clock.
    pub at: Timestamp,
    /// What it said.
    pub notice: Notice,
}

/// Something wrong at the desktop's end, with when it began.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// When it began.
    pub since: Timestamp,
    /// What happened.
    pub kind: TroubleKind,
}

/// What is wrong at the desktop's end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TroubleKind {
    /// Portions come faster than anybody makes them; the rest waits in the
    /// instrument.
    TooFast,
    /// What the instrument sent cannot be taken for a portion.
    Refused(RefusedPortion),
    /// Portions cannot be put on record; what the store said.
    Store(String),
    /// The computer's clock was set back by this much.
    ClockBack(SignedDuration),
}

/// The bench as it stands now.
#[derive(Debug, Clone, Default)]
pub struct LiveScale {
    link: LinkState,
    hello: Option<Hello>,
    reading: Option<(Instant, Reading)>,
    reading_at: Option<Timestamp>,
    run: Option<Arc<LiveRun>>,
    notices: VecDeque<SeenNotice>,
    notices_seen: u64,
    store_trouble: Option<Trouble>,
    clock_trouble: Option<Trouble>,
    answer: Option<(u64, Result<(), NotDone>)>,
    calibration: Option<(Uptime, Calibrating)>,
    tested: Option<(Uptime, SelfTest)>,
    diagnosis: Option<Diagnosis>,
    changes: u64,
}

impl LiveScale {
    /// A bench of which nothing is known.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    // What is known.

    /// How things stand with the instrument.
    #[must_use]
    pub const fn link(&self) -> &LinkState {
        &self.link
    }

    /// What the instrument said of itself.
    #[must_use]
    pub const fn hello(&self) -> Option<&Hello> {
        self.hello.as_ref()
    }

    /// The latest reading, as long as it is live: the link stands and the
    /// reading is not stale. An old figure is never shown as if it were now.
    #[must_use]
    pub fn reading(&self, now: Instant) -> Option<&Reading> {
        let (seen, reading) = self.reading.as_ref()?;
        let live = self.link.is_linked() && now.saturating_duration_since(*seen) <= STALE;
        live.then_some(reading)
    }

    /// The latest reading however old it is, and when it came.
    #[must_use]
    pub const fn last_reading(&self) -> Option<(Instant, &Reading)> {
        match &self.reading {
            Some((seen, reading)) => Some((*seen, reading)),
            None => None,
        }
    }

    /// When the latest reading came, on the wall's clock.
    #[must_use]
    pub const fn last_reading_at(&self) -> Option<Timestamp> {
        self.reading_at
    }

    /// When the latest reading will have become stale, where it is not yet: a
    /// screen repaints itself then.
    #[must_use]
    pub fn stale_at(&self, now: Instant) -> Option<Instant> {
        self.reading(now)?;
        let (seen, _) = self.reading.as_ref()?;
        // Just past the moment, so that the reading is stale when looked at.
        seen.checked_add(STALE + Duration::from_millis(1))
    }

    /// The faults that hold, by the latest reading; none are known without a
    /// live one.
    #[must_use]
    pub fn faults(&self, now: Instant) -> FaultSet {
        self.reading(now)
            .map_or(FaultSet::EMPTY, |reading| reading.faults)
    }

    /// Portions that the instrument lost in this start of it because more were
    /// made than it could keep.
    #[must_use]
    pub fn lost(&self) -> u32 {
        self.reading.as_ref().map_or(0, |(_, reading)| reading.lost)
    }

    /// Portions that the instrument has captured and that are not yet on
    /// record here.
    #[must_use]
    pub fn unsent(&self) -> u16 {
        self.reading
            .as_ref()
            .map_or(0, |(_, reading)| reading.unsent)
    }

    /// The run going on, or the last one.
    #[must_use]
    pub fn run(&self) -> Option<&LiveRun> {
        self.run.as_deref()
    }

    /// The portion being made, on its way to the target.
    #[must_use]
    pub fn approach(&self, now: Instant) -> Option<Approach> {
        Approach::of(self.reading(now)?, self.goal()?)
    }

    /// What a portion of the run should weigh.
    #[must_use]
    pub fn goal(&self) -> Option<Goal> {
        self.run.as_ref().map(|run| run.run.goal)
    }

    /// The latest notices, newest last.
    pub fn notices(&self) -> impl DoubleEndedIterator<Item = &SeenNotice> {
        self.notices.iter()
    }

    /// How many notices came in all, also those no longer kept.
    #[must_use]
    pub const fn notices_seen(&self) -> u64 {
        self.notices_seen
    }

    /// What keeps portions from being put on record, if something does. They
    /// stay with the instrument meanwhile.
    #[must_use]
    pub const fn store_trouble(&self) -> Option<&Trouble> {
        self.store_trouble.as_ref()
    }

    /// That this computer's clock stepped, if it did.
    #[must_use]
    pub const fn clock_trouble(&self) -> Option<&Trouble> {
        self.clock_trouble.as_ref()
    }

    /// The outcome of the latest thing asked of the link or the instrument:
    /// its number, and what was done or why not, as a sentence.
    #[must_use]
    pub fn answer(&self) -> Option<(u64, Result<(), &NotDone>)> {
        self.answer
            .as_ref()
            .map(|(number, outcome)| (*number, outcome.as_ref().copied()))
    }

    /// How the calibration under way stands, or the last one stood, with the
    /// instrument's time of its last change.
    #[must_use]
    pub const fn calibration(&self) -> Option<(Uptime, Calibrating)> {
        self.calibration
    }

    /// What the latest test with a known weight found, with the instrument's
    /// time of it.
    #[must_use]
    pub const fn tested(&self) -> Option<(Uptime, SelfTest)> {
        self.tested
    }

    /// The known weights to test this scale with before portions of this goal are
    /// made: both are to pass. `None` until the instrument has said what it is.
    #[must_use]
    pub fn test_weights(&self, goal: Option<&Goal>) -> Option<TestWeights> {
        let hello = self.hello.as_ref()?;
        Some(TestWeights::to_ask(hello.capacity, hello.interval, goal))
    }

    /// What the instrument last said of its own health.
    #[must_use]
    pub const fn diagnosis(&self) -> Option<&Diagnosis> {
        self.diagnosis.as_ref()
    }

    /// Goes up with every change, so that a screen can tell whether to look
    /// again.
    #[must_use]
    pub const fn changes(&self) -> u64 {
        self.changes
    }

    // What changes it.

    /// Takes in how things stand with the instrument.
    pub fn link_is(&mut self, link: LinkState) {
        if self.link != link {
            self.link = link;
            self.changes += 1;
        }
    }

    /// Takes in what the instrument says. A portion is not taken from here but
    /// by [`LiveScale::portion_recorded`], when it is on record.
    pub fn take_report(&mut self, report: &Report, now: Now) {
        match report {
            Report::Hello(hello) => self.hello = Some(*hello),
            Report::Reading(reading) => {
                self.reading = Some((now.steady, *reading));
                self.reading_at = Some(now.wall);
            }
            Report::Notice { notice, .. } => {
                if self.notices.len() == NOTICES {
                    self.notices.pop_front();
                }
                self.notices_seen += 1;
                self.notices.push_back(SeenNotice {
                    at: now.wall,
                    notice: *notice,
                });
            }
            Report::Calibration { at, standing } => self.calibration = Some((*at, *standing)),
            Report::Tested { at, test } => self.tested = Some((*at, *test)),
            Report::Diagnosis(diagnosis) => self.diagnosis = Some(*diagnosis),
            // The faults that hold are in every reading.
            Report::Fault { fault, present, .. } => {
                if let Some((_, reading)) = &mut self.reading {
                    reading.faults = reading.faults.with(*fault, *present);
                }
            }
            // Portions and replies come another way.
            _ => return,
        }
        self.changes += 1;
    }

    /// Takes in the run going on with the portions on record for it, or that
    /// there is none. Also after portions were struck out.
    pub fn run_is(&mut self, run: Option<LiveRun>) {
        self.run = run.map(Arc::new);
        self.changes += 1;
    }

    /// Takes in a portion that was put on record. One of another run than the
    /// one going on is not shown.
    pub fn portion_recorded(&mut self, portion: &RecordedPortion) {
        if let Some(run) = &mut self.run
            && run.run.id == portion.run
        {
            Arc::make_mut(run).take(portion);
            self.changes += 1;
        }
    }

    /// Takes in what keeps portions from being put on record, or that nothing
    /// does.
    pub fn store_trouble_is(&mut self, trouble: Option<Trouble>) {
        if self.store_trouble != trouble {
            self.store_trouble = trouble;
            self.changes += 1;
        }
    }

    /// Takes in that this computer's clock stepped.
    pub fn clock_trouble_is(&mut self, trouble: Option<Trouble>) {
        if self.clock_trouble != trouble {
            self.clock_trouble = trouble;
            self.changes += 1;
        }
    }

    /// Takes in the outcome of something asked.
    pub fn answered(&mut self, number: u64, outcome: Result<(), NotDone>) {
        self.answer = Some((number, outcome));
        self.changes += 1;
    }
}
