//! The mean of a load that may change at any moment.
//!
//! While the load stands still under white noise, the best estimate of it is
//! the mean of all samples since it last changed; nothing else reaches the
//! bound s/√n. So the filter keeps a growing mean and looks, at every sample
//! and at several scales, for evidence that the load has changed. When it has,
//! the mean starts again from the samples after the change.
//!
//! Means are taken over whole tenths of a second, where hum of 50 and 60 Hz
//! cancels. Where vibration stays, a triangular mean takes its place: it needs
//! a third more samples for the same white noise and leaves far less of a tone.

use super::history::{CAPACITY, History};
use super::noise::{Most, Noise};
use super::whole::product;

/// What the filter must achieve before it calls a load stable, in counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Limits {
    /// Samples in a tenth of a second.
    pub(super) block: u16,
    /// Fewest samples after a load that changed at once, a dish set down.
    pub(super) fewest: u16,
    /// Fewest samples after a load that moved for longer, a hand or a spoon.
    pub(super) fewest_after_motion: u16,
    /// What mass says; `None` where the scale is not calibrated yet, and the
    /// noise alone decides.
    pub(super) scale: Option<Scale>,
}

/// Limits that are masses on the scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Scale {
    /// Largest variance of a stable mean, in 1/16 count².
    steadiness: i64,
    /// Largest trend over a stable mean, and largest bend in it, in 1/16
    /// count.
    wander: i64,
    /// Largest variance of a sample that still is noise, in 1/16 count².
    rough: i64,
}

impl Scale {
    /// From the standard uncertainty, the wander and the vibration, in counts.
    pub(super) fn new(steadiness: f64, wander: f64, rough: f64) -> Self {
        let unit = Noise::UNIT as f64;
        // Beyond the whole range of a 24-bit converter a limit is none; so far, products with
        // it fit.
        let range = f64::from(1 << 24);
        let squared = |counts: f64| {
            let counts = counts.clamp(0.0, range);
            (counts * counts * unit) as i64
        };
        Self {
            steadiness: squared(steadiness),
            wander: (wander.clamp(0.0, range) * unit) as i64,
            rough: squared(rough),
        }
    }

    /// The same wander as a variance, in 1/16 count².
    fn wander_squared(self) -> i64 {
        product(self.wander, self.wander) / Noise::UNIT
    }
}

/// The filter's best
/// The filter's best knowledge after a sample.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Estimate {
    /// The load, in counts.
    pub(super) mean: f64,
    /// Standard uncertainty of the mean, in counts.
    pub(super) uncertainty: f32,
    /// Whether the load stands still.
    pub(super) stable: bool,
}

/// The filter.
#[derive(Debug, Clone)]
#[repr(C)]
pub(super) struct Filter {
    /// Samples since the load last changed, at most [`CAPACITY`].
    len: usize,
    /// Samples since the last stable one.
    unstable: usize,
    /// Samples at the end of these that may be a spike or the start of a new load.
    suspects: usize,
    /// Samples since the noise of each scale was last learnt.
    since_short: usize,
    since_long: usize,
    since_tapered: usize,
    last: Option<i64>,
    noise: Noise,
    history: History,
}

/// A departure by so many standard deviations, squared, is a change of load. Seven tests at
/// 80 samples a second make two million an hour; Gaussian noise passes 5.5 less than once in
/// ten.
const DEPARTURE_SQUARED: i64 = 30;
/// Suspect samples that are still taken for a spike.
const SPIKE: usize = 2;
/// Lengths of triangular means; multiples of four.
const TAPERED: [usize; 4] = [48, 64, 96, 128];

impl Filter {
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn new(limits: &Limits) -> Self {
        Self {
            history: History::new(),
            len: 0,
            unstable: 0,
            suspects: 0,
            since_short: 0,
            since_long: 0,
            since_tapered: 0,
            last: None,
            noise: Noise::new(limits.noise()),
        }
    }

    /// Takes over what the scale's figures say of noise.
    pub(super) fn limit(&mut self, limits: &Limits) {
        self.noise.limit(limits.noise());
    }

    /// Forgets the load, keeps what is known of the noise.
    pub(super) fn restart(&mut self) {
        self.history.clear();
        self.restart_with(0);
        self.last = None;
    }

    fn restart_with(&mut self, len: usize) {
        self.len = len;
        self.suspects = 0;
        self.since_short = 0;
        self.since_long = 0;
        self.since_tapered = 0;
    }

    /// Whether two sums, of `n1` and `n2` samples, have means further apart than noise of
    /// this variance explains.
    fn departs(sum1: i64, n1: usize, sum2: i64, n2: usize, variance: i64) -> bool {
        let (n1, n2) = (n1 as i64, n2 as i64);
        // |cross| past this is far beyond any noise; the square must fit.
        let cross = (product(sum1, n2) - product(sum2, n1)).clamp(-(1 << 31), (1 << 31) - 1);
        let variance = product(DEPARTURE_SQUARED, variance) / Noise::UNIT;
        let bound = product(variance, product(product(n1, n2), n1 + n2));
        product(cross, cross) > bound.min(1 << 61)
    }

    /// Takes a sample.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn push(&mut self, sample: i64, limits: &Limits) -> Estimate {
        let mut previous = self.last.replace(sample);
        self.history.push(sample);
        self.len = (self.len + 1).min(CAPACITY);
        let block = usize::from(limits.block);
        if self.noise.is_warm() && self.sort_out(sample, block) {
            // What came before was a spike.
            previous = None;
        }
        if self.suspects == 0 {
            if let Some(previous) = previous {
                self.noise.successive(sample - previous);
            }
            if self.noise.is_warm() {
                self.look_for_change(block);
                self.learn(block);
            }
        }
        let estimate = self.estimate(limits);
        self.unstable = if estimate.stable {
            0
        } else {
            self.unstable.saturating_add(1)
        };
        estimate
    }

    /// Decides whether the newest sample belongs to the load so far, to a spike or to a new
    /// load. Returns whether a spike before it was taken out.
    fn sort_out(&mut self, sample: i64, block: usize) -> bool {
        let settled = self.len.saturating_sub(1 + self.suspects);
        if settled == 0 {
            self.suspects = 0;
            return false;
        }
        let suspects = self.suspects + 1;
        let old = self.history.sum(suspects, settled);
        if Self::departs(old, settled, sample, 1, self.noise.sample()) {
            if settled >= block.max(4) && suspects <= SPIKE {
                self.suspects = suspects;
            } else {
                // The suspects were the new load, as far as they agree with the newest.
                let mut agree = 1;
                while agree < suspects
                    && !Self::departs(
                        self.history.sum(agree, 1),
                        1,
                        self.history.sum(0, agree),
                        agree,
                        self.noise.sample(),
                    )
                {
                    agree += 1;
                }
                self.restart_with(agree);
            }
        } else if self.suspects > 0 {
            // They were a spike: take them out from under the newest sample.
            self.history.pop(suspects);
            self.history.push(sample);
            self.len = settled + 1;
            self.suspects = 0;
            return true;
        }
        false
    }

    /// Small changes show only in means: compares the newest few with all before them.
    fn look_for_change(&mut self, block: usize) {
        let mut late = 2;
        while late * 2 <= self.len {
            let variance = if late >= 4 * block {
                self.noise.long()
            } else if late >= block {
                self.noise.short()
            } else {
                self.noise.sample().max(self.noise.short())
            };
            let early = self.len - late;
            if Self::departs(
                self.history.sum(late, early),
                early,
                self.history.sum(0, late),
                late,
                variance,
            ) {
                self.restart_with(self.likeliest_change(late));
                return;
            }
            late *= 2;
        }
    }

    /// How many of the `most` newest samples came after the change: where the means before
    /// and after differ most significantly.
    fn likeliest_change(&self, most: usize) -> usize {
        let step = (most / 8).max(1);
        let mut best = (0.0, most);
        for late in (step..=most).step_by(step) {
            let early = self.len - late;
            let (n1, n2) = (early as f64, late as f64);
            let difference =
                self.history.sum(late, early) as f64 / n1 - self.history.sum(0, late) as f64 / n2;
            let evidence = difference * difference * n1 * n2;
            if evidence > best.0 {
                best = (evidence, late);
            }
        }
        best.1
    }

    /// Learns the noise of each scale from a load that stands still.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn learn(&mut self, block: usize) {
        let history = &self.history;
        self.since_short += 1;
        if self.since_short >= block && self.len >= 2 * block {
            let difference = history.sum(0, block) - history.sum(block, block);
            self.noise.successive_short(difference, block as i64);
            self.since_short = 0;
        }
        let long = 4 * block;
        self.since_long += 1;
        if self.since_long >= long && self.len >= 2 * long && 2 * long <= CAPACITY {
            let difference = history.sum(0, long) - history.sum(long, long);
            self.noise.successive_long(difference, long as i64);
            self.since_long = 0;
        }
        let half = 2 * block;
        self.since_tapered += 1;
        if self.since_tapered >= half && self.len >= 3 * half && 3 * half <= CAPACITY {
            let difference = history.triangle(0, half) - history.triangle(half, half);
            self.noise.successive_tapered(difference, half as i64);
            self.since_tapered = 0;
        }
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn estimate(&self, limits: &Limits) -> Estimate {
        let block = usize::from(limits.block);
        let settled = self.len.saturating_sub(self.suspects).max(1);
        let skip = self.len - settled.min(self.len);
        // Whole blocks, so that hum cancels; all there is while there is less than one.
        let window = if settled < block {
            settled
        } else {
            settled / block * block
        };
        let variance = if window < block {
            self.noise.sample()
        } else if window < 4 * block {
            self.noise.short()
        } else {
            self.noise.long()
        };
        let mut estimate = Estimate {
            mean: self.history.sum(skip, window) as f64 / window as f64,
            uncertainty: deviation(variance, window),
            stable: false,
        };
        if !self.noise.is_warm() || self.suspects > 0 {
            return estimate;
        }
        if window >= self.fewest(limits)
            && !self.noise.is_disturbed()
            && limits.is_steady(variance, window)
            && self.is_level(window, limits.wander(estimate.uncertainty))
        {
            estimate.stable = true;
            return estimate;
        }
        self.tapered(limits).unwrap_or(estimate)
    }

    /// How long the load must have been still. A dish set down changes the load at once. A
    /// hand changes it for longer, and is nearly still where its force turns.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn fewest(&self, limits: &Limits) -> usize {
        usize::from(if self.has_moved(limits) {
            limits.fewest_after_motion
        } else {
            limits.fewest
        })
    }

    /// The same for a triangular mean. Vibration hides the end of a slow sway, which must have
    /// time to show.
    fn fewest_tapered(&self, limits: &Limits) -> usize {
        let fewest = self.fewest(limits);
        if self.has_moved(limits) {
            (2 * fewest).min(CAPACITY)
        } else {
            fewest
        }
    }

    /// Whether the load moved for longer than a fifth of a second before it came to rest.
    fn has_moved(&self, limits: &Limits) -> bool {
        self.unstable.saturating_sub(self.len) > 2 * usize::from(limits.block)
    }

    /// A stable estimate by a triangular mean, where there is one.
    fn tapered(&self, limits: &Limits) -> Option<Estimate> {
        let held = self.history.len();
        for length in TAPERED.into_iter().rev() {
            // The longest may reach over what looked like changes: if they were, its level
            // test says so.
            let within = length <= self.len && !self.noise.is_disturbed();
            let over = length == CAPACITY && held >= length && self.is_calm(length, limits);
            if length < self.fewest_tapered(limits) || !(within || over) {
                continue;
            }
            // A triangle of this length weighs like a plain mean of three quarters of it.
            let variance = self.noise.tapered();
            let worth = length * 3 / 4;
            let mut uncertainty = deviation(variance, worth);
            let (trend, bend) = self.tapered_shape(length / 4);
            if !within {
                // In 1/32 count: half of either.
                let spread = trend.abs().max(bend.abs()) as f32 / (2 * Noise::UNIT) as f32;
                uncertainty = uncertainty.max(spread);
            }
            let most = limits.wander(uncertainty);
            if limits.is_steady(variance, worth) && trend.abs() <= most && bend.abs() <= most {
                let half = length / 2;
                return Some(Estimate {
                    mean: self.history.triangle(0, half) as f64 / (half * half) as f64,
                    uncertainty,
                    stable: true,
                });
            }
        }
        None
    }

    /// Whether the whole history shows nothing worse than a little vibration: no mean of a
    /// tenth of a second is far off, and samples scatter moderately. Larger shocks may have
    /// a mean of their own, and no filter can tell it from food.
    fn is_calm(&self, length: usize, limits: &Limits) -> bool {
        let Some(scale) = limits.scale else {
            return false;
        };
        let block = usize::from(limits.block);
        let (n, all) = (block as i64, length as i64);
        let total = self.history.sum(0, length);
        let most = product(scale.wander, product(3 * n, all));
        // Half the variance is seven tenths of the deviation.
        self.noise.recent() * 2 <= scale.rough
            && (0..length / block).all(|i| {
                let sum = self.history.sum(i * block, block);
                product((product(sum, all) - product(total, n)).abs(), Noise::UNIT) <= most
            })
    }

    /// Trend and bend of three triangular means, each of `quarter` half width and as much
    /// later than the one before, in 1/16 count.
    fn tapered_shape(&self, quarter: usize) -> (i64, i64) {
        let t = |i: usize| self.history.triangle(i * quarter, quarter);
        let (t0, t1, t2) = (t(0), t(1), t(2));
        let weight = (quarter * quarter) as i64;
        (
            product(t0 - t2, Noise::UNIT) / weight,
            product(t0 - t1 - (t1 - t2), Noise::UNIT) / (2 * weight),
        )
    }

    /// Whether neither a trend nor a bend shows in the newest `window` samples: the halves,
    /// and the middle and the ends, agree within `most` (1/16 count).
    fn is_level(&self, window: usize, most: i64) -> bool {
        let quarter = window / 4;
        if quarter == 0 {
            return true;
        }
        let q = |i: usize| self.history.sum(i * quarter, quarter);
        let (q0, q1, q2, q3) = (q(0), q(1), q(2), q(3));
        let most = product(most, 2 * quarter as i64);
        [q0 + q1 - q2 - q3, q0 + q3 - q1 - q2]
            .iter()
            .all(|apart| product(apart.abs(), Noise::UNIT) <= most)
    }
}

impl Limits {
    /// What is still noise.
    fn noise(&self) -> Most {
        self.scale.map_or(Most::NONE, |scale| Most {
            sample: scale.rough,
            mean: scale.wander_squared(),
        })
    }

    /// Whether the mean of `n` samples of this variance is known well enough.
    fn is_steady(&self, variance: i64, n: usize) -> bool {
        self.scale
            .is_none_or(|scale| variance <= product(scale.steadiness, n as i64))
    }

    /// The largest wander of a mean of this uncertainty, in 1/16 count.
    fn wander(&self, uncertainty: f32) -> i64 {
        self.scale.map_or_else(
            || (uncertainty * 10.0 * Noise::UNIT as f32) as i64,
            |scale| scale.wander,
        )
    }
}

/// Standard deviation of the mean of `n` samples of a variance in 1/16 count².
fn deviation(variance: i64, n: usize) -> f32 {
    libm::sqrtf(variance as f32 / (Noise::UNIT as f32 * n as f32))
}
