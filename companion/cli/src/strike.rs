//! `evenhand strike` and `evenhand undo`.

use super::amounts::UnitArguments;
use super::output::Telling;
use super::shown::{PortionJson, portion_words};
use super::{Data, Failure};
use clap::Args;
use evenhand_kitchen::portion::{StrikeReason, parse_portion_id};
use jiff::Timestamp;
use jiff::tz::TimeZone;

#[derive(Debug, Args)]
pub(super) struct StrikeArguments {
    /// The portion's id, as `evenhand portion --json` and `evenhand export` give it.
    id: String,
    /// Why it does not count.
    #[arg(
        long,
        value_name = "TEXT",
        required_unless_present = "lift",
        conflicts_with = "lift"
    )]
    reason: Option<String>,
    /// Let it count again.
    #[arg(long)]
    lift: bool,
    #[command(flatten)]
    unit: UnitArguments,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(super) struct UndoArguments {
    #[command(flatten)]
    unit: UnitArguments,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn run(data: &Data, arguments: &StrikeArguments) -> Result<(), Failure> {
    let id = parse_portion_id("ID", &arguments.id)?;
    let unit = arguments.unit.unit()?;
    let now = Timestamp::now();
    let portion = match &arguments.reason {
        Some(reason) => {
            let reason = StrikeReason::new("--reason", reason)?;
            data.existing()?.strike(id, &reason, now)?
        }
        None => data.existing()?.lift_strike(id, now)?,
    };
    arguments.telling.tell(
        &portion_words(data.language, &portion, unit, &TimeZone::system()),
        &PortionJson::of(&portion),
    )
}

pub(super) fn undo(data: &Data, arguments: &UndoArguments) -> Result<(), Failure> {
    let unit = arguments.unit.unit()?;
    let portion = data.existing()?.undo_last(None, Timestamp::now())?;
    arguments.telling.tell(
        &portion_words(data.language, &portion, unit, &TimeZone::system()),
        &PortionJson::of(&portion),
    )
}
