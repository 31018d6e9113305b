//! Names that stay true over restarts and repeats.

use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// One instrument, for as long as it lives: from the chip's own serial number.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
    MaxSize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct DeviceId(pub u64);

/// One start of an instrument. Differs from every earlier start of the same
/// instrument, so that portion numbers may begin again at nought.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
    MaxSize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Epoch(pub u32);

/// One run of portions, numbered by whoever started it.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
    MaxSize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct RunId(pub u32);

/// One captured portion, unlike any other ever captured.
///
/// The instrument sends a portion until this identity is acknowledged; the
/// desktop records an identity once. Together that makes exactly once.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
    MaxSize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PortionId {
    /// The instrument that captured it.
    pub device: DeviceId,
    /// The start of the instrument during which it was captured.
    pub epoch: Epoch,
    /// Its number within the epoch, from 1 up without gaps.
    pub number: u32,
}

impl core::fmt::Display for PortionId {
    /// `DEVICE-EPOCH-NUMBER`, the first two in hexadecimal.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "{:016x}-{:08x}-{}",
            self.device.0, self.epoch.0, self.number
        )
    }
}
