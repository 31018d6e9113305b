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
    assert!(
        fed["words"]
            .as_str()
            .unwrap()
            .contains("evenhand prep left"),
        "{fed}"
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
