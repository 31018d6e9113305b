//! Heat, prep and melt on the screens: over a store, by hand and by key, and as
//! pictures.

use crate::app_samples;
use eframe::egui::{Key, Theme, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use evenhand_app::Language;
use evenhand_app::heat_view::LimitTile;
use evenhand_app::intent::Intent;
use evenhand_app::kitchen::{KitchenIntent, KitchenWatch};
use evenhand_app::melt_view::{LossView, MeltView};
use evenhand_app::mixing::{BatchRow, Page, Wish};
use evenhand_app::picture::write_picture;
use evenhand_app::prep_view::{PrepRow, PrepView};
use evenhand_app::state::{Screen, State};
use evenhand_app::telling::{TellWish, Telling};
use evenhand_app::week_view::CellWeight;
use evenhand_app::{heat_view, prep_view, shell, theme, timeline_view, week_view};
use evenhand_kitchen::batch::BatchId;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::heat::{Aim, Band, HeatLog, LogName, LogPoint, Marker};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::prep::{HandName, Happened, StepState};
use evenhand_protocol::{Goal, Mass, Mode, Temperature, Tolerance};
use evenhand_store::{DataFolder, Store};
use evenhand_use_cases::heat::HeatNow;
use evenhand_use_cases::prep::{PrepNow, PrepQuestion, Timeline, Week, take_off};
use jiff::civil::date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use std::path::Path;
use std::time::{Duration, Instant};

pub(crate) const TRADE_MENU: &str = include_str!("../../tests/data/trade-menu.toml");

const NOW: &str = "2026-05-08T09:40:00Z";

fn store(folder: &Path) -> Store {
    Store::open(&DataFolder::choose(Some(folder)).unwrap()).unwrap()
}

fn now() -> Timestamp {
    NOW.parse().unwrap()
}

fn name(text: &str) -> LogName {
    LogName::new("name", text).unwrap()
}

/// A log by a law of cooling from `from` toward `toward` with a time constant in
/// minutes, a reading every two minutes for so many, the last at `now`.
fn cooling(
    store: &mut Store,
    of: &str,
    from: f64,
    toward: f64,
    constant: f64,
    minutes: i64,
    end: Timestamp,
) {
    let mut log = HeatLog::new(of);
    for minute in (0..=minutes).step_by(2) {
        if (20..30).contains(&minute) && of == "oven" {
            log.break_here();
            continue;
        }
        let celsius = toward + (from - toward) * (-(minute as f64) / constant).exp();
        log.push(LogPoint {
            at: end - SignedDuration::from_mins(minutes - minute),
            temperature: Temperature::from_celsius(celsius).unwrap(),
        })
        .unwrap();
    }
    let id = store
        .open_heat_log(&name(of), HeatLog::USUAL_STEP, end)
        .unwrap();
    store.import_heat(id, &log).unwrap();
}

/// The kitchen of a Friday at twenty to ten: an oven falling to its band, a pan
/// that cools too slowly.
pub(crate) fn friday(folder: &Path) -> Store {
    let mut store = store(folder);
    for days in [2, 1] {
        let end = now() - SignedDuration::from_hours(24 * days) + SignedDuration::from_hours(4);
        cooling(&mut store, "oven", 288.0, 25.0, 300.0, 300, end);
    }
    cooling(&mut store, "oven", 288.0, 25.0, 300.0, 60, now());
    cooling(&mut store, "pan of stock", 90.0, 3.0, 132.0, 114, now());
    let fahrenheit = |f| Temperature::from_fahrenheit(f).unwrap();
    let band = Band::new(fahrenheit(400.0), fahrenheit(420.0)).unwrap();
    store
        .aim_heat(&name("oven"), &Aim::band_of(band, None), now())
        .unwrap();
    let cold = Temperature::from_celsius(3.0);
    store
        .aim_heat(
            &name("pan of stock"),
            &Aim::limit_of("cooling".to_owned(), cold),
            now(),
        )
        .unwrap();
    for (minutes, text) in [(58, "fire out"), (14, "loaded")] {
        let marker = Marker {
            at: now() - SignedDuration::from_mins(minutes),
            text: text.to_owned(),
        };
        store.mark_heat(&name("oven"), &marker, now()).unwrap();
    }
    store.keep_menu(None, TRADE_MENU, now()).unwrap();
    for (day, step) in [
        (8, "necks: into the brine"),
        (8, "necks: brine"),
        (9, "necks: into the brine"),
        (8, "hogget neck: into the brine"),
        (8, "hogget neck: brine"),
        (9, "hogget neck: into the brine"),
        (9, "hogget neck: brine"),
        (10, "hogget neck: into the brine"),
        (10, "hogget neck: brine"),
    ] {
        store
            .tell_step(
                date(2026, 5, day),
                step,
                now() - SignedDuration::from_hours(if day == 9 { 20 } else { 2 }),
                Happened::Done,
                now(),
            )
            .unwrap();
    }
    store
}

/// Necks for three services, oatcakes for two, mussels for each that nobody knows how many.
pub(crate) const BATCH_MENU: &str = r#"
opens = "18:00"
closes = "22:00"
[[resource]]
name = "hands"
places = 2
who = [{ name = "Ana", skills = ["bread"] }, { name = "Bo" }]
[[preparation]]
name = "necks"
batch = { portions = 24, keeps = "4 days", source = "recipe", needs = 8 }
[[preparation.step]]
name = "roast"
takes = "3 h"
[[preparation]]
name = "oatcakes"
batch = { portions = 30, keeps = "20 h", source = "recipe", needs = 10 }
[[preparation.step]]
name = "bake"
takes = "25 min"
needs = "hands"
skill = "bread"
[[preparation]]
name = "mussels"
batch = { portions = 12, keeps = "1 day", source = "recipe", per_cover = 0.3 }
[[preparation.step]]
name = "wash"
takes = "1 h"
needs = "hands"
"#;

/// A Friday with what was made for Wednesday and Thursday and what Thursday left of it.
pub(crate) fn friday_with_batches(folder: &Path) -> Store {
    let mut store = Store::open(&DataFolder::choose(Some(folder)).unwrap()).unwrap();
    store.keep_menu(None, BATCH_MENU, now()).unwrap();
    let grams = |g| Mass::from_grams(g);
    let goal = Goal::new(grams(100), Tolerance::symmetric(grams(5))).unwrap();
    let (wednesday, thursday) = (date(2026, 5, 6), date(2026, 5, 7));
    for (day, step, at) in [
        (wednesday, "oatcakes: bake", "2026-05-07T10:00:00Z"),
        (thursday, "necks: roast", "2026-05-07T16:00:00Z"),
    ] {
        let at = at.parse().unwrap();
        store
            .tell_step(day, step, at, Happened::Done, now())
            .unwrap();
    }
    for (dish, left) in [("necks", 24), ("oatcakes", 20)] {
        let dish = DishName::new("dish", dish).unwrap();
        store
            .set_dish(&dish, goal, Mode::Adding, None, now())
            .unwrap();
        store.note_left_over(thursday, &dish, left, now()).unwrap();
    }
    store
}

/// Bream that comes by a delivery, with something to serve in its place.
pub(crate) const BREAM_MENU: &str = r#"
opens = "18:00"
closes = "22:00"
[[resource]]
name = "hands"
places = 2
[[preparation]]
name = "bream"
fallback = "potted shrimp"
[[preparation.step]]
name = "delivery"
takes = "10 min"
not_before = "14:30"
[[preparation.step]]
name = "fillet and cure"
takes = "150 min"
needs = "hands"
[[preparation]]
name = "oatcakes"
step = [{ name = "bake", takes = "25 min", needs = "hands" }]
"#;

/// A Friday after deliveries that were 10, 20, 30 and 70 minutes late.
pub(crate) fn friday_of_late_bream(folder: &Path) -> Store {
    let mut store = store(folder);
    store
        .keep_menu(None, BREAM_MENU, now() - SignedDuration::from_hours(400))
        .unwrap();
    for (day, done) in [(4, "14:50"), (5, "15:00"), (6, "15:10"), (7, "15:50")] {
        let at = format!("2026-05-0{day}T{done}:00Z").parse().unwrap();
        store
            .tell_step(
                date(2026, 5, day),
                "bream: delivery",
                at,
                Happened::Done,
                at,
            )
            .unwrap();
    }
    store
}

pub(crate) fn heat_state(store: &Store, of: &str, language: Language) -> State {
    let limits = Limits::food_code();
    let standing = HeatNow::of(store, &name(of), Some(&limits), now()).unwrap();
    let mut state = State {
        screen: Screen::Heat,
        clock: "09:40".to_owned(),
        ..app_samples::in_language(language, app_samples::idle)
    };
    let logs = store.heat_logs().unwrap();
    state.heat.logs = heat_view::tiles(&logs, Some(&name(of)), &TimeZone::UTC, language);
    state.heat.shown = Some(heat_view::shown(
        &name(of),
        &standing,
        true,
        None,
        now(),
        &TimeZone::UTC,
        language,
    ));
    state.heat.probe = true;
    state.heat.limits = heat_view::limit_tiles(&limits, language);
    state
}

pub(crate) fn prep_state(store: &Store, what_if: Option<&str>, language: Language) -> State {
    let what_ifs: Vec<String> = what_if.iter().map(|w| (*w).to_owned()).collect();
    let question = PrepQuestion {
        day: date(2026, 5, 8),
        menu: None,
        covers: None,
        days_ahead: 4,
        what_if: &what_ifs,
        now: now(),
        zone: &TimeZone::UTC,
        language,
        unwanted: None,
    };
    let limits = Limits::food_code();
    let prep = PrepNow::of(store, &question, &limits).unwrap();
    let timeline = Timeline::of(&prep, store, now()).unwrap();
    let week = PrepQuestion {
        days_ahead: 6,
        what_if: &[],
        ..question
    };
    let week = Week::of(store, &week, &limits).unwrap();
    let zone = &TimeZone::UTC;
    let timeline = timeline_view::view(&timeline, &prep, now(), zone, language);
    State {
        screen: Screen::Prep,
        clock: "09:40".to_owned(),
        prep: PrepView {
            timeline: Some(timeline),
            week: Some(week_view::view(&week, question.day, zone, language)),
            trying: prep_view::trying(
                &prep,
                None,
                &prep_view::to_try(&prep, now()),
                now(),
                zone,
                language,
            ),
            ..prep_view::view(&prep, what_if, None, now(), zone, language)
        },
        ..app_samples::in_language(language, app_samples::idle)
    }
}

/// The same, on another of its screens.
pub(crate) fn prep_screen(store: &Store, screen: Screen, language: Language) -> State {
    State {
        screen,
        ..prep_state(store, None, language)
    }
}

/// A step being told of that was done earlier.
pub(crate) fn told_in(store: &Store, language: Language) -> State {
    let state = prep_screen(store, Screen::Telling, language);
    let tile = state.prep.steps[0].clone();
    let step = (tile.day, tile.step);
    let telling = Telling::of(step, Some("Bo".to_owned()), now(), &TimeZone::UTC, language);
    State {
        telling: Some(telling.moved(-75, &TimeZone::UTC, language)),
        ..state
    }
}

fn told(store: &Store) -> State {
    told_in(store, Language::English)
}

fn melting(over: bool) -> State {
    State {
        melt: Some(MeltView {
            out: if over { "7 min" } else { "4 min" }.to_owned(),
            stands: if over { "over by 60 s" } else { "110 s left" }.to_owned(),
            over,
        }),
        ..app_samples::on()
    }
}

/// The screens in a state, and what they ask for.
fn shown(state: State) -> Harness<'static, (State, Vec<Intent>)> {
    Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_theme(Theme::Light)
        .with_context_setup(theme::install)
        .build_ui_state(
            |ui, (state, asked): &mut (State, Vec<Intent>)| {
                asked.extend(shell::show(ui, state));
            },
            (state, Vec::new()),
        )
}

/// What a pass of the screen asked for, after a key.
fn asked(state: State, key: Option<Key>) -> (Vec<Intent>, Vec<String>) {
    let mut harness = shown(state);
    if let Some(key) = key {
        harness.key_press(key);
        harness.run();
    }
    let words = harness
        .query_all_by(|_| true)
        .filter_map(|node| {
            let node = node.accesskit_node();
            node.label().or_else(|| node.value())
        })
        .collect();
    (harness.state().1.clone(), words)
}

#[test]
fn the_heat_screen_says_where_it_is_going_and_takes_a_key_for_each_thing_that_happens() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday(folder.path());
    let oven = heat_state(&store, "oven", Language::English);
    let (_, words) = asked(oven.clone(), None);
    let all = words.join("\n");
    assert!(
        all.contains("Too hot until 10:1") || all.contains("Too hot until 10:2"),
        "{all}"
    );
    assert!(all.contains("2 earlier mornings were looked at") || all.contains("Enters between"));
    assert!(
        all.contains("Curve of oven") && all.contains("1 gap, fire out, loaded"),
        "{all}"
    );
    let kitchen = |intents: &[Intent]| match intents {
        [Intent::Kitchen(one)] => one.clone(),
        other => panic!("{other:?}"),
    };
    let (intents, _) = asked(oven.clone(), Some(Key::Num1));
    assert_eq!(
        kitchen(&intents),
        KitchenIntent::Mark("fire out".to_owned())
    );
    let (intents, _) = asked(oven.clone(), Some(Key::R));
    assert_eq!(kitchen(&intents), KitchenIntent::Record(true));
    let (intents, _) = asked(oven.clone(), Some(Key::ArrowLeft));
    assert_eq!(
        kitchen(&intents),
        KitchenIntent::ChooseLog(name("pan of stock"))
    );
    let pan = heat_state(&store, "pan of stock", Language::English);
    let (_, words) = asked(pan.clone(), None);
    let all = words.join("\n");
    assert!(
        all.contains("late") && all.contains("split the pan, ice it"),
        "{all}"
    );
    assert!(all.contains("3-501.14(A)"), "{all}");
    assert!(!all.to_lowercase().contains("safe"));
    let aim = State {
        screen: Screen::HeatAim,
        ..pan
    };
    let (_, words) = asked(aim, None);
    assert!(
        words.iter().any(|w| w == "time only, cold, 3-501.19(C)"),
        "{words:?}"
    );
    // Hours after the probe was last heard it says that it does not know.
    let later = now() + SignedDuration::from_hours(3);
    let standing = HeatNow::of(&store, &name("oven"), Some(&Limits::food_code()), later).unwrap();
    let shown = heat_view::shown(
        &name("oven"),
        &standing,
        false,
        None,
        later,
        &TimeZone::UTC,
        Language::English,
    );
    assert_eq!(shown.figure, None);
    assert!(shown.says[0].1.contains("not known"), "{:?}", shown.says);
    assert!(shown.arrivals.is_empty());
}

#[test]
fn the_prep_screen_says_what_is_next_and_is_ticked_by_a_key() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday(folder.path());
    let state = prep_state(&store, None, Language::English);
    let rows = &state.prep.rows;
    assert!(rows.is_sorted_by_key(|row| row.standing), "{rows:?}");
    let oatcakes = rows
        .iter()
        .find(|row| row.name == "oatcakes: bake")
        .unwrap();
    assert!(
        oatcakes.note.contains("in its band likely at 10:"),
        "{oatcakes:?}"
    );
    // The necks in the brine are under way: a hand says that they are done.
    let (intents, _) = asked(state.clone(), Some(Key::Num1));
    assert!(matches!(
        intents.as_slice(),
        [Intent::Kitchen(KitchenIntent::Tick(.., Happened::Done))]
    ));
    let (intents, words) = asked(state.clone(), Some(Key::Num2));
    assert!(
        words.iter().any(|w| w.contains("Decides the day: mussels")),
        "{words:?}"
    );
    match intents.as_slice() {
        [Intent::Kitchen(KitchenIntent::Tick(day, step, Happened::Begun))] => {
            assert_eq!((*day, step.as_str()), (rows[1].day, rows[1].step.as_str()));
        }
        other => panic!("{other:?}"),
    }
    let (intents, _) = asked(state, Some(Key::L));
    assert_eq!(
        intents,
        [Intent::Kitchen(KitchenIntent::WhatIf(Some(
            "mussels +1h".to_owned()
        )))]
    );
    let late = prep_state(&store, Some("mussels +3h"), Language::English);
    assert!(late.prep.late.is_some());
    assert_eq!(late.prep.rows[0].standing, StepState::Late);
}

/// As `prep list` says it: the figures are those of its test, by Student's t with three degrees of
/// freedom.
#[test]
fn a_delivery_that_may_be_too_late_is_to_be_decided_on_and_its_swap_is_tried_by_touch() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = friday_of_late_bream(folder.path());
    let state = prep_state(&store, None, Language::English);
    let [risk] = state.prep.risks.as_slice() else {
        panic!("{:#?}", state.prep.risks);
    };
    let says = "DECIDE by 15:20: bream: delivery may come as late as 15:50, 30 min too late";
    assert!(risk.words.starts_with(says), "{}", risk.words);
    let instead = "serve potted shrimp in place of bream";
    assert!(risk.words.contains(instead), "{}", risk.words);
    // It is touched, and the swap is what is tried.
    let mut harness = shown(state.clone());
    harness.get_by_label(&risk.words).click();
    harness.run();
    let swap = KitchenIntent::TryMend(risk.instead.clone());
    assert_eq!(harness.state().1, [Intent::Kitchen(swap.clone())]);
    // The same is on the screen of what can be tried.
    let (_, words) = asked(
        State {
            screen: Screen::WhatIf,
            ..state.clone()
        },
        None,
    );
    assert!(words.iter().any(|it| it == instead), "{words:?}");
    let question = PrepQuestion {
        day: date(2026, 5, 8),
        menu: None,
        covers: None,
        days_ahead: 4,
        what_if: &[],
        now: now(),
        zone: &TimeZone::UTC,
        language: Language::English,
        unwanted: None,
    };
    let limits = Limits::food_code();
    let mut prep = PrepNow::of(&store, &question, &limits).unwrap();
    prep.suppose(&risk.instead, now(), None);
    let view = prep_view::view(&prep, None, None, now(), &TimeZone::UTC, Language::English);
    assert!(view.risks.is_empty(), "{:#?}", view.risks);
    assert!(view.rows.iter().all(|row| !row.step.starts_with("bream")));
    assert!(view.rows.iter().any(|row| row.step == "oatcakes: bake"));
    // Kept, it is off that day's menu and on the next one's.
    let friday = date(2026, 5, 8);
    take_off(&mut store, friday, "bream", now(), &TimeZone::UTC).unwrap();
    let menu = |day| store.menu(day).unwrap().unwrap();
    assert!(!menu(friday).contains("bream"), "{}", menu(friday));
    assert_eq!(menu(date(2026, 5, 9)), BREAM_MENU);
}

#[test]
fn each_pair_of_hands_can_see_its_own_steps() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday_with_batches(folder.path());
    let state = prep_state(&store, None, Language::English);
    assert_eq!(state.prep.hands, ["Ana", "Bo"]);
    let (_, words) = asked(state.clone(), None);
    let says = |words: &[String], of: &str| words.iter().any(|it| it.starts_with(of));
    assert!(
        says(&words, "oatcakes: bake") && says(&words, "mussels: wash"),
        "{words:?}"
    );
    let anas = State {
        hand: Some("Ana".to_owned()),
        ..state.clone()
    };
    let (_, words) = asked(anas, None);
    assert!(
        says(&words, "oatcakes: bake") && !says(&words, "mussels: wash"),
        "{words:?}"
    );
    // A hand on the name asks for it.
    let mut harness = Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_theme(Theme::Light)
        .with_context_setup(theme::install)
        .build_ui_state(
            |ui, (state, intents): &mut (State, Vec<Intent>)| {
                intents.extend(shell::show(ui, state));
            },
            (state, Vec::new()),
        );
    harness.run();
    harness.get_by_label("Bo").click();
    harness.run();
    assert_eq!(harness.state().1, [Intent::ShowHand(Some("Bo".to_owned()))]);
}

#[test]
fn the_melt_clock_is_on_the_bench_and_a_key_puts_the_scoops_back() {
    let (intents, words) = asked(melting(true), Some(Key::K));
    assert_eq!(intents, [Intent::Kitchen(KitchenIntent::BackInCold)]);
    assert!(
        words.iter().any(|w| w.contains("Out of the cold 7 min")),
        "{words:?}"
    );
}

#[test]
fn what_lies_on_the_pan_says_what_it_loses() {
    let loss = LossView {
        rate: "0.80 ± 0.12 g/min".to_owned(),
        told: "On the pan: 2.40 g lost so far, 0.80 g ± 0.12 g a minute.".to_owned(),
    };
    let idle = State {
        loss: Some(loss.clone()),
        ..app_samples::idle()
    };
    let (_, words) = asked(idle, None);
    assert!(words.contains(&loss.told), "{words:?}");
}

fn wait_until(watch: &KitchenWatch, what: impl Fn(&evenhand_app::kitchen::KitchenSeen) -> bool) {
    let patience = Instant::now();
    while !what(&watch.seen()) {
        assert!(
            patience.elapsed() < Duration::from_secs(60),
            "{:?}",
            watch.seen()
        );
        std::thread::sleep(Duration::from_millis(20));
    }
}

#[test]
fn what_is_asked_on_the_screens_is_on_record() {
    let folder = tempfile::tempdir().unwrap();
    let mut before = store(folder.path());
    before
        .keep_menu(
            None,
            &TRADE_MENU.replace("days = [\"fri\", \"sat\", \"sun\"]\n", ""),
            Timestamp::now(),
        )
        .unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    let watch = KitchenWatch::start(data, store(folder.path()), TimeZone::UTC, || ()).unwrap();
    wait_until(&watch, |seen| !seen.prep.rows.is_empty());
    let row = watch.seen().prep.rows[0].clone();
    watch.ask(KitchenIntent::Tick(
        row.day,
        row.step.clone(),
        Happened::Done,
    ));
    wait_until(&watch, |seen| {
        seen.prep.last_tick.as_ref() == Some(&row.step)
    });
    assert_eq!(before.told_steps(row.day).unwrap().len(), 1);
    watch.ask(KitchenIntent::UndoTick);
    wait_until(&watch, |seen| seen.prep.last_tick.is_none());
    assert_eq!(
        before.told_steps(row.day).unwrap()[1].what,
        Happened::Undone
    );
    watch.ask(KitchenIntent::ChooseLog(name("oven")));
    watch.ask(KitchenIntent::Mark("fire out".to_owned()));
    watch.ask(KitchenIntent::AimLimit("hot-holding".to_owned()));
    wait_until(&watch, |seen| {
        seen.heat
            .shown
            .as_ref()
            .is_some_and(|shown| shown.limit.as_deref() == Some("hot-holding"))
    });
    let log = before
        .heat_log(&name("oven"), Timestamp::MIN, Timestamp::MAX)
        .unwrap();
    assert_eq!(log.recorded.markers[0].text, "fire out");
    let what_if = watch.seen().prep.what_ifs[0].text.clone();
    watch.ask(KitchenIntent::WhatIf(Some(what_if)));
    wait_until(&watch, |seen| seen.prep.what_ifs.iter().any(|w| w.on));
    watch.ask(KitchenIntent::KeepWhatIf);
    wait_until(&watch, |seen| seen.prep.what_ifs.iter().all(|w| !w.on));
    let told = before.told_steps(row.day).unwrap();
    assert!(matches!(told[2].what, Happened::Delayed { .. }), "{told:?}");
    // Late by another length than an hour, by touch.
    let what = watch.seen().prep.what_ifs[0].what.clone();
    let late = |by: &str| KitchenIntent::WhatIf(Some(format!("{what} +{by}")));
    watch.ask(late("1h"));
    wait_until(&watch, |seen| seen.prep.what_ifs.iter().any(|w| w.on));
    let offered: Vec<(String, Intent)> = watch.seen().prep.trying.foot[1..4]
        .iter()
        .map(|foot| (foot.words.clone(), foot.wish.clone()))
        .collect();
    let kitchen = |by: &str| Intent::Kitchen(late(by));
    assert_eq!(
        offered,
        [
            ("\u{2212}5 min".to_owned(), kitchen("55min")),
            ("+5 min".to_owned(), kitchen("65min")),
            ("+30 min".to_owned(), kitchen("90min")),
        ]
    );
    watch.ask(late("90min"));
    wait_until(&watch, |seen| {
        let supposed = seen.prep.supposed.as_deref();
        supposed.is_some_and(|words| words.contains("1 h 30 late?"))
    });
    watch.ask(KitchenIntent::WhatIf(None));
    // Done an hour and a half ago, and told of only now.
    let step = (row.day, row.step.clone());
    let telling = Telling::of(
        step,
        Some("Ana".to_owned()),
        Timestamp::now(),
        &TimeZone::UTC,
        Language::English,
    );
    let telling = telling.moved(-90, &TimeZone::UTC, Language::English);
    watch.ask(KitchenIntent::TellAt(telling.clone()));
    wait_until(&watch, |seen| {
        seen.prep.last_tick.as_ref() == Some(&row.step)
    });
    let told = before.told_steps(row.day).unwrap();
    let told = told.last().unwrap();
    assert_eq!(told.what, Happened::Done);
    assert_eq!(told.at.as_second(), telling.at().as_second());
    assert_eq!(told.who.as_ref().map(HandName::as_str), Some("Ana"));
    // The day's lists, to print.
    watch.ask(KitchenIntent::PrintLists);
    wait_until(&watch, |seen| seen.prep.printed.is_some());
    let pdf = std::fs::read_dir(folder.path()).unwrap().find_map(|file| {
        let path = file.unwrap().path();
        (path.extension()? == "pdf").then_some(path)
    });
    assert!(std::fs::read(pdf.unwrap()).unwrap().starts_with(b"%PDF"));
    watch.ask(KitchenIntent::BackInCold);
    wait_until(&watch, |seen| seen.complaint.is_some());
}

/// What was done earlier is told in three touches: the step, how long ago, put down.
#[test]
fn a_step_is_ticked_at_another_time_by_touch() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday_with_batches(folder.path());
    let mut state = prep_screen(&store, Screen::Telling, Language::English);
    let tile = state.prep.steps[0].clone();
    let row = format!("{}: {}", tile.step, tile.about);
    let mut harness = shown(state.clone());
    harness.get_by_label(&row).click();
    harness.run();
    let choose = TellWish::Choose(tile.day, tile.step.clone());
    assert_eq!(harness.state().1, [Intent::Tell(choose)]);
    let step = (tile.day, tile.step);
    let telling = Telling::of(step, None, now(), &TimeZone::UTC, Language::English);
    // Never later than it is told of.
    assert_eq!(
        telling.clone().moved(30, &TimeZone::UTC, Language::English),
        telling
    );
    let earlier = telling.moved(-75, &TimeZone::UTC, Language::English);
    assert_eq!(now().duration_since(earlier.at()).as_mins(), 75);
    state.telling = Some(earlier);
    let mut harness = shown(state);
    harness.get_by_label_contains("08:25, 1 h 15 ago");
    for (label, wish) in [
        ("Begun", TellWish::What(Happened::Begun)),
        ("\u{2212}15 min", TellWish::Move(-15)),
        ("Bo", TellWish::By(Some("Bo".to_owned()))),
        ("Put it down", TellWish::PutDown),
    ] {
        harness.state_mut().1.clear();
        harness.get_by_label(label).click();
        harness.run();
        assert_eq!(harness.state().1, [Intent::Tell(wish)]);
    }
}

/// A day with more steps than fit says how many there are, and goes on to them by a touch.
#[test]
fn steps_out_of_sight_are_counted_and_gone_on_to() {
    let folder = tempfile::tempdir().unwrap();
    let mut state = prep_state(&friday(folder.path()), None, Language::English);
    let row = state.prep.rows[1].clone();
    state.prep.rows = (1..=20)
        .map(|nth| PrepRow {
            name: format!("step {nth}"),
            ..row.clone()
        })
        .collect();
    let seen = |harness: &Harness<'static, (State, Vec<Intent>)>, nth: u32| {
        let label = format!("step {nth} done");
        harness.query_by_label(&label).is_some()
    };
    let mut harness = shown(state);
    harness.run();
    assert!(seen(&harness, 1) && !seen(&harness, 20));
    harness.get_by_label("/ 20");
    for _ in 0..20 {
        harness.key_press(Key::PageDown);
        harness.run();
    }
    assert!(!seen(&harness, 1) && seen(&harness, 20));
}

/// What is due and does not fit is counted, and a touch leads to it.
#[test]
fn what_is_due_and_not_in_sight_is_counted() {
    let mut state = app_samples::idle();
    state.screen = Screen::Mix;
    state.mix.due = (1..=30)
        .map(|nth| BatchRow {
            id: BatchId(nth),
            title: format!("brine {nth}"),
            about: String::new(),
            due: "turn".to_owned(),
            overdue: false,
        })
        .collect();
    let (_, words) = asked(state.clone(), None);
    let seen = words.iter().filter(|it| it.starts_with("brine ")).count();
    assert!((1..30).contains(&seen), "{words:?}");
    let more = format!("{} more are due: all batches", 30 - seen);
    let mut harness = shown(state);
    harness.get_by_label(&more).click();
    harness.run();
    assert_eq!(harness.state().1, [Intent::Mix(Wish::Show(Page::Batches))]);
}

/// Every open step stands in the timeline once for each that it holds, or is
/// counted as lying after it; nobody has two at a time.
#[test]
fn the_timeline_leaves_no_step_out_and_gives_nobody_two_at_a_time() {
    let folder = tempfile::tempdir().unwrap();
    let other = tempfile::tempdir().unwrap();
    for (store, expected) in [
        (
            friday(folder.path()),
            &["mussels: wash and beard", "oatcakes: bake", "necks: roast"][..],
        ),
        (friday_with_batches(other.path()), &["oatcakes: bake"]),
    ] {
        let state = prep_screen(&store, Screen::Timeline, Language::English);
        let timeline = state.prep.timeline.clone().unwrap();
        for lane in &timeline.lanes {
            let alone = ["Ana", "Bo"].contains(&lane.name.as_str());
            for two in lane.bars.windows(2).filter(|_| alone) {
                assert!(two[0].until <= two[1].from, "{two:?}");
            }
        }
        if timeline.lanes.iter().any(|lane| lane.name == "Ana") {
            let names: Vec<_> = timeline.lanes.iter().map(|lane| &*lane.name).collect();
            assert_eq!(
                names,
                ["Ana", "Bo"],
                "the menu has two pairs of hands and no more"
            );
        }
        let (_, words) = asked(state.clone(), None);
        for name in expected {
            let seen = words.iter().any(|said| said.starts_with(name));
            assert!(seen, "{name}: {words:?}");
        }
        // Of the day's own rows each one is there, or lies after what is shown.
        let shown = timeline.lanes.iter().flat_map(|lane| &lane.bars);
        let names: std::collections::HashSet<_> = shown.map(|bar| &bar.name).collect();
        let missing: Vec<_> = state
            .prep
            .rows
            .iter()
            .filter(|row| !names.contains(&row.name))
            .collect();
        let later = timeline
            .notes
            .iter()
            .any(|note| note.contains("after this time"));
        assert!(missing.is_empty() || later, "{missing:?}");
        let (asked, _) = self::asked(state, Some(Key::Escape));
        assert!(asked.contains(&Intent::Go(Screen::Prep)));
    }
}

/// By hand: 24 necks are in stock, of which each service needs 8; the 20
/// oatcakes were baked on Thursday at 10:00 and keep for 20 hours.
#[test]
fn the_week_shows_what_is_made_and_what_is_there() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday_with_batches(folder.path());
    let state = prep_screen(&store, Screen::Week, Language::English);
    let week = state.prep.week.clone().unwrap();
    assert_eq!(week.days.len(), 7);
    let row = |name: &str| &week.rows.iter().find(|(row, _)| row == name).unwrap().1;
    assert_eq!(row("necks")[0].weight, CellWeight::There, "{week:?}");
    assert_eq!(row("oatcakes")[0].weight, CellWeight::Make, "{week:?}");
    let (_, words) = asked(state, None);
    for said in ["necks", "oatcakes", "Fri 8"] {
        assert!(words.iter().any(|word| word == said), "{words:?}");
    }
    let sent_away = words.iter().any(|word| word.contains("evenhand "));
    assert!(!sent_away, "{words:?}");
}

/// Two touches in a row are two more, however long a plan takes.
#[test]
fn guests_put_down_on_the_screen_are_on_record() {
    let folder = tempfile::tempdir().unwrap();
    let mut before = store(folder.path());
    let every_day = BATCH_MENU.replace("days = [\"fri\", \"sat\", \"sun\"]\n", "");
    before
        .keep_menu(None, &every_day, Timestamp::now())
        .unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    let watch = KitchenWatch::start(data, store(folder.path()), TimeZone::UTC, || ()).unwrap();
    watch.ask(KitchenIntent::LookAtWeek);
    wait_until(&watch, |seen| seen.prep.week.is_some());
    let (day, covers) = watch.seen().prep.week.clone().unwrap().covers[1];
    assert_eq!(covers, None);
    for more in [5, 5, -1] {
        watch.ask(KitchenIntent::MoreCovers(day, more));
    }
    wait_until(&watch, |seen| {
        let week = seen.prep.week.as_ref().unwrap();
        week.covers[1] == (day, Some(9))
    });
    assert_eq!(before.covers(day).unwrap(), Some(9));
}

/// The kitchen's own file can have more limits than fit on the screen.
#[test]
fn every_limit_can_be_reached_however_many_there_are() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday(folder.path());
    let mut aim = State {
        screen: Screen::HeatAim,
        ..heat_state(&store, "oven", Language::English)
    };
    for number in 1..=40 {
        aim.heat.limits.push(LimitTile {
            name: format!("own-{number}"),
            words: format!("own limit {number}"),
            section: "the kitchen's own".to_owned(),
        });
    }
    let mut harness = shown(aim);
    let label = "own limit 40, the kitchen's own";
    let below = |harness: &Harness<'_, (State, Vec<Intent>)>| {
        harness.get_by_label(label).rect().bottom() > 800.0
    };
    assert!(below(&harness), "all of them fit: nothing is asked here");
    harness.get_by_label(label).scroll_to_me();
    harness.run();
    assert!(!below(&harness));
    harness.get_by_label(label).click();
    harness.run();
    let chosen = Intent::Kitchen(KitchenIntent::AimLimit("own-40".to_owned()));
    assert!(harness.state().1.contains(&chosen));
}

#[test]
fn every_screen_of_it_is_drawn() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday(folder.path());
    let other = tempfile::tempdir().unwrap();
    let batches = friday_with_batches(other.path());
    let aim = State {
        screen: Screen::HeatAim,
        ..heat_state(&store, "oven", Language::English)
    };
    let out = std::env::var_os("EVENHAND_PICTURES").map(std::path::PathBuf::from);
    let out = out.as_deref().unwrap_or(folder.path());
    for (name, state) in [
        ("heat-oven", heat_state(&store, "oven", Language::English)),
        (
            "heat-pan",
            heat_state(&store, "pan of stock", Language::English),
        ),
        ("heat-aim", aim),
        ("prep", prep_state(&store, None, Language::English)),
        (
            "prep-late",
            prep_state(&store, Some("mussels +3h"), Language::English),
        ),
        (
            "timeline",
            prep_screen(&store, Screen::Timeline, Language::English),
        ),
        (
            "timeline-hands",
            prep_screen(&batches, Screen::Timeline, Language::English),
        ),
        ("told", told(&batches)),
        (
            "what-if",
            prep_screen(&store, Screen::WhatIf, Language::English),
        ),
        (
            "week",
            prep_screen(&batches, Screen::Week, Language::English),
        ),
        ("melt", melting(false)),
        ("melt-over", melting(true)),
        (
            "melt-losing",
            State {
                loss: Some(LossView {
                    rate: "0.80 ± 0.12 g/min".to_owned(),
                    told: String::new(),
                }),
                ..melting(false)
            },
        ),
    ] {
        let both = ["heat-oven", "prep"].contains(&name) || out != folder.path();
        let sizes = [[1280, 800], [1920, 1080]];
        for [width, height] in sizes.into_iter().take(if both { 2 } else { 1 }) {
            let path = out.join(format!("{name}-{width}.png"));
            write_picture(&path, [width, height], &state).unwrap();
            let picture = image::open(&path).unwrap().into_rgba8();
            assert_eq!(picture.dimensions(), (width, height));
            // Something is drawn: more than a handful of colours.
            let colours: std::collections::HashSet<_> = picture.pixels().map(|p| p.0).collect();
            assert!(colours.len() > 20, "{name}: {}", colours.len());
        }
    }
}
