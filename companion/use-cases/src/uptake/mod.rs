//! What the kitchen's own brines and marinades say about the one at hand.

mod words;

use evenhand_kitchen::units::Ratio;
use evenhand_kitchen::uptake::{Expected, IntoBath, OwnSoaks, When};
use evenhand_store::{Store, StoreError};
use jiff::SignedDuration;

pub use words::{asked_words, out_words};

/// What is asked of a piece that lies, or is to lie, in a bath.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Asked {
    /// What it comes to after so long,
    pub lasting: Option<SignedDuration>,
    /// and when its core comes to so much salt, of its raw weight.
    pub core: Option<Ratio>,
}

/// What the record says to that.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// What it comes to after the time that was asked about.
    pub expected: Option<(SignedDuration, Expected)>,
    /// When its core is there.
    pub when: Option<(Ratio, When)>,
}

/// The soaks on record, the earliest first.
///
/// # Errors
/// The record does not answer.
pub fn own_soaks(store: &Store) -> Result<OwnSoaks, StoreError> {
    let mut batches = store.batches()?;
    batches.sort_by_key(|(id, batch)| (batch.begun(), id.0));
    Ok(OwnSoaks::new(
        batches
            .iter()
            .filter_map(|(_, batch)| batch.soak())
            .collect(),
    ))
}

/// What they say of a piece.
#[must_use]
pub fn ask(own: &OwnSoaks, into: &IntoBath, asked: Asked) -> Answer {
    let of_cut = own.of_cut(&into.cut);
    Answer {
        expected: asked
            .lasting
            .map(|lasting| (lasting, of_cut.expected(into, lasting))),
        when: asked.core.map(|core| (core, of_cut.when(into, core))),
    }
}
