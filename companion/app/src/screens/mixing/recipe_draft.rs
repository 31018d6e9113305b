//! Putting a ratio together.

use super::{buttons, caption, head, words};
use crate::layout::{self, Rest};
use crate::mixing::{Field, Page, RecipeDraftView, SketchLine, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::say;
use crate::{text, theme};
use eframe::egui::{Align2, Key, Rect, Ui};

pub(super) fn show(ui: &Ui, place: Rect, view: &RecipeDraftView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    let title = if view.title.is_empty() {
        say!(language, "mixing-no-name")
    } else {
        view.title.as_str().into()
    };
    head(ui, rest.top(scale.u(46.0)), &title, &view.form);
    rest.top(scale.u(4.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(gap);
    let side = rest.right(scale.u(300.0));
    rest.right(scale.u(14.0));
    let mut wishes = Vec::new();
    for (nth, line) in view.lines.iter().enumerate() {
        let place = rest.top(scale.u(64.0));
        rest.top(scale.u(6.0));
        wishes.extend(line_row(ui, place, nth, line));
    }
    if view.lines.is_empty() {
        let first = say!(language, "sketch-add-first");
        words(ui, rest.top(scale.u(64.0)), &first);
    }
    wishes.extend(side_column(ui, side, view));
    let back = if view.cure.is_some() {
        Page::Cure
    } else {
        Page::Start
    };
    wishes.extend(buttons(
        ui,
        foot,
        [
            (
                BigButton::new(&say!(language, "back")).key(Key::Escape),
                Wish::Show(back),
            ),
            (
                BigButton::new(&say!(language, "mixing-name-it")).key(Key::N),
                Wish::Ask(Field::Title),
            ),
            (
                BigButton::new(&say!(language, "sketch-add")).key(Key::A),
                Wish::Ask(Field::NewName),
            ),
            (
                BigButton::new(&say!(language, "mixing-onto-the-scale"))
                    .key(Key::Enter)
                    .weight(Weight::Main)
                    .enabled(view.verdict.is_ok()),
                Wish::Weigh,
            ),
        ],
    ));
    wishes
}

fn line_row(ui: &Ui, place: Rect, nth: usize, line: &SketchLine) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(6.0);
    let language = crate::words::of(ui);
    let name = line.name.as_str();
    let mut rest = Rest(place);
    let mut wishes = Vec::new();
    if line.curing {
        // Not to be typed here: it follows from the label and the target.
        ui.painter().rect_stroke(
            place,
            scale.corner(8.0),
            scale.stroke(4.0, theme::INK),
            eframe::egui::StrokeKind::Inside,
        );
        let amount = rest.right(scale.u(150.0));
        let number = rest.right(scale.u(190.0));
        for (place, words) in [(number, &line.number), (amount, &line.amount)] {
            text::label(
                ui,
                place.shrink(scale.u(8.0)),
                words,
                &text::Style::new(scale.heavy(27.0), theme::INK, Align2::RIGHT_CENTER),
            );
        }
        text::label(
            ui,
            rest.0.shrink(scale.u(12.0)),
            &line.name,
            &text::Style::new(scale.heavy(27.0), theme::INK, Align2::LEFT_CENTER),
        );
        return wishes;
    }
    let drop = rest.right(scale.u(64.0));
    rest.right(gap);
    let amount = rest.right(scale.u(190.0));
    rest.right(gap);
    let number = rest.right(scale.u(210.0));
    rest.right(gap);
    if let Some(flour) = line.flour {
        let place = rest.right(scale.u(96.0));
        rest.right(gap);
        let spoken = say!(language, "sketch-counts-as-flour", name = name);
        if BigButton::new(&say!(language, "mixing-flour"))
            .spoken(&spoken)
            .weight(if flour { Weight::Chosen } else { Weight::Plain })
            .show(ui, place)
        {
            wishes.push(Wish::Flour(nth));
        }
    }
    let press = |words: &str, what: &str, place, enabled| {
        let spoken = say!(
            language,
            "sketch-part-spoken",
            what = what,
            name = name,
            value = words,
        );
        BigButton::new(words)
            .spoken(&spoken)
            .enabled(enabled)
            .show(ui, place)
    };
    if press(&line.name, "name", rest.0, true) {
        wishes.push(Wish::Ask(Field::Rename(nth)));
    }
    if press(&line.number, "number", number, line.typed) {
        wishes.push(Wish::Ask(Field::Number(nth)));
    }
    let set = if line.amount.is_empty() {
        say!(language, "sketch-set-grams")
    } else {
        line.amount.as_str().into()
    };
    if press(&set, "amount", amount, true) {
        wishes.push(Wish::Ask(Field::Amount(nth)));
    }
    if line.can_go {
        let spoken = say!(language, "sketch-take-out", name = name);
        if BigButton::new("\u{2212}").spoken(&spoken).show(ui, drop) {
            wishes.push(Wish::Drop(nth));
        }
    }
    wishes
}

fn side_column(ui: &Ui, place: Rect, view: &RecipeDraftView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(6.0);
    let mut rest = Rest(place);
    let mut wishes = Vec::new();
    let language = crate::words::of(ui);
    let on_target = say!(language, "sketch-on-target");
    caption(ui, rest.top(scale.u(28.0)), &on_target);
    if BigButton::new(&view.closeness)
        .key(Key::C)
        .show(ui, rest.top(scale.u(68.0)))
    {
        wishes.push(Wish::Closer);
    }
    rest.top(gap);
    if BigButton::new(&say!(language, "sketch-any-amount"))
        .key(Key::Y)
        .enabled(view.is_set)
        .show(ui, rest.top(scale.u(68.0)))
    {
        wishes.push(Wish::AnyAmount);
    }
    rest.top(gap);
    let verdict = rest.bottom(scale.u(150.0));
    rest.bottom(gap);
    if !view.vessels.is_empty() {
        let room = say!(language, "sketch-room");
        caption(ui, rest.top(scale.u(28.0)), &room);
        let shown = ((rest.0.height() / scale.u(70.0)) as usize).min(view.vessels.len());
        let rows = layout::rows(rest.top(scale.u(70.0) * shown as f32), shown, gap);
        for (nth, (place, (name, chosen))) in rows.into_iter().zip(&view.vessels).enumerate() {
            let weight = if *chosen {
                Weight::Chosen
            } else {
                Weight::Plain
            };
            if BigButton::new(name).weight(weight).show(ui, place) {
                wishes.push(Wish::InVessel((!chosen).then_some(nth)));
            }
        }
    }
    let said = match &view.verdict {
        Ok(words) | Err(words) => words,
    };
    words(ui, verdict, said);
    wishes
}
