//! A small desktop: opens the link, begins the run, records each portion
//! once, acknowledges it, and opens the link again after a silence.

use evenhand_protocol::report::Report;
use evenhand_protocol::{
    CapturedPortion, Command, Envelope, Epoch, Goal, Mode, Notice, PortionId, Reader, RunId,
    UnixMillis, Version, frame,
};
use std::collections::BTreeMap;

/// Silence after which the link is opened anew, in microseconds.
const SILENCE: u64 = 1_500_000;
/// A command is asked again after so long.
const ASK_AGAIN: u64 = 400_000;

pub struct Desk {
    run: RunId,
    mode: Mode,
    goal: Goal,
    reader: Reader<Report>,
    sequence: u16,
    epoch: Option<Epoch>,
    heard: u64,
    asked: u64,
    start: Option<(u16, bool)>,
    out: Vec<u8>,
    pub recorded: BTreeMap<PortionId, CapturedPortion>,
    pub repeats: usize,
    pub notices: Vec<(u64, Notice)>,
    pub broken: usize,
    pub epochs: Vec<Epoch>,
}

impl Desk {
    pub fn new(mode: Mode, goal: Goal) -> Self {
        Self {
            run: RunId(7),
            mode,
            goal,
            reader: Reader::new(),
            sequence: 0,
            epoch: None,
            heard: 0,
            asked: 0,
            start: None,
            out: Vec::new(),
            recorded: BTreeMap::new(),
            repeats: 0,
            notices: Vec::new(),
            broken: 0,
            epochs: Vec::new(),
        }
    }

    fn say(&mut self, sequence: u16, message: Command) {
        let mut bytes = [0; frame::MAX_FRAME];
        let length = frame::encode(&Envelope { sequence, message }, &mut bytes).unwrap();
        self.out.extend_from_slice(&bytes[..length]);
    }

    fn next(&mut self) -> u16 {
        self.sequence = self.sequence.wrapping_add(1);
        self.sequence
    }

    /// Takes what came by a time and gives what is to be sent.
    pub fn talk(&mut self, now: u64, bytes: &[u8]) -> Vec<u8> {
        for byte in bytes {
            match self.reader.push(*byte) {
                None => {}
                Some(Err(_)) => self.broken += 1,
                Some(Ok(envelope)) => {
                    self.heard = now;
                    self.take(envelope.message);
                }
            }
        }
        if self.epoch.is_none() || now > self.heard + SILENCE {
            if now >= self.asked + ASK_AGAIN || self.asked == 0 {
                self.asked = now;
                self.epoch = None;
                let sequence = self.next();
                self.out.push(0);
                self.say(
                    sequence,
                    Command::Hello {
                        version: Version::CURRENT,
                        now: UnixMillis::from_millis(0),
                    },
                );
            }
        } else if !matches!(self.start, Some((_, true))) && now >= self.asked + ASK_AGAIN {
            self.asked = now;
            let sequence = match self.start {
                Some((sequence, _)) => sequence,
                None => self.next(),
            };
            self.start = Some((sequence, false));
            let (run, mode, goal) = (self.run, self.mode, self.goal);
            self.say(sequence, Command::StartRun { run, mode, goal });
        }
        std::mem::take(&mut self.out)
    }

    fn take(&mut self, report: Report) {
        match report {
            Report::Hello(hello) => {
                if self.epoch != Some(hello.epoch) {
                    self.epoch = Some(hello.epoch);
                    self.epochs.push(hello.epoch);
                    self.start = None;
                }
            }
            Report::Reply { to, outcome } => {
                if let Some((sequence, done)) = &mut self.start
                    && *sequence == to
                {
                    outcome.unwrap();
                    *done = true;
                }
            }
            Report::Portion(portion) => {
                if self.recorded.insert(portion.id, portion).is_some() {
                    self.repeats += 1;
                }
                let sequence = self.next();
                self.say(sequence, Command::Acknowledge(portion.id));
            }
            Report::Notice { at, notice } => self.notices.push((at.millis(), notice)),
            Report::Reading(_) | Report::Fault { .. } => {}
        }
    }

    /// The portions that count, in order: those that were corrected replaced by
    /// their corrections, in their place.
    pub fn portions(&self) -> Vec<CapturedPortion> {
        let mut order: Vec<(PortionId, CapturedPortion)> = Vec::new();
        for (id, portion) in &self.recorded {
            let corrected = portion.replaces.and_then(|number| {
                order
                    .iter_mut()
                    .find(|(first, _)| *first == PortionId { number, ..*id })
            });
            match corrected {
                // Later corrections of the same portion name the correction.
                Some(place) => *place = (*id, *portion),
                None => order.push((*id, *portion)),
            }
        }
        order.into_iter().map(|(_, portion)| portion).collect()
    }
}
