//! `evenhand heat forecast`.

use super::super::{Data, Failure, output};
use super::source::{SourceArguments, file};
use super::{at_flag, temperature};
use crate::words::{bad_input, say};
use clap::Args;
use evenhand_kitchen::heat::{Band, CONFIDENCE, Forecast, Surroundings, When, forecast, mornings};
use evenhand_store::TrackRecord;
use evenhand_use_cases::heat::{
    LOOK_BACK, band_words, forecast_error_words, forecast_words, record_words, track_records,
    why_words,
};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use serde_json::{Value, json};
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(crate) struct ForecastArguments {
    #[command(flatten)]
    source: SourceArguments,
    /// The band's lower end: 400degF, 204degC; else the band that the log is watched for.
    #[arg(
        long,
        value_name = "TEMP",
        allow_hyphen_values = true,
        requires = "to",
        required_unless_present = "name"
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
    /// What it goes toward; anything a kitchen has if not said.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    toward: Option<String>,
    /// Logs of earlier mornings of the same oven or pan in files; may be given more than once. Of a
    /// log on record the earlier days are looked at by themselves.
    #[arg(long, value_name = "FILE.csv")]
    earlier: Vec<PathBuf>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &ForecastArguments) -> Result<(), Failure> {
    let language = data.language;
    let band = match (&arguments.from, &arguments.to) {
        (Some(from), Some(to)) => Some(band(from, to)?),
        _ => None,
    };
    let source = arguments.source.read(data, LOOK_BACK)?;
    let aim = match &source.name {
        Some(name) => data.existing()?.heat_aim(name)?.unwrap_or_default(),
        None => Default::default(),
    };
    let band = match (band, aim.band()) {
        (Some(band), _) | (None, Ok(Some(band))) => band,
        _ => {
            return Err(bad_input!("heat-band-needed"));
        }
    };
    let around = match &arguments.toward {
        None => aim.surroundings(),
        Some(text) => {
            Surroundings::about(temperature("--toward", text)?, 2.0).map_err(|error| {
                at_flag("--toward", error.code(), |language| {
                    forecast_error_words(language, error)
                })
            })?
        }
    };
    let (log, mut habit) = mornings(&source.log, source.now);
    for path in &arguments.earlier {
        habit.learn(&file("--earlier", path)?);
    }
    let answer = forecast(&log, band, around, &habit, source.now);
    // A file of readings has no record of what was told of it.
    let record = match &source.name {
        Some(_) => track_records(&data.existing()?)?.bands,
        None => TrackRecord::default(),
    };
    if arguments.json {
        return output::json(&forecast_json(answer, habit.mornings(), record));
    }
    let here = log.points().last().map(|p| p.temperature);
    output::line(&say!(
        language,
        "heat-for-band",
        band = band_words(language, band)
    ))?;
    for line in forecast_words(language, answer, band, here, &TimeZone::system()) {
        output::line(&line)?;
    }
    // Where no interval is given, nothing is said of one.
    if matches!(
        answer,
        Forecast::Coming { .. } | Forecast::Inside { leaves: Some(_) }
    ) {
        output::line(&say!(
            language,
            "heat-times-in-ten",
            times = (CONFIDENCE * 10.0).round().to_string()
        ))?;
        if source.name.is_some() {
            output::line(&record_words(language, record))?;
        }
    }
    output::line(&say!(language, "heat-mornings", count = habit.mornings()))
}

/// A band as two temperatures.
pub(super) fn band(from: &str, to: &str) -> Result<Band, Failure> {
    Band::new(temperature("--from", from)?, temperature("--to", to)?).map_err(|error| {
        at_flag("--from, --to", error.code(), |language| {
            forecast_error_words(language, error)
        })
    })
}

pub(super) fn when_json(when: When) -> Value {
    json!({ "likely": when.likely, "early": when.early, "late": when.late })
}

pub(super) fn forecast_json(answer: Forecast, mornings: usize, record: TrackRecord) -> Value {
    let (state, enters, leaves, why) = match answer {
        Forecast::Coming { enters, leaves } => ("coming", Some(enters), leaves, None),
        Forecast::Inside { leaves } => ("inside", None, leaves, None),
        Forecast::NotComing => ("not-coming", None, None, None),
        Forecast::Unknown(why) => (
            "unknown",
            None,
            None,
            Some(why_words(Language::English, why)),
        ),
    };
    json!({
        "state": state,
        "enters": enters.map(when_json),
        "leaves": leaves.map(when_json),
        "why": why,
        "confidence": CONFIDENCE,
        "earlier_mornings": mornings,
        "intervals_seen_out": record.counted,
        "intervals_held": record.held,
    })
}
