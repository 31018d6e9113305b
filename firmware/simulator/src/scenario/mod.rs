//! A scenario: what happens at the bench, with the true masses.
//!
//! The form of the file is described in `firmware/simulator/SCENARIOS.md`. A
//! scenario and a seed together fix every portion's mass and every
//! disturbance; what the scenario leaves open is drawn from the seed within
//! believable limits.

mod check;
mod error;
mod range;
mod tables;

pub use error::ScenarioError;
pub(crate) use range::Range;
pub(crate) use tables::{
    Cell, Converter, Cook, Dishes, Event, EventKind, Portions, Probe, Refill, Surroundings, Tin,
};

use evenhand_protocol::{Goal, Mass, Mode};
use std::path::Path;

/// The scenarios that ship with the program: a name, and the file's text.
pub const SHIPPED: &[(&str, &str)] = &[
    (
        "saltmarsh-shrimp-taking",
        include_str!("../../scenarios/saltmarsh-shrimp-taking.toml"),
    ),
    (
        "saltmarsh-hogget-neck-adding",
        include_str!("../../scenarios/saltmarsh-hogget-neck-adding.toml"),
    ),
    (
        "saltmarsh-parfait",
        include_str!("../../scenarios/saltmarsh-parfait.toml"),
    ),
    (
        "rough-night",
        include_str!("../../scenarios/rough-night.toml"),
    ),
    (
        "rough-night-taking",
        include_str!("../../scenarios/rough-night-taking.toml"),
    ),
];

/// Other kitchens, with several difficulties at once: what figures are reported on.
/// Nothing was tuned on them.
pub const REPORT: &[(&str, &str)] = &[
    (
        "quiet-plating",
        include_str!("../../scenarios/report/quiet-plating.toml"),
    ),
    (
        "quiet-scooping",
        include_str!("../../scenarios/report/quiet-scooping.toml"),
    ),
    (
        "barge-plating",
        include_str!("../../scenarios/report/barge-plating.toml"),
    ),
    (
        "barge-scooping",
        include_str!("../../scenarios/report/barge-scooping.toml"),
    ),
    ("rush", include_str!("../../scenarios/report/rush.toml")),
    (
        "apron-plating",
        include_str!("../../scenarios/report/apron-plating.toml"),
    ),
    (
        "apron-scooping",
        include_str!("../../scenarios/report/apron-scooping.toml"),
    ),
    (
        "leaking-tub",
        include_str!("../../scenarios/report/leaking-tub.toml"),
    ),
    (
        "busy-tub",
        include_str!("../../scenarios/report/busy-tub.toml"),
    ),
    (
        "butchers-block",
        include_str!("../../scenarios/report/butchers-block.toml"),
    ),
    (
        "small-tins",
        include_str!("../../scenarios/report/small-tins.toml"),
    ),
    (
        "leaning-cook",
        include_str!("../../scenarios/report/leaning-cook.toml"),
    ),
];

/// Scenarios that are hard to weigh in, one difficulty each: what the figures of
/// `LEDGER.md` are measured on.
pub const HARD: &[(&str, &str)] = &[
    (
        "calm-adding",
        include_str!("../../scenarios/hard/calm-adding.toml"),
    ),
    (
        "calm-taking",
        include_str!("../../scenarios/hard/calm-taking.toml"),
    ),
    (
        "half-second-adding",
        include_str!("../../scenarios/hard/half-second-adding.toml"),
    ),
    (
        "half-second-taking",
        include_str!("../../scenarios/hard/half-second-taking.toml"),
    ),
    (
        "fast-adding",
        include_str!("../../scenarios/hard/fast-adding.toml"),
    ),
    (
        "blind-cook",
        include_str!("../../scenarios/hard/blind-cook.toml"),
    ),
    (
        "takes-back",
        include_str!("../../scenarios/hard/takes-back.toml"),
    ),
    ("dribble", include_str!("../../scenarios/hard/dribble.toml")),
    (
        "still-hand",
        include_str!("../../scenarios/hard/still-hand.toml"),
    ),
    (
        "spoon-in-dish",
        include_str!("../../scenarios/hard/spoon-in-dish.toml"),
    ),
    (
        "spoon-in-tin",
        include_str!("../../scenarios/hard/spoon-in-tin.toml"),
    ),
    (
        "returned-lighter",
        include_str!("../../scenarios/hard/returned-lighter.toml"),
    ),
    (
        "halves-adding",
        include_str!("../../scenarios/hard/halves-adding.toml"),
    ),
    (
        "halves-taking",
        include_str!("../../scenarios/hard/halves-taking.toml"),
    ),
    ("tastes", include_str!("../../scenarios/hard/tastes.toml")),
    (
        "refill-mid-scoop",
        include_str!("../../scenarios/hard/refill-mid-scoop.toml"),
    ),
    ("drips", include_str!("../../scenarios/hard/drips.toml")),
    ("slides", include_str!("../../scenarios/hard/slides.toml")),
    ("pulls", include_str!("../../scenarios/hard/pulls.toml")),
    (
        "sway-adding",
        include_str!("../../scenarios/hard/sway-adding.toml"),
    ),
    (
        "sway-taking",
        include_str!("../../scenarios/hard/sway-taking.toml"),
    ),
    (
        "contact-adding",
        include_str!("../../scenarios/hard/contact-adding.toml"),
    ),
    (
        "contact-taking",
        include_str!("../../scenarios/hard/contact-taking.toml"),
    ),
    ("paper", include_str!("../../scenarios/hard/paper.toml")),
    ("at-once", include_str!("../../scenarios/hard/at-once.toml")),
    (
        "five-kilograms",
        include_str!("../../scenarios/hard/five-kilograms.toml"),
    ),
    (
        "five-kilograms-low",
        include_str!("../../scenarios/hard/five-kilograms-low.toml"),
    ),
    (
        "five-kilograms-tin",
        include_str!("../../scenarios/hard/five-kilograms-tin.toml"),
    ),
    (
        "dirty-supply",
        include_str!("../../scenarios/hard/dirty-supply.toml"),
    ),
    (
        "heavy-tread",
        include_str!("../../scenarios/hard/heavy-tread.toml"),
    ),
    (
        "hot-dishes",
        include_str!("../../scenarios/hard/hot-dishes.toml"),
    ),
];

/// The names of [`SHIPPED`] in a row.
pub(crate) fn shipped_names() -> String {
    SHIPPED
        .iter()
        .map(|(name, _)| format!("`{name}`"))
        .collect::<Vec<_>>()
        .join(", ")
}

/// What is portioned, in which way.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Vessels {
    Dishes(Dishes),
    Tin(Tin),
}

/// A scenario that makes sense.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    title: String,
    seed: u64,
    dish: String,
    goal: Goal,
    capacity: Mass,
    pub(crate) portions: Portions,
    pub(crate) vessels: Vessels,
    pub(crate) cook: Cook,
    pub(crate) cell: Cell,
    pub(crate) converter: Converter,
    pub(crate) surroundings: Surroundings,
    pub(crate) probe: Option<Probe>,
    pub(crate) events: Vec<Event>,
}

impl Scenario {
    /// Reads a scenario from its text.
    ///
    /// # Errors
    /// [`ScenarioError::Form`] where it is not TOML or not in the form
    /// expected, [`ScenarioError::Value`] where a value makes no sense.
    pub fn from_toml(text: &str) -> Result<Self, ScenarioError> {
        let file: tables::File = toml::from_str(text).map_err(|source| ScenarioError::Form {
            path: None,
            source: Box::new(source),
        })?;
        file.check()?;
        let goal = file.goal()?;
        let capacity = Mass::from_fractional_grams(file.cell.capacity_grams).unwrap_or(Mass::MAX);
        let (dishes, tin) = (file.dishes.clone(), file.tin.clone());
        let vessels = match (file.mode(), dishes, tin) {
            (Mode::Adding, Some(dishes), _) => Vessels::Dishes(dishes),
            (Mode::Taking, _, Some(tin)) => Vessels::Tin(tin),
            // Checked above.
            _ => {
                return Err(ScenarioError::Value {
                    path: None,
                    field: "mode".into(),
                    value: format!("{:?}", file.mode()),
                    expected: "a table [dishes] when adding, [tin] when taking".into(),
                });
            }
        };
        Ok(Self {
            title: file.title,
            seed: file.seed,
            dish: file.dish,
            goal,
            capacity,
            portions: file.portions,
            vessels,
            cook: file.cook,
            cell: file.cell,
            converter: file.converter,
            surroundings: file.surroundings,
            probe: file.probe,
            events: file.event,
        })
    }

    /// Reads a scenario from a file.
    ///
    /// # Errors
    /// As for [`Scenario::from_toml`], and [`ScenarioError::Unreadable`].
    pub fn load(path: &Path) -> Result<Self, ScenarioError> {
        let text = std::fs::read_to_string(path).map_err(|source| ScenarioError::Unreadable {
            path: path.to_owned(),
            source,
        })?;
        Self::from_toml(&text).map_err(|error| error.in_file(path.to_owned()))
    }

    /// One of the scenarios that ship with the program, [`HARD`] and [`REPORT`] ones included.
    ///
    /// # Errors
    /// [`ScenarioError::NotShipped`] where there is none of that name.
    pub fn shipped(name: &str) -> Result<Self, ScenarioError> {
        let (_, text) = SHIPPED
            .iter()
            .chain(HARD)
            .chain(REPORT)
            .find(|(shipped, _)| *shipped == name)
            .ok_or_else(|| ScenarioError::NotShipped { name: name.into() })?;
        Self::from_toml(text)
    }

    /// One line that says what it is.
    #[must_use]
    pub fn title(&self) -> &str {
        &self.title
    }

    /// The seed to use when none is asked for.
    #[must_use]
    pub const fn seed(&self) -> u64 {
        self.seed
    }

    /// The dish that is portioned.
    #[must_use]
    pub fn dish(&self) -> &str {
        &self.dish
    }

    /// How it is portioned.
    #[must_use]
    pub const fn mode(&self) -> Mode {
        match self.vessels {
            Vessels::Dishes(_) => Mode::Adding,
            Vessels::Tin(_) => Mode::Taking,
        }
    }

    /// What a portion should weigh.
    #[must_use]
    pub const fn goal(&self) -> Goal {
        self.goal
    }

    /// The most the scale may weigh.
    #[must_use]
    pub const fn capacity(&self) -> Mass {
        self.capacity
    }

    /// How many portions are made.
    #[must_use]
    pub fn portion_count(&self) -> usize {
        match &self.portions.masses_grams {
            Some(masses) => masses.len(),
            None => usize::try_from(self.portions.count.unwrap_or(0)).unwrap_or(usize::MAX),
        }
    }
}
