//! What was done at another time than now, put down by touch.

use super::book::a_sheet;
use crate::intent::Intent;
use crate::state::State;
use crate::telling;
use eframe::egui::{Rect, Ui};

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    a_sheet(ui, place, &state.screen, &telling::sheet(state))
}
