//! The desktop side of the Evenhand bench scale.
//!
//! 1. [`bench`]: the bench as it stands now, for whoever shows it;
//! 2. [`store`]: what is kept.
#![forbid(unsafe_code)]

pub mod bench;
pub mod store;
