//! The probe's temperature, in sight on every screen.

use crate::bench_view::ProbeView;
use crate::words::{self, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Rect, StrokeKind, Ui, vec2};

/// Shows the badge in `place`.
pub fn show(ui: &Ui, place: Rect, view: &ProbeView) {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let faulty = matches!(view, ProbeView::Fault { .. });
    let fill = if faulty {
        theme::ATTENTION
    } else {
        theme::SURFACE
    };
    ui.painter().rect(
        place,
        scale.corner(10.0),
        fill,
        scale.stroke(2.0, if faulty { theme::INK } else { theme::FAINT }),
        StrokeKind::Inside,
    );
    let inner = place.shrink2(vec2(scale.u(14.0), scale.u(4.0)));
    let caption = text::label(
        ui,
        inner.with_max_x(inner.left() + scale.u(70.0)),
        &say!(language, "probe"),
        &text::Style::new(scale.plain(24.0), theme::INK, Align2::LEFT_CENTER),
    );
    let value = inner.with_min_x(caption.right() + scale.u(10.0));
    let (words, font) = match view {
        ProbeView::Reads(temperature) => {
            (figures::celsius(*temperature, language), scale.heavy(38.0))
        }
        ProbeView::Fault { short, .. } => (short.clone(), scale.heavy(28.0)),
        ProbeView::Absent => (say!(language, "probe-none").into_owned(), scale.plain(26.0)),
        ProbeView::Unknown => ("\u{2013} \u{2013}".to_owned(), scale.heavy(38.0)),
    };
    text::label(
        ui,
        value,
        &words,
        &text::Style::new(font, theme::INK, Align2::RIGHT_CENTER),
    );
}
