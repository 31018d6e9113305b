//! `evenhand backup`, `evenhand restore` and `evenhand check`.

use super::spread_table::counted;
use super::{Data, Failure, output};
use clap::Args;
use jiff::Timestamp;
use serde_json::json;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(super) struct BackupArguments {
    /// The file to write; it must not be there yet.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// As one JSON object.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct RestoreArguments {
    /// The file that a backup wrote.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// As one JSON object.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct CheckArguments {
    /// As one JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn backup(data: &Data, arguments: &BackupArguments) -> Result<(), Failure> {
    let portions = data.store()?.backup(&arguments.file)?;
    if arguments.json {
        return output::json(&json!({
            "file": arguments.file.display().to_string(),
            "portions": portions,
            "read_back": true,
        }));
    }
    output::line(&format!(
        "{} written to {} and read back, row by row.",
        counted(usize::try_from(portions).unwrap_or(usize::MAX), "portion"),
        arguments.file.display()
    ))
}

pub(super) fn restore(data: &Data, arguments: &RestoreArguments) -> Result<(), Failure> {
    let restored = evenhand_store::restore(&data.folder()?, &arguments.file, Timestamp::now())?;
    let aside = restored
        .set_aside
        .as_ref()
        .map(|path| path.display().to_string());
    if arguments.json {
        return output::json(&json!({
            "portions": restored.portions,
            "set_aside": aside,
            "read_back": true,
        }));
    }
    output::line(&format!(
        "{} put back from {} and read back, row by row.",
        counted(
            usize::try_from(restored.portions).unwrap_or(usize::MAX),
            "portion"
        ),
        arguments.file.display()
    ))?;
    match aside {
        None => Ok(()),
        Some(aside) => output::line(&format!("What was there before lies in {aside}.")),
    }
}

pub(super) fn check(data: &Data, arguments: &CheckArguments) -> Result<(), Failure> {
    let store = data.store()?;
    store.check()?;
    let path = store.path().display().to_string();
    if arguments.json {
        return output::json(&json!({ "file": path, "sound": true }));
    }
    output::line(&format!("{path} is sound."))
}
