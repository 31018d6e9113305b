//! One message as bytes.

use crate::{Command, Report, Version};
use crc::{CRC_32_ISCSI, Crc, Table};
use serde::{Serialize, de::DeserializeOwned};

/// CRC-32C (Castagnoli), as in iSCSI (RFC 3720, B.4).
pub(crate) const CHECKSUM: Crc<u32, Table<LANES>> = Crc::<u32, Table<LANES>>::new(&CRC_32_ISCSI);

/// A microcontroller goes bit by bit: a table is a kilobyte, and there are
/// some ten frames a second.
const LANES: usize = if cfg!(target_pointer_width = "32") {
    0
} else {
    1
};

/// Bytes before the payload: major version, kind, sequence number.
pub(crate) const HEADER: usize = 4;
/// Bytes after the payload: the checksum.
pub(crate) const TRAILER: usize = 4;
/// The largest payload of any message.
pub const MAX_PAYLOAD: usize = 160;
/// The largest frame before byte stuffing.
pub(crate) const MAX_RAW: usize = HEADER + MAX_PAYLOAD + TRAILER;
/// The largest frame on the wire, with byte stuffing and its closing zero.
pub const MAX_FRAME: usize = cobs::max_encoding_length(MAX_RAW) + 1;

/// A message that can travel in a frame.
pub trait Message: Serialize + DeserializeOwned {
    /// The frame's second byte.
    const KIND: u8;
}

impl Message for Report {
    const KIND: u8 = b'R';
}

impl Message for Command {
    const KIND: u8 = b'C';
}

/// A message with the number its sender gave it. Numbers go up by one from
/// frame to frame, each direction for itself, and wrap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Envelope<M> {
    /// The sender's number.
    pub sequence: u16,
    /// The message.
    pub message: M,
}

/// The message does not fit in a frame. Cannot happen with the messages of
/// this crate; kept as an error so that a later one cannot cause a panic.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct TooLong;

/// A frame before byte stuffing, as it is written. Places are asked for and
/// never taken for granted, so that nothing here can panic.
struct Raw {
    bytes: [u8; MAX_RAW],
    length: usize,
}

impl Raw {
    fn add(&mut self, byte: u8) -> Result<(), TooLong> {
        *self.bytes.get_mut(self.length).ok_or(TooLong)? = byte;
        // Less than the length of the array.
        self.length = self.length.wrapping_add(1);
        Ok(())
    }

    fn add_all(&mut self, bytes: &[u8]) -> Result<(), TooLong> {
        bytes.iter().try_for_each(|byte| self.add(*byte))
    }

    fn written(&self) -> &[u8] {
        self.bytes.get(..self.length).unwrap_or_default()
    }
}

impl postcard::ser_flavors::Flavor for &mut Raw {
    type Output = ();

    fn try_push(&mut self, byte: u8) -> postcard::Result<()> {
        self.add(byte)
            .map_err(|_| postcard::Error::SerializeBufferFull)
    }

    fn finalize(self) -> postcard::Result<()> {
        Ok(())
    }
}

/// Writes a message as one frame into `out` and returns the part written,
/// closing zero included.
///
/// # Errors
/// [`TooLong`] where the message does not fit.
pub fn encode<M: Message>(
    envelope: &Envelope<M>,
    out: &mut [u8; MAX_FRAME],
) -> Result<usize, TooLong> {
    let mut raw = Raw {
        bytes: [0; MAX_RAW],
        length: 0,
    };
    let [low, high] = envelope.sequence.to_le_bytes();
    raw.add_all(&[Version::CURRENT.major, M::KIND, low, high])?;
    postcard::serialize_with_flavor(&envelope.message, &mut raw).map_err(|_| TooLong)?;
    if raw.length > HEADER + MAX_PAYLOAD {
        return Err(TooLong);
    }
    let checksum = CHECKSUM.checksum(raw.written());
    raw.add_all(&checksum.to_le_bytes())?;
    let stuffed = cobs::try_encode(raw.written(), out).map_err(|_| TooLong)?;
    let close = out.get_mut(stuffed).ok_or(TooLong)?;
    *close = 0;
    // A place in `out`, and so not the last number.
    Ok(stuffed.wrapping_add(1))
}

/// A payload as it is read, in the same manner.
pub(crate) struct Payload<'a>(pub(crate) &'a [u8]);

impl<'a> postcard::de_flavors::Flavor<'a> for Payload<'a> {
    type Remainder = &'a [u8];
    type Source = ();

    fn pop(&mut self) -> postcard::Result<u8> {
        let (first, rest) = self
            .0
            .split_first()
            .ok_or(postcard::Error::DeserializeUnexpectedEnd)?;
        self.0 = rest;
        Ok(*first)
    }

    fn try_take_n(&mut self, count: usize) -> postcard::Result<&'a [u8]> {
        let (taken, rest) = self
            .0
            .split_at_checked(count)
            .ok_or(postcard::Error::DeserializeUnexpectedEnd)?;
        self.0 = rest;
        Ok(taken)
    }

    fn finalize(self) -> postcard::Result<&'a [u8]> {
        Ok(self.0)
    }
}
