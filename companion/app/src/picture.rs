//! The screen as a picture file, drawn without a window: for machines without
//! a display, and for looking at.

mod painter;

pub use painter::Painter;

use super::state::State;
use super::words::Language;
use super::{live, shell, theme, today};
use eframe::egui::{Context, Pos2, RawInput, Rect, Theme, Vec2, ViewportId};
use evenhand_kitchen::moment::show_time;
use evenhand_link::live::{LiveScale, Now};
use evenhand_store::Store;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

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
    /// Something on the screen cannot be drawn without a window.
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
    let failed_tests = today::failed_tests(store);
    let today = today::spread(store, dish, now.wall, zone, &failed_tests);
    let figures = (today.as_ref(), failed_tests.as_slice());
    State {
        bench: live::view(bench, now, figures, zone, Language::default()),
        clock: show_time(now.wall, zone),
        ..State::at_start()
    }
}

/// How many frames a screen is given to come to rest: panels learn their sizes
/// in the first, and what moves has come to its end after some more.
const FRAMES: usize = 8;

/// How far a frame's clock is ahead of the one before, in seconds.
const FRAME: f32 = 0.25;

/// The screen as an image of this size.
///
/// # Errors
/// [`PictureError::Draw`] where something on it cannot be drawn here.
fn drawn([width, height]: [u32; 2], state: &State) -> Result<image::RgbaImage, PictureError> {
    let ctx = Context::default();
    ctx.set_theme(Theme::Light);
    theme::install(&ctx);
    let size = Vec2::new(width as f32, height as f32);
    let mut painter = Painter::default();
    let mut frame = || {
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, size)),
            predicted_dt: FRAME,
            ..RawInput::default()
        };
        let mut output = ctx.run_ui(input, |ui| {
            shell::show(ui, state);
        });
        painter.take_textures(&mut output.textures_delta);
        output
    };
    let mut output = frame();
    for _ in 1..FRAMES {
        let root = output.viewport_output.get(&ViewportId::ROOT);
        if root.is_none_or(|root| root.repaint_delay > Duration::ZERO) {
            break;
        }
        output = frame();
    }
    painter.paint(&ctx, &output).map_err(PictureError::Draw)
}
