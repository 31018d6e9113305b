//! A ratio, in the way it was said.

use super::Ingredient;
use crate::units::InputError;
use evenhand_protocol::Mass;

/// The way a ratio is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Form {
    /// So many parts of each.
    Parts,
    /// Per cent of the water's weight.
    OfWater,
    /// Per cent of the weight of everything.
    OfTotal,
    /// Per cent of the weight of all flour together.
    Bakers,
    /// Per cent of the weight of meat and water together; those two are
    /// whatever they are.
    OfMeatAndWater,
}

impl Form {
    /// What its numbers are.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Parts => "parts by weight",
            Self::OfWater => "% of the water",
            Self::OfTotal => "% of the total",
            Self::Bakers => "% of the flour",
            Self::OfMeatAndWater => "% of meat and water together",
        }
    }
}

/// One ingredient and its number, in the way the ratio is said.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    ingredient: Ingredient,
    part: Part,
}

/// How much of an item.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Part {
    /// So many parts, of which all items with parts hold the same size.
    Parts(f64),
    /// Whatever there is of it; part of what others are reckoned on.
    Free,
    /// So many per cent of everything free.
    OfFree(f64),
}

impl Item {
    /// The ingredient.
    #[must_use]
    pub const fn ingredient(&self) -> &Ingredient {
        &self.ingredient
    }

    /// How much of it.
    #[must_use]
    pub const fn part(&self) -> Part {
        self.part
    }
}

/// Why something is no ratio.
#[derive(Debug, Clone, PartialEq)]
pub enum RatioError {
    /// Fewer than two ingredients.
    TooFew(usize),
    /// Nothing but meat and water.
    OnlyMeatAndWater,
    /// Something that was weighed under this number has no name.
    Nameless(u32),
    /// One is named twice.
    Twice(String),
    /// A number that is not above zero, or none that can be held.
    NoAmount {
        /// Of which ingredient.
        name: String,
        /// The number.
        number: f64,
    },
    /// The others leave nothing for the one that makes up the hundred.
    NothingLeft {
        /// The one that makes up the hundred.
        rest: String,
        /// What they leave, in per cent.
        left: f64,
    },
    /// The flours do not come to a hundred.
    Flours(f64),
}

impl core::fmt::Display for RatioError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        InputError::from(self.clone()).fmt(f)
    }
}

impl std::error::Error for RatioError {}

impl From<RatioError> for InputError {
    fn from(error: RatioError) -> Self {
        match error {
            RatioError::TooFew(count) => Self::new(
                "ingredients",
                &count.to_string(),
                problem!("too-few-for-ratio"),
                expected!("at-least-two"),
            ),
            RatioError::OnlyMeatAndWater => Self::new(
                "ingredients",
                "meat and water",
                problem!("in-no-ratio"),
                expected!("one-more"),
            ),
            RatioError::Nameless(slot) => Self::new(
                "item",
                &slot.to_string(),
                problem!("nameless"),
                expected!("say-what"),
            ),
            RatioError::Twice(name) => Self::new(
                "ingredients",
                &name,
                problem!("twice-here"),
                expected!("own-name"),
            ),
            RatioError::NoAmount { name, number } => Self::new(
                &name,
                &number.to_string(),
                if number < 0.0 {
                    problem!("negative")
                } else {
                    problem!("no-amount")
                },
                expected!("above-zero"),
            ),
            RatioError::NothingLeft { rest, left } => Self::new(
                &rest,
                &format!("{left:.4} %"),
                problem!("others-leave"),
                expected!("others-below-100"),
            ),
            RatioError::Flours(sum) => Self::new(
                "flour",
                &format!("{sum} %"),
                problem!("not-a-hundred"),
                expected!("flour-100"),
            ),
        }
    }
}

/// A ratio of at least two ingredients, none named twice.
#[derive(Debug, Clone, PartialEq)]
pub struct Formula {
    form: Form,
    items: Vec<Item>,
}

/// An ingredient with its number.
pub type Line = (Ingredient, f64);

impl Formula {
    /// So many parts by weight of each.
    ///
    /// # Errors
    /// Fewer than two ingredients, one named twice, a number that is not above
    /// zero.
    pub fn parts(lines: Vec<Line>) -> Result<Self, RatioError> {
        let items = lines
            .into_iter()
            .map(|(ingredient, parts)| {
                positive(&ingredient, parts).map(|()| parts_of(ingredient, parts))
            })
            .collect::<Result<_, _>>()?;
        Self::checked(Form::Parts, items)
    }

    /// The weight of each as per cent of that of the water, or of whatever
    /// liquid stands in its place.
    ///
    /// # Errors
    /// As for [`Formula::parts`].
    pub fn of_water(water: Ingredient, lines: Vec<Line>) -> Result<Self, RatioError> {
        let mut all = vec![(water, 100.0)];
        all.extend(lines);
        Self::parts(all).map(|formula| formula.said(Form::OfWater))
    }

    /// The weight of each as per cent of that of everything; `rest` makes up
    /// the hundred.
    ///
    /// # Errors
    /// As for [`Formula::parts`], and numbers that leave nothing for the rest.
    pub fn of_total(rest: Ingredient, lines: Vec<Line>) -> Result<Self, RatioError> {
        for (ingredient, percent) in &lines {
            positive(ingredient, *percent)?;
        }
        let sum: f64 = lines.iter().map(|(_, percent)| percent).sum();
        if sum >= 100.0 {
            return Err(RatioError::NothingLeft {
                rest: rest.name().to_owned(),
                left: 100.0 - sum,
            });
        }
        let mut all = vec![(rest, 100.0 - sum)];
        all.extend(lines);
        Self::parts(all).map(|formula| formula.said(Form::OfTotal))
    }

    /// Flours in their shares, which come to a hundred, and the weight of
    /// everything else as per cent of all flour.
    ///
    /// # Errors
    /// As for [`Formula::parts`], no flour, and flours that do not come to a
    /// hundred.
    pub fn bakers(flours: Vec<Line>, others: Vec<Line>) -> Result<Self, RatioError> {
        let sum: f64 = flours.iter().map(|(_, percent)| percent).sum();
        if (sum - 100.0).abs() > 1e-6 {
            return Err(RatioError::Flours(sum));
        }
        let mut all = flours;
        all.extend(others);
        Self::parts(all).map(|formula| formula.said(Form::Bakers))
    }

    /// The weight of each as per cent of meat and water together, of which
    /// there is whatever there is. Where one of the others is overdone, more
    /// water makes up for it.
    ///
    /// # Errors
    /// As for [`Formula::parts`].
    pub fn of_meat_and_water(
        meat: Ingredient,
        water: Ingredient,
        lines: Vec<Line>,
    ) -> Result<Self, RatioError> {
        let free = |ingredient| Item {
            ingredient,
            part: Part::Free,
        };
        let mut items = vec![free(meat), free(water)];
        for (ingredient, percent) in lines {
            positive(&ingredient, percent)?;
            items.push(Item {
                ingredient,
                part: Part::OfFree(percent),
            });
        }
        if items.len() < 3 {
            return Err(RatioError::OnlyMeatAndWater);
        }
        Self::checked(Form::OfMeatAndWater, items)
    }

    /// The ratio of what was weighed.
    ///
    /// # Errors
    /// Fewer than two ingredients, or one of nothing.
    pub fn of_weighed(weighed: Vec<(Ingredient, Mass)>) -> Result<Self, RatioError> {
        Self::parts(
            weighed
                .into_iter()
                .map(|(ingredient, mass)| (ingredient, mass.grams()))
                .collect(),
        )
    }

    /// A ratio as it was put on record.
    ///
    /// # Errors
    /// As for [`Formula::parts`].
    pub(crate) fn on_record(
        form: Form,
        lines: impl IntoIterator<Item = (Ingredient, Part)>,
    ) -> Result<Self, RatioError> {
        let items = lines
            .into_iter()
            .map(|(ingredient, part)| {
                if let Part::Parts(number) | Part::OfFree(number) = part {
                    positive(&ingredient, number)?;
                }
                Ok(Item { ingredient, part })
            })
            .collect::<Result<_, RatioError>>()?;
        Self::checked(form, items)
    }

    fn checked(form: Form, items: Vec<Item>) -> Result<Self, RatioError> {
        if items.len() < 2 {
            return Err(RatioError::TooFew(items.len()));
        }
        for (index, item) in items.iter().enumerate() {
            if items[..index].iter().any(|other| {
                other.ingredient.name().to_lowercase() == item.ingredient.name().to_lowercase()
            }) {
                return Err(RatioError::Twice(item.ingredient.name().to_owned()));
            }
        }
        Ok(Self { form, items })
    }

    fn said(self, form: Form) -> Self {
        Self { form, ..self }
    }

    /// The way it is said.
    #[must_use]
    pub const fn form(&self) -> Form {
        self.form
    }

    /// Its ingredients, in order.
    #[must_use]
    pub fn items(&self) -> &[Item] {
        &self.items
    }

    /// Where an ingredient of that name is, in any case.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<usize> {
        let name = name.trim().to_lowercase();
        self.items
            .iter()
            .position(|item| item.ingredient.name().to_lowercase() == name)
    }

    /// How much of each, for so much of one of them.
    ///
    /// # Errors
    /// No such item, an amount of nothing or less, a ratio in which meat and
    /// water are whatever there is.
    pub fn amounts(&self, item: usize, amount: Mass) -> Result<Vec<Mass>, InputError> {
        let parts = self.all_parts()?;
        let Some(part) = parts.get(item) else {
            return Err(InputError::new(
                "item",
                &item.to_string(),
                problem!("not-in-it"),
                expected!("has-ingredients", count = parts.len()),
            ));
        };
        crate::brine::above_zero(self.items[item].ingredient.name(), amount)?;
        scaled(&parts, amount.grams() / part)
    }

    /// How much of each, for so much of all together.
    ///
    /// # Errors
    /// As for [`Formula::amounts`].
    pub fn amounts_of_total(&self, total: Mass) -> Result<Vec<Mass>, InputError> {
        let parts = self.all_parts()?;
        crate::brine::above_zero("total", total)?;
        scaled(&parts, total.grams() / parts.iter().sum::<f64>())
    }

    fn all_parts(&self) -> Result<Vec<f64>, InputError> {
        self.items
            .iter()
            .map(|item| match item.part {
                Part::Parts(parts) => Ok(parts),
                Part::Free | Part::OfFree(_) => Err(InputError::new(
                    "ratio",
                    self.form.words(),
                    problem!("no-size"),
                    expected!("weigh-meat-and-water"),
                )),
            })
            .collect()
    }

    /// The same with one ingredient more or less by so many per cent of what
    /// it was: "as last time but 5 % more water".
    ///
    /// # Errors
    /// An ingredient that is not there or is whatever there is of it, and a
    /// change that leaves nothing.
    pub fn with_more(&self, name: &str, percent: f64) -> Result<Self, InputError> {
        let index = self.find(name).ok_or_else(|| {
            InputError::new(
                "ingredient",
                name,
                problem!("not-in-it"),
                expected!(
                    "ingredient-has",
                    names = self
                        .items
                        .iter()
                        .map(|item| item.ingredient.name())
                        .collect::<Vec<_>>()
                        .join(", ")
                ),
            )
        })?;
        let factor = 1.0 + percent / 100.0;
        if !(factor.is_finite() && factor > 0.0) {
            return Err(InputError::new(
                "change",
                &format!("{percent} %"),
                problem!("leaves-nothing"),
                expected!("above-minus-hundred"),
            ));
        }
        let mut changed = self.clone();
        changed.items[index].part = match self.items[index].part {
            Part::Parts(parts) => Part::Parts(parts * factor),
            Part::OfFree(percent) => Part::OfFree(percent * factor),
            Part::Free => {
                return Err(InputError::new(
                    "ingredient",
                    name,
                    problem!("whatever-there-is"),
                    expected!("one-with-a-number"),
                ));
            }
        };
        // A change breaks the hundred of the other forms; as parts it stays true.
        if matches!(self.form, Form::OfWater | Form::OfTotal | Form::Bakers) {
            changed.form = Form::Parts;
        }
        Ok(changed)
    }
}

fn scaled(parts: &[f64], one_part: f64) -> Result<Vec<Mass>, InputError> {
    parts
        .iter()
        .map(|parts| {
            let grams = parts * one_part;
            Mass::from_fractional_grams(grams).ok_or_else(|| {
                InputError::new(
                    "amount",
                    &format!("{grams} g"),
                    problem!("beyond-held"),
                    expected!("kitchen-mass"),
                )
            })
        })
        .collect()
}

fn parts_of(ingredient: Ingredient, parts: f64) -> Item {
    Item {
        ingredient,
        part: Part::Parts(parts),
    }
}

fn positive(ingredient: &Ingredient, number: f64) -> Result<(), RatioError> {
    if number.is_finite() && number > 0.0 && number <= 1e9 {
        return Ok(());
    }
    Err(RatioError::NoAmount {
        name: ingredient.name().to_owned(),
        number,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(name: &str) -> Ingredient {
        Ingredient::plain(name).unwrap()
    }

    fn parts(formula: &Formula) -> Vec<f64> {
        formula
            .items()
            .iter()
            .map(|item| match item.part() {
                Part::Parts(parts) | Part::OfFree(parts) => parts,
                Part::Free => 0.0,
            })
            .collect()
    }

    #[test]
    fn each_way_of_saying_comes_to_its_parts() {
        let brine = Formula::of_water(plain("water"), vec![(plain("salt"), 8.0)]).unwrap();
        assert_eq!(parts(&brine), [100.0, 8.0]);
        let total = Formula::of_total(
            plain("rice"),
            vec![(plain("vinegar"), 10.0), (plain("sugar"), 5.0)],
        )
        .unwrap();
        assert_eq!(parts(&total), [85.0, 10.0, 5.0]);
        let dough = Formula::bakers(
            vec![(plain("wheat"), 80.0), (plain("rye"), 20.0)],
            vec![(plain("water"), 70.0)],
        )
        .unwrap();
        assert_eq!(parts(&dough), [80.0, 20.0, 70.0]);
    }

    #[test]
    fn nonsense_is_refused_by_name() {
        let salt = || plain("salt");
        assert!(Formula::parts(vec![(salt(), 1.0)]).is_err());
        assert_eq!(
            Formula::parts(vec![(salt(), 1.0), (plain("Salt"), 2.0)]).unwrap_err(),
            RatioError::Twice("Salt".to_owned())
        );
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(matches!(
                Formula::of_water(plain("water"), vec![(salt(), bad)]),
                Err(RatioError::NoAmount { name, .. }) if name == "salt"
            ));
        }
        assert!(Formula::of_total(plain("water"), vec![(salt(), 100.0)]).is_err());
        assert!(Formula::bakers(vec![(plain("wheat"), 90.0)], vec![(salt(), 2.0)]).is_err());
        assert!(Formula::of_meat_and_water(plain("necks"), plain("water"), vec![]).is_err());
    }

    #[test]
    fn amounts_follow_from_one_or_from_all() {
        let brine = Formula::of_water(plain("water"), vec![(plain("salt"), 8.0)]).unwrap();
        let grams = |masses: Vec<Mass>| masses.iter().map(|mass| mass.grams()).collect::<Vec<_>>();
        assert_eq!(
            grams(brine.amounts(1, Mass::from_grams(40)).unwrap()),
            [500.0, 40.0]
        );
        assert_eq!(
            grams(brine.amounts_of_total(Mass::from_grams(1080)).unwrap()),
            [1000.0, 80.0]
        );
        assert!(brine.amounts(2, Mass::from_grams(40)).is_err());
        assert!(brine.amounts(0, Mass::ZERO).is_err());
        let free =
            Formula::of_meat_and_water(plain("necks"), plain("water"), vec![(plain("salt"), 2.0)])
                .unwrap();
        assert!(free.amounts_of_total(Mass::from_grams(1)).is_err());
    }

    #[test]
    fn as_last_time_but_five_per_cent_more_water() {
        let last = Formula::of_weighed(vec![
            (plain("soy beans"), Mass::from_grams(500)),
            (plain("water"), Mass::from_grams(900)),
        ])
        .unwrap();
        let next = last.with_more("Water", 5.0).unwrap();
        assert_eq!(parts(&next), [500.0, 945.0]);
        assert!(
            last.with_more("milk", 5.0)
                .unwrap_err()
                .expected()
                .in_english()
                .contains("soy beans")
        );
        assert!(last.with_more("water", -100.0).is_err());
    }
}
