//! What the screens ask for when touched and when keys are struck.

use crate::app_samples;
use eframe::egui::{self, Key, Theme, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use evenhand_app::intent::{Intent, Quantity};
use evenhand_app::state::{Screen, State, TinChoice};
use evenhand_app::{shell, theme};
use evenhand_kitchen::dish::DishName;
use evenhand_protocol::{Mass, Mode};

/// A screen, and everything asked for so far.
struct Bench {
    state: State,
    asked: Vec<Intent>,
}

fn harness(state: State) -> Harness<'static, Bench> {
    Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_theme(Theme::Light)
        .with_context_setup(theme::install)
        .build_ui_state(
            |ui, bench: &mut Bench| {
                let asked = shell::show(ui, &bench.state);
                bench.asked.extend(asked);
            },
            Bench {
                state,
                asked: Vec::new(),
            },
        )
}

#[track_caller]
fn touched(state: State, label: &str) -> Vec<Intent> {
    let mut harness = harness(state);
    harness.get_by_label(label).click();
    harness.run();
    harness.into_state().asked
}

#[track_caller]
fn struck(state: State, key: Key) -> Vec<Intent> {
    let mut harness = harness(state);
    harness.key_press(key);
    harness.run();
    harness.into_state().asked
}

fn dish(name: &str) -> DishName {
    DishName::new("dish", name).unwrap()
}

#[test]
fn nothing_is_asked_for_by_looking() {
    for (name, state) in app_samples::all() {
        assert_eq!(harness(state).into_state().asked, [], "{name}");
    }
}

#[test]
fn each_button_of_a_run_and_its_key_ask_for_the_same() {
    for (label, key, intent) in [
        ("Undo last", Key::U, Intent::UndoLast),
        ("Strike out", Key::X, Intent::Go(Screen::Portions)),
        ("Change goal", Key::G, Intent::Go(Screen::Goal)),
        ("Stop run", Key::S, Intent::StopRun),
        ("Tare", Key::T, Intent::Tare),
        ("Zero", Key::Z, Intent::Zero),
    ] {
        let wished = [intent];
        assert_eq!(touched(app_samples::on(), label), wished, "{label}");
        assert_eq!(struck(app_samples::on(), key), wished, "{label}");
    }
}

#[test]
fn the_rail_is_reached_by_touch_and_function_keys() {
    for (label, key, screen) in [
        ("Bench screen", Key::F1, Screen::Bench),
        ("Dishes screen", Key::F2, Screen::Dishes),
        ("Portions screen", Key::F3, Screen::Portions),
        ("Mix screen", Key::F4, Screen::Mix),
        ("Service screen", Key::F5, Screen::Service),
        ("Prep screen", Key::F6, Screen::Prep),
        ("Heat screen", Key::F7, Screen::Heat),
        ("Scale screen", Key::F8, Screen::Scale),
    ] {
        assert_eq!(touched(app_samples::on(), label), [Intent::Go(screen)]);
        assert_eq!(struck(app_samples::on(), key), [Intent::Go(screen)]);
    }
}

#[test]
fn a_dish_used_lately_starts_with_one_touch_or_key() {
    let start = [Intent::StartDish(dish("Hogget neck"))];
    assert_eq!(
        touched(app_samples::idle(), "Hogget neck, 180.0 g, into dishes"),
        start
    );
    assert_eq!(struck(app_samples::idle(), Key::Num2), start);
}

#[test]
fn without_an_instrument_nothing_can_be_asked_of_it() {
    for key in [Key::T, Key::Z, Key::U, Key::Num1] {
        assert_eq!(struck(app_samples::unplugged(), key), [], "{key:?}");
    }
    assert_eq!(touched(app_samples::unplugged(), "Tare"), []);
    assert_eq!(
        touched(app_samples::unplugged(), "Find the scale"),
        [Intent::Go(Screen::Scale)]
    );
}

#[test]
fn a_run_is_set_up_with_big_steps() {
    let adjust =
        |quantity, milligrams| [Intent::Adjust(quantity, Mass::from_milligrams(milligrams))];
    for (label, expected) in [
        ("Target +10", adjust(Quantity::Target, 10_000)),
        ("Target \u{2212}0.5", adjust(Quantity::Target, -500)),
        ("Tolerance +0.1", adjust(Quantity::Tolerance, 100)),
        ("Tolerance \u{2212}1", adjust(Quantity::Tolerance, -1_000)),
        (
            "Out of a tin, Set the tin on, spoon out of it",
            [Intent::ChooseMode(Mode::Taking)],
        ),
        ("Start", [Intent::StartRun]),
        ("Back", [Intent::Go(Screen::Dishes)]),
    ] {
        assert_eq!(
            touched(app_samples::setting_up(), label),
            expected,
            "{label}"
        );
    }
    assert_eq!(
        struck(app_samples::setting_up(), Key::Enter),
        [Intent::StartRun]
    );
    assert_eq!(
        touched(app_samples::changing_goal(), "Use this goal"),
        [Intent::ChangeGoal]
    );
}

#[test]
fn a_dish_is_chosen_or_made() {
    assert_eq!(
        touched(
            app_samples::choosing(),
            "Sorrel parfait, 45.0 g ± 2.0 g, out of a tin"
        ),
        [Intent::ChooseDish(dish("Sorrel parfait"))]
    );
    assert_eq!(
        touched(app_samples::choosing(), "New dish"),
        [Intent::NewDish]
    );
    assert_eq!(struck(app_samples::choosing(), Key::N), [Intent::NewDish]);
}

#[test]
fn a_new_dish_is_named_by_touch() {
    assert_eq!(
        touched(app_samples::new_dish(), "Q"),
        [Intent::NameDish("Q".to_owned())]
    );
    let mut state = app_samples::new_dish();
    state.setup.name = "Quail".to_owned();
    assert_eq!(
        touched(state.clone(), "S"),
        [Intent::NameDish("Quails".to_owned())]
    );
    assert_eq!(
        touched(state.clone(), "Erase"),
        [Intent::NameDish("Quai".to_owned())]
    );
    assert_eq!(touched(state, "Next"), [Intent::DishNamed]);
    assert_eq!(
        touched(app_samples::new_dish(), "Next"),
        [],
        "it has no name"
    );
}

#[test]
fn typing_a_name_strikes_no_keys_of_the_screen() {
    let mut harness = harness(app_samples::new_dish());
    // The field has the keyboard as soon as the screen is there.
    harness.key_press(Key::N);
    harness.event(egui::Event::Text("n".to_owned()));
    harness.run();
    assert_eq!(
        harness.into_state().asked,
        [Intent::NameDish("n".to_owned())]
    );
}

#[test]
fn a_portion_is_picked_and_struck_out_with_a_reason() {
    let state = app_samples::striking();
    assert_eq!(
        touched(state.clone(), "Portion 12, 29.7 g, on"),
        [Intent::PickPortion(app_samples::id(12))]
    );
    assert_eq!(
        touched(state.clone(), "Not a portion"),
        [Intent::Reason("Not a portion".to_owned())]
    );
    assert_eq!(
        struck(state.clone(), Key::Num1),
        [Intent::Reason("Fell or spilled".to_owned())]
    );
    assert_eq!(touched(state.clone(), "Strike out"), [Intent::StrikeOut]);
    assert_eq!(struck(state.clone(), Key::Enter), [Intent::StrikeOut]);

    let mut silent = state;
    silent.strike.reason = "  ".to_owned();
    assert_eq!(touched(silent, "Strike out"), [], "a reason is needed");
}

#[test]
fn a_reason_can_be_told_in_own_words() {
    let mut state = app_samples::striking();
    state.strike.reason.clear();
    let mut harness = harness(state);
    harness.get_by_label("Reason in your own words").click();
    harness.run();
    harness.event(egui::Event::Text("sent back".to_owned()));
    harness.run();
    assert_eq!(
        harness.into_state().asked,
        [Intent::Reason("sent back".to_owned())]
    );
}

#[test]
fn a_struck_portion_is_not_struck_again() {
    let mut state = app_samples::striking();
    state.strike.portion = Some(app_samples::id(5));
    let harness = harness(state);
    assert!(harness.query_by_label("Strike out").is_none());
    assert!(
        harness
            .query_by_label("Portion 5 was struck out: Fell or spilled.")
            .is_some()
    );
    drop(harness);
    let mut state = app_samples::striking();
    state.strike.portion = Some(app_samples::id(5));
    assert_eq!(touched(state, "Count it again"), [Intent::CountAgain]);
}

#[test]
fn a_tin_is_chosen_or_entered() {
    let state = app_samples::setting_up_tin();
    assert_eq!(
        touched(state.clone(), "Open tin: 412.6 g left"),
        [Intent::ChooseTin(TinChoice::Open)]
    );
    assert_eq!(
        touched(state, "Food in the new tin +100"),
        [Intent::Adjust(Quantity::NewTin, Mass::from_grams(100))]
    );
}

#[test]
fn the_scale_is_sought_where_the_cook_says() {
    let state = app_samples::choosing_port();
    assert_eq!(
        touched(state.clone(), "/dev/ttyS0"),
        [Intent::UsePort("/dev/ttyS0".to_owned())]
    );
    assert_eq!(
        touched(state.clone(), "Parfait, scooped fast"),
        [Intent::UseSimulated(2)]
    );
    assert_eq!(struck(state, Key::L), [Intent::LookForPorts]);
}
