//! Models of the two converters, as the pins and the bus see them.
//!
//! One [`Chips`] holds both converters and the simulated clock. The pins, the
//! bus and the delay are handles on it; a handle needs only something that
//! dereferences to `Chips`: a plain reference on a target, an `Rc` on a host.
//!
//! ```
//! use embedded_hal::digital::{InputPin, OutputPin};
//! use evenhand_simulator::chips::Chips;
//!
//! let chips = Chips::default();
//! let (mut data, mut clock) = (chips.bridge_data(), chips.bridge_clock());
//! clock.set_low()?;
//! assert!(data.is_high()?); // nothing is converted yet
//! chips.bridge.schedule(12_500_000, 1234);
//! chips.clock.set_nanos(12_500_000);
//! assert!(data.is_low()?);
//! # Ok::<(), evenhand_simulator::chips::PinFailure>(())
//! ```

mod clock;
mod hx711;
mod max31855;

pub use clock::{ModelClock, ModelDelay};
pub use hx711::{BridgeClock, BridgeCounters, BridgeData, BridgeTrouble, Hx711};
pub use max31855::{Max31855, ProbeBus, ProbeTrouble, ProbeWord};

use core::ops::Deref;

/// How long a pin takes to change, so that even a driver that never waits
/// takes some time: about what a 100 MHz microcontroller needs.
const PIN_NANOS: u64 = 50;

/// Both converters and the clock that they live by. For one thread.
#[derive(Debug, Default)]
pub struct Chips {
    /// The simulated time.
    pub clock: ModelClock,
    /// The bridge converter.
    pub bridge: Hx711,
    /// The thermocouple converter.
    pub probe: Max31855,
}

impl Chips {
    /// The bridge converter's data output, an input pin to its driver.
    pub const fn bridge_data(&self) -> BridgeData<&Self> {
        BridgeData::new(self)
    }

    /// The bridge converter's clock input, an output pin to its driver.
    pub const fn bridge_clock(&self) -> BridgeClock<&Self> {
        BridgeClock::new(self)
    }

    /// The thermocouple converter's bus.
    pub const fn probe_bus(&self) -> ProbeBus<&Self> {
        ProbeBus::new(self)
    }

    /// A delay that moves the simulated time on.
    pub const fn delay(&self) -> ModelDelay<&Self> {
        ModelDelay::new(self)
    }
}

/// Whatever leads to the chips: `&Chips`, `Rc<Chips>`.
pub trait Handle: Deref<Target = Chips> {}

impl<H: Deref<Target = Chips>> Handle for H {}

/// A pin or the bus failed, as asked for by a trouble.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PinFailure;

impl core::fmt::Display for PinFailure {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("the simulated pin or bus failed, as it was told to")
    }
}

impl core::error::Error for PinFailure {}

impl embedded_hal::digital::Error for PinFailure {
    fn kind(&self) -> embedded_hal::digital::ErrorKind {
        embedded_hal::digital::ErrorKind::Other
    }
}

impl embedded_hal::spi::Error for PinFailure {
    fn kind(&self) -> embedded_hal::spi::ErrorKind {
        embedded_hal::spi::ErrorKind::Other
    }
}
