//! A service under way, dish by dish, for whoever takes over: what was weighed,
//! what is ready, what went out; who is at what; and what tomorrow has to know.

mod words;

use crate::prep::{PrepError, PrepNow, PrepQuestion};
use evenhand_kitchen::batch::{BatchId, Due, What};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::prep::{StepState, TickedBy};
use evenhand_kitchen::service::{CookFigures, ServiceCalendar};
use evenhand_kitchen::units::{InputError, Reason};
use evenhand_kitchen::{expected, problem};
use evenhand_protocol::Verdict;
use evenhand_store::{Query, Store, StoreError};
use evenhand_words::Language;
use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp, ToSpan};
use std::collections::BTreeMap;

pub use words::{beside_the_dishes, handover_words, pdf};

/// Batches due later than this are not told.
const DUE_WITHIN: SignedDuration = SignedDuration::from_hours(36);

/// Why there is no handover.
#[derive(Debug, thiserror::Error)]
pub enum HandoverError {
    /// The record does not answer.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The menu does not answer.
    #[error(transparent)]
    Prep(#[from] PrepError),
    /// What was said cannot be.
    #[error(transparent)]
    Input(#[from] InputError),
}

/// A dish in the service.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DishCount {
    /// The dish.
    pub dish: DishName,
    /// Portions that the service before left, where that was put down.
    pub left_before: u32,
    /// Portions weighed for this service that count,
    pub weighed: usize,
    /// of which so many short,
    pub short: usize,
    /// and so many heavy.
    pub heavy: usize,
    /// Portions that went out.
    pub out: i64,
    /// How many the menu wants, where it says.
    pub wanted: Option<u32>,
}

impl DishCount {
    /// How many are there to go out; below nothing where more went out than is
    /// on record.
    #[must_use]
    pub fn ready(&self) -> i64 {
        self.on_record() - self.out
    }

    /// How many are still to be weighed for what the menu wants.
    #[must_use]
    pub fn to_weigh(&self) -> Option<i64> {
        self.wanted
            .map(|wanted| (i64::from(wanted) - self.on_record()).max(0))
    }

    fn on_record(&self) -> i64 {
        i64::from(self.left_before) + i64::try_from(self.weighed).unwrap_or(i64::MAX)
    }
}

/// Where a cook was last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AtWork {
    /// The cook; `None` where the kitchen hides names.
    pub cook: Option<Cook>,
    /// The dish that they portioned last,
    pub dish: DishName,
    /// and when.
    pub at: Timestamp,
}

/// A step of the plan that is under way or to be begun.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenStep {
    /// Which.
    pub name: String,
    /// How it stands.
    pub standing: StepState,
    /// When to begin.
    pub begin: Option<Timestamp>,
    /// What it needs, by the kitchen's names: hands, an oven.
    pub needs: Option<String>,
}

/// What one person hands over to the next.
#[derive(Debug, Clone, PartialEq)]
pub struct Handover {
    /// The service.
    pub day: Date,
    /// When this was.
    pub at: Timestamp,
    /// Its dishes, by name.
    pub dishes: Vec<DishCount>,
    /// Who was at what last.
    pub at_work: Vec<AtWork>,
    /// Steps under way, late or to be begun now.
    pub steps: Vec<OpenStep>,
    /// Why portions were struck out, and how often.
    pub struck: BTreeMap<String, usize>,
    /// Batches that something is due with by the next day.
    pub due: Vec<(BatchId, Option<String>, Due)>,
    /// Words written down today, with the batch's title.
    pub notes: Vec<(Option<String>, String)>,
}

impl Handover {
    /// Gathers it.
    ///
    /// # Errors
    /// [`HandoverError`].
    pub fn gather(
        store: &Store,
        limits: &Limits,
        calendar: &ServiceCalendar,
        day: Date,
        now: Timestamp,
        language: Language,
    ) -> Result<Self, HandoverError> {
        let (from, to) = calendar.span(day);
        let mut dishes: BTreeMap<String, DishCount> = BTreeMap::new();
        let mut at_work: BTreeMap<Cook, AtWork> = BTreeMap::new();
        let mut struck: BTreeMap<String, usize> = BTreeMap::new();
        let query = Query {
            from: Some(from),
            to: Some(to),
            ..Query::default()
        };
        store.each_portion(&query, |portion, run| {
            let Some(dish) = &portion.dish else {
                return Ok::<_, StoreError>(());
            };
            if let Some(out) = &portion.struck {
                *struck.entry(out.reason.as_str().to_owned()).or_default() += 1;
            }
            if !portion.counts() {
                return Ok(());
            }
            let count = entry(&mut dishes, dish);
            count.weighed += 1;
            match portion.verdict() {
                Verdict::Short => count.short += 1,
                Verdict::Heavy => count.heavy += 1,
                Verdict::On => {}
            }
            if let Some(cook) = &run.cook {
                at_work.insert(
                    cook.clone(),
                    AtWork {
                        cook: Some(cook.clone()),
                        dish: dish.clone(),
                        at: portion.time,
                    },
                );
            }
            Ok(())
        })?;
        for (dish, out) in store.gone_out(day)? {
            entry(&mut dishes, &dish).out = out;
        }
        let mut at_work: Vec<AtWork> = at_work.into_values().collect();
        if store.cook_figures()? == CookFigures::Hidden {
            for at_work in &mut at_work {
                at_work.cook = None;
            }
            // In the order of names it would be told who is who.
            at_work.sort_by_key(|at_work| (at_work.dish.key(), at_work.at));
        }
        let steps = plan(store, limits, calendar, day, now, language, &mut dishes)?;
        // What was left is there to go out, whether more was weighed yet or not.
        for (dish, ready) in at_opening(store, day)? {
            let left = ready.unwrap_or(0);
            if left > 0 {
                entry(&mut dishes, &dish).left_before = left;
            }
        }
        let mut due = Vec::new();
        let mut notes = Vec::new();
        for (id, batch) in store.batches()? {
            let title = batch.title().map(str::to_owned);
            due.extend(
                batch
                    .due(now)
                    .into_iter()
                    .filter(|due| due.left <= DUE_WITHIN)
                    .map(|due| (id, title.clone(), due)),
            );
            notes.extend(
                batch
                    .entries()
                    .filter(|(entry, struck)| !struck && entry.at >= from && entry.at < to)
                    .filter_map(|(entry, _)| match &entry.what {
                        What::Noted { text } => Some((title.clone(), text.clone())),
                        _ => None,
                    }),
            );
        }
        due.sort_by_key(|(id, _, due)| (due.at, id.0));
        Ok(Self {
            day,
            at: now,
            dishes: dishes.into_values().collect(),
            at_work,
            steps,
            struck,
            due,
            notes,
        })
    }
}

fn entry<'d>(dishes: &'d mut BTreeMap<String, DishCount>, dish: &DishName) -> &'d mut DishCount {
    dishes.entry(dish.key()).or_insert_with(|| DishCount {
        dish: dish.clone(),
        left_before: 0,
        weighed: 0,
        short: 0,
        heavy: 0,
        out: 0,
        wanted: None,
    })
}

/// What the menu wants of each dish, and the steps that are open.
fn plan(
    store: &Store,
    limits: &Limits,
    calendar: &ServiceCalendar,
    day: Date,
    now: Timestamp,
    language: Language,
    dishes: &mut BTreeMap<String, DishCount>,
) -> Result<Vec<OpenStep>, HandoverError> {
    if store.menu(day)?.is_none() {
        return Ok(Vec::new());
    }
    let question = PrepQuestion {
        day,
        menu: None,
        days_ahead: 0,
        covers: None,
        what_if: &[],
        now,
        zone: calendar.zone(),
        language,
        unwanted: None,
    };
    let prep = PrepNow::of(store, &question, limits)?;
    let mut steps = Vec::new();
    for planned in &prep.plan.steps {
        let Ok(step) = prep.board.step(planned.step) else {
            continue;
        };
        if let Some(TickedBy::Portions {
            dish,
            wanted: Some(wanted),
        }) = prep.board.ticker(planned.step)
            && let Ok(dish) = DishName::new("portions_of", dish)
        {
            let count = entry(dishes, &dish);
            count.wanted = Some(count.wanted.unwrap_or(0).saturating_add(*wanted));
        }
        if matches!(
            planned.standing,
            StepState::Late | StepState::Now | StepState::UnderWay | StepState::Next
        ) {
            steps.push(OpenStep {
                name: step.full_name(),
                standing: planned.standing,
                begin: planned.start_by,
                needs: crate::prep::needs(step),
            });
        }
    }
    Ok(steps)
}

/// Counts portions of a dish as gone out, or takes some back.
///
/// # Errors
/// None at all or more than a thousand at once, more taken back than went out;
/// a dish that is not on record.
pub fn count_out(
    store: &mut Store,
    day: Date,
    dish: &DishName,
    portions: i32,
    at: Timestamp,
) -> Result<(), HandoverError> {
    const MOST_AT_ONCE: i32 = 1000;
    let wrong = |problem: Reason, expected: Reason| {
        Err(InputError::new("portions", &portions.to_string(), problem, expected).into())
    };
    if portions == 0 || portions.abs() > MOST_AT_ONCE {
        return wrong(
            problem!("no-count"),
            expected!("count-or-back", most = MOST_AT_ONCE),
        );
    }
    store.known_dish(dish)?;
    let out = store
        .gone_out(day)?
        .into_iter()
        .find(|(known, _)| known == dish)
        .map_or(0, |(_, out)| out);
    if out + i64::from(portions) < 0 {
        return wrong(
            problem!("takes-back-more", out = out),
            expected!("take-back-those"),
        );
    }
    store.count_out(day, dish, portions, at)?;
    Ok(())
}

/// How many portions of each dish on the list stand ready when a service opens: what the
/// service before left of it. `None` where nobody counted.
///
/// # Errors
/// The record does not answer.
pub fn at_opening(store: &Store, day: Date) -> Result<Vec<(DishName, Option<u32>)>, StoreError> {
    let before = day.saturating_sub(1.day());
    let mut ready = Vec::new();
    for dish in store.dishes()? {
        let left = store.left_over(before, &dish.name)?;
        // A dish that is off the list has to go out where some of it is left.
        if dish.retired.is_none() || left.is_some_and(|left| left > 0) {
            ready.push((dish.name, left));
        }
    }
    Ok(ready)
}

/// Puts down how many portions of a dish stand ready when a service opens. They are what the
/// service before left, so this takes the place of what was counted when that one closed.
///
/// # Errors
/// More than ten thousand; a dish that is not on record.
pub fn ready_at_opening(
    store: &mut Store,
    day: Date,
    dish: &DishName,
    portions: u32,
    at: Timestamp,
) -> Result<(), HandoverError> {
    const MOST_READY: u32 = 10_000;
    if portions > MOST_READY {
        let expected = expected!("from-to", low = 0, high = MOST_READY);
        let portions = portions.to_string();
        return Err(InputError::new("portions", &portions, problem!("no-count"), expected).into());
    }
    store.note_left_over(day.saturating_sub(1.day()), dish, portions, at)?;
    Ok(())
}
