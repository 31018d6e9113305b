//! The very file that is copied onto an RP2040 board, started on an emulator of
//! its chip: `scripts/flashed-image`. What the emulator cannot show is in
//! `firmware/boards/pico/emulated/README.md`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_protocol::{
    CapturedPortion, Command, DeviceId, Diagnosis, Envelope, Fault, Goal, Hello, KnownWeight, Mass,
    Mode, Notice, PortionId, ProbeType, Reader, Reading, Refusal, Report, RunId, Setting,
    Tolerance, UnixMillis, Uptime, Version, frame,
};
use evenhand_simulator::chips::{BridgeTrouble, ProbeTrouble, ProbeWord};
use evenhand_simulator::feed::{Batch, Effort, Fed, Feed, Outputs};
use evenhand_simulator::feeder::Feeder;
use evenhand_simulator::scenario::Scenario;
use evenhand_tests::flashed_board::{FlashedBoard, Ran};
use evenhand_tests::process::evenhand;
use nix::fcntl::{FcntlArg, OFlag, fcntl};
use nix::sys::signal::{Signal, kill};
use nix::sys::termios::{SetArg, cfmakeraw, tcgetattr, tcsetattr};
use nix::unistd::{Pid, ttyname};
use serde_json::{Value, json};
use std::fs::File;
use std::io::{Read, Write};
use std::os::fd::OwnedFd;
use std::path::Path;
use std::process::{Child, Stdio};
use std::sync::{Arc, Mutex};

/// The number of the emulated flash chip, and so of the device.
const DEVICE: DeviceId = DeviceId(0xE660_4104_033A_7B21);
const SERIAL: &str = "e6604104033a7b21";
/// What the emulated cell gives: an empty pan, and a gram, in counts.
const ZERO: f64 = 84_000.0;
const GRAM: f64 = 2_097.0;
const PERIOD: u32 = 12_500;
/// How far a recorded portion may be from the true one.
const CLOSE: Mass = Mass::from_milligrams(100);
/// RAM of the board that is for the program, and what must stay unused.
const SPARE_RAM: u64 = 64 * 1024;

/// The board with a hand that puts weights on it, and a desktop of a few lines.
struct Bench {
    board: FlashedBoard,
    reader: Reader<Report>,
    sequence: u16,
    micros: u64,
    period: u32,
    grams: f64,
    ripple: u32,
    bridge: BridgeTrouble,
    probe: ProbeTrouble,
    acknowledges: bool,
    out: Vec<u8>,
    hellos: Vec<Hello>,
    readings: Vec<Reading>,
    portions: Vec<CapturedPortion>,
    notices: Vec<Notice>,
    replies: Vec<Result<(), Refusal>>,
    diagnosis: Option<Diagnosis>,
    bytes: usize,
    last: Ran,
}

impl Bench {
    fn new() -> Self {
        Self::with(&json!({ "chance": 7 }))
    }

    fn with(how: &Value) -> Self {
        let file = FlashedBoard::built_file();
        let mut board = FlashedBoard::with(&file).unwrap_or_else(|error| panic!("{error}"));
        board.power_on(how).unwrap();
        board.set_open(true);
        Self {
            board,
            reader: Reader::new(),
            sequence: 0,
            micros: 0,
            period: PERIOD,
            grams: 0.0,
            ripple: 1,
            bridge: BridgeTrouble::None,
            probe: ProbeTrouble::None,
            acknowledges: true,
            out: Vec::new(),
            hellos: Vec::new(),
            readings: Vec::new(),
            portions: Vec::new(),
            notices: Vec::new(),
            replies: Vec::new(),
            diagnosis: None,
            bytes: 0,
            last: Ran::default(),
        }
    }

    fn power_on(&mut self, chance: u32) {
        self.board.power_on(&json!({ "chance": chance })).unwrap();
        self.reader = Reader::new();
        self.micros = 0;
        self.out.clear();
    }

    /// Lets time pass; false where the power went in it.
    fn hold(&mut self, seconds: f64) -> bool {
        let end = self.micros + (seconds * 1e6) as u64;
        while self.micros < end {
            let mut batch = Batch {
                first_micros: self.micros + u64::from(self.period),
                period_micros: self.period,
                bridge: self.bridge,
                probe_word: ProbeWord::healthy(97, 376).0,
                probe: self.probe,
                ..Batch::default()
            };
            for _ in 0..4 {
                self.ripple = self
                    .ripple
                    .wrapping_mul(1_664_525)
                    .wrapping_add(1_013_904_223);
                let noise = f64::from(self.ripple >> 24) / 8.0 - 16.0;
                let counts = (ZERO + self.grams * GRAM + noise) as i32;
                batch.counts.push(counts).unwrap();
            }
            self.micros = batch.end_micros();
            let out = core::mem::take(&mut self.out);
            let ran = self.board.run(&batch, &out).unwrap();
            self.bytes += ran.usb.len();
            for byte in &ran.usb {
                if let Some(Ok(envelope)) = self.reader.push(*byte) {
                    self.hear(envelope.message);
                }
            }
            let cut = ran.cut;
            self.last = ran;
            if cut {
                return false;
            }
        }
        true
    }

    fn hear(&mut self, report: Report) {
        match report {
            Report::Hello(hello) => self.hellos.push(hello),
            Report::Reading(reading) => self.readings.push(reading),
            Report::Notice { notice, .. } => self.notices.push(notice),
            Report::Reply { outcome, .. } => self.replies.push(outcome),
            Report::Diagnosis(diagnosis) => self.diagnosis = Some(diagnosis),
            Report::Portion(portion) => {
                if self.portions.iter().all(|known| known.id != portion.id) {
                    self.portions.push(portion);
                }
                if self.acknowledges {
                    self.say(Command::Acknowledge(portion.id));
                }
            }
            _ => {}
        }
    }

    fn say(&mut self, message: Command) {
        self.sequence += 1;
        let envelope = Envelope {
            sequence: self.sequence,
            message,
        };
        let mut bytes = [0; frame::MAX_FRAME];
        let length = frame::encode(&envelope, &mut bytes).unwrap();
        self.out.extend_from_slice(&bytes[..length]);
    }

    /// Says something and hears the answer.
    fn ask(&mut self, message: Command) -> Result<(), Refusal> {
        self.replies.clear();
        self.say(message);
        self.hold(0.3);
        *self.replies.first().expect("a reply")
    }

    fn hello(&mut self) {
        self.say(Command::Hello {
            version: Version::CURRENT,
            now: UnixMillis::from_millis(1_795_892_400_000),
        });
        self.hold(0.5);
    }

    fn calibrate(&mut self) {
        self.hello();
        self.ask(Command::BeginCalibration).unwrap();
        for grams in [0, 200, 500] {
            self.grams = grams as f64;
            self.hold(2.0);
            let mass = Mass::from_grams(grams);
            let limit = Mass::from_milligrams(if grams == 0 { 0 } else { 25 });
            self.ask(Command::TakePoint(KnownWeight { mass, limit }))
                .unwrap();
        }
        self.ask(Command::FinishCalibration).unwrap();
    }

    fn reading(&self) -> &Reading {
        self.readings.last().expect("a reading")
    }

    /// Takes spoonfuls out of a tin.
    fn take_out(&mut self, grams: f64) -> bool {
        for _ in 0..5 {
            self.grams -= grams / 5.0;
            if !self.hold(0.05) {
                return false;
            }
        }
        self.hold(2.0)
    }

    fn start_taking(&mut self) {
        let tolerance = Tolerance::symmetric(Mass::from_grams(1));
        let goal = Goal::new(Mass::from_grams(30), tolerance).unwrap();
        let run = RunId(12);
        let mode = Mode::Taking;
        self.ask(Command::StartRun { run, mode, goal }).unwrap();
        self.hold(1.5);
    }
}

#[test]
fn the_file_boots_and_is_a_serial_port_under_the_chips_number() {
    let mut bench = Bench::new();
    bench.hold(1.0);
    let configured = bench.last.configured.expect("the host has set it up");
    assert!(configured < 500_000, "{configured} us");
    assert_eq!(bench.last.resets, 0);
    let hello = bench.hellos.first().expect("a hello");
    assert_eq!((hello.device, hello.outbox), (DEVICE, 1_000));
    let seen = bench.board.look().unwrap();
    assert_eq!(seen["usb"]["serial"], SERIAL);
    assert_eq!(seen["usb"]["manufacturer"], "Evenhand");
    assert_eq!(seen["complaints"], json!([]));
}

#[test]
fn nothing_is_sent_while_no_program_has_the_port_open() {
    let mut bench = Bench::new();
    bench.hold(0.8);
    assert!(
        bench.bytes > 0,
        "the witness: it sends while the port is open"
    );
    bench.board.set_open(false);
    bench.hold(0.2);
    let before = bench.bytes;
    bench.hold(1.0);
    assert_eq!(bench.bytes, before);
    bench.board.set_open(true);
    bench.readings.clear();
    bench.hold(0.5);
    // What comes is of now, and not of when the port was closed.
    let first = bench.readings.first().expect("a reading");
    assert!(first.at > Uptime::from_millis(1_900), "{first:?}");
}

#[test]
fn stack_and_statics_leave_room_after_work() {
    let mut bench = Bench::new();
    bench.calibrate();
    bench.grams = 900.0;
    bench.start_taking();
    for _ in 0..3 {
        bench.take_out(30.0);
    }
    assert_eq!(bench.portions.len(), 3, "the witness: it portioned");
    let ram = bench.board.look().unwrap()["ram"].clone();
    println!("RAM: {ram}");
    assert!(ram["free"].as_u64().unwrap() >= SPARE_RAM, "{ram}");
}

#[test]
fn a_display_shows_a_picture_and_one_whose_lines_hang_stops_nothing() {
    let mut bench = Bench::new();
    bench.hold(1.5);
    let seen = bench.board.look().unwrap();
    assert_eq!(seen["display"]["on"], true);
    let rows = seen["display"]["rows"].to_string();
    assert!(rows.matches('#').count() > 100, "{rows}");
    for trouble in ["absent", "hung"] {
        let mut bench = Bench::with(&json!({ "display": trouble }));
        bench.hold(1.5);
        assert_eq!(bench.last.resets, 0, "{trouble}");
        assert!(
            bench.readings.len() >= 8,
            "{trouble}: {}",
            bench.readings.len()
        );
        let seen = bench.board.look().unwrap();
        assert!(
            !seen["display"]["rows"].to_string().contains('#'),
            "{trouble}"
        );
    }
}

#[test]
fn the_fault_of_each_sensor_is_told_by_name_and_goes() {
    let mut bench = Bench::new();
    bench.hold(1.5);
    for (trouble, fault) in [
        (BridgeTrouble::Silent, Fault::BridgeTimeout),
        (BridgeTrouble::HighRail, Fault::BridgeHighRail),
        (BridgeTrouble::LowRail, Fault::BridgeLowRail),
        (BridgeTrouble::Frozen, Fault::BridgeFrozen),
        (BridgeTrouble::DataLow, Fault::BridgeOutOfStep),
    ] {
        bench.readings.clear();
        bench.bridge = trouble;
        bench.hold(2.5);
        let told = bench
            .readings
            .iter()
            .any(|reading| reading.faults.contains(fault));
        assert!(told, "{trouble:?}: {:?}", bench.reading().faults);
        bench.bridge = BridgeTrouble::None;
        bench.hold(2.5);
        assert!(!bench.reading().faults.contains(fault), "{trouble:?} stays");
    }
    for (trouble, fault) in [
        (ProbeTrouble::Open, Fault::ProbeOpen),
        (ProbeTrouble::ShortToGround, Fault::ProbeShortToGround),
        (ProbeTrouble::ShortToSupply, Fault::ProbeShortToSupply),
        (ProbeTrouble::DataLow, Fault::ProbeSilent),
    ] {
        bench.probe = trouble;
        bench.hold(0.6);
        assert!(bench.reading().faults.contains(fault), "{trouble:?}");
        assert_eq!(bench.reading().temperature, None);
        bench.probe = ProbeTrouble::None;
        bench.hold(0.6);
        assert!(!bench.reading().faults.contains(fault), "{trouble:?} stays");
        assert!(bench.reading().temperature.is_some());
    }
    assert_eq!(bench.last.resets, 0);
}

/// Most boards of the converter come strapped to 10 a second.
#[test]
fn a_converter_strapped_to_ten_a_second_weighs() {
    let mut bench = Bench::new();
    bench.period = 100_000;
    bench.hold(2.0);
    bench.calibrate();
    bench.grams = 300.0;
    bench.readings.clear();
    bench.hold(4.0);
    let none = bench
        .readings
        .iter()
        .all(|reading| reading.faults.is_empty());
    assert!(none, "{:?}", bench.reading().faults);
    let gross = bench.reading().gross.expect("a weight");
    assert!((gross - Mass::from_grams(300)).abs() <= CLOSE, "{gross:?}");
    bench.ask(Command::Diagnose).unwrap();
    let told = bench.diagnosis.expect("a diagnosis");
    let rate = told.rate_millihertz.expect("a rate");
    assert!((9_900..=10_100).contains(&rate), "{rate}");
}

/// A type T probe reads another temperature from the same voltage.
#[test]
fn the_probes_type_is_set_over_the_link_and_kept() {
    let mut bench = Bench::new();
    bench.hold(1.0);
    let as_k = bench.reading().temperature.expect("a temperature");
    bench
        .ask(Command::Set(Setting::Probe(ProbeType::S)))
        .unwrap();
    bench.hold(0.5);
    let as_s = bench.reading().temperature.expect("a temperature");
    assert_ne!(as_k, as_s);
    bench.board.power_off().unwrap();
    bench.power_on(8);
    bench.readings.clear();
    bench.hold(1.0);
    assert_eq!(bench.reading().temperature, Some(as_s));
}

/// What was sent was on record by then: after a cut in the middle of any change
/// of the flash it is sent again, until somebody has it. And the scale is still
/// calibrated.
#[test]
fn portions_outlive_power_cuts_in_the_middle_of_changes_of_the_flash() {
    let mut bench = Bench::new();
    bench.acknowledges = false;
    bench.calibrate();
    let mut cuts = 0;
    let mut chance: u32 = 41;
    for round in 0..6 {
        bench.grams = 900.0;
        bench.hello();
        bench.start_taking();
        bench.take_out(30.0);
        chance = chance.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let calls = 1 + (chance >> 28) % 4;
        bench
            .board
            .cut_in_flash(calls, f64::from(chance >> 16 & 0xFF) / 256.0)
            .unwrap();
        let before: Vec<PortionId> = bench.portions.iter().map(|portion| portion.id).collect();
        assert!(before.len() > round / 2, "it portions: {}", before.len());
        let mut powered = true;
        for _ in 0..6 {
            powered = powered && bench.take_out(30.0);
        }
        assert!(!powered, "round {round}: the power did not go");
        cuts += 1;
        // Captured meanwhile, and sent.
        let sent: Vec<PortionId> = bench.portions.iter().map(|portion| portion.id).collect();
        bench.portions.clear();
        bench.power_on(100 + round as u32);
        bench.readings.clear();
        // It sends the four oldest again and again: take them one by one.
        bench.acknowledges = round % 3 == 2;
        bench.hold(1.5);
        assert_eq!(bench.last.resets, 0);
        assert!(
            !bench.reading().faults.contains(Fault::Uncalibrated),
            "round {round}"
        );
        let waiting = usize::from(bench.reading().unsent)
            + usize::from(bench.acknowledges) * bench.portions.len();
        assert!(
            waiting >= sent.len().min(4),
            "round {round}: {waiting} of {}",
            sent.len()
        );
        for id in sent.iter().take(4) {
            assert!(
                bench.portions.iter().any(|portion| portion.id == *id),
                "{id} is lost"
            );
        }
        if bench.acknowledges {
            bench.hold(3.0);
            assert_eq!(bench.reading().unsent, 0, "round {round}");
            bench.portions.clear();
            bench.acknowledges = false;
        } else {
            // Those that are further back have not come yet.
            for id in sent {
                if bench.portions.iter().all(|portion| portion.id != id) {
                    bench.portions.push(CapturedPortion {
                        id,
                        ..bench.portions[0]
                    });
                }
            }
        }
    }
    assert_eq!(cuts, 6);
    // Everything that was acknowledged can be had once more.
    bench.acknowledges = true;
    bench.hello();
    bench.hold(3.0);
    if bench.reading().run.is_some() {
        bench.ask(Command::StopRun).unwrap();
        bench.hold(2.0);
    }
    bench.portions.clear();
    bench.ask(Command::Recall).unwrap();
    bench.hold(5.0);
    let Some(Notice::Recalled(many)) = bench.notices.last() else {
        panic!("{:?}", bench.notices.last());
    };
    assert!(*many >= 6, "{many}");
    assert!(bench.portions.len() >= 6, "{}", bench.portions.len());
}

// ---- with the desktop program -----------------------------------------------

/// A pseudo-terminal: the desktop's port.
struct Port {
    near: File,
    path: String,
    /// Held, so that the port stays when nobody has it open.
    _far: OwnedFd,
}

impl Port {
    fn new() -> Self {
        let pair = nix::pty::openpty(None, None).unwrap();
        let mut settings = tcgetattr(&pair.slave).unwrap();
        cfmakeraw(&mut settings);
        tcsetattr(&pair.slave, SetArg::TCSANOW, &settings).unwrap();
        fcntl(&pair.master, FcntlArg::F_SETFL(OFlag::O_NONBLOCK)).unwrap();
        let path = ttyname(&pair.slave).unwrap().display().to_string();
        Self {
            near: File::from(pair.master),
            path,
            _far: pair.slave,
        }
    }

    fn came(&mut self) -> Vec<u8> {
        let mut bytes = [0; 4_096];
        match self.near.read(&mut bytes) {
            Ok(count) => bytes[..count].to_vec(),
            Err(_) => Vec::new(),
        }
    }

    fn send(&mut self, bytes: &[u8]) {
        // Full where nobody reads: a real port drops it too.
        let _ = self.near.write(bytes);
    }
}

/// What a program says, as it says it.
fn listen(stream: impl Read + Send + 'static) -> Arc<Mutex<String>> {
    let said = Arc::new(Mutex::new(String::new()));
    let to = said.clone();
    std::thread::spawn(move || {
        let mut stream = stream;
        let mut bytes = [0; 1_024];
        while let Ok(count) = stream.read(&mut bytes)
            && count > 0
        {
            let text = String::from_utf8_lossy(&bytes[..count]);
            to.lock().unwrap().push_str(&text);
        }
    });
    said
}

fn ended(program: &mut Child) -> bool {
    program.try_wait().unwrap().is_some()
}

/// Calibrated by `evenhand scale calibrate` and then portioning by `evenhand
/// portion`, both at the USB port of the emulated chip.
fn a_run_over_usb(scenario: &str, mode: &str) {
    let scenario = Scenario::shipped(scenario).unwrap();
    let mut feeder = Feeder::new(&scenario, scenario.seed());
    let Feed::Start(start) = feeder.next(1) else {
        panic!("no start");
    };
    let counts = |grams: f64| {
        let span = f64::from(start.calibration_span - start.calibration_zero);
        f64::from(start.calibration_zero) + span * grams * 1e6 / start.calibration_micrograms as f64
    };
    let mut bench = Bench::new();
    let on_pan = |grams: f64| (counts(grams) - ZERO) / GRAM;
    bench.grams = on_pan(0.0);
    let mut port = Port::new();
    let data = tempfile::tempdir().unwrap();
    let program = evenhand().unwrap_or_else(|error| panic!("{error}"));

    let mut calibrating = std::process::Command::new(&program)
        .args(["scale", "calibrate", "--weight", "200g", "--weight", "500g"])
        .args(["--port", &port.path, "--data"])
        .arg(data.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let told = listen(calibrating.stdout.take().unwrap());
    let asked = listen(calibrating.stderr.take().unwrap());
    let mut answers = calibrating.stdin.take().unwrap();
    let mut done = 0;
    while !ended(&mut calibrating) {
        let prompts = asked.lock().unwrap().matches("press Enter").count();
        if prompts > done {
            bench.grams = on_pan([0.0, 200.0, 500.0][done]);
            exchange(&mut bench, &mut port, 2.0);
            done += 1;
            answers.write_all(b"\n").unwrap();
        }
        exchange(&mut bench, &mut port, 0.05);
    }
    let asked = asked.lock().unwrap().clone();
    assert!(calibrating.wait().unwrap().success(), "{asked}");
    assert_eq!(done, 3);
    assert!(told.lock().unwrap().contains("calibrated with 3 points"));
    bench.grams = on_pan(0.0);
    exchange(&mut bench, &mut port, 2.0);

    let goal = scenario.goal();
    let grams = |mass: Mass| format!("{}g", mass.grams());
    let mut portioning = std::process::Command::new(&program)
        .args(["portion", "--port", &port.path, mode, "--json", "--data"])
        .arg(data.path())
        .args(["--dish", scenario.dish()])
        .args(["--target", &grams(goal.target())])
        .args(["--below", &grams(goal.tolerance().below)])
        .args(["--above", &grams(goal.tolerance().above)])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let out = listen(portioning.stdout.take().unwrap());
    let complaints = listen(portioning.stderr.take().unwrap());
    let offset = bench.micros;
    while !feeder.is_over() {
        let Feed::Batch(mut batch) = feeder.next(4) else {
            panic!("the power does not go here");
        };
        batch.first_micros += offset;
        bench.micros = batch.end_micros();
        let ran = bench.board.run(&batch, &port.came()).unwrap();
        port.send(&ran.usb);
        for byte in &ran.usb {
            if let Some(Ok(envelope)) = bench.reader.push(*byte)
                && let Report::Reading(reading) = envelope.message
            {
                bench.readings.push(reading);
            }
        }
        let reading = bench.reading();
        let lit = |is: bool, output: Outputs| if is { output.0 } else { 0 };
        feeder.answered(&Fed {
            micros: ran.micros - offset,
            outputs: Outputs(
                lit(reading.stable, Outputs::STEADY) | lit(reading.run.is_some(), Outputs::RUNNING),
            ),
            effort: Effort::default(),
        });
        assert!(!ended(&mut portioning), "{}", complaints.lock().unwrap());
    }
    kill(
        Pid::from_raw(portioning.id().try_into().unwrap()),
        Signal::SIGINT,
    )
    .unwrap();
    bench.grams = on_pan(0.0);
    while !ended(&mut portioning) {
        exchange(&mut bench, &mut port, 0.05);
    }
    assert!(
        portioning.wait().unwrap().success(),
        "{}",
        complaints.lock().unwrap()
    );
    drop(out);
    compare(&program, data.path(), &feeder);
}

/// Time passes with the bytes of the port going to and fro.
fn exchange(bench: &mut Bench, port: &mut Port, seconds: f64) {
    let end = bench.micros + (seconds * 1e6) as u64;
    while bench.micros < end {
        bench.out = port.came();
        let mut batch = Batch {
            first_micros: bench.micros + u64::from(PERIOD),
            period_micros: PERIOD,
            probe_word: ProbeWord::healthy(97, 376).0,
            ..Batch::default()
        };
        for _ in 0..4 {
            bench.ripple = bench
                .ripple
                .wrapping_mul(1_664_525)
                .wrapping_add(1_013_904_223);
            let noise = f64::from(bench.ripple >> 24) / 8.0 - 16.0;
            let counts = (ZERO + bench.grams * GRAM + noise) as i32;
            batch.counts.push(counts).unwrap();
        }
        bench.micros = batch.end_micros();
        let out = core::mem::take(&mut bench.out);
        let ran = bench.board.run(&batch, &out).unwrap();
        port.send(&ran.usb);
    }
}

/// What is on record are the portions that were really made, each once.
fn compare(program: &Path, data: &Path, feeder: &Feeder) {
    let export = std::process::Command::new(program)
        .args(["export", "--format", "json", "--out", "-", "--data"])
        .arg(data)
        .output()
        .unwrap();
    let rows: Vec<Value> = serde_json::from_slice(&export.stdout).unwrap();
    let kept: Vec<f64> = rows
        .iter()
        .filter(|row| row["counts"] == true)
        .map(|row| row["grams"].as_f64().unwrap())
        .collect();
    let truth: Vec<f64> = feeder.truth().iter().map(|one| one.mass.grams()).collect();
    assert!(truth.len() >= 10, "{}", truth.len());
    assert_eq!(kept.len(), truth.len(), "{kept:?} {truth:?}");
    for (kept, truth) in kept.iter().zip(&truth) {
        // The weights' own limits come on top of what is weighed.
        assert!(
            (kept - truth).abs() <= CLOSE.grams(),
            "{kept} g recorded, {truth} g true"
        );
    }
}

#[test]
fn spoonfuls_go_from_the_usb_port_to_the_record() {
    a_run_over_usb("saltmarsh-shrimp-taking", "--taking");
}

#[test]
fn dishes_go_from_the_usb_port_to_the_record() {
    a_run_over_usb("saltmarsh-hogget-neck-adding", "--adding");
}
