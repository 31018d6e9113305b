//! Sixty portions in each way of working, through a real pseudo-terminal, with
//! noise, bumps, a cable pulled in the middle, and the program killed and
//! started again: every portion is on record exactly once, each within 0.1 g of
//! the true load.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_tests::process::Running;
use serde_json::Value;

const PORTIONS: usize = 60;
const SEED: &str = "4711";
/// Killed when so many are on record: in the middle of a portion, since the
/// cook goes on meanwhile.
const KILLED_AT: usize = 20;
/// The bench's seconds in one of ours.
const SPEED: &str = "12";

/// A dish with its target and tolerance, and what stands on the pan.
struct Way {
    mode: &'static str,
    dish: &'static str,
    target: f64,
    tolerance: f64,
    vessel: &'static str,
}

const ADDING: Way = Way {
    mode: "adding",
    dish: "Dough basket",
    target: 62.0,
    tolerance: 2.0,
    vessel: "[dishes]\ngrams = [110, 150]",
};

const TAKING: Way = Way {
    mode: "taking",
    dish: "Roe",
    target: 30.0,
    tolerance: 1.0,
    vessel: "[tin]\ngrams = [85, 95]\nfilled_grams = [995, 1005]",
};

impl Way {
    /// The true masses: spread over one and a half tolerances to either side,
    /// in an order without a pattern.
    fn masses(&self) -> Vec<f64> {
        (0..PORTIONS)
            .map(|i| {
                let off = (i * 37 % PORTIONS) as f64 / (PORTIONS - 1) as f64 - 0.5;
                ((self.target + 3.0 * self.tolerance * off) * 1000.0).round() / 1000.0
            })
            .collect()
    }

    fn scenario(&self) -> String {
        let Self {
            mode,
            dish,
            target,
            tolerance,
            vessel,
        } = self;
        let masses = self.masses();
        format!(
            r#"
title = "Saltmarsh: {dish} at a busy table"
mode = "{mode}"
dish = "{dish}"

[goal]
target_grams = {target}
tolerance_grams = {tolerance}

[portions]
masses_grams = {masses:?}

{vessel}

[surroundings]
celsius = [22, 28]
hum_grams = [0.05, 0.3]
extractor_grams = [0.1, 0.3]
footfalls_a_minute = 2
footfall_grams = [1, 10]
bumps_a_minute = 2

[[event]]
kind = "cable-pull"
at_portion = 34
after_seconds = 1
for_seconds = 40
"#
        )
    }
}

fn sixty(way: &Way) {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).display().to_string();
    let (file, data) = (path("scenario.toml"), path("data"));
    std::fs::write(&file, way.scenario()).unwrap();

    let mut bench = Running::start([
        "simulate",
        "--scenario",
        &file,
        "--pty",
        "--seed",
        SEED,
        "--speed",
        SPEED,
    ])
    .unwrap();
    let port = bench.line().unwrap().expect("the port's path");
    let portion = || {
        Running::start([
            "--data",
            &data,
            "portion",
            "--port",
            &port,
            "--dish",
            way.dish,
            "--target",
            &format!("{}g", way.target),
            "--tolerance",
            &format!("{}g", way.tolerance),
            &format!("--{}", way.mode),
            "--count",
            &PORTIONS.to_string(),
            "--json",
        ])
        .unwrap()
    };

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

    let standing = standing(&data, &path("export.json"));
    assert_eq!(standing.len(), PORTIONS, "portions on record");
    for (place, (got, truth)) in standing.iter().zip(way.masses()).enumerate() {
        assert!(
            (got - truth).abs() <= 0.1,
            "portion {}: {got} g on record, {truth} g true",
            place + 1
        );
    }
}

/// The masses of the portions that count, in the order they were made, as
/// exported; each identity is there once.
fn standing(data: &str, out: &str) -> Vec<f64> {
    let mut export =
        Running::start(["--data", data, "export", "--format", "json", "--out", out]).unwrap();
    assert!(export.wait().unwrap());
    let all: Value = serde_json::from_slice(&std::fs::read(out).unwrap()).unwrap();
    let all = all.as_array().expect("a list of portions");
    let mut identities: Vec<_> = all.iter().map(|p| p["id"].as_str().unwrap()).collect();
    identities.sort_unstable();
    identities.dedup();
    assert_eq!(identities.len(), all.len(), "an identity stands twice");
    all.iter()
        .filter(|p| p["counts"] == true)
        .map(|p| p["grams"].as_f64().unwrap())
        .collect()
}

#[test]
fn adding() {
    sixty(&ADDING);
}

#[test]
fn taking() {
    sixty(&TAKING);
}
