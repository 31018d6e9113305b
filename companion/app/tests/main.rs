//! The screens, in one test program: each that links the app takes a while.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod app_access;
mod app_approach;
mod app_bench;
mod app_book;
mod app_controller;
mod app_intents;
mod app_kept;
mod app_kitchen;
mod app_languages;
mod app_leaving;
mod app_left_in_english;
mod app_menus;
mod app_mixing;
mod app_order;
mod app_palette;
mod app_picture;
mod app_practice;
mod app_samples;
mod app_screens;
mod app_service;
mod app_service_charts;
mod app_snapshots;
mod app_sound;
mod app_weights;
mod painted;
