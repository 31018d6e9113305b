//! `evenhand prep menu`, `tick` and `delay`.

use super::super::heat::text_of;
use super::super::import::read_as_words;
use super::super::output::Telling;
use super::super::{Data, Failure, output};
use super::plan::find;
use super::{day, moment, past_moment, refused};
use crate::words::say;
use clap::Args;
use evenhand_kitchen::moment::show_date_and_time;
use evenhand_kitchen::prep::{Board, Hand, HandName, Happened, WrittenMenu};
use evenhand_use_cases::input::input_error_words;
use evenhand_use_cases::prep::moment as time_words;
use evenhand_use_cases::prep::{MenuToKeep, PrepError, file_error_words, menu_text};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use serde_json::json;
use std::path::PathBuf;

/// A menu file:
///
/// opens and closes, from and until, days; [[resource]]s with name, places, from, to, closed and
/// serves; [[preparation]]s with name, due, preferred, fallback, buy_in and [[preparation.step]]s
/// with name, takes or rests, needs, after, not_before, in_service, portions_of, batch and when.
///
/// A resource whose hands are named has who = [{ name = "Ana", skills = ["pastry"] }]; a step with
/// skill = "pastry" is only for who has it, others are for everybody.
///
/// A preparation that is made in batches which may feed several services has
/// [preparation.batch] with portions (how many a batch makes), keeps ("4 days") and source
/// (where that comes from, or "the kitchen's own"), and how many a service needs: needs = 8,
/// per_cover = 0.4, or nothing, then by the record of its dish. dish is the dish it becomes,
/// where that is called otherwise; date_marked = false where date marking does not apply
/// (it is not cold and ready to eat); allergens = ["celery"] for its labels.
#[derive(Debug, Args)]
pub(crate) struct MenuArguments {
    /// Only for this day; else for every day without one of its own.
    #[arg(long = "for", value_name = "DATE")]
    day: Option<String>,
    /// Keep the menu in this file; MENU.md, beside the README, says how one is written.
    /// A name that ends in .csv is a table, as --csv writes it.
    #[arg(long, value_name = "FILE")]
    keep: Option<PathBuf>,
    /// Show it as a table, comma-separated; --keep FILE.csv reads it back.
    #[arg(long, conflicts_with_all = ["keep", "json"])]
    csv: bool,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn menu(data: &Data, arguments: &MenuArguments) -> Result<(), Failure> {
    let on = arguments
        .day
        .as_deref()
        .map(|text| day("--for", text))
        .transpose()?;
    let now = Timestamp::now();
    let zone = TimeZone::system();
    let today = now.to_zoned_datetime(zone.clone()).date();
    let Some(path) = &arguments.keep else {
        let on = on.unwrap_or(today);
        let menu = data.existing()?.menu(on)?.ok_or(PrepError::NoMenu(on))?;
        if arguments.csv {
            let table = WrittenMenu::from_toml(&menu)
                .map_err(|error| PrepError::Menu { day: on, error })?
                .to_csv()?;
            return output::line(table.trim_end());
        }
        return arguments
            .telling
            .tell(menu.trim_end(), &json!({ "for": on, "menu_toml": menu }));
    };
    let keep = format!("--keep: {}", path.display());
    let (text, read_as) = menu_text(path, text_of("--keep", path)?)
        .map_err(|error| refused(&keep, |language| input_error_words(language, &error)))?;
    let read_as = read_as.map_or_else(String::new, |read_as| {
        format!("\n{}", read_as_words(data.language, read_as, "number"))
    });
    let checked = MenuToKeep::new(on, text, today, &zone)
        .map_err(|error| refused(&keep, |language| file_error_words(language, &error)))?;
    let kept = checked.keep(&mut data.store()?, now, &zone)?;
    let steps = kept.steps;
    arguments.telling.tell(
        &format!(
            "{}{read_as}",
            say!(
                data.language,
                "prep-menu-kept",
                kept_for = on.map_or("every", |_| "day"),
                day = on.map_or_else(String::new, |day| day.to_string()),
                steps = steps.to_string()
            )
        ),
        &json!({ "for": on, "steps": steps }),
    )
}

#[derive(Debug, Args)]
pub(crate) struct TickArguments {
    /// The step: "necks: into the brine".
    step: String,
    /// The day of its service.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    /// It is begun, not done.
    #[arg(long, conflicts_with = "undo")]
    begun: bool,
    /// It is neither, after all.
    #[arg(long)]
    undo: bool,
    /// Who did it: a name or a mark. It stands beside the step and is counted for nobody.
    #[arg(long, value_name = "NAME", conflicts_with = "undo")]
    by: Option<String>,
    /// When: 15:30 today, "yesterday 22:10", 2026-05-07T16:30; now, if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn tick(data: &Data, arguments: &TickArguments) -> Result<(), Failure> {
    let what = if arguments.undo {
        Happened::Undone
    } else if arguments.begun {
        Happened::Begun
    } else {
        Happened::Done
    };
    let on = day("--for", &arguments.day)?;
    // What is told at a time of day was so today, or on the day of a service that is past.
    let today = ZonedDateTime::now().date();
    let at = past_moment("--at", arguments.at.as_deref(), on.min(today))?;
    let who = arguments
        .by
        .as_deref()
        .map(|name| HandName::new("--by", name))
        .transpose()?;
    let (step, who) = tell(data, on, &arguments.step, at, (what, who), ("--at", at))?;
    let (what, standing) = match what {
        Happened::Begun => ("begun", "begun"),
        Happened::Done => ("done", "done"),
        _ => ("undone", "open"),
    };
    let language = data.language;
    arguments.telling.tell(
        &match &who {
            Some(who) => say!(
                language,
                "prep-ticked-by",
                what = what,
                step = step.as_str(),
                who = who.as_str()
            ),
            None => say!(language, "prep-ticked", what = what, step = step.as_str()),
        },
        &json!({ "step": step, "for": on, "standing": standing, "at": at, "by": who }),
    )
}

#[derive(Debug, Args)]
pub(crate) struct DelayArguments {
    /// The step: "fish: delivery".
    step: String,
    /// The day of its service.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    /// The earliest that it can begin: 16:30 on the service's day, or 2026-05-07T16:30.
    #[arg(long, value_name = "TIME")]
    until: String,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn delay(data: &Data, arguments: &DelayArguments) -> Result<(), Failure> {
    let on = day("--for", &arguments.day)?;
    let until = moment("--until", Some(&arguments.until), on)?;
    let what = Happened::Delayed { until };
    let (step, _) = tell(
        data,
        on,
        &arguments.step,
        Timestamp::now(),
        (what, None),
        ("--until", until),
    )?;
    arguments.telling.tell(
        &say!(
            data.language,
            "prep-not-before",
            step = step.as_str(),
            time = time_words(data.language, until, Timestamp::now(), &TimeZone::system())
        ),
        &json!({ "step": step, "for": on, "not_before": until }),
    )
}

/// Tells something of a step that is on the menu of the day; returns its full
/// name, and that of who did it, as the menu writes them.
fn tell(
    data: &Data,
    on: Date,
    step: &str,
    at: Timestamp,
    (what, who): (Happened, Option<HandName>),
    (flag, moment): (&str, Timestamp),
) -> Result<(String, Option<HandName>), Failure> {
    let mut store = data.existing()?;
    let menu = store.menu(on)?.ok_or(PrepError::NoMenu(on))?;
    let mut board = Board::from_menu(&menu, on, TimeZone::system())
        .map_err(|error| PrepError::Menu { day: on, error })?;
    board.add_batch_named(step);
    let found = find(&board, "STEP", step)?;
    let name = board
        .step(found)
        .map_err(|error| Failure::Input(format!("STEP: {error}")))?
        .full_name();
    board.can_be_told(moment).map_err(|error| {
        let zone = TimeZone::system();
        Failure::Input(format!(
            "{flag}: {} is {error}, which opens {}",
            show_date_and_time(moment, &zone),
            show_date_and_time(board.service, &zone)
        ))
    })?;
    let now = Timestamp::now();
    let Some(who) = who else {
        store.tell_step(on, &name, at, what, now)?;
        return Ok((name, None));
    };
    // One of the menu's hands is told in the menu's spelling.
    let same = |hand: &&Hand| hand.name.to_lowercase() == who.as_str().to_lowercase();
    let who = match board.hands().find(same) {
        Some(hand) => HandName::new("--by", &hand.name)?,
        None => who,
    };
    store.tell_step_of(on, &name, at, (what, who.clone()), now)?;
    Ok((name, Some(who)))
}
