//! Simulated time.

use super::Handle;
use core::cell::Cell;
use embedded_hal::delay::DelayNs;

/// Nanoseconds since the instrument started. Only ever moves forward.
#[derive(Debug, Default)]
pub struct ModelClock {
    nanos: Cell<u64>,
}

impl ModelClock {
    /// Nanoseconds since the start.
    #[must_use]
    pub fn nanos(&self) -> u64 {
        self.nanos.get()
    }

    /// Whole microseconds since the start.
    #[must_use]
    pub fn micros(&self) -> u64 {
        self.nanos.get() / 1_000
    }

    /// Goes to a time; one that has passed already changes nothing.
    pub fn set_nanos(&self, nanos: u64) {
        self.nanos.set(self.nanos.get().max(nanos));
    }

    /// Goes to a time in microseconds; one that has passed already changes
    /// nothing.
    pub fn set_micros(&self, micros: u64) {
        self.set_nanos(micros.saturating_mul(1_000));
    }

    /// Lets so many nanoseconds pass.
    pub fn pass_nanos(&self, nanos: u64) {
        self.nanos.set(self.nanos.get().saturating_add(nanos));
    }
}

/// A delay that lets simulated time pass instead of waiting.
#[derive(Debug, Clone)]
pub struct ModelDelay<H>(H);

impl<H: Handle> ModelDelay<H> {
    /// A delay on these chips' clock.
    pub const fn new(chips: H) -> Self {
        Self(chips)
    }
}

impl<H: Handle> DelayNs for ModelDelay<H> {
    fn delay_ns(&mut self, ns: u32) {
        self.0.clock.pass_nanos(u64::from(ns));
    }
}
