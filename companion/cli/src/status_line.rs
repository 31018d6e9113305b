//! One line that is written over again and again, where a person watches.

use super::figures;
use super::shown::verdict_words;
use evenhand_kitchen::units::{MassUnit, TemperatureUnit, format_temperature};
use evenhand_link::live::LiveScale;
use evenhand_use_cases::instrument;
use evenhand_words::Language;
use std::io::{self, IsTerminal, Write};

/// The state of the bench on the terminal's last line, on standard error; no
/// line at all where that is no terminal.
#[derive(Debug)]
pub(super) struct StatusLine {
    watched: bool,
    shown: String,
    language: Language,
}

impl StatusLine {
    pub(super) fn new(language: Language) -> Self {
        Self {
            watched: io::stderr().is_terminal(),
            shown: String::new(),
            language,
        }
    }

    /// Takes the line away, for something else to be printed.
    pub(super) fn clear(&mut self) {
        if !self.shown.is_empty() {
            self.shown.clear();
            write("\r\x1b[K");
        }
    }

    /// Shows the bench as it stands, and how the scoops melt where they do.
    pub(super) fn show(&mut self, bench: &LiveScale, unit: MassUnit, melting: Option<&str>) {
        if !self.watched {
            return;
        }
        let mut words = words(self.language, bench, unit);
        if let Some(melting) = melting {
            words += &format!("  {melting}");
        }
        if words != self.shown {
            write(&format!("\r\x1b[K{words}"));
            self.shown = words;
        }
    }
}

/// A line that cannot be shown is not missed: all that counts is printed
/// elsewhere.
fn write(text: &str) {
    let mut err = io::stderr().lock();
    let _ = err.write_all(text.as_bytes()).and_then(|()| err.flush());
}

/// `22.5 g  short  Fill, then lift the dish off  3.2 °C`
fn words(language: Language, bench: &LiveScale, unit: MassUnit) -> String {
    let Some((_, reading)) = bench.last_reading().filter(|_| bench.link().is_linked()) else {
        return instrument::link(language, bench.link()).into_owned();
    };
    let shown = reading.amount.or_else(|| reading.net());
    let mut words = shown.map_or_else(
        || "-".to_owned(),
        |mass| figures::mass(language, mass, unit),
    );
    if let Some(verdict) = reading.verdict {
        words += &format!("  {}", verdict_words(language, verdict));
    }
    words += &format!("  {}", instrument::prompt(language, reading.phase));
    if let Some(temperature) = reading.temperature {
        words += &format!(
            "  {}",
            language.figure(format_temperature(temperature, TemperatureUnit::Celsius))
        );
    }
    words
}
