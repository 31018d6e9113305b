//! What ingoing nitrite is held against.
//!
//! The figures themselves stand with all other limits, in
//! [`Limits`](crate::limits::Limits); here is their shape, and the one way in
//! which a figure is compared with them.
//!
//! **How a figure is compared.** A limit is compared by its exact figure. Where
//! the source states a dose and rounds it to parts per million (a quarter
//! ounce to a hundredweight of 100 lb is 156.25 ppm, printed as 156), the exact
//! figure of the dose counts, so that the source's own dose is within. Nothing
//! is rounded before it is compared. The comparison allows one microgram of
//! the agent, the step in which masses are kept here, and nothing more.

use super::Ppm;
use crate::source::Source;

/// What stands beside every answer about a curing agent.
pub const CAUTION: &str = "Nitrite is poisonous in overdose. A limit is a published figure, not a \
judgement of the food: local codes and licensed practice go first. Cured or not, raw meat stays cold.";

/// Parts of nitrite ion in one part of sodium nitrite, by mass: 46.0055 to
/// 68.9953 g/mol (standard atomic weights; 0.67 in pages that explain
/// Regulation (EU) 2023/2108, read).
pub const ION_IN_SODIUM_NITRITE: f64 = 46.005_5 / 68.995_3;

/// What the parts per million of a limit are parts of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum CountedAs {
    /// Sodium nitrite.
    SodiumNitrite,
    /// Nitrite ion.
    NitriteIon,
}

impl CountedAs {
    /// The words for it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::SodiumNitrite => "sodium nitrite",
            Self::NitriteIon => "nitrite ion",
        }
    }

    /// What one part of this is in sodium nitrite.
    fn in_sodium_nitrite(self) -> f64 {
        match self {
            Self::SodiumNitrite => 1.0,
            Self::NitriteIon => 1.0 / ION_IN_SODIUM_NITRITE,
        }
    }
}

/// What a limit asks of the nitrite going in.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Asked {
    /// No more than this.
    AtMost(Ppm),
    /// This, no more and no less: the meat must have it. `low` and `high` are
    /// what still counts as it.
    Level {
        /// What must go in.
        level: Ppm,
        /// Less than this is too little.
        low: Ppm,
        /// More than this is too much.
        high: Ppm,
    },
}

/// What is usual at least, where a source says so. It hinders nothing.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct UsualMinimum {
    /// How much.
    pub ppm: Ppm,
    /// By which source.
    pub source: Source,
}

/// How a source states a figure that is not plain parts per million.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Stated {
    /// A quarter ounce of sodium nitrite to a hundredweight of 100 lb of meat.
    QuarterOunce,
}

impl Stated {
    /// The words for it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::QuarterOunce => "1/4 oz to 100 lb of meat, which the handbook rounds to 156 ppm",
        }
    }
}

impl serde::Serialize for Stated {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.words())
    }
}

/// A limit on nitrite for one way of curing.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct NitriteLimit {
    /// What is asked.
    pub asked: Asked,
    /// What the parts per million are parts of.
    pub counted_as: CountedAs,
    /// The most that may be found in the finished food, where the source has
    /// that too. It is found by analysis and never worked out here.
    pub finished_at_most: Option<Ppm>,
    /// What is usual at least.
    pub usual_minimum: Option<UsualMinimum>,
    /// How the source states it, where that is not a plain figure.
    pub stated: Option<Stated>,
    /// By which source.
    pub source: Source,
}

impl NitriteLimit {
    /// The figure to aim at and not to pass, in sodium nitrite.
    #[must_use]
    pub fn aim(&self) -> Ppm {
        match self.asked {
            Asked::AtMost(most) => self.in_sodium_nitrite(most),
            Asked::Level { level, .. } => self.in_sodium_nitrite(level),
        }
    }

    /// The most that passes, in sodium nitrite.
    #[must_use]
    pub fn at_most(&self) -> Ppm {
        match self.asked {
            Asked::AtMost(most) => self.in_sodium_nitrite(most),
            Asked::Level { high, .. } => self.in_sodium_nitrite(high),
        }
    }

    /// The least that passes, in sodium nitrite, where some must go in.
    #[must_use]
    pub fn at_least(&self) -> Option<Ppm> {
        match self.asked {
            Asked::AtMost(_) => None,
            Asked::Level { low, .. } => Some(self.in_sodium_nitrite(low)),
        }
    }

    /// Sodium nitrite in the units of this limit.
    #[must_use]
    pub fn counted(&self, sodium_nitrite: Ppm) -> Ppm {
        Ppm::published(sodium_nitrite.value() / self.counted_as.in_sodium_nitrite())
    }

    fn in_sodium_nitrite(&self, ppm: Ppm) -> Ppm {
        Ppm::published(ppm.value() * self.counted_as.in_sodium_nitrite())
    }

    /// The same for bacon with its skin on: a tenth less, because skin takes up
    /// next to none of it (USDA FSIS Directive 7620.3, bacon section; read as
    /// quoted).
    #[must_use]
    pub(super) fn with_skin(mut self) -> Self {
        const SKIN_ON: f64 = 0.9;
        let less = |ppm: Ppm| Ppm::published(ppm.value() * SKIN_ON);
        self.asked = match self.asked {
            Asked::AtMost(most) => Asked::AtMost(less(most)),
            Asked::Level { level, low, high } => Asked::Level {
                level: less(level),
                low: less(low),
                high: less(high),
            },
        };
        self.stated = None;
        self
    }
}

/// A figure with no more decimals than it needs, up to two.
pub(super) fn plain(ppm: Ppm) -> String {
    let text = format!("{:.2}", ppm.value());
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

impl NitriteLimit {
    /// What may go in, without what may be found in the end.
    pub(super) fn ingoing(&self) -> String {
        let mut text = match self.asked {
            Asked::AtMost(most) => format!("at most {} ppm", plain(most)),
            Asked::Level { level, low, high } => format!(
                "{} ppm required ({} to {} ppm counts as that)",
                plain(level),
                plain(low),
                plain(high)
            ),
        };
        text += &format!(" of {}", self.counted_as.words());
        if self.counted_as == CountedAs::NitriteIon {
            text += &format!(" ({} ppm of sodium nitrite)", plain(self.at_most()));
        }
        if let Some(stated) = self.stated {
            text += &format!(" ({})", stated.words());
        }
        text
    }
}

impl core::fmt::Display for NitriteLimit {
    /// The figures: `at most 200 ppm of sodium nitrite`, and what may be found
    /// in the finished food.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.ingoing())?;
        if let Some(finished) = self.finished_at_most {
            write!(
                f,
                "; in the finished food at most {} ppm, by analysis",
                plain(finished)
            )?;
        }
        Ok(())
    }
}
