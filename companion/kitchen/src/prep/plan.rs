//! A board laid out in time.

use super::board::{Board, StepRef};
use super::day::{Day, Seconds};
use super::effort::Effort;
use super::greedy::{pull_early, push_late};
use super::solve::{Broken, Found, MOST_TASKS, Order, latest, solve};
use super::step::Progress;
use jiff::{SignedDuration, Timestamp};
use petgraph::graph::NodeIndex;
use std::collections::HashMap;

/// What a cook should know of a step now.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum StepState {
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

/// Why a step on the deciding chain begins no earlier.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Because {
    /// The step before it on the chain must be done.
    Follows,
    /// The step before it on the chain holds this resource.
    Shares(String),
    /// It has a time of its own: a delivery.
    NotBefore,
    /// A resource works only then, or the oven is in its band only then.
    Hours,
    /// Nothing: it begins now.
    Now,
}

/// One step in the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedStep {
    /// Which.
    pub step: StepRef,
    /// The earliest that it can begin, nothing shared.
    pub earliest: Timestamp,
    /// The latest that it can begin so that its dish is in time, everything
    /// shared.
    pub latest: Timestamp,
    /// Whether no schedule lets it begin later than `latest`. Else `latest` is
    /// that of a schedule that is known, and there may be more to spare.
    pub latest_is_proven: bool,
    /// When to begin by the plan. Never before `earliest`. `None` for what is
    /// begun or done.
    pub start_by: Option<Timestamp>,
    /// When it then ends.
    pub done_by: Option<Timestamp>,
    /// Time to spare: latest less earliest; negative when late.
    pub slack: SignedDuration,
    /// On the chain that decides the day: why it begins no earlier.
    pub decides: Option<Because>,
    /// How it stands.
    pub standing: StepState,
    /// A rest that no plan keeps within its most: by so much longer.
    pub over_rest: Option<SignedDuration>,
    /// It has no time at all within the hours and oven it needs; the plan
    /// leaves them aside.
    pub no_time: bool,
}

/// How a dish stands: a preparation for one service.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DishOutlook {
    /// The preparation.
    pub preparation: String,
    /// When it is due.
    pub due: Timestamp,
    /// When it is ready by the plan.
    pub ready: Timestamp,
    /// How late that is: it is off the menu until then.
    pub late_by: Option<SignedDuration>,
    /// By how much it misses the time at which it is better done.
    pub misses_preferred_by: Option<SignedDuration>,
}

/// Two steps that share something, the other way round than before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Turned {
    /// Came second and now comes first.
    pub first: StepRef,
    /// Came first and now comes second.
    pub second: StepRef,
}

/// A board laid out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// Every step, in order of when to begin it.
    pub steps: Vec<PlannedStep>,
    /// The chain that decides the day, first to last: each step waits for the
    /// one before, or for what that holds.
    pub chain: Vec<StepRef>,
    /// How late the worst dish is at best; `None` when all are in time.
    pub late_by: Option<SignedDuration>,
    /// How far that may be from the best there is: zero where it is proven.
    pub gap: SignedDuration,
    /// Each dish.
    pub dishes: Vec<DishOutlook>,
    /// What shares something and had to be turned round since the plan before.
    pub turned: Vec<Turned>,
}

impl Plan {
    /// A step of the plan.
    #[must_use]
    pub fn of(&self, step: StepRef) -> Option<&PlannedStep> {
        self.steps.iter().find(|s| s.step == step)
    }

    /// Whether everything is in time, every rest within its most, and every
    /// step within its hours and oven.
    #[must_use]
    pub fn is_possible(&self) -> bool {
        self.late_by.is_none()
            && self
                .steps
                .iter()
                .all(|s| s.over_rest.is_none() && !s.no_time)
    }
}

impl Board {
    /// Lays the board out as it stands now.
    #[must_use]
    pub fn plan(&self, now: Timestamp) -> Plan {
        self.plan_within(now, None, &Effort::default())
    }

    /// Lays the board out as it stands now and keeps to the order of a plan
    /// before, but where that makes a dish later than it must be.
    #[must_use]
    pub fn plan_after(&self, now: Timestamp, before: Option<&Plan>) -> Plan {
        self.plan_within(now, before, &Effort::default())
    }

    /// The same within what is left of a budget. Where it did not suffice, the plan is
    /// the best that was found, [`Plan::gap`] says how far from the best there is that
    /// may be, and [`PlannedStep::latest_is_proven`] says which latest are not known.
    #[must_use]
    pub fn plan_within(&self, now: Timestamp, before: Option<&Plan>, effort: &Effort) -> Plan {
        let day = Day::of(self, now);
        let order = before.map_or_else(Vec::new, |plan| order_of(&day, plan));
        let mut found = solve(&day, &order, effort);
        self.first_batch_first(&day, &mut found.starts);
        let late = day.lateness(&found.starts);
        let mut starts = as_late_as_it_goes(&day, found.starts.clone(), &late);
        if found.worst <= 0 {
            self.first_batch_first(&day, &mut starts);
        }
        let turned = order
            .iter()
            .filter(|(a, b)| starts[*a] > starts[*b])
            .map(|(a, b)| Turned {
                first: StepRef(day.tasks[*b].step.index()),
                second: StepRef(day.tasks[*a].step.index()),
            })
            .collect();
        let latest = latest(&day, &starts, &late, &found.broken, effort);
        let mut shown = if found.broken == Broken::default() {
            with_spare(&day, starts, &late)
        } else {
            starts
        };
        if found.worst <= 0 {
            self.first_batch_first(&day, &mut shown);
        }
        Layout::new(self, day, found, shown, late, latest, now).plan(turned)
    }
}

impl Board {
    /// Batches of a preparation of which nothing is begun are alike: the first is the one that is
    /// begun first.
    fn first_batch_first(&self, day: &Day, starts: &mut [Seconds]) {
        for preparation in self.made_in.keys() {
            let tasks_of = |name: &str| -> Vec<usize> {
                let of_it = |t: &usize| self.graph[day.tasks[*t].step].preparation == name;
                let mut tasks: Vec<usize> = (0..day.tasks.len()).filter(of_it).collect();
                tasks.sort_by_key(|t| day.tasks[*t].step);
                tasks
            };
            let steps_of = |name: &str| self.steps().filter(|(_, s)| s.preparation == name).count();
            let alike: Vec<Vec<usize>> = self
                .batch_names(preparation)
                .map(|name| (tasks_of(&name), steps_of(&name)))
                .filter(|(tasks, steps)| tasks.len() == *steps)
                .map(|(tasks, _)| tasks)
                .collect();
            let mut times: Vec<Vec<Seconds>> = alike
                .iter()
                .map(|tasks| tasks.iter().map(|t| starts[*t]).collect())
                .collect();
            times.sort();
            for (tasks, times) in alike.iter().zip(times) {
                for (task, time) in tasks.iter().zip(times) {
                    starts[*task] = time;
                }
            }
        }
    }
}

/// What is feasible, moved as late as it goes.
fn as_late_as_it_goes(day: &Day, starts: Vec<Seconds>, late: &[Seconds]) -> Vec<Seconds> {
    // A rest that may not last long holds what ends it back in each pass: a day's work that was
    // placed days ahead comes to its day at once where nothing does, and mostly keeps the rest.
    if !day.limits.is_empty() {
        let mut free = day.clone();
        free.limits.clear();
        let moved = pushed_late(&free, starts.clone(), late, PASSES);
        let keeps = |limit| day.over_rest(limit, &moved) <= 0;
        if day.limits.iter().all(keeps) {
            return moved;
        }
        let passes = if day.tasks.len() > MOST_TASKS {
            PASSES
        } else {
            PASSES_WITH_RESTS
        };
        return pushed_late(day, starts, late, passes);
    }
    pushed_late(day, starts, late, PASSES)
}

/// Each pass may make room for another; three are nearly always enough.
const PASSES: u32 = 3;
/// What a rest holds back moves by the rest's own range in each pass.
const PASSES_WITH_RESTS: u32 = 300;

fn pushed_late(day: &Day, mut starts: Vec<Seconds>, late: &[Seconds], passes: u32) -> Vec<Seconds> {
    for _ in 0..passes {
        let later = push_late(day, &starts, late);
        if later == starts {
            break;
        }
        starts = later;
    }
    starts
}

/// As late as it goes for each dish to be ready its spare time before it is due, and for each step
/// to be done as long before its hours end or the oven may leave its band; or earlier than
/// `starts` as far as the day allows.
fn with_spare(day: &Day, starts: Vec<Seconds>, late: &[Seconds]) -> Vec<Seconds> {
    if day.dishes.iter().all(|dish| dish.spare == 0) {
        return starts;
    }
    let aimed: Vec<Seconds> = late
        .iter()
        .zip(&day.dishes)
        .map(|(late, dish)| late - dish.spare)
        .collect();
    let early = pull_early(day, &starts);
    as_late_as_it_goes(&day.with_spare(&early), early, &aimed)
}

/// Of tasks that share a resource: which came before which.
///
/// Of a day that is left to the quick methods none is kept: they keep to no order,
/// and there are as many pairs as the square of the tasks.
fn order_of(day: &Day, plan: &Plan) -> Order {
    if day.tasks.len() > MOST_TASKS {
        return Order::new();
    }
    let began: HashMap<usize, Timestamp> = plan
        .steps
        .iter()
        .filter_map(|s| Some((s.step.0, s.start_by?)))
        .collect();
    let when = |t: usize| began.get(&day.tasks[t].step.index());
    let mut order = Vec::new();
    for a in 0..day.tasks.len() {
        for b in 0..day.tasks.len() {
            let shared = || {
                day.tasks[a]
                    .needs
                    .iter()
                    .any(|(r, _)| day.tasks[b].needs.iter().any(|(o, _)| o == r))
            };
            if let (Some(first), Some(second)) = (when(a), when(b))
                && first < second
                && shared()
            {
                order.push((a, b));
            }
        }
    }
    order
}

struct Layout<'a> {
    board: &'a Board,
    day: Day,
    found: Found,
    /// As late as it goes with each dish's spare time.
    starts: Vec<Seconds>,
    late: Vec<Seconds>,
    now: Timestamp,
    task_of: HashMap<NodeIndex, usize>,
    heads: Vec<Seconds>,
    latest: Vec<(Seconds, bool)>,
    /// How late the latest dish is that waits for each task.
    behind: Vec<Seconds>,
}

impl<'a> Layout<'a> {
    fn new(
        board: &'a Board,
        day: Day,
        found: Found,
        starts: Vec<Seconds>,
        late: Vec<Seconds>,
        latest: Vec<(Seconds, bool)>,
        now: Timestamp,
    ) -> Self {
        let mut behind = vec![0; day.tasks.len()];
        for t in day.order.iter().rev() {
            let task = &day.tasks[*t];
            behind[*t] = task
                .after
                .iter()
                .map(|a| behind[*a])
                .fold(late[task.dish], Seconds::max);
        }
        Self {
            task_of: day
                .tasks
                .iter()
                .enumerate()
                .map(|(n, t)| (t.step, n))
                .collect(),
            heads: day.heads(),
            latest,
            board,
            day,
            found,
            starts,
            late,
            now,
            behind,
        }
    }

    fn plan(self, turned: Vec<Turned>) -> Plan {
        let order = self.board.in_order();
        let mut planned: HashMap<NodeIndex, PlannedStep> = HashMap::new();
        for i in order.iter().rev() {
            let step = match self.task_of.get(i) {
                Some(task) => self.waiting(*i, *task),
                None => self.begun(*i, &planned),
            };
            planned.insert(*i, step);
        }
        let chain = self.chain(&planned);
        for (i, because) in &chain {
            if let Some(step) = planned.get_mut(i) {
                step.decides = Some(because.clone());
            }
        }
        let mut steps: Vec<PlannedStep> = order.iter().filter_map(|i| planned.remove(i)).collect();
        steps.sort_by_key(|s| (s.start_by.unwrap_or(s.latest), s.latest, s.step));
        Plan {
            steps,
            chain: chain.iter().map(|(i, _)| StepRef(i.index())).collect(),
            late_by: (self.found.worst > 0).then(|| SignedDuration::from_secs(self.found.worst)),
            gap: SignedDuration::from_secs((self.found.worst - self.found.at_least).max(0)),
            dishes: self.dishes(),
            turned,
        }
    }

    fn waiting(&self, i: NodeIndex, task: usize) -> PlannedStep {
        let step = &self.board.graph[i];
        let day = &self.day;
        let start = self.starts[task];
        let latest = self.latest[task].0 - self.behind[task];
        let slack = latest - self.heads[task];
        let standing = if slack < 0 {
            StepState::Late
        } else {
            let waits = self.board.before(i).any(|b| !self.is_over(b));
            let not_yet = step.not_before.is_some_and(|t| t > self.now)
                || day.fit(task, 0).is_none_or(|open| open > 0);
            if waits || not_yet {
                StepState::Later
            } else if start <= 0 {
                StepState::Now
            } else {
                StepState::Next
            }
        };
        let end = start + day.tasks[task].length;
        PlannedStep {
            step: StepRef(i.index()),
            earliest: day.at(self.heads[task].min(start)),
            latest: day.at(latest),
            latest_is_proven: self.latest[task].1,
            start_by: Some(day.at(start)),
            done_by: Some(day.at(end)),
            slack: SignedDuration::from_secs(slack),
            decides: None,
            standing,
            over_rest: self.over_rest(i),
            no_time: day.unfit.contains(&i) || self.found.broken.stretches.contains(&task),
        }
    }

    /// A step that is begun or done: when it must end is what waits for it.
    fn begun(&self, i: NodeIndex, planned: &HashMap<NodeIndex, PlannedStep>) -> PlannedStep {
        let step = &self.board.graph[i];
        let (at, needed) = match step.progress {
            Progress::Done(at) => (at, SignedDuration::ZERO),
            Progress::Begun(at) => (
                at,
                // What takes longer than it should ends now at the earliest.
                step.takes
                    .needed()
                    .max(self.now.duration_since(at))
                    .max(SignedDuration::ZERO),
            ),
            Progress::Waiting => (self.now, SignedDuration::ZERO),
        };
        let by = self
            .board
            .after(i)
            .filter_map(|a| planned.get(&a).map(|p| p.latest))
            .min()
            .unwrap_or_else(|| self.board.due(i));
        let latest = by.checked_sub(needed).unwrap_or(Timestamp::MIN);
        let slack = latest.duration_since(at);
        PlannedStep {
            step: StepRef(i.index()),
            earliest: at,
            latest,
            latest_is_proven: true,
            start_by: None,
            done_by: None,
            slack,
            decides: None,
            standing: match step.progress {
                Progress::Done(_) => StepState::Done,
                _ if slack.is_negative() => StepState::Late,
                _ => StepState::UnderWay,
            },
            over_rest: self.over_rest(i),
            no_time: false,
        }
    }

    /// Whether what waits for a step can begin: it is done, or it is a rest
    /// that has had its least.
    fn is_over(&self, step: NodeIndex) -> bool {
        let step = &self.board.graph[step];
        match step.progress {
            Progress::Done(_) => true,
            Progress::Begun(at) => {
                step.takes.is_rest() && self.now.duration_since(at) >= step.takes.needed()
            }
            Progress::Waiting => false,
        }
    }

    fn over_rest(&self, i: NodeIndex) -> Option<SignedDuration> {
        self.day
            .limits
            .iter()
            .filter(|limit| limit.rest == i)
            .map(|limit| self.day.over_rest(limit, &self.starts))
            .max()
            .filter(|over| *over > 0)
            .map(SignedDuration::from_secs)
    }

    fn dishes(&self) -> Vec<DishOutlook> {
        let positive = |seconds: Seconds| (seconds > 0).then(|| SignedDuration::from_secs(seconds));
        let mut ready: Vec<Option<Seconds>> =
            self.day.dishes.iter().map(|d| d.ends_at_least).collect();
        for (task, start) in self.day.tasks.iter().zip(&self.starts) {
            ready[task.dish] = ready[task.dish].max(Some(start + task.length));
        }
        self.day
            .dishes
            .iter()
            .zip(ready)
            .zip(&self.late)
            .map(|((dish, ready), late)| {
                let ready = ready.unwrap_or(0);
                DishOutlook {
                    preparation: dish.preparation.clone(),
                    due: self.day.at(dish.due),
                    ready: self.day.at(ready),
                    late_by: positive(*late),
                    misses_preferred_by: dish.preferred.and_then(|at| positive(ready - at)),
                }
            })
            .collect()
    }

    /// From the step with the least slack that nothing waits for, back through
    /// whatever made it wait: a step before it, or one that held what it needs.
    fn chain(&self, planned: &HashMap<NodeIndex, PlannedStep>) -> Vec<(NodeIndex, Because)> {
        let day = &self.day;
        let early = pull_early(day, &self.found.starts);
        let open = |i: NodeIndex| !matches!(self.board.graph[i].progress, Progress::Done(_));
        let last = self
            .board
            .graph
            .node_indices()
            .filter(|i| open(*i) && self.board.after(*i).next().is_none())
            // Of those with as little to spare, the one that is wanted first.
            .min_by_key(|i| (planned.get(i).map(|p| p.slack), self.board.due(*i)));
        let mut chain: Vec<(NodeIndex, Because)> = Vec::new();
        let mut at = last;
        while let Some(i) = at {
            at = None;
            let Some(task) = self.task_of.get(&i) else {
                chain.push((i, Because::Now));
                break;
            };
            let start = early[*task];
            let ends = |t: usize| early[t] + day.tasks[t].length;
            let follows =
                self.board
                    .before(i)
                    .filter(|b| open(*b))
                    .find(|b| match self.task_of.get(b) {
                        Some(t) => ends(*t) == start,
                        None => planned.get(b).is_some_and(|p| {
                            let needed = self.board.graph[*b].takes.needed();
                            let end = p.earliest.checked_add(needed).unwrap_or(Timestamp::MAX);
                            Day::from_now(self.now, end).max(0) == start
                        }),
                    });
            let own = self.board.graph[i]
                .not_before
                .is_some_and(|t| Day::from_now(self.now, t) == start);
            let shares = || {
                day.tasks[*task].needs.iter().find_map(|(resource, _)| {
                    let holder = (0..day.tasks.len()).find(|t| {
                        let known = &day.tasks[*t];
                        ends(*t) == start
                            && known.length > 0
                            && known.needs.iter().any(|(r, _)| r == resource)
                    })?;
                    Some((holder, self.board.resources[*resource].name.clone()))
                })
            };
            let because = if let Some(before) = follows {
                at = Some(before);
                Because::Follows
            } else if own {
                Because::NotBefore
            } else if start <= 0 {
                Because::Now
            } else if let Some((holder, resource)) = shares() {
                at = Some(day.tasks[holder].step);
                Because::Shares(resource)
            } else {
                Because::Hours
            };
            chain.push((i, because));
            // A chain of steps that take no time could go round.
            if chain.len() > self.board.graph.node_count() {
                break;
            }
        }
        chain.reverse();
        chain
    }
}
