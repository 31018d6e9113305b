//! From counts to mass.
//!
//! One type, [`Calibration`], in two makes: with the feature `calibration` a curve through
//! known weights that knows how well it is known, and without it a straight line that is
//! taken for exact.

#[cfg(not(feature = "calibration"))]
mod exact;
#[cfg(feature = "calibration")]
mod fitted;

#[cfg(feature = "calibration")]
pub use fitted::Point;

#[cfg(not(feature = "calibration"))]
use exact::{Certainty, Circumstances};
#[cfg(feature = "calibration")]
use fitted::{Certainty, Circumstances};

use super::filter::PARTS;
use super::line::{Bend, Line};
use crate::sensor::Counts;
pub use evenhand_protocol::CalibrationError;
use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// Fewest counts between the empty pan and the heaviest weight.
const FEWEST_COUNTS: u16 = 1_000;

/// The curve from counts to mass, and how well it is known.
///
/// Two different loads (the empty pan and a weight) make a straight line,
/// three or four a parabola, five or more a cubic, all through the empty pan.
/// Beyond the heaviest weight and below the empty pan the curve goes on
/// straight. Without the feature `calibration` there is the line alone.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Calibration {
    /// Counts of the empty pan.
    zero: f64,
    /// Counts from there to the heaviest load: the unit of the curve.
    span: f64,
    /// Coefficients of x, x², x³ in micrograms.
    curve: [f64; 3],
    certainty: Certainty,
    /// Number of points.
    points: u8,
    made: Circumstances,
}

impl Calibration {
    /// The straight line from the empty pan through one load that are both
    /// known exactly.
    ///
    /// # Errors
    /// [`CalibrationError::NegativeLoad`] for a load below zero,
    /// [`CalibrationError::NoSpan`] for no load, or where the counts hardly
    /// differ.
    pub fn line(empty: Counts, load: Mass, loaded: Counts) -> Result<Self, CalibrationError> {
        if load.is_negative() {
            return Err(CalibrationError::NegativeLoad);
        }
        // Of 24 bits each.
        let span = loaded.0.saturating_sub(empty.0);
        if load == Mass::ZERO || span.unsigned_abs() < u32::from(FEWEST_COUNTS) {
            return Err(CalibrationError::NoSpan);
        }
        Ok(Self {
            zero: f64::from(empty.0),
            span: f64::from(span),
            curve: [load.micrograms() as f64, 0.0, 0.0],
            certainty: Certainty::EXACT,
            points: 2,
            made: Circumstances::UNKNOWN,
        })
    }

    /// Number of points that it was made from.
    #[must_use]
    pub const fn points(&self) -> u8 {
        self.points
    }

    /// Counts of the empty pan when it was calibrated.
    #[must_use]
    pub const fn zero_counts(&self) -> f64 {
        self.zero
    }

    /// The heaviest load that it was made with.
    #[must_use]
    pub fn heaviest_load(&self) -> Mass {
        self.in_whole_numbers().heaviest
    }

    /// The same in whole numbers.
    pub(super) fn in_whole_numbers(&self) -> Line {
        let [straight, square, cube] = self.curve.map(|micrograms| whole(micrograms, 0));
        Line {
            zero: whole(self.zero, PARTS.trailing_zeros()),
            span: whole(self.span, PARTS.trailing_zeros()),
            heaviest: Mass::from_micrograms(straight.saturating_add(square).saturating_add(cube)),
            bend: Bend::of(square, cube),
        }
    }

    /// The load that one count stands for.
    #[must_use]
    pub fn mass_of_one_count(&self) -> Mass {
        self.in_whole_numbers().mass_of_one_count()
    }
}

/// A number times 2 to a power, toward zero; saturates where it does not fit,
/// and is zero for what is no number. By its bits: the conversion of a double
/// and its multiplication are seven hundred bytes on a processor that has
/// neither.
fn whole(number: f64, power: u32) -> i64 {
    let bits = number.to_bits();
    let exponent = (bits >> 52 & 0x7FF) as u32;
    if number.is_nan() {
        return 0;
    }
    // 1.x times 2^(exponent - 1023), and x has 52 bits.
    let digits = bits & ((1 << 52) - 1) | 1 << 52;
    let left = exponent.saturating_add(power);
    let size = if left < 1_075 {
        digits
            .checked_shr(1_075_u32.saturating_sub(left))
            .unwrap_or(0)
    } else if left <= 1_075 + 10 {
        digits << (left.saturating_sub(1_075) & 15)
    } else {
        i64::MAX.unsigned_abs()
    };
    let size = size.cast_signed();
    if number.is_sign_negative() {
        size.saturating_neg()
    } else {
        size
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_wired_the_other_way_round_weighs_the_same() {
        let line = Calibration::line(Counts(50_000), Mass::from_grams(1_000), Counts(-1_950_000));
        let line = line.unwrap().in_whole_numbers();
        assert_eq!(line.mass_of(-950_000 * PARTS), Mass::from_grams(500));
        assert_eq!(line.mass_of_one_count(), Mass::from_micrograms(500));
        assert_eq!(line.parts_of(Mass::from_grams(1)), 2_000 * PARTS);
    }

    #[test]
    fn a_double_becomes_a_whole_number_as_a_cast_makes_it() {
        for number in [
            0.0,
            1.0,
            -1.0,
            0.4,
            -0.6,
            81_234.375,
            -8_388_608.0,
            1e9,
            -3.7e12,
            1.2e16,
            9e18,
            1e30,
            f64::INFINITY,
            f64::NEG_INFINITY,
            f64::NAN,
            f64::MIN_POSITIVE,
        ] {
            assert_eq!(whole(number, 0), (number as i64).max(-i64::MAX), "{number}");
            assert_eq!(
                whole(number, 8),
                ((number * 256.0) as i64).max(-i64::MAX),
                "{number}"
            );
        }
    }
}
