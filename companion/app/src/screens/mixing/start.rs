//! What there is to do: mix as last time, a new ratio, weigh without one; and
//! what is due.

use super::{buttons, caption};
use crate::book::BookPage;
use crate::layout::Rest;
use crate::mixing::{BatchRow, MixView, Page, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::say;
use crate::{text, theme};
use eframe::egui::{Align2, Key, Rect, Ui};
use evenhand_kitchen::ratio::Form;

const FORMS: [(Form, &str, Key); 5] = [
    (Form::Parts, "parts", Key::P),
    (Form::OfWater, "of-water", Key::W),
    (Form::OfTotal, "of-total", Key::O),
    (Form::Bakers, "bakers", Key::B),
    (Form::OfMeatAndWater, "of-meat-and-water", Key::M),
];

pub(super) fn show(ui: &Ui, place: Rect, view: &MixView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    let mut wishes = Vec::new();
    if let Some(under_way) = &view.under_way {
        let words = say!(language, "start-back-to", mix = under_way.as_str());
        let page = if view.pouring.is_some() {
            Page::Pouring
        } else {
            Page::Capture
        };
        let button = BigButton::new(&words).key(Key::Enter).weight(Weight::Main);
        wishes.extend(buttons(
            ui,
            rest.top(scale.u(76.0)),
            [(button, Wish::Show(page))],
        ));
        rest.top(scale.u(8.0));
    }
    if let (None, Some(unfinished)) = (&view.under_way, &view.unfinished) {
        let words = say!(language, "start-go-on", mix = unfinished.title.as_str());
        let (put_aside, stays) = (
            say!(language, "start-put-aside"),
            say!(language, "start-stays"),
        );
        let go_on = BigButton::new(&words)
            .detail(&unfinished.about)
            .key(Key::Enter)
            .weight(Weight::Main);
        let aside = BigButton::new(&put_aside).detail(&stays).key(Key::Delete);
        wishes.extend(buttons(
            ui,
            rest.top(scale.u(92.0)),
            [
                (go_on, Wish::Resume(unfinished.id)),
                (aside, Wish::PutAside(unfinished.id)),
            ],
        ));
        rest.top(scale.u(8.0));
    }
    let keys = [Key::Num1, Key::Num2, Key::Num3, Key::Num4];
    if !view.titles.is_empty() {
        caption(
            ui,
            rest.top(scale.u(30.0)),
            &say!(language, "start-as-last-time"),
        );
        let titles = view.titles.iter().take(4).zip(keys);
        let mut tiles: Vec<_> = titles
            .map(|(title, key)| {
                (
                    BigButton::new(title).key(key),
                    Wish::AsLastTime(title.clone()),
                )
            })
            .collect();
        let row = rest.top(scale.u(84.0));
        // A lone tile is no wider than one of several.
        let share = tiles.len().max(2) as f32;
        let row = row.with_max_x(row.left() + row.width() * tiles.len() as f32 / share);
        wishes.extend(buttons(ui, row, tiles.drain(..)));
        rest.top(scale.u(8.0));
    }
    caption(
        ui,
        rest.top(scale.u(30.0)),
        &say!(language, "start-new-ratio"),
    );
    let said = FORMS.map(|(_, form, _)| {
        (
            say!(language, "start-form", form = form),
            say!(language, "start-form-detail", form = form),
        )
    });
    let forms = FORMS
        .into_iter()
        .zip(&said)
        .map(|((form, _, key), (words, detail))| {
            (
                BigButton::new(words).detail(detail).key(key),
                Wish::RecipeDraft(form),
            )
        });
    wishes.extend(buttons(ui, rest.top(scale.u(92.0)), forms));
    rest.top(scale.u(8.0));
    let others = [
        (say!(language, "mixing-as-you-go"), Key::G, Wish::Capture),
        (say!(language, "start-cure"), Key::N, Wish::Show(Page::Cure)),
        (
            say!(language, "start-brine"),
            Key::R,
            Wish::Show(Page::Brine),
        ),
        (
            say!(language, "book-button"),
            Key::K,
            Wish::Show(Page::Book),
        ),
        (
            say!(language, "mixing-batches"),
            Key::T,
            Wish::Show(Page::Batches),
        ),
        (
            say!(language, "mixing-vessels"),
            Key::V,
            Wish::Show(Page::Vessels),
        ),
    ];
    let others = others
        .iter()
        .map(|(words, key, wish)| (BigButton::new(words).key(*key), wish.clone()));
    wishes.extend(buttons(ui, rest.top(scale.u(70.0)), others));
    rest.top(scale.u(6.0));
    let book = [
        (say!(language, "start-soak"), Key::S, BookPage::Pieces),
        (say!(language, "start-formulas"), Key::F, BookPage::Formulas),
        (say!(language, "start-counts"), Key::H, BookPage::Counts),
        (
            say!(language, "start-yields"),
            Key::Y,
            BookPage::YieldTitles,
        ),
        (say!(language, "start-lots"), Key::L, BookPage::Lots),
        (say!(language, "start-cut"), Key::C, BookPage::Cut),
    ];
    let book = book
        .iter()
        .map(|(words, key, page)| (BigButton::new(words).key(*key), Wish::OpenBook(*page)));
    wishes.extend(buttons(ui, rest.top(scale.u(70.0)), book));
    rest.top(scale.u(6.0));
    wishes.extend(due(ui, rest, &view.due));
    wishes
}

fn due(ui: &Ui, mut rest: Rest, rows: &[BatchRow]) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let language = crate::words::of(ui);
    let words = if rows.is_empty() {
        say!(language, "start-nothing-due")
    } else {
        say!(language, "mixing-due")
    };
    caption(ui, rest.top(scale.u(30.0)), &words);
    let mut wishes = Vec::new();
    let (tall, gap) = (scale.u(66.0), scale.u(6.0));
    let fit = ((rest.0.height() + gap) / (tall + gap)).floor().max(1.0) as usize;
    // Where they do not all fit, the last row says how many more there are, and leads to them.
    let shown = if rows.len() > fit {
        fit - 1
    } else {
        rows.len()
    };
    for row in rows.iter().take(shown) {
        let place = rest.top(tall);
        rest.top(gap);
        if batch_row(ui, place, row) {
            wishes.push(Wish::Open(row.id));
        }
    }
    let more = rows.len() - shown;
    if more > 0 {
        let words = say!(language, "start-more-due", count = more);
        if BigButton::new(&words).show(ui, rest.top(tall)) {
            wishes.push(Wish::Show(Page::Batches));
        }
    }
    wishes
}

/// A batch in a row: what it is, since when, what is to be done; overdue on a
/// fill of its own and in words.
pub(super) fn batch_row(ui: &Ui, place: Rect, row: &BatchRow) -> bool {
    let scale = Scale::of(ui);
    let spoken = format!("{}, {}, {}", row.title, row.about, row.due);
    let pressed = BigButton::new("").spoken(&spoken).show(ui, place);
    let mut rest = Rest(place.shrink2(eframe::egui::vec2(scale.u(14.0), scale.u(6.0))));
    let due = rest.right(rest.0.width() * 0.38);
    rest.right(scale.u(8.0));
    if row.overdue {
        ui.painter()
            .rect_filled(due, scale.corner(6.0), theme::ATTENTION);
    }
    let font = if row.overdue {
        scale.heavy(26.0)
    } else {
        scale.plain(26.0)
    };
    text::paint(
        ui,
        due.shrink2(eframe::egui::vec2(scale.u(8.0), 0.0)),
        &row.due,
        &text::Style::new(font, theme::INK, Align2::RIGHT_CENTER),
    );
    let about = rest.right(rest.0.width() * 0.48);
    text::paint(
        ui,
        about,
        &row.about,
        &text::Style::new(scale.plain(24.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    text::paint(
        ui,
        rest.0,
        &row.title,
        &text::Style::new(scale.heavy(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    pressed
}
