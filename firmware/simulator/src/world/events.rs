//! What the scenario has happen at a time, and how long it lasts.

use super::pan::Pan;
use super::surroundings::{bump, chopping, footfalls, lean};
use crate::chips::{BridgeTrouble, ProbeTrouble};
use crate::random::{Draws, Stream};
use crate::scenario::{Event, EventKind};

/// A condition that lasts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Condition {
    CablePulled,
    PowerCut,
    Bridge(BridgeTrouble),
    Probe(ProbeTrouble),
}

/// The events to come and the conditions that hold.
#[derive(Debug)]
pub(super) struct Events {
    pending: Vec<Event>,
    /// Events whose time, in seconds of the model, is known.
    timed: Vec<(f64, Event)>,
    holding: Vec<(f64, Condition)>,
    /// The power goes with one of the next things written, for so long.
    cut_in_write: Option<f64>,
    draws: Draws,
}

impl Events {
    pub(super) fn new(events: &[Event], seed: u64) -> Self {
        Self {
            pending: events.to_vec(),
            timed: Vec::new(),
            holding: Vec::new(),
            cut_in_write: None,
            draws: Draws::new(seed, Stream::Events),
        }
    }

    /// Lets happen what is due. `began_work` is when the cook began, `portion`
    /// the one being made.
    pub(super) fn happen(
        &mut self,
        now: f64,
        began_work: Option<f64>,
        portion: u32,
        pan: &mut Pan,
    ) {
        let Some(began_work) = began_work else { return };
        let timed = &mut self.timed;
        self.pending.retain(|event| {
            let known = match (event.at_seconds, event.at_portion) {
                (Some(seconds), _) => Some(began_work + seconds),
                (None, Some(number)) => (portion >= number).then_some(now),
                // Refused when the scenario was read.
                (None, None) => None,
            };
            if let Some(at) = known {
                timed.push((at + event.after_seconds, event.clone()));
            }
            known.is_none()
        });
        self.holding.retain(|(until, _)| now < *until);
        while let Some(place) = self.timed.iter().position(|(at, _)| now >= *at) {
            let (_, event) = self.timed.swap_remove(place);
            self.begin(&event, now, pan);
        }
    }

    fn begin(&mut self, event: &Event, now: f64, pan: &mut Pan) {
        use EventKind as Kind;
        let lasts = event.for_seconds.unwrap_or(0.0);
        let grams = event.grams.unwrap_or(0.0);
        let draws = &mut self.draws;
        let condition = match event.kind {
            Kind::Lean => return pan.press(lean(now, lasts, grams, draws)),
            Kind::Bump => return pan.press(bump(now, grams, draws)),
            Kind::Footfalls => return footfalls(now, lasts, grams, draws, pan),
            Kind::Chopping => return chopping(now, lasts, grams, draws, pan),
            Kind::CablePull => Condition::CablePulled,
            Kind::PowerCut => Condition::PowerCut,
            Kind::PowerCutInWrite => {
                self.cut_in_write = Some(lasts);
                return;
            }
            Kind::BridgeSilent => Condition::Bridge(BridgeTrouble::Silent),
            Kind::BridgeHighRail => Condition::Bridge(BridgeTrouble::HighRail),
            Kind::BridgeLowRail => Condition::Bridge(BridgeTrouble::LowRail),
            Kind::BridgeFrozen => Condition::Bridge(BridgeTrouble::Frozen),
            Kind::BridgeDataLow => Condition::Bridge(BridgeTrouble::DataLow),
            Kind::BridgeAllOnes => Condition::Bridge(BridgeTrouble::AllOnes),
            Kind::BridgePinError => Condition::Bridge(BridgeTrouble::PinError),
            Kind::BridgeSparks => Condition::Bridge(BridgeTrouble::Sparks),
            Kind::BridgeStalls => Condition::Bridge(BridgeTrouble::Stalls),
            Kind::ProbeOpen => Condition::Probe(ProbeTrouble::Open),
            Kind::ProbeShortToGround => Condition::Probe(ProbeTrouble::ShortToGround),
            Kind::ProbeShortToSupply => Condition::Probe(ProbeTrouble::ShortToSupply),
            Kind::ProbeShortedWires => Condition::Probe(ProbeTrouble::ShortedWires),
            Kind::ProbeBusError => Condition::Probe(ProbeTrouble::BusError),
            Kind::ProbeDataLow => Condition::Probe(ProbeTrouble::DataLow),
            Kind::ProbeDataHigh => Condition::Probe(ProbeTrouble::DataHigh),
            Kind::ProbeFrozen => Condition::Probe(ProbeTrouble::Frozen),
        };
        self.holding.push((now + lasts, condition));
    }

    fn holds(&self, condition: Condition) -> bool {
        self.holding.iter().any(|(_, held)| *held == condition)
    }

    pub(super) fn link_up(&self) -> bool {
        !self.holds(Condition::CablePulled)
    }

    /// Whether the power is to go with one of the next things written.
    pub(super) const fn awaits_cut_in_write(&self) -> bool {
        self.cut_in_write.is_some()
    }

    /// The power goes with something that is being written.
    pub(super) fn cut_in_write(&mut self, now: f64) {
        if let Some(lasts) = self.cut_in_write.take() {
            self.holding.push((now + lasts, Condition::PowerCut));
        }
    }

    pub(super) fn powered(&self) -> bool {
        !self.holds(Condition::PowerCut)
    }

    /// The latest trouble of the bridge converter that holds.
    pub(super) fn bridge(&self) -> BridgeTrouble {
        self.holding
            .iter()
            .rev()
            .find_map(|(_, held)| match held {
                Condition::Bridge(trouble) => Some(*trouble),
                _ => None,
            })
            .unwrap_or_default()
    }

    /// The latest trouble of the probe that holds.
    pub(super) fn probe(&self) -> ProbeTrouble {
        self.holding
            .iter()
            .rev()
            .find_map(|(_, held)| match held {
                Condition::Probe(trouble) => Some(*trouble),
                _ => None,
            })
            .unwrap_or_default()
    }
}
