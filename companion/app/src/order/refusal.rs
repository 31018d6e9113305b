//! Why a wish on the screens of what to order came to nothing.

use super::Asked;
use super::typed::{caption, expected};
use crate::typed_field;
use crate::words::{Language, say};
use crate::worker::NoWorker;
use evenhand_kitchen::prep::{FileError, GoodsDraft, GoodsKey, GoodsPlace, GoodsRefused, NewUse};
use evenhand_store::StoreError;
use evenhand_use_cases::limits::LimitsError;
use evenhand_use_cases::prep::{FileRefused, file_error_words, file_refused_words};
use evenhand_use_cases::record::{limits_error_words, store_error_words};
use std::fmt;

/// Why a wish came to nothing.
#[derive(Debug)]
pub enum OrderRefusal {
    /// The store.
    Store(StoreError),
    /// What was typed cannot be used.
    Typed {
        /// What was asked for.
        asked: Asked,
        /// What was typed.
        text: String,
        /// Whether another has that name.
        taken: bool,
    },
    /// The list on record, or one of a file, does not hang together.
    Goods(FileError),
    /// The list being written does not; in words, as only the draft knows its names.
    Draft(String),
    /// A file gives no list.
    File(FileRefused),
    /// A file cannot be written.
    NotWritten(String),
    /// The kitchen's own limits.
    Limits(LimitsError),
    /// The list being written is not kept.
    Unkept,
    /// The worker has ended.
    NoWorker(NoWorker),
}

impl OrderRefusal {
    /// As a sentence of a language.
    #[must_use]
    pub fn in_words(&self, language: Language) -> String {
        match self {
            Self::Store(error) => store_error_words(language, error),
            Self::Typed { asked, text, taken } => {
                let field = caption(language, *asked);
                typed_field::refused(language, field, text, *taken, || expected(language, *asked))
            }
            Self::Goods(error) => file_error_words(language, error),
            Self::Draft(words) => words.clone(),
            Self::File(error) => file_refused_words(language, error),
            Self::NotWritten(why) => {
                say!(language, "menus-not-written", why = why.as_str()).into_owned()
            }
            Self::Limits(error) => limits_error_words(language, error),
            Self::Unkept => say!(language, "orders-unkept").into_owned(),
            Self::NoWorker(none) => none.in_words(language),
        }
    }
}

/// What of a list being written does not hang together, in words.
pub(super) fn refused_words(
    language: Language,
    draft: &GoodsDraft,
    refused: &GoodsRefused,
) -> String {
    let Some((place, key)) = refused.at else {
        return file_error_words(language, &refused.error);
    };
    let asked = Asked::Said(place, key);
    let goods = match place {
        GoodsPlace::Use(n, _) => GoodsPlace::Goods(n),
        place => place,
    };
    let thing = draft.said(goods, GoodsKey::Name).unwrap_or_default();
    let field = caption(language, asked);
    let said = draft.said(place, key);
    // A dish goes by its yield with one of the goods that become it.
    let dish = matches!(place, GoodsPlace::Use(n, u) if draft.kind_of(n, u) == Some(NewUse::Dish));
    let expected = if dish && key == GoodsKey::Takes && said.is_none() {
        say!(language, "orders-takes-of-each").into_owned()
    } else {
        expected(language, asked)
    };
    typed_field::does_not_fit(language, thing, field, said, &expected)
}

impl fmt::Display for OrderRefusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.in_words(Language::English))
    }
}

impl std::error::Error for OrderRefusal {}

impl From<NoWorker> for OrderRefusal {
    fn from(none: NoWorker) -> Self {
        Self::NoWorker(none)
    }
}

impl From<StoreError> for OrderRefusal {
    fn from(error: StoreError) -> Self {
        Self::Store(error)
    }
}
