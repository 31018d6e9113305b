//! Mixing by weight: ratios, batches, brine and cures, behind their screens.
//!
//! [`Mixer`] carries out [`Wish`]es and takes in what the scale shows
//! ([`Scene`]); what the screens draw is [`MixView`], plain data. The sums are
//! those of `evenhand_kitchen`; here is only what a cook is in the middle of.
//!
//! 1. `sketch`: a ratio as it is put together, a cure included;
//! 2. `walking`: the ratio on the scale; `capturing`: weighing without one;
//! 3. `batches`: what is on record, side by side, due, tasted;
//! 4. `brine_sheet`: strengths, and telling one by weight; `vessels`;
//! 5. `entry`: words and numbers that are typed.

mod batches;
mod brine_sheet;
mod capturing;
mod entry;
mod mixer;
mod sketch;
mod vessels;
mod view;
mod walking;
mod wish;

pub use mixer::Mixer;
pub use view::{
    BatchRow, BatchView, BrineView, CaptureLine, CaptureView, CheckView, CompareView, CureView,
    EntryKind, EntryView, FinishView, Ingredients, LabelView, MarkedPoint, MixView, SketchLine,
    SketchView, VesselRow, VesselView, WalkLine, WalkView,
};
pub use wish::{Field, Page, Said, Step, Wish};

use evenhand_kitchen::ratio::Look;
use evenhand_protocol::{Mass, Temperature};

/// What the scale and the probe show at this moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Scene {
    /// The scale's look, where there is a live one.
    pub look: Option<Look>,
    /// The probe's temperature, where it reads.
    pub probe: Option<Temperature>,
    /// The scale's smallest step; above zero.
    pub interval: Mass,
    /// The most it may weigh, where that is known.
    pub capacity: Option<Mass>,
}

/// Why a wish came to nothing, as a sentence.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct Refusal(pub String);

impl Refusal {
    pub(super) fn new(words: impl ToString) -> Self {
        Self(words.to_string())
    }
}

macro_rules! refusal_of {
    ($($error:ty),* $(,)?) => {
        $(impl From<$error> for Refusal {
            fn from(error: $error) -> Self {
                Self::new(error)
            }
        })*
    };
}

refusal_of!(
    evenhand_store::StoreError,
    evenhand_kitchen::batch::BatchError,
    evenhand_kitchen::cure::AgentRefusal,
    evenhand_kitchen::cure::NameRefusal,
    evenhand_kitchen::ratio::MixError,
    evenhand_kitchen::ratio::WalkError,
    evenhand_kitchen::units::InputError,
);
