//! Curing agents: how much nitrite goes into meat, and the limits on it.
//!
//! 1. [`CuringAgent`]: what a label says, of a type that cannot be taken for
//!    salt, with its [`MARK`];
//! 2. [`Method`] and [`Curing`]: ingoing nitrite in [`Ppm`] by the way of
//!    curing, and the dose for so much of it;
//! 3. [`Limit`]: what it is held against, with the source;
//! 4. [`weighable`] and [`Dosing`]: whether the scale is good enough for the
//!    dose, the confirmation by the label and the check weighing.
//!
//! Nitrate, mixtures with nitrate and vegetable powders are refused: what
//! nitrite they bring cannot be told by weighing.

mod agent;
mod limits;
mod method;
mod ppm;
mod reckoning;
mod weighing;

pub use agent::{
    AgentRefusal, Contents, CuringAgent, MARK, NameRefusal, NitriteFraction, plain_name,
};
pub use limits::{CAUTION, Limit, USUAL_MINIMUM};
pub use method::{Method, PickUp};
pub use ppm::Ppm;
pub use reckoning::{Amounts, Curing, Ingoing, Verdict};
pub use weighing::{
    CheckWeighing, Dilution, Dosing, DosingRefusal, MOST_DOUBT, TooSmall, weighable,
};
