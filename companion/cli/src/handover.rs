//! `evenhand service out` and `handover`.

use super::heat::in_force;
use super::output::Telling;
use super::service::DayArguments;
use super::words::say;
use super::written::PdfArguments;
use super::{Data, Failure, fields::at_flag, output};
use clap::Args;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::service::ServiceCalendar;
use evenhand_store::Store;
use evenhand_use_cases::handover::{
    DishCount, Handover, HandoverError, count_out, handover_words, pdf, ready_at_opening,
};
use evenhand_use_cases::prep::standing_word;
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::civil::Date;
use serde_json::{Value, json};

#[derive(Debug, Args)]
pub(super) struct OutArguments {
    /// The dish.
    dish: String,
    /// How many portions went out; below nothing takes some back.
    #[arg(default_value = "1", allow_hyphen_values = true)]
    portions: i32,
    #[command(flatten)]
    day: DayArguments,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(super) struct ReadyArguments {
    /// The dish.
    dish: String,
    /// How many portions the service before left that can go out; 0 for none.
    #[arg(allow_hyphen_values = true)]
    portions: u32,
    #[command(flatten)]
    day: DayArguments,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(super) struct HandoverArguments {
    #[command(flatten)]
    day: DayArguments,
    #[command(flatten)]
    print: PdfArguments,
    /// As one JSON object.
    #[arg(long)]
    json: bool,
}

fn failed(error: HandoverError) -> Failure {
    match error {
        HandoverError::Store(error) => error.into(),
        HandoverError::Prep(error) => error.into(),
        HandoverError::Input(error) => at_flag(&error, &[("portions", "PORTIONS")]),
    }
}

fn gather(
    data: &Data,
    store: &Store,
    calendar: &ServiceCalendar,
    day: Option<Date>,
    language: Language,
) -> Result<Handover, Failure> {
    let now = Timestamp::now();
    let day = day.unwrap_or_else(|| calendar.day_of(now));
    Handover::gather(store, &in_force(data)?, calendar, day, now, language).map_err(failed)
}

pub(super) fn out(
    data: &Data,
    store: &mut Store,
    calendar: &ServiceCalendar,
    arguments: &OutArguments,
) -> Result<(), Failure> {
    let OutArguments {
        dish,
        portions,
        day,
        telling,
    } = arguments;
    counted(
        data,
        store,
        calendar,
        (dish, day, *telling),
        |store, day, dish, now| count_out(store, day, dish, *portions, now),
    )
}

/// Puts down a count of a dish, and tells how it stands then.
fn counted(
    data: &Data,
    store: &mut Store,
    calendar: &ServiceCalendar,
    (dish, day, telling): (&str, &DayArguments, Telling),
    count: impl FnOnce(&mut Store, Date, &DishName, Timestamp) -> Result<(), HandoverError>,
) -> Result<(), Failure> {
    let now = Timestamp::now();
    let dish = DishName::new("DISH", dish)?;
    let day = day.said(calendar)?.unwrap_or_else(|| calendar.day_of(now));
    count(store, day, &dish, now).map_err(failed)?;
    let handover = gather(data, store, calendar, Some(day), data.language)?;
    tell_count(data.language, &handover, &dish, telling)
}

fn tell_count(
    language: Language,
    handover: &Handover,
    dish: &DishName,
    telling: Telling,
) -> Result<(), Failure> {
    let words = |ready: i64, out: i64| {
        say!(
            language,
            "service-count",
            dish = dish.as_str(),
            ready = ready,
            out = out
        )
    };
    let Some(count) = handover.dishes.iter().find(|count| count.dish == *dish) else {
        return telling.tell(
            &words(0, 0),
            &json!({"dish": dish.as_str(), "ready": 0, "out": 0}),
        );
    };
    telling.tell(&words(count.ready(), count.out), &dish_fields(count))
}

pub(super) fn ready(
    data: &Data,
    store: &mut Store,
    calendar: &ServiceCalendar,
    arguments: &ReadyArguments,
) -> Result<(), Failure> {
    let ReadyArguments {
        dish,
        portions,
        day,
        telling,
    } = arguments;
    counted(
        data,
        store,
        calendar,
        (dish, day, *telling),
        |store, day, dish, now| ready_at_opening(store, day, dish, *portions, now),
    )
}

pub(super) fn handover(
    data: &Data,
    store: &Store,
    calendar: &ServiceCalendar,
    arguments: &HandoverArguments,
    language: Language,
) -> Result<(), Failure> {
    let handover = gather(
        data,
        store,
        calendar,
        arguments.day.said(calendar)?,
        language,
    )?;
    arguments
        .print
        .write(data, &say!(language, "service-handover"), || {
            pdf(language, &handover, calendar)
        })?;
    if arguments.json {
        return output::json(&fields(&handover));
    }
    output::sheet(&handover_words(language, &handover, calendar))
}

fn dish_fields(count: &DishCount) -> Value {
    json!({
        "dish": count.dish.as_str(),
        "left_before": count.left_before,
        "weighed": count.weighed,
        "short": count.short,
        "heavy": count.heavy,
        "out": count.out,
        "ready": count.ready(),
        "wanted": count.wanted,
        "to_weigh": count.to_weigh(),
    })
}

fn fields(handover: &Handover) -> Value {
    json!({
        "day": handover.day,
        "at": handover.at,
        "dishes": handover.dishes.iter().map(dish_fields).collect::<Vec<_>>(),
        "at_work": handover.at_work.iter().map(|at_work| json!({
            "cook": at_work.cook.as_ref().map(|cook| cook.initials()),
            "dish": at_work.dish.as_str(),
            "at": at_work.at,
        })).collect::<Vec<_>>(),
        "steps": handover.steps.iter().map(|step| json!({
            "step": step.name,
            "standing": standing_word(Language::English, step.standing),
            "begin": step.begin,
            "needs": step.needs,
        })).collect::<Vec<_>>(),
        "struck": handover.struck,
        "due": handover.due.iter().map(|(id, title, due)| json!({
            "batch": id.0,
            "title": title,
            "task": due.task,
            "at": due.at,
        })).collect::<Vec<_>>(),
        "notes": handover.notes.iter().map(|(title, note)| json!({
            "title": title,
            "note": note,
        })).collect::<Vec<_>>(),
    })
}
