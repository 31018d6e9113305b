//! Logs as comma-separated text: `time,celsius`, times by RFC 3339.

use super::log::{HeatLog, LogError, LogPoint};
use evenhand_protocol::Temperature;
use jiff::Timestamp;

/// Why a table was refused. Nothing of a refused table is used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TableError {
    /// The first line is not the expected one.
    #[error("the header is '{0}', expected 'time,celsius' or 'time,fahrenheit'")]
    Header(String),
    /// A line cannot be read.
    #[error("line {line}: {field} is '{value}', expected {expected}")]
    Field {
        /// Counted from 1, the header included.
        line: u64,
        /// The column.
        field: &'static str,
        /// What stands there.
        value: String,
        /// What was expected.
        expected: &'static str,
    },
    /// A line has too few or too many columns, or is not text.
    #[error("line {line}: {problem}")]
    Line {
        /// Counted from 1, the header included.
        line: u64,
        /// What is wrong.
        problem: String,
    },
    /// A line's reading cannot follow the one before.
    #[error("line {line}: {error}")]
    Reading {
        /// Counted from 1, the header included.
        line: u64,
        /// Why.
        error: LogError,
    },
    /// There is no reading at all.
    #[error("the table has no readings")]
    Empty,
}

/// Reads a log. The unit is the header's, for every line; a value with a unit
/// of its own is refused, so units cannot be mixed unseen.
///
/// # Errors
/// [`TableError`] with the line.
pub fn read_table(name: &str, text: &str) -> Result<HeatLog, TableError> {
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let header = reader
        .headers()
        .map_err(|e| TableError::Header(e.to_string()))?
        .iter()
        .collect::<Vec<_>>()
        .join(",")
        .trim_start_matches('\u{feff}')
        .to_ascii_lowercase();
    let (column, to_temperature): (_, fn(f64) -> Option<Temperature>) = match header.as_str() {
        "time,celsius" => ("celsius", Temperature::from_celsius),
        "time,fahrenheit" => ("fahrenheit", Temperature::from_fahrenheit),
        _ => return Err(TableError::Header(header)),
    };
    let mut log = HeatLog::new(name);
    for record in reader.records() {
        let record = record.map_err(|e| TableError::Line {
            line: e.position().map_or(0, csv::Position::line),
            problem: e.to_string(),
        })?;
        let line = record.position().map_or(0, csv::Position::line);
        let text = |place| record.get(place).unwrap_or_default();
        let wrong = |field, place, expected| TableError::Field {
            line,
            field,
            value: text(place).to_owned(),
            expected,
        };
        let at: Timestamp = text(0).parse().map_err(|_| {
            wrong(
                "time",
                0,
                "a date and time with its offset, as 2026-05-01T10:40:00Z",
            )
        })?;
        let temperature = text(1)
            .parse::<f64>()
            .ok()
            .and_then(to_temperature)
            .ok_or_else(|| wrong(column, 1, "a plain number in the header's unit"))?;
        log.push(LogPoint { at, temperature })
            .map_err(|error| TableError::Reading { line, error })?;
    }
    if log.points().is_empty() {
        return Err(TableError::Empty);
    }
    Ok(log)
}

/// Writes a log in degrees Celsius.
#[must_use]
pub fn write_table(log: &HeatLog) -> String {
    let mut text = String::from("time,celsius\n");
    for point in log.points() {
        text.push_str(&format!(
            "{},{:.3}\n",
            point.at,
            point.temperature.celsius()
        ));
    }
    text
}
