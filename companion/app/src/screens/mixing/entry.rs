//! Words or a number being typed, by keyboard or by touch.

use super::{caption, heading};
use crate::layout::{self, Rest};
use crate::mixing::{EntryKind, EntryView, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::{letter_pad, number_pad};
use crate::words::say;
use eframe::egui::{Align2, Key, Rect, TextEdit, Ui, UiBuilder, vec2};

pub(in crate::screens) fn show(ui: &mut Ui, place: Rect, view: &EntryView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let mut rest = Rest(place);
    heading(ui, rest.top(scale.u(46.0)), &view.caption);
    if !view.hint.is_empty() {
        caption(ui, rest.top(scale.u(34.0)), &view.hint);
    }
    rest.top(scale.u(4.0));
    let mut wishes = Vec::new();
    let tall = if is_long(view) { 108.0 } else { 80.0 };
    let mut line = Rest(rest.top(scale.u(tall)));
    rest.top(gap);
    if !view.unit.is_empty() {
        heading(ui, line.right(scale.u(120.0)), &view.unit);
        line.right(gap);
    }
    wishes.extend(field(ui, line.0, view));
    let foot = layout::columns(rest.bottom(scale.u(76.0)), 3, gap);
    rest.bottom(gap);
    if !view.picks.is_empty() {
        let picks = rest.top(scale.u(68.0));
        rest.top(gap);
        for (place, pick) in layout::columns(picks, view.picks.len().max(4), gap)
            .into_iter()
            .zip(&view.picks)
        {
            if BigButton::new(pick).show(ui, place) {
                wishes.push(Wish::Type(pick.clone()));
                wishes.push(Wish::Enter);
            }
        }
    }
    let typed = match view.kind {
        EntryKind::Words => letter_pad::show(ui, rest.0, &view.text),
        EntryKind::Number => number_pad::show(ui, rest.0, &view.text),
        EntryKind::Time => number_pad::show_time(ui, rest.0, &view.text),
    };
    wishes.extend(typed.map(Wish::Type));
    let language = crate::words::of(ui);
    let [left, _, right] = foot.as_slice() else {
        return wishes;
    };
    if BigButton::new(&say!(language, "entry-leave"))
        .key(Key::Escape)
        .show(ui, *left)
    {
        wishes.push(Wish::Leave);
    }
    if BigButton::new(&say!(language, "entry-enter"))
        .key(Key::Enter)
        .weight(Weight::Main)
        .show(ui, *right)
    {
        wishes.push(Wish::Enter);
    }
    wishes
}

/// A text of more letters than that stands in two lines.
const ONE_LINE: usize = 40;
/// The most letters that are typed: a sentence of how a thing is done.
const LONGEST: usize = 200;

fn is_long(view: &EntryView) -> bool {
    view.kind == EntryKind::Words && view.text.chars().count() > ONE_LINE
}

fn field(ui: &mut Ui, place: Rect, view: &EntryView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut written = view.text.clone();
    let field = if is_long(view) {
        TextEdit::multiline(&mut written)
            .font(scale.plain(21.0))
            .desired_rows(2)
            .return_key(None)
    } else {
        TextEdit::singleline(&mut written).font(scale.heavy(40.0))
    };
    let field = field
        .id_salt(("mixing", &view.caption))
        .char_limit(LONGEST)
        .margin(vec2(scale.u(16.0), scale.u(10.0)))
        .align(Align2::LEFT_CENTER);
    let response = ui
        .scope_builder(UiBuilder::new().max_rect(place), |ui| {
            ui.add_sized(place.size(), field)
        })
        .inner
        .accessible_name(&view.caption);
    // A keyboard can be used at once.
    if ui.memory(|memory| memory.focused().is_none()) && view.text.is_empty() {
        response.request_focus();
    }
    let mut wishes = Vec::new();
    if written != view.text {
        wishes.push(Wish::Type(written));
    }
    // Of several lines the field keeps its keyboard when it is entered.
    if is_long(view) && response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
        wishes.push(Wish::Enter);
    }
    wishes
}
