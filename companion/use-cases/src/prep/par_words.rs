//! Par as lines of text.

use crate::times;
use crate::words::say;
use evenhand_kitchen::prep::{AsBought, ENOUGH_NIGHTS, KnownYield, Par, Stock};
use evenhand_kitchen::units::{MassUnit, format_mass};
use evenhand_protocol::Mass;
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// Par of a dish, with what it was worked out from.
#[derive(Debug, Clone, Copy)]
pub struct ParTold<'a> {
    /// The answer.
    pub answer: Par,
    /// The dish.
    pub dish: &'a str,
    /// The day of service.
    pub on: Date,
    /// Guests expected.
    pub covers: u32,
    /// Portions that the day before left.
    pub left: u32,
    /// The yield.
    pub yields: Option<KnownYield>,
    /// Over how many purchases; none where it was said.
    pub purchases: usize,
    /// Food in hand.
    pub stock: Stock,
    /// When to begin by the menu.
    pub start_by: Option<Timestamp>,
    /// Whether the share of guests was said.
    pub said: bool,
    /// How many past services.
    pub services: usize,
    /// Whether the guests are those of the weekday before.
    pub by_weekday: bool,
    /// What one weighs, and from how many; by the target from none.
    pub portion: (Mass, usize),
}

/// All of it, line by line.
#[must_use]
pub fn par_words(language: Language, told: &ParTold<'_>, zone: &TimeZone) -> Vec<String> {
    let mass = |mass| format_mass(mass, MassUnit::Gram);
    let answer = told.answer;
    let (dish, day) = (told.dish, told.on.to_string());
    let heading = if told.by_weekday {
        say!(
            language,
            "prep-par-heading-weekday",
            dish = dish,
            day = day,
            covers = told.covers.to_string()
        )
    } else {
        say!(
            language,
            "prep-par-heading",
            dish = dish,
            day = day,
            covers = told.covers.to_string()
        )
    };
    let mut lines = vec![heading.into_owned()];
    let mut line = |label: std::borrow::Cow<'_, str>, words: std::borrow::Cow<'_, str>| {
        lines.push(format!("  {label:12} {words}"));
    };
    let (ready, likely, margin) = (
        answer.ready.to_string(),
        answer.likely.to_string(),
        answer.margin.to_string(),
    );
    let have = if told.said {
        say!(
            language,
            "prep-par-ready-said",
            ready = ready,
            likely = likely,
            margin = margin
        )
    } else {
        say!(
            language,
            "prep-par-ready-past",
            ready = ready,
            likely = likely,
            margin = margin,
            past = told.services.to_string()
        )
    };
    line(say!(language, "prep-par-ready"), have);
    if !told.said && told.services < ENOUGH_NIGHTS {
        line("".into(), say!(language, "prep-par-few-nights"));
    }
    line(
        say!(language, "prep-par-make"),
        say!(
            language,
            "prep-par-make-words",
            count = answer.to_make.to_string(),
            left = told.left.to_string()
        ),
    );
    let (portion, weighed) = told.portion;
    let portion = match weighed {
        0 => say!(language, "prep-par-portion-target", mass = mass(portion)),
        weighed => say!(
            language,
            "prep-par-portion-served",
            mass = mass(portion),
            count = weighed.to_string()
        ),
    };
    line(say!(language, "prep-par-portion"), portion);
    line(
        say!(language, "prep-par-food"),
        say!(
            language,
            "prep-par-food-words",
            wanted = mass(answer.wanted_ready),
            ready = mass(told.stock.ready)
        ),
    );
    let range = |known: AsBought| match known.most.filter(|most| *most > known.likely) {
        Some(most) => say!(
            language,
            "prep-par-range",
            likely = mass(known.likely),
            most = mass(most)
        )
        .into_owned(),
        None => mass(known.likely),
    };
    let start = match (answer.to_start, told.yields) {
        (Some(start), Some(yields)) => {
            let likely = format!("{:.2}", yields.likely.fraction());
            match told.purchases {
                0 => say!(
                    language,
                    "prep-par-yield-said",
                    range = range(start),
                    bought = likely
                ),
                count => say!(
                    language,
                    "prep-par-yield-past",
                    range = range(start),
                    bought = likely,
                    count = count.to_string()
                ),
            }
        }
        (Some(start), None) => range(start).into(),
        (None, _) => say!(language, "prep-par-no-yield"),
    };
    line(say!(language, "prep-par-start"), start);
    if let Some(start) = told.start_by {
        line(
            say!(language, "prep-par-start-by"),
            times::day_and_time(language, start, zone).into(),
        );
    }
    let order = answer
        .to_order
        .map_or_else(|| say!(language, "prep-not-known").into_owned(), range);
    line(
        say!(language, "prep-par-order"),
        say!(
            language,
            "prep-par-order-words",
            range = order,
            hand = mass(told.stock.as_bought)
        ),
    );
    lines
}
