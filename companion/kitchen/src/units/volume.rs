//! Volumes as people write them.

use super::InputError;
use super::number::number_and_unit;
use super::{Reason, typed};

const EXPECTED: Reason = expected!("volume");

/// A volume above zero and at most ten thousand litres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Volume(f64);

impl Volume {
    /// A volume in millilitres.
    ///
    /// # Errors
    /// A number that is not finite, not above zero, or above ten thousand
    /// litres.
    pub fn from_millilitres(field: &str, millilitres: f64) -> Result<Self, InputError> {
        let wrong = |problem: Reason| {
            InputError::new(
                field,
                &format!("{millilitres} ml"),
                problem,
                expected!("volume-range"),
            )
        };
        if !millilitres.is_finite() {
            return Err(wrong(problem!("no-number")));
        }
        if millilitres < 0.0 {
            return Err(wrong(problem!("negative")));
        }
        if millilitres == 0.0 {
            return Err(wrong(problem!("zero")));
        }
        if millilitres > 1e7 {
            return Err(wrong(problem!("too-large")));
        }
        Ok(Self(millilitres))
    }

    /// In millilitres, which are cubic centimetres.
    #[must_use]
    pub const fn millilitres(self) -> f64 {
        self.0
    }

    /// In litres.
    #[must_use]
    pub fn litres(self) -> f64 {
        self.0 / 1e3
    }

    /// In cubic metres.
    #[must_use]
    pub fn cubic_metres(self) -> f64 {
        self.0 / 1e6
    }
}

impl core::fmt::Display for Volume {
    /// In litres from one litre up, in millilitres below.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        if self.0 >= 1e3 {
            write!(f, "{:.3} l", self.litres())
        } else {
            write!(f, "{:.1} ml", self.0)
        }
    }
}

impl serde::Serialize for Volume {
    /// As a number of litres.
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.litres())
    }
}

/// What is written before a gallon to say which.
const WHICH: Reason = expected!("gallon");

/// Millilitres in a gallon: 231 cubic inches, exact (NIST SP 811 (2008), B.8,
/// from memory), and 4.546 09 l, exact (Units of Measurement Regulations 1995,
/// from memory). A quart is a quarter and a pint an eighth of either; the
/// United States gallon has 128 fluid ounces, the imperial one 160.
const US_GALLON: f64 = 3_785.411_784;
const IMPERIAL_GALLON: f64 = 4_546.09;

/// How many to a gallon of measures that come in two sizes: in the United
/// States, and in imperial ones.
fn to_the_gallon(unit: &str) -> Option<(f64, f64)> {
    Some(match unit {
        "gal" | "gallon" | "gallons" => (1.0, 1.0),
        "qt" => (4.0, 4.0),
        "pt" => (8.0, 8.0),
        "floz" | "fl oz" => (128.0, 160.0),
        _ => return None,
    })
}

/// Millilitres of a unit in the one size or the other.
fn sized(unit: &str) -> Option<f64> {
    if let Some(rest) = unit.strip_prefix("us") {
        return Some(US_GALLON / to_the_gallon(rest.trim_start())?.0);
    }
    let rest = unit.strip_prefix("imp")?;
    let rest = rest.strip_prefix("erial").unwrap_or(rest);
    Some(IMPERIAL_GALLON / to_the_gallon(rest.trim_start())?.1)
}

/// Reads a volume with its unit: `5l`, `750 ml`, `2 usgal`, `2 impgal`.
///
/// Gallons, quarts, pints and fluid ounces are one volume in the United States
/// and another in Britain: which is asked, never guessed.
///
/// # Errors
/// A missing, unknown or ambiguous unit, or a volume that is not above zero.
///
/// ```
/// use evenhand_kitchen::units::parse_volume;
/// assert_eq!(parse_volume("--volume", "5l").unwrap().millilitres(), 5000.0);
/// assert!(parse_volume("--volume", "1 gal").unwrap_err().to_string().contains("two sizes"));
/// ```
pub fn parse_volume(field: &str, text: &str) -> Result<Volume, InputError> {
    let wrong = |problem: Reason| InputError::new(field, text, problem, EXPECTED);
    let (number, unit) = number_and_unit(field, text, EXPECTED)?;
    let millilitres = match unit.to_ascii_lowercase().as_str() {
        "ml" | "cm3" => 1.0,
        "cl" => 10.0,
        "dl" => 100.0,
        "l" => 1e3,
        "" => return Err(wrong(problem!("no-unit"))),
        lower if to_the_gallon(lower).is_some() => {
            let problem = problem!("two-sizes", unit = typed(unit));
            return Err(InputError::new(field, text, problem, WHICH));
        }
        lower => {
            sized(lower).ok_or_else(|| wrong(problem!("other-volume-unit", unit = typed(unit))))?
        }
    };
    Volume::from_millilitres(field, number * millilitres)
        .map_err(|error| InputError::new(field, text, error.problem().clone(), EXPECTED))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_are_read_in_either_case() {
        for (text, millilitres) in [
            ("5 L", 5000.0),
            ("75cl", 750.0),
            ("3dl", 300.0),
            ("1 ml", 1.0),
            // NIST SP 811 (2008), appendix B.8 (from memory): the gallon, quart, liquid pint and
            // fluid ounce of the United States, and the imperial gallon and fluid ounce.
            ("1 usgal", 3_785.411_784),
            ("1 US gal", 3_785.411_784),
            ("1 usqt", 946.352_946),
            ("1 uspt", 473.176_473),
            ("1 imp gal", 4_546.09),
            ("1 imperial gallon", 4_546.09),
        ] {
            assert_eq!(
                parse_volume("--volume", text).unwrap().millilitres(),
                millilitres,
                "{text}"
            );
        }
        for (text, millilitres) in [("1usfloz", 29.573_529_6), ("1impfloz", 28.413_062_5)] {
            let read = parse_volume("--volume", text).unwrap().millilitres();
            assert!((read - millilitres).abs() < 1e-6, "{text}: {read}");
        }
    }

    #[test]
    fn which_gallon_is_asked() {
        for text in ["1 gal", "2gallons", "3 qt", "1 pt", "8 fl oz"] {
            let error = parse_volume("--volume", text).unwrap_err();
            assert!(
                error.problem().in_english().contains("two sizes"),
                "{error}"
            );
            assert!(error.expected().in_english().contains("usgal"), "{error}");
        }
        for text in ["1 usl", "1 ukgal", "1 impg", "1 us"] {
            let error = parse_volume("--volume", text).unwrap_err();
            assert!(
                error.problem().in_english().contains("no volume"),
                "{error}"
            );
        }
    }

    #[test]
    fn what_is_no_volume_is_refused_by_name() {
        for (text, problem) in [
            ("5", "has no unit"),
            ("0 l", "is zero"),
            ("-1 l", "is negative"),
            ("20000 l", "is too large"),
            ("5 kg", "which is no volume"),
            ("2 qt", "two sizes"),
        ] {
            let error = parse_volume("--volume", text).unwrap_err();
            assert_eq!(error.field(), "--volume");
            assert!(
                error.problem().in_english().contains(problem),
                "{text}: {error}"
            );
        }
    }
}
