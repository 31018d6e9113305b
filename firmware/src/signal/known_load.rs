//! Loads that are known: test weights by their class.

use super::uncertainty::rectangular;
use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// Accuracy class of a test weight (OIML R 111-1).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum WeightClass {
    /// Finer than anything that a kitchen needs.
    E2,
    /// For fine balances.
    F1,
    /// For fine balances.
    F2,
    /// The usual choice for a scale of this kind.
    M1,
    /// Market weights.
    M2,
    /// Market weights.
    M3,
}

/// Largest permissible errors in micrograms of E2, F1, F2, M1, M2 and M3 from
/// 1 g to 20 kg: OIML R 111-1:2004, Table 1, read from pages that quote it.
const PERMISSIBLE: [(i64, [i64; 6]); 14] = [
    (1, [30, 100, 300, 1_000, 3_000, 10_000]),
    (2, [40, 120, 400, 1_200, 4_000, 12_000]),
    (5, [50, 160, 500, 1_600, 5_000, 16_000]),
    (10, [60, 200, 600, 2_000, 6_000, 20_000]),
    (20, [80, 250, 800, 2_500, 8_000, 25_000]),
    (50, [100, 300, 1_000, 3_000, 10_000, 30_000]),
    (100, [160, 500, 1_600, 5_000, 16_000, 50_000]),
    (200, [300, 1_000, 3_000, 10_000, 30_000, 100_000]),
    (500, [800, 2_500, 8_000, 25_000, 80_000, 250_000]),
    (1_000, [1_600, 5_000, 16_000, 50_000, 160_000, 500_000]),
    (2_000, [3_000, 10_000, 30_000, 100_000, 300_000, 1_000_000]),
    (5_000, [8_000, 25_000, 80_000, 250_000, 800_000, 2_500_000]),
    (
        10_000,
        [16_000, 50_000, 160_000, 500_000, 1_600_000, 5_000_000],
    ),
    (
        20_000,
        [30_000, 100_000, 300_000, 1_000_000, 3_000_000, 10_000_000],
    ),
];

impl WeightClass {
    /// The largest error that a weight of this class and nominal mass may
    /// have. `None` for a nominal mass that is not one of 1, 2, 5, 10 ... g up
    /// to 20 kg.
    #[must_use]
    pub fn permissible_error(self, nominal: Mass) -> Option<Mass> {
        PERMISSIBLE
            .iter()
            .find(|(grams, _)| Mass::from_grams(*grams) == nominal)
            .map(|(_, errors)| Mass::from_micrograms(errors[self as usize]))
    }
}

/// A load whose mass is known, to so much.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct KnownLoad {
    mass: Mass,
    standard_uncertainty: Mass,
    limit: Mass,
}

impl KnownLoad {
    /// The empty pan.
    pub const NOTHING: Self = Self {
        mass: Mass::ZERO,
        standard_uncertainty: Mass::ZERO,
        limit: Mass::ZERO,
    };

    /// A weight of a class, taken at its nominal mass: anywhere within the
    /// class's limits is as likely (JCGM 100, 4.3.7). `None` for a nominal
    /// mass that the class does not have.
    #[must_use]
    pub fn weight(class: WeightClass, nominal: Mass) -> Option<Self> {
        let limit = class.permissible_error(nominal)?;
        Some(Self {
            mass: nominal,
            standard_uncertainty: rectangular(limit),
            limit,
        })
    }

    /// Anything whose mass is known to lie within `limit` of `mass`: a weight
    /// without a class, or one that another scale has weighed.
    #[must_use]
    pub fn within(mass: Mass, limit: Mass) -> Self {
        Self {
            mass,
            standard_uncertainty: rectangular(limit.abs()),
            limit: limit.abs(),
        }
    }

    /// A weight with a calibration certificate: its stated mass and expanded
    /// uncertainty (coverage factor 2).
    #[must_use]
    pub fn certified(mass: Mass, expanded: Mass) -> Self {
        Self {
            mass,
            standard_uncertainty: expanded.abs().fraction(1, 2).unwrap_or(Mass::MAX),
            limit: expanded.abs(),
        }
    }

    /// This and another on the pan together. Weights of one maker err
    /// together, so their uncertainties add up straight and not in quadrature
    /// (JCGM 100, 5.2.2, note 1).
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            mass: self.mass + other.mass,
            standard_uncertainty: self.standard_uncertainty + other.standard_uncertainty,
            limit: self.limit + other.limit,
        }
    }

    /// The mass.
    #[must_use]
    pub const fn mass(&self) -> Mass {
        self.mass
    }

    /// Its standard uncertainty.
    #[must_use]
    pub const fn standard_uncertainty(&self) -> Mass {
        self.standard_uncertainty
    }

    /// How far the mass may be out.
    #[must_use]
    pub const fn limit(&self) -> Mass {
        self.limit
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// OIML R 111-1:2004, Table 1.
    #[test]
    fn limits_are_those_of_the_table() {
        let limit = |class: WeightClass, grams| {
            class
                .permissible_error(Mass::from_grams(grams))
                .map(Mass::micrograms)
        };
        assert_eq!(limit(WeightClass::M1, 500), Some(25_000));
        assert_eq!(limit(WeightClass::F1, 1_000), Some(5_000));
        assert_eq!(limit(WeightClass::E2, 100), Some(160));
        assert_eq!(limit(WeightClass::M3, 20_000), Some(10_000_000));
        assert_eq!(limit(WeightClass::M1, 300), None);
    }

    /// From 100 g on a class is a constant part of the mass, but for the rounding of 1, 1.6,
    /// 2.5 ... (R 111-1, the table's own build): M1 is 50, M2 160, M3 500 parts per million.
    #[test]
    fn the_table_follows_its_own_rule() {
        for (grams, errors) in &PERMISSIBLE[6..] {
            for (error, parts) in errors.iter().zip([1.6, 5.0, 16.0, 50.0, 160.0, 500.0]) {
                let ratio = *error as f64 / *grams as f64 / parts;
                assert!((0.93..=1.01).contains(&ratio), "{grams} g: {error}");
            }
        }
    }

    #[test]
    fn weights_together_err_together() {
        let one = KnownLoad::weight(WeightClass::M1, Mass::from_grams(200)).unwrap();
        let both = one.and(one);
        assert_eq!(both.mass(), Mass::from_grams(400));
        assert_eq!(both.limit(), Mass::from_milligrams(20));
        // 10 mg / sqrt 3, twice.
        assert!((both.standard_uncertainty().micrograms() - 11_547).abs() <= 2);
    }
}
