//! Where a figure of a table comes from, said beside the figure.

use crate::limits::Standing;

/// A publication a table or a rule comes from, and how it was had.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub struct Publication {
    /// Title, author or number, edition and place, enough to find it.
    pub title: &'static str,
    /// How the figure was had from it.
    pub standing: Standing,
}

impl Publication {
    /// One that was read, or quoted in a page that was.
    #[must_use]
    pub const fn read(title: &'static str) -> Self {
        Self {
            title,
            standing: Standing::Read,
        }
    }

    /// One that is recalled.
    #[must_use]
    pub const fn from_memory(title: &'static str) -> Self {
        Self {
            title,
            standing: Standing::FromMemory,
        }
    }

    /// No publication but a habit of the trade; the title says which.
    #[must_use]
    pub const fn common_practice(title: &'static str) -> Self {
        Self {
            title,
            standing: Standing::CommonPractice,
        }
    }
}

impl core::fmt::Display for Publication {
    /// `USDA FSIS Directive 7620.3 (read)`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} ({})", self.title, self.standing.words())
    }
}
