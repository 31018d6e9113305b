//! What touches the pan lightly: an apron, a cable, a sleeve.

use super::level::Held;
use evenhand_protocol::{Mass, Uptime};

/// A touch is lighter than this.
const LIGHTLY: Mass = Mass::from_grams(4);
/// Whoever adds or takes food knocks by more than this, besides what it weighs.
const KNOCK: Mass = Mass::from_grams(1);
/// A touch that did not end by then is a part of the bench.
const FORGET_MS: u64 = 60_000;

/// Changes of the load that nobody made: food does not move without a knock.
/// They are counted with their sign, so that a touch that ends leaves nothing.
#[derive(Debug, Clone, Copy)]
pub(super) struct Touch {
    /// What is believed to touch now.
    pub pending: Mass,
    last: Held,
}

impl Touch {
    pub const NONE: Self = Self {
        pending: Mass::ZERO,
        last: Held::NEVER,
    };

    /// Whether a change of the load came with nothing more than itself, where
    /// the load was `astray` from where it had been at most.
    pub fn came_by_itself(&self, change: Mass, astray: Mass) -> bool {
        change.abs() <= LIGHTLY && astray <= change.abs() + KNOCK
    }

    /// The load changed by itself.
    pub fn change(&mut self, by: Mass, step: Mass, at: Uptime) {
        self.pending += by;
        if self.pending.abs() <= step {
            self.pending = Mass::ZERO;
        }
        self.last = Held::NEVER;
        self.last.update(true, at);
    }

    /// Forgets a touch of long ago.
    pub fn forget_old(&mut self, at: Uptime) {
        if self
            .last
            .since()
            .is_some_and(|last| at.since(last) > FORGET_MS)
        {
            *self = Self::NONE;
        }
    }
}
