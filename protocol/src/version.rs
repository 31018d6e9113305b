//! Who may talk to whom.

use serde::{Deserialize, Serialize};

/// A version of the link.
///
/// Peers of different `major` cannot talk: every frame begins with the major
/// version, so neither end ever decodes the other's messages. A higher `minor`
/// only adds messages at the end of their lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Version {
    /// Changes when an old peer would misread a new one.
    pub major: u8,
    /// Changes when messages are added.
    pub minor: u8,
}

impl Version {
    /// The version that this crate speaks.
    pub const CURRENT: Self = Self { major: 1, minor: 3 };
}

impl core::fmt::Display for Version {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}.{}", self.major, self.minor)
    }
}
