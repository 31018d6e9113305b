//! The board's serial ports: Arm's CMSDK APB UART (Cortex-M System Design Kit
//! Technical Reference Manual, Arm DDI 0479, chapter 4.3), polled.
//!
//! Their interrupts are never taken: they stay masked, and a pending one only
//! wakes the core from its sleep.

use cortex_m::interrupt::InterruptNumber;
use cortex_m::peripheral::NVIC;
use volatile_register::RW;

#[repr(C)]
struct Registers {
    data: RW<u32>,
    state: RW<u32>,
    control: RW<u32>,
    interrupt: RW<u32>,
    divider: RW<u32>,
}

const TRANSMIT_FULL: u32 = 1 << 0;
const RECEIVE_FULL: u32 = 1 << 1;
const TRANSMIT_ENABLE: u32 = 1 << 0;
const RECEIVE_ENABLE: u32 = 1 << 1;
const TRANSMIT_INTERRUPT: u32 = 1 << 2;
const RECEIVE_INTERRUPT: u32 = 1 << 3;

/// The board's clock over the line's rate.
const DIVIDER: u32 = 25_000_000 / 115_200;

/// The first interrupt of a port: received. The next one is: sent.
#[derive(Clone, Copy)]
struct Interrupt(u16);

// SAFETY: the numbers made below, 0 to 3, are this board's interrupts of its
// first two serial ports (Arm AN386, Table 4-1), of the 32 that it has.
unsafe impl InterruptNumber for Interrupt {
    fn number(self) -> u16 {
        self.0
    }
}

/// One port.
pub struct Uart {
    registers: &'static Registers,
    interrupts: [Interrupt; 2],
}

/// Both ports of the board.
pub struct Ports {
    /// The link to the desktop program.
    pub host: Uart,
    /// What feeds the chip models the world.
    pub world: Uart,
}

impl Ports {
    /// Takes the ports. Interrupts must be masked and stay so.
    ///
    /// # Safety
    /// To be called once: each port has one owner.
    pub unsafe fn take() -> Self {
        // SAFETY: the addresses and interrupts of the first two serial ports
        // (Arm AN386, Tables 4-1 and 4-3); the caller vouches that there is no
        // other owner.
        unsafe {
            Self {
                host: Uart::new(0x4000_4000, [Interrupt(0), Interrupt(1)]),
                world: Uart::new(0x4000_5000, [Interrupt(2), Interrupt(3)]),
            }
        }
    }

    /// Sleeps until a byte comes in, or there is room for one where that was
    /// asked for.
    pub fn sleep(&mut self) {
        cortex_m::asm::wfi();
    }

    /// To be called before looking at the ports: what comes in after this wakes
    /// the core from the next sleep.
    pub fn awake(&mut self) {
        for port in [&mut self.host, &mut self.world] {
            port.set(&port.registers.interrupt, u32::MAX);
            for interrupt in port.interrupts {
                NVIC::unpend(interrupt);
            }
        }
    }
}

impl Uart {
    /// # Safety
    /// A port of this kind must be at `address`, with these interrupts, and no
    /// other owner.
    unsafe fn new(address: usize, interrupts: [Interrupt; 2]) -> Self {
        // SAFETY: the caller vouches for the address; the registers are words,
        // read and written as such, and live for ever.
        let registers = unsafe { &*core::ptr::with_exposed_provenance::<Registers>(address) };
        let mut uart = Self {
            registers,
            interrupts,
        };
        uart.set(&registers.divider, DIVIDER);
        uart.wake_when_sent(false);
        for interrupt in interrupts {
            // SAFETY: interrupts are masked throughout, so none is ever taken
            // and no critical section is broken.
            unsafe { NVIC::unmask(interrupt) };
        }
        uart
    }

    fn set(&self, register: &RW<u32>, value: u32) {
        // SAFETY: any value may be written to these registers; they touch no
        // memory.
        unsafe { register.write(value) };
    }

    /// The next byte that came in, if one did.
    pub fn receive(&mut self) -> Option<u8> {
        if self.registers.state.read() & RECEIVE_FULL == 0 {
            return None;
        }
        let [byte, ..] = self.registers.data.read().to_le_bytes();
        Some(byte)
    }

    /// Sends a byte, or says that there is no room yet.
    pub fn send(&mut self, byte: u8) -> bool {
        if self.registers.state.read() & TRANSMIT_FULL != 0 {
            return false;
        }
        self.set(&self.registers.data, u32::from(byte));
        true
    }

    /// Whether room to send wakes the core. A byte that comes in always does.
    pub fn wake_when_sent(&mut self, wake: bool) {
        let mut control = TRANSMIT_ENABLE | RECEIVE_ENABLE | RECEIVE_INTERRUPT;
        if wake {
            control |= TRANSMIT_INTERRUPT;
        }
        self.set(&self.registers.control, control);
    }
}
