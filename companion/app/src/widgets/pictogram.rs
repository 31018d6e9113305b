//! Small pictures for the rail, drawn from lines and discs.

use eframe::egui::{Color32, Painter, Rect, Shape, Stroke, vec2};

/// What is pictured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pictogram {
    /// A scale with a load on it.
    Bench,
    /// A bowl.
    Dishes,
    /// Marks along a line.
    Portions,
    /// A vessel with two layers in it.
    Mix,
    /// Bars of unlike height.
    Service,
    /// A plug.
    Scale,
    /// A thermometer.
    Heat,
    /// A clock.
    Prep,
}

/// Paints one in the middle of `place`, as high as it is.
pub fn show(painter: &Painter, place: Rect, what: Pictogram, ink: Color32) {
    let unit = place.height() / 10.0;
    let centre = place.center();
    let at = |x: f32, y: f32| centre + vec2(x * unit, y * unit);
    let line = Stroke::new(unit * 1.1, ink);
    match what {
        Pictogram::Bench => {
            painter.line_segment([at(-5.0, -0.5), at(5.0, -0.5)], line);
            painter.add(Shape::convex_polygon(
                vec![at(-2.6, 1.0), at(2.6, 1.0), at(4.4, 5.0), at(-4.4, 5.0)],
                ink,
                Stroke::NONE,
            ));
            painter.circle_filled(at(0.0, -2.9), unit * 1.7, ink);
        }
        Pictogram::Dishes => {
            let rim: Vec<_> = (0..=16_u8)
                .map(|step| {
                    let angle = core::f32::consts::PI * f32::from(step) / 16.0;
                    at(4.8 * angle.cos(), -1.4 + 5.2 * angle.sin())
                })
                .collect();
            painter.add(Shape::convex_polygon(rim, ink, Stroke::NONE));
            painter.line_segment([at(-5.4, -2.6), at(5.4, -2.6)], line);
            painter.line_segment([at(-2.4, 4.6), at(2.4, 4.6)], line);
        }
        Pictogram::Portions => {
            painter.line_segment([at(-5.4, 0.0), at(5.4, 0.0)], Stroke::new(unit * 0.6, ink));
            for (x, y) in [(-4.0, 1.6), (0.0, -2.2), (4.0, 1.0)] {
                painter.circle_filled(at(x, y), unit * 1.5, ink);
            }
        }
        Pictogram::Mix => {
            painter.line_segment([at(-3.6, -5.0), at(-3.6, 4.6)], line);
            painter.line_segment([at(3.6, -5.0), at(3.6, 4.6)], line);
            painter.line_segment([at(-4.1, 4.6), at(4.1, 4.6)], line);
            painter.rect_filled(Rect::from_two_pos(at(-3.4, 1.6), at(3.4, 4.4)), 0.0, ink);
            painter.line_segment([at(-3.4, -1.2), at(3.4, -1.2)], line);
        }
        Pictogram::Service => {
            for (x, top) in [(-3.6, 1.4), (0.0, -4.6), (3.6, -1.2)] {
                painter.rect_filled(
                    Rect::from_two_pos(at(x - 1.3, top), at(x + 1.3, 5.0)),
                    0.0,
                    ink,
                );
            }
        }
        Pictogram::Heat => {
            painter.line_segment([at(0.0, -4.8), at(0.0, 2.4)], Stroke::new(unit * 2.2, ink));
            painter.circle_filled(at(0.0, 3.0), unit * 2.2, ink);
            for height in [-3.6, -1.4, 0.8] {
                painter.line_segment([at(2.2, height), at(4.4, height)], line);
            }
        }
        Pictogram::Prep => {
            painter.circle_stroke(centre, unit * 4.6, line);
            painter.line_segment([centre, at(0.0, -3.0)], line);
            painter.line_segment([centre, at(2.2, 1.2)], line);
        }
        Pictogram::Scale => {
            painter.rect_filled(
                Rect::from_two_pos(at(-2.6, -1.6), at(2.6, 2.4)),
                unit * 0.8,
                ink,
            );
            for side in [-1.3, 1.3] {
                painter.line_segment([at(side, -4.6), at(side, -1.6)], line);
            }
            painter.line_segment([at(0.0, 2.4), at(0.0, 5.2)], line);
        }
    }
}
