//! A board laid out in time.

use super::board::{Board, StepRef};
use super::calendar::{Bookings, Stretch};
use super::step::Progress;
use jiff::{SignedDuration, Timestamp};
use petgraph::Direction;
use petgraph::graph::NodeIndex;
use std::collections::HashMap;

/// What a cook should know of a step now.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// It will not be done in time, whatever is done now.
    Late,
    /// It can begin, and should have or must now.
    Now,
    /// Somebody is at it, or it rests.
    UnderWay,
    /// It can begin whenever there is time.
    Next,
    /// It waits for others, or for its time.
    Later,
    /// Finished.
    Done,
}

/// One step in the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedStep {
    /// Which.
    pub step: StepRef,
    /// The earliest that it can begin.
    pub earliest: Timestamp,
    /// The latest that it can begin at all, hands and ovens left aside.
    pub latest: Timestamp,
    /// When to begin so that hands and ovens suffice; `None` where they do not.
    pub start_by: Option<Timestamp>,
    /// When it then ends.
    pub done_by: Option<Timestamp>,
    /// Time to spare: latest less earliest; negative when late.
    pub slack: SignedDuration,
    /// Whether it is on the chain that decides the day.
    pub decides: bool,
    /// How it stands.
    pub standing: Standing,
    /// A rest that the plan makes longer than its most, by so much.
    pub over_rest: Option<SignedDuration>,
}

/// A board laid out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// Every step, in order of when to begin it.
    pub steps: Vec<PlannedStep>,
    /// The chain that decides the day, first to last: the steps with the least
    /// slack, each waiting for the one before.
    pub chain: Vec<StepRef>,
    /// How late service would open at best; `None` when in time.
    pub late_by: Option<SignedDuration>,
}

struct Path {
    earliest: Timestamp,
    ends: Timestamp,
    latest: Timestamp,
}

impl Board {
    /// Lays the board out as it stands now.
    #[must_use]
    pub fn plan(&self, now: Timestamp) -> Plan {
        let order = self.in_order();
        let paths = self.critical_path(&order, now);
        let shared = self.share(&order, &paths, now);
        let mut steps: Vec<PlannedStep> = order
            .iter()
            .filter_map(|i| self.planned(*i, &paths, &shared, now))
            .collect();
        let chain = self.deciding_chain(&order, &paths);
        for planned in &mut steps {
            planned.decides = chain.contains(&planned.step);
        }
        steps.sort_by_key(|s| (s.start_by.unwrap_or(s.latest), s.latest, s.step));
        let late_by = paths
            .iter()
            .map(|(i, p)| p.ends.duration_since(self.due(*i)))
            .max()
            .filter(|late| late.is_positive());
        Plan {
            steps,
            chain,
            late_by,
        }
    }

    pub(super) fn before(&self, step: NodeIndex) -> impl Iterator<Item = NodeIndex> {
        self.graph.neighbors_directed(step, Direction::Incoming)
    }

    pub(super) fn after(&self, step: NodeIndex) -> impl Iterator<Item = NodeIndex> {
        self.graph.neighbors_directed(step, Direction::Outgoing)
    }

    /// The time still needed for a step, and when that may begin at the
    /// earliest.
    fn remaining(&self, step: NodeIndex, now: Timestamp) -> (Timestamp, SignedDuration) {
        let step = &self.graph[step];
        match step.progress {
            Progress::Done(at) => (at, SignedDuration::ZERO),
            // A step that takes longer than it should ends now at the earliest.
            Progress::Begun(at) => (
                at,
                step.takes
                    .needed()
                    .max(now.duration_since(at))
                    .max(SignedDuration::ZERO),
            ),
            Progress::Waiting => (
                step.not_before.map_or(now, |t| t.max(now)),
                step.takes.needed(),
            ),
        }
    }

    /// Whether what waits for a step can begin: it is done, or it is a rest
    /// that has had its least.
    fn is_over(&self, step: NodeIndex, now: Timestamp) -> bool {
        let step = &self.graph[step];
        match step.progress {
            Progress::Done(_) => true,
            Progress::Begun(at) => {
                step.takes.is_rest() && now.duration_since(at) >= step.takes.needed()
            }
            Progress::Waiting => false,
        }
    }

    fn critical_path(&self, order: &[NodeIndex], now: Timestamp) -> HashMap<NodeIndex, Path> {
        let mut paths: HashMap<NodeIndex, Path> = HashMap::new();
        for i in order {
            let (mut earliest, needed) = self.remaining(*i, now);
            if self.graph[*i].progress == Progress::Waiting {
                for before in self.before(*i) {
                    if let Some(path) = paths.get(&before) {
                        earliest = earliest.max(path.ends);
                    }
                }
            }
            paths.insert(
                *i,
                Path {
                    earliest,
                    ends: later(earliest, needed),
                    latest: self.due(*i),
                },
            );
        }
        for i in order.iter().rev() {
            let end = self
                .after(*i)
                .filter_map(|after| paths.get(&after).map(|p| p.latest))
                .min()
                .unwrap_or_else(|| self.due(*i));
            let needed = self.remaining(*i, now).1;
            if let Some(path) = paths.get_mut(i) {
                path.latest = earlier(end, needed);
            }
        }
        paths
    }

    /// Shares hands and ovens: steps from last to first, each as late as those
    /// that wait for it and the places left allow.
    fn share(
        &self,
        order: &[NodeIndex],
        paths: &HashMap<NodeIndex, Path>,
        now: Timestamp,
    ) -> HashMap<NodeIndex, Stretch> {
        // Steps under way hold their place already.
        let mut bookings: HashMap<&str, Bookings> = HashMap::new();
        for i in order {
            if let (Progress::Begun(from), Some(name)) =
                (self.graph[*i].progress, self.graph[*i].needs.as_deref())
            {
                let to = paths.get(i).map_or(now, |p| p.ends);
                bookings.entry(name).or_default().book(Stretch { from, to });
            }
        }
        let first = order.iter().map(|i| self.due(*i)).min();
        let horizon = earlier(
            first.unwrap_or(self.service),
            SignedDuration::from_hours(60 * 24),
        );
        let mut shared: HashMap<NodeIndex, Stretch> = HashMap::new();
        let mut left: Vec<NodeIndex> = order
            .iter()
            .copied()
            .filter(|i| self.graph[*i].progress == Progress::Waiting)
            .collect();
        while !left.is_empty() {
            // Of the steps whose followers are all placed, the one that can end latest goes
            // first: it is the mirror of serving the most urgent first.
            let ready = left
                .iter()
                .enumerate()
                .filter(|(_, i)| self.after(**i).all(|after| !left.contains(&after)))
                .max_by_key(|(_, i)| (paths.get(i).map(|p| p.latest), i.index()))
                .map(|(place, _)| place);
            let Some(place) = ready else { break };
            let i = left.remove(place);
            let by = self
                .after(i)
                .map(|after| {
                    shared
                        .get(&after)
                        .map(|s| s.from)
                        .or_else(|| paths.get(&after).map(|p| p.latest))
                        .unwrap_or_else(|| self.due(i))
                })
                .min()
                .unwrap_or_else(|| self.due(i));
            let needed = self.graph[i].takes.needed();
            let stretch = match self.graph[i].needs.as_deref() {
                None => Some(Stretch {
                    from: earlier(by, needed),
                    to: by,
                }),
                Some(name) => self
                    .resources
                    .iter()
                    .find(|r| r.name == name)
                    .and_then(|resource| {
                        let booked = bookings.entry(name).or_default();
                        let found = booked.latest(resource, needed, by, horizon, &self.zone)?;
                        booked.book(found);
                        Some(found)
                    }),
            };
            if let Some(stretch) = stretch {
                shared.insert(i, stretch);
            }
        }
        shared
    }

    fn planned(
        &self,
        i: NodeIndex,
        paths: &HashMap<NodeIndex, Path>,
        shared: &HashMap<NodeIndex, Stretch>,
        now: Timestamp,
    ) -> Option<PlannedStep> {
        let path = paths.get(&i)?;
        let step = &self.graph[i];
        let slack = path.latest.duration_since(path.earliest);
        let stretch = shared.get(&i);
        let standing = match step.progress {
            Progress::Done(_) => Standing::Done,
            _ if slack.is_negative() => Standing::Late,
            Progress::Begun(_) => Standing::UnderWay,
            Progress::Waiting => {
                let waits = self.before(i).any(|b| !self.is_over(b, now));
                let not_yet = step.not_before.is_some_and(|t| t > now);
                if waits || not_yet {
                    Standing::Later
                } else if stretch.is_none_or(|s| s.from <= now) {
                    Standing::Now
                } else {
                    Standing::Next
                }
            }
        };
        // How long a rest lasts in the plan: until the first that waits for it begins.
        let over_rest = (step.takes.is_rest() && !matches!(step.progress, Progress::Done(_)))
            .then(|| {
                let from = match step.progress {
                    Progress::Begun(at) => Some(at),
                    _ => stretch.map(|s| s.from),
                }?;
                let until = self
                    .after(i)
                    .filter_map(|a| shared.get(&a).map(|s| s.from))
                    .min()?;
                let over = until.duration_since(from) - step.takes.most();
                over.is_positive().then_some(over)
            })
            .flatten();
        Some(PlannedStep {
            step: StepRef(i.index()),
            earliest: path.earliest,
            latest: path.latest,
            start_by: stretch.map(|s| s.from),
            done_by: stretch.map(|s| s.to),
            slack,
            decides: false,
            standing,
            over_rest,
        })
    }

    /// From the step with the least slack that nothing waits for, back through
    /// whichever step made it wait.
    fn deciding_chain(
        &self,
        order: &[NodeIndex],
        paths: &HashMap<NodeIndex, Path>,
    ) -> Vec<StepRef> {
        let open = |i: &NodeIndex| !matches!(self.graph[*i].progress, Progress::Done(_));
        let slack = |i: &NodeIndex| {
            paths
                .get(i)
                .map(|p| p.latest.duration_since(p.earliest))
                .unwrap_or(SignedDuration::MAX)
        };
        let mut chain = Vec::new();
        let mut at = order
            .iter()
            .filter(|i| open(i) && self.after(**i).next().is_none())
            // Of those with as little to spare, the one that is wanted first.
            .min_by_key(|i| (slack(i), self.due(**i)))
            .copied();
        while let Some(i) = at {
            chain.push(StepRef(i.index()));
            at = self
                .before(i)
                .filter(open)
                .max_by_key(|b| paths.get(b).map(|p| p.ends));
        }
        chain.reverse();
        chain
    }
}

/// Saturating: a plan that leaves the calendar stays at its end.
fn later(moment: Timestamp, by: SignedDuration) -> Timestamp {
    moment.checked_add(by).unwrap_or(Timestamp::MAX)
}

fn earlier(moment: Timestamp, by: SignedDuration) -> Timestamp {
    moment.checked_sub(by).unwrap_or(Timestamp::MIN)
}
