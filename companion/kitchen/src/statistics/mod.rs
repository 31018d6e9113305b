//! How even were we: statistics of portions, done with their uncertainty.
//!
//! Everything works on a [`Sample`] of masses and answers in masses and
//! [`Interval`]s. Where there is too little to say anything, the answer is
//! `None` or says so in words; nothing is guessed.
//!
//! Methods follow the NIST/SEMATECH e-Handbook of Statistical Methods; the
//! section is named at each. Distributions come from `statrs`.

mod aim;
mod capability;
mod compare;
mod far;
mod interval;
mod percentile;
mod sample;
mod separate;
mod steadiness;
mod tolerance_factor;

pub use aim::{
    Aim, AimBy, AimError, FEWEST_TO_AIM, HeldBy, LightSide, Misfit, ShortCost, aim,
    saved_by_tightening,
};
pub use capability::{Capability, capability};
pub use compare::{Difference, spread_difference};
pub use far::far_from_the_others;
pub use interval::{Confidence, Interval, mean_interval, next_within, standard_deviation_interval};
pub use percentile::{PercentileMethod, percentile};
pub use sample::{Enough, Sample};
pub use separate::{Separated, separate_scale};
pub use steadiness::{
    Conclusion, ConclusionKind, CusumLimit, DishCourse, FEWEST_PORTIONS, FEWEST_SERVICES,
    FalseAlarmRate, Usual, conclude, usual,
};
pub use tolerance_factor::tolerance_factor;

/// A number that must be finite and lie in a range does not.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{field} is {value}, expected {expected}")]
pub struct OutOfRange {
    /// What was given.
    pub field: &'static str,
    /// Its value.
    pub value: f64,
    /// What was expected.
    pub expected: &'static str,
}

/// The mass of a computed number of grams. Statistics of finite masses are
/// finite and within the range of the masses, so the fallback is not reached;
/// it keeps a defect from becoming a panic.
fn mass(grams: f64) -> evenhand_protocol::Mass {
    evenhand_protocol::Mass::from_fractional_grams(grams).unwrap_or(evenhand_protocol::Mass::ZERO)
}
