//! The kitchen's own book, behind its screens: formulas, doughs, and what lies in
//! a bath.
//!
//! [`Book`] carries out [`BookWish`]es and takes in what its worker answers;
//! what the screens draw is [`BookView`], plain data. The record and the files
//! are read and written, and everything that takes a while is reckoned, by the
//! worker, never by the thread that draws.
//!
//! 1. `soak`: timed brines and marinades;
//! 2. `formula`: formulas written, scaled and frozen out of trials, and a dough's
//!    water;
//! 3. `counts`: the handover, going down by what goes out;
//! 4. `yields`: batches side by side by what came out of them;
//! 5. `lots`: one food through its steps, and the sheet of it;
//! 6. `plates`: plates, what is on them and what they cost; `cut`: a slab cut into
//!    pieces;
//! 7. `entry`: words and numbers that are typed; `refusal`: why a wish came to
//!    nothing;
//! 8. `worker`: what is asked of the use cases, and their answers.

mod controller;
mod counts;
mod cut;
mod entry;
mod formula;
mod lots;
mod moment;
mod plates;
mod refusal;
mod shown;
mod soak;
mod view;
mod wish;
mod worker;
mod yields;

pub use controller::Book;
pub use formula::Way;
pub use refusal::{BookObstacle, BookRefusal};
pub use view::{BarView, Bars, BookView, FieldView, FootView, RowView, Sheet};
pub use wish::{BookField, BookPage, BookWish};

use evenhand_protocol::{Mass, Temperature};

/// What the scale and the probe show at this moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pan {
    /// What is on the scale, tare taken off, where it lies still.
    pub mass: Option<Mass>,
    /// The smallest step of the scale's display; above zero.
    pub interval: Mass,
    /// The probe's temperature, where it reads.
    pub probe: Option<Temperature>,
}
