//! `evenhand demo`.

use super::spread_table::counted;
use super::{Data, Failure, output};
use clap::Args;
use evenhand_store::{DataFolder, Store};
use evenhand_use_cases::demo_night::{self, DemoError, NIGHT};
use jiff::tz::TimeZone;
use serde_json::json;

/// The made-up night's folder within the platform's own.
const FOLDER: &str = "demo-night";

#[derive(Debug, Args)]
pub(super) struct DemoArguments {
    /// Fixes every portion of the night.
    #[arg(long, value_name = "NUMBER", default_value_t = 7)]
    seed: u64,
    /// Make the night and open no screens.
    #[arg(long)]
    no_screens: bool,
    /// As one JSON object; opens no screens.
    #[arg(long)]
    json: bool,
}

/// Makes the night in a folder of its own where it is not there yet. Returns
/// the folder, to be opened.
pub(super) fn run(data: &Data, arguments: &DemoArguments) -> Result<Option<DataFolder>, Failure> {
    let folder = match &data.asked {
        Some(_) => data.folder()?,
        None => DataFolder::choose(Some(&data.folder()?.path().join(FOLDER)))?,
    };
    let mut store = Store::open(&folder)?;
    let made = match demo_night::make(&mut store, arguments.seed, &TimeZone::system()) {
        Ok(made) => Some(made),
        // A night that was made before is opened as it is.
        Err(DemoError::NotEmpty) if store.made_up_night()?.is_some() => None,
        Err(DemoError::NotEmpty) => return Err(Failure::Input(DemoError::NotEmpty.to_string())),
        Err(DemoError::Store(error)) => return Err(error.into()),
        Err(error @ DemoError::Senseless(_)) => return Err(Failure::Other(error.to_string())),
    };
    let seed = store.made_up_night()?;
    let shown = folder.path().display().to_string();
    if arguments.json {
        output::json(&json!({
            "folder": shown,
            "night": NIGHT.to_string(),
            "seed": seed,
            "portions_made": made.unwrap_or(0),
        }))?;
        return Ok(None);
    }
    match made {
        Some(made) => eprintln!(
            "A made-up night at Saltmarsh, {NIGHT}, and ten services before it: {}, in {shown}.",
            counted(made, "portion")
        ),
        None => eprintln!("The made-up night of {NIGHT} is in {shown} already."),
    }
    eprintln!("Look at it with: evenhand service show --data \"{shown}\"");
    Ok((!arguments.no_screens).then_some(folder))
}
