//! `evenhand export`.

use super::period::PeriodArguments;
use super::shown::doubt_words;
use super::spread_table::counted;
use super::written::to_file;
use super::{Data, Failure};
use clap::{Args, ValueEnum};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::{RecordedPortion, TimeSource};
use evenhand_kitchen::run::Run;
use evenhand_kitchen::units::Grams;
use evenhand_protocol::RunId;
use evenhand_store::{Query, Store};
use jiff::{Timestamp, ZonedDateTime};
use serde::Serialize;
use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Format {
    /// A table, comma-separated (RFC 4180), one line a portion.
    Csv,
    /// One array of objects.
    Json,
}

#[derive(Debug, Args)]
pub(super) struct ExportArguments {
    /// The form of the file.
    #[arg(long, value_enum)]
    format: Format,
    /// The file to write; - for standard output.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Write over a file that is there.
    #[arg(long)]
    force: bool,
    /// Only this dish.
    #[arg(long, value_name = "NAME")]
    dish: Option<String>,
    #[command(flatten)]
    period: PeriodArguments,
}

/// One portion with everything on record about it. Masses in grams,
/// temperatures in degrees Celsius, times in UTC.
#[derive(Debug, Serialize)]
struct Row {
    id: String,
    run: u32,
    dish: Option<String>,
    mode: &'static str,
    grams: Grams,
    verdict: &'static str,
    at: Timestamp,
    time_source: &'static str,
    target_grams: Grams,
    below_grams: Grams,
    above_grams: Grams,
    temperature_celsius: Option<f64>,
    uncertainty_grams: Option<Grams>,
    left_grams: Option<Grams>,
    doubts: String,
    counts: bool,
    struck_at: Option<Timestamp>,
    struck_reason: Option<String>,
    replaces: Option<String>,
    replaced_by: Option<String>,
    cook: Option<String>,
    tin: Option<i64>,
    cost_per_kilogram: Option<f64>,
    currency: Option<&'static str>,
}

pub(super) fn run(data: &Data, arguments: &ExportArguments) -> Result<(), Failure> {
    let (from, to) = arguments.period.period(&ZonedDateTime::now())?;
    let dish = arguments
        .dish
        .as_ref()
        .map(|name| DishName::new("--dish", name))
        .transpose()?;
    let store = data.existing()?;
    let query = Query {
        dish,
        from,
        to,
        run: None,
    };
    let rows = rows(&store, &query)?;
    let format = arguments.format;
    if arguments.out == Path::new("-") {
        let out = io::stdout().lock();
        return write(format, &rows, out).map_err(|error| Failure::output(&error));
    }
    to_file(data, "--out", &arguments.out, arguments.force, |file| {
        write(format, &rows, file)
    })?;
    eprintln!(
        "{} written to {}.",
        counted(rows.len(), "portion"),
        arguments.out.display()
    );
    Ok(())
}

fn rows(store: &Store, query: &Query) -> Result<Vec<Row>, Failure> {
    let mut runs: HashMap<RunId, Option<Run>> = HashMap::new();
    let mut rows = Vec::new();
    for portion in store.portions(query)? {
        let run = match runs.entry(portion.run) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(new) => new.insert(store.run(portion.run)?),
        };
        rows.push(row(&portion, run.as_ref()));
    }
    Ok(rows)
}

fn row(portion: &RecordedPortion, run: Option<&Run>) -> Row {
    let cost = portion.cost.map(|cost| cost.for_kilogram());
    Row {
        id: portion.id.to_string(),
        run: portion.run.0,
        dish: portion.dish.as_ref().map(ToString::to_string),
        mode: super::dish::mode_word(portion.mode),
        grams: Grams(portion.mass),
        verdict: portion.verdict().word(),
        at: portion.time,
        time_source: match portion.time_source {
            TimeSource::Instrument => "instrument",
            TimeSource::Uptime => "uptime",
            TimeSource::Imported => "imported",
            TimeSource::Recorded => "recorded",
        },
        target_grams: Grams(portion.goal.target()),
        below_grams: Grams(portion.goal.tolerance().below),
        above_grams: Grams(portion.goal.tolerance().above),
        temperature_celsius: portion.temperature.map(|t| t.celsius()),
        uncertainty_grams: portion.uncertainty.map(Grams),
        left_grams: portion.left.map(Grams),
        doubts: doubt_words(portion.doubts).join(" "),
        counts: portion.counts(),
        struck_at: portion.struck.as_ref().map(|struck| struck.at),
        struck_reason: portion
            .struck
            .as_ref()
            .map(|struck| struck.reason.as_str().to_owned()),
        replaces: portion.replaces.map(|id| id.to_string()),
        replaced_by: portion.replaced_by.map(|id| id.to_string()),
        cook: run
            .and_then(|run| run.cook.as_ref())
            .map(ToString::to_string),
        tin: run.and_then(|run| run.tin).map(|tin| tin.0),
        cost_per_kilogram: cost.map(|cost| cost.millionths() as f64 / 1e6),
        currency: cost.map(|cost| cost.currency().code()),
    }
}

fn write(format: Format, rows: &[Row], out: impl Write) -> io::Result<()> {
    match format {
        Format::Csv => write_csv(rows, out),
        Format::Json => {
            let mut out = io::BufWriter::new(out);
            serde_json::to_writer_pretty(&mut out, rows)?;
            writeln!(out)?;
            out.flush()
        }
    }
}

fn write_csv(rows: &[Row], out: impl Write) -> io::Result<()> {
    let mut csv = csv::WriterBuilder::new()
        .has_headers(false)
        .terminator(csv::Terminator::CRLF)
        .from_writer(out);
    csv.write_record(HEADINGS).map_err(io::Error::from)?;
    for row in rows {
        let harmless = Row {
            dish: row.dish.as_deref().map(harmless),
            struck_reason: row.struck_reason.as_deref().map(harmless),
            cook: row.cook.as_deref().map(harmless),
            id: row.id.clone(),
            replaces: row.replaces.clone(),
            replaced_by: row.replaced_by.clone(),
            doubts: row.doubts.clone(),
            ..*row
        };
        csv.serialize(harmless).map_err(io::Error::from)?;
    }
    csv.flush()
}

/// The columns of the table, also when it has no lines.
const HEADINGS: [&str; 24] = [
    "id",
    "run",
    "dish",
    "mode",
    "grams",
    "verdict",
    "at",
    "time_source",
    "target_grams",
    "below_grams",
    "above_grams",
    "temperature_celsius",
    "uncertainty_grams",
    "left_grams",
    "doubts",
    "counts",
    "struck_at",
    "struck_reason",
    "replaces",
    "replaced_by",
    "cook",
    "tin",
    "cost_per_kilogram",
    "currency",
];

/// A text that a spreadsheet will not take for a formula: one that begins as a
/// formula does gets an apostrophe before it.
fn harmless(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_formula_is_made_a_text() {
        assert_eq!(harmless("=HYPERLINK(\"x\")"), "'=HYPERLINK(\"x\")");
        assert_eq!(harmless("+1"), "'+1");
        assert_eq!(harmless("shrimp"), "shrimp");
    }
}
