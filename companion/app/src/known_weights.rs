//! The guided flows with known weights: the morning's test and a calibration,
//! as plain data and what a press does to it.

use super::words::{Language, say};
use evenhand_firmware::signal::WeightClass;
use evenhand_link::Request;
use evenhand_protocol::{
    CalibrationMade, KnownWeight, Mass, SelfTest, SelfTestOutcome, TestWeights,
};
use evenhand_use_cases::scale_test::{sentence, still_to_try_words};

/// What the weights are for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// The morning's test: at half the capacity, and at the lightest portion's size.
    Try,
    /// A calibration.
    Calibrate,
}

/// The weights that a kitchen may have.
pub const WEIGHTS: [Mass; 9] = [
    Mass::from_grams(10),
    Mass::from_grams(20),
    Mass::from_grams(50),
    Mass::from_grams(100),
    Mass::from_grams(200),
    Mass::from_grams(500),
    Mass::from_grams(1_000),
    Mass::from_grams(2_000),
    Mass::from_grams(5_000),
];

/// The classes to choose from, the usual one first.
pub const CLASSES: [(WeightClass, &str); 4] = [
    (WeightClass::M1, "M1"),
    (WeightClass::F2, "F2"),
    (WeightClass::F1, "F1"),
    (WeightClass::M2, "M2"),
];

/// A wish on these screens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeightWish {
    /// Begin to choose weights.
    Choose(Purpose),
    /// This weight is there, or is not.
    Toggle(Mass),
    /// The weights are of this class, by its place in [`CLASSES`].
    Class(usize),
    /// All are chosen.
    Begin,
    /// What was asked for lies on the pan.
    Placed,
    /// Give it up, or leave what came out.
    Leave,
}

/// How far a flow has got.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WeightStep {
    /// Which weights there are.
    Choosing,
    /// This step's weight is to be put on.
    Placing(usize),
    /// The scale was asked; it waits for a steady load.
    Waiting(usize),
    /// What came out, in lines; whether all is well.
    Done(Vec<String>, bool),
}

/// One flow.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeightFlow {
    /// What it is for.
    pub purpose: Purpose,
    /// The weights chosen, lightest first.
    pub weights: Vec<Mass>,
    /// What the test asks for, where the scale has said what it may weigh.
    pub asked: Option<TestWeights>,
    /// What each weight of the test showed so far.
    pub found: Vec<SelfTest>,
    /// Their class, by its place in [`CLASSES`].
    pub class: usize,
    /// How far it has got.
    pub stage: WeightStep,
}

impl Default for WeightFlow {
    fn default() -> Self {
        Self::new(Purpose::Try)
    }
}

impl WeightFlow {
    /// A flow that begins.
    #[must_use]
    pub const fn new(purpose: Purpose) -> Self {
        Self {
            purpose,
            weights: Vec::new(),
            asked: None,
            found: Vec::new(),
            class: 0,
            stage: WeightStep::Choosing,
        }
    }

    /// A test that begins with the weights that it asks for.
    #[must_use]
    pub fn test(asked: TestWeights) -> Self {
        let mut flow = Self::new(Purpose::Try);
        for mass in asked.portion.into_iter().chain([asked.heavy]) {
            if WEIGHTS.contains(&mass) {
                flow.toggle(mass);
            }
        }
        flow.asked = Some(asked);
        flow
    }

    /// Takes a weight in, or out again.
    pub fn toggle(&mut self, mass: Mass) {
        if let Some(place) = self.weights.iter().position(|weight| *weight == mass) {
            self.weights.remove(place);
            return;
        }
        self.weights.push(mass);
        self.weights.sort();
    }

    /// What is put on, step by step: nothing first.
    #[must_use]
    pub fn step(&self, step: usize) -> Option<KnownWeight> {
        if step == 0 {
            return Some(KnownWeight::NOTHING);
        }
        let mass = *self.weights.get(step - 1)?;
        let (class, _) = CLASSES.get(self.class)?;
        Some(KnownWeight {
            mass,
            limit: class.permissible_error(mass)?,
        })
    }

    /// What to ask of the scale when a step's weight lies on the pan.
    #[must_use]
    pub fn request(&self, step: usize) -> Option<Request> {
        let weight = self.step(step)?;
        Some(match (self.purpose, step) {
            (Purpose::Try, 0) => Request::ZeroWhenSteady,
            (Purpose::Try, _) => Request::TestWeight(weight),
            (Purpose::Calibrate, _) => Request::TakePoint(weight),
        })
    }

    /// The step after this one is done; `None` after the last.
    #[must_use]
    pub const fn after(&self, step: usize) -> Option<usize> {
        if step < self.weights.len() {
            Some(step + 1)
        } else {
            None
        }
    }
}

/// What a test found, a line a weight and one of what is still to be tried; and whether all
/// is well.
#[must_use]
pub fn test_words(flow: &WeightFlow, language: Language) -> (Vec<String>, bool) {
    let mut lines: Vec<String> = flow
        .found
        .iter()
        .map(|test| sentence(language, test))
        .collect();
    let tried: Vec<Mass> = flow.found.iter().map(|test| test.known).collect();
    lines.extend(
        flow.asked
            .and_then(|asked| still_to_try_words(language, asked, &tried)),
    );
    let passed = |test: &SelfTest| test.outcome() == SelfTestOutcome::Pass;
    (lines, flow.found.iter().all(passed))
}

/// What a calibration came to, in a cook's words.
#[must_use]
pub fn made_words(made: &CalibrationMade, language: Language) -> String {
    say!(
        language,
        "calibration-made",
        points = made.points.to_string(),
        heaviest = language.figure(format!("{:.0} g", made.heaviest.grams())),
        uncertainty = language.figure(format!("{:.2} g", made.uncertainty.grams()))
    )
    .into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_calibration_goes_from_the_empty_pan_up() {
        let mut flow = WeightFlow::new(Purpose::Calibrate);
        for grams in [500, 200, 1_000, 1_000] {
            flow.toggle(Mass::from_grams(grams));
        }
        let mut step = Some(0);
        let mut loads = Vec::new();
        while let Some(now) = step {
            let weight = flow.step(now).unwrap();
            assert_eq!(flow.request(now), Some(Request::TakePoint(weight)));
            loads.push((weight.mass.grams(), weight.limit.grams()));
            step = flow.after(now);
        }
        // OIML R 111-1, Table 1, M1.
        assert_eq!(loads, [(0.0, 0.0), (200.0, 0.01), (500.0, 0.025)]);
    }

    /// A cell of 3 kg and a dish of 30 g.
    #[test]
    fn the_test_begins_with_what_it_asks_for() {
        let asked = TestWeights {
            heavy: Mass::from_grams(1_000),
            portion: Some(Mass::from_grams(20)),
        };
        let mut flow = WeightFlow::test(asked);
        assert_eq!(
            flow.weights,
            [Mass::from_grams(20), Mass::from_grams(1_000)]
        );
        assert_eq!(flow.request(0), Some(Request::ZeroWhenSteady));
        assert!(matches!(flow.request(1), Some(Request::TestWeight(_))));
        assert_eq!(flow.after(1), Some(2));
        assert_eq!(flow.after(2), None);
        // Whoever has no such weight takes it out, and is told what that leaves.
        flow.toggle(Mass::from_grams(20));
        assert_eq!(flow.weights, [Mass::from_grams(1_000)]);
        let passed = |grams| SelfTest {
            known: Mass::from_grams(grams),
            indicated: Mass::from_grams(grams),
            limit: Mass::from_grams(1),
            uncertainty: Mass::from_milligrams(100),
        };
        flow.found.push(passed(1_000));
        let (lines, good) = test_words(&flow, Language::English);
        assert!(good && lines.len() == 2, "{lines:?}");
        assert!(lines[1].starts_with("Try 20.0 g too"), "{lines:?}");
        flow.found.push(passed(20));
        assert_eq!(test_words(&flow, Language::English).0.len(), 2);
        flow.found.push(SelfTest {
            indicated: Mass::from_grams(25),
            ..passed(20)
        });
        assert!(!test_words(&flow, Language::English).1);
    }
}
