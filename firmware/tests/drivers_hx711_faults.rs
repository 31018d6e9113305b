//! The bit-clocked bridge converter's driver against a model of the chip, with
//! a failure at every pin call, an interrupt at every delay, and each of the
//! chip's troubles.

use std::cell::{Cell, RefCell};
use std::sync::mpsc;
use std::time::Duration;

use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{ErrorType, InputPin, OutputPin};
use embedded_hal_mock::eh1::delay::NoopDelay;
use evenhand_firmware::drivers::Bridge;
use evenhand_firmware::drivers::hx711::{Config, Hx711};
use evenhand_firmware::sensor::{BridgeFault, Counts};
use evenhand_simulator::chips::{BridgeTrouble, Chips, PinFailure};
use proptest::prelude::*;

/// 80 conversions a second, in microseconds.
const PERIOD: u64 = 12_500;
/// The load without its noise: far from zero.
const LOAD: i32 = 0x2A_5A00;

/// The true value of a conversion: never twice the same in a row.
fn load(conversion: u64) -> i32 {
    LOAD + i32::try_from(conversion * 7_919 % 101).unwrap() * 2
}

fn is_true(counts: Counts) -> bool {
    (0..101).any(|n| load(n) == counts.0)
}

/// One bench: the chip, and how far it has been driven.
struct Rig<'a> {
    chips: &'a Chips,
    conversions: u64,
}

impl<'a> Rig<'a> {
    fn new(chips: &'a Chips) -> Self {
        // The chip was powered up a while ago.
        chips.clock.set_micros(1_000);
        Self {
            chips,
            conversions: 0,
        }
    }

    /// Calls the driver every `step` microseconds until so many conversions
    /// have ended and the last has been read; gives the answers that are not
    /// `WouldBlock`.
    fn run(
        &mut self,
        bridge: &mut impl Bridge,
        step: u64,
        conversions: u64,
    ) -> Vec<Result<Counts, BridgeFault>> {
        let mut answers = Vec::new();
        let end = conversions * PERIOD + PERIOD / 2;
        while self.chips.clock.micros() < end {
            while self.conversions < conversions
                && self.conversions * PERIOD < self.chips.clock.micros() + 4 * PERIOD
            {
                self.conversions += 1;
                let at = self.conversions * PERIOD * 1_000;
                assert!(self.chips.bridge.schedule(at, load(self.conversions)));
            }
            match bridge.poll(self.chips.clock.micros()) {
                Ok(counts) => answers.push(Ok(counts)),
                Err(nb::Error::Other(fault)) => answers.push(Err(fault)),
                Err(nb::Error::WouldBlock) => {}
            }
            self.chips.clock.pass_nanos(step * 1_000);
        }
        answers
    }
}

/// Pins of which some calls fail.
#[derive(Clone, Copy)]
struct Pin<'a> {
    chips: &'a Chips,
    calls: &'a Cell<u32>,
    fails: &'a dyn Fn(u32) -> bool,
}

impl Pin<'_> {
    fn call(&self) -> Result<(), PinFailure> {
        let call = self.calls.get();
        self.calls.set(call + 1);
        if (self.fails)(call) {
            Err(PinFailure)
        } else {
            Ok(())
        }
    }
}

impl ErrorType for Pin<'_> {
    type Error = PinFailure;
}

impl InputPin for Pin<'_> {
    fn is_high(&mut self) -> Result<bool, PinFailure> {
        self.call()?;
        self.chips.bridge_data().is_high()
    }
    fn is_low(&mut self) -> Result<bool, PinFailure> {
        self.call()?;
        self.chips.bridge_data().is_low()
    }
}

impl OutputPin for Pin<'_> {
    fn set_low(&mut self) -> Result<(), PinFailure> {
        self.call()?;
        self.chips.bridge_clock().set_low()
    }
    fn set_high(&mut self) -> Result<(), PinFailure> {
        self.call()?;
        self.chips.bridge_clock().set_high()
    }
}

/// A run in which these pin calls fail: the answers and the number of calls.
fn run_failing(
    fails: &dyn Fn(u32) -> bool,
    conversions: u64,
) -> (Vec<Result<Counts, BridgeFault>>, u32) {
    let (chips, calls) = (Chips::default(), Cell::new(0));
    let pin = Pin {
        chips: &chips,
        calls: &calls,
        fails,
    };
    let mut bridge = Hx711::new(pin, pin, chips.delay(), Config::fast());
    let answers = Rig::new(&chips).run(&mut bridge, 200, conversions);
    (answers, calls.get())
}

/// A delay of which one call takes much longer: an interrupt.
struct Interrupted<'a> {
    chips: &'a Chips,
    calls: u32,
    at: u32,
    nanos: u64,
}

impl DelayNs for Interrupted<'_> {
    fn delay_ns(&mut self, ns: u32) {
        self.chips.delay().delay_ns(ns);
        if self.calls == self.at {
            self.chips.clock.pass_nanos(self.nanos);
        }
        self.calls += 1;
    }
}

#[test]
fn every_conversion_is_given_once_and_whole_however_often_it_is_polled() {
    for step in [5, 50, 333, 1_000, 3_000] {
        let chips = Chips::default();
        let mut bridge = Hx711::new(
            chips.bridge_data(),
            chips.bridge_clock(),
            chips.delay(),
            Config::fast(),
        );
        let answers = Rig::new(&chips).run(&mut bridge, step, 100);
        let dropped = 100 - answers.len() as u64;
        assert!((4..=5).contains(&dropped), "{dropped} dropped at {step} us");
        let expected: Vec<_> = (dropped + 1..=100).map(|n| Ok(Counts(load(n)))).collect();
        assert_eq!(answers, expected, "every {step} us");
        let counters = chips.bridge.counters();
        assert_eq!(counters.bad_halves, 0);
        assert_eq!(counters.stray_pulses, 1, "the edge that powers it down");
        assert_eq!(counters.torn_reads, 0);
        assert_eq!(counters.power_downs, 1);
        assert_eq!(bridge.tally().restarts, 0);
    }
}

#[test]
fn one_failure_at_any_pin_call_is_one_typed_error_and_no_wrong_weight() {
    let (_, total) = run_failing(&|_| false, 9);
    assert!(total > 9 * 75, "the run reads conversions: {total} calls");
    for at in 0..total {
        let (answers, _) = run_failing(&move |call| call == at, 20);
        let faults: Vec<_> = answers.iter().filter_map(|a| a.err()).collect();
        assert_eq!(faults, [BridgeFault::Bus], "call {at}");
        let values: Vec<_> = answers.iter().filter_map(|a| a.ok()).collect();
        assert!(values.iter().all(|v| is_true(*v)), "call {at}: {values:?}");
        assert_eq!(values.last(), Some(&Counts(load(20))), "call {at}");
    }
}

#[test]
fn pins_that_fail_for_good_give_the_same_typed_error_for_ever() {
    let (_, total) = run_failing(&|_| false, 6);
    for from in 0..total {
        let (answers, _) = run_failing(&move |call| call >= from, 12);
        assert_eq!(answers.last(), Some(&Err(BridgeFault::Bus)), "call {from}");
        for answer in answers {
            match answer {
                Ok(counts) => assert!(is_true(counts)),
                Err(fault) => assert_eq!(fault, BridgeFault::Bus),
            }
        }
    }
}

/// A run with one delay that much longer.
fn run_interrupted(at: u32, micros: u64) -> (Vec<Result<Counts, BridgeFault>>, u32) {
    let chips = Chips::default();
    let delay = Interrupted {
        chips: &chips,
        calls: 0,
        at,
        nanos: micros * 1_000,
    };
    let (data, clock) = (chips.bridge_data(), chips.bridge_clock());
    let mut bridge = Hx711::new(data, clock, delay, Config::fast());
    let answers = Rig::new(&chips).run(&mut bridge, 200, 30);
    (answers, chips.bridge.counters().torn_reads)
}

/// Two delays a pulse, 25 pulses a read: the delays of the fifth read, the
/// first whose value is given. Even ones are in the low half of a pulse, odd
/// ones in the high half, which is a critical section.
const FIFTH_READ: core::ops::Range<u32> = 200..250;

#[test]
fn an_interrupt_between_pulses_never_makes_a_wrong_weight() {
    let mut torn = 0;
    for at in FIFTH_READ.step_by(2) {
        for micros in [5, 70, 3_000, 12_000, 12_600, 26_000] {
            let (answers, torn_reads) = run_interrupted(at, micros);
            torn += torn_reads;
            for answer in &answers {
                match answer {
                    Ok(counts) => assert!(is_true(*counts), "{at}, {micros} us: {answers:?}"),
                    Err(fault) => assert_eq!(*fault, BridgeFault::OutOfStep),
                }
            }
            assert_eq!(answers.last(), Some(&Ok(Counts(load(30)))));
        }
    }
    assert!(torn > 50, "these must strike at a conversion's end: {torn}");
}

#[test]
fn a_chip_that_loses_power_in_mid_read_is_found_out_by_its_ones() {
    // Something that no critical section holds back stretches the high half of
    // one pulse. From there on the chip gives ones and starts anew, so the
    // value is dropped wherever the error could be 12 bits or more.
    for at in FIFTH_READ.skip(1).step_by(2).take(12) {
        for micros in [70, 3_000, 12_600] {
            let (answers, _) = run_interrupted(at, micros);
            for answer in &answers {
                match answer {
                    Ok(counts) => assert!(is_true(*counts), "{at}, {micros} us: {answers:?}"),
                    // After the first bit the ones look like the end of the range.
                    Err(fault) => assert_eq!(*fault, BridgeFault::HighRail),
                }
            }
            assert_eq!(answers.last(), Some(&Ok(Counts(load(30)))));
        }
    }
}

/// A delay that notes, each time, whether interrupts would have to wait: whether
/// another thread can get into a critical section meanwhile.
struct Listening<'a> {
    chips: &'a Chips,
    masked: &'a RefCell<Vec<bool>>,
}

impl DelayNs for Listening<'_> {
    fn delay_ns(&mut self, ns: u32) {
        self.chips.delay().delay_ns(ns);
        let calls = self.masked.borrow().len();
        // A few pulses will do: a masked one costs the waiting time below.
        if calls < 12 {
            let (tell, told) = mpsc::channel();
            std::thread::spawn(move || critical_section::with(|_| tell.send(())));
            // Free is known as soon as the other thread has run, however late;
            // masked is what is still silent after a while.
            let free = told.recv_timeout(Duration::from_millis(if calls.is_multiple_of(2) {
                60_000
            } else {
                50
            }));
            self.masked.borrow_mut().push(free.is_err());
        }
    }
}

#[test]
fn only_the_high_half_of_each_pulse_is_in_a_critical_section() {
    let (chips, masked) = (Chips::default(), RefCell::new(Vec::new()));
    let delay = Listening {
        chips: &chips,
        masked: &masked,
    };
    let (data, clock) = (chips.bridge_data(), chips.bridge_clock());
    let mut bridge = Hx711::new(data, clock, delay, Config::fast());
    Rig::new(&chips).run(&mut bridge, 200, 2);
    assert_eq!(*masked.borrow(), [false, true].repeat(6));
}

#[test]
fn polling_too_seldom_is_a_fault_and_not_a_wrong_weight() {
    let chips = Chips::default();
    let mut bridge = Hx711::new(
        chips.bridge_data(),
        chips.bridge_clock(),
        chips.delay(),
        Config::fast(),
    );
    let answers = Rig::new(&chips).run(&mut bridge, 11_000, 100);
    assert!(answers.contains(&Err(BridgeFault::OutOfStep)));
    for answer in answers {
        match answer {
            Ok(counts) => assert!(is_true(counts)),
            Err(fault) => assert_eq!(fault, BridgeFault::OutOfStep),
        }
    }
}

#[test]
fn every_trouble_of_the_chip_has_its_own_fault_and_passes() {
    for (trouble, fault) in [
        (BridgeTrouble::Silent, BridgeFault::Timeout),
        (BridgeTrouble::HighRail, BridgeFault::HighRail),
        (BridgeTrouble::LowRail, BridgeFault::LowRail),
        (BridgeTrouble::Frozen, BridgeFault::Frozen),
        (BridgeTrouble::DataLow, BridgeFault::OutOfStep),
        (BridgeTrouble::AllOnes, BridgeFault::OutOfStep),
        (BridgeTrouble::PinError, BridgeFault::Bus),
    ] {
        let chips = Chips::default();
        let mut bridge = Hx711::new(
            chips.bridge_data(),
            chips.bridge_clock(),
            chips.delay(),
            Config::fast(),
        );
        let mut rig = Rig::new(&chips);
        rig.run(&mut bridge, 200, 10);
        chips.bridge.set_trouble(trouble);
        let during = rig.run(&mut bridge, 200, 40);
        assert!(during.contains(&Err(fault)), "{trouble:?}: {during:?}");
        for answer in &during {
            match answer {
                Ok(counts) => assert!(is_true(*counts), "{trouble:?}: {during:?}"),
                Err(told) => assert_eq!(*told, fault, "{trouble:?}: {during:?}"),
            }
        }
        assert!(
            bridge.tally().restarts < 40,
            "{trouble:?}: restarts hardly oftener than conversions"
        );
        chips.bridge.set_trouble(BridgeTrouble::None);
        let after = rig.run(&mut bridge, 200, 70);
        assert_eq!(after.last(), Some(&Ok(Counts(load(70)))), "{trouble:?}");
    }
}

#[test]
fn a_clock_that_steps_back_holds_nothing_up() {
    struct Ahead<'a, B>(&'a mut B);
    impl<B: Bridge> Bridge for Ahead<'_, B> {
        fn poll(&mut self, now: u64) -> nb::Result<Counts, BridgeFault> {
            self.0.poll(now + 1_000_000_000)
        }
    }
    let chips = Chips::default();
    let mut bridge = Hx711::new(
        chips.bridge_data(),
        chips.bridge_clock(),
        chips.delay(),
        Config::fast(),
    );
    let mut rig = Rig::new(&chips);
    rig.run(&mut Ahead(&mut bridge), 200, 10);
    let answers = rig.run(&mut bridge, 200, 30);
    let expected: Vec<_> = (11..=30).map(|n| Ok(Counts(load(n)))).collect();
    assert_eq!(answers, expected);
    assert_eq!(bridge.tally().restarts, 0);
}

/// A data line that says anything.
struct Noise {
    levels: Vec<bool>,
    calls: usize,
}

impl ErrorType for Noise {
    type Error = PinFailure;
}

impl InputPin for Noise {
    fn is_high(&mut self) -> Result<bool, PinFailure> {
        self.calls += 1;
        Ok(self.levels[self.calls % self.levels.len()])
    }
    fn is_low(&mut self) -> Result<bool, PinFailure> {
        self.is_high().map(|high| !high)
    }
}

proptest! {
    // Whatever the data line says and whenever it is asked, each call comes
    // back with a value inside the range or a typed fault.
    #[test]
    fn noise_on_the_data_line_is_survived(
        levels in proptest::collection::vec(any::<bool>(), 1..200),
        steps in proptest::collection::vec(0_u64..40_000, 1..200),
    ) {
        let chips = Chips::default();
        let data = Noise { levels, calls: 0 };
        let mut bridge =
            Hx711::new(data, chips.bridge_clock(), NoopDelay::new(), Config::fast());
        let mut now = 0;
        for step in steps {
            now += step;
            if let Ok(counts) = bridge.poll(now) {
                prop_assert!(counts.0 > -0x80_0000 && counts.0 < 0x7F_FFFF);
                prop_assert!(counts.0 != -1);
            }
        }
    }
}
