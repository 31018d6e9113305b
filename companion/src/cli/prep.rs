//! `evenhand prep`.

use super::heat::text_of;
use super::{Failure, output};
use clap::{Args, Subcommand};
use evenhand_kitchen::prep::{Board, Plan, PlannedStep, Progress, Standing, Step};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};
use std::path::PathBuf;

#[derive(Debug, Subcommand)]
pub(super) enum PrepCommand {
    /// A menu worked backward from service.
    Plan(PlanArguments),
}

#[derive(Debug, Args)]
pub(super) struct PlanArguments {
    /// The day of service: 2026-05-08.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    /// The menu: what is prepared, in which steps.
    #[arg(long, value_name = "FILE.toml")]
    menu: PathBuf,
    /// As if it were this time: 2026-05-05T11:50Z. Now, if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    /// A step that is done: "ribs: into the brine"; may be given more than once.
    #[arg(long, value_name = "STEP")]
    done: Vec<String>,
    /// What if a step could begin so much later: "fish: trim and cut=1 h".
    #[arg(long, value_name = "STEP=TIME")]
    later: Vec<String>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(command: PrepCommand) -> Result<(), Failure> {
    match command {
        PrepCommand::Plan(arguments) => plan(&arguments),
    }
}

fn plan(arguments: &PlanArguments) -> Result<(), Failure> {
    let day: Date = arguments.day.trim().parse().map_err(|_| {
        Failure::Input(format!(
            "--for: {:?} is no day; write one such as 2026-05-08",
            arguments.day
        ))
    })?;
    let now = match &arguments.at {
        None => Timestamp::now(),
        Some(text) => text.trim().parse().map_err(|_| {
            Failure::Input(format!(
                "--at: {text:?} is no time with its offset; write one such as 2026-05-05T11:50:00Z"
            ))
        })?,
    };
    let zone = TimeZone::system();
    let text = text_of("--menu", &arguments.menu)?;
    let mut board = Board::from_menu(&text, day, zone.clone())
        .map_err(|error| Failure::Input(format!("--menu: {error}")))?;
    for name in &arguments.done {
        let step = find(&board, "--done", name)?;
        board
            .set_progress(step, Progress::Done(now))
            .map_err(|error| Failure::Input(format!("--done: {error}")))?;
    }
    for what_if in &arguments.later {
        let (name, by) = what_if.rsplit_once('=').ok_or_else(|| {
            Failure::Input(format!(
                "--later: {what_if:?} names no time; write one such as 'fish: trim and cut=1 h'"
            ))
        })?;
        let step = find(&board, "--later", name)?;
        let by: SignedDuration = by.trim().parse().map_err(|_| {
            Failure::Input(format!(
                "--later: {by:?} is no length of time; write one such as 1 h or 45 min"
            ))
        })?;
        let from = board
            .step(step)
            .ok()
            .and_then(|s| s.not_before)
            .map_or(now, |t| t.max(now));
        let moved = from
            .checked_add(by)
            .map_err(|_| Failure::Input(format!("--later: {by:#} leaves the calendar")))?;
        board
            .set_not_before(step, Some(moved))
            .map_err(|error| Failure::Input(format!("--later: {error}")))?;
    }
    let plan = board.plan(now);
    if arguments.json {
        return output::json(&plan_json(&board, &plan));
    }
    print(&board, &plan, now, &zone)
}

fn find(board: &Board, flag: &str, name: &str) -> Result<evenhand_kitchen::prep::StepRef, Failure> {
    name.split_once(": ")
        .and_then(|(preparation, step)| board.find(preparation.trim(), step.trim()))
        .ok_or_else(|| {
            let known: Vec<_> = board.steps().map(|(_, step)| full_name(step)).collect();
            Failure::Input(format!(
                "{flag}: there is no step {name:?}; there are {}",
                known.join(", ")
            ))
        })
}

fn full_name(step: &Step) -> String {
    format!("{}: {}", step.preparation, step.name)
}

fn step_json(board: &Board, planned: &PlannedStep) -> Option<Value> {
    let step = board.step(planned.step).ok()?;
    Some(json!({
        "preparation": step.preparation,
        "step": step.name,
        "needs": step.needs,
        "standing": planned.standing,
        "start_by": planned.start_by,
        "done_by": planned.done_by,
        "latest_start": planned.latest,
        "earliest_start": planned.earliest,
        "slack_minutes": planned.slack.as_secs() / 60,
        "decides": planned.decides,
        "rest_too_long_minutes": planned.over_rest.map(|d| d.as_secs() / 60),
    }))
}

fn plan_json(board: &Board, plan: &Plan) -> Value {
    let steps: Vec<_> = plan
        .steps
        .iter()
        .filter_map(|planned| step_json(board, planned))
        .collect();
    let chain: Vec<_> = plan
        .chain
        .iter()
        .filter_map(|step| board.step(*step).ok().map(full_name))
        .collect();
    json!({
        "service": board.service,
        "late_minutes": plan.late_by.map_or(0, |late| late.as_secs() / 60),
        "deciding_chain": chain,
        "steps": steps,
    })
}

const fn words(standing: Standing) -> &'static str {
    match standing {
        Standing::Late => "LATE",
        Standing::Now => "NOW",
        Standing::UnderWay => "under way",
        Standing::Next => "next",
        Standing::Later => "later",
        Standing::Done => "done",
    }
}

fn length(d: SignedDuration) -> String {
    let minutes = d.as_secs().abs() / 60;
    let sign = if d.is_negative() { "-" } else { "" };
    match (minutes / 1440, minutes / 60 % 24, minutes % 60) {
        (0, 0, m) => format!("{sign}{m} min"),
        (0, h, m) => format!("{sign}{h} h {m:02}"),
        (days, h, _) => format!("{sign}{days} d {h} h"),
    }
}

fn print(board: &Board, plan: &Plan, now: Timestamp, zone: &TimeZone) -> Result<(), Failure> {
    let at = |moment: Timestamp| {
        moment
            .to_zoned_datetime(zone.clone())
            .strftime("%a %H:%M")
            .to_string()
    };
    output::line(&format!(
        "Service opens {}, in {}.",
        at(board.service),
        length(board.service.duration_since(now))
    ))?;
    if let Some(late) = plan.late_by {
        output::line(&format!(
            "LATE: as it stands service opens {} late.",
            length(late)
        ))?;
    }
    output::line("            start by    latest      to spare  what")?;
    for planned in plan.steps.iter().filter(|p| p.standing != Standing::Done) {
        let Ok(step) = board.step(planned.step) else {
            continue;
        };
        let start = planned.start_by.map_or_else(|| "no place".to_owned(), at);
        let decides = if planned.decides { " *" } else { "" };
        output::line(&format!(
            "{:10}  {start:10}  {:10}  {:>8}  {}{decides}",
            words(planned.standing),
            at(planned.latest),
            length(planned.slack),
            full_name(step),
        ))?;
        if let Some(over) = planned.over_rest {
            output::line(&format!(
                "{:48}rests {} longer than its most",
                "",
                length(over)
            ))?;
        }
    }
    output::line("* the chain that decides the day")
}
