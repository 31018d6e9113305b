//! What past services served of a dish.

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::prep::PastService;
use evenhand_store::{Query, Store, StoreError};
use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// How many past services are looked at.
const SERVICES: u32 = 12;

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
    let calendar = store.service_calendar(zone.clone())?;
    let mut past = Vec::new();
    for (day, covers) in store.covers_before(before, SERVICES)? {
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
