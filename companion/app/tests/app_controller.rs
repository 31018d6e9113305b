//! What the screens ask for, carried out on an instrument that does as the
//! test says.

#[allow(dead_code)]
use evenhand_app::bench_view::{PortionState, Tone};
use evenhand_app::controller::Controller;
use evenhand_app::intent::{Intent, Quantity};
use evenhand_app::state::{Screen, State, TinChoice};
use evenhand_app::{Opening, SimulatedBench};
use evenhand_kitchen::dish::DishName;
use evenhand_link::live::{LinkState, Now};
use evenhand_link::{Dial, Endpoint, Line, LineEnd, Pace};
use evenhand_protocol::{Command, Goal, Mass, Mode, Refusal, Tolerance};
use evenhand_scripted_instrument::{Peer, Scripted};
use evenhand_store::{DataFolder, NewRun, Query, Store};
use jiff::tz::TimeZone;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Longer than anything here takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

struct Kitchen {
    controller: Controller,
    far: Scripted,
    changes: Arc<AtomicUsize>,
    heard: Arc<AtomicUsize>,
    folder: TempDir,
}

impl Kitchen {
    /// A controller whose instrument is there and linked.
    fn linked() -> Self {
        let mut kitchen = Self::apart();
        kitchen.plug_in(None);
        kitchen.until("linked", |state| state.bench.can.run);
        kitchen
    }

    /// A controller that was told of no instrument.
    fn apart() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let changes = Arc::new(AtomicUsize::new(0));
        let counted = Arc::clone(&changes);
        let controller = Controller::open(data(&folder), TimeZone::UTC, Vec::new(), move || {
            counted.fetch_add(1, Ordering::SeqCst);
        })
        .unwrap();
        Self {
            controller,
            far: Scripted::new(Peer::Instrument),
            changes,
            heard: Arc::default(),
            folder,
        }
    }

    fn plug_in(&mut self, at_once: Option<NewRun>) {
        let dial = Box::new(Heard {
            dial: self.far.dial(),
            times: Arc::clone(&self.heard),
        });
        self.controller.seek(Opening { dial, at_once });
    }

    #[track_caller]
    fn until(&mut self, what: &str, is: impl Fn(&State) -> bool) -> State {
        let begun = Instant::now();
        loop {
            self.controller.take_in();
            if is(self.controller.state()) {
                return self.controller.state().clone();
            }
            assert!(
                begun.elapsed() < PATIENCE,
                "never {what}: {:#?}",
                self.controller.state()
            );
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    /// Names, sets up and starts a run of a new dish.
    fn start_shrimp(&mut self) {
        self.controller.carry_out(Intent::NewDish);
        self.controller
            .carry_out(Intent::NameDish("brown  shrimp".to_owned()));
        self.controller.carry_out(Intent::DishNamed);
        self.controller.carry_out(Intent::ChooseMode(Mode::Taking));
        self.controller
            .carry_out(Intent::Adjust(Quantity::Target, Mass::from_grams(-5)));
        self.controller.carry_out(Intent::ChooseTin(TinChoice::New));
        self.controller
            .carry_out(Intent::Adjust(Quantity::NewTin, Mass::from_grams(-500)));
        self.controller.carry_out(Intent::StartRun);
        self.until("in a run", |state| state.bench.running().is_some());
        let far = self.far.clone();
        self.until("the instrument in it", |_| far.at(|far| far.run.is_some()));
    }

    fn store(&self) -> Store {
        Store::open(&data(&self.folder)).unwrap()
    }
}

/// Counts how often something was heard from the instrument.
struct Heard<T> {
    dial: T,
    times: Arc<AtomicUsize>,
}

impl Dial for Heard<Box<dyn Dial>> {
    fn place(&self) -> &str {
        self.dial.place()
    }

    fn dial(&mut self) -> Result<Box<dyn Line>, LinkState> {
        Ok(Box::new(Heard {
            dial: self.dial.dial()?,
            times: Arc::clone(&self.times),
        }))
    }
}

impl Line for Heard<Box<dyn Line>> {
    fn read(&mut self, buffer: &mut [u8], patience: Duration) -> Result<usize, LineEnd> {
        let count = self.dial.read(buffer, patience)?;
        if count > 0 {
            self.times.fetch_add(1, Ordering::SeqCst);
        }
        Ok(count)
    }

    fn write(&mut self, bytes: &[u8]) -> Result<(), LineEnd> {
        self.dial.write(bytes)
    }

    fn now(&self) -> Option<Now> {
        self.dial.now()
    }
}

fn data(folder: &TempDir) -> DataFolder {
    DataFolder::choose(Some(folder.path())).unwrap()
}

/// The controls of a run go while nobody touches, and come back with a touch; of a screen
/// without a run they do not.
#[test]
fn controls_go_while_nobody_touches_a_run() {
    let mut kitchen = Kitchen::linked();
    let begun = Instant::now();
    let after = |seconds| begun + Duration::from_secs(seconds);
    kitchen.controller.touched(begun);
    kitchen.controller.look_for_hands(after(3_600));
    assert!(!kitchen.controller.state().far, "there is no run");

    kitchen.start_shrimp();
    kitchen.controller.touched(begun);
    kitchen.controller.look_for_hands(after(14));
    assert!(!kitchen.controller.state().far);
    kitchen.controller.look_for_hands(after(15));
    assert!(kitchen.controller.state().far);
    kitchen.controller.touched(after(16));
    assert!(!kitchen.controller.state().far);
    kitchen.controller.look_for_hands(after(30));
    assert!(!kitchen.controller.state().far);
    // Another screen than the bench keeps its controls.
    kitchen.controller.carry_out(Intent::Go(Screen::Portions));
    kitchen.controller.look_for_hands(after(3_600));
    assert!(!kitchen.controller.state().far);
}

fn counting(state: &State) -> usize {
    state.bench.run.as_ref().map_or(0, |run| run.spread.count)
}

#[test]
fn a_new_dish_is_portioned_out_of_a_new_tin() {
    let mut kitchen = Kitchen::linked();
    kitchen.start_shrimp();
    assert_eq!(kitchen.controller.state().screen, Screen::Bench);
    for milligrams in [25_100, 24_700, 27_900] {
        kitchen.far.at(|far| far.capture(milligrams));
    }
    let state = kitchen.until("three portions", |state| counting(state) == 3);
    let run = state.bench.running().unwrap();
    assert_eq!(run.dish, "brown shrimp");
    assert_eq!(run.goal.target(), Mass::from_grams(25));
    let tin = run.tin.as_ref().unwrap();
    assert_eq!(tin.left, Some(Mass::from_milligrams(422_300)));
    assert_eq!(tin.portions.as_deref(), Some("16 to 17 portions"));
    // It is on the list for next time, as it was set up.
    kitchen.controller.carry_out(Intent::Go(Screen::Dishes));
    let [dish] = kitchen.controller.state().dishes.as_slice() else {
        panic!("{:?}", kitchen.controller.state().dishes);
    };
    assert_eq!(dish.goal.target(), Mass::from_grams(25));
    assert_eq!(dish.mode, Mode::Taking);
    let name = dish.name.clone();
    kitchen.controller.carry_out(Intent::ChooseDish(name));
    let setup = &kitchen.controller.state().setup;
    assert_eq!(setup.tin, TinChoice::Open);
    assert_eq!(setup.open_tin, Some(Mass::from_milligrams(422_300)));
}

#[test]
fn a_portion_is_undone_struck_out_and_counted_again() {
    let mut kitchen = Kitchen::linked();
    kitchen.start_shrimp();
    for milligrams in [25_100, 24_700, 27_900] {
        kitchen.far.at(|far| far.capture(milligrams));
    }
    kitchen.until("three portions", |state| counting(state) == 3);

    kitchen.controller.carry_out(Intent::UndoLast);
    let state = kitchen.until("two left", |state| counting(state) == 2);
    let undone = state.bench.run.unwrap().portions.pop().unwrap();
    assert_eq!(undone.mass, Mass::from_milligrams(27_900));
    assert_eq!(undone.standing, PortionState::Struck("undone".to_owned()));

    // It is said, and put back with one touch.
    let state = kitchen.until("said", |state| state.undone.is_some());
    let said = state.undone.unwrap();
    assert_eq!((said.number, said.mass.as_str()), (3, "27.9 g"));
    kitchen.controller.carry_out(Intent::PutBack(said.id));
    let state = kitchen.until("three again", |state| counting(state) == 3);
    assert_eq!(state.undone, None);
    kitchen.controller.carry_out(Intent::UndoLast);
    kitchen.until("undone again", |state| {
        counting(state) == 2 && state.undone.is_some()
    });

    kitchen.controller.carry_out(Intent::Go(Screen::Portions));
    let first = kitchen
        .controller
        .state()
        .bench
        .run
        .as_ref()
        .unwrap()
        .portions[0]
        .id;
    kitchen.controller.carry_out(Intent::PickPortion(first));
    kitchen.controller.carry_out(Intent::StrikeOut);
    assert!(
        kitchen
            .controller
            .state()
            .complaint
            .as_ref()
            .unwrap()
            .contains("say why"),
        "a reason is needed: {:?}",
        kitchen.controller.state().complaint
    );
    kitchen
        .controller
        .carry_out(Intent::Reason("fell on the floor".to_owned()));
    kitchen.controller.carry_out(Intent::StrikeOut);
    assert_eq!(kitchen.controller.state().complaint, None);
    let state = kitchen.until("one left", |state| counting(state) == 1);
    assert_eq!(
        state.bench.run.unwrap().portions[0].standing,
        PortionState::Struck("fell on the floor".to_owned())
    );

    kitchen.controller.carry_out(Intent::PickPortion(first));
    kitchen.controller.carry_out(Intent::CountAgain);
    kitchen.until("two again", |state| counting(state) == 2);
    // Nothing was ever deleted.
    let kept = kitchen.store().portions(&Query::default()).unwrap();
    assert_eq!(kept.len(), 3);
}

#[test]
fn the_goal_changes_within_the_run_and_the_run_is_stopped() {
    let mut kitchen = Kitchen::linked();
    kitchen.start_shrimp();
    kitchen.controller.carry_out(Intent::Go(Screen::Goal));
    assert_eq!(
        kitchen.controller.state().setup.target,
        Mass::from_grams(25)
    );
    kitchen
        .controller
        .carry_out(Intent::Adjust(Quantity::Tolerance, Mass::from_grams(1)));
    kitchen.controller.carry_out(Intent::ChangeGoal);
    let state = kitchen.until("changed", |state| {
        state
            .bench
            .running()
            .is_some_and(|run| run.goal.heaviest() == Mass::from_grams(27))
    });
    assert_eq!(state.screen, Screen::Bench);
    assert!(kitchen.far.at(|far| {
        far.carried_out
            .iter()
            .any(|command| matches!(command, Command::SetGoal(_)))
    }));

    kitchen.controller.carry_out(Intent::StopRun);
    let state = kitchen.until("stopped", |state| {
        state.bench.run.as_ref().is_some_and(|run| !run.going_on)
    });
    assert!(state.bench.running().is_none());
}

#[test]
fn a_goal_that_cannot_be_starts_nothing() {
    let mut kitchen = Kitchen::linked();
    kitchen.controller.carry_out(Intent::NewDish);
    kitchen
        .controller
        .carry_out(Intent::NameDish("Stock".to_owned()));
    kitchen.controller.carry_out(Intent::DishNamed);
    kitchen
        .controller
        .carry_out(Intent::Adjust(Quantity::Target, Mass::from_grams(-100)));
    assert_eq!(kitchen.controller.state().setup.target, Mass::ZERO);
    kitchen.controller.carry_out(Intent::StartRun);
    assert_eq!(
        kitchen.controller.state().complaint.as_deref(),
        Some("This cannot be: the target must be above zero.")
    );
    assert!(kitchen.store().dishes().unwrap().is_empty());
}

#[test]
fn what_the_instrument_refuses_is_said() {
    let mut kitchen = Kitchen::linked();
    kitchen.far.at(|far| far.refuse = Some(Refusal::NotStable));
    kitchen.controller.carry_out(Intent::Tare);
    let state = kitchen.until("refused", |state| state.complaint.is_some());
    let complaint = state.complaint.unwrap();
    assert!(complaint.contains("moving"), "{complaint}");
    // It goes when something else is asked for.
    kitchen.far.at(|far| far.refuse = None);
    kitchen.controller.carry_out(Intent::Zero);
    assert_eq!(kitchen.controller.state().complaint, None);
}

#[test]
fn without_a_scale_it_says_so_and_what_to_do() {
    let mut kitchen = Kitchen::apart();
    kitchen.controller.take_in();
    let link = &kitchen.controller.state().bench.link;
    assert_eq!(link.tone, Tone::Attention);
    kitchen.controller.carry_out(Intent::Tare);
    assert!(kitchen.controller.state().complaint.is_some());

    kitchen.plug_in(None);
    kitchen.until("linked", |state| state.bench.can.run);
    kitchen.far.at(|far| far.plugged = false);
    let state = kitchen.until("lost", |state| state.bench.link.tone == Tone::Attention);
    assert_eq!(state.bench.mass.shown, None, "an old figure is not shown");
    kitchen.far.at(|far| far.plugged = true);
    kitchen.until("linked again", |state| state.bench.link.tone == Tone::Quiet);
}

#[test]
fn a_run_can_begin_by_itself_with_its_dish() {
    let mut kitchen = Kitchen::apart();
    let goal = Goal::new(
        Mass::from_grams(45),
        Tolerance::symmetric(Mass::from_grams(2)),
    )
    .unwrap();
    kitchen.plug_in(Some(NewRun {
        dish: DishName::new("dish", "Sorrel parfait").unwrap(),
        goal,
        mode: Mode::Taking,
        cook: None,
        tin: None,
    }));
    let state = kitchen.until("begun", |state| state.bench.running().is_some());
    assert_eq!(state.bench.running().unwrap().dish, "Sorrel parfait");
}

#[test]
fn a_still_bench_asks_for_no_picture() {
    let mut kitchen = Kitchen::linked();
    kitchen.until("a reading", |state| state.bench.mass.shown.is_some());
    let heard = Arc::clone(&kitchen.heard);
    let readings = || heard.load(Ordering::SeqCst);
    let from = readings();
    let before = kitchen.changes.load(Ordering::SeqCst);
    let begun = Instant::now();
    while readings() < from + 200 {
        assert!(begun.elapsed() < PATIENCE, "the instrument says nothing");
        std::thread::sleep(Duration::from_millis(5));
    }
    let pictures = kitchen.changes.load(Ordering::SeqCst) - before;
    // The clock may have gone on to another minute meanwhile.
    let minutes = 1 + usize::try_from(begun.elapsed().as_secs() / 60).unwrap();
    assert!(pictures <= minutes, "{pictures} pictures for 200 readings");
}

#[test]
fn where_the_scale_was_is_remembered() {
    let mut kitchen = Kitchen::apart();
    kitchen
        .controller
        .carry_out(Intent::UsePort("/dev/no-such-port".to_owned()));
    let state = kitchen.until("sought", |state| {
        state.bench.link.words.contains("/dev/no-such-port")
    });
    assert_eq!(state.places.chosen.as_deref(), Some("/dev/no-such-port"));
    let kept = std::fs::read_to_string(kitchen.folder.path().join("app.toml")).unwrap();
    assert_eq!(kept, "port = \"/dev/no-such-port\"\n");
}

/// The whole way, on the simulated bench that opens by default: from its load
/// cell to the marks on the screen.
#[test]
fn a_simulated_evening_is_portioned_to_its_end() {
    let bench = SimulatedBench::shipped().remove(0);
    let Endpoint::Simulated { scenario, .. } = &bench.place else {
        panic!("{:?}", bench.place);
    };
    let count = scenario.portion_count();
    let goal = scenario.goal();
    let mut kitchen = Kitchen::apart();
    let at_once = Opening::of(bench.place.clone()).at_once;
    assert!(at_once.is_some(), "its dish has a name");
    kitchen.controller.seek(Opening {
        dial: bench.place.clone().dial(Pace::Unbounded),
        at_once,
    });
    let state = kitchen.until("over", |state| {
        state.bench.link.words.contains("come to its end")
    });
    let run = state.bench.run.unwrap();
    assert_eq!(run.goal, goal);
    assert_eq!(run.spread.count, count);
    let kept = kitchen.store().portions(&Query::default()).unwrap();
    assert_eq!(kept.len(), run.portions.len());
}
