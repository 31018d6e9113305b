//! What the book's screens show, as plain data.

use super::{BookPage, BookWish};
use crate::mixing::EntryView;

/// The book's screens.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BookView {
    /// Which is shown.
    pub page: BookPage,
    /// What is being typed, over any of them.
    pub entry: Option<EntryView>,
    /// What stands on it.
    pub sheet: Sheet,
}

/// One screen: what can be set on the left, what follows from it on the right;
/// or a list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sheet {
    /// What it is about.
    pub heading: String,
    /// What to do.
    pub prompt: String,
    /// What can be set.
    pub fields: Vec<FieldView>,
    /// What can be chosen.
    pub rows: Vec<RowView>,
    /// What must be seen before anything else: why there is no answer.
    pub loud: Option<String>,
    /// What follows, line by line.
    pub lines: Vec<String>,
    /// What can be done.
    pub foot: Vec<FootView>,
}

/// Something that can be set.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldView {
    /// What it is.
    pub caption: String,
    /// How it stands.
    pub value: String,
    /// Whether it is chosen among several.
    pub chosen: bool,
    /// What a touch wishes for.
    pub wish: BookWish,
}

/// Something in a list.
#[derive(Debug, Clone, PartialEq)]
pub struct RowView {
    /// What it is.
    pub name: String,
    /// More about it.
    pub about: String,
    /// What a touch wishes for.
    pub wish: BookWish,
}

/// Something that can be done.
#[derive(Debug, Clone, PartialEq)]
pub struct FootView {
    /// What.
    pub words: String,
    /// Whether it is the one to do next.
    pub main: bool,
    /// Whether it can be done now.
    pub enabled: bool,
    /// What a touch wishes for.
    pub wish: BookWish,
}

impl FieldView {
    pub(super) fn new(caption: impl Into<String>, value: String, wish: BookWish) -> Self {
        Self {
            caption: caption.into(),
            value,
            chosen: false,
            wish,
        }
    }
}

impl FootView {
    pub(super) fn plain(words: impl Into<String>, wish: BookWish) -> Self {
        Self {
            words: words.into(),
            main: false,
            enabled: true,
            wish,
        }
    }

    pub(super) fn main(words: impl Into<String>, wish: BookWish, enabled: bool) -> Self {
        Self {
            words: words.into(),
            main: true,
            enabled,
            wish,
        }
    }
}
