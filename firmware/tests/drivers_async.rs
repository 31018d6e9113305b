//! The drivers on async buses: the same transcripts as in the blocking tests,
//! from the same data sheets (MAX31855: Maxim 19-5793, page 10; NAU7802: Nuvoton
//! revision 1.7, sections 9.1 and 11; MCP9600: Microchip DS20005426C, pages 17 to
//! 35; HX711: Avia Semiconductor, page 5).

use embedded_hal_mock::eh1::MockError;
use embedded_hal_mock::eh1::delay::NoopDelay;
use embedded_hal_mock::eh1::{digital, i2c, spi};
use evenhand_firmware::drivers::ads1220::Ads1220;
use evenhand_firmware::drivers::asynchronous::{Bridge, Probe};
use evenhand_firmware::drivers::hx711::{self, Hx711};
use evenhand_firmware::drivers::max31855::{Max31855, Version};
use evenhand_firmware::drivers::mcp9600::{Address, Mcp9600};
use evenhand_firmware::drivers::nau7802::{self, Nau7802};
use evenhand_firmware::sensor::{BridgeFault, Counts, ProbeFault};
use evenhand_firmware::thermocouple::Kind;
use pollster::block_on;

#[test]
fn the_spi_thermocouple_converter() {
    let word: u32 = 0x0190_1900;
    let expected = [
        spi::Transaction::transaction_start(),
        spi::Transaction::read_vec(word.to_be_bytes().to_vec()),
        spi::Transaction::transaction_end(),
    ];
    let mut bus = spi::Mock::new(&expected);
    let mut probe = Max31855::new(bus.clone(), Version::K);
    assert_eq!(block_on(probe.poll(0)), Err(nb::Error::WouldBlock));
    let sample = block_on(probe.poll(200_000)).unwrap();
    assert_eq!(sample, Version::K.decode(word).unwrap());
    bus.done();
}

// One measurement: 1.1 mV with the cold junction at 23 degC is 49.908 degC, as in
// the blocking test (ADS1220: Texas Instruments SBAS501C, sections 8.5 and 8.6).
#[test]
fn the_spi_precision_converter() {
    let exchange = |send: &[u8], answer: &[u8]| {
        vec![
            spi::Transaction::transaction_start(),
            spi::Transaction::write_vec(send.to_vec()),
            spi::Transaction::read_vec(answer.to_vec()),
            spi::Transaction::transaction_end(),
        ]
    };
    let conversion = |mode: u8, code: u32| {
        let registers = [0x0A, mode, 0x10, 0x00];
        [
            exchange(&[0x43, 0x0A, mode, 0x10, 0x00], &[]),
            exchange(&[0x08], &[]),
            exchange(&[0x10], &code.to_be_bytes()[1..]),
            exchange(&[0x23], &registers),
        ]
        .concat()
    };
    let expected = [
        exchange(&[0x06], &[]),
        conversion(0x01, 1_000),
        conversion(0x02, 736 << 10),
        conversion(0x00, 144_179),
    ]
    .concat();
    let mut bus = spi::Mock::new(&expected);
    let mut probe = Ads1220::new(bus.clone(), Kind::K);
    let sample = (0..1_000).find_map(|call| match block_on(probe.poll(call * 5_000)) {
        Ok(sample) => Some(sample),
        Err(nb::Error::WouldBlock) => None,
        Err(nb::Error::Other(fault)) => panic!("{fault:?}"),
    });
    bus.done();
    assert_eq!(sample.unwrap().hot.millicelsius(), 49_908);
}

fn nau7802_start() -> Vec<i2c::Transaction> {
    let write = |register, value| i2c::Transaction::write(0x2A, vec![register, value]);
    let read =
        |register, answer: u8| i2c::Transaction::write_read(0x2A, vec![register], vec![answer]);
    vec![
        write(0x00, 0x01),
        write(0x00, 0x02),
        read(0x00, 0x0A),
        read(0x1F, 0x0F),
        write(0x01, 0x2F),
        write(0x02, 0x30),
        write(0x15, 0x30),
        write(0x1B, 0x00),
        write(0x1C, 0x80),
        write(0x00, 0x86),
        read(0x01, 0x2F),
        read(0x02, 0x30),
        read(0x15, 0x30),
        read(0x1B, 0x00),
        read(0x1C, 0x80),
        read(0x00, 0xAE),
        write(0x02, 0x34),
        read(0x02, 0x30),
        write(0x00, 0x96),
    ]
}

#[test]
fn the_i2c_bridge_converter() {
    let read = |register: u8, answer: &[u8]| {
        i2c::Transaction::write_read(0x2A, vec![register], answer.to_vec())
    };
    let mut expected = nau7802_start();
    for value in 1..=7 {
        expected.extend([
            read(0x00, &[0xBE]),
            read(0x12, &[0xED, 0xCB, value]),
            read(0x00, &[0x9E]),
        ]);
    }
    let mut bus = i2c::Mock::new(&expected);
    let mut bridge = Nau7802::new(bus.clone(), nau7802::Config::load_cell());
    let mut given = None;
    for call in 0..1_000 {
        match block_on(bridge.poll(call * 1_000)) {
            Ok(counts) => {
                given = Some(counts);
                break;
            }
            Err(nb::Error::WouldBlock) => {}
            Err(nb::Error::Other(fault)) => panic!("{fault:?}"),
        }
    }
    bus.done();
    assert_eq!(given, Some(Counts(-0x12_34F9)));
}

#[test]
fn a_failure_at_any_call_of_the_i2c_bus_is_a_typed_error() {
    let start = nau7802_start();
    for at in 0..start.len() {
        let mut expected = start[..=at].to_vec();
        expected[at] = expected[at]
            .clone()
            .with_error(embedded_hal::i2c::ErrorKind::Bus);
        let mut bus = i2c::Mock::new(&expected);
        let mut bridge = Nau7802::new(bus.clone(), nau7802::Config::load_cell());
        let fault = (0..1_000).find_map(|call| match block_on(bridge.poll(call * 1_000)) {
            Err(nb::Error::Other(fault)) => Some(fault),
            Err(nb::Error::WouldBlock) => None,
            Ok(counts) => panic!("{counts:?}"),
        });
        assert_eq!(fault, Some(BridgeFault::Bus), "call {at}");
        bus.done();
    }
}

fn mcp9600_measurement() -> Vec<i2c::Transaction> {
    let write = |register, value| vec![i2c::Transaction::write(0x60, vec![register, value])];
    let read = |register, answer: &[u8]| {
        vec![
            i2c::Transaction::write(0x60, vec![register]),
            i2c::Transaction::read(0x60, answer.to_vec()),
        ]
    };
    [
        read(0x20, &[0x40, 0x10]),
        write(0x05, 0x00),
        write(0x06, 0x00),
        read(0x05, &[0x00]),
        write(0x04, 0x00),
        read(0x04, &[0x40]),
        read(0x01, &[0x06, 0x4C]),
        read(0x02, &[0x01, 0x90]),
        read(0x00, &[0x07, 0xDC]),
    ]
    .concat()
}

#[test]
fn the_i2c_thermocouple_converter() {
    let mut bus = i2c::Mock::new(&mcp9600_measurement());
    let mut probe = Mcp9600::new(bus.clone(), Address::GROUND, Kind::K);
    let sample = (0..100).find_map(|call| match block_on(probe.poll(call * 1_000)) {
        Ok(sample) => Some(sample),
        Err(nb::Error::WouldBlock) => None,
        Err(nb::Error::Other(fault)) => panic!("{fault:?}"),
    });
    bus.done();
    // By thermocouples_reference 0.20, as in the blocking test.
    assert_eq!(sample.unwrap().hot.millicelsius(), 125_075);
}

#[test]
fn a_failure_at_any_call_of_the_thermocouples_bus_is_a_typed_error() {
    let all = mcp9600_measurement();
    for at in 0..all.len() {
        let mut expected = all[..=at].to_vec();
        expected[at] = expected[at]
            .clone()
            .with_error(embedded_hal::i2c::ErrorKind::Bus);
        let mut bus = i2c::Mock::new(&expected);
        let mut probe = Mcp9600::new(bus.clone(), Address::GROUND, Kind::K);
        let fault = (0..100).find_map(|call| match block_on(probe.poll(call * 1_000)) {
            Err(nb::Error::Other(fault)) => Some(fault),
            Err(nb::Error::WouldBlock) => None,
            Ok(sample) => panic!("{sample:?}"),
        });
        assert_eq!(fault, Some(ProbeFault::Silent), "call {at}");
        bus.done();
    }
}

#[test]
fn data_ready_of_the_bit_clocked_bridge_converter_can_be_awaited() {
    use digital::{Mock, State, Transaction};
    let mut data = vec![
        Transaction::wait_for_state(State::Low),
        Transaction::get(State::Low),
    ];
    data.extend(
        (1..=25).map(|pulse| Transaction::get(if pulse == 25 { State::High } else { State::Low })),
    );
    data.push(
        Transaction::wait_for_state(State::Low)
            .with_error(MockError::Io(std::io::ErrorKind::BrokenPipe)),
    );
    let clock: Vec<_> = (0..26)
        .flat_map(|_| [Transaction::set(State::High), Transaction::set(State::Low)])
        .collect();
    let (mut data, mut clock) = (Mock::new(&data), Mock::new(&clock));
    let mut bridge = Hx711::new(
        data.clone(),
        clock.clone(),
        NoopDelay::new(),
        hx711::Config::fast(),
    );
    for now in [0, 100] {
        assert_eq!(block_on(bridge.poll(now)), Err(nb::Error::WouldBlock));
    }
    assert_eq!(block_on(bridge.data_ready()), Ok(()));
    bridge.data_ready_fell(50_000);
    assert_eq!(block_on(bridge.poll(50_010)), Err(nb::Error::WouldBlock));
    assert_eq!(block_on(bridge.data_ready()), Err(BridgeFault::Bus));
    data.done();
    clock.done();
}
