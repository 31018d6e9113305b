//! The verdict as place, shape and word: heavy above, on in the middle, short
//! below, with the one that holds opened wide.

use super::shapes;
use crate::layout::Rest;
use crate::words::{self, say};
use crate::{figures, text, theme, theme::Scale};
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
    let shut = (place.height() * 0.19).max(scale.u(44.0));
    let language = words::of(ui);
    let holds = match held {
        Held::Live(_, verdict) | Held::Last(_, _, verdict) => Some(verdict),
        Held::Nothing => None,
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
            match held {
                Held::Live(mass, verdict) => {
                    let off = figures::distance(goal, mass, verdict, interval, language);
                    live_slot(ui, slot, verdict, &off);
                }
                Held::Last(number, mass, verdict) => {
                    let mass = figures::bare(mass, interval, language);
                    last_slot(ui, slot, verdict, number, &mass);
                }
                Held::Nothing => {}
            }
        } else {
            empty_slot(ui, slot, verdict);
        }
    }
}

fn live_slot(ui: &Ui, slot: Rect, verdict: Verdict, off: &str) {
    let scale = Scale::of(ui);
    let colours = theme::verdict(verdict);
    ui.painter().rect(
        slot,
        scale.corner(12.0),
        colours.fill,
        scale.stroke(4.0, colours.mark),
        StrokeKind::Inside,
    );
    let mut inner = Rest(slot.shrink2(vec2(scale.u(14.0), scale.u(8.0))));
    let below = inner.bottom(inner.0.height() * 0.44);
    // As large as the slot: they are read from across the kitchen.
    let large = (slot.height() / scale.u(1.0)).max(54.0 / 0.36);
    let radius = scale.u(large * 0.18);
    let place = inner.left(radius * 2.2);
    shapes::verdict(ui.painter(), place.center(), radius, verdict, colours.ink);
    text::live_label(
        ui,
        inner.0.with_min_x(inner.0.left() + scale.u(10.0)),
        &figures::verdict(verdict, words::of(ui)).to_uppercase(),
        &text::Style::new(scale.heavy(large * 0.36), colours.ink, Align2::LEFT_CENTER),
        false,
    );
    text::label(
        ui,
        below,
        off,
        &text::Style::new(scale.heavy(large * 0.28), colours.ink, Align2::LEFT_CENTER),
    );
}

fn last_slot(ui: &Ui, slot: Rect, verdict: Verdict, number: u32, mass: &str) {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let mark = theme::verdict(verdict).mark;
    ui.painter().rect(
        slot,
        scale.corner(12.0),
        theme::SURFACE,
        scale.stroke(4.0, mark),
        StrokeKind::Inside,
    );
    let mut inner = Rest(slot.shrink2(vec2(scale.u(14.0), scale.u(6.0))));
    let above = inner.top(inner.0.height() * 0.20);
    text::label(
        ui,
        above,
        &say!(
            language,
            "last-portion",
            number = number.to_string(),
            verdict = figures::verdict(verdict, language)
        ),
        &text::Style::new(scale.plain(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    let radius = scale.u(18.0);
    let place = inner.left(radius * 2.0);
    shapes::verdict(ui.painter(), place.center(), radius, verdict, mark);
    text::label(
        ui,
        inner.0.with_min_x(inner.0.left() + scale.u(8.0)),
        mass,
        &text::Style::new(scale.heavy(theme::FAR), theme::INK, Align2::LEFT_CENTER),
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
        &figures::verdict(verdict, words::of(ui)),
        &text::Style::new(scale.plain(26.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
}
