//! The plan as lines of text.

use super::deliveries::{delivery_risks, delivery_words};
use super::words::{latest_words, moment, remedy, standing_word, supply_words, troubles, warnings};
use super::{PrepNow, length, note_words};
use crate::words::say;
use evenhand_kitchen::prep::StepState;
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;

/// All that the plan says, line by line: what is wrong, each step that is open, what feeds the
/// services.
#[must_use]
pub fn plan_words(
    language: Language,
    prep: &PrepNow,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let at = |known: Timestamp| moment(language, known, now, zone);
    let board = &prep.board;
    let opens = at(board.service);
    let until = board.service.duration_since(now);
    let mut lines = vec![
        if until.is_negative() {
            say!(
                language,
                "prep-plan-opened",
                at = opens,
                ago = length(-until)
            )
        } else {
            say!(
                language,
                "prep-plan-opens",
                at = opens,
                until = length(until)
            )
        }
        .into_owned(),
    ];
    lines.extend(troubles(language, prep, now, zone));
    lines.extend(delivery_risks(language, prep, now, zone));
    for moved in &prep.moved {
        lines.push(say!(language, "prep-plan-moved", what = moved.as_str()).into_owned());
    }
    lines.push(format!(
        "{:10}  {:17}  {:17}  {:>8}  {}",
        "",
        say!(language, "prep-plan-start-by"),
        say!(language, "prep-plan-latest"),
        say!(language, "prep-plan-spare"),
        say!(language, "prep-plan-what"),
    ));
    let open = prep.plan.steps.iter();
    for planned in open.filter(|planned| planned.standing != StepState::Done) {
        let Ok(step) = board.step(planned.step) else {
            continue;
        };
        let start = planned
            .start_by
            .map_or_else(|| say!(language, "prep-plan-no-place").into_owned(), at);
        let decides = if planned.decides.is_some() { " *" } else { "" };
        lines.push(format!(
            "{:10}  {start:17}  {:17}  {:>8}  {}{decides}",
            standing_word(language, planned.standing),
            latest_words(language, planned, &at(planned.latest)),
            length(planned.slack),
            step.full_name(),
        ));
        let mut beside = |words: &str| lines.push(format!("{:62}{words}", ""));
        if let Some(over) = planned.over_rest {
            beside(&say!(language, "prep-plan-rests", over = length(over)));
        }
        if let Some(words) = delivery_words(language, prep, planned.step, now, zone) {
            beside(&words);
        }
        if let Some(note) = prep.notes.get(&planned.step) {
            beside(&note_words(language, note, zone));
        }
    }
    lines.push(say!(language, "prep-plan-decides").into_owned());
    let today = now.to_zoned_datetime(zone.clone()).date();
    for fed in &prep.supplied {
        lines.push(supply_words(language, fed, today, zone));
        lines.extend(remedy(language, fed).map(|words| format!("  {words}")));
        if fed.supply.day == prep.day {
            lines.extend(warnings(language, fed, today, zone));
        }
    }
    for step in &prep.unknown {
        lines.push(say!(language, "prep-list-unknown", step = step.as_str()).into_owned());
    }
    lines
}
