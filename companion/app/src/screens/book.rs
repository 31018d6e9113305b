//! The book's screens: one that sets things and tells what follows, or a list.

use super::mixing::entry;
use super::mixing::{head, loud, paragraphs, words};
use crate::book::{BookView, BookWish, RowView, Sheet};
use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::state::State;
use crate::theme::{self, Scale};
use crate::widgets::big_button::{BigButton, Weight};
use crate::{mixing::Wish, text};
use eframe::egui::{Align2, Key, Rect, Ui, vec2};

/// Shows the book's screen that the state names in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let BookView { entry, sheet, .. } = &state.book;
    let wishes = match entry {
        Some(view) => entry::show(ui, place, view)
            .into_iter()
            .filter_map(|wish| match wish {
                Wish::Type(text) => Some(BookWish::Type(text)),
                Wish::Enter => Some(BookWish::Enter),
                Wish::Leave => Some(BookWish::Leave),
                _ => None,
            })
            .collect(),
        None => a_sheet(ui, place, sheet),
    };
    wishes.into_iter().map(Intent::Book).collect()
}

fn a_sheet(ui: &Ui, place: Rect, sheet: &Sheet) -> Vec<BookWish> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let mut rest = Rest(place);
    head(ui, rest.top(scale.u(46.0)), &sheet.heading, &sheet.prompt);
    rest.top(scale.u(6.0));
    let mut wishes = foot(ui, rest.bottom(scale.u(76.0)), sheet);
    rest.bottom(gap);
    if let Some(why) = &sheet.loud {
        loud(ui, rest.top(scale.u(84.0)), why);
        rest.top(gap);
    }
    if !sheet.fields.is_empty() {
        let beside = !sheet.lines.is_empty() || !sheet.rows.is_empty();
        let across = if !beside || sheet.fields.len() > 14 {
            3
        } else {
            2
        };
        let width = rest.0.width() * if beside { 0.5 } else { 1.0 };
        let left = rest.left(width);
        rest.left(scale.u(18.0));
        wishes.extend(fields(ui, left, sheet, across));
    }
    let mut listed = rest.0;
    if !sheet.lines.is_empty() {
        let under_rows = if sheet.rows.is_empty() { 1.0 } else { 0.34 };
        let lines = rest.bottom(rest.0.height() * under_rows);
        paragraphs(ui, lines, &sheet.lines, 26.0);
        listed = rest.0;
    }
    let mut list = Rest(listed);
    for row in &sheet.rows {
        if list.0.height() < scale.u(66.0) {
            words(ui, list.0, "\u{2026}");
            break;
        }
        let place = list.top(scale.u(66.0));
        list.top(scale.u(6.0));
        if a_row(ui, place, row) {
            wishes.push(row.wish.clone());
        }
    }
    wishes
}

fn fields(ui: &Ui, place: Rect, sheet: &Sheet, across: usize) -> Vec<BookWish> {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let down = sheet.fields.len().div_ceil(across).max(1);
    let most = scale.u(92.0) * down as f32 + gap * (down as f32 - 1.0);
    let place = place.with_max_y(place.top() + place.height().min(most));
    let mut wishes = Vec::new();
    for (row, fields) in layout::rows(place, down, gap)
        .into_iter()
        .zip(sheet.fields.chunks(across))
    {
        for (place, field) in layout::columns(row, across, gap).into_iter().zip(fields) {
            let spoken = if field.caption.is_empty() {
                field.value.clone()
            } else {
                format!("{}: {}", field.caption, field.value)
            };
            let weight = if field.chosen {
                Weight::Chosen
            } else {
                Weight::Plain
            };
            let button = BigButton::new(&field.value).weight(weight).spoken(&spoken);
            let button = if field.caption.is_empty() {
                button
            } else {
                button.detail(&field.caption)
            };
            if button.show(ui, place) {
                wishes.push(field.wish.clone());
            }
        }
    }
    wishes
}

fn foot(ui: &Ui, place: Rect, sheet: &Sheet) -> Vec<BookWish> {
    let scale = Scale::of(ui);
    layout::columns(place, sheet.foot.len(), scale.u(10.0))
        .into_iter()
        .zip(&sheet.foot)
        .enumerate()
        .filter_map(|(nth, (place, foot))| {
            let mut button = BigButton::new(&foot.words).enabled(foot.enabled);
            if nth == 0 {
                button = button.key(Key::Escape);
            }
            if foot.main {
                button = button.key(Key::Enter).weight(Weight::Main);
            }
            button.show(ui, place).then(|| foot.wish.clone())
        })
        .collect()
}

fn a_row(ui: &Ui, place: Rect, row: &RowView) -> bool {
    let scale = Scale::of(ui);
    let pressed = BigButton::new("")
        .spoken(&format!("{}: {}", row.name, row.about))
        .show(ui, place);
    let mut rest = Rest(place.shrink2(vec2(scale.u(14.0), scale.u(6.0))));
    let left = rest.left(rest.0.width() * 0.4);
    rest.left(scale.u(10.0));
    text::paint(
        ui,
        left,
        &row.name,
        &text::Style::new(scale.heavy(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    text::paint(
        ui,
        rest.0,
        &row.about,
        &text::Style::new(scale.plain(24.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    pressed
}
