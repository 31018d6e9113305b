//! The run going on, portion by portion.

use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::run::Run;
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::tin::{PortionsPossible, Tin};
use evenhand_protocol::{Mass, PortionId};

/// A run with its portions so far.
#[derive(Debug, Clone, PartialEq)]
pub struct LiveRun {
    /// The run.
    pub run: Run,
    /// Its tin, with what was portioned from it.
    pub tin: Option<LiveTin>,
    portions: Vec<RecordedPortion>,
    spread: Spread,
}

impl LiveRun {
    /// A run with the portions that are on record for it, in their order.
    #[must_use]
    pub fn new(run: Run, tin: Option<LiveTin>, portions: Vec<RecordedPortion>) -> Self {
        let spread = Spread::of(&portions);
        Self {
            run,
            tin,
            portions,
            spread,
        }
    }

    /// Takes in a portion of this run that was put on record; one that is
    /// there already is left as it is.
    pub(super) fn take(&mut self, portion: &RecordedPortion) {
        if self
            .portions
            .iter()
            .rev()
            .any(|known| known.id == portion.id)
        {
            return;
        }
        let before = self.taken_here();
        self.portions.push(portion.clone());
        if let Some(replaced) = portion.replaces
            && let Some(earlier) = self.portions.iter_mut().rev().find(|p| p.id == replaced)
        {
            earlier.replaced_by = Some(portion.id);
            self.spread = Spread::of(&self.portions);
        } else if portion.counts() {
            self.spread.add(portion.mass, portion.goal, portion.cost);
        }
        let after = self.taken_here();
        if let Some(tin) = &mut self.tin {
            tin.taken += after - before;
        }
    }

    /// What this run took from the tin, as corrected; a struck-out portion is
    /// gone from it all the same.
    fn taken_here(&self) -> Mass {
        self.portions
            .iter()
            .filter(|portion| portion.replaced_by.is_none())
            .map(|portion| portion.mass)
            .sum()
    }

    /// Every portion on record, also those that count no more, in the order
    /// they were captured.
    #[must_use]
    pub fn portions(&self) -> &[RecordedPortion] {
        &self.portions
    }

    /// The spread of those that count.
    #[must_use]
    pub const fn spread(&self) -> &Spread {
        &self.spread
    }

    /// How many count.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.spread.n()
    }

    /// The last portion that counts: the one that undo would strike out.
    #[must_use]
    pub fn last(&self) -> Option<&RecordedPortion> {
        self.portions.iter().rev().find(|portion| portion.counts())
    }

    /// A portion by its identity.
    #[must_use]
    pub fn portion(&self, id: PortionId) -> Option<&RecordedPortion> {
        self.portions.iter().find(|portion| portion.id == id)
    }
}

/// A tin with what was portioned from it, in this run and earlier ones.
#[derive(Debug, Clone, PartialEq)]
pub struct LiveTin {
    /// The tin.
    pub tin: Tin,
    /// What was portioned from it so far. A struck-out portion is gone from
    /// the tin all the same; a corrected one is counted as corrected.
    pub taken: Mass,
}

impl LiveTin {
    /// What should be left.
    #[must_use]
    pub fn left(&self) -> Mass {
        self.tin.left(self.taken)
    }

    /// How many portions of a run's goal that makes.
    #[must_use]
    pub fn possible(&self, run: &Run) -> PortionsPossible {
        PortionsPossible::of(self.left(), run.goal)
    }
}
