//! `evenhand yield`.

use super::amounts::UnitArguments;
use super::output::Telling;
use super::tin::tin_id;
use super::{Data, Failure, output};
use clap::{Args, Subcommand};
use evenhand_kitchen::moment::show_date_and_time;
use evenhand_kitchen::tin::Tin;
use evenhand_kitchen::units::{Grams, MassUnit, format_mass, mass_not_negative, mass_positive};
use evenhand_kitchen::yield_flow::{Loss, YieldFlow};
use evenhand_protocol::Mass;
use evenhand_store::Store;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::json;

#[derive(Debug, Subcommand)]
pub(super) enum YieldCommand {
    /// Note a loss: trim, cook, press, spill or tasting.
    Lose {
        /// The number of the tin, fish or cut.
        tin: String,
        /// Which loss.
        loss: String,
        /// How much: 420g.
        #[arg(allow_hyphen_values = true)]
        mass: String,
        #[command(flatten)]
        telling: Telling,
    },
    /// Note what is left, as weighed.
    Left {
        /// The number of the tin, fish or cut.
        tin: String,
        /// How much: 85g.
        #[arg(allow_hyphen_values = true)]
        mass: String,
        #[command(flatten)]
        telling: Telling,
    },
    /// What became of a purchase, from whole to trimmed to portioned.
    Show(ShowArguments),
    /// Strike out a line that was wrong; it stays on record and counts no more.
    Strike {
        /// The line's number.
        line: String,
        #[command(flatten)]
        telling: Telling,
    },
}

#[derive(Debug, Args)]
pub(super) struct ShowArguments {
    /// The number of the tin, fish or cut.
    tin: String,
    #[command(flatten)]
    unit: UnitArguments,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn run(data: &Data, command: YieldCommand) -> Result<(), Failure> {
    match command {
        YieldCommand::Lose {
            tin,
            loss,
            mass,
            telling,
        } => {
            let tin = tin_id("TIN", &tin)?;
            let loss = Loss::parse("LOSS", &loss)?;
            let mass = mass_positive("MASS", &mass)?;
            let mut store = data.store()?;
            store.note_yield(tin, Some(loss), mass, Timestamp::now())?;
            told(&store, &store.tin(tin)?, MassUnit::Gram, telling)
        }
        YieldCommand::Left { tin, mass, telling } => {
            let tin = tin_id("TIN", &tin)?;
            let mass = mass_not_negative("MASS", &mass)?;
            let mut store = data.store()?;
            store.note_yield(tin, None, mass, Timestamp::now())?;
            told(&store, &store.tin(tin)?, MassUnit::Gram, telling)
        }
        YieldCommand::Strike { line, telling } => {
            let number: i64 = line.trim().parse().map_err(|_| {
                Failure::Input(format!(
                    "LINE: {line:?} is no line's number; write the number that `evenhand yield show` lists"
                ))
            })?;
            data.store()?.strike_yield(number, Timestamp::now())?;
            telling.tell(
                &format!("line {number} is struck out; it stays on record"),
                &json!({ "line": number, "struck": true }),
            )
        }
        YieldCommand::Show(arguments) => {
            let unit = arguments.unit.unit()?;
            let store = data.store()?;
            let tin = store.tin(tin_id("TIN", &arguments.tin)?)?;
            told(&store, &tin, unit, arguments.telling)
        }
    }
}

fn told(store: &Store, tin: &Tin, unit: MassUnit, telling: Telling) -> Result<(), Failure> {
    if telling.is_json() {
        as_json(store, tin)
    } else {
        tell(store, tin, unit)
    }
}

fn as_json(store: &Store, tin: &Tin) -> Result<(), Failure> {
    let flow = store.yield_flow(tin.id)?;
    let goal = store.known_dish(&tin.dish)?.goal;
    let possible = flow.portions_possible(goal);
    let losses: serde_json::Map<String, serde_json::Value> = Loss::ALL
        .into_iter()
        .map(|loss| {
            (
                format!("{}_grams", loss.word()),
                json!(Grams(flow.lost(loss))),
            )
        })
        .collect();
    let lines: Vec<_> = store
        .yield_lines(tin.id)?
        .into_iter()
        .map(|line| {
            json!({
                "line": line.id,
                "what": line.loss.map_or("left", Loss::word),
                "grams": Grams(line.mass),
                "at": line.at,
                "struck": line.struck,
            })
        })
        .collect();
    output::json(&json!({
        "tin": tin.id.0,
        "kind": tin.kind.word(),
        "dish": tin.dish.as_str(),
        "bought_grams": Grams(flow.bought),
        "lost": losses,
        "trimmed_grams": Grams(flow.trimmed()),
        "ready_grams": Grams(flow.ready()),
        "portioned_grams": Grams(flow.portioned),
        "left_grams": Grams(flow.left_or_reckoned()),
        "left_is_weighed": flow.left.is_some(),
        "unaccounted_grams": flow.unaccounted().map(Grams),
        "portioned_share": flow.portioned_yield(),
        "cost_as_bought": tin.cost().map(|cost| cost.to_string()),
        "cost_as_portioned": cost_as_portioned(tin, &flow),
        "portions_possible_fewest": possible.fewest,
        "portions_possible_most": possible.most,
        "lines": lines,
    }))
}

fn cost_as_portioned(tin: &Tin, flow: &YieldFlow) -> Option<String> {
    Some(flow.cost_as_portioned(tin.price?)?.to_string())
}

fn tell(store: &Store, tin: &Tin, unit: MassUnit) -> Result<(), Failure> {
    let flow = store.yield_flow(tin.id)?;
    let goal = store.known_dish(&tin.dish)?.goal;
    let row = |name: &str, mass: Mass| {
        let share = flow
            .share(mass)
            .map_or_else(String::new, |share| share.to_string());
        output::line(&format!(
            "  {name:<22}  {:>12}  {share:>6}",
            format_mass(mass, unit)
        ))
    };
    let label = if tin.label.is_empty() {
        String::new()
    } else {
        format!(", {}", tin.label)
    };
    output::line(&format!(
        "{} {}: {}{label}",
        tin.kind.word(),
        tin.id,
        tin.dish
    ))?;
    row("bought", flow.bought)?;
    for loss in Loss::ALL {
        if flow.lost(loss) > Mass::ZERO {
            row(&format!("lost to {loss}"), flow.lost(loss))?;
        }
        if loss == Loss::Trim {
            row("trimmed", flow.trimmed())?;
        }
    }
    row("portioned", flow.portioned)?;
    match flow.unaccounted() {
        None => row("should be left", flow.left_or_reckoned())?,
        Some(gone) => {
            row("left, as weighed", flow.left_or_reckoned())?;
            row("not accounted for", gone)?;
        }
    }
    if let (Some(bought), Some(portioned)) = (tin.cost(), cost_as_portioned(tin, &flow)) {
        output::line(&format!(
            "  cost as bought {bought}, as portioned {portioned}"
        ))?;
    }
    output::line(&format!(
        "  {} possible of what is left",
        flow.portions_possible(goal)
    ))?;
    if flow.more_came_out() {
        output::line("  More came out than was bought: a weighing is missing or wrong.")?;
    }
    for line in store.yield_lines(tin.id)? {
        output::line(&format!(
            "  line {}: {} {}, {}{}",
            line.id,
            line.loss.map_or("left", Loss::word),
            format_mass(line.mass, unit),
            show_date_and_time(line.at, &TimeZone::system()),
            if line.struck { ", struck out" } else { "" }
        ))?;
    }
    Ok(())
}
