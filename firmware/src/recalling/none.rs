//! An instrument that keeps nothing that was acknowledged.

use evenhand_protocol::{CapturedPortion, PortionId, Uptime};

/// Refuses.
#[derive(Debug, Clone)]
pub(crate) struct Recaller;

impl Recaller {
    pub(crate) const fn new() -> Self {
        Self
    }

    pub(crate) const fn give_up(&mut self) {}

    pub(crate) const fn acknowledge(&mut self, _id: PortionId) {}

    pub(crate) const fn next(&mut self, _now: Uptime) -> Option<CapturedPortion> {
        None
    }
}
