//! What was typed and cannot be used, in words.

use crate::words::{WORDS, say};
use evenhand_kitchen::units::{InputError, Part, Reason, shown};
use evenhand_words::{Language, Value};

/// The field, what was there, what is wrong with it and what to write instead.
#[must_use]
pub fn input_error_words(language: Language, error: &InputError) -> String {
    say!(
        language,
        "input-refused",
        field = field_words(language, error.field()),
        value = error.shown_value(),
        problem = reason_words(language, error.problem()),
        expected = reason_words(language, error.expected()),
    )
    .into_owned()
}

/// The same of something that nobody typed: there is no value to show.
#[must_use]
pub fn unsaid_words(language: Language, error: &InputError) -> String {
    say!(
        language,
        "input-unsaid",
        field = field_words(language, error.field()),
        problem = reason_words(language, error.problem()),
        expected = reason_words(language, error.expected()),
    )
    .into_owned()
}

/// A reason as a part of a sentence: what is wrong goes on after the value, what
/// to write stands by itself.
#[must_use]
pub fn reason_words(language: Language, reason: &Reason) -> String {
    let of: Vec<(&'static str, Value<'_>)> = reason
        .parts()
        .iter()
        .map(|(name, part)| {
            let part = match part {
                Part::Plain(text) => text.clone(),
                Part::Typed(text) => shown(text),
                Part::Reason(reason) => reason_words(language, reason),
            };
            (*name, Value::from(part))
        })
        .collect();
    WORDS.say(language, reason.key(), &of).into_owned()
}

/// What the field is called: an option and a key of a file as they are written,
/// a line by its number.
fn field_words(language: Language, field: &str) -> String {
    if let Some(place) = field.strip_prefix("line ") {
        return match place.split_once(", column ") {
            Some((line, column)) => {
                say!(language, "input-line-column", line = line, column = column)
            }
            None => say!(language, "input-line", line = place),
        }
        .into_owned();
    }
    let name = field.replace(|c: char| !c.is_alphanumeric(), "-");
    say!(language, "input-field", name = name, field = field).into_owned()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::units::{mass_positive, parse_temperature};

    #[test]
    fn what_was_typed_is_refused_in_each_language() {
        let error = mass_positive("--target", "30").unwrap_err();
        for (language, said) in [
            (
                Language::English,
                "--target: \"30\" has no unit; write a mass with g, kg, oz or lb, such as 30g",
            ),
            (
                Language::Spanish,
                "--target: \"30\" no tiene unidad; escriba una masa con g, kg, oz o lb, como 30g",
            ),
            (
                Language::French,
                "--target\u{a0}: \"30\" n'a pas d'unité\u{a0}; écrivez une masse en g, kg, oz ou \
                 lb, comme 30g",
            ),
        ] {
            assert_eq!(input_error_words(language, &error), said);
        }
        let error = parse_temperature("--at", "5 K").unwrap_err();
        let said = input_error_words(Language::Spanish, &error);
        assert!(said.contains("tiene la unidad \"K\""), "{said}");
    }
}
