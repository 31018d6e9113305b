//! How figures stand on the book's screens.

use super::Pan;
use crate::figures;
use crate::words::{Language, say};
use evenhand_protocol::Mass;

/// What lies on the scale, where it lies still.
pub(super) fn on_scale(pan: &Pan, language: Language) -> String {
    match pan.mass {
        Some(mass) => say!(
            language,
            "book-on-scale",
            mass = figures::grams(mass, pan.interval, language)
        )
        .into_owned(),
        None => String::new(),
    }
}

pub(super) fn grams(mass: Mass, language: Language) -> String {
    figure(language, mass.grams(), "g")
}

/// A number as short as it is, with its unit.
pub(super) fn figure(language: Language, value: f64, unit: &str) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    format!("{} {unit}", language.figure(text))
}
