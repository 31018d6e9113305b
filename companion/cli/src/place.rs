//! Arguments that say where the instrument is.

use super::failure::Spoken;
use super::words::{bad_input, said};
use super::{Data, Failure};
use clap::Args;
use evenhand_link::Endpoint;
use evenhand_simulator::scenario::{SHIPPED, Scenario, ScenarioError};
use std::path::Path;

/// Where the instrument is.
#[derive(Debug, Clone, Default, Args)]
pub(super) struct PlaceArguments {
    /// The scale's serial port: /dev/ttyACM0, COM7.
    #[arg(long, value_name = "PATH", conflicts_with_all = ["simulated", "scenario", "seed"])]
    port: Option<String>,
    /// Use the simulated bench.
    #[arg(long)]
    simulated: bool,
    /// What happens at the simulated bench: a scenario's file, or the name of one that ships.
    #[arg(long, value_name = "FILE", requires = "simulated")]
    scenario: Option<String>,
    /// What fixes everything that the scenario leaves open.
    #[arg(long, value_name = "N", requires = "simulated")]
    seed: Option<u64>,
}

impl PlaceArguments {
    /// Whether anything was said.
    pub(super) const fn is_given(&self) -> bool {
        self.port.is_some() || self.simulated
    }

    /// Where what this scale makes is kept.
    pub(super) fn data(&self, data: &Data) -> Data {
        Data {
            simulated: self.simulated,
            ..data.clone()
        }
    }

    /// The place said; `None` where none is. `made` makes the bench where no
    /// scenario is named.
    pub(super) fn place(
        &self,
        made: impl FnOnce() -> Result<Scenario, Failure>,
    ) -> Result<Option<Endpoint>, Failure> {
        if let Some(port) = &self.port {
            return Ok(Some(Endpoint::Port(port.clone())));
        }
        if !self.simulated {
            return Ok(None);
        }
        let scenario = match &self.scenario {
            Some(name) => scenario("--scenario", name)?,
            None => made()?,
        };
        let seed = self.seed.unwrap_or_else(|| scenario.seed());
        Ok(Some(Endpoint::Simulated {
            scenario: Box::new(scenario),
            seed,
        }))
    }
}

/// The scenario in a file, or the shipped one of that name.
pub(super) fn scenario(field: &str, name: &str) -> Result<Scenario, Failure> {
    let path = Path::new(name);
    let shipped = SHIPPED.iter().any(|(shipped, _)| *shipped == name);
    let read = if shipped && !path.exists() {
        Scenario::shipped(name)
    } else {
        Scenario::load(path)
    };
    read.map_err(|error| {
        let why = match error {
            ScenarioError::Unreadable { path, source } => said!(
                "scenario-unreadable",
                path = path.display().to_string(),
                why = &source,
            )
            .into(),
            other => Spoken::from(other.to_string()),
        };
        if shipped || path.exists() {
            return bad_input!("scenario-refused", field = field, why = why);
        }
        let names: Vec<_> = SHIPPED.iter().map(|(name, _)| *name).collect();
        bad_input!(
            "scenario-unknown",
            field = field,
            why = why,
            names = names.join(", "),
        )
    })
}
