//! What every bridge converter's values are watched for.

use crate::sensor::{BridgeFault, Counts};

/// The upper end of 24 bits, 0x7FFFFF.
const HIGH_RAIL: i32 = 0x7F_FFFF;
/// The lower end of 24 bits, 0x800000.
const LOW_RAIL: i32 = -0x80_0000;

/// What a driver has had to do since it was made; each figure saturates.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Tally {
    /// Restarts of the chip after a fault; the first start is not one.
    pub restarts: u32,
    /// Reads that could not be vouched for and were dropped.
    pub doubtful: u32,
}

impl Tally {
    /// Nothing.
    pub const NONE: Self = Self {
        restarts: 0,
        doubtful: 0,
    };

    pub(super) const fn restarted(&mut self) {
        self.restarts = self.restarts.saturating_add(1);
    }

    pub(super) const fn doubted(&mut self) {
        self.doubtful = self.doubtful.saturating_add(1);
    }
}

/// The number that three bytes of two's complement, highest first, stand for.
pub(super) const fn sign_extended(word: u32) -> i32 {
    (word << 8).cast_signed() >> 8
}

/// The fault that a value at an end of the range is.
pub(super) const fn rail(value: i32) -> Option<BridgeFault> {
    match value {
        HIGH_RAIL => Some(BridgeFault::HighRail),
        LOW_RAIL => Some(BridgeFault::LowRail),
        _ => None,
    }
}

/// Notices a value that never moves.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stillness {
    /// So many equal conversions in a row are a fault; 0 for never.
    limit: u16,
    last: Option<i32>,
    equal: u16,
}

impl Stillness {
    pub const fn new(limit: u16) -> Self {
        Self {
            limit,
            last: None,
            equal: 0,
        }
    }

    /// The value as counts, unless it has been the same too often. The count
    /// goes on through a restart: if that does not help, the first value after
    /// it tells so again.
    pub fn watch(&mut self, value: i32) -> Result<Counts, BridgeFault> {
        if self.last == Some(value) {
            self.equal = self.equal.saturating_add(1);
        } else {
            self.last = Some(value);
            self.equal = 1;
        }
        if self.limit > 0 && self.equal >= self.limit {
            return Err(BridgeFault::Frozen);
        }
        Ok(Counts(value))
    }
}
