//! A frame on its way out, byte by byte, without waiting.

use crate::uart::Uart;
use evenhand_protocol::frame::MAX_FRAME;

/// The frame being sent.
pub struct Outgoing {
    bytes: [u8; MAX_FRAME],
    length: usize,
    sent: usize,
}

impl Outgoing {
    /// Nothing to send.
    pub const fn new() -> Self {
        Self {
            bytes: [0; MAX_FRAME],
            length: 0,
            sent: 0,
        }
    }

    /// Sends as much as the port takes, frame after frame, each written by
    /// `next`, which returns its length, and 0 where there is none. Returns
    /// whether something is still to be sent.
    pub fn send(
        &mut self,
        port: &mut Uart,
        mut next: impl FnMut(&mut [u8; MAX_FRAME]) -> usize,
    ) -> bool {
        loop {
            while let Some(byte) = self
                .bytes
                .get(self.sent)
                .filter(|_| self.sent < self.length)
            {
                if !port.send(*byte) {
                    return true;
                }
                // Less than the length of a frame.
                self.sent = self.sent.wrapping_add(1);
            }
            self.sent = 0;
            self.length = next(&mut self.bytes);
            if self.length == 0 {
                return false;
            }
        }
    }
}
