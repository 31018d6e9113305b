//! The SPI thermocouple converter's driver against transcripts worked out from
//! the data sheet ("MAX31855, Cold-Junction Compensated
//! Thermocouple-to-Digital Converter", Maxim 19-5793, page 8 Table 1 and page 10
//! Tables 2 to 5) and an independent implementation of the ITS-90 reference
//! functions (`data/max31855_words.csv`).

use embedded_hal::spi::{ErrorKind, ErrorType, Operation, SpiDevice};
use embedded_hal_mock::eh1::spi::{Mock, Transaction};
use evenhand_firmware::drivers::Probe;
use evenhand_firmware::drivers::max31855::{Max31855, Version};
use evenhand_firmware::sensor::{ProbeFault, ProbeSample};
use evenhand_firmware::thermocouple::Kind;
use evenhand_protocol::Temperature;
use evenhand_simulator::chips::{Chips, ProbeTrouble, ProbeWord};
use proptest::prelude::*;

/// When the chip has powered up (200 ms after the first call).
const POWERED_UP: u64 = 200_000;

fn celsius(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius).unwrap()
}

/// One chip select with one word in it.
fn read(word: u32) -> [Transaction<u8>; 3] {
    [
        Transaction::transaction_start(),
        Transaction::read_vec(word.to_be_bytes().to_vec()),
        Transaction::transaction_end(),
    ]
}

#[test]
fn every_word_of_the_data_sheets_tables_means_what_the_reference_functions_say() {
    let rows: Vec<(char, String, f64, String)> = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(include_str!("data/max31855_words.csv").as_bytes())
        .deserialize()
        .map(Result::unwrap)
        .collect();
    assert!(rows.len() > 300);
    let mut in_range = 0;
    for (letter, word, cold, hot) in rows {
        let version = Version::ALL
            .into_iter()
            .find(|version| version.kind().letter() == letter)
            .unwrap();
        let answer = version.decode(u32::from_str_radix(&word, 16).unwrap());
        if hot == "out" {
            assert_eq!(answer, Err(ProbeFault::OutOfRange), "{letter} {word}");
            continue;
        }
        let sample = answer.unwrap_or_else(|fault| panic!("{letter} {word}: {fault:?}"));
        let hot: f64 = hot.parse().unwrap();
        assert!(
            (sample.hot.celsius() - hot).abs() <= 0.001_5,
            "{letter} {word}: {} degC, expected {hot}",
            sample.hot.celsius()
        );
        // Half a millidegree of rounding.
        assert!((sample.cold.celsius() - cold).abs() <= 0.000_51);
        in_range += 1;
    }
    assert!(in_range > 200, "{in_range}");
}

// Table 1 gives the sensitivity over 0 to 1 000 degC (type T: 0 to 400).
#[test]
fn sensitivities_are_the_reference_functions_means() {
    for version in Version::ALL {
        let top = if version == Version::T { 400 } else { 1_000 };
        let emf = version.kind().emf(celsius(f64::from(top))).unwrap();
        let mean = emf.nanovolts() as f64 / f64::from(top);
        let off = mean - version.sensitivity().nanovolts() as f64;
        // To the digits that the table gives.
        let digit = if version == Version::T { 5.0 } else { 0.5 };
        assert!(off.abs() <= digit, "{version:?}: {mean}");
    }
    assert_eq!(Version::for_kind(Kind::B), None);
    for version in Version::ALL {
        assert_eq!(Version::for_kind(version.kind()), Some(version));
    }
}

// Table 2: D16 any fault, D2 short to supply, D1 short to ground, D0 open; D17
// and D3 always 0.
#[test]
fn fault_bits_are_errors_whatever_the_temperature_bits_say() {
    for temperatures in [0_u32, 0x0190_0000, 0x7FFC_0000, 0xF060_6490] {
        for (bits, fault) in [
            (1, ProbeFault::Open),
            (2, ProbeFault::ShortToGround),
            (4, ProbeFault::ShortToSupply),
        ] {
            let word = temperatures & !0x3_000F | 1 << 16 | bits;
            assert_eq!(Version::K.decode(word), Err(fault), "{word:08x}");
        }
    }
}

#[test]
fn words_that_the_chip_cannot_send_are_silence() {
    let healthy = 0x0190_1900;
    assert!(Version::K.decode(healthy).is_ok());
    for word in [
        0,
        u32::MAX,
        healthy | 1 << 17,
        healthy | 1 << 3,
        healthy | 1 << 16, // a fault without a reason
        healthy | 1,       // a reason without a fault
        0x0190_8000,       // a cold junction at -128 degC
        0x0190_7FF0,       // and at +127.9375, over the operating range
    ] {
        assert_eq!(
            Version::K.decode(word),
            Err(ProbeFault::Silent),
            "{word:08x}"
        );
    }
}

// The chip's own figure for a type K at 350 degC in a room of 25 is 347; for a
// type T at 350, 347.5; for a type T at 100 it is 88. All are put right, within
// half of the chip's quarter of a degree (and half of its sixteenth).
#[test]
fn the_straight_line_is_put_right_at_every_temperature() {
    for version in Version::ALL {
        let kind = version.kind();
        let mut worst_as_told: f64 = 0.0;
        for cold in [5.0, 25.0, 45.0] {
            let cold = celsius(cold);
            for hot in (-40..1_000).step_by(3) {
                let hot = celsius(f64::from(hot));
                if !kind.range().contains(&hot) {
                    continue;
                }
                let measured = kind.emf(hot).unwrap() - kind.emf(cold).unwrap();
                let sensitivity = version.sensitivity().millivolts();
                let told = measured.millivolts() / sensitivity + cold.celsius();
                if told > 2_047.0 {
                    continue; // more than 14 bits hold
                }
                worst_as_told = worst_as_told.max((told - hot.celsius()).abs());
                let word = ProbeWord::healthy(
                    (told * 4.0).round() as i32,
                    (cold.celsius() * 16.0).round() as i32,
                );
                let read = version.decode(word.0).unwrap();
                let slope = kind
                    .emf(celsius(hot.celsius() + 0.5))
                    .zip(kind.emf(celsius(hot.celsius() - 0.5)));
                let Some((above, below)) = slope else {
                    continue;
                };
                let per_degree = (above - below).millivolts();
                let resolution = 0.126 * sensitivity / per_degree + 0.002;
                let error = read.hot.celsius() - hot.celsius();
                assert!(
                    error.abs() <= resolution,
                    "{version:?} at {}: {error}",
                    hot.celsius()
                );
            }
        }
        assert!(worst_as_told > 2.0, "{version:?}: {worst_as_told}");
    }
}

#[test]
fn it_waits_for_power_up_and_between_reads() {
    let word = 0x0190_1900;
    let expected: Vec<_> = (0..3).flat_map(|_| read(word)).collect();
    let mut spi = Mock::new(&expected);
    let mut probe = Max31855::new(spi.clone(), Version::K);
    let mut given = Vec::new();
    for now in (1_000_000..1_000_000 + POWERED_UP + 2 * 125_000 + 10_000).step_by(5_000) {
        match probe.poll(now) {
            Ok(sample) => given.push((now - 1_000_000, sample)),
            Err(nb::Error::WouldBlock) => {}
            Err(nb::Error::Other(fault)) => panic!("{fault:?}"),
        }
    }
    let sample = Version::K.decode(word).unwrap();
    assert_eq!(
        given,
        [
            (POWERED_UP, sample),
            (POWERED_UP + 125_000, sample),
            (POWERED_UP + 250_000, sample)
        ]
    );
    assert_eq!(sample.cold, celsius(25.0));
    spi.done();
}

/// A bus of which some transactions fail.
struct Failing {
    calls: u32,
    fails: fn(u32) -> bool,
}

impl ErrorType for Failing {
    type Error = ErrorKind;
}

impl SpiDevice for Failing {
    fn transaction(&mut self, operations: &mut [Operation<'_, u8>]) -> Result<(), ErrorKind> {
        self.calls += 1;
        if (self.fails)(self.calls) {
            return Err(ErrorKind::Other);
        }
        let [Operation::Read(words)] = operations else {
            panic!("only read");
        };
        words.copy_from_slice(&0x0190_1900_u32.to_be_bytes());
        Ok(())
    }
}

#[test]
fn a_failure_at_any_bus_call_is_a_typed_error_and_passes() {
    let fails: [fn(u32) -> bool; 5] = [
        |call| call == 1,
        |call| call == 2,
        |call| call == 5,
        |call| call > 3,
        |_| true,
    ];
    for fails in fails {
        let mut probe = Max31855::new(Failing { calls: 0, fails }, Version::K);
        assert_eq!(probe.poll(0), Err(nb::Error::WouldBlock));
        for call in 1..10 {
            let answer = probe.poll(POWERED_UP + u64::from(call) * 125_000);
            if fails(call) {
                assert_eq!(answer, Err(nb::Error::Other(ProbeFault::Silent)));
            } else {
                assert!(answer.is_ok());
            }
        }
    }
}

#[test]
fn every_trouble_of_the_probe_has_its_own_fault_and_passes() {
    for (trouble, fault) in [
        (ProbeTrouble::Open, ProbeFault::Open),
        (ProbeTrouble::ShortToGround, ProbeFault::ShortToGround),
        (ProbeTrouble::ShortToSupply, ProbeFault::ShortToSupply),
        (ProbeTrouble::BusError, ProbeFault::Silent),
        (ProbeTrouble::DataLow, ProbeFault::Silent),
        (ProbeTrouble::DataHigh, ProbeFault::Silent),
    ] {
        let chips = Chips::default();
        chips.probe.set_word(ProbeWord::healthy(400, 400));
        let mut probe = Max31855::new(chips.probe_bus(), Version::K);
        let mut run = |chips: &Chips, micros: u64| -> Vec<Result<ProbeSample, ProbeFault>> {
            let end = chips.clock.micros() + micros;
            let mut answers = Vec::new();
            while chips.clock.micros() < end {
                match probe.poll(chips.clock.micros()) {
                    Ok(sample) => answers.push(Ok(sample)),
                    Err(nb::Error::Other(fault)) => answers.push(Err(fault)),
                    Err(nb::Error::WouldBlock) => {}
                }
                chips.clock.pass_nanos(1_000_000);
            }
            answers
        };
        let before = run(&chips, 1_000_000);
        assert!(before.len() >= 5 && before.iter().all(Result::is_ok));
        chips.probe.set_trouble(trouble);
        let during = run(&chips, 1_000_000);
        assert!(during.len() >= 7);
        assert!(
            during.iter().all(|answer| *answer == Err(fault)),
            "{trouble:?}"
        );
        chips.probe.set_trouble(ProbeTrouble::None);
        let after = run(&chips, 1_000_000);
        assert!(after.last().unwrap().is_ok(), "{trouble:?}");
    }
}

proptest! {
    #[test]
    fn any_word_is_a_measurement_within_range_or_a_typed_fault(word: u32) {
        for version in Version::ALL {
            if let Ok(sample) = version.decode(word) {
                prop_assert!(version.kind().range().contains(&sample.hot)
                    || version.kind().range().start().millicelsius() - sample.hot.millicelsius() == 1
                    || sample.hot.millicelsius() - version.kind().range().end().millicelsius() == 1);
                prop_assert!((-40.0..=125.0).contains(&sample.cold.celsius()));
                prop_assert!(word & 0x3_000F == 0);
            }
        }
    }
}

#[test]
fn no_voltage_is_the_cold_junctions_temperature() {
    // A shorted pair of wires: the one failure that the chip cannot see.
    let word = ProbeWord::healthy(25 * 4, 25 * 16).0;
    let sample = Version::K.decode(word).unwrap();
    assert_eq!((sample.hot, sample.cold), (celsius(25.0), celsius(25.0)));
}
