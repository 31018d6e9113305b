//! Heat and cold: logs of a probe, checked against limits and carried forward.

mod aim;
mod check;
mod correction;
mod forecast;
mod going;
mod lethality;
mod log;
mod name;
mod outlook;
mod oven_door;
mod oven_marks;
mod sampling;
mod table;
mod told;

pub use aim::Aim;
pub use check::{Finding, Found, HoldFound, Outcome, Solid, Took, beside, check, time_beside};
pub use correction::{Amendment, Correction, CorrectionError};
pub use forecast::{
    Band, CONFIDENCE, Forecast, ForecastError, Habit, Surroundings, When, Why, forecast,
    forecast_each, mornings,
};
pub use going::{Going, HoldStage, HoldingNext, Pace, Remedy};
pub use lethality::{
    Lethality, LethalityError, LogReductions, ORGANISMS, Organism, Reference, lethality,
    log_reductions,
};
pub use log::{Gap, HeatLog, LogError, LogPoint, Marker};
pub use name::LogName;
pub use outlook::{Alarm, Outlook, outlook};
pub use oven_door::{AfterDoor, DOOR_OPEN, DOOR_SHUT, Door, LEAST_OPENINGS};
pub use oven_marks::{LIT, Likely, after_lighting};
pub use sampling::{Kept, Sampler, Sampling, SamplingError};
pub use table::{TableError, read_table, read_table_leaving_out, write_table};
pub use told::{Came, TOLD_EVERY, ToldInterval, ToldOf};
