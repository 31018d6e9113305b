//! A ratio on the scale, with what goes on record as it is poured.

use super::recipe_draft::short;
use super::view::{FinishView, LabelView, PouringLine, PouringView};
use super::{NoLimits, Obstacle, Refusal, Scene};
use crate::controller::sentence;
use crate::figures;
use crate::words::{Language, say};
use evenhand_kitchen::batch::{
    Aim, Batch, BatchId, Claimed, CuringWay, Entry, Judging, NamedAs, STORE_STEP, Slot, What,
};
use evenhand_kitchen::brine::Composition;
use evenhand_kitchen::cure::MOST_DOUBT;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::ratio::{
    Approach, Awaited, Formula, Ingredient, Mix, MixError, Notice, Part, PourEvent, Pouring,
};
use evenhand_protocol::{Goal, Mass, Temperature, Tolerance, Verdict};
use evenhand_store::Store;
use evenhand_use_cases::mixing::cure::{self, agent_words, ingoing_words, marked};
use evenhand_use_cases::mixing::mix::{ingredient_words, not_ready_words, notice_words};
use jiff::Timestamp;
use std::collections::VecDeque;

/// A mix on the scale.
#[derive(Debug)]
pub(super) struct MixOnScale {
    title: String,
    pouring: Pouring,
    close: f64,
    within: Mass,
    batch: Option<BatchId>,
    named: Vec<bool>,
    /// What is to go on record and could not yet.
    pending: VecDeque<Entry>,
    started_anew: bool,
    pub(super) mistaken: bool,
}

impl MixOnScale {
    pub(super) fn new(title: &str, pouring: Pouring, close: f64, within: Mass) -> Self {
        Self {
            title: title.to_owned(),
            named: vec![false; pouring.mix().formula().items().len()],
            pouring,
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
        pouring: Pouring,
        close: f64,
        within: Mass,
    ) -> Self {
        let mut mix_on_scale = Self::new(batch.title().unwrap_or_default(), pouring, close, within);
        mix_on_scale.batch = Some(id);
        for there in batch.weighed_in() {
            if let Some(named) = usize::try_from(there.slot.0)
                .ok()
                .and_then(|item| mix_on_scale.named.get_mut(item))
            {
                *named = there.ingredient.is_some();
            }
        }
        mix_on_scale
    }

    fn aim(&self) -> Aim {
        Aim::of(
            self.pouring.mix(),
            self.close,
            self.pouring.vessel(),
            self.pouring.vessel_takes(),
        )
    }

    /// Begins, or goes on, with the scale as it is.
    pub(super) fn as_it_stands(
        &mut self,
        store: &mut Store,
        now: Timestamp,
        language: Language,
    ) -> Result<(), Refusal> {
        let (resuming, came) = (self.pouring.is_resuming(), self.pouring.came_meanwhile());
        self.pouring.begin_as_it_stands()?;
        let (true, Some(id)) = (resuming, self.batch) else {
            return Ok(());
        };
        let mut add = |what| self.pending.push_back(Entry { at: now, what });
        if let Some(aim) = store.batch(id)?.under_way() {
            let aim = aim.in_vessel(self.pouring.vessel());
            add(What::Aimed { aim });
        }
        if let Some(came) = came {
            add(What::Noted {
                text: gone_on_with(came, language),
            });
        }
        self.flush(store, now).map(|_| ())
    }

    pub(super) fn title(&self, language: Language) -> String {
        if self.title.is_empty() {
            say!(language, "mixing-no-name").into_owned()
        } else {
            self.title.clone()
        }
    }

    pub(super) const fn stage(&self) -> &Awaited {
        self.pouring.stage()
    }

    pub(super) const fn batch(&self) -> Option<BatchId> {
        self.batch
    }

    pub(super) const fn pouring(&mut self) -> &mut Pouring {
        &mut self.pouring
    }

    /// Whether it will change by itself though the scale rests.
    pub(super) fn counts_down(&self) -> bool {
        self.pouring.goes_on_in().is_some() || self.pouring.stage() == &Awaited::Vessel
    }

    /// Takes in what the scale shows; `true` where something went on record.
    pub(super) fn take(
        &mut self,
        scene: &Scene,
        store: &mut Store,
        now: Timestamp,
        language: Language,
    ) -> Result<bool, Refusal> {
        let taken = match scene.look {
            Some(look) => self.pouring.take(look),
            None => Ok(Vec::new()),
        };
        // What is already known goes on record also where this look makes no sense.
        let mut recorded = self.record(
            taken.as_deref().unwrap_or(&[]),
            scene.probe,
            store,
            now,
            language,
        )?;
        // From the first pour on, so that it can be gone on with also where that is cut off.
        if self.batch.is_none() && self.pouring.is_coming() {
            self.begin(store, now)?;
            recorded |= self.flush(store, now)?;
        }
        taken?;
        Ok(recorded)
    }

    /// Puts steps on record.
    pub(super) fn record(
        &mut self,
        steps: &[PourEvent],
        probe: Option<Temperature>,
        store: &mut Store,
        now: Timestamp,
        language: Language,
    ) -> Result<bool, Refusal> {
        for step in steps {
            match *step {
                PourEvent::Poured { item, mass } => self.poured(item, mass, probe, now),
                PourEvent::StartedAnew => {
                    self.started_anew = true;
                    self.pending.push_back(Entry {
                        at: now,
                        what: What::Noted {
                            text: say!(language, "mixing-note-started-anew").into_owned(),
                        },
                    });
                }
                PourEvent::VesselOn(_) | PourEvent::Finished => {}
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
            let ingredient = self.pouring.mix().formula().items()[item]
                .ingredient()
                .clone();
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
        let mass = self.pouring.some_was_taken_out()?;
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
        limits: Result<&Limits, &NoLimits>,
        now: Timestamp,
        language: Language,
    ) -> Result<BatchId, Refusal> {
        let mix = self.pouring.mix();
        if let Err(reasons) = mix.ready() {
            return Err(Refusal::NotReady(reasons));
        }
        if let Some(Err(why)) = self.check_weighing(language) {
            return Err(Refusal::Disagrees(why));
        }
        let limits = limits.map_err(Clone::clone)?;
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
        let id = self.batch.ok_or(Obstacle::NothingWeighed)?;
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
        language: Language,
    ) -> Result<Option<BatchId>, Refusal> {
        if self.batch.is_some() || !self.pending.is_empty() {
            let text = match self.pouring.mix().ready() {
                Ok(()) => say!(language, "mixing-note-put-away"),
                Err(reasons) => {
                    let why: Vec<String> = reasons
                        .iter()
                        .map(|reason| not_ready_words(language, reason))
                        .collect();
                    say!(language, "mixing-note-not-ready", why = why.join("; "))
                }
            }
            .into_owned();
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
    fn check_weighing(&self, language: Language) -> Option<Result<String, String>> {
        let mix = self.pouring.mix();
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
        let grams = |mass: Mass| language.figure(format!("{:.2} g", mass.grams()));
        let agent = agent_words(language, agent);
        let (weighed, worked_out) = (grams(weighed), grams(computed));
        Some(if off <= computed.grams() * MOST_DOUBT {
            Ok(say!(
                language,
                "mixing-agrees",
                agent = agent,
                weighed = weighed,
                computed = worked_out,
            )
            .into_owned())
        } else {
            Err(say!(
                language,
                "mixing-disagrees",
                agent = agent,
                weighed = weighed,
                computed = worked_out,
            )
            .into_owned())
        })
    }

    // What is shown.

    pub(super) fn view(&self, scene: &Scene, language: Language) -> PouringView {
        let mix = self.pouring.mix();
        let stage = self.pouring.stage();
        let interval = scene.interval;
        let pouring = match (stage, self.pouring.approach()) {
            (Awaited::Pouring(_), Some(approach)) => Some(approach),
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
        let awaits_vessel = stage == &Awaited::Vessel;
        PouringView {
            title: self.title(language),
            prompt: self.prompt(pouring, language),
            aside: self.aside(pouring, scene, language),
            so_far: if scene.look.is_some() { so_far } else { None },
            interval,
            stable: scene.look.map(|look| look.stable),
            goal,
            verdict: verdict.filter(|_| goal.is_some()),
            lines: self.lines(pouring, interval, language),
            notices: self.notices(pouring, language),
            total: self.total(interval, language),
            label: self.label(language),
            awaits_vessel,
            came_meanwhile: self.came_on().is_some(),
            mistaken: self.mistaken,
            can_take_out: !awaits_vessel
                && mix
                    .notices()
                    .iter()
                    .any(|notice| matches!(notice, Notice::NoRoom { .. })),
            finish: (stage == &Awaited::Finished).then(|| self.finish_view(language)),
        }
    }

    /// What came on since the last weighing on record, before it is gone on.
    fn came_on(&self) -> Option<Mass> {
        self.pouring
            .came_meanwhile()
            .filter(|came| *came > Mass::ZERO)
    }

    fn goal(&self, target: Mass) -> Option<Goal> {
        let share = Mass::from_fractional_grams(target.grams() * self.close / 100.0)?;
        Goal::new(target, Tolerance::symmetric(share.max(self.within))).ok()
    }

    fn item_name(&self, item: usize, language: Language) -> String {
        shown_name(
            self.pouring.mix().formula().items()[item].ingredient(),
            language,
        )
    }

    fn prompt(&self, pouring: Option<Approach>, language: Language) -> String {
        let name = |item| self.item_name(item, language);
        if let Some(wanted) = self.pouring.wanted() {
            return say!(language, "walk-hold-still", name = name(wanted)).into_owned();
        }
        match (self.pouring.stage(), pouring) {
            (Awaited::Vessel, _) if self.pouring.is_resuming() => {
                say!(language, "walk-put-on-with-all")
            }
            (Awaited::Vessel, _) => say!(language, "walk-put-vessel-on"),
            (Awaited::Held(item, _), _) => say!(language, "walk-stop", name = name(*item)),
            (Awaited::Finished, _) => say!(language, "walk-all-in"),
            (Awaited::Pouring(_), Some(Approach::VesselOff)) => {
                say!(language, "walk-put-vessel-back")
            }
            (Awaited::Pouring(item), Some(Approach::Pouring { verdict, .. })) => {
                let name = name(*item);
                match verdict {
                    Some(Verdict::On) => say!(language, "walk-enough", name = name),
                    Some(Verdict::Heavy) => say!(language, "walk-over", name = name),
                    Some(Verdict::Short) => say!(language, "walk-add", name = name),
                    None => say!(language, "walk-add-all", name = name),
                }
            }
            (Awaited::Pouring(item), None) => say!(language, "walk-add", name = name(*item)),
        }
        .into_owned()
    }

    /// That it goes on by itself, what an over-pour would make of it.
    fn aside(&self, pouring: Option<Approach>, scene: &Scene, language: Language) -> String {
        let grams = |mass| figures::grams(mass, scene.interval, language);
        if scene.look.is_none() {
            return say!(language, "walk-not-heard").into_owned();
        }
        if self.started_anew {
            return say!(language, "walk-started-anew").into_owned();
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
            let agent = self.pouring.mix().formula().items()[item]
                .ingredient()
                .agent();
            let undo = match agent {
                Some(_) => say!(language, "walk-cannot-be-undone"),
                None => say!(language, "walk-take-some-out"),
            };
            let makes = match self.pouring.room() {
                Some(room) if total > room => say!(
                    language,
                    "walk-makes-too-much",
                    total = grams(total),
                    room = grams(room),
                ),
                Some(room) => say!(
                    language,
                    "walk-makes-with-room",
                    total = grams(total),
                    room = grams(room),
                ),
                None => say!(language, "walk-makes", total = grams(total)),
            };
            return format!("{undo} {makes}");
        }
        if self.pouring.is_resuming() {
            return self.resuming(scene.interval, language);
        }
        match (self.pouring.stage(), self.pouring.goes_on_in()) {
            (Awaited::Vessel, _) => say!(language, "walk-vessel-aside"),
            (_, Some(_)) => say!(language, "walk-hands-off"),
            (Awaited::Finished, _) => return String::new(),
            _ => say!(language, "walk-goes-on-on-target"),
        }
        .into_owned()
    }

    fn resuming(&self, interval: Mass, language: Language) -> String {
        let grams = |mass| figures::grams(mass, interval, language);
        match (self.came_on(), self.pouring.came_meanwhile()) {
            (Some(came), _) => say!(language, "walk-came-on", mass = grams(came)),
            (None, Some(less)) => say!(language, "walk-went-off", mass = grams(less.abs())),
            (None, None) => say!(language, "walk-goes-on"),
        }
        .into_owned()
    }

    fn lines(
        &self,
        pouring: Option<Approach>,
        interval: Mass,
        language: Language,
    ) -> Vec<PouringLine> {
        let mix = self.pouring.mix();
        mix.formula()
            .items()
            .iter()
            .enumerate()
            .map(|(item, line)| {
                let now = matches!(self.pouring.stage(), Awaited::Pouring(at) | Awaited::Held(at, _) if *at == item);
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
                PouringLine {
                    name: shown_name(line.ingredient(), language),
                    poured: if poured == Mass::ZERO {
                        "\u{2013}".to_owned()
                    } else {
                        figures::grams(poured, interval, language)
                    },
                    target: target
                        .map_or_else(String::new, |target| figures::grams(target, interval, language)),
                    verdict,
                    now,
                    curing: line.ingredient().agent().is_some(),
                }
            })
            .collect()
    }

    fn notices(&self, pouring: Option<Approach>, language: Language) -> Vec<String> {
        let over_now = matches!(
            pouring,
            Some(Approach::Pouring {
                verdict: Some(Verdict::Heavy),
                ..
            })
        );
        self.pouring
            .mix()
            .notices()
            .into_iter()
            // The aside says it of the pour under way.
            .filter(|notice| !(over_now && matches!(notice, Notice::Grown { .. })))
            .map(|notice| sentence(&notice_words(language, &notice, self.pouring.room())))
            .collect()
    }

    fn total(&self, interval: Mass, language: Language) -> String {
        let mix = self.pouring.mix();
        let grams = |mass| figures::grams(mass, interval, language);
        let there = grams(mix.in_the_vessel());
        match (mix.total().map(grams), self.pouring.room().map(grams)) {
            (Some(total), Some(room)) => say!(
                language,
                "walk-total-room",
                there = there,
                total = total,
                room = room,
            ),
            (Some(total), None) => {
                say!(language, "walk-total", there = there, total = total)
            }
            (None, Some(room)) => say!(language, "walk-in-room", there = there, room = room),
            (None, None) => say!(language, "walk-in", there = there),
        }
        .into_owned()
    }

    fn label(&self, language: Language) -> Option<LabelView> {
        let &Awaited::Held(item, ref why) = self.pouring.stage() else {
            return None;
        };
        Some(LabelView {
            words: match why {
                MixError::NotConfirmed(_) => {
                    let name = self.item_name(item, language);
                    say!(language, "walk-read-label", name = name).into_owned()
                }
                why => sentence(&Refusal::Mix(why.clone()).in_words(language)),
            },
            can_confirm: matches!(why, MixError::NotConfirmed(_)),
        })
    }

    fn finish_view(&self, language: Language) -> FinishView {
        let mix = self.pouring.mix();
        let formula = mix.formula();
        let mut found: Vec<String> = (0..formula.items().len())
            .filter_map(|item| self.reached(item, language))
            .collect();
        found.extend(brine_words(self.pouring.mix(), language));
        let mut not_ready: Vec<String> = mix
            .ready()
            .err()
            .unwrap_or_default()
            .iter()
            .map(|reason| sentence(&not_ready_words(language, reason)))
            .collect();
        match self.check_weighing(language) {
            Some(Ok(words)) => found.push(words),
            Some(Err(words)) => not_ready.push(sentence(&words)),
            None => {}
        }
        if let Some(ingoing) = mix.ingoing() {
            if ingoing.verdict.lets_pass() {
                found.push(sentence(&ingoing_words(language, &ingoing)));
            }
            found.push(cure::caution(language));
        }
        FinishView { found, not_ready }
    }

    /// What an ingredient came to, in the way the ratio was said.
    fn reached(&self, item: usize, language: Language) -> Option<String> {
        let mix = self.pouring.mix();
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
            say!(
                language,
                "walk-reached",
                name = ingredient_words(language, line.ingredient()),
                is = language.figure(finer(is)),
                asked = language.figure(short(asked)),
            )
            .into_owned()
        })
    }
}

/// A name as it stands beside the scale. A curing agent's fraction is left out:
/// it is to be read from the packet, not from the screen.
fn shown_name(ingredient: &Ingredient, language: Language) -> String {
    match ingredient.agent() {
        Some(agent) => marked(language, agent),
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
fn brine_words(mix: &Mix, language: Language) -> Option<String> {
    let mut masses = [Mass::ZERO; 3];
    for (item, line) in mix.formula().items().iter().enumerate() {
        let at = brine_part(line.ingredient().name())?;
        masses[at] = mix.poured(item);
    }
    let [water, salt, sugar] = masses;
    let brine = Composition::weighed(salt, sugar, water).ok()?;
    let percent = |percent: f64| language.figure(format!("{percent:.3}"));
    Some(
        say!(
            language,
            "walk-brine",
            of_water = percent(brine.salt_of_water()),
            of_solution = percent(brine.salt_of_solution()),
        )
        .into_owned(),
    )
}

/// Whether a name is that of water, salt or sugar, in any of the languages.
fn brine_part(name: &str) -> Option<usize> {
    let name = name.to_lowercase();
    let of = |language| {
        [
            say!(language, "mixing-water"),
            say!(language, "mixing-salt"),
            say!(language, "mixing-sugar"),
        ]
    };
    Language::ALL
        .into_iter()
        .find_map(|language| of(language).iter().position(|part| *part == name))
}

/// What is put on record of a mass that came on unseen.
pub(super) fn gone_on_with(came: Mass, language: Language) -> String {
    let mass = language.figure(format!("{:+.1} g", came.grams()));
    say!(language, "mixing-note-gone-on", mass = mass).into_owned()
}

impl MixOnScale {
    /// The label was read again.
    pub(super) fn confirm(&mut self, text: &str) -> Result<(), Refusal> {
        let read = super::mixer::nitrite("label", text)?;
        Ok(self.pouring.confirm_label(read)?)
    }
}
