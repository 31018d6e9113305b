//! A cure: how, with what, by which label; the dose with the limit and its
//! source beside it.

use super::{buttons, caption, heading, loud, small, words};
use crate::layout::{self, Rest};
use crate::mixing::{CureView, Field, Page, SketchView, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use eframe::egui::{Key, Rect, Ui};
use evenhand_kitchen::cure::{Contents, Method};

const METHODS: [(Method, &str, &str); 9] = [
    (Method::DryCure, "Dry cure", "rubbed on"),
    (Method::ImmersionEquilibrium, "Immersion", "to equilibrium"),
    (Method::ImmersionPickUp, "Immersion", "by pick-up"),
    (Method::Pumped, "Pumped", "by pick-up"),
    (Method::Comminuted, "Comminuted", "minced"),
    (Method::BaconDryCure, "Bacon, dry", "rubbed on"),
    (
        Method::BaconImmersionEquilibrium,
        "Bacon, immersion",
        "to equilibrium",
    ),
    (
        Method::BaconImmersionPickUp,
        "Bacon, immersion",
        "by pick-up",
    ),
    (Method::BaconPumped, "Bacon, pumped", "by pick-up"),
];

const CONTENTS: [(Contents, &str); 5] = [
    (Contents::SodiumNitrite, "Sodium nitrite"),
    (Contents::NitriteAndNitrate, "+ nitrate"),
    (Contents::Nitrate, "Nitrate"),
    (Contents::PotassiumNitrite, "Potassium"),
    (Contents::Vegetable, "Vegetable"),
];

pub(super) fn show(ui: &Ui, place: Rect, view: &SketchView) -> Vec<Wish> {
    match &view.cure {
        Some(cure) => set_up(ui, place, view, cure),
        None => methods(ui, place),
    }
}

fn methods(ui: &Ui, place: Rect) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    heading(ui, rest.top(scale.u(46.0)), "How is the meat cured?");
    rest.top(scale.u(6.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(10.0));
    small(
        ui,
        rest.bottom(scale.u(64.0)),
        evenhand_kitchen::cure::CAUTION,
    );
    let mut wishes = Vec::new();
    for (row, methods) in layout::rows(rest.0, 3, scale.u(10.0))
        .into_iter()
        .zip(METHODS.chunks(3))
    {
        let tiles = methods.iter().map(|(method, words, detail)| {
            (
                BigButton::new(words).detail(detail).spoken(method.name()),
                Wish::SketchCure(*method),
            )
        });
        wishes.extend(buttons(ui, row, tiles));
    }
    wishes.extend(buttons(
        ui,
        foot,
        [(
            BigButton::new("Back").key(Key::Escape),
            Wish::Show(Page::Start),
        )],
    ));
    wishes
}

fn set_up(ui: &Ui, place: Rect, view: &SketchView, cure: &CureView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let mut rest = Rest(place);
    heading(
        ui,
        rest.top(scale.u(46.0)),
        &format!("\u{25c6} Cure: {}", cure.method),
    );
    rest.top(scale.u(2.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(8.0));
    let mut wishes = Vec::new();

    caption(
        ui,
        rest.top(scale.u(28.0)),
        "What does the label say is in the agent?",
    );
    let contents = CONTENTS.map(|(contents, words)| {
        let chosen = words_of(contents) == cure.contents;
        (
            BigButton::new(words).weight(if chosen {
                Weight::Chosen
            } else {
                Weight::Plain
            }),
            Wish::AgentContents(contents),
        )
    });
    wishes.extend(buttons(ui, rest.top(scale.u(66.0)), contents));
    rest.top(gap);
    let asked = |value: &str| {
        if value.is_empty() {
            "not said".to_owned()
        } else {
            value.to_owned()
        }
    };
    let (agent, fraction, ppm) = (asked(&cure.agent), asked(&cure.fraction), asked(&cure.ppm));
    let pick_up = cure.pick_up.as_deref().map(asked);
    let mut fields = vec![
        (
            BigButton::new(&agent)
                .detail("on the packet")
                .spoken("On the packet")
                .key(Key::P),
            Wish::Ask(Field::AgentName),
        ),
        (
            BigButton::new(&fraction)
                .detail("by its label")
                .spoken("Nitrite by its label")
                .key(Key::L),
            Wish::Ask(Field::Fraction),
        ),
        (
            BigButton::new(&ppm)
                .detail("ingoing nitrite")
                .spoken("Ingoing nitrite")
                .key(Key::I),
            Wish::Ask(Field::Ppm),
        ),
    ];
    if let Some(pick_up) = &pick_up {
        fields.push((
            BigButton::new(pick_up)
                .detail("taken up")
                .spoken("Taken up")
                .key(Key::U),
            Wish::Ask(Field::PickUp),
        ));
    }
    if let Some(skin) = cure.skin {
        let words = if skin { "Skin on" } else { "Skin off" };
        fields.push((
            BigButton::new(words).key(Key::S).weight(if skin {
                Weight::Chosen
            } else {
                Weight::Plain
            }),
            Wish::Skin,
        ));
    }
    wishes.extend(buttons(ui, rest.top(scale.u(92.0)), fields));
    rest.top(gap);
    match &cure.dose {
        Ok(dose) => heading(ui, rest.top(scale.u(64.0)), dose),
        Err(why) => loud(ui, rest.top(scale.u(110.0)), why),
    }
    words(ui, rest.top(scale.u(66.0)), &sentence_of(&cure.limit));
    words(ui, rest.top(scale.u(38.0)), &cure.reckoning);
    let caution = rest.bottom(scale.u(78.0));
    small(ui, caution, &cure.caution);
    wishes.extend(buttons(
        ui,
        foot,
        [
            (
                BigButton::new("Back").key(Key::Escape),
                Wish::Show(Page::Start),
            ),
            (BigButton::new("Another way").key(Key::A), Wish::AnotherCure),
            (
                BigButton::new("Salt and the rest").key(Key::R),
                Wish::Show(Page::Sketch),
            ),
            (
                BigButton::new("Onto the scale")
                    .key(Key::Enter)
                    .weight(Weight::Main)
                    .enabled(view.verdict.is_ok()),
                Wish::Weigh,
            ),
        ],
    ));
    wishes
}

fn sentence_of(limit: &str) -> String {
    format!("Limit: {limit}.")
}

const fn words_of(contents: Contents) -> &'static str {
    match contents {
        Contents::SodiumNitrite => "sodium nitrite alone",
        Contents::PotassiumNitrite => "potassium nitrite",
        Contents::Nitrate => "nitrate",
        Contents::NitriteAndNitrate => "nitrite and nitrate",
        Contents::Vegetable => "vegetable powder",
    }
}
