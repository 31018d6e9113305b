//! An ingredient with its key, what went in and what it should be. A curing
//! agent carries its mark in words and shape and a double frame, which no
//! colour is needed to see.

use crate::layout::Rest;
use crate::widgets::big_button::struck;
use crate::widgets::shapes;
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Role, Sense, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use evenhand_protocol::Verdict;

/// The keys of the ingredients, first to last.
pub(super) const KEYS: [Key; 9] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
    Key::Num9,
];

/// One ingredient's tile.
pub(super) struct Tile<'a> {
    pub(super) name: &'a str,
    /// Above on the right.
    pub(super) first: &'a str,
    /// Below on the right.
    pub(super) second: &'a str,
    pub(super) verdict: Option<Verdict>,
    pub(super) now: bool,
    pub(super) curing: bool,
    pub(super) key: Option<Key>,
}

/// Shows it; true where it was pressed, by hand or key.
pub(super) fn show(ui: &Ui, place: Rect, tile: &Tile<'_>) -> bool {
    let scale = Scale::of(ui);
    // Two lines may both wait for a name.
    let id = ui.unique_id().with(("ingredient", tile.name, tile.key));
    let response = ui.interact(place, id, Sense::click());
    let standing = tile
        .verdict
        .map(|verdict| figures::verdict(verdict, crate::words::of(ui)));
    let standing = standing.unwrap_or_default();
    let spoken = format!("{}, {} {} {standing}", tile.name, tile.first, tile.second);
    response.widget_info(|| {
        WidgetInfo::selected(Role::Button, true, tile.now, spoken.trim_end().to_owned())
    });
    let (fill, ink) = if tile.now {
        (theme::SLATE, theme::ON_DARK)
    } else {
        (theme::SURFACE, theme::INK)
    };
    let painter = ui.painter();
    painter.rect(
        place,
        scale.corner(10.0),
        fill,
        scale.stroke(2.0, theme::EDGE),
        StrokeKind::Inside,
    );
    if tile.curing {
        painter.rect_stroke(
            place.shrink(scale.u(5.0)),
            scale.corner(7.0),
            scale.stroke(3.0, ink),
            StrokeKind::Inside,
        );
    }
    if response.has_focus() {
        painter.rect_stroke(
            place.expand(scale.u(3.0)),
            scale.corner(13.0),
            scale.stroke(4.0, theme::verdict(Verdict::Short).mark),
            StrokeKind::Inside,
        );
    }
    let mut rest = Rest(place.shrink2(vec2(scale.u(12.0), scale.u(6.0))));
    if let Some(key) = tile.key {
        text::paint(
            ui,
            rest.left(scale.u(24.0)),
            key.name(),
            &text::Style::new(scale.plain(20.0), ink, Align2::LEFT_CENTER),
        );
    }
    let mark = rest.left(scale.u(34.0));
    if let Some(verdict) = tile.verdict {
        let colours = theme::verdict(verdict);
        let colour = if tile.now { ink } else { colours.mark };
        shapes::verdict(
            painter,
            pos2(mark.left() + scale.u(12.0), mark.center().y),
            scale.u(11.0),
            verdict,
            colour,
        );
    }
    let figures = rest.right(rest.0.width() * 0.40);
    rest.right(scale.u(6.0));
    text::paint(
        ui,
        rest.0,
        tile.name,
        &text::Style::new(scale.heavy(27.0), ink, Align2::LEFT_CENTER),
    );
    let (above, below) = figures.split_top_bottom_at_fraction(0.54);
    text::paint(
        ui,
        above,
        tile.first,
        &text::Style::new(scale.heavy(26.0), ink, Align2::RIGHT_CENTER),
    );
    text::paint(
        ui,
        below,
        tile.second,
        &text::Style::new(scale.plain(21.0), ink, Align2::RIGHT_CENTER),
    );
    response.clicked() || tile.key.is_some_and(|key| struck(ui, key))
}
