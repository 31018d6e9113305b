//! The ratio on the scale: what to pour now, how far it is, what all the
//! others are. Legible from two metres; nothing on it needs touching from the
//! vessel to the last ingredient.

use super::ingredient::{self, KEYS, Tile};
use super::{buttons, head, loud, paragraphs, words};
use crate::bench_view::{MassView, Of};
use crate::layout::Rest;
use crate::mixing::{Field, FinishView, LabelView, Page, PouringView, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::{approach_track, mass_readout};
use crate::words::say;
use crate::{text, theme};
use eframe::egui::{Align2, Key, Rect, StrokeKind, Ui, vec2};

pub(super) fn show(ui: &Ui, place: Rect, view: &PouringView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let mut rest = Rest(place);
    head(ui, rest.top(scale.u(46.0)), &view.title, &view.prompt);
    rest.top(scale.u(4.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(gap);
    let list = rest.right(scale.u(452.0));
    rest.right(scale.u(14.0));
    let mut wishes = ingredients(ui, list, view);
    match (&view.label, &view.finish) {
        (Some(label), _) => held(ui, rest.0, label),
        (None, Some(finish)) => finished(ui, rest.0, finish),
        (None, None) => pouring(ui, rest.0, view),
    }
    wishes.extend(foot_buttons(ui, foot, view));
    wishes
}

fn ingredients(ui: &Ui, place: Rect, view: &PouringView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let total = rest.bottom(scale.u(36.0));
    text::label(
        ui,
        total,
        &view.total,
        &text::Style::new(scale.plain(24.0), theme::INK, Align2::RIGHT_CENTER),
    );
    let count = view.lines.len().max(1) as f32;
    let gap = scale.u(6.0);
    let height = ((rest.0.height() - gap * count) / count).min(scale.u(92.0));
    let language = crate::words::of(ui);
    let mut wishes = Vec::new();
    for (nth, line) in view.lines.iter().enumerate() {
        let place = rest.top(height);
        rest.top(gap);
        let second = if line.target.is_empty() {
            String::new()
        } else {
            say!(language, "walk-of", mass = line.target.as_str()).into_owned()
        };
        let tile = Tile {
            name: &line.name,
            first: &line.poured,
            second: &second,
            verdict: line.verdict,
            now: line.now,
            curing: line.curing,
            key: KEYS.get(nth).copied(),
        };
        if ingredient::show(ui, place, &tile) {
            wishes.push(if view.mistaken || view.came_meanwhile {
                Wish::ThatWas(nth)
            } else {
                Wish::Choose(nth)
            });
        }
    }
    wishes
}

fn pouring(ui: &Ui, place: Rect, view: &PouringView) {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let notices: Vec<&String> = view.notices.iter().take(3).collect();
    for notice in notices.iter().rev() {
        loud(ui, rest.bottom(scale.u(62.0)), notice);
        rest.bottom(scale.u(6.0));
    }
    let language = crate::words::of(ui);
    let aside = if view.mistaken {
        say!(language, "walk-what-was-it")
    } else {
        view.aside.as_str().into()
    };
    words(ui, rest.bottom(scale.u(66.0)), &aside);
    rest.bottom(scale.u(4.0));
    if let Some(goal) = view.goal {
        let track = rest.bottom(scale.u(126.0));
        rest.bottom(scale.u(2.0));
        let amount = view.so_far.zip(view.verdict);
        approach_track::show(ui, track, goal, amount, view.interval);
    }
    let readout = MassView {
        caption: if view.awaits_vessel {
            say!(language, "walk-no-vessel-yet")
        } else {
            say!(language, "walk-poured")
        }
        .into_owned(),
        shown: view.so_far,
        interval: view.interval,
        stable: view.stable,
        verdict: view.verdict,
        of: Of::Load,
    };
    let tall = rest.0.height().min(scale.u(330.0));
    mass_readout::show(ui, rest.top(tall), &readout, view.goal);
}

/// Something stands in the way: large, in words.
fn held(ui: &Ui, place: Rect, label: &LabelView) {
    let scale = Scale::of(ui);
    ui.painter().rect(
        place,
        scale.corner(14.0),
        theme::ATTENTION,
        scale.stroke(6.0, theme::INK),
        StrokeKind::Inside,
    );
    text::label(
        ui,
        place.shrink(scale.u(30.0)),
        &label.words,
        &text::Style::new(scale.heavy(38.0), theme::INK, Align2::LEFT_CENTER),
    );
}

fn finished(ui: &Ui, place: Rect, finish: &FinishView) {
    let scale = Scale::of(ui);
    ui.painter().rect(
        place,
        scale.corner(14.0),
        theme::SURFACE,
        scale.stroke(2.0, theme::EDGE),
        StrokeKind::Inside,
    );
    let mut rest = Rest(place.shrink2(vec2(scale.u(20.0), scale.u(14.0))));
    for why in finish.not_ready.iter().take(3) {
        loud(ui, rest.top(scale.u(96.0)), why);
        rest.top(scale.u(8.0));
    }
    paragraphs(ui, rest.0, &finish.found, 26.0);
}

fn foot_buttons(ui: &Ui, place: Rect, view: &PouringView) -> Vec<Wish> {
    let language = crate::words::of(ui);
    let (put_away, back) = (say!(language, "walk-put-away"), say!(language, "back"));
    let away = (BigButton::new(&put_away).key(Key::Delete), Wish::Abandon);
    let back = (
        BigButton::new(&back).key(Key::Escape),
        Wish::Show(Page::Start),
    );
    if let Some(label) = &view.label {
        let words = say!(language, "walk-read-the-label");
        let read = (
            BigButton::new(&words)
                .key(Key::L)
                .weight(Weight::Main)
                .enabled(label.can_confirm),
            Wish::Ask(Field::LabelAgain),
        );
        return buttons(ui, place, [back, away, read]);
    }
    if let Some(finish) = &view.finish {
        let words = say!(language, "walk-mark-ready");
        let ready = (
            BigButton::new(&words)
                .key(Key::Enter)
                .weight(Weight::Main)
                .enabled(finish.not_ready.is_empty()),
            Wish::Finish,
        );
        return buttons(ui, place, [back, away, ready]);
    }
    if view.awaits_vessel {
        let words = say!(language, "walk-as-it-stands");
        let stands = (
            BigButton::new(&words).key(Key::A).weight(Weight::Main),
            Wish::AsItStands,
        );
        return buttons(ui, place, [back, away, stands]);
    }
    let (another, took_out, on) = (
        say!(language, "walk-that-was-another"),
        say!(language, "walk-took-some-out"),
        say!(language, "walk-go-on"),
    );
    let mistaken = (
        BigButton::new(&another)
            .key(Key::M)
            .weight(if view.mistaken {
                Weight::Chosen
            } else {
                Weight::Plain
            }),
        Wish::Mistaken,
    );
    let take_out = (BigButton::new(&took_out).key(Key::O), Wish::TakenOut);
    let go_on = (
        BigButton::new(&on).key(Key::Enter).weight(Weight::Main),
        Wish::GoOn,
    );
    if view.can_take_out {
        buttons(ui, place, [back, away, mistaken, take_out, go_on])
    } else {
        buttons(ui, place, [back, away, mistaken, go_on])
    }
}
