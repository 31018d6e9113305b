//! What is known of the salt that went into a piece.

use super::Soak;
use crate::units::Reason;
use crate::units::{InputError, Ratio};
use evenhand_protocol::Mass;

/// How the salt of a piece that came out is known.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SaltKnown {
    /// It was only weighed: its gain is water and salt, and nothing tells how
    /// much of which.
    #[default]
    Nothing,
    /// The bath was tried afterwards: what it lost went into the piece.
    BathAfter {
        /// Salt over the bath, in per cent of solution,
        percent_of_solution: f64,
        /// and within how much (k = 2), in percentage points.
        within: f64,
        /// What the bath weighed; by what went into the piece, where it was not
        /// weighed.
        #[serde(
            rename = "bath_micrograms",
            default,
            skip_serializing_if = "Option::is_none"
        )]
        mass: Option<Mass>,
    },
    /// The piece was tried by a meter or a laboratory, all of it minced.
    InThePiece {
        /// Salt over the piece as it came out, in per cent,
        percent: f64,
        /// and within how much (k = 2), in percentage points.
        within: f64,
    },
}

/// Salt that went into a piece, as a share of its raw weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaltFound {
    /// How much.
    pub share: Ratio,
    /// One standard uncertainty.
    pub uncertainty: Ratio,
}

/// Kitchen salt that is damp or not all salt, and the film of bath on a drained
/// piece, as shares: common practice, no source.
const SALT_NOT_ALL_SALT: f64 = 0.003;
const FILM: f64 = 0.004;
/// Salt of raw meat's own, which a meter finds with the rest, and give or take:
/// USDA FoodData Central, raw chicken breast and pork loin, sodium 45 to 55 mg
/// in 100 g, from memory.
const OF_ITS_OWN: (f64, f64) = (0.0013, 0.0005);
/// So many standard uncertainties apart are no chance.
const APART: f64 = 4.0;

impl SaltKnown {
    /// Whether nothing is known.
    #[must_use]
    pub const fn is_nothing(&self) -> bool {
        matches!(self, Self::Nothing)
    }

    /// Whether it can be of that soak.
    pub(super) fn check(&self, soak: &Soak) -> Result<(), InputError> {
        let (field, value, within) = match *self {
            Self::Nothing => return Ok(()),
            Self::BathAfter {
                percent_of_solution,
                within,
                ..
            } => ("bath after", percent_of_solution, within),
            Self::InThePiece { percent, within } => ("salt in the piece", percent, within),
        };
        let wrong = |problem: Reason, expected: Reason| {
            Err(InputError::new(
                field,
                &format!("{value} %"),
                problem,
                expected,
            ))
        };
        if !(within > 0.0 && within <= 10.0) {
            return Err(InputError::new(
                &format!("{field}, within"),
                &format!("{within}"),
                problem!("no-uncertainty"),
                expected!("points"),
            ));
        }
        if !(0.0..=26.395).contains(&value) {
            return wrong(problem!("no-salts-share"), expected!("salt-percent"));
        }
        if let Self::BathAfter {
            mass: Some(mass), ..
        } = *self
            && !(0.3..=1.5).contains(&(mass.grams() / soak.into.bath.grams()))
        {
            return Err(InputError::new(
                "bath after, mass",
                &format!("{} g", mass.grams()),
                problem!(
                    "not-that-bath",
                    bath = format!("{:.0}", soak.into.bath.grams())
                ),
                expected!("bath-alone"),
            ));
        }
        let Some(found) = soak.salt() else {
            return Ok(());
        };
        let (share, doubt) = (found.share.fraction(), found.uncertainty.fraction());
        if share < -APART * doubt {
            return wrong(problem!("gave-salt"), expected!("try-stirred"));
        }
        let most = soak.into.in_the_end() * (1.0 + APART * soak.into.in_the_end_doubt());
        if share > most + APART * doubt {
            return wrong(problem!("too-much-salt"), expected!("try-again"));
        }
        Ok(())
    }
}

impl Soak {
    /// The salt that went into the piece, where it is known.
    #[must_use]
    pub fn salt(&self) -> Option<SaltFound> {
        let raw = self.into.mass.grams();
        let bath = &self.into.bath;
        let (grams, doubt) = match self.out.salt {
            SaltKnown::Nothing => return None,
            SaltKnown::BathAfter {
                percent_of_solution,
                within,
                mass,
            } => {
                let strength = percent_of_solution / 100.0;
                let by_balance = bath.grams() + raw - self.out.mass.grams();
                let (left, left_doubt) = match mass {
                    Some(mass) => (mass.grams(), 0.002 * mass.grams()),
                    None => (by_balance, FILM * raw.hypot(bath.grams())),
                };
                (
                    bath.salt_grams() - strength * left,
                    (within / 200.0 * left)
                        .hypot(strength * left_doubt)
                        .hypot(SALT_NOT_ALL_SALT * bath.salt_grams()),
                )
            }
            SaltKnown::InThePiece { percent, within } => {
                let out = self.out.mass.grams();
                (
                    percent / 100.0 * out - OF_ITS_OWN.0 * raw,
                    (within / 200.0 * out).hypot(OF_ITS_OWN.1 * raw),
                )
            }
        };
        Some(SaltFound {
            share: Ratio::new(grams / raw)?,
            uncertainty: Ratio::new(doubt / raw)?,
        })
    }
}
