//! A named probe log as a curve to be read from across the room: where it is,
//! where it is going, how sure that is, and one key for each thing that
//! happens to it.

use crate::bench_view::Tone;
use crate::heat_view::HeatShown;
use crate::intent::Intent;
use crate::kitchen::KitchenIntent;
use crate::layout::{self, Rest};
use crate::state::{Screen, State};
use crate::widgets::big_button::{BigButton, Weight, struck};
use crate::words::{Language, say};
use crate::{text, theme, theme::Scale};
use eframe::egui::{
    Align2, Color32, Id, Key, Rect, RichText, TextStyle, Ui, UiBuilder, Vec2b, vec2,
};
use egui_plot::{
    GridInput, GridMark, HLine, Line, LineStyle, Plot, PlotBounds, PlotPoint, PlotPoints, PlotUi,
    Points, Polygon, Text, VLine,
};
use evenhand_kitchen::moment::show_time;
use evenhand_protocol::Verdict;
use evenhand_use_cases::heat::UsualMarker;
use jiff::SignedDuration;
use std::borrow::Cow;

/// What happens to an oven or a pan, on its button.
fn mark_words(language: Language, marker: UsualMarker) -> Cow<'static, str> {
    match marker {
        UsualMarker::FireOut => say!(language, "heat-mark-fire-out"),
        UsualMarker::Loaded => say!(language, "heat-mark-loaded"),
        UsualMarker::TakenOut => say!(language, "heat-mark-taken-out"),
        UsualMarker::IntoTheCold => say!(language, "heat-mark-into-the-cold"),
    }
}

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = state.language;
    let view = &state.heat;
    let mut rest = Rest(place);
    let mut intents = logs(ui, rest.top(scale.u(76.0)), state);
    rest.top(gap);
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(gap);
    let columns = layout::columns(foot, 6, gap);
    let [record, aim, marks @ ..] = columns.as_slice() else {
        return intents;
    };
    intents.extend(record_button(ui, *record, state));
    if BigButton::new(&say!(language, "heat-watch-for"))
        .key(Key::W)
        .enabled(!view.logs.is_empty())
        .show(ui, *aim)
    {
        intents.push(Intent::Go(Screen::HeatAim));
    }
    let keys = [Key::Num1, Key::Num2, Key::Num3, Key::Num4];
    for ((place, marker), key) in marks.iter().zip(UsualMarker::ALL).zip(keys) {
        if BigButton::new(&mark_words(language, marker))
            .key(key)
            .enabled(view.shown.is_some())
            .show(ui, *place)
        {
            intents.push(Intent::Kitchen(KitchenIntent::Mark(
                marker.on_record().to_owned(),
            )));
        }
    }
    match &view.shown {
        None => text_line(ui, rest.0, &say!(language, "heat-choose")),
        Some(shown) => body(ui, rest.0, shown, language),
    }
    intents
}

/// The logs, side by side; arrows go from one to the next.
fn logs(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let tiles = &state.heat.logs;
    let mut intents = Vec::new();
    let here = tiles.iter().position(|tile| tile.chosen);
    for (place, tile) in layout::columns(place, 5, scale.u(12.0))
        .into_iter()
        .zip(tiles)
    {
        let weight = if tile.chosen {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        if BigButton::new(&tile.words)
            .detail(&tile.last)
            .weight(weight)
            .show(ui, place)
        {
            intents.push(choose(tile));
        }
    }
    let step = i32::from(struck(ui, Key::ArrowRight)) - i32::from(struck(ui, Key::ArrowLeft));
    if step != 0 && !tiles.is_empty() {
        let count = tiles.len() as i32;
        let next = here.map_or(0, |here| (here as i32 + step).rem_euclid(count));
        intents.extend(tiles.get(next as usize).map(choose));
    }
    intents
}

fn choose(tile: &crate::heat_view::HeatTile) -> Intent {
    Intent::Kitchen(KitchenIntent::ChooseLog(tile.name.clone()))
}

fn record_button(ui: &Ui, place: Rect, state: &State) -> Option<Intent> {
    let language = state.language;
    let view = &state.heat;
    let record = say!(language, "heat-record");
    let button = match &view.recording {
        Some(name) => {
            return BigButton::new(&say!(language, "heat-stop"))
                .detail(&say!(language, "heat-recording", log = name.as_str()))
                .key(Key::R)
                .weight(Weight::Chosen)
                .show(ui, place)
                .then_some(Intent::Kitchen(KitchenIntent::Record(false)));
        }
        None => BigButton::new(&record).key(Key::R).weight(Weight::Main),
    };
    button
        .enabled(view.probe)
        .show(ui, place)
        .then_some(Intent::Kitchen(KitchenIntent::Record(true)))
}

fn text_line(ui: &Ui, place: Rect, words: &str) {
    let scale = Scale::of(ui);
    text::label(
        ui,
        place,
        words,
        &text::Style::new(scale.plain(34.0), theme::INK, Align2::CENTER_CENTER),
    );
}

fn body(ui: &mut Ui, place: Rect, shown: &HeatShown, language: Language) {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let foot = rest.bottom(scale.u(if shown.limit.is_some() { 56.0 } else { 30.0 }));
    text::label(
        ui,
        foot,
        &shown.foot,
        &text::Style::new(scale.plain(22.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    rest.bottom(scale.u(4.0));
    let says = shown.says.len().min(2);
    for (tone, words) in shown.says.iter().take(2).rev() {
        // Long words get two lines rather than small letters.
        let tall = if words.chars().count() > 74 {
            82.0
        } else {
            54.0
        };
        say(ui, rest.bottom(scale.u(tall)), *tone, words);
        rest.bottom(scale.u(6.0));
    }
    if says == 0 {
        rest.bottom(scale.u(6.0));
    }
    let mut side = Rest(rest.right(scale.u(250.0)));
    rest.right(scale.u(8.0));
    figure(ui, &mut side, shown, language);
    plot(ui, rest.0, shown, language);
}

fn say(ui: &Ui, place: Rect, tone: Tone, words: &str) {
    let scale = Scale::of(ui);
    let (fill, ink) = match tone {
        Tone::Quiet => (theme::SURFACE, theme::INK),
        Tone::Attention => (theme::ATTENTION, theme::INK),
        Tone::Stop => (theme::STOP, theme::ON_DARK),
    };
    ui.painter().rect_filled(place, scale.corner(8.0), fill);
    text::label(
        ui,
        place.shrink2(vec2(scale.u(14.0), scale.u(2.0))),
        words,
        &text::Style::new(scale.heavy(30.0), ink, Align2::LEFT_CENTER),
    );
}

/// The temperature now, large, and the next arrival.
fn figure(ui: &Ui, side: &mut Rest, shown: &HeatShown, language: Language) {
    let scale = Scale::of(ui);
    text::label(
        ui,
        side.top(scale.u(30.0)),
        &say!(language, "heat-now"),
        &text::Style::new(scale.plain(26.0), theme::SOFT_INK, Align2::RIGHT_CENTER),
    );
    text::label(
        ui,
        side.top(scale.u(78.0)),
        shown.figure.as_deref().unwrap_or("\u{2013}"),
        &text::Style::new(scale.heavy(66.0), theme::INK, Align2::RIGHT_CENTER),
    );
    text::label(
        ui,
        side.top(scale.u(40.0)),
        &shown.other_unit,
        &text::Style::new(scale.plain(34.0), theme::INK, Align2::RIGHT_CENTER),
    );
    side.top(scale.u(16.0));
    for arrival in shown.arrivals.iter().take(2) {
        if side.0.height() < scale.u(76.0) {
            return;
        }
        text::label(
            ui,
            side.top(scale.u(30.0)),
            &say!(
                language,
                "heat-arrival",
                temperature = format!("{:.0} °C", arrival.celsius)
            ),
            &text::Style::new(scale.plain(26.0), theme::SOFT_INK, Align2::RIGHT_CENTER),
        );
        text::label(
            ui,
            side.top(scale.u(46.0)),
            &time_of_day(shown, arrival.likely),
            &text::Style::new(scale.heavy(42.0), theme::INK, Align2::RIGHT_CENTER),
        );
        side.top(scale.u(8.0));
    }
}

fn time_of_day(shown: &HeatShown, hours: f64) -> String {
    let off = SignedDuration::try_from_secs_f64(hours * 3600.0).unwrap_or_default();
    show_time(shown.now.checked_add(off).unwrap_or(shown.now), &shown.zone)
}

/// A colour thinned so that what lies under it shows.
fn faint(colour: Color32) -> Color32 {
    colour.gamma_multiply(0.45)
}

fn plot(ui: &mut Ui, place: Rect, shown: &HeatShown, language: Language) {
    let scale = Scale::of(ui);
    text::announce(ui, place, &in_words(shown, language));
    let ahead = theme::verdict(Verdict::Short).mark;
    ui.scope_builder(UiBuilder::new().max_rect(place).id_salt("plot"), |ui| {
        ui.style_mut()
            .text_styles
            .insert(TextStyle::Body, scale.plain(24.0));
        let (from, to) = shown.hours;
        let span = to - from;
        let labels = shown.clone();
        Plot::new(Id::unique(("heat", shown.name.key())))
            .width(place.width())
            .height(place.height())
            .show_axes(Vec2b::TRUE)
            .allow_axis_zoom_drag(false)
            .allow_boxed_zoom(false)
            .allow_double_click_reset(false)
            .allow_drag(false)
            .allow_scroll(false)
            .allow_zoom(false)
            .show_x(false)
            .show_y(false)
            .show_background(true)
            .x_axis_formatter(move |mark: GridMark, _| time_of_day(&labels, mark.value))
            .x_grid_spacer({
                let shown = shown.clone();
                move |input| hours_of_the_clock(&shown, input, span)
            })
            .y_grid_spacer(degrees_apart)
            .y_axis_formatter(|mark: GridMark, _| {
                // Without the sign of a nought that came from below.
                format!("{:.0} °C", if mark.value == 0.0 { 0.0 } else { mark.value })
            })
            .y_axis_min_width(scale.u(88.0))
            .show(ui, |plot| {
                let (low, high) = shown.range;
                plot.set_plot_bounds(PlotBounds::from_min_max([from, low], [to, high]));
                if let Some((low, high)) = shown.band {
                    let corners = vec![[from, low], [to, low], [to, high], [from, high]];
                    plot.polygon(
                        Polygon::new("band", corners)
                            .fill_color(theme::BAND)
                            .stroke(scale.stroke(2.0, theme::EDGE)),
                    );
                }
                for level in &shown.levels {
                    plot.hline(
                        HLine::new("limit", *level)
                            .color(theme::STOP)
                            .width(scale.u(4.0)),
                    );
                }
                plot.vline(
                    VLine::new("now", 0.0)
                        .color(theme::EDGE)
                        .width(scale.u(2.0))
                        .style(LineStyle::dashed_dense()),
                );
                for (at, words) in shown.markers.iter().filter(|(at, _)| *at >= from) {
                    plot.vline(
                        VLine::new("marker", *at)
                            .color(theme::SLATE)
                            .width(scale.u(3.0)),
                    );
                    plot.text(
                        Text::new(
                            "marker",
                            PlotPoint::new(*at, high),
                            RichText::new(format!(" {words}"))
                                .font(scale.heavy(24.0))
                                .color(theme::INK),
                        )
                        .anchor(Align2::LEFT_TOP),
                    );
                }
                for line in &shown.lines {
                    if let [one] = line.as_slice() {
                        plot.points(
                            Points::new("reading", vec![*one])
                                .color(theme::INK)
                                .radius(scale.u(4.0)),
                        );
                    }
                    plot.line(
                        Line::new("readings", PlotPoints::from(line.clone()))
                            .color(theme::INK)
                            .width(scale.u(5.0)),
                    );
                }
                ahead_line(plot, shown, scale, ahead);
                for arrival in &shown.arrivals {
                    let late = arrival.late.unwrap_or(to);
                    plot.line(
                        Line::new(
                            "interval",
                            vec![[arrival.early, arrival.celsius], [late, arrival.celsius]],
                        )
                        .color(faint(ahead))
                        .width(scale.u(16.0)),
                    );
                    plot.points(
                        Points::new("likely", vec![[arrival.likely, arrival.celsius]])
                            .color(ahead)
                            .radius(scale.u(9.0)),
                    );
                }
            });
    });
}

/// From the last reading to each moment that is likely.
fn ahead_line(plot: &mut PlotUi<'_>, shown: &HeatShown, scale: Scale, colour: Color32) {
    let Some(last) = shown.lines.last().and_then(|line| line.last()) else {
        return;
    };
    let mut way: Vec<[f64; 2]> = shown
        .arrivals
        .iter()
        .map(|arrival| [arrival.likely, arrival.celsius])
        .collect();
    if way.is_empty() {
        return;
    }
    way.push(*last);
    way.sort_by(|a, b| a[0].total_cmp(&b[0]));
    plot.line(
        Line::new("ahead", way)
            .color(colour)
            .width(scale.u(3.0))
            .style(LineStyle::dashed_loose()),
    );
}

/// Marks on whole degrees, few enough to be read from across the room.
fn degrees_apart(input: GridInput) -> Vec<GridMark> {
    let (from, to) = input.bounds;
    let step = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0]
        .into_iter()
        .find(|step| (to - from) / step <= 7.0)
        .unwrap_or(200.0);
    let mut marks = Vec::new();
    let mut nth = (from / step).ceil();
    while nth * step <= to && marks.len() < 16 {
        marks.push(GridMark {
            value: nth * step,
            step_size: step,
        });
        nth += 1.0;
    }
    marks
}

/// Marks on whole quarters, halves and hours of the kitchen's own clock, few
/// enough to be read.
fn hours_of_the_clock(shown: &HeatShown, input: GridInput, span: f64) -> Vec<GridMark> {
    let step_minutes = [15.0, 30.0, 60.0, 120.0, 240.0]
        .into_iter()
        .find(|minutes| span * 60.0 / minutes <= 7.0)
        .unwrap_or(480.0);
    let step = step_minutes / 60.0;
    let now = shown.now.to_zoned_datetime(shown.zone.clone());
    let into =
        f64::from(now.hour()) + f64::from(now.minute()) / 60.0 + f64::from(now.second()) / 3600.0;
    let (from, to) = input.bounds;
    let mut marks = Vec::new();
    let mut nth = ((from + into) / step).ceil();
    while nth * step - into <= to && marks.len() < 32 {
        marks.push(GridMark {
            value: nth * step - into,
            step_size: step,
        });
        nth += 1.0;
    }
    marks
}

/// The curve in words, for a screen reader.
fn in_words(shown: &HeatShown, language: Language) -> String {
    let readings: usize = shown.lines.iter().map(Vec::len).sum();
    let gaps = shown.lines.len().saturating_sub(1);
    let mut words = say!(
        language,
        "heat-curve",
        log = shown.words.as_str(),
        readings = readings,
        gaps = gaps
    )
    .into_owned();
    for (_, marker) in &shown.markers {
        words += &format!(", {marker}");
    }
    words
}
