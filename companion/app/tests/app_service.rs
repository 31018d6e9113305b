//! The service screen over the made-up night: what it says, what a tap and a
//! drag do, and that every look at it can be drawn.

use eframe::egui::{
    Event, Key, Modifiers, MouseWheelSource, MouseWheelUnit, Pos2, Rect, Shape, Theme, TouchPhase,
    Vec2, vec2,
};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use evenhand_app::Language;
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::picture::write_picture;
use evenhand_app::service::{DishView, Look, ServiceView, ServiceWish};
use evenhand_app::state::{Screen, State};
use evenhand_app::{shell, theme};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::spread::Spread;
use evenhand_protocol::{Mass, Verdict};
use evenhand_store::{DataFolder, Query, Store};
use evenhand_use_cases::demo;
use evenhand_use_cases::review::words;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::path::Path;
use std::time::{Duration, Instant};

pub(super) fn controller(folder: &tempfile::TempDir) -> Controller {
    desk_at(folder, &TimeZone::UTC)
}

pub(super) fn desk_at(folder: &tempfile::TempDir, zone: &TimeZone) -> Controller {
    let folder = DataFolder::choose(Some(folder.path())).unwrap();
    let mut store = Store::open(&folder).unwrap();
    let morning = "2026-05-17T10:00:00Z".parse().unwrap();
    demo::make(&mut store, 7, zone, morning).unwrap();
    let mut controller = Controller::open(folder, zone.clone(), Vec::new(), || ()).unwrap();
    controller.carry_out(Intent::Go(Screen::Service));
    controller
}

pub(super) fn wish(controller: &mut Controller, wish: ServiceWish) {
    controller.carry_out(Intent::Service(wish));
    assert_eq!(controller.state().complaint, None);
}

pub(super) fn harness(state: State, size: Vec2) -> Harness<'static, (State, Vec<Intent>)> {
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

fn everything_said(controller: &Controller) -> Vec<String> {
    let harness = harness(controller.state().clone(), vec2(1280.0, 800.0));
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
fn assert_says(controller: &Controller, words: &str) {
    let said = everything_said(controller);
    assert!(
        said.iter().any(|line| line.contains(words)),
        "nothing says {words:?}; there is {said:#?}"
    );
}

#[test]
fn the_night_is_looked_at_in_every_way() {
    let folder = tempfile::tempdir().unwrap();
    let mut controller = controller(&folder);
    let named = std::env::var_os("EVENHAND_PICTURES").map(std::path::PathBuf::from);
    let pictures = named.unwrap_or_else(|| Path::new(env!("CARGO_TARGET_TMPDIR")).to_owned());
    let shown = |controller: &Controller, name: &str| {
        for size in [[1280, 800], [1920, 1080]] {
            let file = pictures.join(format!("service-{name}-{}.png", size[0]));
            write_picture(&file, size, controller.state()).unwrap();
            assert!(std::fs::metadata(&file).unwrap().len() > 20_000);
        }
    };
    assert_says(&controller, "Sat 16 May 2026");
    assert_says(&controller, "Potato dough: 108 portions in time");
    assert_says(&controller, "the scale read 3.0 % over until 16:02");
    shown(&controller, "dough");
    wish(&mut controller, ServiceWish::Evidence(true));
    shown(&controller, "evidence");
    wish(&mut controller, ServiceWish::Evidence(false));
    let id = controller.state().service.dishes[0].ids[3];
    wish(&mut controller, ServiceWish::Pick(Some(id)));
    assert_says(
        &controller,
        "Weighed after a test that failed (09:05: 500.0 g read 51",
    );
    shown(&controller, "portion");
    wish(&mut controller, ServiceWish::AskWhy(true));
    shown(&controller, "why");
    wish(&mut controller, ServiceWish::Dish(1));
    assert_says(&controller, "less even");
    shown(&controller, "shrimp");
    wish(&mut controller, ServiceWish::Look(Look::Dishes));
    assert_says(&controller, "Buckthorn parfait");
    shown(&controller, "dishes");
    wish(&mut controller, ServiceWish::Dish(1));
    wish(&mut controller, ServiceWish::Look(Look::Beside));
    assert_says(&controller, "beside 10 before");
    shown(&controller, "beside");
    wish(&mut controller, ServiceWish::Dish(2));
    wish(&mut controller, ServiceWish::Look(Look::Yield));
    assert_says(&controller, "trim 2");
    assert_says(&controller, "not accounted for");
    shown(&controller, "yield");
    wish(&mut controller, ServiceWish::Look(Look::Money));
    // The plates at the weights really served, what would save most, and the week.
    let kept = |words: &str| {
        let money = &controller.state().service.money;
        let mut plates = money.plates.iter().flatten();
        assert!(plates.any(|line| line.contains(words)), "{money:?}");
    };
    kept("Hogget neck, celeriac: ");
    kept("of 26.00 EUR, ");
    kept("Hogget neck: 182.1 g at ");
    assert_says(&controller, "one gram less on each portion");
    // What was bought is all told of, to the rounding of the figures.
    assert_says(&controller, "16 May 26: 81000.0 g bought in 10 purchases");
    let week = &controller.state().service.money.week[1];
    let grams: f64 = week
        .split(", ")
        .map(|part| part.split(" g (").next().unwrap())
        .map(|part| part.rsplit(' ').next().unwrap().parse::<f64>().unwrap())
        .sum();
    assert!((grams - 81_000.0).abs() < 0.5, "{week}");
    assert!(week.contains("not accounted for "), "{week}");
    shown(&controller, "money");
    assert_says(&controller, "Make or change plates");
    wish(&mut controller, ServiceWish::Look(Look::Everything));
    assert_says(&controller, "Potted shrimp: ");
    let began = Instant::now();
    while controller.state().service.everything.dots.is_none() {
        assert!(began.elapsed() < Duration::from_secs(60));
        std::thread::sleep(Duration::from_millis(10));
        controller.take_in();
    }
    assert_says(&controller, "portions, each by grams from its target");
    shown(&controller, "everything");
}

#[test]
fn one_sentence_leads_and_the_evidence_unfolds_below_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut cook = Cook::at(controller(&folder));
    let found = cook.dish().found.clone();
    let said = |cook: &Cook| {
        let said = everything_said(&cook.controller);
        let told = found.iter().filter(|line| said.contains(line)).count();
        assert!(said.contains(&found[0]), "the first sentence is gone");
        (told, found.len())
    };
    assert_eq!(said(&cook).0, 1);
    cook.press("Why");
    let (told, all) = said(&cook);
    assert!(told == all && all > 5, "{told} of {all}");
    // The doubt goes before the figures, and both figures are there.
    let place = |words: &str| found.iter().position(|line| line.contains(words));
    let aim = found.iter().position(|line| line.starts_with("Aim at"));
    assert!(
        place("without them")
            .zip(aim)
            .is_some_and(|(doubt, aim)| doubt < aim)
    );
    cook.key(Key::E);
    assert_eq!(said(&cook).0, 1);
}

#[test]
fn no_aim_lies_below_what_is_promised_unless_it_is_let_be() {
    let folder = tempfile::tempdir().unwrap();
    let mut cook = Cook::at(controller(&folder));
    let all = |cook: &Cook| -> Vec<String> {
        let dishes = &cook.service().dishes;
        dishes.iter().flat_map(|dish| dish.found.clone()).collect()
    };
    let kept = all(&cook);
    assert!(
        !kept
            .iter()
            .any(|line| line.contains("promised: you let it be"))
    );
    // Shrimp are taken from the tin.
    assert!(
        kept.iter()
            .any(|line| line.contains("topped up from the tin"))
    );
    cook.press("Aim below the promise");
    assert!(cook.service().below_promise);
    assert_ne!(all(&cook), kept);
    // It holds for the next service looked at, and is taken back by one touch.
    wish(&mut cook.controller, ServiceWish::Earlier);
    wish(&mut cook.controller, ServiceWish::Later);
    assert!(cook.service().below_promise);
    cook.settle();
    cook.press("Keep to the promise");
    assert_eq!(all(&cook), kept);
}

#[test]
fn services_are_gone_through_and_the_first_and_last_are_ends() {
    let folder = tempfile::tempdir().unwrap();
    let mut controller = controller(&folder);
    let service = |controller: &Controller| controller.state().service.clone();
    assert!(!service(&controller).later);
    let mut seen = vec![service(&controller).title];
    while service(&controller).earlier {
        wish(&mut controller, ServiceWish::Earlier);
        seen.push(service(&controller).title);
    }
    assert_eq!(seen.len(), 11);
    assert_eq!(seen[10], "Sat 2 May 2026");
    assert_eq!(service(&controller).dishes[0].services.len(), 1);
    wish(&mut controller, ServiceWish::Later);
    assert_eq!(service(&controller).title, seen[9]);
}

/// A cook at the screen: what is asked for is carried out, and then shown.
struct Cook {
    controller: Controller,
    harness: Harness<'static, (State, Vec<Intent>)>,
}

impl Cook {
    fn at(controller: Controller) -> Self {
        let harness = harness(controller.state().clone(), vec2(1280.0, 800.0));
        let mut cook = Self {
            controller,
            harness,
        };
        cook.settle();
        cook
    }

    /// Carries out what the screen asked for, until it asks for nothing more.
    fn settle(&mut self) {
        for _ in 0..12 {
            self.harness.run_steps(1);
            let asked = std::mem::take(&mut self.harness.state_mut().1);
            for intent in asked {
                self.controller.carry_out(intent);
                assert_eq!(self.controller.state().complaint, None);
            }
            self.harness.state_mut().0 = self.controller.state().clone();
        }
    }

    fn service(&self) -> &ServiceView {
        &self.controller.state().service
    }

    fn dish(&self) -> &DishView {
        &self.service().dishes[self.service().chosen]
    }

    fn key(&mut self, key: Key) {
        self.harness.key_press(key);
        self.settle();
    }

    fn press(&mut self, button: &str) {
        self.harness.get_by_label(button).click();
        self.settle();
    }

    fn turn_wheel(&mut self, by: f32) {
        self.harness.event(Event::MouseWheel {
            unit: MouseWheelUnit::Point,
            delta: vec2(0.0, by),
            phase: TouchPhase::Move,
            source: MouseWheelSource::Wheel,
            modifiers: Modifiers::NONE,
        });
        self.settle();
    }

    /// Where the dots are drawn.
    fn chart(&self) -> Rect {
        self.harness
            .root()
            .children_recursive()
            .find(|node| {
                node.accesskit_node()
                    .label()
                    .is_some_and(|label| label.contains("portions in time"))
            })
            .map(|node| node.rect())
            .unwrap()
    }

    /// What is painted beside the pointer of the dot that it is on.
    fn hovered(&mut self, at: Pos2) -> Option<String> {
        self.harness.hover_at(at);
        self.harness.run_steps(2);
        let mut words = Vec::new();
        for clipped in &self.harness.output().shapes {
            texts(&clipped.shape, &mut words);
        }
        words
            .into_iter()
            .find(|text| text.as_bytes().get(2) == Some(&b':') && text.contains(" g, "))
    }

    /// A place on the chart where a dot is under the pointer, and what is said
    /// of it.
    fn on_a_dot(&mut self) -> (Pos2, String) {
        let chart = self.chart();
        for right in (120..500).step_by(6) {
            let at = chart.left_center() + vec2(right as f32, 0.0);
            if let Some(said) = self.hovered(at) {
                return (at, said);
            }
        }
        panic!("no dot is ever under the pointer");
    }

    /// What is said of each dot when the pointer is on it.
    fn sayings(&self) -> Vec<(Timestamp, String)> {
        self.dish()
            .dots
            .iter()
            .map(|dot| {
                let clock = dot.time.to_zoned_datetime(TimeZone::UTC);
                let words = format!(
                    "{}  {:.2} g, {}",
                    clock.strftime("%H:%M"),
                    dot.mass.grams(),
                    dot.goal.judge(dot.mass).word()
                );
                (dot.time, words)
            })
            .collect()
    }

    fn seconds_shown(&self) -> Option<(f64, f64)> {
        let window = self.service().window?;
        Some((
            window.from.as_millisecond() as f64 / 1e3,
            window.to.as_millisecond() as f64 / 1e3,
        ))
    }
}

fn texts(shape: &Shape, words: &mut Vec<String>) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| texts(shape, words)),
        Shape::Text(text) => words.push(text.galley.text().to_owned()),
        _ => {}
    }
}

/// Every shape in the order that it is painted in.
pub(super) fn flat(shape: &Shape, all: &mut Vec<Shape>) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| flat(shape, all)),
        other => all.push(other.clone()),
    }
}

#[test]
fn no_line_goes_through_the_last_portions_figure() {
    let mut state = super::app_samples::on();
    let interval = state.bench.mass.interval;
    let run = state.bench.run.as_mut().unwrap();
    // On target, so that the target's line would go right through it.
    let goal = run.goal;
    let last = run.portions.last_mut().unwrap();
    last.mass = goal.target() + interval;
    let words = evenhand_app::figures::bare(last.mass, interval, Language::English);
    let mut harness = harness(state, vec2(1280.0, 800.0));
    harness.run_steps(2);
    let mut all = Vec::new();
    for clipped in &harness.output().shapes {
        flat(&clipped.shape, &mut all);
    }
    let mut passed_by = 0;
    for shape in &all {
        let Shape::Text(text) = shape else { continue };
        if text.galley.text() != words {
            continue;
        }
        let figure = text.visual_bounding_rect();
        for shape in &all {
            let Shape::LineSegment { points, .. } = shape else {
                continue;
            };
            let level = points[0].y == points[1].y
                && points[0].x.min(points[1].x) < figure.right()
                && points[0].x.max(points[1].x) > figure.left();
            if level {
                let through = figure.y_range().contains(points[0].y);
                assert!(!through, "a line strikes {words} through");
                passed_by += 1;
            }
        }
    }
    assert!(passed_by > 0, "no line is drawn above or below {words}");
}

#[test]
fn the_pointer_on_a_dot_shows_its_figures_and_the_wheel_looks_closer_at_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut cook = Cook::at(controller(&folder));
    let (at, said) = cook.on_a_dot();
    let known = cook.sayings();
    let (time, _) = known
        .iter()
        .find(|(_, words)| *words == said)
        .unwrap_or_else(|| panic!("{said:?} is said of no dot"));
    let dot = time.as_millisecond() as f64 / 1e3;

    // What is pointed at stays under the pointer, turn by turn.
    cook.turn_wheel(60.0);
    let (from, to) = cook.seconds_shown().expect("the wheel looks closer");
    cook.turn_wheel(60.0);
    let (closer_from, closer_to) = cook.seconds_shown().unwrap();
    let (wide, narrow) = (to - from, closer_to - closer_from);
    assert!(narrow < wide * 0.8, "{narrow} of {wide}");
    let still = (closer_from * wide - from * narrow) / (wide - narrow);
    assert!((still - dot).abs() < 240.0, "{still} is not at {dot}");
    assert!((from..to).contains(&dot) && (closer_from..closer_to).contains(&dot));

    // Wider again, to the whole night.
    for _ in 0..6 {
        cook.turn_wheel(-60.0);
    }
    assert_eq!(cook.service().window, None);

    // Two fingers, or the wheel with the control key.
    cook.harness.hover_at(at);
    cook.harness.event(Event::Zoom(1.5));
    cook.settle();
    assert!(cook.service().window.is_some());
    cook.key(Key::Num0);
    assert_eq!(cook.service().window, None);
}

#[test]
fn keys_and_fingers_look_closer_and_to_the_side() {
    let folder = tempfile::tempdir().unwrap();
    let mut cook = Cook::at(controller(&folder));
    cook.press("Closer");
    let first = cook.service().window.expect("the button looks closer");
    cook.key(Key::Equals);
    let second = cook.service().window.unwrap();
    assert!(second.length() < first.length());
    cook.key(Key::ArrowLeft);
    assert!(cook.service().window.unwrap().from < second.from);
    cook.press("Right");
    assert_eq!(cook.service().window, Some(second));
    cook.key(Key::Minus);
    assert_eq!(cook.service().window.unwrap().length(), first.length());
    cook.press("All");
    assert_eq!(cook.service().window, None);
    // Another dish is looked at whole.
    cook.key(Key::Plus);
    assert!(cook.service().window.is_some());
    cook.press("Hogget neck");
    assert_eq!(cook.service().window, None);
}

#[test]
fn a_stretch_has_its_own_figures() {
    let folder = tempfile::tempdir().unwrap();
    let mut cook = Cook::at(controller(&folder));
    let middle = cook.chart().center();
    cook.harness.drag_at(middle - vec2(120.0, 0.0));
    cook.settle();
    cook.harness.hover_at(middle);
    cook.settle();
    cook.harness.drop_at(middle + vec2(60.0, 0.0));
    cook.settle();
    let (from, to) = cook.service().span.expect("a drag selects");
    assert!(from < to);

    // The same figures from the store, by the domain.
    let store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let portions = store
        .portions(&Query {
            dish: Some(DishName::new("dish", &cook.dish().name).unwrap()),
            from: Some(from),
            to: Some(to),
            run: None,
        })
        .unwrap();
    let spread = Spread::of(portions.iter().filter(|portion| portion.counts()));
    assert!(spread.n() > 5 && spread.n() < cook.dish().dots.len());
    let told = cook.service().told.join("\n");
    let grams = |mass: Option<Mass>| words::grams(Language::English, mass.unwrap());
    for figure in [
        // Of all, as part of it is in doubt; what can be relied on stands beside it.
        format!(
            "With them mean {}, spread {}",
            grams(spread.mean()),
            grams(spread.standard_deviation())
        ),
        format!(
            "{} of {} short, {} heavy; {} given away",
            spread.count(Verdict::Short),
            spread.n(),
            spread.count(Verdict::Heavy),
            words::grams(Language::English, spread.given_away())
        ),
    ] {
        assert!(told.contains(&figure), "no {figure:?} in {told}");
    }
    // The stretch lies over four o'clock: some of it came after the failed test.
    assert!(told.contains("weighed after a test that failed"), "{told}");
    cook.key(Key::Escape);
    assert!(cook.service().told.is_empty() && cook.service().span.is_none());
}

#[test]
fn a_dot_leads_to_its_portion_which_can_be_struck_out_and_count_again() {
    let folder = tempfile::tempdir().unwrap();
    let mut cook = Cook::at(controller(&folder));
    let whole = cook.dish().dots.len();
    let (at, said) = cook.on_a_dot();
    cook.harness.drag_at(at);
    cook.harness.drop_at(at);
    cook.settle();
    let id = cook.service().picked.expect("a tap picks a portion");
    let known = cook.sayings();
    let nth = cook.dish().ids.iter().position(|of| *of == id).unwrap();
    assert_eq!(known[nth].1, said);
    assert_says(&cook.controller, &format!("number {id}"));

    let store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let standing = || {
        let struck = store.portion(id).unwrap().struck;
        struck.map(|struck| struck.reason.as_str().to_owned())
    };
    // By hand. Nothing is struck out without a reason.
    cook.press("Strike out");
    assert_says(&cook.controller, "Why should it not count?");
    cook.key(Key::Enter);
    assert_eq!(standing(), None);
    cook.press("Tasted");
    cook.press("Strike out");
    assert_eq!(standing().as_deref(), Some("Tasted"));
    assert_eq!(cook.dish().dots.len(), whole - 1);
    assert_eq!(cook.dish().struck.len(), 1);
    assert!(cook.service().picked_is_struck);
    assert_says(&cook.controller, "Tasted. It counts in no figure.");
    cook.press("Count it again");
    assert_eq!(standing(), None);
    assert_eq!(cook.dish().dots.len(), whole);

    // By keys only: the next portion, why, a reason, and done.
    cook.key(Key::Escape);
    assert_eq!(cook.service().picked, None);
    cook.key(Key::Period);
    assert_eq!(cook.service().picked, Some(cook.dish().ids[0]));
    cook.key(Key::Period);
    cook.key(Key::Period);
    cook.key(Key::Comma);
    let second = cook.dish().ids[1];
    assert_eq!(cook.service().picked, Some(second));
    cook.key(Key::X);
    cook.key(Key::Num1);
    // The numbers stood for reasons, not for ways to look.
    assert_eq!(cook.service().look, Look::Night);
    cook.key(Key::Enter);
    let struck = store.portion(second).unwrap().struck.unwrap();
    assert_eq!(struck.reason.as_str(), "Fell or spilled");
    cook.key(Key::X);
    assert_eq!(store.portion(second).unwrap().struck, None);
    // Nothing was deleted on the way.
    assert_eq!(cook.dish().dots.len(), whole);
}

#[test]
fn a_damaged_store_is_said_and_stays_said() {
    let folder = tempfile::tempdir().unwrap();
    drop(controller(&folder));
    let file = folder.path().join("evenhand.sqlite3");
    let mut bytes = std::fs::read(&file).unwrap();
    // A page in the middle overwritten, as by a failing disk.
    let middle = bytes.len() / 2 / 4096 * 4096;
    bytes[middle..middle + 4096].fill(0xA5);
    std::fs::write(&file, bytes).unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    let mut controller = match Controller::open(data, TimeZone::UTC, Vec::new(), || ()) {
        Ok(controller) => controller,
        // So badly damaged that it does not open: said before there is a window.
        Err(error) => {
            assert!(error.to_string().contains("is damaged"), "{error}");
            return;
        }
    };
    let began = Instant::now();
    while controller.state().complaint.is_none() {
        assert!(began.elapsed() < Duration::from_secs(60));
        std::thread::sleep(Duration::from_millis(10));
        controller.take_in();
    }
    let said = controller.state().complaint.clone().unwrap();
    assert!(said.contains("is damaged or no database"), "{said}");
    controller.carry_out(Intent::Go(Screen::Bench));
    controller.take_in();
    assert_eq!(controller.state().complaint, Some(said));
}
