//! Batches: what was really weighed, and what came of it.
//!
//! A batch is a record that grows line by line ([`Entry`]) and is never
//! rewritten: ingredients are weighed before they have a name, and named
//! later; a line that was wrong is struck out with a reason. What the lines
//! add up to is a [`Batch`]: what is in it, what is due ([`Schedule`], [`Due`]),
//! how far it has dried ([`Loss`]), how warm its cold store was, how it tasted
//! ([`Mark`]). Batches of the same thing stand side by side in a
//! [`Comparison`], and any of them can be mixed again, a little changed:
//! [`Batch::as_formula`] and [`Formula::with_more`](crate::ratio::Formula::with_more).

mod aim;
mod compare;
mod entry;
mod loss;
mod mark;
mod plan;
mod record;
mod yielded;

pub use aim::{Aim, AimError};
pub use compare::{Comparison, Row, ShareOf};
pub use entry::{CuringWay, Entry, NamedAs, ReadyNitrite, Slot, What, same_title};
use jiff::SignedDuration;
pub use loss::{Loss, LossTarget};
pub use mark::Mark;
pub use plan::{Due, Schedule, Task, due_with, span};
pub use record::{Batch, BatchError, Claimed, Hindrance, Judging, Tasting, WeighedIn};
pub use yielded::{UsualYield, YieldRow, Yielded, Yields};

/// Readings of a batch's cold store further apart than this leave a gap. They are
/// taken by hand, so four hours, the step that kitchens check at (common practice, no
/// source).
pub const STORE_STEP: SignedDuration = SignedDuration::from_hours(4);

/// Which batch, within one store; from 1 up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct BatchId(pub i64);

impl core::fmt::Display for BatchId {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        self.0.fmt(f)
    }
}
