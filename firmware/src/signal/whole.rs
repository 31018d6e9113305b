//! Whole numbers where a processor without double precision weighs.
//!
//! Overflow is checked everywhere else and stops the firmware. Here it cannot:
//! products saturate, and sums wrap where a bound that stands beside them says
//! that they do not reach the end of the range.

/// The product, saturating at the ends of the range. Called and never written
/// out in place: on a processor of 32 bits one takes fifty bytes.
// Out of line: 960 bytes less of the emulated board's flash.
#[cfg_attr(target_pointer_width = "32", inline(never))]
pub(super) const fn product(a: i64, b: i64) -> i64 {
    a.saturating_mul(b)
}

/// The quotient, toward zero; zero where there is nothing to divide by.
// Out of line: 116 bytes less of the emulated board's flash.
#[cfg_attr(target_pointer_width = "32", inline(never))]
pub(super) const fn quotient(a: i64, b: i64) -> i64 {
    match a.checked_div(b) {
        Some(quotient) => quotient,
        None if b == 0 => 0,
        // The lowest number by -1.
        None => i64::MAX,
    }
}

/// The square, saturating.
pub(crate) fn square(number: i64) -> u64 {
    let size = number.unsigned_abs();
    size.saturating_mul(size)
}

/// The whole part of a square root. One bit after the other is small, and soon
/// enough for a few times a sample; the core library's own is ten times the
/// code.
#[cfg_attr(target_pointer_width = "32", inline(never))]
pub(crate) fn root(square: u64) -> u32 {
    (0..u32::BITS).rev().fold(0, |root, bit| {
        let larger = root | 1 << bit;
        // 32 bits by 32 are at most 64.
        if u64::from(larger).wrapping_mul(u64::from(larger)) <= square {
            larger
        } else {
            root
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_are_those_of_the_core_library() {
        for base in [
            0,
            1,
            2,
            3,
            99,
            65_535,
            65_536,
            20_028_310,
            u64::from(u32::MAX),
        ] {
            for square in [
                (base * base).saturating_sub(1),
                base * base,
                base * base + base,
            ] {
                assert_eq!(u64::from(root(square)), square.isqrt(), "{square}");
            }
        }
        assert_eq!(root(u64::MAX), u32::MAX);
    }

    #[test]
    fn nothing_overflows() {
        assert_eq!(quotient(7, 0), 0);
        assert_eq!(quotient(i64::MIN, -1), i64::MAX);
        assert_eq!(quotient(-7, 2), -3);
        assert_eq!(square(i64::MIN), u64::MAX);
    }
}
