//! A picture of every screen at both sizes, which it should not drift from.
//!
//! `UPDATE_SNAPSHOTS=1 cargo test --workspace --test app app_snapshots` draws those anew that
//! were changed on purpose. They are drawn by the program's own painter, 480 points wide, so that
//! they are alike on every machine and small.

use crate::painted::Painted;
use crate::{app_kept, app_kitchen, app_mixing, app_samples, app_service};
use eframe::egui::{Theme, Vec2, vec2};
use egui_kittest::{Harness, SnapshotOptions, SnapshotResults};
use evenhand_app::book::{BookView, BookWish, FieldView, FootView, RowView, Sheet};
use evenhand_app::known_weights::{Purpose, WeightFlow};
use evenhand_app::menus::{MenuWish, MenusView};
use evenhand_app::order::{OrderView, OrderWish};
use evenhand_app::state::{Screen, State};
use evenhand_app::{Language, shell, theme};
use evenhand_protocol::Mass;
use evenhand_store::Store;
use std::collections::BTreeSet;
use std::path::Path;

const SIZES: [Vec2; 2] = [vec2(1280.0, 800.0), vec2(1920.0, 1080.0)];
/// How wide a picture is, in its own points.
const WIDE: f32 = 480.0;

/// Where the pictures are kept.
const KEPT: &str = "tests/snapshots/screens";

/// The other screens that are a sheet show it by the same code.
fn sheet<W: Clone>(wish: &W) -> Sheet<W> {
    Sheet {
        heading: "Pickled shallots".to_owned(),
        prompt: "Touch what is otherwise".to_owned(),
        fields: vec![
            FieldView {
                caption: "Weight".to_owned(),
                value: "1.8 kg".to_owned(),
                chosen: false,
                wish: wish.clone(),
            },
            FieldView {
                caption: "Keeps".to_owned(),
                value: "3 days".to_owned(),
                chosen: true,
                wish: wish.clone(),
            },
        ],
        rows: vec![RowView {
            name: "Samphire".to_owned(),
            about: "2 of 5 packs in hand".to_owned(),
            wish: wish.clone(),
        }],
        lines: vec!["Suffices five times in six.".to_owned()],
        foot: vec![FootView {
            words: "Keep".to_owned(),
            main: true,
            enabled: true,
            wish: wish.clone(),
        }],
        ..Sheet::default()
    }
}

/// A screen with something on it; a new one has no picture before it stands here.
fn of(screen: Screen) -> State {
    let folder = tempfile::tempdir().unwrap();
    let on = |state: State| State { screen, ..state };
    let heat = |log: &str| {
        let store = app_kitchen::friday(folder.path());
        app_kitchen::heat_state(&store, log, Language::English)
    };
    let prep = |store: Store, what_if: Option<&str>| {
        app_kitchen::prep_state(&store, what_if, Language::English)
    };
    match screen {
        Screen::Bench => app_samples::on(),
        Screen::Dishes => app_samples::choosing(),
        Screen::Naming => app_samples::new_dish(),
        Screen::Setup => app_samples::setting_up_tin(),
        Screen::Goal => app_samples::changing_goal(),
        Screen::Portions => app_samples::striking(),
        Screen::Scale => app_samples::choosing_port(),
        Screen::Settings => on(app_samples::idle()),
        Screen::Kept => app_kept::shown(Language::English),
        Screen::Weights => {
            let mut state = on(app_samples::idle());
            state.weights = WeightFlow::new(Purpose::Calibrate);
            state.weights.toggle(Mass::from_grams(500));
            state
        }
        Screen::Service => State {
            service: app_service::controller(&folder).state().service.clone(),
            ..on(app_samples::idle())
        },
        Screen::Mix => {
            let all = app_mixing::looks::all(Language::English);
            let pouring = all.into_iter().find(|(name, _)| *name == "walk_short");
            pouring.expect("a mix on the scale").1
        }
        Screen::Book => State {
            book: BookView {
                sheet: sheet(&BookWish::Enter),
                ..BookView::default()
            },
            ..on(app_samples::idle())
        },
        Screen::Menus => State {
            menus: MenusView {
                sheet: sheet(&MenuWish::Enter),
                ..MenusView::default()
            },
            ..on(app_samples::idle())
        },
        Screen::Order => State {
            order: OrderView {
                sheet: sheet(&OrderWish::Enter),
                ..OrderView::default()
            },
            ..on(app_samples::idle())
        },
        Screen::Heat | Screen::HeatAim => on(heat("pan of stock")),
        Screen::Prep => on(prep(app_kitchen::friday(folder.path()), None)),
        Screen::Timeline | Screen::Week => {
            on(prep(app_kitchen::friday_with_batches(folder.path()), None))
        }
        Screen::Telling => {
            app_kitchen::told_in(&app_kitchen::friday(folder.path()), Language::English)
        }
        Screen::WhatIf => on(prep(
            app_kitchen::friday(folder.path()),
            Some("mussels +3h"),
        )),
    }
}

fn drawn(state: State, size: Vec2) -> Harness<'static, State> {
    let mut harness = Harness::builder()
        .with_size(size)
        .with_pixels_per_point(WIDE / size.x)
        .with_theme(Theme::Light)
        .with_context_setup(theme::install)
        .with_render_cursor(false)
        .renderer(Painted::default())
        .with_options(compared(Path::new(KEPT)))
        .build_ui_state(
            |ui, state: &mut State| {
                shell::show(ui, state);
            },
            state,
        );
    // Panels learn their sizes, and what moves comes to its end.
    harness.run_steps(4);
    harness
}

fn compared(kept: &Path) -> SnapshotOptions {
    SnapshotOptions::new()
        .threshold(2.0)
        .max_failed_pixels(12)
        .output_path(kept)
}

fn name(screen: Screen, size: Vec2) -> String {
    format!("{screen:?}-{}", size.x).to_lowercase()
}

#[test]
fn every_screen_looks_as_it_did() {
    let mut results = SnapshotResults::new();
    for screen in Screen::ALL {
        let state = of(screen);
        assert_eq!(state.screen, screen);
        for size in SIZES {
            results.add(drawn(state.clone(), size).try_snapshot(name(screen, size)));
        }
    }
}

#[test]
fn no_picture_is_kept_of_what_is_no_screen() {
    let screens = Screen::ALL
        .into_iter()
        .flat_map(|screen| SIZES.map(|size| format!("{}.png", name(screen, size))));
    let kept = std::fs::read_dir(KEPT)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        // What the comparison leaves behind has an end more.
        .filter(|name| name.matches('.').count() == 1);
    assert_eq!(
        kept.collect::<BTreeSet<_>>(),
        screens.collect::<BTreeSet<_>>()
    );
}

/// The comparison can fail: on every screen, at both sizes, another time of day is seen, the
/// least of what a screen shows.
#[test]
fn another_time_of_day_is_seen_on_every_screen() {
    let folder = tempfile::tempdir().unwrap();
    let options = compared(folder.path());
    for screen in Screen::ALL {
        let state = of(screen);
        for size in SIZES {
            let name = name(screen, size);
            let image = drawn(state.clone(), size).render().unwrap();
            let kept = folder.path().join(format!("{name}.png"));
            image.save(&kept).unwrap();
            let before = std::fs::read(&kept).unwrap();
            let later = State {
                clock: "20:58".to_owned(),
                ..state.clone()
            };
            let image = drawn(later, size).render().unwrap();
            let same = egui_kittest::try_image_snapshot_options(&image, &name, &options);
            // Where pictures are drawn anew, one that differs is written in place of the other.
            let written = std::fs::read(&kept).unwrap() != before;
            assert!(same.is_err() || written, "{name}");
        }
    }
}
