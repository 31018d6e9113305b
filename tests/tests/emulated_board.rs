//! The firmware on its own instruction set: in QEMU, with the desktop program
//! at its serial port.
//!
//! Needs the image (`scripts/target-build mps2`), `qemu-system-arm` and the
//! built desktop program; without one of them the tests fail.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_protocol::report::Doubts;
use evenhand_protocol::{CapturedPortion, Epoch, Mass, Uptime};
use evenhand_simulator::feeder::Feeder;
use evenhand_simulator::instrument::SimulatedInstrument;
use evenhand_simulator::scenario::Scenario;
use evenhand_tests::emulated_board::{EmulatedBoard, Pace};
use evenhand_tests::little_desktop::LittleDesktop;
use evenhand_tests::process::evenhand;
use nix::sys::signal::{Signal, kill};
use nix::unistd::Pid;
use serde_json::Value;
use std::io::{ErrorKind, Read, Write};
use std::process::{Child, Stdio};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

/// How far a recorded portion may be from the true one.
const CLOSE: Mass = Mass::from_milligrams(100);

/// The RAM that the image is linked for (`firmware/boards/mps2/memory.x`).
const BOARD_RAM: u32 = 64 * 1024;

/// The most of it that the statics and the stack together may take
/// (`firmware/SIZES.md`).
const RAM_LIMIT: u32 = 16_384;

/// One board at a time: each keeps a processor busy.
static TURN: Mutex<()> = Mutex::new(());

fn turn() -> MutexGuard<'static, ()> {
    TURN.lock().unwrap_or_else(PoisonError::into_inner)
}

fn board() -> EmulatedBoard {
    EmulatedBoard::start(&EmulatedBoard::built_image(), Pace::Wall)
        .unwrap_or_else(|error| panic!("{error}"))
}

/// Feeds the board at so many times the wall's speed until `done`, and goes on
/// feeding after the cook is done.
fn feed(
    board: &mut EmulatedBoard,
    feeder: &mut Feeder,
    speed: f64,
    mut done: impl FnMut(&Feeder) -> bool,
) {
    let (begun, from) = (Instant::now(), feeder.micros());
    while !done(feeder) {
        let fed = board
            .tell(feeder.next(8))
            .unwrap_or_else(|error| panic!("{error}"));
        feeder.answered(&fed);
        // The board answers a start before it has looked at its stack.
        if fed.micros > 0 {
            let statics = BOARD_RAM - fed.effort.stack_size;
            let taken = statics + fed.effort.stack_used;
            assert!(taken <= RAM_LIMIT, "{taken} bytes of RAM: {:?}", fed.effort);
        }
        let due = Duration::from_secs_f64((feeder.micros() - from) as f64 / 1e6 / speed);
        thread::sleep(due.saturating_sub(begun.elapsed()));
    }
}

fn ended(program: &mut Child) -> bool {
    program.try_wait().unwrap().is_some()
}

/// The desktop program portions at the emulated board for as long as the cook
/// of a scenario goes on; every portion must be on record once, and true.
fn a_run_at_the_board(scenario: &str, mode: &str) {
    let _turn = turn();
    let scenario = Scenario::shipped(scenario).unwrap();
    let seed = scenario.seed();
    let mut board = board();
    let mut feeder = Feeder::in_epoch(&scenario, seed, Epoch(1));
    let data = tempfile::tempdir().unwrap();
    let goal = scenario.goal();
    let grams = |mass: Mass| format!("{}g", mass.grams());
    let program = evenhand().unwrap_or_else(|error| panic!("{error}"));
    let mut portioning = std::process::Command::new(&program)
        .args(["portion", "--port", board.host_port(), mode, "--json"])
        .arg("--data")
        .arg(data.path())
        .args(["--dish", scenario.dish()])
        .args(["--target", &grams(goal.target())])
        .args(["--below", &grams(goal.tolerance().below)])
        .args(["--above", &grams(goal.tolerance().above)])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut out = portioning.stdout.take().unwrap();
    let out = thread::spawn(move || {
        let mut text = String::new();
        out.read_to_string(&mut text).map(|_| text)
    });
    let mut complaints = portioning.stderr.take().unwrap();
    let complaints = thread::spawn(move || {
        let mut text = String::new();
        complaints.read_to_string(&mut text).map(|_| text)
    });

    feed(&mut board, &mut feeder, 25.0, |feeder| {
        feeder.is_over() || ended(&mut portioning)
    });
    assert!(
        !ended(&mut portioning),
        "the program ended early: {}; log of the board: {:?}",
        complaints.join().unwrap().unwrap(),
        board.log().lines()
    );
    // Ctrl-C ends the run; the board needs its world to go on meanwhile.
    kill(
        Pid::from_raw(portioning.id().try_into().unwrap()),
        Signal::SIGINT,
    )
    .unwrap();
    feed(&mut board, &mut feeder, 1.0, |_| ended(&mut portioning));
    let complaints = complaints.join().unwrap().unwrap();
    assert!(portioning.wait().unwrap().success(), "{complaints}");

    let truth: Vec<Mass> = feeder.truth().iter().map(|portion| portion.mass).collect();
    assert_eq!(truth.len(), scenario.portion_count());
    // Each line a portion, the last one the summary.
    let out = out.join().unwrap().unwrap();
    let mut lines: Vec<Value> = out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    let summary = lines.pop().unwrap();
    compare(&standing(lines.iter().map(told)), &truth);
    assert_eq!(summary["summary"]["n"], truth.len());
    assert_eq!(summary["summary"]["lost"], 0);

    // The same again from the store.
    let export = std::process::Command::new(&program)
        .args(["export", "--format", "json", "--out", "-"])
        .arg("--data")
        .arg(data.path())
        .output()
        .unwrap();
    let rows: Vec<Value> = serde_json::from_slice(&export.stdout).unwrap();
    let kept: Vec<Mass> = rows
        .iter()
        .filter(|row| row["counts"] == true)
        .map(|row| told(row).mass)
        .collect();
    compare(&kept, &truth);
}

/// A portion as the program tells it.
struct Told {
    id: String,
    mass: Mass,
    replaces: Option<String>,
}

fn told(value: &Value) -> Told {
    Told {
        id: value["id"].as_str().unwrap().to_owned(),
        mass: Mass::from_fractional_grams(value["grams"].as_f64().unwrap()).unwrap(),
        replaces: value["replaces"].as_str().map(str::to_owned),
    }
}

/// The portions that count, in the order in which they were first made; each
/// identity may come once.
fn standing(portions: impl Iterator<Item = Told>) -> Vec<Mass> {
    let mut all: Vec<Told> = Vec::new();
    let mut seen = Vec::new();
    for portion in portions {
        assert!(!seen.contains(&portion.id), "{} was told twice", portion.id);
        seen.push(portion.id.clone());
        match &portion.replaces {
            None => all.push(portion),
            Some(corrected) => {
                let place = all.iter().position(|one| one.id == *corrected).unwrap();
                all[place] = portion;
            }
        }
    }
    all.iter().map(|portion| portion.mass).collect()
}

fn compare(measured: &[Mass], truth: &[Mass]) {
    assert_eq!(measured.len(), truth.len(), "{measured:?} {truth:?}");
    for (place, (measured, truth)) in measured.iter().zip(truth).enumerate() {
        assert!(
            (*measured - *truth).abs() <= CLOSE,
            "portion {}: {} g recorded, {} g true",
            place + 1,
            measured.grams(),
            truth.grams()
        );
    }
}

#[test]
fn a_run_of_spoonfuls_goes_from_the_board_to_the_store() {
    a_run_at_the_board("saltmarsh-shrimp-taking", "--taking");
}

#[test]
fn a_run_of_dishes_goes_from_the_board_to_the_store() {
    a_run_at_the_board("saltmarsh-hogget-neck-adding", "--adding");
}

/// The first portions of a scenario, as the firmware built for this machine
/// captures them.
fn portions_here(scenario: &Scenario, seed: u64, many: usize) -> Vec<CapturedPortion> {
    let mut instrument = SimulatedInstrument::in_epoch(scenario, seed, Epoch(1));
    let mut link = LittleDesktop::default();
    let mut micros = FIRST_MICROS;
    instrument.advance_to(micros);
    instrument.send(&open(&mut link, scenario));
    while link.captured().len() < many {
        micros += PERIOD_MICROS;
        instrument.advance_to(micros);
        let came = instrument.receive();
        instrument.send(&take(&mut link, &came));
        assert!(!instrument.is_over());
    }
    link.captured().values().copied().collect()
}

/// The same, as the firmware built for the board captures them.
fn portions_there(scenario: &Scenario, seed: u64, many: usize) -> Vec<CapturedPortion> {
    let mut board = board();
    let mut feeder = Feeder::in_epoch(scenario, seed, Epoch(1));
    let mut port = serialport::new(board.host_port(), 115_200)
        .timeout(Duration::from_millis(1))
        .open_native()
        .unwrap();
    let mut link = LittleDesktop::default();
    let mut tell = |feeder: &mut Feeder| {
        let fed = board
            .tell(feeder.next(1))
            .unwrap_or_else(|error| panic!("{error}"));
        feeder.answered(&fed);
    };
    // The start, and the first conversion.
    tell(&mut feeder);
    tell(&mut feeder);
    port.write_all(&open(&mut link, scenario)).unwrap();
    // The command is carried out before time goes on.
    let asked = Instant::now();
    while !link.has_started() {
        assert!(asked.elapsed() < Duration::from_secs(60), "no reply");
        let answer = take(&mut link, &come(&mut port));
        port.write_all(&answer).unwrap();
    }
    while link.captured().len() < many {
        tell(&mut feeder);
        let answer = take(&mut link, &come(&mut port));
        port.write_all(&answer).unwrap();
        assert!(!feeder.is_over());
    }
    link.captured().values().copied().collect()
}

fn open(link: &mut LittleDesktop, scenario: &Scenario) -> Vec<u8> {
    link.opening(scenario.mode(), scenario.goal())
}

fn take(link: &mut LittleDesktop, bytes: &[u8]) -> Vec<u8> {
    link.take(bytes).unwrap_or_else(|error| panic!("{error}"))
}

/// One conversion at 80 a second.
const PERIOD_MICROS: u64 = 12_500;
/// The last moment of the first conversion at which the firmware runs.
const FIRST_MICROS: u64 = PERIOD_MICROS + PERIOD_MICROS * 4 / 5;

/// What came in meanwhile.
fn come(port: &mut impl Read) -> Vec<u8> {
    let mut bytes = [0; 1024];
    match port.read(&mut bytes) {
        Ok(count) => bytes[..count].to_vec(),
        Err(error) if error.kind() == ErrorKind::TimedOut => Vec::new(),
        Err(error) => panic!("the link failed: {error}"),
    }
}

/// Both the world and the firmware are the same on either side, but for the feature
/// `careful`, for which the board has no room: it doubts less, waits for a table that sways,
/// takes off nothing for what runs out of a tin meanwhile, and its budget has fewer terms, so
/// its uncertainty is never the larger one.
#[test]
fn the_board_weighs_as_this_machine_does() {
    let _turn = turn();
    for (scenario, many) in [
        ("saltmarsh-shrimp-taking", 5),
        ("saltmarsh-hogget-neck-adding", 3),
    ] {
        let scenario = Scenario::shipped(scenario).unwrap();
        // The wall's clock is set at another moment of uptime here than there.
        let weighed = |portions: &[CapturedPortion]| -> Vec<CapturedPortion> {
            portions
                .iter()
                .map(|portion| CapturedPortion {
                    unix: None,
                    doubts: Doubts::NONE,
                    uncertainty: None,
                    mass: Mass::ZERO,
                    at: Uptime::from_millis(0),
                    temperature: None,
                    left: None,
                    // Nor has it room for the hash chain.
                    chain_link: None,
                    ..*portion
                })
                .collect()
        };
        let here = portions_here(&scenario, 5, many);
        let there = portions_there(&scenario, 5, many);
        assert_eq!(weighed(&there), weighed(&here));
        for (there, here) in there.iter().zip(&here) {
            assert!(there.uncertainty.is_some());
            assert!(there.uncertainty <= here.uncertainty, "{there:?} {here:?}");
            // At rest here no later than there, and of one weight by what either knows of it.
            assert!(here.at <= there.at, "{there:?} {here:?}");
            let apart = (there.mass - here.mass).abs();
            let within = here.uncertainty.unwrap() + there.uncertainty.unwrap();
            assert!(apart <= within, "{there:?} {here:?}");
        }
    }
}

/// Noise on the feed and on the link, and the board goes on.
#[test]
fn the_board_finds_its_feet_after_garbage_on_the_link() {
    let _turn = turn();
    let scenario = Scenario::shipped("saltmarsh-shrimp-taking").unwrap();
    let mut board = board();
    let mut feeder = Feeder::new(&scenario, 3);
    let mut port = serialport::new(board.host_port(), 115_200)
        .timeout(Duration::from_millis(1))
        .open_native()
        .unwrap();
    feed(&mut board, &mut feeder, f64::MAX, |feeder| {
        feeder.micros() > 500_000
    });
    let garbage: Vec<u8> = (0..2_000_u32).map(|n| (n * 37 % 251) as u8).collect();
    port.write_all(&garbage).unwrap();
    let mut link = LittleDesktop::default();
    port.write_all(&[0]).unwrap();
    port.write_all(&open(&mut link, &scenario)).unwrap();
    let asked = Instant::now();
    while !link.has_started() {
        assert!(asked.elapsed() < Duration::from_secs(60), "no reply");
        take(&mut link, &come(&mut port));
    }
}
