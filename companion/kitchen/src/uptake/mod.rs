//! What meat or fish takes up in a brine or a marinade: weighed in, weighed out.
//!
//! 1. [`Bath`]: what it lies in, sauces and pastes counted by the salt and the
//!    water on their labels;
//! 2. [`IntoBath`] and [`OutOfBath`]: the two lines of a batch's record, and
//!    [`Soak`], both together;
//! 3. [`SaltKnown`]: what weighing tells of the salt, and what it does not;
//! 4. [`Course`]: salt going into a slab or a cylinder out of a bath of limited
//!    size;
//! 5. [`OwnSoaks`]: what the kitchen's own batches say about the next one, and
//!    [`Expected`], the answer.
//!
//! # What can be known from weighing
//!
//! The weight that a piece gains is water and salt together: weighing the piece
//! alone cannot tell one from the other, and no sum makes it. The salt follows
//! from the bath, whose salt must have gone somewhere: its strength before and
//! after, by weighing a vessel full of it (`brine weigh`), or from the salt of
//! the piece, by a meter or a laboratory. Without either, all that is known of
//! the salt is the published range of its diffusion ([`PUBLISHED`]), over which
//! times differ tenfold: no time is given by that.
//!
//! Salt by this is never a reason to call anything ready, cured or keeping.

mod bath;
mod course;
mod fit;
mod gain;
mod salt;
mod soak;

pub use bath::{Bath, Labelled, SALT_OF_SODIUM};
pub use course::{Course, Shape};
pub use fit::{
    Expected, HOLDS, LAST_SOAKS, LEAST_WITH_SALT, Middle, OfCut, OwnSoaks, PUBLISHED, When,
};
pub use gain::LEAST_WEIGHED;
pub use salt::{SaltFound, SaltKnown};
pub use soak::{Cut, IntoBath, OutOfBath, Soak};
