//! Today's portions.

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::service::{DoubtedSpread, FailedTest};
use evenhand_store::{Query, Store};
use jiff::Timestamp;
use jiff::tz::TimeZone;

/// The spread of what was portioned since the day began, of one dish or of
/// all, with and without what `failed_tests` or the instrument cast doubt on. `None` where the store cannot tell: what cannot be read is not shown,
/// and that the store has trouble is said elsewhere.
#[must_use]
pub fn spread(
    store: &Store,
    dish: Option<DishName>,
    now: Timestamp,
    zone: &TimeZone,
    failed_tests: &[FailedTest],
) -> Option<DoubtedSpread> {
    let day = now.to_zoned_datetime(zone.clone()).start_of_day().ok()?;
    let portions = store
        .portions(&Query {
            dish,
            from: Some(day.timestamp()),
            ..Query::default()
        })
        .ok()?;
    Some(DoubtedSpread::of_portions(&portions, failed_tests))
}

/// Every failed test of the scale on record. None where the store cannot tell, as for
/// [`spread`].
#[must_use]
pub fn failed_tests(store: &Store) -> Vec<FailedTest> {
    let findings = store.scale_findings().unwrap_or_default();
    FailedTest::all(&findings)
}
