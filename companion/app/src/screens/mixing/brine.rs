//! A brine's strength in every way of saying it, told by weight, put right.

use super::{buttons, caption, heading, loud, paragraphs, small_of, words};
use crate::layout::{self, Rest};
use crate::mixing::{BrineView, Field, MixView, Page, Said, VesselStep, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::say;
use eframe::egui::{Key, Rect, Ui};

const WAYS: [(Said, Key); 4] = [
    (Said::OfWater, Key::W),
    (Said::OfSolution, Key::O),
    (Said::Salometer, Key::S),
    (Said::Density, Key::D),
];

pub(super) fn show(ui: &Ui, place: Rect, view: &MixView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let foot = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(4.0));
    let language = crate::words::of(ui);
    let sources = rest.bottom(scale.u(84.0));
    let by = say!(language, "mixing-by", source = view.brine.sources.as_str());
    small_of(ui, sources, &by, 15.0);
    rest.bottom(scale.u(2.0));
    let right = rest.right(rest.0.width() * 0.54);
    rest.right(scale.u(18.0));
    let mut wishes = ways(ui, rest.0, &view.brine);
    wishes.extend(told_by_weight(ui, right, view));
    wishes.extend(buttons(
        ui,
        foot,
        [
            (
                BigButton::new(&say!(language, "back")).key(Key::Escape),
                Wish::Show(Page::Start),
            ),
            (
                BigButton::new(&say!(language, "mixing-vessels")).key(Key::V),
                Wish::Show(Page::Vessels),
            ),
            (
                BigButton::new(&say!(language, "brine-mix-this"))
                    .key(Key::Enter)
                    .weight(Weight::Main),
                Wish::MixThis,
            ),
        ],
    ));
    wishes
}

fn ways(ui: &Ui, place: Rect, view: &BrineView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    heading(
        ui,
        rest.top(scale.u(44.0)),
        &say!(language, "brine-strength"),
    );
    let mut wishes = Vec::new();
    words(ui, rest.bottom(scale.u(40.0)), &view.freezing);
    let at = rest.bottom(scale.u(66.0));
    rest.bottom(scale.u(6.0));
    for (row, ((caption, value), (said, key))) in layout::rows(rest.0, 4, scale.u(8.0))
        .into_iter()
        .zip(view.ways.iter().zip(WAYS))
    {
        let spoken = format!("{caption}: {value}");
        if BigButton::new(value)
            .detail(caption)
            .spoken(&spoken)
            .key(key)
            .show(ui, row)
        {
            wishes.push(Wish::Ask(Field::Strength(said)));
        }
    }
    let by = if view.by_probe {
        say!(language, "brine-at-probe", at = view.at.as_str())
    } else {
        say!(language, "brine-at", at = view.at.as_str())
    };
    wishes.extend(buttons(
        ui,
        at,
        [
            (BigButton::new(&by), Wish::Ask(Field::BrineAt)),
            (
                BigButton::new(&say!(language, "brine-by-probe")).key(Key::P),
                Wish::UseProbe,
            ),
        ],
    ));
    wishes
}

fn told_by_weight(ui: &Ui, place: Rect, view: &MixView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let check = &view.brine.check;
    let mut rest = Rest(place);
    let language = crate::words::of(ui);
    heading(
        ui,
        rest.top(scale.u(44.0)),
        &say!(language, "brine-by-weight"),
    );
    let mut wishes = Vec::new();
    let known: Vec<&str> = view
        .vessels
        .known
        .iter()
        .take(4)
        .map(|vessel| vessel.name.as_str())
        .collect();
    if !known.is_empty() {
        let tiles = known.iter().enumerate().map(|(nth, name)| {
            let chosen = check.vessel.as_deref() == Some(*name);
            (
                BigButton::new(name).weight(if chosen {
                    Weight::Chosen
                } else {
                    Weight::Plain
                }),
                Wish::InVessel(Some(nth)),
            )
        });
        wishes.extend(buttons(ui, rest.top(scale.u(66.0)), tiles));
        rest.top(gap);
    }
    words(ui, rest.top(scale.u(56.0)), &check.prompt);
    let sugar = say!(language, "brine-sugar", sugar = check.sugar.as_str());
    let empty = if check.empty.is_empty() {
        say!(language, "mixing-empty")
    } else {
        say!(language, "brine-empty", mass = check.empty.as_str())
    };
    let has_vessel = check.vessel.is_some();
    wishes.extend(buttons(
        ui,
        rest.top(scale.u(68.0)),
        [
            (BigButton::new(&sugar).key(Key::U), Wish::Ask(Field::Sugar)),
            (
                BigButton::new(&say!(language, "brine-sugar-unknown")).key(Key::K),
                Wish::SugarUnknown,
            ),
        ],
    ));
    rest.top(gap);
    wishes.extend(buttons(
        ui,
        rest.top(scale.u(68.0)),
        [
            (
                BigButton::new(&empty).key(Key::E).enabled(has_vessel),
                Wish::Check(VesselStep::Empty),
            ),
            (
                BigButton::new(&say!(language, "mixing-full"))
                    .key(Key::F)
                    .enabled(has_vessel && !check.empty.is_empty()),
                Wish::Check(VesselStep::Full),
            ),
        ],
    ));
    rest.top(gap);
    let correct = rest.bottom(scale.u(68.0));
    rest.bottom(gap);
    let to = say!(
        language,
        "brine-correct-to",
        to = view.brine.correct_to.as_str()
    );
    let mass = say!(
        language,
        "brine-correct-of",
        mass = view.brine.brine_mass.as_str()
    );
    wishes.extend(buttons(
        ui,
        correct,
        [
            (
                BigButton::new(&mass)
                    .spoken(&say!(language, "brine-correct-of-spoken"))
                    .key(Key::M),
                Wish::Ask(Field::BrineMass),
            ),
            (
                BigButton::new(&to)
                    .spoken(&say!(language, "brine-correct-to-spoken"))
                    .key(Key::T),
                Wish::Ask(Field::CorrectTo),
            ),
        ],
    ));
    if let Some(correction) = &view.brine.correction {
        words(
            ui,
            rest.bottom(scale.u(40.0)),
            &say!(
                language,
                "brine-put-right",
                correction = correction.as_str()
            ),
        );
    } else {
        let right = say!(language, "brine-put-it-right");
        caption(ui, rest.bottom(scale.u(32.0)), &right);
    }
    match &check.found {
        Err(why) => loud(ui, rest.0, why),
        Ok(found) => paragraphs(ui, rest.0, found, 25.0),
    }
    wishes
}
