//! The instrument: drivers, signal chain and portion logic of a bench scale
//! with a temperature probe.
//!
//! Read in the order the data meets it; every layer is public and useful
//! alone, takes a value and a time, and returns a value:
//!
//! ```text
//! pins, bus ─> drivers ─> counts ─> signal ─> weight ─> portion ─> captured portion ─┐
//! probe     ─> drivers ─> volts  ─> thermocouple ─> temperature ─────────────────────┤
//!                                                              instrument: frames <──┘
//! ```
//!
//! 1. [`sensor`]: what a driver hands on, and what can be wrong with it;
//! 2. [`drivers`]: the converters, over embedded-hal 1.0;
//! 3. [`thermocouple`]: volts to temperature by the ITS-90 reference functions;
//! 4. [`signal`]: counts to a weight (calibration, filter, stability, zero,
//!    tare, overload);
//! 5. [`portion`]: weights to portions, hands free, and [`outbox`], which keeps
//!    them until they are acknowledged;
//! 6. [`instrument`]: all of it behind one state machine that takes samples and
//!    commands and gives reports and [`signals`] for lamps and a buzzer;
//! 7. [`station`]: the instrument with its drivers and its line, which is all
//!    that a board has to poll.
//!
//! 8. `storage` (a feature of that name): what outlives a power cut, in flash;
//!    [`remembered`] says what that is. [`watch`] feeds a watchdog while samples
//!    come.
//!
//! 9. `calibration` (a feature, on if not said otherwise): calibration with known
//!    weights over the link, the test with one, and corrections for place,
//!    temperature and creep. Without it the instrument weighs by the straight
//!    line that it is given.
//!
//! 10. [`panel`]: buttons, a knob and a display, to work without a desktop.
//!
//! Nothing here knows a board, reads a clock, allocates or blocks. The same
//! code runs on the host and on the target, to the last bit.
#![no_std]
#![forbid(unsafe_code)]

#[cfg(test)]
extern crate std;

mod calibrating;
pub mod drivers;
mod health;
pub mod instrument;
pub mod outbox;
pub mod panel;
pub mod portion;
pub mod probe_check;
mod recalling;
pub mod remembered;
pub mod sensor;
pub mod signal;
pub mod signals;
pub mod station;
#[cfg(feature = "storage")]
pub mod storage;
pub mod thermocouple;
pub mod watch;
