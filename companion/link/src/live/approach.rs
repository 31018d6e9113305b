//! How far the portion being made is from its target.

use evenhand_kitchen::units::Ratio;
use evenhand_protocol::{Goal, Mass, Reading, Verdict};

/// The portion being made, on its way to the target.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Approach {
    /// Food in it so far.
    pub amount: Mass,
    /// What it should weigh.
    pub goal: Goal,
    /// The live verdict.
    pub verdict: Verdict,
    /// What is still to go to the target; negative beyond it.
    pub to_go: Mass,
    /// Amount over target: 1 is on target.
    pub share: Ratio,
}

impl Approach {
    /// The approach that a reading shows; `None` when no portion is being
    /// made.
    #[must_use]
    pub fn of(reading: &Reading, goal: Goal) -> Option<Self> {
        let amount = reading.amount?;
        Some(Self {
            amount,
            goal,
            verdict: reading.verdict.unwrap_or_else(|| goal.judge(amount)),
            to_go: goal.target() - amount,
            share: Ratio::new(amount.grams() / goal.target().grams())?,
        })
    }
}
