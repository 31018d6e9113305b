//! A number and the unit behind it.

use super::InputError;
use super::Reason;

/// Splits `text` into its number and what follows it, white space trimmed.
///
/// The number is digits with at most one point, and a sign. Exponents,
/// `nan`, `inf` and a decimal comma are refused: `1,500` means one and a half
/// to some and fifteen hundred to others.
pub(super) fn number_and_unit<'t>(
    field: &str,
    text: &'t str,
    expected: Reason,
) -> Result<(f64, &'t str), InputError> {
    let wrong = |problem: Reason| InputError::new(field, text, problem, expected.clone());
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(wrong(problem!("empty")));
    }
    let end = trimmed
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '+' | '-' | '\u{2212}')))
        .unwrap_or(trimmed.len());
    let (number, unit) = trimmed.split_at(end);
    if number.is_empty() {
        return Err(wrong(problem!("no-number-first")));
    }
    if number.contains(',') {
        return Err(wrong(problem!("comma")));
    }
    // The typographic minus is what this program itself prints.
    let number: f64 = number
        .replace('\u{2212}', "-")
        .parse()
        .map_err(|_| wrong(problem!("not-a-number")))?;
    if !number.is_finite() {
        return Err(wrong(problem!("too-large")));
    }
    Ok((number, unit.trim()))
}
