//! The portioning screen from two metres, between portions, and what stays
//! where it is.

use crate::app_samples::{self, in_language};
use crate::app_screens::{SIZES, all_words, harness, is_whole};
use eframe::egui::epaint::Shape;
use eframe::egui::{Key, Rect, Vec2, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use evenhand_app::Language;
use evenhand_app::bench_view::Of;
use evenhand_app::intent::Intent;
use evenhand_app::picture::write_picture;
use evenhand_app::state::{Screen, State};
use evenhand_app::theme::FAR;
use evenhand_app::widgets::portion_strip::beside;
use evenhand_protocol::{Phase, Verdict};

/// Every text that is painted, with the size of its letters in points and where it is.
fn painted(harness: &Harness<'_, State>) -> Vec<(String, f32, Rect)> {
    let shapes = harness.output().shapes.iter();
    shapes
        .filter_map(|clipped| {
            let Shape::Text(text) = &clipped.shape else {
                return None;
            };
            let size = text.galley.job.sections.first()?.format.font_id.size;
            let place = text.galley.mesh_bounds.translate(text.pos.to_vec2());
            Some((text.galley.text().to_owned(), size, place))
        })
        .collect()
}

/// How high capitals of this size in points are, in minutes of arc, from two
/// metres on a panel of 13 inches whose pixels are a window of `window` points.
///
/// The typeface's capitals are 0.668 of its size (read: `sCapHeight` of the
/// `OS/2` table of both fonts).
fn minutes_of_arc(size: f32, window: Vec2) -> f32 {
    let diagonal = 13.0 * 25.4;
    let point = diagonal / window.length();
    let height = 0.668 * size * point;
    2.0 * (height / 2.0 / 2_000.0).atan().to_degrees() * 60.0
}

/// ISO 9241-303: characters of at least 16 minutes of arc (from memory).
const LEAST: f32 = 16.0;

#[track_caller]
fn legible(harness: &Harness<'_, State>, words: &str, window: Vec2) {
    let size = painted(harness)
        .into_iter()
        .filter(|(text, ..)| text == words)
        .map(|(_, size, _)| size)
        .fold(0.0, f32::max);
    let minutes = minutes_of_arc(size, window);
    assert!(
        minutes >= LEAST,
        "{words:?} at {window} has {minutes:.1}' ({size} points)"
    );
}

/// Draws the screens to be looked at, where somebody wants to.
#[test]
fn the_bench_can_be_drawn_in_every_state() {
    let states = in_language(Language::French, || app_samples::between(Phase::Ready));
    let states = [
        ("short", app_samples::short()),
        ("between", app_samples::between(Phase::AwaitDish)),
        ("settling", app_samples::between(Phase::DishSettling)),
        ("taking", app_samples::taking()),
        ("probe", app_samples::probe_open()),
        ("undone", app_samples::last_struck()),
        ("below", app_samples::below_zero(-12_300, false)),
        ("far", app_samples::far(app_samples::short())),
        ("far-on", app_samples::far(app_samples::on())),
        (
            "far-between",
            app_samples::far(app_samples::between(Phase::Ready)),
        ),
        ("far-probe", app_samples::far(app_samples::probe_open())),
        ("striking", app_samples::striking()),
        ("french", states),
    ];
    for (name, state) in states {
        for size in [SIZES[0], SIZES[1]] {
            let folder = tempfile::tempdir().unwrap();
            let folder = std::env::var_os("EVENHAND_PICTURES")
                .map_or_else(|| folder.path().to_owned(), Into::into);
            let path = folder.join(format!("bench-{name}-{}.png", size.x));
            write_picture(&path, [size.x as u32, size.y as u32], &state).unwrap();
            assert!(std::fs::metadata(&path).unwrap().len() > 10_000);
        }
    }
}

#[test]
fn the_prompt_and_the_last_portion_are_read_from_two_metres() {
    // What was there before would fail: a prompt of 36 units.
    assert!(minutes_of_arc(36.0, SIZES[0]) < LEAST);
    for window in [SIZES[0], SIZES[1]] {
        for language in [Language::English, Language::Spanish, Language::French] {
            let states = in_language(language, || {
                let mut states: Vec<State> = [
                    Phase::AwaitDish,
                    Phase::DishSettling,
                    Phase::AwaitTin,
                    Phase::TinSettling,
                    Phase::Ready,
                    Phase::Spooning,
                    Phase::TinAway,
                ]
                .map(app_samples::between)
                .to_vec();
                states.extend([
                    app_samples::short(),
                    app_samples::on(),
                    app_samples::heavy(),
                ]);
                states
            });
            for state in states {
                let prompt = state.bench.prompt.clone();
                assert!(!prompt.is_empty());
                let harness = harness(state, window);
                legible(&harness, &prompt, window);
            }
        }
        // Portion 14, 30.5 g: in large cells, digit by digit, and while the next dish settles.
        let harness = harness(app_samples::between(Phase::DishSettling), window);
        legible(&harness, "30.5", window);
    }
}

/// 30.5 g, the portion captured last, by the samples; 1612.4 g stand on the pan.
#[test]
fn a_captured_portion_stays_large_until_the_next_is_touched() {
    for phase in [Phase::Ready, Phase::TinAway, Phase::AwaitDish] {
        let state = app_samples::between(phase);
        let mass = &state.bench.mass;
        assert_eq!(mass.shown, Some(app_samples::mg(30_500)), "{phase:?}");
        assert_eq!(mass.verdict, Some(Verdict::On), "{phase:?}");
        let pan = app_samples::mg(1_612_400);
        assert_eq!(mass.of, Of::Captured { pan }, "{phase:?}");
        for size in [SIZES[0], SIZES[1]] {
            let harness = harness(state.clone(), size);
            let words = all_words(&harness);
            for said in [
                "No. 14, counted",
                "No. 14, counted, 30.5 g, on",
                "ON",
                "+0.5 g",
                "1612.4 g",
            ] {
                assert!(words.iter().any(|word| word == said), "{said}: {words:?}");
            }
            let large = painted(&harness)
                .into_iter()
                .filter(|(text, size_of, _)| text.len() == 1 && *size_of > size.y * 0.2);
            let figure: String = large.map(|(text, ..)| text).collect();
            assert_eq!(figure, "305");
        }
    }
    // The next spoon touches.
    let state = app_samples::between(Phase::Spooning);
    assert_eq!(state.bench.mass.of, Of::Load);
    let state = app_samples::taking();
    assert_eq!(state.bench.mass.shown, Some(app_samples::mg(44_300)));
}

#[test]
fn a_portion_undone_is_said_so_where_it_stood() {
    let state = app_samples::last_struck();
    let pan = app_samples::mg(0);
    assert_eq!(state.bench.mass.of, Of::Struck { pan });
    assert_eq!(state.bench.mass.verdict, None);
    let harness = harness(state, SIZES[0]);
    let words = all_words(&harness);
    for said in [
        "No. 14 undone: 30.5 g. It counts no more.",
        "Put back",
        "No. 14, struck out",
    ] {
        assert!(words.iter().any(|word| word == said), "{said}: {words:?}");
    }
}

#[test]
fn while_all_is_well_the_line_above_names_the_dish() {
    let harness = harness(app_samples::short(), SIZES[0]);
    let words = all_words(&harness).join("\n");
    assert!(!words.contains("linked"), "{words}");
    assert!(words.contains("Brown shrimp"), "{words}");
}

/// The latest figure keeps off the target's line, whatever it is, and stays in its place.
#[test]
fn the_latest_label_is_never_on_the_target_line() {
    let place = Rect::from_min_max(pos2(0.0, 0.0), pos2(300.0, 150.0));
    let line = 75.0;
    for step in 0..=150 {
        let at = step as f32;
        let wanted = Rect::from_center_size(pos2(100.0, at), Vec2::new(84.0, 34.0));
        let label = beside(wanted, line, place);
        assert!(
            label.bottom() <= line || label.top() >= line,
            "at {at}: {label:?}"
        );
        assert!(place.contains_rect(label), "at {at}: {label:?}");
    }
}

/// Whether something is painted past the edge of its clip or of the window.
#[test]
fn the_marker_and_its_arrow_stay_in_the_window() {
    for (milligrams, at) in [(100, "nothing"), (60_000, "far too much"), (30_000, "on")] {
        for size in SIZES {
            let harness = harness(app_samples::filling_state(milligrams), size);
            let window = Rect::from_min_size(pos2(0.0, 0.0), size);
            let rail = size.x.min(size.y * 1.6) / 1280.0 * 112.0;
            let meter = harness
                .get_by_role(eframe::egui::accesskit::Role::Meter)
                .rect();
            let mut heads = 0;
            for clipped in &harness.output().shapes {
                let place = match &clipped.shape {
                    Shape::Circle(circle) => circle.visual_bounding_rect(),
                    Shape::Path(path) if path.closed => path.visual_bounding_rect(),
                    _ => continue,
                };
                let on_track = (place.center().y - meter.center().y).abs() < 4.0;
                if !on_track || place.width() > meter.width() * 0.5 {
                    continue;
                }
                heads += 1;
                assert!(
                    window.contains_rect(place) && place.left() >= rail,
                    "{at} at {size}: {place:?}"
                );
            }
            assert!(heads >= 2, "{at} at {size}: no marker");
        }
    }
}

/// A load below zero: the sign is as far from the first digit as digits are from one another.
#[test]
fn a_minus_sign_stands_apart_from_the_digits() {
    for (milligrams, running) in [(-12_300, false), (-2_300, false), (-2_300, true)] {
        let state = app_samples::below_zero(milligrams, running);
        for size in [SIZES[0], SIZES[1]] {
            let harness = harness(state.clone(), size);
            let digits: Vec<Rect> = painted(&harness)
                .into_iter()
                .filter(|(text, size_of, _)| text.len() == 1 && *size_of > size.y * 0.2)
                .map(|(.., place)| place)
                .collect();
            let first = digits
                .iter()
                .map(|place| place.left())
                .fold(f32::MAX, f32::min);
            let middle = digits[0].center().y;
            let bar = harness
                .output()
                .shapes
                .iter()
                .filter_map(|clipped| match &clipped.shape {
                    Shape::Rect(rect) => Some(rect.rect),
                    _ => None,
                })
                .find(|rect| {
                    (rect.center().y - middle).abs() < 2.0
                        && rect.width() < digits[0].width()
                        && rect.height() < rect.width()
                        && rect.width() > 20.0
                })
                .expect("a minus sign");
            let apart = first - bar.right();
            assert!(apart >= 0.05 * digits[0].width(), "{apart} at {size}");
            assert!(bar.left() > size.x * 0.09, "{bar:?}");
        }
    }
}

/// A portion that is captured while the list is open moves nothing in it.
#[test]
fn the_list_of_portions_does_not_move_under_a_finger() {
    let mut before = app_samples::striking();
    let count = before.bench.run.as_ref().unwrap().portions.len();
    before.strike.listed = Some(count - 1);
    let mut after = before.clone();
    let row = |state: &State| {
        harness(state.clone(), SIZES[0])
            .get_by_label("Portion 13, 30.2 g, on")
            .rect()
    };
    let run = before.bench.run.as_mut().unwrap();
    run.portions.pop();
    assert_eq!(row(&before), row(&after));
    let newer = harness(after.clone(), SIZES[0]);
    let button = newer.get_by_label("1 new portion");
    assert!(!button.accesskit_node().is_disabled());
    after.strike.listed = Some(count);
    assert_ne!(row(&before), row(&after), "the list was opened anew");
    const { assert!(FAR >= 72.0) };
}

/// Without controls the figure, the verdict and the next move have the whole window: each is
/// larger than with them, in its share of the window.
#[test]
fn from_afar_the_run_has_the_whole_window() {
    for size in [SIZES[0], SIZES[1]] {
        for near in [
            app_samples::short(),
            app_samples::on(),
            app_samples::heavy(),
            app_samples::taking(),
            app_samples::between(Phase::Ready),
            app_samples::between(Phase::AwaitDish),
            app_samples::probe_open(),
        ] {
            let large = |state: &State, words: &str| {
                let harness = harness(state.clone(), size);
                let texts = painted(&harness);
                let size_of = |said: &str| {
                    let here = texts.iter().filter(|(text, ..)| text == said);
                    here.map(|(_, size, _)| *size).fold(0.0, f32::max)
                };
                let digit = texts
                    .iter()
                    .filter(|(text, ..)| text.len() == 1 && text.chars().all(char::is_numeric))
                    .map(|(.., place)| place.height())
                    .fold(0.0, f32::max);
                let verdict = ["SHORT", "ON", "HEAVY"].map(size_of);
                (
                    size_of(words),
                    digit,
                    verdict.into_iter().fold(0.0, f32::max),
                )
            };
            let prompt = near.bench.prompt.clone();
            let (near_prompt, near_digit, near_verdict) = large(&near, &prompt);
            let far = app_samples::far(near);
            let (prompt, digit, verdict) = large(&far, &prompt);
            assert!(prompt > near_prompt * 1.2, "{prompt} {near_prompt}");
            assert!(digit > near_digit * 1.03, "{digit} {near_digit}");
            assert!(digit > size.y * 0.26, "{digit}");
            assert!(verdict > near_verdict * 1.1, "{verdict} {near_verdict}");
            let harness = harness(far, size);
            is_whole(&harness, "from afar");
            let tabs = harness.query_all_by_role(eframe::egui::accesskit::Role::Tab);
            assert_eq!(tabs.count(), 0, "there are controls");
        }
    }
}

/// The touch that brings the controls back presses none of them.
#[test]
fn a_touch_brings_the_controls_back_and_does_nothing_else() {
    let state = app_samples::far(app_samples::on());
    let mut asked = Vec::new();
    let mut harness = Harness::builder()
        .with_size(SIZES[0])
        .with_context_setup(evenhand_app::theme::install)
        .build_ui(|ui| asked.extend(evenhand_app::shell::show(ui, &state)));
    harness.get_by_label("Show the controls").click();
    harness.run();
    harness.key_press(Key::F5);
    harness.run();
    harness.key_press(Key::Escape);
    harness.run();
    // No key of a button that is not there.
    harness.key_press(Key::S);
    harness.run();
    drop(harness);
    assert_eq!(
        asked,
        [
            Intent::ComeNear,
            Intent::Go(Screen::Service),
            Intent::ComeNear
        ]
    );
}
