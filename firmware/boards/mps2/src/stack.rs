//! The stack: how much of it has ever been used, and a guard below it.
//!
//! The start-up code paints all of it (`paint-stack` of cortex-m-rt); what is
//! no longer painted has been used.

use core::ptr::{addr_of, read_volatile};
use cortex_m::peripheral::MPU;
use cortex_m_rt::STACK_PAINT_VALUE;

unsafe extern "C" {
    // From the linker script of cortex-m-rt: the two ends of the stack. It
    // grows down from the first to the second.
    static _stack_start: u32;
    static _stack_end: u32;
}

/// Bytes of the guard: the least that the protection unit can guard, twice, so
/// that one is whole whatever the alignment.
const GUARD: usize = 32;

fn lowest() -> usize {
    addr_of!(_stack_end).expose_provenance()
}

/// Bytes that the stack may take in all.
pub fn size() -> usize {
    addr_of!(_stack_start)
        .expose_provenance()
        .saturating_sub(lowest())
}

/// The most bytes of it that were in use at once, so far.
pub fn used() -> usize {
    let words = size() / size_of::<u32>();
    // The guard cannot be read, and has not been used: that would be a fault.
    let guarded = guard_at().saturating_add(GUARD).saturating_sub(lowest());
    let mut place = guarded / size_of::<u32>();
    while place < words
        // SAFETY: the place lies between the ends of the stack, is a word,
        // and is aligned as the linker script aligns the ends. A part in
        // use is read as bits only, once, and ends the search.
        && unsafe { read_volatile(addr_of!(_stack_end).wrapping_add(place)) == STACK_PAINT_VALUE }
    {
        place = place.saturating_add(1);
    }
    words.saturating_sub(place).saturating_mul(size_of::<u32>())
}

/// The first address above the stack's lower end that the protection unit can
/// guard.
fn guard_at() -> usize {
    // A power of two.
    lowest().saturating_add(GUARD - 1) & !(GUARD - 1)
}

/// Makes the lowest bytes of the stack forbidden ground, so that running over
/// its end is a fault at once and not a slow corruption of what lies below.
pub fn guard(mpu: MPU) {
    // Armv7-M Architecture Reference Manual (DDI 0403), B3.5: region 0, 32
    // bytes (a size field of 4), no access, never executed, enabled.
    const NO_EXECUTION: u32 = 1 << 28;
    const SIZE_32: u32 = 4 << 1;
    const ENABLE: u32 = 1;
    // The default memory map for everything else.
    const PRIVILEGED_DEFAULT: u32 = 1 << 2;
    let base = u32::try_from(guard_at()).unwrap_or_default();
    // SAFETY: no access is taken away but to the end of the stack, which is
    // not in use here, at the start of the program.
    unsafe {
        mpu.rnr.write(0);
        mpu.rbar.write(base);
        mpu.rasr.write(NO_EXECUTION | SIZE_32 | ENABLE);
        mpu.ctrl.write(PRIVILEGED_DEFAULT | ENABLE);
    }
    cortex_m::asm::dsb();
    cortex_m::asm::isb();
}
