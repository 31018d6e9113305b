//! What is said of something typed in that cannot be used.

use super::failure::Said;
use evenhand_kitchen::units::InputError;
use evenhand_words::Language;

/// For people in words, for machines the field and its value.
pub(crate) fn said(_language: Language, error: &InputError) -> Said {
    Said::coded("input", error.to_string())
        .with("field", error.field())
        .with("value", error.value())
}
