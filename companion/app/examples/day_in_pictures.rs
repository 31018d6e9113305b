//! The pictures of the README: a day at Saltmarsh, drawn without a window.
//!
//! `cargo run -p evenhand-app --example day_in_pictures -- FOLDER`

#[allow(
    clippy::unwrap_used,
    reason = "made for the tests, of values that are sound"
)]
#[path = "../tests/app_samples/mod.rs"]
mod app_samples;

use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::kitchen::KitchenIntent;
use evenhand_app::picture::write_picture;
use evenhand_app::service::ServiceWish;
use evenhand_app::state::{Screen, State};
use evenhand_kitchen::heat::LogName;
use evenhand_store::{DataFolder, Store};
use evenhand_use_cases::demo;
use jiff::Timestamp;
use jiff::civil::time;
use jiff::tz::{Offset, TimeZone};
use std::error::Error;
use std::path::Path;
use std::time::{Duration, Instant};

const SIZE: [u32; 2] = [1280, 800];

/// How long a screen is waited for.
const PATIENCE: Duration = Duration::from_secs(120);

fn shown(
    controller: &mut Controller,
    ready: impl Fn(&State) -> bool,
) -> Result<State, Box<dyn Error>> {
    let asked = Instant::now();
    while asked.elapsed() < PATIENCE {
        controller.take_in();
        if ready(controller.state()) {
            return Ok(controller.state().clone());
        }
        std::thread::yield_now();
    }
    Err("the screen never had what it should show".into())
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args()
        .nth(1)
        .ok_or("write the folder to draw into")?;
    let folder = Path::new(&folder);
    // Beside a scale that is linked, whatever the screen is about.
    let bench = app_samples::on().bench;
    let draw = |name: &str, state: State| {
        let state = State {
            bench: bench.clone(),
            ..state
        };
        write_picture(&folder.join(name), SIZE, &state)
    };

    let data = tempfile::tempdir()?;
    let data = DataFolder::choose(Some(data.path()))?;
    // Where it is twenty past two now: something is under way, and the smokehouse is hot.
    let now = Timestamp::now();
    let utc = now.to_zoned_datetime(TimeZone::UTC).time();
    let ahead = time(14, 20, 0, 0).duration_since(utc).as_secs();
    let zone = TimeZone::fixed(Offset::from_seconds(i32::try_from(ahead)?)?);
    demo::make(&mut Store::open(&data)?, 7, &zone, now)?;
    let mut controller = Controller::open(data, zone, Vec::new(), || ())?;

    draw("day-1-plan.png", {
        controller.carry_out(Intent::Go(Screen::Prep));
        shown(&mut controller, |state| !state.prep.rows.is_empty())?
    })?;
    draw("day-2-cold-store.png", {
        let name = LogName::new("log", "cold store")?;
        controller.carry_out(Intent::Go(Screen::Heat));
        controller.carry_out(Intent::Kitchen(KitchenIntent::ChooseLog(name.clone())));
        shown(&mut controller, |state| {
            state
                .heat
                .shown
                .as_ref()
                .is_some_and(|log| log.name == name)
        })?
    })?;
    draw("day-3-mix.png", {
        controller.carry_out(Intent::Go(Screen::Mix));
        shown(&mut controller, |state| !state.mix.due.is_empty())?
    })?;
    draw(
        "day-4-portion.png",
        State {
            clock: "19:42".to_owned(),
            ..app_samples::on()
        },
    )?;
    draw("day-5-review.png", {
        controller.carry_out(Intent::Go(Screen::Service));
        controller.carry_out(Intent::Service(ServiceWish::Dish(1)));
        shown(&mut controller, |state| state.service.dishes.len() > 1)?
    })?;
    Ok(())
}
