//! No word is left in English on a screen that speaks other languages, and no
//! caution or limit is shortened in any of them.
//!
//! In the stretched language every vowel of what the files of words say is
//! doubled and marked. A word with a plain vowel did not come out of them: it
//! is data, such as a dish's name, or it was left in the code.

use crate::app_kitchen::{
    BATCH_MENU, BREAM_MENU, TRADE_MENU, friday, friday_of_late_bream, friday_with_batches,
    heat_state, prep_screen, prep_state, told_in,
};
use crate::app_menus;
use crate::app_mixing::looks;
use crate::app_order;
use crate::app_samples::{self, PORT};
use crate::app_screens::{
    SIZES, all_words, harness, is_large_enough_to_touch, is_whole, stands_clear,
};
use eframe::egui::Vec2;
use eframe::egui::epaint::Shape;
use egui_kittest::Harness;
use evenhand_app::Language;
use evenhand_app::bench_view::Tone;
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::mixing::{Field, NoLimits, Obstacle, Refusal, Said};
use evenhand_app::picture::write_picture;
use evenhand_app::service::{Look, ServiceWish};
use evenhand_app::state::{Screen, State};
use evenhand_kitchen::batch::{BatchError, Hindrance};
use evenhand_kitchen::brine::{CONCENTRATIVE, SALOMETER, VOLUMETRIC};
use evenhand_kitchen::cure::{
    AgentRefusal, Contents, CuringAgent, DoseRefusal, Method, NameRefusal, NitriteFraction, Ppm,
    weighable,
};
use evenhand_kitchen::heat::{Alarm, Going, HoldStage, HoldingNext, Outlook, Pace, Remedy, Why};
use evenhand_kitchen::limits::{Limits, Side};
use evenhand_kitchen::ratio::{MixError, PouringError, RatioError};
use evenhand_protocol::{Mass, Temperature};
use evenhand_store::{DataFolder, Store};
use evenhand_use_cases::demo;
use evenhand_use_cases::heat::outlook_words;
use jiff::SignedDuration;
use jiff::tz::TimeZone;
use std::path::Path;
use std::time::{Duration, Instant};

/// Every language, and one longer than any.
pub const LANGUAGES: [Language; 4] = [
    Language::English,
    Language::Spanish,
    Language::French,
    Language::Stretched,
];

/// What is no word of a language: symbols of units, and what stands on keys.
const SYMBOLS: [&str; 6] = ["min", "Esc", "Enter", "Delete", "PageUp", "PageDown"];
/// What every screen holds besides: the port of the samples.
const DATA: &str = PORT;

fn words_in(text: &str) -> impl Iterator<Item = &str> {
    text.split(|letter: char| !letter.is_alphabetic())
        .filter(|word| word.chars().count() > 1)
}

/// The texts that hold a word which no file of words says and which is not in
/// the data.
pub fn left_in_english(harness: &Harness<'_, State>, data: &[String]) -> Vec<String> {
    let known: Vec<&str> = data
        .iter()
        .flat_map(|text| words_in(text))
        .chain(SYMBOLS)
        .chain(words_in(DATA))
        .collect();
    let painted = harness.output().shapes.iter().filter_map(|clipped| {
        let Shape::Text(text) = &clipped.shape else {
            return None;
        };
        Some(text.galley.text().to_owned())
    });
    let mut texts: Vec<String> = painted.chain(all_words(harness)).collect();
    texts.sort();
    texts.dedup();
    texts.retain(|text| {
        words_in(text).any(|word| {
            word.contains(['a', 'e', 'i', 'o', 'u', 'A', 'E', 'I', 'O', 'U'])
                && !known.contains(&word)
        })
    });
    texts
}

/// Draws a screen to be looked at, where somebody wants to.
fn picture(name: &str, state: &State, size: Vec2) {
    if let Some(folder) = std::env::var_os("EVENHAND_PICTURES") {
        let name = name.replace([' ', ','], "-");
        let name = format!("{name}-{}-{}.png", state.language.code(), size.x);
        let path = Path::new(&folder).join(name);
        write_picture(&path, [size.x as u32, size.y as u32], state).unwrap();
    }
}

/// A screen in every language at every size: whole, clear and large enough;
/// and in the stretched one nothing of it is left in English.
#[track_caller]
fn speaks_every_language(name: &str, data: &[String], state: impl Fn(Language) -> State) {
    for language in LANGUAGES {
        let state = state(language);
        for size in [SIZES[0], SIZES[1]] {
            picture(name, &state, size);
            let harness = harness(state.clone(), size);
            let at = format!("{name} in {language:?} at {size}");
            stands_clear(&harness, size, &at);
            is_whole(&harness, &at);
            is_large_enough_to_touch(&harness, &at);
            if language == Language::Stretched {
                let left = left_in_english(&harness, data);
                assert!(left.is_empty(), "{at}: {left:#?}");
            }
        }
    }
}

/// The test above can fail: a line of English is found.
#[test]
fn a_line_left_in_english_is_found() {
    let mut state = app_samples::in_language(Language::Stretched, app_samples::idle);
    state.complaint = Some("Put an empty dish on.".to_owned());
    let data = ["Brown shrimp".to_owned()];
    let harness = harness(state, SIZES[0]);
    let left = left_in_english(&harness, &data);
    assert!(
        left.contains(&"Put an empty dish on.".to_owned()),
        "{left:#?}"
    );
}

/// Nobody at a screen has a command line: what a screen says is done by touch, or it is phrased
/// otherwise. A word or two after the program's name, or a word in backquotes, is a command.
#[test]
fn no_screen_sends_a_cook_to_a_command() {
    let words = Path::new(env!("CARGO_MANIFEST_DIR")).join("words");
    let mut lines = 0;
    for feature in std::fs::read_dir(words).unwrap() {
        for file in std::fs::read_dir(feature.unwrap().path()).unwrap() {
            let path = file.unwrap().path();
            let text = std::fs::read_to_string(&path).unwrap();
            for line in text.lines().filter(|line| !line.starts_with('#')) {
                lines += 1;
                let command = line.contains("evenhand ") || line.contains('`');
                assert!(!command, "{}: {line}", path.display());
            }
        }
    }
    assert!(lines > 1_000, "{lines}");
}

/// What a source is called, and the scale's dishes.
pub fn sources() -> Vec<String> {
    Limits::food_code()
        .iter()
        .flat_map(|limit| [limit.source.document.clone(), limit.source.section.clone()])
        .collect()
}

#[test]
fn heat_is_told_in_every_language() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday(folder.path());
    for log in ["oven", "pan of stock"] {
        speaks_every_language(log, &sources(), |language| {
            heat_state(&store, log, language)
        });
        speaks_every_language("what it is watched for", &sources(), |language| State {
            screen: Screen::HeatAim,
            ..heat_state(&store, log, language)
        });
    }
    speaks_every_language("no log chosen", &sources(), |language| {
        let mut state = heat_state(&store, "oven", language);
        state.heat.shown = None;
        state
    });
}

/// A day that goes, one that cannot be made and what would mend it, and one
/// with nothing left to do.
#[test]
fn the_prep_is_told_in_every_language() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday(folder.path());
    // Names stand in quotes.
    let menu: Vec<String> = TRADE_MENU
        .split('"')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect();
    for what_if in [None, Some("mussels +3h")] {
        speaks_every_language("prep", &menu, |language| {
            prep_state(&store, what_if, language)
        });
    }
    for screen in [
        Screen::Timeline,
        Screen::Week,
        Screen::WhatIf,
        Screen::Telling,
    ] {
        speaks_every_language("prep laid out", &menu, |language| {
            prep_screen(&store, screen, language)
        });
    }
    speaks_every_language("prep, all done", &menu, |language| {
        let mut state = prep_state(&store, None, language);
        state.prep.rows.clear();
        state.prep.last_tick = state.prep.what_ifs.first().map(|it| it.what.clone());
        state.prep.what_ifs.iter_mut().for_each(|it| it.on = true);
        state
    });
}

/// What is in stock, what is past its keeping, and a batch that is made since something is not
/// known.
#[test]
fn batches_are_told_in_every_language() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday_with_batches(folder.path());
    let menu: Vec<String> = BATCH_MENU
        .split('"')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect();
    speaks_every_language("prep with batches", &menu, |language| {
        prep_state(&store, None, language)
    });
    speaks_every_language("prep told of later", &menu, |language| {
        told_in(&store, language)
    });
    let state = prep_state(&store, None, Language::English);
    let says = |words: &str| state.prep.stock.iter().any(|line| line.contains(words));
    assert!(
        says("PAST ITS KEEPING, no stock: oatcakes"),
        "{:?}",
        state.prep.stock
    );
    assert!(
        says("necks: in stock 24 from Thu 7 May, 16:00"),
        "{:?}",
        state.prep.stock
    );
    assert!(
        says("no covers are expected on record"),
        "{:?}",
        state.prep.stock
    );
    let row = |name: &str| state.prep.rows.iter().any(|row| row.name.starts_with(name));
    assert!(!row("necks") && row("oatcakes"), "{:?}", state.prep.rows);
}

/// A delivery that may come too late, and what there is in its place.
#[test]
fn late_deliveries_are_told_in_every_language() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday_of_late_bream(folder.path());
    let menu: Vec<String> = BREAM_MENU
        .split('"')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect();
    for screen in [Screen::Prep, Screen::WhatIf] {
        speaks_every_language(&format!("late delivery {screen:?}"), &menu, |language| {
            prep_screen(&store, screen, language)
        });
    }
    speaks_every_language("late delivery, what if", &menu, |language| {
        let mut state = prep_screen(&store, Screen::Prep, language);
        // Its words come out of the files, too.
        let trying = &state.prep.trying;
        state.prep.supposed = trying.fields.get(1).map(|field| field.value.clone());
        state
    });
}

/// Every screen of menus and labels.
#[test]
fn menus_are_told_in_every_language() {
    let mut data = app_menus::named();
    data.extend(sources());
    // What files are called.
    data.push("TOML, CSV, PDF, PNG, menus".to_owned());
    let all = app_menus::screens(&LANGUAGES);
    assert!(all.len() > 20, "{}", all.len());
    for (name, states) in all {
        speaks_every_language(&format!("menus {name}"), &data, |language| {
            let nth = LANGUAGES.iter().position(|known| *known == language);
            states[nth.unwrap()].clone()
        });
    }
}

/// Every screen of what to order and of the list of goods.
#[test]
fn orders_are_told_in_every_language() {
    let mut data = app_order::named();
    // What files and folders are called.
    data.push("TOML, CSV, PDF, goods".to_owned());
    let all = app_order::screens(&LANGUAGES);
    assert!(all.len() > 10, "{}", all.len());
    for (name, states) in all {
        speaks_every_language(&format!("order {name}"), &data, |language| {
            let nth = LANGUAGES.iter().position(|known| *known == language);
            states[nth.unwrap()].clone()
        });
    }
}

/// The made-up kitchen's latest service, looked at in every way, in a language;
/// and what of it is data.
fn services(controller: &mut Controller, language: Language) -> Vec<(&'static str, State)> {
    controller.speak(language);
    controller.carry_out(Intent::Go(Screen::Service));
    let mut states = Vec::new();
    let mut look = |name, wishes: Vec<ServiceWish>| {
        for wish in wishes {
            controller.carry_out(Intent::Service(wish));
        }
        let began = Instant::now();
        while name == "everything" && controller.state().service.everything.dots.is_none() {
            assert!(began.elapsed() < Duration::from_secs(60));
            std::thread::sleep(Duration::from_millis(10));
            controller.take_in();
        }
        let mut state = controller.state().clone();
        // The link's thread speaks the language a little later.
        state.bench = app_samples::in_language(language, app_samples::idle).bench;
        states.push((name, state.clone()));
        state
    };
    let show = ServiceWish::Look;
    let night = look("night", vec![show(Look::Night), ServiceWish::Dish(0)]);
    let dough = &night.service.dishes[0];
    let (first, last) = (dough.dots[0].time, dough.dots[30].time);
    look("stretch", vec![ServiceWish::Span(Some((first, last)))]);
    look("portion", vec![ServiceWish::Pick(Some(dough.ids[3]))]);
    look("why", vec![ServiceWish::AskWhy(true)]);
    for (nth, dish) in night.service.dishes.iter().enumerate() {
        let wish = ServiceWish::Dish(nth);
        look("dish", vec![show(Look::Night), wish.clone()]);
        look("last ten", vec![show(Look::Beside)]);
        look("from tin to plate", vec![show(Look::Yield)]);
        if let Some(struck) = dish.struck.first() {
            let pick = ServiceWish::Pick(Some(struck.id));
            look("struck portion", vec![show(Look::Night), wish, pick]);
        }
    }
    look("all dishes", vec![show(Look::Dishes)]);
    look("money", vec![show(Look::Money)]);
    look("everything", vec![show(Look::Everything)]);
    states
}

/// Names, reasons and marks that the made-up kitchen itself wrote.
fn written(state: &State) -> Vec<String> {
    let service = &state.service;
    let dishes = service.dishes.iter().flat_map(|dish| {
        let flows = dish.flows.iter().map(|flow| flow.title.clone());
        let struck = dish.struck.iter().map(|struck| struck.reason.clone());
        let ids = dish.ids.iter().map(ToString::to_string);
        [dish.name.clone()]
            .into_iter()
            .chain(flows)
            .chain(struck)
            .chain(ids)
    });
    let others = service.everything.figures.iter().filter_map(|line| {
        let (dish, _) = line.split_once(": ")?;
        Some(dish.to_owned())
    });
    let plates = service.money.plates.iter().flatten();
    let plates = plates.filter_map(|line| Some(line.split_once(": ")?.0.to_owned()));
    let sources = ["OIML", "EUR"].map(str::to_owned);
    dishes.chain(others).chain(plates).chain(sources).collect()
}

#[test]
fn a_service_is_told_in_every_language() {
    let folder = tempfile::tempdir().unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    let mut store = Store::open(&data).unwrap();
    let morning = "2026-05-17T10:00:00Z".parse().unwrap();
    demo::make(&mut store, 7, &TimeZone::UTC, morning).unwrap();
    let mut controller = Controller::open(data, TimeZone::UTC, Vec::new(), || ()).unwrap();
    let mut seen = 0;
    let mut wrong = Vec::new();
    for language in LANGUAGES {
        let all = services(&mut controller, language);
        seen += all.len();
        for size in [SIZES[0], SIZES[1]] {
            let mut harness = harness(all[0].1.clone(), size);
            for (name, state) in &all {
                *harness.state_mut() = state.clone();
                harness.run_steps(2);
                picture(name, state, size);
                let at = format!("{name} in {language:?} at {size}");
                is_large_enough_to_touch(&harness, &at);
                let mut found = shortened(&harness);
                if language == Language::Stretched {
                    found.extend(left_in_english(&harness, &written(state)));
                }
                wrong.extend(found.into_iter().map(|words| format!("{at}: {words:?}")));
            }
        }
    }
    assert!(seen > 40, "{seen}");
    assert!(wrong.is_empty(), "{wrong:#?}");
    // A day has its language's name: 16 May 2026 is a Saturday.
    for (language, title) in [
        (Language::English, "Sat 16 May 2026"),
        (Language::Spanish, "S\u{e1}b 16 may 2026"),
        (Language::French, "Sam. 16 mai 2026"),
    ] {
        assert_eq!(
            services(&mut controller, language)[0].1.service.title,
            title
        );
    }
}

/// What ends in an ellipsis; what is scrolled out of sight may be cut.
fn shortened(harness: &Harness<'_, State>) -> Vec<String> {
    let painted = harness.output().shapes.iter().filter_map(|clipped| {
        let Shape::Text(text) = &clipped.shape else {
            return None;
        };
        let elided = text.galley.elided;
        elided.then(|| text.galley.text().to_owned())
    });
    painted.collect()
}

/// Everything that can be said of where a log is going.
fn outlooks() -> Vec<Outlook> {
    let celsius = |degrees: i32| Temperature::from_millicelsius(degrees * 1000);
    let mins = SignedDuration::from_mins;
    let mut going = vec![Going::NotStarted {
        here: celsius(88),
        from: celsius(57),
    }];
    let whys = [
        Why::TooFewReadings,
        Why::Silent,
        Why::Still,
        Why::Changed,
        Why::Doubtful,
        Why::Plateau,
        Why::Stalled,
    ];
    let mut paces = vec![
        Pace::Overdue {
            by: mins(75),
            here: celsius(33),
        },
        Pace::InTime { before: mins(35) },
        Pace::Missed,
        Pace::NotEnough { left: mins(70) },
    ];
    for latest in [None, Some(mins(140))] {
        let before = mins(12);
        paces.push(Pace::PerhapsLate { before, latest });
        for earliest in [mins(-12), mins(12)] {
            paces.push(Pace::Late {
                by: mins(45),
                earliest,
                latest,
            });
        }
    }
    paces.extend(whys.map(|why| Pace::Unknown {
        why,
        left: mins(70),
    }));
    let cooling = |pace, remedy, start_seen| Going::Cooling {
        to: celsius(21),
        pace,
        remedy,
        start_seen,
    };
    going.extend([Remedy::LookAgain, Remedy::Ice].map(|it| cooling(Pace::Missed, it, true)));
    // The longest remedy, and the sentence that may come after it.
    going.extend(
        paces
            .into_iter()
            .map(|pace| cooling(pace, Remedy::IceIfItMatters, false)),
    );
    for side in [Side::AtMost, Side::AtLeast] {
        let mut next = vec![HoldingNext::Beyond { up_to: mins(65) }, HoldingNext::Keeps];
        let mut stages = vec![
            HoldStage::NotComing,
            HoldStage::Lasting { lasted: mins(40) },
            HoldStage::Lasting {
                lasted: mins(9_000),
            },
        ];
        next.extend([false, true].map(|remedy| HoldingNext::Passes {
            within: mins(25),
            remedy,
        }));
        next.extend(whys.map(HoldingNext::Unknown));
        stages.extend([None, Some(mins(190))].map(|late| HoldStage::Ahead {
            likely: mins(130),
            early: mins(100),
            late,
        }));
        stages.extend(whys.map(HoldStage::Unknown));
        going.extend(next.into_iter().map(|next| Going::Holding {
            side,
            limit: celsius(57),
            here: celsius(48),
            next,
        }));
        going.extend(stages.into_iter().map(|stage| Going::Hold {
            side,
            at: celsius(-20),
            asked: mins(168 * 60),
            here: celsius(-18),
            stage,
        }));
    }
    for left in [mins(-12), mins(25)] {
        going.push(Going::Out {
            out: mins(255),
            allowed: mins(240),
            left,
        });
    }
    going
        .into_iter()
        .map(|going| Outlook {
            alarm: Alarm::Act,
            deadline: None,
            expected: None,
            going,
        })
        .collect()
}

/// The longest of what a limit can say stands whole above another as long.
#[test]
fn nothing_that_is_said_of_a_limit_is_shortened() {
    let folder = tempfile::tempdir().unwrap();
    let store = friday(folder.path());
    let all = outlooks();
    assert!(all.len() > 60, "{}", all.len());
    for language in LANGUAGES {
        let mut harness = harness(heat_state(&store, "pan of stock", language), SIZES[0]);
        for outlook in &all {
            let words = outlook_words(language, outlook)
                .replace("degC", "°C")
                .replace("degF", "°F");
            let shown = harness.state_mut().heat.shown.as_mut().unwrap();
            shown.says = vec![
                (Tone::Stop, words.clone()),
                (Tone::Attention, words.clone()),
            ];
            harness.run_steps(1);
            let at = format!("{words:?} in {language:?}");
            is_whole(&harness, &at);
            let said = all_words(&harness);
            assert_eq!(
                said.iter().filter(|said| **said == words).count(),
                2,
                "{at}"
            );
            if language == Language::Stretched {
                let left = left_in_english(&harness, &sources());
                assert!(left.is_empty(), "{left:#?}");
            }
        }
    }
}

/// What the cooks of the samples named themselves, and what a source is called.
fn named_in_mixes() -> Vec<String> {
    let published = Limits::food_code();
    let nitrite = Method::ALL
        .into_iter()
        .filter_map(|method| published.nitrite(method));
    let usual = nitrite.clone().filter_map(|limit| limit.usual_minimum);
    let publications = [CONCENTRATIVE, VOLUMETRIC, SALOMETER];
    let mut data = sources();
    data.extend(
        nitrite
            .map(|limit| limit.source)
            .chain(usual.map(|usual| usual.source))
            .flat_map(|source| [source.document, source.section]),
    );
    data.extend(publications.map(|publication| publication.title.to_owned()));
    data.extend(
        [
            "Soaked beans, soy, water, salt, gritty, too stiff, better, still a little thick, silky, thin",
            "Neck brine, Cured eggs, soy sauce, mirin, Loin, loin, tideline loaf, marsh rye, bread flour, build",
            "rice, vinegar, Salt, sugar, yeast, belly, Belly, Saltmarsh cure, Blue jug",
            // Symbols: of parts per million, and of a guide and law.
            "ppm, kg, ml, CFR, JCGM, lb, oz",
            // Files that are broken, and the line that is.
            "broken.toml, limits.toml, name =",
        ]
        .map(str::to_owned),
    );
    data
}

/// Every mixing screen in every language at both sizes.
#[test]
fn mixing_is_told_in_every_language() {
    let data = named_in_mixes();
    let mut wrong = Vec::new();
    let mut seen = 0;
    for language in LANGUAGES {
        let all = looks::all(language);
        seen += all.len();
        for size in [SIZES[0], SIZES[1]] {
            let mut harness = harness(all[0].1.clone(), size);
            for (name, state) in &all {
                *harness.state_mut() = state.clone();
                harness.run_steps(2);
                picture(name, state, size);
                let at = format!("{name} in {language:?} at {size}");
                stands_clear(&harness, size, &at);
                is_large_enough_to_touch(&harness, &at);
                let mut found = shortened(&harness);
                if language == Language::Stretched {
                    found.extend(left_in_english(&harness, &data));
                }
                wrong.extend(found.into_iter().map(|words| format!("{at}: {words:?}")));
            }
        }
    }
    assert!(seen > 150, "{seen}");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// What a wish on the mixing screens can come to nothing for, one of each kind
/// and the longest of it.
fn refusals() -> Vec<Refusal> {
    let ppm = |value| Ppm::new("ppm", value).unwrap();
    let fraction = |parts| NitriteFraction::new("nitrite", parts).unwrap();
    let salt = || "salt".to_owned();
    let agent =
        || CuringAgent::from_label("Saltmarsh cure", Contents::SodiumNitrite, fraction(0.0625));
    let agent = || agent().unwrap();
    let limit = |method| Limits::food_code().nitrite(method).unwrap();
    let over = |method| DoseRefusal::OverLimit {
        target: ppm(250.0),
        method,
        limit: Box::new(limit(method)),
    };
    let mut all: Vec<Refusal> = Method::ALL.map(|it| Refusal::Dose(over(it))).into();
    all.push(Refusal::Dose(DoseRefusal::UnderRequired {
        target: ppm(50.0),
        method: Method::BaconPumped,
        limit: Box::new(limit(Method::BaconPumped)),
    }));
    let target = ppm(500_000.0);
    all.extend(
        [
            DoseRefusal::Nothing { target },
            DoseRefusal::BeyondAgent { target },
            DoseRefusal::BeyondMass { target },
        ]
        .map(Refusal::Dose),
    );
    all.extend(
        [
            AgentRefusal::Nitrate,
            AgentRefusal::Mixture,
            AgentRefusal::Potassium,
            AgentRefusal::Vegetable,
            AgentRefusal::UnusualFraction(fraction(0.625)),
            AgentRefusal::Name(NameRefusal::Empty),
            AgentRefusal::Name(NameRefusal::Salt),
            AgentRefusal::Name(NameRefusal::CuringAgent),
        ]
        .map(Refusal::Agent),
    );
    all.extend(
        [
            RatioError::TooFew(1),
            RatioError::OnlyMeatAndWater,
            RatioError::Nameless(3),
            RatioError::Twice(salt()),
            RatioError::NoAmount {
                name: salt(),
                number: -2.5,
            },
            RatioError::NothingLeft {
                rest: salt(),
                left: -12.5,
            },
            RatioError::Flours(92.5),
        ]
        .map(Refusal::Ratio),
    );
    let too_small = weighable(Mass::from_grams(3), Mass::from_grams(1));
    all.extend(
        [
            MixError::NoSuchItem(3),
            MixError::Unguarded(agent()),
            MixError::WrongGuard(""),
            MixError::NotConfirmed(agent()),
            MixError::OtherLabel {
                read: fraction(0.005),
                expected: fraction(0.0625),
            },
            MixError::TargetUnknown(salt()),
            MixError::TooSmall(Box::new(too_small.unwrap().unwrap_err())),
            MixError::NothingChosen,
            MixError::NotSettled,
            MixError::NotThere {
                name: salt(),
                taken: 12.5,
                there: 3.0,
            },
            MixError::CannotTakeBack(salt()),
        ]
        .map(Refusal::Mix),
    );
    all.extend(
        [
            PouringError::NotSteady,
            PouringError::ChangedMeanwhile(Mass::from_grams(12)),
            PouringError::MayBeAgent(agent()),
            PouringError::NothingPoured,
            PouringError::Agent,
        ]
        .map(Refusal::Pouring),
    );
    all.extend(
        [
            Hindrance::Nameless(3),
            Hindrance::CalledCuring {
                slot: 3,
                name: salt(),
            },
            Hindrance::Unknown {
                slot: 3,
                name: salt(),
                percent: 0.25,
            },
            Hindrance::WayNotSaid { agent: agent() },
            Hindrance::NoAgent,
            Hindrance::WhichIsMeat(vec![(0, salt()), (1, salt())]),
            Hindrance::NoLimit(Method::BaconImmersionEquilibrium),
            Hindrance::NotAsWeighed {
                written: ppm(120.0),
                weighed: Some(ppm(250.0)),
            },
        ]
        .map(|hindrance| Refusal::Batch(BatchError::NotReady(vec![hindrance]))),
    );
    all.extend(
        [
            Obstacle::Portioning,
            Obstacle::AnotherMix,
            Obstacle::NotSteady,
            Obstacle::NothingMore,
            Obstacle::NothingOn,
            Obstacle::NothingWeighed,
            Obstacle::OnlyOneThing,
            Obstacle::TooMany,
            Obstacle::ThereAlready(salt()),
            Obstacle::HowMuch(salt()),
            Obstacle::NoAmount {
                name: salt(),
                text: salt(),
            },
            Obstacle::NoIngredient,
            Obstacle::AgentInIt,
            Obstacle::NoPacket,
            Obstacle::NoFraction,
            Obstacle::NoPpm,
            Obstacle::NoPickUp,
            Obstacle::LowFraction("0.0625".to_owned()),
            Obstacle::NoStrength,
            Obstacle::BeyondCalendar,
            Obstacle::NoTitle,
            Obstacle::NotNamedThrough(salt()),
            Obstacle::BookChanged,
            Obstacle::NotUnderWay,
            Obstacle::NoBatch,
            Obstacle::Untitled,
            Obstacle::ProbeInBrine,
            Obstacle::ProbeInWater,
            Obstacle::EmptyFirst,
        ]
        .map(Refusal::Obstacle),
    );
    all.extend(fields().map(|field| Refusal::Typed {
        field,
        text: salt(),
    }));
    all.push(Refusal::NoLimits(NoLimits::NotRead));
    all
}

pub fn fields() -> [Field; 26] {
    [
        Field::Title,
        Field::NewName,
        Field::Rename(0),
        Field::Number(0),
        Field::Amount(0),
        Field::SlotName(0),
        Field::AgentName,
        Field::Fraction,
        Field::LabelAgain,
        Field::Ppm,
        Field::PickUp,
        Field::Note,
        Field::Tasting(7),
        Field::DueIn,
        Field::TurnEvery,
        Field::Loss,
        Field::Change(0),
        Field::Strength(Said::OfWater),
        Field::Strength(Said::OfSolution),
        Field::Strength(Said::Salometer),
        Field::Strength(Said::Density),
        Field::BrineAt,
        Field::Sugar,
        Field::CorrectTo,
        Field::BrineMass,
        Field::VesselName,
    ]
}

/// Whatever a cook is refused on the mixing screens is said whole and in the
/// cook's language, above the screen it was asked on.
#[test]
fn what_mixing_refuses_is_told_in_every_language() {
    let data = named_in_mixes();
    let refusals = refusals();
    let mut wrong = Vec::new();
    for language in LANGUAGES {
        let mut state = app_samples::in_language(language, app_samples::idle);
        state.screen = Screen::Mix;
        let mut harness = harness(state.clone(), SIZES[0]);
        for refusal in &refusals {
            let words = refusal.in_words(language);
            assert!(!words.is_empty(), "{refusal:?}");
            state.complaint = Some(words.clone());
            *harness.state_mut() = state.clone();
            harness.run_steps(2);
            let mut found = shortened(&harness);
            if language == Language::Stretched {
                found.extend(left_in_english(&harness, &data));
            }
            assert!(all_words(&harness).contains(&words), "{words} is not shown");
            wrong.extend(
                found
                    .into_iter()
                    .map(|words| format!("{language:?}: {words:?}")),
            );
        }
    }
    assert!(refusals.len() > 90, "{}", refusals.len());
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// What is asked for is asked in every language.
#[test]
fn what_mixing_asks_for_is_told_in_every_language() {
    let data = named_in_mixes();
    let mut wrong = Vec::new();
    for language in LANGUAGES {
        let states = looks::asking(language, &fields());
        let mut harness = harness(states[0].clone(), SIZES[0]);
        for state in states {
            let asked = state.mix.entry.as_ref().map(|entry| entry.caption.clone());
            *harness.state_mut() = state;
            harness.run_steps(2);
            let mut found = shortened(&harness);
            if language == Language::Stretched {
                found.extend(left_in_english(&harness, &data));
            }
            let asked = asked.expect("something is asked for");
            assert!(all_words(&harness).contains(&asked), "{asked} is not shown");
            wrong.extend(
                found
                    .into_iter()
                    .map(|words| format!("{language:?}: {words:?}")),
            );
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
