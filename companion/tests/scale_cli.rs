//! The scale's own commands, through the built program.

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn evenhand(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .env("LC_ALL", "C")
        .arg("--data")
        .arg(folder)
        .args(arguments)
        .stdin(Stdio::null())
        .output()
        .unwrap()
}

fn lines(folder: &Path, arguments: &[&str]) -> Vec<Value> {
    let out = evenhand(folder, arguments);
    let errors = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{errors}");
    String::from_utf8(out.stdout)
        .unwrap()
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is no number"))
}

/// The simulated cell is drawn by the seed, with 0.05 % of capacity as the most that it bends: what
/// comes out must be what the weights and the noise allow. OIML R 111-1: a 500 g weight of class
/// M1 is within 25 mg, which makes 29 mg at k = 2 (JCGM 100, 4.3.7).
#[test]
fn a_simulated_scale_is_calibrated_step_by_step_and_tried() {
    let folder = tempfile::tempdir().unwrap();
    let calibrated = lines(
        folder.path(),
        &[
            "scale",
            "calibrate",
            "--weight",
            "200g",
            "--weight",
            "500g",
            "--class",
            "M1",
            "--simulated",
            "--json",
        ],
    );
    assert_eq!(calibrated.len(), 4, "{calibrated:?}");
    let loads: Vec<f64> = calibrated[..3]
        .iter()
        .map(|point| number(&point["load_grams"]))
        .collect();
    assert_eq!(loads, [0.0, 200.0, 500.0]);
    assert_eq!(number(&calibrated[2]["limit_grams"]), 0.025);
    let made = &calibrated[3]["calibration"];
    assert_eq!(made["points"], 3);
    let uncertainty = number(&made["uncertainty_grams"]);
    assert!((0.028..0.08).contains(&uncertainty), "{made}");
    let counts = number(&calibrated[2]["counts"]) - number(&calibrated[0]["counts"]);
    let per_gram = number(&made["counts_per_gram"]);
    assert!((counts / 500.0 / per_gram - 1.0).abs() < 1e-3, "{made}");

    let tried = lines(
        folder.path(),
        &["scale", "try", "--weight", "500g", "--simulated", "--json"],
    );
    let test = &tried[0]["test"];
    assert_eq!(test["outcome"], "pass", "{test}");
    assert!(number(&test["error_grams"]).abs() < 0.5, "{test}");
    // e = 1 g, 500 e: 1 e in service (OIML R 76-1, 3.5.2).
    assert_eq!(number(&test["limit_grams"]), 1.0);

    let history = lines(folder.path(), &["scale", "history", "--json"]);
    assert_eq!(history.len(), 2, "{history:?}");
    // A simulated bench that runs ahead of the world has times of its own: in either order.
    for (kind, found) in [("calibration", made), ("test", test)] {
        let on_record = history.iter().find_map(|line| line.get(kind));
        assert_eq!(on_record, Some(found));
    }
    let words = evenhand(folder.path(), &["scale", "history"]);
    let words = String::from_utf8(words.stdout).unwrap();
    assert!(words.contains("calibrated with 3 points"), "{words}");
    assert!(words.contains("Pass. 500.0 g reads"), "{words}");
}

#[test]
fn what_is_written_wrongly_is_named() {
    let folder = tempfile::tempdir().unwrap();
    for (arguments, says) in [
        (
            &["scale", "try", "--weight", "300g", "--simulated"][..],
            "--within",
        ),
        (
            &["scale", "try", "--weight", "-5g", "--simulated"],
            "--weight",
        ),
        (
            &[
                "scale",
                "try",
                "--weight",
                "500g",
                "--class",
                "M9",
                "--simulated",
            ],
            "--class",
        ),
        (
            &["scale", "try", "--weight", "500g"],
            "--port or --simulated",
        ),
        (&["scale", "set", "--simulated"], "nothing to set"),
        (
            &[
                "scale",
                "set",
                "--latitude",
                "95",
                "--height",
                "3",
                "--simulated",
            ],
            "--latitude",
        ),
        (&["scale", "set", "--probe", "Q", "--simulated"], "--probe"),
    ] {
        let out = evenhand(folder.path(), arguments);
        let errors = String::from_utf8_lossy(&out.stderr);
        assert_eq!(out.status.code(), Some(2), "{arguments:?}: {errors}");
        assert!(errors.contains(says), "{arguments:?}: {errors}");
    }
}

/// The simulated cell weighs up to 3 kg; the lightest portion of the dishes in use is 30 g.
#[test]
fn the_morning_is_tested_at_half_the_capacity_and_at_the_portion() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path();
    let try_with = |weights: &[&str]| {
        let mut arguments = vec!["scale", "try", "--simulated", "--json"];
        for weight in weights {
            arguments.extend(["--weight", weight]);
        }
        let said = lines(data, &arguments);
        let tried: Vec<f64> = said
            .iter()
            .filter_map(|line| line["test"]["known_grams"].as_f64())
            .collect();
        let left = said.last().unwrap()["still_to_try_grams"].clone();
        (tried, left)
    };
    let (tried, left) = try_with(&["1kg", "20g"]);
    assert_eq!((tried, left), (vec![20.0, 1_000.0], serde_json::json!([])));
    for (dish, target) in [("Potted shrimp", "30g"), ("Barley cakes", "90g")] {
        let arguments = [
            "dish",
            "add",
            dish,
            "--target",
            target,
            "--tolerance",
            "2g",
            "--adding",
        ];
        let added = evenhand(data, &arguments);
        assert!(added.status.success(), "{added:?}");
    }
    let (tried, left) = try_with(&["500g"]);
    assert_eq!((tried, left), (vec![500.0], serde_json::json!([20.0])));
}

#[test]
fn a_weight_too_light_to_tell_anything_is_refused_by_the_scale() {
    let folder = tempfile::tempdir().unwrap();
    let out = evenhand(
        folder.path(),
        &["scale", "try", "--weight", "2g", "--simulated"],
    );
    assert_eq!(out.status.code(), Some(1));
    let errors = String::from_utf8_lossy(&out.stderr);
    assert!(errors.contains("too light"), "{errors}");
    let history = lines(folder.path(), &["scale", "history", "--json"]);
    assert!(history.is_empty());
}

#[test]
fn settings_are_taken() {
    let folder = tempfile::tempdir().unwrap();
    let set = lines(
        folder.path(),
        &[
            "scale",
            "set",
            "--latitude",
            "-52.5",
            "--height",
            "40m",
            "--probe",
            "T",
            "--simulated",
            "--json",
        ],
    );
    assert_eq!(set[0]["set"], true);
}

/// Each portion says how well it is known, and whether that leaves the verdict open.
#[test]
fn portions_tell_their_uncertainty_and_whether_it_straddles_a_limit() {
    let folder = tempfile::tempdir().unwrap();
    let told = lines(
        folder.path(),
        &[
            "portion",
            "--dish",
            "Brown shrimp",
            "--target",
            "30g",
            "--tolerance",
            "1g",
            "--count",
            "12",
            "--taking",
            "--simulated",
            "--json",
        ],
    );
    let portions: Vec<&Value> = told
        .iter()
        .filter(|line| line.get("id").is_some())
        .collect();
    assert!(portions.len() >= 12);
    for portion in portions {
        let grams = number(&portion["grams"]);
        let uncertainty = number(&portion["uncertainty_grams"]);
        // The first portion out of a tin carries the cell's hysteresis over the whole tin.
        assert!((0.01..0.5).contains(&uncertainty), "{portion}");
        let straddles = [29.0, 31.0]
            .iter()
            .any(|limit| (grams - limit).abs() < uncertainty);
        assert_eq!(portion["straddles_limit"], straddles, "{portion}");
    }
}
