//! `evenhand prep week` and `gone`.

use super::super::heat::in_force;
use super::super::output::Telling;
use super::super::{Data, Failure, output};
use super::{day, moment};
use clap::Args;
use evenhand_kitchen::prep::{Board, Happened, InStock, OfPreparation};
use evenhand_use_cases::prep::{
    Cell, PrepError, PrepQuestion, Supplied, Week, remedy, supply_words, week_page,
};
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::{Value, json};

#[derive(Debug, Args)]
pub(crate) struct WeekArguments {
    /// The first day; today, if not said.
    #[arg(long, value_name = "DATE")]
    from: Option<String>,
    /// How many days.
    #[arg(long, value_name = "N", default_value = "7")]
    days: String,
    /// As if it were this time; now, if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &WeekArguments) -> Result<(), Failure> {
    let from = day("--from", arguments.from.as_deref().unwrap_or("today"))?;
    let days: i32 = match arguments.days.trim().parse() {
        Ok(days) if (1..=14).contains(&days) => days,
        _ => {
            return Err(Failure::Input(format!(
                "--days: {:?} is no number of days; write a whole number from 1 to 14",
                arguments.days
            )));
        }
    };
    let now = moment("--at", arguments.at.as_deref(), from)?;
    let zone = TimeZone::system();
    let question = PrepQuestion {
        day: from,
        menu: None,
        covers: None,
        days_ahead: days - 1,
        what_if: &[],
        now,
        zone: &zone,
        language: Language::English,
        unwanted: None,
    };
    let week = Week::of(&data.store()?, &question, &in_force(data)?)?;
    if arguments.json {
        return output::json(&json!({
            "days": week.days,
            "preparations": week.rows.iter().map(|(name, cells)| json!({
                "preparation": name,
                "days": cells.iter().map(|cell| cell_json(*cell)).collect::<Vec<_>>(),
            })).collect::<Vec<_>>(),
            "supply": week.supplied.iter().map(supplied_json).collect::<Vec<_>>(),
        }));
    }
    let today = now.to_zoned_datetime(zone.clone()).date();
    output::line(week_page(&week, Language::English, today, &zone).trim_end())
}

fn cell_json(cell: Cell) -> Value {
    match cell {
        Cell::Make { batches, known } => {
            json!({ "cell": "make", "batches": batches, "known": known })
        }
        Cell::Stock { portions } => json!({ "cell": "stock", "portions": portions }),
        Cell::Made => json!({ "cell": "made" }),
        Cell::NoneNeeded => json!({ "cell": "none-needed" }),
        Cell::Off => json!({ "cell": "off" }),
    }
}

fn lots_json(lots: &[InStock]) -> Value {
    lots.iter()
        .map(|lot| {
            json!({
                "portions": lot.portions,
                "made_for": lot.of,
                "ready": lot.ready,
                "use_by": lot.use_by,
            })
        })
        .collect()
}

pub(super) fn supplied_json(fed: &Supplied) -> Value {
    let supply = &fed.supply;
    let zone = TimeZone::system();
    json!({
        "preparation": fed.preparation,
        "service": supply.day,
        "needed": supply.needed.ok(),
        "not_known": supply.needed.err(),
        "in_stock": supply.in_stock(),
        "stock": lots_json(&supply.stock),
        "make_batches": supply.make.map_or(0, |(batches, _)| batches),
        "batch_portions": fed.batch.portions,
        "why": supply.make.map(|(_, why)| why),
        "short": supply.short,
        "past_keeping": lots_json(&fed.stock.past),
        "keeping_not_known": lots_json(&fed.stock.no_keeping),
        "at_most": lots_json(&fed.stock.unsure),
        "served_beyond_record": fed.stock.beyond,
        "words": supply_words(Language::English, fed, supply.day, &zone),
        "to_make_it_known": remedy(Language::English, fed),
    })
}

#[derive(Debug, Args)]
pub(crate) struct GoneArguments {
    /// The preparation.
    preparation: String,
    /// The day of the service that the batch was made for.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    /// When; now, if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn gone(data: &Data, arguments: &GoneArguments) -> Result<(), Failure> {
    let on = day("--for", &arguments.day)?;
    let at = moment("--at", arguments.at.as_deref(), on)?;
    let mut store = data.store()?;
    let menu = store.menu(on)?.ok_or(PrepError::NoMenu(on))?;
    let wrong = |error| PrepError::Menu { day: on, error };
    let mut board = Board::from_menu(&menu, on, TimeZone::system()).map_err(wrong)?;
    let wanted = arguments.preparation.trim();
    let known: Vec<String> = board.batches().map(|(name, _)| name.to_owned()).collect();
    let name = known
        .iter()
        .find(|name| name.eq_ignore_ascii_case(wanted))
        .ok_or_else(|| {
            Failure::Input(format!(
                "PREPARATION: {wanted:?} is not made in batches by the menu for {on}; these are: {}",
                if known.is_empty() { "none".to_owned() } else { known.join(", ") }
            ))
        })?;
    let step = board
        .steps()
        .filter(|(_, step)| step.preparation == *name)
        .map(|(_, step)| step.full_name())
        .last()
        .unwrap_or_default();
    let mut events = board.sightings(
        &store.seen_runs(Timestamp::MIN)?,
        &store.seen_batches(Timestamp::MIN)?,
    );
    events.extend(store.told_steps(on)?);
    board.replay(&events);
    if !matches!(board.of_preparation(name), OfPreparation::Finished { ready, .. } if ready <= at) {
        return Err(Failure::Input(format!(
            "PREPARATION: no batch of {name:?} for {on} was finished by then; tick its steps first"
        )));
    }
    store.tell_step(on, &step, at, Happened::Gone, Timestamp::now())?;
    arguments.telling.tell(
        &format!("What was left of the batch of {name} for {on} is gone."),
        &json!({ "preparation": name, "for": on, "gone_at": at }),
    )
}
