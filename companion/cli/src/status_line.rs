//! One line that is written over again and again, where a person watches.

use evenhand_kitchen::units::{MassUnit, TemperatureUnit, format_mass, format_temperature};
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
}

impl StatusLine {
    pub(super) fn new() -> Self {
        Self {
            watched: io::stderr().is_terminal(),
            shown: String::new(),
        }
    }

    /// Takes the line away, for something else to be printed.
    pub(super) fn clear(&mut self) {
        if !self.shown.is_empty() {
            self.shown.clear();
            write("\r\x1b[K");
        }
    }

    /// Shows the bench as it stands.
    pub(super) fn show(&mut self, bench: &LiveScale, unit: MassUnit) {
        if !self.watched {
            return;
        }
        let words = words(bench, unit);
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
fn words(bench: &LiveScale, unit: MassUnit) -> String {
    let Some((_, reading)) = bench.last_reading().filter(|_| bench.link().is_linked()) else {
        return instrument::link(Language::English, bench.link()).into_owned();
    };
    let shown = reading.amount.or_else(|| reading.net());
    let mut words = shown.map_or_else(|| "-".to_owned(), |mass| format_mass(mass, unit));
    if let Some(verdict) = reading.verdict {
        words += &format!("  {verdict}");
    }
    words += &format!("  {}", instrument::prompt(Language::English, reading.phase));
    if let Some(temperature) = reading.temperature {
        words += &format!(
            "  {}",
            format_temperature(temperature, TemperatureUnit::Celsius)
        );
    }
    words
}
