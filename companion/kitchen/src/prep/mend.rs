//! A day that cannot be made: what it runs out of, and what would mend it.

use super::board::{Board, Extra, StepRef};
use super::day::{Day, Seconds};
use super::effort::Effort;
use super::oven::OvenAction;
use super::plan::Plan;
use super::solve::{possible, price_of_quick, solve};
use super::step::Progress;
use jiff::{SignedDuration, Timestamp};
use petgraph::graph::NodeIndex;

/// One change that makes the day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Mend {
    /// Something is done to the oven for a step.
    Oven {
        /// The step.
        step: StepRef,
        /// What is done.
        action: OvenAction,
    },
    /// One more place of a resource for a while: a pair of hands.
    MorePlaces(Extra),
    /// Another dish is served in place of a preparation.
    Swap {
        /// The preparation.
        preparation: String,
        /// What its menu names for that.
        fallback: String,
    },
    /// A preparation is bought in.
    BuyIn {
        /// The preparation.
        preparation: String,
    },
    /// A preparation is left off.
    Drop {
        /// The preparation.
        preparation: String,
    },
    /// The worst dish is ready so much later: open later, or leave it off
    /// until then.
    Later(SignedDuration),
}

/// A resource that the day runs out of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shortage {
    /// The resource.
    pub resource: String,
    /// How late the worst dish would be if there were enough of it; `None`
    /// where the day could then be made.
    pub late_by_even_so: Option<SignedDuration>,
}

/// Why a day cannot be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// How late the worst dish is at best; `None` where all are in time and
    /// only a rest or an oven is not kept.
    pub late_by: Option<SignedDuration>,
    /// Resources of which more would help, the most helpful first. None: the
    /// steps alone take too long, one after another.
    pub short_of: Vec<Shortage>,
    /// Single changes that make the day, the least trouble first. None: no
    /// single one does.
    pub mends: Vec<Mend>,
    /// What the effort ended before: whether these would help is not known.
    pub not_known: Vec<NotKnown>,
}

/// A question about a day that was left open, because the effort ended first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotKnown {
    /// Whether the day runs out of this resource.
    Shortage(String),
    /// Whether one more place of this resource makes the day.
    MorePlaces(String),
    /// Whether something done to the oven for this step makes the day.
    Oven(StepRef),
    /// Whether the day is made without this preparation.
    Without(String),
}

/// The questions of one look for what would mend a day.
struct Search<'a> {
    now: Timestamp,
    effort: &'a Effort,
    /// What a question takes at least.
    price: u64,
    not_known: Vec<NotKnown>,
}

impl Search<'_> {
    /// Whether a board makes the day; where that is not known it is noted as `what`.
    fn makes(&mut self, board: impl FnOnce() -> Board, what: impl FnOnce() -> NotKnown) -> bool {
        let answer = if self.effort.part(100) < self.price {
            None
        } else {
            possible(&Day::of(&board(), self.now), self.effort)
        };
        if answer.is_none() {
            self.not_known.push(what());
        }
        answer == Some(true)
    }
}

/// More places are looked for in steps of this.
const QUARTER: Seconds = 900;

impl Board {
    /// Whether everything can be in time, with every rest within its most and every step within
    /// its hours and oven; `None` where what is left of the budget does not tell.
    #[must_use]
    pub fn can_be_made(&self, now: Timestamp, effort: &Effort) -> Option<bool> {
        possible(&Day::of(self, now), effort)
    }

    /// Why the day cannot be made and what would mend it; `None` where `plan`,
    /// this board's at `now`, can be followed.
    #[must_use]
    pub fn trouble(&self, plan: &Plan, now: Timestamp) -> Option<Trouble> {
        self.trouble_within(plan, now, &Effort::default())
    }

    /// The same within what is left of a budget; [`Trouble::not_known`] says what it
    /// did not suffice for.
    #[must_use]
    pub fn trouble_within(&self, plan: &Plan, now: Timestamp, effort: &Effort) -> Option<Trouble> {
        if plan.is_possible() {
            return None;
        }
        let used: Vec<&str> = self
            .resources
            .iter()
            .filter(|r| {
                self.steps().any(|(_, step)| {
                    !matches!(step.progress, Progress::Done(_))
                        && step.needs.iter().any(|n| n.resource == r.name)
                })
            })
            .map(|r| r.name.as_str())
            .collect();
        let mut search = Search {
            now,
            effort,
            price: price_of_quick(Day::of(self, now).tasks.len()),
            not_known: Vec::new(),
        };
        // What a cook can do comes before what it is for want of.
        let mut mends = self.by_the_oven(&mut search);
        for name in &used {
            let more = self.by_places(name, &mut search);
            mends.extend(more.map(Mend::MorePlaces));
        }
        self.by_leaving_out(plan, &mut search, &mut mends);
        let mut short_of: Vec<Shortage> = used
            .iter()
            .filter_map(|name| self.shortage(name, plan, &mut search))
            .collect();
        short_of.sort_by_key(|s| s.late_by_even_so);
        mends.extend(plan.late_by.map(Mend::Later));
        Some(Trouble {
            late_by: plan.late_by,
            short_of,
            mends,
            not_known: search.not_known,
        })
    }

    /// Whether more of a resource would help.
    fn shortage(&self, resource: &str, plan: &Plan, search: &mut Search<'_>) -> Option<Shortage> {
        let mut plenty = self.clone();
        let all: u32 = self
            .steps()
            .flat_map(|(_, step)| &step.needs)
            .filter(|need| need.resource == resource)
            .map(|need| need.places)
            .sum();
        plenty.extra.push(Extra {
            resource: resource.to_owned(),
            places: all,
            from: search.now,
            to: Timestamp::MAX,
        });
        let day = Day::of(&plenty, search.now);
        if possible(&day, search.effort) == Some(true) {
            return Some(Shortage {
                resource: resource.to_owned(),
                late_by_even_so: None,
            });
        }
        let found = solve(&day, &Vec::new(), search.effort);
        let late = |seconds: Seconds| (seconds > 0).then(|| SignedDuration::from_secs(seconds));
        let then = late(found.worst);
        if then < plan.late_by {
            return Some(Shortage {
                resource: resource.to_owned(),
                late_by_even_so: then,
            });
        }
        if late(found.at_least) < plan.late_by {
            search
                .not_known
                .push(NotKnown::Shortage(resource.to_owned()));
        }
        None
    }

    /// One more place, for as short as it is known to help.
    fn by_places(&self, resource: &str, search: &mut Search<'_>) -> Option<Extra> {
        let (now, effort) = (search.now, search.effort);
        let day = Day::of(self, now);
        let end = day.dishes.iter().map(|d| d.due).max()?;
        let moment = |quarter: Seconds| day.at(quarter * QUARTER);
        let helps = |from: Seconds, to: Seconds| {
            let mut more = self.clone();
            more.extra.push(Extra {
                resource: resource.to_owned(),
                places: 1,
                from: moment(from),
                to: moment(to),
            });
            possible(&Day::of(&more, now), effort)
        };
        let (mut from, mut to) = (0, end.div_euclid(QUARTER) + 1);
        if to <= from {
            return None;
        }
        match helps(from, to) {
            Some(true) => {}
            Some(false) => return None,
            None => {
                search
                    .not_known
                    .push(NotKnown::MorePlaces(resource.to_owned()));
                return None;
            }
        }
        // The latest that it can come, then the earliest that it can go.
        let (mut low, mut high) = (from, to);
        while low + 1 < high {
            let middle = low.midpoint(high);
            if helps(middle, to) == Some(true) {
                low = middle;
            } else {
                high = middle;
            }
        }
        from = low;
        let (mut low, mut high) = (from, to);
        while low + 1 < high {
            let middle = low.midpoint(high);
            if helps(from, middle) == Some(true) {
                high = middle;
            } else {
                low = middle;
            }
        }
        to = high;
        Some(Extra {
            resource: resource.to_owned(),
            places: 1,
            from: moment(from),
            to: moment(to),
        })
    }

    /// Whether two steps wait for one oven: the log of one probe.
    fn one_oven(&self, one: NodeIndex, other: NodeIndex) -> bool {
        let log = |step| self.in_band.get(&step).map(|band| &band.log);
        log(one).is_some() && log(one) == log(other)
    }

    fn by_the_oven(&self, search: &mut Search<'_>) -> Vec<Mend> {
        let mut mends = Vec::new();
        for (i, times) in &self.oven_times {
            for course in &times.courses {
                let mut other = self.clone();
                // What is done to an oven is done to all that waits for it.
                for (step, times) in &self.oven_times {
                    let same_oven = step == i || self.one_oven(*i, *step);
                    let same = times.courses.iter().find(|it| it.action == course.action);
                    if let (true, Some(course), Some(known)) =
                        (same_oven, same, other.oven_times.get_mut(step))
                    {
                        known.stretches.clone_from(&course.stretches);
                        known.courses.clear();
                    }
                }
                if search.makes(|| other, || NotKnown::Oven(StepRef(i.index()))) {
                    mends.push(Mend::Oven {
                        step: StepRef(i.index()),
                        action: course.action,
                    });
                    break;
                }
            }
        }
        mends.sort_by_key(|mend| match mend {
            Mend::Oven { step, .. } => Some(*step),
            _ => None,
        });
        mends
    }

    /// Preparations without which the day can be made.
    fn by_leaving_out(&self, plan: &Plan, search: &mut Search<'_>, mends: &mut Vec<Mend>) {
        let mut seen: Vec<&str> = Vec::new();
        let (mut swaps, mut bought, mut dropped) = (Vec::new(), Vec::new(), Vec::new());
        for dish in &plan.dishes {
            let name = dish.preparation.as_str();
            if seen.contains(&name) {
                continue;
            }
            seen.push(name);
            if !search.makes(|| self.without(name), || NotKnown::Without(name.to_owned())) {
                continue;
            }
            let preparation = || name.to_owned();
            let instead = self.instead.get(name);
            if let Some(fallback) = instead.and_then(|i| i.fallback.clone()) {
                swaps.push(Mend::Swap {
                    preparation: preparation(),
                    fallback,
                });
            }
            if instead.is_some_and(|i| i.buy_in) {
                bought.push(Mend::BuyIn {
                    preparation: preparation(),
                });
            }
            dropped.push(Mend::Drop {
                preparation: preparation(),
            });
        }
        mends.extend(swaps);
        mends.extend(bought);
        mends.extend(dropped);
    }
}
