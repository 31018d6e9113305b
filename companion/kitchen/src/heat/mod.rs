//! Heat and cold: logs of a probe, checked against limits and carried forward.

mod check;
mod forecast;
mod lethality;
mod log;
mod table;

pub use check::{Finding, Outcome, check};
pub use forecast::{
    Band, CONFIDENCE, Forecast, ForecastError, Habit, Surroundings, When, Why, forecast,
};
pub use lethality::{Lethality, LethalityError, Reference, lethality};
pub use log::{Gap, HeatLog, LogError, LogPoint, Marker};
pub use table::{TableError, read_table, write_table};
