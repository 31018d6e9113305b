//! Made-up services whose truth is known: steady ones, and ones that drift or
//! step.
//!
//! Two families that share no distribution and no seed: [`TUNING`] is what the
//! method's constants were chosen on, [`REPORTING`] is what its rates are
//! reported on.

use evenhand_kitchen::statistics::DishCourse;
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use rand_distr::{Distribution, Exp1, Gamma, LogNormal, StandardNormal, StandardUniform, StudentT};

/// How one portion differs from the next, standardised to mean 0 and variance 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// Normal.
    Normal,
    /// Heavy tails: Student's t with four degrees of freedom.
    StudentFour,
    /// Skewed to heavy: lognormal, sigma 0.5.
    Lognormal,
    /// Heavy tails: Laplace.
    Laplace,
    /// One in twenty is from a hand five times as uneven.
    Contaminated,
    /// Skewed to heavy: gamma with shape 2.
    Gamma,
    /// Skewed to light: minus a gamma with shape 3.
    GammaLight,
    /// Even over a range.
    Uniform,
}

/// The families that the method's constants were chosen on.
#[allow(dead_code)] // Not every program that shares these worlds tunes.
pub const TUNING: [Hand; 3] = [Hand::Normal, Hand::StudentFour, Hand::Lognormal];
/// The families that its rates are reported on.
#[allow(dead_code)] // Not every program that shares these worlds reports all.
pub const REPORTING: [Hand; 5] = [
    Hand::Laplace,
    Hand::Contaminated,
    Hand::Gamma,
    Hand::GammaLight,
    Hand::Uniform,
];

impl Hand {
    /// What to call it in a table.
    #[allow(dead_code)] // Not every program that shares these worlds prints one.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Normal => "normal",
            Self::StudentFour => "t, 4 degrees",
            Self::Lognormal => "lognormal",
            Self::Laplace => "Laplace",
            Self::Contaminated => "1 in 20 wild",
            Self::Gamma => "gamma",
            Self::GammaLight => "gamma to light",
            Self::Uniform => "uniform",
        }
    }

    fn draw(self, random: &mut ChaCha8Rng) -> f64 {
        let normal = |random: &mut ChaCha8Rng| -> f64 { StandardNormal.sample(random) };
        match self {
            Self::Normal => normal(random),
            Self::StudentFour => StudentT::new(4.0).unwrap().sample(random) / 2.0_f64.sqrt(),
            Self::Lognormal => {
                let variance = 0.25_f64.exp();
                let raw = LogNormal::new(0.0, 0.5).unwrap().sample(random);
                (raw - variance.sqrt()) / (variance * (variance - 1.0)).sqrt()
            }
            Self::Laplace => {
                let (one, other): (f64, f64) = (Exp1.sample(random), Exp1.sample(random));
                (one - other) / 2.0_f64.sqrt()
            }
            Self::Contaminated => {
                let chance: f64 = StandardUniform.sample(random);
                let wide = if chance < 0.05 { 5.0 } else { 1.0 };
                normal(random) * wide / 2.2_f64.sqrt()
            }
            Self::Gamma => (Gamma::new(2.0, 1.0).unwrap().sample(random) - 2.0) / 2.0_f64.sqrt(),
            Self::GammaLight => {
                (3.0 - Gamma::new(3.0, 1.0).unwrap().sample(random)) / 3.0_f64.sqrt()
            }
            Self::Uniform => {
                let share: f64 = StandardUniform.sample(random);
                (share - 0.5) * 12.0_f64.sqrt()
            }
        }
    }
}

/// What happens to the portions of the night looked at, in spreads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fate {
    /// Nothing.
    Steady,
    /// Level for so many portions, then a climb of `rise` over each `over`.
    Drift {
        after: usize,
        rise: f64,
        over: usize,
    },
    /// Level for so many portions, then off by so much.
    Step { after: usize, by: f64 },
    /// Off by so much from the first.
    Off { by: f64 },
    /// So many times as uneven from the first.
    Uneven { times: f64 },
}

impl Fate {
    fn shift(self, place: usize) -> f64 {
        match self {
            Self::Steady | Self::Uneven { .. } => 0.0,
            Self::Drift { after, rise, over } => {
                rise * ((place + 1) as f64 - after as f64).max(0.0) / over as f64
            }
            Self::Step { after, by } => {
                if place >= after {
                    by
                } else {
                    0.0
                }
            }
            Self::Off { by } => by,
        }
    }
}

/// A kind of service.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct World {
    pub hand: Hand,
    /// Correlation of each portion with the next.
    pub alike: f64,
    /// How much nights differ, in spreads.
    pub night: f64,
    /// How much those of the first dish differ, where it is not as the others.
    pub night_of_first: Option<f64>,
    /// How many services there were before.
    pub before: usize,
    /// How many portions a night of one dish has.
    pub portions: usize,
    pub dishes: usize,
    /// How many hands share a night, one after the other, each with a level of
    /// its own that differs as nights do.
    pub hands: usize,
    /// Whether nights have half to one and a half times as many portions.
    pub varied: bool,
    /// What happens to the first dish.
    pub fate: Fate,
}

/// A service and those before it.
pub struct Service {
    dishes: Vec<(Vec<f64>, Vec<Vec<f64>>)>,
}

impl Service {
    pub fn courses(&self) -> Vec<DishCourse<'_>> {
        self.dishes
            .iter()
            .map(|(tonight, before)| DishCourse { tonight, before })
            .collect()
    }
}

impl World {
    /// One service of this kind.
    pub fn service(&self, random: &mut ChaCha8Rng) -> Service {
        let dishes = (0..self.dishes)
            .map(|dish| {
                let (differ, fate) = if dish == 0 {
                    (self.night_of_first.unwrap_or(self.night), self.fate)
                } else {
                    (self.night, Fate::Steady)
                };
                let before = (0..self.before)
                    .map(|_| self.night(random, differ, Fate::Steady))
                    .collect();
                (self.night(random, differ, fate), before)
            })
            .collect();
        Service { dishes }
    }

    fn night(&self, random: &mut ChaCha8Rng, differ: f64, fate: Fate) -> Vec<f64> {
        let levels: Vec<f64> = (0..self.hands)
            .map(|_| {
                let level: f64 = StandardNormal.sample(random);
                level * differ
            })
            .collect();
        let portions = if self.varied {
            let share: f64 = StandardUniform.sample(random);
            ((0.5 + share) * self.portions as f64) as usize
        } else {
            self.portions
        };
        let fresh = (1.0 - self.alike * self.alike).sqrt();
        let times = if let Fate::Uneven { times } = fate {
            times
        } else {
            1.0
        };
        let mut last = self.hand.draw(random);
        // A hand that has been at it for a while.
        for _ in 0..20 {
            last = self.alike * last + fresh * self.hand.draw(random);
        }
        (0..portions)
            .map(|place| {
                let level = levels[place * self.hands / portions];
                last = self.alike * last + fresh * self.hand.draw(random);
                // In hundredths of a gram, as a scale shows them; the spread is a gram.
                ((level + times * last + fate.shift(place)) * 100.0).round() / 100.0
            })
            .collect()
    }
}

/// The random numbers of a run, told apart by purpose.
pub fn random(purpose: u64, run: u64) -> ChaCha8Rng {
    let mut random = ChaCha8Rng::seed_from_u64(purpose);
    random.set_stream(run);
    random
}
