//! The built program on its command line.

use evenhand_store::{DataFolder, Store};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

struct Kitchen {
    folder: TempDir,
}

struct Told {
    code: i32,
    out: String,
    err: String,
}

impl Told {
    fn lines(&self) -> Vec<Value> {
        let lines = self.out.lines();
        lines
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }
}

impl From<Output> for Told {
    fn from(output: Output) -> Self {
        Self {
            code: output.status.code().unwrap_or(-1),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }
}

impl Kitchen {
    fn new() -> Self {
        Self {
            folder: tempfile::tempdir().unwrap(),
        }
    }

    /// A kitchen with a dish on its list.
    fn with_shrimp() -> Self {
        let kitchen = Self::new();
        let add = [
            "dish",
            "add",
            "Brown shrimp",
            "--target",
            "30g",
            "--tolerance",
            "1g",
            "--taking",
        ];
        assert_eq!(kitchen.run(&add).code, 0);
        kitchen
    }

    fn data(&self) -> PathBuf {
        self.folder.path().join("data")
    }

    fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_evenhand"));
        command
            .args(arguments)
            .env("EVENHAND_DATA", self.data())
            .env("TZ", "UTC")
            .env("LC_ALL", "C")
            .stdin(Stdio::null());
        command
    }

    fn run(&self, arguments: &[&str]) -> Told {
        self.command(arguments).output().unwrap().into()
    }

    /// Runs and expects success.
    fn ok(&self, arguments: &[&str]) -> Told {
        let told = self.run(arguments);
        assert_eq!(told.code, 0, "{arguments:?}: {}", told.err);
        told
    }

    /// Runs and expects an error: its exit status and what it says.
    fn fails(&self, code: i32, arguments: &[&str], says: &str) {
        let told = self.run(arguments);
        assert_eq!(told.code, code, "{arguments:?} said {:?}", told.err);
        assert!(
            told.err.contains(says),
            "{arguments:?} said {:?}, not {says:?}",
            told.err
        );
        assert_eq!(told.out, "", "{arguments:?}");
    }

    fn file(&self, name: &str, text: &str) -> String {
        let path = self.folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    }

    fn path(&self, name: &str) -> String {
        self.folder.path().join(name).to_str().unwrap().to_owned()
    }
}

const PORTION: [&str; 10] = [
    "portion",
    "--dish",
    "parfait",
    "--target",
    "60g",
    "--tolerance",
    "2g",
    "--adding",
    "--simulated",
    "--json",
];

fn with<'a>(base: &[&'a str], more: &[&'a str]) -> Vec<&'a str> {
    [base, more].concat()
}

/// `base` with the value of one option changed.
fn but<'a>(base: &[&'a str], option: &str, value: &'a str) -> Vec<&'a str> {
    let mut changed = base.to_vec();
    let place = base.iter().position(|word| *word == option).unwrap();
    changed[place + 1] = value;
    changed
}

#[test]
fn bad_input_is_refused_by_name_before_anything_is_made() {
    let kitchen = Kitchen::new();
    for (option, value, says) in [
        (
            "--target",
            "60",
            "--target: \"60\" has no unit; write a mass with g, kg, oz or lb",
        ),
        (
            "--target",
            "-60g",
            "--target: \"-60g\" is negative; it must be above zero",
        ),
        (
            "--target",
            "60 ml",
            "--target: \"60 ml\" has the unit \"ml\"",
        ),
        (
            "--target",
            "nan",
            "--target: \"nan\" does not begin with a number",
        ),
        (
            "--tolerance",
            "-2g",
            "--tolerance: \"-2g\" is negative; it must be zero or more",
        ),
        (
            "--tolerance",
            "60g",
            "the tolerance below must be smaller than the target",
        ),
        ("--dish", "", "--dish: \"\" is empty"),
    ] {
        kitchen.fails(2, &but(&PORTION, option, value), says);
    }
    for (more, says) in [
        (
            vec!["--count", "0"],
            "--count: \"0\" is no number of portions",
        ),
        (
            vec!["--count", "-3"],
            "--count: \"-3\" is no number of portions",
        ),
        (vec!["--speed", "-1"], "--speed: \"-1\" is no speed"),
        (vec!["--speed", "fast"], "--speed: \"fast\" is no speed"),
        (vec!["--cook", "Maria"], "--cook: \"Maria\" is not initials"),
        (
            vec!["--unit", "stone"],
            "--unit: \"stone\" is not a unit of mass",
        ),
        (vec!["--taking"], "--adding"),
        (vec!["--port", "COM7"], "--simulated"),
    ] {
        kitchen.fails(2, &with(&PORTION, &more), says);
    }
    assert!(!kitchen.data().exists(), "a store was made for nothing");
}

#[test]
fn what_is_missing_is_asked_for() {
    let kitchen = Kitchen::with_shrimp();
    let cases: [(&[&str], &str); 7] = [
        (&["heat", "check"], "<--log <FILE.csv>|--name <NAME>>"),
        (
            &["portion", "--dish", "parfait", "--adding", "--simulated"],
            "there is no dish \"parfait\"; known are \"Brown shrimp\"",
        ),
        (
            &[
                "portion",
                "--dish",
                "parfait",
                "--target",
                "60g",
                "--adding",
                "--simulated",
            ],
            "--tolerance is needed",
        ),
        (
            &[
                "portion",
                "--dish",
                "parfait",
                "--target",
                "60g",
                "--tolerance",
                "2g",
                "--simulated",
            ],
            "--adding or --taking is needed",
        ),
        (
            &["portion", "--dish", "brown shrimp"],
            "--port or --simulated is needed",
        ),
        (
            &["portion", "--dish", "brown shrimp", "--scenario", "x"],
            "--simulated",
        ),
        (
            &["dish", "add", "dough", "--target", "250g", "--adding"],
            "--tolerance is needed",
        ),
    ];
    for (arguments, says) in cases {
        kitchen.fails(2, arguments, says);
    }
}

#[test]
fn an_empty_list_says_so_and_what_would_fill_it() {
    let kitchen = Kitchen::new();
    let folder = DataFolder::choose(Some(&kitchen.data())).unwrap();
    drop(Store::open(&folder).unwrap());
    for (arguments, says) in [
        (&["dish", "list"][..], "evenhand dish add"),
        (&["tin", "list"], "evenhand tin open"),
        (&["batch", "list"], "evenhand batch begin"),
        (&["batch", "due"], "evenhand batch plan"),
        (&["service", "list"], "evenhand portion"),
        (&["scale", "history"], "evenhand scale try"),
        (&["heat", "log"], "evenhand heat watch"),
        (&["brine", "vessel", "list"], "evenhand brine vessel fill"),
    ] {
        let told = kitchen.ok(arguments).out;
        assert!(told.contains(says), "{arguments:?} said {told:?}");
        let as_json = [arguments, &["--json"]].concat();
        assert_eq!(kitchen.ok(&as_json).out, "", "{as_json:?}");
    }
    // What a list names is a command that there is.
    for named in [
        ["dish", "add", "--help"],
        ["tin", "open", "--help"],
        ["batch", "begin", "--help"],
        ["batch", "plan", "--help"],
        ["scale", "try", "--help"],
    ] {
        kitchen.ok(&named);
    }
}

#[test]
fn what_is_not_there_is_named_with_what_is() {
    let kitchen = Kitchen::with_shrimp();
    let nowhere = "0000000000000001-00000001-1";
    let cases: [(&[&str], &str); 9] = [
        (
            &["spread", "--dish", "parfait"],
            "there is no dish \"parfait\"; known are \"Brown shrimp\"",
        ),
        (
            &[
                "export", "--format", "csv", "--out", "-", "--dish", "parfait",
            ],
            "known are \"Brown shrimp\"",
        ),
        (&["dish", "retire", "parfait"], "known are \"Brown shrimp\""),
        (
            &["tin", "open", "--dish", "parfait", "--net", "1kg"],
            "known are \"Brown shrimp\"",
        ),
        (&["tin", "close", "7"], "there is no tin 7"),
        (
            &["tin", "close", "seven"],
            "TIN: \"seven\" is no tin's number",
        ),
        (
            &["strike", nowhere, "--reason", "dropped"],
            "there is no portion",
        ),
        (
            &["strike", "17", "--reason", "dropped"],
            "ID: \"17\" is no portion's id",
        ),
        (
            &["spread", "--from", "tomorrowish"],
            "--from: \"tomorrowish\"",
        ),
    ];
    for (arguments, says) in cases {
        kitchen.fails(2, arguments, says);
    }
    kitchen.fails(
        2,
        &["spread", "--from", "2026-05-02", "--to", "2026-05-01"],
        "is not before --to",
    );
    kitchen.fails(1, &["undo"], "there is no portion to undo");
}

#[test]
fn a_known_dish_is_portioned_as_it_is_known_but_for_what_is_said() {
    let kitchen = Kitchen::with_shrimp();
    let told = kitchen.ok(&[
        "portion",
        "--dish",
        "BROWN shrimp",
        "--tolerance",
        "5g",
        "--count",
        "2",
        "--simulated",
        "--json",
    ]);
    assert_eq!(told.lines().len(), 3);
    let rows = kitchen
        .ok(&["export", "--format", "json", "--out", "-"])
        .out;
    let rows: Vec<Value> = serde_json::from_str(&rows).unwrap();
    let row = &rows[0];
    assert_eq!(
        (&row["dish"], &row["mode"]),
        (&Value::from("Brown shrimp"), &Value::from("taking"))
    );
    assert_eq!(
        (row["target_grams"].as_f64(), row["below_grams"].as_f64()),
        (Some(30.0), Some(5.0))
    );
    // For this run only: the dish is as it was.
    let dish = &kitchen.ok(&["dish", "list", "--json"]).lines()[0];
    assert_eq!(dish["below_grams"].as_f64(), Some(1.0));
    // More may be allowed on one side than on the other.
    kitchen.ok(&[
        "portion",
        "--dish",
        "brown shrimp",
        "--below",
        "0g",
        "--above",
        "2g",
        "--count",
        "1",
        "--simulated",
    ]);
    let told = kitchen.ok(&[
        "portion",
        "--dish",
        "brown shrimp",
        "--target",
        "1oz",
        "--count",
        "1",
        "--simulated",
        "--scenario",
        "saltmarsh-shrimp-taking",
        "--unit",
        "oz",
    ]);
    assert!(
        told.err.contains("makes portions of 30.0 g, not of 28.3 g"),
        "{}",
        told.err
    );
    assert!(told.out.contains(" oz"), "{}", told.out);
}

#[test]
fn a_scenario_that_cannot_be_played_is_refused() {
    let kitchen = Kitchen::new();
    let scenario = |name: &str| kitchen.run(&with(&PORTION, &["--scenario", name]));
    let told = scenario("no-such.toml");
    assert_eq!(told.code, 2, "{}", told.err);
    assert!(told.err.contains("saltmarsh-parfait"), "{}", told.err);
    let broken = kitchen.file("broken.toml", "title = 3");
    assert_eq!(scenario(&broken).code, 2);
    let told = scenario("saltmarsh-shrimp-taking");
    assert_eq!(told.code, 2, "{}", told.err);
    assert!(told.err.contains("is for --taking"), "{}", told.err);
}

#[test]
fn a_port_that_is_not_there_or_none_is_said() {
    let kitchen = Kitchen::with_shrimp();
    let at = |port| ["portion", "--dish", "brown shrimp", "--port", port];
    kitchen.fails(
        1,
        &at("/dev/ttyNotThere"),
        "There is no port /dev/ttyNotThere. Plug the scale in",
    );
    kitchen.fails(
        1,
        &at("/dev/null"),
        "/dev/null cannot be used: it is no serial port",
    );
}

#[test]
fn stores_that_must_not_be_touched_are_not() {
    let kitchen = Kitchen::with_shrimp();
    let file = kitchen.file("file", "");
    let add = [
        "dish",
        "add",
        "Gnudi",
        "--target",
        "30g",
        "--tolerance",
        "1g",
    ];
    let refuses = |folder: &str, says: &str| {
        kitchen.fails(1, &[&["--data", folder][..], &add].concat(), says);
    };
    refuses(&file, "the data folder");
    refuses(&format!("{file}/data"), "choose another with --data DIR");

    let store = kitchen.data().join("evenhand.sqlite3");
    let raw = rusqlite::Connection::open(&store).unwrap();
    raw.pragma_update(None, "user_version", 99).unwrap();
    drop(raw);
    kitchen.fails(
        1,
        &["spread"],
        "was written by a newer version of this program",
    );
}

#[test]
fn each_portion_is_told_once_and_the_summary_is_their_spread() {
    let kitchen = Kitchen::new();
    let told = kitchen.ok(&with(&PORTION, &["--count", "7", "--seed", "3"]));
    let lines = told.lines();
    let (summary, portions) = lines.split_last().unwrap();
    assert_eq!(portions.len(), 7);
    let mut ids: Vec<_> = portions.iter().map(|p| p["id"].as_str().unwrap()).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), 7);
    for portion in portions {
        let grams = portion["grams"].as_f64().unwrap();
        let verdict = match grams {
            _ if grams < 58.0 => "short",
            _ if grams > 62.0 => "heavy",
            _ => "on",
        };
        assert_eq!(portion["verdict"], verdict, "{portion}");
        let at: jiff::Timestamp = portion["at"].as_str().unwrap().parse().unwrap();
        assert!(at < jiff::Timestamp::now());
    }
    let summary = &summary["summary"];
    assert_eq!(
        (summary["n"].as_u64(), summary["lost"].as_u64()),
        (Some(7), Some(0))
    );
    let mean = portions
        .iter()
        .map(|p| p["grams"].as_f64().unwrap())
        .sum::<f64>()
        / 7.0;
    assert!((summary["mean_grams"].as_f64().unwrap() - mean).abs() < 1e-6);

    let spread = kitchen
        .ok(&["spread", "--dish", "Parfait", "--json"])
        .lines();
    for field in [
        "n",
        "mean_grams",
        "standard_deviation_grams",
        "on",
        "given_away_grams",
    ] {
        assert_eq!(spread[0][field], summary[field], "{field}");
    }
    assert_eq!(spread[0]["dish"], "parfait");
    // The dish is known now, with its goal and mode.
    kitchen.ok(&[
        "portion",
        "--dish",
        "parfait",
        "--count",
        "1",
        "--simulated",
    ]);
    let unit = kitchen.ok(&["spread", "--unit", "oz"]).out;
    assert!(
        unit.contains(" oz") && unit.contains("portions                  8"),
        "{unit}"
    );
}

/// True masses in a file, as a scale that works must find them.
#[test]
fn true_masses_come_out_of_both_ways_of_portioning() {
    let kitchen = Kitchen::new();
    let masses = [30.1, 29.2, 31.7, 28.4, 30.0, 30.9];
    let vessels = [
        ("adding", "[dishes]\ngrams = [90, 140]"),
        (
            "taking",
            "[tin]\ngrams = [80, 90]\nfilled_grams = [900, 950]",
        ),
    ];
    for (mode, vessel) in vessels {
        let file = kitchen.file(
            &format!("{mode}.toml"),
            &format!(
                "title = \"six\"\nmode = \"{mode}\"\ndish = \"shrimp\"\n\
                 [goal]\ntarget_grams = 30\ntolerance_grams = 1\n\
                 [portions]\nmasses_grams = {masses:?}\n{vessel}\n"
            ),
        );
        let mode = format!("--{mode}");
        let told = kitchen.ok(&[
            "portion",
            "--dish",
            "shrimp",
            "--target",
            "30g",
            "--tolerance",
            "1g",
            &mode,
            "--simulated",
            "--scenario",
            &file,
            "--json",
        ]);
        let lines = told.lines();
        assert_eq!(lines.len(), masses.len() + 1, "{mode}: {}", told.out);
        for (line, mass) in lines.iter().zip(masses) {
            let off = line["grams"].as_f64().unwrap() - mass;
            assert!(off.abs() <= 0.1, "{mode}: {line} is {off} g off {mass}");
        }
    }
}

#[test]
fn a_corrected_portion_is_told_and_counted_once() {
    let kitchen = Kitchen::with_shrimp();
    let mut corrections = 0;
    for seed in ["1", "2", "3", "4"] {
        let told = kitchen.ok(&[
            "portion",
            "--dish",
            "brown shrimp",
            "--simulated",
            "--scenario",
            "saltmarsh-shrimp-taking",
            "--seed",
            seed,
            "--json",
        ]);
        let lines = told.lines();
        let (summary, portions) = lines.split_last().unwrap();
        let replaced: Vec<_> = portions
            .iter()
            .filter_map(|p| p["replaces"].as_str())
            .collect();
        for id in &replaced {
            assert!(
                portions.iter().any(|portion| portion["id"] == *id),
                "{id} was never told"
            );
        }
        let standing = portions.len() - replaced.len();
        assert_eq!(summary["summary"]["n"].as_u64(), Some(standing as u64));
        corrections += replaced.len();
    }
    assert!(corrections > 0, "the scenario has second thoughts in it");
}

#[test]
fn striking_out_undoing_and_lifting_change_what_counts_and_nothing_else() {
    let kitchen = Kitchen::new();
    let told = kitchen.ok(&with(&PORTION, &["--count", "3"]));
    let first = told.lines()[0]["id"].as_str().unwrap().to_owned();
    let counted = || {
        kitchen.ok(&["spread", "--json"]).lines()[0]["n"]
            .as_u64()
            .unwrap()
    };
    assert_eq!(counted(), 3);
    assert!(kitchen.ok(&["undo"]).out.contains("struck out: undone"));
    assert_eq!(counted(), 2);
    let strike = ["strike", &first, "--reason", "fell down"];
    assert!(kitchen.ok(&strike).out.contains("struck out: fell down"));
    assert_eq!(counted(), 1);
    kitchen.fails(2, &strike, "is struck out already");
    kitchen.ok(&["strike", &first, "--lift"]);
    assert_eq!(counted(), 2);
    kitchen.fails(2, &["strike", &first, "--lift"], "is not struck out");
    kitchen.fails(2, &["strike", &first], "--reason");
    let rows = kitchen
        .ok(&["export", "--format", "json", "--out", "-"])
        .out;
    let rows: Vec<Value> = serde_json::from_str(&rows).unwrap();
    assert_eq!(rows.len(), 3);
    assert_eq!(rows.iter().filter(|row| row["counts"] == true).count(), 2);
}

#[test]
fn an_export_is_whole_harmless_and_never_written_over_by_accident() {
    let kitchen = Kitchen::new();
    let portion = with(
        &but(&PORTION, "--dish", "=SUM(A1), \"shrimp\""),
        &["--count", "2", "--cook", "mo"],
    );
    kitchen.ok(&portion);
    let out = kitchen.path("out.csv");
    let export = ["export", "--format", "csv", "--out", &out, "--cook", "mo"];
    let told = kitchen.ok(&export);
    assert!(told.err.contains("2 portions written"), "{}", told.err);
    let mut table = csv::Reader::from_path(&out).unwrap();
    let headings = table.headers().unwrap().clone();
    assert_eq!(headings.len(), 24);
    let rows: Vec<csv::StringRecord> = table.records().map(Result::unwrap).collect();
    let cell = |row: usize, name: &str| {
        let place = headings.iter().position(|heading| heading == name).unwrap();
        rows[row].get(place).unwrap().to_owned()
    };
    assert_eq!(rows.len(), 2);
    // A text that a spreadsheet would run is made a text.
    assert_eq!(cell(0, "dish"), "'=SUM(A1), \"shrimp\"");
    assert_eq!(
        (cell(0, "cook").as_str(), cell(0, "target_grams").as_str()),
        ("MO", "60.0")
    );

    // As JSON it is itself, and the same portions.
    let json = kitchen.path("out.json");
    kitchen.ok(&["export", "--format", "json", "--out", &json]);
    let list: Vec<Value> = serde_json::from_str(&std::fs::read_to_string(&json).unwrap()).unwrap();
    assert_eq!(list[1]["dish"], "=SUM(A1), \"shrimp\"");
    // Who asks for nobody by name is told nobody's.
    assert_eq!(list[1]["cook"], "everybody else");
    assert_eq!(list[1]["id"], cell(1, "id"));
    assert_eq!(
        list[1]["grams"].as_f64().unwrap(),
        cell(1, "grams").parse::<f64>().unwrap()
    );

    std::fs::write(&out, "mine").unwrap();
    kitchen.fails(2, &export, "is there already");
    assert_eq!(std::fs::read_to_string(&out).unwrap(), "mine");
    kitchen.ok(&with(&export, &["--force"]));
    assert!(
        std::fs::read_to_string(&out)
            .unwrap()
            .starts_with("id,run,dish")
    );
    let nowhere = kitchen.path("no/such/folder/out.csv");
    kitchen.fails(
        1,
        &["export", "--format", "csv", "--out", &nowhere],
        "cannot be written",
    );
    // Nothing half written is left lying about.
    let left: Vec<_> = std::fs::read_dir(kitchen.folder.path())
        .unwrap()
        .flatten()
        .collect();
    assert!(
        left.iter()
            .all(|file| !file.file_name().to_string_lossy().contains(".evenhand-"))
    );
}

#[test]
fn a_period_takes_what_was_made_in_it() {
    let kitchen = Kitchen::new();
    kitchen.ok(&with(&PORTION, &["--count", "2"]));
    let within = |arguments: &[&str]| {
        let told = kitchen.ok(&with(&["spread", "--dish", "parfait", "--json"], arguments));
        told.lines()[0]["n"].as_u64().unwrap()
    };
    assert_eq!(within(&["--from", "yesterday"]), 2);
    assert_eq!(within(&["--to", "2001-01-01"]), 0);
    assert_eq!(within(&["--from", "2001-01-01", "--to", "today"]), 2);
    let none = kitchen.ok(&["spread", "--to", "2001-01-01"]).out;
    assert!(none.contains("No portions are on record"), "{none}");
}

#[test]
fn a_tin_runs_down_and_tells_what_was_given_away_in_money() {
    let kitchen = Kitchen::with_shrimp();
    let open = [
        "tin",
        "open",
        "--dish",
        "brown shrimp",
        "--net",
        "1kg",
        "--price",
        "180 EUR",
    ];
    let opened = kitchen.ok(&open).out;
    assert!(
        opened.contains("tin 1: Brown shrimp, 1000.0 g of 1000.0 g left, 32 to 34 portions"),
        "{opened}"
    );
    let told = kitchen.ok(&[
        "portion",
        "--dish",
        "brown shrimp",
        "--count",
        "4",
        "--simulated",
        "--json",
    ]);
    let summary = &told.lines()[4]["summary"];
    assert_eq!(
        (&summary["currency"], summary["costed"].as_u64()),
        (&Value::from("EUR"), Some(4))
    );
    let grams = summary["given_away_grams"].as_f64().unwrap();
    let money = summary["given_away_money"].as_f64().unwrap();
    assert!((money - grams * 0.18).abs() < 1e-5, "{summary}");
    let tin = &kitchen.ok(&["tin", "list", "--json"]).lines()[0];
    let left = 1_000.0 - summary["total_grams"].as_f64().unwrap();
    assert!(
        (tin["left_grams"].as_f64().unwrap() - left).abs() < 1e-5,
        "{tin}"
    );
    kitchen.ok(&["tin", "close", "1"]);
    assert!(kitchen.ok(&["tin", "list"]).out.contains("closed"));
}

#[test]
fn dishes_are_listed_changed_and_retired() {
    let kitchen = Kitchen::with_shrimp();
    kitchen.ok(&[
        "dish",
        "add",
        "brown shrimp",
        "--tolerance",
        "2g",
        "--cost",
        "1800 EUR/kg",
    ]);
    let list = kitchen.ok(&["dish", "list", "--json"]).lines();
    assert_eq!(list.len(), 1);
    assert_eq!(list[0]["target_grams"].as_f64(), Some(30.0));
    assert_eq!(list[0]["below_grams"].as_f64(), Some(2.0));
    assert_eq!(list[0]["cost"], "1800.00 EUR/kg");
    kitchen.ok(&["dish", "retire", "brown shrimp"]);
    assert!(kitchen.ok(&["dish", "list"]).out.contains("off the list"));
    kitchen.fails(
        2,
        &["dish", "add", "x", "--cost", "4 EUR"],
        "does not say for what mass",
    );
}

#[test]
fn a_closed_pipe_is_no_failure() {
    let kitchen = Kitchen::new();
    let mut child = kitchen
        .command(&with(&PORTION, &["--count", "3"]))
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let told = Told::from(child.wait_with_output().unwrap());
    assert_eq!(
        (told.code, told.err.contains("panicked")),
        (0, false),
        "{}",
        told.err
    );
}

#[test]
fn help_and_version_are_no_errors() {
    let kitchen = Kitchen::new();
    assert!(kitchen.ok(&["--version"]).out.starts_with("evenhand "));
    let help = kitchen.ok(&["help"]).out;
    for command in [
        "portion", "spread", "export", "dish", "tin", "strike", "undo", "simulate", "ports",
    ] {
        assert!(
            help.contains(&format!("  {command} ")),
            "{command} is not in the help"
        );
        kitchen.ok(&[command, "--help"]);
    }
    assert!(!Path::new(&kitchen.data()).exists());
}
