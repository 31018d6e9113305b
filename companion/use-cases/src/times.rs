//! Days, times of day and lengths of time in words.

use crate::words::say;
use evenhand_kitchen::moment::show_time;
use evenhand_words::Language;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// A day of the week in full: `Friday`.
fn weekday_in_full(language: Language, day: Date) -> String {
    let nth = day.weekday().to_monday_one_offset();
    say!(language, "weekday", nth = nth).into_owned()
}

/// A day of the week where there is little room: `Fri`.
#[must_use]
pub fn weekday(language: Language, day: Date) -> String {
    let nth = day.weekday().to_monday_one_offset();
    say!(language, "weekday-short", nth = nth).into_owned()
}

fn month(language: Language, day: Date) -> String {
    say!(language, "month-short", nth = day.month()).into_owned()
}

/// A day: `Friday 8 May`.
#[must_use]
pub fn day(language: Language, day: Date) -> String {
    say!(
        language,
        "day",
        weekday = weekday_in_full(language, day),
        date = day.day(),
        month = say!(language, "month", nth = day.month()),
    )
    .into_owned()
}

/// A day where there is little room: `8 May`.
#[must_use]
pub fn short_day(language: Language, day: Date) -> String {
    let month = month(language, day);
    say!(language, "day-short", date = day.day(), month = month).into_owned()
}

/// A day of any year where there is little room: `8 May 26`.
#[must_use]
pub fn short_day_of_year(language: Language, day: Date) -> String {
    format!(
        "{} {:02}",
        short_day(language, day),
        day.year().rem_euclid(100)
    )
}

/// A day of any year: `Sat 16 May 2026`.
#[must_use]
pub fn day_of_year(language: Language, day: Date) -> String {
    format!(
        "{} {} {}",
        weekday(language, day),
        short_day(language, day),
        day.year()
    )
}

/// Words at the beginning of a line: their first letter as a capital.
#[must_use]
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// The weekday, date and time of day: `Sun 29 Nov, 10:00`.
#[must_use]
pub fn day_and_time(language: Language, moment: Timestamp, zone: &TimeZone) -> String {
    let day = moment.to_zoned_datetime(zone.clone()).date();
    format!(
        "{} {}, {}",
        weekday(language, day),
        short_day(language, day),
        show_time(moment, zone)
    )
}

/// The time of day, with its weekday and date where it is not on `today`:
/// `18:30`, or `Sun 29 Nov, 10:00`.
#[must_use]
pub fn near(language: Language, moment: Timestamp, today: Date, zone: &TimeZone) -> String {
    if moment.to_zoned_datetime(zone.clone()).date() == today {
        show_time(moment, zone)
    } else {
        day_and_time(language, moment, zone)
    }
}

/// The time of day, with its weekday where it is not on `today`: `18:30`, or
/// `Sun 10:00`; for what lies within a week.
#[must_use]
pub fn within_a_week(
    language: Language,
    moment: Timestamp,
    today: Date,
    zone: &TimeZone,
) -> String {
    let day = moment.to_zoned_datetime(zone.clone()).date();
    let time = show_time(moment, zone);
    if day == today {
        time
    } else {
        format!("{} {time}", weekday(language, day))
    }
}

/// A length of time in hours and minutes, by their symbols (SI Brochure,
/// table 8), which are the same in every language: `2 h 05 min`.
#[must_use]
pub fn hours(d: SignedDuration) -> String {
    let minutes = (d.as_secs() + 30).div_euclid(60);
    format!("{} h {:02} min", minutes / 60, minutes % 60)
}

/// A length of time as people say it: `12 minutes`, from two hours on
/// `2 h 05 min`. Negative ones are none.
#[must_use]
pub fn minutes(language: Language, d: SignedDuration) -> String {
    let minutes = (d.as_secs().max(0) + 30) / 60;
    if minutes < 120 {
        say!(language, "minutes", count = minutes).into_owned()
    } else {
        hours(d)
    }
}

/// A length of time, in seconds where they matter: `90 s`, `2 h 05 min`.
#[must_use]
pub fn span(d: SignedDuration) -> String {
    if d < SignedDuration::from_mins(2) {
        format!("{} s", d.as_secs())
    } else {
        hours(d)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn a_moment_of_another_day_carries_it() {
        let zone = TimeZone::get("Europe/Lisbon").unwrap();
        let today = date(2026, 5, 2);
        let english = Language::English;
        let shown = |moment: &str| near(english, moment.parse().unwrap(), today, &zone);
        assert_eq!(shown("2026-05-02T17:30:00Z"), "18:30");
        assert_eq!(shown("2026-05-03T09:00:00Z"), "Sun 3 May, 10:00");
        let near = |moment: &str| within_a_week(english, moment.parse().unwrap(), today, &zone);
        assert_eq!(near("2026-05-02T17:30:00Z"), "18:30");
        assert_eq!(near("2026-05-03T09:00:00Z"), "Sun 10:00");
        assert_eq!(day(english, today), "Saturday 2 May");
        assert_eq!(short_day(english, today), "2 May");
        assert_eq!(weekday(english, today), "Sat");
        assert_eq!(day_of_year(english, today), "Sat 2 May 2026");
        assert_eq!(short_day_of_year(english, today), "2 May 26");
    }

    // 8 May 2026 is a Friday, 1 August 2026 a Saturday. Names, abbreviations
    // and the French "1er" by the Unicode CLDR's formats (from memory).
    #[test]
    fn days_are_named_in_each_language() {
        let friday = date(2026, 5, 8);
        let first = date(2026, 8, 1);
        for (language, full, short, named) in [
            (Language::English, "Friday 8 May", "Fri 8 May 2026", "1 Aug"),
            (
                Language::Spanish,
                "viernes 8 de mayo",
                "vie 8 may 2026",
                "1 ago",
            ),
            (
                Language::French,
                "vendredi 8 mai",
                "ven. 8 mai 2026",
                "1er août",
            ),
        ] {
            assert_eq!(day(language, friday), full);
            assert_eq!(day_of_year(language, friday), short);
            assert_eq!(short_day(language, first), named);
        }
    }

    /// Every month and every weekday has a name of its own.
    #[test]
    fn no_month_and_no_weekday_is_forgotten() {
        for language in Language::ALL {
            let months: std::collections::BTreeSet<String> = (1..=12)
                .map(|month| short_day(language, date(2026, month, 2)))
                .collect();
            assert_eq!(months.len(), 12, "{months:?}");
            let days: std::collections::BTreeSet<String> = (1..=7)
                .flat_map(|nth| {
                    let of = date(2026, 6, nth);
                    [weekday(language, of), weekday_in_full(language, of)]
                })
                .collect();
            assert_eq!(days.len(), 14, "{days:?}");
        }
    }

    #[test]
    fn lengths_of_time_are_rounded_to_the_minute() {
        let seconds = SignedDuration::from_secs;
        for (length, said) in [
            (-60, "0 minutes"),
            (29, "0 minutes"),
            (60, "1 minute"),
            (119 * 60, "119 minutes"),
            (2 * 3600 + 300, "2 h 05 min"),
        ] {
            assert_eq!(minutes(Language::English, seconds(length)), said);
        }
        assert_eq!(minutes(Language::French, seconds(0)), "0 minute");
        assert_eq!(span(seconds(90)), "90 s");
        assert_eq!(span(seconds(120)), "0 h 02 min");
    }
}
