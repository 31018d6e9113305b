//! The HX711, a 24-bit bridge converter that is clocked out bit by bit.
//!
//! After its data sheet (Avia Semiconductor): data-ready is the data line
//! going low; each clock pulse brings the next bit, highest first, within
//! 0.1 us of its rising edge; the 25th pulse takes the data line high; 25, 26
//! or 27 pulses choose channel A at gain 128, channel B at gain 32 or channel
//! A at gain 64 for what follows; a clock high for longer than 60 us powers it
//! down, and the fall after that resets it; after a reset or a change of
//! channel or gain the output is valid after four conversion periods (50 ms at
//! 80 a second, 400 ms at 10); it limits at 0x7FFFFF and 0x800000.
//!
//! The data sheet does not say what happens when a conversion ends during a
//! read. Here the new value takes the shift register's place and the count of
//! pulses starts anew, so the driver reads bits of two values and its own
//! pulses choose another gain: the worst that the rules above allow.

use super::{Handle, PIN_NANOS, PinFailure};
use core::cell::{RefCell, RefMut};
use embedded_hal::digital::{ErrorType, InputPin, OutputPin};
use heapless::Deque;
use serde::{Deserialize, Serialize};

const BITS: u8 = 24;
const HIGHEST: i32 = 0x7F_FFFF;
const LOWEST: i32 = -0x80_0000;
/// Clock high for longer than this powers down.
const POWER_DOWN_NANOS: u64 = 60_000;
/// Shortest clock high and low times, and longest high time.
const SHORTEST_HALF_NANOS: u64 = 200;
const LONGEST_HIGH_NANOS: u64 = 50_000;
/// How long [`BridgeTrouble::Stalls`] holds the clock high.
const STALL_NANOS: u64 = 80_000;
/// Conversions until the output is valid again.
const SETTLING: u8 = 4;
/// Conversions that can be scheduled ahead.
const AHEAD: usize = 32;

/// What ails the bridge converter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BridgeTrouble {
    /// Nothing.
    #[default]
    None,
    /// It never has data ready.
    Silent,
    /// It reads the upper end of its range.
    HighRail,
    /// It reads the lower end of its range.
    LowRail,
    /// It repeats the last value.
    Frozen,
    /// The data line is shorted to ground: always ready, and all zeros.
    DataLow,
    /// Every bit reads one, as when the data line comes loose after data-ready.
    AllOnes,
    /// The pins themselves report an error.
    PinError,
    /// Every read meets one clock edge from nowhere.
    Sparks,
    /// The first pulse of every read is held high for 80 us.
    Stalls,
}

/// What the model has seen of its driver, for tests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct BridgeCounters {
    /// Conversions that ended while the converter was running.
    pub conversions: u32,
    /// Reads that got to their 25th pulse.
    pub reads: u32,
    /// Conversions that ended in the middle of a read.
    pub torn_reads: u32,
    /// Times it was powered down.
    pub power_downs: u32,
    /// Pulses while no data was ready, or more than 27 in one read.
    pub stray_pulses: u32,
    /// Clock halves shorter or longer than the data sheet allows, those that
    /// power down not counted.
    pub bad_halves: u32,
    /// Conversions that could not be scheduled because too many were waiting.
    pub unscheduled: u32,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Input {
    A128,
    B32,
    A64,
}

#[derive(Debug)]
struct State {
    ahead: Deque<(u64, i32), AHEAD>,
    powered: bool,
    clock_high: bool,
    clock_changed: u64,
    data_high: bool,
    /// The 24 bits waiting to be read or being read.
    register: Option<u32>,
    pulses: u8,
    input: Input,
    settling_left: u8,
    last: i32,
    trouble: BridgeTrouble,
    /// A clock edge from nowhere at the next pulse.
    stray_edge: bool,
    /// The next clock-high lasts this much longer.
    stall_nanos: u64,
    counters: BridgeCounters,
}

/// The converter.
#[derive(Debug)]
pub struct Hx711 {
    state: RefCell<State>,
}

impl Default for Hx711 {
    fn default() -> Self {
        Self {
            state: RefCell::new(State {
                ahead: Deque::new(),
                powered: true,
                clock_high: false,
                clock_changed: 0,
                data_high: true,
                register: None,
                pulses: 0,
                input: Input::A128,
                settling_left: SETTLING - 1,
                last: 0,
                trouble: BridgeTrouble::None,
                stray_edge: false,
                stall_nanos: 0,
                counters: BridgeCounters::default(),
            }),
        }
    }
}

impl Hx711 {
    /// The state. Nothing here holds it and calls outward, so nobody ever finds
    /// it held; a pin would fail then.
    fn state(&self) -> Result<RefMut<'_, State>, PinFailure> {
        self.state.try_borrow_mut().map_err(|_| PinFailure)
    }

    /// A conversion of the bridge at gain 128 that will end at a time, in
    /// nanoseconds; counts outside 24 bits limit. Give them in order of time,
    /// at most 32 ahead. Returns whether there was room.
    pub fn schedule(&self, at_nanos: u64, counts: i32) -> bool {
        let Ok(mut state) = self.state() else {
            return false;
        };
        let room = state.ahead.push_back((at_nanos, counts)).is_ok();
        if !room {
            count(&mut state.counters.unscheduled);
        }
        room
    }

    /// Makes it ill, or well.
    pub fn set_trouble(&self, trouble: BridgeTrouble) {
        if let Ok(mut state) = self.state() {
            state.trouble = trouble;
        }
    }

    /// One clock edge from nowhere at the next pulse, as from a spark nearby:
    /// the converter counts a pulse that the driver did not give.
    pub fn spark(&self) {
        if let Ok(mut state) = self.state() {
            state.stray_edge = true;
        }
    }

    /// The next clock-high lasts so many nanoseconds longer, as when an
    /// interrupt comes in the middle of a pulse.
    pub fn stall_next_pulse(&self, nanos: u64) {
        if let Ok(mut state) = self.state() {
            state.stall_nanos = nanos;
        }
    }

    /// What it has seen of its driver.
    #[must_use]
    pub fn counters(&self) -> BridgeCounters {
        self.state.borrow().counters
    }

    /// Whether it is powered down at a time.
    #[must_use]
    pub fn is_powered_down(&self, now: u64) -> bool {
        self.state().is_ok_and(|mut state| {
            state.run_to(now);
            !state.powered
        })
    }

    fn data_is_high(&self, now: u64) -> Result<bool, PinFailure> {
        let mut state = self.state()?;
        state.run_to(now);
        match state.trouble {
            BridgeTrouble::PinError => Err(PinFailure),
            BridgeTrouble::DataLow => Ok(false),
            _ => Ok(state.data_high),
        }
    }

    /// Takes a clock edge; returns how much longer the driver is held up.
    fn set_clock(&self, high: bool, now: u64) -> Result<u64, PinFailure> {
        let mut state = self.state()?;
        state.run_to(now);
        if state.trouble == BridgeTrouble::PinError {
            return Err(PinFailure);
        }
        if state.clock_high == high {
            return Ok(0);
        }
        let half = now.saturating_sub(state.clock_changed);
        state.clock_high = high;
        state.clock_changed = now;
        if high {
            let begins = state.powered && state.pulses == 0 && state.register.is_some();
            if state.powered {
                if half < SHORTEST_HALF_NANOS {
                    count(&mut state.counters.bad_halves);
                }
                state.pulse();
                let spark = begins && state.trouble == BridgeTrouble::Sparks;
                if core::mem::take(&mut state.stray_edge) || spark {
                    state.pulse();
                }
            }
            if begins && state.trouble == BridgeTrouble::Stalls {
                return Ok(STALL_NANOS);
            }
            return Ok(core::mem::take(&mut state.stall_nanos));
        }
        if !state.powered {
            state.reset();
        } else if !(SHORTEST_HALF_NANOS..=LONGEST_HIGH_NANOS).contains(&half) {
            count(&mut state.counters.bad_halves);
        }
        Ok(0)
    }
}

/// One more.
const fn count(number: &mut u32) {
    *number = number.saturating_add(1);
}

impl State {
    /// Everything that happens up to now, in order.
    fn run_to(&mut self, now: u64) {
        loop {
            let power_down = (self.powered && self.clock_high)
                .then(|| {
                    self.clock_changed
                        .saturating_add(POWER_DOWN_NANOS)
                        .saturating_add(1)
                })
                .filter(|at| *at <= now);
            let conversion = self
                .ahead
                .front()
                .copied()
                .filter(|(at, _)| *at <= now && power_down.is_none_or(|down| *at < down));
            if let Some((_, counts)) = conversion {
                let _ = self.ahead.pop_front();
                if self.powered {
                    self.convert(counts);
                }
            } else if power_down.is_some() {
                self.powered = false;
                self.register = None;
                self.data_high = true;
                count(&mut self.counters.power_downs);
            } else {
                return;
            }
        }
    }

    /// A conversion ends.
    fn convert(&mut self, counts: i32) {
        count(&mut self.counters.conversions);
        if self.trouble == BridgeTrouble::Silent {
            return;
        }
        match self.pulses {
            0 => {}
            1..=24 => count(&mut self.counters.torn_reads),
            pulses => self.choose(match pulses {
                25 => Input::A128,
                26 => Input::B32,
                _ => Input::A64,
            }),
        }
        self.pulses = 0;
        // Channel B is not connected.
        let there = match self.input {
            Input::A128 => counts,
            Input::B32 => 0,
            Input::A64 => counts / 2,
        };
        let settled = if self.settling_left > 0 {
            let part = SETTLING.saturating_sub(self.settling_left);
            self.settling_left = self.settling_left.saturating_sub(1);
            // A quarter of the count at a time: 24 bits by 2.
            there.saturating_mul(part.into()) / i32::from(SETTLING)
        } else {
            there
        };
        let value = match self.trouble {
            BridgeTrouble::HighRail => HIGHEST,
            BridgeTrouble::LowRail => LOWEST,
            BridgeTrouble::Frozen => self.last,
            BridgeTrouble::AllOnes => -1,
            BridgeTrouble::DataLow => 0,
            BridgeTrouble::None
            | BridgeTrouble::Silent
            | BridgeTrouble::PinError
            | BridgeTrouble::Sparks
            | BridgeTrouble::Stalls => settled.clamp(LOWEST, HIGHEST),
        };
        self.last = value;
        self.register = Some(value.cast_unsigned() & 0xFF_FFFF);
        self.data_high = false;
    }

    fn choose(&mut self, input: Input) {
        if self.input != input {
            self.input = input;
            self.settling_left = SETTLING - 1;
        }
    }

    /// A rising clock edge.
    fn pulse(&mut self) {
        let Some(register) = self.register else {
            if (25..27).contains(&self.pulses) {
                self.pulses = self.pulses.saturating_add(1);
            } else {
                count(&mut self.counters.stray_pulses);
            }
            return;
        };
        self.pulses = self.pulses.saturating_add(1);
        if let Some(left) = BITS.checked_sub(self.pulses) {
            self.data_high = register.unbounded_shr(left.into()) & 1 == 1;
        } else {
            self.data_high = true;
            self.register = None;
            count(&mut self.counters.reads);
        }
    }

    fn reset(&mut self) {
        self.powered = true;
        self.register = None;
        self.data_high = true;
        self.pulses = 0;
        self.input = Input::A128;
        self.settling_left = SETTLING - 1;
    }
}

/// The converter's data output.
#[derive(Debug, Clone)]
pub struct BridgeData<H>(H);

impl<H: Handle> BridgeData<H> {
    /// The data output of these chips' converter.
    pub const fn new(chips: H) -> Self {
        Self(chips)
    }
}

impl<H> ErrorType for BridgeData<H> {
    type Error = PinFailure;
}

impl<H: Handle> InputPin for BridgeData<H> {
    fn is_high(&mut self) -> Result<bool, PinFailure> {
        self.0.bridge.data_is_high(self.0.clock.nanos())
    }

    fn is_low(&mut self) -> Result<bool, PinFailure> {
        self.is_high().map(|high| !high)
    }
}

/// The converter's clock input.
#[derive(Debug, Clone)]
pub struct BridgeClock<H>(H);

impl<H: Handle> BridgeClock<H> {
    /// The clock input of these chips' converter.
    pub const fn new(chips: H) -> Self {
        Self(chips)
    }

    fn set(&self, high: bool) -> Result<(), PinFailure> {
        self.0.clock.pass_nanos(PIN_NANOS);
        let held_up = self.0.bridge.set_clock(high, self.0.clock.nanos())?;
        self.0.clock.pass_nanos(held_up);
        Ok(())
    }
}

impl<H> ErrorType for BridgeClock<H> {
    type Error = PinFailure;
}

impl<H: Handle> OutputPin for BridgeClock<H> {
    fn set_low(&mut self) -> Result<(), PinFailure> {
        self.set(false)
    }

    fn set_high(&mut self) -> Result<(), PinFailure> {
        self.set(true)
    }
}
