//! A formula in stages: shares of a base, and what of them is made beforehand.
//!
//! Every share is of the whole base, stages included: flour that goes into a
//! starter's build is flour of the dough. That is the trade's way of comparing
//! doughs (a total formula, of which the stages take their part), and the only
//! one in which the salt of a dough does not depend on how it was built.

use crate::cure::NameRefusal;
use crate::ratio;
use crate::units::{InputError, Ratio};
use crate::written_name;
use evenhand_protocol::Temperature;

/// The most ingredients of a formula.
const MOST_INGREDIENTS: usize = 40;
/// The most stages before the last.
const MOST_STAGES: usize = 8;
/// The longest name, in characters.
const LONGEST_NAME: usize = 60;
/// How far the shares of a base may be from a hundred per cent: what rounding
/// three thirds to two decimals leaves.
const HUNDRED_TO_WITHIN: f64 = 0.05;
/// How far a stage may take more than there is, in per cent: rounding.
const TAKES_TO_WITHIN: f64 = 1e-6;
/// The largest share of anything, in per cent of the base.
const LARGEST_SHARE: f64 = 10_000.0;

/// What an ingredient counts as.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Counts {
    /// Part of the base, of which there is a hundred per cent in all: the
    /// flours of a dough, the beans of a milk.
    Base,
    /// Anything else, of which so much is water: all of water, nine tenths of
    /// milk, nothing of salt.
    Other {
        /// How much of it is water.
        water: Ratio,
    },
}

/// An ingredient of the whole formula with its share of the base.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    name: String,
    counts: Counts,
    percent: f64,
}

impl Ingredient {
    /// An ingredient: its name, what it counts as, and its share in per cent of
    /// the base.
    ///
    /// # Errors
    /// A name that is none or that curing agents go by, a share that is not
    /// above zero, more water in it than there is of it.
    pub fn new(name: &str, counts: Counts, percent: f64) -> Result<Self, InputError> {
        let name = plain(name)?;
        share(&format!("{name}, percent"), percent)?;
        if let Counts::Other { water } = counts
            && !(0.0..=1.0).contains(&water.fraction())
        {
            return Err(InputError::new(
                &format!("{name}, water"),
                &water.percent().to_string(),
                problem!("no-share-of-it"),
                expected!("water-of-it"),
            ));
        }
        Ok(Self {
            name,
            counts,
            percent,
        })
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What it counts as.
    #[must_use]
    pub const fn counts(&self) -> Counts {
        self.counts
    }

    /// Its share of the base.
    #[must_use]
    pub fn share(&self) -> Ratio {
        ratio_of(self.percent)
    }

    pub(super) const fn percent(&self) -> f64 {
        self.percent
    }

    const fn is_base(&self) -> bool {
        matches!(self.counts, Counts::Base)
    }
}

fn lines(
    field: &str,
    given: &[String],
    longest: usize,
    such_as: &str,
) -> Result<Vec<String>, InputError> {
    const MOST: usize = 30;
    if given.len() > MOST {
        return Err(InputError::new(
            field,
            &given.len().to_string(),
            problem!("too-many"),
            expected!("at-most", most = MOST),
        ));
    }
    given
        .iter()
        .map(|line| written_name::name(field, line, longest, such_as))
        .collect()
}

/// Ripe starter that a stage is begun with. It is flour and water of the
/// formula like any other.
#[derive(Debug, Clone, PartialEq)]
pub struct Starter {
    pub(super) percent: f64,
    pub(super) flour: String,
    pub(super) hydration: f64,
}

impl Starter {
    /// So much of it in per cent of the base, made of this flour with so much
    /// water in per cent of that flour.
    ///
    /// # Errors
    /// A share that is not above zero; a hydration outside 30 to 300 %, in which
    /// no starter is kept.
    pub fn new(percent: f64, flour: &str, hydration: f64) -> Result<Self, InputError> {
        share("starter, percent", percent)?;
        if !(30.0..=300.0).contains(&hydration) {
            return Err(InputError::new(
                "starter, hydration",
                &hydration.to_string(),
                problem!("no-starters"),
                expected!("starter-hydration"),
            ));
        }
        Ok(Self {
            percent,
            flour: plain(flour)?,
            hydration,
        })
    }

    /// Its share of the base.
    #[must_use]
    pub fn share(&self) -> Ratio {
        ratio_of(self.percent)
    }

    /// What its flour is called in the formula.
    #[must_use]
    pub fn flour(&self) -> &str {
        &self.flour
    }

    /// The weight of its water in per cent of its flour.
    #[must_use]
    pub fn hydration(&self) -> Ratio {
        ratio_of(self.hydration)
    }

    /// Flour and water in it, in per cent of the base.
    pub(super) fn flour_and_water(&self) -> (f64, f64) {
        let flour = self.percent / (1.0 + self.hydration / 100.0);
        (flour, self.percent - flour)
    }
}

/// How much of one ingredient a stage takes.
#[derive(Debug, Clone, PartialEq)]
pub struct StageShare {
    /// The ingredient, by its place in the formula.
    pub(super) ingredient: usize,
    pub(super) percent: f64,
}

impl StageShare {
    /// Its share of the base.
    #[must_use]
    pub fn share(&self) -> Ratio {
        ratio_of(self.percent)
    }
}

/// What is made before the rest, and goes whole into it, or into a later stage.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    pub(super) name: String,
    pub(super) starter: Option<Starter>,
    pub(super) shares: Vec<StageShare>,
    /// Earlier stages that go into it whole, by their places.
    pub(super) made: Vec<usize>,
}

impl Stage {
    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The starter that it is begun with.
    #[must_use]
    pub const fn starter(&self) -> Option<&Starter> {
        self.starter.as_ref()
    }

    /// What else goes into it.
    #[must_use]
    pub fn shares(&self) -> &[StageShare] {
        &self.shares
    }

    /// What goes into it itself, in per cent of the base.
    fn own_percent(&self) -> f64 {
        self.starter.as_ref().map_or(0.0, |starter| starter.percent)
            + self.shares.iter().map(|share| share.percent).sum::<f64>()
    }
}

/// A formula: shares of a base that come to a hundred per cent, shares of
/// everything else, and the stages that take part of them beforehand.
#[derive(Debug, Clone, PartialEq)]
pub struct StagedFormula {
    name: String,
    ingredients: Vec<Ingredient>,
    stages: Vec<Stage>,
    ends_at: Option<Temperature>,
    how: Vec<String>,
    limits: Vec<String>,
}

impl StagedFormula {
    /// A formula without stages.
    ///
    /// # Errors
    /// A name that is none, nothing in the base or a base that does not come to
    /// a hundred per cent, fewer than two ingredients or more than forty, one
    /// named twice.
    pub fn new(name: &str, mut ingredients: Vec<Ingredient>) -> Result<Self, InputError> {
        let name = written_name::name("formula", name, LONGEST_NAME, "tideline loaf")?;
        // The base first, as formulas are written.
        ingredients.sort_by_key(|ingredient| !ingredient.is_base());
        if !(2..=MOST_INGREDIENTS).contains(&ingredients.len()) {
            return Err(InputError::new(
                "ingredients",
                &ingredients.len().to_string(),
                problem!("formula-too-few"),
                expected!("from-to", low = 2, high = MOST_INGREDIENTS),
            ));
        }
        for (place, ingredient) in ingredients.iter().enumerate() {
            if ingredients[..place]
                .iter()
                .any(|other| same_name(&other.name, &ingredient.name))
            {
                return Err(twice("ingredient", &ingredient.name));
            }
        }
        let base: f64 = ingredients
            .iter()
            .filter(|ingredient| ingredient.is_base())
            .map(Ingredient::percent)
            .sum();
        if (base - 100.0).abs() > HUNDRED_TO_WITHIN {
            return Err(InputError::new(
                "base",
                &format!("{base} %"),
                problem!("not-a-hundred"),
                expected!("base-hundred"),
            ));
        }
        Ok(Self {
            name,
            ingredients,
            stages: Vec::new(),
            ends_at: None,
            how: Vec::new(),
            limits: Vec::new(),
        })
    }

    /// The same, with a temperature that it is to have when it is mixed.
    ///
    /// # Errors
    /// A temperature below 0 or above 60 °C: no dough is mixed there.
    pub fn ending_at(mut self, at: Temperature) -> Result<Self, InputError> {
        if !(0.0..=60.0).contains(&at.celsius()) {
            return Err(InputError::new(
                "ends_at",
                &format!("{} degC", at.celsius()),
                problem!("no-dough-temperature"),
                expected!("dough-ends-at"),
            ));
        }
        self.ends_at = Some(at);
        Ok(self)
    }

    /// The same, with how it is done, a sentence each.
    ///
    /// # Errors
    /// More than thirty sentences, or one that is none.
    pub fn done_by(mut self, how: &[String]) -> Result<Self, InputError> {
        self.how = lines("how", how, 200, "fold three times, half an hour apart")?;
        Ok(self)
    }

    /// The same, with the limits that apply to it by their names. Which are in
    /// force is for whoever asks.
    ///
    /// # Errors
    /// More than thirty, or one that is no name.
    pub fn held_to(mut self, limits: &[String]) -> Result<Self, InputError> {
        self.limits = lines("limits", limits, LONGEST_NAME, "cold-holding")?;
        Ok(self)
    }

    /// The same, with a stage made beforehand: its starter, and shares of the
    /// base by the names of ingredients.
    ///
    /// # Errors
    /// A name that is none or there already, a stage of nothing, an ingredient
    /// that is not in the formula or twice in the stage, a starter whose flour
    /// or water is not, and stages that take more of anything than there is.
    pub fn with_stage(
        self,
        name: &str,
        starter: Option<Starter>,
        shares: &[(&str, f64)],
    ) -> Result<Self, InputError> {
        self.with_stage_of(name, starter, shares, &[])
    }

    /// The same, with a stage that earlier stages go into whole, by their
    /// names: a starter's second build takes the first.
    ///
    /// # Errors
    /// As for [`StagedFormula::with_stage`], a stage that is not there yet, and
    /// one that goes somewhere already.
    pub fn with_stage_of(
        mut self,
        name: &str,
        starter: Option<Starter>,
        shares: &[(&str, f64)],
        made: &[&str],
    ) -> Result<Self, InputError> {
        let name = plain(name)?;
        let made = made
            .iter()
            .map(|earlier| self.to_go_into(&name, earlier))
            .collect::<Result<Vec<_>, _>>()?;
        if let Some((place, again)) = made
            .iter()
            .enumerate()
            .find(|(nth, place)| made[..*nth].contains(place))
        {
            return Err(twice(
                &format!("stage {name:?}"),
                &format!("{} ({})", self.stages[*again].name, place + 1),
            ));
        }
        if self.stages.len() >= MOST_STAGES {
            return Err(InputError::new(
                "stages",
                &name,
                problem!("stage-too-many"),
                expected!("at-most", most = MOST_STAGES),
            ));
        }
        if self.find(&name).is_some() || self.stages.iter().any(|s| same_name(&s.name, &name)) {
            return Err(twice("stage", &name));
        }
        let mut taken: Vec<StageShare> = Vec::with_capacity(shares.len());
        for (ingredient, percent) in shares {
            let place = self
                .find(ingredient)
                .ok_or_else(|| self.no_such(&format!("stage {name:?}"), ingredient, |_| true))?;
            share(&format!("stage {name:?}, {ingredient}"), *percent)?;
            if taken.iter().any(|there| there.ingredient == place) {
                return Err(twice(&format!("stage {name:?}"), ingredient));
            }
            taken.push(StageShare {
                ingredient: place,
                percent: *percent,
            });
        }
        if let Some(starter) = &starter {
            let field = format!("stage {name:?}, starter");
            let flour = self.find(&starter.flour);
            if !flour.is_some_and(|place| self.ingredients[place].is_base()) {
                return Err(self.no_such(&field, &starter.flour, Ingredient::is_base));
            }
            if self.water().is_none() {
                return Err(self.no_such(&field, "water", |_| true));
            }
        }
        if taken.is_empty() && starter.is_none() && made.len() < 2 {
            return Err(InputError::new(
                "stage",
                &name,
                problem!("nothing-in-it"),
                expected!("goes-in-or-leave"),
            ));
        }
        self.stages.push(Stage {
            name,
            starter,
            shares: taken,
            made,
        });
        let left = self.left_percents();
        for (ingredient, left) in self.ingredients.iter().zip(left) {
            if left < -TAKES_TO_WITHIN {
                return Err(InputError::new(
                    &ingredient.name,
                    &format!("{:.3} %", ingredient.percent - left),
                    problem!("stages-take", all = format!("{:.3}", ingredient.percent)),
                    expected!("shares-of-base"),
                ));
            }
        }
        Ok(self)
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its ingredients in all, in order.
    #[must_use]
    pub fn ingredients(&self) -> &[Ingredient] {
        &self.ingredients
    }

    /// The stages before the last, in order.
    #[must_use]
    pub fn stages(&self) -> &[Stage] {
        &self.stages
    }

    /// The earlier stages that go whole into a stage of this formula, by name.
    pub fn made_for<'s>(&'s self, stage: &'s Stage) -> impl Iterator<Item = &'s str> {
        stage
            .made
            .iter()
            .filter_map(|place| Some(self.stages.get(*place)?.name()))
    }

    /// All of a stage, what goes whole into it counted, in per cent of the base.
    pub(super) fn stage_percent(&self, stage: &Stage) -> f64 {
        // A stage's parts stand before it, so this ends.
        stage.own_percent()
            + stage
                .made
                .iter()
                .filter_map(|place| self.stages.get(*place))
                .map(|earlier| self.stage_percent(earlier))
                .sum::<f64>()
    }

    /// The stages that go into no other: into the last bowl.
    pub(super) fn last_stages(&self) -> impl Iterator<Item = &Stage> {
        self.stages
            .iter()
            .enumerate()
            .filter(|(place, _)| !self.goes_into_a_stage(*place))
            .map(|(_, stage)| stage)
    }

    fn goes_into_a_stage(&self, place: usize) -> bool {
        self.stages.iter().any(|later| later.made.contains(&place))
    }

    fn to_go_into(&self, stage: &str, earlier: &str) -> Result<usize, InputError> {
        let field = format!("stage {stage:?}");
        let place = self
            .stages
            .iter()
            .position(|known| same_name(&known.name, earlier))
            .ok_or_else(|| {
                let there: Vec<&str> = self.stages.iter().map(Stage::name).collect();
                InputError::new(
                    &field,
                    earlier,
                    problem!("no-stage-above"),
                    expected!("stages-before", names = there.join(", ")),
                )
            })?;
        if self.goes_into_a_stage(place) {
            return Err(InputError::new(
                &field,
                earlier,
                problem!("goes-elsewhere"),
                expected!("one-place"),
            ));
        }
        Ok(place)
    }

    /// What a stage of this formula takes of each ingredient, by name.
    pub fn taken_by<'s>(&'s self, stage: &'s Stage) -> impl Iterator<Item = (&'s str, Ratio)> {
        stage.shares.iter().filter_map(|share| {
            let ingredient = self.ingredients.get(share.ingredient)?;
            Some((ingredient.name(), share.share()))
        })
    }

    /// How warm it is to be when it is mixed.
    #[must_use]
    pub const fn ends_at(&self) -> Option<Temperature> {
        self.ends_at
    }

    /// How it is done, a sentence each.
    #[must_use]
    pub fn how(&self) -> &[String] {
        &self.how
    }

    /// The limits that apply to it, by name.
    #[must_use]
    pub fn limits(&self) -> &[String] {
        &self.limits
    }

    /// Water in all, that of other ingredients counted, of the base.
    #[must_use]
    pub fn hydration(&self) -> Ratio {
        ratio_of(
            self.ingredients
                .iter()
                .map(|ingredient| match ingredient.counts {
                    Counts::Base => 0.0,
                    Counts::Other { water } => ingredient.percent * water.fraction(),
                })
                .sum(),
        )
    }

    /// How much of the base is in the stages, starters counted.
    #[must_use]
    pub fn base_in_stages(&self) -> Ratio {
        ratio_of(
            self.ingredients
                .iter()
                .zip(self.left_percents())
                .filter(|(ingredient, _)| ingredient.is_base())
                .map(|(ingredient, left)| ingredient.percent - left)
                .sum(),
        )
    }

    /// Everything, of the base.
    #[must_use]
    pub fn total(&self) -> Ratio {
        ratio_of(self.total_percent())
    }

    pub(super) fn total_percent(&self) -> f64 {
        self.ingredients.iter().map(Ingredient::percent).sum()
    }

    /// Where an ingredient of that name is, in any case.
    pub(super) fn find(&self, name: &str) -> Option<usize> {
        self.ingredients
            .iter()
            .position(|ingredient| same_name(&ingredient.name, name))
    }

    /// The ingredient that is water and nothing else: the one called so, else
    /// the first.
    pub(super) fn water(&self) -> Option<usize> {
        let all_water = |ingredient: &Ingredient| matches!(ingredient.counts, Counts::Other { water } if water.fraction() >= 1.0);
        self.find("water")
            .filter(|place| all_water(&self.ingredients[*place]))
            .or_else(|| self.ingredients.iter().position(all_water))
    }

    /// How much of each ingredient the stages leave, in per cent of the base;
    /// below zero where they take more than there is.
    pub(super) fn left_percents(&self) -> Vec<f64> {
        let mut left: Vec<f64> = self.ingredients.iter().map(Ingredient::percent).collect();
        for stage in &self.stages {
            for share in &stage.shares {
                left[share.ingredient] -= share.percent;
            }
            if let Some(starter) = &stage.starter {
                let (flour, water) = starter.flour_and_water();
                for (place, percent) in [(self.find(&starter.flour), flour), (self.water(), water)]
                {
                    if let Some(place) = place {
                        left[place] -= percent;
                    }
                }
            }
        }
        left
    }

    /// What is dry and what is water in the last bowl, as parts of the base.
    pub(crate) fn dry_and_water_in_last_bowl(&self) -> (f64, f64) {
        self.dry_and_water(&self.left_percents())
    }

    /// What is dry and what is water in all stages together, as parts of the
    /// base.
    pub(crate) fn dry_and_water_in_stages(&self) -> (f64, f64) {
        let taken: Vec<f64> = self
            .ingredients
            .iter()
            .zip(self.left_percents())
            .map(|(ingredient, left)| ingredient.percent - left)
            .collect();
        self.dry_and_water(&taken)
    }

    fn dry_and_water(&self, percents: &[f64]) -> (f64, f64) {
        self.ingredients.iter().zip(percents).fold(
            (0.0, 0.0),
            |(dry, wet), (ingredient, percent)| {
                let water = match ingredient.counts {
                    Counts::Base => 0.0,
                    Counts::Other { water } => percent * water.fraction(),
                };
                (dry + (percent - water) / 100.0, wet + water / 100.0)
            },
        )
    }

    fn no_such(&self, field: &str, name: &str, which: fn(&Ingredient) -> bool) -> InputError {
        let there: Vec<&str> = self
            .ingredients
            .iter()
            .filter(|ingredient| which(ingredient))
            .map(Ingredient::name)
            .collect();
        InputError::new(
            field,
            name,
            problem!("not-in-formula"),
            expected!("one-of", names = there.join(", ")),
        )
    }
}

/// A share in per cent of the base as a ratio. It was checked when it was
/// taken, so it is a number.
pub(super) fn ratio_of(percent: f64) -> Ratio {
    Ratio::new(percent / 100.0).unwrap_or_default()
}

pub(super) fn same_name(one: &str, other: &str) -> bool {
    one.to_lowercase() == other.trim().to_lowercase()
}

fn plain(name: &str) -> Result<String, InputError> {
    let name = written_name::name("ingredient", name, LONGEST_NAME, "rye flour")?;
    ratio::Ingredient::plain(&name)
        .map_err(|refusal| {
            InputError::new(
                "ingredient",
                &name,
                match refusal {
                    NameRefusal::Empty => problem!("empty"),
                    NameRefusal::Salt => problem!("called-salt"),
                    NameRefusal::CuringAgent => problem!("curing-agent"),
                },
                expected!("cure-apart"),
            )
        })
        .map(|_| name)
}

fn share(field: &str, percent: f64) -> Result<(), InputError> {
    if percent.is_finite() && percent > 0.0 && percent <= LARGEST_SHARE {
        return Ok(());
    }
    Err(InputError::new(
        field,
        &percent.to_string(),
        problem!("no-share"),
        expected!("share-most", most = LARGEST_SHARE),
    ))
}

fn twice(field: &str, name: &str) -> InputError {
    InputError::new(field, name, problem!("twice-here"), expected!("own-name"))
}
