//! The limits that a kitchen goes by, read where its record is kept.
//!
//! Whoever judges anything asks here and nowhere else. A file that is broken or
//! cannot be read is an error on every face: the kitchen said that it goes by
//! limits of its own, so nothing is judged by others in silence.

use crate::words::say;
use evenhand_kitchen::limits::{Limits, LocalError, Source, Standing};
use evenhand_kitchen::source::Publication;
use evenhand_words::Language;
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

/// What a limit is called in a kitchen: a published one by the word of the
/// language, the kitchen's own as it was written.
#[must_use]
pub fn limit_words(language: Language, name: &str) -> String {
    let name = name.to_lowercase();
    let written = name.replace('-', " ");
    say!(language, "limit-name", name = name, written = written).into_owned()
}

const fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Read => "read",
        Standing::Quoted => "quoted",
        Standing::FromMemory => "from-memory",
        Standing::CommonPractice => "common-practice",
        Standing::Local => "local",
    }
}

/// Where a figure comes from, in the source's own words, and how it was had.
#[must_use]
pub fn source_words(language: Language, source: &Source) -> String {
    say!(
        language,
        "limit-source",
        document = source.document.as_str(),
        section = source.section.as_str(),
        standing = standing(source.standing),
    )
    .into_owned()
}

/// A publication by its title, and how its figures were had.
#[must_use]
pub fn publication_words(language: Language, publication: Publication) -> String {
    say!(
        language,
        "limit-publication",
        title = publication.title,
        standing = standing(publication.standing),
    )
    .into_owned()
}

/// What stands beside every answer that touches a limit.
#[must_use]
pub fn caution(language: Language) -> String {
    say!(language, "limit-caution").into_owned()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    /// What is said where nobody speaks another language is what the domain
    /// says.
    #[test]
    fn sources_and_the_caution_are_the_same_in_english() {
        for limit in Limits::food_code().iter() {
            let said = source_words(Language::English, &limit.source);
            assert_eq!(said, limit.source.to_string());
        }
        let publication = evenhand_kitchen::probe::TOLERANCES;
        let said = publication_words(Language::English, publication);
        assert_eq!(said, publication.to_string());
        assert_eq!(
            caution(Language::English),
            evenhand_kitchen::limits::CAUTION
        );
    }

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
