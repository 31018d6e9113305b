//! Several desktops, one record: the store with the plain files beside it.
//!
//! The kitchen's own limits, its formulas and its lots are files that a cook writes. One that
//! was changed here is told to the others, and what they changed last is written here. A file
//! that is deleted at one desktop is not deleted at another: it comes back.

use crate::{book, limits, lots, plain_files};
use evenhand_store::{Gathered, Gathering, PlainFile, Store, StoreError};
use jiff::Timestamp;
use std::collections::BTreeMap;
use std::io;
use std::path::{Component, Path, PathBuf};

/// Why a record was not gathered.
#[derive(Debug, thiserror::Error)]
pub enum GatherError {
    /// The store or the shared folder.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A plain file that cannot be read or written.
    #[error("{} cannot be used: {why}", path.display())]
    File {
        /// The file.
        path: PathBuf,
        /// What the system said.
        why: io::Error,
    },
}

/// What came of a gathering, with the plain files that were written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GatheredAll {
    /// What came of the store's.
    pub record: Gathered,
    /// The files that say something else now than they did, by their names.
    pub files: Vec<String>,
}

/// Tells the others through a shared folder what is new here, and puts on record what they
/// told; `data` is the folder that the plain files lie in.
///
/// # Errors
/// Where the store, the shared folder or a plain file cannot be used.
pub fn gather(
    store: &mut Store,
    data: &Path,
    shared: &Path,
    how: Gathering,
    now: Timestamp,
) -> Result<GatheredAll, GatherError> {
    let here = files(data)?;
    for (name, text) in &here {
        let file = PlainFile {
            name: name.clone(),
            text: text.clone(),
        };
        store.note_plain_file(&file, now)?;
    }
    let record = store.gather(shared, how, now)?;
    let mut written = Vec::new();
    for file in store.plain_files()? {
        if here.get(&file.name) == Some(&file.text) {
            continue;
        }
        // A name from elsewhere never leads out of the folder.
        let Some(path) = place(data, &file.name) else {
            continue;
        };
        plain_files::write_whole(&path, file.text.as_bytes())
            .map_err(|why| GatherError::File { path, why })?;
        written.push(file.name);
    }
    Ok(GatheredAll {
        record,
        files: written,
    })
}

/// Where a file lies: the kitchen's limits, or one of its two folders' own.
fn place(data: &Path, name: &str) -> Option<PathBuf> {
    if name == limits::FILE {
        return Some(data.join(name));
    }
    let (folder, file) = name.split_once('/')?;
    let plain = Path::new(file).components().count() == 1
        && matches!(
            Path::new(file).components().next(),
            Some(Component::Normal(_))
        )
        && !file.contains(['/', '\\'])
        && !file.starts_with('.')
        && file.ends_with(".toml");
    ([book::FOLDER, lots::FOLDER].contains(&folder) && plain).then(|| data.join(folder).join(file))
}

/// The plain files by their names, with what is in them.
fn files(data: &Path) -> Result<BTreeMap<String, String>, GatherError> {
    let refused = |path: &Path, why| GatherError::File {
        path: path.to_owned(),
        why,
    };
    let mut found = BTreeMap::new();
    let limits = data.join(limits::FILE);
    match std::fs::read_to_string(&limits) {
        Ok(text) => {
            found.insert(limits::FILE.to_owned(), text);
        }
        Err(why) if why.kind() == io::ErrorKind::NotFound => {}
        Err(why) => return Err(refused(&limits, why)),
    }
    for folder in [book::FOLDER, lots::FOLDER] {
        let within = data.join(folder);
        let paths =
            plain_files::in_folder(&within, &["toml"]).map_err(|why| refused(&within, why))?;
        for path in paths {
            let Some(file) = path.file_name().and_then(|name| name.to_str()) else {
                continue;
            };
            let text = std::fs::read_to_string(&path).map_err(|why| refused(&path, why))?;
            found.insert(format!("{folder}/{file}"), text);
        }
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_store::DataFolder;

    struct Desk {
        folder: tempfile::TempDir,
        store: Store,
    }

    impl Desk {
        fn new() -> Self {
            let folder = tempfile::tempdir().unwrap();
            let store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
            Self { folder, store }
        }

        fn gather(&mut self, shared: &Path, second: i64) -> GatheredAll {
            let now = Timestamp::from_second(1_780_000_000 + second).unwrap();
            let data = self.folder.path().to_owned();
            gather(&mut self.store, &data, shared, Gathering::Both, now).unwrap()
        }

        fn write(&self, name: &str, text: &str) {
            let path = self.folder.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, text).unwrap();
        }

        fn read(&self, name: &str) -> String {
            std::fs::read_to_string(self.folder.path().join(name)).unwrap()
        }
    }

    #[test]
    fn of_a_file_changed_at_both_the_later_counts_and_the_other_is_kept() {
        let shared = tempfile::tempdir().unwrap();
        let (mut pass, mut prep) = (Desk::new(), Desk::new());
        pass.write("limits.toml", "# pass\n");
        pass.write("formulas/loaf.toml", "# loaf\n");
        pass.gather(shared.path(), 1);
        assert_eq!(
            prep.gather(shared.path(), 2).files,
            ["formulas/loaf.toml", "limits.toml"]
        );
        assert_eq!(prep.read("formulas/loaf.toml"), "# loaf\n");
        pass.write("limits.toml", "# pass again\n");
        prep.write("limits.toml", "# prep\n");
        prep.gather(shared.path(), 3);
        let there = pass.gather(shared.path(), 4);
        assert_eq!(there.record.overruled.len(), 1);
        assert_eq!(there.record.overruled[0].said, "# prep\n");
        prep.gather(shared.path(), 5);
        for desk in [&pass, &prep] {
            assert_eq!(desk.read("limits.toml"), "# pass again\n");
        }
        assert!(prep.gather(shared.path(), 6).files.is_empty());
    }

    #[test]
    fn a_name_from_elsewhere_never_leads_out_of_the_folder() {
        for name in [
            "../x.toml",
            "formulas/../../x.toml",
            "formulas/..",
            "formulas/a/b.toml",
            "formulas/.hidden.toml",
            "formulas/a\\b.toml",
            "/etc/x.toml",
            "app.toml",
            "evenhand.sqlite3",
            "formulas/run.sh",
        ] {
            assert_eq!(place(Path::new("data"), name), None, "{name}");
        }
        assert!(place(Path::new("data"), "lots/gravlax.toml").is_some());
    }
}
