//! `evenhand lot`.

use super::heat::in_force;
use super::{Data, Failure, output, written};
use crate::failure::Spoken;
use crate::words::{bad_input, failed, say};
use clap::{Args, Subcommand};
use evenhand_kitchen::heat::Outcome;
use evenhand_kitchen::limits::CAUTION;
use evenhand_kitchen::lot::Lot;
use evenhand_use_cases::lots::{
    self, ListedLot, LotNow, LotsError, StepNow, lot_words, lots_error_words, mark_words,
    no_lots_words,
};
use evenhand_use_cases::mixing::batch::outcome_words;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

#[derive(Debug, Subcommand)]
pub(super) enum LotCommand {
    /// One food through its steps, each held against its limit: brine, smoke, chill, reheat, hold.
    Check(LotArguments),
    /// The lots in the data folder, `lots/*.toml`, and how each stands.
    List(ListArguments),
}

#[derive(Debug, Args)]
pub(super) struct ListArguments {
    /// One JSON object a line.
    #[arg(long)]
    json: bool,
}

/// A lot file:
///
/// title = "smoked neck, lot 12", batch = 4 where it was cured on record, and for each step
/// [[step]] with name, from, to, log (a heat log on record) and limit (`evenhand heat limits`).
#[derive(Debug, Args)]
pub(super) struct LotArguments {
    /// The lot, as a TOML file: title, batch, and [[step]]s with name, from, to, log and limit.
    #[arg(value_name = "LOT.toml")]
    file: PathBuf,
    /// Write it as a sheet for the inspector, too: a PDF file.
    #[arg(long, value_name = "FILE.pdf")]
    sheet: Option<PathBuf>,
    /// Write over a file that is there.
    #[arg(long, requires = "sheet")]
    force: bool,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, command: LotCommand) -> Result<(), Failure> {
    match command {
        LotCommand::Check(arguments) => check(data, &arguments),
        LotCommand::List(ListArguments { json }) => list(data, json),
    }
}

fn check(data: &Data, arguments: &LotArguments) -> Result<(), Failure> {
    let text = super::heat::text_of("LOT.toml", &arguments.file)?;
    let now = ZonedDateTime::now();
    let wrong = |error: LotsError| match error {
        LotsError::Store(error) => error.into(),
        other => bad_input!(
            "lot-refused",
            path = arguments.file.display().to_string(),
            why = Spoken::each(|language| lots_error_words(language, &other))
        ),
    };
    let lot = Lot::read(&text, &now).map_err(|error| wrong(error.into()))?;
    let limits = in_force(data)?;
    let standing = LotNow::of(&data.existing()?, &limits, lot, now.timestamp()).map_err(wrong)?;
    let language = data.language;
    let zone = TimeZone::system();
    if let Some(path) = &arguments.sheet {
        let bytes = lots::pdf(language, &standing, &zone)
            .map_err(|error| failed!("page-failed", why = error.to_string()))?;
        written::to_file(data, "--sheet", path, arguments.force, |file| {
            std::io::Write::write_all(file, &bytes)
        })?;
        let written = say!(
            language,
            "lot-sheet-written",
            title = standing.lot.title.as_str(),
            path = path.display().to_string()
        );
        eprintln!("{written}");
    }
    let told = if arguments.json {
        output::json(&json!({
            "title": standing.lot.title,
            "outcome": standing.outcome,
            "batch": standing.cured.as_ref().map(|cured| json!({
                "batch": cured.id.0,
                "ingoing": cured.ingoing.as_ref().map(ToString::to_string),
                "hindered": cured.hindered.iter().map(ToString::to_string).collect::<Vec<_>>(),
            })),
            "steps": standing.steps.iter().map(step_json).collect::<Vec<_>>(),
            "between": standing.lot.between().iter().map(|(_, gap)| gap_json(gap.from, gap.to)).collect::<Vec<_>>(),
            "caution": CAUTION,
        }))
    } else {
        output::sheet(&lot_words(language, &standing, &zone))
    };
    output::as_far_as_read(told)?;
    let title = &standing.lot.title;
    match standing.outcome {
        Some(Outcome::Kept) => Ok(()),
        Some(Outcome::Broken) => Err(Failure::OverLimit(
            say!(language, "lot-over", title = title.as_str()).into_owned(),
        )),
        other => {
            let outcome = outcome_words(language, other.unwrap_or(Outcome::CannotTell));
            let stands = say!(
                language,
                "lot-stands",
                title = title.as_str(),
                outcome = outcome
            );
            Err(Failure::NotWithin(stands.into_owned()))
        }
    }
}

fn list(data: &Data, as_json: bool) -> Result<(), Failure> {
    let language = data.language;
    let folder = data.folder()?;
    let refused = |path: &Path, error: LotsError| {
        bad_input!(
            "lot-refused",
            path = path.display().to_string(),
            why = Spoken::each(|language| lots_error_words(language, &error))
        )
    };
    let store = data.existing()?;
    let found = lots::in_folder(
        &store,
        folder.path(),
        &in_force(data)?,
        &ZonedDateTime::now(),
    )
    .map_err(|error| refused(&folder.path().join(lots::FOLDER), error))?;
    if found.is_empty() && !as_json {
        output::line(&no_lots_words(language))?;
    }
    let mut unread = None;
    for ListedLot { path, lot } in found {
        match lot {
            Ok(now) if as_json => output::json(&json!({
                "file": path,
                "title": now.lot.title,
                "outcome": now.outcome,
                "steps": now.steps.len(),
            }))?,
            Ok(now) => output::line(&format!(
                "{:12} {}  ({})",
                mark_words(language, now.outcome),
                now.lot.title,
                path.display()
            ))?,
            Err(error) => {
                unread.get_or_insert_with(|| refused(&path, error));
            }
        }
    }
    unread.map_or(Ok(()), Err)
}

fn gap_json(from: Timestamp, to: Timestamp) -> Value {
    json!({ "from": from, "to": to })
}

fn step_json(now: &StepNow) -> Value {
    json!({
        "name": now.step.name,
        "from": now.step.from,
        "to": now.step.to,
        "log": now.step.log.as_ref().map(|log| log.as_str()),
        "limit": now.limit.as_ref().map(|limit| &limit.name),
        "limit_figures": now.limit.as_ref().map(|limit| limit.demand.to_string()),
        "limit_source": now.limit.as_ref().map(|limit| limit.source.to_string()),
        "outcome": now.found.outcome,
        "findings": now.found.findings.iter().map(|finding| json!({
            "outcome": finding.outcome,
            "code": finding.found.code(),
            "measured": finding.to_string(),
        })).collect::<Vec<_>>(),
        "not_read": now.found.unread.iter().map(|gap| gap_json(gap.from, gap.to)).collect::<Vec<_>>(),
        "corrections": now.corrections,
    })
}
