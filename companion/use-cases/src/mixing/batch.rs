//! Batches on record in words: what is due, what was found, what is in the way.

use super::cure::{agent_words, ingoing_words, method_words, no_limit_words};
use super::mix::{ingredient_words, mix_error_words};
use super::{figure, grams, short};
use crate::sheet::with_degree_signs;
use crate::words::say;
use evenhand_kitchen::batch::{AimError, BatchError, Due, Hindrance, Loss, Mark, Task};
use evenhand_kitchen::heat::{Finding, Found, Outcome};
use evenhand_kitchen::limits::Side;
use evenhand_protocol::Temperature;
use evenhand_words::Language;
use jiff::SignedDuration;

/// A span in its two largest units: `2 d 4 h`, `3 h 20 min`, `12 min`.
#[must_use]
pub fn span_words(language: Language, span: SignedDuration) -> String {
    let minutes = span.abs().as_mins();
    let (days, hours, minutes) = (minutes / 1440, minutes / 60 % 24, minutes % 60);
    match (days, hours, minutes) {
        (0, 0, 0) => say!(language, "batch-less-than-a-minute").into_owned(),
        (0, 0, minutes) => format!("{minutes} min"),
        (0, hours, 0) => format!("{hours} h"),
        (0, hours, minutes) => format!("{hours} h {minutes} min"),
        (days, 0, _) => say!(language, "batch-days", days = days.to_string()).into_owned(),
        (days, hours, _) => say!(
            language,
            "batch-days-hours",
            days = days.to_string(),
            hours = hours.to_string(),
        )
        .into_owned(),
    }
}

/// What is to be done with a batch, and when.
#[must_use]
pub fn due_words(language: Language, due: &Due) -> String {
    let when = if due.is_overdue() {
        "overdue"
    } else if due.left.as_mins() == 0 {
        "now"
    } else {
        "in"
    };
    let task = match due.task {
        Task::Turn => "turn",
        Task::TakeOut => "take-out",
    };
    say!(
        language,
        "batch-due",
        task = task,
        when = when,
        span = span_words(language, due.left),
    )
    .into_owned()
}

/// How far drying is.
#[must_use]
pub fn loss_words(language: Language, loss: &Loss) -> String {
    let lost = loss.percent();
    if lost < 0.0 {
        let percent = figure(language, -lost, 1);
        return say!(language, "batch-heavier", percent = percent).into_owned();
    }
    let (lost, aim) = (
        figure(language, lost, 1),
        figure(language, loss.target().percent(), 1),
    );
    if loss.is_down() {
        say!(language, "batch-down", lost = lost, aim = aim).into_owned()
    } else {
        let to_go = format!("{} g", figure(language, loss.to_go().grams(), 0));
        say!(
            language,
            "batch-lost",
            lost = lost,
            aim = aim,
            to_go = to_go
        )
        .into_owned()
    }
}

/// A mark.
#[must_use]
pub fn mark_words(language: Language, mark: Mark) -> String {
    say!(language, "batch-mark", mark = mark.value().to_string()).into_owned()
}

/// How a finding stands.
#[must_use]
pub fn outcome_words(language: Language, outcome: Outcome) -> String {
    let outcome = match outcome {
        Outcome::Kept => "kept",
        Outcome::Broken => "broken",
        Outcome::Running => "running",
        Outcome::CannotTell => "cannot-tell",
        Outcome::TooClose => "too-close",
        Outcome::Noted => "noted",
    };
    say!(language, "batch-outcome", outcome = outcome).into_owned()
}

/// What a cold store's log was found to be against its limit.
#[must_use]
pub fn store_words(language: Language, finding: &Finding) -> String {
    let both = |text: String| language.figure(with_degree_signs(&text));
    let limit = |limit: Temperature| both(evenhand_kitchen::limits::both_units(limit));
    let said = match &finding.found {
        Found::Empty => return say!(language, "batch-log-empty").into_owned(),
        Found::Furthest {
            side,
            limit: at,
            furthest,
            beyond,
            allowance,
        } => {
            let side = match side {
                Side::AtMost => "at-most",
                Side::AtLeast => "at-least",
            };
            let said = say!(
                language,
                "batch-furthest",
                reading = both(evenhand_kitchen::heat::beside(*furthest, *at)),
                side = side,
                limit = limit(*at),
            );
            let beyond_words = evenhand_kitchen::heat::time_beside(*beyond, *allowance);
            if beyond.is_zero() {
                said.into_owned()
            } else if allowance.is_zero() {
                say!(
                    language,
                    "batch-beyond",
                    said = &*said,
                    beyond = beyond_words
                )
                .into_owned()
            } else {
                say!(
                    language,
                    "batch-beyond-allowed",
                    said = &*said,
                    beyond = beyond_words,
                    allowed = crate::times::hours(*allowance),
                )
                .into_owned()
            }
        }
        Found::Gaps { count, total } => say!(
            language,
            "batch-gaps",
            count = *count,
            total = crate::times::hours(*total),
        )
        .into_owned(),
        _ => {
            // Only a kitchen's own limit for cold holding can be of another kind.
            let why = finding.to_string();
            return say!(language, "batch-other-limit", why = why).into_owned();
        }
    };
    match finding.doubt {
        Some(doubt) if doubt.within().millicelsius() != 0 => {
            let within = super::celsius(language, doubt.within());
            say!(language, "batch-probe", said = said, within = within).into_owned()
        }
        _ => said,
    }
}

/// What stands in the way of a batch being ready.
#[must_use]
pub fn hindrance_words(language: Language, hindrance: &Hindrance) -> String {
    let item = |slot: &u32| slot.to_string();
    match hindrance {
        Hindrance::Nameless(slot) => say!(language, "batch-nameless", item = item(slot)),
        Hindrance::CalledCuring { slot, name } => say!(
            language,
            "batch-called-curing",
            item = item(slot),
            name = name.as_str(),
        ),
        Hindrance::Unknown {
            slot,
            name,
            percent,
        } => say!(
            language,
            "batch-unknown",
            item = item(slot),
            name = name.as_str(),
            percent = figure(language, *percent, 2),
        ),
        Hindrance::WayNotSaid { agent } => {
            let agent = agent_words(language, agent);
            say!(language, "batch-way-not-said", agent = agent)
        }
        Hindrance::NoAgent => say!(language, "batch-no-agent"),
        Hindrance::WhichIsMeat(items) => {
            let items: Vec<String> = items
                .iter()
                .map(|(slot, name)| {
                    say!(
                        language,
                        "batch-item",
                        item = item(slot),
                        name = name.as_str(),
                    )
                    .into_owned()
                })
                .collect();
            say!(language, "batch-which-is-meat", items = items.join("; "))
        }
        Hindrance::Contradiction { said, weighed, .. } => say!(
            language,
            "batch-contradiction",
            said = grams(language, *said),
            weighed = grams(language, *weighed),
        ),
        Hindrance::Amount(error) => {
            let what = match error.field() {
                "meat" => "meat",
                "pickle" => "pickle",
                "pickup" => "pick-up",
                _ => "other",
            };
            say!(
                language,
                "batch-amount",
                what = what,
                why = error.to_string(),
            )
        }
        Hindrance::NoLimit(method) => return no_limit_words(language, *method),
        Hindrance::Nitrite(ingoing) => return ingoing_words(language, ingoing),
        Hindrance::OverAsWritten(nitrite) => say!(
            language,
            "batch-over-as-written",
            ppm = figure(language, nitrite.ppm.value(), 2),
            most = figure(language, nitrite.at_most.value(), 2),
            method = method_words(language, nitrite.method),
        ),
        Hindrance::NotAsWeighed { written, weighed } => {
            let written = figure(language, written.value(), 1);
            match weighed {
                Some(ppm) => say!(
                    language,
                    "batch-not-as-weighed",
                    written = written,
                    ppm = figure(language, ppm.value(), 1),
                ),
                None => say!(language, "batch-not-as-weighed-unknown", written = written),
            }
        }
        Hindrance::ColdStore(finding) => {
            let found = store_words(language, finding);
            say!(language, "batch-cold-store", found = found)
        }
    }
    .into_owned()
}

/// Why a line was not taken into a batch.
#[must_use]
pub fn batch_error_words(language: Language, error: &BatchError) -> String {
    match error {
        BatchError::Line { line, .. } => say!(language, "batch-line", line = line.to_string()),
        BatchError::NoSuchSlot(slot) => say!(language, "batch-no-such", item = slot.to_string()),
        BatchError::NotThere { taken, there } => say!(
            language,
            "batch-not-there",
            taken = format!("{} g", short(language, *taken, 1)),
            there = format!("{} g", short(language, *there, 1)),
        ),
        BatchError::Renamed { slot, was } => say!(
            language,
            "batch-renamed",
            item = slot.to_string(),
            was = ingredient_words(language, was),
        ),
        BatchError::OtherWay { was, now } => say!(
            language,
            "batch-other-way",
            was = method_words(language, *was),
            now = method_words(language, *now),
        ),
        BatchError::NotReady(hindrances) => {
            let why: Vec<String> = hindrances
                .iter()
                .map(|hindrance| hindrance_words(language, hindrance))
                .collect();
            say!(language, "batch-not-ready", why = why.join("; "))
        }
        BatchError::NotInBath => say!(language, "batch-not-in-bath"),
        BatchError::Words(_) => say!(language, "batch-words"),
        BatchError::Soak(_) => say!(language, "batch-soak"),
        BatchError::Empty(_) => say!(language, "batch-empty"),
    }
    .into_owned()
}

/// Why a mix on record cannot be gone on with.
#[must_use]
pub fn aim_error_words(language: Language, error: &AimError) -> String {
    let broken = || say!(language, "batch-broken-ratio").into_owned();
    match error {
        AimError::SomethingElse(slot) => {
            say!(language, "batch-something-else", item = slot.to_string()).into_owned()
        }
        AimError::Renamed { slot, now, aimed } => say!(
            language,
            "batch-renamed-since",
            item = slot.to_string(),
            now = ingredient_words(language, now),
            aimed = ingredient_words(language, aimed),
        )
        .into_owned(),
        AimError::NoLimit(method) => no_limit_words(language, *method),
        AimError::Mix(error) => mix_error_words(language, error).unwrap_or_else(broken),
        AimError::Input(_) => broken(),
    }
}
