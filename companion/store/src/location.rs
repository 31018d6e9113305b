//! Where the store lies.

use super::StoreError;
use super::file_identity::FileIdentity;
use std::ffi::OsString;
use std::fs::OpenOptions;
use std::path::{Path, PathBuf};

/// The store's file within its folder.
const FILE: &str = "evenhand.sqlite3";

/// The folder within it for what a simulated scale makes.
const SIMULATED: &str = "simulated";

/// What SQLite keeps beside a store's file while it is in use.
pub(super) const BESIDE: [&str; 3] = ["-wal", "-shm", "-journal"];

/// The folder that holds the store.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DataFolder(PathBuf);

impl DataFolder {
    /// The folder asked for, or the one that the platform's conventions give:
    /// on Linux `$XDG_DATA_HOME/evenhand` or `~/.local/share/evenhand`.
    ///
    /// # Errors
    /// [`StoreError::NoPlace`] where the platform gives none.
    pub fn choose(asked: Option<&Path>) -> Result<Self, StoreError> {
        match asked {
            Some(path) => Ok(Self(path.to_owned())),
            None => directories::ProjectDirs::from("", "", "evenhand")
                .map(|places| Self(places.data_dir().to_owned()))
                .ok_or(StoreError::NoPlace),
        }
    }

    /// The folder asked for, or the one for what a simulated scale makes:
    /// within the platform's, never the kitchen's own record.
    ///
    /// # Errors
    /// [`StoreError::NoPlace`] where the platform gives none.
    pub fn choose_for_simulated(asked: Option<&Path>) -> Result<Self, StoreError> {
        let chosen = Self::choose(asked)?;
        Ok(match asked {
            Some(_) => chosen,
            None => chosen.for_simulated(),
        })
    }

    /// The folder within this one for what a simulated scale makes; this one, where it is
    /// such a folder.
    #[must_use]
    pub fn for_simulated(&self) -> Self {
        if self.is_for_simulated() {
            self.clone()
        } else {
            Self(self.0.join(SIMULATED))
        }
    }

    /// The folder for what a scale makes: the one around this, where this is one for what
    /// a simulated scale makes.
    #[must_use]
    pub fn for_a_scale(&self) -> Self {
        match self.0.parent() {
            Some(around) if self.is_for_simulated() => Self(around.to_owned()),
            _ => self.clone(),
        }
    }

    fn is_for_simulated(&self) -> bool {
        self.0.file_name().is_some_and(|name| name == SIMULATED)
    }

    /// The folder's path.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.0
    }

    /// The store's file.
    #[must_use]
    pub fn file(&self) -> PathBuf {
        self.0.join(FILE)
    }

    /// Whether a store lies here.
    #[must_use]
    pub fn has_store(&self) -> bool {
        self.file().is_file()
    }

    /// Whether writing to `path` would touch the store: its file or what
    /// SQLite keeps beside it, by any name or link, there already or not yet.
    #[must_use]
    pub fn is_part_of_store(&self, path: &Path) -> bool {
        is_part_of(&self.file(), path)
    }

    /// Makes the folder where it is not there yet, for this user alone.
    pub(super) fn make(&self) -> Result<(), StoreError> {
        let mut builder = std::fs::DirBuilder::new();
        builder.recursive(true);
        #[cfg(unix)]
        std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
        builder.create(&self.0).map_err(|why| StoreError::Folder {
            path: self.0.clone(),
            why,
        })
    }
}

/// Whether `path` is a store's file or what SQLite keeps beside it.
pub(super) fn is_part_of(file: &Path, path: &Path) -> bool {
    let parts = std::iter::once(file.to_owned()).chain(BESIDE.map(|suffix| beside(file, suffix)));
    let target = FileIdentity::of(path);
    let real = |path: &Path| std::fs::canonicalize(path).ok();
    let (place, real_target) = (named_place(path), real(path));
    parts.into_iter().any(|part| {
        (cfg!(unix) && target.is_some() && target == FileIdentity::of(&part))
            || named_place(&part) == place
            || (real_target.is_some() && real(&part) == real_target)
    })
}

/// The name of what lies beside a file under its name and a suffix.
pub(super) fn beside(file: &Path, suffix: &str) -> PathBuf {
    let mut name = OsString::from(file);
    name.push(suffix);
    PathBuf::from(name)
}

/// A path by the folder that it really lies in, also where it is not there.
fn named_place(path: &Path) -> PathBuf {
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    match (std::fs::canonicalize(folder), path.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => path.to_owned(),
    }
}

/// Makes a file for this user alone, where none is there: SQLite gives what it
/// keeps beside it the same permissions.
pub(super) fn make_private(path: &Path) {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    // Where it cannot be made, opening it says why.
    drop(options.open(path));
}

/// Takes the others' permissions off a file of an earlier version, which was
/// made with what the user's mask left.
pub(super) fn keep_private(path: &Path) {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        for part in
            std::iter::once(path.to_owned()).chain(BESIDE.map(|suffix| beside(path, suffix)))
        {
            let Ok(found) = std::fs::metadata(&part) else {
                continue;
            };
            let mode = found.permissions().mode();
            // What cannot be changed belongs to another user, who decides.
            let _ = std::fs::set_permissions(&part, std::fs::Permissions::from_mode(mode & 0o700));
        }
    }
    #[cfg(not(unix))]
    let _ = path;
}

/// Whether a path leads to an SQLite database, to its log, or to where SQLite
/// would keep something beside one.
#[must_use]
pub fn is_database(path: &Path) -> bool {
    // The headers of a database and of its log (https://www.sqlite.org/fileformat.html,
    // 1.3.1 and 4.1, from memory).
    let begins = |path: &Path| {
        let mut first = [0; 16];
        let read = std::fs::File::open(path)
            .and_then(|mut file| std::io::Read::read_exact(&mut file, &mut first));
        read.is_ok()
            && (first == *b"SQLite format 3\0"
                || matches!(first[..4], [0x37, 0x7f, 0x06, 0x82 | 0x83]))
    };
    // A pipe would keep whoever opens it waiting.
    if path.is_file() && begins(path) {
        return true;
    }
    let name = path.to_string_lossy();
    BESIDE.iter().any(|suffix| {
        name.strip_suffix(suffix)
            .map(Path::new)
            .is_some_and(|base| base.is_file() && begins(base))
    })
}
