//! The limits that a kitchen goes by, read where its record is kept.
//!
//! Whoever judges anything asks here and nowhere else. A file that is broken or
//! cannot be read is an error on every face: the kitchen said that it goes by
//! limits of its own, so nothing is judged by others in silence.

use evenhand_kitchen::limits::{Limits, LocalError};
use std::io;
use std::path::{Path, PathBuf};

/// The file's name in the data folder.
pub const FILE: &str = "limits.toml";

/// Why there are no limits to judge by.
#[derive(Debug, thiserror::Error)]
pub enum LimitsError {
    /// The file is there and cannot be read.
    #[error("{path} cannot be read: {error}. Nothing is judged until it can")]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// Why.
        error: io::Error,
    },
    /// The file can be read and makes no sense.
    #[error("{path}: {error}. Nothing is judged until it is put right")]
    Refused {
        /// The file.
        path: PathBuf,
        /// What is wrong with it.
        error: LocalError,
    },
}

/// The limits in force for the record in a folder: the kitchen's own file over
/// the published ones, or the published ones where there is no such file.
///
/// # Errors
/// [`LimitsError`]: nothing may be judged then.
pub fn in_force(folder: &Path) -> Result<Limits, LimitsError> {
    let path = folder.join(FILE);
    match std::fs::read_to_string(&path) {
        Ok(text) => limits(path, Some(&text)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => limits(path, None),
        Err(error) => Err(LimitsError::Unreadable { path, error }),
    }
}

/// The limits in force by a file that somebody named.
///
/// # Errors
/// [`LimitsError`], where the file is not there too.
pub fn from_file(path: &Path) -> Result<Limits, LimitsError> {
    let path = path.to_owned();
    match std::fs::read_to_string(&path) {
        Ok(text) => limits(path, Some(&text)),
        Err(error) => Err(LimitsError::Unreadable { path, error }),
    }
}

fn limits(path: PathBuf, text: Option<&str>) -> Result<Limits, LimitsError> {
    Limits::in_force(text).map_err(|error| LimitsError::Refused { path, error })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn without_a_file_the_published_limits_hold_and_a_bad_one_holds_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let published = in_force(folder.path()).unwrap();
        assert_eq!(published, Limits::food_code());
        let path = folder.path().join(FILE);
        std::fs::write(
            &path,
            "[[limit]]\nname='cold-holding'\nkind='at-most'\ncelsius=2\nsource='ours'\n",
        )
        .unwrap();
        let own = in_force(folder.path()).unwrap();
        assert_ne!(own.named("cold-holding"), published.named("cold-holding"));
        std::fs::write(&path, "[[limit]]\nname='cold-holding'\nkind='at-most'\n").unwrap();
        let error = in_force(folder.path()).unwrap_err();
        assert!(matches!(error, LimitsError::Refused { .. }), "{error}");
        assert!(error.to_string().contains("Nothing is judged"), "{error}");
        // A file that is no text cannot be read; nor can a folder in its place.
        std::fs::write(&path, [0xff, 0xfe, 0x00]).unwrap();
        assert!(matches!(
            in_force(folder.path()),
            Err(LimitsError::Unreadable { .. })
        ));
        std::fs::remove_file(&path).unwrap();
        std::fs::create_dir(&path).unwrap();
        assert!(matches!(
            in_force(folder.path()),
            Err(LimitsError::Unreadable { .. })
        ));
        assert!(matches!(
            from_file(&folder.path().join("elsewhere.toml")),
            Err(LimitsError::Unreadable { .. })
        ));
    }
}
