//! The plan as lines of text.

use super::deliveries::{delivery_risks, delivery_words};
use super::words::{latest_words, moment, remedy, standing_word, supply_words, troubles, warnings};
use super::{PrepNow, length, note_words};
use crate::words::say;
use evenhand_kitchen::prep::{PlannedStep, StepRef, StepState};
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::civil::Time;
use jiff::tz::TimeZone;
use std::collections::BTreeMap;

impl PrepNow {
    /// The end of the day of the service asked for: when it has closed, and not before midnight.
    #[must_use]
    pub fn end_of_day(&self, zone: &TimeZone) -> Timestamp {
        let midnight = self
            .day
            .tomorrow()
            .ok()
            .and_then(|next| zone.to_timestamp(next.to_datetime(Time::midnight())).ok());
        let last = midnight.max(self.board.closing());
        last.map_or(self.board.service, |at| at.max(self.board.service))
    }

    /// Whether a step belongs to what is to be done until a moment: it is begun by then, waits for
    /// nothing, or is for the service asked for.
    fn is_until(&self, planned: &PlannedStep, until: Timestamp) -> bool {
        let of_service = self.of_service.get(&planned.step);
        matches!(planned.standing, StepState::Late | StepState::Now)
            || planned.start_by.is_none_or(|at| at <= until)
            || of_service.is_some_and(|(day, _)| *day == self.day)
    }
}

/// All that the plan says, line by line: what is wrong, each step that is open and is begun until a
/// moment, how many are begun later, what feeds the services until then.
#[must_use]
pub fn plan_words(
    language: Language,
    prep: &PrepNow,
    until: Timestamp,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let at = |known: Timestamp| moment(language, known, now, zone);
    let board = &prep.board;
    let opens = at(board.service);
    let opens_in = board.service.duration_since(now);
    let mut lines = vec![
        if opens_in.is_negative() {
            say!(
                language,
                "prep-plan-opened",
                at = opens,
                ago = length(-opens_in)
            )
        } else {
            say!(
                language,
                "prep-plan-opens",
                at = opens,
                until = length(opens_in)
            )
        }
        .into_owned(),
    ];
    lines.extend(troubles(language, prep, now, zone));
    lines.extend(delivery_risks(language, prep, now, zone));
    for moved in &prep.moved {
        lines.push(say!(language, "prep-plan-moved", what = moved.as_str()).into_owned());
    }
    lines.extend(turned(language, prep, &at));
    lines.push(format!(
        "{:10}  {:17}  {:17}  {:>8}  {}",
        "",
        say!(language, "prep-plan-start-by"),
        say!(language, "prep-plan-latest"),
        say!(language, "prep-plan-spare"),
        say!(language, "prep-plan-what"),
    ));
    let open = prep.plan.steps.iter();
    let (shown, later): (Vec<_>, Vec<_>) = open
        .filter(|planned| planned.standing != StepState::Done)
        .partition(|planned| prep.is_until(planned, until));
    for planned in &shown {
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
    if !later.is_empty() {
        lines.push(
            say!(
                language,
                "prep-plan-not-shown",
                count = later.len(),
                until = at(until)
            )
            .into_owned(),
        );
    }
    let date = |at: Timestamp| at.to_zoned_datetime(zone.clone()).date();
    let today = date(now);
    let made_by_then = |name: &str| {
        let mut steps = shown.iter().filter_map(|it| board.step(it.step).ok());
        steps.any(|step| step.preparation.starts_with(name))
    };
    let supplied = prep.supplied.iter();
    for fed in supplied
        .filter(|fed| fed.supply.day <= prep.day.max(date(until)) || made_by_then(&fed.on_board))
    {
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

/// What comes after others that it came before until something was late, and why.
fn turned(language: Language, prep: &PrepNow, at: &impl Fn(Timestamp) -> String) -> Vec<String> {
    let board = &prep.board;
    let mut after: BTreeMap<StepRef, Vec<String>> = BTreeMap::new();
    for turned in &prep.plan.turned {
        // What waits for an oven goes by its temperature, whatever came before.
        let waits = [turned.first, turned.second].map(|step| board.oven_times(step).is_some());
        if let (Ok(first), false) = (board.step(turned.first), waits.contains(&true)) {
            let others = after.entry(turned.second).or_default();
            others.push(first.full_name());
        }
    }
    let words = |(step, others): (StepRef, Vec<String>)| {
        let step = board.step(step).ok()?;
        let words = say!(
            language,
            "prep-plan-turned",
            step = step.full_name(),
            others = others.join(", ")
        );
        let why = step.not_before.map(|known| {
            let words = words.as_ref();
            say!(
                language,
                "prep-plan-turned-until",
                turned = words,
                at = at(known)
            )
            .into_owned()
        });
        Some(why.unwrap_or_else(|| words.into_owned()))
    };
    after.into_iter().filter_map(words).collect()
}
