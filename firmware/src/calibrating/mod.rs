//! Calibration over the link, the test with a known weight, and where the scale
//! stands: what of it this instrument is built with.
//!
//! One type, [`Calibrator`], in two makes of the same methods: with the feature
//! `calibration` it does what it is asked, and without it refuses everything,
//! takes no room and tells nothing. The instrument does not know which it has.

#[cfg(feature = "calibration")]
mod known_weights;
#[cfg(not(feature = "calibration"))]
mod none;

#[cfg(feature = "calibration")]
pub(crate) use known_weights::Calibrator;
#[cfg(not(feature = "calibration"))]
pub(crate) use none::Calibrator;

use crate::signal::{CellFigures, Chain, Place, Weight};
use evenhand_protocol::Goal;

/// What a command about the calibration is carried out on.
#[derive(Debug, Clone, Copy)]
#[cfg_attr(
    not(feature = "calibration"),
    expect(dead_code, reason = "without the feature every command is refused")
)]
pub(crate) struct Scale<'a> {
    pub(crate) chain: &'a Chain,
    pub(crate) figures: &'a CellFigures,
    /// What lies on it; `None` while it cannot weigh.
    pub(crate) weight: Option<Weight>,
    /// What a portion should weigh, if that was ever said.
    pub(crate) goal: Option<&'a Goal>,
    /// Where it stands, if that is known.
    pub(crate) place: Option<Place>,
    /// Whether a run of portions goes on.
    pub(crate) in_run: bool,
}
