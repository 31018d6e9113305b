//! The guided flows with known weights: big words, one thing at a time.

use crate::intent::Intent;
use crate::known_weights::{CLASSES, Purpose, WEIGHTS, WeightFlow, WeightStep, WeightWish};
use crate::layout::{self, Rest};
use crate::state::State;
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::mass_readout;
use crate::words::{self, Language, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Ui};
use evenhand_protocol::Mass;
use std::borrow::Cow;

/// Shows the screen in `place`.
pub fn show(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let flow = &state.weights;
    match &flow.stage {
        WeightStep::Choosing => choosing(ui, place, state, flow),
        WeightStep::Placing(step) => placing(ui, place, state, *step, false),
        WeightStep::Waiting(step) => placing(ui, place, state, *step, true),
        WeightStep::Done(words, good) => done(ui, place, flow, words, *good),
    }
}

fn title(purpose: Purpose, language: Language) -> Cow<'static, str> {
    match purpose {
        Purpose::Try => say!(language, "weights-title-try"),
        Purpose::Calibrate => say!(language, "weights-title-calibrate"),
    }
}

/// A line of words, so many units high.
fn line(ui: &Ui, rest: &mut Rest, height: f32, size: f32, heavy: bool, words: &str) {
    let scale = Scale::of(ui);
    let font = if heavy {
        scale.heavy(size)
    } else {
        scale.plain(size)
    };
    let style = text::Style::new(font, theme::INK, Align2::LEFT_CENTER);
    text::label(ui, rest.top(scale.u(height)), words, &style);
}

const fn wish(wish: WeightWish) -> Intent {
    Intent::Weights(wish)
}

/// The two ways on at the foot of the screen.
fn foot(ui: &Ui, rest: &mut Rest, back: &str, on: Option<(&str, WeightWish, bool)>) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let places = layout::columns(rest.bottom(scale.u(96.0)), 2, scale.u(12.0));
    rest.bottom(scale.u(12.0));
    let mut intents = Vec::new();
    let [left, right] = places.as_slice() else {
        return intents;
    };
    if BigButton::new(back).key(Key::Escape).show(ui, *left) {
        intents.push(wish(WeightWish::Leave));
    }
    if let Some((words, next, enabled)) = on
        && BigButton::new(words)
            .key(Key::Enter)
            .weight(Weight::Main)
            .enabled(enabled)
            .show(ui, *right)
    {
        intents.push(wish(next));
    }
    intents
}

fn choosing(ui: &Ui, place: Rect, state: &State, flow: &WeightFlow) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = words::of(ui);
    let mut rest = Rest(place);
    line(
        ui,
        &mut rest,
        56.0,
        36.0,
        true,
        &title(flow.purpose, language),
    );
    let busy =
        flow.purpose == Purpose::Calibrate && state.bench.can.run && !state.bench.can.calibrate;
    let ready = !flow.weights.is_empty() && !busy;
    let mut intents = foot(
        ui,
        &mut rest,
        &say!(language, "back"),
        Some((&say!(language, "weights-begin"), WeightWish::Begin, ready)),
    );
    let question = match flow.purpose {
        Purpose::Try => say!(language, "weights-which-try"),
        Purpose::Calibrate => say!(language, "weights-which-calibrate"),
    };
    line(ui, &mut rest, 44.0, 28.0, false, &question);
    // None that the scale may not weigh.
    let offered: Vec<Mass> = WEIGHTS
        .into_iter()
        .filter(|mass| state.bench.capacity.is_none_or(|most| *mass <= most))
        .collect();
    for row in offered.chunks(3) {
        let tiles = layout::columns(rest.top(scale.u(90.0)), 3, gap);
        rest.top(gap);
        for (tile, mass) in tiles.into_iter().zip(row) {
            let words = figures::grams(*mass, Mass::from_grams(1), language);
            let weight = chosen(flow.weights.contains(mass));
            if BigButton::new(&words).weight(weight).show(ui, tile) {
                intents.push(wish(WeightWish::Toggle(*mass)));
            }
        }
    }
    line(
        ui,
        &mut rest,
        44.0,
        28.0,
        false,
        &say!(language, "weights-class"),
    );
    let tiles = layout::columns(rest.top(scale.u(80.0)), CLASSES.len(), gap);
    for (nth, (tile, (_, words))) in tiles.into_iter().zip(CLASSES).enumerate() {
        let weight = chosen(nth == flow.class);
        if BigButton::new(words).weight(weight).show(ui, tile) {
            intents.push(wish(WeightWish::Class(nth)));
        }
    }
    if busy {
        line(
            ui,
            &mut rest,
            44.0,
            28.0,
            false,
            &say!(language, "weights-run-going-on"),
        );
    }
    intents
}

const fn chosen(yes: bool) -> Weight {
    if yes { Weight::Chosen } else { Weight::Plain }
}

fn placing(ui: &Ui, place: Rect, state: &State, step: usize, waits: bool) -> Vec<Intent> {
    let flow = &state.weights;
    let language = words::of(ui);
    let mut rest = Rest(place);
    line(
        ui,
        &mut rest,
        56.0,
        36.0,
        true,
        &title(flow.purpose, language),
    );
    let words = match (waits, step) {
        (true, _) => say!(language, "weights-wait"),
        (false, 0) => say!(language, "weights-empty"),
        (false, _) => say!(language, "weights-on"),
    };
    let intents = foot(
        ui,
        &mut rest,
        &say!(language, "weights-give-up"),
        Some((&words, WeightWish::Placed, !waits)),
    );
    let steps = say!(
        language,
        "weights-step",
        step = step + 1,
        steps = flow.weights.len() + 1
    );
    line(ui, &mut rest, 48.0, 30.0, false, &steps);
    let what = match flow.step(step) {
        Some(weight) if weight.mass > Mass::ZERO => {
            let mass = figures::grams(weight.mass, Mass::from_grams(1), language);
            say!(language, "weights-put-on", mass = mass)
        }
        _ => say!(language, "weights-empty-pan"),
    };
    line(ui, &mut rest, 112.0, 84.0, true, &what);
    let detail = if step == 0 {
        say!(language, "weights-nothing-on")
    } else {
        say!(language, "weights-in-the-middle")
    };
    line(ui, &mut rest, 52.0, 32.0, false, &detail);
    // What the scale reads meanwhile, so that it is seen to be empty, loaded and at rest.
    let gap = Scale::of(ui).u(8.0);
    rest.top(gap);
    mass_readout::show(ui, rest.0, &state.bench.mass, None);
    intents
}

fn done(ui: &Ui, place: Rect, flow: &WeightFlow, found: &[String], good: bool) -> Vec<Intent> {
    let language = words::of(ui);
    let mut rest = Rest(place);
    line(
        ui,
        &mut rest,
        56.0,
        36.0,
        true,
        &title(flow.purpose, language),
    );
    let again = WeightWish::Choose(flow.purpose);
    let words = say!(language, "weights-again");
    let on = (!good).then_some((words.as_ref(), again, true));
    let intents = foot(ui, &mut rest, &say!(language, "back"), on);
    // One sentence a line: each is read by itself.
    let sentences: Vec<&str> = found
        .iter()
        .flat_map(|line| line.split_inclusive(". "))
        .collect();
    let most = rest.0.height() / Scale::of(ui).u(1.0) / sentences.len().max(1) as f32;
    for sentence in sentences {
        line(
            ui,
            &mut rest,
            most.min(72.0),
            40.0,
            true,
            sentence.trim_end(),
        );
    }
    intents
}
