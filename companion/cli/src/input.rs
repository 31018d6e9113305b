//! What is said of something typed in that cannot be used.

use super::failure::Said;
use evenhand_kitchen::units::InputError;
use evenhand_use_cases::input::{input_error_words, unsaid_words};
use evenhand_words::Language;

/// For people in words, for machines the field, its value and what is wrong by
/// codes.
pub(crate) fn said(language: Language, error: &InputError) -> Said {
    with_codes(error, input_error_words(language, error)).with("value", error.value())
}

/// Of something that is needed and was not typed.
pub(crate) fn unsaid(language: Language, error: &InputError) -> Said {
    with_codes(error, unsaid_words(language, error))
}

fn with_codes(error: &InputError, words: String) -> Said {
    let (problem, expected) = (error.problem(), error.expected());
    let said = Said::coded("input", words)
        .with("field", error.field())
        .with("problem", problem.code())
        .with("expected", expected.code());
    let parts = problem.parts().iter().chain(expected.parts());
    parts.fold(said, |said, (name, part)| said.with(name, part.value()))
}
