//! A batch as its lines add up to it.

use super::{Due, Entry, Loss, LossTarget, Mark, Plan, ReadyNitrite, Slot, What};
use crate::cure::Ingoing;
use crate::heat::{self, Finding, HeatLog, LogPoint};
use crate::limits::Limits;
use crate::ratio::{Formula, Ingredient};
use crate::units::InputError;
use evenhand_protocol::{Mass, Temperature};
use jiff::{SignedDuration, Timestamp};

/// Why a line was not taken into a batch.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BatchError {
    /// It strikes a line that is not there, is struck already or strikes
    /// another itself.
    #[error("line {line}: {problem}")]
    Line {
        /// The line.
        line: u32,
        /// What is wrong with it.
        problem: &'static str,
    },
    /// It names something that was never weighed.
    #[error("item {0}: nothing was weighed under that number")]
    NoSuchSlot(u32),
    /// More was taken out than is in.
    #[error("{taken} g was taken out where only {there} g is in")]
    NotThere {
        /// How much was taken, in grams.
        taken: f64,
        /// How much is in, in grams.
        there: f64,
    },
    /// A curing agent cannot become something plain, nor the reverse.
    #[error(
        "item {slot}: {was} is on record as what it is; strike that line out first, with a reason"
    )]
    Renamed {
        /// Which.
        slot: u32,
        /// What it is on record as.
        was: String,
    },
    /// It cannot be marked ready.
    #[error("not ready: {0}")]
    NotReady(String),
    /// Text of nothing.
    #[error("{0}: empty; write something or leave it out")]
    Empty(&'static str),
}

/// What went in under one number.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedIn {
    /// Its number.
    pub slot: Slot,
    /// What it is, once somebody said.
    pub ingredient: Option<Ingredient>,
    /// How much of it is in.
    pub mass: Mass,
    /// When it was weighed last.
    pub at: Timestamp,
    /// How warm it was, where it was measured.
    pub temperature: Option<Temperature>,
}

/// A tasting.
#[derive(Debug, Clone, PartialEq)]
pub struct Tasting {
    /// When.
    pub at: Timestamp,
    /// The mark.
    pub mark: Mark,
    /// What it was like.
    pub note: String,
}

/// A batch: what was really weighed, measured, done and tasted.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Batch {
    entries: Vec<Entry>,
    struck: Vec<bool>,
}

impl Batch {
    /// A batch of nothing yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// A batch from its lines.
    ///
    /// # Errors
    /// A line that could not have been written after those before it.
    pub fn from_entries(entries: impl IntoIterator<Item = Entry>) -> Result<Self, BatchError> {
        let mut batch = Self::new();
        for entry in entries {
            batch.add(entry)?;
        }
        Ok(batch)
    }

    /// Adds a line.
    ///
    /// # Errors
    /// A line that makes no sense after those before it; the batch is as it
    /// was.
    pub fn add(&mut self, entry: Entry) -> Result<(), BatchError> {
        match &entry.what {
            What::Titled { title } if title.trim().is_empty() => {
                return Err(BatchError::Empty("title"));
            }
            What::Noted { text } if text.trim().is_empty() => {
                return Err(BatchError::Empty("note"));
            }
            What::Named { slot, ingredient } => {
                let there = self.slot(*slot).ok_or(BatchError::NoSuchSlot(slot.0))?;
                if let Some(was) = there.ingredient
                    && was.agent().is_some() != ingredient.0.agent().is_some()
                {
                    return Err(BatchError::Renamed {
                        slot: slot.0,
                        was: was.to_string(),
                    });
                }
            }
            What::Weighed { slot, mass, .. } => {
                let there = self.slot(*slot).map_or(Mass::ZERO, |slot| slot.mass);
                if (there + *mass).is_negative() {
                    return Err(BatchError::NotThere {
                        taken: -mass.grams(),
                        there: there.grams(),
                    });
                }
            }
            What::TakenOut { mass } => {
                let there = self.total();
                if mass.is_negative() || *mass > there {
                    return Err(BatchError::NotThere {
                        taken: mass.grams(),
                        there: there.grams(),
                    });
                }
            }
            What::Ready { nitrite } => self.may_be_ready(nitrite.as_ref())?,
            What::Struck { line, reason } => {
                if reason.trim().is_empty() {
                    return Err(BatchError::Empty("reason"));
                }
                return self.strike(*line, &entry);
            }
            _ => {}
        }
        self.entries.push(entry);
        self.struck.push(false);
        Ok(())
    }

    fn strike(&mut self, line: u32, entry: &Entry) -> Result<(), BatchError> {
        let wrong = |problem| BatchError::Line { line, problem };
        let index = usize::try_from(line).map_err(|_| wrong("there is no such line"))?;
        match (self.entries.get(index), self.struck.get(index)) {
            (Some(earlier), Some(false)) => {
                if matches!(earlier.what, What::Struck { .. }) {
                    return Err(wrong(
                        "it strikes out another line itself; write that one anew",
                    ));
                }
            }
            (Some(_), _) => return Err(wrong("it is struck out already")),
            (None, _) => return Err(wrong("there is no such line")),
        }
        let mut after = self.clone();
        after.struck[index] = true;
        // What is left must still hold together: nothing below zero, nothing named that was not weighed.
        if after
            .weighed_in()
            .iter()
            .any(|slot| slot.mass.is_negative())
        {
            return Err(wrong(
                "without it more would have been taken out than was in",
            ));
        }
        if let Some(orphan) = after.orphan() {
            return Err(BatchError::Line {
                line: orphan,
                problem: "it names what the struck line weighed; strike it out first",
            });
        }
        after.entries.push(entry.clone());
        after.struck.push(false);
        *self = after;
        Ok(())
    }

    /// A line that names a slot nothing was weighed under.
    fn orphan(&self) -> Option<u32> {
        self.entries
            .iter()
            .zip(&self.struck)
            .enumerate()
            .find(|(_, (entry, struck))| match &entry.what {
                What::Named { slot, .. } => !**struck && self.slot(*slot).is_none(),
                _ => false,
            })
            .and_then(|(index, _)| u32::try_from(index).ok())
    }

    /// A batch with something curing in it needs a figure that passed, and
    /// something without a name could be that.
    fn may_be_ready(&self, nitrite: Option<&ReadyNitrite>) -> Result<(), BatchError> {
        if let Some(nameless) = self
            .weighed_in()
            .iter()
            .find(|slot| slot.ingredient.is_none() && slot.mass > Mass::ZERO)
        {
            return Err(BatchError::NotReady(format!(
                "item {} has no name yet; say what it is, in case it is a curing agent",
                nameless.slot.0
            )));
        }
        let agent = self.agent();
        match (agent, nitrite) {
            (None, None) => Ok(()),
            (Some(agent), None) => Err(BatchError::NotReady(format!(
                "{agent} is in it, and its nitrite was not reckoned against a limit"
            ))),
            (None, Some(_)) => Err(BatchError::NotReady(
                "nitrite was reckoned, but no curing agent is on record".to_owned(),
            )),
            (Some(_), Some(nitrite)) if nitrite.ppm > nitrite.at_most => {
                Err(BatchError::NotReady(format!(
                    "{:.1} of ingoing nitrite, at most {} for {}",
                    nitrite.ppm, nitrite.at_most, nitrite.method
                )))
            }
            (Some(_), Some(_)) => Ok(()),
        }
    }

    /// Marks it ready, with what was reckoned of its curing agent.
    ///
    /// # Errors
    /// A curing agent that was not reckoned, or that does not let it pass: in
    /// words that say why.
    pub fn ready(&mut self, at: Timestamp, ingoing: Option<&Ingoing>) -> Result<(), BatchError> {
        self.add(Self::ready_line(at, ingoing)?)
    }

    /// The line that marks a batch ready, to be added where it holds.
    ///
    /// # Errors
    /// A curing agent that does not let it pass: in words that say why.
    pub fn ready_line(at: Timestamp, ingoing: Option<&Ingoing>) -> Result<Entry, BatchError> {
        if let Some(ingoing) = ingoing
            && !ingoing.verdict.lets_pass()
        {
            return Err(BatchError::NotReady(ingoing.to_string()));
        }
        Ok(Entry {
            at,
            what: What::Ready {
                nitrite: ingoing.map(|ingoing| ReadyNitrite {
                    method: ingoing.method,
                    ppm: ingoing.ppm,
                    at_most: ingoing.limit.at_most,
                }),
            },
        })
    }

    /// Every line, and whether it was struck out.
    pub fn entries(&self) -> impl Iterator<Item = (&Entry, bool)> {
        self.entries.iter().zip(self.struck.iter().copied())
    }

    /// Lines that count.
    fn standing(&self) -> impl DoubleEndedIterator<Item = &Entry> {
        self.entries
            .iter()
            .zip(&self.struck)
            .filter(|(_, struck)| !**struck)
            .map(|(entry, _)| entry)
    }

    /// When it was begun: the time of its first line.
    #[must_use]
    pub fn begun(&self) -> Option<Timestamp> {
        self.entries.first().map(|entry| entry.at)
    }

    /// What it is called.
    #[must_use]
    pub fn title(&self) -> Option<&str> {
        self.standing().rev().find_map(|entry| match &entry.what {
            What::Titled { title } => Some(title.trim()),
            _ => None,
        })
    }

    /// What went in, in the order in which it first did.
    #[must_use]
    pub fn weighed_in(&self) -> Vec<WeighedIn> {
        let mut slots: Vec<WeighedIn> = Vec::new();
        for entry in self.standing() {
            match &entry.what {
                What::Weighed {
                    slot,
                    mass,
                    temperature,
                } => match slots.iter_mut().find(|there| there.slot == *slot) {
                    Some(there) => {
                        there.mass += *mass;
                        there.at = entry.at;
                        there.temperature = temperature.or(there.temperature);
                    }
                    None => slots.push(WeighedIn {
                        slot: *slot,
                        ingredient: None,
                        mass: *mass,
                        at: entry.at,
                        temperature: *temperature,
                    }),
                },
                What::Named { slot, ingredient } => {
                    if let Some(there) = slots.iter_mut().find(|there| there.slot == *slot) {
                        there.ingredient = Some(ingredient.0.clone());
                    }
                }
                What::TakenOut { mass } => {
                    let there: Mass = slots.iter().map(|slot| slot.mass).sum();
                    for slot in &mut slots {
                        slot.mass = slot
                            .mass
                            .fraction((there - *mass).micrograms(), there.micrograms())
                            .unwrap_or(Mass::ZERO);
                    }
                }
                _ => {}
            }
        }
        slots
    }

    fn slot(&self, slot: Slot) -> Option<WeighedIn> {
        self.weighed_in()
            .into_iter()
            .find(|there| there.slot == slot)
    }

    /// A number that nothing was weighed under yet.
    #[must_use]
    pub fn free_slot(&self) -> Slot {
        // Struck lines keep their numbers, so that a number never means two things.
        let last = self.entries.iter().filter_map(|entry| match entry.what {
            What::Weighed { slot, .. } => Some(slot.0),
            _ => None,
        });
        Slot(last.max().map_or(0, |last| last.saturating_add(1)))
    }

    /// All that is in it.
    #[must_use]
    pub fn total(&self) -> Mass {
        self.weighed_in().iter().map(|slot| slot.mass).sum()
    }

    fn agent(&self) -> Option<Ingredient> {
        self.weighed_in()
            .into_iter()
            .filter(|slot| slot.mass > Mass::ZERO)
            .find_map(|slot| {
                slot.ingredient
                    .filter(|ingredient| ingredient.agent().is_some())
            })
    }

    /// The ratio of what was weighed, to mix it again: "as last time".
    ///
    /// # Errors
    /// Something without a name, or fewer than two things.
    pub fn as_formula(&self) -> Result<Formula, InputError> {
        let weighed = self
            .weighed_in()
            .into_iter()
            .filter(|slot| slot.mass > Mass::ZERO)
            .map(|there| {
                there
                    .ingredient
                    .map(|ingredient| (ingredient, there.mass))
                    .ok_or_else(|| {
                        InputError::new(
                            "item",
                            &there.slot.0.to_string(),
                            "has no name",
                            "say what it was first",
                        )
                    })
            })
            .collect::<Result<Vec<_>, _>>()?;
        Formula::of_weighed(merged(weighed))
    }

    /// The plan in force.
    #[must_use]
    pub fn plan(&self) -> Option<Plan> {
        self.standing().rev().find_map(|entry| match entry.what {
            What::Planned { plan } => Some(plan),
            _ => None,
        })
    }

    /// Whether it came out, and when.
    #[must_use]
    pub fn came_out(&self) -> Option<Timestamp> {
        self.standing().rev().find_map(|entry| match entry.what {
            What::CameOut => Some(entry.at),
            _ => None,
        })
    }

    /// What is to be done with it, soonest first; nothing once it is out.
    #[must_use]
    pub fn due(&self, now: Timestamp) -> Vec<Due> {
        let Some(plan) = self.plan() else {
            return Vec::new();
        };
        if self.came_out().is_some_and(|out| out >= plan.into_brine()) {
            return Vec::new();
        }
        let turned = self.standing().rev().find_map(|entry| match entry.what {
            What::Turned => Some(entry.at),
            _ => None,
        });
        plan.due_at(turned, now)
    }

    /// What it should lose in drying, where that was said.
    #[must_use]
    pub fn loss_target(&self) -> Option<LossTarget> {
        self.standing().rev().find_map(|entry| match entry.what {
            What::ToLose { target } => Some(target),
            _ => None,
        })
    }

    /// How far its drying is, by the last weighing.
    #[must_use]
    pub fn loss(&self) -> Option<Loss> {
        let target = self.loss_target()?;
        let last = self.standing().rev().find_map(|entry| match entry.what {
            What::Reweighed { mass } => Some(mass),
            _ => None,
        })?;
        Some(target.at(last))
    }

    /// The readings of its cold store, as a log with steps of at most so long
    /// counted as unbroken. Readings out of order or twice at once, as a
    /// stepped clock makes them, are left out and counted.
    #[must_use]
    pub fn store_log(&self, longest_step: SignedDuration) -> (HeatLog, usize) {
        let mut log = HeatLog::new("cold store");
        log.longest_step = longest_step;
        let mut left_out = 0;
        for entry in self.standing() {
            if let What::Stored { temperature } = entry.what {
                let point = LogPoint {
                    at: entry.at,
                    temperature,
                };
                if log.push(point).is_err() {
                    left_out += 1;
                }
            }
        }
        (log, left_out)
    }

    /// Its cold store against the limit for holding food cold; nothing where
    /// no limit of that name is in force or nothing was read.
    #[must_use]
    pub fn store_check(&self, limits: &Limits, longest_step: SignedDuration) -> Vec<Finding> {
        let (log, _) = self.store_log(longest_step);
        match limits.named("cold-holding") {
            Some(limit) if !log.points().is_empty() => heat::check(&log, limit),
            _ => Vec::new(),
        }
    }

    /// Its tastings, earliest first.
    #[must_use]
    pub fn tastings(&self) -> Vec<Tasting> {
        self.standing()
            .filter_map(|entry| match &entry.what {
                What::Tasted { mark, note } => Some(Tasting {
                    at: entry.at,
                    mark: *mark,
                    note: note.clone(),
                }),
                _ => None,
            })
            .collect()
    }

    /// Whether it is marked ready as it stands: nothing was weighed in or
    /// taken out since.
    #[must_use]
    pub fn is_ready(&self) -> bool {
        let mut ready = false;
        for entry in self.standing() {
            match entry.what {
                What::Ready { .. } => ready = true,
                // Also a strike: what it struck may have been weighed.
                What::Weighed { .. } | What::Named { .. } | What::Struck { .. } => ready = false,
                _ => {}
            }
        }
        ready
    }
}

/// Slots of the same ingredient, put together.
fn merged(weighed: Vec<(Ingredient, Mass)>) -> Vec<(Ingredient, Mass)> {
    let mut together: Vec<(Ingredient, Mass)> = Vec::with_capacity(weighed.len());
    for (ingredient, mass) in weighed {
        match together
            .iter_mut()
            .find(|(there, _)| there.is_same(&ingredient))
        {
            Some((_, there)) => *there += mass,
            None => together.push((ingredient, mass)),
        }
    }
    together
}
