//! Words and numbers as they are typed.

use super::view::{EntryKind, EntryView};
use super::{Field, Said};
use crate::words::{Language, say};

/// Something being typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Typing {
    pub(super) field: Field,
    pub(super) text: String,
}

impl Typing {
    pub(super) const fn new(field: Field) -> Self {
        Self {
            field,
            text: String::new(),
        }
    }

    pub(super) fn view(&self, about: &str, picks: Vec<String>, language: Language) -> EntryView {
        let (code, kind, unit) = asks(self.field);
        let caption = say!(language, "entry-caption", field = code);
        let hint = say!(language, "entry-hint", field = code).into_owned();
        EntryView {
            picks,
            caption: if about.is_empty() {
                caption.into_owned()
            } else {
                say!(
                    language,
                    "entry-caption-about",
                    caption = &*caption,
                    about = about,
                )
                .into_owned()
            },
            text: self.text.clone(),
            kind,
            unit: unit.replace("degC", "\u{b0}C"),
            hint,
        }
    }

    /// What was typed: a number with a decimal point, also where the language
    /// has a comma.
    pub(super) fn typed(&self, language: Language) -> String {
        let text = self.text.trim();
        let (_, kind, _) = asks(self.field);
        if kind == EntryKind::Number && language.decimal_mark() == ',' {
            text.replace(',', ".")
        } else {
            text.to_owned()
        }
    }

    /// What was typed with the unit that stands behind it.
    pub(super) fn with_unit(&self, language: Language) -> String {
        let (_, _, unit) = asks(self.field);
        let text = self.typed(language);
        let has_unit = text.ends_with(|c: char| c.is_alphabetic() || c == '%');
        if has_unit || unit.is_empty() {
            text
        } else {
            format!("{text}{unit}")
        }
    }
}

/// What is asked for: the code of its words, which kind, and the unit of a bare
/// number.
const fn asks(field: Field) -> (&'static str, EntryKind, &'static str) {
    use EntryKind::{Number, Words};
    match field {
        Field::Title => ("title", Words, ""),
        Field::NewName | Field::Rename(_) => ("ingredient", Words, ""),
        Field::Number(_) => ("number", Number, ""),
        Field::Amount(_) => ("amount", Number, "g"),
        Field::SlotName(_) => ("slot", Words, ""),
        Field::AgentName => ("packet", Words, ""),
        Field::Fraction => ("fraction", Number, "%"),
        Field::LabelAgain => ("label-again", Number, "%"),
        Field::Ppm => ("ppm", Number, "ppm"),
        Field::PickUp => ("pick-up", Number, "%"),
        Field::Note => ("note", Words, ""),
        Field::Tasting(_) => ("tasting", Words, ""),
        Field::DueIn => ("due-in", Number, "d"),
        Field::TurnEvery => ("turn-every", Number, "h"),
        Field::Loss => ("loss", Number, "%"),
        Field::Change(_) => ("change", Number, "%"),
        Field::Strength(Said::OfWater) => ("of-water", Number, "%"),
        Field::Strength(Said::OfSolution) => ("of-solution", Number, "%"),
        Field::Strength(Said::Salometer) => ("salometer", Number, ""),
        Field::Strength(Said::Density) => ("density", Number, ""),
        Field::BrineAt => ("temperature", Number, "degC"),
        Field::Sugar => ("sugar", Number, "%"),
        Field::CorrectTo => ("correct-to", Number, "%"),
        Field::BrineMass => ("brine-mass", Number, "g"),
        Field::VesselName => ("vessel", Words, ""),
    }
}
