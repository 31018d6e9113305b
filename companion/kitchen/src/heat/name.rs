//! What a log is of.

use crate::units::InputError;

/// The longest name, in characters: what fits on a screen.
const LONGEST: usize = 40;

/// The name of a log: "oven", "pan of stock". Two names that differ only in
/// case are one log's.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LogName(String);

impl LogName {
    /// A name of 1 to 40 characters; white space at its ends and repeated white
    /// space is taken out. `field` says where it was typed, for the error.
    ///
    /// # Errors
    /// An empty name, one that is too long, or one with control characters.
    pub fn new(field: &str, text: &str) -> Result<Self, InputError> {
        let wrong = |problem: &str| {
            InputError::new(
                field,
                text,
                problem,
                "write a name of 1 to 40 characters, such as \"oven\"",
            )
        };
        let name = text.split_whitespace().collect::<Vec<_>>().join(" ");
        if name.is_empty() {
            return Err(wrong("is empty"));
        }
        if name.chars().any(char::is_control) {
            return Err(wrong("has control characters in it"));
        }
        if name.chars().count() > LONGEST {
            return Err(wrong("is longer than 40 characters"));
        }
        Ok(Self(name))
    }

    /// As it was written.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// What names of one log have in common.
    #[must_use]
    pub fn key(&self) -> String {
        self.0.to_lowercase()
    }
}

impl std::fmt::Display for LogName {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.pad(&self.0)
    }
}
