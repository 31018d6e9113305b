//! The kitchen's own book: each bowl of each formula in a row; a touch puts its
//! ratio on the next screen, where the amount is set.

use super::{buttons, head, loud, words as sentence};
use crate::layout::Rest;
use crate::mixing::{BookRow, MixView, Page, Wish};
use crate::text;
use crate::theme::{self, Scale};
use crate::widgets::{big_button::BigButton, long_list::LongList};
use crate::words::{self, Language, say};
use eframe::egui::{Align2, Key, Rect, Ui, vec2};

pub(super) fn show(ui: &mut Ui, place: Rect, view: &MixView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let mut rest = Rest(place);
    head(
        ui,
        rest.top(scale.u(46.0)),
        &say!(language, "book-heading"),
        &view.leaf,
    );
    rest.top(scale.u(4.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(10.0));
    let mut wishes = Vec::new();
    if !view.book_trouble.is_empty() {
        let count = view.book_trouble.len();
        let first = view.book_trouble.first().map_or("", String::as_str);
        let words = say!(
            language,
            "book-not-understood",
            count = count,
            first = first
        );
        loud(ui, rest.top(scale.u(84.0)), &words);
        rest.top(scale.u(8.0));
    }
    if view.book.is_empty() && view.book_trouble.is_empty() {
        sentence(ui, rest.top(scale.u(96.0)), &say!(language, "book-empty"));
    }
    let tall = scale.u(66.0);
    let list = LongList {
        name: &format!("bowls {}", view.leaf),
        gap: scale.u(6.0),
        keys: false,
        of: (view.book.len(), 1),
    };
    list.show(
        ui,
        rest.0,
        |_| vec![tall; view.book.len()],
        |ui, nth, place| {
            if let Some(row) = view.book.get(nth)
                && bowl(ui, place, row, language)
            {
                wishes.push(Wish::FromBook(nth));
            }
        },
    );
    let back = say!(language, "book-back");
    let before = say!(language, "book-before");
    let after = say!(language, "book-after");
    wishes.extend(buttons(
        ui,
        foot,
        [
            (
                BigButton::new(&back).key(Key::Escape),
                Wish::Show(Page::Start),
            ),
            (
                BigButton::new(&before)
                    .key(Key::PageUp)
                    .enabled(view.has_later),
                Wish::Later,
            ),
            (
                BigButton::new(&after)
                    .key(Key::PageDown)
                    .enabled(view.has_earlier),
                Wish::Earlier,
            ),
        ],
    ));
    wishes
}

/// One bowl: whose it is, and what goes into it.
fn bowl(ui: &Ui, place: Rect, row: &BookRow, language: Language) -> bool {
    let scale = Scale::of(ui);
    let name = row.stage.as_ref().map_or_else(
        || row.name.clone(),
        |stage| {
            say!(
                language,
                "book-stage",
                name = row.name.as_str(),
                stage = stage.as_str(),
            )
            .into_owned()
        },
    );
    let about = row
        .about
        .iter()
        .map(|(name, percent)| {
            let share = format!("{percent:.1}");
            let share = language.figure(share.trim_end_matches('0').trim_end_matches('.'));
            format!("{name} {share}")
        })
        .collect::<Vec<_>>()
        .join(" \u{b7} ");
    let pressed = BigButton::new("")
        .spoken(&format!("{name}: {about}"))
        .show(ui, place);
    let mut rest = Rest(place.shrink2(vec2(scale.u(14.0), scale.u(6.0))));
    let left = rest.left(rest.0.width() * 0.4);
    rest.left(scale.u(10.0));
    text::paint(
        ui,
        left,
        &name,
        &text::Style::new(scale.heavy(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    text::paint(
        ui,
        rest.0,
        &about,
        &text::Style::new(scale.plain(24.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    pressed
}
