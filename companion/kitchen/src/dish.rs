//! Dishes: what is portioned, to what weight.

use crate::units::{CostPerMass, InputError};
use crate::written_name;
use evenhand_protocol::{Goal, Mode};
use jiff::Timestamp;

/// The longest name, in characters: what fits on the bench screen.
const LONGEST: usize = 60;

/// A dish's name: one to sixty characters on one line, no control characters, white space
/// at its ends, repeated white space and what cannot be seen taken out.
///
/// Two names that differ only in upper and lower case are the same dish.
#[derive(Debug, Clone, Eq)]
pub struct DishName(String);

impl DishName {
    /// A name. `field` says where it was typed, for the error.
    ///
    /// # Errors
    /// An empty name, one that is too long, over several lines, or with control
    /// characters.
    pub fn new(field: &str, text: &str) -> Result<Self, InputError> {
        written_name::name(field, text, LONGEST, "brown shrimp").map(Self)
    }

    /// The name as it was written.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// What two names have in common when they name the same dish.
    #[must_use]
    pub fn key(&self) -> String {
        self.0.to_lowercase()
    }
}

impl PartialEq for DishName {
    fn eq(&self, other: &Self) -> bool {
        self.key() == other.key()
    }
}

impl core::hash::Hash for DishName {
    fn hash<H: core::hash::Hasher>(&self, state: &mut H) {
        self.key().hash(state);
    }
}

impl Ord for DishName {
    fn cmp(&self, other: &Self) -> core::cmp::Ordering {
        self.key().cmp(&other.key())
    }
}

impl PartialOrd for DishName {
    fn partial_cmp(&self, other: &Self) -> Option<core::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl core::fmt::Display for DishName {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(&self.0)
    }
}

/// A dish as it is portioned since some moment. Changing a dish makes a new
/// version; what was portioned keeps the goal it was portioned to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dish {
    /// Its name.
    pub name: DishName,
    /// What a portion should weigh.
    pub goal: Goal,
    /// How portions are made.
    pub mode: Mode,
    /// What the food costs, where it is known. A tin's own price goes before
    /// this.
    pub cost: Option<CostPerMass>,
    /// When this version began.
    pub since: Timestamp,
    /// When the dish was taken off the list, if it was.
    pub retired: Option<Timestamp>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_tidied_and_compared_without_case() {
        let name = DishName::new("--dish", "  Brown \t shrimp ").unwrap();
        assert_eq!(name.as_str(), "Brown shrimp");
        assert_eq!(name, DishName::new("--dish", "brown SHRIMP").unwrap());
        let composed = DishName::new("--dish", "Pur\u{e9}e").unwrap();
        let decomposed = DishName::new("--dish", "pu\u{200b}re\u{301}e").unwrap();
        assert_eq!(composed, decomposed);
    }

    #[test]
    fn names_that_are_none_are_refused() {
        for (text, problem) in [
            ("", "is empty"),
            (" \t", "is empty"),
            ("shrimp\u{7}", "has control characters in it"),
            (&"x".repeat(61), "is longer than 60 characters"),
        ] {
            assert_eq!(
                DishName::new("--dish", text)
                    .unwrap_err()
                    .problem()
                    .in_english(),
                problem
            );
        }
    }
}
