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
//! | a little more soon after a portion that was enough | when the next spoonful is out it belongs to whichever of the two it brings nearer to the target; without one it corrects the portion before after four seconds |
//! | two halves, each more than half a target | one portion, if together they lie nearer to the target than either |
//! | a little comes back soon after a portion | corrects that portion |
//! | most or all of it comes back | the portion is open again: what is taken next replaces it |
//! | the spoon pushes, a hand leans, a bump | nothing: only equilibria count |
//! | a hand rests steady and leaves | nothing: the tin weighs what it did before |
//! | the tin is heavier and steady by half a target or more | refilled; never a negative portion |
//! | a tool is laid in the tin and leaves again | nothing |
//! | it leaves together with a spoonful | the portion is the spoonful, if that lies nearer to the target than tool and spoonful together |
//! | the tin is lifted off and comes back as it was | nothing but notices |
//! | it comes back lighter by 0.5 to 1.5 targets within two minutes | a portion, doubted: taken off the pan |
//! | lighter by more | unaccounted for |
//! | heavier | refilled |
//! | tins are swapped and the pan never reads zero | the same rules |
//! | the pan is empty after a drop that is on target | the last piece, a portion: there was no tin under it |
//! | slow drying, steaming, creep | the level follows, at most 0.04 g/s |
//! | weighing is interrupted | the same rules as for a tin that was lifted off |

use super::level::{Held, Level};
use super::settings::{PortionSettings, Shares};
use super::{Draft, Event, Events, give};
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
    doubts: Doubts,
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
            steady: true,
        }
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

/// A tin that was not watched for a while.
#[derive(Debug, Clone, Copy)]
struct Absence {
    before: Level,
    placed: Uptime,
    since: Uptime,
    reason: Reason,
}

#[derive(Debug, Clone, Copy)]
enum State {
    Await,
    Settling,
    On(Tin),
    Away(Absence),
    /// Weighing was interrupted at this moment with this tin on the pan.
    Blind(Tin, Uptime),
}

/// The machine for portions out of a tin.
#[derive(Debug, Clone)]
pub struct Taking {
    goal: Goal,
    settings: PortionSettings,
    state: State,
    pan: Mass,
    recent: Option<Recent>,
    undone: Option<u32>,
    amount: Option<Mass>,
    spooning: bool,
}

impl Taking {
    /// A machine for a run that begins.
    #[must_use]
    pub const fn new(goal: Goal, settings: PortionSettings) -> Self {
        Self {
            goal,
            settings,
            state: State::Await,
            pan: Mass::ZERO,
            recent: None,
            undone: None,
            amount: None,
            spooning: false,
        }
    }

    /// Takes the next weight.
    pub fn take(&mut self, weight: &Weight) -> Events {
        let mut events = Events::new();
        match self.state {
            State::Await | State::Settling => self.await_tin(weight),
            State::On(tin) => self.watch(tin, weight, &mut events),
            State::Away(absence) => self.look_out(absence, weight, &mut events),
            State::Blind(tin, since) => {
                if weight.at.since(since) <= BLINK_MS {
                    self.watch(tin, weight, &mut events);
                } else {
                    let mut tin = tin;
                    self.close_part(&mut tin, since, &mut events);
                    let absence = Absence {
                        before: tin.level,
                        placed: tin.placed,
                        since: tin.dipped.unwrap_or(since),
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
        if let State::On(tin) = self.state {
            let taken = tin.level.gross - weight.gross;
            self.spooning = tin.part.is_some() || (!weight.stable && taken.abs() > step.times(3));
            self.amount = (self.spooning && taken > step).then_some(taken);
        }
        events
    }

    fn await_tin(&mut self, weight: &Weight) {
        if weight.gross - self.pan < self.settings.lightest_dish {
            self.state = State::Await;
            if weight.stable {
                self.pan = weight.gross;
            }
        } else if weight.stable {
            self.state = State::On(Tin::new(Level::of(weight)));
        } else {
            self.state = State::Settling;
        }
    }

    /// A tin is on the pan.
    fn watch(&mut self, mut tin: Tin, weight: &Weight, events: &mut Events) {
        let load = weight.gross - self.pan;
        let tin_load = tin.level.gross - self.pan;
        let nearly_empty = if tin_load > self.goal.target().times(5) {
            tin_load.fraction(1, 5).unwrap_or(Mass::ZERO)
        } else {
            self.settings.lightest_dish
        };
        let gone = load < nearly_empty;
        let gone_ms = tin.gone.update(gone, weight.at);
        tin.steady = weight.stable && !gone;
        tin.astray = tin.astray.max((weight.gross - tin.level.gross).abs());
        if gone {
            let since = Uptime::from_millis(weight.at.millis().saturating_sub(gone_ms));
            let knock_ms = if tin_load >= HEAVY_TIN {
                HEAVY_TIN_GONE_MS
            } else {
                LIGHT_TIN_GONE_MS
            };
            if gone_ms >= knock_ms {
                tin.dipped.get_or_insert(since);
            }
            let empty = load < self.settings.lightest_dish;
            let drop = tin.level.gross - weight.gross;
            let last_piece = empty && self.goal.judge(drop) == Verdict::On;
            if weight.stable && last_piece {
                self.portion(&tin, drop, weight, Doubts::NONE, events);
                self.leave(&tin, since, Reason::LastPiece, events);
                return;
            }
            let patience = if last_piece { LAST_PIECE_MS } else { AWAY_MS };
            if weight.stable || gone_ms >= patience {
                self.close_part(&mut tin, since, events);
                let absence = self.leave(&tin, since, Reason::Lifted, events);
                if weight.stable && !empty {
                    // Something much lighter stands in its place already.
                    self.come_back(absence, weight, events);
                }
            } else {
                self.state = State::On(tin);
            }
            return;
        }
        if !weight.stable {
            self.state = State::On(tin);
            return;
        }
        if let Some(since) = tin.dipped.take()
            && (weight.gross - tin.level.gross).abs() > self.settings.placement(tin_load)
        {
            let absence = Absence {
                before: tin.level,
                placed: tin.placed,
                since,
                reason: Reason::Dip,
            };
            self.come_back(absence, weight, events);
            return;
        }
        self.settle(tin, weight, events);
    }

    fn leave(&mut self, tin: &Tin, since: Uptime, reason: Reason, events: &mut Events) -> Absence {
        if let Some(risen) = tin.risen
            && !risen.told
            && risen.by >= self.goal.half()
        {
            give(events, Event::Notice(Notice::Refilled(risen.by)));
        }
        give(events, Event::Notice(Notice::TinAway));
        let absence = Absence {
            before: tin.level,
            placed: tin.placed,
            since,
            reason,
        };
        self.state = State::Away(absence);
        absence
    }

    /// The tin is off the pan, or was unseen.
    fn look_out(&mut self, mut absence: Absence, weight: &Weight, events: &mut Events) {
        if !weight.stable {
            return;
        }
        if weight.gross - self.pan >= self.settings.lightest_dish {
            self.come_back(absence, weight, events);
            return;
        }
        self.pan = weight.gross;
        if absence.reason == Reason::Blind {
            absence.reason = Reason::Lifted;
            give(events, Event::Notice(Notice::TinAway));
        }
        self.state = State::Away(absence);
    }

    /// A tin stands on the pan again after it was away or unseen.
    fn come_back(&mut self, absence: Absence, weight: &Weight, events: &mut Events) {
        let Absence {
            before,
            placed,
            since,
            reason,
        } = absence;
        let mut tin = Tin::new(Level::of(weight));
        if reason == Reason::Blind {
            tin.placed = placed;
        }
        self.state = State::On(tin);
        let lighter = before.gross - weight.gross;
        let same = lighter.abs() <= self.settings.placement(weight.gross - self.pan);
        if reason == Reason::LastPiece {
            if same {
                // It was no piece but the tin itself.
                self.undone = self.recent.take().and_then(|recent| recent.number);
                give(events, Event::Notice(Notice::TinBack(-lighter)));
            }
            self.recent = None;
            return;
        }
        self.recent = self
            .recent
            .filter(|recent| weight.at.since(recent.at) <= CORRECTION_MS);
        if same {
            if reason == Reason::Lifted {
                give(events, Event::Notice(Notice::TinBack(-lighter)));
            }
        } else if lighter >= self.goal.half()
            && lighter <= self.goal.one_and_a_half()
            && weight.at.since(since) <= SAME_TIN_MS
        {
            let before = Tin::new(before);
            self.portion(&before, lighter, weight, Doubts::TAKEN_OFF_PAN, events);
        } else if lighter >= self.goal.half() {
            give(events, Event::Notice(Notice::Unaccounted(lighter)));
        } else if -lighter >= self.goal.half() {
            give(events, Event::Notice(Notice::Refilled(-lighter)));
        } else {
            give(events, Event::Notice(Notice::TinBack(-lighter)));
        }
    }

    /// An equilibrium with a tin on the pan.
    fn settle(&mut self, mut tin: Tin, weight: &Weight, events: &mut Events) {
        let step = self.settings.step_at(weight, self.goal);
        self.recent = self
            .recent
            .filter(|recent| tin.part.is_some() || weight.at.since(recent.at) <= CORRECTION_MS);
        if let Some(risen) = &mut tin.risen {
            let age = weight.at.since(risen.at);
            if !risen.told && age >= REFILL_MS && risen.by >= self.goal.half() {
                risen.told = true;
                give(events, Event::Notice(Notice::Refilled(risen.by)));
            }
            if age > TOOL_MS {
                tin.risen = None;
            }
        }
        let taken = tin.level.gross - weight.gross;
        if taken.abs() <= step {
            self.rest(tin, weight);
        } else if weight.at.since(tin.placed) <= HAND_ON_NEW_TIN_MS {
            self.state = State::On(Tin {
                placed: tin.placed,
                ..Tin::new(Level::of(weight))
            });
        } else if taken > Mass::ZERO {
            self.drop(tin, taken, weight, events);
        } else {
            self.rise(tin, -taken, weight, events);
        }
    }

    /// The tin is where it was.
    fn rest(&mut self, mut tin: Tin, weight: &Weight) {
        tin.part = None;
        tin.astray = Mass::ZERO;
        tin.level.follow(weight, DRIFT_RATE);
        self.state = State::On(tin);
    }

    /// The tin is lighter.
    fn drop(&mut self, mut tin: Tin, taken: Mass, weight: &Weight, events: &mut Events) {
        let mut taken = taken;
        if let Some(risen) = tin.risen {
            let without = risen.from.gross - weight.gross;
            if without.abs() <= self.settings.step_at(weight, self.goal).times(2) {
                // A hand or a tool has left, and nothing with it; or what came back from
                // a portion was taken out again.
                let reopened = risen.recent.is_some() && self.recent.is_none();
                self.recent = risen.recent;
                self.undone = risen.undone;
                tin.risen = None;
                tin.part = None;
                tin.level = Level::of(weight);
                self.state = State::On(tin);
                if let Some(recent) = risen.recent
                    && reopened
                    && without.abs() > SAME_AGAIN
                {
                    self.correct(recent, recent.mass + without, weight, events);
                }
                return;
            }
            let last = risen.last_from - weight.gross;
            if last.abs() <= self.settings.step_at(weight, self.goal).times(2) {
                // The refill stays; what came after it has left.
                tin.risen = Some(Risen {
                    by: risen.by - taken,
                    ..risen
                });
                tin.level = Level::of(weight);
                self.state = State::On(tin);
                return;
            }
            let pouring = weight.at.since(risen.at) < REFILL_MS;
            if pouring && !risen.told && taken < self.goal.half() && taken < risen.by {
                tin.risen = Some(Risen {
                    by: risen.by - taken,
                    ..risen
                });
                tin.level = Level::of(weight);
                self.state = State::On(tin);
                return;
            }
            if without > Mass::ZERO && risen.by >= self.goal.half() && self.was_tool(taken, without)
            {
                tin.level = risen.from;
                tin.risen = None;
                taken = without;
            }
        }
        if taken < self.goal.half() {
            self.part(tin, taken, weight, events);
            return;
        }
        if let Some(recent) = self.recent
            && let Some(part) = tin.part
            && !part.reopened
            && self.was_afterthought(&recent, part, taken, weight.at)
        {
            // The part belonged to the portion before; what came now is looked at with
            // the next weight.
            let level = tin.level.gross - part.taken;
            self.correct(recent, recent.mass + part.taken, weight, events);
            tin.level = tin.level.with_gross(level);
            tin.part = None;
            self.state = State::On(tin);
            return;
        }
        if taken > self.goal.too_much() {
            give(events, Event::Notice(Notice::Unaccounted(taken)));
            self.recent = None;
            self.state = State::On(Tin {
                placed: tin.placed,
                ..Tin::new(Level::of(weight))
            });
            return;
        }
        let doubts = if taken >= self.goal.maybe_two() {
            Doubts::MAYBE_TWO
        } else {
            Doubts::NONE
        };
        match self.recent.filter(|recent| self.belongs_to(recent, taken)) {
            Some(recent) => self.correct(recent, recent.mass + taken, weight, events),
            None => self.portion(&tin, taken, weight, doubts, events),
        }
        if let Some(risen) = tin.risen
            && !risen.told
            && risen.by >= self.goal.half()
        {
            give(events, Event::Notice(Notice::Refilled(risen.by)));
        }
        self.state = State::On(Tin {
            placed: tin.placed,
            ..Tin::new(Level::of(weight))
        });
    }

    /// Whether what made the tin heavier was a tool that now left together
    /// with the spoonful `without`, rather than food of which `taken` is the
    /// spoonful.
    fn was_tool(&self, taken: Mass, without: Mass) -> bool {
        match (self.goal.may_be_one(taken), self.goal.may_be_one(without)) {
            (true, true) => self.goal.distance(without) < self.goal.distance(taken),
            (false, true) => true,
            (true, false) => false,
            (false, false) => taken >= self.goal.maybe_two() && without < self.goal.half(),
        }
    }

    /// Whether a part belonged to the portion before, rather than to the
    /// spoonful with which it makes `taken` now: whichever brings both nearer
    /// to the target; or where that says little, whichever was nearer in time.
    fn was_afterthought(&self, recent: &Recent, part: Part, taken: Mass, now: Uptime) -> bool {
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
    fn close_part(&mut self, tin: &mut Tin, at: Uptime, events: &mut Events) {
        let Some(part) = tin.part.take() else {
            return;
        };
        let weight = Weight {
            at,
            gross: tin.level.gross - part.taken,
            stable: true,
            noise: tin.level.noise,
        };
        if part.reopened {
            self.portion(tin, part.taken, &weight, Doubts::NONE, events);
        } else if let Some(recent) = self.recent {
            self.correct(recent, recent.mass + part.taken, &weight, events);
        } else if part.taken >= self.goal.tenth() {
            give(events, Event::Notice(Notice::Unaccounted(part.taken)));
        }
        tin.level = tin.level.with_gross(weight.gross);
    }

    /// Whether what was taken is the other half of the last portion: that was
    /// short, and both together lie nearer to the target than either.
    fn belongs_to(&self, recent: &Recent, taken: Mass) -> bool {
        let both = self.goal.distance(recent.mass + taken);
        self.goal.judge(recent.mass) == Verdict::Short
            && both < self.goal.distance(recent.mass)
            && both < self.goal.distance(taken)
    }

    /// Less than half a target is out of the tin.
    fn part(&mut self, mut tin: Tin, taken: Mass, weight: &Weight, events: &mut Events) {
        let part = tin.part.get_or_insert(Part {
            since: weight.at,
            taken,
            reopened: false,
        });
        part.taken = taken;
        let part = *part;
        let waited = weight.at.since(part.since);
        if part.reopened {
            // What is still out of a portion that mostly came back.
            if waited >= REST_MS {
                self.portion(&tin, taken, weight, Doubts::NONE, events);
                tin = Tin {
                    placed: tin.placed,
                    ..Tin::new(Level::of(weight))
                };
            }
        } else if let Some(recent) = self.recent {
            let short = self.goal.judge(recent.mass) == Verdict::Short;
            if short || waited >= NEXT_BEGINS_MS {
                self.correct(recent, recent.mass + taken, weight, events);
                tin.level = Level::of(weight);
                tin.part = None;
            }
        } else if waited >= REST_MS {
            if taken >= self.goal.tenth() {
                give(events, Event::Notice(Notice::Unaccounted(taken)));
            }
            tin.level = Level::of(weight);
            tin.part = None;
        }
        self.state = State::On(tin);
    }

    /// The tin is heavier.
    fn rise(&mut self, mut tin: Tin, by: Mass, weight: &Weight, events: &mut Events) {
        let band = self.settings.placement(weight.gross - self.pan);
        if let Some(recent) = self.recent
            && by <= recent.mass + band
        {
            let out = recent.mass - by;
            let before = Risen {
                from: tin.level,
                last_from: tin.level.gross,
                by,
                at: weight.at,
                told: true,
                recent: Some(recent),
                undone: self.undone,
            };
            if out >= self.goal.half() {
                self.correct(recent, out, weight, events);
                tin.level = Level::of(weight);
            } else {
                // Open again: measured from where the tin was before it.
                let out = out.max(Mass::ZERO);
                self.recent = None;
                self.undone = recent.number;
                tin.level = Level::of(weight).with_gross(weight.gross + out);
                tin.part = (out > Mass::ZERO).then_some(Part {
                    since: weight.at,
                    taken: out,
                    reopened: true,
                });
                tin.risen = Some(before);
            }
            self.state = State::On(tin);
            return;
        }
        tin.risen = Some(match tin.risen {
            Some(risen) if weight.at.since(risen.at) <= POURING_MS => Risen {
                // What was told already is not told again.
                by: if risen.told { by } else { risen.by + by },
                last_from: tin.level.gross,
                at: weight.at,
                told: false,
                ..risen
            },
            _ => Risen {
                from: tin.level,
                last_from: tin.level.gross,
                by,
                at: weight.at,
                told: false,
                recent: self.recent,
                undone: self.undone,
            },
        });
        self.recent = None;
        tin.level = Level::of(weight);
        tin.part = None;
        self.state = State::On(tin);
    }

    /// Gives a portion that was measured between two equilibria.
    fn portion(
        &mut self,
        tin: &Tin,
        mass: Mass,
        weight: &Weight,
        doubts: Doubts,
        events: &mut Events,
    ) {
        let replaces = self.undone.take();
        self.recent = Some(Recent {
            number: None,
            mass,
            noise: tin.level.noise,
            astray: tin.astray,
            doubts,
            at: weight.at,
        });
        self.draft(replaces, weight, events);
    }

    /// Gives a portion again with another mass.
    fn correct(&mut self, recent: Recent, mass: Mass, weight: &Weight, events: &mut Events) {
        let doubts = if mass >= self.goal.maybe_two() {
            recent.doubts.and(Doubts::MAYBE_TWO)
        } else {
            recent.doubts
        };
        self.recent = Some(Recent {
            number: None,
            mass,
            doubts,
            at: weight.at,
            ..recent
        });
        self.draft(recent.number, weight, events);
    }

    /// Gives the recent portion.
    fn draft(&self, replaces: Option<u32>, weight: &Weight, events: &mut Events) {
        let Some(recent) = self.recent else {
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
                    .expanded(recent.noise, weight.noise, recent.astray),
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
            State::On(tin) => {
                self.state = State::Blind(tin, at);
            }
            State::Settling => self.state = State::Await,
            State::Await | State::Away(_) | State::Blind(..) => {}
        }
    }

    /// See [`Portioning::zeroed`](super::Portioning::zeroed).
    pub fn zeroed(&mut self, shift: Mass) {
        self.pan -= shift;
        match &mut self.state {
            State::Await | State::Settling => {}
            State::On(tin) | State::Blind(tin, _) => {
                tin.level.gross -= shift;
                if let Some(risen) = &mut tin.risen {
                    risen.from.gross -= shift;
                    risen.last_from -= shift;
                }
            }
            State::Away(absence) => absence.before.gross -= shift,
        }
    }

    /// See [`Portioning::tare`](super::Portioning::tare).
    pub fn tare_now(&mut self, weight: &Weight) -> bool {
        if !weight.stable || weight.gross - self.pan < self.settings.lightest_dish {
            return false;
        }
        self.recent = None;
        self.state = State::On(Tin::new(Level::of(weight)));
        true
    }

    /// See [`Portioning::unsettled`](super::Portioning::unsettled).
    #[must_use]
    pub const fn unsettled(&self) -> bool {
        match self.state {
            State::On(tin) => !tin.steady,
            State::Await | State::Settling | State::Away(_) | State::Blind(..) => false,
        }
    }

    /// Ends the run. A part of a portion that waited for its rest corrects the
    /// one before, or is unaccounted for.
    pub fn finish(&mut self, at: Uptime) -> Events {
        let mut events = Events::new();
        let state = core::mem::replace(&mut self.state, State::Await);
        if let State::On(tin) = state {
            if let Some(risen) = tin.risen
                && !risen.told
                && risen.by >= self.goal.half()
            {
                give(&mut events, Event::Notice(Notice::Refilled(risen.by)));
            }
            if tin.steady {
                let mut tin = tin;
                self.close_part(&mut tin, at, &mut events);
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
            State::On(_) if self.spooning => Phase::Spooning,
            State::On(_) | State::Blind(..) => Phase::Ready,
            State::Away(_) => Phase::TinAway,
        }
    }

    /// Food out of the tin in the portion being made.
    #[must_use]
    pub const fn amount(&self) -> Option<Mass> {
        self.amount
    }
}
