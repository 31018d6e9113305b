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
use super::whole::{product, quotient, root};

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
    /// Largest variance of a mean of [`PATIENT`] samples and more that is still
    /// called stable, in 1/16 count²: a noisy scale says so by its uncertainty.
    ample: i64,
}

impl Scale {
    /// From the standard uncertainty that is wanted, the wander, the vibration,
    /// and the standard uncertainty that is still put up with, each in
    /// [`PARTS`] of a count.
    pub(super) fn new(steadiness: i64, wander: i64, rough: i64, ample: i64) -> Self {
        // Beyond the whole range of a 24-bit converter a limit is none; so far, products with
        // it fit.
        let within = |counts: i64| counts.clamp(0, PARTS << 24);
        let squared = |counts: i64| {
            let counts = within(counts);
            product(counts, counts) / (PARTS * PARTS / Noise::UNIT)
        };
        Self {
            steadiness: squared(steadiness),
            wander: within(wander) / (PARTS / Noise::UNIT),
            rough: squared(rough),
            ample: squared(ample),
        }
    }

    /// The same wander as a variance, in 1/16 count².
    fn wander_squared(self) -> i64 {
        product(self.wander, self.wander) / Noise::UNIT
    }
}

/// Parts of a count that means and their uncertainties are given in.
pub(super) const PARTS: i64 = 256;

/// The filter's best knowledge after a sample.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Estimate {
    /// The load, in [`PARTS`] of a count.
    pub(super) mean: i64,
    /// Standard uncertainty of the mean, in the same.
    pub(super) uncertainty: u32,
    /// Whether the load stands still.
    pub(super) stable: bool,
    /// Whether it has been level for half as long as that takes.
    pub(super) calm: bool,
}

/// The filter.
#[derive(Debug, Clone)]
// In this order the fields in use are in reach of short instructions: 36 bytes of the emulated
// board's image.
// In this order of fields: 64 bytes less of the emulated board's flash.
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
    last: Option<i32>,
    noise: Noise,
    history: History,
}

/// A departure by so many standard deviations, squared, is a change of load. Seven tests at
/// 80 samples a second make two million an hour; Gaussian noise passes 5.5 less than once in
/// ten.
const DEPARTURE_SQUARED: i64 = 30;
/// The ends of a 24-bit converter's range; a sample beyond them counts as one there.
const RANGE: core::ops::RangeInclusive<i32> = -(1 << 23)..=1 << 23;
/// From so many samples on a mean is taken for stable as well as this scale can be: waiting
/// twice as long would make it better by a third only.
const PATIENT: usize = 64;
/// Suspect samples that are still taken for a spike.
const SPIKE: usize = 2;
/// Lengths of triangular means; multiples of four.
const TAPERED: [usize; 4] = [48, 64, 96, 128];

impl Filter {
    // Out of line: 24 bytes less of the emulated board's flash.
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
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn departs(sum1: i64, n1: usize, sum2: i64, n2: usize, variance: i64) -> bool {
        let (n1, n2) = (n1 as i64, n2 as i64);
        // |cross| past this is far beyond any noise; the square must fit. Neither product is
        // above 2^38.
        let cross = product(sum1, n2).wrapping_sub(product(sum2, n1));
        let cross = cross.clamp(-(1 << 31), (1 << 31) - 1);
        let variance = product(DEPARTURE_SQUARED, variance) / Noise::UNIT;
        let bound = product(variance, product(product(n1, n2), n1.wrapping_add(n2)));
        product(cross, cross) > bound.min(1 << 61)
    }

    /// Takes a sample.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn push(&mut self, sample: i32, limits: &Limits) -> Estimate {
        let sample = sample.clamp(*RANGE.start(), *RANGE.end());
        let mut previous = self.last.replace(sample);
        self.history.push(sample);
        self.len = self.len.wrapping_add(1).min(CAPACITY);
        let block = usize::from(limits.block);
        if self.noise.is_warm() && self.sort_out(sample, block) {
            // What came before was a spike.
            previous = None;
        }
        if self.suspects == 0 {
            if let Some(previous) = previous {
                self.noise.successive(sample.wrapping_sub(previous));
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
    fn sort_out(&mut self, sample: i32, block: usize) -> bool {
        let suspects = self.suspects.wrapping_add(1);
        let settled = self.len.saturating_sub(suspects);
        if settled == 0 {
            self.suspects = 0;
            return false;
        }
        let old = self.history.sum(suspects, settled);
        if Self::departs(old, settled, i64::from(sample), 1, self.noise.sample()) {
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
                    agree = agree.wrapping_add(1);
                }
                self.restart_with(agree);
            }
        } else if self.suspects > 0 {
            // They were a spike: take them out from under the newest sample.
            self.history.pop(suspects);
            self.history.push(sample);
            self.len = settled.wrapping_add(1);
            self.suspects = 0;
            return true;
        }
        false
    }

    /// Small changes show only in means: compares the newest few with all before them.
    fn look_for_change(&mut self, block: usize) {
        let mut late = 2_usize;
        // At most half of the length, which is at most [`CAPACITY`].
        while late <= self.len / 2 {
            let variance = if late / 4 >= block {
                self.noise.long()
            } else if late >= block {
                self.noise.short()
            } else {
                self.noise.sample().max(self.noise.short())
            };
            let early = self.len.saturating_sub(late);
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
            late <<= 1;
        }
    }

    /// How many of the `most` newest samples came after the change: where the means before
    /// and after differ most significantly.
    fn likeliest_change(&self, most: usize) -> usize {
        let step = (most / 8).max(1);
        let mut best = (0.0, most);
        let mut late = step;
        while late <= most {
            let early = self.len.saturating_sub(late);
            // In 1/64 count a mean of 24 bits has 30.
            let mean = |skip, n| quotient(self.history.sum(skip, n) << 6, n as i64) as i32;
            let difference = mean(late, early).wrapping_sub(mean(0, late)) as f32;
            let evidence = difference * difference * (early as u32 as f32) * (late as u32 as f32);
            if evidence > best.0 {
                best = (evidence, late);
            }
            late = late.wrapping_add(step);
        }
        best.1
    }

    /// Learns the noise of each scale from a load that stands still.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn learn(&mut self, block: usize) {
        // Counts of samples since; a block is at most 32 of them, a length at most
        // [`CAPACITY`].
        let history = &self.history;
        let long = block << 2;
        let half = block << 1;
        let due = |since: &mut usize, after: usize, needs: usize, len: usize| {
            *since = since.saturating_add(1);
            let due = *since >= after && len >= needs && needs <= CAPACITY;
            if due {
                *since = 0;
            }
            due
        };
        let apart = |n: usize| history.sum(0, n).wrapping_sub(history.sum(n, n));
        if due(&mut self.since_short, block, half, self.len) {
            self.noise.successive_short(apart(block), block as i64);
        }
        if due(&mut self.since_long, long, block << 3, self.len) {
            self.noise.successive_long(apart(long), long as i64);
        }
        if due(
            &mut self.since_tapered,
            half,
            half.wrapping_add(long),
            self.len,
        ) {
            let difference = history
                .triangle(0, half)
                .wrapping_sub(history.triangle(half, half));
            self.noise.successive_tapered(difference, half as i64);
        }
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn estimate(&self, limits: &Limits) -> Estimate {
        let block = usize::from(limits.block);
        let settled = self.len.saturating_sub(self.suspects).max(1);
        let skip = self.len.saturating_sub(settled);
        // Whole blocks, so that hum cancels; all there is while there is less than one.
        let window = match settled.checked_rem(block) {
            Some(over) if over < settled => settled.saturating_sub(over),
            _ => settled,
        };
        let variance = if window < block {
            self.noise.sample()
        } else if window / 4 < block {
            self.noise.short()
        } else {
            self.noise.long()
        };
        let mut estimate = Estimate {
            mean: quotient(
                product(self.history.sum(skip, window), PARTS),
                window as i64,
            ),
            uncertainty: deviation(variance, window),
            stable: false,
            calm: false,
        };
        if !self.noise.is_warm() || self.suspects > 0 {
            return estimate;
        }
        let patient = window >= PATIENT && self.noise_is_its_own(limits);
        let wander = limits.wander(estimate.uncertainty, patient);
        let level = self.is_level(window, wander);
        estimate.calm = level && window >= usize::from(limits.fewest) / 2;
        if level
            && window >= self.fewest(limits)
            && !self.noise.is_disturbed()
            && limits.is_steady(variance, window, patient)
        {
            estimate.stable = true;
            return estimate;
        }
        self.tapered(limits).unwrap_or(estimate)
    }

    /// Whether the noise is so large that waiting does not make a mean good, and the cell's
    /// or the converter's own: a vibration is large in samples and small in their means.
    fn noise_is_its_own(&self, limits: &Limits) -> bool {
        let short = self.noise.short();
        limits.scale.is_some_and(|scale| {
            short > product(scale.steadiness, PATIENT as i64)
                && product(short, 4) >= self.noise.sample()
        })
    }

    /// Whether the noise is the scale's own and so large that no mean is good enough.
    pub(super) fn is_too_noisy(&self, limits: &Limits) -> bool {
        let (sample, short) = (self.noise.sample(), self.noise.short());
        // A sway is the other way about: it is larger in means than in samples.
        self.noise.is_warm()
            && product(short, 4) >= sample
            && short <= product(sample, 4)
            && limits
                .scale
                .is_some_and(|scale| sample > product(scale.ample, CAPACITY as i64))
    }

    /// How long the load must have been still. A dish set down changes the load at once. A
    /// hand changes it for longer, and is nearly still where its force turns.
    // Out of line: 56 bytes less of the emulated board's flash.
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
            (fewest << 1).min(CAPACITY)
        } else {
            fewest
        }
    }

    /// Whether the load moved for longer than a fifth of a second before it came to rest.
    fn has_moved(&self, limits: &Limits) -> bool {
        self.unstable.saturating_sub(self.len) > usize::from(limits.block) << 1
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
            let quarter = length / 4;
            let worth = length.wrapping_sub(quarter);
            let mut uncertainty = deviation(variance, worth);
            let (trend, bend) = self.tapered_shape(quarter);
            if !within {
                // Half of either, from 1/16 count.
                let spread = product(
                    trend.saturating_abs().max(bend.saturating_abs()),
                    PARTS / Noise::UNIT / 2,
                );
                uncertainty = uncertainty.max(u32::try_from(spread).unwrap_or(u32::MAX));
            }
            let most = limits.wander(uncertainty, false);
            if limits.is_steady(variance, worth, false)
                && trend.saturating_abs() <= most
                && bend.saturating_abs() <= most
            {
                let half = length / 2;
                let weight = product(half as i64, half as i64);
                return Some(Estimate {
                    mean: quotient(product(self.history.triangle(0, half), PARTS), weight),
                    uncertainty,
                    stable: true,
                    calm: true,
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
        let total = product(self.history.sum(0, length), n);
        let most = product(scale.wander, product(product(3, n), all));
        // Half the variance is seven tenths of the deviation.
        if product(self.noise.recent(), 2) > scale.rough {
            return false;
        }
        let mut end = block.max(1);
        while end <= length {
            let sum = self.history.sum(end.saturating_sub(block), block);
            // Neither product is above 2^38.
            let apart = product(sum, all).wrapping_sub(total).saturating_abs();
            if product(apart, Noise::UNIT) > most {
                return false;
            }
            end = end.saturating_add(block.max(1));
        }
        true
    }

    /// Trend and bend of three triangular means, each of `quarter` half width and as much
    /// later than the one before, in 1/16 count.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn tapered_shape(&self, quarter: usize) -> (i64, i64) {
        // Each is below 2^36.
        let t0 = self.history.triangle(0, quarter);
        let t1 = self.history.triangle(quarter, quarter);
        let t2 = self.history.triangle(quarter << 1, quarter);
        let weight = product(quarter as i64, quarter as i64);
        let part = |apart, weight| quotient(product(apart, Noise::UNIT), weight);
        let (first, second) = (t0.wrapping_sub(t1), t1.wrapping_sub(t2));
        (
            part(t0.wrapping_sub(t2), weight),
            part(first.wrapping_sub(second), product(weight, 2)),
        )
    }

    /// Whether neither a trend nor a bend shows in the newest `window` samples: the halves,
    /// and the middle and the ends, agree within `most` (1/16 count).
    fn is_level(&self, window: usize, most: i64) -> bool {
        let quarter = window / 4;
        if quarter == 0 {
            return true;
        }
        // Sums of sums, of which none is above 2^31.
        let half = |skip: usize| self.history.sum(skip, quarter << 1);
        let newest = half(0);
        let middle = half(quarter);
        let all = newest.wrapping_add(half(quarter << 1));
        let most = product(most, (quarter << 1) as i64);
        let level = |part: i64| {
            let apart = (part << 1).wrapping_sub(all).saturating_abs();
            product(apart, Noise::UNIT) <= most
        };
        level(newest) && level(middle)
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

    /// How far a stable mean may wander, in [`PARTS`] of a count; 0 where the scale is
    /// not calibrated.
    #[cfg(feature = "careful")]
    pub(super) fn wander_in_parts(&self) -> i64 {
        self.scale
            .map_or(0, |scale| product(scale.wander, PARTS / Noise::UNIT))
    }

    /// Whether the mean of `n` samples of this variance is known well enough.
    fn is_steady(&self, variance: i64, n: usize, patient: bool) -> bool {
        self.scale.is_none_or(|scale| {
            let most = if patient {
                scale.ample
            } else {
                scale.steadiness
            };
            variance <= product(most, n as i64)
        })
    }

    /// The largest wander of a mean of this uncertainty (in [`PARTS`] of a count), in 1/16
    /// count. The halves of one differ by twice its uncertainty from noise alone.
    fn wander(&self, uncertainty: u32, patient: bool) -> i64 {
        let times = |n: i64| product(i64::from(uncertainty), n) / (PARTS / Noise::UNIT);
        match self.scale {
            None => times(10),
            Some(scale) if patient => scale.wander.max(times(5)),
            Some(scale) => scale.wander,
        }
    }
}

/// Standard deviation of the mean of `n` samples of a variance in 1/16 count², in [`PARTS`]
/// of a count.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn deviation(variance: i64, n: usize) -> u32 {
    let square = quotient(product(variance, PARTS * PARTS / Noise::UNIT), n as i64);
    root(square.unsigned_abs())
}
