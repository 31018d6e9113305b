//! How noisy the samples are, learnt while weighing.

use super::whole::{product, quotient};

/// Running estimates of the noise, robust against steps and spikes.
///
/// All are variances of one sample in 1/16 count², each as it shows at its own
/// scale: for white noise they are alike. Vibration is large from sample to
/// sample and small in longer means, hum vanishes from a tenth of a second on,
/// drift is the other way about. What a longer mean's uncertainty follows from
/// is the figure of its own scale. Contributions are clipped, so that a step in
/// load moves none of them by much.
///
/// None is ever above 2^61: samples have 24 bits, and no limit ([`Most`]) is
/// above 2^52. So sums of two of them do not reach the end of their range.
#[derive(Debug, Clone)]
pub(super) struct Noise {
    /// From successive samples.
    learnt: i64,
    /// That, with allowance for how few were seen.
    stated: i64,
    /// The same over the last fifth of a second.
    recent: i64,
    /// From successive means of a tenth of a second.
    short: Learnt,
    /// From successive means of four tenths.
    long: Learnt,
    /// From successive triangular means.
    tapered: Learnt,
    seen: u16,
    quiet: u16,
    most: Most,
}

/// What is still noise, as variances in 1/16 count²; anything larger is a
/// disturbance, to be waited out and not to be learnt.
#[derive(Debug, Clone, Copy)]
pub(super) struct Most {
    /// Of a sample.
    pub(super) sample: i64,
    /// Of a mean of a tenth of a second and more.
    pub(super) mean: i64,
}

impl Most {
    /// No limit, for a scale whose counts mean nothing yet.
    pub(super) const NONE: Self = Self {
        sample: 1 << 50,
        mean: 1 << 50,
    };
}

#[derive(Debug, Clone)]
struct Learnt {
    variance: i64,
    /// That, with allowance for how few contributions it comes from.
    stated: i64,
    seen: u8,
}

impl Learnt {
    /// Memory, in contributions.
    const MEMORY: u8 = 48;

    const fn new() -> Self {
        Self {
            variance: 0,
            stated: 0,
            seen: 0,
        }
    }

    fn set(&mut self, variance: i64) {
        self.variance = variance;
        let floored = variance.max(Noise::FLOOR);
        let allowance = quotient(product(floored, 2), i64::from(self.seen).wrapping_add(2));
        self.stated = floored.wrapping_add(allowance);
    }

    fn learn(&mut self, square: i64) {
        let now = self.variance.max(Noise::FLOOR);
        self.seen = self.seen.saturating_add(1).min(Self::MEMORY);
        let change = Noise::clipped(square, now).wrapping_sub(self.variance);
        let part = quotient(change, i64::from(self.seen).wrapping_add(1));
        self.set(self.variance.wrapping_add(part));
    }

    fn stated_or(&self, other: &Self) -> i64 {
        if self.seen == 0 {
            other.stated
        } else {
            self.stated
        }
    }
}

impl Noise {
    /// 1/16 count², the unit of the variances.
    pub(super) const UNIT: i64 = 16;
    /// No converter is less noisy than its own rounding.
    const FLOOR: i64 = Self::UNIT / 4;
    /// Samples after which the estimate of the sample's noise is believed.
    const WARM: u16 = 16;
    /// Contributions above so many times the estimate are clipped.
    const CLIP: i64 = 4;
    /// Memory of the sample's noise, in samples: 2 to this power.
    const MEMORY_POWER: u32 = 9;

    pub(super) const fn new(most: Most) -> Self {
        Self {
            learnt: 0,
            stated: 0,
            recent: 0,
            short: Learnt::new(),
            long: Learnt::new(),
            tapered: Learnt::new(),
            seen: 0,
            quiet: 0,
            most,
        }
    }

    /// Sets what is still noise.
    pub(super) fn limit(&mut self, most: Most) {
        self.most = most;
    }

    /// A contribution, clipped. That takes about a tenth off the mean of a chi-square of one
    /// degree of freedom; 71/64 puts it back.
    fn clipped(square: i64, now: i64) -> i64 {
        product(square.min(product(now, Self::CLIP)), 71) >> 6
    }

    /// Takes the difference of two successive samples.
    pub(super) fn successive(&mut self, difference: i32) {
        let bounded = i64::from(difference);
        let square = product(product(bounded, bounded), Self::UNIT / 2);
        let now = self.learnt.max(Self::FLOOR);
        if self.seen < Self::WARM {
            let likely = if self.seen < 4 {
                square
            } else {
                square.min(product(now, Self::CLIP))
            };
            self.seen = self.seen.saturating_add(1);
            let part = quotient(likely.wrapping_sub(self.learnt), i64::from(self.seen));
            self.learnt = self.learnt.wrapping_add(part);
            self.recent = self.learnt;
            for scale in [&mut self.short, &mut self.long, &mut self.tapered] {
                scale.set(self.learnt);
            }
        } else {
            let rise = square.min(product(now, 64)).wrapping_sub(self.recent) >> 4;
            self.recent = self.recent.wrapping_add(rise);
            let change = Self::clipped(square, now).wrapping_sub(self.learnt);
            let seen = self.seen.saturating_add(1);
            self.seen = seen;
            let part = if seen >> Self::MEMORY_POWER == 0 {
                quotient(change, i64::from(seen))
            } else {
                change >> Self::MEMORY_POWER
            };
            self.learnt = self.learnt.wrapping_add(part).min(self.most.sample);
            self.forget_loud_noise();
        }
        let sample = self.learnt.max(Self::FLOOR);
        self.stated = if self.seen >> Self::MEMORY_POWER == 0 {
            let seen = i64::from(self.seen.max(Self::WARM));
            sample.wrapping_add(quotient(product(sample, i64::from(Self::WARM)), seen))
        } else {
            sample
        };
    }

    /// Noise that has fallen far is believed sooner than noise that rises.
    fn forget_loud_noise(&mut self) {
        if product(self.recent.max(Self::FLOOR), 4) >= self.learnt {
            self.quiet = 0;
            return;
        }
        self.quiet = self.quiet.saturating_add(1);
        if self.quiet >= 32 {
            self.learnt = product(self.recent, 3) / 2;
            self.quiet = 0;
        }
    }

    /// The variance of a sample that the difference of two sums of `n` speaks for; `None`
    /// where the difference is a disturbance.
    fn of_means(&self, difference: i64, n: i64) -> Option<i64> {
        self.unless_disturbed(difference, product(2, n), n)
    }

    /// The square of a difference over its weight; `None` where that of a mean
    /// of `n` samples is too large for noise.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn unless_disturbed(&self, difference: i64, weight: i64, n: i64) -> Option<i64> {
        let bounded = difference.clamp(-(1 << 28), 1 << 28);
        let variance = product(quotient(product(bounded, bounded), weight), Self::UNIT);
        (quotient(variance, n) <= product(self.most.mean, 8)).then_some(variance)
    }

    /// Takes the difference between the sums of two successive stretches of a
    /// tenth of a second, `n` samples each.
    pub(super) fn successive_short(&mut self, difference: i64, n: i64) {
        if let Some(square) = self.of_means(difference, n) {
            self.short.learn(square);
        }
    }

    /// The same for four tenths of a second.
    pub(super) fn successive_long(&mut self, difference: i64, n: i64) {
        if let Some(square) = self.of_means(difference, n) {
            self.long.learn(square);
        }
    }

    /// Takes the difference between two triangular sums of half width `n`, the
    /// one `n` later than the other.
    pub(super) fn successive_tapered(&mut self, difference: i64, n: i64) {
        // The weights' squares add up to 2/3 n³, and a quarter of that is shared by the two
        // (a cubic B-spline's values, 2/3 and 1/6): D² has the mean n³ v.
        if let Some(variance) = self.unless_disturbed(difference, product(product(n, n), n), n) {
            self.tapered.learn(variance);
        }
    }

    /// Whether enough was seen for the figures to mean something.
    pub(super) const fn is_warm(&self) -> bool {
        self.seen >= Self::WARM
    }

    /// From successive samples; like all of these a little more than was seen
    /// while little was seen, so that chance does not make it too small.
    pub(super) const fn sample(&self) -> i64 {
        self.stated
    }

    /// As it shows in means of a tenth of a second.
    pub(super) const fn short(&self) -> i64 {
        self.short.stated
    }

    /// As it shows in means of four tenths of a second and more; in shorter
    /// ones until that is known.
    pub(super) fn long(&self) -> i64 {
        self.long.stated_or(&self.short)
    }

    /// As it shows in triangular means; in short plain ones until that is known.
    pub(super) fn tapered(&self) -> i64 {
        self.tapered.stated_or(&self.short)
    }

    /// Of the last fifth of a second.
    pub(super) const fn recent(&self) -> i64 {
        self.recent
    }

    /// Whether the last fifth of a second was far noisier than usual.
    pub(super) fn is_disturbed(&self) -> bool {
        self.recent > product(self.stated, 4)
    }
}
