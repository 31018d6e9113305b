//! The two lines of a batch: into the bath, and out of it.

use super::{Bath, SaltKnown, Shape};
use crate::brine::{MeatWater, Thickness};
use crate::units::{InputError, Ratio};
use crate::written_name;
use evenhand_protocol::{Mass, Temperature};
use jiff::SignedDuration;

/// What is soaked, by the name under which the kitchen's batches are pooled:
/// `chicken breast`, `trout fillet`.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Cut(String);

impl Cut {
    /// A name.
    ///
    /// # Errors
    /// A name that is none.
    pub fn new(field: &str, name: &str) -> Result<Self, InputError> {
        written_name::name(field, name, 60, "chicken breast").map(Self)
    }

    /// As it is written.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.0
    }

    /// Whether both are the same, in any case.
    #[must_use]
    pub fn is_same(&self, other: &Self) -> bool {
        self.0.to_lowercase() == other.0.to_lowercase()
    }
}

/// What went into a bath.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct IntoBath {
    /// The cut.
    pub cut: Cut,
    /// What all of it weighed.
    #[serde(rename = "micrograms")]
    pub mass: Mass,
    /// How one piece lies.
    pub shape: Shape,
    /// How thick one piece is where it is thickest; the diameter of a cylinder.
    #[serde(rename = "thickness_micrometres")]
    thickness: u32,
    /// How much of it is water, and give or take, in per cent.
    meat_water_percent: f64,
    meat_water_give_or_take: f64,
    /// What it lies in.
    pub bath: Bath,
    /// How warm both are.
    #[serde(rename = "millicelsius")]
    pub at: Temperature,
}

impl IntoBath {
    /// So much of a cut, in pieces of that shape and thickness.
    ///
    /// # Errors
    /// A mass that is not above zero; a temperature below -3 or above 30 °C,
    /// for which the diffusion of salt is not carried over.
    pub fn new(
        cut: Cut,
        mass: Mass,
        (shape, thickness): (Shape, Thickness),
        water: &MeatWater,
        bath: Bath,
        at: Temperature,
    ) -> Result<Self, InputError> {
        if mass <= Mass::ZERO {
            return Err(InputError::new(
                "mass",
                &format!("{} g", mass.grams()),
                problem!("not-above-zero"),
                expected!("weight-before"),
            ));
        }
        if !(-3.0..=30.0).contains(&at.celsius()) {
            return Err(InputError::new(
                "temperature",
                &format!("{} degC", at.celsius()),
                problem!("no-bath-temperature"),
                expected!("bath-degrees"),
            ));
        }
        Ok(Self {
            cut,
            mass,
            shape,
            thickness: (thickness.millimetres() * 1e3).round() as u32,
            meat_water_percent: water.percent,
            meat_water_give_or_take: water.give_or_take,
            bath,
            at,
        })
    }

    /// How thick one piece is.
    #[must_use]
    pub fn millimetres(&self) -> f64 {
        f64::from(self.thickness) / 1e3
    }

    /// The way to the core, m.
    pub(super) fn depth(&self) -> f64 {
        (f64::from(self.thickness) * 1e-6 / 2.0).max(1e-6)
    }

    /// The piece's water, g.
    pub(super) fn water_grams(&self) -> f64 {
        self.mass.grams() * self.meat_water_percent / 100.0
    }

    /// The bath's water over the piece's.
    pub(super) fn bath_over_piece(&self) -> Ratio {
        let piece = self.water_grams();
        Ratio::new(self.bath.water_grams() / piece).unwrap_or(Ratio::ONE)
    }

    /// What salt comes to all through if the piece stays in for good, as a
    /// share of its raw weight, and within how much of that (k = 2).
    #[must_use]
    pub fn ends_at(&self) -> (Ratio, Ratio) {
        let ratio = |value| Ratio::new(value).unwrap_or(Ratio::ZERO);
        let end = self.in_the_end();
        (ratio(end), ratio(2.0 * end * self.in_the_end_doubt()))
    }

    /// What salt comes to in the end, evened out over all water, as a share of
    /// the piece's raw weight.
    pub(super) fn in_the_end(&self) -> f64 {
        let water = self.water_grams();
        self.bath.salt_grams() / (self.bath.water_grams() + water) * water / self.mass.grams()
    }

    /// The same where it is off by so many standard deviations.
    pub(super) fn end(&self, off: f64) -> f64 {
        self.in_the_end() * (1.0 + off * self.in_the_end_doubt()).max(0.05)
    }

    /// By how much of itself that is not known, one standard deviation: the
    /// water in the piece, and how much of it takes salt.
    pub(super) fn in_the_end_doubt(&self) -> f64 {
        const NOT_ALL_WATER_TAKES_SALT: f64 = 0.09;
        let around = self.bath.water_grams();
        // The share of a change of the piece's water that arrives in the sum above.
        let felt = around / (around + self.water_grams());
        let of_water = self.meat_water_give_or_take / self.meat_water_percent.max(1.0) / 1.6;
        (of_water * felt).hypot(NOT_ALL_WATER_TAKES_SALT)
    }
}

/// What came out of a bath.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct OutOfBath {
    /// What all of it weighed, drained.
    #[serde(rename = "micrograms")]
    pub mass: Mass,
    /// What is known of the salt that went in.
    #[serde(default, skip_serializing_if = "SaltKnown::is_nothing")]
    pub salt: SaltKnown,
}

/// A soak from going in to coming out.
#[derive(Debug, Clone, PartialEq)]
pub struct Soak {
    /// What went in.
    pub into: IntoBath,
    /// What came out.
    pub out: OutOfBath,
    /// How long it lay in between.
    pub lasted: SignedDuration,
}

impl Soak {
    /// Both ends of one.
    ///
    /// # Errors
    /// It came out before it went in, or lighter or heavier than anything
    /// comes out of a brine: by less than half or more than twice.
    pub fn new(into: IntoBath, out: OutOfBath, lasted: SignedDuration) -> Result<Self, InputError> {
        if lasted <= SignedDuration::ZERO {
            return Err(InputError::new(
                "out",
                &format!("{} s", lasted.as_secs()),
                problem!("not-after-it-went-in"),
                expected!("when-out"),
            ));
        }
        let ratio = out.mass.grams() / into.mass.grams();
        if !(0.5..=2.0).contains(&ratio) {
            return Err(InputError::new(
                "mass",
                &format!("{} g", out.mass.grams()),
                problem!("out-of-another-bath", into = into.mass.grams()),
                expected!("same-pieces"),
            ));
        }
        let soak = Self { into, out, lasted };
        soak.out.salt.check(&soak)?;
        Ok(soak)
    }

    /// The weight gained, of the raw weight; below nothing where it lost.
    #[must_use]
    pub fn gain(&self) -> Ratio {
        let raw = self.into.mass.grams();
        Ratio::new((self.out.mass.grams() - raw) / raw).unwrap_or(Ratio::ZERO)
    }
}
