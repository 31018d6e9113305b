//! Menus that follow each other, what a batch came to, who did a step, and pages in the
//! team's languages, through the built program.

use crate::at_saltmarsh::Kitchen;
use serde_json::Value;

/// To Wednesday 6 May: necks 24 at a time that keep five days, 6 a service; rolls each day.
const SPRING: &str = r#"
opens = "18:00"
closes = "22:00"
until = "2026-05-06"
[[resource]]
name = "hands"
places = 2
who = [{ name = "Ana" }]
[[preparation]]
name = "necks"
[preparation.batch]
portions = 24
keeps = "5 days"
source = "the kitchen's own"
needs = 6
[[preparation.step]]
name = "roast"
takes = "3 h"
needs = "hands"
[[preparation]]
name = "rolls"
[[preparation.step]]
name = "bake"
takes = "1 h"
needs = "hands"
"#;

/// From Thursday on: the necks in tens, 12 a service; flatbreads for the rolls.
fn summer() -> String {
    SPRING
        .replace("until = \"2026-05-06\"", "from = \"2026-05-07\"")
        .replace("portions = 24", "portions = 10")
        .replace("needs = 6", "needs = 12")
        .replace("rolls", "flatbreads")
}

const MONDAY: &str = "2026-05-04";

fn keep(kitchen: &Kitchen, name: &str, text: &str) {
    let file = kitchen.file(name, text);
    kitchen.words(&["prep", "menu", "--keep", &file]);
}

fn cells(week: &Value, preparation: &str) -> Vec<String> {
    let rows = week["preparations"].as_array().unwrap();
    let row = rows
        .iter()
        .find(|row| row["preparation"] == preparation)
        .unwrap_or_else(|| panic!("{preparation}: {week}"));
    row["days"]
        .as_array()
        .unwrap()
        .iter()
        .map(|cell| match cell["cell"].as_str().unwrap() {
            "make" => format!("make {}", cell["batches"]),
            "stock" => format!("stock {}", cell["portions"]),
            other => other.to_owned(),
        })
        .collect()
}

// By hand: 24 necks on Monday at 16:00, 6 a service, are 18, 12 and 6 on Tuesday, Wednesday and
// Thursday; Thursday's menu needs 12, so one batch of 10 is made, of which 4 are left on Friday:
// 8 short, another of 10. They keep to Saturday at 16:00.
#[test]
fn the_week_of_a_changeover_holds_both_menus() {
    let kitchen = Kitchen::new();
    // The new one was kept before the old one was put right.
    keep(&kitchen, "summer.toml", &summer());
    keep(&kitchen, "spring.toml", SPRING);
    let tick = ["prep", "tick", "necks: roast", "--for", MONDAY];
    kitchen.words(&[&tick[..], &["--at", "2026-05-04T16:00:00Z"]].concat());
    let at = ["--at", "2026-05-04T16:30:00Z"];
    let week = ["prep", "week", "--from", MONDAY, "--days", "5"];
    let week = kitchen.json(&[&week[..], &at].concat());
    let cell = |name: &str| cells(&week, name);
    let off = || "off".to_owned();
    let one = || "make 1".to_owned();
    assert_eq!(cell("rolls"), [one(), one(), one(), off(), off()]);
    assert_eq!(cell("flatbreads"), [off(), off(), off(), one(), one()]);
    assert_eq!(
        cell("necks"),
        ["made", "stock 18", "stock 12", "make 1", "make 1"]
    );
    let thursday = week["supply"]
        .as_array()
        .unwrap()
        .iter()
        .find(|fed| fed["service"] == "2026-05-07")
        .unwrap();
    assert_eq!(
        (
            &thursday["in_stock"],
            &thursday["needed"],
            &thursday["batch_portions"]
        ),
        (&6.into(), &12.into(), &10.into()),
        "what the menu before left is in stock for the new one: {thursday}"
    );
    // The plan of Wednesday has Thursday's steps, too.
    let wednesday = ["prep", "plan", "--for", "2026-05-06", "--days-ahead", "1"];
    let plan = kitchen.json(&[&wednesday[..], &at].concat());
    let steps: Vec<&str> = plan["steps"]
        .as_array()
        .unwrap()
        .iter()
        .map(|step| step["preparation"].as_str().unwrap())
        .collect();
    assert!(steps.contains(&"rolls"), "{steps:?}");
    assert!(
        steps.iter().any(|it| it.ends_with(" flatbreads")),
        "{steps:?}"
    );
    assert!(!steps.iter().any(|it| it.ends_with(" rolls")), "{steps:?}");
    // A step of each menu is ticked on its own days only.
    let tick = |step: &str, day: &str| {
        let words = [
            "prep",
            "tick",
            step,
            "--for",
            day,
            "--at",
            "2026-05-06T15:00:00Z",
        ];
        kitchen.evenhand(&words).status.code()
    };
    assert_eq!(tick("flatbreads: bake", "2026-05-06"), Some(2));
    assert_eq!(tick("rolls: bake", "2026-05-06"), Some(0));
}

// The menu says 24; 22 were weighed for Monday, two of them after the 20 that close the step.
#[test]
fn what_a_batch_was_weighed_to_counts_and_not_what_the_menu_says() {
    let kitchen = Kitchen::new();
    let portion = "[[preparation.step]]\nname = \"portion\"\ntakes = \"30 min\"\nneeds = \"hands\"\n\
                   portions_of = \"Necks\"\nportions = 20\n[[preparation]]\nname = \"rolls\"";
    let menu = SPRING.replace("[[preparation]]\nname = \"rolls\"", portion);
    assert_ne!(menu, SPRING);
    keep(&kitchen, "menu.toml", &menu);
    let stock = || {
        let base = ["prep", "plan", "--for", MONDAY, "--days-ahead", "0"];
        let plan = kitchen.json(&[&base[..], &["--at", "2026-05-04T17:00:00Z"]].concat());
        plan["supply"][0]["in_stock"].clone()
    };
    let add = [
        "dish",
        "add",
        "Necks",
        "--target",
        "150g",
        "--tolerance",
        "5g",
        "--adding",
    ];
    kitchen.words(&add);
    // Ticked by hand, with nothing weighed: what the menu says.
    let tick = |more: &[&str]| {
        let words = ["prep", "tick", "necks: portion", "--for", MONDAY];
        kitchen.words(&[&words[..], more].concat());
    };
    tick(&["--at", "2026-05-04T16:40:00Z"]);
    assert_eq!(stock(), 24);
    tick(&["--undo", "--at", "2026-05-04T16:41:00Z"]);
    let mut table = String::from("when,grams,dish\n");
    for n in 0..22 {
        table += &format!("2026-05-04T16:{:02}:00Z,150,Necks\n", 10 + n);
    }
    let table = kitchen.file("weighed.csv", &table);
    let import = ["import", &table, "--map", "time=when,mass=grams,dish=dish"];
    kitchen.words(&[&import[..], &["--units", "g"]].concat());
    tick(&["--at", "2026-05-04T16:45:00Z"]);
    assert_eq!(stock(), 22);
}

#[test]
fn who_did_a_step_stands_beside_it_and_nowhere_else() {
    let kitchen = Kitchen::new();
    keep(&kitchen, "menu.toml", SPRING);
    let tick = [
        "prep",
        "tick",
        "rolls: bake",
        "--for",
        MONDAY,
        "--at",
        "2026-05-04T15:00:00Z",
    ];
    // In the menu's spelling, where it is one of the menu's hands.
    let told = kitchen.json(&[&tick[..], &["--by", "ana"]].concat());
    assert_eq!(told["by"], "Ana");
    let at = [
        "--for",
        MONDAY,
        "--at",
        "2026-05-04T16:30:00Z",
        "--days-ahead",
        "0",
    ];
    let did = || {
        let plan = kitchen.json(&[&["prep", "plan"][..], &at].concat());
        let steps = plan["steps"].as_array().unwrap().clone();
        let step = steps.iter().find(|step| step["preparation"] == "rolls");
        step.unwrap()["did"].clone()
    };
    assert_eq!(did(), "Ana");
    let list = || kitchen.words(&[&["prep", "list"][..], &at].concat());
    assert!(list().contains("[x] rolls: bake (Ana)"), "{}", list());
    // Where the kitchen hides names, this one is hidden.
    kitchen.words(&["service", "settings", "--cook-figures", "hidden"]);
    assert!(did().is_null());
    assert!(!list().contains("[x] rolls: bake (Ana)"), "{}", list());
    kitchen.words(&["service", "settings", "--cook-figures", "own"]);
    // Undone, it was done by nobody; done again without a word, by nobody known.
    let undo = [
        "prep",
        "tick",
        "rolls: bake",
        "--for",
        MONDAY,
        "--undo",
        "--at",
        "2026-05-04T15:10:00Z",
    ];
    kitchen.words(&undo);
    assert!(did().is_null());
    let refused = kitchen.refused(&[&tick[..], &["--by", " "]].concat());
    assert!(refused.contains("--by"), "{refused}");
}

#[test]
fn pages_are_in_the_language_asked_for() {
    let kitchen = Kitchen::new();
    keep(&kitchen, "menu.toml", SPRING);
    let at = ["--at", "2026-05-04T09:00:00Z"];
    let says = |language: &str, words: &[&str]| {
        kitchen.words(&[&["--language", language][..], words, &at].concat())
    };
    let list = ["prep", "list", "--for", MONDAY, "--days-ahead", "0"];
    let week = ["prep", "week", "--from", MONDAY];
    for (language, heading, monday) in [
        ("en", "TO BEGIN", "Monday"),
        ("es", "POR EMPEZAR", "lunes"),
        ("fr", "À COMMENCER", "lundi"),
    ] {
        let list = says(language, &list);
        assert!(list.contains(heading) && list.contains(monday), "{list}");
        assert!(
            list.lines().all(|line| line.chars().count() <= 80),
            "{list}"
        );
        let week = says(language, &week);
        assert!(week.contains(&monday[..3]), "{week}");
        if language != "en" {
            assert!(
                !list.contains("start by") && !list.contains("service opens"),
                "{list}"
            );
            assert!(!week.contains("make"), "{week}");
        }
    }
    let tick = ["prep", "tick", "necks: roast", "--for", MONDAY];
    kitchen.words(&[&tick[..], &["--at", "2026-05-04T16:00:00Z"]].concat());
    let label = |language: &str| {
        let words = [
            "--language",
            language,
            "prep",
            "label",
            "necks",
            "--for",
            MONDAY,
        ];
        kitchen.words(&[&words[..], &["--at", "2026-05-04T17:00:00Z"]].concat())
    };
    assert!(label("es").contains("Alérgenos"), "{}", label("es"));
    assert!(label("fr").contains("Allergènes"), "{}", label("fr"));
    // A batch's record, and what a brine gives.
    kitchen.words(&[
        "batch",
        "begin",
        "--title",
        "Mutton",
        "--at",
        "2026-05-01T09:00:00Z",
    ]);
    let bath = [
        "brine",
        "in",
        "--cut",
        "mutton",
        "--mass",
        "1kg",
        "--thickness",
        "30",
        "--kind",
        "75%",
        "--water",
        "2kg",
        "--salt",
        "120g",
        "--for",
        "5h",
        "--at",
        "2026-05-01T09:00:00Z",
    ];
    let spanish = kitchen.words(&[&["--language", "es"][..], &bath].concat());
    assert_ne!(spanish, kitchen.words(&bath), "{spanish}");
    let shown = kitchen.words(&["batch", "show", "2"]);
    // 120 g of 2120 g are 5.66 %, by hand.
    assert!(
        shown.contains("1000.0 g of mutton into a bath of 5.7 % salt, at 4.0 °C")
            && shown.contains("2026-05-01 09:00")
            && !shown.contains('{'),
        "{shown}"
    );
    let shown = kitchen.words(&["--language", "fr", "batch", "show", "2"]);
    assert!(
        shown.contains("1000,0 g de mutton dans un bain à 5,7 % de sel"),
        "{shown}"
    );
    let plan = [
        "batch",
        "plan",
        "1",
        "--at",
        "2026-05-01T09:00:00Z",
        "--due",
        "2026-05-01T08:00:00Z",
    ];
    let refused = kitchen.refused(&plan);
    assert!(
        refused.contains("--due")
            && refused.contains("is 2026-05-01 08:00, not after it goes in, 2026-05-01 09:00"),
        "{refused}"
    );
}

// By hand: Fridays of 20, 30 and 40 guests, 30 on average, with 10, 14 and 25 portions: 16.33 on
// average, so 17 likely, with a standard deviation of 7.77. Student's t with two degrees of
// freedom is 1.2649 five times in six (from its closed form); times 7.77 times sqrt(4/3) is 11.35,
// so 28 to have ready. They weighed 33 g where 30 g was meant. Of 2 kg bought 600 g were trimmed
// and 100 g tasted, which leaves 0.65. Saturday is no Friday.
#[test]
fn what_to_buy_goes_by_the_weekday_and_by_what_was_really_served() {
    let kitchen = Kitchen::new();
    keep(&kitchen, "menu.toml", SPRING);
    let add = [
        "dish",
        "add",
        "Shrimp",
        "--target",
        "30g",
        "--tolerance",
        "1g",
        "--adding",
    ];
    kitchen.words(&add);
    let mut table = String::from("when,grams,dish\n");
    for (day, covers, portions) in [
        ("2026-04-17", "20", 10),
        ("2026-04-24", "30", 14),
        ("2026-04-25", "90", 55),
        ("2026-05-01", "40", 25),
    ] {
        kitchen.words(&["prep", "covers", covers, "--for", day]);
        for n in 0..portions {
            table += &format!("{day}T19:{n:02}:00Z,33,Shrimp\n");
        }
    }
    let table = kitchen.file("weighed.csv", &table);
    let import = ["import", &table, "--map", "time=when,mass=grams,dish=dish"];
    kitchen.words(&[&import[..], &["--units", "g"]].concat());
    kitchen.words(&["tin", "open", "--dish", "shrimp", "--net", "2kg"]);
    kitchen.words(&["yield", "lose", "1", "trim", "600g"]);
    kitchen.words(&["yield", "lose", "1", "tasting", "100g"]);
    let par = |day: &'static str| ["prep", "par", "--dish", "shrimp", "--for", day];
    let friday = kitchen.json(&par("2026-05-08"));
    for (field, expected) in [
        ("covers", 30.0),
        ("portions_likely", 17.0),
        ("portions_ready", 28.0),
        ("portion_grams", 33.0),
        ("portions_weighed", 104.0),
        ("yield", 0.65),
    ] {
        let found = friday[field]
            .as_f64()
            .unwrap_or_else(|| panic!("{field}: {friday}"));
        assert!((found - expected).abs() < 1e-6, "{field}: {friday}");
    }
    assert_eq!(friday["covers_by_weekday"], true);
    let french = [&["--language", "fr"][..], &par("2026-05-08")].concat();
    let french = kitchen.words(&french);
    for says in [
        "28 portions",
        "telle que servie, sur 104",
        "un rendement de 0.65",
    ] {
        assert!(french.contains(says), "{french}");
    }
    // Nobody knows how many come on a Wednesday, or on a second Saturday.
    for day in ["2026-05-06", "2026-05-09"] {
        let refused = kitchen.refused(&par(day));
        assert!(
            refused.contains("--covers") && refused.contains("prep covers"),
            "{refused}"
        );
    }
    // What was foretold goes before.
    kitchen.words(&["prep", "covers", "12", "--for", "2026-05-08"]);
    let foretold = kitchen.json(&par("2026-05-08"));
    assert_eq!(
        (&foretold["covers"], &foretold["covers_by_weekday"]),
        (&12.into(), &false.into())
    );
}

const BREAM: &str = r#"
opens = "18:00"
closes = "22:00"
[[resource]]
name = "hands"
places = 2
[[preparation]]
name = "bream"
[[preparation.step]]
name = "delivery"
takes = "10 min"
not_before = "14:30"
[[preparation.step]]
name = "fillet"
takes = "2 h 30 min"
needs = "hands"
"#;

// By hand: it was ticked as taken in at 14:50, 15:00 and 15:10, which takes ten minutes, so it came
// 10, 20 and 30 min late: 20 on average, with a standard deviation of 10. Student's t with two
// degrees of freedom is 1.8856 for eight in ten (from its closed form); times 10 times sqrt(4/3)
// is 21.77: from 14:28:14 to 15:11:46. It is needed at 18:00 less 2 h 40 min, 15:20.
#[test]
fn how_late_a_delivery_usually_comes_is_told_beside_it() {
    let kitchen = Kitchen::new();
    keep(&kitchen, "menu.toml", BREAM);
    let tick = |day: &str, at: &str| {
        let at = format!("{day}T{at}:00Z");
        kitchen.words(&["prep", "tick", "bream: delivery", "--for", day, "--at", &at]);
    };
    let thursday = [
        "--for",
        "2026-05-07",
        "--at",
        "2026-05-07T09:00:00Z",
        "--days-ahead",
        "0",
    ];
    let step_on = |day: &[&str]| {
        let plan = kitchen.json(&[&["prep", "plan"][..], day].concat());
        assert_eq!(plan["possible"], true);
        let steps = plan["steps"].as_array().unwrap().clone();
        let step = steps.iter().find(|step| step["step"] == "delivery");
        step.unwrap().clone()
    };
    let delivery = || step_on(&thursday)["delivery"].clone();
    let hour = |moment: &Value| moment.as_str().unwrap()[11..16].to_owned();
    tick(MONDAY, "14:50");
    tick("2026-05-05", "15:00");
    let two = delivery();
    assert_eq!(
        (&two["ticked"], &two["comes_to"]),
        (&2.into(), &Value::Null)
    );
    assert_eq!(hour(&two["counted_on"]), "14:30", "as the menu says");
    let list = || kitchen.words(&[&["prep", "list"][..], &thursday].concat());
    let flat = |page: String| page.split_whitespace().collect::<Vec<_>>().join(" ");
    let page = flat(list());
    assert!(
        page.contains("not known yet: tick 1 more; needed by 15:20"),
        "{page}"
    );
    tick("2026-05-06", "15:10");
    let three = delivery();
    let minute = |field: &str| three[field].as_str().unwrap()[11..16].to_owned();
    assert_eq!(
        (minute("comes_from"), minute("comes_to")),
        ("14:28".into(), "15:11".into())
    );
    assert_eq!(minute("needed_by"), "15:20");
    assert_eq!(three["may_be_too_late"], false);
    // The day can be made with it as late as that: the plan counts on it and says so.
    assert_eq!(minute("counted_on"), "15:11");
    assert_eq!(hour(&step_on(&thursday)["earliest_start"]), "15:11");
    let counts = "the plan counts on 15:11 (menu: 14:30)";
    assert!(flat(list()).contains(counts), "{}", list());
    assert!(
        list().lines().all(|line| line.chars().count() <= 80),
        "{}",
        list()
    );
    // A day later, after one that came 70 min late.
    tick("2026-05-07", "15:50");
    let friday = [
        "--for",
        "2026-05-08",
        "--at",
        "2026-05-08T09:00:00Z",
        "--days-ahead",
        "0",
    ];
    let page = flat(kitchen.words(&[&["prep", "list"][..], &friday].concat()));
    assert!(page.contains("may come too late: between"), "{page}");
    // With it so late the day cannot be made: the plan counts on the menu's time, and the risk is
    // told.
    assert!(page.contains("the plan counts on 14:30"), "{page}");
    let planned = step_on(&friday);
    assert_eq!(hour(&planned["delivery"]["counted_on"]), "14:30");
    assert_eq!(planned["delivery"]["may_be_too_late"], true);
    // With 70 min the mean is 32.5 and the standard deviation 26.30: times 1.6377, Student's t with
    // three degrees of freedom, times sqrt(5/4) that is 48.16 min, so to 15:50:39.
    let risk = "DECIDE by 15:20: bream: delivery may come as late as 15:50, 30 min too late";
    assert!(page.contains(risk), "{page}");
    let plan = [&["--language", "es", "prep", "plan"][..], &friday].concat();
    let plan = kitchen.words(&plan);
    for says in ["DECIDIR antes de 15:20", "a más tardar", "El servicio abre"] {
        assert!(plan.contains(says), "{plan}");
    }
    // What was told of it goes before what is usual.
    let delay = [
        "prep",
        "delay",
        "bream: delivery",
        "--for",
        "2026-05-07",
        "--until",
        "15:00",
    ];
    kitchen.words(&delay);
    let kept = [
        "prep",
        "tick",
        "bream: delivery",
        "--for",
        "2026-05-07",
        "--undo",
    ];
    kitchen.words(&[&kept[..], &["--at", "2026-05-07T15:51:00Z"]].concat());
    assert!(delivery().is_null());
}
