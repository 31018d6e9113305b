//! Words and numbers as they are typed.

use super::view::{EntryKind, EntryView};
use super::{Field, Said};

/// Something being typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Entry {
    pub(super) field: Field,
    pub(super) text: String,
}

impl Entry {
    pub(super) const fn new(field: Field) -> Self {
        Self {
            field,
            text: String::new(),
        }
    }

    pub(super) fn view(&self, about: &str, picks: Vec<String>) -> EntryView {
        let (caption, kind, unit, hint) = asks(self.field);
        EntryView {
            picks,
            caption: if about.is_empty() {
                caption.to_owned()
            } else {
                format!("{caption}: {about}")
            },
            text: self.text.clone(),
            kind,
            unit: unit.to_owned(),
            hint: hint.to_owned(),
        }
    }

    /// What was typed with the unit that stands behind it.
    pub(super) fn with_unit(&self) -> String {
        let (_, _, unit, _) = asks(self.field);
        let text = self.text.trim();
        let has_unit = text.ends_with(|c: char| c.is_alphabetic() || c == '%');
        if has_unit || unit.is_empty() {
            text.to_owned()
        } else {
            format!("{text}{unit}")
        }
    }
}

/// What is asked for: a caption, which kind, the unit of a bare number, and
/// more about it.
const fn asks(field: Field) -> (&'static str, EntryKind, &'static str, &'static str) {
    use EntryKind::{Number, Words};
    match field {
        Field::Title => (
            "What is it?",
            Words,
            "",
            "Batches of one name are compared with one another.",
        ),
        Field::NewName | Field::Rename(_) => ("Name of the ingredient", Words, "", ""),
        Field::Number(_) => ("How much", Number, "", ""),
        Field::Amount(_) => ("How much there is to be of it", Number, "g", ""),
        Field::SlotName(_) => (
            "What was that?",
            Words,
            "",
            "A curing agent is set up on the cure screen, with its label.",
        ),
        Field::AgentName => ("What is on the packet of the curing agent?", Words, "", ""),
        Field::Fraction => (
            "Sodium nitrite in the agent, from its label",
            Number,
            "%",
            "Read it from the packet. Nothing is assumed.",
        ),
        Field::LabelAgain => (
            "Read the packet in your hand: how much of it is sodium nitrite?",
            Number,
            "%",
            "The agent is weighed only when this is what the mix was worked out for.",
        ),
        Field::Ppm => ("Ingoing nitrite", Number, "ppm", ""),
        Field::PickUp => (
            "Share of its raw weight that the meat takes up",
            Number,
            "%",
            "Weigh a piece raw and again cured, where it is not known.",
        ),
        Field::Note => ("Note", Words, "", ""),
        Field::Tasting(_) => (
            "How was it? (a word, or nothing)",
            Words,
            "",
            "1 never again, 5 as it should be, 9 the best yet.",
        ),
        Field::DueIn => (
            "In how many days is it due out?",
            Number,
            "d",
            "3 is three days; write 36h for hours.",
        ),
        Field::TurnEvery => (
            "Turned or looked at every how many hours? 0 for never",
            Number,
            "h",
            "",
        ),
        Field::Loss => (
            "How much of its weight is it to lose in drying?",
            Number,
            "%",
            "What is on the scale now is its first weight.",
        ),
        Field::Change(_) => (
            "How much more of it, next time?",
            Number,
            "%",
            "Below zero for less.",
        ),
        Field::Strength(Said::OfWater) => ("Salt, per cent of the water", Number, "%", ""),
        Field::Strength(Said::OfSolution) => ("Salt, per cent of the whole brine", Number, "%", ""),
        Field::Strength(Said::Salometer) => ("Salometer degrees", Number, "", ""),
        Field::Strength(Said::Density) => ("Density, kg/m3", Number, "", ""),
        Field::BrineAt => ("How warm is it?", Number, "degC", ""),
        Field::Sugar => (
            "Sugar, per cent of the whole brine",
            Number,
            "%",
            "Sugar makes brine denser without making it saltier. 0 for none.",
        ),
        Field::CorrectTo => (
            "What should it be? Salt, per cent of the water",
            Number,
            "%",
            "",
        ),
        Field::BrineMass => ("How much brine is there?", Number, "g", ""),
        Field::VesselName => ("Name of the vessel", Words, "", ""),
    }
}
