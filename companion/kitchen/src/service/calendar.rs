//! Which service a moment belongs to.

use crate::units::InputError;
use crate::units::Reason;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};

/// The local time at which a service's day begins, from midnight to noon. What
/// is portioned before it belongs to the evening before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct DayBegins(Time);

impl Default for DayBegins {
    /// Four in the morning (common practice, no source).
    fn default() -> Self {
        Self(Time::constant(4, 0, 0, 0))
    }
}

impl DayBegins {
    /// A time of day, `04:00`, from 00:00 to 12:00. `field` says where it was
    /// typed, for the error.
    ///
    /// # Errors
    /// What is no time of day, or one after noon.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        let wrong =
            |problem: Reason| InputError::new(field, text, problem, expected!("day-begins"));
        let time: Time = text
            .trim()
            .parse()
            .map_err(|_| wrong(problem!("no-time-of-day-here")))?;
        if time > Time::constant(12, 0, 0, 0) {
            return Err(wrong(problem!("after-noon")));
        }
        Ok(Self(time))
    }

    /// The time of day.
    #[must_use]
    pub const fn time(self) -> Time {
        self.0
    }
}

impl core::fmt::Display for DayBegins {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{:02}:{:02}", self.0.hour(), self.0.minute())
    }
}

/// Tells services apart in one kitchen's local time.
#[derive(Debug, Clone)]
pub struct ServiceCalendar {
    zone: TimeZone,
    begins: DayBegins,
}

impl ServiceCalendar {
    /// The calendar of a kitchen in `zone`.
    #[must_use]
    pub const fn new(zone: TimeZone, begins: DayBegins) -> Self {
        Self { zone, begins }
    }

    /// The kitchen's time zone.
    #[must_use]
    pub const fn zone(&self) -> &TimeZone {
        &self.zone
    }

    /// When a service's day begins.
    #[must_use]
    pub const fn begins(&self) -> DayBegins {
        self.begins
    }

    /// The day of the service that a moment belongs to.
    #[must_use]
    pub fn day_of(&self, moment: Timestamp) -> Date {
        let local = self.zone.to_datetime(moment);
        if local.time() < self.begins.0 {
            local.date().saturating_sub(1.day())
        } else {
            local.date()
        }
    }

    /// From when (inclusive) to when (exclusive) a service's day lasts. Where
    /// clocks are put forward over its beginning, it begins just after. Beyond
    /// the calendar's ends it is cut short.
    #[must_use]
    pub fn span(&self, day: Date) -> (Timestamp, Timestamp) {
        let begin = |day: Date| {
            self.zone
                .to_ambiguous_timestamp(day.to_datetime(self.begins.0))
                .compatible()
                .unwrap_or(Timestamp::MAX)
        };
        (begin(day), begin(day.saturating_add(1.day())))
    }

    /// The hour of the clock on the wall, 0 to 23.
    #[must_use]
    pub fn hour_of(&self, moment: Timestamp) -> i8 {
        self.zone.to_datetime(moment).hour()
    }

    /// Hours since the service's day began, for putting hours in the order of
    /// the night: 23 before 0.
    #[must_use]
    pub fn hours_into_day(&self, hour: i8) -> i8 {
        (hour - self.begins.0.hour()).rem_euclid(24)
    }

    /// The time of day as a clock shows it: `21:05`.
    #[must_use]
    pub fn clock(&self, moment: Timestamp) -> String {
        crate::moment::show_time(moment, &self.zone)
    }
}

/// A service on record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Service {
    /// Its day, by the [`ServiceCalendar`].
    pub day: Date,
    /// When the first order came, where it was said.
    pub first_order: Option<Timestamp>,
    /// When the last order came, where it was said.
    pub last_order: Option<Timestamp>,
}

impl Service {
    /// From the first to the last order, where both are known.
    #[must_use]
    pub fn lasted(&self) -> Option<SignedDuration> {
        Some(self.last_order?.duration_since(self.first_order?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn calendar() -> ServiceCalendar {
        ServiceCalendar::new(
            TimeZone::get("Europe/Lisbon").unwrap(),
            DayBegins::default(),
        )
    }

    fn at(text: &str) -> Timestamp {
        text.parse().unwrap()
    }

    // Lisbon is an hour ahead of UTC in May.
    #[test]
    fn what_is_made_after_midnight_belongs_to_the_evening_before() {
        let calendar = calendar();
        let day = |text| calendar.day_of(at(text)).to_string();
        assert_eq!(day("2026-05-01T22:59:59Z"), "2026-05-01");
        assert_eq!(day("2026-05-02T00:30:00Z"), "2026-05-01");
        assert_eq!(day("2026-05-02T02:59:59.999Z"), "2026-05-01");
        assert_eq!(day("2026-05-02T03:00:00Z"), "2026-05-02");
    }

    #[test]
    fn a_day_holds_just_its_own_moments_also_when_clocks_change() {
        let calendar = calendar();
        // The last Sundays of March and October.
        for day in ["2026-03-28", "2026-03-29", "2026-10-24", "2026-10-25"] {
            let day: Date = day.parse().unwrap();
            let (from, to) = calendar.span(day);
            let just = SignedDuration::from_millis(1);
            assert_eq!(calendar.day_of(from), day);
            assert_eq!(calendar.day_of(to - just), day);
            assert_ne!(calendar.day_of(from - just), day);
            assert_ne!(calendar.day_of(to), day);
        }
        let hours = |day: &str| {
            let (from, to) = calendar.span(day.parse().unwrap());
            to.duration_since(from).as_hours()
        };
        assert_eq!((hours("2026-03-28"), hours("2026-10-24")), (23, 25));
    }

    #[test]
    fn hours_are_in_the_order_of_the_night() {
        let calendar = calendar();
        let mut hours = [0, 23, 18, 1, 21];
        hours.sort_by_key(|hour| calendar.hours_into_day(*hour));
        assert_eq!(hours, [18, 21, 23, 0, 1]);
    }

    #[test]
    fn a_day_does_not_begin_in_the_evening() {
        assert_eq!(DayBegins::parse("x", "05:30").unwrap().to_string(), "05:30");
        for bad in ["", "25:00", "17:00", "four"] {
            assert!(DayBegins::parse("x", bad).is_err(), "{bad:?}");
        }
    }
}
