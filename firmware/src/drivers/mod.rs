//! The converters, over embedded-hal 1.0.
//!
//! Every driver is polled: a call does what can be done at once and returns.
//! Time is passed in as microseconds since the start on a clock that does not
//! step; nothing here reads a clock or waits for a conversion.
//!
//! | chip | bus | gives |
//! |---|---|---|
//! | [`hx711`] | two pins, clocked by hand | bridge counts |
//! | [`nau7802`] | I2C | bridge counts |
//! | [`max31855`] | SPI | a thermocouple that the chip takes for a straight line |
//! | [`ads1220`] | SPI | a thermocouple's raw voltage |
//! | [`mcp9600`] | I2C | a thermocouple that the chip linearises |
//!
//! Each thermocouple's temperature is worked out here from its voltage, by
//! [`crate::thermocouple`]. With the feature `async` each driver also works on
//! an async bus: see `asynchronous`.

pub mod ads1220;
#[cfg(feature = "async")]
pub mod asynchronous;
pub mod hx711;
pub mod max31855;
pub mod mcp9600;
pub mod nau7802;
mod registers;
mod schedule;
mod watch;

pub use watch::Tally;

use nb::Result;

use crate::sensor::{BridgeFault, Counts, ProbeFault, ProbeSample};
use crate::thermocouple::Kind;
use evenhand_protocol::Temperature;

/// A converter that reads the load cell's bridge.
pub trait Bridge {
    /// Does what can be done at `now_micros`, and gives the newest conversion
    /// if there is one.
    ///
    /// Call it several times a conversion (at least four): a driver can vouch
    /// for a conversion only when it knows well enough when it began. A value
    /// may come one call after it was read, once it is known to be whole.
    ///
    /// # Errors
    ///
    /// `WouldBlock` where there is nothing new: call again. Otherwise the
    /// fault. A fault is told once for each time it is found and stands until
    /// a call gives counts again; the driver restarts its converter where that
    /// can help, so just go on calling.
    fn poll(&mut self, now_micros: u64) -> Result<Counts, BridgeFault>;

    /// Conversions a second, where the driver finds out by itself and has.
    fn rate(&self) -> Option<u16> {
        None
    }

    /// What has gone wrong so far.
    fn tally(&self) -> Tally {
        Tally::NONE
    }
}

/// A converter that reads the temperature probe.
pub trait Probe {
    /// Does what can be done at `now_micros`, and gives the newest measurement
    /// if there is one.
    ///
    /// # Errors
    ///
    /// `WouldBlock` where there is nothing new: call again. Otherwise the
    /// fault, which stands until a call gives a measurement again.
    fn poll(&mut self, now_micros: u64) -> Result<ProbeSample, ProbeFault>;

    /// Reads a thermocouple of this type from now on. Returns whether it can;
    /// where it cannot, nothing changes.
    fn set_kind(&mut self, kind: Kind) -> bool {
        let _ = kind;
        false
    }

    /// The temperature at the converter by its last answer, which it knows with
    /// a broken probe too. `None` where it is silent.
    fn cold_junction(&self) -> Option<Temperature> {
        None
    }
}
