//! Vessels of known volume, and filling one.

use super::{buttons, head, words};
use crate::layout::Rest;
use crate::mixing::{Field, Page, VesselStep, VesselView, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::say;
use crate::{text, theme};
use eframe::egui::{Align2, Key, Rect, Ui, vec2};

pub(super) fn show(ui: &Ui, place: Rect, view: &VesselView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    let title = view.filling.as_ref().map_or_else(
        || say!(language, "mixing-vessels"),
        |name| say!(language, "vessels-filling", name = name.as_str()),
    );
    head(ui, rest.top(scale.u(46.0)), &title, "");
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(10.0));
    words(ui, rest.top(scale.u(70.0)), &view.prompt);
    rest.top(scale.u(6.0));
    let mut wishes = Vec::new();
    for (nth, vessel) in view.known.iter().enumerate() {
        if rest.0.height() < scale.u(70.0) {
            break;
        }
        let mut row = Rest(rest.top(scale.u(70.0)));
        rest.top(scale.u(6.0));
        ui.painter()
            .rect_filled(row.0, scale.corner(8.0), theme::SURFACE);
        let spoken = say!(
            language,
            "vessels-retire-spoken",
            name = vessel.name.as_str()
        );
        if BigButton::new(&say!(language, "vessels-retire"))
            .spoken(&spoken)
            .show(ui, row.right(scale.u(180.0)))
        {
            wishes.push(Wish::Retire(nth));
        }
        row.right(scale.u(10.0));
        row.0 = row.0.shrink2(vec2(scale.u(12.0), scale.u(4.0)));
        let about = row.right(row.0.width() * 0.42);
        let volume = row.right(row.0.width() * 0.52);
        for (place, line, font) in [
            (row.0, &vessel.name, scale.heavy(28.0)),
            (volume, &vessel.volume, scale.heavy(26.0)),
            (about, &vessel.about, scale.plain(23.0)),
        ] {
            text::label(
                ui,
                place,
                line,
                &text::Style::new(font, theme::INK, Align2::LEFT_CENTER),
            );
        }
    }
    let back = say!(language, "back");
    let back = (
        BigButton::new(&back).key(Key::Escape),
        Wish::Show(Page::Start),
    );
    if view.filling.is_none() {
        let fill = say!(language, "vessels-fill-one");
        let fill = (
            BigButton::new(&fill).key(Key::F).weight(Weight::Main),
            Wish::Ask(Field::VesselName),
        );
        wishes.extend(buttons(ui, foot, [back, fill]));
        return wishes;
    }
    let material = (BigButton::new(&view.material).key(Key::M), Wish::Material);
    let (empty, full) = (
        say!(language, "mixing-empty"),
        say!(language, "mixing-full"),
    );
    let empty = (
        BigButton::new(&empty)
            .key(Key::E)
            .weight(if view.has_empty {
                Weight::Plain
            } else {
                Weight::Main
            }),
        Wish::Fill(VesselStep::Empty),
    );
    let full = (
        BigButton::new(&full)
            .key(Key::F)
            .enabled(view.has_empty)
            .weight(Weight::Main),
        Wish::Fill(VesselStep::Full),
    );
    wishes.extend(buttons(ui, foot, [back, material, empty, full]));
    wishes
}
