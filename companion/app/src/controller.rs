//! What the screens ask for, carried out: between the screens on one side and
//! the store and the link on the other.

use super::bench_view::{PortionState, PortionView, RunView};
use super::book::{Book, BookPage, BookWish, Pan};
use super::far_mode::{LastTouch, may_be_far};
use super::intent::{Intent, Quantity};
use super::kept;
use super::kitchen::{KitchenIntent, KitchenWatch};
use super::known_weights::{Purpose, WeightFlow, WeightStep, WeightWish, made_words, test_words};
use super::menus::{MenuPage, MenuWish, Menus};
use super::mixing::{Mixer, Obstacle, Page, Refusal, Scene, Wish};
use super::order::{OrderPage, OrderWish, Orders};
use super::practice::{BenchKind, PracticeView, PracticeWish, Step};
use super::remembered::Remembered;
use super::service::{Reviewer, ServiceWish};
use super::sound::Sound;
use super::state::{
    DishTile, PortTile, Screen, Setup, SoundView, State, Strike, TinChoice, Undone,
};
use super::telling::{TellWish, Telling};
use super::watcher::{Seen, Watcher};
use super::words::{Language, say};
use super::worker::{Coming, NoWorker, Once};
use super::{AppError, Opening, SimulatedBench, figures};
use evenhand_kitchen::dish::{Dish, DishName};
use evenhand_kitchen::portion::StrikeReason;
use evenhand_kitchen::ratio::ScaleLook;
use evenhand_link::{Endpoint, Link, Pace, Request, SerialDial, SimulatedDial, Ticket};
use evenhand_protocol::{
    Mass, Mode, PortionId, SelfTest, TestWeights, Tolerance, Uptime, VerificationInterval,
};
use evenhand_simulator::practice;
use evenhand_store::{DataFolder, NewRun, NewTin, Store, StoreError};
use evenhand_use_cases::instrument;
use evenhand_use_cases::scale_test::weights_to_ask;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::{Duration, Instant};

/// How long an answer stands on the screen.
const SAID: Duration = Duration::from_secs(6);

/// How far back a dish's last portion makes it one in use, in days.
const LATELY: i64 = 28;

/// What was asked of the scale for a flow with known weights.
#[derive(Debug, Clone, Copy)]
enum Pending {
    /// To begin a calibration.
    Begin,
    /// To take the weight of this step.
    Step(usize),
    /// To finish the calibration.
    Finish,
}

/// A flow with known weights, as far as only the controller knows it.
#[derive(Debug, Default)]
struct Weighing {
    pending: Option<Pending>,
    /// The scale has done it, and is still to tell what it found.
    found: bool,
    /// The test that was known before.
    before: Option<(Uptime, SelfTest)>,
    /// What the hand at a simulated bench holds for an empty pan, once that is known.
    empty: Option<Mass>,
}

/// The controller: the state of the screens and everything behind them.
pub struct Controller {
    state: State,
    folder: DataFolder,
    store: Store,
    reviewer: Reviewer,
    zone: TimeZone,
    watcher: Watcher,
    kitchen: KitchenWatch,
    link: Option<Arc<Link>>,
    simulated: Vec<SimulatedBench>,
    mixer: Mixer,
    book: Book,
    menus: Menus,
    orders: Orders,
    /// What was asked and not yet answered, the latest only: that is what the
    /// cook waits for.
    asked: Option<Ticket>,
    /// The portions that were struck out when the last one was to be undone.
    undoing: Option<Vec<PortionId>>,
    weighing: Weighing,
    last_touch: LastTouch,
    sound: Option<Sound>,
    said: Option<Instant>,
    /// The kitchen's latest complaint that was said.
    kitchen_said: Option<u64>,
    /// What the check of a large store's file will have found.
    checked: Once<String>,
    /// What it found: said until the program ends.
    damage: Option<String>,
    /// Asks for the screen to be painted again.
    changed: Arc<dyn Fn() + Send + Sync>,
    /// Where the guided first minutes at the practice bench have got to.
    guide: Option<Step>,
    /// What will have become of the copy that is being made.
    copying: Once<String>,
}

impl Controller {
    /// A controller over the store in a folder. `changed` is called, from another
    /// thread, when the screen should be painted again.
    ///
    /// # Errors
    /// Where the store cannot be opened, or the system gives no thread.
    pub fn open(
        folder: DataFolder,
        zone: TimeZone,
        simulated: Vec<SimulatedBench>,
        changed: impl Fn() + Send + Sync + 'static,
    ) -> Result<Self, AppError> {
        Self::open_over(folder, zone, simulated, Arc::new(changed))
    }

    fn open_over(
        folder: DataFolder,
        zone: TimeZone,
        simulated: Vec<SimulatedBench>,
        changed: Arc<dyn Fn() + Send + Sync>,
    ) -> Result<Self, AppError> {
        let kitchen_changed = Arc::clone(&changed);
        let kitchen = KitchenWatch::start(
            folder.clone(),
            Store::open(&folder)?,
            zone.clone(),
            move || kitchen_changed(),
        )
        .map_err(AppError::NoThread)?;
        let book_changed = Arc::clone(&changed);
        let book = Book::start(Store::open(&folder)?, zone.clone(), move || book_changed())
            .map_err(AppError::NoThread)?;
        let menus_changed = Arc::clone(&changed);
        let menus = Menus::start(Store::open(&folder)?, zone.clone(), move || menus_changed())
            .map_err(AppError::NoThread)?;
        let order_changed = Arc::clone(&changed);
        let orders = Orders::start(Store::open(&folder)?, zone.clone(), move || order_changed())
            .map_err(AppError::NoThread)?;
        let store = Store::open(&folder)?;
        let watcher_changed = Arc::clone(&changed);
        let watcher = Watcher::start(Store::open(&folder)?, zone.clone(), move || {
            watcher_changed();
        })
        .map_err(AppError::NoThread)?;
        let mut controller = Self {
            state: State::at_start(),
            reviewer: Reviewer::new(folder.clone(), zone.clone()),
            folder,
            store,
            mixer: Mixer::new(zone.clone()),
            book,
            menus,
            orders,
            zone,
            watcher,
            kitchen,
            link: None,
            simulated,
            asked: None,
            undoing: None,
            weighing: Weighing::default(),
            last_touch: LastTouch::default(),
            sound: None,
            said: None,
            kitchen_said: None,
            checked: Once::default(),
            damage: None,
            changed,
            guide: None,
            copying: Once::default(),
        };
        controller.check_the_file();
        controller.state.places.simulated = controller
            .simulated
            .iter()
            .map(|bench| bench.title.clone())
            .collect();
        controller.look_for_ports();
        controller.list_dishes();
        controller.reload_mix();
        if controller.mixer.offers_to_go_on(Timestamp::now()) {
            controller.state.screen = Screen::Mix;
        }
        controller.take_in();
        Ok(controller)
    }

    /// What the screens show.
    #[must_use]
    pub const fn state(&self) -> &State {
        &self.state
    }

    /// Speaks this language from now on.
    pub fn speak(&mut self, language: Language) {
        self.state.language = language;
        self.tell_sound();
        self.watcher.speak(language);
        self.reviewer.speak(language);
        self.kitchen.speak(language);
        self.mixer.speak(language);
        self.menus.speak(language);
        if let Err(why) = self.book.speak(language, Timestamp::now()) {
            self.say(&sentence(&why.in_words(language)));
        }
        if let Err(why) = self.orders.speak(language, Timestamp::now()) {
            self.say(&sentence(&why.in_words(language)));
        }
        self.show_the_book();
        self.show_the_menus();
        self.show_the_orders();
        self.show_the_mix();
    }

    /// Lets what happens be heard, as was chosen before.
    pub fn let_hear(&mut self, sound: Sound) {
        self.state.sound = SoundView {
            choice: self.remembered().sound,
            plays: sound.plays(),
            speaks: sound.speaks(),
        };
        self.watcher.let_hear(sound.ear());
        self.sound = Some(sound);
        self.tell_sound();
    }

    /// What was chosen before, at whichever bench.
    fn remembered(&self) -> Remembered {
        Remembered::read(&self.folder.for_a_scale())
    }

    fn tell_sound(&self) {
        if let Some(sound) = &self.sound {
            sound.choose(self.state.sound.choice, self.state.language);
        }
    }

    /// The screen was touched, or a key was struck.
    pub fn touched(&mut self, now: Instant) {
        self.last_touch.touched(now);
        self.state.far = false;
    }

    /// Whether anybody has touched of late; the controls of a run go where nobody has.
    pub fn look_for_hands(&mut self, now: Instant) {
        self.state.far = may_be_far(&self.state) && self.last_touch.gone(now);
    }

    /// How long until something is to be painted differently though nothing
    /// comes from elsewhere: an answer has stood long enough, nobody has
    /// touched for a while.
    #[must_use]
    pub fn changes_in(&self) -> Option<Duration> {
        let far = may_be_far(&self.state)
            .then(|| self.last_touch.gone_in(Instant::now()))
            .flatten();
        let said = self
            .said
            .map(|since| SAID.saturating_sub(since.elapsed()) + Duration::from_millis(1));
        [
            said,
            far,
            self.mixer.changes_in(),
            self.reviewer.changes_in(),
        ]
        .into_iter()
        .flatten()
        .min()
    }

    /// Takes in what was seen of the bench since.
    pub fn take_in(&mut self) {
        if self.said.is_some_and(|since| since.elapsed() >= SAID) {
            self.said = None;
            self.state.complaint = None;
        }
        if self.reviewer.take_in() {
            self.state.service.clone_from(self.reviewer.view());
        }
        if let Coming::Done(Some(damage)) = self.checked.take() {
            self.damage = Some(damage);
        }
        if self.state.complaint.is_none() {
            self.state.complaint.clone_from(&self.damage);
        }
        let seen = self.watcher.seen();
        let Seen {
            bench,
            clock,
            answer,
        } = seen.as_ref();
        if self.state.bench != *bench {
            self.state.bench.clone_from(bench);
        }
        if self.state.clock != *clock {
            self.state.clock.clone_from(clock);
        }
        self.take_in_undone();
        self.take_in_kitchen();
        if let (Some(asked), Some((number, outcome))) = (self.asked, answer)
            && asked.0 == *number
        {
            self.asked = None;
            let pending = self.weighing.pending.take();
            match (pending, outcome) {
                (Some(pending), Ok(_)) => self.weighed(pending),
                (Some(pending), Err(why)) => {
                    self.not_weighed(pending);
                    self.say(&instrument::not_done(self.state.language, why));
                }
                (None, Ok(_)) => {
                    // A list that is looked at does not move under a finger.
                    if self.state.screen != Screen::Dishes {
                        self.list_dishes();
                    }
                    if self.state.screen == Screen::Service {
                        self.reviewed_anew();
                    }
                }
                (None, Err(why)) => {
                    self.undoing = None;
                    self.say(&instrument::not_done(self.state.language, why));
                }
            }
        }
        self.look_for_findings();
        self.look_at_the_mix();
        self.look_at_the_book();
        self.look_at_the_menus();
        self.look_at_the_orders();
        self.look_at_the_practice();
        if let Coming::Done(told) = self.copying.take() {
            self.show_what_is_kept(told);
        }
    }

    // What is kept.

    fn show_what_is_kept(&mut self, told: Option<String>) {
        self.state.kept = kept::KeptView {
            busy: self.copying.goes_on(),
            told,
            ..kept::view(
                &self.folder,
                &kept::media(),
                &self.zone,
                self.state.language,
            )
        };
    }

    /// Makes a copy beside the work: a large record takes a while to read back.
    fn back_up(&mut self, into: PathBuf) {
        let (folder, language) = (self.folder.clone(), self.state.language);
        let changed = Arc::clone(&self.changed);
        self.copying = Once::begin(
            "backing up",
            move || Some(kept::back_up(&folder, &into, Timestamp::now(), language)),
            move || changed(),
        );
        if !self.copying.goes_on() {
            self.say(&sentence(&NoWorker.in_words(self.state.language)));
        }
        self.show_what_is_kept(None);
    }

    /// How many portions the run has.
    fn portions(&self) -> Option<usize> {
        self.state.bench.run.as_ref().map(|run| run.portions.len())
    }

    /// The run's portions that are struck out.
    fn struck_out(&self) -> Vec<PortionId> {
        let portions = self.state.bench.run.iter().flat_map(|run| &run.portions);
        portions
            .filter(|portion| matches!(portion.standing, PortionState::Struck(_)))
            .map(|portion| portion.id)
            .collect()
    }

    /// The portion that undoing struck out can be put back, as long as it is struck out and
    /// nothing was captured since.
    fn take_in_undone(&mut self) {
        let Some(run) = &self.state.bench.run else {
            return;
        };
        let is_struck =
            |portion: &&PortionView| matches!(portion.standing, PortionState::Struck(_));
        if let Some(before) = &self.undoing {
            let undone = run.portions.iter().rev().filter(is_struck);
            let undone = undone
                .into_iter()
                .find(|portion| !before.contains(&portion.id));
            if let Some(portion) = undone {
                let interval = self.state.bench.mass.interval;
                self.state.undone = Some(Undone {
                    id: portion.id,
                    number: portion.number,
                    mass: figures::grams(portion.mass, interval, self.state.language),
                    portions: run.portions.len(),
                });
                self.undoing = None;
            }
        }
        if let Some(undone) = &self.state.undone {
            let mut struck = run.portions.iter().filter(is_struck);
            let still = struck.any(|portion| portion.id == undone.id);
            if !still || run.portions.len() > undone.portions {
                self.state.undone = None;
            }
        }
    }

    /// Takes in what was seen of heat, prep and melt since.
    fn take_in_kitchen(&mut self) {
        let seen = self.kitchen.seen();
        if self.state.heat != seen.heat {
            self.state.heat.clone_from(&seen.heat);
        }
        if self.state.prep != seen.prep {
            self.state.prep.clone_from(&seen.prep);
            // Of another menu, there may be nobody of that name.
            let known = |hand: &String| seen.prep.hands.contains(hand);
            if !self.state.hand.as_ref().is_some_and(known) {
                self.state.hand = None;
            }
        }
        if self.state.melt != seen.melt {
            self.state.melt.clone_from(&seen.melt);
        }
        if self.state.loss != seen.loss {
            self.state.loss.clone_from(&seen.loss);
        }
        if let Some((number, words)) = &seen.complaint
            && self.kitchen_said != Some(*number)
        {
            self.kitchen_said = Some(*number);
            self.say(words);
        }
    }

    /// Checks the store's file, beside the work, as a large one takes a while.
    fn check_the_file(&mut self) {
        let folder = self.folder.clone();
        let check = move || {
            let checked = Store::open(&folder).and_then(|store| store.check());
            checked.err().map(|error| sentence(&error.to_string()))
        };
        // The latest look at the bench takes it in.
        self.checked = Once::begin("checking the store", check, || ());
    }

    /// Seeks the scale there from now on.
    pub fn seek(&mut self, opening: Opening) {
        self.unlink();
        let place = opening.dial.place().to_owned();
        let opened = self.begin(opening).and_then(|(opening, first)| {
            let store = Store::open(&self.folder)?;
            let nudge = self.watcher.nudge();
            Link::open(opening.dial, store, first, move || nudge.nudge())
                .map_err(AppError::NoThread)
        });
        match opened {
            Ok(link) => {
                let link = Arc::new(link);
                self.watcher.watch(Some(Arc::clone(&link)));
                self.kitchen.watch(Some(Arc::clone(&link)));
                self.link = Some(link);
                self.state.places.chosen = Some(place);
                self.look_at_the_practice();
            }
            Err(error) => self.say(&error.in_words(self.state.language)),
        }
    }

    /// Carries out what was asked for.
    pub fn carry_out(&mut self, intent: Intent) {
        self.said = None;
        self.state.complaint = None;
        if let Err(error) = self.try_to(intent) {
            self.say(&error.in_words(self.state.language));
        }
    }

    fn try_to(&mut self, intent: Intent) -> Result<(), AppError> {
        match intent {
            Intent::Go(screen) => self.go(screen),
            // That it was touched is known by now.
            Intent::ComeNear => self.state.far = false,
            Intent::Tare => self.ask(Request::Tare),
            Intent::ClearTare => self.ask(Request::ClearTare),
            Intent::Zero => self.ask(Request::Zero),
            Intent::UndoLast => {
                self.undoing = Some(self.struck_out());
                self.ask(Request::UndoLast);
            }
            Intent::PutBack(id) => self.ask(Request::LiftStrike(id)),
            Intent::StopRun => self.ask(Request::StopRun),
            Intent::StartDish(name) => {
                self.set_up(&name)?;
                self.start_run()?;
            }
            Intent::ChooseDish(name) => {
                self.set_up(&name)?;
                self.state.screen = Screen::Setup;
            }
            Intent::NewDish => {
                self.state.setup = Setup::new_dish();
                self.state.screen = Screen::Naming;
            }
            Intent::NameDish(name) => self.state.setup.name = name,
            Intent::DishNamed => self.dish_named()?,
            Intent::ChooseMode(mode) => self.state.setup.mode = mode,
            Intent::Adjust(quantity, by) => self.adjust(quantity, by),
            Intent::ChooseTin(tin) => self.state.setup.tin = tin,
            Intent::StartRun => self.start_run()?,
            Intent::ChangeGoal => {
                self.ask(Request::SetGoal(self.state.setup.goal()?));
                self.state.screen = Screen::Bench;
            }
            Intent::PickPortion(id) => {
                self.state.strike.portion = Some(id);
                self.state.strike.reason = String::new();
            }
            Intent::ListNewer => self.state.strike.listed = self.portions(),
            Intent::Reason(reason) => self.state.strike.reason = reason,
            Intent::StrikeOut => self.strike_out()?,
            Intent::CountAgain => {
                if let Some(id) = self.state.strike.portion {
                    self.ask(Request::LiftStrike(id));
                }
            }
            Intent::Service(wish) => self.review(wish)?,
            Intent::Kitchen(intent) => self.kitchen.ask(intent),
            Intent::ShowHand(hand) => self.state.hand = hand,
            Intent::Tell(wish) => self.tell(wish),
            Intent::LookForPorts => self.look_for_ports(),
            Intent::Speak(language) => {
                self.speak(language);
                let remembered = Remembered {
                    language: Some(language),
                    ..self.remembered()
                };
                remembered.keep(&self.folder.for_a_scale())?;
            }
            Intent::Sound(choice) => {
                self.state.sound.choice = choice;
                self.tell_sound();
                let remembered = Remembered {
                    sound: choice,
                    ..self.remembered()
                };
                remembered.keep(&self.folder.for_a_scale())?;
            }
            Intent::BackUp(folder) => self.back_up(folder),
            Intent::TryTone(cue) => {
                if let Some(sound) = &self.sound {
                    sound.try_out(cue);
                }
            }
            Intent::UsePort(port) => {
                // Not being able to remember is no reason not to use it.
                let remembered = Remembered {
                    port: Some(port.clone()),
                    ..self.remembered()
                };
                let kept = remembered.keep(&self.folder.for_a_scale());
                self.move_to(self.folder.for_a_scale())?;
                self.seek(Opening::of(Endpoint::Port(port)));
                self.state.screen = Screen::Bench;
                kept?;
            }
            Intent::Weights(wish) => self.weigh_known(wish),
            Intent::Mix(wish) => self.mix(wish)?,
            Intent::Book(wish) => self.open_book(wish)?,
            Intent::Menus(wish) => self.open_menus(wish)?,
            Intent::Order(wish) => self.open_orders(wish)?,
            Intent::UseSimulated(nth) => {
                if let Some(bench) = self.simulated.get(nth).cloned() {
                    self.move_to(self.folder.for_simulated())?;
                    self.seek(Opening::of(bench.place));
                    self.state.screen = Screen::Bench;
                }
            }
            Intent::Practice(wish) => self.practise(wish)?,
        }
        Ok(())
    }

    fn go(&mut self, screen: Screen) {
        if self.state.screen == Screen::Menus && screen != Screen::Menus && self.menus.is_unkept() {
            self.menus.ask_to_leave(screen);
            self.show_the_menus();
            return;
        }
        if self.state.screen == Screen::Order && screen != Screen::Order && self.orders.is_unkept()
        {
            self.orders.ask_to_leave(screen);
            self.show_the_orders();
            return;
        }
        if let Some(hand) = self.link.as_ref().and_then(|link| link.practice_hand()) {
            // Nobody holds a button of another screen.
            hand.act(practice::HandMove::StopPouring);
        }
        match screen {
            // Pressed again it leads back to where everything begins.
            Screen::Mix if self.state.screen == Screen::Mix => {
                self.carry_out(Intent::Mix(Wish::Show(Page::Start)));
            }
            Screen::Mix => self.reload_mix(),
            Screen::Book => self.carry_out(Intent::Book(BookWish::Show(BookPage::Pieces))),
            Screen::Service => {
                if let Err(error) = self.reviewer.reload(&mut self.store) {
                    self.say(&sentence(&error.to_string()));
                }
                self.state.service.clone_from(self.reviewer.view());
            }
            Screen::Menus => {
                self.carry_out(Intent::Menus(MenuWish::Show(MenuPage::List)));
            }
            Screen::Order => {
                self.carry_out(Intent::Order(OrderWish::Show(OrderPage::Suppliers)));
            }
            Screen::Telling => self.state.telling = None,
            Screen::Week => self.kitchen.ask(KitchenIntent::LookAtWeek),
            Screen::Dishes => self.list_dishes(),
            Screen::Scale => self.look_for_ports(),
            Screen::Kept => self.show_what_is_kept(None),
            Screen::Portions => {
                self.state.strike = Strike {
                    listed: self.portions(),
                    ..Strike::default()
                };
            }
            Screen::Goal => {
                let Some(run) = self.state.bench.running() else {
                    return;
                };
                self.state.setup = setup_of_run(run);
            }
            Screen::Bench
            | Screen::Naming
            | Screen::Setup
            | Screen::Heat
            | Screen::HeatAim
            | Screen::Prep
            | Screen::Timeline
            | Screen::WhatIf
            | Screen::Settings
            | Screen::Weights => {}
        }
        self.state.screen = screen;
    }

    /// Something of a step at another time than now.
    fn tell(&mut self, wish: TellWish) {
        let language = self.state.language;
        let telling = self.state.telling.take();
        let now = Timestamp::now();
        self.state.telling = match (wish, telling) {
            (TellWish::Choose(day, step), _) => {
                let by = self.state.hand.clone();
                Some(Telling::of((day, step), by, now, &self.zone, language))
            }
            (TellWish::What(what), Some(telling)) => Some(Telling { what, ..telling }),
            (TellWish::Move(by), Some(telling)) => Some(telling.moved(by, &self.zone, language)),
            (TellWish::By(by), Some(telling)) => Some(Telling { by, ..telling }),
            (TellWish::PutDown, Some(telling)) => {
                self.kitchen.ask(KitchenIntent::TellAt(telling));
                self.state.screen = Screen::Prep;
                None
            }
            (_, None) => None,
        };
    }

    // A service.

    fn review(&mut self, wish: ServiceWish) -> Result<(), AppError> {
        let view = self.reviewer.view();
        match (&wish, view.picked) {
            (ServiceWish::Plates, _) => {
                return self.open_book(BookWish::Show(BookPage::Plates));
            }
            (ServiceWish::StrikeOut, Some(id)) => {
                let reason = StrikeReason::new("reason", view.why.as_deref().unwrap_or_default())?;
                if self.is_of_the_run(id) {
                    self.ask(Request::Strike(id, reason));
                } else {
                    self.store.strike(id, &reason, Timestamp::now())?;
                }
                self.reviewed_anew();
            }
            (ServiceWish::CountAgain, Some(id)) => {
                if self.is_of_the_run(id) {
                    self.ask(Request::LiftStrike(id));
                } else {
                    self.store.lift_strike(id, Timestamp::now())?;
                }
                self.reviewed_anew();
            }
            _ => self.reviewer.carry_out(wish, &mut self.store)?,
        }
        self.state.service.clone_from(self.reviewer.view());
        Ok(())
    }

    /// Whether a portion is one of the run on the bench: then its standing is
    /// for the link to change, which tells the bench of it.
    fn is_of_the_run(&self, id: PortionId) -> bool {
        self.link.is_some()
            && self
                .state
                .bench
                .run
                .as_ref()
                .is_some_and(|run| run.portions.iter().any(|portion| portion.id == id))
    }

    /// Reads the service again.
    fn reviewed_anew(&mut self) {
        if let Err(error) = self.reviewer.refresh(&mut self.store) {
            self.say(&sentence(&error.to_string()));
        }
        self.state.service.clone_from(self.reviewer.view());
    }

    // Known weights.

    fn weigh_known(&mut self, wish: WeightWish) {
        match wish {
            WeightWish::Choose(purpose) => {
                self.state.weights = match (purpose, self.asked_weights()) {
                    (Purpose::Try, Some(asked)) => WeightFlow::test(asked),
                    _ => WeightFlow::new(purpose),
                };
                self.state.screen = Screen::Weights;
            }
            WeightWish::Toggle(mass) => self.state.weights.toggle(mass),
            WeightWish::Class(class) => self.state.weights.class = class,
            WeightWish::Begin => match self.state.weights.purpose {
                Purpose::Try => self.place_step(0),
                Purpose::Calibrate => {
                    self.ask_weighing(Pending::Begin, Request::BeginCalibration);
                }
            },
            WeightWish::Placed => {
                if let WeightStep::Placing(step) = self.state.weights.stage
                    && let Some(request) = self.state.weights.request(step)
                {
                    self.state.weights.stage = WeightStep::Waiting(step);
                    let bench = self.link.as_ref().map(|link| link.live());
                    self.weighing.before = bench.and_then(|bench| bench.tested());
                    self.ask_weighing(Pending::Step(step), request);
                }
            }
            WeightWish::Leave => {
                let under_way = matches!(
                    self.state.weights.stage,
                    WeightStep::Placing(_) | WeightStep::Waiting(_)
                );
                if under_way && self.state.weights.purpose == Purpose::Calibrate {
                    self.ask(Request::CancelCalibration);
                }
                self.hand_off();
                self.weighing = Weighing::default();
                self.state.weights.stage = WeightStep::Choosing;
                self.state.screen = Screen::Scale;
            }
        }
    }

    /// What the morning's test asks for on this scale, for the dishes in use.
    fn asked_weights(&self) -> Option<TestWeights> {
        let live = self.link.as_ref()?.live();
        let hello = live.hello()?;
        // Without the dishes the heavy weight is asked for all the same.
        let dishes = self.store.dishes_in_use().unwrap_or_default();
        Some(weights_to_ask(hello.capacity, hello.interval, &dishes))
    }

    fn ask_weighing(&mut self, pending: Pending, request: Request) {
        self.ask(request);
        if self.asked.is_some() {
            self.weighing.pending = Some(pending);
        } else {
            self.not_weighed(pending);
        }
    }

    /// A step's weight is to be put on; on a simulated bench its hand does it.
    fn place_step(&mut self, step: usize) {
        self.state.weights.stage = WeightStep::Placing(step);
        let mass = self.state.weights.step(step).map(|weight| weight.mass);
        if let Some(link) = &self.link
            && let (Some(hand), Some(mass)) = (link.hand(), mass)
        {
            let gross = link
                .live()
                .last_reading()
                .and_then(|(_, reading)| reading.gross);
            // A weight that was just lifted off may still be in the reading when a test begins anew.
            let held = hand.holds() - gross.unwrap_or(Mass::ZERO);
            let empty = *self.weighing.empty.get_or_insert(held);
            hand.place(empty + mass);
        }
    }

    /// The hand at a simulated bench takes its weights off again.
    fn hand_off(&self) {
        if let Some(hand) = self.link.as_ref().and_then(|link| link.hand()) {
            hand.place(Mass::ZERO);
        }
    }

    fn weighed(&mut self, pending: Pending) {
        match pending {
            Pending::Begin => self.place_step(0),
            // What a weight of the test showed comes a moment later.
            Pending::Step(1..) if self.state.weights.purpose == Purpose::Try => {
                self.weighing.found = true;
            }
            Pending::Step(step) => match self.state.weights.after(step) {
                Some(next) => self.place_step(next),
                None => self.ask_weighing(Pending::Finish, Request::FinishCalibration),
            },
            Pending::Finish => self.weighing.found = true,
        }
    }

    fn not_weighed(&mut self, pending: Pending) {
        match pending {
            Pending::Begin => self.state.weights.stage = WeightStep::Choosing,
            Pending::Step(step) => self.state.weights.stage = WeightStep::Placing(step),
            Pending::Finish => {
                self.hand_off();
                let words = say!(self.state.language, "weights-kept-old").into_owned();
                self.state.weights.stage = WeightStep::Done(vec![words], false);
            }
        }
    }

    /// What was found comes a moment after the answer.
    fn look_for_findings(&mut self) {
        if !self.weighing.found {
            return;
        }
        let Some(bench) = self.link.as_ref().map(|link| link.live()) else {
            return;
        };
        let (words, good) = match self.state.weights.purpose {
            Purpose::Try => {
                let before = self.weighing.before;
                let Some((_, test)) = bench.tested().filter(|tested| Some(*tested) != before)
                else {
                    return;
                };
                let WeightStep::Waiting(step) = self.state.weights.stage else {
                    return;
                };
                self.state.weights.found.push(test);
                if let Some(next) = self.state.weights.after(step) {
                    self.weighing.found = false;
                    self.place_step(next);
                    return;
                }
                test_words(&self.state.weights, self.state.language)
            }
            Purpose::Calibrate => {
                let Some(made) = bench.calibration().and_then(|(_, standing)| standing.made) else {
                    return;
                };
                (vec![made_words(&made, self.state.language)], true)
            }
        };
        self.weighing.found = false;
        self.hand_off();
        self.state.weights.stage = WeightStep::Done(words, good);
    }

    // Practice.

    /// Works over the record in another folder from now on: what a simulated scale makes
    /// never goes to the kitchen's own.
    fn move_to(&mut self, folder: DataFolder) -> Result<(), AppError> {
        self.unlink();
        if folder == self.folder {
            return Ok(());
        }
        let mut other = Self::open_over(
            folder,
            self.zone.clone(),
            self.simulated.clone(),
            Arc::clone(&self.changed),
        )?;
        other.state.sound = self.state.sound;
        other.last_touch = self.last_touch;
        other.sound = self.sound.take();
        if let Some(sound) = &other.sound {
            other.watcher.let_hear(sound.ear());
        }
        other.speak(self.state.language);
        *self = other;
        Ok(())
    }

    fn practise(&mut self, wish: PracticeWish) -> Result<(), AppError> {
        match wish {
            PracticeWish::Begin => self.begin_practice(Pace::REAL)?,
            PracticeWish::Do(hand_move) => {
                if let Some(hand) = self.link.as_ref().and_then(|link| link.practice_hand()) {
                    // What cannot be done now is not offered either.
                    hand.act(hand_move);
                }
            }
            PracticeWish::LeaveGuide => self.guide = None,
            PracticeWish::Guide => self.guide = Some(Step::FIRST),
            PracticeWish::End => {
                self.move_to(self.folder.for_a_scale())?;
                if let Some(port) = self.remembered().port {
                    self.seek(Opening::of(Endpoint::Port(port)));
                }
                self.go(Screen::Scale);
            }
        }
        self.look_at_the_practice();
        Ok(())
    }

    /// Opens the practice bench, with the guide at its first step; it runs so fast.
    ///
    /// # Errors
    /// Where the folder for what it makes cannot be used.
    pub fn begin_practice(&mut self, pace: Pace) -> Result<(), AppError> {
        let scenario = practice::bench()?;
        self.move_to(self.folder.for_simulated())?;
        let name = say!(self.state.language, "practice-dish");
        let run = NewRun {
            dish: DishName::new("dish", &name)?,
            goal: scenario.goal(),
            mode: scenario.mode(),
            cook: None,
            tin: None,
        };
        let seed = scenario.seed();
        let dial = SimulatedDial::new(scenario, seed, pace).by_hand();
        self.seek(Opening {
            dial: Box::new(dial),
            at_once: Some(run),
        });
        self.guide = Some(Step::FIRST);
        self.state.screen = Screen::Bench;
        self.look_at_the_practice();
        Ok(())
    }

    fn look_at_the_practice(&mut self) {
        let kind = match self.link.as_ref() {
            None => BenchKind::Real,
            Some(link) => match (link.practice_hand(), link.hand()) {
                (Some(hand), _) => {
                    let table = hand.table();
                    while let Some(step) = self.guide
                        && step.is_done(&self.state, &table)
                    {
                        self.guide = step.next();
                    }
                    BenchKind::Practice(PracticeView {
                        table,
                        step: self.guide,
                    })
                }
                (None, Some(_)) => BenchKind::Simulated,
                (None, None) => BenchKind::Real,
            },
        };
        if self.state.kind != kind {
            self.state.kind = kind;
        }
    }

    // Mixing.

    fn scene(&self) -> Scene {
        let bench = self.link.as_ref().map(|link| link.live());
        let reading = bench
            .as_ref()
            .and_then(|bench| bench.reading(Instant::now()));
        let hello = bench.as_ref().and_then(|bench| bench.hello());
        let interval = self.state.bench.mass.interval;
        Scene {
            look: reading.and_then(|reading| {
                Some(ScaleLook {
                    at: reading.at,
                    mass: reading.gross?,
                    stable: reading.stable,
                })
            }),
            probe: reading.and_then(|reading| reading.temperature),
            interval,
            verification: hello
                .map(|hello| hello.verification())
                .filter(|verification| verification.mass() > Mass::ZERO)
                .unwrap_or(VerificationInterval::coarsest(interval)),
            capacity: hello.map(|hello| hello.capacity),
        }
    }

    fn look_at_the_mix(&mut self) {
        if self.state.screen != Screen::Mix && !self.mixer.is_busy() {
            return;
        }
        let scene = self.scene();
        if let Err(why) = self.mixer.take_in(scene, &mut self.store, Timestamp::now()) {
            self.say(&sentence(&why.in_words(self.state.language)));
        }
        self.show_the_mix();
    }

    fn show_the_mix(&mut self) {
        let view = self.mixer.view();
        if self.state.mix != view {
            self.state.mix = view;
        }
    }

    fn mix(&mut self, wish: Wish) -> Result<(), AppError> {
        if wish.takes_the_scale() && self.state.bench.running().is_some() {
            return Err(AppError::Mixing(Refusal::Obstacle(Obstacle::Portioning)));
        }
        let done = self
            .mixer
            .carry_out(wish, &mut self.store, Timestamp::now());
        self.show_the_mix();
        Ok(done?)
    }

    fn reload_mix(&mut self) {
        if let Err(why) = self.mixer.reload(&self.store) {
            self.say(&sentence(&why.in_words(self.state.language)));
        }
        self.show_the_mix();
    }

    // The kitchen's own book.

    fn pan(&self) -> Pan {
        let mass = &self.state.bench.mass;
        let bench = self.link.as_ref().map(|link| link.live());
        let reading = bench
            .as_ref()
            .and_then(|bench| bench.reading(Instant::now()));
        Pan {
            mass: mass.shown.filter(|_| mass.stable == Some(true)),
            interval: mass.interval,
            probe: reading.and_then(|reading| reading.temperature),
        }
    }

    fn open_book(&mut self, wish: BookWish) -> Result<(), AppError> {
        match &wish {
            BookWish::Show(_) => self.state.screen = Screen::Book,
            BookWish::Done => self.go(Screen::Mix),
            BookWish::BackToService => self.go(Screen::Service),
            _ => {}
        }
        let done = self.book.carry_out(wish, Timestamp::now());
        self.show_the_book();
        Ok(done?)
    }

    fn look_at_the_book(&mut self) {
        for why in self.book.take_in(Timestamp::now()) {
            self.say(&sentence(&why.in_words(self.state.language)));
        }
        if self.state.screen == Screen::Book {
            self.show_the_book();
        }
    }

    fn show_the_book(&mut self) {
        let view = self.book.view(&self.pan(), Timestamp::now());
        if self.state.book != view {
            self.state.book = view;
        }
    }

    // Menus, and labels.

    /// Whether the program can be ended without losing what is being written.
    #[must_use]
    pub fn may_end(&self) -> bool {
        !self.menus.is_unkept() && !self.orders.is_unkept()
    }

    /// Asks for what is being written before the program is ended.
    pub fn ask_before_ending(&mut self) {
        if self.menus.is_unkept() {
            self.state.screen = Screen::Menus;
            self.menus.ask_to_leave(Screen::Prep);
            self.show_the_menus();
        } else {
            self.state.screen = Screen::Order;
            self.orders.ask_to_leave(Screen::Prep);
            self.show_the_orders();
        }
    }

    fn open_menus(&mut self, wish: MenuWish) -> Result<(), AppError> {
        if matches!(wish, MenuWish::Show(_)) {
            self.state.screen = Screen::Menus;
        }
        let done = self.menus.carry_out(wish, Timestamp::now());
        self.go_from_menus();
        self.show_the_menus();
        Ok(done?)
    }

    fn go_from_menus(&mut self) {
        if let Some(screen) = self.menus.gone() {
            self.go(screen);
        }
    }

    fn look_at_the_menus(&mut self) {
        for why in self.menus.take_in(Timestamp::now()) {
            self.say(&sentence(&why.in_words(self.state.language)));
        }
        if self.menus.was_kept() {
            self.kitchen.look_again();
        }
        self.go_from_menus();
        if self.state.screen == Screen::Menus {
            self.show_the_menus();
        }
    }

    fn show_the_menus(&mut self) {
        let view = self.menus.view();
        if self.state.menus != view {
            self.state.menus = view;
        }
    }

    // What to order.

    fn open_orders(&mut self, wish: OrderWish) -> Result<(), AppError> {
        if matches!(wish, OrderWish::Show(_)) {
            self.state.screen = Screen::Order;
        }
        let done = self.orders.carry_out(wish, Timestamp::now());
        self.go_from_orders();
        self.show_the_orders();
        Ok(done?)
    }

    fn go_from_orders(&mut self) {
        if let Some(screen) = self.orders.gone() {
            self.go(screen);
        }
    }

    fn look_at_the_orders(&mut self) {
        for why in self.orders.take_in(Timestamp::now()) {
            self.say(&sentence(&why.in_words(self.state.language)));
        }
        self.go_from_orders();
        if self.state.screen == Screen::Order {
            self.show_the_orders();
        }
    }

    fn show_the_orders(&mut self) {
        let view = self.orders.view();
        if self.state.order != view {
            self.state.order = view;
        }
    }

    // Dishes and runs.

    fn list_dishes(&mut self) {
        // A list that cannot be read stays as it was; the next write says what is wrong.
        if let Ok(dishes) = self.dishes_in_use() {
            self.state.dishes = dishes;
        }
    }

    /// The dishes on the list, those portioned lately first.
    fn dishes_in_use(&self) -> Result<Vec<DishTile>, StoreError> {
        let dishes = self.store.dishes_in_use()?;
        let from = Timestamp::now()
            .checked_sub((LATELY * 24).hours())
            .unwrap_or(Timestamp::MIN);
        let lately = self.store.last_portioned(from)?;
        let last = |dish: &Dish| lately.get(&dish.name);
        let mut order: Vec<_> = dishes.iter().map(|dish| (last(dish), dish)).collect();
        order.sort_by(|(one, _), (other, _)| other.cmp(one));
        Ok(order
            .into_iter()
            .map(|(_, dish)| DishTile {
                name: dish.name.clone(),
                goal: dish.goal,
                mode: dish.mode,
            })
            .collect())
    }

    fn set_up(&mut self, name: &DishName) -> Result<(), AppError> {
        let dish = self.store.known_dish(name)?;
        let open = self.store.tin_in_use(&dish.name)?;
        let left = match &open {
            Some(tin) => Some(tin.left(self.store.taken_from(tin.id)?)),
            None => None,
        };
        self.state.setup = Setup {
            name: dish.name.to_string(),
            dish: Some(dish.name),
            mode: dish.mode,
            target: dish.goal.target(),
            tolerance: dish.goal.tolerance(),
            tin: if left.is_some() {
                TinChoice::Open
            } else {
                TinChoice::NotEntered
            },
            open_tin: left,
            ..Setup::new_dish()
        };
        Ok(())
    }

    fn dish_named(&mut self) -> Result<(), AppError> {
        let name = DishName::new("name", &self.state.setup.name)?;
        // A name that is there already is that dish.
        if self.store.dish(&name)?.is_some() {
            self.set_up(&name)?;
        } else {
            self.state.setup.name = name.to_string();
        }
        self.state.screen = Screen::Setup;
        Ok(())
    }

    fn adjust(&mut self, quantity: Quantity, by: Mass) {
        let setup = &mut self.state.setup;
        let least = Mass::from_grams(1);
        match quantity {
            Quantity::Target => setup.target = (setup.target + by).max(Mass::ZERO),
            Quantity::Tolerance => {
                setup.tolerance = Tolerance {
                    below: (setup.tolerance.below + by).max(Mass::ZERO),
                    above: (setup.tolerance.above + by).max(Mass::ZERO),
                };
            }
            Quantity::NewTin => setup.new_tin = (setup.new_tin + by).max(least),
        }
    }

    fn start_run(&mut self) -> Result<(), AppError> {
        let now = Timestamp::now();
        let setup = &self.state.setup;
        let name = DishName::new("name", &setup.name)?;
        let goal = setup.goal()?;
        let mode = setup.mode;
        let cost = self.store.dish(&name)?.and_then(|dish| dish.cost);
        let dish = self.store.set_dish(&name, goal, mode, cost, now)?;
        let tin = match (mode, setup.tin) {
            (Mode::Adding, _) | (Mode::Taking, TinChoice::NotEntered) => None,
            (Mode::Taking, TinChoice::Open) => self.store.tin_in_use(&dish.name)?.map(|tin| tin.id),
            (Mode::Taking, TinChoice::New) => {
                let tin = NewTin {
                    kind: evenhand_kitchen::tin::TinKind::Tin,
                    dish: dish.name.clone(),
                    label: String::new(),
                    net: setup.new_tin,
                    price: None,
                };
                Some(self.store.open_tin(&tin, now)?.id)
            }
        };
        self.ask(Request::StartRun {
            run: NewRun {
                dish: dish.name,
                goal,
                mode,
                cook: None,
                tin,
            },
            resume: false,
            count: None,
        });
        self.state.screen = Screen::Bench;
        Ok(())
    }

    fn strike_out(&mut self) -> Result<(), AppError> {
        let reason = StrikeReason::new("reason", &self.state.strike.reason)?;
        if let Some(id) = self.state.strike.portion {
            self.ask(Request::Strike(id, reason));
            self.state.strike.portion = None;
            self.state.strike.reason = String::new();
        }
        Ok(())
    }

    // The link.

    /// Puts on record what is portioned there at once, so that it can begin as
    /// soon as the scale answers.
    fn begin(&mut self, opening: Opening) -> Result<(Opening, Option<Request>), AppError> {
        let Some(at_once) = &opening.at_once else {
            return Ok((opening, None));
        };
        let name = at_once.dish.clone();
        let known = self.store.dish(&name)?;
        let cost = known.as_ref().and_then(|dish| dish.cost);
        if known.is_none() {
            self.store
                .set_dish(&name, at_once.goal, at_once.mode, cost, Timestamp::now())?;
        }
        let mut run = at_once.clone();
        if run.tin.is_none() && run.mode == Mode::Taking {
            run.tin = self.store.tin_in_use(&name)?.map(|tin| tin.id);
        }
        let first = Request::StartRun {
            run,
            // Who practises begins anew.
            resume: opening.dial.practice_hand().is_none(),
            count: None,
        };
        Ok((opening, Some(first)))
    }

    fn unlink(&mut self) {
        self.asked = None;
        self.watcher.watch(None);
        self.kitchen.watch(None);
        self.link = None;
        self.guide = None;
        self.state.kind = BenchKind::Real;
        self.state.places.chosen = None;
    }

    fn ask(&mut self, request: Request) {
        let ticket = match &self.link {
            Some(link) => link.ask(request),
            None => None,
        };
        if ticket.is_none() {
            let language = self.state.language;
            self.say(&if self.link.is_some() {
                say!(language, "scale-busy")
            } else {
                say!(language, "scale-not-chosen")
            });
        }
        self.asked = ticket;
    }

    fn look_for_ports(&mut self) {
        self.state.places.ports = SerialDial::list()
            .into_iter()
            .map(|path| PortTile { path })
            .collect();
    }

    fn say(&mut self, words: &str) {
        self.state.complaint = Some(words.to_owned());
        self.said = Some(Instant::now());
    }

    /// The zone that times of day are told in.
    #[must_use]
    pub const fn zone(&self) -> &TimeZone {
        &self.zone
    }
}

/// A message as a sentence: a capital at its beginning, a stop at its end.
pub(super) fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let mut sentence: String = letters
        .next()
        .map(|first| first.to_uppercase().collect())
        .unwrap_or_default();
    sentence.push_str(letters.as_str());
    if !sentence.ends_with('.') {
        sentence.push('.');
    }
    sentence
}

fn setup_of_run(run: &RunView) -> Setup {
    Setup {
        name: run.dish.clone(),
        mode: run.mode,
        target: run.goal.target(),
        tolerance: run.goal.tolerance(),
        ..Setup::new_dish()
    }
}
