//! Every screen and every sheet can be left: by a function key at any time, by Esc wherever
//! something lies over a screen of the rail. No field keeps anybody.

use crate::app_left_in_english::fields;
use crate::app_mixing::looks;
use crate::{app_kitchen, app_menus, app_order, app_samples};
use eframe::egui::{Key, Role, Theme, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT;
use evenhand_app::book::{BookPage, BookWish};
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::mixing::Page;
use evenhand_app::screens::{RAIL, rail_item};
use evenhand_app::state::{Screen, State};
use evenhand_app::{Language, shell, theme};
use evenhand_store::DataFolder;
use jiff::tz::TimeZone;

const F_KEYS: [Key; 8] = [
    Key::F1,
    Key::F2,
    Key::F3,
    Key::F4,
    Key::F5,
    Key::F6,
    Key::F7,
    Key::F8,
];

type Asked = (State, Vec<Intent>);

fn harness(state: State) -> Harness<'static, Asked> {
    Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_theme(Theme::Light)
        .with_context_setup(theme::install)
        .build_ui_state(
            |ui, (state, asked): &mut Asked| {
                let more = shell::show(ui, state);
                asked.extend(more);
            },
            (state, Vec::new()),
        )
}

/// What a key asks for there, with the text field focused where there is one: a field takes
/// the focus by itself, and what is struck goes to it first.
fn struck(harness: &mut Harness<'_, Asked>, state: &State, key: Key) -> (Vec<Intent>, bool) {
    harness.state_mut().0 = state.clone();
    harness.run_steps(2);
    let field = harness.root().children_recursive().find(|node| {
        matches!(
            node.accesskit_node().role(),
            Role::TextInput | Role::MultilineTextInput
        )
    });
    let has_field = field.is_some();
    if let Some(field) = field {
        field.focus();
        harness.run_steps(2);
        assert!(harness.ctx.text_edit_focused(), "the field is not focused");
    }
    harness.state_mut().1.clear();
    harness.key_press(key);
    harness.run_steps(2);
    (std::mem::take(&mut harness.state_mut().1), has_field)
}

/// Whether nothing lies over the rail's own screen.
fn is_of_the_rail(state: &State) -> bool {
    match state.screen {
        Screen::Mix => state.mix.page == Page::Start && state.mix.entry.is_none(),
        Screen::Service => true,
        screen => rail_item(screen) == screen,
    }
}

/// One screen of each page and sheet there is.
fn everything() -> Vec<(String, State)> {
    let english = [Language::English];
    let mut all: Vec<(String, State)> = Vec::new();
    let named = |of: &str, name: &str| format!("{of} {name}");
    all.extend(
        app_samples::all()
            .into_iter()
            .map(|(name, state)| (named("bench", name), state)),
    );
    all.extend(
        looks::all(Language::English)
            .into_iter()
            .map(|(name, state)| (named("mixing", name), state)),
    );
    let asking = looks::asking(Language::English, &fields());
    all.extend(asking.into_iter().map(|state| {
        let asked = state.mix.entry.as_ref().map(|entry| entry.caption.clone());
        (named("mixing asks", &asked.unwrap_or_default()), state)
    }));
    for (of, screens) in [
        ("menus", app_menus::screens(&english)),
        ("order", app_order::screens(&english)),
    ] {
        all.extend(screens.into_iter().flat_map(|(name, states)| {
            states
                .into_iter()
                .map(move |state| (format!("{of} {name}"), state))
        }));
    }
    let folder = tempfile::tempdir().unwrap();
    let store = app_kitchen::friday(folder.path());
    for screen in [Screen::Prep, Screen::Timeline, Screen::Week, Screen::WhatIf] {
        let state = app_kitchen::prep_screen(&store, screen, Language::English);
        all.push((format!("{screen:?}"), state));
    }
    let told = app_kitchen::told_in(&store, Language::English);
    all.push(("Told".to_owned(), told));
    let heat = app_kitchen::heat_state(&store, "oven", Language::English);
    all.push(("heat".to_owned(), heat.clone()));
    for screen in [
        Screen::HeatAim,
        Screen::Settings,
        Screen::Kept,
        Screen::Weights,
        Screen::Naming,
        Screen::Setup,
        Screen::Goal,
    ] {
        let state = State {
            screen,
            ..heat.clone()
        };
        all.push((format!("{screen:?}"), state));
    }
    // The book, page by page, as it is in a kitchen that has written nothing yet; what asks
    // before a formula is removed is not there without one.
    let folder = tempfile::tempdir().unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    let mut controller = Controller::open(data, TimeZone::UTC, Vec::new(), || {}).unwrap();
    for page in [
        BookPage::Pieces,
        BookPage::IntoBath,
        BookPage::Kind,
        BookPage::OutOfBath,
        BookPage::Formulas,
        BookPage::Formula,
        BookPage::Ingredient,
        BookPage::Stage,
        BookPage::GoesInto,
        BookPage::How,
        BookPage::Work,
        BookPage::Limits,
        BookPage::Amounts,
        BookPage::Water,
        BookPage::Counts,
        BookPage::Opening,
        BookPage::Titles,
        BookPage::Trials,
        BookPage::YieldTitles,
        BookPage::Yields,
        BookPage::Lots,
        BookPage::Lot,
        BookPage::Plates,
    ] {
        controller.carry_out(Intent::Book(BookWish::Show(page)));
        all.push((format!("book {page:?}"), controller.state().clone()));
    }
    all
}

#[test]
fn every_screen_and_sheet_is_left_by_esc_and_by_the_function_keys() {
    let all = everything();
    assert!(all.len() > 150, "{}", all.len());
    let mut harness = harness(app_samples::idle());
    let mut trapped = Vec::new();
    let (mut sheets, mut fields) = (0, 0);
    for (name, state) in &all {
        if !is_of_the_rail(state) {
            sheets += 1;
            let (asked, has_field) = struck(&mut harness, state, Key::Escape);
            fields += usize::from(has_field);
            if asked.is_empty() {
                trapped.push(format!("Esc: {name}"));
            }
        }
        // One that leads here from elsewhere, and one that leads away.
        for (nth, key) in [(0, F_KEYS[0]), (5, F_KEYS[5]), (7, F_KEYS[7])] {
            let (asked, _) = struck(&mut harness, state, key);
            if !asked.contains(&Intent::Go(RAIL[nth].1)) {
                trapped.push(format!("{key:?}: {name}: {asked:?}"));
            }
        }
    }
    assert!(trapped.is_empty(), "{trapped:#?}");
    assert!(
        sheets > 100 && fields > 5,
        "{sheets} sheets, {fields} fields"
    );
}
