//! How wrong a scale may be, by its accuracy class.

use super::Settings;
use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// Accuracy class of a weighing instrument (OIML R 76-1, 3.1.1). The figures
/// are used as a yardstick: this is not a legal-for-trade scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum AccuracyClass {
    /// High accuracy.
    II,
    /// Medium accuracy: shops and kitchens.
    III,
    /// Ordinary accuracy.
    IIII,
}

impl AccuracyClass {
    /// The loads, in verification intervals, up to which the limit is 0.5, 1
    /// and 1.5 intervals.
    const fn steps(self) -> [i64; 3] {
        match self {
            Self::II => [5_000, 20_000, 100_000],
            Self::III => [500, 2_000, 10_000],
            Self::IIII => [50, 200, 1_000],
        }
    }

    /// Maximum permissible error on initial verification (OIML R 76-1:2006,
    /// Table 6, read from a page that quotes it). `None` for a load beyond
    /// what the class can have.
    #[must_use]
    pub fn initial(self, load: Mass, verification_interval: Mass) -> Option<Mass> {
        let load = load.abs();
        self.steps()
            .into_iter()
            .zip([1, 2, 3])
            .find(|(most, _)| load <= verification_interval.times(*most))
            .and_then(|(_, halves)| verification_interval.fraction(halves, 2))
    }

    /// Maximum permissible error in service: twice that on initial
    /// verification (3.5.2).
    #[must_use]
    pub fn in_service(self, load: Mass, settings: &Settings) -> Option<Mass> {
        self.initial(load, settings.verification_interval)
            .map(|error| error.times(2))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// OIML R 76-1:2006, Table 6, at both sides of every step, e = 1 g.
    #[test]
    fn limits_are_those_of_the_table() {
        let e = Mass::from_grams(1);
        for (class, grams, tenths) in [
            (AccuracyClass::III, 0, Some(5)),
            (AccuracyClass::III, 500, Some(5)),
            (AccuracyClass::III, 501, Some(10)),
            (AccuracyClass::III, 2_000, Some(10)),
            (AccuracyClass::III, 2_001, Some(15)),
            (AccuracyClass::III, 10_000, Some(15)),
            (AccuracyClass::III, 10_001, None),
            (AccuracyClass::II, 5_000, Some(5)),
            (AccuracyClass::II, 20_001, Some(15)),
            (AccuracyClass::IIII, 51, Some(10)),
            (AccuracyClass::IIII, 1_001, None),
        ] {
            assert_eq!(
                class.initial(Mass::from_grams(grams), e),
                tenths.map(|n| Mass::from_milligrams(n * 100)),
                "{class:?} {grams}"
            );
        }
    }
}
