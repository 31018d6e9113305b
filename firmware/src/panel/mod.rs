//! Working without a desktop: buttons or a knob to choose the target, lamps and
//! buzzer ([`crate::signals`]), and a small display.
//!
//! | hand | does |
//! | --- | --- |
//! | *more*, *less* (a knob: a click either way) | changes the target; held, it goes on changing |
//! | both, pressed together and let go (a knob: pressed) | between runs: into dishes, or out of a tin |
//! | both, held for most of a second (a knob: held) | begins a run; within one, ends it |
//!
//! Within a run that a desktop began the target is the desktop's; only ending
//! the run is left to the hand, for when the desktop is gone for good.
//!
//! Portions of a run begun here wait in the outbox until a desktop is there.
//! Those made before anybody told the time are dated then, by how long ago they
//! were; the desktop files them under no dish until somebody says which it was.

mod button;
mod keys;
mod knob;
#[cfg(feature = "panel")]
mod screen;

pub use button::Button;
pub use keys::{Key, Keys};
pub use knob::Knob;
#[cfg(feature = "panel")]
pub use screen::{Frame, Screen, Shown};

use crate::instrument::Instrument;
use evenhand_protocol::{Goal, Mass, Mode, Tolerance, Uptime};

/// The target before anybody chose one.
const FIRST_TARGET: Mass = Mass::from_grams(30);

/// Does what the keys ask of an instrument.
#[derive(Debug, Clone, Default)]
pub struct Panel;

impl Panel {
    /// A panel.
    #[must_use]
    pub const fn new() -> Self {
        Self
    }

    /// The goal that the next run of one's own has.
    #[must_use]
    pub fn goal<const PLACES: usize>(instrument: &Instrument<PLACES>) -> Option<Goal> {
        instrument.remembered().goal.or_else(first_goal)
    }

    /// Does what a key asks. What cannot be done is not; the buzzer says so.
    pub fn press<const PLACES: usize>(
        &mut self,
        now: Uptime,
        instrument: &mut Instrument<PLACES>,
        key: Key,
    ) {
        let done = match key {
            Key::More => self.change(now, instrument, 1),
            Key::Less => self.change(now, instrument, -1),
            Key::Both => {
                let mode = match instrument.remembered().mode {
                    Mode::Adding => Mode::Taking,
                    Mode::Taking => Mode::Adding,
                };
                instrument.set_own_mode(mode)
            }
            Key::BothHeld if instrument.reading(now).run.is_some() => {
                instrument.end_own_run(now);
                true
            }
            Key::BothHeld => {
                Self::goal(instrument).is_some_and(|goal| instrument.start_own_run(now, goal))
            }
        };
        if !done {
            instrument.attention(now);
        }
    }

    fn change<const PLACES: usize>(
        &self,
        now: Uptime,
        instrument: &mut Instrument<PLACES>,
        by: i64,
    ) -> bool {
        let Some(goal) = Self::goal(instrument) else {
            return false;
        };
        next_goal(goal, by).is_some_and(|goal| instrument.set_own_goal(now, goal))
    }
}

fn first_goal() -> Option<Goal> {
    Goal::new(FIRST_TARGET, tolerance_for(FIRST_TARGET)).ok()
}

/// A thirtieth of the target, to half a gram, and half a gram at least.
fn tolerance_for(target: Mass) -> Tolerance {
    let half = Mass::from_milligrams(500);
    let part = target.fraction(1, 30).unwrap_or(half);
    Tolerance::symmetric(part.rounded_to(half).max(half))
}

/// The target a step on or back. A tolerance that somebody set stays as long as
/// the target is above it.
fn next_goal(goal: Goal, by: i64) -> Option<Goal> {
    let target = goal.target();
    // The step of the range that the target comes from.
    let from = if by < 0 {
        target - Mass::from_micrograms(1)
    } else {
        target
    };
    let step = step(from);
    let rounded = target.rounded_to(step);
    // One that lies between two steps goes to the next in that direction.
    let next = match (by < 0, rounded < target, rounded > target) {
        (true, true, _) | (false, _, true) => rounded,
        _ => rounded + step.times(by.signum()),
    };
    if next < Mass::from_grams(1) {
        return None;
    }
    Goal::new(next, goal.tolerance())
        .or_else(|_| Goal::new(next, tolerance_for(next)))
        .ok()
}

/// Half a gram for shrimp, five for a joint.
fn step(target: Mass) -> Mass {
    if target < Mass::from_grams(50) {
        Mass::from_milligrams(500)
    } else if target < Mass::from_grams(200) {
        Mass::from_grams(1)
    } else if target < Mass::from_grams(1_000) {
        Mass::from_grams(5)
    } else {
        Mass::from_grams(10)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn goal(milligrams: i64) -> Goal {
        let one = Tolerance::symmetric(Mass::from_grams(1));
        Goal::new(Mass::from_milligrams(milligrams), one).unwrap()
    }

    #[test]
    fn a_target_goes_up_and_down_by_the_step_of_its_size() {
        for (from, up, down) in [
            (30_000, 30_500, 29_500),
            (49_500, 50_000, 49_000),
            (50_000, 51_000, 49_500),
            (200_000, 205_000, 199_000),
            (1_000_000, 1_010_000, 995_000),
            // Set by a desktop, between two steps.
            (30_200, 30_500, 30_000),
        ] {
            let next = |by| next_goal(goal(from), by).unwrap().target();
            assert_eq!(next(1), Mass::from_milligrams(up), "{from} up");
            assert_eq!(next(-1), Mass::from_milligrams(down), "{from} down");
        }
    }

    #[test]
    fn a_target_never_falls_to_nothing_and_a_tolerance_never_swallows_it() {
        let mut goal = goal(3_000);
        while let Some(next) = next_goal(goal, -1) {
            goal = next;
            assert!(goal.lightest() > Mass::ZERO);
        }
        assert_eq!(goal.target(), Mass::from_grams(1));
        assert_eq!(
            goal.tolerance(),
            Tolerance::symmetric(Mass::from_milligrams(500))
        );
    }
}
