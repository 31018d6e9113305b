//! The HX711: 24 bits of bridge voltage, clocked out by hand.
//!
//! Source: data sheet "HX711, 24-Bit Analog-to-Digital Converter (ADC) for
//! Weigh Scales", Avia Semiconductor; pages 4 and 5 (serial interface, Table 3,
//! Fig. 2 and 3). Its figures are from memory wherever no page, table or figure
//! stands beside them: the 0.2 to 50 us of a clock pulse, the settling of 50 and
//! 400 ms. What it leaves open is treated as the worst it can mean.
//!
//! - **Pulses.** The clock is high for about 1 us (0.2 to 50 us allowed) and
//!   only that high half runs in a critical section: more than 60 us powers the
//!   chip down and forgets its gain, but a long low half does no harm, so
//!   interrupts wait for one microsecond and not for the whole read.
//! - **Overrun.** A conversion that ends in the middle of a read tears it. A
//!   value is handed on by the call after the one that read it, and only if
//!   that call came less than the shortest conversion period after the last
//!   moment at which data was not ready. Otherwise nobody can say that the read
//!   was whole: it is dropped, and five more with it, because its pulses may
//!   have chosen another gain.
//! - **By value.** After the last pulse the data line must be high. A value that
//!   ends in twelve ones or more is what a chip leaves that lost its clock in
//!   mid-read (one healthy value in 4 096 looks the same); it is dropped in the
//!   same way. The ends of the range and a value that never moves are faults;
//!   after an end of the range five conversions are dropped.
//! - **By time.** Data-ready that comes too early or too late says that the chip
//!   counted other pulses than were sent, or restarted.
//! - **What it cannot see.** One stray edge inside a read shifts that one value
//!   and chooses another input, and neither shows in the bits. If the chip holds
//!   data-ready back while it settles, the next one is late and the chip is
//!   restarted; if not, four values more are wrong before it has settled. So
//!   nothing should be believed that has not been steady for longer than five
//!   conversions.
//! - **Restart.** The clock is held high for over 60 us and the first four
//!   conversions are dropped (settling takes 400 ms at 10 a second, 50 ms at 80).

use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{InputPin, OutputPin};

use super::Bridge;
use super::watch::{Stillness, Tally, rail, sign_extended};
use crate::sensor::{BridgeFault, Counts};

/// Bits in a conversion.
const BITS: u8 = 24;
/// A value that ends in so many ones is doubted.
const DOUBTFUL_ONES: u32 = 12;
/// How long the clock is held high to power the chip down: over 60 us (Fig. 3).
const POWER_DOWN_MICROS: u64 = 100;
/// Each half of a pulse (Fig. 2: 0.2 us at least, 1 us typical).
const HALF_PULSE_MICROS: u32 = 1;
/// Conversions until the output has settled.
const SETTLING: u8 = 4;
/// So many doubtful reads without a good one between them, and the chip is
/// restarted.
const DOUBTS: u8 = 5;

/// What the next conversions measure, chosen by the number of pulses
/// (data sheet Table 3).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Input {
    /// Channel A, gain 128: ±20 mV with a 5 V supply. 25 pulses.
    #[default]
    A128,
    /// Channel B, gain 32: ±80 mV. 26 pulses.
    B32,
    /// Channel A, gain 64: ±40 mV. 27 pulses.
    A64,
}

impl Input {
    /// Pulses of a read after which this input is converted.
    const fn pulses(self) -> u8 {
        match self {
            Self::A128 => 25,
            Self::B32 => 26,
            Self::A64 => 27,
        }
    }

    /// Conversions to drop after a restart. The chip wakes on channel A at gain
    /// 128, so any other input settles only from the first read on.
    const fn drop_after_restart(self) -> u8 {
        match self {
            Self::A128 => SETTLING,
            Self::B32 | Self::A64 => SETTLING + 1,
        }
    }
}

/// How the converter is wired and watched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Config {
    /// What it measures.
    pub input: Input,
    /// Nominal time of one conversion in microseconds, as the chip's rate pin
    /// or its clock sets it: 100 000 or 12 500 with its own oscillator. It is
    /// taken to be right within a fifth either way.
    pub conversion_micros: u32,
    /// So many equal conversions in a row are a fault; 0 for never. At gain
    /// 128 the chip's own noise is some 20 counts, so that even four equal ones
    /// are rarer than one in a million.
    pub frozen_after: u16,
}

impl Config {
    /// Channel A at gain 128, 80 conversions a second.
    #[must_use]
    pub const fn fast() -> Self {
        Self {
            input: Input::A128,
            conversion_micros: 12_500,
            frozen_after: 10,
        }
    }

    /// Channel A at gain 128, 10 conversions a second.
    #[must_use]
    pub const fn slow() -> Self {
        Self {
            input: Input::A128,
            conversion_micros: 100_000,
            frozen_after: 10,
        }
    }

    /// The shortest time between two conversions.
    const fn shortest(&self) -> u64 {
        self.conversion_micros as u64 * 4 / 5
    }

    /// From here on data-ready is late: well over one conversion, and well
    /// under two.
    const fn late(&self) -> u64 {
        self.conversion_micros as u64 * 8 / 5
    }

    /// No data-ready for so long, and the chip is taken for dead: twice what it
    /// needs after a restart.
    const fn timeout(&self) -> u64 {
        self.conversion_micros as u64 * 2 * SETTLING as u64
    }
}

impl Default for Config {
    fn default() -> Self {
        Self::fast()
    }
}

#[derive(Debug, Clone, Copy)]
enum State {
    /// The chip must be restarted.
    Restart,
    /// The clock is high, to power the chip down.
    Down { since: u64 },
    /// Waiting for data-ready.
    Waiting,
    /// A value was read and waits to be vouched for.
    Read { value: i32 },
}

/// Between which two moments data-ready fell.
#[derive(Debug, Clone, Copy)]
struct Edge {
    earliest: u64,
    latest: u64,
}

/// The driver. See the [module](self) for what it guards against.
#[derive(Debug)]
pub struct Hx711<D, C, T> {
    data: D,
    clock: C,
    delay: T,
    config: Config,
    state: State,
    /// Conversions still to be dropped.
    to_drop: u8,
    /// The time of the last call.
    seen: u64,
    /// Since when data-ready is waited for.
    waiting_since: u64,
    /// Data-ready is not believed before this: just after a restart.
    not_before: u64,
    /// The last moment at which data was known not to be ready.
    not_ready: Option<u64>,
    /// When data-ready fell for the last whole read.
    edge: Option<Edge>,
    doubts: u8,
    /// The last fault was an end of the range, and nothing good came since.
    railed: bool,
    stillness: Stillness,
    tally: Tally,
}

impl<D: InputPin, C: OutputPin, T: DelayNs> Hx711<D, C, T> {
    /// A driver on the chip's data output and clock input. Touches no pin: the
    /// first calls of [`Bridge::poll`] restart the chip so that its state is
    /// known.
    pub const fn new(data: D, clock: C, delay: T, config: Config) -> Self {
        Self {
            data,
            clock,
            delay,
            config,
            state: State::Restart,
            to_drop: 0,
            seen: 0,
            waiting_since: 0,
            not_before: 0,
            not_ready: None,
            edge: None,
            doubts: 0,
            railed: false,
            stillness: Stillness::new(config.frozen_after),
            tally: Tally::NONE,
        }
    }

    /// What has gone wrong so far.
    #[must_use]
    pub const fn tally(&self) -> Tally {
        self.tally
    }

    /// Tells the moment at which data-ready fell, where a pin interrupt knows
    /// it. With it the driver need not be called often while it waits, only
    /// promptly after this, and promptly once more after the read.
    pub const fn data_ready_fell(&mut self, at_micros: u64) {
        if matches!(self.state, State::Waiting) {
            self.not_ready = Some(at_micros);
        }
    }

    /// The pins and the delay, given back.
    pub fn release(self) -> (D, C, T) {
        (self.data, self.clock, self.delay)
    }

    /// Goes on at another rate, with a chip that has just been read.
    const fn begin_at(&mut self, config: Config) {
        self.config = config;
        self.not_before = 0;
        self.not_ready = None;
        self.edge = None;
        self.to_drop = 0;
        self.doubts = 0;
    }

    /// Asks for a restart and says why.
    fn restart(&mut self, why: BridgeFault) -> nb::Error<BridgeFault> {
        self.state = State::Restart;
        self.tally.restarted();
        nb::Error::Other(why)
    }

    /// A read that nobody can vouch for.
    fn doubt(&mut self) -> nb::Error<BridgeFault> {
        self.tally.doubted();
        self.doubts = self.doubts.saturating_add(1);
        self.edge = None;
        // The next conversion may have been made with another gain, and after
        // it the right one has to settle.
        self.to_drop = SETTLING + 1;
        if self.doubts >= DOUBTS {
            return self.restart(BridgeFault::OutOfStep);
        }
        nb::Error::WouldBlock
    }

    /// One pulse, then the data line.
    fn pulse(&mut self) -> Result<bool, BridgeFault> {
        self.delay.delay_us(HALF_PULSE_MICROS);
        // Only the high half: an interrupt in it could power the chip down.
        let done = critical_section::with(|_| {
            let risen = self.clock.set_high();
            self.delay.delay_us(HALF_PULSE_MICROS);
            // Even after a failed rise, so that the clock never stays high.
            let fallen = self.clock.set_low();
            risen.and(fallen)
        });
        done.map_err(|_| BridgeFault::Bus)?;
        self.data.is_high().map_err(|_| BridgeFault::Bus)
    }

    /// The whole read: 24 bits and the pulses that choose the input.
    fn read(&mut self) -> Result<i32, BridgeFault> {
        let mut word: u32 = 0;
        for _ in 0..BITS {
            word = word << 1 | u32::from(self.pulse()?);
        }
        let mut high = false;
        for _ in BITS..self.config.input.pulses() {
            high = self.pulse()?;
        }
        if high {
            Ok(sign_extended(word))
        } else {
            Err(BridgeFault::OutOfStep)
        }
    }

    /// Waits for data-ready, and reads.
    fn wait(&mut self, now: u64) -> nb::Error<BridgeFault> {
        let ready = match self.data.is_low() {
            Ok(low) => low,
            Err(_) => return self.restart(BridgeFault::Bus),
        };
        if !ready {
            self.not_ready = Some(now);
            if now.saturating_sub(self.waiting_since) > self.config.timeout() {
                return self.restart(BridgeFault::Timeout);
            }
            return nb::Error::WouldBlock;
        }
        if now < self.not_before {
            return nb::Error::WouldBlock;
        }
        if let Some(edge) = self.edge.filter(|_| self.to_drop == 0) {
            let early = now < edge.earliest.saturating_add(self.config.shortest());
            let late = self
                .not_ready
                .is_some_and(|at| at > edge.latest.saturating_add(self.config.late()));
            if early || late {
                return self.restart(BridgeFault::OutOfStep);
            }
        }
        match self.read() {
            Ok(value) => {
                self.edge = self.not_ready.map(|earliest| Edge {
                    earliest,
                    latest: now,
                });
                self.state = State::Read { value };
                nb::Error::WouldBlock
            }
            Err(fault) => self.restart(fault),
        }
    }

    /// Whether the value that was read can be vouched for, and what it says.
    fn judge(&mut self, value: i32, now: u64) -> nb::Result<Counts, BridgeFault> {
        self.state = State::Waiting;
        self.waiting_since = now;
        let whole = self
            .edge
            .is_some_and(|edge| now < edge.earliest.saturating_add(self.config.shortest()));
        // Whole: no conversion has ended since the read, which left the line high.
        self.not_ready = whole.then_some(now);
        let rail = rail(value);
        if !whole || rail.is_none() && value.trailing_ones() >= DOUBTFUL_ONES {
            return Err(self.doubt());
        }
        if let Some(fault) = rail
            && (self.to_drop == 0 || self.railed)
        {
            self.railed = true;
            // A chip that lost its clock after the first bit also reads 0x7FFFFF,
            // and then it settles anew.
            self.to_drop = SETTLING + 1;
            return Err(nb::Error::Other(fault));
        }
        if self.to_drop > 0 {
            self.to_drop = self.to_drop.saturating_sub(1);
            return Err(nb::Error::WouldBlock);
        }
        self.railed = false;
        self.doubts = 0;
        self.stillness
            .watch(value)
            .map_err(|fault| self.restart(fault))
    }
}

impl<D: InputPin, C: OutputPin, T: DelayNs> Bridge for Hx711<D, C, T> {
    fn poll(&mut self, now_micros: u64) -> nb::Result<Counts, BridgeFault> {
        let now = now_micros;
        if now < self.seen {
            // A clock that steps back: what was measured on it means nothing now.
            self.waiting_since = now;
            self.not_before = now;
            self.not_ready = None;
            self.edge = None;
            if let State::Down { since } = &mut self.state {
                *since = now;
            }
        }
        self.seen = now;
        match self.state {
            State::Restart => {
                self.clock.set_high().map_err(|_| BridgeFault::Bus)?;
                self.state = State::Down { since: now };
                Err(nb::Error::WouldBlock)
            }
            State::Down { since } => {
                if now.saturating_sub(since) < POWER_DOWN_MICROS {
                    return Err(nb::Error::WouldBlock);
                }
                self.clock.set_low().map_err(|_| BridgeFault::Bus)?;
                self.state = State::Waiting;
                self.waiting_since = now;
                self.not_before = now.saturating_add(self.config.shortest());
                self.not_ready = None;
                self.edge = None;
                self.doubts = 0;
                self.railed = false;
                self.to_drop = self.config.input.drop_after_restart();
                Err(nb::Error::WouldBlock)
            }
            State::Waiting => Err(self.wait(now)),
            State::Read { value } => self.judge(value, now),
        }
    }

    fn tally(&self) -> Tally {
        self.tally
    }
}

/// A driver for a chip whose rate pin may be strapped either way, as boards
/// come: it times the first conversions and goes on at the rate that it found.
/// After a time-out it times them anew.
#[derive(Debug)]
pub struct EitherRate<D, C, T> {
    driver: Hx711<D, C, T>,
    finding: Option<Finding>,
}

/// Conversions that are timed.
#[derive(Debug, Clone, Copy, Default)]
struct Finding {
    /// When data was last ready.
    last: Option<u64>,
    /// Times in a row that were those of 80 a second, and of 10.
    fast: u8,
    slow: u8,
}

/// So many times in a row that are alike tell the rate.
const ALIKE: u8 = 3;

impl<D: InputPin, C: OutputPin, T: DelayNs> EitherRate<D, C, T> {
    /// A driver on the chip's data output and clock input, for channel A at
    /// gain 128.
    pub const fn new(data: D, clock: C, delay: T) -> Self {
        Self {
            driver: Hx711::new(data, clock, delay, Config::fast()),
            finding: Some(Finding {
                last: None,
                fast: 0,
                slow: 0,
            }),
        }
    }

    /// Reads conversions whose values nobody can vouch for yet, and times them.
    fn time(&mut self, finding: Finding, now: u64) -> nb::Error<BridgeFault> {
        let driver = &mut self.driver;
        match driver.data.is_low() {
            Err(_) => return driver.restart(BridgeFault::Bus),
            Ok(false) => {
                return if now.saturating_sub(driver.waiting_since) > Config::slow().timeout() {
                    self.finding = Some(Finding::default());
                    driver.restart(BridgeFault::Timeout)
                } else {
                    nb::Error::WouldBlock
                };
            }
            Ok(true) if now < driver.not_before => return nb::Error::WouldBlock,
            Ok(true) => {}
        }
        if let Err(fault) = driver.read() {
            self.finding = Some(Finding::default());
            return driver.restart(fault);
        }
        driver.waiting_since = now;
        let took = finding.last.map(|last| now.saturating_sub(last));
        let of = |config: Config, before: u8| match took {
            Some(took) if (config.shortest()..config.late()).contains(&took) => {
                before.saturating_add(1)
            }
            _ => 0,
        };
        let found = Finding {
            last: Some(now),
            fast: of(Config::fast(), finding.fast),
            slow: of(Config::slow(), finding.slow),
        };
        self.finding = None;
        if found.fast >= ALIKE {
            driver.begin_at(Config::fast());
        } else if found.slow >= ALIKE {
            driver.begin_at(Config::slow());
        } else {
            self.finding = Some(found);
        }
        nb::Error::WouldBlock
    }
}

impl<D: InputPin, C: OutputPin, T: DelayNs> Bridge for EitherRate<D, C, T> {
    fn poll(&mut self, now_micros: u64) -> nb::Result<Counts, BridgeFault> {
        if let Some(finding) = self.finding
            && matches!(self.driver.state, State::Waiting)
            && now_micros >= self.driver.seen
        {
            self.driver.seen = now_micros;
            return Err(self.time(finding, now_micros));
        }
        let polled = self.driver.poll(now_micros);
        if polled == Err(nb::Error::Other(BridgeFault::Timeout)) {
            self.finding = Some(Finding::default());
        }
        polled
    }

    fn rate(&self) -> Option<u16> {
        let conversion = u64::from(self.driver.config.conversion_micros);
        self.finding
            .is_none()
            .then(|| u16::try_from(1_000_000 / conversion).unwrap_or(u16::MAX))
    }

    fn tally(&self) -> Tally {
        self.driver.tally
    }
}

/// The pins are driven by hand, so there is nothing to await in a read; what is
/// awaited is data-ready, with [`Hx711::data_ready`].
#[cfg(feature = "async")]
impl<D: InputPin, C: OutputPin, T: DelayNs> super::asynchronous::Bridge for Hx711<D, C, T> {
    async fn poll(&mut self, now_micros: u64) -> nb::Result<Counts, BridgeFault> {
        Bridge::poll(self, now_micros)
    }
}

#[cfg(feature = "async")]
impl<D: embedded_hal_async::digital::Wait, C, T> Hx711<D, C, T> {
    /// Waits until the data line is low. Tell the moment with
    /// [`Hx711::data_ready_fell`], then call `poll` twice. Put a time limit on
    /// this: a chip that is powered down or broken never gets ready.
    ///
    /// # Errors
    ///
    /// [`BridgeFault::Bus`] if the pin failed.
    pub async fn data_ready(&mut self) -> Result<(), BridgeFault> {
        self.data.wait_for_low().await.map_err(|_| BridgeFault::Bus)
    }
}
