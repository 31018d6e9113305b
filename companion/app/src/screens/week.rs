//! The week: each preparation by day, made or from stock.

use super::prep;
use crate::intent::Intent;
use crate::kitchen::KitchenIntent;
use crate::layout::{self, Rest};
use crate::menus::{MenuPage, MenuWish};
use crate::state::State;
use crate::week_view::{CellWeight, WeekView};
use crate::widgets::big_button::BigButton;
use crate::words::{Language, say};
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Color32, Rect, ScrollArea, Sense, StrokeKind, Ui, UiBuilder, vec2};

const NAMES: f32 = 180.0;
const ROW: f32 = 60.0;
const GAP: f32 = 6.0;

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = state.language;
    let mut rest = Rest(place);
    let title = say!(language, "prep-week-title");
    let labels = say!(language, "menus-labels");
    let to_labels = Intent::Menus(MenuWish::Show(MenuPage::Labels));
    let also = Some((&*labels, to_labels));
    let mut intents = prep::head_of_another(ui, &mut rest, &title, language, also);
    let Some(week) = &state.prep.week else {
        let waiting = say!(language, "prep-week-waiting");
        let words = state.prep.trouble.as_deref().unwrap_or(&waiting);
        text::label(
            ui,
            rest.0,
            words,
            &text::Style::new(scale.plain(34.0), theme::INK, Align2::CENTER_CENTER),
        );
        return intents;
    };
    let days = rest.top(scale.u(40.0));
    for (place, day) in cells(days, scale, week.days.len()).zip(&week.days) {
        text::label(
            ui,
            place,
            day,
            &text::Style::new(scale.heavy(28.0), theme::INK, Align2::CENTER_CENTER),
        );
    }
    intents.extend(show_covers(
        ui,
        rest.top(scale.u(2.0 * theme::TOUCH + 48.0)),
        week,
        language,
    ));
    rest.top(scale.u(GAP));
    show_body(ui, rest.0, week);
    intents
}

/// The cells of a row; the scroll bar's room stays free.
fn cells(row: Rect, scale: Scale, count: usize) -> impl Iterator<Item = Rect> {
    let mut rest = Rest(row);
    rest.left(scale.u(NAMES));
    rest.right(scale.u(16.0));
    layout::columns(rest.0, count, scale.u(GAP)).into_iter()
}

/// How many guests are expected on each day, and a few more or fewer.
fn show_covers(ui: &Ui, place: Rect, week: &WeekView, language: Language) -> Vec<Intent> {
    let scale = Scale::of(ui);
    text::label(
        ui,
        place.with_max_x(place.left() + scale.u(NAMES - 10.0)),
        &say!(language, "prep-week-guests"),
        &text::Style::new(scale.heavy(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    let mut intents = Vec::new();
    for ((place, (day, covers)), name) in cells(place, scale, week.days.len())
        .zip(&week.covers)
        .zip(&week.days)
    {
        let mut rest = Rest(place);
        let above = rest.top(scale.u(theme::TOUCH));
        let below = rest.bottom(scale.u(theme::TOUCH));
        for (row, steps) in [(above, [1, 5]), (below, [-1, -5])] {
            for (place, step) in layout::columns(row, 2, scale.u(2.0)).into_iter().zip(steps) {
                let words = if step < 0 {
                    format!("\u{2212}{}", -step)
                } else {
                    format!("+{step}")
                };
                let spoken = say!(
                    language,
                    "prep-week-guests-spoken",
                    day = name.as_str(),
                    step = words.as_str()
                );
                if BigButton::new(&words)
                    .spoken(&spoken)
                    .enabled(step > 0 || covers.is_some_and(|covers| covers > 0))
                    .show(ui, place)
                {
                    intents.push(Intent::Kitchen(KitchenIntent::MoreCovers(*day, step)));
                }
            }
        }
        let words = covers.map_or_else(|| "?".to_owned(), |covers| covers.to_string());
        text::label(
            ui,
            rest.0,
            &words,
            &text::Style::new(scale.heavy(38.0), theme::INK, Align2::CENTER_CENTER),
        );
    }
    intents
}

fn show_body(ui: &mut Ui, body: Rect, week: &WeekView) {
    let scale = Scale::of(ui);
    ui.scope_builder(UiBuilder::new().max_rect(body).id_salt("week"), |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, scale.u(GAP));
        ScrollArea::vertical()
            .auto_shrink(false)
            .content_margin(0.0)
            .show(ui, |ui| {
                for (name, row) in &week.rows {
                    let (place, _) =
                        ui.allocate_exact_size(vec2(body.width(), scale.u(ROW)), Sense::hover());
                    text::label(
                        ui,
                        place.with_max_x(place.left() + scale.u(NAMES - 10.0)),
                        name,
                        &text::Style::new(scale.heavy(28.0), theme::INK, Align2::LEFT_CENTER),
                    );
                    for (place, cell) in cells(place, scale, row.len()).zip(row) {
                        let (fill, font) = match cell.weight {
                            CellWeight::Make => (theme::ATTENTION, scale.heavy(26.0)),
                            CellWeight::There => (theme::BAND, scale.plain(26.0)),
                            CellWeight::Nothing => (Color32::TRANSPARENT, scale.plain(26.0)),
                        };
                        ui.painter().rect(
                            place,
                            scale.corner(6.0),
                            fill,
                            scale.stroke(1.0, theme::FAINT),
                            StrokeKind::Inside,
                        );
                        text::label(
                            ui,
                            place.shrink(scale.u(4.0)),
                            &cell.words,
                            &text::Style::new(font, theme::INK, Align2::CENTER_CENTER),
                        );
                    }
                }
                for note in &week.notes {
                    let lines = if note.chars().count() > 90 {
                        66.0
                    } else {
                        38.0
                    };
                    let (place, _) = ui.allocate_exact_size(
                        vec2(body.width() - scale.u(16.0), scale.u(lines)),
                        Sense::hover(),
                    );
                    text::label(
                        ui,
                        place,
                        note,
                        &text::Style::new(scale.plain(26.0), theme::INK, Align2::LEFT_CENTER),
                    );
                }
            });
    });
}
