//! What happened to the steps of a board: told by hand, or seen by the bench.

use super::board::{Board, StepRef};
use super::step::{Progress, TickedBy};
use super::who::HandName;
use jiff::{SignedDuration, Timestamp};
use petgraph::graph::NodeIndex;
use std::collections::{HashMap, HashSet};

/// Who told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum By {
    /// Somebody.
    Hand,
    /// The bench saw it done.
    Bench,
}

/// What happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case")]
pub enum Happened {
    /// The step was begun.
    Begun,
    /// It was finished.
    Done,
    /// It was not: what was told before does not count.
    Undone,
    /// It cannot begin before this after all: a late delivery.
    Delayed {
        /// The earliest that it can begin.
        until: Timestamp,
    },
    /// What was left of the batch that it finished is gone: thrown out, or used
    /// otherwise.
    Gone,
}

/// How far a preparation's batch for a service has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OfPreparation {
    /// Nothing of it was begun.
    Open,
    /// Something of it was begun.
    Begun {
        /// When first.
        since: Timestamp,
    },
    /// All of it is done.
    Finished {
        /// When it was begun.
        since: Timestamp,
        /// When its last step was done.
        ready: Timestamp,
    },
}

/// Something that happened to a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    /// When.
    pub at: Timestamp,
    /// The step: `necks: into the brine`.
    pub step: String,
    /// What.
    pub what: Happened,
    /// Who told.
    pub by: By,
    /// Who did it, where that was told.
    pub who: Option<HandName>,
}

/// A run of portions, as far as a board cares.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeenRun {
    /// The dish.
    pub dish: String,
    /// When its portions that count were made, oldest first.
    pub portions: Vec<Timestamp>,
    /// When the run ended, if it did.
    pub ended: Option<Timestamp>,
}

/// A batch, as far as a board cares.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeenBatch {
    /// Its title.
    pub title: String,
    /// When it was begun.
    pub begun: Timestamp,
    /// When it was noted as ready or came out, if it was.
    pub done: Option<Timestamp>,
}

/// A run or batch is taken for a step's when it was begun or done no further than
/// this before the step's latest start, so that yesterday's does not tick today's.
const EARLY: SignedDuration = SignedDuration::from_hours(12);

/// A moment told of a step has nothing to do with the service that the step is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum OutsideService {
    /// It is longer before than any step is begun.
    #[error("more than 31 days earlier than the service it is for")]
    Earlier,
    /// The service is over by then.
    #[error("later than the service it is for")]
    Later,
}

/// No step is begun longer than this before its service: the longest rest and a day.
const LONGEST_BEFORE: SignedDuration = SignedDuration::from_hours(31 * 24);
/// How long a service lasts at most of which nobody said when it closes.
const LONGEST_SERVICE: SignedDuration = SignedDuration::from_hours(24);

impl Board {
    /// Whether something can have happened to a step of this service then.
    ///
    /// # Errors
    /// [`OutsideService`].
    pub fn can_be_told(&self, at: Timestamp) -> Result<(), OutsideService> {
        if self.service.duration_since(at) > LONGEST_BEFORE {
            return Err(OutsideService::Earlier);
        }
        let ends = self.closing().unwrap_or_else(|| {
            self.service
                .saturating_add(LONGEST_SERVICE)
                .unwrap_or(self.service)
        });
        if at > ends {
            return Err(OutsideService::Later);
        }
        Ok(())
    }

    /// The step of a full name.
    #[must_use]
    pub fn named(&self, full: &str) -> Option<StepRef> {
        self.steps()
            .find(|(_, step)| step.full_name().eq_ignore_ascii_case(full.trim()))
            .map(|(reference, _)| reference)
    }

    /// Takes in what happened, in order of time. Returns the steps that are
    /// not on the board: the menu was changed since.
    pub fn replay(&mut self, events: &[Event]) -> Vec<String> {
        let mut order: Vec<&Event> = events.iter().collect();
        order.sort_by_key(|event| event.at);
        let mut unknown = Vec::new();
        let mut held_back = HashSet::new();
        for event in order {
            let Some(reference) = self.named(&event.step) else {
                if !unknown.contains(&event.step) {
                    unknown.push(event.step.clone());
                }
                continue;
            };
            let Some(step) = self.graph.node_weight_mut(NodeIndex::new(reference.0)) else {
                continue;
            };
            let undone = NodeIndex::new(reference.0);
            if event.what == Happened::Undone {
                held_back.insert(undone);
            } else {
                held_back.remove(&undone);
            }
            match event.what {
                // Somebody at it is not begun again, and what is done stays done.
                Happened::Begun => {
                    if step.progress == Progress::Waiting {
                        step.progress = Progress::Begun(event.at);
                    }
                }
                Happened::Done => {
                    if !matches!(step.progress, Progress::Done(_)) {
                        step.progress = Progress::Done(event.at);
                    }
                }
                Happened::Undone => step.progress = Progress::Waiting,
                Happened::Delayed { until } => step.not_before = Some(until),
                Happened::Gone => {}
            }
        }
        self.close_implied(&held_back);
        self.begin_rests(&held_back);
        unknown
    }

    /// Nobody begins a step before what it waits for is done, so that is done,
    /// unless somebody said that it is not.
    fn close_implied(&mut self, held_back: &HashSet<NodeIndex>) {
        for i in self.in_order().into_iter().rev() {
            let (Progress::Begun(at) | Progress::Done(at)) = self.graph[i].progress else {
                continue;
            };
            let before: Vec<NodeIndex> = self.before(i).collect();
            for b in before {
                if !held_back.contains(&b)
                    && let Some(step) = self.graph.node_weight_mut(b)
                    && !matches!(step.progress, Progress::Done(_))
                {
                    step.progress = Progress::Done(at);
                }
            }
        }
    }

    /// How far a preparation of this board has come, as its steps stand.
    #[must_use]
    pub fn of_preparation(&self, preparation: &str) -> OfPreparation {
        let mut steps = 0;
        let (mut since, mut ready, mut done) = (None::<Timestamp>, None::<Timestamp>, 0);
        for (_, step) in self.steps().filter(|(_, s)| s.preparation == preparation) {
            steps += 1;
            let (Progress::Begun(at) | Progress::Done(at)) = step.progress else {
                continue;
            };
            since = Some(since.map_or(at, |known| known.min(at)));
            if matches!(step.progress, Progress::Done(_)) {
                done += 1;
                ready = ready.max(Some(at));
            }
        }
        match (since, ready) {
            (Some(since), Some(ready)) if done == steps => OfPreparation::Finished { since, ready },
            (Some(since), _) => OfPreparation::Begun { since },
            (None, _) => OfPreparation::Open,
        }
    }

    /// A rest begins by itself when what it waits for is done, unless somebody
    /// said that it did not.
    fn begin_rests(&mut self, held_back: &HashSet<NodeIndex>) {
        for i in self.in_order() {
            let step = &self.graph[i];
            if !step.takes.is_rest() || step.progress != Progress::Waiting || held_back.contains(&i)
            {
                continue;
            }
            let mut since = None;
            let mut waits = false;
            for before in self.before(i) {
                match self.graph[before].progress {
                    Progress::Done(at) => since = since.max(Some(at)),
                    _ => waits = true,
                }
            }
            if let (Some(at), false) = (since, waits)
                && let Some(step) = self.graph.node_weight_mut(i)
            {
                step.progress = Progress::Begun(step.not_before.map_or(at, |t| t.max(at)));
            }
        }
    }

    /// The latest that each step can begin by what waits for it alone. It tells
    /// one day's step from another's, so what is shared does not matter.
    fn latest_alone(&self) -> Vec<(StepRef, Timestamp)> {
        let order = self.in_order();
        let mut latest: HashMap<NodeIndex, Timestamp> = HashMap::new();
        for i in order.iter().rev() {
            let by = self
                .after(*i)
                .filter_map(|after| latest.get(&after).copied())
                .fold(self.due(*i), Timestamp::min);
            let needed = self.graph[*i].takes.needed();
            latest.insert(*i, by.checked_sub(needed).unwrap_or(Timestamp::MIN));
        }
        order
            .into_iter()
            .filter_map(|i| Some((StepRef(i.index()), *latest.get(&i)?)))
            .collect()
    }

    /// What the bench saw of the steps that it ticks by itself.
    #[must_use]
    pub fn sightings(&self, runs: &[SeenRun], seen: &[SeenBatch]) -> Vec<Event> {
        let mut events = Vec::new();
        for (reference, latest) in self.latest_alone() {
            let (Some(by), Ok(step), Ok(service)) = (
                self.ticker(reference),
                self.step(reference),
                self.service_of(reference),
            ) else {
                continue;
            };
            let from = latest.checked_sub(EARLY).unwrap_or(Timestamp::MIN);
            let within = |at: Timestamp| at >= from && at <= service;
            // Of a preparation made in several batches, each has what comes after that of those
            // before it.
            let (nth, batches) = self.nth_of(reference);
            let before = (nth - 1) as usize;
            let mut tell = |at: Timestamp, what| {
                events.push(Event {
                    at,
                    step: step.full_name(),
                    what,
                    by: By::Bench,
                    who: None,
                });
            };
            match by {
                TickedBy::Portions { dish, wanted } => {
                    let mine: Vec<&SeenRun> = runs
                        .iter()
                        .filter(|run| run.dish.eq_ignore_ascii_case(dish.trim()))
                        .collect();
                    let mut portions: Vec<Timestamp> = mine
                        .iter()
                        .flat_map(|run| &run.portions)
                        .copied()
                        .filter(|at| within(*at))
                        .collect();
                    portions.sort_unstable();
                    let (first, done) = match wanted {
                        Some(wanted) => {
                            let wanted = *wanted as usize;
                            let first = portions.get(before * wanted).copied();
                            let last = ((before + 1) * wanted).checked_sub(1);
                            (first, last.and_then(|last| portions.get(last)).copied())
                        }
                        None => {
                            let begun =
                                |run: &SeenRun| run.portions.iter().copied().find(|at| within(*at));
                            let mut runs: Vec<(Timestamp, Option<Timestamp>)> = mine
                                .iter()
                                .filter_map(|run| Some((begun(run)?, run.ended)))
                                .collect();
                            runs.sort_unstable();
                            // A run a batch; the last has what comes after it, too.
                            let mut own = runs.split_off(before.min(runs.len()));
                            if nth < batches {
                                own.truncate(1);
                            }
                            let done = own.iter().map(|run| run.1).max().flatten();
                            (own.first().map(|run| run.0), done)
                        }
                    };
                    let Some(first) = first else {
                        continue;
                    };
                    tell(first, Happened::Begun);
                    if let Some(done) = done {
                        tell(done, Happened::Done);
                    }
                }
                TickedBy::Batch { title } => {
                    let mut of_title: Vec<&SeenBatch> = seen
                        .iter()
                        .filter(|batch| batch.title.eq_ignore_ascii_case(title.trim()))
                        .filter(|batch| within(batch.begun) || batch.done.is_some_and(within))
                        .collect();
                    of_title.sort_by_key(|batch| (!within(batch.begun), batch.begun));
                    if let Some(batch) = of_title.get(before) {
                        tell(batch.begun, Happened::Begun);
                        if let Some(done) = batch.done {
                            tell(done, Happened::Done);
                        }
                    }
                }
            }
        }
        events
    }
}
