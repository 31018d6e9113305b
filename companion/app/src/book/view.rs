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
/// or a list. A touch wishes for a `W`.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet<W = BookWish> {
    /// What it is about.
    pub heading: String,
    /// What to do.
    pub prompt: String,
    /// What can be set.
    pub fields: Vec<FieldView<W>>,
    /// What can be chosen.
    pub rows: Vec<RowView<W>>,
    /// What must be seen before anything else: why there is no answer.
    pub loud: Option<String>,
    /// Batches side by side in a picture.
    pub bars: Option<Bars<W>>,
    /// What follows, line by line.
    pub lines: Vec<String>,
    /// What can be done.
    pub foot: Vec<FootView<W>>,
}

impl<W> Default for Sheet<W> {
    fn default() -> Self {
        Self {
            heading: String::new(),
            prompt: String::new(),
            fields: Vec::new(),
            rows: Vec::new(),
            loud: None,
            bars: None,
            lines: Vec::new(),
            foot: Vec::new(),
        }
    }
}

/// Batches in one picture, each over the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Bars<W = BookWish> {
    /// What came out, in the order of the bars' parts.
    pub legend: Vec<String>,
    /// What the rest of a bar is.
    pub lost: String,
    /// What the figures beside a bar are.
    pub figures: String,
    /// Each batch.
    pub bars: Vec<BarView<W>>,
}

/// One batch of the picture.
#[derive(Debug, Clone, PartialEq)]
pub struct BarView<W = BookWish> {
    /// Which.
    pub name: String,
    /// Everything that went in.
    pub into: f32,
    /// What came out of each in the legend.
    pub out: Vec<f32>,
    /// In figures.
    pub figures: String,
    /// Whether it is the one that is told of.
    pub chosen: bool,
    /// What a touch wishes for.
    pub wish: W,
}

/// Something that can be set.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldView<W = BookWish> {
    /// What it is.
    pub caption: String,
    /// How it stands.
    pub value: String,
    /// Whether it is chosen among several.
    pub chosen: bool,
    /// What a touch wishes for.
    pub wish: W,
}

/// Something in a list.
#[derive(Debug, Clone, PartialEq)]
pub struct RowView<W = BookWish> {
    /// What it is.
    pub name: String,
    /// More about it.
    pub about: String,
    /// What a touch wishes for.
    pub wish: W,
}

/// Something that can be done.
#[derive(Debug, Clone, PartialEq)]
pub struct FootView<W = BookWish> {
    /// What.
    pub words: String,
    /// Whether it is the one to do next.
    pub main: bool,
    /// Whether it can be done now.
    pub enabled: bool,
    /// What a touch wishes for.
    pub wish: W,
}

impl<W> FieldView<W> {
    pub(crate) fn new(caption: impl Into<String>, value: String, wish: W) -> Self {
        Self {
            caption: caption.into(),
            value,
            chosen: false,
            wish,
        }
    }
}

impl<W> FootView<W> {
    pub(crate) fn plain(words: impl Into<String>, wish: W) -> Self {
        Self {
            words: words.into(),
            main: false,
            enabled: true,
            wish,
        }
    }

    pub(crate) fn main(words: impl Into<String>, wish: W, enabled: bool) -> Self {
        Self {
            words: words.into(),
            main: true,
            enabled,
            wish,
        }
    }
}
