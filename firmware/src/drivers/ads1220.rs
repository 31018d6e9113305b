//! The ADS1220: a 24-bit precision converter on SPI that gives a thermocouple's
//! raw voltage, with a thermometer of its own for the cold junction.
//!
//! Source: data sheet "ADS1220", Texas Instruments SBAS501C. Section 8.6,
//! configuration register 0 (read, in the sheet of its 16-bit sister), the other
//! registers' bits from a public register listing; section 8.5.3 (commands),
//! 8.3.13 (thermometer: 14 bits, 0.03125 °C, 50 °C is 0x0640 and −25 °C is
//! 0x3CE0), 8.3.10 (10 µA burn-out currents) and 8.5.2 (data format) from memory.
//!
//! The thermocouple is between AIN0 (plus) and AIN1 (minus), biased to the
//! middle of the supply; the reference is the chip's own 2.048 V, at 20
//! conversions a second, where 50 and 60 Hz are both rejected.
//!
//! - **Cycle**: the thermometer, then the thermocouple, one conversion each,
//!   started one by one; and at the start and once in a while the thermocouple
//!   with the burn-out currents on, which drive an open circuit to the end of the
//!   range. While it is open nothing is measured. Shorts it cannot see.
//! - **Step**: what was configured is read back after every conversion, before
//!   its value is believed, so a chip that was reset, or a data line that came
//!   loose, does not go unnoticed.
//! - **Time**: data-ready has a pin of its own, which is not needed here: a
//!   conversion takes 50 ms, and is read after 65.

use embedded_hal::spi::{Operation, SpiDevice};
use evenhand_protocol::Temperature;

use super::Probe;
use super::watch::{rail, sign_extended};
use crate::sensor::{ProbeFault, ProbeSample};
use crate::thermocouple::{Emf, Kind};

const RESET: u8 = 0x06;
const START: u8 = 0x08;
const READ_DATA: u8 = 0x10;
/// Read all four registers from the first on.
const READ_REGISTERS: u8 = 0x23;
/// Write all four registers from the first on.
const WRITE_REGISTERS: u8 = 0x43;

/// Register 1: the thermometer instead of the inputs.
const THERMOMETER: u8 = 1 << 1;
/// Register 1: burn-out currents on.
const BURN_OUT: u8 = 1 << 0;
/// Register 2: the chip's own reference, 50 and 60 Hz rejected.
const REFERENCE_AND_FILTER: u8 = 0x10;

/// The chip's own reference in nanovolts.
const REFERENCE_NANOVOLTS: i64 = 2_048_000_000;
/// The thermometer's resolution: so many codes a degree.
const CODES_A_DEGREE: i32 = 32;
/// Where the chip works, and so its cold junction.
const COLD_MILLICELSIUS: core::ops::RangeInclusive<i32> = -40_000..=125_000;

/// After a reset, before the first command (some 50 us).
const RESET_MICROS: u64 = 1_000;
/// From the start of a conversion until it is read.
const CONVERSION_MICROS: u64 = 65_000;
/// After a failure, before the chip is tried again.
const RETRY_MICROS: u64 = 100_000;
/// The open-circuit check comes after so many measurements.
const CYCLES_A_CHECK: u8 = 8;

/// The amplifier's gain code for a type: the largest gain whose range holds all
/// that the type can give (±128 mV, ±64 mV or ±32 mV).
const fn gain_code(kind: Kind) -> u8 {
    match kind {
        Kind::J | Kind::E => 4,
        Kind::K | Kind::N => 5,
        Kind::T | Kind::S | Kind::R | Kind::B => 6,
    }
}

/// What is converted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Target {
    Cold,
    Thermocouple,
    OpenCheck,
}

/// What is done next on the bus, or waited for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    Reset,
    Configure(Target),
    Start(Target),
    Read(Target),
    /// With the code that was read.
    Confirm(Target, i32),
}

/// One exchange on the bus: bytes to send, then a number of bytes to receive.
#[derive(Debug, Clone, Copy)]
struct Exchange {
    send: [u8; 5],
    sent: usize,
    received: usize,
}

impl Exchange {
    const fn command(command: u8, received: usize) -> Self {
        Self {
            send: [command, 0, 0, 0, 0],
            sent: 1,
            received,
        }
    }
}

/// The chip, apart from the bus.
#[derive(Debug)]
struct Chip {
    kind: Kind,
    state: State,
    /// Nothing is done on the bus before this.
    not_before: u64,
    /// The last call, to notice a clock that steps back.
    seen: u64,
    cold: Option<Temperature>,
    /// The last check found the circuit open.
    open: bool,
    /// The last voltage was at an end of the range.
    at_end: bool,
    /// Measurements since the last check for an open circuit.
    cycles: u8,
}

impl Chip {
    const fn registers(&self, target: Target) -> [u8; 4] {
        let mode = match target {
            Target::Cold => THERMOMETER,
            Target::Thermocouple => 0,
            Target::OpenCheck => BURN_OUT,
        };
        [gain_code(self.kind) << 1, mode, REFERENCE_AND_FILTER, 0]
    }

    /// What to do on the bus now, if anything.
    fn next(&mut self, now: u64) -> Option<Exchange> {
        if now < self.seen {
            self.not_before = now.saturating_add(CONVERSION_MICROS);
        }
        self.seen = now;
        if now < self.not_before {
            return None;
        }
        Some(match self.state {
            State::Reset => Exchange::command(RESET, 0),
            State::Configure(target) => {
                let [a, b, c, d] = self.registers(target);
                Exchange {
                    send: [WRITE_REGISTERS, a, b, c, d],
                    sent: 5,
                    received: 0,
                }
            }
            State::Confirm(..) => Exchange::command(READ_REGISTERS, 4),
            State::Start(_) => Exchange::command(START, 0),
            State::Read(_) => Exchange::command(READ_DATA, 3),
        })
    }

    fn restart(&mut self, now: u64) -> ProbeFault {
        self.state = State::Reset;
        self.cold = None;
        self.not_before = now.saturating_add(RETRY_MICROS);
        ProbeFault::Silent
    }

    /// The exchange has been done and brought this.
    fn done(&mut self, now: u64, answer: [u8; 4]) -> nb::Result<ProbeSample, ProbeFault> {
        match self.state {
            State::Reset => {
                self.not_before = now.saturating_add(RESET_MICROS);
                self.state = State::Configure(Target::OpenCheck);
            }
            State::Configure(target) => self.state = State::Start(target),
            State::Start(target) => {
                self.not_before = now.saturating_add(CONVERSION_MICROS);
                self.state = State::Read(target);
            }
            State::Read(target) => {
                let [high, middle, low, _] = answer;
                let code = sign_extended(u32::from_be_bytes([0, high, middle, low]));
                self.state = State::Confirm(target, code);
            }
            State::Confirm(target, code) if answer == self.registers(target) => {
                return self.converted(now, target, code);
            }
            State::Confirm(..) => return Err(nb::Error::Other(self.restart(now))),
        }
        Err(nb::Error::WouldBlock)
    }

    fn converted(
        &mut self,
        now: u64,
        target: Target,
        code: i32,
    ) -> nb::Result<ProbeSample, ProbeFault> {
        match target {
            Target::Cold => {
                // 14 bits, at the upper end of the 24.
                let codes = code >> 10;
                let cold = Temperature::from_millicelsius(
                    (codes * 1_000 + CODES_A_DEGREE / 2).div_euclid(CODES_A_DEGREE),
                );
                if !COLD_MILLICELSIUS.contains(&cold.millicelsius()) {
                    return Err(nb::Error::Other(self.restart(now)));
                }
                self.cold = Some(cold);
                self.state = State::Configure(if self.open {
                    Target::OpenCheck
                } else {
                    Target::Thermocouple
                });
                Err(nb::Error::WouldBlock)
            }
            Target::Thermocouple => {
                self.at_end = rail(code).is_some();
                self.cycles += 1;
                let check = self.at_end || self.cycles >= CYCLES_A_CHECK;
                self.state = State::Configure(if check {
                    Target::OpenCheck
                } else {
                    Target::Cold
                });
                match self.cold {
                    // Whether it is open is for the check to say.
                    Some(cold) if !self.at_end => {
                        Ok(self.sample(code, cold).map_err(nb::Error::Other)?)
                    }
                    _ => Err(nb::Error::WouldBlock),
                }
            }
            Target::OpenCheck => {
                self.cycles = 0;
                self.open = rail(code).is_some();
                self.state = State::Configure(Target::Cold);
                let at_end = core::mem::take(&mut self.at_end);
                if self.open {
                    Err(nb::Error::Other(ProbeFault::Open))
                } else if at_end {
                    Err(nb::Error::Other(ProbeFault::OutOfRange))
                } else {
                    Err(nb::Error::WouldBlock)
                }
            }
        }
    }

    fn sample(&self, code: i32, cold: Temperature) -> Result<ProbeSample, ProbeFault> {
        // Full scale is the reference over the gain, at 2^23.
        let divisor = 1_i64 << (23 + gain_code(self.kind));
        let nanovolts = (i64::from(code) * REFERENCE_NANOVOLTS + divisor / 2).div_euclid(divisor);
        self.kind
            .hot_junction(Emf::from_nanovolts(nanovolts), cold)
            .map(|hot| ProbeSample { hot, cold })
            .map_err(|_| ProbeFault::OutOfRange)
    }
}

/// The driver, on a blocking or an async SPI bus in mode 1.
#[derive(Debug)]
pub struct Ads1220<S> {
    spi: S,
    chip: Chip,
}

impl<S> Ads1220<S> {
    /// A driver for the chip with a type of thermocouple. Does not touch the
    /// bus: the first calls of [`Probe::poll`] reset and configure the chip.
    pub const fn new(spi: S, kind: Kind) -> Self {
        Self {
            spi,
            chip: Chip {
                kind,
                state: State::Reset,
                not_before: 0,
                seen: 0,
                cold: None,
                open: false,
                at_end: false,
                cycles: 0,
            },
        }
    }

    /// The bus, given back.
    pub fn release(self) -> S {
        self.spi
    }
}

impl<S: SpiDevice> Probe for Ads1220<S> {
    fn poll(&mut self, now_micros: u64) -> nb::Result<ProbeSample, ProbeFault> {
        let Some(exchange) = self.chip.next(now_micros) else {
            return Err(nb::Error::WouldBlock);
        };
        let mut answer = [0; 4];
        let done = self.spi.transaction(&mut [
            Operation::Write(&exchange.send[..exchange.sent]),
            Operation::Read(&mut answer[..exchange.received]),
        ]);
        match done {
            Ok(()) => self.chip.done(now_micros, answer),
            Err(_) => Err(nb::Error::Other(self.chip.restart(now_micros))),
        }
    }
}

#[cfg(feature = "async")]
impl<S: embedded_hal_async::spi::SpiDevice> super::asynchronous::Probe for Ads1220<S> {
    async fn poll(&mut self, now_micros: u64) -> nb::Result<ProbeSample, ProbeFault> {
        let Some(exchange) = self.chip.next(now_micros) else {
            return Err(nb::Error::WouldBlock);
        };
        let mut answer = [0; 4];
        let done = self
            .spi
            .transaction(&mut [
                Operation::Write(&exchange.send[..exchange.sent]),
                Operation::Read(&mut answer[..exchange.received]),
            ])
            .await;
        match done {
            Ok(()) => self.chip.done(now_micros, answer),
            Err(_) => Err(nb::Error::Other(self.chip.restart(now_micros))),
        }
    }
}
