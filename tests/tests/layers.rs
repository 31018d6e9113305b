//! Which crate may know which: read from cargo's own picture of the workspace; and which part of
//! one may start threads: read from its source.

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Each crate of the workspace with the names of its own dependencies, those
/// of tests and benchmarks left out.
fn dependencies() -> BTreeMap<String, BTreeSet<String>> {
    let out = Command::new(env!("CARGO"))
        .args(["metadata", "--locked", "--no-deps", "--format-version", "1"])
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
        .output()
        .unwrap();
    assert!(out.status.success(), "{out:?}");
    let metadata: Value = serde_json::from_slice(&out.stdout).unwrap();
    metadata["packages"]
        .as_array()
        .unwrap()
        .iter()
        .map(|package| {
            let named = package["dependencies"]
                .as_array()
                .unwrap()
                .iter()
                .filter(|dependency| dependency["kind"].is_null())
                .map(|dependency| dependency["name"].as_str().unwrap().to_owned())
                .collect();
            (package["name"].as_str().unwrap().to_owned(), named)
        })
        .collect()
}

/// The crates that a crate leads to within the workspace, itself included.
fn reached<'a>(
    of: &'a str,
    dependencies: &'a BTreeMap<String, BTreeSet<String>>,
) -> BTreeSet<&'a str> {
    let mut seen = BTreeSet::new();
    let mut open = vec![of];
    while let Some(next) = open.pop() {
        if seen.insert(next) {
            open.extend(
                dependencies[next]
                    .iter()
                    .map(String::as_str)
                    .filter(|name| dependencies.contains_key(*name)),
            );
        }
    }
    seen
}

/// Libraries that one crate alone may name.
const ALONE: &[(&str, &[&str])] = &[
    ("rusqlite", &["evenhand-store"]),
    ("clap", &["evenhand-cli"]),
    ("eframe", &["evenhand-app"]),
    ("egui_plot", &["evenhand-app"]),
    ("fluent-bundle", &["evenhand-words"]),
    ("serialport", &["evenhand-link"]),
];

#[test]
fn a_library_of_one_room_is_named_in_no_other() {
    let dependencies = dependencies();
    for (library, rooms) in ALONE {
        let named: Vec<_> = dependencies
            .iter()
            // The end-to-end tests drive the program from outside.
            .filter(|(name, of)| *name != "evenhand-tests" && of.contains(*library))
            .map(|(name, _)| name.as_str())
            .collect();
        // The library is there: a rename does not make this pass.
        assert_eq!(named, *rooms, "who names {library}");
    }
}

#[test]
fn the_domain_and_the_use_cases_lead_to_no_face() {
    let dependencies = dependencies();
    let leads = |of: &str, to: &str| reached(of, &dependencies).contains(to);
    for domain in ["evenhand-kitchen", "evenhand-protocol", "evenhand-firmware"] {
        for above in [
            "evenhand-store",
            "evenhand-link",
            "evenhand-cli",
            "evenhand-app",
        ] {
            assert!(!leads(domain, above), "{domain} leads to {above}");
        }
    }
    for below in ["evenhand-store", "evenhand-link", "evenhand-use-cases"] {
        for face in ["evenhand-cli", "evenhand-app"] {
            assert!(!leads(below, face), "{below} leads to {face}");
        }
    }
    // What is said is made at the face and in the use cases: below are values.
    for below in [
        "evenhand-kitchen",
        "evenhand-protocol",
        "evenhand-firmware",
        "evenhand-store",
        "evenhand-link",
    ] {
        assert!(!leads(below, "evenhand-words"), "{below} leads to words");
    }
    assert!(leads("evenhand-cli", "evenhand-words"));
    assert!(!leads("evenhand-cli", "evenhand-app"));
    assert!(!leads("evenhand-app", "evenhand-cli"));
    // The walk does reach across several crates.
    assert!(leads("evenhand", "evenhand-protocol"));
    assert!(leads("evenhand-cli", "evenhand-store"));
}

/// Where a thread may be started, crate by crate.
const THREADS: &[(&str, &[&str])] = &[
    ("app", &["worker/mod.rs", "worker/once.rs"]),
    ("link", &["handle.rs"]),
    ("use-cases", &[]),
    ("kitchen", &[]),
];

#[test]
fn threads_are_started_in_one_place_a_crate() {
    for (name, places) in THREADS {
        let source = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../companion")
            .join(name)
            .join("src");
        let mut open = vec![source.clone()];
        let mut starting = BTreeSet::new();
        while let Some(folder) = open.pop() {
            for entry in fs::read_dir(&folder).unwrap() {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    open.push(path);
                } else if starts_a_thread(&fs::read_to_string(&path).unwrap()) {
                    starting.insert(path.strip_prefix(&source).unwrap().to_owned());
                }
            }
        }
        let places: BTreeSet<_> = places.iter().map(PathBuf::from).collect();
        assert_eq!(starting, places, "who starts threads in {name}");
    }
}

fn starts_a_thread(source: &str) -> bool {
    ["thread::spawn", "thread::scope", "thread::Builder"]
        .iter()
        .any(|start| source.contains(start))
}
