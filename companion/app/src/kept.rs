//! What is kept on this computer, and its copies.
//!
//! A copy is read back row by row before it is called one, as
//! [`Store::backup`] does it.

use super::words::{Language, say};
use evenhand_store::{DataFolder, Store};
use evenhand_use_cases::times;
use jiff::tz::{Offset, TimeZone};
use jiff::{Timestamp, civil};
use std::fs;
use std::path::{Path, PathBuf};

/// The folder of copies within a folder or a drive.
const FOLDER: &str = "evenhand-backups";
/// What a copy is called: `evenhand-2026-03-14-1942-05.sqlite3`.
const NAME: &str = "evenhand-%Y-%m-%d-%H%M-%S.sqlite3";

/// The screen of what is kept.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct KeptView {
    /// Where the record lies.
    pub folder: String,
    /// The zone that times of day are told in.
    pub zone: String,
    /// Where a copy can be made: a drive that was plugged in, else this computer itself.
    pub places: Vec<PlaceView>,
    /// A copy is being made.
    pub busy: bool,
    /// What became of the latest one asked for.
    pub told: Option<String>,
}

/// A place for copies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlaceView {
    /// The folder of the copies.
    pub folder: PathBuf,
    /// The latest copy that lies there.
    pub last: Option<String>,
    /// It is on another drive than the record.
    pub apart: bool,
}

/// What is kept in a folder, and where copies of it can go.
pub(crate) fn view(
    folder: &DataFolder,
    media: &[PathBuf],
    zone: &TimeZone,
    language: Language,
) -> KeptView {
    let own = [(folder.path().join(FOLDER), false)];
    let drives = drives(media).into_iter().map(|drive| (drive, true));
    let places = drives.chain(own).map(|(folder, apart)| PlaceView {
        last: last(&folder).map(|at| times::day_and_time(language, at, zone)),
        folder,
        apart,
    });
    KeptView {
        folder: folder.path().display().to_string(),
        zone: zone.iana_name().map_or_else(
            || {
                zone.to_fixed_offset()
                    .map_or_else(|_| String::new(), |offset| offset.to_string())
            },
            str::to_owned,
        ),
        places: places.collect(),
        busy: false,
        told: None,
    }
}

/// Where Linux mounts the drives that a person plugs in.
pub(crate) fn media() -> Vec<PathBuf> {
    std::env::var_os("USER").map_or_else(Vec::new, |user| {
        ["/media", "/run/media"]
            .map(|folder| Path::new(folder).join(&user))
            .to_vec()
    })
}

/// The folders of copies on the drives under these folders, at most two.
fn drives(media: &[PathBuf]) -> Vec<PathBuf> {
    let mut drives: Vec<PathBuf> = media
        .iter()
        .filter_map(|folder| fs::read_dir(folder).ok())
        .flatten()
        .filter_map(Result::ok)
        .map(|drive| drive.path())
        .filter(|drive| drive.is_dir())
        .map(|drive| drive.join(FOLDER))
        .collect();
    drives.sort();
    drives.truncate(2);
    drives
}

/// When the latest copy in a folder was made, by its name, in UTC.
fn last(folder: &Path) -> Option<Timestamp> {
    fs::read_dir(folder)
        .ok()?
        .filter_map(|file| {
            let name = file.ok()?.file_name();
            let at = civil::DateTime::strptime(NAME, name.to_str()?).ok()?;
            Offset::UTC.to_timestamp(at).ok()
        })
        .max()
}

/// Makes a copy in a folder, and says what became of it.
pub(crate) fn back_up(
    data: &DataFolder,
    into: &Path,
    now: Timestamp,
    language: Language,
) -> String {
    let file = into.join(now.strftime(NAME).to_string());
    let made = fs::create_dir_all(into).map_err(|error| error.to_string());
    let made = made.and_then(|()| {
        let store = Store::open(data).map_err(|error| error.to_string())?;
        store.backup(&file).map_err(|error| error.to_string())
    });
    let path = file.display().to_string();
    match made {
        Ok(examined) if examined.is_sound() => say!(
            language,
            "kept-backed-up",
            path = path,
            count = examined.portions
        ),
        Ok(_) => say!(language, "kept-backed-up-findings", path = path),
        Err(why) => say!(language, "kept-not-backed-up", path = path, why = why),
    }
    .into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_latest_copy_is_told_by_its_name() {
        let folder = tempfile::tempdir().unwrap();
        assert_eq!(last(folder.path()), None);
        for name in [
            "evenhand-2026-03-14-1942-05.sqlite3",
            "evenhand-2026-03-15-0001-00.sqlite3",
            "evenhand-2025-12-31-2359-59.sqlite3",
            "notes.txt",
        ] {
            fs::write(folder.path().join(name), "").unwrap();
        }
        assert_eq!(
            last(folder.path()),
            Some("2026-03-15T00:01:00Z".parse().unwrap())
        );
        // The name that is given is the one that is understood.
        let now: Timestamp = "2026-03-14T19:42:05Z".parse().unwrap();
        let name = now.strftime(NAME).to_string();
        assert_eq!(name, "evenhand-2026-03-14-1942-05.sqlite3");
    }

    #[test]
    fn drives_that_are_plugged_in_are_offered() {
        let media = tempfile::tempdir().unwrap();
        for drive in ["b-stick", "a-disk", "c-stick"] {
            fs::create_dir(media.path().join(drive)).unwrap();
        }
        fs::write(media.path().join("no-drive"), "").unwrap();
        let found = drives(&[media.path().join("nobody"), media.path().to_owned()]);
        let wanted = ["a-disk", "b-stick"].map(|drive| media.path().join(drive).join(FOLDER));
        assert_eq!(found, wanted);
    }
}
