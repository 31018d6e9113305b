//! The kitchen's domain, without screens, ports or storage.
#![forbid(unsafe_code)]

pub mod statistics;
