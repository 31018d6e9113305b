//! Every screen in every state: its words, and that nothing is cut off, too
//! small or on top of something else, at the smallest and a common large size.

use crate::app_samples;
use eframe::egui::epaint::Shape;
use eframe::egui::{self, Rect, Theme, Vec2, ViewportId, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use egui_kittest::{Harness, Node};
use evenhand_app::state::{Screen, State};
use evenhand_app::{shell, theme};
use std::time::Duration;

pub(crate) const SIZES: [Vec2; 3] = [
    vec2(1280.0, 800.0),
    vec2(1920.0, 1080.0),
    // Tall: the width decides.
    vec2(1280.0, 1024.0),
];

pub(crate) fn harness(state: State, size: Vec2) -> Harness<'static, State> {
    Harness::builder()
        .with_size(size)
        .with_theme(Theme::Light)
        .with_context_setup(theme::install)
        .build_ui_state(
            |ui, state: &mut State| {
                shell::show(ui, state);
            },
            state,
        )
}

/// What a node is called: its name, or for words standing alone the words.
fn words_of(node: &Node<'_>) -> Option<String> {
    let node = node.accesskit_node();
    node.label().or_else(|| node.value())
}

fn says(harness: &Harness<'_, State>, words: &str) -> bool {
    harness
        .root()
        .children_recursive()
        .any(|node| words_of(&node).as_deref() == Some(words))
}

pub(crate) fn all_words(harness: &Harness<'_, State>) -> Vec<String> {
    harness
        .root()
        .children_recursive()
        .filter_map(|node| words_of(&node))
        .collect()
}

#[track_caller]
fn assert_says(state: State, expected: &[&str]) {
    for size in [SIZES[0], SIZES[1]] {
        let harness = harness(state.clone(), size);
        for words in expected {
            assert!(
                says(&harness, words),
                "nothing says {words:?} at {size}; there is {:#?}",
                all_words(&harness)
            );
        }
    }
}

#[test]
fn without_an_instrument_it_says_what_to_do() {
    assert_says(
        app_samples::unplugged(),
        &[
            "There is no port /dev/ttyACM0. Plug the scale in and switch it on, or choose another port. It is looked for again by itself.",
            "Mass not known",
            "No reading",
        ],
    );
}

#[test]
fn another_version_is_told_with_which_end_to_bring_up_to_date() {
    assert_says(
        app_samples::other_version(),
        &[
            "The scale on /dev/ttyACM0 speaks version 2 of the link, and this program speaks version 1. Install a newer version of this program.",
            "Mass not known",
        ],
    );
}

#[test]
fn without_a_run_it_weighs_and_offers_the_latest_dishes() {
    assert_says(
        app_samples::idle(),
        &[
            "512.3 grams",
            "On the pan",
            "steady",
            "4.2 °C",
            "Brown shrimp, 30.0 g, out of a tin",
            "Choose a dish",
            "Today: 28 portions.",
        ],
    );
}

#[test]
fn a_short_portion_is_told_in_words_and_figures() {
    assert_says(
        app_samples::short(),
        &[
            "Brown shrimp",
            "30.0 g ± 1.0 g",
            "18.4 grams, short",
            "In the dish",
            "SHORT",
            "11.6 g to go",
            "Add food",
            "Approach to 30.0 g ± 1.0 g: short, 11.6 g to go",
            "Portions in order: 12 on, 1 short, 1 heavy, 0 struck out",
            "14",
            "30.3 g",
            "0.76 g",
        ],
    );
}

// Mean and spread of the twelve without the first two by Python's statistics module:
// 30.308 g and 0.799 g; of all fourteen 30.25 g and 0.759 g.
#[test]
fn weights_in_doubt_come_first_and_both_figures_are_shown() {
    assert_says(
        app_samples::in_doubt(),
        &[
            "In doubt",
            "2 of 14",
            "30.3 g",
            "0.80 g",
            "with all 30.3 g",
            "with all 0.76 g",
        ],
    );
    let view = app_samples::in_doubt().bench.run.unwrap().spread;
    assert_eq!((view.in_doubt, view.count), (2, 14));
    assert_eq!(view.mean.unwrap().micrograms(), 30_308_333);
    let (mean, _) = view.of_all.unwrap();
    assert_eq!(mean.unwrap().micrograms(), 30_250_000);
}

#[test]
fn a_portion_on_target_is_told() {
    assert_says(
        app_samples::on(),
        &["30.2 grams, on", "ON", "+0.2 g", "Hands off"],
    );
}

#[test]
fn a_heavy_portion_is_told_with_what_to_do() {
    assert_says(
        app_samples::heavy(),
        &[
            "32.6 grams, heavy",
            "HEAVY",
            "2.6 g too much",
            "Take some out",
        ],
    );
}

#[test]
fn out_of_a_tin_it_tells_what_is_left_and_how_many_portions_that_makes() {
    assert_says(
        app_samples::taking(),
        &[
            "44.3 grams, on",
            "Taken out",
            "Left in the tin",
            "1731.9 g",
            "36 to 40 portions",
            "\u{2212}17.9 °C",
        ],
    );
}

#[test]
fn an_overload_blanks_the_figure() {
    let state = app_samples::overload();
    assert_says(
        state.clone(),
        &[
            "There is too much on the pan. Take some off.",
            "Mass not known",
            "Cannot weigh",
        ],
    );
    for size in SIZES {
        let harness = harness(state.clone(), size);
        assert!(!says(&harness, "0.0 grams"));
        assert!(!says(&harness, "steady"), "nothing is known of the load");
    }
}

#[test]
fn a_probe_out_of_its_socket_leaves_weighing_alone() {
    assert_says(
        app_samples::probe_open(),
        &[
            "The probe is unplugged or broken. Plug the probe in; weighing goes on without it.",
            "unplugged",
            "12.1 grams, short",
        ],
    );
}

#[test]
fn a_stale_reading_blanks_everything_that_was_live() {
    let state = app_samples::stale();
    assert_says(
        state.clone(),
        &[
            "The scale has gone quiet. See that it has power and that its cable sits well.",
            "Mass not known",
            "\u{2013} \u{2013}",
        ],
    );
    let harness = harness(state, SIZES[0]);
    let words = all_words(&harness);
    assert!(
        !words.iter().any(|words| words.contains("18.4")),
        "{words:?}"
    );
    assert!(!words.iter().any(|words| words.contains("°C")), "{words:?}");
}

#[test]
fn a_struck_portion_counts_no_more_and_stays_in_sight() {
    assert_says(
        app_samples::struck(),
        &[
            "Portions in order: 12 on, 0 short, 1 heavy, 1 struck out",
            "13",
            "Put an empty dish on",
            "No. 14, counted, 30.5 g, on",
            "ON",
        ],
    );
    assert_says(
        app_samples::striking(),
        &[
            "Why should portion 10 not count?",
            "Portion 10, 31.9 g, heavy",
            "Fell or spilled",
            "Reason in your own words",
            "Strike out",
        ],
    );
}

#[test]
fn what_just_happened_takes_the_line_above_while_all_is_well() {
    assert_says(
        app_samples::noticed(),
        &[
            "The dish went before it was steady and was not counted; put it back to count it.",
            "Put an empty dish on",
        ],
    );
}

#[test]
fn the_line_above_says_first_what_matters_most() {
    let words = |state: State| {
        let harness = harness(state, SIZES[0]);
        all_words(&harness)
    };
    let notice = "The tin was filled up by 400.0 g.".to_owned();
    let complaint = "The load was moving.".to_owned();

    // A probe left unplugged all evening hides nothing.
    let mut state = app_samples::probe_open();
    state.bench.notice = Some(notice.clone());
    assert!(words(state.clone()).contains(&notice));
    state.complaint = Some(complaint.clone());
    assert!(words(state.clone()).contains(&complaint));
    assert!(!words(state).contains(&notice));

    // A scale that is gone is more than what happened before.
    let mut state = app_samples::stale();
    state.bench.notice = Some(notice.clone());
    assert!(!words(state).contains(&notice));

    let mut state = app_samples::overload();
    state.bench.notice = Some(notice.clone());
    state.complaint = Some(complaint.clone());
    let words = words(state);
    assert!(!words.contains(&notice) && !words.contains(&complaint));
}

#[test]
fn a_goal_that_cannot_be_is_refused_with_its_reason() {
    let mut state = app_samples::setting_up();
    state.setup.tolerance = evenhand_protocol::Tolerance::symmetric(state.setup.target);
    for size in SIZES {
        let harness = harness(state.clone(), size);
        assert!(says(
            &harness,
            "This cannot be: the tolerance below must be smaller than the target, else nothing at all would be on target."
        ));
        let start = harness.get_by_label("Start");
        assert!(start.accesskit_node().is_disabled());
    }
}

/// Things that stand by themselves: words and buttons, not pictures of both.
fn leaves<'t>(harness: &'t Harness<'_, State>) -> Vec<(Node<'t>, Rect)> {
    use egui::Role;
    harness
        .root()
        .children_recursive()
        .filter(|node| {
            matches!(
                node.accesskit_node().role(),
                Role::Label | Role::Button | Role::Tab | Role::TextInput | Role::MultilineTextInput
            )
        })
        .map(|node| (node, node.rect()))
        .collect()
}

#[test]
fn everything_fits_at_every_size() {
    for (name, state) in app_samples::all() {
        for size in SIZES {
            let harness = harness(state.clone(), size);
            let at = format!("{name} at {size}");
            stands_clear(&harness, size, &at);
            is_whole(&harness, &at);
            is_large_enough_to_touch(&harness, &at);
            asks_for_no_painting(&harness, &at);
        }
    }
}

/// Everything is in the window and nothing on top of anything else.
pub(crate) fn stands_clear(harness: &Harness<'_, State>, size: Vec2, at: &str) {
    let window = Rect::from_min_size(egui::Pos2::ZERO, size);
    let leaves = leaves(harness);
    assert!(leaves.len() > 8, "{at}: too little to see");
    for (nth, (node, rect)) in leaves.iter().enumerate() {
        assert!(
            window.expand(0.5).contains_rect(*rect),
            "{at}: {node:?} reaches out of the window"
        );
        for (other, other_rect) in leaves.iter().skip(nth + 1) {
            let both = rect.intersect(*other_rect);
            assert!(
                !(both.width() > 1.0 && both.height() > 1.0),
                "{at}: {node:?} and {other:?} overlap"
            );
        }
    }
}

/// No words are shortened or cut off.
pub(crate) fn is_whole(harness: &Harness<'_, State>, at: &str) {
    let mut seen = 0;
    for clipped in &harness.output().shapes {
        let Shape::Text(text) = &clipped.shape else {
            continue;
        };
        let words = text.galley.text();
        let painted = text.galley.mesh_bounds.translate(text.pos.to_vec2());
        // A row of a list that is scrolled out of sight altogether is not cut.
        if !clipped.clip_rect.is_positive() || !painted.is_positive() {
            continue;
        }
        seen += 1;
        assert!(!text.galley.elided, "{at}: {words:?} is shortened");
        assert!(
            clipped.clip_rect.expand(1.5).contains_rect(painted),
            "{at}: {words:?} at {painted} is cut by {}",
            clipped.clip_rect
        );
    }
    assert!(seen > 8, "{at}: too little to read");
}

pub(crate) fn is_large_enough_to_touch(harness: &Harness<'_, State>, at: &str) {
    use egui::Role;
    let mut seen = 0;
    for node in harness.root().children_recursive() {
        if !matches!(
            node.accesskit_node().role(),
            Role::Button | Role::Tab | Role::TextInput | Role::MultilineTextInput
        ) {
            continue;
        }
        seen += 1;
        let size = node.rect().size();
        assert!(
            size.x >= theme::TOUCH - 0.5 && size.y >= theme::TOUCH - 0.5,
            "{at}: {node:?} is only {size}"
        );
    }
    assert!(seen >= 4, "{at}");
}

/// A still bench is not painted again: the screens ask for no further pass, at
/// once or later.
fn asks_for_no_painting(harness: &Harness<'_, State>, at: &str) {
    let delay = harness
        .output()
        .viewport_output
        .get(&ViewportId::ROOT)
        .unwrap()
        .repaint_delay;
    assert_eq!(delay, Duration::MAX, "{at}");
}

/// The digits are 24 hundredths of the window's height or more beside the
/// controls in a run of two digits, and stand in the same places whatever they
/// are.
#[test]
fn digits_are_large_and_do_not_jitter() {
    let digits = |milligrams: i64, size: Vec2| -> Vec<Rect> {
        let harness = harness(app_samples::filling_state(milligrams), size);
        harness
            .output()
            .shapes
            .iter()
            .filter_map(|clipped| match &clipped.shape {
                Shape::Text(text) => {
                    let painted = text.galley.mesh_bounds.translate(text.pos.to_vec2());
                    let digit = text.galley.text().len() == 1
                        && text.galley.text().chars().all(|c| c.is_ascii_digit());
                    (digit && painted.height() > size.y * 0.2).then_some(painted)
                }
                _ => None,
            })
            .collect()
    };
    for size in [SIZES[0], SIZES[1]] {
        let zeros = digits(20_000, size);
        assert_eq!(zeros.len(), 3);
        for rect in &zeros {
            assert!(
                rect.height() >= size.y * 0.24,
                "{} of {size}",
                rect.height()
            );
        }
        for milligrams in [11_100, 14_700, 28_800, 30_300] {
            for (digit, zero) in digits(milligrams, size).iter().zip(&zeros) {
                let shift = (digit.center().x - zero.center().x).abs();
                // The glyphs' own side bearings differ a little; the cells do not.
                assert!(shift < 0.12 * zero.width(), "{milligrams}: {shift}");
                assert!((digit.height() - zero.height()).abs() < 0.06 * zero.height());
            }
        }
    }
}

#[test]
fn a_screen_is_reached_from_the_rail() {
    for (words, screen) in [
        ("Bench screen", Screen::Bench),
        ("Dishes screen", Screen::Dishes),
        ("Portions screen", Screen::Portions),
    ] {
        let state = State {
            screen,
            ..app_samples::on()
        };
        let harness = harness(state, SIZES[0]);
        let tab = harness.get_by_label(words);
        assert_eq!(
            tab.accesskit_node().toggled(),
            Some(egui::accesskit::Toggled::True),
            "{words}"
        );
    }
}
