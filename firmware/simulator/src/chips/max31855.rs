//! The MAX31855, a thermocouple converter that is only ever read.
//!
//! After its data sheet (Maxim 19-5793): 32 bits, highest first: 31 to 18 the
//! thermocouple in quarters of a degree, 17 zero, 16 any fault, 15 to 4 the
//! cold junction in sixteenths of a degree, 3 zero, 2 shorted to the supply, 1
//! shorted to ground, 0 open. A conversion takes up to 100 ms and is cut off by
//! a read, so reading more often than that repeats the last word. During the
//! first 200 ms after power-up it has nothing to say: here, zeros.

use super::{Handle, PinFailure};
use core::cell::{RefCell, RefMut};
use embedded_hal::spi::{ErrorType, Operation, SpiDevice};
use evenhand_firmware::thermocouple::Kind;
use evenhand_protocol::Temperature;
use serde::{Deserialize, Serialize};

/// The one slope that the version for type K assumes, in nanovolts a degree
/// (data sheet, table 1).
const SLOPE_NANOVOLTS: f64 = 41_276.0;
const CONVERSION_NANOS: u64 = 100_000_000;
const POWER_UP_NANOS: u64 = 200_000_000;

/// What ails the probe or its converter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ProbeTrouble {
    /// Nothing.
    #[default]
    None,
    /// The probe is unplugged or broken.
    Open,
    /// The probe is shorted to ground.
    ShortToGround,
    /// The probe is shorted to the supply.
    ShortToSupply,
    /// The two wires touch before the tip: the converter sees no voltage and
    /// no fault, and reads its own temperature.
    ShortedWires,
    /// The bus reports an error.
    BusError,
    /// The converter does not drive its data line: all zeros.
    DataLow,
    /// The data line floats high: all ones.
    DataHigh,
    /// It repeats the last word.
    Frozen,
}

/// The 32 bits that the converter gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ProbeWord(pub u32);

impl ProbeWord {
    /// The word for a thermocouple reading in quarters of a degree Celsius
    /// and a cold junction in sixteenths; both limit at their widths.
    #[must_use]
    pub fn healthy(thermocouple_quarters: i32, cold_sixteenths: i32) -> Self {
        let thermocouple = thermocouple_quarters.clamp(-0x2000, 0x1FFF).cast_unsigned() & 0x3FFF;
        let cold = cold_sixteenths.clamp(-0x800, 0x7FF).cast_unsigned() & 0xFFF;
        Self(thermocouple << 18 | cold << 4)
    }

    /// The word for a type K probe whose tip is at `hot`, with the cold junction
    /// truly at `cold` and taken by the converter to be at `cold_read`. The
    /// converter assumes a straight line, which a thermocouple is not: it
    /// divides the voltage by its slope and adds the cold junction. `None`
    /// where the reference function (ITS-90) does not reach.
    #[must_use]
    pub fn type_k(hot: Temperature, cold: Temperature, cold_read: Temperature) -> Option<Self> {
        let measured = Kind::K.emf(hot)? - Kind::K.emf(cold)?;
        let above_cold = measured.nanovolts() as f64 / SLOPE_NANOVOLTS;
        let reading = above_cold + cold_read.celsius();
        Some(Self::healthy(
            libm::round(reading * 4.0) as i32,
            libm::round(cold_read.celsius() * 16.0) as i32,
        ))
    }

    /// The same cold junction with fault bits: bit 0 open, 1 shorted to
    /// ground, 2 shorted to the supply. The thermocouple's bits then mean
    /// nothing; here they are all ones but the sign.
    #[must_use]
    pub const fn faulty(self, fault_bits: u32) -> Self {
        Self(self.0 & 0xFFF0 | 0x1FFF << 18 | 1 << 16 | fault_bits & 7)
    }
}

#[derive(Debug)]
struct State {
    input: ProbeWord,
    latched: ProbeWord,
    converting_since: u64,
    trouble: ProbeTrouble,
}

/// The converter.
#[derive(Debug)]
pub struct Max31855 {
    state: RefCell<State>,
}

impl Default for Max31855 {
    fn default() -> Self {
        Self {
            state: RefCell::new(State {
                input: ProbeWord(0),
                latched: ProbeWord(0),
                // So that the first conversion ends with the power-up.
                converting_since: POWER_UP_NANOS - CONVERSION_NANOS,
                trouble: ProbeTrouble::None,
            }),
        }
    }
}

impl Max31855 {
    /// The state, which nobody ever finds held; the bus would fail then.
    fn state(&self) -> Result<RefMut<'_, State>, PinFailure> {
        self.state.try_borrow_mut().map_err(|_| PinFailure)
    }

    /// What it would read now.
    pub fn set_word(&self, word: ProbeWord) {
        if let Ok(mut state) = self.state() {
            state.input = word;
        }
    }

    /// Makes it ill, or well.
    pub fn set_trouble(&self, trouble: ProbeTrouble) {
        if let Ok(mut state) = self.state() {
            state.trouble = trouble;
        }
    }

    /// Chip select falls and rises again: the word that comes out.
    fn select(&self, now: u64) -> Result<u32, PinFailure> {
        let mut state = self.state()?;
        if state.trouble == ProbeTrouble::BusError {
            return Err(PinFailure);
        }
        if now.saturating_sub(state.converting_since) >= CONVERSION_NANOS
            && state.trouble != ProbeTrouble::Frozen
        {
            let input = state.input;
            // Twelve bits, the highest of them the sign.
            let signed_cold = (input.0 << 16).cast_signed() >> 20;
            state.latched = match state.trouble {
                ProbeTrouble::Open => input.faulty(1),
                ProbeTrouble::ShortToGround => input.faulty(2),
                ProbeTrouble::ShortToSupply => input.faulty(4),
                ProbeTrouble::ShortedWires => {
                    ProbeWord::healthy(signed_cold.div_euclid(4), signed_cold)
                }
                _ => input,
            };
        }
        state.converting_since = state.converting_since.max(now);
        Ok(match state.trouble {
            ProbeTrouble::DataLow => 0,
            ProbeTrouble::DataHigh => u32::MAX,
            _ => state.latched.0,
        })
    }
}

/// The converter on its bus, chip select included.
#[derive(Debug, Clone)]
pub struct ProbeBus<H>(H);

impl<H: Handle> ProbeBus<H> {
    /// The bus of these chips' thermocouple converter.
    pub const fn new(chips: H) -> Self {
        Self(chips)
    }
}

impl<H> ErrorType for ProbeBus<H> {
    type Error = PinFailure;
}

impl<H: Handle> SpiDevice for ProbeBus<H> {
    fn transaction(&mut self, operations: &mut [Operation<'_, u8>]) -> Result<(), PinFailure> {
        let chips = &*self.0;
        let word = chips.probe.select(chips.clock.nanos())?;
        // After its 32 bits the data line stays low.
        let mut bytes = word.to_be_bytes().into_iter().chain(core::iter::repeat(0));
        let mut fill = |words: &mut [u8]| {
            for place in words {
                // The chain never ends.
                *place = bytes.next().unwrap_or_default();
            }
        };
        for operation in operations {
            match operation {
                Operation::Read(words) => fill(words),
                Operation::Transfer(words, _) => fill(words),
                Operation::TransferInPlace(words) => fill(words),
                Operation::Write(words) => {
                    // It has no data input; the clock shifts bits out unseen.
                    for _ in words.iter() {
                        fill(&mut [0]);
                    }
                }
                Operation::DelayNs(nanos) => chips.clock.pass_nanos(u64::from(*nanos)),
            }
        }
        Ok(())
    }
}
