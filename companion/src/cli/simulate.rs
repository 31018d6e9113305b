//! `evenhand simulate`.

use super::place::scenario;
use super::portion::speed;
use super::{Failure, output};
use crate::link::Pace;
use clap::Args;
use evenhand_bench::scenario::Scenario;

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
}

pub(super) fn run(arguments: &SimulateArguments) -> Result<(), Failure> {
    let pace = speed("--speed", &arguments.speed)?;
    let scenario = scenario("--scenario", &arguments.scenario)?;
    let seed = arguments.seed.unwrap_or_else(|| scenario.seed());
    serve(&scenario, seed, pace)
}

#[cfg(unix)]
fn serve(scenario: &Scenario, seed: u64, pace: Pace) -> Result<(), Failure> {
    let mut terminal = crate::link::Terminal::open(scenario, seed, pace)
        .map_err(|error| Failure::Other(format!("no pseudo-terminal can be opened: {error}")))?;
    output::line(&terminal.path().display().to_string())?;
    eprintln!("{}", scenario.title());
    let Err(error) = terminal.serve();
    Err(Failure::Other(format!(
        "the pseudo-terminal failed: {error}"
    )))
}

#[cfg(not(unix))]
fn serve(_: &Scenario, _: u64, _: Pace) -> Result<(), Failure> {
    Err(Failure::Other(
        "this system has no pseudo-terminals; use --simulated instead".to_owned(),
    ))
}
