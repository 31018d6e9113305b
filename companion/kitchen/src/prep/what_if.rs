//! What if something is late?

use super::board::Board;
use super::step::Progress;
use jiff::{SignedDuration, Timestamp};
use petgraph::graph::NodeIndex;

/// Why a question was not understood.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum WhatIfError {
    /// There is no `+` with a time after it.
    #[error("'{0}' names no time: expected what is late and by how much, as 'fish +1h'")]
    NoTime(String),
    /// The time is none.
    #[error(
        "'{0}' is no length of time: expected one above nothing and up to 30 days, as 1h or 45 min"
    )]
    Length(String),
    /// Nothing of that name is on the board.
    #[error("there is nothing '{name}' on the board; there are {known}")]
    Unknown {
        /// The name.
        name: String,
        /// What there is.
        known: String,
    },
}

impl Board {
    /// Makes something later: `fish +1h` for a preparation, `fish: trim +45
    /// min` for a step.
    ///
    /// Of a preparation what has a time of its own (a delivery) comes later by
    /// as much; where nothing has, what is to be begun first. What is begun or
    /// done stays. Returns the names of the steps that it moved.
    ///
    /// # Errors
    /// [`WhatIfError`], and the board is left as it was.
    pub fn what_if(&mut self, text: &str, now: Timestamp) -> Result<Vec<String>, WhatIfError> {
        let (name, by) = text
            .rsplit_once('+')
            .ok_or_else(|| WhatIfError::NoTime(text.to_owned()))?;
        let by = by
            .trim()
            .parse::<SignedDuration>()
            .ok()
            .filter(|by| by.is_positive() && *by <= SignedDuration::from_hours(30 * 24))
            .ok_or_else(|| WhatIfError::Length(by.trim().to_owned()))?;
        let name = name.trim();
        let found: Vec<NodeIndex> = self
            .graph
            .node_indices()
            .filter(|i| {
                let step = &self.graph[*i];
                step.preparation.eq_ignore_ascii_case(name)
                    || step.full_name().eq_ignore_ascii_case(name)
            })
            .collect();
        if found.is_empty() {
            let mut known: Vec<String> = self.steps().map(|(_, s)| s.preparation.clone()).collect();
            known.dedup();
            return Err(WhatIfError::Unknown {
                name: name.to_owned(),
                known: known.join(", "),
            });
        }
        let waiting: Vec<NodeIndex> = found
            .into_iter()
            .filter(|i| self.graph[*i].progress == Progress::Waiting)
            .collect();
        let mut moved: Vec<NodeIndex> = waiting
            .iter()
            .copied()
            .filter(|i| self.graph[*i].not_before.is_some())
            .collect();
        if moved.is_empty() {
            moved = waiting
                .iter()
                .copied()
                .filter(|i| !self.before(*i).any(|b| waiting.contains(&b)))
                .collect();
        }
        let mut names = Vec::new();
        for i in moved {
            if let Some(step) = self.graph.node_weight_mut(i) {
                let from = step.not_before.map_or(now, |t| t.max(now));
                step.not_before = Some(from.checked_add(by).unwrap_or(Timestamp::MAX));
                names.push(step.full_name());
            }
        }
        Ok(names)
    }
}
