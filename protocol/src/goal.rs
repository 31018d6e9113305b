//! What a portion should weigh, and the verdict on what it does.

use crate::Mass;
use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// How portions are made at the bench.
///
/// Exhaustive, unlike the other enumerations of the wire: whoever carries a run
/// out must know every way of working, so a third is a break and the compiler
/// is to say where.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Mode {
    /// A dish goes on empty, food is added, the dish is lifted off.
    Adding,
    /// A full tin stays on, each spoonful taken out of it is a portion.
    Taking,
}

/// How far from the target a portion may be and still count as on target.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Tolerance {
    /// Allowed below the target; not negative.
    pub below: Mass,
    /// Allowed above the target; not negative.
    pub above: Mass,
}

impl Tolerance {
    /// The same to either side.
    #[must_use]
    pub const fn symmetric(mass: Mass) -> Self {
        Self {
            below: mass,
            above: mass,
        }
    }
}

/// Why a goal was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum GoalError {
    /// The target is zero or negative.
    TargetNotPositive,
    /// A tolerance is negative.
    ToleranceNegative,
    /// The tolerance below reaches the target, so an empty dish would be on
    /// target.
    ToleranceSwallowsTarget,
    /// The target and its tolerance exceed what the instrument can weigh.
    BeyondCapacity,
}

impl core::fmt::Display for GoalError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::TargetNotPositive => "the target must be above zero",
            Self::ToleranceNegative => "a tolerance cannot be negative",
            Self::ToleranceSwallowsTarget => {
                "the tolerance below must be smaller than the target, else nothing at all would be on target"
            }
            Self::BeyondCapacity => "the target and its tolerance exceed what this scale can weigh",
        })
    }
}

impl core::error::Error for GoalError {}

/// A target with its tolerance; always sensible once made with
/// [`Goal::new`]. One that came over the wire is checked again by its
/// receiver.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Goal {
    target: Mass,
    tolerance: Tolerance,
}

impl Goal {
    /// A goal.
    ///
    /// # Errors
    /// [`GoalError`] where the target is not positive, a tolerance is
    /// negative, or the tolerance below is as large as the target.
    pub const fn new(target: Mass, tolerance: Tolerance) -> Result<Self, GoalError> {
        if target.micrograms() <= 0 {
            return Err(GoalError::TargetNotPositive);
        }
        if tolerance.below.is_negative() || tolerance.above.is_negative() {
            return Err(GoalError::ToleranceNegative);
        }
        if tolerance.below.micrograms() >= target.micrograms() {
            return Err(GoalError::ToleranceSwallowsTarget);
        }
        Ok(Self { target, tolerance })
    }

    /// The same goal, checked again; and that it fits in `capacity`.
    ///
    /// # Errors
    /// As for [`Goal::new`], and [`GoalError::BeyondCapacity`].
    pub fn checked(self, capacity: Mass) -> Result<Self, GoalError> {
        let goal = Self::new(self.target, self.tolerance)?;
        if goal.heaviest() > capacity {
            return Err(GoalError::BeyondCapacity);
        }
        Ok(goal)
    }

    /// What a portion should weigh; above zero.
    #[must_use]
    pub const fn target(self) -> Mass {
        self.target
    }

    /// How far from it a portion may be.
    #[must_use]
    pub const fn tolerance(self) -> Tolerance {
        self.tolerance
    }

    /// The lightest mass that is still on target.
    #[must_use]
    pub fn lightest(self) -> Mass {
        self.target - self.tolerance.below
    }

    /// The heaviest mass that is still on target.
    #[must_use]
    pub fn heaviest(self) -> Mass {
        self.target + self.tolerance.above
    }

    /// The verdict on a mass; both limits count as on target.
    #[must_use]
    pub fn judge(self, mass: Mass) -> Verdict {
        if mass < self.lightest() {
            Verdict::Short
        } else if mass > self.heaviest() {
            Verdict::Heavy
        } else {
            Verdict::On
        }
    }
}

/// How a mass stands against a goal.
///
/// Exhaustive: a mass is below the tolerance, within it or above it.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, MaxSize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Verdict {
    /// Lighter than the lightest allowed.
    Short,
    /// Within the tolerance.
    On,
    /// Heavier than the heaviest allowed.
    Heavy,
}

impl Verdict {
    /// The word for it: `short`, `on` or `heavy`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Short => "short",
            Self::On => "on",
            Self::Heavy => "heavy",
        }
    }
}

impl core::fmt::Display for Verdict {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.word())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn g(grams: i64) -> Mass {
        Mass::from_grams(grams)
    }

    #[test]
    fn both_limits_are_on_target() {
        let goal = Goal::new(g(30), Tolerance::symmetric(g(1))).unwrap();
        assert_eq!(goal.judge(g(29)), Verdict::On);
        assert_eq!(goal.judge(g(31)), Verdict::On);
        assert_eq!(goal.judge(g(29) - Mass::from_micrograms(1)), Verdict::Short);
        assert_eq!(goal.judge(g(31) + Mass::from_micrograms(1)), Verdict::Heavy);
    }

    #[test]
    fn senseless_goals_are_refused() {
        let one = Tolerance::symmetric(g(1));
        assert_eq!(Goal::new(g(0), one), Err(GoalError::TargetNotPositive));
        assert_eq!(Goal::new(g(-30), one), Err(GoalError::TargetNotPositive));
        assert_eq!(
            Goal::new(g(30), Tolerance::symmetric(g(-1))),
            Err(GoalError::ToleranceNegative)
        );
        assert_eq!(
            Goal::new(g(1), one),
            Err(GoalError::ToleranceSwallowsTarget)
        );
        assert_eq!(
            Goal::new(g(30), one).unwrap().checked(g(20)),
            Err(GoalError::BeyondCapacity)
        );
    }
}
