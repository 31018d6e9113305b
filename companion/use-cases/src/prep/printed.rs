//! The day's lists as pages to print: everybody's, then that of each pair of hands on a page of its
//! own, to hang where it works.

use super::deliveries::delivery_risks;
use super::who::{opening_words, span};
use super::words::{moment, warnings, who_words};
use super::{PrepNow, length, note_words, supply_words, troubles};
use crate::printing::{self, A4, PageError};
use crate::sheet::{self, Weight};
use crate::times;
use crate::words::say;
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;

/// The lists of the day of a plan, as PDF: everybody's and each pair of hands' own; or that of one,
/// by the name in the menu.
///
/// # Errors
/// [`PageError`] where a page cannot be set.
pub fn lists_pdf(
    language: Language,
    prep: &PrepNow,
    who: Option<&str>,
    now: Timestamp,
    zone: &TimeZone,
) -> Result<Vec<u8>, PageError> {
    let hands = prep.board.hands().map(|hand| hand.name.as_str());
    let wanted = |name: &&str| who.is_none_or(|who| who.trim().eq_ignore_ascii_case(name));
    let mut lists: Vec<Vec<(Weight, String)>> = Vec::new();
    if who.is_none() {
        lists.push(everybodys(language, prep, now, zone));
    }
    let own = hands.filter(wanted);
    lists.extend(own.map(|name| of_hand(language, prep, name, now, zone)));
    let title =
        |lines: &[(Weight, String)]| lines.first().map_or_else(String::new, |it| it.1.clone());
    let pages: Vec<String> = lists
        .iter()
        .flat_map(|lines| {
            sheet::pages(lines, |page, pages| {
                let list = title(lines);
                say!(
                    language,
                    "prep-print-page",
                    list = list,
                    page = page,
                    pages = pages
                )
                .into_owned()
            })
        })
        .collect();
    let title = lists.first().map_or_else(String::new, |lines| title(lines));
    printing::pdf_in(A4, language, &title, &pages)
}

/// What is to be done from when to when.
fn step_words(
    language: Language,
    prep: &PrepNow,
    (from, until): (Timestamp, Timestamp),
    (takes, name): (String, String),
    zone: &TimeZone,
) -> (Weight, String) {
    let at = |known| times::within_a_week(language, known, prep.day, zone);
    let said = say!(
        language,
        "prep-print-step",
        from = at(from),
        until = at(until),
        takes = takes,
        step = name
    );
    (Weight::Text, said.into_owned())
}

fn everybodys(
    language: Language,
    prep: &PrepNow,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<(Weight, String)> {
    let day = format!("{} {}", times::day(language, prep.day), prep.day.year());
    let at = |known| times::within_a_week(language, known, prep.day, zone);
    let mut lines = vec![
        (
            Weight::Title,
            say!(language, "prep-list-heading", day = day).into_owned(),
        ),
        (
            Weight::Small,
            say!(
                language,
                "prep-list-opens",
                opens = at(prep.board.service),
                now = at(now)
            )
            .into_owned(),
        ),
    ];
    let known = troubles(language, prep, now, zone).into_iter();
    let known = known.chain(delivery_risks(language, prep, now, zone));
    lines.extend(known.map(|words| (Weight::Text, words)));
    let mut steps: Vec<_> = prep
        .plan
        .steps
        .iter()
        .filter_map(|planned| {
            let step = prep.board.step(planned.step).ok()?;
            Some((span(planned, step)?, planned.step, step))
        })
        .filter(|((from, _), ..)| from.to_zoned_datetime(zone.clone()).date() <= prep.day)
        .collect();
    steps.sort_by_key(|(span, step, _)| (*span, *step));
    lines.push((
        Weight::Heading,
        say!(language, "prep-list-to-begin").into_owned(),
    ));
    for (span, reference, step) in steps {
        let named = (length(step.takes.needed()), step.full_name());
        lines.push(step_words(language, prep, span, named, zone));
        let note = prep.notes.get(&reference);
        let note = note.map(|note| note_words(language, note, zone));
        let about = who_words(language, prep, reference).into_iter().chain(note);
        lines.extend(about.map(|words| (Weight::Small, words)));
    }
    lines.extend(handover(language, prep, now, zone));
    let fed = prep.supplied.iter();
    let fed: Vec<_> = fed.filter(|fed| fed.supply.day == prep.day).collect();
    if !fed.is_empty() {
        lines.push((
            Weight::Heading,
            say!(language, "prep-list-batches").into_owned(),
        ));
    }
    for fed in fed {
        lines.push((Weight::Text, supply_words(language, fed, prep.day, zone)));
        let warned = warnings(language, fed, prep.day, zone).into_iter();
        lines.extend(warned.map(|words| (Weight::Small, words)));
    }
    lines
}

fn of_hand(
    language: Language,
    prep: &PrepNow,
    name: &str,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<(Weight, String)> {
    let day = times::day(language, prep.day);
    let heading = say!(language, "prep-who-heading", name = name, day = day);
    let mut lines = vec![(Weight::Title, heading.into_owned())];
    let steps = prep.steps_of(name, prep.day, zone);
    if steps.is_empty() {
        lines.push((
            Weight::Text,
            say!(language, "prep-who-nothing").into_owned(),
        ));
    }
    for mine in &steps {
        let named = (length(mine.step.takes.needed()), mine.step.full_name());
        let span = (mine.from, mine.until);
        lines.push(step_words(language, prep, span, named, zone));
        let about = mine.words(prep, language, zone).into_iter();
        lines.extend(about.map(|words| (Weight::Small, words)));
    }
    lines.extend(handover(language, prep, now, zone));
    lines
}

/// What is handed over when service opens.
fn handover(
    language: Language,
    prep: &PrepNow,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<(Weight, String)> {
    let open = opening_words(prep, language, now, zone);
    if open.is_empty() {
        return Vec::new();
    }
    let opens = moment(language, prep.board.service, now, zone);
    let heading = say!(language, "prep-opening-heading", time = opens).into_owned();
    let each = open.into_iter().map(|words| (Weight::Text, words));
    std::iter::once((Weight::Heading, heading))
        .chain(each)
        .collect()
}
