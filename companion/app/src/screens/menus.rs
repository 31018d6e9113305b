//! Menus by touch, and the labels of what they make.

use super::book::a_sheet;
use super::mixing::entry;
use crate::intent::Intent;
use crate::menus::{MenuWish, MenusView};
use crate::mixing::Wish;
use crate::state::State;
use eframe::egui::{Rect, Ui};

/// Shows the screen of menus that the state names in `place`. A file that is dropped on it is
/// brought in.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let MenusView { entry, sheet, page } = &state.menus;
    let mut wishes: Vec<MenuWish> = match entry {
        Some(view) => entry::show(ui, place, view)
            .into_iter()
            .filter_map(|wish| match wish {
                Wish::Type(text) => Some(MenuWish::Type(text)),
                Wish::Enter => Some(MenuWish::Enter),
                Wish::Leave => Some(MenuWish::Leave),
                _ => None,
            })
            .collect(),
        None => a_sheet(ui, place, page, sheet),
    };
    let dropped = ui.input(|input| input.raw.dropped_files.clone());
    let paths = dropped.iter().map(|file| file.path().to_path_buf());
    wishes.extend(paths.map(MenuWish::ImportFile));
    wishes.into_iter().map(Intent::Menus).collect()
}
