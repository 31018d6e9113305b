//! Random days with one and two resources against every order there is.
//!
//! With releases, hours and places, some order of the steps, each placed as
//! early as it goes, gives the least lateness (active schedules hold an optimal
//! one for a regular measure: common knowledge of the field, from memory; e.g.
//! M. Pinedo, *Scheduling*). So trying all orders of a few steps tells the
//! truth, by a method that has nothing in common with the planner's.

use evenhand_kitchen::prep::*;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};

/// Everything lies on a grid of five minutes.
const GRID: i64 = 5;
const SLOTS: usize = 400;

#[derive(Clone)]
struct RandomStep {
    length: usize,
    release: usize,
    needs: Vec<usize>,
    /// How many places of each that it needs, no more than there are.
    places: usize,
    /// It rests: for its least time it holds what it needs, and may last for days.
    rests: bool,
    after: Option<usize>,
    due: usize,
}

#[derive(Clone)]
struct RandomDay {
    steps: Vec<RandomStep>,
    places: Vec<usize>,
    /// The slots in which the first resource works, each day.
    hours: Option<(usize, usize)>,
}

struct Dice(ChaCha8Rng);

impl Dice {
    fn below(&mut self, most: usize) -> usize {
        (self.0.next_u32() as usize) % most
    }
}

/// Four kinds of days: one resource, two, two with hours and little time, and two of which steps
/// may need several places, with rests and hours.
fn random_day(dice: &mut Dice, kind: usize) -> RandomDay {
    let resources = if kind == 0 { 1 } else { 2 };
    let count = 3 + dice.below(3);
    let most: Vec<usize> = match kind {
        3 => (0..resources).map(|_| 2 + dice.below(2)).collect(),
        _ => vec![1; resources],
    };
    let due = 8 + dice.below(28);
    let steps = (0..count)
        .map(|nth| {
            let mut needs = vec![dice.below(resources)];
            if resources == 2 && dice.below(4) == 0 {
                needs = vec![0, 1];
            }
            let all = needs.iter().map(|r| most[*r]).min().unwrap_or(1);
            let places = if kind == 3 { 1 + dice.below(all) } else { 1 };
            let rests = kind == 3 && dice.below(4) == 0;
            if rests && dice.below(2) == 0 {
                needs.clear();
            }
            RandomStep {
                places,
                rests,
                length: 1 + dice.below(10),
                release: if dice.below(3) == 0 {
                    dice.below(15)
                } else {
                    0
                },
                needs,
                after: (nth > 0 && dice.below(2) == 0).then(|| dice.below(nth.max(1))),
                due: if dice.below(4) == 0 {
                    due + dice.below(12)
                } else {
                    due
                },
            }
        })
        .collect();
    RandomDay {
        steps,
        places: match kind {
            3 => most,
            _ => (0..resources).map(|_| 1 + dice.below(2)).collect(),
        },
        hours: (kind == 2 || kind == 3 && dice.below(2) == 0)
            .then(|| (dice.below(4), 24 + dice.below(30))),
    }
}

/// A day has 288 slots; hours come again each day.
fn works(day: &RandomDay, resource: usize, slot: usize) -> bool {
    match day.hours {
        Some((from, to)) if resource == 0 => (from..to).contains(&(slot % 288)),
        _ => true,
    }
}

/// The least lateness in slots (below zero: early), over all orders; `pinned`
/// holds one step at a slot. `None` where that cannot be.
fn by_every_order(day: &RandomDay, pinned: Option<(usize, usize)>) -> Option<i64> {
    let mut best: Option<i64> = None;
    let mut order: Vec<usize> = (0..day.steps.len()).collect();
    let mut try_order = |order: &[usize]| {
        let mut used = vec![[0usize; SLOTS]; day.places.len()];
        let mut starts: Vec<Option<usize>> = vec![None; day.steps.len()];
        let fits = |used: &[[usize; SLOTS]], step: &RandomStep, from: usize| {
            from >= step.release
                && step.needs.iter().all(|r| {
                    (from..from + step.length)
                        .all(|s| used[*r][s] + step.places <= day.places[*r] && works(day, *r, s))
                })
        };
        let take = |used: &mut Vec<[usize; SLOTS]>, step: &RandomStep, from: usize| {
            for r in &step.needs {
                for slot in &mut used[*r][from..from + step.length] {
                    *slot += step.places;
                }
            }
        };
        if let Some((which, at)) = pinned {
            if !fits(&used, &day.steps[which], at) {
                return;
            }
            take(&mut used, &day.steps[which], at);
            starts[which] = Some(at);
        }
        for which in order {
            let step = &day.steps[*which];
            let ready = match step.after {
                None => 0,
                Some(before) => match starts[before] {
                    Some(start) => start + day.steps[before].length,
                    // Not an order in which each comes after what it waits for, unless pinned.
                    None => return,
                },
            };
            if let (Some((pin, at)), true) = (pinned, starts[*which].is_some()) {
                if pin == *which && at < ready {
                    return;
                }
                continue;
            }
            let Some(at) = (ready..SLOTS - step.length).find(|s| fits(&used, step, *s)) else {
                return;
            };
            take(&mut used, step, at);
            starts[*which] = Some(at);
        }
        let late = day
            .steps
            .iter()
            .zip(&starts)
            .map(|(step, start)| (start.unwrap() + step.length) as i64 - step.due as i64)
            .max()
            .unwrap();
        best = Some(best.map_or(late, |known| known.min(late)));
    };
    permute(&mut order, 0, &mut try_order);
    best
}

fn permute(order: &mut Vec<usize>, from: usize, each: &mut impl FnMut(&[usize])) {
    if from == order.len() {
        each(order);
        return;
    }
    for swap in from..order.len() {
        order.swap(from, swap);
        permute(order, from + 1, each);
        order.swap(from, swap);
    }
}

fn midnight() -> Timestamp {
    "2026-05-08T00:00:00Z".parse().unwrap()
}

fn slot(slots: i64) -> SignedDuration {
    SignedDuration::from_mins(slots * GRID)
}

fn time(slots: usize) -> jiff::civil::Time {
    (midnight() + slot(slots as i64))
        .to_zoned_datetime(TimeZone::UTC)
        .time()
}

fn board(day: &RandomDay) -> Board {
    let resources = day
        .places
        .iter()
        .enumerate()
        .map(|(nth, places)| {
            let hours = day.hours.filter(|_| nth == 0).map(|(from, to)| Hours {
                from: time(from),
                to: time(to),
            });
            Resource::new(nth.to_string(), *places, hours).unwrap()
        })
        .collect();
    let mut board = Board::new(midnight(), TimeZone::UTC, resources).unwrap();
    let mut added = Vec::new();
    for (nth, step) in day.steps.iter().enumerate() {
        let length = slot(step.length as i64);
        let preparation = nth.to_string();
        added.push(
            board
                .add(Step {
                    preparation: preparation.clone(),
                    name: String::from("do"),
                    takes: if step.rests {
                        Takes::rest(length, length + SignedDuration::from_hours(48)).unwrap()
                    } else {
                        Takes::work(length, length).unwrap()
                    },
                    needs: step
                        .needs
                        .iter()
                        .map(|r| Need {
                            resource: r.to_string(),
                            places: u32::try_from(step.places).unwrap(),
                        })
                        .collect(),
                    in_service: false,
                    not_before: (step.release > 0).then(|| midnight() + slot(step.release as i64)),
                    progress: Progress::Waiting,
                })
                .unwrap(),
        );
        board
            .set_due(&preparation, Some(midnight() + slot(step.due as i64)), None)
            .unwrap();
        if let Some(before) = step.after {
            board.wait(added[nth], added[before]).unwrap();
        }
    }
    board
}

/// Whether a plan can be followed: each step when it says, and no later than it says.
fn follow(day: &RandomDay, plan: &Plan, board: &Board) -> i64 {
    let mut used = vec![[0usize; SLOTS]; day.places.len()];
    let start = |nth: usize| {
        let step = board.find(&nth.to_string(), "do").unwrap();
        let planned = plan.of(step).unwrap();
        let begin = planned.start_by.unwrap();
        assert!(begin >= planned.earliest, "start by before the earliest");
        let minutes = begin.duration_since(midnight()).as_mins();
        assert_eq!(minutes % GRID, 0);
        usize::try_from(minutes / GRID).unwrap()
    };
    let mut late = i64::MIN;
    for (nth, step) in day.steps.iter().enumerate() {
        let from = start(nth);
        assert!(from >= step.release, "before its release");
        if let Some(before) = step.after {
            assert!(
                from >= start(before) + day.steps[before].length,
                "before what it waits for"
            );
        }
        for r in &step.needs {
            let taken = used[*r].iter_mut().enumerate();
            for (s, used) in taken.skip(from).take(step.length) {
                *used += step.places;
                assert!(*used <= day.places[*r], "no place");
                assert!(works(day, *r, s), "outside hours");
            }
        }
        late = late.max((from + step.length) as i64 - step.due as i64);
    }
    late
}

#[test]
fn random_days_agree_with_every_order_there_is() {
    let (mut possible, mut impossible) = (0, 0);
    for nth in 0..400 {
        let mut dice = Dice(ChaCha8Rng::seed_from_u64(nth));
        let day = random_day(&mut dice, nth as usize % 4);
        let board = board(&day);
        let plan = board.plan(midnight());
        let truth = by_every_order(&day, None).unwrap().max(0);
        let told = plan.late_by.map_or(0, |late| late.as_mins() / GRID);
        assert_eq!(told, truth, "day {nth}");
        assert_eq!(plan.gap, SignedDuration::ZERO, "day {nth}");
        assert_eq!(follow(&day, &plan, &board).max(0), truth, "day {nth}");
        if truth > 0 {
            impossible += 1;
            assert!(board.trouble(&plan, midnight()).is_some(), "day {nth}");
            continue;
        }
        possible += 1;
        // How late each step can begin is exact too.
        for which in 0..day.steps.len() {
            let step = board.find(&which.to_string(), "do").unwrap();
            let planned = plan.of(step).unwrap();
            assert!(planned.latest_is_proven, "day {nth}");
            let latest = planned.latest.duration_since(midnight()).as_mins() / GRID;
            let latest = usize::try_from(latest).unwrap();
            let late = |at| by_every_order(&day, Some((which, at))).is_none_or(|late| late > 0);
            assert!(!late(latest), "day {nth} step {which}: too late already");
            assert!(
                late(latest + 1),
                "day {nth} step {which}: could begin later"
            );
        }
    }
    // Both kinds were met, or the test says nothing.
    assert!(possible > 60 && impossible > 60, "{possible} {impossible}");
}

/// A day that cannot be made is made by each mend that is named.
#[test]
fn every_mend_that_is_named_makes_the_day() {
    let mut named = [0; 6];
    for nth in 0..240 {
        let mut dice = Dice(ChaCha8Rng::seed_from_u64(10_000 + nth));
        let day = random_day(&mut dice, if nth % 3 == 0 { 3 } else { 1 });
        let mut board = board(&day);
        // Every other can be swapped, and every third bought in.
        for which in 0..day.steps.len() {
            let instead = Instead {
                fallback: (which % 2 == 0).then(|| format!("fallback of {which}")),
                buy_in: which % 3 == 0,
            };
            board.set_instead(which.to_string(), instead);
        }
        let plan = board.plan(midnight());
        let Some(trouble) = board.trouble(&plan, midnight()) else {
            assert_eq!(plan.late_by, None);
            continue;
        };
        for mend in &trouble.mends {
            let mut mended = day.clone();
            match mend {
                Mend::Later(by) => {
                    let by = usize::try_from(by.as_mins() / GRID).unwrap();
                    mended.steps.iter_mut().for_each(|s| s.due += by);
                    assert!(
                        by_every_order(&mended, None).unwrap() <= 0,
                        "{nth}: {mend:?}"
                    );
                    mended.steps.iter_mut().for_each(|s| s.due -= 1);
                    assert!(
                        by_every_order(&mended, None).unwrap() > 0,
                        "{nth}: {mend:?}"
                    );
                    named[0] += 1;
                }
                Mend::Drop { preparation }
                | Mend::Swap { preparation, .. }
                | Mend::BuyIn { preparation } => {
                    let which: usize = preparation.parse().unwrap();
                    match mend {
                        Mend::Swap { fallback, .. } => {
                            assert_eq!(*fallback, format!("fallback of {which}"));
                            assert_eq!(which % 2, 0, "{nth}: {mend:?}");
                            named[3] += 1;
                        }
                        Mend::BuyIn { .. } => {
                            assert_eq!(which % 3, 0, "{nth}: {mend:?}");
                            named[4] += 1;
                        }
                        _ => named[1] += 1,
                    }
                    // What takes nothing and is due never is not there.
                    mended.steps[which].needs.clear();
                    mended.steps[which].length = 0;
                    mended.steps[which].release = 0;
                    mended.steps[which].due = SLOTS;
                    for step in mended.steps.iter_mut().filter(|s| s.after == Some(which)) {
                        step.after = None;
                    }
                    assert!(
                        by_every_order(&mended, None).unwrap() <= 0,
                        "{nth}: {mend:?}"
                    );
                }
                Mend::MorePlaces(extra) => {
                    // For the whole day it helps as well.
                    let which: usize = extra.resource.parse().unwrap();
                    mended.places[which] += 1;
                    assert!(
                        by_every_order(&mended, None).unwrap() <= 0,
                        "{nth}: {mend:?}"
                    );
                    let mut board = board.clone();
                    board.add_places(extra.clone()).unwrap();
                    assert_eq!(board.plan(midnight()).late_by, None, "{nth}: {mend:?}");
                    named[2] += 1;
                }
                Mend::Oven { .. } => named[5] += 1,
            }
        }
    }
    assert!(named[..5].iter().all(|known| *known > 10), "{named:?}");
    assert_eq!(named[5], 0);
}
