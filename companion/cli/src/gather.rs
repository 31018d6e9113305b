//! `evenhand gather`.

use super::words::{failed, say};
use super::{Data, Failure, output, portion};
use clap::Args;
use evenhand_kitchen::units::for_terminal;
use evenhand_store::{Gathering, Overruled, Store};
use evenhand_use_cases::gather::{GatherError, GatheredAll, gather};
use evenhand_use_cases::record::why;
use evenhand_words::Language;
use jiff::Timestamp;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::sync::atomic::Ordering;
use std::time::Duration;

#[derive(Debug, Args)]
pub(super) struct GatherArguments {
    /// The folder that every desktop shares: a stick, or one that another program keeps the same
    /// everywhere. Each desktop writes files of its own there.
    #[arg(value_name = "FOLDER", required_unless_present = "overruled")]
    folder: Option<PathBuf>,
    /// Only take what the others told, and write nothing into the folder.
    #[arg(long)]
    read_only: bool,
    /// Gather every so many seconds until Ctrl-C.
    #[arg(long, value_name = "SECONDS", value_parser = clap::value_parser!(u64).range(1..=86_400))]
    every: Option<u64>,
    /// List what two desktops said differently and does not count, and gather nothing.
    #[arg(long, conflicts_with_all = ["folder", "read_only", "every"])]
    overruled: bool,
    /// As one JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &GatherArguments) -> Result<(), Failure> {
    let language = data.language;
    let Some(shared) = arguments.folder.as_deref() else {
        return list_overruled(language, &data.existing()?, arguments.json);
    };
    let mut store = data.store()?;
    let folder = data.folder()?;
    let how = if arguments.read_only {
        Gathering::OnlyTaken
    } else {
        Gathering::Both
    };
    let mut once = || -> Result<GatheredAll, Failure> {
        gather(&mut store, folder.path(), shared, how, Timestamp::now()).map_err(
            |error| match error {
                GatherError::Store(error) => Failure::Store(error),
                GatherError::File { path, why: error } => failed!(
                    "gather-file",
                    path = path.display().to_string(),
                    why = why(language, &error)
                ),
            },
        )
    };
    let Some(seconds) = arguments.every else {
        return tell(language, shared, &once()?, arguments.json);
    };
    let (wake, woken) = crossbeam_channel::bounded(1);
    let interrupts = portion::interrupts(wake)?;
    while interrupts.load(Ordering::Relaxed) == 0 {
        let gathered = once()?;
        if gathered.record.taken > 0 || !gathered.record.overruled.is_empty() {
            tell(language, shared, &gathered, arguments.json)?;
        }
        let _ = woken.recv_timeout(Duration::from_secs(seconds));
    }
    Ok(())
}

fn tell(
    language: Language,
    shared: &Path,
    gathered: &GatheredAll,
    as_json: bool,
) -> Result<(), Failure> {
    let record = &gathered.record;
    if as_json {
        let overruled: Vec<Value> = record.overruled.iter().map(overruled_json).collect();
        let set_aside: Vec<Value> = record
            .set_aside
            .iter()
            .map(|(batch, lines)| json!({ "batch": batch.0, "lines": lines }))
            .collect();
        return output::json(&json!({
            "folder": shared.display().to_string(),
            "others": record.others,
            "taken": record.taken,
            "told": record.told,
            "waiting": record.waiting,
            "not_whole": record.torn,
            "newer": record.newer,
            "overruled": overruled,
            "clashes": record.clashes,
            "set_aside": set_aside,
            "renumbered": record.renumbered,
            "files": gathered.files,
        }));
    }
    output::line(&say!(
        language,
        "gather-done",
        others = record.others,
        taken = record.taken.to_string(),
        told = record.told.to_string()
    ))?;
    for name in &record.torn {
        output::line(&say!(language, "gather-not-whole", file = name.as_str()))?;
    }
    for name in &record.newer {
        output::line(&say!(language, "gather-newer", file = name.as_str()))?;
    }
    if record.waiting > 0 {
        output::line(&say!(language, "gather-waiting", count = record.waiting))?;
    }
    if record.clashes > 0 {
        output::line(&say!(language, "gather-clashes", count = record.clashes))?;
    }
    for (batch, lines) in &record.set_aside {
        output::line(&say!(
            language,
            "gather-set-aside",
            batch = batch.to_string(),
            count = *lines
        ))?;
    }
    if record.renumbered {
        output::line(&say!(language, "gather-renumbered"))?;
    }
    for file in &gathered.files {
        output::line(&say!(language, "gather-file-written", file = file.as_str()))?;
    }
    for one in &record.overruled {
        output::line(&overruled_line(language, one))?;
    }
    Ok(())
}

fn list_overruled(language: Language, store: &Store, as_json: bool) -> Result<(), Failure> {
    let all = store.overruled()?;
    if as_json {
        let all: Vec<Value> = all.iter().map(overruled_json).collect();
        return output::json(&json!({ "overruled": all }));
    }
    output::nothing_yet(
        all.is_empty(),
        as_json,
        &say!(language, "gather-none-overruled"),
    )?;
    for one in &all {
        output::line(&overruled_line(language, one))?;
        for line in one.said.lines() {
            output::line(&format!("  {line}"))?;
        }
    }
    Ok(())
}

fn overruled_line(language: Language, one: &Overruled) -> String {
    say!(
        language,
        "gather-overruled",
        kind = one.kind.as_str(),
        key = for_terminal(&one.key),
        at = one.at.to_string(),
        desk = format!("{:05x}", one.desk)
    )
    .into_owned()
}

fn overruled_json(one: &Overruled) -> Value {
    json!({
        "kind": one.kind,
        "key": one.key,
        "said": one.said,
        "at": one.at.to_string(),
        "desk": format!("{:05x}", one.desk),
    })
}
