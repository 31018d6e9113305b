//! What goes into each bowl, as the scale can weigh it.

use super::formula::{StagedFormula, ratio_of, same_name};
use crate::ratio;
use crate::units::{InputError, Ratio};
use evenhand_protocol::Mass;

/// The most pieces that are asked for at once.
const MOST_PIECES: u32 = 10_000;
/// What a line may be off by rounding before it is doubted, as a fraction of
/// one. A fiftieth of the salt or the yeast is less than anybody tells by taste
/// or by time. Common practice, no source.
const ROUNDED_TO_WITHIN: f64 = 0.02;

/// How much is to be made.
#[derive(Debug, Clone, PartialEq)]
pub enum Size {
    /// So much of the base in all, stages included.
    Base(Mass),
    /// So much of everything together.
    Total(Mass),
    /// So many pieces, with what is lost on hands, bowls and bench before they
    /// are divided.
    Pieces {
        /// How many.
        count: u32,
        /// What each weighs when it is divided.
        each: Mass,
        /// How much of what was mixed is lost.
        lost: Ratio,
    },
    /// All there is of one ingredient or one stage.
    Of {
        /// Which, by its name.
        name: String,
        /// How much there is.
        mass: Mass,
    },
}

/// One line of a bowl.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// What it is.
    pub name: String,
    /// Its share of the base.
    pub of_base: Ratio,
    /// What the formula asks for.
    pub exact: Mass,
    /// The same in whole steps of the scale; one step where less than half a
    /// step is asked for. Of a stage it is all that was made.
    pub weigh: Mass,
}

impl Weighed {
    /// By how much of itself it is off for the scale's step.
    #[must_use]
    pub fn off(&self) -> Ratio {
        Ratio::new((self.weigh.grams() - self.exact.grams()) / self.exact.grams())
            .unwrap_or_default()
    }

    /// Whether the scale is too coarse for it: it is off by more than a
    /// fiftieth of itself.
    #[must_use]
    pub fn is_too_coarse(&self) -> bool {
        self.off().fraction().abs() > ROUNDED_TO_WITHIN
    }
}

/// What is put together at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct Bowl {
    /// The stage, or `None` for the last, where everything comes together.
    pub stage: Option<String>,
    /// What goes into it, in the order of the formula, what was made before it
    /// last.
    pub lines: Vec<Weighed>,
}

impl Bowl {
    /// All of it, as it is weighed.
    #[must_use]
    pub fn total(&self) -> Mass {
        self.lines.iter().map(|line| line.weigh).sum()
    }
}

/// A stage, `None` for the last bowl, and what goes into it in per cent of the
/// base.
type BowlShares<'f> = (Option<&'f str>, Vec<Line<'f>>);

/// What goes into a bowl: its name, its share in per cent of the base, and
/// whether it is a stage that was made before.
type Line<'f> = (&'f str, f64, bool);

/// A formula at a size.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighing {
    /// The bowls in the order they are made.
    pub bowls: Vec<Bowl>,
    /// The base in all, exact.
    pub base: Mass,
    /// Everything, exact.
    pub total: Mass,
    /// Pieces and what each weighs, where that was asked for.
    pub pieces: Option<(u32, Mass)>,
}

impl Weighing {
    /// The lines that the scale is too coarse for.
    pub fn too_coarse(&self) -> impl Iterator<Item = &Weighed> {
        self.bowls
            .iter()
            .flat_map(|bowl| &bowl.lines)
            .filter(|line| line.is_too_coarse())
    }
}

impl StagedFormula {
    /// What to weigh for a size, in whole steps of the scale.
    ///
    /// # Errors
    /// A size of nothing, no such ingredient or stage, more pieces than ten
    /// thousand, half or more of it lost, a step that is none, and masses that
    /// no kitchen has.
    pub fn weigh(&self, size: &Size, step: Mass) -> Result<Weighing, InputError> {
        if step <= Mass::ZERO {
            return Err(InputError::new(
                "step",
                &format!("{} g", step.grams()),
                problem!("no-scale-step"),
                expected!("scale-step"),
            ));
        }
        let percent = self.grams_of_one_percent(size)?;
        let grams = |name: &str, percent_of_base: f64| mass_of(name, percent_of_base * percent);
        let line = |name: &str, percent_of_base: f64| -> Result<Weighed, InputError> {
            let exact = grams(name, percent_of_base)?;
            Ok(Weighed {
                name: name.to_owned(),
                of_base: ratio_of(percent_of_base),
                exact,
                weigh: exact.rounded_to(step).max(step),
            })
        };
        let mut bowls: Vec<Bowl> = Vec::with_capacity(self.stages().len() + 1);
        for (stage, shares) in self.bowl_shares() {
            let lines = shares
                .into_iter()
                .map(|(name, percent, is_made)| {
                    let mut line = line(name, percent)?;
                    // What was made goes in whole, as it was weighed.
                    if let Some(made) = bowls
                        .iter()
                        .find(|bowl: &&Bowl| is_made && bowl.stage.as_deref() == Some(name))
                    {
                        line.weigh = made.total();
                    }
                    Ok::<_, InputError>(line)
                })
                .collect::<Result<Vec<_>, _>>()?;
            bowls.push(Bowl {
                stage: stage.map(str::to_owned),
                lines,
            });
        }
        Ok(Weighing {
            bowls,
            base: grams("base", 100.0)?,
            total: grams("total", self.total_percent())?,
            pieces: match size {
                Size::Pieces { count, each, .. } => Some((*count, *each)),
                _ => None,
            },
        })
    }

    /// The base in all at a size.
    ///
    /// # Errors
    /// As for [`StagedFormula::weigh`].
    pub fn base_at(&self, size: &Size) -> Result<Mass, InputError> {
        mass_of("base", 100.0 * self.grams_of_one_percent(size)?)
    }

    fn grams_of_one_percent(&self, size: &Size) -> Result<f64, InputError> {
        let total_percent = self.total_percent();
        Ok(match size {
            Size::Base(mass) => positive("base", *mass)? / 100.0,
            Size::Total(mass) => positive("total", *mass)? / total_percent,
            Size::Pieces { count, each, lost } => {
                if !(1..=MOST_PIECES).contains(count) {
                    return Err(InputError::new(
                        "pieces",
                        &count.to_string(),
                        problem!("pieces-none"),
                        expected!("from-to", low = 1, high = MOST_PIECES),
                    ));
                }
                if !(0.0..0.5).contains(&lost.fraction()) {
                    return Err(InputError::new(
                        "lost",
                        &format!("{} %", lost.percent()),
                        problem!("no-dividing-loss"),
                        expected!("dividing-loss"),
                    ));
                }
                let divided = positive("each", *each)? * f64::from(*count);
                divided / (1.0 - lost.fraction()) / total_percent
            }
            Size::Of { name, mass } => positive(name, *mass)? / self.percent_of(name)?,
        })
    }

    /// Each bowl as a ratio in parts, to be mixed on the scale: its stage, `None`
    /// for the last, and the ratio. A bowl of one thing is no ratio and is left
    /// out.
    #[must_use]
    pub fn bowl_ratios(&self) -> Vec<(Option<&str>, ratio::Formula)> {
        self.bowl_shares()
            .into_iter()
            .filter_map(|(stage, shares)| {
                let lines = shares
                    .into_iter()
                    .map(|(name, percent, _)| Some((ratio::Ingredient::plain(name).ok()?, percent)))
                    .collect::<Option<Vec<_>>>()?;
                Some((stage, ratio::Formula::parts(lines).ok()?))
            })
            .collect()
    }

    /// What goes into each bowl, in per cent of the base: the stages in order,
    /// then the last bowl. What was made before stands at a bowl's end.
    fn bowl_shares(&self) -> Vec<BowlShares<'_>> {
        let ingredients = self.ingredients();
        let stages = self.stages().iter().map(|stage| {
            let taken = stage
                .shares
                .iter()
                .map(|share| (ingredients[share.ingredient].name(), share.percent, false));
            let starter = stage.starter.iter().map(|it| (STARTER, it.percent, false));
            let made = stage
                .made
                .iter()
                .filter_map(|place| self.stages().get(*place))
                .map(|earlier| (earlier.name(), self.stage_percent(earlier), true));
            (
                Some(stage.name()),
                taken.chain(starter).chain(made).collect(),
            )
        });
        let left = ingredients
            .iter()
            .zip(self.left_percents())
            .filter(|(_, left)| *left > NOTHING_LEFT)
            .map(|(ingredient, left)| (ingredient.name(), left, false));
        let made = self
            .last_stages()
            .map(|stage| (stage.name(), self.stage_percent(stage), true));
        stages.chain([(None, left.chain(made).collect())]).collect()
    }

    /// The share of an ingredient in all, or of a stage, in per cent of the base.
    fn percent_of(&self, name: &str) -> Result<f64, InputError> {
        if let Some(place) = self.find(name) {
            return Ok(self.ingredients()[place].percent());
        }
        self.stages()
            .iter()
            .find(|stage| same_name(&stage.name, name))
            .map(|stage| self.stage_percent(stage))
            .ok_or_else(|| {
                let names: Vec<&str> = self
                    .ingredients()
                    .iter()
                    .map(super::Ingredient::name)
                    .chain(self.stages().iter().map(super::Stage::name))
                    .collect();
                InputError::new(
                    "of",
                    name,
                    problem!("not-in-formula"),
                    expected!("one-of", names = names.join(", ")),
                )
            })
    }
}

/// What a bowl's line of ripe starter is called.
pub const STARTER: &str = "starter";

/// What is left of an ingredient for the last bowl that is rounding and not an
/// amount, in per cent of the base.
const NOTHING_LEFT: f64 = 1e-6;

fn mass_of(name: &str, grams: f64) -> Result<Mass, InputError> {
    Mass::from_fractional_grams(grams)
        .filter(|mass| *mass > Mass::ZERO)
        .ok_or_else(|| {
            InputError::new(
                name,
                &format!("{grams} g"),
                problem!("no-dough-mass"),
                expected!("another-size"),
            )
        })
}

fn positive(field: &str, mass: Mass) -> Result<f64, InputError> {
    crate::brine::above_zero(field, mass).map(|()| mass.grams())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Counts, Ingredient, Starter};

    fn water() -> Counts {
        Counts::Other { water: Ratio::ONE }
    }

    fn dry() -> Counts {
        Counts::Other { water: Ratio::ZERO }
    }

    fn formula(lines: &[(&str, Counts, f64)]) -> StagedFormula {
        StagedFormula::new(
            "loaf",
            lines
                .iter()
                .map(|(name, counts, percent)| Ingredient::new(name, *counts, *percent).unwrap())
                .collect(),
        )
        .unwrap()
    }

    fn grams(mass: Mass) -> f64 {
        mass.grams()
    }

    /// What is weighed into a bowl, in grams.
    fn weighed_into(bowl: &Bowl) -> Vec<f64> {
        bowl.lines.iter().map(|line| line.weigh.grams()).collect()
    }

    /// By hand, for 1000 g of flour: a first build of 20 g of starter with 50 g of flour and 50 g of water is 120 g; a
    /// second of that with 100 and 100 g is 320 g. Starter at 100 % water is 10 g of each, so 840 g of flour and 540 g
    /// of water are left of 1000 and 700.
    #[test]
    fn a_stage_goes_into_a_stage() {
        let starter = Starter::new(2.0, "flour", 100.0).unwrap();
        let loaf = formula(&[
            ("flour", Counts::Base, 100.0),
            ("water", water(), 70.0),
            ("salt", dry(), 2.0),
        ])
        .with_stage(
            "first build",
            Some(starter),
            &[("flour", 5.0), ("water", 5.0)],
        )
        .unwrap()
        .with_stage_of(
            "second build",
            None,
            &[("flour", 10.0), ("water", 10.0)],
            &["First build"],
        )
        .unwrap();
        let size = Size::Base(Mass::from_grams(1000));
        let weighing = loaf.weigh(&size, Mass::from_grams(1)).unwrap();
        let bowls: Vec<Vec<f64>> = weighing.bowls.iter().map(weighed_into).collect();
        assert_eq!(
            bowls,
            [
                vec![50.0, 50.0, 20.0],
                vec![100.0, 100.0, 120.0],
                vec![840.0, 540.0, 20.0, 320.0],
            ]
        );
        assert_eq!(weighing.bowls[2].total(), weighing.total);
        assert!((loaf.base_in_stages().percent() - 16.0).abs() < 1e-9);
        let again = loaf
            .clone()
            .with_stage_of("third", None, &[("water", 1.0)], &["first build"]);
        assert!(again.unwrap_err().to_string().contains("already"));
        let nowhere = loaf.with_stage_of("third", None, &[("water", 1.0)], &["poolish"]);
        assert!(nowhere.unwrap_err().to_string().contains("no stage above"));
    }

    /// A baker's own example of the arithmetic: 1000 g of flour, 750 g of water
    /// and 20 g of salt are 100, 75 and 2 per cent. Read: "Bakers math to plan
    /// ingredients", myhobbyjoy.com.
    #[test]
    fn a_kilogram_of_flour_as_a_page_on_bakers_per_cent_has_it() {
        let dough = formula(&[
            ("flour", Counts::Base, 100.0),
            ("water", water(), 75.0),
            ("salt", dry(), 2.0),
        ]);
        let weighed = dough
            .weigh(&Size::Base(Mass::from_grams(1000)), Mass::from_grams(1))
            .unwrap();
        assert_eq!(weighed_into(&weighed.bowls[0]), [1000.0, 750.0, 20.0]);
        assert!((dough.hydration().percent() - 75.0).abs() < 1e-9);
    }

    /// 750 g of sourdough at 65 % water and 1.9 % salt: 449 g flour, 292 g water,
    /// 9 g salt, as somebody writes out a textbook's overall formula. Quoted:
    /// thefreshloaf.com/node/64591, of Hamelman's "Bread".
    #[test]
    fn three_quarters_of_a_kilogram_as_a_textbook_is_quoted() {
        let dough = formula(&[
            ("bread flour", Counts::Base, 100.0),
            ("water", water(), 65.0),
            ("salt", dry(), 1.9),
        ]);
        let weighed = dough
            .weigh(&Size::Total(Mass::from_grams(750)), Mass::from_grams(1))
            .unwrap();
        assert_eq!(weighed_into(&weighed.bowls[0]), [449.0, 292.0, 9.0]);
    }

    /// A fifth of the flour in a build at 100 % water: by hand, 200 and 200 of
    /// 1000 and 700, which leaves 800 and 500. Salt stays 2 % of all flour.
    #[test]
    fn a_stage_takes_its_part_and_leaves_the_whole_as_it_was() {
        let dough = formula(&[
            ("flour", Counts::Base, 100.0),
            ("water", water(), 70.0),
            ("salt", dry(), 2.0),
        ])
        .with_stage("build", None, &[("flour", 20.0), ("water", 20.0)])
        .unwrap();
        let weighed = dough
            .weigh(&Size::Base(Mass::from_grams(1000)), Mass::from_grams(1))
            .unwrap();
        let last: Vec<(&str, f64)> = weighed.bowls[1]
            .lines
            .iter()
            .map(|line| (line.name.as_str(), grams(line.weigh)))
            .collect();
        assert_eq!(
            last,
            [
                ("flour", 800.0),
                ("water", 500.0),
                ("salt", 20.0),
                ("build", 400.0)
            ]
        );
        assert_eq!(grams(weighed.total), 1720.0);
        assert!((dough.base_in_stages().percent() - 20.0).abs() < 1e-9);
    }

    /// 30 g of starter at 100 % is 15 g flour and 15 g water of the dough: by
    /// hand, a build of 185 + 185 + 30 takes 200 of each.
    #[test]
    fn a_starter_is_flour_and_water_of_the_dough() {
        let dough = formula(&[
            ("flour", Counts::Base, 100.0),
            ("water", water(), 70.0),
            ("salt", dry(), 2.0),
        ])
        .with_stage(
            "build",
            Some(Starter::new(3.0, "flour", 100.0).unwrap()),
            &[("flour", 18.5), ("water", 18.5)],
        )
        .unwrap();
        let weighed = dough
            .weigh(
                &Size::Of {
                    name: "build".to_owned(),
                    mass: Mass::from_grams(400),
                },
                Mass::from_grams(1),
            )
            .unwrap();
        assert_eq!(grams(weighed.base), 1000.0);
        assert_eq!(grams(weighed.bowls[0].total()), 400.0);
        assert_eq!(grams(weighed.bowls[1].lines[0].weigh), 800.0);
    }

    /// 24 pieces of 280 g with 2 % lost ask for 24 * 280 / 0.98 = 6857.1 g, by
    /// hand.
    #[test]
    fn pieces_count_what_is_lost_in_dividing() {
        let dough = formula(&[("flour", Counts::Base, 100.0), ("water", water(), 60.0)]);
        let weighed = dough
            .weigh(
                &Size::Pieces {
                    count: 24,
                    each: Mass::from_grams(280),
                    lost: Ratio::new(0.02).unwrap(),
                },
                Mass::from_grams(1),
            )
            .unwrap();
        assert!((grams(weighed.total) - 6857.143).abs() < 0.001);
        assert_eq!(weighed.pieces, Some((24, Mass::from_grams(280))));
    }

    #[test]
    fn what_the_scale_is_too_coarse_for_is_said() {
        let dough = formula(&[
            ("flour", Counts::Base, 100.0),
            ("water", water(), 70.0),
            ("yeast", dry(), 0.13),
        ]);
        let of = |grams| {
            dough
                .weigh(&Size::Base(Mass::from_grams(grams)), Mass::from_grams(1))
                .unwrap()
        };
        // 1.3 g on a scale of 1 g is weighed as 1 g, 23 % too little.
        let small = of(1000);
        let yeast = small.too_coarse().next().unwrap();
        assert_eq!(yeast.name, "yeast");
        assert!((yeast.off().percent() + 23.08).abs() < 0.01);
        // A pinch is one step, never nothing.
        assert_eq!(of(100).bowls[0].lines[2].weigh, Mass::from_grams(1));
        // 130 g of a large dough are no trouble.
        assert_eq!(of(100_000).too_coarse().count(), 0);
    }

    #[test]
    fn nonsense_is_refused_by_name() {
        let lines = |percent| {
            vec![
                Ingredient::new("flour", Counts::Base, percent).unwrap(),
                Ingredient::new("water", water(), 70.0).unwrap(),
            ]
        };
        assert_eq!(
            StagedFormula::new("loaf", lines(90.0)).unwrap_err().field(),
            "base"
        );
        let dough = StagedFormula::new("loaf", lines(100.0)).unwrap();
        let error = dough
            .clone()
            .with_stage("build", None, &[("flour", 20.0), ("water", 90.0)])
            .unwrap_err();
        assert_eq!((error.field(), error.value()), ("water", "90.000 %"));
        assert!(
            dough
                .clone()
                .with_stage("Water", None, &[("flour", 2.0)])
                .is_err()
        );
        assert!(dough.clone().with_stage("build", None, &[]).is_err());
        assert!(
            dough
                .clone()
                .with_stage("build", None, &[("rye", 2.0)])
                .is_err()
        );
        assert!(Ingredient::new("salt", dry(), f64::NAN).is_err());
        assert!(Starter::new(3.0, "flour", 0.0).is_err());
        for size in [
            Size::Base(Mass::ZERO),
            Size::Of {
                name: "rye".to_owned(),
                mass: Mass::from_grams(1),
            },
            Size::Pieces {
                count: 0,
                each: Mass::from_grams(1),
                lost: Ratio::ZERO,
            },
            Size::Pieces {
                count: 1,
                each: Mass::from_grams(1),
                lost: Ratio::new(0.5).unwrap(),
            },
        ] {
            assert!(dough.weigh(&size, Mass::from_grams(1)).is_err(), "{size:?}");
        }
        assert!(
            dough
                .weigh(&Size::Base(Mass::from_grams(1)), Mass::ZERO)
                .is_err()
        );
    }
}
