//! Every batch, the latest first.

use super::start::batch_row;
use super::{buttons, head, words};
use crate::layout::Rest;
use crate::mixing::{MixView, Page, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::BigButton;
use crate::words::say;
use eframe::egui::{Key, Rect, Ui};

pub(super) fn show(ui: &Ui, place: Rect, view: &MixView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    head(
        ui,
        rest.top(scale.u(46.0)),
        &say!(language, "mixing-batches"),
        &view.leaf,
    );
    rest.top(scale.u(4.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(10.0));
    let mut wishes = Vec::new();
    if view.batches.is_empty() {
        words(ui, rest.top(scale.u(64.0)), &say!(language, "batches-none"));
    }
    for row in &view.batches {
        let place = rest.top(scale.u(66.0));
        rest.top(scale.u(6.0));
        if batch_row(ui, place, row) {
            wishes.push(Wish::Open(row.id));
        }
    }
    wishes.extend(buttons(
        ui,
        foot,
        [
            (
                BigButton::new(&say!(language, "back")).key(Key::Escape),
                Wish::Show(Page::Start),
            ),
            (
                BigButton::new(&say!(language, "batches-later"))
                    .key(Key::PageUp)
                    .enabled(view.has_later),
                Wish::Later,
            ),
            (
                BigButton::new(&say!(language, "batches-earlier"))
                    .key(Key::PageDown)
                    .enabled(view.has_earlier),
                Wish::Earlier,
            ),
        ],
    ));
    wishes
}
