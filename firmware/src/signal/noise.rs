//! How noisy the samples are, learnt while weighing.

/// Running estimates of the noise, robust against steps and spikes.
///
/// Two figures are kept, both as a variance of one sample in 1/16 count². One
/// comes from successive samples and holds everything fast: white noise, hum,
/// a motor. The other comes from successive means of a tenth of a second, where
/// hum has cancelled; it is what the uncertainty of a longer mean follows from.
/// Contributions are clipped, so that a step in load moves neither by much.
#[derive(Debug, Clone, Copy)]
pub(super) struct Noise {
    sample: i64,
    recent: i64,
    block: i64,
    seen: u16,
    blocks_seen: u16,
    quiet: u16,
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
    /// Memory of the estimates, in samples and in blocks.
    const MEMORY: u16 = 512;
    const BLOCK_MEMORY: u16 = 64;

    pub(super) const fn new() -> Self {
        Self {
            sample: 0,
            recent: 0,
            block: 0,
            seen: 0,
            blocks_seen: 0,
            quiet: 0,
        }
    }

    /// Takes the difference of two successive samples.
    pub(super) fn successive(&mut self, difference: i64) {
        let bounded = difference.clamp(-(1 << 24), 1 << 24);
        let square = bounded * bounded * (Self::UNIT / 2);
        if self.seen < Self::WARM {
            // The smallest of the first few differences cannot be a step's; start from
            // a running mean of what is not far above the others.
            let clipped = if self.seen < 4 {
                square
            } else {
                square.min(self.sample.max(Self::FLOOR) * Self::CLIP)
            };
            self.seen += 1;
            self.sample += (clipped - self.sample) / i64::from(self.seen);
            self.recent = self.sample;
            self.block = self.sample;
            return;
        }
        self.seen = self.seen.saturating_add(1);
        let now = self.sample.max(Self::FLOOR);
        self.recent += (square.min(now * 64) - self.recent) / 16;
        // Clipping a chi-square of one degree of freedom at 4 takes about a tenth off its
        // mean; 10/9 puts it back.
        let clipped = square.min(now * Self::CLIP) * 10 / 9;
        let memory = i64::from(self.seen.min(Self::MEMORY));
        self.sample += (clipped - self.sample) / memory;
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

    /// Takes the difference between the sums of two successive blocks of `n`
    /// samples each.
    pub(super) fn successive_blocks(&mut self, difference: i64, n: i64) {
        let bounded = difference.clamp(-(1 << 27), 1 << 27);
        let square = bounded * bounded / (2 * n) * Self::UNIT;
        let now = self.block.max(Self::FLOOR);
        self.blocks_seen = self.blocks_seen.saturating_add(1);
        let memory = i64::from(self.blocks_seen.clamp(8, Self::BLOCK_MEMORY));
        self.block += (square.min(now * Self::CLIP) * 10 / 9 - self.block) / memory;
    }

    /// Whether enough was seen for the figures to mean something.
    pub(super) const fn is_warm(&self) -> bool {
        self.seen >= Self::WARM
    }

    /// Variance of a sample, in 1/16 count².
    pub(super) fn sample(&self) -> i64 {
        self.sample.max(Self::FLOOR)
    }

    /// Variance of a sample as it shows in means over whole blocks.
    pub(super) fn block(&self) -> i64 {
        self.block.max(Self::FLOOR)
    }

    /// Whether the last fifth of a second was far noisier than usual.
    pub(super) fn is_disturbed(&self) -> bool {
        self.recent > self.sample() * 4
    }
}
