//! `evenhand heat limits`, and the limits in force for every command.

use super::super::{Data, Failure, output};
use super::at_flag;
use crate::words::{bad_input, say};
use clap::Args;
use evenhand_kitchen::limits::{Limit, Limits};
use evenhand_use_cases::demand::{about_words, demand_words};
use evenhand_use_cases::limits::{self, source_words};
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
            Some(path) => limits::from_file(path).map_err(|error| {
                at_flag("--local", "limits-file", |language| {
                    Failure::limits_words(language, &error)
                })
            }),
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
        bad_input!(
            "heat-limit-unknown",
            flag = flag,
            name = format!("{name:?}"),
            known = known.join(", ")
        )
    })
}

pub(super) fn run(data: &Data, arguments: &LimitsArguments) -> Result<(), Failure> {
    let in_force = arguments.local.limits(data)?;
    let language = data.language;
    for limit in in_force.iter() {
        if arguments.json {
            output::json(&json!({
                "limit": limit.name,
                "about": limit.about,
                "figures": limit.demand.to_string(),
                "limit_source": limit.source.to_string(),
                "standing": limit.source.standing,
                "region": in_force.region(),
            }))?;
        } else {
            output::line(&format!(
                "{:28} {}\n{:28} {}\n{:28} {}",
                limit.name,
                demand_words(language, &limit.demand),
                "",
                about_words(language, limit),
                "",
                source_words(language, &limit.source)
            ))?;
        }
    }
    if !arguments.json {
        output::line(&say!(
            language,
            "heat-limits-region",
            region = in_force.region().name(),
            file = limits::FILE
        ))?;
        output::line(&limits::caution(language))?;
    }
    Ok(())
}
