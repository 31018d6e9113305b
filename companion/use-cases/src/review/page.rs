//! One printable page of a service: drawn once, as SVG, and from that made
//! into a PDF with real text, or a PNG.
//!
//! What is to be read from two metres is large: how much was given away, each
//! dish's mean, what was short and heavy, what to aim at. Each dish has the same
//! three charts on one axis of mass: the services before, the night's dots, and
//! how the masses are spread. The sentences are for who steps up to it.

use super::{DishNight, Night, words};
use crate::colours;
use crate::printing::{self, A4, HEIGHT, PLAIN, PageError, STRONG, WIDTH};
use crate::times;
use crate::words::say;
use evenhand_kitchen::service::{ServiceCalendar, histogram};
use evenhand_kitchen::tin::Tin;
use evenhand_kitchen::yield_flow::{Destination, YieldFlow};
use evenhand_protocol::{Mass, Verdict};
use evenhand_words::Language;
use jiff::Timestamp;
use svg::Document;
use svg::node::element::{Circle, Line, Path, Rectangle, Text};

const MARGIN: f32 = 30.0;
const RIGHT: f32 = WIDTH - MARGIN;
/// How many dishes have room.
const ROOM: usize = 6;
/// How wide the figures beside the charts run.
const FIGURES: f32 = 176.0;
/// How wide the services before and the spread of the masses are.
const BEFORE: f32 = 74.0;
/// As [`BEFORE`].
const SPREAD: f32 = 62.0;
const BARS: usize = 24;

const INK: &str = colours::INK.css();
const SOFT: &str = colours::SOFT_INK.css();
const FAINT: &str = colours::FAINT.css();
const BAND: &str = colours::BAND.css();
const SHORT: &str = colours::SHORT.css();
const ON: &str = colours::ON.css();
const HEAVY: &str = colours::HEAVY.css();
const LOST: &str = "#f0b98f";
const LEFT: &str = "#b9c0c6";
const DOUBT: &str = "#f6ddcf";

/// The page as SVG.
#[must_use]
pub fn svg(language: Language, night: &Night, calendar: &ServiceCalendar) -> String {
    let mut page = Page {
        language,
        document: Document::new()
            .set("width", WIDTH)
            .set("height", HEIGHT)
            .set("viewBox", (0, 0, WIDTH, HEIGHT)),
    };
    page.rectangle(0.0, 0.0, WIDTH, HEIGHT, "#ffffff");
    let top = page.heading(night, calendar);
    let bottom = HEIGHT - 46.0;
    let shown = night.dishes.len().min(ROOM);
    // A block no taller than it can use, however few dishes there are.
    let tall = ((bottom - top) / shown.max(1) as f32).min(240.0);
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
pub fn pdf(
    language: Language,
    night: &Night,
    calendar: &ServiceCalendar,
) -> Result<Vec<u8>, PageError> {
    printing::pdf_in(
        A4,
        language,
        &title(language, night),
        &[svg(language, night, calendar)],
    )
}

/// The page as PNG, at 144 dots an inch.
///
/// # Errors
/// [`PageError`] where the page cannot be drawn.
pub fn png(
    language: Language,
    night: &Night,
    calendar: &ServiceCalendar,
) -> Result<Vec<u8>, PageError> {
    printing::png(A4, &svg(language, night, calendar))
}

fn title(language: Language, night: &Night) -> String {
    let day = times::day_of_year(language, night.service.day);
    say!(language, "page-title", day = day).into_owned()
}

struct Page {
    language: Language,
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

    fn text(&mut self, at: (f32, f32), size: f32, look: Ink, words: &str) {
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

    /// As [`Page::text`], smaller where it would be wider than `wide`.
    fn text_within(&mut self, at: (f32, f32), size: f32, look: Ink, wide: f32, words: &str) {
        let taken = words.chars().count() as f32 * letter(look.strong);
        let size = size.min(wide / taken.max(0.1));
        self.text(at, size, look, words);
    }

    /// Returns where what follows begins.
    fn heading(&mut self, night: &Night, calendar: &ServiceCalendar) -> f32 {
        let language = self.language;
        self.text((MARGIN, 50.0), 25.0, STRONG_INK, &title(language, night));
        let together = night.together();
        let mut said = vec![say!(language, "page-portions", count = together.n())];
        said.extend(night.service.first_order.map(|at| {
            let time = calendar.clock(at);
            say!(language, "page-first-order", time = time)
        }));
        said.extend(night.service.last_order.map(|at| {
            let time = calendar.clock(at);
            say!(language, "page-last-order", time = time)
        }));
        self.text((MARGIN, 67.0), 11.0, SOFT_INK, &said.join(", "));
        let given = match together.given_away_money() {
            Some(money) => words::money(language, money),
            None => words::grams(language, together.given_away()),
        };
        self.text((RIGHT, 50.0), 25.0, STRONG_INK.ending(), &given);
        self.text(
            (RIGHT, 67.0),
            11.0,
            SOFT_INK.ending(),
            &say!(language, "page-given-away"),
        );
        self.line((MARGIN, 75.0), (RIGHT, 75.0), 1.2, INK);
        79.0
    }

    fn dish(&mut self, dish: &DishNight, calendar: &ServiceCalendar, top: f32, tall: f32) {
        let flows = dish.yields.iter().take(2).count() as f32 * FLOW;
        let said = sentences(self.language, dish, calendar);
        // The charts have what the sentences leave.
        let lines = tall_of(&said, 7.4);
        let charts = (tall - flows - lines - 30.0).clamp(44.0, 130.0);
        let axis = Axis::of(dish, top + 8.0, top + 8.0 + charts);
        self.figures(dish, top, charts);
        let left = MARGIN + FIGURES + 34.0;
        let before = left..left + BEFORE;
        let night = before.end + 8.0..RIGHT - SPREAD - 8.0;
        let spread = RIGHT - SPREAD..RIGHT;
        for panel in [&before, &night, &spread] {
            self.band(dish, panel, &axis);
        }
        self.marks(dish, left - 4.0, &axis);
        self.before(dish, &before, &axis);
        self.dots(dish, calendar, &night, &axis);
        self.spread(dish, &spread, &axis);
        let mut y = axis.bottom + 15.0;
        for (tin, flow) in dish.yields.iter().take(2) {
            self.flow(tin, flow, y);
            y += FLOW;
        }
        y += 8.0;
        let room = top + tall - 5.0 - y + 6.6;
        let (size, lines) = fitted(self.language, &said, room);
        for (nth, line) in lines {
            let look = if nth == 0 { STRONG_INK } else { PLAIN_INK };
            self.text((MARGIN, y), size, look, &line);
            y += size * LEADING;
        }
        self.line(
            (MARGIN, top + tall - 2.0),
            (RIGHT, top + tall - 2.0),
            0.6,
            SOFT,
        );
    }

    /// What is to be read from afar.
    fn figures(&mut self, dish: &DishNight, top: f32, tall: f32) {
        let language = self.language;
        let grams = |mass| words::grams(language, mass);
        let review = &dish.review;
        let spread = &review.spread;
        let goal = review.goal;
        let step = (tall / 105.0).clamp(0.5, 1.15);
        let mut y = top + 7.0 + 12.0 * step;
        let wide = FIGURES - 4.0;
        self.text_within((MARGIN, y), 16.0 * step, STRONG_INK, wide, dish.name());
        y += 28.0 * step;
        let mean = spread.mean().map_or_else(String::new, grams);
        self.text((MARGIN, y), 30.0 * step, STRONG_INK, &mean);
        let tolerance = goal.tolerance();
        let target = if tolerance.below == tolerance.above {
            say!(
                language,
                "page-target",
                target = grams(goal.target()),
                within = grams(tolerance.above)
            )
        } else {
            say!(
                language,
                "page-target-between",
                target = grams(goal.target()),
                low = grams(goal.lightest()),
                high = grams(goal.heaviest())
            )
        };
        let target = match spread.standard_deviation() {
            Some(deviation) => {
                let spread = say!(language, "page-spread", spread = grams(deviation));
                format!("{target}, {spread}")
            }
            None => target.into_owned(),
        };
        y += 15.0 * step;
        self.text_within((MARGIN, y), 10.0 * step, SOFT_INK, wide, &target);
        y += 18.0 * step;
        let counts = say!(
            language,
            "page-counts",
            short = spread.count(Verdict::Short),
            heavy = spread.count(Verdict::Heavy),
            n = spread.n()
        );
        self.text_within((MARGIN, y), 14.0 * step, STRONG_INK, wide, &counts);
        y += 13.0 * step;
        let given = match spread.given_away_money() {
            Some(money) => say!(
                language,
                "page-given-money",
                mass = grams(spread.given_away()),
                money = words::money(language, money)
            ),
            None => say!(language, "page-given", mass = grams(spread.given_away())),
        };
        self.text_within((MARGIN, y), 10.5 * step, PLAIN_INK, wide, &given);
        if let Ok(advice) = &review.advice {
            y += 17.0 * step;
            let aim = say!(language, "page-aim", aim = grams(advice.aim.aim));
            self.text_within((MARGIN, y), 16.0 * step, STRONG_INK, wide, &aim);
        }
    }

    /// The tolerance band, and the target through it.
    fn band(&mut self, dish: &DishNight, panel: &Across, axis: &Axis) {
        let goal = dish.review.goal;
        let (high, low) = (
            axis.y(goal.heaviest() - goal.target()),
            axis.y(goal.lightest() - goal.target()),
        );
        self.rectangle(panel.start, high, panel.end - panel.start, low - high, BAND);
        let target = axis.y(Mass::ZERO);
        self.line((panel.start, target), (panel.end, target), 1.0, ON);
    }

    /// Target and limits beside the axis.
    fn marks(&mut self, dish: &DishNight, right: f32, axis: &Axis) {
        let goal = dish.review.goal;
        for mass in [goal.target(), goal.heaviest(), goal.lightest()] {
            let y = axis.y(mass - goal.target()) + 2.8;
            let grams = (mass.grams() * 100.0).round() / 100.0;
            let grams = self.language.figure(grams.to_string());
            self.text((right, y), 8.0, SOFT_INK.ending(), &grams);
        }
    }

    /// Each service before and this one last: the mean, and a standard
    /// deviation to either side. A mean off the axis is a mark at its end.
    fn before(&mut self, dish: &DishNight, panel: &Across, axis: &Axis) {
        let target = dish.review.goal.target();
        let tonight = dish.review.doubted();
        let night = (None, &tonight);
        let all: Vec<_> = dish
            .before
            .iter()
            .map(|(day, spread)| (Some(*day), spread))
            .chain([night])
            .collect();
        let step = (panel.end - panel.start) / all.len().max(1) as f32;
        for (nth, (day, doubted)) in all.iter().enumerate() {
            // Of what can be relied on, where anything can.
            let spread = if doubted.relied.n() > 0 {
                &doubted.relied
            } else {
                &doubted.all
            };
            let Some(mean) = spread.mean() else {
                continue;
            };
            let x = panel.start + step * (nth as f32 + 0.5);
            let colour = if day.is_some() { SOFT } else { INK };
            let wide = if day.is_some() { 1.6 } else { 3.0 };
            let y = axis.y(mean - target);
            if y < axis.top || y > axis.bottom {
                let end = y.clamp(axis.top + 2.0, axis.bottom - 2.0);
                self.triangle((x, end), if y > end { -2.6 } else { 2.6 }, SOFT);
                continue;
            }
            if let Some(deviation) = spread.standard_deviation() {
                let ends = [mean + deviation, mean - deviation].map(|mass| axis.y(mass - target));
                let ends = ends.map(|y| y.clamp(axis.top, axis.bottom));
                self.line((x, ends[0]), (x, ends[1]), wide, colour);
            }
            self.add(
                Circle::new()
                    .set("cx", x)
                    .set("cy", y)
                    .set("r", wide + 0.4)
                    .set("fill", colour),
            );
            if let Some(with_all) = doubted.all.mean()
                && doubted.doubts.weights() > 0
            {
                let y = axis.y(with_all - target).clamp(axis.top, axis.bottom);
                self.add(
                    Circle::new()
                        .set("cx", x)
                        .set("cy", y)
                        .set("r", wide + 1.8)
                        .set("fill", "none")
                        .set("stroke", INK)
                        .set("stroke-width", 0.8),
                );
            }
        }
        let before = say!(self.language, "page-before", count = dish.before.len());
        self.text((panel.start, axis.bottom + 9.0), 7.5, SOFT_INK, &before);
    }

    /// The dots of the night over the hours.
    fn dots(&mut self, dish: &DishNight, calendar: &ServiceCalendar, panel: &Across, axis: &Axis) {
        let (Some(first), Some(last)) = (dish.portions.first(), dish.portions.last()) else {
            return;
        };
        let from = first.time.as_second().div_euclid(1800) * 1800;
        let to = (last.time.as_second().div_euclid(1800) + 1) * 1800;
        let x = |second: f64| {
            let along = ((second - from as f64) / (to - from) as f64).clamp(0.0, 1.0);
            panel.start + (panel.end - panel.start) * along as f32
        };
        for failed in &dish.failed_tests {
            let begin = failed.last_good.map_or(from, Timestamp::as_second);
            let end = failed.put_right.map_or(to, |right| right.at().as_second());
            let (begin, end) = (x(begin as f64), x(end as f64));
            self.add(
                Rectangle::new()
                    .set("x", begin)
                    .set("y", axis.top)
                    .set("width", end - begin)
                    .set("height", axis.bottom - axis.top)
                    .set("fill", DOUBT)
                    .set("fill-opacity", 0.5),
            );
            let look = Ink {
                colour: HEAVY,
                ..PLAIN_INK
            };
            let at = (begin + 3.0, axis.bottom - 3.0);
            self.text(at, 7.5, look, &say!(self.language, "page-test-failed"));
        }
        let steps = [1800, 3600, 7200];
        let step = steps
            .into_iter()
            .find(|step| (to - from) / step <= 6)
            .unwrap_or(14_400);
        let mut hour = (from + step - 1).div_euclid(step) * step;
        while hour <= to {
            if let Ok(at) = Timestamp::from_second(hour) {
                let along = x(hour as f64);
                self.line((along, axis.top), (along, axis.bottom), 0.4, FAINT);
                let anchor = if along - panel.start < 11.0 {
                    "start"
                } else if panel.end - along < 11.0 {
                    "end"
                } else {
                    "middle"
                };
                let look = Ink { anchor, ..SOFT_INK };
                let clock = calendar.clock(at);
                self.text((along, axis.bottom + 9.0), 7.5, look, &clock);
            }
            hour += step;
        }
        for portion in &dish.portions {
            let at = (
                x(portion.time.as_millisecond() as f64 / 1000.0),
                axis.y(portion.mass - portion.goal.target()),
            );
            self.mark(at, portion.verdict());
        }
    }

    /// How many portions are of which mass, along the same axis.
    fn spread(&mut self, dish: &DishNight, panel: &Across, axis: &Axis) {
        let goal = dish.review.goal;
        let off = dish
            .portions
            .iter()
            .map(|portion| portion.mass - portion.goal.target());
        let bars = histogram(off, -axis.span, axis.span, BARS);
        let most = bars.iter().map(|bar| bar.count).max().unwrap_or(0).max(1);
        for bar in bars.iter().filter(|bar| bar.count > 0) {
            let colour = match goal.judge(goal.target() + bar.middle()) {
                Verdict::Short => SHORT,
                Verdict::On => ON,
                Verdict::Heavy => HEAVY,
            };
            let (high, low) = (axis.y(bar.to), axis.y(bar.from));
            let wide = (panel.end - panel.start) * bar.count as f32 / most as f32;
            self.rectangle(panel.start, high + 0.3, wide, low - high - 0.6, colour);
        }
        self.line(
            (panel.start, axis.top),
            (panel.start, axis.bottom),
            0.6,
            SOFT,
        );
        self.text(
            (panel.start, axis.bottom + 9.0),
            7.5,
            SOFT_INK,
            &say!(self.language, "page-by-mass"),
        );
    }

    /// Where a purchase went, as long as it weighed.
    fn flow(&mut self, tin: &Tin, flow: &YieldFlow, top: f32) {
        let parts = flow.parts();
        let whole = parts
            .iter()
            .map(|(_, mass)| mass.grams().max(0.0))
            .sum::<f64>()
            .max(flow.bought.grams());
        let mut x = MARGIN;
        let mut free = MARGIN;
        let language = self.language;
        let bought = say!(
            language,
            "page-bought",
            purchase = words::tin(language, tin),
            mass = words::grams(language, flow.bought)
        );
        self.text((RIGHT, top + 21.0), 8.0, SOFT_INK.ending(), &bought);
        for (part, mass) in parts {
            let share = mass.grams().max(0.0) / whole;
            let wide = (RIGHT - MARGIN) * share as f32;
            let colour = match part {
                Destination::Portioned => ON,
                Destination::Left | Destination::ShouldBeLeft => LEFT,
                Destination::Lost(_) => LOST,
                Destination::Unaccounted => HEAVY,
            };
            self.rectangle(x, top + 2.0, wide, 9.0, colour);
            x += wide;
            // Each with its colour, one beside the other.
            let said = format!(
                "{} {}",
                words::part(language, part),
                words::share(language, flow, mass)
            );
            self.rectangle(free, top + 15.0, 6.0, 6.0, colour);
            self.text((free + 8.5, top + 21.0), 8.0, PLAIN_INK, &said);
            free += 17.0 + 8.0 * letter(false) * said.chars().count() as f32;
        }
    }

    /// A dot of a shape as well as a colour: short points down, heavy up.
    fn mark(&mut self, (x, y): (f32, f32), verdict: Verdict) {
        match verdict {
            Verdict::On => self.add(
                Circle::new()
                    .set("cx", x)
                    .set("cy", y)
                    .set("r", 1.6)
                    .set("fill", ON),
            ),
            Verdict::Short => self.triangle((x, y), -2.3, SHORT),
            Verdict::Heavy => self.triangle((x, y), 2.3, HEAVY),
        }
    }

    /// A triangle, its tip `up` above its middle, or below where negative.
    fn triangle(&mut self, (x, y): (f32, f32), up: f32, colour: &str) {
        let r = up.abs();
        let path = format!(
            "M{} {} L{} {} L{x} {} Z",
            x - r,
            y + up,
            x + r,
            y + up,
            y - up
        );
        self.add(Path::new().set("d", path).set("fill", colour));
    }

    fn foot(&mut self, night: &Night, left_out: usize) {
        let language = self.language;
        let supposed = say!(
            language,
            "page-marks",
            alarms = words::false_alarms(language, &night.assumptions),
            services = night.assumptions.services_a_month
        );
        let mut y = HEIGHT - 34.0;
        if left_out > 0 {
            let more = say!(language, "page-more-dishes", count = left_out);
            self.text((MARGIN, y - 9.0), 8.0, STRONG_INK, &more);
        }
        for line in textwrap::wrap(&supposed, 158) {
            self.text((MARGIN, y), 6.6, SOFT_INK, &line);
            y += 8.4;
        }
    }
}

/// From where to where a chart runs across the page.
type Across = std::ops::Range<f32>;

/// The axis of mass that a dish's charts share: so many grams from the target
/// to either side.
struct Axis {
    span: Mass,
    top: f32,
    bottom: f32,
}

impl Axis {
    fn of(dish: &DishNight, top: f32, bottom: f32) -> Self {
        let goal = dish.review.goal;
        let tolerance = goal.tolerance();
        let limits = tolerance.below.max(tolerance.above).grams() * 1.5;
        let widest = dish
            .portions
            .iter()
            .map(|portion| (portion.mass - portion.goal.target()).abs().grams())
            .fold(limits.max(0.1), f64::max);
        Self {
            span: Mass::from_fractional_grams(widest * 1.05).unwrap_or(Mass::from_grams(1)),
            top,
            bottom,
        }
    }

    /// Where a distance from the target lies.
    fn y(&self, off: Mass) -> f32 {
        let share = off.grams() / (2.0 * self.span.grams());
        self.top + (self.bottom - self.top) * (0.5 - share as f32)
    }
}

/// What the page says of a dish beside its figures and charts.
fn sentences(language: Language, dish: &DishNight, calendar: &ServiceCalendar) -> Vec<String> {
    let review = &dish.review;
    let mut said = vec![words::lead(language, dish, calendar)];
    said.extend(words::failed_tests(language, dish, calendar));
    said.extend(words::doubts(language, review));
    said.push(words::advice(language, review));
    said.push(format!(
        "{} {}",
        words::findings(language, review, calendar),
        words::usual(language, review)
    ));
    said
}

/// How much a purchase's bar and its words take.
const FLOW: f32 = 26.0;

/// From one line to the next, in font sizes.
const LEADING: f32 = 1.2;

/// The average width of the fonts' letters, in font sizes.
const fn letter(strong: bool) -> f32 {
    if strong { 0.5 } else { 0.475 }
}

/// Sentences in lines, each with its sentence's place, in the largest size that
/// they all fit in. What does not fit in the smallest is left to the program.
fn fitted(language: Language, sentences: &[String], tall: f32) -> (f32, Vec<(usize, String)>) {
    let sizes = [9.0, 8.4, 7.8, 7.4, 7.0, 6.6];
    let mut set = (0.0, Vec::new());
    for size in sizes {
        let lines = wrapped(sentences, size);
        let room = (tall / (size * LEADING)) as usize;
        let fits = lines.len() <= room;
        set = (size, lines);
        if fits {
            break;
        }
        if set.1.len() > room {
            set.1.truncate(room.saturating_sub(1));
            set.1
                .push((usize::MAX, say!(language, "page-more").into_owned()));
        }
    }
    set
}

fn wrapped(sentences: &[String], size: f32) -> Vec<(usize, String)> {
    sentences
        .iter()
        .enumerate()
        .flat_map(|(nth, sentence)| {
            let columns = ((RIGHT - MARGIN) / (size * letter(nth == 0))) as usize;
            textwrap::wrap(&unbroken(sentence), columns)
                .into_iter()
                .map(move |line| (nth, line.into_owned()))
                .collect::<Vec<_>>()
        })
        .collect()
}

/// How much room sentences take in a size.
fn tall_of(sentences: &[String], size: f32) -> f32 {
    wrapped(sentences, size).len() as f32 * size * LEADING
}

/// A figure is not parted from its unit.
fn unbroken(sentence: &str) -> String {
    [" g ", " g)", " g,", " g;", " g.", " g:"]
        .into_iter()
        .fold(sentence.to_owned(), |words, unit| {
            words.replace(unit, &unit.replacen(' ', "\u{a0}", 1))
        })
}

#[derive(Clone, Copy)]
struct Ink {
    strong: bool,
    anchor: &'static str,
    colour: &'static str,
}

impl Ink {
    /// With its end where it is set.
    const fn ending(self) -> Self {
        Self {
            anchor: "end",
            ..self
        }
    }
}

const PLAIN_INK: Ink = Ink {
    strong: false,
    anchor: "start",
    colour: INK,
};
const STRONG_INK: Ink = Ink {
    strong: true,
    ..PLAIN_INK
};
const SOFT_INK: Ink = Ink {
    colour: SOFT,
    ..PLAIN_INK
};
