//! Choosing where the scale is: a serial port, or the simulated bench.

use crate::app::intent::Intent;
use crate::app::layout::{self, Rest};
use crate::app::state::State;
use crate::app::widgets::big_button::{BigButton, Weight};
use crate::app::{text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Ui};

/// As many ports as fit; a computer in a kitchen has two or three.
const MOST: usize = 10;

/// Shows the screen in `place`.
pub fn show(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let places = &state.places;
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let head = rest.top(scale.u(52.0));
    rest.top(scale.u(8.0));
    text::label(
        ui,
        head,
        "Where is the scale?",
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
    let foot = layout::columns(rest.bottom(scale.u(80.0)), 3, gap);
    rest.bottom(gap);
    let [again, simulated, _] = foot.as_slice() else {
        return intents;
    };
    if BigButton::new("Look again").key(Key::L).show(ui, *again) {
        intents.push(Intent::LookForPorts);
    }
    if places.simulated
        && BigButton::new("Simulated bench")
            .key(Key::B)
            .show(ui, *simulated)
    {
        intents.push(Intent::UseSimulated);
    }
    if places.ports.is_empty() {
        text::label(
            ui,
            rest.top(scale.u(100.0)),
            "This computer has no serial port at the moment. Plug the scale in, switch it on, and look again.",
            &text::Style::new(scale.plain(30.0), theme::INK, Align2::LEFT_CENTER),
        );
        return intents;
    }
    let rows = places.ports.len().min(MOST).div_ceil(2);
    let grid = rest.top((scale.u(104.0) + gap) * rows as f32 - gap);
    let slots = layout::rows(grid, rows, gap)
        .into_iter()
        .flat_map(|row| layout::columns(row, 2, gap));
    for (slot, port) in slots.zip(places.ports.iter().take(MOST)) {
        let weight = if places.chosen.as_ref() == Some(&port.path) {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        if BigButton::new(&port.path).weight(weight).show(ui, slot) {
            intents.push(Intent::UsePort(port.path.clone()));
        }
    }
    intents
}
