//! What the record, and the files beside it, refuse, in words for a screen.

use crate::limits::LimitsError;
use crate::mixing::batch::batch_error_words;
use crate::words::say;
use evenhand_store::StoreError;
use evenhand_words::Language;
use std::io;
use std::path::Path;

/// Why the record did not do as asked.
#[must_use]
pub fn store_error_words(language: Language, error: &StoreError) -> String {
    let (code, name) = match error {
        StoreError::Batch(error) => return batch_error_words(language, error),
        StoreError::Moved { path } => ("moved", file(path)),
        StoreError::Newer { path, .. } => ("newer", file(path)),
        StoreError::NotOurs { path }
        | StoreError::Damaged { path, .. }
        | StoreError::Backup { path, .. }
        | StoreError::AfterRestore { path, .. }
        | StoreError::Senseless { path, .. } => ("damaged", file(path)),
        StoreError::ReadOnly { path } => ("read-only", path.display().to_string()),
        StoreError::Full { path } => ("full", file(path)),
        StoreError::Busy { path } => ("busy", file(path)),
        StoreError::Disk { path, .. } => ("disk", path.display().to_string()),
        StoreError::Folder { path, .. } => ("read-only", path.display().to_string()),
        StoreError::NoStore { .. } | StoreError::NoPlace => ("none", String::new()),
        StoreError::UnknownDish { name, .. }
        | StoreError::UnknownVessel { name, .. }
        | StoreError::UnknownHeatLog { name, .. } => ("not-there", name.clone()),
        StoreError::UnknownTin(name)
        | StoreError::UnknownBatch(name)
        | StoreError::UnknownPortion(name) => ("not-there", name.clone()),
        StoreError::UnknownOrder(number) => ("not-there", number.to_string()),
        StoreError::UnknownPicture(id) => ("not-there", id.to_string()),
        StoreError::Vessel(error) => ("input", error.value().to_owned()),
        StoreError::Sql { code, .. } => ("other", code.to_string()),
        _ => ("other", String::from("?")),
    };
    say!(language, "record-refused", code = code, name = name).into_owned()
}

/// A file by its name alone.
pub(crate) fn file(path: &Path) -> String {
    path.file_name()
        .unwrap_or(path.as_os_str())
        .to_string_lossy()
        .into_owned()
}

/// Why the system did not read or write a file.
#[must_use]
pub fn why(language: Language, error: &io::Error) -> String {
    let code = match error.kind() {
        io::ErrorKind::NotFound => "not-there",
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => "denied",
        io::ErrorKind::StorageFull => "full",
        _ => "other",
    };
    let number = error
        .raw_os_error()
        .map_or_else(|| String::from("?"), |number| number.to_string());
    say!(language, "record-why", code = code, number = number).into_owned()
}

/// Why no limits are in force.
#[must_use]
pub fn limits_error_words(language: Language, error: &LimitsError) -> String {
    match error {
        LimitsError::Unreadable { path, error } => say!(
            language,
            "record-limits-unreadable",
            file = file(path),
            why = why(language, error)
        ),
        LimitsError::Refused { path, .. } => {
            say!(language, "record-limits-refused", file = file(path))
        }
    }
    .into_owned()
}
