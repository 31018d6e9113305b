//! `evenhand heat`.

use super::{Failure, output};
use clap::{Args, Subcommand};
use evenhand_kitchen::heat::{
    Band, CONFIDENCE, Forecast, Habit, HeatLog, Outcome, Surroundings, When, check, forecast,
    read_table,
};
use evenhand_kitchen::limits::{CAUTION, Limits};
use evenhand_kitchen::units::parse_temperature;
use evenhand_protocol::Temperature;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

#[derive(Debug, Subcommand)]
pub(super) enum HeatCommand {
    /// A log of temperatures against a limit.
    Check(CheckArguments),
    /// When a log's temperature reaches and leaves a band.
    Forecast(ForecastArguments),
    /// The limits in force and their sources.
    Limits(LimitsArguments),
}

#[derive(Debug, Args)]
pub(super) struct LimitsArguments {
    /// The kitchen's own limits, in place of the published ones of the same name.
    #[arg(long, value_name = "FILE")]
    local: Option<PathBuf>,
    /// One JSON object a line.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct CheckArguments {
    /// Which limit: `evenhand heat limits` lists them.
    #[arg(long, value_name = "NAME")]
    limit: String,
    /// The log, as time,celsius or time,fahrenheit with times by RFC 3339.
    #[arg(long, value_name = "FILE.csv")]
    log: PathBuf,
    /// The kitchen's own limits, in place of the published ones of the same name.
    #[arg(long, value_name = "FILE")]
    local: Option<PathBuf>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct ForecastArguments {
    /// The log so far.
    #[arg(long, value_name = "FILE.csv")]
    log: PathBuf,
    /// The band's lower end: 400degF, 204degC.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    from: String,
    /// The band's upper end.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    to: String,
    /// What it goes toward; a warm kitchen if not said.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    toward: Option<String>,
    /// Logs of earlier mornings of the same oven or pan; may be given more than once.
    #[arg(long, value_name = "FILE.csv")]
    earlier: Vec<PathBuf>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(command: HeatCommand) -> Result<(), Failure> {
    match command {
        HeatCommand::Check(arguments) => check_log(&arguments),
        HeatCommand::Forecast(arguments) => tell_forecast(&arguments),
        HeatCommand::Limits(arguments) => list_limits(&arguments),
    }
}

/// Reads a file that the person named; one that cannot be read is their input.
pub(super) fn text_of(flag: &str, path: &Path) -> Result<String, Failure> {
    std::fs::read_to_string(path).map_err(|error| {
        Failure::Input(format!(
            "{flag}: {} cannot be read: {error}",
            path.display()
        ))
    })
}

fn log_of(flag: &str, path: &Path) -> Result<HeatLog, Failure> {
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    read_table(&name, &text_of(flag, path)?)
        .map_err(|error| Failure::Input(format!("{flag}: {}: {error}", path.display())))
}

fn limits_of(local: Option<&Path>) -> Result<Limits, Failure> {
    let limits = Limits::food_code();
    match local {
        None => Ok(limits),
        Some(path) => limits
            .with_local(&text_of("--local", path)?)
            .map_err(|error| Failure::Input(format!("--local: {}: {error}", path.display()))),
    }
}

fn list_limits(arguments: &LimitsArguments) -> Result<(), Failure> {
    for limit in limits_of(arguments.local.as_deref())?.iter() {
        if arguments.json {
            output::json(&json!({
                "limit": limit.name,
                "about": limit.about,
                "limit_source": limit.source.to_string(),
            }))?;
        } else {
            output::line(&format!(
                "{:20} {}\n{:20} {}",
                limit.name, limit.about, "", limit.source
            ))?;
        }
    }
    if !arguments.json {
        output::line(CAUTION)?;
    }
    Ok(())
}

fn check_log(arguments: &CheckArguments) -> Result<(), Failure> {
    let limits = limits_of(arguments.local.as_deref())?;
    let limit = limits.named(&arguments.limit).ok_or_else(|| {
        let known: Vec<_> = limits.iter().map(|l| l.name.as_str()).collect();
        Failure::Input(format!(
            "--limit: there is no limit {:?}; known are {}",
            arguments.limit,
            known.join(", ")
        ))
    })?;
    let log = log_of("--log", &arguments.log)?;
    let findings = check(&log, limit);
    if arguments.json {
        let list: Vec<Value> = findings
            .iter()
            .map(|f| json!({ "outcome": f.outcome, "measured": f.sentence }))
            .collect();
        return output::json(&json!({
            "limit": limit.name,
            "about": limit.about,
            "limit_source": limit.source.to_string(),
            "findings": list,
            "gaps": log.gaps().len(),
            "caution": CAUTION,
        }));
    }
    output::line(&format!("{}: {}", limit.name, limit.about))?;
    for finding in &findings {
        let mark = match finding.outcome {
            Outcome::Broken => "OVER",
            Outcome::Kept => "within",
            Outcome::Running => "so far",
            Outcome::CannotTell => "cannot tell",
        };
        output::line(&format!("  {mark:12} {}", finding.sentence))?;
    }
    output::line(&format!("  limit from   {}", limit.source))?;
    output::line(CAUTION)
}

fn temperature(flag: &'static str, text: &str) -> Result<Temperature, Failure> {
    Ok(parse_temperature(flag, text)?)
}

fn tell_forecast(arguments: &ForecastArguments) -> Result<(), Failure> {
    let band = Band::new(
        temperature("--from", &arguments.from)?,
        temperature("--to", &arguments.to)?,
    )
    .map_err(|error| Failure::Input(format!("--from, --to: {error}")))?;
    let around = match &arguments.toward {
        None => Surroundings::KITCHEN,
        Some(text) => Surroundings::about(temperature("--toward", text)?, 2.0)
            .map_err(|error| Failure::Input(format!("--toward: {error}")))?,
    };
    let log = log_of("--log", &arguments.log)?;
    let mut habit = Habit::default();
    for path in &arguments.earlier {
        habit.learn(&log_of("--earlier", path)?);
    }
    // A file's own last reading is its now: the answer is about the log, not about today.
    let now = log.points().last().map_or(Timestamp::UNIX_EPOCH, |p| p.at);
    let answer = forecast(&log, band, around, &habit, now);
    if arguments.json {
        return output::json(&forecast_json(answer, habit.mornings()));
    }
    for line in forecast_words(answer, &TimeZone::system()) {
        output::line(&line)?;
    }
    output::line(&format!(
        "{} times in ten the truth should lie in the interval; {} earlier {} looked at.",
        (CONFIDENCE * 10.0).round(),
        habit.mornings(),
        if habit.mornings() == 1 {
            "morning was"
        } else {
            "mornings were"
        }
    ))
}

fn when_json(when: When) -> Value {
    json!({ "likely": when.likely, "early": when.early, "late": when.late })
}

fn forecast_json(answer: Forecast, mornings: usize) -> Value {
    let (state, enters, leaves, why) = match answer {
        Forecast::Coming { enters, leaves } => ("coming", Some(enters), leaves, None),
        Forecast::Inside { leaves } => ("inside", None, leaves, None),
        Forecast::NotComing => ("not-coming", None, None, None),
        Forecast::Unknown(why) => ("unknown", None, None, Some(why.words())),
    };
    json!({
        "state": state,
        "enters": enters.map(when_json),
        "leaves": leaves.map(when_json),
        "why": why,
        "confidence": CONFIDENCE,
        "earlier_mornings": mornings,
    })
}

fn clock(at: Timestamp, zone: &TimeZone) -> String {
    at.to_zoned_datetime(zone.clone())
        .strftime("%H:%M")
        .to_string()
}

fn span(when: When, zone: &TimeZone) -> String {
    let late = when
        .late
        .map_or_else(|| "perhaps never".to_owned(), |late| clock(late, zone));
    format!(
        "likely {}, between {} and {late}",
        clock(when.likely, zone),
        clock(when.early, zone)
    )
}

fn forecast_words(answer: Forecast, zone: &TimeZone) -> Vec<String> {
    match answer {
        Forecast::Coming { enters, leaves } => {
            let mut lines = vec![format!("Reaches the band: {}.", span(enters, zone))];
            lines.push(match leaves {
                Some(leaves) => {
                    let stay = leaves.likely.duration_since(enters.likely).as_secs() / 60;
                    format!(
                        "Leaves it: {}. Likely {stay} minutes in it.",
                        span(leaves, zone)
                    )
                }
                None => "It likely stays in it.".to_owned(),
            });
            lines
        }
        Forecast::Inside { leaves } => vec![match leaves {
            Some(leaves) => format!("In the band now. Leaves it: {}.", span(leaves, zone)),
            None => "In the band now, and likely stays.".to_owned(),
        }],
        Forecast::NotComing => vec!["It is not coming to the band as it goes now.".to_owned()],
        Forecast::Unknown(why) => vec![why.words().to_owned()],
    }
}
