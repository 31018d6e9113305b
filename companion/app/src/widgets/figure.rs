//! One figure with its caption.

use crate::layout::Rest;
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Rect, Ui};

/// Shows a caption, a figure and, where there is one, a line below it.
pub fn show(ui: &Ui, place: Rect, caption: &str, value: &str, below: Option<&str>) {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let above = rest.top(scale.u(26.0));
    text::label(
        ui,
        above,
        caption,
        &text::Style::new(scale.plain(22.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    let figure = match below {
        Some(words) => {
            let line = rest.bottom(rest.0.height() * 0.46);
            text::label(
                ui,
                line,
                words,
                &text::Style::new(scale.plain(25.0), theme::INK, Align2::LEFT_CENTER),
            );
            rest.0
        }
        None => rest.0,
    };
    text::label(
        ui,
        figure,
        value,
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
}
