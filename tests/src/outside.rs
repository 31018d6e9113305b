//! A figure of ours held against a published one.

use evenhand_kitchen::source::Publication;
use std::fmt;

/// One figure beside its published value.
#[derive(Debug, Clone, PartialEq)]
pub struct Check {
    /// What is compared, with its unit.
    pub quantity: String,
    /// Where the other figure comes from, and how it was had.
    pub source: Publication,
    /// Ours.
    pub ours: f64,
    /// Theirs.
    pub theirs: f64,
    /// The largest difference that is no disagreement, in the same unit.
    pub tolerance: f64,
}

impl Check {
    /// A comparison.
    #[must_use]
    pub fn new(
        quantity: impl Into<String>,
        source: Publication,
        ours: f64,
        theirs: f64,
        tolerance: f64,
    ) -> Self {
        Self {
            quantity: quantity.into(),
            source,
            ours,
            theirs,
            tolerance,
        }
    }

    /// The comparison in a table that differs most.
    #[must_use]
    pub fn worst(checks: impl IntoIterator<Item = Self>) -> Option<Self> {
        checks
            .into_iter()
            .max_by(|a, b| a.difference().abs().total_cmp(&b.difference().abs()))
    }

    /// Ours less theirs.
    #[must_use]
    pub fn difference(&self) -> f64 {
        self.ours - self.theirs
    }

    /// Whether the two agree. What is no number agrees with nothing.
    #[must_use]
    pub fn agrees(&self) -> bool {
        self.difference().abs() <= self.tolerance
    }

    /// The head of the table whose rows checks print as.
    pub const HEAD: &str = "| quantity | source | ours | theirs | difference | tolerance |\n\
                            | --- | --- | ---: | ---: | ---: | ---: |";
}

impl fmt::Display for Check {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "| {} | {} | {} | {} | {} | {} |",
            self.quantity,
            self.source,
            digits(self.ours),
            digits(self.theirs),
            digits(self.difference()),
            digits(self.tolerance)
        )
    }
}

/// Eight significant digits at most.
fn digits(number: f64) -> String {
    if number == 0.0 {
        return String::from("0");
    }
    if number.abs() < 1e-3 {
        return format!("{number:.1e}");
    }
    let decimals = (7 - number.abs().log10().floor() as i32).clamp(0, 8) as usize;
    let text = format!("{number:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}
