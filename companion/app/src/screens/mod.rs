//! One file a screen. Each is a function from the state to what is asked for:
//! nothing is decided, stored or sent here.

pub mod bench;
pub mod book;
pub mod dishes;
pub mod heat;
pub mod heat_aim;
pub mod kept;
pub mod menus;
pub mod mixing;
pub mod naming;
pub mod order;
pub mod portions;
pub mod practice;
pub mod prep;
pub mod scale;
pub mod service;
pub mod settings;
pub mod setup;
pub mod telling;
pub mod timeline;
pub mod week;
pub mod weights;
pub mod what_if;
mod yields;

use super::intent::Intent;
use super::layout::{self, Rest};
use super::state::{Screen, State};
use super::widgets::big_button::BigButton;
use super::widgets::pictogram::Pictogram;
use super::words::{self, Language, say};
use super::{text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Ui};
use std::borrow::Cow;

/// Cuts the title from the top and from the foot a row of three, with the way back in the first;
/// gives the places of the row, and the wish to leave.
fn titled(ui: &Ui, rest: &mut Rest, title: &str, back: Screen) -> (Vec<Rect>, Option<Intent>) {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let style = text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER);
    text::label(ui, rest.top(scale.u(52.0)), title, &style);
    let foot = layout::columns(rest.bottom(scale.u(80.0)), 3, gap);
    rest.bottom(gap);
    let leave = foot.first().is_some_and(|place| {
        BigButton::new(&say!(words::of(ui), "back"))
            .key(Key::Escape)
            .show(ui, *place)
    });
    (foot, leave.then_some(Intent::Go(back)))
}

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
        Screen::Settings => settings::show(ui, place, state),
        Screen::Kept => kept::show(ui, place, state),
        Screen::Weights => weights::show(ui, place, state),
        Screen::Mix => mixing::show(ui, place, state),
        Screen::Book => book::show(ui, place, state),
        Screen::Heat => heat::show(ui, place, state),
        Screen::HeatAim => heat_aim::show(ui, place, state),
        Screen::Prep => prep::show(ui, place, state),
        Screen::Timeline => timeline::show(ui, place, state),
        Screen::Week => week::show(ui, place, state),
        Screen::Menus => menus::show(ui, place, state),
        Screen::Order => order::show(ui, place, state),
        Screen::WhatIf => what_if::show(ui, place, state),
        Screen::Telling => telling::show(ui, place, state),
    }
}

/// What the rail offers, top to bottom: a picture and the screen that it opens.
pub const RAIL: [(Pictogram, Screen); 8] = [
    (Pictogram::Bench, Screen::Bench),
    (Pictogram::Dishes, Screen::Dishes),
    (Pictogram::Portions, Screen::Portions),
    (Pictogram::Mix, Screen::Mix),
    (Pictogram::Service, Screen::Service),
    (Pictogram::Prep, Screen::Prep),
    (Pictogram::Heat, Screen::Heat),
    (Pictogram::Scale, Screen::Scale),
];

/// What the rail calls the item that a screen belongs to.
#[must_use]
pub fn rail_words(language: Language, screen: Screen) -> Cow<'static, str> {
    match screen {
        Screen::Bench | Screen::Goal => say!(language, "rail-bench"),
        Screen::Dishes | Screen::Naming | Screen::Setup => say!(language, "rail-dishes"),
        Screen::Portions => say!(language, "rail-portions"),
        Screen::Mix | Screen::Book => say!(language, "rail-mix"),
        Screen::Service => say!(language, "rail-service"),
        Screen::Prep
        | Screen::Timeline
        | Screen::Week
        | Screen::Menus
        | Screen::Order
        | Screen::WhatIf
        | Screen::Telling => say!(language, "rail-prep"),
        Screen::Heat | Screen::HeatAim => say!(language, "rail-heat"),
        Screen::Scale | Screen::Weights | Screen::Settings | Screen::Kept => {
            say!(language, "rail-scale")
        }
    }
}

/// The rail's item that a screen belongs to.
#[must_use]
pub const fn rail_item(screen: Screen) -> Screen {
    match screen {
        Screen::Bench | Screen::Goal => Screen::Bench,
        Screen::Dishes | Screen::Naming | Screen::Setup => Screen::Dishes,
        Screen::Portions => Screen::Portions,
        Screen::Service => Screen::Service,
        Screen::Scale | Screen::Weights | Screen::Settings | Screen::Kept => Screen::Scale,
        Screen::Mix | Screen::Book => Screen::Mix,
        Screen::Heat | Screen::HeatAim => Screen::Heat,
        Screen::Prep
        | Screen::Timeline
        | Screen::Week
        | Screen::Menus
        | Screen::Order
        | Screen::WhatIf
        | Screen::Telling => Screen::Prep,
    }
}
