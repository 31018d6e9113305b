//! What an emulated board logs, as text.

use defmt_decoder::{DecodeError, Table};
use std::io::Read;
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

/// The log of a board that is running. Lines come in while it runs.
#[derive(Debug, Clone, Default)]
pub struct BoardLog {
    lines: Arc<Mutex<Vec<String>>>,
}

impl BoardLog {
    /// Reads defmt frames until their source ends, by the image's own table of
    /// texts.
    ///
    /// # Errors
    /// A sentence, where the image has no such table.
    pub fn follow(image: &[u8], mut frames: impl Read + Send + 'static) -> Result<Self, String> {
        let table = Table::parse(image)
            .map_err(|error| format!("its table of log texts cannot be read: {error}"))?
            .ok_or("it has no table of log texts")?;
        let log = Self::default();
        let writer = log.clone();
        thread::spawn(move || {
            let mut decoder = table.new_stream_decoder();
            let mut bytes = [0; 256];
            while let Ok(count @ 1..) = frames.read(&mut bytes) {
                decoder.received(&bytes[..count]);
                loop {
                    match decoder.decode() {
                        Ok(frame) => {
                            let level = frame.level().map_or("", |level| level.as_str());
                            writer.push(format!("{level} {}", frame.display_message()));
                        }
                        Err(DecodeError::UnexpectedEof) => break,
                        Err(DecodeError::Malformed) => writer.push("(unreadable)".to_owned()),
                    }
                }
            }
        });
        Ok(log)
    }

    fn push(&self, line: String) {
        self.lines
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .push(line);
    }

    /// Everything so far.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        self.lines
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }
}
