//! What if something of the day is otherwise: what can be tried, and what the day would be.

use super::book::a_sheet;
use crate::intent::Intent;
use crate::state::State;
use eframe::egui::{Rect, Ui};

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    a_sheet(ui, place, &state.screen, &state.prep.trying)
}
