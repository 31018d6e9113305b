//! How late what a step waits for usually comes: a supplier's record, from what was ticked.

use super::supply::OnRecord;
use super::words::moment;
use super::{PrepError, PrepNow};
use crate::words::say;
use evenhand_kitchen::prep::{Board, By, Happened, Plan, Progress, StepRef};
use evenhand_kitchen::statistics::{Confidence, next_within};
use evenhand_words::Language;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};
use std::collections::{BTreeMap, HashMap};

/// Services of so many days before are looked at.
const LOOK_BACK: i32 = 28;
/// How often the interval of the next delivery holds.
const HOLDS: f64 = 0.8;
/// Deliveries that are needed before a time is said.
pub const LEAST_DELIVERIES: usize = 3;

/// A step that is still to come and has a time of its own on the menu, such as a delivery.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Delivery {
    /// When it comes by the menu.
    pub by_menu: Timestamp,
    /// How many of it were ticked at services of the last four weeks.
    pub ticked: usize,
    /// From when to when the next one comes eight times in ten, by those; `None` where they
    /// are too few.
    pub comes: Option<(Timestamp, Timestamp)>,
    /// When it must be there at the latest for its dish to be in time: decide by then.
    pub needed_by: Timestamp,
}

impl Delivery {
    /// Whether it may well come too late.
    #[must_use]
    pub fn may_be_too_late(&self) -> bool {
        self.comes.is_some_and(|(_, to)| to > self.needed_by)
    }
}

/// The times that steps of a service have by its menu, by their names on the board.
pub(super) type ByMenu = HashMap<String, Timestamp>;

pub(super) fn deliveries(
    record: &OnRecord<'_>,
    board: &Board,
    plan: &Plan,
    by_menu: &ByMenu,
    of_service: &HashMap<StepRef, (Date, String)>,
) -> Result<BTreeMap<StepRef, Delivery>, PrepError> {
    let mut open = Vec::new();
    for planned in &plan.steps {
        let (Ok(step), Some((_, name))) = (board.step(planned.step), of_service.get(&planned.step))
        else {
            continue;
        };
        // What was told of a late one goes before what is usual.
        if let Some(at) = by_menu.get(&step.full_name())
            && step.not_before == Some(*at)
            && step.progress == Progress::Waiting
        {
            open.push((planned.step, name, *at, planned.latest));
        }
    }
    if open.is_empty() {
        return Ok(BTreeMap::new());
    }
    let late = lateness(record)?;
    Ok(open
        .into_iter()
        .map(|(step, name, by_menu, needed_by)| {
            let seconds = late
                .get(&name.to_lowercase())
                .map_or(&[][..], Vec::as_slice);
            let after = |seconds: f64| {
                let after = SignedDuration::from_secs(seconds.round() as i64);
                by_menu.saturating_add(after).unwrap_or(by_menu)
            };
            let comes = Confidence::new(HOLDS)
                .ok()
                .filter(|_| seconds.len() >= LEAST_DELIVERIES)
                .and_then(|holds| next_within(seconds, holds))
                .map(|(mean, half)| (after(mean - half), after(mean + half)));
            let delivery = Delivery {
                by_menu,
                ticked: seconds.len(),
                comes,
                needed_by,
            };
            (step, delivery)
        })
        .collect())
}

/// How many seconds after its time by the menu of then each step was begun, at the services
/// before today, by its name.
fn lateness(record: &OnRecord<'_>) -> Result<HashMap<String, Vec<f64>>, PrepError> {
    let today = record.today();
    let mut late: HashMap<String, Vec<f64>> = HashMap::new();
    for ago in 1..=LOOK_BACK {
        let day = today.saturating_sub(ago.days());
        // A day of which nobody has told anything needs no board.
        let told = record.store.told_steps(day)?;
        if !told.iter().any(|event| event.by == By::Hand) {
            continue;
        }
        let Some(day) = record.board(day)? else {
            continue;
        };
        for (reference, step) in day.alone.steps() {
            let Some(by_menu) = step.not_before else {
                continue;
            };
            let name = step.full_name();
            // Only what somebody ticked, and what still stands.
            let stands = day
                .board
                .step(reference)
                .is_ok_and(|now| now.progress != Progress::Waiting);
            let of_it = day.events.iter().filter(|event| {
                event.by == By::Hand && event.step.eq_ignore_ascii_case(&name) && stands
            });
            let begun = of_it
                .filter_map(|event| match event.what {
                    Happened::Begun => Some(event.at),
                    Happened::Done => event.at.checked_sub(step.takes.needed()).ok(),
                    _ => None,
                })
                .min();
            if let Some(begun) = begun {
                let after = begun.duration_since(by_menu).as_secs_f64();
                late.entry(name.to_lowercase()).or_default().push(after);
            }
        }
    }
    Ok(late)
}

/// When a delivery usually comes, and by when it is needed.
#[must_use]
pub fn delivery_words(
    language: Language,
    prep: &PrepNow,
    step: StepRef,
    now: Timestamp,
    zone: &TimeZone,
) -> Option<String> {
    let delivery = prep.deliveries.get(&step)?;
    let at = |known| moment(language, known, now, zone);
    let needed = at(delivery.needed_by);
    let said = match delivery.comes {
        Some((from, to)) if delivery.may_be_too_late() => say!(
            language,
            "prep-delivery-perhaps-late",
            from = at(from),
            to = at(to),
            count = delivery.ticked,
            needed = needed
        ),
        Some((from, to)) => say!(
            language,
            "prep-delivery-comes",
            from = at(from),
            to = at(to),
            count = delivery.ticked,
            needed = needed
        ),
        None => say!(
            language,
            "prep-delivery-not-known",
            more = LEAST_DELIVERIES.saturating_sub(delivery.ticked),
            needed = needed
        ),
    };
    Some(said.into_owned())
}

/// What comes by a delivery and may well be too late for its dish: by when to decide, and what
/// there is in its place. The plan goes by the menu's time, not by this.
#[must_use]
pub fn delivery_risks(
    language: Language,
    prep: &PrepNow,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let at = |known| moment(language, known, now, zone);
    let late = prep
        .deliveries
        .iter()
        .filter(|(_, it)| it.may_be_too_late());
    late.filter_map(|(step, delivery)| {
        let (_, to) = delivery.comes?;
        let step = prep.board.step(*step).ok()?;
        let said = say!(
            language,
            "prep-delivery-risk",
            by = at(delivery.needed_by.max(now)),
            step = step.full_name(),
            to = at(to),
            late = super::length(to.duration_since(delivery.needed_by))
        );
        let preparation = step.preparation.as_str();
        let instead = prep.board.instead(preparation);
        let fallback = instead.and_then(|it| it.fallback.as_deref());
        let what = match fallback {
            Some(fallback) => say!(
                language,
                "prep-mend-swap",
                fallback = fallback,
                preparation = preparation
            ),
            None if instead.is_some_and(|it| it.buy_in) => {
                say!(language, "prep-mend-buy", preparation = preparation)
            }
            None => say!(language, "prep-mend-drop", preparation = preparation),
        };
        let what = say!(
            language,
            "prep-delivery-risk-else",
            what = what.into_owned()
        );
        Some(format!("{said} {what}"))
    })
    .collect()
}
