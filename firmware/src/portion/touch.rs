//! What touches the pan lightly: an apron, a cable, a sleeve.

use super::level::Held;
use evenhand_protocol::{Mass, Uptime};

/// A touch is lighter than this.
const LIGHTLY: Mass = Mass::from_grams(4);
/// Whoever adds or takes food knocks by more than this, besides what it weighs.
const KNOCK: Mass = Mass::from_grams(1);
/// A touch that did not end by then is a part of the bench.
const FORGET_MS: u64 = 60_000;
/// What is over sooner was no touch but a disturbance: a telephone beside the
/// wires.
const TOUCH_MS: u64 = 1_500;
/// What touched touches again: for so long after that, what came and went while
/// food moved may have been hidden by it. The second time it is believed for longer.
const ABOUT_MS: u64 = 45_000;
const STILL_ABOUT_MS: u64 = 120_000;

/// Changes of the load that nobody made: food does not move without a knock.
/// They are counted with their sign, so that a touch that ends leaves nothing.
#[derive(Debug, Clone, Copy)]
pub(super) struct Touch {
    /// What is believed to touch now.
    pub pending: Mass,
    last: Held,
    /// When something was last seen to touch for certain, and until when that is
    /// believed.
    seen: Held,
    about_ms: u64,
}

impl Touch {
    pub const NONE: Self = Self {
        pending: Mass::ZERO,
        last: Held::NEVER,
        seen: Held::NEVER,
        about_ms: ABOUT_MS,
    };

    /// Whether a change of the load came with nothing more than itself, where
    /// the load was `astray` from where it had been at most.
    pub fn came_by_itself(&self, change: Mass, astray: Mass) -> bool {
        change.abs() <= LIGHTLY && astray <= change.abs() + KNOCK
    }

    /// The load changed by itself. Gives whether that may be a touch, and not the end
    /// of something shorter.
    pub fn change(&mut self, by: Mass, step: Mass, at: Uptime) -> bool {
        let began = self.last.since();
        self.last = Held::NEVER;
        self.last.update(true, at);
        self.pending += by;
        if self.pending.abs() > step {
            return true;
        }
        self.pending = Mass::ZERO;
        let short = began.is_some_and(|began| at.since(began) < TOUCH_MS);
        if short && self.seen.since() == began {
            self.seen = Held::NEVER;
        }
        !short
    }

    /// It was no food for certain: that never comes or goes this way.
    pub fn was_seen(&mut self, at: Uptime) {
        let again = self
            .seen
            .since()
            .is_some_and(|seen| at.since(seen) <= STILL_ABOUT_MS);
        self.about_ms = if again { STILL_ABOUT_MS } else { ABOUT_MS };
        self.seen = Held::NEVER;
        self.seen.update(true, at);
    }

    /// Whether a portion that is made now may be touched: something touches, or did
    /// not long ago.
    pub fn is_about(&self, step: Mass, at: Uptime) -> bool {
        self.pending.abs() > step
            || self
                .seen
                .since()
                .is_some_and(|seen| at.since(seen) <= self.about_ms)
    }

    /// Forgets a touch of long ago.
    pub fn forget_old(&mut self, at: Uptime) {
        if self
            .last
            .since()
            .is_some_and(|last| at.since(last) > FORGET_MS)
        {
            self.pending = Mass::ZERO;
            self.last = Held::NEVER;
        }
    }
}
