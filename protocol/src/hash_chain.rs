//! The hash chain of an instrument's portions: each carries the digest of the
//! one before, made on the instrument, so that whoever keeps them can see that
//! none was changed, left out or put in.
//!
//! It holds no secret: whoever reckons every later portion anew as well can
//! make another chain. The last portion of a chain has none behind it that
//! would bear witness to it.

#[cfg(feature = "hash-chain")]
use crate::{CapturedPortion, Report, frame::MAX_PAYLOAD};
use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// Where a portion stands in its instrument's hash chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ChainLink {
    /// Its place in the chain, counted from 1. Portions that the instrument made
    /// and had no place to keep are counted too, so that a position is left out
    /// for each of them.
    pub position: u32,
    /// The [digest](crate::CapturedPortion::digest) of the portion kept before it, or
    /// [`ChainLink::START`].
    pub previous: u64,
}

impl ChainLink {
    /// In the place of a digest, where none was kept before: the first portion
    /// of an instrument, or of one whose memory was lost.
    pub const START: u64 = 0;

    /// The link of a chain's first portion.
    pub const FIRST: Self = Self {
        position: 1,
        previous: Self::START,
    };

    /// The link of a portion whose predecessor was made and could not be kept.
    #[must_use]
    pub const fn after_one_lost(self) -> Self {
        Self {
            position: self.position.saturating_add(1),
            previous: self.previous,
        }
    }
}

#[cfg(feature = "hash-chain")]
impl CapturedPortion {
    /// Its digest: the first eight bytes, as a big-endian number, of SHA-256
    /// (FIPS 180-4) over the payload of its message as version 1.5 has it,
    /// `unix` not told, since that may be filled in later. `None` where it
    /// stands in no chain.
    #[must_use]
    pub fn digest(&self) -> Option<u64> {
        use sha2::Digest;
        self.chain_link?;
        // A field of a later version must not come into this.
        let as_made = Report::Portion(Self {
            unix: None,
            ..*self
        });
        let mut bytes = [0; MAX_PAYLOAD];
        let payload = postcard::to_slice(&as_made, &mut bytes).ok()?;
        let whole: [u8; 32] = sha2::Sha256::digest(payload).into();
        whole.first_chunk().map(|first| u64::from_be_bytes(*first))
    }

    /// The link of the portion made after this one; `None` where this one
    /// stands in no chain.
    #[must_use]
    pub fn next_link(&self) -> Option<ChainLink> {
        Some(ChainLink {
            position: self.chain_link?.position.saturating_add(1),
            previous: self.digest()?,
        })
    }
}
