//! Rate and noise as measured, and counts of what went wrong.

use crate::drivers::Tally;
use crate::sensor::{BridgeFault, Counts};
use crate::signal::Chain;
use evenhand_protocol::{Diagnosis, Refusal, Report, StartReason, Uptime};

/// Conversions that a rate is measured over, and after which it is measured
/// anew.
const LEAST: u32 = 64;
const MOST: u32 = 1_024;
/// Differences that the noise is a mean of.
const DIFFERENCES: i64 = 64;
/// A difference from one conversion to the next that is larger is no noise, in
/// counts: a sample's noise is some tens.
const LARGEST: i64 = 4_095;
/// The square of a difference counts at most as so many times the mean: five
/// standard deviations. More is a load that moves.
const OUTLIER: i64 = 25;
/// Parts of a square count that the mean is kept in.
const PARTS: i64 = 256;

/// Conversions without a gap, by which the rate is measured.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    since: Uptime,
    periods: u32,
}

/// What was measured and counted so far.
#[derive(Debug, Clone)]
pub(crate) struct Health {
    asked: bool,
    stretch: Option<Stretch>,
    last: Option<Counts>,
    /// The mean square of the differences from one conversion to the next, in
    /// [`PARTS`] of a square count, and of how many.
    square: i64,
    differences: i64,
    /// What is told: counts are kept in their places.
    known: Diagnosis,
}

impl Health {
    pub(crate) fn new() -> Self {
        Self {
            asked: false,
            stretch: None,
            last: None,
            square: 0,
            differences: 0,
            known: Diagnosis::default(),
        }
    }

    /// A conversion came.
    pub(crate) fn conversion(&mut self, now: Uptime, counts: Counts) {
        let known = &mut self.known;
        known.conversions = known.conversions.saturating_add(1);
        let stretch = self.stretch.get_or_insert(Stretch {
            since: now,
            periods: 0,
        });
        let millis = now.since(stretch.since);
        if millis > 0 {
            stretch.periods = stretch.periods.saturating_add(1);
        }
        if stretch.periods >= LEAST && millis > 0 {
            let rate = u64::from(stretch.periods).saturating_mul(1_000_000) / millis;
            known.rate_millihertz = u32::try_from(rate).ok();
        }
        if stretch.periods >= MOST {
            self.stretch = None;
        }
        if let Some(last) = self.last.replace(counts) {
            self.difference(i64::from(counts.0) - i64::from(last.0));
        }
    }

    fn difference(&mut self, difference: i64) {
        let difference = difference.clamp(-LARGEST, LARGEST);
        let mut square = difference * difference * PARTS;
        if self.differences >= DIFFERENCES / 2 {
            square = square.min(self.square.max(PARTS).saturating_mul(OUTLIER));
        }
        self.differences = (self.differences + 1).min(DIFFERENCES);
        self.square += (square - self.square) / self.differences;
    }

    pub(crate) fn bridge_fault(&mut self, fault: BridgeFault) {
        self.stretch = None;
        self.last = None;
        let known = &mut self.known;
        known.bridge_faults = known.bridge_faults.saturating_add(1);
        if fault == BridgeFault::Timeout {
            known.bridge_timeouts = known.bridge_timeouts.saturating_add(1);
        }
    }

    pub(crate) const fn probe_fault(&mut self) {
        self.known.probe_faults = self.known.probe_faults.saturating_add(1);
    }

    pub(crate) const fn tally(&mut self, tally: Tally) {
        self.known.bridge_restarts = tally.restarts;
        self.known.doubtful_reads = tally.doubtful;
    }

    /// What the board knows of itself.
    pub(crate) const fn board(&mut self, start: StartReason, stack_free: Option<u32>) {
        self.known.start = start;
        self.known.stack_free = stack_free;
    }

    /// What the memory knows of itself.
    #[cfg(feature = "storage")]
    pub(crate) const fn flash(&mut self, pages: u16, erases: u32) {
        self.known.flash_pages = pages;
        self.known.flash_erases = erases;
    }

    /// Somebody wants to know.
    pub(crate) const fn ask(&mut self) -> Result<(), Refusal> {
        self.asked = true;
        Ok(())
    }

    /// What is to be told, where somebody asked.
    pub(crate) fn report(&mut self, now: Uptime, chain: &Chain) -> Option<Report> {
        if !core::mem::take(&mut self.asked) {
            return None;
        }
        // A difference has the noise of two conversions.
        let millicounts =
            (self.square.max(0).cast_unsigned() * 1_000_000 / (2 * PARTS as u64)).isqrt();
        let gram = chain.calibration().map(|line| {
            let millicounts = libm::round(line.counts_per_gram().abs() * 1e3);
            // Saturates, as such conversions do.
            millicounts as u32
        });
        Some(Report::Diagnosis(Diagnosis {
            at: now,
            noise_millicounts: (self.differences == DIFFERENCES)
                .then(|| u32::try_from(millicounts).unwrap_or(u32::MAX)),
            millicounts_per_gram: gram,
            ..self.known
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::Settings;

    fn told(health: &mut Health) -> Diagnosis {
        let chain = Chain::new(Settings::BENCH_1KG, None);
        assert_eq!(health.ask(), Ok(()));
        match health.report(Uptime::from_millis(9), &chain) {
            Some(Report::Diagnosis(told)) => told,
            other => panic!("{other:?}"),
        }
    }

    /// Noise of plus and minus 20 counts, and a load put on in the middle: the
    /// standard deviation of such a coin is 20.
    #[test]
    fn rate_and_noise_are_those_of_what_came_and_a_load_is_no_noise() {
        let mut health = Health::new();
        assert_eq!(told(&mut health).rate_millihertz, None);
        let mut coin: u32 = 1;
        for n in 0..800_u64 {
            coin = coin.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let noise = if coin >> 31 == 0 { 20 } else { -20 };
            let load = if n > 400 { 200_000 } else { 0 };
            let now = Uptime::from_millis(1_000 + n * 25 / 2);
            health.conversion(now, Counts(84_000 + load + noise));
        }
        let told = told(&mut health);
        assert_eq!(told.conversions, 800);
        let rate = told.rate_millihertz.unwrap();
        assert!((79_900..80_200).contains(&rate), "{rate}");
        let noise = told.noise_millicounts.unwrap();
        assert!((17_000..23_000).contains(&noise), "{noise}");
        assert_eq!(
            health.report(Uptime::default(), &Chain::new(Settings::BENCH_1KG, None)),
            None
        );
    }

    #[test]
    fn a_gap_is_no_slower_rate() {
        let mut health = Health::new();
        for n in 0..100 {
            health.conversion(Uptime::from_millis(n * 100), Counts(7));
        }
        health.bridge_fault(BridgeFault::Timeout);
        for n in 0..100 {
            health.conversion(Uptime::from_millis(60_000 + n * 100), Counts(7));
        }
        let told = told(&mut health);
        assert_eq!(told.rate_millihertz, Some(10_000));
        assert_eq!((told.bridge_faults, told.bridge_timeouts), (1, 1));
        assert_eq!(told.noise_millicounts, Some(0));
    }
}
