//! Choosing where the scale is: a serial port, or the simulated bench.

use crate::intent::Intent;
use crate::known_weights::{Purpose, WeightWish};
use crate::layout::{self, Rest};
use crate::practice::PracticeWish;
use crate::state::{Screen, State};
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::{self, Language, say};
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Ui};

/// As many of each as fit; a computer in a kitchen has two or three ports.
const MOST: usize = 6;
const ABREAST: usize = 3;

/// Shows the screen in `place`.
pub fn show(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = words::of(ui);
    let places = &state.places;
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let head = rest.top(scale.u(52.0));
    rest.top(scale.u(8.0));
    text::label(
        ui,
        head,
        &say!(language, "scale-title"),
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
    let foot = layout::columns(rest.bottom(scale.u(80.0)), 4, gap);
    rest.bottom(gap);
    if let Some(again) = foot.first()
        && BigButton::new(&say!(language, "scale-look-again"))
            .key(Key::L)
            .show(ui, *again)
    {
        intents.push(Intent::LookForPorts);
    }
    let linked = places.chosen.is_some();
    let flows = [
        (say!(language, "weights-try"), Purpose::Try, Key::T),
        (
            say!(language, "weights-calibrate"),
            Purpose::Calibrate,
            Key::C,
        ),
    ];
    // Whoever cannot read this language finds the word in their own.
    let others: Vec<_> = Language::ALL
        .into_iter()
        .filter(|other| *other != language)
        .map(|other| say!(other, "settings-open"))
        .collect();
    if let Some(place) = foot.get(3)
        && BigButton::new(&say!(language, "settings-open"))
            .detail(&others.join(" \u{b7} "))
            .show(ui, *place)
    {
        intents.push(Intent::Go(Screen::Settings));
    }
    for (place, (words, purpose, key)) in foot.iter().skip(1).zip(flows) {
        if BigButton::new(&words)
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
            &say!(language, "scale-no-port"),
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

    rest.top(gap);
    let mut place = Rest(rest.top(scale.u(96.0)));
    let button = place.0.with_max_x(place.0.left() + place.0.width() * 0.48);
    place.left(button.width() + scale.u(20.0));
    if BigButton::new(&say!(language, "practice-open"))
        .key(Key::P)
        .show(ui, button)
    {
        intents.push(Intent::Practice(PracticeWish::Begin));
    }
    text::label(
        ui,
        place.0,
        &say!(language, "practice-about"),
        &text::Style::new(scale.plain(26.0), theme::INK, Align2::LEFT_CENTER),
    );

    if places.simulated.is_empty() {
        return intents;
    }
    rest.top(gap);
    text::label(
        ui,
        rest.top(scale.u(40.0)),
        &say!(language, "scale-simulated"),
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
