//! The order sheet, through the built program.

use crate::at_saltmarsh::Kitchen;
use serde_json::Value;

const MENU: &str = r#"
opens = "18:00"
closes = "22:00"
days = ["fri"]
[[resource]]
name = "hands"
places = 2
[[preparation]]
name = "Shrimp"
step = [{ name = "peel", takes = "1 h", needs = "hands" }]
[[preparation]]
name = "pickled shallots"
batch = { portions = 60, keeps = "14 days", source = "the kitchen's own", needs = 12 }
step = [{ name = "pickle", takes = "20 min", needs = "hands" }]
"#;

const GOODS: &str = r#"
[[supplier]]
name = "Quay House"
delivers = ["tue", "fri"]
at = "09:30"
order_by = "16:00"
[[goods]]
name = "brown shrimp"
supplier = "Quay House"
pack = "500 g"
price = "11.50 EUR"
for = [{ dish = "Shrimp" }]
[[goods]]
name = "shallots"
supplier = "Lower Field"
pack = "2.5 kg"
for = [{ batch = "pickled shallots", takes = "1.8 kg" }]
[[goods]]
name = "butter"
supplier = "Lower Field"
pack = "250 g"
for = [{ per_cover = "15 g" }]
"#;

/// Thursday noon: Quay House comes on Friday, for Friday, and next on Tuesday.
const NOW: [&str; 2] = ["--at", "2026-05-07T12:00:00Z"];

/// Fridays of 20, 30 and 40 guests with 10, 14 and 25 portions of 33 g.
fn kitchen() -> Kitchen {
    let kitchen = Kitchen::new();
    let menu = kitchen.file("menu.toml", MENU);
    kitchen.words(&["prep", "menu", "--keep", &menu]);
    let goods = kitchen.file("goods.toml", GOODS);
    kitchen.words(&["prep", "goods", "--keep", &goods]);
    let add = ["dish", "add", "Shrimp", "--target", "30g", "--tolerance"];
    kitchen.words(&[&add[..], &["1g", "--adding"]].concat());
    let mut table = String::from("when,grams,dish\n");
    for (day, covers, portions) in [
        ("2026-04-17", "20", 10),
        ("2026-04-24", "30", 14),
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
    kitchen
}

fn count(kitchen: &Kitchen, goods: &str, amount: &str) {
    let at = ["--at", "2026-05-07T11:00:00Z"];
    kitchen.words(&[&["prep", "count", goods, amount][..], &at].concat());
}

fn line(kitchen: &Kitchen, goods: &str) -> Value {
    let sheet = kitchen.json(&[&["prep", "order"][..], &NOW].concat());
    let lines = sheet["suppliers"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|order| order["lines"].as_array().unwrap().clone());
    let mut of_it = lines.filter(|line| line["goods"] == goods);
    of_it.next().unwrap_or_else(|| panic!("{goods}: {sheet}"))
}

fn near(value: &Value, expected: f64) {
    let found = value.as_f64().unwrap_or_else(|| panic!("{value}"));
    assert!((found - expected).abs() < 0.01, "{found}, not {expected}");
}

fn to_know(line: &Value) -> String {
    line["to_know"].to_string()
}

/// A purchase of 2 kg with so much trimmed and 100 g tasted.
fn purchase(kitchen: &Kitchen, number: &str, trim: &str) {
    kitchen.words(&["tin", "open", "--dish", "shrimp", "--net", "2kg"]);
    kitchen.words(&["yield", "lose", number, "trim", trim]);
    kitchen.words(&["yield", "lose", number, "tasting", "100g"]);
}

// By SciPy 1.17.1 (run for this), scipy.stats.t at 2 degrees of freedom for the nights, 1 for the
// purchases and Satterthwaite's 2.0631 for both: 16.333 portions of 33 g are 539 g to serve, at
// 2/1.3 and 2/1.2 bought for each served 863.78 g likely, 1464.56 g enough.
#[test]
fn whole_packs_for_what_is_really_served_by_the_yield_and_its_interval() {
    let kitchen = kitchen();
    count(&kitchen, "brown shrimp", "0 g");
    // No yield on record: no less than is served, and no number.
    let none = line(&kitchen, "brown shrimp");
    assert_eq!(
        (&none["packs"], &none["packs_to"]),
        (&Value::Null, &Value::Null)
    );
    near(&none["at_least"], 539.0);
    assert_eq!(none["likely"], Value::Null);
    assert!(to_know(&none).contains("evenhand yield lose"), "{none}");
    purchase(&kitchen, "1", "600g");
    // 1.3 kg lie ready: 539 g are to be served, so none is to be bought, whatever the yield.
    let ready = line(&kitchen, "brown shrimp");
    assert_eq!(ready["packs"], 0, "{ready}");
    kitchen.words(&["tin", "close", "1"]);
    // How far the next purchase may lie from the only one nobody knows.
    let one = line(&kitchen, "brown shrimp");
    near(&one["likely"], 539.0 / 0.65);
    assert_eq!(
        (&one["packs"], &one["enough"]),
        (&Value::Null, &Value::Null)
    );
    purchase(&kitchen, "2", "700g");
    kitchen.words(&["tin", "close", "2"]);
    let both = line(&kitchen, "brown shrimp");
    near(&both["likely"], 863.782);
    near(&both["enough"], 1_464.564);
    // 1464.56 g are three packs of 500 g.
    assert_eq!(
        (&both["packs"], &both["cost"]),
        (&3.into(), &"34.50 EUR".into())
    );
    near(&both["left_over"], 1_500.0 - 863.782);
    // An open tin of which nothing was lost is as bought: 400 g off what is bought.
    kitchen.words(&["tin", "open", "--dish", "shrimp", "--net", "400g"]);
    count(&kitchen, "brown shrimp", "200 g");
    let open = line(&kitchen, "brown shrimp");
    near(&open["in_hand_least"], 600.0);
    assert_eq!(open["packs"], 2, "{open}");
    kitchen.words(&[
        "prep",
        "ordered",
        "brown shrimp",
        "1",
        "--for",
        "2026-05-08",
    ]);
    let ordered = line(&kitchen, "brown shrimp");
    assert_eq!(
        (&ordered["packs"], &ordered["packs_on_the_way"]),
        (&1.into(), &1.into())
    );
}

// 30 guests likely; 30 + 1.2649 x 10 x sqrt(4/3) = 44.61 enough, by the closed form of Student's t
// with two degrees of freedom: 15 g each are 669.1 g, three packs of 250 g.
#[test]
fn batches_and_guests_are_bought_for_and_nothing_is_a_silent_zero() {
    let kitchen = kitchen();
    let butter = line(&kitchen, "butter");
    near(&butter["likely"], 450.0);
    near(&butter["enough"], 669.08);
    assert_eq!(
        (&butter["packs"], &butter["packs_from"], &butter["packs_to"]),
        (&Value::Null, &0.into(), &3.into()),
        "nobody counted it"
    );
    assert!(to_know(&butter).contains("prep count"), "{butter}");
    count(&kitchen, "butter", "100 g");
    assert_eq!(line(&kitchen, "butter")["packs"], 3);
    count(&kitchen, "shallots", "0 kg");
    let shallots = line(&kitchen, "shallots");
    near(&shallots["enough"], 1_800.0);
    assert_eq!(shallots["packs"], 1);
    // Counted before Friday's service, of which nobody knows what it took.
    let later = ["prep", "order", "--at", "2026-05-09T09:00:00Z"];
    let sheet = kitchen.json(&later);
    let old = sheet["suppliers"].as_array().unwrap().iter();
    let old: Vec<&Value> = old.flat_map(|it| it["lines"].as_array().unwrap()).collect();
    let butter = old.iter().find(|it| it["goods"] == "butter").unwrap();
    near(&butter["in_hand_least"], 0.0);
    near(&butter["in_hand_most"], 100.0);
    assert!(to_know(butter).contains("count again"), "{butter}");
    // What is on no menu of these days is not bought, and that is said.
    let without = MENU.replace("pickled shallots", "pickled samphire");
    let menu = kitchen.file("menu.toml", &without);
    kitchen.words(&["prep", "menu", "--keep", &menu]);
    let off = line(&kitchen, "shallots");
    assert!(to_know(&off).contains("on no menu"), "{off}");
}

#[test]
fn the_sheet_says_by_when_to_order_and_what_is_not_known_first() {
    let kitchen = kitchen();
    let sheet = kitchen.json(&[&["prep", "order"][..], &NOW].concat());
    let quay = &sheet["suppliers"][0];
    assert_eq!(
        (&quay["supplier"], &quay["order_by"], &quay["delivery"]),
        (
            &"Quay House".into(),
            &"2026-05-07T16:00:00Z".into(),
            &"2026-05-08".into()
        )
    );
    assert_eq!(quay["services"], serde_json::json!(["2026-05-08"]));
    // An hour after that, it is Tuesday's delivery, which lasts to Thursday: no service.
    let later = kitchen.json(&["prep", "order", "--at", "2026-05-08T09:00:00Z"]);
    let quay = later["suppliers"].as_array().unwrap().iter();
    let quay = quay
        .clone()
        .find(|it| it["supplier"] == "Quay House")
        .unwrap();
    assert_eq!(quay["delivery"], "2026-05-12");
    count(&kitchen, "butter", "100 g");
    let words =
        kitchen.words(&[&["prep", "order", "--supplier", "lower field"][..], &NOW].concat());
    let place = |text: &str| {
        words
            .find(text)
            .unwrap_or_else(|| panic!("{text}: {words}"))
    };
    assert!(place("shallots") < place("[ ] 3 x 250 g butter"), "{words}");
    assert!(words.contains("no delivery days are written"), "{words}");
    for (language, says) in [("es", "Qué pedir"), ("fr", "À commander")] {
        let order = ["--language", language, "prep", "order"];
        let words = kitchen.words(&[&order[..], &NOW].concat());
        assert!(words.contains(says), "{words}");
        assert!(!words.contains("suffices"), "{words}");
    }
    let csv = kitchen.words(&[&["prep", "order", "--csv"][..], &NOW].concat());
    let mut rows = csv::Reader::from_reader(csv.as_bytes());
    let goods: Vec<String> = rows
        .records()
        .map(|row| row.unwrap()[3].to_owned())
        .collect();
    assert_eq!(goods, ["brown shrimp", "shallots", "butter"]);
    let page = kitchen.0.path().join("order.pdf");
    let pdf = ["prep", "order", "--pdf", page.to_str().unwrap()];
    kitchen.words(&[&pdf[..], &NOW].concat());
    let text = lopdf::Document::load(&page)
        .unwrap()
        .extract_text(&[1])
        .unwrap();
    let text: String = text.split_whitespace().collect();
    assert!(
        text.contains("QuayHouse") && text.contains("brownshrimp"),
        "{text}"
    );
}

#[test]
fn goods_are_kept_in_either_form_or_refused_by_name() {
    let kitchen = kitchen();
    let table = kitchen.words(&["prep", "goods", "--csv"]);
    let file = kitchen.file("goods.csv", &table);
    kitchen.words(&["prep", "goods", "--keep", &file]);
    assert_eq!(kitchen.words(&["prep", "goods", "--csv"]), table);
    let broken = kitchen.file("bad.toml", &GOODS.replace("2.5 kg", "a sack"));
    let refused = kitchen.refused(&["prep", "goods", "--keep", &broken]);
    assert!(
        refused.contains("shallots") && refused.contains("a sack"),
        "{refused}"
    );
    assert_eq!(
        kitchen.words(&["prep", "goods", "--csv"]),
        table,
        "nothing is lost"
    );
    for (words, says) in [
        (vec!["prep", "count", "salt", "1 kg"], "not on the list"),
        (vec!["prep", "count", "butter", "3"], "no unit"),
        (vec!["prep", "count", "butter", "3 l"], "another measure"),
        (vec!["prep", "count", "butter", "-1 kg"], "negative"),
        (
            vec!["prep", "ordered", "butter", "x", "--for", "2026-05-08"],
            "PACKS",
        ),
        (
            vec!["prep", "order", "--supplier", "Nobody"],
            "nothing comes from",
        ),
        (vec!["prep", "order", "--days", "0"], "--days"),
    ] {
        let refused = kitchen.refused(&words);
        assert!(refused.contains(says), "{words:?}: {refused}");
    }
    let empty = Kitchen::new();
    let menu = empty.file("menu.toml", MENU);
    empty.words(&["prep", "menu", "--keep", &menu]);
    assert!(
        empty
            .refused(&["prep", "order"])
            .contains("prep goods --keep")
    );
}

#[test]
fn an_order_put_down_by_mistake_is_taken_back_and_stays_on_record() {
    let kitchen = kitchen();
    count(&kitchen, "butter", "0.4 packs");
    let order = ["prep", "ordered", "butter", "2", "--for", "2026-05-08"];
    kitchen.words(&order);
    kitchen.words(&order);
    assert_eq!(line(&kitchen, "butter")["packs_on_the_way"], 4);
    let orders = kitchen.json(&["prep", "orders", "butter"]);
    let number = orders["orders"][0]["order"].to_string();
    let back = [
        "prep",
        "orders",
        "--take-back",
        &number,
        "--reason",
        "twice",
    ];
    let told = kitchen.json(&back);
    assert_eq!(told["orders"][0]["reason"], "twice", "{told}");
    assert_eq!(told["orders"][1]["taken_back"], Value::Null, "{told}");
    assert_eq!(line(&kitchen, "butter")["packs_on_the_way"], 2);
    assert!(kitchen.refused(&back).contains("already"));
    let words = kitchen.words(&["prep", "orders"]);
    assert!(
        words.contains("Taken back") && words.contains("twice"),
        "{words}"
    );
    kitchen.words(&["prep", "orders", "--put-back", &number]);
    assert_eq!(line(&kitchen, "butter")["packs_on_the_way"], 4);
    for (arguments, says) in [
        (vec!["--take-back", "9999", "--reason", "twice"], "9999"),
        (vec!["--put-back", "the last"], "the last"),
        (vec!["--put-back", &number], "already"),
        (vec!["shrimps"], "shrimps"),
    ] {
        let error = kitchen.refused(&[&["prep", "orders"], arguments.as_slice()].concat());
        assert!(error.contains(says), "{arguments:?}: {error}");
    }
}
