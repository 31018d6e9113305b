//! An I2C bus to write to that gives up.
//!
//! The chip library's own polls its lines without a limit: a display that holds
//! one of them low would stop the scale.

use embedded_hal::i2c::{
    Error, ErrorKind, ErrorType, I2c, NoAcknowledgeSource, Operation, SevenBitAddress,
};
use rp2040_hal::{Timer, pac};

/// A band of the display takes three milliseconds.
const PATIENCE_MICROS: u64 = 10_000;

/// A bus that the chip library has set up, and keeps.
pub struct BoundedI2c<B> {
    /// Holds the pins.
    _set_up: B,
    registers: pac::I2C0,
    timer: Timer,
    /// The lines hung once: they are left alone.
    hangs: bool,
}

/// Why nothing was written.
#[derive(Debug, Clone, Copy)]
pub enum Failed {
    /// Nobody answered.
    NotAcknowledged,
    /// The lines hang.
    Hangs,
    /// Reading is not among what this can do.
    CannotRead,
}

impl Error for Failed {
    fn kind(&self) -> ErrorKind {
        match self {
            Self::NotAcknowledged => ErrorKind::NoAcknowledge(NoAcknowledgeSource::Unknown),
            Self::Hangs => ErrorKind::Bus,
            Self::CannotRead => ErrorKind::Other,
        }
    }
}

impl<B> BoundedI2c<B> {
    /// The bus `set_up`, which must be the chip's first one.
    pub fn new(set_up: B, timer: Timer) -> Self {
        // SAFETY: the library's own handle is kept here and never used again, so
        // that these are the only hands on the registers.
        let registers = unsafe { pac::I2C0::steal() };
        Self {
            _set_up: set_up,
            registers,
            timer,
            hangs: false,
        }
    }

    /// Waits until `ready`, or until the patience of the whole write is over.
    fn wait(&mut self, until: u64, ready: impl Fn(&pac::I2C0) -> bool) -> Result<(), Failed> {
        while !ready(&self.registers) {
            if self.timer.get_counter().ticks() > until {
                self.hangs = true;
                return Err(Failed::Hangs);
            }
        }
        Ok(())
    }

    fn write_bytes(&mut self, address: u8, bytes: &[u8]) -> Result<(), Failed> {
        if self.hangs {
            return Err(Failed::Hangs);
        }
        let Some(last) = bytes.len().checked_sub(1) else {
            return Ok(());
        };
        let until = self.timer.get_counter().ticks() + PATIENCE_MICROS;
        self.registers.ic_enable().write(|w| w.enable().disabled());
        // SAFETY: seven bits of an address fit in the ten of the field.
        self.registers
            .ic_tar()
            .write(|w| unsafe { w.ic_tar().bits(address.into()) });
        self.registers.ic_enable().write(|w| w.enable().enabled());
        for (place, byte) in bytes.iter().enumerate() {
            self.wait(until, |bus| bus.ic_status().read().tfnf().bit_is_set())?;
            // SAFETY: any eight bits are data.
            self.registers
                .ic_data_cmd()
                .write(|w| unsafe { w.dat().bits(*byte).stop().bit(place == last) });
        }
        // A write that nobody acknowledged also ends with a stop.
        self.wait(until, |bus| {
            bus.ic_raw_intr_stat().read().stop_det().is_active()
        })?;
        self.registers.ic_clr_stop_det().read();
        if self.registers.ic_tx_abrt_source().read().bits() == 0 {
            return Ok(());
        }
        self.registers.ic_clr_tx_abrt().read();
        Err(Failed::NotAcknowledged)
    }
}

impl<B> ErrorType for BoundedI2c<B> {
    type Error = Failed;
}

impl<B> I2c<SevenBitAddress> for BoundedI2c<B> {
    fn transaction(
        &mut self,
        address: SevenBitAddress,
        operations: &mut [Operation<'_>],
    ) -> Result<(), Failed> {
        for operation in operations {
            match operation {
                Operation::Write(bytes) => self.write_bytes(address, bytes)?,
                Operation::Read(_) => return Err(Failed::CannotRead),
            }
        }
        Ok(())
    }
}
