//! When a converter that is read now and then is due.

/// The next read.
#[derive(Debug, Clone, Copy)]
pub(super) struct Schedule {
    /// The last call, to notice a clock that steps back.
    seen: u64,
    next: Option<u64>,
}

impl Schedule {
    /// Nothing is due until [`Schedule::due`] has been asked a first time.
    pub const fn new() -> Self {
        Self {
            seen: 0,
            next: None,
        }
    }

    /// Whether to read now: `first_after` microseconds after the first time this
    /// is asked, and at least `every` microseconds apart from then on.
    pub fn due(&mut self, now: u64, first_after: u64, every: u64) -> bool {
        let stepped_back = now < self.seen;
        self.seen = now;
        match self.next {
            Some(next) if stepped_back => {
                self.next = Some(next.min(now.saturating_add(every)));
                false
            }
            Some(next) if now < next => false,
            Some(_) => {
                self.next = Some(now.saturating_add(every));
                true
            }
            None => {
                self.next = Some(now.saturating_add(first_after));
                false
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_read_waits_and_the_others_keep_their_distance() {
        let mut schedule = Schedule::new();
        let due: std::vec::Vec<u64> = (0..1_000)
            .filter(|now| schedule.due(*now, 200, 100))
            .collect();
        assert_eq!(due, [200, 300, 400, 500, 600, 700, 800, 900]);
    }

    #[test]
    fn a_clock_that_steps_back_delays_one_read_at_most() {
        let mut schedule = Schedule::new();
        assert!(!schedule.due(1_000_000, 200, 100));
        assert!(schedule.due(1_000_200, 200, 100));
        assert!(!schedule.due(5, 200, 100));
        assert!(!schedule.due(104, 200, 100));
        assert!(schedule.due(105, 200, 100));
    }
}
