//! Scenario files: what is taken, and what is refused with which words.

use evenhand_protocol::{Mass, Mode, Verdict};
use evenhand_simulator::scenario::{HARD, REPORT, SHIPPED, Scenario, ScenarioError};
use std::path::Path;

const PLAIN: &str = r#"
title = "Dough"
mode = "adding"
dish = "Dough ball"
[goal]
target_grams = 62
tolerance_grams = 2
[portions]
count = 3
mean_grams = 62
spread_grams = 1
[dishes]
grams = [110, 150]
"#;

fn refused(text: &str) -> String {
    Scenario::from_toml(text).unwrap_err().to_string()
}

/// [`PLAIN`] with one line replaced.
fn with(line: &str, replacement: &str) -> String {
    assert!(PLAIN.contains(line));
    PLAIN.replace(line, replacement)
}

#[test]
fn a_plain_scenario_is_read() {
    let scenario = Scenario::from_toml(PLAIN).unwrap();
    assert_eq!(scenario.title(), "Dough");
    assert_eq!(scenario.dish(), "Dough ball");
    assert_eq!(scenario.mode(), Mode::Adding);
    assert_eq!(scenario.seed(), 1);
    assert_eq!(scenario.portion_count(), 3);
    assert_eq!(scenario.capacity(), Mass::from_grams(2_000));
    let goal = scenario.goal();
    assert_eq!(goal.judge(Mass::from_grams(64)), Verdict::On);
    assert_eq!(goal.judge(Mass::from_milligrams(64_001)), Verdict::Heavy);
    assert_eq!(goal.judge(Mass::from_milligrams(59_999)), Verdict::Short);
}

#[test]
fn each_side_of_the_tolerance_may_have_its_own_figure() {
    let text = with("tolerance_grams = 2", "below_grams = 1\nabove_grams = 3");
    let goal = Scenario::from_toml(&text).unwrap().goal();
    assert_eq!(goal.lightest(), Mass::from_grams(61));
    assert_eq!(goal.heaviest(), Mass::from_grams(65));
}

#[test]
fn every_shipped_scenario_is_read_from_its_file_and_by_name() {
    for (name, text) in SHIPPED {
        let path = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("scenarios")
            .join(format!("{name}.toml"));
        let loaded = Scenario::load(&path).unwrap();
        assert_eq!(loaded, Scenario::from_toml(text).unwrap());
        assert_eq!(loaded, Scenario::shipped(name).unwrap());
    }
    for (folder, ship) in [
        ("scenarios", SHIPPED),
        ("scenarios/hard", HARD),
        ("scenarios/report", REPORT),
    ] {
        let files = std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder))
            .unwrap()
            .filter(|file| file.as_ref().unwrap().path().is_file())
            .count();
        assert_eq!(files, ship.len(), "each file in {folder}/ ships");
    }
    for (folder, ship) in [("scenarios/hard", HARD), ("scenarios/report", REPORT)] {
        for (name, text) in ship {
            let path = Path::new(env!("CARGO_MANIFEST_DIR"))
                .join(folder)
                .join(format!("{name}.toml"));
            let loaded = Scenario::load(&path).unwrap();
            assert_eq!(loaded, Scenario::from_toml(text).unwrap());
            assert_eq!(loaded, Scenario::shipped(name).unwrap());
        }
    }
}

#[test]
fn an_error_names_the_field_the_value_and_what_was_expected() {
    for (line, replacement, wanted) in [
        (
            "target_grams = 62",
            "target_grams = -3",
            "`goal.target_grams` is -3; expected a number from 0.1 to 2000",
        ),
        (
            "tolerance_grams = 2",
            "tolerance_grams = nan",
            "`goal.tolerance_grams` is NaN; expected a number from 0 to 62",
        ),
        (
            "tolerance_grams = 2",
            "below_grams = 2",
            "`goal` is neither or both; expected either tolerance_grams, or below_grams and above_grams",
        ),
        (
            "tolerance_grams = 2",
            "tolerance_grams = 62",
            "`goal` is refused: the tolerance below must be smaller than the target",
        ),
        (
            "count = 3",
            "count = 0",
            "`portions.count` is 0; expected a number from 1 to 100000",
        ),
        (
            "spread_grams = 1",
            "spread_grams = 40",
            "`portions.spread_grams` is 40; expected a number from 0 to 15.5",
        ),
        (
            "spread_grams = 1",
            "masses_grams = [1]",
            "`portions` is neither or both; expected either count, mean_grams and spread_grams, or a list masses_grams",
        ),
        (
            "grams = [110, 150]",
            "grams = [150, 110]",
            "`dishes.grams` is [150, 110]; expected a number from 1 to 2000, or [low, high] of such numbers in order",
        ),
        (
            "title = \"Dough\"",
            "title = \" \"",
            "`title` is empty; expected a line that says what this is",
        ),
        (
            "mode = \"adding\"",
            "mode = \"taking\"",
            "`tin` is missing; expected a table [tin] when taking",
        ),
        (
            "[dishes]\ngrams = [110, 150]",
            "",
            "`dishes` is missing; expected a table [dishes] when adding",
        ),
        (
            "[dishes]",
            "[cook]\ndish_returned = 1.5\n[dishes]",
            "`cook.dish_returned` is 1.5; expected a number from 0 to 1",
        ),
        (
            "[dishes]",
            "[converter]\nsamples_a_second = 40\n[dishes]",
            "`converter.samples_a_second` is 40; expected 10 or 80",
        ),
        (
            "[dishes]",
            "[[event]]\nkind = \"lean\"\nat_seconds = 3\nfor_seconds = 2\n[dishes]",
            "`event[0].grams` is missing; expected how hard it presses, in grams",
        ),
        (
            "[dishes]",
            "[[event]]\nkind = \"cable-pull\"\nat_seconds = 3\n[dishes]",
            "`event[0].for_seconds` is missing; expected how long it lasts, in seconds",
        ),
        (
            "[dishes]",
            "[[event]]\nkind = \"cable-pull\"\nfor_seconds = 3\n[dishes]",
            "`event[0].at_seconds` is neither or both; expected either at_seconds or at_portion",
        ),
        (
            "[dishes]",
            "[probe]\n[[probe.medium]]\nat_seconds = 9\ncelsius = 4\n[[probe.medium]]\nat_seconds = 8\ncelsius = 4\n[dishes]",
            "`probe.medium[1].at_seconds` is 8; expected a number from 9 to 10000000",
        ),
        (
            "[dishes]",
            "[tin]\ngrams = 90\nfilled_grams = 100\n[dishes]",
            "`tin` is there; expected no table [tin] when adding",
        ),
    ] {
        let said = refused(&with(line, replacement));
        assert!(said.starts_with(wanted), "{said}\nwanted: {wanted}");
    }
}

#[test]
fn an_error_of_form_shows_the_line_and_the_names_that_would_do() {
    let said = refused(&with("count = 3", "cuont = 3"));
    for part in ["cuont", "line 9", "`count`", "`mean_grams`"] {
        assert!(said.contains(part), "{part}: {said}");
    }
    let said = refused(&with("grams = [110, 150]", "grams = \"light\""));
    assert!(
        said.contains("expected a number, or [low, high] to be drawn from"),
        "{said}"
    );
    let said = refused(&with("grams = [110, 150]", "grams = [1, 2, 3]"));
    assert!(said.contains("expected a number, or [low, high]"), "{said}");
    let said = refused(&with("mode = \"adding\"", "mode = \"guessing\""));
    assert!(
        said.contains("`adding`") && said.contains("`taking`"),
        "{said}"
    );
    let said = refused(&with("dish = \"Dough ball\"", ""));
    assert!(said.contains("missing field `dish`"), "{said}");
    let said = refused("title = \"unfinished");
    assert!(said.contains("line 1"), "{said}");
}

#[test]
fn an_error_in_a_file_names_the_file() {
    let missing = Scenario::load(Path::new("no/such.toml")).unwrap_err();
    assert!(matches!(missing, ScenarioError::Unreadable { .. }));
    assert!(
        missing
            .to_string()
            .starts_with("the scenario no/such.toml cannot be read: ")
    );

    let file = std::env::temp_dir().join(format!("scenario-{}.toml", std::process::id()));
    std::fs::write(&file, with("count = 3", "count = 0")).unwrap();
    let said = Scenario::load(&file).unwrap_err().to_string();
    std::fs::remove_file(&file).unwrap();
    assert!(
        said.starts_with(&format!("{}: `portions.count` is 0;", file.display())),
        "{said}"
    );

    let said = Scenario::shipped("rough-day").unwrap_err().to_string();
    assert!(said.starts_with(
        "there is no scenario called `rough-day`; there are `saltmarsh-shrimp-taking`"
    ));
}
