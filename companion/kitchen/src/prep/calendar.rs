//! Resources and when they can be had.

use crate::units::{Reason, typed};
use jiff::civil::{Time, Weekday};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan, ZonedDateTime};

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
    places: u32,
    /// When it works; always, without.
    pub hours: Option<Hours>,
    /// Days of the week on which it does not work. Hours that run past
    /// midnight belong to the day on which they begin.
    pub closed: Vec<Weekday>,
    /// Whether it serves: then it does nothing else while a service runs,
    /// but steps that say so.
    pub serves: bool,
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
    /// It works on no day.
    #[error("resource '{0}' is closed on every day of the week, expected one open day at least")]
    NeverOpen(String),
}

impl ResourceError {
    /// Why, as what is wrong with something typed.
    #[must_use]
    pub fn reason(&self) -> Reason {
        match self {
            Self::Places { name, places } => {
                problem!("resource-places", name = typed(name), places = places)
            }
            Self::NeverOpen(name) => problem!("never-open", name = typed(name)),
        }
    }
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
        match u32::try_from(places) {
            Ok(known @ 1..=1000) => Ok(Self {
                name,
                places: known,
                hours,
                closed: Vec::new(),
                serves: false,
            }),
            _ => Err(ResourceError::Places { name, places }),
        }
    }

    /// The same, closed on days of the week.
    ///
    /// # Errors
    /// [`ResourceError::NeverOpen`] where no day is left.
    pub fn closed_on(mut self, days: Vec<Weekday>) -> Result<Self, ResourceError> {
        let open = |day: &Weekday| !days.contains(day);
        if !Weekday::Monday.cycle_forward().take(7).any(|d| open(&d)) {
            return Err(ResourceError::NeverOpen(self.name));
        }
        self.closed = days;
        Ok(self)
    }

    /// The same, busy with serving while a service runs.
    #[must_use]
    pub const fn serving(mut self) -> Self {
        self.serves = true;
        self
    }

    /// How many places it has.
    #[must_use]
    pub const fn places(&self) -> u32 {
        self.places
    }

    /// When it works between two moments, in order; `None` where it always
    /// does. `services` are when it serves.
    pub(super) fn open(
        &self,
        from: Timestamp,
        to: Timestamp,
        zone: &TimeZone,
        services: &[Stretch],
    ) -> Option<Vec<Stretch>> {
        let mut open = match (self.hours, self.closed.is_empty()) {
            (None, true) => None,
            (hours, _) => Some(self.working(hours, from, to, zone)),
        };
        if self.serves {
            for service in services {
                let whole = || vec![Stretch { from, to }];
                open = Some(without(open.unwrap_or_else(whole), *service));
            }
        }
        open
    }

    fn working(
        &self,
        hours: Option<Hours>,
        from: Timestamp,
        to: Timestamp,
        zone: &TimeZone,
    ) -> Vec<Stretch> {
        let mut open: Vec<Stretch> = Vec::new();
        let mut day = from.to_zoned_datetime(zone.clone()).yesterday().ok();
        while let Some(today) = day {
            let begins = today.start_of_day().map(|t| t.timestamp());
            if begins.is_ok_and(|begins| begins >= to) {
                break;
            }
            if !self.closed.contains(&today.weekday())
                && let Some(stretch) = working_day(hours, &today)
            {
                let (begin, end) = (stretch.from.max(from), stretch.to.min(to));
                match open.last_mut() {
                    // Days without hours join each other at midnight.
                    Some(last) if begin <= last.to => last.to = last.to.max(end),
                    _ if begin < end => open.push(Stretch {
                        from: begin,
                        to: end,
                    }),
                    _ => {}
                }
            }
            day = today.checked_add(1.day()).ok();
        }
        open
    }
}

/// A stretch of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stretch {
    pub from: Timestamp,
    pub to: Timestamp,
}

/// The working day that begins on the date of `day`.
fn working_day(hours: Option<Hours>, day: &ZonedDateTime) -> Option<Stretch> {
    let zone = day.time_zone();
    let tomorrow = day.date().tomorrow().ok()?;
    let (from, to) = match hours {
        None => (
            day.date().to_datetime(Time::midnight()),
            tomorrow.to_datetime(Time::midnight()),
        ),
        Some(hours) if hours.to > hours.from => (
            day.date().to_datetime(hours.from),
            day.date().to_datetime(hours.to),
        ),
        Some(hours) => (
            day.date().to_datetime(hours.from),
            tomorrow.to_datetime(hours.to),
        ),
    };
    Some(Stretch {
        from: zone.to_timestamp(from).ok()?,
        to: zone.to_timestamp(to).ok()?,
    })
}

/// What is left of stretches in order, with another cut out.
fn without(open: Vec<Stretch>, cut: Stretch) -> Vec<Stretch> {
    open.into_iter()
        .flat_map(|whole| {
            [
                Stretch {
                    from: whole.from,
                    to: whole.to.min(cut.from),
                },
                Stretch {
                    from: whole.from.max(cut.to),
                    to: whole.to,
                },
            ]
        })
        .filter(|left| left.from < left.to)
        .collect()
}
