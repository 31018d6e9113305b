//! What is kept on this computer and who may see it, its copies, and how figures and times
//! are told.

use crate::intent::Intent;
use crate::layout::Rest;
use crate::state::{Screen, State};
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::say;
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Rect, Ui};
use evenhand_protocol::Mass;

/// Shows the screen in `place`.
pub fn show(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = state.language;
    let view = &state.kept;
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let heading = text::Style::new(scale.heavy(28.0), theme::INK, Align2::LEFT_CENTER);
    let plain = text::Style::new(scale.plain(26.0), theme::INK, Align2::LEFT_CENTER);
    let title = say!(language, "kept-title");
    let (foot, leave) = super::titled(ui, &mut rest, &title, Screen::Settings);
    intents.extend(leave);
    let beside = foot
        .get(1)
        .zip(foot.get(2))
        .map(|(one, other)| one.union(*other));
    let told = if view.busy {
        say!(language, "kept-busy")
    } else {
        view.told.as_deref().unwrap_or_default().into()
    };
    if !told.is_empty()
        && let Some(place) = beside
    {
        text::live_label(ui, place, &told, &plain, false);
    }
    rest.top(scale.u(6.0));
    text::label(
        ui,
        rest.top(scale.u(62.0)),
        &say!(language, "kept-what", folder = view.folder.as_str()),
        &plain,
    );
    text::label(
        ui,
        rest.top(scale.u(62.0)),
        &say!(language, "kept-who"),
        &plain,
    );
    rest.top(gap);
    text::label(
        ui,
        rest.top(scale.u(38.0)),
        &say!(language, "kept-copies"),
        &heading,
    );
    for (nth, copies) in view.places.iter().enumerate() {
        let mut row = Rest(rest.top(scale.u(76.0)));
        rest.top(scale.u(8.0));
        let button = row.left(scale.u(250.0));
        row.left(scale.u(16.0));
        let folder = copies.folder.display().to_string();
        let words = say!(language, "kept-back-up");
        let spoken = say!(language, "kept-back-up-into", folder = folder.as_str());
        let main = if nth == 0 {
            Weight::Main
        } else {
            Weight::Plain
        };
        if BigButton::new(&words)
            .spoken(&spoken)
            .weight(main)
            .enabled(!view.busy)
            .show(ui, button)
        {
            intents.push(Intent::BackUp(copies.folder.clone()));
        }
        let mut lines = Rest(row.0);
        let where_to = if copies.apart {
            say!(language, "kept-on-drive", folder = folder.as_str())
        } else {
            say!(language, "kept-on-this-computer", folder = folder.as_str())
        };
        text::label(ui, lines.top(scale.u(40.0)), &where_to, &plain);
        let last = match &copies.last {
            Some(last) => say!(language, "kept-last", at = last.as_str()),
            None => say!(language, "kept-none-yet"),
        };
        text::label(ui, lines.0, &last, &plain);
    }
    rest.top(gap);
    text::label(
        ui,
        rest.top(scale.u(38.0)),
        &say!(language, "kept-told"),
        &heading,
    );
    let example = figures::grams(
        Mass::from_milligrams(1_234_500),
        Mass::from_milligrams(100),
        language,
    );
    text::label(
        ui,
        rest.top(scale.u(40.0)),
        &say!(language, "kept-figures", example = example),
        &plain,
    );
    text::label(
        ui,
        rest.top(scale.u(40.0)),
        &say!(language, "kept-zone", zone = view.zone.as_str()),
        &plain,
    );
    intents
}
