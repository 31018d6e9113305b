//! `evenhand backup`, `evenhand restore` and `evenhand check`.

use super::spread_table::counted;
use super::{Data, Failure, output};
use clap::Args;
use evenhand_store::{Chain, Examination, Finding};
use jiff::Timestamp;
use serde_json::{Value, json};
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
    let there = arguments.file.symlink_metadata().is_ok();
    if !there && evenhand_store::is_database(&arguments.file) {
        return Err(Failure::Input(format!(
            "FILE: {} is a database, or belongs to one; choose another name",
            arguments.file.display()
        )));
    }
    let examined = data.existing()?.backup(&arguments.file)?;
    if arguments.json {
        return output::json(&json!({
            "file": arguments.file.display().to_string(),
            "portions": examined.portions,
            "read_back": true,
            "sound": examined.is_sound(),
            "chains": chains_json(&examined),
            "findings": findings_json(&examined),
        }));
    }
    output::line(&format!(
        "{} written to {} and read back, row by row.",
        portions(&examined),
        arguments.file.display()
    ))?;
    tell_findings(&examined)
}

pub(super) fn restore(data: &Data, arguments: &RestoreArguments) -> Result<(), Failure> {
    let restored = evenhand_store::restore(&data.folder()?, &arguments.file, Timestamp::now())?;
    let aside = restored
        .set_aside
        .as_ref()
        .map(|path| path.display().to_string());
    let examined = &restored.examination;
    if arguments.json {
        return output::json(&json!({
            "portions": examined.portions,
            "set_aside": aside,
            "read_back": true,
            "sound": examined.is_sound(),
            "chains": chains_json(examined),
            "findings": findings_json(examined),
        }));
    }
    output::line(&format!(
        "{} put back from {} and read back, row by row.",
        portions(examined),
        arguments.file.display()
    ))?;
    tell_findings(examined)?;
    match aside {
        None => Ok(()),
        Some(aside) => output::line(&format!("What was there before lies in {aside}.")),
    }
}

pub(super) fn check(data: &Data, arguments: &CheckArguments) -> Result<(), Failure> {
    let store = data.existing()?;
    let examined = store.examine()?;
    let path = store.path().display().to_string();
    if arguments.json {
        output::json(&json!({
            "file": path,
            "portions": examined.portions,
            "sound": examined.is_sound(),
            "chains": chains_json(&examined),
            "findings": findings_json(&examined),
        }))?;
    } else {
        if examined.is_sound() {
            output::line(&format!(
                "{path} is sound: {} read, each as it was written.",
                portions(&examined)
            ))?;
        }
        tell_findings(&examined)?;
    }
    if examined.is_sound() {
        return Ok(());
    }
    Err(Failure::Other(format!(
        "{path} is not as it was written; put a backup back with `evenhand restore FILE`, which keeps \
         this one beside it"
    )))
}

fn portions(examined: &Examination) -> String {
    counted(
        usize::try_from(examined.portions).unwrap_or(usize::MAX),
        "portion",
    )
}

/// What was found, a line each, and that no number is missing where none is;
/// then what each instrument's chain of portions bears witness to.
fn tell_findings(examined: &Examination) -> Result<(), Failure> {
    for finding in &examined.findings {
        output::line(&format!("  {finding}"))?;
    }
    if examined.findings.is_empty() {
        output::line("No number is missing and no row was changed.")?;
    }
    for chain in &examined.chains {
        let agrees = !examined.findings.iter().any(|finding| match finding {
            Finding::NotAsMade { portion: id, .. }
            | Finding::PortionChanged(id)
            | Finding::Unlinked(id)
            | Finding::Misplaced(id) => id.device == chain.device,
            _ => false,
        });
        output::line(&chain_line(chain, agrees))?;
    }
    Ok(())
}

fn chain_line(chain: &Chain, agrees: bool) -> String {
    let count = |many| counted(usize::try_from(many).unwrap_or(usize::MAX), "portion");
    let scale = format!("Scale {:016x}", chain.device.0);
    let linked = match agrees {
        true => "in its chain, and none contradicts the one before it",
        false => "in its chain; what does not agree is named above",
    };
    match (chain.linked, chain.unlinked) {
        (0, _) => format!(
            "{scale} makes no chain of its portions: whether one was changed together with its \
             checksum is not known. An instrument whose firmware makes one would tell."
        ),
        (many, 0) => format!("{scale}: {} {linked}.", count(many)),
        (many, unlinked) => format!(
            "{scale}: {} {linked}. Of {} outside the chain it is not known whether one was changed \
             together with its checksum.",
            count(many),
            count(unlinked)
        ),
    }
}

fn chains_json(examined: &Examination) -> Vec<Value> {
    examined
        .chains
        .iter()
        .map(|chain| {
            json!({
                "device": format!("{:016x}", chain.device.0),
                "linked": chain.linked,
                "unlinked": chain.unlinked,
            })
        })
        .collect()
}

fn findings_json(examined: &Examination) -> Vec<Value> {
    examined
        .findings
        .iter()
        .map(|finding| {
            json!({
                "what": match finding {
                    Finding::Structure(_) => "structure",
                    Finding::Orphan { .. } => "orphan",
                    Finding::PortionChanged(_) => "portion-changed",
                    Finding::StrikeChanged(_) => "strike-changed",
                    Finding::NotAsMade { .. } => "not-as-made",
                    Finding::Unlinked(_) => "unlinked",
                    Finding::Misplaced(_) => "misplaced",
                    Finding::MissingBefore { .. } => "missing-before",
                    Finding::GivenUp { .. } => "given-up",
                    Finding::BegunAgain { .. } => "begun-again",
                    Finding::Forked { .. } => "forked",
                    Finding::Missing { .. } => "missing",
                    Finding::SenselessCorrection(_) => "senseless-correction",
                    Finding::PictureChanged(_) => "picture-changed",
                    Finding::WrongSum { .. } => "wrong-sum",
                },
                "damage": finding.is_damage(),
                "sentence": finding.to_string(),
            })
        })
        .collect()
}
