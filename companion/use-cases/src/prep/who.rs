//! One pair of hands' own list, and what is handed over.

use super::words::{moment, note_words, who_words};
use super::{PrepNow, length};
use crate::times;
use crate::words::say;
use evenhand_kitchen::prep::{PlannedStep, Progress, Step, StepRef};
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::fmt::Write;

/// Nobody of that name is on the menu.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("nobody is called {wanted:?} in the menu; there are: {known}")]
pub struct NoSuchHand {
    /// Who was asked for.
    pub wanted: String,
    /// Who there is.
    pub known: String,
}

/// A step that goes over the opening of its service.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AtOpening {
    /// Which.
    pub step: StepRef,
    /// When it ends.
    pub until: Timestamp,
    /// Whether it begins only after service opened.
    pub later: bool,
}

/// A step that somebody does.
pub(super) struct OfHand<'p> {
    pub(super) from: Timestamp,
    pub(super) until: Timestamp,
    reference: StepRef,
    pub(super) step: &'p Step,
    /// Who else does it.
    with: Vec<String>,
}

impl OfHand<'_> {
    /// Who else does it, whom it is handed on to, and what to know.
    pub(super) fn words(&self, prep: &PrepNow, language: Language, zone: &TimeZone) -> Vec<String> {
        let mut all = Vec::new();
        if !self.with.is_empty() {
            let names = self.with.join(", ");
            all.push(say!(language, "prep-who-with", names = names).into_owned());
        }
        if let Some(next) = prep.passes_to(self.reference) {
            let names = next.join(", ");
            all.push(say!(language, "prep-who-passes", names = names).into_owned());
        }
        let note = prep.notes.get(&self.reference);
        all.extend(note.map(|note| note_words(language, note, zone)));
        all
    }
}

impl PrepNow {
    /// What is not done when service opens: under way, resting, or to be begun then.
    #[must_use]
    pub fn at_opening(&self) -> Vec<AtOpening> {
        let opens = self.board.service;
        self.plan
            .steps
            .iter()
            .filter_map(|planned| {
                let step = self.board.step(planned.step).ok()?;
                let of_day = self.of_service.get(&planned.step)?.0 == self.day;
                let (from, until) = span(planned, step)?;
                (of_day && until > opens).then_some(AtOpening {
                    step: planned.step,
                    until,
                    later: from >= opens,
                })
            })
            .collect()
    }

    /// What somebody of the menu does until the end of a day, in order of time.
    pub(super) fn steps_of(&self, hand: &str, on: Date, zone: &TimeZone) -> Vec<OfHand<'_>> {
        let mut steps: Vec<OfHand<'_>> = self
            .plan
            .steps
            .iter()
            .filter_map(|planned| {
                let hands = &self.who.get(&planned.step)?.hands;
                if !hands.iter().any(|known| known == hand) {
                    return None;
                }
                let step = self.board.step(planned.step).ok()?;
                let (from, until) = span(planned, step)?;
                Some(OfHand {
                    from,
                    until,
                    reference: planned.step,
                    step,
                    with: hands.iter().filter(|it| *it != hand).cloned().collect(),
                })
            })
            .filter(|mine| mine.from.to_zoned_datetime(zone.clone()).date() <= on)
            .collect();
        steps.sort_by_key(|mine| (mine.from, mine.until, mine.reference));
        steps
    }

    /// Who of the preparation comes after a step, where others do what waits for it.
    fn passes_to(&self, step: StepRef) -> Option<Vec<String>> {
        let mine = &self.who.get(&step)?.hands;
        let preparation = &self.board.step(step).ok()?.preparation;
        let end = self.plan.of(step)?.done_by?;
        let next = self
            .plan
            .steps
            .iter()
            .filter(|p| p.start_by.is_some_and(|from| from >= end))
            .filter(|p| {
                let same = |known: &Step| known.preparation == *preparation;
                self.board.step(p.step).is_ok_and(same)
            })
            .find_map(|p| self.who.get(&p.step))?;
        let others = next.hands.iter().any(|hand| !mine.contains(hand));
        (others && !next.hands.is_empty()).then(|| next.hands.clone())
    }
}

/// From when to when a step that is not done goes.
pub(super) fn span(planned: &PlannedStep, step: &Step) -> Option<(Timestamp, Timestamp)> {
    match step.progress {
        Progress::Done(_) => None,
        Progress::Begun(at) => Some((at, at.checked_add(step.takes.needed()).ok()?)),
        Progress::Waiting => Some((planned.start_by?, planned.done_by?)),
    }
}

/// What somebody does of a day, in order of time, and what is handed over; plain text of at most
/// 80 columns. `name` in any case.
///
/// # Errors
/// [`NoSuchHand`].
pub fn hand_list(
    prep: &PrepNow,
    name: &str,
    language: Language,
    now: Timestamp,
    on: Date,
    zone: &TimeZone,
) -> Result<String, NoSuchHand> {
    let wanted = name.trim();
    let Some(hand) = prep
        .board
        .hands()
        .find(|hand| hand.name.eq_ignore_ascii_case(wanted))
    else {
        let known: Vec<&str> = prep.board.hands().map(|hand| hand.name.as_str()).collect();
        return Err(NoSuchHand {
            wanted: wanted.to_owned(),
            known: if known.is_empty() {
                String::from("none; a resource's who names them")
            } else {
                known.join(", ")
            },
        });
    };
    let mut text = String::new();
    // Writing to a text cannot fail.
    let mut line = |words: &str| {
        let _ = writeln!(text, "{}", words.trim_end());
    };
    let day = times::day(language, on);
    line(&say!(
        language,
        "prep-who-heading",
        name = hand.name.as_str(),
        day = day
    ));
    let at = |moment| times::within_a_week(language, moment, on, zone);
    let steps = prep.steps_of(&hand.name, on, zone);
    for mine in &steps {
        line(&format!(
            "[ ] {:9} {:9} {:8} {}",
            at(mine.from),
            at(mine.until),
            length(mine.step.takes.needed()),
            mine.step.full_name()
        ));
        for words in mine.words(prep, language, zone) {
            line(&format!("{:33}{words}", ""));
        }
    }
    if steps.is_empty() {
        line(&say!(language, "prep-who-nothing"));
    }
    for words in opening_lines(prep, language, now, zone) {
        line(&words);
    }
    Ok(text)
}

/// What is handed over when service opens, with a heading; nothing where all is done by then.
pub(super) fn opening_lines(
    prep: &PrepNow,
    language: Language,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let open = opening_words(prep, language, now, zone);
    if open.is_empty() {
        return open;
    }
    let opens = moment(language, prep.board.service, now, zone);
    let heading = say!(language, "prep-opening-heading", time = opens).into_owned();
    let each = open.into_iter().map(|words| format!("  {words}"));
    [String::new(), heading].into_iter().chain(each).collect()
}

/// What is handed over when service opens, a line each.
#[must_use]
pub fn opening_words(
    prep: &PrepNow,
    language: Language,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let at = |known| moment(language, known, now, zone);
    let mut lines = Vec::new();
    for one in prep.at_opening() {
        let Ok(step) = prep.board.step(one.step) else {
            continue;
        };
        let name = step.full_name();
        let until = at(one.until);
        let who =
            who_words(language, prep, one.step).map_or_else(String::new, |who| format!(" ({who})"));
        let said = if one.later {
            say!(language, "prep-opening-later", step = name, until = until)
        } else if step.takes.is_rest() {
            say!(language, "prep-opening-rests", step = name, until = until)
        } else {
            say!(
                language,
                "prep-opening-under-way",
                step = name,
                until = until
            )
        };
        lines.push(format!("{said}{who}"));
    }
    lines
}
