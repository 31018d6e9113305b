//! Money, and what a mass of food costs.

use super::number::number_and_unit;
use super::{InputError, MassUnit, parse_mass};
use super::{Reason, typed};
use evenhand_protocol::Mass;

const EXPECTED: Reason = expected!("money");
const EXPECTED_COST: Reason = expected!("cost");

/// A currency, by its ISO 4217 code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Currency(iso_currency::Currency);

impl Currency {
    /// The currency with this three-letter code, upper or lower case.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        iso_currency::Currency::from_code(&code.to_ascii_uppercase()).map(Self)
    }

    /// Its three-letter code.
    #[must_use]
    pub fn code(self) -> &'static str {
        self.0.code()
    }

    /// How many decimals its amounts are written with; 2 for a currency of
    /// hundredths.
    #[must_use]
    pub fn decimals(self) -> usize {
        usize::from(self.0.exponent().unwrap_or(2))
    }
}

/// An amount of money, exact to a millionth of the currency's unit, so that
/// the cost of a few milligrams is not lost before it is summed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Money {
    millionths: i64,
    currency: Currency,
}

impl Money {
    /// So many millionths of the currency's unit.
    #[must_use]
    pub const fn from_millionths(millionths: i64, currency: Currency) -> Self {
        Self {
            millionths,
            currency,
        }
    }

    /// This amount in millionths of the currency's unit.
    #[must_use]
    pub const fn millionths(self) -> i64 {
        self.millionths
    }

    /// Its currency.
    #[must_use]
    pub const fn currency(self) -> Currency {
        self.currency
    }

    /// Reads an amount, not negative, with its currency: `4.50 EUR`.
    ///
    /// # Errors
    /// A missing or unknown currency, a negative amount, or something that is
    /// no plain decimal number.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        let wrong = |problem: Reason| InputError::new(field, text, problem, EXPECTED);
        let (number, code) = number_and_unit(field, text, EXPECTED)?;
        if code.is_empty() {
            return Err(wrong(problem!("no-currency")));
        }
        let currency = Currency::from_code(code)
            .ok_or_else(|| wrong(problem!("other-currency", currency = typed(code))))?;
        if number < 0.0 {
            return Err(wrong(problem!("negative")));
        }
        let millionths = (number * 1e6).round();
        if millionths > 9.2e18 {
            return Err(wrong(problem!("too-large")));
        }
        Ok(Self::from_millionths(millionths as i64, currency))
    }

    /// To its last digit, so that [`Money::parse`] reads the same amount: `4.505 EUR`.
    #[must_use]
    pub fn in_full(self) -> String {
        let (whole, part) = (
            self.millionths.unsigned_abs() / 1_000_000,
            self.millionths.unsigned_abs() % 1_000_000,
        );
        let sign = if self.millionths < 0 { "-" } else { "" };
        let part = format!("{part:06}");
        let part = match part.trim_end_matches('0') {
            "" => String::new(),
            part => format!(".{part}"),
        };
        format!("{sign}{whole}{part} {}", self.currency.code())
    }

    /// This and another amount together; `None` where their currencies
    /// differ.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        (self.currency == other.currency).then(|| {
            Self::from_millionths(
                self.millionths.saturating_add(other.millionths),
                self.currency,
            )
        })
    }
}

impl core::fmt::Display for Money {
    /// Rounded to the currency's own decimals, halves away from zero:
    /// `4.50 EUR`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let decimals = self.currency.decimals().min(6);
        let step = 10u64.pow(6 - decimals as u32);
        let rounded = (self.millionths.unsigned_abs() + step / 2) / step;
        let per_unit = 10u64.pow(decimals as u32);
        let sign = if self.millionths < 0 && rounded > 0 {
            "-"
        } else {
            ""
        };
        let (whole, part) = (rounded / per_unit, rounded % per_unit);
        if decimals == 0 {
            write!(f, "{sign}{whole} {}", self.currency.code())
        } else {
            write!(
                f,
                "{sign}{whole}.{part:0decimals$} {}",
                self.currency.code()
            )
        }
    }
}

/// What a mass of food costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct CostPerMass {
    per_kilogram: Money,
}

impl CostPerMass {
    /// A cost given for a kilogram.
    #[must_use]
    pub const fn per_kilogram(per_kilogram: Money) -> Self {
        Self { per_kilogram }
    }

    /// The cost of a purchase: `price` for `mass`. `None` where the mass is
    /// not above zero or the quotient does not fit.
    #[must_use]
    pub fn of_purchase(price: Money, mass: Mass) -> Option<Self> {
        if mass <= Mass::ZERO {
            return None;
        }
        let per_kilogram = divide(
            i128::from(price.millionths) * 1_000_000_000,
            i128::from(mass.micrograms()),
        );
        Some(Self::per_kilogram(Money::from_millionths(
            i64::try_from(per_kilogram).ok()?,
            price.currency,
        )))
    }

    /// Reads a cost: `1800 EUR/kg`, `51 USD/oz`, `90 EUR/50g`.
    ///
    /// # Errors
    /// A part that is missing or that cannot be read, or a mass of zero.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        let wrong = |problem: Reason| InputError::new(field, text, problem, EXPECTED_COST);
        let (price, mass) = text
            .split_once('/')
            .ok_or_else(|| wrong(problem!("no-mass-of-price")))?;
        let price = Money::parse(field, price).map_err(|error| {
            InputError::new(field, text, error.problem().clone(), EXPECTED_COST)
        })?;
        let mass = mass.trim();
        let mass = match mass.parse::<MassUnit>() {
            Ok(unit) => parse_mass(field, &format!("1{unit}")),
            Err(_) => parse_mass(field, mass),
        }
        .map_err(|error| {
            InputError::new(
                field,
                text,
                problem!("mass-that", why = error.problem().clone()),
                EXPECTED_COST,
            )
        })?;
        Self::of_purchase(price, mass).ok_or_else(|| wrong(problem!("no-price")))
    }

    /// What a kilogram costs.
    #[must_use]
    pub const fn for_kilogram(self) -> Money {
        self.per_kilogram
    }

    /// What `mass` costs, rounded to a millionth of the currency's unit.
    #[must_use]
    pub fn of(self, mass: Mass) -> Money {
        let cost = divide(
            i128::from(self.per_kilogram.millionths) * i128::from(mass.micrograms()),
            1_000_000_000,
        );
        let cost = i64::try_from(cost).unwrap_or(if cost < 0 { i64::MIN } else { i64::MAX });
        Money::from_millionths(cost, self.per_kilogram.currency)
    }
}

impl core::fmt::Display for CostPerMass {
    /// For a kilogram: `1800.00 EUR/kg`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}/kg", self.per_kilogram)
    }
}

/// The nearest whole quotient, halves away from zero. `by` is above zero.
fn divide(number: i128, by: i128) -> i128 {
    let half = if number < 0 { -by / 2 } else { by / 2 };
    number.saturating_add(half) / by
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn amounts_print_with_their_own_decimals() {
        // ISO 4217 minor units: EUR 2, JPY 0, KWD 3 (from memory).
        for (text, printed) in [
            ("4.5 EUR", "4.50 EUR"),
            ("4.505eur", "4.51 EUR"),
            ("1800 JPY", "1800 JPY"),
            ("1.2345 KWD", "1.235 KWD"),
            ("0.004 EUR", "0.00 EUR"),
        ] {
            assert_eq!(Money::parse("price", text).unwrap().to_string(), printed);
        }
        let eur = Currency::from_code("EUR").unwrap();
        assert_eq!(Money::from_millionths(-4_000, eur).to_string(), "0.00 EUR");
        assert_eq!(Money::from_millionths(-6_000, eur).to_string(), "-0.01 EUR");
    }

    #[test]
    fn an_amount_in_full_is_read_back_as_it_was() {
        for (text, full) in [
            ("26 EUR", "26 EUR"),
            ("2.40 EUR", "2.4 EUR"),
            ("0.000001 EUR", "0.000001 EUR"),
            ("1800.505 JPY", "1800.505 JPY"),
        ] {
            let money = Money::parse("price", text).unwrap();
            assert_eq!(money.in_full(), full);
            assert_eq!(Money::parse("price", full).unwrap(), money);
        }
    }

    #[test]
    fn what_is_no_money_is_refused_by_name() {
        for (text, problem) in [
            ("4.50", "has no currency"),
            (
                "4.50 quid",
                "has the currency \"quid\", which ISO 4217 does not list",
            ),
            ("-1 EUR", "is negative"),
            ("EUR 4", "does not begin with a number"),
            ("99999999999999 EUR", "is too large"),
        ] {
            assert_eq!(
                Money::parse("--price", text)
                    .unwrap_err()
                    .problem()
                    .in_english(),
                problem,
                "{text}"
            );
        }
        for (text, problem) in [
            ("1800 EUR", "does not say for what mass"),
            ("1800/kg", "has no currency"),
            ("1800 EUR/", "has a mass that is empty"),
            (
                "1800 EUR/tin",
                "has a mass that does not begin with a number",
            ),
            ("1800 EUR/0g", "is no price for a mass above zero"),
        ] {
            let error = CostPerMass::parse("--cost", text).unwrap_err();
            assert_eq!(
                (error.problem().in_english().as_str(), error.value()),
                (problem, text)
            );
        }
    }

    #[test]
    fn a_cost_is_the_same_however_it_is_said() {
        let cost = |text| CostPerMass::parse("--cost", text).unwrap();
        assert_eq!(cost("1800 EUR/kg"), cost("90 EUR/50g"));
        assert_eq!(cost("1800 EUR/kg"), cost("1.8 EUR / g"));
        // 453.592 37 g cost 453.592 37 units where a gram costs one.
        assert_eq!(cost("453.59237 EUR/lb").to_string(), "1000.00 EUR/kg");
        assert_eq!(
            cost("1800 EUR/kg")
                .of(Mass::from_milligrams(500))
                .to_string(),
            "0.90 EUR"
        );
    }

    #[test]
    fn currencies_do_not_mix() {
        let eur = Money::parse("x", "1 EUR").unwrap();
        let usd = Money::parse("x", "1 USD").unwrap();
        assert_eq!(eur.plus(usd), None);
        assert_eq!(eur.plus(eur).unwrap().to_string(), "2.00 EUR");
    }

    proptest! {
        #[test]
        fn nothing_panics(text in ".*", micrograms in any::<i64>()) {
            let _ = CostPerMass::parse("x", &text).map(|cost| cost.of(Mass::from_micrograms(micrograms)).to_string());
            let _ = Money::parse("x", &text);
        }
    }
}
