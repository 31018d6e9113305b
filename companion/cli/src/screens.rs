//! What the command line needs of the screens, without knowing how they are drawn.

use evenhand_link::Endpoint;
use evenhand_link::live::LiveScale;
use evenhand_store::{DataFolder, Store};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use std::path::Path;

/// How the screens are to be opened.
#[derive(Debug)]
pub struct Opening {
    /// Where everything is kept.
    pub folder: DataFolder,
    /// Where the scale is; else where it was last, or where the cook says.
    pub place: Option<Endpoint>,
    /// The language to open in; else the one that was chosen last, or the
    /// system's.
    pub language: Option<Language>,
    /// Open at the review of the latest service instead of at the scale.
    pub at_review: bool,
}

/// The screens of the program that the command line belongs to.
pub trait Screens {
    /// Opens the window and stays until it is closed.
    ///
    /// # Errors
    /// [`NotShown`], where there are no screens or no display.
    fn open(&self, opening: Opening) -> Result<(), NotShown>;

    /// Writes the portioning screen to a PNG file, with today's portions from the store.
    ///
    /// # Errors
    /// [`NotShown`], where nothing can be drawn here or the file cannot be written.
    fn picture(
        &self,
        path: &Path,
        live: &LiveScale,
        store: &Store,
        zone: &TimeZone,
    ) -> Result<(), NotShown>;
}

/// Why nothing was shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotShown {
    /// This build has no screens.
    NoScreens,
    /// What failed, in words.
    Failed(String),
}

/// A build without screens.
#[derive(Debug, Clone, Copy)]
pub struct NoScreens;

impl Screens for NoScreens {
    fn open(&self, _: Opening) -> Result<(), NotShown> {
        Err(NotShown::NoScreens)
    }

    fn picture(&self, _: &Path, _: &LiveScale, _: &Store, _: &TimeZone) -> Result<(), NotShown> {
        Err(NotShown::NoScreens)
    }
}
