//! A stretch of time.

use super::Failure;
use clap::Args;
use evenhand_kitchen::units::InputError;
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan, ZonedDateTime};

const EXPECTED: &str = "write a day (2026-05-01, today, yesterday), a local time \
                        (2026-05-01T18:30) or a time with its offset (2026-05-01T18:30+02:00)";

/// From when to when.
#[derive(Debug, Clone, Args)]
pub(super) struct PeriodArguments {
    /// Only what was made at this time or later: 2026-05-01, 2026-05-01T18:30, today.
    #[arg(long, value_name = "TIME")]
    from: Option<String>,
    /// Only what was made before this time; a day is taken whole.
    #[arg(long, value_name = "TIME")]
    to: Option<String>,
}

impl PeriodArguments {
    /// From (inclusive) and to (exclusive), as said.
    pub(super) fn period(
        &self,
        now: &ZonedDateTime,
    ) -> Result<(Option<Timestamp>, Option<Timestamp>), Failure> {
        let read = |field, text: &Option<String>, end| {
            text.as_ref()
                .map(|text| moment(field, text, now, end))
                .transpose()
        };
        let from = read("--from", &self.from, false)?;
        let to = read("--to", &self.to, true)?;
        if let (Some(from), Some(to)) = (from, to)
            && from >= to
        {
            return Err(Failure::Input(
                "--from is not before --to; swap them".to_owned(),
            ));
        }
        Ok((from, to))
    }
}

/// A moment; of a day its beginning, or its end.
pub(super) fn moment(
    field: &str,
    text: &str,
    now: &ZonedDateTime,
    end: bool,
) -> Result<Timestamp, InputError> {
    let text = text.trim();
    let wrong = |problem: &str| InputError::new(field, text, problem, EXPECTED);
    let zone = now.time_zone();
    let day = match text.to_ascii_lowercase().as_str() {
        "today" => Some(now.date()),
        "yesterday" => Some(now.date().saturating_sub(1.day())),
        _ => None,
    };
    // A date alone would also be read as a date with the time of midnight.
    let day = match day {
        Some(day) => Some(day),
        None if text.len() <= "2026-05-01".len() => Some(
            text.parse::<Date>()
                .map_err(|_| wrong("is no day of the calendar"))?,
        ),
        None => None,
    };
    if let Some(day) = day {
        let day = if end {
            day.saturating_add(1.day())
        } else {
            day
        };
        return at(day.at(0, 0, 0, 0), zone).map_err(wrong);
    }
    if let Ok(moment) = text.parse::<Timestamp>() {
        return Ok(moment);
    }
    let local: DateTime = text.parse().map_err(|_| wrong("is no time"))?;
    at(local, zone).map_err(wrong)
}

/// A local time; where clocks are put forward over it, the time just after.
fn at(local: DateTime, zone: &TimeZone) -> Result<Timestamp, &'static str> {
    zone.to_ambiguous_zoned_datetime(local)
        .compatible()
        .map(|zoned| zoned.timestamp())
        .map_err(|_| "is beyond the calendar")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn now() -> ZonedDateTime {
        "2026-05-02T01:30[Europe/Lisbon]".parse().unwrap()
    }

    fn read(text: &str, end: bool) -> Result<String, String> {
        moment("--from", text, &now(), end)
            .map(|moment| moment.to_string())
            .map_err(|error| error.problem().to_owned())
    }

    // Lisbon is an hour ahead of UTC in May.
    #[test]
    fn days_are_local_and_whole() {
        assert_eq!(read("2026-05-01", false).unwrap(), "2026-04-30T23:00:00Z");
        assert_eq!(read("2026-05-01", true).unwrap(), "2026-05-01T23:00:00Z");
        assert_eq!(read("today", false).unwrap(), "2026-05-01T23:00:00Z");
        assert_eq!(read("Yesterday", true).unwrap(), "2026-05-01T23:00:00Z");
    }

    #[test]
    fn times_are_local_unless_they_say_otherwise() {
        assert_eq!(
            read("2026-05-01T18:30", false).unwrap(),
            "2026-05-01T17:30:00Z"
        );
        assert_eq!(
            read("2026-05-01 18:30", false).unwrap(),
            "2026-05-01T17:30:00Z"
        );
        assert_eq!(
            read("2026-05-01T18:30+02:00", true).unwrap(),
            "2026-05-01T16:30:00Z"
        );
        assert_eq!(
            read("2026-05-01T18:30:00Z", true).unwrap(),
            "2026-05-01T18:30:00Z"
        );
        // Clocks go forward at 01:00 on the last Sunday of March.
        assert_eq!(
            read("2026-03-29T01:30", false).unwrap(),
            "2026-03-29T01:30:00Z"
        );
    }

    #[test]
    fn what_is_no_time_is_refused() {
        assert_eq!(
            read("2026-02-30", false).unwrap_err(),
            "is no day of the calendar"
        );
        assert_eq!(read("", false).unwrap_err(), "is no day of the calendar");
        assert_eq!(
            read("last night", false).unwrap_err(),
            "is no day of the calendar"
        );
        assert_eq!(
            read("the other day at six", false).unwrap_err(),
            "is no time"
        );
    }
}
