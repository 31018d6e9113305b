//! Brine: salt in water, told in every way a kitchen tells it.
//!
//! 1. [`Strength`]: of water, of solution, salometer degrees, and from one to
//!    the others; [`Density`] at a temperature, [`Freezing`] and
//!    [`saturation`];
//! 2. [`Composition`]: salt, sugar and water in their proportions;
//! 3. [`Recipe`]: what to weigh for so much of it, and [`StandingBrine`]: putting a
//!    brine right that is too weak, too strong, or had ice melt in it;
//!    [`Iced`]: whether ice melts in it, and how cold it is then;
//! 4. [`check`]: telling the strength by weighing a [`Vessel`] full (one just
//!    filled, or a [`KnownVessel`]), with its
//!    uncertainty;
//! 5. [`equilibrium_brine`], [`dry_salting`], and [`time_by_thickness`], which
//!    is a rule of thumb.
//!
//! Salt here is sodium chloride. Kitchen salt has a little else in it and damp
//! salt has water; both make a brine weaker than the scale says.
//!
//! # How far the sources differ
//!
//! What is used is held against other published figures by
//! `tests/brine_sources.rs`, with the tables in `data/`:
//!
//! | figure | other source | range | largest difference |
//! | --- | --- | --- | --- |
//! | density | Poradnik fizykochemiczny 1974, 20 °C | 1 to 26 % | 0.1 kg/m³ (0.3 at 2 %, a misprint there) |
//! | density | Rogers and Pitzer 1982, 0 to 40 °C | 0.6 to 22.6 % | 0.15 kg/m³ |
//! | density | CoolProp 8.0, `INCOMP::MNA` (Melinder), 0 to 40 °C | 1 to 22 % | 0.25 kg/m³ |
//! | density | Poradnik's own kg/m³ per °C, 4 °C | 1 to 26 % | 1.4 kg/m³ |
//! | strength by density | CoolProp 8.0, 0 to 40 °C | 1 to 22 % | 0.04 percentage points |
//! | freezing point | Lange's Handbook, 15th ed., table 5.13 | 1 to 23 % | 0.09 °C |
//! | density | Politechnika Krakowska's table, 18 °C | 5 to 20 % | 0.75 kg/m³ |
//! | density of sugar in water | the same table, 18 °C | 5 to 40 % | 0.4 kg/m³ |
//! | freezing point | Smithsonian Physical Tables 1956 | 0.3 to 4.2 % | 0.08 °C |
//! | freezing point | CoolProp 8.0, `INCOMP::MNA` | 1 to 22 % | 0.09 °C |
//! | density of water | Kell 1975 | 0 to 40 °C | 0.004 kg/m³ |
//!
//! One kg/m³ is 0.14 % of salt, give or take.

mod composition;
mod density;
mod equilibrium;
mod freezing;
mod ice;
mod meat_water;
mod mixing;
mod strength;
mod tables;
mod vessels;
mod weighing;

pub use composition::{Composition, SUGAR_MODEL, SugarPercent};
pub use density::{Density, of_water as water_density};
pub use equilibrium::{
    DIFFUSION, EquilibriumBrine, InTheMeat, SharedPercent, TIME_RULE, Thickness, TimeEstimate,
    dry_salting, equilibrium_brine, time_by_thickness,
};
pub use freezing::{Freezing, saturation};
pub use ice::{BRINE_HEAT, GIVE_OR_TAKE, HEATS, Iced};
pub use meat_water::{MEAT_WATER, MeatWater};
pub use mixing::{Amount, Correction, Recipe, StandingBrine};
pub use strength::{Basis, PercentOfSolution, PercentOfWater, Salometer, Strength};
pub(crate) use strength::{above_zero, not_negative};
pub use tables::{CONCENTRATIVE, SALOMETER, SOLUBILITY, VOLUMETRIC, WATER};
pub use vessels::{Filling, KnownVessel, VesselName};
pub use weighing::{
    Checked, Contribution, Doubt, DoubtOf, EXPANSION, Expansion, PercentagePoints, SugarKnown,
    Vessel, VesselMaterial, check,
};
