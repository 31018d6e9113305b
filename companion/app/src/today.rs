//! Today's portions.

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::spread::Spread;
use evenhand_store::{Query, Store};
use jiff::Timestamp;
use jiff::tz::TimeZone;

/// The spread of what was portioned since the day began, of one dish or of
/// all. `None` where the store cannot tell: what cannot be read is not shown,
/// and that the store has trouble is said elsewhere.
#[must_use]
pub fn spread(
    store: &Store,
    dish: Option<DishName>,
    now: Timestamp,
    zone: &TimeZone,
) -> Option<Spread> {
    let day = now.to_zoned_datetime(zone.clone()).start_of_day().ok()?;
    store
        .spread(&Query {
            dish,
            from: Some(day.timestamp()),
            ..Query::default()
        })
        .ok()
}
