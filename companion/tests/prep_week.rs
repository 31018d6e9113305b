//! Batches that feed services, through the built program.

use crate::at_saltmarsh::Kitchen;
use serde_json::Value;

/// Necks made 24 at a time keep four days; 8 are needed a service, as the menu says. Rolls are
/// baked for each service.
const MENU: &str = r#"
opens = "18:00"
closes = "22:00"
days = ["mon", "tue", "wed", "thu", "fri"]
[[resource]]
name = "hands"
places = 2
[[preparation]]
name = "necks"
[preparation.batch]
portions = 24
keeps = "4 days"
source = "the kitchen's own"
needs = 8
[[preparation.step]]
name = "brine"
takes = "30 min"
needs = "hands"
[[preparation.step]]
name = "roast"
takes = "3 h"
[[preparation]]
name = "rolls"
[[preparation.step]]
name = "bake"
takes = "1 h"
needs = "hands"
"#;

fn with_menu(menu: &str) -> Kitchen {
    let kitchen = Kitchen::new();
    let menu = kitchen.file("menu.toml", menu);
    kitchen.words(&["prep", "menu", "--keep", &menu]);
    kitchen
}

/// Monday.
const MONDAY: &str = "2026-05-04";
const TUESDAY: &str = "2026-05-05";

fn plan(kitchen: &Kitchen, day: &str, at: &str, more: &[&str]) -> Value {
    let base = [
        "prep",
        "plan",
        "--for",
        day,
        "--at",
        at,
        "--days-ahead",
        "0",
    ];
    kitchen.json(&[&base[..], more].concat())
}

fn supply<'a>(plan: &'a Value, preparation: &str) -> &'a Value {
    let all = plan["supply"].as_array().unwrap();
    all.iter()
        .find(|s| s["preparation"] == preparation)
        .unwrap()
}

fn steps_of(plan: &Value, preparation: &str) -> Vec<String> {
    let steps = plan["steps"].as_array().unwrap().iter();
    steps
        .filter(|s| s["preparation"] == preparation)
        .map(|s| s["step"].as_str().unwrap().to_owned())
        .collect()
}

/// Monday's batch was finished on Monday at 16:00.
fn made_on_monday(kitchen: &Kitchen) {
    let tick = ["prep", "tick", "necks: roast", "--for", MONDAY];
    kitchen.words(&[&tick[..], &["--at", "2026-05-04T16:00:00Z"]].concat());
}

fn dish(kitchen: &Kitchen, name: &str) {
    let add = [
        "dish",
        "add",
        name,
        "--target",
        "150g",
        "--tolerance",
        "5g",
        "--adding",
    ];
    kitchen.words(&add);
}

#[test]
fn what_is_in_stock_has_no_steps_and_says_from_when() {
    let kitchen = with_menu(MENU);
    dish(&kitchen, "necks");
    let monday = plan(&kitchen, MONDAY, "2026-05-04T09:00:00Z", &[]);
    assert_eq!(steps_of(&monday, "necks"), ["brine", "roast"]);
    assert_eq!(supply(&monday, "necks")["why"]["why"], "short");
    made_on_monday(&kitchen);
    // Monday took 8 of 24: 16 were left.
    kitchen.words(&["prep", "left", "necks", "16", "--for", MONDAY]);
    let at = "2026-05-05T09:00:00Z";
    let tuesday = plan(&kitchen, TUESDAY, at, &[]);
    assert_eq!(steps_of(&tuesday, "necks"), Vec::<String>::new());
    assert_eq!(steps_of(&tuesday, "rolls"), ["bake"]);
    let fed = supply(&tuesday, "necks");
    assert_eq!(
        (&fed["in_stock"], &fed["make_batches"]),
        (&16.into(), &0.into())
    );
    // Four days from Monday 16:00.
    assert_eq!(fed["stock"][0]["use_by"], "2026-05-08T16:00:00Z");
    let page = kitchen.words(&["prep", "list", "--for", TUESDAY, "--at", at]);
    let says = "necks: in stock 16 from Mon 4 May, 16:00, use by Fri 8 May, 16:00";
    assert!(page.contains(says), "{page}");
    assert!(!page.contains("necks: roast"), "{page}");
    assert!(
        tuesday["dishes"]
            .as_array()
            .unwrap()
            .iter()
            .all(|d| d["preparation"] != "necks"),
        "{tuesday}"
    );
    // Somebody begins one all the same: it is planned.
    let begun = [
        "prep",
        "tick",
        "necks: brine",
        "--begun",
        "--for",
        TUESDAY,
        "--at",
        at,
    ];
    kitchen.words(&begun);
    let tuesday = plan(&kitchen, TUESDAY, "2026-05-05T09:10:00Z", &[]);
    assert_eq!(steps_of(&tuesday, "necks"), ["brine", "roast"]);
    assert_eq!(supply(&tuesday, "necks")["why"]["why"], "begun");
}

// By hand: 24 made on Monday, 8 left on Wednesday evening; Thursday needs 8, Friday 8. What is
// left on Thursday is none, and the batch is past its keeping at Friday's service, Friday 16:00.
// The whole week before anything happened: Monday's batch feeds Monday to Wednesday, Thursday's
// Thursday and Friday.
#[test]
fn the_week_is_a_page() {
    let kitchen = with_menu(MENU);
    let week = |at: &str| {
        let week = kitchen.json(&["prep", "week", "--from", MONDAY, "--at", at]);
        let rows = week["preparations"].as_array().unwrap().clone();
        let of = |name: &str| -> Vec<String> {
            let row = rows.iter().find(|row| row["preparation"] == name).unwrap();
            let cells = row["days"].as_array().unwrap().iter();
            cells
                .map(|cell| match cell["cell"].as_str().unwrap() {
                    "stock" => format!("stock {}", cell["portions"]),
                    other => other.to_owned(),
                })
                .collect()
        };
        (of("necks"), of("rolls"))
    };
    let (necks, rolls) = week("2026-05-04T09:00:00Z");
    assert_eq!(
        necks,
        [
            "make", "stock 16", "stock 8", "make", "stock 16", "off", "off"
        ]
    );
    assert_eq!(
        rolls,
        ["make", "make", "make", "make", "make", "off", "off"]
    );
    let page = kitchen.words(&[
        "prep",
        "week",
        "--from",
        MONDAY,
        "--at",
        "2026-05-04T09:00:00Z",
    ]);
    assert!(page.lines().count() <= 10, "{page}");
    assert!(
        page.lines().all(|line| line.chars().count() <= 80),
        "{page}"
    );
    assert!(
        page.contains("Mon 4") && page.contains("stock 16"),
        "{page}"
    );
    made_on_monday(&kitchen);
    assert_eq!(week("2026-05-04T17:00:00Z").0[0], "made");
    // What is not known on five days is said once.
    let kitchen = with_menu(&MENU.replace("needs = 8", "per_cover = 0.4"));
    let page = kitchen.words(&[
        "prep",
        "week",
        "--from",
        MONDAY,
        "--at",
        "2026-05-04T09:00:00Z",
    ]);
    assert!(
        page.contains("Mon, Tue, Wed, Thu, Fri: necks: make a batch of 24;"),
        "{page}"
    );
    assert_eq!(page.matches("are needed").count(), 1, "{page}");
}

/// When a batch's step is begun and done by a plan.
fn span(plan: &Value, batch: &str, step: &str) -> (String, String) {
    let steps = plan["steps"].as_array().unwrap();
    let it = |s: &&Value| s["preparation"] == batch && s["step"] == step;
    let found = steps.iter().find(it).unwrap();
    let time = |field: &str| found[field].as_str().unwrap().to_owned();
    (time("start_by"), time("done_by"))
}

// By hand: 40 are needed and a batch makes 24, so two are made, in one oven one after the other,
// three hours each. The first is ticked by its own name and the second by its own; then 48 are
// there, and Tuesday needs none of 40 made when Monday left 41.
#[test]
fn two_batches_are_two_on_the_plan_and_ticked_one_by_one() {
    let oven = "[[resource]]\nname = \"oven\"\nplaces = 1\n[[preparation]]\nname = \"necks\"";
    let menu = MENU
        .replace("[[preparation]]\nname = \"necks\"", oven)
        .replace("takes = \"3 h\"", "takes = \"3 h\"\nneeds = \"oven\"")
        .replace("needs = 8", "needs = 40");
    let kitchen = with_menu(&menu);
    dish(&kitchen, "necks");
    let at = "2026-05-04T09:00:00Z";
    let monday = plan(&kitchen, MONDAY, at, &[]);
    assert_eq!(steps_of(&monday, "necks"), ["brine", "roast"]);
    assert_eq!(steps_of(&monday, "necks (2)"), ["brine", "roast"]);
    assert_eq!(supply(&monday, "necks")["make_batches"], 2);
    let roasts = ["necks", "necks (2)"].map(|batch| span(&monday, batch, "roast"));
    assert!(roasts[0].1 <= roasts[1].0, "one oven: {roasts:?}");
    let page = kitchen.words(&["prep", "list", "--for", MONDAY, "--at", at]);
    assert!(page.contains("make 2 batches of 24; 40 needed"), "{page}");
    // Of a day with room for one, the second is what is late, or left off.
    let late = plan(&kitchen, MONDAY, "2026-05-04T14:00:00Z", &[]);
    assert_eq!(late["possible"], false, "six hours in four");
    let tick =
        |step: &str, at: &str| kitchen.words(&["prep", "tick", step, "--for", MONDAY, "--at", at]);
    tick("necks: roast", "2026-05-04T12:30:00Z");
    let after = plan(&kitchen, MONDAY, "2026-05-04T12:31:00Z", &[]);
    let fed = supply(&after, "necks");
    assert_eq!(
        (
            &fed["make_batches"],
            &fed["batches_finished"],
            &fed["in_stock"]
        ),
        (&1.into(), &1.into(), &24.into()),
        "{fed}"
    );
    assert_eq!(span(&after, "necks (2)", "roast").1, "2026-05-04T18:00:00Z");
    let said = tick("NECKS (2): roast", "2026-05-04T16:00:00Z");
    assert!(said.contains("necks (2): roast: done."), "{said}");
    let both = plan(&kitchen, MONDAY, "2026-05-04T16:01:00Z", &[]);
    let fed = supply(&both, "necks");
    assert_eq!(
        (
            &fed["make_batches"],
            &fed["batches_finished"],
            &fed["in_stock"]
        ),
        (&0.into(), &2.into(), &48.into()),
        "{fed}"
    );
    // Each has labels of its own, and what is left of one is gone without the other.
    let label = |batch: &str| {
        let label = ["prep", "label", batch, "--for", MONDAY];
        kitchen.json(&[&label[..], &["--at", "2026-05-04T17:00:00Z"]].concat())
    };
    assert_eq!(label("necks")["lot"], MONDAY);
    assert_eq!(label("necks (2)")["lot"], format!("{MONDAY} (2)"));
    assert_eq!(label("necks (2)")["ready"], "2026-05-04T16:00:00Z");
    kitchen.words(&["prep", "left", "necks", "41", "--for", MONDAY]);
    let tuesday = || plan(&kitchen, TUESDAY, "2026-05-05T09:00:00Z", &[]);
    let fed = supply(&tuesday(), "necks").clone();
    assert_eq!(
        (&fed["in_stock"], &fed["make_batches"]),
        (&41.into(), &0.into())
    );
    let gone = ["prep", "gone", "necks (2)", "--for", MONDAY];
    kitchen.words(&[&gone[..], &["--at", "2026-05-05T08:00:00Z"]].concat());
    assert_eq!(supply(&tuesday(), "necks")["in_stock"], 17, "41 less 24");
    // A third is begun though none is needed: it is on the plan until it is taken back.
    let begun = |undo: &str| {
        let tick = ["prep", "tick", "necks (3): brine", "--for", TUESDAY];
        kitchen.words(&[&tick[..], &["--at", "2026-05-05T08:30:00Z", undo]].concat());
        let there = tuesday();
        let batches = ["necks", "necks (2)", "necks (3)"];
        batches.map(|batch| !steps_of(&there, batch).is_empty())
    };
    assert_eq!(begun("--begun"), [false, false, true]);
    assert_eq!(begun("--undo"), [true, false, false], "17 are there of 40");
    // No menu makes a batch of that name.
    let other = ["prep", "tick", "rolls (2): bake", "--for", MONDAY];
    assert!(kitchen.refused(&other).contains("there is no step"));
}

// By hand: of 24 made on Monday 9 + 1 - 3 went out, so 17 are there for Tuesday's 8.
#[test]
fn what_is_counted_out_to_guests_draws_the_stock_down() {
    let kitchen = with_menu(MENU);
    dish(&kitchen, "necks");
    made_on_monday(&kitchen);
    let fed = || {
        supply(
            &plan(&kitchen, TUESDAY, "2026-05-05T09:00:00Z", &[]),
            "necks",
        )
        .clone()
    };
    assert_eq!(fed()["why"]["why"], "stock-not-known", "nobody counted");
    for portions in ["9", "1", "-3"] {
        kitchen.words(&["service", "out", "necks", portions, "--day", MONDAY]);
    }
    let known = fed();
    assert_eq!(
        (&known["in_stock"], &known["make_batches"]),
        (&17.into(), &0.into()),
        "{known}"
    );
    // Who counts what is left goes before.
    kitchen.words(&["prep", "left", "necks", "4", "--for", MONDAY]);
    assert_eq!(fed()["in_stock"], 4);
}

#[test]
fn what_is_not_known_is_planned_and_the_reason_said() {
    let kitchen = with_menu(&MENU.replace("needs = 8", "per_cover = 0.4"));
    dish(&kitchen, "necks");
    made_on_monday(&kitchen);
    let at = "2026-05-05T09:00:00Z";
    // Nobody said how many guests there will be.
    let tuesday = plan(&kitchen, TUESDAY, at, &[]);
    let fed = supply(&tuesday, "necks");
    assert_eq!(
        (&fed["not_known"], &fed["needed"]),
        (&"covers".into(), &Value::Null)
    );
    assert_eq!(steps_of(&tuesday, "necks"), ["brine", "roast"]);
    // With 20: 8. But what Monday took is not on record.
    kitchen.words(&["prep", "covers", "20", "--for", TUESDAY]);
    let tuesday = plan(&kitchen, TUESDAY, at, &[]);
    let fed = supply(&tuesday, "necks");
    assert_eq!(fed["needed"], 8);
    assert_eq!(fed["why"]["why"], "stock-not-known");
    assert_eq!(fed["at_most"][0]["portions"], 24);
    let remedy = fed["to_make_it_known"].as_str().unwrap();
    assert_eq!(
        remedy,
        "Put it down: evenhand prep left \"necks\" N --for 2026-05-04"
    );
    // What would make it known makes it known.
    kitchen.words(&["prep", "left", "necks", "10", "--for", MONDAY]);
    assert_eq!(
        supply(&plan(&kitchen, TUESDAY, at, &[]), "necks")["make_batches"],
        0
    );
    // 30 guests need 12, and 10 are there.
    let more = plan(&kitchen, TUESDAY, at, &["--covers", "30"]);
    let fed = supply(&more, "necks");
    assert_eq!(
        (&fed["needed"], &fed["in_stock"], &fed["make_batches"]),
        (&12.into(), &10.into(), &1.into())
    );
    // By what is on record, no past service tells the share.
    let kitchen = with_menu(&MENU.replace("needs = 8\n", ""));
    kitchen.words(&["prep", "covers", "20", "--for", TUESDAY]);
    let why = || supply(&plan(&kitchen, TUESDAY, at, &[]), "necks")["not_known"].clone();
    assert_eq!(why(), "dish");
    dish(&kitchen, "necks");
    assert_eq!(why(), "past");
}

#[test]
fn what_is_past_its_keeping_is_named_until_it_is_gone() {
    let kitchen = with_menu(MENU);
    dish(&kitchen, "necks");
    made_on_monday(&kitchen);
    for (day, left) in [("04", "20"), ("05", "18"), ("06", "18"), ("07", "18")] {
        kitchen.words(&[
            "prep",
            "left",
            "necks",
            left,
            "--for",
            &format!("2026-05-{day}"),
        ]);
    }
    // It keeps to Friday 16:00, so it is no stock of Friday's service, and past its keeping after.
    let friday = plan(&kitchen, "2026-05-08", "2026-05-08T17:00:00Z", &[]);
    let fed = supply(&friday, "necks");
    assert_eq!(
        (&fed["in_stock"], &fed["past_keeping"][0]["portions"]),
        (&0.into(), &18.into())
    );
    assert_eq!(steps_of(&friday, "necks"), ["brine", "roast"]);
    let list = [
        "prep",
        "list",
        "--for",
        "2026-05-08",
        "--at",
        "2026-05-08T17:00:00Z",
    ];
    assert!(kitchen.words(&list).contains("PAST ITS KEEPING"));
    let gone = [
        "prep",
        "gone",
        "necks",
        "--for",
        MONDAY,
        "--at",
        "2026-05-08T17:30:00Z",
    ];
    kitchen.words(&gone);
    let after = plan(&kitchen, "2026-05-08", "2026-05-08T17:40:00Z", &[]);
    assert_eq!(
        supply(&after, "necks")["past_keeping"]
            .as_array()
            .unwrap()
            .len(),
        0
    );
    let refused = kitchen.refused(&["prep", "gone", "rolls", "--for", MONDAY]);
    assert!(refused.contains("necks"), "{refused}");
    let refused = kitchen.refused(&["prep", "gone", "necks", "--for", TUESDAY]);
    assert!(refused.contains("finished"), "{refused}");
}

// A menu of 10 May says ten days; the limit in force is seven, the first counted: what is ready
// on Monday 4 May is used on Sunday the 10th at the latest.
#[test]
fn date_marking_ends_what_the_menu_lets_keep_longer() {
    let kitchen = with_menu(&MENU.replace("4 days", "10 days"));
    dish(&kitchen, "necks");
    made_on_monday(&kitchen);
    kitchen.words(&["prep", "left", "necks", "16", "--for", MONDAY]);
    let tuesday = plan(&kitchen, TUESDAY, "2026-05-05T09:00:00Z", &[]);
    assert_eq!(
        supply(&tuesday, "necks")["stock"][0]["use_by"],
        "2026-05-11T00:00:00Z"
    );
}

#[test]
fn a_menu_that_changed_since_still_tells_what_was_made() {
    let kitchen = with_menu(MENU);
    dish(&kitchen, "necks");
    made_on_monday(&kitchen);
    kitchen.words(&["prep", "left", "necks", "16", "--for", MONDAY]);
    // The step is called otherwise from today on.
    let changed = kitchen.file("new.toml", &MENU.replace("\"roast\"", "\"slow roast\""));
    kitchen.words(&["prep", "menu", "--keep", &changed]);
    let tuesday = plan(&kitchen, TUESDAY, "2026-05-05T09:00:00Z", &[]);
    assert_eq!(supply(&tuesday, "necks")["in_stock"], 16);
}

fn pdf_words(path: &str) -> Vec<String> {
    let pages = lopdf::Document::load(path).unwrap();
    let each = pages.get_pages();
    each.keys()
        .map(|page| {
            let words = pages.extract_text(&[*page]).unwrap();
            // The writer sets letter by letter.
            words.split_whitespace().collect()
        })
        .collect()
}

#[test]
fn a_label_a_tub() {
    let menu = MENU.replace(
        "needs = 8",
        "needs = 8\nallergens = [\"celery\", \"mustard\"]",
    );
    let kitchen = with_menu(&menu);
    let [pdf, png] =
        ["necks.pdf", "necks.png"].map(|name| kitchen.0.path().join(name).display().to_string());
    let begun = [
        "prep",
        "tick",
        "necks: brine",
        "--for",
        MONDAY,
        "--at",
        "2026-05-04T09:30:00Z",
    ];
    kitchen.words(&begun);
    let at = |hour: &str| format!("2026-05-04T{hour}:00:00Z");
    let label = ["prep", "label", "Necks", "--for", MONDAY];
    let early = kitchen.words(&[&label[..], &["--at", &at("10")]].concat());
    assert!(
        early.contains("Ready: not yet") && early.contains("Use by: not known"),
        "{early}"
    );
    made_on_monday(&kitchen);
    let late = at("17");
    let written = [&label[..], &["--at", &late, "--tubs", "3", "--pdf", &pdf]].concat();
    let words = kitchen.words(&written);
    for says in [
        "Use by Fri 8 May 2026, 16:00",
        "Made: Mon 4 May 2026, 09:30",
        "Ready: Mon 4 May 2026, 16:00",
        "Lot: 2026-05-04, tub 1 of 3",
        "Allergens: celery, mustard",
        "Keeps 4 d from ready; source: the kitchen's own.",
        "Sun 10 May 2026 is the last. US FDA Food Code 2022 as adopted by Minnesota (4626), 3-501.17 (read as quoted)",
        "not a judgement of the food",
    ] {
        assert!(words.contains(says), "{says}: {words}");
    }
    let pages = pdf_words(&pdf);
    assert_eq!(pages.len(), 3);
    for (nth, page) in pages.iter().enumerate() {
        for says in [
            "necks",
            "UsebyFri8May2026,16:00",
            "Allergens:celery,mustard",
            "3-501.17",
        ] {
            assert!(page.contains(says), "{says}: {page}");
        }
        assert!(page.contains(&format!("tub{}of3", nth + 1)), "{page}");
    }
    kitchen.words(&[&label[..], &["--at", &late, "--png", &png]].concat());
    let picture = std::fs::read(&png).unwrap();
    assert!(picture.starts_with(b"\x89PNG\r\n"));
    // A7 across at 288 dots an inch: 105 by 74 mm (ISO 216) are 1190 by 839. A PNG's header has
    // its width and height from the 17th byte on (ISO/IEC 15948, 11.2.2; from memory).
    let side = |from: usize| u32::from_be_bytes(picture[from..from + 4].try_into().unwrap());
    assert!((1189..=1191).contains(&side(16)), "{}", side(16));
    assert!((838..=840).contains(&side(20)), "{}", side(20));
    let refused = kitchen.refused(&[&label[..], &["--tubs", "2", "--png", &png]].concat());
    assert!(refused.contains("--tubs"), "{refused}");
    assert!(kitchen.refused(&written).contains("--force"));
}

// A menu that says no keeping: the label says that it is not known, and when the limit ends.
#[test]
fn a_label_never_makes_up_a_keeping() {
    let menu = MENU.replace("keeps = \"4 days\"\nsource = \"the kitchen's own\"\n", "");
    let label = |menu: &str| {
        let kitchen = with_menu(menu);
        made_on_monday(&kitchen);
        let label = [
            "prep",
            "label",
            "necks",
            "--for",
            MONDAY,
            "--at",
            "2026-05-04T17:00:00Z",
        ];
        kitchen.words(&label)
    };
    let words = label(&menu);
    assert!(words.contains("Use by: not known"), "{words}");
    assert!(words.contains("Sun 10 May 2026 is the last"), "{words}");
    assert!(words.contains("Allergens: not entered"), "{words}");
    // Only the roast was told: when the neck went into the brine is not known.
    assert!(words.contains("Made: not known"), "{words}");
    // Ten days by the menu are ended by the limit; not where the menu says that it does not apply.
    let long = MENU.replace("4 days", "10 days");
    let words = label(&long);
    assert!(words.contains("Use by Sun 10 May 2026\n"), "{words}");
    let words = label(&long.replace("needs = 8", "needs = 8\ndate_marked = false"));
    assert!(words.contains("Use by Thu 14 May 2026, 16:00"), "{words}");
    assert!(words.contains("not applied, as the menu says"), "{words}");
}

// A lot is the batch on record that its step was ticked by.
#[test]
fn a_recorded_batch_is_the_labels_lot() {
    let kitchen =
        with_menu(&MENU.replace("takes = \"3 h\"", "takes = \"3 h\"\nbatch = \"neck roast\""));
    let begin = [
        "batch",
        "begin",
        "--title",
        "neck roast",
        "--at",
        "2026-05-04T12:00:00Z",
    ];
    let batch = kitchen.json(&begin)["batch"].to_string();
    let weigh = [
        "batch",
        "weigh",
        &batch,
        "--mass",
        "4kg",
        "--name",
        "neck",
        "--at",
        "2026-05-04T12:05:00Z",
    ];
    kitchen.words(&weigh);
    kitchen.words(&["batch", "out", &batch, "--at", "2026-05-04T16:30:00Z"]);
    let label = [
        "prep",
        "label",
        "necks",
        "--for",
        MONDAY,
        "--at",
        "2026-05-04T17:00:00Z",
    ];
    let label = kitchen.json(&label);
    assert_eq!(
        label["ready"], "2026-05-04T16:30:00Z",
        "a finished batch closes its step"
    );
    assert_eq!(label["lot"], format!("2026-05-04 / {batch}"));
}

const HANDS_MENU: &str = r#"
opens = "18:00"
closes = "22:00"
[[resource]]
name = "hands"
places = 2
who = [{ name = "Ana", skills = ["pastry"] }, { name = "Bo" }]
[[preparation]]
name = "tart"
[[preparation.step]]
name = "dough"
takes = "1 h"
needs = "hands"
skill = "pastry"
[[preparation.step]]
name = "bake"
takes = "30 min"
[[preparation]]
name = "soup"
[[preparation.step]]
name = "cut"
takes = "2 h"
needs = "hands"
[[preparation]]
name = "ice"
due = "20:00"
[[preparation.step]]
name = "freeze"
rests = "3 h"
"#;

// The tart is for who makes pastry. The soup, two hours to 18:00, would otherwise take Ana's last
// hour. The ice is due at eight and freezes over the opening.
#[test]
fn each_pair_of_hands_has_a_list_of_its_own() {
    let kitchen = with_menu(HANDS_MENU);
    let at = ["--for", MONDAY, "--at", "2026-05-04T12:00:00Z"];
    let list = |who: &str| kitchen.words(&[&["prep", "list", "--who", who][..], &at].concat());
    let ana = list("ana");
    assert!(ana.starts_with("Ana, Monday 4 May"), "{ana}");
    assert!(
        ana.contains("tart: dough") && !ana.contains("soup: cut"),
        "{ana}"
    );
    let bo = list("Bo");
    assert!(
        bo.contains("soup: cut") && !bo.contains("tart: dough"),
        "{bo}"
    );
    for page in [&ana, &bo] {
        assert!(page.contains("HAND OVER AT 18:00"), "{page}");
        assert!(page.contains("ice: freeze: rests until 20:00"), "{page}");
        assert!(
            page.lines().all(|line| line.chars().count() <= 80),
            "{page}"
        );
    }
    let plan = kitchen.json(&[&["prep", "plan"][..], &at].concat());
    let who = |name: &str| {
        let steps = plan["steps"].as_array().unwrap();
        let step = steps.iter().find(|s| s["preparation"] == name).unwrap();
        step["who"][0].clone()
    };
    assert_eq!((who("tart"), who("soup")), ("Ana".into(), "Bo".into()));
    // To print: everybody's list, then a page for each.
    let path = kitchen.0.path().join("lists.pdf");
    let pdf = ["prep", "list", "--pdf", path.to_str().unwrap()];
    kitchen.words(&[&pdf[..], &at].concat());
    let document = lopdf::Document::load(&path).unwrap();
    let page = |nth: u32| -> String {
        let text = document.extract_text(&[nth]).unwrap();
        text.split_whitespace().collect()
    };
    assert_eq!(document.get_pages().len(), 3);
    let (all, ana, bo) = (page(1), page(2), page(3));
    assert!(
        all.contains("tart:dough") && all.contains("soup:cut"),
        "{all}"
    );
    assert!(
        ana.starts_with("Ana,Monday4May") && ana.contains("tart:dough"),
        "{ana}"
    );
    assert!(!ana.contains("soup:cut"), "{ana}");
    assert!(
        bo.contains("soup:cut") && !bo.contains("tart:dough"),
        "{bo}"
    );
    let refused = kitchen.refused(&[&["prep", "list", "--who", "Cy"][..], &at].concat());
    assert!(
        refused.contains("--who") && refused.contains("Ana, Bo"),
        "{refused}"
    );
}
