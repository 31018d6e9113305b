//! Sixty portions in each way of working, through a real pseudo-terminal, with
//! noise, bumps, a cable pulled in the middle, and the program killed and
//! started again: every portion is on record exactly once, each within 0.1 g of
//! the true load.

use evenhand_tests::busy_table::{ADDING, TAKING, Way, serve};
use evenhand_tests::process::Running;
use serde_json::Value;

const PORTIONS: usize = 60;
const SEED: u64 = 4711;
/// Killed when so many are on record: in the middle of a portion, since the
/// cook goes on meanwhile.
const KILLED_AT: usize = 20;
/// The bench's seconds in one of ours.
const SPEED: u32 = 12;
const CABLE_PULL: &str = r#"
[[event]]
kind = "cable-pull"
at_portion = 34
after_seconds = 1
for_seconds = 40
"#;

fn sixty(way: &Way) {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data");
    let scenario = way.scenario(PORTIONS, CABLE_PULL);
    let (_bench, port) = serve(folder.path(), &scenario, SEED, SPEED).unwrap();
    let portion =
        || Running::start(way.portion(&data.display().to_string(), &port, PORTIONS)).unwrap();

    let mut first = portion();
    for _ in 0..KILLED_AT {
        let line = first.line().unwrap().expect("a portion");
        assert!(line.contains("\"grams\""), "{line}");
    }
    first.kill().unwrap();

    let mut second = portion();
    let mut last = String::new();
    while let Some(line) = second.line().unwrap() {
        last = line;
    }
    assert!(second.wait().unwrap(), "{last}");
    let summary: Value = serde_json::from_str(&last).unwrap();
    assert_eq!(summary["summary"]["n"], PORTIONS, "{last}");
    assert_eq!(summary["summary"]["lost"], 0, "{last}");

    let reckoning = way.reckoning(&data, PORTIONS).unwrap();
    assert_eq!(reckoning.true_portions, PORTIONS);
    assert!(reckoning.is_clean(), "{reckoning:?}");
}

#[test]
fn adding() {
    sixty(&ADDING);
}

#[test]
fn taking() {
    sixty(&TAKING);
}
