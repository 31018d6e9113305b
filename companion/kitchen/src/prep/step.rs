//! One step of a preparation.

use crate::units::Reason;
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// How long a step takes: from a least to a most.
///
/// For work the planner counts the most: it is the cook's own range. For a rest
/// (brine, proof, freeze) it counts the least when it asks how late a start can
/// be, and warns when the plan makes it longer than the most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Takes {
    least: SignedDuration,
    most: SignedDuration,
    rest: bool,
}

/// A step's time makes no sense.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TakesError {
    /// Not from nothing to thirty days.
    #[error("it takes {0}, expected from nothing to 30 days")]
    Length(String),
    /// The least is longer than the most.
    #[error("its least time is longer than its most")]
    Reversed,
}

impl TakesError {
    /// Why, as what is wrong with something typed.
    #[must_use]
    pub fn reason(&self) -> Reason {
        match self {
            Self::Length(length) => problem!("takes-length", length = length),
            Self::Reversed => problem!("takes-reversed"),
        }
    }
}

impl Takes {
    /// The longest step there can be.
    const LONGEST: SignedDuration = SignedDuration::from_hours(30 * 24);

    fn new(least: SignedDuration, most: SignedDuration, rest: bool) -> Result<Self, TakesError> {
        for length in [least, most] {
            if length.is_negative() || length > Self::LONGEST {
                return Err(TakesError::Length(format!("{length:#}")));
            }
        }
        if least > most {
            return Err(TakesError::Reversed);
        }
        Ok(Self { least, most, rest })
    }

    /// Work of hands or of a machine that somebody minds.
    ///
    /// # Errors
    /// [`TakesError`] for a time outside nothing to 30 days, or a least above
    /// the most.
    pub fn work(least: SignedDuration, most: SignedDuration) -> Result<Self, TakesError> {
        Self::new(least, most, false)
    }

    /// Time that passes by itself and may pass for longer.
    ///
    /// # Errors
    /// As for [`Takes::work`].
    pub fn rest(least: SignedDuration, most: SignedDuration) -> Result<Self, TakesError> {
        Self::new(least, most, true)
    }

    /// The time that a plan must leave.
    #[must_use]
    pub const fn needed(&self) -> SignedDuration {
        if self.rest { self.least } else { self.most }
    }

    /// The longest that it should be.
    #[must_use]
    pub const fn most(&self) -> SignedDuration {
        self.most
    }

    /// Whether it passes by itself.
    #[must_use]
    pub const fn is_rest(&self) -> bool {
        self.rest
    }
}

/// How far a step has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Progress {
    /// Not begun.
    #[default]
    Waiting,
    /// Begun then.
    Begun(Timestamp),
    /// Finished then.
    Done(Timestamp),
}

/// Places of a resource that a step needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// The resource, by name.
    pub resource: String,
    /// How many of its places, one or more.
    pub places: u32,
}

impl Need {
    /// One place of a resource.
    #[must_use]
    pub fn one(resource: impl Into<String>) -> Self {
        Self {
            resource: resource.into(),
            places: 1,
        }
    }
}

impl std::fmt::Display for Need {
    /// `hands`, or `2 hands`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.places == 1 {
            f.write_str(&self.resource)
        } else {
            write!(f, "{} {}", self.places, self.resource)
        }
    }
}

/// One step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The preparation that it belongs to: "hogget neck".
    pub preparation: String,
    /// What to do: "into the brine".
    pub name: String,
    /// How long it takes.
    pub takes: Takes,
    /// What it needs throughout, all at once: two hands and the oven. A rest
    /// holds its place for its least time.
    pub needs: Vec<Need>,
    /// Whether hands that serve may do it while service runs.
    pub in_service: bool,
    /// It cannot begin before this: a delivery, an oven in its band.
    pub not_before: Option<Timestamp>,
    /// How far it has come.
    pub progress: Progress,
}

impl Step {
    /// `necks: into the brine`, as a person names it.
    #[must_use]
    pub fn full_name(&self) -> String {
        format!("{}: {}", self.preparation, self.name)
    }
}

/// What the bench sees that makes a step done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TickedBy {
    /// Portions of a dish: begun with the first, done when so many count, or
    /// when the run is ended.
    Portions {
        /// The dish.
        dish: String,
        /// How many are wanted.
        wanted: Option<u32>,
    },
    /// A batch of a title: begun with its first weighing, done when it is
    /// noted as ready, or came out.
    Batch {
        /// The title.
        title: String,
    },
}

/// A heat log that must be in a band for a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InBand {
    /// The log's name.
    pub log: String,
    /// The band's lower end.
    pub low: Temperature,
    /// The band's upper end.
    pub high: Temperature,
}
