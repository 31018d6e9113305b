//! What stands around every screen: the rail on the left; above, the
//! connection and the probe.

use super::bench_view::{LinkView, RunView, Tone};
use super::intent::Intent;
use super::layout::Rest;
use super::practice::PracticeWish;
use super::screens;
use super::state::State;
use super::widgets::big_button::{BigButton, Weight, struck};
use super::widgets::pictogram::{self, Pictogram};
use super::widgets::{connection_banner, temperature_badge};
use super::words::{self, say};
use super::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Role, Sense, Ui, WidgetInfo, vec2};

/// Keys of the rail's items, top to bottom.
const KEYS: [Key; 8] = [
    Key::F1,
    Key::F2,
    Key::F3,
    Key::F4,
    Key::F5,
    Key::F6,
    Key::F7,
    Key::F8,
];

/// Shows everything; returns what was asked for.
pub fn show(ui: &mut Ui, state: &State) -> Vec<Intent> {
    words::speak(ui.ctx(), state.language);
    let whole = ui.ctx().content_rect();
    Scale::within(ui.ctx(), None);
    let (place, mut intents) = screens::practice::frame(ui, whole, &state.kind);
    if place != whole {
        Scale::within(ui.ctx(), Some(place.size()));
    }
    let asked = inside(ui, place, state);
    // A screen that has its own use for the key comes first.
    if state.kind.is_guided() && asked.is_empty() && struck(ui, Key::Escape) {
        intents.push(Intent::Practice(PracticeWish::LeaveGuide));
    }
    intents.extend(asked);
    intents
}

/// The screen with all that belongs to it.
fn inside(ui: &mut Ui, whole: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    ui.painter().rect_filled(whole, 0.0, theme::PAPER);
    let mut rest = Rest(whole);
    if state.far
        && let Some(run) = state.bench.running()
    {
        return from_afar(ui, whole, state, run);
    }
    let mut intents = rail(ui, rest.left(scale.u(112.0)), state);

    rest.0 = rest.0.shrink2(vec2(scale.u(16.0), scale.u(10.0)));
    let mut strip = Rest(rest.top(scale.u(72.0)));
    rest.top(scale.u(6.0));
    let badge = strip.right(scale.u(268.0));
    strip.right(scale.u(12.0));
    intents.extend(top_line(ui, strip, state));
    temperature_badge::show(ui, badge, &state.bench.probe);
    intents.extend(screens::show(ui, rest.0, state));
    intents
}

/// The run without controls, in the whole window. A touch anywhere brings them back and does
/// nothing else; the keys of the rail do as always.
fn from_afar(ui: &Ui, whole: Rect, state: &State, run: &RunView) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let mut intents = Vec::new();
    let words = say!(state.language, "far-controls");
    let near = ui.interact(whole, ui.unique_id().with("far"), Sense::click());
    near.widget_info(|| WidgetInfo::labeled(Role::Button, true, words.as_ref()));
    if near.clicked() || struck(ui, Key::Escape) {
        intents.push(Intent::ComeNear);
    }
    for ((_, screen), key) in screens::RAIL.into_iter().zip(KEYS) {
        if struck(ui, key) {
            intents.push(Intent::Go(screen));
        }
    }
    let mut rest = Rest(whole.shrink2(vec2(scale.u(16.0), scale.u(10.0))));
    if let Some(view) = banner(state) {
        connection_banner::show(ui, rest.top(scale.u(72.0)), &view);
        rest.top(scale.u(6.0));
    }
    screens::bench::show_from_afar(ui, rest.0, &state.bench, run);
    intents
}

/// The line above: what is wrong or has just happened, with the button that takes the latest
/// undoing back; while there is nothing of that, which dish is being portioned.
fn top_line(ui: &Ui, mut place: Rest, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = state.language;
    let mut intents = Vec::new();
    if let Some(undone) = &state.undone {
        let button = place.right(scale.u(190.0));
        place.right(scale.u(12.0));
        if BigButton::new(&say!(language, "button-put-back"))
            .key(Key::B)
            .weight(Weight::Main)
            .show(ui, button)
        {
            intents.push(Intent::PutBack(undone.id));
        }
    }
    match banner(state) {
        Some(view) => connection_banner::show(ui, place.0, &view),
        None => {
            if let Some(run) = state.bench.running() {
                let goal = figures::goal(run.goal, state.bench.mass.interval, language);
                screens::bench::dish_line(ui, place.0, &run.dish, &goal, 36.0);
            }
        }
    }
    intents
}

/// What the line above says, where it has something to say. A stop goes before everything;
/// then why the latest wish came to nothing, and what was undone; then a scale that is not
/// there. What just happened goes before what merely lasts, such as a probe left unplugged.
pub(crate) fn banner(state: &State) -> Option<LinkView> {
    let link = &state.bench.link;
    let absent = link.tone != Tone::Quiet && !state.bench.can.run;
    let undone = state.undone.as_ref().map(|undone| {
        say!(
            state.language,
            "undone",
            number = undone.number.to_string(),
            mass = undone.mass.as_str()
        )
        .into_owned()
    });
    let passing = match (&state.complaint, undone, &state.bench.notice) {
        _ if link.tone == Tone::Stop => None,
        (Some(complaint), _, _) => Some(complaint.clone()),
        (None, Some(undone), _) => Some(undone),
        (None, None, _) if absent => None,
        (None, None, notice) => notice.clone(),
    };
    let view = passing.map_or_else(
        || link.clone(),
        |words| LinkView {
            tone: Tone::Attention,
            words,
        },
    );
    (!view.words.is_empty()).then_some(view)
}

fn rail(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    ui.painter().rect_filled(place, 0.0, theme::SLATE);
    let mut rest = Rest(place);
    let clock = rest.bottom(scale.u(64.0));
    if !state.clock.is_empty() {
        text::label(
            ui,
            clock,
            &state.clock,
            &text::Style::new(scale.heavy(32.0), theme::ON_DARK, Align2::CENTER_CENTER),
        );
    }
    rest.top(scale.u(10.0));
    let here = screens::rail_item(state.screen);
    let gap = scale.u(8.0);
    let tall = (rest.0.height() / screens::RAIL.len() as f32 - gap).min(scale.u(96.0));
    let mut intents = Vec::new();
    for ((picture, screen), key) in screens::RAIL.into_iter().zip(KEYS) {
        let item = rest.top(tall);
        rest.top(gap);
        let words = screens::rail_words(state.language, screen);
        if rail_item(ui, item, &words, picture, screen == here) || struck(ui, key) {
            intents.push(Intent::Go(screen));
        }
    }
    intents
}

fn rail_item(ui: &Ui, place: Rect, words: &str, picture: Pictogram, here: bool) -> bool {
    let scale = Scale::of(ui);
    let response = ui.interact(place, ui.unique_id().with(("rail", words)), Sense::click());
    let spoken = say!(words::of(ui), "rail-spoken", screen = words);
    response.widget_info(|| WidgetInfo::selected(Role::Tab, true, here, spoken.as_ref()));
    let inner = place.shrink2(vec2(scale.u(6.0), 0.0));
    let ink = if here {
        ui.painter()
            .rect_filled(inner, scale.corner(10.0), theme::PAPER);
        theme::INK
    } else {
        theme::ON_DARK
    };
    if response.has_focus() {
        ui.painter().rect_stroke(
            inner,
            scale.corner(10.0),
            scale.stroke(4.0, theme::ATTENTION),
            eframe::egui::StrokeKind::Inside,
        );
    }
    let margin = (inner.height() * 0.104).min(scale.u(10.0));
    let mut inner = Rest(inner.shrink2(vec2(scale.u(4.0), margin)));
    let above = inner.top((inner.0.height() * 0.5).min(scale.u(38.0)));
    pictogram::show(ui.painter(), above, picture, ink);
    text::paint(
        ui,
        inner.0,
        words,
        &text::Style::new(scale.heavy(22.0), ink, Align2::CENTER_BOTTOM),
    );
    response.clicked()
}
