//! How much work one planning call may do.
//!
//! Work is counted and no clock is read, so that a day always gets the same plan. A
//! unit is one decision of the solver about a day of one task: decisions about a
//! longer day take longer, about in proportion.

use std::cell::Cell;
use std::sync::Arc;

/// Whether an answer is no longer wanted: there is a newer question, or the program
/// closes. It is asked before each question to the solver and each decision of it, from the thread
/// that plans.
pub type Unwanted = Arc<dyn Fn() -> bool + Send + Sync>;

/// What a planning call may still do: the plan, how late each step can begin, and
/// what would mend the day come out of one budget.
pub struct Effort {
    whole: u64,
    left: Cell<u64>,
    unwanted: Option<Unwanted>,
}

impl Effort {
    /// The usual budget. By two thirds of it the slowest day of forty open steps took
    /// 0.9 s (`examples/plan_days`); by the whole of it none was measured on an idle machine yet.
    pub const USUAL: u64 = 1_200_000;

    /// A budget of so many units.
    #[must_use]
    pub const fn new(units: u64) -> Self {
        Self {
            whole: units,
            left: Cell::new(units),
            unwanted: None,
        }
    }

    /// The same, ended early once its answer is no longer wanted.
    #[must_use]
    pub fn while_wanted(mut self, unwanted: Unwanted) -> Self {
        self.unwanted = Some(unwanted);
        self
    }

    /// What tells that the answer is no longer wanted, where something does.
    pub(super) fn unwanted(&self) -> Option<Unwanted> {
        self.unwanted.clone()
    }

    fn is_unwanted(&self) -> bool {
        self.unwanted.as_ref().is_some_and(|unwanted| unwanted())
    }

    /// Units that were used. The last question may go beyond the budget by one decision.
    #[must_use]
    pub const fn used(&self) -> u64 {
        self.whole - self.left.get()
    }

    /// What a question may use that gets at most `percent` of the whole.
    pub(super) fn part(&self, percent: u64) -> u64 {
        if self.is_unwanted() {
            0
        } else {
            self.left.get().min(self.whole / 100 * percent)
        }
    }

    pub(super) fn spend(&self, units: u64) {
        self.left.set(self.left.get().saturating_sub(units));
    }
}

impl std::fmt::Debug for Effort {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Effort")
            .field("whole", &self.whole)
            .field("left", &self.left)
            .finish_non_exhaustive()
    }
}

impl Default for Effort {
    fn default() -> Self {
        Self::new(Self::USUAL)
    }
}
