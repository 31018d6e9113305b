//! Something that may panic, so that `scripts/target-panics` can show that it
//! sees what may. In no image that runs.

use core::hint::black_box;

/// Calls what may panic.
pub fn sing() {
    black_box(canary(black_box(&[1, 2, 3]), black_box(0)));
}

/// Reads a place that may not be there, and adds what may not fit.
// SAFETY: no other symbol has this name.
#[unsafe(export_name = "evenhand_canary")]
#[inline(never)]
fn canary(bytes: &[u8], place: usize) -> u8 {
    bytes[place] + 1
}
