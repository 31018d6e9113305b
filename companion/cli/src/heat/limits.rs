//! `evenhand heat limits`, and the limits in force for every command.

use super::super::{Data, Failure, output};
use super::text_of;
use clap::Args;
use evenhand_kitchen::limits::{CAUTION, Limit, Limits};
use serde_json::json;
use std::path::{Path, PathBuf};

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
            Some(path) => read("--local", path),
            None => in_force(data),
        }
    }
}

/// The limits with those of the data folder's own file.
pub(crate) fn in_force(data: &Data) -> Result<Limits, Failure> {
    let path = data.folder()?.path().join("limits.toml");
    if path.exists() {
        read("limits.toml", &path)
    } else {
        Ok(Limits::food_code())
    }
}

fn read(flag: &str, path: &Path) -> Result<Limits, Failure> {
    Limits::food_code()
        .with_local(&text_of(flag, path)?)
        .map_err(|error| Failure::Input(format!("{flag}: {}: {error}", path.display())))
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
    for limit in arguments.local.limits(data)?.iter() {
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
