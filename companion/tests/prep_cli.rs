//! The prep clock, par and the melt clock through the built program.

use crate::at_saltmarsh::Kitchen;
use serde_json::Value;

const TRADE_MENU: &str = include_str!("data/trade-menu.toml");

/// A Friday.
const FRIDAY: &str = "2026-05-08";

fn step<'a>(plan: &'a Value, preparation: &str, name: &str) -> &'a Value {
    plan["steps"]
        .as_array()
        .unwrap()
        .iter()
        .find(|s| s["preparation"] == preparation && s["step"] == name)
        .unwrap()
}

fn with_menu() -> Kitchen {
    let kitchen = Kitchen::new();
    let menu = kitchen.file("menu.toml", TRADE_MENU);
    kitchen.words(&["prep", "menu", "--keep", &menu]);
    kitchen
}

// Fish at 15:30 is there at 15:40 and cut at 16:40: 80 minutes to spare before 18:00, 20 when it
// comes an hour late. Sunday's necks go into the brine two days, 3 h and 30 min before 18:00.
#[test]
fn the_day_is_planned_from_the_record_with_the_services_after_it() {
    let kitchen = with_menu();
    let plan = [
        "prep",
        "plan",
        "--for",
        FRIDAY,
        "--at",
        "2026-05-08T10:00:00Z",
    ];
    let whole = kitchen.json(&plan);
    assert_eq!(
        step(&whole, "mussels", "wash and beard")["slack_minutes"],
        80
    );
    let sunday = step(&whole, "Sun necks", "into the brine");
    assert_eq!(sunday["latest_start"], "2026-05-08T14:30:00Z");
    assert_eq!(sunday["service"], "2026-05-10T18:00:00Z");
    let late = kitchen.json(&[&plan[..], &["--what-if", "mussels +1h"]].concat());
    assert_eq!(
        step(&late, "mussels", "wash and beard")["slack_minutes"],
        20
    );
    assert_eq!(late["moved_by_what_if"][0], "mussels: delivery");
    assert_eq!(late["late_minutes"], whole["late_minutes"], "it still fits");
    let none = step(&whole, "oatcakes", "bake")["note"].as_str().unwrap();
    assert!(none.contains("nobody knows"), "{none}");
}

#[test]
fn what_is_told_stays_told_until_it_is_undone() {
    let kitchen = with_menu();
    let at = ["--at", "2026-05-08T16:00:00Z"];
    let plan = [&["prep", "plan", "--for", FRIDAY][..], &at].concat();
    let standing = |name: &str| {
        let plan = kitchen.json(&plan);
        step(&plan, "mussels", name)["standing"]
            .as_str()
            .unwrap()
            .to_owned()
    };
    let tick = |more: &[&str]| {
        let base = ["prep", "tick", "mussels: delivery", "--for", FRIDAY];
        kitchen.words(&[&base[..], more].concat())
    };
    tick(&["--begun", "--at", "2026-05-08T15:35:00Z"]);
    assert_eq!(standing("delivery"), "under-way");
    tick(&["--at", "2026-05-08T15:45:00Z"]);
    assert_eq!(standing("delivery"), "done");
    tick(&["--undo", "--at", "2026-05-08T15:50:00Z"]);
    assert_ne!(standing("delivery"), "done");
    kitchen.words(&[
        "prep",
        "delay",
        "mussels: delivery",
        "--for",
        FRIDAY,
        "--until",
        "2026-05-08T17:30:00Z",
    ]);
    let plan = kitchen.json(&plan);
    // 17:30 and 10 minutes and an hour: 18:40.
    assert!(plan["late_minutes"].as_i64().unwrap() >= 40);
    assert_eq!(step(&plan, "mussels", "wash and beard")["standing"], "late");
}

#[test]
fn the_oven_moves_the_oatcakes() {
    let kitchen = with_menu();
    let plan = |at: &str| {
        let plan = kitchen.json(&["prep", "plan", "--for", FRIDAY, "--at", at]);
        step(&plan, "oatcakes", "bake").clone()
    };
    let early = plan("2026-05-08T09:40:00Z");
    assert_eq!(early["earliest_start"], "2026-05-08T09:40:00Z");
    // By Newton's law of cooling from 288 degC toward 25: with a time constant of 300 minutes it
    // is at 216 degC (420 degF) after 96 minutes and at 204 (400 degF) 19 minutes later, too short
    // for 25 minutes of baking; with 1200 it is there at 15:24, and leaves at 16:42.
    let fall = |kitchen: &Kitchen, time_constant: f64, readings: i32| {
        let mut text = String::from("time,celsius\n");
        for nth in 0..readings {
            let minute = nth * 5;
            let celsius = 25.0 + 263.0 * (-f64::from(minute) / time_constant).exp();
            let (hour, minute) = (9 + minute / 60, minute % 60);
            text.push_str(&format!(
                "2026-05-08T{hour:02}:{minute:02}:00Z,{celsius:.2}\n"
            ));
        }
        kitchen.file("oven.csv", &text)
    };
    let file = fall(&kitchen, 300.0, 9);
    kitchen.words(&["heat", "log", "--name", "oven", "--in", &file]);
    let bake = plan("2026-05-08T09:40:00Z");
    assert_eq!(bake["no_time_for_it"], true, "{bake}");
    let note = bake["note"].as_str().unwrap();
    assert!(note.contains("in its band likely at"), "{note}");

    let kitchen = with_menu();
    let file = fall(&kitchen, 1_200.0, 77);
    kitchen.words(&["heat", "log", "--name", "oven", "--in", &file]);
    let at = "2026-05-08T15:20:00Z";
    let whole = kitchen.json(&["prep", "plan", "--for", FRIDAY, "--at", at]);
    let bake = step(&whole, "oatcakes", "bake");
    assert_eq!(bake["no_time_for_it"], false, "{bake}");
    let time = |field: &str| -> jiff::Timestamp { bake[field].as_str().unwrap().parse().unwrap() };
    let [enters, leaves] = ["2026-05-08T15:20:00Z", "2026-05-08T16:43:00Z"].map(|text| {
        let known: jiff::Timestamp = text.parse().unwrap();
        known
    });
    // Entering is a not-before, leaving a deadline.
    assert!(
        time("earliest_start") >= enters && time("done_by") <= leaves,
        "{bake}"
    );
}

// By hand: on three mornings the oven is lit at five, has 250 degC at six and falls by a quarter of a
// degree a minute: 137.8 min later it is at 215.56 degC (420 degF) and 182.2 min later at 204.44
// (400), so 198 and 242 min after it was lit. Lit now, at nine, it is in its band from 12:17 to 13:02,
// which the 25 minutes of baking fit into.
#[test]
fn an_oven_that_is_out_is_lit_again_by_what_it_did_before() {
    let kitchen = with_menu();
    let mut text = String::from("time,celsius\n");
    let mut log = |day: u32, from: u32, to: u32, celsius: &dyn Fn(f64) -> f64| {
        for minute in (from..=to).step_by(5) {
            let (hour, rest) = (minute / 60, minute % 60);
            let celsius = celsius(f64::from(minute));
            text.push_str(&format!(
                "2026-05-{day:02}T{hour:02}:{rest:02}:00Z,{celsius:.3}\n"
            ));
        }
    };
    let morning = |minute: f64| match minute - 300.0 {
        warming if warming < 60.0 => 22.0 + 228.0 * warming / 60.0,
        falling => 250.0 - 0.25 * (falling - 60.0),
    };
    for day in [5, 6, 7] {
        log(day, 300, 660, &morning);
    }
    log(8, 360, 540, &|_| 22.0);
    let file = kitchen.file("oven.csv", &text);
    kitchen.words(&["heat", "log", "--name", "oven", "--in", &file]);
    let bake = || {
        let at = "2026-05-08T09:00:00Z";
        let plan = kitchen.json(&["prep", "plan", "--for", FRIDAY, "--at", at]);
        step(&plan, "oatcakes", "bake").clone()
    };
    let lit = |day: u32| {
        let at = format!("2026-05-{day:02}T05:00:00Z");
        kitchen.words(&["heat", "mark", "lit", "--name", "oven", "--at", &at]);
    };
    lit(5);
    lit(6);
    let note = bake()["note"].as_str().unwrap().to_owned();
    assert!(!note.contains("light the oven"), "two tell nothing: {note}");
    lit(7);
    let told = bake();
    let note = told["note"].as_str().unwrap();
    let says =
        "does not come to its band; light the oven again: then begin from 12:17, done by 13:02";
    assert!(note.contains(says), "{note}");
    assert_eq!(told["no_time_for_it"], false, "{told}");
    assert!(
        told["earliest_start"]
            .as_str()
            .unwrap()
            .starts_with("2026-05-08T12:17"),
        "{told}"
    );
}

#[test]
fn the_days_list_is_a_page_to_print() {
    let kitchen = with_menu();
    kitchen.words(&[
        "prep",
        "tick",
        "necks: roast",
        "--for",
        FRIDAY,
        "--at",
        "2026-05-08T09:00:00Z",
    ]);
    let out = kitchen.0.path().join("list.txt").display().to_string();
    let list = [
        "prep",
        "list",
        "--for",
        FRIDAY,
        "--at",
        "2026-05-08T10:00:00Z",
    ];
    let page = kitchen.words(&list);
    kitchen.words(&[&list[..], &["--out", &out]].concat());
    assert_eq!(
        std::fs::read_to_string(&out).unwrap().trim_end(),
        page.trim_end()
    );
    assert!(page.starts_with("PREP FOR Friday 8 May 2026"), "{page}");
    assert!(
        page.contains("[ ] ") && page.contains("mussels: wash and beard [hands]"),
        "{page}"
    );
    assert!(page.contains("Sun necks: into the brine"), "{page}");
    assert!(page.contains("[x] necks: roast"), "{page}");
    assert!(
        !page.contains("Sun mussels"),
        "Sunday's fish is not today's work: {page}"
    );
    assert!(
        page.lines().all(|line| line.chars().count() <= 100),
        "{page}"
    );
    assert!(
        kitchen
            .refused(&[&list[..], &["--out", &out]].concat())
            .contains("--force")
    );
}

// By hand: three services of 20, 30 and 40 covers with 10, 15 and 24 portions made and none left:
// shares 0.5, 0.5, 0.6, mean 0.5333, standard deviation 0.0577. For 30 covers: 16 likely, 18
// ready. 3 are left: 15 to make, of 30 g each; 420 g lost of 1000 g is a yield of 0.58, so 776 g.
#[test]
fn par_covers_what_past_services_and_purchases_say() {
    let kitchen = with_menu();
    for (day, covers) in [
        ("2026-05-01", "20"),
        ("2026-05-02", "30"),
        ("2026-05-03", "40"),
    ] {
        kitchen.words(&["prep", "covers", covers, "--for", day]);
    }
    kitchen.words(&[
        "dish",
        "add",
        "Mussels",
        "--target",
        "30g",
        "--tolerance",
        "1g",
        "--adding",
    ]);
    let par = [
        "prep", "par", "--dish", "mussels", "--for", FRIDAY, "--covers", "30",
    ];
    assert!(
        kitchen.refused(&par).contains("--per-cover"),
        "nothing was portioned yet"
    );
    let said = kitchen.json(&[&par[..], &["--per-cover", "0.5"]].concat());
    // A single saying: a tenth to spare. 15 likely, 16.5 ready.
    assert_eq!(
        (&said["portions_likely"], &said["portions_ready"]),
        (&15.into(), &17.into())
    );
    assert_eq!(said["yield"], Value::Null);
    kitchen.words(&["prep", "left", "mussels", "3", "--for", "2026-05-07"]);
    kitchen.words(&["tin", "open", "--dish", "mussels", "--net", "1000g"]);
    kitchen.words(&["yield", "lose", "1", "trim", "420g"]);
    let answer = kitchen.json(&[&par[..], &["--per-cover", "0.5", "--in-hand", "200g"]].concat());
    assert_eq!(answer["portions_to_make"], 14);
    let start = answer["start_with_grams"].as_f64().unwrap();
    assert!((start - 14.0 * 30.0 / 0.58).abs() < 0.1, "{start}");
    let order = answer["order_grams"].as_f64().unwrap();
    assert!((order - (start - 200.0)).abs() < 0.1, "{order}");
    assert_eq!(answer["start_by"].as_str().map(|t| &t[..10]), Some(FRIDAY));
    for (more, says) in [
        (["--per-cover", "0"], "--per-cover"),
        (["--yield", "1.2"], "--yield"),
        (["--left", "-1"], "--left"),
        (["--in-hand", "5"], "--in-hand"),
    ] {
        let refused = kitchen.refused(&[&par[..], &more].concat());
        assert!(refused.contains(says), "{more:?}: {refused}");
    }
}

#[test]
fn past_services_are_counted_from_the_portions_on_record() {
    let kitchen = Kitchen::new();
    let portion = kitchen.words(&[
        "portion",
        "--dish",
        "Parfait",
        "--target",
        "45g",
        "--tolerance",
        "2g",
        "--count",
        "10",
        "--simulated",
        "--scenario",
        "saltmarsh-parfait",
        "--adding",
    ]);
    assert!(portion.contains("Parfait"), "{portion}");
    let now = jiff::Timestamp::now();
    // A service's day begins at four.
    let today = now
        .checked_sub(jiff::SignedDuration::from_hours(4))
        .unwrap()
        .to_string()[..10]
        .to_owned();
    let date: jiff::civil::Date = today.parse().unwrap();
    let tomorrow = date.tomorrow().unwrap().to_string();
    let portions = kitchen.json(&["spread", "--dish", "parfait"])["n"]
        .as_i64()
        .unwrap();
    kitchen.words(&["prep", "covers", "20", "--for", &today]);
    kitchen.words(&["prep", "left", "parfait", "2", "--for", &today]);
    let answer = kitchen.json(&[
        "prep", "par", "--dish", "parfait", "--for", &tomorrow, "--covers", "20",
    ]);
    assert_eq!(answer["past_services"], 1);
    assert_eq!(answer["portions_likely"], portions - 2);
    assert_eq!(answer["portions_left"], 2);
}

// Ten scoops at four to six seconds each take the better part of a minute, and more than ten
// seconds.
#[test]
fn the_melt_clock_is_in_the_summary() {
    let kitchen = Kitchen::new();
    let portion = [
        "portion",
        "--dish",
        "Parfait",
        "--target",
        "45g",
        "--tolerance",
        "2g",
        "--count",
        "10",
        "--simulated",
        "--scenario",
        "saltmarsh-parfait",
        "--adding",
        "--json",
    ];
    let summary = || {
        let text = kitchen.words(&portion);
        let last: Value = serde_json::from_str(text.lines().last().unwrap()).unwrap();
        last["summary"]["melt"].clone()
    };
    assert_eq!(summary(), Value::Null, "no limit is set");
    kitchen.words(&["dish", "melt", "parfait", "10 s"]);
    let melt = summary();
    let out = melt["out_seconds"].as_i64().unwrap();
    assert!((30..240).contains(&out), "{melt}");
    assert_eq!(melt["over_seconds"], out - 10);
    kitchen.words(&["dish", "melt", "parfait", "1 h"]);
    assert_eq!(summary()["over_seconds"], 0);
    kitchen.words(&["dish", "melt", "parfait", "off"]);
    assert_eq!(summary(), Value::Null);
    assert!(
        kitchen
            .refused(&["dish", "melt", "parfait", "1 s"])
            .contains("10 s to 2 h")
    );
    assert!(
        kitchen
            .refused(&["dish", "melt", "parfait", "soon"])
            .contains("LIMIT")
    );
    assert!(
        kitchen
            .refused(&["dish", "melt", "eel", "5 min"])
            .contains("no dish")
    );
}

#[test]
fn nonsense_is_refused_by_name() {
    let kitchen = Kitchen::new();
    let plan =
        |more: &[&str]| kitchen.refused(&[&["prep", "plan", "--for", FRIDAY][..], more].concat());
    kitchen.words(&["prep", "covers", "24", "--for", FRIDAY]);
    assert!(plan(&[]).contains("no menu is on record"));
    let bad = kitchen.file("bad.toml", "opens = \"late\"\npreparation = []\n");
    assert!(
        kitchen
            .refused(&["prep", "menu", "--keep", &bad])
            .contains("opens is 'late'")
    );
    assert!(plan(&["--menu", &bad]).contains("opens"));
    let menu = kitchen.file("menu.toml", TRADE_MENU);
    kitchen.words(&["prep", "menu", "--keep", &menu]);
    assert!(kitchen.words(&["prep", "menu"]).contains("days ="));
    assert!(plan(&["--what-if", "eels +1h"]).contains("--what-if"));
    assert!(plan(&["--what-if", "mussels"]).contains("fish +1h"));
    assert!(plan(&["--days-ahead", "99"]).contains("--days-ahead"));
    assert!(plan(&["--at", "noon"]).contains("--at"));
    for (arguments, says) in [
        (
            vec!["prep", "tick", "eels: skin", "--for", FRIDAY],
            "there are mussels: delivery",
        ),
        (
            vec![
                "prep",
                "delay",
                "mussels: delivery",
                "--for",
                FRIDAY,
                "--until",
                "4",
            ],
            "--until",
        ),
        (vec!["prep", "covers", "many", "--for", FRIDAY], "COVERS"),
        (vec!["prep", "covers", "20", "--for", "friday"], "--for"),
        (vec!["prep", "left", "eel", "2", "--for", FRIDAY], "no dish"),
        (
            vec![
                "prep", "par", "--dish", "eel", "--for", FRIDAY, "--covers", "2",
            ],
            "no dish",
        ),
    ] {
        let refused = kitchen.refused(&arguments);
        assert!(refused.contains(says), "{arguments:?}: {refused}");
    }
}
