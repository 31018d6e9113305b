//! What a night of one dish comes to.

use crate::portion::RecordedPortion;
use crate::spread::Spread;
use crate::statistics::{
    Aim, AimError, Capability, Confidence, Difference, Enough, IndividualsChart, Interval,
    PercentileMethod, Sample, Separated, ShortCost, SpreadRatio, Trend, aim_by_cost, aim_by_share,
    capability, mean_difference, mean_interval, percentile, saved_by_tightening, separate_scale,
    spread_ratio, standard_deviation_interval, trend,
};
use crate::units::{Currency, Money};
use evenhand_protocol::{Goal, Mass};
use jiff::Timestamp;
use jiff::civil::Date;

/// What is supposed where nothing is on record. Every figure that leans on it
/// is shown with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Assumptions {
    /// What one short portion costs; `None` for its whole food again, as when
    /// it is made anew.
    pub short_portion: Option<Money>,
    /// How many services there are in a month.
    pub services_a_month: u32,
    /// The share of short portions allowed where no cost is known; above 0 and
    /// below 0.5.
    pub short_share: f64,
}

impl Default for Assumptions {
    /// A short portion is made again; 22 services a month; one in forty short
    /// (common practice, no source).
    fn default() -> Self {
        Self {
            short_portion: None,
            services_a_month: 22,
            short_share: 0.025,
        }
    }
}

/// What changed since an earlier service.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// That service's day.
    pub since: Date,
    /// How many portions it had.
    pub n: usize,
    /// This mean less that one, each from its own target; `None` where there
    /// are too few portions to say.
    pub mean: Option<Difference>,
    /// This spread over that one; `None` where there are too few portions.
    pub spread: Option<SpreadRatio>,
}

/// What an aim leans on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AdviceBasis {
    /// The least cost of food given away and short portions together.
    Cost {
        /// A gram of food, in the currency's unit.
        food_per_gram: f64,
        /// A short portion, in the currency's unit.
        short_portion: f64,
        /// The currency.
        currency: Currency,
        /// Whether a short portion was supposed to cost its food again.
        food_again: bool,
    },
    /// A share of short portions, as no cost is known.
    Share(f64),
}

/// What to aim at tomorrow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Advice {
    /// The aim and what comes of it, portions being normally spread about it.
    pub aim: Aim,
    /// What it leans on.
    pub basis: AdviceBasis,
    /// By how much the spread is supposed to be narrowed for `saving`: a gram,
    /// or where the spread is under two grams a quarter of it.
    pub narrower_by: Mass,
    /// What that saves in a month; `None` without a cost.
    pub saving: Option<Money>,
    /// How many portions a month `saving` is of.
    pub portions_a_month: u32,
}

impl Advice {
    /// The saving a month for each gram that the spread is narrowed by, at the
    /// rate of [`Advice::narrower_by`].
    #[must_use]
    pub fn saving_a_gram(&self) -> Option<Money> {
        let saving = self.saving?;
        let rate = saving.millionths() as f64 / self.narrower_by.grams();
        rate.is_finite()
            .then(|| Money::from_millionths(rate.round() as i64, saving.currency()))
    }
}

/// Why there is no advice.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NoAdvice {
    /// Too few portions.
    #[error("fewer than ten portions: too few to advise on")]
    TooFew,
    /// The reckoning itself refused.
    #[error(transparent)]
    Aim(#[from] AimError),
}

/// A night of one dish, described. Portions whose goal differs are put to the
/// latest goal's target by their distance from their own.
#[derive(Debug, Clone, PartialEq)]
pub struct DishReview {
    /// The goal of the latest portion.
    pub goal: Goal,
    /// Count, mean, spread, shares and what was given away.
    pub spread: Spread,
    /// How far that can be trusted.
    pub enough: Enough,
    /// Where the true mean lies.
    pub mean: Option<Interval<Mass>>,
    /// Where the true standard deviation lies.
    pub deviation: Option<Interval<Mass>>,
    /// The 5th, 50th and 95th percentile, by [`PercentileMethod::PlusOne`].
    pub percentiles: Option<[Mass; 3]>,
    /// The hand's spread apart from the scale's, where the scale stated its
    /// uncertainty for every portion.
    pub separated: Option<Separated>,
    /// Drift through the night.
    pub drift: Option<Trend>,
    /// Individuals and moving ranges, in order of time.
    pub chart: Option<IndividualsChart>,
    /// When each portion of `chart` was captured.
    pub times: Vec<Timestamp>,
    /// Capability against the tolerance.
    pub capability: Option<Capability>,
    /// What changed since the last service that had the dish.
    pub change: Option<Change>,
    /// What to aim at.
    pub advice: Result<Advice, NoAdvice>,
}

impl DishReview {
    /// Reviews those of one dish's portions that count. `before` are the
    /// portions of the service before that had it. `None` where none counts.
    #[must_use]
    pub fn of<'p>(
        portions: impl IntoIterator<Item = &'p RecordedPortion>,
        before: Option<(Date, &[&RecordedPortion])>,
        assumptions: &Assumptions,
    ) -> Option<Self> {
        let mut counting: Vec<&RecordedPortion> = portions
            .into_iter()
            .filter(|portion| portion.counts())
            .collect();
        counting.sort_by_key(|portion| portion.time);
        let goal = counting.last()?.goal;
        let spread = Spread::of(counting.iter().copied());
        let sample = put_to(goal, &counting);
        let times: Vec<Timestamp> = counting.iter().map(|portion| portion.time).collect();
        let sure = Confidence::NINETY_FIVE;
        let at = |fraction| {
            percentile(&sample, fraction, PercentileMethod::PlusOne)
                .ok()
                .flatten()
        };
        let percentiles = (sample.count() >= 2)
            .then(|| Some([at(0.05)?, at(0.5)?, at(0.95)?]))
            .flatten();
        Some(Self {
            goal,
            enough: sample.enough(),
            mean: mean_interval(&sample, sure),
            deviation: standard_deviation_interval(&sample, sure),
            percentiles,
            separated: scale_uncertainty(&counting)
                .and_then(|scale| separate_scale(&sample, scale)),
            drift: trend(&times, &sample, sure),
            chart: IndividualsChart::of(&sample),
            times,
            capability: capability(&sample, goal, sure),
            change: before.map(|(since, before)| change(since, before, goal, &sample, sure)),
            advice: advise(goal, &sample, &counting, assumptions),
            spread,
        })
    }
}

/// The masses as if all had been made to one target.
fn put_to(goal: Goal, portions: &[&RecordedPortion]) -> Sample {
    portions
        .iter()
        .map(|portion| portion.mass - portion.goal.target() + goal.target())
        .collect()
}

/// The scale's random standard uncertainty, root mean square over the
/// portions; stated ones have coverage factor 2. `None` unless every portion
/// states one.
fn scale_uncertainty(portions: &[&RecordedPortion]) -> Option<Mass> {
    let squares = portions
        .iter()
        .map(|portion| Some((portion.uncertainty?.grams() / 2.0).powi(2)))
        .sum::<Option<f64>>()?;
    Mass::from_fractional_grams((squares / portions.len() as f64).sqrt())
}

fn change(
    since: Date,
    before: &[&RecordedPortion],
    goal: Goal,
    now: &Sample,
    sure: Confidence,
) -> Change {
    let counting: Vec<&RecordedPortion> = before
        .iter()
        .copied()
        .filter(|portion| portion.counts())
        .collect();
    let before = put_to(goal, &counting);
    Change {
        since,
        n: before.count(),
        mean: mean_difference(&before, now, sure),
        spread: spread_ratio(&before, now, sure),
    }
}

/// Fewest portions that anything is advised on (common practice, no source).
const ENOUGH_TO_ADVISE: usize = 10;

fn advise(
    goal: Goal,
    sample: &Sample,
    portions: &[&RecordedPortion],
    assumptions: &Assumptions,
) -> Result<Advice, NoAdvice> {
    if sample.count() < ENOUGH_TO_ADVISE {
        return Err(NoAdvice::TooFew);
    }
    let deviation = sample.standard_deviation().ok_or(NoAdvice::TooFew)?;
    let portions_a_month = u32::try_from(sample.count())
        .unwrap_or(u32::MAX)
        .saturating_mul(assumptions.services_a_month);
    let narrower_by = if deviation >= Mass::from_grams(2) {
        Mass::from_grams(1)
    } else {
        deviation.fraction(1, 4).unwrap_or(Mass::ZERO)
    };
    let cost = portions.iter().rev().find_map(|portion| portion.cost);
    let Some(cost) = cost else {
        return Ok(Advice {
            aim: aim_by_share(goal, deviation, assumptions.short_share)?,
            basis: AdviceBasis::Share(assumptions.short_share),
            narrower_by,
            saving: None,
            portions_a_month,
        });
    };
    let currency = cost.for_kilogram().currency();
    let food_per_gram = cost.for_kilogram().millionths() as f64 / 1e9;
    let said = assumptions
        .short_portion
        .filter(|money| money.currency() == currency);
    let short_portion = said.map_or_else(
        || food_per_gram * goal.target().grams(),
        |money| money.millionths() as f64 / 1e6,
    );
    let prices = ShortCost {
        food_per_gram,
        short_portion,
    };
    let aim = aim_by_cost(goal, deviation, prices)?;
    let saved = saved_by_tightening(
        goal,
        deviation,
        deviation - narrower_by,
        prices,
        portions_a_month,
    )?;
    Ok(Advice {
        aim,
        basis: AdviceBasis::Cost {
            food_per_gram,
            short_portion,
            currency,
            food_again: said.is_none(),
        },
        narrower_by,
        saving: Some(Money::from_millionths(
            (saved * 1e6).round() as i64,
            currency,
        )),
        portions_a_month,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dish::DishName;
    use crate::portion::TimeSource;
    use crate::units::CostPerMass;
    use evenhand_protocol::report::Doubts;
    use evenhand_protocol::{DeviceId, Epoch, Mode, PortionId, RunId, Tolerance};

    fn goal(target: i64) -> Goal {
        Goal::new(
            Mass::from_grams(target),
            Tolerance::symmetric(Mass::from_grams(1)),
        )
        .unwrap()
    }

    fn portion(number: u32, milligrams: i64, target: i64) -> RecordedPortion {
        RecordedPortion {
            id: PortionId {
                device: DeviceId(1),
                epoch: Epoch(1),
                number,
            },
            run: RunId(1),
            dish: Some(DishName::new("dish", "shrimp").unwrap()),
            mode: Mode::Taking,
            mass: Mass::from_milligrams(milligrams),
            goal: goal(target),
            time: Timestamp::from_second(1_800_000_000 + 60 * i64::from(number)).unwrap(),
            time_source: TimeSource::Instrument,
            temperature: None,
            doubts: Doubts(0),
            uncertainty: Some(Mass::from_milligrams(40)),
            left: None,
            cost: Some(CostPerMass::parse("cost", "180 EUR/kg").unwrap()),
            struck: None,
            replaces: None,
            replaced_by: None,
        }
    }

    fn night(add: i64) -> Vec<RecordedPortion> {
        (0..40)
            .map(|n| portion(n, 30_000 + add + (i64::from(n) * 7919) % 1201 - 600, 30))
            .collect()
    }

    #[test]
    fn a_change_is_told_by_an_interval() {
        let (now, before) = (night(500), night(0));
        let before: Vec<&RecordedPortion> = before.iter().collect();
        let day: Date = "2026-05-01".parse().unwrap();
        let review = DishReview::of(&now, Some((day, &before)), &Assumptions::default()).unwrap();
        let mean = review.change.unwrap().mean.unwrap();
        assert_eq!(mean.difference, Mass::from_milligrams(500));
        assert!(mean.is_real() && mean.interval.holds(&Mass::from_milligrams(500)));
        let spread = review.change.unwrap().spread.unwrap();
        assert!(!spread.is_real());
        let separated = review.separated.unwrap();
        assert_eq!(separated.scale, Mass::from_milligrams(20));
        assert!(separated.hand.unwrap() < separated.seen);
    }

    #[test]
    fn a_change_of_target_is_no_change_of_hand() {
        let mut mixed = night(0);
        for (n, portion) in mixed.iter_mut().enumerate().skip(20) {
            *portion = self::portion(n as u32, portion.mass.micrograms() / 1000 + 10_000, 40);
        }
        let level = DishReview::of(&night(0), None, &Assumptions::default()).unwrap();
        let review = DishReview::of(&mixed, None, &Assumptions::default()).unwrap();
        assert_eq!(review.goal.target(), Mass::from_grams(40));
        assert_eq!(
            review.drift.unwrap().per_hour,
            level.drift.unwrap().per_hour
        );
    }

    #[test]
    fn the_advice_names_what_it_supposes() {
        let review = DishReview::of(&night(0), None, &Assumptions::default()).unwrap();
        let advice = review.advice.unwrap();
        assert_eq!(advice.portions_a_month, 40 * 22);
        assert!(advice.saving.unwrap().millionths() > 0);
        assert!(
            matches!(advice.basis, AdviceBasis::Cost { food_again: true, short_portion, .. }
                if (short_portion - 5.4).abs() < 1e-9)
        );
        let own = Assumptions {
            short_portion: Some(Money::parse("x", "0.50 EUR").unwrap()),
            ..Assumptions::default()
        };
        let cheaper = DishReview::of(&night(0), None, &own)
            .unwrap()
            .advice
            .unwrap();
        // The less a short portion costs, the lower the aim.
        assert!(cheaper.aim.aim < advice.aim.aim);
        let mut free = night(0);
        for portion in &mut free {
            portion.cost = None;
        }
        let share = DishReview::of(&free, None, &Assumptions::default())
            .unwrap()
            .advice
            .unwrap();
        assert_eq!(share.basis, AdviceBasis::Share(0.025));
        assert!((share.aim.short_share - 0.025).abs() < 1e-6);
        assert_eq!(share.saving, None);
    }

    #[test]
    fn nothing_is_advised_on_a_handful() {
        let few = &night(0)[..9];
        let review = DishReview::of(few, None, &Assumptions::default()).unwrap();
        assert_eq!(review.advice, Err(NoAdvice::TooFew));
        assert_eq!(review.enough, Enough::Small);
        assert!(DishReview::of(&few[..0], None, &Assumptions::default()).is_none());
    }
}
