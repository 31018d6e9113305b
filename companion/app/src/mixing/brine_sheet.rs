//! Strengths of brine from one way of saying to the others, telling one by
//! weight, and putting it right.

use super::recipe_draft::short;
use super::view::{BrineView, CheckView};
use super::{Obstacle, Refusal, Said, Scene, VesselStep};
use crate::figures;
use crate::words::{Language, say};
use evenhand_kitchen::brine::{
    CONCENTRATIVE, Checked, Density, Doubt, KnownVessel, PercentOfSolution, PercentOfWater,
    SALOMETER, Salometer, StandingBrine, Strength, SugarKnown, SugarPercent, VOLUMETRIC, check,
};
use evenhand_kitchen::ratio::in_service;
use evenhand_kitchen::units::{InputError, mass_positive, parse_temperature};
use evenhand_kitchen::{expected, problem};
use evenhand_protocol::{Mass, Temperature};
use evenhand_use_cases::limits::publication_words;
use evenhand_use_cases::mixing::brine;

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
    strength: Result<Strength, InputError>,
    at: Option<Temperature>,
    pub(super) vessel: Option<usize>,
    empty: Option<Mass>,
    full: Option<(Mass, Temperature)>,
    sugar: Sugar,
    told: Option<Result<Checked, InputError>>,
    correct_to: Option<PercentOfWater>,
    mass: Option<Mass>,
}

impl BrineSheet {
    pub(super) fn new() -> Self {
        Self {
            strength: PercentOfWater::new(8.0).map(Strength::from),
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
        step: VesselStep,
        scene: &Scene,
        known: &[KnownVessel],
    ) -> Result<(), Refusal> {
        let look = super::mixer::steady(scene)?;
        match step {
            VesselStep::Empty => {
                self.empty = Some(look.mass);
                self.full = None;
                self.told = None;
            }
            VesselStep::Full => {
                let at = match self.at {
                    Some(at) => at,
                    None => scene.probe.ok_or(Obstacle::ProbeInBrine)?,
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
        self.told = Some(told);
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
            InputError::new("vessel", "", problem!("not-said"), expected!("vessel"))
        })?;
        let sugar = self.sugar_known()?;
        let within = in_service(scene.verification, full);
        check(
            &vessel.filling.vessel()?,
            full - empty,
            at,
            sugar,
            doubt(within),
        )
    }

    /// What is known of sugar, for the sum.
    fn sugar_known(&self) -> Result<SugarKnown, InputError> {
        Ok(match self.sugar {
            Sugar::Unsaid => SugarKnown::Unsaid,
            Sugar::Unknown => SugarKnown::Unknown,
            Sugar::Percent(sugar) if sugar == SugarPercent::NONE => SugarKnown::None,
            Sugar::Percent(sugar) => SugarKnown::OfSolution {
                sugar,
                within: SugarPercent::new(0.2)?,
            },
        })
    }

    fn cannot(&self, error: &InputError, language: Language) -> String {
        let sugar = self.sugar_known().unwrap_or(SugarKnown::None);
        brine::brine_error_words(language, error, sugar)
    }

    fn correction(&self, language: Language) -> Option<String> {
        let checked = match &self.told {
            Some(Ok(checked)) if !checked.composition.is_sugared() => checked,
            _ => return None,
        };
        let (to, mass) = (self.correct_to?, self.mass?);
        Some(
            StandingBrine::new(mass, checked.composition.strength())
                .and_then(|standing| standing.corrected_to(Strength::from(to), None))
                .map_or_else(
                    |error| self.cannot(&error, language),
                    |correction| brine::correction_words(language, &correction),
                ),
        )
    }

    pub(super) fn view(
        &self,
        scene: &Scene,
        known: &[KnownVessel],
        language: Language,
    ) -> BrineView {
        let at = self.at(scene);
        let celsius = figures::celsius(at, language);
        let captions = [
            say!(language, "brine-way-of-water"),
            say!(language, "brine-way-of-solution"),
            say!(language, "brine-way-salometer"),
            say!(language, "brine-way-density", at = celsius.as_str()),
        ];
        let figures = match &self.strength {
            Ok(strength) => [
                language.figure(format!("{:.2} %", strength.of_water().percent())),
                language.figure(format!("{:.2} %", strength.of_solution().percent())),
                language.figure(format!("{:.1}\u{b0}", strength.salometer().degrees())),
                strength.density(at).map_or_else(
                    |error| self.cannot(&error, language),
                    |density| language.figure(format!("{:.1} kg/m\u{b3}", density.kg_per_m3())),
                ),
            ],
            Err(error) => std::array::from_fn(|_| self.cannot(error, language)),
        };
        let publications = [CONCENTRATIVE, VOLUMETRIC, SALOMETER]
            .map(|publication| publication_words(language, publication));
        BrineView {
            ways: captions
                .into_iter()
                .map(std::borrow::Cow::into_owned)
                .zip(figures)
                .collect(),
            at: celsius,
            by_probe: self.at.is_none() && scene.probe.is_some(),
            freezing: self.strength.as_ref().map_or_else(
                |error| self.cannot(error, language),
                |strength| brine::freezing_words(language, strength.freezing()),
            ),
            sources: publications.join("; "),
            check: self.check_view(known, scene.interval, language),
            correction: self.correction(language),
            correct_to: self.correct_to.map_or_else(
                || say!(language, "brine-what").into_owned(),
                |to| brine::of_water_words(language, &language.figure(short(to.percent()))),
            ),
            brine_mass: self.mass.map_or_else(
                || say!(language, "mixing-how-much").into_owned(),
                |mass| figures::grams(mass, Mass::from_grams(1), language),
            ),
        }
    }

    fn check_view(&self, known: &[KnownVessel], interval: Mass, language: Language) -> CheckView {
        let vessel = self.vessel.and_then(|nth| known.get(nth));
        CheckView {
            vessel: vessel.map(|vessel| vessel.name.to_string()),
            empty: self.empty.map_or_else(String::new, |empty| {
                figures::grams(empty, interval, language)
            }),
            sugar: match self.sugar {
                Sugar::Unsaid => say!(language, "brine-sugar-not-said").into_owned(),
                Sugar::Unknown => say!(language, "brine-sugar-nobody-knows").into_owned(),
                Sugar::Percent(sugar) if sugar == SugarPercent::NONE => {
                    say!(language, "brine-sugar-none").into_owned()
                }
                Sugar::Percent(sugar) => {
                    let percent = language.figure(short(sugar.percent()));
                    brine::of_solution_words(language, &percent)
                }
            },
            prompt: match (vessel, self.empty, &self.told) {
                (None, ..) if known.is_empty() => say!(language, "brine-no-vessel-yet"),
                (None, ..) => say!(language, "brine-choose-vessel"),
                (Some(_), None, _) => say!(language, "brine-put-empty"),
                (Some(_), Some(_), None) => say!(language, "brine-fill"),
                (Some(_), Some(_), Some(_)) => say!(language, "brine-weighed"),
            }
            .into_owned(),
            found: match &self.told {
                None => Ok(Vec::new()),
                Some(Err(error)) => Err(self.cannot(error, language)),
                Some(Ok(checked)) => Ok(brine::told_words(language, checked)),
            },
        }
    }
}
