//! Made-up hands whose truth is known: how a portion differs from what the hand
//! goes for, in spreads, and how many of all lie below.

use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use rand_distr::{Distribution, Exp1, Gamma, StandardNormal, StandardUniform, StudentT};
use statrs::distribution::{ContinuousCDF, Gamma as GammaLaw, Normal, StudentsT};

/// A hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    Normal,
    /// Heavy tails: Student's t of four degrees.
    StudentFour,
    /// Skewed to light: minus a lognormal, sigma 0.5.
    LognormalLight,
    /// Skewed to heavy: lognormal, sigma 0.5.
    LognormalHeavy,
    /// Two hands whose levels lie 1.6 apart, each with a spread of 0.6.
    TwoHands,
    /// Heavy tails: Laplace.
    Laplace,
    /// One in twenty is from a hand five times as uneven.
    Wild,
    /// Skewed to heavy: gamma, shape 2.
    GammaHeavy,
    /// Skewed to light: minus a gamma, shape 3.
    GammaLight,
    /// Skewed to light: minus an exponential.
    ExponentialLight,
    Uniform,
    /// Normal, but what is under one spread below is topped up to just over that.
    ToppedUp,
    /// Nine in ten even, one in ten 1.5 lighter: a second hand that helps out.
    Helper,
}

/// What the constants of the aim were chosen on.
#[allow(dead_code)] // Not every program that shares these hands tunes.
pub const TUNING: [Hand; 5] = [
    Hand::Normal,
    Hand::StudentFour,
    Hand::LognormalLight,
    Hand::LognormalHeavy,
    Hand::TwoHands,
];
/// What is reported beside them.
#[allow(dead_code)] // Not every program that shares these hands reports all.
pub const REPORTING: [Hand; 8] = [
    Hand::Laplace,
    Hand::Wild,
    Hand::GammaHeavy,
    Hand::GammaLight,
    Hand::ExponentialLight,
    Hand::Uniform,
    Hand::ToppedUp,
    Hand::Helper,
];

fn normal_below(z: f64) -> f64 {
    Normal::standard().cdf(z)
}

/// Mean and standard deviation of a lognormal with sigma 0.5.
fn lognormal() -> (f64, f64) {
    let variance = 0.25_f64.exp();
    (variance.sqrt(), (variance * (variance - 1.0)).sqrt())
}

impl Hand {
    #[allow(dead_code)] // Not every program that shares these hands prints them.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Normal => "normal",
            Self::StudentFour => "t, 4 degrees",
            Self::LognormalLight => "lognormal to light",
            Self::LognormalHeavy => "lognormal to heavy",
            Self::TwoHands => "two hands",
            Self::Laplace => "Laplace",
            Self::Wild => "1 in 20 wild",
            Self::GammaHeavy => "gamma to heavy",
            Self::GammaLight => "gamma to light",
            Self::ExponentialLight => "exponential to light",
            Self::Uniform => "uniform",
            Self::ToppedUp => "topped up",
            Self::Helper => "1 in 10 by a lighter hand",
        }
    }

    pub fn draw(self, random: &mut ChaCha8Rng) -> f64 {
        let normal: f64 = StandardNormal.sample(random);
        let share: f64 = StandardUniform.sample(random);
        let exponential: f64 = Exp1.sample(random);
        match self {
            Self::Normal => normal,
            Self::StudentFour => StudentT::new(4.0).unwrap().sample(random) / 2.0_f64.sqrt(),
            Self::LognormalLight => -Self::LognormalHeavy.draw(random),
            Self::LognormalHeavy => {
                let (mean, deviation) = lognormal();
                ((0.5 * normal).exp() - mean) / deviation
            }
            Self::TwoHands => 0.6 * normal + if share < 0.5 { 0.8 } else { -0.8 },
            Self::Laplace => {
                let other: f64 = Exp1.sample(random);
                (exponential - other) / 2.0_f64.sqrt()
            }
            Self::Wild => normal * if share < 0.05 { 5.0 } else { 1.0 } / 2.2_f64.sqrt(),
            Self::GammaHeavy => {
                (Gamma::new(2.0, 1.0).unwrap().sample(random) - 2.0) / 2.0_f64.sqrt()
            }
            Self::GammaLight => {
                (3.0 - Gamma::new(3.0, 1.0).unwrap().sample(random)) / 3.0_f64.sqrt()
            }
            Self::ExponentialLight => 1.0 - exponential,
            Self::Uniform => (share - 0.5) * 12.0_f64.sqrt(),
            Self::ToppedUp if normal < -1.0 => -1.0 + 0.05 * share,
            Self::ToppedUp => normal,
            Self::Helper => 0.7 * normal - if share < 0.1 { 1.5 } else { 0.0 },
        }
    }

    /// The share of all below this.
    pub fn below(self, at: f64) -> f64 {
        match self {
            Self::Normal => normal_below(at),
            Self::StudentFour => StudentsT::new(0.0, 1.0, 4.0)
                .unwrap()
                .cdf(at * 2.0_f64.sqrt()),
            Self::LognormalLight => 1.0 - Self::LognormalHeavy.below(-at),
            Self::LognormalHeavy => {
                let (mean, deviation) = lognormal();
                let raw = at * deviation + mean;
                if raw <= 0.0 {
                    0.0
                } else {
                    normal_below(raw.ln() / 0.5)
                }
            }
            Self::TwoHands => f64::midpoint(
                normal_below((at - 0.8) / 0.6),
                normal_below((at + 0.8) / 0.6),
            ),
            Self::Laplace => {
                let scaled = at * 2.0_f64.sqrt();
                if scaled < 0.0 {
                    0.5 * scaled.exp()
                } else {
                    1.0 - 0.5 * (-scaled).exp()
                }
            }
            Self::Wild => {
                let scaled = at * 2.2_f64.sqrt();
                0.95 * normal_below(scaled) + 0.05 * normal_below(scaled / 5.0)
            }
            Self::GammaHeavy => {
                let raw = at * 2.0_f64.sqrt() + 2.0;
                GammaLaw::new(2.0, 1.0).unwrap().cdf(raw.max(0.0))
            }
            Self::GammaLight => {
                let raw = 3.0 - at * 3.0_f64.sqrt();
                1.0 - GammaLaw::new(3.0, 1.0).unwrap().cdf(raw.max(0.0))
            }
            Self::ExponentialLight => (at - 1.0).min(0.0).exp(),
            Self::Uniform => (at / 12.0_f64.sqrt() + 0.5).clamp(0.0, 1.0),
            Self::ToppedUp if at < -1.0 => 0.0,
            Self::ToppedUp if at < -0.95 => {
                normal_below(at) - normal_below(-1.0) * (-0.95 - at) / 0.05
            }
            Self::ToppedUp => normal_below(at),
            Self::Helper => 0.9 * normal_below(at / 0.7) + 0.1 * normal_below((at + 1.5) / 0.7),
        }
    }

    /// The mean of all.
    pub fn mean(self) -> f64 {
        match self {
            // Of a normal one above -1, the density at -1; and what was topped up.
            Self::ToppedUp => {
                (-0.5_f64).exp() / (2.0 * core::f64::consts::PI).sqrt() - 0.975 * normal_below(-1.0)
            }
            Self::Helper => -0.15,
            _ => 0.0,
        }
    }
}

/// The random numbers of a run, told apart by purpose.
pub fn random(purpose: u64, run: u64) -> ChaCha8Rng {
    let mut random = ChaCha8Rng::seed_from_u64(purpose);
    random.set_stream(run);
    random
}
