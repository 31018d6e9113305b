//! Nothing is taken off a load besides the zero: what stands in for the
//! corrections without the feature `calibration`.

use super::Calibration;
use super::gravity::Place;
use evenhand_protocol::{Mass, Temperature};

/// Takes nothing off, and no room.
#[derive(Debug, Clone)]
pub(super) struct Corrections;

impl Corrections {
    pub(super) const NONE: Self = Self;

    pub(super) const fn set_place(&mut self, _: Option<Place>, _: Option<&Calibration>) {}

    pub(super) const fn set_temperature(&mut self, _: Option<Temperature>) {}

    pub(super) const fn calibrated(&mut self, _: &Calibration) {}

    pub(super) const fn correct(
        &mut self,
        load: Mass,
        _: Option<&Calibration>,
        _elapsed_millis: u64,
    ) -> Mass {
        load
    }
}
