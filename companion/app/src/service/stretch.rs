//! The stretch of time that a chart shows: closer, wider, to either side.

use jiff::{SignedDuration, Timestamp};

/// A stretch of time, `to` after `from`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// Its beginning.
    pub from: Timestamp,
    /// Its end.
    pub to: Timestamp,
}

/// The shortest stretch worth looking at.
const LEAST: SignedDuration = SignedDuration::from_mins(1);

impl Stretch {
    /// How long it is.
    #[must_use]
    pub fn length(self) -> SignedDuration {
        self.to.duration_since(self.from)
    }

    /// Its middle.
    #[must_use]
    pub fn middle(self) -> Timestamp {
        self.from + self.length() / 2
    }

    /// `factor` times as close, within `whole`, with `about` staying where it
    /// is on the screen as far as that goes. `None` where that is all of
    /// `whole`, or `factor` is no number above zero.
    #[must_use]
    pub fn closer(self, whole: Self, factor: f64, about: Timestamp) -> Option<Self> {
        if !(factor.is_finite() && factor > 0.0) {
            return None;
        }
        let old = self.length().as_secs_f64().max(f64::MIN_POSITIVE);
        let new = (old / factor).max(LEAST.as_secs_f64());
        let share = (about.duration_since(self.from).as_secs_f64() / old).clamp(0.0, 1.0);
        if new >= whole.length().as_secs_f64() {
            return None;
        }
        let before = SignedDuration::try_from_secs_f64(new * share).ok()?;
        let length = SignedDuration::try_from_secs_f64(new).ok()?;
        Self {
            from: about.checked_sub(before).ok()?,
            to: about.checked_sub(before).ok()?.checked_add(length).ok()?,
        }
        .kept_within(whole)
    }

    /// Moved by a share of its length, later where it is above zero, within
    /// `whole`. `None` where that is no stretch.
    #[must_use]
    pub fn moved(self, whole: Self, share: f64) -> Option<Self> {
        let by = self.length().as_secs_f64() * share;
        let by = SignedDuration::try_from_secs_f64(by).ok()?;
        Self {
            from: self.from.checked_add(by).ok()?,
            to: self.to.checked_add(by).ok()?,
        }
        .kept_within(whole)
    }

    fn kept_within(self, whole: Self) -> Option<Self> {
        let length = self.length();
        let from = self.from.min(whole.to.checked_sub(length).ok()?);
        let from = from.max(whole.from);
        Some(Self {
            from,
            to: from.checked_add(length).ok()?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn at(second: i64) -> Timestamp {
        Timestamp::from_second(second).unwrap()
    }

    fn stretch(from: i64, to: i64) -> Stretch {
        Stretch {
            from: at(from),
            to: at(to),
        }
    }

    #[test]
    fn what_is_pointed_at_stays_under_the_pointer() {
        let whole = stretch(0, 8_000);
        let closer = whole.closer(whole, 2.0, at(2_000)).unwrap();
        // A quarter of the way along before and after.
        assert_eq!(closer, stretch(1_000, 5_000));
        let again = closer.closer(whole, 4.0, at(2_000)).unwrap();
        assert_eq!(again, stretch(1_750, 2_750));
        let wider = again.closer(whole, 0.25, at(2_000)).unwrap();
        assert_eq!(wider, closer);
        assert_eq!(wider.closer(whole, 0.5, at(2_000)), None);
    }

    #[test]
    fn there_is_an_end_to_it() {
        let whole = stretch(0, 8_000);
        let least = whole.closer(whole, 1e9, at(10)).unwrap();
        assert_eq!(least.length(), LEAST);
        assert_eq!(least.moved(whole, -5.0).unwrap().from, at(0));
        assert_eq!(least.moved(whole, 1e6).unwrap().to, at(8_000));
        for senseless in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(whole.closer(whole, senseless, at(10)), None);
        }
    }

    proptest! {
        #[test]
        fn it_never_leaves_the_whole(
            steps in prop::collection::vec((0.2f64..5.0, 0i64..90_000, -2.0f64..2.0), 1..30),
        ) {
            let whole = stretch(0, 90_000);
            let mut shown = whole;
            for (factor, about, share) in steps {
                shown = shown.closer(whole, factor, at(about)).unwrap_or(whole);
                shown = shown.moved(whole, share).unwrap_or(shown);
                prop_assert!(shown.from >= whole.from && shown.to <= whole.to);
                prop_assert!(shown.length() >= LEAST);
            }
        }
    }
}
