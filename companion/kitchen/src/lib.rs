//! The kitchen's domain, without screens, ports or storage.
//!
//! 1. [`units`]: quantities as people write them, and money;
//! 2. [`dish`], [`tin`], [`cook`], [`run`]: what is portioned, from what, by
//!    whom, when;
//! 3. [`portion`]: a portion on record, and [`spread`]: how even they are.
#![forbid(unsafe_code)]

pub mod cook;
pub mod dish;
pub mod portion;
pub mod run;
pub mod spread;
pub mod statistics;
pub mod tin;
pub mod units;
