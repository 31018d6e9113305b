//! The window: hands the state to the screens and what they ask for to the
//! controller.

use super::controller::Controller;
use super::intent::Intent;
use super::remembered::Remembered;
use super::sound::Sound;
use super::words::Language;
use super::{AppError, Opening, Options, shell, theme};
use eframe::egui::{self, ViewportBuilder};
use evenhand_link::Endpoint;
use evenhand_store::Store;
use jiff::tz::TimeZone;
use std::time::Instant;

/// Opens the window and stays until it is closed.
///
/// # Errors
/// [`AppError`] where the store cannot be opened, or there is no display to
/// open a window on.
pub fn run(options: Options) -> Result<(), AppError> {
    // A store that cannot be used is said as such, before there is a window to fail in.
    // Its file is checked beside the work: a large one takes a while.
    drop(Store::open(&options.folder)?);
    let native = eframe::NativeOptions {
        viewport: ViewportBuilder::default()
            .with_title("Evenhand")
            .with_app_id("evenhand")
            .with_inner_size(theme::BASE)
            .with_min_inner_size([960.0, 600.0]),
        ..Default::default()
    };
    eframe::run_native(
        "evenhand",
        native,
        Box::new(|creation| {
            let ctx = creation.egui_ctx.clone();
            theme::install(&ctx);
            Ok(Box::new(Window::new(options, ctx)?))
        }),
    )
    .map_err(|error| AppError::Window(reason(&error)))
}

/// What the windowing library says at the end of its message; before that it
/// names places in its own source.
fn reason(error: &eframe::Error) -> String {
    let words = error.to_string();
    let last = words.rsplit(": ").next().unwrap_or(&words);
    last.trim_end_matches('.').to_owned()
}

/// What was asked for, else what was chosen on the screens before, else what
/// the system is set to, where that is spoken here.
fn language(asked: Option<Language>, chosen: Option<Language>) -> Language {
    let system = || sys_locale::get_locales().find_map(|locale| Language::of_locale(&locale));
    asked.or(chosen).or_else(system).unwrap_or_default()
}

struct Window {
    controller: Controller,
    /// Something was touched or struck in this pass.
    touched: bool,
}

impl Window {
    fn new(options: Options, ctx: egui::Context) -> Result<Self, AppError> {
        let remembered = Remembered::read(&options.folder.for_a_scale());
        let mut controller = Controller::open(
            options.folder,
            TimeZone::system(),
            options.simulated,
            move || ctx.request_repaint(),
        )?;
        // Without a thread or a folder for it nothing is heard, and all else goes on.
        if let Ok(sound) = Sound::start(std::env::var_os("PATH").as_deref()) {
            controller.let_hear(sound);
        }
        controller.speak(language(options.language, remembered.language));
        let opening = options.place.or_else(|| {
            remembered
                .port
                .map(|port| Opening::of(Endpoint::Port(port)))
        });
        if let Some(opening) = opening {
            controller.seek(opening);
        }
        controller.carry_out(Intent::Go(options.first));
        Ok(Self {
            controller,
            touched: false,
        })
    }
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.controller.take_in();
        let now = Instant::now();
        if ui.input(|input| !input.events.is_empty()) {
            // What is drawn now still has no controls, so that the touch presses none of them.
            self.touched = true;
        } else {
            self.controller.look_for_hands(now);
        }
        if ui.input(|input| input.viewport().close_requested()) && !self.controller.may_end() {
            ui.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.controller.ask_before_ending();
        }
        let asked = shell::show(ui, self.controller.state());
        if std::mem::take(&mut self.touched) {
            let was_far = self.controller.state().far;
            self.controller.touched(now);
            if was_far {
                ui.ctx().request_repaint();
            }
        }
        if !asked.is_empty() {
            for intent in asked {
                self.controller.carry_out(intent);
            }
            // What was asked for shows at once.
            ui.ctx().request_repaint();
        }
        if let Some(wait) = self.controller.changes_in() {
            ui.ctx().request_repaint_after(wait);
        }
    }
}
