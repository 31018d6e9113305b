//! Sleep between two turns of the loop.

use cortex_m::peripheral::NVIC;
use rp2040_hal::fugit::MicrosDurationU32;
use rp2040_hal::pac::Interrupt;
use rp2040_hal::timer::{Alarm, Alarm0};

/// The longest sleep: five turns in a conversion at 80 a second with some to
/// spare, and a data-ready that is seen a twelfth of a conversion late at most.
const LONGEST: MicrosDurationU32 = MicrosDurationU32::micros(1_000);

/// What wakes the processor: the timer and the USB. Neither has a handler, for
/// interrupts stay masked: that one is pending ends a sleep all the same
/// (Armv6-M Architecture Reference Manual, B1.5.17, from memory).
pub struct Idle {
    alarm: Alarm0,
}

impl Idle {
    /// Masks interrupts for good.
    pub fn new(mut alarm: Alarm0) -> Self {
        cortex_m::interrupt::disable();
        alarm.enable_interrupt();
        // SAFETY: with interrupts masked no handler runs, so that none can come
        // between what is done in a critical section.
        unsafe {
            NVIC::unmask(Interrupt::TIMER_IRQ_0);
            NVIC::unmask(Interrupt::USBCTRL_IRQ);
        }
        Self { alarm }
    }

    /// Sleeps for a millisecond, or until something comes over the USB.
    pub fn sleep(&mut self) {
        self.alarm.clear_interrupt();
        NVIC::unpend(Interrupt::TIMER_IRQ_0);
        NVIC::unpend(Interrupt::USBCTRL_IRQ);
        // One that cannot be set is one that would end at once.
        if self.alarm.schedule(LONGEST).is_ok() {
            cortex_m::asm::wfi();
        }
    }
}
