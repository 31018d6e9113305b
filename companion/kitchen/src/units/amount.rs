//! Amounts of goods as kitchens buy them: by weight, by volume or by the piece.

use super::number::number_and_unit;
use super::{InputError, parse_mass, parse_volume};
use super::{Reason, typed};
use evenhand_protocol::Mass;

const EXPECTED: Reason = expected!("amount");

/// More than this of anything is a slip: grams, millilitres or pieces.
const MOST: f64 = 1e8;

/// What an amount is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Measure {
    /// Weight, in grams.
    Mass,
    /// Volume, in millilitres.
    Volume,
    /// Pieces.
    Pieces,
}

/// So much of something that is bought: a weight, a volume or a number of pieces, zero or more.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Amount {
    measure: Measure,
    /// In grams, millilitres or pieces.
    number: f64,
}

impl Amount {
    /// So many grams, millilitres or pieces; what is below nothing is nothing.
    #[must_use]
    pub fn new(measure: Measure, number: f64) -> Self {
        Self {
            measure,
            number: number.clamp(0.0, f64::MAX),
        }
    }

    /// A weight.
    #[must_use]
    pub fn of_mass(mass: Mass) -> Self {
        Self::new(Measure::Mass, mass.grams())
    }

    /// Reads an amount with its unit: `2.5 kg`, `750 ml`, `12 pieces`. `field` says where it was
    /// typed, for the error.
    ///
    /// # Errors
    /// A missing or unknown unit, or an amount that is not above zero.
    ///
    /// ```
    /// use evenhand_kitchen::units::{Amount, Measure};
    /// let dozen = Amount::parse("pack", "12 pieces").unwrap();
    /// assert_eq!((dozen.measure(), dozen.number()), (Measure::Pieces, 12.0));
    /// assert_eq!(Amount::parse("pack", "2.5 kg").unwrap().number(), 2_500.0);
    /// assert!(Amount::parse("pack", "12").is_err());
    /// ```
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        let amount = Self::parse_or_none(field, text)?;
        if amount.number > 0.0 {
            return Ok(amount);
        }
        Err(InputError::new(field, text, problem!("zero"), EXPECTED))
    }

    /// As [`Amount::parse`], of what may be nothing: `0 kg`.
    ///
    /// # Errors
    /// As for [`Amount::parse`], but for zero.
    pub fn parse_or_none(field: &str, text: &str) -> Result<Self, InputError> {
        let wrong = |problem: Reason| InputError::new(field, text, problem, EXPECTED);
        let (number, unit) = number_and_unit(field, text, EXPECTED)?;
        if number < 0.0 {
            return Err(wrong(problem!("negative")));
        }
        if unit.is_empty() {
            return Err(wrong(problem!("no-unit")));
        }
        let (measure, number) = match unit.to_lowercase().as_str() {
            "piece" | "pieces" | "pcs" => (Measure::Pieces, number),
            _ => {
                if let Ok(mass) = parse_mass(field, text) {
                    (Measure::Mass, mass.grams())
                } else if number == 0.0 {
                    // No volume is nothing, but its unit can be read beside a number.
                    let one = text.trim().trim_start_matches(['0', '.', '+', '-']);
                    parse_volume(field, &format!("1{one}"))
                        .map_err(|_| wrong(problem!("other-unit", unit = typed(unit))))?;
                    (Measure::Volume, 0.0)
                } else {
                    let volume = parse_volume(field, text).map_err(|error| {
                        if error.problem().code() == "other-volume-unit" {
                            wrong(problem!("other-unit", unit = typed(unit)))
                        } else {
                            error
                        }
                    })?;
                    (Measure::Volume, volume.millilitres())
                }
            }
        };
        if number > MOST {
            return Err(wrong(problem!("too-large")));
        }
        Ok(Self { measure, number })
    }

    /// What it is counted in.
    #[must_use]
    pub const fn measure(self) -> Measure {
        self.measure
    }

    /// How many grams, millilitres or pieces.
    #[must_use]
    pub const fn number(self) -> f64 {
        self.number
    }

    /// So many times as much.
    #[must_use]
    pub fn times(self, by: f64) -> Self {
        Self::new(self.measure, self.number * by)
    }
}

impl core::fmt::Display for Amount {
    /// `2.5 kg`, `850 g`, `1.2 l`, `12 pieces`, to three places and at most a tenth of a gram.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let (number, unit) = match self.measure {
            Measure::Mass if self.number >= 1e3 => (self.number / 1e3, "kg"),
            Measure::Mass => (self.number, "g"),
            Measure::Volume if self.number >= 1e3 => (self.number / 1e3, "l"),
            Measure::Volume => (self.number, "ml"),
            Measure::Pieces => (self.number, "pieces"),
        };
        let decimals = match (self.measure, unit) {
            (_, "kg" | "l") => 3,
            _ => 1,
        };
        let digits = format!("{number:.decimals$}");
        let digits = digits.trim_end_matches('0').trim_end_matches('.');
        write!(f, "{digits} {unit}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_read_with_their_unit_or_refused_by_name() {
        for (text, measure, number) in [
            ("2.5 kg", Measure::Mass, 2_500.0),
            ("850g", Measure::Mass, 850.0),
            // A pound avoirdupois is 453.592 37 g, exact (NIST SP 811 (2008), B.8, from memory).
            ("1 lb", Measure::Mass, 453.592_37),
            ("5 l", Measure::Volume, 5_000.0),
            ("75cl", Measure::Volume, 750.0),
            ("12 pieces", Measure::Pieces, 12.0),
            ("1 piece", Measure::Pieces, 1.0),
            ("0.5 pieces", Measure::Pieces, 0.5),
        ] {
            let read = Amount::parse("pack", text).unwrap();
            assert_eq!(read.measure(), measure, "{text}");
            assert!((read.number() - number).abs() < 1e-5, "{text}: {read:?}");
        }
        for (text, problem) in [
            ("12", "has no unit"),
            ("0 kg", "is zero"),
            ("0 l", "is zero"),
            ("-1 kg", "is negative"),
            ("2 boxes", "not known"),
            ("2 gal", "two sizes"),
            ("1,5 kg", "comma"),
            ("", "is empty"),
            ("900000000 kg", "too large"),
        ] {
            let error = Amount::parse("pack", text).unwrap_err();
            assert_eq!(error.field(), "pack");
            assert!(error.to_string().contains(problem), "{text}: {error}");
        }
        assert_eq!(
            Amount::parse_or_none("in hand", "0 kg").unwrap().number(),
            0.0
        );
        assert!(Amount::parse_or_none("in hand", "0 boxes").is_err());
    }

    #[test]
    fn an_amount_is_written_in_the_unit_that_reads_best() {
        for (text, written) in [
            ("2500 g", "2.5 kg"),
            ("10 kg", "10 kg"),
            ("850 g", "850 g"),
            ("1200 ml", "1.2 l"),
            ("12 pcs", "12 pieces"),
            ("1.5 pieces", "1.5 pieces"),
        ] {
            assert_eq!(Amount::parse("pack", text).unwrap().to_string(), written);
        }
    }
}
