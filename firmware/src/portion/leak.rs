//! What a tin loses by itself: it drips, dries, steams.

use evenhand_protocol::{Mass, Uptime};

/// It is looked at over so long at least, and believed as the middle one of three
/// looks: a tin that is pushed along the pan changes once.
const LOOK_MS: u64 = 1_500;
/// Less a second is creep of the cell, or chance.
const LEAST: Mass = Mass::from_milligrams(10);

/// How fast a tin at rest becomes lighter.
#[derive(Debug, Clone, Copy)]
pub(super) struct Leak {
    /// A second.
    rate: Mass,
    looks: [Mass; 3],
    from: Option<(Uptime, Mass)>,
}

impl Leak {
    pub const NONE: Self = Self {
        rate: Mass::ZERO,
        looks: [Mass::ZERO; 3],
        from: None,
    };

    /// The tin is at rest at this load.
    pub fn watch(&mut self, at: Uptime, gross: Mass) {
        let Some((since, before)) = self.from else {
            self.from = Some((at, gross));
            return;
        };
        let elapsed = at.since(since);
        if elapsed < LOOK_MS {
            return;
        }
        self.from = Some((at, gross));
        let elapsed = i64::try_from(elapsed).unwrap_or(i64::MAX);
        let lost = (before - gross).fraction(1_000, elapsed);
        let [_, second, third] = self.looks;
        self.looks = [second, third, lost.unwrap_or(Mass::ZERO)];
        let mut sorted = self.looks;
        sorted.sort_unstable();
        let [_, middle, _] = sorted;
        self.rate += (middle - self.rate).fraction(1, 4).unwrap_or(Mass::ZERO);
    }

    /// It is no longer at rest.
    pub const fn look_away(&mut self) {
        self.from = None;
    }

    /// What it has lost by itself between two moments.
    pub fn between(&self, from: Uptime, to: Uptime) -> Mass {
        if self.rate < LEAST {
            return Mass::ZERO;
        }
        let elapsed = i64::try_from(to.since(from)).unwrap_or(i64::MAX);
        self.rate.fraction(elapsed, 1_000).unwrap_or(Mass::ZERO)
    }
}
