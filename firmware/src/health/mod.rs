//! What the instrument measures of itself.
//!
//! One type, [`Health`], in two makes of the same methods: with the feature
//! `calibration` it measures rate and noise and counts what goes wrong, and
//! without it takes no room and tells nothing.

#[cfg(feature = "calibration")]
mod measured;
#[cfg(not(feature = "calibration"))]
mod none;

#[cfg(feature = "calibration")]
pub(crate) use measured::Health;
#[cfg(not(feature = "calibration"))]
pub(crate) use none::Health;
