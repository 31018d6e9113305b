//! Time of the core's own clock, for measuring what a piece of work takes.
//!
//! The emulated clock follows the instructions when QEMU is started with
//! `-icount`: with `-icount shift=N` each instruction takes 2^N ns, and the
//! timer counts at 25 MHz, so a tick is 40 / 2^N instructions. Without
//! `-icount` it follows the wall's clock and says nothing about the work.

use cortex_m::peripheral::{SYST, syst::SystClkSource};
use evenhand_firmware::drivers::{Bridge, Probe};
use evenhand_firmware::sensor::{BridgeFault, Counts, ProbeFault, ProbeSample};

/// The timer counts 24 bits, downwards.
const LAST: u32 = 0xFF_FFFF;

/// Starts the system timer, to run freely for ever.
pub fn start(mut timer: SYST) {
    timer.set_clock_source(SystClkSource::Core);
    timer.set_reload(LAST);
    timer.clear_current();
    timer.enable_counter();
}

/// Does the work and says how many ticks it took. Right as long as it takes
/// less than one round of the timer, 16 777 216 ticks.
pub fn time<T>(work: impl FnOnce() -> T) -> (T, u32) {
    let before = SYST::get_current();
    let done = work();
    (done, before.wrapping_sub(SYST::get_current()) & LAST)
}

/// A driver that adds up the ticks that its calls take.
#[derive(Debug)]
pub struct Timed<D> {
    driver: D,
    ticks: u32,
}

impl<D> Timed<D> {
    /// The driver, nothing added up yet.
    pub const fn new(driver: D) -> Self {
        Self { driver, ticks: 0 }
    }

    /// The ticks since this was last asked.
    pub const fn take_ticks(&mut self) -> u32 {
        core::mem::replace(&mut self.ticks, 0)
    }

    fn call<T>(&mut self, work: impl FnOnce(&mut D) -> T) -> T {
        let (done, ticks) = time(|| work(&mut self.driver));
        self.ticks = self.ticks.saturating_add(ticks);
        done
    }
}

impl<D: Bridge> Bridge for Timed<D> {
    fn poll(&mut self, now_micros: u64) -> nb::Result<Counts, BridgeFault> {
        self.call(|driver| driver.poll(now_micros))
    }
}

impl<D: Probe> Probe for Timed<D> {
    fn poll(&mut self, now_micros: u64) -> nb::Result<ProbeSample, ProbeFault> {
        self.call(|driver| driver.poll(now_micros))
    }
}
