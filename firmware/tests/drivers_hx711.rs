//! The bit-clocked bridge converter's driver against pin transcripts worked
//! out from the data sheet ("HX711, 24-Bit Analog-to-Digital Converter (ADC)
//! for Weigh Scales", Avia Semiconductor, page 4 serial interface and Table 3,
//! page 5 Fig. 2 and 3).

use embedded_hal_mock::eh1::delay::NoopDelay;
use embedded_hal_mock::eh1::digital::{Mock, State, Transaction};
use evenhand_firmware::drivers::Bridge;
use evenhand_firmware::drivers::hx711::{Config, Hx711, Input};
use evenhand_firmware::sensor::{BridgeFault, Counts};

/// 80 conversions a second, in microseconds.
const PERIOD: u64 = 12_500;

/// What the two pins see, in order.
#[derive(Default)]
struct Lines {
    data: Vec<Transaction>,
    clock: Vec<Transaction>,
}

impl Lines {
    /// Page 5, Fig. 3: high for over 60 us powers down, the fall resets.
    fn restart(mut self) -> Self {
        self.clock.push(Transaction::set(State::High));
        self.clock.push(Transaction::set(State::Low));
        self
    }

    /// Page 4: data is not ready while the data line is high.
    fn not_ready(mut self) -> Self {
        self.data.push(Transaction::get(State::High));
        self
    }

    /// Ready, but the driver knows better than to read.
    fn ready_unread(mut self) -> Self {
        self.data.push(Transaction::get(State::Low));
        self
    }

    /// Page 5, Fig. 2: ready, then each pulse brings the next bit, highest
    /// first, and from the 25th on the line is high.
    fn read(self, word: u32, pulses: u32) -> Self {
        self.read_ending(word, pulses, State::High)
    }

    fn read_ending(mut self, word: u32, pulses: u32, end: State) -> Self {
        self.data.push(Transaction::get(State::Low));
        for pulse in 1..=pulses {
            self.clock.push(Transaction::set(State::High));
            self.clock.push(Transaction::set(State::Low));
            let level = if pulse == pulses {
                end
            } else if pulse > 24 || word >> (24 - pulse) & 1 == 1 {
                State::High
            } else {
                State::Low
            };
            self.data.push(Transaction::get(level));
        }
        self
    }

    /// A restart and the conversions that are dropped after it.
    fn start(self, input: Input) -> Self {
        let (pulses, dropped) = match input {
            Input::A128 => (25, 4),
            Input::B32 => (26, 5),
            Input::A64 => (27, 5),
        };
        (0..dropped).fold(self.restart(), |lines, n| {
            lines.not_ready().read(0x00_1000 + n, pulses)
        })
    }
}

type MockBridge = Hx711<Mock, Mock, NoopDelay>;

/// Plays a transcript with a call at each of these times: the answers, the
/// `WouldBlock` ones left out, and the driver.
fn play(
    lines: &Lines,
    config: Config,
    at: impl IntoIterator<Item = u64>,
) -> (Vec<Result<Counts, BridgeFault>>, MockBridge) {
    let (mut data, mut clock) = (Mock::new(&lines.data), Mock::new(&lines.clock));
    let mut bridge = Hx711::new(data.clone(), clock.clone(), NoopDelay::new(), config);
    let mut answers = Vec::new();
    for now in at {
        match bridge.poll(now) {
            Ok(counts) => answers.push(Ok(counts)),
            Err(nb::Error::Other(fault)) => answers.push(Err(fault)),
            Err(nb::Error::WouldBlock) => {}
        }
    }
    data.done();
    clock.done();
    (answers, bridge)
}

/// The calls of a start: clock up, clock down, then the conversions.
fn start_times(conversions: u64) -> Vec<u64> {
    let mut at = vec![0, 150];
    at.extend(conversion_times(1, conversions));
    at
}

/// For each conversion "not ready", the read and the call that vouches for it.
fn conversion_times(from: u64, to: u64) -> Vec<u64> {
    (from..=to)
        .flat_map(|n| [n * PERIOD + 100, n * PERIOD + 300, n * PERIOD + 500])
        .collect()
}

#[test]
fn the_first_four_conversions_are_dropped_and_the_fifth_is_given() {
    // Page 4: two's complement, highest bit first.
    for (word, counts) in [
        (0x12_3456, 0x12_3456),
        (0xED_CBAA, -0x12_3456),
        (0x00_0000, 0),
        (0x7F_FFFE, 0x7F_FFFE),
        (0x80_0001, -0x7F_FFFF),
    ] {
        let lines = Lines::default()
            .start(Input::A128)
            .not_ready()
            .read(word, 25);
        let (answers, bridge) = play(&lines, Config::fast(), start_times(5));
        assert_eq!(answers, [Ok(Counts(counts))], "{word:06x}");
        assert_eq!(bridge.tally().restarts, 0);
        assert_eq!(bridge.tally().doubtful, 0);
    }
}

#[test]
fn the_number_of_pulses_chooses_channel_and_gain() {
    // Page 4, Table 3: 25 is channel A gain 128, 26 channel B gain 32, 27
    // channel A gain 64. The chip wakes on the first, so the other two settle
    // from the first read on: one conversion more is dropped.
    for (input, pulses, first_given) in [
        (Input::A128, 25, 5),
        (Input::B32, 26, 6),
        (Input::A64, 27, 6),
    ] {
        let config = Config {
            input,
            ..Config::fast()
        };
        let lines = Lines::default().start(input).not_ready().read(7, pulses);
        let (answers, _) = play(&lines, config, start_times(first_given));
        assert_eq!(answers, [Ok(Counts(7))], "{input:?}");
    }
}

#[test]
fn waiting_for_data_touches_the_data_line_once_a_call_and_never_the_clock() {
    let lines = (0..50).fold(Lines::default().restart(), |lines, _| lines.not_ready());
    let times = [0, 150].into_iter().chain((0..50).map(|n| 200 + n * 10));
    let (answers, _) = play(&lines, Config::fast(), times);
    assert_eq!(answers, []);
}

#[test]
fn the_clock_is_not_let_down_before_the_chip_has_powered_down() {
    // Page 5, Fig. 3: 60 us.
    let mut lines = Lines::default();
    lines.clock.push(Transaction::set(State::High));
    play(&lines, Config::fast(), [0, 20, 40, 60, 61]);
    let lines = Lines::default().restart();
    play(&lines, Config::fast(), [0, 61, 100]);
}

#[test]
fn the_ends_of_the_range_are_faults() {
    // Page 4: 0x7FFFFF and 0x800000 are where the output limits.
    for (word, fault) in [
        (0x7F_FFFF, BridgeFault::HighRail),
        (0x80_0000, BridgeFault::LowRail),
    ] {
        let lines = Lines::default()
            .start(Input::A128)
            .not_ready()
            .read(word, 25)
            .not_ready()
            .read(word, 25);
        // The output settles before it is believed again.
        let lines = (0..6).fold(lines, |lines, n| lines.not_ready().read(5 + n, 25));
        let (answers, bridge) = play(&lines, Config::fast(), start_times(12));
        assert_eq!(answers, [Err(fault), Err(fault), Ok(Counts(10))]);
        assert_eq!(bridge.tally().restarts, 0, "an overload needs no restart");
    }
}

#[test]
fn a_data_line_that_is_low_after_the_last_pulse_is_out_of_step() {
    // Page 4: the 25th pulse pulls the line high.
    let lines = Lines::default()
        .start(Input::A128)
        .not_ready()
        .read_ending(0x12_3456, 25, State::Low)
        .start(Input::A128);
    let mut times = start_times(4);
    times.extend([5 * PERIOD + 100, 5 * PERIOD + 300]);
    times.extend([5 * PERIOD + 500, 5 * PERIOD + 700]);
    times.extend(conversion_times(7, 10));
    let (answers, bridge) = play(&lines, Config::fast(), times);
    assert_eq!(answers, [Err(BridgeFault::OutOfStep)]);
    assert_eq!(bridge.tally().restarts, 1);
}

#[test]
fn all_ones_are_never_a_weight_and_five_in_a_row_a_fault() {
    let lines = (0..5).fold(Lines::default().start(Input::A128), |lines, _| {
        lines.not_ready().read(0xFF_FFFF, 25)
    });
    let (answers, bridge) = play(&lines, Config::fast(), start_times(9));
    assert_eq!(answers, [Err(BridgeFault::OutOfStep)]);
    assert_eq!(bridge.tally().doubtful, 5);
    assert_eq!(bridge.tally().restarts, 1);
}

#[test]
fn a_value_that_never_moves_is_frozen_after_the_set_number() {
    let same = |times: u32| {
        (0..times).fold(Lines::default().start(Input::A128), |lines, _| {
            lines.not_ready().read(0x1234, 25)
        })
    };
    let config = Config {
        frozen_after: 3,
        ..Config::fast()
    };
    let (answers, bridge) = play(&same(3), config, start_times(7));
    let value = Ok(Counts(0x1234));
    assert_eq!(answers, [value, value, Err(BridgeFault::Frozen)]);
    assert_eq!(bridge.tally().restarts, 1);

    // Never, where it is switched off.
    let config = Config {
        frozen_after: 0,
        ..Config::fast()
    };
    let (answers, _) = play(&same(30), config, start_times(34));
    assert_eq!(answers, [value; 30]);
}

#[test]
fn a_chip_that_stays_silent_times_out_and_is_restarted() {
    let lines = Lines::default().restart().not_ready().not_ready().restart();
    let silent = 8 * PERIOD + 100;
    let (answers, bridge) = play(
        &lines,
        Config::fast(),
        [0, 100, silent, silent + 1, 200_000, 200_100],
    );
    assert_eq!(answers, [Err(BridgeFault::Timeout)]);
    assert_eq!(bridge.tally().restarts, 1);
}

#[test]
fn data_ready_too_early_or_too_late_is_out_of_step() {
    let one = || Lines::default().start(Input::A128).not_ready().read(5, 25);
    let expected = [Ok(Counts(5)), Err(BridgeFault::OutOfStep)];

    let mut times = start_times(5);
    times.push(5 * PERIOD + 5_000);
    let (answers, bridge) = play(&one().ready_unread(), Config::fast(), times);
    assert_eq!(answers, expected);
    assert_eq!(bridge.tally().restarts, 1);

    // Page 4: after a reset or a change of gain the output takes four periods.
    let late = one().not_ready().ready_unread();
    let mut times = start_times(5);
    times.extend([9 * PERIOD, 9 * PERIOD + 200]);
    let (answers, bridge) = play(&late, Config::fast(), times);
    assert_eq!(answers, expected);
    assert_eq!(bridge.tally().restarts, 1);
}

#[test]
fn a_read_that_may_have_run_into_the_next_conversion_is_dropped() {
    // The call that should vouch for the value comes a whole period late.
    let lines = Lines::default().start(Input::A128).not_ready().read(5, 25);
    let mut times = start_times(4);
    times.extend([5 * PERIOD + 100, 5 * PERIOD + 300, 6 * PERIOD + 300]);
    let (answers, bridge) = play(&lines, Config::fast(), times);
    assert_eq!(answers, []);
    assert_eq!(bridge.tally().doubtful, 1);
    assert_eq!(bridge.tally().restarts, 0);
}

#[test]
fn an_interrupt_can_say_when_data_ready_fell() {
    // Not one "not ready" was seen, and still the reads are vouched for.
    let lines = (0..5).fold(Lines::default().restart(), |lines, n| lines.read(n, 25));
    let (mut data, mut clock) = (Mock::new(&lines.data), Mock::new(&lines.clock));
    let mut bridge = Hx711::new(
        data.clone(),
        clock.clone(),
        NoopDelay::new(),
        Config::fast(),
    );
    let mut given = Vec::new();
    for now in [0, 100] {
        assert_eq!(bridge.poll(now), Err(nb::Error::WouldBlock));
    }
    for conversion in 4..9 {
        let fell = conversion * PERIOD;
        bridge.data_ready_fell(fell);
        given.extend(bridge.poll(fell + 10));
        given.extend(bridge.poll(fell + 200));
    }
    assert_eq!(given, [Counts(4)]);
    assert_eq!(bridge.tally().doubtful, 0);
    data.done();
    clock.done();
}
