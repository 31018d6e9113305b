//! Weighing as one goes, without a ratio.

use super::Look;
use super::scale::Rest;
use evenhand_protocol::Mass;

/// How long the load rests before it is taken down, in milliseconds; a choice
/// of ours.
const RESTS: u64 = 1_500;

/// What was taken down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Caught {
    /// So much came on. The first of all is the vessel where it was said that
    /// one comes first.
    Added(Mass),
    /// So much was taken out.
    TakenOut(Mass),
    /// The vessel with everything in it was lifted off.
    Lifted,
    /// It is back, unchanged.
    Back,
    /// The scale started anew, and what was on it is taken as the level to go
    /// on from.
    StartedAnew,
}

/// Takes down every change that comes to rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Capture {
    least: Mass,
    /// The vessel; everything above it is food. `None` until it is known.
    vessel: Option<Mass>,
    /// Where the scale last rested.
    level: Mass,
    lifted: bool,
    rest: Rest,
    look: Option<Look>,
}

impl Capture {
    /// Begins; `least` is the smallest change that counts.
    #[must_use]
    pub const fn new(least: Mass) -> Self {
        Self {
            least,
            vessel: None,
            level: Mass::ZERO,
            lifted: false,
            rest: Rest(None),
            look: None,
        }
    }

    /// The vessel's weight, once it stands there.
    #[must_use]
    pub const fn vessel(&self) -> Option<Mass> {
        self.vessel
    }

    /// What came on since the last rest, live.
    #[must_use]
    pub fn live(&self) -> Option<Mass> {
        let look = self.look?;
        self.vessel?;
        (!self.lifted).then(|| look.mass - self.level)
    }

    /// Counts from what the scale shows now: the vessel stands there, or there
    /// is none. `false` while the scale moves.
    pub fn begin_as_it_stands(&mut self) -> bool {
        match self.look.filter(|look| look.stable) {
            Some(look) => {
                self.vessel = Some(look.mass);
                self.level = look.mass;
                true
            }
            None => false,
        }
    }

    /// Takes in a look at the scale.
    pub fn take(&mut self, look: Look) -> Option<Caught> {
        let anew = self.look.is_some_and(|before| look.at < before.at);
        self.look = Some(look);
        if anew {
            self.rest.clear();
            if self.vessel.is_some() {
                // What it weighed before may not compare; the difference is kept.
                let food = self.level - self.vessel.unwrap_or(Mass::ZERO);
                self.level = look.mass;
                self.vessel = Some(look.mass - food);
                return Some(Caught::StartedAnew);
            }
        }
        // Something heavy creeps by up to half a thousandth in half an hour, and is no pour.
        let about = self
            .least
            .max(look.mass.fraction(1, 2_000).unwrap_or(Mass::ZERO));
        if self.rest.take(look, about)? < RESTS {
            return None;
        }
        let Some(vessel) = self.vessel else {
            if look.mass >= Mass::from_grams(5).max(self.least) {
                self.vessel = Some(look.mass);
                self.level = look.mass;
            }
            return None;
        };
        let change = look.mass - self.level;
        if self.lifted {
            if change >= -about {
                self.lifted = false;
                if change <= about {
                    return Some(Caught::Back);
                }
            } else {
                return None;
            }
        }
        if change.abs() < about {
            return None;
        }
        if look.mass < vessel - about {
            self.lifted = true;
            return Some(Caught::Lifted);
        }
        self.level = look.mass;
        Some(if change.is_negative() {
            Caught::TakenOut(-change)
        } else {
            Caught::Added(change)
        })
    }
}
