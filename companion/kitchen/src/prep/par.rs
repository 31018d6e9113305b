//! Par and order: how many to portion, how much to start, how much to buy.
//!
//! Covers are a guess and so is the share of guests who take a dish; yields
//! are measured. The answer covers the guess with a margin taken from how far
//! recent services were from each other, and says what the margin was.

use evenhand_protocol::Mass;

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
    pub yields: Yield,
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
    /// Food to start with, before trimming and cooking, to make them.
    pub to_start: Mass,
}

/// Works out par.
///
/// The margin is one standard deviation of the portions a cover between past
/// services, about five evenings in six if evenings differ by chance alone;
/// with a single past service it is a tenth (an estimate, common practice, no
/// source).
///
/// # Errors
/// [`ParError`] for a question that makes no sense.
pub fn par(question: &ParQuestion<'_>) -> Result<Par, ParError> {
    if question.target.micrograms() <= 0 {
        return Err(ParError::BadTarget(question.target.grams()));
    }
    let mut shares = Vec::new();
    for past in question.past {
        if past.covers == 0 || past.portions / 1_000 >= past.covers {
            return Err(ParError::BadPast {
                portions: past.portions,
                covers: past.covers,
            });
        }
        shares.push(f64::from(past.portions) / f64::from(past.covers));
    }
    let n = shares.len() as f64;
    if shares.is_empty() {
        return Err(ParError::NoPast);
    }
    let mean = shares.iter().sum::<f64>() / n;
    let spread = if shares.len() > 1 {
        (shares.iter().map(|s| (s - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt()
    } else {
        mean / 10.0
    };
    let covers = f64::from(question.covers);
    // A share is at most a thousand and covers fit u32, so these fit too, saturating.
    let likely = (covers * mean).ceil() as u32;
    let ready = (covers * (mean + spread)).ceil() as u32;
    let to_make = ready.saturating_sub(question.left);
    let grams = f64::from(to_make) * question.target.grams() / question.yields.fraction();
    Ok(Par {
        likely,
        ready,
        margin: ready - likely,
        to_make,
        to_start: Mass::from_fractional_grams(grams).unwrap_or(Mass::MAX),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn g(grams: i64) -> Mass {
        Mass::from_grams(grams)
    }

    // Worked by hand: shares 0.5 and 0.7, mean 0.6, standard deviation 0.1414; 40 covers make
    // 24 likely and ceil(29.66) = 30 ready; 4 left, so 26 of 150 g at a yield of 0.5 x 0.9.
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
        let answer = par(&ParQuestion {
            covers: 40,
            past: &past,
            target: g(150),
            yields,
            left: 4,
        })
        .unwrap();
        assert_eq!((answer.likely, answer.ready, answer.to_make), (24, 30, 26));
        assert!((answer.to_start.grams() - 26.0 * 150.0 / 0.45).abs() < 1e-5);
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
            yields: Yield::new(1.0).unwrap(),
            left: 50,
        })
        .unwrap();
        assert_eq!((answer.to_make, answer.to_start), (0, Mass::ZERO));
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
                yields: Yield(1.0),
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
