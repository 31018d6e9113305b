//! What a batch tasted like, on a scale of its own.

use crate::units::InputError;

/// A mark from 1 to 9: 1 never again, 5 as it should be, 9 the best yet.
/// Nine steps because fewer do not tell two good batches apart and more are
/// not told apart by anybody; an odd number so that there is a middle.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(try_from = "u8", into = "u8")]
pub struct Mark(u8);

impl Mark {
    /// A mark.
    ///
    /// # Errors
    /// Anything but 1 to 9.
    pub fn new(field: &str, value: u8) -> Result<Self, InputError> {
        if (1..=9).contains(&value) {
            Ok(Self(value))
        } else {
            Err(InputError::new(
                field,
                &value.to_string(),
                problem!("no-mark"),
                expected!("mark"),
            ))
        }
    }

    /// From 1 to 9.
    #[must_use]
    pub const fn value(self) -> u8 {
        self.0
    }
}

impl TryFrom<u8> for Mark {
    type Error = InputError;
    fn try_from(value: u8) -> Result<Self, InputError> {
        Self::new("mark", value)
    }
}

impl From<Mark> for u8 {
    fn from(mark: Mark) -> Self {
        mark.0
    }
}

impl core::fmt::Display for Mark {
    /// `7 of 9`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} of 9", self.0)
    }
}
