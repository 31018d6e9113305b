//! Percentages and bare numbers as people write them.

use super::InputError;
use super::number::number_and_unit;

const EXPECTED: &str = "write a number of per cent, such as 10 or 10%";

/// Reads a number of per cent, with or without the sign: `10` or `10%`.
///
/// # Errors
/// No finite number, or another unit behind it; `field` is named.
pub fn parse_percent(field: &str, text: &str) -> Result<f64, InputError> {
    let (number, unit) = number_and_unit(field, text, EXPECTED)?;
    match unit {
        "" | "%" => Ok(number),
        _ => Err(InputError::new(
            field,
            text,
            format!("has {unit:?} where only a per cent sign may be"),
            EXPECTED,
        )),
    }
}

/// Reads a number that has no unit of its own.
pub(crate) fn bare_number(field: &str, text: &str, expected: &str) -> Result<f64, InputError> {
    let (number, unit) = number_and_unit(field, text, expected)?;
    if unit.is_empty() {
        return Ok(number);
    }
    Err(InputError::new(
        field,
        text,
        format!("has {unit:?} behind its number"),
        expected,
    ))
}

/// Reads a fraction of one: `6.25%`, or `0.0625`. A bare number of one or over
/// is refused, because nobody can know whether a per cent sign was forgotten.
pub(crate) fn fraction(field: &str, text: &str) -> Result<f64, InputError> {
    const EXPECTED: &str =
        "write a per cent with its sign or a fraction of one, such as 6.25% or 0.0625";
    let (number, unit) = number_and_unit(field, text, EXPECTED)?;
    match unit {
        "%" => Ok(number / 100.0),
        "" if number > 1.0 => Err(InputError::new(
            field,
            text,
            "is a fraction over 1, or a per cent without its sign",
            EXPECTED,
        )),
        "" if number >= 1.0 => Err(InputError::new(
            field,
            text,
            "is the whole of it, or one per cent without its sign",
            EXPECTED,
        )),
        "" => Ok(number),
        _ => Err(InputError::new(
            field,
            text,
            format!("has {unit:?} where only a per cent sign may be"),
            EXPECTED,
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sign_is_optional_for_per_cent_and_decisive_for_fractions() {
        assert_eq!(parse_percent("--of-water", " 10 % "), Ok(10.0));
        assert_eq!(parse_percent("--of-water", "10"), Ok(10.0));
        assert_eq!(fraction("--nitrite-fraction", "6.25%"), Ok(0.0625));
        assert_eq!(fraction("--nitrite-fraction", "0.0625"), Ok(0.0625));
        // With --salt 1 one per cent is meant.
        let error = fraction("--nitrite-fraction", "1").unwrap_err();
        assert_eq!(
            error.problem(),
            "is the whole of it, or one per cent without its sign"
        );
        assert_eq!(fraction("--nitrite-fraction", "100%"), Ok(1.0));
        let error = fraction("--nitrite-fraction", "6.25").unwrap_err();
        assert_eq!(
            error.to_string(),
            "--nitrite-fraction: \"6.25\" is a fraction over 1, or a per cent without its sign; \
             write a per cent with its sign or a fraction of one, such as 6.25% or 0.0625"
        );
    }

    #[test]
    fn other_units_are_refused() {
        assert!(parse_percent("--of-water", "10 g").is_err());
        assert!(fraction("--nitrite-fraction", "6 permille").is_err());
    }
}
