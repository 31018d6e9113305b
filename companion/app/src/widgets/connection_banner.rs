//! One line that says how the instrument is and what to do about it.

use crate::bench_view::{LinkView, Tone};
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Color32, Rect, Shape, Stroke, StrokeKind, Ui, pos2, vec2};

/// Shows the line in `place`.
pub fn show(ui: &Ui, place: Rect, view: &LinkView) {
    let scale = Scale::of(ui);
    let (fill, ink, edge, font) = match view.tone {
        Tone::Quiet => (theme::PAPER, theme::INK, theme::PAPER, scale.plain(26.0)),
        Tone::Attention => (theme::ATTENTION, theme::INK, theme::INK, scale.heavy(30.0)),
        Tone::Stop => (theme::STOP, theme::ON_DARK, theme::STOP, scale.heavy(30.0)),
    };
    ui.painter().rect(
        place,
        scale.corner(10.0),
        fill,
        scale.stroke(2.0, edge),
        StrokeKind::Inside,
    );
    let mark = pos2(place.left() + scale.u(32.0), place.center().y);
    sign(ui, mark, scale.u(15.0), view.tone, ink);
    let words = place
        .with_min_x(place.left() + scale.u(62.0))
        .with_max_x(place.right() - scale.u(14.0));
    text::live_label(
        ui,
        words,
        &view.words,
        &text::Style::new(font, ink, Align2::LEFT_CENTER),
        view.tone == Tone::Stop,
    );
}

/// A disc for well, a triangle for look here, a bar in a disc for stopped.
fn sign(ui: &Ui, centre: eframe::egui::Pos2, radius: f32, tone: Tone, ink: Color32) {
    let painter = ui.painter();
    match tone {
        Tone::Quiet => {
            painter.circle_filled(
                centre,
                radius * 0.7,
                theme::verdict(evenhand_protocol::Verdict::On).mark,
            );
        }
        Tone::Attention => {
            painter.add(Shape::convex_polygon(
                vec![
                    centre + vec2(0.0, -radius * 1.1),
                    centre + vec2(radius * 1.2, radius),
                    centre + vec2(-radius * 1.2, radius),
                ],
                ink,
                Stroke::NONE,
            ));
            let stem = Rect::from_center_size(
                centre + vec2(0.0, -radius * 0.02),
                vec2(radius * 0.26, radius * 0.8),
            );
            painter.rect_filled(stem, 0.0, theme::ATTENTION);
            painter.circle_filled(
                centre + vec2(0.0, radius * 0.68),
                radius * 0.16,
                theme::ATTENTION,
            );
        }
        Tone::Stop => {
            painter.circle_filled(centre, radius, ink);
            painter.rect_filled(
                Rect::from_center_size(centre, vec2(radius * 1.2, radius * 0.42)),
                0.0,
                theme::STOP,
            );
        }
    }
}
