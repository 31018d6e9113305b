//! Par and order: how many to portion, how much to start, how much to buy.
//!
//! Covers are a guess and so is the share of guests who take a dish; yields
//! are measured. The answer covers the guess with a margin taken from how far
//! recent services were from each other, and says what the margin was.
//!
//! A margin is a prediction of one evening, not of the mean: of n evenings with
//! standard deviation s the next lies below mean + t s sqrt(1 + 1/n) five times
//! in six, t being Student's with n - 1 degrees of freedom (G. J. Hahn and
//! W. Q. Meeker, *Statistical Intervals*, prediction of one future observation;
//! from memory).
//!
//! That holds of nights of one kind. Where a few past nights happen to be alike, or
//! feasts come among common nights, it would be too little. So nights are taken to
//! differ by no less than a fifth of their mean over sqrt(n - 1), which is chosen on
//! made-up nights (no source) and fades with n; and from five nights on by no less
//! than makes the next lie below the order statistic of rank 5/6 (n + 1), which
//! holds whatever the nights are distributed like (S. S. Wilks, *Annals of
//! Mathematical Statistics* 12 (1941), 91; from memory).

use evenhand_protocol::Mass;
use statrs::distribution::{ContinuousCDF, StudentsT};

/// How often the margin is to suffice: five evenings in six.
pub(super) const SUFFICES: f64 = 5.0 / 6.0;

/// From so many past nights on what suffices holds whatever kinds of nights there are.
pub const ENOUGH_NIGHTS: usize = 5;
/// By no less than this share of their mean do nights differ, over sqrt(n - 1).
const LEAST_SPREAD: f64 = 0.2;

/// The mean of some, and how far from the mean of so many the next one may lie five times in
/// six, in standard deviations; `None` for fewer than two.
fn mean_and_reach(of: &[f64]) -> Option<(f64, f64)> {
    let n = of.len() as f64;
    let freedom = StudentsT::new(0.0, 1.0, n - 1.0).ok()?;
    let reach = freedom.inverse_cdf(SUFFICES) * (1.0 + 1.0 / n).sqrt();
    Some((of.iter().sum::<f64>() / n, reach))
}

fn variance(of: &[f64], mean: f64) -> f64 {
    of.iter().map(|s| (s - mean).powi(2)).sum::<f64>() / (of.len() as f64 - 1.0)
}

/// How far above the mean of some the next one may lie; `None` for fewer than
/// two.
fn margin(of: &[f64]) -> Option<(f64, f64)> {
    let (mean, reach) = mean_and_reach(of)?;
    Some((mean, reach * variance(of, mean).sqrt()))
}

/// The same of what nights asked for.
fn margin_of_nights(nights: &[f64]) -> Option<(f64, f64)> {
    let (mean, reach) = mean_and_reach(nights)?;
    Some((mean, reach * variance_of_nights(nights)?.sqrt()))
}

/// By how much nights differ, as far as past ones tell: the variance; `None` for fewer than two.
pub(super) fn variance_of_nights(nights: &[f64]) -> Option<f64> {
    let (mean, reach) = mean_and_reach(nights)?;
    let n = nights.len() as f64;
    let few = (LEAST_SPREAD * mean).powi(2) / (n - 1.0);
    let ranked = ranked(nights).map_or(0.0, |bound| ((bound - mean) / reach).powi(2));
    Some(variance(nights, mean).max(few).max(ranked))
}

/// What the next night lies under five times in six, whatever nights are distributed like: between
/// the two that stand around rank 5/6 (n + 1).
fn ranked(nights: &[f64]) -> Option<f64> {
    if nights.len() < ENOUGH_NIGHTS {
        return None;
    }
    let mut sorted = nights.to_vec();
    sorted.sort_by(f64::total_cmp);
    // Ranks begin at one; the billionth is for what is whole.
    let rank = SUFFICES * (nights.len() as f64 + 1.0) + 1e-9;
    let below = *sorted.get(rank as usize - 1)?;
    let above = sorted.get(rank as usize).copied().unwrap_or(below);
    Some((rank - rank.floor()).mul_add(above - below, below).max(0.0))
}

/// The yield that purchases had, from what is bought to what is portioned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnownYield {
    /// All that was ready over all that was bought.
    pub likely: Yield,
    /// The next purchase yields more than this five times in six; `None` where
    /// that is not known: a single purchase, or ones too unlike each other.
    pub low: Option<Yield>,
}

impl KnownYield {
    /// A yield as somebody says it.
    #[must_use]
    pub const fn said(likely: Yield) -> Self {
        Self { likely, low: None }
    }

    /// Of purchases, each what was bought and what was ready of it; `None`
    /// without any.
    ///
    /// # Errors
    /// [`ParError::BadWeights`] where more was ready than bought.
    pub fn of_purchases(purchases: &[(Mass, Mass)]) -> Result<Option<Self>, ParError> {
        if purchases.is_empty() {
            return Ok(None);
        }
        let (mut bought, mut ready) = (Mass::ZERO, Mass::ZERO);
        let mut each = Vec::with_capacity(purchases.len());
        for (one_bought, one_ready) in purchases {
            each.push(Yield::measured(*one_bought, *one_ready)?.fraction());
            bought += *one_bought;
            ready += *one_ready;
        }
        Ok(Some(Self {
            likely: Yield::measured(bought, ready)?,
            low: margin(&each).and_then(|(mean, margin)| Yield::new(mean - margin).ok()),
        }))
    }
}

/// Food in hand, each in its own state.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stock {
    /// Trimmed and cooked, ready to portion.
    pub ready: Mass,
    /// As bought.
    pub as_bought: Mass,
}

impl Stock {
    /// Nothing.
    pub const NONE: Self = Self {
        ready: Mass::ZERO,
        as_bought: Mass::ZERO,
    };
}

/// A mass as bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AsBought {
    /// At the likely yield.
    pub likely: Mass,
    /// At the low yield: it suffices five times in six. `None` where that
    /// yield is not known.
    pub most: Option<Mass>,
}

/// A fraction that must be above 0 and at most 1, as yields are.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Yield(f64);

/// A question about par made no sense.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ParError {
    /// A yield is not above 0 and at most 1.
    #[error("the yield is {0}, expected above 0 and at most 1 (what is left over what was put in)")]
    BadYield(f64),
    /// What is left weighs more than what was put in, or nothing was.
    #[error("a yield of {left} g out of {put_in} g makes no sense")]
    BadWeights {
        /// What was left.
        left: f64,
        /// What was put in.
        put_in: f64,
    },
    /// The portion's target is not above zero.
    #[error("the portion's target is {0} g, expected above zero")]
    BadTarget(f64),
    /// A past service sold more portions than a thousand a cover.
    #[error("a past service with {portions} portions for {covers} covers makes no sense")]
    BadPast {
        /// Portions sold.
        portions: u32,
        /// Covers served.
        covers: u32,
    },
    /// No past service to learn the share of guests from.
    #[error("no past service of this dish: say how many portions a cover")]
    NoPast,
}

impl Yield {
    /// A yield as a fraction.
    ///
    /// # Errors
    /// [`ParError::BadYield`].
    pub fn new(fraction: f64) -> Result<Self, ParError> {
        if fraction > 0.0 && fraction <= 1.0 {
            Ok(Self(fraction))
        } else {
            Err(ParError::BadYield(fraction))
        }
    }

    /// What was left over what was put in.
    ///
    /// # Errors
    /// [`ParError::BadWeights`] where that is not above 0 and at most 1.
    pub fn measured(put_in: Mass, left: Mass) -> Result<Self, ParError> {
        Self::new(left.grams() / put_in.grams()).map_err(|_| ParError::BadWeights {
            left: left.grams(),
            put_in: put_in.grams(),
        })
    }

    /// As a fraction.
    #[must_use]
    pub const fn fraction(self) -> f64 {
        self.0
    }

    /// This step and then another.
    #[must_use]
    pub fn then(self, next: Self) -> Self {
        Self(self.0 * next.0)
    }
}

/// One past service of a dish.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PastService {
    /// Guests.
    pub covers: u32,
    /// Portions of the dish that left.
    pub portions: u32,
}

impl PastService {
    /// Portions a guest.
    pub(super) fn share(self) -> Result<f64, ParError> {
        if self.covers == 0 || self.portions / 1_000 >= self.covers {
            return Err(ParError::BadPast {
                portions: self.portions,
                covers: self.covers,
            });
        }
        Ok(f64::from(self.portions) / f64::from(self.covers))
    }
}

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct ParQuestion<'a> {
    /// Guests expected.
    pub covers: u32,
    /// Recent services of the dish, any order.
    pub past: &'a [PastService],
    /// What a portion weighs.
    pub target: Mass,
    /// From what is bought to what is portioned: trim, cook, press multiplied.
    /// `None` where none is on record.
    pub yields: Option<KnownYield>,
    /// Food in hand.
    pub stock: Stock,
    /// Portions that yesterday left, still good to serve by the kitchen's own
    /// rules.
    pub left: u32,
}

/// What to do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Par {
    /// Portions likely to be asked for.
    pub likely: u32,
    /// Portions to have ready: likely and the margin.
    pub ready: u32,
    /// Portions of those that are a margin.
    pub margin: u32,
    /// Portions still to make.
    pub to_make: u32,
    /// Food ready to portion that is still wanted, beside what is in hand ready.
    pub wanted_ready: Mass,
    /// Food as bought to start with for that. `None`: no yield is on record, so
    /// it is not known.
    pub to_start: Option<AsBought>,
    /// Food to buy, beside what is in hand as bought.
    pub to_order: Option<AsBought>,
}

/// What rounding in binary may add to a whole number of portions.
const ROUNDING: f64 = 1e-6;

/// Portions likely to be asked for, and portions to have ready, with the margin
/// of [`par`].
///
/// # Errors
/// [`ParError::BadPast`], and [`ParError::NoPast`] without a past service.
pub fn portions_ready(covers: u32, past: &[PastService]) -> Result<(u32, u32), ParError> {
    let shares = past.iter().map(|one| one.share());
    let shares = shares.collect::<Result<Vec<_>, _>>()?;
    let (mean, spread) = match shares[..] {
        [] => return Err(ParError::NoPast),
        [one] => (one, one / 10.0),
        _ => margin_of_nights(&shares).ok_or(ParError::NoPast)?,
    };
    let covers = f64::from(covers);
    // A share is at most a thousand and covers fit u32, so these fit too, saturating.
    let whole = |portions: f64| (portions - ROUNDING).ceil() as u32;
    let likely = whole(covers * mean);
    let ready = whole(covers * (mean + spread));
    Ok((likely, ready))
}

/// Works out par.
///
/// The margin suffices five evenings in six or more on made-up nights of several families, feasts
/// among common nights too (`ORDER-COVERAGE.md` has the table); it is most above that with two past
/// services of nights that are all alike;
/// with a single past service it is a tenth (an estimate, common practice, no
/// source).
///
/// # Errors
/// [`ParError`] for a question that makes no sense.
pub fn par(question: &ParQuestion<'_>) -> Result<Par, ParError> {
    if question.target.micrograms() <= 0 {
        return Err(ParError::BadTarget(question.target.grams()));
    }
    let (likely, ready) = portions_ready(question.covers, question.past)?;
    let to_make = ready.saturating_sub(question.left);
    let grams = f64::from(to_make) * question.target.grams();
    let wanted = Mass::from_fractional_grams(grams).unwrap_or(Mass::MAX);
    let wanted_ready = (wanted - question.stock.ready).max(Mass::ZERO);
    let to_start = if wanted_ready == Mass::ZERO {
        Some(AsBought {
            likely: Mass::ZERO,
            most: Some(Mass::ZERO),
        })
    } else {
        question.yields.map(|known| {
            let at = |by: Yield| {
                let grams = wanted_ready.grams() / by.fraction();
                Mass::from_fractional_grams(grams).unwrap_or(Mass::MAX)
            };
            AsBought {
                likely: at(known.likely),
                most: known.low.map(at),
            }
        })
    };
    let beside = |mass: Mass| (mass - question.stock.as_bought).max(Mass::ZERO);
    Ok(Par {
        likely,
        ready,
        margin: ready.saturating_sub(likely),
        to_make,
        wanted_ready,
        to_start,
        to_order: to_start.map(|start| AsBought {
            likely: beside(start.likely),
            most: start.most.map(beside),
        }),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn g(grams: i64) -> Mass {
        Mass::from_grams(grams)
    }

    // Worked by hand: shares 0.5 and 0.7, mean 0.6, standard deviation 0.1414; Student's t with one
    // degree of freedom is tan(pi (5/6 - 1/2)) = 1.7321 five times in six, times sqrt(1.5) makes a
    // margin of 0.3. 41 covers make ceil(24.6) = 25 likely and ceil(36.9) = 37 ready; 4 left, so 33
    // of 150 g, 4950 g. Of that 950 g are ready; 4000 g at a yield of 0.5 x 0.9 are 8889 g as
    // bought, and 889 g of those are there.
    #[test]
    fn a_braise_worked_by_hand() {
        let past = [
            PastService {
                covers: 40,
                portions: 20,
            },
            PastService {
                covers: 30,
                portions: 21,
            },
        ];
        let yields = Yield::measured(g(2000), g(1000))
            .unwrap()
            .then(Yield::new(0.9).unwrap());
        let question = ParQuestion {
            covers: 41,
            past: &past,
            target: g(150),
            yields: Some(KnownYield::said(yields)),
            stock: Stock {
                ready: g(950),
                as_bought: g(889),
            },
            left: 4,
        };
        let answer = par(&question).unwrap();
        assert_eq!((answer.likely, answer.ready, answer.to_make), (25, 37, 33));
        assert_eq!(answer.wanted_ready, g(4_000));
        let start = answer.to_start.unwrap();
        assert!((start.likely.grams() - 4_000.0 / 0.45).abs() < 1e-5);
        assert_eq!(start.most, None, "a yield that is said has no interval");
        let order = answer.to_order.unwrap().likely.grams();
        assert!((order - (4_000.0 / 0.45 - 889.0)).abs() < 1e-5);
        let unknown = par(&ParQuestion {
            yields: None,
            ..question
        });
        let unknown = unknown.unwrap();
        assert_eq!((unknown.to_start, unknown.to_order), (None, None));
    }

    // By hand, with SciPy 1.17.1's scipy.stats.t(df).ppf(5/6), run for this: 1.732051 at one degree of
    // freedom, 1.070480 at five. Two nights of 0.5 a guest do not differ: a fifth of 0.5 is taken,
    // times 1.732051 times sqrt(1.5), 0.2121 for each of 100, so 72. Of six nights, five of 0.5 and a
    // feast of 1.4, rank 5/6 (6 + 1) is 5.833: 0.5 + 0.8333 x 0.9 = 1.25, which is above the mean of
    // 0.65 and its 1.070480 x 0.3674 x sqrt(7/6), so 125.
    #[test]
    fn few_nights_and_nights_of_two_kinds_worked_by_hand() {
        let night = |portions| PastService {
            covers: 100,
            portions,
        };
        let ready = |of: &[u32]| {
            let past: Vec<PastService> = of.iter().map(|portions| night(*portions)).collect();
            portions_ready(100, &past).unwrap()
        };
        assert_eq!(ready(&[50, 50]), (50, 72));
        assert_eq!(ready(&[50, 50, 50, 50, 50, 140]), (65, 125));
        // In whatever order they stand.
        assert_eq!(ready(&[140, 50, 50, 50, 50, 50]), (65, 125));
        // The fifth fades: of four that are alike it is a fifth of 0.5 over sqrt(3).
        assert_eq!(ready(&[50; 4]), (50, 58));
    }

    // Yields 0.5 and 0.6 of equal purchases: mean 0.55, standard deviation 0.0707, so the next one
    // is above 0.55 - 1.7321 x 0.0707 x 1.2247 = 0.4 five times in six.
    #[test]
    fn a_yields_low_end_is_that_of_the_next_purchase() {
        let known = KnownYield::of_purchases(&[(g(1_000), g(500)), (g(1_000), g(600))]);
        let known = known.unwrap().unwrap();
        assert!((known.likely.fraction() - 0.55).abs() < 1e-9);
        assert!((known.low.unwrap().fraction() - 0.4).abs() < 1e-6);
        let one = KnownYield::of_purchases(&[(g(1_000), g(500))]).unwrap();
        assert_eq!(one.unwrap().low, None);
        assert_eq!(KnownYield::of_purchases(&[]), Ok(None));
        assert!(KnownYield::of_purchases(&[(g(100), g(101))]).is_err());
    }

    #[test]
    fn what_is_left_can_be_enough() {
        let past = [PastService {
            covers: 10,
            portions: 5,
        }];
        let answer = par(&ParQuestion {
            covers: 10,
            past: &past,
            target: g(30),
            yields: None,
            stock: Stock::NONE,
            left: 50,
        })
        .unwrap();
        // Nothing is to be made, so nothing is to be bought, whatever the yield.
        assert_eq!(answer.to_make, 0);
        assert_eq!(answer.to_order.unwrap().likely, Mass::ZERO);
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(Yield::new(0.0).is_err());
        assert!(Yield::new(1.01).is_err());
        assert!(Yield::new(f64::NAN).is_err());
        assert!(Yield::measured(g(0), g(0)).is_err());
        assert!(Yield::measured(g(100), g(101)).is_err());
        let ask = |past: &[PastService], target| {
            par(&ParQuestion {
                covers: 10,
                past,
                target,
                yields: None,
                stock: Stock::NONE,
                left: 0,
            })
        };
        assert_eq!(ask(&[], g(30)), Err(ParError::NoPast));
        let one = [PastService {
            covers: 0,
            portions: 5,
        }];
        assert!(matches!(ask(&one, g(30)), Err(ParError::BadPast { .. })));
        assert!(matches!(ask(&[], g(0)), Err(ParError::BadTarget(_))));
    }
}
