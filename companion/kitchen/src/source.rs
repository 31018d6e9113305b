//! Where a figure of a table comes from, said beside the figure.

/// How a figure was had. A figure never claims more than it has: one that was
/// met in a page that cites its source is *quoted*, however good the source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// Read in the source itself.
    Read,
    /// Read in another page that cites the source, or in a rule that adopts
    /// it.
    Quoted,
    /// Recalled; to be confirmed by whoever has the source.
    FromMemory,
    /// A habit of the trade without a source.
    CommonPractice,
    /// Put in by this kitchen.
    Local,
}

impl Standing {
    /// The words that stand beside the figure.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Quoted => "read as quoted",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice, no source",
            Self::Local => "this kitchen's own setting",
        }
    }
}

/// Where a limit comes from.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Source {
    /// The document and its date.
    pub document: String,
    /// The section.
    pub section: String,
    /// How the figure was had.
    pub standing: Standing,
}

impl core::fmt::Display for Source {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "{}, {} ({})",
            self.document,
            self.section,
            self.standing.words()
        )
    }
}

/// A publication a table or a rule comes from, and how it was had.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub struct Publication {
    /// Title, author or number, edition and place, enough to find it.
    pub title: &'static str,
    /// How the figure was had from it.
    pub standing: Standing,
}

impl Publication {
    /// One that was read.
    #[must_use]
    pub const fn read(title: &'static str) -> Self {
        Self {
            title,
            standing: Standing::Read,
        }
    }

    /// One that was read in a page that cites it.
    #[must_use]
    pub const fn quoted(title: &'static str) -> Self {
        Self {
            title,
            standing: Standing::Quoted,
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
    /// `USDA FSIS Directive 7620.3 (read as quoted)`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} ({})", self.title, self.standing.words())
    }
}
