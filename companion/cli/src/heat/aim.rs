//! `evenhand heat aim`.

use super::super::output::Telling;
use super::super::{Data, Failure};
use super::forecast::band;
use super::limits::{in_force, named};
use super::temperature;
use crate::words::{bad_input, say};
use clap::Args;
use evenhand_kitchen::heat::{Aim, LogName};
use evenhand_use_cases::heat::band_words;
use evenhand_use_cases::limits::source_words;
use evenhand_words::Language;
use jiff::Timestamp;
use serde_json::json;

#[derive(Debug, Args)]
pub(crate) struct AimArguments {
    /// The log.
    #[arg(long, value_name = "NAME")]
    name: String,
    /// The band's lower end: 400degF, 204degC.
    #[arg(
        long,
        value_name = "TEMP",
        allow_hyphen_values = true,
        requires = "to",
        required_unless_present = "limit"
    )]
    from: Option<String>,
    /// The band's upper end.
    #[arg(
        long,
        value_name = "TEMP",
        allow_hyphen_values = true,
        requires = "from"
    )]
    to: Option<String>,
    /// A limit to keep, by its name.
    #[arg(long, value_name = "NAME", conflicts_with = "from")]
    limit: Option<String>,
    /// What it goes toward, where somebody knows: the cold store's 3degC.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    toward: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn run(data: &Data, arguments: &AimArguments) -> Result<(), Failure> {
    let name = LogName::new("--name", &arguments.name)?;
    let toward = arguments
        .toward
        .as_deref()
        .map(|text| temperature("--toward", text))
        .transpose()?;
    let (aim, words): (_, Box<dyn Fn(Language) -> String>) =
        match (&arguments.from, &arguments.to, &arguments.limit) {
            (Some(from), Some(to), _) => {
                let band = band(from, to)?;
                (
                    Aim::band_of(band, toward),
                    Box::new(move |language| band_words(language, band)),
                )
            }
            (_, _, Some(limit)) => {
                let limit = named(&in_force(data)?, "--limit", limit)?.clone();
                (
                    Aim::limit_of(limit.name.clone(), toward),
                    Box::new(move |language| {
                        format!("{} ({})", limit.name, source_words(language, &limit.source))
                    }),
                )
            }
            _ => {
                return Err(bad_input!("heat-aim-needed"));
            }
        };
    data.store()?.aim_heat(&name, &aim, Timestamp::now())?;
    arguments.telling.tell(
        &say!(
            data.language,
            "heat-watched-for",
            name = name.as_str(),
            words = words(data.language),
        ),
        &json!({
            "name": name.as_str(),
            "watched_for": words(Language::English),
            "toward_celsius": toward.map(|toward| toward.celsius()),
        }),
    )
}
