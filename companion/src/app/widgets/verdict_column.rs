//! The verdict as place, shape and word: heavy above, on in the middle, short
//! below, with the one that holds opened wide.

use super::shapes;
use crate::app::layout::Rest;
use crate::app::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Rect, StrokeKind, Ui, pos2, vec2};
use evenhand_protocol::{Goal, Mass, Verdict};

/// Top to bottom.
const ORDER: [Verdict; 3] = [Verdict::Heavy, Verdict::On, Verdict::Short];

/// Which portion the verdict is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// On the one being made.
    Live(Mass, Verdict),
    /// On the one made last, by its number in the run; shown in outline, so
    /// that nobody takes it for what is on the pan now.
    Last(u32, Mass, Verdict),
    /// There is none.
    Nothing,
}

/// Shows the verdict, with how far the portion is off, in `place`.
pub fn show(ui: &Ui, place: Rect, goal: Goal, held: Held, interval: Mass) {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let shut = scale.u(48.0);
    let (holds, line) = match held {
        Held::Live(mass, verdict) => (
            Some(verdict),
            figures::distance(goal, mass, verdict, interval),
        ),
        Held::Last(number, mass, verdict) => (
            Some(verdict),
            format!("No. {number}: {}", figures::grams(mass, interval)),
        ),
        Held::Nothing => (None, String::new()),
    };
    let open = if holds.is_some() {
        place.height() - 2.0 * (shut + gap)
    } else {
        (place.height() - 2.0 * gap) / 3.0
    };
    let mut rest = Rest(place);
    for verdict in ORDER {
        let height = match holds {
            Some(held) if held != verdict => shut,
            _ => open,
        };
        let slot = rest.top(height);
        rest.top(gap);
        if holds == Some(verdict) {
            held_slot(ui, slot, verdict, &line, matches!(held, Held::Live(..)));
        } else {
            empty_slot(ui, slot, verdict);
        }
    }
}

fn held_slot(ui: &Ui, slot: Rect, verdict: Verdict, line: &str, live: bool) {
    let scale = Scale::of(ui);
    let colours = theme::verdict(verdict);
    let (fill, ink, mark) = if live {
        (colours.fill, colours.ink, colours.ink)
    } else {
        (theme::SURFACE, theme::INK, colours.mark)
    };
    ui.painter().rect(
        slot,
        scale.corner(12.0),
        fill,
        scale.stroke(4.0, colours.mark),
        StrokeKind::Inside,
    );
    let mut inner = Rest(slot.shrink2(vec2(scale.u(14.0), scale.u(8.0))));
    let below = inner.bottom(inner.0.height() * 0.44);
    let radius = scale.u(27.0);
    let place = inner.left(radius * 2.2);
    shapes::verdict(ui.painter(), place.center(), radius, verdict, mark);
    text::label(
        ui,
        inner.0.with_min_x(inner.0.left() + scale.u(10.0)),
        &verdict.word().to_uppercase(),
        &text::Style::new(scale.heavy(54.0), ink, Align2::LEFT_CENTER),
    );
    text::label(
        ui,
        below,
        line,
        &text::Style::new(scale.heavy(38.0), ink, Align2::LEFT_CENTER),
    );
}

fn empty_slot(ui: &Ui, slot: Rect, verdict: Verdict) {
    let scale = Scale::of(ui);
    ui.painter().rect_stroke(
        slot,
        scale.corner(12.0),
        scale.stroke(2.0, theme::FAINT),
        StrokeKind::Inside,
    );
    let radius = scale.u(11.0);
    let centre = pos2(slot.left() + scale.u(30.0), slot.center().y);
    shapes::verdict(ui.painter(), centre, radius, verdict, theme::EDGE);
    text::paint(
        ui,
        slot.with_min_x(centre.x + scale.u(24.0))
            .with_max_x(slot.right() - scale.u(8.0)),
        verdict.word(),
        &text::Style::new(scale.plain(26.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
}
