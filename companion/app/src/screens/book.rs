//! The book's screens: one that sets things and tells what follows, or a list.

use super::mixing::entry;
use super::mixing::{head, loud};
use super::yields;
use crate::book::{BookView, BookWish, FieldView, RowView, Sheet};
use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::state::State;
use crate::theme::{self, Scale};
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::long_list::LongList;
use crate::{mixing::Wish, text};
use eframe::egui::{Align2, Key, Rect, Ui, vec2};

/// Shows the book's screen that the state names in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let BookView { entry, sheet, page } = &state.book;
    let wishes = match entry {
        Some(view) => entry::show(ui, place, view)
            .into_iter()
            .filter_map(|wish| match wish {
                Wish::Type(text) => Some(BookWish::Type(text)),
                Wish::Enter => Some(BookWish::Enter),
                Wish::Leave => Some(BookWish::Leave),
                _ => None,
            })
            .collect(),
        None => a_sheet(ui, place, page, sheet),
    };
    wishes.into_iter().map(Intent::Book).collect()
}

/// Shows a sheet of one of the screens, `page`, and tells what was wished for.
pub(super) fn a_sheet<W: Clone>(
    ui: &mut Ui,
    place: Rect,
    page: &impl std::fmt::Debug,
    sheet: &Sheet<W>,
) -> Vec<W> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let mut rest = Rest(place);
    head(ui, rest.top(scale.u(46.0)), &sheet.heading, &sheet.prompt);
    rest.top(scale.u(6.0));
    let mut wishes = foot(ui, rest.bottom(scale.u(76.0)), sheet);
    rest.bottom(gap);
    if let Some(why) = &sheet.loud {
        loud(ui, rest.top(scale.u(84.0)), why);
        rest.top(gap);
    }
    // Of one page's formulas each is gone on in by itself.
    let name = format!("{page:?} {}", sheet.heading);
    if let Some(bars) = &sheet.bars {
        let left = rest.left(rest.0.width() * 0.62);
        rest.left(scale.u(18.0));
        wishes.extend(yields::show(ui, left, (&name, bars)));
    }
    if !sheet.fields.is_empty() {
        let beside = !sheet.lines.is_empty() || !sheet.rows.is_empty();
        let across = if beside { 2 } else { 3 };
        let width = rest.0.width() * if beside { 0.5 } else { 1.0 };
        let left = rest.left(width);
        rest.left(scale.u(18.0));
        wishes.extend(fields(ui, left, (&name, sheet), across));
    }
    if !sheet.lines.is_empty() {
        let tall = if sheet.rows.is_empty() {
            rest.0.height()
        } else {
            scale.u(UNDER_ROWS)
        };
        let place = rest.bottom(tall);
        lines(ui, place, (&name, sheet));
    }
    wishes.extend(rows(ui, rest.0, (&name, sheet)));
    wishes
}

/// How much room, in units, is left for what is said under rows.
const UNDER_ROWS: f32 = 150.0;

/// What can be chosen, in whole rows.
fn rows<W: Clone>(ui: &mut Ui, place: Rect, (name, sheet): (&str, &Sheet<W>)) -> Vec<W> {
    let scale = Scale::of(ui);
    let tall = scale.u(66.0);
    let mut wishes = Vec::new();
    let list = LongList {
        name: &format!("{name} rows"),
        gap: scale.u(6.0),
        keys: true,
        of: (sheet.rows.len(), 1),
    };
    list.show(
        ui,
        place,
        |_| vec![tall; sheet.rows.len()],
        |ui, nth, place| {
            if let Some(row) = sheet.rows.get(nth)
                && a_row(ui, place, row)
            {
                wishes.push(row.wish.clone());
            }
        },
    );
    wishes
}

/// What follows, each sentence whole and large enough to be read from where one works.
fn lines<W>(ui: &mut Ui, place: Rect, (name, sheet): (&str, &Sheet<W>)) {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let painter = ui.painter().clone();
    let laid = |words: &String, size: f32, width: f32| {
        painter.layout(words.clone(), scale.plain(size), theme::INK, width)
    };
    let talls = |size: f32, width: f32| -> Vec<f32> {
        let lines = sheet.lines.iter();
        lines
            .map(|words| laid(words, size, width).size().y)
            .collect()
    };
    // The largest size in which all of it is in sight; else page by page.
    let in_sight = |size: &f32| {
        let talls = talls(*size, place.width());
        talls.iter().map(|tall| tall + gap).sum::<f32>() - gap <= place.height()
    };
    let size = [26.0, 24.0, 22.0]
        .into_iter()
        .find(in_sight)
        .unwrap_or(24.0);
    let list = LongList {
        name: &format!("{name} lines"),
        gap,
        keys: sheet.rows.is_empty() && sheet.fields.is_empty(),
        of: (sheet.lines.len(), 1),
    };
    list.show(
        ui,
        place,
        |width| talls(size, width),
        |ui, nth, place| {
            if let Some(words) = sheet.lines.get(nth) {
                let galley = laid(words, size, place.width());
                text::announce(ui, place, words);
                ui.painter().galley(place.min, galley, theme::INK);
            }
        },
    );
}

/// A field is as tall as this, in units, where there is room,
const FIELD: f32 = 92.0;
/// never less than this,
const LEAST_FIELD: f32 = 70.0;
/// and this where there are more of them than fit.
const FIELD_OF_MANY: f32 = 84.0;

fn fields<W: Clone>(
    ui: &mut Ui,
    place: Rect,
    (name, sheet): (&str, &Sheet<W>),
    across: usize,
) -> Vec<W> {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let down = sheet.fields.len().div_ceil(across).max(1);
    let each = (place.height() + gap) / down as f32 - gap;
    let tall = if each < scale.u(LEAST_FIELD) {
        scale.u(FIELD_OF_MANY)
    } else {
        each.min(scale.u(FIELD))
    };
    let mut wishes = Vec::new();
    let list = LongList {
        name: &format!("{name} fields"),
        gap,
        keys: sheet.rows.is_empty(),
        of: (sheet.fields.len(), across),
    };
    list.show(
        ui,
        place,
        |_| vec![tall; down],
        |ui, nth, row| {
            let fields = sheet.fields.chunks(across).nth(nth).into_iter().flatten();
            for (place, field) in layout::columns(row, across, gap).into_iter().zip(fields) {
                if a_field(ui, place, field) {
                    wishes.push(field.wish.clone());
                }
            }
        },
    );
    wishes
}

fn a_field<W>(ui: &Ui, place: Rect, field: &FieldView<W>) -> bool {
    let spoken = if field.caption.is_empty() {
        field.value.clone()
    } else {
        format!("{}: {}", field.caption, field.value)
    };
    let weight = if field.chosen {
        Weight::Chosen
    } else {
        Weight::Plain
    };
    let button = BigButton::new(&field.value).weight(weight).spoken(&spoken);
    if field.caption.is_empty() {
        button.show(ui, place)
    } else {
        button.detail(&field.caption).show(ui, place)
    }
}

fn foot<W: Clone>(ui: &Ui, place: Rect, sheet: &Sheet<W>) -> Vec<W> {
    let scale = Scale::of(ui);
    layout::columns(place, sheet.foot.len(), scale.u(10.0))
        .into_iter()
        .zip(&sheet.foot)
        .enumerate()
        .filter_map(|(nth, (place, foot))| {
            let mut button = BigButton::new(&foot.words).enabled(foot.enabled);
            if nth == 0 {
                button = button.key(Key::Escape);
            }
            if foot.main {
                button = button.key(Key::Enter).weight(Weight::Main);
            }
            button.show(ui, place).then(|| foot.wish.clone())
        })
        .collect()
}

fn a_row<W>(ui: &Ui, place: Rect, row: &RowView<W>) -> bool {
    let scale = Scale::of(ui);
    let spoken = if row.about.is_empty() {
        row.name.clone()
    } else {
        format!("{}: {}", row.name, row.about)
    };
    let pressed = BigButton::new("").spoken(&spoken).show(ui, place);
    let mut rest = Rest(place.shrink2(vec2(scale.u(14.0), scale.u(6.0))));
    let share = if row.about.is_empty() { 1.0 } else { 0.4 };
    let left = rest.left(rest.0.width() * share);
    let font = if row.about.is_empty() {
        scale.plain(28.0)
    } else {
        scale.heavy(28.0)
    };
    text::paint(
        ui,
        left,
        &row.name,
        &text::Style::new(font, theme::INK, Align2::LEFT_CENTER),
    );
    if !row.about.is_empty() {
        rest.left(scale.u(10.0));
        let style = text::Style::new(scale.plain(24.0), theme::SOFT_INK, Align2::LEFT_CENTER);
        text::paint(ui, rest.0, &row.about, &style);
    }
    pressed
}
