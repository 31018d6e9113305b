//! The program as a kitchen meets it, in one test program: each takes a while to link.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod at_saltmarsh;
mod batch_cli;
mod book_cli;
mod book_folder;
mod book_pictures;
mod brine_cli;
mod cli;
mod doubted;
mod gather_cli;
mod handover_cli;
mod heat_and_prep;
mod heat_cli;
mod in_three_languages;
mod keeping;
mod kitchen_in_every_language;
mod order_cli;
mod prep_cli;
mod prep_menus;
mod prep_week;
#[cfg(unix)]
mod pty;
mod running;
#[cfg(feature = "app")]
mod same_answer;
mod scale_cli;
mod service_in_every_language;
mod services;
mod times_of_day;
mod uptake_cli;
mod vessel_cli;
mod wrong_input;
mod yields_cli;
