//! The files that a cook puts in a folder, and those that are written for one.

use std::io::{self, Write as _};
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

/// Writes a file whole or not at all, over one of that name, and its folder where that is not
/// there.
///
/// # Errors
/// Where it cannot be written.
pub fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    std::fs::create_dir_all(folder)?;
    let mut new = tempfile::NamedTempFile::new_in(folder)?;
    new.write_all(bytes)?;
    new.as_file().sync_all()?;
    new.persist(path)?;
    Ok(())
}
