//! The melt clock, as the bench screen shows it.

use super::words::{Language, say};
use evenhand_kitchen::melt::{Loss, Melt, MeltClock};
use evenhand_use_cases::review::words::grams;
use jiff::{SignedDuration, Timestamp};
use std::borrow::Cow;
use std::time::Duration;

/// The melt clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MeltView {
    /// How long the scoops have been out: `4 min`.
    pub out: String,
    /// What is left of the limit, or by how much it is passed.
    pub stands: String,
    /// Whether the limit is passed.
    pub over: bool,
}

/// What a load on the pan loses while it lies there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LossView {
    /// So much a minute, and within what: where there is little room.
    pub rate: String,
    /// So much so far, and so much a minute.
    pub told: String,
}

/// What a load loses; `None` where the readings do not tell it from standing still.
#[must_use]
pub fn losing(loss: &Loss, language: Language) -> Option<LossView> {
    loss.is_seen().then(|| {
        let (rate, within) = (grams(language, loss.a_minute), grams(language, loss.within));
        LossView {
            rate: say!(
                language,
                "melt-rate",
                rate = rate.trim_end_matches(" g"),
                within = within.clone()
            )
            .into_owned(),
            told: say!(
                language,
                "melt-losing",
                lost = grams(language, loss.lost),
                rate = rate,
                within = within
            )
            .into_owned(),
        }
    })
}

/// The clock at a moment.
#[must_use]
pub fn view(clock: &MeltClock, now: Timestamp, language: Language) -> MeltView {
    let (stands, over) = match clock.stands(now) {
        Melt::Left(left) => (
            say!(language, "melt-left", time = steps(left, language)),
            false,
        ),
        Melt::Over(over) => (
            say!(language, "melt-over", time = steps(over, language)),
            true,
        ),
    };
    MeltView {
        out: steps(clock.out(now), language).into_owned(),
        stands: stands.into_owned(),
        over,
    }
}

/// Whole minutes; of less than two, tens of seconds.
fn steps(d: SignedDuration, language: Language) -> Cow<'static, str> {
    let seconds = d.as_secs().max(0);
    if seconds < 120 {
        say!(language, "melt-seconds", seconds = seconds / 10 * 10)
    } else {
        say!(language, "melt-minutes", minutes = seconds / 60)
    }
}

/// When what is shown changes next.
#[must_use]
pub fn changes_in(clock: &MeltClock, now: Timestamp) -> Duration {
    let millis = |d: SignedDuration| i64::try_from(d.as_millis()).unwrap_or(i64::MAX).max(0);
    let step = |shown: i64| if shown < 120_000 { 10_000 } else { 60_000 };
    let out = millis(clock.out(now));
    let next_out = step(out) - out % step(out);
    let next_stands = match clock.stands(now) {
        // Counting down it changes when it falls under the step.
        Melt::Left(left) => {
            let left = millis(left);
            left % step(left) + 1
        }
        Melt::Over(over) => {
            let over = millis(over);
            step(over) - over % step(over)
        }
    };
    Duration::from_millis(next_out.min(next_stands).max(1).unsigned_abs())
}

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_protocol::Mass;

    #[test]
    fn it_changes_when_it_says_so_and_not_before() {
        let view = |clock: &MeltClock, now| super::view(clock, now, Language::English);
        let at = |ms: i64| Timestamp::from_millisecond(ms).unwrap();
        let clock = MeltClock::start(at(0), SignedDuration::from_mins(4)).unwrap();
        let mut now = 0;
        let mut shown = view(&clock, at(now));
        let mut changes = 0;
        while now < 600_000 {
            let wait = i64::try_from(changes_in(&clock, at(now)).as_millis()).unwrap();
            for between in [1, wait / 2, wait - 1] {
                if between > 0 && between < wait {
                    assert_eq!(view(&clock, at(now + between)), shown, "{now} + {between}");
                }
            }
            now += wait;
            let next = view(&clock, at(now));
            changes += u32::from(next != shown);
            shown = next;
        }
        assert!(shown.over);
        assert!(
            (20..80).contains(&changes),
            "{changes} pictures in ten minutes"
        );
        assert_eq!(view(&clock, at(130_000)).out, "2 min");
        assert_eq!(view(&clock, at(235_000)).stands, "0 s left");
    }

    #[test]
    fn a_loss_is_told_with_its_uncertainty_and_only_where_it_is_one() {
        let milligrams = Mass::from_milligrams;
        let loss = |a_minute, within| Loss {
            since: Timestamp::UNIX_EPOCH,
            lost: milligrams(2_400),
            a_minute: milligrams(a_minute),
            within: milligrams(within),
        };
        assert_eq!(losing(&loss(90, 120), Language::English), None);
        assert_eq!(losing(&loss(-800, 120), Language::English), None);
        let view = losing(&loss(800, 120), Language::English).unwrap();
        assert_eq!(view.rate, "0.80 ± 0.12 g/min");
        assert_eq!(
            view.told,
            "On the pan: 2.40 g lost so far, 0.80 g ± 0.12 g a minute."
        );
    }
}
