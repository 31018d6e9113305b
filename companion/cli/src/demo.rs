//! `evenhand demo`.

use super::words::{bad_input, failed, say};
use super::{Data, Failure, output};
use clap::Args;
use evenhand_kitchen::moment::{DayEdge, read_moment};
use evenhand_store::{DataFolder, Store};
use evenhand_use_cases::demo::{self, DemoError};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::json;

/// The made-up kitchen's folder within the platform's own; one for each night.
const FOLDER: &str = "demo";

#[derive(Debug, Args)]
pub(super) struct DemoArguments {
    /// Fixes every portion.
    #[arg(long, value_name = "NUMBER", default_value_t = 7)]
    seed: u64,
    /// As if it were this time: last night is the one before it. Now, if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    /// Make it and open no screens.
    #[arg(long)]
    no_screens: bool,
    /// As one JSON object; opens no screens.
    #[arg(long)]
    json: bool,
}

/// Makes last night and today up to now, in a folder of its own where it is not
/// there yet. Returns the folder, to be opened.
pub(super) fn run(data: &Data, arguments: &DemoArguments) -> Result<Option<DataFolder>, Failure> {
    let zone = TimeZone::system();
    let clock = Timestamp::now().to_zoned_datetime(zone.clone());
    let now = match &arguments.at {
        Some(text) => read_moment("--at", text, &clock, DayEdge::Begin)?,
        None => clock.timestamp(),
    };
    let folder = match &data.asked {
        Some(_) => data.folder()?,
        None => {
            let day = now.to_zoned_datetime(zone.clone()).date();
            let own = data.folder()?.path().join(FOLDER).join(day.to_string());
            DataFolder::choose(Some(&own))?
        }
    };
    let mut store = Store::open(&folder)?;
    let made = match demo::make(&mut store, arguments.seed, &zone, now) {
        Ok(made) => Some(made),
        // What was made before is opened as it is.
        Err(DemoError::NotEmpty) if store.made_up_night()?.is_some() => None,
        Err(DemoError::NotEmpty) => return Err(bad_input!("demo-not-empty")),
        Err(DemoError::Store(error)) => return Err(error.into()),
        Err(DemoError::Senseless(why)) => return Err(failed!("demo-senseless", why = why)),
    };
    let night = match made {
        Some(made) => Some(made.night),
        None => {
            let calendar = store.service_calendar(zone)?;
            store.service_days(&calendar, None, 1)?.first().copied()
        }
    };
    let night = night.map_or_else(|| "none".to_owned(), |night| night.to_string());
    let seed = store.made_up_night()?;
    let shown = folder.path().display().to_string();
    if arguments.json {
        output::json(&json!({
            "folder": shown,
            "night": night,
            "seed": seed,
            "portions_made": made.map_or(0, |made| made.portions),
        }))?;
        return Ok(None);
    }
    let language = data.language;
    let words = match made {
        Some(made) => say!(
            language,
            "demo-made",
            night = night,
            count = made.portions,
            folder = shown.as_str()
        ),
        None => say!(
            language,
            "demo-there",
            night = night,
            folder = shown.as_str()
        ),
    };
    eprintln!("{words}");
    eprintln!("{}", say!(language, "demo-look", folder = shown));
    Ok((!arguments.no_screens).then_some(folder))
}
