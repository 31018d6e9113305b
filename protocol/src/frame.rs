//! One message as bytes.

use crate::{Command, Report, Version};
use crc::{CRC_32_ISCSI, Crc, Table};
use postcard::experimental::max_size::MaxSize;
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
/// The longest payload of any message of this version, by the types of its
/// fields.
pub const MAX_PAYLOAD: usize = longer(Report::POSTCARD_MAX_SIZE, Command::POSTCARD_MAX_SIZE);
/// The longest payload that any minor version of this major one may have, and
/// so what a reader has room for: a frame of a later version is to be told from
/// garbage.
pub const PAYLOAD_ROOM: usize = 160;
const _: () = assert!(MAX_PAYLOAD <= PAYLOAD_ROOM);

/// The longest frame that is written, before byte stuffing.
const MAX_RAW: usize = HEADER + MAX_PAYLOAD + TRAILER;
/// The longest frame that is read, after byte stuffing is taken out.
pub(crate) const RAW_ROOM: usize = HEADER + PAYLOAD_ROOM + TRAILER;
/// The longest frame of this version on the wire, with byte stuffing and its
/// closing zero.
pub const MAX_FRAME: usize = cobs::max_encoding_length(MAX_RAW) + 1;

const fn longer(one: usize, other: usize) -> usize {
    if one > other { one } else { other }
}

mod sealed {
    /// Which messages there are is this crate's to say: frames of any other
    /// would be another protocol's.
    pub trait Sealed {
        /// Whether a message of this kind has gained a field since 1.0, so that
        /// one from an older sender may end before it.
        const HAS_GAINED_FIELDS: bool = false;
    }

    impl Sealed for crate::Report {
        const HAS_GAINED_FIELDS: bool = true;
    }

    impl Sealed for crate::Command {}
}

/// What a message of a test bench's own implements before [`Message`].
#[cfg(feature = "own-messages")]
pub use sealed::Sealed as OwnMessage;

/// A message that can travel in a frame: a [`Report`] or a [`Command`]. Sealed,
/// but for the feature `own-messages`.
pub trait Message: sealed::Sealed + Serialize + DeserializeOwned {
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

impl core::fmt::Display for TooLong {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "the message is longer than the {MAX_PAYLOAD} bytes that any message of this version takes"
        )
    }
}

impl core::error::Error for TooLong {}

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
    let checksum = CHECKSUM.checksum(raw.written());
    raw.add_all(&checksum.to_le_bytes())?;
    let stuffed = cobs::try_encode(raw.written(), out).map_err(|_| TooLong)?;
    let close = out.get_mut(stuffed).ok_or(TooLong)?;
    *close = 0;
    // A place in `out`, and so not the last number.
    Ok(stuffed.wrapping_add(1))
}

/// The message of a payload; `None` where it is not known here.
///
/// A message gains fields only at its end, each an option. So bytes after the
/// last known field are those of a later version, and are left alone; and
/// fields missing at the end are those that an older sender did not have. Those
/// read as if zeros followed, zero being an option that holds nothing; and that
/// the payload did not end within a field is seen by writing the message again.
pub(crate) fn message<M: Message>(payload: &[u8]) -> Option<M> {
    let mut fields = postcard::Deserializer::from_flavor(Payload {
        rest: payload,
        may_end_early: M::HAS_GAINED_FIELDS,
        ended_early: false,
    });
    let message = M::deserialize(&mut fields).ok()?;
    let ended_early = fields.finalize().ok()?;
    if M::HAS_GAINED_FIELDS && ended_early {
        let mut again = Raw {
            bytes: [0; MAX_RAW],
            length: 0,
        };
        postcard::serialize_with_flavor(&message, &mut again).ok()?;
        if again.written() != payload {
            return None;
        }
    }
    Some(message)
}

/// A payload as it is read, in the manner of [`Raw`].
struct Payload<'a> {
    rest: &'a [u8],
    may_end_early: bool,
    ended_early: bool,
}

impl<'a> postcard::de_flavors::Flavor<'a> for Payload<'a> {
    /// Whether the payload ended before the message.
    type Remainder = bool;
    type Source = ();

    fn pop(&mut self) -> postcard::Result<u8> {
        match self.rest.split_first() {
            Some((first, rest)) => {
                self.rest = rest;
                Ok(*first)
            }
            None if self.may_end_early => {
                self.ended_early = true;
                Ok(0)
            }
            None => Err(postcard::Error::DeserializeUnexpectedEnd),
        }
    }

    /// No message has a field that takes bytes as they are.
    fn try_take_n(&mut self, _count: usize) -> postcard::Result<&'a [u8]> {
        Err(postcard::Error::WontImplement)
    }

    fn finalize(self) -> postcard::Result<bool> {
        Ok(self.ended_early)
    }
}
