//! Volumes as people write them.

use super::InputError;
use super::number::number_and_unit;

const EXPECTED: &str = "write a volume with ml, cl, dl or l, such as 5l";

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
        let wrong = |problem: &str| {
            InputError::new(
                field,
                &format!("{millilitres} ml"),
                problem,
                "it must be above zero and at most 10000 l",
            )
        };
        if !millilitres.is_finite() {
            return Err(wrong("is no number"));
        }
        if millilitres < 0.0 {
            return Err(wrong("is negative"));
        }
        if millilitres == 0.0 {
            return Err(wrong("is zero"));
        }
        if millilitres > 1e7 {
            return Err(wrong("is too large"));
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

/// Reads a volume with its unit: `5l`, `750 ml`.
///
/// Gallons, quarts, pints and fluid ounces are refused: the same word is one
/// volume in the United States and another in Britain.
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
    let wrong = |problem: String| InputError::new(field, text, problem, EXPECTED);
    let (number, unit) = number_and_unit(field, text, EXPECTED)?;
    let millilitres = match unit.to_ascii_lowercase().as_str() {
        "ml" | "cm3" => 1.0,
        "cl" => 10.0,
        "dl" => 100.0,
        "l" => 1e3,
        "" => return Err(wrong("has no unit".to_owned())),
        "gal" | "gallon" | "qt" | "pt" | "floz" | "fl oz" => {
            return Err(wrong(format!("is in {unit:?}, which comes in two sizes")));
        }
        _ => {
            return Err(wrong(format!(
                "has the unit {unit:?}, which is no volume known here"
            )));
        }
    };
    Volume::from_millilitres(field, number * millilitres)
        .map_err(|error| InputError::new(field, text, error.problem(), EXPECTED))
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
        ] {
            assert_eq!(
                parse_volume("--volume", text).unwrap().millilitres(),
                millilitres,
                "{text}"
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
            assert!(error.problem().contains(problem), "{text}: {error}");
        }
    }
}
