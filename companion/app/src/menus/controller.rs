//! What a cook wishes for on the screens of menus, carried out.

use super::label::LabelSheet;
use super::refusal::{refused_words, thing};
use super::typed::Typing;
use super::wish::Leaving;
use super::worker::{self, Answer, OnRecord, Question, Worker};
use super::{Asked, Copied, MenuPage, MenuWish, MenusRefusal, MenusView};
use crate::state::Screen;
use crate::words::{Language, say};
use crate::worker::NoWorker;
use evenhand_kitchen::prep::{MenuDraft, MenuKey, MenuPlace, WrittenMenu};
use evenhand_kitchen::units::InputError;
use evenhand_store::Store;
use evenhand_use_cases::prep::{KeptMenu, file_error_words};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::io;
use std::path::PathBuf;

/// The menu being written.
#[derive(Debug)]
pub(super) struct Written {
    pub(super) draft: MenuDraft,
    /// The day that it is for alone; for every day, if none.
    pub(super) day: Option<Date>,
    /// As it is on record; `None` where it is not.
    kept: Option<(MenuDraft, Option<Date>)>,
    /// The text that it was made from, whose remarks it keeps.
    text: String,
    /// What was last done with it.
    pub(super) news: Option<News>,
}

/// What was last done with a menu.
#[derive(Debug)]
pub(super) enum News {
    /// It was kept.
    Kept(KeptMenu),
    /// It was written into files.
    Files(Vec<PathBuf>),
    /// It was brought in from a file.
    From(PathBuf),
}

impl Written {
    fn new(draft: MenuDraft) -> Self {
        Self {
            draft,
            day: None,
            kept: None,
            text: String::new(),
            news: None,
        }
    }

    /// Whether something of it is not on record.
    pub(super) fn is_changed(&self) -> bool {
        let kept = self.kept.as_ref();
        kept.is_none_or(|(draft, day)| *draft != self.draft || *day != self.day)
    }

    pub(super) const fn is_on_record(&self) -> bool {
        self.kept.is_some()
    }
}

/// What is asked of the cook before something is lost.
#[derive(Debug, Clone, Copy)]
pub(super) enum Asking {
    /// Take this out?
    Remove(MenuPlace),
    /// Leave what is not kept?
    Leave(Leaving),
    /// Is what was left of a batch gone?
    Gone,
}

/// Everything a cook is in the middle of with menus.
#[derive(Debug)]
pub struct Menus {
    pub(super) page: MenuPage,
    entry: Option<Typing>,
    pub(super) asking: Option<Asking>,
    pub(super) written: Option<Written>,
    pub(super) record: Option<OnRecord>,
    pub(super) files: Vec<PathBuf>,
    pub(super) labels: LabelSheet,
    worker: Worker,
    /// The other screen that somebody goes to.
    gone: Option<Screen>,
    /// A menu was kept that the prep does not know of.
    kept: bool,
    pub(super) language: Language,
    pub(super) zone: TimeZone,
}

impl Menus {
    /// Nothing under way. `changed` is called, from another thread, when something was
    /// answered.
    ///
    /// # Errors
    /// Where the system gives no thread.
    pub fn start(
        store: Store,
        zone: TimeZone,
        changed: impl Fn() + Send + 'static,
    ) -> io::Result<Self> {
        Ok(Self {
            page: MenuPage::default(),
            entry: None,
            asking: None,
            written: None,
            record: None,
            files: Vec::new(),
            labels: LabelSheet::default(),
            worker: worker::start(store, zone.clone(), changed)?,
            gone: None,
            kept: false,
            language: Language::default(),
            zone,
        })
    }

    /// Speaks this language from now on.
    pub const fn speak(&mut self, language: Language) {
        self.language = language;
    }

    /// Whether a menu is being written that is not kept as it is.
    #[must_use]
    pub fn is_unkept(&self) -> bool {
        self.written.as_ref().is_some_and(Written::is_changed)
    }

    /// Asks whether to leave what is not kept for another screen.
    pub fn ask_to_leave(&mut self, screen: Screen) {
        self.entry = None;
        self.asking = Some(Asking::Leave(Leaving::To(screen)));
    }

    /// The other screen that somebody goes to, once.
    pub const fn gone(&mut self) -> Option<Screen> {
        self.gone.take()
    }

    /// Whether a menu was kept, once.
    pub const fn was_kept(&mut self) -> bool {
        std::mem::replace(&mut self.kept, false)
    }

    /// Carries out a wish.
    ///
    /// # Errors
    /// Why it came to nothing.
    pub fn carry_out(&mut self, wish: MenuWish, now: Timestamp) -> Result<(), MenusRefusal> {
        match wish {
            MenuWish::Show(page) => self.show(page, now)?,
            MenuWish::Done => self.leave(Leaving::To(Screen::Prep), now)?,
            MenuWish::Ask(asked) => {
                let said = match (asked, &self.written) {
                    (Asked::Said(place, key), Some(written)) => written.draft.said(place, key),
                    _ => None,
                };
                self.entry = Some(Typing::with(asked, said));
            }
            MenuWish::Type(text) => {
                if let Some(entry) = &mut self.entry {
                    entry.text = text;
                }
            }
            MenuWish::Leave => self.entry = None,
            MenuWish::Enter => self.enter(now)?,
            MenuWish::Open(nth) => self.open(nth)?,
            MenuWish::Begin(Copied::Empty) => {
                self.written = Some(Written::new(MenuDraft::new()));
                self.page = MenuPage::Menu;
                self.ask_for(MenuPlace::Menu, MenuKey::Opens);
            }
            MenuWish::Begin(Copied::Of(day)) => self.ask(Question::Copy(day))?,
            MenuWish::Import(nth) => {
                if let Some(path) = self.files.get(nth).cloned() {
                    self.ask(Question::Import(path))?;
                }
            }
            MenuWish::ImportFile(path) => {
                if self.is_unkept() {
                    return Err(MenusRefusal::Unkept);
                }
                self.ask(Question::Import(path))?;
            }
            MenuWish::Keep => self.keep(now)?,
            MenuWish::Drop => {
                let Some(Asking::Leave(leaving)) = self.asking.take() else {
                    return Ok(());
                };
                self.written = None;
                self.leave(leaving, now)?;
            }
            MenuWish::Stay => self.asking = None,
            MenuWish::LabelsOf(day) => {
                self.ask(Question::Labels(Some(day), now))?;
            }
            MenuWish::LabelOf(nth) => {
                self.labels.show(nth);
                self.page = MenuPage::Label;
            }
            MenuWish::AskGone => self.asking = Some(Asking::Gone),
            MenuWish::Gone => {
                self.asking = None;
                if let Some(question) = self.labels.gone(now) {
                    self.ask(question)?;
                }
            }
            MenuWish::Pdf | MenuWish::Png => {
                let png = wish == MenuWish::Png;
                if let Some(question) = self.labels.print(png, self.language) {
                    self.ask(question)?;
                }
            }
            wish => self.change(wish)?,
        }
        Ok(())
    }

    /// Changes the menu being written.
    fn change(&mut self, wish: MenuWish) -> Result<(), MenusRefusal> {
        let Some(written) = &mut self.written else {
            return Ok(());
        };
        written.news = None;
        let draft = &mut written.draft;
        match wish {
            MenuWish::Export => {
                let menu = self.whole()?;
                let day = self.written.as_ref().and_then(|written| written.day);
                self.ask(Question::Export(day, Box::new(menu)))?;
            }
            MenuWish::Turn(place, key) => draft.turn(place, key),
            MenuWish::TurnListed(place, key, value) => {
                draft
                    .turn_listed(place, key, &value)
                    .map_err(|error| typed(Asked::Said(place, key), &error))?;
            }
            MenuWish::Need(p, s, resource) => {
                let needs = draft.needs(p, s);
                let need = needs.iter().find(|need| need.resource == resource);
                let places = need.map_or(0, |need| need.places);
                let nth = draft.resources().position(|known| known == resource);
                let has = nth
                    .and_then(|nth| draft.said(MenuPlace::Resource(nth), MenuKey::Places))
                    .and_then(|places| places.parse().ok())
                    .unwrap_or(0);
                let more = if places < has { places + 1 } else { 0 };
                draft.need(p, s, &resource, more);
            }
            MenuWish::ForSkill(p, s, skill) => {
                let skill = skill.unwrap_or_default();
                let asked = Asked::Said(MenuPlace::Step(p, s), MenuKey::Skill);
                draft
                    .say(MenuPlace::Step(p, s), MenuKey::Skill, &skill)
                    .map_err(|error| typed(asked, &error))?;
            }
            MenuWish::TurnWaits(step, on) => draft.turn_waits(step, on),
            MenuWish::WaitForNone(p, s, none) => draft.wait_for_none(p, s, none),
            MenuWish::NoAllergens(p, none) => draft.no_allergens(p, none),
            MenuWish::NoBatch(p) => {
                draft.no_batch(p);
                self.page = MenuPage::Preparation(p);
            }
            MenuWish::Move(p, s, up) => {
                self.page = MenuPage::Step(p, draft.move_step(p, s, up));
            }
            MenuWish::AskToRemove(place) => self.asking = Some(Asking::Remove(place)),
            MenuWish::Remove(place) => {
                draft.remove(place);
                self.asking = None;
                self.page = above(place);
            }
            MenuWish::ShowWrong => {
                if let Err(refused) = draft.written()
                    && let Some((place, key)) = refused.at
                {
                    self.page = page_of(place, key);
                }
            }
            // Everything else was carried out before.
            _ => {}
        }
        Ok(())
    }

    fn show(&mut self, page: MenuPage, now: Timestamp) -> Result<(), MenusRefusal> {
        if self.page.is_of_the_draft() && !page.is_of_the_draft() && self.is_unkept() {
            return self.leave(Leaving::ToList, now);
        }
        if page.is_of_the_draft() && self.written.is_none() {
            return self.show(MenuPage::List, now);
        }
        self.page = page;
        self.entry = None;
        match page {
            MenuPage::List | MenuPage::Start => self.ask(Question::List(now))?,
            MenuPage::Files => self.ask(Question::Files)?,
            MenuPage::Labels => self.ask(Question::Labels(self.labels.day(), now))?,
            _ => {}
        }
        Ok(())
    }

    fn leave(&mut self, leaving: Leaving, now: Timestamp) -> Result<(), MenusRefusal> {
        if self.is_unkept() {
            self.asking = Some(Asking::Leave(leaving));
            return Ok(());
        }
        self.written = None;
        self.entry = None;
        match leaving {
            Leaving::ToList => self.show(MenuPage::List, now),
            Leaving::To(screen) => {
                self.gone = Some(screen);
                Ok(())
            }
        }
    }

    fn open(&mut self, nth: usize) -> Result<(), MenusRefusal> {
        let record = self.record.as_ref();
        let Some(known) = record.and_then(|record| record.menus.get(nth)) else {
            return Ok(());
        };
        let menu = match &known.menu {
            Ok(menu) => menu,
            Err(error) => {
                let why = file_error_words(self.language, error);
                return Err(MenusRefusal::Menu(why));
            }
        };
        let draft = MenuDraft::of(menu);
        self.written = Some(Written {
            kept: Some((draft.clone(), known.day)),
            day: known.day,
            text: known.text.clone(),
            ..Written::new(draft)
        });
        self.page = MenuPage::Menu;
        Ok(())
    }

    /// The menu being written, checked whole.
    fn whole(&self) -> Result<WrittenMenu, MenusRefusal> {
        let Some(written) = &self.written else {
            return Err(NoWorker.into());
        };
        written.draft.written().map_err(|refused| {
            MenusRefusal::Menu(refused_words(self.language, &written.draft, &refused))
        })
    }

    fn keep(&mut self, now: Timestamp) -> Result<(), MenusRefusal> {
        let menu = match self.whole() {
            Ok(menu) => menu,
            Err(refusal) => {
                // What is wrong is to be seen; nothing of it is lost.
                self.asking = None;
                return Err(refusal);
            }
        };
        let written = self.written.as_ref();
        let day = written.and_then(|written| written.day);
        let before = written.map_or_else(String::new, |written| written.text.clone());
        self.ask(Question::Keep(day, Box::new(menu), before, now))
    }

    fn ask(&mut self, question: Question) -> Result<(), MenusRefusal> {
        self.worker.ask(question)?;
        Ok(())
    }

    fn ask_for(&mut self, place: MenuPlace, key: MenuKey) {
        self.entry = Some(Typing::new(Asked::Said(place, key)));
    }

    fn enter(&mut self, now: Timestamp) -> Result<(), MenusRefusal> {
        let Some(entry) = self.entry.clone() else {
            return Ok(());
        };
        let text = entry.typed(self.language);
        let asked = entry.asked;
        let cannot = || MenusRefusal::Typed {
            asked,
            text: entry.text.trim().to_owned(),
            taken: false,
        };
        match asked {
            Asked::CopyDay => {
                let day = text.parse().map_err(|_| cannot())?;
                self.entry = None;
                return self.ask(Question::Copy(day));
            }
            Asked::Left => {
                let portions: Option<u32> = text.parse().ok();
                let portions = portions.filter(|it| *it <= 100_000).ok_or_else(cannot)?;
                self.entry = None;
                return match self.labels.left(portions, now) {
                    Some(question) => self.ask(question),
                    None => Ok(()),
                };
            }
            Asked::Tubs => {
                if !self.labels.say_tubs(&text) {
                    return Err(cannot());
                }
                self.entry = None;
                return Ok(());
            }
            _ => {}
        }
        let Some(written) = &mut self.written else {
            self.entry = None;
            return self.show(MenuPage::List, now);
        };
        written.news = None;
        let draft = &mut written.draft;
        let refused = |error: InputError| MenusRefusal::Typed {
            asked,
            text: entry.text.trim().to_owned(),
            taken: error.problem().code() == "there-already",
        };
        let said = |place, key| Some(Typing::new(Asked::Said(place, key)));
        // What is to be typed next.
        let next = match asked {
            Asked::OnlyDay => {
                let day = (!text.is_empty()).then(|| text.parse());
                written.day = day.transpose().map_err(|_| cannot())?;
                None
            }
            Asked::NewPreparation => {
                let nth = draft.add_preparation(&text).map_err(refused)?;
                self.page = MenuPage::Preparation(nth);
                None
            }
            Asked::NewStep(p) => {
                let nth = draft.add_step(p, &text).map_err(refused)?;
                self.page = MenuPage::Step(p, nth);
                said(MenuPlace::Step(p, nth), MenuKey::Takes)
            }
            Asked::NewResource => {
                let nth = draft.add_resource(&text).map_err(refused)?;
                self.page = MenuPage::Resource(nth);
                said(MenuPlace::Resource(nth), MenuKey::Places)
            }
            Asked::NewHand(r) => {
                let nth = draft.add_hand(r, &text).map_err(refused)?;
                self.page = MenuPage::Hand(r, nth);
                None
            }
            Asked::NewSkill(r, w) => {
                let place = MenuPlace::Hand(r, w);
                let has = draft.listed(place, MenuKey::Skills).unwrap_or_default();
                if !has.contains(&text) {
                    draft
                        .turn_listed(place, MenuKey::Skills, &text)
                        .map_err(refused)?;
                }
                None
            }
            Asked::NewAllergen(p) => {
                let place = MenuPlace::Preparation(p);
                let has = draft.listed(place, MenuKey::Allergens).unwrap_or_default();
                if !has.contains(&text) {
                    draft
                        .turn_listed(place, MenuKey::Allergens, &text)
                        .map_err(refused)?;
                }
                None
            }
            Asked::Said(place, key @ (MenuKey::Takes | MenuKey::Rests)) => {
                draft.say(place, key, &text).map_err(refused)?;
                (!text.contains(" to ")).then(|| Typing {
                    least: text.clone(),
                    ..Typing::new(Asked::Most(place, key))
                })
            }
            Asked::Most(place, key) => {
                if !text.is_empty() {
                    let range = format!("{} to {text}", entry.least);
                    draft.say(place, key, &range).map_err(refused)?;
                }
                None
            }
            Asked::Said(place, key) => {
                draft.say(place, key, &text).map_err(refused)?;
                match key {
                    MenuKey::From if place == MenuPlace::Menu => said(place, MenuKey::Until),
                    MenuKey::Keeps if draft.said(place, MenuKey::Source).is_none() => {
                        let keeps = draft.said(place, key).is_some();
                        said(place, MenuKey::Source).filter(|_| keeps)
                    }
                    MenuKey::Portions => {
                        if let MenuPlace::Preparation(p) = place {
                            self.page = MenuPage::Batch(p);
                        }
                        None
                    }
                    MenuKey::Log if !text.is_empty() => said(place, MenuKey::LogFrom),
                    MenuKey::LogFrom => said(place, MenuKey::LogTo),
                    MenuKey::PortionsOf if !text.is_empty() => said(place, MenuKey::PortionsDone),
                    _ => None,
                }
            }
            Asked::CopyDay | Asked::Tubs | Asked::Left => None,
        };
        self.entry = next;
        Ok(())
    }

    /// Takes in what was answered since; returns why something came to nothing.
    pub fn take_in(&mut self, now: Timestamp) -> Vec<MenusRefusal> {
        let mut refused = Vec::new();
        while let Some((_, answer)) = self.worker.answer() {
            match answer {
                Ok(answer) => refused.extend(self.answered(answer, now).err()),
                Err(refusal) => refused.push(refusal),
            }
        }
        refused
    }

    fn answered(&mut self, answer: Answer, now: Timestamp) -> Result<(), MenusRefusal> {
        match answer {
            Answer::List(record) => self.record = Some(record),
            Answer::Copy(menu, text) => {
                self.written = Some(Written {
                    text,
                    ..Written::new(MenuDraft::copy_of(&menu))
                });
                self.page = MenuPage::Menu;
                self.ask_for(MenuPlace::Menu, MenuKey::From);
            }
            Answer::Kept(kept, menu, text) => {
                self.kept = true;
                if let Some(written) = &mut self.written {
                    written.kept = Some((MenuDraft::of(&menu), kept.day));
                    written.text = text;
                    written.news = Some(News::Kept(kept));
                }
                if let Some(Asking::Leave(leaving)) = self.asking.take() {
                    self.leave(leaving, now)?;
                }
                self.ask(Question::List(now))?;
            }
            Answer::Files(files) => self.files = files,
            Answer::Imported(path, menu, text) => {
                if self.is_unkept() {
                    return Err(MenusRefusal::Unkept);
                }
                self.written = Some(Written {
                    news: Some(News::From(path)),
                    text,
                    ..Written::new(MenuDraft::of(&menu))
                });
                self.entry = None;
                self.page = MenuPage::Menu;
            }
            Answer::Written(paths) if self.page == MenuPage::Label => self.labels.written(paths),
            Answer::Written(paths) => {
                if let Some(written) = &mut self.written {
                    written.news = Some(News::Files(paths));
                }
            }
            Answer::Labels(day, labels) => self.labels.read(day, labels),
            Answer::Told => {
                // What the day is made of is other now.
                self.kept = true;
                self.page = MenuPage::Labels;
                self.ask(Question::Labels(self.labels.day(), now))?;
            }
        }
        Ok(())
    }

    /// What the screens show.
    #[must_use]
    pub fn view(&self) -> MenusView {
        MenusView {
            page: self.page,
            entry: match self.asking {
                Some(_) => None,
                None => self.entry.as_ref().map(|entry| {
                    let today = self.record.as_ref().map_or(Date::MIN, |it| it.today);
                    let about = self.about(entry.asked);
                    entry.view(&about, self.picks(entry.asked), today, self.language)
                }),
            },
            sheet: self.sheet(),
        }
    }

    /// What is asked about.
    fn about(&self, asked: Asked) -> String {
        match (asked, &self.written) {
            (Asked::Said(place, _) | Asked::Most(place, _), Some(written)) => {
                thing(self.language, &written.draft, place)
            }
            (Asked::NewStep(p), Some(written)) => {
                thing(self.language, &written.draft, MenuPlace::Preparation(p))
            }
            _ => String::new(),
        }
    }

    /// What is known and can be chosen instead of typed.
    fn picks(&self, asked: Asked) -> Vec<String> {
        const MOST: usize = 5;
        let record = self.record.as_ref();
        let mut known = match asked {
            Asked::Said(_, MenuKey::Log) => record.map(|it| it.logs.clone()).unwrap_or_default(),
            Asked::Said(_, MenuKey::PortionsOf | MenuKey::Dish) => {
                record.map(|it| it.dishes.clone()).unwrap_or_default()
            }
            Asked::Said(_, MenuKey::Source) => {
                vec![say!(self.language, "menus-own-source").into_owned()]
            }
            _ => Vec::new(),
        };
        known.truncate(MOST);
        known
    }
}

fn typed(asked: Asked, error: &InputError) -> MenusRefusal {
    MenusRefusal::Typed {
        asked,
        text: error.value().to_owned(),
        taken: false,
    }
}

/// The screen that a thing is listed on.
const fn above(place: MenuPlace) -> MenuPage {
    match place {
        MenuPlace::Menu | MenuPlace::Preparation(_) => MenuPage::Menu,
        MenuPlace::Step(p, _) => MenuPage::Preparation(p),
        MenuPlace::Resource(_) => MenuPage::Resources,
        MenuPlace::Hand(r, _) => MenuPage::Resource(r),
    }
}

/// The screen that something is said on.
const fn page_of(place: MenuPlace, key: MenuKey) -> MenuPage {
    match (place, key) {
        (MenuPlace::Menu, _) => MenuPage::Menu,
        (
            MenuPlace::Preparation(p),
            MenuKey::Portions
            | MenuKey::Keeps
            | MenuKey::Source
            | MenuKey::Dish
            | MenuKey::PerService
            | MenuKey::PerCover,
        ) => MenuPage::Batch(p),
        (MenuPlace::Preparation(p), _) => MenuPage::Preparation(p),
        (MenuPlace::Step(p, s), _) => MenuPage::Step(p, s),
        (MenuPlace::Resource(r), _) => MenuPage::Resource(r),
        (MenuPlace::Hand(r, w), _) => MenuPage::Hand(r, w),
    }
}
