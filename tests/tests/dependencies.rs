//! Every library named in the workspace is in the contributors' table, with why.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::BTreeSet;

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
