//! The smallest desktop that an instrument can work with: it starts a run and
//! acknowledges.

use evenhand_protocol::{
    CapturedPortion, Command, Envelope, Goal, Mode, Reader, Report, RunId, UnixMillis, Version,
    frame,
};
use std::collections::BTreeMap;

/// The desktop's end of the link, bytes in and bytes out.
#[derive(Debug, Default)]
pub struct LittleDesktop {
    reader: Reader<Report>,
    sequence: u16,
    heard: bool,
    started: bool,
    captured: BTreeMap<u32, CapturedPortion>,
}

impl LittleDesktop {
    /// What to send first: a hello, and the start of run 1.
    #[must_use]
    pub fn opening(&mut self, mode: Mode, goal: Goal) -> Vec<u8> {
        let mut bytes = self.frame(Command::Hello {
            version: Version::CURRENT,
            now: UnixMillis::from_millis(1_700_000_000_000),
        });
        bytes.extend(self.frame(Command::StartRun {
            run: RunId(1),
            mode,
            goal,
        }));
        bytes
    }

    fn frame(&mut self, message: Command) -> Vec<u8> {
        let mut bytes = [0; frame::MAX_FRAME];
        let envelope = Envelope {
            sequence: self.sequence,
            message,
        };
        self.sequence = self.sequence.wrapping_add(1);
        // Every command fits.
        let length = frame::encode(&envelope, &mut bytes).unwrap_or(0);
        bytes[..length].to_vec()
    }

    /// Takes what came, and gives what to answer.
    ///
    /// # Errors
    /// A sentence, where after the first whole frame something comes that is
    /// none, where a command is refused, or where one identity comes with two
    /// portions.
    pub fn take(&mut self, bytes: &[u8]) -> Result<Vec<u8>, String> {
        let mut answer = Vec::new();
        for byte in bytes {
            let message = match self.reader.push(*byte) {
                None => continue,
                // What was sent before anybody listened may be cut.
                Some(Err(_)) if !self.heard => continue,
                Some(Err(error)) => return Err(format!("{error:?} on a sound line")),
                Some(Ok(envelope)) => envelope.message,
            };
            self.heard = true;
            match message {
                Report::Portion(portion) => {
                    if let Some(earlier) = self.captured.insert(portion.id.number, portion)
                        && earlier != portion
                    {
                        return Err(format!("{} came as two portions", portion.id));
                    }
                    answer.extend(self.frame(Command::Acknowledge(portion.id)));
                }
                Report::Reply { outcome, .. } => {
                    outcome.map_err(|refusal| refusal.to_string())?;
                    self.started = true;
                }
                _ => {}
            }
        }
        Ok(answer)
    }

    /// Whether the instrument has said that the run has started.
    #[must_use]
    pub const fn has_started(&self) -> bool {
        self.started
    }

    /// The portions that came, by number.
    #[must_use]
    pub const fn captured(&self) -> &BTreeMap<u32, CapturedPortion> {
        &self.captured
    }
}
