//! The smallest desktop: it opens the link, begins a run, records each portion
//! once, acknowledges it, and opens the link again after a silence. For tests
//! and measurements; it keeps nothing.

mod comparison;
mod ledger;

pub use comparison::{Comparison, run};
pub use ledger::{Ledger, TUNING_SEEDS, is_doubted, is_wrong};

use evenhand_protocol::report::Report;
use evenhand_protocol::{
    CapturedPortion, Command, Envelope, Epoch, Fault, Goal, Mode, Notice, PortionId, Reader,
    Refusal, RunId, UnixMillis, Uptime, Version, frame,
};
use std::collections::{BTreeMap, VecDeque};

/// Silence after which the link is opened anew, in microseconds.
const SILENCE: u64 = 1_500_000;
/// What is not answered is asked again after so long, in microseconds.
const ASK_AGAIN: u64 = 400_000;

/// How far the beginning of the run has got.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Start {
    Due,
    Asked(u16),
    Done,
}

/// A desktop at the other end of the line.
#[derive(Debug)]
pub struct Desk {
    /// The run that it wants, if any.
    run: Option<(RunId, Mode, Goal)>,
    reader: Reader<Report>,
    sequence: u16,
    open: bool,
    heard: u64,
    asked: Option<u64>,
    start: Start,
    /// What else it asks, one after the other, and as what it has asked the first.
    errands: VecDeque<Command>,
    asked_as: Option<u16>,
    out: Vec<u8>,
    recorded: BTreeMap<PortionId, CapturedPortion>,
    repeats: usize,
    broken: usize,
    notices: Vec<(Uptime, Notice)>,
    faults: Vec<(Uptime, Fault, bool)>,
    epochs: Vec<Epoch>,
    refusals: Vec<Refusal>,
}

impl Desk {
    /// A desktop that wants one run of portions.
    #[must_use]
    pub const fn new(mode: Mode, goal: Goal) -> Self {
        Self::that_wants(Some((RunId(7), mode, goal)))
    }

    /// A desktop that begins no run: it records what comes.
    #[must_use]
    pub const fn that_listens() -> Self {
        Self::that_wants(None)
    }

    const fn that_wants(run: Option<(RunId, Mode, Goal)>) -> Self {
        Self {
            run,
            reader: Reader::new(),
            sequence: 0,
            open: false,
            heard: 0,
            asked: None,
            start: if run.is_some() {
                Start::Due
            } else {
                Start::Done
            },
            errands: VecDeque::new(),
            asked_as: None,
            out: Vec::new(),
            recorded: BTreeMap::new(),
            repeats: 0,
            broken: 0,
            notices: Vec::new(),
            faults: Vec::new(),
            epochs: Vec::new(),
            refusals: Vec::new(),
        }
    }

    /// Takes what came by a time in microseconds and gives what is to be sent.
    #[must_use]
    pub fn talk(&mut self, now_micros: u64, bytes: &[u8]) -> Vec<u8> {
        for byte in bytes {
            match self.reader.push(*byte) {
                None => {}
                Some(Err(_)) => self.broken += 1,
                Some(Ok(envelope)) => {
                    self.heard = now_micros;
                    self.take(envelope.message);
                }
            }
        }
        self.open &= now_micros <= self.heard.saturating_add(SILENCE);
        let may_ask = self
            .asked
            .is_none_or(|asked| now_micros >= asked.saturating_add(ASK_AGAIN));
        if may_ask && !self.open {
            self.asked = Some(now_micros);
            // Ends whatever the line carried before.
            self.out.push(0);
            let sequence = self.next();
            let version = Version::CURRENT;
            let now =
                UnixMillis::from_millis(i64::try_from(now_micros / 1_000).unwrap_or(i64::MAX));
            self.say(sequence, Command::Hello { version, now });
        } else if may_ask
            && self.start != Start::Done
            && let Some((run, mode, goal)) = self.run
        {
            self.asked = Some(now_micros);
            let sequence = match self.start {
                Start::Asked(sequence) => sequence,
                Start::Due | Start::Done => self.next(),
            };
            self.start = Start::Asked(sequence);
            self.say(sequence, Command::StartRun { run, mode, goal });
        } else if may_ask && let Some(errand) = self.errands.front().copied() {
            self.asked = Some(now_micros);
            let sequence = match self.asked_as {
                Some(sequence) => sequence,
                None => self.next(),
            };
            self.asked_as = Some(sequence);
            self.say(sequence, errand);
        }
        std::mem::take(&mut self.out)
    }

    /// Asks something else of the instrument, until it is answered.
    pub fn ask(&mut self, command: Command) {
        self.errands.push_back(command);
    }

    fn next(&mut self) -> u16 {
        self.sequence = self.sequence.wrapping_add(1);
        self.sequence
    }

    fn say(&mut self, sequence: u16, message: Command) {
        let mut bytes = [0; frame::MAX_FRAME];
        // Every command fits in a frame.
        if let Ok(length) = frame::encode(&Envelope { sequence, message }, &mut bytes) {
            self.out.extend_from_slice(&bytes[..length]);
        }
    }

    fn take(&mut self, report: Report) {
        match report {
            Report::Hello(hello) => {
                self.open = true;
                if self.epochs.last() != Some(&hello.epoch) {
                    self.epochs.push(hello.epoch);
                    if self.run.is_some() {
                        self.start = Start::Due;
                    }
                }
            }
            Report::Reply { to, outcome } if self.start == Start::Asked(to) => {
                self.start = Start::Done;
                self.refusals.extend(outcome.err());
            }
            Report::Reply { to, outcome } if self.asked_as == Some(to) => {
                self.asked_as = None;
                self.errands.pop_front();
                self.refusals.extend(outcome.err());
            }
            Report::Portion(portion) => {
                if self.recorded.insert(portion.id, portion).is_some() {
                    self.repeats += 1;
                }
                let sequence = self.next();
                self.say(sequence, Command::Acknowledge(portion.id));
            }
            Report::Notice { at, notice } => self.notices.push((at, notice)),
            Report::Fault { at, fault, present } => self.faults.push((at, fault, present)),
            _ => {}
        }
    }

    /// Every portion that came, by its identity: also one that was corrected.
    #[must_use]
    pub const fn recorded(&self) -> &BTreeMap<PortionId, CapturedPortion> {
        &self.recorded
    }

    /// The portions that count, in order: one that was corrected is replaced by
    /// its correction, in its place.
    #[must_use]
    pub fn portions(&self) -> Vec<CapturedPortion> {
        let mut order: Vec<CapturedPortion> = Vec::new();
        for (id, portion) in &self.recorded {
            let corrected = portion.replaces.and_then(|number| {
                let first = PortionId { number, ..*id };
                order.iter_mut().find(|earlier| earlier.id == first)
            });
            match corrected {
                // A later correction names this one.
                Some(place) => *place = *portion,
                None => order.push(*portion),
            }
        }
        order
    }

    /// Portions that came again after they were recorded.
    #[must_use]
    pub const fn repeats(&self) -> usize {
        self.repeats
    }

    /// Runs of bytes that were no message.
    #[must_use]
    pub const fn broken(&self) -> usize {
        self.broken
    }

    /// What the instrument told, in the order in which it came.
    #[must_use]
    pub fn notices(&self) -> &[(Uptime, Notice)] {
        &self.notices
    }

    /// The faults that came (true) and went, in order.
    #[must_use]
    pub fn faults(&self) -> &[(Uptime, Fault, bool)] {
        &self.faults
    }

    /// The starts of the instrument that it has spoken with.
    #[must_use]
    pub fn epochs(&self) -> &[Epoch] {
        &self.epochs
    }

    /// Why a run could not begin, or something else that it asked.
    #[must_use]
    pub fn refusals(&self) -> &[Refusal] {
        &self.refusals
    }
}
