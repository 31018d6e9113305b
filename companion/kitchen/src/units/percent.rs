//! Percentages as people write them.

use super::InputError;
use super::number::number_and_unit;

const EXPECTED: &str = "write a number of per cent, such as 10 or 10%";

/// Reads a number of per cent, with or without the sign.
pub(crate) fn percent(field: &str, text: &str) -> Result<f64, InputError> {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sign_is_optional() {
        assert_eq!(percent("--of-water", " 10 % "), Ok(10.0));
        assert_eq!(percent("--of-water", "10"), Ok(10.0));
    }

    #[test]
    fn other_units_are_refused() {
        assert!(percent("--of-water", "10 g").is_err());
    }
}
