//! Weighing as one goes: what comes on is taken down by itself and named when
//! there is a hand free.

use super::ingredient::{self, KEYS, Tile};
use super::{buttons, head, words};
use crate::bench_view::{MassView, Of};
use crate::layout::Rest;
use crate::mixing::{CaptureView, Field, Page, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::mass_readout;
use crate::words::{Language, say};
use crate::{text, theme};
use eframe::egui::{Align2, Key, Rect, Ui};
use evenhand_protocol::Mass;

pub(super) fn show(ui: &Ui, place: Rect, view: &CaptureView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    let title = view
        .title
        .as_deref()
        .map_or_else(|| say!(language, "mixing-no-name"), Into::into);
    head(ui, rest.top(scale.u(46.0)), &title, &view.prompt);
    rest.top(scale.u(4.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(10.0));
    let list = rest.right(scale.u(452.0));
    rest.right(scale.u(14.0));
    let mut wishes = lines(ui, list, view);
    let aside = rest.bottom(scale.u(70.0));
    let more = match view.came_meanwhile {
        Some(came) => came_on(came, language),
        None if view.awaits_vessel => say!(language, "walk-vessel-aside").into_owned(),
        None => say!(language, "capture-aside").into_owned(),
    };
    words(ui, aside, &more);
    let readout = MassView {
        caption: say!(language, "capture-just-now").into_owned(),
        shown: view.live,
        interval: view.interval,
        stable: view.stable,
        verdict: None,
        of: Of::Load,
    };
    let tall = rest.0.height().min(scale.u(360.0));
    mass_readout::show(ui, rest.top(tall), &readout, None);
    let (back, name) = (say!(language, "back"), say!(language, "mixing-name-it"));
    let back = (
        BigButton::new(&back).key(Key::Escape),
        Wish::Show(Page::Start),
    );
    let name = (BigButton::new(&name).key(Key::N), Wish::Ask(Field::Title));
    let (stands, done) = (
        say!(language, "walk-as-it-stands"),
        say!(language, "capture-done"),
    );
    let last = if view.awaits_vessel {
        (
            BigButton::new(&stands).key(Key::A).weight(Weight::Main),
            Wish::AsItStands,
        )
    } else {
        (
            BigButton::new(&done).key(Key::Enter).weight(Weight::Main),
            Wish::Finish,
        )
    };
    let (went_in, same) = (
        say!(language, "capture-that-went-in"),
        say!(language, "capture-more-of-the-same"),
    );
    let more = if view.came_meanwhile.is_some_and(|came| !came.is_negative()) {
        (BigButton::new(&went_in).key(Key::W), Wish::ThatWentIn)
    } else {
        (
            BigButton::new(&same)
                .key(Key::M)
                .enabled(view.lines.len() > 1),
            Wish::MoreOfThat,
        )
    };
    wishes.extend(buttons(ui, foot, [back, name, more, last]));
    wishes
}

/// What the scale shows beside what is on record of a batch that was begun
/// before.
fn came_on(came: Mass, language: Language) -> String {
    let mass = language.figure(format!("{:.1} g", came.abs().grams()));
    if came.is_negative() {
        say!(language, "walk-went-off", mass = mass)
    } else {
        say!(language, "capture-came-on", mass = mass)
    }
    .into_owned()
}

/// As many lines as have room; the latest are what a hand is needed for.
const MOST: usize = 7;

fn lines(ui: &Ui, place: Rect, view: &CaptureView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let language = crate::words::of(ui);
    let mut rest = Rest(place);
    let total = rest.bottom(scale.u(36.0));
    text::label(
        ui,
        total,
        &say!(language, "mixing-in-all", total = view.total.as_str()),
        &text::Style::new(scale.plain(24.0), theme::INK, Align2::RIGHT_CENTER),
    );
    let what = say!(language, "capture-what-was-it");
    let skipped = view.lines.len().saturating_sub(MOST);
    let shown = &view.lines[skipped..];
    let gap = scale.u(6.0);
    let height = ((rest.0.height() - gap * MOST as f32) / MOST as f32).max(scale.u(60.0));
    let mut wishes = Vec::new();
    for (line, key) in shown.iter().zip(KEYS) {
        let place = rest.top(height);
        rest.top(gap);
        let tile = Tile {
            name: line.name.as_deref().unwrap_or(&what),
            first: &line.mass,
            second: &line.share,
            verdict: None,
            now: false,
            curing: false,
            key: Some(key),
        };
        let pressed = ingredient::show(ui, place, &tile);
        if pressed {
            wishes.push(Wish::Ask(Field::SlotName(line.slot)));
        }
    }
    wishes
}
