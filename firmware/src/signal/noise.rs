//! How noisy the samples are, learnt while weighing.

/// Running estimates of the noise, robust against steps and spikes.
///
/// All are variances of one sample in 1/16 count², each as it shows at its own
/// scale: for white noise they are alike. Vibration is large from sample to
/// sample and small in longer means, hum vanishes from a tenth of a second on,
/// drift is the other way about. What a longer mean's uncertainty follows from
/// is the figure of its own scale. Contributions are clipped, so that a step in
/// load moves none of them by much.
#[derive(Debug, Clone)]
pub(super) struct Noise {
    /// From successive samples.
    sample: i64,
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
    seen: u8,
}

impl Learnt {
    /// Memory, in contributions.
    const MEMORY: u8 = 48;

    const fn new() -> Self {
        Self {
            variance: 0,
            seen: 0,
        }
    }

    fn learn(&mut self, square: i64) {
        let now = self.variance.max(Noise::FLOOR);
        let clipped = square.min(now * Noise::CLIP) * 10 / 9;
        self.seen = self.seen.saturating_add(1).min(Self::MEMORY);
        self.variance += (clipped - self.variance) / (i64::from(self.seen) + 1);
    }

    fn get(&self) -> i64 {
        let variance = self.variance.max(Noise::FLOOR);
        variance + variance * 2 / (i64::from(self.seen) + 2)
    }

    fn get_or(&self, other: &Self) -> i64 {
        if self.seen == 0 {
            other.get()
        } else {
            self.get()
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
    /// Contributions above so many times the estimate are clipped. That takes about a tenth
    /// off the mean of a chi-square of one degree of freedom; 10/9 puts it back.
    const CLIP: i64 = 4;
    /// Memory of the sample's noise, in samples.
    const MEMORY: u16 = 512;

    pub(super) const fn new() -> Self {
        Self {
            sample: 0,
            recent: 0,
            short: Learnt::new(),
            long: Learnt::new(),
            tapered: Learnt::new(),
            seen: 0,
            quiet: 0,
            most: Most::NONE,
        }
    }

    /// Sets what is still noise.
    pub(super) fn limit(&mut self, most: Most) {
        self.most = most;
    }

    /// Takes the difference of two successive samples.
    pub(super) fn successive(&mut self, difference: i64) {
        let bounded = difference.clamp(-(1 << 24), 1 << 24);
        let square = bounded * bounded * (Self::UNIT / 2);
        if self.seen < Self::WARM {
            let clipped = if self.seen < 4 {
                square
            } else {
                square.min(self.sample.max(Self::FLOOR) * Self::CLIP)
            };
            self.seen += 1;
            self.sample += (clipped - self.sample) / i64::from(self.seen);
            self.recent = self.sample;
            for scale in [&mut self.short, &mut self.long, &mut self.tapered] {
                scale.variance = self.sample;
            }
            return;
        }
        self.seen = self.seen.saturating_add(1);
        let now = self.sample.max(Self::FLOOR);
        self.recent += (square.min(now * 64) - self.recent) / 16;
        let clipped = square.min(now * Self::CLIP) * 10 / 9;
        let memory = i64::from(self.seen.min(Self::MEMORY));
        self.sample += (clipped - self.sample) / memory;
        self.sample = self.sample.min(self.most.sample);
        // Noise that has fallen far is believed sooner than noise that rises.
        if self.recent.max(Self::FLOOR) * 4 < self.sample {
            self.quiet += 1;
            if self.quiet >= 32 {
                self.sample = self.recent * 3 / 2;
                self.quiet = 0;
            }
        } else {
            self.quiet = 0;
        }
    }

    /// The variance of a sample that the difference of two sums of `n` speaks for; `None`
    /// where the difference is a disturbance.
    fn of_means(&self, difference: i64, n: i64) -> Option<i64> {
        let bounded = difference.clamp(-(1 << 28), 1 << 28);
        let variance = bounded * bounded / (2 * n) * Self::UNIT;
        (variance / n <= self.most.mean.saturating_mul(8)).then_some(variance)
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
        let bounded = difference.clamp(-(1 << 28), 1 << 28);
        self.tapered
            .learn(bounded * bounded / (n * n * n) * Self::UNIT);
    }

    /// Whether enough was seen for the figures to mean something.
    pub(super) const fn is_warm(&self) -> bool {
        self.seen >= Self::WARM
    }

    /// From successive samples; a little more than that while few were seen,
    /// so that chance does not make it too small.
    pub(super) fn sample(&self) -> i64 {
        let sample = self.sample.max(Self::FLOOR);
        sample + sample * i64::from(Self::WARM) / i64::from(self.seen.max(Self::WARM))
    }

    /// As it shows in means of a tenth of a second.
    pub(super) fn short(&self) -> i64 {
        self.short.get()
    }

    /// As it shows in means of four tenths of a second and more; in shorter
    /// ones until that is known.
    pub(super) fn long(&self) -> i64 {
        self.long.get_or(&self.short)
    }

    /// As it shows in triangular means; in short plain ones until that is known.
    pub(super) fn tapered(&self) -> i64 {
        self.tapered.get_or(&self.short)
    }

    /// Standard deviation of the last fifth of a second, in counts.
    pub(super) fn recent_deviation(&self) -> f64 {
        libm::sqrt(self.recent as f64 / Self::UNIT as f64)
    }

    /// Whether the last fifth of a second was far noisier than usual.
    pub(super) fn is_disturbed(&self) -> bool {
        self.recent > self.sample() * 4
    }
}
