//! Words on the screen: painted, and told to a screen reader in one step.

use super::theme::Scale;
use eframe::egui::accesskit::Live;
use eframe::egui::text::LayoutJob;
use eframe::egui::{
    Align, Align2, Color32, FontId, Galley, Id, Rect, Role, Sense, Ui, Vec2, WidgetInfo, pos2, vec2,
};
use std::sync::Arc;

/// How a text looks.
#[derive(Debug, Clone)]
pub struct Style {
    /// Typeface and size; the size shrinks where the text would not fit.
    pub font: FontId,
    /// Colour.
    pub ink: Color32,
    /// Where in its place it stands.
    pub align: Align2,
}

impl Style {
    /// A style.
    #[must_use]
    pub const fn new(font: FontId, ink: Color32, align: Align2) -> Self {
        Self { font, ink, align }
    }
}

/// Paints one line (or, where it would shrink below `SMALLEST`, several) into
/// `place` and returns where it ended up. Never paints outside `place`.
pub fn paint(ui: &Ui, place: Rect, words: &str, style: &Style) -> Rect {
    let galley = fitted(ui, place, words, style);
    let rect = style.align.align_size_within_rect(galley.size(), place);
    let rect = rect.translate((place.min - rect.min).max(Vec2::ZERO));
    // Several lines are laid out around their own left end, middle or right end.
    let at = match galley.job.halign {
        Align::Min => rect.left_top(),
        Align::Center => rect.center_top(),
        Align::Max => rect.right_top(),
    };
    ui.painter()
        .with_clip_rect(place.expand(1.0).intersect(ui.clip_rect()))
        .galley(at, galley, style.ink);
    rect
}

/// Paints as [`paint`] does, and makes the words readable to a screen reader
/// and to tests.
pub fn label(ui: &Ui, place: Rect, words: &str, style: &Style) -> Rect {
    let rect = paint(ui, place, words, style);
    announce(ui, rect, words);
    rect
}

/// Makes something that is drawn readable to a screen reader and to tests.
pub fn announce(ui: &Ui, rect: Rect, words: &str) {
    announce_as(ui, rect, Role::Label, words);
}

/// As [`label`], and a screen reader says the words when they change: at once where work stops.
pub fn live_label(ui: &Ui, place: Rect, words: &str, style: &Style, at_once: bool) -> Rect {
    let rect = paint(ui, place, words, style);
    // It stays the same text while its words change.
    let id = ui
        .unique_id()
        .with(("live", place.min.x.to_bits(), place.min.y.to_bits()));
    ui.interact(rect, id, Sense::hover())
        .widget_info(|| WidgetInfo::labeled(Role::Label, true, words));
    ui.ctx().accesskit_node_builder(id, |node| {
        node.set_live(if at_once {
            Live::Assertive
        } else {
            Live::Polite
        });
    });
    rect
}

/// As [`announce`], with another role, for instance of a picture.
pub fn announce_as(ui: &Ui, rect: Rect, role: Role, words: &str) {
    // The place is part of the name: the same words may stand twice on a screen, and a text
    // that changes in its place is still the same text.
    let id: Id = ui
        .unique_id()
        .with((rect.min.x.to_bits(), rect.min.y.to_bits(), role as u8));
    ui.interact(rect, id, Sense::hover())
        .widget_info(|| WidgetInfo::labeled(role, true, words));
}

/// The smallest size, in units, that a text shrinks to before it wraps.
const SMALLEST: f32 = 20.0;

/// The smallest size, in units, that a text shrinks to before it is cut off: a
/// long sentence that is small can be read from near by, one cut off cannot.
const LEAST: f32 = 13.0;

fn fitted(ui: &Ui, place: Rect, words: &str, style: &Style) -> Arc<Galley> {
    let scale = Scale::of(ui);
    let smallest = scale.u(SMALLEST).min(style.font.size);
    let lay = |size: f32, width: f32| {
        let font = FontId::new(size, style.font.family.clone());
        let mut job = LayoutJob::simple(words.to_owned(), font, style.ink, width);
        if width.is_finite() {
            job.halign = style.align.x();
        }
        ui.painter().layout_job(job)
    };
    let whole = lay(style.font.size, f32::INFINITY);
    let tall = (place.height() / whole.size().y).min(1.0);
    let wide = (place.width() / whole.size().x).min(1.0);
    let size = style.font.size * tall;
    if wide >= tall {
        return if tall < 1.0 {
            lay(size, f32::INFINITY)
        } else {
            whole
        };
    }
    let single = (style.font.size * wide * 0.99).max(smallest);
    // Two lines in a larger size read better than one in a small one.
    let line = whole.size().y / style.font.size;
    let mut double = (place.height() / (2.0 * line)).min(style.font.size);
    if words.contains(' ') && double >= single {
        let widest_word = words
            .split(' ')
            .map(|word| {
                ui.painter()
                    .layout_no_wrap(
                        word.to_owned(),
                        FontId::new(double, style.font.family.clone()),
                        style.ink,
                    )
                    .size()
                    .x
            })
            .fold(1.0_f32, f32::max);
        double *= (place.width() / widest_word).min(1.0);
        while double > single.max(smallest) {
            let wrapped = lay(double, place.width());
            if wrapped.size().y <= place.height() + 0.5 {
                return wrapped;
            }
            double *= 0.96;
        }
        let wrapped = lay(smallest, place.width());
        if wrapped.rows.len() > 1 && wrapped.size().y <= place.height() + 0.5 {
            return wrapped;
        }
    }
    let one = lay(single, f32::INFINITY);
    if one.size().x <= place.width() {
        return one;
    }
    let least = scale.u(LEAST).min(smallest);
    let mut size = smallest;
    while size > least {
        size = (size * 0.96).max(least);
        let one = lay(size, f32::INFINITY);
        if one.size().x <= place.width() {
            return one;
        }
        let wrapped = lay(size, place.width());
        if words.contains(' ') && wrapped.size().y <= place.height() + 0.5 {
            return wrapped;
        }
    }
    let font = FontId::new(single, style.font.family.clone());
    ui.painter()
        .layout_job(elided(words, font, style.ink, place.width()))
}

fn elided(words: &str, font: FontId, ink: Color32, width: f32) -> LayoutJob {
    let mut job = LayoutJob::simple_singleline(words.to_owned(), font, ink);
    job.wrap.max_width = width;
    job.wrap.max_rows = 1;
    job.wrap.break_anywhere = true;
    job
}

/// The middle line of a figure: where a single glyph's painted height is
/// centred on `middle`, whatever the typeface's own ascent is. Returns where
/// it was painted.
pub fn glyph(ui: &Ui, middle: f32, left: f32, words: &str, font: FontId, ink: Color32) -> Rect {
    let galley = ui.painter().layout_no_wrap(words.to_owned(), font, ink);
    let painted = galley.mesh_bounds;
    let at = pos2(left, middle - painted.center().y);
    let rect = Rect::from_min_size(
        at + vec2(0.0, painted.min.y),
        vec2(galley.size().x, painted.height()),
    );
    ui.painter().galley(at, galley, ink);
    rect
}
