//! Moments of time and days, as a person writes them and as they are shown.
//!
//! Everything is in the kitchen's own zone, which is passed in. What a clock
//! shows twice, when summer time ends, is never guessed: reading asks for the
//! offset, showing gives it.

use crate::units::InputError;
use crate::units::Reason;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::{AmbiguousOffset, TimeZone};
use jiff::{SignedDuration, Timestamp, ToSpan, ZonedDateTime};

const A_DAY: Reason = expected!("day");
const A_MOMENT: Reason = expected!("moment");

/// Which end of a day a day alone stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DayEdge {
    /// Its first moment.
    Begin,
    /// The first moment of the day after.
    End,
}

/// A day of the calendar: `2026-05-01`, `today`, `yesterday`, `tomorrow`.
///
/// # Errors
/// Where it is none of these, or no day of the calendar; `field` is named.
pub fn read_day(field: &str, text: &str, now: &ZonedDateTime) -> Result<Date, InputError> {
    let written = text.trim();
    named_day(written, now)
        .or_else(|| date_alone(written))
        .ok_or_else(|| InputError::new(field, text, problem!("no-day"), A_DAY))
}

/// A moment: a time of today (`15:30`), a day alone (its `edge`), a day and a
/// time (`yesterday 22:10`, `2026-11-27T10:00`), or a time with its offset.
///
/// # Errors
/// Where it is none of these; where the clock skips that time, or shows it
/// twice and no offset says which one is meant; before the year 2000, which is
/// no moment of a kitchen that weighs; `field` is named.
pub fn read_moment(
    field: &str,
    text: &str,
    now: &ZonedDateTime,
    edge: DayEdge,
) -> Result<Timestamp, InputError> {
    let moment = any_moment(field, text, now, edge)?;
    if moment.to_zoned_datetime(now.time_zone().clone()).year() < 2000 {
        let problem = problem!("before-2000");
        return Err(InputError::new(field, text, problem, A_MOMENT));
    }
    Ok(moment)
}

/// Clocks differ a little, and a time is written to the minute.
const CLOCKS_DIFFER: SignedDuration = SignedDuration::from_mins(10);

/// A moment at which something has happened, read as [`read_moment`] reads it.
///
/// # Errors
/// As for [`read_moment`], and a moment that is still to come.
pub fn read_past_moment(
    field: &str,
    text: &str,
    now: &ZonedDateTime,
) -> Result<Timestamp, InputError> {
    let moment = read_moment(field, text, now, DayEdge::Begin)?;
    has_come(field, text, moment, now.timestamp())
}

/// The moment that `text` says, of something that has happened.
///
/// # Errors
/// A moment that is still to come; `field` is named. Clocks may differ by ten minutes.
pub fn has_come(
    field: &str,
    text: &str,
    moment: Timestamp,
    now: Timestamp,
) -> Result<Timestamp, InputError> {
    if moment.duration_since(now) > CLOCKS_DIFFER {
        let problem = problem!("to-come");
        return Err(InputError::new(field, text, problem, A_MOMENT));
    }
    Ok(moment)
}

fn any_moment(
    field: &str,
    text: &str,
    now: &ZonedDateTime,
    edge: DayEdge,
) -> Result<Timestamp, InputError> {
    let written = text.trim();
    let wrong = |problem: Reason| InputError::new(field, text, problem, A_MOMENT);
    let zone = now.time_zone();
    if let Some(day) = named_day(written, now).or_else(|| date_alone(written)) {
        let day = match edge {
            DayEdge::Begin => day,
            DayEdge::End => day.saturating_add(1.day()),
        };
        // Where the clock skips midnight, the day begins a little later.
        return day
            .to_zoned_datetime(zone.clone())
            .map(|begin| begin.timestamp())
            .map_err(|_| wrong(problem!("beyond-calendar")));
    }
    if let Ok(moment) = written.parse::<Timestamp>() {
        return Ok(moment);
    }
    let local = if let Some(time) = time_alone(written) {
        now.date().to_datetime(time)
    } else if let Some((day, time)) = written.split_once(' ')
        && let Some(day) = named_day(day, now)
    {
        let time = time_alone(time.trim()).ok_or_else(|| wrong(problem!("no-time-of-day")))?;
        day.to_datetime(time)
    } else if looks_like_a_date(written) && date_alone(written.get(..10).unwrap_or("")).is_none() {
        return Err(wrong(problem!("no-day")));
    } else {
        written
            .parse::<DateTime>()
            .map_err(|_| wrong(problem!("no-time")))?
    };
    at(local, zone).map_err(wrong)
}

/// A local time of the zone.
fn at(local: DateTime, zone: &TimeZone) -> Result<Timestamp, Reason> {
    let ambiguous = zone.to_ambiguous_timestamp(local);
    match ambiguous.offset() {
        AmbiguousOffset::Unambiguous { .. } => ambiguous
            .unambiguous()
            .map_err(|_| problem!("beyond-calendar")),
        AmbiguousOffset::Gap { .. } => Err(problem!("skipped")),
        AmbiguousOffset::Fold { before, after } => {
            Err(problem!("twice", first = before, second = after))
        }
    }
}

fn named_day(text: &str, now: &ZonedDateTime) -> Option<Date> {
    let today = now.date();
    match text.to_ascii_lowercase().as_str() {
        "today" => Some(today),
        "yesterday" => today.checked_sub(1.day()).ok(),
        "tomorrow" => today.checked_add(1.day()).ok(),
        _ => None,
    }
}

/// Four digits, a line, and so on: whoever wrote it meant a date.
fn looks_like_a_date(text: &str) -> bool {
    let mut letters = text.bytes();
    (0..4).all(|_| letters.next().is_some_and(|letter| letter.is_ascii_digit()))
        && letters.next() == Some(b'-')
}

/// A date and nothing behind it, which would otherwise read as its midnight.
fn date_alone(text: &str) -> Option<Date> {
    (text.len() == "2026-05-01".len())
        .then(|| text.parse().ok())
        .flatten()
}

/// `8:05`, `18:30` or `18:30:15` and nothing behind it.
fn time_alone(text: &str) -> Option<Time> {
    let mut parts = text.split(':');
    let (hours, minutes) = (parts.next()?, parts.next()?);
    let seconds = parts.next();
    let two = |digits: &str| digits.len() == 2 && digits.bytes().all(|d| d.is_ascii_digit());
    let hours_fit =
        matches!(hours.len(), 1 | 2) && hours.bytes().all(|digit| digit.is_ascii_digit());
    if !hours_fit || !two(minutes) || !seconds.is_none_or(two) || parts.next().is_some() {
        return None;
    }
    let second = seconds.map_or(Some(0), |seconds| seconds.parse().ok())?;
    Time::new(hours.parse().ok()?, minutes.parse().ok()?, second, 0).ok()
}

/// The time of day: `18:30`. Where the clock shows that time twice in a day,
/// the offset stands behind it: `02:10+02:00`.
#[must_use]
pub fn show_time(moment: Timestamp, zone: &TimeZone) -> String {
    shown(moment, zone, "%H:%M")
}

/// The time of day to the second, otherwise as [`show_time`].
#[must_use]
pub fn show_time_to_the_second(moment: Timestamp, zone: &TimeZone) -> String {
    shown(moment, zone, "%H:%M:%S")
}

/// The date and the time of day, for records: `2026-11-27 10:00`.
#[must_use]
pub fn show_date_and_time(moment: Timestamp, zone: &TimeZone) -> String {
    shown(moment, zone, "%Y-%m-%d %H:%M")
}

/// The date and the time of day to the second, for records.
#[must_use]
pub fn show_date_and_time_to_the_second(moment: Timestamp, zone: &TimeZone) -> String {
    shown(moment, zone, "%Y-%m-%d %H:%M:%S")
}

fn shown(moment: Timestamp, zone: &TimeZone, format: &str) -> String {
    let local = moment.to_zoned_datetime(zone.clone());
    let mut text = local.strftime(format).to_string();
    if matches!(
        zone.to_ambiguous_timestamp(local.datetime()).offset(),
        AmbiguousOffset::Fold { .. }
    ) {
        text += &local.strftime("%:z").to_string();
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    // Lisbon is an hour ahead of UTC in May; the clocks go forward at 01:00 on
    // 29 March 2026 and back at 02:00 on 25 October 2026 (IANA time zone
    // database).
    fn now() -> ZonedDateTime {
        "2026-05-02T01:30[Europe/Lisbon]".parse().unwrap()
    }

    fn read(text: &str, edge: DayEdge) -> Result<String, String> {
        read_moment("--from", text, &now(), edge)
            .map(|moment| moment.to_string())
            .map_err(|error| error.problem().in_english().to_owned())
    }

    fn begin(text: &str) -> Result<String, String> {
        read(text, DayEdge::Begin)
    }

    #[test]
    fn days_are_local_and_whole() {
        assert_eq!(begin("2026-05-01").unwrap(), "2026-04-30T23:00:00Z");
        assert_eq!(
            read("2026-05-01", DayEdge::End).unwrap(),
            "2026-05-01T23:00:00Z"
        );
        assert_eq!(begin("today").unwrap(), "2026-05-01T23:00:00Z");
        assert_eq!(
            read("Yesterday", DayEdge::End).unwrap(),
            "2026-05-01T23:00:00Z"
        );
        assert_eq!(begin("tomorrow").unwrap(), "2026-05-02T23:00:00Z");
    }

    #[test]
    fn what_no_kitchen_has_weighed_at_is_refused() {
        assert_eq!(
            begin("1970-01-01T00:00").unwrap_err(),
            "is before the year 2000"
        );
        assert!(begin("2000-01-01").is_ok());
        let past = |text: &str| read_past_moment("--at", text, &now());
        assert_eq!(
            past("02:30").unwrap_err().problem().in_english(),
            "is still to come"
        );
        assert!(past("01:35").is_ok(), "clocks differ a little");
        assert!(past("yesterday 22:10").is_ok());
    }

    #[test]
    fn times_are_local_unless_they_say_otherwise() {
        for (text, moment) in [
            ("15:30", "2026-05-02T14:30:00Z"),
            ("8:05", "2026-05-02T07:05:00Z"),
            ("today 15:30", "2026-05-02T14:30:00Z"),
            ("yesterday 22:10", "2026-05-01T21:10:00Z"),
            ("2026-05-01T18:30", "2026-05-01T17:30:00Z"),
            ("2026-05-01 18:30", "2026-05-01T17:30:00Z"),
            ("2026-05-01T18:30+02:00", "2026-05-01T16:30:00Z"),
            ("2026-05-01T18:30:00Z", "2026-05-01T18:30:00Z"),
        ] {
            assert_eq!(begin(text).as_deref(), Ok(moment), "{text}");
        }
    }

    #[test]
    fn a_time_that_the_clock_skips_or_shows_twice_is_not_guessed() {
        let skipped = begin("2026-03-29T01:30").unwrap_err();
        assert!(skipped.contains("put forward"), "{skipped}");
        let twice = begin("2026-10-25T01:30").unwrap_err();
        assert!(twice.contains("twice"), "{twice}");
        assert_eq!(
            begin("2026-10-25T01:30+01:00").unwrap(),
            "2026-10-25T00:30:00Z"
        );
        assert_eq!(
            begin("2026-10-25T01:30+00:00").unwrap(),
            "2026-10-25T01:30:00Z"
        );
    }

    #[test]
    fn what_is_no_time_is_refused() {
        for (text, problem) in [
            ("2026-02-30", "is no day of the calendar"),
            ("2026-02-30T10:00", "is no day of the calendar"),
            ("", "is no time"),
            ("last night", "is no time"),
            ("yesterday evening", "has no time of day"),
            ("25:00", "is no time"),
            ("12:60", "is no time"),
            ("1:2", "is no time"),
            ("-1:30", "is no time"),
        ] {
            assert_eq!(begin(text).unwrap_err(), problem, "{text}");
        }
        let refused = read_day("--for", "2026-02-30", &now()).unwrap_err();
        assert_eq!(
            refused.to_string(),
            "--for: \"2026-02-30\" is no day of the calendar; write a day: 2026-05-01, today, yesterday or tomorrow"
        );
    }

    #[test]
    fn an_hour_that_occurs_twice_is_shown_with_its_offset() {
        let zone = TimeZone::get("Europe/Lisbon").unwrap();
        let shown = |moment: &str| show_time(moment.parse().unwrap(), &zone);
        assert_eq!(shown("2026-10-25T00:30:00Z"), "01:30+01:00");
        assert_eq!(shown("2026-10-25T01:30:00Z"), "01:30+00:00");
        assert_eq!(shown("2026-10-25T02:30:00Z"), "02:30");
        assert_eq!(shown("2026-05-01T17:30:00Z"), "18:30");
    }
}
