//! `evenhand brine vessel`, and a brine told with a vessel on record.

use super::running::{json, run};
use serde_json::Value;

fn near(value: &Value, field: &str, expected: f64, within: f64) {
    let found = value[field]
        .as_f64()
        .unwrap_or_else(|| panic!("no {field} in {value}"));
    assert!(
        (found - expected).abs() <= within,
        "{field} is {found}, expected {expected}"
    );
}

// A litre of water at 20 degC is 998.21 g (Kell 1975; CRC Handbook), and shows 997.16 g in air of 1.2 kg/m3 against weights
// of 8000 kg/m3 (OIML R 111-1 conventions, from memory); a litre of 10 % brine, 1070.7 kg/m3 (CRC Handbook), shows 1069.66 g.
#[test]
fn a_vessel_filled_once_tells_brine_ever_after() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let filled = json(
        folder,
        &[
            "brine", "vessel", "fill", "Blue jug", "--water", "997.16g", "--at", "20degC",
            "--empty", "310g",
        ],
    );
    near(&filled, "volume_ml", 1_000.0, 0.05);
    near(&filled, "empty_grams", 310.0, 1e-9);
    // A scale with e = 1 g may be out by 2 g in service at 997 g (OIML R 76-1, 3.5.2); 2 g of level and 1 degC, which
    // is 0.16 ml of water in steel at 20 degC: the root of 4 + 4 + 0.03, over 0.997 g/ml in air.
    near(&filled, "volume_ml_uncertainty", 2.84, 0.05);

    let told = json(
        folder,
        &[
            "brine", "weigh", "--vessel", "blue jug", "--net", "1069.66g", "--at", "20degC",
            "--sugar", "0",
        ],
    );
    near(&told, "salt_percent_of_solution", 10.0, 0.02);
    assert_eq!(told["coverage_factor"], 2);

    // In cold water the same jug shows more, and is the same jug: 999.97 kg/m3 at 4 degC (Kell 1975), steel
    // 16 degC colder is 0.083 % smaller.
    json(
        folder,
        &[
            "brine", "vessel", "fill", "blue JUG", "--water", "998.09g", "--at", "4degC",
        ],
    );
    let (code, out, _) = run(folder, &["brine", "vessel", "list", "--json"]);
    assert_eq!((code, out.lines().count()), (0, 1), "{out}");
    let listed: Value = serde_json::from_str(out.trim()).unwrap();
    near(&listed, "volume_ml", 1_000.0, 0.1);
    assert_eq!(listed["vessel"], "Blue jug");

    let (code, _, _) = run(folder, &["brine", "vessel", "retire", "blue jug"]);
    assert_eq!(code, 0);
    let (code, _, err) = run(
        folder,
        &[
            "brine", "weigh", "--vessel", "blue jug", "--net", "1kg", "--at", "20degC",
        ],
    );
    assert_eq!(code, 2);
    assert!(err.contains("\"blue jug\""), "{err}");
}

#[test]
fn a_filling_that_cannot_be_is_refused_by_flag() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let good = [
        ("--water", "1kg"),
        ("--at", "20degC"),
        ("--material", "steel"),
        ("--empty", "300g"),
        ("--scale-within", "1g"),
        ("--level-within", "1g"),
        ("--probe-within", "1degC"),
    ];
    for (flag, bad) in [
        ("--water", "-1kg"),
        ("--water", "0g"),
        ("--water", "much"),
        ("--at", "60degC"),
        ("--at", "-5degC"),
        ("--material", "felt"),
        ("--empty", "-3g"),
        ("--scale-within", "-1g"),
        ("--level-within", "-1g"),
        ("--probe-within", "-1degC"),
    ] {
        let mut words = vec!["brine", "vessel", "fill", "jug"];
        for (name, value) in good {
            words.extend([name, if name == flag { bad } else { value }]);
        }
        let (code, out, err) = run(folder, &words);
        assert_eq!(code, 2, "{flag} {bad}: {out}{err}");
        assert!(err.contains(flag), "{flag} {bad}: {err}");
    }
    let (code, _, err) = run(
        folder,
        &[
            "brine", "vessel", "fill", " ", "--water", "1kg", "--at", "20degC",
        ],
    );
    assert_eq!(code, 2);
    assert!(err.contains("NAME"), "{err}");
    let data = evenhand_store::DataFolder::choose(Some(folder)).unwrap();
    assert!(!data.has_store(), "bad input made a store");
    drop(evenhand_store::Store::open(&data).unwrap());
    let (_, out, _) = run(folder, &["brine", "vessel", "list", "--json"]);
    assert_eq!(out, "");
    let (_, out, _) = run(folder, &["brine", "vessel", "list"]);
    assert!(out.starts_with("No vessel is on record yet"), "{out}");
}
