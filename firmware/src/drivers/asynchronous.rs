//! The same interfaces for async buses.
//!
//! The bus is awaited and nothing else: a call still does what can be done at
//! once, time is passed in, and when to call again is the caller's to decide
//! (by a timer, or by awaiting the converter's ready pin). The decoding and the
//! watching are the blocking drivers' own.

use core::future::Future;

use crate::sensor::{BridgeFault, Counts, ProbeFault, ProbeSample};

/// A converter that reads the load cell's bridge, on an async bus.
pub trait Bridge {
    /// As [`Bridge::poll`](super::Bridge::poll).
    ///
    /// # Errors
    ///
    /// As there. If the future is dropped before it is done, the next call may
    /// find the chip out of step and restart it.
    fn poll(&mut self, now_micros: u64) -> impl Future<Output = nb::Result<Counts, BridgeFault>>;
}

/// A converter that reads the temperature probe, on an async bus.
pub trait Probe {
    /// As [`Probe::poll`](super::Probe::poll).
    ///
    /// # Errors
    ///
    /// As there.
    fn poll(
        &mut self,
        now_micros: u64,
    ) -> impl Future<Output = nb::Result<ProbeSample, ProbeFault>>;
}
