//! What bytes travel over.

use super::{Hand, PracticeHand};
use crate::live::{LinkState, Now};
use std::time::Duration;

/// Why a line can be used no more.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineEnd {
    /// The cable, the power or the program at the other end went.
    Gone,
    /// A simulated bench has played its scenario to the end.
    Over,
}

/// An open line to an instrument.
pub trait Line {
    /// Waits up to `patience` for bytes and says how many came, 0 for none.
    ///
    /// # Errors
    /// [`LineEnd`] where none will come any more.
    fn read(&mut self, buffer: &mut [u8], patience: Duration) -> Result<usize, LineEnd>;

    /// Sends bytes. What cannot be sent now is dropped, as on a wire that
    /// nobody listens to; the conversation makes up for it.
    ///
    /// # Errors
    /// [`LineEnd`] where none can be sent any more.
    fn write(&mut self, bytes: &[u8]) -> Result<(), LineEnd>;

    /// The time at the bench, where it is not this computer's: a simulated one
    /// may run faster.
    fn now(&self) -> Option<Now> {
        None
    }
}

/// A place where an instrument may be reached.
pub trait Dial: Send {
    /// What the place is called, for people.
    fn place(&self) -> &str;

    /// Opens a line to it.
    ///
    /// # Errors
    /// The state to show where it cannot be opened.
    fn dial(&mut self) -> Result<Box<dyn Line>, LinkState>;

    /// The hand that puts known weights on the pan, where the bench is a
    /// simulated one.
    fn hand(&self) -> Option<Hand> {
        None
    }

    /// The hand that does everything at the bench, where it is a practice bench.
    fn practice_hand(&self) -> Option<PracticeHand> {
        None
    }
}
