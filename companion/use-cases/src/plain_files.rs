//! The files that a cook puts in a folder.

use std::io;
use std::path::{Path, PathBuf};

/// The plain files of a folder that end in one of these, in no order; none where it is not
/// there.
///
/// # Errors
/// Where the folder is there and cannot be read.
pub(crate) fn in_folder(folder: &Path, endings: &[&str]) -> io::Result<Vec<PathBuf>> {
    let entries = match std::fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(error),
    };
    let mut paths = Vec::new();
    for entry in entries {
        let path = entry?.path();
        let hidden = path
            .file_name()
            .is_some_and(|name| name.to_string_lossy().starts_with('.'));
        let ours = path
            .extension()
            .is_some_and(|found| endings.iter().any(|ending| found == *ending));
        if ours && !hidden {
            paths.push(path);
        }
    }
    Ok(paths)
}
