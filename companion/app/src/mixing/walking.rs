//! A ratio on the scale, with what goes on record as it is poured.

use super::sketch::short;
use super::view::{FinishView, LabelView, WalkLine, WalkView};
use super::{Refusal, Scene};
use crate::desk::sentence;
use crate::figures;
use crate::words::Language;
use evenhand_kitchen::batch::{
    Aim, Batch, BatchId, Claimed, CuringWay, Entry, Judging, NamedAs, STORE_STEP, Slot, What,
};
use evenhand_kitchen::brine::Composition;
use evenhand_kitchen::cure::{CAUTION, MARK, MOST_DOUBT};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::ratio::{
    Approach, Formula, Ingredient, Mix, MixError, Notice, Part, Stage, Step, Walk,
};
use evenhand_protocol::{Goal, Mass, Temperature, Tolerance, Verdict};
use evenhand_store::Store;
use jiff::Timestamp;
use std::collections::VecDeque;

/// A mix on the scale.
#[derive(Debug)]
pub(super) struct Walking {
    title: String,
    walk: Walk,
    close: f64,
    within: Mass,
    batch: Option<BatchId>,
    named: Vec<bool>,
    /// What is to go on record and could not yet.
    pending: VecDeque<Entry>,
    started_anew: bool,
    pub(super) mistaken: bool,
}

impl Walking {
    pub(super) fn new(title: &str, walk: Walk, close: f64, within: Mass) -> Self {
        Self {
            title: title.to_owned(),
            named: vec![false; walk.mix().formula().items().len()],
            walk,
            close,
            within,
            batch: None,
            pending: VecDeque::new(),
            started_anew: false,
            mistaken: false,
        }
    }

    /// Goes on with a batch that was begun before.
    pub(super) fn resumed(
        id: BatchId,
        batch: &Batch,
        walk: Walk,
        close: f64,
        within: Mass,
    ) -> Self {
        let mut walking = Self::new(batch.title().unwrap_or_default(), walk, close, within);
        walking.batch = Some(id);
        for there in batch.weighed_in() {
            if let Some(named) = usize::try_from(there.slot.0)
                .ok()
                .and_then(|item| walking.named.get_mut(item))
            {
                *named = there.ingredient.is_some();
            }
        }
        walking
    }

    fn aim(&self) -> Aim {
        Aim::of(
            self.walk.mix(),
            self.close,
            self.walk.vessel(),
            self.walk.vessel_takes(),
        )
    }

    /// Begins, or goes on, with the scale as it is.
    pub(super) fn as_it_stands(
        &mut self,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<(), Refusal> {
        let (resuming, came) = (self.walk.is_resuming(), self.walk.came_meanwhile());
        self.walk.begin_as_it_stands()?;
        let (true, Some(id)) = (resuming, self.batch) else {
            return Ok(());
        };
        let mut add = |what| self.pending.push_back(Entry { at: now, what });
        if let Some(aim) = store.batch(id)?.under_way() {
            let aim = aim.in_vessel(self.walk.vessel());
            add(What::Aimed { aim });
        }
        if let Some(came) = came {
            let text = format!(
                "gone on with {:+.1} g on the scale that is not on record and counts for nothing",
                came.grams()
            );
            add(What::Noted { text });
        }
        self.flush(store, now).map(|_| ())
    }

    pub(super) fn title(&self) -> &str {
        if self.title.is_empty() {
            "No name yet"
        } else {
            &self.title
        }
    }

    pub(super) const fn stage(&self) -> &Stage {
        self.walk.stage()
    }

    pub(super) const fn batch(&self) -> Option<BatchId> {
        self.batch
    }

    pub(super) const fn walk(&mut self) -> &mut Walk {
        &mut self.walk
    }

    /// Whether it will change by itself though the scale rests.
    pub(super) fn counts_down(&self) -> bool {
        self.walk.goes_on_in().is_some() || self.walk.stage() == &Stage::Vessel
    }

    /// Takes in what the scale shows; `true` where something went on record.
    pub(super) fn take(
        &mut self,
        scene: &Scene,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<bool, Refusal> {
        let taken = match scene.look {
            Some(look) => self.walk.take(look),
            None => Ok(Vec::new()),
        };
        // What is already known goes on record also where this look makes no sense.
        let mut recorded = self.record(taken.as_deref().unwrap_or(&[]), scene.probe, store, now)?;
        // From the first pour on, so that it can be gone on with also where that is cut off.
        if self.batch.is_none() && self.walk.is_coming() {
            self.begin(store, now)?;
            recorded |= self.flush(store, now)?;
        }
        taken?;
        Ok(recorded)
    }

    /// Puts steps on record.
    pub(super) fn record(
        &mut self,
        steps: &[Step],
        probe: Option<Temperature>,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<bool, Refusal> {
        for step in steps {
            match *step {
                Step::Poured { item, mass } => self.poured(item, mass, probe, now),
                Step::StartedAnew => {
                    self.started_anew = true;
                    self.pending.push_back(Entry {
                        at: now,
                        what: What::Noted {
                            text: "the scale started anew in the middle of a pour".to_owned(),
                        },
                    });
                }
                Step::VesselOn(_) | Step::Finished => {}
            }
        }
        self.flush(store, now)
    }

    fn poured(&mut self, item: usize, mass: Mass, probe: Option<Temperature>, now: Timestamp) {
        self.started_anew = false;
        let Ok(number) = u32::try_from(item) else {
            return;
        };
        let slot = Slot(number);
        let mut add = |what| self.pending.push_back(Entry { at: now, what });
        add(What::Weighed {
            slot,
            mass,
            temperature: probe,
        });
        if let Some(named) = self.named.get_mut(item)
            && !*named
        {
            *named = true;
            let ingredient = self.walk.mix().formula().items()[item].ingredient().clone();
            add(What::Named {
                slot,
                ingredient: NamedAs(ingredient),
            });
        }
    }

    /// Puts what waits on record; it stays in line where that fails.
    pub(super) fn flush(&mut self, store: &mut Store, now: Timestamp) -> Result<bool, Refusal> {
        if self.pending.is_empty() {
            return Ok(false);
        }
        let id = match self.batch {
            Some(id) => id,
            None => self.begin(store, now)?,
        };
        while let Some(entry) = self.pending.front() {
            store.add_to_batch(id, entry)?;
            self.pending.pop_front();
        }
        Ok(true)
    }

    fn begin(&mut self, store: &mut Store, now: Timestamp) -> Result<BatchId, Refusal> {
        let id = store.begin_batch(now)?;
        self.batch = Some(id);
        // What it is mixed to goes first, so that it can be gone on with from any line on.
        let aim = self.aim();
        self.pending.push_front(Entry {
            at: now,
            what: What::Aimed { aim },
        });
        if !self.title.is_empty() {
            self.pending.push_front(Entry {
                at: now,
                what: What::Titled {
                    title: self.title.clone(),
                },
            });
        }
        Ok(id)
    }

    /// Some of the mix was taken out.
    pub(super) fn some_was_taken_out(
        &mut self,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<(), Refusal> {
        let mass = self.walk.some_was_taken_out()?;
        self.pending.push_back(Entry {
            at: now,
            what: What::TakenOut { mass },
        });
        self.flush(store, now).map(|_| ())
    }

    /// Marks it ready, where nothing stands in the way.
    pub(super) fn finish(
        &mut self,
        store: &mut Store,
        limits: Result<&Limits, &String>,
        now: Timestamp,
    ) -> Result<BatchId, Refusal> {
        let mix = self.walk.mix();
        if let Err(reasons) = mix.ready() {
            let reasons: Vec<String> = reasons.iter().map(ToString::to_string).collect();
            return Err(Refusal::new(format!("not ready: {}", reasons.join("; "))));
        }
        if let Some(Err(why)) = self.check_weighing() {
            return Err(Refusal::new(why));
        }
        let limits = limits.map_err(Refusal::new)?;
        let way = mix.guard().map(|guard| CuringWay {
            method: guard.method,
            meat: guard
                .meat
                .iter()
                .filter_map(|item| u32::try_from(*item).ok())
                .map(Slot)
                .collect(),
            pick_up: guard.pick_up,
            skin_on: guard.skin_on,
        });
        let within = self.within;
        self.flush(store, now)?;
        let id = self
            .batch
            .ok_or_else(|| Refusal::new("nothing was weighed yet"))?;
        // The batch is judged by its own record, as it is from the command line.
        if let Some(way) = way
            && store.batch(id)?.way().as_ref() != Some(&way)
        {
            let what = What::CuredBy { way, reason: None };
            store.add_to_batch(id, &Entry { at: now, what })?;
        }
        let by = Judging {
            limits,
            scale: within,
            longest_step: STORE_STEP,
            claimed: Claimed::default(),
        };
        let (entry, _) = store.batch(id)?.ready_line(now, &by)?;
        store.add_to_batch(id, &entry)?;
        Ok(id)
    }

    /// Leaves it; says on record why it is not ready.
    pub(super) fn abandon(
        &mut self,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<Option<BatchId>, Refusal> {
        if self.batch.is_some() || !self.pending.is_empty() {
            let text = match self.walk.mix().ready() {
                Ok(()) => "put away before it was marked ready".to_owned(),
                Err(reasons) => format!(
                    "put away, not ready: {}",
                    reasons
                        .iter()
                        .map(ToString::to_string)
                        .collect::<Vec<_>>()
                        .join("; ")
                ),
            };
            for what in [What::Noted { text }, What::PutAside] {
                self.pending.push_back(Entry { at: now, what });
            }
            self.flush(store, now)?;
        }
        // Where nothing was weighed there is nothing to show.
        match self.batch {
            Some(id) if store.batch(id)?.weighed_in().is_empty() => Ok(None),
            batch => Ok(batch),
        }
    }

    /// The curing agent as weighed against the amount worked out for what is
    /// there: in words, as an error where they do not agree.
    fn check_weighing(&self) -> Option<Result<String, String>> {
        let mix = self.walk.mix();
        let (item, agent) = mix
            .formula()
            .items()
            .iter()
            .enumerate()
            .find_map(|(item, line)| Some((item, line.ingredient().agent()?)))?;
        let weighed = mix.poured(item);
        if weighed == Mass::ZERO {
            return None;
        }
        let computed = computed(mix.formula(), item, |item| mix.poured(item))?;
        let off = (weighed - computed).abs().grams();
        let words = format!(
            "{agent}: weighed {:.2} g, worked out {:.2} g for what is there",
            weighed.grams(),
            computed.grams()
        );
        Some(if off <= computed.grams() * MOST_DOUBT {
            Ok(format!("{words}: they agree"))
        } else {
            Err(format!("{words}: they do not agree, not ready"))
        })
    }

    // What is shown.

    pub(super) fn view(&self, scene: &Scene) -> WalkView {
        let mix = self.walk.mix();
        let stage = self.walk.stage();
        let interval = scene.interval;
        let pouring = match (stage, self.walk.approach()) {
            (Stage::Pouring(_), Some(approach)) => Some(approach),
            _ => None,
        };
        let (so_far, target, verdict) = match pouring {
            Some(Approach::Pouring {
                so_far,
                target,
                verdict,
                ..
            }) => (Some(so_far), target, verdict),
            _ => (None, None, None),
        };
        let goal = target.and_then(|target| self.goal(target));
        let awaits_vessel = stage == &Stage::Vessel;
        WalkView {
            title: self.title().to_owned(),
            prompt: self.prompt(pouring),
            aside: self.aside(pouring, scene),
            so_far: if scene.look.is_some() { so_far } else { None },
            interval,
            stable: scene.look.map(|look| look.stable),
            goal,
            verdict: verdict.filter(|_| goal.is_some()),
            lines: self.lines(pouring, interval),
            notices: self.notices(pouring, interval),
            total: self.total(interval),
            label: self.label(),
            awaits_vessel,
            came_meanwhile: self.came_on().is_some(),
            mistaken: self.mistaken,
            can_take_out: !awaits_vessel
                && mix
                    .notices()
                    .iter()
                    .any(|notice| matches!(notice, Notice::NoRoom { .. })),
            finish: (stage == &Stage::Finished).then(|| self.finish_view()),
        }
    }

    /// What came on since the last weighing on record, before it is gone on.
    fn came_on(&self) -> Option<Mass> {
        self.walk.came_meanwhile().filter(|came| *came > Mass::ZERO)
    }

    fn goal(&self, target: Mass) -> Option<Goal> {
        let share = Mass::from_fractional_grams(target.grams() * self.close / 100.0)?;
        Goal::new(target, Tolerance::symmetric(share.max(self.within))).ok()
    }

    fn item_name(&self, item: usize) -> String {
        shown_name(self.walk.mix().formula().items()[item].ingredient())
    }

    fn prompt(&self, pouring: Option<Approach>) -> String {
        if let Some(wanted) = self.walk.wanted() {
            return format!("Hold still: {} is next", self.item_name(wanted));
        }
        match (self.walk.stage(), pouring) {
            (Stage::Vessel, _) if self.walk.is_resuming() => {
                "Put it on with what is in it".to_owned()
            }
            (Stage::Vessel, _) => "Put the vessel on".to_owned(),
            (Stage::Held(item, _), _) => format!("Stop: {}", self.item_name(*item)),
            (Stage::Finished, _) => "All in".to_owned(),
            (Stage::Pouring(_), Some(Approach::VesselOff)) => "Put the vessel back on".to_owned(),
            (Stage::Pouring(item), Some(Approach::Pouring { verdict, .. })) => {
                let name = self.item_name(*item);
                match verdict {
                    Some(Verdict::On) => format!("{name}: enough"),
                    Some(Verdict::Heavy) => format!("{name}: over"),
                    Some(Verdict::Short) => format!("Add {name}"),
                    None => format!("Add {name}, as much as there is"),
                }
            }
            (Stage::Pouring(item), None) => format!("Add {}", self.item_name(*item)),
        }
    }

    /// That it goes on by itself, what an over-pour would make of it.
    fn aside(&self, pouring: Option<Approach>, scene: &Scene) -> String {
        if scene.look.is_none() {
            return "The scale is not heard: what was weighed is kept, and it goes on when the scale is back."
                .to_owned();
        }
        if self.started_anew {
            return "The scale started anew: what came on in the meantime is not known. Pour on, and say how much \
                    it was where it matters."
                .to_owned();
        }
        let over = match pouring {
            Some(Approach::Pouring {
                item,
                verdict: Some(Verdict::Heavy),
                total_if_left: Some(total),
                ..
            }) => Some((item, total)),
            _ => None,
        };
        if let Some((item, total)) = over {
            let curing = self.walk.mix().formula().items()[item]
                .ingredient()
                .agent()
                .is_some();
            let makes = format!(
                "Left so, with the others to match it makes {} in all",
                figures::grams(total, scene.interval, Language::English)
            );
            let fits = match self.walk.room() {
                Some(room) if total > room => format!(
                    ", more than the {} there is room for",
                    figures::grams(room, scene.interval, Language::English)
                ),
                Some(room) => format!(
                    "; there is room for {}",
                    figures::grams(room, scene.interval, Language::English)
                ),
                None => String::new(),
            };
            return if curing {
                format!("It cannot be undone once it is mixed in. {makes}{fits}.")
            } else {
                format!("Take some out, or leave it. {makes}{fits}.")
            };
        }
        if self.walk.is_resuming() {
            return self.resuming(scene.interval);
        }
        match (self.walk.stage(), self.walk.goes_on_in()) {
            (Stage::Vessel, _) => {
                "It is taken off by itself. Without one, or with it on already: As it stands."
                    .to_owned()
            }
            (_, Some(_)) => "Hands off, and it goes on by itself.".to_owned(),
            (Stage::Finished, _) => String::new(),
            _ => "It goes on by itself once it rests on the target.".to_owned(),
        }
    }

    fn resuming(&self, interval: Mass) -> String {
        let grams = |mass| figures::grams(mass, interval, Language::English);
        match (self.came_on(), self.walk.came_meanwhile()) {
            (Some(came), _) => format!(
                "{} more than is on record: press on the right what it is. Where nobody knows: As it stands; it \
                 counts for nothing then.",
                grams(came)
            ),
            (None, Some(less)) => format!(
                "{} less than is on record: put the vessel on as it was. Where that cannot be: As it stands.",
                grams(less.abs())
            ),
            (None, None) => "It goes on by itself.".to_owned(),
        }
    }

    fn lines(&self, pouring: Option<Approach>, interval: Mass) -> Vec<WalkLine> {
        let mix = self.walk.mix();
        mix.formula()
            .items()
            .iter()
            .enumerate()
            .map(|(item, line)| {
                let now = matches!(self.walk.stage(), Stage::Pouring(at) | Stage::Held(at, _) if *at == item);
                let live = match pouring {
                    Some(Approach::Pouring {
                        item: at, so_far, ..
                    }) if at == item => Some(so_far),
                    _ => None,
                };
                let poured = live.unwrap_or_else(|| mix.poured(item));
                let target = mix.target(item);
                let verdict = match (target.and_then(|target| self.goal(target)), poured) {
                    (_, Mass::ZERO) => None,
                    (Some(goal), poured) => Some(match goal.judge(poured) {
                        // Short by no more than another is over that counts as on.
                        Verdict::Short if live.is_none() && !mix.is_short(item) => Verdict::On,
                        verdict => verdict,
                    }),
                    (None, _) => None,
                };
                WalkLine {
                    name: shown_name(line.ingredient()),
                    poured: if poured == Mass::ZERO {
                        "\u{2013}".to_owned()
                    } else {
                        figures::grams(poured, interval, Language::English)
                    },
                    target: target
                        .map_or_else(String::new, |target| figures::grams(target, interval, Language::English)),
                    verdict,
                    now,
                    curing: line.ingredient().agent().is_some(),
                }
            })
            .collect()
    }

    fn notices(&self, pouring: Option<Approach>, interval: Mass) -> Vec<String> {
        let over_now = matches!(
            pouring,
            Some(Approach::Pouring {
                verdict: Some(Verdict::Heavy),
                ..
            })
        );
        self.walk
            .mix()
            .notices()
            .into_iter()
            // The aside says it of the pour under way.
            .filter(|notice| !(over_now && matches!(notice, Notice::Grown { .. })))
            .map(|notice| match &notice {
                Notice::Grown { total, .. } => match self.walk.room() {
                    Some(room) if *total <= room => {
                        format!(
                            "{notice}; there is room for {}",
                            figures::grams(room, interval, Language::English)
                        )
                    }
                    _ => notice.to_string(),
                },
                _ => notice.to_string(),
            })
            .map(|words| sentence(&words))
            .collect()
    }

    fn total(&self, interval: Mass) -> String {
        let mix = self.walk.mix();
        let there = figures::grams(mix.in_the_vessel(), interval, Language::English);
        let room = self.walk.room().map_or_else(String::new, |room| {
            format!(
                ", room for {}",
                figures::grams(room, interval, Language::English)
            )
        });
        match mix.total() {
            Some(total) => format!(
                "{there} of {} in{room}",
                figures::grams(total, interval, Language::English)
            ),
            None => format!("{there} in{room}"),
        }
    }

    fn label(&self) -> Option<LabelView> {
        let &Stage::Held(item, ref why) = self.walk.stage() else {
            return None;
        };
        Some(LabelView {
            words: match why {
                MixError::NotConfirmed(_) => format!(
                    "Read the nitrite fraction from the packet in your hand, before any of {} comes near the scale.",
                    self.item_name(item)
                ),
                why => sentence(&why.to_string()),
            },
            can_confirm: matches!(why, MixError::NotConfirmed(_)),
        })
    }

    fn finish_view(&self) -> FinishView {
        let mix = self.walk.mix();
        let formula = mix.formula();
        let mut found: Vec<String> = (0..formula.items().len())
            .filter_map(|item| self.reached(item))
            .collect();
        found.extend(brine_words(self.walk.mix()));
        let mut not_ready: Vec<String> = mix
            .ready()
            .err()
            .unwrap_or_default()
            .iter()
            .map(|reason| sentence(&reason.to_string()))
            .collect();
        match self.check_weighing() {
            Some(Ok(words)) => found.push(words),
            Some(Err(words)) => not_ready.push(sentence(&words)),
            None => {}
        }
        if let Some(ingoing) = mix.ingoing() {
            if ingoing.verdict.lets_pass() {
                found.push(sentence(&ingoing.to_string()));
            }
            found.push(CAUTION.to_owned());
        }
        FinishView { found, not_ready }
    }

    /// What an ingredient came to, in the way the ratio was said.
    fn reached(&self, item: usize) -> Option<String> {
        let mix = self.walk.mix();
        let line = &mix.formula().items()[item];
        let asked = match line.part() {
            Part::Parts(number) | Part::OfFree(number) => number,
            Part::Free => return None,
        };
        let poured = mix.poured(item).grams();
        let is = match line.part() {
            Part::OfFree(_) => {
                let free: f64 = free_grams(mix.formula(), |item| mix.poured(item));
                poured / free * 100.0
            }
            _ => {
                let (mut parts, mut grams) = (0.0, 0.0);
                for (other, line) in mix.formula().items().iter().enumerate() {
                    if let (Part::Parts(number), true) = (line.part(), other != item) {
                        parts += number;
                        grams += mix.poured(other).grams();
                    }
                }
                poured / grams * parts
            }
        };
        is.is_finite().then(|| {
            format!(
                "{}: {} where {} was asked",
                line.ingredient(),
                finer(is),
                short(asked)
            )
        })
    }
}

/// A name as it stands beside the scale. A curing agent's fraction is left out:
/// it is to be read from the packet, not from the screen.
fn shown_name(ingredient: &Ingredient) -> String {
    match ingredient.agent() {
        Some(agent) => format!("{MARK} {}", agent.name()),
        None => ingredient.name().to_owned(),
    }
}

/// Four figures that count.
fn finer(number: f64) -> String {
    let decimals = (3 - number.abs().max(1e-9).log10().floor() as i32).clamp(0, 5) as usize;
    format!("{number:.decimals$}")
}

fn free_grams(formula: &Formula, poured: impl Fn(usize) -> Mass) -> f64 {
    formula
        .items()
        .iter()
        .enumerate()
        .filter(|(_, line)| matches!(line.part(), Part::Free))
        .map(|(item, _)| poured(item).grams())
        .sum()
}

/// How much of an item the others call for.
fn computed(formula: &Formula, item: usize, poured: impl Fn(usize) -> Mass) -> Option<Mass> {
    let grams = match formula.items()[item].part() {
        Part::OfFree(percent) => free_grams(formula, poured) * percent / 100.0,
        Part::Parts(parts) => {
            let (mut all, mut grams) = (0.0, 0.0);
            for (other, line) in formula.items().iter().enumerate() {
                if let (Part::Parts(number), true) = (line.part(), other != item) {
                    all += number;
                    grams += poured(other).grams();
                }
            }
            grams / all * parts
        }
        Part::Free => return None,
    };
    Mass::from_fractional_grams(grams).filter(|mass| *mass > Mass::ZERO)
}

/// A mix of nothing but water, salt and sugar, as a brine in both conventions.
fn brine_words(mix: &Mix) -> Option<String> {
    let mut masses = [Mass::ZERO; 3];
    for (item, line) in mix.formula().items().iter().enumerate() {
        let at = ["water", "salt", "sugar"]
            .iter()
            .position(|name| line.ingredient().name().to_lowercase() == *name)?;
        masses[at] = mix.poured(item);
    }
    let [water, salt, sugar] = masses;
    let brine = Composition::weighed(salt, sugar, water).ok()?;
    Some(format!(
        "Brine: salt {:.3} % of water, {:.3} % of solution",
        brine.salt_of_water(),
        brine.salt_of_solution()
    ))
}

impl Walking {
    /// The label was read again.
    pub(super) fn confirm(&mut self, text: &str) -> Result<(), Refusal> {
        let read = super::mixer::nitrite("label", text)?;
        Ok(self.walk.confirm_label(read)?)
    }
}
