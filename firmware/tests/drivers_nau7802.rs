//! The I2C bridge converter's driver: against a bus transcript worked out from
//! the data sheet ("NAU7802, 24-Bit Dual-Channel ADC For Bridge Sensors",
//! Nuvoton, revision 1.7: page 14 address, section 9.1 power-on sequence,
//! section 11 registers, page 21 calibration error), and against a model of its
//! registers with a failure at every bus call.

use std::cell::RefCell;

use embedded_hal::i2c::{ErrorKind, ErrorType, I2c, Operation};
use embedded_hal_mock::eh1::i2c::{Mock, Transaction};
use evenhand_firmware::drivers::Bridge;
use evenhand_firmware::drivers::nau7802::{Config, Gain, Nau7802, Rate, Supply};
use evenhand_firmware::sensor::{BridgeFault, Counts};

/// Page 14: 0101010.
const ADDRESS: u8 = 0b010_1010;

fn write(register: u8, value: u8) -> Transaction {
    Transaction::write(ADDRESS, vec![register, value])
}

fn read(register: u8, answer: &[u8]) -> Transaction {
    Transaction::write_read(ADDRESS, vec![register], answer.to_vec())
}

/// One conversion: ready, three bytes, no longer ready.
fn conversion(value: u32) -> [Transaction; 3] {
    let [_, high, middle, low] = value.to_be_bytes();
    [
        read(0x00, &[0xBE]),
        read(0x12, &[high, middle, low]),
        read(0x00, &[0x9E]),
    ]
}

/// Section 9.1, steps 1 to 5, and the calibration. `0xAE` in its step 4 is the
/// regulator, ready, powered up, analog and digital part: the bits used here.
fn start() -> Vec<Transaction> {
    let mut transcript = vec![
        write(0x00, 0x01),   // 1: reset
        write(0x00, 0x02),   // 2: digital part on
        read(0x00, &[0x02]), // 3: not yet
        read(0x00, &[0x0A]), //    powered up
        read(0x1F, &[0x0F]), //    revision
        write(0x01, 0x2F),   // 4: 3.0 V, gain 128
        write(0x02, 0x30),   //    80 a second
        write(0x15, 0x30),   //    choppers off
        write(0x1B, 0x00),
        write(0x1C, 0x80), //    capacitor
        write(0x00, 0x86), //    regulator, analog and digital part on
    ];
    transcript.extend([
        read(0x01, &[0x2F]),
        read(0x02, &[0x30]),
        read(0x15, &[0x30]),
        read(0x1B, &[0x00]),
        read(0x1C, &[0x80]),
        read(0x00, &[0xAE]),
        write(0x02, 0x34), //    calibrate
        read(0x02, &[0x34]),
        read(0x02, &[0x30]),
        write(0x00, 0x96), // 5: cycle start
    ]);
    transcript
}

/// Plays a transcript with a call every millisecond.
fn play(
    transcript: &[Transaction],
    config: Config,
    calls: u64,
) -> Vec<Result<Counts, BridgeFault>> {
    let mut bus = Mock::new(transcript);
    let mut bridge = Nau7802::new(bus.clone(), config);
    let answers = (0..calls)
        .filter_map(|call| match bridge.poll(call * 1_000) {
            Ok(counts) => Some(Ok(counts)),
            Err(nb::Error::Other(fault)) => Some(Err(fault)),
            Err(nb::Error::WouldBlock) => None,
        })
        .collect();
    bus.done();
    answers
}

#[test]
fn it_starts_as_the_data_sheet_says_and_drops_what_has_not_settled() {
    let mut transcript = start();
    for value in [1, 2, 3, 4, 5, 6, 0x12_3456, 0xED_CBAA] {
        transcript.extend(conversion(value));
    }
    // The regulator is given 250 ms, so the data come after some 260 calls.
    let mut bus = Mock::new(&transcript);
    let mut bridge = Nau7802::new(bus.clone(), Config::load_cell());
    let mut given = Vec::new();
    let mut now = 0;
    while given.len() < 2 {
        given.extend(bridge.poll(now));
        now += 1_000;
        assert!(now < 1_000_000, "it never gets there");
    }
    bus.done();
    assert_eq!(given, [Counts(0x12_3456), Counts(-0x12_3456)]);
    assert!(now > 250_000);
    assert_eq!(bridge.tally().restarts, 0);
}

#[test]
fn gain_rate_and_supply_are_the_data_sheets_codes() {
    // Section 11.2: VLDO in bits 5 to 3, gain in 2 to 0. 11.3: rate in 6 to 4.
    for (config, ctrl1, ctrl2, power) in [
        (
            Config {
                gain: Gain::X1,
                rate: Rate::Hz10,
                supply: Supply::External,
                capacitor: false,
                ..Config::load_cell()
            },
            0x00,
            0x00,
            0x06,
        ),
        (
            Config {
                gain: Gain::X64,
                rate: Rate::Hz320,
                supply: Supply::V2_4,
                capacitor: false,
                ..Config::load_cell()
            },
            0x3E,
            0x70,
            0x86,
        ),
        (
            Config {
                gain: Gain::X128,
                rate: Rate::Hz40,
                supply: Supply::V4_5,
                capacitor: false,
                ..Config::load_cell()
            },
            0x07,
            0x20,
            0x86,
        ),
    ] {
        let transcript = [
            write(0x00, 0x01),
            write(0x00, 0x02),
            read(0x00, &[0x0A]),
            read(0x1F, &[0x0F]),
            write(0x01, ctrl1),
            write(0x02, ctrl2),
            write(0x15, 0x30),
            write(0x1B, 0x00),
            write(0x1C, 0x00),
            write(0x00, power),
        ];
        assert_eq!(play(&transcript, config, 10), []);
    }
}

/// The chip's registers, its conversions, and a bus that can fail.
struct Model {
    registers: [u8; 0x20],
    now: u64,
    started: u64,
    /// Conversions that have been made ready.
    conversions: u64,
    value: u32,
    calls: u32,
    fails: fn(u32, u32) -> bool,
    at: u32,
    trouble: Trouble,
}

#[derive(Clone, Copy, PartialEq)]
enum Trouble {
    None,
    /// Never ready.
    Silent,
    HighRail,
    LowRail,
    Frozen,
    /// Another chip answers.
    Stranger,
    /// Does not keep its gain.
    Forgetful,
    CalibrationFails,
    CalibrationHangs,
    NeverUp,
    /// The next conversion always ends during the read.
    Torn,
}

fn load(conversion: u64) -> i32 {
    0x2A_5A00 + i32::try_from(conversion * 7_919 % 101).unwrap() * 2
}

impl Model {
    fn new(fails: fn(u32, u32) -> bool, at: u32, trouble: Trouble) -> Self {
        Self {
            registers: [0; 0x20],
            now: 0,
            started: 0,
            conversions: 0,
            value: 0,
            calls: 0,
            fails,
            at,
            trouble,
        }
    }

    fn write(&mut self, register: u8, value: u8) {
        let power = self.registers[0];
        match register {
            0 if value & 1 != 0 => self.registers = [0; 0x20],
            0 => {
                let up = if value & 2 != 0 && self.trouble != Trouble::NeverUp {
                    0x08
                } else {
                    0
                };
                self.registers[0] = value & !0x28 | up;
                if value & 0x10 != 0 && power & 0x10 == 0 {
                    self.started = self.now;
                    self.conversions = 0;
                }
            }
            1 if self.trouble == Trouble::Forgetful => {}
            register => self.registers[usize::from(register)] = value,
        }
    }

    fn read(&mut self, register: u8, answer: &mut [u8]) {
        if self.registers[0] & 0x10 != 0 {
            let due = (self.now - self.started) / 12_500;
            if due > self.conversions && self.trouble != Trouble::Silent {
                self.conversions = due;
                self.registers[0] |= 0x20;
                let value = match self.trouble {
                    Trouble::HighRail => 0x7F_FFFF,
                    Trouble::LowRail => -0x80_0000,
                    Trouble::Frozen => 1_234,
                    _ => load(due),
                };
                self.value = value.cast_unsigned() & 0xFF_FFFF;
            }
        }
        match register {
            0x02 if self.registers[2] & 4 != 0 => {
                answer[0] = self.registers[2];
                if self.trouble != Trouble::CalibrationHangs {
                    self.registers[2] &= !4;
                    if self.trouble == Trouble::CalibrationFails {
                        self.registers[2] |= 8;
                    }
                }
            }
            0x12 => {
                answer.copy_from_slice(&self.value.to_be_bytes()[1..]);
                if self.trouble != Trouble::Torn {
                    self.registers[0] &= !0x20;
                }
            }
            0x1F => {
                answer[0] = if self.trouble == Trouble::Stranger {
                    0
                } else {
                    0x0F
                };
            }
            register => answer[0] = self.registers[usize::from(register)],
        }
    }
}

impl ErrorType for Model {
    type Error = ErrorKind;
}

impl I2c for Model {
    fn transaction(
        &mut self,
        address: u8,
        operations: &mut [Operation<'_>],
    ) -> Result<(), ErrorKind> {
        assert_eq!(address, ADDRESS);
        let call = self.calls;
        self.calls += 1;
        if (self.fails)(call, self.at) {
            return Err(ErrorKind::Bus);
        }
        match operations {
            [Operation::Write([register, value])] => self.write(*register, *value),
            [Operation::Write([register]), Operation::Read(answer)] => {
                let register = *register;
                self.read(register, answer);
            }
            other => panic!("{other:?}"),
        }
        Ok(())
    }
}

/// The bus with the model behind it, shared so that the test can set the time.
struct Shared<'a>(&'a RefCell<Model>);

impl ErrorType for Shared<'_> {
    type Error = ErrorKind;
}

impl I2c for Shared<'_> {
    fn transaction(
        &mut self,
        address: u8,
        operations: &mut [Operation<'_>],
    ) -> Result<(), ErrorKind> {
        self.0.borrow_mut().transaction(address, operations)
    }
}

/// Calls the driver every half millisecond until that time.
fn run(
    model: &RefCell<Model>,
    bridge: &mut impl Bridge,
    until: u64,
) -> Vec<Result<Counts, BridgeFault>> {
    let mut answers = Vec::new();
    let mut now = model.borrow().now;
    while now < until {
        now += 500;
        model.borrow_mut().now = now;
        match bridge.poll(now) {
            Ok(counts) => answers.push(Ok(counts)),
            Err(nb::Error::Other(fault)) => answers.push(Err(fault)),
            Err(nb::Error::WouldBlock) => {}
        }
    }
    answers
}

fn is_true(counts: Counts) -> bool {
    (0..101).any(|n| load(n) == counts.0)
}

#[test]
fn every_conversion_is_given_once() {
    let model = RefCell::new(Model::new(|_, _| false, 0, Trouble::None));
    let mut bridge = Nau7802::new(Shared(&model), Config::load_cell());
    let answers = run(&model, &mut bridge, 2_000_000);
    let last = model.borrow().conversions;
    let expected: Vec<_> = (7..=last).map(|n| Ok(Counts(load(n)))).collect();
    assert!(expected.len() > 120);
    assert_eq!(answers, expected);
    assert_eq!(bridge.tally().restarts + bridge.tally().doubtful, 0);
}

#[test]
fn one_failure_at_any_bus_call_is_one_typed_error_and_no_wrong_weight() {
    let model = RefCell::new(Model::new(|_, _| false, 0, Trouble::None));
    let mut bridge = Nau7802::new(Shared(&model), Config::load_cell());
    run(&model, &mut bridge, 500_000);
    let total = model.borrow().calls;
    assert!(total > 50, "{total}");
    for at in 0..total {
        let model = RefCell::new(Model::new(|call, at| call == at, at, Trouble::None));
        let mut bridge = Nau7802::new(Shared(&model), Config::load_cell());
        let answers = run(&model, &mut bridge, 1_500_000);
        let faults: Vec<_> = answers.iter().filter_map(|a| a.err()).collect();
        assert_eq!(faults, [BridgeFault::Bus], "call {at}");
        let values: Vec<_> = answers.iter().filter_map(|a| a.ok()).collect();
        assert!(values.iter().all(|v| is_true(*v)), "call {at}");
        let last = model.borrow().conversions;
        assert_eq!(values.last(), Some(&Counts(load(last))), "call {at}");
        assert_eq!(bridge.tally().restarts, 1);
    }
}

#[test]
fn a_bus_that_fails_for_good_gives_the_same_typed_error_for_ever() {
    for at in 0..60 {
        let model = RefCell::new(Model::new(|call, at| call >= at, at, Trouble::None));
        let mut bridge = Nau7802::new(Shared(&model), Config::load_cell());
        let answers = run(&model, &mut bridge, 2_000_000);
        assert_eq!(answers.last(), Some(&Err(BridgeFault::Bus)));
        let faults = answers.iter().filter(|answer| answer.is_err()).count();
        assert!((10..=20).contains(&faults), "ten a second: {faults}");
        for answer in answers {
            match answer {
                Ok(counts) => assert!(is_true(counts)),
                Err(fault) => assert_eq!(fault, BridgeFault::Bus),
            }
        }
    }
}

#[test]
fn every_trouble_of_the_chip_has_its_own_fault_and_passes() {
    for (trouble, fault) in [
        (Trouble::Silent, BridgeFault::Timeout),
        (Trouble::HighRail, BridgeFault::HighRail),
        (Trouble::LowRail, BridgeFault::LowRail),
        (Trouble::Frozen, BridgeFault::Frozen),
        (Trouble::Torn, BridgeFault::OutOfStep),
    ] {
        let model = RefCell::new(Model::new(|_, _| false, 0, Trouble::None));
        let mut bridge = Nau7802::new(Shared(&model), Config::load_cell());
        assert!(!run(&model, &mut bridge, 600_000).is_empty());
        model.borrow_mut().trouble = trouble;
        let during = run(&model, &mut bridge, 2_600_000);
        let told: Vec<_> = during.iter().filter_map(|answer| answer.err()).collect();
        assert!(
            !told.is_empty() && told.iter().all(|t| *t == fault),
            "{fault:?}: {told:?}"
        );
        model.borrow_mut().trouble = Trouble::None;
        let after = run(&model, &mut bridge, 4_000_000);
        let last = model.borrow().conversions;
        assert_eq!(after.last(), Some(&Ok(Counts(load(last)))), "{fault:?}");
    }
}

#[test]
fn a_chip_that_does_not_start_as_it_should_gives_no_weight() {
    for (trouble, fault) in [
        (Trouble::Stranger, BridgeFault::Bus),
        (Trouble::Forgetful, BridgeFault::OutOfStep),
        (Trouble::CalibrationFails, BridgeFault::OutOfStep),
        (Trouble::CalibrationHangs, BridgeFault::Timeout),
        (Trouble::NeverUp, BridgeFault::Timeout),
    ] {
        let model = RefCell::new(Model::new(|_, _| false, 0, trouble));
        let mut bridge = Nau7802::new(Shared(&model), Config::load_cell());
        let answers = run(&model, &mut bridge, 3_000_000);
        assert!(
            !answers.is_empty() && answers.iter().all(|a| *a == Err(fault)),
            "{answers:?}"
        );
    }
}

// The chip loses its supply for a moment: its registers are as after power-on,
// and without a check the gain would be 1 from here on.
#[test]
fn a_brown_out_is_noticed_at_the_next_conversion() {
    let model = RefCell::new(Model::new(|_, _| false, 0, Trouble::None));
    let mut bridge = Nau7802::new(Shared(&model), Config::load_cell());
    assert!(!run(&model, &mut bridge, 600_000).is_empty());
    model.borrow_mut().registers = [0; 0x20];
    let answers = run(&model, &mut bridge, 1_500_000);
    assert_eq!(answers.first(), Some(&Err(BridgeFault::OutOfStep)));
    assert!(answers[1..].iter().all(Result::is_ok) && answers.len() > 20);
    assert_eq!(bridge.tally().restarts, 1);
}

#[test]
fn a_clock_that_steps_back_holds_nothing_up() {
    let model = RefCell::new(Model::new(|_, _| false, 0, Trouble::None));
    let mut bridge = Nau7802::new(Shared(&model), Config::load_cell());
    // The first 100 ms an hour ahead, in the middle of the regulator's time.
    for call in 0..200 {
        let _ = bridge.poll(3_600_000_000 + call * 500);
    }
    let answers = run(&model, &mut bridge, 1_000_000);
    assert!(answers.iter().all(Result::is_ok));
    assert!(answers.len() > 30);
}
