//! An instrument that weighs by the line that it is given and cannot be
//! calibrated.

use super::Scale;
use crate::signal::{Calibration, Chain, Place};
use evenhand_protocol::{Command, Refusal, Report, Setting, Temperature, Uptime};

/// Refuses everything.
#[derive(Debug, Clone)]
pub(crate) struct Calibrator;

impl Calibrator {
    pub(crate) const fn new() -> Self {
        Self
    }

    pub(crate) const fn take_box_temperature(
        &mut self,
        _temperature: Option<Temperature>,
        _chain: &mut Chain,
    ) {
    }

    pub(crate) const fn place_of(_setting: Setting) -> Result<Option<Place>, Refusal> {
        Err(Refusal::Unknown)
    }

    pub(crate) const fn carry_out(
        &mut self,
        _now: Uptime,
        _command: Command,
        _scale: Scale<'_>,
    ) -> Result<Option<Calibration>, Refusal> {
        Err(Refusal::Unknown)
    }

    pub(crate) const fn give_up(&mut self) {}

    pub(crate) const fn report(&mut self, _now: Uptime) -> Option<Report> {
        None
    }
}
