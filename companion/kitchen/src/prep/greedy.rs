//! Schedules made step by step: quick, feasible, and not always the best.
//!
//! A list of tasks is placed one after another, each as early as its
//! resources allow (serial schedule generation); a schedule is then pushed as
//! late as it goes, and as early, which never makes it worse (J. D. Wiest, 1964;
//! K. Y. Li and R. J. Willis, 1992; from memory).

use super::day::{Day, Seconds};

/// How many places of a resource are taken over time: a step function.
#[derive(Debug, Clone)]
struct Profile {
    /// From each moment on, so many are taken.
    points: Vec<(Seconds, u32)>,
    places: u32,
}

impl Profile {
    fn new(places: u32) -> Self {
        Self {
            points: vec![(Seconds::MIN, 0)],
            places,
        }
    }

    /// The point that holds at a moment.
    fn at(&self, moment: Seconds) -> usize {
        self.points.partition_point(|p| p.0 <= moment) - 1
    }

    fn split(&mut self, moment: Seconds) -> usize {
        let at = self.at(moment);
        if self.points[at].0 == moment {
            at
        } else {
            let used = self.points[at].1;
            self.points.insert(at + 1, (moment, used));
            at + 1
        }
    }

    fn take(&mut self, from: Seconds, to: Seconds, places: u32) {
        if from >= to {
            return;
        }
        let first = self.split(from);
        let end = self.split(to);
        for point in &mut self.points[first..end] {
            point.1 += places;
        }
    }

    /// The first moment after which too much is taken within a stretch has
    /// passed; `None` where it is free all along.
    fn free_after(&self, from: Seconds, to: Seconds, places: u32) -> Option<Seconds> {
        let first = self.at(from);
        let blocked = self.points[first..]
            .iter()
            .take_while(|p| p.0 < to)
            .enumerate()
            .filter(|(_, p)| p.1 + places > self.places)
            .map(|(nth, _)| nth)
            .last()?;
        Some(
            self.points
                .get(first + blocked + 1)
                .map_or(Seconds::MAX, |p| p.0),
        )
    }

    /// The last moment by which a stretch must end not to meet what is taken
    /// in it; `None` where it is free all along.
    fn free_before(&self, from: Seconds, to: Seconds, places: u32) -> Option<Seconds> {
        let first = self.at(from);
        self.points[first..]
            .iter()
            .take_while(|p| p.0 < to)
            .find(|p| p.1 + places > self.places)
            .map(|p| p.0)
    }
}

/// What is free while tasks are placed.
struct Places<'a> {
    day: &'a Day,
    profiles: Vec<Profile>,
}

impl<'a> Places<'a> {
    fn new(day: &'a Day) -> Self {
        let mut profiles: Vec<Profile> = day.places.iter().map(|p| Profile::new(*p)).collect();
        for taken in &day.taken {
            profiles[taken.resource].take(taken.from, taken.to, taken.places);
        }
        Self { day, profiles }
    }

    /// Places a task as early as it goes at or after `from`.
    fn earliest(&mut self, task: usize, from: Seconds) -> Option<Seconds> {
        let known = &self.day.tasks[task];
        let mut start = from;
        loop {
            start = self.day.fit(task, start)?;
            let blocked = known
                .needs
                .iter()
                .filter_map(|(r, n)| self.profiles[*r].free_after(start, start + known.length, *n))
                .max();
            match blocked {
                Some(Seconds::MAX) => return None,
                Some(next) => start = next,
                None => break,
            }
        }
        self.take(task, start);
        Some(start)
    }

    /// Places a task as late as it goes at or before `from`.
    fn latest(&mut self, task: usize, from: Seconds) -> Option<Seconds> {
        let known = &self.day.tasks[task];
        let mut start = from;
        loop {
            start = self.day.fit_back(task, start)?;
            let blocked = known
                .needs
                .iter()
                .filter_map(|(r, n)| self.profiles[*r].free_before(start, start + known.length, *n))
                .min();
            match blocked {
                Some(Seconds::MIN) => return None,
                Some(end) => start = end - known.length,
                None => break,
            }
        }
        self.take(task, start);
        Some(start)
    }

    fn take(&mut self, task: usize, start: Seconds) {
        let known = &self.day.tasks[task];
        for (resource, places) in &known.needs {
            self.profiles[*resource].take(start, start + known.length, *places);
        }
    }
}

/// Places tasks in order of urgency, each as early as it goes. `None` where a
/// task fits nowhere.
fn forward(day: &Day, urgency: &[Seconds]) -> Option<Vec<Seconds>> {
    let mut places = Places::new(day);
    let mut starts = vec![0; day.tasks.len()];
    let mut waits: Vec<usize> = day.tasks.iter().map(|t| t.before.len()).collect();
    let mut ready: std::collections::BTreeSet<(Seconds, usize)> = (0..day.tasks.len())
        .filter(|t| waits[*t] == 0)
        .map(|t| (urgency[t], t))
        .collect();
    while let Some((_, t)) = ready.pop_first() {
        let task = &day.tasks[t];
        let from = task
            .before
            .iter()
            .map(|b| starts[*b] + day.tasks[*b].length)
            .fold(task.release, Seconds::max);
        starts[t] = places.earliest(t, from)?;
        for after in &task.after {
            waits[*after] -= 1;
            if waits[*after] == 0 {
                ready.insert((urgency[*after], *after));
            }
        }
    }
    Some(starts)
}

/// Moves every task as late as it goes, where each dish may be late by so
/// much; what is feasible stays so.
pub(super) fn push_late(day: &Day, starts: &[Seconds], late: &[Seconds]) -> Vec<Seconds> {
    let mut starts = starts.to_vec();
    let mut order: Vec<usize> = (0..starts.len()).collect();
    order.sort_by_key(|t| {
        let task = &day.tasks[*t];
        // Of tasks that end together, those that take no time and what waits come first.
        (
            std::cmp::Reverse(starts[*t] + task.length),
            std::cmp::Reverse(starts[*t]),
            std::cmp::Reverse(*t),
        )
    });
    let mut places = Places::new(day);
    for t in order {
        let task = &day.tasks[t];
        let mut by = task
            .after
            .iter()
            .map(|a| starts[*a])
            .fold(task.due + late[task.dish], Seconds::min)
            - task.length;
        for limit in day.limits.iter().filter(|l| l.ends_with == t) {
            by = by.min(day.since(limit, &starts) + limit.most);
        }
        let known = starts[t];
        starts[t] = places.latest(t, by.max(known)).unwrap_or(known);
    }
    starts
}

/// Moves every task as early as it goes; what is feasible stays so.
pub(super) fn pull_early(day: &Day, starts: &[Seconds]) -> Vec<Seconds> {
    let mut starts = starts.to_vec();
    let mut order: Vec<usize> = (0..starts.len()).collect();
    order.sort_by_key(|t| (starts[*t], starts[*t] + day.tasks[*t].length, *t));
    let mut places = Places::new(day);
    for t in order {
        let task = &day.tasks[t];
        let known = starts[t];
        let mut from = task
            .before
            .iter()
            .map(|b| starts[*b] + day.tasks[*b].length)
            .fold(task.release, Seconds::max);
        // A task that begins a rest may not move so far that what ends the rest comes too late.
        for limit in &day.limits {
            let (begins, offset) = match &limit.since {
                super::day::Since::Ends(tasks, at) if tasks.contains(&t) => {
                    let others = tasks
                        .iter()
                        .filter(|o| **o != t)
                        .map(|o| starts[*o] + day.tasks[*o].length)
                        .fold(*at, Seconds::max);
                    // Another begins the rest late enough.
                    (others < starts[limit.ends_with] - limit.most, task.length)
                }
                super::day::Since::Begins(rest) => (*rest == t, 0),
                _ => (false, 0),
            };
            if begins {
                from = from.max(starts[limit.ends_with] - limit.most - offset);
            }
        }
        starts[t] = places.earliest(t, from.min(known)).unwrap_or(known);
    }
    starts
}

/// The best of several quick schedules by the worst dish's lateness; `None`
/// where a task fits nowhere.
pub(super) fn quick(day: &Day) -> Option<Vec<Seconds>> {
    let none = vec![0; day.dishes.len()];
    let tails = day.tails(&none);
    let heads = day.heads();
    let ends: Vec<Seconds> = (0..tails.len())
        .map(|t| tails[t].saturating_add(day.tasks[t].length))
        .collect();
    let both: Vec<Seconds> = (0..tails.len())
        .map(|t| tails[t].saturating_add(heads[t]))
        .collect();
    let mut best: Option<(Seconds, Vec<Seconds>)> = None;
    for urgency in [&tails, &ends, &both] {
        let Some(mut starts) = forward(day, urgency) else {
            continue;
        };
        for _ in 0..3 {
            let worst = day.worst(&starts);
            if best.as_ref().is_none_or(|(known, _)| worst < *known) {
                best = Some((worst, starts.clone()));
            }
            if worst <= 0 {
                break;
            }
            // As late as the worst dish allows for all, and back: often something is gained.
            let late = vec![worst; day.dishes.len()];
            starts = pull_early(day, &push_late(day, &starts, &late));
        }
    }
    best.map(|(_, starts)| starts)
}
