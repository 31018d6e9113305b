//! Ratios by weight, mixed on the scale.
//!
//! 1. [`Ingredient`]: something plain, or a curing agent, never confused;
//! 2. [`Formula`]: a ratio in parts, per cent of water, per cent of the total,
//!    baker's per cent, or per cent of meat and water together;
//! 3. [`Mix`]: a formula driven by weighings, in any order, with what an
//!    over-pour means for the rest;
//! 4. [`Pouring`]: the mix driven by nothing but [`ScaleLook`]s at the scale, and
//!    [`Capture`]: the same without a ratio.

mod capture;
mod formula;
mod ingredient;
mod mix;
mod pouring;
mod scale;

pub use capture::{Capture, Caught};

pub use formula::{Form, Formula, Item, Line, Part, RatioError};
pub use ingredient::Ingredient;
pub use mix::{Approach, Closeness, CureGuard, Mix, MixError, NotReady, Notice};
pub use pouring::{Awaited, PourEvent, Pouring, PouringError};
pub use scale::{ScaleError, ScaleLook, in_service, untold};
