//! The desktop app.
//!
//! One direction only: the [`state::State`] goes in, the screens draw it, and
//! what the cook asks for comes out as [`intent::Intent`]s. Nothing is decided
//! while drawing, so every screen can be tested as a function.
//!
//! To add a screen: write `screens/NAME.rs` with
//! `pub fn show(ui, place, &State) -> Vec<Intent>`; give it a
//! [`state::Screen`] variant and what it shows as plain data in
//! [`state::State`]; name it in `screens::show` and, where it is one of the
//! large items on the left, in `screens::RAIL`; add what it can ask for to
//! [`intent::Intent`]. Sizes are in units of [`theme::Scale`], words are
//! painted with [`text::label`] so that they can be read aloud and tested.

pub mod bench_view;
pub mod figures;
pub mod intent;
pub mod layout;
pub mod live;
pub mod picture;
pub mod screens;
pub mod shell;
pub mod state;
pub mod text;
pub mod theme;
pub mod widgets;
