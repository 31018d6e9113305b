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
//! use evenhand_bench::feed::{Batch, Fed, Feed};
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
use evenhand_protocol::frame::Message;
use evenhand_protocol::{DeviceId, Epoch};
use heapless::Vec;
use serde::{Deserialize, Serialize};

/// The most conversions in one batch: what surely fits in a frame.
pub const BATCH: usize = 24;

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
        (0..self.counts.len()).flat_map(move |index| {
            let begins = self.micros(index);
            (0..POLLS).map(move |poll| {
                begins.saturating_add(
                    u64::from(self.period_micros) * u64::from(poll) / u64::from(POLLS),
                )
            })
        })
    }

    /// Gives the chips everything in the batch. The clock stays where it is;
    /// the caller moves it through [`Batch::polls`] and lets the firmware run
    /// at each.
    pub fn load(&self, chips: &Chips) {
        chips.bridge.set_trouble(self.bridge);
        chips.probe.set_trouble(self.probe);
        chips.probe.set_word(ProbeWord(self.probe_word));
        for (index, counts) in self.counts.iter().enumerate() {
            chips
                .bridge
                .schedule(self.micros(index).saturating_mul(1_000), *counts);
        }
    }
}

/// From the board to the host: the last message is worked through.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fed {
    /// Simulated time up to which the firmware has run, in microseconds.
    pub micros: u64,
    /// The lamp and buzzer outputs, a bit each, as the board names them.
    pub outputs: u8,
}

impl Message for Feed {
    const KIND: u8 = b'F';
}

impl Message for Fed {
    const KIND: u8 = b'D';
}
