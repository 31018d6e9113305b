//! After service: how even the team was, dish by dish, and where the food went.

use super::portions::reasons;
use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::service::{DishView, FlowView, Look, MoneyView, ServiceView, ServiceWish, Stretch};
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::long_list::LongList;
use crate::widgets::shapes;
use crate::words::{self, Language, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::epaint::Mesh;
use eframe::egui::{
    Align2, Color32, FontFamily, FontId, Id, Key, Pos2, Rangef, Rect, Role, ScrollArea, Sense,
    Shape, TextStyle, Ui, UiBuilder, pos2, vec2,
};
use egui_plot::{
    AxisHints, Bar, BarChart, GridMark, HLine, HoverPosition, Line, MarkerShape, Plot, PlotPoint,
    PlotPoints, PlotUi, Points, Span, VLine,
};
use evenhand_kitchen::service::{Dot, Dots, histogram as bars_of};
use evenhand_kitchen::yield_flow::Destination;
use evenhand_protocol::{Mass, Verdict};
use evenhand_use_cases::review::words as review;
use evenhand_use_cases::times;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::borrow::Cow;

/// The ways to look at a service, with their keys.
const LOOKS: [(Look, Key); 6] = [
    (Look::Night, Key::Num1),
    (Look::Dishes, Key::Num2),
    (Look::Beside, Key::Num3),
    (Look::Yield, Key::Num4),
    (Look::Money, Key::Num5),
    (Look::Everything, Key::Num6),
];

fn look_words(language: Language, look: Look) -> Cow<'static, str> {
    match look {
        Look::Night => say!(language, "service-night"),
        Look::Dishes => say!(language, "service-dishes"),
        Look::Beside => say!(language, "service-last-ten"),
        Look::Yield => say!(language, "service-yield"),
        Look::Money => say!(language, "service-money"),
        Look::Everything => say!(language, "service-everything"),
    }
}

/// How far a wheel turns, in points, to look twice as close.
const WHEEL: f32 = 120.0;

/// How near, in units, a tap must be to a dot.
const NEAR: f32 = 28.0;

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, view: &ServiceView) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let language = words::of(ui);
    let mut wishes = Vec::new();
    let mut rest = Rest(place);
    let mut head = Rest(rest.top(scale.u(72.0)));
    rest.top(scale.u(6.0));
    if view.title.is_empty() {
        text::label(
            ui,
            head.0,
            &say!(language, "service-nothing-yet"),
            &text::Style::new(scale.plain(30.0), theme::INK, Align2::LEFT_CENTER),
        );
        return Vec::new();
    }
    let steps = layout::columns(head.right(scale.u(300.0)), 2, gap);
    head.right(gap);
    for ((words, key, enabled, wish), place) in [
        (
            say!(language, "service-earlier"),
            Key::PageUp,
            view.earlier,
            ServiceWish::Earlier,
        ),
        (
            say!(language, "service-later"),
            Key::PageDown,
            view.later,
            ServiceWish::Later,
        ),
    ]
    .into_iter()
    .zip(steps)
    {
        if BigButton::new(&words)
            .key(key)
            .enabled(enabled)
            .show(ui, place)
        {
            wishes.push(wish);
        }
    }
    let title = head.top(scale.u(42.0));
    text::label(
        ui,
        title,
        &view.title,
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
    text::label(
        ui,
        head.0,
        &view.summary,
        &text::Style::new(scale.plain(24.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    let looks = layout::columns(rest.top(scale.u(theme::TOUCH)), LOOKS.len(), gap);
    rest.top(gap);
    for ((look, key), place) in LOOKS.into_iter().zip(looks) {
        let words = look_words(language, look);
        let button = BigButton::new(&words).weight(chosen(view.look == look));
        // While a reason is chosen, the numbers stand for reasons.
        let button = match view.why {
            None => button.key(key),
            Some(_) => button,
        };
        if button.show(ui, place) {
            wishes.push(ServiceWish::Look(look));
        }
    }
    if matches!(view.look, Look::Night | Look::Beside | Look::Yield) {
        let dishes = layout::columns(
            rest.top(scale.u(theme::TOUCH)),
            view.dishes.len().clamp(1, 6),
            gap,
        );
        rest.top(gap);
        for (nth, (dish, place)) in view.dishes.iter().zip(dishes).enumerate() {
            if BigButton::new(&dish.name)
                .weight(chosen(view.chosen == nth))
                .show(ui, place)
            {
                wishes.push(ServiceWish::Dish(nth));
            }
        }
    }
    wishes.extend(body(ui, rest, view));
    wishes.into_iter().map(Intent::Service).collect()
}

const fn chosen(is: bool) -> Weight {
    if is { Weight::Chosen } else { Weight::Plain }
}

fn body(ui: &mut Ui, mut rest: Rest, view: &ServiceView) -> Vec<ServiceWish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let mut wishes = Vec::new();
    let dish = view.dishes.get(view.chosen);
    match (view.look, dish) {
        (Look::Dishes, _) => wishes.extend(multiples(ui, rest.0, view)),
        (Look::Everything, _) => wishes.extend(everything(ui, rest, view)),
        (Look::Money, _) => wishes.extend(money(ui, rest, &view.money)),
        (_, None) => sentences(ui, rest.0, &view.none_counts),
        (Look::Night, Some(dish)) => {
            let side = rest.right(scale.u(400.0));
            rest.right(scale.u(14.0));
            let mut below = Rest(rest.bottom(rest.0.height() * 0.34));
            below.top(scale.u(8.0));
            let hand = below.right(scale.u(330.0));
            below.right(scale.u(8.0));
            let marks = Marks {
                tolerance: true,
                struck: !dish.struck.is_empty(),
                doubted: !dish.in_doubt.is_empty(),
                stretch: view.span.is_some(),
                picked: view.picked.is_some(),
            };
            legend_of_dots(ui, &mut rest, marks);
            wishes.extend(night(ui, rest.0, view, dish));
            histogram(ui, below.0, dish);
            wishes.extend(steps(ui, hand, view, whole(dish), true));
            wishes.extend(beside_the_dots(ui, side, view, dish));
        }
        (Look::Beside, Some(dish)) => {
            let side = rest.right(scale.u(400.0));
            rest.right(scale.u(14.0));
            let mut entries = vec![
                (Sign::Mean(theme::INK), say!(language, "service-this-one")),
                (
                    Sign::Mean(theme::EDGE),
                    say!(language, "service-one-before"),
                ),
                (
                    Sign::Line(theme::verdict(Verdict::On).fill),
                    say!(language, "service-target"),
                ),
                (
                    Sign::Patch(theme::BAND),
                    say!(language, "service-tolerance"),
                ),
            ];
            if dish.services.iter().any(|service| service.of_all.is_some()) {
                entries.push((Sign::Ring, say!(language, "service-of-all")));
            }
            let entries: Vec<(Sign, &str)> = entries
                .iter()
                .map(|(sign, words)| (*sign, words.as_ref()))
                .collect();
            legend(ui, &mut rest, &entries);
            beside(ui, rest.0, dish);
            sentences(ui, side, &dish.changed);
        }
        (Look::Yield, Some(dish)) => flows(ui, rest.0, dish),
    }
    wishes
}

/// What the night came to, or a stretch of it, or one portion and whether it
/// should count.
fn beside_the_dots(
    ui: &mut Ui,
    place: Rect,
    view: &ServiceView,
    dish: &DishView,
) -> Vec<ServiceWish> {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let language = words::of(ui);
    let mut rest = Rest(place);
    let mut wishes = Vec::new();
    if let Some(reason) = &view.why {
        let foot = layout::columns(rest.bottom(scale.u(theme::TOUCH)), 2, gap);
        text::label(
            ui,
            rest.top(scale.u(44.0)),
            &say!(language, "service-why"),
            &text::Style::new(scale.heavy(26.0), theme::INK, Align2::LEFT_CENTER),
        );
        wishes.extend(reasons(ui, &mut rest, reason).map(ServiceWish::Reason));
        let buttons = [
            (
                say!(language, "service-let-it-be"),
                Key::Escape,
                true,
                ServiceWish::AskWhy(false),
            ),
            (
                say!(language, "service-strike-out"),
                Key::Enter,
                !reason.trim().is_empty(),
                ServiceWish::StrikeOut,
            ),
        ];
        for (((words, key, enabled, wish), place), weight) in buttons
            .into_iter()
            .zip(foot)
            .zip([Weight::Plain, Weight::Main])
        {
            if BigButton::new(&words)
                .key(key)
                .weight(weight)
                .enabled(enabled)
                .show(ui, place)
            {
                wishes.push(wish);
            }
        }
        return wishes;
    }
    if view.told.is_empty() {
        return what_to_do(ui, rest, view, dish);
    }
    let foot = rest.bottom(scale.u(theme::TOUCH));
    rest.bottom(gap);
    let back = if view.picked.is_some() {
        let foot = layout::columns(foot, 2, gap);
        let (words, wish) = if view.picked_is_struck {
            (
                say!(language, "service-count-again"),
                ServiceWish::CountAgain,
            )
        } else {
            (
                say!(language, "service-strike-out"),
                ServiceWish::AskWhy(true),
            )
        };
        if let Some(place) = foot.get(1)
            && BigButton::new(&words).key(Key::X).show(ui, *place)
        {
            wishes.push(wish);
        }
        foot.first().copied().unwrap_or(place)
    } else {
        foot
    };
    if BigButton::new(&say!(language, "service-whole-night"))
        .key(Key::Escape)
        .show(ui, back)
    {
        wishes.push(ServiceWish::Span(None));
    }
    sentences(ui, rest.0, &view.told);
    wishes
}

/// The one sentence that leads, and what it leans on where that is unfolded.
fn what_to_do(
    ui: &mut Ui,
    mut rest: Rest,
    view: &ServiceView,
    dish: &DishView,
) -> Vec<ServiceWish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let gap = scale.u(8.0);
    let below = rest.bottom(scale.u(theme::TOUCH));
    rest.bottom(gap);
    let fold = rest.bottom(scale.u(theme::TOUCH));
    rest.bottom(gap);
    let mut wishes = Vec::new();
    let words = if view.evidence {
        say!(language, "service-fold")
    } else {
        say!(language, "service-evidence")
    };
    if BigButton::new(&words).key(Key::E).show(ui, fold) {
        wishes.push(ServiceWish::Evidence(!view.evidence));
    }
    let words = if view.below_promise {
        say!(language, "service-keep-promise")
    } else {
        say!(language, "service-below-promise")
    };
    if BigButton::new(&words)
        .weight(chosen(view.below_promise))
        .key(Key::B)
        .show(ui, below)
    {
        wishes.push(ServiceWish::BelowPromise(!view.below_promise));
    }
    if view.evidence {
        sentences(ui, rest.0, &dish.found);
    } else if let Some(lead) = dish.found.first() {
        let place = rest.0;
        ui.scope_builder(UiBuilder::new().max_rect(place).id_salt("lead"), |ui| {
            ScrollArea::vertical()
                .id_salt("leading")
                .auto_shrink(false)
                .show(ui, |ui| {
                    ui.label(eframe::egui::RichText::new(lead).font(scale.heavy(27.0)));
                });
        });
    }
    wishes
}

/// Closer, wider, to either side, and where `portions` to each portion in
/// turn: for hands that have neither wheel nor mouse.
fn steps(
    ui: &Ui,
    place: Rect,
    view: &ServiceView,
    whole: Option<Stretch>,
    portions: bool,
) -> Vec<ServiceWish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let gap = scale.u(8.0);
    let Some(whole) = whole else {
        return Vec::new();
    };
    let shown = view.window.unwrap_or(whole);
    let zoomed = view.window.is_some();
    // About the portion looked at, else about the middle.
    let about = view
        .picked
        .and_then(|id| {
            let dish = view.dishes.get(view.chosen)?;
            dish.ids
                .iter()
                .position(|known| *known == id)
                .and_then(|nth| dish.dots.get(nth))
                .map(|dot| dot.time)
        })
        .unwrap_or_else(|| shown.middle());
    let window = ServiceWish::Window;
    let mut wishes = Vec::new();
    // In one row where there is no more room, else three over four.
    let rows = if portions {
        layout::rows(place, 2, gap)
    } else {
        vec![place]
    };
    let columns = if portions { [3, 4] } else { [5, 0] };
    let mut places = rows
        .into_iter()
        .zip(columns)
        .flat_map(|(row, count)| layout::columns(row, count, gap));
    let closer = shown.closer(whole, 2.0, about);
    let buttons = [
        (
            say!(language, "service-closer"),
            Key::Plus,
            closer != Some(shown),
            window(closer),
        ),
        (
            say!(language, "service-wider"),
            Key::Minus,
            zoomed,
            window(shown.closer(whole, 0.5, about)),
        ),
        (
            say!(language, "service-all"),
            Key::Num0,
            zoomed,
            window(None),
        ),
        (
            say!(language, "service-left"),
            Key::ArrowLeft,
            zoomed && shown.from > whole.from,
            window(shown.moved(whole, -0.5)),
        ),
        (
            say!(language, "service-right"),
            Key::ArrowRight,
            zoomed && shown.to < whole.to,
            window(shown.moved(whole, 0.5)),
        ),
    ];
    for ((words, key, enabled, wish), place) in buttons.into_iter().zip(places.by_ref()) {
        let pressed = BigButton::new(&words)
            .key(key)
            .enabled(enabled)
            .show(ui, place);
        // On many keyboards plus is the shifted key of the equals sign.
        let equals = key == Key::Plus
            && enabled
            && view.why.is_none()
            && ui.input(|input| {
                input.key_pressed(Key::Equals)
                    || (input.modifiers.shift && input.key_pressed(Key::Plus))
            });
        if pressed || equals {
            wishes.push(wish);
        }
    }
    let turns = [
        (
            "<",
            say!(language, "service-portion-before"),
            Key::Comma,
            false,
        ),
        (
            ">",
            say!(language, "service-portion-after"),
            Key::Period,
            true,
        ),
    ];
    for ((words, spoken, key, later), place) in turns.into_iter().zip(places) {
        if BigButton::new(words)
            .spoken(&spoken)
            .key(key)
            .show(ui, place)
        {
            wishes.push(ServiceWish::Step(later));
        }
    }
    wishes
}

/// Sentences below one another.
fn sentences(ui: &mut Ui, place: Rect, lines: &[String]) {
    let scale = Scale::of(ui);
    ui.scope_builder(UiBuilder::new().max_rect(place).id_salt("found"), |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, scale.u(9.0));
        ScrollArea::vertical()
            .id_salt("sentences")
            .auto_shrink(false)
            .show(ui, |ui| {
                for (nth, line) in lines.iter().filter(|line| !line.is_empty()).enumerate() {
                    let font = if nth == 0 {
                        scale.heavy(21.0)
                    } else {
                        scale.plain(20.0)
                    };
                    ui.label(eframe::egui::RichText::new(line).font(font));
                }
            });
    });
}

/// A plot fills a place; its words are in the screen's own sizes.
fn within<R>(ui: &mut Ui, place: Rect, salt: &str, show: impl FnOnce(&mut Ui) -> R) -> R {
    let scale = Scale::of(ui);
    let painter = ui.painter();
    painter.rect_filled(place, scale.corner(8.0), theme::SURFACE);
    let salt = salt.to_owned();
    ui.scope_builder(
        UiBuilder::new()
            .max_rect(place.shrink(scale.u(6.0)))
            .id_salt(salt),
        |ui| {
            let font = FontId::new(scale.u(17.0), FontFamily::Proportional);
            for style in [TextStyle::Body, TextStyle::Small, TextStyle::Monospace] {
                ui.style_mut().text_styles.insert(style, font.clone());
            }
            show(ui)
        },
    )
    .inner
}

fn plot<'p>(salt: &str, place: Rect) -> Plot<'p> {
    Plot::new(salt.to_owned())
        .width(place.width())
        .height(place.height())
        .show_background(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .grid_color(theme::FAINT)
        .y_grid_spacer(|input| even_steps(input.bounds))
}

/// Three to seven marks at round steps, so that an axis is never named by one
/// figure alone.
fn even_steps((from, to): (f64, f64)) -> Vec<GridMark> {
    let span = to - from;
    if !(span.is_finite() && span > 0.0) {
        return Vec::new();
    }
    let whole = 10.0_f64.powf((span / 3.0).log10().floor());
    // The widest round step of which the span holds three.
    let step = [5.0, 2.0, 1.0]
        .into_iter()
        .map(|round| round * whole)
        .find(|step| span / step >= 3.0)
        .unwrap_or(whole);
    marks(from, to, step, 0.0)
}

/// Nought and whole steps up to the tallest bar, as many as have room; two at least.
fn counts(tallest: usize, room: usize) -> Vec<GridMark> {
    let tallest = tallest.max(1);
    let step = (0..)
        .flat_map(|power| [1, 2, 5].map(|round: usize| round.saturating_mul(10_usize.pow(power))))
        .take(24)
        .find(|step| tallest / step < room.max(2))
        .filter(|step| *step <= tallest)
        .unwrap_or(tallest);
    marks(0.0, tallest as f64, step as f64, 0.0)
}

/// A mark at every `step` from `from` to `to`, counted from `origin`.
fn marks(from: f64, to: f64, step: f64, origin: f64) -> Vec<GridMark> {
    let mut marks = Vec::new();
    let mut nth = ((from - origin) / step).ceil();
    while origin + nth * step <= to && marks.len() < 60 {
        marks.push(GridMark {
            value: origin + nth * step,
            step_size: step,
        });
        nth += 1.0;
    }
    marks
}

/// An axis of figures to the left, whose labels may stand close.
fn beside_it<'p>(label: impl Fn(GridMark) -> String + 'p) -> Vec<AxisHints<'p>> {
    vec![
        AxisHints::new_y()
            .label_spacing(Rangef::new(16.0, 26.0))
            .formatter(move |mark, _| label(mark)),
    ]
}

/// The noons of days, every so many that they have room: a mark with its day
/// stands before that day's service, and what is portioned after midnight is
/// still to the right of its own.
fn days((from, to): (f64, f64), ahead: i64) -> Vec<GridMark> {
    const DAY: f64 = 86_400.0;
    let steps = [1.0, 2.0, 7.0, 14.0, 28.0, 91.0, 182.0, 364.0, 1_820.0];
    let step = steps
        .into_iter()
        .map(|days| days * DAY)
        .find(|step| (to - from) / step <= 9.0)
        .unwrap_or(3_640.0 * DAY);
    marks(from, to, step, DAY / 2.0 - ahead as f64)
}

/// What the marks of a chart mean, in as many lines as that takes, cut from the bottom.
fn legend(ui: &Ui, rest: &mut Rest, entries: &[(Sign, &str)]) {
    let rows = legend_rows(ui, rest.0.width(), entries);
    let place = rest.bottom(Scale::of(ui).u(LEGEND) * rows.len() as f32);
    for (row, place) in rows.iter().zip(layout::rows(place, rows.len(), 0.0)) {
        legend_row(ui, place, row);
    }
}

/// The entries of a legend in rows so wide.
fn legend_rows<'a>(
    ui: &Ui,
    wide: f32,
    entries: &'a [(Sign, &'a str)],
) -> Vec<&'a [(Sign, &'a str)]> {
    let scale = Scale::of(ui);
    let room = wide - scale.u(12.0);
    let needs = |words: &str| {
        let font = scale.plain(LEGEND_WORDS);
        let galley = ui
            .painter()
            .layout_no_wrap(words.to_owned(), font, theme::INK);
        galley.size().x + scale.u(40.0)
    };
    let mut rows = Vec::new();
    let (mut first, mut taken) = (0, 0.0);
    for (nth, (_, words)) in entries.iter().enumerate() {
        let needed = needs(words);
        if nth > first && taken + needed > room {
            rows.push(&entries[first..nth]);
            (first, taken) = (nth, 0.0);
        }
        taken += needed;
    }
    rows.push(&entries[first..]);
    rows
}

fn legend_row(ui: &Ui, place: Rect, entries: &[(Sign, &str)]) {
    let scale = Scale::of(ui);
    let mut x = place.left() + scale.u(6.0);
    let middle = place.center().y;
    for (sign, words) in entries {
        let at = pos2(x + scale.u(9.0), middle);
        let patch = Rect::from_center_size(at, vec2(scale.u(18.0), scale.u(14.0)));
        let painter = ui.painter();
        match sign {
            Sign::Verdict(verdict) => shapes::verdict(
                painter,
                at,
                scale.u(7.0),
                *verdict,
                theme::verdict(*verdict).mark,
            ),
            Sign::Bar(verdict) => {
                painter.rect_filled(patch, 0.0, theme::verdict(*verdict).mark);
            }
            Sign::Cross => shapes::cross(
                painter,
                at,
                scale.u(6.0),
                scale.stroke(3.0, theme::SOFT_INK),
            ),
            Sign::Ring => {
                painter.circle_stroke(at, scale.u(8.0), scale.stroke(2.0, theme::INK));
            }
            Sign::Patch(colour) => {
                painter.rect_filled(patch, 0.0, *colour);
            }
            Sign::Line(colour) => {
                painter.hline(
                    patch.left()..=patch.right(),
                    middle,
                    scale.stroke(3.0, *colour),
                );
            }
            Sign::Mean(colour) => {
                painter.vline(
                    at.x,
                    middle - scale.u(10.0)..=middle + scale.u(10.0),
                    scale.stroke(4.0, *colour),
                );
                painter.circle_filled(at, scale.u(6.0), *colour);
            }
        }
        let words_at = Rect::from_min_max(
            pos2(x + scale.u(24.0), place.top()),
            pos2(place.right(), place.bottom()),
        );
        let taken = text::label(
            ui,
            words_at,
            words,
            &text::Style::new(scale.plain(LEGEND_WORDS), theme::INK, Align2::LEFT_CENTER),
        );
        x = taken.right() + scale.u(16.0);
    }
}

/// A mark as it stands in a legend.
#[derive(Clone, Copy)]
enum Sign {
    Verdict(Verdict),
    Bar(Verdict),
    Cross,
    Ring,
    Patch(Color32),
    Line(Color32),
    Mean(Color32),
}

/// The size of a legend's words.
const LEGEND_WORDS: f32 = 18.0;

/// How tall a line of a legend is.
const LEGEND: f32 = 28.0;

/// What a failed test of the scale shades.
fn doubt_colour() -> Color32 {
    Color32::from_rgba_unmultiplied(0xB4, 0x44, 0x00, 26)
}

/// Where the pointer drew a stretch.
fn stretch_colour() -> Color32 {
    Color32::from_rgba_unmultiplied(0xFF, 0xDD, 0x75, 120)
}

/// Which marks a chart of portions in time has beside their verdicts and the target.
#[derive(Clone, Copy, Default)]
struct Marks {
    tolerance: bool,
    struck: bool,
    doubted: bool,
    stretch: bool,
    picked: bool,
}

/// The legend of portions in time.
fn legend_of_dots(ui: &Ui, rest: &mut Rest, marks: Marks) {
    let language = words::of(ui);
    let mut entries: Vec<(Sign, Cow<'static, str>)> = [Verdict::Short, Verdict::On, Verdict::Heavy]
        .map(|verdict| {
            let words = figures::verdict(verdict, language);
            (Sign::Verdict(verdict), words)
        })
        .to_vec();
    entries.push((
        Sign::Line(theme::verdict(Verdict::On).fill),
        say!(language, "service-target"),
    ));
    let more = [
        (
            marks.tolerance,
            Sign::Patch(theme::BAND),
            say!(language, "service-tolerance"),
        ),
        (
            marks.struck,
            Sign::Cross,
            say!(language, "service-struck-out"),
        ),
        (
            marks.doubted,
            Sign::Patch(doubt_colour()),
            say!(language, "service-test-failed"),
        ),
        (
            marks.stretch,
            Sign::Patch(stretch_colour()),
            say!(language, "service-stretch"),
        ),
        (marks.picked, Sign::Ring, say!(language, "service-picked")),
    ];
    entries.extend(
        more.into_iter()
            .filter(|(there, _, _)| *there)
            .map(|(_, sign, words)| (sign, words)),
    );
    let entries: Vec<(Sign, &str)> = entries
        .iter()
        .map(|(sign, words)| (*sign, words.as_ref()))
        .collect();
    legend(ui, rest, &entries);
}

/// An axis below whose labels may stand closer than is usual.
fn below<'p>(label: impl Fn(GridMark) -> String + 'p) -> Vec<AxisHints<'p>> {
    vec![
        AxisHints::new_x()
            .label_spacing(Rangef::new(30.0, 44.0))
            .formatter(move |mark, _| label(mark)),
    ]
}

fn seconds(time: Timestamp) -> f64 {
    time.as_millisecond() as f64 / 1000.0
}

fn moment(seconds: f64) -> Option<Timestamp> {
    Timestamp::from_millisecond((seconds * 1000.0).round() as i64).ok()
}

/// The clock on the wall.
fn clock(second: f64, ahead: i64) -> String {
    let of_day = (second as i64 + ahead).rem_euclid(86_400);
    format!("{:02}:{:02}", of_day / 3_600, of_day % 3_600 / 60)
}

/// A stretch shorter than this is marked by the hour, else by the day.
const SHOWN_BY_HOUR: f64 = 2.0 * 86_400.0;

/// Marks of whole hours, halves, quarters or minutes, whichever has room: two at least, also
/// of a night of one portion.
fn hours((from, to): (f64, f64)) -> Vec<GridMark> {
    let steps = [60.0, 120.0, 300.0, 900.0, 1_800.0, 3_600.0, 7_200.0];
    let step = steps
        .into_iter()
        .find(|step| (to - from) / step <= 7.0)
        .unwrap_or(14_400.0);
    let mut marks = Vec::new();
    let mut value = (from / step).ceil() * step;
    while value <= to && marks.len() < 40 {
        marks.push(GridMark {
            value,
            step_size: step,
        });
        value += step;
    }
    marks
}

/// The dots, each in its verdict's shape and colour: all of them, or where more
/// than two would share a column of pixels, each column's two extremes.
fn dots(
    plot: &mut PlotUi<'_>,
    dots: &Dots,
    shown: Stretch,
    of: impl Fn(&Dot) -> f64,
    radius: f32,
    language: Language,
) {
    let columns = plot.response().rect.width().max(1.0) as usize;
    let (from, to) = (shown.from, shown.to);
    let (first, last) = (dots.before(from), dots.before(to));
    let shown: Vec<usize> = if last.saturating_sub(first) <= 2 * columns {
        (first..last).collect()
    } else {
        dots.thinned(from, to, columns)
            .into_iter()
            .flat_map(|bin| [bin.lightest, bin.heaviest])
            .collect()
    };
    for verdict in [Verdict::On, Verdict::Short, Verdict::Heavy] {
        let points: Vec<[f64; 2]> = shown
            .iter()
            .map(|place| &dots[*place])
            .filter(|dot| dot.goal.judge(dot.mass) == verdict)
            .map(|dot| [seconds(dot.time), of(dot)])
            .collect();
        let (shape, size) = match verdict {
            Verdict::Short => (MarkerShape::Down, radius * 1.3),
            Verdict::On => (MarkerShape::Circle, radius),
            Verdict::Heavy => (MarkerShape::Up, radius * 1.3),
        };
        let words = figures::verdict(verdict, language);
        plot.points(
            Points::new(words, PlotPoints::from(points))
                .shape(shape)
                .radius(size)
                .color(theme::verdict(verdict).mark),
        );
    }
}

fn band(plot: &mut PlotUi<'_>, dish: &DishView) {
    let goal = dish.goal;
    plot.span(
        Span::new("", goal.lightest().grams()..=goal.heaviest().grams())
            .axis(egui_plot::Axis::Y)
            .fill(theme::BAND)
            .border_color(Color32::TRANSPARENT),
    );
    plot.hline(
        HLine::new("", goal.target().grams())
            .color(theme::verdict(Verdict::On).fill)
            .width(2.0),
    );
}

/// All of the night that there is of a dish.
fn whole(dish: &DishView) -> Option<Stretch> {
    let ([from, to], _) = extent(dish);
    Some(Stretch {
        from: moment(from)?,
        to: moment(to)?,
    })
}

/// What a wheel, a pinch or a sideways scroll over a chart asks for: closer or
/// wider about the pointer, or to a side.
fn looked_closer(
    ui: &Ui,
    shown: &egui_plot::PlotResponse<()>,
    (whole, now): (Stretch, Stretch),
) -> Option<ServiceWish> {
    if !shown.response.contains_pointer() {
        return None;
    }
    let at = shown.response.hover_pos()?;
    let about = moment(shown.transform.value_from_position(at).x)?;
    let (scroll, pinch) = ui.input(|input| (input.smooth_scroll_delta(), input.zoom_delta()));
    let factor = f64::from(pinch) * f64::from(scroll.y / WHEEL).exp2();
    if (factor - 1.0).abs() > 1e-4 {
        return Some(ServiceWish::Window(now.closer(whole, factor, about)));
    }
    let share = -scroll.x / shown.response.rect.width().max(1.0);
    (share.abs() > 1e-4 && now != whole)
        .then(|| ServiceWish::Window(now.moved(whole, f64::from(share))))
}

/// The stretches that a failed test of the scale casts doubt on.
fn in_doubt(plot: &mut PlotUi<'_>, dish: &DishView) {
    let ([first, last], _) = extent(dish);
    for (from, to) in &dish.in_doubt {
        let from = from.map_or(first, seconds).max(first);
        let to = to.map_or(last, seconds).min(last);
        plot.span(
            Span::new("", from..=to)
                .axis(egui_plot::Axis::X)
                .fill(doubt_colour())
                .border_color(theme::verdict(Verdict::Heavy).mark),
        );
    }
}

/// From and to of a dish's dots, and the lightest and heaviest to be shown.
fn extent(dish: &DishView) -> ([f64; 2], [f64; 2]) {
    let goal = dish.goal;
    let mut y = [goal.lightest().grams(), goal.heaviest().grams()];
    let struck = dish.struck.iter().map(|struck| &struck.dot);
    for dot in dish.dots.iter().chain(struck) {
        y = [y[0].min(dot.mass.grams()), y[1].max(dot.mass.grams())];
    }
    let room = (y[1] - y[0]) * 0.06 + 0.01;
    let ends = [
        (dish.dots.first(), dish.struck.first()),
        (dish.dots.last(), dish.struck.last()),
    ];
    let [(first, struck_first), (last, struck_last)] = ends.map(|(dot, struck)| {
        let dot = dot.map(|dot| seconds(dot.time));
        let struck = struck.map(|struck| seconds(struck.dot.time));
        (
            dot.or(struck).unwrap_or_default(),
            struck.or(dot).unwrap_or_default(),
        )
    });
    let (from, to) = (first.min(struck_first), last.max(struck_last));
    let edge = (to - from) * 0.02 + 60.0;
    ([from - edge, to + edge], [y[0] - room, y[1] + room])
}

/// The night as dots in time: a drag selects a stretch, a tap a portion, the
/// wheel looks closer.
fn night(ui: &mut Ui, place: Rect, view: &ServiceView, dish: &DishView) -> Option<ServiceWish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let ahead = view.ahead;
    let (x, y) = extent(dish);
    let began = Id::unique(("span began", dish.name.as_str()));
    let whole = whole(dish)?;
    let now = view.window.unwrap_or(whole);
    let all = || {
        let struck = dish.struck.iter().map(|struck| (struck.id, &struck.dot));
        dish.ids.iter().copied().zip(dish.dots.iter()).chain(struck)
    };
    let picked = all()
        .find(|(id, _)| Some(*id) == view.picked)
        .map(|(_, dot)| dot);
    text::announce_as(
        ui,
        place,
        Role::Image,
        &say!(
            language,
            "service-picture-night",
            dish = dish.name.as_str(),
            count = dish.dots.len(),
            struck = dish.struck.len(),
            low = review::grams(language, dish.goal.lightest()),
            high = review::grams(language, dish.goal.heaviest())
        ),
    );
    within(
        ui,
        place,
        &format!("night {} {}", dish.name, view.title),
        |ui| {
            let shown = plot("dots", place.shrink(scale.u(6.0)))
                .allow_zoom(false)
                .default_x_bounds(x[0], x[1])
                .default_y_bounds(y[0], y[1])
                .sense(Sense::click_and_drag())
                .custom_x_axes(below(move |mark| clock(mark.value, ahead)))
                .x_grid_spacer(|input| hours(input.bounds))
                .custom_y_axes(beside_it(move |mark| grams(language, mark.value)))
                .label_formatter(move |at| hover(at, ahead, language))
                .show(ui, |plot| {
                    plot.set_plot_bounds_x(seconds(now.from)..=seconds(now.to));
                    band(plot, dish);
                    in_doubt(plot, dish);
                    if let Some((from, to)) = view.span {
                        selected(plot, seconds(from), seconds(to));
                    }
                    let start = plot.ctx().data(|data| data.get_temp::<f64>(began));
                    if let (Some(from), Some(to)) = (start, plot.pointer_coordinate()) {
                        selected(plot, from, to.x);
                    }
                    let of = |dot: &Dot| dot.mass.grams();
                    dots(plot, &dish.dots, now, of, scale.u(4.5), language);
                    struck_out(plot, dish, scale.u(6.0), language);
                    if let Some(dot) = picked {
                        plot.points(
                            Points::new("", vec![[seconds(dot.time), dot.mass.grams()]])
                                .radius(scale.u(11.0))
                                .filled(false)
                                .color(theme::INK),
                        );
                    }
                });
            let closer = looked_closer(ui, &shown, (whole, now));
            if closer.is_some() {
                return closer;
            }
            let response = &shown.response;
            let value = |at: Pos2| shown.transform.value_from_position(at);
            if response.drag_started()
                && let Some(at) = ui.ctx().input(|input| input.pointer.press_origin())
            {
                ui.ctx()
                    .data_mut(|data| data.insert_temp(began, value(at).x));
            }
            if response.drag_stopped()
                && let Some(from) = ui.ctx().data_mut(|data| data.remove_temp::<f64>(began))
                && let Some(at) = response.interact_pointer_pos()
            {
                let to = value(at).x;
                let ends = (moment(from.min(to))?, moment(from.max(to))?);
                return Some(ServiceWish::Span(Some(ends)));
            }
            let at = response
                .clicked()
                .then(|| response.interact_pointer_pos())
                .flatten()?;
            let on_screen = |dot: &Dot| {
                shown
                    .transform
                    .position_from_point(&PlotPoint::new(seconds(dot.time), dot.mass.grams()))
            };
            let (id, away) = all()
                .map(|(id, dot)| (id, on_screen(dot).distance(at)))
                .min_by(|(_, one), (_, other)| one.total_cmp(other))?;
            let near = away <= scale.u(NEAR);
            Some(ServiceWish::Pick(near.then_some(id)))
        },
    )
}

/// The portions that were struck out, each a cross.
fn struck_out(plot: &mut PlotUi<'_>, dish: &DishView, radius: f32, language: Language) {
    for struck in dish.struck.iter() {
        let at = [seconds(struck.dot.time), struck.dot.mass.grams()];
        let reason = struck.reason.as_str();
        let words = say!(language, "service-struck-because", reason = reason);
        plot.points(
            Points::new(words, vec![at])
                .shape(MarkerShape::Cross)
                .radius(radius)
                .color(theme::SOFT_INK),
        );
    }
}

fn selected(plot: &mut PlotUi<'_>, from: f64, to: f64) {
    plot.span(
        Span::new("", from.min(to)..=from.max(to))
            .axis(egui_plot::Axis::X)
            .fill(stretch_colour())
            .border_color(theme::EDGE),
    );
}

fn hover(at: &HoverPosition<'_>, ahead: i64, language: Language) -> Option<String> {
    match at {
        HoverPosition::NearDataPoint {
            plot_name,
            position,
            ..
        } if !plot_name.is_empty() => Some(format!(
            "{}  {}, {plot_name}",
            clock(position.x, ahead),
            language.figure(format!("{:.2} g", position.y))
        )),
        _ => None,
    }
}

fn tidy(value: f64) -> f64 {
    let value = (value * 1000.0).round() / 1000.0;
    if value == 0.0 { 0.0 } else { value }
}

/// Grams on an axis.
fn grams(language: Language, grams: f64) -> String {
    language.figure(format!("{} g", tidy(grams)))
}

/// How the masses are spread, with the target and the tolerance.
fn histogram(ui: &mut Ui, place: Rect, dish: &DishView) {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let mut rest = Rest(place);
    legend(
        ui,
        &mut rest,
        &[
            (
                Sign::Bar(Verdict::Short),
                &figures::verdict(Verdict::Short, language),
            ),
            (
                Sign::Bar(Verdict::On),
                &figures::verdict(Verdict::On, language),
            ),
            (
                Sign::Bar(Verdict::Heavy),
                &figures::verdict(Verdict::Heavy, language),
            ),
            (
                Sign::Line(theme::verdict(Verdict::On).fill),
                &say!(language, "service-target"),
            ),
            (
                Sign::Patch(theme::BAND),
                &say!(language, "service-tolerance"),
            ),
        ],
    );
    let place = rest.0;
    let (_, [least, most]) = extent(dish);
    const COUNT: usize = 36;
    let ends = [least, most].map(Mass::from_fractional_grams);
    let [Some(lightest), Some(heaviest)] = ends else {
        return;
    };
    let masses = dish.dots.iter().map(|dot| dot.mass);
    let bars: Vec<Bar> = bars_of(masses, lightest, heaviest, COUNT)
        .into_iter()
        .map(|bar| {
            let verdict = dish.goal.judge(bar.middle());
            Bar::new(bar.middle().grams(), bar.count as f64)
                .width((bar.to - bar.from).grams() * 0.9)
                .fill(theme::verdict(verdict).mark)
        })
        .collect();
    let tallest = bars.iter().map(|bar| bar.value as usize).max().unwrap_or(1);
    // A figure needs so much height of its own, and the masses below theirs.
    let marks = ((place.height() - scale.u(46.0)) / scale.u(24.0)) as usize;
    let target = dish.goal.target().grams();
    let (low, high) = (dish.goal.lightest().grams(), dish.goal.heaviest().grams());
    text::announce_as(
        ui,
        place,
        Role::Image,
        &say!(
            language,
            "service-picture-masses",
            dish = dish.name.as_str()
        ),
    );
    within(ui, place, &format!("histogram {}", dish.name), |ui| {
        plot("histogram", place.shrink(scale.u(6.0)))
            .allow_zoom(false)
            .default_x_bounds(least, most)
            .default_y_bounds(0.0, tallest as f64 * 1.08)
            .x_grid_spacer(|input| even_steps(input.bounds))
            .custom_x_axes(below(move |mark| grams(language, mark.value)))
            .y_grid_spacer(move |_| counts(tallest, marks))
            .custom_y_axes(beside_it(|mark| format!("{:.0}", mark.value)))
            .label_formatter(|_| None)
            .show(ui, |plot| {
                plot.span(
                    Span::new("", low..=high)
                        .axis(egui_plot::Axis::X)
                        .fill(theme::BAND)
                        .border_color(Color32::TRANSPARENT),
                );
                plot.bar_chart(BarChart::new("", bars).allow_hover(false));
                plot.vline(
                    VLine::new("", target)
                        .color(theme::verdict(Verdict::On).fill)
                        .width(3.0),
                );
            });
    });
}

/// Every dish, small and alike; a tap looks at one.
fn multiples(ui: &mut Ui, place: Rect, view: &ServiceView) -> Vec<ServiceWish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let gap = scale.u(12.0);
    let mut rest = Rest(place);
    let marks = Marks {
        tolerance: true,
        struck: view.dishes.iter().any(|dish| !dish.struck.is_empty()),
        doubted: view.dishes.iter().any(|dish| !dish.in_doubt.is_empty()),
        ..Marks::default()
    };
    legend_of_dots(ui, &mut rest, marks);
    let place = rest.0;
    let across = if view.dishes.len() > 4 { 3 } else { 2 };
    let down = view.dishes.len().div_ceil(across).max(1);
    let ahead = view.ahead;
    let mut wishes = Vec::new();
    let places = layout::rows(place, down, gap)
        .into_iter()
        .flat_map(|row| layout::columns(row, across, gap));
    for (nth, (dish, place)) in view.dishes.iter().zip(places).enumerate() {
        let mut rest = Rest(place);
        let head = rest.top(scale.u(theme::TOUCH));
        if BigButton::new(&dish.name).show(ui, head) {
            wishes.push(ServiceWish::Dish(nth));
        }
        rest.top(scale.u(4.0));
        let (x, y) = extent(dish);
        let place = rest.0;
        within(ui, place, &format!("small {nth}"), |ui| {
            plot("small", place.shrink(scale.u(6.0)))
                .allow_zoom(false)
                .default_x_bounds(x[0], x[1])
                .default_y_bounds(y[0], y[1])
                .custom_x_axes(below(move |mark| clock(mark.value, ahead)))
                .x_grid_spacer(|input| hours(input.bounds))
                .custom_y_axes(beside_it(move |mark| grams(language, mark.value)))
                .label_formatter(move |at| hover(at, ahead, language))
                .show(ui, |plot| {
                    band(plot, dish);
                    in_doubt(plot, dish);
                    if let Some(whole) = whole(dish) {
                        dots(
                            plot,
                            &dish.dots,
                            whole,
                            |dot| dot.mass.grams(),
                            scale.u(3.0),
                            language,
                        );
                    }
                    struck_out(plot, dish, scale.u(4.5), language);
                });
        });
    }
    wishes
}

/// This service against the ten before: each one's mean, and one standard
/// deviation to either side, of what can be relied on; where some of it is in doubt, the
/// mean with that as a ring.
fn beside(ui: &mut Ui, place: Rect, dish: &DishView) {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let days: Vec<String> = dish
        .services
        .iter()
        .map(|service| times::short_day(language, service.day))
        .collect();
    let last = dish.services.len().saturating_sub(1);
    let told = dish.services.last().map_or_else(String::new, |service| {
        say!(
            language,
            "service-picture-before",
            dish = dish.name.as_str(),
            mean = review::grams(language, service.relied.mean),
            before = last
        )
        .into_owned()
    });
    text::announce_as(ui, place, Role::Image, &told);
    within(ui, place, &format!("beside {}", dish.name), |ui| {
        plot("beside", place.shrink(scale.u(6.0)))
            .allow_zoom(false)
            .default_x_bounds(-0.6, last as f64 + 0.6)
            .x_grid_spacer(|input| {
                let (from, to) = input.bounds;
                (from.ceil() as i64..=to.floor() as i64)
                    .map(|value| GridMark {
                        value: value as f64,
                        step_size: 1.0,
                    })
                    .collect()
            })
            .custom_x_axes(below(move |mark| {
                let place = mark.value.round();
                if place < 0.0 {
                    return String::new();
                }
                days.get(place as usize).cloned().unwrap_or_default()
            }))
            .custom_y_axes(beside_it(move |mark| grams(language, mark.value)))
            .label_formatter(move |at| match at {
                HoverPosition::NearDataPoint { position, .. } => {
                    let mean = language.figure(format!("{:.2} g", position.y));
                    Some(say!(language, "service-mean", mean = mean).into_owned())
                }
                HoverPosition::Elsewhere { .. } => None,
            })
            .show(ui, |plot| {
                band(plot, dish);
                for (nth, service) in dish.services.iter().enumerate() {
                    let colour = if nth == last { theme::INK } else { theme::EDGE };
                    let mean = service.relied.mean.grams();
                    if let Some(deviation) = service.relied.deviation {
                        let ends = [mean - deviation.grams(), mean + deviation.grams()];
                        plot.line(
                            Line::new("", ends.map(|end| [nth as f64, end]).to_vec())
                                .width(scale.u(5.0))
                                .allow_hover(false)
                                .color(colour),
                        );
                    }
                    plot.points(
                        Points::new("", vec![[nth as f64, mean]])
                            .radius(scale.u(9.0))
                            .color(colour),
                    );
                    if let Some(all) = service.of_all {
                        plot.points(
                            Points::new("", vec![[nth as f64, all.mean.grams()]])
                                .radius(scale.u(11.0))
                                .filled(false)
                                .color(theme::INK),
                        );
                    }
                }
            });
    });
}

/// Everything on record: figures at once, dots when they are read.
fn everything(ui: &mut Ui, mut rest: Rest, view: &ServiceView) -> Vec<ServiceWish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let hand = rest.bottom(scale.u(theme::TOUCH));
    rest.bottom(scale.u(8.0));
    let figures: Vec<(bool, String)> = view
        .everything
        .figures
        .iter()
        .map(|line| (false, line.clone()))
        .collect();
    let foot = rest.bottom(rest.0.height() * 0.42);
    paragraphs(ui, foot, "figures", &figures);
    rest.bottom(scale.u(8.0));
    let place = rest.0;
    let Some(all) = &view.everything.dots else {
        text::label(
            ui,
            place,
            &say!(language, "service-reading"),
            &text::Style::new(scale.plain(28.0), theme::SOFT_INK, Align2::CENTER_CENTER),
        );
        return Vec::new();
    };
    let (Some(first), Some(last)) = (all.first(), all.last()) else {
        return Vec::new();
    };
    let (from, to) = (seconds(first.time), seconds(last.time));
    let edge = (to - from) * 0.01 + 60.0;
    let (Some(from), Some(to)) = (moment(from - edge), moment(to + edge)) else {
        return Vec::new();
    };
    let whole = Stretch { from, to };
    let now = view.window.unwrap_or(whole);
    let mut wishes = steps(ui, hand, view, Some(whole), false);
    legend_of_dots(ui, &mut rest, Marks::default());
    let place = rest.0;
    let ahead = view.ahead;
    text::announce_as(
        ui,
        place,
        Role::Image,
        &say!(language, "service-picture-all", count = all.len()),
    );
    let wish = within(ui, place, "everything", |ui| {
        let shown = plot("everything", place.shrink(scale.u(6.0)))
            .allow_zoom(false)
            .sense(Sense::click_and_drag())
            .default_x_bounds(seconds(from), seconds(to))
            .x_grid_spacer(move |input| {
                let (from, to) = input.bounds;
                if to - from < SHOWN_BY_HOUR {
                    hours(input.bounds)
                } else {
                    days(input.bounds, ahead)
                }
            })
            .custom_x_axes(below(move |mark| {
                if mark.step_size < 86_400.0 {
                    return clock(mark.value, ahead);
                }
                moment(mark.value + ahead as f64).map_or_else(String::new, |at| {
                    times::short_day_of_year(language, TimeZone::UTC.to_datetime(at).date())
                })
            }))
            .custom_y_axes(beside_it(move |mark| {
                language.figure(format!("{:+} g", tidy(mark.value)))
            }))
            .label_formatter(|_| None)
            .show(ui, |plot| {
                plot.set_plot_bounds_x(seconds(now.from)..=seconds(now.to));
                plot.hline(
                    HLine::new("", 0.0)
                        .color(theme::verdict(Verdict::On).fill)
                        .width(2.0),
                );
                let off = |dot: &Dot| (dot.mass - dot.goal.target()).grams();
                dots(plot, all, now, off, scale.u(2.5), language);
            });
        let dragged = shown.response.drag_delta().x / shown.response.rect.width().max(1.0);
        if dragged != 0.0 {
            let moved = now.moved(whole, -f64::from(dragged));
            return (now != whole).then_some(ServiceWish::Window(moved));
        }
        looked_closer(ui, &shown, (whole, now))
    });
    wishes.extend(wish);
    wishes
}

/// What plates cost, beside what would save most and every gram of the week.
fn money(ui: &mut Ui, mut rest: Rest, view: &MoneyView) -> Option<ServiceWish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let gap = scale.u(24.0);
    let mut plates = Rest(rest.left((rest.0.width() - gap) * 0.5));
    rest.left(gap);
    let change = plates.bottom(scale.u(theme::TOUCH));
    plates.bottom(scale.u(8.0));
    let wish = BigButton::new(&say!(language, "service-change-plates"))
        .key(Key::P)
        .show(ui, change)
        .then_some(ServiceWish::Plates);
    let mut lines = Vec::new();
    for plate in &view.plates {
        let mut of = plate.iter().cloned();
        lines.extend(of.next().map(|heading| (true, heading)));
        lines.extend(of.map(|line| (false, line)));
    }
    if lines.is_empty() {
        lines.push((false, say!(language, "service-no-plates").into_owned()));
    }
    paragraphs(ui, plates.0, "plates", &lines);
    let mut lines = vec![(true, say!(language, "service-savings").into_owned())];
    lines.extend(view.savings.iter().map(|line| (false, line.clone())));
    if view.savings.is_empty() {
        lines.push((false, say!(language, "service-no-savings").into_owned()));
    }
    lines.extend(
        view.week
            .iter()
            .enumerate()
            .map(|(nth, line)| (nth == 0, line.clone())),
    );
    paragraphs(ui, rest.0, "savings and week", &lines);
    wish
}

/// Headings with their lines; where there is no room for all, big buttons go on.
fn paragraphs(ui: &mut Ui, place: Rect, name: &str, lines: &[(bool, String)]) {
    let scale = Scale::of(ui);
    let painter = ui.painter().clone();
    let galley = |(heading, line): &(bool, String), width: f32| {
        let font = if *heading {
            scale.heavy(23.0)
        } else {
            scale.plain(21.0)
        };
        painter.layout(line.clone(), font, theme::INK, width)
    };
    let list = LongList {
        name,
        gap: scale.u(7.0),
        keys: false,
        of: (lines.len(), 1),
    };
    let talls = |width| {
        lines
            .iter()
            .map(|line| galley(line, width).size().y)
            .collect()
    };
    list.show(ui, place, talls, |ui, nth, place| {
        if let Some(line) = lines.get(nth) {
            let galley = galley(line, place.width());
            ui.painter().galley(place.min, galley, theme::INK);
            text::announce(ui, place, &line.1);
        }
    });
}

/// Where each purchase went, from tin to plate: as wide as it weighed.
fn flows(ui: &mut Ui, place: Rect, dish: &DishView) {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    if dish.flows.is_empty() {
        text::label(
            ui,
            place,
            &say!(language, "service-no-purchase"),
            &text::Style::new(scale.plain(26.0), theme::INK, Align2::LEFT_TOP),
        );
        return;
    }
    let shown = dish.flows.len().min(3);
    let gap = scale.u(16.0);
    for (flow, place) in dish.flows.iter().zip(layout::columns(place, shown, gap)) {
        one_flow(ui, place, flow);
    }
}

fn one_flow(ui: &Ui, place: Rect, flow: &FlowView) {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let mut rest = Rest(place);
    text::label(
        ui,
        rest.top(scale.u(40.0)),
        &say!(
            language,
            "service-bought",
            purchase = flow.title.as_str(),
            mass = review::grams(language, flow.bought)
        ),
        &text::Style::new(scale.heavy(26.0), theme::INK, Align2::LEFT_CENTER),
    );
    for note in flow.notes.iter().rev() {
        text::label(
            ui,
            rest.bottom(scale.u(34.0)),
            note,
            &text::Style::new(scale.plain(22.0), theme::INK, Align2::LEFT_CENTER),
        );
    }
    rest.top(scale.u(8.0));
    rest.bottom(scale.u(8.0));
    let names = rest.right(rest.0.width() * 0.36);
    let area = rest.0;
    let bar = scale.u(34.0);
    let painter = ui.painter();
    let whole = flow
        .parts
        .iter()
        .map(|(_, mass)| mass.grams().max(0.0))
        .sum::<f64>()
        .max(flow.bought.grams());
    // Room between the parts on the right, so that each can be named.
    let least = scale.u(38.0);
    let spaces = (area.height() * 0.30) / flow.parts.len().max(1) as f32;
    let tall = area.height() - spaces * flow.parts.len() as f32;
    let height = |grams: f64| (tall * (grams.max(0.0) / whole) as f32).max(1.0);
    painter.rect_filled(
        Rect::from_min_size(area.min, vec2(bar, tall)),
        scale.corner(4.0),
        theme::SLATE,
    );
    let (mut from, mut to) = (area.top(), area.top());
    for ((part, mass), share) in flow.parts.iter().zip(&flow.shares) {
        let (colour, ink) = match part {
            Destination::Portioned => (theme::verdict(Verdict::On).fill, theme::BAND),
            Destination::Left | Destination::ShouldBeLeft => (theme::EDGE, theme::FAINT),
            Destination::Lost(_) | Destination::Unaccounted => (
                theme::verdict(Verdict::Heavy).mark,
                Color32::from_rgb(0xFF, 0xD9, 0xB8),
            ),
        };
        let tall = height(mass.grams());
        ribbon(
            ui,
            (pos2(area.left() + bar, from), pos2(area.right() - bar, to)),
            tall,
            ink,
        );
        painter.rect_filled(
            Rect::from_min_size(pos2(area.right() - bar, to), vec2(bar, tall)),
            0.0,
            colour,
        );
        let middle = to + tall / 2.0;
        let name = Rect::from_min_size(
            pos2(names.left() + scale.u(10.0), middle - least / 2.0),
            vec2(names.width() - scale.u(10.0), least),
        );
        text::label(
            ui,
            name,
            &format!(
                "{} {} ({share})",
                review::part(language, *part),
                review::grams(language, *mass)
            ),
            &text::Style::new(scale.plain(22.0), theme::INK, Align2::LEFT_CENTER),
        );
        from += tall;
        to += (tall + spaces).max(least);
    }
}

/// A band from the left to the right that keeps its height.
fn ribbon(ui: &Ui, (from, to): (Pos2, Pos2), tall: f32, colour: Color32) {
    const STEPS: u16 = 24;
    let mut mesh = Mesh::default();
    for step in 0..=STEPS {
        let along = f32::from(step) / f32::from(STEPS);
        let eased = 0.5 - 0.5 * (core::f32::consts::PI * along).cos();
        let at = pos2(
            from.x + (to.x - from.x) * along,
            from.y + (to.y - from.y) * eased,
        );
        mesh.colored_vertex(at, colour);
        mesh.colored_vertex(at + vec2(0.0, tall), colour);
        if step > 0 {
            let last = 2 * u32::from(step);
            mesh.add_triangle(last - 2, last - 1, last);
            mesh.add_triangle(last - 1, last, last + 1);
        }
    }
    ui.painter().add(Shape::mesh(mesh));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_axis_of_hours_is_named_twice_however_short_the_night() {
        // From one portion, shown with a minute to either side, to two days.
        for length in (120..172_800).step_by(61) {
            let from = 1_000_000_007.0;
            let marks = hours((from, from + f64::from(length)));
            assert!((2..=14).contains(&marks.len()), "{length} s: {marks:?}");
        }
    }
}
