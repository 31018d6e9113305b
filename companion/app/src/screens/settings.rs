//! Choosing the language, by touch.

use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::state::{Screen, State};
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::{Language, say};
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Ui};

/// Shows the screen in `place`.
pub fn show(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = state.language;
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let head = rest.top(scale.u(52.0));
    rest.top(scale.u(8.0));
    text::label(
        ui,
        head,
        &say!(language, "settings-title"),
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
    let foot = layout::columns(rest.bottom(scale.u(80.0)), 3, gap);
    rest.bottom(gap);
    if let Some(back) = foot.first()
        && BigButton::new(&say!(language, "back"))
            .key(Key::Escape)
            .show(ui, *back)
    {
        intents.push(Intent::Go(Screen::Scale));
    }
    let tiles = layout::columns(rest.top(scale.u(120.0)), Language::ALL.len(), gap);
    for (place, offered) in tiles.into_iter().zip(Language::ALL) {
        let weight = if offered == language {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        // Each by its own name: whoever looks for it reads that one.
        if BigButton::new(offered.own_name())
            .weight(weight)
            .show(ui, place)
        {
            intents.push(Intent::Speak(offered));
        }
    }
    rest.top(gap);
    text::label(
        ui,
        rest.top(scale.u(72.0)),
        &say!(language, "settings-follows"),
        &text::Style::new(scale.plain(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    intents
}
