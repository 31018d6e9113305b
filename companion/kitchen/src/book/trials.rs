//! What the good batches of a thing have in common, and what seems to have made
//! them good.
//!
//! Nothing is claimed of what was never varied, and a share that seems to have
//! changed the mark is said with how often chance alone would look like it, over
//! all ingredients together.

use super::formula::{Counts, Ingredient, StagedFormula, same_name};
use crate::batch::{Batch, Mark};
use crate::units::{InputError, Ratio};
use evenhand_protocol::Mass;
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};

/// Marked batches that are needed before anything is said of what changed the
/// mark: with four, no order of theirs is rarer than 1 in 12.
pub const LEAST_MARKED: usize = 5;
/// How often chance alone may look like something, over all ingredients.
pub const CHANCE: f64 = 0.05;
/// With so many batches and fewer every order of the marks is counted; with
/// more so many orders are drawn.
const COUNTED_TO: usize = 7;
const DRAWN: u32 = 999;
/// How far from what was weighed so far a proposed share is, where it never
/// varied enough to have a spread: a tenth of it.
const STEP_OF_ITSELF: f64 = 0.1;

/// One batch's shares of the base and its mark.
#[derive(Debug, Clone)]
struct Trial {
    shares: Vec<f64>,
    mark: Option<Mark>,
}

/// Batches of one thing, by their shares of a base.
#[derive(Debug, Clone)]
pub struct Trials {
    base: Vec<String>,
    names: Vec<String>,
    trials: Vec<Trial>,
    left_out: usize,
}

/// What the good batches have of one ingredient.
#[derive(Debug, Clone, PartialEq)]
pub struct Shared {
    /// The ingredient.
    pub ingredient: String,
    /// Whether it is part of the base.
    pub is_base: bool,
    /// Its mean share of the base in those that have it.
    pub mean: Ratio,
    /// The standard deviation of that share between batches; `None` with fewer
    /// than two.
    pub spread: Option<Ratio>,
    /// How many of the good batches have it.
    pub batches: usize,
}

/// What seems to have changed the mark.
#[derive(Debug, Clone, PartialEq)]
pub enum Seen {
    /// Too few batches have a mark.
    NotKnownYet {
        /// How many more are needed.
        more: usize,
    },
    /// Nothing stands out from chance.
    Nothing,
    /// More of this went with another mark.
    Stands {
        /// The ingredient.
        ingredient: String,
        /// Whether more of it went with a better mark.
        more_is_better: bool,
        /// How often chance alone would look like this or more, all ingredients
        /// counted.
        chance: f64,
    },
}

/// The batch that would teach most, to be tried: a proposal and no claim.
#[derive(Debug, Clone, PartialEq)]
pub struct Next {
    /// What to change; everything else stays as the good batches have it.
    pub ingredient: String,
    /// Its share of the base in the good batches.
    pub from: Ratio,
    /// Its share of the base to try.
    pub to: Ratio,
}

impl Trials {
    /// Lines batches up by their shares of a base. A batch without any of the
    /// base, or with something that has no name, is left out and counted.
    ///
    /// # Errors
    /// No base, and none of the batches having it.
    pub fn new<'b>(
        batches: impl IntoIterator<Item = &'b Batch>,
        base: &[String],
    ) -> Result<Self, InputError> {
        let mut names: Vec<String> = base.iter().map(|name| name.trim().to_owned()).collect();
        let mut weighed: Vec<(Vec<Mass>, Option<Mark>)> = Vec::new();
        let mut left_out = 0;
        for batch in batches {
            let slots = batch.weighed_in();
            let in_it: Vec<_> = slots.iter().filter(|slot| slot.mass > Mass::ZERO).collect();
            if in_it.iter().any(|slot| slot.ingredient.is_none()) {
                left_out += 1;
                continue;
            }
            let mut masses = vec![Mass::ZERO; names.len()];
            for slot in in_it {
                let Some(ingredient) = &slot.ingredient else {
                    continue;
                };
                let name = ingredient.name();
                let place = names
                    .iter()
                    .position(|there| same_name(there, name))
                    .unwrap_or_else(|| {
                        names.push(name.to_owned());
                        masses.push(Mass::ZERO);
                        names.len() - 1
                    });
                masses[place] += slot.mass;
            }
            let mark = batch.tastings().last().map(|tasting| tasting.mark);
            weighed.push((masses, mark));
        }
        let bases = base.len();
        let before = weighed.len();
        let trials: Vec<Trial> = weighed
            .into_iter()
            .filter_map(|(masses, mark)| {
                let of: f64 = masses.iter().take(bases).map(|mass| mass.grams()).sum();
                (of > 0.0).then(|| Trial {
                    shares: (0..names.len())
                        .map(|place| masses.get(place).map_or(0.0, |mass| mass.grams()) / of)
                        .collect(),
                    mark,
                })
            })
            .collect();
        left_out += before - trials.len();
        if trials.is_empty() {
            return Err(InputError::new(
                "base",
                &base.join(", "),
                problem!("in-no-batch"),
                expected!("one-or-more", names = names[bases..].join(", ")),
            ));
        }
        Ok(Self {
            base: names[..bases].to_vec(),
            names,
            trials,
            left_out,
        })
    }

    /// How many batches were lined up.
    #[must_use]
    pub fn count(&self) -> usize {
        self.trials.len()
    }

    /// How many could not be: without the base, or with something nameless.
    #[must_use]
    pub const fn left_out(&self) -> usize {
        self.left_out
    }

    fn good(&self, least: Mark) -> impl Iterator<Item = &Trial> {
        self.trials
            .iter()
            .filter(move |trial| trial.mark.is_some_and(|mark| mark >= least))
    }

    /// How many have at least this mark.
    #[must_use]
    pub fn good_count(&self, least: Mark) -> usize {
        self.good(least).count()
    }

    /// What the batches with at least this mark have of each ingredient that
    /// any of them has.
    #[must_use]
    pub fn shared(&self, least: Mark) -> Vec<Shared> {
        (0..self.names.len())
            .filter_map(|place| {
                let shares: Vec<f64> = self
                    .good(least)
                    .map(|trial| trial.shares[place])
                    .filter(|share| *share > 0.0)
                    .collect();
                let (mean, spread) = mean_and_spread(&shares)?;
                Some(Shared {
                    ingredient: self.names[place].clone(),
                    is_base: place < self.base.len(),
                    mean: Ratio::new(mean)?,
                    spread: spread.and_then(Ratio::new),
                    batches: shares.len(),
                })
            })
            .collect()
    }

    /// The formula that the batches with at least this mark share: mean shares
    /// of everything that more than half of them have, to a hundredth of a per
    /// cent of the base.
    ///
    /// # Errors
    /// No batch has that mark, or what they share is no formula.
    pub fn formula(&self, name: &str, least: Mark) -> Result<StagedFormula, InputError> {
        let good = self.good_count(least);
        if good == 0 {
            return Err(InputError::new(
                "mark",
                &least.to_string(),
                problem!("mark-not-reached"),
                expected!("lower-mark"),
            ));
        }
        let shared: Vec<Shared> = self
            .shared(least)
            .into_iter()
            .filter(|shared| shared.batches * 2 > good)
            .collect();
        // A base that only some batches have is in others nothing, so means of
        // those that have it need not come to the whole.
        let base: f64 = shared
            .iter()
            .filter(|shared| shared.is_base)
            .map(|shared| shared.mean.fraction())
            .sum();
        let ingredients = shared
            .iter()
            .map(|shared| {
                let (counts, percent) = if shared.is_base {
                    (Counts::Base, shared.mean.percent() / base)
                } else {
                    let water = if same_name("water", &shared.ingredient) {
                        Ratio::ONE
                    } else {
                        Ratio::ZERO
                    };
                    (Counts::Other { water }, shared.mean.percent())
                };
                let percent = ((percent * 100.0).round() / 100.0).max(0.01);
                Ingredient::new(&shared.ingredient, counts, percent)
            })
            .collect::<Result<_, _>>()?;
        StagedFormula::new(name, ingredients)
    }

    /// What seems to have changed the mark: the order of the shares against the
    /// order of the marks (Spearman), the chance of it by all orders of the
    /// marks, times the number of ingredients looked at (Bonferroni).
    #[must_use]
    pub fn changed_the_mark(&self) -> Seen {
        let marked: Vec<&Trial> = self
            .trials
            .iter()
            .filter(|trial| trial.mark.is_some())
            .collect();
        if marked.len() < LEAST_MARKED {
            return Seen::NotKnownYet {
                more: LEAST_MARKED - marked.len(),
            };
        }
        let marks = ranks(
            &marked
                .iter()
                .map(|trial| trial.mark.map_or(0.0, |mark| f64::from(mark.value())))
                .collect::<Vec<f64>>(),
        );
        let looked_at: Vec<(usize, f64, f64)> = (0..self.names.len())
            .filter_map(|place| {
                let shares = ranks(
                    &marked
                        .iter()
                        .map(|trial| trial.shares[place])
                        .collect::<Vec<f64>>(),
                );
                let rho = correlation(&shares, &marks)?;
                Some((place, rho, chance_of(&shares, &marks)))
            })
            .collect();
        let together = looked_at.len() as f64;
        looked_at
            .into_iter()
            .min_by(|one, other| one.2.total_cmp(&other.2))
            .map(|(place, rho, chance)| (place, rho, (chance * together).min(1.0)))
            .filter(|(_, _, chance)| *chance <= CHANCE)
            .map_or(Seen::Nothing, |(place, rho, chance)| Seen::Stands {
                ingredient: self.names[place].clone(),
                more_is_better: rho > 0.0,
                chance,
            })
    }

    /// The batch that would teach most: a spread further in what seems to have
    /// changed the mark, as [`Trials::changed_the_mark`] saw it, else a change of
    /// what has varied least for its size. `None` where no batch has that mark.
    #[must_use]
    pub fn next(&self, least: Mark, seen: &Seen) -> Option<Next> {
        let shared = self.shared(least);
        let all = |ingredient: &str| -> Option<(f64, Option<f64>)> {
            let place = self
                .names
                .iter()
                .position(|name| same_name(name, ingredient))?;
            let shares: Vec<f64> = self
                .trials
                .iter()
                .map(|trial| trial.shares[place])
                .collect();
            mean_and_spread(&shares)
        };
        let (shared, up) = match seen {
            Seen::Stands {
                ingredient,
                more_is_better,
                ..
            } => (
                shared
                    .into_iter()
                    .find(|shared| same_name(&shared.ingredient, ingredient))?,
                *more_is_better,
            ),
            Seen::NotKnownYet { .. } | Seen::Nothing => {
                let varied = |shared: &Shared| {
                    all(&shared.ingredient)
                        .and_then(|(mean, spread)| Some(spread? / mean))
                        .unwrap_or(0.0)
                };
                (
                    shared
                        .into_iter()
                        .filter(|shared| !shared.is_base)
                        .min_by(|one, other| varied(one).total_cmp(&varied(other)))?,
                    true,
                )
            }
        };
        let from = shared.mean.fraction();
        let spread = all(&shared.ingredient).and_then(|(_, spread)| spread);
        let step = spread.unwrap_or(0.0).max(from * STEP_OF_ITSELF);
        let to = if up {
            from + step
        } else {
            (from - step).max(from / 2.0)
        };
        Some(Next {
            ingredient: shared.ingredient,
            from: Ratio::new(from)?,
            to: Ratio::new(to)?,
        })
    }
}

fn mean_and_spread(shares: &[f64]) -> Option<(f64, Option<f64>)> {
    let n = shares.len();
    if n == 0 {
        return None;
    }
    let mean = shares.iter().sum::<f64>() / n as f64;
    let spread = (n > 1).then(|| {
        let squares: f64 = shares.iter().map(|share| (share - mean).powi(2)).sum();
        (squares / (n - 1) as f64).sqrt()
    });
    Some((mean, spread))
}

/// Ranks from 1, the mean rank where values are equal.
fn ranks(values: &[f64]) -> Vec<f64> {
    values
        .iter()
        .map(|value| {
            let below = values.iter().filter(|other| *other < value).count();
            let equal = values.iter().filter(|other| *other == value).count();
            below as f64 + (equal as f64 + 1.0) / 2.0
        })
        .collect()
}

/// Pearson's correlation; `None` where one of the two never varies.
fn correlation(one: &[f64], other: &[f64]) -> Option<f64> {
    let (one_mean, _) = mean_and_spread(one)?;
    let (other_mean, _) = mean_and_spread(other)?;
    let mut together = 0.0;
    let mut squares = (0.0, 0.0);
    for (a, b) in one.iter().zip(other) {
        together += (a - one_mean) * (b - other_mean);
        squares.0 += (a - one_mean).powi(2);
        squares.1 += (b - other_mean).powi(2);
    }
    (squares.0 > 0.0 && squares.1 > 0.0).then(|| together / (squares.0 * squares.1).sqrt())
}

/// How often chance alone agrees this well or better, in either direction: over
/// every order of the marks, or over so many drawn orders where there are more.
/// Orders are drawn from a fixed seed, so that the same batches always say the
/// same. (Student's t, the usual approximation, errs where many marks are
/// equal: at 20 batches and three marks it calls 6.4 of a hundred for 5.)
fn chance_of(shares: &[f64], marks: &[f64]) -> f64 {
    let centred = |values: &[f64]| -> Vec<f64> {
        let mean = values.iter().sum::<f64>() / values.len() as f64;
        values.iter().map(|value| value - mean).collect()
    };
    let shares = centred(shares);
    let mut order = centred(marks);
    let agreement = |order: &[f64]| -> f64 {
        let products: f64 = shares.iter().zip(order).map(|(a, b)| a * b).sum();
        products.abs()
    };
    let reached = agreement(&order) * (1.0 - 1e-9);
    let n = order.len();
    if n > COUNTED_TO {
        let mut rng = ChaCha8Rng::seed_from_u64(0);
        let mut as_large = 1;
        for _ in 0..DRAWN {
            for place in (1..n).rev() {
                order.swap(place, rng.next_u32() as usize % (place + 1));
            }
            as_large += u32::from(agreement(&order) >= reached);
        }
        return f64::from(as_large) / f64::from(DRAWN + 1);
    }
    let mut counters = vec![0; n];
    let (mut all, mut as_large) = (1_u32, 1_u32);
    // Heap's algorithm: every other order of the marks once.
    let mut place = 0;
    while place < n {
        if counters[place] < place {
            let with = if place % 2 == 0 { 0 } else { counters[place] };
            order.swap(with, place);
            all += 1;
            as_large += u32::from(agreement(&order) >= reached);
            counters[place] += 1;
            place = 0;
        } else {
            counters[place] = 0;
            place += 1;
        }
    }
    f64::from(as_large) / f64::from(all)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every order of five marks that all differ: 120, of which two agree wholly
    /// with a given one or its reverse. A table of Spearman's rank correlation
    /// has 0.0167 for n = 5 and rho = 1, both sides (Zar, Biostatistical
    /// Analysis, from memory).
    #[test]
    fn the_chance_of_full_agreement_of_five_is_one_in_sixty() {
        let shares = [1.0, 2.0, 3.0, 4.0, 5.0];
        let chance = chance_of(&shares, &shares);
        assert!((chance - 2.0 / 120.0).abs() < 1e-12, "{chance}");
        // Seven, rho = 0.786: 0.048 both sides, by the same table.
        let marks = [2.0, 1.0, 4.0, 3.0, 7.0, 5.0, 6.0];
        let shares = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0];
        let rho = correlation(&shares, &marks).unwrap();
        assert!((rho - 0.821).abs() < 0.001, "{rho}");
        let chance = chance_of(&shares, &marks);
        assert!((0.03..0.04).contains(&chance), "{chance}");
    }

    #[test]
    fn equal_values_share_their_ranks() {
        assert_eq!(ranks(&[3.0, 1.0, 3.0, 2.0]), [3.5, 1.0, 3.5, 2.0]);
        assert_eq!(correlation(&[1.0, 1.0], &[1.0, 2.0]), None);
    }
}
