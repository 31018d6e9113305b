//! An instrument that does not look at itself.

use crate::drivers::Tally;
use crate::sensor::{BridgeFault, Counts};
use crate::signal::Chain;
use evenhand_protocol::{Report, Uptime};

/// Knows nothing.
#[derive(Debug, Clone)]
pub(crate) struct Health;

impl Health {
    pub(crate) const fn new() -> Self {
        Self
    }

    pub(crate) const fn conversion(&mut self, _now: Uptime, _counts: Counts) {}

    pub(crate) const fn bridge_fault(&mut self, _fault: BridgeFault) {}

    pub(crate) const fn probe_fault(&mut self) {}

    pub(crate) const fn tally(&mut self, _tally: Tally) {}

    pub(crate) const fn report(&mut self, _now: Uptime, _chain: &Chain) -> Option<Report> {
        None
    }
}
