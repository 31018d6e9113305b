//! What is kept: said in every language, and copied by touch.

use crate::app_left_in_english::{LANGUAGES, left_in_english};
use crate::app_samples;
use crate::app_screens::{self, SIZES};
use evenhand_app::Language;
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::kept::{KeptView, PlaceView};
use evenhand_app::picture::write_picture;
use evenhand_app::state::{Screen, State};
use evenhand_kitchen::dish::DishName;
use evenhand_protocol::Mode;
use evenhand_store::{DataFolder, Store, restore};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::path::Path;
use std::time::{Duration, Instant};

pub(crate) fn shown(language: Language) -> State {
    let mut state = app_samples::in_language(language, app_samples::idle);
    state.screen = Screen::Kept;
    let place = |folder: &str, apart, last: Option<&str>| PlaceView {
        folder: folder.into(),
        last: last.map(str::to_owned),
        apart,
    };
    state.kept = KeptView {
        folder: "/home/saltmarsh/.local/share/evenhand".to_owned(),
        zone: "Europe/London".to_owned(),
        places: vec![
            place("/media/saltmarsh/BLUE-STICK/evenhand-backups", true, None),
            place(
                "/media/saltmarsh/DISK/evenhand-backups",
                true,
                Some("14 03, 19:42"),
            ),
            place(
                "/home/saltmarsh/.local/share/evenhand/evenhand-backups",
                false,
                Some("13 03, 23:05"),
            ),
        ],
        busy: true,
        told: None,
    };
    state
}

#[test]
fn what_is_kept_is_told_in_every_language() {
    let mut data = vec!["Brown shrimp, Hogget neck, Sorrel parfait".to_owned()];
    data.extend(
        shown(Language::English)
            .kept
            .places
            .iter()
            .map(|place| place.folder.display().to_string()),
    );
    data.push("Europe/London Barley sourdough".to_owned());
    for language in LANGUAGES {
        for size in [SIZES[0], SIZES[1]] {
            for screen in [Screen::Kept, Screen::Settings] {
                let state = State {
                    screen,
                    ..shown(language)
                };
                if let Some(folder) = std::env::var_os("EVENHAND_PICTURES") {
                    let name = format!("{screen:?}-{}-{}.png", language.code(), size.x);
                    let path = Path::new(&folder).join(name);
                    write_picture(&path, [size.x as u32, size.y as u32], &state).unwrap();
                }
                let harness = app_screens::harness(state, size);
                let at = format!("{screen:?} in {language:?} at {size}");
                app_screens::is_whole(&harness, &at);
                app_screens::stands_clear(&harness, size, &at);
                app_screens::is_large_enough_to_touch(&harness, &at);
                if language == Language::Stretched {
                    let mut known = data.clone();
                    // Each language stands there by its own name.
                    known.extend(Language::ALL.map(|language| language.own_name().to_owned()));
                    let left = left_in_english(&harness, &known);
                    assert!(left.is_empty(), "{at}: {left:#?}");
                }
            }
        }
    }
}

#[test]
fn a_backup_made_by_touch_can_be_put_back() {
    let folder = tempfile::tempdir().unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    let name = DishName::new("dish", "Brown shrimp").unwrap();
    Store::open(&data)
        .unwrap()
        .set_dish(
            &name,
            app_samples::goal(30_000, 1_000),
            Mode::Taking,
            None,
            Timestamp::now(),
        )
        .unwrap();
    let mut controller = Controller::open(data, TimeZone::UTC, Vec::new(), || {}).unwrap();
    controller.carry_out(Intent::Go(Screen::Kept));
    let place = controller.state().kept.places.last().unwrap().clone();
    assert_eq!((place.apart, place.last), (false, None));
    controller.carry_out(Intent::BackUp(place.folder.clone()));
    let begun = Instant::now();
    while controller.state().kept.told.is_none() {
        assert!(begun.elapsed() < Duration::from_secs(60));
        std::thread::sleep(Duration::from_millis(2));
        controller.take_in();
    }
    let kept = &controller.state().kept;
    let told = kept.told.as_deref().unwrap();
    assert!(told.starts_with("Backed up and read back"), "{told}");
    assert!(!kept.busy && kept.places.last().unwrap().last.is_some());

    let copies: Vec<_> = std::fs::read_dir(&place.folder)
        .unwrap()
        .map(|file| file.unwrap().path())
        .collect();
    let [copy] = copies.as_slice() else {
        panic!("{copies:?}");
    };
    let other = tempfile::tempdir().unwrap();
    let other = DataFolder::choose(Some(other.path())).unwrap();
    restore(&other, copy, Timestamp::now()).unwrap();
    let dishes = Store::open(&other).unwrap().dishes_in_use().unwrap();
    assert_eq!(dishes.len(), 1);
    assert_eq!(dishes[0].name, name);

    // What cannot be done says why.
    let not_there = folder.path().join("app.toml");
    std::fs::write(&not_there, "").unwrap();
    controller.carry_out(Intent::BackUp(not_there));
    let begun = Instant::now();
    while controller.state().kept.told.is_none() {
        assert!(begun.elapsed() < Duration::from_secs(60));
        std::thread::sleep(Duration::from_millis(2));
        controller.take_in();
    }
    let told = controller.state().kept.told.as_deref().unwrap();
    assert!(told.starts_with("Not backed up"), "{told}");
}
