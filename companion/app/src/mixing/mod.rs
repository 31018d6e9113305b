//! Mixing by weight: ratios, batches, brine and cures, behind their screens.
//!
//! [`Mixer`] carries out [`Wish`]es and takes in what the scale shows
//! ([`Scene`]); what the screens draw is [`MixView`], plain data. The sums are
//! those of `evenhand_kitchen`; here is only what a cook is in the middle of.
//!
//! 1. `recipe_draft`: a ratio as it is put together, a cure included;
//! 2. `mix_on_scale`: the ratio on the scale; `capturing`: weighing without one;
//! 3. `batches`: what is on record, side by side, due, tasted;
//! 4. `book_sheet`: formulas of the kitchen's own book; `brine_sheet`: strengths, and telling one by weight; `vessels`;
//! 5. `entry`: words and numbers that are typed; `refusal`: why a wish came to nothing.

mod batches;
mod book_sheet;
mod brine_sheet;
mod capturing;
mod entry;
mod mix_on_scale;
mod mixer;
mod recipe_draft;
mod refusal;
mod vessels;
mod view;
mod wish;

pub use mixer::Mixer;
pub use refusal::{NoLimits, Obstacle, Refusal};
pub use view::{
    BatchRow, BatchView, BookRow, BrineView, CaptureLine, CaptureView, CheckView, CompareView,
    CureView, EntryKind, EntryView, FinishView, Ingredients, LabelView, MarkedPoint, MixView,
    PouringLine, PouringView, RecipeDraftView, SketchLine, UnfinishedView, VesselRow, VesselView,
};
pub use wish::{Field, Page, Said, VesselStep, Wish};

use evenhand_kitchen::ratio::{ScaleError, ScaleLook};
use evenhand_protocol::{Mass, Temperature, VerificationInterval};

/// What the scale and the probe show at this moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scene {
    /// The scale's look, where there is a live one.
    pub look: Option<ScaleLook>,
    /// The probe's temperature, where it reads.
    pub probe: Option<Temperature>,
    /// The smallest step of the scale's display; above zero.
    pub interval: Mass,
    /// What the scale's error limits are counted in.
    pub verification: VerificationInterval,
    /// The most it may weigh, where that is known.
    pub capacity: Option<Mass>,
}

impl Scene {
    /// A scale that has said nothing yet: 0.1 g steps are usual for a bench.
    #[must_use]
    pub const fn unknown() -> Self {
        let interval = Mass::from_milligrams(100);
        Self {
            look: None,
            probe: None,
            interval,
            verification: VerificationInterval::coarsest(interval),
            capacity: None,
        }
    }

    /// How far the scale may be out in service.
    pub(super) const fn error(&self) -> ScaleError {
        ScaleError::InService(self.verification)
    }

    /// The least change of load that counts as something poured.
    pub(super) const fn least(&self) -> Mass {
        self.interval.times(3)
    }
}
