//! The very file that is copied onto an RP2040 board, started on an emulator of
//! its chip: `scripts/flashed-image`. What the emulator cannot show is in
//! `firmware/boards/pico/emulated/README.md`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_protocol::{
    Command, DeviceId, Diagnosis, Envelope, Fault, Hello, KnownWeight, Mass, ProbeType, Reader,
    Reading, Refusal, Report, Setting, UnixMillis, Uptime, Version, frame,
};
use evenhand_simulator::chips::{BridgeTrouble, ProbeTrouble, ProbeWord};
use evenhand_simulator::feed::Batch;
use evenhand_tests::flashed_board::{FlashedBoard, Ran};
use serde_json::{Value, json};

/// The number of the emulated flash chip, and so of the device.
const DEVICE: DeviceId = DeviceId(0xE660_4104_033A_7B21);
const SERIAL: &str = "e6604104033a7b21";
/// What the emulated cell gives: an empty pan, and a gram, in counts.
const ZERO: f64 = 84_000.0;
const GRAM: f64 = 2_097.0;
const PERIOD: u32 = 12_500;
/// How far a recorded portion may be from the true one.
const CLOSE: Mass = Mass::from_milligrams(100);
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
            out: Vec::new(),
            hellos: Vec::new(),
            readings: Vec::new(),
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

    /// Lets time pass.
    fn hold(&mut self, seconds: f64) {
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
            self.last = ran;
        }
    }

    fn hear(&mut self, report: Report) {
        match report {
            Report::Hello(hello) => self.hellos.push(hello),
            Report::Reading(reading) => self.readings.push(reading),
            Report::Reply { outcome, .. } => self.replies.push(outcome),
            Report::Diagnosis(diagnosis) => self.diagnosis = Some(diagnosis),
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
    // The outbox and everything else that lasts is made by now.
    let free = seen["ram"]["free"].as_u64().expect("bytes");
    assert!(free >= SPARE_RAM, "{free}");
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
