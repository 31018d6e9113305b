//! `evenhand gather`: two desktops and one that looks on, as a kitchen runs it.

use super::at_saltmarsh::Kitchen;
use std::path::Path;

const WEIGHINGS: &str =
    "When,Weight,Dish\n2026-05-01T18:30Z,30.1,Gnudi\n2026-05-01T18:31Z,31.9,Gnudi\n";
const MORE: &str = "When,Weight,Dish\n2026-05-01T18:32Z,29.1,Gnudi\n2026-05-01T18:31Z,31.9,Gnudi\n";

fn imports(kitchen: &Kitchen, text: &str) {
    let file = kitchen.file("weighings.csv", text);
    let map = "time=When,mass=Weight,dish=Dish";
    kitchen.words(&["import", &file, "--map", map, "--units", "g"]);
}

fn files(folder: &Path) -> usize {
    std::fs::read_dir(folder).unwrap().count()
}

#[test]
fn two_desktops_and_one_that_looks_on_tell_the_same() {
    let shared = tempfile::tempdir().unwrap();
    let folder = shared.path().display().to_string();
    let (pass, prep, office) = (Kitchen::new(), Kitchen::new(), Kitchen::new());
    for kitchen in [&pass, &prep] {
        kitchen.words(&[
            "dish",
            "add",
            "Gnudi",
            "--target",
            "30g",
            "--tolerance",
            "1g",
            "--adding",
        ]);
    }
    // One weighing is in both files: it is one.
    imports(&pass, WEIGHINGS);
    imports(&prep, MORE);
    for kitchen in [&pass, &prep, &pass] {
        kitchen.words(&["gather", &folder]);
    }
    assert_eq!(files(shared.path()), 2, "a journal each");
    let looked = office.json(&["gather", &folder, "--read-only"]);
    assert_eq!((&looked["told"], &looked["others"]), (&0.into(), &2.into()));
    assert_eq!(files(shared.path()), 2);
    let told: Vec<_> = [&pass, &prep, &office]
        .iter()
        .map(|kitchen| kitchen.json(&["spread", "--dish", "Gnudi"]))
        .collect();
    assert_eq!(told[0]["n"], 3, "{}", told[0]);
    assert_eq!(told[0], told[1]);
    assert_eq!(told[0], told[2]);
    let again = prep.json(&["gather", &folder]);
    assert_eq!((&again["taken"], &again["told"]), (&0.into(), &0.into()));
}

#[test]
fn what_does_not_count_is_listed_and_what_cannot_be_done_is_said() {
    let shared = tempfile::tempdir().unwrap();
    let folder = shared.path().display().to_string();
    let (pass, prep) = (Kitchen::new(), Kitchen::new());
    pass.words(&["service", "settings", "--day-begins", "03:00"]);
    prep.words(&["service", "settings", "--day-begins", "05:00"]);
    for kitchen in [&pass, &prep, &pass] {
        kitchen.words(&["gather", &folder]);
    }
    for kitchen in [&pass, &prep] {
        let settings = kitchen.json(&["service", "settings"]);
        assert_eq!(settings["day_begins"], "05:00");
        let listed = kitchen.json(&["gather", "--overruled"]);
        assert_eq!(listed["overruled"][0]["said"], "03:00", "{listed}");
    }
    let nowhere = shared.path().join("nowhere").display().to_string();
    let out = pass.evenhand(&["gather", &nowhere]);
    assert!(!out.status.success());
    let err = String::from_utf8_lossy(&out.stderr);
    assert!(
        err.contains("nowhere cannot be used") && err.contains("untouched"),
        "{err}"
    );
}
