//! Temperatures as people write them.

use super::InputError;
use super::number::number_and_unit;
use super::{Reason, typed};
use evenhand_protocol::Temperature;

const EXPECTED: Reason = expected!("temperature");

/// A unit of temperature that can be read and written.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize,
)]
pub enum TemperatureUnit {
    /// Degree Celsius.
    #[default]
    Celsius,
    /// Degree Fahrenheit.
    Fahrenheit,
}

impl TemperatureUnit {
    /// How it is written for people.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "\u{b0}C",
            Self::Fahrenheit => "\u{b0}F",
        }
    }

    fn from_symbol(symbol: &str) -> Option<Self> {
        match symbol.to_ascii_lowercase().as_str() {
            "degc" | "\u{b0}c" | "c" => Some(Self::Celsius),
            "degf" | "\u{b0}f" | "f" => Some(Self::Fahrenheit),
            _ => None,
        }
    }
}

impl core::str::FromStr for TemperatureUnit {
    type Err = InputError;
    fn from_str(text: &str) -> Result<Self, InputError> {
        Self::from_symbol(text.trim()).ok_or_else(|| {
            InputError::new(
                "unit",
                text,
                problem!("not-a-temperature-unit"),
                expected!("temperature-unit"),
            )
        })
    }
}

fn value_and_unit(field: &str, text: &str) -> Result<(f64, TemperatureUnit), InputError> {
    let wrong = |problem: Reason| InputError::new(field, text, problem, EXPECTED);
    let (number, unit) = number_and_unit(field, text, EXPECTED)?;
    if unit.is_empty() {
        return Err(wrong(problem!("no-unit")));
    }
    let unit = TemperatureUnit::from_symbol(unit)
        .ok_or_else(|| wrong(problem!("other-temperature-unit", unit = typed(unit))))?;
    Ok((number, unit))
}

/// Reads a temperature with its unit: `54degC`, `129.2 degF`, also with `°`
/// or the bare letter. `field` names what is being read, for the error.
///
/// # Errors
/// A missing or unknown unit, something that is no plain decimal number, or a
/// temperature that nothing in a kitchen has.
pub fn parse_temperature(field: &str, text: &str) -> Result<Temperature, InputError> {
    let (number, unit) = value_and_unit(field, text)?;
    let temperature = match unit {
        TemperatureUnit::Celsius => Temperature::from_celsius(number),
        TemperatureUnit::Fahrenheit => Temperature::from_fahrenheit(number),
    };
    let wrong = |problem: Reason| Err(InputError::new(field, text, problem, EXPECTED));
    match temperature {
        None if number < 0.0 => wrong(problem!("absolute-zero")),
        Some(temperature) if temperature < COLDEST => wrong(problem!("too-cold-for-a-kitchen")),
        Some(temperature) if temperature <= HOTTEST => Ok(temperature),
        _ => wrong(problem!("too-hot-for-a-probe")),
    }
}

/// Liquid nitrogen boils at -196 degC (from memory).
const COLDEST: Temperature = Temperature::from_millicelsius(-200_000);
/// The end of the range of a type K thermocouple (IEC 60584-1, from memory).
const HOTTEST: Temperature = Temperature::from_millicelsius(1_372_000);

/// Reads a difference of temperatures: `2degC` or `3.6degF`, as a number of
/// thousandths of a degree Celsius within a [`Temperature`] counted from 0 °C.
/// Unlike a temperature, 0 degF apart is 0 degC apart.
///
/// # Errors
/// As for [`parse_temperature`].
pub fn parse_temperature_difference(field: &str, text: &str) -> Result<Temperature, InputError> {
    let (number, unit) = value_and_unit(field, text)?;
    let celsius = match unit {
        TemperatureUnit::Celsius => number,
        TemperatureUnit::Fahrenheit => number / 1.8,
    };
    Temperature::from_celsius(celsius)
        .ok_or_else(|| InputError::new(field, text, problem!("no-difference"), EXPECTED))
}

/// A temperature written in a unit with one decimal: `54.0 °C`.
#[must_use]
pub fn format_temperature(temperature: Temperature, unit: TemperatureUnit) -> String {
    let value = match unit {
        TemperatureUnit::Celsius => temperature.celsius(),
        TemperatureUnit::Fahrenheit => temperature.fahrenheit(),
    };
    let value = if value.abs() < 0.05 { 0.0 } else { value };
    format!("{value:.1} {}", unit.symbol())
}

#[cfg(test)]
mod tests {
    use super::*;

    // The two fixed points of the Fahrenheit scale, and where the scales meet:
    // t/degF = 1.8 t/degC + 32, exact (NIST SP 811, B.8; from memory).
    #[test]
    fn scales_agree_at_their_fixed_points() {
        let t = |text| parse_temperature("t", text).unwrap().millicelsius();
        assert_eq!(t("32degF"), 0);
        assert_eq!(t("212 \u{b0}F"), 100_000);
        assert_eq!(t("-40degF"), t("-40degC"));
        assert_eq!(t("54C"), 54_000);
        assert_eq!(
            parse_temperature_difference("t", "3.6degF")
                .unwrap()
                .millicelsius(),
            2_000
        );
    }

    #[test]
    fn what_is_no_temperature_is_refused_by_name() {
        for (text, problem) in [
            ("54", "has no unit"),
            ("hot", "does not begin with a number"),
            (
                "54K",
                "has the unit \"K\", which is no temperature known here",
            ),
            ("-300degC", "is below absolute zero"),
            ("-500degF", "is below absolute zero"),
            (
                "-273.15degC",
                "is colder than liquid nitrogen, the coldest thing in a kitchen",
            ),
            ("99999degC", "is hotter than any probe for food tells"),
            ("9999999999degC", "is hotter than any probe for food tells"),
        ] {
            let error = parse_temperature("--hold", text).unwrap_err();
            assert_eq!(
                (error.field(), error.problem().in_english().as_str()),
                ("--hold", problem),
                "{text:?}"
            );
        }
    }

    #[test]
    fn temperatures_print_with_their_unit() {
        let t = Temperature::from_millicelsius(54_040);
        assert_eq!(
            format_temperature(t, TemperatureUnit::Celsius),
            "54.0 \u{b0}C"
        );
        assert_eq!(
            format_temperature(t, TemperatureUnit::Fahrenheit),
            "129.3 \u{b0}F"
        );
        let t = Temperature::from_millicelsius(-40);
        assert_eq!(
            format_temperature(t, TemperatureUnit::Celsius),
            "0.0 \u{b0}C"
        );
    }
}
