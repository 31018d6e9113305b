//! Quantities as people write them: read with a unit or refused, and written
//! back in the unit asked for.
//!
//! Mass and temperature themselves are the exact integers of
//! `evenhand-protocol`; here is what stands between them and text.

#[macro_use]
mod reason;
mod amount;
mod error;
mod excerpt;
mod mass;
mod money;
mod number;
mod percent;
mod ratio;
mod span;
mod temperature;
mod volume;

pub use amount::{Amount, Measure};
pub use error::{InputError, shown};
pub use excerpt::{excerpt, for_terminal, without_commands};
pub use mass::{Grams, MassUnit, format_mass, mass_not_negative, mass_positive, parse_mass};
pub use money::{CostPerMass, Currency, Money};
pub use percent::parse_percent;
pub(crate) use percent::{bare_number, fraction, parse_percent_of_salt};
pub use ratio::Ratio;
pub use reason::{Part, Reason, typed};
pub use span::parse_span;
pub use temperature::{
    TemperatureUnit, format_temperature, parse_temperature, parse_temperature_difference,
};
pub use volume::{Volume, parse_volume};
