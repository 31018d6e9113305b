//! A board as numbers: what the scheduling methods work on.
//!
//! Times are whole seconds from now. Only steps that nobody has begun are
//! tasks; what is under way holds its places until it ends.

use super::board::{Board, LEFT_OUT};
use super::calendar::Stretch;
use super::oven::OvenTimes;
use super::step::Progress;
use jiff::{SignedDuration, Timestamp};
use petgraph::graph::NodeIndex;
use std::collections::HashMap;

/// Seconds from now.
pub(super) type Seconds = i64;

/// How far after the last service the calendar is looked at: a step that is
/// late may have to wait for an oven's next day.
const BEYOND: Seconds = 14 * 24 * 3_600;

/// No day is longer than this: the solver's numbers end at some 22 years.
const LONGEST: Seconds = 3 * 365 * 24 * 3_600;

/// A step that nobody has begun.
#[derive(Debug, Clone)]
pub(super) struct Task {
    pub step: NodeIndex,
    /// It cannot begin before this.
    pub release: Seconds,
    pub length: Seconds,
    /// Resources with how many of their places.
    pub needs: Vec<(usize, u32)>,
    /// Stretches that it must lie within, in order, each long enough; `None`:
    /// any time.
    pub within: Option<Vec<(Seconds, Seconds)>>,
    /// Tasks that must end before it begins.
    pub before: Vec<usize>,
    /// Tasks that begin after its end.
    pub after: Vec<usize>,
    /// When it is due: it counts for a dish, and may not be late for it.
    pub due: Seconds,
    /// The dish that it counts for.
    pub dish: usize,
}

/// Since when a rest lasts.
#[derive(Debug, Clone)]
pub(super) enum Since {
    /// Since a moment, past or to come.
    Moment(Seconds),
    /// Since the last of these ends, or a moment where that comes later.
    Ends(Vec<usize>, Seconds),
    /// Since a task begins: nothing comes before the rest.
    Begins(usize),
}

/// A task must begin no longer after a rest began than the rest's most.
#[derive(Debug, Clone)]
pub(super) struct RestLimit {
    pub rest: NodeIndex,
    pub since: Since,
    /// The task that ends the rest.
    pub ends_with: usize,
    pub most: Seconds,
}

/// Places that are taken already.
#[derive(Debug, Clone, Copy)]
pub(super) struct Taken {
    pub resource: usize,
    pub from: Seconds,
    pub to: Seconds,
    pub places: u32,
}

/// What is judged as one: a preparation for one service.
#[derive(Debug, Clone)]
pub(super) struct Dish {
    pub preparation: String,
    pub due: Seconds,
    pub preferred: Option<Seconds>,
    /// How long before it is due it is to be ready, where that can be.
    pub spare: Seconds,
    /// When what is under way of it ends at the earliest.
    pub ends_at_least: Option<Seconds>,
}

/// A day to be scheduled.
#[derive(Debug, Clone)]
pub(super) struct Day {
    pub now: Timestamp,
    pub tasks: Vec<Task>,
    /// Places of each resource.
    pub places: Vec<u32>,
    pub taken: Vec<Taken>,
    pub limits: Vec<RestLimit>,
    pub dishes: Vec<Dish>,
    /// Tasks in an order in which each comes after those it waits for.
    pub order: Vec<usize>,
    /// Steps with no stretch of time long enough for them at all. Their
    /// stretches are left aside.
    pub unfit: Vec<NodeIndex>,
    /// The end of the calendar that was looked at.
    pub horizon: Seconds,
}

impl Day {
    /// A moment as seconds from now, rounded up.
    pub fn from_now(now: Timestamp, at: Timestamp) -> Seconds {
        let d = at.duration_since(now);
        d.as_secs() + i64::from(d.subsec_nanos() > 0)
    }

    /// A moment as seconds from now, rounded down.
    fn until(now: Timestamp, at: Timestamp) -> Seconds {
        let d = at.duration_since(now);
        d.as_secs() - i64::from(d.subsec_nanos() < 0)
    }

    /// Seconds from now as a moment.
    pub fn at(&self, seconds: Seconds) -> Timestamp {
        self.now
            .checked_add(SignedDuration::from_secs(seconds))
            .unwrap_or(Timestamp::MAX)
    }

    /// Reads a board as it stands now.
    pub fn of(board: &Board, now: Timestamp) -> Self {
        let order = board.in_order();
        let length_of = |i: NodeIndex| whole(board.graph[i].takes.needed());
        let waiting = |i: NodeIndex| board.graph[i].progress == Progress::Waiting;
        // When what is begun or done ends.
        let ends = |i: NodeIndex| match board.graph[i].progress {
            Progress::Waiting => None,
            // Left out: nobody waits for it, and no rest begins with it.
            Progress::Done(at) if at == LEFT_OUT => None,
            Progress::Done(at) => Some(Self::until(now, at)),
            Progress::Begun(at) => Some((Self::until(now, at) + length_of(i)).max(0)),
        };
        let last_due = order
            .iter()
            .map(|i| Self::until(now, board.due(*i)))
            .max()
            .unwrap_or(0);
        let work: Seconds = order.iter().map(|i| length_of(*i)).sum();
        let latest_release = order
            .iter()
            .filter_map(|i| board.graph[*i].not_before)
            .map(|at| Self::from_now(now, at))
            .max()
            .unwrap_or(0);
        let horizon = (last_due.max(latest_release).max(0) + work + BEYOND).min(LONGEST);
        let place: HashMap<NodeIndex, usize> = order
            .iter()
            .filter(|i| waiting(**i))
            .enumerate()
            .map(|(n, i)| (*i, n))
            .collect();
        let mut day = Self {
            now,
            tasks: Vec::with_capacity(place.len()),
            places: board.resources.iter().map(|r| r.places()).collect(),
            taken: Vec::new(),
            limits: Vec::new(),
            dishes: Vec::new(),
            order: (0..place.len()).collect(),
            unfit: Vec::new(),
            horizon,
        };
        day.take_extra(board);
        let calendars = Calendars::of(board, &day);
        let mut dish_of: HashMap<(&str, Timestamp), usize> = HashMap::new();
        for i in &order {
            let step = &board.graph[*i];
            let due = board.due(*i);
            let dish = *dish_of.entry((&step.preparation, due)).or_insert_with(|| {
                day.dishes.push(Dish {
                    preparation: step.preparation.clone(),
                    due: Self::until(now, due),
                    preferred: board.preferred(*i).map(|at| Self::until(now, at)),
                    spare: board.spare(*i).as_secs(),
                    ends_at_least: None,
                });
                day.dishes.len() - 1
            });
            let needs: Vec<(usize, u32)> = step
                .needs
                .iter()
                .filter_map(|need| {
                    let at = board
                        .resources
                        .iter()
                        .position(|r| r.name == need.resource)?;
                    Some((at, need.places))
                })
                .collect();
            if let (Progress::Begun(_), Some(to)) = (step.progress, ends(*i)) {
                for (resource, places) in needs {
                    day.taken.push(Taken {
                        resource,
                        from: 0,
                        to,
                        places,
                    });
                }
                let known = &mut day.dishes[dish].ends_at_least;
                *known = (*known).max(Some(to));
                continue;
            }
            if !waiting(*i) {
                continue;
            }
            let mut release = step
                .not_before
                .map_or(0, |at| Self::from_now(now, at).max(0));
            let mut before = Vec::new();
            for b in board.before(*i) {
                match (place.get(&b), ends(b)) {
                    (Some(task), _) => before.push(*task),
                    (None, Some(end)) => release = release.max(end),
                    (None, None) => {}
                }
            }
            let length = length_of(*i);
            let within = calendars.within(board, *i, &needs, length, &day);
            if within.as_ref().is_some_and(Vec::is_empty) {
                day.unfit.push(*i);
            }
            day.tasks.push(Task {
                step: *i,
                release: release.min(horizon),
                length,
                needs,
                within: within.filter(|w| !w.is_empty()),
                before,
                after: Vec::new(),
                due: Self::until(now, due),
                dish,
            });
        }
        for task in 0..day.tasks.len() {
            for b in day.tasks[task].before.clone() {
                day.tasks[b].after.push(task);
            }
        }
        day.limit_rests(board, &order, &place, ends);
        day
    }

    /// Places beyond a resource's own are there for a while: outside of it
    /// they are taken.
    fn take_extra(&mut self, board: &Board) {
        for extra in &board.extra {
            let Some(resource) = board
                .resources
                .iter()
                .position(|r| r.name == extra.resource)
            else {
                continue;
            };
            self.places[resource] += extra.places;
            let from = Self::from_now(self.now, extra.from).max(0);
            let to = Self::until(self.now, extra.to).max(from);
            for (from, to) in [(0, from), (to, self.horizon * 2)] {
                if from < to {
                    self.taken.push(Taken {
                        resource,
                        from,
                        to,
                        places: extra.places,
                    });
                }
            }
        }
    }

    fn limit_rests(
        &mut self,
        board: &Board,
        order: &[NodeIndex],
        place: &HashMap<NodeIndex, usize>,
        ends: impl Fn(NodeIndex) -> Option<Seconds>,
    ) {
        for i in order {
            let step = &board.graph[*i];
            if !step.takes.is_rest() || matches!(step.progress, Progress::Done(_)) {
                continue;
            }
            let since = match (step.progress, place.get(i)) {
                (Progress::Begun(at), _) => Since::Moment(Self::until(self.now, at)),
                (_, Some(rest)) => {
                    let known = board.before(*i).filter_map(&ends).max();
                    let own = step.not_before.map(|at| Self::from_now(self.now, at));
                    let before = self.tasks[*rest].before.clone();
                    match (known.max(own), before.is_empty()) {
                        (None, true) => Since::Begins(*rest),
                        (Some(at), true) => Since::Moment(at),
                        (at, false) => Since::Ends(before, at.unwrap_or(Seconds::MIN)),
                    }
                }
                _ => continue,
            };
            for after in board.after(*i) {
                if let Some(task) = place.get(&after) {
                    self.limits.push(RestLimit {
                        rest: *i,
                        since: since.clone(),
                        ends_with: *task,
                        most: whole(step.takes.most()),
                    });
                }
            }
        }
    }

    /// How long after its most a rest is ended, where tasks begin at these
    /// times; not above zero where it keeps to it.
    pub fn over_rest(&self, limit: &RestLimit, starts: &[Seconds]) -> Seconds {
        starts[limit.ends_with] - self.since(limit, starts) - limit.most
    }

    /// When a rest begins.
    pub fn since(&self, limit: &RestLimit, starts: &[Seconds]) -> Seconds {
        match &limit.since {
            Since::Moment(at) => *at,
            Since::Begins(task) => starts[*task],
            Since::Ends(tasks, at) => tasks
                .iter()
                .map(|t| starts[*t] + self.tasks[*t].length)
                .fold(*at, Seconds::max),
        }
    }

    /// How late each dish is, where tasks begin at these times.
    pub fn lateness(&self, starts: &[Seconds]) -> Vec<Seconds> {
        let mut late: Vec<Seconds> = self
            .dishes
            .iter()
            .map(|d| d.ends_at_least.map_or(0, |end| (end - d.due).max(0)))
            .collect();
        for (task, start) in self.tasks.iter().zip(starts) {
            let by = start + task.length - task.due;
            late[task.dish] = late[task.dish].max(by);
        }
        late
    }

    /// How late the latest dish is.
    pub fn worst(&self, starts: &[Seconds]) -> Seconds {
        self.lateness(starts).into_iter().max().unwrap_or(0)
    }

    /// The same day with each stretch ending a task's spare time earlier, or when the task is done
    /// that begins at `starts`, where that is later.
    pub fn with_spare(&self, starts: &[Seconds]) -> Self {
        let mut day = self.clone();
        for (task, start) in day.tasks.iter_mut().zip(starts) {
            let spare = self.dishes[task.dish].spare;
            let (start, end) = (*start, start + task.length);
            let shorter = |(open, close): &(Seconds, Seconds)| {
                let holds = *open <= start && end <= *close;
                let least = if holds { end } else { open + task.length };
                let shorter = (*open, close - spare);
                match (shorter.1 >= least, holds) {
                    (true, _) => Some(shorter),
                    (false, true) => Some((*open, end)),
                    (false, false) => None,
                }
            };
            let within: Option<Vec<(Seconds, Seconds)>> = task
                .within
                .as_ref()
                .map(|within| within.iter().filter_map(shorter).collect());
            task.within = within;
        }
        day
    }

    /// The earliest that a task can begin at or after `from` by its stretches.
    pub fn fit(&self, task: usize, from: Seconds) -> Option<Seconds> {
        let task = &self.tasks[task];
        match &task.within {
            None => Some(from),
            Some(within) => within
                .iter()
                .map(|(open, close)| (from.max(*open), close))
                .find(|(from, close)| from + task.length <= **close)
                .map(|(from, _)| from),
        }
    }

    /// The latest that a task can begin at or before `from` by its stretches.
    pub fn fit_back(&self, task: usize, from: Seconds) -> Option<Seconds> {
        let task = &self.tasks[task];
        match &task.within {
            None => Some(from),
            Some(within) => within
                .iter()
                .rev()
                .map(|(open, close)| (open, from.min(close - task.length)))
                .find(|(open, from)| from >= *open)
                .map(|(_, from)| from),
        }
    }

    /// The earliest that each task can begin, whatever is shared. A task that
    /// fits nowhere stands at the horizon.
    pub fn heads(&self) -> Vec<Seconds> {
        let mut heads = vec![0; self.tasks.len()];
        for t in &self.order {
            let task = &self.tasks[*t];
            let from = task
                .before
                .iter()
                .map(|b| heads[*b] + self.tasks[*b].length)
                .fold(task.release, Seconds::max);
            heads[*t] = self.fit(*t, from).unwrap_or(self.horizon);
        }
        heads
    }

    /// The latest that each task can begin, whatever is shared, where each
    /// dish may be late by so much. [`Seconds::MIN`] where it cannot at all.
    pub fn tails(&self, late: &[Seconds]) -> Vec<Seconds> {
        let mut tails = vec![0; self.tasks.len()];
        for t in self.order.iter().rev() {
            let task = &self.tasks[*t];
            let by = task
                .after
                .iter()
                .map(|a| tails[*a])
                .fold(task.due + late[task.dish], Seconds::min);
            tails[*t] = if by == Seconds::MIN {
                by
            } else {
                self.fit_back(*t, by - task.length).unwrap_or(Seconds::MIN)
            };
        }
        tails
    }

    /// No schedule has its worst dish less late than this: by the longest
    /// path, and by what each resource must get through between the earliest
    /// that a set of tasks can begin and the latest that it must be done.
    pub fn lower_bound(&self) -> Seconds {
        let heads = self.heads();
        let tails = self.tails(&vec![0; self.dishes.len()]);
        let mut bound = self.lateness(&heads).into_iter().max().unwrap_or(0);
        for (resource, places) in self.places.iter().enumerate() {
            let mut users: Vec<(Seconds, Seconds, Seconds)> = (0..self.tasks.len())
                .filter(|t| tails[*t] != Seconds::MIN)
                .filter_map(|t| {
                    let task = &self.tasks[t];
                    let (_, units) = task.needs.iter().find(|(r, _)| *r == resource)?;
                    let work = task.length * i64::from(*units);
                    Some((heads[t], tails[t] + task.length, work))
                })
                .collect();
            users.sort_unstable_by_key(|u| u.1);
            let mut begins: Vec<Seconds> = users.iter().map(|u| u.0).collect();
            begins.sort_unstable();
            begins.dedup();
            // A bound may be weaker, but not slow: a few hundred beginnings are enough.
            let stride = begins.len().div_ceil(200).max(1);
            for begin in begins.into_iter().step_by(stride) {
                let mut work = 0;
                for (_, due, needed) in users.iter().filter(|u| u.0 >= begin) {
                    work += needed;
                    let whole = (work + i64::from(*places) - 1) / i64::from(*places);
                    bound = bound.max(begin + whole - due);
                }
            }
        }
        bound
    }
}

/// A length in whole seconds, rounded up.
fn whole(d: SignedDuration) -> Seconds {
    d.as_secs() + i64::from(d.subsec_nanos() > 0)
}

/// When each resource works: while it serves, and while it does not.
struct Calendars {
    open: Vec<Option<Vec<Stretch>>>,
    in_service: Vec<Option<Vec<Stretch>>>,
}

impl Calendars {
    fn of(board: &Board, day: &Day) -> Self {
        let (from, to) = (day.now, day.at(day.horizon));
        let each = |services: &[Stretch]| {
            board
                .resources
                .iter()
                .map(|r| r.open(from, to, &board.zone, services))
                .collect()
        };
        Self {
            open: each(&board.services),
            in_service: each(&[]),
        }
    }

    /// The stretches that a step must lie within, each long enough for it.
    fn within(
        &self,
        board: &Board,
        step: NodeIndex,
        needs: &[(usize, u32)],
        length: Seconds,
        day: &Day,
    ) -> Option<Vec<(Seconds, Seconds)>> {
        let known = if board.graph[step].in_service {
            &self.in_service
        } else {
            &self.open
        };
        let mut within: Option<Vec<(Seconds, Seconds)>> = None;
        let mut narrow = |to: Vec<(Seconds, Seconds)>| {
            within = Some(match within.take() {
                None => to,
                Some(known) => both(&known, &to),
            });
        };
        for (resource, _) in needs {
            if let Some(open) = &known[*resource] {
                narrow(
                    open.iter()
                        .map(|s| (Day::from_now(day.now, s.from), Day::until(day.now, s.to)))
                        .collect(),
                );
            }
        }
        if let Some(times) = board.oven_times.get(&step) {
            let needed = SignedDuration::from_secs(length);
            let sure = |stretches| OvenTimes::sure(stretches, needed, day.now);
            let mut stretches = sure(&times.stretches);
            if stretches.is_empty() {
                stretches = times
                    .courses
                    .iter()
                    .map(|course| sure(&course.stretches))
                    .find(|known| !known.is_empty())
                    .unwrap_or_default();
            }
            narrow(
                stretches
                    .iter()
                    .map(|(from, to)| {
                        (
                            Day::from_now(day.now, *from),
                            to.map_or(day.horizon, |to| Day::until(day.now, to)),
                        )
                    })
                    .collect(),
            );
        }
        within.map(|mut within| {
            within.retain(|(from, to)| to - from >= length);
            within
        })
    }
}

/// What two lists of stretches in order have in common.
fn both(a: &[(Seconds, Seconds)], b: &[(Seconds, Seconds)]) -> Vec<(Seconds, Seconds)> {
    let mut common = Vec::new();
    let (mut i, mut j) = (0, 0);
    while let (Some(x), Some(y)) = (a.get(i), b.get(j)) {
        let (from, to) = (x.0.max(y.0), x.1.min(y.1));
        if from < to {
            common.push((from, to));
        }
        if x.1 < y.1 {
            i += 1;
        } else {
            j += 1;
        }
    }
    common
}
