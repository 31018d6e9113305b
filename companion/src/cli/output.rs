//! Standard output, line by line.

use super::Failure;
use serde::Serialize;
use std::io::{self, Write};

/// Writes one line and sends it on its way, so that a reader at the other end
/// of a pipe sees each as it comes.
pub(super) fn line(text: &str) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    writeln!(out, "{text}")
        .and_then(|()| out.flush())
        .map_err(|error| Failure::output(&error))
}

/// Writes one JSON object as one line.
pub(super) fn json(value: &impl Serialize) -> Result<(), Failure> {
    let text = serde_json::to_string(value)
        .map_err(|error| Failure::Other(format!("the output cannot be written: {error}")))?;
    line(&text)
}
