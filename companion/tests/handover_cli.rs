//! `evenhand service out` and `handover`.

use super::running::{self, json, run};
use jiff::{Timestamp, ToSpan};

/// Portions of today, weighed so many seconds ago, as a table to bring in.
fn weighed(rows: &[(i64, &str, f64)]) -> String {
    let now = Timestamp::now();
    let mut table = String::from("time,mass,dish,cook\n");
    for (seconds, cook, grams) in rows {
        let at = now.checked_sub((*seconds).seconds()).unwrap();
        table += &format!("{at:.0},{grams},trout,{cook}\n");
    }
    table
}

#[test]
fn what_is_ready_goes_down_by_what_goes_out() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let said = |words: &[&str]| running::said(folder, words);
    said(&[
        "dish",
        "add",
        "trout",
        "--adding",
        "--target",
        "150g",
        "--tolerance",
        "5g",
    ]);
    let file = folder.join("weighed.csv");
    let rows = [
        (30, "MO", 150.0),
        (29, "MO", 151.0),
        (28, "MO", 140.0),
        (20, "AB", 149.0),
        (19, "AB", 160.0),
        (18, "AB", 150.0),
    ];
    std::fs::write(&file, weighed(&rows)).unwrap();
    let map = "time=time,mass=mass,dish=dish,cook=cook";
    said(&[
        "import",
        file.to_str().unwrap(),
        "--map",
        map,
        "--units",
        "g",
    ]);
    said(&["service", "out", "trout", "4"]);
    said(&["service", "out", "TROUT"]);
    said(&["service", "out", "trout", "-2"]);
    let handover = json(folder, &["service", "handover"]);
    let trout = &handover["dishes"][0];
    // Six weighed, one of 140 g short and one of 160 g heavy; 4 + 1 - 2 out.
    for (field, expected) in [
        ("weighed", 6),
        ("short", 1),
        ("heavy", 1),
        ("out", 3),
        ("ready", 3),
    ] {
        assert_eq!(trout[field], expected, "{field}: {trout}");
    }
    let cooks: Vec<&str> = handover["at_work"]
        .as_array()
        .unwrap()
        .iter()
        .map(|at_work| at_work["cook"].as_str().unwrap())
        .collect();
    assert_eq!(cooks, ["AB", "MO"]);
    // A kitchen that hides names hides them here, too, and the order of them.
    said(&["service", "settings", "--cook-figures", "hidden"]);
    let hidden = json(folder, &["service", "handover"]);
    assert_eq!(hidden["at_work"].as_array().unwrap().len(), 2);
    assert!(
        !hidden.to_string().contains("AB") && !hidden.to_string().contains("MO"),
        "{hidden}"
    );
    let words = said(&["service", "handover"]);
    assert!(
        words.contains("Somebody: trout") && !words.contains("AB") && !words.contains("MO"),
        "{words}"
    );
    said(&["service", "settings", "--cook-figures", "own"]);
    // More than went out cannot be taken back, and nothing at all is no count.
    for (count, by) in [
        ("-4", "takes back more"),
        ("0", "is no count"),
        ("5000", "is no count"),
    ] {
        let (code, _, err) = run(folder, &["service", "out", "trout", count]);
        assert_eq!(code, 2, "{err}");
        assert!(err.contains(by), "{err}");
    }
    let (code, _, err) = run(folder, &["service", "out", "eel"]);
    assert_eq!(code, 2, "{err}");
    assert_eq!(
        json(folder, &["service", "handover"])["dishes"][0]["out"],
        3
    );
    // More out than on record is said, not hidden.
    said(&["service", "out", "trout", "9"]);
    assert!(said(&["service", "handover"]).contains("More went out than is on record"));
    let french = said(&["--language", "fr", "service", "handover"]);
    assert!(
        french.contains("Relève") && french.contains("servies"),
        "{french}"
    );
    // What stood there at opening is ready besides what was weighed: 5 + 6 less 12 out.
    let trout = json(folder, &["service", "ready", "trout", "5"]);
    assert_eq!(
        (&trout["left_before"], &trout["ready"]),
        (&5.into(), &(-1).into())
    );
    let eight = said(&["service", "ready", "Trout", "8"]);
    assert!(eight.contains("2 ready, 12 out"), "{eight}");
    for (dish, count) in [("eel", "1"), ("trout", "10001"), ("trout", "-1")] {
        let (code, _, err) = run(folder, &["service", "ready", dish, count]);
        assert_eq!(code, 2, "{dish} {count}: {err}");
    }
    let trout = json(folder, &["service", "handover"])["dishes"][0].clone();
    assert_eq!(trout["ready"], 2);
    let pdf = folder.join("handover.pdf");
    said(&["service", "handover", "--pdf", pdf.to_str().unwrap()]);
    assert!(std::fs::read(&pdf).unwrap().starts_with(b"%PDF"));
}
