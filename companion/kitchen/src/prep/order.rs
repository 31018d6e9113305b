//! How much of something to buy for the services to come, as whole packs.
//!
//! What services ask for is foretold, not averaged: of n past nights with mean m and standard
//! deviation s, each a share of its covers, the total of the next ones with covers c lies below
//! `m C + t s sqrt(sum of c^2 + C^2 / n)` five times in six, C being the sum of c and t Student's
//! with n - 1 degrees of freedom (G. J. Hahn and W. Q. Meeker, *Statistical Intervals*, prediction
//! of a future sample; from memory), s no less than [`super::par()`] takes nights to differ. Nights of several samples are added, and multiplied by what a
//! purchase must weigh for what is served of it, as independent figures; the degrees of freedom
//! are then those of F. E. Satterthwaite, *Biometrics Bulletin* 2 (1946), 110 (from memory). What
//! several dishes want of the same goods is taken to rise and fall together: their margins add.
//!
//! Nothing is made up: with no yield on record it is only known that no less is to be bought than
//! is served, and with a single past night or purchase nobody knows how far the next may lie.

use super::par::{ParError, PastService, SUFFICES, Yield, variance_of_nights};
use crate::units::{Amount, Measure};
use evenhand_protocol::Mass;
use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

/// Portions that services to come ask for.
#[derive(Debug, Clone, PartialEq)]
pub enum Asked {
    /// As the share of guests on past nights, for so many guests at each of some services.
    AsBefore {
        /// The past nights.
        past: Vec<PastService>,
        /// The covers of each service to come.
        covers: Vec<u32>,
    },
    /// So many, as was said.
    Exactly(u32),
}

/// How much of what is bought a portion takes.
#[derive(Debug, Clone, PartialEq)]
pub enum Each {
    /// So much, as bought.
    Takes(Amount),
    /// As much as its weight takes by the yield of purchases.
    Served {
        /// What a portion really weighs.
        portion: Mass,
        /// Food in hand that is ready to portion.
        ready: Mass,
        /// Purchases on record, each what was bought and what of it there was to serve.
        purchases: Vec<(Mass, Mass)>,
    },
}

/// What the portions of one dish ask for.
#[derive(Debug, Clone, PartialEq)]
pub struct DishNeed {
    /// Portions, of services whose samples have nothing to do with each other.
    pub asked: Vec<Asked>,
    /// Portions that are ready.
    pub ready: u32,
    /// How much a portion takes.
    pub each: Each,
}

/// How much of something is needed as bought, each figure as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GoodsNeed {
    /// What is likely: the mean.
    pub likely: Option<Amount>,
    /// What suffices five times in six.
    pub enough: Option<Amount>,
    /// It is likely no less than this, whatever is not known.
    pub at_least: Amount,
}

impl GoodsNeed {
    /// Exactly so much.
    #[must_use]
    pub const fn exactly(amount: Amount) -> Self {
        Self {
            likely: Some(amount),
            enough: Some(amount),
            at_least: amount,
        }
    }

    /// Not known at all, in that measure.
    #[must_use]
    pub fn not_known(measure: Measure) -> Self {
        Self {
            likely: None,
            enough: None,
            at_least: Amount::new(measure, 0.0),
        }
    }

    /// This and that together, in the measure of this.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        let add =
            |one: Amount, more: Amount| Amount::new(one.measure(), one.number() + more.number());
        let both = |one: Option<Amount>, more: Option<Amount>| Some(add(one?, more?));
        Self {
            likely: both(self.likely, other.likely),
            enough: both(self.enough, other.enough),
            at_least: add(self.at_least, other.at_least),
        }
    }

    /// Each figure said in another way.
    #[must_use]
    pub fn each(self, said: impl Fn(Amount) -> Amount) -> Self {
        Self {
            likely: self.likely.map(&said),
            enough: self.enough.map(&said),
            at_least: said(self.at_least),
        }
    }
}

/// A figure that is foreseen: its mean, and how far the next one may lie from it.
#[derive(Debug, Clone, Copy)]
struct Foreseen {
    mean: f64,
    /// `None` where that is not known.
    variance: Option<f64>,
    /// Degrees of freedom of the variance.
    freedom: f64,
}

impl Foreseen {
    const fn exactly(mean: f64) -> Self {
        Self {
            mean,
            variance: Some(0.0),
            freedom: f64::INFINITY,
        }
    }

    /// The sum of the next figures of a sample, each times its weight; `None` of no sample.
    fn next(sample: &[f64], weights: &[f64]) -> Option<Self> {
        let n = sample.len() as f64;
        let mean = sample.iter().sum::<f64>() / n;
        let spread = sample.iter().map(|it| (it - mean).powi(2)).sum::<f64>() / (n - 1.0);
        Self::of_spread(sample, weights, (sample.len() > 1).then_some(spread))
    }

    /// What the next nights ask for together, each times its weight; `None` of no past night.
    fn nights(sample: &[f64], weights: &[f64]) -> Option<Self> {
        Self::of_spread(sample, weights, variance_of_nights(sample))
    }

    fn of_spread(sample: &[f64], weights: &[f64], spread: Option<f64>) -> Option<Self> {
        let n = sample.len() as f64;
        if sample.is_empty() {
            return None;
        }
        let mean = sample.iter().sum::<f64>() / n;
        let (all, squares) = weights
            .iter()
            .fold((0.0, 0.0), |(all, squares), w| (all + w, squares + w * w));
        Some(Self {
            mean: mean * all,
            variance: spread.map(|spread| spread * (squares + all * all / n)),
            freedom: n - 1.0,
        })
    }

    /// Degrees of freedom of a sum of variances.
    fn freedom_of(parts: [(f64, f64); 2]) -> f64 {
        let all: f64 = parts.iter().map(|(variance, _)| variance).sum();
        let each: f64 = parts
            .iter()
            .filter(|(variance, _)| *variance > 0.0)
            .map(|(variance, freedom)| variance * variance / freedom)
            .sum();
        if each > 0.0 {
            all * all / each
        } else {
            f64::INFINITY
        }
    }

    fn and(self, other: Self) -> Self {
        let parts = self.variance.zip(other.variance);
        Self {
            mean: self.mean + other.mean,
            variance: parts.map(|(one, more)| one + more),
            freedom: parts.map_or(0.0, |(one, more)| {
                Self::freedom_of([(one, self.freedom), (more, other.freedom)])
            }),
        }
    }

    fn times(self, other: Self) -> Self {
        let parts = self.variance.zip(other.variance).map(|(one, more)| {
            (
                one * other.mean.powi(2),
                more * self.mean.powi(2),
                one * more,
            )
        });
        Self {
            mean: self.mean * other.mean,
            variance: parts.map(|(one, more, both)| one + more + both),
            freedom: parts.map_or(0.0, |(one, more, _)| {
                Self::freedom_of([(one, self.freedom), (more, other.freedom)])
            }),
        }
    }

    fn scaled(self, by: f64) -> Self {
        self.times(Self::exactly(by))
    }

    fn less(self, by: f64) -> Self {
        Self {
            mean: self.mean - by,
            ..self
        }
    }

    /// What suffices five times in six.
    fn enough(self) -> Option<f64> {
        let deviation = self.variance?.sqrt();
        let by = if self.freedom.is_finite() {
            StudentsT::new(0.0, 1.0, self.freedom)
                .ok()?
                .inverse_cdf(SUFFICES)
        } else {
            Normal::standard().inverse_cdf(SUFFICES)
        };
        Some(self.mean + by * deviation)
    }
}

impl Asked {
    fn foreseen(&self) -> Result<Foreseen, ParError> {
        match self {
            Self::Exactly(portions) => Ok(Foreseen::exactly(f64::from(*portions))),
            Self::AsBefore { past, covers } => {
                let shares = past.iter().map(|one| one.share());
                let shares = shares.collect::<Result<Vec<_>, _>>()?;
                let covers: Vec<f64> = covers.iter().map(|covers| f64::from(*covers)).collect();
                Foreseen::nights(&shares, &covers).ok_or(ParError::NoPast)
            }
        }
    }
}

impl DishNeed {
    /// What it asks for, in the measure of what a portion takes: a weight, by the yield.
    ///
    /// # Errors
    /// [`ParError`] for a past or a purchase that makes no sense, and [`ParError::NoPast`] where
    /// nobody knows what services ask for.
    pub fn need(&self) -> Result<GoodsNeed, ParError> {
        let mut portions = Foreseen::exactly(0.0);
        for asked in &self.asked {
            portions = portions.and(asked.foreseen()?);
        }
        let portions = portions.less(f64::from(self.ready));
        let (measure, wanted, bought_for_served) = match &self.each {
            Each::Takes(amount) => {
                let wanted = portions.scaled(amount.number());
                return Ok(told(amount.measure(), Some(wanted), wanted.mean));
            }
            Each::Served {
                portion,
                ready,
                purchases,
            } => {
                if portion.micrograms() <= 0 {
                    return Err(ParError::BadTarget(portion.grams()));
                }
                let ratios = purchases.iter().map(|(bought, served)| {
                    Yield::measured(*bought, *served).map(|it| 1.0 / it.fraction())
                });
                let ratios = ratios.collect::<Result<Vec<_>, _>>()?;
                let wanted = portions.scaled(portion.grams()).less(ready.grams());
                (Measure::Mass, wanted, Foreseen::next(&ratios, &[1.0]))
            }
        };
        if wanted.mean <= 0.0 && wanted.enough().is_some_and(|enough| enough <= 0.0) {
            return Ok(GoodsNeed::exactly(Amount::new(measure, 0.0)));
        }
        let bought = bought_for_served.map(|ratio| wanted.times(ratio));
        Ok(told(
            measure,
            bought,
            bought.map_or(wanted.mean, |it| it.mean),
        ))
    }
}

fn told(measure: Measure, wanted: Option<Foreseen>, at_least: f64) -> GoodsNeed {
    let amount = |number| Amount::new(measure, number);
    GoodsNeed {
        likely: wanted.map(|it| amount(it.mean)),
        enough: wanted.and_then(Foreseen::enough).map(amount),
        at_least: amount(at_least),
    }
}

/// What is in hand as bought, in the measure of a pack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InHand {
    /// There is no less.
    pub least: Amount,
    /// There is no more; `None` where nobody counted it.
    pub most: Option<Amount>,
}

/// How many packs to order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Packs {
    /// So many at the least.
    pub from: u32,
    /// So many suffice five times in six, whatever is not known; `None` where nobody knows how
    /// many do.
    pub to: Option<u32>,
    /// What is likely left of them and of what is in hand; `None` where a number is not known.
    pub over: Option<Amount>,
}

impl Packs {
    /// How many to order, where that is a number.
    #[must_use]
    pub fn number(&self) -> Option<u32> {
        self.to.filter(|to| *to == self.from)
    }
}

/// How many packs to order for what is needed in all until the delivery after the next, of which
/// `after` is what the services ask for that the next delivery is there for. What is in hand goes
/// to the services before first; what they lack then is not made good by what comes later.
#[must_use]
pub fn packs(pack: Amount, all: &GoodsNeed, after: &GoodsNeed, in_hand: InHand) -> Packs {
    let wanted = |all: Amount, after: Amount, hand: Amount| {
        let beside = (all.number() - hand.number()).min(after.number());
        // A pack that lacks a billionth is a pack.
        (beside.max(0.0) / pack.number() - 1e-9).ceil() as u32
    };
    let enough = all.enough.zip(after.enough);
    let known = enough
        .or_else(|| all.likely.zip(after.likely))
        .unwrap_or((all.at_least, after.at_least));
    let from = in_hand
        .most
        .map_or(0, |most| wanted(known.0, known.1, most));
    let to = enough.map(|(all, after)| wanted(all, after, in_hand.least));
    let over = all.likely.filter(|_| to == Some(from)).map(|likely| {
        let there = in_hand.least.number() + f64::from(from) * pack.number();
        Amount::new(pack.measure(), there - likely.number())
    });
    Packs { from, to, over }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn night(covers: u32, portions: u32) -> PastService {
        PastService { covers, portions }
    }

    fn before(past: &[PastService], covers: &[u32]) -> Asked {
        Asked::AsBefore {
            past: past.to_vec(),
            covers: covers.to_vec(),
        }
    }

    fn g(grams: f64) -> Mass {
        Mass::from_fractional_grams(grams).unwrap()
    }

    fn pieces(number: f64) -> Amount {
        Amount::new(Measure::Pieces, number)
    }

    fn near(found: Option<Amount>, expected: f64) {
        let found = found.unwrap().number();
        assert!((found - expected).abs() < 1e-6, "{found}, not {expected}");
    }

    // By SciPy 1.17.1 (run for this): scipy.stats.t(3).ppf(5/6) and numpy's std(ddof=1) of the
    // shares 0.5, 0.7, 0.6, 0.5, put into the bound of the total of two next nights.
    #[test]
    fn two_services_that_one_sample_foretells() {
        let past = [night(40, 20), night(30, 21), night(30, 18), night(50, 25)];
        let need = DishNeed {
            asked: vec![before(&past, &[30, 40])],
            ready: 0,
            each: Each::Takes(pieces(1.0)),
        };
        let need = need.need().unwrap();
        near(need.likely, 40.25);
        near(need.enough, 46.972_739_208_167_32);
    }

    // As above: scipy.stats.t at Satterthwaite's 1.899 and 2.251 degrees of freedom. Two nights of
    // a hundred covers with three and two nights before them; of the food, 2, 2.2 and 1.9 kg were
    // bought for each kilogram served, 4 portions of 150 g and 900 g of ready food are in hand.
    #[test]
    fn services_of_two_samples_and_a_yield() {
        let friday = [night(100, 18), night(100, 24), night(100, 30)];
        let saturday = [night(100, 24), night(100, 36)];
        let asked = vec![before(&friday, &[100]), before(&saturday, &[100])];
        let plain = DishNeed {
            asked: asked.clone(),
            ready: 0,
            each: Each::Takes(pieces(1.0)),
        };
        near(plain.need().unwrap().enough, 70.047_476_883_168_37);
        let served = |purchases: &[(f64, f64)]| {
            let need = DishNeed {
                asked: asked.clone(),
                ready: 4,
                each: Each::Served {
                    portion: g(150.0),
                    ready: g(900.0),
                    purchases: purchases.iter().map(|it| (g(it.0), g(it.1))).collect(),
                },
            };
            need.need().unwrap()
        };
        let need = served(&[(2e3, 1e3), (2.2e3, 1e3), (1.9e3, 1e3)]);
        near(need.likely, 13_420.0);
        near(need.enough, 18_314.990_272_524_177);
        // With one purchase nobody knows how far the next may lie; with none, no more than that
        // the 6.6 kg to serve are no less as bought.
        let one = served(&[(2e3, 1e3)]);
        near(one.likely, 13_200.0);
        assert_eq!(one.enough, None);
        let none = served(&[]);
        assert_eq!((none.likely, none.enough), (None, None));
        near(Some(none.at_least), 6_600.0);
    }

    #[test]
    fn what_nobody_knows_is_not_made_up() {
        let each = || Each::Takes(pieces(1.0));
        let ask = |past: &[PastService]| {
            let asked = vec![before(past, &[30])];
            DishNeed {
                asked,
                ready: 0,
                each: each(),
            }
            .need()
        };
        assert_eq!(ask(&[]), Err(ParError::NoPast));
        assert_eq!(ask(&[night(30, 12)]).unwrap().enough, None);
        assert!(matches!(ask(&[night(0, 3)]), Err(ParError::BadPast { .. })));
        // More is ready than is ever asked for: nothing is needed, whatever the yield.
        let enough = DishNeed {
            asked: vec![Asked::Exactly(3)],
            ready: 5,
            each: Each::Served {
                portion: g(100.0),
                ready: Mass::ZERO,
                purchases: Vec::new(),
            },
        };
        near(enough.need().unwrap().enough, 0.0);
    }

    // By hand, in packs of 5 pieces. 18 likely and 23 enough in all, of which 8 and 11 after the
    // delivery.
    #[test]
    fn whole_packs_beside_what_is_in_hand() {
        let need = |likely: f64, enough: f64| GoodsNeed {
            likely: Some(pieces(likely)),
            enough: Some(pieces(enough)),
            at_least: pieces(likely),
        };
        let (all, after) = (need(18.0, 23.0), need(8.0, 11.0));
        let ordered = |least: f64, most: Option<f64>| {
            let hand = InHand {
                least: pieces(least),
                most: most.map(pieces),
            };
            let packs = packs(pieces(5.0), &all, &after, hand);
            (packs.from, packs.to, packs.over.map(Amount::number))
        };
        // 23 - 14 = 9 are two packs, and 14 + 10 - 18 are left.
        assert_eq!(ordered(14.0, Some(14.0)), (2, Some(2), Some(6.0)));
        assert_eq!(ordered(30.0, Some(30.0)), (0, Some(0), Some(12.0)));
        // What is lacking before it comes is not bought for after it: 11 are three packs.
        assert_eq!(ordered(0.0, Some(0.0)), (3, Some(3), Some(0.0)));
        // Counted before a service: 0 to 20 are in hand, so up to three packs.
        assert_eq!(ordered(0.0, Some(20.0)), (1, Some(3), None));
        assert_eq!(ordered(0.0, None), (0, Some(3), None));
        let unknown = GoodsNeed {
            enough: None,
            ..all
        };
        let hand = InHand {
            least: pieces(4.0),
            most: Some(pieces(4.0)),
        };
        let packs = packs(pieces(5.0), &unknown, &unknown, hand);
        assert_eq!((packs.from, packs.to, packs.number()), (3, None, None));
    }
}
