//! The instrument's own clock, and the wall's.

use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// Milliseconds since the instrument started; never steps, never repeats
/// within one [`Epoch`](crate::Epoch).
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
pub struct Uptime(u64);

impl Uptime {
    /// So many milliseconds after the start.
    #[must_use]
    pub const fn from_millis(millis: u64) -> Self {
        Self(millis)
    }

    /// Milliseconds since the start.
    #[must_use]
    pub const fn millis(self) -> u64 {
        self.0
    }

    /// Milliseconds from `earlier` to this, zero where `earlier` is later.
    #[must_use]
    // Out of line: 784 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub const fn since(self, earlier: Self) -> u64 {
        self.0.saturating_sub(earlier.0)
    }

    /// The moment so many milliseconds later.
    #[must_use]
    pub const fn plus_millis(self, millis: u64) -> Self {
        Self(self.0.saturating_add(millis))
    }
}

/// Milliseconds since 1970-01-01T00:00:00Z on the wall's clock, leap seconds
/// not counted. May step, in either direction, whenever somebody sets a clock.
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
pub struct UnixMillis(i64);

impl UnixMillis {
    /// So many milliseconds after (or, negative, before) the start of 1970.
    #[must_use]
    pub const fn from_millis(millis: i64) -> Self {
        Self(millis)
    }

    /// Milliseconds since the start of 1970.
    #[must_use]
    pub const fn millis(self) -> i64 {
        self.0
    }
}
