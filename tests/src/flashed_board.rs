//! The RP2040 board's UF2 file, on an emulator of its chip.
//!
//! The emulator (`firmware/boards/pico/emulated`, its README says what it can
//! and cannot show) is asked line by line, so that this side owns the time and
//! the world.

use evenhand_simulator::chips::{BridgeTrouble, ProbeTrouble};
use evenhand_simulator::feed::Batch;
use serde::Deserialize;
use serde_json::{Value, json};
use std::io::{self, BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

/// Why the board does not run.
#[derive(Debug, thiserror::Error)]
pub enum FlashedError {
    /// Node or the emulator could not be started.
    #[error("the emulator cannot be started: run scripts/flashed-image ({0})")]
    NoEmulator(io::Error),
    /// The emulator ended, or its pipe broke.
    #[error("the emulator ended: {0}")]
    Gone(#[from] io::Error),
    /// What it said makes no sense.
    #[error("the emulator said nonsense: {0}")]
    Nonsense(#[from] serde_json::Error),
    /// It refused.
    #[error("the emulator: {0}")]
    Refused(String),
}

/// What a stretch of time brought.
#[derive(Debug, Clone, Default, Deserialize)]
pub struct Ran {
    /// The time since the power came, in microseconds.
    pub micros: u64,
    /// Bytes out of the USB serial port.
    pub usb: Vec<u8>,
    /// The lamps for short, on and heavy, and the buzzer.
    pub lamps: [bool; 4],
    /// When the USB host had set the device up, in microseconds.
    pub configured: Option<u64>,
    /// How often it has started anew by itself.
    pub resets: u32,
    /// Whether the power went in the middle of a change of the flash.
    #[serde(default)]
    pub cut: bool,
}

/// The emulator with one board, which keeps its flash.
#[derive(Debug)]
pub struct FlashedBoard {
    emulator: Child,
    ask: ChildStdin,
    answers: BufReader<ChildStdout>,
    open: bool,
}

impl FlashedBoard {
    /// Where `scripts/release` puts the file.
    #[must_use]
    pub fn built_file() -> PathBuf {
        root().join("target/release-files/evenhand-pico.uf2")
    }

    /// Starts the emulator with a file in the flash, and no power.
    ///
    /// # Errors
    /// [`FlashedError`] where the emulator or the file is missing.
    pub fn with(uf2: &Path) -> Result<Self, FlashedError> {
        let mut emulator = Command::new("node")
            .arg(root().join("firmware/boards/pico/emulated/emulate.mjs"))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::inherit())
            .spawn()
            .map_err(FlashedError::NoEmulator)?;
        let (Some(ask), Some(answers)) = (emulator.stdin.take(), emulator.stdout.take()) else {
            return Err(FlashedError::Refused("it has no pipes".to_owned()));
        };
        let mut board = Self {
            emulator,
            ask,
            answers: BufReader::new(answers),
            open: false,
        };
        board.tell(&json!({ "flash": uf2 }))?;
        Ok(board)
    }

    fn tell(&mut self, message: &Value) -> Result<Value, FlashedError> {
        writeln!(self.ask, "{message}")?;
        let mut line = String::new();
        if self.answers.read_line(&mut line)? == 0 {
            return Err(FlashedError::Gone(io::ErrorKind::UnexpectedEof.into()));
        }
        let said: Value = serde_json::from_str(&line)?;
        match said.get("error").and_then(Value::as_str) {
            Some(error) => Err(FlashedError::Refused(error.to_owned())),
            None => Ok(said),
        }
    }

    /// The power comes; `how` may name the start's chance and what ails the
    /// display.
    ///
    /// # Errors
    /// [`FlashedError`] where the emulator fails.
    pub fn power_on(&mut self, how: &Value) -> Result<(), FlashedError> {
        self.tell(&json!({ "on": how })).map(drop)
    }

    /// The power goes between two instructions.
    ///
    /// # Errors
    /// [`FlashedError`] where the emulator fails.
    pub fn power_off(&mut self) -> Result<(), FlashedError> {
        self.tell(&json!({ "off": {} })).map(drop)
    }

    /// The power goes in the middle of the change of the flash that is so many
    /// calls away, after this part of it, from 0 to 1.
    ///
    /// # Errors
    /// [`FlashedError`] where the emulator fails.
    pub fn cut_in_flash(&mut self, calls: u32, part: f64) -> Result<(), FlashedError> {
        self.tell(&json!({ "cut": { "calls": calls, "part": part } }))
            .map(drop)
    }

    /// Whether a program at the other end has the port open.
    pub const fn set_open(&mut self, open: bool) {
        self.open = open;
    }

    /// Runs through a batch of the world, with these bytes into the serial
    /// port.
    ///
    /// # Errors
    /// [`FlashedError`] where the emulator fails.
    pub fn run(&mut self, batch: &Batch, usb: &[u8]) -> Result<Ran, FlashedError> {
        let conversions: Vec<(u64, i32)> = batch
            .counts
            .iter()
            .enumerate()
            .map(|(index, counts)| (batch.micros(index), *counts))
            .collect();
        // Up to just before the next conversion.
        let until = batch.end_micros() + u64::from(batch.period_micros) * 4 / 5;
        let said = self.tell(&json!({ "run": {
            "until": until,
            "conversions": conversions,
            "bridge": bridge_name(batch.bridge),
            "probe": probe_name(batch.probe),
            "word": batch.probe_word,
            "open": self.open,
            "usb": usb,
        } }))?;
        Ok(serde_json::from_value(said)?)
    }

    /// The display, the RAM that was used, the USB's names, the flash's wear.
    ///
    /// # Errors
    /// [`FlashedError`] where the emulator fails.
    pub fn look(&mut self) -> Result<Value, FlashedError> {
        self.tell(&json!({ "look": {} }))
    }
}

impl Drop for FlashedBoard {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.emulator.kill();
        let _ = self.emulator.wait();
    }
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

const fn bridge_name(trouble: BridgeTrouble) -> &'static str {
    match trouble {
        BridgeTrouble::None => "none",
        BridgeTrouble::Silent | BridgeTrouble::PinError => "silent",
        BridgeTrouble::HighRail => "high-rail",
        BridgeTrouble::LowRail => "low-rail",
        BridgeTrouble::Frozen => "frozen",
        BridgeTrouble::DataLow => "data-low",
        BridgeTrouble::AllOnes => "all-ones",
        // Not modelled at these pins.
        BridgeTrouble::Sparks | BridgeTrouble::Stalls => "none",
    }
}

const fn probe_name(trouble: ProbeTrouble) -> &'static str {
    match trouble {
        ProbeTrouble::None => "none",
        ProbeTrouble::Open => "open",
        ProbeTrouble::ShortToGround => "short-to-ground",
        ProbeTrouble::ShortToSupply => "short-to-supply",
        ProbeTrouble::ShortedWires => "shorted-wires",
        ProbeTrouble::BusError | ProbeTrouble::DataLow => "data-low",
        ProbeTrouble::DataHigh => "data-high",
        ProbeTrouble::Frozen => "frozen",
    }
}
