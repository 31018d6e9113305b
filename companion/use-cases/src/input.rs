//! What was typed and cannot be used, in words.

use crate::words::say;
use evenhand_kitchen::units::InputError;
use evenhand_words::Language;

/// The field, what was there, what is wrong with it and what to write instead.
/// Where the domain has no code for that, its own words are given.
#[must_use]
pub fn input_error_words(language: Language, error: &InputError) -> String {
    if language.is_english() {
        return error.to_string();
    }
    say!(
        language,
        "input-refused",
        field = error.field(),
        value = error.shown_value(),
        problem = problem_words(language, error),
        wanted = wanted_words(language, error),
    )
    .into_owned()
}

/// The same of something that nobody typed: there is no value to show.
#[must_use]
pub fn unsaid_words(language: Language, error: &InputError) -> String {
    say!(
        language,
        "input-unsaid",
        field = error.field(),
        problem = problem_words(language, error),
        wanted = wanted_words(language, error),
    )
    .into_owned()
}

/// The code and what belongs to it, of which there are two at most.
fn parts<'e>(code: Option<(&'static str, Vec<&'e str>)>) -> (&'static str, &'e str, &'e str) {
    let (code, of) = code.unwrap_or(("", Vec::new()));
    let nth = |nth: usize| of.get(nth).copied().unwrap_or_default();
    (code, nth(0), nth(1))
}

fn problem_words(language: Language, error: &InputError) -> String {
    let (code, first, second) = parts(error.problem_code());
    say!(
        language,
        "input-problem",
        code = code,
        first = first,
        second = second,
        written = error.problem()
    )
    .into_owned()
}

fn wanted_words(language: Language, error: &InputError) -> String {
    let (code, first, second) = parts(error.expected_code());
    say!(
        language,
        "input-wanted",
        code = code,
        first = first,
        second = second,
        written = error.expected()
    )
    .into_owned()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::units::{mass_positive, parse_temperature};

    /// Nothing that has a code is said in the domain's English.
    #[test]
    fn every_code_has_its_words() {
        let mut codes = 0;
        for error in InputError::of_each_code() {
            codes += 1;
            for language in [Language::Spanish, Language::French] {
                let said = input_error_words(language, &error);
                let problem = error.problem();
                assert!(!said.contains(problem), "{said}");
                let wanted = error.expected();
                assert!(wanted.is_empty() || !said.contains(wanted), "{said}");
            }
        }
        assert!(codes > 150, "{codes}");
    }

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
