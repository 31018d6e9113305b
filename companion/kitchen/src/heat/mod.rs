//! Heat and cold: logs of a probe, checked against limits.

mod check;
mod lethality;
mod log;
mod table;

pub use check::{Finding, Outcome, check};
pub use lethality::{Lethality, LethalityError, Reference, lethality};
pub use log::{Gap, HeatLog, LogError, LogPoint, Marker};
pub use table::{TableError, read_table, write_table};
