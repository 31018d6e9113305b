//! What is heard at the bench: which tone when, what is in it, and that the system's player is
//! given it.

use crate::app_samples::{self, RUN, SHRIMP, filling, goal, mg, now, shrimp_run};
use crate::app_screens::{SIZES, harness};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use evenhand_app::Language;
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::live;
use evenhand_app::sound::{Cue, Listening, Player, RATE, Scene, Sound, SoundChoice, Volume};
use evenhand_app::state::{Screen, SoundView, State};
use evenhand_protocol::{Notice, Phase, Reading, Report, Uptime, Verdict};
use evenhand_store::DataFolder;
use jiff::tz::TimeZone;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

/// Players and a speaker that keep what they are given in `folder`.
#[cfg(unix)]
fn fake(folder: &Path, name: &str) {
    use std::os::unix::fs::PermissionsExt;
    let program = folder.join(name);
    let heard = folder.join("heard");
    fs::create_dir_all(&heard).unwrap();
    let heard = heard.display();
    // The last of what it is given is the file or the words.
    let script = format!(
        "#!/bin/sh\nfor last; do :; done\n\
         printf '%s\\n' \"$*\" >> '{heard}/{name}.log'\n\
         if [ -f \"$last\" ]; then cp \"$last\" '{heard}/'; fi\n"
    );
    fs::write(&program, script).unwrap();
    fs::set_permissions(&program, fs::Permissions::from_mode(0o755)).unwrap();
}

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let Ok(heard) = fs::read_dir(folder.join("heard")) else {
        return BTreeMap::new();
    };
    heard
        .map(|entry| {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            (name, fs::read(path).unwrap())
        })
        .collect()
}

#[test]
#[cfg(unix)]
fn the_newest_player_that_is_there_is_given_the_tone() {
    for (there, plays) in [
        (vec!["aplay", "paplay", "pw-play"], "pw-play"),
        (vec!["aplay", "paplay"], "paplay"),
        (vec!["aplay"], "aplay"),
    ] {
        let folder = tempfile::tempdir().unwrap();
        for name in there {
            fake(folder.path(), name);
        }
        let mut player = Player::find(Some(folder.path().as_os_str())).unwrap();
        assert!(player.plays() && !player.speaks());
        for cue in Cue::ALL {
            player.play(cue, Volume::Loud);
        }
        player.wait();
        let heard = files(folder.path());
        assert!(
            heard.contains_key(&format!("{plays}.log")),
            "{:?}",
            heard.keys()
        );
        let tones: Vec<_> = heard.keys().filter(|name| name.ends_with(".wav")).collect();
        assert_eq!(tones.len(), Cue::ALL.len(), "{tones:?}");
        assert_eq!(
            heard.keys().filter(|name| name.ends_with(".log")).count(),
            1
        );
        player.play(Cue::On, Volume::Off);
        player.wait();
        assert_eq!(files(folder.path()), heard, "it is off");
    }
}

#[test]
fn without_a_player_nothing_is_heard_and_nothing_breaks() {
    let folder = tempfile::tempdir().unwrap();
    for path in [None, Some(folder.path().as_os_str())] {
        let mut player = Player::find(path).unwrap();
        assert!(!player.plays() && !player.speaks());
        player.play(Cue::On, Volume::Loud);
        player.speak("30.2 g", Language::English);
        player.wait();
    }
    assert!(fs::read_dir(folder.path()).unwrap().next().is_none());
}

/// The samples of a tone, read by the library that reads WAV files.
fn samples(cue: Cue, volume: Volume) -> Vec<i16> {
    let file = cue.wav(volume).unwrap();
    let mut reader = hound::WavReader::new(file.as_slice()).unwrap();
    let spec = reader.spec();
    assert_eq!(
        (spec.channels, spec.sample_rate, spec.bits_per_sample),
        (1, RATE, 16)
    );
    reader.samples::<i16>().map(Result::unwrap).collect()
}

/// Stretches of sound with the silence between, in milliseconds: as the instrument's buzzer
/// sounds them (`firmware/src/signals.rs`).
fn rhythm(samples: &[i16]) -> Vec<u64> {
    let millis = |count: usize| (count as f64 * 1_000.0 / f64::from(RATE)).round() as u64;
    let mut lengths = vec![];
    let (mut sounding, mut count, mut quiet) = (true, 0_usize, 0_usize);
    for sample in samples {
        // A sine goes through nothing: a pause is longer than half a wave of the lowest tone.
        quiet = if sample.unsigned_abs() < 60 {
            quiet + 1
        } else {
            0
        };
        count += 1;
        let pause = quiet > (RATE / 300) as usize;
        if sounding && pause {
            lengths.push(millis(count - quiet));
            (sounding, count) = (false, quiet);
        } else if !sounding && quiet == 0 {
            lengths.push(millis(count));
            (sounding, count) = (true, 0);
        }
    }
    lengths.push(millis(count));
    lengths
}

#[test]
fn each_tone_is_told_by_its_rhythm_and_the_rhythm_is_the_buzzers() {
    let near = |cue: Cue, expected: &[u64]| {
        let found = rhythm(&samples(cue, Volume::Loud));
        assert_eq!(found.len(), expected.len(), "{cue:?}: {found:?}");
        for (found, expected) in found.iter().zip(expected) {
            assert!(
                found.abs_diff(*expected) <= 6,
                "{cue:?}: {found} {expected}"
            );
        }
    };
    near(Cue::On, &[60]);
    near(Cue::Heavy, &[80, 80, 80, 80, 80]);
    near(Cue::Refused, &[400, 200, 400]);
    near(Cue::Captured(Verdict::On), &[60, 60, 200, 120, 60]);
}

/// Pitch by counting how often a wave goes up through nothing.
#[test]
fn taps_rise_by_an_octave_from_far_to_near() {
    let pitch = |step: u8| {
        let samples = samples(Cue::Tap(step), Volume::Loud);
        let ups = samples
            .windows(2)
            .filter(|pair| pair[0] <= 0 && pair[1] > 0)
            .count();
        ups as f64 * f64::from(RATE) / samples.len() as f64
    };
    assert!((pitch(0) - 440.0).abs() < 40.0, "{}", pitch(0));
    assert!((pitch(7) - 880.0).abs() < 40.0, "{}", pitch(7));
    for step in 1..Cue::STEPS {
        assert!(pitch(step) >= pitch(step - 1));
    }
}

#[test]
fn each_step_of_volume_is_louder() {
    let crest = |volume| {
        let samples = samples(Cue::Refused, volume);
        samples.iter().map(|sample| sample.unsigned_abs()).max()
    };
    let crests = Volume::ALL.map(crest);
    assert_eq!(crests[0], Some(0));
    assert!(crests.is_sorted_by(|one, other| one < other), "{crests:?}");
}

fn scene(reading: Reading, portions: usize) -> Scene {
    let now = now();
    let goal = goal(30_000, 1_000);
    let mut bench = app_samples::linked(now, reading);
    let mut made = app_samples::shrimp_portions(now, goal);
    made.truncate(portions);
    bench.run_is(Some(shrimp_run(now, goal, made)));
    let view = live::view(&bench, now, (None, &[]), &TimeZone::UTC, Language::English);
    Scene::of(&view, None, Language::English)
}

fn adding(milligrams: i64, stable: bool) -> Scene {
    let reading = Reading {
        stable,
        ..filling(milligrams, goal(30_000, 1_000))
    };
    scene(reading, 4)
}

fn waiting(portions: usize) -> Scene {
    let reading = Reading {
        gross: Some(mg(0)),
        phase: Phase::AwaitDish,
        run: Some(RUN),
        ..app_samples::reading()
    };
    scene(reading, portions)
}

#[test]
fn the_way_to_the_target_is_heard_once_a_step() {
    let begun = Instant::now();
    let after = |millis| begun + Duration::from_millis(millis);
    let mut listening = Listening::default();
    assert_eq!(listening.hear(waiting(4), begun), []);
    // Far: slow and low. Near: quick and high.
    assert_eq!(
        listening.hear(adding(3_000, false), after(10)),
        [Cue::Tap(0)]
    );
    assert_eq!(listening.still(after(500)), []);
    assert_eq!(listening.still(after(1_010)), [Cue::Tap(0)]);
    assert_eq!(listening.hear(adding(28_500, false), after(1_100)), []);
    assert_eq!(
        listening.next_in(after(1_100)),
        Some(Duration::from_millis(70))
    );
    assert_eq!(listening.still(after(1_170)), [Cue::Tap(7)]);
    // A hand that waits hears nothing.
    assert_eq!(listening.hear(adding(28_500, true), after(1_400)), []);
    assert_eq!(listening.still(after(9_000)), []);
    // Reached: one tick, when it has held.
    assert_eq!(listening.hear(adding(30_200, false), after(9_100)), []);
    assert_eq!(listening.still(after(9_219)), []);
    assert_eq!(listening.still(after(9_220)), [Cue::On]);
    assert_eq!(listening.still(after(9_400)), []);
    // A spoon's push reads heavy and is not.
    assert_eq!(listening.hear(adding(33_000, false), after(9_500)), []);
    assert_eq!(listening.still(after(9_900)), []);
    assert_eq!(
        listening.hear(adding(33_000, true), after(10_000)),
        [Cue::Heavy]
    );
    assert_eq!(listening.next_in(after(10_001)), None);
}

/// Portion 5 of the samples is 28.5 g of 30 ± 1: short.
#[test]
fn a_portion_counted_is_heard_with_its_verdict_and_said() {
    assert_eq!(SHRIMP[4], 28_500);
    let now = Instant::now();
    let mut listening = Listening::default();
    listening.hear(waiting(4), now);
    let heard = listening.hear(waiting(5), now);
    assert_eq!(heard, [Cue::Captured(Verdict::Short)]);
    assert_eq!(listening.to_say().as_deref(), Some("28.5 g, short"));
    assert_eq!(listening.to_say(), None);
    assert_eq!(listening.hear(waiting(5), now), []);
    // Several at once are a run looked at anew, not portions made just now.
    assert_eq!(listening.hear(waiting(14), now), []);
}

#[test]
fn what_is_not_counted_or_not_done_is_heard() {
    let steady = Instant::now();
    let mut listening = Listening::default();
    listening.hear(waiting(4), steady);
    let moment = now();
    let goal = goal(30_000, 1_000);
    let mut bench = app_samples::linked(moment, app_samples::reading());
    bench.take_report(
        &Report::Notice {
            at: Uptime::from_millis(1),
            notice: Notice::LiftedUnsettled,
        },
        moment,
    );
    let mut made = app_samples::shrimp_portions(moment, goal);
    made.truncate(4);
    bench.run_is(Some(shrimp_run(moment, goal, made)));
    let view = live::view(
        &bench,
        moment,
        (None, &[]),
        &TimeZone::UTC,
        Language::English,
    );
    let lost = Scene::of(&view, None, Language::English);
    assert_eq!(listening.hear(lost.clone(), steady), [Cue::Refused]);
    assert_eq!(listening.hear(lost, steady), []);
    let refused = Scene::of(&view, Some(7), Language::English);
    assert_eq!(listening.hear(refused, steady), [Cue::Refused]);
    let blocked = app_samples::overload();
    let blocked = Scene::of(&blocked.bench, Some(7), Language::English);
    assert_eq!(listening.hear(blocked, steady), [Cue::Refused]);
}

fn settings(sound: SoundView) -> State {
    State {
        screen: Screen::Settings,
        sound,
        ..app_samples::idle()
    }
}

#[test]
fn sound_is_chosen_and_tried_by_touch() {
    let view = SoundView {
        plays: true,
        speaks: true,
        ..SoundView::default()
    };
    let touched = |label: &str| {
        let mut asked = Vec::new();
        let state = settings(view);
        let mut harness = Harness::builder()
            .with_size(SIZES[0])
            .with_context_setup(evenhand_app::theme::install)
            .build_ui(|ui| asked.extend(evenhand_app::shell::show(ui, &state)));
        harness.get_by_label(label).click();
        harness.run();
        drop(harness);
        asked
    };
    let usual = SoundChoice::default();
    let choice = |choice| vec![Intent::Sound(choice)];
    let volume = Volume::Loud;
    assert_eq!(touched("Loud"), choice(SoundChoice { volume, ..usual }));
    let volume = Volume::Off;
    assert_eq!(touched("Off"), choice(SoundChoice { volume, ..usual }));
    let taps = touched("Taps on the way to the target");
    assert_eq!(
        taps,
        choice(SoundChoice {
            taps: true,
            ..usual
        })
    );
    let spoken = touched("Speak each portion");
    assert_eq!(
        spoken,
        choice(SoundChoice {
            spoken: true,
            ..usual
        })
    );
    assert_eq!(
        touched("Try the tone: not counted"),
        [Intent::TryTone(Cue::Refused)]
    );
}

#[test]
fn without_a_player_the_settings_say_so() {
    let harness = harness(settings(SoundView::default()), SIZES[0]);
    harness.get_by_label(
        "This computer plays no tones: it has none of the players pw-play, paplay and aplay.",
    );
    for label in ["Loud", "Try the tone: on"] {
        assert!(harness.get_by_label(label).accesskit_node().is_disabled());
    }
}

/// From the screen to the player, through the controller; kept for the next day.
#[test]
#[cfg(unix)]
fn what_is_chosen_is_played_and_kept() {
    let programs = tempfile::tempdir().unwrap();
    fake(programs.path(), "paplay");
    fake(programs.path(), "spd-say");
    let folder = tempfile::tempdir().unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    let open = || {
        let mut controller =
            Controller::open(data.clone(), TimeZone::UTC, Vec::new(), || ()).unwrap();
        controller.let_hear(Sound::start(Some(programs.path().as_os_str())).unwrap());
        controller
    };
    let mut controller = open();
    assert!(controller.state().sound.plays && controller.state().sound.speaks);
    assert!(
        !controller.state().sound.choice.spoken,
        "speech is off at first"
    );
    let loud = SoundChoice {
        volume: Volume::Loud,
        taps: true,
        spoken: false,
    };
    controller.carry_out(Intent::Sound(loud));
    controller.carry_out(Intent::TryTone(Cue::Refused));
    // It waits for what it plays.
    drop(controller);
    let heard = files(programs.path());
    let tone = heard.iter().find(|(name, _)| name.starts_with("refused"));
    assert_eq!(tone.unwrap().1, &Cue::Refused.wav(Volume::Loud).unwrap());
    assert_eq!(open().state().sound.choice, loud);
}
