//! How often something may happen: a store of turns that fills up with time.

use std::time::{Duration, Instant};

/// Lets through a burst at once and then so many a second.
#[derive(Debug)]
pub(super) struct Rate {
    burst: f64,
    a_second: f64,
    left: f64,
    last: Option<Instant>,
}

impl Rate {
    pub(super) fn new(burst: u32, a_second: u32) -> Self {
        Self {
            burst: f64::from(burst),
            a_second: f64::from(a_second),
            left: f64::from(burst),
            last: None,
        }
    }

    /// Whether it may happen once more now.
    pub(super) fn allows(&mut self, now: Instant) -> bool {
        let passed = self
            .last
            .map_or(Duration::ZERO, |last| now.saturating_duration_since(last));
        self.last = Some(now);
        self.left = (self.left + passed.as_secs_f64() * self.a_second).min(self.burst);
        if self.left < 1.0 {
            return false;
        }
        self.left -= 1.0;
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_burst_passes_and_a_flood_does_not() {
        let mut rate = Rate::new(1_000, 10);
        let begun = Instant::now();
        // A million within ten seconds.
        let passed = (0..1_000_000_u64)
            .filter(|n| rate.allows(begun + Duration::from_micros(n * 10)))
            .count();
        assert!((1_099..=1_101).contains(&passed), "{passed}");
        // Quiet again, a whole burst passes again.
        let later = begun + Duration::from_secs(1_000);
        let again = (0..2_000).filter(|_| rate.allows(later)).count();
        assert_eq!(again, 1_000);
    }
}
