//! What a person's hand does at a practice bench, in place of a scenario's cook.
//!
//! The masses are those of a small kitchen's own things, so that what is tried is about
//! what will be weighed: a side plate, a one-litre tin, a mixing bowl, a tablespoon.

use crate::scenario::{Scenario, ScenarioError};
use evenhand_protocol::Mass;

/// Something that can be put on the pan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Vessel {
    /// An empty dish.
    Dish,
    /// A tin with food in it.
    Tin,
    /// An empty mixing bowl.
    Bowl,
}

impl Vessel {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Dish, Self::Tin, Self::Bowl];

    /// What it weighs empty.
    #[must_use]
    pub const fn empty(self) -> Mass {
        Mass::from_grams(match self {
            Self::Dish => 240,
            Self::Tin => 160,
            Self::Bowl => 420,
        })
    }

    /// The food that is in it when it comes.
    #[must_use]
    pub const fn filled(self) -> Mass {
        Mass::from_grams(match self {
            Self::Dish | Self::Bowl => 0,
            Self::Tin => 1_000,
        })
    }
}

/// How fast it is poured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Flow {
    /// What is lacking in the end: 6 g a second.
    Slow,
    /// The bulk of it: 60 g a second.
    Fast,
}

impl Flow {
    /// Grams a second.
    #[must_use]
    pub const fn grams_a_second(self) -> f64 {
        match self {
            Self::Slow => 6.0,
            Self::Fast => 60.0,
        }
    }
}

/// One thing that the hand does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HandMove {
    /// Puts this on the pan.
    PutOn(Vessel),
    /// Pours from now on.
    Pour(Flow),
    /// Pours no more.
    StopPouring,
    /// Takes a spoonful out.
    SpoonOut,
    /// Food falls in all at once.
    Spill,
    /// Lifts everything off.
    LiftOff,
    /// Leaves the spoon lying in what is on the pan.
    LeaveSpoon,
    /// Takes the spoon up again.
    TakeSpoon,
    /// Puts the probe into hot food.
    ProbeIn,
    /// Takes it out into the room.
    ProbeOut,
}

/// A spoonful: about 20 g, less where less is there.
pub const SPOONFUL: Mass = Mass::from_grams(20);
/// What a spill brings.
pub const SPILL: Mass = Mass::from_grams(12);
/// What the spoon weighs.
pub const SPOON: Mass = Mass::from_grams(38);
/// How hot the food is that the probe goes into, in degrees Celsius.
pub const HOT_CELSIUS: f64 = 78.0;

/// The practice bench: a scale of three kilograms on a calm table.
///
/// # Errors
/// As for [`Scenario::from_toml`]; a test reads it.
pub fn bench() -> Result<Scenario, ScenarioError> {
    Scenario::from_toml(include_str!("../scenarios/practice/bench.toml"))
}
