//! What travels between the host and an emulated board.

use evenhand_firmware::signals::Signals;
use evenhand_protocol::{Command, DeviceId, Envelope, Epoch, FrameError, Reader, frame};
use evenhand_simulator::chips::{BridgeTrouble, Chips, ProbeTrouble};
use evenhand_simulator::feed::{BATCH, Batch, Effort, Fed, Feed, Outputs, Start, Work};

const MOST: Work = Work {
    pieces: u32::MAX,
    ticks: u64::MAX,
    longest: u32::MAX,
};

fn there_and_back(message: Feed) -> usize {
    let sent = Envelope {
        sequence: 65_535,
        message,
    };
    let mut bytes = [0; frame::MAX_FRAME];
    let length = frame::encode(&sent, &mut bytes).unwrap();
    let mut reader = Reader::<Feed>::new();
    let got = bytes[..length].iter().find_map(|byte| reader.push(*byte));
    assert_eq!(got, Some(Ok(sent)));
    let mut host_link = Reader::<Command>::new();
    let got = bytes[..length]
        .iter()
        .find_map(|byte| host_link.push(*byte));
    assert_eq!(got, Some(Err(FrameError::WrongDirection)));
    length
}

#[test]
fn the_largest_messages_fit_in_a_frame() {
    there_and_back(Feed::Batch(Batch {
        first_micros: u64::MAX,
        period_micros: u32::MAX,
        counts: [i32::MIN; BATCH].into_iter().collect(),
        bridge: BridgeTrouble::PinError,
        probe_word: u32::MAX,
        probe: ProbeTrouble::Frozen,
    }));
    there_and_back(Feed::Start(Start {
        device: DeviceId(u64::MAX),
        epoch: Epoch(u32::MAX),
        calibration_zero: i32::MIN,
        calibration_span: i32::MIN,
        calibration_micrograms: i64::MIN,
        capacity_micrograms: i64::MIN,
        rate: u8::MAX,
    }));
    let sent = Envelope {
        sequence: 1,
        message: Fed {
            micros: u64::MAX,
            outputs: Outputs(u8::MAX),
            effort: Effort {
                stack_used: u32::MAX,
                stack_size: u32::MAX,
                instrument: MOST,
                drivers: MOST,
                frames: MOST,
            },
        },
    };
    let mut bytes = [0; frame::MAX_FRAME];
    let length = frame::encode(&sent, &mut bytes).unwrap();
    let mut reader = Reader::<Fed>::new();
    let got = bytes[..length].iter().find_map(|byte| reader.push(*byte));
    assert_eq!(got, Some(Ok(sent)));
}

#[test]
fn a_conversion_costs_at_most_four_bytes_and_a_little() {
    let batch = |counts: usize| {
        there_and_back(Feed::Batch(Batch {
            first_micros: 3_600_000_000,
            period_micros: 12_500,
            counts: (0..counts).map(|_| -0x7F_FFFF).collect(),
            ..Batch::default()
        }))
    };
    assert_eq!(batch(BATCH) - batch(0), 4 * BATCH);
    assert!(batch(0) <= 24);
}

#[test]
fn a_batch_puts_each_conversion_at_its_time() {
    let chips = Chips::default();
    let batch = Batch {
        first_micros: 1_000,
        period_micros: 12_500,
        counts: heapless::Vec::from_slice(&[5, 6, 7]).unwrap(),
        ..Batch::default()
    };
    batch.load(&chips);
    for index in 0..3 {
        chips.clock.set_micros(batch.micros(index) - 1);
        assert!(!chips.bridge.is_powered_down(chips.clock.nanos()));
        assert_eq!(chips.bridge.counters().conversions as usize, index);
        chips.clock.set_micros(batch.micros(index));
        assert!(!chips.bridge.is_powered_down(chips.clock.nanos()));
        assert_eq!(chips.bridge.counters().conversions as usize, index + 1);
    }
    assert_eq!(batch.end_micros(), 26_000);
    let polls: Vec<u64> = batch.polls().collect();
    assert_eq!(polls.len(), 15);
    assert_eq!(polls[..6], [1_000, 3_500, 6_000, 8_500, 11_000, 13_500]);
}

#[test]
fn a_board_starts_as_the_scale_that_was_calibrated() {
    let start = Start {
        device: DeviceId(7),
        epoch: Epoch(3),
        calibration_zero: 10_000,
        calibration_span: 1_010_000,
        calibration_micrograms: 500_000_000,
        capacity_micrograms: 2_000_000_000,
        rate: 10,
    };
    let setup = start.setup();
    assert_eq!((setup.device, setup.epoch), (DeviceId(7), Epoch(3)));
    assert_eq!(setup.settings.capacity.micrograms(), 2_000_000_000);
    assert_eq!(setup.settings.rate, 10);
    let calibration = setup.calibration.unwrap();
    assert_eq!(calibration.counts_per_gram(), 2_000.0);
    assert_eq!(calibration.zero_counts(), 10_000.0);
    // Two points on top of each other make no calibration, and no guess.
    let none = Start {
        calibration_span: 10_001,
        ..start
    };
    assert!(none.setup().calibration.is_none());
}

#[test]
fn each_output_has_its_own_bit() {
    let signals = Signals {
        on: true,
        buzzer: true,
        ..Signals::default()
    };
    let outputs = Outputs::of(signals, true, false);
    for (lit, output) in [
        (false, Outputs::SHORT),
        (true, Outputs::ON),
        (false, Outputs::HEAVY),
        (true, Outputs::BUZZER),
        (true, Outputs::STEADY),
        (false, Outputs::RUNNING),
    ] {
        assert_eq!(outputs.has(output), lit, "{output:?}");
    }
}

#[test]
fn work_adds_up() {
    let mut work = Work::default();
    work.add(3);
    work.add(5);
    work.add(4);
    assert_eq!((work.pieces, work.ticks, work.longest), (3, 12, 5));
}
