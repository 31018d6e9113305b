//! Resources and when they can be had.

use jiff::civil::Time;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ZonedDateTime};

/// The hours of a day during which a resource works; the end may lie after
/// midnight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hours {
    /// From this time of day
    pub from: Time,
    /// to this one; at or before `from` means on the next day.
    pub to: Time,
}

/// Something that a step needs and that others need too: a pair of hands, an
/// oven, a place in the freezer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Resource {
    /// Its name.
    pub name: String,
    places: usize,
    /// When it works; always, without.
    pub hours: Option<Hours>,
}

/// A resource makes no sense.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ResourceError {
    /// No place, or more than a thousand.
    #[error("resource '{name}' has {places} places, expected 1 to 1000")]
    Places {
        /// Its name.
        name: String,
        /// What was given.
        places: usize,
    },
}

impl Resource {
    /// A resource with places for so many steps at a time.
    ///
    /// # Errors
    /// [`ResourceError::Places`] outside 1 to 1000.
    pub fn new(
        name: impl Into<String>,
        places: usize,
        hours: Option<Hours>,
    ) -> Result<Self, ResourceError> {
        let name = name.into();
        if !(1..=1000).contains(&places) {
            return Err(ResourceError::Places { name, places });
        }
        Ok(Self {
            name,
            places,
            hours,
        })
    }

    /// How many steps can use it at a time.
    #[must_use]
    pub const fn places(&self) -> usize {
        self.places
    }
}

/// A stretch of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stretch {
    pub from: Timestamp,
    pub to: Timestamp,
}

/// What of a resource is taken already.
#[derive(Debug, Clone, Default)]
pub(super) struct Bookings {
    taken: Vec<Stretch>,
}

impl Bookings {
    pub fn book(&mut self, stretch: Stretch) {
        self.taken.push(stretch);
    }

    /// The latest stretch of a length that ends by `by`, lies within the
    /// resource's hours and finds a free place; `None` where `horizon` is
    /// reached first or the length fits in no working day.
    pub fn latest(
        &self,
        resource: &Resource,
        length: SignedDuration,
        by: Timestamp,
        horizon: Timestamp,
        zone: &TimeZone,
    ) -> Option<Stretch> {
        let mut end = by;
        loop {
            let from = end.checked_sub(length).ok()?;
            if from < horizon {
                return None;
            }
            let stretch = Stretch { from, to: end };
            if let Some(earlier) = resource
                .hours
                .and_then(|hours| out_of_hours(hours, stretch, zone))
            {
                end = earlier?;
            } else if let Some(earlier) = self.collision(resource.places, stretch) {
                end = earlier;
            } else {
                return Some(stretch);
            }
        }
    }

    /// The latest end to try when a stretch has no free place all along.
    fn collision(&self, places: usize, stretch: Stretch) -> Option<Timestamp> {
        let overlapping = || {
            self.taken
                .iter()
                .filter(|t| t.from < stretch.to && t.to > stretch.from)
        };
        // The number taken changes only where one begins, so it is enough to look there and at
        // the stretch's own beginning.
        let full = overlapping()
            .map(|t| t.from.max(stretch.from))
            .chain([stretch.from])
            .filter(|moment| {
                overlapping()
                    .filter(|t| t.from <= *moment && t.to > *moment)
                    .count()
                    >= places
            })
            .max()?;
        // One of those in the way there must be cleared: end before the latest to begin.
        overlapping()
            .filter(|t| t.from <= full && t.to > full)
            .map(|t| t.from)
            .max()
            .map(|from| from.min(stretch.to))
    }
}

/// `None` when the stretch lies within working hours; else the latest end to
/// try, or `Some(None)` when there is none.
fn out_of_hours(hours: Hours, stretch: Stretch, zone: &TimeZone) -> Option<Option<Timestamp>> {
    let end = stretch.to.to_zoned_datetime(zone.clone());
    // The working day that the end falls into began today or yesterday.
    let today = opening(hours, &end);
    let yesterday = end.yesterday().ok().and_then(|day| opening(hours, &day));
    for (from, to) in [today, yesterday].into_iter().flatten() {
        if stretch.to > from && stretch.to <= to {
            if stretch.from >= from {
                return None;
            }
            // It begins before the day does: end with the day before.
            return Some(
                end.yesterday()
                    .ok()
                    .and_then(|day| latest_close(hours, &day, from)),
            );
        }
    }
    // The end is outside any working day: the close before it.
    Some(latest_close(hours, &end, stretch.to))
}

/// The working day that begins on the date of `day`.
fn opening(hours: Hours, day: &ZonedDateTime) -> Option<(Timestamp, Timestamp)> {
    let zone = day.time_zone();
    let from = day.date().to_datetime(hours.from);
    let to = if hours.to > hours.from {
        day.date().to_datetime(hours.to)
    } else {
        day.date().tomorrow().ok()?.to_datetime(hours.to)
    };
    Some((zone.to_timestamp(from).ok()?, zone.to_timestamp(to).ok()?))
}

/// The latest closing strictly before `before`, on the date of `day` or the two
/// before it.
fn latest_close(hours: Hours, day: &ZonedDateTime, before: Timestamp) -> Option<Timestamp> {
    let mut day = day.clone();
    for _ in 0..3 {
        if let Some((_, to)) = opening(hours, &day)
            && to < before
        {
            return Some(to);
        }
        day = day.yesterday().ok()?;
    }
    None
}
