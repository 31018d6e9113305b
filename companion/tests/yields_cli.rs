//! `evenhand batch yield` and `yields`.

use super::running::{self, json, run};

// By hand: 500 g of beans with 3.5 kg of water, 3 060 g of milk in 3 l and 700 g of pulp: 8 in, 6.12 and 1.4 out, 0.48
// lost, 1.02 kg/l. Three batches of 6.12, 6.00 and 6.24: mean 6.12, s 0.12; t(0.9; 2) = 1.886 (a table of Student's t,
// from memory) times 0.12 sqrt(4/3) is 0.261.
#[test]
fn beans_to_milk_over_three_batches() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let said = |words: &[&str]| running::said(folder, words);
    for (n, milk) in [("1", "3060g"), ("2", "3000g"), ("3", "3120g")] {
        said(&["batch", "begin", "--title", "bean milk"]);
        said(&["batch", "weigh", n, "--mass", "500g", "--name", "beans"]);
        said(&["batch", "weigh", n, "--mass", "3.5kg", "--name", "water"]);
        said(&[
            "batch", "yield", n, "--name", "milk", "--mass", milk, "--volume", "3l",
        ]);
        said(&["batch", "yield", n, "--name", "pulp", "--mass", "700g"]);
    }
    let found = json(folder, &["batch", "yields", "Bean milk", "--of", "beans"]);
    let near = |value: &serde_json::Value, expected: f64| {
        let found = value.as_f64().unwrap_or_else(|| panic!("{value}"));
        assert!(
            (found - expected).abs() < 2e-3,
            "{found}, expected {expected}"
        );
    };
    let first = &found["batches"][0];
    near(&first["in_of_base"], 8.0);
    near(&first["out"]["milk"]["of_base"], 6.12);
    near(&first["out"]["milk"]["density_kg_l"], 1.02);
    near(&first["lost_of_base"], 0.48);
    near(&found["usual"]["milk"]["mean"], 6.12);
    near(&found["usual"]["milk"]["to"], 6.381);
    for name in ["picture.svg", "picture.png"] {
        let path = folder.join(name);
        said(&[
            "batch",
            "yields",
            "bean milk",
            "--of",
            "beans",
            "--picture",
            path.to_str().unwrap(),
        ]);
    }
    let svg = std::fs::read_to_string(folder.join("picture.svg")).unwrap();
    assert!(
        svg.contains("bean milk") && svg.contains("pulp") && svg.contains("did not come out"),
        "{svg}"
    );
    assert!(
        std::fs::read(folder.join("picture.png"))
            .unwrap()
            .starts_with(b"\x89PNG")
    );
    for (words, by) in [
        (&["batch", "yields", "bean milk", "--of", "rye"][..], "--of"),
        (
            &[
                "batch",
                "yields",
                "bean milk",
                "--of",
                "beans",
                "--picture",
                "x.jpg",
            ],
            "--picture",
        ),
        (
            &[
                "batch", "yield", "1", "--name", "milk", "--mass", "1kg", "--volume", "100ml",
            ],
            "--volume",
        ),
    ] {
        let (code, _, err) = run(folder, words);
        assert_eq!(code, 2, "{words:?}: {err}");
        assert!(err.contains(by), "{words:?}: {err}");
    }
}
