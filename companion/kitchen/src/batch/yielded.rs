//! What came of a batch that was soaked, steeped, pressed or strained: milk of
//! beans, stock of bones, purée of roots; and batches of it side by side.

use super::{Batch, Mark, What};
use crate::statistics::{Confidence, next_within};
use crate::units::{InputError, Ratio, Volume};
use crate::written_name;
use evenhand_protocol::Mass;
use jiff::Timestamp;

/// How often the interval of the next batch holds.
const HOLDS: f64 = 0.8;
/// What may come out beyond what went in, as a share of it: weighing, and what
/// stuck to the last batch's sieve. Common practice, no source.
const BEYOND: f64 = 0.03;
/// The lightest and densest that food is, kg/l: whipped cream and syrup that
/// sets, with room. Common practice, no source.
const DENSITIES: (f64, f64) = (0.2, 2.0);

/// One thing that came out, weighed.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Yielded {
    name: String,
    #[serde(rename = "micrograms")]
    mass: Mass,
    #[serde(
        rename = "millilitres",
        default,
        skip_serializing_if = "Option::is_none"
    )]
    volume: Option<f64>,
}

impl Yielded {
    /// So much of it, with the room it takes where that was measured.
    ///
    /// # Errors
    /// A name or a mass that is none; a density that no food has.
    pub fn new(name: &str, mass: Mass, volume: Option<Volume>) -> Result<Self, InputError> {
        let name = written_name::name("name", name, 60, "bean milk")?;
        if mass <= Mass::ZERO {
            return Err(InputError::new(
                "mass",
                &format!("{} g", mass.grams()),
                problem!("not-above-zero"),
                expected!("what-came-out"),
            ));
        }
        let volume = volume.map(Volume::millilitres);
        if let Some(millilitres) = volume {
            let density = mass.grams() / millilitres;
            if !(DENSITIES.0..=DENSITIES.1).contains(&density) {
                return Err(InputError::new(
                    "volume",
                    &format!("{millilitres} ml"),
                    problem!("no-density", density = format!("{density:.2}")),
                    expected!("measure-again"),
                ));
            }
        }
        Ok(Self { name, mass, volume })
    }

    /// What it is.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// How much of it came out.
    #[must_use]
    pub const fn mass(&self) -> Mass {
        self.mass
    }

    /// Kilograms a litre, where its volume was measured.
    #[must_use]
    pub fn density(&self) -> Option<f64> {
        Some(self.mass.grams() / self.volume?)
    }
}

/// What came out of one batch.
#[derive(Debug, Clone, PartialEq)]
pub struct YieldRow {
    /// When it was begun.
    pub begun: Option<Timestamp>,
    /// The base in it.
    pub base: Mass,
    /// Everything in it, over the base.
    pub into: Ratio,
    /// What came out, over the base, in the order of the comparison's names;
    /// `None` where none of it did.
    pub out: Vec<Option<Ratio>>,
    /// Kilograms a litre of each, likewise.
    pub densities: Vec<Option<f64>>,
    /// What went in and did not come out, over the base; below nothing where
    /// something that went in was not weighed.
    pub lost: Ratio,
    /// Whether more came out than went in and weighing explains.
    pub more_than_went_in: bool,
    /// The last tasting's mark.
    pub mark: Option<Mark>,
}

/// What usually comes out, over the base.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsualYield {
    /// The mean.
    pub mean: Ratio,
    /// Between what the next batch lies eight times in ten.
    pub from: Ratio,
    /// And what.
    pub to: Ratio,
    /// From how many batches.
    pub batches: usize,
}

/// Batches by what came out of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Yields {
    /// Everything that came out of any of them.
    pub names: Vec<String>,
    /// The batches, in the order given; those without the base, or with
    /// nothing out yet, are left out.
    pub rows: Vec<YieldRow>,
    /// How many were left out.
    pub left_out: usize,
}

impl Yields {
    /// Lines batches up by what came out of one ingredient.
    ///
    /// # Errors
    /// None of them has the ingredient and something that came out.
    pub fn new<'b>(
        batches: impl IntoIterator<Item = &'b Batch>,
        base: &str,
    ) -> Result<Self, InputError> {
        let same = |a: &str, b: &str| a.to_lowercase() == b.trim().to_lowercase();
        let mut names: Vec<String> = Vec::new();
        let mut rows = Vec::new();
        let mut left_out = 0;
        let mut there: Vec<String> = Vec::new();
        for batch in batches {
            let weighed = batch.weighed_in();
            there.extend(
                weighed
                    .iter()
                    .filter_map(|slot| Some(slot.ingredient.as_ref()?.name().to_owned())),
            );
            let of_base: Mass = weighed
                .iter()
                .filter(|slot| {
                    slot.ingredient
                        .as_ref()
                        .is_some_and(|known| same(known.name(), base))
                })
                .map(|slot| slot.mass)
                .sum();
            let came = batch.yielded();
            if of_base <= Mass::ZERO || came.is_empty() {
                left_out += 1;
                continue;
            }
            for out in &came {
                if !names.iter().any(|known| same(known, out.name())) {
                    names.push(out.name().to_owned());
                }
            }
            let over = |grams: f64| Ratio::new(grams / of_base.grams()).unwrap_or(Ratio::ZERO);
            let (went, out) = (
                batch.total().grams(),
                came.iter().map(|out| out.mass().grams()).sum::<f64>(),
            );
            rows.push((
                came,
                YieldRow {
                    begun: batch.begun(),
                    base: of_base,
                    into: over(went),
                    out: Vec::new(),
                    densities: Vec::new(),
                    lost: over(went - out),
                    more_than_went_in: out > went * (1.0 + BEYOND),
                    mark: batch.tastings().last().map(|tasting| tasting.mark),
                },
            ));
        }
        if rows.is_empty() {
            there.sort_unstable();
            there.dedup();
            return Err(InputError::new(
                "base",
                base,
                problem!("no-yield"),
                expected!("weigh-what-came-out", names = there.join(", ")),
            ));
        }
        let rows = rows
            .into_iter()
            .map(|(came, row)| {
                let of = |name: &String| came.iter().find(|out| same(out.name(), name));
                YieldRow {
                    out: names
                        .iter()
                        .map(|name| Ratio::new(of(name)?.mass().grams() / row.base.grams()))
                        .collect(),
                    densities: names.iter().map(|name| of(name)?.density()).collect(),
                    ..row
                }
            })
            .collect();
        Ok(Self {
            names,
            rows,
            left_out,
        })
    }

    /// What usually comes out of one thing; `None` with fewer than three
    /// batches that have it.
    #[must_use]
    pub fn usual(&self, name: &str) -> Option<UsualYield> {
        let place = self
            .names
            .iter()
            .position(|known| known.to_lowercase() == name.trim().to_lowercase())?;
        let figures: Vec<f64> = self
            .rows
            .iter()
            .filter_map(|row| Some(row.out.get(place).copied().flatten()?.fraction()))
            .collect();
        let (mean, half) = next_within(&figures, Confidence::new(HOLDS).ok()?)?;
        Some(UsualYield {
            mean: Ratio::new(mean)?,
            from: Ratio::new((mean - half).max(0.0))?,
            to: Ratio::new(mean + half)?,
            batches: figures.len(),
        })
    }
}

impl Batch {
    /// What came out of it: of one name, all lines together.
    #[must_use]
    pub fn yielded(&self) -> Vec<Yielded> {
        let mut came: Vec<Yielded> = Vec::new();
        for (entry, struck) in self.entries() {
            let What::Yielded { out } = &entry.what else {
                continue;
            };
            if struck {
                continue;
            }
            match came
                .iter_mut()
                .find(|there| there.name.to_lowercase() == out.name.to_lowercase())
            {
                Some(there) => {
                    there.mass += out.mass;
                    there.volume = there.volume.zip(out.volume).map(|(a, b)| a + b);
                }
                None => came.push(out.clone()),
            }
        }
        came
    }
}
