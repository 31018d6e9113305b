//! The kitchen's domain, without screens, ports or storage.
//!
//! 1. [`units`]: quantities as people write them, and money; [`moment`]: times
//!    and days likewise;
//! 2. [`dish`], [`tin`], [`cook`], [`run`]: what is portioned, from what, by
//!    whom, when;
//! 3. [`portion`]: a portion on record, and [`spread`]: how even they are, with
//!    [`statistics`] for what follows from it, [`service`] for a night of them
//!    [`yield_flow`] for what became of a purchase, [`plate`] for what a plate
//!    costs and [`cutting`] for pieces out of a slab;
//! 4. [`limits`] in force, each with its [`source`], and [`heat`]: logs of a
//!    [`probe`] checked against them;
//! 5. [`prep`]: the day worked backward from service;
//! 6. [`brine`]: salt in water, with the published tables it leans on,
//!    [`uptake`]: what a piece takes up of it, and [`cure`]: nitrite going into
//!    meat;
//! 7. [`ratio`]: anything mixed by weight, driven by the scale, and [`batch`]:
//!    what came of it, and [`lot`]: one food through all its steps; [`book`]:
//!    how a thing is made once it is known, and [`dough`]: how warm one is mixed;
//! 8. [`weighings_file`]: earlier weighings out of a table.
#![forbid(unsafe_code)]

#[macro_use]
pub mod units;
pub mod batch;
pub mod book;
pub mod brine;
pub mod cook;
pub mod cure;
pub mod cutting;
pub mod dish;
pub mod dough;
pub mod heat;
pub mod instrument_clock;
pub mod limits;
pub mod lot;
pub mod melt;
pub mod moment;
pub mod plate;
pub mod portion;
pub mod prep;
pub mod probe;
pub mod ratio;
pub mod run;
pub mod service;
pub mod source;
pub mod spread;
pub mod statistics;
pub mod tin;
mod toml_text;
pub mod uptake;
pub mod weighings_file;
mod written_name;
pub mod written_table;
pub mod yield_flow;
