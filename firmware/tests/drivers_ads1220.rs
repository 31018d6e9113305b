//! The precision converter's driver: against a bus transcript worked out from
//! the data sheet ("ADS1220", Texas Instruments SBAS501C: section 8.6 registers,
//! 8.5.3 commands, 8.3.13 thermometer, 8.5.2 data format; what of it is from
//! memory the driver's own documentation says), and against a model of the chip
//! with a failure at every bus call.

use std::cell::RefCell;

use embedded_hal::spi::{ErrorKind, ErrorType, Operation, SpiDevice};
use embedded_hal_mock::eh1::spi::{Mock, Transaction};
use evenhand_firmware::drivers::Probe;
use evenhand_firmware::drivers::ads1220::Ads1220;
use evenhand_firmware::sensor::{ProbeFault, ProbeSample};
use evenhand_firmware::thermocouple::Kind;
use evenhand_protocol::Temperature;

fn celsius(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius).unwrap()
}

/// One chip select: bytes out, then bytes in.
fn exchange(send: &[u8], answer: &[u8]) -> Vec<Transaction<u8>> {
    vec![
        Transaction::transaction_start(),
        Transaction::write_vec(send.to_vec()),
        Transaction::read_vec(answer.to_vec()),
        Transaction::transaction_end(),
    ]
}

/// Configure, start, read, read back: with gain code and mode.
fn conversion(gain: u8, mode: u8, code: u32) -> Vec<Transaction<u8>> {
    // 8.6: gain in bits 3 to 1 of register 0; thermometer and burn-out currents
    // in bits 1 and 0 of register 1; own reference, 50 and 60 Hz in register 2.
    let registers = [gain << 1, mode, 0x10, 0x00];
    let [_, high, middle, low] = code.to_be_bytes();
    [
        exchange(
            &[0x43, registers[0], registers[1], registers[2], registers[3]],
            &[],
        ),
        exchange(&[0x08], &[]),
        exchange(&[0x10], &[high, middle, low]),
        exchange(&[0x23], &registers),
    ]
    .concat()
}

/// Plays a transcript with a call every five milliseconds.
fn play(kind: Kind, transcript: &[Transaction<u8>]) -> Vec<Result<ProbeSample, ProbeFault>> {
    let mut bus = Mock::new(transcript);
    let mut probe = Ads1220::new(bus.clone(), kind);
    let exchanges = transcript.len() / 4;
    let mut answers = Vec::new();
    for call in 0..10_000 {
        match probe.poll(call * 5_000) {
            Ok(sample) => answers.push(Ok(sample)),
            Err(nb::Error::Other(fault)) => answers.push(Err(fault)),
            Err(nb::Error::WouldBlock) => {}
        }
        // The driver's next exchange would be one too many.
        if call >= calls_for(exchanges) {
            break;
        }
    }
    bus.done();
    answers
}

/// Calls until so many exchanges are done: each takes one call, and before every
/// read of data 65 ms pass.
fn calls_for(exchanges: usize) -> u64 {
    let reads = (exchanges as u64 - 1) / 4;
    exchanges as u64 - 1 + reads * 12
}

// 8.3.13: 50 degC is 0x0640 and -25 degC 0x3CE0, 14 bits at the upper end. 8.5.2:
// full scale is the reference over the gain, at 2^23.
#[test]
fn voltage_and_cold_junction_become_a_temperature() {
    for (kind, gain, cold_code, code, cold) in [
        (Kind::K, 5, 0x19_0000, 0, 50.0),
        (Kind::K, 5, 0xF3_8000, 0, -25.0),
        (Kind::T, 6, 0x19_0000, 0, 50.0),
        (Kind::J, 4, 0x19_0000, 0, 50.0),
    ] {
        let transcript = [
            exchange(&[0x06], &[]),
            conversion(gain, 0x01, 1_000),
            conversion(gain, 0x02, cold_code),
            conversion(gain, 0x00, code),
        ]
        .concat();
        let answers = play(kind, &transcript);
        // No voltage: the cold junction's own temperature.
        assert_eq!(
            answers,
            [Ok(ProbeSample {
                hot: celsius(cold),
                cold: celsius(cold)
            })]
        );
    }
}

// 1.1 mV with the cold junction at 23 degC is 49.907928 degC (worked example in
// the documentation of thermocouples_reference 0.20). At a gain of 32, 1.1 mV is
// 1.1 / 64 x 2^23 = 144 179 codes, 23 degC is 736 codes of the thermometer.
#[test]
fn the_worked_example_of_the_reference_functions() {
    let transcript = [
        exchange(&[0x06], &[]),
        conversion(5, 0x01, 1_000),
        conversion(5, 0x02, 736 << 10),
        conversion(5, 0x00, 144_179),
    ]
    .concat();
    let answers = play(Kind::K, &transcript);
    let sample = answers[0].unwrap();
    assert_eq!(sample.cold, celsius(23.0));
    assert!((sample.hot.celsius() - 49.907_928).abs() < 0.001_5);
}

#[test]
fn an_open_circuit_is_found_before_anything_is_measured() {
    let transcript = [
        exchange(&[0x06], &[]),
        conversion(5, 0x01, 0x7F_FFFF),
        conversion(5, 0x02, 736 << 10),
        conversion(5, 0x01, 0x7F_FFFF),
        conversion(5, 0x02, 736 << 10),
        // Plugged in.
        conversion(5, 0x01, 90_000),
        conversion(5, 0x02, 736 << 10),
        conversion(5, 0x00, 0),
    ]
    .concat();
    let sample = ProbeSample {
        hot: celsius(23.0),
        cold: celsius(23.0),
    };
    assert_eq!(
        play(Kind::K, &transcript),
        [Err(ProbeFault::Open), Err(ProbeFault::Open), Ok(sample)]
    );
}

#[test]
fn a_voltage_at_the_end_of_the_range_is_open_or_out_of_range() {
    for (check, fault) in [
        (0x7F_FFFF, ProbeFault::Open),
        (0x80_0000, ProbeFault::Open),
        (1_000, ProbeFault::OutOfRange),
    ] {
        let transcript = [
            exchange(&[0x06], &[]),
            conversion(5, 0x01, 1_000),
            conversion(5, 0x02, 736 << 10),
            conversion(5, 0x00, 0x7F_FFFF),
            conversion(5, 0x01, check),
        ]
        .concat();
        assert_eq!(play(Kind::K, &transcript), [Err(fault)]);
    }
    // 60 mV at the input is within the converter's range, not within type K's.
    let transcript = [
        exchange(&[0x06], &[]),
        conversion(5, 0x01, 1_000),
        conversion(5, 0x02, 736 << 10),
        conversion(5, 0x00, 7_864_320),
    ]
    .concat();
    assert_eq!(play(Kind::K, &transcript), [Err(ProbeFault::OutOfRange)]);
}

#[test]
fn every_types_highest_voltage_is_within_its_range() {
    for kind in Kind::ALL {
        let highest = kind.emf(*kind.range().end()).unwrap().millivolts();
        let gain = match kind {
            Kind::J | Kind::E => 16.0,
            Kind::K | Kind::N => 32.0,
            Kind::T | Kind::S | Kind::R | Kind::B => 64.0,
        };
        assert!(highest < 2_048.0 / gain, "{kind:?}");
        assert!(highest > 2_048.0 / gain / 4.0, "{kind:?}: too little gain");
    }
}

#[derive(Clone, Copy, PartialEq, Debug)]
enum Trouble {
    None,
    Open,
    /// Does not drive its data line.
    Low,
    /// The data line floats high.
    High,
    /// It was reset by a dip of the supply.
    Reset,
}

struct Model {
    registers: [u8; 4],
    trouble: Trouble,
    now: u64,
    calls: u32,
    fails: fn(u32, u32) -> bool,
    at: u32,
    /// Measurements started.
    started: u64,
}

impl Model {
    fn new(fails: fn(u32, u32) -> bool, at: u32) -> RefCell<Self> {
        RefCell::new(Self {
            registers: [0; 4],
            trouble: Trouble::None,
            now: 0,
            calls: 0,
            fails,
            at,
            started: 0,
        })
    }

    fn command(&mut self, send: &[u8], answer: &mut [u8]) {
        match send {
            [0x06] => self.registers = [0; 4],
            [0x43, registers @ ..] => self.registers.copy_from_slice(registers),
            [0x23] => answer.copy_from_slice(&self.registers),
            [0x08] => self.started = self.now,
            [0x10] => {
                assert!(self.now - self.started >= 52_000, "read too early");
                let code: u32 = match self.registers[1] {
                    2 => 736 << 10,
                    1 if self.trouble == Trouble::Open => 0x7F_FFFF,
                    _ => 144_179,
                };
                answer.copy_from_slice(&code.to_be_bytes()[1..]);
            }
            other => panic!("{other:02x?}"),
        }
        match self.trouble {
            Trouble::Low => answer.fill(0),
            Trouble::High => answer.fill(0xFF),
            Trouble::Reset => {
                self.registers = [0; 4];
                self.trouble = Trouble::None;
            }
            Trouble::None | Trouble::Open => {}
        }
    }
}

struct Shared<'a>(&'a RefCell<Model>);

impl ErrorType for Shared<'_> {
    type Error = ErrorKind;
}

impl SpiDevice for Shared<'_> {
    fn transaction(&mut self, operations: &mut [Operation<'_, u8>]) -> Result<(), ErrorKind> {
        let mut model = self.0.borrow_mut();
        let call = model.calls;
        model.calls += 1;
        if (model.fails)(call, model.at) {
            return Err(ErrorKind::Other);
        }
        let [Operation::Write(send), Operation::Read(answer)] = operations else {
            panic!("{operations:?}");
        };
        model.command(send, answer);
        Ok(())
    }
}

/// Calls the driver every millisecond until that time.
fn run(
    model: &RefCell<Model>,
    probe: &mut impl Probe,
    until: u64,
) -> Vec<Result<ProbeSample, ProbeFault>> {
    let mut answers = Vec::new();
    let mut now = model.borrow().now;
    while now < until {
        now += 1_000;
        model.borrow_mut().now = now;
        match probe.poll(now) {
            Ok(sample) => answers.push(Ok(sample)),
            Err(nb::Error::Other(fault)) => answers.push(Err(fault)),
            Err(nb::Error::WouldBlock) => {}
        }
    }
    answers
}

fn is_true(sample: ProbeSample) -> bool {
    (sample.hot.celsius() - 49.907_928).abs() < 0.001_5 && sample.cold == celsius(23.0)
}

#[test]
fn one_failure_at_any_bus_call_is_one_typed_error_and_passes() {
    let model = Model::new(|_, _| false, 0);
    let mut probe = Ads1220::new(Shared(&model), Kind::K);
    let answers = run(&model, &mut probe, 3_000_000);
    assert!(answers.len() > 15 && answers.iter().all(|a| is_true(a.unwrap())));
    let total = model.borrow().calls;
    for at in 0..total {
        let model = Model::new(|call, at| call == at, at);
        let mut probe = Ads1220::new(Shared(&model), Kind::K);
        let answers = run(&model, &mut probe, 4_000_000);
        let faults: Vec<_> = answers.iter().filter_map(|a| a.err()).collect();
        assert_eq!(faults, [ProbeFault::Silent], "call {at}");
        assert!(answers.iter().filter_map(|a| a.ok()).all(is_true));
        assert!(answers.last().unwrap().is_ok(), "call {at}");
    }
}

#[test]
fn a_bus_that_fails_for_good_is_silence_for_ever_and_left_in_peace() {
    for at in 0..30 {
        let model = Model::new(|call, at| call >= at, at);
        let mut probe = Ads1220::new(Shared(&model), Kind::K);
        let answers = run(&model, &mut probe, 3_000_000);
        assert_eq!(answers.last(), Some(&Err(ProbeFault::Silent)));
        let faults = answers.iter().filter(|answer| answer.is_err()).count();
        assert!((20..=30).contains(&faults), "ten a second: {faults}");
    }
}

#[test]
fn every_trouble_of_the_probe_has_its_own_fault_and_passes() {
    for (trouble, fault) in [
        (Trouble::Open, ProbeFault::Open),
        (Trouble::Low, ProbeFault::Silent),
        (Trouble::High, ProbeFault::Silent),
        (Trouble::Reset, ProbeFault::Silent),
    ] {
        let model = Model::new(|_, _| false, 0);
        let mut probe = Ads1220::new(Shared(&model), Kind::K);
        assert!(!run(&model, &mut probe, 1_000_000).is_empty());
        model.borrow_mut().trouble = trouble;
        let during = run(&model, &mut probe, 4_000_000);
        assert!(during.contains(&Err(fault)), "{trouble:?}");
        for answer in &during {
            match answer {
                Ok(sample) => assert!(is_true(*sample)),
                Err(told) => assert_eq!(*told, fault),
            }
        }
        model.borrow_mut().trouble = Trouble::None;
        let after = run(&model, &mut probe, 6_000_000);
        assert!(is_true(after.last().unwrap().unwrap()), "{trouble:?}");
    }
}

#[test]
fn a_clock_that_steps_back_holds_nothing_up() {
    let model = Model::new(|_, _| false, 0);
    let mut probe = Ads1220::new(Shared(&model), Kind::K);
    model.borrow_mut().now = 3_600_000_000;
    run(&model, &mut probe, 3_601_000_000);
    model.borrow_mut().now = 0;
    model.borrow_mut().started = 0;
    let answers = run(&model, &mut probe, 1_000_000);
    assert!(answers.len() >= 4 && answers.iter().all(|a| is_true(a.unwrap())));
}
