//! Whether hands are at the screen. Between portions they are not, and what is
//! there to be touched gives its room to what is read from two metres.

use super::state::{Screen, State};
use std::time::{Duration, Instant};

/// How long after the last touch the controls go.
pub const GONE: Duration = Duration::from_secs(15);

/// When the screen was touched last.
#[derive(Debug, Clone, Copy, Default)]
pub struct Hands {
    touched: Option<Instant>,
}

impl Hands {
    /// It is touched now.
    pub const fn touched(&mut self, now: Instant) {
        self.touched = Some(now);
    }

    /// Whether the last touch is a while ago. That begins where this is first
    /// asked, as a screen that was never touched has a reader all the same.
    pub fn gone(&mut self, now: Instant) -> bool {
        let touched = *self.touched.get_or_insert(now);
        now.saturating_duration_since(touched) >= GONE
    }

    /// How long until it is; `None` where it is already.
    #[must_use]
    pub fn gone_in(&self, now: Instant) -> Option<Duration> {
        let left = match self.touched {
            Some(touched) => GONE.checked_sub(now.saturating_duration_since(touched))?,
            None => GONE,
        };
        (!left.is_zero()).then_some(left)
    }
}

/// Whether the screen may be shown without its controls: while portions are
/// made, and nothing waits for an answer.
#[must_use]
pub fn may_be_far(state: &State) -> bool {
    state.screen == Screen::Bench
        && state.bench.running().is_some()
        && state.undone.is_none()
        && state.complaint.is_none()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hands_are_gone_a_while_after_the_last_touch() {
        let begun = Instant::now();
        let after = |millis| begun + Duration::from_millis(millis);
        let mut hands = Hands::default();
        assert!(!hands.gone(begun));
        assert!(!hands.gone(after(14_999)));
        assert!(hands.gone(after(15_000)));
        assert_eq!(hands.gone_in(after(15_000)), None);
        hands.touched(after(20_000));
        assert!(!hands.gone(after(20_000)));
        assert_eq!(hands.gone_in(after(21_000)), Some(Duration::from_secs(14)));
        assert!(hands.gone(after(35_000)));
    }
}
