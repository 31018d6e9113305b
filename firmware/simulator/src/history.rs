//! What happens to a simulated instrument that neither a cook nor a desktop can
//! see for certain.

use evenhand_protocol::{CapturedPortion, Epoch};

/// Something that happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Happening {
    /// When, in microseconds of simulated time.
    pub at_micros: u64,
    /// What.
    pub what: What,
}

/// What can happen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// It got power and began this epoch.
    PowerOn(Epoch),
    /// Its flash had this portion when the power came, not yet acknowledged.
    Waiting(CapturedPortion),
    /// A portion was captured and is in the flash from now on, whatever
    /// happens.
    Kept(CapturedPortion),
    /// It lost its power.
    PowerOff {
        /// Whether that was in the middle of a write to the flash.
        in_write: bool,
    },
}
