//! One printable page of a service: drawn once, as SVG, and from that made
//! into a PDF with real text, or a PNG.

use super::{DishNight, Night, words};
use evenhand_kitchen::service::ServiceCalendar;
use evenhand_protocol::{Mass, Verdict};
use jiff::Timestamp;
use krilla::Document as Pdf;
use krilla::geom::Size;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla_svg::{SurfaceExt, SvgSettings};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use std::sync::Arc;
use svg::Document;
use svg::node::element::{Circle, Line, Path, Rectangle, Text};

/// A4 upright (ISO 216), in points of 1/72 inch.
const WIDTH: f32 = 595.28;
/// As [`WIDTH`].
const HEIGHT: f32 = 841.89;
const MARGIN: f32 = 34.0;
/// How wide the sentences run.
const TEXT: f32 = 250.0;
/// How many dishes have room.
const ROOM: usize = 6;

const INK: &str = "#10161b";
const SOFT: &str = "#3f4952";
const FAINT: &str = "#d9dad6";
const BAND: &str = "#bce3d2";
const SHORT: &str = "#1666cc";
const ON: &str = "#00382a";
const HEAVY: &str = "#b44400";

/// The families that the bundled fonts call themselves.
const PLAIN: &str = "Atkinson Hyperlegible Next Medium, Atkinson Hyperlegible Next, sans-serif";
const STRONG: &str = "Atkinson Hyperlegible Next ExtraBold, Atkinson Hyperlegible Next, sans-serif";

/// Why there is no page.
#[derive(Debug, thiserror::Error)]
#[error("the page could not be made: {0}")]
pub struct PageError(String);

/// The page as SVG.
#[must_use]
pub fn svg(night: &Night, calendar: &ServiceCalendar) -> String {
    let mut page = Page {
        document: Document::new()
            .set("width", WIDTH)
            .set("height", HEIGHT)
            .set("viewBox", (0, 0, WIDTH, HEIGHT)),
    };
    page.rectangle(0.0, 0.0, WIDTH, HEIGHT, "#ffffff");
    let top = page.heading(night, calendar);
    let bottom = HEIGHT - 58.0;
    let shown = night.dishes.len().min(ROOM);
    // A block no taller than it can use, however few dishes there are.
    let tall = ((bottom - top) / shown.max(1) as f32).min(200.0);
    for (nth, dish) in night.dishes.iter().take(shown).enumerate() {
        page.dish(dish, calendar, top + tall * nth as f32, tall);
    }
    page.foot(night, night.dishes.len() - shown);
    page.document.to_string()
}

/// The page as PDF: vectors, and text that can be searched and copied.
///
/// # Errors
/// [`PageError`] where the page cannot be set.
pub fn pdf(night: &Night, calendar: &ServiceCalendar) -> Result<Vec<u8>, PageError> {
    let tree = tree(&svg(night, calendar))?;
    let mut document = Pdf::new();
    document.set_metadata(
        Metadata::new()
            .title(format!("Service of {}", words::day(night.service.day)))
            .language("en".to_owned()),
    );
    let senseless = || PageError("the page has no size".to_owned());
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
    document
        .finish()
        .map_err(|error| PageError(format!("{error:?}")))
}

/// The page as PNG, at 144 dots an inch.
///
/// # Errors
/// [`PageError`] where the page cannot be drawn.
pub fn png(night: &Night, calendar: &ServiceCalendar) -> Result<Vec<u8>, PageError> {
    let tree = tree(&svg(night, calendar))?;
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

struct Page {
    document: Document,
}

impl Page {
    fn add(&mut self, node: impl Into<Box<dyn svg::Node>>) {
        svg::Node::append(&mut self.document, node);
    }

    fn rectangle(&mut self, x: f32, y: f32, width: f32, height: f32, fill: &str) {
        self.add(
            Rectangle::new()
                .set("x", x)
                .set("y", y)
                .set("width", width.max(0.0))
                .set("height", height.max(0.0))
                .set("fill", fill),
        );
    }

    fn line(&mut self, from: (f32, f32), to: (f32, f32), width: f32, colour: &str) {
        self.add(
            Line::new()
                .set("x1", from.0)
                .set("y1", from.1)
                .set("x2", to.0)
                .set("y2", to.1)
                .set("stroke", colour)
                .set("stroke-width", width),
        );
    }

    fn text(&mut self, at: (f32, f32), size: f32, look: Look, words: &str) {
        let (family, weight) = if look.strong {
            (STRONG, 800)
        } else {
            (PLAIN, 500)
        };
        self.add(
            Text::new(words)
                .set("x", at.0)
                .set("y", at.1)
                .set("font-size", size)
                .set("font-family", family)
                .set("font-weight", weight)
                .set("text-anchor", look.anchor)
                .set("fill", look.colour),
        );
    }

    /// Returns where what follows begins.
    fn heading(&mut self, night: &Night, calendar: &ServiceCalendar) -> f32 {
        let title = format!("Service of {}", words::day(night.service.day));
        self.text((MARGIN, 52.0), 24.0, STRONG_INK, &title);
        let together = night.together();
        let mut said = format!("{} portions", together.n());
        let mut order = |what: &str, at: Option<Timestamp>| {
            if let Some(at) = at {
                said += &format!(", {what} order {}", calendar.clock(at));
            }
        };
        order("first", night.service.first_order);
        order("last", night.service.last_order);
        self.text((MARGIN, 70.0), 10.5, SOFT_INK, &said);
        let given = match together.given_away_money() {
            Some(money) => money.to_string(),
            None => words::grams(together.given_away()),
        };
        let right = WIDTH - MARGIN;
        let end = Look {
            anchor: "end",
            ..STRONG_INK
        };
        self.text((right, 52.0), 24.0, end, &given);
        let end = Look {
            anchor: "end",
            ..SOFT_INK
        };
        self.text((right, 70.0), 10.5, end, "given away above the targets");
        self.line((MARGIN, 80.0), (right, 80.0), 1.2, INK);
        86.0
    }

    fn dish(&mut self, dish: &DishNight, calendar: &ServiceCalendar, top: f32, tall: f32) {
        let review = &dish.review;
        let goal = review.goal;
        let tolerance = goal.tolerance();
        self.text((MARGIN, top + 15.0), 13.0, STRONG_INK, dish.name());
        let target = if tolerance.below == tolerance.above {
            format!(
                "target {} ± {}",
                words::grams(goal.target()),
                words::grams(tolerance.above)
            )
        } else {
            format!(
                "target {}, {} to {}",
                words::grams(goal.target()),
                words::grams(goal.lightest()),
                words::grams(goal.heaviest())
            )
        };
        let end = Look {
            anchor: "end",
            ..SOFT_INK
        };
        let middle = MARGIN + 262.0;
        self.text((middle, top + 15.0), 9.0, end, &target);
        let plot = Plot {
            left: MARGIN + 30.0,
            right: middle,
            top: top + 22.0,
            bottom: top + tall - 26.0,
        };
        self.dots(dish, calendar, &plot);
        let mut y = top + 13.0;
        let left = middle + 14.0;
        let said = [
            words::advice(review),
            words::evenness(review),
            words::cost(review),
            words::change(review),
            words::drift(review).unwrap_or_default(),
            words::signals(review, calendar),
        ];
        let (size, lines) = fitted(&said, tall - 16.0);
        for (nth, line) in lines {
            let look = if nth == 0 { STRONG_INK } else { PLAIN_INK };
            self.text((left, y), size, look, &line);
            y += size * LEADING;
        }
        self.line(
            (MARGIN, top + tall - 2.0),
            (WIDTH - MARGIN, top + tall - 2.0),
            0.5,
            FAINT,
        );
    }

    /// The dots of the night over the tolerance band, with the target and the
    /// hours.
    fn dots(&mut self, dish: &DishNight, calendar: &ServiceCalendar, plot: &Plot) {
        let goal = dish.review.goal;
        let off = |mass: Mass, of: Mass| (mass - of).grams() as f32;
        let span = dish
            .portions
            .iter()
            .map(|portion| off(portion.mass, portion.goal.target()).abs())
            .fold(goal.tolerance().above.grams() as f32 * 1.6, f32::max)
            .max(0.1)
            * 1.06;
        let height = plot.bottom - plot.top;
        let y = |grams: f32| plot.top + height * (0.5 - grams / (2.0 * span));
        let (above, below) = (
            y(goal.tolerance().above.grams() as f32),
            y(-(goal.tolerance().below.grams() as f32)),
        );
        self.rectangle(
            plot.left,
            above,
            plot.right - plot.left,
            below - above,
            BAND,
        );
        self.line((plot.left, y(0.0)), (plot.right, y(0.0)), 0.8, ON);
        let end = Look {
            anchor: "end",
            ..SOFT_INK
        };
        let tick = |mass: Mass| format!("{}", (mass.grams() * 100.0).round() / 100.0);
        for (at, mass) in [
            (y(0.0), goal.target()),
            (above, goal.heaviest()),
            (below, goal.lightest()),
        ] {
            self.text((plot.left - 4.0, at + 2.6), 7.5, end, &tick(mass));
        }
        let (Some(first), Some(last)) = (dish.portions.first(), dish.portions.last()) else {
            return;
        };
        let from = first.time.as_second().div_euclid(1800) * 1800;
        let to = (last.time.as_second().div_euclid(1800) + 1) * 1800;
        let x = |second: f64| {
            plot.left
                + (plot.right - plot.left) * ((second - from as f64) / (to - from) as f64) as f32
        };
        let step = if to - from > 4 * 3600 { 3600 } else { 1800 };
        let mut hour = from.div_euclid(step) * step;
        while hour <= to {
            if hour >= from
                && let Ok(at) = Timestamp::from_second(hour)
            {
                let along = x(hour as f64);
                self.line((along, plot.top), (along, plot.bottom), 0.4, FAINT);
                let centre = Look {
                    anchor: "middle",
                    ..SOFT_INK
                };
                self.text((along, plot.bottom + 9.0), 7.0, centre, &calendar.clock(at));
            }
            hour += step;
        }
        for portion in &dish.portions {
            let at = (
                x(portion.time.as_millisecond() as f64 / 1000.0),
                y(off(portion.mass, portion.goal.target())),
            );
            self.mark(at, portion.verdict());
        }
    }

    /// A dot of a shape as well as a colour: short points down, heavy up.
    fn mark(&mut self, (x, y): (f32, f32), verdict: Verdict) {
        let r = 2.1;
        let (tip, colour) = match verdict {
            Verdict::On => {
                self.add(
                    Circle::new()
                        .set("cx", x)
                        .set("cy", y)
                        .set("r", 1.5)
                        .set("fill", ON),
                );
                return;
            }
            Verdict::Short => (r, SHORT),
            Verdict::Heavy => (-r, HEAVY),
        };
        let path = format!(
            "M{} {} L{} {} L{} {} Z",
            x - r,
            y - tip,
            x + r,
            y - tip,
            x,
            y + tip
        );
        self.add(Path::new().set("d", path).set("fill", colour));
    }

    fn foot(&mut self, night: &Night, left_out: usize) {
        let supposed = format!(
            "Intervals hold the truth 19 times in 20 (means by Student's t and Welch, spreads by chi-squared and F), \
             for portions that are normally spread. The savings suppose {} services a month like this one. \
             What an interval leaves open is not known. Run rules: Western Electric, on individuals \
             and moving ranges. Marks: triangle down short, dot on, triangle up heavy.",
            night.assumptions.services_a_month
        );
        let mut y = HEIGHT - 42.0;
        if left_out > 0 {
            let more = format!("And {left_out} more: see evenhand service show.");
            self.text((MARGIN, y - 10.0), 8.0, STRONG_INK, &more);
        }
        for line in textwrap::wrap(&supposed, 150) {
            self.text((MARGIN, y), 7.0, SOFT_INK, &line);
            y += 9.0;
        }
    }
}

/// From one line to the next, in font sizes.
const LEADING: f32 = 1.2;

/// Sentences in lines, each with its sentence's place, in the largest size that
/// they all fit in. What does not fit in the smallest is left to the program.
fn fitted(sentences: &[String], tall: f32) -> (f32, Vec<(usize, String)>) {
    let sizes = [7.8, 7.4, 7.0, 6.6, 6.2];
    let mut set = (0.0, Vec::new());
    for size in sizes {
        let lines: Vec<(usize, String)> = sentences
            .iter()
            .enumerate()
            .flat_map(|(nth, sentence)| {
                // Average widths of the fonts' letters; the heavy one is wider.
                let wide = if nth == 0 { 0.545 } else { 0.515 };
                let columns = (TEXT / (size * wide)) as usize;
                textwrap::wrap(&unbroken(sentence), columns)
                    .into_iter()
                    .map(move |line| (nth, line.into_owned()))
                    .collect::<Vec<_>>()
            })
            .collect();
        let room = (tall / (size * LEADING)) as usize;
        let fits = lines.len() <= room;
        set = (size, lines);
        if fits {
            break;
        }
        if set.1.len() > room {
            set.1.truncate(room.saturating_sub(1));
            set.1
                .push((usize::MAX, "More: evenhand service show".to_owned()));
        }
    }
    set
}

/// A figure is not parted from its unit.
fn unbroken(sentence: &str) -> String {
    [" g ", " g)", " g,", " g;", " g.", " g:"]
        .into_iter()
        .fold(sentence.to_owned(), |words, unit| {
            words.replace(unit, &unit.replacen(' ', "\u{a0}", 1))
        })
}

struct Plot {
    left: f32,
    right: f32,
    top: f32,
    bottom: f32,
}

#[derive(Clone, Copy)]
struct Look {
    strong: bool,
    anchor: &'static str,
    colour: &'static str,
}

const PLAIN_INK: Look = Look {
    strong: false,
    anchor: "start",
    colour: INK,
};
const STRONG_INK: Look = Look {
    strong: true,
    ..PLAIN_INK
};
const SOFT_INK: Look = Look {
    colour: SOFT,
    ..PLAIN_INK
};
