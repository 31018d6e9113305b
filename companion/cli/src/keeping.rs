//! `evenhand backup`, `evenhand restore` and `evenhand check`.

use super::words::{bad_input, failed, say};
use super::{Data, Failure, output};
use clap::Args;
use evenhand_protocol::PortionId;
use evenhand_store::{Chain, Examination, Finding};
use evenhand_words::Language;
use jiff::Timestamp;
use serde_json::{Value, json};
use std::borrow::Cow;
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
        let path = arguments.file.display().to_string();
        return Err(bad_input!("backup-database", path = path));
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
    output::line(&say!(
        data.language,
        "backup-written",
        count = examined.portions,
        path = arguments.file.display().to_string()
    ))?;
    tell_findings(data.language, &examined)
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
    output::line(&say!(
        data.language,
        "restore-done",
        count = examined.portions,
        path = arguments.file.display().to_string()
    ))?;
    tell_findings(data.language, examined)?;
    match aside {
        None => Ok(()),
        Some(aside) => output::line(&say!(data.language, "restore-aside", path = aside)),
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
            output::line(&say!(
                data.language,
                "check-sound",
                path = path.as_str(),
                count = examined.portions
            ))?;
        }
        tell_findings(data.language, &examined)?;
    }
    if examined.is_sound() {
        return Ok(());
    }
    Err(failed!("check-not-sound", path = path))
}

/// What was found, a line each, and that no number is missing where none is;
/// then what each instrument's chain of portions bears witness to.
fn tell_findings(language: Language, examined: &Examination) -> Result<(), Failure> {
    for finding in &examined.findings {
        output::line(&format!("  {}", finding_words(language, finding)))?;
    }
    if examined.findings.is_empty() {
        output::line(&say!(language, "check-nothing-found"))?;
    }
    for chain in &examined.chains {
        let agrees = !examined.findings.iter().any(|finding| match finding {
            Finding::NotAsMade { portion: id, .. }
            | Finding::PortionChanged(id)
            | Finding::Unlinked(id)
            | Finding::Misplaced(id) => id.device == chain.device,
            _ => false,
        });
        output::line(&chain_line(language, chain, agrees))?;
    }
    Ok(())
}

fn chain_line(language: Language, chain: &Chain, agrees: bool) -> Cow<'static, str> {
    let scale = format!("{:016x}", chain.device.0);
    if chain.linked == 0 {
        return say!(language, "chain-none", scale = scale);
    }
    let linked = say!(
        language,
        "chain-linked",
        scale = scale,
        count = chain.linked,
        agrees = if agrees { "yes" } else { "no" }
    );
    if chain.unlinked == 0 {
        return linked;
    }
    say!(
        language,
        "chain-unlinked",
        linked = linked,
        count = chain.unlinked
    )
}

/// What was found, in words.
fn finding_words(language: Language, finding: &Finding) -> Cow<'static, str> {
    let said = |id: &PortionId| id.to_string();
    match finding {
        Finding::Structure(why) => say!(language, "found-structure", why = why.as_str()),
        Finding::Orphan { table } => say!(language, "found-orphan", table = table.as_str()),
        Finding::PortionChanged(id) => say!(language, "found-portion-changed", id = said(id)),
        Finding::StrikeChanged(id) => say!(language, "found-strike-changed", id = said(id)),
        Finding::NotAsMade { portion, said_by } => say!(
            language,
            "found-not-as-made",
            id = said(portion),
            next = said(said_by)
        ),
        Finding::Unlinked(id) => say!(language, "found-unlinked", id = said(id)),
        Finding::Misplaced(id) => say!(language, "found-misplaced", id = said(id)),
        Finding::MissingBefore { before, many } => say!(
            language,
            "found-missing-before",
            count = *many,
            id = said(before)
        ),
        Finding::GivenUp { before, many } => {
            say!(language, "found-given-up", count = *many, id = said(before))
        }
        Finding::BegunAgain { with, times: 0 | 1 } => {
            say!(language, "found-begun-again", id = said(with))
        }
        Finding::BegunAgain { with, times } => say!(
            language,
            "found-begun-again-often",
            id = said(with),
            times = (times - 1).to_string()
        ),
        Finding::Forked { after, one, other } => say!(
            language,
            "found-forked",
            one = said(one),
            other = said(other),
            id = said(after)
        ),
        Finding::Missing {
            device,
            epoch,
            first,
            last,
        } => {
            let id = |number| {
                said(&PortionId {
                    device: *device,
                    epoch: *epoch,
                    number,
                })
            };
            if first == last {
                say!(language, "found-missing-one", id = id(*first))
            } else {
                say!(
                    language,
                    "found-missing-some",
                    first = id(*first),
                    last = id(*last)
                )
            }
        }
        Finding::SenselessCorrection(id) => {
            say!(language, "found-senseless-correction", id = said(id))
        }
        Finding::PictureChanged(id) => {
            say!(language, "found-picture-changed", id = id.to_string())
        }
        Finding::WrongSum { dish, from } => match dish {
            Some(dish) => say!(
                language,
                "found-wrong-sum",
                dish = dish.as_str(),
                from = from.to_string()
            ),
            None => say!(
                language,
                "found-wrong-sum-elsewhere",
                from = from.to_string()
            ),
        },
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
