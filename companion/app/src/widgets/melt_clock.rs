//! How long the scoops have been out of the cold; a hand on it says that they
//! are back in.

use super::big_button::struck;
use crate::layout::Rest;
use crate::melt_view::{LossView, MeltView};
use crate::words::{self, say};
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Role, Sense, StrokeKind, Ui, WidgetInfo, vec2};

/// Shows it in `place`, with what the one on the pan loses; true where a hand or the
/// key says that they are back.
pub fn show(ui: &Ui, place: Rect, view: &MeltView, loss: Option<&LossView>) -> bool {
    let scale = Scale::of(ui);
    let response = ui.interact(place, ui.unique_id().with("melt"), Sense::click());
    let language = words::of(ui);
    response.widget_info(|| {
        let spoken = say!(
            language,
            "melt-spoken",
            out = view.out.as_str(),
            stands = view.stands.as_str()
        );
        WidgetInfo::labeled(Role::Button, true, spoken)
    });
    let (fill, ink) = if view.over {
        (theme::STOP, theme::ON_DARK)
    } else {
        (theme::SURFACE, theme::INK)
    };
    ui.painter().rect(
        place,
        scale.corner(8.0),
        fill,
        scale.stroke(if response.has_focus() { 4.0 } else { 2.0 }, theme::EDGE),
        StrokeKind::Inside,
    );
    let mut rest = Rest(place.shrink2(vec2(scale.u(10.0), scale.u(4.0))));
    let style = |font| text::Style::new(font, ink, Align2::LEFT_CENTER);
    let line = rest.bottom(rest.0.height() * 0.32);
    text::paint(ui, line, &view.stands, &style(scale.plain(23.0)));
    let mut above = Rest(rest.0);
    text::paint(
        ui,
        above.top(rest.0.height() * 0.36),
        &format!(
            "K  {}",
            match loss {
                _ if view.over => say!(language, "melt-back"),
                Some(loss) => loss.rate.as_str().into(),
                None => say!(language, "melt-out"),
            }
        ),
        &style(scale.plain(21.0)),
    );
    text::paint(ui, above.0, &view.out, &style(scale.heavy(34.0)));
    response.clicked() || struck(ui, Key::K)
}
