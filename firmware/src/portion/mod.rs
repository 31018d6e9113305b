//! Weights to portions, hands free.
//!
//! Two machines, one for each way of working: [`Adding`] (a dish is filled on
//! the pan and lifted off) and [`Taking`] (spoonfuls leave a tin on the pan).
//! Each takes weights one by one and gives events: portions and notices. They
//! know nothing of the wire, the clock or the board.
//!
//! What both hold to:
//!
//! - A portion is measured between two stable equilibria and captured once.
//!   Nothing that moved is ever measured.
//! - Where two stories fit the same weights, the one is taken whose portion
//!   lies nearer to the target, and where none fits, nothing is counted and a
//!   notice says so. A cook can strike out a portion that was counted in
//!   error; nobody can bring back one that never was.
//! - What is wrong is mended by a later portion that says which one it
//!   replaces, so the count is right even where a capture was hasty.
//!
//! What each disturbance leads to is written at each machine.

mod adding;
mod leak;
mod level;
mod settings;
mod taking;
mod touch;

pub use adding::Adding;
pub use settings::PortionSettings;
pub use taking::Taking;

use crate::signal::Weight;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{Goal, Mass, Mode, Notice, Phase, Uptime};
use heapless::Vec;

/// Whether what cannot be told for certain is told apart and doubted by name
/// (feature `careful`).
const CAREFUL: bool = cfg!(feature = "careful");

/// A portion as a machine captures it, before it has a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Draft {
    /// When it was captured.
    pub at: Uptime,
    /// The food in it.
    pub mass: Mass,
    /// The number of the portion that it corrects.
    pub replaces: Option<u32>,
    /// Doubts about it.
    pub doubts: Doubts,
    /// Expanded uncertainty of `mass`, coverage factor 2.
    pub uncertainty: Mass,
    /// How far something pressed on the pan beyond every load that was there
    /// before, since the load that the portion differs from.
    pub pressed: Mass,
    /// What is left on the pan: the tin when taking, `None` when adding.
    pub left: Option<Mass>,
}

/// What a machine has to say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Event {
    /// A portion. Whoever takes it tells the machine its number with
    /// [`Portioning::numbered`] before the next weight.
    Portion(Draft),
    /// Something that a cook may want to know.
    Notice(Notice),
}

/// The events of one weight: at most one portion and a few notices.
pub type Events = Vec<Event, 4>;

/// The machine for either way of working.
#[derive(Debug, Clone)]
#[expect(
    clippy::large_enum_variant,
    reason = "there is one machine and no allocator; its place is the larger one's"
)]
pub enum Portioning {
    /// A dish is filled on the pan.
    Adding(Adding),
    /// Spoonfuls leave a tin on the pan.
    Taking(Taking),
}

impl Portioning {
    /// A machine for a run that begins.
    #[must_use]
    pub const fn new(mode: Mode, goal: Goal, settings: PortionSettings) -> Self {
        match mode {
            Mode::Adding => Self::Adding(Adding::new(goal, settings)),
            Mode::Taking => Self::Taking(Taking::new(goal, settings)),
        }
    }

    /// A machine for a run that was going on when the power went: what is on
    /// the pan by then is a tin, but no empty dish.
    #[must_use]
    pub const fn resumed(mode: Mode, goal: Goal, settings: PortionSettings) -> Self {
        match mode {
            Mode::Adding => Self::Adding(Adding::resumed(goal, settings)),
            Mode::Taking => Self::Taking(Taking::new(goal, settings)),
        }
    }

    /// Which way of working this is.
    #[must_use]
    pub const fn mode(&self) -> Mode {
        match self {
            Self::Adding(_) => Mode::Adding,
            Self::Taking(_) => Mode::Taking,
        }
    }

    /// Takes the next weight.
    pub fn take(&mut self, weight: &Weight) -> Events {
        match self {
            Self::Adding(machine) => machine.take(weight),
            Self::Taking(machine) => machine.take(weight),
        }
    }

    /// Tells the number that the portion just given got, or `None` where it
    /// could not be kept.
    pub fn numbered(&mut self, number: Option<u32>) {
        match self {
            Self::Adding(machine) => machine.numbered(number),
            Self::Taking(machine) => machine.numbered(number),
        }
    }

    /// The goal from here on; a portion under way is judged by it.
    pub fn set_goal(&mut self, goal: Goal) {
        match self {
            Self::Adding(machine) => machine.set_goal(goal),
            Self::Taking(machine) => machine.set_goal(goal),
        }
    }

    /// The goal.
    #[must_use]
    pub const fn goal(&self) -> Goal {
        match self {
            Self::Adding(machine) => machine.goal(),
            Self::Taking(machine) => machine.goal(),
        }
    }

    /// Weighing stopped: a fault came. What happens on the pan until the next
    /// weight is not seen.
    pub fn interrupted(&mut self, at: Uptime) {
        match self {
            Self::Adding(machine) => machine.interrupted(at),
            Self::Taking(machine) => machine.interrupted(at),
        }
    }

    /// The scale's zero was set, so that every weight from here on is lighter
    /// by `shift` than it would have been.
    pub fn zeroed(&mut self, shift: Mass) {
        match self {
            Self::Adding(machine) => machine.zeroed(shift),
            Self::Taking(machine) => machine.zeroed(shift),
        }
    }

    /// A person asked for a tare: what is on the pan now counts as dish or
    /// tin, and the portion begins anew. Returns whether it was done; it is
    /// not while the load moves or nothing is there to tare.
    pub fn tare(&mut self, weight: &Weight) -> bool {
        match self {
            Self::Adding(machine) => machine.tare_now(weight),
            Self::Taking(machine) => machine.tare_now(weight),
        }
    }

    /// Whether food is on the move, so that a run that is to end should wait
    /// a moment for it to settle.
    #[must_use]
    pub const fn unsettled(&self) -> bool {
        match self {
            Self::Adding(machine) => machine.unsettled(),
            Self::Taking(machine) => machine.unsettled(),
        }
    }

    /// Ends the run: what is complete and not yet given is given now.
    pub fn finish(&mut self, at: Uptime) -> Events {
        match self {
            Self::Adding(machine) => machine.finish(at),
            Self::Taking(machine) => machine.finish(at),
        }
    }

    /// What is waited for.
    #[must_use]
    pub const fn phase(&self) -> Phase {
        match self {
            Self::Adding(machine) => machine.phase(),
            Self::Taking(machine) => machine.phase(),
        }
    }

    /// Food in the portion being made.
    #[must_use]
    pub const fn amount(&self) -> Option<Mass> {
        match self {
            Self::Adding(machine) => machine.amount(),
            Self::Taking(machine) => machine.amount(),
        }
    }

    /// What is subtracted as the dish; zero where there is none.
    #[must_use]
    pub fn dish(&self) -> Mass {
        match self {
            Self::Adding(machine) => machine.dish(),
            Self::Taking(_) => Mass::ZERO,
        }
    }

    /// Whether the scale may follow its zero: only while nothing is on the
    /// pan that a portion is measured by.
    #[must_use]
    pub const fn zero_may_follow(&self) -> bool {
        matches!(self.phase(), Phase::AwaitDish | Phase::AwaitTin)
    }
}

/// Adds an event. The capacity is larger than what one weight can cause; if
/// that were ever untrue a notice would be lost, never a portion, because
/// portions come first.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn give(events: &mut Events, event: Event) {
    let lost = events.push(event).is_err();
    debug_assert!(!lost, "more events than one weight can cause");
}

/// Adds a notice.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn tell(events: &mut Events, notice: Notice) {
    give(events, Event::Notice(notice));
}
