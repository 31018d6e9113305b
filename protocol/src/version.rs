//! Who may talk to whom.

use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// A version of the link.
///
/// Peers of different `major` cannot talk: every frame begins with the major
/// version, so neither end ever decodes the other's messages. A higher `minor`
/// only adds: messages and variants at the ends of their lists, and fields at
/// the ends of messages.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, MaxSize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Version {
    /// Changes when an old peer would misread a new one.
    pub major: u8,
    /// Changes when something is added.
    pub minor: u8,
}

impl Version {
    /// The version that this crate speaks.
    pub const CURRENT: Self = Self { major: 1, minor: 5 };
    /// What a peer is taken to speak until its hello has come: the last version
    /// whose readers refuse a message with a field that they do not know.
    pub const UNTIL_HELLO: Self = Self { major: 1, minor: 2 };

    /// The version that two peers speak with each other: the lower of the two.
    ///
    /// ```
    /// use evenhand_protocol::Version;
    /// let old = Version { major: 1, minor: 1 };
    /// assert_eq!(Version::CURRENT.shared_with(old), Ok(old));
    /// let other = Version { major: 2, minor: 0 };
    /// assert_eq!(
    ///     Version::CURRENT.shared_with(other).unwrap_err().to_string(),
    ///     "the other end speaks version 2 of the link and this end version 1: \
    ///      this end is the older one and needs an update",
    /// );
    /// ```
    ///
    /// # Errors
    /// [`OtherMajor`] where their major versions differ.
    pub fn shared_with(self, theirs: Self) -> Result<Self, OtherMajor> {
        if self.major == theirs.major {
            Ok(self.min(theirs))
        } else {
            Err(OtherMajor {
                ours: self.major,
                theirs: theirs.major,
            })
        }
    }
}

impl core::fmt::Display for Version {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}.{}", self.major, self.minor)
    }
}

/// Two peers whose major versions differ cannot talk.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct OtherMajor {
    /// The major version of this end.
    pub ours: u8,
    /// That of the other end.
    pub theirs: u8,
}

impl core::fmt::Display for OtherMajor {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let older = if self.theirs > self.ours {
            "this end"
        } else {
            "the other end"
        };
        write!(
            f,
            "the other end speaks version {} of the link and this end version {}: {older} is the older one and needs an update",
            self.theirs, self.ours
        )
    }
}

impl core::error::Error for OtherMajor {}
