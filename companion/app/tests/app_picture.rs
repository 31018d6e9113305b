//! The screen as a picture, and the pictures that it should not drift from.

use crate::app_samples;
use crate::painted::Painted;
use eframe::egui::{Theme, vec2};
use egui_kittest::{Harness, SnapshotOptions, SnapshotResults};
use evenhand_app::picture::{PictureError, write_picture};
use evenhand_app::state::State;
use evenhand_app::{shell, theme};

#[test]
fn a_picture_is_written_in_the_size_asked_for() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("bench.png");
    write_picture(&path, [1280, 800], &app_samples::on()).unwrap();
    let picture = image::open(&path).unwrap().into_rgba8();
    assert_eq!(picture.dimensions(), (1280, 800));
    // In the middle of the figure's panel, beside the digits: the colour of the verdict.
    let fill = theme::verdict(evenhand_protocol::Verdict::On).fill;
    let [red, green, blue, alpha] = picture.get_pixel(140, 270).0;
    assert_eq!(
        (red, green, blue, alpha),
        (fill.r(), fill.g(), fill.b(), 255)
    );
}

#[test]
fn a_picture_that_cannot_be_written_says_where_and_why() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("nowhere").join("bench.png");
    let error = write_picture(&path, [1280, 800], &app_samples::idle()).unwrap_err();
    assert!(matches!(error, PictureError::Write { .. }), "{error}");
    assert!(error.to_string().contains("nowhere"), "{error}");

    let path = dir.path().join("bench.png");
    let error = write_picture(&path, [1280, 8], &app_samples::idle()).unwrap_err();
    assert_eq!(
        error.to_string(),
        "a picture is from 320 by 200 to 7680 by 4320 pixels, not 1280 by 8"
    );
    assert!(!path.exists());
}

/// A few pictures kept for comparison, in half size.
#[test]
fn the_screens_look_as_they_did() {
    let mut results = SnapshotResults::new();
    for (name, state) in [
        ("app_bench_short", app_samples::short()),
        ("app_bench_on", app_samples::taking()),
        ("app_bench_blank", app_samples::overload()),
    ] {
        let mut harness = Harness::builder()
            .with_size(vec2(1280.0, 800.0))
            .with_pixels_per_point(0.5)
            .with_theme(Theme::Light)
            .with_context_setup(theme::install)
            .with_render_cursor(false)
            .renderer(Painted::default())
            .with_options(SnapshotOptions::new().threshold(2.0).max_failed_pixels(40))
            .build_ui_state(
                |ui, state: &mut State| {
                    shell::show(ui, state);
                },
                state,
            );
        results.add(harness.try_snapshot(name));
    }
}
