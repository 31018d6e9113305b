//! Files that a command writes.

use super::Failure;
use std::fs::File;
use std::io;
use std::path::Path;

/// Writes a file whole or not at all, `field` being where it was named: beside its place first, then into it.
pub(super) fn to_file(
    field: &str,
    path: &Path,
    force: bool,
    fill: impl FnOnce(&mut File) -> io::Result<()>,
) -> Result<(), Failure> {
    let there = || {
        Failure::Input(format!(
            "{field}: {} is there already; choose another name, or --force to write over it",
            path.display()
        ))
    };
    if !force && path.exists() {
        return Err(there());
    }
    let failed = |error: &io::Error| {
        Failure::Other(format!(
            "{field}: {} cannot be written: {error}; nothing was changed",
            path.display()
        ))
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
    fill(file.as_file_mut()).map_err(|error| failed(&error))?;
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
    Ok(())
}
