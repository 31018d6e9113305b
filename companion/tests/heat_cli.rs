//! Heat logs through the built program: recorded, corrected, taken in, written
//! out, and refused where they make no sense.

use crate::at_saltmarsh::Kitchen;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::heat::{LogName, Sampling};
use evenhand_link::{Link, Pace, Request, SimulatedDial};
use evenhand_protocol::{Mode, Temperature};
use evenhand_simulator::scenario::Scenario;
use evenhand_store::{DataFolder, NewRun, Store, StoreError};
use evenhand_use_cases::heat::{Recorder, probes};
use jiff::{SignedDuration, Timestamp};
use serde_json::Value;
use std::path::Path;
use std::time::Duration;

/// A probe that hangs in a cooling oven for ten minutes and is pulled out for
/// half a minute on the way. The cook does not touch the scale.
const OVEN: &str = r#"
title = "Saltmarsh: the oven after the fire"
mode = "adding"
dish = "Nothing"
seed = 5
[goal]
target_grams = 40
tolerance_grams = 2
[portions]
count = 1
mean_grams = 40
spread_grams = 1
[dishes]
grams = [60, 70]
[cook]
start_after_seconds = 600
[probe]
lag_seconds = 2
[[probe.medium]]
at_seconds = 0
celsius = 280
[[probe.medium]]
at_seconds = 60
celsius = 200
over_seconds = 540
[[event]]
kind = "probe-open"
at_seconds = 300
for_seconds = 30
"#;

#[test]
fn a_probe_is_recorded_into_a_named_log() {
    let kitchen = Kitchen::new();
    let scenario = kitchen.file("oven.toml", OVEN);
    let watch = [
        "heat",
        "watch",
        "--name",
        "Oven",
        "--simulated",
        "--scenario",
        &scenario,
        "--json",
        "--for",
        "5 min",
        "--marker",
        "fire out",
    ];
    let text = kitchen.words(&watch);
    let kept: Vec<Value> = text
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    // In five minutes of ten readings a second.
    assert!((5..40).contains(&kept.len()), "{}", kept.len());
    assert!(kept.iter().all(|k| k["name"] == "Oven"));
    let log = kitchen.json(&["heat", "log", "--name", "oven"]);
    assert_eq!(log["readings"].as_array().unwrap().len(), kept.len());
    assert_eq!(log["markers"][0]["words"], "fire out");
    let last = kept.last().unwrap()["celsius"].as_f64().unwrap();
    // The converter's own junction is up to 2 degC wrong, and it is linear.
    assert!((last - 280.0).abs() < 6.0, "{last}");
    let refused = kitchen.evenhand(&[&watch[..8], &["--for", "1 min", "--name", "pan"]].concat());
    assert_eq!(refused.status.code(), Some(2));
    let words = String::from_utf8(refused.stderr).unwrap();
    assert!(words.contains("reports 1 probe"), "{words}");
}

/// Begins a run, so that the scenario's hours begin, and records its probe for
/// so many minutes.
fn recorded(folder: &Path, minutes: u64) -> evenhand_store::StoredHeat {
    let store = || Store::open(&DataFolder::choose(Some(folder)).unwrap()).unwrap();
    let mut kitchen = store();
    let scenario = Scenario::from_toml(OVEN).unwrap();
    let dish = DishName::new("dish", "Nothing").unwrap();
    let goal = scenario.goal();
    kitchen
        .set_dish(&dish, goal, Mode::Adding, None, Timestamp::now())
        .unwrap();
    let run = NewRun {
        dish,
        goal,
        mode: Mode::Adding,
        cook: None,
        tin: None,
    };
    let lasting = Duration::from_secs(minutes * 60);
    let dial = SimulatedDial::new(scenario, 5, Pace::Unbounded).lasting(lasting);
    let start = Request::StartRun {
        run,
        resume: false,
        count: None,
    };
    // Nobody is outrun: the bench goes on when its last change was looked at, however busy the
    // machine is.
    let (wake, woken) = std::sync::mpsc::sync_channel(0);
    let link = Link::open(Box::new(dial), store(), Some(start), move || {
        let _ = wake.send(());
    })
    .unwrap();
    let name = LogName::new("name", "oven").unwrap();
    let mut recorder: Option<(Recorder, Timestamp)> = None;
    while woken.recv_timeout(Duration::from_secs(20)).is_ok() {
        let bench = link.live();
        let (Some((_, reading)), Some(at)) = (bench.last_reading(), bench.last_reading_at()) else {
            continue;
        };
        let (recorder, begun) = recorder.get_or_insert_with(|| {
            let rule = Sampling::KITCHEN;
            (
                Recorder::open(&mut kitchen, name.clone(), rule, at).unwrap(),
                at,
            )
        });
        if probes(reading).len() != 1 {
            panic!("the link carries one probe");
        }
        recorder
            .take(&mut kitchen, at, reading.temperature)
            .unwrap();
        if at.duration_since(*begun) >= SignedDuration::from_mins(minutes as i64) {
            break;
        }
    }
    drop(woken);
    link.close();
    // Killed, not closed: what is on record is all there is.
    store()
        .heat_log(&name, Timestamp::MIN, Timestamp::MAX)
        .unwrap()
}

// From 280 degC at one minute to 200 at ten: 280 - 80 x 7/9 = 217.8 at eight.
#[test]
fn a_falling_probe_is_followed_and_its_silence_is_a_gap() {
    let folder = tempfile::tempdir().unwrap();
    let stored = recorded(folder.path(), 8);
    let log = stored.recorded;
    assert!(
        (8..80).contains(&log.points().len()),
        "{}",
        log.points().len()
    );
    assert_eq!(
        log.gaps().len(),
        1,
        "the probe was pulled out for half a minute"
    );
    let gap = log.gaps()[0];
    let silent = gap.to.duration_since(gap.from).as_secs();
    assert!((25..=45).contains(&silent), "{silent}");
    let (last, begun) = (log.points().last().unwrap(), log.points()[0].at);
    let minutes = last.at.duration_since(begun).as_secs_f64() / 60.0;
    assert!(minutes > 6.9, "a kill loses at most a minute: {minutes}");
    let truth = 280.0 - 80.0 * (minutes - 1.0) / 9.0;
    // A linear converter whose junction is up to 2 degC wrong, a probe that lags by seconds, a
    // run that begins a moment after the bench does.
    assert!(
        (last.temperature.celsius() - truth).abs() < 6.0,
        "{last:?} {truth}"
    );
}

#[test]
fn the_record_goes_on_after_a_restart_and_shows_what_nobody_saw() {
    let folder = tempfile::tempdir().unwrap();
    let open = || Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let name = LogName::new("name", "oven").unwrap();
    let at = |seconds: i64| Timestamp::from_second(1_800_000_000 + seconds).unwrap();
    let celsius = |c: i32| Some(Temperature::from_millicelsius(c * 1_000));
    let begin = |store: &mut Store, now| {
        Recorder::open(store, name.clone(), Sampling::KITCHEN, now).unwrap()
    };
    let mut store = open();
    let mut recorder = begin(&mut store, at(0));
    for second in 0..90 {
        recorder.take(&mut store, at(second), celsius(200)).unwrap();
    }
    drop((recorder, store));
    let mut store = open();
    let mut recorder = begin(&mut store, at(100));
    for second in 100..130 {
        recorder.take(&mut store, at(second), celsius(199)).unwrap();
    }
    drop((recorder, store));
    let mut store = open();
    let mut recorder = begin(&mut store, at(900));
    recorder.take(&mut store, at(900), celsius(150)).unwrap();
    // The computer's clock is set back: nothing is written over, nothing is guessed.
    let refused = recorder.take(&mut store, at(500), celsius(150));
    assert!(matches!(refused, Err(StoreError::Heat(_))), "{refused:?}");
    recorder.take(&mut store, at(901), celsius(150)).unwrap();
    recorder.close(&mut store).unwrap();
    let log = store
        .heat_log(&name, Timestamp::MIN, Timestamp::MAX)
        .unwrap()
        .recorded;
    assert!(log.points().is_sorted_by_key(|p| p.at));
    assert_eq!(log.gaps().len(), 1);
    assert_eq!(log.gaps()[0].to, at(900));
}

/// Readings every five minutes from nine on a day.
fn table(day: &str, celsius: impl Fn(f64) -> f64, readings: u32) -> String {
    let mut text = String::from("time,celsius\n");
    for nth in 0..readings {
        let minute = nth * 5;
        text.push_str(&format!(
            "{day}T{:02}:{:02}:00Z,{:.2}\n",
            9 + minute / 60,
            minute % 60,
            celsius(f64::from(minute))
        ));
    }
    text
}

fn oven(minutes: f64) -> f64 {
    25.0 + 263.0 * (-minutes / 300.0).exp()
}

// Newton's law of cooling: from 288 degC toward 25 with a time constant of 300 minutes it is at
// 216 degC after 300 x ln(263 / 191) = 96.0 minutes: 10:36.
#[test]
fn a_stored_log_is_foretold_with_earlier_mornings() {
    let kitchen = Kitchen::new();
    for day in ["2026-05-01", "2026-05-02"] {
        let file = kitchen.file("morning.csv", &table(day, oven, 80));
        kitchen.words(&["heat", "log", "--name", "oven", "--in", &file]);
    }
    let today = kitchen.file("today.csv", &table("2026-05-03", oven, 9));
    kitchen.words(&["heat", "log", "--name", "oven", "--in", &today]);
    kitchen.words(&[
        "heat", "aim", "--name", "oven", "--from", "400degF", "--to", "420degF",
    ]);
    let asked = [
        "heat",
        "forecast",
        "--name",
        "oven",
        "--at",
        "2026-05-03T09:40:00Z",
    ];
    let answer = kitchen.json(&asked);
    assert_eq!(answer["state"], "coming");
    assert_eq!(answer["earlier_mornings"], 2);
    let truth = "2026-05-03T10:36:00Z";
    assert!(answer["enters"]["early"].as_str().unwrap() <= truth);
    assert!(answer["enters"]["late"].as_str().unwrap() >= truth);
    let alone = kitchen.json(&[
        "heat", "forecast", "--log", &today, "--from", "400degF", "--to", "420degF",
    ]);
    let width = |answer: &Value| {
        let at = |end: &str| {
            answer["enters"][end]
                .as_str()
                .unwrap()
                .parse::<jiff::Timestamp>()
                .unwrap()
        };
        at("late").duration_since(at("early"))
    };
    // A clean curve tells the time by itself; earlier mornings like it do not blur it.
    assert!(alone["enters"]["early"].as_str().unwrap() <= truth);
    assert!(alone["enters"]["late"].as_str().unwrap() >= truth);
    for told in [&answer, &alone] {
        let minutes = width(told).as_secs_f64() / 60.0;
        assert!((0.5..5.0).contains(&minutes), "{told}");
    }
    let words = kitchen.words(&asked);
    assert!(words.contains("Too hot until 10:3"), "{words}");
    // An hour after the probe was last heard it says that it does not know.
    let late = kitchen.json(&[
        "heat",
        "forecast",
        "--name",
        "oven",
        "--at",
        "2026-05-03T11:00:00Z",
    ]);
    assert_eq!(late["state"], "unknown");
}

// 57 to 21 degC within 2 h: US FDA Food Code 2022, 3-501.14(A) (from memory). A time constant of
// 132 minutes toward 3 degC takes 145 minutes by Newton's law.
#[test]
fn a_pan_too_slow_is_told_in_time_to_split_it() {
    let kitchen = Kitchen::new();
    let pan = |minutes: f64| 3.0 + 87.0 * (-minutes / 132.0_f64).exp();
    let file = kitchen.file("pan.csv", &table("2026-05-03", pan, 24));
    kitchen.words(&["heat", "log", "--name", "pan of stock", "--in", &file]);
    kitchen.words(&[
        "heat",
        "aim",
        "--name",
        "pan of stock",
        "--limit",
        "cooling",
        "--toward",
        "3degC",
    ]);
    let check = [
        "heat",
        "check",
        "--name",
        "pan of stock",
        "--at",
        "2026-05-03T10:55:00Z",
    ];
    let answer = kitchen.judged(&check, 4);
    assert_eq!(answer["findings"][0]["outcome"], "running");
    assert_eq!(answer["outlook"][0]["alarm"], "act");
    let sentence = answer["outlook"][0]["sentence"].as_str().unwrap();
    assert!(
        sentence.contains("late") && sentence.contains("split the pan, ice it"),
        "{sentence}"
    );
    let (status, words) = kitchen.told(&check);
    assert_eq!(status, 4);
    assert!(
        words.contains("ACT NOW") && words.contains("3-501.14(A)"),
        "{words}"
    );
    assert!(!words.to_lowercase().contains("safe"));
    // The same from the file, without the store.
    let from_file = [
        "heat", "check", "--limit", "cooling", "--log", &file, "--toward", "3degC",
    ];
    let answer = kitchen.judged(&from_file, 4);
    assert_eq!(answer["outlook"][0]["alarm"], "act");
}

#[test]
fn a_correction_stands_beside_the_record() {
    let kitchen = Kitchen::new();
    // Cold store at 4 degC; the probe lay on the bench for a quarter of an hour.
    let store = |minutes: f64| {
        if (60.0..75.0).contains(&minutes) {
            18.0
        } else {
            4.0
        }
    };
    let file = kitchen.file("cold.csv", &table("2026-05-03", store, 30));
    kitchen.words(&["heat", "log", "--name", "cold store", "--in", &file]);
    let check = [
        "heat",
        "check",
        "--name",
        "cold store",
        "--limit",
        "cold-holding",
        "--at",
        "2026-05-03T11:25:00Z",
    ];
    assert_eq!(
        kitchen.judged(&check, 3)["findings"][0]["outcome"],
        "broken"
    );
    let correct = [
        "heat",
        "correct",
        "--name",
        "cold store",
        "--from",
        "2026-05-03T10:00:00Z",
        "--to",
        "2026-05-03T10:14:59Z",
        "--leave-out",
        "--reason",
        "probe on the bench",
    ];
    kitchen.words(&correct);
    let corrected = kitchen.judged(&check, 4);
    // Left out, it hides what was: nobody can tell, and that is what it says.
    assert_eq!(corrected["findings"][0]["outcome"], "cannot-tell");
    assert_eq!(corrected["corrections"], 1);
    let recorded = kitchen.json(&["heat", "log", "--name", "cold store", "--as-recorded"]);
    assert_eq!(recorded["readings"].as_array().unwrap().len(), 30);
    assert_eq!(recorded["corrections"][0]["reason"], "probe on the bench");
    kitchen.words(&["heat", "correct", "--lift", "1"]);
    assert_eq!(
        kitchen.judged(&check, 3)["findings"][0]["outcome"],
        "broken"
    );
    assert!(
        kitchen
            .refused(&["heat", "correct", "--lift", "1"])
            .contains("no correction 1")
    );
    assert!(
        kitchen
            .refused(&["heat", "correct", "--lift", "x"])
            .contains("--lift")
    );
    let no_reason = [&correct[..8], &["--leave-out", "--reason", " "]].concat();
    assert!(kitchen.refused(&no_reason).contains("reason"));
}

#[test]
fn a_log_goes_out_and_comes_back_the_same() {
    let kitchen = Kitchen::new();
    let file = kitchen.file("oven.csv", &table("2026-05-03", oven, 12));
    kitchen.words(&["heat", "log", "--name", "oven", "--in", &file]);
    let out = kitchen.0.path().join("out.csv").display().to_string();
    kitchen.words(&["heat", "log", "--name", "oven", "--out", &out]);
    let text = std::fs::read_to_string(&out).unwrap();
    assert!(
        text.starts_with("time,celsius\n2026-05-03T09:00:00Z,288.000\n"),
        "{text}"
    );
    let again = kitchen.json(&["heat", "log", "--name", "oven", "--in", &out]);
    assert_eq!(again["new"], 0, "the same readings are not taken in twice");
    let other = kitchen.json(&["heat", "log", "--name", "copy", "--in", &out]);
    assert_eq!(other["new"], 12);
    assert!(
        kitchen
            .refused(&["heat", "log", "--name", "oven", "--out", &out])
            .contains("--force")
    );
    kitchen.words(&[
        "heat",
        "mark",
        "loaded",
        "--name",
        "oven",
        "--at",
        "2026-05-03T09:30:00Z",
    ]);
    assert!(
        kitchen
            .words(&["heat", "log", "--name", "oven"])
            .contains("-- loaded")
    );
    assert!(kitchen.words(&["heat", "log"]).contains("oven: "));
}

#[test]
fn a_log_that_makes_no_sense_is_refused_by_line_or_left_out_by_name() {
    let kitchen = Kitchen::new();
    let good = "2026-05-03T09:00:00Z,80\n";
    for (name, line, says) in [
        ("backward", "2026-05-03T08:00:00Z,79\n", "goes back"),
        ("twice", "2026-05-03T09:00:00Z,79\n", "stands twice"),
        ("units", "2026-05-03T09:05:00Z,174F\n", "174F"),
        ("absurd", "2026-05-03T09:05:00Z,4000\n", "4000"),
        ("word", "2026-05-03T09:05:00Z,hot\n", "hot"),
        ("offset", "2026-05-03 09:05,79\n", "offset"),
        ("columns", "2026-05-03T09:05:00Z,79,oven\n", "line 3"),
    ] {
        let text = format!("time,celsius\n{good}{line}2026-05-03T09:10:00Z,78\n");
        let file = kitchen.file(&format!("{name}.csv"), &text);
        for refused in [
            kitchen.refused(&["heat", "check", "--limit", "cooling", "--log", &file]),
            kitchen.refused(&[
                "heat", "forecast", "--log", &file, "--from", "21degC", "--to", "21degC",
            ]),
            kitchen.refused(&["heat", "log", "--name", name, "--in", &file]),
        ] {
            assert!(
                refused.contains("line 3") && refused.contains(says),
                "{name}: {refused}"
            );
        }
        let taken = kitchen.json(&["heat", "log", "--name", name, "--in", &file, "--leave-out"]);
        assert_eq!(
            (&taken["new"], &taken["gaps"]),
            (&2.into(), &1.into()),
            "{name}"
        );
        let left_out = taken["left_out"][0].as_str().unwrap();
        assert!(
            left_out.contains("line 3") && left_out.contains(says),
            "{left_out}"
        );
    }
    let header = kitchen.file("header.csv", "time,degrees\n");
    assert!(
        kitchen
            .refused(&["heat", "log", "--name", "x", "--in", &header])
            .contains("time,celsius")
    );
    // A gap is not an error: it is told, and the check does not pass over it.
    let gap = kitchen.file(
        "gap.csv",
        "time,celsius\n2026-05-03T09:00:00Z,4\n2026-05-03T12:00:00Z,4\n",
    );
    let answer = kitchen.judged(
        &["heat", "check", "--limit", "cold-holding", "--log", &gap],
        4,
    );
    assert_eq!(
        (&answer["gaps"], &answer["findings"][0]["outcome"]),
        (&1.into(), &"cannot-tell".into())
    );
    // A reading between those on record is another log's.
    let file = kitchen.file("one.csv", &table("2026-05-03", oven, 12));
    kitchen.words(&["heat", "log", "--name", "oven", "--in", &file]);
    let between = kitchen.file(
        "two.csv",
        "time,celsius\n2026-05-03T09:02:00Z,4\n2026-05-03T09:07:00Z,4\n",
    );
    assert!(
        kitchen
            .refused(&["heat", "log", "--name", "oven", "--in", &between])
            .contains("different names")
    );
    for (arguments, says) in [
        (
            vec!["heat", "watch", "--name", "x"],
            "--port or --simulated",
        ),
        (
            vec!["heat", "watch", "--name", " ", "--simulated"],
            "--name",
        ),
        (
            vec![
                "heat",
                "watch",
                "--name",
                "x",
                "--simulated",
                "--for",
                "long",
            ],
            "--for",
        ),
        (vec!["heat", "mark", " ", "--name", "oven"], "TEXT"),
        (vec!["heat", "mark", "x", "--name", "kiln"], "known are"),
        (
            vec!["heat", "aim", "--name", "oven", "--limit", "nothing"],
            "--limit",
        ),
        (
            vec![
                "heat", "aim", "--name", "oven", "--from", "9degC", "--to", "8degC",
            ],
            "lower end",
        ),
        (vec!["heat", "check", "--name", "oven"], "--limit is needed"),
        (
            vec!["heat", "forecast", "--name", "oven"],
            "--from and --to",
        ),
        (
            vec![
                "heat", "check", "--name", "oven", "--limit", "cooling", "--back", "-1 h",
            ],
            "--back",
        ),
    ] {
        let refused = kitchen.refused(&arguments);
        assert!(refused.contains(says), "{arguments:?}: {refused}");
    }
}

#[test]
fn the_kitchens_own_limits_stand_in_the_data_folder() {
    let kitchen = Kitchen::new();
    let data = kitchen.0.path().join("data");
    std::fs::create_dir_all(&data).unwrap();
    let own = "[[limit]]\nname = 'cold-holding'\nkind = 'at-most'\ncelsius = 3\nsource = 'Estuary county, 2025'\n";
    std::fs::write(Path::new(&data).join("limits.toml"), own).unwrap();
    let file = kitchen.file("cold.csv", &table("2026-05-03", |_| 4.0, 5));
    let answer = kitchen.judged(
        &["heat", "check", "--limit", "cold-holding", "--log", &file],
        3,
    );
    assert_eq!(answer["findings"][0]["outcome"], "broken");
    assert!(
        answer["limit_source"]
            .as_str()
            .unwrap()
            .contains("Estuary county")
    );
    std::fs::write(Path::new(&data).join("limits.toml"), "[[limit]]\n").unwrap();
    let refused = kitchen.refused(&["heat", "check", "--limit", "cold-holding", "--log", &file]);
    assert!(refused.contains("limits.toml"), "{refused}");
}

// Ten minutes at 70 degC count for ten minutes at 70 degC whatever z is, by the definition of a
// lethal rate, 10^((T - Tref) / z) (W. D. Bigelow's general method; from memory).
#[test]
fn lethality_is_a_figure_with_its_source() {
    let kitchen = Kitchen::new();
    let file = kitchen.file("core.csv", &table("2026-05-03", |_| 70.0, 3));
    let base = ["heat", "check", "--limit", "cook-minced", "--log", &file];
    let more = [
        "--reference",
        "70degC",
        "--z",
        "7.5degC",
        "--z-source",
        "a worked example",
    ];
    let answer = kitchen.json(&[&base[..], &more[..]].concat());
    let counted = answer["lethality"]["equivalent_minutes"].as_f64().unwrap();
    assert!((counted - 10.0).abs() < 1e-6, "{counted}");
    assert_eq!(answer["lethality"]["source"], "a worked example");
    let refused = kitchen.refused(&[&base[..], &more[..5], &[" "]].concat());
    assert!(refused.contains("source"), "{refused}");
    // 6 log10 of Listeria in 2 minutes at 70 degC (New Zealand MPI 2016/05, quoted): 30 in ten.
    let answer = kitchen.json(&[&base[..], &["--organism", "listeria-meat"]].concat());
    let counted = answer["log_reductions"]["log10"].as_f64().unwrap();
    assert!((counted - 30.0).abs() < 1e-6, "{counted}");
    let refused = kitchen.refused(&[&base[..], &["--organism", "everything"]].concat());
    assert!(refused.contains("listeria-meat"), "{refused}");
    // A probe that may be out by 8 degC leaves it too close to say: 62 degC meets no line.
    let close = ["--probe-within", "8degC"];
    assert_eq!(
        kitchen.judged(&[&base[..], &close[..]].concat(), 4)["outcome"],
        "too-close"
    );
}

// JCGM 100, 4.3.7, worked by hand for IEC 60584-1 class 2 of type K, 2.5 degC (from memory), a
// converter of 0.25 and a cold junction of 2 degC: 2 sqrt((2.5^2 + 0.25^2 + 2^2) / 3) = 3.71.
#[test]
fn a_probes_chain_says_how_far_it_may_be_out() {
    let kitchen = Kitchen::new();
    let chain = [
        "heat",
        "probe",
        "--type",
        "K",
        "--class",
        "2",
        "--converter",
        "0.25degC",
        "--cold-junction",
        "2degC",
    ];
    let told = kitchen.json(&chain);
    assert!((told["within_celsius"].as_f64().unwrap() - 3.708).abs() < 0.002);
    assert_eq!(told["coverage_factor"], 2);
    let refused = kitchen.refused(&["heat", "probe"]);
    assert!(refused.contains("--type is needed"), "{refused}");
    let refused = kitchen.refused(&[&chain[..5], &["3"], &chain[6..]].concat());
    assert!(refused.contains("class is 3"), "{refused}");
    // Written in the limits file it is in every judgement: 64 degC by that probe may be under 63.
    let limits = kitchen.file(
        "chain.toml",
        "[probe]\ntype = \"k\"\nclass = 2\nconverter-celsius = 0.25\ncold-junction-celsius = 2\n",
    );
    let core = kitchen.file("core.csv", &table("2026-05-03", |_| 64.0, 3));
    let check = [
        "heat",
        "check",
        "--limit",
        "cook-fish-whole-cut",
        "--log",
        &core,
    ];
    assert_eq!(kitchen.judged(&check, 0)["outcome"], "kept");
    let close = kitchen.judged(&[&check[..], &["--local", &limits]].concat(), 4);
    assert_eq!(close["outcome"], "too-close");
    assert!(
        close["probe"].as_str().unwrap().contains("type K class 2"),
        "{close}"
    );
    let both = kitchen.file("both.toml", "probe-within-celsius = 1\n[probe]\ntype = \"k\"\nclass = 2\nconverter-celsius = 0.25\ncold-junction-celsius = 2\n");
    let refused = kitchen.refused(&[&check[..], &["--local", &both]].concat());
    assert!(refused.contains("take one out"), "{refused}");
}

// US FDA Food Code 2022, 3-501.16(A)(2) (quoted): at most 5 degC; 3-401.11(B) (from memory): a
// whole roast at 70 degC is done in an instant.
#[test]
fn a_lot_is_held_against_its_limits_step_by_step() {
    let kitchen = Kitchen::new();
    let cold = kitchen.file("cold.csv", &table("2026-05-02", |_| 3.5, 60));
    let core = kitchen.file("core.csv", &table("2026-05-03", |m| 40.0 + m / 3.0, 37));
    kitchen.words(&["heat", "log", "--name", "walk-in", "--in", &cold]);
    kitchen.words(&["heat", "log", "--name", "neck core", "--in", &core]);
    let text = "title = 'Saltmarsh neck, lot 12'
        [[step]]
        name = 'brine'
        from = '2026-05-02T09:00:00Z'
        to = '2026-05-02T13:55:00Z'
        log = 'walk-in'
        limit = 'cold-holding'
        [[step]]
        name = 'smoke'
        from = '2026-05-03T09:00:00Z'
        to = '2026-05-03T13:00:00Z'
        log = 'neck core'
        limit = 'cook-roast'
        [[step]]
        name = 'bag'
        from = '2026-05-03T13:00:00Z'
        to = '2026-05-03T13:10:00Z'
        ";
    let lot = kitchen.file("lot.toml", text);
    let sheet = kitchen.0.path().join("lot.pdf");
    let sheet = sheet.to_str().unwrap();
    let told = kitchen.judged(&["lot", "check", &lot, "--sheet", sheet], 0);
    assert_eq!(told["outcome"], "kept");
    assert_eq!(told["steps"][1]["outcome"], "kept");
    // Nobody read the last hour of the smoke, nor the night between.
    assert_eq!(told["steps"][1]["not_read"].as_array().unwrap().len(), 1);
    assert_eq!(told["between"].as_array().unwrap().len(), 1);
    assert!(told["steps"][2]["outcome"].is_null());
    let pages = lopdf::Document::load(sheet).unwrap();
    let numbers: Vec<u32> = pages.get_pages().keys().copied().collect();
    let words = pages.extract_text(&numbers).unwrap();
    // The writer sets letter by letter.
    let words: String = words.split_whitespace().collect();
    for said in ["Saltmarshneck,lot12", "cold-holding", "notwatched"] {
        assert!(words.contains(said), "{said}: {words}");
    }
    // The same page in another language.
    let in_french = kitchen.0.path().join("lot-fr.pdf");
    let in_french = in_french.to_str().unwrap();
    kitchen.words(&[
        "--language",
        "fr",
        "lot",
        "check",
        &lot,
        "--sheet",
        in_french,
    ]);
    let pages = lopdf::Document::load(in_french).unwrap();
    let words = pages.extract_text(&numbers).unwrap();
    let words: String = words.split_whitespace().collect();
    assert!(words.contains("sanssurveillance"), "{words}");
    // What has to be kept all along and was not seen all along is not within.
    let longer = kitchen.file("longer.toml", &text.replacen("13:55", "18:00", 1));
    let told = kitchen.judged(&["lot", "check", &longer], 4);
    assert_eq!(told["steps"][0]["outcome"], "cannot-tell");
    // A hotter walk-in is over.
    let warm = kitchen.file("warm.csv", &table("2026-05-02", |_| 9.0, 60));
    kitchen.words(&["heat", "log", "--name", "warm room", "--in", &warm]);
    let over = kitchen.file("over.toml", &text.replacen("walk-in", "warm room", 1));
    assert_eq!(
        kitchen.judged(&["lot", "check", &over], 3)["outcome"],
        "broken"
    );
    for (was, is, says) in [
        ("cold-holding", "cold-hold", "there is no limit 'cold-hold'"),
        ("neck core", "neck cores", "neck cores"),
        ("name = 'bag'", "nome = 'bag'", "cannot be read"),
        ("13:10:00Z", "12:10:00Z", "ends before it begins"),
    ] {
        let bad = kitchen.file("bad.toml", &text.replacen(was, is, 1));
        let refused = kitchen.refused(&["lot", "check", &bad]);
        assert!(refused.contains(says), "{refused}");
    }
}
