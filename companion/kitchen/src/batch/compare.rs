//! Batches of the same thing side by side.

use super::{Batch, Mark};
use crate::ratio::Ingredient;
use crate::units::{InputError, Ratio};
use evenhand_protocol::Mass;
use jiff::Timestamp;

/// What shares are taken of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ShareOf {
    /// Everything in it.
    Total,
    /// One ingredient, by name.
    Ingredient(String),
}

/// One batch in a comparison.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// When it was begun.
    pub begun: Option<Timestamp>,
    /// All that is in it.
    pub total: Mass,
    /// The share of each ingredient, in the order of the comparison's names;
    /// `None` where it has none of it or the base is not in it.
    pub shares: Vec<Option<Ratio>>,
    /// The last tasting's mark.
    pub mark: Option<Mark>,
    /// The last tasting's note.
    pub note: Option<String>,
}

/// Batches side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// What shares are of.
    pub of: ShareOf,
    /// Every ingredient that any of them has, in the order of the first that
    /// has it. Something without a name is not compared.
    pub kinds: Vec<Ingredient>,
    /// What they are called.
    pub ingredients: Vec<String>,
    /// The batches, in the order given.
    pub rows: Vec<Row>,
}

impl Comparison {
    /// Puts batches side by side.
    #[must_use]
    pub fn new<'b>(batches: impl IntoIterator<Item = &'b Batch>, of: ShareOf) -> Self {
        let weighed: Vec<(&Batch, Vec<(Ingredient, Mass)>)> = batches
            .into_iter()
            .map(|batch| {
                let named = batch
                    .weighed_in()
                    .into_iter()
                    .filter_map(|slot| Some((slot.ingredient?, slot.mass)))
                    .collect();
                (batch, named)
            })
            .collect();
        let mut kinds: Vec<Ingredient> = Vec::new();
        for (ingredient, _) in weighed.iter().flat_map(|(_, named)| named) {
            if !kinds.iter().any(|kind| kind.is_same(ingredient)) {
                kinds.push(ingredient.clone());
            }
        }
        let rows = weighed
            .iter()
            .map(|(batch, named)| {
                let of_kind = |kind: &Ingredient| -> Mass {
                    named
                        .iter()
                        .filter(|(ingredient, _)| ingredient.is_same(kind))
                        .map(|(_, mass)| *mass)
                        .sum()
                };
                let base = match &of {
                    ShareOf::Total => batch.total(),
                    ShareOf::Ingredient(name) => named
                        .iter()
                        .filter(|(ingredient, _)| {
                            ingredient.name().to_lowercase() == name.to_lowercase()
                        })
                        .map(|(_, mass)| *mass)
                        .sum(),
                };
                let tasting = batch.tastings().into_iter().next_back();
                Row {
                    begun: batch.begun(),
                    total: batch.total(),
                    shares: kinds
                        .iter()
                        .map(|kind| {
                            let mass = of_kind(kind);
                            (mass > Mass::ZERO && base > Mass::ZERO)
                                .then(|| Ratio::new(mass.grams() / base.grams()))
                                .flatten()
                        })
                        .collect(),
                    mark: tasting.as_ref().map(|tasting| tasting.mark),
                    note: tasting.map(|tasting| tasting.note),
                }
            })
            .collect();
        Self {
            of,
            ingredients: kinds.iter().map(ToString::to_string).collect(),
            kinds,
            rows,
        }
    }

    /// An ingredient's share against the mark, for a plot: one point for each
    /// batch that has both.
    ///
    /// # Errors
    /// An ingredient that none of them has.
    pub fn against_mark(&self, ingredient: &str) -> Result<Vec<(Ratio, Mark)>, InputError> {
        let index = self
            .ingredients
            .iter()
            .position(|name| name.to_lowercase() == ingredient.trim().to_lowercase())
            .ok_or_else(|| {
                InputError::new(
                    "ingredient",
                    ingredient,
                    problem!("in-no-batch"),
                    expected!("ingredients-are", names = self.ingredients.join(", ")),
                )
            })?;
        Ok(self
            .rows
            .iter()
            .filter_map(|row| Some((row.shares.get(index).copied().flatten()?, row.mark?)))
            .collect())
    }

    /// The batch with the best mark; of several, the latest given.
    #[must_use]
    pub fn best(&self) -> Option<usize> {
        self.rows
            .iter()
            .enumerate()
            .filter_map(|(index, row)| Some((row.mark?, index)))
            .max()
            .map(|(_, index)| index)
    }
}
