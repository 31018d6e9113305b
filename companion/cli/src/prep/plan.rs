//! `evenhand prep plan` and `list`.

use super::super::heat::{in_force, text_of};
use super::super::written::{PdfArguments, to_file};
use super::super::{Data, Failure, output};
use super::week::supplied_json;
use super::{day, is_time_alone, moment, moment_to, refused, whole};
use crate::words::bad_input;
use clap::Args;
use evenhand_kitchen::moment::{DayEdge, show_date_and_time};
use evenhand_kitchen::prep::{Board, FileError, PlannedStep, Progress, Step, StepRef};
use evenhand_use_cases::prep::{
    DAYS_AHEAD, PrepError, PrepNow, PrepQuestion, day_list, delivery_risks, file_error_words,
    hand_list, lists_pdf, mend, note_words, plan_words, what_if_words,
};
use evenhand_words::Language;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};
use std::io::Write;
use std::path::PathBuf;

/// Which board.
#[derive(Debug, Args)]
struct BoardArguments {
    /// The day of service: 2026-05-08.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    /// A menu in a file: what is prepared, in which steps; else the one on record.
    #[arg(long, value_name = "FILE.toml")]
    menu: Option<PathBuf>,
    /// As if it were this time: 11:50 on the day of service, "today 20:30", 2026-05-05T11:50Z. Now,
    /// if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    /// Guests expected at it, in place of what `evenhand prep covers` put down.
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    covers: Option<String>,
    /// How many days after it other services are looked at; none with a menu in a file, else 4.
    #[arg(long, value_name = "N")]
    days_ahead: Option<String>,
    /// A step that is done: "necks: into the brine"; may be given more than once.
    #[arg(long, value_name = "STEP")]
    done: Vec<String>,
    /// What if something is later: "fish +1h", "fish: wash and beard +45 min".
    #[arg(long, value_name = "WHAT +TIME")]
    what_if: Vec<String>,
    /// What if a step could begin so much later: "fish: wash and beard=1 h".
    #[arg(long, value_name = "STEP=TIME")]
    later: Vec<String>,
}

#[derive(Debug, Args)]
pub(crate) struct PlanArguments {
    #[command(flatten)]
    board: BoardArguments,
    /// Steps begun until then: a day, to its end, or a time. To the end of the day of service, if
    /// not said.
    #[arg(long, value_name = "DATE or TIME", conflicts_with = "json")]
    until: Option<String>,
    /// One JSON object, with every step.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct ListArguments {
    #[command(flatten)]
    board: BoardArguments,
    /// Only what this pair of hands does, by the name in the menu.
    #[arg(long, value_name = "NAME", conflicts_with = "json")]
    who: Option<String>,
    /// Write it to this file.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Write it to this file, as PDF to print: everybody's list, then a page for each pair of hands.
    #[arg(long, value_name = "FILE", conflicts_with = "out")]
    pdf: Option<PathBuf>,
    /// Write over a file that is there.
    #[arg(long)]
    force: bool,
    /// One JSON object, as of plan.
    #[arg(long, conflicts_with_all = ["out", "pdf"])]
    json: bool,
}

impl BoardArguments {
    fn prep(&self, data: &Data, language: Language) -> Result<(PrepNow, Timestamp), Failure> {
        let on = day("--for", &self.day)?;
        let now = moment("--at", self.at.as_deref(), on)?;
        let zone = TimeZone::system();
        let text = self
            .menu
            .as_ref()
            .map(|path| text_of("--menu", path))
            .transpose()?;
        let days_ahead = match &self.days_ahead {
            None if text.is_some() => 0,
            None => DAYS_AHEAD,
            Some(text) => match text.trim().parse() {
                Ok(days) if (0..=14).contains(&days) => days,
                _ => {
                    return Err(bad_input!("prep-no-days-ahead", text = format!("{text:?}")));
                }
            },
        };
        let question = PrepQuestion {
            day: on,
            menu: text.as_deref(),
            covers: self
                .covers
                .as_deref()
                .map(|text| whole("--covers", text, "guests"))
                .transpose()?,
            days_ahead,
            what_if: &self.what_if,
            now,
            zone: &zone,
            language,
            unwanted: None,
        };
        // A menu in a file can be planned before anything is on record.
        let asked = match text {
            Some(_) => data.existing_or_empty()?,
            None => data.existing()?.into(),
        };
        let mut prep =
            PrepNow::of(&asked.store, &question, &in_force(data)?).map_err(
                |error| match error {
                    PrepError::Menu { error, .. } if text.is_some() => menu_failure(&error),
                    PrepError::WhatIf(error) => {
                        refused("--what-if", |language| what_if_words(language, &error))
                    }
                    other => other.into(),
                },
            )?;
        self.refuse_after_opening(on, now, prep.board.service, &zone)?;
        for name in &self.done {
            let step = find(&prep.board, "--done", name)?;
            prep.board
                .set_progress(step, Progress::Done(now))
                .map_err(|error| Failure::Input(format!("--done: {error}")))?;
        }
        for what_if in &self.later {
            self::later(&mut prep.board, what_if, now)?;
        }
        if !self.done.is_empty() || !self.later.is_empty() {
            prep.lay_out(now);
        }
        Ok((prep, now))
    }
}

impl BoardArguments {
    /// A time of day alone that is after a service to come has opened: it may be meant of today.
    fn refuse_after_opening(
        &self,
        on: Date,
        at: Timestamp,
        opens: Timestamp,
        zone: &TimeZone,
    ) -> Result<(), Failure> {
        let text = self.at.as_deref().unwrap_or_default();
        let to_come = on > Timestamp::now().to_zoned_datetime(zone.clone()).date();
        if text.is_empty() || !is_time_alone(text) || !to_come || at < opens {
            return Ok(());
        }
        Err(bad_input!(
            "prep-at-after-opening",
            text = text.to_owned(),
            day = on.to_string(),
            opens = show_date_and_time(opens, zone),
        ))
    }
}

fn menu_failure(error: &FileError) -> Failure {
    refused("--menu", |language| file_error_words(language, error))
}

fn later(board: &mut Board, what_if: &str, now: Timestamp) -> Result<(), Failure> {
    let (name, by) = what_if
        .rsplit_once('=')
        .ok_or_else(|| bad_input!("prep-later-no-time", text = format!("{what_if:?}")))?;
    let step = find(board, "--later", name)?;
    let by: SignedDuration = by
        .trim()
        .parse()
        .map_err(|_| bad_input!("prep-later-no-length", text = format!("{by:?}")))?;
    let from = board
        .step(step)
        .ok()
        .and_then(|s| s.not_before)
        .map_or(now, |t| t.max(now));
    let moved = from
        .checked_add(by)
        .map_err(|_| bad_input!("prep-later-beyond", by = format!("{by:#}")))?;
    board
        .set_not_before(step, Some(moved))
        .map_err(|error| Failure::Input(format!("--later: {error}")))
}

/// The step of a name.
pub(super) fn find(board: &Board, flag: &str, name: &str) -> Result<StepRef, Failure> {
    board.named(name).ok_or_else(|| {
        let known: Vec<_> = board.steps().map(|(_, step)| step.full_name()).collect();
        bad_input!(
            "prep-no-step",
            flag = flag,
            name = format!("{name:?}"),
            known = known.join(", ")
        )
    })
}

pub(super) fn run(
    data: &Data,
    arguments: &PlanArguments,
    language: Language,
) -> Result<(), Failure> {
    let (prep, now) = arguments.board.prep(data, language)?;
    let zone = TimeZone::system();
    if arguments.json {
        return output::json(&plan_json(&prep, now, &zone));
    }
    let until = match &arguments.until {
        None => prep.end_of_day(&zone),
        Some(text) => {
            let until = moment_to("--until", Some(text), prep.day, DayEdge::End)?;
            if until < now {
                return Err(bad_input!(
                    "prep-until-past",
                    text = format!("{text:?}"),
                    now = show_date_and_time(now, &zone)
                ));
            }
            until
        }
    };
    plan_words(language, &prep, until, now, &zone)
        .iter()
        .try_for_each(|words| output::line(words))
}

pub(super) fn list(
    data: &Data,
    arguments: &ListArguments,
    language: Language,
) -> Result<(), Failure> {
    if arguments.force && arguments.out.is_none() && arguments.pdf.is_none() {
        return Err(bad_input!("prep-force-of-none"));
    }
    let (prep, now) = arguments.board.prep(data, language)?;
    if arguments.json {
        return output::json(&plan_json(&prep, now, &TimeZone::system()));
    }
    let zone = TimeZone::system();
    let text = match &arguments.who {
        None => day_list(&prep, language, prep.day, now, &zone),
        Some(name) => hand_list(&prep, name, language, now, prep.day, &zone)
            .map_err(|error| Failure::Input(format!("--who: {error}")))?,
    };
    let print = PdfArguments {
        pdf: arguments.pdf.clone(),
        force: arguments.force,
    };
    print.write(data, "The day's lists", || {
        lists_pdf(language, &prep, arguments.who.as_deref(), now, &zone)
    })?;
    match &arguments.out {
        None => output::line(text.trim_end()),
        Some(path) => to_file(data, "--out", path, arguments.force, |file| {
            file.write_all(text.as_bytes())
        }),
    }
}

fn step_json(prep: &PrepNow, planned: &PlannedStep, zone: &TimeZone) -> Option<Value> {
    let step = prep.board.step(planned.step).ok()?;
    Some(json!({
        "preparation": step.preparation,
        "step": step.name,
        "service": prep.board.service_of(planned.step).ok(),
        "needs": step
            .needs
            .iter()
            .map(|need| json!({ "resource": need.resource, "places": need.places }))
            .collect::<Vec<_>>(),
        "who": prep.who.get(&planned.step).map(|done| &done.hands),
        "delivery": prep.deliveries.get(&planned.step).map(|delivery| json!({
            "by_menu": delivery.by_menu,
            "ticked": delivery.ticked,
            "comes_from": delivery.comes.map(|(from, _)| from),
            "comes_to": delivery.comes.map(|(_, to)| to),
            "counted_on": delivery.counted_on,
            "needed_by": delivery.needed_by,
            "may_be_too_late": delivery.may_be_too_late(),
        })),
        "did": prep.did.get(&planned.step).map(|who| who.as_str()),
        "who_missing": prep.who.get(&planned.step).map_or(0, |done| done.missing),
        "standing": planned.standing,
        "start_by": planned.start_by,
        "done_by": planned.done_by,
        "latest_start": planned.latest,
        "earliest_start": planned.earliest,
        "slack_minutes": planned.slack.as_secs() / 60,
        "decides": planned.decides.is_some(),
        "latest_start_is_proven": planned.latest_is_proven,
        "no_time_for_it": planned.no_time,
        "rest_too_long_minutes": planned.over_rest.map(|d| d.as_secs() / 60),
        "note": prep
            .notes
            .get(&planned.step)
            .map(|note| note_words(Language::English, note, zone)),
    }))
}

fn plan_json(prep: &PrepNow, now: Timestamp, zone: &TimeZone) -> Value {
    let steps: Vec<_> = prep
        .plan
        .steps
        .iter()
        .filter_map(|planned| step_json(prep, planned, zone))
        .collect();
    let chain: Vec<_> = prep
        .plan
        .chain
        .iter()
        .filter_map(|step| prep.board.step(*step).ok().map(Step::full_name))
        .collect();
    json!({
        "service": prep.board.service,
        "late_minutes": prep.plan.late_by.map_or(0, |late| late.as_secs() / 60),
        "late_minutes_at_least": prep
            .plan
            .late_by
            .map_or(0, |late| (late - prep.plan.gap).as_secs() / 60),
        "possible": prep.plan.is_possible(),
        "dishes": prep.plan.dishes.iter().map(|dish| json!({
            "preparation": dish.preparation,
            "due": dish.due,
            "ready": dish.ready,
            "late_minutes": dish.late_by.map_or(0, |late| late.as_secs() / 60),
        })).collect::<Vec<_>>(),
        "short_of": prep.trouble.as_ref().map(|trouble| {
            trouble.short_of.iter().map(|s| s.resource.clone()).collect::<Vec<_>>()
        }),
        "mends": prep.trouble.as_ref().map(|trouble| {
            trouble
                .mends
                .iter()
                .map(|known| mend(Language::English, known, prep, now, zone))
                .collect::<Vec<_>>()
        }),
        "deciding_chain": chain,
        "steps": steps,
        "at_opening": prep.at_opening().iter().map(|open| json!({
            "step": prep.board.step(open.step).ok().map(Step::full_name),
            "until": open.until,
            "begun_by_then": !open.later,
        })).collect::<Vec<_>>(),
        "supply": prep.supplied.iter().map(supplied_json).collect::<Vec<_>>(),
        "risks": delivery_risks(Language::English, prep, now, zone),
        "moved_by_what_if": prep.moved,
        "told_of_unknown_steps": prep.unknown,
    })
}
