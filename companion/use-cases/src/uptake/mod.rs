//! What the kitchen's own brines and marinades say about the one at hand.

mod words;

use evenhand_kitchen::batch::{BatchId, Entry, What};
use evenhand_kitchen::units::{InputError, Ratio};
use evenhand_kitchen::uptake::{Expected, IntoBath, OutOfBath, OwnSoaks, Soak, When};
use evenhand_store::{Store, StoreError};
use jiff::{SignedDuration, Timestamp};

pub use words::{asked_words, out_words, uptake_error_words};

/// Why a soak is not put on record.
#[derive(Debug, thiserror::Error)]
pub enum UptakeError {
    /// The record does not answer.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// What was said cannot be.
    #[error(transparent)]
    Input(#[from] InputError),
    /// Nothing of the batch was weighed into a bath.
    #[error("nothing of batch {0} was weighed into a bath")]
    NotInBath(BatchId),
}

/// A piece that lies in a bath.
#[derive(Debug, Clone, PartialEq)]
pub struct InBath {
    /// The batch.
    pub id: BatchId,
    /// What went in,
    pub into: IntoBath,
    /// and when.
    pub since: Timestamp,
}

/// The pieces that went into a bath and did not come out, the earliest first.
///
/// # Errors
/// The record does not answer.
pub fn in_baths(store: &Store) -> Result<Vec<InBath>, StoreError> {
    let mut lying: Vec<InBath> = store
        .batches()?
        .into_iter()
        .filter(|(_, batch)| batch.soak().is_none() && batch.came_out().is_none())
        .filter_map(|(id, batch)| {
            batch.in_bath().map(|(into, since)| InBath {
                id,
                into: into.clone(),
                since,
            })
        })
        .collect();
    lying.sort_by_key(|piece| (piece.since, piece.id.0));
    Ok(lying)
}

/// Puts a piece that went into a bath on record: as a line of a batch, or of a
/// new one that is titled by its cut.
///
/// # Errors
/// The record does not answer; there is no such batch.
pub fn put_in(
    store: &mut Store,
    batch: Option<BatchId>,
    into: &IntoBath,
    at: Timestamp,
) -> Result<BatchId, StoreError> {
    let id = match batch {
        Some(id) => id,
        None => {
            let id = store.begin_batch(at)?;
            let title = into.cut.name().to_owned();
            let what = What::Titled { title };
            store.add_to_batch(id, &Entry { at, what })?;
            id
        }
    };
    let what = What::IntoBath {
        into: Box::new(into.clone()),
    };
    store.add_to_batch(id, &Entry { at, what })?;
    Ok(id)
}

/// Puts on record that a piece came out of its bath.
///
/// # Errors
/// [`UptakeError`]; nothing is put on record then.
pub fn take_out(
    store: &mut Store,
    id: BatchId,
    out: OutOfBath,
    at: Timestamp,
) -> Result<Soak, UptakeError> {
    let batch = store.batch(id)?;
    let (into, since) = batch.in_bath().ok_or(UptakeError::NotInBath(id))?;
    let soak = Soak::new(into.clone(), out.clone(), at.duration_since(since))?;
    let what = What::OutOfBath { out };
    store.add_to_batch(id, &Entry { at, what })?;
    Ok(soak)
}

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
