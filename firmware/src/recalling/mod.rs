//! Sending acknowledged portions again, to a desktop that lost its record.
//!
//! One type, [`Recaller`], in two makes of the same methods: with the feature
//! `storage` it asks for one portion after the other of those that the memory
//! still holds, and without it takes no room.

#[cfg(feature = "storage")]
mod kept;
#[cfg(not(feature = "storage"))]
mod none;

#[cfg(feature = "storage")]
pub(crate) use kept::Recaller;
#[cfg(not(feature = "storage"))]
pub(crate) use none::Recaller;
