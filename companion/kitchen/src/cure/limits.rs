//! The limits on nitrite, and nowhere else: which way of curing, how much,
//! by which source.
//!
//! They are the United States'. Where other rules hold, those go first, and
//! are often lower.

use super::{Method, Ppm};
use crate::source::Publication;

/// What stands beside every answer about a curing agent.
pub const CAUTION: &str = "Nitrite is poisonous in overdose. A limit is a published figure, not a \
judgement of the food: local codes and licensed practice go first. Cured or not, raw meat stays cold.";

/// Source of the limits for all but bacon.
const GENERAL: Publication = Publication::read(
    "9 CFR 424.21(c) as worked in USDA FSIS Directive 7620.3, Processing Inspectors' Calculations \
     Handbook (1995)",
);

/// Source of the limits for bacon.
const BACON: Publication = Publication::read(
    "9 CFR 424.22(b) as worked in USDA FSIS Directive 7620.3, Processing Inspectors' Calculations \
     Handbook (1995)",
);

/// A limit on ingoing nitrite.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Limit {
    /// At most so much sodium nitrite going in, on the raw weight of the meat.
    pub at_most: Ppm,
    /// By which source.
    pub source: Publication,
}

/// The usual least amount of ingoing nitrite in cured meat that is to be kept
/// refrigerated. The handbook asks for it "as a matter of policy" (page 12);
/// meat that is shelf stable has no such figure.
pub const USUAL_MINIMUM: Limit = Limit {
    at_most: Ppm::published(120.0),
    source: Publication::read(
        "USDA FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook (1995), page 12",
    ),
};

/// Bacon with the skin on takes a tenth less, because skin takes up next to
/// none of it (the handbook, bacon section; read as quoted).
pub(super) const SKIN_ON: f64 = 0.9;

impl Limit {
    /// The limit for a way of curing.
    #[must_use]
    pub fn of(method: Method) -> Self {
        let (ppm, source) = match method {
            Method::Comminuted => (156.0, GENERAL),
            Method::Pumped | Method::ImmersionPickUp | Method::ImmersionEquilibrium => {
                (200.0, GENERAL)
            }
            Method::DryCure => (625.0, GENERAL),
            Method::BaconPumped
            | Method::BaconImmersionPickUp
            | Method::BaconImmersionEquilibrium => (120.0, BACON),
            Method::BaconDryCure => (200.0, BACON),
        };
        Self {
            at_most: Ppm::published(ppm),
            source,
        }
    }

    /// The same for bacon with its skin on.
    #[must_use]
    pub(super) fn with_skin(self) -> Self {
        Self {
            at_most: Ppm::published(self.at_most.value() * SKIN_ON),
            ..self
        }
    }
}
