//! The scale's own uncertainty taken out of the spread.

use super::{Sample, mass};
use evenhand_protocol::Mass;

/// What is the hand's and what is the scale's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Separated {
    /// The spread as seen: both together.
    pub seen: Mass,
    /// The scale's random standard uncertainty.
    pub scale: Mass,
    /// The spread of the portions themselves; `None` where the scale's own
    /// scatter is as large as what was seen, so nothing can be said of the
    /// hand.
    pub hand: Option<Mass>,
}

/// Takes the scale's random standard uncertainty out of a sample's spread:
/// independent contributions add in variance (JCGM 100, 5.1.2). Only the part
/// that differs from portion to portion belongs here; a calibration error
/// shifts all alike and spreads none.
///
/// `None` under two masses or for a negative uncertainty.
#[must_use]
pub fn separate_scale(sample: &Sample, scale: Mass) -> Option<Separated> {
    if scale.is_negative() {
        return None;
    }
    let seen = sample.deviation_grams()?;
    let left = seen * seen - scale.grams() * scale.grams();
    Some(Separated {
        seen: mass(seen),
        scale,
        hand: (left > 0.0).then(|| mass(left.sqrt())),
    })
}
