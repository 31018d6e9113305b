//! The handover in lines, and as a page.

use super::{AtWork, DishCount, Handover};
use crate::prep::standing_word;
use crate::printing::{self, A4, PageError};
use crate::sheet::{self, Weight};
use crate::times;
use crate::words::say;
use evenhand_kitchen::service::ServiceCalendar;
use evenhand_words::Language;
use jiff::Timestamp;

/// All of it, line by line.
#[must_use]
pub fn handover_words(
    language: Language,
    handover: &Handover,
    calendar: &ServiceCalendar,
) -> Vec<(Weight, String)> {
    let day = times::day_of_year(language, handover.day);
    let near = |at| times::near(language, at, handover.day, calendar.zone());
    let mut lines = vec![
        (
            Weight::Title,
            say!(language, "handover-title", day = day).into_owned(),
        ),
        (
            Weight::Small,
            say!(language, "handover-as-at", at = near(handover.at)).into_owned(),
        ),
    ];
    let heading = |lines: &mut Vec<(Weight, String)>, words: String| {
        lines.push((Weight::Heading, words));
    };
    heading(&mut lines, say!(language, "handover-dishes").into_owned());
    if handover.dishes.is_empty() {
        lines.push((
            Weight::Text,
            say!(language, "handover-no-dishes").into_owned(),
        ));
    }
    for count in &handover.dishes {
        lines.push((Weight::Text, dish_words(language, count)));
    }
    lines.extend(beside_the_dishes(language, handover, calendar));
    lines
}

/// What there is besides its dishes: who is where, what is under way, and what
/// tomorrow has to know.
#[must_use]
pub fn beside_the_dishes(
    language: Language,
    handover: &Handover,
    calendar: &ServiceCalendar,
) -> Vec<(Weight, String)> {
    let near = |at| times::near(language, at, handover.day, calendar.zone());
    let heading = |lines: &mut Vec<(Weight, String)>, words: String| {
        lines.push((Weight::Heading, words));
    };
    let mut lines = Vec::new();
    if !handover.at_work.is_empty() || !handover.steps.is_empty() {
        heading(&mut lines, say!(language, "handover-who").into_owned());
    }
    for at_work in &handover.at_work {
        lines.push((Weight::Text, at_work_words(language, at_work, near)));
    }
    for step in &handover.steps {
        let begin = step
            .begin
            .map_or_else(String::new, |at| format!(" {}", near(at)));
        let needs = step
            .needs
            .as_ref()
            .map_or_else(String::new, |needs| format!(" [{needs}]"));
        lines.push((
            Weight::Text,
            format!(
                "{}{begin}: {}{needs}",
                standing_word(language, step.standing),
                step.name
            ),
        ));
    }
    if !handover.due.is_empty() || !handover.notes.is_empty() || !handover.struck.is_empty() {
        heading(&mut lines, say!(language, "handover-tomorrow").into_owned());
    }
    for (id, title, due) in &handover.due {
        let title = title.as_deref().unwrap_or_default();
        lines.push((
            Weight::Text,
            say!(
                language,
                "handover-due",
                batch = id.to_string(),
                title = title,
                at = near(due.at)
            )
            .into_owned(),
        ));
    }
    for (title, note) in &handover.notes {
        let title = title.as_deref().unwrap_or_default();
        lines.push((Weight::Text, format!("{title}: {note}")));
    }
    for (reason, count) in &handover.struck {
        lines.push((
            Weight::Text,
            say!(
                language,
                "handover-struck",
                count = *count,
                reason = reason.as_str()
            )
            .into_owned(),
        ));
    }
    lines
}

/// Who was where last; somebody, where the kitchen hides names.
fn at_work_words(
    language: Language,
    at_work: &AtWork,
    near: impl Fn(Timestamp) -> String,
) -> String {
    let (dish, at) = (at_work.dish.as_str(), near(at_work.at));
    match &at_work.cook {
        Some(cook) => say!(
            language,
            "handover-at-work",
            cook = cook.initials(),
            dish = dish,
            at = at
        ),
        None => say!(language, "handover-somebody", dish = dish, at = at),
    }
    .into_owned()
}

fn dish_words(language: Language, count: &DishCount) -> String {
    let mut words = say!(
        language,
        "handover-dish",
        dish = count.dish.as_str(),
        weighed = count.weighed,
        ready = count.ready(),
        out = count.out
    )
    .into_owned();
    if count.left_before > 0 {
        words += " ";
        words += &say!(language, "handover-left-before", count = count.left_before);
    }
    if count.short + count.heavy > 0 {
        words += " ";
        words += &say!(
            language,
            "handover-off",
            short = count.short,
            heavy = count.heavy
        );
    }
    if let Some(more) = count.to_weigh().filter(|more| *more > 0) {
        words += " ";
        words += &say!(language, "handover-to-weigh", count = more);
    }
    if count.ready() < 0 {
        words += " ";
        words += &say!(language, "handover-more-out");
    }
    words
}

/// The page as PDF.
///
/// # Errors
/// [`PageError`] where it cannot be set.
pub fn pdf(
    language: Language,
    handover: &Handover,
    calendar: &ServiceCalendar,
) -> Result<Vec<u8>, PageError> {
    let lines = handover_words(language, handover, calendar);
    let title = lines
        .first()
        .map_or_else(String::new, |(_, title)| title.clone());
    let sheets = sheet::pages(&lines, |nth, of| format!("{title}, {nth}/{of}"));
    printing::pdf_in(A4, language, &title, &sheets)
}
