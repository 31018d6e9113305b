//! When something happened, as a cook says it: now, or a day of the last week and a time.

use crate::words::{Language, say};
use evenhand_kitchen::moment::read_past_moment;
use evenhand_kitchen::units::InputError;
use evenhand_use_cases::times;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan, ZonedDateTime};

/// How many days back a day can be chosen.
const DAYS_BACK: i32 = 6;

/// A moment that was said, or that it is now.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Said {
    /// The day that was chosen, by its date: what is today may be another day in a minute.
    day: Option<Date>,
    /// The time of day; where the clock shows it twice, its offset behind it.
    time: Option<String>,
}

impl Said {
    /// The day before; after a week, today again.
    pub(super) fn turn_day(&mut self, now: &ZonedDateTime) {
        let before = self.day(now).saturating_sub(1.day());
        let first = now.date().saturating_sub(DAYS_BACK.days());
        let today = self.time.is_some().then(|| now.date());
        let earlier = (first..now.date()).contains(&before).then_some(before);
        self.day = earlier.or(today);
    }

    /// Takes in a time of day as it was typed; nothing, or the word for it, is now.
    ///
    /// # Errors
    /// What is no time of day of that day, or still to come.
    pub(super) fn say(&mut self, text: &str, now: &ZonedDateTime) -> Result<(), InputError> {
        let is_now = |language: Language| *say!(language, "book-now") == *text;
        if text.is_empty() || Language::ALL.into_iter().any(is_now) {
            *self = Self::default();
            return Ok(());
        }
        let said = Self {
            day: Some(self.day(now)),
            time: Some(with_colon(text)),
        };
        said.at(now)?;
        *self = said;
        Ok(())
    }

    /// The moment; `None` where a day was chosen and no time said.
    ///
    /// # Errors
    /// A time that the clock of that day skips or shows twice, or that is still to come.
    pub(super) fn at(&self, now: &ZonedDateTime) -> Result<Option<Timestamp>, InputError> {
        match (&self.time, self.day) {
            (None, None) => Ok(Some(now.timestamp())),
            (None, Some(_)) => Ok(None),
            (Some(time), _) => {
                let day = self.day(now);
                read_past_moment("time", &format!("{day}T{time}"), now).map(Some)
            }
        }
    }

    fn day(&self, now: &ZonedDateTime) -> Date {
        self.day.unwrap_or_else(|| now.date())
    }

    /// Its day in words.
    pub(super) fn day_words(&self, language: Language, now: &ZonedDateTime) -> String {
        let day = self.day(now);
        if day == now.date() {
            say!(language, "book-today").into_owned()
        } else if day == now.date().saturating_sub(1.day()) {
            say!(language, "book-yesterday").into_owned()
        } else {
            times::day(language, day)
        }
    }

    /// Its time in words.
    pub(super) fn time_words(&self, language: Language) -> String {
        match (&self.time, self.day) {
            (Some(time), _) => time.clone(),
            (None, None) => say!(language, "book-now").into_owned(),
            (None, Some(_)) => say!(language, "book-not-said").into_owned(),
        }
    }
}

/// A time with the colon that a touch or a language left out: `930`, `9.30` and `9h30` are
/// `09:30`.
fn with_colon(text: &str) -> String {
    let digits = text.chars().all(|letter| letter.is_ascii_digit());
    let text = if digits && matches!(text.len(), 3 | 4) {
        let (hours, minutes) = text.split_at(text.len() - 2);
        format!("{hours}:{minutes}")
    } else {
        text.replace(['.', ',', 'h', 'H'], ":")
    };
    // As a date wants it.
    if text.find(':') == Some(1) {
        format!("0{text}")
    } else {
        text
    }
}

/// The zone's clock at a moment.
pub(super) fn clock(now: Timestamp, zone: &TimeZone) -> ZonedDateTime {
    now.to_zoned_datetime(zone.clone())
}
