//! A formula as it is being written: what may not make sense yet.

use evenhand_kitchen::book::{Counts, Ingredient, StagedFormula, Starter};
use evenhand_kitchen::units::{InputError, Ratio};
use evenhand_protocol::Temperature;

/// An ingredient of the formula being written.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    pub(super) name: String,
    pub(super) percent: f64,
    pub(super) is_base: bool,
    /// How much of it is water, in per cent.
    pub(super) water: f64,
}

/// A stage of it that is made beforehand.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct StageLine {
    pub(super) name: String,
    pub(super) starter: Option<f64>,
    pub(super) flour: Option<String>,
    pub(super) hydration: f64,
    pub(super) takes: Vec<(String, f64)>,
    pub(super) made: Vec<String>,
}

/// The formula being written.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Draft {
    pub(super) name: String,
    pub(super) lines: Vec<Line>,
    pub(super) stages: Vec<StageLine>,
    pub(super) ends_at: Option<Temperature>,
    pub(super) how: Vec<String>,
    pub(super) limits: Vec<String>,
}

impl Draft {
    pub(super) fn of(formula: &StagedFormula) -> Self {
        Self {
            name: formula.name().to_owned(),
            lines: formula
                .ingredients()
                .iter()
                .map(|ingredient| {
                    let (is_base, water) = match ingredient.counts() {
                        Counts::Base => (true, 0.0),
                        Counts::Other { water } => (false, water.percent()),
                    };
                    Line {
                        name: ingredient.name().to_owned(),
                        percent: ingredient.share().percent(),
                        is_base,
                        water,
                    }
                })
                .collect(),
            stages: formula
                .stages()
                .iter()
                .map(|stage| StageLine {
                    name: stage.name().to_owned(),
                    starter: stage.starter().map(|it| it.share().percent()),
                    flour: stage.starter().map(|it| it.flour().to_owned()),
                    hydration: stage.starter().map_or(100.0, |it| it.hydration().percent()),
                    takes: formula
                        .taken_by(stage)
                        .map(|(name, share)| (name.to_owned(), share.percent()))
                        .collect(),
                    made: formula.made_for(stage).map(str::to_owned).collect(),
                })
                .collect(),
            ends_at: formula.ends_at(),
            how: formula.how().to_vec(),
            limits: formula.limits().to_vec(),
        }
    }

    pub(super) fn formula(&self) -> Result<StagedFormula, InputError> {
        let ingredients = self
            .lines
            .iter()
            .map(|line| {
                let counts = if line.is_base {
                    Counts::Base
                } else {
                    Counts::Other {
                        water: Ratio::new(line.water / 100.0).unwrap_or_default(),
                    }
                };
                Ingredient::new(&line.name, counts, line.percent)
            })
            .collect::<Result<Vec<_>, _>>()?;
        let mut formula = StagedFormula::new(&self.name, ingredients)?;
        for stage in &self.stages {
            let starter = stage
                .starter
                .map(|percent| {
                    let flour = stage.flour.clone().or_else(|| self.first_base());
                    Starter::new(percent, &flour.unwrap_or_default(), stage.hydration)
                })
                .transpose()?;
            let takes: Vec<(&str, f64)> = stage
                .takes
                .iter()
                .filter(|(_, percent)| *percent > 0.0)
                .map(|(name, percent)| (name.as_str(), *percent))
                .collect();
            let made: Vec<&str> = stage.made.iter().map(String::as_str).collect();
            formula = formula.with_stage_of(&stage.name, starter, &takes, &made)?;
        }
        if let Some(at) = self.ends_at {
            formula = formula.ending_at(at)?;
        }
        formula.done_by(&self.how)?.held_to(&self.limits)
    }

    pub(super) fn first_base(&self) -> Option<String> {
        self.lines
            .iter()
            .find(|line| line.is_base)
            .map(|line| line.name.clone())
    }

    /// Names an ingredient anew, wherever it stands.
    pub(super) fn rename_line(&mut self, nth: usize, name: &str) {
        let Some(line) = self.lines.get_mut(nth) else {
            return;
        };
        let before = std::mem::replace(&mut line.name, name.to_owned());
        for stage in &mut self.stages {
            for (taken, _) in &mut stage.takes {
                if *taken == before {
                    name.clone_into(taken);
                }
            }
            if stage.flour.as_ref() == Some(&before) {
                stage.flour = Some(name.to_owned());
            }
        }
    }

    /// Names a stage anew, wherever it stands.
    pub(super) fn rename_stage(&mut self, nth: usize, name: &str) {
        let Some(stage) = self.stages.get_mut(nth) else {
            return;
        };
        let before = std::mem::replace(&mut stage.name, name.to_owned());
        for made in self.stages.iter_mut().flat_map(|stage| &mut stage.made) {
            if *made == before {
                name.clone_into(made);
            }
        }
    }

    /// The stage that one goes into whole; `None` for the last bowl.
    pub(super) fn goes_into(&self, nth: usize) -> Option<usize> {
        let name = &self.stages.get(nth)?.name;
        self.stages
            .iter()
            .position(|stage| stage.made.contains(name))
    }

    /// The stages that one can go into: every one that does not go into it itself, at once or
    /// by others.
    pub(super) fn can_go_into(&self, nth: usize) -> Vec<usize> {
        (0..self.stages.len())
            .filter(|place| {
                // Each step is one nearer to the last bowl, so as many as there are stages do.
                std::iter::successors(Some(*place), |place| self.goes_into(*place))
                    .take(self.stages.len() + 1)
                    .all(|place| place != nth)
            })
            .collect()
    }

    /// Puts a stage whole into another, or into the last bowl; returns where it stands then:
    /// what goes into a stage stands before it.
    pub(super) fn put_into(&mut self, nth: usize, into: Option<usize>) -> usize {
        let Some(name) = self.stages.get(nth).map(|stage| stage.name.clone()) else {
            return nth;
        };
        if into.is_some_and(|into| !self.can_go_into(nth).contains(&into)) {
            return nth;
        }
        for stage in &mut self.stages {
            stage.made.retain(|made| *made != name);
        }
        if let Some(stage) = into.and_then(|into| self.stages.get_mut(into)) {
            stage.made.push(name.clone());
        }
        let mut waiting = std::mem::take(&mut self.stages);
        while !waiting.is_empty() {
            let ready = waiting.iter().position(|stage| {
                let there = |made: &String| waiting.iter().all(|other| other.name != *made);
                stage.made.iter().all(there)
            });
            // Of stages that go round in a circle the first; `can_go_into` lets none.
            let next = waiting.remove(ready.unwrap_or(0));
            self.stages.push(next);
        }
        let place = self.stages.iter().position(|stage| stage.name == name);
        place.unwrap_or(nth)
    }
}
