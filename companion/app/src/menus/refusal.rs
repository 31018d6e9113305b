//! Why a wish on the screens of menus came to nothing, and what of a menu does not hang together.

use super::Asked;
use super::typed::{caption, expected};
use crate::typed_field;
use crate::words::{Language, say};
use crate::worker::NoWorker;
use evenhand_kitchen::prep::{
    BoardError, FileError, KeepingError, MenuDraft, MenuKey, MenuPlace, MenuRefused,
};
use evenhand_store::StoreError;
use evenhand_use_cases::limits::LimitsError;
use evenhand_use_cases::prep::{
    FileRefused, MadeForError, PrepError, error_words, file_error_words, file_refused_words,
};
use evenhand_use_cases::record::{limits_error_words, store_error_words};
use std::fmt;

/// Why a wish came to nothing.
#[derive(Debug)]
pub enum MenusRefusal {
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
    /// The menu does not hang together; in words, as only the draft knows its names.
    Menu(String),
    /// A file gives no menu.
    File(FileRefused),
    /// A file cannot be written.
    NotWritten(String),
    /// No menu is in force on that day.
    Prep(PrepError),
    /// What is made for a service cannot be known.
    Made(String),
    /// The kitchen's own limits.
    Limits(LimitsError),
    /// Another menu is being written and not kept.
    Unkept,
    /// The worker has ended.
    NoWorker(NoWorker),
}

impl MenusRefusal {
    /// As a sentence of a language.
    #[must_use]
    pub fn in_words(&self, language: Language) -> String {
        match self {
            Self::Store(error) => store_error_words(language, error),
            Self::Typed { asked, text, taken } => {
                let field = caption(language, *asked);
                typed_field::refused(language, field, text, *taken, || expected(language, *asked))
            }
            Self::Menu(words) | Self::Made(words) => words.clone(),
            Self::File(error) => file_refused_words(language, error),
            Self::NotWritten(why) => {
                say!(language, "menus-not-written", why = why.as_str()).into_owned()
            }
            Self::Prep(error) => error_words(language, error),
            Self::Limits(error) => limits_error_words(language, error),
            Self::Unkept => say!(language, "menus-unkept").into_owned(),
            Self::NoWorker(none) => none.in_words(language),
        }
    }
}

impl fmt::Display for MenusRefusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.in_words(Language::English))
    }
}

impl std::error::Error for MenusRefusal {}

impl From<NoWorker> for MenusRefusal {
    fn from(none: NoWorker) -> Self {
        Self::NoWorker(none)
    }
}

impl From<StoreError> for MenusRefusal {
    fn from(error: StoreError) -> Self {
        Self::Store(error)
    }
}

impl From<PrepError> for MenusRefusal {
    fn from(error: PrepError) -> Self {
        match error {
            PrepError::Store(error) => Self::Store(error),
            error => Self::Prep(error),
        }
    }
}

impl From<MadeForError> for MenusRefusal {
    fn from(error: MadeForError) -> Self {
        match error {
            MadeForError::Prep(error) => error.into(),
            error => Self::Made(error.to_string()),
        }
    }
}

/// What a thing of a menu is called: its name, of a step with its preparation's.
pub(super) fn thing(language: Language, draft: &MenuDraft, place: MenuPlace) -> String {
    let name = |place| draft.said(place, MenuKey::Name).unwrap_or_default();
    match place {
        MenuPlace::Menu => say!(language, "menus-the-menu").into_owned(),
        MenuPlace::Step(preparation, _) => {
            format!(
                "{}: {}",
                name(MenuPlace::Preparation(preparation)),
                name(place)
            )
        }
        place => name(place),
    }
}

/// What of a menu does not hang together, in words.
pub(super) fn refused_words(
    language: Language,
    draft: &MenuDraft,
    refused: &MenuRefused,
) -> String {
    let Some((place, key)) = refused.at else {
        return file_error_words(language, &refused.error);
    };
    let asked = Asked::Said(place, key);
    let thing = thing(language, draft, place);
    let field = caption(language, asked);
    let said = draft.said(place, key);
    let expected = |code: &'static str| say!(language, "menus-expected-in-all", field = code);
    let expected = match &refused.error {
        FileError::Board(BoardError::NoSuchResource { resource, .. }) => say!(
            language,
            "menus-no-such-resource",
            resource = resource.as_str()
        ),
        FileError::Board(BoardError::TooManyPlaces {
            resource,
            places,
            has,
            ..
        }) => say!(
            language,
            "menus-too-many-places",
            resource = resource.as_str(),
            places = *places,
            has = *has
        ),
        FileError::Board(BoardError::Ring(_)) => expected("ring"),
        FileError::Board(BoardError::ClosesBeforeItOpens) => expected("closes"),
        FileError::Board(_) => expected("twice"),
        FileError::Keeping {
            error: KeepingError::NoSource,
            ..
        } => expected("source"),
        FileError::Resource(_) if key == MenuKey::Closed => expected("never-open"),
        FileError::Field { field, .. } => match *field {
            "from" if place == MenuPlace::Menu && said.is_some() => expected("dates"),
            "from, to" => expected("both"),
            "due" if said.is_some() => expected("due"),
            "takes, rests" => expected("takes"),
            "when.from" if said.is_some() => expected("band"),
            "after" => expected("after"),
            "skill" => expected("skill"),
            "who" => expected("who"),
            "batch" => expected("either"),
            "portions" => expected("portions-of"),
            "batch.source" => expected("keeps"),
            _ => self::expected(language, asked).into(),
        },
        _ => self::expected(language, asked).into(),
    };
    // What is chosen among others has no value of its own.
    if matches!(
        key,
        MenuKey::Needs | MenuKey::After | MenuKey::Closed | MenuKey::Days
    ) {
        return say!(
            language,
            "menus-refused-about",
            thing = thing,
            expected = &*expected
        )
        .into_owned();
    }
    typed_field::does_not_fit(language, thing, field, said, &expected)
}
