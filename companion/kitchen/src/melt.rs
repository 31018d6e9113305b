//! The melt clock: how long scoops have been out of the cold.

use jiff::{SignedDuration, Timestamp};

/// Time since the first scoop of a run left the cold, against a limit that the
/// cook sets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MeltClock {
    first_out: Timestamp,
    limit: SignedDuration,
}

/// The limit is not from ten seconds to two hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the melt limit is {} s, expected 10 s to 2 h", .0.as_secs())]
pub struct BadMeltLimit(pub SignedDuration);

/// How the scoops stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Melt {
    /// So much time is left.
    Left(SignedDuration),
    /// The limit passed so long ago: back into the cold before the next step.
    Over(SignedDuration),
}

impl MeltClock {
    /// Starts a clock.
    ///
    /// # Errors
    /// [`BadMeltLimit`] outside ten seconds to two hours.
    pub fn start(first_out: Timestamp, limit: SignedDuration) -> Result<Self, BadMeltLimit> {
        if limit < SignedDuration::from_secs(10) || limit > SignedDuration::from_hours(2) {
            return Err(BadMeltLimit(limit));
        }
        Ok(Self { first_out, limit })
    }

    /// The clock of a run: from the first of `portions` made after they last
    /// went back into the cold. `None` where there is none.
    ///
    /// # Errors
    /// As for [`MeltClock::start`].
    pub fn of_run(
        portions: impl IntoIterator<Item = Timestamp>,
        last_in_cold: Option<Timestamp>,
        limit: SignedDuration,
    ) -> Result<Option<Self>, BadMeltLimit> {
        portions
            .into_iter()
            .filter(|at| last_in_cold.is_none_or(|cold| *at > cold))
            .min()
            .map(|first| Self::start(first, limit))
            .transpose()
    }

    /// The limit.
    #[must_use]
    pub const fn limit(&self) -> SignedDuration {
        self.limit
    }

    /// When the time is up.
    #[must_use]
    pub fn until(&self) -> Timestamp {
        self.first_out
            .checked_add(self.limit)
            .unwrap_or(Timestamp::MAX)
    }

    /// How long they have been out; never negative, even when a clock is set
    /// back.
    #[must_use]
    pub fn out(&self, now: Timestamp) -> SignedDuration {
        now.duration_since(self.first_out).max(SignedDuration::ZERO)
    }

    /// How they stand now.
    #[must_use]
    pub fn stands(&self, now: Timestamp) -> Melt {
        let left = self.limit - self.out(now);
        if left.is_negative() {
            Melt::Over(left.abs())
        } else {
            Melt::Left(left)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_counts_down_and_then_up() {
        let zero = Timestamp::UNIX_EPOCH;
        let after = |s| zero + SignedDuration::from_secs(s);
        let clock = MeltClock::start(zero, SignedDuration::from_mins(6)).unwrap();
        assert_eq!(
            clock.stands(after(60)),
            Melt::Left(SignedDuration::from_mins(5))
        );
        assert_eq!(clock.stands(after(360)), Melt::Left(SignedDuration::ZERO));
        assert_eq!(
            clock.stands(after(420)),
            Melt::Over(SignedDuration::from_mins(1))
        );
        assert_eq!(
            clock.stands(after(-60)),
            Melt::Left(SignedDuration::from_mins(6))
        );
        assert!(MeltClock::start(zero, SignedDuration::ZERO).is_err());
    }

    #[test]
    fn back_in_the_cold_it_starts_again_with_the_next_scoop() {
        let at = |s| Timestamp::UNIX_EPOCH + SignedDuration::from_secs(s);
        let limit = SignedDuration::from_mins(6);
        let clock = |cold| MeltClock::of_run([at(10), at(40), at(700)], cold, limit).unwrap();
        assert_eq!(clock(None).unwrap().until(), at(370));
        assert_eq!(clock(Some(at(40))).unwrap().until(), at(1_060));
        assert_eq!(clock(Some(at(700))), None);
    }
}
