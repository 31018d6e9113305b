//! Noticing that this computer's clock was set.

use crate::live::Now;
use jiff::SignedDuration;

/// How far the wall's clock may drift from the steady one between two looks
/// before it counts as set.
const ALLOWED: SignedDuration = SignedDuration::from_secs(2);

/// Compares the wall's clock with the steady one.
#[derive(Debug, Clone, Copy)]
pub struct ClockWatch {
    last: Now,
}

impl ClockWatch {
    /// Begins to watch.
    #[must_use]
    pub const fn new(now: Now) -> Self {
        Self { last: now }
    }

    /// Looks at both clocks; by how much the wall's was set since the last
    /// look, if it was: negative when back.
    pub fn look(&mut self, now: Now) -> Option<SignedDuration> {
        let steady = now.steady.saturating_duration_since(self.last.steady);
        let steady = SignedDuration::try_from(steady).ok()?;
        let step = now.wall.duration_since(self.last.wall) - steady;
        self.last = now;
        (step.abs() > ALLOWED).then_some(step)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::Timestamp;
    use std::time::{Duration, Instant};

    #[test]
    fn a_clock_that_is_set_is_noticed_once() {
        let steady = Instant::now();
        let at = |passed: u64, wall: i64| Now {
            steady: steady + Duration::from_secs(passed),
            wall: Timestamp::from_second(wall).unwrap(),
        };
        let mut watch = ClockWatch::new(at(0, 1_000));
        assert_eq!(watch.look(at(10, 1_010)), None);
        assert_eq!(watch.look(at(20, 1_021)), None);
        assert_eq!(
            watch.look(at(21, 422)),
            Some(SignedDuration::from_secs(-600))
        );
        assert_eq!(watch.look(at(31, 432)), None);
        assert_eq!(
            watch.look(at(32, 4_033)),
            Some(SignedDuration::from_secs(3_600))
        );
    }
}
