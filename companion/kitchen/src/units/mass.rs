//! Masses as people write them.

use super::InputError;
use super::number::number_and_unit;
use super::{Reason, typed};
use evenhand_protocol::Mass;

const EXPECTED: Reason = expected!("mass");

/// A unit of mass that can be read and written.
///
/// The ounce and the pound are the avoirdupois ones, exact by definition:
/// 1 lb = 453.592 37 g, 1 oz = 28.349 523 125 g (NIST SP 811 (2008),
/// appendix B.8 and footnote 24).
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize,
)]
pub enum MassUnit {
    /// Gram.
    #[default]
    Gram,
    /// Kilogram.
    Kilogram,
    /// Avoirdupois ounce.
    Ounce,
    /// Avoirdupois pound.
    Pound,
}

impl MassUnit {
    /// Every unit, in the order they are offered.
    pub const ALL: [Self; 4] = [Self::Gram, Self::Kilogram, Self::Ounce, Self::Pound];

    /// How it is written.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Gram => "g",
            Self::Kilogram => "kg",
            Self::Ounce => "oz",
            Self::Pound => "lb",
        }
    }

    /// How many grams it is; exact.
    const fn in_grams(self) -> f64 {
        match self {
            Self::Gram => 1.0,
            Self::Kilogram => 1_000.0,
            Self::Ounce => 28.349_523_125,
            Self::Pound => 453.592_37,
        }
    }

    /// How many decimals show about a tenth of a gram, or a hundredth below
    /// 10 g, in this unit.
    const fn decimals(self) -> usize {
        match self {
            Self::Gram => 1,
            Self::Kilogram => 4,
            Self::Ounce => 3,
            Self::Pound => 4,
        }
    }

    /// The unit of that symbol, upper or lower case.
    fn from_symbol(symbol: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|unit| unit.symbol().eq_ignore_ascii_case(symbol))
    }
}

impl core::fmt::Display for MassUnit {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.symbol())
    }
}

impl core::str::FromStr for MassUnit {
    type Err = InputError;
    fn from_str(text: &str) -> Result<Self, InputError> {
        Self::from_symbol(text.trim()).ok_or_else(|| {
            InputError::new(
                "unit",
                text,
                problem!("not-a-mass-unit"),
                expected!("mass-unit"),
            )
        })
    }
}

/// Reads a mass with its unit: `30g`, `1.25 kg`, `1oz`, `0.5 lb`; and pounds
/// with ounces, `1lb4oz`. `field` names what is being read, for the error.
///
/// # Errors
/// A missing or unknown unit, something that is no plain decimal number, or a
/// mass beyond what can be held.
///
/// ```
/// use evenhand_kitchen::units::parse_mass;
/// assert_eq!(parse_mass("--target", "1oz").unwrap().micrograms(), 28_349_523);
/// assert_eq!(
///     parse_mass("--target", "30").unwrap_err().to_string(),
///     "--target: \"30\" has no unit; write a mass with g, kg, oz or lb, such as 30g"
/// );
/// ```
pub fn parse_mass(field: &str, text: &str) -> Result<Mass, InputError> {
    let wrong = |problem: Reason| InputError::new(field, text, problem, EXPECTED);
    let (number, unit) = number_and_unit(field, text, EXPECTED)?;
    if unit.is_empty() {
        return Err(wrong(problem!("no-unit")));
    }
    if let Some(ounces) = after_pounds(unit) {
        return pounds_and_ounces(field, text, number, ounces);
    }
    let unit = MassUnit::from_symbol(unit)
        .ok_or_else(|| wrong(problem!("other-mass-unit", unit = typed(unit))))?;
    Mass::from_fractional_grams(number * unit.in_grams())
        .ok_or_else(|| wrong(problem!("too-large")))
}

/// What stands behind `lb`, where something does.
fn after_pounds(unit: &str) -> Option<&str> {
    let (symbol, rest) = unit.split_at_checked(2)?;
    let rest = rest.trim_start();
    (symbol.eq_ignore_ascii_case("lb") && !rest.is_empty()).then_some(rest)
}

/// Whole pounds and less than a pound of ounces behind them.
fn pounds_and_ounces(
    field: &str,
    text: &str,
    pounds: f64,
    ounces: &str,
) -> Result<Mass, InputError> {
    const EXPECTED: Reason = expected!("pounds");
    let wrong = |problem: Reason| InputError::new(field, text, problem, EXPECTED);
    let signed = ounces.starts_with(['+', '-', '\u{2212}']);
    let (number, unit) = match number_and_unit(field, ounces, EXPECTED) {
        Ok(read) if !signed => read,
        _ => return Err(wrong(problem!("not-ounces"))),
    };
    if !unit.eq_ignore_ascii_case("oz") {
        return Err(wrong(problem!("not-ounces")));
    }
    if pounds.fract() != 0.0 {
        return Err(wrong(problem!("part-of-a-pound")));
    }
    if number >= 16.0 {
        return Err(wrong(problem!("pound-of-ounces")));
    }
    let sign = if text.trim_start().starts_with(['-', '\u{2212}']) {
        -1.0
    } else {
        1.0
    };
    let grams = pounds * MassUnit::Pound.in_grams() + sign * number * MassUnit::Ounce.in_grams();
    Mass::from_fractional_grams(grams).ok_or_else(|| wrong(problem!("too-large")))
}

/// Reads a mass that must be above zero.
///
/// # Errors
/// As for [`parse_mass`], and a mass of zero or less.
pub fn mass_positive(field: &str, text: &str) -> Result<Mass, InputError> {
    let mass = parse_mass(field, text)?;
    if mass <= Mass::ZERO {
        return Err(InputError::new(
            field,
            text,
            if mass.is_negative() {
                problem!("negative")
            } else {
                problem!("zero")
            },
            expected!("mass-above-zero"),
        ));
    }
    Ok(mass)
}

/// Reads a mass that may be zero but not negative.
///
/// # Errors
/// As for [`parse_mass`], and a negative mass.
pub fn mass_not_negative(field: &str, text: &str) -> Result<Mass, InputError> {
    let mass = parse_mass(field, text)?;
    if mass.is_negative() {
        return Err(InputError::new(
            field,
            text,
            problem!("negative"),
            expected!("mass-or-none"),
        ));
    }
    Ok(mass)
}

/// A mass written in a unit: `30.2 g`, `1.065 oz`, `1.2500 kg`. Rounds to
/// about a tenth of a gram.
#[must_use]
pub fn format_mass(mass: Mass, unit: MassUnit) -> String {
    let decimals = unit.decimals();
    format!(
        "{:.decimals$} {unit}",
        tidy(mass.grams() / unit.in_grams(), decimals)
    )
}

/// A value that rounds to zero, without its sign: no `-0.0` on a display.
fn tidy(value: f64, decimals: usize) -> f64 {
    let half_step = 0.5 * 10f64.powi(-(decimals as i32));
    if value.abs() < half_step { 0.0 } else { value }
}

/// A mass to be written as a bare number of grams, for files and machine
/// output: exact, without trailing zeros.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Grams(pub Mass);

impl core::fmt::Display for Grams {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let micrograms = self.0.micrograms();
        let sign = if micrograms < 0 { "-" } else { "" };
        let size = micrograms.unsigned_abs();
        let (whole, part) = (size / 1_000_000, size % 1_000_000);
        if part == 0 {
            return write!(f, "{sign}{whole}");
        }
        let part = format!("{part:06}");
        write!(f, "{sign}{whole}.{}", part.trim_end_matches('0'))
    }
}

impl serde::Serialize for Grams {
    /// As a JSON number of grams; the shortest one that reads back as this
    /// mass.
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.0.grams())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    // NIST SP 811 (2008), B.8 and footnote 24: the avoirdupois pound and ounce
    // are exact (from memory; the same figures as in the 1959 agreement).
    #[test]
    fn avoirdupois_units_are_exact() {
        let mass = |text| parse_mass("mass", text).unwrap().micrograms();
        assert_eq!(mass("1000000 oz"), 28_349_523_125_000);
        assert_eq!(mass("100lb"), 45_359_237_000);
        assert_eq!(mass("16oz"), mass("1lb"));
        assert_eq!(mass("1.5 KG"), 1_500_000_000);
        assert_eq!(mass(" 30.25 g "), 30_250_000);
        assert_eq!(mass("-2g"), -2_000_000);
        assert_eq!(mass("\u{2212}2g"), -2_000_000);
    }

    #[test]
    fn what_is_no_mass_is_refused_by_name() {
        for (text, problem) in [
            ("30", "has no unit"),
            ("", "is empty"),
            ("  ", "is empty"),
            ("g", "does not begin with a number"),
            ("nan g", "does not begin with a number"),
            ("NaN", "does not begin with a number"),
            ("infg", "does not begin with a number"),
            ("1e3g", "has the unit \"e3g\", which is no mass known here"),
            (
                "30 stone",
                "has the unit \"stone\", which is no mass known here",
            ),
            ("30 ml", "has the unit \"ml\", which is no mass known here"),
            (
                "30,5g",
                "has a comma, which may stand for a decimal point or for thousands",
            ),
            ("1.2.3g", "is not a number"),
            ("--3g", "is not a number"),
            ("99999999999999999999g", "is too large"),
        ] {
            let error = parse_mass("--target", text).unwrap_err();
            assert_eq!(error.problem().in_english(), problem, "{text:?}");
            assert_eq!(error.field(), "--target");
            assert_eq!(error.value(), text);
            assert_eq!(error.expected(), &EXPECTED);
        }
    }

    // NIST Handbook 44, appendix C (from memory): 16 oz are 1 lb, so 1 lb 4 oz are 20 oz.
    #[test]
    fn pounds_and_ounces_are_one_mass() {
        let mass = |text| parse_mass("mass", text).unwrap();
        for text in ["1lb4oz", "1 lb 4 oz", "1LB 4OZ", " 1lb 4oz "] {
            assert_eq!(mass(text), mass("20oz"), "{text}");
        }
        assert_eq!(mass("0lb 0.5oz"), mass("0.5oz"));
        assert_eq!(mass("-1lb4oz"), mass("-20oz"));
        assert_eq!(mass("-0lb4oz"), mass("-4oz"));
        for (text, problem) in [
            ("1lb4", "other than ounces"),
            ("1lb4g", "other than ounces"),
            ("1lb-4oz", "other than ounces"),
            ("1lb lb", "other than ounces"),
            ("1lb4oz2g", "other than ounces"),
            ("1.5lb4oz", "part of a pound"),
            ("1lb16oz", "a pound or more"),
        ] {
            let error = parse_mass("--meat", text).unwrap_err();
            assert!(
                error.problem().in_english().contains(problem),
                "{text}: {error}"
            );
            assert_eq!((error.field(), error.value()), ("--meat", text));
        }
    }

    #[test]
    fn signs_are_checked_where_they_matter() {
        assert_eq!(
            mass_positive("--target", "0g")
                .unwrap_err()
                .problem()
                .in_english(),
            "is zero"
        );
        assert_eq!(
            mass_positive("--target", "-1g")
                .unwrap_err()
                .problem()
                .in_english(),
            "is negative"
        );
        assert_eq!(
            mass_not_negative("--tolerance", "-1g")
                .unwrap_err()
                .problem()
                .in_english(),
            "is negative"
        );
        assert_eq!(mass_not_negative("--tolerance", "0g").unwrap(), Mass::ZERO);
    }

    #[test]
    fn nothing_prints_as_less_than_nothing() {
        assert_eq!(
            format_mass(Mass::from_milligrams(-20), MassUnit::Gram),
            "0.0 g"
        );
        assert_eq!(
            format_mass(Mass::from_milligrams(-120), MassUnit::Gram),
            "-0.1 g"
        );
        assert_eq!(
            format_mass(Mass::from_grams(1250), MassUnit::Kilogram),
            "1.2500 kg"
        );
        assert_eq!(
            format_mass(Mass::from_micrograms(28_349_523), MassUnit::Ounce),
            "1.000 oz"
        );
        assert_eq!(
            Grams(Mass::from_micrograms(-30_250_001)).to_string(),
            "-30.250001"
        );
        assert_eq!(Grams(Mass::from_milligrams(30_200)).to_string(), "30.2");
    }

    proptest! {
        #[test]
        fn nothing_panics(text in ".*") {
            let _ = parse_mass("x", &text).map(|mass| format_mass(mass, MassUnit::Pound));
        }

        #[test]
        fn grams_read_back_as_themselves(micrograms in -1_000_000_000_000i64..1_000_000_000_000) {
            let mass = Mass::from_micrograms(micrograms);
            let text = format!("{}g", Grams(mass));
            prop_assert_eq!(parse_mass("x", &text).unwrap(), mass);
        }
    }
}
