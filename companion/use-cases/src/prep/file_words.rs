//! Why a file of a menu or of goods, or a what-if, was refused, in words.

use super::menus::{FileRefused, TakeOffError};
use super::order::OrderError;
use super::words::error_words;
use crate::input::{input_error_words, reason_words};
use crate::times;
use crate::words::say;
use evenhand_kitchen::expected;
use evenhand_kitchen::prep::{
    BoardError, FileError, KeepingError, ResourceError, TakesError, WhatIfError,
};
use evenhand_kitchen::units::{Reason, excerpt};
use evenhand_words::Language;
use std::path::Path;

fn field_words(
    language: Language,
    place: &str,
    field: &str,
    value: &str,
    expected: &Reason,
) -> String {
    let place = excerpt(place);
    let expected = reason_words(language, expected);
    if value.is_empty() {
        say!(
            language,
            "file-field-nothing",
            place = place,
            field = field,
            expected = expected
        )
    } else {
        say!(
            language,
            "file-field",
            place = place,
            field = field,
            value = excerpt(value),
            expected = expected
        )
    }
    .into_owned()
}

fn board_words(language: Language, error: &BoardError) -> String {
    match error {
        BoardError::NoSuchResource { step, resource } => say!(
            language,
            "file-no-such-resource",
            step = step.as_str(),
            resource = excerpt(resource)
        ),
        BoardError::TooManyPlaces {
            step,
            resource,
            places,
            has,
        } => say!(
            language,
            "file-too-many-places",
            step = step.as_str(),
            resource = resource.as_str(),
            places = *places,
            has = *has
        ),
        BoardError::ClosesBeforeItOpens => say!(language, "file-closes"),
        BoardError::Ring(step) => say!(language, "file-ring", step = step.as_str()),
        BoardError::NoSuchStep => say!(language, "file-no-such-step"),
        BoardError::ResourceTwice(name) => say!(language, "file-twice", name = name.as_str()),
    }
    .into_owned()
}

/// Why a menu or a list of goods makes no sense.
#[must_use]
pub fn file_error_words(language: Language, error: &FileError) -> String {
    let length = |place: &str, error: &TakesError| match error {
        TakesError::Length(value) => {
            field_words(language, place, "takes", value, &expected!("length"))
        }
        TakesError::Reversed => {
            say!(language, "file-reversed", place = excerpt(place)).into_owned()
        }
    };
    match error {
        FileError::Syntax(why) | FileError::Goods(why) => {
            say!(language, "file-no-toml", why = why.as_str()).into_owned()
        }
        FileError::Field {
            place,
            field,
            value,
            expected,
        } => field_words(language, place, field, value, expected),
        FileError::Takes { step, error } => length(step, error),
        FileError::Keeping { preparation, error } => match error {
            KeepingError::Length(value) => field_words(
                language,
                preparation,
                "batch.keeps",
                value,
                &expected!("keeps"),
            ),
            KeepingError::NoSource => field_words(
                language,
                preparation,
                "batch.source",
                "",
                &expected!("source-said"),
            ),
        },
        FileError::Resource(ResourceError::Places { name, places }) => field_words(
            language,
            name,
            "places",
            &places.to_string(),
            &expected!("places"),
        ),
        FileError::Resource(ResourceError::NeverOpen(name)) => {
            say!(language, "file-never-open", name = name.as_str()).into_owned()
        }
        FileError::Board(error) => board_words(language, error),
    }
}

fn named(path: &Path) -> String {
    let name = path.file_name().unwrap_or(path.as_os_str());
    name.to_string_lossy().into_owned()
}

/// Why a file gives no menu, or no list of goods.
#[must_use]
pub fn file_refused_words(language: Language, refused: &FileRefused) -> String {
    let (path, why) = match refused {
        FileRefused::Unreadable { path, why } => {
            let why = say!(language, "file-unreadable", why = why.as_str());
            (path, why.into_owned())
        }
        FileRefused::TooLong { path, bytes, most } => {
            let why = say!(
                language,
                "file-too-long",
                bytes = bytes.to_string(),
                most = most.to_string()
            );
            (path, why.into_owned())
        }
        FileRefused::Table { path, error } => (path, input_error_words(language, error)),
        FileRefused::Menu { path, error } => (path, file_error_words(language, error)),
    };
    say!(language, "file-refused", path = named(path), why = why).into_owned()
}

/// Why a what-if was not understood.
#[must_use]
pub fn what_if_words(language: Language, error: &WhatIfError) -> String {
    match error {
        WhatIfError::NoTime(text) => say!(language, "what-if-no-time", text = excerpt(text)),
        WhatIfError::Length(text) => say!(language, "what-if-length", text = excerpt(text)),
        WhatIfError::Unknown { name, known } => say!(
            language,
            "what-if-unknown",
            name = excerpt(name),
            known = known.as_str()
        ),
    }
    .into_owned()
}

/// Why a preparation cannot be taken off the menu of a day.
#[must_use]
pub fn take_off_words(language: Language, error: &TakeOffError) -> String {
    match error {
        TakeOffError::Prep(error) => error_words(language, error),
        TakeOffError::NotOnMenu { day, preparation } => say!(
            language,
            "take-off-not-on-menu",
            day = times::day(language, *day),
            preparation = preparation.as_str()
        )
        .into_owned(),
        TakeOffError::Refused { preparation, error } => say!(
            language,
            "take-off-refused",
            preparation = preparation.as_str(),
            why = file_error_words(language, error)
        )
        .into_owned(),
    }
}

/// Why there is no order sheet.
#[must_use]
pub fn order_error_words(language: Language, error: &OrderError) -> String {
    match error {
        OrderError::Prep(error) => error_words(language, error),
        OrderError::NoGoods => say!(language, "order-no-goods").into_owned(),
        OrderError::Goods(error) => file_error_words(language, error),
        OrderError::NoSuchSupplier { wanted, known } => say!(
            language,
            "order-no-such-supplier",
            wanted = excerpt(wanted),
            known = known.as_str()
        )
        .into_owned(),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::prep::{Board, GoodsList, WrittenMenu};
    use jiff::tz::TimeZone;

    const LANGUAGES: [Language; 3] = [Language::English, Language::Spanish, Language::French];

    fn example(heading: &str, form: &str) -> &'static str {
        let page = include_str!("../../../MENU.md");
        let (_, rest) = page.split_once(heading).unwrap();
        let (_, text) = rest.split_once(&format!("```{form}\n")).unwrap();
        text.split_once("```").unwrap().0
    }

    /// Nothing that is expected is left to "see the page" where the file says which field it is,
    /// and each language names the field and the value.
    fn each_says(value: &str, said: impl Fn(Language) -> String) {
        let all = LANGUAGES.map(said);
        for words in &all {
            assert!(words.contains(value), "{value}: {words}");
            assert!(!words.contains("MENU.md"), "{value}: {words}");
        }
        assert!(all[0] != all[1] && all[1] != all[2], "{all:?}");
    }

    #[test]
    fn what_a_menu_has_wrong_is_told_in_every_language() {
        let text = example("# ", "toml");
        for (from, to, value) in [
            ("opens = \"18:00\"", "opens = \"evening\"", "evening"),
            ("days = [", "days = [\"mardi\", ", "mardi"),
            ("fallback = ", "due = \"teatime\"\nfallback = ", "teatime"),
            ("keeps = \"", "keeps = \"a week or \"#", "a week or"),
        ] {
            assert!(text.contains(from), "{from}");
            let text = text.replacen(from, to, 1);
            let read = WrittenMenu::from_toml(&text).and_then(|_| {
                Board::from_menu(&text, jiff::civil::date(2026, 5, 8), TimeZone::UTC)
            });
            let Err(error) = read else {
                panic!("{to} is a menu");
            };
            each_says(value, |language| file_error_words(language, &error));
        }
    }

    #[test]
    fn what_a_list_of_goods_has_wrong_is_told_in_every_language() {
        let heading = "## What the kitchen buys";
        let text = example(heading, "toml");
        for (from, to, value) in [
            ("delivers = [\"tue\"", "delivers = [\"mardi\"", "mardi"),
            ("order_by = \"16:00\"", "order_by = \"late\"", "late"),
            ("days_before = 1", "days_before = 90", "90"),
            ("pack = \"5 kg\"", "pack = \"5 boxes\"", "5 boxes"),
            ("price = \"62.50 EUR\"", "price = \"a lot\"", "a lot"),
            ("takes = \"1.8 kg\"", "takes = \"1.8 l\"", "1.8 l"),
            ("per_cover = \"15 g\"", "per_cover = \"15 ml\"", "15 ml"),
            ("name = \"butter\"", "name = \"shallots\"", "shallots"),
        ] {
            assert!(text.contains(from), "{from}");
            let error = GoodsList::from_toml(&text.replacen(from, to, 1)).unwrap_err();
            each_says(value, |language| file_error_words(language, &error));
        }
        let table = example(heading, "csv").replacen("tue fri,09:30,16:00,1", "tue fri,,,x", 1);
        let error = GoodsList::from_csv(&table).unwrap_err();
        each_says("days_before", |language| {
            input_error_words(language, &error)
        });
    }

    #[test]
    fn a_what_if_that_is_not_understood_is_told_in_every_language() {
        let mut board = Board::from_menu(
            example("# ", "toml"),
            jiff::civil::date(2026, 5, 8),
            TimeZone::UTC,
        )
        .unwrap();
        let now = "2026-05-08T09:00:00Z".parse().unwrap();
        for (text, value) in [
            ("bream", "bream"),
            ("bream +soon", "soon"),
            ("turnips +1h", "turnips"),
        ] {
            let error = board.what_if(text, now).unwrap_err();
            each_says(value, |language| what_if_words(language, &error));
        }
    }
}
