//! The density of water and of brine.

use super::strength::Strength;
use super::tables;
use crate::units::Reason;
use crate::units::{InputError, bare_number};
use evenhand_protocol::Temperature;

/// A density above zero, in kg/m³; at most that of the densest stuff a kitchen
/// holds, so that a slipped decimal is caught.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize)]
#[serde(transparent)]
pub struct Density(f64);

impl Density {
    /// So many kilograms per cubic metre, which are grams per litre.
    ///
    /// # Errors
    /// Not a finite number, not above zero, or above 25 000; a value below 10
    /// is taken for one in g/cm³ and refused with a word to say so.
    pub fn new(field: &str, kg_per_m3: f64) -> Result<Self, InputError> {
        let wrong = |problem: Reason| {
            Err(InputError::new(
                field,
                &kg_per_m3.to_string(),
                problem,
                expected!("density"),
            ))
        };
        if !kg_per_m3.is_finite() {
            wrong(problem!("no-number"))
        } else if kg_per_m3 <= 0.0 {
            wrong(problem!("not-above-zero"))
        } else if kg_per_m3 < 10.0 {
            wrong(problem!("grams-per-cm3"))
        } else if kg_per_m3 > 25_000.0 {
            wrong(problem!("denser-than-metal"))
        } else {
            Ok(Self(kg_per_m3))
        }
    }

    /// Reads a number of kilograms per cubic metre.
    ///
    /// # Errors
    /// As for [`Density::new`], and something that is no number.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        const EXPECTED: Reason = expected!("density");
        Self::new(field, bare_number(field, text, EXPECTED)?)
    }

    /// A difference of densities, such as an uncertainty; may be zero.
    pub(super) const fn difference(kg_per_m3: f64) -> Self {
        Self(kg_per_m3)
    }

    /// In kilograms per cubic metre.
    #[must_use]
    pub const fn kg_per_m3(self) -> f64 {
        self.0
    }
}

impl core::fmt::Display for Density {
    /// `1070.7 kg/m³`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{:.1} kg/m\u{b3}", self.0)
    }
}

/// What the density tables cover.
pub(super) const COLDEST: Temperature = Temperature::from_millicelsius(0);
pub(super) const WARMEST: Temperature = Temperature::from_millicelsius(40_000);

/// Refuses a temperature the density tables do not cover.
pub(super) fn covered(at: Temperature) -> Result<f64, InputError> {
    let wrong = |problem: Reason| {
        Err(InputError::new(
            "temperature",
            &format!("{} degC", at.celsius()),
            problem,
            expected!("density-temperatures"),
        ))
    };
    if at < COLDEST {
        wrong(problem!("below-freezing"))
    } else if at > WARMEST {
        wrong(problem!("too-warm-for-density"))
    } else {
        Ok(at.celsius())
    }
}

/// The density of water without salt, by [`WATER`](super::WATER).
///
/// # Errors
/// A temperature outside 0 to 40 °C.
pub fn of_water(at: Temperature) -> Result<Density, InputError> {
    covered(at).map(|celsius| Density(tables::water_density(celsius)))
}

/// Density of brine in kg/m³ by parts of salt in one part of brine: the table
/// at 20 °C, shifted to the temperature by the difference the volumetric table
/// shows between the two temperatures at that strength.
///
/// A single number of kg/m³ per degree, as printed beside some tables, holds
/// only near 20 °C: for a 2 % brine at 4 °C it is out by 1.3 kg/m³, which
/// would be read as 0.2 % of salt.
pub(super) fn kg_per_m3(salt: f64, celsius: f64) -> f64 {
    let per_water = salt / (1.0 - salt);
    tables::brine_density_at_20(salt * 100.0) + tables::volumetric_density(per_water, celsius)
        - tables::volumetric_density(per_water, 20.0)
}

/// Density of a brine of salt and water.
pub(super) fn brine(strength: Strength, at: Temperature) -> Result<Density, InputError> {
    let celsius = covered(at)?;
    let most = tables::saturated_percent(celsius);
    if strength.of_solution().percent() > most {
        return Err(InputError::new(
            "temperature",
            &format!("{celsius} degC"),
            problem!(
                "too-cold-for-strength",
                strength = format!("{:.2}", strength.of_solution().percent())
            ),
            expected!("brine-holds", most = format!("{most:.2}")),
        ));
    }
    Ok(Density(kg_per_m3(strength.part(), celsius)))
}

/// Strength of a brine of salt and water by its density.
pub(super) fn strength(density: Density, at: Temperature) -> Result<Strength, InputError> {
    let celsius = covered(at)?;
    let salt = salt_for(density.0, |salt| kg_per_m3(salt, celsius), celsius)?;
    Strength::from_part("density", salt)
}

/// The parts of salt at which a rising density function meets a value.
pub(super) fn salt_for(
    kg_per_m3: f64,
    at_salt: impl Fn(f64) -> f64,
    celsius: f64,
) -> Result<f64, InputError> {
    let wrong = |problem: Reason, expected: Reason| {
        Err(InputError::new(
            "density",
            &format!("{kg_per_m3:.2} kg/m3"),
            problem,
            expected,
        ))
    };
    let (mut low, mut high) = (
        0.0,
        tables::saturated_percent(celsius).min(Strength::SATURATED.part() * 100.0) / 100.0,
    );
    let (least, most) = (at_salt(low), at_salt(high));
    let expected = || {
        expected!(
            "density-at",
            celsius = celsius,
            least = format!("{least:.2}"),
            most = format!("{most:.2}")
        )
    };
    // A hundredth of a kg/m3 is below what the tables themselves know.
    if kg_per_m3 < least - 0.01 {
        return wrong(problem!("less-than-water"), expected());
    }
    if kg_per_m3 > most + 0.01 {
        return wrong(problem!("more-than-saturated"), expected());
    }
    // Bisection: the function rises, and fifty halvings are finer than a micro per cent.
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        if at_salt(middle) < kg_per_m3 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(f64::midpoint(low, high))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brine::{PercentOfSolution, Salometer};

    fn celsius(t: f64) -> Temperature {
        Temperature::from_celsius(t).unwrap()
    }

    #[test]
    fn density_and_strength_are_inverse() {
        for degrees in 0..=99 {
            let strength = Strength::from(Salometer::new(f64::from(degrees)).unwrap());
            for t in [0.0, 4.0, 13.0, 20.0, 27.5, 40.0] {
                let density = strength.density(celsius(t)).unwrap();
                let back = Strength::from_density(density, celsius(t)).unwrap();
                assert!(
                    (back.part() - strength.part()).abs() < 1e-9,
                    "{strength:?} at {t}: {back:?}"
                );
            }
        }
    }

    #[test]
    fn more_salt_is_always_denser_and_warmer_brine_lighter() {
        for t in 4..=40 {
            let mut last = 0.0;
            for tenth in 0..=263 {
                let density = kg_per_m3(f64::from(tenth) / 1e3, f64::from(t));
                assert!(density > last, "{tenth} at {t}");
                last = density;
                if t > 4 {
                    assert!(density < kg_per_m3(f64::from(tenth) / 1e3, f64::from(t - 1)));
                }
            }
        }
    }

    #[test]
    fn what_cannot_be_is_refused_by_name() {
        let strong = Strength::from(PercentOfSolution::new(26.395).unwrap());
        assert_eq!(
            strong.density(celsius(2.0)).unwrap_err().field(),
            "temperature"
        );
        assert!(strong.density(celsius(20.0)).is_ok());
        let light = Density::new("--density", 990.0).unwrap();
        let error = Strength::from_density(light, celsius(20.0)).unwrap_err();
        assert!(
            error.to_string().contains("less than without any salt"),
            "{error}"
        );
        let heavy = Density::new("--density", 1210.0).unwrap();
        let error = Strength::from_density(heavy, celsius(20.0)).unwrap_err();
        assert!(error.to_string().contains("more than saturated"), "{error}");
        assert!(of_water(celsius(-0.001)).is_err());
        assert!(of_water(celsius(40.001)).is_err());
        assert!(
            Density::new("--density", 1.07)
                .unwrap_err()
                .problem()
                .in_english()
                .contains("cubic centimetre")
        );
    }
}
