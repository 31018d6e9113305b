//! Saying what a heat log is watched for: a band to bake in, or a limit.

use crate::heat_view::LimitTile;
use crate::intent::Intent;
use crate::kitchen::KitchenIntent;
use crate::layout::{self, Rest};
use crate::state::{Screen, State};
use crate::widgets::big_button::{BigButton, Weight};
use crate::words::{Language, say};
use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, ScrollArea, Sense, Ui, UiBuilder, vec2};
use evenhand_kitchen::heat::Band;
use evenhand_protocol::Temperature;
use evenhand_use_cases::heat::band_words;

const ABREAST: usize = 3;

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = state.language;
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let shown = state.heat.shown.as_ref();
    let chosen = state.heat.logs.iter().find(|tile| tile.chosen);
    let name = shown.map_or_else(
        || chosen.map(|tile| tile.words.as_str()),
        |shown| Some(shown.words.as_str()),
    );
    let title = name.map_or_else(
        || say!(language, "aim-title-unnamed"),
        |name| say!(language, "aim-title", name = name),
    );
    let (_, leave) = super::titled(ui, &mut rest, &title, Screen::Heat);
    intents.extend(leave);
    rest.top(scale.u(4.0));
    let aim = shown.and_then(|shown| shown.aim);
    let offered = Band::BREAD_OVEN;
    let (low, high) = aim.unwrap_or((offered.low(), offered.high()));
    text::label(
        ui,
        rest.top(scale.u(36.0)),
        &say!(language, "aim-band"),
        &text::Style::new(scale.plain(28.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    let place = rest.top(scale.u(88.0));
    intents.extend(band(ui, place, language, (low, high), aim.is_some()));
    rest.top(gap);
    text::label(
        ui,
        rest.top(scale.u(36.0)),
        &say!(language, "aim-limit"),
        &text::Style::new(scale.plain(28.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    let chosen = shown.and_then(|shown| shown.limit.as_deref());
    let (tall, grid) = (scale.u(68.0), rest.0);
    ui.scope_builder(UiBuilder::new().max_rect(grid).id_salt("limits"), |ui| {
        ScrollArea::vertical()
            .auto_shrink(false)
            .content_margin(0.0)
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing = vec2(0.0, scale.u(8.0));
                for tiles in state.heat.limits.chunks(ABREAST) {
                    let (row, _) =
                        ui.allocate_exact_size(vec2(grid.width() - gap, tall), Sense::hover());
                    for (place, tile) in layout::columns(row, ABREAST, gap).into_iter().zip(tiles) {
                        intents.extend(limit(ui, place, tile, chosen));
                    }
                }
            });
    });
    intents
}

/// One limit to choose.
fn limit(ui: &Ui, place: Rect, tile: &LimitTile, chosen: Option<&str>) -> Vec<Intent> {
    let weight = if chosen == Some(tile.name.as_str()) {
        Weight::Chosen
    } else {
        Weight::Plain
    };
    if !BigButton::new(&tile.words)
        .detail(&tile.section)
        .weight(weight)
        .show(ui, place)
    {
        return Vec::new();
    }
    vec![
        Intent::Kitchen(KitchenIntent::AimLimit(tile.name.clone())),
        Intent::Go(Screen::Heat),
    ]
}

/// Lower end, the band itself, upper end.
fn band(
    ui: &Ui,
    place: Rect,
    language: Language,
    (low, high): (Temperature, Temperature),
    set: bool,
) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(10.0);
    let mut rest = Rest(place);
    let ends = scale.u(2.0 * 100.0 + 10.0);
    let lower = layout::columns(rest.left(ends), 2, gap);
    rest.left(gap);
    let upper = layout::columns(rest.right(ends), 2, gap);
    rest.right(gap);
    let mut intents = Vec::new();
    let by = |t: Temperature, degrees: i32| {
        Temperature::from_millicelsius(t.millicelsius().saturating_add(degrees * 1_000))
    };
    let mut ask = |low: Temperature, high: Temperature| {
        if low <= high {
            intents.push(Intent::Kitchen(KitchenIntent::AimBand(low, high)));
        }
    };
    for (places, is_low) in [(lower, true), (upper, false)] {
        for (place, degrees) in places.into_iter().zip([-2, 2]) {
            let words = if degrees < 0 { "\u{2212}2" } else { "+2" };
            let spoken = if is_low {
                say!(language, "aim-lower-end", step = words)
            } else {
                say!(language, "aim-upper-end", step = words)
            };
            if BigButton::new(words).spoken(&spoken).show(ui, place) {
                if is_low {
                    ask(by(low, degrees), high);
                } else {
                    ask(low, by(high, degrees));
                }
            }
        }
    }
    let words =
        Band::new(low, high).map_or_else(|_| String::new(), |band| band_words(language, band));
    let weight = if set { Weight::Chosen } else { Weight::Plain };
    if BigButton::new(&words)
        .key(Key::B)
        .weight(weight)
        .show(ui, rest.0)
    {
        ask(low, high);
        intents.push(Intent::Go(Screen::Heat));
    }
    intents
}
