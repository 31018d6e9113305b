//! The live mass, legible at two metres.

use crate::bench_view::{MassView, Of};
use crate::layout::Rest;
use crate::words::{self, Language, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{
    Align2, Color32, CornerRadius, FontId, Rect, Shape, Stroke, StrokeKind, Ui, Vec2, pos2, vec2,
};
use evenhand_protocol::{Goal, Mass, Verdict};

/// Shows the figure in `place`. Its digits stand in cells of one width, and
/// the number of cells follows the run's goal, so nothing jitters or jumps
/// while food is added.
pub fn show(ui: &Ui, place: Rect, view: &MassView, goal: Option<Goal>) {
    let scale = Scale::of(ui);
    let colours = view.verdict.map(theme::verdict);
    let loud = matches!(view.verdict, Some(Verdict::On | Verdict::Heavy));
    let (fill, ink) = match colours {
        Some(colours) if loud => (colours.fill, colours.ink),
        _ => (theme::SURFACE, theme::INK),
    };
    let edge = match colours {
        Some(colours) => scale.stroke(6.0, colours.mark),
        None => scale.stroke(2.0, theme::FAINT),
    };
    ui.painter()
        .rect(place, scale.corner(14.0), fill, edge, StrokeKind::Inside);

    let inner = place.shrink2(vec2(scale.u(20.0), scale.u(18.0)));
    let (figure, side) = inner.split_left_right_at_x(inner.right() - scale.u(134.0));
    let mut side = Rest(side);
    text::label(
        ui,
        side.top(scale.u(66.0)),
        &view.caption,
        &text::Style::new(scale.plain(27.0), ink, Align2::RIGHT_TOP),
    );
    if let Some(stable) = view.stable {
        let line = side.top(scale.u(36.0));
        let words = if stable {
            say!(words::of(ui), "mass-steady")
        } else {
            say!(words::of(ui), "mass-moving")
        };
        let written = text::label(
            ui,
            line,
            &words,
            &text::Style::new(scale.plain(27.0), ink, Align2::RIGHT_CENTER),
        );
        let centre = pos2(written.left() - scale.u(20.0), line.center().y);
        if stable {
            ui.painter().circle_filled(centre, scale.u(9.0), ink);
        } else {
            ui.painter()
                .circle_stroke(centre, scale.u(8.0), scale.stroke(3.0, ink));
        }
    }

    let language = words::of(ui);
    if let Some(pan) = view.of.pan() {
        text::label(
            ui,
            side.top(scale.u(30.0)),
            &say!(language, "mass-on-the-pan"),
            &text::Style::new(scale.plain(22.0), ink, Align2::RIGHT_CENTER),
        );
        text::label(
            ui,
            side.top(scale.u(36.0)),
            &figures::grams(pan, view.interval, language),
            &text::Style::new(scale.heavy(28.0), ink, Align2::RIGHT_CENTER),
        );
    }
    let written = view
        .shown
        .map(|mass| figures::bare(mass, view.interval, language));
    let cells = Cells::for_run(goal, view, written.as_deref());
    cells.paint(ui, figure, inner.right(), written.as_deref(), ink);
    if matches!(view.of, Of::Struck { .. }) {
        // Struck through, so that it is not taken for one that counts.
        ui.painter().hline(
            figure.x_range(),
            figure.center().y,
            scale.stroke(14.0, theme::verdict(Verdict::Heavy).mark),
        );
    }

    let spoken = match (&written, view.verdict) {
        (Some(_), _) if view.of.pan().is_some() => {
            // The caption says which portion it is.
            let mass = view.shown.unwrap_or(Mass::ZERO);
            let mass = figures::grams(mass, view.interval, language);
            let verdict = view
                .verdict
                .map(|verdict| figures::verdict(verdict, language));
            [
                Some(view.caption.as_str().into()),
                Some(mass.into()),
                verdict,
            ]
            .into_iter()
            .flatten()
            .collect::<Vec<std::borrow::Cow<'_, str>>>()
            .join(", ")
            .into()
        }
        (None, _) => say!(language, "mass-spoken-unknown"),
        (Some(written), None) => say!(language, "mass-spoken", mass = written),
        (Some(written), Some(verdict)) => say!(
            language,
            "mass-spoken-verdict",
            mass = written,
            verdict = figures::verdict(verdict, language)
        ),
    };
    text::announce(ui, figure, &spoken);
}

const MINUS: char = '\u{2212}';

/// How many digits there is room for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cells {
    /// Before the point.
    pub whole: usize,
    /// After it.
    pub decimals: usize,
    /// Whether there is room for a minus sign before them.
    pub sign: bool,
}

/// How wide the minus sign's cell is, in widths of a digit's cell.
const SIGN: f32 = 0.56;

impl Cells {
    /// Room for the goal and for what is shown now.
    #[must_use]
    pub fn for_run(goal: Option<Goal>, view: &MassView, written: Option<&str>) -> Self {
        let decimals = figures::decimals(view.interval);
        let digits_of = |mass: Mass| {
            figures::bare(mass, view.interval, Language::default())
                .chars()
                .take_while(char::is_ascii_digit)
                .count()
        };
        let expected = goal.map_or(3, |goal| digits_of(goal.heaviest()).max(2));
        let shown = written.map_or(0, |written| {
            written
                .chars()
                .filter(char::is_ascii_digit)
                .count()
                .saturating_sub(decimals)
        });
        Self {
            whole: expected.max(shown),
            decimals,
            // A portion is not below nothing; what lies on the pan may be.
            sign: goal.is_none() || written.is_some_and(|written| written.starts_with(MINUS)),
        }
    }

    fn paint(self, ui: &Ui, place: Rect, edge: f32, written: Option<&str>, ink: Color32) {
        let scale = Scale::of(ui);
        // Everything is measured once at a known size and is proportional to it.
        let probe = 100.0;
        let widest = ('0'..='9')
            .map(|digit| measure(ui, scale.heavy(probe), digit).x)
            .fold(0.0_f32, f32::max);
        let height = measure(ui, scale.heavy(probe), '0').y;
        let digits = (self.whole + self.decimals) as f32;
        let point = if self.decimals > 0 { 0.30 } else { 0.0 };
        let sign = if self.sign { SIGN } else { 0.0 };
        let total = (digits + point + sign) * widest;
        let size = probe * (place.height() / height).min(place.width() / total);
        let cell = widest * size / probe;
        let tall = height * size / probe;

        let font = scale.heavy(size);
        let middle = place.center().y;
        unit(ui, place, edge, middle + tall / 2.0, ink);

        let left = place.right() - (digits + point) * cell;
        let cell_at = |nth: usize| {
            let shift = if nth >= self.whole { point } else { 0.0 };
            left + (nth as f32 + shift) * cell
        };
        if self.decimals > 0 {
            let centre = pos2(
                left + (self.whole as f32 + point / 2.0) * cell,
                middle + tall / 2.0 - 0.09 * cell,
            );
            ui.painter().circle_filled(centre, 0.10 * cell, ink);
            if words::of(ui).decimal_mark() == ',' {
                // The comma's tail, down and to the left.
                ui.painter().add(Shape::convex_polygon(
                    vec![
                        centre + vec2(0.10, 0.0) * cell,
                        centre + vec2(-0.04, 0.17) * cell,
                        centre + vec2(-0.09, 0.15) * cell,
                        centre + vec2(-0.02, 0.0) * cell,
                    ],
                    ink,
                    Stroke::NONE,
                ));
            }
        }
        let Some(written) = written else {
            for nth in 0..self.whole + self.decimals {
                let bar = Rect::from_center_size(
                    pos2(cell_at(nth) + cell / 2.0, middle),
                    vec2(cell * 0.56, cell * 0.16),
                );
                ui.painter().rect_filled(bar, CornerRadius::ZERO, ink);
            }
            return;
        };
        let shown: Vec<char> = written.chars().filter(char::is_ascii_digit).collect();
        let blank = (self.whole + self.decimals).saturating_sub(shown.len());
        for (nth, digit) in shown.iter().enumerate() {
            let nth = nth + blank;
            let width = measure(ui, font.clone(), *digit).x;
            text::glyph(
                ui,
                middle,
                cell_at(nth) + (cell - width) / 2.0,
                &digit.to_string(),
                font.clone(),
                ink,
            );
        }
        if written.starts_with(MINUS) {
            // In a cell of its own, apart from the first digit.
            let bar = Rect::from_center_size(
                pos2(cell_at(blank) - cell * (SIGN - 0.22), middle),
                vec2(cell * 0.40, cell * 0.16),
            );
            ui.painter().rect_filled(bar, CornerRadius::ZERO, ink);
        }
    }
}

/// The unit, standing on the figure's foot in the middle of what is left.
fn unit(ui: &Ui, figure: Rect, right: f32, foot: f32, ink: Color32) {
    let scale = Scale::of(ui);
    let left = figure.right();
    let font = scale.heavy((figure.height() / scale.u(1.0) * 0.42).min(110.0));
    let galley = ui
        .painter()
        .layout_no_wrap("g".to_owned(), font.clone(), ink);
    // The letter hangs below the line that the digits stand on; an x shows where that line is.
    let line = ui.painter().layout_no_wrap("x".to_owned(), font, ink);
    let at = pos2(
        (left + right - galley.size().x) / 2.0,
        foot - line.mesh_bounds.bottom() - scale.u(8.0),
    );
    ui.painter().galley(at, galley, ink);
}

/// Width of a glyph's cell and painted height of it.
fn measure(ui: &Ui, font: FontId, glyph: char) -> Vec2 {
    let galley = ui
        .painter()
        .layout_no_wrap(glyph.to_string(), font, Color32::BLACK);
    vec2(galley.size().x, galley.mesh_bounds.height())
}
