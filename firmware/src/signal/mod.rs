//! Counts to a weight: calibration, filter, stability, zero, tare, overload.
//!
//! [`Chain`] is all of it in one: it takes a conversion and a time and gives a
//! [`Weight`] or a fault. Read on in the order in which a load meets the parts:
//!
//! 1. the filter ([`Settings`] say how soon and how sure): a growing mean that
//!    starts again when the load changes;
//! 2. [`calibration`]: counts to mass by two or more [`known_load`]s;
//! 3. [`compensation`] of temperature and creep, and [`gravity`] where the
//!    calibration was made elsewhere;
//! 4. the zero, and the [`tare`];
//! 5. [`uncertainty`] of what comes out, the limits of its
//!    [`AccuracyClass`] to hold it against,
//!    and the morning's [`self_test`].

pub mod calibration;
pub(crate) mod chain;
#[cfg(feature = "calibration")]
pub mod compensation;
#[cfg(feature = "calibration")]
mod corrections;
#[cfg(not(feature = "calibration"))]
#[path = "uncorrected.rs"]
mod corrections;
mod drift;
mod filter;
#[cfg(feature = "calibration")]
mod fit;
pub mod gravity;
mod history;
pub mod known_load;
mod line;
mod noise;
pub mod ratio;
#[cfg(feature = "calibration")]
pub mod self_test;
pub mod settings;
#[cfg(feature = "careful")]
mod shocks;
#[cfg(feature = "careful")]
mod sway;
pub mod tare;
#[cfg(feature = "careful")]
mod twentieths;
pub mod uncertainty;
#[cfg(feature = "careful")]
mod unrest;
pub mod weight;
pub(crate) mod whole;
mod zero;

#[cfg(feature = "calibration")]
pub use calibration::Point;
pub use calibration::{Calibration, CalibrationError};
pub use chain::Chain;
#[cfg(feature = "calibration")]
pub use compensation::{
    CompensationError, CreepCompensation, TemperatureCompensation, TemperatureReading,
};
#[cfg(feature = "calibration")]
pub use corrections::SettledCounts;
pub use evenhand_protocol::{AccuracyClass, VerificationInterval};
pub use gravity::{Gravity, Place};
pub use known_load::{KnownLoad, WeightClass};
pub use ratio::PartsPerMillion;
#[cfg(feature = "calibration")]
pub use self_test::{SelfTest, SelfTestOutcome, SelfTestRefusal};
pub use settings::{Settings, SettingsError};
pub use tare::Tare;
pub use uncertainty::{Between, Budget, CellFigures, Placement};
pub use weight::Weight;
