//! Standard output, line by line.

use super::Failure;
use clap::Args;
use evenhand_kitchen::units::without_commands;
use evenhand_use_cases::sheet::Weight;
use serde::Serialize;
use std::io::{self, Write};

/// Writes one line and sends it on its way, so that a reader at the other end
/// of a pipe sees each as it comes. Control characters that somebody put on
/// record are written out.
pub(super) fn line(text: &str) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    writeln!(out, "{}", without_commands(text))
        .and_then(|()| out.flush())
        .map_err(Failure::output)
}

/// Writes one JSON object as one line.
pub(super) fn json(value: &impl Serialize) -> Result<(), Failure> {
    let text = serde_json::to_string(value).map_err(|error| Failure::output(error.into()))?;
    line(&text)
}

/// What was told, as far as somebody read it: how a thing stands against its limit does
/// not depend on that, and the exit status is to say it.
pub(super) fn as_far_as_read(told: Result<(), Failure>) -> Result<(), Failure> {
    match told {
        Err(Failure::OutputClosed) => Ok(()),
        other => other,
    }
}

/// Writes the lines of a sheet: what is below a heading stands in.
pub(super) fn sheet(lines: &[(Weight, String)]) -> Result<(), Failure> {
    for (weight, words) in lines {
        let before = match weight {
            Weight::Title | Weight::Heading => "",
            Weight::Text | Weight::Small => "  ",
        };
        line(&format!("{before}{words}"))?;
    }
    Ok(())
}

/// Says that there is nothing to list yet, and what would change that. As JSON,
/// no line at all says so already.
pub(super) fn nothing_yet(empty: bool, as_json: bool, words: &str) -> Result<(), Failure> {
    if empty && !as_json {
        line(words)
    } else {
        Ok(())
    }
}

/// Whether what a command did is told to a machine.
#[derive(Debug, Clone, Copy, Args)]
pub(super) struct Telling {
    /// As one JSON object.
    #[arg(long)]
    json: bool,
}

impl Telling {
    /// Tells it: the words, or the fields that say the same.
    pub(super) fn tell(self, words: &str, fields: &impl Serialize) -> Result<(), Failure> {
        if self.json { json(fields) } else { line(words) }
    }

    /// Whether it is told as JSON.
    pub(super) const fn is_json(self) -> bool {
        self.json
    }
}
