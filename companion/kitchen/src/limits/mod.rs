//! The limits in force, each with where it comes from.
//!
//! A limit here is a published figure, not advice: local codes and licensed
//! practice go first, and a kitchen can put its own limits in their place, in
//! one file ([`Limits::in_force`]). That file also chooses the region, once,
//! for every limit. A file that cannot be used is an error and nothing is
//! judged: no caller falls back on the published figures, since the kitchen
//! has said that it goes by others.
//!
//! Nothing in this module, and nothing that uses it, says that food is safe;
//! it says what was measured against which limit.

mod demand;
mod food_code;
mod local;
mod nitrite;
mod regional;

pub use crate::source::{Source, Standing};
pub use demand::{Begins, CoolingStage, Demand, Hold, Side, both_units};
pub use local::LocalError;

use crate::cure::{Method, NitriteLimit};
use crate::probe::Probe;
use jiff::SignedDuration;

/// What stands beside every answer that touches a limit.
pub const CAUTION: &str = "A measurement against a published limit, not a judgement of the food. \
Local codes and licensed practice go first.";

/// Whose rules the published limits are.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum Region {
    /// The United States: the model Food Code, and the federal rules for
    /// curing agents.
    #[default]
    Us,
    /// The European Union, where it has a figure of its own; the model Food
    /// Code's for the rest.
    Eu,
}

impl Region {
    /// Its name on the command line and in the limits file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Us => "us",
            Self::Eu => "eu",
        }
    }
}

/// One limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Its name on the command line and in settings: short, lower case.
    pub name: String,
    /// What it is about, in words.
    pub about: String,
    /// What it asks for.
    pub demand: Demand,
    /// How long a reading may be beyond it, for a limit that is always to be
    /// kept. Nothing in the published limits.
    pub allowance: SignedDuration,
    /// Where it comes from.
    pub source: Source,
}

/// All limits in force.
#[derive(Debug, Clone, PartialEq)]
pub struct Limits {
    region: Region,
    probe: Option<Probe>,
    limits: Vec<Limit>,
}

impl Limits {
    /// The published limits of a region, nothing of the kitchen's own.
    #[must_use]
    pub fn published(region: Region) -> Self {
        let mut limits = food_code::limits();
        if region == Region::Eu {
            for limit in regional::eu() {
                put(&mut limits, limit);
            }
        }
        limits.extend(nitrite::limits(region));
        Self {
            region,
            probe: None,
            limits,
        }
    }

    /// The published limits of the United States.
    #[must_use]
    pub fn food_code() -> Self {
        Self::published(Region::Us)
    }

    /// The limits that a kitchen goes by: the published ones of its region,
    /// with those of its own limits file put in the place of the ones of the
    /// same name, or added. `file` is the text of that file; `None` where the
    /// kitchen has none.
    ///
    /// ```
    /// use evenhand_kitchen::limits::Limits;
    /// let limits = Limits::in_force(Some(r#"
    ///     region = "eu"
    ///     [[limit]]
    ///     name = "cold-holding"
    ///     kind = "at-most"
    ///     celsius = 4
    ///     source = "Estuary county food rules, 2025"
    /// "#)).unwrap();
    /// let limit = limits.named("cold-holding").unwrap();
    /// assert!(limit.source.to_string().contains("Estuary county"));
    /// ```
    ///
    /// # Errors
    /// [`LocalError`] for a text that is not such a file, or a figure out of
    /// range. Nothing may be judged then, by the published limits neither.
    pub fn in_force(file: Option<&str>) -> Result<Self, LocalError> {
        match file {
            Some(text) => local::read(text),
            None => Ok(Self::published(Region::default())),
        }
    }

    /// Whose rules they are.
    #[must_use]
    pub const fn region(&self) -> Region {
        self.region
    }

    /// What is known of this kitchen's probe, where its limits file says so.
    #[must_use]
    pub const fn probe(&self) -> Option<Probe> {
        self.probe
    }

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

    /// The limit on nitrite for a way of curing, with its source. `None` only
    /// where a kitchen's own file put something else under its name.
    #[must_use]
    pub fn nitrite(&self, method: Method) -> Option<NitriteLimit> {
        self.limits.iter().find_map(|limit| match &limit.demand {
            Demand::Nitrite { method: of, limit } if *of == method => Some(limit.clone()),
            _ => None,
        })
    }
}

/// Puts a limit in the place of the one of the same name, or adds it.
fn put(limits: &mut Vec<Limit>, limit: Limit) {
    match limits
        .iter_mut()
        .find(|there| there.name.eq_ignore_ascii_case(&limit.name))
    {
        Some(place) => *place = limit,
        None => limits.push(limit),
    }
}
