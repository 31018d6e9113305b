//! The practice bench by mouse: what is poured is portioned, nothing of it goes on the
//! kitchen's record, and the guide goes on by what was done.

use crate::app_left_in_english::left_in_english;
use crate::app_samples;
use crate::app_screens::{self, SIZES, all_words};
use eframe::egui::{Key, Pos2, Theme};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use evenhand_app::bench_view::Of;
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::picture::write_picture;
use evenhand_app::practice::{BenchKind, PracticeView, PracticeWish, Step};
use evenhand_app::state::{Screen, State};
use evenhand_app::{Language, SimulatedBench, shell, theme};
use evenhand_link::{Pace, Table};
use evenhand_protocol::{Mass, Verdict};
use evenhand_simulator::practice::{self, Vessel};
use evenhand_store::{DataFolder, Query, Store};
use jiff::tz::TimeZone;
use std::path::Path;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Longer than anything here takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

struct Cook {
    harness: Harness<'static, Controller>,
    folder: TempDir,
    /// Where a button is held down.
    held: Option<Pos2>,
}

impl Cook {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let data = DataFolder::choose(Some(folder.path())).unwrap();
        let mut controller =
            Controller::open(data, TimeZone::UTC, SimulatedBench::shipped(), || {}).unwrap();
        controller.carry_out(Intent::Go(Screen::Scale));
        let harness = Harness::builder()
            .with_size(SIZES[0])
            .with_theme(Theme::Light)
            .with_context_setup(theme::install)
            .build_ui_state(
                |ui, controller: &mut Controller| {
                    controller.take_in();
                    for intent in shell::show(ui, controller.state()) {
                        controller.carry_out(intent);
                    }
                },
                controller,
            );
        Self {
            harness,
            folder,
            held: None,
        }
    }

    fn state(&self) -> &State {
        self.harness.state().state()
    }

    fn practice(&self) -> PracticeView {
        match self.state().kind {
            BenchKind::Practice(view) => view,
            other => panic!("{other:?}"),
        }
    }

    #[track_caller]
    fn until(&mut self, what: &str, is: impl Fn(&State) -> bool) {
        let begun = Instant::now();
        loop {
            self.harness.step();
            if is(self.state()) {
                return;
            }
            assert!(
                begun.elapsed() < PATIENCE,
                "never {what}: {:#?} {:?}",
                self.state().bench,
                self.state().kind
            );
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    #[track_caller]
    fn touch(&mut self, words: &str) {
        self.harness.get_by_label(words).click();
        self.harness.step();
        self.harness.step();
    }

    #[track_caller]
    fn hold(&mut self, words: &str) {
        let at = self.harness.get_by_label(words).rect().center();
        self.harness.hover_at(at);
        self.harness.drag_at(at);
        self.harness.step();
        self.held = Some(at);
    }

    fn let_go(&mut self) {
        self.harness.drop_at(self.held.take().unwrap());
        self.harness.step();
        self.harness.step();
        assert_eq!(self.practice().table.pours, None, "let go, and it pours on");
    }

    /// The dish comes, the tared scale waits for food.
    fn put_dish_on(&mut self) {
        self.touch("Dish on");
        self.until("tared", |state| {
            state.bench.mass.caption == "In the dish" && state.bench.mass.stable == Some(true)
        });
    }

    /// As somebody does who looks at the figure: too much comes out again with the spoon.
    fn pour_to_target(&mut self) {
        let enough = |grams: i64| {
            move |state: &State| state.bench.mass.shown >= Some(Mass::from_grams(grams))
        };
        self.hold("Pour fast, hold it down");
        self.until("nearly there", enough(25));
        self.let_go();
        loop {
            self.until("at rest", |state| state.bench.mass.stable == Some(true));
            match self.state().bench.mass.verdict {
                Some(Verdict::On) => return,
                Some(Verdict::Heavy) => {
                    let before = self.state().bench.mass.shown;
                    self.touch("Spoon out");
                    self.until("taken out", |state| state.bench.mass.shown < before);
                }
                _ => {
                    self.hold("Pour slowly, hold it down");
                    self.until("there", enough(58));
                    self.let_go();
                }
            }
        }
    }

    fn lift_off(&mut self, portions: usize) {
        self.touch("Lift off");
        self.until("captured", |state| {
            let run = state.bench.run.as_ref();
            run.is_some_and(|run| run.portions.len() == portions)
        });
    }

    fn step(&self) -> Option<Step> {
        self.practice().step
    }
}

/// The whole way, as somebody goes it who has no scale: the guide goes on by what is done,
/// and the kitchen's own record knows nothing of it.
#[test]
fn a_finger_pours_a_portion_undoes_it_and_makes_one_too_heavy() {
    let mut cook = Cook::new();
    cook.touch("Practice bench");
    cook.until("a run", |state| state.bench.running().is_some());
    assert_eq!(cook.step(), Some(Step::DishOn));

    cook.put_dish_on();
    assert_eq!(cook.step(), Some(Step::FirstPortion));
    cook.pour_to_target();
    cook.lift_off(1);
    let captured = cook.state().bench.run.as_ref().unwrap().portions[0].clone();
    assert_eq!(captured.verdict(), Verdict::On);
    assert_eq!(cook.step(), Some(Step::Undo));

    cook.touch("Undo last");
    cook.until("undone", |state| state.undone.is_some());
    assert_eq!(cook.step(), Some(Step::TooMuch));

    cook.put_dish_on();
    cook.pour_to_target();
    cook.touch("Spill");
    cook.until("too much", |state| {
        state.bench.mass.verdict == Some(Verdict::Heavy) && state.bench.mass.stable == Some(true)
    });
    cook.lift_off(2);
    let heavy = cook.state().bench.run.as_ref().unwrap().portions[1].clone();
    assert_eq!(heavy.verdict(), Verdict::Heavy);
    assert_eq!(cook.step(), Some(Step::StopRun));

    cook.touch("Stop run");
    cook.until("stopped", |state| state.bench.running().is_none());
    assert_eq!(cook.step(), Some(Step::OpenBrine));

    // Leaving is one key, and hinders nothing; the kitchen's record is as it was.
    cook.harness.key_press(Key::Escape);
    cook.harness.step();
    cook.harness.step();
    assert_eq!(cook.step(), None);
    cook.touch("End practice");
    assert_eq!(cook.state().kind, BenchKind::Real);
    let portions = |folder: &DataFolder| {
        let store = Store::open(folder).unwrap();
        store.portions(&Query::default()).unwrap().len()
    };
    let kitchen = DataFolder::choose(Some(cook.folder.path())).unwrap();
    assert_eq!(portions(&kitchen), 0);
    assert_eq!(portions(&kitchen.for_simulated()), 2);
    assert!(
        Store::open(&kitchen)
            .unwrap()
            .dishes_in_use()
            .unwrap()
            .is_empty()
    );
}

/// A spoon that lies in the tin and is taken up again is no portion; the next spoonful is.
#[test]
fn a_spoon_left_lying_in_the_tin_is_no_portion() {
    let mut cook = Cook::new();
    let controller = cook.harness.state_mut();
    controller.begin_practice(Pace::REAL).unwrap();
    cook.until("a run", |state| state.bench.running().is_some());
    cook.touch("Stop run");
    cook.until("stopped", |state| state.bench.running().is_none());
    let controller = cook.harness.state_mut();
    let dish = controller.state().dishes[0].name.clone();
    controller.carry_out(Intent::ChooseDish(dish));
    controller.carry_out(Intent::ChooseMode(evenhand_protocol::Mode::Taking));
    let less = Mass::from_grams(-40);
    controller.carry_out(Intent::Adjust(evenhand_app::intent::Quantity::Target, less));
    let wide = Mass::from_grams(1);
    controller.carry_out(Intent::Adjust(
        evenhand_app::intent::Quantity::Tolerance,
        wide,
    ));
    controller.carry_out(Intent::StartRun);
    cook.until("a run", |state| state.bench.running().is_some());
    cook.touch("Full tin on");
    cook.until("ready", |state| state.bench.prompt == "Take a portion");
    cook.touch("Spoon out");
    let made = |count| {
        move |state: &State| {
            let run = state.bench.run.as_ref();
            run.is_some_and(|run| run.portions.len() == count)
        }
    };
    cook.until("captured", made(1));
    let mass =
        |cook: &Cook, nth: usize| cook.state().bench.run.as_ref().unwrap().portions[nth].mass;
    let first = mass(&cook, 0);
    cook.touch("Leave the spoon in");
    let lies = |state: &State| match state.bench.mass.of {
        Of::Captured { pan } => pan > Mass::from_grams(1_160),
        _ => false,
    };
    cook.until("the spoon weighed", lies);
    cook.touch("Take the spoon up");
    cook.until("the spoon gone", |state| !lies(state));
    cook.touch("Spoon out");
    cook.until("captured", made(2));
    let [first_now, second] = [0, 1].map(|nth| mass(&cook, nth));
    assert_eq!(first_now, first);
    // A spoonful, and nothing of the spoon.
    let off = (second - practice::SPOONFUL).abs();
    assert!(off < Mass::from_grams(3), "{second:?}");
}

fn practising(language: Language, screen: Screen, step: Option<Step>) -> State {
    let mut state = app_samples::in_language(language, app_samples::on);
    let table = Table {
        vessel: Some(Vessel::Dish),
        food: true,
        ..Table::default()
    };
    state.kind = BenchKind::Practice(PracticeView { table, step });
    state.screen = screen;
    state
}

/// On every screen and in every language it says that there is no real scale, whole and
/// large enough for a finger.
#[test]
fn every_screen_says_that_there_is_no_real_scale() {
    let screens = [
        Screen::Bench,
        Screen::Dishes,
        Screen::Setup,
        Screen::Portions,
        Screen::Service,
        Screen::Scale,
        Screen::Settings,
        Screen::Mix,
        Screen::Prep,
        Screen::Heat,
    ];
    for size in [SIZES[0], SIZES[1]] {
        for screen in screens {
            let state = practising(Language::English, screen, Some(Step::FIRST));
            let harness = app_screens::harness(state.clone(), size);
            let words = all_words(&harness);
            let at = format!("{screen:?} at {size}");
            let says = |what: &str| words.iter().any(|words| words.starts_with(what));
            assert!(
                says("Practice bench: there is no real scale"),
                "{at}: {words:#?}"
            );
            app_screens::is_whole(&harness, &at);
            app_screens::stands_clear(&harness, size, &at);
            let state = State {
                kind: BenchKind::Simulated,
                ..state
            };
            let harness = app_screens::harness(state, size);
            let words = all_words(&harness);
            let says = |what: &str| words.iter().any(|words| words.starts_with(what));
            assert!(
                says("Simulated bench: there is no real scale"),
                "{at}: {words:#?}"
            );
            app_screens::is_whole(&harness, &at);
        }
    }
}

/// The hand's own buttons are large enough for a finger, and every step is said whole.
#[test]
fn every_step_is_said_whole_in_every_language() {
    for language in crate::app_left_in_english::LANGUAGES {
        for step in Step::ALL {
            for size in [SIZES[0], SIZES[1]] {
                let state = practising(language, Screen::Bench, Some(step));
                if let Some(folder) = std::env::var_os("EVENHAND_PICTURES") {
                    let name = format!("practice-{step:?}-{}-{}.png", language.code(), size.x);
                    let path = Path::new(&folder).join(name);
                    write_picture(&path, [size.x as u32, size.y as u32], &state).unwrap();
                }
                let harness = app_screens::harness(state, size);
                let at = format!("{step:?} in {language:?} at {size}");
                app_screens::is_whole(&harness, &at);
                app_screens::stands_clear(&harness, size, &at);
                if language == Language::Stretched {
                    let left = left_in_english(&harness, &["Brown shrimp".to_owned()]);
                    assert!(left.is_empty(), "{at}: {left:#?}");
                }
                if language == Language::English {
                    for words in [
                        "Dish on",
                        "Full tin on",
                        "Bowl on",
                        "Lift off",
                        "Pour fast, hold it down",
                        "Pour slowly, hold it down",
                        "Spoon out",
                        "Spill",
                        "Leave the spoon in",
                        "Probe into hot food",
                        "Leave the guide",
                        "End practice",
                    ] {
                        let button = harness.get_by_label(words).rect().size();
                        assert!(
                            button.min_elem() >= theme::TOUCH,
                            "{at}: {words} is only {button}"
                        );
                    }
                }
            }
        }
    }
}

/// Without a guide the key is the screen's own.
#[test]
fn the_key_that_leaves_the_guide_is_the_screens_first() {
    let asked = |screen, step| {
        let state = practising(Language::English, screen, step);
        let mut harness = Harness::builder()
            .with_size(SIZES[0])
            .with_context_setup(theme::install)
            .build_ui_state(
                |ui, (state, asked): &mut (State, Vec<Intent>)| {
                    asked.extend(shell::show(ui, state));
                },
                (state, Vec::new()),
            );
        harness.key_press(Key::Escape);
        harness.step();
        harness.state().1.clone()
    };
    let leave = Intent::Practice(PracticeWish::LeaveGuide);
    assert_eq!(asked(Screen::Bench, Some(Step::FIRST)), [leave]);
    assert_eq!(asked(Screen::Bench, None), []);
    assert_eq!(
        asked(Screen::Settings, Some(Step::FIRST)),
        [Intent::Go(Screen::Scale)]
    );
}
