//! `evenhand prep week`.

use super::super::heat::in_force;
use super::super::{Data, Failure, output};
use super::{day, moment};
use crate::words::bad_input;
use clap::Args;
use evenhand_kitchen::prep::InStock;
use evenhand_use_cases::prep::{
    Cell, PrepQuestion, Supplied, Week, remedy, supply_words, week_page,
};
use evenhand_words::Language;
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

pub(super) fn run(
    data: &Data,
    arguments: &WeekArguments,
    language: Language,
) -> Result<(), Failure> {
    let from = day("--from", arguments.from.as_deref().unwrap_or("today"))?;
    let days: i32 = match arguments.days.trim().parse() {
        Ok(days) if (1..=14).contains(&days) => days,
        _ => {
            return Err(bad_input!(
                "prep-no-days",
                text = format!("{:?}", arguments.days)
            ));
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
        language,
        unwanted: None,
    };
    let week = Week::of(&data.existing()?, &question, &in_force(data)?)?;
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
    output::line(week_page(&week, language, today, &zone).trim_end())
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
        "batches_to_begin": supply.to_begin(),
        "batches_finished": supply.own.finished,
        "batch_portions": fed.batch.portions,
        "batch_portions_over_batches": fed.batches_on_record,
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
