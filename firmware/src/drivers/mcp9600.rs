//! The MCP9600: a thermocouple converter on I2C that linearises.
//!
//! Source: data sheet "MCP9600, Thermocouple EMF to Temperature Converter",
//! Microchip DS20005426C: page 5 (addresses 1100 000 to 1100 111, -40 to 125 °C),
//! page 17 (Fig. 4-3, a stop between the register pointer and the read; clock
//! stretching), pages 24 to 26 (registers of the hot junction, of the
//! difference and of the cold junction), page 28 (status), page 35 (device
//! identity), read. The codes of the thermocouple types and the device's
//! configuration bits are from public register listings; the bits that the
//! MCP9601 adds to the status, and 320 ms a conversion, from memory.
//!
//! The chip turns the measured voltage into a temperature difference by the
//! reference function's inverse, and then *adds the cold junction's temperature*
//! (page 24: `TH` is the sum of `TΔ` and `TC`). That is wrong wherever the
//! reference function bends: in a room of 25 °C by 0.9 °C for a type K at
//! 100 °C and by 3.4 °C for a type T. So the voltage is recovered from the difference by the reference
//! function, and the cold junction is added in voltage
//! ([`crate::thermocouple`]).
//!
//! The sum that the chip makes is good for something all the same: it is
//! computed again here, and where it does not fit the answer is dropped. Reads
//! that came back as something else than the register are a known ill of slow
//! or stretched clocks.
//!
//! The MCP9600 does not look for an open or shorted probe; an open one gives any
//! figure at all, or one out of range. The MCP9601 does.

use core::ops::ControlFlow;
use embedded_hal::i2c::I2c;
use evenhand_protocol::Temperature;

use super::Probe;
#[cfg(feature = "async")]
use super::registers::drive_async;
use super::registers::{Action, Flow, Logic, drive, fault, later};
use crate::sensor::{ProbeFault, ProbeSample};
use crate::thermocouple::Kind;

/// The difference between the junctions, after TΔ in the data sheet.
const DIFFERENCE: u8 = 0x01;
/// The hot junction as the chip adds it up, TH.
const HOT: u8 = 0x00;
/// The cold junction, TC.
const COLD: u8 = 0x02;
const STATUS: u8 = 0x04;
const SENSOR: u8 = 0x05;
const DEVICE: u8 = 0x06;
const IDENTITY: u8 = 0x20;

/// STATUS: a conversion is complete; cleared by writing.
const UPDATE: u8 = 1 << 6;
/// STATUS of the MCP9601: shorted.
const SHORT: u8 = 1 << 5;
/// STATUS: out of the type's range; on the MCP9601 also open.
const RANGE: u8 = 1 << 4;
/// DEVICE: cold junction in sixteenths of a degree, 18 bits, no burst, running.
const RUNNING: u8 = 0;

/// Page 35: the identity of the MCP9600.
const MCP9600: u8 = 0x40;
/// The identity of the MCP9601 (from memory).
const MCP9601: u8 = 0x41;

/// Page 5: the range in which the chip works, so that of its cold junction.
const COLD_MILLICELSIUS: core::ops::RangeInclusive<i32> = -40_000..=125_000;
/// How far the chip's own sum may be from ours, in sixteenths of a degree: a new
/// cold junction between two reads, not more.
const SUM_SIXTEENTHS: i32 = 4;

/// Between two looks at the status: a conversion takes 320 ms.
const BETWEEN_LOOKS_MICROS: u64 = 20_000;
/// After a failure, before the chip is looked for again: a chip that is not
/// there should not keep the bus busy.
const RETRY_MICROS: u64 = 100_000;
/// No conversion for so long, and the chip is taken for dead.
const TIMEOUT_MICROS: u64 = 1_500_000;

/// An address that the chip's address pin can choose: 0x60 to 0x67.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Address(u8);

impl Address {
    /// The address pin at ground.
    pub const GROUND: Self = Self(0x60);
    /// The address pin at the supply.
    pub const SUPPLY: Self = Self(0x67);

    /// An address from 0x60 to 0x67; `None` for any other.
    #[must_use]
    pub const fn new(address: u8) -> Option<Self> {
        match address {
            0x60..=0x67 => Some(Self(address)),
            _ => None,
        }
    }
}

/// The code of a type of thermocouple in the sensor's configuration.
const fn code(kind: Kind) -> u8 {
    match kind {
        Kind::K => 0,
        Kind::J => 1,
        Kind::T => 2,
        Kind::N => 3,
        Kind::S => 4,
        Kind::E => 5,
        Kind::B => 6,
        Kind::R => 7,
    }
}

/// What is done next on the bus, or waited for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    Identify,
    Configure,
    Run,
    Check,
    ClearUpdate,
    AwaitUpdate,
    ReadDifference,
    /// With the difference, in sixteenths of a degree.
    ReadCold(i16),
    /// With the difference and the cold junction.
    ReadHot(i16, i16),
}

/// The chip, apart from the bus.
#[derive(Debug)]
struct Chip {
    kind: Kind,
    state: State,
    /// Whether it is one that looks for open and shorted probes.
    watches_circuit: bool,
    /// Since when a conversion is waited for.
    since: u64,
    /// The last look at the status.
    looked: u64,
    /// After a failure the chip is left alone until then.
    retry_at: u64,
    /// The last call, to notice a clock that steps back.
    seen: u64,
}

impl Chip {
    const fn go(&mut self, state: State) -> Flow<ProbeSample, ProbeFault> {
        self.state = state;
        ControlFlow::Continue(())
    }

    /// Starts again, after a while.
    const fn restart(&mut self, now: u64) -> Flow<ProbeSample, ProbeFault> {
        self.state = State::Identify;
        self.retry_at = now.saturating_add(RETRY_MICROS);
        fault(ProbeFault::Silent)
    }

    /// The configuration of the sensor: its type, and no filter.
    const fn sensor(&self) -> u8 {
        code(self.kind) << 4
    }

    fn status(&mut self, now: u64, status: u8) -> Flow<ProbeSample, ProbeFault> {
        self.looked = now;
        if self.watches_circuit && status & SHORT != 0 {
            self.state = State::ClearUpdate;
            return fault(ProbeFault::ShortToGround);
        }
        if status & RANGE != 0 {
            self.state = State::ClearUpdate;
            return fault(if self.watches_circuit {
                ProbeFault::Open
            } else {
                ProbeFault::OutOfRange
            });
        }
        if status & UPDATE != 0 {
            return self.go(State::ReadDifference);
        }
        if now - self.since > TIMEOUT_MICROS {
            return self.restart(now);
        }
        later()
    }

    /// The measurement, from registers in sixteenths of a degree.
    fn measure(&self, difference: i16, cold: i16, hot: i16) -> Result<ProbeSample, ProbeFault> {
        let sum = i32::from(difference) + i32::from(cold);
        if (sum - i32::from(hot)).abs() > SUM_SIXTEENTHS {
            return Err(ProbeFault::Silent);
        }
        let cold = celsius(cold);
        if !COLD_MILLICELSIUS.contains(&cold.millicelsius()) {
            return Err(ProbeFault::Silent);
        }
        let measured = self
            .kind
            .emf(celsius(difference))
            .ok_or(ProbeFault::OutOfRange)?;
        self.kind
            .hot_junction(measured, cold)
            .map(|hot| ProbeSample { hot, cold })
            .map_err(|_| ProbeFault::OutOfRange)
    }
}

/// A temperature in sixteenths of a degree.
fn celsius(sixteenths: i16) -> Temperature {
    Temperature::from_millicelsius((i32::from(sixteenths) * 1_000 + 8).div_euclid(16))
}

impl Logic for Chip {
    type Output = ProbeSample;
    type Fault = ProbeFault;
    const STOP_BEFORE_READ: bool = true;

    fn next(&mut self, now: u64) -> Action {
        if now < self.seen {
            self.since = now;
            self.looked = now;
            self.retry_at = now;
        }
        self.seen = now;
        let write = |register, value| Action::Write { register, value };
        let read = |register, length| Action::Read { register, length };
        match self.state {
            State::Identify if now < self.retry_at => Action::Wait,
            State::Identify => read(IDENTITY, 2),
            State::Configure => write(SENSOR, self.sensor()),
            State::Run => write(DEVICE, RUNNING),
            State::Check => read(SENSOR, 1),
            State::ClearUpdate => write(STATUS, 0),
            State::AwaitUpdate if now - self.looked < BETWEEN_LOOKS_MICROS => Action::Wait,
            State::AwaitUpdate => read(STATUS, 1),
            State::ReadDifference => read(DIFFERENCE, 2),
            State::ReadCold(_) => read(COLD, 2),
            State::ReadHot(..) => read(HOT, 2),
        }
    }

    fn done(&mut self, now: u64, answer: &[u8]) -> Flow<ProbeSample, ProbeFault> {
        let byte = answer.first().copied().unwrap_or_default();
        let word = i16::from_be_bytes([byte, answer.get(1).copied().unwrap_or_default()]);
        match self.state {
            State::Identify => match byte {
                MCP9600 | MCP9601 => {
                    self.watches_circuit = byte == MCP9601;
                    self.go(State::Configure)
                }
                // Something else answers at this address.
                _ => self.restart(now),
            },
            State::Configure => self.go(State::Run),
            State::Run => self.go(State::Check),
            State::Check if byte == self.sensor() => {
                self.state = State::ClearUpdate;
                later()
            }
            State::Check => self.restart(now),
            State::ClearUpdate => {
                self.state = State::AwaitUpdate;
                self.since = now;
                self.looked = now;
                later()
            }
            State::AwaitUpdate => self.status(now, byte),
            State::ReadDifference => self.go(State::ReadCold(word)),
            State::ReadCold(difference) => self.go(State::ReadHot(difference, word)),
            State::ReadHot(difference, cold) => {
                self.state = State::ClearUpdate;
                ControlFlow::Break(
                    self.measure(difference, cold, word)
                        .map_err(nb::Error::Other),
                )
            }
        }
    }

    fn failed(&mut self, now: u64) -> ProbeFault {
        let _ = self.restart(now);
        ProbeFault::Silent
    }
}

/// The driver, on a blocking or an async I2C bus of at most 100 kHz that can
/// bear a stretched clock.
#[derive(Debug)]
pub struct Mcp9600<I> {
    bus: I,
    address: Address,
    chip: Chip,
}

impl<I> Mcp9600<I> {
    /// A driver for the chip with a type of thermocouple. Does not touch the
    /// bus: the first calls of [`Probe::poll`] find and configure the chip.
    pub const fn new(bus: I, address: Address, kind: Kind) -> Self {
        Self {
            bus,
            address,
            chip: Chip {
                kind,
                state: State::Identify,
                watches_circuit: false,
                since: 0,
                looked: 0,
                retry_at: 0,
                seen: 0,
            },
        }
    }

    /// The bus, given back.
    pub fn release(self) -> I {
        self.bus
    }
}

impl<I: I2c> Probe for Mcp9600<I> {
    fn poll(&mut self, now_micros: u64) -> nb::Result<ProbeSample, ProbeFault> {
        drive(&mut self.chip, &mut self.bus, self.address.0, now_micros)
    }
}

#[cfg(feature = "async")]
impl<I: embedded_hal_async::i2c::I2c> super::asynchronous::Probe for Mcp9600<I> {
    async fn poll(&mut self, now_micros: u64) -> nb::Result<ProbeSample, ProbeFault> {
        drive_async(&mut self.chip, &mut self.bus, self.address.0, now_micros).await
    }
}
