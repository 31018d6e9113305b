//! Every library named in the workspace is in the contributors' table, with why;
//! every file of tests is run.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The libraries of the workspace's own table, without its own crates.
fn named() -> BTreeSet<String> {
    let manifest: toml::Table = toml::from_str(include_str!("../../Cargo.toml")).unwrap();
    manifest["workspace"]["dependencies"]
        .as_table()
        .unwrap()
        .keys()
        .filter(|name| !name.starts_with("evenhand"))
        .cloned()
        .collect()
}

/// The libraries of the contributors' table.
fn explained() -> BTreeSet<String> {
    let text = include_str!("../../DEVELOPERS.md");
    let (_, rest) = text.split_once("## What it stands on").unwrap();
    let section = rest.split("\n## ").next().unwrap();
    section
        .lines()
        .filter(|line| line.starts_with("| `"))
        .flat_map(|line| line.split('|').nth(1).unwrap().split(','))
        .map(|name| name.trim().trim_matches('`').to_owned())
        .collect()
}

#[test]
fn every_library_is_explained_and_no_other() {
    assert!(named().len() > 30);
    assert_eq!(explained(), named());
}

/// A crate's tests are one program, which runs what its `main.rs` names; what is a program of
/// its own is named by the crate.
#[test]
fn every_file_of_tests_is_run() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let manifest: toml::Table = toml::from_str(include_str!("../../Cargo.toml")).unwrap();
    let mut files = 0;
    for member in manifest["workspace"]["members"].as_array().unwrap() {
        let member = root.join(member.as_str().unwrap());
        let folder = member.join("tests");
        if !folder.join("main.rs").exists() {
            assert!(programs(&folder) <= 1, "{folder:?} has no main.rs");
            continue;
        }
        let main = fs::read_to_string(folder.join("main.rs")).unwrap();
        let cargo = fs::read_to_string(member.join("Cargo.toml")).unwrap();
        assert!(cargo.contains("autotests = false"), "{member:?}");
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_stem().unwrap().to_str().unwrap();
            if path.extension().is_none_or(|end| end != "rs") || name == "main" {
                continue;
            }
            files += 1;
            assert!(
                main.contains(&format!("\nmod {name};\n"))
                    || cargo.contains(&format!("[[test]]\nname = \"{name}\"\n")),
                "{folder:?}: main.rs does not name {name}, so its tests do not run"
            );
        }
    }
    assert!(files > 100, "{files} files");
}

/// How many test programs cargo makes of a folder by itself.
fn programs(folder: &Path) -> usize {
    fs::read_dir(folder).map_or(0, |entries| {
        entries
            .filter(|entry| {
                let path = entry.as_ref().unwrap().path();
                path.extension().is_some_and(|end| end == "rs")
            })
            .count()
    })
}
