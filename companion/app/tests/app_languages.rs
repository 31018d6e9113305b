//! The screens in every language: their words, and that no language, nor a
//! longer one than any, loses a fault, a caution or a limit.

use crate::app_samples::{self, PORT, faulty, filling, goal, in_language};
use crate::app_screens::{
    SIZES, all_words, harness, is_large_enough_to_touch, is_whole, stands_clear,
};
use eframe::egui::epaint::Shape;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use evenhand_app::Language;
use evenhand_app::controller::Controller;
use evenhand_app::heat_view::{self, HeatTile};
use evenhand_app::intent::Intent;
use evenhand_app::state::{Screen, State};
use evenhand_kitchen::heat::LogName;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::units::MassUnit;
use evenhand_link::Unmet;
use evenhand_link::live::{LinkState, NotDone, Trouble, TroubleKind};
use evenhand_protocol::{
    CalibrationError, DeviceId, Fault, GoalError, Mass, Notice, Refusal, SelfTestRefusal,
};
use evenhand_store::{DataFolder, RefusedPortion};
use evenhand_use_cases::heat::log_words;
use evenhand_use_cases::instrument;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use std::time::{Duration, Instant};

/// Every language, and one longer than any.
const LANGUAGES: [Language; 4] = [
    Language::English,
    Language::Spanish,
    Language::French,
    Language::Stretched,
];

#[test]
fn everything_fits_in_every_language() {
    for size in SIZES {
        let mut harness = harness(app_samples::idle(), size);
        for language in [Language::Spanish, Language::French] {
            for (name, state) in in_language(language, app_samples::all) {
                *harness.state_mut() = state;
                harness.run_steps(3);
                let at = format!("{name} in {language} at {size}");
                stands_clear(&harness, size, &at);
                is_whole(&harness, &at);
                is_large_enough_to_touch(&harness, &at);
            }
        }
    }
}

/// Whether these words are painted whole, in one line or more.
fn paints(harness: &Harness<'_, State>, words: &str) -> Result<(), String> {
    let mut painted = harness.output().shapes.iter().filter_map(|clipped| {
        let Shape::Text(text) = &clipped.shape else {
            return None;
        };
        let bounds = text.galley.mesh_bounds.translate(text.pos.to_vec2());
        (text.galley.text() == words).then(|| {
            (
                text.galley.elided,
                clipped.clip_rect.expand(1.5).contains_rect(bounds),
            )
        })
    });
    match painted.next() {
        None => Err(format!("{words:?} is not painted")),
        Some((true, _)) => Err(format!("{words:?} is shortened")),
        Some((_, false)) => Err(format!("{words:?} is cut off")),
        Some((false, true)) => Ok(()),
    }
}

/// Every line that can stand above the screens: faults, states of the link,
/// troubles, notices, refusals.
fn lines(language: Language) -> Vec<String> {
    let port = || PORT.to_owned();
    let mass = Mass::from_milligrams(1_234_500);
    let faults = Fault::ALL.map(|fault| instrument::fault_and_remedy(language, fault));
    let links = [
        LinkState::NoneChosen,
        LinkState::NoPort { port: port() },
        LinkState::NotAllowed { port: port() },
        LinkState::Busy { port: port() },
        LinkState::Calling { port: port() },
        LinkState::Silent { port: port() },
        LinkState::NotOurs { port: port() },
        LinkState::OtherVersion {
            port: port(),
            theirs: 2,
        },
        LinkState::DesktopAtOtherEnd { port: port() },
        LinkState::OtherInstrument {
            port: port(),
            known: DeviceId(0x5A17),
            found: DeviceId(0x5A18),
        },
        LinkState::Lost { port: port() },
        LinkState::ScenarioOver,
    ]
    .map(|state| instrument::link_and_remedy(language, &state));
    let troubles = [
        TroubleKind::TooFast,
        TroubleKind::Refused(RefusedPortion::Clash),
        TroubleKind::Refused(RefusedPortion::SenselessCorrection),
        TroubleKind::Store("the disk is full".to_owned()),
        TroubleKind::ClockBack(SignedDuration::from_mins(63)),
    ]
    .map(|kind| {
        let since = Timestamp::UNIX_EPOCH;
        instrument::trouble(language, &Trouble { since, kind }).into_owned()
    });
    let notices = [
        Notice::DishReturned(14),
        Notice::LiftedUnsettled,
        Notice::LiftedEmpty,
        Notice::Refilled(mass),
        Notice::TinBack(mass),
        Notice::TinBack(-mass),
        Notice::Unaccounted(mass),
        Notice::FilledWhileTaken(mass),
        Notice::Zeroed,
        Notice::FoundOnPan(mass),
    ]
    .map(|notice| instrument::notice(language, notice, MassUnit::Gram).into_owned());
    let refusals = [
        Refusal::NotStable,
        Refusal::BeyondZeroRange,
        Refusal::NegativeTare,
        Refusal::Faulty,
        Refusal::Goal(GoalError::ToleranceSwallowsTarget),
        Refusal::Unknown,
        Refusal::Running,
        Refusal::NotCalibrating,
        Refusal::Calibration(CalibrationError::NoSpan),
        Refusal::Calibration(CalibrationError::NotStraight),
        Refusal::Test(SelfTestRefusal::AnotherLoad),
    ]
    .map(|refusal| instrument::not_done(language, &NotDone::Unmet(Unmet::Refused(refusal))));
    let unmet = [Unmet::NoReply, Unmet::LinkLost, Unmet::TooMany]
        .map(|unmet| instrument::not_done(language, &NotDone::Unmet(unmet)));
    [
        faults.to_vec(),
        links.to_vec(),
        troubles.to_vec(),
        notices.to_vec(),
        refusals.to_vec(),
        unmet.to_vec(),
    ]
    .concat()
}

/// At 1280 by 800, the smallest screen: what a cook must read is there in
/// full, in every language and in one three tenths longer than English.
#[test]
fn no_fault_caution_or_refusal_is_cut_off_however_long_the_language() {
    let size = SIZES[0];
    let mut cut = Vec::new();
    for language in LANGUAGES {
        let state = in_language(language, app_samples::short);
        let mut harness = harness(state, size);
        let all = lines(language);
        assert!(all.len() > 55, "{} lines", all.len());
        for words in all {
            harness.state_mut().complaint = Some(words.clone());
            harness.run_steps(3);
            cut.extend(paints(&harness, &words).err());
        }
    }
    assert!(cut.is_empty(), "{cut:#?}");
}

/// What a fault, a stale reading and a verdict put on the portioning screen
/// beside the line above: captions, prompts, the probe's few words, limits.
#[test]
fn nothing_on_the_portioning_screens_is_cut_off_however_long_the_language() {
    let target = goal(30_000, 1_000);
    let states = || {
        let mut states = vec![
            ("short", app_samples::short()),
            ("on", app_samples::on()),
            ("heavy", app_samples::heavy()),
            ("taking", app_samples::taking()),
            ("stale", app_samples::stale()),
            ("struck", app_samples::struck()),
            ("idle", app_samples::idle()),
        ];
        for fault in Fault::ALL {
            states.push(("fault", faulty(fault, filling(12_100, target))));
        }
        states
    };
    let mut harness = harness(app_samples::idle(), SIZES[0]);
    for (name, state) in in_language(Language::Stretched, states) {
        *harness.state_mut() = state;
        harness.run_steps(3);
        is_whole(&harness, &format!("{name}, stretched"));
    }
}

/// The screen that asks what a temperature log is watched for, with every
/// limit of the Food Code, and with or without a log chosen. The band offered
/// is 204 to 216 °C: by °F = 1.8 °C + 32, 399.2 to 420.8 °F.
#[test]
fn what_a_log_is_watched_for_is_asked_whole_in_every_language() {
    let aim = |language: Language, chosen: bool| {
        let mut state = State {
            screen: Screen::HeatAim,
            ..app_samples::idle()
        };
        state.heat.limits = heat_view::limit_tiles(&Limits::food_code(), language);
        let stock = LogName::new("name", "pan of stock").unwrap();
        if chosen {
            state.heat.logs.push(HeatTile {
                words: log_words(language, &stock),
                name: stock,
                last: String::new(),
                chosen,
            });
        }
        state
    };
    for (language, log, unnamed, offered) in [
        (
            Language::Spanish,
            "¿Qué se vigila en marmita de fondo?",
            "¿Qué se vigila en el registro de temperatura?",
            "de 204 a 216 °C (de 399 a 421 °F)",
        ),
        (
            Language::French,
            "Que surveiller pour marmite de fond\u{a0}?",
            "Que surveiller dans le relevé de température\u{a0}?",
            "de 204 à 216 °C (de 399 à 421 °F)",
        ),
    ] {
        for (chosen, title) in [(true, log), (false, unnamed)] {
            let state = in_language(language, || aim(language, chosen));
            let harness = harness(state, SIZES[0]);
            for words in [title, offered] {
                paints(&harness, words).unwrap();
            }
            let words = all_words(&harness);
            for english in ["Back", "A band to be in", "Or a limit to keep"] {
                assert!(!words.iter().any(|said| said == english), "{words:?}");
            }
        }
    }
    for size in SIZES {
        for language in LANGUAGES {
            for chosen in [true, false] {
                let harness = harness(in_language(language, || aim(language, chosen)), size);
                let at = format!("aim in {language:?} at {size}");
                stands_clear(&harness, size, &at);
                is_whole(&harness, &at);
                is_large_enough_to_touch(&harness, &at);
            }
        }
    }
}

/// The test above can fail: a line that no banner holds is found.
#[test]
fn a_line_that_is_too_long_is_found() {
    let mut state = app_samples::short();
    let words = "Take everything off the pan; if it stays, look at the cable. ".repeat(20);
    state.complaint = Some(words.clone());
    let harness = harness(state, SIZES[0]);
    assert!(paints(&harness, &words).is_err());
}

#[track_caller]
fn assert_says(state: State, expected: &[&str]) {
    let harness = harness(state, SIZES[0]);
    let there = all_words(&harness);
    for words in expected {
        assert!(
            there.iter().any(|said| said == words),
            "nothing says {words:?}; there is {there:#?}"
        );
    }
}

#[test]
fn a_portion_is_told_in_spanish_and_in_french() {
    assert_says(
        in_language(Language::Spanish, app_samples::short),
        &[
            "30,0 g ± 1,0 g",
            "18,4 gramos, falta",
            "FALTA",
            "faltan 11,6 g",
            "Añada",
            "En el recipiente",
            "Pantalla Pesar",
            "4,2 °C",
        ],
    );
    assert_says(
        in_language(Language::French, app_samples::taking),
        &[
            "44,3 grammes, au poids",
            "Prélevé",
            "Reste dans le bac",
            "1731,9 g",
            "36 à 40 portions",
        ],
    );
    assert_says(
        in_language(Language::French, app_samples::overload),
        &["Il y a trop de poids sur le plateau. Enlevez-en."],
    );
}

#[test]
fn the_language_is_chosen_by_touch() {
    // From the scale's screen, by the word in each language.
    let from = harness(app_samples::choosing_port(), SIZES[0]);
    let button = from.get_by_label("Language, Idioma \u{b7} Langue");
    assert!(button.rect().height() >= 44.0);

    let state = State {
        screen: Screen::Settings,
        ..app_samples::idle()
    };
    let mut asked = Vec::new();
    let mut harness = Harness::builder()
        .with_size(SIZES[0])
        .with_context_setup(evenhand_app::theme::install)
        .build_ui(|ui| asked.extend(evenhand_app::shell::show(ui, &state)));
    for language in Language::ALL {
        let size = harness.get_by_label(language.own_name()).rect().size();
        assert!(size.x >= 44.0 && size.y >= 44.0, "{language}: {size}");
    }
    harness.get_by_label("Français").click();
    harness.run();
    drop(harness);
    assert_eq!(asked, [Intent::Speak(Language::French)]);
}

#[test]
fn a_language_is_spoken_at_once_and_remembered_beside_the_port() {
    let folder = tempfile::tempdir().unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    let mut controller = Controller::open(data, TimeZone::UTC, Vec::new(), || ()).unwrap();
    controller.carry_out(Intent::UsePort("/dev/no-such-port".to_owned()));
    controller.carry_out(Intent::Speak(Language::Spanish));
    let begun = Instant::now();
    while controller.state().bench.link.words
        != "No existe el puerto /dev/no-such-port. Enchufe y encienda la báscula, o elija otro puerto. Se sigue buscando sola."
    {
        assert!(
            begun.elapsed() < Duration::from_secs(60),
            "{:?}",
            controller.state().bench.link
        );
        std::thread::sleep(Duration::from_millis(5));
        controller.take_in();
    }
    let kept = std::fs::read_to_string(folder.path().join("app.toml")).unwrap();
    assert_eq!(kept, "port = \"/dev/no-such-port\"\nlanguage = \"es\"\n");
    // What is refused is refused in the same language.
    controller.carry_out(Intent::Tare);
    let begun = Instant::now();
    while controller.state().complaint.is_none() {
        assert!(begun.elapsed() < Duration::from_secs(60));
        std::thread::sleep(Duration::from_millis(5));
        controller.take_in();
    }
    let complaint = controller.state().complaint.clone().unwrap();
    assert!(complaint.starts_with("No existe el puerto"), "{complaint}");
}
