//! Products of whole numbers.

/// The product, saturating at the ends of the range. Called and never written
/// out in place: on a processor of 32 bits one takes fifty bytes.
#[cfg_attr(target_pointer_width = "32", inline(never))]
pub(super) const fn product(a: i64, b: i64) -> i64 {
    a.saturating_mul(b)
}
