//! What a night of one dish comes to.

use super::{DoubtCounts, DoubtedSpread, FailedTest, WeightDoubt};
use crate::portion::RecordedPortion;
use crate::spread::Spread;
use crate::statistics::{
    Aim, AimBy, AimError, Capability, Conclusion, Confidence, DishCourse, Enough, FalseAlarmRate,
    Interval, PercentileMethod, Sample, Separated, ShortCost, Usual, aim, capability, conclude,
    far_from_the_others, mean_interval, percentile, saved_by_tightening, separate_scale,
    standard_deviation_interval, usual,
};
use crate::units::{CostPerMass, Currency, Money};
use evenhand_protocol::{Goal, Mass, Mode};
use jiff::Timestamp;
use jiff::civil::Date;

/// What is supposed where nothing is on record. Every figure that leans on it
/// is shown with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Assumptions {
    /// What one short portion costs; `None` for what follows from how portions
    /// are made: its whole food again where it is made anew, no more than its
    /// missing food where it is topped up from the tin.
    pub short_portion: Option<Money>,
    /// How many services there are in a month.
    pub services_a_month: u32,
    /// The share of short portions allowed where no cost is known; from 0.0001
    /// to below 0.5.
    pub short_share: f64,
    /// Whether an aim may lie below the target, which the guest is promised.
    pub below_promise: bool,
    /// How often a steady service may have anything false said of it.
    pub false_alarms: FalseAlarmRate,
}

impl Default for Assumptions {
    /// A short portion is made again, or topped up; 22 services a month; one in
    /// forty short; never below the target (common practice, no source); one
    /// steady service in twenty has anything false said of it.
    fn default() -> Self {
        Self {
            short_portion: None,
            services_a_month: 22,
            short_share: 0.025,
            below_promise: false,
            false_alarms: FalseAlarmRate::ONE_IN_TWENTY,
        }
    }
}

/// One dish of a service, as it is on record.
#[derive(Debug, Clone, Default)]
pub struct DishRecord<'p> {
    /// Its portions, struck-out and corrected ones among them, in any order.
    pub portions: Vec<&'p RecordedPortion>,
    /// The services before that had the dish, each with its portions.
    pub before: Vec<(Date, Vec<&'p RecordedPortion>)>,
    /// The failed tests of the scale, of any time.
    pub failed_tests: &'p [FailedTest],
}

/// Something said of a dish within the service's rate of false alarms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finding {
    /// What is said.
    pub conclusion: Conclusion,
    /// From about when on.
    pub since: Option<Timestamp>,
    /// When a cumulative sum against the usual weight had shown it.
    pub seen_at: Option<Timestamp>,
}

/// What a dish's nights usually are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsualWeight {
    /// How many services it is made of.
    pub services: usize,
    /// The usual mean, put to the latest goal's target.
    pub mean: Mass,
    /// Nineteen in twenty usual nights have their mean within this of it.
    pub night_to_night: Mass,
    /// Tonight's mean less the usual.
    pub tonight: Mass,
}

/// What a short portion is supposed to cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ShortRemedy {
    /// As much as was said.
    Said,
    /// Its whole food again: it is made anew.
    MadeAgain,
}

/// What an aim leans on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AdviceBasis {
    /// The least cost of food given away and short portions together.
    Cost {
        /// A gram of food as portioned, in the currency's unit.
        food_per_gram: f64,
        /// A short portion, in the currency's unit.
        short_portion: f64,
        /// The currency.
        currency: Currency,
        /// Where that cost comes from.
        remedy: ShortRemedy,
    },
    /// Short portions are topped up from the tin: they cost the food that they
    /// lacked, and time.
    ToppedUp,
    /// A share of short portions, as no cost is known.
    Share(f64),
}

/// What to aim at tomorrow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Advice {
    /// The aim and what comes of it.
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
    /// More than one weight in ten lies so near a limit that the scale cannot
    /// tell its verdict.
    #[error("{0} of {1} portions lie nearer to a limit than the scale can tell")]
    ScaleTooCoarse(usize, usize),
    /// The reckoning itself refused.
    #[error(transparent)]
    Aim(#[from] AimError),
}

/// Portions that no figure and no advice leans on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeftOut {
    /// Struck out, by reason in words kept with each.
    pub struck: usize,
    /// Corrected by a later portion, which is in instead.
    pub corrected: usize,
    /// Of those corrected, how many were short and are not any more.
    pub topped_up: usize,
}

/// A night of one dish, described. Portions whose goal differs are put to the
/// latest goal's target by their distance from their own.
#[derive(Debug, Clone, PartialEq)]
pub struct DishReview {
    /// The goal of the latest portion.
    pub goal: Goal,
    /// Count, mean, spread, shares and what was given away of all that count,
    /// those whose weight is in doubt among them.
    pub spread: Spread,
    /// The same of those only whose weight can be relied on. Everything below
    /// is of these.
    pub relied: Spread,
    /// How many are in doubt, and why.
    pub doubts: DoubtCounts,
    /// Weights that lie far from all the others, of those that can be relied on.
    pub far: Vec<Mass>,
    /// What counts no more.
    pub left_out: LeftOut,
    /// How far the sample can be trusted.
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
    /// Capability against the tolerance.
    pub capability: Option<Capability>,
    /// What its nights usually are; `None` where too few services before had
    /// the dish, or too few portions.
    pub usual: Option<UsualWeight>,
    /// What is said of it, within the rate of the whole service.
    pub findings: Vec<Finding>,
    /// What its food costs on the plate, by the latest portion with a cost.
    pub cost: Option<CostPerMass>,
    /// When each portion that counts was captured, in order.
    pub times: Vec<Timestamp>,
    /// What to aim at.
    pub advice: Result<Advice, NoAdvice>,
}

/// How far each portion of tonight lay from its target, and those of each
/// service before, in grams.
type Offsets = (Vec<f64>, Vec<Vec<f64>>);

/// Reviews the dishes of one service together, so that what is said of them all
/// keeps to one rate of false alarms. `None` of a dish without a portion that
/// counts.
#[must_use]
pub fn review_service(
    dishes: &[DishRecord<'_>],
    assumptions: &Assumptions,
) -> Vec<Option<DishReview>> {
    let nights: Vec<Option<Night<'_>>> = dishes.iter().map(Night::of).collect();
    let offsets: Vec<Option<Offsets>> = dishes
        .iter()
        .zip(&nights)
        .map(|(dish, night)| {
            let before = dish
                .before
                .iter()
                .map(|(_, portions)| offsets(&relied(portions, dish.failed_tests)))
                .collect();
            Some((offsets(&night.as_ref()?.relied), before))
        })
        .collect();
    let courses: Vec<DishCourse<'_>> = offsets
        .iter()
        .map(|offsets| match offsets {
            Some((tonight, before)) => DishCourse { tonight, before },
            None => DishCourse {
                tonight: &[],
                before: &[],
            },
        })
        .collect();
    let said = conclude(&courses, assumptions.false_alarms);
    nights
        .into_iter()
        .zip(courses)
        .zip(said)
        .map(|((night, course), said)| {
            let night = night?;
            let usual = usual(&course);
            Some(night.reviewed(said, usual, assumptions))
        })
        .collect()
}

impl DishReview {
    /// Describes any portions of one dish, such as a stretch of a night that
    /// was picked by eye. Nothing is concluded of them: whoever picks where the
    /// portions look odd has made them odd.
    #[must_use]
    pub fn described(dish: &DishRecord<'_>, assumptions: &Assumptions) -> Option<Self> {
        Some(Night::of(dish)?.reviewed(Vec::new(), None, assumptions))
    }

    /// Its figures with and without those in doubt.
    #[must_use]
    pub fn doubted(&self) -> DoubtedSpread {
        DoubtedSpread {
            all: self.spread.clone(),
            relied: self.relied.clone(),
            doubts: self.doubts,
        }
    }
}

/// The portions of one dish that count, in order of time.
struct Night<'p> {
    goal: Goal,
    counting: Vec<&'p RecordedPortion>,
    relied: Vec<&'p RecordedPortion>,
    doubts: DoubtCounts,
    left_out: LeftOut,
}

impl<'p> Night<'p> {
    fn of(dish: &DishRecord<'p>) -> Option<Self> {
        let counting = counting(&dish.portions);
        let goal = counting.last()?.goal;
        let mut doubts = DoubtCounts::default();
        for portion in &counting {
            match WeightDoubt::of(portion, dish.failed_tests) {
                Some(doubt) => doubts.count(doubt, 1),
                None if portion.straddles_limit() => doubts.straddling += 1,
                None => {}
            }
        }
        Some(Self {
            goal,
            relied: relied(&dish.portions, dish.failed_tests),
            doubts,
            left_out: left_out(&dish.portions),
            counting,
        })
    }

    fn reviewed(
        &self,
        said: Vec<Conclusion>,
        usual: Option<Usual>,
        assumptions: &Assumptions,
    ) -> DishReview {
        let sample = put_to(self.goal, &self.relied);
        let sure = Confidence::NINETY_FIVE;
        let at = |fraction| {
            percentile(&sample, fraction, PercentileMethod::PlusOne)
                .ok()
                .flatten()
        };
        let percentiles = (sample.count() >= 2)
            .then(|| Some([at(0.05)?, at(0.5)?, at(0.95)?]))
            .flatten();
        let time = |place: Option<usize>| Some(self.relied.get(place?)?.time);
        DishReview {
            goal: self.goal,
            spread: Spread::of(self.counting.iter().copied()),
            relied: Spread::of(self.relied.iter().copied()),
            doubts: self.doubts,
            far: far_from_the_others(&sample),
            left_out: self.left_out,
            enough: sample.enough(),
            mean: mean_interval(&sample, sure),
            deviation: standard_deviation_interval(&sample, sure),
            percentiles,
            separated: scale_uncertainty(&self.relied)
                .and_then(|scale| separate_scale(&sample, scale)),
            capability: capability(&sample, self.goal, sure),
            usual: usual.and_then(|usual| usual_weight(usual, self.goal, &sample)),
            findings: said
                .into_iter()
                .map(|conclusion| Finding {
                    conclusion,
                    since: time(conclusion.since),
                    seen_at: time(conclusion.seen_at),
                })
                .collect(),
            cost: self.cost(),
            times: self.counting.iter().map(|portion| portion.time).collect(),
            advice: self.advise(&sample, assumptions),
        }
    }

    fn cost(&self) -> Option<CostPerMass> {
        self.counting.iter().rev().find_map(|portion| portion.cost)
    }

    fn advise(&self, sample: &Sample, assumptions: &Assumptions) -> Result<Advice, NoAdvice> {
        let n = sample.count();
        if n > 0 && self.doubts.straddling * 10 > n {
            return Err(NoAdvice::ScaleTooCoarse(self.doubts.straddling, n));
        }
        let least = if assumptions.below_promise {
            Mass::ZERO
        } else {
            self.goal.target()
        };
        let deviation = sample
            .standard_deviation()
            .ok_or(AimError::TooFew(n))
            .map_err(NoAdvice::Aim)?;
        let portions_a_month = u32::try_from(self.counting.len())
            .unwrap_or(u32::MAX)
            .saturating_mul(assumptions.services_a_month);
        let narrower_by = if deviation >= Mass::from_grams(2) {
            Mass::from_grams(1)
        } else {
            deviation.fraction(1, 4).unwrap_or(Mass::ZERO)
        };
        let latest = self.relied.last();
        let food = self.cost().map(|cost| {
            let a_kilogram = cost.for_kilogram();
            (a_kilogram.millionths() as f64 / 1e9, a_kilogram.currency())
        });
        let said = assumptions
            .short_portion
            .filter(|money| food.is_some_and(|(_, currency)| currency == money.currency()));
        let from_tin = latest.is_some_and(|portion| portion.mode == Mode::Taking);
        let (basis, by) = match (food, said) {
            (_, None) if from_tin && !assumptions.below_promise => {
                (AdviceBasis::ToppedUp, AimBy::ToppedUp)
            }
            (Some((food_per_gram, currency)), said) => {
                let short_portion = said.map_or_else(
                    || food_per_gram * self.goal.target().grams(),
                    |money| money.millionths() as f64 / 1e6,
                );
                (
                    AdviceBasis::Cost {
                        food_per_gram,
                        short_portion,
                        currency,
                        remedy: said.map_or(ShortRemedy::MadeAgain, |_| ShortRemedy::Said),
                    },
                    AimBy::Cost(ShortCost {
                        food_per_gram,
                        short_portion,
                    }),
                )
            }
            (None, _) => (
                AdviceBasis::Share(assumptions.short_share),
                AimBy::Share(assumptions.short_share),
            ),
        };
        let aim = aim(self.goal, sample, by, least)?;
        let kept = 1.0 - narrower_by.grams() / deviation.grams();
        let saved = match (by, food) {
            (AimBy::Cost(cost), _) => Some(saved_by_tightening(
                self.goal,
                sample,
                kept,
                cost,
                least,
                portions_a_month,
            )?),
            // About a target, what lies above it is 0.399 of a normal spread on average.
            (AimBy::ToppedUp, Some((food_per_gram, _))) => Some(
                food_per_gram
                    * narrower_by.grams()
                    * 0.398_942_280_401_432_7
                    * f64::from(portions_a_month),
            ),
            _ => None,
        };
        Ok(Advice {
            aim,
            basis,
            narrower_by,
            saving: saved.zip(food).map(|(saved, (_, currency))| {
                Money::from_millionths((saved * 1e6).round() as i64, currency)
            }),
            portions_a_month,
        })
    }
}

/// Those that count, in order of time.
fn counting<'p>(portions: &[&'p RecordedPortion]) -> Vec<&'p RecordedPortion> {
    let mut counting: Vec<_> = portions
        .iter()
        .copied()
        .filter(|portion| portion.counts())
        .collect();
    counting.sort_by_key(|portion| portion.time);
    counting
}

/// Those that count and whose weight can be relied on, in order of time.
fn relied<'p>(
    portions: &[&'p RecordedPortion],
    failed_tests: &[FailedTest],
) -> Vec<&'p RecordedPortion> {
    let mut relied = counting(portions);
    relied.retain(|portion| WeightDoubt::of(portion, failed_tests).is_none());
    relied
}

fn left_out(portions: &[&RecordedPortion]) -> LeftOut {
    let mut out = LeftOut::default();
    for portion in portions {
        if portion.struck.is_some() {
            out.struck += 1;
        } else if let Some(later) = portion.replaced_by {
            out.corrected += 1;
            let short = portion.mass < portion.goal.lightest();
            let now = portions.iter().find(|other| other.id == later);
            if short && now.is_some_and(|now| now.mass >= now.goal.lightest()) {
                out.topped_up += 1;
            }
        }
    }
    out
}

/// Grams from each portion's own target.
fn offsets(portions: &[&RecordedPortion]) -> Vec<f64> {
    portions
        .iter()
        .map(|portion| (portion.mass - portion.goal.target()).grams())
        .collect()
}

/// The masses as if all had been made to one target.
fn put_to(goal: Goal, portions: &[&RecordedPortion]) -> Sample {
    portions
        .iter()
        .map(|portion| portion.mass - portion.goal.target() + goal.target())
        .collect()
}

fn usual_weight(usual: Usual, goal: Goal, tonight: &Sample) -> Option<UsualWeight> {
    let mean = goal.target() + Mass::from_fractional_grams(usual.mean)?;
    Some(UsualWeight {
        services: usual.services,
        mean,
        night_to_night: Mass::from_fractional_grams(usual.night_to_night)?,
        tonight: tonight.mean()? - mean,
    })
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dish::DishName;
    use crate::portion::TimeSource;
    use crate::statistics::{ConclusionKind, HeldBy};
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

    fn described(portions: &[RecordedPortion], assumptions: &Assumptions) -> Option<DishReview> {
        let record = DishRecord {
            portions: portions.iter().collect(),
            ..DishRecord::default()
        };
        DishReview::described(&record, assumptions)
    }

    #[test]
    fn a_night_is_held_against_the_services_before_it() {
        // Ten services whose means differ by up to 0.3 g among themselves.
        let before: Vec<Vec<RecordedPortion>> = (0..10)
            .map(|nth| night((nth * 37) % 61 * 10 - 300))
            .collect();
        let days = |count: usize| -> Vec<(Date, Vec<&RecordedPortion>)> {
            before[..count]
                .iter()
                .zip(1..)
                .map(|(night, day)| (Date::constant(2026, 5, day), night.iter().collect()))
                .collect()
        };
        let said = |add: i64, services: usize| {
            let tonight = night(add);
            let record = DishRecord {
                portions: tonight.iter().collect(),
                before: days(services),
                failed_tests: &[],
            };
            let review = review_service(&[record], &Assumptions::default())
                .remove(0)
                .unwrap();
            (review.findings, review.usual)
        };
        let (usual, weight) = said(200, 10);
        assert_eq!(usual, []);
        let weight = weight.unwrap();
        assert_eq!(weight.services, 10);
        assert!(weight.tonight.abs() < weight.night_to_night);
        let (heavy, weight) = said(2_000, 10);
        assert!(heavy.iter().any(|found| {
            found.conclusion.kind == ConclusionKind::OffUsual && found.conclusion.up
        }));
        assert!(weight.unwrap().tonight > Mass::from_milligrams(1_500));
        // Beside one service or two there is no usual.
        assert_eq!(said(2_000, 2), (Vec::new(), None));
    }

    #[test]
    fn a_change_of_target_is_no_change_of_hand() {
        let mut mixed = night(0);
        for (n, portion) in mixed.iter_mut().enumerate().skip(20) {
            *portion = self::portion(n as u32, portion.mass.micrograms() / 1000 + 10_000, 40);
        }
        let level = described(&night(0), &Assumptions::default()).unwrap();
        let review = described(&mixed, &Assumptions::default()).unwrap();
        assert_eq!(review.goal.target(), Mass::from_grams(40));
        assert_eq!(
            review.deviation.map(|interval| interval.low),
            level.deviation.map(|interval| interval.low)
        );
        let record = DishRecord {
            portions: mixed.iter().collect(),
            ..DishRecord::default()
        };
        let said = review_service(&[record], &Assumptions::default());
        assert_eq!(said[0].as_ref().unwrap().findings, []);
    }

    #[test]
    fn what_is_in_doubt_is_in_the_count_and_not_in_the_advice() {
        let sound = night(0);
        let mut doubted = sound.clone();
        for number in 40..45 {
            let mut double = portion(number, 61_000, 30);
            double.doubts = Doubts::MAYBE_TWO;
            doubted.push(double);
        }
        let (clean, with) = (
            described(&sound, &Assumptions::default()).unwrap(),
            described(&doubted, &Assumptions::default()).unwrap(),
        );
        assert_eq!(with.spread.n(), 45);
        assert_eq!(with.relied, clean.relied);
        assert_eq!(with.doubts.of(WeightDoubt::MaybeTwo), 5);
        assert_eq!(with.doubts.weights(), 5);
        let aim = |review: &DishReview| review.advice.as_ref().unwrap().aim;
        assert_eq!(aim(&with), aim(&clean));
        assert_ne!(with.spread.mean(), with.relied.mean());
    }

    #[test]
    fn a_scale_too_coarse_for_the_tolerance_gives_no_advice() {
        let mut coarse = night(0);
        for portion in &mut coarse {
            portion.uncertainty = Some(Mass::from_milligrams(800));
        }
        let review = described(&coarse, &Assumptions::default()).unwrap();
        assert!(matches!(
            review.advice,
            Err(NoAdvice::ScaleTooCoarse(straddling, 40)) if straddling > 4
        ));
    }

    #[test]
    fn what_was_corrected_upwards_is_known_as_topped_up() {
        let mut all = night(0);
        let mut short = portion(50, 28_000, 30);
        let mut whole = portion(51, 30_200, 30);
        short.replaced_by = Some(whole.id);
        whole.replaces = Some(short.id);
        all.extend([short, whole]);
        let mut struck = portion(52, 12_000, 30);
        struck.struck = Some(crate::portion::Struck {
            reason: crate::portion::StrikeReason::undone(),
            at: struck.time,
        });
        all.push(struck);
        let review = described(&all, &Assumptions::default()).unwrap();
        assert_eq!(
            review.left_out,
            LeftOut {
                struck: 1,
                corrected: 1,
                topped_up: 1
            }
        );
        assert_eq!(review.spread.n(), 41);
    }

    #[test]
    fn the_advice_names_what_it_supposes() {
        let mut anew = night(0);
        for portion in &mut anew {
            portion.mode = Mode::Adding;
        }
        let advice = described(&anew, &Assumptions::default())
            .unwrap()
            .advice
            .unwrap();
        assert_eq!(advice.portions_a_month, 40 * 22);
        assert!(advice.saving.unwrap().millionths() > 0);
        assert!(matches!(
            advice.basis,
            AdviceBasis::Cost { remedy: ShortRemedy::MadeAgain, short_portion, .. }
                if (short_portion - 5.4).abs() < 1e-9
        ));
        let own = Assumptions {
            short_portion: Some(Money::parse("x", "0.50 EUR").unwrap()),
            below_promise: true,
            ..Assumptions::default()
        };
        let cheaper = described(&anew, &own).unwrap().advice.unwrap();
        // The less a short portion costs, the lower the aim; but below the promise only
        // where that was said.
        assert!(cheaper.aim.aim < Mass::from_grams(30));
        let kept = Assumptions {
            below_promise: false,
            ..own
        };
        let kept = described(&anew, &kept).unwrap().advice.unwrap();
        assert_eq!(kept.aim.aim, Mass::from_grams(30));
        assert_eq!(kept.aim.held_by, HeldBy::Promise);
        // From the tin a short portion is topped up.
        let tin = described(&night(0), &Assumptions::default())
            .unwrap()
            .advice;
        let tin = tin.unwrap();
        assert_eq!(tin.basis, AdviceBasis::ToppedUp);
        assert_eq!(tin.aim.aim, Mass::from_grams(30));
        for portion in &mut anew {
            portion.cost = None;
        }
        let share = described(&anew, &Assumptions::default())
            .unwrap()
            .advice
            .unwrap();
        assert_eq!(share.basis, AdviceBasis::Share(0.025));
        assert_eq!(share.saving, None);
    }

    #[test]
    fn nothing_is_advised_on_a_handful() {
        let few = &night(0)[..9];
        let review = described(few, &Assumptions::default()).unwrap();
        assert_eq!(review.advice, Err(NoAdvice::Aim(AimError::TooFew(9))));
        assert_eq!(review.enough, Enough::Small);
        assert!(described(&few[..0], &Assumptions::default()).is_none());
    }
}
