//! The charts of a service: every axis has figures enough to be read by, and a day on an
//! axis stands with that day's service, whatever the zone.

use super::app_service::{desk_at, flat, harness, wish};
use eframe::egui::{Pos2, Rect, Shape, Vec2, vec2};
use evenhand_app::controller::Controller;
use evenhand_app::service::{Look, ServiceWish};
use evenhand_app::state::State;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::collections::BTreeSet;
use std::time::{Duration, Instant};

const SIZES: [Vec2; 2] = [vec2(1280.0, 800.0), vec2(1920.0, 1080.0)];

/// Everything that is painted: words with their places, and the middles of round dots.
fn painted(state: &State, size: Vec2) -> (Vec<(Rect, String)>, Vec<Pos2>) {
    let mut harness = harness(state.clone(), size);
    harness.run_steps(2);
    let (mut words, mut dots) = (Vec::new(), Vec::new());
    for clipped in &harness.output().shapes {
        let mut all = Vec::new();
        flat(&clipped.shape, &mut all);
        for shape in all {
            match shape {
                Shape::Text(text) => {
                    let said = text.galley.text().trim().to_owned();
                    words.push((text.visual_bounding_rect(), said));
                }
                Shape::Circle(circle) if clipped.clip_rect.contains(circle.center) => {
                    dots.push(circle.center);
                }
                _ => {}
            }
        }
    }
    (words, dots)
}

fn figure(words: &str) -> Option<f64> {
    words.parse().ok()
}

fn grams(words: &str) -> Option<f64> {
    figure(words.strip_suffix(" g")?)
}

/// The figures that read so within a place, and their middles.
fn figures(
    words: &[(Rect, String)],
    within: Rect,
    read: impl Fn(&str) -> Option<f64>,
) -> Vec<(Pos2, f64)> {
    words
        .iter()
        .filter(|(place, _)| within.contains(place.center()))
        .filter_map(|(place, words)| Some((place.center(), read(words)?)))
        .collect()
}

/// Fails unless figures stand in order along an axis, two at least, none over another.
#[track_caller]
fn assert_axis(mut axis: Vec<f32>, apart: f32, what: &str) {
    axis.sort_by(f32::total_cmp);
    assert!(axis.len() >= 2, "{what}: {axis:?}");
    for two in axis.windows(2) {
        assert!(two[1] - two[0] >= apart, "{what}: {axis:?}");
    }
}

#[test]
fn every_axis_has_figures_to_be_read_by() {
    let folder = tempfile::tempdir().unwrap();
    let mut controller = desk_at(&folder, &TimeZone::UTC);
    for dish in 0..controller.state().service.dishes.len() {
        wish(&mut controller, ServiceWish::Look(Look::Night));
        wish(&mut controller, ServiceWish::Dish(dish));
        for size in SIZES {
            let what = format!("dish {dish} at {size}");
            let state = controller.state();
            let (words, _) = painted(state, size);
            let scale = size.y / 800.0;
            let whole = Rect::from_min_size(Pos2::ZERO, size);
            // The masses stand lowest; the night's own figures are above them.
            let all = figures(&words, whole, grams);
            let lowest = all.iter().map(|(at, _)| at.y).fold(0.0, f32::max);
            let (masses, night): (Vec<_>, Vec<_>) =
                all.into_iter().partition(|(at, _)| at.y > lowest - 4.0);
            let across = masses.iter().map(|(at, _)| at.x).collect();
            assert_axis(across, 36.0 * scale, &format!("masses of {what}"));
            let up = night.iter().map(|(at, _)| at.y).collect();
            assert_axis(up, 14.0 * scale, &format!("grams of {what}"));
            // How many portions: to the left of the masses, above them.
            let left = Rect::from_x_y_ranges(
                112.0 * scale..=masses.iter().map(|(at, _)| at.x).fold(f32::MAX, f32::min),
                lowest - 130.0 * scale..=lowest,
            );
            let counts = figures(&words, left, figure);
            assert!(counts.iter().any(|(_, count)| *count == 0.0), "{what}");
            let up = counts.iter().map(|(at, _)| at.y).collect();
            assert_axis(up, 14.0 * scale, &format!("counts of {what}"));
        }
        wish(&mut controller, ServiceWish::Look(Look::Beside));
        for size in SIZES {
            let (words, _) = painted(controller.state(), size);
            let whole = Rect::from_min_size(Pos2::ZERO, size);
            let up = figures(&words, whole, grams);
            let up = up.iter().map(|(at, _)| at.y).collect();
            assert_axis(up, 14.0, &format!("last ten of dish {dish} at {size}"));
        }
    }
}

/// A time of day as it stands on an axis, in minutes.
fn clock(words: &str) -> Option<f64> {
    let (hours, minutes) = words.split_once(':')?;
    if hours.len() != 2 || minutes.len() != 2 {
        return None;
    }
    Some(hours.parse::<f64>().ok()? * 60.0 + minutes.parse::<f64>().ok()?)
}

#[test]
fn every_small_chart_of_all_dishes_has_figures_to_be_read_by() {
    let folder = tempfile::tempdir().unwrap();
    let mut controller = desk_at(&folder, &TimeZone::UTC);
    wish(&mut controller, ServiceWish::Look(Look::Dishes));
    let dishes: Vec<String> = controller
        .state()
        .service
        .dishes
        .iter()
        .map(|dish| dish.name.clone())
        .collect();
    assert!(dishes.len() >= 3, "{dishes:?}");
    for size in SIZES {
        let scale = size.y / 800.0;
        let (words, _) = painted(controller.state(), size);
        let heads: Vec<Rect> = dishes
            .iter()
            .map(|name| words.iter().find(|(_, said)| said == name).unwrap().0)
            .collect();
        // Charts stand in rows, each below its dish's name.
        let beside = heads
            .iter()
            .filter(|head| (head.center().y - heads[0].center().y).abs() < 4.0)
            .map(|head| head.center().x)
            .fold(f32::MAX, |least, x| {
                let away = x - heads[0].center().x;
                if away > 1.0 { least.min(away) } else { least }
            });
        for (name, head) in dishes.iter().zip(&heads) {
            let below = heads
                .iter()
                .map(|other| other.top())
                .filter(|top| *top > head.bottom() + 10.0)
                .fold(size.y, f32::min);
            let half = beside / 2.0;
            let chart = Rect::from_x_y_ranges(
                head.center().x - half..=head.center().x + half,
                head.bottom()..=below,
            );
            let what = format!("{name} at {size}");
            let up = figures(&words, chart, grams);
            assert_axis(
                up.iter().map(|(at, _)| at.y).collect(),
                14.0 * scale,
                &format!("grams of {what}"),
            );
            let mut across = figures(&words, chart, clock);
            assert_axis(
                across.iter().map(|(at, _)| at.x).collect(),
                36.0 * scale,
                &format!("times of {what}"),
            );
            // Later is to the right.
            across.sort_by(|(one, _), (other, _)| one.x.total_cmp(&other.x));
            let since = |minutes: f64| (minutes - across[0].1).rem_euclid(24.0 * 60.0);
            for two in across.windows(2) {
                assert!(since(two[1].1) > since(two[0].1), "{what}: {across:?}");
            }
            // No figure of an axis is cut by the chart's edge.
            for (place, said) in &words {
                if chart.contains(place.center()) && (grams(said).or(clock(said))).is_some() {
                    assert!(chart.contains_rect(*place), "{said} of {what}");
                }
            }
        }
        // Every mark there is has its word.
        let said = |part: &str| words.iter().any(|(_, said)| said == part);
        for part in ["short", "on", "heavy", "target", "tolerance"] {
            assert!(said(part), "{part} at {size}");
        }
        let service = &controller.state().service;
        let doubted = service.dishes.iter().any(|dish| !dish.in_doubt.is_empty());
        assert!(doubted && said("scale test failed"), "{size}");
        let struck = service.dishes.iter().any(|dish| !dish.struck.is_empty());
        assert_eq!(struck, said("struck out"), "{size}");
    }
}

/// The day that an axis of days names.
fn day(words: &str) -> Option<Date> {
    jiff::fmt::strtime::parse("%d %b %y", words)
        .ok()?
        .to_date()
        .ok()
}

fn with_everything_read(controller: &mut Controller) {
    wish(controller, ServiceWish::Look(Look::Everything));
    let began = Instant::now();
    while controller.state().service.everything.dots.is_none() {
        assert!(began.elapsed() < Duration::from_secs(60));
        controller.take_in();
    }
}

#[test]
fn a_day_on_the_axis_is_that_of_the_night_beside_it() {
    for zone in [
        "UTC",
        "Asia/Kathmandu",
        "America/St_Johns",
        "Pacific/Auckland",
    ] {
        let zone = TimeZone::get(zone).unwrap();
        let folder = tempfile::tempdir().unwrap();
        let mut controller = desk_at(&folder, &zone);
        with_everything_read(&mut controller);
        let all = controller.state().service.everything.dots.clone().unwrap();
        // What a cook calls the night: its day before noon of the next.
        let nights: BTreeSet<Date> = all
            .iter()
            .map(|dot| (zone.to_datetime(dot.time) - jiff::Span::new().hours(12)).date())
            .collect();
        assert!(nights.len() > 5, "{nights:?}");
        let (words, dots) = painted(controller.state(), SIZES[0]);
        let named: Vec<(f32, Date)> = words
            .iter()
            .filter_map(|(place, words)| Some((place.center().x, day(words)?)))
            .collect();
        let ((first_x, first), (last_x, last)) = (named[0], *named.last().unwrap());
        let days = (last - first).get_days() as f32;
        assert!(days >= 2.0, "{named:?}");
        // A day's mark stands at its noon, and its night to the right of that. What is round
        // beside or below the chart is none of its dots.
        let axis = words.iter().find(|(_, words)| day(words).is_some());
        let chart = Rect::from_x_y_ranges(180.0..=1270.0, 240.0..=axis.unwrap().0.top());
        let seen: BTreeSet<Date> = dots
            .iter()
            .filter(|at| chart.contains(**at))
            .map(|at| {
                let since = ((at.x - first_x) / (last_x - first_x) * days).floor();
                first + jiff::Span::new().days(since as i64)
            })
            .collect();
        assert_eq!(seen, nights, "{zone:?}");
    }
}
