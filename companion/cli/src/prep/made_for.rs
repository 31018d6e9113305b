//! `evenhand prep label` and `gone`.

use super::super::heat::in_force;
use super::super::output::Telling;
use super::super::written::to_file;
use super::super::{Data, Failure, output};
use super::{day, moment, whole};
use crate::words::{bad_input, failed, say};
use clap::Args;
use evenhand_kitchen::moment::has_come;
use evenhand_kitchen::prep::Happened;
use evenhand_use_cases::prep::{Label, MadeFor, MadeForError};
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::json;
use std::io::Write;
use std::path::PathBuf;

/// The batch of a preparation that is made for a service.
#[derive(Debug, Args)]
struct OfArguments {
    /// The preparation.
    preparation: String,
    /// The day of the service that the batch is made for.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    /// When; now, if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
}

impl OfArguments {
    fn made(&self, data: &Data) -> Result<(MadeFor, Timestamp), Failure> {
        let on = day("--for", &self.day)?;
        let at = moment("--at", self.at.as_deref(), on)?;
        let made = MadeFor::of(
            &data.existing()?,
            on,
            &self.preparation,
            at,
            &TimeZone::system(),
        );
        made.map(|made| (made, at)).map_err(|error| match error {
            MadeForError::Prep(error) => error.into(),
            error => Failure::Input(format!("PREPARATION: {error}")),
        })
    }
}

#[derive(Debug, Args)]
pub(crate) struct LabelArguments {
    #[command(flatten)]
    of: OfArguments,
    /// How many tubs: a label each.
    #[arg(long, value_name = "N", default_value = "1")]
    tubs: String,
    /// Write them to this file: a PDF, a page of A7 across for each.
    #[arg(long, value_name = "FILE.pdf")]
    pdf: Option<PathBuf>,
    /// Write one to this file: a PNG of A7 across, for one tub.
    #[arg(long, value_name = "FILE.png")]
    png: Option<PathBuf>,
    /// Write over a file that is there.
    #[arg(long)]
    force: bool,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

/// More labels at a time than this are a slip.
const MOST_TUBS: u32 = 200;

pub(super) fn label(
    data: &Data,
    arguments: &LabelArguments,
    language: Language,
) -> Result<(), Failure> {
    let tubs = whole("--tubs", &arguments.tubs, "tubs")?;
    if !(1..=MOST_TUBS).contains(&tubs) {
        return Err(bad_input!(
            "prep-no-tubs",
            tubs = tubs.to_string(),
            most = MOST_TUBS.to_string()
        ));
    }
    if tubs > 1 && arguments.png.is_some() {
        return Err(bad_input!("prep-one-png", tubs = tubs.to_string()));
    }
    let (made, at) = arguments.of.made(data)?;
    let zone = TimeZone::system();
    let label = Label::of(made, &in_force(data)?, at, &zone);
    let written = |bytes: Vec<u8>, flag, path: &PathBuf| {
        to_file(data, flag, path, arguments.force, |file| {
            file.write_all(&bytes)
        })
    };
    let no_page = |error: evenhand_use_cases::printing::PageError| {
        failed!("page-failed", why = error.to_string())
    };
    if let Some(path) = &arguments.pdf {
        written(
            label.pdf(language, tubs, &zone).map_err(no_page)?,
            "--pdf",
            path,
        )?;
    }
    if let Some(path) = &arguments.png {
        written(label.png(language, &zone).map_err(no_page)?, "--png", path)?;
    }
    if arguments.json {
        let made = &label.made;
        return output::json(&json!({
            "preparation": made.preparation,
            "for": made.day,
            "made": made.made,
            "ready": label.ready,
            "use_by": label.use_by.map(|by| by.at),
            "use_by_ended_by_date_marking": label.use_by.map(|by| by.by_date_mark),
            "keeps_hours": made.batch.keeps.as_ref().map(|k| k.lasts().as_hours()),
            "keeps_source": made.batch.keeps.as_ref().map(|k| k.source()),
            "date_marking_ends": label.mark.as_ref().map(|(_, ends)| ends),
            "date_marking_source": label.mark.as_ref().map(|(limit, _)| limit.source.to_string()),
            "lot": made.lot(),
            "allergens": made.batch.allergens,
            "tubs": tubs,
        }));
    }
    for (_, words) in label.lines(language, (1, tubs), &zone) {
        output::line(&words)?;
    }
    Ok(())
}

#[derive(Debug, Args)]
pub(crate) struct GoneArguments {
    #[command(flatten)]
    of: OfArguments,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn gone(data: &Data, arguments: &GoneArguments) -> Result<(), Failure> {
    let (made, at) = arguments.of.made(data)?;
    let said = arguments.of.at.as_deref().unwrap_or_default();
    has_come("--at", said, at, Timestamp::now())?;
    let name = &made.preparation;
    if made.ready(at).is_none() {
        return Err(bad_input!(
            "prep-not-finished",
            name = format!("{name:?}"),
            day = made.day.to_string()
        ));
    }
    data.existing()?.tell_step(
        made.day,
        &made.last_step,
        at,
        Happened::Gone,
        Timestamp::now(),
    )?;
    arguments.telling.tell(
        &say!(
            data.language,
            "prep-gone",
            name = name.as_str(),
            day = made.day.to_string()
        ),
        &json!({ "preparation": name, "for": made.day, "gone_at": at }),
    )
}
