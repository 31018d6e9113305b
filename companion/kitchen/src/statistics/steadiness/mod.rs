//! What a service may say of its dishes, at one stated rate of false alarms.
//!
//! A night of one dish can be told to lie off its usual weight, to have left it
//! bit by bit, to have moved within the night, and to be more or less even than
//! usual or towards its end. Each of these is a test with a chance; all of them,
//! over all dishes of a service, share one rate by Holm's step-down
//! ([`conclude`]). So at most one steady service in twenty hears anything false
//! at all.
//!
//! What the tests lean on:
//! - the usual weight is that of up to ten services before, and a night is held
//!   against how much these differ among themselves beyond what the portions of
//!   each give (a prediction of a further night, averaged over how much nights may
//!   differ), not against the scatter of portions alone; how much the nights of the
//!   other dishes differ is taken in with less weight;
//! - within the night, tests are on normal scores of ranks, which tails and skew
//!   leave as they are;
//! - neighbouring portions may be alike: how much is estimated from tonight and
//!   the services before, taken on the careful side, and sums are widened by it;
//! - where the nights before wander within themselves more than that, as with two
//!   hands a night, tonight may wander as much;
//! - unevenness is held by distances from the middle of the portions around each,
//!   after Brown and Forsythe, so that it is a hand's own and no second hand's.
//!
//! `FALSE-ALARMS.md` beside this crate has the measured rates and power.

mod budget;
mod course;
mod further;
mod nights;
mod run_length;
mod scores;
mod serial;

use super::OutOfRange;
use budget::{Candidate, allowed};
use further::{Further, NOTHING_BORROWED, Supposed, Told, told_by};
use nights::{NightFigures, wider};
use serial::SerialCorrelation;

pub use run_length::CusumLimit;

/// The share of steady services of which anything false is said.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct FalseAlarmRate(f64);

impl FalseAlarmRate {
    /// One steady service in twenty.
    pub const ONE_IN_TWENTY: Self = Self(0.05);

    /// A rate as a fraction, from 0.0001 to 0.2.
    ///
    /// # Errors
    /// [`OutOfRange`] outside that, or where it is not a number.
    pub fn new(fraction: f64) -> Result<Self, OutOfRange> {
        if (0.0001..=0.2).contains(&fraction) {
            Ok(Self(fraction))
        } else {
            Err(OutOfRange {
                field: "false-alarm rate",
                value: fraction,
                expected: "a fraction from 0.0001 to 0.2",
            })
        }
    }

    /// As a fraction.
    #[must_use]
    pub const fn fraction(self) -> f64 {
        self.0
    }
}

/// Fewest portions of a night that anything is said of, and that a service
/// before must have to be laid beside it (common practice, no source).
pub const FEWEST_PORTIONS: usize = 10;
/// Fewest services before that a night is laid beside.
pub const FEWEST_SERVICES: usize = 3;

/// One dish of one service: its portions in order of time, in grams from the
/// target, and those of the services before, the earliest first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DishCourse<'c> {
    /// Tonight.
    pub tonight: &'c [f64],
    /// The services before that had the dish.
    pub before: &'c [Vec<f64>],
}

/// Which kind of thing is said of a dish.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ConclusionKind {
    /// The whole night lies off the usual weight.
    OffUsual,
    /// The portions left the usual weight bit by bit.
    LeftUsual,
    /// The portions moved within the night.
    Moved,
    /// The night is more, or less, even than usual.
    EvennessOffUsual,
    /// The portions grew more, or less, even towards the end.
    EvennessMoved,
}

impl ConclusionKind {
    /// Every kind.
    pub const ALL: [Self; 5] = [
        Self::LeftUsual,
        Self::OffUsual,
        Self::Moved,
        Self::EvennessOffUsual,
        Self::EvennessMoved,
    ];

    /// Its share of the rate. A drift away from the usual weight is what costs
    /// a kitchen most, so most of the rate goes there; a night off the usual as a
    /// whole shows there too.
    const fn share(self) -> f64 {
        match self {
            Self::LeftUsual => 0.76,
            Self::OffUsual => 0.04,
            Self::Moved => 0.10,
            Self::EvennessOffUsual => 0.07,
            Self::EvennessMoved => 0.03,
        }
    }
}

/// One thing that is said of a dish.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conclusion {
    /// Which kind.
    pub kind: ConclusionKind,
    /// Heavier, or less even; otherwise lighter, or more even.
    pub up: bool,
    /// By how much: grams for weights, a factor of the usual spread for
    /// [`ConclusionKind::EvennessOffUsual`]; `None` where only the direction is
    /// known.
    pub size: Option<f64>,
    /// From about which portion on, from 0, where that is told.
    pub since: Option<usize>,
    /// At which portion, from 0, a cumulative sum against the usual weight had
    /// shown it; `None` where it takes the whole night to tell.
    pub seen_at: Option<usize>,
    /// How often chance alone would look so, or more so, for this one test.
    pub chance: f64,
}

/// How far a night's mean, or its spread, may lie from the usual before it is
/// worth a word by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// How many services it is made of.
    pub services: usize,
    /// The usual mean, in grams from the target.
    pub mean: f64,
    /// Nineteen in twenty usual nights lie within this of it.
    pub night_to_night: f64,
}

/// The usual weight of a dish; `None` with fewer than [`FEWEST_SERVICES`].
#[must_use]
pub fn usual(course: &DishCourse<'_>) -> Option<Usual> {
    let tests = Tests::of(course)?;
    let level = tests.level?;
    Some(Usual {
        services: tests.services,
        mean: level.further.usual(),
        night_to_night: level.further.within(0.95),
    })
}

/// What may be said of each dish, so that over all dishes of a steady service
/// anything false is said at most at `rate`. Dishes of fewer than
/// [`FEWEST_PORTIONS`] portions have nothing said of them and take none of the
/// rate.
#[must_use]
pub fn conclude(dishes: &[DishCourse<'_>], rate: FalseAlarmRate) -> Vec<Vec<Conclusion>> {
    let tests = Tests::of_all(dishes);
    let found: Vec<Vec<Conclusion>> = tests
        .iter()
        .map(|tests| tests.as_ref().map_or_else(Vec::new, Tests::candidates))
        .collect();
    let candidates: Vec<Candidate> = found
        .iter()
        .flat_map(|of_dish| {
            // What a dish cannot be tested for goes to what it can.
            let all: f64 = of_dish.iter().map(|c| c.kind.share()).sum();
            of_dish.iter().map(move |conclusion| Candidate {
                chance: conclusion.chance,
                share: conclusion.kind.share() / all,
            })
        })
        .collect();
    let mut said = allowed(&candidates, rate.fraction() * KEPT).into_iter();
    found
        .into_iter()
        .zip(&tests)
        .map(|(of_dish, tests)| {
            of_dish
                .into_iter()
                .filter(|_| said.next().unwrap_or(false))
                .map(|conclusion| match tests {
                    Some(tests) => tests.dated(conclusion),
                    None => conclusion,
                })
                .collect()
        })
        .collect()
}

/// How much of the rate is given out: the rest pays for what is only about
/// right, such as tails and the likeness of neighbours.
const KEPT: f64 = 0.88;

/// How many standard errors the likeness of neighbours is taken above its
/// estimate.
const CAREFUL: f64 = 0.25;

/// How far nights are supposed to climb within themselves, in what chance alone
/// does.
const CLIMBS: Supposed = Supposed {
    small: 0.5,
    falls: 1.5,
    spread: 1.0,
};

/// How far the levels of nights are supposed to differ, in spreads of a hand.
/// The more nights climb within themselves, as where two hands share each, the
/// more their levels are supposed to differ as well: to the power of
/// [`RESTLESS_LEVELS`].
const LEVELS: Supposed = Supposed {
    small: 0.08,
    falls: 2.0,
    spread: 1.0,
};
/// As [`LEVELS`].
const RESTLESS_LEVELS: f64 = 4.0;

/// How much what the nights of another dish tell of how far nights differ counts, of
/// what this dish's own do (a power prior; Ibrahim and Chen, Statistical Science 15
/// (2000) 46, from memory).
const BORROWED: f64 = 0.25;

/// How far the logarithm of the spread is supposed to differ from night to night.
const EVENNESSES: Supposed = Supposed {
    small: 0.1,
    falls: 1.0,
    spread: 1.0,
};

/// A night so many times the variance of the record is judged by its own.
const WILD: f64 = 1.6;

/// How often a steady night at the usual weight crosses the limit of the
/// cumulative sum, which says no more than from when on a drift was to be seen.
const CROSSED: f64 = 0.05;

/// How far a further night climbs within itself, in what chance alone does, by
/// the nights before. They climb farther where two hands share each of them.
/// `None` of fewer than [`FEWEST_SERVICES`].
fn climbs(before: &[&Vec<f64>], alike: f64) -> Option<Further> {
    let climbs: Vec<(f64, f64)> = before
        .iter()
        .filter_map(|night| Some((course::climb_of(&scores::normal_scores(night)?, alike), 1.0)))
        .collect();
    if climbs.len() < FEWEST_SERVICES {
        return None;
    }
    Further::after(&climbs, 1.0, CLIMBS, Some(0.0), &NOTHING_BORROWED)
}

/// A figure of tonight, and what it may be by the services before.
#[derive(Debug, Clone, PartialEq)]
struct Beside {
    tonight: f64,
    further: Further,
}

impl Beside {
    /// Of figures that each come with the variance that their own night's
    /// portions give them. `None` of fewer than [`FEWEST_SERVICES`] before.
    fn of(
        (tonight, own): (f64, f64),
        before: &[(f64, f64)],
        supposed: Supposed,
        borrowed: &Told,
    ) -> Option<Self> {
        if before.len() < FEWEST_SERVICES {
            return None;
        }
        Some(Self {
            tonight,
            further: Further::after(before, own, supposed, None, borrowed)?,
        })
    }

    fn difference(&self) -> f64 {
        self.tonight - self.further.usual()
    }

    fn deviate(&self) -> f64 {
        self.further.deviate(self.tonight)
    }

    fn chance(&self) -> f64 {
        self.further.chance(self.tonight)
    }
}

/// The levels of a dish's nights, and what a climb away from the usual shows as.
struct Levels {
    /// Tonight's mean, and the variance that its own portions give it.
    tonight: (f64, f64),
    /// Those of the nights before.
    before: Vec<(f64, f64)>,
    supposed: Supposed,
    /// What a climb of one spread does to the level.
    half_a_spread: f64,
    /// What it does to the climb.
    in_climb: f64,
}

/// Every test of one dish.
struct Tests<'c> {
    tonight: &'c [f64],
    services: usize,
    /// One standard deviation, widened for the likeness of neighbours.
    spread: f64,
    climb: f64,
    turn: course::Turn,
    turn_chance: f64,
    /// How much the night's level and its climb count in leaving the usual; the
    /// squares of both together are one.
    level_counts: f64,
    climb_counts: f64,
    levels: Levels,
    level: Option<Beside>,
    evenness: Option<Beside>,
    evenness_climb: Option<(f64, bool)>,
}

impl<'c> Tests<'c> {
    fn of(dish: &DishCourse<'c>) -> Option<Self> {
        let tonight = dish.tonight;
        if tonight.len() < FEWEST_PORTIONS {
            return None;
        }
        let scored = scores::normal_scores(tonight)?;
        let before: Vec<&Vec<f64>> = dish
            .before
            .iter()
            .filter(|night| night.len() >= FEWEST_PORTIONS)
            .collect();
        let mut serial = SerialCorrelation::default();
        serial.add(&scored);
        for night in &before {
            if let Some(scored) = scores::normal_scores(night) {
                serial.add(&scored);
            }
        }
        let alike = serial.careful(CAREFUL);
        let figures = NightFigures::of(tonight, alike)?;
        let others: Vec<NightFigures> = before
            .iter()
            .filter_map(|night| NightFigures::of(night, alike))
            .collect();
        // Of one portion, over the record and tonight.
        let pooled = |of: fn(&NightFigures) -> f64| {
            let nights = others.iter().chain([&figures]);
            let (sum, free) = nights.fold((0.0, 0.0), |(sum, free), night| {
                (sum + (night.n - 1.0) * of(night), free + night.n - 1.0)
            });
            sum / free
        };
        let of_record = pooled(|night| night.within);
        let within = if figures.within > WILD * of_record {
            figures.within
        } else {
            of_record
        };
        let climbs = climbs(&before, alike);
        let restless = climbs.as_ref().map_or(1.0, Further::deviation);
        let spread = (of_record / wider(alike)).sqrt();
        let levels: Vec<(f64, f64)> = others
            .iter()
            .map(|night| (night.mean, of_record / night.n))
            .collect();
        let levels = Levels {
            tonight: (figures.mean, within / figures.n),
            before: levels,
            supposed: Supposed {
                small: LEVELS.small * restless.powf(RESTLESS_LEVELS),
                spread,
                ..LEVELS
            },
            half_a_spread: 0.5 * within.sqrt(),
            in_climb: (figures.n / 12.0).sqrt() / restless,
        };
        let distance_within = pooled(|night| night.distance_within);
        let evenness = figures.log_distance.and_then(|tonight| {
            let before: Vec<(f64, f64)> = others
                .iter()
                .filter_map(|night| Some((night.log_distance?, distance_within / night.n)))
                .collect();
            let tonight = (tonight, distance_within / figures.n);
            Beside::of(tonight, &before, EVENNESSES, &NOTHING_BORROWED)
        });
        let raw_climb = course::climb_of(&scored, alike);
        let turn = course::turn(&scored, alike);
        let mut tests = Self {
            tonight,
            services: others.len(),
            spread: figures.within.sqrt(),
            climb: climbs
                .as_ref()
                .map_or(raw_climb, |climbs| climbs.deviate(raw_climb)),
            turn_chance: climbs.map_or_else(
                || turn.chance(1.0),
                |climbs| climbs.averaged(|restless| turn.chance(restless)),
            ),
            turn,
            levels,
            level_counts: 0.0,
            climb_counts: 1.0,
            level: None,
            evenness,
            evenness_climb: course::evenness_climb(tonight, alike),
        };
        tests.hold_level(&NOTHING_BORROWED);
        Some(tests)
    }

    /// The tests of dishes of one kitchen: how far the nights of each differ tells
    /// something of how far those of the others do.
    fn of_all(dishes: &[DishCourse<'c>]) -> Vec<Option<Self>> {
        let mut tests: Vec<Option<Self>> = dishes.iter().map(Self::of).collect();
        let told: Vec<Told> = tests
            .iter()
            .map(|tests| tests.as_ref().map_or(NOTHING_BORROWED, Self::told))
            .collect();
        for (nth, tests) in tests.iter_mut().enumerate() {
            let mut borrowed = NOTHING_BORROWED;
            let others = told.iter().enumerate().filter(|(other, _)| *other != nth);
            for (_, told) in others {
                for (sum, told) in borrowed.iter_mut().zip(told) {
                    *sum += BORROWED * told;
                }
            }
            if let Some(tests) = tests {
                tests.hold_level(&borrowed);
            }
        }
        tests
    }

    /// What its nights before tell of how far nights differ.
    fn told(&self) -> Told {
        if self.levels.before.len() < FEWEST_SERVICES {
            return NOTHING_BORROWED;
        }
        told_by(&self.levels.before, self.levels.supposed.spread)
    }

    /// Holds the night's level against those before it.
    fn hold_level(&mut self, borrowed: &Told) {
        let levels = &self.levels;
        self.level = Beside::of(levels.tonight, &levels.before, levels.supposed, borrowed);
        // A climb away from the usual shows as so much in either: half of it in the
        // level, and all of it over a night whose places have a variance of n²/12.
        let in_level = self.level.as_ref().map_or(0.0, |level| {
            levels.half_a_spread / level.further.deviation()
        });
        let both = in_level.hypot(levels.in_climb);
        self.level_counts = in_level / both;
        self.climb_counts = levels.in_climb / both;
    }

    /// A conclusion with the portions at which the cumulative sum against the
    /// usual weight began to rise and crossed its limit, where it did so on the
    /// side that the conclusion is of.
    fn dated(&self, conclusion: Conclusion) -> Conclusion {
        let (ConclusionKind::LeftUsual, Some(level)) = (conclusion.kind, &self.level) else {
            return conclusion;
        };
        let limit = CusumLimit::for_night(self.tonight.len(), CROSSED);
        let standardised = self
            .tonight
            .iter()
            .map(|m| (m - level.further.usual()) / self.spread);
        match limit.crossing(standardised) {
            Some(crossing) if crossing.up == conclusion.up => Conclusion {
                since: Some(crossing.since),
                seen_at: Some(crossing.place),
                ..conclusion
            },
            _ => conclusion,
        }
    }

    fn candidates(&self) -> Vec<Conclusion> {
        let mut found = Vec::new();
        if let Some(level) = &self.level {
            let z = self.level_counts * level.deviate() + self.climb_counts * self.climb;
            found.push(Conclusion {
                kind: ConclusionKind::LeftUsual,
                up: z > 0.0,
                size: Some(level.difference()),
                since: None,
                seen_at: None,
                chance: scores::two_sided(z),
            });
            found.push(Conclusion {
                kind: ConclusionKind::OffUsual,
                up: level.difference() > 0.0,
                size: Some(level.difference()),
                since: None,
                seen_at: None,
                chance: level.chance(),
            });
        }
        let (first, last) = self.tonight.split_at(self.turn.place);
        found.push(Conclusion {
            kind: ConclusionKind::Moved,
            up: self.turn.heavier,
            size: mean(last)
                .zip(mean(first))
                .map(|(last, first)| last - first),
            since: Some(self.turn.place),
            seen_at: None,
            chance: self.turn_chance,
        });
        if let Some(evenness) = &self.evenness {
            found.push(Conclusion {
                kind: ConclusionKind::EvennessOffUsual,
                up: evenness.difference() > 0.0,
                size: Some(evenness.difference().exp()),
                since: None,
                seen_at: None,
                chance: evenness.chance(),
            });
        }
        if let Some((chance, up)) = self.evenness_climb {
            found.push(Conclusion {
                kind: ConclusionKind::EvennessMoved,
                up,
                size: None,
                since: None,
                seen_at: None,
                chance,
            });
        }
        found
    }
}

fn mean(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

/// The middle value; `None` of none.
fn median(values: &[f64]) -> Option<f64> {
    let mut ordered = values.to_vec();
    ordered.sort_by(f64::total_cmp);
    let upper = *ordered.get(ordered.len() / 2)?;
    if ordered.len() % 2 == 1 {
        return Some(upper);
    }
    Some(f64::midpoint(ordered[ordered.len() / 2 - 1], upper))
}
