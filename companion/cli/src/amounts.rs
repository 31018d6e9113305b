//! Arguments that are weights, shared by commands.

use super::Failure;
use super::words::bad_input;
use clap::Args;
use evenhand_kitchen::units::{MassUnit, mass_not_negative, mass_positive};
use evenhand_protocol::{Goal, Mode, Tolerance};

/// The target and its tolerance.
#[derive(Debug, Clone, Args)]
pub(super) struct GoalArguments {
    /// What a portion should weigh, with its unit: 30g, 1.2oz.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    target: Option<String>,
    /// How far from the target, to either side, still counts as on: 1g.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    tolerance: Option<String>,
    /// How far below the target still counts as on, where it differs.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    below: Option<String>,
    /// How far above the target still counts as on, where it differs.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    above: Option<String>,
}

impl GoalArguments {
    /// Whether nothing was said.
    pub(super) const fn is_empty(&self) -> bool {
        self.target.is_none()
            && self.tolerance.is_none()
            && self.below.is_none()
            && self.above.is_none()
    }

    /// The goal that was said; what was not said is as in `known`.
    pub(super) fn goal(&self, known: Option<Goal>) -> Result<Goal, Failure> {
        let target = match (&self.target, known) {
            (Some(text), _) => mass_positive("--target", text)?,
            (None, Some(known)) => known.target(),
            (None, None) => return Err(missing("--target", "30g")),
        };
        let side = |name: &str, text: &Option<String>, known: Option<_>| match (
            text.as_ref().map(|text| (name, text)),
            self.tolerance.as_ref().map(|text| ("--tolerance", text)),
        ) {
            (Some((name, text)), _) | (None, Some((name, text))) => {
                Ok(mass_not_negative(name, text)?)
            }
            (None, None) => known.ok_or_else(|| missing("--tolerance", "1g")),
        };
        let known = known.map(Goal::tolerance);
        let tolerance = Tolerance {
            below: side("--below", &self.below, known.map(|known| known.below))?,
            above: side("--above", &self.above, known.map(|known| known.above))?,
        };
        Goal::new(target, tolerance).map_err(|error| bad_input!("goal-senseless", why = error))
    }
}

fn missing(field: &str, example: &str) -> Failure {
    bad_input!("needed", field = field, example = example)
}

/// How portions are made.
#[derive(Debug, Clone, Copy, Args)]
#[group(multiple = false)]
pub(super) struct ModeArguments {
    /// An empty dish goes on, food is added, the dish is lifted off.
    #[arg(long)]
    adding: bool,
    /// A full tin stays on, each spoonful taken out of it is a portion.
    #[arg(long)]
    taking: bool,
}

impl ModeArguments {
    /// The mode that was said, or the one known.
    pub(super) fn mode(self, known: Option<Mode>) -> Result<Mode, Failure> {
        match (self.adding, self.taking, known) {
            (true, _, _) => Ok(Mode::Adding),
            (_, true, _) => Ok(Mode::Taking),
            (false, false, Some(known)) => Ok(known),
            (false, false, None) => Err(bad_input!("mode-needed")),
        }
    }
}

/// The unit that weights are shown in.
#[derive(Debug, Clone, Args)]
pub(super) struct UnitArguments {
    /// Show weights in g, kg, oz or lb. JSON and CSV are always in grams.
    #[arg(long, value_name = "UNIT", default_value = "g")]
    unit: String,
}

impl UnitArguments {
    pub(super) fn unit(&self) -> Result<MassUnit, Failure> {
        self.unit
            .parse()
            .map_err(|_| bad_input!("unit-unknown", value = format!("{:?}", self.unit)))
    }
}
