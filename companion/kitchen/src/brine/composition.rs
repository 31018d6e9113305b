//! What a brine is made of, sugar and all.

use super::density::{self, Density};
use super::strength::{
    Basis, PercentOfSolution, PercentOfWater, Strength, above_zero, not_negative,
};
use crate::source::Publication;
use crate::units::Reason;
use crate::units::{InputError, parse_percent};
use evenhand_protocol::{Mass, Temperature};

/// How a sugared brine's density is worked out here.
pub const SUGAR_MODEL: Publication = Publication::read(
    "volumes of salt brine and of dissolved sucrose taken as additive (Young's rule), sucrose at \
     0.615 to 0.622 ml/g from CRC Handbook of Chemistry and Physics, 102nd ed. (2021), Concentrative \
     Properties of Aqueous Solutions",
);

/// Apparent specific volume of dissolved sucrose in cm³/g by its parts of the
/// whole: a straight line through the table's densities at 20 °C, which give
/// 0.6161 at 5 %, 0.6182 at 20 % and 0.6223 at 40 %.
fn sugar_volume(sugar: f64) -> f64 {
    0.6152 + 0.017 * sugar
}
/// Standard uncertainty of it, meant to cover 0 to 40 °C, salt beside it and
/// kitchen sugar in place of sucrose. An estimate, no source.
pub(super) const SUGAR_VOLUME_UNCERTAINTY: f64 = 0.006;

/// The most sugar dealt with, per cent of solution; beyond it is a syrup.
const MOST_SUGAR: f64 = 40.0;

/// Sugar in a brine, in per cent, in the same convention as the salt beside
/// it: of water, or of the whole brine.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, serde::Serialize)]
#[serde(transparent)]
pub struct SugarPercent(f64);

impl SugarPercent {
    /// No sugar.
    pub const NONE: Self = Self(0.0);

    /// So many per cent.
    ///
    /// # Errors
    /// Not a finite number, negative, or above 67, which is 40 % of solution.
    pub fn new(value: f64) -> Result<Self, InputError> {
        Self::named("sugar", value)
    }

    fn named(field: &str, value: f64) -> Result<Self, InputError> {
        let wrong = |problem: Reason| {
            Err(InputError::new(
                field,
                &value.to_string(),
                problem,
                expected!("sugar-range"),
            ))
        };
        if !value.is_finite() {
            wrong(problem!("no-number"))
        } else if value < 0.0 {
            wrong(problem!("negative"))
        } else if value > 67.0 {
            wrong(problem!("syrup"))
        } else {
            Ok(Self(value))
        }
    }

    /// Reads a number of per cent, with or without the sign.
    ///
    /// # Errors
    /// As for [`SugarPercent::new`], and something that is no number.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        Self::named(field, parse_percent(field, text)?)
    }

    /// In per cent.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.0
    }
}

/// Salt, sugar and water in their proportions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Composition {
    /// Parts of salt in one part of the whole.
    salt: f64,
    /// Parts of sugar in one part of the whole.
    sugar: f64,
}

impl Composition {
    /// Salt and sugar as per cent of the water.
    ///
    /// # Errors
    /// More sugar than 40 % of the whole.
    pub fn of_water(salt: PercentOfWater, sugar: SugarPercent) -> Result<Self, InputError> {
        let whole = 100.0 + salt.percent() + sugar.0;
        Self::checked(salt.percent() / whole, sugar.0 / whole)
    }

    /// Salt and sugar as per cent of the whole brine.
    ///
    /// # Errors
    /// More sugar than 40 %, or more salt than the water that is left can
    /// hold at 60 °F.
    pub fn of_solution(salt: PercentOfSolution, sugar: SugarPercent) -> Result<Self, InputError> {
        Self::checked(salt.percent() / 100.0, sugar.0 / 100.0)
    }

    /// In the one convention or the other.
    ///
    /// # Errors
    /// As for the two above, and a salt per cent out of its convention's range.
    pub fn in_basis(basis: Basis, salt: f64, sugar: SugarPercent) -> Result<Self, InputError> {
        match basis {
            Basis::Water => Self::of_water(PercentOfWater::new(salt)?, sugar),
            Basis::Solution => Self::of_solution(PercentOfSolution::new(salt)?, sugar),
        }
    }

    /// From what was weighed together.
    ///
    /// # Errors
    /// A negative mass, no water, more salt than dissolves at 60 °F, or more
    /// sugar than 40 % of the whole.
    pub fn weighed(salt: Mass, sugar: Mass, water: Mass) -> Result<Self, InputError> {
        not_negative("salt", salt)?;
        not_negative("sugar", sugar)?;
        above_zero("water", water)?;
        let whole = salt.grams() + sugar.grams() + water.grams();
        Self::checked(salt.grams() / whole, sugar.grams() / whole)
    }

    /// From parts of the whole.
    pub(super) fn checked(salt: f64, sugar: f64) -> Result<Self, InputError> {
        if sugar * 100.0 > MOST_SUGAR + 1e-9 {
            return Err(InputError::new(
                "sugar",
                &format!("{:.2} % of solution", sugar * 100.0),
                problem!("syrup"),
                expected!("sugar-most"),
            ));
        }
        let water = 1.0 - salt - sugar;
        let composition = Self { salt, sugar };
        if salt > water * Strength::SATURATED.per_water() * (1.0 + 1e-9) {
            return Err(InputError::new(
                "salt",
                &format!("{:.2} % of solution", salt * 100.0),
                problem!(
                    "above-saturation-beside",
                    water = format!("{:.2}", water * 100.0)
                ),
                expected!("salt-most"),
            ));
        }
        Ok(composition)
    }

    /// Salt over the whole brine, sugar included in the whole.
    #[must_use]
    pub fn salt_of_solution(self) -> f64 {
        self.salt * 100.0
    }

    /// Salt over water, in per cent.
    #[must_use]
    pub fn salt_of_water(self) -> f64 {
        self.salt / self.water_part() * 100.0
    }

    /// Sugar over the whole brine, in per cent.
    #[must_use]
    pub fn sugar_of_solution(self) -> f64 {
        self.sugar * 100.0
    }

    /// Sugar over water, in per cent.
    #[must_use]
    pub fn sugar_of_water(self) -> f64 {
        self.sugar / self.water_part() * 100.0
    }

    /// The strength of its salt and water, the sugar left out.
    #[must_use]
    pub fn strength(self) -> Strength {
        let part = (self.salt / (1.0 - self.sugar)).min(Strength::SATURATED.part());
        // Checked when it was made, so in range.
        Strength::from_part("salt", part).unwrap_or(Strength::SATURATED)
    }

    /// Whether there is sugar in it.
    #[must_use]
    pub fn is_sugared(self) -> bool {
        self.sugar > 0.0
    }

    /// Its density at a temperature, sugar by [`SUGAR_MODEL`].
    ///
    /// # Errors
    /// A temperature outside 0 to 40 °C, or one at which not all of the salt
    /// stays dissolved.
    pub fn density(self, at: Temperature) -> Result<Density, InputError> {
        let without = self.strength().density(at)?;
        if !self.is_sugared() {
            return Ok(without);
        }
        Density::new(
            "density",
            sugared(without.kg_per_m3(), self.sugar, sugar_volume(self.sugar)),
        )
    }

    pub(super) const fn salt_part(self) -> f64 {
        self.salt
    }

    pub(super) const fn sugar_part(self) -> f64 {
        self.sugar
    }

    pub(super) const fn water_part(self) -> f64 {
        1.0 - self.salt - self.sugar
    }
}

/// Density in kg/m³ of a brine of salt and water with sugar dissolved in it,
/// `sugar` parts of the whole.
fn sugared(kg_per_m3: f64, sugar: f64, sugar_volume: f64) -> f64 {
    1e3 / ((1.0 - sugar) * 1e3 / kg_per_m3 + sugar * sugar_volume)
}

/// Density in kg/m³ of salt and sugar in water, both as parts of the whole.
/// `shift` moves the apparent volume of sugar, for its uncertainty.
pub(super) fn kg_per_m3(salt: f64, sugar: f64, celsius: f64, shift: f64) -> f64 {
    sugared(
        density::kg_per_m3(salt / (1.0 - sugar), celsius),
        sugar,
        sugar_volume(sugar) + shift,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sugar_counts_in_the_whole_and_not_in_the_strength() {
        let brine = Composition::weighed(
            Mass::from_grams(100),
            Mass::from_grams(50),
            Mass::from_grams(850),
        )
        .unwrap();
        assert!((brine.salt_of_solution() - 10.0).abs() < 1e-9);
        assert!((brine.sugar_of_solution() - 5.0).abs() < 1e-9);
        assert!((brine.salt_of_water() - 100.0 / 8.5).abs() < 1e-9);
        assert!((brine.strength().of_solution().percent() - 100.0 / 9.5).abs() < 1e-9);
    }

    #[test]
    fn both_bases_describe_the_same_brine() {
        let of_water = Composition::of_water(
            PercentOfWater::new(10.0).unwrap(),
            SugarPercent::new(5.0).unwrap(),
        )
        .unwrap();
        let again = Composition::of_solution(
            PercentOfSolution::new(of_water.salt_of_solution()).unwrap(),
            SugarPercent::new(of_water.sugar_of_solution()).unwrap(),
        )
        .unwrap();
        assert!((of_water.salt_part() - again.salt_part()).abs() < 1e-12);
        assert!((of_water.sugar_part() - again.sugar_part()).abs() < 1e-12);
    }

    #[test]
    fn syrups_and_undissolved_salt_are_refused() {
        let error = Composition::of_solution(
            PercentOfSolution::new(20.0).unwrap(),
            SugarPercent::new(40.0).unwrap(),
        )
        .unwrap_err();
        assert_eq!(error.field(), "salt");
        let error = Composition::of_solution(
            PercentOfSolution::new(1.0).unwrap(),
            SugarPercent::new(50.0).unwrap(),
        )
        .unwrap_err();
        assert_eq!(error.field(), "sugar");
        assert!(SugarPercent::parse("--sugar", "-1").is_err());
    }
}
