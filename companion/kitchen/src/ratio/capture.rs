//! Weighing as one goes, without a ratio.

use super::ScaleLook;
use super::scale::Rest;
use evenhand_protocol::{Mass, Uptime};

/// How long the load rests before it is taken down, in milliseconds; a choice
/// of ours.
const RESTS: u64 = 1_500;
/// How long something is on before it is being put in, and no touch of the
/// hand, in milliseconds; a choice of ours.
const COMING: u64 = 500;

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
    look: Option<ScaleLook>,
    /// What was begun before, until the scale shows it or the cook says what
    /// stands there.
    before: Option<Before>,
    /// Since when something has been on that was not taken down yet.
    coming: Option<Uptime>,
}

/// What is on record of a batch that was begun before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Before {
    vessel: Mass,
    food: Mass,
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
            before: None,
            coming: None,
        }
    }

    /// Goes on with a batch that was begun before, in a vessel of that weight,
    /// with so much in it. It waits for the scale to show both; where it shows
    /// something else, the cook has to say what that is.
    #[must_use]
    pub const fn resumed(least: Mass, vessel: Mass, food: Mass) -> Self {
        Self {
            before: Some(Before { vessel, food }),
            ..Self::new(least)
        }
    }

    /// How much more the steady scale shows than is on record of a batch that
    /// was begun before, less than nothing where it is less; `None` where it is
    /// the same, and once it goes on.
    #[must_use]
    pub fn came_meanwhile(&self) -> Option<Mass> {
        let look = self.look.filter(|look| look.stable)?;
        let before = self.before?;
        let came = look.mass - before.vessel - before.food;
        (came.abs() >= self.least).then_some(came)
    }

    /// Whether a batch that was begun before waits to be gone on with.
    #[must_use]
    pub const fn is_resuming(&self) -> bool {
        self.before.is_some()
    }

    /// What came onto the scale since the last weighing on record went into it:
    /// takes it down. `None` while the scale moves, and where nothing came.
    pub fn that_went_in(&mut self) -> Option<Caught> {
        let came = self.came_meanwhile().filter(|came| !came.is_negative())?;
        let before = self.before.take()?;
        self.vessel = Some(before.vessel);
        self.level = before.vessel + before.food + came;
        Some(Caught::Added(came))
    }

    /// Whether something is being put in that is not taken down yet: more has
    /// been on for a while than where the scale last rested.
    #[must_use]
    pub fn is_coming(&self) -> bool {
        let looked = self.look.zip(self.coming);
        looked
            .is_some_and(|(look, since)| look.at.millis().saturating_sub(since.millis()) >= COMING)
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
                let food = self.before.take().map_or(Mass::ZERO, |before| before.food);
                self.vessel = Some((look.mass - food).max(Mass::ZERO));
                self.level = look.mass;
                true
            }
            None => false,
        }
    }

    /// Takes in a look at the scale.
    pub fn take(&mut self, look: ScaleLook) -> Option<Caught> {
        let anew = self.look.is_some_and(|before| look.at < before.at);
        self.look = Some(look);
        if anew {
            self.rest.clear();
            self.coming = None;
            if self.vessel.is_some() {
                // What it weighed before may not compare; the difference is kept.
                let food = self.level - self.vessel.unwrap_or(Mass::ZERO);
                self.level = look.mass;
                self.vessel = Some(look.mass - food);
                return Some(Caught::StartedAnew);
            }
        }
        self.coming = match self.live() {
            Some(live) if live >= self.least => self.coming.or(Some(look.at)),
            _ => None,
        };
        // Something heavy creeps by up to half a thousandth in half an hour, and is no pour.
        let about = self
            .least
            .max(look.mass.fraction(1, 2_000).unwrap_or(Mass::ZERO));
        if self.rest.take(look, about)? < RESTS {
            return None;
        }
        let Some(vessel) = self.vessel else {
            if let Some(before) = self.before {
                if (look.mass - before.vessel - before.food).abs() < about {
                    self.before = None;
                    self.vessel = Some(before.vessel);
                    self.level = look.mass;
                }
            } else if look.mass >= Mass::from_grams(5).max(self.least) {
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
