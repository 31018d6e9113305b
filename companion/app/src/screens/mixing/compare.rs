//! Batches of one thing side by side, and an ingredient's share against the
//! mark.

use super::{buttons, caption, head};
use crate::layout::{self, Rest};
use crate::mixing::{CompareView, Page, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::say;
use crate::{text, theme};
use eframe::egui::{Align2, Key, Rect, Role, Ui, UiBuilder, Vec2b};
use egui_plot::{MarkerShape, Plot, PlotPoints, Points};

/// As many ingredients as have room beside one another.
const MOST: usize = 6;

pub(super) fn show(ui: &mut Ui, place: Rect, view: &CompareView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    head(ui, rest.top(scale.u(46.0)), &view.title, &view.of);
    rest.top(scale.u(4.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(10.0));
    let plot_place = rest.right(scale.u(460.0));
    rest.right(scale.u(16.0));
    let language = crate::words::of(ui);
    let mut wishes = table(ui, rest.0, view);
    plot(ui, plot_place, view);
    wishes.extend(buttons(
        ui,
        foot,
        [
            (
                BigButton::new(&say!(language, "back")).key(Key::Escape),
                Wish::Show(Page::Batch),
            ),
            (
                BigButton::new(&say!(language, "compare-shares")).key(Key::S),
                Wish::ShareOf,
            ),
        ],
    ));
    wishes
}

fn table(ui: &Ui, place: Rect, view: &CompareView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let language = crate::words::of(ui);
    let mut rest = Rest(place);
    caption(
        ui,
        rest.top(scale.u(30.0)),
        &say!(language, "compare-press"),
    );
    let mut wishes = Vec::new();
    let count = view.ingredients.len().min(MOST);
    let cells = |row: Rect| {
        let mut row = Rest(row);
        let when = row.left(scale.u(122.0));
        let mark = row.right(scale.u(64.0));
        (when, layout::columns(row.0, count, scale.u(6.0)), mark)
    };
    let (_, heads, mark) = cells(rest.top(scale.u(66.0)));
    for (nth, (place, name)) in heads.into_iter().zip(&view.ingredients).enumerate() {
        let weight = if nth == view.plotted {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        if BigButton::new(name).weight(weight).show(ui, place) {
            wishes.push(Wish::Plot(nth));
        }
    }
    text::label(
        ui,
        mark,
        &say!(language, "compare-mark"),
        &text::Style::new(scale.plain(24.0), theme::SOFT_INK, Align2::CENTER_CENTER),
    );
    for (when, shares, mark, note, best) in &view.rows {
        if rest.0.height() < scale.u(76.0) {
            break;
        }
        rest.top(scale.u(6.0));
        let mut row = Rest(rest.top(scale.u(70.0)));
        ui.painter().rect_filled(
            row.0,
            scale.corner(8.0),
            if *best { theme::BAND } else { theme::SURFACE },
        );
        let note_place = row.bottom(scale.u(28.0));
        let (left, cells, right) = cells(row.0);
        let style = |align| text::Style::new(scale.heavy(25.0), theme::INK, align);
        text::label(
            ui,
            left.shrink(scale.u(4.0)),
            when,
            &text::Style::new(scale.plain(21.0), theme::INK, Align2::LEFT_CENTER),
        );
        for (place, share) in cells.into_iter().zip(shares) {
            text::label(ui, place, share, &style(Align2::CENTER_CENTER));
        }
        text::label(ui, right, mark, &style(Align2::CENTER_CENTER));
        let note = if *best {
            say!(language, "compare-best", note = note.as_str())
        } else {
            note.as_str().into()
        };
        text::label(
            ui,
            note_place.shrink2(eframe::egui::vec2(scale.u(6.0), 0.0)),
            &note,
            &text::Style::new(scale.plain(21.0), theme::SOFT_INK, Align2::LEFT_CENTER),
        );
    }
    wishes
}

fn plot(ui: &mut Ui, place: Rect, view: &CompareView) {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let name = view
        .ingredients
        .get(view.plotted)
        .map_or("", String::as_str);
    let above = rest.top(scale.u(30.0));
    let language = crate::words::of(ui);
    let against = say!(
        language,
        "compare-against",
        name = name,
        of = view.of.as_str()
    );
    caption(ui, above, &against);
    if view.points.is_empty() {
        caption(
            ui,
            rest.top(scale.u(60.0)),
            &say!(language, "compare-none-tasted"),
        );
        return;
    }
    let low = view.points.iter().map(|p| p.share).fold(f64::MAX, f64::min);
    let high = view.points.iter().map(|p| p.share).fold(f64::MIN, f64::max);
    let room = ((high - low) * 0.15).max(high.abs() * 0.02).max(0.1);
    let spoken: Vec<String> = view
        .points
        .iter()
        .map(|point| {
            say!(
                language,
                "compare-point-spoken",
                share = language.figure(format!("{:.2}", point.share)),
                mark = point.mark.to_string(),
            )
            .into_owned()
        })
        .collect();
    text::announce_as(
        ui,
        rest.0,
        Role::Image,
        &say!(
            language,
            "compare-against-spoken",
            name = name,
            points = spoken.join("; "),
        ),
    );
    let series = |latest: bool| -> PlotPoints<'static> {
        view.points
            .iter()
            .filter(|point| point.latest == latest)
            .map(|point| [point.share, f64::from(point.mark)])
            .collect()
    };
    ui.scope_builder(UiBuilder::new().max_rect(rest.0), |ui| {
        ui.style_mut().override_font_id = Some(scale.plain(20.0));
        Plot::new(("mark", &view.title))
            .width(rest.0.width())
            .height(rest.0.height())
            .allow_drag(false)
            .allow_zoom(false)
            .allow_scroll(false)
            .allow_boxed_zoom(false)
            .show_x(false)
            .show_y(false)
            .show_grid(Vec2b::TRUE)
            .default_x_bounds(low - room, high + room)
            .default_y_bounds(0.5, 9.5)
            .x_axis_label(format!("{name}, %"))
            .y_axis_label(say!(language, "compare-axis"))
            .show(ui, |plot| {
                plot.points(
                    Points::new(say!(language, "compare-earlier"), series(false))
                        .radius(scale.u(9.0))
                        .shape(MarkerShape::Circle)
                        .color(theme::INK),
                );
                plot.points(
                    Points::new(say!(language, "compare-latest"), series(true))
                        .radius(scale.u(12.0))
                        .shape(MarkerShape::Diamond)
                        .color(theme::verdict(evenhand_protocol::Verdict::Short).mark),
                );
            });
    });
}
