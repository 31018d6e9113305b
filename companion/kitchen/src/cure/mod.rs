//! Curing agents: how much nitrite goes into meat, and the limits on it.
//!
//! 1. [`CuringAgent`]: what a label says, of a type that cannot be taken for
//!    salt, with its [`MARK`];
//! 2. [`Method`] and [`Curing`]: ingoing nitrite in [`Ppm`] by the way of
//!    curing, and the dose for so much of it;
//! 3. [`NitriteLimit`]: what it is held against, with the source, and the one
//!    way in which it is compared;
//! 4. [`weighable`] and [`Dosing`]: whether the scale is good enough for the
//!    dose, the confirmation by the label and the check weighing.
//!
//! Nitrate, mixtures with nitrate and vegetable powders are refused: what
//! nitrite they bring cannot be told by weighing.

mod agent;
mod limits;
mod method;
mod names;
mod ppm;
mod reckoning;
mod weighing;

pub use agent::{
    AgentRefusal, Contents, CuringAgent, MARK, NameRefusal, NitriteFraction, plain_name,
};
pub use limits::{
    Asked, CAUTION, CountedAs, ION_IN_SODIUM_NITRITE, NitriteLimit, Stated, UsualMinimum,
};
pub use method::{Method, PickUp};
pub use names::{is_known_harmless, was_always_refused};
pub use ppm::Ppm;
pub(crate) use reckoning::ingoing_ppm;
pub use reckoning::{Amounts, Curing, DoseRefusal, Ingoing, Verdict};
pub use weighing::{
    CheckWeighing, Dilution, Dosing, DosingRefusal, MOST_DOUBT, TooSmall, weighable,
};
