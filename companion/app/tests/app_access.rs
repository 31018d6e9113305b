//! For whoever cannot see or touch the screen: every control is named and told what it is, what
//! changes is said, and no screen or field keeps the keyboard.

use crate::app_samples::{self, in_language};
use crate::app_screens::{SIZES, harness};
use eframe::egui::accesskit::{Live, Role};
use eframe::egui::{Key, Theme};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT;
use evenhand_app::intent::Intent;
use evenhand_app::state::{Screen, State};
use evenhand_app::{Language, shell, theme};

/// Every screen that is reached without choosing anything first, in every language, and the
/// samples of the bench.
fn states() -> Vec<(String, State)> {
    let screens = [
        Screen::Bench,
        Screen::Dishes,
        Screen::Naming,
        Screen::Setup,
        Screen::Portions,
        Screen::Service,
        Screen::Scale,
        Screen::Settings,
        Screen::Weights,
        Screen::Mix,
        Screen::Book,
        Screen::Heat,
        Screen::HeatAim,
        Screen::Prep,
        Screen::Timeline,
        Screen::Week,
        Screen::Menus,
    ];
    let mut states: Vec<(String, State)> = app_samples::all()
        .into_iter()
        .map(|(name, state)| (name.to_owned(), state))
        .collect();
    for language in [Language::English, Language::Spanish] {
        for screen in screens {
            let idle = in_language(language, app_samples::idle);
            states.push((format!("{screen:?}, {language}"), State { screen, ..idle }));
        }
    }
    states
}

#[test]
fn every_control_has_a_name_a_role_and_can_be_reached() {
    for (name, state) in states() {
        let harness = harness(state, SIZES[0]);
        let mut controls = 0;
        for node in harness.root().children_recursive() {
            let node = node.accesskit_node();
            let control = matches!(
                node.role(),
                Role::Button | Role::Tab | Role::TextInput | Role::MultilineTextInput
            );
            if !control {
                continue;
            }
            controls += 1;
            let label = node.label().unwrap_or_default();
            assert!(!label.trim().is_empty(), "{name}: {node:?} has no name");
            if node.role() == Role::Tab {
                assert!(node.toggled().is_some(), "{name}: {label} has no value");
            }
        }
        assert!(controls >= 8, "{name}: {controls}");
    }
}

/// The rail's keys lead away from every screen, also while a field has the keyboard.
#[test]
fn function_keys_always_leave() {
    let mut typing = 0;
    for (name, state) in states() {
        let asked: Vec<Intent> = Vec::new();
        let mut harness = Harness::builder()
            .with_size(SIZES[0])
            .with_theme(Theme::Light)
            .with_context_setup(theme::install)
            .build_ui_state(
                |ui, (state, asked): &mut (State, Vec<Intent>)| {
                    asked.extend(shell::show(ui, state));
                },
                (state, asked),
            );
        typing += usize::from(harness.ctx.text_edit_focused());
        harness.key_press(Key::F5);
        harness.run();
        let (_, asked) = harness.into_state();
        assert!(
            asked.contains(&Intent::Go(Screen::Service)),
            "{name}: {asked:?}"
        );
    }
    assert!(typing > 0, "no field had the keyboard");
}

/// A verdict is said when it changes, a fault at once.
#[test]
fn what_changes_is_said() {
    let live = |state: State, words: &str| {
        let harness = harness(state, SIZES[0]);
        harness
            .root()
            .children_recursive()
            .find(|node| {
                node.accesskit_node().label().as_deref() == Some(words)
                    || node.accesskit_node().value().as_deref() == Some(words)
            })
            .map(|node| node.accesskit_node().live())
    };
    assert_eq!(live(app_samples::short(), "SHORT"), Some(Live::Polite));
    assert_eq!(live(app_samples::heavy(), "HEAVY"), Some(Live::Polite));
    let stop = "There is too much on the pan. Take some off.";
    assert_eq!(live(app_samples::overload(), stop), Some(Live::Assertive));
    let probe = "The probe is unplugged or broken. Plug the probe in; weighing goes on without it.";
    assert_eq!(live(app_samples::probe_open(), probe), Some(Live::Polite));
}
