//! The day's list, as a page to print.

use super::deliveries::{delivery_risks, delivery_words};
use super::who::opening_lines;
use super::words::{latest_words, remedy, warnings, who_words};
use super::{PrepNow, needs, note_words, supply_words, troubles};
use crate::times;
use crate::words::say;
use evenhand_kitchen::prep::{PlannedStep, Progress, Step, StepState};
use evenhand_words::Language;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use std::fmt::Write;

/// A length of time: `45 min`, `3 h 05`, `2 d 4 h`.
#[must_use]
pub fn length(d: SignedDuration) -> String {
    let minutes = d.as_secs().abs() / 60;
    let sign = if d.is_negative() { "-" } else { "" };
    match (minutes / 1440, minutes / 60 % 24, minutes % 60) {
        (0, 0, m) => format!("{sign}{m} min"),
        (0, h, m) => format!("{sign}{h} h {m:02}"),
        (days, h, _) => format!("{sign}{days} d {h} h"),
    }
}

/// Everything that is to be begun on a day, as plain text of at most 80
/// columns: late first, then by when to begin. What is done stands at the end.
#[must_use]
pub fn day_list(
    prep: &PrepNow,
    language: Language,
    on: Date,
    now: Timestamp,
    zone: &TimeZone,
) -> String {
    let mut text = String::new();
    let local = |moment: Timestamp| moment.to_zoned_datetime(zone.clone());
    let is_on = |moment: Timestamp| local(moment).date() == on;
    // Writing to a text cannot fail.
    let mut line = |words: String| {
        let _ = writeln!(text, "{}", words.trim_end());
    };
    let day = format!("{} {}", times::day(language, on), on.year());
    line(say!(language, "prep-list-heading", day = day).into_owned());
    // A time of another day carries its day.
    let short = |at: Timestamp| times::within_a_week(language, at, on, zone);
    line(
        say!(
            language,
            "prep-list-opens",
            opens = short(prep.board.service),
            now = short(now)
        )
        .into_owned(),
    );
    for trouble in troubles(language, prep, now, zone) {
        line(trouble);
    }
    for risk in delivery_risks(language, prep, now, zone) {
        for part in textwrap::wrap(&risk, 80) {
            line(part.into_owned());
        }
    }
    let of = |planned: &PlannedStep| prep.board.step(planned.step).ok().cloned();
    let section = |line: &mut dyn FnMut(String), title: &str, steps: &[(&PlannedStep, Step)]| {
        if steps.is_empty() {
            return;
        }
        line(String::new());
        line(title.to_owned());
        let about = steps.iter().any(|(planned, _)| !planned.latest_is_proven);
        let wide = if about { 15 } else { 9 };
        let head = |key: std::borrow::Cow<'_, str>| key.into_owned();
        line(format!(
            "    {:9}  {:wide$}  {:8}  {}",
            head(say!(language, "prep-list-start-by")),
            head(say!(language, "prep-list-latest")),
            head(say!(language, "prep-list-takes")),
            head(say!(language, "prep-list-what"))
        ));
        for (planned, step) in steps {
            let start = planned.start_by.map_or_else(|| String::from("?"), short);
            let latest = latest_words(language, planned, &short(planned.latest));
            let needs = needs(step).map_or_else(String::new, |needs| format!(" [{needs}]"));
            line(format!(
                "[ ] {start:9}  {latest:wide$}  {:8}  {}{needs}{}",
                length(step.takes.needed()),
                step.full_name(),
                if planned.decides.is_some() { " *" } else { "" }
            ));
            if let Some(who) = who_words(language, prep, planned.step) {
                line(format!("{:36}{who}", ""));
            }
            if let Some(words) = delivery_words(language, prep, planned.step, now, zone) {
                for part in textwrap::wrap(&words, 44) {
                    line(format!("{:36}{part}", ""));
                }
            }
            if let Some(note) = prep.notes.get(&planned.step) {
                let note = note_words(language, note, zone);
                line(format!("{:36}{note}", ""));
            }
        }
    };
    let mut late = Vec::new();
    let mut open = Vec::new();
    let mut done = Vec::new();
    for planned in &prep.plan.steps {
        let Some(step) = of(planned) else { continue };
        match (planned.standing, step.progress) {
            (StepState::Done, Progress::Done(at)) if is_on(at) => done.push((planned, step)),
            (StepState::Done, _) => {}
            (StepState::Late, _) => late.push((planned, step)),
            _ if planned.start_by.is_none_or(|at| local(at).date() <= on) => {
                open.push((planned, step));
            }
            _ => {}
        }
    }
    section(&mut line, &say!(language, "prep-list-will-be-late"), &late);
    section(&mut line, &say!(language, "prep-list-to-begin"), &open);
    if prep.board.hands().next().is_some() {
        for words in opening_lines(prep, language, now, zone) {
            line(words);
        }
    }
    let supplied: Vec<_> = prep
        .supplied
        .iter()
        .filter(|fed| fed.supply.day == prep.day)
        .collect();
    if !supplied.is_empty() {
        line(String::new());
        line(say!(language, "prep-list-batches").into_owned());
    }
    for fed in supplied {
        line(supply_words(language, fed, on, zone));
        let more = remedy(language, fed).into_iter();
        for words in more.chain(warnings(language, fed, on, zone)) {
            line(format!("  {words}"));
        }
    }
    if !done.is_empty() {
        line(String::new());
        line(say!(language, "prep-list-done").into_owned());
        for (planned, step) in &done {
            let note = prep
                .notes
                .get(&planned.step)
                .map_or_else(String::new, |note| {
                    format!(", {}", note_words(language, note, zone))
                });
            let who = prep
                .did
                .get(&planned.step)
                .map_or_else(String::new, |who| format!(" ({})", who.as_str()));
            line(format!("[x] {}{who}{note}", step.full_name()));
        }
    }
    line(String::new());
    line(format!("* {}", say!(language, "prep-list-decides")));
    for step in &prep.unknown {
        line(say!(language, "prep-list-unknown", step = step.as_str()).into_owned());
    }
    text
}
