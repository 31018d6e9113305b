//! The kitchen's own book: how a thing is made, once it is known.
//!
//! 1. [`StagedFormula`]: shares of a base, in stages that are made beforehand
//!    (a starter's build, a soaker) and what is left for the end;
//! 2. [`Size`] and [`Weighing`]: what goes into each bowl, for so many pieces,
//!    so much of one thing or so much of everything, as the scale can weigh it;
//! 3. the text that it is kept in, one TOML file each, read by
//!    [`StagedFormula::from_toml`] and written by [`StagedFormula::to_toml`], and a table
//!    of the same, [`StagedFormula::from_csv`] and [`StagedFormula::to_csv`];
//! 4. [`Trials`]: what the good batches of a thing have in common;
//! 5. [`Lean`]: by how much the record is usually off what is to be;
//! 6. [`Pictured`]: what a picture of a dish is of, for whoever takes it over.

mod csv;
mod file;
mod formula;
mod picture;
mod trials;
mod watch;
mod weighing;

pub use formula::{Counts, Ingredient, Stage, StageShare, StagedFormula, Starter};
pub use picture::{MOST_PICTURES, PictureId, PictureList, Pictured, picture_key};
pub use trials::{Next, Seen, Shared, Trials};
pub use watch::{LEAST_FOR_LEAN, Lean};
pub use weighing::{Bowl, STARTER, Size, Weighed, Weighing};
