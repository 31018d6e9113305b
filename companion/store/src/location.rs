//! Where the store lies.

use super::StoreError;
use std::path::{Path, PathBuf};

/// The store's file within its folder.
const FILE: &str = "evenhand.sqlite3";

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

    /// Makes the folder where it is not there yet.
    pub(super) fn make(&self) -> Result<(), StoreError> {
        std::fs::create_dir_all(&self.0).map_err(|why| StoreError::Folder {
            path: self.0.clone(),
            why,
        })
    }
}
