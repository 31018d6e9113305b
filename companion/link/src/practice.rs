//! The hand at the practice bench.

use evenhand_simulator::practice::{Flow, HandMove, Vessel};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// What the hand has done so far, as whoever told it knows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Table {
    /// What stands on the pan.
    pub vessel: Option<Vessel>,
    /// The spoon lies in it.
    pub spoon: bool,
    /// It pours.
    pub pours: Option<Flow>,
    /// The probe is in hot food.
    pub probe_in: bool,
    /// Something was poured or spilled since the pan was empty.
    pub food: bool,
}

impl Table {
    /// Whether something lies on the pan.
    #[must_use]
    pub const fn holds_something(&self) -> bool {
        self.vessel.is_some() || self.spoon || self.food
    }

    /// Whether the hand can do this now.
    #[must_use]
    pub fn allows(&self, hand_move: HandMove) -> bool {
        match hand_move {
            HandMove::PutOn(_) => !self.holds_something(),
            HandMove::Pour(_) | HandMove::Spill => self.vessel.is_some(),
            HandMove::StopPouring => self.pours.is_some(),
            HandMove::SpoonOut => !self.spoon && (self.food || self.vessel == Some(Vessel::Tin)),
            HandMove::LiftOff => self.holds_something(),
            HandMove::LeaveSpoon => !self.spoon && self.vessel.is_some(),
            HandMove::TakeSpoon => self.spoon,
            HandMove::ProbeIn => !self.probe_in,
            HandMove::ProbeOut => self.probe_in,
        }
    }

    const fn after(mut self, hand_move: HandMove) -> Self {
        match hand_move {
            HandMove::PutOn(vessel) => self.vessel = Some(vessel),
            HandMove::Pour(flow) => {
                self.pours = Some(flow);
                self.food = true;
            }
            HandMove::StopPouring => self.pours = None,
            HandMove::SpoonOut => {}
            HandMove::Spill => self.food = true,
            HandMove::LiftOff => {
                self = Self {
                    vessel: None,
                    spoon: false,
                    pours: None,
                    food: false,
                    ..self
                }
            }
            HandMove::LeaveSpoon => self.spoon = true,
            HandMove::TakeSpoon => self.spoon = false,
            HandMove::ProbeIn => self.probe_in = true,
            HandMove::ProbeOut => self.probe_in = false,
        }
        self
    }
}

#[derive(Debug, Default)]
struct Told {
    table: Table,
    waiting: VecDeque<HandMove>,
}

/// A hand that puts on, pours, spills and lifts at the practice bench. Every clone is the
/// same hand.
#[derive(Debug, Clone, Default)]
pub struct PracticeHand(Arc<Mutex<Told>>);

impl PracticeHand {
    fn told(&self) -> MutexGuard<'_, Told> {
        // Only whole values are ever put in, so a poisoned lock loses nothing.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Does this; `false` where it cannot be done now, and nothing happens.
    pub fn act(&self, hand_move: HandMove) -> bool {
        let mut told = self.told();
        let can = told.table.allows(hand_move);
        if can {
            told.table = told.table.after(hand_move);
            told.waiting.push_back(hand_move);
        }
        can
    }

    /// What it has done so far.
    #[must_use]
    pub fn table(&self) -> Table {
        self.told().table
    }

    /// What it was told since the last call.
    pub(super) fn take(&self) -> VecDeque<HandMove> {
        std::mem::take(&mut self.told().waiting)
    }

    /// It begins anew, with an empty pan.
    pub(super) fn forget(&self) {
        *self.told() = Told::default();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_done_is_not_done() {
        let hand = PracticeHand::default();
        assert!(!hand.act(HandMove::LiftOff));
        assert!(!hand.act(HandMove::Pour(Flow::Fast)));
        assert!(hand.act(HandMove::PutOn(Vessel::Bowl)));
        assert!(!hand.act(HandMove::PutOn(Vessel::Dish)));
        assert!(!hand.act(HandMove::SpoonOut), "the bowl is empty");
        assert!(hand.act(HandMove::Pour(Flow::Slow)));
        assert!(hand.act(HandMove::StopPouring));
        assert!(hand.act(HandMove::LeaveSpoon));
        assert!(!hand.act(HandMove::SpoonOut), "the spoon lies in it");
        assert!(hand.act(HandMove::LiftOff));
        assert_eq!(hand.table(), Table::default());
        assert_eq!(hand.take().len(), 5);
        assert!(hand.take().is_empty());
    }
}
