//! Choosing where the scale is: a serial port, or the simulated bench.

use crate::intent::Intent;
use crate::known_weights::{Purpose, WeightWish};
use crate::layout::{self, Rest};
use crate::state::State;
use crate::widgets::big_button::{BigButton, Weight};
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Ui};

/// As many of each as fit; a computer in a kitchen has two or three ports.
const MOST: usize = 6;
const ABREAST: usize = 3;

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
    if let Some(again) = foot.first()
        && BigButton::new("Look again").key(Key::L).show(ui, *again)
    {
        intents.push(Intent::LookForPorts);
    }
    let linked = places.chosen.is_some();
    let flows = [
        ("Try it with a weight", Purpose::Try, Key::T),
        ("Calibrate it", Purpose::Calibrate, Key::C),
    ];
    for (place, (words, purpose, key)) in foot.iter().skip(1).zip(flows) {
        if BigButton::new(words)
            .key(key)
            .enabled(linked)
            .show(ui, *place)
        {
            intents.push(Intent::Weights(WeightWish::Choose(purpose)));
        }
    }

    if places.ports.is_empty() {
        text::label(
            ui,
            rest.top(scale.u(84.0)),
            "This computer has no serial port at the moment. Plug the scale in, switch it on, and look again.",
            &text::Style::new(scale.plain(30.0), theme::INK, Align2::LEFT_CENTER),
        );
    }
    let ports: Vec<&str> = places
        .ports
        .iter()
        .take(MOST)
        .map(|port| port.path.as_str())
        .collect();
    let chosen = |name: &str| places.chosen.as_deref() == Some(name);
    let pressed = tiles(ui, &mut rest, &ports, chosen);
    intents.extend(
        pressed
            .and_then(|nth| ports.get(nth))
            .map(|port| Intent::UsePort((*port).to_owned())),
    );

    if places.simulated.is_empty() {
        return intents;
    }
    rest.top(gap);
    text::label(
        ui,
        rest.top(scale.u(40.0)),
        "Or try it on a simulated bench:",
        &text::Style::new(scale.plain(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    let titles: Vec<&str> = places
        .simulated
        .iter()
        .take(MOST)
        .map(String::as_str)
        .collect();
    let pressed = tiles(ui, &mut rest, &titles, |_| false);
    intents.extend(pressed.map(Intent::UseSimulated));
    intents
}

/// Tiles three abreast; returns which was pressed.
fn tiles(ui: &Ui, rest: &mut Rest, words: &[&str], chosen: impl Fn(&str) -> bool) -> Option<usize> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let mut pressed = None;
    for (row, words) in words.chunks(ABREAST).enumerate() {
        let place = rest.top(scale.u(84.0));
        rest.top(gap);
        for (nth, (place, words)) in layout::columns(place, ABREAST, gap)
            .into_iter()
            .zip(words)
            .enumerate()
        {
            let weight = if chosen(words) {
                Weight::Chosen
            } else {
                Weight::Plain
            };
            if BigButton::new(words).weight(weight).show(ui, place) {
                pressed = Some(row * ABREAST + nth);
            }
        }
    }
    pressed
}
