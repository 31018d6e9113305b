//! Words and numbers as they are typed on the screens of what to order.

use super::Asked;
use crate::mixing::EntryView;
use crate::typed_field::{self, as_time, days_after, is_number, with_a_point};
use crate::words::{Language, say};
use evenhand_kitchen::prep::{GoodsKey, NewUse};
use jiff::civil::Date;

/// Something being typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Typing {
    pub(super) asked: Asked,
    pub(super) text: String,
    /// Packs that were ordered, before the day is asked for on which they come.
    pub(super) packs: u32,
}

/// What kind of thing is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Name,
    Time,
    Date,
    Number,
    Price,
    /// An amount with a unit.
    Amount,
}

const fn kind(asked: Asked) -> Kind {
    match asked {
        Asked::InHand | Asked::NewUse(_, NewUse::Cover) => Kind::Amount,
        Asked::Ordered => Kind::Number,
        Asked::Comes | Asked::AllCome => Kind::Date,
        Asked::NewSupplier | Asked::NewGoods | Asked::NewUse(..) => Kind::Name,
        Asked::Said(_, key) => match key {
            GoodsKey::At | GoodsKey::OrderBy => Kind::Time,
            GoodsKey::DaysBefore => Kind::Number,
            GoodsKey::Price => Kind::Price,
            GoodsKey::Pack | GoodsKey::Piece | GoodsKey::Takes | GoodsKey::PerCover => Kind::Amount,
            _ => Kind::Name,
        },
    }
}

/// The code of a field's words.
pub(super) const fn code(asked: Asked) -> &'static str {
    match asked {
        Asked::InHand => "in-hand",
        Asked::Ordered => "ordered",
        Asked::Comes | Asked::AllCome => "comes",
        Asked::NewSupplier => "new-supplier",
        Asked::NewGoods => "new-goods",
        Asked::NewUse(_, NewUse::Dish) => "dish",
        Asked::NewUse(_, NewUse::Batch) => "batch",
        Asked::NewUse(_, NewUse::Cover) => "per-cover",
        Asked::Said(_, key) => match key {
            GoodsKey::Name => "name",
            GoodsKey::Delivers => "delivers",
            GoodsKey::At => "at",
            GoodsKey::OrderBy => "order-by",
            GoodsKey::DaysBefore => "days-before",
            GoodsKey::Supplier => "supplier",
            GoodsKey::Pack => "pack",
            GoodsKey::Price => "price",
            GoodsKey::Piece => "piece",
            GoodsKey::For => "for",
            GoodsKey::Dish => "dish",
            GoodsKey::Batch => "batch",
            GoodsKey::Takes => "takes",
            GoodsKey::PerCover => "per-cover",
        },
    }
}

/// What a field is called.
pub(super) fn caption(language: Language, asked: Asked) -> String {
    say!(language, "orders-field", field = code(asked)).into_owned()
}

/// What is expected in a field.
pub(super) fn expected(language: Language, asked: Asked) -> String {
    let code = match (asked, kind(asked)) {
        (Asked::InHand, _) => "in-hand",
        (Asked::Ordered, _) => "packs",
        (Asked::Said(_, GoodsKey::DaysBefore), _) => "days-before",
        (Asked::Said(_, GoodsKey::Piece), _) => "piece",
        (Asked::Said(_, GoodsKey::Takes), _) => "takes",
        (Asked::Said(_, GoodsKey::For), _) => "for",
        (_, Kind::Time) => "time",
        (_, Kind::Date) => "date",
        (_, Kind::Price) => "price",
        (_, Kind::Amount) => "amount",
        _ => "name",
    };
    say!(language, "orders-expected", field = code).into_owned()
}

/// What the amounts that are typed can be in: the units of the pack where it has one.
pub(super) fn units_beside(pack: &str) -> Vec<&'static str> {
    let unit = pack.rsplit(' ').next().unwrap_or_default();
    match unit {
        "kg" | "g" => vec!["kg", "g"],
        "l" | "ml" => vec!["l", "ml"],
        "piece" | "pieces" => vec!["pieces"],
        _ => vec!["kg", "g", "l", "ml", "pieces"],
    }
}

impl Typing {
    pub(super) const fn new(asked: Asked) -> Self {
        Self {
            asked,
            text: String::new(),
            packs: 0,
        }
    }

    /// The same with words that are there to be changed.
    pub(super) fn with(asked: Asked, text: Option<String>) -> Self {
        Self {
            text: text
                .filter(|_| kind(asked) == Kind::Name)
                .unwrap_or_default(),
            ..Self::new(asked)
        }
    }

    /// What was typed, as a list of goods writes it.
    pub(super) fn typed(&self, language: Language) -> String {
        let text = self.text.trim();
        let kind = kind(self.asked);
        if kind == Kind::Name || text.is_empty() {
            return text.to_owned();
        }
        let pieces = say!(language, "orders-pieces");
        let packs = say!(language, "orders-packs");
        let text = with_a_point(language, text).replace(&*pieces, "pieces");
        let text = text.replace(&*packs, "packs");
        match kind {
            Kind::Time => as_time(&text),
            _ => text,
        }
    }

    /// What is asked for, to be shown: `units` are those that an amount can be in, `known` what
    /// can be chosen.
    pub(super) fn view(
        &self,
        about: &str,
        (known, units): (Vec<String>, &[&str]),
        today: Date,
        language: Language,
    ) -> EntryView {
        let kind = kind(self.asked);
        let text = self.text.trim();
        let plain = with_a_point(language, text);
        let picks = match kind {
            Kind::Name | Kind::Number => known,
            Kind::Time if is_number(&plain) => vec![as_time(&plain)],
            Kind::Time => Vec::new(),
            Kind::Date => days_after(today, [0, 1, 2, 3]),
            Kind::Price if is_number(&plain) => {
                known.iter().map(|code| format!("{text} {code}")).collect()
            }
            Kind::Amount if is_number(&plain) => {
                let pieces = say!(language, "orders-pieces");
                let packs = say!(language, "orders-packs");
                let unit = |unit: &&str| match *unit {
                    "pieces" => format!("{text} {pieces}"),
                    "packs" => format!("{text} {packs}"),
                    unit => format!("{text} {unit}"),
                };
                units.iter().map(unit).collect()
            }
            Kind::Price | Kind::Amount => Vec::new(),
        };
        let caption = caption(language, self.asked);
        EntryView {
            hint: expected(language, self.asked),
            picks,
            ..typed_field::entry(language, about, caption, &self.text, kind == Kind::Name)
        }
    }
}
