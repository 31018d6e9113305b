//! What past services served of a dish.

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::prep::{PastService, Stock};
use evenhand_protocol::Mass;
use evenhand_store::{Query, Store, StoreError};
use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// How many past services are looked at.
const SERVICES: u32 = 12;

/// Among so many past services those of one weekday are sought.
const WEEKDAYS_LOOKED_AT: u32 = 90;

/// How many recent tins, fish and cuts tell the yield.
const PURCHASES: usize = 6;

/// Portions of so many days before tell what a portion weighs.
const LOOK_BACK: i32 = 28;
/// With fewer portions the target is what is known of their weight.
const LEAST_PORTIONS: usize = 10;

/// Past services of a dish whose covers were put down.
///
/// # Errors
/// [`StoreError`].
pub fn past_services(
    store: &Store,
    dish: &DishName,
    before: Date,
    zone: &TimeZone,
) -> Result<Vec<PastService>, StoreError> {
    past_on(store, dish, store.covers_before(before, SERVICES)?, zone)
}

/// Past services of one day of the week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OfWeekday {
    /// The guests that they had on average, rounded up.
    pub covers: u32,
    /// Each with its own portions laid on so many guests: they differ by their guests, too, and
    /// what is to suffice five evenings in six must bear both.
    pub past: Vec<PastService>,
}

/// What services on a day's weekday served of a dish, for a day whose guests nobody foretold;
/// `None` with fewer than two. Those before `before` are looked at.
///
/// # Errors
/// [`StoreError`].
pub fn past_of_weekday(
    store: &Store,
    dish: &DishName,
    day: Date,
    before: Date,
    zone: &TimeZone,
) -> Result<Option<OfWeekday>, StoreError> {
    let same = covers_of_weekday(store, day, before)?;
    let past = past_on(store, dish, same, zone)?;
    let Some(count) = u32::try_from(past.len()).ok().filter(|count| *count >= 2) else {
        return Ok(None);
    };
    let guests: u64 = past.iter().map(|one| u64::from(one.covers)).sum();
    let covers = u32::try_from(guests.div_ceil(u64::from(count))).unwrap_or(u32::MAX);
    let past = past
        .into_iter()
        .map(|one| PastService { covers, ..one })
        .collect();
    Ok(Some(OfWeekday { covers, past }))
}

/// The guests of the last services on a day's weekday before `before`.
pub(super) fn covers_of_weekday(
    store: &Store,
    day: Date,
    before: Date,
) -> Result<Vec<(Date, u32)>, StoreError> {
    let mut same = store.covers_before(before, WEEKDAYS_LOOKED_AT)?;
    same.retain(|(other, covers)| other.weekday() == day.weekday() && *covers > 0);
    same.truncate(SERVICES as usize);
    Ok(same)
}

/// Of recent purchases of a dish of which a loss was put down, what was bought and what of it
/// there was to serve: without what was trimmed, cooked, tasted, spilt or went without a name.
///
/// # Errors
/// [`StoreError`].
pub fn recent_purchases(store: &Store, dish: &DishName) -> Result<Vec<(Mass, Mass)>, StoreError> {
    let mut tins = store.tins()?;
    tins.retain(|tin| tin.dish == *dish);
    tins.sort_by_key(|tin| std::cmp::Reverse(tin.opened));
    let mut purchases = Vec::new();
    for tin in tins {
        let flow = store.yield_flow(tin.id)?;
        if flow.lost_in_all() == Mass::ZERO || flow.more_came_out() {
            continue;
        }
        purchases.push((flow.bought, flow.servable()));
        if purchases.len() == PURCHASES {
            break;
        }
    }
    Ok(purchases)
}

/// What the open tins, fish and cuts of a dish hold, each in its own state: ready once something
/// of it was trimmed or cooked away, as bought before.
///
/// # Errors
/// [`StoreError`].
pub fn open_stock(store: &Store, dish: &DishName) -> Result<Stock, StoreError> {
    let mut stock = Stock::NONE;
    let tins = store.tins()?;
    for tin in tins
        .iter()
        .filter(|it| it.closed.is_none() && it.dish == *dish)
    {
        let flow = store.yield_flow(tin.id)?;
        let left = flow.left_or_reckoned().max(Mass::ZERO);
        if flow.lost_in_all() > Mass::ZERO {
            stock.ready += left;
        } else {
            stock.as_bought += left;
        }
    }
    Ok(stock)
}

/// What portions of a dish really weighed on the days of its last services, on average, and how
/// many they were; `None` with too few to tell.
///
/// # Errors
/// [`StoreError`].
pub fn portion_as_served(
    store: &Store,
    dish: &DishName,
    before: Date,
    zone: &TimeZone,
) -> Result<Option<(Mass, usize)>, StoreError> {
    let calendar = store.service_calendar(zone.clone())?;
    let served = store.spread(&Query {
        dish: Some(dish.clone()),
        from: Some(calendar.span(before.saturating_sub(LOOK_BACK.days())).0),
        to: Some(calendar.span(before).0),
        ..Query::default()
    })?;
    Ok(served
        .mean()
        .filter(|_| served.n() >= LEAST_PORTIONS)
        .map(|mean| (mean, served.n())))
}

fn past_on(
    store: &Store,
    dish: &DishName,
    days: Vec<(Date, u32)>,
    zone: &TimeZone,
) -> Result<Vec<PastService>, StoreError> {
    let calendar = store.service_calendar(zone.clone())?;
    let mut past = Vec::new();
    for (day, covers) in days {
        let (from, to) = calendar.span(day);
        let made = store.spread(&Query {
            dish: Some(dish.clone()),
            from: Some(from),
            to: Some(to),
            ..Query::default()
        })?;
        // What was made and what the day before left, less what this day left, was served.
        let before = store.left_over(day.saturating_sub(1.day()), dish)?;
        let after = store.left_over(day, dish)?;
        let made = u32::try_from(made.n()).unwrap_or(u32::MAX);
        let portions = made
            .saturating_add(before.unwrap_or(0))
            .saturating_sub(after.unwrap_or(0));
        if covers > 0 && portions > 0 {
            past.push(PastService { covers, portions });
        }
    }
    Ok(past)
}
