//! Mass and temperature as exact integers.

use core::ops::{Add, AddAssign, Neg, Sub, SubAssign};
use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// A mass, or a difference of masses, in whole micrograms.
///
/// The range is that of `i64`, some nine million tonnes; arithmetic saturates
/// at its ends, so a sum can be absurd but never wraps to a plausible value.
///
/// ```
/// use evenhand_protocol::Mass;
/// let shrimp = Mass::from_milligrams(30_250);
/// assert_eq!(shrimp.micrograms(), 30_250_000);
/// assert_eq!((shrimp - Mass::from_grams(30)).grams(), 0.25);
/// ```
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
    MaxSize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Mass(i64);

impl Mass {
    /// No mass.
    pub const ZERO: Self = Self(0);
    /// The largest mass that can be held.
    pub const MAX: Self = Self(i64::MAX);

    /// A mass of so many micrograms.
    #[must_use]
    pub const fn from_micrograms(micrograms: i64) -> Self {
        Self(micrograms)
    }

    /// A mass of so many milligrams, saturating.
    #[must_use]
    pub const fn from_milligrams(milligrams: i64) -> Self {
        Self(milligrams.saturating_mul(1_000))
    }

    /// A mass of so many whole grams, saturating.
    #[must_use]
    pub const fn from_grams(grams: i64) -> Self {
        Self(grams.saturating_mul(1_000_000))
    }

    /// The nearest mass to a fractional number of grams, or `None` where the
    /// number is not finite or does not fit.
    #[must_use]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn from_fractional_grams(grams: f64) -> Option<Self> {
        // Rounding half away from zero, spelled out because `f64::round` is not in `core`
        // on every supported toolchain.
        let micrograms = grams * 1e6;
        if !(micrograms > -9.2e18 && micrograms < 9.2e18) {
            return None;
        }
        let half = if micrograms < 0.0 { -0.5 } else { 0.5 };
        Some(Self((micrograms + half) as i64))
    }

    /// This mass in micrograms.
    #[must_use]
    pub const fn micrograms(self) -> i64 {
        self.0
    }

    /// This mass in grams, for display and statistics.
    #[must_use]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn grams(self) -> f64 {
        self.0 as f64 / 1e6
    }

    /// The size of this mass without its sign.
    #[must_use]
    // Out of line: 692 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }

    /// This mass, but no further from zero than `most` either way; `most` is
    /// not negative.
    #[must_use]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn limited(self, most: Self) -> Self {
        self.min(most).max(-most)
    }

    /// Whether this mass is below zero.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// This mass times a whole number, saturating.
    #[must_use]
    // Out of line: 476 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub const fn times(self, factor: i64) -> Self {
        Self(self.0.saturating_mul(factor))
    }

    /// This mass as `part` of `whole` equal pieces, rounded toward zero;
    /// `None` where `whole` is zero.
    #[must_use]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn fraction(self, part: i64, whole: i64) -> Option<Self> {
        let size = times_over(
            self.0.unsigned_abs(),
            part.unsigned_abs(),
            whole.unsigned_abs(),
        )?;
        if (self.0 < 0) ^ (part < 0) ^ (whole < 0) {
            0_i64.checked_sub_unsigned(size).map(Self)
        } else {
            i64::try_from(size).ok().map(Self)
        }
    }

    /// This mass rounded to the nearest whole multiple of `interval`, halves
    /// away from zero. An interval of zero or less leaves it as it is.
    #[must_use]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub const fn rounded_to(self, interval: Self) -> Self {
        if interval.0 <= 0 {
            return self;
        }
        let half = interval.0 / 2;
        let shifted = if self.0 < 0 {
            self.0.saturating_sub(half)
        } else {
            self.0.saturating_add(half)
        };
        Self((shifted / interval.0).saturating_mul(interval.0))
    }
}

/// `value * factor / divisor`, exactly and rounded down; `None` where the
/// divisor is zero or the result does not fit. The divisor is at most 2^63.
///
/// The factor is taken bit by bit from the top, so that nothing is ever wider
/// than 64 bits: a division of 128 bits is a kilobyte on a small processor.
fn times_over(value: u64, factor: u64, divisor: u64) -> Option<u64> {
    let once = value.checked_div(divisor)?;
    let once_left = value.checked_rem(divisor)?;
    let (mut whole, mut left) = (0_u64, 0_u64);
    let mut bit = u64::BITS.saturating_sub(factor.leading_zeros());
    while bit > 0 {
        bit = bit.wrapping_sub(1);
        // What is left is below the divisor, as is what is left of the value, so twice as much
        // fits and so does their sum.
        whole = whole.checked_add(whole)?;
        left <<= 1;
        if left >= divisor {
            left = left.wrapping_sub(divisor);
            whole = whole.checked_add(1)?;
        }
        if factor >> bit & 1 == 1 {
            whole = whole.checked_add(once)?;
            left = left.wrapping_add(once_left);
            if left >= divisor {
                left = left.wrapping_sub(divisor);
                whole = whole.checked_add(1)?;
            }
        }
    }
    Some(whole)
}

impl Add for Mass {
    type Output = Self;
    // Out of line: 628 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl AddAssign for Mass {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Mass {
    type Output = Self;
    // Out of line: 2968 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl SubAssign for Mass {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl Neg for Mass {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl core::iter::Sum for Mass {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::ZERO, Add::add)
    }
}

/// A temperature in whole thousandths of a degree Celsius.
///
/// The range of `i32` is about ±2.1 million °C; what a sensor can honestly
/// report is far narrower and is the sensor's to check.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
    MaxSize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Temperature(i32);

impl Temperature {
    /// Absolute zero, the lowest temperature with a meaning: −273.15 °C.
    pub const ABSOLUTE_ZERO: Self = Self(-273_150);

    /// A temperature of so many thousandths of a degree Celsius.
    #[must_use]
    pub const fn from_millicelsius(millicelsius: i32) -> Self {
        Self(millicelsius)
    }

    /// The nearest temperature to a fractional number of degrees Celsius, or
    /// `None` where the number is not finite, does not fit or lies below
    /// absolute zero.
    #[must_use]
    pub fn from_celsius(celsius: f64) -> Option<Self> {
        let scaled = celsius * 1e3;
        if !(-273_150.0..2.0e9).contains(&scaled) {
            return None;
        }
        let half = if scaled < 0.0 { -0.5 } else { 0.5 };
        Some(Self((scaled + half) as i32))
    }

    /// The nearest temperature to a fractional number of degrees Fahrenheit,
    /// with the same conditions as [`Temperature::from_celsius`].
    #[must_use]
    pub fn from_fahrenheit(fahrenheit: f64) -> Option<Self> {
        Self::from_celsius((fahrenheit - 32.0) / 1.8)
    }

    /// This temperature in thousandths of a degree Celsius.
    #[must_use]
    pub const fn millicelsius(self) -> i32 {
        self.0
    }

    /// This temperature in degrees Celsius.
    #[must_use]
    pub fn celsius(self) -> f64 {
        f64::from(self.0) / 1e3
    }

    /// This temperature in degrees Fahrenheit.
    #[must_use]
    pub fn fahrenheit(self) -> f64 {
        self.celsius() * 1.8 + 32.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grams_round_half_away_from_zero() {
        assert_eq!(
            Mass::from_fractional_grams(30.000_000_5),
            Some(Mass::from_micrograms(30_000_001))
        );
        assert_eq!(
            Mass::from_fractional_grams(-0.000_000_5),
            Some(Mass::from_micrograms(-1))
        );
    }

    #[test]
    fn numbers_that_are_no_mass_are_refused() {
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e13] {
            assert_eq!(Mass::from_fractional_grams(bad), None, "{bad}");
        }
    }

    #[test]
    fn sums_saturate_and_do_not_wrap() {
        assert_eq!(Mass::MAX + Mass::from_grams(1), Mass::MAX);
        assert_eq!(
            Mass::from_micrograms(i64::MIN).abs(),
            Mass::from_micrograms(i64::MAX)
        );
    }

    // Held against the same in 128 bits.
    #[test]
    fn fractions_are_exact_to_the_ends_of_the_range() {
        let numbers = [
            i64::MIN,
            i64::MIN + 1,
            -1_000_000,
            -3,
            -1,
            0,
            1,
            2,
            7,
            999,
            1_000_000,
            123_456_789_012,
            i64::MAX / 3,
            i64::MAX - 1,
            i64::MAX,
        ];
        for mass in numbers {
            for part in numbers {
                for whole in numbers {
                    let exact = i128::from(mass)
                        .checked_mul(i128::from(part))
                        .and_then(|product| product.checked_div(i128::from(whole)))
                        .and_then(|exact| i64::try_from(exact).ok());
                    let found = Mass::from_micrograms(mass).fraction(part, whole);
                    assert_eq!(
                        found.map(Mass::micrograms),
                        exact,
                        "{mass} times {part} over {whole}"
                    );
                }
            }
        }
    }

    #[test]
    fn rounding_to_an_interval_is_symmetric() {
        let interval = Mass::from_milligrams(100);
        assert_eq!(
            Mass::from_milligrams(30_050).rounded_to(interval),
            Mass::from_milligrams(30_100)
        );
        assert_eq!(
            Mass::from_milligrams(-30_050).rounded_to(interval),
            Mass::from_milligrams(-30_100)
        );
        assert_eq!(
            Mass::from_milligrams(30_049).rounded_to(interval),
            Mass::from_grams(30)
        );
    }

    #[test]
    fn temperatures_below_absolute_zero_do_not_exist() {
        assert_eq!(Temperature::from_celsius(-273.16), None);
        assert_eq!(
            Temperature::from_celsius(-273.15),
            Some(Temperature::ABSOLUTE_ZERO)
        );
        assert_eq!(Temperature::from_celsius(f64::NAN), None);
    }

    // The fixed points of the Fahrenheit scale, exact by definition (NIST SP 811, B.9).
    #[test]
    fn fahrenheit_fixed_points() {
        let ice = Temperature::from_fahrenheit(32.0).unwrap();
        let steam = Temperature::from_fahrenheit(212.0).unwrap();
        assert_eq!((ice.millicelsius(), steam.millicelsius()), (0, 100_000));
    }
}
