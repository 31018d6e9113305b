//! Runs: one sitting at the bench with one dish.

use crate::cook::Cook;
use crate::dish::DishName;
use crate::tin::TinId;
use evenhand_protocol::{Goal, Mode, RunId};
use jiff::Timestamp;

/// A run of portions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// The number that the instrument stamps on every portion of it.
    pub id: RunId,
    /// What was portioned. `None` for a run that another store began: its
    /// portions came from the instrument, its name did not.
    pub dish: Option<DishName>,
    /// What a portion should weigh.
    pub goal: Goal,
    /// How portions are made.
    pub mode: Mode,
    /// Who made them, where it was said.
    pub cook: Option<Cook>,
    /// What they were made from, where it was said.
    pub tin: Option<TinId>,
    /// When it began.
    pub started: Timestamp,
    /// When it ended, if it did.
    pub ended: Option<Timestamp>,
}
