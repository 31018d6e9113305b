//! The instrument with its drivers and its line.
//!
//! A board gives it the time, the bytes that came, and room for bytes to go;
//! and puts its signals on pins:
//!
//! ```text
//! loop {
//!     station.poll(now);                        // several times a conversion
//!     while let Some(byte) = port.read()      { station.receive(byte) }
//!     if port.has_room()  { port.write(&out[..station.transmit(now, &mut out)]) }
//!     lamps.set(station.signals(now));
//! }
//! ```

use crate::drivers::{Bridge, Probe};
#[cfg(feature = "calibration")]
use crate::instrument::kind_of;
use crate::instrument::{Instrument, Setup};
use crate::signals::Signals;
#[cfg(feature = "calibration")]
use evenhand_protocol::Setting;
use evenhand_protocol::frame::{self, MAX_FRAME};
use evenhand_protocol::{Command, Envelope, Reader, Uptime};

/// A driver is asked again in one poll at most so often while it still has
/// something to say.
const AT_ONCE: usize = 4;

/// Drivers, instrument, frame reader and frame writer in one. `PLACES` is how
/// many unacknowledged portions it keeps.
#[derive(Debug)]
pub struct Station<B, P, const PLACES: usize = 64> {
    bridge: B,
    probe: P,
    instrument: Instrument<PLACES>,
    reader: Reader<Command>,
    now: Uptime,
    sequence: u16,
    opened: bool,
    progress: u32,
}

impl<B: Bridge, P: Probe, const PLACES: usize> Station<B, P, PLACES> {
    /// A station that has just started.
    #[must_use]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn new(bridge: B, probe: P, setup: Setup) -> Self {
        #[cfg(feature = "calibration")]
        let mut probe = probe;
        // One that cannot reads what it is made for, as it said when it was asked.
        #[cfg(feature = "calibration")]
        probe.set_kind(setup.remembered.probe());
        Self {
            bridge,
            probe,
            instrument: Instrument::new(setup),
            reader: Reader::new(),
            now: Uptime::default(),
            sequence: 0,
            opened: false,
            progress: 0,
        }
    }

    /// Does what can be done at `now_micros`, microseconds since the start on
    /// a clock that does not step. Never waits. Call it at least four times a
    /// conversion of the bridge.
    pub fn poll(&mut self, now_micros: u64) {
        let now = self.advance(now_micros);
        for _ in 0..AT_ONCE {
            let polled = self.bridge.poll(now_micros);
            if !matches!(polled, Err(nb::Error::WouldBlock)) {
                self.progress = self.progress.wrapping_add(1);
            }
            match polled {
                Ok(counts) => self.instrument.take_counts(now, counts),
                Err(nb::Error::Other(fault)) => {
                    #[cfg(feature = "defmt")]
                    defmt::debug!("bridge {}", fault);
                    self.instrument.take_bridge_fault(now, fault);
                }
                Err(nb::Error::WouldBlock) => break,
            }
        }
        if let Some(rate) = self.bridge.rate() {
            self.instrument.converts_at(now, rate);
        }
        self.instrument.take_tally(self.bridge.tally());
        match self.probe.poll(now_micros) {
            Ok(sample) => self.instrument.take_temperature(now, Ok(sample)),
            Err(nb::Error::Other(fault)) => {
                self.instrument.take_temperature(now, Err(fault));
                self.instrument
                    .take_box_temperature(self.probe.cold_junction());
            }
            Err(nb::Error::WouldBlock) => {}
        }
    }

    /// Takes one byte from the line. What it completes is dated with the
    /// newest time that was passed in.
    pub fn receive(&mut self, byte: u8) {
        match self.reader.push(byte) {
            None => {}
            #[cfg(feature = "calibration")]
            Some(Ok(command)) if !self.can(&command.message) => {
                self.instrument.refuse(command.sequence);
            }
            Some(Ok(command)) => self.instrument.take_command(self.now, command),
            Some(Err(error)) => {
                #[cfg(feature = "defmt")]
                defmt::debug!("line {}", error);
                self.instrument.take_frame_error(self.now, error);
            }
        }
    }

    /// Whether the drivers can do what is asked of them; they do it at once.
    #[cfg(feature = "calibration")]
    fn can(&mut self, command: &Command) -> bool {
        match command {
            Command::Set(Setting::Probe(kind)) => {
                kind_of(*kind).is_some_and(|kind| self.probe.set_kind(kind))
            }
            _ => true,
        }
    }

    /// Writes the next frame to send into `out` and returns its length; 0
    /// where there is nothing to say now. Call it again until it says so, as
    /// long as the line has room.
    pub fn transmit(&mut self, now_micros: u64, out: &mut [u8; MAX_FRAME]) -> usize {
        let now = self.advance(now_micros);
        if !self.opened {
            // Ends whatever the line carried before the start.
            self.opened = true;
            out[0] = 0;
            return 1;
        }
        let Some(message) = self.instrument.next_report(now) else {
            return 0;
        };
        let envelope = Envelope {
            sequence: self.sequence,
            message,
        };
        match frame::encode(&envelope, out) {
            Ok(length) => {
                self.sequence = self.sequence.wrapping_add(1);
                length
            }
            Err(frame::TooLong) => {
                debug_assert!(false, "every report fits in a frame");
                0
            }
        }
    }

    /// Lamps and buzzer at this moment.
    #[must_use]
    pub fn signals(&self, now_micros: u64) -> Signals {
        self.instrument.signals(uptime(now_micros))
    }

    /// How often the bridge has given a conversion or told a fault, for a
    /// [`Watch`](crate::watch::Watch); wraps.
    #[must_use]
    pub const fn progress(&self) -> u32 {
        self.progress
    }

    /// The instrument.
    #[must_use]
    pub const fn instrument(&self) -> &Instrument<PLACES> {
        &self.instrument
    }

    /// The instrument, to calibrate it.
    pub const fn instrument_mut(&mut self) -> &mut Instrument<PLACES> {
        &mut self.instrument
    }

    /// The drivers, for a bench that moves the chips behind them.
    pub const fn drivers_mut(&mut self) -> (&mut B, &mut P) {
        (&mut self.bridge, &mut self.probe)
    }

    /// The newest time that was passed in; a time that goes back is not
    /// believed.
    fn advance(&mut self, now_micros: u64) -> Uptime {
        self.now = self.now.max(uptime(now_micros));
        self.now
    }
}

const fn uptime(micros: u64) -> Uptime {
    Uptime::from_millis(micros / 1_000)
}
