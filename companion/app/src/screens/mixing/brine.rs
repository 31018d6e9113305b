//! A brine's strength in every way of saying it, told by weight, put right.

use super::{buttons, caption, heading, loud, paragraphs, small_of, words};
use crate::layout::{self, Rest};
use crate::mixing::{BrineView, Field, MixView, Page, Said, Step, Wish};
use crate::theme::Scale;
use crate::widgets::big_button::{BigButton, Weight};
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
    let sources = rest.bottom(scale.u(84.0));
    small_of(ui, sources, &format!("By {}.", view.brine.sources), 15.0);
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
                BigButton::new("Back").key(Key::Escape),
                Wish::Show(Page::Start),
            ),
            (
                BigButton::new("Vessels").key(Key::V),
                Wish::Show(Page::Vessels),
            ),
            (
                BigButton::new("Mix this brine")
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
    heading(ui, rest.top(scale.u(44.0)), "Salt, every way");
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
        format!("at {}, the probe", view.at)
    } else {
        format!("at {}", view.at)
    };
    wishes.extend(buttons(
        ui,
        at,
        [
            (BigButton::new(&by), Wish::Ask(Field::BrineAt)),
            (BigButton::new("By the probe").key(Key::P), Wish::UseProbe),
        ],
    ));
    wishes
}

fn told_by_weight(ui: &Ui, place: Rect, view: &MixView) -> Vec<Wish> {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let check = &view.brine.check;
    let mut rest = Rest(place);
    heading(ui, rest.top(scale.u(44.0)), "Told by its weight");
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
    let sugar = format!("Sugar: {}", check.sugar);
    let empty = if check.empty.is_empty() {
        "Empty".to_owned()
    } else {
        format!("Empty {}", check.empty)
    };
    let has_vessel = check.vessel.is_some();
    wishes.extend(buttons(
        ui,
        rest.top(scale.u(68.0)),
        [
            (BigButton::new(&sugar).key(Key::U), Wish::Ask(Field::Sugar)),
            (
                BigButton::new("Sugar unknown").key(Key::K),
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
                Wish::Check(Step::Empty),
            ),
            (
                BigButton::new("Full")
                    .key(Key::F)
                    .enabled(has_vessel && !check.empty.is_empty()),
                Wish::Check(Step::Full),
            ),
        ],
    ));
    rest.top(gap);
    let correct = rest.bottom(scale.u(68.0));
    rest.bottom(gap);
    let to = format!("to {}", view.brine.correct_to);
    let mass = format!("of {}", view.brine.brine_mass);
    wishes.extend(buttons(
        ui,
        correct,
        [
            (
                BigButton::new(&mass)
                    .spoken("How much brine there is")
                    .key(Key::M),
                Wish::Ask(Field::BrineMass),
            ),
            (
                BigButton::new(&to)
                    .spoken("What it is to be put right to")
                    .key(Key::T),
                Wish::Ask(Field::CorrectTo),
            ),
        ],
    ));
    if let Some(correction) = &view.brine.correction {
        words(
            ui,
            rest.bottom(scale.u(40.0)),
            &format!("Put right: {correction}"),
        );
    } else {
        caption(ui, rest.bottom(scale.u(32.0)), "Put it right:");
    }
    match &check.found {
        Err(why) => loud(ui, rest.0, why),
        Ok(found) => paragraphs(ui, rest.0, found, 25.0),
    }
    wishes
}
