//! The link to an instrument: a thread that owns the port, talks, puts
//! portions on record and then acknowledges them, and keeps the
//! [`LiveScale`](crate::live::LiveScale) up to date.
//!
//! - [`Line`]: what bytes travel over, and [`Dial`], how one is opened: a serial
//!   port ([`SerialDial`]) or a simulated bench;
//! - [`live`]: what the instrument shows right now, for whoever draws or tells it;
//! - [`Session`]: the conversation, without a port, a clock or a store;
//! - [`Link`]: the handle that a screen or a command holds.
//!
//! Nothing queues up: a reading replaces the one before, a portion is recorded
//! before the next is looked at, and what is not yet acknowledged waits in the
//! instrument.
#![forbid(unsafe_code)]

mod clock_watch;
mod endpoint;
mod hand;
mod handle;
mod line;
pub mod live;
mod made_bench;
mod practice;
mod request;
mod serial;
mod session;
mod simulated;
#[cfg(unix)]
mod terminal;
mod worker;

pub use endpoint::Endpoint;
pub use hand::Hand;
pub use handle::Link;
pub use line::{Dial, Line, LineEnd};
pub use made_bench::made_bench;
pub use practice::{PracticeHand, Table};
pub use request::{Request, Ticket};
pub use serial::SerialDial;
pub use session::{Conversation, Heard, Session, Unmet};
pub use simulated::{Pace, SimulatedDial, fresh_epoch};
#[cfg(unix)]
pub use terminal::Terminal;
