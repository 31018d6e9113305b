//! The mean of a load that may change at any moment.
//!
//! While the load stands still, the best estimate of it is the mean of all
//! samples since it last changed; nothing else reaches the bound s/√n. So the
//! filter keeps a growing mean and looks, at every sample and at several
//! scales, for evidence that the load has changed. When it has, the mean starts
//! again from the samples after the change.

use super::noise::Noise;

/// Most samples in a mean.
const CAPACITY: usize = 128;

/// What the filter must achieve before it calls a load stable, in counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Limits {
    /// Samples in a tenth of a second.
    pub(super) block: u16,
    /// Fewest samples.
    pub(super) fewest: u16,
    /// Largest standard uncertainty of the mean; `None` where the scale is not
    /// known yet, and the noise alone decides.
    pub(super) steadiness: Option<f64>,
    /// Largest difference between the halves of the mean.
    pub(super) wander: Option<f64>,
}

/// The filter's best knowledge after a sample.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Estimate {
    /// The load, in counts.
    pub(super) mean: f64,
    /// Standard uncertainty of the mean, in counts.
    pub(super) uncertainty: f64,
    /// Whether the load stands still.
    pub(super) stable: bool,
}

/// The filter.
#[derive(Debug, Clone)]
pub(super) struct Filter {
    /// Running sums: the entry after sample i is the sum of all up to it. They wrap
    /// together and only their differences are used.
    sums: [i64; CAPACITY + 1],
    /// Where the newest sum is.
    head: usize,
    /// Samples since the load last changed, at most [`CAPACITY`].
    len: usize,
    /// Samples at the end of these that may be a spike or the start of a new load.
    suspects: usize,
    /// Samples of this segment that the block noise has been learnt from.
    since_block: u16,
    last: Option<i64>,
    noise: Noise,
}

/// A departure by so many standard deviations is a change of load. Seven tests at 80
/// samples a second make two million an hour; Gaussian noise passes 5.5 less than once
/// in ten.
const DEPARTURE_SQUARED: i64 = 30;
/// Suspect samples that are still taken for a spike.
const SPIKE: usize = 2;

impl Filter {
    pub(super) const fn new() -> Self {
        Self {
            sums: [0; CAPACITY + 1],
            head: 0,
            len: 0,
            suspects: 0,
            since_block: 0,
            last: None,
            noise: Noise::new(),
        }
    }

    /// Forgets the load, keeps what is known of the noise.
    pub(super) fn restart(&mut self) {
        self.len = 0;
        self.suspects = 0;
        self.since_block = 0;
        self.last = None;
    }

    /// The sum of `count` samples that end `skip` before the newest.
    fn sum(&self, skip: usize, count: usize) -> i64 {
        let size = CAPACITY + 1;
        let end = (self.head + size - skip) % size;
        let start = (end + size - count) % size;
        self.sums[end].wrapping_sub(self.sums[start])
    }

    fn append(&mut self, sample: i64) {
        let next = (self.head + 1) % (CAPACITY + 1);
        self.sums[next] = self.sums[self.head].wrapping_add(sample);
        self.head = next;
        self.len = (self.len + 1).min(CAPACITY);
    }

    /// Whether the mean of the `late` newest samples departs from the mean of the `early`
    /// ones before them by more than noise of this variance explains.
    fn departs(&self, late: usize, early: usize, variance: i64) -> bool {
        let (n1, n2) = (early as i64, late as i64);
        let cross = self.sum(0, late) * n1 - self.sum(late, early) * n2;
        // |cross| past this is far beyond any noise; the square must fit.
        let cross = cross.clamp(-(1 << 31), (1 << 31) - 1);
        let bound =
            (DEPARTURE_SQUARED * variance / Noise::UNIT).saturating_mul(n1 * n2 * (n1 + n2));
        cross * cross > bound.min(1 << 61)
    }

    /// Takes a sample.
    pub(super) fn push(&mut self, sample: i64, limits: &Limits) -> Estimate {
        let previous = self.last.replace(sample);
        let block = usize::from(limits.block);
        self.append(sample);
        if !self.noise.is_warm() {
            if let Some(previous) = previous {
                self.noise.successive(sample - previous);
            }
            return self.estimate(limits, false);
        }
        let settled = self.len - 1 - self.suspects.min(self.len - 1);
        if settled == 0 {
            self.suspects = 0;
        } else {
            let suspects = self.suspects + 1;
            // Only the newest sample decides whether the load is back where it was.
            let n1 = settled as i64;
            let old = self.sum(suspects, settled);
            let cross = (sample * n1 - old).clamp(-(1 << 31), (1 << 31) - 1);
            let bound = (DEPARTURE_SQUARED * self.noise.sample() / Noise::UNIT)
                .saturating_mul(n1 * (n1 + 1));
            if cross * cross > bound.min(1 << 61) {
                if settled >= block && suspects <= SPIKE {
                    self.suspects = suspects;
                } else {
                    self.restart_with(1);
                }
            } else if self.suspects > 0 {
                self.drop_suspects(sample);
            }
        }
        if self.suspects == 0 {
            if let Some(previous) = previous {
                self.noise.successive(sample - previous);
            }
            self.look_for_change(block);
            self.learn_blocks(block);
        }
        self.estimate(limits, true)
    }

    /// The suspects were a spike: takes them out from under the newest sample.
    fn drop_suspects(&mut self, newest: i64) {
        let size = CAPACITY + 1;
        self.head = (self.head + size - self.suspects - 1) % size;
        self.len = self.len.saturating_sub(self.suspects + 1);
        self.suspects = 0;
        self.append(newest);
    }

    fn restart_with(&mut self, len: usize) {
        self.len = len;
        self.suspects = 0;
        self.since_block = 0;
    }

    /// Small changes show only in means; compares the newest few with all before them.
    fn look_for_change(&mut self, block: usize) {
        let mut late = 2;
        while late * 2 <= self.len {
            let variance = if late.is_multiple_of(block) {
                self.noise.block()
            } else {
                self.noise.sample().max(self.noise.block())
            };
            if self.departs(late, self.len - late, variance) {
                self.restart_with(late);
                return;
            }
            late *= 2;
        }
    }

    fn learn_blocks(&mut self, block: usize) {
        self.since_block = self.since_block.saturating_add(1);
        if usize::from(self.since_block) >= 2 * block && self.len >= 2 * block {
            let difference = self.sum(0, block) - self.sum(block, block);
            self.noise.successive_blocks(difference, block as i64);
            self.since_block = block as u16;
        }
    }

    fn estimate(&self, limits: &Limits, warm: bool) -> Estimate {
        let block = usize::from(limits.block);
        let settled = (self.len - self.suspects.min(self.len)).max(1);
        let skip = self.len - settled.min(self.len);
        // Whole blocks, so that hum cancels; all there is while there is less than one.
        let window = if settled < block {
            settled
        } else {
            settled / block * block
        };
        let mean = self.sum(skip, window) as f64 / window as f64;
        let variance = if window < block {
            self.noise.sample()
        } else {
            self.noise.block()
        };
        let variance = variance as f64 / Noise::UNIT as f64 / window as f64;
        let uncertainty = libm::sqrt(variance);
        let still = warm
            && self.suspects == 0
            && window >= usize::from(limits.fewest)
            && limits.steadiness.is_none_or(|most| uncertainty <= most)
            && !self.noise.is_disturbed()
            && self.is_level(window, limits.wander.unwrap_or(7.0 * uncertainty));
        Estimate {
            mean,
            uncertainty,
            stable: still,
        }
    }

    /// Whether neither a trend nor a bend shows in the newest `window` samples: the halves,
    /// and the middle and the ends, agree within `most`.
    fn is_level(&self, window: usize, most: f64) -> bool {
        let quarter = window / 4;
        if quarter == 0 {
            return true;
        }
        let q = |i: usize| self.sum(i * quarter, quarter);
        let (q0, q1, q2, q3) = (q(0), q(1), q(2), q(3));
        let scale = 2.0 * quarter as f64 * most;
        let trend = (q0 + q1 - q2 - q3) as f64;
        let bend = (q0 + q3 - q1 - q2) as f64;
        libm::fabs(trend) <= scale && libm::fabs(bend) <= scale
    }
}
