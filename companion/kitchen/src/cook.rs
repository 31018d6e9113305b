//! Who made the portions.

use crate::units::InputError;

/// A cook, by initials only: one to four letters, kept in upper case. Enough
/// to see whose hand runs heavy, too little to be a personnel file.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Cook(String);

impl Cook {
    /// A cook's initials. `field` says where they were typed, for the error.
    ///
    /// # Errors
    /// Anything but one to four letters.
    pub fn new(field: &str, text: &str) -> Result<Self, InputError> {
        let initials = text.trim().to_uppercase();
        let count = initials.chars().count();
        if !(1..=4).contains(&count) || !initials.chars().all(char::is_alphabetic) {
            return Err(InputError::new(
                field,
                text,
                problem!("not-initials"),
                expected!("initials"),
            ));
        }
        Ok(Self(initials))
    }

    /// The initials.
    #[must_use]
    pub fn initials(&self) -> &str {
        &self.0
    }
}

impl core::fmt::Display for Cook {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn initials_and_nothing_else() {
        assert_eq!(Cook::new("--cook", " mo ").unwrap().initials(), "MO");
        for bad in ["", "ABCDE", "M.", "m o", "7"] {
            assert!(Cook::new("--cook", bad).is_err(), "{bad:?}");
        }
    }
}
