//! One file a screen. Each is a function from the state to what is asked for:
//! nothing is decided, stored or sent here.

pub mod bench;
pub mod dishes;
pub mod heat;
pub mod heat_aim;
pub mod mixing;
pub mod naming;
pub mod portions;
pub mod prep;
pub mod scale;
pub mod service;
pub mod setup;
pub mod weights;

use super::intent::Intent;
use super::state::{Screen, State};
use super::widgets::pictogram::Pictogram;
use eframe::egui::{Rect, Ui};

/// Shows the screen that the state names in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    match state.screen {
        Screen::Bench => bench::show(ui, place, state),
        Screen::Dishes => dishes::show(ui, place, state),
        Screen::Naming => naming::show(ui, place, state),
        Screen::Setup => setup::show(ui, place, state),
        Screen::Goal => setup::show_goal(ui, place, state),
        Screen::Portions => portions::show(ui, place, state),
        Screen::Service => service::show(ui, place, &state.service),
        Screen::Scale => scale::show(ui, place, state),
        Screen::Weights => weights::show(ui, place, state),
        Screen::Mix => mixing::show(ui, place, state),
        Screen::Heat => heat::show(ui, place, state),
        Screen::HeatAim => heat_aim::show(ui, place, state),
        Screen::Prep => prep::show(ui, place, state),
    }
}

/// What the rail offers, top to bottom: a word, its picture, and the screen
/// that it opens.
pub const RAIL: [(&str, Pictogram, Screen); 8] = [
    ("Bench", Pictogram::Bench, Screen::Bench),
    ("Dishes", Pictogram::Dishes, Screen::Dishes),
    ("Portions", Pictogram::Portions, Screen::Portions),
    ("Mix", Pictogram::Mix, Screen::Mix),
    ("Service", Pictogram::Service, Screen::Service),
    ("Prep", Pictogram::Prep, Screen::Prep),
    ("Heat", Pictogram::Heat, Screen::Heat),
    ("Scale", Pictogram::Scale, Screen::Scale),
];

/// The rail's item that a screen belongs to.
#[must_use]
pub const fn rail_item(screen: Screen) -> Screen {
    match screen {
        Screen::Bench | Screen::Goal => Screen::Bench,
        Screen::Dishes | Screen::Naming | Screen::Setup => Screen::Dishes,
        Screen::Portions => Screen::Portions,
        Screen::Service => Screen::Service,
        Screen::Scale | Screen::Weights => Screen::Scale,
        Screen::Mix => Screen::Mix,
        Screen::Heat | Screen::HeatAim => Screen::Heat,
        Screen::Prep => Screen::Prep,
    }
}
