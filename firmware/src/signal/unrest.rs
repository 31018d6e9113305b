//! What is made of a load that does not come to rest, or not for long enough.

use super::filter::{Estimate, Limits, PARTS};
use super::shocks;
use super::sway::Sway;
use super::twentieths::Twentieths;

/// What may remain under a sway, in wanders of a stable mean: half as much again.
const REMAINS: f32 = 1.5;

/// Looks for the load under shocks, under a sway, and in a moment between two moves.
#[derive(Debug, Clone)]
pub(super) struct Unrest {
    sway: Sway,
    glimpse: Glimpse,
    /// What was made of the last twentieth of a second.
    found: Option<Estimate>,
    means: Twentieths,
}

impl Unrest {
    pub(super) const fn new() -> Self {
        Self {
            sway: Sway::new(),
            glimpse: Glimpse::NONE,
            found: None,
            means: Twentieths::new(),
        }
    }

    /// Forgets the load; a sway is remembered.
    pub(super) const fn restart(&mut self) {
        self.found = None;
        self.glimpse = Glimpse::NONE;
        self.means.clear();
    }

    /// Takes a sample and what the filter made of it; gives what is to be made of it.
    pub(super) fn take(&mut self, sample: i32, plain: Estimate, limits: &Limits) -> Estimate {
        if self.means.take(sample, limits.block) {
            let wander = limits.wander_in_parts() as f32 / PARTS as f32;
            self.glimpse.take(self.means.mean(0), wander);
            self.found = self.sway.take(&self.means, plain.stable, wander * REMAINS);
            if !self.sway.is_known() && !plain.stable {
                self.found =
                    shocks::look(&self.means, wander).or_else(|| self.glimpse.seen(wander));
            }
        }
        if self.sway.is_known() {
            return self.found.unwrap_or(Estimate {
                // Where a sway turns round the load seems to stand still.
                stable: false,
                calm: false,
                ..plain
            });
        }
        if plain.stable {
            return plain;
        }
        match self.found {
            Some(found) if found.stable || !plain.calm => found,
            _ => plain,
        }
    }
}

/// A moment in which the load was nearly level: too short to weigh well, and all
/// that somebody leaves who does not wait.
#[derive(Debug, Clone, Copy)]
struct Glimpse {
    /// Twentieths of a second that agree.
    count: u8,
    first: f32,
    /// Of what they are beyond the first.
    sum: f32,
    low: f32,
    high: f32,
}

impl Glimpse {
    const NONE: Self = Self {
        count: 0,
        first: 0.0,
        sum: 0.0,
        low: 0.0,
        high: 0.0,
    };
    /// They agree within so many wanders of a stable mean; a hand hardly does.
    const WITHIN: f32 = 4.0;
    /// So many are worth a look, one less where they agree so well, and more than so
    /// many are taken anew.
    const FEWEST: u8 = 3;
    const CLOSELY: f32 = 1.5;
    const MOST: u8 = 8;

    fn take(&mut self, mean: f32, wander: f32) {
        let beyond = mean - self.first;
        let (low, high) = (self.low.min(beyond), self.high.max(beyond));
        if self.count == 0 || self.count >= Self::MOST || high - low > wander * Self::WITHIN {
            *self = Self {
                count: 1,
                first: mean,
                ..Self::NONE
            };
            return;
        }
        self.count = self.count.saturating_add(1);
        self.sum += beyond;
        self.low = low;
        self.high = high;
    }

    fn seen(&self, wander: f32) -> Option<Estimate> {
        let closely = self.high - self.low <= wander * Self::CLOSELY;
        if self.count < Self::FEWEST - u8::from(closely) {
            return None;
        }
        let mean = self.first + self.sum / f32::from(self.count);
        // The whole of what they differ by, and no less than a stable mean may.
        let uncertainty = (self.high - self.low) * 2.0 / f32::from(self.count) + wander;
        Some(Estimate {
            mean: (mean * PARTS as f32) as i64,
            uncertainty: (uncertainty * PARTS as f32) as u32,
            stable: false,
            calm: true,
        })
    }
}
