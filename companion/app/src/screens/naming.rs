//! Naming a new dish, by keyboard or by touch.

use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::state::{Screen, State};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::letter_pad;
use crate::words::{self, say};
use eframe::egui::{Align2, Key, Rect, RichText, TextEdit, Ui, UiBuilder, vec2};

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let gap = scale.u(12.0);
    let name = &state.setup.name;
    let mut rest = Rest(place);
    let field = rest.top(scale.u(84.0));
    rest.top(gap);
    let foot = layout::columns(rest.bottom(scale.u(80.0)), 3, gap);
    rest.bottom(gap);
    let mut intents = Vec::new();
    intents.extend(name_field(ui, field, name));
    intents.extend(letter_pad::show(ui, rest.0, name).map(Intent::NameDish));
    let [left, _, right] = foot.as_slice() else {
        return intents;
    };
    if BigButton::new(&say!(language, "back"))
        .key(Key::Escape)
        .show(ui, *left)
    {
        intents.push(Intent::Go(Screen::Dishes));
    }
    if BigButton::new(&say!(language, "next"))
        .key(Key::Enter)
        .weight(Weight::Main)
        .enabled(!name.trim().is_empty())
        .show(ui, *right)
    {
        intents.push(Intent::DishNamed);
    }
    intents
}

fn name_field(ui: &mut Ui, place: Rect, name: &str) -> Option<Intent> {
    let scale = Scale::of(ui);
    let caption = say!(words::of(ui), "naming-field");
    let mut written = name.to_owned();
    let font = scale.heavy(40.0);
    let field = TextEdit::singleline(&mut written)
        .id_salt("dish name")
        .font(font.clone())
        .hint_text(RichText::new(caption.as_ref()).font(font))
        .char_limit(60)
        .margin(vec2(scale.u(16.0), scale.u(10.0)))
        .align(Align2::LEFT_CENTER);
    let response = ui
        .scope_builder(UiBuilder::new().max_rect(place), |ui| {
            ui.add_sized(place.size(), field)
        })
        .inner
        .accessible_name(caption);
    // A keyboard can be used at once.
    if ui.memory(|memory| memory.focused().is_none()) && name.is_empty() {
        response.request_focus();
    }
    (written != name).then_some(Intent::NameDish(written))
}
