//! The NAU7802: a 24-bit bridge converter on I2C.
//!
//! Source: data sheet "NAU7802, 24-Bit Dual-Channel ADC For Bridge Sensors",
//! Nuvoton, revision 1.7: page 14 (section 8.3.1, the bus and the address
//! 0101010), page 21 (section 8.6, calibration and `CAL_ERR`), read; section 9.1
//! (power-on sequence) and section 11 (register map, pages 28 on) by way of
//! public listings that quote them. From memory: the time that the regulator is
//! given, and the six conversions that are dropped.
//!
//! - **Power-on** (section 9.1): reset, power the digital part up, wait for
//!   power-up-ready, then configure; no conversion until "cycle start". Clock
//!   choppers off (`R0x15 = 0x30`), as that section says.
//! - **Calibration**: the internal offset calibration runs once after every
//!   start, since gain or rate may have changed (section 8.6).
//! - **Step**: what was configured is read back before the start, and the
//!   power-up register is checked with every conversion: a chip that has lost
//!   its supply comes back with other settings, and its values look plausible.
//! - **Overrun**: after the three bytes the ready bit is read again. If the next
//!   conversion ended in between, the bytes may belong to two values; they are
//!   dropped.

use core::ops::ControlFlow;
use embedded_hal::i2c::I2c;

use super::Bridge;
#[cfg(feature = "async")]
use super::registers::drive_async;
use super::registers::{Action, Flow, Logic, drive, fault, later};
use super::watch::{Stillness, Tally, rail, sign_extended};
use crate::sensor::{BridgeFault, Counts};

/// Page 14: the only address.
const ADDRESS: u8 = 0x2A;

const PU_CTRL: u8 = 0x00;
const CTRL1: u8 = 0x01;
const CTRL2: u8 = 0x02;
/// The newest conversion, three bytes, highest first.
const ADCO: u8 = 0x12;
const ADC_CTRL: u8 = 0x15;
const PGA: u8 = 0x1B;
const POWER: u8 = 0x1C;
const REVISION: u8 = 0x1F;

/// PU_CTRL: reset all registers.
const RR: u8 = 1 << 0;
/// PU_CTRL: power the digital part up.
const PUD: u8 = 1 << 1;
/// PU_CTRL: power the analog part up.
const PUA: u8 = 1 << 2;
/// PU_CTRL: powered up.
const PUR: u8 = 1 << 3;
/// PU_CTRL: start converting.
const CS: u8 = 1 << 4;
/// PU_CTRL: a conversion is there.
const CR: u8 = 1 << 5;
/// PU_CTRL: the analog supply is the chip's own regulator.
const AVDDS: u8 = 1 << 7;
/// CTRL2: calibrate, or calibrating.
const CALS: u8 = 1 << 2;
/// CTRL2: the calibration failed.
const CAL_ERR: u8 = 1 << 3;
/// ADC_CTRL: clock choppers off, the only setting that is not reserved.
const CHOPPERS_OFF: u8 = 0x30;
/// POWER: a capacitor on the second channel's pins steadies the first.
const PGA_CAPACITOR: u8 = 1 << 7;
/// REVISION: the lower four bits of every one of these chips.
const REVISION_NIBBLE: u8 = 0x0F;

/// Section 9.1: about 200 us until power-up-ready; more than this is a fault.
const POWER_UP_TIMEOUT_MICROS: u64 = 50_000;
/// The regulator and its capacitors settle (from memory: common practice).
const REGULATOR_MICROS: u64 = 250_000;
/// Conversions that a calibration may take at most.
const CALIBRATION_CONVERSIONS: u64 = 20;
/// Conversions that are dropped after a start (from memory: the data sheet
/// advises six after a reset).
const TO_DROP: u8 = 6;
/// After a failure, before the chip is started again: a chip that is not there
/// should not keep the bus busy.
const RETRY_MICROS: u64 = 100_000;
/// The number of the last setting.
const LAST_SETTING: u8 = 5;
/// So many doubtful reads without a good one between them, and the chip is
/// restarted.
const DOUBTS: u8 = 5;

/// The amplifier's gain: the discriminant is the register's code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[repr(u8)]
pub enum Gain {
    /// 1.
    X1 = 0,
    /// 2.
    X2 = 1,
    /// 4.
    X4 = 2,
    /// 8.
    X8 = 3,
    /// 16.
    X16 = 4,
    /// 32.
    X32 = 5,
    /// 64.
    X64 = 6,
    /// 128, for a load cell.
    #[default]
    X128 = 7,
}

/// Conversions a second: the discriminant is the register's code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[repr(u8)]
pub enum Rate {
    /// 10 a second.
    Hz10 = 0,
    /// 20 a second.
    Hz20 = 1,
    /// 40 a second.
    Hz40 = 2,
    /// 80 a second.
    #[default]
    Hz80 = 3,
    /// 320 a second.
    Hz320 = 7,
}

impl Rate {
    /// Nominal time of one conversion in microseconds.
    #[must_use]
    pub const fn conversion_micros(self) -> u64 {
        match self {
            Self::Hz10 => 100_000,
            Self::Hz20 => 50_000,
            Self::Hz40 => 25_000,
            Self::Hz80 => 12_500,
            Self::Hz320 => 3_125,
        }
    }
}

/// Where the analog part and the load cell get their supply. The regulator's
/// voltage must be at least 0.3 V under the digital supply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Supply {
    /// From the AVDD pin.
    External,
    /// The chip's regulator, 2.4 V.
    V2_4,
    /// 2.7 V.
    V2_7,
    /// 3.0 V, the highest for a digital supply of 3.3 V.
    #[default]
    V3_0,
    /// 3.3 V.
    V3_3,
    /// 3.6 V.
    V3_6,
    /// 3.9 V.
    V3_9,
    /// 4.2 V.
    V4_2,
    /// 4.5 V.
    V4_5,
}

impl Supply {
    /// The regulator's code in CTRL1; the chip's own default where it is off.
    const fn code(self) -> u8 {
        match self {
            Self::V2_4 => 7,
            Self::V2_7 => 6,
            Self::V3_0 => 5,
            Self::V3_3 => 4,
            Self::V3_6 => 3,
            Self::V3_9 => 2,
            Self::V4_2 => 1,
            Self::V4_5 | Self::External => 0,
        }
    }

    /// The bit in PU_CTRL that turns the regulator on.
    const fn switch(self) -> u8 {
        match self {
            Self::External => 0,
            _ => AVDDS,
        }
    }
}

/// How the converter is wired and watched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Config {
    /// The amplifier's gain.
    pub gain: Gain,
    /// Conversions a second.
    pub rate: Rate,
    /// The analog supply.
    pub supply: Supply,
    /// Whether a capacitor sits across the unused second channel's pins, which
    /// steadies the first.
    pub capacitor: bool,
    /// So many equal conversions in a row are a fault; 0 for never.
    pub frozen_after: u16,
}

impl Config {
    /// A load cell on a 3.3 V board: gain 128, 80 a second, 3.0 V.
    #[must_use]
    pub const fn load_cell() -> Self {
        Self {
            gain: Gain::X128,
            rate: Rate::Hz80,
            supply: Supply::V3_0,
            capacitor: true,
            frozen_after: 10,
        }
    }

    const fn ctrl1(&self) -> u8 {
        self.supply.code() << 3 | self.gain as u8
    }

    const fn ctrl2(&self) -> u8 {
        (self.rate as u8) << 4
    }

    const fn power(&self) -> u8 {
        if self.capacitor { PGA_CAPACITOR } else { 0 }
    }

    /// PU_CTRL while it converts, its read-only bits left out.
    const fn converting(&self) -> u8 {
        self.supply.switch() | CS | PUA | PUD
    }

    const fn timeout(&self) -> u64 {
        self.rate.conversion_micros() * 8
    }
}

impl Default for Config {
    fn default() -> Self {
        Self::load_cell()
    }
}

/// What is done next on the bus, or waited for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    Reset,
    PowerUp,
    AwaitPower,
    Identify,
    /// Write the setting with this number.
    Configure(u8),
    /// The regulator settles.
    Settle,
    /// Read back the setting with this number.
    Check(u8),
    Calibrate,
    AwaitCalibration,
    Start,
    AwaitData,
    ReadData,
    /// A value was read: is the ready bit still clear?
    Confirm(i32),
}

/// The chip, apart from the bus.
#[derive(Debug)]
struct Chip {
    config: Config,
    state: State,
    /// When the state was entered.
    since: u64,
    /// After a failure the chip is left alone until then.
    retry_at: u64,
    /// The last call, to notice a clock that steps back.
    seen: u64,
    to_drop: u8,
    doubts: u8,
    stillness: Stillness,
    tally: Tally,
}

impl Chip {
    const fn enter(&mut self, state: State, now: u64) {
        self.state = state;
        self.since = now;
    }

    /// Goes on to a state at once.
    const fn go(&mut self, state: State, now: u64) -> Flow<Counts, BridgeFault> {
        self.enter(state, now);
        ControlFlow::Continue(())
    }

    /// Starts again, after a while.
    const fn restart(&mut self, now: u64, why: BridgeFault) -> Flow<Counts, BridgeFault> {
        self.state = State::Reset;
        self.retry_at = now.saturating_add(RETRY_MICROS);
        self.tally.restarted();
        fault(why)
    }

    /// Stays in the state unless it has lasted too long.
    fn stay(&mut self, now: u64, at_most: u64) -> Flow<Counts, BridgeFault> {
        if now - self.since > at_most {
            self.restart(now, BridgeFault::Timeout)
        } else {
            later()
        }
    }

    /// The settings, in the order in which they are written and checked.
    const fn setting(&self, number: u8) -> Option<(u8, u8)> {
        match number {
            0 => Some((CTRL1, self.config.ctrl1())),
            1 => Some((CTRL2, self.config.ctrl2())),
            2 => Some((ADC_CTRL, CHOPPERS_OFF)),
            3 => Some((PGA, 0)),
            4 => Some((POWER, self.config.power())),
            5 => Some((PU_CTRL, self.config.supply.switch() | PUA | PUD)),
            _ => None,
        }
    }

    /// What the power-up register says while the chip should be converting.
    fn converting(&mut self, now: u64, power: u8) -> Flow<Counts, BridgeFault> {
        // Whether "cycle start" reads back as written is not said.
        if (power | CS) & !CR != self.config.converting() | PUR {
            return self.restart(now, BridgeFault::OutOfStep);
        }
        let ready = power & CR != 0;
        match self.state {
            State::Confirm(_) if ready => {
                self.tally.doubted();
                self.doubts += 1;
                self.enter(State::AwaitData, now);
                if self.doubts >= DOUBTS {
                    return self.restart(now, BridgeFault::OutOfStep);
                }
                later()
            }
            State::Confirm(value) => {
                self.enter(State::AwaitData, now);
                self.judge(now, value)
            }
            _ if ready => self.go(State::ReadData, now),
            _ => self.stay(now, self.config.timeout()),
        }
    }

    fn judge(&mut self, now: u64, value: i32) -> Flow<Counts, BridgeFault> {
        self.doubts = 0;
        if self.to_drop > 0 {
            self.to_drop -= 1;
            return later();
        }
        if let Some(rail) = rail(value) {
            return fault(rail);
        }
        match self.stillness.watch(value) {
            Ok(counts) => ControlFlow::Break(Ok(counts)),
            Err(still) => self.restart(now, still),
        }
    }
}

impl Logic for Chip {
    type Output = Counts;
    type Fault = BridgeFault;
    const STOP_BEFORE_READ: bool = false;

    fn next(&mut self, now: u64) -> Action {
        if now < self.seen {
            self.since = now;
            self.retry_at = now;
        }
        self.seen = now;
        let write = |register, value| Action::Write { register, value };
        let read = |register| Action::Read {
            register,
            length: 1,
        };
        match self.state {
            State::Reset if now < self.retry_at => Action::Wait,
            State::Reset => write(PU_CTRL, RR),
            State::PowerUp => write(PU_CTRL, PUD),
            State::AwaitPower | State::AwaitData | State::Confirm(_) => read(PU_CTRL),
            State::Identify => read(REVISION),
            State::Configure(number) => match self.setting(number) {
                Some((register, value)) => write(register, value),
                None => Action::Wait,
            },
            State::Settle if now - self.since < REGULATOR_MICROS => Action::Wait,
            State::Settle => {
                self.enter(State::Check(0), now);
                self.next(now)
            }
            State::Check(number) => match self.setting(number) {
                Some((register, _)) => read(register),
                None => Action::Wait,
            },
            State::Calibrate => write(CTRL2, self.config.ctrl2() | CALS),
            State::AwaitCalibration => read(CTRL2),
            State::Start => write(PU_CTRL, self.config.converting()),
            State::ReadData => Action::Read {
                register: ADCO,
                length: 3,
            },
        }
    }

    fn done(&mut self, now: u64, answer: &[u8]) -> Flow<Counts, BridgeFault> {
        let byte = answer.first().copied().unwrap_or_default();
        match self.state {
            State::Reset => self.go(State::PowerUp, now),
            State::PowerUp => {
                self.enter(State::AwaitPower, now);
                later()
            }
            State::AwaitPower if byte & PUR != 0 => self.go(State::Identify, now),
            State::AwaitPower => self.stay(now, POWER_UP_TIMEOUT_MICROS),
            State::Identify if byte & REVISION_NIBBLE == REVISION_NIBBLE => {
                self.go(State::Configure(0), now)
            }
            // Something else answers at this address.
            State::Identify => self.restart(now, BridgeFault::Bus),
            State::Configure(number) if self.setting(number + 1).is_some() => {
                self.go(State::Configure(number + 1), now)
            }
            State::Configure(_) => {
                self.enter(State::Settle, now);
                later()
            }
            State::Settle => later(),
            State::Check(number) => {
                let (_, expected) = self.setting(number).unwrap_or((0, byte));
                // Power-up-ready is the chip's own to set.
                let ignored = if number == LAST_SETTING { PUR | CR } else { 0 };
                if byte & !ignored != expected {
                    self.restart(now, BridgeFault::OutOfStep)
                } else if number == LAST_SETTING {
                    self.go(State::Calibrate, now)
                } else {
                    self.go(State::Check(number + 1), now)
                }
            }
            State::Calibrate => {
                self.enter(State::AwaitCalibration, now);
                later()
            }
            State::AwaitCalibration if byte & CALS != 0 => self.stay(
                now,
                self.config.rate.conversion_micros() * CALIBRATION_CONVERSIONS,
            ),
            // Page 21: what is in the calibration registers is not valid.
            State::AwaitCalibration if byte & CAL_ERR != 0 => {
                self.restart(now, BridgeFault::OutOfStep)
            }
            State::AwaitCalibration => self.go(State::Start, now),
            State::Start => {
                self.to_drop = TO_DROP;
                self.doubts = 0;
                self.enter(State::AwaitData, now);
                later()
            }
            State::AwaitData | State::Confirm(_) => self.converting(now, byte),
            State::ReadData => {
                let word = answer
                    .iter()
                    .fold(0, |word, byte| word << 8 | u32::from(*byte));
                self.go(State::Confirm(sign_extended(word)), now)
            }
        }
    }

    fn failed(&mut self, now: u64) -> BridgeFault {
        let _ = self.restart(now, BridgeFault::Bus);
        BridgeFault::Bus
    }
}

/// The driver, on a blocking or an async I2C bus of at most 400 kHz.
#[derive(Debug)]
pub struct Nau7802<I> {
    bus: I,
    chip: Chip,
}

impl<I> Nau7802<I> {
    /// A driver for the chip. Does not touch the bus: the first calls of
    /// [`Bridge::poll`] reset and configure the chip, which takes some 350 ms.
    pub const fn new(bus: I, config: Config) -> Self {
        Self {
            bus,
            chip: Chip {
                config,
                state: State::Reset,
                since: 0,
                retry_at: 0,
                seen: 0,
                to_drop: TO_DROP,
                doubts: 0,
                stillness: Stillness::new(config.frozen_after),
                tally: Tally::NONE,
            },
        }
    }

    /// What has gone wrong so far.
    #[must_use]
    pub const fn tally(&self) -> Tally {
        self.chip.tally
    }

    /// The bus, given back.
    pub fn release(self) -> I {
        self.bus
    }
}

impl<I: I2c> Bridge for Nau7802<I> {
    fn poll(&mut self, now_micros: u64) -> nb::Result<Counts, BridgeFault> {
        drive(&mut self.chip, &mut self.bus, ADDRESS, now_micros)
    }
}

#[cfg(feature = "async")]
impl<I: embedded_hal_async::i2c::I2c> super::asynchronous::Bridge for Nau7802<I> {
    async fn poll(&mut self, now_micros: u64) -> nb::Result<Counts, BridgeFault> {
        drive_async(&mut self.chip, &mut self.bus, ADDRESS, now_micros).await
    }
}
