//! What may be longer than its place: as many whole pieces as fit, and where that is not all of
//! them, two big buttons that go on to the others and how many there are.

use super::big_button::{BigButton, struck};
use super::shapes;
use crate::layout::Rest;
use crate::words::{self, say};
use crate::{text, theme, theme::Scale};
use eframe::egui::scroll_area::ScrollBarVisibility;
use eframe::egui::{Align2, Id, Key, Rect, ScrollArea, Sense, Ui, UiBuilder, vec2};

/// What may be off by rounding, in points.
const NEARLY: f32 = 0.5;

/// A list of pieces below one another.
#[derive(Debug, Clone, Copy)]
pub struct LongList<'a> {
    /// Which list: how far it was gone on in is remembered by that.
    pub name: &'a str,
    /// Between two pieces, in points.
    pub gap: f32,
    /// Whether the keys that turn pages go on in this one.
    pub keys: bool,
    /// How many there are, and how many of them stand side by side in a piece.
    pub of: (usize, usize),
}

impl LongList<'_> {
    /// Shows it in `place`. `talls` says how tall each piece is at a width; `piece` draws one in
    /// its place. A piece is drawn whole or not at all.
    pub fn show(
        &self,
        ui: &mut Ui,
        place: Rect,
        talls: impl Fn(f32) -> Vec<f32>,
        mut piece: impl FnMut(&mut Ui, usize, Rect),
    ) {
        let all = Pieces::new(&talls(place.width()), self.gap);
        if all.height <= place.height() + NEARLY {
            for (nth, (top, bottom)) in all.edges.iter().enumerate() {
                let y = place.top() + top..=place.top() + bottom;
                piece(ui, nth, Rect::from_x_y_ranges(place.x_range(), y));
            }
            return;
        }
        let scale = Scale::of(ui);
        let mut rest = Rest(place);
        let strip = rest.right(scale.u(theme::TOUCH + 4.0));
        rest.right(scale.u(8.0));
        let view = rest.0;
        let all = Pieces::new(&talls(view.width()), self.gap);
        let id = Id::unique("long list").with(self.name);
        let at: f32 = ui.data(|data| data.get_temp(id)).unwrap_or(0.0);
        let at = at.min(all.last_page(view.height()));
        let shown = all.whole(at, view.height());
        // Several lists on a screen have each their own buttons.
        let beside = UiBuilder::new()
            .max_rect(strip)
            .id_salt(("beside", self.name));
        let asked = ui
            .scope_builder(beside, |ui| {
                self.strip(ui, strip, (&all, shown), (at, view.height()))
            })
            .inner;
        let mut area = ScrollArea::vertical()
            .id_salt(self.name)
            .auto_shrink(false)
            .content_margin(0.0)
            .scroll_bar_visibility(ScrollBarVisibility::AlwaysHidden);
        if let Some(asked) = asked {
            area = area.vertical_scroll_offset(asked);
        }
        // So far that the last page, too, begins with a whole piece.
        let end = all.last_page(view.height()) + view.height();
        let salt = ("long list", self.name);
        ui.scope_builder(UiBuilder::new().max_rect(view).id_salt(salt), |ui| {
            let gone = area.show(ui, |ui| {
                let (sheet, _) = ui.allocate_exact_size(vec2(view.width(), end), Sense::hover());
                let seen = ui.clip_rect().expand(NEARLY);
                for (nth, (top, bottom)) in all.edges.iter().enumerate() {
                    let y = sheet.top() + top..=sheet.top() + bottom;
                    let place = Rect::from_x_y_ranges(sheet.x_range(), y);
                    let too_tall = bottom - top > view.height();
                    if seen.contains_rect(place) || (too_tall && ui.is_rect_visible(place)) {
                        piece(ui, nth, place);
                    }
                }
            });
            let at = gone.state.clamped_offset().y;
            ui.data_mut(|data| data.insert_temp(id, at));
        });
    }

    /// The buttons; returns where to go on.
    fn strip(
        &self,
        ui: &Ui,
        place: Rect,
        (all, shown): (&Pieces, (usize, usize)),
        (at, height): (f32, f32),
    ) -> Option<f32> {
        let scale = Scale::of(ui);
        let language = words::of(ui);
        let mut rest = Rest(place);
        let half = (place.height() - scale.u(56.0)) / 2.0;
        let (up, down) = (rest.top(half), rest.bottom(half));
        let (in_all, abreast) = self.of;
        let to = (shown.1 * abreast).min(in_all);
        let count = format!("{}\u{2013}{to}", shown.0 * abreast + 1);
        let of = format!("/ {in_all}");
        let (above, below) = rest.0.split_top_bottom_at_fraction(0.5);
        for (place, words) in [(above, count), (below, of)] {
            let style = text::Style::new(scale.plain(23.0), theme::INK, Align2::CENTER_CENTER);
            text::label(ui, place, &words, &style);
        }
        let last = all.last_page(height);
        let button = |key: Key, words: &str, place: Rect, enabled: bool, down: f32| {
            let button = BigButton::new("").spoken(words).enabled(enabled);
            let pressed = button.show(ui, place);
            let ink = if enabled { theme::INK } else { theme::FAINT };
            shapes::triangle(ui.painter(), place.center(), scale.u(16.0), down, ink);
            pressed || (enabled && self.keys && struck(ui, key))
        };
        let words = say!(language, "list-up");
        if button(Key::PageUp, &words, up, at > NEARLY, -1.0) {
            return Some(all.before(at, height));
        }
        let words = say!(language, "list-down");
        button(Key::PageDown, &words, down, at < last - NEARLY, 1.0)
            .then(|| all.after(at, height).min(last))
    }
}

/// Where each piece begins and ends, from the top of the first.
struct Pieces {
    edges: Vec<(f32, f32)>,
    height: f32,
}

impl Pieces {
    fn new(talls: &[f32], gap: f32) -> Self {
        let mut top = 0.0;
        let mut edges = Vec::with_capacity(talls.len());
        for tall in talls {
            edges.push((top, top + tall));
            top += tall + gap;
        }
        Self {
            edges,
            height: (top - gap).max(0.0),
        }
    }

    /// The first that is whole in sight, and the first after those.
    fn whole(&self, at: f32, height: f32) -> (usize, usize) {
        let begun = |(top, _): &(f32, f32)| *top < at - NEARLY;
        let first = self.edges.iter().take_while(|edge| begun(edge)).count();
        let seen = |(_, bottom): &(f32, f32)| *bottom <= at + height + NEARLY;
        let end = self.edges.iter().take_while(|edge| seen(edge)).count();
        (first, end.max(first + 1))
    }

    fn top(&self, nth: usize) -> f32 {
        self.edges.get(nth).map_or(self.height, |(top, _)| *top)
    }

    /// Where the page begins that ends with the last piece.
    fn last_page(&self, height: f32) -> f32 {
        self.page_to(self.edges.len(), height)
    }

    /// Where the page begins whose last piece is the one before `end`.
    fn page_to(&self, end: usize, height: f32) -> f32 {
        let end = end.min(self.edges.len());
        let bottom = self.edges.get(end.saturating_sub(1)).map_or(0.0, |it| it.1);
        let fits = |(top, _): &&(f32, f32)| bottom - *top <= height + NEARLY;
        let page = self.edges.iter().take(end).find(fits);
        page.map_or_else(|| self.top(end.saturating_sub(1)), |(top, _)| *top)
    }

    /// Where the page before begins.
    fn before(&self, at: f32, height: f32) -> f32 {
        let (first, _) = self.whole(at, height);
        if first == 0 {
            0.0
        } else {
            self.page_to(first, height).min(at)
        }
    }

    /// Where the page after begins.
    fn after(&self, at: f32, height: f32) -> f32 {
        let (_, end) = self.whole(at, height);
        self.top(end)
    }
}
