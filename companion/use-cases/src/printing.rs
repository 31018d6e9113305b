//! Drawings on paper: SVG made into a PDF with real text, or a PNG.

use krilla::Document as Pdf;
use krilla::geom::Size;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla_svg::{SurfaceExt, SvgSettings};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use std::sync::Arc;

/// A4 upright (ISO 216), in points of 1/72 inch.
pub const WIDTH: f32 = 595.28;
/// As [`WIDTH`].
pub const HEIGHT: f32 = 841.89;

/// The families that the bundled fonts call themselves: the text's,
pub const PLAIN: &str = "Atkinson Hyperlegible Next Medium, Atkinson Hyperlegible Next, sans-serif";
/// and the headings'.
pub const STRONG: &str =
    "Atkinson Hyperlegible Next ExtraBold, Atkinson Hyperlegible Next, sans-serif";

/// Why there is no page.
#[derive(Debug, thiserror::Error)]
#[error("the page could not be made: {0}")]
pub struct PageError(String);

/// Drawings of A4 as the pages of a PDF: vectors, and text that can be searched
/// and copied.
///
/// # Errors
/// [`PageError`] where a page cannot be set.
pub fn pdf(title: &str, pages: &[String]) -> Result<Vec<u8>, PageError> {
    let mut document = Pdf::new();
    document.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .language("en".to_owned()),
    );
    let senseless = || PageError("the page has no size".to_owned());
    for svg in pages {
        let tree = tree(svg)?;
        let mut page =
            document.start_page_with(PageSettings::from_wh(WIDTH, HEIGHT).ok_or_else(senseless)?);
        let mut surface = page.surface();
        surface
            .draw_svg(
                &tree,
                Size::from_wh(WIDTH, HEIGHT).ok_or_else(senseless)?,
                SvgSettings::default(),
            )
            .ok_or_else(|| PageError("the drawing could not be set".to_owned()))?;
        surface.finish();
        page.finish();
    }
    document
        .finish()
        .map_err(|error| PageError(format!("{error:?}")))
}

/// A drawing of A4 as PNG, at 144 dots an inch.
///
/// # Errors
/// [`PageError`] where the page cannot be drawn.
pub fn png(svg: &str) -> Result<Vec<u8>, PageError> {
    let tree = tree(svg)?;
    let mut pixels = Pixmap::new((WIDTH * 2.0) as u32, (HEIGHT * 2.0) as u32)
        .ok_or_else(|| PageError("the page has no size".to_owned()))?;
    resvg::render(&tree, Transform::from_scale(2.0, 2.0), &mut pixels.as_mut());
    pixels
        .encode_png()
        .map_err(|error| PageError(error.to_string()))
}

fn tree(svg: &str) -> Result<Tree, PageError> {
    let mut options = Options::default();
    let fonts = options.fontdb_mut();
    // A dish may be named in a script that the bundled fonts do not have.
    fonts.load_system_fonts();
    for font in [
        &include_bytes!("../../fonts/AtkinsonHyperlegibleNext-Medium.ttf")[..],
        &include_bytes!("../../fonts/AtkinsonHyperlegibleNext-ExtraBold.ttf")[..],
    ] {
        fonts.load_font_source(resvg::usvg::fontdb::Source::Binary(Arc::new(font)));
    }
    Tree::from_str(svg, &options).map_err(|error| PageError(error.to_string()))
}
