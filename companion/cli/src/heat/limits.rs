//! `evenhand heat limits`, and the limits in force for every command.

use super::super::{Data, Failure, output};
use clap::Args;
use evenhand_kitchen::limits::{CAUTION, Limit, Limits};
use evenhand_use_cases::limits;
use serde_json::json;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(crate) struct LimitsArguments {
    #[command(flatten)]
    local: LocalArguments,
    /// One JSON object a line.
    #[arg(long)]
    json: bool,
}

/// Where the kitchen's own limits are.
#[derive(Debug, Args)]
pub(super) struct LocalArguments {
    /// The kitchen's own limits, in place of the published ones of the same name; else the file
    /// limits.toml in the data folder, where there is one.
    #[arg(long, value_name = "FILE")]
    local: Option<PathBuf>,
}

impl LocalArguments {
    pub(super) fn limits(&self, data: &Data) -> Result<Limits, Failure> {
        match &self.local {
            Some(path) => {
                limits::from_file(path).map_err(|error| Failure::Input(format!("--local: {error}")))
            }
            None => in_force(data),
        }
    }
}

/// The limits with those of the data folder's own file.
pub(crate) fn in_force(data: &Data) -> Result<Limits, Failure> {
    Ok(limits::in_force(data.folder()?.path())?)
}

/// The limit of a name.
pub(super) fn named<'a>(limits: &'a Limits, flag: &str, name: &str) -> Result<&'a Limit, Failure> {
    limits.named(name).ok_or_else(|| {
        let known: Vec<_> = limits.iter().map(|l| l.name.as_str()).collect();
        Failure::Input(format!(
            "{flag}: there is no limit {name:?}; known are {}",
            known.join(", ")
        ))
    })
}

pub(super) fn run(data: &Data, arguments: &LimitsArguments) -> Result<(), Failure> {
    let in_force = arguments.local.limits(data)?;
    for limit in in_force.iter() {
        let figures = limit.demand.to_string();
        if arguments.json {
            output::json(&json!({
                "limit": limit.name,
                "about": limit.about,
                "figures": figures,
                "limit_source": limit.source.to_string(),
                "standing": limit.source.standing,
                "region": in_force.region(),
            }))?;
        } else {
            output::line(&format!(
                "{:28} {figures}\n{:28} {}\n{:28} {}",
                limit.name, "", limit.about, "", limit.source
            ))?;
        }
    }
    if !arguments.json {
        output::line(&format!(
            "region {}; the kitchen's own limits and its region stand in {} in the data folder",
            in_force.region().name(),
            limits::FILE
        ))?;
        output::line(CAUTION)?;
    }
    Ok(())
}
