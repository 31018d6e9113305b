//! Mixing by weight: one file a page. What stands on them is worked out in
//! [`crate::mixing`].

mod batch;
mod batches;
mod book;
mod brine;
mod capture;
mod compare;
mod cure;
pub(super) mod entry;
mod ingredient;
mod pouring;
mod recipe_draft;
mod start;
mod vessels;

use crate::book::BookWish;
use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::mixing::{Page, Wish};
use crate::state::State;
use crate::widgets::big_button::BigButton;
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Rect, Ui};

/// Shows the page that the state names in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let mix = &state.mix;
    let wishes = match &mix.entry {
        Some(view) => entry::show(ui, place, view),
        None => match mix.page {
            Page::Start => start::show(ui, place, mix),
            Page::RecipeDraft => recipe_draft::show(ui, place, &mix.recipe_draft),
            Page::Cure => cure::show(ui, place, &mix.recipe_draft),
            Page::Pouring => mix
                .pouring
                .as_ref()
                .map_or_else(Vec::new, |view| pouring::show(ui, place, view)),
            Page::Capture => mix
                .capture
                .as_ref()
                .map_or_else(Vec::new, |view| capture::show(ui, place, view)),
            Page::Book => book::show(ui, place, mix),
            Page::Batches => batches::show(ui, place, mix),
            Page::Batch => mix
                .batch
                .as_ref()
                .map_or_else(Vec::new, |view| batch::show(ui, place, view)),
            Page::Compare => mix
                .compare
                .as_ref()
                .map_or_else(Vec::new, |view| compare::show(ui, place, view)),
            Page::Brine => brine::show(ui, place, mix),
            Page::Vessels => vessels::show(ui, place, &mix.vessels),
        },
    };
    wishes
        .into_iter()
        .map(|wish| match wish {
            Wish::OpenBook(page) => Intent::Book(BookWish::Show(page)),
            wish => Intent::Mix(wish),
        })
        .collect()
}

/// A heading on the left, and what is to be done on the right.
pub(super) fn head(ui: &Ui, place: Rect, title: &str, prompt: &str) {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let left = rest.left(rest.0.width() * if prompt.is_empty() { 1.0 } else { 0.44 });
    heading(ui, left, title);
    if !prompt.is_empty() {
        text::label(
            ui,
            rest.0,
            prompt,
            &text::Style::new(scale.heavy(36.0), theme::INK, Align2::RIGHT_CENTER),
        );
    }
}

fn heading(ui: &Ui, place: Rect, title: &str) {
    let scale = Scale::of(ui);
    text::label(
        ui,
        place,
        title,
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
}

fn caption(ui: &Ui, place: Rect, words: &str) {
    let scale = Scale::of(ui);
    text::label(
        ui,
        place,
        words,
        &text::Style::new(scale.plain(25.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
}

pub(super) fn words(ui: &Ui, place: Rect, words: &str) {
    let scale = Scale::of(ui);
    text::label(
        ui,
        place,
        words,
        &text::Style::new(scale.plain(27.0), theme::INK, Align2::LEFT_CENTER),
    );
}

/// Small print: sources and cautions, which are long.
fn small(ui: &Ui, place: Rect, words: &str) {
    small_of(ui, place, words, 21.0);
}

/// Small words of a size in units.
fn small_of(ui: &Ui, place: Rect, words: &str, size: f32) {
    let scale = Scale::of(ui);
    text::label(
        ui,
        place,
        words,
        &text::Style::new(scale.plain(size), theme::SOFT_INK, Align2::LEFT_TOP),
    );
}

/// Lines of different length below one another, each with room in proportion.
pub(super) fn paragraphs(ui: &Ui, place: Rect, lines: &[String], size: f32) {
    let scale = Scale::of(ui);
    let line = scale.u(size * 1.45);
    // Letters of this face are half as wide as they are high, give or take.
    let across = (place.width() / scale.u(size * 0.5)).max(1.0);
    let rows = |words: &String| (words.chars().count() as f32 / across).ceil().max(1.0) + 0.35;
    let all: f32 = lines.iter().map(rows).sum();
    let height = (place.height() / all.max(1.0)).min(line);
    let mut rest = Rest(place);
    for words in lines {
        text::label(
            ui,
            rest.top(height * rows(words)),
            words,
            &text::Style::new(scale.plain(size), theme::INK, Align2::LEFT_CENTER),
        );
    }
}

/// Words on a fill of their own, for what must be seen.
pub(super) fn loud(ui: &Ui, place: Rect, words: &str) {
    let scale = Scale::of(ui);
    ui.painter()
        .rect_filled(place, scale.corner(8.0), theme::ATTENTION);
    text::label(
        ui,
        place.shrink2(eframe::egui::vec2(scale.u(12.0), scale.u(4.0))),
        words,
        &text::Style::new(scale.heavy(26.0), theme::INK, Align2::LEFT_CENTER),
    );
}

/// Buttons side by side in equal places.
fn buttons<'a>(
    ui: &Ui,
    place: Rect,
    buttons: impl IntoIterator<Item = (BigButton<'a>, Wish)>,
) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let buttons: Vec<_> = buttons.into_iter().collect();
    layout::columns(place, buttons.len(), scale.u(10.0))
        .into_iter()
        .zip(buttons)
        .filter_map(|(place, (button, wish))| button.show(ui, place).then_some(wish))
        .collect()
}
