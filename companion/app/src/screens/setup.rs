//! Mode, target and tolerance: before a run, for a new dish, or within a run.

use crate::intent::{Intent, Quantity};
use crate::layout::{self, Rest};
use crate::state::{Screen, State, TinChoice};
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::stepper::Stepper;
use crate::words::{self, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Ui};
use evenhand_protocol::{Mass, Mode};
use evenhand_use_cases::instrument;

const TARGET_STEPS: [Mass; 4] = [
    Mass::from_milligrams(500),
    Mass::from_grams(1),
    Mass::from_grams(10),
    Mass::from_grams(100),
];
const TIN_STEPS: [Mass; 4] = [
    Mass::from_grams(1),
    Mass::from_grams(10),
    Mass::from_grams(100),
    Mass::from_grams(1_000),
];
/// Height of a stepper with its caption, in units.
const STEPPER: f32 = 106.0;

const TOLERANCE_STEPS: [Mass; 4] = [
    Mass::from_milligrams(100),
    Mass::from_milligrams(500),
    Mass::from_grams(1),
    Mass::from_grams(10),
];

/// Shows the set-up of a run in `place`.
pub fn show(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let gap = scale.u(12.0);
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let head = rest.top(scale.u(48.0));
    rest.top(scale.u(6.0));
    text::label(
        ui,
        head,
        &state.setup.name,
        &text::Style::new(scale.heavy(40.0), theme::INK, Align2::LEFT_CENTER),
    );

    let modes = layout::columns(rest.top(scale.u(84.0)), 2, gap);
    rest.top(scale.u(4.0));
    let ways = [
        (
            Mode::Adding,
            say!(language, "setup-adding"),
            say!(language, "setup-adding-how"),
            Key::I,
        ),
        (
            Mode::Taking,
            say!(language, "setup-taking"),
            say!(language, "setup-taking-how"),
            Key::O,
        ),
    ];
    for (place, (mode, words, detail, key)) in modes.into_iter().zip(ways) {
        let weight = if state.setup.mode == mode {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        if BigButton::new(&words)
            .detail(&detail)
            .key(key)
            .weight(weight)
            .show(ui, place)
        {
            intents.push(Intent::ChooseMode(mode));
        }
    }
    intents.extend(goal_steppers(ui, &mut rest, state));
    if state.setup.mode == Mode::Taking {
        intents.extend(tin(ui, &mut rest, state));
    }
    let back = if state.setup.dish.is_some() {
        Screen::Dishes
    } else {
        Screen::Naming
    };
    intents.extend(foot(
        ui,
        rest,
        state,
        &say!(language, "setup-start"),
        Intent::StartRun,
        back,
        state.bench.can.run,
    ));
    intents
}

/// Shows the change of goal within a run in `place`.
pub fn show_goal(ui: &Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let mut rest = Rest(place);
    let head = rest.top(scale.u(64.0));
    rest.top(scale.u(12.0));
    text::label(
        ui,
        head,
        &say!(
            language,
            "setup-goal-title",
            dish = state.setup.name.as_str()
        ),
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
    let mut intents = goal_steppers(ui, &mut rest, state);
    intents.extend(foot(
        ui,
        rest,
        state,
        &say!(language, "setup-use-goal"),
        Intent::ChangeGoal,
        Screen::Bench,
        state.bench.can.run,
    ));
    intents
}

fn goal_steppers(ui: &Ui, rest: &mut Rest, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let interval = state.bench.mass.interval;
    let setup = &state.setup;
    let language = words::of(ui);
    let mut intents = Vec::new();
    let target = figures::grams(setup.target, interval, language);
    let tolerance = figures::tolerance(setup.tolerance, interval, language);
    let steppers = [
        (
            Quantity::Target,
            say!(language, "setup-target"),
            target,
            &TARGET_STEPS,
        ),
        (
            Quantity::Tolerance,
            say!(language, "setup-tolerance"),
            tolerance,
            &TOLERANCE_STEPS,
        ),
    ];
    for (quantity, caption, value, steps) in steppers {
        let place = rest.top(scale.u(STEPPER));
        rest.top(scale.u(6.0));
        let stepper = Stepper {
            caption: &caption,
            value: &value,
            steps,
        };
        if let Some(change) = stepper.show(ui, place) {
            intents.push(Intent::Adjust(quantity, change));
        }
    }
    intents
}

/// Which tin is taken from, and the food in a new one.
fn tin(ui: &Ui, rest: &mut Rest, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let setup = &state.setup;
    let language = words::of(ui);
    let interval = state.bench.mass.interval;
    let place = rest.top(scale.u(70.0));
    rest.top(scale.u(8.0));
    let open = setup.open_tin.map_or_else(
        || say!(language, "setup-tin-none-open"),
        |left| {
            let left = figures::grams(left, interval, language);
            say!(language, "setup-tin-open", left = left)
        },
    );
    let choices = [
        (
            TinChoice::NotEntered,
            say!(language, "setup-tin-none"),
            true,
        ),
        (TinChoice::Open, open, setup.open_tin.is_some()),
        (TinChoice::New, say!(language, "setup-tin-new"), true),
    ];
    let mut intents = Vec::new();
    for (place, (choice, words, enabled)) in layout::columns(place, 3, scale.u(12.0))
        .into_iter()
        .zip(choices)
    {
        let weight = if setup.tin == choice {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        if BigButton::new(&words)
            .weight(weight)
            .enabled(enabled)
            .show(ui, place)
        {
            intents.push(Intent::ChooseTin(choice));
        }
    }
    if setup.tin == TinChoice::New {
        let place = rest.top(scale.u(STEPPER));
        rest.top(scale.u(6.0));
        let value = figures::grams(setup.new_tin, Mass::from_grams(1), language);
        let stepper = Stepper {
            caption: &say!(language, "setup-tin-food"),
            value: &value,
            steps: &TIN_STEPS,
        };
        if let Some(change) = stepper.show(ui, place) {
            intents.push(Intent::Adjust(Quantity::NewTin, change));
        }
    }
    intents
}

/// What the goal comes to, or why it cannot be; and the two ways on.
fn foot(
    ui: &Ui,
    mut rest: Rest,
    state: &State,
    words: &str,
    go: Intent,
    back: Screen,
    allowed: bool,
) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let interval = state.bench.mass.interval;
    let goal = state.setup.goal();
    let buttons = rest.bottom(scale.u(72.0));
    rest.bottom(scale.u(4.0));
    let line = rest.bottom(scale.u(40.0));
    let said = match goal {
        Err(error) => say!(
            language,
            "setup-cannot-be",
            why = instrument::goal(language, error)
        ),
        Ok(goal) if allowed => say!(
            language,
            "setup-on-target",
            from = figures::grams(goal.lightest(), interval, language),
            to = figures::grams(goal.heaviest(), interval, language)
        ),
        Ok(_) => say!(language, "setup-waiting"),
    };
    text::label(
        ui,
        line,
        &said,
        &text::Style::new(scale.plain(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    let places = layout::columns(buttons, 3, scale.u(12.0));
    let [left, _, right] = places.as_slice() else {
        return Vec::new();
    };
    let mut intents = Vec::new();
    if BigButton::new(&say!(language, "back"))
        .key(Key::Escape)
        .show(ui, *left)
    {
        intents.push(Intent::Go(back));
    }
    if BigButton::new(words)
        .key(Key::Enter)
        .weight(Weight::Main)
        .enabled(allowed && goal.is_ok())
        .show(ui, *right)
    {
        intents.push(go);
    }
    intents
}
