//! Taking: a full tin stays on the pan, each spoonful taken is a portion.
//!
//! | what happens | what is made of it |
//! | --- | --- |
//! | a tin goes on and is steady | it is the level that the next spoonful is measured from |
//! | what it settles to changes in the first second and a half | a hand has left it; no portion |
//! | the tin is lighter and steady by half a target to 1.6 targets | a portion, at once |
//! | by 1.6 to 4 targets | one portion, doubted: it may be two |
//! | by more than 4 targets | not a portion: unaccounted for |
//! | by less than half a target | waits for the rest of the spoonful; after twenty seconds it corrects the portion before, if that was fresh, else it is unaccounted for |
//! | a little more soon after a portion that was short | corrects that portion at once |
//! | a little more soon after a portion that was enough | when the next spoonful is out it belongs to whichever of the two it brings nearer to the target; where it brings neither nearer it may be a taste: unaccounted for, and the portion before is doubted |
//! | a third to half a target that makes no portion better | a portion of its own, doubted: a half one |
//! | by a spoonful more than a quarter of the target away from it | a portion, doubted: something else may have had a share in it |
//! | a spoonful in two goes that are four seconds apart | a portion, doubted: it may be two halves |
//! | the load changes by a little with no knock, as under an apron | the level follows; until it changes back, and for a while after it rose so, portions are doubted |
//! | a spoonful within the first second and a half of a tin | a portion, doubted |
//! | a spoonful out of a tin that lay level but was not steady | a portion |
//! | the tin is heavier by a little after a spoon has worked in it | a notice that it was filled and that what was taken meanwhile is not counted |
//! | the tin drips or dries | the level follows; what is lost while a spoon works is taken off the portion |
//! | two halves, each more than half a target | one portion, if together they lie nearer to the target than either |
//! | a little comes back soon after a portion | corrects that portion |
//! | most or all of it comes back | the portion is open again: what is taken next replaces it |
//! | the spoon pushes, a hand leans, a bump | nothing: only equilibria count |
//! | a hand rests steady and leaves | nothing: the tin weighs what it did before |
//! | the tin is heavier and steady by half a target or more | refilled; never a negative portion |
//! | the same while a spoon works in it | refilled, and a notice that what was taken meanwhile is not counted |
//! | a tool is laid in the tin and leaves again | nothing |
//! | it leaves together with a spoonful | the portion is the spoonful, if that lies nearer to the target than tool and spoonful together |
//! | the tin is lifted off and comes back as it was | nothing but notices |
//! | it comes back lighter by 0.5 to 1.5 targets within two minutes | a portion, doubted: taken off the pan |
//! | lighter by more | unaccounted for |
//! | heavier | refilled |
//! | tins are swapped and the pan never reads zero | the same rules |
//! | the pan is empty after a drop that is on target | the last piece, a portion: there was no tin under it |
//! | creep | the level follows, at most 0.1 g/s |
//! | weighing is interrupted | the same rules as for a tin that was lifted off |

use super::leak::Leak;
use super::level::{Held, Level};
use super::settings::{PortionSettings, Shares};
use super::touch::Touch;
use super::{CAREFUL, Draft, Event, Events, give, tell};
use crate::signal::Weight;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{Goal, Mass, Notice, Phase, Uptime, Verdict};

/// A portion may be corrected for so long.
const CORRECTION_MS: u64 = 20_000;
/// Less than half a target, taken after a portion that was enough, waits so
/// long to be the beginning of the next before it corrects the last.
const NEXT_BEGINS_MS: u64 = 4_000;
/// Less than half a target, taken without a portion before it, waits so long
/// for the rest.
const REST_MS: u64 = 20_000;
/// A rise is told as a refill after so long: a hand has left by then.
const REFILL_MS: u64 = 3_000;
/// Rises that follow within this belong to one pouring.
const POURING_MS: u64 = 5_000;
/// What was laid in or on the tin is remembered for so long.
const TOOL_MS: u64 = 60_000;
/// A new tin may still have a hand on it for so long.
const HAND_ON_NEW_TIN_MS: u64 = 1_500;
/// The pan reads empty for so long before the tin is called away.
const AWAY_MS: u64 = 600;
/// An interruption of no more is none: nobody can take a spoonful in it.
const BLINK_MS: u64 = 300;
/// Where an empty pan may be the last piece taken, it is given so long to be
/// steady.
const LAST_PIECE_MS: u64 = 2_000;
/// A light tin may seem gone for a moment when the table is bumped.
const LIGHT_TIN_GONE_MS: u64 = 200;
/// A heavier one only when it is knocked from below, which is over in less;
/// nobody takes a tin off and sets one down as fast.
const HEAVY_TIN_GONE_MS: u64 = 100;
/// From here on a tin is heavy.
const HEAVY_TIN: Mass = Mass::from_grams(100);
/// A tin that was away for longer may be another tin, so its mass says
/// nothing of portions.
const SAME_TIN_MS: u64 = 120_000;
/// How fast the level of a steady tin follows, a second. Water at 80 degC in
/// still air dries at some 2 kg a square metre and hour, 0.04 g/s from a tin
/// of 0.07 square metres (estimate, no source); creep of such cells is a
/// hundred times slower. Food that is taken leaves far faster.
const DRIFT_RATE: Mass = Mass::from_milligrams(40);
/// The same where what is lost meanwhile is taken off a portion: a tin that drips
/// loses 280 g an hour (estimate, no source).
const LEAK_RATE: Mass = Mass::from_milligrams(100);

/// More that follows a portion within this is a part of it.
const AT_ONCE_MS: u64 = 1_000;
/// What follows it later than this may be for itself.
const ONE_PORTION_MS: u64 = 3_500;
/// A spoon that takes food presses by so much more than it takes.
const SPOON: Mass = Mass::from_grams(5);
/// A tin that is believed before it is steady is known this well.
const CALM_NOISE: Mass = Mass::from_milligrams(25);
/// It presses for so long at least, until the tin is steady again; what is put back is
/// put back sooner.
const SPOON_MS: u64 = 1_100;
/// What drips from a tin does not move the load by more at once.
const DRIP: Mass = Mass::from_grams(1);
/// What was put back and taken out again is the same portion if it differs by
/// no more.
const SAME_AGAIN: Mass = Mass::from_milligrams(50);

/// The last portion, while it may still be corrected.
#[derive(Debug, Clone, Copy)]
struct Recent {
    number: Option<u32>,
    mass: Mass,
    noise: Mass,
    astray: Mass,
    /// How far something pressed beyond every load before it.
    pressed: Mass,
    doubts: Doubts,
    /// What the tin lost by itself while it was taken, which is no part of it.
    leaked: Mass,
    at: Uptime,
}

/// A rise of the level that may be a refill, a hand or a tool.
#[derive(Debug, Clone, Copy)]
struct Risen {
    /// The level before it.
    from: Level,
    /// The level before the last part of it.
    last_from: Mass,
    by: Mass,
    at: Uptime,
    told: bool,
    /// A spoon pressed meanwhile.
    worked: bool,
    /// What the level, the portion and the number were before the rise, for
    /// when it turns out to have been a hand.
    recent: Option<Recent>,
    undone: Option<u32>,
}

/// A part of a spoonful that waits for the rest.
#[derive(Debug, Clone, Copy)]
struct Part {
    since: Uptime,
    /// How much, as last measured.
    taken: Mass,
    /// Whether it is what remains of a portion that came back.
    reopened: bool,
}

/// A tin on the pan.
#[derive(Debug, Clone, Copy)]
struct Tin {
    level: Level,
    placed: Uptime,
    part: Option<Part>,
    risen: Option<Risen>,
    gone: Held,
    /// Since the last equilibrium the pan was nearly empty.
    dipped: Option<Uptime>,
    /// How far the load has been from the level since it was at it.
    astray: Mass,
    /// How long something has pressed on it, now and at most since then.
    pressed: Held,
    pressed_ms: u64,
    /// The most that was on it since it was placed, now and at the last portion.
    highest: Mass,
    highest_before: Mass,
    /// What it loses by itself.
    leak: Leak,
    /// The newest weight was an equilibrium.
    steady: bool,
}

impl Tin {
    const fn new(level: Level) -> Self {
        Self {
            level,
            placed: level.since,
            part: None,
            risen: None,
            gone: Held::NEVER,
            dipped: None,
            astray: Mass::ZERO,
            pressed: Held::NEVER,
            pressed_ms: 0,
            highest: level.gross,
            highest_before: level.gross,
            leak: Leak::NONE,
            steady: true,
        }
    }

    /// The rise that nobody was told of yet, where it is as much as this.
    fn untold(&self, least: Mass) -> Option<&Risen> {
        self.risen
            .as_ref()
            .filter(|risen| !risen.told && risen.by >= least)
    }

    /// Its level is what it weighs now, and nothing waits to be explained.
    fn rest_at(&mut self, weight: &Weight) {
        self.level.set(weight);
        self.part = None;
    }
}

/// Why the tin was not watched for a while.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reason {
    /// It was lifted off, and the cook was told.
    Lifted,
    /// Its last piece was taken, or it weighed just as much.
    LastPiece,
    /// The pan was nearly empty for a moment.
    Dip,
    /// A fault.
    Blind,
}

/// That the tin was not watched for a while.
#[derive(Debug, Clone, Copy)]
struct Absence {
    since: Uptime,
    reason: Reason,
}

/// Where the tin is. One machine has one tin, which stays where it is in
/// memory: moving it about with the state would take most of the code.
#[derive(Debug, Clone, Copy)]
enum State {
    Await,
    Settling,
    On,
    Away(Absence),
    /// Weighing was interrupted at this moment with the tin on the pan.
    Blind(Uptime),
}

/// The machine for portions out of a tin.
#[derive(Debug, Clone)]
// In this order of fields: 40 bytes less of the emulated board's flash.
#[repr(C)]
pub struct Taking {
    goal: Goal,
    settings: PortionSettings,
    state: State,
    pan: Mass,
    undone: Option<u32>,
    amount: Option<Mass>,
    spooning: bool,
    recent: Option<Recent>,
    /// What touches the pan, by how the load changed with no knock.
    touch: Touch,
    /// A tin that is not steady yet, where it lay level for a moment.
    coming: Option<Level>,
    /// The tin on the pan, or as it was before it was away; means nothing
    /// while none is known.
    tin: Tin,
}

impl Taking {
    /// A machine for a run that begins.
    #[must_use]
    pub const fn new(goal: Goal, settings: PortionSettings) -> Self {
        Self {
            goal,
            settings,
            state: State::Await,
            tin: Tin::new(Level::NONE),
            pan: Mass::ZERO,
            recent: None,
            undone: None,
            touch: Touch::NONE,
            coming: None,
            amount: None,
            spooning: false,
        }
    }

    /// Takes the next weight.
    pub fn take(&mut self, weight: &Weight) -> Events {
        let mut events = Events::new();
        match self.state {
            State::Await | State::Settling => self.await_tin(weight),
            State::On => self.watch(weight, &mut events),
            State::Away(absence) => self.look_out(absence, weight, &mut events),
            State::Blind(since) => {
                if weight.at.since(since) <= BLINK_MS {
                    self.watch(weight, &mut events);
                } else {
                    self.close_part(since, &mut events);
                    let absence = Absence {
                        since: self.tin.dipped.unwrap_or(since),
                        reason: Reason::Blind,
                    };
                    self.state = State::Away(absence);
                    if events.is_empty() {
                        self.look_out(absence, weight, &mut events);
                    }
                }
            }
        }
        let step = self.settings.step_at(weight, self.goal);
        self.amount = None;
        self.spooning = false;
        if let State::On = self.state {
            let taken = self.tin.level.gross - weight.gross;
            self.spooning =
                self.tin.part.is_some() || (!weight.stable && taken.abs() > step.times(3));
            self.amount = (self.spooning && taken > step).then_some(taken);
        }
        events
    }

    fn await_tin(&mut self, weight: &Weight) {
        if weight.gross - self.pan < self.settings.lightest_dish {
            self.state = State::Await;
            self.coming = None;
            if weight.stable {
                self.pan = weight.gross;
            }
        } else if weight.stable {
            self.stand(weight);
        } else if CAREFUL && let Some(coming) = self.spooned_early(weight) {
            self.tin = Tin::new(coming);
            self.state = State::On;
        } else {
            self.state = State::Settling;
            if CAREFUL && is_calm(weight) {
                self.coming = Some(Level::of(weight));
            }
        }
    }

    /// A tin stands on the pan of which nothing else is known.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn stand(&mut self, weight: &Weight) {
        self.tin = Tin::new(Level::of(weight));
        self.coming = None;
        self.state = State::On;
    }

    /// The same for a tin that has been there since it was placed.
    fn stand_as_before(&mut self, weight: &Weight) {
        let Tin {
            placed,
            highest,
            highest_before,
            leak,
            ..
        } = self.tin;
        self.stand(weight);
        if CAREFUL {
            self.tin.leak = leak;
        }
        self.tin.placed = placed;
        self.tin.highest = highest;
        self.tin.highest_before = highest_before;
    }

    /// A tin is on the pan.
    fn watch(&mut self, weight: &Weight, events: &mut Events) {
        self.state = State::On;
        let load = weight.gross - self.pan;
        let tin_load = self.tin.level.gross - self.pan;
        let nearly_empty = if tin_load > self.goal.target().times(5) {
            tin_load.fraction(1, 5).unwrap_or(Mass::ZERO)
        } else {
            self.settings.lightest_dish
        };
        let gone = load < nearly_empty;
        let gone_ms = self.tin.gone.update(gone, weight.at);
        self.tin.steady = weight.stable && !gone;
        let drop = self.tin.level.gross - weight.gross;
        self.tin.astray = self.tin.astray.max(drop.abs());
        self.tin.highest = self.tin.highest.max(weight.gross);
        if CAREFUL {
            let presses = drop < -SPOON.times(3);
            let pressed_ms = self.tin.pressed.update(presses, weight.at);
            self.tin.pressed_ms = self.tin.pressed_ms.max(pressed_ms);
        }
        if gone {
            let since = Uptime::from_millis(weight.at.millis().saturating_sub(gone_ms));
            let knock_ms = if tin_load >= HEAVY_TIN {
                HEAVY_TIN_GONE_MS
            } else {
                LIGHT_TIN_GONE_MS
            };
            if gone_ms >= knock_ms {
                self.tin.dipped.get_or_insert(since);
            }
            let empty = load < self.settings.lightest_dish;
            let last_piece = empty && self.goal.judge(drop) == Verdict::On;
            if weight.stable && last_piece {
                self.portion(drop, weight, Doubts::NONE, events);
                self.leave(since, Reason::LastPiece, events);
                return;
            }
            let patience = if last_piece { LAST_PIECE_MS } else { AWAY_MS };
            if weight.stable || gone_ms >= patience {
                self.close_part(since, events);
                let absence = self.leave(since, Reason::Lifted, events);
                if weight.stable && !empty {
                    // Something much lighter stands in its place already.
                    self.come_back(absence, weight, events);
                }
            }
            return;
        }
        if !weight.stable {
            if CAREFUL && drop.abs() > DRIP {
                self.tin.leak.look_away();
            }
            return;
        }
        if let Some(since) = self.tin.dipped.take()
            && drop.abs() > self.settings.placement(tin_load)
        {
            let absence = Absence {
                since,
                reason: Reason::Dip,
            };
            self.come_back(absence, weight, events);
            return;
        }
        self.settle(weight, events);
    }

    fn leave(&mut self, since: Uptime, reason: Reason, events: &mut Events) -> Absence {
        self.tell_refill(events);
        tell(events, Notice::TinAway);
        let absence = Absence { since, reason };
        self.state = State::Away(absence);
        absence
    }

    /// Tells of a refill that nobody was told of.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn tell_refill(&self, events: &mut Events) {
        if let Some(risen) = self.tin.untold(self.goal.half()) {
            tell_refilled(risen, events);
        }
    }

    /// The tin is off the pan, or was unseen.
    fn look_out(&mut self, absence: Absence, weight: &Weight, events: &mut Events) {
        if !weight.stable {
            if CAREFUL {
                self.look_closely(absence, weight, events);
            }
            return;
        }
        if CAREFUL {
            self.coming = None;
        }
        if weight.gross - self.pan >= self.settings.lightest_dish {
            self.come_back(absence, weight, events);
            return;
        }
        self.pan = weight.gross;
        if absence.reason == Reason::Blind {
            self.state = State::Away(Absence {
                reason: Reason::Lifted,
                ..absence
            });
            tell(events, Notice::TinAway);
        }
    }

    /// The same before anything is steady: somebody may take a spoonful out of a tin
    /// that has only just come.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn look_closely(&mut self, absence: Absence, weight: &Weight, events: &mut Events) {
        if weight.gross - self.pan < self.settings.lightest_dish {
            self.coming = None;
        } else if let Some(coming) = self.spooned_early(weight) {
            self.come_back(absence, &coming.as_weight(), events);
        } else if is_calm(weight) {
            self.coming = Some(Level::of(weight));
        }
    }

    /// A tin that lay level for a moment and has a spoon in it before it was steady.
    fn spooned_early(&mut self, weight: &Weight) -> Option<Level> {
        let coming = self.coming?;
        let spoon = (weight.gross - coming.gross).abs() > SPOON && !weight.calm;
        if spoon {
            self.coming = None;
        }
        spoon.then_some(coming)
    }

    /// A tin stands on the pan again after it was away or unseen.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn come_back(&mut self, absence: Absence, weight: &Weight, events: &mut Events) {
        self.compare(absence, weight, events);
        if absence.reason == Reason::Blind {
            self.stand_as_before(weight);
        } else {
            self.stand(weight);
        }
    }

    /// Makes of a tin that is back what its weight says.
    fn compare(&mut self, absence: Absence, weight: &Weight, events: &mut Events) {
        let lighter = self.tin.level.gross - weight.gross;
        let same = lighter.abs() <= self.settings.placement(weight.gross - self.pan);
        if absence.reason == Reason::LastPiece {
            let recent = self.recent.take();
            if same {
                // It was no piece but the tin itself.
                self.undone = recent.and_then(|recent| recent.number);
                tell(events, Notice::TinBack(-lighter));
            }
            return;
        }
        self.forget_old(weight);
        let half = self.goal.half();
        if same {
            if absence.reason == Reason::Lifted {
                tell(events, Notice::TinBack(-lighter));
            }
        } else if lighter >= half {
            if lighter <= self.goal.one_and_a_half()
                && weight.at.since(absence.since) <= SAME_TIN_MS
            {
                self.tin.astray = Mass::ZERO;
                self.portion(lighter, weight, Doubts::TAKEN_OFF_PAN, events);
            } else {
                tell(events, Notice::Unaccounted(lighter));
            }
        } else if -lighter >= half {
            tell(events, Notice::Refilled(-lighter));
        } else {
            tell(events, Notice::TinBack(-lighter));
        }
    }

    /// Forgets a portion that may no longer be corrected.
    fn forget_old(&mut self, weight: &Weight) {
        if let Some(recent) = &self.recent
            && weight.at.since(recent.at) > CORRECTION_MS
        {
            self.recent = None;
        }
    }

    /// An equilibrium with a tin on the pan.
    fn settle(&mut self, weight: &Weight, events: &mut Events) {
        let step = self.settings.step_at(weight, self.goal);
        if self.tin.part.is_none() {
            self.forget_old(weight);
        }
        if let Some(risen) = &mut self.tin.risen {
            let age = weight.at.since(risen.at);
            if !risen.told && age >= REFILL_MS && risen.by >= self.goal.half() {
                risen.told = true;
                tell_refilled(risen, events);
            }
            if age > TOOL_MS {
                self.tin.risen = None;
            }
        }
        if CAREFUL {
            self.touch.forget_old(weight.at);
        }
        let taken = self.tin.level.gross - weight.gross;
        let mut touched = false;
        if CAREFUL && taken > step && self.tin.astray <= DRIP && self.tin.part.is_none() {
            let lost = self.tin.leak.between(self.tin.level.seen_at(), weight.at);
            if taken <= lost.times(2) + step {
                // It drips faster than the level follows.
                self.tin.leak.watch(weight.at, weight.gross);
                self.tin.level.set(weight);
                self.tin.astray = Mass::ZERO;
                return;
            }
        }
        if CAREFUL
            && taken.abs() > step
            && self.tin.part.is_none()
            && self.touch.came_by_itself(taken, self.tin.astray)
        {
            // Nobody did that: an apron leans on the pan, a cable pulls at it; or food came
            // or went very gently.
            let touches = self.touch.change(-taken, step, weight.at);
            if touches && taken < Mass::ZERO {
                self.touch.was_seen(weight.at);
            }
            if let Some(recent) = &mut self.recent {
                let better =
                    self.goal.distance(recent.mass + taken) < self.goal.distance(recent.mass);
                if !better && !recent.doubts.contains(Doubts::TOUCHED) {
                    recent.doubts = recent.doubts.union(Doubts::TOUCHED);
                    touched = true;
                }
            } else if taken < self.goal.half() {
                self.tin.rest_at(weight);
                self.tin.astray = Mass::ZERO;
                return;
            }
        }
        if taken.abs() <= step {
            // The tin is where it was.
            self.tin.part = None;
            self.tin.astray = Mass::ZERO;
            if CAREFUL {
                self.tin.pressed_ms = 0;
                self.tin.level.follow(weight, LEAK_RATE);
                self.tin.leak.watch(weight.at, self.tin.level.gross);
            } else {
                self.tin.level.follow(weight, DRIFT_RATE);
            }
        } else if weight.at.since(self.tin.placed) <= HAND_ON_NEW_TIN_MS
            && (!CAREFUL || taken > Mass::ZERO)
        {
            // A hand has left it, or somebody was quick.
            if CAREFUL && self.goal.may_be_one(taken) && self.tin.astray > taken + SPOON {
                self.portion(taken, weight, Doubts::HASTY, events);
            }
            self.stand_as_before(weight);
        } else if taken > Mass::ZERO {
            if let Some(taken) = self.without_what_rose(taken, weight, events) {
                self.drop(taken, weight, events);
            }
        } else {
            self.rise(-taken, weight, events);
        }
        if touched && events.is_empty() {
            self.give_again(weight, events);
        }
    }

    /// The tin is lighter after it had become heavier: gives what of that was
    /// taken out of it; `None` where nothing was.
    fn without_what_rose(
        &mut self,
        taken: Mass,
        weight: &Weight,
        events: &mut Events,
    ) -> Option<Mass> {
        let same = self.settings.step_at(weight, self.goal).times(2);
        let Some(risen) = &mut self.tin.risen else {
            return Some(taken);
        };
        let without = risen.from.gross - weight.gross;
        if without.abs() <= same {
            // A hand or a tool has left, and nothing with it; or what came back from
            // a portion was taken out again.
            let reopened = self.recent.is_none();
            self.recent = risen.recent;
            self.undone = risen.undone;
            self.tin.risen = None;
            self.tin.rest_at(weight);
            if reopened && without.abs() > SAME_AGAIN {
                self.correct(without, weight, events);
            }
            return None;
        }
        let last = risen.last_from - weight.gross;
        let pouring = weight.at.since(risen.at) < REFILL_MS
            && !risen.told
            && taken < self.goal.half()
            && taken < risen.by;
        if last.abs() <= same || pouring {
            // The refill stays; what came after it has left.
            risen.by -= taken;
            self.tin.level.set(weight);
            return None;
        }
        if without > Mass::ZERO
            && risen.by >= self.goal.half()
            && was_tool(&self.goal, taken, without)
        {
            self.tin.level = risen.from;
            self.tin.risen = None;
            return Some(without);
        }
        Some(taken)
    }

    /// The tin is lighter by this.
    fn drop(&mut self, taken: Mass, weight: &Weight, events: &mut Events) {
        if taken < self.goal.half() {
            self.part(taken, weight, events);
            return;
        }
        if CAREFUL
            && let Some(part) = self.tin.part
            && !part.reopened
            && self.is_for_itself(part, taken, weight.at)
        {
            // A half portion, or a taste. What came now is looked at with the next weight.
            self.stray(part.taken, weight, events);
            self.tin.level.move_to(self.tin.level.gross - part.taken);
            self.tin.part = None;
            return;
        }
        if let Some(part) = self.tin.part
            && !part.reopened
            && self.was_afterthought(part, taken, weight.at)
        {
            // The part belonged to the portion before; what came now is looked at with
            // the next weight.
            self.doubt_if_late(part.taken, weight);
            self.correct(part.taken, weight, events);
            self.tin.level.move_to(self.tin.level.gross - part.taken);
            self.tin.part = None;
            return;
        }
        if taken > self.goal.too_much() {
            tell(events, Notice::Unaccounted(taken));
            self.recent = None;
        } else {
            if self.belongs_to_recent(taken) {
                self.doubt_if_late(taken, weight);
                self.correct(taken, weight, events);
            } else {
                let two = taken >= self.goal.maybe_two() || self.is_of_two(weight.at);
                let odd = self.goal.distance(taken) > self.goal.quarter();
                let doubts = if two {
                    Doubts::MAYBE_TWO
                } else if CAREFUL && odd {
                    // A spoonful so far from the target may have had a share in something else.
                    Doubts::MAYBE_CHANGED
                } else {
                    Doubts::NONE
                };
                self.portion(taken, weight, doubts, events);
            }
            self.tell_refill(events);
        }
        self.stand_as_before(weight);
    }

    /// Whether a part makes neither the portion before it nor the spoonful after
    /// it, with which it is `taken`, a better one.
    fn is_for_itself(&self, part: Part, taken: Mass, now: Uptime) -> bool {
        let alone = if self.recent.is_some() {
            self.spoils_recent(part.taken)
        } else {
            // Two parts of one spoonful follow each other sooner.
            now.since(part.since) >= NEXT_BEGINS_MS
        };
        alone
            && self.goal.judge(taken) != Verdict::On
            && self.goal.distance(taken - part.taken) < self.goal.distance(taken)
    }

    /// Whether what is out now was taken in two goes so far apart that each may be a
    /// half portion.
    fn is_of_two(&self, now: Uptime) -> bool {
        CAREFUL
            && self.tin.part.is_some_and(|part| {
                !part.reopened
                    && part.taken >= self.goal.quarter()
                    && now.since(part.since) >= NEXT_BEGINS_MS
            })
    }

    /// Whether the portion before was right and would not be with so much more.
    fn spoils_recent(&self, more: Mass) -> bool {
        self.recent.as_ref().is_some_and(|recent| {
            self.goal.judge(recent.mass) == Verdict::On
                && self.goal.judge(recent.mass + more) != Verdict::On
        })
    }

    /// Whether a part belonged to the portion before, rather than to the
    /// spoonful with which it makes `taken` now: whichever brings both nearer
    /// to the target; or where that says little, whichever was nearer in time.
    fn was_afterthought(&self, part: Part, taken: Mass, now: Uptime) -> bool {
        let Some(recent) = &self.recent else {
            return false;
        };
        let before =
            self.goal.distance(recent.mass + part.taken) + self.goal.distance(taken - part.taken);
        let after = self.goal.distance(recent.mass) + self.goal.distance(taken);
        if (before - after).abs() < self.goal.tenth() {
            part.since.since(recent.at) < now.since(part.since)
        } else {
            before < after
        }
    }

    /// A part that still waits when the tin leaves belongs to the portion
    /// before.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn close_part(&mut self, at: Uptime, events: &mut Events) {
        let Some(part) = self.tin.part.take() else {
            return;
        };
        let weight = Weight {
            at,
            gross: self.tin.level.gross - part.taken,
            stable: true,
            noise: self.tin.level.noise,
            calm: true,
        };
        if part.reopened {
            self.portion(part.taken, &weight, Doubts::NONE, events);
        } else if self.recent.is_some() {
            self.correct(part.taken, &weight, events);
        } else if part.taken >= self.goal.tenth() {
            tell(events, Notice::Unaccounted(part.taken));
        }
        self.tin.level.move_to(weight.gross);
    }

    /// Whether what was taken is the other half of the last portion: that was
    /// short, and both together lie nearer to the target than either.
    fn belongs_to_recent(&self, taken: Mass) -> bool {
        let Some(recent) = &self.recent else {
            return false;
        };
        let both = self.goal.distance(recent.mass + taken);
        self.goal.judge(recent.mass) == Verdict::Short
            && both < self.goal.distance(recent.mass)
            && both < self.goal.distance(taken)
    }

    /// Less than half a target is out of the tin.
    fn part(&mut self, taken: Mass, weight: &Weight, events: &mut Events) {
        let part = self.tin.part.get_or_insert(Part {
            since: weight.at,
            taken,
            reopened: false,
        });
        part.taken = taken;
        let waited = weight.at.since(part.since);
        if part.reopened {
            // What is still out of a portion that mostly came back.
            if waited >= REST_MS {
                self.portion(taken, weight, Doubts::NONE, events);
                self.stand_as_before(weight);
            }
            return;
        }
        if let Some(recent) = &self.recent {
            let short = self.goal.judge(recent.mass) == Verdict::Short;
            let gap = part.since.since(recent.at);
            if !short && waited < NEXT_BEGINS_MS {
                return;
            }
            if CAREFUL
                && self.spoils_recent(taken)
                && (gap >= AT_ONCE_MS || taken >= self.goal.quarter())
            {
                // It makes no better portion of that one.
                self.stray(taken, weight, events);
            } else {
                self.doubt_if_late(taken, weight);
                self.correct(taken, weight, events);
            }
        } else {
            if waited < REST_MS {
                return;
            }
            if taken >= self.goal.tenth() {
                tell(events, Notice::Unaccounted(taken));
            }
        }
        self.tin.rest_at(weight);
    }

    /// Less than half a target is out that belongs to no portion for certain: a
    /// taste, or a half portion.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn stray(&mut self, taken: Mass, weight: &Weight, events: &mut Events) {
        if taken >= self.goal.third() {
            self.portion(taken, weight, Doubts::MAYBE_CHANGED, events);
            self.recent = None;
        } else {
            self.doubt_recent(Doubts::MAYBE_CHANGED, weight, events);
            if taken >= self.goal.tenth() || events.is_empty() {
                tell(events, Notice::Unaccounted(taken));
            }
        }
    }

    /// Gives the recent portion again with a doubt.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn doubt_recent(&mut self, doubts: Doubts, weight: &Weight, events: &mut Events) {
        let Some(recent) = &mut self.recent else {
            return;
        };
        if recent.doubts.contains(doubts) || recent.number.is_none() {
            return;
        }
        recent.doubts = recent.doubts.union(doubts);
        self.give_again(weight, events);
    }

    /// Gives the recent portion again with what is known of it now, where it has a
    /// number.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn give_again(&mut self, weight: &Weight, events: &mut Events) {
        if let Some(recent) = &mut self.recent
            && let Some(number) = recent.number.take()
        {
            self.draft(Some(number), weight, events);
        }
    }

    /// What comes to the recent portion so late may be one by itself, and what
    /// makes it heavy may be a taste.
    fn doubt_if_late(&mut self, more: Mass, weight: &Weight) {
        if CAREFUL
            && let Some(recent) = &mut self.recent
            && (weight.at.since(recent.at) > ONE_PORTION_MS
                || self.goal.judge(recent.mass + more) == Verdict::Heavy)
        {
            recent.doubts = recent.doubts.union(Doubts::MAYBE_CHANGED);
        }
    }

    /// The tin is heavier.
    fn rise(&mut self, by: Mass, weight: &Weight, events: &mut Events) {
        let band = self.settings.placement(weight.gross - self.pan);
        // A spoon worked in it, and it is heavier: somebody poured.
        let poured = CAREFUL
            && core::mem::take(&mut self.tin.pressed_ms) >= SPOON_MS
            && self.tin.astray > by + SPOON.times(3);
        if poured && by < self.goal.half() {
            tell(events, Notice::FilledWhileTaken(by));
            self.recent = None;
            self.tin.rest_at(weight);
            return;
        }
        if let Some(recent) = &self.recent
            && !poured
            && by <= recent.mass + band
        {
            let out = recent.mass - by;
            if out >= self.goal.half() {
                self.correct(-by, weight, events);
                self.tin.level.set(weight);
            } else {
                self.open_again(out.max(Mass::ZERO), by, weight);
            }
            return;
        }
        match &mut self.tin.risen {
            Some(risen) if weight.at.since(risen.at) <= POURING_MS => {
                // What was told already is not told again.
                if risen.told {
                    risen.by = by;
                } else {
                    risen.by += by;
                }
                risen.last_from = self.tin.level.gross;
                risen.at = weight.at;
                risen.told = false;
                risen.worked |= self.tin.astray > by + SPOON.times(3);
            }
            _ => self.remember_rise(by, weight, false),
        }
        self.recent = None;
        self.tin.rest_at(weight);
    }

    /// Most or all of the recent portion came back, all but `out`: it is
    /// measured again from where the tin was before it.
    fn open_again(&mut self, out: Mass, by: Mass, weight: &Weight) {
        self.remember_rise(by, weight, true);
        self.undone = self.recent.take().and_then(|recent| recent.number);
        self.tin.level.set(weight);
        self.tin.level.move_to(weight.gross + out);
        self.tin.part = (out > Mass::ZERO).then_some(Part {
            since: weight.at,
            taken: out,
            reopened: true,
        });
    }

    /// Remembers what things were before the tin became heavier.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn remember_rise(&mut self, by: Mass, weight: &Weight, told: bool) {
        self.tin.risen = Some(Risen {
            from: self.tin.level,
            last_from: self.tin.level.gross,
            by,
            at: weight.at,
            told,
            worked: self.tin.astray > by + SPOON.times(3),
            recent: self.recent,
            undone: self.undone,
        });
    }

    /// Gives a portion that was measured between two equilibria.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn portion(&mut self, mass: Mass, weight: &Weight, doubts: Doubts, events: &mut Events) {
        let replaces = self.undone.take();
        let doubts = if CAREFUL && self.touch.is_about(Mass::ZERO, weight.at) {
            doubts.union(Doubts::TOUCHED)
        } else {
            doubts
        };
        let leaked = if CAREFUL {
            let from = self.tin.level.seen_at();
            self.tin
                .leak
                .between(from, weight.at)
                .min(self.goal.tenth())
        } else {
            Mass::ZERO
        };
        self.recent = Some(Recent {
            number: None,
            mass: mass - leaked,
            leaked,
            noise: self.tin.level.noise,
            astray: self.tin.astray,
            pressed: self.tin.highest - self.tin.highest_before,
            doubts,
            at: weight.at,
        });
        self.tin.highest_before = self.tin.highest;
        self.draft(replaces, weight, events);
    }

    /// Gives the recent portion again with so much more in it.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn correct(&mut self, more: Mass, weight: &Weight, events: &mut Events) {
        let Some(recent) = &mut self.recent else {
            return;
        };
        recent.mass += more;
        if recent.mass >= self.goal.maybe_two() {
            recent.doubts = recent.doubts.union(Doubts::MAYBE_TWO);
        }
        recent.at = weight.at;
        let replaces = recent.number.take();
        self.draft(replaces, weight, events);
    }

    /// Gives the recent portion.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn draft(&self, replaces: Option<u32>, weight: &Weight, events: &mut Events) {
        let Some(recent) = &self.recent else {
            return;
        };
        give(
            events,
            Event::Portion(Draft {
                at: weight.at,
                mass: recent.mass,
                replaces,
                doubts: recent.doubts,
                uncertainty: self
                    .settings
                    .expanded(recent.noise, weight.noise, recent.astray)
                    + recent.leaked,
                pressed: recent.pressed,
                left: Some(weight.gross),
            }),
        );
    }

    /// See [`Portioning::numbered`](super::Portioning::numbered).
    pub fn numbered(&mut self, number: Option<u32>) {
        if let Some(recent) = &mut self.recent {
            recent.number = number;
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
        self.spooning = false;
        match self.state {
            State::On => self.state = State::Blind(at),
            State::Settling => self.state = State::Await,
            State::Await | State::Away(_) | State::Blind(..) => {}
        }
    }

    /// See [`Portioning::zeroed`](super::Portioning::zeroed).
    pub fn zeroed(&mut self, shift: Mass) {
        self.pan -= shift;
        // A tin that is not there has nothing to shift, and it does no harm.
        self.tin.level.gross -= shift;
        if let Some(coming) = &mut self.coming {
            coming.gross -= shift;
        }
        self.tin.highest -= shift;
        self.tin.highest_before -= shift;
        if let Some(risen) = &mut self.tin.risen {
            risen.from.gross -= shift;
            risen.last_from -= shift;
        }
    }

    /// See [`Portioning::tare`](super::Portioning::tare).
    pub fn tare_now(&mut self, weight: &Weight) -> bool {
        if !weight.stable || weight.gross - self.pan < self.settings.lightest_dish {
            return false;
        }
        self.recent = None;
        self.stand(weight);
        true
    }

    /// See [`Portioning::unsettled`](super::Portioning::unsettled).
    #[must_use]
    pub const fn unsettled(&self) -> bool {
        match self.state {
            State::On => !self.tin.steady,
            State::Await | State::Settling | State::Away(_) | State::Blind(..) => false,
        }
    }

    /// Ends the run. A part of a portion that waited for its rest corrects the
    /// one before, or is unaccounted for.
    pub fn finish(&mut self, at: Uptime) -> Events {
        let mut events = Events::new();
        let state = core::mem::replace(&mut self.state, State::Await);
        if let State::On = state {
            self.tell_refill(&mut events);
            if self.tin.steady {
                self.close_part(at, &mut events);
            }
        }
        self.amount = None;
        self.spooning = false;
        events
    }

    /// What is waited for.
    #[must_use]
    pub const fn phase(&self) -> Phase {
        match self.state {
            State::Await => Phase::AwaitTin,
            State::Settling => Phase::TinSettling,
            State::On if self.spooning => Phase::Spooning,
            State::On | State::Blind(..) => Phase::Ready,
            State::Away(_) => Phase::TinAway,
        }
    }

    /// Food out of the tin in the portion being made.
    #[must_use]
    pub const fn amount(&self) -> Option<Mass> {
        self.amount
    }
}

/// Whether a tin that is not steady is known well enough to be believed. With a hand on
/// it that is about to leave it may look level for a moment.
fn is_calm(weight: &Weight) -> bool {
    weight.calm && weight.noise <= CALM_NOISE
}

/// Says by how much the tin was filled up.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn tell_refilled(risen: &Risen, events: &mut Events) {
    tell(events, Notice::Refilled(risen.by));
    if CAREFUL && risen.worked {
        tell(events, Notice::FilledWhileTaken(risen.by));
    }
}

/// Whether what made the tin heavier was a tool that now left together with
/// the spoonful `without`, rather than food of which `taken` is the spoonful.
fn was_tool(goal: &Goal, taken: Mass, without: Mass) -> bool {
    match (goal.may_be_one(taken), goal.may_be_one(without)) {
        (true, true) => goal.distance(without) < goal.distance(taken),
        (false, true) => true,
        (true, false) => false,
        (false, false) => taken >= goal.maybe_two() && without < goal.half(),
    }
}
