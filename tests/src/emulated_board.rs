//! The firmware's image for the emulated board, running in QEMU.
//!
//! Its first serial port is the link that any program may open; its second one
//! takes the world, batch by batch ([`EmulatedBoard::tell`]).

use crate::board_log::BoardLog;
use evenhand_protocol::{Envelope, Reader, frame};
use evenhand_simulator::feed::{Fed, Feed};
use std::io::{self, BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// How long the board may take to work through a batch, on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

/// QEMU's clock steps so many nanoseconds an instruction, as a power of two,
/// when instructions are counted ([`Pace::Counted`]).
const COUNTED_SHIFT: u32 = 5;

/// The board's counter goes at this rate.
const TICKS_A_SECOND: f64 = 25e6;

/// How the board's own clock goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// By the wall's clock: what the board counts means nothing.
    Wall,
    /// By the instructions that it carries out, so that what it counts is the
    /// same at every run.
    Counted,
}

/// Instructions in so many ticks of the board's counter at [`Pace::Counted`].
#[must_use]
pub fn instructions(ticks: f64) -> f64 {
    ticks / TICKS_A_SECOND * 1e9 / f64::from(1 << COUNTED_SHIFT)
}

/// Why the board does not run.
#[derive(Debug, thiserror::Error)]
pub enum BoardError {
    /// The image is not there.
    #[error(
        "there is no image {path}: build it with scripts/target-build mps2 ({source})",
        path = path.display()
    )]
    NoImage {
        /// Where it was looked for.
        path: PathBuf,
        /// What came of it.
        source: io::Error,
    },
    /// The image is there and cannot be used.
    #[error("the image cannot be used: {0}")]
    BadImage(String),
    /// QEMU could not be started.
    #[error("qemu-system-arm cannot be started: install QEMU for Arm ({0})")]
    NoEmulator(io::Error),
    /// QEMU ended at once.
    #[error("qemu-system-arm gave no serial ports; it says: {0}")]
    NoPorts(String),
    /// A serial port of the board failed.
    #[error("the board's second serial port failed: {0}")]
    Port(#[from] io::Error),
    /// A message was too long.
    #[error("a message to the board does not fit in a frame")]
    TooLong,
    /// The board did not answer.
    #[error("the board does not answer; its log: {0:?}")]
    Silent(Vec<String>),
}

/// A running board. It ends when this is dropped.
#[derive(Debug)]
pub struct EmulatedBoard {
    /// Held so that it ends with this.
    _emulator: Emulator,
    host_port: String,
    world: Box<dyn WorldPort>,
    answers: Reader<Fed>,
    /// Bytes that came after the last answer.
    ahead: Vec<u8>,
    sent: u16,
    log: BoardLog,
}

/// The second serial port, as this program holds it.
trait WorldPort: Read + Write + Send + std::fmt::Debug {}

impl<P: Read + Write + Send + std::fmt::Debug> WorldPort for P {}

impl EmulatedBoard {
    /// Where `scripts/target-build` puts the image.
    #[must_use]
    pub fn built_image() -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../firmware/boards/target/thumbv7em-none-eabihf/release/evenhand-board-mps2")
    }

    /// Starts the board. It waits for its world.
    ///
    /// # Errors
    /// [`BoardError`] where the image or the emulator is missing or fails.
    pub fn start(image: &Path, pace: Pace) -> Result<Self, BoardError> {
        let elf = std::fs::read(image).map_err(|source| BoardError::NoImage {
            path: image.to_owned(),
            source,
        })?;
        let mut command = Command::new("qemu-system-arm");
        command
            .args(["-machine", "mps2-an386", "-display", "none"])
            .args(["-monitor", "none", "-serial", "pty", "-serial", "pty"])
            .args(["-semihosting-config", "enable=on,target=native"])
            .arg("-kernel")
            .arg(image)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        if pace == Pace::Counted {
            command
                .arg("-icount")
                .arg(format!("shift={COUNTED_SHIFT},sleep=off"));
        }
        let mut emulator = Emulator(command.spawn().map_err(BoardError::NoEmulator)?);
        // The emulator names its ports, one a line, and then the image's log
        // follows on the same stream.
        let stdout = emulator.0.stdout.take();
        let stdout = stdout.ok_or_else(|| BoardError::NoPorts(String::new()))?;
        let mut stdout = BufReader::new(stdout);
        let mut said = String::new();
        let mut ports = Vec::new();
        while ports.len() < 2 {
            let mut line = String::new();
            if stdout.read_line(&mut line)? == 0 {
                if let Some(mut errors) = emulator.0.stderr.take() {
                    errors.read_to_string(&mut said)?;
                }
                return Err(BoardError::NoPorts(said));
            }
            ports.extend(
                line.split_whitespace()
                    .find(|word| word.starts_with("/dev/"))
                    .map(str::to_owned),
            );
            said += &line;
        }
        let log = BoardLog::follow(&elf, stdout).map_err(BoardError::BadImage)?;
        let [host_port, world_port] =
            <[String; 2]>::try_from(ports).map_err(|ports| BoardError::NoPorts(ports.join(" ")))?;
        let world = serialport::new(&world_port, 115_200)
            .timeout(Duration::from_millis(200))
            .open_native()
            .map_err(io::Error::from)?;
        Ok(Self {
            _emulator: emulator,
            host_port,
            world: Box::new(world),
            answers: Reader::new(),
            ahead: Vec::new(),
            sent: 0,
            log,
        })
    }

    /// The link's serial port, for the desktop program to open.
    #[must_use]
    pub fn host_port(&self) -> &str {
        &self.host_port
    }

    /// What the firmware has logged.
    #[must_use]
    pub const fn log(&self) -> &BoardLog {
        &self.log
    }

    /// Tells the board about its world, and waits until it has worked through
    /// that.
    ///
    /// # Errors
    /// [`BoardError::Silent`] where it does not answer for a minute, with its
    /// log; [`BoardError::Port`] where the emulator is gone.
    pub fn tell(&mut self, message: Feed) -> Result<Fed, BoardError> {
        let mut bytes = [0; frame::MAX_FRAME];
        let envelope = Envelope {
            sequence: self.sent,
            message,
        };
        let length = frame::encode(&envelope, &mut bytes).map_err(|_| BoardError::TooLong)?;
        self.sent = self.sent.wrapping_add(1);
        self.world.write_all(&bytes[..length])?;
        let told = Instant::now();
        loop {
            let came = core::mem::take(&mut self.ahead);
            for (place, byte) in came.iter().enumerate() {
                if let Some(Ok(answer)) = self.answers.push(*byte) {
                    self.ahead = came[place + 1..].to_vec();
                    return Ok(answer.message);
                }
            }
            if told.elapsed() > PATIENCE {
                return Err(BoardError::Silent(self.log.lines()));
            }
            let mut bytes = [0; 256];
            match self.world.read(&mut bytes) {
                Ok(count) => self.ahead.extend_from_slice(&bytes[..count]),
                Err(error) if error.kind() == io::ErrorKind::TimedOut => {}
                Err(error) => return Err(error.into()),
            }
        }
    }
}

/// An emulator that ends with this.
#[derive(Debug)]
struct Emulator(Child);

impl Drop for Emulator {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}
