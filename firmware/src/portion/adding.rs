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
//! | the dish is lifted before what was added is steady | not counted, with a notice; set down again soon, it goes on with its own tare |
//! | it is lifted with nothing in it (less than a tenth of the target) | not counted, with a notice |
//! | a counted dish is set down again within a minute | it is recognised by its weight; lifted unchanged it counts nothing, lifted changed it corrects its portion |
//! | such a dish gets half a target or more on top, and too much for one portion | it was another dish of just that weight: tared at what it weighed |
//! | such a dish is emptied and lifted | its portion is undone: the next one replaces it |
//! | dishes are swapped and the pan never reads zero | the first is captured when the second is steady |
//! | they are swapped under a hand that leans on the pan | a portion that is within a quarter of the target and then lighter by two fifths was lifted, not emptied |
//! | the next dish is set beside a full one, then that one is lifted | captured without the newcomer, which is tared |
//! | a splash beside the dish stays on the pan | taken off the portion, because it is not in the dish; where the pan was not at rest in time, by a correction |
//! | food goes into a dish before it is tared | tared at its true mass if this run's last three dishes weighed the same and the load was seen to rest at that mass first; otherwise it cannot be told from a heavier dish |
//! | weighing is interrupted | the same dish goes on if its weight says so; lifted meanwhile, it is counted if it was steady on target before and the interruption was short, otherwise not, with a notice |

use super::level::{Held, Level};
use super::settings::{PortionSettings, Shares};
use super::{Draft, Event, Events, give};
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
/// How many dishes of one mass make that mass known.
const KNOWN_DISHES: usize = 3;

/// A portion that was counted, by its dish.
#[derive(Debug, Clone, Copy)]
struct Counted {
    number: Option<u32>,
    tare: Level,
    net: Mass,
    gross: Mass,
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
    /// Food went in or out since it was tared.
    touched: bool,
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
    const fn new(tare: Level, level: Level) -> Self {
        Self {
            tare,
            first_tare: tare.gross,
            level,
            previous: level.gross,
            touched: false,
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

    fn net(&self) -> Mass {
        self.level.gross - self.tare.gross
    }

    fn zeroed(&mut self, shift: Mass) {
        self.tare.gross -= shift;
        self.first_tare -= shift;
        self.level.gross -= shift;
        self.previous -= shift;
        if let Some((counted, came_back)) = &mut self.returned {
            counted.zeroed(shift);
            came_back.gross -= shift;
        }
        if let Some(last) = &mut self.flat.last {
            *last -= shift;
        }
    }

    fn forget_unrest(&mut self) {
        self.above = Held::NEVER;
        self.gone = Held::NEVER;
        self.above_ms = 0;
        self.flat = Flat::NEVER;
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

    fn update(&mut self, weight: &Weight) {
        self.last = weight.at;
        if (weight.gross - self.reference).abs() > CALM {
            self.still = Held::NEVER;
            self.reference = weight.gross;
        }
        let quiet = weight.noise.times(3) <= CALM;
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

#[derive(Debug, Clone, Copy)]
enum State {
    Await,
    Settling,
    Filling(Dish),
    Leaving(Dish, Absence),
    /// Weighing was interrupted with this dish on the pan, or leaving it.
    Blind(Dish, Option<Absence>, Gap),
}

/// The machine for filling dishes.
#[derive(Debug, Clone)]
pub struct Adding {
    goal: Goal,
    settings: PortionSettings,
    state: State,
    /// The empty pan, and when it was last seen.
    pan: Mass,
    pan_at: Option<Uptime>,
    counted: Option<Counted>,
    owed: Option<Owed>,
    /// A dish that was lifted unsettled, and when.
    unsettled: Option<(Dish, Uptime)>,
    /// The number of a portion that the next one replaces.
    undone: Option<u32>,
    /// This run's latest dishes.
    dishes: [Mass; KNOWN_DISHES],
    dish_count: usize,
    at_known: Held,
    was_at_known: bool,
    amount: Option<Mass>,
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
            pan: Mass::ZERO,
            pan_at: None,
            counted: None,
            owed: None,
            unsettled: None,
            undone: None,
            dishes: [Mass::ZERO; KNOWN_DISHES],
            dish_count: 0,
            at_known: Held::NEVER,
            was_at_known: false,
            amount: None,
        }
    }

    /// Takes the next weight.
    pub fn take(&mut self, weight: &Weight) -> Events {
        let mut events = Events::new();
        match self.state {
            State::Await | State::Settling => self.await_dish(weight, &mut events),
            State::Filling(dish) => self.fill(dish, weight, &mut events),
            State::Leaving(dish, absence) => self.leave(dish, absence, weight, &mut events),
            State::Blind(dish, absence, gap) => {
                self.see_again(dish, absence, gap, weight, &mut events);
            }
        }
        self.tell_return(&mut events);
        self.amount = match self.state {
            State::Filling(dish) => {
                let net = weight.gross - dish.tare.gross;
                (net >= -self.placement(dish.tare.gross)).then_some(net)
            }
            _ => None,
        };
        events
    }

    /// Says which portion came back, once its number is known: one that was
    /// captured with this very weight has none yet.
    fn tell_return(&mut self, events: &mut Events) {
        if let State::Filling(dish) = &mut self.state
            && !dish.returned_told
            && let Some((counted, _)) = dish.returned
            && let Some(number) = counted.number
        {
            dish.returned_told = true;
            give(events, Event::Notice(Notice::DishReturned(number)));
        }
    }

    /// Nothing counted is on the pan: looks out for a dish.
    fn await_dish(&mut self, weight: &Weight, events: &mut Events) {
        let load = weight.gross - self.pan;
        if load < self.settings.lightest_dish {
            self.state = State::Await;
            self.at_known = Held::NEVER;
            self.was_at_known = false;
            if weight.stable {
                self.settle_debt(weight, events);
                self.pan = weight.gross;
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
        if weight.stable {
            self.arrive(weight, events);
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
        if weight.at.since(owed.lifted) > LATE_REST_MS
            || counted.at != owed.lifted
            || residue <= self.settings.residue(counted.gross)
        {
            return;
        }
        counted.tare.gross += residue;
        counted.net -= residue;
        give(
            events,
            Event::Portion(Draft {
                at: counted.at,
                mass: counted.net,
                replaces: counted.number,
                doubts: Doubts::NONE,
                uncertainty: owed.uncertainty,
                left: None,
            }),
        );
    }

    /// A load is steady that was not on the pan before.
    fn arrive(&mut self, weight: &Weight, events: &mut Events) {
        self.owed = None;
        let level = Level::of(weight);
        let load = weight.gross - self.pan;
        let was_at_known = core::mem::take(&mut self.was_at_known);
        self.at_known = Held::NEVER;
        if let Some(counted) = self.counted
            && weight.at.since(counted.at) <= RETURN_MS
            && (weight.gross - counted.gross).abs() <= self.placement(weight.gross)
        {
            let mut dish = Dish::new(counted.tare, level);
            dish.touched = true;
            dish.returned = Some((counted, level));
            dish.returned_told = false;
            self.state = State::Filling(dish);
            return;
        }
        if let Some((lifted, at)) = self.unsettled.take()
            && weight.at.since(at) <= RESUME_MS
            && match lifted.flat.last {
                Some(last) => (weight.gross - last).abs() <= self.placement(last) + FLAT,
                None => self.goal.may_be_one(weight.gross - lifted.tare.gross),
            }
        {
            let mut dish = Dish::new(lifted.tare, level);
            dish.touched = true;
            dish.returned = lifted.returned;
            self.state = State::Filling(dish);
            return;
        }
        if was_at_known
            && let Some(known) = self.known_dish()
            && load - known > self.goal.tenth()
            && load - known < self.goal.maybe_two()
        {
            let mut dish = Dish::new(level.with_gross(self.pan + known), level);
            dish.touched = true;
            self.counted = None;
            self.state = State::Filling(dish);
            give(events, Event::Notice(Notice::DishTared(known)));
            return;
        }
        self.tare_at(level, events);
    }

    /// Takes what is on the pan as an empty dish.
    fn tare_at(&mut self, level: Level, events: &mut Events) {
        let load = level.gross - self.pan;
        self.counted = None;
        self.unsettled = None;
        if let Some(place) = self.dishes.get_mut(self.dish_count % KNOWN_DISHES) {
            *place = load;
        }
        self.dish_count += 1;
        if self.dish_count >= 2 * KNOWN_DISHES {
            self.dish_count -= KNOWN_DISHES;
        }
        self.state = State::Filling(Dish::new(level, level));
        give(events, Event::Notice(Notice::DishTared(load)));
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

    fn placement(&self, load: Mass) -> Mass {
        self.settings.placement(load)
    }

    /// Whether a weight is so low that the dish must be leaving.
    fn gone(&self, dish: &Dish, weight: &Weight) -> bool {
        (weight.gross - self.pan).times(2) < dish.tare.gross - self.pan
    }

    /// A dish is on the pan.
    fn fill(&mut self, mut dish: Dish, weight: &Weight, events: &mut Events) {
        let gone = self.gone(&dish, weight);
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
            let first = Uptime::from_millis(weight.at.millis().saturating_sub(gone_ms));
            dish.steady = false;
            if weight.stable || gone_ms >= sure_ms {
                let absence = Absence::new(first, weight.gross);
                self.leave(dish, absence, weight, events);
            } else {
                self.state = State::Filling(dish);
            }
            return;
        }
        if weight.stable {
            self.settle(dish, weight, events);
            return;
        }
        dish.steady = false;
        let step = self.settings.step_at(weight, self.goal);
        // More than that is a hand or a spoon, which says nothing of the food.
        let within = weight.gross - dish.tare.gross < self.goal.maybe_two();
        let above = within && weight.gross > dish.level.gross + step;
        dish.above_ms = dish.above_ms.max(dish.above.update(above, weight.at));
        let other_content = within
            && (weight.gross - dish.level.gross).abs() > step
            && weight.gross > dish.tare.gross - step;
        dish.going_astray = dish
            .going_astray
            .max((weight.gross - dish.level.gross).abs());
        dish.flat.update(other_content, weight.gross, weight.at);
        self.state = State::Filling(dish);
    }

    /// An equilibrium with a dish on the pan.
    fn settle(&mut self, mut dish: Dish, weight: &Weight, events: &mut Events) {
        let step = self.settings.step_at(weight, self.goal);
        let change = weight.gross - dish.level.gross;
        dish.steady = true;
        dish.forget_unrest();
        if change.abs() > step {
            if self.swap_beside(&dish, weight.gross) {
                self.capture_beside(dish, weight, events);
                self.tare_at(Level::of(weight), events);
                return;
            }
            if weight.gross - dish.tare.gross < -self.placement(dish.tare.gross) {
                if dish.net() >= self.goal.half() {
                    // A lighter dish has taken its place.
                    self.capture(dish, weight.at, None, events);
                    self.arrive(weight, events);
                } else {
                    // What was tared with it has left: a hand, a cloth, a lid.
                    self.tare_at(Level::of(weight), events);
                }
                return;
            }
            let hand_left = (weight.gross - dish.previous).abs() <= step.times(2)
                && weight.at.since(dish.level.since) <= HAND_REST_MS;
            if dish.returned.is_none()
                && !hand_left
                && self.goal.distance(dish.net()) <= self.goal.quarter()
                && -change >= self.goal.two_fifths()
            {
                // Nobody spoils a portion that is about right: under a hand that leaned on the
                // pan the next dish has taken its place.
                self.capture(dish, weight.at, None, events);
                self.arrive(weight, events);
                return;
            }
            dish.previous = dish.level.gross;
            dish.level = Level::of(weight);
            dish.touched = true;
        } else {
            dish.level.follow(weight, CONTENT_RATE);
            if !dish.touched && (weight.gross - dish.first_tare).abs() <= TARE_REFINEMENT {
                dish.tare = dish.level;
            }
        }
        dish.too_much
            .update(dish.net() > self.goal.target().times(2), weight.at);
        if let Some((counted, came_back)) = dish.returned
            && dish.net() - counted.net >= self.goal.half()
            && self.goal.judge(dish.net()) == Verdict::Heavy
        {
            dish.tare = came_back;
            dish.returned = None;
            self.counted = None;
            give(
                events,
                Event::Notice(Notice::DishTared(came_back.gross - self.pan)),
            );
        }
        self.state = State::Filling(dish);
    }

    /// Whether the last equilibrium was a full dish with the next one beside
    /// it, and the full one is gone now.
    fn swap_beside(&self, dish: &Dish, gross: Mass) -> bool {
        let both = dish.level.gross;
        let full = dish.previous - self.pan;
        let beside = both - dish.previous;
        let net = dish.previous - dish.tare.gross;
        beside >= self.settings.lightest_dish
            && net >= self.goal.half()
            // A last spoonful may weigh what the next dish does.
            && self.goal.distance(net) < self.goal.distance(dish.net())
            && (both - gross - full).abs() <= self.settings.unchanged(full).times(2)
    }

    /// Captures a dish by the equilibrium before the next one came beside it.
    fn capture_beside(&mut self, mut dish: Dish, weight: &Weight, events: &mut Events) {
        dish.level = dish.level.with_gross(dish.previous);
        dish.forget_unrest();
        self.capture(dish, weight.at, None, events);
    }

    /// A dish seems to have left.
    fn leave(
        &mut self,
        mut dish: Dish,
        mut absence: Absence,
        weight: &Weight,
        events: &mut Events,
    ) {
        if self.gone(&dish, weight) {
            absence.update(weight);
            let waited = weight.at.since(absence.first) >= STEADY_PAN_MS;
            if !weight.stable && !waited {
                self.state = State::Leaving(dish, absence);
                return;
            }
            let load = weight.gross - self.pan;
            if weight.stable
                && load >= self.settings.lightest_dish
                && self.swap_beside(&dish, weight.gross)
            {
                self.capture_beside(dish, weight, events);
                self.tare_at(Level::of(weight), events);
                return;
            }
            self.capture(dish, absence.first, self.residue(&absence), events);
            self.see_pan(&absence);
            self.state = State::Await;
            if weight.stable {
                self.await_dish(weight, events);
            }
        } else if weight.stable {
            let same = (weight.gross - dish.level.gross).abs() <= self.placement(weight.gross);
            // Nobody swaps an empty dish in a moment; it was knocked, and filled since.
            let net = weight.gross - dish.tare.gross;
            let filled = dish.net() < self.goal.tenth()
                && net >= self.goal.tenth()
                && net < self.goal.maybe_two();
            if (same || filled) && absence.last.since(absence.first) < WOBBLE_MS {
                dish.forget_unrest();
                self.settle(dish, weight, events);
            } else {
                self.capture(dish, absence.first, self.residue(&absence), events);
                self.see_pan(&absence);
                self.arrive(weight, events);
            }
        } else {
            self.state = State::Leaving(dish, absence);
        }
    }

    /// What a lifted dish has left on the pan, where the pan was seen after it
    /// and not long before it.
    fn residue(&self, absence: &Absence) -> Option<Mass> {
        let left = absence.calm? - self.pan;
        (self.pan_is_known(absence.first) && left < self.settings.lightest_dish).then_some(left)
    }

    /// Whether the empty pan was seen not long before.
    fn pan_is_known(&self, at: Uptime) -> bool {
        self.pan_at
            .is_some_and(|seen| at.since(seen) <= PAN_KNOWN_MS)
    }

    /// Remembers the pan as it was without a dish.
    fn see_pan(&mut self, absence: &Absence) {
        if let Some(calm) = absence.calm
            && calm - self.pan < self.settings.lightest_dish
        {
            self.pan = calm;
            self.pan_at = Some(absence.last);
        }
    }

    /// A dish is gone: counts what was in it, or says why not. `residue` is
    /// what it left on the pan.
    fn capture(
        &mut self,
        mut dish: Dish,
        lifted: Uptime,
        residue: Option<Mass>,
        events: &mut Events,
    ) {
        self.state = State::Await;
        let placement = self.settings.unchanged(dish.level.gross);
        if let Some(residue) = residue
            && residue > self.settings.residue(dish.level.gross)
            && residue < self.goal.half()
        {
            dish.tare.gross += residue;
        }
        let net = dish.net();
        let right = self.goal.judge(net) == Verdict::On;
        let flat_net = dish.flat.last.map(|gross| gross - dish.tare.gross);
        let flat_at_most = match flat_net {
            Some(other) if net < self.goal.tenth() && other >= self.goal.half() => FLAT_FIRST_MS,
            Some(other) if !right && self.goal.judge(other) == Verdict::On => FLAT_RIGHT_MS,
            _ => FLAT_MS,
        };
        let unsettled =
            dish.flat.longest_ms >= flat_at_most || (!right && dish.above_ms >= FOOD_NOT_GRIP_MS);
        let hand = net > self.goal.target().times(2)
            && dish.too_much.update(true, lifted) < HAND_AT_MOST_MS;
        if hand || unsettled {
            give(events, Event::Notice(Notice::LiftedUnsettled));
            self.unsettled = Some((dish, lifted));
            return;
        }
        let counted = Counted {
            number: None,
            tare: dish.tare,
            net,
            gross: dish.level.gross,
            at: lifted,
        };
        let nothing = net < self.goal.tenth();
        let replaces = match dish.returned {
            // Within what placement explains, only a change on the pan is one.
            Some((before, came_back))
                if (net - before.net).abs() <= placement
                    || (dish.level.gross - came_back.gross).abs() <= placement =>
            {
                self.counted = Some(Counted {
                    number: before.number,
                    net: before.net,
                    ..counted
                });
                return;
            }
            Some((before, _)) => before.number,
            None => None,
        };
        if nothing {
            give(events, Event::Notice(Notice::LiftedEmpty));
            if replaces.is_some() {
                self.undone = replaces;
                self.counted = None;
            }
            return;
        }
        let replaces = replaces.or_else(|| self.undone.take());
        self.counted = Some(counted);
        let uncertainty = self
            .settings
            .expanded(dish.tare.noise, dish.level.noise, dish.astray);
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
                doubts: Doubts::NONE,
                uncertainty,
                left: None,
            }),
        );
    }

    /// The first weights after an interruption.
    fn see_again(
        &mut self,
        mut dish: Dish,
        absence: Option<Absence>,
        mut gap: Gap,
        weight: &Weight,
        events: &mut Events,
    ) {
        let unseen_ms = gap.to.get_or_insert(weight.at).since(gap.from);
        if let Some(absence) = absence {
            // It was off the pan before; what was in it then was known.
            self.leave(dish, absence, weight, events);
            return;
        }
        if unseen_ms <= BLINK_MS {
            self.fill(dish, weight, events);
            return;
        }
        if !weight.stable {
            // From here on it waits for the first equilibrium, however long that takes.
            self.state = State::Blind(dish, None, gap);
            return;
        }
        let more = weight.gross - dish.level.gross;
        let placement = self.placement(weight.gross);
        let same = more.abs() <= placement;
        let fuller = unseen_ms <= SAME_DISH_MS
            && more > Mass::ZERO
            && weight.gross - dish.tare.gross < self.goal.maybe_two();
        if same || fuller {
            dish.forget_unrest();
            self.settle(dish, weight, events);
            return;
        }
        if unseen_ms <= KNOWN_CONTENT_MS && self.goal.judge(dish.net()) == Verdict::On {
            // Nobody spoils a portion that is right: it left as it last stood.
            self.capture(dish, gap.from, None, events);
        } else if dish.net() >= self.goal.tenth() && dish.returned.is_none() {
            give(events, Event::Notice(Notice::LiftedUnsettled));
        }
        self.state = State::Await;
        self.await_dish(weight, events);
    }

    /// See [`Portioning::numbered`](super::Portioning::numbered).
    pub fn numbered(&mut self, number: Option<u32>) {
        if let Some(counted) = &mut self.counted {
            counted.number = number;
        }
        if let State::Filling(dish) = &mut self.state
            && let Some((counted, _)) = &mut dish.returned
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
            State::Filling(dish) => {
                let leaving = dish
                    .gone
                    .since()
                    .map(|first| Absence::new(first, dish.level.gross));
                State::Blind(dish, leaving, Gap { from: at, to: None })
            }
            State::Leaving(dish, absence) => {
                State::Blind(dish, Some(absence), Gap { from: at, to: None })
            }
            // One interruption after another, and nothing was sure between them.
            State::Blind(dish, absence, gap) => {
                State::Blind(dish, absence, Gap { to: None, ..gap })
            }
            State::Await | State::Settling => State::Await,
        };
    }

    /// See [`Portioning::zeroed`](super::Portioning::zeroed).
    pub fn zeroed(&mut self, shift: Mass) {
        self.pan -= shift;
        if let Some(counted) = &mut self.counted {
            counted.zeroed(shift);
        }
        if let Some((dish, _)) = &mut self.unsettled {
            dish.zeroed(shift);
        }
        match &mut self.state {
            State::Await | State::Settling => {}
            State::Filling(dish) | State::Leaving(dish, _) | State::Blind(dish, ..) => {
                dish.zeroed(shift);
            }
        }
    }

    /// See [`Portioning::tare`](super::Portioning::tare).
    pub fn tare_now(&mut self, weight: &Weight) -> bool {
        let load = weight.gross - self.pan;
        if !weight.stable || load < self.settings.lightest_dish {
            return false;
        }
        let level = Level::of(weight);
        self.counted = None;
        self.unsettled = None;
        self.state = State::Filling(Dish::new(level, level));
        self.amount = Some(Mass::ZERO);
        true
    }

    /// See [`Portioning::unsettled`](super::Portioning::unsettled).
    #[must_use]
    pub const fn unsettled(&self) -> bool {
        match self.state {
            State::Filling(dish) => !dish.steady,
            State::Leaving(..) => true,
            State::Await | State::Settling | State::Blind(..) => false,
        }
    }

    /// Ends the run. A dish that stands there steady with at least half a
    /// target in it is counted as if it were lifted; a lesser content is a
    /// portion hardly begun and is not.
    pub fn finish(&mut self, at: Uptime) -> Events {
        let mut events = Events::new();
        match self.state {
            State::Filling(dish) if dish.steady && dish.net() >= self.goal.half() => {
                self.capture(dish, at, None, &mut events);
            }
            State::Filling(dish) if !dish.steady && dish.net() >= self.goal.half() => {
                give(&mut events, Event::Notice(Notice::LiftedUnsettled));
            }
            State::Leaving(dish, absence) => {
                self.capture(dish, absence.first, None, &mut events);
            }
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
            State::Settling => Phase::DishSettling,
            State::Filling(_) | State::Blind(..) => Phase::Filling,
            // Until the lift is certain the portion is still being made, and then it is
            // awaited anew.
            State::Leaving(..) => Phase::Filling,
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
            State::Filling(dish) | State::Leaving(dish, _) | State::Blind(dish, ..) => {
                dish.tare.gross
            }
            State::Await | State::Settling => Mass::ZERO,
        }
    }
}
