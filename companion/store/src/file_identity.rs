//! Whether a path still leads to the file that was opened there.

use std::path::Path;

/// Which file a path led to. On systems that keep an open file from being
/// moved or replaced there is nothing to tell apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct FileIdentity {
    #[cfg(unix)]
    device: u64,
    #[cfg(unix)]
    inode: u64,
}

impl FileIdentity {
    /// The file that a path leads to now, links followed; `None` where there
    /// is none.
    #[cfg(unix)]
    pub(super) fn of(path: &Path) -> Option<Self> {
        use std::os::unix::fs::MetadataExt;
        let found = std::fs::metadata(path).ok()?;
        Some(Self {
            device: found.dev(),
            inode: found.ino(),
        })
    }

    /// The file that a path leads to now; `None` where there is none.
    #[cfg(not(unix))]
    pub(super) fn of(path: &Path) -> Option<Self> {
        path.exists().then_some(Self {})
    }
}
