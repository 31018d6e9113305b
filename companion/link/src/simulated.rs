//! An instrument on the simulated bench, in this program.

use super::line::{Dial, Line, LineEnd};
use super::{Hand, PracticeHand};
use crate::live::{LinkState, Now};
use evenhand_protocol::{Epoch, Mass};
use evenhand_simulator::instrument::SimulatedInstrument;
use evenhand_simulator::scenario::Scenario;
use jiff::{SignedDuration, Timestamp};
use std::hash::{BuildHasher, Hasher, RandomState};
use std::time::{Duration, Instant};

/// How fast the simulated bench runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pace {
    /// So many of its seconds in one of ours; above zero.
    Times(f64),
    /// As fast as this computer can.
    Unbounded,
}

impl Pace {
    /// As fast as the world outside.
    pub const REAL: Self = Self::Times(1.0);
}

/// How much of its own time passes before the other end may say something.
const STEP_MICROS: u64 = 10_000;
/// How long the bench goes on after the cook is done, for the last portion to
/// be captured, sent and acknowledged.
const AFTER_MICROS: u64 = 4_000_000;
/// How long it goes on at most while portions are not acknowledged.
const LAST_MICROS: u64 = 60_000_000;
/// How long a weight takes to be set down, in seconds.
const PLACING: f64 = 0.2;
/// How long to sleep between two looks at a paced bench.
const NAP: Duration = Duration::from_millis(5);

/// The first epoch of a simulated instrument: drawn anew each time, so that it
/// is unlike that of any other that was started with the same seed, with room
/// for a few power cuts. The top half of the numbers is for starts that could
/// not be counted.
#[must_use]
pub fn fresh_epoch() -> Epoch {
    // The standard library's own source of chance: random keys of a hash.
    let drawn = RandomState::new().build_hasher().finish();
    Epoch((drawn as u32) & 0x7FFF_FFF0)
}

/// A scenario to be played.
pub struct SimulatedDial {
    scenario: Scenario,
    seed: u64,
    pace: Pace,
    length: f64,
    hand: Hand,
    practice: Option<PracticeHand>,
}

impl SimulatedDial {
    /// A bench that plays `scenario` with a seed, from the moment it is dialled.
    #[must_use]
    pub fn new(scenario: Scenario, seed: u64, pace: Pace) -> Self {
        Self {
            length: 60.0 + 20.0 * scenario.portion_count() as f64,
            scenario,
            seed,
            pace,
            hand: Hand::default(),
            practice: None,
        }
    }

    /// The same scale at a practice bench: instead of the scenario's cook, a person does
    /// what is done there, and it is never over.
    #[must_use]
    pub fn by_hand(mut self) -> Self {
        self.practice = Some(PracticeHand::default());
        self
    }

    /// The same bench, listened to for so long by its own clock, so that one
    /// that runs ahead of the world does not end in the future.
    #[must_use]
    pub const fn lasting(mut self, length: Duration) -> Self {
        self.length = length.as_secs_f64();
        self
    }
}

impl Dial for SimulatedDial {
    fn place(&self) -> &str {
        "the simulated bench"
    }

    fn dial(&mut self) -> Result<Box<dyn Line>, LinkState> {
        let wall = Timestamp::now();
        let instrument = match &self.practice {
            Some(practice) => {
                // A scale that was not there a moment ago has nothing on it.
                practice.forget();
                SimulatedInstrument::by_hand(&self.scenario, self.seed, fresh_epoch())
            }
            None => SimulatedInstrument::in_epoch(&self.scenario, self.seed, fresh_epoch()),
        };
        // A bench that runs ahead of the world began so much earlier that it
        // does not end in the future.
        let ahead = match self.pace {
            Pace::Times(speed) => 1.0 - 1.0 / speed.max(1.0),
            Pace::Unbounded => 1.0,
        };
        let earlier = SignedDuration::try_from_secs_f64(self.length * ahead).unwrap_or_default();
        Ok(Box::new(SimulatedLine {
            instrument,
            pace: self.pace,
            begun: Instant::now(),
            wall: wall.saturating_sub(earlier).unwrap_or(wall),
            pending: Vec::new(),
            over_since: None,
            hand: self.hand.clone(),
            practice: self.practice.clone(),
            placed: Mass::ZERO,
        }))
    }

    fn hand(&self) -> Option<Hand> {
        Some(self.hand.clone())
    }

    fn practice_hand(&self) -> Option<PracticeHand> {
        self.practice.clone()
    }
}

struct SimulatedLine {
    instrument: SimulatedInstrument,
    pace: Pace,
    begun: Instant,
    wall: Timestamp,
    pending: Vec<u8>,
    over_since: Option<u64>,
    hand: Hand,
    practice: Option<PracticeHand>,
    /// What the hand has on the pan by now.
    placed: Mass,
}

impl SimulatedLine {
    fn is_over(&mut self) -> bool {
        if !self.instrument.is_over() {
            return false;
        }
        let now = self.instrument.micros();
        let passed = now - *self.over_since.get_or_insert(now);
        let unsent = self
            .instrument
            .reading()
            .is_some_and(|reading| reading.unsent > 0);
        passed > LAST_MICROS || (passed > AFTER_MICROS && !unsent)
    }

    /// Lets the bench's time go on by up to `patience` and says whether there
    /// is something to read.
    fn wait(&mut self, patience: Duration) {
        let begun = Instant::now();
        let mut steps = patience.as_micros() / u128::from(STEP_MICROS);
        loop {
            let now = self.instrument.micros();
            let goal = match self.pace {
                Pace::Unbounded => now + STEP_MICROS,
                Pace::Times(speed) => (self.begun.elapsed().as_secs_f64() * speed * 1e6) as u64,
            };
            // Never far at once, so that commands arrive between.
            let step = goal.min(now + STEP_MICROS);
            let wanted = self.hand.holds();
            if wanted != self.placed {
                self.instrument.put(wanted - self.placed, PLACING);
                self.placed = wanted;
            }
            for hand_move in self.practice.iter().flat_map(PracticeHand::take) {
                self.instrument.act(hand_move);
            }
            self.instrument.advance_to(step);
            drop(self.instrument.take_history());
            self.pending.append(&mut self.instrument.receive());
            if !self.pending.is_empty() || self.is_over() {
                return;
            }
            match self.pace {
                Pace::Unbounded if steps == 0 => return,
                Pace::Unbounded => steps -= 1,
                Pace::Times(_) if begun.elapsed() >= patience => return,
                Pace::Times(_) if step < goal => {}
                Pace::Times(_) => std::thread::sleep(NAP),
            }
        }
    }
}

impl Line for SimulatedLine {
    fn read(&mut self, buffer: &mut [u8], patience: Duration) -> Result<usize, LineEnd> {
        if self.pending.is_empty() {
            if self.is_over() {
                return Err(LineEnd::Over);
            }
            self.wait(patience);
        }
        let count = buffer.len().min(self.pending.len());
        for (place, byte) in buffer.iter_mut().zip(self.pending.drain(..count)) {
            *place = byte;
        }
        Ok(count)
    }

    fn write(&mut self, bytes: &[u8]) -> Result<(), LineEnd> {
        self.instrument.send(bytes);
        Ok(())
    }

    fn now(&self) -> Option<Now> {
        if self.pace == Pace::REAL {
            return None;
        }
        let passed = Duration::from_micros(self.instrument.micros());
        let on_wall = SignedDuration::try_from(passed).ok()?;
        Some(Now {
            steady: self.begun.checked_add(passed)?,
            wall: self.wall.checked_add(on_wall).ok()?,
        })
    }
}
