//! What an instrument knows of its own health, from version 1.4.

use crate::Uptime;
use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// Counts, noise, rate and wear. Each count is since the last start and
/// saturates, where nothing else is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Diagnosis {
    /// When.
    pub at: Uptime,
    /// Conversions a second of the bridge converter, in thousandths, as
    /// measured. `None` before enough have come.
    pub rate_millihertz: Option<u32>,
    /// The standard deviation of one conversion from noise, in thousandths of a
    /// count, as measured from each to the next. `None` before enough have
    /// come.
    pub noise_millicounts: Option<u32>,
    /// Counts a gram in thousandths, without sign. `None` without a
    /// calibration.
    pub millicounts_per_gram: Option<u32>,
    /// Conversions that were taken.
    pub conversions: u32,
    /// Faults of the bridge converter that were told, time-outs among them.
    pub bridge_faults: u32,
    /// Times in which it gave no conversion.
    pub bridge_timeouts: u32,
    /// Times in which its driver started it anew.
    pub bridge_restarts: u32,
    /// Reads that its driver could not vouch for and dropped.
    pub doubtful_reads: u32,
    /// Faults of the probe that were told.
    pub probe_faults: u32,
    /// Why it started last.
    pub start: StartReason,
    /// Stack that was never used, in bytes. `None` where that is not looked at.
    pub stack_free: Option<u32>,
    /// Pages of flash that it keeps its memory in; none without a memory.
    pub flash_pages: u16,
    /// Erases of these pages over all its life, to within 16.
    pub flash_erases: u32,
}

/// Why an instrument started.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum StartReason {
    /// It cannot tell.
    #[default]
    Unknown,
    /// The power came, or somebody pressed its reset button.
    Power,
    /// Its watchdog started it anew: no conversions came.
    Watchdog,
    /// Its program started it anew, after something that should not be.
    Program,
}
