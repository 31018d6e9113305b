//! Far mode: whether somebody has touched the screen of late. Between portions nobody does, and what
//! is there to be touched gives its room to what is read from two metres.

use super::state::{Screen, State};
use std::time::{Duration, Instant};

/// How long after the last touch the controls go.
pub const GONE: Duration = Duration::from_secs(15);

/// When the screen was touched last.
#[derive(Debug, Clone, Copy, Default)]
pub struct LastTouch {
    touched: Option<Instant>,
}

impl LastTouch {
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
        && !state.kind.is_practice()
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
        let mut last_touch = LastTouch::default();
        assert!(!last_touch.gone(begun));
        assert!(!last_touch.gone(after(14_999)));
        assert!(last_touch.gone(after(15_000)));
        assert_eq!(last_touch.gone_in(after(15_000)), None);
        last_touch.touched(after(20_000));
        assert!(!last_touch.gone(after(20_000)));
        assert_eq!(
            last_touch.gone_in(after(21_000)),
            Some(Duration::from_secs(14))
        );
        assert!(last_touch.gone(after(35_000)));
    }
}
