//! What to order, and the list of what the kitchen buys, by touch.

use super::book::a_sheet;
use super::mixing::entry;
use crate::intent::Intent;
use crate::mixing::Wish;
use crate::order::{OrderView, OrderWish};
use crate::state::State;
use eframe::egui::{Rect, Ui};

/// Shows the screen of orders that the state names in `place`. A list of goods that is dropped on
/// it is brought in.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let OrderView { entry, sheet, page } = &state.order;
    let mut wishes: Vec<OrderWish> = match entry {
        Some(view) => entry::show(ui, place, view)
            .into_iter()
            .filter_map(|wish| match wish {
                Wish::Type(text) => Some(OrderWish::Type(text)),
                Wish::Enter => Some(OrderWish::Enter),
                Wish::Leave => Some(OrderWish::Leave),
                _ => None,
            })
            .collect(),
        None => a_sheet(ui, place, page, sheet),
    };
    let dropped = ui.input(|input| input.raw.dropped_files.clone());
    let paths = dropped.iter().map(|file| file.path().to_path_buf());
    wishes.extend(paths.map(OrderWish::ImportFile));
    wishes.into_iter().map(Intent::Order).collect()
}
