//! Who does what: each step gets somebody of the hands that a menu names.
//!
//! It follows the schedule, in which hands and skills are shared already. Of
//! those free, who is at the preparation goes on with it; else who has had the
//! least to do. Nobody is ranked.

use super::board::{Board, StepRef};
use super::file::LONGEST_NAME;
use super::plan::Plan;
use super::step::Progress;
use crate::units::InputError;
use crate::written_name;
use jiff::{SignedDuration, Timestamp};
use petgraph::graph::NodeIndex;
use std::collections::{BTreeMap, HashMap};

/// One pair of hands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hand {
    /// A name or a mark.
    pub name: String,
    /// What it can do beyond what everybody can.
    pub skills: Vec<String>,
}

/// The name or the mark of who really did a step, as somebody told it.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct HandName(String);

impl HandName {
    /// A name of 1 to 80 characters on one line, in one spelling.
    ///
    /// # Errors
    /// A text that is none; `field` says where it was typed.
    pub fn new(field: &str, text: &str) -> Result<Self, InputError> {
        written_name::name(field, text, LONGEST_NAME, "MO").map(Self)
    }

    /// The name.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// Who does a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DoneBy {
    /// The hands, by name.
    pub hands: Vec<String>,
    /// How many more it needs for whom nobody is free that can do it.
    pub missing: u32,
}

/// How many ways are tried before the rest is given out as it comes.
const MOST_TRIES: u32 = 20_000;

/// Of one step, so many choices of hands are looked at.
const MOST_WAYS: usize = 200;

/// A step to be given out.
struct Job<'a> {
    step: StepRef,
    preparation: &'a str,
    skill: Option<&'a str>,
    places: usize,
    from: Timestamp,
    to: Timestamp,
}

impl Board {
    /// Who does what of a plan: every step that is open or under way and needs hands that the
    /// menu names.
    #[must_use]
    pub fn who(&self, plan: &Plan, now: Timestamp) -> BTreeMap<StepRef, DoneBy> {
        let mut all = BTreeMap::new();
        for (resource, hands) in &self.hands {
            let mut jobs: Vec<Job<'_>> = plan
                .steps
                .iter()
                .filter_map(|planned| {
                    let step = self.step(planned.step).ok()?;
                    let need = step.needs.iter().find(|need| need.resource == *resource)?;
                    let (from, to) = match (step.progress, planned.start_by, planned.done_by) {
                        (Progress::Waiting, Some(from), Some(to)) => (from, to),
                        (Progress::Begun(at), ..) => {
                            let to = at.checked_add(step.takes.needed()).unwrap_or(at);
                            (at, to.max(now))
                        }
                        _ => return None,
                    };
                    Some(Job {
                        step: planned.step,
                        preparation: &step.preparation,
                        skill: self
                            .skills
                            .get(&NodeIndex::new(planned.step.0))
                            .map(String::as_str),
                        places: need.places as usize,
                        from,
                        to,
                    })
                })
                .collect();
            jobs.sort_by_key(|job| (job.from, job.to, job.step));
            let mut given = Given {
                hands,
                jobs: &jobs,
                by: Vec::new(),
                tries: 0,
            };
            if !given.give() {
                given.as_it_comes();
            }
            for (job, who) in jobs.iter().zip(&given.by) {
                let missing = job.places.saturating_sub(who.len());
                all.insert(
                    job.step,
                    DoneBy {
                        hands: who.iter().map(|h| hands[*h].name.clone()).collect(),
                        missing: u32::try_from(missing).unwrap_or(u32::MAX),
                    },
                );
            }
        }
        all
    }

    /// The hands that the menu names, in its order.
    pub fn hands(&self) -> impl Iterator<Item = &Hand> {
        self.hands.values().flatten()
    }

    /// Whether the hands of this resource have names.
    #[must_use]
    pub fn names_hands_of(&self, resource: &str) -> bool {
        self.hands.contains_key(resource)
    }

    /// Names the hands of a resource. What has no name is called by its number.
    pub(super) fn set_hands(&mut self, resource: &str, mut hands: Vec<Hand>, places: u32) {
        let named = hands.len();
        for place in named..places as usize {
            hands.push(Hand {
                name: format!("{resource} {}", place + 1),
                skills: Vec::new(),
            });
        }
        self.hands.insert(resource.to_owned(), hands);
    }

    /// A step can only be done by hands with a skill.
    pub(super) fn set_skill(&mut self, step: StepRef, skill: &str) {
        self.skills.insert(NodeIndex::new(step.0), skill.to_owned());
    }
}

struct Given<'a> {
    hands: &'a [Hand],
    jobs: &'a [Job<'a>],
    /// Of each job given so far, by whom.
    by: Vec<Vec<usize>>,
    tries: u32,
}

impl Given<'_> {
    /// Gives out what is left; `false` where no way was found.
    fn give(&mut self) -> bool {
        let nth = self.by.len();
        if nth == self.jobs.len() {
            return true;
        }
        for who in self.ways(nth) {
            self.tries += 1;
            if self.tries > MOST_TRIES {
                return false;
            }
            self.by.push(who);
            if self.give() {
                return true;
            }
            self.by.truncate(nth);
        }
        false
    }

    /// Gives out each as it comes, and leaves open what nobody can do.
    fn as_it_comes(&mut self) {
        self.by.clear();
        for nth in 0..self.jobs.len() {
            let who = match self.ways(nth).into_iter().next() {
                Some(who) => who,
                None => {
                    let job = &self.jobs[nth];
                    let mut free = self.free(nth);
                    free.retain(|hand| job.skill.is_none() || self.can(*hand, job.skill));
                    free.truncate(job.places);
                    free
                }
            };
            self.by.push(who);
        }
    }

    fn can(&self, hand: usize, skill: Option<&str>) -> bool {
        skill.is_none_or(|skill| self.hands[hand].skills.iter().any(|known| known == skill))
    }

    /// The hands that are free throughout a job, the likeliest first.
    fn free(&self, nth: usize) -> Vec<usize> {
        let job = &self.jobs[nth];
        let mut busy: HashMap<usize, SignedDuration> = HashMap::new();
        let mut at_it: Vec<usize> = Vec::new();
        let mut taken: Vec<usize> = Vec::new();
        for (other, who) in self.jobs.iter().zip(&self.by) {
            for hand in who {
                let length = other.to.duration_since(other.from);
                let known = busy.entry(*hand).or_default();
                *known = known.saturating_add(length);
                if other.preparation == job.preparation {
                    at_it.push(*hand);
                }
                if other.from < job.to && job.from < other.to {
                    taken.push(*hand);
                }
            }
        }
        let mut free: Vec<usize> = (0..self.hands.len())
            .filter(|h| !taken.contains(h))
            .collect();
        free.sort_by_key(|hand| {
            // Whoever can do what others cannot is kept free for that.
            let kept = job.skill.is_none() && !self.hands[*hand].skills.is_empty();
            (
                !at_it.contains(hand),
                kept,
                busy.get(hand).copied().unwrap_or_default(),
                *hand,
            )
        });
        free
    }

    /// Whom a job can be given to, the likeliest first.
    fn ways(&self, nth: usize) -> Vec<Vec<usize>> {
        let job = &self.jobs[nth];
        let free = self.free(nth);
        if free.len() < job.places || job.places == 0 {
            return Vec::new();
        }
        // One of them has the skill; any others help.
        let mut ways = Vec::new();
        let mut chosen = Vec::with_capacity(job.places);
        choose(&free, job.places, &mut chosen, &mut ways);
        ways.retain(|way| way.iter().any(|hand| self.can(*hand, job.skill)));
        ways
    }
}

/// Every choice of so many, those that stand first first; a great many at most.
fn choose(from: &[usize], places: usize, chosen: &mut Vec<usize>, ways: &mut Vec<Vec<usize>>) {
    if chosen.len() == places {
        ways.push(chosen.clone());
        return;
    }
    for (nth, hand) in from.iter().enumerate() {
        if ways.len() >= MOST_WAYS {
            return;
        }
        chosen.push(*hand);
        choose(&from[nth + 1..], places, chosen, ways);
        chosen.pop();
    }
}
