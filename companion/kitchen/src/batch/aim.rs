//! What a batch is being mixed to, on record from its first weighing on, so
//! that it can be gone on with after the program was stopped.

use super::{Batch, NamedAs, Slot, What};
use crate::cure::{Method, PickUp};
use crate::limits::Limits;
use crate::ratio::{Closeness, CureGuard, Form, Formula, Ingredient, Mix, MixError, Part};
use crate::units::InputError;
use evenhand_protocol::Mass;

/// The ratio of a mix under way, and what it is weighed in. Its nth ingredient
/// is weighed under the batch's slot n.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Aim {
    form: Form,
    items: Vec<Item>,
    closeness_percent: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    cure: Option<Cure>,
    #[serde(rename = "vessel_micrograms")]
    vessel: Mass,
    #[serde(
        rename = "vessel_takes_micrograms",
        default,
        skip_serializing_if = "Option::is_none"
    )]
    vessel_takes: Option<Mass>,
}

#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
struct Item {
    ingredient: NamedAs,
    part: Part,
    /// How much of it was set, before any of the mix was taken out.
    #[serde(
        rename = "set_micrograms",
        default,
        skip_serializing_if = "Option::is_none"
    )]
    set: Option<Mass>,
}

/// How it is cured. The limit is not on record: the one in force when it is
/// gone on with counts.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
struct Cure {
    method: Method,
    meat: Vec<usize>,
    pickle: Vec<usize>,
    #[serde(
        rename = "pick_up_percent",
        default,
        skip_serializing_if = "Option::is_none"
    )]
    pick_up: Option<PickUp>,
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    skin_on: bool,
}

/// Why a mix on record cannot be gone on with.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AimError {
    /// Something else was weighed into it meanwhile.
    #[error("item {0} was weighed into it and is not in its ratio: put it aside and begin again")]
    SomethingElse(u32),
    /// Something in it is on record under another name meanwhile.
    #[error(
        "item {slot} is on record as {now} and stands in its ratio as {aimed}: put it aside and begin again"
    )]
    Renamed {
        /// Which.
        slot: u32,
        /// What it is on record as.
        now: Ingredient,
        /// What the ratio has.
        aimed: Ingredient,
    },
    /// No limit is in force for this way of curing.
    #[error("no limit is in force for {0}")]
    NoLimit(Method),
    /// The ratio on record makes no sense.
    #[error(transparent)]
    Input(#[from] InputError),
    /// The mix refused it.
    #[error(transparent)]
    Mix(#[from] MixError),
}

impl Aim {
    /// What `mix` is being mixed to before anything is in it: each target
    /// within so many per cent, in a vessel of that weight that holds at most
    /// so much.
    #[must_use]
    pub fn of(mix: &Mix, closeness_percent: f64, vessel: Mass, vessel_takes: Option<Mass>) -> Self {
        Self {
            form: mix.formula().form(),
            items: mix
                .formula()
                .items()
                .iter()
                .enumerate()
                .map(|(item, line)| Item {
                    ingredient: NamedAs(line.ingredient().clone()),
                    part: line.part(),
                    set: mix.amount_set(item),
                })
                .collect(),
            closeness_percent,
            cure: mix.guard().map(|guard| Cure {
                method: guard.method,
                meat: guard.meat.clone(),
                pickle: guard.pickle.clone(),
                pick_up: guard.pick_up,
                skin_on: guard.skin_on,
            }),
            vessel,
            vessel_takes,
        }
    }

    /// The same in a vessel of another weight.
    #[must_use]
    pub fn in_vessel(&self, vessel: Mass) -> Self {
        Self {
            vessel,
            ..self.clone()
        }
    }

    /// How many ingredients there are to be.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.items.len()
    }

    /// How close each comes to its target, in per cent.
    #[must_use]
    pub const fn closeness_percent(&self) -> f64 {
        self.closeness_percent
    }

    /// What the vessel weighed.
    #[must_use]
    pub const fn vessel(&self) -> Mass {
        self.vessel
    }

    /// The most of the mix that the vessel holds, where that is known.
    #[must_use]
    pub const fn vessel_takes(&self) -> Option<Mass> {
        self.vessel_takes
    }

    /// The mix with all that is on record of it. Labels count as not read:
    /// another packet may stand there by now.
    ///
    /// # Errors
    /// Something in the batch that the ratio does not have; a way of curing
    /// that no limit is in force for; a ratio that makes no sense.
    pub fn mix(
        &self,
        batch: &Batch,
        closeness: Closeness,
        limits: Option<&Limits>,
    ) -> Result<Mix, AimError> {
        for there in batch.weighed_in() {
            let slot = there.slot.0;
            let item = self.item(there.slot).ok_or(AimError::SomethingElse(slot))?;
            if let Some(now) = there.ingredient
                && !now.is_same(&item.ingredient.0)
            {
                return Err(AimError::Renamed {
                    slot,
                    now: now.clone(),
                    aimed: item.ingredient.0.clone(),
                });
            }
        }
        let formula = Formula::on_record(
            self.form,
            self.items
                .iter()
                .map(|item| (item.ingredient.0.clone(), item.part)),
        )
        .map_err(InputError::from)?;
        let guard = match &self.cure {
            None => None,
            Some(cure) => Some(CureGuard {
                limit: limits
                    .and_then(|limits| limits.nitrite(cure.method))
                    .ok_or(AimError::NoLimit(cure.method))?,
                method: cure.method,
                meat: cure.meat.clone(),
                pickle: cure.pickle.clone(),
                pick_up: cure.pick_up,
                skin_on: cure.skin_on,
            }),
        };
        let mut mix = Mix::new(formula, closeness, guard)?;
        for (item, line) in self.items.iter().enumerate() {
            if let Some(set) = line.set {
                mix.set_amount(item, set)?;
            }
        }
        for (entry, struck) in batch.entries() {
            match entry.what {
                _ if struck => {}
                What::Weighed { slot, mass, .. } => {
                    let item = usize::try_from(slot.0).unwrap_or(usize::MAX);
                    mix.on_record(item, mass)?;
                }
                What::TakenOut { mass } => mix.take_out(mass)?,
                _ => {}
            }
        }
        Ok(mix)
    }

    fn item(&self, slot: Slot) -> Option<&Item> {
        self.items.get(usize::try_from(slot.0).ok()?)
    }
}
