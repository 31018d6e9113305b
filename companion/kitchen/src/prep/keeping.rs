//! How long a batch keeps, and when it must be used by.

use crate::units::Reason;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};

/// How long a preparation keeps once it is finished, as the menu says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Keeping {
    lasts: SignedDuration,
    source: String,
}

/// A keeping time makes no sense.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeepingError {
    /// Not above nothing and up to 366 days.
    #[error("it keeps {0}, expected above nothing and up to 366 days")]
    Length(String),
    /// Nothing says where it comes from.
    #[error("it says no source, expected where the keeping comes from, or \"the kitchen's own\"")]
    NoSource,
}

impl KeepingError {
    /// Why, as what is wrong with something typed.
    #[must_use]
    pub fn reason(&self) -> Reason {
        match self {
            Self::Length(length) => problem!("keeps-length", length = length),
            Self::NoSource => problem!("keeps-no-source"),
        }
    }
}

/// When a batch must be used by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UseBy {
    /// The moment.
    pub at: Timestamp,
    /// Whether date marking ends it before the keeping of the menu does.
    pub by_date_mark: bool,
}

impl Keeping {
    /// The longest that is believed.
    pub const LONGEST: SignedDuration = SignedDuration::from_hours(366 * 24);

    /// A keeping time with where it comes from.
    ///
    /// # Errors
    /// [`KeepingError`] for a time outside nothing to 366 days, or no source.
    pub fn new(lasts: SignedDuration, source: &str) -> Result<Self, KeepingError> {
        if !lasts.is_positive() || lasts > Self::LONGEST {
            return Err(KeepingError::Length(format!("{lasts:#}")));
        }
        match source.trim() {
            "" => Err(KeepingError::NoSource),
            source => Ok(Self {
                lasts,
                source: source.to_owned(),
            }),
        }
    }

    /// How long.
    #[must_use]
    pub const fn lasts(&self) -> SignedDuration {
        self.lasts
    }

    /// Where it comes from, as the menu says.
    #[must_use]
    pub fn source(&self) -> &str {
        &self.source
    }

    /// When a batch that is finished then must be used by. `date_mark`: the most
    /// days that a limit allows, the first counted.
    #[must_use]
    pub fn use_by(&self, ready: Timestamp, date_mark: Option<u32>, zone: &TimeZone) -> UseBy {
        let at = ready.checked_add(self.lasts).unwrap_or(Timestamp::MAX);
        let mark = date_mark.and_then(|days| date_mark_ends(ready, days, zone));
        match mark {
            Some(mark) if mark < at => UseBy {
                at: mark,
                by_date_mark: true,
            },
            _ => UseBy {
                at,
                by_date_mark: false,
            },
        }
    }
}

/// The end of the last of so many days, that of `ready` counted as the first.
#[must_use]
pub fn date_mark_ends(ready: Timestamp, days: u32, zone: &TimeZone) -> Option<Timestamp> {
    let first: Date = ready.to_zoned_datetime(zone.clone()).date();
    let after = first.checked_add(i64::from(days).days()).ok()?;
    after
        .to_zoned_datetime(zone.clone())
        .map(|t| t.timestamp())
        .ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    // FDA Food Code 3-501.17(A): "The day of preparation shall be counted as Day 1", seven
    // days at most. What is made on the 1st is used on the 7th at the latest, whose end is
    // the beginning of the 8th. The Annex to that section has food made on October 1 that is
    // used or discarded by October 7. Both from memory.
    #[test]
    fn the_day_of_preparation_is_the_first_of_seven() {
        let zone = TimeZone::get("Europe/Lisbon").unwrap();
        let at = |text: &str| text.parse::<Timestamp>().unwrap();
        let ready = at("2026-10-01T09:00:00+01:00");
        assert_eq!(
            date_mark_ends(ready, 7, &zone),
            Some(at("2026-10-08T00:00:00+01:00"))
        );
        let hours = |h| Keeping::new(SignedDuration::from_hours(h), "the kitchen's own").unwrap();
        let short = hours(72).use_by(ready, Some(7), &zone);
        assert_eq!(short.at, at("2026-10-04T09:00:00+01:00"));
        assert!(!short.by_date_mark);
        let long = hours(10 * 24).use_by(ready, Some(7), &zone);
        assert_eq!(long.at, at("2026-10-08T00:00:00+01:00"));
        assert!(long.by_date_mark);
        assert!(!hours(10 * 24).use_by(ready, None, &zone).by_date_mark);
    }

    #[test]
    fn nonsense_is_refused() {
        let hours = SignedDuration::from_hours;
        for (lasts, source) in [(0, "x"), (-1, "x"), (367 * 24, "x"), (24, " ")] {
            assert!(
                Keeping::new(hours(lasts), source).is_err(),
                "{lasts} {source:?}"
            );
        }
    }
}
