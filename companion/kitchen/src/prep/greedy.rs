//! Schedules made step by step: quick, feasible, and not always the best.
//!
//! A list of tasks is placed one after another, each as early as its
//! resources allow (serial schedule generation); a schedule is then pushed as
//! late as it goes, and as early, which never makes it worse (J. D. Wiest, 1964;
//! K. Y. Li and R. J. Willis, 1992; from memory).

use super::day::{Day, RestLimit, Seconds, Since};

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
#[derive(Clone)]
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
                Since::Ends(tasks, at) if tasks.contains(&t) => {
                    let others = tasks
                        .iter()
                        .filter(|o| **o != t)
                        .map(|o| starts[*o] + day.tasks[*o].length)
                        .fold(*at, Seconds::max);
                    // Another begins the rest late enough.
                    (others < starts[limit.ends_with] - limit.most, task.length)
                }
                Since::Begins(rest) => (*rest == t, 0),
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

/// How often what begins a rest that would last too long is begun later.
const MOST_SHIFTS: usize = 200;

/// Tasks that wait for one another, each lot in an order in which it can be done.
fn lots(day: &Day) -> Vec<Vec<usize>> {
    let mut lot_of: Vec<usize> = (0..day.tasks.len()).collect();
    let mut joined = true;
    while joined {
        joined = false;
        for (t, task) in day.tasks.iter().enumerate() {
            for before in &task.before {
                let least = lot_of[t].min(lot_of[*before]);
                joined |= lot_of[t] != least || lot_of[*before] != least;
                lot_of[t] = least;
                lot_of[*before] = least;
            }
        }
    }
    let mut lots: Vec<Vec<usize>> = vec![Vec::new(); day.tasks.len()];
    for t in &day.order {
        lots[lot_of[*t]].push(*t);
    }
    lots.retain(|lot| !lot.is_empty());
    lots
}

/// Places one lot of tasks after another, the most urgent first; what begins a rest that would last
/// too long is begun later. `None` where a task fits nowhere or a rest cannot be kept.
fn lot_by_lot(day: &Day, urgency: &[Seconds]) -> Option<Vec<Seconds>> {
    let mut places = Places::new(day);
    let mut starts = vec![0; day.tasks.len()];
    let mut lots = lots(day);
    lots.sort_by_key(|lot| lot.iter().map(|t| urgency[*t]).min());
    for lot in &lots {
        let mut not_before: Vec<Seconds> = day.tasks.iter().map(|task| task.release).collect();
        let mut placed = false;
        for _ in 0..MOST_SHIFTS {
            let mut tried = places.clone();
            for t in lot {
                let from = day.tasks[*t]
                    .before
                    .iter()
                    .map(|b| starts[*b] + day.tasks[*b].length)
                    .fold(not_before[*t], Seconds::max);
                starts[*t] = tried.earliest(*t, from)?;
            }
            let broken = day
                .limits
                .iter()
                .find(|it| lot.contains(&it.ends_with) && day.over_rest(it, &starts) > 0);
            let Some(limit) = broken else {
                places = tried;
                placed = true;
                break;
            };
            let (begins, from) = begun_later(day, limit, &starts)?;
            not_before[begins] = not_before[begins].max(from);
        }
        if !placed {
            return None;
        }
    }
    Some(starts)
}

/// What begins a rest, and when it is to begin for the rest not to last too long; `None` where that
/// is past.
fn begun_later(day: &Day, limit: &RestLimit, starts: &[Seconds]) -> Option<(usize, Seconds)> {
    let rests_from = starts[limit.ends_with] - limit.most;
    match &limit.since {
        Since::Moment(_) => None,
        Since::Begins(task) => Some((*task, rests_from)),
        Since::Ends(tasks, _) => {
            let end = |t: &usize| starts[*t] + day.tasks[*t].length;
            let last = tasks.iter().copied().max_by_key(end)?;
            Some((last, rests_from - day.tasks[last].length))
        }
    }
}

/// Whether a schedule lets a rest last too long.
pub(super) fn breaks_a_rest(day: &Day, starts: &[Seconds]) -> bool {
    let mut limits = day.limits.iter();
    limits.any(|limit| day.over_rest(limit, starts) > 0)
}

/// The best of several quick schedules: one that keeps all rests, if there is any, and then by the
/// worst dish's lateness; `None` where a task fits nowhere.
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
    let best = best.map(|(_, starts)| starts)?;
    if !breaks_a_rest(day, &best) {
        return Some(best);
    }
    // Tasks of all dishes among one another leave a rest no end in time: dish by dish they may.
    let kept = [&tails, &ends, &both]
        .into_iter()
        .filter_map(|urgency| lot_by_lot(day, urgency))
        .min_by_key(|starts| day.worst(starts));
    Some(kept.unwrap_or(best))
}
