//! The service screen over the made-up night: what it says, what a tap and a
//! drag do, and that every look at it can be drawn.
#![cfg(feature = "app")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use eframe::egui::{Pos2, Theme, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT;
use evenhand::app::desk::Desk;
use evenhand::app::intent::Intent;
use evenhand::app::picture::write_picture;
use evenhand::app::service::{Look, ServiceWish};
use evenhand::app::state::{Screen, State};
use evenhand::app::{shell, theme};
use evenhand::demo_night;
use evenhand::store::{DataFolder, Store};
use jiff::tz::TimeZone;
use std::path::Path;
use std::time::{Duration, Instant};

fn desk(folder: &tempfile::TempDir) -> Desk {
    let folder = DataFolder::choose(Some(folder.path())).unwrap();
    let mut store = Store::open(&folder).unwrap();
    demo_night::make(&mut store, 7, &TimeZone::UTC).unwrap();
    let mut desk = Desk::open(folder, TimeZone::UTC, Vec::new(), || ()).unwrap();
    desk.carry_out(Intent::Go(Screen::Service));
    desk
}

fn wish(desk: &mut Desk, wish: ServiceWish) {
    desk.carry_out(Intent::Service(wish));
    assert_eq!(desk.state().complaint, None);
}

fn harness(state: State, size: Vec2) -> Harness<'static, (State, Vec<Intent>)> {
    Harness::builder()
        .with_size(size)
        .with_theme(Theme::Light)
        .with_context_setup(theme::install)
        .build_ui_state(
            |ui, (state, asked): &mut (State, Vec<Intent>)| {
                asked.extend(shell::show(ui, state));
            },
            (state, Vec::new()),
        )
}

fn everything_said(desk: &Desk) -> Vec<String> {
    let harness = harness(desk.state().clone(), vec2(1280.0, 800.0));
    harness
        .root()
        .children_recursive()
        .filter_map(|node| {
            let node = node.accesskit_node();
            node.label().or_else(|| node.value())
        })
        .collect()
}

#[track_caller]
fn assert_says(desk: &Desk, words: &str) {
    let said = everything_said(desk);
    assert!(
        said.iter().any(|line| line.contains(words)),
        "nothing says {words:?}; there is {said:#?}"
    );
}

#[test]
fn the_night_is_looked_at_in_every_way() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk(&folder);
    let pictures = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let shown = |desk: &Desk, name: &str| {
        let file = pictures.join(format!("service-{name}.png"));
        write_picture(&file, [1280, 800], desk.state()).unwrap();
        assert!(std::fs::metadata(&file).unwrap().len() > 20_000);
    };
    assert_says(&desk, "Sat 16 May 2026");
    assert_says(&desk, "Potato dough: 108 portions in time");
    assert_says(&desk, "Out of the ordinary");
    shown(&desk, "dough");
    wish(&mut desk, ServiceWish::Dish(1));
    assert_says(&desk, "less even: spread");
    wish(&mut desk, ServiceWish::Look(Look::Dishes));
    assert_says(&desk, "Buttermilk sorbet");
    shown(&desk, "dishes");
    wish(&mut desk, ServiceWish::Dish(1));
    wish(&mut desk, ServiceWish::Look(Look::Beside));
    assert_says(&desk, "beside 10 before");
    shown(&desk, "beside");
    wish(&mut desk, ServiceWish::Dish(2));
    wish(&mut desk, ServiceWish::Look(Look::Yield));
    assert_says(&desk, "trim 2");
    assert_says(&desk, "not accounted for");
    shown(&desk, "yield");
    wish(&mut desk, ServiceWish::Look(Look::Everything));
    assert_says(&desk, "Trout roe hand roll: ");
    let began = Instant::now();
    while desk.state().service.everything.dots.is_none() {
        assert!(began.elapsed() < Duration::from_secs(60));
        std::thread::sleep(Duration::from_millis(10));
        desk.take_in();
    }
    assert_says(&desk, "portions, each by grams from its target");
    shown(&desk, "everything");
}

#[test]
fn services_are_gone_through_and_the_first_and_last_are_ends() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk(&folder);
    let service = |desk: &Desk| desk.state().service.clone();
    assert!(!service(&desk).later);
    let mut seen = vec![service(&desk).title];
    while service(&desk).earlier {
        wish(&mut desk, ServiceWish::Earlier);
        seen.push(service(&desk).title);
    }
    assert_eq!(seen.len(), 11);
    assert_eq!(seen[10], "Sat 2 May 2026");
    assert_eq!(service(&desk).dishes[0].services.len(), 1);
    wish(&mut desk, ServiceWish::Later);
    assert_eq!(service(&desk).title, seen[9]);
}

/// Where the dots are drawn: between the side panel and the rail.
fn plot_middle(harness: &Harness<'_, (State, Vec<Intent>)>) -> Pos2 {
    harness
        .root()
        .children_recursive()
        .find(|node| {
            node.accesskit_node()
                .label()
                .is_some_and(|label| label.contains("portions in time"))
        })
        .map(|node| node.rect().center())
        .unwrap()
}

#[test]
fn a_drag_selects_a_stretch_and_a_tap_leads_to_a_portion() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk(&folder);
    let mut harness = harness(desk.state().clone(), vec2(1280.0, 800.0));
    harness.run();
    let middle = plot_middle(&harness);
    harness.drag_at(middle - vec2(120.0, 0.0));
    harness.run_steps(2);
    harness.hover_at(middle);
    harness.run_steps(2);
    harness.drop_at(middle + vec2(60.0, 0.0));
    harness.run_steps(3);
    let span = harness
        .state()
        .1
        .iter()
        .find_map(|intent| match intent {
            Intent::Service(ServiceWish::Span(Some(span))) => Some(*span),
            _ => None,
        })
        .expect("a drag selects");
    assert!(span.0 < span.1);
    wish(&mut desk, ServiceWish::Span(Some(span)));
    let dish = &desk.state().service.dishes[0];
    let within = dish
        .dots
        .iter()
        .filter(|dot| dot.time >= span.0 && dot.time < span.1)
        .count();
    assert!(within > 5);
    assert!(desk.state().service.told[2].contains(&format!("of {within} short")));

    let id = dish.ids[3];
    wish(&mut desk, ServiceWish::Pick(Some(id)));
    assert_says(&desk, &format!("number {id}"));
    wish(&mut desk, ServiceWish::Span(None));
    assert!(desk.state().service.told.is_empty());
}

#[test]
fn a_damaged_store_is_said_and_stays_said() {
    let folder = tempfile::tempdir().unwrap();
    drop(desk(&folder));
    let file = folder.path().join("evenhand.sqlite3");
    let mut bytes = std::fs::read(&file).unwrap();
    // A page in the middle overwritten, as by a failing disk.
    let middle = bytes.len() / 2 / 4096 * 4096;
    bytes[middle..middle + 4096].fill(0xA5);
    std::fs::write(&file, bytes).unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    let mut desk = match Desk::open(data, TimeZone::UTC, Vec::new(), || ()) {
        Ok(desk) => desk,
        // So badly damaged that it does not open: said before there is a window.
        Err(error) => {
            assert!(error.to_string().contains("is damaged"), "{error}");
            return;
        }
    };
    let began = Instant::now();
    while desk.state().complaint.is_none() {
        assert!(began.elapsed() < Duration::from_secs(60));
        std::thread::sleep(Duration::from_millis(10));
        desk.take_in();
    }
    let said = desk.state().complaint.clone().unwrap();
    assert!(said.contains("is damaged or no database"), "{said}");
    desk.carry_out(Intent::Go(Screen::Bench));
    desk.take_in();
    assert_eq!(desk.state().complaint, Some(said));
}
