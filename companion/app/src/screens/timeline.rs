//! The day as bars in time: who does what when, what the oven does meanwhile.

use super::prep;
use crate::intent::Intent;
use crate::kitchen::KitchenIntent;
use crate::layout::{self, Rest};
use crate::state::State;
use crate::timeline_view::{BarView, LaneView, OvenView, TimelineView};
use crate::words::say;
use crate::{text, theme, theme::Scale};
use eframe::egui::{
    Align2, Color32, Rect, ScrollArea, Sense, Shape, StrokeKind, Ui, UiBuilder, pos2, vec2,
};
use evenhand_kitchen::prep::StepState;
use evenhand_protocol::Verdict;

/// Where names stand.
const NAMES: f32 = 150.0;
/// How tall a row of bars is, and an oven.
const ROW: f32 = 50.0;
const OVEN: f32 = 150.0;
const GAP: f32 = 6.0;

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = state.language;
    let mut rest = Rest(place);
    let heading = say!(language, "prep-heading");
    let title = if state.prep.title.is_empty() {
        &*heading
    } else {
        &state.prep.title
    };
    let intents = {
        let print = say!(language, "prep-print");
        let also = Some((&*print, Intent::Kitchen(KitchenIntent::PrintLists)));
        prep::head_of_another(ui, &mut rest, title, language, also)
    };
    let Some(view) = &state.prep.timeline else {
        let why = state.prep.trouble.as_deref().unwrap_or_default();
        text::label(
            ui,
            rest.0,
            why,
            &text::Style::new(scale.plain(34.0), theme::INK, Align2::CENTER_CENTER),
        );
        return intents;
    };
    let notes = view.notes.iter().chain(&state.prep.printed);
    for note in notes.rev() {
        text::label(
            ui,
            rest.bottom(scale.u(36.0)),
            note,
            &text::Style::new(scale.plain(26.0), theme::INK, Align2::LEFT_CENTER),
        );
    }
    let mut hours = Rest(rest.top(scale.u(34.0)));
    hours.left(scale.u(NAMES));
    hours.right(scale.u(16.0));
    show_hours(ui, hours.0, view);
    let body = rest.0;
    ui.scope_builder(UiBuilder::new().max_rect(body).id_salt("timeline"), |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, scale.u(GAP));
        ScrollArea::vertical()
            .auto_shrink(false)
            .content_margin(0.0)
            .show(ui, |ui| {
                let wide = body.width() - scale.u(16.0);
                for lane in &view.lanes {
                    let rows = pack(ui, wide - scale.u(NAMES), lane);
                    let tall = scale.u(rows.len().max(1) as f32 * ROW);
                    let (place, _) = ui.allocate_exact_size(vec2(wide, tall), Sense::hover());
                    show_lane(ui, place, view, lane, &rows);
                }
                for oven in &view.ovens {
                    let tall = scale.u(OVEN);
                    let (place, _) = ui.allocate_exact_size(vec2(wide, tall), Sense::hover());
                    show_oven(ui, place, view, oven);
                }
            });
    });
    intents
}

/// Where a share of the time stands.
fn x(place: Rect, share: f32) -> f32 {
    place.left() + share.clamp(0.0, 1.0) * place.width()
}

fn show_hours(ui: &Ui, place: Rect, view: &TimelineView) {
    let scale = Scale::of(ui);
    let half = scale.u(34.0);
    let opens = view.opens.0;
    for (share, time) in &view.hours {
        let at = x(place, *share);
        // The opening's own words stand there.
        if (share - opens).abs() * place.width() < scale.u(150.0) {
            continue;
        }
        text::paint(
            ui,
            Rect::from_x_y_ranges(at - half..=at + half, place.y_range()),
            time,
            &text::Style::new(scale.plain(24.0), theme::SOFT_INK, Align2::CENTER_CENTER),
        );
    }
    if (0.0..=1.0).contains(&opens) {
        let at = x(place, opens);
        let left = (at - scale.u(110.0)).min(place.right() - scale.u(220.0));
        text::label(
            ui,
            Rect::from_x_y_ranges(left..=left + scale.u(220.0), place.y_range()),
            &view.opens.1,
            &text::Style::new(scale.heavy(26.0), theme::INK, Align2::CENTER_CENTER),
        );
    }
}

/// The hours, now and the opening, behind what stands in a lane.
fn lines(ui: &Ui, place: Rect, view: &TimelineView) {
    let scale = Scale::of(ui);
    for (share, _) in &view.hours {
        ui.painter().vline(
            x(place, *share),
            place.y_range(),
            scale.stroke(1.0, theme::FAINT),
        );
    }
    if (0.0..=1.0).contains(&view.opens.0) {
        ui.painter().vline(
            x(place, view.opens.0),
            place.y_range(),
            scale.stroke(4.0, theme::INK),
        );
    }
    ui.painter().vline(
        x(place, view.now),
        place.y_range(),
        scale.stroke(4.0, theme::STOP),
    );
}

/// Where the name of a bar stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum NameAt {
    Inside,
    Right,
    Left,
}

/// A bar, and where its name stands.
type Named<'a> = (&'a BarView, NameAt);

/// A bar's name and the room around it.
const LETTERS: f32 = 25.0;
const ROUND: f32 = 6.0;

/// Puts the bars into rows in which neither they nor their names overlap.
fn pack<'a>(ui: &Ui, wide: f32, lane: &'a LaneView) -> Vec<Vec<Named<'a>>> {
    let scale = Scale::of(ui);
    let mut rows: Vec<(Vec<Named<'a>>, f32)> = Vec::new();
    for bar in &lane.bars {
        let (from, until) = ends(scale, wide, bar);
        let letters =
            ui.painter()
                .layout_no_wrap(bar.name.clone(), scale.plain(LETTERS), theme::INK);
        let name = letters.size().x + scale.u(2.0 * ROUND);
        let (at, from, until) = if until - from >= name {
            (NameAt::Inside, from, until)
        } else if until + name <= wide {
            (NameAt::Right, from, until + name)
        } else {
            (NameAt::Left, from - name, until)
        };
        match rows.iter_mut().find(|(_, end)| *end <= from) {
            Some((row, end)) => {
                row.push((bar, at));
                *end = until;
            }
            None => rows.push((vec![(bar, at)], until)),
        }
    }
    rows.into_iter().map(|(row, _)| row).collect()
}

/// Where a bar begins and ends in a place so wide.
fn ends(scale: Scale, wide: f32, bar: &BarView) -> (f32, f32) {
    let from = bar.from.clamp(0.0, 1.0) * wide;
    let until = bar.until.clamp(0.0, 1.0) * wide;
    (from, until.max(from + scale.u(6.0)))
}

fn show_lane(ui: &Ui, place: Rect, view: &TimelineView, lane: &LaneView, rows: &[Vec<Named<'_>>]) {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    text::label(
        ui,
        rest.left(scale.u(NAMES - 10.0)),
        &lane.name,
        &text::Style::new(scale.heavy(30.0), theme::INK, Align2::LEFT_CENTER),
    );
    rest.left(scale.u(10.0));
    let body = rest.0;
    ui.painter()
        .rect_filled(body, scale.corner(4.0), theme::SURFACE);
    lines(ui, body, view);
    for (row, place) in rows
        .iter()
        .zip(layout::rows(body, rows.len(), scale.u(4.0)))
    {
        for named in row {
            show_bar(ui, place, *named);
        }
    }
}

fn show_bar(ui: &Ui, row: Rect, (bar, at): Named<'_>) {
    let scale = Scale::of(ui);
    let (fill, ink) = match bar.standing {
        StepState::Late => (theme::STOP, theme::ON_DARK),
        StepState::Now => (theme::ATTENTION, theme::INK),
        StepState::UnderWay => (theme::BAND, theme::INK),
        StepState::Next | StepState::Later | StepState::Done => (theme::PAPER, theme::INK),
    };
    let (from, until) = ends(scale, row.width(), bar);
    let (left, right) = (row.left() + from, row.left() + until);
    let place = Rect::from_x_y_ranges(left..=right, row.y_range());
    ui.painter().rect(
        place,
        scale.corner(6.0),
        fill,
        scale.stroke(2.0, theme::EDGE),
        StrokeKind::Inside,
    );
    text::announce(ui, place, &bar.spoken);
    let round = scale.u(ROUND);
    let (words, ink, align) = match at {
        NameAt::Inside => (place, ink, Align2::LEFT_CENTER),
        NameAt::Right => (row.with_min_x(right), theme::INK, Align2::LEFT_CENTER),
        NameAt::Left => (row.with_max_x(left), theme::INK, Align2::RIGHT_CENTER),
    };
    text::paint(
        ui,
        words.shrink2(vec2(round, 0.0)),
        &bar.name,
        &text::Style::new(scale.plain(LETTERS), ink, align),
    );
}

fn show_oven(ui: &Ui, place: Rect, view: &TimelineView, oven: &OvenView) {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let mut names = Rest(rest.left(scale.u(NAMES - 10.0)));
    rest.left(scale.u(10.0));
    let soft = |align| text::Style::new(scale.plain(22.0), theme::SOFT_INK, align);
    text::label(
        ui,
        names.top(scale.u(28.0)),
        &oven.ends.1,
        &soft(Align2::RIGHT_CENTER),
    );
    text::label(
        ui,
        names.bottom(scale.u(28.0)),
        &oven.ends.0,
        &soft(Align2::RIGHT_CENTER),
    );
    text::label(
        ui,
        names.0,
        &oven.name,
        &text::Style::new(scale.heavy(30.0), theme::INK, Align2::LEFT_CENTER),
    );
    let body = rest.0;
    ui.painter()
        .rect_filled(body, scale.corner(4.0), theme::SURFACE);
    let y = |share: f32| body.bottom() - share.clamp(0.0, 1.0) * body.height();
    for band in &oven.bands {
        let (low, high) = (y(band.ends.0), y(band.ends.1));
        let between = |from: f32, until: f32| {
            Rect::from_x_y_ranges(x(body, from)..=x(body, until), high..=low)
        };
        let whole = between(0.0, 1.0);
        ui.painter().rect_stroke(
            whole,
            0.0,
            scale.stroke(1.0, theme::EDGE),
            StrokeKind::Inside,
        );
        for [early, from, until, late] in band.stretches.iter().copied() {
            let faint: Color32 = theme::BAND.gamma_multiply(0.45);
            ui.painter().rect_filled(between(early, late), 0.0, faint);
            ui.painter()
                .rect_filled(between(from, until), 0.0, theme::BAND);
        }
    }
    lines(ui, body, view);
    let curve: Vec<_> = oven
        .measured
        .iter()
        .map(|(share, height)| pos2(x(body, *share), y(*height)))
        .collect();
    let mark = theme::verdict(Verdict::Short).mark;
    ui.painter()
        .add(Shape::line(curve, scale.stroke(4.0, mark)));
    // Each band's words stand at its upper edge, or one below the other.
    let tall = scale.u(30.0);
    let mut free = body.top();
    for band in oven.bands.iter().rev() {
        let left = x(body, view.now) + scale.u(12.0);
        let top = (y(band.ends.1) - tall).clamp(free, (body.bottom() - tall).max(free));
        free = top + tall;
        text::label(
            ui,
            Rect::from_x_y_ranges(left..=body.right() - scale.u(6.0), top..=top + tall),
            &band.words,
            &text::Style::new(scale.plain(24.0), theme::INK, Align2::LEFT_CENTER),
        );
    }
}
