//! A field of a menu or of a list of goods that is typed in: what is typed on digits alone, how
//! it is shown, and what is said of a value that cannot be.

use crate::mixing::{EntryKind, EntryView};
use crate::words::{Language, say};
use jiff::ToSpan;
use jiff::civil::Date;

/// Whether it is digits, with a point or without.
pub(crate) fn is_number(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|it| it.is_ascii_digit() || it == '.')
}

/// A time of day as it is typed on digits alone: `1830`, `18.30` or `18`.
pub(crate) fn as_time(text: &str) -> String {
    let digits: String = text.chars().filter(|it| *it != '.').collect();
    let typed = is_number(text) && digits.len() <= 4;
    match digits.len() {
        _ if !typed => text.to_owned(),
        1 | 2 => format!("{digits:0>2}:00"),
        _ => {
            let (hours, minutes) = digits.split_at(digits.len() - 2);
            format!("{hours:0>2}:{minutes}")
        }
    }
}

/// What was typed, with a decimal point whatever mark the language has.
pub(crate) fn with_a_point(language: Language, text: &str) -> String {
    if language.decimal_mark() == ',' {
        text.replace(',', ".")
    } else {
        text.to_owned()
    }
}

/// Days to choose among, so many after today.
pub(crate) fn days_after(today: Date, ahead: [i32; 4]) -> Vec<String> {
    ahead
        .into_iter()
        .filter_map(|ahead| today.checked_add(ahead.days()).ok())
        .map(|day| day.to_string())
        .collect()
}

/// What is shown while a field is typed in. `about` is the thing that it is of, empty where it is
/// of none; `words` says whether letters are typed.
pub(crate) fn entry(
    language: Language,
    about: &str,
    caption: String,
    text: &str,
    words: bool,
) -> EntryView {
    EntryView {
        caption: if about.is_empty() {
            caption
        } else {
            say!(language, "menus-entry", thing = about, field = caption).into_owned()
        },
        text: text.to_owned(),
        kind: if words {
            EntryKind::Words
        } else {
            EntryKind::Number
        },
        unit: String::new(),
        hint: String::new(),
        picks: Vec::new(),
    }
}

/// What is said of something typed that cannot be used, or of a name that another has.
pub(crate) fn refused(
    language: Language,
    field: String,
    text: &str,
    taken: bool,
    expected: impl FnOnce() -> String,
) -> String {
    if taken {
        say!(language, "menus-taken", field = field, text = text)
    } else if text.is_empty() {
        let expected = expected();
        say!(
            language,
            "menus-typed-nothing",
            field = field,
            expected = expected
        )
    } else {
        let expected = expected();
        say!(
            language,
            "menus-typed",
            field = field,
            text = text,
            expected = expected
        )
    }
    .into_owned()
}

/// What is said of a field of a thing that does not go with the rest.
pub(crate) fn does_not_fit(
    language: Language,
    thing: String,
    field: String,
    said: Option<String>,
    expected: &str,
) -> String {
    match said {
        Some(value) => say!(
            language,
            "menus-refused",
            thing = thing,
            field = field,
            value = value,
            expected = expected
        ),
        None => say!(
            language,
            "menus-refused-nothing",
            thing = thing,
            field = field,
            expected = expected
        ),
    }
    .into_owned()
}
