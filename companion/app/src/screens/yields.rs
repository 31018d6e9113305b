//! Batches side by side in one picture: a bar for what came out of each, its
//! parts by colour, up to where what went in ends.

use crate::book::{BarView, Bars};
use crate::layout::Rest;
use crate::text;
use crate::theme::{self, Scale};
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::long_list::LongList;
use eframe::egui::{Align2, Color32, Rect, Ui, pos2, vec2};
use evenhand_use_cases::colours::{CAME_OUT, NOT_OUT};

/// Of a row, in units: tall enough to be touched.
const ROW: f32 = theme::TOUCH + 2.0;

/// Shows the picture in `place`.
pub(super) fn show<W: Clone>(ui: &mut Ui, place: Rect, (name, bars): (&str, &Bars<W>)) -> Vec<W> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    legend(ui, &mut rest, bars);
    rest.top(scale.u(4.0));
    let most = bars
        .bars
        .iter()
        .map(|bar| bar.into.max(bar.out.iter().sum()))
        .fold(f32::MIN_POSITIVE, f32::max);
    let mut wishes = Vec::new();
    let list = LongList {
        name: &format!("{name} bars"),
        gap: scale.u(4.0),
        keys: true,
        of: (bars.bars.len(), 1),
    };
    list.show(
        ui,
        rest.0,
        |_| vec![scale.u(ROW); bars.bars.len()],
        |ui, nth, place| {
            if let Some(bar) = bars.bars.get(nth)
                && a_bar(ui, place, (nth, bar), most)
            {
                wishes.push(bar.wish.clone());
            }
        },
    );
    wishes
}

/// What each colour is, as many lines as it takes, and what the figures are.
fn legend<W>(ui: &Ui, rest: &mut Rest, bars: &Bars<W>) {
    let scale = Scale::of(ui);
    let font = scale.plain(24.0);
    let (line, square, gap) = (scale.u(32.0), scale.u(20.0), scale.u(8.0));
    let named = bars
        .legend
        .iter()
        .enumerate()
        .map(|(nth, name)| (name, out_colour(nth)))
        .chain([(&bars.lost, not_out())]);
    let width = rest.0.width();
    let mut place = rest.top(line);
    let mut x = place.left();
    for (name, colour) in named {
        let words = ui
            .painter()
            .layout_no_wrap(name.clone(), font.clone(), theme::INK)
            .size()
            .x;
        let wide = square + gap + words;
        if x + wide > place.left() + width && x > place.left() {
            place = rest.top(line);
            x = place.left();
        }
        let middle = place.center().y;
        let mark = Rect::from_center_size(pos2(x + square / 2.0, middle), vec2(square, square));
        ui.painter().rect_filled(mark, 0.0, colour);
        ui.painter().rect_stroke(
            mark,
            0.0,
            (1.0, theme::SOFT_INK),
            eframe::egui::StrokeKind::Inside,
        );
        let words = Rect::from_min_max(
            pos2(x + square + gap, place.top()),
            pos2((x + wide + 1.0).min(place.right()), place.bottom()),
        );
        let style = text::Style::new(font.clone(), theme::INK, Align2::LEFT_CENTER);
        text::label(ui, words, name, &style);
        x += wide + scale.u(26.0);
    }
    let style = text::Style::new(scale.plain(22.0), theme::SOFT_INK, Align2::RIGHT_CENTER);
    text::label(ui, rest.top(scale.u(30.0)), &bars.figures, &style);
}

fn a_bar<W>(ui: &Ui, place: Rect, (nth, bar): (usize, &BarView<W>), most: f32) -> bool {
    let scale = Scale::of(ui);
    let weight = if bar.chosen {
        Weight::Chosen
    } else {
        Weight::Plain
    };
    let pressed = BigButton::new("")
        .weight(weight)
        // Two of a day may have the same figures.
        .spoken(&format!("{}. {}: {}", nth + 1, bar.name, bar.figures))
        .show(ui, place);
    let mut rest = Rest(place.shrink2(vec2(scale.u(12.0), scale.u(6.0))));
    let ink = if bar.chosen {
        theme::ON_DARK
    } else {
        theme::INK
    };
    let style = text::Style::new(scale.heavy(24.0), ink, Align2::LEFT_CENTER);
    text::paint(ui, rest.left(scale.u(168.0)), &bar.name, &style);
    let style = text::Style::new(scale.plain(24.0), ink, Align2::RIGHT_CENTER);
    text::paint(ui, rest.right(scale.u(178.0)), &bar.figures, &style);
    rest.right(scale.u(10.0));
    // On white, also where the row is chosen: the colours stay what the legend says.
    let field = rest.0.shrink2(vec2(0.0, scale.u(2.0)));
    ui.painter().rect_filled(field, 0.0, theme::SURFACE);
    let wide = |share: f32| share / most * field.width();
    let part = |from: f32, to: f32, colour: Color32| {
        let part = Rect::from_x_y_ranges(
            field.left() + from..=field.left() + to,
            field.y_range().shrink(scale.u(3.0)),
        );
        ui.painter().rect_filled(part, 0.0, colour);
    };
    let mut x = 0.0;
    for (nth, out) in bar.out.iter().enumerate() {
        part(x, x + wide(*out), out_colour(nth));
        x += wide(*out);
    }
    let ends = wide(bar.into);
    if ends > x {
        part(x, ends, not_out());
    }
    ui.painter().vline(
        field.left() + ends,
        field.y_range(),
        (scale.u(2.5), theme::INK),
    );
    pressed
}

fn out_colour(nth: usize) -> Color32 {
    let [red, green, blue] = CAME_OUT[nth % CAME_OUT.len()].rgb();
    Color32::from_rgb(red, green, blue)
}

fn not_out() -> Color32 {
    let [red, green, blue] = NOT_OUT.rgb();
    Color32::from_rgb(red, green, blue)
}
