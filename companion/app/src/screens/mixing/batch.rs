//! One batch: what is in it, what is due, how it came out; and mixing it again
//! a little changed, in one press.

use super::{buttons, caption, head, loud, paragraphs, words};
use crate::layout::{self, Rest};
use crate::mixing::{BatchView, Field, Page, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::say;
use crate::{text, theme};
use eframe::egui::{Align2, Key, Rect, Ui};

/// By how many per cent an ingredient changes in one press.
const STEP: i8 = 5;

pub(super) fn show(ui: &Ui, place: Rect, view: &BatchView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    let title = say!(
        language,
        "batch-title",
        title = view.title.as_str(),
        id = view.id.to_string(),
    );
    head(ui, rest.top(scale.u(46.0)), &title, &view.about);
    rest.top(scale.u(4.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(6.0));
    let above = rest.bottom(scale.u(72.0));
    rest.bottom(gap);
    let right = rest.right(rest.0.width() * 0.545);
    rest.right(scale.u(14.0));
    let mut wishes = ingredients(ui, rest.0, view);
    wishes.extend(standing(ui, right, view));
    wishes.extend(doings(ui, above, view));
    wishes.extend(buttons(
        ui,
        foot,
        [
            (
                BigButton::new(&say!(language, "back")).key(Key::Escape),
                Wish::Show(Page::Batches),
            ),
            (
                BigButton::new(&say!(language, "mixing-name-it")).key(Key::N),
                Wish::Ask(Field::Title),
            ),
            (
                BigButton::new(&say!(language, "batch-note")).key(Key::E),
                Wish::Ask(Field::Note),
            ),
            (
                BigButton::new(&say!(language, "batch-side-by-side"))
                    .key(Key::C)
                    .enabled(view.of_title > 1),
                Wish::Compare,
            ),
            (
                BigButton::new(&say!(language, "batch-mix-again"))
                    .key(Key::Enter)
                    .weight(Weight::Main),
                Wish::Again,
            ),
        ],
    ));
    wishes
}

/// What is done with it: turned, out, planned, dried, weighed, stored.
fn doings(ui: &Ui, place: Rect, view: &BatchView) -> Vec<Wish> {
    let language = crate::words::of(ui);
    let log = if view.logs_store {
        say!(language, "batch-stop-log")
    } else {
        say!(language, "batch-log-store")
    };
    let (weigh, to_dry) = (
        say!(language, "batch-weigh-again"),
        say!(language, "batch-to-dry"),
    );
    let (dry, wish) = if view.drying {
        (&weigh, Wish::Reweigh)
    } else {
        (&to_dry, Wish::Ask(Field::Loss))
    };
    let dry = (
        BigButton::new(dry)
            .key(Key::W)
            .enabled(view.on_scale.is_some()),
        wish,
    );
    buttons(
        ui,
        place,
        [
            (
                BigButton::new(&say!(language, "batch-due")).key(Key::D),
                Wish::Ask(Field::DueIn),
            ),
            (
                BigButton::new(&say!(language, "batch-turned"))
                    .key(Key::T)
                    .enabled(view.planned),
                Wish::Turned,
            ),
            (
                BigButton::new(&say!(language, "batch-out"))
                    .key(Key::O)
                    .enabled(view.planned),
                Wish::CameOut,
            ),
            dry,
            (
                BigButton::new(&log)
                    .key(Key::L)
                    .enabled(view.logs_store || view.probe)
                    .weight(if view.logs_store {
                        Weight::Chosen
                    } else {
                        Weight::Plain
                    }),
                Wish::LogStore,
            ),
        ],
    )
}

fn ingredients(ui: &Ui, place: Rect, view: &BatchView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(6.0);
    let language = crate::words::of(ui);
    let mut rest = Rest(place);
    caption(
        ui,
        rest.top(scale.u(30.0)),
        &say!(language, "batch-again-with"),
    );
    let mut wishes = Vec::new();
    for (nth, (name, mass, share)) in view.ingredients.iter().enumerate() {
        if rest.0.height() < scale.u(64.0) {
            break;
        }
        let mut row = Rest(rest.top(scale.u(64.0)));
        rest.top(gap);
        let more = row.right(scale.u(76.0));
        row.right(gap);
        let less = row.right(scale.u(76.0));
        row.right(gap);
        for (place, by) in [(less, -STEP), (more, STEP)] {
            let words = if by < 0 {
                format!("\u{2212}{STEP} %")
            } else {
                format!("+{STEP} %")
            };
            let spoken = say!(
                language,
                "batch-again-spoken",
                change = words.as_str(),
                name = name.as_str(),
            );
            if BigButton::new(&words).spoken(&spoken).show(ui, place) {
                wishes.push(Wish::AgainWith(nth, by));
            }
        }
        let figures = row.right(scale.u(140.0));
        row.right(gap);
        let (above, below) = figures.split_top_bottom_at_fraction(0.54);
        text::label(
            ui,
            above,
            mass,
            &text::Style::new(scale.heavy(26.0), theme::INK, Align2::RIGHT_CENTER),
        );
        text::label(
            ui,
            below,
            share,
            &text::Style::new(scale.plain(22.0), theme::SOFT_INK, Align2::RIGHT_CENTER),
        );
        // Another step than five is typed.
        let spoken = say!(language, "batch-change-spoken", name = name.as_str());
        if BigButton::new(name).spoken(&spoken).show(ui, row.0) {
            wishes.push(Wish::Ask(Field::Change(nth)));
        }
    }
    wishes
}

fn standing(ui: &Ui, place: Rect, view: &BatchView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let mut wishes = Vec::new();
    let language = crate::words::of(ui);
    let marks = rest.bottom(scale.u(64.0));
    caption(
        ui,
        rest.bottom(scale.u(30.0)),
        &say!(language, "batch-how-was-it"),
    );
    for (place, mark) in layout::columns(marks, 9, scale.u(4.0)).into_iter().zip(1..) {
        let words = mark.to_string();
        let spoken = say!(language, "batch-mark-spoken", mark = words.as_str());
        let weight = if view.mark == Some(mark) {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        if BigButton::new(&words)
            .spoken(&spoken)
            .weight(weight)
            .show(ui, place)
        {
            wishes.push(Wish::Mark(mark));
        }
    }
    rest.bottom(scale.u(6.0));
    for (due, overdue) in &view.due {
        let place = rest.top(scale.u(44.0));
        if *overdue {
            loud(ui, place, due);
        } else {
            words(ui, place, due);
        }
        rest.top(scale.u(4.0));
    }
    paragraphs(ui, rest.0, &view.lines, 24.0);
    wishes
}
