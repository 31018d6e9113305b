//! Choosing a dish to portion.

use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::state::State;
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::{self, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, ScrollArea, Sense, Ui, UiBuilder, vec2};

const ACROSS: usize = 3;

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let gap = scale.u(12.0);
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let head = rest.top(scale.u(52.0));
    rest.top(scale.u(8.0));
    text::label(
        ui,
        head,
        &say!(language, "dishes-title"),
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(gap);
    let places = layout::columns(foot, 3, gap);
    if let Some(new_dish) = places.last()
        && BigButton::new(&say!(language, "dishes-new"))
            .key(Key::N)
            .weight(Weight::Main)
            .show(ui, *new_dish)
    {
        intents.push(Intent::NewDish);
    }

    let tall = scale.u(120.0);
    let grid = rest.0;
    let lines = state.dishes.len().div_ceil(ACROSS);
    ui.scope_builder(UiBuilder::new().max_rect(grid).id_salt("dishes"), |ui| {
        ScrollArea::vertical()
            .auto_shrink(false)
            .content_margin(0.0)
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing = vec2(0.0, gap);
                for line in 0..lines {
                    let (row, _) =
                        ui.allocate_exact_size(vec2(grid.width() - gap, tall), Sense::hover());
                    if !ui.is_rect_visible(row.shrink(1.0)) {
                        continue;
                    }
                    let dishes = state.dishes.iter().skip(line * ACROSS).take(ACROSS);
                    for (place, dish) in layout::columns(row, ACROSS, gap).into_iter().zip(dishes) {
                        let detail = say!(
                            language,
                            "dish-line",
                            goal = figures::goal(dish.goal, state.bench.mass.interval, language),
                            mode = figures::mode(dish.mode, language)
                        );
                        if BigButton::new(dish.name.as_str())
                            .detail(&detail)
                            .show(ui, place)
                        {
                            intents.push(Intent::ChooseDish(dish.name.clone()));
                        }
                    }
                }
                if state.dishes.is_empty() {
                    let (row, _) =
                        ui.allocate_exact_size(vec2(grid.width() - gap, tall), Sense::hover());
                    text::label(
                        ui,
                        row,
                        &say!(language, "dishes-none"),
                        &text::Style::new(scale.plain(30.0), theme::INK, Align2::LEFT_CENTER),
                    );
                }
            });
    });
    intents
}
