//! What a log is of.

use crate::units::InputError;
use crate::written_name;

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
        written_name::name(field, text, LONGEST, "oven").map(Self)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_spellings_are_one_log() {
        let composed = LogName::new("--name", "Pur\u{e9}e").unwrap();
        let decomposed = LogName::new("--name", "pu\u{200b}re\u{301}e").unwrap();
        assert_eq!(composed.key(), decomposed.key());
    }
}
