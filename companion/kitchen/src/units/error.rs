//! What is said when something typed in cannot be used.

use super::Reason;
use core::fmt;

/// Something typed in that cannot be used: which field, what was there, what
/// is wrong with it and what was expected.
///
/// Reads as one sentence:
/// `--target: "30" has no unit; write a mass with g, kg, oz or lb, such as 30g`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputError(Box<Told>);

/// What there is to say, apart: an error is as small as any result that may hold it.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Told {
    field: String,
    value: String,
    problem: Reason,
    expected: Reason,
}

impl fmt::Display for InputError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (problem, expected) = (self.problem().in_english(), self.expected().in_english());
        let (field, value) = (self.field(), self.shown_value());
        write!(f, "{field}: {value} {problem}; {expected}")
    }
}

impl core::error::Error for InputError {}

/// The longest value that is repeated in full.
const SHOWN: usize = 80;

/// A value in quotes, the beginning of it where it is long.
#[must_use]
pub fn shown(value: &str) -> String {
    match value.char_indices().nth(SHOWN) {
        None => format!("{value:?}"),
        Some((end, _)) => format!(
            "{:?}... ({} characters)",
            value.get(..end).unwrap_or_default(),
            value.chars().count()
        ),
    }
}

impl InputError {
    /// An error about `field`, which held `value`: what is wrong with it, and
    /// what to write instead.
    #[must_use]
    pub fn new(field: &str, value: &str, problem: Reason, expected: Reason) -> Self {
        Self(Box::new(Told {
            field: field.to_owned(),
            value: value.to_owned(),
            problem,
            expected,
        }))
    }

    /// The same, said of the field by another name, such as the flag it was
    /// typed at.
    #[must_use]
    pub fn at(mut self, field: &str) -> Self {
        field.clone_into(&mut self.0.field);
        self
    }

    /// The value in quotes, the beginning of it where it is long.
    #[must_use]
    pub fn shown_value(&self) -> String {
        shown(&self.0.value)
    }

    /// The field that held the value.
    #[must_use]
    pub fn field(&self) -> &str {
        &self.0.field
    }

    /// The value as it was written.
    #[must_use]
    pub fn value(&self) -> &str {
        &self.0.value
    }

    /// What is wrong with it.
    #[must_use]
    pub fn problem(&self) -> &Reason {
        &self.0.problem
    }

    /// What was expected.
    #[must_use]
    pub fn expected(&self) -> &Reason {
        &self.0.expected
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_value_is_not_repeated_in_full() {
        let value = "7".repeat(10_000_000);
        let said = InputError::new(
            "mass",
            &value,
            problem!("too-large"),
            expected!("above-zero"),
        )
        .to_string();
        assert!(said.len() < 200, "{}", said.len());
        assert!(said.contains("(10000000 characters)"), "{said}");
    }
}
