//! The I2C thermocouple converter's driver: against a bus transcript worked out
//! from the data sheet ("MCP9600, Thermocouple EMF to Temperature Converter",
//! Microchip DS20005426C: page 5 addresses, page 17 Fig. 4-3 reading a register,
//! pages 24 to 26 temperature registers, page 28 status, page 35 identity), and
//! against a model of its registers with a failure at every bus call.

use std::cell::RefCell;

use embedded_hal::i2c::{ErrorKind, ErrorType, I2c, Operation};
use embedded_hal_mock::eh1::i2c::{Mock, Transaction};
use evenhand_firmware::drivers::Probe;
use evenhand_firmware::drivers::mcp9600::{Address, Mcp9600};
use evenhand_firmware::sensor::{ProbeFault, ProbeSample};
use evenhand_firmware::thermocouple::Kind;
use evenhand_protocol::Temperature;

/// Page 5: command byte 1100 111x with the address pin at the supply.
const ADDRESS: u8 = 0b110_0111;

fn celsius(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius).unwrap()
}

fn write(register: u8, value: u8) -> Transaction {
    Transaction::write(ADDRESS, vec![register, value])
}

/// Page 17, Fig. 4-3: the pointer, a stop, then the read.
fn read(register: u8, answer: &[u8]) -> [Transaction; 2] {
    [
        Transaction::write(ADDRESS, vec![register]),
        Transaction::read(ADDRESS, answer.to_vec()),
    ]
}

fn start() -> Vec<Transaction> {
    [
        read(0x20, &[0x40, 0x10]).to_vec(), // page 35: 0x4010
        vec![write(0x05, 0x00)],            // type K, no filter
        vec![write(0x06, 0x00)],            // running
        read(0x05, &[0x00]).to_vec(),
        vec![write(0x04, 0x00)], // page 28: clear the update flag
    ]
    .concat()
}

/// A conversion: difference, cold junction and their sum, in sixteenths.
fn conversion(difference: i16, cold: i16, hot: i16) -> Vec<Transaction> {
    [
        read(0x04, &[0x00]).to_vec(),
        read(0x04, &[0x40]).to_vec(), // page 28: bit 6
        read(0x01, &difference.to_be_bytes()).to_vec(),
        read(0x02, &cold.to_be_bytes()).to_vec(),
        read(0x00, &hot.to_be_bytes()).to_vec(),
        vec![write(0x04, 0x00)],
    ]
    .concat()
}

fn play(transcript: &[Transaction]) -> Vec<Result<ProbeSample, ProbeFault>> {
    let mut bus = Mock::new(transcript);
    let mut probe = Mcp9600::new(bus.clone(), Address::SUPPLY, Kind::K);
    let mut answers = Vec::new();
    for now in 0..45 {
        // One call in between for clearing the flag, two for the status.
        match probe.poll(now * 1_000) {
            Ok(sample) => answers.push(Ok(sample)),
            Err(nb::Error::Other(fault)) => answers.push(Err(fault)),
            Err(nb::Error::WouldBlock) => {}
        }
    }
    bus.done();
    answers
}

// Pages 24 to 26: two's complement sixteenths of a degree.
#[test]
fn the_difference_is_turned_into_voltage_and_the_cold_junction_added_there() {
    // 100.75 degC of difference and a cold junction at 25 degC: by the chip's
    // sum 125.75. In voltage, by thermocouples_reference 0.20:
    // inverse_CmV(emf_mVC(100.75) + emf_mVC(25)) = 125.074 for a type K.
    let transcript = [start(), conversion(0x064C, 0x0190, 0x07DC)].concat();
    let answers = play(&transcript);
    assert_eq!(answers.len(), 1);
    let sample = answers[0].unwrap();
    assert_eq!(sample.cold, celsius(25.0));
    assert!((sample.hot.celsius() - HOT_AT_100_75_AND_25).abs() < 0.001_5);
}

/// `thermocouples["K"].inverse_CmV(emf_mVC(100.75) + emf_mVC(25.0), Vtol=1e-9)`.
const HOT_AT_100_75_AND_25: f64 = 125.074_829;

#[test]
fn what_does_not_add_up_as_the_chip_adds_is_silence() {
    for hot in [0x0101, 0x07DC + 5, 0x07DC - 5, -1, 0] {
        let transcript = [start(), conversion(0x064C, 0x0190, hot)].concat();
        assert_eq!(play(&transcript), [Err(ProbeFault::Silent)], "{hot:04x}");
    }
    // A cold junction that was renewed between two reads.
    for hot in [0x07DC + 4, 0x07DC - 4] {
        let transcript = [start(), conversion(0x064C, 0x0190, hot)].concat();
        assert!(play(&transcript)[0].is_ok(), "{hot:04x}");
    }
}

#[test]
fn a_cold_junction_where_the_chip_cannot_work_is_silence() {
    // Page 5: -40 to 125 degC.
    for cold in [-41 * 16, 126 * 16] {
        let transcript = [start(), conversion(160, cold, 160 + cold)].concat();
        assert_eq!(play(&transcript), [Err(ProbeFault::Silent)]);
    }
}

#[test]
fn each_type_has_its_code() {
    for (kind, code) in [
        (Kind::K, 0x00),
        (Kind::J, 0x10),
        (Kind::T, 0x20),
        (Kind::N, 0x30),
        (Kind::S, 0x40),
        (Kind::E, 0x50),
        (Kind::B, 0x60),
        (Kind::R, 0x70),
    ] {
        let transcript = [
            read(0x20, &[0x40, 0x10]).to_vec(),
            vec![write(0x05, code), write(0x06, 0x00)],
            read(0x05, &[code]).to_vec(),
        ]
        .concat();
        let mut bus = Mock::new(&transcript);
        let mut probe = Mcp9600::new(bus.clone(), Address::SUPPLY, kind);
        assert_eq!(probe.poll(0), Err(nb::Error::WouldBlock));
        bus.done();
    }
}

#[test]
fn only_the_chips_own_addresses_are_addresses() {
    for address in 0..=u8::MAX {
        let own = (0x60..=0x67).contains(&address);
        assert_eq!(Address::new(address).is_some(), own, "{address:02x}");
    }
    assert_eq!(Address::new(0x60), Some(Address::GROUND));
    assert_eq!(Address::new(0x67), Some(Address::SUPPLY));
}

#[derive(Clone, Copy, PartialEq, Debug)]
enum Trouble {
    None,
    Silent,
    OutOfRange,
    Short,
    Stranger,
    Forgetful,
    Garbled,
}

/// The chip's registers and a bus that can fail.
struct Model {
    identity: u8,
    sensor: u8,
    status: u8,
    pointer: u8,
    now: u64,
    conversions: u64,
    calls: u32,
    fails: fn(u32, u32) -> bool,
    at: u32,
    trouble: Trouble,
}

impl Model {
    fn new(fails: fn(u32, u32) -> bool, at: u32, identity: u8) -> RefCell<Self> {
        RefCell::new(Self {
            identity,
            sensor: 0xFF,
            status: 0,
            pointer: 0xFF,
            now: 0,
            conversions: 0,
            calls: 0,
            fails,
            at,
            trouble: Trouble::None,
        })
    }

    fn answer(&mut self, answer: &mut [u8]) {
        let due = self.now / 320_000;
        if due > self.conversions && self.trouble != Trouble::Silent {
            self.conversions = due;
            self.status |= 0x40;
        }
        let (difference, cold) = (1_612_i16, 400_i16);
        let word = match self.pointer {
            0x00 if self.trouble == Trouble::Garbled => 0x0101,
            0x00 => difference + cold,
            0x01 => difference,
            0x02 => cold,
            0x04 => {
                let flags = match self.trouble {
                    Trouble::OutOfRange => 0x10,
                    Trouble::Short => 0x20,
                    _ => 0,
                };
                i16::from(self.status | flags) << 8
            }
            0x05 => i16::from(self.sensor) << 8,
            0x20 if self.trouble == Trouble::Stranger => 0x0410,
            0x20 => i16::from(self.identity) << 8 | 0x10,
            other => panic!("register {other:02x}"),
        };
        let bytes = word.to_be_bytes();
        answer.copy_from_slice(&bytes[..answer.len()]);
    }
}

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
        let mut model = self.0.borrow_mut();
        assert_eq!(address, ADDRESS);
        let call = model.calls;
        model.calls += 1;
        if (model.fails)(call, model.at) {
            return Err(ErrorKind::Bus);
        }
        match operations {
            [Operation::Write([register])] => model.pointer = *register,
            [Operation::Write([0x04, 0])] => model.status = 0,
            [Operation::Write([0x05, value])] => {
                if model.trouble != Trouble::Forgetful {
                    model.sensor = *value;
                }
            }
            [Operation::Write([0x06, 0])] => {}
            [Operation::Read(answer)] => model.answer(answer),
            other => panic!("{other:?}"),
        }
        Ok(())
    }
}

/// Calls the driver every five milliseconds until that time.
fn run(
    model: &RefCell<Model>,
    probe: &mut impl Probe,
    until: u64,
) -> Vec<Result<ProbeSample, ProbeFault>> {
    let mut answers = Vec::new();
    let mut now = model.borrow().now;
    while now < until {
        now += 5_000;
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
    (sample.hot.celsius() - HOT_AT_100_75_AND_25).abs() < 0.001_5 && sample.cold == celsius(25.0)
}

#[test]
fn one_failure_at_any_bus_call_is_one_typed_error_and_passes() {
    let model = Model::new(|_, _| false, 0, 0x40);
    let mut probe = Mcp9600::new(Shared(&model), Address::SUPPLY, Kind::K);
    let answers = run(&model, &mut probe, 2_000_000);
    assert!(answers.len() >= 5 && answers.iter().all(|answer| is_true(answer.unwrap())));
    let total = model.borrow().calls;
    for at in 0..total {
        let model = Model::new(|call, at| call == at, at, 0x40);
        let mut probe = Mcp9600::new(Shared(&model), Address::SUPPLY, Kind::K);
        let answers = run(&model, &mut probe, 4_000_000);
        let faults: Vec<_> = answers.iter().filter_map(|a| a.err()).collect();
        assert_eq!(faults, [ProbeFault::Silent], "call {at}");
        let samples: Vec<_> = answers.iter().filter_map(|a| a.ok()).collect();
        assert!(samples.len() >= 8, "call {at}");
        assert!(samples.into_iter().all(is_true), "call {at}");
    }
}

#[test]
fn a_bus_that_fails_for_good_is_silence_for_ever_and_left_in_peace() {
    for at in 0..20 {
        let model = Model::new(|call, at| call >= at, at, 0x40);
        let mut probe = Mcp9600::new(Shared(&model), Address::SUPPLY, Kind::K);
        let answers = run(&model, &mut probe, 3_000_000);
        assert_eq!(answers.last(), Some(&Err(ProbeFault::Silent)));
        let faults = answers.iter().filter(|answer| answer.is_err()).count();
        assert!((20..=30).contains(&faults), "ten a second: {faults}");
    }
}

#[test]
fn every_trouble_of_the_probe_has_its_own_fault_and_passes() {
    for (identity, trouble, fault) in [
        (0x40, Trouble::Silent, ProbeFault::Silent),
        (0x40, Trouble::OutOfRange, ProbeFault::OutOfRange),
        (0x40, Trouble::Garbled, ProbeFault::Silent),
        (0x41, Trouble::OutOfRange, ProbeFault::Open),
        (0x41, Trouble::Short, ProbeFault::ShortToGround),
    ] {
        let model = Model::new(|_, _| false, 0, identity);
        let mut probe = Mcp9600::new(Shared(&model), Address::SUPPLY, Kind::K);
        assert!(!run(&model, &mut probe, 1_000_000).is_empty());
        model.borrow_mut().trouble = trouble;
        let during = run(&model, &mut probe, 4_000_000);
        assert!(
            !during.is_empty() && during.iter().all(|answer| *answer == Err(fault)),
            "{trouble:?}: {during:?}"
        );
        model.borrow_mut().trouble = Trouble::None;
        let after = run(&model, &mut probe, 6_000_000);
        assert!(is_true(after.last().unwrap().unwrap()), "{trouble:?}");
    }
}

#[test]
fn a_chip_that_is_not_this_one_or_does_not_keep_its_type_is_silence() {
    for trouble in [Trouble::Stranger, Trouble::Forgetful] {
        let model = Model::new(|_, _| false, 0, 0x40);
        model.borrow_mut().trouble = trouble;
        let mut probe = Mcp9600::new(Shared(&model), Address::SUPPLY, Kind::K);
        let answers = run(&model, &mut probe, 2_000_000);
        assert!(answers.len() > 5);
        assert!(
            answers
                .iter()
                .all(|answer| *answer == Err(ProbeFault::Silent))
        );
    }
}

#[test]
fn a_clock_that_steps_back_holds_nothing_up() {
    let model = Model::new(|_, _| false, 0, 0x40);
    let mut probe = Mcp9600::new(Shared(&model), Address::SUPPLY, Kind::K);
    for call in 0..50 {
        let _ = probe.poll(3_600_000_000 + call * 5_000);
    }
    let answers = run(&model, &mut probe, 2_000_000);
    assert!(answers.len() >= 4 && answers.iter().all(|answer| is_true(answer.unwrap())));
}
