//! The practice bench: a scale that is not there, at which a person does by mouse or finger
//! what hands do at a real one; and the guided first minutes at it.

mod guide;

pub use guide::Step;

use evenhand_link::Table;
use evenhand_simulator::practice::HandMove;

/// Whether there is a real scale on the bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum BenchKind {
    /// There is, or none at all.
    #[default]
    Real,
    /// A simulated one, at which a scenario's cook works.
    Simulated,
    /// The practice bench.
    Practice(PracticeView),
}

impl BenchKind {
    /// Whether it is the practice bench.
    #[must_use]
    pub const fn is_practice(&self) -> bool {
        matches!(self, Self::Practice(_))
    }

    /// Whether the guide is open.
    #[must_use]
    pub const fn is_guided(&self) -> bool {
        matches!(self, Self::Practice(view) if view.step.is_some())
    }
}

/// The practice bench as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PracticeView {
    /// What the hand has done.
    pub table: Table,
    /// Where the guide has got to; `None` where it was left.
    pub step: Option<Step>,
}

/// What is asked for at the practice bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PracticeWish {
    /// Open it.
    Begin,
    /// The hand does this.
    Do(HandMove),
    /// Go on without the guide.
    LeaveGuide,
    /// The guide from its beginning.
    Guide,
    /// Leave the practice bench.
    End,
}
