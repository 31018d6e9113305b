//! Percentages and bare numbers as people write them.

use super::InputError;
use super::Reason;
use super::number::number_and_unit;
use super::typed;

const EXPECTED: Reason = expected!("percent");

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
            problem!("other-than-percent", unit = typed(unit)),
            EXPECTED,
        )),
    }
}

/// Saturation as a fraction of one: a bare number up to here can be a strength
/// written as a fraction.
const SATURATED_FRACTION: f64 = 0.3586;

/// Reads salt in per cent, with or without the sign: `6` or `6%`. A bare number
/// so small that it can be a strength written as a fraction of one is refused,
/// because nobody can know which is meant: 0.06 is 0.06 % or 6 %.
///
/// # Errors
/// As for [`parse_percent`], and such a number; `field` is named.
pub(crate) fn parse_percent_of_salt(field: &str, text: &str) -> Result<f64, InputError> {
    let percent = parse_percent(field, text)?;
    let signed = text.trim_end().ends_with('%');
    if !signed && percent > 0.0 && percent <= SATURATED_FRACTION {
        return Err(InputError::new(
            field,
            text,
            problem!("fraction-or-percent"),
            expected!("percent-with-sign"),
        ));
    }
    Ok(percent)
}

/// Reads a number that has no unit of its own.
pub(crate) fn bare_number(field: &str, text: &str, expected: Reason) -> Result<f64, InputError> {
    let (number, unit) = number_and_unit(field, text, expected.clone())?;
    if unit.is_empty() {
        return Ok(number);
    }
    Err(InputError::new(
        field,
        text,
        problem!("unit-behind", unit = typed(unit)),
        expected,
    ))
}

/// Reads a fraction of one: `6.25%`, or `0.0625`. A bare number of one or over
/// is refused, because nobody can know whether a per cent sign was forgotten.
pub(crate) fn fraction(field: &str, text: &str) -> Result<f64, InputError> {
    const EXPECTED: Reason = expected!("percent-or-fraction");
    let (number, unit) = number_and_unit(field, text, EXPECTED)?;
    match unit {
        "%" => Ok(number / 100.0),
        "" if number > 1.0 => Err(InputError::new(field, text, problem!("over-one"), EXPECTED)),
        "" if number >= 1.0 => Err(InputError::new(
            field,
            text,
            problem!("whole-or-percent"),
            EXPECTED,
        )),
        "" => Ok(number),
        _ => Err(InputError::new(
            field,
            text,
            problem!("other-than-percent", unit = typed(unit)),
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
            error.problem().in_english(),
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
    fn salt_that_may_be_a_fraction_is_refused_and_never_taken_for_little_salt() {
        assert_eq!(parse_percent_of_salt("--salt", "6"), Ok(6.0));
        assert_eq!(parse_percent_of_salt("--salt", "0.06 %"), Ok(0.06));
        assert_eq!(parse_percent_of_salt("--salt", "0"), Ok(0.0));
        assert_eq!(parse_percent_of_salt("--salt", "0.9"), Ok(0.9));
        let error = parse_percent_of_salt("--salt", "0.06").unwrap_err();
        assert_eq!(
            error.to_string(),
            "--salt: \"0.06\" is a fraction of one, or very few per cent without their sign; \
             write per cent with their sign, such as 6% or 0.06%"
        );
    }

    #[test]
    fn other_units_are_refused() {
        assert!(parse_percent("--of-water", "10 g").is_err());
        assert!(fraction("--nitrite-fraction", "6 permille").is_err());
    }
}
