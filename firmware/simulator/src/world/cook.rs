//! A cook at work.

use super::act::Act;
use super::pan::Pan;
use crate::scenario::Scenario;
use crate::truth::{TruePortion, TrueTaste};
use std::collections::VecDeque;

/// What a cook sees and hears of the instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Cue {
    /// A run is going on, and no fault stops the weighing.
    pub running: bool,
    /// The load is steady.
    pub steady: bool,
}

/// How long a cook looks elsewhere after the last move before watching the
/// instrument, in seconds.
const GLANCE: f64 = 0.5;

/// The cook, with what is still to be done.
#[derive(Debug)]
pub(super) struct Cook {
    script: VecDeque<Act>,
    watches: bool,
    patience: f64,
    gives_up: f64,
    free_at: f64,
    began_work: Option<f64>,
    began_portion: f64,
    /// When the first hand was laid on the portion; `None` while it waits.
    laid_hand_on: Option<f64>,
    portion: u32,
    waiting_since: Option<f64>,
    steady_since: Option<f64>,
    truth: Vec<TruePortion>,
    tastes: Vec<TrueTaste>,
    finished: bool,
    /// There is none: nothing is done, and the bench is never over.
    absent: bool,
}

impl Cook {
    pub(super) fn new(scenario: &Scenario, seed: u64) -> Self {
        Self {
            script: super::script::write(scenario, seed),
            watches: scenario.cook.watches,
            patience: scenario.cook.patience_seconds,
            gives_up: scenario.cook.gives_up_seconds,
            free_at: 0.0,
            began_work: None,
            began_portion: 0.0,
            laid_hand_on: None,
            portion: 0,
            waiting_since: None,
            steady_since: None,
            truth: Vec::new(),
            tastes: Vec::new(),
            finished: false,
            absent: false,
        }
    }

    /// A bench at which nobody works by a script.
    pub(super) fn absent(scenario: &Scenario, seed: u64) -> Self {
        Self {
            script: VecDeque::new(),
            absent: true,
            ..Self::new(scenario, seed)
        }
    }

    /// When the cook began to work, in seconds of the model.
    pub(super) fn began_work(&self) -> Option<f64> {
        self.began_work
    }

    /// The portion being made, 0 before the first.
    pub(super) fn portion(&self) -> u32 {
        self.portion
    }

    pub(super) fn truth(&self) -> &[TruePortion] {
        &self.truth
    }

    pub(super) fn tastes(&self) -> &[TrueTaste] {
        &self.tastes
    }

    /// When everything was done.
    pub(super) fn done_at(&self) -> Option<f64> {
        self.finished.then_some(self.free_at)
    }

    /// Does what is due.
    pub(super) fn work(&mut self, now: f64, tick: f64, cue: Cue, pan: &mut Pan) {
        while now >= self.free_at {
            let Some(act) = self.script.front().cloned() else {
                if !self.finished && !self.absent {
                    self.finished = true;
                    self.free_at = now;
                }
                return;
            };
            if !self.act(act, now, tick, cue, pan) {
                return;
            }
            self.script.pop_front();
            self.waiting_since = None;
            self.steady_since = None;
        }
    }

    /// Does one thing; `false` while it has to wait.
    fn act(&mut self, act: Act, now: f64, tick: f64, cue: Cue, pan: &mut Pan) -> bool {
        match act {
            Act::Begin { number } => {
                self.portion = number;
                self.began_portion = now;
                self.laid_hand_on = None;
                // What the scenario has happen at this portion happens first.
                self.free_at = now + tick;
            }
            Act::AwaitRun => {
                let since = *self.waiting_since.get_or_insert(now);
                // Nobody begins before there is a run; after that nobody waits for ever.
                let tired = self.began_work.is_some() && now >= since + self.gives_up;
                if self.watches && !cue.running && !tired {
                    return false;
                }
                self.began_work.get_or_insert(now);
                self.laid_hand_on.get_or_insert(now);
            }
            Act::AwaitRoom => {
                let since = *self.waiting_since.get_or_insert(now);
                return !pan.is_leaned_on() || now >= since + self.gives_up;
            }
            Act::Pause { seconds } => self.free_at = now + seconds,
            Act::AwaitSteady {
                reaction,
                unwatched,
            } => {
                let since = *self.waiting_since.get_or_insert(now);
                if !self.watches {
                    return now >= since + unwatched;
                }
                if now < since + GLANCE || !cue.steady {
                    self.steady_since = None;
                } else {
                    self.steady_since.get_or_insert(now);
                }
                let reacted = self
                    .steady_since
                    .is_some_and(|steady| now >= steady + reaction);
                return reacted || now >= since + self.patience;
            }
            Act::Put { over, mass } => pan.put(now, over, mass),
            Act::Clear { over } => {
                let mass = pan.mass();
                pan.put(now, over, -mass);
            }
            Act::Taste { mass } => self.tastes.push(TrueTaste {
                at_micros: micros(now),
                mass,
            }),
            Act::Stand { off_centre } => pan.off_centre = off_centre,
            Act::Press(mut force) => {
                force.from = now;
                pan.press(force);
            }
            Act::Count { number, mass, dish } => self.truth.push(TruePortion {
                number,
                begun_micros: micros(self.laid_hand_on.unwrap_or(self.began_portion)),
                at_micros: micros(now),
                mass,
                dish,
                corrected: false,
            }),
            Act::Correct { number, mass } => {
                if let Some(portion) = self
                    .truth
                    .iter_mut()
                    .rev()
                    .find(|portion| portion.number == number)
                {
                    portion.mass = mass;
                    portion.at_micros = micros(now);
                    portion.corrected = true;
                }
            }
            Act::KeepPace { seconds } => self.free_at = self.began_portion + seconds,
        }
        true
    }
}

fn micros(seconds: f64) -> u64 {
    (seconds * 1e6).round().max(0.0) as u64
}
