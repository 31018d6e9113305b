//! The world of a scenario, fed to an emulated board.

use crate::feed::{BATCH, Batch, Fed, Feed, Outputs, Start};
use crate::scenario::Scenario;
use crate::start;
use crate::truth::TruePortion;
use crate::world::{Cue, Moment, World};
use evenhand_protocol::Epoch;

/// Gives a board its world batch by batch: [`Feeder::next`], the board's
/// answer to [`Feeder::answered`], and so on. A power cut is a new start.
#[derive(Debug)]
pub struct Feeder {
    world: World,
    start: Start,
    /// How often the board was started.
    starts: u32,
    /// When it was last started, in microseconds of the bench's time; `None`
    /// before the first start and during a power cut.
    since: Option<u64>,
    /// The next moment, already taken from the world.
    ahead: Option<Moment>,
    cue: Cue,
}

impl Feeder {
    /// The world of a scenario, for a board in its first epoch.
    #[must_use]
    pub fn new(scenario: &Scenario, seed: u64) -> Self {
        Self::in_epoch(scenario, seed, Epoch(1))
    }

    /// The same with another first epoch.
    #[must_use]
    pub fn in_epoch(scenario: &Scenario, seed: u64, epoch: Epoch) -> Self {
        let world = World::new(scenario, seed);
        Self {
            start: start::start(scenario, &world, seed, epoch),
            world,
            starts: 0,
            since: None,
            ahead: None,
            cue: Cue::default(),
        }
    }

    /// The next message: a start where the board got power, otherwise at most
    /// `conversions` (1 to [`BATCH`]) conversions, fewer where something
    /// changes meanwhile.
    pub fn next(&mut self, conversions: usize) -> Feed {
        let mut moment = self.moment();
        while !moment.powered {
            self.since = None;
            self.cue = Cue::default();
            moment = self.moment();
        }
        let Some(since) = self.since else {
            let start = start::again(&self.start, self.starts);
            self.starts += 1;
            self.since = Some(
                moment
                    .at_micros
                    .saturating_sub(u64::from(moment.period_micros)),
            );
            self.ahead = Some(moment);
            return Feed::Start(start);
        };
        let mut batch = Batch {
            first_micros: moment.at_micros.saturating_sub(since),
            period_micros: moment.period_micros,
            bridge: moment.bridge,
            probe_word: moment.probe_word.0,
            probe: moment.probe,
            ..Batch::default()
        };
        let same = |other: &Moment| {
            other.powered
                && (other.bridge, other.probe, other.link_up)
                    == (moment.bridge, moment.probe, moment.link_up)
        };
        let mut next = moment;
        loop {
            // There is room: at most `BATCH` are put in.
            let _ = batch.counts.push(next.counts);
            if batch.counts.len() >= conversions.clamp(1, BATCH) {
                break;
            }
            next = self.moment();
            if !same(&next) {
                self.ahead = Some(next);
                break;
            }
        }
        Feed::Batch(batch)
    }

    fn moment(&mut self) -> Moment {
        self.ahead
            .take()
            .unwrap_or_else(|| self.world.next(self.cue))
    }

    /// What the board answered.
    pub fn answered(&mut self, fed: &Fed) {
        self.cue = Cue {
            running: fed.outputs.has(Outputs::RUNNING),
            steady: fed.outputs.has(Outputs::STEADY),
        };
    }

    /// Simulated time up to which the board has its world, in microseconds
    /// since the beginning.
    #[must_use]
    pub fn micros(&self) -> u64 {
        self.world.micros()
    }

    /// Whether the link's cable is in; whoever carries the bytes drops them
    /// while it is not.
    #[must_use]
    pub fn link_is_up(&self) -> bool {
        self.world.link_is_up()
    }

    /// The portions that the cook has finished, as they really are.
    #[must_use]
    pub fn truth(&self) -> &[TruePortion] {
        self.world.truth()
    }

    /// Whether the cook is done.
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.world.is_over()
    }
}
