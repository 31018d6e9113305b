//! The day's list, as a page to print.

use super::who::opening_lines;
use super::words::{latest_words, remedy, warnings, who_words};
use super::{PrepNow, needs, note_words, supply_words, troubles};
use crate::times;
use evenhand_kitchen::prep::{PlannedStep, Progress, Standing, Step};
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
pub fn day_list(prep: &PrepNow, on: Date, now: Timestamp, zone: &TimeZone) -> String {
    let mut text = String::new();
    let local = |moment: Timestamp| moment.to_zoned_datetime(zone.clone());
    let is_on = |moment: Timestamp| local(moment).date() == on;
    // Writing to a text cannot fail.
    let mut line = |words: String| {
        let _ = writeln!(text, "{}", words.trim_end());
    };
    line(format!(
        "PREP FOR {} {}",
        times::day(Language::English, on),
        on.year()
    ));
    // A time of another day carries its day.
    let short = |at: Timestamp| times::within_a_week(Language::English, at, on, zone);
    line(format!(
        "service opens {}; as it stood {}",
        short(prep.board.service),
        short(now)
    ));
    for trouble in troubles(prep, now, zone) {
        line(trouble);
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
        line(format!("    start by   {:wide$}  takes     what", "latest"));
        for (planned, step) in steps {
            let start = planned.start_by.map_or_else(|| String::from("?"), short);
            let latest = latest_words(Language::English, planned, &short(planned.latest));
            let needs = needs(step).map_or_else(String::new, |needs| format!(" [{needs}]"));
            line(format!(
                "[ ] {start:9}  {latest:wide$}  {:8}  {}{needs}{}",
                length(step.takes.needed()),
                step.full_name(),
                if planned.decides.is_some() { " *" } else { "" }
            ));
            if let Some(who) = who_words(Language::English, prep, planned.step) {
                line(format!("{:36}{who}", ""));
            }
            if let Some(note) = prep.notes.get(&planned.step) {
                let note = note_words(Language::English, note, zone);
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
            (Standing::Done, Progress::Done(at)) if is_on(at) => done.push((planned, step)),
            (Standing::Done, _) => {}
            (Standing::Late, _) => late.push((planned, step)),
            _ if planned.start_by.is_none_or(|at| local(at).date() <= on) => {
                open.push((planned, step));
            }
            _ => {}
        }
    }
    section(&mut line, "WILL BE LATE", &late);
    section(&mut line, "TO BEGIN", &open);
    if prep.board.hands().next().is_some() {
        for words in opening_lines(prep, Language::English, now, zone) {
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
        line(String::from("BATCHES"));
    }
    for fed in supplied {
        line(supply_words(Language::English, fed, on, zone));
        let more = remedy(Language::English, fed).into_iter();
        for words in more.chain(warnings(Language::English, fed, on, zone)) {
            line(format!("  {words}"));
        }
    }
    if !done.is_empty() {
        line(String::new());
        line(String::from("DONE"));
        for (planned, step) in &done {
            let note = prep
                .notes
                .get(&planned.step)
                .map_or_else(String::new, |note| {
                    format!(", {}", note_words(Language::English, note, zone))
                });
            line(format!("[x] {}{note}", step.full_name()));
        }
    }
    line(String::new());
    line(String::from("* the chain that decides the day"));
    for step in &prep.unknown {
        line(format!("told of '{step}', which is on no menu any more"));
    }
    text
}
