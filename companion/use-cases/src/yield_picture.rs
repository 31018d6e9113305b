//! Batches of one title in one picture: what went in, what came out of it and
//! the mark, one row a batch, the earliest on top, all over the base.

use crate::colours::{self, CAME_OUT, NOT_OUT};
use crate::printing::{self, A4, HEIGHT, PageError, WIDTH, blank, text};
use crate::times;
use crate::words::say;
use evenhand_kitchen::batch::{YieldRow, Yields};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use svg::node::element::{Line, Rectangle};

const MARGIN: f32 = 42.0;
const LEFT: f32 = 130.0;
const RIGHT: f32 = WIDTH - 90.0;
/// The most rows that a page has room for; the latest are kept.
pub const ROOM: usize = 24;

/// What the part of a bar is that did not come out.
#[must_use]
pub fn lost_words(language: Language) -> String {
    say!(language, "yields-lost").into_owned()
}

/// What the figures beside a bar are, all over `of`.
#[must_use]
pub fn figures_words(language: Language, of: &str) -> String {
    say!(language, "yields-figures", of = of).into_owned()
}

/// The figures beside a bar: in, out and the mark.
#[must_use]
pub fn row_figures(language: Language, row: &YieldRow) -> String {
    let out: f64 = row.out.iter().flatten().map(|out| out.fraction()).sum();
    let mark = row
        .mark
        .map_or_else(String::new, |mark| format!(" · {}", mark.value()));
    language.figure(format!("{:.2} > {out:.2}{mark}", row.into.fraction()))
}

/// The picture as SVG.
#[must_use]
pub fn svg(
    language: Language,
    (title, of): (&str, &str),
    yields: &Yields,
    zone: &TimeZone,
) -> String {
    let mut page = blank(A4).add(text(MARGIN, MARGIN + 14.0, 20.0, true, title));
    let lost = lost_words(language);
    let legend = yields
        .names
        .iter()
        .enumerate()
        .map(|(nth, name)| (name, fill(nth)))
        .chain([(&lost, NOT_OUT.css())]);
    for (nth, (name, colour)) in legend.enumerate() {
        let x = MARGIN + 130.0 * (nth % 4) as f32;
        let y = MARGIN + 38.0 + 16.0 * (nth / 4) as f32;
        page = page
            .add(
                Rectangle::new()
                    .set("x", x)
                    .set("y", y - 9.0)
                    .set("width", 10)
                    .set("height", 10)
                    .set("fill", colour),
            )
            .add(text(x + 14.0, y, 9.5, false, name));
    }
    let rows = &yields.rows[yields.rows.len().saturating_sub(ROOM)..];
    let most = rows
        .iter()
        .map(|row| {
            let out: f64 = row.out.iter().flatten().map(|out| out.fraction()).sum();
            row.into.fraction().max(out)
        })
        .fold(f64::MIN_POSITIVE, f64::max);
    let wide = |share: f64| (share / most) as f32 * (RIGHT - LEFT);
    let top = MARGIN + 62.0 + 16.0 * (yields.names.len() / 4) as f32;
    let figures = figures_words(language, of);
    page = page.add(text(WIDTH - MARGIN, top - 8.0, 8.5, false, figures).set("text-anchor", "end"));
    let tall = ((HEIGHT - MARGIN - top) / rows.len().max(1) as f32).min(34.0);
    for (nth, row) in rows.iter().enumerate() {
        let y = top + tall * nth as f32;
        let begun = row.begun.map_or_else(String::new, |at| {
            times::short_day_of_year(language, at.to_zoned_datetime(zone.clone()).date())
        });
        page = page.add(text(MARGIN, y + tall * 0.55, 9.5, false, &begun));
        let mut x = LEFT;
        for (place, out) in row.out.iter().enumerate() {
            let Some(out) = out else { continue };
            let bar = wide(out.fraction());
            page = page.add(
                Rectangle::new()
                    .set("x", x)
                    .set("y", y)
                    .set("width", bar)
                    .set("height", tall * 0.7)
                    .set("fill", fill(place)),
            );
            x += bar;
        }
        // What went in and did not come out, to where everything that went in ends.
        let ends = LEFT + wide(row.into.fraction());
        if ends > x {
            page = page.add(
                Rectangle::new()
                    .set("x", x)
                    .set("y", y)
                    .set("width", ends - x)
                    .set("height", tall * 0.7)
                    .set("fill", NOT_OUT.css()),
            );
        }
        page = page.add(
            Line::new()
                .set("x1", ends)
                .set("x2", ends)
                .set("y1", y - 2.0)
                .set("y2", y + tall * 0.7 + 2.0)
                .set("stroke", colours::INK.css())
                .set("stroke-width", 1.2),
        );
        let figures = row_figures(language, row);
        page = page.add(text(RIGHT + 8.0, y + tall * 0.55, 8.5, false, &figures));
    }
    page.to_string()
}

fn fill(place: usize) -> &'static str {
    CAME_OUT[place % CAME_OUT.len()].css()
}

/// The picture as PNG.
///
/// # Errors
/// [`PageError`] where it cannot be drawn.
pub fn png(
    language: Language,
    (title, of): (&str, &str),
    yields: &Yields,
    zone: &TimeZone,
) -> Result<Vec<u8>, PageError> {
    printing::png(A4, &svg(language, (title, of), yields, zone))
}
