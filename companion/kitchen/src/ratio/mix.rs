//! Mixing a ratio on the scale.

use super::{Formula, Ingredient, Part, ScaleError};
use crate::brine::{above_zero, not_negative};
use crate::cure::{
    Amounts, Curing, CuringAgent, Ingoing, Method, NitriteFraction, NitriteLimit, PickUp, TooSmall,
    weighable,
};
use crate::units::InputError;
use evenhand_protocol::{Mass, Verdict};

/// How close an ingredient must come to its target: a share of the target,
/// but never finer than the scale's own step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closeness {
    /// Per cent of the target to either side; zero or more.
    percent: f64,
    /// The least that the scale tells apart; zero or more.
    step: Mass,
    /// How well it weighs a dose.
    scale: ScaleError,
}

impl Closeness {
    /// So many per cent of each target, on a scale of an expanded uncertainty
    /// (coverage factor 2) that tells no less apart.
    ///
    /// # Errors
    /// A per cent below zero or above 50, a negative uncertainty.
    pub fn new(percent: f64, scale: Mass) -> Result<Self, InputError> {
        not_negative("scale uncertainty", scale)?;
        Self::on_scale(percent, scale, ScaleError::Within(scale))
    }

    /// So many per cent of each target, on a scale that tells `step` apart. How
    /// finely it shows a change and how far it may be out are two things: the
    /// first decides when a target is met, the second whether a dose of a
    /// curing agent can be weighed.
    ///
    /// # Errors
    /// A per cent below zero or above 50, a negative step.
    pub fn on_scale(percent: f64, step: Mass, scale: ScaleError) -> Result<Self, InputError> {
        if !(0.0..=50.0).contains(&percent) {
            return Err(InputError::new(
                "closeness",
                &percent.to_string(),
                problem!("no-share-of-target"),
                expected!("none-to-half"),
            ));
        }
        not_negative("scale step", step)?;
        Ok(Self {
            percent,
            step,
            scale,
        })
    }

    /// How far from a target is still on it.
    fn of(self, target: Mass) -> Mass {
        let share =
            Mass::from_fractional_grams(target.grams() * self.percent / 100.0).unwrap_or(Mass::MAX);
        // No kitchen scale tells a milligram, and rounding to a microgram must not make work.
        share.max(self.step).max(Mass::from_milligrams(1))
    }
}

/// What a curing agent in the mix is held against.
#[derive(Debug, Clone, PartialEq)]
pub struct CureGuard {
    /// The way of curing.
    pub method: Method,
    /// Which items are meat.
    pub meat: Vec<usize>,
    /// Which items, the agent left out, are the pickle.
    pub pickle: Vec<usize>,
    /// The share of the pickle the meat takes up, where the method asks.
    pub pick_up: Option<PickUp>,
    /// Whether it is bacon with the skin on.
    pub skin_on: bool,
    /// The limit in force for that way.
    pub limit: NitriteLimit,
}

/// Why a step of a mix was refused; the mix is as it was.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MixError {
    /// There is no such item.
    #[error("item {0}: there is no such ingredient in this mix")]
    NoSuchItem(usize),
    /// Something curing in a mix that nothing guards.
    #[error(
        "{0} is a curing agent: say how the meat is cured, and what of the mix is meat and pickle"
    )]
    Unguarded(CuringAgent),
    /// A guard for a mix without a curing agent, or that names a wrong item.
    #[error("the way of curing names {0}")]
    WrongGuard(&'static str),
    /// The label was not read again.
    #[error("confirm first: read the nitrite fraction from the label of {0}")]
    NotConfirmed(CuringAgent),
    /// What was read is not what was entered.
    #[error(
        "the label says {read}, the mix was worked out for {expected}; nothing is to be weighed"
    )]
    OtherLabel {
        /// What was read now.
        read: NitriteFraction,
        /// What was entered before.
        expected: NitriteFraction,
    },
    /// How much of a curing agent is not known yet.
    #[error("set or weigh the others first: how much {0} depends on them")]
    TargetUnknown(String),
    /// The scale cannot weigh so little of a curing agent.
    #[error(transparent)]
    TooSmall(Box<TooSmall>),
    /// Nothing is being poured.
    #[error("choose an ingredient first")]
    NothingChosen,
    /// The reading did not settle.
    #[error("the scale has not settled since the ingredient was chosen")]
    NotSettled,
    /// More was taken out than is in.
    #[error("{taken} g of {name} was taken out where only {there} g is in")]
    NotThere {
        /// Which ingredient, or the whole mix.
        name: String,
        /// How much was taken, in grams.
        taken: f64,
        /// How much is in, in grams.
        there: f64,
    },
    /// A curing agent was taken back out.
    #[error("{0} cannot be taken back out of a mix")]
    CannotTakeBack(String),
    /// An amount that makes no sense.
    #[error(transparent)]
    Input(#[from] InputError),
}

/// Something the cook is to know about the mix as it stands.
#[derive(Debug, Clone, PartialEq)]
pub enum Notice {
    /// More than its target went in, so all the others go up.
    Grown {
        /// Which item.
        item: usize,
        /// Its name.
        name: String,
        /// What it all comes to now.
        total: Mass,
    },
    /// It comes to more than the vessel or the scale takes.
    NoRoom {
        /// What it comes to.
        total: Mass,
        /// What there is room for.
        room: Mass,
    },
    /// There is not enough of an ingredient for that.
    NotEnough {
        /// Which item.
        item: usize,
        /// Its name.
        name: String,
        /// How much it takes.
        needed: Mass,
        /// How much there is.
        available: Mass,
    },
    /// A curing agent is over its target and stays so; what the others would
    /// have to come to is in their targets.
    CannotBeUndone {
        /// Which item.
        item: usize,
        /// Its name.
        name: String,
        /// How far over.
        over_by: Mass,
    },
    /// The curing agent against its limit, with what is there to be had.
    Nitrite(Box<Ingoing>),
}

impl core::fmt::Display for Notice {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Grown { name, total, .. } => write!(
                f,
                "{name} went over; with the others to match it makes {:.1} g in all",
                total.grams()
            ),
            Self::NoRoom { total, room } => write!(
                f,
                "it comes to {:.1} g, there is room for {:.1} g: take some of the mix out, or use a larger vessel",
                total.grams(),
                room.grams()
            ),
            Self::NotEnough {
                name,
                needed,
                available,
                ..
            } => write!(
                f,
                "it takes {:.1} g of {name}, there is {:.1} g",
                needed.grams(),
                available.grams()
            ),
            Self::CannotBeUndone { name, over_by, .. } => write!(
                f,
                "{name} is {:.2} g over and cannot be taken back out",
                over_by.grams()
            ),
            Self::Nitrite(ingoing) => ingoing.fmt(f),
        }
    }
}

/// Why a mix is not done.
#[derive(Debug, Clone, PartialEq)]
pub enum NotReady {
    /// An item is short of its target, or its target is not known.
    Short {
        /// Which item.
        item: usize,
        /// Its name.
        name: String,
        /// How much is missing, where that is known.
        missing: Option<Mass>,
    },
    /// Something that stands in the way.
    Notice(Notice),
}

impl core::fmt::Display for NotReady {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Short {
                name,
                missing: Some(missing),
                ..
            } => write!(f, "{:.1} g of {name} to go", missing.grams()),
            Self::Short { name, .. } => write!(f, "{name} is still to come"),
            Self::Notice(notice) => notice.fmt(f),
        }
    }
}

/// The live approach to a target.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Approach {
    /// The vessel is not on the scale, as it weighs less than is in it.
    VesselOff,
    /// Something is being poured.
    Pouring {
        /// Which item.
        item: usize,
        /// How much of it is in, this pour included.
        so_far: Mass,
        /// How much it should be, where that is known.
        target: Option<Mass>,
        /// Short, on or over, where the target is known.
        verdict: Option<Verdict>,
        /// What the mix comes to in all if the cook stops here, where that is
        /// known.
        total_if_left: Option<Mass>,
    },
}

/// A mix under way: a formula and what was weighed of it so far.
///
/// What an item should be follows from whatever is the most of what was set
/// and what was poured, each by its part; so an item poured over its target
/// brings all the others up, in any order, and pouring the same thing twice
/// is the same as pouring it once.
#[derive(Debug, Clone, PartialEq)]
pub struct Mix {
    formula: Formula,
    closeness: Closeness,
    poured: Vec<Mass>,
    set: Vec<Option<Mass>>,
    available: Vec<Option<Mass>>,
    room: Option<Mass>,
    guard: Option<CureGuard>,
    confirmed: bool,
    pouring: Option<Pouring>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Pouring {
    item: usize,
    /// The scale's reading when it was chosen.
    from: Mass,
    /// The last reading that had settled.
    settled: Option<Mass>,
}

impl Mix {
    /// A mix of a formula, nothing weighed yet. A formula with a curing agent
    /// needs a guard.
    ///
    /// # Errors
    /// A curing agent without a guard, more than one curing agent, a guard
    /// without a curing agent or that names items that are not there.
    pub fn new(
        formula: Formula,
        closeness: Closeness,
        guard: Option<CureGuard>,
    ) -> Result<Self, MixError> {
        let count = formula.items().len();
        let agents: Vec<&CuringAgent> = formula
            .items()
            .iter()
            .filter_map(|item| item.ingredient().agent())
            .collect();
        match (&guard, agents.as_slice()) {
            (None, []) => {}
            (None, [agent, ..]) => return Err(MixError::Unguarded((*agent).clone())),
            (Some(_), []) => return Err(MixError::WrongGuard("a mix that has no curing agent")),
            (Some(guard), [_]) => {
                let is_plain = |&item: &usize| {
                    formula
                        .items()
                        .get(item)
                        .is_some_and(|item| item.ingredient().agent().is_none())
                };
                if !guard.meat.iter().chain(&guard.pickle).all(is_plain) {
                    return Err(MixError::WrongGuard(
                        "as meat or pickle something that is not there or is the agent itself",
                    ));
                }
            }
            (Some(_), _) => return Err(MixError::WrongGuard("a mix that has two curing agents")),
        }
        Ok(Self {
            poured: vec![Mass::ZERO; count],
            set: vec![None; count],
            available: vec![None; count],
            room: None,
            guard,
            confirmed: false,
            pouring: None,
            formula,
            closeness,
        })
    }

    /// The formula.
    #[must_use]
    pub const fn formula(&self) -> &Formula {
        &self.formula
    }

    fn name(&self, item: usize) -> String {
        self.formula.items()[item].ingredient().name().to_owned()
    }

    fn known(&self, item: usize) -> Result<(), MixError> {
        if item < self.poured.len() {
            Ok(())
        } else {
            Err(MixError::NoSuchItem(item))
        }
    }

    /// Sets how much of one ingredient there is to be; the others follow. In
    /// a ratio with a size of its own the last one set counts; of what is
    /// free, each keeps its own.
    ///
    /// # Errors
    /// No such item, an amount of nothing or less.
    pub fn set_amount(&mut self, item: usize, amount: Mass) -> Result<(), MixError> {
        self.known(item)?;
        above_zero(&self.name(item), amount)?;
        if !matches!(self.formula.items()[item].part(), Part::Free) {
            for (set, other) in self.set.iter_mut().zip(self.formula.items()) {
                if !matches!(other.part(), Part::Free) {
                    *set = None;
                }
            }
        }
        self.set[item] = Some(amount);
        Ok(())
    }

    /// How much there is to be of an ingredient, where that was set.
    #[must_use]
    pub fn amount_set(&self, item: usize) -> Option<Mass> {
        self.set.get(item).copied().flatten()
    }

    /// Sets the most there is to be had of an ingredient; `None` lifts it.
    ///
    /// # Errors
    /// No such item, a negative amount.
    pub fn set_available(&mut self, item: usize, most: Option<Mass>) -> Result<(), MixError> {
        self.known(item)?;
        if let Some(most) = most {
            not_negative(&self.name(item), most)?;
        }
        self.available[item] = most;
        Ok(())
    }

    /// Sets the most that the vessel or the scale takes; `None` lifts it.
    ///
    /// # Errors
    /// Room for nothing or less.
    pub fn set_room(&mut self, room: Option<Mass>) -> Result<(), MixError> {
        if let Some(room) = room {
            above_zero("room", room)?;
        }
        self.room = room;
        Ok(())
    }

    /// How it is cured, where there is a curing agent in it.
    #[must_use]
    pub const fn guard(&self) -> Option<&CureGuard> {
        self.guard.as_ref()
    }

    /// The nitrite fraction of the curing agent as read from the packet in the
    /// hand, now.
    ///
    /// # Errors
    /// A mix without a curing agent; another fraction than it was worked out
    /// for.
    pub fn confirm_label(&mut self, read: NitriteFraction) -> Result<(), MixError> {
        let expected = self
            .formula
            .items()
            .iter()
            .find_map(|item| item.ingredient().agent())
            .ok_or(MixError::WrongGuard("a mix that has no curing agent"))?
            .nitrite();
        self.confirmed = (read.parts() - expected.parts()).abs() < 1e-9;
        if self.confirmed {
            Ok(())
        } else {
            Err(MixError::OtherLabel { read, expected })
        }
    }

    /// What was weighed of an item so far; nothing where there is none.
    #[must_use]
    pub fn poured(&self, item: usize) -> Mass {
        self.poured.get(item).copied().unwrap_or(Mass::ZERO)
    }

    /// All that was weighed so far.
    #[must_use]
    pub fn in_the_vessel(&self) -> Mass {
        self.poured.iter().copied().sum()
    }

    /// What an item should come to, where that is known.
    #[must_use]
    pub fn target(&self, item: usize) -> Option<Mass> {
        self.targets(&self.poured).get(item).copied().flatten()
    }

    /// What it comes to in all, where that is known.
    #[must_use]
    pub fn total(&self) -> Option<Mass> {
        total_of(&self.targets(&self.poured))
    }

    /// What each item must come to, in the smallest mix in which nothing that
    /// was poured is over: what is more than asked, but near enough to count as
    /// on, opens nothing again that was done. Else a scale that cannot tell a
    /// pinch of something would have kilograms of the rest put right by it.
    fn wanted(&self) -> Vec<Option<Mass>> {
        let sizes_by_itself = |item: &usize| {
            !matches!(self.formula.items()[*item].part(), Part::Free)
                && self.poured[*item] > Mass::ZERO
        };
        // As what is free asks for it, then as each of the others alone does.
        let by_one = std::iter::once(None)
            .chain((0..self.poured.len()).filter(sizes_by_itself).map(Some))
            .filter_map(|only| {
                let alone: Vec<Mass> = (0..self.poured.len())
                    .map(|item| {
                        if only == Some(item) || !sizes_by_itself(&item) {
                            self.poured[item]
                        } else {
                            Mass::ZERO
                        }
                    })
                    .collect();
                let targets = self.targets(&alone);
                Some((total_of(&targets)?, targets))
            })
            .filter(|(_, targets)| {
                targets.iter().zip(&self.poured).all(|(target, poured)| {
                    target.is_some_and(|target| *poured <= target + self.closeness.of(target))
                })
            })
            .min_by_key(|(total, _)| *total);
        by_one.map_or_else(|| self.targets(&self.poured), |(_, targets)| targets)
    }

    /// What each item should come to with so much poured.
    fn targets(&self, poured: &[Mass]) -> Vec<Option<Mass>> {
        let items = self.formula.items();
        // What is certain of an item is the most of what was set and poured.
        let certain = |index: usize| -> Option<f64> {
            let set = self.set[index].map(Mass::grams);
            let there = (poured[index] > Mass::ZERO).then(|| poured[index].grams());
            match (set, there) {
                (Some(set), Some(there)) => Some(set.max(there)),
                (one, other) => one.or(other),
            }
        };
        let most = |sizes: &mut dyn Iterator<Item = f64>| sizes.reduce(f64::max);

        // The size of one part, for items with parts.
        let one_part =
            most(
                &mut items
                    .iter()
                    .enumerate()
                    .filter_map(|(index, item)| match item.part() {
                        Part::Parts(parts) => certain(index).map(|mass| mass / parts),
                        _ => None,
                    }),
            );
        // Everything free together, as the others' amounts ask for it and as it is.
        let asked = most(&mut items.iter().enumerate().filter_map(
            |(index, item)| match item.part() {
                Part::OfFree(percent) => certain(index).map(|mass| mass / percent * 100.0),
                _ => None,
            },
        ));
        let free: Vec<usize> = (0..items.len())
            .filter(|&index| matches!(items[index].part(), Part::Free))
            .collect();
        let mut free_masses: Vec<Option<f64>> = free.iter().map(|&index| certain(index)).collect();
        if let (Some(asked), Some((last, others))) = (asked, free_masses.split_last_mut()) {
            // The last of what is free makes up the difference, once the rest is known.
            let sum: Option<f64> = others.iter().copied().sum();
            if let Some(sum) = sum {
                let least = (asked - sum).max(0.0);
                *last = Some(last.map_or(least, |there| there.max(least)));
            }
        }
        let all_free: Option<f64> = free_masses.iter().copied().sum();

        items
            .iter()
            .enumerate()
            .map(|(index, item)| {
                let grams = match item.part() {
                    Part::Parts(parts) => one_part? * parts,
                    Part::Free => free_masses[free.iter().position(|&free| free == index)?]?,
                    Part::OfFree(percent) => all_free? * percent / 100.0,
                };
                let target = Mass::from_fractional_grams(grams)?;
                // Rounding may leave it a microgram short of what is there.
                Some(target.max(poured[index]))
            })
            .collect()
    }

    /// Chooses what to pour next, with the scale's reading now; what was being
    /// poured before is taken over as it last settled. No tare is needed: the
    /// reading now is where the pour starts, whatever stands on the scale.
    ///
    /// # Errors
    /// No such item; a curing agent that was not confirmed by its label, whose
    /// amount is not known, or that the scale cannot weigh well enough.
    pub fn choose(&mut self, item: usize, reading: Mass) -> Result<(), MixError> {
        self.known(item)?;
        let mut after = self.clone();
        match after.move_on() {
            Ok(_) | Err(MixError::NothingChosen | MixError::NotSettled) => {}
            Err(error) => return Err(error),
        }
        after.may_pour(item)?;
        after.pouring = Some(Pouring {
            item,
            from: reading,
            settled: None,
        });
        *self = after;
        Ok(())
    }

    fn may_pour(&self, item: usize) -> Result<(), MixError> {
        let ingredient = self.formula.items()[item].ingredient();
        let Some(agent) = ingredient.agent() else {
            return Ok(());
        };
        if !self.confirmed {
            return Err(MixError::NotConfirmed(agent.clone()));
        }
        let target = self
            .target(item)
            .ok_or_else(|| MixError::TargetUnknown(ingredient.name().to_owned()))?;
        let dose = target - self.poured(item);
        if dose > Mass::ZERO {
            weighable(target, self.closeness.scale.at(target))?
                .map_err(|too_small| MixError::TooSmall(Box::new(too_small)))?;
        }
        Ok(())
    }

    /// Takes in a reading of the scale, and says how far the pour is.
    ///
    /// # Errors
    /// Nothing chosen.
    pub fn observe(&mut self, reading: Mass, settled: bool) -> Result<Approach, MixError> {
        let Some(mut pouring) = self.pouring else {
            return Err(MixError::NothingChosen);
        };
        let live = reading - pouring.from;
        let item = pouring.item;
        // Less than what was there of this ingredient: it is the vessel that is gone, not the food.
        if self.poured[item] + live < -self.closeness.of(self.poured[item]) {
            return Ok(Approach::VesselOff);
        }
        if settled {
            pouring.settled = Some(reading);
            self.pouring = Some(pouring);
        }
        let so_far = (self.poured[item] + live).max(Mass::ZERO);
        // The target without this pour: it is what this pour is held against.
        let target = self.target(item).filter(|_| self.is_asked_of(item));
        let verdict = target.map(|target| {
            let close = self.closeness.of(target);
            if so_far < target - close {
                Verdict::Short
            } else if so_far > target + close {
                Verdict::Heavy
            } else {
                Verdict::On
            }
        });
        let mut poured = self.poured.clone();
        poured[item] = so_far;
        Ok(Approach::Pouring {
            item,
            so_far,
            target,
            verdict,
            total_if_left: total_of(&self.targets(&poured)),
        })
    }

    /// Whether anything besides the item's own pours says how much of it there
    /// should be.
    fn is_asked_of(&self, item: usize) -> bool {
        let mut without = self.poured.clone();
        without[item] = Mass::ZERO;
        self.targets(&without)[item].is_some()
    }

    /// Takes over what was poured as it last settled, and says which item is
    /// the next short of its target, if any.
    ///
    /// # Errors
    /// Nothing chosen, a reading that never settled; more taken out than was
    /// in.
    pub fn move_on(&mut self) -> Result<Option<usize>, MixError> {
        let pouring = self.pouring.ok_or(MixError::NothingChosen)?;
        let settled = pouring.settled.ok_or(MixError::NotSettled)?;
        self.pour(pouring.item, settled - pouring.from)?;
        self.pouring = None;
        Ok(self.next())
    }

    /// Forgets what is being poured without taking any of it over.
    pub fn leave_off(&mut self) {
        self.pouring = None;
    }

    /// Takes over a weighing of an item; less than nothing where some of it
    /// was taken back out.
    ///
    /// # Errors
    /// No such item; more taken out than was in; any of a curing agent taken
    /// out, or poured before its label was confirmed.
    pub fn pour(&mut self, item: usize, mass: Mass) -> Result<(), MixError> {
        self.known(item)?;
        let ingredient = self.formula.items()[item].ingredient();
        if let Some(agent) = ingredient.agent() {
            if !self.confirmed {
                return Err(MixError::NotConfirmed(agent.clone()));
            }
            // A tremble of the scale around nothing is not taking back.
            if mass < -self.closeness.step {
                return Err(MixError::CannotTakeBack(ingredient.name().to_owned()));
            }
        }
        let sum = self.poured[item] + mass;
        if sum < -self.closeness.of(self.poured[item]) {
            return Err(MixError::NotThere {
                name: self.name(item),
                taken: -mass.grams(),
                there: self.poured[item].grams(),
            });
        }
        self.poured[item] = sum.max(Mass::ZERO);
        Ok(())
    }

    /// Takes a weighing over from the record, whatever it is of.
    ///
    /// # Errors
    /// No such item; more taken out than was in.
    pub(crate) fn on_record(&mut self, item: usize, mass: Mass) -> Result<(), MixError> {
        self.known(item)?;
        let sum = self.poured[item] + mass;
        if sum.is_negative() {
            return Err(MixError::NotThere {
                name: self.name(item),
                taken: -mass.grams(),
                there: self.poured[item].grams(),
            });
        }
        self.poured[item] = sum;
        Ok(())
    }

    /// Some of the whole mix was taken out, stirred well: each ingredient, and
    /// each amount that was set, goes down by the same share.
    ///
    /// # Errors
    /// A negative amount, or more than is in.
    pub fn take_out(&mut self, mixed: Mass) -> Result<(), MixError> {
        not_negative("taken out", mixed)?;
        let there = self.in_the_vessel();
        if mixed > there {
            return Err(MixError::NotThere {
                name: "the mix".to_owned(),
                taken: mixed.grams(),
                there: there.grams(),
            });
        }
        if there == Mass::ZERO {
            return Ok(());
        }
        let left = |mass: Mass| {
            mass.fraction((there - mixed).micrograms(), there.micrograms())
                .unwrap_or(Mass::ZERO)
        };
        for mass in &mut self.poured {
            *mass = left(*mass);
        }
        for set in &mut self.set {
            *set = set.map(left).filter(|set| *set > Mass::ZERO);
        }
        Ok(())
    }

    /// The first item that is short of its target, or whose target is not
    /// known.
    #[must_use]
    pub fn next(&self) -> Option<usize> {
        (0..self.poured.len()).find(|&item| self.is_short(item))
    }

    /// Whether more of an item must go in, or its target is not known: what was
    /// poured of another, but counts as on, asks for no more of this one.
    #[must_use]
    pub fn is_short(&self, item: usize) -> bool {
        match self.wanted()[item] {
            Some(target) => self.poured[item] < target - self.closeness.of(target),
            None => true,
        }
    }

    /// What the cook is to know about the mix as it stands.
    #[must_use]
    pub fn notices(&self) -> Vec<Notice> {
        let mut notices = Vec::new();
        let targets = self.targets(&self.poured);
        let total = total_of(&targets);
        for item in 0..self.poured.len() {
            let mut without = self.poured.clone();
            without[item] = Mass::ZERO;
            let Some(asked) = self.targets(&without)[item] else {
                continue;
            };
            let over_by = self.poured[item] - asked;
            if over_by <= self.closeness.of(asked) {
                continue;
            }
            if self.formula.items()[item].ingredient().agent().is_some() {
                notices.push(Notice::CannotBeUndone {
                    item,
                    name: self.name(item),
                    over_by,
                });
            }
            if let Some(total) = total {
                notices.push(Notice::Grown {
                    item,
                    name: self.name(item),
                    total,
                });
            }
        }
        for (item, available) in self.available.iter().enumerate() {
            if let (Some(needed), Some(available)) = (targets[item], *available)
                && needed > available + self.closeness.of(needed)
            {
                notices.push(Notice::NotEnough {
                    item,
                    name: self.name(item),
                    needed,
                    available,
                });
            }
        }
        if let (Some(total), Some(room)) = (total, self.room)
            && total > room
        {
            notices.push(Notice::NoRoom { total, room });
        }
        if let Some(ingoing) = self.ingoing() {
            notices.push(Notice::Nitrite(Box::new(ingoing)));
        }
        notices
    }

    /// Ingoing nitrite with the agent as poured, and the rest as it will be:
    /// by its target, but never more than there is to be had. `None` where no
    /// agent was poured, or there is not yet enough to reckon with.
    #[must_use]
    pub fn ingoing(&self) -> Option<Ingoing> {
        let guard = self.guard.as_ref()?;
        let targets = self.targets(&self.poured);
        let (index, agent) = self
            .formula
            .items()
            .iter()
            .enumerate()
            .find_map(|(index, item)| Some((index, item.ingredient().agent()?)))?;
        if self.poured[index] == Mass::ZERO {
            return None;
        }
        let there = |items: &[usize]| -> Option<Mass> {
            let masses: Option<Vec<Mass>> = items
                .iter()
                .map(|&item| {
                    let target = targets[item]?;
                    let most = self.available[item].unwrap_or(target);
                    Some(target.min(most).max(self.poured[item]))
                })
                .collect();
            masses
                .map(|masses| masses.into_iter().sum())
                .filter(|sum| *sum > Mass::ZERO)
        };
        let amounts = Amounts {
            meat: there(&guard.meat),
            pickle: there(&guard.pickle),
            pick_up: guard.pick_up,
            skin_on: guard.skin_on,
        };
        let curing = Curing::new(guard.method, amounts, &guard.limit).ok()?;
        let poured = self.poured[index];
        let within = self.closeness.scale.at(poured);
        curing.ingoing(agent, poured, within).ok()
    }

    /// Whether the mix is done: every item on its target, room for it all, and
    /// the curing agent within its limit.
    ///
    /// # Errors
    /// Every reason why not.
    pub fn ready(&self) -> Result<(), Vec<NotReady>> {
        let mut reasons: Vec<NotReady> = (0..self.poured.len())
            .filter(|&item| self.is_short(item))
            .map(|item| NotReady::Short {
                item,
                name: self.name(item),
                missing: self.target(item).map(|target| target - self.poured[item]),
            })
            .collect();
        reasons.extend(
            self.notices()
                .into_iter()
                .filter(|notice| match notice {
                    Notice::Grown { .. } => false,
                    // Over its target but brought right by more of the others is told, and does not stop it.
                    Notice::CannotBeUndone { .. } => false,
                    Notice::NoRoom { .. } | Notice::NotEnough { .. } => true,
                    Notice::Nitrite(ingoing) => !ingoing.verdict.lets_pass(),
                })
                .map(NotReady::Notice),
        );
        let agent_in = self
            .formula
            .items()
            .iter()
            .zip(&self.poured)
            .any(|(item, poured)| item.ingredient().agent().is_some() && *poured > Mass::ZERO);
        if agent_in && self.ingoing().is_none() && reasons.is_empty() {
            // Nothing to reckon the agent with is never a reason to pass.
            reasons.extend(
                (0..self.poured.len())
                    .filter(|&item| self.formula.items()[item].ingredient().agent().is_some())
                    .map(|item| NotReady::Short {
                        item,
                        name: self.name(item),
                        missing: None,
                    }),
            );
        }
        if reasons.is_empty() {
            Ok(())
        } else {
            Err(reasons)
        }
    }

    /// What was weighed, as it would go on record; items of which nothing was
    /// weighed are left out.
    #[must_use]
    pub fn weighed(&self) -> Vec<(Ingredient, Mass)> {
        self.formula
            .items()
            .iter()
            .zip(&self.poured)
            .filter(|(_, mass)| **mass > Mass::ZERO)
            .map(|(item, mass)| (item.ingredient().clone(), *mass))
            .collect()
    }
}

fn total_of(targets: &[Option<Mass>]) -> Option<Mass> {
    targets
        .iter()
        .try_fold(Mass::ZERO, |sum, target| target.map(|target| sum + target))
}
