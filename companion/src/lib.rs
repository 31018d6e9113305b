//! The desktop side of the Evenhand bench scale.
//!
//! 1. [`mod@bench`]: the bench as it stands now, for whoever shows it;
//! 2. [`store`]: what is kept;
//! 3. [`link`]: the thread that talks to the instrument;
//! 4. [`heat`]: recording a probe, and how a log stands;
//! 5. [`prep`]: the prep clock over what is on record;
//! 6. [`melt`]: how long scoops have been out of the cold;
//! 7. [`review`]: a service told in sentences, and on a page for the wall;
//! 8. [`demo_night`]: a made-up night;
//! 9. [`cli`]: the command line;
//! 10. `app`: the desktop screens (feature `app`).
#![forbid(unsafe_code)]

pub mod bench;
pub mod cli;
pub mod demo_night;
pub mod heat;
pub mod link;
pub mod melt;
pub mod prep;
pub mod review;
pub mod store;

#[cfg(feature = "app")]
pub mod app;
