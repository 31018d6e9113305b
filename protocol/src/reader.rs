//! Bytes as messages again.

use crate::frame::{self, CHECKSUM, Envelope, HEADER, Message, RAW_ROOM, TRAILER};
use crate::version::{OtherMajor, Version};
use cobs::{DecodeResult, DecoderState};
use core::marker::PhantomData;

/// Why a run of bytes was not a message.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum FrameError {
    /// Byte stuffing or checksum wrong, or longer than any frame: noise, a
    /// cut, or two frames run together.
    Corrupt,
    /// A whole frame, by its checksum, of another major version.
    OtherVersion {
        /// The sender's major version.
        theirs: u8,
    },
    /// A whole frame of this version that travels the other way: two desktops
    /// or two instruments are wired together.
    WrongDirection,
    /// A whole frame of this version whose message is not known here: the peer
    /// has a higher minor version. Skip it; [`Reader::payload`] still has it.
    UnknownMessage {
        /// The frame's sequence number, to refuse it by.
        sequence: u16,
    },
}

impl core::fmt::Display for FrameError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Corrupt => f.write_str("the bytes are no whole frame: noise, or a frame cut short"),
            Self::OtherVersion { theirs } => OtherMajor {
                ours: Version::CURRENT.major,
                theirs: *theirs,
            }
            .fmt(f),
            Self::WrongDirection => f.write_str(
                "the frame travels the other way: two desktops or two instruments are wired together",
            ),
            Self::UnknownMessage { sequence } => write!(
                f,
                "message {sequence} is not known here: the other end speaks a later version of the link"
            ),
        }
    }
}

impl core::error::Error for FrameError {}

/// Turns bytes into messages and finds its feet again after any garbage, in
/// the memory of one frame.
///
/// ```
/// use evenhand_protocol::{frame, Command, Envelope, Reader};
/// let sent = Envelope { sequence: 7, message: Command::Tare };
/// let mut bytes = [0; frame::MAX_FRAME];
/// let length = frame::encode(&sent, &mut bytes).unwrap();
///
/// let mut reader = Reader::<Command>::new();
/// assert!(reader.push(0xA5).is_none()); // noise on the line
/// assert!(reader.push(0).unwrap().is_err());
/// let got = bytes[..length].iter().find_map(|byte| reader.push(*byte));
/// assert_eq!(got, Some(Ok(sent)));
/// ```
#[derive(Debug)]
pub struct Reader<M> {
    stuffing: DecoderState,
    /// The frame so far, stuffing taken out.
    buffer: [u8; RAW_ROOM],
    length: usize,
    overflown: bool,
    message: PhantomData<M>,
}

impl<M: Message> Default for Reader<M> {
    fn default() -> Self {
        Self::new()
    }
}

impl<M: Message> Reader<M> {
    /// A reader that has seen nothing yet.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            stuffing: DecoderState::Idle,
            buffer: [0; RAW_ROOM],
            length: 0,
            overflown: false,
            message: PhantomData,
        }
    }

    /// Takes one byte; returns a message, or why there was none, when the byte
    /// closes a frame. Zeros between frames are ignored.
    pub fn push(&mut self, byte: u8) -> Option<Result<Envelope<M>, FrameError>> {
        match self.stuffing.feed(byte) {
            Ok(DecodeResult::NoData) => None,
            Ok(DecodeResult::DataStart) => {
                self.length = 0;
                self.overflown = false;
                None
            }
            Ok(DecodeResult::DataContinue(byte)) => {
                match self.buffer.get_mut(self.length) {
                    Some(place) => {
                        *place = byte;
                        // Less than the length of the array.
                        self.length = self.length.wrapping_add(1);
                    }
                    None => self.overflown = true,
                }
                None
            }
            Ok(DecodeResult::DataComplete) => Some(self.open()),
            Err(_) => Some(Err(FrameError::Corrupt)),
        }
    }

    /// The payload of the frame that the last push closed, to keep a message
    /// that is not known here; empty while a frame is on its way.
    #[must_use]
    pub fn payload(&self) -> &[u8] {
        let end = self.length.saturating_sub(TRAILER);
        self.buffer.get(HEADER..end).unwrap_or_default()
    }

    fn open(&self) -> Result<Envelope<M>, FrameError> {
        if self.overflown {
            return Err(FrameError::Corrupt);
        }
        let raw = self.buffer.get(..self.length).ok_or(FrameError::Corrupt)?;
        let (body, trailer) = raw
            .split_last_chunk::<TRAILER>()
            .ok_or(FrameError::Corrupt)?;
        if CHECKSUM.checksum(body) != u32::from_le_bytes(*trailer) {
            return Err(FrameError::Corrupt);
        }
        let (header, payload) = body
            .split_first_chunk::<HEADER>()
            .ok_or(FrameError::Corrupt)?;
        let [major, kind, low, high] = *header;
        if major != Version::CURRENT.major {
            return Err(FrameError::OtherVersion { theirs: major });
        }
        if kind != M::KIND {
            return Err(FrameError::WrongDirection);
        }
        let sequence = u16::from_le_bytes([low, high]);
        let message = frame::message(payload).ok_or(FrameError::UnknownMessage { sequence })?;
        Ok(Envelope { sequence, message })
    }
}

/// Counts what the sequence numbers of received frames say was missed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SequenceWatch {
    last: Option<u16>,
    /// Frames that were sent and never came.
    pub missed: u32,
    /// Frames that came again, or late.
    pub repeated: u32,
}

impl SequenceWatch {
    /// Takes the number of the next frame received.
    pub fn take(&mut self, sequence: u16) {
        if let Some(last) = self.last {
            let step = sequence.wrapping_sub(last);
            if step == 0 || step > u16::MAX / 2 {
                self.repeated = self.repeated.saturating_add(1);
                return;
            }
            self.missed = self.missed.saturating_add(u32::from(step) - 1);
        }
        self.last = Some(sequence);
    }

    /// Forgets the last number, for a new connection or a restarted peer.
    pub fn restart(&mut self) {
        self.last = None;
    }
}
