//! Files that a command writes: each whole or not at all, and never the store.

use super::words::{bad_input, failed, say};
use super::{Data, Failure};
use clap::Args;
use evenhand_store::StoreError;
use evenhand_use_cases::printing::PageError;
use std::fs::File;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A page to print, beside what is said.
#[derive(Debug, Args)]
pub(super) struct PdfArguments {
    /// Write it to this file, as PDF to print.
    #[arg(long, value_name = "FILE")]
    pub(super) pdf: Option<PathBuf>,
    /// Write over a file that is there.
    #[arg(long, requires = "pdf")]
    pub(super) force: bool,
}

impl PdfArguments {
    /// Writes it where one was asked for, and says so of `what`.
    pub(super) fn write(
        &self,
        data: &Data,
        what: &str,
        page: impl FnOnce() -> Result<Vec<u8>, PageError>,
    ) -> Result<(), Failure> {
        let Some(path) = &self.pdf else {
            return Ok(());
        };
        let bytes = page().map_err(|error| failed!("page-failed", why = error.to_string()))?;
        to_file(data, "--pdf", path, self.force, |file| {
            file.write_all(&bytes)
        })?;
        let path = path.display().to_string();
        eprintln!(
            "{}",
            say!(data.language, "page-written", what = what, path = path)
        );
        Ok(())
    }
}

/// Writes a file whole or not at all, `field` being where it was named: beside
/// its place first, then into it. A link in its place is replaced, not
/// followed.
pub(super) fn to_file<T, E: Into<Unfilled>>(
    data: &Data,
    field: &str,
    path: &Path,
    force: bool,
    fill: impl FnOnce(&mut File) -> Result<T, E>,
) -> Result<T, Failure> {
    may_be_written(data, field, path)?;
    let there = || already_there(field, path);
    if !force && path.symlink_metadata().is_ok() {
        return Err(there());
    }
    let failed = |error: &io::Error| {
        failed!(
            "file-failed",
            field = field,
            path = path.display().to_string(),
            why = error,
        )
    };
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As any new file: what the user's mask leaves of it.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut file = builder
        .prefix(".evenhand-")
        .tempfile_in(folder)
        .map_err(|error| failed(&error))?;
    let filled = fill(file.as_file_mut()).map_err(|error| match error.into() {
        Unfilled::Output(error) => failed(&error),
        Unfilled::Source(failure) => failure,
    })?;
    file.as_file().sync_all().map_err(|error| failed(&error))?;
    if force {
        file.persist(path).map_err(|error| failed(&error.error))?;
    } else {
        file.persist_noclobber(path).map_err(|error| {
            if error.error.kind() == io::ErrorKind::AlreadyExists {
                there()
            } else {
                failed(&error.error)
            }
        })?;
    }
    Ok(filled)
}

/// Why a file was not filled.
#[derive(Debug)]
pub(super) enum Unfilled {
    /// It cannot be written.
    Output(io::Error),
    /// What was to be in it cannot be had.
    Source(Failure),
}

impl From<io::Error> for Unfilled {
    fn from(error: io::Error) -> Self {
        Self::Output(error)
    }
}

impl From<StoreError> for Unfilled {
    fn from(error: StoreError) -> Self {
        Self::Source(error.into())
    }
}

/// That a file is there, and what to do.
pub(super) fn already_there(field: &str, path: &Path) -> Failure {
    bad_input!(
        "file-there",
        field = field,
        path = path.display().to_string()
    )
}

/// Refuses a name that leads to the store, to another store or to what is no
/// file.
pub(super) fn may_be_written(data: &Data, field: &str, path: &Path) -> Result<(), Failure> {
    let refused = |what: &str| {
        Err(bad_input!(
            "file-refused",
            field = field,
            path = path.display().to_string(),
            what = what,
        ))
    };
    if data.folder()?.is_part_of_store(path) {
        return refused("store");
    }
    if evenhand_store::is_database(path) {
        return refused("database");
    }
    match path.metadata() {
        Ok(found) if found.is_dir() => refused("folder"),
        Ok(found) if !found.is_file() => refused("no-file"),
        _ => Ok(()),
    }
}
