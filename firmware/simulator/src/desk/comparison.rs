//! A scenario from beginning to end, and what was recorded beside what is true.

use super::Desk;
use crate::instrument::SimulatedInstrument;
use crate::scenario::Scenario;
use crate::truth::TruePortion;
use evenhand_protocol::{CapturedPortion, Mass};

/// How often host and instrument exchange bytes, in microseconds.
const EXCHANGE: u64 = 10_000;
/// A missed or an invented portion weighs as much in the comparison as a mass
/// that is out by this share of the target.
const GAP: f64 = 0.25;

/// Lets the cook of a scenario work to the end, with a desktop that listens.
#[must_use]
pub fn run(scenario: &Scenario, seed: u64) -> (SimulatedInstrument, Desk) {
    let mut instrument = SimulatedInstrument::new(scenario, seed);
    let mut desk = Desk::new(scenario.mode(), scenario.goal());
    let mut now = 0;
    while !instrument.is_over() {
        now += EXCHANGE;
        instrument.advance_to(now);
        let bytes = instrument.receive();
        instrument.send(&desk.talk(now, &bytes));
    }
    (instrument, desk)
}

/// What was recorded beside what is true, laid side by side.
#[derive(Debug, Clone)]
pub struct Comparison {
    /// Portions that are in both, in order.
    pub both: Vec<(TruePortion, CapturedPortion)>,
    /// Portions that were made and not recorded.
    pub missed: Vec<TruePortion>,
    /// Records of portions that were never made.
    pub invented: Vec<CapturedPortion>,
}

impl Comparison {
    /// Lays the records beside what is true, both in order, so that least is
    /// left over.
    #[must_use]
    pub fn of(instrument: &SimulatedInstrument, desk: &Desk) -> Self {
        let (truth, records) = (instrument.truth(), desk.portions());
        let out = |t: &TruePortion, r: &CapturedPortion| {
            (t.mass - r.mass).abs().grams() / r.goal.target().grams()
        };
        // The least cost of what is left from each place on: the usual alignment of two
        // sequences.
        let width = records.len() + 1;
        let mut cost = vec![0.0; (truth.len() + 1) * width];
        for i in (0..=truth.len()).rev() {
            for j in (0..=records.len()).rev() {
                let skip_truth = truth.get(i).map(|_| GAP + cost[(i + 1) * width + j]);
                let skip_record = records.get(j).map(|_| GAP + cost[i * width + j + 1]);
                let both = truth
                    .get(i)
                    .zip(records.get(j))
                    .map(|(t, r)| out(t, r) + cost[(i + 1) * width + j + 1]);
                cost[i * width + j] = [both, skip_truth, skip_record]
                    .into_iter()
                    .flatten()
                    .reduce(f64::min)
                    .unwrap_or(0.0);
            }
        }
        let (mut i, mut j) = (0, 0);
        let (mut both, mut missed, mut invented) = (Vec::new(), Vec::new(), Vec::new());
        loop {
            match (truth.get(i), records.get(j)) {
                (None, None) => break,
                (Some(t), Some(r))
                    if cost[i * width + j] == out(t, r) + cost[(i + 1) * width + j + 1] =>
                {
                    both.push((*t, *r));
                    i += 1;
                    j += 1;
                }
                (Some(t), _) if cost[i * width + j] == GAP + cost[(i + 1) * width + j] => {
                    missed.push(*t);
                    i += 1;
                }
                (_, Some(r)) => {
                    invented.push(*r);
                    j += 1;
                }
                (Some(t), None) => {
                    missed.push(*t);
                    i += 1;
                }
            }
        }
        Self {
            both,
            missed,
            invented,
        }
    }

    /// What was recorded less what is true, portion by portion.
    pub fn errors(&self) -> impl Iterator<Item = Mass> {
        self.both
            .iter()
            .map(|(truth, portion)| portion.mass - truth.mass)
    }

    /// The largest error, without its sign.
    #[must_use]
    pub fn worst(&self) -> Mass {
        self.errors().map(Mass::abs).max().unwrap_or(Mass::ZERO)
    }
}
