//! Adding: a dish goes on empty, food is added, the dish is lifted off.
//!
//! | what happens | what is made of it |
//! | --- | --- |
//! | a dish goes on and is steady | it is tared |
//! | food goes in, is steady | the content is what a lift would capture |
//! | the dish is lifted | the content is captured, once |
//! | a hand leans, a bump, a spoon pushes | nothing: only equilibria count, and the load comes back to what it was |
//! | a hand rests steady and leaves | the content follows it up and down again |
//! | a hand rests steady while the dish is tared | the dish is tared anew when it leaves |
//! | food is spooned out again | the content follows |
//! | food dribbles in | the content follows; the tare does not |
//! | the lift wobbles: off and back within a moment | nothing; the same dish goes on |
//! | the dish is filled before it is steady | tared at where it lay level for a moment; the portion is doubted |
//! | the dish is lifted before what was added is steady | counted by where it lay level for a moment, doubted; without such a moment not counted, with a notice; set down again soon, it goes on with its own tare |
//! | a hand rests steady, leaves, and the dish is lifted at once | counted by what it weighed before the hand, doubted |
//! | the load changes by a little with no knock, as under an apron | the content follows; until it changes back, and for a while after what was certainly no food, portions are doubted |
//! | the empty pan changes by itself, toward zero | something touched it: the portion before is doubted |
//! | the next dish stands there before the pan was at rest | the one before is captured, and the next tared where it lies level for a moment |
//! | something light lies there, and then much more at once | the light thing was no dish: what stands there now is |
//! | a dish of just what a counted one could weigh with less in it comes and is lifted empty | that one's portion is doubted: some of it may be gone |
//! | it is lifted with nothing in it (less than a tenth of the target) | not counted, with a notice |
//! | a counted dish is set down again within a minute | it is recognised by its weight; lifted unchanged it counts nothing, lifted changed it corrects its portion |
//! | such a dish gets half a target or more on top, and too much for one portion | it was another dish of just that weight: tared at what it weighed |
//! | such a dish is emptied and lifted | its portion is undone: the next one replaces it |
//! | dishes are swapped and the pan never reads zero | the first is captured when the second is steady |
//! | they are swapped under a hand that leans on the pan | a portion that is within a quarter of the target and then lighter by two fifths was lifted, not emptied |
//! | the next dish is set beside a full one, then that one is lifted | captured without the newcomer, which is tared |
//! | a splash beside the dish stays on the pan | taken off the portion, because it is not in the dish; where the pan was not at rest in time, by a correction |
//! | food goes into a dish before it is tared | tared at its true mass if this run's last three dishes weighed the same and the load was seen to rest at that mass first; otherwise it cannot be told from a heavier dish |
//! | the power comes back within a run, with something on the pan | neither dish nor portion, with a notice, until it is off the pan: nobody knows how much of it is food |
//! | weighing is interrupted | the same dish goes on if its weight says so; lifted meanwhile, it is counted if it was steady on target before and the interruption was short, otherwise not, with a notice |

use super::level::{Held, Level};
use super::settings::{PortionSettings, Shares};
use super::touch::Touch;
use super::{CAREFUL, Draft, Event, Events, give, tell};
use crate::signal::Weight;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{Goal, Mass, Notice, Phase, Uptime, Verdict};

/// A counted dish is known again for so long after it was lifted.
const RETURN_MS: u64 = 60_000;
/// A dish that was lifted unsettled is known again for so long.
const RESUME_MS: u64 = 15_000;
/// Off the pan for less is a wobble of the lift, not a lift.
const WOBBLE_MS: u64 = 600;
/// The portion of a lifted dish waits for a steady pan at most so long.
const STEADY_PAN_MS: u64 = 1_200;
/// A dish must seem gone for so long: what drops into it makes the pan
/// rebound, for less.
const GONE_MS: u64 = 50;
/// The same where it need not fall by [`LIGHT`] for that: bumps reach as far,
/// for a quarter of a second.
const LIGHT_GONE_MS: u64 = 200;
/// See [`LIGHT_GONE_MS`].
const LIGHT: Mass = Mass::from_grams(25);
/// A pan that comes to rest within so long of a lift still tells of a splash.
const LATE_REST_MS: u64 = 15_000;
/// An empty pan is taken to be as it was for so long; after that its own
/// creep may pass for a splash.
const PAN_KNOWN_MS: u64 = 60_000;
/// A pan that lay still for so long is known well enough to tell a splash by,
/// even where it is not called stable.
const CALM_MS: u64 = 250;
/// See [`CALM_MS`].
const CALM: Mass = Mass::from_milligrams(100);
/// A load that stayed above a content that was not right for so long before
/// the lift was food being put in, not a hand that grips the rim.
const FOOD_NOT_GRIP_MS: u64 = 800;
/// A load that lay flat at another content for so long before the lift was
/// food that came or went and had not settled. A hand that grips the rim lies
/// flat for less.
const FLAT_MS: u64 = 400;
/// The same where the other content is right and the one before was not.
const FLAT_RIGHT_MS: u64 = 250;
/// The same where the dish was empty before.
const FLAT_FIRST_MS: u64 = 100;
/// Less unevenness than this is flat.
const FLAT: Mass = Mass::from_milligrams(600);
/// More than two targets in a dish are a hand at rest on it unless they stay
/// for so long.
const HAND_AT_MOST_MS: u64 = 10_000;
/// An interruption of no more is none: nobody can change a dish in it.
const BLINK_MS: u64 = 300;
/// A hand that happens to rest like a portion is gone after so long.
const HAND_REST_MS: u64 = 3_000;
/// How long an interruption may last for the dish on the pan to go on being
/// the same dish with more in it.
const SAME_DISH_MS: u64 = 5_000;
/// A dish that was on target and left in an interruption of no more than this
/// left as it was.
const KNOWN_CONTENT_MS: u64 = 10_000;
/// A load that rests at a known dish's mass for so long is that dish.
const KNOWN_DISH_MS: u64 = 150;
/// The content follows a steady load at most so fast a second: faster than any
/// dribble that can pass for steady, slower than a lift.
const CONTENT_RATE: Mass = Mass::from_grams(1);
/// The tare follows the first better estimates of itself by so much and no
/// more, so that it never eats a dribble.
const TARE_REFINEMENT: Mass = Mass::from_milligrams(50);
/// A portion may have been touched by what touches the pan so much later.
const TOUCHED_BEFORE_MS: u64 = 20_000;
/// No splash leaves more than this on the pan.
const SPLASH: Mass = Mass::from_milligrams(600);
/// What was weighed in a moment of calm may be out by so much more.
const HASTY: Mass = Mass::from_milligrams(100);
/// A dish that is set down has a hand on it, and may look level for a moment until so
/// long after.
const STANDS_MS: u64 = 300;
/// A load that is not yet steady and rises by so much gets food.
const MUCH_MORE: Mass = Mass::from_grams(1);
/// A pan within this of zero is clean.
const CLEAN: Mass = Mass::from_milligrams(500);
/// The lightest dish, of paper.
const PAPER: Mass = Mass::from_milligrams(800);
/// What is lighter may be no dish but a cloth, a crumb, an apron.
const LIGHT_DISH: Mass = Mass::from_grams(15);
/// How many dishes of one mass make that mass known.
const KNOWN_DISHES: usize = 3;

/// A portion that was counted, by its dish.
#[derive(Debug, Clone, Copy)]
struct Counted {
    number: Option<u32>,
    tare: Level,
    net: Mass,
    gross: Mass,
    uncertainty: Mass,
    /// How far something pressed beyond every load before it.
    pressed: Mass,
    doubts: Doubts,
    at: Uptime,
}

impl Counted {
    fn zeroed(&mut self, shift: Mass) {
        self.tare.gross -= shift;
        self.gross -= shift;
    }
}

/// Where an unsteady load lay flat for a moment.
#[derive(Debug, Clone, Copy)]
struct Flat {
    held: Held,
    reference: Mass,
    /// The last load that lay flat for at least [`FLAT_FIRST_MS`].
    last: Option<Mass>,
    longest_ms: u64,
}

impl Flat {
    const NEVER: Self = Self {
        held: Held::NEVER,
        reference: Mass::ZERO,
        last: None,
        longest_ms: 0,
    };

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn update(&mut self, counts: bool, gross: Mass, at: Uptime) {
        if !counts || (gross - self.reference).abs() > FLAT {
            self.held = Held::NEVER;
            self.reference = gross;
        }
        let held_ms = self.held.update(counts, at);
        self.longest_ms = self.longest_ms.max(held_ms);
        if held_ms >= FLAT_FIRST_MS {
            self.last = Some(gross);
        }
    }
}

/// A dish on the pan.
#[derive(Debug, Clone, Copy)]
struct Dish {
    tare: Level,
    /// The tare as first taken.
    first_tare: Mass,
    /// The newest equilibrium with this dish.
    level: Level,
    /// The equilibrium before that one.
    previous: Mass,
    /// The most that was on the pan since it was tared.
    highest: Mass,
    /// Food went in or out since it was tared.
    touched: bool,
    /// Its tare was never seen steady.
    hasty: bool,
    /// Where it lay level for a moment since it was last steady, as far as a standard
    /// uncertainty of so much.
    calm: Option<Mass>,
    calm_noise: Mass,
    /// The portion that was counted from it, with its level when it came back.
    returned: Option<(Counted, Level)>,
    returned_told: bool,
    above: Held,
    gone: Held,
    /// The longest time above the content since the last equilibrium.
    above_ms: u64,
    flat: Flat,
    /// How long the content has been more than two targets.
    too_much: Held,
    /// How far the load has been from the content before it was last steady.
    astray: Mass,
    going_astray: Mass,
    /// Whether the newest weight was an equilibrium.
    steady: bool,
}

impl Dish {
    const fn new(level: Level) -> Self {
        Self {
            tare: level,
            first_tare: level.gross,
            level,
            previous: level.gross,
            highest: level.gross,
            touched: false,
            hasty: false,
            calm: None,
            calm_noise: Mass::ZERO,
            returned: None,
            returned_told: true,
            above: Held::NEVER,
            gone: Held::NEVER,
            above_ms: 0,
            flat: Flat::NEVER,
            too_much: Held::NEVER,
            astray: Mass::ZERO,
            going_astray: Mass::ZERO,
            steady: true,
        }
    }

    /// It has been filled before, and weighs this when empty.
    fn is_known(&mut self, tare: Level) {
        self.tare = tare;
        self.first_tare = tare.gross;
        self.touched = true;
    }

    fn net(&self) -> Mass {
        self.level.gross - self.tare.gross
    }

    /// Whether something was added or taken out that had not come to rest.
    // Out of line: 52 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn is_unsettled(&self, goal: &Goal) -> bool {
        let net = self.net();
        let right = goal.judge(net) == Verdict::On;
        let flat_net = self.flat.last.map(|gross| gross - self.tare.gross);
        let flat_at_most = match flat_net {
            Some(other) if net < goal.tenth() && other >= goal.half() => FLAT_FIRST_MS,
            Some(other) if !right && goal.judge(other) == Verdict::On => FLAT_RIGHT_MS,
            _ => FLAT_MS,
        };
        self.flat.longest_ms >= flat_at_most || (!right && self.above_ms >= FOOD_NOT_GRIP_MS)
    }

    /// Whether there was something in it for a moment only.
    fn was_only_glimpsed(&self, goal: &Goal) -> bool {
        self.net() < goal.tenth()
            && self
                .calm
                .is_some_and(|calm| calm - self.tare.gross >= goal.half())
    }

    fn zeroed(&mut self, shift: Mass) {
        self.tare.gross -= shift;
        self.first_tare -= shift;
        self.level.gross -= shift;
        self.highest -= shift;
        self.previous -= shift;
        if let Some((counted, came_back)) = &mut self.returned {
            counted.zeroed(shift);
            came_back.gross -= shift;
        }
        for last in [&mut self.flat.last, &mut self.calm].into_iter().flatten() {
            *last -= shift;
        }
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn forget_unrest(&mut self) {
        self.above = Held::NEVER;
        self.gone = Held::NEVER;
        self.above_ms = 0;
        self.flat = Flat::NEVER;
        self.calm = None;
        if self.going_astray > Mass::ZERO {
            self.astray = core::mem::take(&mut self.going_astray);
        }
    }
}

/// When a dish that seems lifted was first and last seen gone.
#[derive(Debug, Clone, Copy)]
struct Absence {
    first: Uptime,
    last: Uptime,
    still: Held,
    reference: Mass,
    /// Where the pan lay still without it.
    calm: Option<Mass>,
}

impl Absence {
    const fn new(first: Uptime, reference: Mass) -> Self {
        Self {
            first,
            last: first,
            still: Held::NEVER,
            reference,
            calm: None,
        }
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn update(&mut self, weight: &Weight) {
        self.last = weight.at;
        if (weight.gross - self.reference).abs() > CALM {
            self.still = Held::NEVER;
            self.reference = weight.gross;
        }
        // Nothing that was only glimpsed.
        let quiet = weight.noise.times(4) <= CALM;
        if weight.stable || self.still.update(quiet, weight.at) >= CALM_MS {
            self.calm = Some(weight.gross);
        }
    }
}

/// An interruption.
#[derive(Debug, Clone, Copy)]
struct Gap {
    from: Uptime,
    /// When the first weight came after it.
    to: Option<Uptime>,
}

/// What a portion still owes to a splash: it was lifted off a pan that was not
/// at rest after it.
#[derive(Debug, Clone, Copy)]
struct Owed {
    lifted: Uptime,
    uncertainty: Mass,
}

/// A dish that was lifted before what was added to it was steady.
#[derive(Debug, Clone, Copy)]
struct Lifted {
    tare: Level,
    /// Where it lay flat last.
    last: Option<Mass>,
    returned: Option<(Counted, Level)>,
    at: Uptime,
}

/// Where the dish is. One machine has one dish, which stays where it is in
/// memory: moving it about with the state would take most of the code.
#[derive(Debug, Clone, Copy)]
enum State {
    Await,
    /// The power came back: what is on the pan, if anything, is not known.
    Found {
        /// The cook was told that something is.
        told: bool,
    },
    Settling,
    Filling,
    /// It seems lifted.
    Leaving,
    /// Weighing was interrupted with the dish on the pan.
    Blind,
    /// The same while it was leaving the pan.
    BlindLeaving,
}

/// The machine for filling dishes.
#[derive(Debug, Clone)]
// In this order of fields: 212 bytes less of the emulated board's flash.
#[repr(C)]
pub struct Adding {
    goal: Goal,
    settings: PortionSettings,
    state: State,
    /// Means something while the dish is leaving.
    absence: Absence,
    /// Means something while weighing is interrupted.
    gap: Gap,
    /// The empty pan, and when it was last seen.
    pan: Mass,
    pan_at: Option<Uptime>,
    /// It was seen at rest since the last dish left it.
    pan_seen: bool,
    /// Something light that lay there when the dish came.
    under: Mass,
    owed: Option<Owed>,
    /// The number of a portion that the next one replaces.
    undone: Option<u32>,
    /// This run's latest dishes.
    dishes: [Mass; KNOWN_DISHES],
    dish_count: usize,
    at_known: Held,
    was_at_known: bool,
    /// A load that is not yet a dish: how long it has been there, and where it lay level
    /// for a moment.
    standing: Held,
    coming: Option<Level>,
    /// What touches the pan, by how the load changed with no knock.
    touch: Touch,
    /// How far the load on the empty pan has been from it since it was at rest.
    pan_astray: Mass,
    /// The portion before the dish that was tared last.
    before: Option<Counted>,
    amount: Option<Mass>,
    /// The dish on the pan; means nothing while none is known.
    dish: Dish,
    counted: Option<Counted>,
    /// A dish that was lifted unsettled.
    unsettled: Option<Lifted>,
}

impl Adding {
    /// A machine for a run that begins. What is on the pan by then is taken
    /// for an empty dish.
    #[must_use]
    pub const fn new(goal: Goal, settings: PortionSettings) -> Self {
        Self {
            goal,
            settings,
            state: State::Await,
            dish: Dish::new(Level::NONE),
            absence: Absence::new(Level::NONE.since, Mass::ZERO),
            gap: Gap {
                from: Level::NONE.since,
                to: None,
            },
            pan: Mass::ZERO,
            pan_at: None,
            pan_seen: false,
            under: Mass::ZERO,
            counted: None,
            owed: None,
            unsettled: None,
            undone: None,
            dishes: [Mass::ZERO; KNOWN_DISHES],
            dish_count: 0,
            at_known: Held::NEVER,
            was_at_known: false,
            standing: Held::NEVER,
            coming: None,
            touch: Touch::NONE,
            pan_astray: Mass::ZERO,
            before: None,
            amount: None,
        }
    }

    /// A machine for a run that was going on when the power went. What is on
    /// the pan by then may have food in it already, so it is no portion and no
    /// empty dish.
    #[must_use]
    pub const fn resumed(goal: Goal, settings: PortionSettings) -> Self {
        let mut machine = Self::new(goal, settings);
        machine.state = State::Found { told: false };
        machine
    }

    /// Takes the next weight.
    pub fn take(&mut self, weight: &Weight) -> Events {
        let mut events = Events::new();
        match self.state {
            State::Await | State::Settling => self.await_dish(weight, &mut events),
            State::Found { told } => self.await_empty_pan(told, weight, &mut events),
            State::Filling => self.fill(weight, &mut events),
            State::Leaving => self.leave(weight, &mut events),
            State::Blind => self.see_again(weight, &mut events),
            // It was off the pan before; what was in it then was known.
            State::BlindLeaving => self.leave(weight, &mut events),
        }
        self.tell_return(&mut events);
        self.amount = None;
        if let State::Filling = self.state {
            let tare = self.dish.tare.gross;
            let net = weight.gross - tare;
            self.amount = (net >= -self.placement(tare)).then_some(net);
        }
        events
    }

    /// Says which portion came back, once its number is known: one that was
    /// captured with this very weight has none yet.
    fn tell_return(&mut self, events: &mut Events) {
        if let State::Filling = self.state
            && !self.dish.returned_told
            && let Some((counted, _)) = &self.dish.returned
            && let Some(number) = counted.number
        {
            self.dish.returned_told = true;
            tell(events, Notice::DishReturned(number));
        }
    }

    /// Waits until what the power cut left on the pan is gone.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn await_empty_pan(&mut self, told: bool, weight: &Weight, events: &mut Events) {
        let load = weight.gross - self.pan;
        let empty = load < self.lightest();
        let empty_ms = self.dish.gone.update(empty, weight.at);
        if empty && (weight.stable || empty_ms >= LIGHT_GONE_MS) {
            self.dish.gone = Held::NEVER;
            self.await_dish(weight, events);
        } else if weight.stable && !told {
            self.state = State::Found { told: true };
            tell(events, Notice::FoundOnPan(load));
        }
    }

    /// Nothing counted is on the pan: looks out for a dish.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn await_dish(&mut self, weight: &Weight, events: &mut Events) {
        let load = weight.gross - self.pan;
        let mut stands_ms = 0;
        if CAREFUL {
            stands_ms = self.standing.update(load >= self.lightest(), weight.at);
            self.pan_astray = self.pan_astray.max(load.abs());
        }
        if load < self.lightest() {
            if CAREFUL && self.coming.take().is_some() && !matches!(self.state, State::Await) {
                // It stood there for a moment and is gone before it could be tared.
                tell(events, Notice::LiftedUnsettled);
            }
            self.state = State::Await;
            self.at_known = Held::NEVER;
            self.was_at_known = false;
            if weight.stable {
                if CAREFUL {
                    self.touch.forget_old(weight.at);
                }
                self.settle_debt(weight, events);
                if CAREFUL {
                    let astray = core::mem::take(&mut self.pan_astray);
                    if self.pan_seen && self.touch.came_by_itself(load, astray) {
                        self.touch_pan(load, weight.at, events);
                    }
                }
                // What pulls at an empty pan is no pan.
                self.pan = weight.gross.max(-CLEAN);
                self.pan_seen = self.pan <= CLEAN;
                self.under = Mass::ZERO;
                self.pan_at = Some(weight.at);
            }
            return;
        }
        self.state = State::Settling;
        let rests = self.known_dish().is_some_and(|known| {
            (load - known).abs() <= self.placement(known) + Mass::from_grams(1)
        });
        if self.at_known.update(rests, weight.at) >= KNOWN_DISH_MS {
            self.was_at_known = true;
        }
        if CAREFUL
            && (weight.stable || weight.calm)
            && let Some(coming) = self.coming
            && !self.was_at_known
            && self.was_filled(coming.gross, weight.gross)
        {
            // Food came before the dish was steady.
            self.arrive(&coming.as_weight(), events);
            self.dish.hasty = true;
            if weight.stable {
                self.settle(weight, events);
            } else {
                self.fill(weight, events);
            }
        } else if weight.stable {
            self.arrive(weight, events);
        } else if CAREFUL && weight.calm && stands_ms >= STANDS_MS {
            self.coming = Some(Level::of(weight));
        }
    }

    /// Whether a load that lay level at one mass and now does at another, and never
    /// was steady, is a dish that got food.
    fn was_filled(&self, before: Mass, now: Mass) -> bool {
        let more = now - before;
        more > MUCH_MORE.max(self.goal.tenth()) && more < self.goal.maybe_two()
    }

    /// The empty pan changed by itself. What touches it now, or did until now, may
    /// have touched the portion before.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn touch_pan(&mut self, change: Mass, at: Uptime, events: &mut Events) {
        let step = self.settings.step;
        if change.abs() <= step {
            return;
        }
        if self.touch.change(change, step, at) {
            self.touch.was_seen(at);
        }
        // What begins now has touched nothing before.
        if !events.is_empty() || (self.pan + change).abs() >= self.pan.abs() {
            return;
        }
        if let Some(counted) = &mut self.counted
            && counted.number.is_some()
            && !counted.doubts.contains(Doubts::TOUCHED)
            && at.since(counted.at) <= TOUCHED_BEFORE_MS
        {
            counted.doubts = counted.doubts.union(Doubts::TOUCHED);
            give(
                events,
                Event::Portion(Draft {
                    at: counted.at,
                    mass: counted.net,
                    replaces: counted.number,
                    doubts: counted.doubts,
                    uncertainty: counted.uncertainty,
                    pressed: counted.pressed,
                    left: None,
                }),
            );
        }
    }

    /// The pan is at rest at last after a lift: what lies on it was not in the
    /// dish, so the portion is corrected.
    fn settle_debt(&mut self, weight: &Weight, events: &mut Events) {
        let Some(owed) = self.owed.take() else { return };
        let residue = weight.gross - self.pan;
        let Some(counted) = &mut self.counted else {
            return;
        };
        if counted.number.is_none() {
            // Captured with this very weight, or not kept: there is nothing to correct.
            return;
        }
        let touched = CAREFUL && is_no_splash(residue);
        if weight.at.since(owed.lifted) > LATE_REST_MS
            || counted.at != owed.lifted
            || (residue <= self.settings.residue(counted.gross) && !touched)
        {
            return;
        }
        if touched {
            counted.doubts = counted.doubts.union(Doubts::TOUCHED);
            self.touch.was_seen(weight.at);
        }
        if residue > Mass::ZERO {
            counted.tare.gross += residue;
            counted.net -= residue;
        }
        give(
            events,
            Event::Portion(Draft {
                at: counted.at,
                mass: counted.net,
                replaces: counted.number,
                doubts: counted.doubts,
                uncertainty: owed.uncertainty,
                pressed: counted.pressed,
                left: None,
            }),
        );
    }

    /// A load is steady that was not on the pan before.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn arrive(&mut self, weight: &Weight, events: &mut Events) {
        self.owed = None;
        self.coming = None;
        let load = weight.gross - self.pan;
        let was_at_known = core::mem::take(&mut self.was_at_known);
        self.at_known = Held::NEVER;
        if let Some(counted) = self.counted
            && weight.at.since(counted.at) <= RETURN_MS
            && (weight.gross - counted.gross).abs() <= self.placement(weight.gross)
        {
            self.set_down(weight);
            self.dish.is_known(counted.tare);
            self.dish.returned = Some((counted, self.dish.level));
            self.dish.returned_told = false;
            return;
        }
        if let Some(lifted) = self.unsettled.take()
            && weight.at.since(lifted.at) <= RESUME_MS
            && match lifted.last {
                Some(last) => (weight.gross - last).abs() <= self.placement(last) + FLAT,
                None => self.goal.may_be_one(weight.gross - lifted.tare.gross),
            }
        {
            self.set_down(weight);
            self.dish.is_known(lifted.tare);
            self.dish.returned = lifted.returned;
            return;
        }
        if was_at_known
            && let Some(known) = self.known_dish()
            && load - known > self.goal.tenth()
            && load - known < self.goal.maybe_two()
        {
            self.set_down(weight);
            let mut tare = self.dish.level;
            tare.move_to(self.pan + known);
            self.dish.is_known(tare);
            self.counted = None;
            tell(events, Notice::DishTared(known));
            return;
        }
        self.tare_at(weight, events);
    }

    /// A dish of which nothing is known stands on the pan.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn set_down(&mut self, weight: &Weight) {
        self.dish = Dish::new(Level::of(weight));
        self.state = State::Filling;
    }

    /// Takes what is on the pan as an empty dish.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn tare_at(&mut self, weight: &Weight, events: &mut Events) {
        let load = weight.gross - self.pan;
        self.before = self.counted.take();
        self.unsettled = None;
        let [_, second, third] = self.dishes;
        self.dishes = [second, third, load];
        self.dish_count = self.dish_count.saturating_add(1).min(KNOWN_DISHES);
        self.set_down(weight);
        tell(events, Notice::DishTared(load));
    }

    /// The mass of this run's dishes, where the last three agree.
    fn known_dish(&self) -> Option<Mass> {
        if self.dish_count < KNOWN_DISHES {
            return None;
        }
        let least = self.dishes.iter().min()?;
        let most = self.dishes.iter().max()?;
        (*most - *least <= self.settings.placement(*most))
            .then(|| self.dishes.iter().copied().sum::<Mass>())
            .and_then(|sum| sum.fraction(1, 3))
    }

    /// The lightest load that is taken for a dish. One of paper is lighter than
    /// a splash may be, which is there when the dish is lifted; it comes onto a
    /// pan that was seen without it.
    fn lightest(&self) -> Mass {
        if self.pan_seen {
            PAPER
        } else {
            self.settings.lightest_dish
        }
    }

    fn placement(&self, load: Mass) -> Mass {
        self.settings.placement(load)
    }

    /// Whether a weight is so low that the dish must be leaving.
    fn gone(&self, weight: &Weight) -> bool {
        (weight.gross - self.pan).times(2) < self.dish.tare.gross - self.pan
    }

    /// A dish is on the pan.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn fill(&mut self, weight: &Weight, events: &mut Events) {
        self.state = State::Filling;
        let gone = self.gone(weight);
        let dish = &mut self.dish;
        dish.highest = dish.highest.max(weight.gross);
        let gone_ms = dish.gone.update(gone, weight.at);
        if gone {
            let fall = dish.level.gross
                - self.pan
                - (dish.tare.gross - self.pan)
                    .fraction(1, 2)
                    .unwrap_or(Mass::ZERO);
            let sure_ms = if fall >= LIGHT {
                GONE_MS
            } else {
                LIGHT_GONE_MS
            };
            dish.steady = false;
            if weight.stable || gone_ms >= sure_ms {
                let first = Uptime::from_millis(weight.at.millis().saturating_sub(gone_ms));
                self.absence = Absence::new(first, weight.gross);
                self.leave(weight, events);
            }
            return;
        }
        if weight.stable {
            self.settle(weight, events);
            return;
        }
        dish.steady = false;
        let step = self.settings.step_at(weight, self.goal);
        // More than that is a hand or a spoon, which says nothing of the food.
        let net = weight.gross - dish.tare.gross;
        let within = net < self.goal.maybe_two();
        let more = weight.gross - dish.level.gross;
        let above = within && more > step;
        dish.above_ms = dish.above_ms.max(dish.above.update(above, weight.at));
        let astray = more.abs();
        let other_content = within && astray > step && net > -step;
        if CAREFUL
            && weight.calm
            && net > -step
            && within
            && (dish.calm.is_none() || weight.noise <= dish.calm_noise.times(2))
        {
            dish.calm = Some(weight.gross);
            dish.calm_noise = weight.noise;
        }
        dish.going_astray = dish.going_astray.max(astray);
        dish.flat.update(other_content, weight.gross, weight.at);
    }

    /// An equilibrium with a dish on the pan.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn settle(&mut self, weight: &Weight, events: &mut Events) {
        self.state = State::Filling;
        let step = self.settings.step_at(weight, self.goal);
        let change = weight.gross - self.dish.level.gross;
        self.dish.steady = true;
        let by_itself = CAREFUL && self.touch.came_by_itself(change, self.dish.going_astray);
        self.dish.forget_unrest();
        if change.abs() > step {
            if by_itself {
                let touched = self.touch.change(change, step, weight.at);
                if touched && change < Mass::ZERO {
                    self.touch.was_seen(weight.at);
                }
            }
            if self.swap_beside(weight.gross) {
                self.capture_beside(weight, events);
                return;
            }
            let net = self.dish.net();
            let tare = self.dish.tare.gross;
            let lighter = weight.gross - tare < -self.placement(tare);
            if lighter && net < self.goal.half() {
                // What was tared with it has left: a hand, a cloth, a lid.
                self.tare_at(weight, events);
                return;
            }
            let light = tare - self.pan < LIGHT_DISH;
            let much = self.goal.one_and_a_half();
            if light && !self.dish.touched && weight.gross - tare > much {
                // What lay there was no dish; it may lie there still.
                self.under = tare - self.pan;
                self.tare_at(weight, events);
                return;
            }
            let hand_left = (weight.gross - self.dish.previous).abs() <= step.times(2)
                && weight.at.since(self.dish.level.since) <= HAND_REST_MS;
            // Nobody spoils a portion that is about right: under a hand that leaned on the
            // pan the next dish has taken its place.
            let swapped = self.dish.returned.is_none()
                && !hand_left
                && self.goal.distance(net) <= self.goal.quarter()
                && -change >= self.goal.two_fifths();
            if lighter || swapped {
                // Another dish has taken its place.
                self.capture(weight.at, None, events);
                self.arrive(weight, events);
                return;
            }
            self.dish.previous = self.dish.level.gross;
            self.dish.level.set(weight);
            self.dish.touched = true;
        } else {
            self.dish.level.follow(weight, CONTENT_RATE);
            if !self.dish.touched && (weight.gross - self.dish.first_tare).abs() <= TARE_REFINEMENT
            {
                self.dish.tare = self.dish.level;
                self.dish.hasty = false;
            }
        }
        let net = self.dish.net();
        self.dish
            .too_much
            .update(net > self.goal.target().times(2), weight.at);
        if let Some((counted, came_back)) = &self.dish.returned
            && net - counted.net >= self.goal.half()
            && self.goal.judge(net) == Verdict::Heavy
        {
            self.dish.tare = *came_back;
            self.dish.returned = None;
            self.counted = None;
            tell(events, Notice::DishTared(self.dish.tare.gross - self.pan));
        }
    }

    /// Whether the last equilibrium was a full dish with the next one beside
    /// it, and the full one is gone now.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn swap_beside(&self, gross: Mass) -> bool {
        let dish = &self.dish;
        let both = dish.level.gross;
        let full = dish.previous - self.pan;
        let beside = both - dish.previous;
        let net = dish.previous - dish.tare.gross;
        beside >= self.lightest()
            && net >= self.goal.half()
            // A last spoonful may weigh what the next dish does.
            && self.goal.distance(net) < self.goal.distance(dish.net())
            && (both - gross - full).abs() <= self.settings.unchanged(full).times(2)
    }

    /// Captures a dish by the equilibrium before the next one came beside it,
    /// and takes that one as empty.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn capture_beside(&mut self, weight: &Weight, events: &mut Events) {
        self.dish.level.move_to(self.dish.previous);
        self.dish.forget_unrest();
        self.capture(weight.at, None, events);
        self.tare_at(weight, events);
    }

    /// A dish seems to have left.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn leave(&mut self, weight: &Weight, events: &mut Events) {
        self.state = State::Leaving;
        if self.gone(weight) {
            self.absence.update(weight);
            let waited = weight.at.since(self.absence.first) >= STEADY_PAN_MS;
            if !weight.stable && !waited {
                return;
            }
            let load = weight.gross - self.pan;
            if weight.stable && load >= self.lightest() && self.swap_beside(weight.gross) {
                self.capture_beside(weight, events);
                return;
            }
            self.capture_lifted(events);
            if weight.stable {
                self.await_dish(weight, events);
            }
        } else if weight.stable {
            let same = (weight.gross - self.dish.level.gross).abs() <= self.placement(weight.gross);
            // Nobody swaps an empty dish in a moment; it was knocked, and filled since.
            let net = weight.gross - self.dish.tare.gross;
            let tenth = self.goal.tenth();
            let filled = self.dish.net() < tenth && net >= tenth && net < self.goal.maybe_two();
            if (same || filled) && self.absence.last.since(self.absence.first) < WOBBLE_MS {
                self.dish.forget_unrest();
                self.settle(weight, events);
            } else {
                self.capture_lifted(events);
                self.arrive(weight, events);
            }
        } else if CAREFUL && weight.calm && self.is_another(weight) {
            // The next one came before the pan was at rest.
            self.capture_lifted(events);
            self.coming = Some(Level::of(weight));
            self.state = State::Settling;
        }
    }

    /// Whether what stands there after a lift is not what was lifted.
    fn is_another(&self, weight: &Weight) -> bool {
        let other = (weight.gross - self.dish.level.gross).abs() > self.placement(weight.gross)
            && weight.gross - self.pan >= self.settings.lightest_dish;
        other
            && self.absence.last.since(self.absence.first) >= LIGHT_GONE_MS / 2
            && weight.at.since(self.absence.last) >= STANDS_MS
    }

    /// Captures a dish that was lifted, and looks at the pan without it.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn capture_lifted(&mut self, events: &mut Events) {
        let residue = self.residue();
        self.capture(self.absence.first, residue, events);
        if let Some(calm) = self.absence.calm
            && calm - self.pan < self.settings.lightest_dish
        {
            self.pan = calm;
            self.pan_at = Some(self.absence.last);
        }
    }

    /// What a lifted dish has left on the pan, where the pan was seen after it
    /// and not long before it.
    fn residue(&self) -> Option<Mass> {
        let mut left = self.absence.calm? - self.pan;
        if (left - self.under).abs() <= FLAT {
            left -= self.under;
        }
        (self.pan_is_known(self.absence.first) && left < self.settings.lightest_dish)
            .then_some(left)
    }

    /// Whether the empty pan was seen not long before.
    fn pan_is_known(&self, at: Uptime) -> bool {
        self.pan_at
            .is_some_and(|seen| at.since(seen) <= PAN_KNOWN_MS)
    }

    /// The dish is gone: counts what was in it, or says why not. `residue` is
    /// what it left on the pan.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn capture(&mut self, lifted: Uptime, residue: Option<Mass>, events: &mut Events) {
        self.state = State::Await;
        self.pan_seen = false;
        let half = self.goal.half();
        let step = self.settings.step;
        let most = self.goal.maybe_two();
        let dish = &mut self.dish;
        let mut doubts = Doubts::NONE;
        let mut hasty = Mass::ZERO;
        // A hand that rested on the dish has left, and there was no time to be steady since.
        let rested = dish.level.gross - dish.previous;
        if CAREFUL
            && dish.touched
            && rested > FLAT
            && lifted.since(dish.level.since) <= HAND_REST_MS.saturating_mul(2)
            && let Some(last) = dish.calm.or(dish.flat.last)
            && (last - dish.previous).abs() <= FLAT
        {
            let before = dish.previous;
            dish.calm = Some(before);
        }
        let rested = CAREFUL && rested > FLAT && dish.calm == Some(dish.previous);
        if CAREFUL
            && let Some(calm) = dish.calm
            && (rested || dish.was_only_glimpsed(&self.goal) || dish.is_unsettled(&self.goal))
            && (calm - dish.level.gross).abs() > step
            && calm - dish.tare.gross < most
            && calm - dish.tare.gross >= self.goal.tenth()
        {
            dish.level.move_to(calm);
            dish.level.noise = dish.level.noise.max(dish.calm_noise);
            dish.forget_unrest();
            hasty = HASTY;
        }
        if dish.hasty || hasty > Mass::ZERO {
            doubts = Doubts::HASTY;
            hasty = HASTY;
        }
        let gross = dish.level.gross;
        if let Some(residue) = residue
            && residue > self.settings.residue(gross)
            && residue < half
        {
            dish.tare.gross += residue;
        }
        if CAREFUL && let Some(residue) = residue {
            if is_no_splash(residue) {
                self.touch.was_seen(lifted);
            } else if (self.touch.pending - residue).abs() <= step {
                // What came by itself fell beside the dish.
                self.touch.pending = Mass::ZERO;
            }
        }
        if CAREFUL && self.touch.is_about(step, lifted) {
            doubts = doubts.union(Doubts::TOUCHED);
        }
        let net = dish.net();
        let nothing = net < self.goal.tenth();
        let unsettled = dish.is_unsettled(&self.goal);
        let hand = net > self.goal.target().times(2)
            && dish.too_much.update(true, lifted) < HAND_AT_MOST_MS;
        if hand || unsettled {
            tell(events, Notice::LiftedUnsettled);
            self.unsettled = Some(Lifted {
                tare: dish.tare,
                last: dish.flat.last,
                returned: dish.returned,
                at: lifted,
            });
            return;
        }
        let uncertainty = self
            .settings
            .expanded(dish.tare.noise, dish.level.noise, dish.astray)
            + hasty;
        let mut counted = Counted {
            number: None,
            tare: dish.tare,
            net,
            gross,
            uncertainty,
            pressed: (dish.highest - gross.max(dish.first_tare)).max(Mass::ZERO),
            doubts,
            at: lifted,
        };
        let mut replaces = None;
        if let Some((before, came_back)) = &dish.returned {
            // Within what placement explains, only a change on the pan is one.
            let placement = self.settings.unchanged(gross);
            if (net - before.net).abs() <= placement || (gross - came_back.gross).abs() <= placement
            {
                counted.number = before.number;
                counted.net = before.net;
                self.counted = Some(counted);
                return;
            }
            replaces = before.number;
        }
        if nothing {
            tell(events, Notice::LiftedEmpty);
            if CAREFUL {
                self.doubt_the_one_before(lifted, events);
            }
            if replaces.is_some() {
                self.undone = replaces;
                self.counted = None;
            }
            return;
        }
        let replaces = replaces.or_else(|| self.undone.take());
        self.counted = Some(counted);
        self.owed = (residue.is_none() && self.pan_is_known(lifted)).then_some(Owed {
            lifted,
            uncertainty,
        });
        give(
            events,
            Event::Portion(Draft {
                at: lifted,
                mass: net,
                replaces,
                doubts,
                uncertainty,
                pressed: counted.pressed,
                left: None,
            }),
        );
    }

    /// A dish was lifted with nothing added to it. Where it weighed what the one
    /// counted before it could weigh with less in it, that is what it may be.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn doubt_the_one_before(&mut self, lifted: Uptime, events: &mut Events) {
        let Some(before) = self.before.take() else {
            return;
        };
        let gross = self.dish.level.gross;
        if lifted.since(before.at) > RETURN_MS
            || gross >= before.gross
            || gross - before.tare.gross < self.goal.tenth()
            || before.number.is_none()
        {
            return;
        }
        give(
            events,
            Event::Portion(Draft {
                at: before.at,
                mass: before.net,
                replaces: before.number,
                doubts: Doubts::MAYBE_CHANGED,
                uncertainty: before.uncertainty,
                pressed: before.pressed,
                left: None,
            }),
        );
    }

    /// The first weights after an interruption.
    fn see_again(&mut self, weight: &Weight, events: &mut Events) {
        let from = self.gap.from;
        let unseen_ms = self.gap.to.get_or_insert(weight.at).since(from);
        if unseen_ms <= BLINK_MS {
            self.fill(weight, events);
            return;
        }
        if !weight.stable {
            // From here on it waits for the first equilibrium, however long that takes.
            return;
        }
        let more = weight.gross - self.dish.level.gross;
        let same = more.abs() <= self.placement(weight.gross);
        let fuller = unseen_ms <= SAME_DISH_MS
            && more > Mass::ZERO
            && weight.gross - self.dish.tare.gross < self.goal.maybe_two();
        if same || fuller {
            self.dish.forget_unrest();
            self.settle(weight, events);
            return;
        }
        let net = self.dish.net();
        if unseen_ms <= KNOWN_CONTENT_MS && self.goal.judge(net) == Verdict::On {
            // Nobody spoils a portion that is right: it left as it last stood.
            self.capture(from, None, events);
        } else if net >= self.goal.tenth() && self.dish.returned.is_none() {
            tell(events, Notice::LiftedUnsettled);
        }
        self.await_dish(weight, events);
    }

    /// See [`Portioning::numbered`](super::Portioning::numbered).
    pub fn numbered(&mut self, number: Option<u32>) {
        if let Some(counted) = &mut self.counted {
            counted.number = number;
        }
        if let State::Filling = self.state
            && let Some((counted, _)) = &mut self.dish.returned
            && counted.number.is_none()
        {
            counted.number = number;
        }
    }

    /// See [`Portioning::set_goal`](super::Portioning::set_goal).
    pub fn set_goal(&mut self, goal: Goal) {
        self.goal = goal;
    }

    /// The goal.
    #[must_use]
    pub const fn goal(&self) -> Goal {
        self.goal
    }

    /// See [`Portioning::interrupted`](super::Portioning::interrupted).
    pub fn interrupted(&mut self, at: Uptime) {
        self.amount = None;
        self.at_known = Held::NEVER;
        self.was_at_known = false;
        self.state = match self.state {
            State::Filling => {
                self.gap = Gap { from: at, to: None };
                if let Some(first) = self.dish.gone.since() {
                    self.absence = Absence::new(first, self.dish.level.gross);
                    State::BlindLeaving
                } else {
                    State::Blind
                }
            }
            State::Leaving => State::BlindLeaving,
            // One interruption after another, and nothing was sure between them.
            State::Blind => {
                self.gap.to = None;
                State::Blind
            }
            State::BlindLeaving => State::BlindLeaving,
            State::Await | State::Settling => State::Await,
            found @ State::Found { .. } => found,
        };
    }

    /// See [`Portioning::zeroed`](super::Portioning::zeroed).
    pub fn zeroed(&mut self, shift: Mass) {
        // The empty pan was not seen since the power came back: the zero is
        // all that is known of it.
        if !matches!(self.state, State::Found { .. }) {
            self.pan -= shift;
        }
        if let Some(counted) = &mut self.counted {
            counted.zeroed(shift);
        }
        if let Some(before) = &mut self.before {
            before.zeroed(shift);
        }
        if let Some(coming) = &mut self.coming {
            coming.gross -= shift;
        }
        if let Some(lifted) = &mut self.unsettled {
            lifted.tare.gross -= shift;
            if let Some((counted, came_back)) = &mut lifted.returned {
                counted.zeroed(shift);
                came_back.gross -= shift;
            }
            if let Some(last) = &mut lifted.last {
                *last -= shift;
            }
        }
        // A dish that is not there has nothing to shift, and it does no harm.
        self.dish.zeroed(shift);
    }

    /// See [`Portioning::tare`](super::Portioning::tare).
    pub fn tare_now(&mut self, weight: &Weight) -> bool {
        let load = weight.gross - self.pan;
        if !weight.stable || load < self.lightest() {
            return false;
        }
        self.counted = None;
        self.unsettled = None;
        self.set_down(weight);
        self.amount = Some(Mass::ZERO);
        true
    }

    /// See [`Portioning::unsettled`](super::Portioning::unsettled).
    #[must_use]
    pub const fn unsettled(&self) -> bool {
        match self.state {
            State::Filling => !self.dish.steady,
            State::Leaving => true,
            State::Await
            | State::Found { .. }
            | State::Settling
            | State::Blind
            | State::BlindLeaving => false,
        }
    }

    /// Ends the run. A dish that stands there steady with at least half a
    /// target in it is counted as if it were lifted; a lesser content is a
    /// portion hardly begun and is not.
    pub fn finish(&mut self, at: Uptime) -> Events {
        let mut events = Events::new();
        match self.state {
            State::Filling if self.dish.net() >= self.goal.half() => {
                if self.dish.steady {
                    self.capture(at, None, &mut events);
                } else {
                    tell(&mut events, Notice::LiftedUnsettled);
                }
            }
            State::Leaving => self.capture(self.absence.first, None, &mut events),
            _ => {}
        }
        self.state = State::Await;
        self.amount = None;
        events
    }

    /// What is waited for.
    #[must_use]
    pub const fn phase(&self) -> Phase {
        match self.state {
            State::Await => Phase::AwaitDish,
            // The zero must not follow what may lie there.
            State::Settling | State::Found { .. } => Phase::DishSettling,
            State::Filling | State::Blind | State::BlindLeaving => Phase::Filling,
            // Until the lift is certain the portion is still being made, and then it is
            // awaited anew.
            State::Leaving => Phase::Filling,
        }
    }

    /// Food in the dish.
    #[must_use]
    pub const fn amount(&self) -> Option<Mass> {
        self.amount
    }

    /// What is subtracted as the dish.
    #[must_use]
    pub fn dish(&self) -> Mass {
        match self.state {
            State::Await | State::Found { .. } | State::Settling => Mass::ZERO,
            State::Filling | State::Leaving | State::Blind | State::BlindLeaving => {
                self.dish.tare.gross
            }
        }
    }
}

/// Whether what a lifted dish left on the pan, or took from it, is none of its food.
fn is_no_splash(left: Mass) -> bool {
    left > SPLASH || left < -CLEAN.times(2)
}
