//! The bench: the live mass, how far it is to the target, and how the run
//! goes. Legible from two metres; nothing on it needs touching between
//! portions.

use crate::bench_view::{BenchView, Of, RunView, SpreadView};
use crate::intent::Intent;
use crate::kitchen::KitchenIntent;
use crate::layout::{self, Rest};
use crate::melt_view::{LossView, MeltView};
use crate::state::{Screen, State};
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::verdict_column::{self, Held};
use crate::widgets::{approach_track, figure, mass_readout, melt_clock, portion_strip};
use crate::words::{self, Language, say};
use crate::{figures, shell, text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Ui};
use evenhand_protocol::{Mass, Verdict};
use std::borrow::Cow;

/// Shows the screen in `place`.
pub fn show(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let bench = &state.bench;
    let mut rest = Rest(place);
    let buttons = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(10.0));
    let mut intents = match bench.running() {
        Some(run) => {
            prompt(ui, rest.top(scale.u(96.0)), &bench.prompt, theme::FAR);
            rest.top(scale.u(4.0));
            let melting = (state.melt.as_ref(), state.loss.as_ref());
            // Where the line above says something else, the dish is named below.
            let named = shell::banner(state).is_some();
            let back = running(ui, rest.0, bench, run, (melting, named));
            let mut intents = run_buttons(ui, buttons, bench);
            intents.extend(back);
            intents
        }
        None => {
            let mut intents = idle(ui, rest.0, state);
            intents.extend(idle_buttons(ui, buttons, bench));
            intents
        }
    };
    intents.extend(instrument_buttons(ui, buttons, bench));
    intents
}

/// What to do next, to be read from two metres.
fn prompt(ui: &Ui, place: Rect, words: &str, size: f32) {
    if !words.is_empty() {
        let scale = Scale::of(ui);
        let style = text::Style::new(scale.heavy(size), theme::INK, Align2::LEFT_CENTER);
        text::label(ui, place, words, &style);
    }
}

/// Which dish is portioned, and its goal.
pub(crate) fn dish_line(ui: &Ui, place: Rect, dish: &str, goal: &str, size: f32) {
    let scale = Scale::of(ui);
    let name = text::label(
        ui,
        place.with_max_x(place.left() + place.width() * 0.62),
        dish,
        &text::Style::new(scale.heavy(size), theme::INK, Align2::LEFT_CENTER),
    );
    text::label(
        ui,
        place.with_min_x(name.right() + scale.u(size * 0.5)),
        goal,
        &text::Style::new(scale.plain(size * 0.9), theme::INK, Align2::LEFT_CENTER),
    );
}

/// The melt clock of the run, and what the load on the pan loses.
type Melting<'v> = (Option<&'v MeltView>, Option<&'v LossView>);

fn running(
    ui: &Ui,
    place: Rect,
    bench: &BenchView,
    run: &RunView,
    (melting, named): (Melting<'_>, bool),
) -> Option<Intent> {
    let scale = Scale::of(ui);
    let interval = bench.mass.interval;
    let mut rest = Rest(place);

    // Figures that are in doubt need a line more.
    let in_doubt = run.spread.in_doubt > 0;
    let lower = rest.bottom(scale.u(if in_doubt { 186.0 } else { 158.0 }));
    rest.bottom(scale.u(8.0));
    let track = rest.bottom(scale.u(112.0));
    rest.bottom(scale.u(4.0));

    let mut hero = rest;
    let column = hero.right(scale.u(268.0));
    hero.right(scale.u(12.0));
    mass_readout::show(ui, hero.0, &bench.mass, Some(run.goal));
    verdict_column::show(ui, column, run.goal, held(bench, run), interval);
    approach_track::show(ui, track, run.goal, approached(bench), interval);
    lower_part(ui, lower, bench, run, (melting, named))
}

/// The run in the whole window, for whoever stands two metres away and more: what to do next,
/// the figure, the verdict, the way to the target.
pub(crate) fn show_from_afar(ui: &Ui, place: Rect, bench: &BenchView, run: &RunView) {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let interval = bench.mass.interval;
    let mut rest = Rest(place);
    prompt(ui, rest.top(scale.u(130.0)), &bench.prompt, 100.0);
    rest.top(scale.u(4.0));
    let foot = rest.bottom(scale.u(60.0));
    rest.bottom(scale.u(4.0));
    let track = rest.bottom(scale.u(150.0));
    rest.bottom(scale.u(8.0));
    let column = rest.right(rest.0.width() * 0.29);
    rest.right(scale.u(14.0));
    mass_readout::show(ui, rest.0, &bench.mass, Some(run.goal));
    verdict_column::show(ui, column, run.goal, held(bench, run), interval);
    approach_track::show(ui, track, run.goal, approached(bench), interval);

    let mut foot = Rest(foot);
    let count = figures::portions(run.spread.count, language);
    let left = run.tin.as_ref().and_then(|tin| {
        let left = figures::grams(tin.left?, interval, language);
        Some(format!("{}: {left}", tin.caption))
    });
    let made = [Some(count.into_owned()), left];
    let made: Vec<String> = made.into_iter().flatten().collect();
    let style = text::Style::new(scale.plain(40.0), theme::INK, Align2::RIGHT_CENTER);
    let right = foot.right(foot.0.width() * 0.5);
    text::label(ui, right, &made.join(" \u{b7} "), &style);
    let goal = figures::goal(run.goal, interval, language);
    dish_line(ui, foot.0, &run.dish, &goal, 44.0);
}

/// The portion being made and its verdict.
fn approached(bench: &BenchView) -> Option<(Mass, Verdict)> {
    let live = bench.mass.of == Of::Load;
    bench.mass.shown.zip(bench.mass.verdict).filter(|_| live)
}

/// Which portion the verdict is on.
fn held(bench: &BenchView, run: &RunView) -> Held {
    let last = run.portions.iter().rev().find(|portion| portion.counts());
    match (bench.mass.shown.zip(bench.mass.verdict), last) {
        (Some((mass, verdict)), _) => Held::Live(mass, verdict),
        (None, Some(last)) => Held::Last(last.number, last.mass, last.verdict()),
        (None, None) => Held::Nothing,
    }
}

fn lower_part(
    ui: &Ui,
    place: Rect,
    bench: &BenchView,
    run: &RunView,
    ((melt, loss), named): (Melting<'_>, bool),
) -> Option<Intent> {
    let interval = bench.mass.interval;
    let language = words::of(ui);
    let scale = Scale::of(ui);
    let mut rest = Rest(place);
    let figures_place = rest.right(scale.u(440.0));
    rest.right(scale.u(20.0));
    if named {
        let line = rest.top(scale.u(34.0));
        let goal = figures::goal(run.goal, interval, language);
        dish_line(ui, line, &run.dish, &goal, 26.0);
    }
    portion_strip::show(ui, rest.0, &run.portions, run.goal, interval);

    let mut figures_place = Rest(figures_place);
    let in_doubt = run.spread.in_doubt > 0;
    let above = figures_place.top(scale.u(if in_doubt { 98.0 } else { 74.0 }));
    figures_place.top(scale.u(2.0));
    let mean = |mean: Option<Mass>| {
        mean.map_or_else(blank, |mass| figures::grams(mass, interval, language))
    };
    let spread =
        |spread: Option<Mass>| spread.map_or_else(blank, |mass| finer(mass, interval, language));
    // The doubt comes first, then the figures without it, and below them with it.
    let count = if in_doubt {
        let of = say!(
            language,
            "run-in-doubt-of",
            doubted = run.spread.in_doubt.to_string(),
            count = run.spread.count.to_string()
        );
        (say!(language, "run-in-doubt"), of.into_owned(), None)
    } else {
        (
            say!(language, "run-count"),
            run.spread.count.to_string(),
            None,
        )
    };
    let with_all = |mass: String| say!(language, "run-with-all", mass = mass).into_owned();
    let of_all = run.spread.of_all;
    let entries = [
        count,
        (
            say!(language, "run-mean"),
            mean(run.spread.mean),
            of_all.map(|(of_all, _)| with_all(mean(of_all))),
        ),
        (
            say!(language, "run-spread"),
            spread(run.spread.deviation),
            of_all.map(|(_, of_all)| with_all(spread(of_all))),
        ),
    ];
    for (cell, (caption, value, below)) in layout::columns(above, 3, scale.u(8.0))
        .into_iter()
        .zip(entries)
    {
        figure::show(ui, cell, &caption, &value, below.as_deref());
    }

    let halves = layout::columns(figures_place.0, 2, scale.u(8.0));
    let [first, second] = halves.as_slice() else {
        return None;
    };
    // Without a tin, today's figures stand where it would.
    let today = match &run.tin {
        Some(view) => {
            let value = view
                .left
                .map_or_else(blank, |left| figures::grams(left, interval, language));
            figure::show(ui, *first, &view.caption, &value, view.portions.as_deref());
            second
        }
        None => first,
    };
    // What melts goes before what was made today, where there is room for one.
    if let Some(view) = &bench.today
        && (melt.is_none() || run.tin.is_none())
    {
        let spread = view
            .deviation
            .map(|spread| finer(spread, interval, language));
        let below = match (spread, view.in_doubt) {
            (spread, doubted) if doubted > 0 => Some(say!(
                language,
                "run-today-doubted",
                doubted = doubted,
                mass = spread.unwrap_or_else(blank)
            )),
            (Some(spread), _) => Some(say!(language, "run-today-spread", mass = spread)),
            (None, _) => None,
        };
        let caption = say!(language, "run-today");
        let made = figures::portions(view.count, language);
        figure::show(ui, *today, &caption, &made, below.as_deref());
    }
    melt.is_some_and(|melt| melt_clock::show(ui, *second, melt, loss))
        .then_some(Intent::Kitchen(KitchenIntent::BackInCold))
}

fn blank() -> String {
    "\u{2013}".to_owned()
}

/// A spread is told one digit finer than the scale reads.
fn finer(spread: Mass, interval: Mass, language: Language) -> String {
    let tenth = Mass::from_micrograms((interval.micrograms() / 10).max(1));
    figures::grams(spread, tenth, language)
}

fn idle(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let mut rest = Rest(place);
    let hero = rest.top(scale.u(364.0));
    mass_readout::show(ui, hero, &state.bench.mass, None);
    rest.top(scale.u(12.0));
    let line = rest.top(scale.u(36.0));
    text::label(
        ui,
        line,
        &match &state.loss {
            Some(loss) => loss.told.as_str().into(),
            None => so_far(&state.bench, language),
        },
        &text::Style::new(scale.plain(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    rest.top(scale.u(12.0));
    let caption = rest.top(scale.u(32.0));
    let recent: Vec<_> = state.dishes.iter().take(4).collect();
    if recent.is_empty() {
        return Vec::new();
    }
    text::label(
        ui,
        caption,
        &say!(language, "idle-start"),
        &text::Style::new(scale.plain(26.0), theme::SOFT_INK, Align2::LEFT_CENTER),
    );
    rest.top(scale.u(4.0));
    let tiles = rest.top(scale.u(112.0));
    let keys = [Key::Num1, Key::Num2, Key::Num3, Key::Num4];
    let mut intents = Vec::new();
    for ((place, dish), key) in layout::columns(tiles, 4, scale.u(12.0))
        .into_iter()
        .zip(recent)
        .zip(keys)
    {
        let detail = say!(
            language,
            "dish-line",
            goal = figures::grams(dish.goal.target(), state.bench.mass.interval, language),
            mode = figures::mode(dish.mode, language)
        );
        if BigButton::new(dish.name.as_str())
            .detail(&detail)
            .key(key)
            .enabled(state.bench.can.run)
            .show(ui, place)
        {
            intents.push(Intent::StartDish(dish.name.clone()));
        }
    }
    intents
}

/// The last run and today in one line.
fn so_far(bench: &BenchView, language: Language) -> Cow<'static, str> {
    let interval = bench.mass.interval;
    let told = |view: &SpreadView| {
        let portions = figures::portions(view.count, language);
        let mean = view
            .mean
            .map(|mean| figures::grams(mean, interval, language));
        let spread = view
            .deviation
            .map(|spread| finer(spread, interval, language));
        if let Some((all, all_spread)) = view.of_all {
            let figures = [all, all_spread];
            let [all, all_spread] =
                figures.map(|of| of.map_or_else(blank, |mass| finer(mass, interval, language)));
            return say!(
                language,
                "figures-in-doubt",
                doubted = view.in_doubt,
                portions = portions,
                mean = mean.unwrap_or_else(blank),
                spread = spread.unwrap_or_else(blank),
                all = all,
                allspread = all_spread
            );
        }
        match (mean, spread) {
            (Some(mean), Some(spread)) => say!(
                language,
                "figures-mean-spread",
                portions = portions,
                mean = mean,
                spread = spread
            ),
            (Some(mean), None) => {
                say!(language, "figures-mean", portions = portions, mean = mean)
            }
            (None, _) => portions,
        }
    };
    let run = bench.run.as_ref().map(|run| {
        say!(
            language,
            "idle-last-run",
            dish = run.dish.as_str(),
            figures = told(&run.spread)
        )
    });
    let today = bench
        .today
        .as_ref()
        .filter(|view| view.count > 0)
        .map(|view| {
            let made = figures::portions(view.count, language);
            if view.in_doubt > 0 {
                return say!(
                    language,
                    "idle-today-doubted",
                    doubted = view.in_doubt,
                    figures = made
                );
            }
            say!(language, "idle-today", figures = made)
        });
    match (run, today) {
        (Some(run), Some(today)) => format!("{run} {today}").into(),
        (Some(words), None) | (None, Some(words)) => words,
        (None, None) => say!(language, "idle-none"),
    }
}

/// Six places for buttons: two each for the run, the record, the instrument.
fn button_places(ui: &Ui, place: Rect) -> Vec<Rect> {
    layout::columns(place, 6, Scale::of(ui).u(12.0))
}

fn run_buttons(ui: &Ui, place: Rect, bench: &BenchView) -> Vec<Intent> {
    let language = words::of(ui);
    let places = button_places(ui, place);
    let undo = say!(language, "button-undo-last");
    let strike = say!(language, "button-strike-out");
    let goal = say!(language, "button-change-goal");
    let stop = say!(language, "button-stop-run");
    let buttons = [
        (
            BigButton::new(&undo).key(Key::U).enabled(bench.can.undo),
            Intent::UndoLast,
        ),
        (
            BigButton::new(&strike).key(Key::X),
            Intent::Go(Screen::Portions),
        ),
        (BigButton::new(&goal).key(Key::G), Intent::Go(Screen::Goal)),
        (BigButton::new(&stop).key(Key::S), Intent::StopRun),
    ];
    pressed(ui, places.into_iter().take(4), buttons)
}

fn idle_buttons(ui: &Ui, place: Rect, bench: &BenchView) -> Vec<Intent> {
    let language = words::of(ui);
    let places = button_places(ui, place);
    let choose = say!(language, "button-choose-dish");
    let find = say!(language, "button-find-scale");
    let undo = say!(language, "button-undo-last");
    let tare_off = say!(language, "button-tare-off");
    let [first, second, third, fourth, ..] = places.as_slice() else {
        return Vec::new();
    };
    // The one to press next depends on whether there is a scale to weigh with.
    let main = if bench.can.run {
        (
            BigButton::new(&choose).key(Key::D),
            Intent::Go(Screen::Dishes),
        )
    } else {
        (BigButton::new(&find).key(Key::F), Intent::Go(Screen::Scale))
    };
    let buttons = [
        (main.0.weight(Weight::Main), main.1),
        (
            BigButton::new(&undo).key(Key::U).enabled(bench.can.undo),
            Intent::UndoLast,
        ),
        (
            BigButton::new(&tare_off)
                .key(Key::O)
                .enabled(bench.can.clear_tare),
            Intent::ClearTare,
        ),
    ];
    pressed(ui, [first.union(*second), *third, *fourth], buttons)
}

fn instrument_buttons(ui: &Ui, place: Rect, bench: &BenchView) -> Vec<Intent> {
    let language = words::of(ui);
    let places = button_places(ui, place);
    let tare = say!(language, "button-tare");
    let zero = say!(language, "button-zero");
    let buttons = [
        (
            BigButton::new(&tare).key(Key::T).enabled(bench.can.tare),
            Intent::Tare,
        ),
        (
            BigButton::new(&zero).key(Key::Z).enabled(bench.can.zero),
            Intent::Zero,
        ),
    ];
    pressed(ui, places.into_iter().skip(4), buttons)
}

fn pressed<'a>(
    ui: &Ui,
    places: impl IntoIterator<Item = Rect>,
    buttons: impl IntoIterator<Item = (BigButton<'a>, Intent)>,
) -> Vec<Intent> {
    places
        .into_iter()
        .zip(buttons)
        .filter_map(|(place, (button, intent))| button.show(ui, place).then_some(intent))
        .collect()
}
