//! What to do now, next, and what will be late; ticked by a whole hand.

use crate::intent::Intent;
use crate::kitchen::KitchenIntent;
use crate::layout::{self, Rest};
use crate::prep_view::{MOST_RISKS, PrepRow, PrepView};
use crate::state::{Screen, State};
use crate::widgets::big_button::{BigButton, Weight, struck};
use crate::widgets::long_list::LongList;
use crate::words::{Language, say};
use crate::{text, theme, theme::Scale};
use eframe::egui::{
    Align2, Key, Rect, Role, ScrollArea, Sense, StrokeKind, Ui, UiBuilder, WidgetInfo, vec2,
};
use evenhand_kitchen::prep::{Happened, StepState};

/// The keys that tick the first rows.
const KEYS: [Key; 6] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
];

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = state.language;
    let view = &state.prep;
    let mut rest = Rest(place);
    let mut head = Rest(rest.top(scale.u(64.0)));
    let mut intents = Vec::new();
    for (words, key, screen) in [
        (say!(language, "prep-week"), Key::W, Screen::Week),
        (say!(language, "prep-timeline"), Key::T, Screen::Timeline),
        (say!(language, "prep-menus"), Key::N, Screen::Menus),
    ] {
        if BigButton::new(&words)
            .key(key)
            .show(ui, head.right(scale.u(160.0)))
        {
            intents.push(Intent::Go(screen));
        }
        head.right(scale.u(12.0));
    }
    let heading = say!(language, "prep-heading");
    if let Some(supposed) = &view.supposed {
        let place = head.0;
        ui.painter()
            .rect_filled(place, scale.corner(8.0), theme::ATTENTION);
        text::label(
            ui,
            place.shrink2(vec2(scale.u(12.0), 0.0)),
            supposed,
            &text::Style::new(scale.heavy(32.0), theme::INK, Align2::LEFT_CENTER),
        );
    } else {
        text::label(
            ui,
            head.0,
            if view.title.is_empty() {
                &heading
            } else {
                &view.title
            },
            &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
        );
    }
    if let Some(trouble) = &view.trouble {
        text::label(
            ui,
            rest.top(scale.u(lines_tall(trouble, 150, [60.0, 92.0]))),
            trouble,
            &text::Style::new(scale.plain(28.0), theme::INK, Align2::LEFT_CENTER),
        );
    }
    if let Some(late) = &view.late {
        let place = rest.top(scale.u(lines_tall(late, 66, [52.0, 82.0])));
        ui.painter()
            .rect_filled(place, scale.corner(8.0), theme::STOP);
        text::label(
            ui,
            place.shrink2(vec2(scale.u(14.0), 0.0)),
            late,
            &text::Style::new(scale.heavy(32.0), theme::ON_DARK, Align2::LEFT_CENTER),
        );
        rest.top(scale.u(6.0));
    }
    intents.extend(show_risks(ui, &mut rest, view));
    intents.extend(foot(ui, rest.bottom(scale.u(72.0)), state));
    if !view.hands.is_empty() {
        rest.top(scale.u(8.0));
        intents.extend(hands(ui, rest.top(scale.u(72.0)), state));
        rest.top(scale.u(8.0));
    }
    let below: Vec<&str> = view
        .stock
        .iter()
        .chain(&view.handover)
        .map(String::as_str)
        .collect();
    let shown: Vec<PrepRow> = view
        .rows
        .iter()
        .filter(|row| {
            state
                .hand
                .as_ref()
                .is_none_or(|hand| row.who.contains(hand))
        })
        .cloned()
        .collect();
    rest.bottom(scale.u(6.0));
    text::label(
        ui,
        rest.bottom(scale.u(lines_tall(&view.chain, 100, [34.0, 60.0]))),
        &view.chain,
        &text::Style::new(scale.plain(24.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    rest.bottom(gap);
    if shown.is_empty() && view.trouble.is_none() {
        let stock = rest.bottom(scale.u(stock_tall(&below)));
        show_stock(ui, stock, &below);
        text::label(
            ui,
            rest.0,
            &say!(language, "prep-nothing-left"),
            &text::Style::new(scale.plain(34.0), theme::INK, Align2::CENTER_CENTER),
        );
        return intents;
    }
    let stock = rest.bottom(scale.u(stock_tall(&below)));
    show_stock(ui, stock, &below);
    let hand = state.hand.as_deref();
    intents.extend(rows(ui, rest.0, (&shown, hand), language));
    for (row, key) in shown.iter().zip(KEYS) {
        if struck(ui, key) {
            intents.push(next(row, hand));
        }
    }
    intents
}

/// Deliveries that may come too late, each to be touched to try what there is in its place; the
/// others stand at their rows.
fn show_risks(ui: &Ui, rest: &mut Rest, view: &PrepView) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let mut intents = Vec::new();
    for risk in view.risks.iter().take(MOST_RISKS) {
        let place = rest.top(scale.u(70.0));
        rest.top(scale.u(6.0));
        let pressed = BigButton::new("").spoken(&risk.words).show(ui, place);
        ui.painter().rect(
            place,
            scale.corner(8.0),
            theme::ATTENTION,
            scale.stroke(3.0, theme::INK),
            StrokeKind::Inside,
        );
        text::paint(
            ui,
            place.shrink2(vec2(scale.u(14.0), scale.u(4.0))),
            &risk.words,
            &text::Style::new(scale.heavy(28.0), theme::INK, Align2::LEFT_CENTER),
        );
        if pressed {
            intents.push(Intent::Kitchen(KitchenIntent::TryMend(
                risk.instead.clone(),
            )));
        }
    }
    intents
}

/// The head of a screen that the list leads to: its title, the way back to the list, and
/// where else it leads.
pub(super) fn head_of_another(
    ui: &Ui,
    rest: &mut Rest,
    title: &str,
    language: Language,
    also: Option<(&str, Intent)>,
) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let mut head = Rest(rest.top(scale.u(64.0)));
    rest.top(scale.u(6.0));
    let back = BigButton::new(&say!(language, "prep-list"))
        .key(Key::Escape)
        .show(ui, head.right(scale.u(200.0)));
    head.right(scale.u(12.0));
    let mut intents: Vec<Intent> = back
        .then_some(Intent::Go(Screen::Prep))
        .into_iter()
        .collect();
    if let Some((words, intent)) = also {
        if BigButton::new(words).show(ui, head.right(scale.u(200.0))) {
            intents.push(intent);
        }
        head.right(scale.u(12.0));
    }
    text::label(
        ui,
        head.0,
        title,
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
    intents
}

/// How tall a place is for words: the first, or where there are more letters
/// than one line holds in a size to be read from afar, the second.
fn lines_tall(words: &str, most: usize, tall: [f32; 2]) -> f32 {
    tall[usize::from(words.chars().count() > most)]
}

/// Everybody's steps, or those of one pair of hands.
fn hands(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let everybody = say!(state.language, "prep-everybody");
    let names = state
        .prep
        .hands
        .iter()
        .map(|name| (name.as_str(), Some(name)));
    let all: Vec<_> = std::iter::once((&*everybody, None)).chain(names).collect();
    let places = layout::columns(place, all.len(), scale.u(10.0));
    all.into_iter()
        .zip(places)
        .filter_map(|((words, hand), place)| {
            let weight = if state.hand.as_ref() == hand {
                Weight::Chosen
            } else {
                Weight::Plain
            };
            BigButton::new(words)
                .weight(weight)
                .show(ui, place)
                .then(|| Intent::ShowHand(hand.cloned()))
        })
        .collect()
}

/// Lines of stock on show at a time; the others are scrolled to.
const STOCK_LINES: usize = 3;
const STOCK_LINE: f32 = 30.0;

fn stock_tall(stock: &[&str]) -> f32 {
    // Three lines at most, so that the steps keep their room.
    let lines = stock.len().min(STOCK_LINES) as f32;
    lines * STOCK_LINE + if stock.is_empty() { 0.0 } else { 8.0 }
}

fn show_stock(ui: &mut Ui, place: Rect, stock: &[&str]) {
    if stock.is_empty() {
        return;
    }
    let scale = Scale::of(ui);
    let tall = scale.u(STOCK_LINE);
    // Whole lines only, so that none is cut at rest.
    let place = place.with_max_y(place.top() + tall * stock.len().min(STOCK_LINES) as f32);
    ui.scope_builder(UiBuilder::new().max_rect(place).id_salt("stock"), |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        ScrollArea::vertical()
            .auto_shrink(false)
            .content_margin(0.0)
            .show_rows(ui, tall, stock.len(), |ui, shown| {
                for words in stock.get(shown).into_iter().flatten() {
                    let (line, _) = ui.allocate_exact_size(
                        vec2(place.width() - scale.u(16.0), tall),
                        Sense::hover(),
                    );
                    if ui.is_rect_visible(line.shrink(1.0)) {
                        let style =
                            text::Style::new(scale.plain(23.0), theme::INK, Align2::LEFT_CENTER);
                        text::label(ui, line, words, &style);
                    }
                }
            });
    });
}

/// What a hand on the row says: begun, where it was not; done, where it was.
fn next(row: &PrepRow, hand: Option<&str>) -> Intent {
    let what = if row.begun {
        Happened::Done
    } else {
        Happened::Begun
    };
    tick(row, what, hand)
}

/// Told of the pair of hands whose steps are shown, where one is chosen.
fn tick(row: &PrepRow, what: Happened, hand: Option<&str>) -> Intent {
    let (day, step) = (row.day, row.step.clone());
    Intent::Kitchen(match hand {
        Some(hand) => KitchenIntent::TickBy(day, step, what, hand.to_owned()),
        None => KitchenIntent::Tick(day, step, what),
    })
}

fn foot(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = state.language;
    let view = &state.prep;
    let mut intents = Vec::new();
    let places = layout::columns(place, 6, scale.u(12.0));
    let [undo, told, first, trying, order, keep] = places.as_slice() else {
        return intents;
    };
    let take_back = say!(language, "prep-take-back");
    let undo_button = BigButton::new(&take_back).key(Key::U);
    let pressed = match &view.last_tick {
        Some(step) => undo_button.detail(step).show(ui, *undo),
        None => undo_button.enabled(false).show(ui, *undo),
    };
    if pressed {
        intents.push(Intent::Kitchen(KitchenIntent::UndoTick));
    }
    for (words, key, screen, place) in [
        (
            say!(language, "prep-at-another-time"),
            Key::A,
            Screen::Telling,
            told,
        ),
        (
            say!(language, "prep-what-if"),
            Key::M,
            Screen::WhatIf,
            trying,
        ),
        (say!(language, "prep-order"), Key::O, Screen::Order, order),
    ] {
        if BigButton::new(&words).key(key).show(ui, *place) {
            intents.push(Intent::Go(screen));
        }
    }
    for what_if in view.what_ifs.iter().take(1) {
        let weight = if what_if.on {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        let spoken = say!(language, "prep-hour-late", what = what_if.what.as_str());
        if BigButton::new(&say!(language, "prep-an-hour-late"))
            .detail(&what_if.what)
            .spoken(&spoken)
            .key(Key::L)
            .weight(weight)
            .show(ui, *first)
        {
            let asked = (!what_if.on).then(|| what_if.text.clone());
            intents.push(Intent::Kitchen(KitchenIntent::WhatIf(asked)));
        }
    }
    if view.can_keep()
        && BigButton::new(&say!(language, "prep-it-is-so"))
            .detail(&say!(language, "prep-keep"))
            .key(Key::K)
            .weight(Weight::Main)
            .show(ui, *keep)
    {
        intents.push(Intent::Kitchen(KitchenIntent::KeepWhatIf));
    }
    intents
}

fn rows(
    ui: &mut Ui,
    place: Rect,
    (all, hand): (&[PrepRow], Option<&str>),
    language: Language,
) -> Vec<Intent> {
    let scale = Scale::of(ui);
    // What is to be known beside a step stands in two lines where one is too short for it.
    let long = all.iter().any(|row| row.note.chars().count() > 64);
    let tall = scale.u(if long { 98.0 } else { 78.0 });
    let gap = scale.u(8.0);
    let mut intents = Vec::new();
    // Whole rows, and where there are more of them two buttons that go on, and how many there are.
    let list = LongList {
        name: "steps of the prep",
        gap,
        keys: true,
        of: (all.len(), 1),
    };
    list.show(
        ui,
        place,
        |_| vec![tall; all.len()],
        |ui, nth, place| {
            if let Some(row) = all.get(nth) {
                intents.extend(show_row(ui, place, (nth, row), hand, language));
            }
        },
    );
    intents
}

fn show_row(
    ui: &Ui,
    place: Rect,
    (nth, row): (usize, &PrepRow),
    hand: Option<&str>,
    language: Language,
) -> Option<Intent> {
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let done = rest.right(scale.u(150.0));
    rest.right(scale.u(8.0));
    let body = rest.0;
    let response = ui.interact(
        body,
        ui.unique_id().with(("step", &row.name)),
        Sense::click(),
    );
    response.widget_info(|| {
        WidgetInfo::labeled(
            Role::Button,
            true,
            format!(
                "{}: {}, {}, {}. {}",
                row.name, row.word, row.start, row.spare, row.note
            ),
        )
    });
    let (fill, ink) = match row.standing {
        StepState::Late => (theme::STOP, theme::ON_DARK),
        StepState::Now => (theme::ATTENTION, theme::INK),
        StepState::UnderWay => (theme::BAND, theme::INK),
        StepState::Next | StepState::Later | StepState::Done => (theme::SURFACE, theme::INK),
    };
    let edge = if row.decides { theme::INK } else { theme::EDGE };
    let width = if row.decides || response.has_focus() {
        4.0
    } else {
        2.0
    };
    ui.painter().rect(
        body,
        scale.corner(8.0),
        fill,
        scale.stroke(width, edge),
        StrokeKind::Inside,
    );
    let style = |font, align| text::Style::new(font, ink, align);
    let mut inner = Rest(body.shrink2(vec2(scale.u(12.0), scale.u(4.0))));
    if nth < KEYS.len() {
        text::paint(
            ui,
            inner.left(scale.u(22.0)),
            &(nth + 1).to_string(),
            &style(scale.plain(19.0), Align2::LEFT_TOP),
        );
    } else {
        inner.left(scale.u(22.0));
    }
    text::paint(
        ui,
        inner.left(scale.u(118.0)),
        &row.word,
        &style(scale.heavy(27.0), Align2::LEFT_CENTER),
    );
    let times = inner.right(scale.u(270.0));
    inner.right(scale.u(10.0));
    let (above, below) = times.split_top_bottom_at_fraction(0.54);
    text::paint(
        ui,
        above,
        &row.start,
        &style(scale.heavy(30.0), Align2::RIGHT_CENTER),
    );
    text::paint(
        ui,
        below,
        &row.spare,
        &style(scale.plain(23.0), Align2::RIGHT_CENTER),
    );
    if row.note.is_empty() {
        text::paint(
            ui,
            inner.0,
            &row.name,
            &style(scale.heavy(32.0), Align2::LEFT_CENTER),
        );
    } else {
        let (above, below) = inner.0.split_top_bottom_at_fraction(0.56);
        text::paint(
            ui,
            above,
            &row.name,
            &style(scale.heavy(31.0), Align2::LEFT_CENTER),
        );
        text::paint(
            ui,
            below,
            &row.note,
            &style(scale.plain(22.0), Align2::LEFT_CENTER),
        );
    }
    if response.clicked() {
        return Some(next(row, hand));
    }
    let spoken = say!(language, "prep-done-spoken", step = row.name.as_str());
    BigButton::new(&say!(language, "prep-done"))
        .spoken(&spoken)
        .weight(if row.begun {
            Weight::Main
        } else {
            Weight::Plain
        })
        .show(ui, done)
        .then(|| tick(row, Happened::Done, hand))
}
