//! What is said when something typed in cannot be used.

use super::reasons::{PROBLEMS, WANTED, code_of};

/// Something typed in that cannot be used: which field, what was there, what
/// is wrong with it and what was expected.
///
/// Reads as one sentence:
/// `--target: "30" has no unit; write a mass with g, kg, oz or lb, such as 30g`.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{field}: {} {problem}; {expected}", shown(value))]
pub struct InputError {
    field: String,
    value: String,
    problem: String,
    expected: String,
}

/// The longest value that is repeated in full.
const SHOWN: usize = 80;

/// A value in quotes, the beginning of it where it is long.
fn shown(value: &str) -> String {
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
    /// An error about `field`, which held `value`. `problem` continues the
    /// sentence after the value ("has no unit"); `expected` is what to write
    /// instead.
    #[must_use]
    pub fn new(
        field: &str,
        value: &str,
        problem: impl Into<String>,
        expected: impl Into<String>,
    ) -> Self {
        Self {
            field: field.to_owned(),
            value: value.to_owned(),
            problem: problem.into(),
            expected: expected.into(),
        }
    }

    /// The same, said of the field by another name, such as the flag it was
    /// typed at.
    #[must_use]
    pub fn at(mut self, field: &str) -> Self {
        field.clone_into(&mut self.field);
        self
    }

    /// The value in quotes, the beginning of it where it is long.
    #[must_use]
    pub fn shown_value(&self) -> String {
        shown(&self.value)
    }

    /// What is wrong, by a code that does not change, with the figures and names
    /// that belong to it; `None` where there is no code for it.
    #[must_use]
    pub fn problem_code(&self) -> Option<(&'static str, Vec<&str>)> {
        code_of(PROBLEMS, &self.problem)
    }

    /// What was expected, as [`Self::problem_code`] says what is wrong.
    #[must_use]
    pub fn expected_code(&self) -> Option<(&'static str, Vec<&str>)> {
        code_of(WANTED, &self.expected)
    }

    /// One error for every phrase that has a code, `{}` standing for what belongs
    /// to it.
    pub fn of_each_code() -> impl Iterator<Item = Self> {
        let of = |problem: &str, wanted: &str| Self::new("--field", "value", problem, wanted);
        let (_, empty) = PROBLEMS.first().copied().unwrap_or_default();
        let problems = PROBLEMS.iter().map(move |(_, problem)| of(problem, ""));
        problems.chain(WANTED.iter().map(move |(_, wanted)| of(empty, wanted)))
    }

    /// The field that held the value.
    #[must_use]
    pub fn field(&self) -> &str {
        &self.field
    }

    /// The value as it was written.
    #[must_use]
    pub fn value(&self) -> &str {
        &self.value
    }

    /// What is wrong with it.
    #[must_use]
    pub fn problem(&self) -> &str {
        &self.problem
    }

    /// What was expected.
    #[must_use]
    pub fn expected(&self) -> &str {
        &self.expected
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_value_is_not_repeated_in_full() {
        let value = "7".repeat(10_000_000);
        let said = InputError::new("mass", &value, "is too large", "write less").to_string();
        assert!(said.len() < 200, "{}", said.len());
        assert!(said.contains("(10000000 characters)"), "{said}");
    }
}
