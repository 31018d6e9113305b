//! The text that a formula is kept in: plain TOML, made to be read and edited
//! by hand and to be kept under version control.

use super::formula::{Counts, Ingredient, StagedFormula, Starter};
use crate::units::typed;
use crate::units::{InputError, Ratio, parse_temperature};
use serde::{Deserialize, Serialize};

/// The longest text that is read: far more than forty ingredients and eight
/// stages need.
pub(super) const LONGEST: usize = 64 * 1024;

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Text {
    pub(super) name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) ends_at: Option<String>,
    /// How it is done, a sentence each.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) how: Vec<String>,
    /// The limits that apply to it, by name.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) limits: Vec<String>,
    pub(super) base: Vec<Share>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) other: Vec<Other>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) stage: Vec<StageText>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Share {
    pub(super) name: String,
    pub(super) percent: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Other {
    pub(super) name: String,
    pub(super) percent: f64,
    /// How much of it is water, in per cent; of what is called water all,
    /// of anything else nothing, where it is not said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) water: Option<f64>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StageText {
    pub(super) name: String,
    /// Earlier stages that go into it whole.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) made: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) starter: Option<StarterText>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) takes: Vec<Share>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StarterText {
    pub(super) percent: f64,
    pub(super) flour: String,
    pub(super) hydration: f64,
}

/// How much of something is water where nothing is said, in per cent.
fn unsaid_water(name: &str) -> f64 {
    if name.trim().eq_ignore_ascii_case("water") {
        100.0
    } else {
        0.0
    }
}

/// A per cent as it was written, without the noise of dividing and multiplying
/// by a hundred.
fn to_nine_places(percent: f64) -> f64 {
    (percent * 1e9).round() / 1e9
}

impl StagedFormula {
    /// Reads a formula's text.
    ///
    /// ```
    /// use evenhand_kitchen::book::StagedFormula;
    /// let loaf = StagedFormula::from_toml(r#"
    ///     name = "tideline loaf"
    ///     ends_at = "24 degC"
    ///     [[base]]
    ///     name = "bread flour"
    ///     percent = 100
    ///     [[other]]
    ///     name = "water"
    ///     percent = 72
    ///     [[other]]
    ///     name = "salt"
    ///     percent = 2
    ///     [[stage]]
    ///     name = "levain"
    ///     starter = { percent = 3, flour = "bread flour", hydration = 100 }
    ///     takes = [
    ///         { name = "bread flour", percent = 13.5 },
    ///         { name = "water", percent = 13.5 },
    ///     ]
    /// "#).unwrap();
    /// assert_eq!(loaf.hydration().percent().round(), 72.0);
    /// assert_eq!(loaf.base_in_stages().percent().round(), 15.0);
    /// ```
    ///
    /// # Errors
    /// Text that is no TOML or has a field that a formula has not, with its
    /// line; otherwise as for [`StagedFormula::new`] and
    /// [`StagedFormula::with_stage`].
    pub fn from_toml(text: &str) -> Result<Self, InputError> {
        if text.len() > LONGEST {
            return Err(InputError::new(
                "formula",
                &format!("{} bytes", text.len()),
                problem!("formula-too-long"),
                expected!("most-bytes", most = LONGEST),
            ));
        }
        let read: Text = toml::from_str(text).map_err(|error| {
            let at = error.span().map_or(0, |span| span.start).min(text.len());
            let before = text.get(..at).unwrap_or_default();
            let line = before.matches('\n').count() + 1;
            InputError::new(
                &format!("line {line}"),
                text.lines().nth(line - 1).unwrap_or_default().trim(),
                problem!("not-understood"),
                expected!("formula-file"),
            )
        })?;
        Self::of_text(&read)
    }

    /// The formula that a text says.
    pub(super) fn of_text(read: &Text) -> Result<Self, InputError> {
        let mut ingredients = Vec::with_capacity(read.base.len() + read.other.len());
        for base in &read.base {
            ingredients.push(Ingredient::new(&base.name, Counts::Base, base.percent)?);
        }
        for other in &read.other {
            let percent = other.water.unwrap_or_else(|| unsaid_water(&other.name));
            let water = Ratio::new(percent / 100.0).ok_or_else(|| {
                InputError::new(
                    &format!("{}, water", other.name),
                    &percent.to_string(),
                    problem!("no-share-of-it"),
                    expected!("water-of-it"),
                )
            })?;
            let counts = Counts::Other { water };
            ingredients.push(Ingredient::new(&other.name, counts, other.percent)?);
        }
        let mut formula = Self::new(&read.name, ingredients)?;
        for stage in &read.stage {
            let starter = stage
                .starter
                .as_ref()
                .map(|starter| Starter::new(starter.percent, &starter.flour, starter.hydration))
                .transpose()?;
            let takes: Vec<(&str, f64)> = stage
                .takes
                .iter()
                .map(|share| (share.name.as_str(), share.percent))
                .collect();
            let made: Vec<&str> = stage.made.iter().map(String::as_str).collect();
            formula = formula.with_stage_of(&stage.name, starter, &takes, &made)?;
        }
        formula = formula.done_by(&read.how)?.held_to(&read.limits)?;
        match &read.ends_at {
            Some(text) => formula.ending_at(parse_temperature("ends_at", text)?),
            None => Ok(formula),
        }
    }

    /// Writes a formula's text; reading it gives the same formula.
    ///
    /// # Errors
    /// None that a formula can cause; what the writer of TOML reports is handed
    /// on.
    pub fn to_toml(&self) -> Result<String, InputError> {
        toml::to_string(&self.text()).map_err(|error| {
            InputError::new(
                "formula",
                self.name(),
                problem!("cannot-be-written", why = typed(error.to_string())),
                expected!("tell-maintainer"),
            )
        })
    }

    /// What its text says.
    pub(super) fn text(&self) -> Text {
        let share = |ingredient: &Ingredient| Share {
            name: ingredient.name().to_owned(),
            percent: ingredient.percent(),
        };
        Text {
            name: self.name().to_owned(),
            ends_at: self.ends_at().map(|at| format!("{} degC", at.celsius())),
            how: self.how().to_vec(),
            limits: self.limits().to_vec(),
            base: self
                .ingredients()
                .iter()
                .filter(|ingredient| ingredient.counts() == Counts::Base)
                .map(share)
                .collect(),
            other: self
                .ingredients()
                .iter()
                .filter_map(|ingredient| match ingredient.counts() {
                    Counts::Base => None,
                    Counts::Other { water } => Some(Other {
                        name: ingredient.name().to_owned(),
                        percent: ingredient.percent(),
                        water: Some(to_nine_places(water.percent()))
                            .filter(|percent| *percent != unsaid_water(ingredient.name())),
                    }),
                })
                .collect(),
            stage: self
                .stages()
                .iter()
                .map(|stage| StageText {
                    name: stage.name().to_owned(),
                    made: self.made_for(stage).map(str::to_owned).collect(),
                    starter: stage.starter().map(|starter| StarterText {
                        percent: starter.percent,
                        flour: starter.flour().to_owned(),
                        hydration: starter.hydration,
                    }),
                    takes: stage
                        .shares()
                        .iter()
                        .filter_map(|share| {
                            let ingredient = self.ingredients().get(share.ingredient)?;
                            Some(Share {
                                name: ingredient.name().to_owned(),
                                percent: share.percent,
                            })
                        })
                        .collect(),
                })
                .collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const LOAF: &str = r#"name = "tideline loaf"
ends_at = "24 degC"
how = ["mix until it lets go", "fold three times"]
limits = ["cold-holding"]

[[base]]
name = "bread flour"
percent = 80.0

[[base]]
name = "dark rye"
percent = 20.0

[[other]]
name = "water"
percent = 66.0

[[other]]
name = "buttermilk"
percent = 10.0
water = 90.0

[[other]]
name = "salt"
percent = 2.0

[[stage]]
name = "levain"

[stage.starter]
percent = 3.0
flour = "dark rye"
hydration = 100.0

[[stage.takes]]
name = "dark rye"
percent = 13.5

[[stage.takes]]
name = "water"
percent = 13.5
"#;

    #[test]
    fn a_text_is_written_back_as_it_was_read() {
        let loaf = StagedFormula::from_toml(LOAF).unwrap();
        assert_eq!(loaf.to_toml().unwrap(), LOAF);
        // 66 % and nine tenths of 10 %, by hand.
        assert!((loaf.hydration().percent() - 75.0).abs() < 1e-9);
        assert!((loaf.base_in_stages().percent() - 15.0).abs() < 1e-9);
    }

    #[test]
    fn what_is_not_understood_is_named_with_its_line() {
        let error = StagedFormula::from_toml(&LOAF.replace("[[other]]", "[[liquid]]")).unwrap_err();
        assert!(error.to_string().contains("liquid"), "{error}");
        let error =
            StagedFormula::from_toml(&LOAF.replace("percent = 20.0", "percent = \"a fifth\""))
                .unwrap_err();
        assert_eq!(error.field(), "line 12");
        let error = StagedFormula::from_toml(&LOAF.replace("80.0", "79.0")).unwrap_err();
        assert_eq!(error.field(), "base");
        let error = StagedFormula::from_toml(&"x".repeat(10_000_000)).unwrap_err();
        assert!(error.to_string().len() < 300, "{error}");
        // One line of nine thousand characters is not echoed either.
        let error = StagedFormula::from_toml(&format!("{} = 1", "y".repeat(9000))).unwrap_err();
        assert!(error.to_string().len() < 700, "{}", error.to_string().len());
    }

    proptest! {
        #[test]
        fn any_formula_is_read_back_as_it_was(
            flours in prop::collection::vec(1.0f64..100.0, 1..4),
            others in prop::collection::vec((0.01f64..120.0, 0u32..=100), 1..6),
            taken in 0.01f64..0.99,
        ) {
            let sum: f64 = flours.iter().sum();
            let mut ingredients: Vec<Ingredient> = flours
                .iter()
                .enumerate()
                .map(|(n, share)| {
                    Ingredient::new(&format!("flour {n}"), Counts::Base, 100.0 * share / sum).unwrap()
                })
                .collect();
            for (n, (percent, water)) in others.iter().enumerate() {
                let water = Ratio::new(f64::from(*water) / 100.0).unwrap();
                ingredients.push(
                    Ingredient::new(&format!("other {n}"), Counts::Other { water }, *percent).unwrap(),
                );
            }
            let share = ingredients[0].percent() * taken;
            let formula = StagedFormula::new("any", ingredients)
                .unwrap()
                .with_stage("first", None, &[("flour 0", share)])
                .unwrap();
            let text = formula.to_toml().unwrap();
            prop_assert_eq!(StagedFormula::from_toml(&text).unwrap(), formula);
        }
    }
}
