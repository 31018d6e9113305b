//! Where the food and the money went: a stretch of days together, and plates at
//! the weights really served.

use crate::review::Night;
use evenhand_kitchen::cutting::Correction;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::plate::{NoPlateCost, Plate, PlateCost, Served};
use evenhand_kitchen::service::{ServiceCalendar, WeightDoubt};
use evenhand_kitchen::tin::Tin;
use evenhand_kitchen::yield_flow::{Ledger, YieldFlow};
use evenhand_protocol::Mass;
use evenhand_store::{Query, Store, StoreError};
use jiff::ToSpan;
use jiff::civil::Date;

/// The purchases of some days, and all of them together.
#[derive(Debug, Clone, PartialEq)]
pub struct Days {
    /// The first day.
    pub first: Date,
    /// The last day.
    pub last: Date,
    /// Each purchase opened or portioned from on these days, whole.
    pub purchases: Vec<(Tin, YieldFlow)>,
    /// All together.
    pub ledger: Ledger,
}

/// What became of everything that was opened, or portioned from, on the days up
/// to `last`, so many of them. A purchase is told whole, also where part of it
/// went on other days, or its grams would not add up.
///
/// # Errors
/// Where the store cannot be read.
pub fn of_days(
    store: &Store,
    calendar: &ServiceCalendar,
    last: Date,
    days: u16,
) -> Result<Days, StoreError> {
    let first = last.saturating_sub(i64::from(days.saturating_sub(1)).days());
    let (from, to) = (calendar.span(first).0, calendar.span(last).1);
    let (tins, from_no_purchase) = store.purchases_between(from, to)?;
    let purchases = tins
        .into_iter()
        .map(|tin| {
            let flow = store.yield_flow(tin.id)?;
            Ok((tin, flow))
        })
        .collect::<Result<Vec<_>, StoreError>>()?;
    let ledger = Ledger::of(purchases.iter().map(|(_, flow)| flow), from_no_purchase);
    Ok(Days {
        first,
        last,
        purchases,
        ledger,
    })
}

/// What each plate costs at the weights of a night.
#[must_use]
pub fn of_plates(night: &Night, plates: &[Plate]) -> Vec<Result<PlateCost, NoPlateCost>> {
    let served = |name: &DishName| {
        let dish = night
            .dishes
            .iter()
            .find(|dish| dish.dish.as_ref() == Some(name))?;
        Some(Served {
            weight: dish.review.relied.mean()?,
            cost: dish.review.cost,
        })
    };
    plates.iter().map(|plate| plate.cost(served)).collect()
}

/// What the last pieces or scoops of a dish say of the next one.
///
/// # Errors
/// Where the dish is not known, or the store cannot be read.
pub fn correction(store: &Store, dish: &DishName) -> Result<Correction, StoreError> {
    let mut portions = store.portions(&Query {
        dish: Some(dish.clone()),
        ..Query::default()
    })?;
    portions.retain(|portion| portion.counts() && WeightDoubt::of(portion, &[]).is_none());
    portions.sort_by_key(|portion| portion.time);
    let offsets: Vec<Mass> = portions
        .iter()
        .map(|portion| portion.mass - portion.goal.target())
        .collect();
    Ok(Correction::after(&offsets))
}
