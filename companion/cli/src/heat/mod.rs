//! `evenhand heat`.

mod aim;
mod check;
mod forecast;
mod limits;
mod log;
mod probe;
mod source;
mod watch;

pub(super) use limits::in_force;

use super::{Data, Failure};
use crate::failure::{Kind, Spoken};
use crate::words::{bad_input, said};
use clap::Subcommand;
use evenhand_kitchen::units::parse_temperature;
use evenhand_protocol::Temperature;
use evenhand_words::Language;
use std::path::Path;

#[derive(Debug, Subcommand)]
pub(super) enum HeatCommand {
    /// Record the probe into a named log, and say where it is going.
    Watch(watch::WatchArguments),
    /// Show a log, write it to a file, or take one in from a file.
    Log(log::LogArguments),
    /// Put a word at a moment of a log: "fire out", "loaded".
    Mark(log::MarkArguments),
    /// Correct a stretch of a log: added beside the record, never over it.
    Correct(log::CorrectArguments),
    /// Say what a log is watched for: a band to reach, or a limit to keep.
    Aim(aim::AimArguments),
    /// A log of temperatures against a limit, and where it is going.
    Check(check::CheckArguments),
    /// When a log's temperature reaches and leaves a band.
    Forecast(forecast::ForecastArguments),
    /// How far a probe may be out by what it is made of, or by the limits file.
    Probe(probe::ProbeArguments),
    /// The limits in force and their sources.
    Limits(limits::LimitsArguments),
}

pub(super) fn run(data: &Data, command: HeatCommand) -> Result<(), Failure> {
    match command {
        HeatCommand::Watch(arguments) => watch::run(data, &arguments),
        HeatCommand::Log(arguments) => log::run(data, &arguments),
        HeatCommand::Mark(arguments) => log::mark(data, &arguments),
        HeatCommand::Correct(arguments) => log::correct(data, &arguments),
        HeatCommand::Aim(arguments) => aim::run(data, &arguments),
        HeatCommand::Check(arguments) => check::run(data, &arguments),
        HeatCommand::Forecast(arguments) => forecast::run(data, &arguments),
        HeatCommand::Probe(arguments) => probe::run(data, &arguments),
        HeatCommand::Limits(arguments) => limits::run(data, &arguments),
    }
}

/// Reads a file that the person named; one that cannot be read is their input.
pub(crate) fn text_of(flag: &str, path: &Path) -> Result<String, Failure> {
    std::fs::read_to_string(path).map_err(|error| {
        bad_input!(
            "heat-no-file",
            flag = flag,
            path = path.display().to_string(),
            why = &error
        )
    })
}

/// Why what was said at a flag cannot be: by its code for machines, in words
/// for people.
fn at_flag(flag: &str, reason: &'static str, words: impl Fn(Language) -> String) -> Failure {
    let said = said!("heat-at-flag", flag = flag, why = Spoken::each(words));
    Failure::Said(Kind::Input, said.with("reason", reason))
}

fn temperature(flag: &'static str, text: &str) -> Result<Temperature, Failure> {
    Ok(parse_temperature(flag, text)?)
}
