//! The chip models against their data sheets: the HX711's (Avia
//! Semiconductor, figure 2, figure 3 and tables 3 and 4 of the English data
//! sheet) and the MAX31855's (Maxim 19-5793, tables 2 to 5).

use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{InputPin, OutputPin};
use embedded_hal::spi::{Operation, SpiDevice};
use evenhand_protocol::Temperature;
use evenhand_simulator::chips::{BridgeTrouble, Chips, ProbeTrouble, ProbeWord};

const MILLI: u64 = 1_000_000;

/// Clocks out 24 bits and the pulses that choose the next input.
fn read(chips: &Chips, pulses: u8) -> u32 {
    let (mut data, mut clock, mut delay) =
        (chips.bridge_data(), chips.bridge_clock(), chips.delay());
    let mut word = 0;
    for pulse in 1..=pulses {
        clock.set_high().unwrap();
        delay.delay_us(1);
        if pulse <= 24 {
            word = word << 1 | u32::from(data.is_high().unwrap());
        }
        clock.set_low().unwrap();
        delay.delay_us(1);
    }
    word
}

/// Past the conversions that come before the output is valid.
fn settle(chips: &Chips) {
    for conversion in 1..=3 {
        chips.bridge.schedule(conversion * 12_500_000, 0);
        chips.clock.set_nanos(conversion * 12_500_000);
        read(chips, 25);
    }
}

fn convert(chips: &Chips, at: u64, counts: i32) {
    assert!(chips.bridge.schedule(at, counts));
    chips.clock.set_nanos(at);
}

#[test]
fn twenty_four_bits_come_highest_first_in_twos_complement() {
    for (counts, word) in [
        (0, 0),
        (1, 1),
        (-1, 0xFF_FFFF),
        (0x12_3456, 0x12_3456),
        (-0x12_3456, 0xED_CBAA),
        // The output limits at both ends (data sheet, "Output Data Rate and Format").
        (0x80_0000, 0x7F_FFFF),
        (-0x80_0001, 0x80_0000),
    ] {
        let chips = Chips::default();
        settle(&chips);
        convert(&chips, 100 * MILLI, counts);
        assert_eq!(read(&chips, 25), word, "{counts}");
        assert_eq!(chips.bridge.counters().bad_halves, 0);
        assert_eq!(chips.bridge.counters().stray_pulses, 0);
    }
}

#[test]
fn data_ready_is_low_and_the_25th_pulse_takes_it_high() {
    let chips = Chips::default();
    let mut data = chips.bridge_data();
    settle(&chips);
    assert!(data.is_high().unwrap());
    convert(&chips, 100 * MILLI, 0);
    assert!(data.is_low().unwrap());
    read(&chips, 24);
    assert!(data.is_low().unwrap(), "the last bit is still out");
    read(&chips, 1);
    assert!(data.is_high().unwrap());
    assert_eq!(chips.bridge.counters().reads, 4);
}

#[test]
fn the_output_is_valid_after_four_periods_of_a_reset_or_another_gain() {
    let chips = Chips::default();
    let values: Vec<u32> = (1..=5)
        .map(|conversion| {
            convert(&chips, conversion * 12_500_000, 4_000);
            read(&chips, 25)
        })
        .collect();
    assert_eq!(values[3..], [4_000, 4_000]);
    assert!(values[..3].iter().all(|value| *value != 4_000));

    convert(&chips, 100 * MILLI, 4_000);
    assert_eq!(
        read(&chips, 27),
        4_000,
        "27 pulses choose gain 64 for what follows"
    );
    let values: Vec<u32> = (9..=12)
        .map(|conversion| {
            convert(&chips, conversion * 12_500_000, 4_000);
            read(&chips, 27)
        })
        .collect();
    assert_eq!(values[3], 2_000);
    assert!(values[..3].iter().all(|value| *value != 2_000));
}

#[test]
fn channel_b_is_not_the_load() {
    let chips = Chips::default();
    settle(&chips);
    convert(&chips, 100 * MILLI, 4_000);
    read(&chips, 26);
    for conversion in 9..=12 {
        convert(&chips, conversion * 12_500_000, 4_000);
        assert_eq!(read(&chips, 26), 0);
    }
}

#[test]
fn a_clock_held_high_powers_down_and_its_fall_resets() {
    let chips = Chips::default();
    settle(&chips);
    convert(&chips, 100 * MILLI, 4_000);
    let (mut data, mut clock, mut delay) =
        (chips.bridge_data(), chips.bridge_clock(), chips.delay());
    clock.set_high().unwrap();
    delay.delay_us(60);
    assert!(!chips.bridge.is_powered_down(chips.clock.nanos()));
    delay.delay_us(1);
    assert!(chips.bridge.is_powered_down(chips.clock.nanos()));
    convert(&chips, 125 * MILLI, 4_000);
    assert!(data.is_high().unwrap(), "it does not convert");
    clock.set_low().unwrap();
    assert!(!chips.bridge.is_powered_down(chips.clock.nanos()));
    convert(&chips, 150 * MILLI, 4_000);
    assert_ne!(
        read(&chips, 25),
        4_000,
        "the first after a reset is not settled"
    );
    assert_eq!(chips.bridge.counters().power_downs, 1);
}

#[test]
fn an_interrupt_in_the_high_half_powers_down() {
    let chips = Chips::default();
    settle(&chips);
    convert(&chips, 100 * MILLI, 4_000);
    chips.bridge.stall_next_pulse(80_000);
    read(&chips, 25);
    assert_eq!(chips.bridge.counters().power_downs, 1);
}

#[test]
fn a_conversion_in_the_middle_of_a_read_spoils_it() {
    let chips = Chips::default();
    settle(&chips);
    convert(&chips, 100 * MILLI, 0x55_5555);
    assert!(chips.bridge.schedule(112_500_000, 0x0F_0F0F));
    chips.clock.set_nanos(112_500_000 - 20_000);
    let word = read(&chips, 25);
    assert_ne!(word, 0x55_5555);
    assert_ne!(word, 0x0F_0F0F);
    assert_eq!(chips.bridge.counters().torn_reads, 1);
}

#[test]
fn a_stray_edge_shifts_the_bits() {
    let chips = Chips::default();
    settle(&chips);
    convert(&chips, 100 * MILLI, 0x12_3456);
    chips.bridge.spark();
    // The first bit is lost; the 24th pulse is the chip's 25th and reads high.
    assert_eq!(read(&chips, 25), 0x12_3456 << 1 & 0xFF_FFFF | 1);
}

#[test]
fn clock_halves_beyond_the_data_sheet_are_counted() {
    let chips = Chips::default();
    let mut clock = chips.bridge_clock();
    let mut delay = chips.delay();
    settle(&chips);
    convert(&chips, 100 * MILLI, 0);
    clock.set_high().unwrap();
    clock.set_low().unwrap();
    assert_eq!(chips.bridge.counters().bad_halves, 1, "50 ns high");
    delay.delay_us(1);
    clock.set_high().unwrap();
    delay.delay_us(55);
    clock.set_low().unwrap();
    assert_eq!(chips.bridge.counters().bad_halves, 2, "55 us high");
}

#[test]
fn pulses_without_data_are_counted() {
    let chips = Chips::default();
    read(&chips, 3);
    assert_eq!(chips.bridge.counters().stray_pulses, 3);
}

#[test]
fn each_trouble_shows_as_it_should() {
    let read_with = |trouble| {
        let chips = Chips::default();
        settle(&chips);
        convert(&chips, 100 * MILLI, 77);
        read(&chips, 25);
        chips.bridge.set_trouble(trouble);
        convert(&chips, 112_500_000, 78);
        chips
            .bridge_data()
            .is_low()
            .unwrap()
            .then(|| read(&chips, 25))
    };
    assert_eq!(read_with(BridgeTrouble::None), Some(78));
    assert_eq!(read_with(BridgeTrouble::Silent), None);
    assert_eq!(read_with(BridgeTrouble::HighRail), Some(0x7F_FFFF));
    assert_eq!(read_with(BridgeTrouble::LowRail), Some(0x80_0000));
    assert_eq!(read_with(BridgeTrouble::Frozen), Some(77));
    assert_eq!(read_with(BridgeTrouble::DataLow), Some(0));
    assert_eq!(read_with(BridgeTrouble::AllOnes), Some(0xFF_FFFF));
    let chips = Chips::default();
    chips.bridge.set_trouble(BridgeTrouble::PinError);
    assert!(chips.bridge_data().is_low().is_err());
    assert!(chips.bridge_clock().set_high().is_err());
}

fn probe_word(chips: &Chips) -> u32 {
    let mut bytes = [0; 4];
    chips.probe_bus().read(&mut bytes).unwrap();
    u32::from_be_bytes(bytes)
}

// Tables 4 and 5 of the data sheet.
#[test]
fn the_words_fields_are_the_data_sheets() {
    for (quarters, bits) in [
        (1600 * 4, 0b01_1001_0000_0000),
        (1000 * 4, 0b00_1111_1010_0000),
        (403, 0b00_0001_1001_0011),
        (100, 0b00_0000_0110_0100),
        (0, 0),
        (-1, 0b11_1111_1111_1111),
        (-1000, 0b11_1100_0001_1000),
    ] {
        assert_eq!(ProbeWord::healthy(quarters, 0).0 >> 18, bits, "{quarters}");
    }
    for (sixteenths, bits) in [
        (127 * 16, 0b0111_1111_0000),
        (1609, 0b0110_0100_1001),
        (25 * 16, 0b0001_1001_0000),
        (-1, 0b1111_1111_1111),
        (-55 * 16, 0b1100_1001_0000),
    ] {
        assert_eq!(
            ProbeWord::healthy(0, sixteenths).0 >> 4,
            bits,
            "{sixteenths}"
        );
    }
    let word = ProbeWord::healthy(100, 400);
    assert_eq!(
        word.0 & 0x2000F,
        0,
        "bits 17 and 3 are zero, and so are the faults"
    );
    for bit in 0..3 {
        let faulty = word.faulty(1 << bit).0;
        assert_eq!(faulty & 0x1_0007, 0x1_0000 | 1 << bit);
        assert_eq!(faulty >> 4 & 0xFFF, 400);
    }
}

#[test]
fn nothing_comes_before_the_first_conversion_and_reading_too_often_repeats() {
    let chips = Chips::default();
    let (first, second) = (ProbeWord::healthy(100, 400), ProbeWord::healthy(200, 400));
    chips.probe.set_word(first);
    assert_eq!(probe_word(&chips), 0);
    chips.clock.set_nanos(250 * MILLI);
    assert_eq!(probe_word(&chips), first.0);
    chips.probe.set_word(second);
    chips.clock.pass_nanos(90 * MILLI);
    assert_eq!(
        probe_word(&chips),
        first.0,
        "the read cut the conversion off"
    );
    chips.clock.pass_nanos(90 * MILLI);
    assert_eq!(probe_word(&chips), first.0, "and so did this one");
    chips.clock.pass_nanos(100 * MILLI);
    assert_eq!(probe_word(&chips), second.0);
}

#[test]
fn every_way_of_reading_the_bus_gives_the_same_bits() {
    let chips = Chips::default();
    let word = ProbeWord::healthy(-1000, -55 * 16);
    chips.probe.set_word(word);
    chips.clock.set_nanos(300 * MILLI);
    let (mut a, mut b, mut c) = ([0; 1], [0; 1], [0; 3]);
    chips
        .probe_bus()
        .transaction(&mut [
            Operation::Read(&mut a),
            Operation::Write(&[0]),
            Operation::Transfer(&mut b, &[0]),
            Operation::TransferInPlace(&mut c),
        ])
        .unwrap();
    let bytes = word.0.to_be_bytes();
    assert_eq!((a, b), ([bytes[0]], [bytes[2]]));
    assert_eq!(c, [bytes[3], 0, 0]);
}

#[test]
fn each_probe_trouble_shows_as_it_should() {
    let word_with = |trouble| {
        let chips = Chips::default();
        chips.probe.set_word(ProbeWord::healthy(4 * 63, 16 * 24));
        chips.clock.set_nanos(300 * MILLI);
        probe_word(&chips);
        chips.probe.set_trouble(trouble);
        chips.probe.set_word(ProbeWord::healthy(4 * 64, 16 * 24));
        chips.clock.set_nanos(600 * MILLI);
        let mut bytes = [0; 4];
        chips
            .probe_bus()
            .read(&mut bytes)
            .ok()
            .map(|()| u32::from_be_bytes(bytes))
    };
    let fault = |bits| Some(ProbeWord::healthy(0, 16 * 24).faulty(bits).0);
    assert_eq!(
        word_with(ProbeTrouble::None),
        Some(ProbeWord::healthy(4 * 64, 16 * 24).0)
    );
    assert_eq!(word_with(ProbeTrouble::Open), fault(1));
    assert_eq!(word_with(ProbeTrouble::ShortToGround), fault(2));
    assert_eq!(word_with(ProbeTrouble::ShortToSupply), fault(4));
    assert_eq!(
        word_with(ProbeTrouble::ShortedWires),
        Some(ProbeWord::healthy(4 * 24, 16 * 24).0)
    );
    assert_eq!(word_with(ProbeTrouble::DataLow), Some(0));
    assert_eq!(word_with(ProbeTrouble::DataHigh), Some(u32::MAX));
    assert_eq!(
        word_with(ProbeTrouble::Frozen),
        Some(ProbeWord::healthy(4 * 63, 16 * 24).0)
    );
    assert_eq!(word_with(ProbeTrouble::BusError), None);
}

// NIST SRD 60, type K, reference junction at 0 degC (from memory): 8.138 mV at
// 200, 14.293 at 350, 20.644 at 500, 41.276 at 1000 degC; divided by the data
// sheet's 41.276 uV a degree.
#[test]
fn a_probe_is_read_along_a_straight_line() {
    let celsius = |degrees| Temperature::from_celsius(degrees).unwrap();
    let reads = |hot, cold, cold_read| {
        let word = ProbeWord::type_k(celsius(hot), celsius(cold), celsius(cold_read)).unwrap();
        f64::from((word.0.cast_signed()) >> 18) / 4.0
    };
    for (hot, millivolts) in [
        (200.0, 8.138),
        (350.0, 14.293),
        (500.0, 20.644),
        (1000.0, 41.276),
    ] {
        let line: f64 = millivolts / 0.041_276;
        assert_eq!(reads(hot, 0.0, 0.0), (line * 4.0).round() / 4.0, "{hot}");
    }
    assert_eq!(reads(25.0, 25.0, 25.0), 25.0);
    // What it gets wrong about its cold junction it gets wrong about the tip.
    assert_eq!(reads(25.0, 25.0, 26.5), 26.5);
}
