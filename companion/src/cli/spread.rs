//! `evenhand spread`.

use super::amounts::UnitArguments;
use super::period::PeriodArguments;
use super::spread_table::{SpreadJson, lines};
use super::{Data, Failure, output};
use crate::store::Query;
use clap::Args;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::spread::Spread;
use jiff::ZonedDateTime;
use std::collections::BTreeMap;

#[derive(Debug, Args)]
pub(super) struct SpreadArguments {
    /// Only this dish; otherwise each dish by itself.
    #[arg(long, value_name = "NAME")]
    dish: Option<String>,
    #[command(flatten)]
    period: PeriodArguments,
    #[command(flatten)]
    unit: UnitArguments,
    /// One JSON object a line for each dish, weights in grams.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &SpreadArguments) -> Result<(), Failure> {
    let unit = arguments.unit.unit()?;
    let (from, to) = arguments.period.period(&ZonedDateTime::now())?;
    let asked = arguments
        .dish
        .as_ref()
        .map(|name| DishName::new("--dish", name))
        .transpose()?;
    let store = data.store()?;
    let query = Query {
        dish: asked.clone(),
        from,
        to,
        run: None,
    };
    let portions = store.portions(&query)?;
    let mut dishes: BTreeMap<Option<DishName>, Vec<RecordedPortion>> = BTreeMap::new();
    if let Some(name) = asked {
        // Told as it was first written, also when nothing was made of it.
        dishes.insert(Some(store.known_dish(&name)?.name), Vec::new());
    }
    for portion in portions {
        dishes
            .entry(portion.dish.clone())
            .or_default()
            .push(portion);
    }
    let spreads = dishes
        .iter()
        .map(|(dish, portions)| (dish.as_ref(), Spread::of(portions)));
    if arguments.json {
        for (dish, spread) in spreads {
            output::json(&SpreadJson::of(dish, &spread))?;
        }
        return Ok(());
    }
    if dishes.is_empty() {
        return output::line("No portions are on record for that time.");
    }
    for (place, (dish, spread)) in spreads.enumerate() {
        if place > 0 {
            output::line("")?;
        }
        for line in lines(dish, &spread, unit) {
            output::line(&line)?;
        }
    }
    Ok(())
}
