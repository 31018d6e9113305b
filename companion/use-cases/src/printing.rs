//! Drawings on paper: SVG made into a PDF with real text, or a PNG.

use crate::colours;
use evenhand_words::Language;
use krilla::Document as Pdf;
use krilla::geom::Size;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla_svg::{SurfaceExt, SvgSettings};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{ImageHrefResolver, ImageKind, Options, Tree};
use std::sync::Arc;
use svg::Document;
use svg::node::element::{Rectangle, Text};

/// A4 upright (ISO 216), in points of 1/72 inch.
pub const WIDTH: f32 = A4.width;
/// As [`WIDTH`].
pub const HEIGHT: f32 = A4.height;

/// What is printed on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paper {
    /// How wide, in points of 1/72 inch.
    pub width: f32,
    /// How tall, in points.
    pub height: f32,
    /// Dots a point of a PNG.
    dots: f32,
}

/// A4 upright (ISO 216), as PNG at 144 dots an inch.
pub const A4: Paper = Paper {
    width: 595.28,
    height: 841.89,
    dots: 2.0,
};

/// A7 across (ISO 216), 105 by 74 mm, as PNG at 288 dots an inch.
pub const A7_ACROSS: Paper = Paper {
    width: 297.64,
    height: 209.76,
    dots: 4.0,
};

/// The families that the bundled fonts call themselves: the text's,
pub const PLAIN: &str = "Atkinson Hyperlegible Next Medium, Atkinson Hyperlegible Next, sans-serif";
/// and the headings'.
pub const STRONG: &str =
    "Atkinson Hyperlegible Next ExtraBold, Atkinson Hyperlegible Next, sans-serif";

/// Why there is no page.
#[derive(Debug, thiserror::Error)]
#[error("the page could not be made: {0}")]
pub struct PageError(String);

/// Drawings of that size as the pages of a PDF: vectors, and text that can be searched
/// and copied.
///
/// # Errors
/// [`PageError`] where a page cannot be set.
pub fn pdf(paper: Paper, title: &str, pages: &[String]) -> Result<Vec<u8>, PageError> {
    pdf_in(paper, Language::English, title, pages)
}

/// The same in a language, which readers of the page are told.
///
/// # Errors
/// As for [`pdf`].
pub fn pdf_in(
    paper: Paper,
    language: Language,
    title: &str,
    pages: &[String],
) -> Result<Vec<u8>, PageError> {
    pdf_with(paper, language, title, pages, &[])
}

/// The same with pictures, JPEG, each drawn where a page names it by
/// `picture_name` of its place in the list.
///
/// # Errors
/// As for [`pdf`].
pub fn pdf_with(
    paper: Paper,
    language: Language,
    title: &str,
    pages: &[String],
    pictures: &[Arc<Vec<u8>>],
) -> Result<Vec<u8>, PageError> {
    let mut document = Pdf::new();
    document.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .language(language.code().to_owned()),
    );
    let senseless = || PageError("the page has no size".to_owned());
    for svg in pages {
        let tree = tree(svg, pictures)?;
        let mut page = document.start_page_with(
            PageSettings::from_wh(paper.width, paper.height).ok_or_else(senseless)?,
        );
        let mut surface = page.surface();
        surface
            .draw_svg(
                &tree,
                Size::from_wh(paper.width, paper.height).ok_or_else(senseless)?,
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

/// A white page of that size, to draw on.
pub(crate) fn blank(paper: Paper) -> Document {
    Document::new()
        .set("width", paper.width)
        .set("height", paper.height)
        .set("viewBox", (0, 0, paper.width, paper.height))
        .add(
            Rectangle::new()
                .set("width", paper.width)
                .set("height", paper.height)
                .set("fill", "#ffffff"),
        )
}

/// Words in ink, their base line beginning at `x` and `y`; everything in points.
pub(crate) fn text(x: f32, y: f32, size: f32, strong: bool, words: impl Into<String>) -> Text {
    Text::new(words)
        .set("x", x)
        .set("y", y)
        .set("font-size", size)
        .set("font-family", if strong { STRONG } else { PLAIN })
        .set("font-weight", if strong { 800 } else { 500 })
        .set("fill", colours::INK.css())
}

/// A drawing of that size as PNG.
///
/// # Errors
/// [`PageError`] where the page cannot be drawn.
pub fn png(paper: Paper, svg: &str) -> Result<Vec<u8>, PageError> {
    png_with(paper, svg, &[])
}

/// The same with pictures, as for [`pdf_with`].
///
/// # Errors
/// As for [`png`].
pub fn png_with(paper: Paper, svg: &str, pictures: &[Arc<Vec<u8>>]) -> Result<Vec<u8>, PageError> {
    let tree = tree(svg, pictures)?;
    let mut pixels = Pixmap::new(
        (paper.width * paper.dots) as u32,
        (paper.height * paper.dots) as u32,
    )
    .ok_or_else(|| PageError("the page has no size".to_owned()))?;
    resvg::render(
        &tree,
        Transform::from_scale(paper.dots, paper.dots),
        &mut pixels.as_mut(),
    );
    pixels
        .encode_png()
        .map_err(|error| PageError(error.to_string()))
}

/// By what a drawing names the picture of that place.
pub(crate) fn picture_name(place: usize) -> String {
    format!("picture:{place}")
}

fn tree(svg: &str, pictures: &[Arc<Vec<u8>>]) -> Result<Tree, PageError> {
    let named = pictures.to_vec();
    let mut options = Options {
        // No drawing names a file.
        image_href_resolver: ImageHrefResolver {
            resolve_data: Box::new(|_, _, _| None),
            resolve_string: Box::new(move |name, _| {
                named
                    .iter()
                    .enumerate()
                    .find(|(place, _)| picture_name(*place) == name)
                    .map(|(_, picture)| ImageKind::JPEG(Arc::clone(picture)))
            }),
        },
        ..Options::default()
    };
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
