//! The program's own painter under the test harness, which then needs no
//! graphics driver.

use eframe::egui::{Context, FullOutput, TexturesDelta};
use egui_kittest::TestRenderer;
use evenhand_app::picture::Painter;

#[derive(Default)]
pub(crate) struct Painted(Painter);

impl TestRenderer for Painted {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        self.0.take_textures(delta);
    }

    fn render(&mut self, ctx: &Context, output: &FullOutput) -> Result<image::RgbaImage, String> {
        self.0.paint(ctx, output)
    }
}
