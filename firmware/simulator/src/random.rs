//! Every chance in the model, from one seed.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;
use rand_distr::{Distribution, Exp1, StandardNormal, StandardUniform};

/// What a stream of draws is for. Streams are independent, so that one more
/// draw in one of them leaves all others as they were.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Stream {
    Cell = 1,
    Portions = 2,
    Cook = 3,
    Surroundings = 4,
    Leans = 5,
    Bumps = 6,
    Footfalls = 7,
    Chopping = 8,
    Noise = 9,
    Walk = 10,
    Probe = 11,
    Events = 12,
    Dishes = 13,
    Link = 14,
    Flash = 15,
    Habits = 16,
    Contacts = 17,
    Drips = 18,
    Bursts = 19,
    Flicker = 20,
    Calibration = 21,
    Practice = 22,
}

/// A stream of draws.
#[derive(Debug, Clone)]
pub(crate) struct Draws(ChaCha8Rng);

impl Draws {
    pub(crate) fn new(seed: u64, stream: Stream) -> Self {
        let mut generator = ChaCha8Rng::seed_from_u64(seed);
        generator.set_stream(stream as u64);
        Self(generator)
    }

    /// Evenly from `low` to `high`.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        let part: f64 = StandardUniform.sample(&mut self.0);
        low + (high - low) * part
    }

    /// Normally, with mean 0 and standard deviation 1.
    pub(crate) fn normal(&mut self) -> f64 {
        StandardNormal.sample(&mut self.0)
    }

    /// The time until the next of something that happens at random, `rate`
    /// times a unit of time; for ever at a rate of zero.
    pub(crate) fn wait(&mut self, rate: f64) -> f64 {
        let unit: f64 = Exp1.sample(&mut self.0);
        if rate > 0.0 {
            unit / rate
        } else {
            f64::INFINITY
        }
    }

    /// Whether something happens that does so in this share of cases.
    pub(crate) fn chance(&mut self, share: f64) -> bool {
        self.between(0.0, 1.0) < share
    }

    /// A whole number from `low` to `high`, both included.
    pub(crate) fn whole(&mut self, low: f64, high: f64) -> usize {
        let (low, high) = (low.round().max(0.0), high.round().max(0.0));
        (self.between(low, high + 1.0).floor().min(high)) as usize
    }
}
