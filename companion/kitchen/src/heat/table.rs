//! Logs as comma-separated text: `time,celsius`, times by RFC 3339.

use super::log::{HeatLog, LogError, LogPoint};
use crate::units::excerpt;
use evenhand_protocol::Temperature;
use jiff::Timestamp;

/// Why a table was refused. Nothing of a refused table is used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TableError {
    /// The first line is not the expected one.
    #[error(
        "the header is '{}', expected 'time,celsius' or 'time,fahrenheit'",
        excerpt(.0)
    )]
    Header(String),
    /// A line cannot be read.
    #[error("line {line}: {field} is '{}', expected {expected}", excerpt(value))]
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

impl TableError {
    /// A name for it that does not change.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Header(_) => "header",
            Self::Field { .. } => "field",
            Self::Line { .. } => "line",
            Self::Reading { error, .. } => error.code(),
            Self::Empty => "empty",
        }
    }
}

/// Reads a log. The unit is the header's, for every line; a value with a unit
/// of its own is refused, so units cannot be mixed unseen. A line with a time
/// and no temperature says that the probe read nothing then: a gap.
///
/// # Errors
/// [`TableError`] with the line.
pub fn read_table(name: &str, text: &str) -> Result<HeatLog, TableError> {
    read(name, text, Err)
}

/// Reads a log as [`read_table`] does, but leaves a line out that cannot be
/// used, with a gap in its place; returns what was left out and why.
///
/// # Errors
/// [`TableError::Header`], or [`TableError::Empty`] where nothing is left.
pub fn read_table_leaving_out(
    name: &str,
    text: &str,
) -> Result<(HeatLog, Vec<TableError>), TableError> {
    let mut left_out = Vec::new();
    let log = read(name, text, |error| {
        left_out.push(error);
        Ok(())
    })?;
    Ok((log, left_out))
}

fn read(
    name: &str,
    text: &str,
    mut on_error: impl FnMut(TableError) -> Result<(), TableError>,
) -> Result<HeatLog, TableError> {
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
        let reading = record
            .map_err(|e| TableError::Line {
                line: e.position().map_or(0, csv::Position::line),
                problem: e.to_string(),
            })
            .and_then(|record| one(&record, column, to_temperature));
        let taken = reading.and_then(|(line, point)| match point {
            Some(point) => log
                .push(point)
                .map_err(|error| TableError::Reading { line, error }),
            None => {
                log.break_here();
                Ok(())
            }
        });
        if let Err(error) = taken {
            on_error(error)?;
            log.break_here();
        }
    }
    if log.points().is_empty() {
        return Err(TableError::Empty);
    }
    Ok(log)
}

/// One line: its number and its reading, or none where the probe read nothing.
fn one(
    record: &csv::StringRecord,
    column: &'static str,
    to_temperature: fn(f64) -> Option<Temperature>,
) -> Result<(u64, Option<LogPoint>), TableError> {
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
    if text(1).is_empty() {
        return Ok((line, None));
    }
    let temperature = text(1)
        .parse::<f64>()
        .ok()
        .and_then(to_temperature)
        .ok_or_else(|| wrong(column, 1, "a plain number in the header's unit"))?;
    Ok((line, Some(LogPoint { at, temperature })))
}

/// Writes a log in degrees Celsius. A gap shorter than a reader would see as
/// one by itself stands as a line without a temperature.
#[must_use]
pub fn write_table(log: &HeatLog) -> String {
    let mut text = String::from("time,celsius\n");
    for point in log.points() {
        if log.follows_break(point) {
            text.push_str(&format!("{},\n", point.at));
        }
        text.push_str(&format!(
            "{},{:.3}\n",
            point.at,
            point.temperature.celsius()
        ));
    }
    text
}
