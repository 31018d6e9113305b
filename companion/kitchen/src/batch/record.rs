//! A batch as its lines add up to it.

use super::{
    Aim, CuringWay, Due, Entry, Loss, LossTarget, Mark, ReadyNitrite, Schedule, Slot, What,
};
use crate::cure::{
    Amounts, Curing, CuringAgent, Ingoing, Method, Ppm, ingoing_ppm, is_known_harmless, plain_name,
};
use crate::dough::MixedDough;
use crate::heat::{self, Finding, HeatLog, LogPoint};
use crate::limits::Limits;
use crate::ratio::{Formula, Ingredient, RatioError};
use crate::units::InputError;
use crate::uptake::{IntoBath, Soak};
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
        was: Ingredient,
    },
    /// The way of curing is bound already, and no reason was given for
    /// another.
    #[error(
        "cured by: {now} was said where {was} is on record; say why it is another, which stays on record"
    )]
    OtherWay {
        /// What is on record.
        was: Method,
        /// What was said now.
        now: Method,
    },
    /// It cannot be marked ready.
    #[error("not ready: {}", sentence(.0))]
    NotReady(Vec<Hindrance>),
    /// It came out of a bath that nothing was weighed into.
    #[error("out: nothing of this batch was weighed into a brine or marinade")]
    NotInBath,
    /// A title or words that cannot be kept.
    #[error(transparent)]
    Words(InputError),
    /// What came out of a bath cannot be of what went in.
    #[error(transparent)]
    Soak(#[from] InputError),
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

impl WeighedIn {
    /// What it is called, or nothing.
    fn name(&self) -> String {
        self.ingredient
            .as_ref()
            .map_or_else(String::new, |it| it.name().to_owned())
    }
}

/// What a curing agent's share of the meat can be, as parts of one: what lies
/// between is asked about where nobody knows it. A gram or two of an agent to
/// a kilogram is the usual dose; 0.5 g and 50 g are far out on either side.
const COULD_CURE: (f64, f64) = (0.000_5, 0.05);

/// How far a mass that is typed may be from the one that was weighed, as parts
/// of one: what people round away.
const MAY_DIFFER: f64 = 0.005;

/// What a batch is judged by.
#[derive(Debug, Clone, Copy)]
pub struct Judging<'l> {
    /// The limits in force.
    pub limits: &'l Limits,
    /// To within how much its agents were weighed (k = 2); zero where that is
    /// not known.
    pub scale: Mass,
    /// The longest step between readings of its cold store that counts as
    /// unbroken.
    pub longest_step: SignedDuration,
    /// What somebody says was weighed, to be held against the record.
    pub claimed: Claimed,
}

/// Masses that somebody typed. They never count: the record does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Claimed {
    /// The meat.
    pub meat: Option<Mass>,
    /// The pickle without the agent.
    pub pickle: Option<Mass>,
}

/// What stands in the way of a batch being ready.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Hindrance {
    /// Something has no name.
    #[error("item {0} has no name yet; say what it is, in case it is a curing agent")]
    Nameless(u32),
    /// Something is plain on record and called what curing agents are called.
    #[error(
        "item {slot} is on record as plain and called {name}, which curing agents are called; strike its \
         name out and enter it as a curing agent"
    )]
    CalledCuring {
        /// Which.
        slot: u32,
        /// Its name.
        name: String,
    },
    /// Nobody knows what something is, and it is as much as an agent would be.
    #[error(
        "item {slot}, {name}, is {percent:.2} % of the meat, as a curing agent could be, and not on the list \
         of what is known to have no nitrite; read its packet, and say what is in it"
    )]
    Unknown {
        /// Which.
        slot: u32,
        /// Its name.
        name: String,
        /// Its share of the meat.
        percent: f64,
    },
    /// There is an agent, and nobody said how the meat is cured.
    #[error(
        "{agent} is in it, and its nitrite was not reckoned against a limit: say how it is cured"
    )]
    WayNotSaid {
        /// The agent.
        agent: CuringAgent,
    },
    /// A way of curing was said, and there is nothing curing in it.
    #[error("a way of curing was said, but no curing agent is on record")]
    NoAgent,
    /// More than one thing can be the meat.
    #[error("say which is the meat: {}", items(.0))]
    WhichIsMeat(Vec<(u32, String)>),
    /// What was typed is not what was weighed.
    #[error(
        "{what}: {:.1} g was said, {:.1} g was weighed; the record counts, so put right what is wrong",
        said.grams(),
        weighed.grams()
    )]
    Contradiction {
        /// Of what.
        what: &'static str,
        /// What was typed.
        said: Mass,
        /// What was weighed.
        weighed: Mass,
    },
    /// Something that the sum needs was not weighed or said.
    #[error(transparent)]
    Amount(InputError),
    /// No limit is in force for this way of curing.
    #[error("no limit is in force for {0}")]
    NoLimit(Method),
    /// Its nitrite does not let it pass.
    #[error("{0}")]
    Nitrite(Box<Ingoing>),
    /// A line that marks it ready says itself that it is over.
    #[error(
        "{ppm:.2} of ingoing nitrite is written down, at most {at_most:.2} for {method}",
        ppm = .0.ppm,
        at_most = .0.at_most,
        method = .0.method
    )]
    OverAsWritten(ReadyNitrite),
    /// A line that marks it ready has another figure than the record.
    #[error(
        "{written:.1} of ingoing nitrite is written down, and what was weighed comes to {}",
        weighed.map_or_else(|| "nothing that can be told".to_owned(), |ppm| format!("{ppm:.1}"))
    )]
    NotAsWeighed {
        /// What the line says.
        written: Ppm,
        /// What the record comes to.
        weighed: Option<Ppm>,
    },
    /// Its cold store was out of its limit.
    #[error("the cold store was over its limit: {0}")]
    ColdStore(Box<Finding>),
}

fn sentence(hindrances: &[Hindrance]) -> String {
    let all: Vec<String> = hindrances.iter().map(ToString::to_string).collect();
    all.join("; ")
}

fn items(items: &[(u32, String)]) -> String {
    let all: Vec<String> = items
        .iter()
        .map(|(slot, name)| format!("item {slot}, {name}"))
        .collect();
    all.join("; ")
}

/// Whether nothing more goes into a batch after this.
const fn ends(what: &What) -> bool {
    matches!(what, What::Ready { .. } | What::PutAside | What::CameOut)
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
                    return Err(BatchError::Renamed { slot: slot.0, was });
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
            What::OutOfBath { out } => {
                let (into, since) = self.in_bath().ok_or(BatchError::NotInBath)?;
                Soak::new(into.clone(), out.clone(), entry.at.duration_since(since))?;
            }
            What::CuredBy { way, reason } => self.may_be_cured_by(way, reason.as_deref())?,
            What::Vouched { slot, packet } => {
                if packet.trim().is_empty() {
                    return Err(BatchError::Empty("packet"));
                }
                self.slot(*slot).ok_or(BatchError::NoSuchSlot(slot.0))?;
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

    fn may_be_cured_by(&self, way: &CuringWay, reason: Option<&str>) -> Result<(), BatchError> {
        for slot in &way.meat {
            self.slot(*slot).ok_or(BatchError::NoSuchSlot(slot.0))?;
        }
        match self.way() {
            Some(was) if was != *way && reason.is_none_or(|reason| reason.trim().is_empty()) => {
                Err(BatchError::OtherWay {
                    was: was.method,
                    now: way.method,
                })
            }
            _ => Ok(()),
        }
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
                What::Named { slot, .. } | What::Vouched { slot, .. } => {
                    !**struck && self.slot(*slot).is_none()
                }
                What::CuredBy { way, .. } => {
                    !**struck && way.meat.iter().any(|slot| self.slot(*slot).is_none())
                }
                _ => false,
            })
            .and_then(|(index, _)| u32::try_from(index).ok())
    }

    /// Whether a line that marks it ready can stand after the others: whoever
    /// wrote it had limits before them, which are not known here, so only what
    /// the lines themselves say is looked at.
    fn may_be_ready(&self, nitrite: Option<&ReadyNitrite>) -> Result<(), BatchError> {
        if let Some(nameless) = self.nameless() {
            return Err(BatchError::NotReady(vec![nameless]));
        }
        let agents = self.agents();
        let hindrance = match (agents.first(), nitrite) {
            (None, None) => None,
            (Some((agent, _)), None) => Some(Hindrance::WayNotSaid {
                agent: agent.clone(),
            }),
            (None, Some(_)) => Some(Hindrance::NoAgent),
            // Written down from the same masses, so it is the same to the last digits.
            (Some(_), Some(nitrite))
                if nitrite.ppm.value() > nitrite.at_most.value() * (1.0 + 1e-6) =>
            {
                Some(Hindrance::OverAsWritten(*nitrite))
            }
            (Some(_), Some(nitrite)) => self.way().and_then(|way| {
                let weighed = self
                    .amounts(&way)
                    .ok()
                    .and_then(|amounts| ingoing_ppm(way.method, amounts, &agents).ok());
                let same = weighed.is_some_and(|weighed| {
                    way.method == nitrite.method
                        && (weighed - nitrite.ppm.value()).abs() <= weighed * 1e-6
                });
                (!same).then_some(Hindrance::NotAsWeighed {
                    written: nitrite.ppm,
                    weighed: weighed.and_then(|ppm| Ppm::new("weighed", ppm).ok()),
                })
            }),
        };
        match hindrance {
            None => Ok(()),
            Some(hindrance) => Err(BatchError::NotReady(vec![hindrance])),
        }
    }

    /// Marks it ready, judged by its own record.
    ///
    /// # Errors
    /// Everything that stands in the way.
    pub fn ready(
        &mut self,
        at: Timestamp,
        by: &Judging<'_>,
    ) -> Result<Option<Ingoing>, BatchError> {
        let (entry, ingoing) = self.ready_line(at, by)?;
        self.add(entry)?;
        Ok(ingoing)
    }

    /// The line that marks it ready, judged by its own record: the masses are
    /// those that were weighed, the way of curing the one on record.
    ///
    /// # Errors
    /// Everything that stands in the way.
    pub fn ready_line(
        &self,
        at: Timestamp,
        by: &Judging<'_>,
    ) -> Result<(Entry, Option<Ingoing>), BatchError> {
        let (ingoing, hindrances) = self.judged(by);
        if !hindrances.is_empty() {
            return Err(BatchError::NotReady(hindrances));
        }
        let entry = Entry {
            at,
            what: What::Ready {
                nitrite: ingoing.as_ref().map(|ingoing| ReadyNitrite {
                    method: ingoing.method,
                    ppm: ingoing.ppm,
                    at_most: ingoing.limit.at_most(),
                }),
            },
        };
        Ok((entry, ingoing))
    }

    /// What its record comes to: its ingoing nitrite, where there is a curing
    /// agent in it, and all that stands in the way of its being ready.
    #[must_use]
    pub fn judged(&self, by: &Judging<'_>) -> (Option<Ingoing>, Vec<Hindrance>) {
        let mut hindrances = self.asked();
        let mut ingoing = None;
        let agents = self.agents();
        if let Some((agent, _)) = agents.first() {
            match self.curing(by) {
                Ok(Some(curing)) => match curing.ingoing_of(&agents, by.scale) {
                    Ok(found) => {
                        if !found.verdict.lets_pass() {
                            hindrances.push(Hindrance::Nitrite(Box::new(found.clone())));
                        }
                        ingoing = Some(found);
                    }
                    Err(error) => hindrances.push(Hindrance::Amount(error)),
                },
                Ok(None) => hindrances.push(Hindrance::WayNotSaid {
                    agent: agent.clone(),
                }),
                Err(hindrance) => hindrances.push(*hindrance),
            }
        } else if self.way().is_some() {
            hindrances.push(Hindrance::NoAgent);
        }
        hindrances.extend(
            self.store_check(by.limits, by.longest_step)
                .into_iter()
                .filter(|finding| finding.outcome == heat::Outcome::Broken)
                .map(|finding| Hindrance::ColdStore(Box::new(finding))),
        );
        (ingoing, hindrances)
    }

    /// Its curing as the record has it, held against the limits in force;
    /// `None` where no way of curing was said.
    fn curing(&self, by: &Judging<'_>) -> Result<Option<Curing>, Box<Hindrance>> {
        let Some(way) = self.way() else {
            return Ok(None);
        };
        let amounts = self.amounts(&way).map_err(Box::new)?;
        for (what, said, weighed) in [
            ("meat", by.claimed.meat, amounts.meat),
            ("pickle", by.claimed.pickle, amounts.pickle),
        ] {
            let weighed = weighed.unwrap_or(Mass::ZERO);
            if let Some(said) = said
                && (said - weighed).abs().grams() > weighed.grams() * MAY_DIFFER
            {
                return Err(Box::new(Hindrance::Contradiction {
                    what,
                    said,
                    weighed,
                }));
            }
        }
        let limit = by
            .limits
            .nitrite(way.method)
            .ok_or_else(|| Box::new(Hindrance::NoLimit(way.method)))?;
        Curing::new(way.method, amounts, &limit)
            .map(Some)
            .map_err(|error| Box::new(Hindrance::Amount(error)))
    }

    /// What the sum of a way of curing needs, out of what was weighed.
    fn amounts(&self, way: &CuringWay) -> Result<Amounts, Hindrance> {
        let meat = self.meat(way)?;
        let (mut of_meat, mut of_pickle) = (Mass::ZERO, Mass::ZERO);
        for slot in self.weighed_in() {
            if meat.contains(&slot.slot) {
                of_meat += slot.mass;
            } else if slot.ingredient.is_some_and(|it| it.agent().is_none()) {
                of_pickle += slot.mass;
            }
        }
        let some = |mass: Mass| (mass > Mass::ZERO).then_some(mass);
        Ok(Amounts {
            meat: some(of_meat),
            pickle: if way.method.asks_pickle() {
                some(of_pickle)
            } else {
                None
            },
            pick_up: way.pick_up,
            skin_on: way.skin_on,
        })
    }

    /// Which of what was weighed is the meat: what was said, else the one thing
    /// that it can be.
    fn meat(&self, way: &CuringWay) -> Result<Vec<Slot>, Hindrance> {
        if !way.meat.is_empty() {
            return Ok(way.meat.clone());
        }
        let unlisted = self.unlisted();
        let heaviest = unlisted.iter().map(|slot| slot.mass).max();
        let candidates: Vec<&WeighedIn> = unlisted
            .iter()
            .filter(|slot| {
                heaviest.is_some_and(|most| slot.mass.grams() > most.grams() * COULD_CURE.1)
            })
            .collect();
        match candidates.as_slice() {
            [] | [_] => Ok(candidates.iter().map(|slot| slot.slot).collect()),
            several => Err(Hindrance::WhichIsMeat(
                several
                    .iter()
                    .map(|slot| (slot.slot.0, slot.name()))
                    .collect(),
            )),
        }
    }

    /// Plain things that are not known to be harmless.
    fn unlisted(&self) -> Vec<WeighedIn> {
        self.weighed_in()
            .into_iter()
            .filter(|slot| {
                slot.mass > Mass::ZERO
                    && slot
                        .ingredient
                        .as_ref()
                        .is_some_and(|it| it.agent().is_none() && !is_known_harmless(it.name()))
            })
            .collect()
    }

    fn nameless(&self) -> Option<Hindrance> {
        self.weighed_in()
            .iter()
            .find(|slot| slot.ingredient.is_none() && slot.mass > Mass::ZERO)
            .map(|slot| Hindrance::Nameless(slot.slot.0))
    }

    /// What is to be asked before it can be ready: what has no name, and what
    /// could be a curing agent.
    fn asked(&self) -> Vec<Hindrance> {
        let mut asked: Vec<Hindrance> = self.nameless().into_iter().collect();
        let unlisted = self.unlisted();
        let said = self.way().map(|way| way.meat).unwrap_or_default();
        let meat: Mass = if said.is_empty() {
            unlisted
                .iter()
                .map(|slot| slot.mass)
                .max()
                .unwrap_or(Mass::ZERO)
        } else {
            unlisted
                .iter()
                .filter(|slot| said.contains(&slot.slot))
                .map(|slot| slot.mass)
                .sum()
        };
        for slot in unlisted {
            let share = slot.mass.grams() / meat.grams();
            let (slot, name) = (slot.slot, slot.name());
            if plain_name(&name).is_err() {
                asked.push(Hindrance::CalledCuring { slot: slot.0, name });
            } else if (COULD_CURE.0..=COULD_CURE.1).contains(&share)
                && !said.contains(&slot)
                && !self.is_vouched(slot)
            {
                asked.push(Hindrance::Unknown {
                    slot: slot.0,
                    name,
                    percent: share * 100.0,
                });
            }
        }
        asked
    }

    /// Whether somebody read its packet, since it got its name.
    fn is_vouched(&self, which: Slot) -> bool {
        let mut vouched = false;
        for entry in self.standing() {
            match &entry.what {
                What::Vouched { slot, .. } if *slot == which => vouched = true,
                What::Named { slot, .. } if *slot == which => vouched = false,
                _ => {}
            }
        }
        vouched
    }

    /// How it is cured, where that was said.
    #[must_use]
    pub fn way(&self) -> Option<CuringWay> {
        self.standing().rev().find_map(|entry| match &entry.what {
            What::CuredBy { way, .. } => Some(way.clone()),
            _ => None,
        })
    }

    /// The ratio it is being mixed to, where it was neither marked ready nor
    /// put aside since, and did not come out.
    #[must_use]
    pub fn under_way(&self) -> Option<&Aim> {
        self.standing()
            .rev()
            .find_map(|entry| match &entry.what {
                What::Aimed { aim } => Some(Some(aim)),
                What::AsYouGo { .. } => Some(None),
                what if ends(what) => Some(None),
                _ => None,
            })
            .flatten()
    }

    /// The vessel that it is being weighed in without a ratio, where it was
    /// neither marked ready nor put aside since, and did not come out.
    #[must_use]
    pub fn as_you_go(&self) -> Option<Mass> {
        self.standing()
            .rev()
            .find_map(|entry| match &entry.what {
                What::AsYouGo { vessel } => Some(Some(*vessel)),
                What::Aimed { .. } => Some(None),
                what if ends(what) => Some(None),
                _ => None,
            })
            .flatten()
    }

    /// When something was weighed in last.
    #[must_use]
    pub fn last_weighed(&self) -> Option<Timestamp> {
        self.standing().rev().find_map(|entry| match entry.what {
            What::Weighed { .. } => Some(entry.at),
            _ => None,
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

    /// The curing agents in it, and how much of each.
    #[must_use]
    pub fn agents(&self) -> Vec<(CuringAgent, Mass)> {
        self.weighed_in()
            .into_iter()
            .filter(|slot| slot.mass > Mass::ZERO)
            .filter_map(|slot| Some((slot.ingredient?.agent()?.clone(), slot.mass)))
            .collect()
    }

    /// The ratio of what was weighed, to mix it again: "as last time".
    ///
    /// # Errors
    /// Something without a name, or fewer than two things.
    pub fn as_formula(&self) -> Result<Formula, RatioError> {
        let weighed = self
            .weighed_in()
            .into_iter()
            .filter(|slot| slot.mass > Mass::ZERO)
            .map(|there| {
                there
                    .ingredient
                    .map(|ingredient| (ingredient, there.mass))
                    .ok_or(RatioError::Nameless(there.slot.0))
            })
            .collect::<Result<Vec<_>, _>>()?;
        Formula::of_weighed(merged(weighed))
    }

    /// The dough that it is, as it was mixed and measured last.
    #[must_use]
    pub fn dough(&self) -> Option<MixedDough> {
        self.standing().rev().find_map(|entry| match &entry.what {
            What::DoughMixed { dough } => Some(*dough),
            _ => None,
        })
    }

    /// What lies in a bath, and since when: what went in last.
    #[must_use]
    pub fn in_bath(&self) -> Option<(&IntoBath, Timestamp)> {
        self.standing().rev().find_map(|entry| match &entry.what {
            What::IntoBath { into } => Some((into.as_ref(), entry.at)),
            _ => None,
        })
    }

    /// What went into a bath last and came out of it again.
    #[must_use]
    pub fn soak(&self) -> Option<Soak> {
        let (into, since) = self.in_bath()?;
        let (out, at) = self.standing().rev().find_map(|entry| match &entry.what {
            What::OutOfBath { out } => Some((out.clone(), entry.at)),
            _ => None,
        })?;
        Soak::new(into.clone(), out, at.duration_since(since)).ok()
    }

    /// The plan in force.
    #[must_use]
    pub fn plan(&self) -> Option<Schedule> {
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
        let (mut log, _) = self.store_log(longest_step);
        log.doubted_by(limits.probe());
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

    /// Whether it is marked ready as it stands: nothing was weighed in, named
    /// or struck out since, and it is cured as it was. Taking some of it out
    /// leaves the rest as it is.
    #[must_use]
    pub fn is_ready(&self) -> bool {
        let mut ready = false;
        for entry in self.standing() {
            match entry.what {
                What::Ready { .. } => ready = true,
                // Also a strike: what it struck may have been weighed.
                What::Weighed { .. }
                | What::Named { .. }
                | What::CuredBy { .. }
                | What::Struck { .. } => ready = false,
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
