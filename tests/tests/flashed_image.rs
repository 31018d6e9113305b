//! The very file that is copied onto an RP2040 board, started on an emulator of
//! its chip: `scripts/flashed-image`. What the emulator cannot show is in
//! `firmware/boards/pico/emulated/README.md`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_protocol::{
    CapturedPortion, Command, DeviceId, Diagnosis, Envelope, Fault, Goal, Hello, KnownWeight, Mass,
    Mode, ProbeType, Reader, Reading, Refusal, Report, RunId, Setting, Tolerance, UnixMillis,
    Uptime, Version, frame,
};
use evenhand_simulator::chips::{BridgeTrouble, ProbeTrouble, ProbeWord};
use evenhand_simulator::feed::Batch;
use evenhand_tests::flashed_board::{FlashedBoard, Ran};
use evenhand_tests::process::evenhand;
use evenhand_tests::relay::DesktopEnd;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::process::Stdio;
use std::sync::mpsc;
use std::thread;

/// The number of the emulated flash chip, and so of the device.
const DEVICE: DeviceId = DeviceId(0xE660_4104_033A_7B21);
const SERIAL: &str = "e6604104033a7b21";
/// What the emulated cell gives: an empty pan, and a gram, in counts.
const ZERO: f64 = 84_000.0;
const GRAM: f64 = 2_097.0;
const PERIOD: u32 = 12_500;
/// How far a recorded portion may be from the true one.
const CLOSE: Mass = Mass::from_milligrams(100);
/// What a cook handles, in grams.
const TIN: f64 = 900.0;
const DISH: f64 = 140.0;
const PORTION: f64 = 30.0;
/// How often a program that has just been started is waited for, a tenth of a second of the
/// board's time each.
const PATIENCE: usize = 3_000;
/// What must stay untouched of the board's 256 KiB of RAM, in bytes.
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
    out: Vec<u8>,
    hellos: Vec<Hello>,
    readings: Vec<Reading>,
    replies: Vec<Result<(), Refusal>>,
    portions: Vec<CapturedPortion>,
    diagnosis: Option<Diagnosis>,
    bytes: usize,
    last: Ran,
    /// The port of another program, which then speaks with the board.
    cable: Option<DesktopEnd>,
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
            out: Vec::new(),
            hellos: Vec::new(),
            readings: Vec::new(),
            replies: Vec::new(),
            portions: Vec::new(),
            diagnosis: None,
            bytes: 0,
            last: Ran::default(),
            cable: None,
        }
    }

    fn power_on(&mut self, chance: u32) {
        self.board.power_on(&json!({ "chance": chance })).unwrap();
        self.reader = Reader::new();
        self.micros = 0;
        self.out.clear();
        self.last = Ran::default();
    }

    /// Puts a load on, and waits as a cook does.
    fn load(&mut self, grams: f64) {
        self.grams = grams;
        self.hold(2.5);
    }

    /// A full tin, so many spoonfuls out of it, and the tin away.
    fn spoonfuls(&mut self, count: u32) {
        self.load(TIN);
        for taken in 1..=count {
            self.load(TIN - PORTION * f64::from(taken));
        }
        self.load(0.0);
    }

    /// So many empty dishes, each filled in two goes and lifted off.
    fn dishes(&mut self, count: u32) {
        for _ in 0..count {
            self.load(DISH);
            self.load(DISH + PORTION / 2.0);
            self.load(DISH + PORTION);
            self.load(0.0);
        }
    }

    /// Acknowledges what comes until nothing waits any more.
    fn acknowledge_all(&mut self) {
        let mut done = 0;
        while self.reading().unsent > 0 {
            let heard = self.portions.len();
            for place in done..heard {
                self.say(Command::Acknowledge(self.portions[place].id));
            }
            done = heard;
            self.hold(1.0);
            assert!(
                self.portions.len() > done || self.reading().unsent == 0,
                "{} wait and do not come",
                self.reading().unsent
            );
        }
    }

    fn start(&mut self, mode: Mode) {
        let target = Mass::from_grams(PORTION as i64);
        let tolerance = Tolerance::symmetric(Mass::from_grams(1));
        let goal = Goal::new(target, tolerance).unwrap();
        let run = RunId(1);
        self.ask(Command::StartRun { run, mode, goal }).unwrap();
    }

    /// Lets time pass, to where the power goes at the most.
    fn hold(&mut self, seconds: f64) {
        let end = self.micros + (seconds * 1e6) as u64;
        while self.micros < end && !self.last.cut {
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
            let mut out = core::mem::take(&mut self.out);
            if let Some(cable) = &self.cable {
                out.extend(cable.read().unwrap());
            }
            let ran = self.board.run(&batch, &out).unwrap();
            self.bytes += ran.usb.len();
            if let Some(cable) = &self.cable {
                cable.write(&ran.usb).unwrap();
            }
            for byte in &ran.usb {
                if let Some(Ok(envelope)) = self.reader.push(*byte) {
                    self.hear(envelope.message);
                }
            }
            self.last = ran;
        }
    }

    fn hear(&mut self, report: Report) {
        match report {
            Report::Hello(hello) => self.hellos.push(hello),
            Report::Reading(reading) => self.readings.push(reading),
            Report::Reply { outcome, .. } => self.replies.push(outcome),
            Report::Diagnosis(diagnosis) => self.diagnosis = Some(diagnosis),
            // Each comes again until it is acknowledged.
            Report::Portion(portion) if !self.portions.contains(&portion) => {
                self.portions.push(portion);
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

    /// RAM between what lasts and the deepest that the stack has been, which nothing has
    /// written to since the power came.
    fn assert_ram_is_spare(&mut self) {
        let seen = self.board.look().unwrap();
        let free = seen["ram"]["free"].as_u64().expect("bytes");
        assert!(free >= SPARE_RAM, "{free}");
    }

    fn reading(&self) -> &Reading {
        self.readings.last().expect("a reading")
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
    bench.assert_ram_is_spare();
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

/// Drawing takes the processor from the converter: a conversion that is read too late is
/// given up, and with it the rest that a portion waits for.
#[test]
fn portions_are_captured_while_the_display_is_drawn() {
    let mut bench = Bench::new();
    bench.hold(1.5);
    bench.calibrate();
    bench.load(0.0);
    bench.ask(Command::Diagnose).unwrap();
    let drawn = bench.board.look().unwrap()["display"]["bytes"].as_u64();
    assert!(
        drawn > Some(20 * 1_024),
        "the witness: it draws, {drawn:?} bytes"
    );
    // Before there is a portion for the flash, a write of which also takes its time.
    let told = bench.diagnosis.expect("a diagnosis");
    assert_eq!((told.doubtful_reads, told.bridge_faults), (0, 0));
    let rate = told.rate_millihertz.expect("a rate");
    assert!((79_000..=81_000).contains(&rate), "{rate}");
    bench.start(Mode::Taking);
    bench.spoonfuls(5);
    bench.acknowledge_all();
    assert_eq!(bench.portions.len(), 5, "{:?}", bench.portions);
    for portion in &bench.portions {
        let off = portion.mass - Mass::from_grams(PORTION as i64);
        assert!(off.abs() <= CLOSE, "{portion:?}");
    }
}

/// The desktop program at the port of the flashed image: twenty portions, on record once and
/// true.
fn twenty_portions(mode: &str, cook: fn(&mut Bench, u32)) {
    let mut bench = Bench::new();
    bench.hold(1.0);
    bench.calibrate();
    bench.load(0.0);
    let data = tempfile::tempdir().unwrap();
    let port = data.path().join("port");
    bench.cable = Some(DesktopEnd::open(&port).unwrap());
    let program = evenhand().unwrap_or_else(|error| panic!("{error}"));
    let mut portioning = std::process::Command::new(program)
        .args(["portion", mode, "--json", "--dish", "Potted shrimp"])
        .args(["--target", "30g", "--tolerance", "1g", "--count", "20"])
        .arg("--port")
        .arg(&port)
        .arg("--data")
        .arg(data.path())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    bench.readings.clear();
    let begun = (0..PATIENCE).any(|_| {
        bench.hold(0.1);
        bench
            .readings
            .last()
            .is_some_and(|reading| reading.run.is_some())
    });
    assert!(begun, "the program begins its run");
    cook(&mut bench, 20);
    let ended = (0..PATIENCE).any(|_| {
        bench.hold(0.1);
        portioning.try_wait().unwrap().is_some()
    });
    assert!(ended, "{} portions came", bench.portions.len());
    let output = portioning.wait_with_output().unwrap();
    assert!(output.status.success());
    bench.assert_ram_is_spare();
    let lines: Vec<Value> = output
        .stdout
        .split(|byte| *byte == b'\n')
        .filter(|line| !line.is_empty())
        .map(|line| serde_json::from_slice(line).unwrap())
        .collect();
    let (summary, portions) = lines.split_last().expect("a summary");
    assert_eq!(summary["summary"]["n"], 20, "{summary}");
    assert_eq!(summary["summary"]["lost"], 0);
    assert_eq!(portions.len(), 20);
    for portion in portions {
        let grams = portion["grams"].as_f64().expect("grams");
        assert!((grams - PORTION).abs() <= CLOSE.grams(), "{portion}");
    }
}

/// Weights are put on when the program has read the one before, as a person does who reads
/// what it says.
#[test]
fn the_command_line_calibrates_the_flashed_image_and_it_is_kept() {
    let mut bench = Bench::new();
    bench.hold(1.0);
    assert!(
        bench.reading().gross.is_none(),
        "the witness: it is not calibrated"
    );
    let data = tempfile::tempdir().unwrap();
    let port = data.path().join("port");
    bench.cable = Some(DesktopEnd::open(&port).unwrap());
    let program = evenhand().unwrap_or_else(|error| panic!("{error}"));
    let mut calibrating = std::process::Command::new(program)
        .args(["scale", "calibrate", "--json"])
        .args(["--weight", "200g", "--weight", "500g", "--port"])
        .arg(&port)
        .arg("--data")
        .arg(data.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut keyboard = calibrating.stdin.take().unwrap();
    let (said, lines) = mpsc::channel();
    let out = BufReader::new(calibrating.stdout.take().unwrap());
    let reading = thread::spawn(move || {
        for line in out.lines() {
            if said.send(line.unwrap()).is_err() {
                break;
            }
        }
    });
    let mut next = |bench: &mut Bench| -> Value {
        let line = (0..PATIENCE).find_map(|_| {
            bench.hold(0.1);
            lines.try_recv().ok()
        });
        serde_json::from_str(&line.expect("a line of the program")).unwrap()
    };
    for (point, grams) in [0.0, 200.0, 500.0].into_iter().enumerate() {
        bench.load(grams);
        keyboard.write_all(b"\n").unwrap();
        let told = next(&mut bench);
        assert_eq!(told["point"], point + 1, "{told}");
        let counts = told["counts"].as_f64().expect("counts");
        let true_counts = ZERO + grams * GRAM;
        assert!((counts - true_counts).abs() < 16.0, "{told}");
    }
    let made = next(&mut bench);
    assert_eq!(made["calibration"]["points"], 3, "{made}");
    let ended = (0..PATIENCE).any(|_| {
        bench.hold(0.1);
        calibrating.try_wait().unwrap().is_some()
    });
    assert!(ended, "the program ends");
    assert!(calibrating.wait().unwrap().success());
    reading.join().unwrap();
    bench.cable = None;
    for life in 0..2 {
        bench.load(300.0);
        bench.hold(1.0);
        let gross = bench.reading().gross.expect("a weight");
        assert!(
            (gross - Mass::from_grams(300)).abs() <= CLOSE,
            "life {life}: {gross:?}"
        );
        bench.board.power_off().unwrap();
        bench.power_on(8 + life);
        bench.readings.clear();
        bench.load(0.0);
    }
}

#[test]
fn twenty_spoonfuls_go_from_the_flashed_image_to_the_store() {
    twenty_portions("--taking", Bench::spoonfuls);
}

#[test]
fn twenty_dishes_go_from_the_flashed_image_to_the_store() {
    twenty_portions("--adding", Bench::dishes);
}

/// What was sent is in the flash: a cut in any change of it loses no portion that a desktop
/// may have seen, and changes none.
#[test]
fn no_portion_that_was_sent_is_lost_or_changed_by_a_power_cut() {
    let mut bench = Bench::with(&json!({ "chance": 7, "display": "absent" }));
    bench.hold(1.0);
    bench.calibrate();
    bench.load(0.0);
    let mut recorded = 0;
    // Which change of the flash, and how much of it is done.
    let cuts = [(4, 0.0), (6, 0.5), (8, 0.9), (8, 0.3), (7, 0.7), (5, 0.95)];
    for (life, (calls, part)) in cuts.into_iter().enumerate() {
        bench.portions.clear();
        bench.start(Mode::Taking);
        bench.board.cut_in_flash(calls, part).unwrap();
        bench.spoonfuls(8);
        assert!(bench.last.cut, "the witness: the power went in life {life}");
        let sent = core::mem::take(&mut bench.portions);
        bench.grams = 0.0;
        bench.power_on(8 + life as u32);
        bench.hold(1.0);
        bench.hello();
        bench.acknowledge_all();
        for portion in &sent {
            let again = bench.portions.iter().filter(|one| one.id == portion.id);
            let again: Vec<_> = again.collect();
            assert_eq!(again, [portion], "life {life}");
        }
        // One whose sending was cut short may be there too: it was captured, and is true.
        for portion in &bench.portions {
            let off = portion.mass - Mass::from_grams(PORTION as i64);
            assert!(off.abs() <= CLOSE, "{portion:?}");
        }
        recorded += bench.portions.len();
    }
    assert!(recorded >= 6, "the witness: {recorded} portions");
}
