//! The best schedule of a day, by a constraint solver.
//!
//! First the worst dish's lateness is made least, then the sum of all dishes'
//! lateness, then what preferred times are missed by, all within the [`Effort`] of
//! the call.

use super::day::{Day, RestLimit, Seconds, Since};
use super::effort::Effort;
use super::greedy::{breaks_a_rest, push_late, quick};
use super::unwanted::end_when_unwanted;
use aries_solver::backtrack::{Backtrack, DecLvl};
use aries_solver::core::IntCst;
use aries_solver::prelude::{
    Interval, LinSum, Lit, Model, SearchLimit, Solution, Solver, Var, and, bool2int, eq_max, gt,
    leq, no_overlap, or,
};

/// Of the budget, in percent: for the worst dish's lateness.
const FOR_WORST: u64 = 40;
/// For each thing that comes after: there are four.
const FOR_REST: u64 = 5;
/// To find out how late one task can begin, at a time.
const FOR_LATEST: u64 = 1;
/// For all tasks' latest beginnings together, on a day that is late.
const FOR_ALL_LATEST: u64 = 20;
/// The same on a day in time, of which nobody asks what would mend it.
const FOR_ALL_LATEST_IN_TIME: u64 = 80;
/// To find out whether one change makes the day.
const FOR_POSSIBLE: u64 = 2;
/// What stating a day to the solver, or a question that is answered without a decision,
/// takes, in decisions.
const STATING: u64 = 40;
/// Days with more tasks are left to the quick methods.
pub(super) const MOST_TASKS: usize = 150;

/// What was found for a day.
#[derive(Debug, Clone)]
pub(super) struct Found {
    /// When each task begins.
    pub starts: Vec<Seconds>,
    /// How late the worst dish is.
    pub worst: Seconds,
    /// No schedule does better than this.
    pub at_least: Seconds,
    /// Rests and stretches of time that no schedule could keep.
    pub broken: Broken,
}

/// What a schedule could not keep.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Broken {
    /// Tasks outside their stretches: an oven out of its band.
    pub stretches: Vec<usize>,
    /// Rests longer than their most, by their place among the limits.
    pub rests: Vec<usize>,
}

/// The order that tasks had: of each pair, the first came before the second.
pub(super) type Order = Vec<(usize, usize)>;

struct Made<'a> {
    effort: &'a Effort,
    /// Units that one decision takes.
    price: u64,
    solver: Solver<String>,
    starts: Vec<Var>,
    late: Vec<Var>,
    worst: Var,
    /// Whether each task keeps to its stretches, where that is a question.
    keeps_stretches: Vec<(usize, Lit)>,
    keeps_rests: Vec<(usize, Lit)>,
}

fn number(seconds: Seconds) -> IntCst {
    const MOST: Seconds = 400_000_000;
    // Within the bounds that it was clamped to.
    seconds.clamp(-MOST, MOST) as IntCst
}

/// Finds the best schedule of a day.
pub(super) fn solve(day: &Day, previous: &Order, effort: &Effort) -> Found {
    let bound = day.lower_bound();
    let quick = quick(day);
    let easy = quick.as_ref().filter(|starts| !breaks_a_rest(day, starts));
    if day.tasks.len() > MOST_TASKS {
        return left_quick(day, quick, bound);
    }
    // Nothing to better: no dish is late and no order to keep to.
    let kept = |starts: &[Seconds]| previous.iter().all(|(a, b)| starts[*a] <= starts[*b]);
    if let Some(starts) = easy
        && day.worst(starts) <= 0
        && kept(starts)
        && !prefers(day, starts)
    {
        return Found {
            worst: 0,
            at_least: 0,
            starts: starts.clone(),
            broken: Broken::default(),
        };
    }
    let most = easy.map(|starts| day.worst(starts));
    match best(day, previous, bound, most, false, effort) {
        Best::Found(found) => found,
        Best::Nothing if easy.is_some() => left_quick(day, quick, bound),
        // Not every rest and stretch can be kept: as few as may be are broken.
        Best::Nothing | Best::Impossible => match best(day, previous, bound, None, true, effort) {
            Best::Found(found) => found,
            Best::Nothing | Best::Impossible => left_quick(day, quick, bound),
        },
    }
}

/// Whether a preferred time is missed.
fn prefers(day: &Day, starts: &[Seconds]) -> bool {
    day.tasks.iter().zip(starts).any(|(task, start)| {
        day.dishes[task.dish]
            .preferred
            .is_some_and(|at| start + task.length > at)
    })
}

/// A day left to the quick methods.
fn left_quick(day: &Day, quick: Option<Vec<Seconds>>, bound: Seconds) -> Found {
    let starts = quick.unwrap_or_else(|| day.heads());
    let over = |limit: &RestLimit| day.over_rest(limit, &starts) > 0;
    let broken = Broken {
        stretches: (0..starts.len())
            .filter(|t| day.fit(*t, starts[*t]) != Some(starts[*t]))
            .collect(),
        rests: (0..day.limits.len())
            .filter(|l| over(&day.limits[*l]))
            .collect(),
    };
    let worst = day.worst(&starts);
    Found {
        worst,
        at_least: bound.clamp(0, worst.max(0)),
        starts,
        broken,
    }
}

enum Best {
    Found(Found),
    /// There is no schedule.
    Impossible,
    /// The effort ended before one was found.
    Nothing,
}

fn best(
    day: &Day,
    previous: &Order,
    bound: Seconds,
    known: Option<Seconds>,
    soft: bool,
    effort: &Effort,
) -> Best {
    let most = known.unwrap_or(day.horizon);
    let Some(mut made) = build(day, bound.clamp(0, most.max(0)), most, soft, effort) else {
        return Best::Impossible;
    };
    let mut last = None;
    if soft {
        // Rather any rest too long than a step outside the hours or the oven that it needs.
        let stretch = made.keeps_rests.len() + 1;
        let broken: Vec<Lit> = std::iter::repeat_n(&made.keeps_stretches, stretch)
            .flatten()
            .chain(&made.keeps_rests)
            .map(|(_, keeps)| !*keeps)
            .collect();
        let count = made.sum_of(&broken);
        match made.minimise(count, FOR_REST) {
            (Some((value, solution)), _) => {
                last = Some(solution);
                made.solver.enforce(leq(count, value));
            }
            (None, true) => return Best::Impossible,
            (None, false) => return Best::Nothing,
        }
    }
    let worst = made.worst;
    let (at_least, value) = match made.minimise(worst, FOR_WORST) {
        (Some((value, solution)), sure) => {
            last = Some(solution);
            made.solver.enforce(leq(worst, value));
            let value = Seconds::from(value);
            (if sure { value } else { bound.clamp(0, value) }, value)
        }
        (None, true) if last.is_none() => return Best::Impossible,
        (None, _) => match &last {
            None => return Best::Nothing,
            Some(solution) => {
                let value = made.value(solution, worst);
                made.solver.enforce(leq(worst, number(value)));
                (bound.clamp(0, value), value)
            }
        },
    };
    if value > 0 {
        let late = made.late.clone();
        let sum = made.total(&late, day.horizon);
        made.settle(sum, &mut last);
    }
    if day.dishes.iter().any(|d| d.preferred.is_some()) {
        let missed = made.missed(day);
        let sum = made.total(&missed, day.horizon);
        made.settle(sum, &mut last);
    }
    if !previous.is_empty() {
        let turned: Vec<Lit> = previous
            .iter()
            .map(|(a, b)| {
                let (a, b) = (made.starts[*a], made.starts[*b]);
                made.solver.reify(gt(a, b))
            })
            .collect();
        let count = made.sum_of(&turned);
        made.settle(count, &mut last);
    }
    let Some(solution) = last else {
        return Best::Nothing;
    };
    let starts: Vec<Seconds> = made
        .starts
        .iter()
        .map(|s| made.value(&solution, *s))
        .collect();
    let broken = |of: &[(usize, Lit)]| {
        of.iter()
            .filter(|(_, keeps)| solution.eval(*keeps) == Some(false))
            .map(|(which, _)| *which)
            .collect()
    };
    Best::Found(Found {
        broken: Broken {
            stretches: broken(&made.keeps_stretches),
            rests: broken(&made.keeps_rests),
        },
        worst: value,
        at_least,
        starts,
    })
}

impl Made<'_> {
    /// Up to where a question may go that gets so much of the budget; `None` where
    /// nothing is left.
    fn limit(&self, units: u64) -> Option<SearchLimit> {
        let decisions = units / self.price;
        (decisions > 0)
            .then(|| SearchLimit::NumDecisions(self.solver.stats.num_decisions + decisions))
    }

    /// What a question took since the solver had made so many decisions.
    fn charge(&self, since: u64) {
        let decisions = self.solver.stats.num_decisions - since;
        self.effort.spend((decisions + 1) * self.price);
    }

    fn value(&self, solution: &Solution, of: Var) -> Seconds {
        solution.eval(of).map_or(0, Seconds::from)
    }

    /// The least value of a variable, as far as the effort goes, and whether it
    /// is proven.
    fn minimise(&mut self, of: Var, percent: u64) -> (Option<(IntCst, Solution)>, bool) {
        let Some(limit) = self.limit(self.effort.part(percent)) else {
            return (None, false);
        };
        let since = self.solver.stats.num_decisions;
        let mut best = None;
        let found = self.solver.minimize_with_callback(
            of,
            |value, s| best = Some((value, s.clone())),
            limit,
        );
        self.charge(since);
        self.solver.restore(DecLvl::ROOT);
        match found {
            Ok(found) => (found, true),
            Err(_) => (best, false),
        }
    }

    /// Makes a variable as small as the effort allows and holds it there.
    fn settle(&mut self, of: Var, last: &mut Option<Solution>) {
        if let (Some((value, solution)), _) = self.minimise(of, FOR_REST) {
            *last = Some(solution);
            self.solver.enforce(leq(of, value));
        }
    }

    /// How many of some hold.
    fn sum_of(&mut self, of: &[Lit]) -> Var {
        let mut sum = LinSum::zero();
        for lit in of {
            sum += bool2int(*lit, &mut self.solver.model);
        }
        let most = IntCst::try_from(of.len()).unwrap_or(IntCst::MAX / 4);
        let count = self.solver.model.new_variable(0, most);
        self.solver.enforce(leq(sum, count));
        count
    }

    /// The sum of variables.
    fn total(&mut self, of: &[Var], horizon: Seconds) -> Var {
        let mut sum = LinSum::zero();
        let most = number(horizon);
        for var in of {
            sum += *var;
        }
        let total = self
            .solver
            .model
            .new_variable(0, most.saturating_mul(2).min(number(Seconds::MAX)));
        self.solver.enforce(leq(sum, total));
        total
    }

    /// By how much each dish with a preferred time misses it.
    fn missed(&mut self, day: &Day) -> Vec<Var> {
        let mut missed: Vec<Option<Var>> = vec![None; day.dishes.len()];
        for (task, start) in day.tasks.iter().zip(&self.starts.clone()) {
            let Some(at) = day.dishes[task.dish].preferred else {
                continue;
            };
            let most = number(day.horizon);
            let by =
                *missed[task.dish].get_or_insert_with(|| self.solver.model.new_variable(0, most));
            self.solver
                .enforce(leq(*start + number(task.length - at), by));
        }
        missed.into_iter().flatten().collect()
    }
}

/// A day as the solver sees it; `None` where some task has no room at all.
fn build<'a>(
    day: &Day,
    least: Seconds,
    most: Seconds,
    soft: bool,
    effort: &'a Effort,
) -> Option<Made<'a>> {
    let price = day.tasks.len().max(1) as u64;
    effort.spend(STATING * price);
    let mut model = Model::new();
    let heads = day.heads();
    let tails = day.tails(&vec![most; day.dishes.len()]);
    let end = number(day.horizon);
    let mut starts = Vec::with_capacity(day.tasks.len());
    for t in 0..day.tasks.len() {
        let (from, to) = if soft {
            (number(day.tasks[t].release), end)
        } else {
            (number(heads[t]), number(tails[t]).min(end))
        };
        if from > to {
            return None;
        }
        starts.push(model.new_variable(from, to));
    }
    let mut keeps_stretches = Vec::new();
    for (t, task) in day.tasks.iter().enumerate() {
        for b in &task.before {
            let length = number(day.tasks[*b].length);
            model.enforce(leq(starts[*b] + length, starts[t]));
        }
        let Some(within) = &task.within else { continue };
        let keeps = if soft {
            let keeps = model.new_bvar("keeps its stretches").true_lit();
            keeps_stretches.push((t, keeps));
            Some(keeps)
        } else {
            None
        };
        let mut enforce = |mut clause: Vec<Lit>| {
            clause.extend(keeps.map(|keeps| !keeps));
            model.enforce(or(clause));
        };
        let (first, last) = (within.first()?, within.last()?);
        enforce(vec![starts[t].geq(number(first.0))]);
        enforce(vec![starts[t].leq(number(last.1 - task.length))]);
        for pair in within.windows(2) {
            enforce(vec![
                starts[t].leq(number(pair[0].1 - task.length)),
                starts[t].geq(number(pair[1].0)),
            ]);
        }
    }
    let (least, most) = (number(least), number(most.max(0)));
    let worst = model.new_variable(least.min(most), most);
    let mut late = Vec::with_capacity(day.dishes.len());
    for dish in &day.dishes {
        let under_way = dish.ends_at_least.map_or(0, |end| (end - dish.due).max(0));
        if number(under_way) > most {
            return None;
        }
        let by = model.new_variable(number(under_way), most);
        model.enforce(leq(by, worst));
        late.push(by);
    }
    for (t, task) in day.tasks.iter().enumerate() {
        let over = number(task.length - task.due);
        model.enforce(leq(starts[t] + over, late[task.dish]));
    }
    let keeps_rests = limit_rests(day, &mut model, &starts, soft);
    share(day, &mut model, &starts);
    let mut solver = Solver::new(model);
    if let Some(unwanted) = effort.unwanted() {
        end_when_unwanted(&mut solver, unwanted);
    }
    Some(Made {
        effort,
        price,
        solver,
        starts,
        late,
        worst,
        keeps_stretches,
        keeps_rests,
    })
}

fn limit_rests(day: &Day, model: &mut Model, starts: &[Var], soft: bool) -> Vec<(usize, Lit)> {
    let mut kept = Vec::new();
    for (which, limit) in day.limits.iter().enumerate() {
        let most = number(limit.most);
        let end = starts[limit.ends_with];
        let within = match &limit.since {
            Since::Moment(at) => leq(end, number(at + limit.most)),
            Since::Begins(task) => leq(end, starts[*task] + most),
            Since::Ends(tasks, at) => match (&tasks[..], *at <= 0) {
                ([one], true) => leq(end, starts[*one] + most + number(day.tasks[*one].length)),
                _ => {
                    let since = model.new_variable(number((*at).max(0)), number(day.horizon));
                    let fixed = model.new_variable(number((*at).max(0)), number((*at).max(0)));
                    let ends: Vec<aries_solver::lang::VarCst> = tasks
                        .iter()
                        .map(|t| starts[*t] + number(day.tasks[*t].length))
                        .chain([fixed + 0])
                        .collect();
                    model.enforce(eq_max(since + 0, ends));
                    leq(end, since + most)
                }
            },
        };
        if soft {
            let keeps = model.new_bvar("keeps its rest").true_lit();
            model.enforce_if(keeps, within);
            kept.push((which, keeps));
        } else {
            model.enforce(within);
        }
    }
    kept
}

/// No resource is used beyond its places at any time. It is enough to look
/// when a task begins, and when what is taken already does.
fn share(day: &Day, model: &mut Model, starts: &[Var]) {
    for (resource, places) in day.places.iter().enumerate() {
        let places = IntCst::try_from(*places).unwrap_or(IntCst::MAX / 4);
        let users: Vec<(usize, IntCst)> = day
            .tasks
            .iter()
            .enumerate()
            .filter(|(_, task)| task.length > 0)
            .filter_map(|(t, task)| {
                let (_, units) = task.needs.iter().find(|(r, _)| *r == resource)?;
                Some((t, IntCst::try_from(*units).unwrap_or(IntCst::MAX / 4)))
            })
            .collect();
        let taken: Vec<(IntCst, IntCst, IntCst)> = day
            .taken
            .iter()
            .filter(|k| k.resource == resource && k.to > k.from)
            .map(|k| {
                let units = IntCst::try_from(k.places).unwrap_or(IntCst::MAX / 4);
                (number(k.from), number(k.to), units)
            })
            .collect();
        let all: IntCst = users
            .iter()
            .map(|u| u.1)
            .chain(taken.iter().map(|k| k.2))
            .sum();
        if all <= places {
            continue;
        }
        // Any two of these exclude each other.
        let large: Vec<Interval> = users
            .iter()
            .filter(|(_, units)| 2 * units > places)
            .map(|(t, _)| Interval::new_fixed_duration(starts[*t], number(day.tasks[*t].length)))
            .collect();
        let every = large.len() == users.len();
        if large.len() > 1 {
            model.enforce(no_overlap(large));
        }
        if every && taken.is_empty() {
            continue;
        }
        let length = |t: usize| number(day.tasks[t].length);
        for (a, units) in &users {
            let mut used = LinSum::zero();
            for (b, others) in users.iter().filter(|(b, _)| b != a) {
                let begun = model.reify(leq(starts[*b], starts[*a]));
                let going = model.reify(gt(starts[*b] + length(*b), starts[*a]));
                let both = model.reify(and([begun, going]));
                used += *others * bool2int(both, model);
            }
            for (from, to, others) in &taken {
                let (begun, going) = (starts[*a].geq(*from), starts[*a].leq(to - 1));
                let both = model.reify(and([begun, going]));
                used += *others * bool2int(both, model);
            }
            model.enforce(leq(used, places - units));
        }
        for (from, _, _) in &taken {
            let held: IntCst = taken
                .iter()
                .filter(|k| k.0 <= *from && *from < k.1)
                .map(|k| k.2)
                .sum();
            let mut used = LinSum::zero();
            for (b, others) in &users {
                let (begun, going) = (starts[*b].leq(*from), starts[*b].geq(from - length(*b) + 1));
                let both = model.reify(and([begun, going]));
                used += *others * bool2int(both, model);
            }
            model.enforce(leq(used, (places - held).max(0)));
        }
    }
}

/// The latest that each task can begin in any schedule in which each dish is
/// late by no more than `late`, and whether that is proven; else it is how
/// late it can begin in a schedule that is known.
pub(super) fn latest(
    day: &Day,
    known: &[Seconds],
    late: &[Seconds],
    broken: &Broken,
    effort: &Effort,
) -> Vec<(Seconds, bool)> {
    let tails = day.tails(late);
    let mut latest: Vec<(Seconds, bool)> = known
        .iter()
        .zip(&tails)
        .map(|(known, tail)| (*known, known >= tail))
        .collect();
    if day.tasks.len() > MOST_TASKS
        || *broken != Broken::default()
        || latest.iter().all(|(_, sure)| *sure)
    {
        return latest;
    }
    let most = late.iter().copied().max().unwrap_or(0);
    let most_units = effort.part(if most > 0 {
        FOR_ALL_LATEST
    } else {
        FOR_ALL_LATEST_IN_TIME
    });
    let before = effort.used();
    let Some(mut made) = build(day, 0, most, false, effort) else {
        return latest;
    };
    for (var, late) in made.late.clone().iter().zip(late) {
        made.solver.enforce(leq(*var, number(*late)));
    }
    for t in 0..latest.len() {
        // No schedule lets it begin after this; halved towards the latest that is known, so
        // that a long day takes no more questions than a short one.
        let mut bound = tails[t];
        let mut step = 1;
        while !latest[t].1 {
            let left = most_units.saturating_sub(effort.used() - before);
            let Some(limit) = made.limit(left.min(effort.part(FOR_LATEST))) else {
                return latest;
            };
            let since = made.solver.stats.num_decisions;
            let from = latest[t].0 + step;
            let later = made.starts[t].geq(number(from));
            let found = made.solver.solve_with_assumptions(&[later], limit);
            made.charge(since);
            made.solver.restore(DecLvl::ROOT);
            match found {
                Ok(Err(_)) => bound = from - 1,
                Err(_) => break,
                Ok(Ok(solution)) => {
                    // A schedule that is known tells of every task, and pushed late it tells more.
                    let starts: Vec<Seconds> = made
                        .starts
                        .iter()
                        .map(|var| made.value(&solution, *var))
                        .collect();
                    for (known, start) in latest.iter_mut().zip(push_late(day, &starts, late)) {
                        known.0 = known.0.max(start);
                    }
                }
            }
            for (known, tail) in latest.iter_mut().zip(&tails) {
                known.1 |= known.0 >= *tail;
            }
            latest[t].1 |= latest[t].0 >= bound;
            step = ((bound - latest[t].0) / 2).max(1);
        }
    }
    latest
}

/// What the quick methods take for so many tasks, in units of the budget: nothing
/// of a day that the solver can be asked about; beyond, about in proportion to the
/// square.
pub(super) const fn price_of_quick(tasks: usize) -> u64 {
    if tasks > MOST_TASKS {
        (tasks as u64).saturating_mul(tasks as u64) / 50
    } else {
        0
    }
}

/// Whether a day can be made with every dish in time, every rest within its
/// most and every stretch kept; `None` where the effort ended first.
pub(super) fn possible(day: &Day, effort: &Effort) -> Option<bool> {
    if !day.unfit.is_empty() || day.lower_bound() > 0 {
        return Some(false);
    }
    let kept = |starts: &Vec<Seconds>| day.worst(starts) <= 0 && !breaks_a_rest(day, starts);
    let price = price_of_quick(day.tasks.len());
    if effort.part(100) < price {
        return None;
    }
    effort.spend(price);
    if quick(day).is_some_and(|starts| kept(&starts)) {
        return Some(true);
    }
    if day.tasks.len() > MOST_TASKS {
        return None;
    }
    if effort.part(FOR_POSSIBLE) == 0 {
        return None;
    }
    let Some(mut made) = build(day, 0, 0, false, effort) else {
        return Some(false);
    };
    let limit = made.limit(effort.part(FOR_POSSIBLE))?;
    let since = made.solver.stats.num_decisions;
    let found = made.solver.solve(limit);
    made.charge(since);
    match found {
        Ok(found) => Some(found.is_some()),
        Err(_) => None,
    }
}
