//! What the program writes and where: never over the store, never into a
//! mistyped folder, and nothing simulated among what was weighed.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

/// Runs the program where `home` is where the platform keeps data.
fn evenhand(home: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .env("LC_ALL", "C")
        .args(arguments)
        .env_remove("EVENHAND_DATA")
        .env("XDG_DATA_HOME", home)
        .env("HOME", home)
        .env("TZ", "UTC")
        .stdin(Stdio::null())
        .output()
        .unwrap()
}

struct Kitchen {
    home: TempDir,
    data: PathBuf,
}

impl Kitchen {
    fn with_portions(count: &str) -> Self {
        let home = tempfile::tempdir().unwrap();
        let data = home.path().join("kitchen");
        let kitchen = Self { home, data };
        kitchen.done(&[
            "portion",
            "--simulated",
            "--dish",
            "Gnudi",
            "--target",
            "30g",
            "--tolerance",
            "1g",
            "--adding",
            "--count",
            count,
        ]);
        kitchen
    }

    fn run(&self, arguments: &[&str]) -> Output {
        let data = self.data.display().to_string();
        let arguments: Vec<_> = arguments.iter().copied().chain(["--data", &data]).collect();
        evenhand(self.home.path(), &arguments)
    }

    #[track_caller]
    fn done(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        assert!(
            output.status.success(),
            "{arguments:?}: {}",
            String::from_utf8_lossy(&output.stderr)
        );
        String::from_utf8(output.stdout).unwrap()
    }

    #[track_caller]
    fn refused(&self, arguments: &[&str], sentence: &str) {
        let output = self.run(arguments);
        let err = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {err}");
        assert!(err.contains(sentence), "{arguments:?}: {err}");
    }

    fn store(&self) -> PathBuf {
        self.data.join("evenhand.sqlite3")
    }

    fn portions(&self) -> u64 {
        let told = self.done(&["check", "--json"]);
        let told: serde_json::Value = serde_json::from_str(&told).unwrap();
        assert_eq!(told["sound"], true, "{told}");
        told["portions"].as_u64().unwrap()
    }
}

/// From the firmware on the simulated bench over the link into the store.
#[test]
fn check_says_what_bears_witness_to_the_portions() {
    let kitchen = Kitchen::with_portions("3");
    let told = kitchen.done(&["check", "--json"]);
    let told: serde_json::Value = serde_json::from_str(&told).unwrap();
    let chain = &told["chains"][0];
    assert!(chain["linked"].as_u64().unwrap() >= 3, "{told}");
    assert_eq!(chain["unlinked"], 0, "{told}");
    assert_eq!(chain["linked"], told["portions"], "{told}");
    assert_eq!(told["findings"], serde_json::json!([]));
    let said = kitchen.done(&["check"]);
    assert!(
        said.contains("in its chain, and none contradicts the one before it."),
        "{said}"
    );
}

#[cfg(unix)]
#[test]
fn no_output_goes_over_the_store_by_any_name() {
    use std::os::unix::fs::symlink;
    let kitchen = Kitchen::with_portions("3");
    let portions = kitchen.portions();
    assert!(portions >= 3);
    let aside = kitchen.home.path().join("aside");
    fs::create_dir(&aside).unwrap();
    let link = aside.join("table.csv");
    symlink(kitchen.store(), &link).unwrap();
    let second_name = aside.join("second.csv");
    fs::hard_link(kitchen.store(), &second_name).unwrap();
    let log = kitchen.data.join("evenhand.sqlite3-wal");
    let copy = aside.join("copy.sqlite3");
    kitchen.done(&["backup", copy.to_str().unwrap()]);
    let before = fs::read(kitchen.store()).unwrap();
    for path in [&kitchen.store(), &link, &second_name, &log, &copy] {
        let path = path.to_str().unwrap();
        kitchen.refused(
            &["export", "--format", "csv", "--force", "--out", path],
            "nothing was changed",
        );
        kitchen.refused(
            &[
                "portion",
                "--simulated",
                "--dish",
                "Gnudi",
                "--count",
                "1",
                "--force",
                "--picture",
                path,
            ],
            "nothing was changed",
        );
        let scenario = "saltmarsh-shrimp-taking";
        for flag in ["--truth", "--flash"] {
            kitchen.refused(
                &["simulate", "--pty", "--scenario", scenario, flag, path],
                "nothing was changed",
            );
        }
        let backup = kitchen.run(&["backup", path]);
        assert!(!backup.status.success(), "{path}");
    }
    assert_eq!(fs::read(kitchen.store()).unwrap(), before);
    assert_eq!(kitchen.portions(), portions);
    assert!(!log.exists(), "the log was made by an output");
}

#[cfg(unix)]
#[test]
fn a_link_is_replaced_and_what_it_leads_to_stays() {
    use std::os::unix::fs::symlink;
    let kitchen = Kitchen::with_portions("2");
    let precious = kitchen.home.path().join("precious.txt");
    fs::write(&precious, "the recipe").unwrap();
    let link = kitchen.home.path().join("table.csv");
    symlink(&precious, &link).unwrap();
    let path = link.to_str().unwrap();
    kitchen.refused(
        &["export", "--format", "csv", "--out", path],
        "is there already",
    );
    kitchen.done(&["export", "--format", "csv", "--force", "--out", path]);
    assert_eq!(fs::read_to_string(&precious).unwrap(), "the recipe");
    assert!(fs::read_to_string(&link).unwrap().starts_with("id,run"));
    assert!(!link.symlink_metadata().unwrap().is_symlink());
    // What is no file is not replaced at all.
    kitchen.refused(
        &["export", "--format", "csv", "--force", "--out", "/dev/null"],
        "no plain file",
    );
}

#[test]
fn a_mistyped_folder_is_refused_and_not_made() {
    let home = tempfile::tempdir().unwrap();
    let mistyped = home.path().join("kitchne");
    let data = mistyped.to_str().unwrap();
    let copy = home.path().join("copy.sqlite3");
    let copy = copy.to_str().unwrap();
    for reading in [
        &["spread"][..],
        &["export", "--format", "csv", "--out", "-"],
        &["backup", copy],
        &["check"],
        &["undo"],
        &["dish", "list"],
        &["tin", "list"],
        &["batch", "list"],
        &["service", "list"],
        &["service", "show"],
        &["service", "settings"],
        &["yield", "days"],
        &["prep", "plan", "--for", "today"],
        &["prep", "list", "--for", "today"],
        &["prep", "menu"],
        &["prep", "week"],
        &["prep", "label", "necks", "--for", "today"],
        &["prep", "gone", "necks", "--for", "today"],
        &["service", "handover"],
        &["formula", "page", "loaf"],
        &["batch", "yields", "bean milk", "--of", "beans"],
        &["prep", "tick", "mussels: wash", "--for", "today"],
        &["heat", "log"],
        &["scale", "history"],
        // What acts on something that must be there.
        &["batch", "turned", "1"],
        &["yield", "cut", "1kg", "--dish", "Gnudi"],
    ] {
        let arguments: Vec<_> = reading.iter().copied().chain(["--data", data]).collect();
        let output = evenhand(home.path(), &arguments);
        let err = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{reading:?}: {err}");
        assert!(err.contains("there is no store in"), "{reading:?}: {err}");
        assert!(!mistyped.exists(), "{reading:?} made it");
    }
}

const MENU: &str = r#"
opens = "18:00"
[[preparation]]
name = "gnudi"
[[preparation.step]]
name = "roll"
takes = "20 min"
"#;

/// A menu, a file of weights and a piece for the brine can be asked about
/// before anything is on record, and the answer begins no record.
#[test]
fn what_is_only_asked_makes_no_store_and_says_that_there_is_none() {
    let home = tempfile::tempdir().unwrap();
    let mistyped = home.path().join("kitchne");
    let data = mistyped.to_str().unwrap();
    let weights = home.path().join("weights.csv");
    fs::write(&weights, "when,g\n2026-10-01T18:00:00,30.1\n").unwrap();
    let menu = home.path().join("menu.txt");
    fs::write(&menu, MENU).unwrap();
    let (weights, menu) = (weights.to_str().unwrap(), menu.to_str().unwrap());
    let preview = &[
        "import",
        weights,
        "--preview",
        "--map",
        "time=when,mass=g",
        "--units",
        "g",
        "--dish",
        "Gnudi",
        "--target",
        "30g",
    ][..];
    let plan = &["prep", "plan", "--menu", menu, "--for", "tomorrow"][..];
    let piece = &[
        "brine",
        "in",
        "--only-ask",
        "--cut",
        "neck",
        "--mass",
        "1kg",
        "--kind",
        "75%",
        "--thickness",
        "30",
        "--water",
        "2kg",
        "--salt",
        "120g",
        "--core",
        "1.6%",
    ][..];
    for asking in [preview, plan, piece] {
        let named: Vec<_> = asking.iter().copied().chain(["--data", data]).collect();
        let output = evenhand(home.path(), &named);
        let err = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{asking:?}: {err}");
        assert!(err.contains("There is no store in"), "{asking:?}: {err}");
        assert!(!mistyped.exists(), "{asking:?} made it");
        let output = evenhand(home.path(), asking);
        assert!(output.status.success(), "{asking:?}");
        assert!(!home.path().join("evenhand").exists(), "{asking:?} made it");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn what_a_simulated_scale_makes_is_kept_apart() {
    let home = tempfile::tempdir().unwrap();
    let output = evenhand(
        home.path(),
        &[
            "portion",
            "--simulated",
            "--dish",
            "Gnudi",
            "--target",
            "30g",
            "--tolerance",
            "1g",
            "--adding",
            "--count",
            "2",
        ],
    );
    let err = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{err}");
    let own = home.path().join("evenhand");
    assert!(own.join("simulated/evenhand.sqlite3").is_file());
    assert!(!own.join("evenhand.sqlite3").exists());
    assert!(
        err.contains(&own.join("simulated").display().to_string()),
        "{err}"
    );
    // What it says to do to read them works.
    let read = evenhand(
        home.path(),
        &[
            "spread",
            "--json",
            "--data",
            own.join("simulated").to_str().unwrap(),
        ],
    );
    let told: serde_json::Value = serde_json::from_slice(&read.stdout).unwrap();
    assert_eq!(told["n"], 2);
}

#[test]
fn a_row_that_was_changed_is_named_and_the_status_says_so() {
    let kitchen = Kitchen::with_portions("3");
    let raw = rusqlite::Connection::open(kitchen.store()).unwrap();
    // By somebody who knows SQL, past what keeps rows from being rewritten.
    raw.execute_batch(
        "DROP TRIGGER portion_is_not_rewritten;
         UPDATE portion SET mass = mass + 1000 WHERE number = 2;",
    )
    .unwrap();
    drop(raw);
    let output = kitchen.run(&["check"]);
    let out = String::from_utf8_lossy(&output.stdout);
    assert_eq!(output.status.code(), Some(1), "{out}");
    assert!(out.contains("-2 does not read as it was written"), "{out}");
    // A copy of it says the same.
    let copy = kitchen.home.path().join("copy.sqlite3");
    let told = kitchen.done(&["backup", copy.to_str().unwrap()]);
    assert!(
        told.contains("-2 does not read as it was written"),
        "{told}"
    );
}
