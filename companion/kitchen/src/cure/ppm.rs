//! Parts per million by mass.

use crate::units::{InputError, parse_percent};

/// Parts per million by mass, milligrams in a kilogram: zero or more.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "f64")]
pub struct Ppm(f64);

impl Ppm {
    /// So many parts per million.
    ///
    /// # Errors
    /// Not a finite number, negative, or more than a million.
    pub fn new(field: &str, value: f64) -> Result<Self, InputError> {
        if value.is_finite() && (0.0..=1e6).contains(&value) {
            Ok(Self(value))
        } else {
            Err(InputError::new(
                field,
                &value.to_string(),
                if value < 0.0 {
                    problem!("negative")
                } else {
                    problem!("no-ppm")
                },
                expected!("ppm-range"),
            ))
        }
    }

    /// Reads a number of parts per million, without a unit.
    ///
    /// # Errors
    /// As for [`Ppm::new`], something that is no number, and one with a per
    /// cent sign.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        if text.contains('%') {
            return Err(InputError::new(
                field,
                text,
                problem!("ppm-in-percent"),
                expected!("ppm"),
            ));
        }
        let number = text.trim();
        let number = number.strip_suffix("ppm").unwrap_or(number);
        Self::new(field, parse_percent(field, number)?)
    }

    /// A figure of a published table; known to be in range.
    pub(crate) const fn published(value: f64) -> Self {
        Self(value)
    }

    /// In parts per million.
    #[must_use]
    pub const fn value(self) -> f64 {
        self.0
    }
}

impl TryFrom<f64> for Ppm {
    type Error = InputError;
    fn try_from(value: f64) -> Result<Self, InputError> {
        Self::new("ppm", value)
    }
}

impl core::fmt::Display for Ppm {
    /// `120 ppm`; with a precision, so many decimals.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{:.*} ppm", f.precision().unwrap_or(0), self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_per_million_are_no_per_cent() {
        assert_eq!(Ppm::parse("--ppm", "120ppm").map(Ppm::value), Ok(120.0));
        assert_eq!(Ppm::parse("--ppm", "120").map(Ppm::value), Ok(120.0));
        assert!(Ppm::parse("--ppm", "0.0156%").is_err());
        assert!(
            Ppm::parse("--ppm", "-1")
                .unwrap_err()
                .to_string()
                .contains("negative")
        );
        assert!(Ppm::new("--ppm", f64::NAN).is_err());
        assert!(Ppm::new("--ppm", 1_000_001.0).is_err());
    }
}
