//! The guided flows with known weights, on a simulated bench.

use crate::app_samples;
use crate::app_screens::{SIZES, all_words, harness};
use egui_kittest::kittest::{NodeT, Queryable};
use evenhand_app::Opening;
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::known_weights::{Purpose, WeightFlow, WeightStep, WeightWish};
use evenhand_app::picture::write_picture;
use evenhand_app::state::{Screen, State};
use evenhand_kitchen::dish::DishName;
use evenhand_link::{Pace, SimulatedDial};
use evenhand_protocol::{Goal, Mass, Mode, Tolerance};
use evenhand_simulator::scenario::Scenario;
use evenhand_store::{DataFolder, Store};
use jiff::tz::TimeZone;
use std::time::{Duration, Instant};

/// Looks until it is so.
fn until(controller: &mut Controller, what: &str, is: impl Fn(&Controller) -> bool) {
    let begun = Instant::now();
    while !is(controller) {
        assert!(
            begun.elapsed() < Duration::from_secs(60),
            "{what}: {:?} {:?}",
            controller.state().weights,
            controller.state().complaint
        );
        std::thread::sleep(Duration::from_millis(20));
        controller.take_in();
    }
}

fn controller(folder: &tempfile::TempDir) -> Controller {
    let folder = DataFolder::choose(Some(folder.path())).unwrap();
    let mut controller = Controller::open(folder, TimeZone::UTC, Vec::new(), || {}).unwrap();
    let scenario = Scenario::shipped("saltmarsh-shrimp-taking").unwrap();
    controller.seek(Opening::at(SimulatedDial::new(
        scenario,
        1,
        Pace::Times(20.0),
    )));
    until(&mut controller, "linked", |controller| {
        controller.state().bench.can.run
    });
    controller
}

fn press(controller: &mut Controller, wish: WeightWish) {
    controller.carry_out(Intent::Weights(wish));
}

/// Presses through a flow and gives what came out.
fn through(controller: &mut Controller, purpose: Purpose, grams: &[i64]) -> (Vec<String>, bool) {
    press(controller, WeightWish::Choose(purpose));
    let wanted: Vec<Mass> = grams.iter().copied().map(Mass::from_grams).collect();
    let offered = controller.state().weights.weights.clone();
    let other = offered.iter().filter(|mass| !wanted.contains(mass));
    let more = wanted.iter().filter(|mass| !offered.contains(mass));
    for mass in other.chain(more) {
        press(controller, WeightWish::Toggle(*mass));
    }
    picture(controller, "choosing");
    press(controller, WeightWish::Begin);
    for step in 0..=grams.len() {
        until(controller, "placing", |controller| {
            controller.state().weights.stage == WeightStep::Placing(step)
        });
        picture(controller, "placing");
        // The first step is the empty pan. A scale that is calibrated anew may be off by some.
        let lies = step.checked_sub(1).map_or(0, |nth| grams[nth]);
        until(controller, "lying still", |controller| {
            let mass = &controller.state().bench.mass;
            let near = |shown: Mass| (shown - Mass::from_grams(lies)).abs();
            mass.stable == Some(true)
                && mass
                    .shown
                    .is_some_and(|shown| near(shown) <= Mass::from_grams(5 + lies / 10))
        });
        press(controller, WeightWish::Placed);
    }
    until(controller, "done", |controller| {
        matches!(controller.state().weights.stage, WeightStep::Done(..))
    });
    picture(controller, "done");
    match controller.state().weights.stage.clone() {
        WeightStep::Done(words, good) => (words, good),
        other => panic!("{other:?}"),
    }
}

/// Each step shows what the scale reads, large.
#[test]
fn each_step_shows_what_the_scale_reads() {
    let mut state = app_samples::idle();
    state.screen = Screen::Weights;
    state.weights = WeightFlow::new(Purpose::Calibrate);
    state.weights.toggle(Mass::from_grams(500));
    for stage in [
        WeightStep::Placing(0),
        WeightStep::Placing(1),
        WeightStep::Waiting(1),
    ] {
        state.weights.stage = stage;
        let words = all_words(&harness(state.clone(), SIZES[0]));
        for said in ["512.3 grams", "On the pan", "steady"] {
            assert!(words.iter().any(|word| word == said), "{words:?}");
        }
    }
}

/// The samples' scale weighs up to 3 kg: a weight of 5 kg is none for it.
#[test]
fn weights_that_the_scale_may_not_weigh_are_not_offered() {
    let mut state = app_samples::idle();
    state.screen = Screen::Weights;
    state.weights = WeightFlow::new(Purpose::Calibrate);
    let offered = |state: &State| {
        let words = all_words(&harness(state.clone(), SIZES[0]));
        ["100 g", "2000 g", "5000 g"].map(|mass| words.iter().any(|word| word == mass))
    };
    assert_eq!(offered(&state), [true, true, false]);
    state.bench.capacity = Some(Mass::from_grams(6_000));
    assert_eq!(offered(&state), [true, true, true]);
}

/// A run on record that the scale does not have keeps nobody from calibrating it.
#[test]
fn only_a_run_that_the_scale_has_keeps_it_from_being_calibrated() {
    let begins = |mut state: State| {
        state.screen = Screen::Weights;
        state.weights = WeightFlow::new(Purpose::Calibrate);
        state.weights.toggle(Mass::from_grams(500));
        let harness = harness(state, SIZES[0]);
        let told = all_words(&harness).contains(&"A run is going on: stop it first.".to_owned());
        let begin = harness.get_by_label("Begin");
        assert_eq!(told, begin.accesskit_node().is_disabled());
        !told
    };
    assert!(!begins(app_samples::short()), "the scale is in a run");
    let mut state = app_samples::short();
    assert!(state.bench.running().is_some());
    state.bench.can.calibrate = true;
    assert!(begins(state));
    assert!(begins(app_samples::idle()));
}

/// Writes the screen where `EVENHAND_PICTURES` names a folder.
fn picture(controller: &Controller, name: &str) {
    if let Ok(folder) = std::env::var("EVENHAND_PICTURES") {
        let path = std::path::Path::new(&folder).join(format!("weights-{name}.png"));
        write_picture(&path, [1280, 800], controller.state()).unwrap();
    }
}

#[test]
fn a_cook_tries_the_scale_and_calibrates_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut controller = controller(&folder);
    let (lines, good) = through(&mut controller, Purpose::Try, &[500]);
    assert!(good, "{lines:?}");
    assert_eq!(lines.len(), 1, "{lines:?}");
    assert!(lines[0].starts_with("Pass."), "{lines:?}");
    // With a dish of 30 g on the list, a weight of that size is asked for too.
    let folder = DataFolder::choose(Some(folder.path())).unwrap();
    let tolerance = Tolerance::symmetric(Mass::from_grams(2));
    let goal = Goal::new(Mass::from_grams(30), tolerance).unwrap();
    let name = DishName::new("dish", "Potted shrimp").unwrap();
    let since = "2026-01-01T00:00Z".parse().unwrap();
    let mut store = Store::open(&folder).unwrap();
    store
        .set_dish(&name, goal, Mode::Adding, None, since)
        .unwrap();
    press(&mut controller, WeightWish::Choose(Purpose::Try));
    let asked = &controller.state().weights.weights;
    assert_eq!(asked, &[20, 1_000].map(Mass::from_grams));
    let (lines, good) = through(&mut controller, Purpose::Try, &[20, 1_000]);
    assert!(good, "{lines:?}");
    assert_eq!(lines.len(), 2, "{lines:?}");
    assert!(lines[0].starts_with("Pass. 20.0 g reads"), "{lines:?}");
    assert!(lines[1].starts_with("Pass. 1000.0 g reads"), "{lines:?}");
    let (lines, _) = through(&mut controller, Purpose::Try, &[1_000]);
    assert!(lines[1].starts_with("Try 20.0 g too"), "{lines:?}");
    press(&mut controller, WeightWish::Leave);
    assert_eq!(controller.state().screen, Screen::Scale);

    let (lines, good) = through(&mut controller, Purpose::Calibrate, &[200, 500]);
    assert!(good, "{lines:?}");
    let made = "Calibrated with 3 points.";
    assert!(lines[0].starts_with(made), "{lines:?}");
}
