//! How strong a brine is, in each way of saying it.

use super::density::{self, Density};
use super::freezing::Freezing;
use crate::units::Reason;
use crate::units::{InputError, bare_number, parse_percent_of_salt};
use evenhand_protocol::{Mass, Temperature};

/// Saturation at 60 °F (15.56 °C), the end of the salometer's scale and the
/// strongest brine dealt with here, in per cent of solution.
const SATURATED_OF_SOLUTION: f64 = 26.395;

/// Which of the two conventions a per cent of salt is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Basis {
    /// Salt over water: 100 g of salt in 1 kg of water is 10 %.
    Water,
    /// Salt over the whole brine: 100 g of salt in 1 kg of water is 9.09 %.
    Solution,
}

impl core::fmt::Display for Basis {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(match self {
            Self::Water => "of water",
            Self::Solution => "of solution",
        })
    }
}

impl core::str::FromStr for Basis {
    type Err = InputError;
    fn from_str(text: &str) -> Result<Self, InputError> {
        match text {
            "water" => Ok(Self::Water),
            "solution" => Ok(Self::Solution),
            _ => Err(InputError::new(
                "basis",
                text,
                problem!("no-basis"),
                expected!("basis"),
            )),
        }
    }
}

/// Salt over water, in per cent: from nothing to saturation at 60 °F, 35.86.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize)]
#[serde(transparent)]
pub struct PercentOfWater(f64);

/// Salt over the whole brine, in per cent: from nothing to saturation at
/// 60 °F, 26.395.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize)]
#[serde(transparent)]
pub struct PercentOfSolution(f64);

/// Degrees of the salometer: per cent of saturation at 60 °F, 0 to 100
/// ([`SALOMETER`](super::SALOMETER)). Some salometers take 25 % for 100
/// degrees; these are not those.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize)]
#[serde(transparent)]
pub struct Salometer(f64);

fn within(field: &str, value: f64, most: f64, expected: Reason) -> Result<f64, InputError> {
    let wrong = |problem: Reason| {
        Err(InputError::new(
            field,
            &value.to_string(),
            problem,
            expected,
        ))
    };
    if !value.is_finite() {
        wrong(problem!("no-number"))
    } else if value < 0.0 {
        wrong(problem!("negative"))
    } else if value > most {
        wrong(problem!("above-saturation"))
    } else {
        Ok(value)
    }
}

impl PercentOfWater {
    const FIELD: &'static str = "salt, per cent of water";

    /// So many per cent of the water's mass.
    ///
    /// # Errors
    /// Not a finite number, negative, or above saturation at 60 °F.
    pub fn new(value: f64) -> Result<Self, InputError> {
        Self::named(Self::FIELD, value)
    }

    fn named(field: &str, value: f64) -> Result<Self, InputError> {
        within(
            field,
            value,
            // The same strength as 26.395 % of solution, 35.8603; a hair above it for rounding.
            35.860_5,
            expected!("salt-of-water"),
        )
        .map(Self)
    }

    /// Reads a number of per cent, with or without the sign.
    ///
    /// # Errors
    /// As for [`PercentOfWater::new`], something that is no number, and a bare
    /// number that may be a fraction of one, such as 0.06.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        Self::named(field, parse_percent_of_salt(field, text)?)
    }

    /// In per cent.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.0
    }
}

impl PercentOfSolution {
    const FIELD: &'static str = "salt, per cent of solution";

    /// So many per cent of the brine's mass.
    ///
    /// # Errors
    /// Not a finite number, negative, or above saturation at 60 °F.
    pub fn new(value: f64) -> Result<Self, InputError> {
        Self::named(Self::FIELD, value)
    }

    fn named(field: &str, value: f64) -> Result<Self, InputError> {
        within(
            field,
            value,
            SATURATED_OF_SOLUTION,
            expected!("salt-of-solution"),
        )
        .map(Self)
    }

    /// Reads a number of per cent, with or without the sign.
    ///
    /// # Errors
    /// As for [`PercentOfSolution::new`], something that is no number, and a bare
    /// number that may be a fraction of one, such as 0.06.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        Self::named(field, parse_percent_of_salt(field, text)?)
    }

    /// In per cent.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.0
    }
}

impl Salometer {
    const FIELD: &'static str = "salometer degrees";

    /// So many degrees.
    ///
    /// # Errors
    /// Not a finite number, negative, or above 100.
    pub fn new(value: f64) -> Result<Self, InputError> {
        Self::named(Self::FIELD, value)
    }

    fn named(field: &str, value: f64) -> Result<Self, InputError> {
        within(field, value, 100.0, expected!("salometer")).map(Self)
    }

    /// Reads a number of degrees.
    ///
    /// # Errors
    /// As for [`Salometer::new`], and something that is no number.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        Self::named(field, bare_number(field, text, expected!("degrees"))?)
    }

    /// In degrees.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.0
    }
}

impl core::fmt::Display for PercentOfWater {
    /// `10.00 % of water`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{:.2} % {}", self.0, Basis::Water)
    }
}

impl core::fmt::Display for PercentOfSolution {
    /// `9.09 % of solution`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{:.2} % {}", self.0, Basis::Solution)
    }
}

impl core::fmt::Display for Salometer {
    /// `34.4 salometer degrees`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{:.1} salometer degrees", self.0)
    }
}

/// The strength of a brine of salt and water, whichever way it was said: from
/// water to saturation at 60 °F.
///
/// ```
/// use evenhand_kitchen::brine::{PercentOfWater, Strength};
/// let brine = Strength::from(PercentOfWater::new(10.0).unwrap());
/// assert_eq!(brine.of_water().to_string(), "10.00 % of water");
/// assert_eq!(brine.of_solution().to_string(), "9.09 % of solution");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Strength {
    /// Parts of salt in one part of brine.
    salt: f64,
}

impl Strength {
    /// Water.
    pub const WATER: Self = Self { salt: 0.0 };
    /// The strongest brine dealt with here: saturated at 60 °F.
    pub const SATURATED: Self = Self {
        salt: SATURATED_OF_SOLUTION / 100.0,
    };

    /// From parts of salt in one part of brine, already checked.
    pub(super) fn from_part(field: &str, salt: f64) -> Result<Self, InputError> {
        let percent = salt * 100.0;
        // What rounding puts a hair over the end of the scale is at its end.
        let percent = if percent > SATURATED_OF_SOLUTION && percent < SATURATED_OF_SOLUTION + 1e-9 {
            SATURATED_OF_SOLUTION
        } else {
            percent
        };
        PercentOfSolution::named(field, percent).map(Self::from)
    }

    /// The strength of so much salt dissolved in so much water.
    ///
    /// # Errors
    /// A negative mass, no water, or more salt than dissolves at 60 °F.
    pub fn of(salt: Mass, water: Mass) -> Result<Self, InputError> {
        not_negative("salt", salt)?;
        above_zero("water", water)?;
        let salt_grams = salt.grams();
        Self::from_part("salt", salt_grams / (salt_grams + water.grams())).map_err(|_| {
            InputError::new(
                "salt",
                &format!("{salt_grams} g"),
                problem!("not-all-dissolves", water = water.grams()),
                expected!("salt-of-water-most"),
            )
        })
    }

    /// The strength of a brine by its density, measured at a temperature, with
    /// nothing in it but salt and water.
    ///
    /// # Errors
    /// A temperature outside 0 to 40 °C, a density below that of water there,
    /// or above that of saturated brine.
    pub fn from_density(density: Density, at: Temperature) -> Result<Self, InputError> {
        density::strength(density, at)
    }

    /// Salt over water.
    #[must_use]
    pub fn of_water(self) -> PercentOfWater {
        PercentOfWater(100.0 * self.per_water())
    }

    /// Salt over the whole brine.
    #[must_use]
    pub fn of_solution(self) -> PercentOfSolution {
        PercentOfSolution((100.0 * self.salt).min(SATURATED_OF_SOLUTION))
    }

    /// Degrees of the salometer.
    #[must_use]
    pub fn salometer(self) -> Salometer {
        Salometer((1e4 * self.salt / SATURATED_OF_SOLUTION).min(100.0))
    }

    /// In the one convention or the other, in words.
    #[must_use]
    pub fn in_words(self, basis: Basis) -> String {
        match basis {
            Basis::Water => self.of_water().to_string(),
            Basis::Solution => self.of_solution().to_string(),
        }
    }

    /// What happens to it when it gets cold.
    #[must_use]
    pub fn freezing(self) -> Freezing {
        Freezing::of(self)
    }

    /// Its density at a temperature.
    ///
    /// # Errors
    /// A temperature outside 0 to 40 °C, or one at which not all of the salt
    /// stays dissolved.
    pub fn density(self, at: Temperature) -> Result<Density, InputError> {
        density::brine(self, at)
    }

    /// Parts of salt in one part of brine.
    pub(super) const fn part(self) -> f64 {
        self.salt
    }

    /// Parts of salt to one part of water.
    pub(super) fn per_water(self) -> f64 {
        self.salt / (1.0 - self.salt)
    }
}

impl From<PercentOfWater> for Strength {
    fn from(percent: PercentOfWater) -> Self {
        Self {
            salt: percent.0 / (100.0 + percent.0),
        }
    }
}

impl From<PercentOfSolution> for Strength {
    fn from(percent: PercentOfSolution) -> Self {
        Self {
            salt: percent.0 / 100.0,
        }
    }
}

impl From<Salometer> for Strength {
    fn from(degrees: Salometer) -> Self {
        Self {
            salt: degrees.0 * SATURATED_OF_SOLUTION / 1e4,
        }
    }
}

/// Refuses a mass below zero.
pub(crate) fn not_negative(field: &str, mass: Mass) -> Result<(), InputError> {
    if mass.is_negative() {
        return Err(InputError::new(
            field,
            &format!("{} g", mass.grams()),
            problem!("negative"),
            expected!("zero-or-more"),
        ));
    }
    Ok(())
}

/// Refuses a mass of nothing or less.
pub(crate) fn above_zero(field: &str, mass: Mass) -> Result<(), InputError> {
    not_negative(field, mass)?;
    if mass == Mass::ZERO {
        return Err(InputError::new(
            field,
            "0 g",
            problem!("zero"),
            expected!("above-zero"),
        ));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_conventions_are_told_apart() {
        let brine = Strength::of(Mass::from_grams(100), Mass::from_grams(1000)).unwrap();
        assert!((brine.of_water().percent() - 10.0).abs() < 1e-12);
        assert!((brine.of_solution().percent() - 100.0 / 11.0).abs() < 1e-12);
        assert_eq!(brine.in_words(Basis::Solution), "9.09 % of solution");
        assert_eq!(brine.in_words(Basis::Water), "10.00 % of water");
    }

    #[test]
    fn saturation_is_the_end_in_every_convention() {
        let full = Strength::from(Salometer::new(100.0).unwrap());
        assert_eq!(full, Strength::SATURATED);
        assert_eq!(Strength::from(full.of_solution()), full);
        assert!(PercentOfWater::new(full.of_water().percent()).is_ok());
        assert!((Strength::from(full.of_water()).part() - full.part()).abs() < 1e-15);
        for error in [
            PercentOfWater::new(35.87).unwrap_err(),
            PercentOfSolution::new(26.4).unwrap_err(),
            Salometer::new(100.1).unwrap_err(),
        ] {
            assert_eq!(
                error.problem().in_english(),
                "is above saturation",
                "{error}"
            );
        }
    }

    #[test]
    fn nonsense_names_its_field() {
        let error = PercentOfWater::parse("--of-water", "-1").unwrap_err();
        assert_eq!(
            error.to_string(),
            "--of-water: \"-1\" is negative; it must be from 0 to 35.86 % of water, which is saturation at 60 degF"
        );
        assert_eq!(
            PercentOfSolution::new(f64::NAN)
                .unwrap_err()
                .problem()
                .in_english(),
            "is no number"
        );
        assert_eq!(
            Strength::of(Mass::from_grams(1), Mass::ZERO)
                .unwrap_err()
                .field(),
            "water"
        );
        assert!(
            Strength::of(Mass::from_grams(400), Mass::from_grams(1000))
                .unwrap_err()
                .problem()
                .in_english()
                .contains("does not all dissolve")
        );
        assert!("w/w".parse::<Basis>().is_err());
    }
}
