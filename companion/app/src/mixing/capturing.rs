//! Weighing without a ratio: what comes on is kept, and named when there is a
//! hand free for it.

use super::mix_on_scale::gone_on_with;
use super::view::{CaptureLine, CaptureView};
use super::{Obstacle, Refusal, Scene};
use crate::figures;
use crate::words::{Language, say};
use evenhand_kitchen::batch::{Batch, BatchId, Entry, NamedAs, Slot, What};
use evenhand_kitchen::ratio::{Capture, Caught, Ingredient, PouringError};
use evenhand_protocol::{Mass, Temperature};
use evenhand_store::Store;
use evenhand_use_cases::mixing::mix::ingredient_words;
use jiff::Timestamp;
use std::collections::VecDeque;

/// Weighing without a ratio.
#[derive(Debug)]
pub(super) struct Capturing {
    capture: Capture,
    id: Option<BatchId>,
    batch: Batch,
    pending: VecDeque<(Timestamp, Caught, Option<Temperature>)>,
    /// What came last, and the slot it went to.
    last: Option<(Slot, Mass)>,
    lifted: bool,
    anew: bool,
}

impl Capturing {
    pub(super) fn new(least: Mass) -> Self {
        Self {
            capture: Capture::new(least),
            id: None,
            batch: Batch::new(),
            pending: VecDeque::new(),
            last: None,
            lifted: false,
            anew: false,
        }
    }

    /// Goes on with a batch that was begun before in a vessel of that weight.
    pub(super) fn resumed(id: BatchId, batch: &Batch, vessel: Mass, least: Mass) -> Self {
        Self {
            capture: Capture::resumed(least, vessel, batch.total()),
            id: Some(id),
            batch: batch.clone(),
            ..Self::new(least)
        }
    }

    pub(super) const fn batch(&self) -> Option<BatchId> {
        self.id
    }

    /// Takes in what the scale shows; `true` where something went on record.
    pub(super) fn take(
        &mut self,
        scene: &Scene,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<bool, Refusal> {
        if let Some(caught) = scene.look.and_then(|look| self.capture.take(look)) {
            match caught {
                Caught::Lifted => self.lifted = true,
                Caught::Back => self.lifted = false,
                Caught::StartedAnew => self.anew = true,
                Caught::Added(_) | Caught::TakenOut(_) => {
                    self.lifted = false;
                    self.anew = false;
                    self.pending.push_back((now, caught, scene.probe));
                }
            }
        }
        // From the first thing that comes on, so that it can be gone on with from then on.
        let mut recorded = false;
        if self.id.is_none() && (self.capture.is_coming() || !self.pending.is_empty()) {
            self.begin(store, now)?;
            recorded = true;
        }
        while let Some(&(at, caught, probe)) = self.pending.front() {
            self.put(caught, probe, store, at)?;
            self.pending.pop_front();
            recorded = true;
        }
        Ok(recorded)
    }

    fn put(
        &mut self,
        caught: Caught,
        temperature: Option<Temperature>,
        store: &mut Store,
        at: Timestamp,
    ) -> Result<(), Refusal> {
        let what = match caught {
            Caught::Added(mass) => {
                let slot = self.batch.free_slot();
                self.last = Some((slot, mass));
                What::Weighed {
                    slot,
                    mass,
                    temperature,
                }
            }
            Caught::TakenOut(mass) => {
                let there = self.batch.weighed_in().into_iter().next_back();
                match there {
                    // Spooned back out of what came last, while that is still on top.
                    Some(last) if last.mass > mass => {
                        self.last = None;
                        What::Weighed {
                            slot: last.slot,
                            mass: -mass,
                            temperature,
                        }
                    }
                    _ => What::TakenOut {
                        mass: mass.min(self.batch.total()),
                    },
                }
            }
            Caught::Lifted | Caught::Back | Caught::StartedAnew => return Ok(()),
        };
        self.add(what, store, at)
    }

    /// Says on record what vessel it is weighed in.
    fn begin(&mut self, store: &mut Store, at: Timestamp) -> Result<(), Refusal> {
        let vessel = self.capture.vessel().unwrap_or(Mass::ZERO);
        self.add(What::AsYouGo { vessel }, store, at)
    }

    fn add(&mut self, what: What, store: &mut Store, at: Timestamp) -> Result<(), Refusal> {
        let id = match self.id {
            Some(id) => id,
            None => *self.id.insert(store.begin_batch(at)?),
        };
        self.batch = store.add_to_batch(id, &Entry { at, what })?;
        Ok(())
    }

    /// The vessel stands there, or there is none.
    pub(super) fn as_it_stands(
        &mut self,
        store: &mut Store,
        now: Timestamp,
        language: Language,
    ) -> Result<(), Refusal> {
        let (resuming, came) = (self.capture.is_resuming(), self.capture.came_meanwhile());
        if !self.capture.begin_as_it_stands() {
            return Err(PouringError::NotSteady.into());
        }
        if !resuming {
            return Ok(());
        }
        self.begin(store, now)?;
        match came {
            None => Ok(()),
            Some(came) => {
                let text = gone_on_with(came, language);
                self.add(What::Noted { text }, store, now)
            }
        }
    }

    /// What came on since the last weighing on record went into it.
    pub(super) fn that_went_in(
        &mut self,
        probe: Option<Temperature>,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<(), Refusal> {
        match self.capture.that_went_in() {
            Some(caught) => self.put(caught, probe, store, now),
            None => Err(Obstacle::NothingMore.into()),
        }
    }

    /// It is done; where nothing was weighed there is nothing to show.
    pub(super) fn done(
        &mut self,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<Option<BatchId>, Refusal> {
        if self.id.is_some() {
            self.add(What::PutAside, store, now)?;
        }
        Ok(self.id.filter(|_| !self.batch.weighed_in().is_empty()))
    }

    /// What came last is more of what came before.
    pub(super) fn more_of_that(
        &mut self,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<(), Refusal> {
        let there = self.batch.weighed_in();
        let (Some((last, mass)), [.., before, _]) = (self.last, there.as_slice()) else {
            return Err(Obstacle::OnlyOneThing.into());
        };
        let before = before.slot;
        for (slot, mass) in [(last, -mass), (before, mass)] {
            self.add(
                What::Weighed {
                    slot,
                    mass,
                    temperature: None,
                },
                store,
                now,
            )?;
        }
        self.last = None;
        Ok(())
    }

    pub(super) fn name(
        &mut self,
        slot: u32,
        name: &str,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<(), Refusal> {
        let ingredient = Ingredient::plain(name)?;
        self.add(
            What::Named {
                slot: Slot(slot),
                ingredient: NamedAs(ingredient),
            },
            store,
            now,
        )
    }

    pub(super) fn titled(
        &mut self,
        title: &str,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<(), Refusal> {
        self.add(
            What::Titled {
                title: title.to_owned(),
            },
            store,
            now,
        )
    }

    /// Whether it will change by itself though the scale rests.
    pub(super) fn counts_down(&self, scene: &Scene) -> bool {
        let least = scene.interval;
        self.capture.vessel().is_none()
            || self
                .capture
                .live()
                .is_some_and(|live| live.abs() > least && scene.look.is_some_and(|l| l.stable))
    }

    pub(super) fn view(&self, scene: &Scene, language: Language) -> CaptureView {
        let total = self.batch.total();
        let awaits_vessel = self.capture.vessel().is_none();
        CaptureView {
            title: self.batch.title().map(str::to_owned),
            prompt: if scene.look.is_none() {
                say!(language, "capture-not-heard")
            } else if self.capture.is_resuming() {
                say!(language, "walk-put-on-with-all")
            } else if awaits_vessel {
                say!(language, "walk-put-vessel-on")
            } else if self.lifted {
                say!(language, "walk-put-vessel-back")
            } else if self.anew {
                say!(language, "capture-started-anew")
            } else {
                say!(language, "capture-anything")
            }
            .into_owned(),
            live: self.capture.live().filter(|_| scene.look.is_some()),
            interval: scene.interval,
            stable: scene.look.map(|look| look.stable),
            lines: self
                .batch
                .weighed_in()
                .into_iter()
                .filter(|slot| slot.mass > Mass::ZERO)
                .map(|slot| CaptureLine {
                    slot: slot.slot.0,
                    name: slot
                        .ingredient
                        .map(|ingredient| ingredient_words(language, &ingredient)),
                    mass: figures::grams(slot.mass, scene.interval, language),
                    share: language.figure(format!(
                        "{:.1} %",
                        slot.mass.grams() / total.grams() * 100.0
                    )),
                })
                .collect(),
            total: figures::grams(total, scene.interval, language),
            awaits_vessel,
            came_meanwhile: self.capture.came_meanwhile(),
        }
    }
}
