//! Words and numbers as they are typed on the book's screens.

use super::{BookField, Pan};
use crate::figures;
use crate::mixing::{EntryKind, EntryView};
use crate::words::{Language, say};
use evenhand_protocol::Mass;

/// Something being typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Typing {
    pub(super) field: BookField,
    pub(super) text: String,
    /// The currency, by its code, that a bare amount is in; `None` where it is typed.
    pub(super) currency: Option<&'static str>,
}

impl Typing {
    pub(super) const fn new(field: BookField) -> Self {
        Self {
            field,
            text: String::new(),
            currency: None,
        }
    }

    /// To be written on at.
    pub(super) const fn of(field: BookField, text: String) -> Self {
        Self {
            field,
            text,
            currency: None,
        }
    }

    /// What is asked for: which kind, and the unit of a bare number.
    fn asks(&self) -> (EntryKind, String) {
        match (self.field, self.currency) {
            (BookField::PlatePrice, Some(code)) => (EntryKind::Number, code.to_owned()),
            (BookField::PartCost, Some(code)) => (EntryKind::Number, format!("{code}/kg")),
            (field, _) => {
                let (kind, unit) = asks(field);
                (kind, unit.to_owned())
            }
        }
    }

    pub(super) fn view(
        &self,
        about: Option<String>,
        mut picks: Vec<String>,
        pan: &Pan,
        language: Language,
    ) -> EntryView {
        let (kind, unit) = self.asks();
        let unit = unit.as_str();
        let code = code(self.field);
        let caption = say!(language, "book-entry", field = code);
        // What lies on the scale need not be typed.
        if let (Some(mass), "g") = (pan.mass, unit)
            && mass > Mass::ZERO
        {
            picks.push(figures::grams(mass, pan.interval, language));
        }
        if let (Some(probe), "degC") = (pan.probe, unit) {
            picks.push(figures::celsius(probe, language));
        }
        EntryView {
            picks,
            caption: match about {
                Some(about) => say!(
                    language,
                    "book-entry-about",
                    caption = &*caption,
                    about = about
                ),
                None => caption,
            }
            .into_owned(),
            text: self.text.clone(),
            kind,
            unit: unit.replace("degC", "\u{b0}C"),
            hint: say!(language, "book-entry-hint", field = code).into_owned(),
        }
    }

    /// What was typed: a number with a decimal point, also where the language
    /// has a comma, and with its unit.
    pub(super) fn typed(&self, language: Language) -> String {
        let (kind, unit) = self.asks();
        let text = self.text.trim();
        if kind != EntryKind::Number {
            return text.to_owned();
        }
        let mut text = text.replace('\u{2212}', "-").replace("\u{b0}C", "degC");
        if language.decimal_mark() == ',' {
            text = text.replace(',', ".");
        }
        let has_unit = text.ends_with(|c: char| c.is_alphabetic() || c == '%');
        if has_unit || text.is_empty() || unit == "mm" {
            text
        } else {
            format!("{text}{unit}")
        }
    }
}

/// The code of a field's words.
pub(super) const fn code(field: BookField) -> &'static str {
    match field {
        BookField::Cut => "cut",
        BookField::CutMass => "cut-mass",
        BookField::Thickness => "thickness",
        BookField::MeatWater => "meat-water",
        BookField::BathWater => "bath-water",
        BookField::BathSalt => "bath-salt",
        BookField::SauceName => "sauce-name",
        BookField::SauceMass => "sauce-mass",
        BookField::SauceSalt => "sauce-salt",
        BookField::SauceWater => "sauce-water",
        BookField::HeldAt => "held-at",
        BookField::Core => "core",
        BookField::Lasting => "lasting",
        BookField::InAt => "in-at",
        BookField::OutAt => "out-at",
        BookField::OutMass => "out-mass",
        BookField::BathAfter => "bath-after",
        BookField::BathMass => "bath-mass",
        BookField::InPiece => "in-piece",
        BookField::Within => "within",
        BookField::FormulaName => "formula-name",
        BookField::EndsAt => "ends-at",
        BookField::Percent(_) => "percent",
        BookField::WaterIn(_) => "water-in",
        BookField::NewStage | BookField::RenameStage => "stage",
        BookField::NewWork | BookField::Work(_) => "work",
        BookField::Takes(_) => "takes",
        BookField::StarterPercent => "starter",
        BookField::StarterHydration => "hydration",
        BookField::Base => "base",
        BookField::Total => "total",
        BookField::Pieces => "pieces",
        BookField::Each => "each",
        BookField::Lost => "lost",
        BookField::OfMass => "of-mass",
        BookField::ScaleStep => "step",
        BookField::FlourAt => "flour-at",
        BookField::BeforeAt => "before-at",
        BookField::DoughAt => "dough-at",
        BookField::Coldest => "coldest",
        BookField::Room => "room",
        BookField::Friction => "friction",
        BookField::WaterAt => "water-at",
        BookField::Ice => "ice",
        BookField::CameOutAt => "came-out-at",
        BookField::AtOpening => "at-opening",
        BookField::FreezeAs => "freeze-as",
        BookField::LeastMark => "mark",
        BookField::NewIngredient | BookField::Rename(_) => "ingredient",
        BookField::PlateName => "plate-name",
        BookField::PlatePrice => "plate-price",
        BookField::PartName => "part-name",
        BookField::PartWeight => "part-weight",
        BookField::PartCost => "part-cost",
        BookField::PartYield => "part-yield",
        BookField::PartWaste => "part-waste",
        BookField::SlabMass => "slab-mass",
        BookField::SlabEnds => "slab-ends",
        BookField::PieceMass => "piece-mass",
        BookField::PieceCount => "piece-count",
    }
}

/// What is asked for: which kind, and the unit of a bare number.
const fn asks(field: BookField) -> (EntryKind, &'static str) {
    use EntryKind::{Number, Words};
    match field {
        BookField::Cut
        | BookField::SauceName
        | BookField::FormulaName
        | BookField::NewIngredient
        | BookField::Rename(_)
        | BookField::NewStage
        | BookField::RenameStage
        | BookField::NewWork
        | BookField::Work(_)
        | BookField::FreezeAs
        | BookField::PlateName
        | BookField::PlatePrice
        | BookField::PartName
        | BookField::PartCost => (Words, ""),
        BookField::Pieces | BookField::LeastMark | BookField::AtOpening | BookField::PieceCount => {
            (Number, "")
        }
        BookField::CutMass
        | BookField::BathWater
        | BookField::BathSalt
        | BookField::SauceMass
        | BookField::OutMass
        | BookField::BathMass
        | BookField::Base
        | BookField::Total
        | BookField::Each
        | BookField::OfMass
        | BookField::ScaleStep
        | BookField::PartWeight
        | BookField::SlabMass
        | BookField::SlabEnds
        | BookField::PieceMass
        | BookField::Ice => (Number, "g"),
        BookField::Thickness => (Number, "mm"),
        BookField::MeatWater
        | BookField::SauceSalt
        | BookField::SauceWater
        | BookField::Core
        | BookField::BathAfter
        | BookField::InPiece
        | BookField::Within
        | BookField::Percent(_)
        | BookField::WaterIn(_)
        | BookField::Takes(_)
        | BookField::StarterPercent
        | BookField::StarterHydration
        | BookField::PartYield
        | BookField::PartWaste
        | BookField::Lost => (Number, "%"),
        BookField::HeldAt
        | BookField::EndsAt
        | BookField::FlourAt
        | BookField::BeforeAt
        | BookField::DoughAt
        | BookField::Coldest
        | BookField::Room
        | BookField::Friction
        | BookField::WaterAt
        | BookField::CameOutAt => (Number, "degC"),
        BookField::InAt | BookField::OutAt => (EntryKind::Time, ""),
        BookField::Lasting => (Number, "h"),
    }
}
