//! What to aim at, given the portions made and what short and heavy cost.
//!
//! The old filling problem: aim low and some are short, aim high and all give
//! food away. The spread is known from a sample only, so an aim by a share of
//! short portions is a tolerance bound, and one by cost leans on the prediction
//! of a further portion (Student's t). Where the portions are skewed, the light
//! side is held by the light half of them.

use super::interval::Confidence;
use super::{Sample, mass, tolerance_factor};
use evenhand_protocol::{Goal, Mass};
use statrs::distribution::{Continuous, ContinuousCDF, Normal, StudentsT};

/// Fewest portions that an aim is given on (common practice, no source).
pub const FEWEST_TO_AIM: usize = 10;

/// Why there is no aim to give.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum AimError {
    /// Too few portions to know the spread by.
    #[error("{0} portions that can be relied on, expected {FEWEST_TO_AIM} or more")]
    TooFew(usize),
    /// All portions weigh the same.
    #[error("the spread is not above zero, so there is nothing to weigh up")]
    NoSpread,
    /// A price is zero, negative or not a number.
    #[error("{0} must be a price above zero")]
    BadPrice(&'static str),
    /// A share is not between nought and a half.
    #[error("the share of short portions allowed is {0}, expected 0.0001 to below 0.5")]
    BadShare(f64),
    /// A gram of food costs so much against one short portion that no aim
    /// balances them: each gram less saves more than the short ones cost.
    #[error(
        "a short portion costs too little against the food for any aim to pay: check the two prices"
    )]
    ShortTooCheap,
    /// The aim that keeps short portions few enough lies above the tolerance.
    #[error("the spread does not fit this tolerance")]
    DoesNotFit(Misfit),
}

/// How a spread misses its tolerance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Misfit {
    /// The spread of the portions.
    pub spread: Mass,
    /// The aim that it would take, above the heaviest allowed.
    pub would_aim: Mass,
    /// The widest spread with which the target itself would do for an aim, at
    /// as many portions.
    pub fits_up_to: Mass,
}

/// What the prices are, in any one currency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShortCost {
    /// One gram of food.
    pub food_per_gram: f64,
    /// One short portion: made again, or a guest who minds. The kitchen's own
    /// estimate.
    pub short_portion: f64,
}

/// What an aim is sought by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AimBy {
    /// No more than this share of portions short, with a confidence of 95 %.
    Share(f64),
    /// The least cost of food and short portions together.
    Cost(ShortCost),
    /// As little as is promised: short portions are seen and topped up.
    ToppedUp,
}

/// What held the aim where it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeldBy {
    /// What it was sought by.
    Sought,
    /// What the guest is promised: what was sought lies lower.
    Promise,
    /// The portions as they are: no light ones come through, so more would only
    /// be given away.
    AsItIs,
}

/// What the light side of the portions looks like beside the heavy one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LightSide {
    /// Like the heavy side, as far as the sample shows.
    Like,
    /// It ends where short begins, or light portions are far fewer than heavy
    /// ones: as when light portions are topped up.
    CutOff,
    /// It reaches farther than the heavy side.
    Longer,
}

/// Where to aim, and what comes of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aim {
    /// The mean to aim for.
    pub aim: Mass,
    /// The share of further portions expected under the tolerance at that aim.
    pub short_share: f64,
    /// The share expected over the tolerance.
    pub heavy_share: f64,
    /// Food beyond the target, per portion on average; negative when under.
    pub given_away: Mass,
    /// What held it there.
    pub held_by: HeldBy,
    /// What the light side looks like.
    pub light_side: LightSide,
    /// How many portions it leans on.
    pub n: usize,
}

/// The portions as the aim sees them, in grams.
struct Portions {
    n: usize,
    mean: f64,
    spread: f64,
    /// The standard deviation of a normal distribution with this light half.
    light: f64,
    /// As `light`, of the heavy half.
    heavy: f64,
    /// The middle that the halves are about, from the mean.
    middle: f64,
    /// As many portions as the estimate of the light side is worth.
    worth: usize,
    light_side: LightSide,
    /// Whether none is short although three or more would be expected.
    none_short: bool,
    /// By how many spreads the lightest of them lie under the mean, the lightest
    /// first.
    below: Vec<f64>,
    shape: Shape,
}

/// How portions differ from a normal distribution.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Shape {
    /// Skewness to the light side, without bias; nought where it is to the heavy.
    to_light: f64,
    /// Excess kurtosis; nought where it is below.
    tails: f64,
    /// Whether either is beyond one standard error of a normal sample's.
    beyond_chance: bool,
}

impl Shape {
    fn of(standardised: &[f64]) -> Self {
        let n = standardised.len() as f64;
        let moment = |power| standardised.iter().map(|z| z.powi(power)).sum::<f64>() / n;
        let variance = moment(2);
        let skewness = moment(3) / variance.powf(1.5) * (n * (n - 1.0)).sqrt() / (n - 2.0);
        let excess = moment(4) / variance.powi(2) - 3.0;
        let error = skewness_error(n);
        Self {
            to_light: (-skewness).max(0.0),
            tails: excess.max(0.0),
            // A kurtosis has about twice the error.
            beyond_chance: skewness < -error || excess > 2.0 * error,
        }
    }
}

/// The standard error of a normal sample's skewness (Fisher 1930; from memory).
fn skewness_error(n: f64) -> f64 {
    (6.0 * (n - 2.0) / ((n + 1.0) * (n + 3.0))).sqrt()
}

/// What is laid on the tolerance factor for the skewness seen, for how little of it a
/// small sample shows, for the tails, and for the shape that no small sample shows, all
/// in spreads. The first is the correction of Cornish and Fisher times these.
const SKEWNESS: f64 = 1.3;
/// As [`SKEWNESS`], over the root of the portions.
const SKEWNESS_UNSEEN: f64 = 5.0;
/// As [`SKEWNESS`], over the root of the portions.
const SHAPE_UNSEEN: f64 = 0.6;
/// How far a bound of any shape may lie beyond one of a shape that is checked: a single
/// wild portion is no reason to aim far off.
const ANY_SHAPE: f64 = 1.5;

impl Portions {
    fn of(sample: &Sample, goal: Goal) -> Result<Self, AimError> {
        let grams = sample.grams();
        let n = grams.len();
        if n < FEWEST_TO_AIM {
            return Err(AimError::TooFew(n));
        }
        let mean = sample.mean_grams().ok_or(AimError::NoSpread)?;
        let spread = sample
            .deviation_grams()
            .filter(|s| *s > 0.0)
            .ok_or(AimError::NoSpread)?;
        let count = n as f64;
        let cubes: f64 = grams.iter().map(|g| ((g - mean) / spread).powi(3)).sum();
        let skewness = cubes / count;
        let skewed = (skewness / skewness_error(count)).abs() > 2.58;
        let lightest = goal.lightest().grams();
        let normal = Normal::standard();
        let none_short = grams.iter().all(|g| *g >= lightest);
        let short_expected = count * normal.cdf((lightest - mean) / spread);
        // With three expected, none at all comes up in one night of twenty.
        let cut_off = none_short && short_expected >= 3.0;
        let mut ordered = grams.to_vec();
        ordered.sort_by(f64::total_cmp);
        let median = f64::midpoint(ordered[(n - 1) / 2], ordered[n / 2]);
        let half = |side: f64| {
            let within: Vec<f64> = grams
                .iter()
                .map(|g| (g - median) * side)
                .filter(|d| *d >= 0.0)
                .collect();
            (within.iter().map(|d| d * d).sum::<f64>() / within.len().max(1) as f64).sqrt()
        };
        let light_side = if cut_off || (skewed && skewness > 0.0) {
            LightSide::CutOff
        } else if skewed {
            LightSide::Longer
        } else {
            LightSide::Like
        };
        let standardised: Vec<f64> = ordered.iter().map(|g| (g - mean) / spread).collect();
        let shape = Shape::of(&standardised);
        let below = standardised.iter().map(|z| -z).collect();
        Ok(match light_side {
            LightSide::Like => Self {
                n,
                mean,
                spread,
                light: spread,
                heavy: spread,
                middle: 0.0,
                worth: n,
                light_side,
                none_short: cut_off,
                below,
                shape,
            },
            LightSide::CutOff | LightSide::Longer => Self {
                n,
                mean,
                spread,
                light: half(-1.0).max(1e-6),
                heavy: half(1.0).max(1e-6),
                middle: median - mean,
                worth: n.div_ceil(2) + 1,
                light_side,
                none_short: cut_off,
                below,
                shape,
            },
        })
    }

    /// How far the mean is to lie above the lightest, so that with a confidence of
    /// 95 % no more than `share` of all portions are short.
    fn above_lightest(&self, share: f64) -> Option<f64> {
        let factor = |n| tolerance_factor(n, 1.0 - share, Confidence::NINETY_FIVE);
        let of_any_shape = nth_lightest(self.n, share)
            .and_then(|nth| self.below.get(nth))
            .map(|below| below * self.spread);
        let shaped = if self.light_side == LightSide::CutOff {
            factor(self.worth)? * self.light - self.middle
        } else {
            let z = Normal::standard().inverse_cdf(1.0 - share);
            let root = (self.n as f64).sqrt();
            let Shape {
                to_light, tails, ..
            } = self.shape;
            // Cornish and Fisher's expansion (Revue de l'Institut International de
            // Statistique 5 (1937) 307; from memory).
            let skewed = (SKEWNESS + SKEWNESS_UNSEEN / root) * to_light * (z * z - 1.0) / 6.0;
            let tailed = tails * (z.powi(3) - 3.0 * z).max(0.0) / 24.0;
            (factor(self.n)? + skewed + tailed + SHAPE_UNSEEN / root) * self.spread
        };
        Some(match of_any_shape {
            Some(any) if self.shape.beyond_chance => shaped.max(any.min(ANY_SHAPE * shaped)),
            _ => shaped,
        })
    }

    /// The share of further portions beyond a limit on one side.
    fn beyond(&self, distance: f64, deviation: f64) -> Option<f64> {
        let scale = deviation * (1.0 + 1.0 / self.worth as f64).sqrt();
        let t = StudentsT::new(0.0, 1.0, self.worth as f64 - 1.0).ok()?;
        Some(t.sf(distance / scale))
    }

    fn at(&self, goal: Goal, aim: f64, held_by: HeldBy) -> Option<Aim> {
        let middle = aim + self.middle;
        Some(Aim {
            aim: mass(aim),
            short_share: self.beyond(middle - goal.lightest().grams(), self.light)?,
            heavy_share: self.beyond(goal.heaviest().grams() - middle, self.heavy)?,
            given_away: mass(aim) - goal.target(),
            held_by,
            light_side: self.light_side,
            n: self.n,
        })
    }
}

/// Where to aim for a goal, by portions already made. An aim is never under
/// `least`, what the guest is promised.
///
/// # Errors
/// [`AimError`].
pub fn aim(goal: Goal, sample: &Sample, by: AimBy, least: Mass) -> Result<Aim, AimError> {
    let portions = Portions::of(sample, goal)?;
    place(goal, &portions, by, least)
}

fn place(goal: Goal, portions: &Portions, by: AimBy, least: Mass) -> Result<Aim, AimError> {
    let lightest = goal.lightest().grams();
    let above = match by {
        AimBy::Share(share) => {
            if !(0.0001..0.5).contains(&share) {
                return Err(AimError::BadShare(share));
            }
            portions
                .above_lightest(share)
                .ok_or(AimError::BadShare(share))?
        }
        AimBy::Cost(cost) => by_cost(portions, cost)? * portions.light - portions.middle,
        AimBy::ToppedUp => return place_at_least(goal, portions, least),
    };
    let sought = lightest + above;
    let (mut aim, mut held_by) = (sought, HeldBy::Sought);
    if portions.none_short && sought > portions.mean {
        (aim, held_by) = (portions.mean, HeldBy::AsItIs);
    }
    if aim < least.grams() {
        (aim, held_by) = (least.grams(), HeldBy::Promise);
    }
    if held_by == HeldBy::Sought && aim > goal.heaviest().grams() {
        return Err(AimError::DoesNotFit(Misfit {
            spread: mass(portions.spread),
            would_aim: mass(aim),
            fits_up_to: mass((goal.target().grams() - lightest) / above * portions.spread),
        }));
    }
    let mut found = portions.at(goal, aim, held_by).ok_or(AimError::NoSpread)?;
    if held_by == HeldBy::AsItIs {
        // None of so many was short: Laplace's rule of succession.
        found.short_share = 1.0 / (portions.n as f64 + 2.0);
    }
    Ok(found)
}

/// Which of `n` portions, the lightest being 0, lies under all but `share` of further
/// ones with a confidence of 95 %, whatever their shape (Wilks, Annals of Mathematical
/// Statistics 12 (1941) 91; from memory). `None` where not even the lightest does.
fn nth_lightest(n: usize, share: f64) -> Option<usize> {
    let mut found = None;
    let (mut at_most, mut exactly) = (0.0, (1.0 - share).powf(n as f64));
    for nth in 0..n {
        at_most += exactly;
        if at_most > 0.05 {
            break;
        }
        found = Some(nth);
        exactly *= (n - nth) as f64 / (nth + 1) as f64 * share / (1.0 - share);
    }
    found
}

fn place_at_least(goal: Goal, portions: &Portions, least: Mass) -> Result<Aim, AimError> {
    portions
        .at(goal, least.grams(), HeldBy::Promise)
        .ok_or(AimError::NoSpread)
}

/// How many deviations above the lightest the cost is least: where one gram
/// more costs what it saves in shorts, food price = short price x density of a
/// further portion at the lightest, that density being Student's t.
fn by_cost(portions: &Portions, cost: ShortCost) -> Result<f64, AimError> {
    if !(cost.food_per_gram > 0.0 && cost.food_per_gram.is_finite()) {
        return Err(AimError::BadPrice("food per gram"));
    }
    if !(cost.short_portion > 0.0 && cost.short_portion.is_finite()) {
        return Err(AimError::BadPrice("a short portion"));
    }
    let wider = (1.0 + 1.0 / portions.worth as f64).sqrt();
    let degrees = portions.worth as f64 - 1.0;
    let peak = StudentsT::new(0.0, 1.0, degrees)
        .map_err(|_| AimError::NoSpread)?
        .pdf(0.0);
    let wanted = cost.food_per_gram * portions.light * wider / cost.short_portion;
    if wanted >= peak {
        return Err(AimError::ShortTooCheap);
    }
    let z = (degrees * ((peak / wanted).powf(2.0 / (degrees + 1.0)) - 1.0)).sqrt();
    Ok(z * wider)
}

/// What portions that differ from their mean by only `share` as much would
/// save, in the prices' currency, over so many portions, each spread at its own
/// aim: food and short portions together.
///
/// # Errors
/// As for [`aim`], of the portions as they are.
pub fn saved_by_tightening(
    goal: Goal,
    sample: &Sample,
    share: f64,
    cost: ShortCost,
    least: Mass,
    portions: u32,
) -> Result<f64, AimError> {
    let now = Portions::of(sample, goal)?;
    let narrower = Portions {
        spread: now.spread * share,
        light: now.light * share,
        heavy: now.heavy * share,
        middle: now.middle * share,
        ..Portions::of(sample, goal)?
    };
    let spent = |portions: &Portions| {
        let aim = place(goal, portions, AimBy::Cost(cost), least)?;
        Ok(cost.food_per_gram * aim.aim.grams() + cost.short_portion * aim.short_share)
    };
    Ok((spent(&now)? - spent(&narrower)?) * f64::from(portions))
}

#[cfg(test)]
mod tests {
    use super::*;

    // The fewest for a bound of any shape, 95 % confidence: 59 for 95 % of all, 119 for
    // 97.5 %, 299 for 99 % (the table of Wilks's method, by hand 0.95^59 = 0.0485).
    #[test]
    fn a_bound_of_any_shape_takes_as_many_as_the_table_says() {
        for (share, fewest) in [(0.05, 59), (0.025, 119), (0.01, 299)] {
            assert_eq!(nth_lightest(fewest - 1, share), None);
            assert_eq!(nth_lightest(fewest, share), Some(0));
        }
        // The second of 93 for 95 % (by the same table).
        assert_eq!(nth_lightest(92, 0.05), Some(0));
        assert_eq!(nth_lightest(93, 0.05), Some(1));
    }
}
