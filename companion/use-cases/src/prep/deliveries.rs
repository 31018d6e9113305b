//! How late what a step waits for usually comes: a supplier's record, from what was ticked.

use super::supply::OnRecord;
use super::words::{mend, moment};
use super::{PrepError, PrepNow};
use crate::words::say;
use evenhand_kitchen::prep::{Board, By, Effort, Happened, Mend, Plan, Progress, Step, StepRef};
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
    /// When the plan has it: by the late end of `comes`, where the day can be made with it so
    /// late, else when the menu says.
    pub counted_on: Timestamp,
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

/// A delivery before it is planned.
pub(super) struct Awaited {
    step: StepRef,
    by_menu: Timestamp,
    ticked: usize,
    comes: Option<(Timestamp, Timestamp)>,
}

impl Awaited {
    /// When it is there nine times in ten, where that is later than the menu says.
    fn late_end(&self) -> Option<Timestamp> {
        let (_, to) = self.comes?;
        (to > self.by_menu).then_some(to)
    }
}

/// What is still to come of a board, with when it usually does.
pub(super) fn awaited(
    record: &OnRecord<'_>,
    board: &Board,
    by_menu: &ByMenu,
    of_service: &HashMap<StepRef, (Date, String)>,
) -> Result<Vec<Awaited>, PrepError> {
    let mut open = Vec::new();
    for (reference, step) in board.steps() {
        let Some((_, name)) = of_service.get(&reference) else {
            continue;
        };
        // What was told of a late one goes before what is usual.
        if let Some(at) = by_menu.get(&step.full_name())
            && step.not_before == Some(*at)
            && step.progress == Progress::Waiting
        {
            open.push((reference, first_batch(board, name), *at));
        }
    }
    if open.is_empty() {
        return Ok(Vec::new());
    }
    let late = lateness(record)?;
    Ok(open
        .into_iter()
        .map(|(step, name, by_menu)| {
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
            Awaited {
                step,
                by_menu,
                ticked: seconds.len(),
                comes,
            }
        })
        .collect())
}

/// What the first batch's step is called where a step is of a further one: one delivery's record
/// is that of all.
fn first_batch(board: &Board, step: &str) -> String {
    match step.split_once(": ") {
        Some((preparation, step)) => format!("{}: {step}", board.batch_of(preparation).0),
        None => step.to_owned(),
    }
}

/// Has a board count on each delivery by the late end of when it usually comes, so far as the day
/// can then be made; what cannot be so late keeps the menu's time, and is told as a time to decide
/// by.
pub(super) fn count_on_late_ends(
    board: &mut Board,
    awaited: &[Awaited],
    now: Timestamp,
    effort: &Effort,
) {
    let late = || awaited.iter().filter_map(|it| Some((it, it.late_end()?)));
    let set = |board: &mut Board, step, at| {
        // The step is on the board: it came from it.
        let _ = board.set_not_before(step, Some(at));
    };
    if late().next().is_none() {
        return;
    }
    let mut all = board.clone();
    for (it, to) in late() {
        set(&mut all, it.step, to);
    }
    if all.can_be_made(now, effort) == Some(true) {
        *board = all;
        return;
    }
    // Where the day cannot be made even if all come by the menu, that is what is told.
    if board.can_be_made(now, effort) != Some(true) {
        return;
    }
    let mut by_time: Vec<_> = late().collect();
    by_time.sort_by_key(|(it, to)| (*to, it.step));
    for (it, to) in by_time {
        set(board, it.step, to);
        if board.can_be_made(now, effort) != Some(true) {
            set(board, it.step, it.by_menu);
        }
    }
}

/// What is still to come, as the plan has it.
pub(super) fn deliveries(
    awaited: Vec<Awaited>,
    board: &Board,
    plan: &Plan,
) -> BTreeMap<StepRef, Delivery> {
    let planned = |it: Awaited| {
        let delivery = Delivery {
            by_menu: it.by_menu,
            ticked: it.ticked,
            comes: it.comes,
            counted_on: board.step(it.step).ok()?.not_before.unwrap_or(it.by_menu),
            needed_by: plan.of(it.step)?.latest,
        };
        Some((it.step, delivery))
    };
    awaited.into_iter().filter_map(planned).collect()
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
            let first = first_batch(&day.board, &name);
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
                late.entry(first.to_lowercase()).or_default().push(after);
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
            counted = at(delivery.counted_on),
            needed = needed
        ),
        Some((from, to)) => say!(
            language,
            "prep-delivery-comes",
            from = at(from),
            to = at(to),
            count = delivery.ticked,
            counted = at(delivery.counted_on),
            menu = at(delivery.by_menu),
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

/// What comes by a delivery and may well be too late for its dish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DeliveryRisk {
    /// The delivery.
    pub step: StepRef,
    /// By when to decide.
    pub by: Timestamp,
    /// When it may come.
    pub to: Timestamp,
    /// How much too late that is.
    pub late: SignedDuration,
    /// What there is in place of its dish: what the menu names, buying it in, or leaving it off.
    pub instead: Mend,
}

/// What comes by a delivery and may well be too late for its dish, what is to be decided first
/// before others. The plan counts on it by the menu's time where its dish
/// cannot be made with it so late.
#[must_use]
pub fn risks(prep: &PrepNow, now: Timestamp) -> Vec<DeliveryRisk> {
    let late = prep
        .deliveries
        .iter()
        .filter(|(_, it)| it.may_be_too_late());
    let known = late.filter_map(|(reference, delivery)| {
        let (_, to) = delivery.comes?;
        let step = prep.board.step(*reference).ok()?;
        let preparation = step.preparation.clone();
        let instead = prep.board.instead(&preparation);
        let fallback = instead.and_then(|it| it.fallback.clone());
        Some(DeliveryRisk {
            step: *reference,
            by: delivery.needed_by.max(now),
            to,
            late: to.duration_since(delivery.needed_by),
            instead: match fallback {
                Some(fallback) => Mend::Swap {
                    preparation,
                    fallback,
                },
                None if instead.is_some_and(|it| it.buy_in) => Mend::BuyIn { preparation },
                None => Mend::Drop { preparation },
            },
        })
    });
    let mut known: Vec<DeliveryRisk> = known.collect();
    known.sort_by_key(|risk| risk.by);
    known
}

/// The same in words: by when to decide, and what there is in its place.
#[must_use]
pub fn delivery_risks(
    language: Language,
    prep: &PrepNow,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let each = risks(prep, now).into_iter();
    each.map(|risk| risk_words(language, prep, &risk, now, zone))
        .collect()
}

/// One of them in words.
#[must_use]
pub fn risk_words(
    language: Language,
    prep: &PrepNow,
    risk: &DeliveryRisk,
    now: Timestamp,
    zone: &TimeZone,
) -> String {
    let at = |known| moment(language, known, now, zone);
    let step = prep.board.step(risk.step);
    let said = say!(
        language,
        "prep-delivery-risk",
        by = at(risk.by),
        step = step.map_or_else(|_| String::new(), Step::full_name),
        to = at(risk.to),
        late = super::length(risk.late)
    );
    let what = mend(language, &risk.instead, prep, now, zone);
    let what = say!(language, "prep-delivery-risk-else", what = what);
    format!("{said} {what}")
}
