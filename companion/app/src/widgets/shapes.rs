//! The shape of each verdict: low, level, high.

use eframe::egui::{Color32, Painter, Pos2, Shape, Stroke, pos2, vec2};
use evenhand_protocol::Verdict;

/// Paints the shape of a verdict: a triangle that points down when short, a
/// disc when on, a triangle that points up when heavy. `radius` in points.
pub fn verdict(painter: &Painter, centre: Pos2, radius: f32, verdict: Verdict, colour: Color32) {
    match verdict {
        Verdict::On => {
            painter.circle_filled(centre, radius * 0.92, colour);
        }
        Verdict::Short => triangle(painter, centre, radius, 1.0, colour),
        Verdict::Heavy => triangle(painter, centre, radius, -1.0, colour),
    }
}

/// A triangle that points down, or up where `down` is -1.
pub fn triangle(painter: &Painter, centre: Pos2, radius: f32, down: f32, colour: Color32) {
    let half = radius * 1.05;
    painter.add(Shape::convex_polygon(
        vec![
            centre + vec2(-half, -0.75 * radius * down),
            centre + vec2(half, -0.75 * radius * down),
            centre + vec2(0.0, radius * down),
        ],
        colour,
        Stroke::NONE,
    ));
}

/// Paints a cross, for what was struck out.
pub fn cross(painter: &Painter, centre: Pos2, radius: f32, stroke: Stroke) {
    for side in [-1.0, 1.0] {
        painter.line_segment(
            [
                pos2(centre.x - radius, centre.y - radius * side),
                pos2(centre.x + radius, centre.y + radius * side),
            ],
            stroke,
        );
    }
}
