//! What to aim at, given the spread and what short and heavy cost.
//!
//! The old filling problem: aim low and some are short, aim high and all give
//! food away. Portions are taken to be normally spread about the aim; that
//! assumption is shown wherever the number is.

use super::mass;
use evenhand_protocol::{Goal, Mass};
use statrs::distribution::{Continuous, ContinuousCDF, Normal};

/// Why there is no aim to give.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum AimError {
    /// The spread is zero, negative or unknown.
    #[error("the spread is not above zero, so there is nothing to weigh up")]
    NoSpread,
    /// A price is zero, negative or not a number.
    #[error("{0} must be a price above zero")]
    BadPrice(&'static str),
    /// A share is not between nought and a half.
    #[error("the share of short portions allowed is {0}, expected above 0 and below 0.5")]
    BadShare(f64),
    /// A gram of food costs so much against one short portion that no aim
    /// balances them: each gram less saves more than the short ones cost.
    #[error(
        "a short portion costs too little against the food for any aim to pay: check the two prices"
    )]
    ShortTooCheap,
}

/// What the prices are, in any one currency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShortCost {
    /// One gram of food.
    pub food_per_gram: f64,
    /// One short portion: made again, topped up, or a guest who minds. The
    /// kitchen's own estimate.
    pub short_portion: f64,
}

/// Where to aim, and what comes of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aim {
    /// The mean to aim for.
    pub aim: Mass,
    /// The share of portions under the tolerance at that aim.
    pub short_share: f64,
    /// The share over the tolerance.
    pub heavy_share: f64,
    /// Food beyond the target, per portion on average; negative when under.
    pub given_away: Mass,
}

fn outcome(goal: Goal, spread: f64, aim: f64) -> Option<Aim> {
    let about = Normal::new(aim, spread).ok()?;
    Some(Aim {
        aim: mass(aim),
        short_share: about.cdf(goal.lightest().grams()),
        heavy_share: about.sf(goal.heaviest().grams()),
        given_away: mass(aim) - goal.target(),
    })
}

fn positive_spread(spread: Mass) -> Result<f64, AimError> {
    let grams = spread.grams();
    if grams > 0.0 {
        Ok(grams)
    } else {
        Err(AimError::NoSpread)
    }
}

/// The lowest aim with no more than a share of short portions.
///
/// # Errors
/// [`AimError::NoSpread`], [`AimError::BadShare`].
pub fn aim_by_share(goal: Goal, spread: Mass, short_share: f64) -> Result<Aim, AimError> {
    let s = positive_spread(spread)?;
    if !(short_share > 0.0 && short_share < 0.5) {
        return Err(AimError::BadShare(short_share));
    }
    let standard = Normal::new(0.0, 1.0).map_err(|_| AimError::NoSpread)?;
    let aim = goal.lightest().grams() - standard.inverse_cdf(short_share) * s;
    outcome(goal, s, aim).ok_or(AimError::NoSpread)
}

/// Cost of one portion on average at an aim, food and shorts together.
fn expected_cost(goal: Goal, s: f64, aim: f64, cost: ShortCost) -> Option<f64> {
    let about = Normal::new(aim, s).ok()?;
    Some(cost.food_per_gram * aim + cost.short_portion * about.cdf(goal.lightest().grams()))
}

/// The aim at which the food given away and the short portions together cost
/// least. At the least-cost aim one more gram costs what it saves in shorts:
/// food price = short price x density of portions at the lower limit.
///
/// # Errors
/// [`AimError::NoSpread`], [`AimError::BadPrice`], [`AimError::ShortTooCheap`].
pub fn aim_by_cost(goal: Goal, spread: Mass, cost: ShortCost) -> Result<Aim, AimError> {
    let s = positive_spread(spread)?;
    if !(cost.food_per_gram > 0.0 && cost.food_per_gram.is_finite()) {
        return Err(AimError::BadPrice("food per gram"));
    }
    if !(cost.short_portion > 0.0 && cost.short_portion.is_finite()) {
        return Err(AimError::BadPrice("a short portion"));
    }
    let standard = Normal::new(0.0, 1.0).map_err(|_| AimError::NoSpread)?;
    let peak = standard.pdf(0.0);
    let wanted = cost.food_per_gram * s / cost.short_portion;
    if wanted >= peak {
        return Err(AimError::ShortTooCheap);
    }
    let z = (2.0 * (peak / wanted).ln()).sqrt();
    outcome(goal, s, goal.lightest().grams() + z * s).ok_or(AimError::NoSpread)
}

/// What a narrower spread would save over so many portions, each spread at its
/// own least-cost aim.
///
/// # Errors
/// As for [`aim_by_cost`], for either spread.
pub fn saved_by_tightening(
    goal: Goal,
    now: Mass,
    narrower: Mass,
    cost: ShortCost,
    portions: u32,
) -> Result<f64, AimError> {
    let at = |spread: Mass| {
        let aim = aim_by_cost(goal, spread, cost)?;
        expected_cost(goal, positive_spread(spread)?, aim.aim.grams(), cost)
            .ok_or(AimError::NoSpread)
    };
    Ok((at(now)? - at(narrower)?) * f64::from(portions))
}
