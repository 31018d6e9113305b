//! The bench as it stands now: plain data for whoever shows it.
//!
//! [`LiveScale`] is changed only by its own functions, each a pure update from
//! what came over the link or out of the store; it reads no clock, no port and
//! no file, and can be cloned and looked at without disturbing anything.

mod approach;
mod link_state;
mod live_run;
mod not_done;
mod scale;

pub use approach::Approach;
pub use link_state::LinkState;
pub use live_run::{LiveRun, LiveTin};
pub use not_done::NotDone;
pub use scale::{LiveScale, Now, SeenNotice, Trouble, TroubleKind};
