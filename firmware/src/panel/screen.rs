//! The small display: 128 by 64 points, black and white.
//!
//! ```text
//! 30.0 g ±1.0      #12      target and tolerance, portions of this run
//!
//!      29.6 g               the food, in figures twice the font's size
//!
//! [ SHORT ][  ON  ][ HEAVY ]   the verdict: place, shape and word
//! ```

use core::fmt::Write;
use embedded_graphics::Drawable;
use embedded_graphics::draw_target::{DrawTarget, DrawTargetExt};
use embedded_graphics::geometry::{Dimensions, OriginDimensions, Point, Size};
use embedded_graphics::mono_font::MonoTextStyle;
use embedded_graphics::mono_font::ascii::{FONT_6X10, FONT_10X20};
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::prelude::Pixel;
use embedded_graphics::primitives::{Circle, Primitive, PrimitiveStyle, Rectangle, Triangle};
use embedded_graphics::text::{Alignment, Baseline, Text};
use evenhand_protocol::{Fault, Goal, Mass, Mode, Phase, Reading, Verdict};
use heapless::String;

/// Letters on a line of the small font.
const LINE: usize = 21;

/// What the display shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shown {
    /// The goal.
    pub goal: Option<Goal>,
    /// How portions are made.
    pub mode: Mode,
    /// What the instrument reads out.
    pub reading: Reading,
    /// Portions captured in this run.
    pub count: u32,
    /// The display interval.
    pub interval: Mass,
}

/// Draws on any display of black and white points.
#[derive(Debug, Clone, Default)]
pub struct Screen {
    last: Option<Shown>,
}

impl Screen {
    /// A screen that has drawn nothing.
    #[must_use]
    pub const fn new() -> Self {
        Self { last: None }
    }

    /// Draws what is to be shown where it differs from what was drawn last.
    /// Returns whether it drew.
    ///
    /// # Errors
    /// The display's own; the next call draws all again.
    pub fn show<D>(&mut self, display: &mut D, shown: &Shown) -> Result<bool, D::Error>
    where
        D: DrawTarget<Color = BinaryColor>,
    {
        // A time by itself is nothing to draw.
        let mut same = *shown;
        if let Some(last) = &self.last {
            same.reading.at = last.reading.at;
        }
        if self.last == Some(same) {
            return Ok(false);
        }
        self.last = None;
        display.clear(BinaryColor::Off)?;
        let fault = blocking_fault(&shown.reading);
        match fault {
            Some(fault) => draw_fault(display, fault)?,
            None => draw_work(display, shown)?,
        }
        self.last = Some(*shown);
        Ok(true)
    }
}

/// The fault that keeps the scale from weighing.
fn blocking_fault(reading: &Reading) -> Option<Fault> {
    (reading.phase == Phase::Blocked)
        .then(|| reading.faults.iter().find(|fault| fault.stops_weighing()))
        .flatten()
        .or_else(|| {
            (reading.gross.is_none() && reading.faults.contains(Fault::NegativeLoad))
                .then_some(Fault::NegativeLoad)
        })
}

/// What happened and what to do, in the small font, broken between words.
fn draw_fault<D>(display: &mut D, fault: Fault) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    let style = MonoTextStyle::new(&FONT_6X10, BinaryColor::On);
    let mut lines: String<256> = String::new();
    let mut room = 0;
    let words = fault.sentence().split(' ').chain(fault.remedy().split(' '));
    for word in words {
        let length = word.chars().count();
        let apart = if room == 0 { "" } else { " " };
        let (apart, used) = if room + apart.len() + length > LINE {
            ("\n", length)
        } else {
            (apart, room + apart.len() + length)
        };
        room = used;
        // What does not fit on the display need not be kept.
        if lines.push_str(apart).is_err() || lines.push_str(word).is_err() {
            break;
        }
    }
    Text::with_baseline(&lines, Point::new(0, 0), style, Baseline::Top).draw(display)?;
    Ok(())
}

fn draw_work<D>(display: &mut D, shown: &Shown) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    let small = MonoTextStyle::new(&FONT_6X10, BinaryColor::On);
    let reading = &shown.reading;
    let mut words: String<32> = String::new();
    if let Some(goal) = shown.goal {
        let _ = write!(words, "{}", Figure(goal.target(), shown.interval));
        let (below, above) = (goal.tolerance().below, goal.tolerance().above);
        let _ = if below == above {
            write!(words, " +-{}", Figure(above, shown.interval))
        } else {
            write!(
                words,
                " -{}+{}",
                Figure(below, shown.interval),
                Figure(above, shown.interval)
            )
        };
    }
    Text::with_baseline(&words, Point::new(0, 0), small, Baseline::Top).draw(display)?;
    words.clear();
    let _ = match reading.run {
        Some(_) => write!(words, "#{}", shown.count),
        None => write!(
            words,
            "{}",
            match shown.mode {
                Mode::Adding => "dishes",
                Mode::Taking => "tin",
            }
        ),
    };
    let width = i32::try_from(display.bounding_box().size.width).unwrap_or(128);
    Text::with_text_style(
        &words,
        Point::new(width - 1, 0),
        small,
        embedded_graphics::text::TextStyleBuilder::new()
            .alignment(Alignment::Right)
            .baseline(Baseline::Top)
            .build(),
    )
    .draw(display)?;

    // In a run the food in the portion; else what is on the pan.
    let mass = if reading.run.is_some() {
        reading.amount
    } else {
        reading.net()
    };
    words.clear();
    let _ = match (mass, hint(reading.phase)) {
        (Some(mass), _) => write!(words, "{}", Figure(mass, shown.interval)),
        (None, hint) => write!(words, "{hint}"),
    };
    let big = MonoTextStyle::new(&FONT_10X20, BinaryColor::On);
    if words.len() <= 6 {
        let mut doubled = Doubled(display.translated(Point::new(0, 11)));
        let middle = Point::new(width / 4, 0);
        centred(&words, middle, big).draw(&mut doubled)?;
    } else {
        centred(&words, Point::new(width / 2, 20), big).draw(display)?;
    }
    draw_verdict(display, reading.verdict, reading.stable)
}

fn centred<'t>(
    words: &'t str,
    at: Point,
    style: MonoTextStyle<'t, BinaryColor>,
) -> Text<'t, MonoTextStyle<'t, BinaryColor>> {
    Text::with_text_style(
        words,
        at,
        style,
        embedded_graphics::text::TextStyleBuilder::new()
            .alignment(Alignment::Center)
            .baseline(Baseline::Top)
            .build(),
    )
}

/// What is waited for, where there is no figure to show.
const fn hint(phase: Phase) -> &'static str {
    match phase {
        Phase::AwaitDish => "empty dish",
        Phase::DishSettling | Phase::TinSettling => "wait",
        Phase::AwaitTin => "set tin on",
        Phase::TinAway => "tin back",
        Phase::Ready => "spoon out",
        _ => "---",
    }
}

/// Three boxes, left to right; the one that holds is filled, with its shape and
/// its word: up for more, a round for right, down for less.
fn draw_verdict<D>(display: &mut D, verdict: Option<Verdict>, steady: bool) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    let boxes = [
        (Verdict::Short, 0, 44, "SHORT"),
        (Verdict::On, 46, 34, "ON"),
        (Verdict::Heavy, 82, 46, "HEAVY"),
    ];
    for (of, left, width, word) in boxes {
        let place = Rectangle::new(Point::new(left, 52), Size::new(width, 12));
        let lit = verdict == Some(of);
        let style = if lit {
            PrimitiveStyle::with_fill(BinaryColor::On)
        } else {
            PrimitiveStyle::with_stroke(BinaryColor::On, 1)
        };
        place.into_styled(style).draw(display)?;
        if !lit {
            continue;
        }
        let ink = PrimitiveStyle::with_fill(BinaryColor::Off);
        let (x, y) = (left + 2, 54);
        match of {
            Verdict::Short => Triangle::new(
                Point::new(x, y + 7),
                Point::new(x + 8, y + 7),
                Point::new(x + 4, y),
            )
            .into_styled(ink)
            .draw(display)?,
            Verdict::On => Circle::new(Point::new(x, y), 8)
                .into_styled(ink)
                .draw(display)?,
            Verdict::Heavy => Triangle::new(
                Point::new(x, y),
                Point::new(x + 8, y),
                Point::new(x + 4, y + 7),
            )
            .into_styled(ink)
            .draw(display)?,
        }
        Text::with_baseline(
            word,
            Point::new(x + 11, 53),
            MonoTextStyle::new(&FONT_6X10, BinaryColor::Off),
            Baseline::Top,
        )
        .draw(display)?;
    }
    // A line above the verdict says that the load is steady.
    if steady {
        Rectangle::new(Point::new(0, 49), Size::new(128, 2))
            .into_styled(PrimitiveStyle::with_fill(BinaryColor::On))
            .draw(display)?;
    }
    Ok(())
}

/// A mass in grams with the digits that the display interval allows: `29.6g`.
struct Figure(Mass, Mass);

impl core::fmt::Display for Figure {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let Self(mass, interval) = *self;
        let rounded = mass.rounded_to(interval).micrograms();
        let sign = if rounded < 0 { "-" } else { "" };
        let size = rounded.unsigned_abs();
        let grams = size / 1_000_000;
        let below = size % 1_000_000;
        if interval >= Mass::from_grams(1) {
            write!(f, "{sign}{grams}g")
        } else if interval >= Mass::from_milligrams(100) {
            write!(f, "{sign}{grams}.{}g", below / 100_000)
        } else {
            write!(f, "{sign}{grams}.{:02}g", below / 10_000)
        }
    }
}

/// Every point drawn as four.
struct Doubled<D>(D);

impl<D: DrawTarget> Dimensions for Doubled<D> {
    fn bounding_box(&self) -> Rectangle {
        let whole = self.0.bounding_box();
        Rectangle::new(Point::zero(), whole.size / 2)
    }
}

impl<D: DrawTarget> DrawTarget for Doubled<D> {
    type Color = D::Color;
    type Error = D::Error;

    fn draw_iter<I>(&mut self, pixels: I) -> Result<(), D::Error>
    where
        I: IntoIterator<Item = Pixel<D::Color>>,
    {
        for Pixel(at, color) in pixels {
            let four = Rectangle::new(at * 2, Size::new_equal(2));
            self.0.fill_solid(&four, color)?;
        }
        Ok(())
    }
}

/// 128 by 64, for tests and for displays without a buffer of their own. Held as displays of
/// this size take it: a small processor draws and sends it between two conversions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Frame {
    bands: [[u8; WIDTH]; BANDS],
}

const WIDTH: usize = 128;
const BANDS: usize = 8;
const ROWS_IN_BAND: usize = 8;

impl Default for Frame {
    fn default() -> Self {
        Self {
            bands: [[0; WIDTH]; BANDS],
        }
    }
}

impl Frame {
    /// Whether a point is lit; `false` outside.
    #[must_use]
    pub fn is_lit(&self, x: usize, y: usize) -> bool {
        let bits = self.band(y / ROWS_IN_BAND).get(x);
        bits.is_some_and(|bits| bits >> (y % ROWS_IN_BAND) & 1 == 1)
    }

    /// Eight rows as displays of this size take them: a byte for each column,
    /// the uppermost row in the lowest bit; from band 0, the uppermost. Dark
    /// outside.
    #[must_use]
    pub fn band(&self, band: usize) -> &[u8; WIDTH] {
        self.bands.get(band).unwrap_or(&[0; WIDTH])
    }

    /// Lights a point or puts it out; nothing outside.
    fn point(&mut self, at: Point, color: BinaryColor) {
        let (Ok(x), Ok(y)) = (usize::try_from(at.x), usize::try_from(at.y)) else {
            return;
        };
        let band = self.bands.get_mut(y / ROWS_IN_BAND);
        if let Some(bits) = band.and_then(|band| band.get_mut(x)) {
            let bit = 1 << (y % ROWS_IN_BAND);
            if color.is_on() {
                *bits |= bit;
            } else {
                *bits &= !bit;
            }
        }
    }
}

impl OriginDimensions for Frame {
    fn size(&self) -> Size {
        Size::new(128, 64)
    }
}

impl DrawTarget for Frame {
    type Color = BinaryColor;
    type Error = core::convert::Infallible;

    fn draw_iter<I>(&mut self, pixels: I) -> Result<(), Self::Error>
    where
        I: IntoIterator<Item = Pixel<BinaryColor>>,
    {
        for Pixel(at, color) in pixels {
            self.point(at, color);
        }
        Ok(())
    }

    // Doubled figures are drawn by this, four points at a time.
    fn fill_solid(&mut self, area: &Rectangle, color: BinaryColor) -> Result<(), Self::Error> {
        let area = area.intersection(&self.bounding_box());
        for y in area.rows() {
            for x in area.columns() {
                self.point(Point::new(x, y), color);
            }
        }
        Ok(())
    }

    // Point by point, this alone takes longer than a conversion.
    fn clear(&mut self, color: BinaryColor) -> Result<(), Self::Error> {
        let bits = if color.is_on() { u8::MAX } else { 0 };
        self.bands = [[bits; WIDTH]; BANDS];
        Ok(())
    }
}
