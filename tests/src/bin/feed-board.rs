//! Starts the emulated board and feeds it the world of a scenario.
//!
//! The first line that it prints is the serial port of the link, for any
//! program to open; then come what really happened and what the firmware has
//! needed. The firmware's log goes to standard error.
//!
//! With `--alone` it starts the run itself and acknowledges the portions.

use clap::Parser;
use evenhand_protocol::Epoch;
use evenhand_simulator::feed::Work;
use evenhand_simulator::feeder::Feeder;
use evenhand_simulator::scenario::Scenario;
use evenhand_tests::emulated_board::{EmulatedBoard, Pace, instructions};
use evenhand_tests::little_desktop::LittleDesktop;
use std::io::{ErrorKind, Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::thread;
use std::time::{Duration, Instant, SystemTime};

/// Conversions in a batch: a tenth of a second.
const BATCH: usize = 8;

/// Starts the emulated board and feeds it the world of a scenario.
#[derive(Debug, Parser)]
struct Arguments {
    /// What happens: a scenario's file, or the name of one that ships.
    #[arg(long, default_value = "saltmarsh-shrimp-taking")]
    scenario: String,
    /// What fixes everything that the scenario leaves open.
    #[arg(long)]
    seed: Option<u64>,
    /// Its seconds a second; 0 for as fast as it can.
    #[arg(long, default_value_t = 1.0)]
    speed: f64,
    /// Starts the run and acknowledges the portions; nobody else may then open
    /// the link.
    #[arg(long)]
    alone: bool,
    /// The image; else the one that scripts/target-build made.
    #[arg(long)]
    image: Option<PathBuf>,
}

fn main() -> ExitCode {
    match run(&Arguments::parse()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("feed-board: {error}");
            ExitCode::FAILURE
        }
    }
}

fn run(arguments: &Arguments) -> Result<(), Box<dyn std::error::Error>> {
    let scenario = if Path::new(&arguments.scenario).exists() {
        Scenario::load(Path::new(&arguments.scenario))?
    } else {
        Scenario::shipped(&arguments.scenario)?
    };
    let seed = arguments.seed.unwrap_or_else(|| scenario.seed());
    // No epoch comes twice, so that a store never takes two portions for one.
    let seconds = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH)?;
    let epoch = Epoch(u32::try_from(seconds.as_secs() & u64::from(u32::MAX))?);
    let mut feeder = Feeder::in_epoch(&scenario, seed, epoch);
    let image = arguments
        .image
        .clone()
        .unwrap_or_else(EmulatedBoard::built_image);
    let mut board = EmulatedBoard::start(&image, Pace::Counted)?;
    println!("{}", board.host_port());
    eprintln!("{}", scenario.title());
    // A board that has not started does not listen.
    let fed = board.tell(feeder.next(BATCH))?;
    feeder.answered(&fed);
    let mut alone = arguments
        .alone
        .then(|| Alone::open(board.host_port(), &scenario))
        .transpose()?;

    let begun = Instant::now();
    let mut logged = 0;
    let mut effort = None;
    while !feeder.is_over() {
        let fed = board.tell(feeder.next(BATCH))?;
        feeder.answered(&fed);
        effort = Some(fed.effort);
        if let Some(alone) = &mut alone {
            alone.answer()?;
        }
        let lines = board.log().lines();
        for line in &lines[logged..] {
            eprintln!("{line}");
        }
        logged = lines.len();
        if arguments.speed > 0.0 {
            let due = feeder.micros() as f64 / 1e6 / arguments.speed;
            let due = Duration::try_from_secs_f64(due)?;
            thread::sleep(due.saturating_sub(begun.elapsed()));
        }
    }

    for portion in feeder.truth() {
        println!("truly {:.3} g", portion.mass.grams());
    }
    if let Some(effort) = effort {
        let of = scenario.title();
        println!("figure: {of} | stack | {} bytes", effort.stack_used);
        tell(of, "instrument", effort.instrument);
        tell(of, "drivers and chip models", effort.drivers);
        tell(of, "frames", effort.frames);
    }
    Ok(())
}

/// A desktop of this program's own.
struct Alone {
    port: serialport::TTYPort,
    desktop: LittleDesktop,
}

impl Alone {
    fn open(path: &str, scenario: &Scenario) -> Result<Self, Box<dyn std::error::Error>> {
        let mut port = serialport::new(path, 115_200)
            .timeout(Duration::from_millis(1))
            .open_native()?;
        let mut desktop = LittleDesktop::default();
        // A lone zero first: it ends whatever the line carried before.
        port.write_all(&[0])?;
        port.write_all(&desktop.opening(scenario.mode(), scenario.goal()))?;
        Ok(Self { port, desktop })
    }

    /// Takes what came meanwhile, if anything did, and answers it.
    fn answer(&mut self) -> Result<(), Box<dyn std::error::Error>> {
        let mut bytes = [0; 4096];
        match self.port.read(&mut bytes) {
            Ok(count) => {
                let answer = self.desktop.take(&bytes[..count])?;
                Ok(self.port.write_all(&answer)?)
            }
            Err(error) if error.kind() == ErrorKind::TimedOut => Ok(()),
            Err(error) => Err(error.into()),
        }
    }
}

/// Instructions a piece of work: a conversion, or a frame.
fn tell(of: &str, what: &str, work: Work) {
    let mean = instructions(work.ticks as f64) / f64::from(work.pieces.max(1));
    let most = instructions(f64::from(work.longest));
    println!("figure: {of} | {what}, mean | {mean:.0} instructions");
    println!("figure: {of} | {what}, worst | {most:.0} instructions");
}
