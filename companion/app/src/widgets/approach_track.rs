//! The approach to the target: a long track whose last stretch is magnified,
//! so that the first spoonfuls and the last grain both show.

use super::shapes;
use crate::words::{self, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Color32, Mesh, Pos2, Rect, Role, Shape, Stroke, Ui, pos2, vec2};
use evenhand_protocol::{Goal, Mass, Verdict};

/// Where masses lie on the track: coarse from nought, then a magnified stretch
/// of four tolerances to either side of the target.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Approach {
    from: f64,
    fine: f64,
    to: f64,
    coarse_share: f64,
    band: (f64, f64),
}

impl Approach {
    /// The track's share that is not magnified, where there is such a part.
    const COARSE: f64 = 0.36;
    /// Tolerances to either side of the target in the magnified part.
    const REACH: f64 = 4.0;
    /// Where the tolerance is very small, it counts as this share of the target.
    const LEAST: f64 = 0.005;

    /// The track of a goal.
    #[must_use]
    pub fn of(goal: Goal) -> Self {
        let target = goal.target().grams();
        let tolerance = goal.tolerance();
        let widest = tolerance.below.grams().max(tolerance.above.grams());
        let reach = Self::REACH * widest.max(target * Self::LEAST);
        let fine = (target - reach).max(0.0);
        Self {
            from: 0.0,
            fine,
            to: target + reach,
            coarse_share: if fine > 0.0 { Self::COARSE } else { 0.0 },
            band: (goal.lightest().grams(), goal.heaviest().grams()),
        }
    }

    /// Where a mass lies, from 0 (left) to 1 (right); masses off the track lie
    /// at its end.
    #[must_use]
    pub fn place(&self, mass: Mass) -> f32 {
        self.place_grams(mass.grams()) as f32
    }

    fn place_grams(&self, grams: f64) -> f64 {
        let at = grams.clamp(self.from, self.to);
        if at < self.fine {
            self.coarse_share * (at - self.from) / (self.fine - self.from)
        } else {
            self.coarse_share + (1.0 - self.coarse_share) * (at - self.fine) / (self.to - self.fine)
        }
    }

    /// Where the tolerance band begins and ends.
    #[must_use]
    pub fn band(&self) -> (f32, f32) {
        (
            self.place_grams(self.band.0) as f32,
            self.place_grams(self.band.1) as f32,
        )
    }

    /// Where the magnified part begins.
    #[must_use]
    pub fn magnified_from(&self) -> f32 {
        self.coarse_share as f32
    }

    /// How many times longer a gram is in the magnified part than in the
    /// other; 1 where all is one part.
    #[must_use]
    pub fn magnification(&self) -> f32 {
        if self.coarse_share == 0.0 {
            return 1.0;
        }
        let coarse = self.coarse_share / (self.fine - self.from);
        let fine = (1.0 - self.coarse_share) / (self.to - self.fine);
        (fine / coarse) as f32
    }

    /// Whether a mass is past either end.
    #[must_use]
    pub fn is_off(&self, mass: Mass) -> bool {
        mass.grams() > self.to || mass.grams() < self.from
    }
}

/// How far the marker with its arrow reaches past the mass that it stands at, in units.
pub const MARKER: f32 = 50.0;

/// Shows the track in `place`.
pub fn show(ui: &Ui, place: Rect, goal: Goal, amount: Option<(Mass, Verdict)>, interval: Mass) {
    let scale = Scale::of(ui);
    let track = Approach::of(goal);
    let (bar, foot) = place.split_top_bottom_at_y(place.bottom() - scale.u(34.0));
    // The marker, and the arrow beyond an end, stay within the place.
    let bar = bar
        .with_min_y(bar.top() + scale.u(8.0))
        .shrink2(vec2(scale.u(MARKER), 0.0));
    let foot = foot.shrink2(vec2(scale.u(MARKER), 0.0));
    let x = |share: f32| bar.left() + share * bar.width();
    let painter = ui.painter();

    painter.add(stretch(
        bar,
        &track,
        bar.left(),
        bar.right(),
        theme::SURFACE,
    ));
    let (band_from, band_to) = track.band();
    // A band of no width still gets a line to aim at.
    let band = Rect::from_x_y_ranges(
        x(band_from)..=x(band_to).max(x(band_from) + scale.u(4.0)),
        bar.y_range(),
    );
    painter.rect_filled(band, 0.0, theme::BAND);

    if let Some((mass, _)) = amount {
        // Up to the band, within it, past it: each stretch in the colour of its verdict.
        let front = x(track.place(mass));
        let stretches = [
            (Verdict::Short, bar.left(), band.left()),
            (Verdict::On, band.left(), band.right()),
            (Verdict::Heavy, band.right(), bar.right()),
        ];
        for (verdict, from, to) in stretches {
            if front > from {
                let fill = theme::verdict(verdict).fill;
                painter.add(stretch(bar, &track, from, front.min(to), fill));
            }
        }
    }
    ticks(ui, bar, &track, goal);
    painter.add(Shape::closed_line(
        outline(bar, &track),
        scale.stroke(2.0, theme::EDGE),
    ));
    for edge in [band.left(), band.right()] {
        painter.vline(
            edge,
            bar.y_range(),
            scale.stroke(4.0, theme::verdict(Verdict::On).mark),
        );
    }
    let target = x(track.place(goal.target()));
    let covered = amount.is_some_and(|(mass, _)| mass >= goal.target());
    let line = if covered {
        theme::ON_DARK
    } else {
        theme::verdict(Verdict::On).mark
    };
    painter.add(Shape::dashed_line(
        &[pos2(target, bar.top()), pos2(target, bar.bottom())],
        scale.stroke(3.0, line),
        scale.u(8.0),
        scale.u(6.0),
    ));

    scale_words(ui, foot, x, &track, goal, interval);
    let language = words::of(ui);
    let aim = figures::goal(goal, interval, language);
    let spoken = match amount {
        None => say!(language, "approach-nothing", goal = aim),
        Some((mass, verdict)) => say!(
            language,
            "approach",
            goal = aim,
            verdict = figures::verdict(verdict, language),
            distance = figures::distance(goal, mass, verdict, interval, language)
        ),
    };
    if let Some((mass, verdict)) = amount {
        marker(ui, bar, x(track.place(mass)), verdict, track.is_off(mass));
    }
    text::announce_as(ui, bar, Role::Meter, &spoken);
}

/// Half the height of the track at a share of its length: thin where it is
/// coarse, opening like a lens into the magnified part.
fn half_height(bar: Rect, track: &Approach, share: f32) -> f32 {
    let from = track.magnified_from();
    let thin = 0.26 * bar.height();
    let full = 0.5 * bar.height();
    if from == 0.0 || share >= from {
        return full;
    }
    let opening = from - 0.05;
    if share <= opening {
        thin
    } else {
        thin + (full - thin) * (share - opening) / (from - opening)
    }
}

/// Where the outline bends.
fn bends(track: &Approach) -> [f32; 4] {
    let from = track.magnified_from();
    [0.0, (from - 0.05).max(0.0), from, 1.0]
}

fn outline(bar: Rect, track: &Approach) -> Vec<Pos2> {
    let middle = bar.center().y;
    let corner = |share: f32, side: f32| {
        pos2(
            bar.left() + share * bar.width(),
            middle + side * half_height(bar, track, share),
        )
    };
    let mut points: Vec<Pos2> = bends(track)
        .iter()
        .map(|share| corner(*share, -1.0))
        .collect();
    points.extend(bends(track).iter().rev().map(|share| corner(*share, 1.0)));
    points.dedup();
    points
}

/// The part of the track between two places, as one mesh (its outline is not
/// convex, so it is cut into upright strips).
fn stretch(bar: Rect, track: &Approach, from: f32, to: f32, colour: Color32) -> Shape {
    let share = |x: f32| ((x - bar.left()) / bar.width()).clamp(0.0, 1.0);
    let (from, to) = (share(from), share(to));
    let mut shares = vec![from];
    shares.extend(bends(track).into_iter().filter(|at| from < *at && *at < to));
    shares.push(to);
    let mut mesh = Mesh::default();
    for share in shares {
        let half = half_height(bar, track, share);
        let at = bar.left() + share * bar.width();
        mesh.colored_vertex(pos2(at, bar.center().y - half), colour);
        mesh.colored_vertex(pos2(at, bar.center().y + half), colour);
    }
    let pairs = mesh.vertices.len() as u32 / 2;
    for pair in 1..pairs {
        let corner = pair * 2;
        mesh.add_triangle(corner - 2, corner - 1, corner);
        mesh.add_triangle(corner - 1, corner, corner + 1);
    }
    Shape::mesh(mesh)
}

/// A tick at each tolerance from the target in the magnified part.
fn ticks(ui: &Ui, bar: Rect, track: &Approach, goal: Goal) {
    let scale = Scale::of(ui);
    let step = goal.tolerance().below.max(goal.tolerance().above);
    if step <= Mass::ZERO {
        return;
    }
    for nth in -3..=3_i64 {
        let at = goal.target() + step.times(nth);
        let share = track.place(at);
        if share < track.magnified_from() || at <= Mass::ZERO {
            continue;
        }
        let x = bar.left() + share * bar.width();
        ui.painter().vline(
            x,
            bar.bottom() - scale.u(16.0)..=bar.bottom(),
            scale.stroke(2.0, theme::EDGE),
        );
    }
}

fn scale_words(
    ui: &Ui,
    foot: Rect,
    x: impl Fn(f32) -> f32,
    track: &Approach,
    goal: Goal,
    interval: Mass,
) {
    let scale = Scale::of(ui);
    let soft = |align| text::Style::new(scale.plain(24.0), theme::SOFT_INK, align);
    text::label(ui, foot, "0", &soft(Align2::LEFT_BOTTOM));
    let (band_from, band_to) = track.band();
    let middle = x(track.place(goal.target()));
    let limits = [
        (goal.lightest(), x(band_from), Align2::RIGHT_BOTTOM),
        (goal.heaviest(), x(band_to), Align2::LEFT_BOTTOM),
    ];
    let target = text::label(
        ui,
        Rect::from_center_size(
            pos2(middle, foot.center().y),
            vec2(scale.u(130.0), foot.height()),
        ),
        &figures::bare(goal.target(), interval, words::of(ui)),
        &text::Style::new(scale.heavy(30.0), theme::INK, Align2::CENTER_BOTTOM),
    );
    let gap = scale.u(14.0);
    for (mass, at, align) in limits {
        if mass == goal.target() {
            continue;
        }
        let width = scale.u(120.0);
        let slot = if align == Align2::RIGHT_BOTTOM {
            let right = (at + scale.u(24.0)).min(target.left() - gap);
            Rect::from_x_y_ranges(right - width..=right, foot.y_range())
        } else {
            let left = (at - scale.u(24.0)).max(target.right() + gap);
            Rect::from_x_y_ranges(left..=left + width, foot.y_range())
        };
        let limit = figures::bare(mass, interval, words::of(ui));
        text::label(ui, slot, &limit, &soft(align));
    }
}

fn marker(ui: &Ui, bar: Rect, x: f32, verdict: Verdict, off: bool) {
    let scale = Scale::of(ui);
    let colours = theme::verdict(verdict);
    let painter = ui.painter();
    let needle = Rect::from_x_y_ranges(
        x - scale.u(5.0)..=x + scale.u(5.0),
        bar.top() - scale.u(4.0)..=bar.bottom() + scale.u(4.0),
    );
    painter.rect_filled(
        needle.expand(scale.u(2.0)),
        scale.corner(4.0),
        theme::SURFACE,
    );
    painter.rect_filled(needle, scale.corner(3.0), theme::INK);
    let radius = scale.u(17.0);
    let head = pos2(x, bar.center().y);
    painter.circle_filled(head, radius * 1.55, theme::SURFACE);
    painter.circle_stroke(head, radius * 1.55, scale.stroke(4.0, theme::INK));
    shapes::verdict(painter, head, radius, verdict, colours.mark);
    if off {
        // Past the end: an arrow beyond the track says that it goes on.
        let tip = if verdict == Verdict::Heavy { 1.0 } else { -1.0 };
        let from = head + vec2(tip * radius * 1.9, 0.0);
        painter.add(Shape::convex_polygon(
            vec![
                from + vec2(0.0, -radius * 0.7),
                from + vec2(tip * radius * 0.8, 0.0),
                from + vec2(0.0, radius * 0.7),
            ],
            theme::INK,
            Stroke::NONE,
        ));
    }
}
