//! The run's portions as marks in order of time, against the tolerance band
//! that held for each.

use super::shapes;
use crate::bench_view::{PortionState, PortionView};
use crate::words::{self, Language, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Rect, Role, Stroke, StrokeKind, Ui, pos2, vec2};
use evenhand_protocol::{Goal, Mass, Verdict};
use std::borrow::Cow;

/// Shows the latest portions that fit in `place`.
pub fn show(ui: &Ui, place: Rect, portions: &[PortionView], goal: Goal, interval: Mass) {
    let scale = Scale::of(ui);
    let painter = ui.painter();
    painter.rect(
        place,
        scale.corner(10.0),
        theme::SURFACE,
        scale.stroke(2.0, theme::FAINT),
        StrokeKind::Inside,
    );
    let chart = place
        .shrink2(vec2(scale.u(8.0), scale.u(10.0)))
        .with_min_x(place.left() + scale.u(84.0))
        .with_max_x(place.right() - scale.u(100.0));
    let edge = place.right() - scale.u(8.0);
    let column = scale.u(26.0);
    let room = (chart.width() / column).floor().max(1.0) as usize;
    let first = portions.len().saturating_sub(room);
    let shown = portions.get(first..).unwrap_or_default();

    // Somewhat over two tolerances to either side; what lies further is drawn at the edge.
    let widest = goal
        .tolerance()
        .below
        .max(goal.tolerance().above)
        .grams()
        .max(goal.target().grams() * 0.005);
    let reach = 2.3 * widest;
    let y = |mass: Mass, target: Mass| {
        let off = ((mass - target).grams() / reach).clamp(-1.0, 1.0) as f32;
        chart.center().y - off * (chart.height() / 2.0 - scale.u(6.0))
    };

    // The band reaches on past the last portion, as where the next one should land.
    let mut left = chart.left() - scale.u(4.0);
    for (nth, portion) in shown.iter().enumerate() {
        let right = chart.left() + (nth as f32 + 1.0) * column;
        band(ui, left, right, portion.goal, y);
        left = right;
    }
    band(ui, left, edge, goal, y);

    axis(ui, place, chart.with_max_x(edge), goal, interval, y);

    let last = shown.iter().rposition(|portion| portion.counts());
    for (nth, portion) in shown.iter().enumerate() {
        let at = pos2(
            chart.left() + (nth as f32 + 0.5) * column,
            y(portion.mass, portion.goal.target()),
        );
        if !portion.counts() {
            shapes::cross(painter, at, scale.u(7.0), scale.stroke(3.0, theme::EDGE));
            continue;
        }
        let newest = Some(nth) == last;
        let radius = if newest { 14.0 } else { 9.0 };
        let colours = theme::verdict(portion.verdict());
        painter.circle_filled(at, scale.u(radius + 3.0), theme::SURFACE);
        shapes::verdict(
            painter,
            at,
            scale.u(radius),
            portion.verdict(),
            colours.mark,
        );
        if portion.doubt.is_some() {
            painter.circle_stroke(at, scale.u(radius + 4.0), scale.stroke(2.0, theme::INK));
        }
        if newest {
            let beside = beside(
                Rect::from_min_size(
                    pos2(
                        // Past the ones after it, which count no more.
                        at.x + scale.u(20.0) + (shown.len() - 1 - nth) as f32 * column,
                        at.y - scale.u(17.0),
                    ),
                    vec2(scale.u(84.0), scale.u(34.0)),
                ),
                y(goal.target(), goal.target()),
                place.shrink(scale.u(3.0)),
            );
            painter.rect_filled(beside, scale.corner(6.0), theme::SURFACE);
            text::label(
                ui,
                beside,
                &figures::bare(portion.mass, interval, words::of(ui)),
                &text::Style::new(scale.heavy(30.0), theme::INK, Align2::LEFT_CENTER),
            );
        }
    }
    if shown.is_empty() {
        text::label(
            ui,
            chart,
            &say!(words::of(ui), "strip-first"),
            &text::Style::new(scale.plain(26.0), theme::INK, Align2::CENTER_BOTTOM),
        );
    }
    text::announce_as(ui, place, Role::Image, &summary(portions, words::of(ui)));
}

/// Where the latest figure stands: beside its mark, but above or below the
/// target's line, which would strike it through.
#[must_use]
pub fn beside(wanted: Rect, line: f32, place: Rect) -> Rect {
    let gap = wanted.height() * 0.1;
    let up = (line - gap - wanted.bottom()).min(0.0);
    let down = (line + gap - wanted.top()).max(0.0);
    let crosses = up < 0.0 && down > 0.0;
    let clear = match crosses {
        false => wanted,
        true if wanted.center().y <= line => wanted.translate(vec2(0.0, up)),
        true => wanted.translate(vec2(0.0, down)),
    };
    let into = (place.top() - clear.top()).max(0.0) + (place.bottom() - clear.bottom()).min(0.0);
    clear.translate(vec2(0.0, into))
}

fn band(ui: &Ui, left: f32, right: f32, goal: Goal, y: impl Fn(Mass, Mass) -> f32) {
    let top = y(goal.heaviest(), goal.target());
    let bottom = y(goal.lightest(), goal.target());
    ui.painter().rect_filled(
        Rect::from_x_y_ranges(left..=right, top..=bottom.max(top + 2.0)),
        0.0,
        theme::BAND,
    );
}

fn axis(
    ui: &Ui,
    place: Rect,
    chart: Rect,
    goal: Goal,
    interval: Mass,
    y: impl Fn(Mass, Mass) -> f32,
) {
    let scale = Scale::of(ui);
    let line = y(goal.target(), goal.target());
    ui.painter().hline(
        chart.left() - scale.u(4.0)..=chart.right(),
        line,
        Stroke::new(scale.u(2.0), theme::verdict(Verdict::On).mark),
    );
    let height = scale.u(26.0);
    for (mass, weight) in [
        (goal.heaviest(), false),
        (goal.target(), true),
        (goal.lightest(), false),
    ] {
        // The words keep apart even where the band is thin.
        let wanted = y(mass, goal.target());
        let at = match mass.cmp(&goal.target()) {
            core::cmp::Ordering::Greater => wanted.min(line - height),
            core::cmp::Ordering::Equal => line,
            core::cmp::Ordering::Less => wanted.max(line + height),
        };
        if mass == goal.target() && !weight {
            continue;
        }
        let slot = Rect::from_x_y_ranges(
            place.left() + scale.u(6.0)..=chart.left() - scale.u(10.0),
            at - height / 2.0..=at + height / 2.0,
        );
        let font = if weight {
            scale.heavy(24.0)
        } else {
            scale.plain(22.0)
        };
        text::label(
            ui,
            slot,
            &figures::bare(mass, interval, words::of(ui)),
            &text::Style::new(font, theme::INK, Align2::RIGHT_CENTER),
        );
    }
}

/// The strip in words.
#[must_use]
pub fn summary(portions: &[PortionView], language: Language) -> Cow<'static, str> {
    let of = |verdict| {
        portions
            .iter()
            .filter(|portion| portion.counts() && portion.verdict() == verdict)
            .count()
    };
    let struck = portions
        .iter()
        .filter(|portion| matches!(portion.standing, PortionState::Struck(_)))
        .count();
    say!(
        language,
        "strip-summary",
        on = of(Verdict::On),
        short = of(Verdict::Short),
        heavy = of(Verdict::Heavy),
        struck = struck
    )
}
