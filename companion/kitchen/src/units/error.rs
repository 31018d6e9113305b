//! What is said when something typed in cannot be used.

/// Something typed in that cannot be used: which field, what was there, what
/// is wrong with it and what was expected.
///
/// Reads as one sentence:
/// `--target: "30" has no unit; write a mass with g, kg, oz or lb, such as 30g`.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{field}: {value:?} {problem}; {expected}")]
pub struct InputError {
    field: String,
    value: String,
    problem: String,
    expected: String,
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
