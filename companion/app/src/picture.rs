//! The screen as a picture file, drawn without a window: for machines without
//! a display, and for looking at.

use super::state::State;
use super::{live, shell, theme, today};
use eframe::egui::{Theme, Vec2};
use eframe::egui_wgpu::{self, wgpu};
use egui_kittest::Harness;
use evenhand_kitchen::moment::show_time;
use evenhand_link::live::{LiveScale, Now};
use evenhand_store::Store;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::path::{Path, PathBuf};
use std::time::Instant;

/// Why there is no picture.
#[derive(Debug, thiserror::Error)]
pub enum PictureError {
    /// The size is not one that a screen has.
    #[error("a picture is from 320 by 200 to 7680 by 4320 pixels, not {width} by {height}")]
    Size {
        /// Asked for.
        width: u32,
        /// Asked for.
        height: u32,
    },
    /// No graphics driver, or it failed.
    #[error("the screen could not be drawn: {0}")]
    Draw(String),
    /// The file could not be written.
    #[error("the picture could not be written to {path}: {reason}", path = path.display())]
    Write {
        /// Where it should have gone.
        path: PathBuf,
        /// What the system said.
        reason: String,
    },
}

/// Draws the screen and writes it to `path` as PNG. `size` is width and height
/// in pixels.
///
/// # Errors
/// [`PictureError`] where the size is senseless, nothing can draw here, or the
/// file cannot be written.
pub fn write_picture(path: &Path, size: [u32; 2], state: &State) -> Result<(), PictureError> {
    let [width, height] = size;
    if !(320..=7680).contains(&width) || !(200..=4320).contains(&height) {
        return Err(PictureError::Size { width, height });
    }
    let image = drawn(size, state)?;
    image
        .save_with_format(path, image::ImageFormat::Png)
        .map_err(|error| PictureError::Write {
            path: path.to_owned(),
            reason: error.to_string(),
        })
}

/// The bench screen over a bench as it stood at its latest reading, with
/// today's portions from the store.
#[must_use]
pub fn portioning_screen(bench: &LiveScale, store: &Store, zone: &TimeZone) -> State {
    // The steady clock's moment is the reading's own, else it would be stale by now.
    let now = Now {
        steady: bench
            .last_reading()
            .map_or_else(Instant::now, |(seen, _)| seen),
        wall: Timestamp::now(),
    };
    let dish = bench.run().and_then(|live| live.run.dish.clone());
    let today = today::spread(store, dish, now.wall, zone);
    State {
        bench: live::view(bench, now, today.as_ref(), zone),
        clock: show_time(now.wall, zone),
        ..State::at_start()
    }
}

/// The screen as an image of this size.
///
/// # Errors
/// [`PictureError::Draw`] where nothing can draw here.
fn drawn([width, height]: [u32; 2], state: &State) -> Result<image::RgbaImage, PictureError> {
    let graphics = graphics().map_err(PictureError::Draw)?;
    let mut harness = Harness::builder()
        .with_size(Vec2::new(width as f32, height as f32))
        .with_theme(Theme::Light)
        .with_context_setup(theme::install)
        .with_render_cursor(false)
        .with_accessibility_check(false)
        // A dish may be named in any script; a box is better than no picture.
        .allow_missing_glyphs()
        .renderer(egui_kittest::wgpu::WgpuTestRenderer::from_render_state(
            graphics,
        ))
        .build_ui_state(
            |ui, state: &mut State| {
                shell::show(ui, state);
            },
            state.clone(),
        );
    harness.render().map_err(PictureError::Draw)
}

/// A graphics device that needs no display. The drivers of the present are
/// asked first; the older OpenGL ones only where there is none, because they
/// look for a display and complain on the standard error.
fn graphics() -> Result<egui_wgpu::RenderState, String> {
    let mut refused = String::new();
    for backends in [wgpu::Backends::PRIMARY, wgpu::Backends::SECONDARY] {
        let mut setup = egui_kittest::wgpu::default_wgpu_setup();
        if let egui_wgpu::WgpuSetup::CreateNew(create) = &mut setup {
            create.instance_descriptor.backends = backends & !wgpu::Backends::BROWSER_WEBGPU;
        }
        let instance = pollster::block_on(setup.new_instance());
        let configuration = egui_wgpu::WgpuConfiguration {
            wgpu_setup: setup,
            ..Default::default()
        };
        match pollster::block_on(egui_wgpu::RenderState::create(
            &configuration,
            &instance,
            None,
            egui_wgpu::RendererOptions::PREDICTABLE,
        )) {
            Ok(graphics) => return Ok(graphics),
            Err(error) => refused = error.to_string(),
        }
    }
    Err(refused)
}
