//! What a cook wishes for on the mixing screens, carried out.

use super::batches::{self, Around, Lists, STORE_EVERY};
use super::book_sheet::BookSheet;
use super::brine_sheet::BrineSheet;
use super::capturing::Capturing;
use super::entry::Typing;
use super::mix_on_scale::MixOnScale;
use super::recipe_draft::RecipeDraft;
use super::vessels::{self, BeingFilled};
use super::view::{MixView, UnfinishedView};
use super::{Field, NoLimits, Obstacle, Page, Refusal, Scene, Wish};
use crate::words::{Language, say};
use evenhand_kitchen::batch::{Batch, BatchId, Entry as Line, LossTarget, Mark, Schedule, What};
use evenhand_kitchen::brine::KnownVessel;
use evenhand_kitchen::cure::{NitriteFraction, PickUp, Ppm};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::ratio::{Awaited, Closeness, Form, MixError, Pouring, ScaleLook};
use evenhand_kitchen::units::{mass_positive, parse_percent, parse_span};
use evenhand_protocol::Mass;
use evenhand_store::Store;
use evenhand_use_cases::mixing::batch::mark_words;
use evenhand_use_cases::{limits, times};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

/// How soon to look at the scale again while something counts down.
const SOON: Duration = Duration::from_millis(100);

/// How old a mix may be that the app opens on after it was stopped in it.
const OFFERED: SignedDuration = SignedDuration::from_hours(24);

/// How many batches have room in the list.
const LEAF: usize = 7;
/// How many of the book's bowls have room, below a word on a broken file.
const BOOK_LEAF: usize = 6;

/// Everything a cook is in the middle of.
#[derive(Debug)]
pub struct Mixer {
    page: Page,
    entry: Option<Typing>,
    recipe_draft: RecipeDraft,
    mix_on_scale: Option<MixOnScale>,
    capturing: Option<Capturing>,
    batches: Vec<(BatchId, Batch)>,
    batch: Option<BatchId>,
    /// How many batches are later than those in the list.
    leaf: usize,
    book: BookSheet,
    compared: Option<String>,
    plotted: usize,
    of_first: bool,
    /// The batch whose cold store is written down, and when next.
    logging: Option<(BatchId, Timestamp)>,
    brine: BrineSheet,
    vessels: Vec<KnownVessel>,
    filling: Option<BeingFilled>,
    /// The limits in force, or why there are none: nothing is judged then.
    limits: Result<Limits, NoLimits>,
    zone: TimeZone,
    /// What is spoken on the screens.
    language: Language,
    /// The latest look, for what the view says of the scale.
    scene: Scene,
    now: Timestamp,
}

/// Whether a batch was begun and left before anything went into it.
fn came_to_nothing(batch: &Batch) -> bool {
    let put_aside = |(line, struck): (&Line, bool)| !struck && matches!(line.what, What::PutAside);
    batch.weighed_in().is_empty() && batch.entries().any(put_aside)
}

/// Where what is kept beside the store lies.
fn folder_of(store: &Store) -> &Path {
    store.path().parent().unwrap_or_else(|| Path::new(""))
}

/// The scale at rest.
pub(super) fn steady(scene: &Scene) -> Result<ScaleLook, Refusal> {
    Ok(scene
        .look
        .filter(|look| look.stable)
        .ok_or(Obstacle::NotSteady)?)
}

/// A nitrite fraction in per cent, as it stands on a label. A small bare
/// number may be a fraction of one written where per cent were asked for, and
/// is taken only with its sign.
pub(super) fn nitrite(field: &str, text: &str) -> Result<NitriteFraction, Refusal> {
    let text = text.trim();
    let with_sign = if text.ends_with('%') {
        text.to_owned()
    } else {
        let small = text.parse::<f64>().is_ok_and(|number| number < 0.3);
        if small {
            return Err(Obstacle::LowFraction(text.to_owned()).into());
        }
        format!("{text}%")
    };
    Ok(NitriteFraction::parse(field, &with_sign)?)
}

impl Mixer {
    /// Nothing under way. Times are told in `zone`.
    #[must_use]
    pub fn new(zone: TimeZone) -> Self {
        Self {
            page: Page::Start,
            entry: None,
            recipe_draft: RecipeDraft::new(Form::Parts, Language::English),
            mix_on_scale: None,
            capturing: None,
            batches: Vec::new(),
            batch: None,
            leaf: 0,
            book: BookSheet::default(),
            compared: None,
            plotted: 0,
            of_first: false,
            logging: None,
            brine: BrineSheet::new(),
            vessels: Vec::new(),
            filling: None,
            limits: Err(NoLimits::NotRead),
            zone,
            language: Language::English,
            scene: Scene::unknown(),
            now: Timestamp::UNIX_EPOCH,
        }
    }

    /// Speaks this language from now on.
    pub const fn speak(&mut self, language: Language) {
        self.language = language;
    }

    /// Reads again what is on record.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn reload(&mut self, store: &Store) -> Result<(), Refusal> {
        self.batches = store.batches()?;
        self.batches.retain(|(_, batch)| !came_to_nothing(batch));
        self.vessels = store.vessels()?;
        self.limits =
            limits::in_force(folder_of(store)).map_err(|error| NoLimits::Broken(Arc::new(error)));
        self.recipe_draft.limits.clone_from(&self.limits);
        Ok(())
    }

    /// Sets up another mix.
    fn set_up(&mut self, mut recipe_draft: RecipeDraft) {
        recipe_draft.limits.clone_from(&self.limits);
        self.recipe_draft = recipe_draft;
    }

    /// Whether something is under way that goes on behind other screens.
    #[must_use]
    pub const fn is_busy(&self) -> bool {
        self.mix_on_scale.is_some() || self.capturing.is_some() || self.logging.is_some()
    }

    /// How long until something happens though nothing comes from elsewhere.
    #[must_use]
    pub fn changes_in(&self) -> Option<Duration> {
        let counts = self
            .mix_on_scale
            .as_ref()
            .is_some_and(MixOnScale::counts_down)
            || self
                .capturing
                .as_ref()
                .is_some_and(|capturing| capturing.counts_down(&self.scene));
        (counts && self.scene.look.is_some()).then_some(SOON)
    }

    /// Takes in what the scale and the probe show.
    ///
    /// # Errors
    /// What could not be put on record (it waits to be), or what makes no
    /// sense on the scale.
    pub fn take_in(
        &mut self,
        scene: Scene,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<(), Refusal> {
        self.scene = scene;
        self.now = now;
        let walked = match &mut self.mix_on_scale {
            Some(mix_on_scale) => mix_on_scale.take(&scene, store, now, self.language),
            None => Ok(false),
        };
        let captured = match &mut self.capturing {
            Some(capturing) => capturing.take(&scene, store, now),
            None => Ok(false),
        };
        let logged = self.log_store(store);
        let (walked, captured, logged) = (walked?, captured?, logged?);
        if walked || captured || logged {
            self.reload(store)?;
        }
        Ok(())
    }

    fn log_store(&mut self, store: &mut Store) -> Result<bool, Refusal> {
        let (Some((id, next)), Some(temperature)) = (self.logging, self.scene.probe) else {
            return Ok(false);
        };
        if self.now < next {
            return Ok(false);
        }
        store.add_to_batch(
            id,
            &Line {
                at: self.now,
                what: What::Stored { temperature },
            },
        )?;
        let next = self.now.checked_add(STORE_EVERY).unwrap_or(Timestamp::MAX);
        self.logging = Some((id, next));
        Ok(true)
    }

    /// Carries out a wish.
    ///
    /// # Errors
    /// Why it came to nothing.
    pub fn carry_out(
        &mut self,
        wish: Wish,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<(), Refusal> {
        self.now = now;
        // Not read yet, or not to be used when they were: the file may be right by now.
        if self.limits.is_err() {
            self.reload(store)?;
        }
        match wish {
            Wish::Show(page) => {
                self.entry = None;
                self.reload(store)?;
                // Two lists are turned over by one leaf; each begins at its own first.
                if page == Page::Book || self.page == Page::Book {
                    self.leaf = 0;
                }
                if page == Page::Book {
                    self.book = BookSheet::read(folder_of(store));
                }
                self.show(page);
            }
            Wish::Ask(field) => self.entry = Some(Typing::new(field)),
            Wish::Type(text) => {
                if let Some(entry) = &mut self.entry {
                    entry.text = text;
                }
            }
            Wish::Leave => self.entry = None,
            Wish::Enter => self.enter(store)?,
            wish @ (Wish::RecipeDraft(_)
            | Wish::SketchCure(_)
            | Wish::AnotherCure
            | Wish::AsLastTime(_)
            | Wish::FromBook(_)
            | Wish::Flour(_)
            | Wish::Drop(_)
            | Wish::AnyAmount
            | Wish::Closer
            | Wish::AgentContents(_)
            | Wish::Skin
            | Wish::Weigh) => self.on_the_sketch(wish, store)?,
            Wish::Resume(id) => self.resume(id, store)?,
            Wish::PutAside(id) => {
                let what = What::PutAside;
                store.add_to_batch(id, &Line { at: now, what })?;
                self.reload(store)?;
            }
            Wish::InVessel(vessel) => self.in_vessel(vessel),
            wish @ (Wish::Choose(_)
            | Wish::ThatWas(_)
            | Wish::Mistaken
            | Wish::GoOn
            | Wish::AsItStands
            | Wish::TakenOut
            | Wish::Finish
            | Wish::Abandon
            | Wish::Capture
            | Wish::ThatWentIn
            | Wish::MoreOfThat) => self.on_the_scale(wish, store)?,
            Wish::Check(step) => self.brine.weigh(step, &self.scene, &self.vessels)?,
            Wish::MixThis => {
                let strength = self.brine.strength().ok_or(Obstacle::NoStrength)?;
                let mut recipe_draft = RecipeDraft::new(Form::OfWater, self.language);
                let line = recipe_draft.add(&say!(self.language, "mixing-salt"))?;
                recipe_draft.number(line, &strength.of_water().percent().to_string())?;
                self.set_up(recipe_draft);
                self.show(Page::RecipeDraft);
            }
            Wish::UseProbe => self.brine.use_probe(),
            Wish::SugarUnknown => {
                self.brine.sugar_unknown();
                self.brine.tell(&self.scene, &self.vessels);
            }
            Wish::Fill(step) => {
                if let Some(filling) = &mut self.filling
                    && filling.weigh(step, &self.scene, store, now)?
                {
                    self.filling = None;
                    self.reload(store)?;
                }
            }
            Wish::Material => {
                if let Some(filling) = &mut self.filling {
                    filling.other_material();
                }
            }
            Wish::Retire(nth) => {
                if let Some(vessel) = self.vessels.get(nth) {
                    store.retire_vessel(&vessel.name, now)?;
                    self.recipe_draft.vessel = None;
                    self.brine.choose_vessel(None, &[]);
                    self.reload(store)?;
                }
            }
            wish => self.on_a_batch(wish, store)?,
        }
        Ok(())
    }

    const fn show(&mut self, page: Page) {
        self.page = page;
    }

    // What is typed.

    fn enter(&mut self, store: &mut Store) -> Result<(), Refusal> {
        let Some(entry) = self.entry.clone() else {
            return Ok(());
        };
        let (field, text) = (entry.field, entry.text.trim().to_owned());
        self.entered(&entry, store)
            .map_err(|refusal| match refusal {
                Refusal::Input(_) => Refusal::Typed { field, text },
                other => other,
            })
    }

    fn entered(&mut self, entry: &Typing, store: &mut Store) -> Result<(), Refusal> {
        let text = entry.typed(self.language);
        let with_unit = entry.with_unit(self.language);
        match entry.field {
            Field::Title => self.titled(&text, store)?,
            Field::NewName => {
                let line = self.recipe_draft.add(&text)?;
                self.entry = Some(Typing::new(Field::Number(line)));
                return Ok(());
            }
            Field::Rename(line) => self.recipe_draft.rename(line, &text)?,
            Field::Number(line) => self.recipe_draft.number(line, &text)?,
            Field::Amount(line) => {
                let mass = mass_positive(self.recipe_draft.name(line), &with_unit)?;
                self.recipe_draft.set_amount(line, mass);
            }
            Field::SlotName(slot) => {
                let now = self.now;
                if let Some(capturing) = &mut self.capturing {
                    capturing.name(slot, &text, store, now)?;
                    self.reload(store)?;
                }
            }
            Field::AgentName | Field::Fraction | Field::Ppm | Field::PickUp => {
                self.cure_field(entry.field, &text)?;
            }
            Field::LabelAgain => {
                if let Some(mix_on_scale) = &mut self.mix_on_scale {
                    mix_on_scale.confirm(&text)?;
                }
            }
            Field::Note => self.add(What::Noted { text }, store)?,
            Field::Tasting(mark) => {
                let mark = Mark::new("mark", mark)?;
                self.add(What::Tasted { mark, note: text }, store)?;
            }
            Field::DueIn => {
                let due = self
                    .now
                    .checked_add(parse_span("time", &with_unit)?)
                    .map_err(|_| Obstacle::BeyondCalendar)?;
                let plan = Schedule::new(self.now, due, None)?;
                self.add(What::Planned { plan }, store)?;
                self.entry = Some(Typing::new(Field::TurnEvery));
                return Ok(());
            }
            Field::TurnEvery => self.turn_every(&text, &with_unit, store)?,
            Field::Loss => {
                let look = steady(&self.scene)?;
                let percent = parse_percent("per cent", &text)?;
                let target = LossTarget::new(look.mass, percent)?;
                self.add(What::ToLose { target }, store)?;
            }
            Field::Change(item) => {
                let percent = parse_percent("per cent", &text)?;
                self.again_with(Some((item, percent)), store)?;
            }
            Field::Strength(said) => {
                let scene = self.scene;
                self.brine.say(said, &with_unit, &scene)?;
            }
            Field::BrineAt => self.brine.set_at(&with_unit)?,
            Field::Sugar => {
                self.brine.set_sugar(&with_unit)?;
                self.brine.tell(&self.scene, &self.vessels);
            }
            Field::CorrectTo => self.brine.correct_to(&with_unit)?,
            Field::BrineMass => self.brine.set_mass(&with_unit)?,
            Field::VesselName => self.filling = Some(BeingFilled::new(&text)?),
        }
        self.entry = None;
        Ok(())
    }

    fn titled(&mut self, title: &str, store: &mut Store) -> Result<(), Refusal> {
        if title.is_empty() {
            return Err(Obstacle::NoTitle.into());
        }
        let now = self.now;
        match (self.page, &mut self.capturing) {
            (Page::Capture, Some(capturing)) => {
                capturing.titled(title, store, now)?;
                self.reload(store)
            }
            (Page::Batch, _) => self.add(
                What::Titled {
                    title: title.to_owned(),
                },
                store,
            ),
            _ => {
                title.clone_into(&mut self.recipe_draft.title);
                Ok(())
            }
        }
    }

    fn cure_field(&mut self, field: Field, text: &str) -> Result<(), Refusal> {
        let Some(cure) = &mut self.recipe_draft.cure else {
            return Ok(());
        };
        match field {
            Field::AgentName => text.clone_into(&mut cure.agent),
            Field::Fraction => cure.fraction = Some(nitrite("nitrite fraction", text)?),
            Field::Ppm => cure.ppm = Some(Ppm::parse("ingoing nitrite", text)?),
            _ => cure.pick_up = Some(PickUp::parse("share taken up", text)?),
        }
        Ok(())
    }

    fn turn_every(
        &mut self,
        text: &str,
        with_unit: &str,
        store: &mut Store,
    ) -> Result<(), Refusal> {
        let never = text.is_empty() || text.parse::<f64>().is_ok_and(|number| number == 0.0);
        let Some(plan) = self.chosen().and_then(|(_, batch)| batch.plan()) else {
            return Ok(());
        };
        if !never {
            let plan = Schedule::new(
                plan.into_brine(),
                plan.due(),
                Some(parse_span("time", with_unit)?),
            )?;
            self.add(What::Planned { plan }, store)?;
        }
        Ok(())
    }

    // The recipe draft.

    fn on_the_sketch(&mut self, wish: Wish, store: &Store) -> Result<(), Refusal> {
        match wish {
            Wish::RecipeDraft(form) => {
                self.set_up(RecipeDraft::new(form, self.language));
                self.show(Page::RecipeDraft);
            }
            Wish::SketchCure(method) => {
                self.set_up(RecipeDraft::cure(method, self.language));
                self.show(Page::Cure);
            }
            Wish::AnotherCure => {
                self.set_up(RecipeDraft::new(Form::Parts, self.language));
                self.show(Page::Cure);
            }
            Wish::AsLastTime(title) => {
                self.reload(store)?;
                let batch = batches::latest(&self.batches, &title)
                    .ok_or_else(|| Obstacle::NotNamedThrough(title.clone()))?;
                let recipe_draft = RecipeDraft::of(&batch.as_formula()?, &title, self.language)?;
                self.set_up(recipe_draft);
                self.show(Page::RecipeDraft);
            }
            Wish::FromBook(row) => {
                let (title, ratio) = self
                    .book
                    .bowl(self.leaf + row)
                    .ok_or(Obstacle::BookChanged)?;
                let recipe_draft = RecipeDraft::of(ratio, &title, self.language)?;
                self.set_up(recipe_draft);
                self.show(Page::RecipeDraft);
            }
            Wish::Flour(line) => self.recipe_draft.flour(line),
            Wish::Drop(line) => self.recipe_draft.drop_line(line),
            Wish::AnyAmount => self.recipe_draft.any_amount(),
            Wish::Closer => self.recipe_draft.closer(),
            Wish::AgentContents(contents) => {
                if let Some(cure) = &mut self.recipe_draft.cure {
                    cure.contents = contents;
                }
            }
            Wish::Skin => {
                if let Some(cure) = &mut self.recipe_draft.cure {
                    cure.skin_on = !cure.skin_on;
                }
            }
            _ => self.weigh()?,
        }
        Ok(())
    }

    fn in_vessel(&mut self, vessel: Option<usize>) {
        if self.page == Page::Brine {
            self.brine.choose_vessel(vessel, &self.vessels);
        } else {
            self.recipe_draft.vessel = vessel;
        }
    }

    fn nothing_under_way(&self) -> Result<(), Refusal> {
        if self
            .mix_on_scale
            .as_ref()
            .is_some_and(|w| w.batch().is_some())
        {
            return Err(Obstacle::AnotherMix.into());
        }
        Ok(())
    }

    /// Onto the scale again with a mix that the program was stopped in.
    fn resume(&mut self, id: BatchId, store: &Store) -> Result<(), Refusal> {
        self.nothing_under_way()?;
        let batch = store.batch(id)?;
        if let Some(vessel) = batch.as_you_go() {
            let least = self.scene.least().max(Mass::from_grams(1));
            self.capturing = Some(Capturing::resumed(id, &batch, vessel, least));
            self.mix_on_scale = None;
            self.page = Page::Capture;
            return Ok(());
        }
        let aim = batch.under_way().ok_or(Obstacle::NotUnderWay)?;
        let (close, least) = (aim.closeness_percent(), self.scene.least());
        let closeness = Closeness::on_scale(close, least, self.scene.error())?;
        let mix = aim.mix(&batch, closeness, self.limits.as_ref().ok())?;
        let pouring = Pouring::resumed(
            mix,
            least,
            self.scene.capacity,
            aim.vessel_takes(),
            aim.vessel(),
        );
        self.mix_on_scale = Some(MixOnScale::resumed(id, &batch, pouring, close, least));
        self.capturing = None;
        self.page = Page::Pouring;
        Ok(())
    }

    /// The latest mix that the program was stopped in, with when something was
    /// weighed in last.
    fn unfinished(&self) -> Option<(Timestamp, UnfinishedView)> {
        let walked = self.mix_on_scale.as_ref().and_then(MixOnScale::batch);
        let captured = self.capturing.as_ref().and_then(Capturing::batch);
        self.batches.iter().find_map(|(id, batch)| {
            if [walked, captured].contains(&Some(*id)) {
                return None;
            }
            let weighed = batch.weighed_in();
            let weighed = weighed.iter().filter(|slot| slot.mass > Mass::ZERO).count();
            let language = self.language;
            let (of, nameless) = match (batch.under_way(), batch.as_you_go()) {
                (Some(aim), _) => (Some(aim.count()), say!(language, "mixing-no-name")),
                (None, Some(_)) => (None, say!(language, "mixing-weighing-as-you-go")),
                (None, None) => return None,
            };
            let at = batch.last_weighed().or_else(|| batch.begun())?;
            let today = self.now.to_zoned_datetime(self.zone.clone()).date();
            let at_time = times::near(language, at, today, &self.zone);
            let about = match of {
                Some(of) => say!(
                    language,
                    "mixing-weighed-of",
                    count = weighed,
                    of = of,
                    at = at_time,
                ),
                None => say!(language, "mixing-weighed", count = weighed, at = at_time),
            }
            .into_owned();
            let title = batch
                .title()
                .map_or_else(|| nameless.into_owned(), str::to_owned);
            Some((
                at,
                UnfinishedView {
                    id: *id,
                    title,
                    about,
                },
            ))
        })
    }

    /// Whether a mix that the program was stopped in is to be offered at once:
    /// something was weighed in within a day.
    #[must_use]
    pub fn offers_to_go_on(&self, now: Timestamp) -> bool {
        self.unfinished()
            .is_some_and(|(at, _)| now.duration_since(at) < OFFERED)
    }

    /// Onto the scale with the ratio.
    fn weigh(&mut self) -> Result<(), Refusal> {
        self.nothing_under_way()?;
        let mix = self.recipe_draft.mix(&self.scene)?;
        let takes = self
            .recipe_draft
            .vessel
            .and_then(|nth| self.vessels.get(nth))
            .map(|vessel| vessel.filling.water);
        let pouring = Pouring::new(mix, self.scene.least(), self.scene.capacity, takes);
        self.mix_on_scale = Some(MixOnScale::new(
            &self.recipe_draft.title,
            pouring,
            self.recipe_draft.closeness_percent(),
            self.scene.least(),
        ));
        self.capturing = None;
        self.page = Page::Pouring;
        Ok(())
    }

    // The scale.

    fn on_the_scale(&mut self, wish: Wish, store: &mut Store) -> Result<(), Refusal> {
        let (scene, now, language) = (self.scene, self.now, self.language);
        match wish {
            Wish::Capture => {
                self.nothing_under_way()?;
                self.mix_on_scale = None;
                let under_way = self.capturing.as_ref().and_then(Capturing::batch);
                if under_way.is_some() {
                    self.show(Page::Capture);
                    return Ok(());
                }
                self.capturing = Some(Capturing::new(self.scene.least().max(Mass::from_grams(1))));
                self.show(Page::Capture);
                return Ok(());
            }
            Wish::MoreOfThat => {
                if let Some(capturing) = &mut self.capturing {
                    capturing.more_of_that(store, now)?;
                }
                return self.reload(store);
            }
            Wish::AsItStands if self.page == Page::Capture => {
                if let Some(capturing) = &mut self.capturing {
                    capturing.as_it_stands(store, now, self.language)?;
                }
                return self.reload(store);
            }
            Wish::ThatWentIn => {
                if let Some(capturing) = &mut self.capturing {
                    capturing.that_went_in(scene.probe, store, now)?;
                }
                return self.reload(store);
            }
            Wish::Finish | Wish::Abandon if self.page == Page::Capture => {
                let batch = match &mut self.capturing {
                    Some(capturing) => capturing.done(store, now)?,
                    None => None,
                };
                self.capturing = None;
                return self.show_batch(batch, store);
            }
            _ => {}
        }
        let Some(mix_on_scale) = &mut self.mix_on_scale else {
            return Ok(());
        };
        match wish {
            Wish::Choose(item) => mix_on_scale.pouring().choose(item)?,
            Wish::Mistaken => mix_on_scale.mistaken = !mix_on_scale.mistaken,
            Wish::ThatWas(item) => {
                let steps = mix_on_scale.pouring().that_was(item)?;
                mix_on_scale.mistaken = false;
                mix_on_scale.record(&steps, scene.probe, store, now, language)?;
                self.reload(store)?;
            }
            Wish::GoOn => {
                let steps = mix_on_scale.pouring().go_on_now()?;
                mix_on_scale.record(&steps, scene.probe, store, now, language)?;
                self.reload(store)?;
            }
            Wish::AsItStands => {
                mix_on_scale.as_it_stands(store, now, language)?;
                self.reload(store)?;
            }
            Wish::TakenOut => {
                mix_on_scale.some_was_taken_out(store, now)?;
                self.reload(store)?;
            }
            Wish::Finish => {
                let id = mix_on_scale.finish(store, self.limits.as_ref(), now, language)?;
                self.mix_on_scale = None;
                self.show_batch(Some(id), store)?;
            }
            _ => {
                let id = mix_on_scale.abandon(store, now, language)?;
                self.mix_on_scale = None;
                self.show_batch(id, store)?;
            }
        }
        Ok(())
    }

    /// Shows the batch that was just made, or the start where there is none.
    fn show_batch(&mut self, batch: Option<BatchId>, store: &Store) -> Result<(), Refusal> {
        self.batch = batch;
        self.show(if batch.is_some() {
            Page::Batch
        } else {
            Page::Start
        });
        self.reload(store)
    }

    // Batches.

    fn chosen(&self) -> Option<&(BatchId, Batch)> {
        let chosen = self.batch?;
        self.batches.iter().find(|(id, _)| *id == chosen)
    }

    fn add(&mut self, what: What, store: &mut Store) -> Result<(), Refusal> {
        let id = self.batch.ok_or(Obstacle::NoBatch)?;
        store.add_to_batch(id, &Line { at: self.now, what })?;
        self.reload(store)
    }

    fn on_a_batch(&mut self, wish: Wish, store: &mut Store) -> Result<(), Refusal> {
        match wish {
            Wish::Open(id) => {
                self.batch = Some(id);
                self.reload(store)?;
                self.show(Page::Batch);
            }
            Wish::Turned => self.add(What::Turned, store)?,
            Wish::CameOut => self.add(What::CameOut, store)?,
            Wish::Reweigh => {
                let mass = steady(&self.scene)?.mass;
                if mass <= Mass::ZERO {
                    return Err(Obstacle::NothingOn.into());
                }
                self.add(What::Reweighed { mass }, store)?;
            }
            Wish::Mark(mark) => self.entry = Some(Typing::new(Field::Tasting(mark))),
            Wish::Again => self.again_with(None, store)?,
            Wish::AgainWith(item, percent) => {
                self.again_with(Some((item, f64::from(percent))), store)?;
            }
            Wish::LogStore => {
                self.logging = match (self.logging, self.batch) {
                    (Some((logged, _)), Some(chosen)) if logged == chosen => None,
                    (_, Some(chosen)) => Some((chosen, self.now)),
                    (_, None) => None,
                };
                if self.log_store(store)? {
                    self.reload(store)?;
                }
            }
            Wish::Compare => {
                self.compared = self
                    .chosen()
                    .and_then(|(_, batch)| batch.title().map(str::to_owned));
                self.plotted = 0;
                if self.compared.is_none() {
                    return Err(Obstacle::Untitled.into());
                }
                self.page = Page::Compare;
            }
            Wish::Earlier if self.leaf + self.on_a_leaf() < self.leaves() => {
                self.leaf += self.on_a_leaf();
            }
            Wish::Later => self.leaf = self.leaf.saturating_sub(self.on_a_leaf()),
            Wish::Plot(nth) => self.plotted = nth,
            Wish::ShareOf => self.of_first = !self.of_first,
            // Everything else was carried out before.
            _ => {}
        }
        Ok(())
    }

    /// Mixes the chosen batch again, at once, with one ingredient more or less.
    fn again_with(&mut self, more: Option<(usize, f64)>, store: &Store) -> Result<(), Refusal> {
        self.reload(store)?;
        let (_, batch) = self.chosen().ok_or(Obstacle::NoBatch)?;
        let mut formula = batch.as_formula()?;
        if let Some((item, percent)) = more {
            let names: Vec<String> = batch
                .weighed_in()
                .into_iter()
                .filter(|slot| slot.mass > Mass::ZERO)
                .filter_map(|slot| slot.ingredient.map(|name| name.name().to_owned()))
                .collect();
            let name = names.get(item).ok_or(MixError::NoSuchItem(item))?;
            formula = formula.with_more(name, percent)?;
        }
        let title = batch.title().unwrap_or_default().to_owned();
        self.set_up(RecipeDraft::of(&formula, &title, self.language)?);
        self.weigh()
    }

    // What is shown.

    /// What the screens show.
    #[must_use]
    pub fn view(&self) -> MixView {
        let lists = Lists {
            now: self.now,
            interval: self.scene.interval,
            zone: &self.zone,
            language: self.language,
        };
        let batch = self.chosen();
        MixView {
            page: self.page,
            entry: self.entry.as_ref().map(|entry| {
                entry.view(
                    &self.about(entry.field),
                    self.picks(entry.field),
                    self.language,
                )
            }),
            titles: batches::titles(&self.batches),
            book: self.book.rows(self.leaf, BOOK_LEAF),
            book_trouble: self.book.trouble(self.language),
            due: batches::due(&self.batches, &lists),
            under_way: self.under_way(),
            unfinished: self.unfinished().map(|(_, unfinished)| unfinished),
            recipe_draft: self
                .recipe_draft
                .view(&self.vessels, &self.scene, self.language),
            pouring: self
                .mix_on_scale
                .as_ref()
                .map(|mix_on_scale| mix_on_scale.view(&self.scene, self.language)),
            capture: self
                .capturing
                .as_ref()
                .map(|capturing| capturing.view(&self.scene, self.language)),
            batches: self
                .batches
                .iter()
                .skip(self.leaf)
                .take(LEAF)
                .map(|(id, batch)| batches::row(*id, batch, &lists))
                .collect(),
            leaf: if self.leaves() > self.on_a_leaf() {
                say!(
                    self.language,
                    "mixing-leaf",
                    first = self.leaf + 1,
                    last = (self.leaf + self.on_a_leaf()).min(self.leaves()),
                    all = self.leaves(),
                )
                .into_owned()
            } else {
                String::new()
            },
            has_later: self.leaf > 0,
            has_earlier: self.leaf + self.on_a_leaf() < self.leaves(),
            batch: batch.map(|(id, batch)| {
                batches::view(
                    *id,
                    batch,
                    &Around {
                        batches: &self.batches,
                        scene: &self.scene,
                        lists,
                        logs_store: self.logging.is_some_and(|(logged, _)| logged == *id),
                        limits: self.limits.as_ref(),
                    },
                )
            }),
            compare: self.compared.as_ref().map(|title| {
                batches::compare(&self.batches, title, self.of_first, self.plotted, &lists)
            }),
            brine: self.brine.view(&self.scene, &self.vessels, self.language),
            vessels: vessels::view(&self.vessels, self.filling.as_ref(), self.language),
        }
    }

    /// How many rows of the list on the page have room.
    const fn on_a_leaf(&self) -> usize {
        match self.page {
            Page::Book => BOOK_LEAF,
            _ => LEAF,
        }
    }

    /// How many rows the list on the page has in all.
    const fn leaves(&self) -> usize {
        match self.page {
            Page::Book => self.book.len(),
            _ => self.batches.len(),
        }
    }

    fn under_way(&self) -> Option<String> {
        match (&self.mix_on_scale, &self.capturing) {
            (Some(mix_on_scale), _) => Some(match mix_on_scale.stage() {
                Awaited::Finished => {
                    let title = mix_on_scale.title(self.language);
                    say!(self.language, "mixing-all-in-of", title = title).into_owned()
                }
                _ => mix_on_scale.title(self.language),
            }),
            (None, Some(_)) => Some(say!(self.language, "mixing-weighing-as-you-go").into_owned()),
            (None, None) => None,
        }
    }

    /// What a field is about, where its caption alone does not say.
    fn about(&self, field: Field) -> String {
        match field {
            Field::Number(line) | Field::Amount(line) | Field::Rename(line) => {
                let name = self.recipe_draft.name(line);
                match field {
                    Field::Number(_) => {
                        format!("{name}, {}", self.recipe_draft.numbers_are(self.language))
                    }
                    _ => name.to_owned(),
                }
            }
            Field::Tasting(mark) => Mark::new("mark", mark)
                .map_or_else(|_| String::new(), |mark| mark_words(self.language, mark)),
            Field::Change(item) => self
                .chosen()
                .and_then(|(_, batch)| {
                    batch
                        .weighed_in()
                        .into_iter()
                        .filter(|slot| slot.mass > Mass::ZERO)
                        .nth(item)?
                        .ingredient
                })
                .map_or_else(String::new, |name| name.name().to_owned()),
            _ => String::new(),
        }
    }

    fn picks(&self, field: Field) -> Vec<String> {
        let mut picks = match field {
            Field::NewName | Field::Rename(_) | Field::SlotName(_) => {
                batches::names(&self.batches, self.language)
            }
            Field::Title => batches::titles(&self.batches),
            _ => Vec::new(),
        };
        if field == Field::NewName {
            picks.retain(|pick| !self.recipe_draft.has(pick));
        }
        picks.truncate(6);
        picks
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fraction_of_one_is_never_taken_for_per_cent() {
        assert!((nitrite("f", "6.25").unwrap().parts() - 0.0625).abs() < 1e-12);
        assert!((nitrite("f", "0.5").unwrap().parts() - 0.005).abs() < 1e-12);
        let why = nitrite("f", "0.0625").unwrap_err().to_string();
        assert!(why.contains("6.25 %"), "{why}");
        assert!((nitrite("f", "0.0625%").unwrap().parts() - 0.000_625).abs() < 1e-12);
        for bad in ["", "0", "101", "much", "-6.25"] {
            assert!(nitrite("f", bad).is_err(), "{bad}");
        }
    }
}
