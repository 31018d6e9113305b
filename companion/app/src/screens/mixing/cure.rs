//! A cure: how, with what, by which label; the dose with the limit and its
//! source beside it.

use super::{buttons, caption, heading, loud, small, words};
use crate::layout::{self, Rest};
use crate::mixing::{CureView, Field, Page, RecipeDraftView, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::say;
use eframe::egui::{Key, Rect, Ui};
use evenhand_kitchen::cure::{Contents, Method};
use evenhand_use_cases::mixing::cure;

const METHODS: [Method; 9] = [
    Method::DryCure,
    Method::ImmersionEquilibrium,
    Method::ImmersionPickUp,
    Method::Pumped,
    Method::Comminuted,
    Method::BaconDryCure,
    Method::BaconImmersionEquilibrium,
    Method::BaconImmersionPickUp,
    Method::BaconPumped,
];

const CONTENTS: [(Contents, &str); 5] = [
    (Contents::SodiumNitrite, "sodium-nitrite"),
    (Contents::NitriteAndNitrate, "nitrite-and-nitrate"),
    (Contents::Nitrate, "nitrate"),
    (Contents::PotassiumNitrite, "potassium-nitrite"),
    (Contents::Vegetable, "vegetable"),
];

pub(super) fn show(ui: &Ui, place: Rect, view: &RecipeDraftView) -> Vec<Wish> {
    match &view.cure {
        Some(cure) => set_up(ui, place, view, cure),
        None => methods(ui, place),
    }
}

fn methods(ui: &Ui, place: Rect) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    heading(ui, rest.top(scale.u(46.0)), &say!(language, "cure-how"));
    rest.top(scale.u(6.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(10.0));
    small(ui, rest.bottom(scale.u(64.0)), &cure::caution(language));
    let mut wishes = Vec::new();
    for (row, methods) in layout::rows(rest.0, 3, scale.u(10.0))
        .into_iter()
        .zip(METHODS.chunks(3))
    {
        let said: Vec<_> = methods
            .iter()
            .map(|method| {
                let name = method.name();
                (
                    say!(language, "cure-way", method = name),
                    say!(language, "cure-way-detail", method = name),
                    cure::method_words(language, *method),
                    Wish::SketchCure(*method),
                )
            })
            .collect();
        let tiles = said.iter().map(|(words, detail, spoken, wish)| {
            let tile = BigButton::new(words).detail(detail).spoken(spoken);
            (tile, wish.clone())
        });
        wishes.extend(buttons(ui, row, tiles));
    }
    wishes.extend(buttons(
        ui,
        foot,
        [(
            BigButton::new(&say!(language, "back")).key(Key::Escape),
            Wish::Show(Page::Start),
        )],
    ));
    wishes
}

fn set_up(ui: &Ui, place: Rect, view: &RecipeDraftView, cure: &CureView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    heading(
        ui,
        rest.top(scale.u(46.0)),
        &say!(language, "cure-heading", method = cure.method.as_str()),
    );
    rest.top(scale.u(2.0));
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(8.0));
    let mut wishes = Vec::new();

    caption(
        ui,
        rest.top(scale.u(28.0)),
        &say!(language, "cure-what-label"),
    );
    let said = CONTENTS.map(|(_, code)| say!(language, "cure-contents", contents = code));
    let contents = CONTENTS.iter().zip(&said).map(|(&(contents, _), words)| {
        let chosen = contents == cure.contents;
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
            say!(language, "cure-not-said").into_owned()
        } else {
            value.to_owned()
        }
    };
    let (agent, fraction, ppm) = (asked(&cure.agent), asked(&cure.fraction), asked(&cure.ppm));
    let pick_up = cure.pick_up.as_deref().map(asked);
    let on_packet = say!(language, "cure-on-packet");
    let by_label = say!(language, "cure-by-label");
    let by_label_spoken = say!(language, "cure-by-label-spoken");
    let ingoing = say!(language, "cure-ingoing");
    let taken_up = say!(language, "cure-taken-up");
    let mut fields = vec![
        (
            BigButton::new(&agent)
                .detail(&on_packet)
                .spoken(&on_packet)
                .key(Key::P),
            Wish::Ask(Field::AgentName),
        ),
        (
            BigButton::new(&fraction)
                .detail(&by_label)
                .spoken(&by_label_spoken)
                .key(Key::L),
            Wish::Ask(Field::Fraction),
        ),
        (
            BigButton::new(&ppm)
                .detail(&ingoing)
                .spoken(&ingoing)
                .key(Key::I),
            Wish::Ask(Field::Ppm),
        ),
    ];
    if let Some(pick_up) = &pick_up {
        fields.push((
            BigButton::new(pick_up)
                .detail(&taken_up)
                .spoken(&taken_up)
                .key(Key::U),
            Wish::Ask(Field::PickUp),
        ));
    }
    let (skin_on, skin_off) = (
        say!(language, "cure-skin-on"),
        say!(language, "cure-skin-off"),
    );
    if let Some(skin) = cure.skin {
        let words = if skin { &skin_on } else { &skin_off };
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
    let limit = say!(language, "cure-limit", limit = cure.limit.as_str());
    words(ui, rest.top(scale.u(66.0)), &limit);
    words(ui, rest.top(scale.u(38.0)), &cure.reckoning);
    let caution = rest.bottom(scale.u(78.0));
    small(ui, caution, &cure.caution);
    wishes.extend(buttons(
        ui,
        foot,
        [
            (
                BigButton::new(&say!(language, "back")).key(Key::Escape),
                Wish::Show(Page::Start),
            ),
            (
                BigButton::new(&say!(language, "cure-another-way")).key(Key::A),
                Wish::AnotherCure,
            ),
            (
                BigButton::new(&say!(language, "cure-salt-and-rest")).key(Key::R),
                Wish::Show(Page::RecipeDraft),
            ),
            (
                BigButton::new(&say!(language, "mixing-onto-the-scale"))
                    .key(Key::Enter)
                    .weight(Weight::Main)
                    .enabled(view.verdict.is_ok()),
                Wish::Weigh,
            ),
        ],
    ));
    wishes
}
