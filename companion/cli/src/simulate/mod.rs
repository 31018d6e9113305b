//! `evenhand simulate`.

#[cfg(unix)]
mod truth;

use super::place::scenario;
use super::portion::speed;
use super::words::{bad_input, failed};
use super::written::may_be_written;
use super::{Data, Failure, output};
use clap::Args;
use evenhand_link::{Pace, fresh_epoch};
use evenhand_simulator::instrument::SimulatedInstrument;
use std::path::{Path, PathBuf};
#[cfg(unix)]
use truth::Truth;

#[derive(Debug, Args)]
pub(super) struct SimulateArguments {
    /// What happens: a scenario's file, or the name of one that ships.
    #[arg(long, value_name = "FILE")]
    scenario: String,
    /// Serve it on a pseudo-terminal, whose path is the first line printed.
    #[arg(long, required = true)]
    pty: bool,
    /// What fixes everything that the scenario leaves open.
    #[arg(long, value_name = "N")]
    seed: Option<u64>,
    /// How fast it runs, in its seconds a second.
    #[arg(
        long,
        value_name = "X",
        default_value = "1",
        allow_hyphen_values = true
    )]
    speed: String,
    /// Keep the instrument's flash in this file, made where it is not there: what the instrument
    /// remembers over a power cut it remembers over the end of this program too.
    #[arg(long, value_name = "FILE")]
    flash: Option<PathBuf>,
    /// Write what really happens at the end of this file, one JSON object a line.
    #[arg(long, value_name = "FILE")]
    truth: Option<PathBuf>,
}

pub(super) fn run(data: &Data, arguments: &SimulateArguments) -> Result<(), Failure> {
    let pace = speed("--speed", &arguments.speed)?;
    let scenario = scenario("--scenario", &arguments.scenario)?;
    let seed = arguments.seed.unwrap_or_else(|| scenario.seed());
    for (field, path) in [("--flash", &arguments.flash), ("--truth", &arguments.truth)] {
        if let Some(path) = path {
            may_be_written(data, field, path)?;
        }
    }
    let epoch = fresh_epoch();
    let instrument = match &arguments.flash {
        Some(path) => SimulatedInstrument::on_flash_in(path, &scenario, seed, epoch)
            .map_err(|error| bad_input!("simulate-flash", why = error.to_string()))?,
        None => SimulatedInstrument::in_epoch(&scenario, seed, epoch),
    };
    serve(
        instrument,
        scenario.title(),
        pace,
        arguments.truth.as_deref(),
    )
}

#[cfg(unix)]
fn serve(
    instrument: SimulatedInstrument,
    title: &str,
    pace: Pace,
    truth: Option<&Path>,
) -> Result<(), Failure> {
    let mut truth = truth
        .map(|path| {
            Truth::open(path).map_err(|error| {
                bad_input!(
                    "simulate-truth",
                    path = path.display().to_string(),
                    why = &error,
                )
            })
        })
        .transpose()?;
    let mut terminal = evenhand_link::Terminal::open(instrument, pace)
        .map_err(|error| failed!("simulate-no-terminal", why = error.to_string()))?;
    output::line(&terminal.path().display().to_string())?;
    eprintln!("{title}");
    let Err(error) = terminal.serve(|instrument| match &mut truth {
        Some(truth) => truth.tell(instrument),
        None => {
            drop(instrument.take_history());
            Ok(())
        }
    });
    Err(failed!("simulate-failed", why = error.to_string()))
}

#[cfg(not(unix))]
fn serve(_: SimulatedInstrument, _: &str, _: Pace, _: Option<&Path>) -> Result<(), Failure> {
    Err(Failure::Other(
        "this system has no pseudo-terminals; use --simulated instead".to_owned(),
    ))
}
