//! The simulated bench on a pseudo-terminal, for another program to open as a
//! serial port.

use super::simulated::Pace;
use evenhand_simulator::instrument::SimulatedInstrument;
use nix::errno::Errno;
use nix::fcntl::{FcntlArg, OFlag, fcntl};
use nix::poll::{PollFd, PollFlags, PollTimeout, poll};
use nix::sys::termios::{SetArg, cfmakeraw, tcgetattr, tcsetattr};
use nix::unistd::{read, ttyname, write};
use std::os::fd::{AsFd, OwnedFd};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// How much of the bench's time passes before bytes are exchanged again.
const STEP_MICROS: u64 = 10_000;
/// How long to wait for bytes from the other program.
const NAP: u16 = 5;
/// What may wait to be read at the other end; more is dropped, as on a wire.
const WAITING: usize = 16_384;

/// A simulated instrument behind a pseudo-terminal.
///
/// The other program may open and close it as often as it likes, and be killed
/// in between: what the instrument says while nobody has it open is lost, as
/// with a pulled cable, and its portions wait in its outbox.
#[derive(Debug)]
pub struct Terminal {
    master: OwnedFd,
    path: PathBuf,
    instrument: SimulatedInstrument,
    pace: Pace,
    waiting: Vec<u8>,
    open: bool,
}

impl Terminal {
    /// Opens a pseudo-terminal, in raw mode, for an instrument.
    ///
    /// # Errors
    /// Where the system gives none.
    pub fn open(instrument: SimulatedInstrument, pace: Pace) -> std::io::Result<Self> {
        let pair = nix::pty::openpty(None, None)?;
        let mut settings = tcgetattr(&pair.slave)?;
        cfmakeraw(&mut settings);
        tcsetattr(&pair.slave, SetArg::TCSANOW, &settings)?;
        let path = ttyname(&pair.slave)?;
        let flags = OFlag::from_bits_retain(fcntl(&pair.master, FcntlArg::F_GETFL)?);
        fcntl(&pair.master, FcntlArg::F_SETFL(flags | OFlag::O_NONBLOCK))?;
        // The other end is closed here, so that it is known whether the other
        // program has it open.
        drop(pair.slave);
        Ok(Self {
            master: pair.master,
            path,
            instrument,
            pace,
            waiting: Vec::new(),
            open: false,
        })
    }

    /// The path for the other program to open.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Plays the scenario and then goes on weighing, until the process ends.
    /// `look` is shown the instrument after every step, before anything that
    /// it says is sent.
    ///
    /// # Errors
    /// Where the pseudo-terminal fails, or `look` does.
    pub fn serve(
        &mut self,
        mut look: impl FnMut(&mut SimulatedInstrument) -> std::io::Result<()>,
    ) -> std::io::Result<core::convert::Infallible> {
        let begun = Instant::now();
        loop {
            let behind = self.advance(begun.elapsed());
            look(&mut self.instrument)?;
            self.exchange()?;
            if !behind {
                self.rest()?;
            }
        }
    }

    /// Lets the bench's time go on by one step at most; whether it is behind.
    fn advance(&mut self, passed: Duration) -> bool {
        let now = self.instrument.micros();
        let goal = match self.pace {
            Pace::Times(speed) => (passed.as_secs_f64() * speed * 1e6) as u64,
            Pace::Unbounded => now + STEP_MICROS,
        };
        let step = goal.min(now + STEP_MICROS);
        self.instrument.advance_to(step);
        step < goal
    }

    /// Brings bytes both ways.
    fn exchange(&mut self) -> std::io::Result<()> {
        let mut buffer = [0; 4096];
        loop {
            match read(&self.master, &mut buffer) {
                Ok(0) => break,
                Ok(count) => {
                    self.open = true;
                    self.instrument
                        .send(buffer.get(..count).unwrap_or_default());
                }
                Err(Errno::EAGAIN) => {
                    self.open = true;
                    break;
                }
                Err(Errno::EINTR) => {}
                // Nobody has it open.
                Err(Errno::EIO) => {
                    self.open = false;
                    break;
                }
                Err(error) => return Err(error.into()),
            }
        }
        self.waiting.append(&mut self.instrument.receive());
        if !self.open {
            self.waiting.clear();
            return Ok(());
        }
        match write(&self.master, &self.waiting) {
            Ok(count) => drop(self.waiting.drain(..count)),
            Err(Errno::EAGAIN | Errno::EINTR) => {}
            Err(Errno::EIO) => self.waiting.clear(),
            Err(error) => return Err(error.into()),
        }
        if self.waiting.len() > WAITING {
            self.waiting.clear();
        }
        Ok(())
    }

    /// Waits a moment, or until the other program says something.
    fn rest(&self) -> std::io::Result<()> {
        if self.open {
            let mut wanted = [PollFd::new(self.master.as_fd(), PollFlags::POLLIN)];
            match poll(&mut wanted, PollTimeout::from(NAP)) {
                Ok(_) | Err(Errno::EINTR) => Ok(()),
                Err(error) => Err(error.into()),
            }
        } else {
            // With nobody there a poll would return at once, over and over.
            std::thread::sleep(Duration::from_millis(u64::from(NAP)));
            Ok(())
        }
    }
}
