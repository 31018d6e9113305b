//! A load in equilibrium, and how long something has held.

use crate::signal::Weight;
use evenhand_protocol::{Mass, Uptime};

/// For so long after it was reached a level is taken as each weight says: the
/// estimate is still getting better.
const FRESH_MS: u64 = 500;

/// A load in stable equilibrium.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Level {
    pub gross: Mass,
    pub noise: Mass,
    pub since: Uptime,
    at: Uptime,
}

impl Level {
    pub const fn of(weight: &Weight) -> Self {
        Self {
            gross: weight.gross,
            noise: weight.noise,
            since: weight.at,
            at: weight.at,
        }
    }

    /// Stands for none.
    pub const NONE: Self = Self {
        gross: Mass::ZERO,
        noise: Mass::ZERO,
        since: Uptime::from_millis(0),
        at: Uptime::from_millis(0),
    };

    /// The weight that it is the level of.
    pub const fn as_weight(&self) -> Weight {
        Weight {
            at: self.since,
            gross: self.gross,
            stable: true,
            noise: self.noise,
            calm: true,
        }
    }

    /// When it was seen last.
    pub const fn seen_at(&self) -> Uptime {
        self.at
    }

    /// Is the level of this weight from now on.
    // Out of line: 112 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub const fn set(&mut self, weight: &Weight) {
        *self = Self::of(weight);
    }

    /// The same moment and quality, at another load.
    pub const fn move_to(&mut self, gross: Mass) {
        self.gross = gross;
    }

    /// Follows a stable weight, at most `rate` (mass a second) once it is no
    /// longer fresh. The limit keeps out what the first few samples of a lift
    /// or a spoonful do to the estimate before the chain calls it unstable.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn follow(&mut self, weight: &Weight, rate: Mass) {
        let elapsed = i64::try_from(weight.at.since(self.at)).unwrap_or(i64::MAX);
        let wanted = weight.gross - self.gross;
        let change = if weight.at.since(self.since) <= FRESH_MS {
            wanted
        } else {
            let most = rate
                .fraction(elapsed.min(10_000), 1_000)
                .unwrap_or(Mass::ZERO);
            wanted.limited(most)
        };
        self.gross += change;
        self.noise = weight.noise;
        self.at = weight.at;
    }
}

/// How long a condition has held without a break.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Held {
    since: Option<Uptime>,
}

impl Held {
    /// It never held yet.
    pub const NEVER: Self = Self { since: None };

    /// Takes whether it holds now; gives for how many milliseconds it has,
    /// zero where it does not or only began.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn update(&mut self, holds: bool, at: Uptime) -> u64 {
        if !holds {
            self.since = None;
            return 0;
        }
        at.since(*self.since.get_or_insert(at))
    }

    /// Since when it has held.
    pub const fn since(&self) -> Option<Uptime> {
        self.since
    }
}
