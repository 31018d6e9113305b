//! `evenhand export`.

use super::period::PeriodArguments;
use super::shown::doubt_words;
use super::words::say;
use super::written::{Unfilled, to_file};
use super::{Data, Failure};
use clap::{Args, ValueEnum};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::{RecordedPortion, TimeSource};
use evenhand_kitchen::service::label_cooks;
use evenhand_kitchen::units::Grams;
use evenhand_store::{OfRun, Query, Store};
use jiff::{Timestamp, ZonedDateTime};
use serde::Serialize;
use serde::ser::{SerializeSeq, Serializer};
use std::borrow::Cow;
use std::collections::HashMap;
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
    /// Your own initials: your portions stand under them, as the setting of
    /// `evenhand service settings` allows.
    #[arg(long, value_name = "INITIALS")]
    cook: Option<String>,
    #[command(flatten)]
    period: PeriodArguments,
}

/// One portion with everything on record about it. Masses in grams,
/// temperatures in degrees Celsius, times in UTC.
#[derive(Debug, Serialize)]
struct Row<'r> {
    id: String,
    run: u32,
    dish: Option<Cow<'r, str>>,
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
    struck_reason: Option<Cow<'r, str>>,
    replaces: Option<String>,
    replaced_by: Option<String>,
    cook: Option<Cow<'r, str>>,
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
    let asking = arguments
        .cook
        .as_ref()
        .map(|cook| Cook::new("--cook", cook))
        .transpose()?;
    let store = data.existing()?;
    // Before anything is written.
    let dish = match dish {
        Some(name) => Some(store.known_dish(&name)?.name),
        None => None,
    };
    let query = Query {
        dish,
        from,
        to,
        run: None,
    };
    let cooks = CookWords::of(&store, asking.as_ref())?;
    let rows = Rows {
        store: &store,
        query: &query,
        cooks: &cooks,
    };
    let format = arguments.format;
    if arguments.out == Path::new("-") {
        let out = io::stdout().lock();
        return match rows.write(format, out) {
            Ok(_) => Ok(()),
            Err(Unfilled::Output(error)) => Err(Failure::output(error)),
            Err(Unfilled::Source(failure)) => Err(failure),
        };
    }
    let written = to_file(data, "--out", &arguments.out, arguments.force, |file| {
        rows.write(format, file)
    })?;
    let path = arguments.out.display().to_string();
    eprintln!(
        "{}",
        say!(
            data.language,
            "export-written",
            count = written,
            path = path
        )
    );
    Ok(())
}

/// What each cook is called in a file that leaves the kitchen's computer: as
/// the kitchen's setting allows.
struct CookWords(HashMap<Option<Cook>, String>);

impl CookWords {
    fn of(store: &Store, asking: Option<&Cook>) -> Result<Self, Failure> {
        let cooks: Vec<(Option<Cook>, usize)> = store.cooks()?;
        let labels = label_cooks(store.cook_figures()?, asking, &cooks);
        Ok(Self(
            cooks
                .into_iter()
                .map(|(cook, _)| cook)
                .zip(labels)
                .map(|(cook, label)| (cook, label.to_string()))
                .collect(),
        ))
    }

    fn word(&self, cook: Option<&Cook>) -> Option<&str> {
        // Of whom nothing was said there is nothing to hide.
        self.0.get(&Some(cook?.clone())).map(String::as_str)
    }
}

/// The rows of an export, read one by one.
struct Rows<'r> {
    store: &'r Store,
    query: &'r Query,
    cooks: &'r CookWords,
}

impl Rows<'_> {
    /// Writes them, and tells how many they were.
    fn write(&self, format: Format, out: impl Write) -> Result<usize, Unfilled> {
        let mut count = 0;
        match format {
            Format::Csv => {
                let mut csv = csv::WriterBuilder::new()
                    .has_headers(false)
                    .terminator(csv::Terminator::CRLF)
                    .buffer_capacity(BUFFER)
                    .from_writer(out);
                csv.write_record(HEADINGS).map_err(io::Error::from)?;
                self.store
                    .each_portion::<Unfilled>(self.query, |portion, run| {
                        let mut row = row(&portion, run, self.cooks);
                        for text in [&mut row.dish, &mut row.struck_reason, &mut row.cook] {
                            *text = text.take().map(harmless);
                        }
                        csv.serialize(row).map_err(io::Error::from)?;
                        count += 1;
                        Ok(())
                    })?;
                csv.flush()?;
            }
            Format::Json => {
                let mut out = io::BufWriter::with_capacity(BUFFER, out);
                let mut json = serde_json::Serializer::pretty(&mut out);
                let mut rows = json.serialize_seq(None).map_err(io::Error::from)?;
                self.store
                    .each_portion::<Unfilled>(self.query, |portion, run| {
                        rows.serialize_element(&row(&portion, run, self.cooks))
                            .map_err(io::Error::from)?;
                        count += 1;
                        Ok(())
                    })?;
                SerializeSeq::end(rows).map_err(io::Error::from)?;
                writeln!(out)?;
                out.flush()?;
            }
        }
        Ok(count)
    }
}

/// How much is held before it is written, in bytes.
const BUFFER: usize = 1 << 16;

fn row<'r>(portion: &'r RecordedPortion, run: &OfRun, cooks: &'r CookWords) -> Row<'r> {
    let cost = portion.cost.map(|cost| cost.for_kilogram());
    Row {
        id: portion.id.to_string(),
        run: portion.run.0,
        dish: portion.dish.as_ref().map(|dish| dish.as_str().into()),
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
            .map(|struck| struck.reason.as_str().into()),
        replaces: portion.replaces.map(|id| id.to_string()),
        replaced_by: portion.replaced_by.map(|id| id.to_string()),
        cook: cooks.word(run.cook.as_ref()).map(Cow::from),
        tin: run.tin.map(|tin| tin.0),
        cost_per_kilogram: cost.map(|cost| cost.millionths() as f64 / 1e6),
        currency: cost.map(|cost| cost.currency().code()),
    }
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
fn harmless(text: Cow<'_, str>) -> Cow<'_, str> {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{text}").into()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_formula_is_made_a_text() {
        for (text, made) in [
            ("=HYPERLINK(\"x\")", "'=HYPERLINK(\"x\")"),
            ("+1", "'+1"),
            ("shrimp", "shrimp"),
        ] {
            assert_eq!(harmless(text.into()), made);
        }
    }
}
