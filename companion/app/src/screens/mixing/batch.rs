//! One batch: what is in it, what is due, how it came out; and mixing it again
//! a little changed, in one press.

use super::{buttons, caption, head, loud, paragraphs, words};
use crate::layout::{self, Rest};
use crate::mixing::{BatchView, Field, Page, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::{text, theme};
use eframe::egui::{Align2, Key, Rect, Ui};

/// By how many per cent an ingredient changes in one press.
const STEP: i8 = 5;

pub(super) fn show(ui: &Ui, place: Rect, view: &BatchView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let mut rest = Rest(place);
    let title = format!("{} (batch {})", view.title, view.id);
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
                BigButton::new("Back").key(Key::Escape),
                Wish::Show(Page::Batches),
            ),
            (
                BigButton::new("Name it").key(Key::N),
                Wish::Ask(Field::Title),
            ),
            (BigButton::new("Note").key(Key::E), Wish::Ask(Field::Note)),
            (
                BigButton::new("Side by side")
                    .key(Key::C)
                    .enabled(view.of_title > 1),
                Wish::Compare,
            ),
            (
                BigButton::new("Mix again")
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
    let log = if view.logs_store {
        "Stop the log"
    } else {
        "Log the store"
    };
    let dry = if view.drying {
        (
            BigButton::new("Weigh again")
                .key(Key::W)
                .enabled(view.on_scale.is_some()),
            Wish::Reweigh,
        )
    } else {
        (
            BigButton::new("To dry")
                .key(Key::W)
                .enabled(view.on_scale.is_some()),
            Wish::Ask(Field::Loss),
        )
    };
    buttons(
        ui,
        place,
        [
            (BigButton::new("Due").key(Key::D), Wish::Ask(Field::DueIn)),
            (
                BigButton::new("Turned").key(Key::T).enabled(view.planned),
                Wish::Turned,
            ),
            (
                BigButton::new("Out").key(Key::O).enabled(view.planned),
                Wish::CameOut,
            ),
            dry,
            (
                BigButton::new(log)
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
    let mut rest = Rest(place);
    caption(
        ui,
        rest.top(scale.u(30.0)),
        "Mix again at once with more or less of one",
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
            let spoken = format!("{words} {name}, next time, at once");
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
        let spoken = format!("Change {name} by another amount");
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
    let marks = rest.bottom(scale.u(64.0));
    caption(
        ui,
        rest.bottom(scale.u(30.0)),
        "How was it? 1 never again, 5 as it should be, 9 the best yet",
    );
    for (place, mark) in layout::columns(marks, 9, scale.u(4.0)).into_iter().zip(1..) {
        let words = mark.to_string();
        let spoken = format!("Mark {mark} of 9");
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
