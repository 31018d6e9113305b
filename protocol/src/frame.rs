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

/// Writes a message as one frame into `out` and returns the part written,
/// closing zero included.
///
/// # Errors
/// [`TooLong`] where the message does not fit.
pub fn encode<M: Message>(
    envelope: &Envelope<M>,
    out: &mut [u8; MAX_FRAME],
) -> Result<usize, TooLong> {
    let mut raw = [0u8; MAX_RAW];
    raw[0] = Version::CURRENT.major;
    raw[1] = M::KIND;
    raw[2..HEADER].copy_from_slice(&envelope.sequence.to_le_bytes());
    let payload = postcard::to_slice(&envelope.message, &mut raw[HEADER..HEADER + MAX_PAYLOAD])
        .map_err(|_| TooLong)?
        .len();
    let end = HEADER + payload;
    let checksum = CHECKSUM.checksum(&raw[..end]);
    raw[end..end + TRAILER].copy_from_slice(&checksum.to_le_bytes());
    let stuffed = cobs::try_encode(&raw[..end + TRAILER], out).map_err(|_| TooLong)?;
    let close = out.get_mut(stuffed).ok_or(TooLong)?;
    *close = 0;
    Ok(stuffed + 1)
}
