//! `evenhand brine in`, `out` and `expect`.

use super::running::{json, near, run};
use std::path::Path;

fn went_in(folder: &Path, more: &[&str]) -> serde_json::Value {
    let words = [
        "brine",
        "in",
        "--cut",
        "chicken breast",
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
        "--at",
        "2026-05-01T09:00",
    ];
    json(folder, &[&words[..], more].concat())
}

// By hand: 120 g over 2000 g and 750 g of water are 32.73 g in the piece in the end, 3.273 % of its raw weight. Out at
// 1050 g the bath is 2120 + 1000 - 1050 = 2070 g; at 4.9 % it has 101.43 g left, so 18.57 g went in.
#[test]
fn salt_comes_from_the_bath_and_never_from_the_gain_alone() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let first = went_in(folder, &["--core", "1.6%"]);
    near(&first["salt_percent_in_the_end"], 3.2727, 1e-3);
    assert_eq!(first["when"]["code"], "not-known-yet");
    assert_eq!(first["when"]["more_batches"], 3);
    let out = |batch: &str, more: &[&str]| {
        let words = [
            "brine",
            "out",
            batch,
            "--mass",
            "1050g",
            "--at",
            "2026-05-01T14:00",
        ];
        json(folder, &[&words[..], more].concat())
    };
    // Weighed alone, the gain is known and the salt is not.
    let alone = out("1", &[]);
    near(&alone["gain_percent"], 5.0, 1e-6);
    assert!(alone["salt_percent"].is_null());
    for batch in ["2", "3", "4"] {
        let known = went_in(folder, &["--core", "1.6%", "--for", "5h"]);
        assert_ne!(known["when"]["code"], "after");
        let tried = out(batch, &["--bath-after", "4.9%", "--within", "0.1"]);
        near(&tried["salt_percent"], 1.857, 1e-3);
    }
    // The same again, three times known: five hours come to what they came to.
    let expected = went_in(folder, &["--for", "5h", "--core", "1.6%", "--only-ask"]);
    assert!(expected["batch"].is_null());
    let salt = &expected["after"]["salt_percent"];
    assert!(
        salt["from"].as_f64().unwrap() < 1.857 && salt["to"].as_f64().unwrap() > 1.857,
        "{salt}"
    );
    near(&salt["middle"], 1.857, 0.15);
    let gain = &expected["after"]["gain_percent"];
    assert!(
        gain["from"].as_f64().unwrap() < 5.0 && gain["to"].as_f64().unwrap() > 5.0,
        "{gain}"
    );
    let when = &expected["when"];
    assert_eq!(when["code"], "after");
    // The core is behind the whole piece, so it is there later than five hours.
    assert!(when["hours_from"].as_f64().unwrap() < when["hours"].as_f64().unwrap());
    assert!(when["hours"].as_f64().unwrap() > 5.0);
    let (_, words, _) = run(folder, &["brine", "expect", "4", "--core", "1.6%"]);
    assert!(
        words.contains("Out at") && words.contains("never says"),
        "{words}"
    );
    // A bath that ends below what is wanted says so.
    let never = went_in(folder, &["--core", "3.5%", "--only-ask"]);
    assert_eq!(never["when"]["code"], "never");
}

#[test]
fn what_cannot_be_is_refused_and_leaves_no_trace() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    went_in(folder, &[]);
    for (words, flag) in [
        (&["--mass", "100g"][..], "--mass"),
        (
            &["--mass", "1.05kg", "--bath-after", "6.5%"],
            "--bath-after",
        ),
        (&["--mass", "1.05kg", "--bath-after", "2%"], "--bath-after"),
        (
            &[
                "--mass",
                "1.05kg",
                "--bath-after",
                "4.9%",
                "--bath-mass",
                "20kg",
            ],
            "--bath-mass",
        ),
        (
            &["--mass", "1.05kg", "--salt-in-piece", "9%"],
            "--salt-in-piece",
        ),
    ] {
        let words = [
            &["brine", "out", "1", "--at", "2026-05-01T14:00"][..],
            words,
        ]
        .concat();
        let (code, _, err) = run(folder, &words);
        assert_eq!(code, 2, "{words:?}: {err}");
        assert!(err.contains(flag), "{words:?}: {err}");
    }
    let (code, _, err) = run(
        folder,
        &[
            "brine",
            "out",
            "1",
            "--mass",
            "1.05kg",
            "--at",
            "2026-05-01T08:00",
        ],
    );
    assert_eq!(code, 2, "{err}");
    let (_, shown, _) = run(folder, &["batch", "show", "1"]);
    assert!(!shown.contains("out of"), "{shown}");
    let (code, _, err) = run(
        folder,
        &[
            "brine",
            "in",
            "--cut",
            "trout",
            "--mass",
            "1kg",
            "--thickness",
            "20",
            "--kind",
            "oily-fish",
            "--water",
            "1kg",
        ],
    );
    assert_eq!(code, 2, "{err}");
    assert!(err.contains("--salt"), "{err}");
}

// 150 g of soy at 16 % and 65 % water with 350 g of water: 24 g over 447.5 and 525 g of water are 12.96 g, 1.851 % of 700 g.
#[test]
fn a_sauce_counts_by_its_label() {
    let folder = tempfile::tempdir().unwrap();
    let asked = json(
        folder.path(),
        &[
            "brine",
            "in",
            "--cut",
            "trout fillet",
            "--mass",
            "700g",
            "--thickness",
            "20",
            "--kind",
            "75%",
            "--water",
            "350g",
            "--with",
            "soy sauce=150g,salt=16%,water=65%",
            "--only-ask",
        ],
    );
    near(&asked["salt_percent_in_the_end"], 1.851, 2e-3);
}
