//! Limits of time and temperature, each with where it comes from.
//!
//! A limit here is a published figure, not advice: local codes and licensed
//! practice go first, and a kitchen can put its own limits in their place with
//! [`Limits::with_local`]. Nothing in this module, and nothing that uses it,
//! says that food is safe; it says what was measured against which limit.

mod food_code;
mod local;

pub use local::LocalError;

use evenhand_protocol::Temperature;
use jiff::SignedDuration;

/// What stands beside every answer that touches a limit.
pub const CAUTION: &str = "A measurement against a published limit, not a judgement of the food. \
Local codes and licensed practice go first.";

/// How a figure was had.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// Read in the source, or in a page that quotes it.
    Read,
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

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{}, {} ({})",
            self.document,
            self.section,
            self.standing.words()
        )
    }
}

/// One stage of cooling: down to a temperature within a time from the start of
/// the first stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CoolingStage {
    /// Must be at or below this
    pub to: Temperature,
    /// this long after the start of cooling.
    pub within: SignedDuration,
}

/// A hold at a temperature for a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hold {
    /// The temperature to stay at or beyond.
    pub at: Temperature,
    /// How long without a break; zero for an instant.
    pub lasting: SignedDuration,
}

/// What a limit asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Demand {
    /// Cooling in stages from a temperature downward.
    Cooling {
        /// The clock starts when the food falls below this.
        from: Temperature,
        /// The stages, in order.
        stages: Vec<CoolingStage>,
    },
    /// At or below a temperature, always.
    AtMost(Temperature),
    /// At or above a temperature, always.
    AtLeast(Temperature),
    /// Out of temperature control for no longer than this.
    TimeOnly {
        /// How long.
        within: SignedDuration,
        /// And never above this, where the limit has a ceiling.
        never_above: Option<Temperature>,
    },
    /// Frozen: at or below any one of these for its time.
    Frozen(Vec<Hold>),
    /// Cooked: core at or above this for its time.
    Cooked(Hold),
}

/// One limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Limit {
    /// Its name on the command line and in settings: short, lower case.
    pub name: String,
    /// What it is about, in words.
    pub about: String,
    /// What it asks for.
    pub demand: Demand,
    /// Where it comes from.
    pub source: Source,
}

/// All limits in force.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Limits {
    limits: Vec<Limit>,
}

impl Default for Limits {
    fn default() -> Self {
        Self::food_code()
    }
}

impl Limits {
    /// Every limit, in order of what they are about.
    pub fn iter(&self) -> impl Iterator<Item = &Limit> {
        self.limits.iter()
    }

    /// The limit of a name, in any case.
    #[must_use]
    pub fn named(&self, name: &str) -> Option<&Limit> {
        self.limits
            .iter()
            .find(|limit| limit.name.eq_ignore_ascii_case(name))
    }
}
