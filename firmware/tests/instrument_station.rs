//! The station: drivers, instrument and line.

use evenhand_firmware::drivers::{Bridge, Probe};
use evenhand_firmware::instrument::Setup;
use evenhand_firmware::portion::PortionSettings;
use evenhand_firmware::remembered::Remembered;
use evenhand_firmware::sensor::{BridgeFault, Counts, ProbeFault, ProbeSample};
use evenhand_firmware::signal::{Calibration, CellFigures, Point, Settings};
use evenhand_firmware::station::Station;
use evenhand_protocol::frame::{self, MAX_FRAME};
use evenhand_protocol::reader::SequenceWatch;
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{
    Command, DeviceId, Envelope, Epoch, Fault, Mass, Reader, Refusal, Report, Temperature,
    UnixMillis, Version,
};

/// Eighty conversions a second of one load, until it is broken.
#[derive(Debug)]
struct Cell {
    counts: i32,
    next_micros: u64,
    broken: bool,
}

impl Bridge for Cell {
    fn poll(&mut self, now_micros: u64) -> nb::Result<Counts, BridgeFault> {
        if self.broken {
            return Err(nb::Error::Other(BridgeFault::Timeout));
        }
        if now_micros < self.next_micros {
            return Err(nb::Error::WouldBlock);
        }
        self.next_micros += 12_500;
        // A few counts of noise, else nothing can be told of stability.
        let noise = (self.next_micros / 12_500 * 7_919 % 41) as i32 - 20;
        Ok(Counts(self.counts + noise))
    }
}

#[derive(Debug)]
struct Tip;

impl Probe for Tip {
    fn poll(&mut self, now_micros: u64) -> nb::Result<ProbeSample, ProbeFault> {
        if now_micros.is_multiple_of(100_000) {
            Ok(ProbeSample {
                hot: Temperature::from_millicelsius(4_000),
                cold: Temperature::from_millicelsius(21_000),
            })
        } else {
            Err(nb::Error::WouldBlock)
        }
    }
}

fn station() -> Station<Cell, Tip> {
    let calibration = Calibration::from_points(&[
        Point::exact(Mass::ZERO, Counts(0)),
        Point::exact(Mass::from_grams(1_000), Counts(2_000_000)),
    ])
    .unwrap();
    Station::new(
        Cell {
            counts: 0,
            next_micros: 12_500,
            broken: false,
        },
        Tip,
        Setup {
            device: DeviceId(1),
            epoch: Epoch(1),
            settings: Settings::BENCH_1KG,
            calibration: Some(calibration),
            portion: PortionSettings::BENCH,
            capabilities: Capabilities::PROBE,
            remembered: Remembered::NOTHING,
            figures: CellFigures::TYPICAL_1KG,
        },
    )
}

/// Runs for so many milliseconds and gives every byte that was sent.
fn run(station: &mut Station<Cell, Tip>, from_millis: u64, millis: u64) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut out = [0; MAX_FRAME];
    for millis in from_millis..from_millis + millis {
        station.poll(millis * 1_000);
        loop {
            let length = station.transmit(millis * 1_000, &mut out);
            if length == 0 {
                break;
            }
            bytes.extend_from_slice(&out[..length]);
        }
    }
    bytes
}

fn read(bytes: &[u8]) -> Vec<Envelope<Report>> {
    let mut reader = Reader::<Report>::new();
    bytes
        .iter()
        .filter_map(|byte| reader.push(*byte))
        .map(|message| message.expect("every frame is whole"))
        .collect()
}

fn send(station: &mut Station<Cell, Tip>, sequence: u16, message: Command) {
    let mut out = [0; MAX_FRAME];
    let length = frame::encode(&Envelope { sequence, message }, &mut out).unwrap();
    for byte in &out[..length] {
        station.receive(*byte);
    }
}

#[test]
fn it_starts_with_a_zero_and_numbers_its_frames() {
    let mut station = station();
    let bytes = run(&mut station, 1, 3_000);
    assert_eq!(bytes[0], 0);
    let reports = read(&bytes);
    assert!(matches!(reports[0].message, Report::Hello(_)));
    let mut watch = SequenceWatch::default();
    for report in &reports {
        watch.take(report.sequence);
    }
    assert_eq!((watch.missed, watch.repeated), (0, 0));
    match reports.last().unwrap().message {
        Report::Reading(reading) => {
            assert!(reading.gross.unwrap().abs() < Mass::from_milligrams(100));
            assert!(reading.stable);
            assert_eq!(
                reading.temperature,
                Some(Temperature::from_millicelsius(4_000))
            );
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_command_comes_in_and_its_reply_goes_out() {
    let mut station = station();
    run(&mut station, 1, 1_000);
    send(
        &mut station,
        40,
        Command::Hello {
            version: Version::CURRENT,
            now: UnixMillis::from_millis(0),
        },
    );
    send(&mut station, 41, Command::StopRun);
    let reports = read(&run(&mut station, 1_001, 50));
    assert!(matches!(
        reports[0].message,
        Report::Reply {
            to: 41,
            outcome: Err(Refusal::NoRun)
        }
    ));
    assert!(matches!(reports[1].message, Report::Hello(_)));
}

#[test]
fn a_frame_cut_short_and_garbage_block_nothing() {
    let mut station = station();
    run(&mut station, 1, 1_000);
    let mut out = [0; MAX_FRAME];
    let length = frame::encode(
        &Envelope {
            sequence: 1,
            message: Command::Tare,
        },
        &mut out,
    )
    .unwrap();
    for byte in &out[..length / 2] {
        station.receive(*byte);
    }
    let reports = read(&run(&mut station, 1_001, 1_000));
    assert!(reports.len() >= 8, "it goes on reading");
    for byte in 0..=255u8 {
        station.receive(byte);
    }
    station.receive(0);
    send(&mut station, 2, Command::Tare);
    let reports = read(&run(&mut station, 2_001, 50));
    assert!(
        reports
            .iter()
            .any(|report| matches!(report.message, Report::Reply { to: 2, .. }))
    );
}

#[test]
fn a_broken_bridge_is_told_and_does_not_hold_up_the_line() {
    let mut station = station();
    run(&mut station, 1, 1_000);
    station.drivers_mut().0.broken = true;
    let reports = read(&run(&mut station, 1_001, 1_000));
    let told = reports
        .iter()
        .filter(|report| {
            matches!(
                report.message,
                Report::Fault {
                    fault: Fault::BridgeTimeout,
                    present: true,
                    ..
                }
            )
        })
        .count();
    assert_eq!(told, 1);
    match reports.last().unwrap().message {
        Report::Reading(reading) => assert_eq!(reading.gross, None),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_clock_that_steps_back_is_not_believed() {
    let mut station = station();
    run(&mut station, 5_000, 1_000);
    let bytes = run(&mut station, 1, 500);
    for report in read(&bytes) {
        if let Report::Reading(reading) = report.message {
            assert!(reading.at.millis() >= 5_999);
        }
    }
    assert!(!read(&run(&mut station, 6_100, 500)).is_empty());
}
