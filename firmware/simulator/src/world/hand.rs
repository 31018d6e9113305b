//! A person's hand at a practice bench.

use super::force::Force;
use super::pan::Pan;
use super::probe::Probe;
use crate::practice::{Flow, HOT_CELSIUS, HandMove, SPILL, SPOON, SPOONFUL, Vessel};
use crate::random::{Draws, Stream};
use evenhand_protocol::Mass;
use std::collections::VecDeque;

/// From one drop of what is poured to the next, in seconds.
const DROP_SECONDS: f64 = 0.05;

/// The hand, with what it still has to do.
#[derive(Debug)]
pub(super) struct HandWork {
    waiting: VecDeque<HandMove>,
    free_at: f64,
    pours: Option<Flow>,
    next_drop: f64,
    /// What lies on the pan by this hand, and how much of it is food.
    on: Mass,
    food: Mass,
    draws: Draws,
}

impl HandWork {
    pub(super) fn new(seed: u64) -> Self {
        Self {
            waiting: VecDeque::new(),
            free_at: 0.0,
            pours: None,
            next_drop: 0.0,
            on: Mass::ZERO,
            food: Mass::ZERO,
            draws: Draws::new(seed, Stream::Practice),
        }
    }

    /// Does this as soon as it has done what it was told before.
    pub(super) fn will(&mut self, hand_move: HandMove) {
        self.waiting.push_back(hand_move);
    }

    /// Does what is due.
    pub(super) fn work(&mut self, now: f64, pan: &mut Pan, probe: &mut Probe) {
        while now >= self.free_at
            && let Some(hand_move) = self.waiting.pop_front()
        {
            self.free_at = now + self.begin(hand_move, now, pan, probe);
        }
        if let Some(flow) = self.pours
            && now >= self.next_drop
        {
            self.next_drop = now + DROP_SECONDS;
            let grams = flow.grams_a_second() * DROP_SECONDS * self.draws.between(0.7, 1.3);
            self.add_food(
                now,
                0.06,
                Mass::from_fractional_grams(grams).unwrap_or(Mass::ZERO),
                pan,
            );
        }
    }

    /// Begins it; how long it takes, in seconds. What cannot be done takes no time.
    fn begin(&mut self, hand_move: HandMove, now: f64, pan: &mut Pan, probe: &mut Probe) -> f64 {
        match hand_move {
            HandMove::PutOn(vessel) => self.put_on(vessel, now, pan),
            HandMove::Pour(flow) => {
                self.pours = Some(flow);
                self.next_drop = now;
                0.0
            }
            HandMove::StopPouring => {
                self.pours = None;
                0.0
            }
            HandMove::SpoonOut => self.spoon_out(now, pan),
            HandMove::Spill => {
                pan.press(Force::knock(now, 0.15, SPILL.grams() * 2.0));
                self.add_food(now, 0.2, SPILL, pan);
                0.3
            }
            HandMove::LiftOff => {
                self.pours = None;
                self.press(now, 0.3, 60.0, pan);
                pan.put(now + 0.2, 0.2, -self.on);
                (self.on, self.food) = (Mass::ZERO, Mass::ZERO);
                0.5
            }
            HandMove::LeaveSpoon => self.lay(SPOON, now, pan),
            HandMove::TakeSpoon => self.lay(-SPOON, now, pan),
            HandMove::ProbeIn => {
                probe.put_into(Some(HOT_CELSIUS));
                0.0
            }
            HandMove::ProbeOut => {
                probe.put_into(None);
                0.0
            }
        }
    }

    /// Something is set down, with the hand still on it for a moment.
    fn put_on(&mut self, vessel: Vessel, now: f64, pan: &mut Pan) -> f64 {
        let whole = vessel.empty() + vessel.filled();
        pan.off_centre = self.draws.between(-0.5, 0.5);
        pan.press(Force::knock(now, 0.08, 0.4 * whole.grams()));
        self.press(now, 0.35, 50.0, pan);
        pan.put(now, 0.15, whole);
        self.on += whole;
        self.food += vessel.filled();
        0.4
    }

    /// A spoon goes down, drags, and lifts some food out.
    fn spoon_out(&mut self, now: f64, pan: &mut Pan) -> f64 {
        let share = self.draws.between(0.9, 1.1);
        let taken = Mass::from_fractional_grams(SPOONFUL.grams() * share)
            .unwrap_or(SPOONFUL)
            .min(self.food);
        self.press(now, 0.9, 120.0, pan);
        pan.put(now + 0.8, 0.25, -taken);
        self.on -= taken;
        self.food -= taken;
        1.2
    }

    fn lay(&mut self, spoon: Mass, now: f64, pan: &mut Pan) -> f64 {
        pan.press(Force::knock(now, 0.1, 25.0));
        pan.put(now, 0.12, spoon);
        self.on += spoon;
        0.2
    }

    fn add_food(&mut self, now: f64, over: f64, food: Mass, pan: &mut Pan) {
        pan.put(now, over, food);
        self.on += food;
        self.food += food;
    }

    fn press(&mut self, now: f64, lasts: f64, grams: f64, pan: &mut Pan) {
        pan.press(Force::press(now, lasts, grams, 0.25, &mut self.draws));
    }
}
