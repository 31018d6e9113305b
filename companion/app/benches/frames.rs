//! How long a frame of the service screen takes with a million portions on it:
//! laid out, thinned to what the screen can show and cut into triangles, which
//! is the program's own work; and painted on the CPU, as a picture is.
//! Beside it, the same frame with no dot and with the dots of one night.
//!
//! `cargo bench -p evenhand-app --bench frames`
#![allow(clippy::unwrap_used, missing_docs)]

use criterion::{Criterion, criterion_group, criterion_main};
use eframe::egui::{
    Context, Event, Modifiers, MouseWheelSource, MouseWheelUnit, Pos2, RawInput, Rect, Theme,
    TouchPhase, Vec2, pos2, vec2,
};
use evenhand_app::picture::Painter;
use evenhand_app::service::{Look, ServiceView};
use evenhand_app::state::{Screen, State};
use evenhand_app::{shell, theme};
use evenhand_kitchen::service::{Dot, Dots};
use evenhand_protocol::{Goal, Mass, Tolerance};
use jiff::Timestamp;
use std::hint::black_box;
use std::sync::Arc;
use std::time::Duration;

/// The largest screen that is looked at.
const SIZE: Vec2 = vec2(1920.0, 1080.0);
/// The middle of the dots.
const MIDDLE: Pos2 = pos2(1000.0, 520.0);

/// Portions two minutes apart at 300 a day, with every so many one far out.
fn dots(count: usize) -> Vec<Dot> {
    let goal = Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap();
    (0..count)
        .map(|nth| {
            let (day, within) = (nth / 300, nth % 300);
            // A sequence of Weyl's: even, and the same in every run.
            let noise = (nth as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 44;
            let off = noise as i64 * 3 - 1_500_000;
            Dot {
                time: Timestamp::from_second(
                    1_451_667_600 + day as i64 * 86_400 + within as i64 * 72,
                )
                .unwrap(),
                mass: goal.target() + Mass::from_micrograms(off),
                goal,
            }
        })
        .collect()
}

fn state(count: usize) -> State {
    let mut service = ServiceView {
        title: "Everything".to_owned(),
        look: Look::Everything,
        ..ServiceView::default()
    };
    service.everything.dots = Some(Arc::new(Dots::new(dots(count))));
    State {
        screen: Screen::Service,
        service,
        ..State::at_start()
    }
}

fn context() -> Context {
    let ctx = Context::default();
    ctx.set_theme(Theme::Light);
    theme::install(&ctx);
    ctx
}

fn input(time: f64, events: Vec<Event>) -> RawInput {
    RawInput {
        screen_rect: Some(Rect::from_min_size(Pos2::ZERO, SIZE)),
        time: Some(time),
        events,
        ..RawInput::default()
    }
}

/// One frame, up to the triangles.
fn frame(ctx: &Context, state: &State, time: f64, events: Vec<Event>) -> usize {
    let mut out = ctx.run_ui(input(time, events), |ui| {
        black_box(shell::show(ui, state));
    });
    // Nobody paints them here.
    out.textures_delta.clear();
    ctx.tessellate(out.shapes, out.pixels_per_point).len()
}

fn frames(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("a frame");
    group
        .sample_size(30)
        .warm_up_time(Duration::from_secs(1))
        .measurement_time(Duration::from_secs(4));
    for (label, count) in [("no dot", 0), ("a night", 300), ("a million", 1_000_000)] {
        let state = state(count);
        let ctx = context();
        let mut clock = 0.0;
        let mut tick = move || {
            clock += 1.0 / 60.0;
            clock
        };
        group.bench_function(format!("{label}, the pointer moving over it"), |bench| {
            let mut step = 0.0_f32;
            bench.iter(|| {
                step = (step + 3.0) % 300.0;
                let moved = vec![Event::PointerMoved(MIDDLE + vec2(step, step / 2.0))];
                frame(&ctx, &state, tick(), moved)
            });
        });
        if count == 1_000_000 {
            // In and out again, so that every frame shows another stretch.
            // The count runs on from sample to sample: begun anew, it would go further in.
            let ctx = context();
            let mut nth = 0_u32;
            group.bench_function(format!("{label}, zoomed in and out"), |bench| {
                bench.iter(|| {
                    nth += 1;
                    let towards = if (nth / 40).is_multiple_of(2) {
                        20.0
                    } else {
                        -20.0
                    };
                    let wheel = Event::MouseWheel {
                        unit: MouseWheelUnit::Point,
                        delta: vec2(0.0, towards),
                        phase: TouchPhase::Move,
                        modifiers: Modifiers::COMMAND,
                        source: MouseWheelSource::Wheel,
                    };
                    frame(
                        &ctx,
                        &state,
                        tick(),
                        vec![Event::PointerMoved(MIDDLE), wheel],
                    )
                });
            });
        }
        let ctx = context();
        let mut painter = Painter::default();
        group.bench_function(format!("{label}, drawn and read back"), |bench| {
            bench.iter(|| {
                let mut out = ctx.run_ui(input(tick(), Vec::new()), |ui| {
                    black_box(shell::show(ui, &state));
                });
                painter.take_textures(&mut out.textures_delta);
                black_box(painter.paint(&ctx, &out).unwrap());
            });
        });
    }
    group.finish();
}

criterion_group!(benches, frames);
criterion_main!(benches);
