//! What feeds an emulated board the world: messages on its second serial
//! port.
//!
//! The host sends [`Feed`] messages, the board answers each with one [`Fed`]
//! once its firmware has worked through it. Neither sends ahead of the other,
//! so simulated time comes from the host alone: a run gives the same bytes
//! however fast or slowly the emulator goes.
//!
//! The framing is that of the host link (`protocol/WIRE.md`: CRC-32C,
//! byte stuffing, closing zero), with its own kinds of message, so that the
//! two can never be mistaken for each other.
//!
//! ```
//! use evenhand_simulator::feed::{Batch, Fed, Feed};
//! use evenhand_protocol::{Envelope, Reader, frame};
//!
//! let batch = Batch {
//!     first_micros: 12_500,
//!     period_micros: 12_500,
//!     counts: heapless::Vec::from_slice(&[1000, 1003, 998])?,
//!     ..Batch::default()
//! };
//! assert_eq!(batch.end_micros(), 37_500);
//! let sent = Envelope { sequence: 1, message: Feed::Batch(batch) };
//! let mut bytes = [0; frame::MAX_FRAME];
//! let length = frame::encode(&sent, &mut bytes).unwrap();
//!
//! let mut reader = Reader::<Feed>::new();
//! let got = bytes[..length].iter().find_map(|byte| reader.push(*byte));
//! assert_eq!(got, Some(Ok(sent)));
//! # Ok::<(), heapless::CapacityError>(())
//! ```

use crate::chips::{BridgeTrouble, Chips, ProbeTrouble, ProbeWord};
use evenhand_firmware::instrument::Setup;
use evenhand_firmware::portion::PortionSettings;
use evenhand_firmware::remembered::Remembered;
use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, CellFigures, Settings};
use evenhand_firmware::signals::Signals;
use evenhand_protocol::frame::{Message, OwnMessage};
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{DeviceId, Epoch, Mass};
use heapless::Vec;
use serde::{Deserialize, Serialize};

/// The most conversions in one batch: what surely fits in a frame.
pub const BATCH: usize = 20;

/// How often the firmware is let run in one conversion: a little more often
/// than its drivers ask for.
pub const POLLS: u32 = 5;

/// From the host to the board.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum Feed {
    /// The board starts anew: firmware state gone, simulated time at nought.
    /// Answered by `Fed` with `micros` 0.
    Start(Start),
    /// The next stretch of time.
    Batch(Batch),
}

/// How a board starts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Start {
    /// Its serial number.
    pub device: DeviceId,
    /// Which of its starts this is.
    pub epoch: Epoch,
    /// What the bridge converter reads with an empty pan, as a first
    /// calibration found it.
    pub calibration_zero: i32,
    /// What it reads with `calibration_micrograms` on the pan.
    pub calibration_span: i32,
    /// The mass of the second calibration point, in micrograms.
    pub calibration_micrograms: i64,
    /// The most it may weigh, in micrograms.
    pub capacity_micrograms: i64,
    /// Conversions a second of the bridge converter, 10 or 80.
    pub rate: u8,
}

impl Start {
    /// What makes the instrument that starts so: a bench scale by its first
    /// calibration. Without a calibration where the two points make none.
    #[must_use]
    pub fn setup(&self) -> Setup {
        Setup {
            device: self.device,
            epoch: self.epoch,
            settings: settings(
                Mass::from_micrograms(self.capacity_micrograms),
                u16::from(self.rate),
            ),
            calibration: Calibration::line(
                Counts(self.calibration_zero),
                Mass::from_micrograms(self.calibration_micrograms),
                Counts(self.calibration_span),
            )
            .ok(),
            portion: PortionSettings::BENCH,
            capabilities: Capabilities::PORTIONS
                .union(Capabilities::PROBE)
                .union(Capabilities::SIGNALS),
            remembered: Remembered::NOTHING,
            figures: CellFigures::typical(Mass::from_micrograms(self.capacity_micrograms)),
        }
    }
}

/// The figures of a scale of a capacity: those of the small bench scale, with
/// coarser steps above 5 kg, where a cell's noise and drift, which go with its
/// capacity, no longer let 0.1 g come to rest. At most 50 000 steps, each 1, 2
/// or 5 times a power of ten.
fn settings(capacity: Mass, rate: u16) -> Settings {
    let small = Settings::BENCH_1KG;
    let least = capacity.micrograms() / 50_000;
    let mut interval = small.interval;
    for times in [2, 5, 10, 20, 50, 100, 200] {
        if interval.micrograms() >= least {
            break;
        }
        interval = small.interval.times(times);
    }
    Settings {
        capacity,
        rate,
        interval,
        verification_interval: small.verification_interval.max(interval),
        steadiness: interval.fraction(1, 10).unwrap_or(small.steadiness),
        ..small
    }
}

/// A stretch of simulated time: evenly spaced conversions and the state of
/// everything else meanwhile.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Batch {
    /// When the first conversion ends, in microseconds since the start.
    pub first_micros: u64,
    /// From one conversion to the next, in microseconds.
    pub period_micros: u32,
    /// What each conversion gives at gain 128, in counts of 24 bits.
    pub counts: Vec<i32, BATCH>,
    /// What ails the bridge converter.
    pub bridge: BridgeTrouble,
    /// The thermocouple converter's word.
    pub probe_word: u32,
    /// What ails the probe.
    pub probe: ProbeTrouble,
}

impl Batch {
    /// When conversion number `index` of the batch ends, in microseconds.
    #[must_use]
    pub fn micros(&self, index: usize) -> u64 {
        let periods = u64::try_from(index).unwrap_or(u64::MAX);
        self.first_micros
            .saturating_add(u64::from(self.period_micros).saturating_mul(periods))
    }

    /// When the last conversion of the batch ends, in microseconds; the first
    /// one's time in an empty batch.
    #[must_use]
    pub fn end_micros(&self) -> u64 {
        self.micros(self.counts.len().saturating_sub(1))
    }

    /// When the firmware is to be let run: [`POLLS`] times from the end of each
    /// conversion to the end of the next, in microseconds.
    pub fn polls(&self) -> impl Iterator<Item = u64> {
        (0..self.counts.len())
            .flat_map(move |index| (0..POLLS).map(move |poll| self.poll_at(index, poll)))
    }

    /// When the firmware is to be let run for the time number `poll` (of
    /// [`POLLS`]) after the end of conversion number `index`, in microseconds.
    #[must_use]
    pub fn poll_at(&self, index: usize, poll: u32) -> u64 {
        let after = u64::from(self.period_micros).saturating_mul(poll.into()) / u64::from(POLLS);
        self.micros(index).saturating_add(after)
    }

    /// Gives the chips everything in the batch. The clock stays where it is;
    /// the caller moves it through [`Batch::polls`] and lets the firmware run
    /// at each.
    pub fn load(&self, chips: &Chips) {
        chips.bridge.set_trouble(self.bridge);
        chips.probe.set_trouble(self.probe);
        chips.probe.set_word(ProbeWord(self.probe_word));
        let mut micros = self.first_micros;
        for counts in &self.counts {
            chips.bridge.schedule(micros.saturating_mul(1_000), *counts);
            micros = micros.saturating_add(self.period_micros.into());
        }
    }
}

/// From the board to the host: the last message is worked through.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fed {
    /// Simulated time up to which the firmware has run, in microseconds.
    pub micros: u64,
    /// What the board shows.
    pub outputs: Outputs,
    /// What the firmware has needed since the board started.
    pub effort: Effort,
}

/// What a board shows a cook, a bit each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Outputs(pub u8);

impl Outputs {
    /// The lamp for short.
    pub const SHORT: Self = Self(1);
    /// The lamp for on target.
    pub const ON: Self = Self(1 << 1);
    /// The lamp for heavy.
    pub const HEAVY: Self = Self(1 << 2);
    /// The buzzer.
    pub const BUZZER: Self = Self(1 << 3);
    /// The load is steady.
    pub const STEADY: Self = Self(1 << 4);
    /// A run is going on.
    pub const RUNNING: Self = Self(1 << 5);

    /// The outputs for what an instrument signals.
    #[must_use]
    pub const fn of(signals: Signals, steady: bool, running: bool) -> Self {
        const fn lit(is: bool, output: Outputs) -> u8 {
            if is { output.0 } else { 0 }
        }
        Self(
            lit(signals.short, Self::SHORT)
                | lit(signals.on, Self::ON)
                | lit(signals.heavy, Self::HEAVY)
                | lit(signals.buzzer, Self::BUZZER)
                | lit(steady, Self::STEADY)
                | lit(running, Self::RUNNING),
        )
    }

    /// Whether everything in `other` is lit.
    #[must_use]
    pub const fn has(self, other: Self) -> bool {
        self.0 & other.0 == other.0
    }
}

/// What the firmware on a board has needed since it started.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Effort {
    /// The most of the stack that was in use at once, in bytes.
    pub stack_used: u32,
    /// All of the stack, in bytes.
    pub stack_size: u32,
    /// Signal chain, portion logic and everything else of the instrument; a
    /// piece is a conversion of the bridge.
    pub instrument: Work,
    /// The drivers, with the chip models behind them; a piece is a conversion
    /// of the bridge.
    pub drivers: Work,
    /// Reports made and written as frames; a piece is a frame.
    pub frames: Work,
}

/// What some pieces of work took, in ticks of the board's counter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Work {
    /// How many pieces.
    pub pieces: u32,
    /// Ticks of all of them.
    pub ticks: u64,
    /// Ticks of the longest.
    pub longest: u32,
}

impl Work {
    /// Adds a piece that took so many ticks.
    pub const fn add(&mut self, ticks: u32) {
        self.pieces = self.pieces.saturating_add(1);
        self.ticks = self.ticks.saturating_add(ticks as u64);
        if ticks > self.longest {
            self.longest = ticks;
        }
    }
}

impl OwnMessage for Feed {}

impl Message for Feed {
    const KIND: u8 = b'F';
}

impl OwnMessage for Fed {}

impl Message for Fed {
    const KIND: u8 = b'D';
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_coarser_for_larger_scales_only() {
        for (kilograms, milligrams) in [
            (1, 100),
            (2, 100),
            (5, 100),
            (6, 200),
            (10, 200),
            (15, 500),
            (30, 1_000),
            (100, 2_000),
        ] {
            let settings = settings(Mass::from_grams(kilograms * 1_000), 80);
            assert_eq!(settings.checked(), Ok(settings));
            assert_eq!(settings.interval, Mass::from_milligrams(milligrams));
        }
        assert_eq!(settings(Mass::from_grams(1_000), 80), Settings::BENCH_1KG);
    }
}
