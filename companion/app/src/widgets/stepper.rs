//! A mass to set with big minus and plus buttons.

use super::big_button::BigButton;
use crate::words::{self, Language, say};
use crate::{figures, layout, text, theme, theme::Scale};
use eframe::egui::{Align2, Rect, StrokeKind, Ui};
use evenhand_protocol::Mass;

/// A mass and the steps it can be changed by, smallest first.
#[derive(Debug, Clone, Copy)]
pub struct Stepper<'a> {
    /// What is set.
    pub caption: &'a str,
    /// Its value in words.
    pub value: &'a str,
    /// The steps; each gets a minus and a plus button.
    pub steps: &'a [Mass],
}

impl Stepper<'_> {
    /// Shows it in `place`; returns the change asked for.
    pub fn show(self, ui: &Ui, place: Rect) -> Option<Mass> {
        let scale = Scale::of(ui);
        let gap = scale.u(8.0);
        let mut rest = layout::Rest(place);
        let caption = rest.top(scale.u(32.0));
        text::label(
            ui,
            caption,
            self.caption,
            &text::Style::new(scale.plain(26.0), theme::SOFT_INK, Align2::LEFT_CENTER),
        );
        let side = self.steps.len() as f32 * (scale.u(92.0) + gap);
        let down = rest.left(side);
        let up = rest.right(side);
        ui.painter().rect(
            rest.0,
            scale.corner(10.0),
            theme::SURFACE,
            scale.stroke(2.0, theme::FAINT),
            StrokeKind::Inside,
        );
        text::label(
            ui,
            rest.0.shrink(scale.u(6.0)),
            self.value,
            &text::Style::new(scale.heavy(54.0), theme::INK, Align2::CENTER_CENTER),
        );
        let language = words::of(ui);
        let mut change = None;
        let down = layout::columns(down.with_max_x(down.right() - gap), self.steps.len(), gap);
        let up = layout::columns(up.with_min_x(up.left() + gap), self.steps.len(), gap);
        for (place, step) in down.into_iter().zip(self.steps.iter().rev()) {
            let words = format!("\u{2212}{}", step_words(*step, language));
            let spoken = say!(
                language,
                "setup-step",
                what = self.caption,
                by = words.as_str()
            );
            if BigButton::new(&words).spoken(&spoken).show(ui, place) {
                change = Some(-*step);
            }
        }
        for (place, step) in up.into_iter().zip(self.steps) {
            let words = format!("+{}", step_words(*step, language));
            let spoken = say!(
                language,
                "setup-step",
                what = self.caption,
                by = words.as_str()
            );
            if BigButton::new(&words).spoken(&spoken).show(ui, place) {
                change = Some(*step);
            }
        }
        change
    }
}

/// The step in grams with no more decimals than it needs.
fn step_words(step: Mass, language: Language) -> String {
    figures::bare(step, step, language)
}
