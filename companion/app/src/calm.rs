//! A temperature that does not flicker.
//!
//! A converter tells the probe's temperature in steps of a quarter of a
//! degree. Between two of them it tells now one, now the other, some times a
//! second, and nothing has changed. What is shown stays until the probe has
//! moved by more than a step, or has told the same for a while.

use super::bench_view::ProbeView;
use evenhand_protocol::Temperature;
use std::time::{Duration, Instant};

/// More than one step of the coarsest converter, rounded to what is shown.
const STEP: i32 = 300;

/// How long a smaller change must last to be shown.
const LASTS: Duration = Duration::from_secs(2);

/// What is shown, and what might be.
#[derive(Debug, Clone, Copy, Default)]
pub struct Calm {
    shown: Option<Temperature>,
    candidate: Option<(Temperature, Instant)>,
}

impl Calm {
    /// What to show of the probe now.
    #[must_use]
    pub fn settle(&mut self, probe: ProbeView, now: Instant) -> ProbeView {
        let ProbeView::Reads(told) = probe else {
            *self = Self::default();
            return probe;
        };
        let Some(shown) = self.shown else {
            return self.show(told);
        };
        let moved = told.millicelsius().abs_diff(shown.millicelsius());
        if moved > STEP.unsigned_abs() {
            return self.show(told);
        }
        if moved == 0 {
            self.candidate = None;
            return ProbeView::Reads(shown);
        }
        match self.candidate {
            Some((candidate, since)) if candidate == told => {
                if now.saturating_duration_since(since) >= LASTS {
                    return self.show(told);
                }
            }
            _ => self.candidate = Some((told, now)),
        }
        ProbeView::Reads(shown)
    }

    fn show(&mut self, told: Temperature) -> ProbeView {
        self.shown = Some(told);
        self.candidate = None;
        ProbeView::Reads(told)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(calm: &mut Calm, millicelsius: i32, now: Instant) -> i32 {
        let reads = ProbeView::Reads(Temperature::from_millicelsius(millicelsius));
        match calm.settle(reads, now) {
            ProbeView::Reads(shown) => shown.millicelsius(),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn one_step_to_and_fro_is_not_shown() {
        let mut calm = Calm::default();
        let begun = Instant::now();
        for nth in 0..200_u32 {
            let now = begun + Duration::from_millis(100) * nth;
            let flickers = if nth % 2 == 0 { 2_500 } else { 2_800 };
            assert_eq!(told(&mut calm, flickers, now), 2_500);
        }
    }

    #[test]
    fn a_real_change_is_shown_at_once_and_a_small_one_when_it_lasts() {
        let mut calm = Calm::default();
        let now = Instant::now();
        assert_eq!(told(&mut calm, 2_500, now), 2_500);
        assert_eq!(told(&mut calm, 3_000, now), 3_000);
        assert_eq!(told(&mut calm, 3_200, now), 3_000);
        let later = now + Duration::from_millis(1_900);
        assert_eq!(told(&mut calm, 3_200, later), 3_000);
        let later = now + Duration::from_millis(2_000);
        assert_eq!(told(&mut calm, 3_200, later), 3_200);
    }

    #[test]
    fn after_a_fault_the_first_reading_is_shown() {
        let mut calm = Calm::default();
        let now = Instant::now();
        assert_eq!(told(&mut calm, 2_500, now), 2_500);
        assert_eq!(calm.settle(ProbeView::Unknown, now), ProbeView::Unknown);
        assert_eq!(told(&mut calm, 2_700, now), 2_700);
    }
}
