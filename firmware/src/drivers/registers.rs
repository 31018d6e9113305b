//! Chips that are a set of registers on an I2C bus: the chip's logic says what
//! to do next on the bus, and one small shell for blocking and one for async
//! buses do it.

use core::ops::ControlFlow;
use embedded_hal::i2c::I2c;

/// Bus transactions in one call, at most; the rest waits for the next call.
const TRANSACTIONS_A_CALL: u8 = 4;
/// The longest answer of any register here.
const LONGEST: usize = 3;

/// What to do next on the bus.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Action {
    /// Nothing for now.
    Wait,
    /// Write a register.
    Write { register: u8, value: u8 },
    /// Read so many bytes, at most three, from a register on.
    Read { register: u8, length: usize },
}

/// Whether the call goes on to the next action, or ends with an answer.
pub(super) type Flow<O, F> = ControlFlow<nb::Result<O, F>>;

/// Ends the call: there is nothing yet.
pub(super) const fn later<O, F>() -> Flow<O, F> {
    ControlFlow::Break(Err(nb::Error::WouldBlock))
}

/// Ends the call with a fault.
pub(super) const fn fault<O, F>(fault: F) -> Flow<O, F> {
    ControlFlow::Break(Err(nb::Error::Other(fault)))
}

/// A chip's logic, apart from the bus.
pub(super) trait Logic {
    /// What it measures.
    type Output;
    /// What can be wrong.
    type Fault;

    /// Whether the bus is released between choosing a register and reading it.
    const STOP_BEFORE_READ: bool;

    /// What to do next.
    fn next(&mut self, now: u64) -> Action;

    /// The last action has been done; a read brought this.
    fn done(&mut self, now: u64, answer: &[u8]) -> Flow<Self::Output, Self::Fault>;

    /// The bus failed at the last action.
    fn failed(&mut self, now: u64) -> Self::Fault;
}

/// Does on a blocking bus what the logic says.
pub(super) fn drive<L: Logic, I: I2c>(
    logic: &mut L,
    bus: &mut I,
    address: u8,
    now: u64,
) -> nb::Result<L::Output, L::Fault> {
    for _ in 0..TRANSACTIONS_A_CALL {
        let mut answer = [0; LONGEST];
        let (done, answer) = match logic.next(now) {
            Action::Wait => break,
            Action::Write { register, value } => {
                (bus.write(address, &[register, value]), &answer[..0])
            }
            Action::Read { register, length } => {
                let answer = &mut answer[..length.min(LONGEST)];
                let done = if L::STOP_BEFORE_READ {
                    bus.write(address, &[register])
                        .and_then(|()| bus.read(address, answer))
                } else {
                    bus.write_read(address, &[register], answer)
                };
                (done, &*answer)
            }
        };
        if done.is_err() {
            return Err(nb::Error::Other(logic.failed(now)));
        }
        if let ControlFlow::Break(result) = logic.done(now, answer) {
            return result;
        }
    }
    Err(nb::Error::WouldBlock)
}

/// Does on an async bus what the logic says.
#[cfg(feature = "async")]
pub(super) async fn drive_async<L: Logic, I: embedded_hal_async::i2c::I2c>(
    logic: &mut L,
    bus: &mut I,
    address: u8,
    now: u64,
) -> nb::Result<L::Output, L::Fault> {
    for _ in 0..TRANSACTIONS_A_CALL {
        let mut answer = [0; LONGEST];
        let (done, answer) = match logic.next(now) {
            Action::Wait => break,
            Action::Write { register, value } => {
                (bus.write(address, &[register, value]).await, &answer[..0])
            }
            Action::Read { register, length } => {
                let answer = &mut answer[..length.min(LONGEST)];
                let done = if L::STOP_BEFORE_READ {
                    match bus.write(address, &[register]).await {
                        Ok(()) => bus.read(address, answer).await,
                        failed => failed,
                    }
                } else {
                    bus.write_read(address, &[register], answer).await
                };
                (done, &*answer)
            }
        };
        if done.is_err() {
            return Err(nb::Error::Other(logic.failed(now)));
        }
        if let ControlFlow::Break(result) = logic.done(now, answer) {
            return result;
        }
    }
    Err(nb::Error::WouldBlock)
}
