//! `evenhand batch` as it is run: a batch from its first weighing to its mark.

use serde_json::Value;
use std::process::{Command, Stdio};
use tempfile::TempDir;

struct Kitchen {
    folder: TempDir,
}

impl Kitchen {
    fn new() -> Self {
        Self {
            folder: tempfile::tempdir().unwrap(),
        }
    }

    fn run(&self, arguments: &[&str]) -> (i32, String, String) {
        let output = Command::new(env!("CARGO_BIN_EXE_evenhand"))
            .env("LC_ALL", "C")
            .arg("batch")
            .args(arguments)
            .env("EVENHAND_DATA", self.folder.path().join("data"))
            .env("TZ", "UTC")
            .stdin(Stdio::null())
            .output()
            .unwrap();
        (
            output.status.code().unwrap_or(-1),
            String::from_utf8(output.stdout).unwrap(),
            String::from_utf8(output.stderr).unwrap(),
        )
    }

    /// Runs and expects success.
    fn done(&self, words: &str) -> String {
        let (code, out, err) = self.run(&words.split_whitespace().collect::<Vec<_>>());
        assert_eq!(code, 0, "{words}: {err}");
        out
    }

    fn json(&self, words: &str) -> Vec<Value> {
        self.done(&format!("{words} --json"))
            .lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }

    /// Runs and expects bad input: status 2 and a sentence.
    fn refused(&self, words: &str, sentence: &str) {
        self.fails(words, 2, sentence);
    }

    /// Runs and expects a batch that is not ready: status 3 and why.
    fn not_ready(&self, words: &str, sentence: &str) {
        self.fails(words, 3, sentence);
    }

    fn fails(&self, words: &str, status: i32, sentence: &str) {
        let (code, _, err) = self.run(&words.split_whitespace().collect::<Vec<_>>());
        assert_eq!(code, status, "{words}: {err}");
        assert!(err.contains(sentence), "{words}: {err}");
    }
}

#[test]
fn soy_milk_is_found_by_comparing() {
    let kitchen = Kitchen::new();
    for (id, water, mark) in [(1, "900g", 5), (2, "1000g", 8)] {
        assert_eq!(
            kitchen.done("begin --title soy-milk"),
            format!("batch {id}\n")
        );
        // Weighed first, named later; the second by name at once, in two goes.
        kitchen.done(&format!("weigh {id} --mass 500g"));
        kitchen.done(&format!("name {id} --item 0 --name beans"));
        kitchen.done(&format!(
            "weigh {id} --mass {water} --name water --temperature 18degC"
        ));
        kitchen.done(&format!("weigh {id} --mass 10g --name WATER"));
        kitchen.done(&format!("weigh {id} --mass -10g --item 1"));
        kitchen.done(&format!("taste {id} --mark {mark} --note thin"));
    }
    let rows = kitchen.json("compare soy-milk --of beans");
    let shares: Vec<(f64, u64)> = rows
        .iter()
        .map(|row| {
            (
                row["percent"]["water"].as_f64().unwrap(),
                row["mark"].as_u64().unwrap(),
            )
        })
        .collect();
    assert_eq!(shares, [(200.0, 8), (180.0, 5)]);

    // As last time but five per cent more water, for a kilogram of beans.
    let again = kitchen.json("again 2 --more water=5 --amount beans=1kg");
    let amounts: Vec<(&str, f64)> = again
        .iter()
        .map(|item| {
            (
                item["name"].as_str().unwrap(),
                item["mass_grams"].as_f64().unwrap(),
            )
        })
        .collect();
    assert_eq!(amounts, [("beans", 1000.0), ("water", 2100.0)]);
    assert_eq!(
        kitchen.done("again 2 --total 1500g"),
        "500.0 g beans\n1000.0 g water\n"
    );

    let shown = &kitchen.json("show 1")[0];
    assert_eq!(shown["items"][1]["temperature_c"], 18.0);
    assert_eq!(shown["lines"].as_array().unwrap().len(), 8);
}

#[test]
fn necks_are_turned_and_taken_out() {
    let kitchen = Kitchen::new();
    kitchen.done("begin --title necks --at 2025-03-03T18:00");
    kitchen.done("plan 1 --for 2d --every 24h --at 2025-03-03T18:00");
    let due = kitchen.json("due");
    let tasks: Vec<(&str, &str, bool)> = due
        .iter()
        .map(|due| {
            (
                due["task"].as_str().unwrap(),
                due["at"].as_str().unwrap(),
                due["overdue"].as_bool().unwrap(),
            )
        })
        .collect();
    assert_eq!(
        tasks,
        [
            ("turn", "2025-03-04T18:00:00Z", true),
            ("take-out", "2025-03-05T18:00:00Z", true)
        ]
    );
    assert!(
        kitchen
            .done("due")
            .starts_with("batch 1, necks: turn: overdue by ")
    );
    kitchen.done("turned 1 --at 2025-03-04T18:10");
    assert_eq!(kitchen.json("due").len(), 1);
    kitchen.done("out 1 --at 2025-03-05T18:00");
    assert!(kitchen.json("due").is_empty());
}

#[test]
fn a_coppa_is_cured_and_dried() {
    let kitchen = Kitchen::new();
    kitchen.done("begin --title coppa");
    kitchen.done("weigh 1 --mass 2000g --name neck");
    kitchen.done("weigh 1 --mass 50g --name salt");
    kitchen.done("weigh 1 --mass 12g --agent cure --nitrite-fraction 6.25%");
    kitchen.not_ready("ready 1", "was not reckoned against a limit");
    kitchen.not_ready(
        "ready 1 --method bacon-dry --meat 2kg",
        "over the limit: 375.0 ppm",
    );
    // What was typed is held against what was weighed, and another way of curing needs a reason.
    kitchen.not_ready(
        "ready 1 --meat 4kg",
        "4000.0 g was said, 2000.0 g was weighed",
    );
    kitchen.refused("ready 1 --method dry", "--reason");
    kitchen.refused("name 1 --item 2 --name salt", "is on record as what it is");
    kitchen.refused(
        "weigh 1 --mass 1g --name saltpetre",
        "enter it as a curing agent",
    );
    let out = kitchen.done("ready 1 --method dry --meat 2kg --reason no-bacon");
    assert!(
        out.contains("375.0 ppm of ingoing nitrite, at most 625 ppm"),
        "{out}"
    );
    assert!(out.contains("local codes"), "{out}");
    let shown = &kitchen.json("list")[0];
    assert_eq!(shown["ready"], true);
    assert_eq!(shown["items"][2]["curing_agent"], true);
    assert_eq!(shown["items"][2]["nitrite_fraction"], 0.0625);

    kitchen.done("dry 1 --loss 30% --green 2000g");
    assert!(
        kitchen
            .done("reweigh 1 --mass 1600g")
            .contains("20.0 % lost of 30.0 %, 200 g to go")
    );
    assert!(
        kitchen
            .done("reweigh 1 --mass 1400g")
            .contains("30.0 % lost of 30.0 %, down")
    );

    // Cold store against US FDA Food Code 3-501.16(A)(2): 5 degC (41 degF), read in Delaware's Food Code.
    kitchen.done("store 1 --temperature 4degC --at 2025-03-04T08:00");
    kitchen.done("store 1 --temperature 41degF --at 2025-03-04T10:00");
    assert_eq!(
        kitchen.json("show 1")[0]["cold_store"][0]["outcome"],
        "kept"
    );
    kitchen.done("store 1 --temperature 5.1degC --at 2025-03-04T12:00");
    assert_eq!(
        kitchen.json("show 1")[0]["cold_store"][0]["outcome"],
        "broken"
    );

    // More in it, and it is to be held against the limit anew; the store stands in the way now.
    kitchen.done("weigh 1 --mass 1g --item 2");
    assert_eq!(kitchen.json("list")[0]["ready"], false);
    kitchen.not_ready("ready 1", "the cold store was over its limit");
}

#[test]
fn what_could_be_a_curing_agent_is_asked_about_and_answered_by_its_packet() {
    let kitchen = Kitchen::new();
    kitchen.done("begin --title sausage");
    kitchen.done("weigh 1 --mass 5kg --name pork");
    kitchen.done("weigh 1 --mass 52g --name number-one");
    kitchen.not_ready("ready 1", "number-one, is 1.04 % of the meat");
    kitchen.refused(
        "packet 1 --item 7 salt",
        "nothing was weighed under that number",
    );
    kitchen.done("packet 1 --item 1 salt,pepper,bay");
    kitchen.done("ready 1");
}

// A kitchen's own cold limit holds wherever a cold store is judged, and a broken file judges nothing.
#[test]
fn a_batch_is_held_against_the_kitchens_own_limits() {
    let kitchen = Kitchen::new();
    kitchen.done("begin --title roe");
    kitchen.done("weigh 1 --mass 500g --name salt");
    kitchen.done("store 1 --temperature 4degC --at 2025-03-04T08:00");
    kitchen.done("store 1 --temperature 4degC --at 2025-03-04T10:00");
    assert_eq!(
        kitchen.json("show 1")[0]["cold_store"][0]["outcome"],
        "kept"
    );
    let file = kitchen.folder.path().join("data/limits.toml");
    let own =
        "[[limit]]\nname='cold-holding'\nkind='at-most'\ncelsius=2\nsource='Estuary county'\n";
    std::fs::write(&file, own).unwrap();
    assert_eq!(
        kitchen.json("show 1")[0]["cold_store"][0]["outcome"],
        "broken"
    );
    kitchen.not_ready("ready 1", "limit at most 2 degC");
    std::fs::write(&file, "[[limit]]\nname='cold-holding'\n").unwrap();
    for words in ["show 1", "ready 1"] {
        kitchen.refused(words, "Nothing is judged until it is put right");
    }
}

#[test]
fn a_slip_is_struck_out_and_stays_on_record() {
    let kitchen = Kitchen::new();
    kitchen.done("begin");
    kitchen.done("weigh 1 --mass 500g --name flour");
    kitchen.done("weigh 1 --mass 5000g --item 0");
    kitchen.done("strike 1 --line 2 --reason slip");
    let shown = &kitchen.json("show 1")[0];
    assert_eq!(shown["total_grams"], 500.0);
    assert_eq!(shown["lines"][2]["struck"], true);
    kitchen.refused("strike 1 --line 2 --reason again", "struck out already");
}

#[test]
fn what_cannot_be_is_refused() {
    let kitchen = Kitchen::new();
    kitchen.done("begin");
    for (words, sentence) in [
        ("weigh 7 --mass 1g", "there is no batch 7"),
        ("weigh x --mass 1g", "is no batch's number"),
        ("weigh 1 --mass 5", "--mass: \"5\" has no unit"),
        (
            "weigh 1 --mass 5g --item 3",
            "--item: 3: nothing was weighed",
        ),
        ("weigh 1 --mass -5g", "was taken out where only 0 g is in"),
        ("weigh 1 --mass 5g --agent cure", "--nitrite-fraction"),
        (
            "weigh 1 --mass 5g --agent salt --nitrite-fraction 6.25%",
            "cannot be called salt",
        ),
        ("taste 1 --mark 10", "--mark: \"10\" is no mark"),
        ("plan 1 --for -2d", "--for"),
        ("plan 1 --for 2moons", "is no span of time"),
        ("plan 1 --due 2020-01-01", "--due"),
        (
            "dry 1 --loss 90 --green 1kg",
            "--loss: \"90 %\" is no loss of water",
        ),
        ("dry 1 --loss 30", "--green"),
        ("again 1 --total 1kg", "too few"),
        ("compare nothing", "there is no batch of that title"),
        ("ready 1 --method dry --meat 1kg", "no curing agent"),
    ] {
        kitchen.refused(words, sentence);
    }
}

/// One title in two spellings (Unicode Standard Annex 15: e and an accent, or one letter).
#[test]
fn titles_are_one_whatever_keyboard_wrote_them() {
    let kitchen = Kitchen::new();
    for (title, at) in [
        ("Entr\u{e9}e", "2026-05-01T09:00"),
        ("entre\u{301}e", "2026-05-02T09:00"),
        ("  En\u{200b}tr\u{e9}e ", "2026-05-03T09:00"),
    ] {
        let (code, _, err) = kitchen.run(&["begin", "--title", title, "--at", at]);
        assert_eq!(code, 0, "{title:?}: {err}");
    }
    let (code, out, err) = kitchen.run(&["list", "--title", "Entre\u{301}e", "--json"]);
    assert_eq!(code, 0, "{err}");
    assert_eq!(out.lines().count(), 3, "{out}");
}

#[test]
fn nothing_on_record_commands_a_terminal() {
    let kitchen = Kitchen::new();
    kitchen.done("begin --title loaf");
    for words in [
        &["begin", "--title", "red\u{1b}[31m"][..],
        &["begin", "--title", "two\nlines"],
        &["title", "1", "red\u{1b}[31m"],
        &["note", "1", "bell\u{7}"],
        &["taste", "1", "--mark", "5", "--note", "bell\u{7}"],
    ] {
        let (code, _, err) = kitchen.run(words);
        assert_eq!(code, 2, "{words:?}: {err}");
        assert!(!err.contains(['\u{1b}', '\u{7}']), "{err:?}");
    }
    assert_eq!(kitchen.done("list").lines().count(), 1, "one was begun");
    // What an earlier version let in is shown, and does nothing.
    let store = kitchen.folder.path().join("data/evenhand.sqlite3");
    let changed = rusqlite::Connection::open(store)
        .unwrap()
        .execute(
            "INSERT INTO batch_line (batch, line, at, what) VALUES (1, 1, 1777000000000, ?1)",
            [r#"{"what":"titled","title":"red\u001b[31m"}"#],
        )
        .unwrap();
    assert_eq!(changed, 1);
    for words in ["list", "show 1"] {
        let out = kitchen.done(words);
        assert!(out.contains("\\u{1b}[31m"), "{out:?}");
        assert!(!out.contains('\u{1b}'), "{out:?}");
    }
}

#[test]
fn a_batch_is_of_a_time_that_was() {
    let kitchen = Kitchen::new();
    for (at, why) in [
        ("1970-01-01T00:00", "before the year 2000"),
        ("2199-01-01T00:00", "still to come"),
    ] {
        let (code, _, err) = kitchen.run(&["begin", "--at", at]);
        assert_eq!(code, 2, "{at}: {err}");
        assert!(err.contains("--at") && err.contains(why), "{err}");
    }
}
