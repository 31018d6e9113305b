//! The MAX31855: a thermocouple converter that is only ever read, over SPI.
//!
//! Source: data sheet "MAX31855, Cold-Junction Compensated
//! Thermocouple-to-Digital Converter", Maxim 19-5793: page 8 (Table 1 and the
//! straight-line equation), pages 9 and 10 (interface, Tables 2 to 5). Its figures
//! are from memory wherever no page or table stands beside them: 200 ms after
//! power-up, 100 ms a conversion, the operating range.
//!
//! The chip takes every thermocouple for a straight line: what it calls the hot
//! junction is its cold junction plus the voltage over one fixed sensitivity.
//! That is out by 3 °C for a type K in a hot oven and by 12 °C for a type T in
//! boiling water. So the voltage is recovered with the chip's own sensitivity,
//! and turned into a temperature by the reference functions
//! ([`crate::thermocouple`]).
//!
//! A shorted pair of wires reads as the temperature of the converter, without
//! any fault; only a check against ice and boiling water finds that
//! ([`crate::probe_check`]).

use embedded_hal::spi::SpiDevice;
use evenhand_protocol::Temperature;

use super::Probe;
use super::schedule::Schedule;
use crate::sensor::{ProbeFault, ProbeSample};
use crate::thermocouple::{Curve, Emf, Kind};

/// From power-up until the first conversion is there (200 ms).
const POWER_UP_MICROS: u64 = 200_000;
/// Between two reads: a conversion takes up to 100 ms, and a read cuts it off.
const BETWEEN_READS_MICROS: u64 = 125_000;
/// The chip's own operating range; a cold junction outside it is no answer.
const COLD_MILLICELSIUS: core::ops::RangeInclusive<i32> = -40_000..=125_000;

/// D16: any fault.
const FAULT: u32 = 1 << 16;
/// D17 and D3 always read 0.
const RESERVED: u32 = 1 << 17 | 1 << 3;
/// D2: shorted to the supply.
const SHORT_TO_SUPPLY: u32 = 1 << 2;
/// D1: shorted to ground.
const SHORT_TO_GROUND: u32 = 1 << 1;
/// D0: open.
const OPEN: u32 = 1;

/// The chip's versions, each made for one type of thermocouple. There is none
/// for type B.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Version {
    /// The usual one.
    #[default]
    K,
    /// For type J.
    J,
    /// For type N.
    N,
    /// For type S.
    S,
    /// For type T.
    T,
    /// For type E.
    E,
    /// For type R.
    R,
}

impl Version {
    /// Every version.
    pub const ALL: [Self; 7] = [
        Self::K,
        Self::J,
        Self::N,
        Self::S,
        Self::T,
        Self::E,
        Self::R,
    ];

    /// The version for a type of thermocouple, if there is one.
    #[must_use]
    pub fn for_kind(kind: Kind) -> Option<Self> {
        Self::ALL.into_iter().find(|version| version.kind() == kind)
    }

    /// The thermocouple it is made for.
    #[must_use]
    pub const fn kind(self) -> Kind {
        match self {
            Self::K => Kind::K,
            Self::J => Kind::J,
            Self::N => Kind::N,
            Self::S => Kind::S,
            Self::T => Kind::T,
            Self::E => Kind::E,
            Self::R => Kind::R,
        }
    }

    /// The sensitivity that it takes for its thermocouple's, per degree Celsius
    /// (page 8, Table 1): the mean of the reference function up to 1 000 °C, for
    /// type T up to 400 °C.
    #[must_use]
    pub const fn sensitivity(self) -> Emf {
        Emf::from_nanovolts(self.sensitivity_nanovolts() as i64)
    }

    const fn sensitivity_nanovolts(self) -> i32 {
        match self {
            Self::K => 41_276,
            Self::J => 57_953,
            Self::N => 36_256,
            Self::S => 9_587,
            Self::T => 52_180,
            Self::E => 76_373,
            Self::R => 10_506,
        }
    }

    /// What a word from the chip says.
    ///
    /// # Errors
    ///
    /// The fault that the word tells; [`ProbeFault::Silent`] for a word that
    /// this chip cannot have sent (all zeros, all ones, a reserved bit, a fault
    /// without a reason); [`ProbeFault::OutOfRange`] for a voltage that the
    /// thermocouple cannot give. All zeros could also be exactly 0 °C at both
    /// ends; it is refused, because a wire that hangs low says the same.
    pub fn decode(self, word: u32) -> Result<ProbeSample, ProbeFault> {
        Thermocouple::of(self).decode(word)
    }
}

/// What a version knows of its thermocouple.
#[derive(Debug, Clone, Copy)]
struct Thermocouple {
    /// Nanovolts a degree.
    sensitivity: i32,
    curve: &'static Curve,
}

impl Thermocouple {
    #[inline]
    const fn of(version: Version) -> Self {
        Self {
            sensitivity: version.sensitivity_nanovolts(),
            curve: version.kind().curve(),
        }
    }

    /// The chip's own temperature, in a word that it can have sent: also in one
    /// that tells a fault of the probe.
    fn cold(word: u32) -> Option<Temperature> {
        if word == 0 || word & RESERVED != 0 {
            return None;
        }
        let sixteenths = (word.cast_signed() << 16) >> 20;
        // A sixteenth is 62.5 millidegrees; halves upward.
        let cold =
            Temperature::from_millicelsius(sixteenths.wrapping_mul(125).wrapping_add(1) >> 1);
        COLD_MILLICELSIUS
            .contains(&cold.millicelsius())
            .then_some(cold)
    }

    /// See [`Version::decode`].
    fn decode(self, word: u32) -> Result<ProbeSample, ProbeFault> {
        if word == 0 || word & RESERVED != 0 {
            return Err(ProbeFault::Silent);
        }
        let reasons = word & (OPEN | SHORT_TO_GROUND | SHORT_TO_SUPPLY);
        if (word & FAULT != 0) != (reasons != 0) {
            return Err(ProbeFault::Silent);
        }
        if reasons & SHORT_TO_SUPPLY != 0 {
            return Err(ProbeFault::ShortToSupply);
        }
        if reasons & SHORT_TO_GROUND != 0 {
            return Err(ProbeFault::ShortToGround);
        }
        if reasons & OPEN != 0 {
            return Err(ProbeFault::Open);
        }
        let signed = word.cast_signed();
        // D31 to D18, quarters of a degree; D15 to D4, sixteenths.
        let quarters = signed >> 18;
        let sixteenths = (signed << 16) >> 20;
        // A sixteenth is 62.5 millidegrees; halves upward.
        let cold =
            Temperature::from_millicelsius(sixteenths.wrapping_mul(125).wrapping_add(1) >> 1);
        if !COLD_MILLICELSIUS.contains(&cold.millicelsius()) {
            return Err(ProbeFault::Silent);
        }
        // Page 8: V = sensitivity x (hot - cold), here in sixteenths of a degree.
        // The word has 14 bits and 12 of them, so nothing comes near the end of 32 bits.
        let difference = (quarters << 2).wrapping_sub(sixteenths);
        let measured = i64::from(self.sensitivity).wrapping_mul(difference.into()) / 16;
        self.curve
            .hot_junction(Emf::from_nanovolts(measured), cold)
            .map(|hot| ProbeSample { hot, cold })
            .map_err(|_| ProbeFault::OutOfRange)
    }
}

/// The driver. The SPI bus runs at up to 5 MHz in mode 0; its device asserts
/// the chip select.
#[derive(Debug)]
pub struct Max31855<S> {
    spi: S,
    thermocouple: Thermocouple,
    schedule: Schedule,
    /// The last word.
    word: u32,
}

impl<S> Max31855<S> {
    /// A driver for a version of the chip. The first call of [`Probe::poll`]
    /// starts the wait for its power-up.
    #[inline]
    pub const fn new(spi: S, version: Version) -> Self {
        Self {
            spi,
            thermocouple: Thermocouple::of(version),
            schedule: Schedule::new(),
            word: 0,
        }
    }

    /// The bus, given back.
    pub fn release(self) -> S {
        self.spi
    }

    fn due(&mut self, now: u64) -> bool {
        self.schedule
            .due(now, POWER_UP_MICROS, BETWEEN_READS_MICROS)
    }
}

impl<S: SpiDevice> Probe for Max31855<S> {
    fn poll(&mut self, now_micros: u64) -> nb::Result<ProbeSample, ProbeFault> {
        if !self.due(now_micros) {
            return Err(nb::Error::WouldBlock);
        }
        let mut bytes = [0; 4];
        self.word = 0;
        self.spi.read(&mut bytes).map_err(|_| ProbeFault::Silent)?;
        self.word = u32::from_be_bytes(bytes);
        Ok(self.thermocouple.decode(self.word)?)
    }

    /// Every type: the voltage is recovered, and whose it is the chip need not
    /// know. Its steps stay those of its own type: with a probe of small
    /// voltage (S, R, B) a step is several degrees.
    fn set_kind(&mut self, kind: Kind) -> bool {
        self.thermocouple.curve = kind.curve();
        true
    }

    fn cold_junction(&self) -> Option<Temperature> {
        Thermocouple::cold(self.word)
    }
}

#[cfg(feature = "async")]
impl<S: embedded_hal_async::spi::SpiDevice> super::asynchronous::Probe for Max31855<S> {
    async fn poll(&mut self, now_micros: u64) -> nb::Result<ProbeSample, ProbeFault> {
        if !self.due(now_micros) {
            return Err(nb::Error::WouldBlock);
        }
        let mut bytes = [0; 4];
        self.spi
            .read(&mut bytes)
            .await
            .map_err(|_| ProbeFault::Silent)?;
        Ok(self.thermocouple.decode(u32::from_be_bytes(bytes))?)
    }
}
