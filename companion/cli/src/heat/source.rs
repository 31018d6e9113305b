//! Where a log comes from: a file, or the store.

use super::super::{Data, Failure};
use super::text_of;
use crate::failure::{Kind, Spoken};
use crate::words::said;
use clap::{ArgGroup, Args};
use evenhand_kitchen::heat::{HeatLog, LogName, TableError, read_table};
use evenhand_kitchen::moment::{DayEdge, read_moment};
use evenhand_use_cases::heat::table_error_words;
use jiff::{SignedDuration, Timestamp, ZonedDateTime};
use std::path::{Path, PathBuf};

/// Which log, and when it is looked at.
#[derive(Debug, Args)]
#[command(group(ArgGroup::new("which log").required(true).args(["log", "name"])))]
pub(super) struct SourceArguments {
    /// A log in a file, as time,celsius or time,fahrenheit with times by RFC 3339.
    #[arg(long, value_name = "FILE.csv")]
    log: Option<PathBuf>,
    /// A log on record.
    #[arg(long, value_name = "NAME")]
    name: Option<String>,
    /// As if it were this time; else now for a log on record, and a file's last reading for a file.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
}

/// A log to look at.
pub(super) struct Source {
    /// The log, corrected.
    pub(super) log: HeatLog,
    /// Its name, where it is on record.
    pub(super) name: Option<LogName>,
    /// The moment it is looked at.
    pub(super) now: Timestamp,
    /// Corrections in force.
    pub(super) corrections: usize,
}

impl SourceArguments {
    /// Reads the log; of one on record what lies within `back` before the
    /// moment it is looked at.
    pub(super) fn read(&self, data: &Data, back: SignedDuration) -> Result<Source, Failure> {
        let at = self
            .at
            .as_deref()
            .map(|text| time("--at", text))
            .transpose()?;
        if let Some(path) = &self.log {
            let log = file("--log", path)?;
            let last = log.points().last().map_or(Timestamp::UNIX_EPOCH, |p| p.at);
            let now = at.unwrap_or(last);
            let after = now
                .checked_add(SignedDuration::from_millis(1))
                .unwrap_or(now);
            return Ok(Source {
                log: log.between(Timestamp::MIN, after),
                name: None,
                // A file's own last reading is its now: the answer is about the log, not about
                // today.
                now,
                corrections: 0,
            });
        }
        let name = LogName::new("--name", self.name.as_deref().unwrap_or_default())?;
        let now = at.unwrap_or_else(Timestamp::now);
        let from = now.checked_sub(back).unwrap_or(Timestamp::MIN);
        let stored = data.existing()?.heat_log(&name, from, now)?;
        Ok(Source {
            log: stored.corrected(),
            corrections: stored
                .corrections
                .iter()
                .filter(|c| c.lifted.is_none())
                .count(),
            name: Some(name),
            now,
        })
    }
}

/// A log in a file.
pub(super) fn file(flag: &str, path: &Path) -> Result<HeatLog, Failure> {
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    read_table(&name, &text_of(flag, path)?).map_err(|error| no_table(flag, path, &error))
}

/// Why a file of readings was refused.
pub(super) fn no_table(flag: &str, path: &Path, error: &TableError) -> Failure {
    let why = Spoken::each(|language| table_error_words(language, error));
    let path = path.display().to_string();
    let said = said!("heat-no-table", flag = flag, path = path, why = why);
    Failure::Said(Kind::Input, said.with("reason", error.code()))
}

/// A moment as a person writes it.
pub(super) fn time(flag: &str, text: &str) -> Result<Timestamp, Failure> {
    Ok(read_moment(
        flag,
        text,
        &ZonedDateTime::now(),
        DayEdge::Begin,
    )?)
}
