//! What stands around every screen while there is no real scale: that there is none, the
//! hand at the practice bench, and the guide.

use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::practice::{BenchKind, PracticeView, PracticeWish, Step};
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::{self, say};
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Rect, Ui};
use evenhand_simulator::practice::{Flow, HandMove, Vessel};

/// How much of the window is left for the screen beside the hand.
const SHARE: f32 = 0.82;
/// How tall the line is that says that there is no real scale, in units.
const LINE: f32 = 32.0;

/// Shows what stands around the screens; gives the place that is left, of the window's own
/// proportions, and what was asked for.
pub fn frame(ui: &Ui, whole: Rect, kind: &BenchKind) -> (Rect, Vec<Intent>) {
    match kind {
        BenchKind::Real => (whole, Vec::new()),
        BenchKind::Simulated => (line(ui, whole), Vec::new()),
        BenchKind::Practice(view) => {
            let place = Rect::from_min_size(whole.min, whole.size() * SHARE);
            ui.painter().rect_filled(whole, 0.0, theme::PRACTICE);
            let scale = Scale::of(ui);
            let mut below = Rest(whole.with_min_y(place.bottom()));
            below.0 = below.0.shrink(scale.u(8.0));
            let mut beside = whole.with_min_x(place.right());
            beside.set_bottom(place.bottom());
            let mut wishes = poured(ui, below, view);
            wishes.extend(put_on(ui, Rest(beside.shrink(scale.u(8.0))), view));
            let intents = wishes.into_iter().map(Intent::Practice).collect();
            (place, intents)
        }
    }
}

/// The line above every screen of a simulated bench.
fn line(ui: &Ui, whole: Rect) -> Rect {
    let scale = Scale::of(ui);
    ui.painter().rect_filled(whole, 0.0, theme::PRACTICE);
    let mut rest = Rest(whole);
    text::label(
        ui,
        rest.top(scale.u(LINE)),
        &say!(words::of(ui), "practice-simulated"),
        &text::Style::new(scale.heavy(24.0), theme::INK, Align2::CENTER_CENTER),
    );
    let share = rest.0.height() / whole.height();
    let place = Rect::from_center_size(rest.0.center(), whole.size() * share);
    place.translate(eframe::egui::vec2(0.0, rest.0.bottom() - place.bottom()))
}

/// Below the screen: that nothing is real, and what goes into the vessel and out of it.
fn poured(ui: &Ui, mut rest: Rest, view: &PracticeView) -> Vec<PracticeWish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let gap = scale.u(8.0);
    let table = &view.table;
    let mut wishes = Vec::new();
    text::label(
        ui,
        rest.top(scale.u(40.0)),
        &say!(language, "practice-title"),
        &text::Style::new(scale.heavy(26.0), theme::INK, Align2::LEFT_CENTER),
    );
    let spoon = if table.spoon {
        (say!(language, "practice-take-spoon"), HandMove::TakeSpoon)
    } else {
        (say!(language, "practice-leave-spoon"), HandMove::LeaveSpoon)
    };
    let probe = if table.probe_in {
        (say!(language, "practice-probe-out"), HandMove::ProbeOut)
    } else {
        (say!(language, "practice-probe-in"), HandMove::ProbeIn)
    };
    let others = [
        (say!(language, "practice-spoon-out"), HandMove::SpoonOut),
        (say!(language, "practice-spill"), HandMove::Spill),
        spoon,
        probe,
    ];
    let flows = [
        (say!(language, "practice-pour-fast"), Flow::Fast),
        (say!(language, "practice-pour-slowly"), Flow::Slow),
    ];
    let places = layout::columns(rest.0, flows.len() + others.len(), gap);
    let mut places = places.into_iter();
    for ((words, flow), place) in flows.into_iter().zip(places.by_ref()) {
        let pours = table.pours == Some(flow);
        let can = table.allows(HandMove::Pour(flow));
        let weight = if pours { Weight::Chosen } else { Weight::Plain };
        let held = BigButton::new(&words)
            .detail(&say!(language, "practice-hold"))
            .weight(weight)
            .enabled(can)
            .is_held(ui, place);
        if held && can && !pours {
            wishes.push(PracticeWish::Do(HandMove::Pour(flow)));
        } else if !held && pours {
            wishes.push(PracticeWish::Do(HandMove::StopPouring));
        }
    }
    for (place, (words, hand_move)) in places.zip(others) {
        if BigButton::new(&words)
            .enabled(table.allows(hand_move))
            .show(ui, place)
        {
            wishes.push(PracticeWish::Do(hand_move));
        }
    }
    wishes
}

/// Beside the screen: what stands on the pan, and the guide.
fn put_on(ui: &Ui, mut rest: Rest, view: &PracticeView) -> Vec<PracticeWish> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let gap = scale.u(8.0);
    let tall = scale.u(66.0);
    let table = &view.table;
    let mut wishes = Vec::new();
    for (words, vessel) in [
        (say!(language, "practice-dish-on"), Vessel::Dish),
        (say!(language, "practice-tin-on"), Vessel::Tin),
        (say!(language, "practice-bowl-on"), Vessel::Bowl),
    ] {
        let place = rest.top(tall);
        rest.top(gap);
        let here = table.vessel == Some(vessel);
        let hand_move = HandMove::PutOn(vessel);
        if BigButton::new(&words)
            .weight(if here { Weight::Chosen } else { Weight::Plain })
            .enabled(here || table.allows(hand_move))
            .show(ui, place)
            && !here
        {
            wishes.push(PracticeWish::Do(hand_move));
        }
    }
    let lift = rest.top(tall);
    if BigButton::new(&say!(language, "practice-lift-off"))
        .enabled(table.allows(HandMove::LiftOff))
        .show(ui, lift)
    {
        wishes.push(PracticeWish::Do(HandMove::LiftOff));
    }
    rest.top(gap);
    let end = rest.bottom(tall);
    rest.bottom(gap);
    if BigButton::new(&say!(language, "practice-end")).show(ui, end) {
        wishes.push(PracticeWish::End);
    }
    let guide = rest.bottom(tall);
    rest.bottom(gap);
    let (words, wish) = match view.step {
        Some(_) => (say!(language, "guide-leave"), PracticeWish::LeaveGuide),
        None => (say!(language, "guide-open"), PracticeWish::Guide),
    };
    if BigButton::new(&words).show(ui, guide) {
        wishes.push(wish);
    }
    if let Some(step) = view.step {
        let place = rest.0;
        ui.painter()
            .rect_filled(place, scale.corner(10.0), theme::SURFACE);
        let mut rest = Rest(place.shrink(scale.u(10.0)));
        text::label(
            ui,
            rest.top(scale.u(30.0)),
            &say!(
                language,
                "guide-step",
                step = step.number(),
                steps = Step::ALL.len()
            ),
            &text::Style::new(scale.plain(22.0), theme::SOFT_INK, Align2::LEFT_CENTER),
        );
        text::live_label(
            ui,
            rest.0,
            &step.words(language),
            &text::Style::new(scale.heavy(26.0), theme::INK, Align2::LEFT_TOP),
            false,
        );
    }
    wishes
}
