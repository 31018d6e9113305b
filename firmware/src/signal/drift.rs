//! How far a resting load has drifted since it came to rest.

use super::Settings;
use evenhand_protocol::{Mass, Uptime};

/// Tells slow drift (creep, warmth, drying) from food. A change of the resting
/// load is drift while it is slower than `d`/50 a second; anything faster, or
/// anything that made the load unstable and left it elsewhere, is food.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drift {
    /// The drift-free load that rests.
    resting: Option<Mass>,
    drifted: Mass,
    last: Option<Uptime>,
}

impl Drift {
    pub(super) const fn new() -> Self {
        Self {
            resting: None,
            drifted: Mass::ZERO,
            last: None,
        }
    }

    pub(super) fn take(&mut self, at: Uptime, gross: Mass, stable: bool, settings: &Settings) {
        let last = self.last.replace(at).unwrap_or(at);
        if !stable {
            return;
        }
        let load = gross - self.drifted;
        let Some(resting) = self.resting else {
            self.resting = Some(load);
            return;
        };
        let away = load - resting;
        if away.abs() > settings.interval {
            self.resting = Some(load);
            return;
        }
        let most = settings.slow_change(at.since(last));
        self.drifted += away.limited(most);
    }

    /// All drift since the start.
    pub(super) const fn drifted(&self) -> Mass {
        self.drifted
    }
}
