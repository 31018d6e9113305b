//! A number and the unit behind it.

use super::InputError;

/// Splits `text` into its number and what follows it, white space trimmed.
///
/// The number is digits with at most one point, and a sign. Exponents,
/// `nan`, `inf` and a decimal comma are refused: `1,500` means one and a half
/// to some and fifteen hundred to others.
pub(super) fn number_and_unit<'t>(
    field: &str,
    text: &'t str,
    expected: &str,
) -> Result<(f64, &'t str), InputError> {
    let wrong = |problem: &str| InputError::new(field, text, problem, expected);
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(wrong("is empty"));
    }
    let end = trimmed
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '+' | '-' | '\u{2212}')))
        .unwrap_or(trimmed.len());
    let (number, unit) = trimmed.split_at(end);
    if number.is_empty() {
        return Err(wrong("does not begin with a number"));
    }
    if number.contains(',') {
        return Err(wrong(
            "has a comma, which may stand for a decimal point or for thousands",
        ));
    }
    // The typographic minus is what this program itself prints.
    let number: f64 = number
        .replace('\u{2212}', "-")
        .parse()
        .map_err(|_| wrong("is not a number"))?;
    if !number.is_finite() {
        return Err(wrong("is too large"));
    }
    Ok((number, unit.trim()))
}
