//! Strengths of brine from one way of saying to the others, telling one by
//! weight, and putting it right.

use super::sketch::short;
use super::view::{BrineView, CheckView};
use super::{Refusal, Said, Scene, Step};
use crate::desk::sentence;
use crate::figures;
use crate::words::Language;
use evenhand_kitchen::brine::{
    CONCENTRATIVE, Checked, Correction, Density, Doubt, KnownVessel, PercentOfSolution,
    PercentOfWater, SALOMETER, SUGAR_MODEL, Salometer, Standing, Strength, SugarKnown,
    SugarPercent, VOLUMETRIC, check,
};
use evenhand_kitchen::ratio::in_service;
use evenhand_kitchen::units::{InputError, mass_positive, parse_temperature};
use evenhand_protocol::{Mass, Temperature};

/// The temperature figures are given at where the probe does not say one.
const USUAL: Temperature = Temperature::from_millicelsius(20_000);

/// How well the common probe is good, as in [`Doubt::COMMON`].
const fn doubt(within: Mass) -> Doubt {
    Doubt {
        mass: within,
        ..Doubt::COMMON
    }
}

/// What is known of sugar, as it was said.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Sugar {
    Unsaid,
    Unknown,
    Percent(SugarPercent),
}

/// Strengths, and one being told by weight.
#[derive(Debug)]
pub(super) struct BrineSheet {
    strength: Result<Strength, String>,
    at: Option<Temperature>,
    pub(super) vessel: Option<usize>,
    empty: Option<Mass>,
    full: Option<(Mass, Temperature)>,
    sugar: Sugar,
    told: Option<Result<Checked, String>>,
    correct_to: Option<PercentOfWater>,
    mass: Option<Mass>,
}

impl BrineSheet {
    pub(super) fn new() -> Self {
        Self {
            strength: PercentOfWater::new(8.0)
                .map(Strength::from)
                .map_err(|error| error.to_string()),
            at: None,
            vessel: None,
            empty: None,
            full: None,
            sugar: Sugar::Unsaid,
            told: None,
            correct_to: None,
            mass: None,
        }
    }

    fn at(&self, scene: &Scene) -> Temperature {
        self.at.or(scene.probe).unwrap_or(USUAL)
    }

    pub(super) fn set_at(&mut self, text: &str) -> Result<(), Refusal> {
        self.at = Some(parse_temperature("temperature", text)?);
        Ok(())
    }

    pub(super) const fn use_probe(&mut self) {
        self.at = None;
    }

    pub(super) fn say(&mut self, said: Said, text: &str, scene: &Scene) -> Result<(), Refusal> {
        let strength = match said {
            Said::OfWater => Strength::from(PercentOfWater::parse("salt of water", text)?),
            Said::OfSolution => Strength::from(PercentOfSolution::parse("salt of solution", text)?),
            Said::Salometer => Strength::from(Salometer::parse("salometer degrees", text)?),
            Said::Density => {
                Strength::from_density(Density::parse("density", text)?, self.at(scene))?
            }
        };
        self.strength = Ok(strength);
        Ok(())
    }

    pub(super) fn strength(&self) -> Option<Strength> {
        self.strength.as_ref().ok().copied()
    }

    pub(super) fn choose_vessel(&mut self, vessel: Option<usize>, known: &[KnownVessel]) {
        self.vessel = vessel;
        self.empty = vessel
            .and_then(|nth| known.get(nth))
            .and_then(|vessel| vessel.filling.empty);
        self.full = None;
        self.told = None;
    }

    pub(super) fn set_sugar(&mut self, text: &str) -> Result<(), Refusal> {
        self.sugar = Sugar::Percent(SugarPercent::parse("sugar", text)?);
        Ok(())
    }

    pub(super) const fn sugar_unknown(&mut self) {
        self.sugar = Sugar::Unknown;
    }

    pub(super) fn correct_to(&mut self, text: &str) -> Result<(), Refusal> {
        self.correct_to = Some(PercentOfWater::parse("salt of water", text)?);
        Ok(())
    }

    pub(super) fn set_mass(&mut self, text: &str) -> Result<(), Refusal> {
        self.mass = Some(mass_positive("brine", text)?);
        Ok(())
    }

    /// The vessel stands on the scale, empty or full.
    pub(super) fn weigh(
        &mut self,
        step: Step,
        scene: &Scene,
        known: &[KnownVessel],
    ) -> Result<(), Refusal> {
        let look = super::mixer::steady(scene)?;
        match step {
            Step::Empty => {
                self.empty = Some(look.mass);
                self.full = None;
                self.told = None;
            }
            Step::Full => {
                let at = match self.at {
                    Some(at) => at,
                    None => scene.probe.ok_or_else(|| {
                        Refusal::new("put the probe in the brine, or type how warm it is")
                    })?,
                };
                self.full = Some((look.mass, at));
                self.tell(scene, known);
            }
        }
        Ok(())
    }

    /// Works the strength out anew from what was weighed.
    pub(super) fn tell(&mut self, scene: &Scene, known: &[KnownVessel]) {
        let (Some((full, at)), Some(empty)) = (self.full, self.empty) else {
            return;
        };
        let told = self.told_of(full, at, empty, scene, known);
        if let Ok(checked) = &told
            && !checked.composition.is_sugared()
        {
            self.strength = Ok(checked.composition.strength());
        }
        self.told = Some(told.map_err(|error| error.to_string()));
    }

    fn told_of(
        &self,
        full: Mass,
        at: Temperature,
        empty: Mass,
        scene: &Scene,
        known: &[KnownVessel],
    ) -> Result<Checked, InputError> {
        let vessel = self.vessel.and_then(|nth| known.get(nth)).ok_or_else(|| {
            InputError::new(
                "vessel",
                "",
                "is not said",
                "choose a vessel of known volume",
            )
        })?;
        let sugar = match self.sugar {
            Sugar::Unsaid => SugarKnown::Unsaid,
            Sugar::Unknown => SugarKnown::Unknown,
            Sugar::Percent(sugar) if sugar == SugarPercent::NONE => SugarKnown::None,
            Sugar::Percent(sugar) => SugarKnown::OfSolution {
                sugar,
                within: SugarPercent::new(0.2)?,
            },
        };
        let within = in_service(scene.verification, full);
        check(
            &vessel.filling.vessel()?,
            full - empty,
            at,
            sugar,
            doubt(within),
        )
    }

    fn correction(&self) -> Option<String> {
        let checked = match &self.told {
            Some(Ok(checked)) if !checked.composition.is_sugared() => checked,
            _ => return None,
        };
        let (to, mass) = (self.correct_to?, self.mass?);
        let words = Standing::new(mass, checked.composition.strength())
            .and_then(|standing| standing.corrected_to(Strength::from(to), None))
            .map_or_else(
                |error| error.to_string(),
                |correction| {
                    let tenth = Mass::from_milligrams(100);
                    match correction {
                        Correction::None => "it is there already".to_owned(),
                        Correction::AddSalt { salt, makes } => format!(
                            "stir in {} of salt; makes {}",
                            figures::grams(salt, tenth, Language::English),
                            figures::grams(makes, tenth, Language::English)
                        ),
                        Correction::AddWater { water, makes } => format!(
                            "pour in {} of water; makes {}",
                            figures::grams(water, tenth, Language::English),
                            figures::grams(makes, tenth, Language::English)
                        ),
                        Correction::ReplaceWithSalt { each } => {
                            format!(
                                "take {0} out, stir in {0} of salt",
                                figures::grams(each, tenth, Language::English)
                            )
                        }
                        Correction::ReplaceWithWater { each } => {
                            format!(
                                "take {0} out, pour in {0} of water",
                                figures::grams(each, tenth, Language::English)
                            )
                        }
                    }
                },
            );
        Some(sentence(&words))
    }

    pub(super) fn view(&self, scene: &Scene, known: &[KnownVessel]) -> BrineView {
        let at = self.at(scene);
        let ways = match &self.strength {
            Ok(strength) => vec![
                (
                    "of the water".to_owned(),
                    format!("{:.2} %", strength.of_water().percent()),
                ),
                (
                    "of the whole brine".to_owned(),
                    format!("{:.2} %", strength.of_solution().percent()),
                ),
                (
                    "salometer".to_owned(),
                    format!("{:.1}\u{b0}", strength.salometer().degrees()),
                ),
                (
                    format!("density at {}", figures::celsius(at, Language::English)),
                    strength.density(at).map_or_else(
                        |error| error.to_string(),
                        |density| format!("{:.1} kg/m\u{b3}", density.kg_per_m3()),
                    ),
                ),
            ],
            Err(words) => vec![(String::new(), words.clone()); 4],
        };
        BrineView {
            ways,
            at: figures::celsius(at, Language::English),
            by_probe: self.at.is_none() && scene.probe.is_some(),
            freezing: self
                .strength
                .as_ref()
                .map_or_else(String::clone, |strength| {
                    sentence(&strength.freezing().to_string())
                }),
            sources: format!("{CONCENTRATIVE}; {VOLUMETRIC}; {SALOMETER}"),
            check: self.check_view(known, scene.interval),
            correction: self.correction(),
            correct_to: self.correct_to.map_or_else(
                || "what?".to_owned(),
                |to| format!("{} % of the water", short(to.percent())),
            ),
            brine_mass: self.mass.map_or_else(
                || "how much?".to_owned(),
                |mass| figures::grams(mass, Mass::from_grams(1), Language::English),
            ),
        }
    }

    fn check_view(&self, known: &[KnownVessel], interval: Mass) -> CheckView {
        let vessel = self.vessel.and_then(|nth| known.get(nth));
        CheckView {
            vessel: vessel.map(|vessel| vessel.name.to_string()),
            empty: self.empty.map_or_else(String::new, |empty| {
                figures::grams(empty, interval, Language::English)
            }),
            sugar: match self.sugar {
                Sugar::Unsaid => "not said".to_owned(),
                Sugar::Unknown => "nobody knows".to_owned(),
                Sugar::Percent(sugar) if sugar == SugarPercent::NONE => "none".to_owned(),
                Sugar::Percent(sugar) => format!("{} % of the whole", short(sugar.percent())),
            },
            prompt: match (vessel, self.empty, &self.told) {
                (None, ..) if known.is_empty() => {
                    "No vessel is known yet: fill one with water on the vessel screen.".to_owned()
                }
                (None, ..) => "Choose the vessel.".to_owned(),
                (Some(_), None, _) => "Put it on the scale, empty and dry.".to_owned(),
                (Some(_), Some(_), None) => {
                    "Fill it with brine as it was filled with water, put the probe in, then Full."
                        .to_owned()
                }
                (Some(_), Some(_), Some(_)) => "Weighed.".to_owned(),
            },
            found: match &self.told {
                None => Ok(Vec::new()),
                Some(Err(why)) => Err(sentence(why)),
                Some(Ok(checked)) => Ok(told_words(checked)),
            },
        }
    }
}

fn told_words(checked: &Checked) -> Vec<String> {
    let composition = checked.composition;
    let mut words = vec![
        format!(
            "{:.2} % of the whole brine, give or take {:.2}",
            composition.salt_of_solution(),
            checked.of_solution_uncertainty.percent()
        ),
        format!(
            "{:.2} % of the water, give or take {:.2}",
            composition.salt_of_water(),
            checked.of_water_uncertainty.percent()
        ),
        format!(
            "Most of the doubt is from: {} (k = 2, JCGM 100); the vessel grows by {}.",
            checked.budget.first().map_or("nothing", |part| part.of),
            checked.expansion
        ),
    ];
    if composition.is_sugared() {
        words.push(format!(
            "With {:.2} % of sugar in the whole: {SUGAR_MODEL}.",
            composition.sugar_of_solution()
        ));
    }
    words
}
