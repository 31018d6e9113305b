//! What the command line and the screens ask of the kitchen's record, answered in one place.
//!
//! 1. [`heat`]: recording a probe, and how a log stands;
//! 2. [`prep`]: the prep clock over what is on record;
//! 3. [`melt`]: how long scoops have been out of the cold;
//! 4. [`review`]: a service in sentences, and on a page for the wall;
//! 5. [`demo_night`]: a made-up night;
//! 6. [`colours`]: those that screens and page share.
#![forbid(unsafe_code)]

pub mod colours;
pub mod demo_night;
pub mod heat;
pub mod melt;
pub mod prep;
pub mod review;
