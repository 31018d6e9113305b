//! A ratio as it is put together, with or without a curing agent in it.

use super::view::{CureView, RecipeDraftView, SketchLine};
use super::{NoLimits, Obstacle, Refusal, Scene};
use crate::controller::sentence;
use crate::figures;
use crate::words::{Language, say};
use evenhand_kitchen::brine::KnownVessel;
use evenhand_kitchen::cure::{
    Amounts, Contents, Curing, CuringAgent, Method, NitriteFraction, NitriteLimit, PickUp, Ppm,
    weighable,
};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::ratio::{Closeness, CureGuard, Form, Formula, Ingredient, Mix, Part};
use evenhand_protocol::Mass;
use evenhand_use_cases::mixing::cure;
use evenhand_use_cases::mixing::mix::{form_words, of_the_meat};

/// How close is close enough, in per cent of each target, to choose from.
const CLOSENESS: [f64; 4] = [0.1, 0.5, 1.0, 2.0];

/// The largest ratio that a screen holds.
pub(super) const MOST_LINES: usize = 8;

/// One ingredient as it is put together.
#[derive(Debug, Clone, PartialEq)]
struct Line {
    name: String,
    /// `None` until it is said.
    number: Option<f64>,
    flour: bool,
    /// Whether it is what the numbers are of, and so has none of its own.
    base: bool,
}

/// A cure as it is put together.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Cure {
    pub(super) method: Method,
    pub(super) agent: String,
    pub(super) contents: Contents,
    pub(super) fraction: Option<NitriteFraction>,
    pub(super) ppm: Option<Ppm>,
    pub(super) pick_up: Option<PickUp>,
    pub(super) skin_on: bool,
}

/// A ratio as it is put together.
#[derive(Debug, Clone)]
pub(super) struct RecipeDraft {
    pub(super) title: String,
    form: Form,
    lines: Vec<Line>,
    set: Vec<(usize, Mass)>,
    closeness: usize,
    pub(super) vessel: Option<usize>,
    pub(super) cure: Option<Cure>,
    /// The limits in force, or why there are none.
    pub(super) limits: Result<Limits, NoLimits>,
}

fn base(name: &str) -> Line {
    Line {
        name: name.to_owned(),
        number: Some(100.0),
        flour: false,
        base: true,
    }
}

impl RecipeDraft {
    /// A new ratio. What its numbers are of is named in the language spoken:
    /// the name goes on record as a cook would have typed it.
    pub(super) fn new(form: Form, language: Language) -> Self {
        let water = || base(&say!(language, "mixing-water"));
        let lines = match form {
            Form::Parts => Vec::new(),
            Form::OfWater | Form::OfTotal => vec![water()],
            Form::Bakers => vec![Line {
                flour: true,
                base: false,
                ..base(&say!(language, "mixing-flour"))
            }],
            Form::OfMeatAndWater => vec![base(&say!(language, "mixing-meat")), water()],
        };
        Self {
            title: String::new(),
            form,
            lines,
            set: Vec::new(),
            closeness: 1,
            vessel: None,
            cure: None,
            limits: Err(NoLimits::NotRead),
        }
    }

    pub(super) fn cure(method: Method, language: Language) -> Self {
        let form = match (method.asks_meat(), method.asks_pickle()) {
            (true, true) => Form::OfMeatAndWater,
            (false, _) => Form::OfWater,
            (true, false) => Form::Parts,
        };
        let mut recipe_draft = Self::new(form, language);
        if recipe_draft.lines.is_empty() {
            recipe_draft
                .lines
                .push(base(&say!(language, "mixing-meat")));
        }
        recipe_draft.cure = Some(Cure {
            method,
            agent: String::new(),
            contents: Contents::SodiumNitrite,
            fraction: None,
            ppm: None,
            pick_up: None,
            skin_on: false,
        });
        recipe_draft
    }

    /// The ratio of what was weighed once.
    pub(super) fn of(formula: &Formula, title: &str, language: Language) -> Result<Self, Refusal> {
        let lines = formula
            .items()
            .iter()
            .map(|item| {
                if item.ingredient().agent().is_some() {
                    return Err(Refusal::Obstacle(Obstacle::AgentInIt));
                }
                Ok(Line {
                    name: item.ingredient().name().to_owned(),
                    number: match item.part() {
                        Part::Parts(number) | Part::OfFree(number) => Some(number),
                        Part::Free => None,
                    },
                    flour: false,
                    base: false,
                })
            })
            .collect::<Result<_, _>>()?;
        Ok(Self {
            title: title.to_owned(),
            lines,
            ..Self::new(Form::Parts, language)
        })
    }

    /// What the numbers are.
    pub(super) fn numbers_are(&self, language: Language) -> String {
        match (&self.cure, self.form) {
            (Some(_), Form::Parts) => of_the_meat(language),
            (_, form) => form_words(language, form),
        }
    }

    pub(super) fn has(&self, name: &str) -> bool {
        self.lines
            .iter()
            .any(|line| line.name.to_lowercase() == name.to_lowercase())
    }

    pub(super) fn closeness_percent(&self) -> f64 {
        CLOSENESS[self.closeness]
    }

    pub(super) fn name(&self, line: usize) -> &str {
        self.lines.get(line).map_or("", |line| line.name.as_str())
    }

    /// Adds an ingredient; its number is still to be said.
    pub(super) fn add(&mut self, name: &str) -> Result<usize, Refusal> {
        let ingredient = Ingredient::plain(name)?;
        if self.lines.len() >= MOST_LINES {
            return Err(Obstacle::TooMany.into());
        }
        let name = ingredient.name();
        if self.has(name) {
            return Err(Obstacle::ThereAlready(name.to_owned()).into());
        }
        self.lines.push(Line {
            name: name.to_owned(),
            number: None,
            flour: false,
            base: false,
        });
        Ok(self.lines.len() - 1)
    }

    pub(super) fn rename(&mut self, line: usize, name: &str) -> Result<(), Refusal> {
        let ingredient = Ingredient::plain(name)?;
        if let Some(line) = self.lines.get_mut(line) {
            ingredient.name().clone_into(&mut line.name);
        }
        Ok(())
    }

    pub(super) fn number(&mut self, line: usize, text: &str) -> Result<(), Refusal> {
        let Some(line) = self.lines.get_mut(line) else {
            return Ok(());
        };
        let digits = text.trim().trim_end_matches('%').trim();
        let number: f64 = digits
            .parse()
            .ok()
            .filter(|number: &f64| number.is_finite() && *number > 0.0)
            .ok_or_else(|| Obstacle::NoAmount {
                name: line.name.clone(),
                text: text.to_owned(),
            })?;
        line.number = Some(number);
        Ok(())
    }

    pub(super) fn flour(&mut self, line: usize) {
        if let Some(line) = self.lines.get_mut(line) {
            line.flour = !line.flour;
        }
    }

    pub(super) fn drop_line(&mut self, line: usize) {
        if self.lines.get(line).is_some_and(|line| !line.base) {
            self.lines.remove(line);
            self.set.clear();
        }
    }

    pub(super) const fn closer(&mut self) {
        self.closeness = (self.closeness + 1) % CLOSENESS.len();
    }

    /// Sets how much there is to be of one; in a ratio of meat and water of
    /// each of the two.
    pub(super) fn set_amount(&mut self, line: usize, mass: Mass) {
        if self.form == Form::OfMeatAndWater && line < 2 {
            self.set.retain(|(other, _)| *other != line && *other < 2);
        } else {
            self.set.clear();
        }
        self.set.push((line, mass));
    }

    pub(super) fn any_amount(&mut self) {
        self.set.clear();
    }

    // What follows.

    fn plain_lines(&self) -> Result<Vec<(Ingredient, f64, bool)>, Refusal> {
        self.lines
            .iter()
            .map(|line| {
                let number = line
                    .number
                    .ok_or_else(|| Obstacle::HowMuch(line.name.clone()))?;
                Ok((Ingredient::plain(&line.name)?, number, line.flour))
            })
            .collect()
    }

    /// The agent, and its number in the way the ratio is said.
    fn agent(&self, cure: &Cure) -> Result<(CuringAgent, f64), Refusal> {
        let agent = cure.agent()?;
        let target = cure.ppm.ok_or(Obstacle::NoPpm)?;
        if cure.method.asks_pick_up() && cure.pick_up.is_none() {
            return Err(Obstacle::NoPickUp.into());
        }
        // A hundred kilograms of what the numbers are of, so that a rounded microgram is nothing.
        let hundred = Mass::from_grams(100_000);
        let others: f64 = self
            .lines
            .iter()
            .filter(|line| !line.base)
            .filter_map(|line| line.number)
            .sum();
        let with_others = |grams: i64| Mass::from_fractional_grams(grams as f64 + others * 1_000.0);
        let (meat, pickle) = match (cure.method.asks_meat(), cure.method.asks_pickle()) {
            (true, true) => (Some(Mass::from_grams(50_000)), with_others(50_000)),
            (true, false) => (Some(hundred), None),
            (false, _) => (None, with_others(100_000)),
        };
        let curing = Curing::new(
            cure.method,
            Amounts {
                meat,
                pickle,
                pick_up: cure.pick_up,
                skin_on: cure.skin_on,
            },
            &self.nitrite_limit(cure.method)?,
        )?;
        let dose = curing.dose(&agent, target)?;
        Ok((agent, dose.grams() / 1_000.0))
    }

    /// The ratio.
    pub(super) fn formula(&self) -> Result<Formula, Refusal> {
        let mut lines = self.plain_lines()?;
        if let Some(cure) = &self.cure {
            let (agent, number) = self.agent(cure)?;
            lines.push((Ingredient::curing(agent), number, false));
        }
        let mut lines = lines.into_iter();
        let mut next = || lines.next().map(|(ingredient, ..)| ingredient);
        let formula = match self.form {
            Form::Parts => Formula::parts(lines.map(|(name, number, _)| (name, number)).collect()),
            Form::OfWater | Form::OfTotal => {
                let first = next().ok_or(Obstacle::NoIngredient)?;
                let rest = lines.map(|(name, number, _)| (name, number)).collect();
                if self.form == Form::OfWater {
                    Formula::of_water(first, rest)
                } else {
                    Formula::of_total(first, rest)
                }
            }
            Form::Bakers => {
                let (flours, others): (Vec<_>, Vec<_>) = lines.partition(|(.., flour)| *flour);
                let plain = |lines: Vec<(Ingredient, f64, bool)>| {
                    lines
                        .into_iter()
                        .map(|(name, number, _)| (name, number))
                        .collect()
                };
                Formula::bakers(plain(flours), plain(others))
            }
            Form::OfMeatAndWater => {
                let (Some(meat), Some(water)) = (next(), next()) else {
                    return Err(Obstacle::NoIngredient.into());
                };
                Formula::of_meat_and_water(
                    meat,
                    water,
                    lines.map(|(name, number, _)| (name, number)).collect(),
                )
            }
        };
        Ok(formula?)
    }

    /// The limit in force for a way of curing.
    fn nitrite_limit(&self, method: Method) -> Result<NitriteLimit, Refusal> {
        self.limits
            .as_ref()
            .map_err(Clone::clone)?
            .nitrite(method)
            .ok_or(Refusal::NoLimit(method))
    }

    fn guard(&self) -> Result<Option<CureGuard>, Refusal> {
        let Some(cure) = self.cure.as_ref() else {
            return Ok(None);
        };
        let meat = usize::from(cure.method.asks_meat());
        Ok(Some(CureGuard {
            limit: self.nitrite_limit(cure.method)?,
            method: cure.method,
            meat: (0..meat).collect(),
            pickle: if cure.method.asks_pickle() {
                (meat..self.lines.len()).collect()
            } else {
                Vec::new()
            },
            pick_up: cure.pick_up,
            skin_on: cure.skin_on,
        }))
    }

    /// The mix, to be poured on this scale.
    pub(super) fn mix(&self, scene: &Scene) -> Result<Mix, Refusal> {
        let percent = CLOSENESS[self.closeness];
        let closeness = Closeness::on_scale(percent, scene.least(), scene.error())?;
        let mut mix = Mix::new(self.formula()?, closeness, self.guard()?)?;
        // In a baker's ratio the flours go first.
        for (line, mass) in &self.set {
            if let Some(item) = mix.formula().find(&self.lines[*line].name) {
                mix.set_amount(item, *mass)?;
            }
        }
        Ok(mix)
    }

    pub(super) fn view(
        &self,
        vessels: &[KnownVessel],
        scene: &Scene,
        language: Language,
    ) -> RecipeDraftView {
        let interval = scene.interval;
        let mix = self.mix(scene);
        let amount = |name: &str| {
            mix.as_ref()
                .ok()
                .and_then(|mix| mix.target(mix.formula().find(name)?))
                .map_or_else(String::new, |mass| figures::grams(mass, interval, language))
        };
        let mut lines: Vec<SketchLine> = self
            .lines
            .iter()
            .map(|line| SketchLine {
                name: line.name.clone(),
                number: self.number_words(line, language),
                amount: amount(&line.name),
                typed: !line.base,
                can_go: !line.base,
                curing: false,
                flour: (self.form == Form::Bakers).then_some(line.flour),
            })
            .collect();
        if let Some(cure) = &self.cure {
            lines.push(self.agent_line(cure, &amount, language));
        }
        RecipeDraftView {
            title: self.title.clone(),
            form: self.numbers_are(language),
            lines,
            closeness: say!(
                language,
                "sketch-within",
                percent = language.figure(CLOSENESS[self.closeness].to_string()),
            )
            .into_owned(),
            vessels: vessels
                .iter()
                .enumerate()
                .map(|(nth, vessel)| (vessel.name.to_string(), self.vessel == Some(nth)))
                .collect(),
            is_set: !self.set.is_empty(),
            verdict: match &mix {
                Ok(mix) => Ok(mix.total().map_or_else(
                    || say!(language, "sketch-pour-first").into_owned(),
                    |total| {
                        let total = figures::grams(total, interval, language);
                        say!(language, "mixing-in-all", total = total).into_owned()
                    },
                )),
                Err(refusal) => Err(sentence(&refusal.in_words(language))),
            },
            cure: self
                .cure
                .as_ref()
                .map(|cure| self.cure_view(cure, scene, language)),
        }
    }

    fn number_words(&self, line: &Line, language: Language) -> String {
        let of_total_rest = || {
            let others: f64 = self
                .lines
                .iter()
                .filter(|line| !line.base)
                .filter_map(|line| line.number)
                .sum();
            100.0 - others
        };
        match (line.base, self.form, line.number) {
            (true, Form::OfMeatAndWater, _) => say!(language, "sketch-as-there-is").into_owned(),
            (true, Form::OfTotal, _) => {
                let percent = language.figure(short(of_total_rest()));
                say!(language, "sketch-the-rest", percent = percent).into_owned()
            }
            (_, _, None) => say!(language, "mixing-how-much").into_owned(),
            (_, Form::Parts, Some(number)) if self.cure.is_none() => language.figure(short(number)),
            (_, _, Some(number)) => language.figure(format!("{} %", short(number))),
        }
    }

    fn agent_line(
        &self,
        cure: &Cure,
        amount: &impl Fn(&str) -> String,
        language: Language,
    ) -> SketchLine {
        let agent = self.agent(cure);
        SketchLine {
            name: agent.as_ref().map_or_else(
                |_| say!(language, "sketch-agent", mark = cure::mark(language)).into_owned(),
                |(agent, _)| cure::agent_words(language, agent),
            ),
            number: agent.as_ref().map_or_else(
                |_| say!(language, "cure-by-label").into_owned(),
                |(_, number)| language.figure(format!("{number:.4} %")),
            ),
            amount: agent
                .as_ref()
                .map_or_else(|_| String::new(), |(agent, _)| amount(agent.name())),
            typed: false,
            can_go: false,
            curing: true,
            flour: None,
        }
    }

    fn cure_view(&self, cure: &Cure, scene: &Scene, language: Language) -> CureView {
        let limit = self.nitrite_limit(cure.method).and_then(|limit| {
            let curing = Curing::new(
                cure.method,
                Amounts {
                    meat: Some(Mass::from_grams(1)),
                    pickle: Some(Mass::from_grams(1)),
                    pick_up: PickUp::from_percent("", 10.0).ok(),
                    skin_on: cure.skin_on,
                },
                &limit,
            )?;
            Ok(curing.limit().clone())
        });
        let dose = self.agent(cure).map(|(agent, number)| {
            let words = cure::dose_words(language, &agent, number, cure.method);
            let dose = Mass::from_fractional_grams(number * 10.0).unwrap_or(Mass::ZERO);
            match weighable(dose, scene.error().at(dose)) {
                Ok(Err(too_small)) => {
                    cure::least_words(language, &words, &too_small, scene.verification)
                }
                Ok(Ok(())) | Err(_) => words,
            }
        });
        CureView {
            method: cure::method_words(language, cure.method),
            reckoning: cure::reckoning_words(language, cure.method),
            agent: cure.agent.clone(),
            contents: cure.contents,
            fraction: cure.fraction.map_or_else(String::new, |fraction| {
                cure::fraction_words(language, fraction)
            }),
            ppm: cure
                .ppm
                .map_or_else(String::new, |ppm| language.figure(ppm.to_string())),
            pick_up: cure.method.asks_pick_up().then(|| {
                cure.pick_up.map_or_else(String::new, |pick_up| {
                    language.figure(format!("{} %", short(pick_up.parts() * 100.0)))
                })
            }),
            skin: cure.method.is_bacon().then_some(cure.skin_on),
            limit: limit.map_or_else(
                |refusal| refusal.in_words(language),
                |limit| cure::limit_by_words(language, &limit),
            ),
            dose: dose.map_err(|refusal| sentence(&refusal.in_words(language))),
            caution: cure::caution_of(language, cure.method),
        }
    }
}

impl Cure {
    pub(super) fn agent(&self) -> Result<CuringAgent, Refusal> {
        // What the label says is in it goes before what it is called.
        if self.contents != Contents::SodiumNitrite {
            let any = NitriteFraction::USUAL.1;
            CuringAgent::from_label("agent", self.contents, any)?;
        }
        let fraction = self.fraction.ok_or(Obstacle::NoFraction)?;
        if self.agent.is_empty() {
            return Err(Obstacle::NoPacket.into());
        }
        Ok(CuringAgent::from_label(
            &self.agent,
            self.contents,
            fraction,
        )?)
    }
}

/// A number with no more decimals than it needs, at most three.
pub(super) fn short(number: f64) -> String {
    let text = format!("{number:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    const SCALE: Scene = Scene::unknown();

    fn with(form: Form, lines: &[(&str, &str)]) -> RecipeDraft {
        let mut recipe_draft = RecipeDraft::new(form, Language::English);
        for (name, number) in lines {
            let line = recipe_draft.add(name).unwrap();
            recipe_draft.number(line, number).unwrap();
        }
        recipe_draft
    }

    #[test]
    fn every_way_of_saying_becomes_a_ratio() {
        for (form, lines, first_for_hundred) in [
            (Form::Parts, vec![("rice", "4"), ("vinegar", "1")], 400.0),
            (Form::OfWater, vec![("salt", "8%")], 1_250.0),
            (Form::OfTotal, vec![("salt", "10")], 900.0),
            (Form::Bakers, vec![("water", "70")], 1_000.0 / 7.0),
        ] {
            let mut recipe_draft = with(form, &lines);
            let last = recipe_draft.lines.len() - 1;
            recipe_draft.set_amount(last, Mass::from_grams(100));
            let mix = recipe_draft.mix(&SCALE).unwrap();
            let first = mix.target(0).unwrap().grams();
            assert!((first - first_for_hundred).abs() < 1e-5, "{form:?} {first}");
        }
        let mut necks = with(Form::OfMeatAndWater, &[("salt", "2")]);
        necks.set_amount(0, Mass::from_grams(6_000));
        necks.set_amount(1, Mass::from_grams(4_000));
        let salt = necks.mix(&SCALE).unwrap().target(2).unwrap();
        assert_eq!(salt, Mass::from_grams(200));
    }

    #[test]
    fn what_is_missing_is_named() {
        let mut recipe_draft = RecipeDraft::new(Form::OfWater, Language::English);
        recipe_draft.add("salt").unwrap();
        assert!(
            recipe_draft
                .formula()
                .unwrap_err()
                .to_string()
                .contains("salt")
        );
        assert!(recipe_draft.add("Salt").is_err());
        assert!(recipe_draft.add("pink salt").is_err());
        for bad in ["", "-2", "0", "much", "nan", "inf"] {
            assert!(recipe_draft.number(1, bad).is_err(), "{bad}");
        }
    }

    fn cured(method: Method, others: &[(&str, &str)], ppm: f64) -> RecipeDraft {
        let mut recipe_draft = RecipeDraft::cure(method, Language::English);
        recipe_draft.limits = Ok(Limits::food_code());
        for (name, number) in others {
            let line = recipe_draft.add(name).unwrap();
            recipe_draft.number(line, number).unwrap();
        }
        let cure = recipe_draft.cure.as_mut().unwrap();
        cure.agent = "Saltmarsh cure".to_owned();
        cure.fraction = NitriteFraction::new("nitrite", 0.0625).ok();
        cure.ppm = Ppm::new("ppm", ppm).ok();
        cure.pick_up = PickUp::from_percent("pickup", 10.0).ok();
        recipe_draft
    }

    // Each way's sum is that of USDA FSIS Directive 7620.3 (read as quoted), done here by hand.
    #[test]
    fn the_agents_share_brings_the_ingoing_nitrite_asked_for() {
        for (method, first) in [
            (Method::DryCure, 5_000),
            (Method::ImmersionEquilibrium, 5_000),
            (Method::Pumped, 5_000),
        ] {
            let mut recipe_draft = cured(method, &[("salt", "2"), ("sugar", "1")], 150.0);
            recipe_draft.set_amount(0, Mass::from_grams(first));
            if method == Method::ImmersionEquilibrium {
                recipe_draft.set_amount(1, Mass::from_grams(5_000));
            }
            let mix = recipe_draft.mix(&SCALE).unwrap();
            let grams: Vec<f64> = (0..mix.formula().items().len())
                .map(|item| mix.target(item).unwrap().grams())
                .collect();
            let agent = *grams.last().unwrap();
            let all: f64 = grams.iter().sum();
            let ppm = match method {
                Method::DryCure => agent * 0.0625 * 1e6 / grams[0],
                Method::ImmersionEquilibrium => agent * 0.0625 * 1e6 / all,
                _ => agent * 0.0625 * 0.1 * 1e6 / all,
            };
            assert!((ppm - 150.0).abs() < 0.01, "{method}: {ppm}");
        }
    }

    #[test]
    fn over_the_limit_and_other_agents_are_refused_with_why() {
        let over = cured(Method::BaconDryCure, &[("salt", "2")], 201.0);
        let why = over.formula().unwrap_err().to_string();
        assert!(
            why.contains("over the limit") && why.contains("9 CFR"),
            "{why}"
        );
        let mut mixture = cured(Method::DryCure, &[("salt", "2")], 150.0);
        mixture.cure.as_mut().unwrap().contents = Contents::NitriteAndNitrate;
        assert!(
            mixture
                .formula()
                .unwrap_err()
                .to_string()
                .contains("nitrate")
        );
        let mut unread = cured(Method::DryCure, &[("salt", "2")], 150.0);
        unread.cure.as_mut().unwrap().fraction = None;
        assert!(unread.formula().unwrap_err().to_string().contains("label"));
    }
}
