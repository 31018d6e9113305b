//! Words and numbers as they are typed on the screens of menus.

use super::Asked;
use crate::mixing::EntryView;
use crate::typed_field::{self, as_time, days_after, is_number, with_a_point};
use crate::words::{Language, say};
use evenhand_kitchen::prep::{MenuKey, MenuPlace};
use jiff::civil::Date;

/// Something being typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Typing {
    pub(super) asked: Asked,
    pub(super) text: String,
    /// What was said before the longest of a range is asked for.
    pub(super) least: String,
}

/// What kind of thing is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Name,
    Time,
    Date,
    /// A length of time, of a unit where it has none.
    Length(&'static str),
    Number,
    Degrees,
}

const fn kind(asked: Asked) -> Kind {
    match asked {
        Asked::OnlyDay | Asked::CopyDay => Kind::Date,
        Asked::NewPreparation
        | Asked::NewStep(_)
        | Asked::NewResource
        | Asked::NewHand(_)
        | Asked::NewSkill(..)
        | Asked::NewAllergen(_) => Kind::Name,
        Asked::Tubs | Asked::Left => Kind::Number,
        Asked::Most(..) => Kind::Length("min"),
        Asked::Said(place, key) => match key {
            MenuKey::From if matches!(place, MenuPlace::Menu) => Kind::Date,
            MenuKey::Until => Kind::Date,
            MenuKey::Opens
            | MenuKey::Closes
            | MenuKey::From
            | MenuKey::To
            | MenuKey::Due
            | MenuKey::Preferred
            | MenuKey::NotBefore => Kind::Time,
            MenuKey::Spare | MenuKey::Takes | MenuKey::Rests => Kind::Length("min"),
            MenuKey::Keeps => Kind::Length("d"),
            MenuKey::Places
            | MenuKey::Portions
            | MenuKey::PerService
            | MenuKey::PerCover
            | MenuKey::PortionsDone => Kind::Number,
            MenuKey::LogFrom | MenuKey::LogTo => Kind::Degrees,
            _ => Kind::Name,
        },
    }
}

/// The code of a field's words.
pub(super) const fn code(asked: Asked) -> &'static str {
    match asked {
        Asked::OnlyDay => "only-day",
        Asked::CopyDay => "copy-day",
        Asked::NewPreparation => "preparation",
        Asked::NewStep(_) => "step",
        Asked::NewResource => "resource",
        Asked::NewHand(_) => "hand",
        Asked::NewSkill(..) => "skill",
        Asked::NewAllergen(_) => "allergen",
        Asked::Tubs => "tubs",
        Asked::Left => "left",
        Asked::Most(_, MenuKey::Rests) => "rests-most",
        Asked::Most(..) => "takes-most",
        Asked::Said(place, key) => match key {
            MenuKey::From if !matches!(place, MenuPlace::Menu) => "works-from",
            key => key_code(key),
        },
    }
}

const fn key_code(key: MenuKey) -> &'static str {
    match key {
        MenuKey::Name => "name",
        MenuKey::Opens => "opens",
        MenuKey::Closes => "closes",
        MenuKey::Spare => "spare",
        MenuKey::From => "from",
        MenuKey::Until => "until",
        MenuKey::Days => "days",
        MenuKey::Places => "places",
        MenuKey::To => "works-to",
        MenuKey::Closed => "closed",
        MenuKey::Serves => "serves",
        MenuKey::Skills => "skills",
        MenuKey::Due => "due",
        MenuKey::Preferred => "preferred",
        MenuKey::Fallback => "fallback",
        MenuKey::BuyIn => "buy-in",
        MenuKey::Portions => "portions",
        MenuKey::Keeps => "keeps",
        MenuKey::Source => "source",
        MenuKey::Dish => "dish",
        MenuKey::PerService => "per-service",
        MenuKey::PerCover => "per-cover",
        MenuKey::DateMarked => "date-marked",
        MenuKey::Allergens => "allergens",
        MenuKey::Takes => "takes",
        MenuKey::Rests => "rests",
        MenuKey::Needs => "needs",
        MenuKey::Skill => "skill-asked",
        MenuKey::InService => "in-service",
        MenuKey::NotBefore => "not-before",
        MenuKey::After => "after",
        MenuKey::PortionsOf => "portions-of",
        MenuKey::PortionsDone => "portions-done",
        MenuKey::BatchTitle => "batch-title",
        MenuKey::Log => "log",
        MenuKey::LogFrom => "log-from",
        MenuKey::LogTo => "log-to",
    }
}

/// What a field is called.
pub(super) fn caption(language: Language, asked: Asked) -> String {
    say!(language, "menus-field", field = code(asked)).into_owned()
}

/// What is expected in a field.
pub(super) fn expected(language: Language, asked: Asked) -> String {
    let code = match asked {
        Asked::Said(_, MenuKey::Opens) => "time",
        Asked::CopyDay => "date",
        Asked::Said(_, MenuKey::Spare) => "spare",
        Asked::Said(_, MenuKey::Keeps) => "days",
        Asked::Said(_, MenuKey::Places) => "places",
        Asked::Said(_, MenuKey::Portions) => "portions",
        Asked::Said(_, MenuKey::PerService | MenuKey::PortionsDone) => "portions-or-none",
        Asked::Said(_, MenuKey::PerCover) => "per-cover",
        Asked::Said(_, MenuKey::Source) => "source",
        Asked::Said(_, MenuKey::Log) => "log",
        Asked::Said(_, MenuKey::Name) => "name",
        Asked::Tubs => "tubs",
        Asked::Left => "left",
        Asked::Most(..) => "most",
        Asked::Said(..)
        | Asked::OnlyDay
        | Asked::NewPreparation
        | Asked::NewStep(_)
        | Asked::NewResource
        | Asked::NewHand(_)
        | Asked::NewSkill(..)
        | Asked::NewAllergen(_) => match (kind(asked), asked) {
            (Kind::Time, _) => "time-or-none",
            (Kind::Date, _) => "date-or-none",
            (Kind::Length(_), _) => "length",
            (Kind::Degrees, _) => "degrees",
            (_, Asked::Said(..)) => "name-or-none",
            _ => "name",
        },
    };
    say!(language, "menus-expected", field = code).into_owned()
}

impl Typing {
    pub(super) const fn new(asked: Asked) -> Self {
        Self {
            asked,
            text: String::new(),
            least: String::new(),
        }
    }

    /// The same with words that are there to be changed.
    pub(super) fn with(asked: Asked, text: Option<String>) -> Self {
        let keeps = matches!(kind(asked), Kind::Name);
        Self {
            text: text.filter(|_| keeps).unwrap_or_default(),
            ..Self::new(asked)
        }
    }

    /// What was typed, as a menu writes it.
    pub(super) fn typed(&self, language: Language) -> String {
        let text = self.text.trim();
        let kind = kind(self.asked);
        if kind == Kind::Name || text.is_empty() {
            return text.to_owned();
        }
        let mut text = text.replace('\u{2212}', "-").replace("\u{b0}", "deg");
        text = with_a_point(language, &text);
        match kind {
            Kind::Time => as_time(&text),
            Kind::Length(unit) if is_number(&text) => format!("{text} {unit}"),
            Kind::Degrees => {
                let text = text.replace(' ', "");
                let bare = text.trim_start_matches('-');
                if is_number(bare) {
                    format!("{text}degC")
                } else {
                    text
                }
            }
            _ => text,
        }
    }

    pub(super) fn view(
        &self,
        about: &str,
        known: Vec<String>,
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
            Kind::Date => days_after(today, [0, 1, 7, 14]),
            Kind::Length(_) if is_number(&plain) => ["min", "h", "d"]
                .map(|unit| format!("{text} {unit}"))
                .to_vec(),
            Kind::Degrees if is_number(&plain) => ["\u{b0}C", "\u{b0}F"]
                .map(|unit| format!("{text} {unit}"))
                .to_vec(),
            Kind::Length(_) | Kind::Degrees => Vec::new(),
        };
        let caption = caption(language, self.asked);
        EntryView {
            unit: match kind {
                Kind::Degrees => String::from("\u{b0}C"),
                Kind::Length("min") => String::from("min"),
                _ => String::new(),
            },
            hint: expected(language, self.asked),
            picks,
            ..typed_field::entry(language, about, caption, &self.text, kind == Kind::Name)
        }
    }
}
